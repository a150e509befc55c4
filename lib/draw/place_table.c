/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_table.c - what the figure does not say of sizes and places: a table below it, `dimension | of | from`, so that
   whoever has the page can draw the shapes again.

   One way at a time, across and up, the places that dimension lines on the figure join to the datum are known.  Sides and
   centres that lie in one line with a known one are told to: a place that is drawn in line with another is so by
   intent (the implied zero of ASME Y14.5, from memory), but the eye does not see a 64th.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "draw/dimension_line.h"
#include "draw/place_table.h"
#include "exact/memory.h"

/* Two places on paper that are the same but for the last digits of the grid.  */
#define SAME 4
/* Bytes of a cell that another feature does not make longer.  */
#define LONG 27

enum { LOW, HIGH, CENTRE, START, END };

/* A side, a centre or an end of a shape, one way.  */
typedef struct feature
{
  size_t shape;                 /* its index in the view */
  int which;
  int64_t at;
  size_t group;                 /* the place that it shares with others */
  struct feature *like;         /* in line with this one, or NULL */
  struct feature *twin;         /* the same point as this one, both ways, or NULL */
  struct feature *first, *last; /* of those that are in line with it */
  struct feature *next;         /* in line with the same */
} feature;

typedef struct axis
{
  br__run *run;
  const br__side_view *view;
  const br__size_lines *lines;
  int upright;
  feature *features;
  size_t count;
  size_t *parent;               /* of groups: joined by what is known */
  feature **base;               /* of groups: the one that the others are in line with */
  int64_t *at;                  /* of groups, in order */
  size_t groups, datum;
  feature origin;               /* what lies in line with the datum is in line with this */
} axis;

void
br__place_table_clear (br__place_table *t)
{
  for (size_t i = 0; i < t->count; i++)
    for (int k = 0; k < BR__PLACE_COLUMNS; k++)
      br__free (t->rows[i].cell[k]);
  br__free (t->rows);
  memset (t, 0, sizeof *t);
}

br_status
br__place_row_add (br__place_table *t, br_text cells[BR__PLACE_COLUMNS])
{
  br__place_row row = { { NULL } };
  int good = br__grow (&t->rows, &t->room, t->count + 1, sizeof *t->rows);
  for (int i = 0; i < BR__PLACE_COLUMNS; i++)
    {
      row.cell[i] = cells[i].failed ? NULL : br__strndup (br__text_string (&cells[i]), cells[i].length);
      good = good && row.cell[i];
      br__text_clear (&cells[i]);
    }
  if (good)
    t->rows[t->count++] = row;
  for (int i = 0; i < BR__PLACE_COLUMNS && !good; i++)
    br__free (row.cell[i]);
  return good ? BR_OK : BR_NO_MEMORY;
}

/* ---- Places of one way ---- */

static void
add_feature (axis *a, size_t shape, int which, int64_t at)
{
  a->features[a->count++] = (feature) { .shape = shape, .which = which, .at = at };
}

static void
find_features (axis *a)
{
  for (size_t i = 0; i < a->view->count; i++)
    {
      const br__drawn *d = &a->view->shapes[i];
      int64_t centre = a->upright ? d->y : d->x, run = a->upright ? d->b : d->a;
      if (!d->tied || d->unmeasured || d->shape->base)
        continue;
      if (d->shape->kind == BR__BOX || d->pieces)
        {
          add_feature (a, i, LOW, a->upright ? d->reach.y : d->reach.x);
          add_feature (a, i, HIGH, a->upright ? d->reach.y2 : d->reach.x2);
        }
      else if (d->shape->kind == BR__LINE)
        {
          add_feature (a, i, START, centre - run / 2);
          add_feature (a, i, END, centre - run / 2 + run);
        }
      else
        add_feature (a, i, CENTRE, centre);
    }
}

static int
compare_places (const void *x, const void *y)
{
  int64_t a = *(const int64_t *) x, b = *(const int64_t *) y;
  return a < b ? -1 : a > b;
}

static size_t
group_of (const axis *a, int64_t at)
{
  size_t low = 0, high = a->groups;
  while (low < high)
    {
      size_t middle = (low + high) / 2;
      if (a->at[middle] + SAME < at)
        low = middle + 1;
      else
        high = middle;
    }
  return low < a->groups ? low : a->groups - 1;
}

