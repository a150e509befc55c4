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
#include "draw/place_group.h"
#include "draw/place_list.h"
#include "draw/place_table.h"
#include "exact/memory.h"

enum { LOW, HIGH, CENTRE, START, END };

/* A side, a centre or an end of a shape, one way.  */
typedef struct feature
{
  size_t shape;                 /* its index in the view */
  int which;
  int64_t at;
  size_t group;                 /* the place that it shares with others */
  int placed;                   /* the table has a number for it: */
  const struct feature *own;    /* from this one, or from the datum where it is NULL */
  struct feature *twin;         /* the same point as this one, both ways, or NULL */
  int is_twin;                  /* of others, that are told by it */
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
  feature **base;               /* of groups: the one that the others are in line with */
  br__place_groups groups;
  size_t datum;
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

static void
make_groups (axis *a, int64_t datum)
{
  br__place_groups *g = &a->groups;
  size_t n = 0;
  g->at[n++] = datum;
  for (size_t i = 0; i < a->count; i++)
    g->at[n++] = a->features[i].at;
  for (size_t i = 0; i < a->lines->placed; i++)
    {
      g->at[n++] = a->lines->rows[i].from;
      g->at[n++] = a->lines->rows[i].to;
    }
  br__place_groups_make (g, n);
  for (size_t i = 0; i < a->count; i++)
    a->features[i].group = br__place_group_of (g, a->features[i].at);
  a->datum = br__place_group_of (g, datum);
  a->origin = (feature) { .shape = SIZE_MAX, .at = datum, .group = a->datum };
  a->base[a->datum] = &a->origin;
}

static int
is_known (axis *a, size_t g)
{
  return br__place_group_root (&a->groups, g) == br__place_group_root (&a->groups, a->datum);
}

/* What a dimension line ends at is what others are in line with.  */
static void
name_base (axis *a, int64_t at, const char *name)
{
  size_t group = br__place_group_of (&a->groups, at);
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
        br__place_groups_unite (&a->groups, a->features[i].group, a->features[i - 1].group);
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
      for (size_t k = 1; k <= br__size_line_steps (row); k++)
        br__place_groups_unite (&a->groups, br__place_group_of (&a->groups, row->from), br__place_group_of (&a->groups, br__size_line_mark (row, k)));
      name_base (a, row->from, row->of);
      name_base (a, row->to, row->to_of ? row->to_of : row->of);
      if (!row->steps && strchr (row->text, 'x'))
        read_alike (a, row);
    }
}

/* ---- Words and values ---- */

/* "deck, left", "strut, upper end"; a centre is told by the name alone.  */
static br__place_item
item_of (const axis *a, const feature *f)
{
  const br__drawn *d = &a->view->shapes[f->shape];
  int first = f->which == LOW || f->which == START;
  br__place_item item = { d->shape->name, NULL };
  if (f->which == LOW || f->which == HIGH)
    item.words = a->upright ? first ? "bottom" : "top" : first ? "left" : "right";
  else if (f->which != CENTRE)
    {
      /* An end is the left one, or the lower one of what stands upright.  */
      int low = d->a ? first == (d->a > 0) : first == (d->b > 0);
      item.words = d->a ? low ? "left end" : "right end" : low ? "lower end" : "upper end";
    }
  return item;
}

