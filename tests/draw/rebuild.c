/* SPDX-License-Identifier: GPL-3.0-or-later
   rebuild.c - whether the shapes can be drawn again from the page alone.  Of a drawing as SVG that is read which a person can
   read: what dimension lines say and what their arrows stand in line with, the names with their sizes, the table.  From the
   datum on all places are worked out from these, and come out as in the sheet, to what the numbers on the page say.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../shape/wire.h"
#include "ask.h"
#include "forms.h"
#include "source.h"
#include "views_page.h"
#include "shape/depth.h"


/* ---- To work it out ---- */

/* The value at an end of F, or NAN: of a feature, of the datum, or of any feature in line with an arrow.  */
static double
value_at (const page *p, const fact *f, int end, double *slack)
{
  int it = end ? f->to : f->from;
  int64_t place = end ? f->place_to : f->place_from;
  *slack = 0;
  if (it >= 0)
    {
      *slack = p->slack[f->upright][it];
      return p->known[f->upright][it];
    }
  if (it == -1 || llabs (place - p->datum[f->upright]) < NEAR)
    return 0;
  for (size_t i = 0; i < p->count * 2; i++)
    if (llabs (p->shapes[i / 2].at[f->upright][i % 2] - place) < NEAR && !isnan (p->known[f->upright][i]))
      {
        *slack = p->slack[f->upright][i];
        return p->known[f->upright][i];
      }
  for (size_t i = 0; i < p->between_count; i++)
    if (p->between[i].upright == f->upright && llabs (p->between[i].place - place) < NEAR)
      {
        *slack = p->between[i].slack;
        return p->between[i].value;
      }
  return NAN;
}

/* Gives VALUE to what F ends at; arrows give it to all that they stand in line with.  1 if that was news.  */
static int
give (page *p, const fact *f, int end, double value, double slack)
{
  int it = end ? f->to : f->from, news = 0;
  int64_t place = end ? f->place_to : f->place_from;
  for (int i = 0; i < (int) p->count * 2; i++)
    if (it >= 0 ? i == it : it == -2 && llabs (p->shapes[i / 2].at[f->upright][i % 2] - place) < NEAR)
      {
        double *known = &p->known[f->upright][i];
        if (!isnan (*known))
          continue;
        *known = value;
        p->slack[f->upright][i] = slack;
        news = 1;
      }
  double ignored;
  if (it == -2 && !news && isnan (value_at (p, f, end, &ignored)))
    {
      assert_true (p->between_count < MOST_FACTS);
      p->between[p->between_count].upright = f->upright;
      p->between[p->between_count].place = place;
      p->between[p->between_count].value = value;
      p->between[p->between_count++].slack = slack;
      news = 1;
    }
  return news;
}

static void
work_out (page *p)
{
  for (int u = 0; u < 2; u++)
    for (size_t i = 0; i < p->count * 2; i++)
      p->known[u][i] = NAN;
  for (int news = 1; news; )
    {
      news = 0;
      for (size_t i = 0; i < p->fact_count; i++)
        for (int end = 0; end < 2; end++)
          {
            double slack, from = value_at (p, &p->facts[i], end, &slack);
            if (!isnan (from))
              news |= give (p, &p->facts[i], !end, end ? from - p->facts[i].value : from + p->facts[i].value,
                            slack + p->facts[i].slack);
          }
      /* The two of a centre are one.  */
      for (int u = 0; u < 2; u++)
        for (size_t i = 0; i < p->count; i++)
          if (p->shapes[i].kind == BR__CIRCLE || p->shapes[i].kind == BR__ARC)
            p->known[u][2 * i + 1] = p->known[u][2 * i];
    }
}

/* ---- Against the sheet ---- */

static double
in_unit_of (const br_sheet *sheet, const br__value *v)
{
  char text[64];
  assert_non_null (v);
  assert_true (br_real_write_decimal (text, sizeof text, NULL, &v->real, 15, 0, NULL) < sizeof text);
  double unit = v->dimension == BR_LENGTH ? (double) sheet->settings.unit->num / (double) sheet->settings.unit->den : 1;
  return strtod (text, NULL) / unit;
}

