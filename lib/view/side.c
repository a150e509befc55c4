/* SPDX-License-Identifier: LGPL-3.0-or-later
   side.c - the shapes of a sheet as they lie on paper: exact values put on the grid of the drawing once;
   what is not tied down is made up beside them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "shape/annotation.h"
#include "view/hidden_line.h"
#include "wood/wood.h"

static void
clear_drawn (br__drawn *d)
{
  br__free (d->label);
  br__free (d->pieces);
  br__free (d->profile);
  br__free (d->blocks);
  br__free (d->bends);
  for (size_t k = 0; k < d->copy_count; k++)
    br__free (d->copies[k].pieces);
  br__free (d->copies);
}

void
br__view_clear (br__side_view *v)
{
  for (size_t i = 0; i < v->count; i++)
    clear_drawn (&v->shapes[i]);
  br__free (v->shapes);
  br__free (v->openings);
  br__datum_clear (&v->datum);
  br_number_clear (&v->ratio);
  br__text_clear (&v->unplaced);
  memset (v, 0, sizeof *v);
}

void
br__view_drop_loose (br__side_view *v)
{
  size_t kept = 0;
  for (size_t i = 0; i < v->count; i++)
    if (v->shapes[i].tied)
      {
        if (!kept)
          v->reach = v->shapes[i].reach;
        br__area_join (&v->reach, v->shapes[i].reach);
        for (size_t n = 0; kept < i && n < v->opening_count; n++)
          {
            br__opening *o = &v->openings[n];
            o->hole = o->hole == &v->shapes[i] ? &v->shapes[kept] : o->hole;
            o->wood = o->wood == &v->shapes[i] ? &v->shapes[kept] : o->wood;
          }
        v->shapes[kept++] = v->shapes[i];
      }
    else
      clear_drawn (&v->shapes[i]);
  v->count = kept;
  v->loose = 0;
  if (!kept)
    br__view_clear (v);
}

/* Number PART of S on paper.  *KNOWN gets 0 where it waits.  */
static br_status
number_of (int64_t *z, int *known, const br_sheet *sheet, const br__shape *s, int part, const br_number *ratio)
{
  const br__value *v = br__shape_value (sheet, s, part);
  *known = v != NULL;
  if (!v)
    return BR_OK;
  br_status status = br__to_paper (z, &v->real, v->dimension == BR_ANGLE ? NULL : ratio, sheet->settings.bits);
  return status;
}

/* ---- A shape that is tied ---- */

static br_status
read_numbers (br__drawn *d, int known[6], const br_sheet *sheet, const br_number *ratio)
{
  int64_t *const numbers[] = { &d->x, &d->y, &d->a, &d->b, &d->c, &d->d };
  br_status status = BR_OK;
  for (int i = 0; i < 6 && status == BR_OK; i++)
    status = number_of (numbers[i], &known[i], sheet, d->shape, BR__SHAPE_X + i, ratio);
  return status;
}

static br_status
read_reach (br__drawn *d, const br_sheet *sheet, const br_number *ratio)
{
  int64_t *const sides[] = { &d->reach.x2, &d->reach.y2, &d->reach.x, &d->reach.y };
  br_status status = BR_OK;
  for (int i = 0; i < 4 && status == BR_OK; i++)
    {
      int known;
      status = number_of (sides[i], &known, sheet, d->shape, BR__SHAPE_RIGHT + i, ratio);
      *sides[i] += i % 2 ? d->y : d->x;
      d->tied = d->tied && known;
    }
  return status;
}

/* ---- A shape that is not ---- */

/* Sizes that wait, in units of U.  */
static void
make_up_sizes (br__drawn *d, const int known[6], int64_t u)
{
  static const int guess[][4] =
  {
    { 0, 0, 0, 0 }, { 2, 0, 0, 0 }, { 8, 2, 0, 0 }, { 3, 4, 0, 0 }, { 8, 0, 0, 0 }
  };
  int64_t *const sizes[] = { &d->a, &d->b, &d->c, &d->d };
  for (int i = 0; i < 4; i++)
    if (!known[2 + i])
      *sizes[i] = d->shape->kind < BR__OUTLINE ? guess[d->shape->kind][i] * u : 0;
  if (d->shape->kind >= BR__OUTLINE)
    {
      d->a = 8 * u;
      d->b = 4 * u;
    }
  if (d->shape->kind == BR__ARC && !known[5])
    d->d = 180 * BR__INCH;
  if (d->shape->kind == BR__ARC && !known[3])
    d->b = d->a + u;
}

