/* SPDX-License-Identifier: GPL-3.0-or-later
   read_page.h - reads of a drawing as SVG what a person can read on paper: how shapes lie to each other, what dimension lines
   say and what their arrows stand in line with, names with their sizes, the table.  */
#ifndef BR_TESTS_DRAW_READ_PAGE_H
#define BR_TESTS_DRAW_READ_PAGE_H

#include "figure.h"
#include "read_number.h"
#include "read_shapes.h"

#define MOST_SHAPES 64
#define MOST_FACTS 1000

/* TO lies VALUE from FROM, one way.  */
typedef struct fact
{
  int upright, from, to;        /* features: shape * 2 + which; -1: the datum; -2 - k: the place of arrow K */
  int64_t place_from, place_to;
  double value, slack;
} fact;

typedef struct page
{
  svg_file file;
  shape shapes[MOST_SHAPES];
  size_t count;
  int above;                    /* numbers stand above their lines, as in metric sheets */
  int64_t datum[2];
  fact facts[MOST_FACTS];
  size_t fact_count;
  double known[2][MOST_SHAPES * 2], slack[2][MOST_SHAPES * 2];
  /* What stands at no feature: the middle of a box that an arrow points to.  */
  struct { int upright; int64_t place; double value, slack; } between[MOST_FACTS];
  size_t between_count;
  /* Of the table, what is said of corners, turns, rows and mirrors.  */
  struct { const char *dimension, *of, *from; } rows[MOST_FACTS];
  size_t row_count;
} page;

/* ---- Shapes as they lie on the page ---- */

static shape *
shape_called (page *p, const char *name, size_t length)
{
  for (size_t i = 0; i < p->count; i++)
    if (strlen (p->shapes[i].name) == length && memcmp (p->shapes[i].name, name, length) == 0)
      return &p->shapes[i];
  return NULL;
}

/* What is called as element INDEX and drawn in strokes, all of them.  */
static void
read_strokes (shape *s, const svg_file *f, size_t index)
{
  static drawn_path path;
  path.count = path.loop_count = 0;
  for (size_t i = index; i < f->count; i++)
    if (strcmp (f->elements[i].name, "path") == 0 && f->elements[i].title && strcmp (f->elements[i].title, s->name) == 0)
      read_path (&path, svg_get (&f->elements[i], "d"));
  read_form (s, &path);
}

static void
add_shape (page *p, size_t index)
{
  const svg_element *e = &p->file.elements[index];
  const char *move = svg_get (e, "transform");
  int round = strcmp (e->name, "circle") == 0;
  shape *s = &p->shapes[p->count];
  memset (s, 0, sizeof *s);
  s->name = e->title;
  s->size[0] = s->size[1] = s->size[2] = s->angle[0] = s->angle[1] = NAN;
  if (round && strcmp (e->title, "datum") == 0)
    {
      p->datum[0] = svg_number (e, "cx");
      p->datum[1] = svg_number (e, "cy");
      return;
    }
  /* The figures of a row or a mirror share a name.  */
  if (shape_called (p, e->title, strlen (e->title)))
    return;
  if (round)
    {
      s->kind = BR__CIRCLE;
      s->at[0][0] = svg_number (e, "cx");
      s->at[1][0] = svg_number (e, "cy");
    }
  else if (move)
    {
      s->kind = BR__ARC;
      assert_true (svg_next (&s->at[0][0], &move) && svg_next (&s->at[1][0], &move));
    }
  else if (strcmp (e->name, "rect") == 0)
    {
      s->kind = BR__BOX;
      s->at[0][0] = svg_number (e, "x");
      s->at[0][1] = s->at[0][0] + svg_number (e, "width");
      s->at[1][1] = svg_number (e, "y");
      s->at[1][0] = s->at[1][1] + svg_number (e, "height");
    }
  else if (svg_get (e, "d"))
    read_strokes (s, &p->file, index);
  else
    {
      read_ends (s, svg_number (e, "x1"), svg_number (e, "y1"), svg_number (e, "x2"), svg_number (e, "y2"));
      s->size[0] = 0;
    }
  for (int u = 0; u < 2 && (round || move); u++)
    s->at[u][1] = s->at[u][0];
  p->count++;
  assert_true (p->count < MOST_SHAPES);
}

/* ---- Dimension lines ---- */

typedef struct tip
{
  int64_t along, across;
} tip;

static int
compare_tips (const void *a, const void *b)
{
  const tip *x = a, *y = b;
  return x->along < y->along ? -1 : x->along > y->along;
}