static double
in_unit (const br_sheet *sheet, const br__shape *s, int part)
{
  return in_unit_of (sheet, br__shape_value (sheet, s, part));
}

static void
is_told (const shape *s, const char *what, double found, double right, double slack)
{
  if (isnan (found))
    fail_msg ("%s of %s stands nowhere on the page", what, s->name);
  if (fabs (found - right) > slack + 1e-5)
    fail_msg ("%s of %s: %.6f on the page, %.6f in the sheet", what, s->name, found, right);
}

static void
check_shape (page *p, br_sheet *sheet, size_t index, const double datum[2])
{
  const shape *s = &p->shapes[index];
  if (br__is_unmeasured (sheet, s->name))
    return;
  const br__shape *it = br__shape_find (sheet, s->name, strlen (s->name));
  assert_non_null (it);
  if (it->base)
    {
      check_copies (p, sheet, it, s, datum);
      return;
    }
  if (it->kind == BR__OUTLINE)
    {
      check_outline (p, sheet, it, index, datum);
      return;
    }
  double a = in_unit (sheet, it, BR__SHAPE_A), b = it->kind == BR__CIRCLE ? 0 : in_unit (sheet, it, BR__SHAPE_B);
  /* Which end of a line the sheet begins with is on no page.  */
  if (it->kind == BR__LINE && (a < 0 || (a == 0 && b < 0)))
    a = -a, b = -b;
  for (int u = 0; u < 2; u++)
    {
      double centre = in_unit (sheet, it, BR__SHAPE_X + u) - datum[u], half = (u ? b : a) / 2;
      /* A box that holes are cut out of at its edge looks like an outline.  */
      int two = it->kind == BR__BOX || s->kind == BR__LINE;
      for (int k = 0; k < 1 + two; k++)
        is_told (s, u ? "the height" : "the place", p->known[u][2 * index + (size_t) k], centre + (two ? k ? half : -half : 0),
                 p->slack[u][2 * index + (size_t) k]);
    }
  if (s->kind == BR__CIRCLE)
    is_told (s, "the diameter", s->size[0], 2 * a, half_mark);
  if (s->kind == BR__LINE)
    is_told (s, "the width", s->size[0], in_unit (sheet, it, BR__SHAPE_C), half_mark);
  if (s->kind != BR__ARC)
    return;
  double from = in_unit (sheet, it, BR__SHAPE_C), turn = in_unit (sheet, it, BR__SHAPE_D);
  is_told (s, "the radius", s->size[0], a, half_mark);
  is_told (s, "the thickness", s->size[1], b - a, half_mark);
  if (turn < 360)
    {
      is_told (s, "the beginning", s->angle[0], from, 1e-3);
      is_told (s, "the end", s->angle[1], from + turn, 1e-3);
    }
}

/* ---- Holes of a template, which are called by their drills ---- */

/* How far the hole E, of which S is read, is from its edge to X Y, in billionths of an inch.  */
static double
from_edge (const page *p, const shape *s, int64_t x, int64_t y)
{
  double at[2][2], away[2];
  for (int u = 0; u < 2; u++)
    for (int i = 0; i < 2; i++)
      at[u][i] = (double) s->at[u][i];
  if (s->kind == BR__CIRCLE)
    return fabs (hypot ((double) x - at[0][0], (double) y - at[1][0]) - (double) svg_number (svg_find (&p->file, "circle", s->name), "r"));
  const char *d = svg_get (svg_find (&p->file, "path", s->name), "d");
  int64_t begins[2] = { 0, 0 };
  assert_true (svg_next (&begins[0], &d) && svg_next (&begins[1], &d));
  double run = at[0][1] - at[0][0], rise = at[1][1] - at[1][0], t;
  t = (((double) x - at[0][0]) * run + ((double) y - at[1][0]) * rise) / (run * run + rise * rise);
  t = t < 0 ? 0 : t > 1 ? 1 : t;
  away[0] = (double) x - at[0][0] - t * run;
  away[1] = (double) y - at[1][0] - t * rise;
  return fabs (hypot (away[0], away[1]) - fmin (hypot ((double) begins[0] - at[0][0], (double) begins[1] - at[1][0]),
                                                hypot ((double) begins[0] - at[0][1], (double) begins[1] - at[1][1])));
}