static int64_t
size_of (int64_t x)
{
  return x < 0 ? -x : x;
}

/* How far it goes from its centre to either side, and up or down.  */
static void
half_sizes (int64_t *across, int64_t *up, const br__drawn *d)
{
  switch (d->shape->kind)
    {
    case BR__CIRCLE: *across = *up = d->a; break;
    case BR__ARC: *across = *up = d->b; break;
    case BR__LINE: *across = size_of (d->a) / 2 + d->c / 2; *up = size_of (d->b) / 2 + d->c / 2; break;
    default: *across = d->a / 2; *up = d->b / 2; break;
    }
}

/* Where X or Y waits, the shape stands in a row below the others; *LEFT is where the next one does.  */
static void
make_up_place (br__drawn *d, const int known[6], int64_t *left, int64_t top, int64_t u)
{
  int64_t across = 0, up = 0;
  half_sizes (&across, &up, d);
  if (!known[0] || !known[1])
    {
      d->x = known[0] ? d->x : *left + across;
      d->y = known[1] ? d->y : top - up;
      *left = d->x + across > *left ? d->x + across + u : *left;
    }
  d->reach = (br__area) { d->x - across, d->y - up, d->x + across, d->y + up };
}

/* ---- All of them ---- */

/* A row or a mirror belongs where its shape does, unless it says where.  The shape that a part is cut as belongs to it, with what
   is of that shape; where no part is called so, it is the shape of that name.  */
int
br__is_drawn (const br_sheet *sheet, const br__shape *s, const char *layer, const char *of)
{
  const char *own_layer = NULL, *own_part = NULL;
  if (!s || !s->active)
    return 0;
  const br__wood *part = of ? br__wood_find (sheet, 0, of, strlen (of)) : NULL;
  const char *as = part ? part->as : of;
  int cut_as = as && strcmp (as, s->name) == 0;
  for (; s; s = s->base ? br__shape_find (sheet, s->base, strlen (s->base)) : NULL)
    {
      own_layer = own_layer ? own_layer : s->layer;
      own_part = own_part ? own_part : s->of;
    }
  return (!layer || (own_layer && strcmp (own_layer, layer) == 0)) && (!of || cut_as || (own_part && (strcmp (own_part, of) == 0 || (as && strcmp (own_part, as) == 0))));
}

/* 1 where an end of the bar D is the centre of a circle: it turns or is held there.  */
static int
is_held (const br__side_view *v, const br__drawn *d)
{
  const int64_t near = 4;       /* digits of the grid that halves may lose */
  for (size_t i = 0; i < v->count && d->shape->kind == BR__LINE && d->c; i++)
    {
      const br__drawn *c = &v->shapes[i];
      for (int far = -1; far <= 1 && c->tied && c->shape->kind == BR__CIRCLE; far += 2)
        if (size_of (2 * (c->x - d->x) - far * d->a) <= near && size_of (2 * (c->y - d->y) - far * d->b) <= near)
          return 1;
    }
  return 0;
}

/* "lid (a place)": what a shape waits for stands behind its name.  */
static br_status
make_label (br__drawn *d, const br__side_view *v, const br_sheet *sheet)
{
  br_text t = BR_TEXT_ZERO;
  br__text_puts (&t, d->shape->name);
  if (!d->tied)
    {
      br_record *r = br__record_new ("");
      br_list *waiting = br__put_list (r, "waiting");
      br__shape_waiting (waiting, sheet, d->shape);
      for (size_t i = 0; waiting && i < br_list_size (waiting); i++)
        br__text_printf (&t, "%s%s", i ? ", " : " needs ", br_list_at (waiting, i).value.text);
      t.failed = t.failed || br__record_failed (r);
      br__record_free (r);
    }
  br_status status = d->tied && !d->unmeasured ? br__put_label_size (&t, sheet, d->shape, is_held (v, d)) : BR_OK;
  d->label = t.failed || status != BR_OK ? NULL : br__strndup (t.bytes, t.length);
  br__text_clear (&t);
  return status != BR_OK ? status : d->label ? BR_OK : BR_NO_MEMORY;
}