static void
make_groups (axis *a, int64_t datum)
{
  size_t n = 0;
  a->at[n++] = datum;
  for (size_t i = 0; i < a->count; i++)
    a->at[n++] = a->features[i].at;
  for (size_t i = 0; i < a->lines->placed; i++)
    {
      a->at[n++] = a->lines->rows[i].from;
      a->at[n++] = a->lines->rows[i].to;
    }
  qsort (a->at, n, sizeof *a->at, compare_places);
  for (size_t i = 0; i < n; i++)
    if (!a->groups || a->at[i] > a->at[a->groups - 1] + SAME)
      a->at[a->groups++] = a->at[i];
  for (size_t i = 0; i < a->groups; i++)
    a->parent[i] = i;
  for (size_t i = 0; i < a->count; i++)
    a->features[i].group = group_of (a, a->features[i].at);
  a->datum = group_of (a, datum);
  a->origin = (feature) { .shape = SIZE_MAX, .at = datum, .group = a->datum };
  a->base[a->datum] = &a->origin;
}

static size_t
root_of (axis *a, size_t g)
{
  while (a->parent[g] != g)
    g = a->parent[g] = a->parent[a->parent[g]];
  return g;
}

static void
unite (axis *a, size_t g, size_t h)
{
  a->parent[root_of (a, g)] = root_of (a, h);
}

static int
is_known (axis *a, size_t g)
{
  return root_of (a, g) == root_of (a, a->datum);
}

/* What a dimension line ends at is what others are in line with.  */
static void
name_base (axis *a, int64_t at, const char *name)
{
  size_t group = group_of (a, at);
  for (size_t i = 0; i < a->count && !a->base[group]; i++)
    if (a->features[i].group == group && strcmp (a->view->shapes[a->features[i].shape].shape->name, name) == 0)
      a->base[group] = &a->features[i];
}

/* "8x 2-5/16" is the size of all boxes that are like the one that ROW spans.  */
static void
read_alike (axis *a, const br__size_line *row)
{
  const br__drawn *first = NULL;
  for (size_t i = 0; i < a->view->count && !first; i++)
    if (strcmp (a->view->shapes[i].shape->name, row->of) == 0)
      first = &a->view->shapes[i];
  for (size_t i = 1; first && i < a->count; i++)
    {
      const br__drawn *d = &a->view->shapes[a->features[i].shape];
      if (a->features[i].which == HIGH && d->a == first->a && d->b == first->b)
        unite (a, a->features[i].group, a->features[i - 1].group);
    }
}

static void
read_figure (axis *a)
{
  for (size_t i = 0; i < a->lines->placed; i++)
    {
      const br__size_line *row = &a->lines->rows[i];
      if (row->worded)
        continue;
      unite (a, group_of (a, row->from), group_of (a, row->to));
      name_base (a, row->from, row->of);
      name_base (a, row->to, row->to_of ? row->to_of : row->of);
      if (strchr (row->text, 'x'))
        read_alike (a, row);
    }
}

/* ---- Words and values ---- */

/* "deck, left", "strut, upper end"; a centre is told by the name alone.  */
static void
put_feature (br_text *t, const axis *a, const feature *f)
{
  if (f == &a->origin)
    {
      br__text_puts (t, "datum");
      return;
    }
  const br__drawn *d = &a->view->shapes[f->shape];
  int first = f->which == LOW || f->which == START;
  const char *words = NULL;
  if (f->which == LOW || f->which == HIGH)
    words = a->upright ? first ? "bottom" : "top" : first ? "left" : "right";
  else if (f->which != CENTRE)
    {
      /* An end is the left one, or the lower one of what stands upright.  */
      int low = d->a ? first == (d->a > 0) : first == (d->b > 0);
      words = d->a ? low ? "left end" : "right end" : low ? "lower end" : "upper end";
    }
  br__text_printf (t, "%s%s%s", d->shape->name, words ? ", " : "", words ? words : "");
}