/* The next straight stroke of E, of which *D is the rest of a path; 0: no more.  */
static int
next_stroke (int64_t n[4], const svg_element *e, const char **d)
{
  static const char *const keys[] = { "x1", "y1", "x2", "y2" };
  if (strcmp (e->name, "line") == 0 && !*d)
    {
      for (int k = 0; k < 4; k++)
        n[k] = svg_number (e, keys[k]);
      *d = "";
      return 1;
    }
  return strcmp (e->name, "path") == 0 && svg_next (&n[0], d) && svg_next (&n[1], d) && svg_next (&n[2], d) && svg_next (&n[3], d);
}

/* The hole that the leader from X Y, a line askew, ends at, or NULL; of several it is the one NAMED.  */
static shape *
hole_pointed_at (page *p, int64_t x, int64_t y, const shape *named)
{
  shape *found = NULL;
  double best = 0.002e9;
  for (size_t i = 0; i < p->file.count; i++)
    {
      const svg_element *e = &p->file.elements[i];
      const char *d = svg_get (e, "d");
      int64_t n[4];
      while (!e->title && next_stroke (n, e, &d))
        {
          double off = hypot ((double) (n[0] - x), (double) (n[1] - y));
          for (size_t k = 0; k < p->count && n[0] != n[2] && n[1] != n[3] && off <= best; k++)
            if ((off < best || &p->shapes[k] == named) && (p->shapes[k].kind == BR__CIRCLE || p->shapes[k].kind == BR__LINE)
                && from_edge (p, &p->shapes[k], n[2], n[3]) < 100)
              {
                best = off;
                found = &p->shapes[k];
              }
        }
    }
  return found;
}

/* The hole that the balloon with NUMBER points at: its leader begins on one side of the circle.  */
static shape *
hole_of_balloon (page *p, const char *number, const shape *named)
{
  for (size_t i = 1; i < p->file.count; i++)
    if (strcmp (p->file.elements[i].name, "text") == 0 && strcmp (p->file.elements[i].text, number) == 0)
      for (int side = -1; side < 2; side += 2)
        {
          shape *s = hole_pointed_at (p, svg_number (&p->file.elements[i], "x") + side * BR__INCH / 9, middle_of (&p->file.elements[i]),
                                      named);
          if (s)
            return s;
        }
  return NULL;
}

/* "drill 1/4", "h1, â 0.3, nearest drill 19/64", "slot, drill 3/8", "(2) drill 1/4": of the hole that its leader points
   at.  */
static void
read_drill (page *p, const svg_element *e, const char *text)
{
  double value, slack;
  char number[24];
  if (!read_size (&value, &slack, text, "â ") && !read_size (&value, &slack, text, "drill "))
    return;
  int balloon = sscanf (text, "(%20[0-9])", number) == 1;
  const char *anchor = svg_get (e, "text-anchor");
  int64_t aside = BR__INCH / 32 * (anchor && strcmp (anchor, "end") == 0 ? 1 : -1);
  text = balloon ? strchr (text, ')') + 2 : text;
  /* A name before it, as the table has it, is that of the hole.  */
  size_t name = strcspn (text, ",");
  const shape *named = text[name] ? shape_called (p, text, name) : NULL;
  shape *s = balloon ? hole_of_balloon (p, number, named) : hole_pointed_at (p, svg_number (e, "x") + aside, middle_of (e), named);
  if (!s)
    fail_msg ("no hole belongs to %s", e->text);
  if (named && named != s)
    fail_msg ("%s points at %s", e->text, s->name);
  s->size[0] = value;
}

static void
read_drills (page *p)
{
  for (size_t i = 1; i < p->file.count; i++)
    if (strcmp (p->file.elements[i].name, "text") == 0)
      for (const char *s = p->file.elements[i].text, *end; s; s = end ? end + 2 : NULL)
        {
          end = strstr (s, "; ");
          char piece[400];
          snprintf (piece, sizeof piece, "%.*s", (int) (end ? (size_t) (end - s) : strlen (s)), s);
          read_drill (p, &p->file.elements[i], piece);
        }
}