/* The arrow head E; 0 if it is none.  */
static int
read_tip (tip *t, const svg_element *e, int upright)
{
  const char *d = svg_get (e, "d"), *fill = svg_get (e, "fill");
  int64_t n[6];
  if (!d || !fill || strcmp (e->name, "path") != 0)
    return 0;
  for (int k = 0; k < 6; k++)
    assert_true (svg_next (&n[k], &d));
  int64_t across = upright ? n[0] : n[1], back = (upright ? n[2] + n[4] : n[3] + n[5]) / 2;
  *t = (tip) { upright ? n[1] : n[0], across };
  return llabs (back - across) < BR__INCH / 1000;
}

/* The tips of level (upright) arrows at ACROSS, in order.  */
static size_t
find_tips (tip *tips, const page *p, int upright, int64_t across)
{
  size_t count = 0;
  for (size_t i = 0; i < p->file.count; i++)
    if (read_tip (&tips[count], &p->file.elements[i], upright) && llabs (tips[count].across - across) < BR__INCH / 500)
      {
        count++;
        assert_true (count < 100);
      }
  qsort (tips, count, sizeof *tips, compare_tips);
  return count;
}

/* The middle of a number, and the line that it belongs to: where it stands, or in metric sheets the next one below it, that is
   to its right where it runs upward.  0 if it is of no line of this direction.  */
static int
place_of_number (int64_t *along, int64_t *across, const page *p, const svg_element *e, int upright)
{
  int turned = svg_get (e, "transform") != NULL;
  int64_t down = svg_number (e, "font-size") * 35 / 100, best = INT64_MAX;
  int64_t x = svg_number (e, "x") - (turned ? down : 0), y = svg_number (e, "y") - (turned ? 0 : down);
  tip t;
  *along = upright ? y : x;
  *across = upright ? x : y;
  if (!p->above)
    return 1;
  for (size_t i = 0; i < p->file.count && turned == upright; i++)
    if (read_tip (&t, &p->file.elements[i], upright) && t.across > *across && t.across < *across + BR__INCH / 6
        && t.across < best)
      best = t.across;
  *across = best;
  return best < INT64_MAX;
}

static void
add_fact (page *p, fact f)
{
  assert_true (p->fact_count < MOST_FACTS);
  p->facts[p->fact_count++] = f;
}

/* 1 if a number, or words in its stead, on the level ACROSS lies between LOW and HIGH: these arrows have their number.  */
static int
has_number (const page *p, int upright, int64_t across, int64_t low, int64_t high)
{
  int64_t along, at;
  for (size_t i = 1; i < p->file.count; i++)
    {
      const svg_element *e = &p->file.elements[i];
      if (strcmp (e->name, "text") == 0 && (is_number (e->text) || svg_get (e, "text-anchor")) && place_of_number (&along, &at, p, e, upright)
          && llabs (at - across) < BR__INCH / 500 && along > low && along < high)
        return 1;
    }
  return 0;
}

/* How far the text E goes to either side of its middle, along a dimension line.  */
static int64_t
half_of_number (const svg_element *e, int upright)
{
  int64_t size = svg_number (e, "font-size");
  return (svg_get (e, "transform") != NULL) == upright ? br__text_width (e->text, size) / 2 : size * 35 / 100;
}

/* A number on the figure belongs to the pair of arrows on its level that it lies between; or else to the pair beside it that
   has none, the one that it stands nearer to.  */