/* 1 if the shape NAME is among those of V.  */
static int
is_in (const br__side_view *v, const char *name)
{
  for (size_t i = 0; i < v->count; i++)
    if (strcmp (v->shapes[i].shape->name, name) == 0)
      return 1;
  return 0;
}

/* The tied ones; KNOWN gets what is known of the numbers of each.  */
static br_status
take_tied (br__side_view *v, int (*known)[6], br__run *run, const br_number *ratio)
{
  br_status status = BR_OK;
  int any = 0;
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    {
      br__drawn *d = &v->shapes[i];
      d->tied = 1;
      status = read_numbers (d, known[i], run->sheet, ratio);
      for (int k = 0; k < 6; k++)
        d->tied = d->tied && known[i][k];
      if (status == BR_OK && d->tied)
        status = read_reach (d, run->sheet, ratio);
      if (status == BR_OK && d->tied && d->shape->kind == BR__OUTLINE)
        status = br__drawn_outline (d, run->sheet, ratio);
      if (status == BR_OK && d->tied && d->shape->base)
        status = br__drawn_copies (d, run->sheet, ratio, is_in (v, d->shape->base));
      v->loose += !d->tied;
      if (status != BR_OK || !d->tied)
        continue;
      if (!any)
        v->reach = d->reach;
      any = 1;
      br__area_join (&v->reach, d->reach);
    }
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    status = make_label (&v->shapes[i], v, run->sheet);
  return status;
}

static void
take_loose (br__side_view *v, int (*known)[6], const br_number *ratio)
{
  int64_t u = (v->reach.x2 - v->reach.x) / 32, n = 1, d = 1;
  int tied = v->loose < v->count;
  if (u < BR__INCH / 16)
    {
      /* Nothing to go by: a quarter of an inch, or what it is at this scale.  */
      u = BR__INCH / 4;
      if (ratio && br_number_get_ratio (&n, &d, ratio) && n < d && d / n < 1000)
        u = u * n / d;
    }
  int64_t left = v->reach.x, top = v->reach.y - (tied ? 2 * u : 0);
  for (size_t i = 0; i < v->count; i++)
    if (!v->shapes[i].tied)
      {
        make_up_sizes (&v->shapes[i], known[i], u);
        make_up_place (&v->shapes[i], known[i], &left, top, u);
        if (!tied)
          v->reach = v->shapes[i].reach;
        tied = 1;
        br__area_join (&v->reach, v->shapes[i].reach);
      }
}

/* 1 where both are of the same shapes.  */
static int
is_same (const br__side_view *v, const br__side_view *w)
{
  size_t same = 0;
  while (v->count == w->count && same < w->count && v->shapes[same].shape == w->shapes[same].shape && v->shapes[same].tied == w->shapes[same].tied)
    same++;
  return same == w->count && v->count == same;
}

br_status
br__view_make (br__side_view *v, br__run *run, const br_number *ratio, const char *layer, const char *of)
{
  br__side_view made = BR__VIEW_ZERO;
  size_t count = 0;
  for (const br__shape *s = run->sheet->shapes; s; s = s->next)
    count += (size_t) br__is_drawn (run->sheet, s, layer, of);
  if (!count)
    return BR_DOMAIN;
  int (*known)[6] = br__alloc_zero (count, sizeof *known);
  made.shapes = br__alloc_zero (count, sizeof *made.shapes);
  br_status status = known && made.shapes ? BR_OK : BR_NO_MEMORY;
  if (status == BR_OK)
    status = ratio ? br_number_set (&made.ratio, ratio) : br_number_set_int (&made.ratio, 1);
  for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
    if (br__is_drawn (run->sheet, s, layer, of))
      {
        made.shapes[made.count].unmeasured = br__is_unmeasured (run->sheet, s->name);
        made.shapes[made.count++].shape = s;
      }
  if (status == BR_OK)
    status = take_tied (&made, known, run, ratio);
  if (status == BR_OK)
    status = br__order_side (&made, is_same (v, &made) ? v : NULL, run->sheet, ratio);
  if (status == BR_OK && made.loose)
    take_loose (&made, known, ratio);
  if (status == BR_OK)
    status = br__datum_find (&made, run->sheet, ratio);
  br__free (known);
  if (status != BR_OK)
    {
      br__view_clear (&made);
      return status;
    }
  br__view_clear (v);
  *v = made;
  return BR_OK;
}

/* ---- Strokes ---- */