/* All shapes of SHEET by what P says.  */
static void
check_page (page *p, br_sheet *sheet)
{
  work_out (p);
  size_t tied = 0;
  double datum[2] = { 1e9, 1e9 };
  int given = br__datum_is_given (sheet);
  for (const br__shape *it = sheet->shapes; it; it = it->next)
    if (it->active && it->hole && it->of)
      tied++;                   /* it takes wood away: the whole reaches no farther */
    else if (it->active)
      {
        double left = in_unit (sheet, it, BR__SHAPE_X) + in_unit (sheet, it, BR__SHAPE_LEFT);
        double low = in_unit (sheet, it, BR__SHAPE_Y) + in_unit (sheet, it, BR__SHAPE_BOTTOM);
        datum[0] = left < datum[0] ? left : datum[0];
        datum[1] = low < datum[1] ? low : datum[1];
        tied++;
      }
  for (int k = 0; k < 2 && given; k++)
    datum[k] = in_unit_of (sheet, br__datum_value (sheet, k));
  assert_int_equal (p->count, tied);
  for (size_t i = 0; i < p->count; i++)
    check_shape (p, sheet, i, datum);
}

/* Draws SHEET, which it takes over, with STATEMENT and builds it again.  */
static void
rebuild (br_sheet *sheet, const char *statement)
{
  static page p;
  said s = SAID_ZERO;
  memset (&p, 0, sizeof p);
  half_mark = strcmp (sheet->settings.unit->name, "mm") == 0 ? 0.51 : 1.0 / 32 + 1e-3;
  sheet_say (sheet, &s, "%s into a.svg", statement);
  read_page (&p, "a.svg");
  if (strncmp (statement, "template", 8) == 0)
    read_drills (&p);
  check_page (&p, sheet);
  svg_clear (&p.file);
  sheet_end (sheet, &s);
}

/* ---- Designs ---- */

static void
give_datum (br_sheet *sheet, int64_t x, int64_t y)
{
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "datum %" PRId64 "/16, %" PRId64 "/16", x, y);
  said_clear (&s);
}

static void
test_random (void **state)
{
  static const char *const scales[] = { "draw scale 1:1", "draw scale 1:4", "draw", "draw scale 1:8 paper a3" };
  (void) state;
  for (long i = check_times (100); i > 0; i--)
    {
      br_sheet *sheet = random_deep_shapes ((int) check_between (1, 24), 480, 240, (int) check_below (2));
      /* A datum of its own, that may lie outside of all shapes.  */
      if (check_below (2))
        give_datum (sheet, check_between (-80, 560), check_between (-80, 320));
      if (check_below (2))
        ask (sheet, 0);
      rebuild (sheet, scales[check_below (CHECK_COUNT (scales))]);
    }
}

/* Pegs in rows and columns, of which one line says all steps, and pegs that lie nowhere in line.  */
static void
test_pegs (void **state)
{
  (void) state;
  for (long i = check_times (12); i > 0; i--)
    {
      int64_t rows = check_between (1, 7), columns = check_between (2, 7), step = check_between (6, 40);
      rebuild (peg_board (rows, columns, step, (int) check_below (2)), check_below (2) ? "draw scale 1:4" : "draw");
    }
}