static void
read_dimension (page *p, const svg_element *e)
{
  tip tips[100];
  const char *text = e->text, *times = strstr (text, "x ");
  double value = 0, slack = 0;
  text = times ? times + 2 : text;
  assert_true (read_number (&value, &slack, &text));
  slack = slack > 0.1 ? half_mark : slack;
  int64_t best = INT64_MAX;
  fact f = { .upright = -1, .from = -2, .to = -2, .value = value, .slack = slack };
  for (int upright = 0; upright < 2; upright++)
    {
      int64_t along, across;
      if (!place_of_number (&along, &across, p, e, upright))
        continue;
      size_t count = find_tips (tips, p, upright, across);
      for (size_t i = 0; i + 1 < count; i += 2)
        {
          int64_t low = tips[i].along, high = tips[i + 1].along;
          int64_t away = along < low ? low - along : along > high ? along - high : 0;
          away = away ? llabs (away - half_of_number (e, upright)) : 0;
          if (away < best && (!away || !has_number (p, upright, across, low, high)))
            {
              best = away;
              f.upright = upright;
              f.place_from = upright ? high : low;
              f.place_to = upright ? low : high;
            }
        }
    }
  if (f.upright < 0)
    fail_msg ("no arrows belong to %s", e->text);
  /* "6x 4 (= 24)": the same from each step to the next.  */
  if (strncmp (text, " (= ", 4) == 0)
    {
      const int64_t steps = strtol (e->text, NULL, 10), long_way = f.place_to - f.place_from;
      double whole = 0;
      text += 4;
      assert_true (read_number (&whole, &slack, &text) && strcmp (text, ")") == 0 && steps >= 3);
      assert_float_equal (whole, value * (double) steps, 1e-5);
      for (int64_t k = 1; k <= steps; k++)
        {
          fact step = f;
          step.place_to = f.place_from + long_way * k / steps;
          step.value = value * (double) k;
          add_fact (p, step);
        }
      return;
    }
  add_fact (p, f);
  /* "3x 2-5/16" is said of all boxes that look the same as the one that it spans.  */
  for (size_t i = 0; times && i < p->count; i++)
    for (size_t k = 0; k < p->count; k++)
      {
        const shape *s = &p->shapes[i], *t = &p->shapes[k];
        int same = s->kind == BR__BOX && t->kind == BR__BOX;
        for (int u = 0; u < 2 && same; u++)
          same = llabs ((s->at[u][1] - s->at[u][0]) - (t->at[u][1] - t->at[u][0])) < NEAR;
        if (same && llabs (s->at[f.upright][0] - f.place_from) < NEAR && llabs (s->at[f.upright][1] - f.place_to) < NEAR)
          add_fact (p, (fact) { .upright = f.upright, .from = (int) k * 2, .to = (int) k * 2 + 1, .value = value, .slack = slack });
      }
}

/* ---- Names and the table ---- */

/* "wheel ⌀ 6", "(3) strut, 5 overall, 3/8 wide".  */
static void
read_label (page *p, const char *text, size_t length)
{
  char copy[400];
  double slack;
  assert_true (length < sizeof copy);
  memcpy (copy, text, length);
  copy[length] = 0;
  const char *s = copy;
  if (*s == '(' && strchr (s, ')'))
    s = strchr (s, ')') + 2;
  shape *it = shape_called (p, s, strcspn (s, " ,"));
  if (!it)
    return;
  if (it->kind == BR__CIRCLE)
    (void) read_size (&it->size[0], &slack, s, "\xE2\x8C\x80 ");
  if (it->kind == BR__ARC && read_size (&it->size[0], &slack, s, " R "))
    {
      const char *comma = strchr (s, ',');
      it->size[1] = 0;
      if (comma)
        (void) read_size (&it->size[1], &slack, comma, ", ");
    }
  /* A ring.  */
  if (it->kind == BR__ARC && read_size (&it->size[0], &slack, s, "hole \xE2\x8C\x80 ") && read_size (&it->size[1], &slack, s, "\xE2\x8C\x80 "))
    {
      it->size[0] /= 2;
      it->size[1] = it->size[1] / 2 - it->size[0];
    }
  if (it->kind == BR__LINE && strstr (s, " wide"))
    {
      const char *comma = strrchr (s, ',');
      assert_non_null (comma);
      (void) read_size (&it->size[0], &slack, comma, ", ");
    }
}

/* "deck, left": the feature, or -1 for the datum; -3 if it is none, as the heading is.  */
static int
feature_called (page *p, const char *text, size_t length, int upright)
{
  const char *comma = memchr (text, ',', length);
  size_t name = comma ? (size_t) (comma - text) : length;
  const shape *s = shape_called (p, text, name);
  if (length == 5 && memcmp (text, "datum", 5) == 0)
    return -1;
  if (!s)
    return -3;
  const char *which = comma ? comma + 2 : "centre";
  int high = strncmp (which, "right", 5) == 0 || strncmp (which, "top", 3) == 0 || strncmp (which, "upper", 5) == 0;
  if (s->kind == BR__LINE)
    {
      int64_t across = s->at[0][1] - s->at[0][0], up = s->at[1][0] - s->at[1][1];
      high = (across ? across > 0 : up > 0) == high;
    }
  (void) upright;
  return (int) (s - p->shapes) * 2 + (s->kind == BR__BOX || s->kind == BR__LINE || s->kind == BR__OUTLINE ? high : 0);
}

/* The number NAME ends with; *STEM: how long it is without.  */
static int
number_of_name (const char *name, size_t length, size_t *stem)
{
  *stem = length;
  while (*stem && name[*stem - 1] >= '0' && name[*stem - 1] <= '9')
    --*stem;
  return *stem < length ? atoi (name + *stem) : 0;
}

/* The piece of LENGTH at S that says the same of several names, as "peg_1 to 6, top" and "peg_1 and 2" do, is written out for the
   first, the second …: name INDEX of it, in TO.  0: no more.  */