/* Thin lines through a centre that go a little past a circle of RADIUS, or stay small.  */
static void
plot_centre (br__plot *p, int64_t x, int64_t y, int64_t radius)
{
  int64_t arm = radius + BR__INCH / 16;
  p->group = BR__GROUP_CENTRES;
  br__plot_line (p, BR__PEN_THIN, x - arm, y, x + arm, y, BR__DASH_DOT);
  br__plot_line (p, BR__PEN_THIN, x, y - arm, x, y + arm, BR__DASH_DOT);
  p->group = BR__GROUP_OUTLINES;
}

/* 1 if a larger circle, or an earlier one of this size, has the same centre: its centre lines are those of D.  */
static int
is_inside_another (const br__side_view *v, const br__drawn *d)
{
  for (const br__drawn *c = v->shapes; c < v->shapes + v->count; c++)
    if (c != d && c->tied && c->shape->kind == BR__CIRCLE && c->x == d->x && c->y == d->y
        && (c->a > d->a || (c->a == d->a && c < d)))
      return 1;
  return 0;
}

static br__ink *
plot_shape (br__plot *p, const br__drawn *d, int64_t x, int64_t y)
{
  br__ink *ink;
  switch (d->shape->kind)
    {
    case BR__CIRCLE:
      ink = br__plot_add (p, BR__INK_CIRCLE, BR__PEN_OUTLINE, x, y);
      ink->r = d->a;
      return ink;
    default:
      ink = br__plot_add (p, BR__INK_BOX, BR__PEN_OUTLINE, x - d->a / 2, y - d->b / 2);
      ink->x2 = ink->x + d->a;
      ink->y2 = ink->y + d->b;
      return ink;
    case BR__ARC:
      ink = br__plot_add (p, BR__INK_STRIP, BR__PEN_OUTLINE, x, y);
      ink->r = d->a;
      ink->r2 = d->b;
      ink->from = d->c;
      ink->to = d->c + d->d;
      return ink;
    case BR__LINE:
      break;
    }
  ink = br__plot_add (p, d->c ? BR__INK_BAR : BR__INK_LINE, BR__PEN_OUTLINE, x - d->a / 2, y + d->b / 2);
  ink->x2 = ink->x + d->a;
  ink->y2 = ink->y - d->b;
  ink->r = d->c / 2;
  return ink;
}

static void
put_centres (br__plot *p, const br__side_view *v, const br__drawn *d, int64_t left, int64_t top)
{
  int64_t x = left + d->x, y = top - d->y;
  int disc = d->shape->kind == BR__CIRCLE || (d->shape->kind == BR__ARC && d->shape->word);
  if (v->bare)
    return;
  if (disc && d->tied && !is_inside_another (v, d))
    plot_centre (p, x, y, (d->reach.x2 - d->reach.x) / 2);
  for (int end = -1; end < 2 && d->shape->kind == BR__LINE && d->shape->hole && d->tied; end += 2)
    plot_centre (p, x + end * d->a / 2, y - end * d->b / 2, d->c / 2);
}

static void
plot_drawn (br__plot *p, const br__drawn *d, const char *name, int64_t left, int64_t top)
{
  if (d->pieces)
    {
      br__outline_plot (p, d, name, left, top);
      return;
    }
  br__ink *ink = plot_shape (p, d, left + d->x, top - d->y);
  ink->dashed = !d->tied;
  br__ink_name (p, ink, name);
}

void
br__drawn_plot (br__plot *p, const br__drawn *d, int64_t left, int64_t top)
{
  plot_drawn (p, d, d->shape->name, left, top);
}

void
br__view_plot (br__plot *p, const br__side_view *v, int64_t left, int64_t top)
{
  br__group before = p->group;
  p->group = BR__GROUP_OUTLINES;
  for (size_t i = 0; i < v->count; i++)
    {
      const br__drawn *d = &v->shapes[i];
      for (size_t k = 0; k < d->copy_count; k++)
        {
          put_centres (p, v, &d->copies[k], left, top);
          plot_drawn (p, &d->copies[k], d->shape->name, left, top);
          br__hide_lines (p, v, &d->copies[k], left, top);
        }
      if (d->copies)
        continue;
      put_centres (p, v, d, left, top);
      br__drawn_plot (p, d, left, top);
      br__hide_lines (p, v, d, left, top);
    }
  p->group = before;
}