/* The place of F in inches.  */
static br_status
place_of (br_real *z, const axis *a, const feature *f)
{
  const br__shape *s = a->view->shapes[f->shape].shape;
  const br__value *at = br__shape_value (a->run->sheet, s, a->upright ? BR__SHAPE_Y : BR__SHAPE_X), *more = NULL;
  br__pad g = { BR_OK, a->run->sheet->settings.bits, NULL };
  if (f->which == LOW || f->which == HIGH)
    more = br__shape_value (a->run->sheet, s, a->upright ? f->which == LOW ? BR__SHAPE_BOTTOM : BR__SHAPE_TOP
                                                          : f->which == LOW ? BR__SHAPE_LEFT : BR__SHAPE_RIGHT);
  else if (f->which != CENTRE)
    more = br__shape_value (a->run->sheet, s, a->upright ? BR__SHAPE_B : BR__SHAPE_A);
  if (!at || (f->which != CENTRE && !more))
    return BR_DOMAIN;
  const br_real *p = &at->real, *half = f->which == START || f->which == END ? br__half (&g, &more->real) : NULL;
  if (more)
    p = f->which == START ? br__sub (&g, p, half) : br__add (&g, p, half ? half : &more->real);
  return br__pad_end (z, p, &g);
}

static br_status
put_value (br_text *t, const br_real *value, const axis *a)
{
  br_status status = br__put_drawing_number (t, value, &a->run->sheet->settings);
  br__text_puts (t, a->upright ? " up" : " across");
  return status;
}

/* ---- Rows ---- */

/* F from the datum, with all that is in line with it; or from the other side of its own box, which is known.  */
static br_status
add_place (br__place_table *t, axis *a, const feature *f, const feature *own, const br_real *datum)
{
  br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
  br_real at = BR_REAL_ZERO, from = BR_REAL_ZERO;
  br_status status = place_of (&at, a, f);
  if (status == BR_OK)
    status = own ? place_of (&from, a, own) : br_real_set (&from, datum);
  if (status == BR_OK)
    status = br_real_sub (&at, &at, &from);
  if (status == BR_OK)
    status = put_value (&cells[0], &at, a);
  put_feature (&cells[1], a, f);
  if (own)
    put_feature (&cells[2], a, own);
  else
    br__text_puts (&cells[2], "datum");
  br_real_clear (&at);
  br_real_clear (&from);
  if (status == BR_OK)
    return br__place_row_add (t, cells);
  for (int i = 0; i < BR__PLACE_COLUMNS; i++)
    br__text_clear (&cells[i]);
  return status;
}

/* Whether a dimension line on the figure ends at F itself, not at what lies in line with it.  */
static int
is_end (const axis *a, const feature *f)
{
  const char *name = a->view->shapes[f->shape].shape->name;
  for (size_t i = 0; i < a->lines->placed; i++)
    {
      const br__size_line *row = &a->lines->rows[i];
      const char *to = row->to_of ? row->to_of : row->of;
      if (!row->worded && ((strcmp (row->of, name) == 0 && group_of (a, row->from) == f->group)
                           || (strcmp (to, name) == 0 && group_of (a, row->to) == f->group)))
        return 1;
    }
  return 0;
}

static br_status
add_places (br__place_table *t, axis *a, const br_real *datum)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < a->count && status == BR_OK; i++)
    {
      feature *f = &a->features[i];
      const feature *own = f->which == HIGH ? f - 1 : NULL;
      if (!is_known (a, f->group))
        {
          status = add_place (t, a, f, own, datum);
          unite (a, f->group, a->datum);
          a->base[f->group] = f;
        }
      else if (!a->base[f->group])
        a->base[f->group] = f;
      feature *base = a->base[f->group];
      /* What is dimensioned from the datum is seen to lie there.  */
      if (base == f || f->twin || (base == &a->origin && is_end (a, f)))
        continue;
      f->like = base;
      *(base->last ? &base->last->next : &base->first) = f;
      base->last = f;
    }
  return status;
}

/* Rows that say WORDS of several features, and of one BASE.  */
typedef struct list
{
  br__place_table *table;
  const axis *axis;
  const feature *base;
  const char *words;
  br_text of;
} list;

static br_status
end_row (list *l)
{
  br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, l->of, BR_TEXT_ZERO };
  if (!l->of.length)
    return BR_OK;
  memset (&l->of, 0, sizeof l->of);
  br__text_puts (&cells[0], l->words);
  put_feature (&cells[2], l->axis, l->base);
  return br__place_row_add (l->table, cells);
}