static int
read_of_several (char to[400], const char *s, size_t length, int index)
{
  size_t name = 0, stem;
  while (name < length && s[name] != ' ' && s[name] != ',')
    name++;
  int first = number_of_name (s, name, &stem), last = first, used = 0;
  char word[4] = "";
  if (sscanf (s + name, " %3[a-z] %d%n", word, &last, &used) != 2 || name + (size_t) used > length || (strcmp (word, "to") != 0 && strcmp (word, "and") != 0))
    used = 0;
  else
    assert_true (last - first >= 1 && (last - first == 1) == (strcmp (word, "and") == 0));
  size_t rest = name + (size_t) used;
  if (!used)
    snprintf (to, 400, "%.*s", (int) length, s);
  else
    snprintf (to, 400, "%.*s%d%.*s", (int) stem, s, first + index, (int) (length - rest), s + rest);
  return used ? first + index <= last : index == 0;
}

static void
read_row (page *p, const char *dimension, const char *of, const char *from)
{
  double value = 0, slack = 0;
  const char *at = dimension;
  if (strstr (of, ", corner ") || strstr (of, ", side to ") || strstr (of, ", mirror of ") || strstr (dimension, ", turned") || strstr (dimension, " \xC3\x97 "))
    {
      assert_true (p->row_count < MOST_FACTS);
      p->rows[p->row_count].dimension = dimension;
      p->rows[p->row_count].of = of;
      p->rows[p->row_count++].from = from;
      return;
    }
  /* "3 across, 2 up": both of one point.  */
  if (strstr (dimension, " across, "))
    {
      static char both[2][80];
      snprintf (both[0], sizeof both[0], "%.*s", (int) (strstr (dimension, ", ") - dimension), dimension);
      snprintf (both[1], sizeof both[1], "%s", strstr (dimension, ", ") + 2);
      read_row (p, both[0], of, from);
      read_row (p, both[1], of, from);
      return;
    }
  int number = read_number (&value, &slack, &at), centre = strcmp (dimension, "same centre") == 0;
  int point = strcmp (dimension, "same point") == 0;
  slack = slack > 0.1 ? half_mark : slack;
  if (number && strncmp (at, "\xC2\xB0", 2) == 0)
    {
      shape *s = shape_called (p, of, strcspn (of, ","));
      assert_non_null (s);
      s->angle[0] = value;
      at = strstr (at, "to ") + 3;
      assert_true (read_number (&s->angle[1], &slack, &at));
      return;
    }
  int upright = strstr (dimension, " up") || strcmp (dimension, "same height") == 0;
  assert_true (number || centre || point || upright || strcmp (dimension, "in line") == 0);
  const char *part = "; ";
  char one[400], base[400];
  /* What is said of several from several is said of each from its own.  */
  int pairs = read_of_several (base, from, strlen (from), 1);
  assert_true (!pairs || (centre && !strstr (of, part)));
  for (const char *s = of; s; )
    {
      const char *end = strstr (s, part);
      const size_t length = end ? (size_t) (end - s) : strlen (s);
      for (int i = 0; read_of_several (one, s, length, i); i++)
        {
          assert_true (read_of_several (base, from, strlen (from), pairs ? i : 0));
          const int it = feature_called (p, one, strlen (one), upright), its_base = feature_called (p, base, strlen (base), upright);
          const int both = strstr (one, ", both ends") != NULL;
          if (it < 0 || its_base < -1)
            fail_msg ("%s | %s | %s", dimension, of, from);
          for (int k = 0; k < 1 + both; k++)
            add_fact (p, (fact) { .upright = upright, .from = its_base, .to = both ? it / 2 * 2 + k : it, .value = number ? value : 0,
                                  .slack = number ? slack : 1e-9 });
          if (centre || point)
            add_fact (p, (fact) { .upright = 1, .from = its_base, .to = it, .slack = 1e-9 });
        }
      s = end ? end + 2 : NULL;
    }
}

/* The middle of a text's height.  */
static int64_t
middle_of (const svg_element *e)
{
  return svg_number (e, "y") - svg_number (e, "font-size") * 35 / 100;
}

#define MOST_PIECES 20

/* The heads of the table's columns: its pieces stand beside each other, and one below the other.  */
typedef struct table_heads
{
  const svg_element *rows[MOST_PIECES][3];
  size_t count;
} table_heads;

static void
find_heads (table_heads *h, const svg_file *f)
{
  static const char *const words[] = { "dimension", "of", "from" };
  h->count = 0;
  for (size_t i = 1; i < f->count; i++)
    for (size_t k = 0; k < 3; k++)
      if (strcmp (f->elements[i].name, "text") == 0 && strcmp (f->elements[i].text, words[k]) == 0)
        {
          assert_true (h->count < MOST_PIECES);
          h->rows[h->count][k] = &f->elements[i];
          h->count += k == 2;
        }
}