static void
put_feature (br_text *t, const axis *a, const feature *f)
{
  if (f == &a->origin)
    {
      br__text_puts (t, "datum");
      return;
    }
  br__place_item item = item_of (a, f);
  br__put_items (t, &item, 1);
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

/* Rows of several features that lie in line with BASE.  */
typedef struct list
{
  br__place_table *table;
  const axis *axis;
  const feature *base;
  const char *words;            /* "in line" */
  size_t longest;               /* bytes of a cell that another feature does not make longer */
  br_text dimension, from;      /* of the first row, where it tells where BASE itself is */
  size_t pairs;                 /* bases, each the next of the one before, of as many features; 0: all are of one */
  br__place_item items[BR__PLACE_ITEMS];
  size_t count;
} list;

static br_status
end_row (list *l)
{
  br_text cells[BR__PLACE_COLUMNS] = { l->dimension, BR_TEXT_ZERO, l->from };
  if (!l->count)
    return BR_OK;
  if (!l->dimension.length && !l->dimension.failed)
    {
      br__text_puts (&cells[BR__PLACE_DIMENSION], l->words);
      if (l->pairs > 1)
        br__put_names (&cells[BR__PLACE_FROM], item_of (l->axis, l->base).name, l->pairs);
      else
        put_feature (&cells[BR__PLACE_FROM], l->axis, l->base);
    }
  l->dimension = l->from = (br_text) BR_TEXT_ZERO;
  br__put_items (&cells[BR__PLACE_OF], l->items, l->count);
  l->count = 0;
  return br__place_row_add (l->table, cells);
}

/* The other end of the bar of F may be NEXT: both go into one row.  */
static br_status
list_feature (list *l, const feature *f, const feature *next)
{
  br_text of = BR_TEXT_ZERO;
  br_status status = BR_OK;
  l->items[l->count++] = item_of (l->axis, f);
  if (next && next->shape == f->shape && l->count < BR__PLACE_ITEMS)
    return BR_OK;
  br__put_items (&of, l->items, l->count);
  const size_t both = l->count > 1 && l->items[l->count - 2].name == l->items[l->count - 1].name, keep = both ? 2 : 1;
  if (l->count > keep && (of.length > l->longest || l->count == BR__PLACE_ITEMS))
    {
      br__place_item last[2];
      l->count -= keep;
      memcpy (last, &l->items[l->count], keep * sizeof *last);
      status = end_row (l);
      memcpy (l->items, last, keep * sizeof *last);
      l->count = keep;
    }
  status = of.failed ? BR_NO_MEMORY : status;
  br__text_clear (&of);
  return status;
}

/* Those that are in line with the base of L.  */
static br_status
list_in_line (list *l)
{
  br_status status = BR_OK;
  for (const feature *f = l->base->first; f && status == BR_OK; f = f->next)
    status = list_feature (l, f, f->next);
  return status;
}

/* What was begun is put into the table, or let go where STATUS is a failure.  */
static br_status
list_end (list *l, br_status status)
{
  if (status == BR_OK)
    status = end_row (l);
  br__text_clear (&l->dimension);
  br__text_clear (&l->from);
  return status;
}

/* Where the base of L is: from the other side of its own box, which is known, or else from the datum.  */
static br_status
tell_place (list *l, const br_real *datum)
{
  const feature *own = l->base->own;
  br_real at = BR_REAL_ZERO, from = BR_REAL_ZERO;
  br_status status = place_of (&at, l->axis, l->base);
  if (status == BR_OK)
    status = own ? place_of (&from, l->axis, own) : br_real_set (&from, datum);
  if (status == BR_OK)
    status = br_real_sub (&at, &at, &from);
  if (status == BR_OK)
    status = put_value (&l->dimension, &at, l->axis);
  put_feature (&l->from, l->axis, own ? own : &l->axis->origin);
  br_real_clear (&at);
  br_real_clear (&from);
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
      if (!row->worded && ((strcmp (row->of, name) == 0 && br__place_group_of (&a->groups, row->from) == f->group)
                           || (strcmp (to, name) == 0 && br__place_group_of (&a->groups, row->to) == f->group)))
        return 1;
    }
  return 0;
}

/* Which places the table has a number for, and what is in line with these and with what the figure has.  */
static void
find_places (axis *a)
{
  for (size_t i = 0; i < a->count; i++)
    {
      feature *f = &a->features[i];
      if (!is_known (a, f->group))
        {
          f->placed = 1;
          f->own = f->which == HIGH ? f - 1 : NULL;
          br__place_groups_unite (&a->groups, f->group, a->datum);
          a->base[f->group] = f;
        }
      else if (!a->base[f->group])
        a->base[f->group] = f;
      feature *base = a->base[f->group];
      /* What is dimensioned from the datum is seen to lie there.  */
      if (base == f || f->twin || (base == &a->origin && is_end (a, f)))
        continue;
      *(base->last ? &base->last->next : &base->first) = f;
      base->last = f;
    }
}

/* The numbers, each with what is in line with it.  */
static br_status
add_places (br__place_table *t, axis *a, const br_real *datum, const char *words, size_t longest)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < a->count && status == BR_OK; i++)
    if (a->features[i].placed)
      {
        list l = { .table = t, .axis = a, .base = &a->features[i], .words = words, .longest = longest };
        status = tell_place (&l, datum);
        if (status == BR_OK)
          status = list_feature (&l, l.base, l.base->first);
        if (status == BR_OK)
          status = list_in_line (&l);
        status = list_end (&l, status);
      }
  return status;
}

/* F has a number from the datum, and nothing is in line with it.  */
static int
is_alone (const feature *f)
{
  return f->placed && !f->own && !f->first && !f->is_twin;
}

/* A centre or an end that both ways have a number for is told in one row, "3 across, 2 up", as a chart of holes does.  */
static br_status
add_points (br__place_table *t, axis a[2], const br_real datum[2])
{
  br_status status = BR_OK;
  for (size_t i = 0; i < a[0].count && status == BR_OK; i++)
    {
      feature *x = &a[0].features[i], *y = &a[1].features[i];
      list l = { .table = t, .axis = &a[0], .base = x }, up = { .axis = &a[1], .base = y };
      if (x->which == LOW || x->which == HIGH || !is_alone (x) || !is_alone (y))
        continue;
      status = tell_place (&l, &datum[0]);
      if (status == BR_OK)
        status = tell_place (&up, &datum[1]);
      br__text_printf (&l.dimension, ", %s", br__text_string (&up.dimension));
      l.dimension.failed |= up.dimension.failed;
      if (status == BR_OK)
        status = list_feature (&l, x, NULL);
      status = list_end (&l, status);
      (void) list_end (&up, BR_DOMAIN);
      x->placed = y->placed = 0;
    }
  return status;
}