/* A sheet of COUNT outlines, boxes with rounds and cuts, rings, slots, some of them turned, in rows or mirrored.  */
static br_sheet *
random_forms (int count)
{
  br_sheet *sheet = NULL;
  check_ok (br_sheet_new (&sheet));
  for (int i = 0; i < count; i++)
    {
      static wire w;
      wire_outline o;
      said s = SAID_ZERO;
      char *text = NULL, name[16];
      size_t length;
      int kind = (int) check_below (5), x = (int) check_between (0, 400), y = (int) check_between (0, 200), a = (int) check_between (16, 64);
      int b = (int) check_between (16, 64), c = (int) check_between (1, 7), turn = (int) check_below (3), more = (int) check_below (3);
      FILE *out = open_memstream (&text, &length);
      snprintf (name, sizeof name, "s%d", i);
      switch (kind)
        {
        case 0: fprintf (out, "plate %s = %d/8 hole %d/8 at %d/8, %d/8\n", name, a, c, x, y); break;
        case 1: fprintf (out, "line %s = %d/8, %d/8 to %d/8, %d/8 wide %d/8 hole\n", name, x, y, x + a, y + b, c); break;
        case 2: fprintf (out, "box %s = %d/8 x %d/8 at %d/8, %d/8 round %d/8 top cut %d/8 left bottom\n", name, a, b, x, y, c, c + 1); break;
        default:
          do
            {
              wire_random (&o, 6, 1);
              wire_of_outline (&w, &o);
            }
          while (wire_crosses_itself (&w));
          wire_statement (out, name, &o, x, y);
        }
      fclose (out);
      /* An outline whose sides nearly touch is refused.  */
      if (sheet_run (sheet, &s, text) == BR_OK)
        {
          if (turn == 0)
            sheet_say (sheet, &s, "turn %s by %d deg", name, c * 15);
          if (more == 0)
            sheet_say (sheet, &s, "row r%d of %s qty %d by %d/8, %d/8", i, name, c + 1, a, c - 4);
          if (more == 1)
            sheet_say (sheet, &s, "mirror m%d of %s about %d/8", i, name, x + a);
        }
      free (text);
      said_clear (&s);
    }
  return sheet;
}

static void
test_forms (void **state)
{
  (void) state;
  for (long i = check_times (30); i > 0; i--)
    rebuild (random_forms ((int) check_between (1, 6)), check_below (2) ? "draw scale 1:4" : "draw");
}

/* Boards with holes and slots, at places of their own.  */
static void
test_templates (void **state)
{
  (void) state;
  for (long n = check_times (20); n > 0; n--)
    {
      int metric = (int) check_below (2);
      const char *unit = metric ? " mm" : "/16";
      int64_t wide = check_between (40, 400), high = check_between (40, 200), x = check_between (-50, 50), y = check_between (-50, 50);
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with (metric ? "units mm" : "units in");
      sheet_say (sheet, &s, "box board = %" PRId64 "%s x %" PRId64 "%s at %" PRId64 "%s, %" PRId64 "%s of p", wide, unit, high, unit, x, unit, y,
                 unit);
      /* Where holes lie on holes there is no room to say what each is.  */
      int64_t most = wide * high / 1000 < 12 ? wide * high / 1000 : 12;
      for (int i = (int) check_between (0, most); i > 0; i--)
        {
          int64_t from = check_between (8, wide - 8), up = check_between (8, high - 8), d = check_between (3, 16);
          int64_t to = check_between (8, wide - 8), slot = check_below (4) == 0 && from != to;
          if (slot)
            sheet_say (sheet, &s, "line h%d = %" PRId64 "%s, %" PRId64 "%s to %" PRId64 "%s, %" PRId64 "%s wide %" PRId64 "%s of p hole", i, x + from,
                       unit, y + up, unit, x + to, unit, y + up, unit, d, unit);
          else
            sheet_say (sheet, &s, "circle h%d = %" PRId64 "%s at %" PRId64 "%s, %" PRId64 "%s of p hole", i, d, unit, x + from, unit, y + up, unit);
        }
      said_clear (&s);
      rebuild (sheet, "template p");
    }
}

static void
test_designs (void **state)
{
  static const char *const names[] = { "docs/examples/market_cart_side", "tests/data/barrow", "tests/data/crane", "tests/data/duck",
    "tests/data/loader", "tests/data/board", "tests/data/jig", "tests/data/boat", "tests/data/shelf", "tests/data/birdhouse", "tests/data/train",
    "tests/data/seesaw", "tests/data/tool_board", "tests/data/beetle", "tests/data/marble_run", "tests/data/stool", "tests/data/bench" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (names); i++)
    {
      char path[PATH_MAX + 40];
      snprintf (path, sizeof path, "%s/%s.sheet", source, names[i]);
      rebuild (sheet_open (path), "draw");
    }
}