static br_status
list_feature (list *l, const feature *f)
{
  br_text name = BR_TEXT_ZERO;
  br_status status = BR_OK;
  put_feature (&name, l->axis, f);
  if (l->of.length && l->of.length + name.length + 2 > LONG)
    status = end_row (l);
  br__text_printf (&l->of, "%s%s", l->of.length ? "; " : "", br__text_string (&name));
  l->of.failed |= name.failed;
  br__text_clear (&name);
  return l->of.failed ? BR_NO_MEMORY : status;
}

/* Those of A that are in line with BASE, several in a row.  */
static br_status
add_in_line (br__place_table *t, const axis *a, const feature *base, const char *words)
{
  list l = { t, a, base, words, BR_TEXT_ZERO };
  br_status status = BR_OK;
  for (const feature *f = base->first; f && status == BR_OK; f = f->next)
    status = list_feature (&l, f);
  if (status == BR_OK)
    status = end_row (&l);
  br__text_clear (&l.of);
  return status;
}

static br_status
add_all_in_line (br__place_table *t, const axis *a, const char *words)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < a->groups && status == BR_OK; i++)
    if (a->base[i])
      status = add_in_line (t, a, a->base[i], words);
  return status;
}

/* Centres and ends that are one point.  Both ways list the same features in the same order; the first of a point that is a
   centre, or else the first, is the one that the others are told by.  */
static void
find_twins (axis *across, axis *up)
{
  for (int centres = 1; centres >= 0; centres--)
    for (size_t i = 0; i < across->count; i++)
      {
        const feature *x = &across->features[i], *y = &up->features[i];
        if (x->which == LOW || x->which == HIGH || x->twin || (x->which == CENTRE) != centres)
          continue;
        for (size_t k = 0; k < across->count; k++)
          {
            feature *other = &across->features[k];
            if (k == i || other->group != x->group || up->features[k].group != y->group || other->which == LOW
                || other->which == HIGH || other->twin || (centres && other->which == CENTRE && k < i))
              continue;
            other->twin = &across->features[i];
            up->features[k].twin = &up->features[i];
          }
      }
}

/* SAME: both are centres.  */
static br_status
add_twins (br__place_table *t, const axis *a, int same)
{
  br_status status = BR_OK;
  for (const feature *base = a->features; base < a->features + a->count && status == BR_OK; base++)
    {
      list l = { t, a, base, same ? "same centre" : "same point", BR_TEXT_ZERO };
      for (const feature *f = a->features; f < a->features + a->count && status == BR_OK; f++)
        if (f->twin == base && (f->which == CENTRE && base->which == CENTRE) == same)
          status = list_feature (&l, f);
      if (status == BR_OK)
        status = end_row (&l);
      br__text_clear (&l.of);
    }
  return status;
}

/* Where the ends of an arc are.  */
static br_status
add_angles (br__place_table *t, br__run *run, const br__drawn *d)
{
  br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
  const br__value *from = br__shape_value (run->sheet, d->shape, BR__SHAPE_C), *turn = br__shape_value (run->sheet, d->shape, BR__SHAPE_D);
  br_real to = BR_REAL_ZERO;
  br_status status = from && turn ? br_real_add (&to, &from->real, &turn->real) : BR_DOMAIN;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      char text[40];
      int whole = 0;
      size_t n = br_real_write_decimal (text, sizeof text, &whole, i ? &to : &from->real, 7, run->sheet->settings.bits, &status);
      if (status == BR_OK && n < sizeof text)
        br__text_printf (&cells[0], "%s%s%s\xC2\xB0", i ? " to " : "", whole ? "" : "\xE2\x89\x88", text);
    }
  br_real_clear (&to);
  br__text_printf (&cells[1], "%s, ends", d->shape->name);
  br__text_puts (&cells[2], "right, anticlockwise");
  if (status == BR_OK)
    return br__place_row_add (t, cells);
  for (int i = 0; i < BR__PLACE_COLUMNS; i++)
    br__text_clear (&cells[i]);
  return status == BR_NO_MEMORY ? status : BR_OK;
}