/* What is in line with places that the figure has.  */
static br_status
add_all_in_line (br__place_table *t, const axis *a, const char *words, size_t longest)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < a->groups.count && status == BR_OK; i++)
    if (a->base[i] && !a->base[i]->placed)
      {
        list l = { .table = t, .axis = a, .base = a->base[i], .words = words, .longest = longest };
        status = list_end (&l, list_in_line (&l));
      }
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
            across->features[i].is_twin = 1;
            up->features[k].twin = &up->features[i];
          }
      }
}

/* The first feature from F on that is one point with BASE, both centres where SAME is set; NULL: no more.  */
static const feature *
twin_from (const axis *a, const feature *f, const feature *base, int same)
{
  for (; f < a->features + a->count; f++)
    if (f->twin == base && (f->which == CENTRE && base->which == CENTRE) == same)
      return f;
  return NULL;
}

/* Axles 1 to 3 have the centres of wheels 1 to 3, each that of its own.  */
static br_status
add_twins (br__place_table *t, const axis *a, int same, size_t longest)
{
  list l = { .table = t, .axis = a, .words = same ? "same centre" : "same point", .longest = longest };
  br_status status = BR_OK;
  const char *before = NULL;
  for (const feature *base = a->features; base < a->features + a->count && status == BR_OK; base++)
    {
      const feature *f = base->is_twin ? twin_from (a, a->features, base, same) : NULL;
      const int alone = f && same && !twin_from (a, f + 1, base, same);
      const char *name = f ? item_of (a, base).name : NULL;
      if (!f)
        continue;
      if (alone && l.pairs && l.count < BR__PLACE_ITEMS && br__is_next_name (before, name)
          && br__is_next_name (l.items[l.count - 1].name, item_of (a, f).name))
        {
          l.items[l.count++] = item_of (a, f);
          l.pairs++;
        }
      else
        {
          status = end_row (&l);
          l.base = base;
          l.pairs = (size_t) alone;
          for (; f && status == BR_OK; f = twin_from (a, f + 1, base, same))
            status = list_feature (&l, f, NULL);
        }
      before = name;
    }
  return list_end (&l, status);
}

/* ---- All of it ---- */

static br_status
axis_make (axis *a, int64_t datum)
{
  size_t most = 2 * a->view->count, places = most + 2 * a->lines->placed + 1;
  a->features = br__alloc_zero (most + 1, sizeof *a->features);
  a->base = br__alloc_zero (places, sizeof *a->base);
  if (!a->features || !br__place_groups_open (&a->groups, places) || !a->base)
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
  br__place_groups_clear (&a->groups);
  br__free (a->base);
}

br_status
br__place_table_make (br__place_table *t, br__run *run, const br__view_at *f, size_t longest, int points)
{
  static const char *const words[] = { "in line", "same height" };
  const br__side_view *v = f->view;
  axis a[2] = { { .run = run, .view = v, .lines = f->level }, { .run = run, .view = v, .lines = f->upright, .upright = 1 } };
  br_status status = BR_OK;
  br__place_table_clear (t);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = axis_make (&a[i], v->datum.place[i]);
  if (status == BR_OK)
    find_twins (&a[0], &a[1]);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    if (!a[i].lines->elsewhere)
      find_places (&a[i]);
  if (status == BR_OK && points && !a[0].lines->elsewhere && !a[1].lines->elsewhere)
    status = add_points (t, a, v->datum.at);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = a[i].lines->elsewhere ? BR_OK : add_places (t, &a[i], &v->datum.at[i], words[i], longest);
  for (int same = 1; same >= 0 && status == BR_OK; same--)
    status = add_twins (t, &a[0], same, longest);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = a[i].lines->elsewhere ? BR_OK : add_all_in_line (t, &a[i], words[i], longest);
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    if (v->shapes[i].tied && !v->shapes[i].unmeasured && v->shapes[i].shape->kind == BR__ARC && v->shapes[i].d < 360 * BR__INCH)
      status = br__place_angles (t, run, &v->shapes[i]);
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    if (v->shapes[i].tied && !v->shapes[i].unmeasured && v->shapes[i].shape->base)
      status = br__place_copies (t, run, v->shapes[i].shape, &v->datum.at[0]);
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    if (v->shapes[i].pieces && !v->shapes[i].unmeasured)
      status = br__place_corners (t, run, &v->shapes[i]);
  axis_clear (&a[0]);
  axis_clear (&a[1]);
  if (status != BR_OK)
    br__place_table_clear (t);
  return status;
}