/* The head that E stands under, in a column of the table; NULL: none.  */
static const svg_element *
head_over (size_t *column, const table_heads *h, const svg_element *e, const svg_element *title)
{
  const svg_element *found = NULL;
  for (size_t i = 0; i < h->count && !svg_get (e, "text-anchor") && middle_of (e) < middle_of (title); i++)
    for (size_t k = 0; k < 3; k++)
      {
        const svg_element *head = h->rows[i][k];
        /* Heads of a piece of the table that stands below another.  */
        if (e == head)
          return NULL;
        if (svg_number (head, "x") == svg_number (e, "x") && middle_of (head) < middle_of (e) && (!found || middle_of (head) > middle_of (found)))
          {
            found = head;
            *column = k;
          }
      }
  return found;
}
/* A number on the figure, or names.  */
static void
read_text (page *p, const svg_element *e)
{
  const char *s = e->text, *anchor = svg_get (e, "text-anchor");
  int balloon = 0;
  for (size_t k = 1; k < p->file.count; k++)
    if (strcmp (p->file.elements[k].name, "circle") == 0 && !p->file.elements[k].title)
      balloon |= llabs (svg_number (&p->file.elements[k], "cx") - svg_number (e, "x")) < BR__INCH / 100
                 && llabs (svg_number (&p->file.elements[k], "cy") - svg_number (e, "y")) < BR__INCH / 10;
  /* A number in a circle is a name.  */
  if (!balloon && anchor && strcmp (anchor, "middle") == 0 && is_number (s))
    read_dimension (p, e);
  for (const char *end; s; s = end ? end + 2 : NULL)
    {
      char one[400];
      end = strstr (s, "; ");
      /* "(3 to 9) peg_1 to 7": the numbers of balloons say which these are.  */
      if (*s == '(' && strchr (s, ')') && (!end || strchr (s, ')') < end))
        s = strchr (s, ')') + 2;
      for (int i = 0; read_of_several (one, s, end ? (size_t) (end - s) : strlen (s), i); i++)
        read_label (p, one, strlen (one));
    }
}

/* What stands in the row of E, which is in the first column under HEAD, in column K.  */
static const svg_element *
beside (const page *p, const table_heads *h, const svg_element *e, const svg_element *head, size_t k, const svg_element *title)
{
  size_t column = 0;
  for (size_t i = 1; i < p->file.count; i++)
    {
      const svg_element *other = &p->file.elements[i];
      const svg_element *over = strcmp (other->name, "text") == 0 && middle_of (other) == middle_of (e) ? head_over (&column, h, other, title) : NULL;
      for (size_t n = 0; over && column == k && n < h->count; n++)
        if (h->rows[n][0] == head && h->rows[n][k] == over)
          return other;
    }
  return NULL;
}

/* What the elements of P's file say.  */
static void
read_elements (page *p)
{
  static table_heads h;
  const svg_element *title = NULL;
  find_heads (&h, &p->file);
  for (size_t i = 1; i < p->file.count; i++)
    {
      const svg_element *e = &p->file.elements[i];
      if (e->title && strcmp (e->name, "svg") != 0)
        add_shape (p, i);
      if (strcmp (e->name, "text") != 0)
        continue;
      p->above |= strcmp (e->text, "sizes in mm") == 0 || strcmp (e->text, "sizes in cm") == 0;
      /* Below the table: the title block, on a template first how it is used.  */
      if (!title && (strncmp (e->text, "sizes in ", 9) == 0 || strstr (e->text, ", full size")))
        title = e;
    }
  for (size_t i = 1; i < p->file.count; i++)
    {
      const svg_element *e = &p->file.elements[i];
      size_t column = 0;
      const svg_element *head = strcmp (e->name, "text") == 0 ? head_over (&column, &h, e, title) : NULL;
      const svg_element *of = head && column == 0 ? beside (p, &h, e, head, 1, title) : NULL, *from = of ? beside (p, &h, e, head, 2, title) : NULL;
      if (from)
        read_row (p, e->text, of->text, from->text);
      /* Names may stand below a piece of the table: nothing is beside them.  */
      else if (strcmp (e->name, "text") == 0 && (!head || (column == 0 && !of)))
        read_text (p, e);
    }
}

CHECK_UNUSED static void
read_page (page *p, const char *path)
{
  svg_read (&p->file, path);
  read_elements (p);
}

#endif