/* The step of a row, a way that it does not go left out.  */
static br_status
put_step (br_text *t, br__run *run, const br__shape *s)
{
  static const char *const words[] = { " across", " up" };
  br_status status = BR_OK;
  int any = 0;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      const br__value *v = br__shape_value (run->sheet, s, i ? BR__SHAPE_C : BR__SHAPE_B);
      const br_number *q = br_real_rational (&v->real);
      if (q && br_number_sign (q) == 0)
        continue;
      br__text_puts (t, any++ ? ", " : "");
      status = br__put_drawing_number (t, &v->real, &run->sheet->settings);
      br__text_puts (t, words[i]);
    }
  return status;
}

/* A row is told once: how many, and the step; a mirror by its axis, from the DATUM.  */
static br_status
add_copies (br__place_table *t, br__run *run, const br__shape *s, const br_real *datum)
{
  br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
  br_real at = BR_REAL_ZERO;
  br_status status;
  if (s->kind == BR__ROW)
    {
      br__text_printf (&cells[BR__PLACE_DIMENSION], "%d × ", br__row_places (run->sheet, s));
      status = put_step (&cells[BR__PLACE_DIMENSION], run, s);
      br__text_puts (&cells[BR__PLACE_OF], s->name);
      br__text_puts (&cells[BR__PLACE_FROM], s->base);
    }
  else
    {
      status = br_real_sub (&at, &br__shape_value (run->sheet, s, BR__SHAPE_A)->real, datum);
      if (status == BR_OK)
        status = br__put_drawing_number (&cells[BR__PLACE_DIMENSION], &at, &run->sheet->settings);
      br__text_puts (&cells[BR__PLACE_DIMENSION], " across");
      br__text_printf (&cells[BR__PLACE_OF], "%s, mirror of %s", s->name, s->base);
      br__text_puts (&cells[BR__PLACE_FROM], "datum");
    }
  br_real_clear (&at);
  if (status == BR_OK)
    return br__place_row_add (t, cells);
  for (int i = 0; i < BR__PLACE_COLUMNS; i++)
    br__text_clear (&cells[i]);
  return status;
}

/* ---- All of it ---- */

static br_status
axis_make (axis *a, int64_t datum)
{
  size_t most = 2 * a->view->count, places = most + 2 * a->lines->placed + 1;
  a->features = br__alloc_zero (most + 1, sizeof *a->features);
  a->at = br__alloc_zero (places, sizeof *a->at);
  a->parent = br__alloc_zero (places, sizeof *a->parent);
  a->base = br__alloc_zero (places, sizeof *a->base);
  if (!a->features || !a->at || !a->parent || !a->base)
    return BR_NO_MEMORY;
  find_features (a);
  make_groups (a, datum);
  read_figure (a);
  return BR_OK;
}

static void
axis_clear (axis *a)
{
  br__free (a->features);
  br__free (a->at);
  br__free (a->parent);
  br__free (a->base);
}

br_status
br__place_table_make (br__place_table *t, br__run *run, const br__side_view *v, const br__size_lines *level,
                      const br__size_lines *upright)
{
  axis a[2] = { { .run = run, .view = v, .lines = level }, { .run = run, .view = v, .lines = upright, .upright = 1 } };
  br_status status = BR_OK;
  br__place_table_clear (t);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = axis_make (&a[i], v->datum.place[i]);
  if (status == BR_OK)
    find_twins (&a[0], &a[1]);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = a[i].lines->elsewhere ? BR_OK : add_places (t, &a[i], &v->datum.at[i]);
  for (int same = 1; same >= 0 && status == BR_OK; same--)
    status = add_twins (t, &a[0], same);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = a[i].lines->elsewhere ? BR_OK : add_all_in_line (t, &a[i], i ? "same height" : "in line");
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    if (v->shapes[i].tied && !v->shapes[i].unmeasured && v->shapes[i].shape->kind == BR__ARC && v->shapes[i].d < 360 * BR__INCH)
      status = add_angles (t, run, &v->shapes[i]);
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    if (v->shapes[i].tied && !v->shapes[i].unmeasured && v->shapes[i].shape->base)
      status = add_copies (t, run, v->shapes[i].shape, &v->datum.at[0]);
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    if (v->shapes[i].pieces && !v->shapes[i].unmeasured)
      status = br__place_corners (t, run, &v->shapes[i]);
  axis_clear (&a[0]);
  axis_clear (&a[1]);
  if (status != BR_OK)
    br__place_table_clear (t);
  return status;
}