/* What could not be rebuilt once: a number at the end of another line's arrow; a table of which the second piece stood above the
   first; a hole in a crowd of slots, whose name and number found no room.  And names that end with numbers, of which some do not
   follow one another.  */
static void
test_mended (void **state)
{
  static const struct { const char *statement, *sheet; } rows[] =
  {
    { "draw scale 1:4", "line l0 = 281/16, 182/16 to 258/16, 211/16 wide 1/4\nline l1 = 472/16, 238/16 to 498/16, 256/16 wide 1/4\n"
                        "circle c2 = 4/16 at 437/16, 38/16 hole\ndimension top(l1) to end(l1) upright\n" },
    { "draw", "line l0 = 417/16, 135/16 to 435/16, 185/16 wide 1/4\nbox b1 = 62/16 x 50/16 at 106/16, 230/16\n"
              "box b2 = 14/16 x 26/16 at 399/16, 206/16\ncircle c3 = 19/16 at 334/16, 73/16\nline l4 = 119/16, 81/16 to 92/16, 131/16\n"
              "arc a5 = bend(56/16, 1/4) 49 deg from 42 deg at 235/16, 31/16\nline l6 = 310/16, 55/16 to 295/16, 56/16 wide 1/4\n"
              "line l7 = 26/16, 89/16 to 7/16, 98/16 wide 1/4\nbox b8 = 31/16 x 14/16 at 190/16, 138/16\ndatum 389/16, 8/16\n" },
    { "template p", "units mm\nbox board = 87 x 158 at -10, -5 of p\ncircle h8 = 3 at 4, 77 of p hole\n"
                    "line h7 = 59, 132 to 3, 132 wide 14 of p hole\ncircle h6 = 16 at 48, 122 of p hole\ncircle h5 = 4 at 64, 78 of p hole\n"
                    "circle h4 = 5 at 35, 123 of p hole\nline h3 = 62, 123 to 25, 123 wide 9 of p hole\n"
                    "circle h2 = 9 at 62, 29 of p hole\ncircle h1 = 14 at 11, 94 of p hole\n" },
    { "draw scale 1:8", "circle p_8 = 1/2 at 1, 3\ncircle p_9 = 1/2 at 3, 3\ncircle p_10 = 1/2 at 5, 3\ncircle p_12 = 1/2 at 7, 3\n"
                        "circle p_013 = 1/2 at 8, 3\ncircle p_014 = 1/2 at 9, 3\ncircle q11 = 1/2 at 10, 3\ncircle q12 = 3/8 at 11, 3\n"
                        "circle p12345678901 = 1/2 at 12, 3\ncircle p12345678902 = 1/2 at 13, 3\nline b_1 = 1, 5 to 3, 5 wide 1/4\n"
                        "line b_2 = 6, 5 to 4, 5 wide 1/4\nline b_3 = 7, 5 to 7, 7 wide 1/4\nbox c_1 = 1 x 2 at 9, 5\nbox c_2 = 1 x 2 at 11, 5\n"
                        "circle d_1 = 1/8 same centre as p_8\ncircle d_2 = 1/8 same centre as p_9\ncircle d_3 = 1/8 same centre as p_10\n"
                        "circle d_4 = 1/8 same centre as p_12\n" },
    { "draw", "box w = 12 x 6 at 3, 2\ncircle h = 2 at 3, 5 hole of w\ncircle k = 2 at 10, 8 hole of w\ncircle m = 1 at 6, 5 hole of w\n"
              "circle n = 3 at 29/2, 3/2 hole of w\n" },
    { "draw", "circle h = 2 at 5/2, 5 hole of w\nbox w = 12 x 6 at 3, 2 deep 1\nbox b = 3 x 9 at 3/2, 5 deep 1 from 5\ndatum 1, 1\n" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    rebuild (sheet_with (rows[i].sheet), rows[i].statement);
}

/* ---- Three views ---- */

/* The depth of what is called NAME from above: "far NAME" is the farther of two, "NAME 3" the third place of a row.  */
static void
check_depth (const page *p, br_sheet *sheet, size_t index, double datum)
{
  const shape *s = &p->shapes[index];
  const int far = strncmp (s->name, "far ", 4) == 0;
  const char *name = s->name + (far ? 4 : 0);
  const br__shape *it = br__shape_find (sheet, name, strcspn (name, " "));
  assert_non_null (it);
  it = br__depth_source (sheet, it);
  const double middle = in_unit_of (sheet, br__depth_middle (sheet, it)) * (far ? 1 : -1), half = in_unit_of (sheet, br__depth_of (sheet, it)) / 2;
  for (int k = 0; k < 2; k++)
    is_told (s, "the depth", p->known[1][2 * index + (size_t) k], middle + (k ? half : -half) - datum, p->slack[1][2 * index + (size_t) k]);
}

/* From the one sheet with three views: across and up by the side, depths by the view from above.  */
static void
rebuild_views (br_sheet *sheet)
{
  static page side, above;
  views_page v;
  said s = SAID_ZERO;
  double datum = 1e9;
  half_mark = 1.0 / 32 + 1e-3;
  sheet_say (sheet, &s, "draw views into a.svg");
  read_views_page (&v, "a.svg");
  part_of_views (&side, &v, 0);
  part_of_views (&above, &v, 1);
  check_page (&side, sheet);
  work_out (&above);
  for (const br__shape *it = sheet->shapes; it; it = it->next)
    if (it->active)
      {
        double middle = in_unit_of (sheet, br__depth_middle (sheet, it)), half = in_unit_of (sheet, br__depth_of (sheet, it)) / 2;
        datum = fmin (datum, -(br__depth_source (sheet, it)->depth > BR__FROM_DEPTH ? fabs (middle) : middle) - half);
      }
  for (size_t i = 0; i < above.count; i++)
    check_depth (&above, sheet, i, datum);
  free (side.file.elements);
  free (above.file.elements);
  svg_clear (&v.file);
  sheet_end (sheet, &s);
}

static void
test_views (void **state)
{
  (void) state;
  for (long i = check_times (20); i > 0; i--)
    {
      br_sheet *sheet = sheet_with ("box first = 8 x 1/2 at 0, 60 deep 9\n");
      for (int64_t k = check_between (1, 7); k > 0; k--)
        {
          /* A place of its own each, so that none hides a part of another from the side.  */
          int x = (int) (k % 3 * 160 + check_between (0, 40)), y = (int) (k / 3 * 120 + check_between (0, 9)), a = (int) check_between (9, 60);
          int b = (int) check_between (9, 60);
          int deep = (int) check_between (1, 24), at = (int) check_between (-24, 48), kind = (int) check_below (4), where = (int) check_below (3);
          char form[120], place[40] = "";
          said s = SAID_ZERO;
          if (where == 1)
            snprintf (place, sizeof place, " from %d/8", at);
          if (where == 2)
            snprintf (place, sizeof place, " both sides between %d/8", at + 24);
          switch (kind)
            {
            case 0: snprintf (form, sizeof form, "circle s%d = %d/8 at %d/8, %d/8", (int) k, a, x, y); break;
            case 1: snprintf (form, sizeof form, "outline s%d = 0, 0 to %d/8, 0 round 1/2 to %d/8, 3 to 0, 5/2 at %d/8, %d/8", (int) k, a, a, x, y); break;
            case 2: snprintf (form, sizeof form, "line s%d = %d/8, %d/8 to %d/8, %d/8 wide 1/2", (int) k, x, y, x + a, y + b); break;
            default: snprintf (form, sizeof form, "box s%d = %d/8 x %d/8 at %d/8, %d/8", (int) k, a, b, x, y); break;
            }
          sheet_say (sheet, &s, "%s deep %d/8%s", form, deep, place);
          said_clear (&s);
        }
      rebuild_views (sheet);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_designs), CHECK_TEST (test_mended), CHECK_TEST (test_random), CHECK_TEST (test_pegs),
                                      CHECK_TEST (test_forms), CHECK_TEST (test_views), CHECK_TEST (test_templates) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, source_enter, lesson_leave));
}
