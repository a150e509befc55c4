/* SPDX-License-Identifier: LGPL-3.0-or-later
   template_check.c - a template against its part: sizes that differ, holes off the wood or too near to an edge.

   A hole's rim is to be as far from the edge as the hole is wide: common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>

#include "draw/template.h"
#include "exact/wide.h"

/* What rounding to the grid of the drawing may take away.  */
#define SAME 8

/* How far X Y lies inside the edge from P to Q, of which the wood is to the left; the distance where it is beside it.  */
static int64_t
to_segment (int64_t x, int64_t y, int64_t px, int64_t py, int64_t qx, int64_t qy)
{
  double dx = (double) (qx - px), dy = (double) (qy - py), length = dx * dx + dy * dy;
  double t = length > 0 ? ((double) (x - px) * dx + (double) (y - py) * dy) / length : 0;
  t = t < 0 ? 0 : t > 1 ? 1 : t;
  return br__span (x - px - (int64_t) (t * dx), y - py - (int64_t) (t * dy));
}

/* The quarter turns that the piece P makes around X Y, in billionths of a degree, by steps along it; *NEAR gets the distance.  */
static int64_t
follow (int64_t *near, const br__drawn_piece *p, int64_t x, int64_t y)
{
  /* An arc by short chords: each lies within a 3,000th of its radius.  */
  int steps = p->turn ? (int) (llabs (p->turn) / (3 * BR__INCH)) + 1 : 1;
  int64_t turned = 0, from_x = p->x, from_y = p->y;
  for (int i = 1; i <= steps; i++)
    {
      int64_t to_x = p->x2, to_y = p->y2, sine, cosine;
      if (i < steps)
        {
          br__sine_cosine (&sine, &cosine, p->from + p->turn / steps * i);
          to_x = p->centre_x + br__scale_by (p->radius, cosine, BR__INCH);
          to_y = p->centre_y + br__scale_by (p->radius, sine, BR__INCH);
        }
      int64_t distance = to_segment (x, y, from_x, from_y, to_x, to_y);
      int64_t turn = br__angle (to_x - x, to_y - y) - br__angle (from_x - x, from_y - y);
      const int64_t full = 360 * BR__INCH;
      turned += turn > full / 2 ? turn - full : turn < -full / 2 ? turn + full : turn;
      *near = distance < *near ? distance : *near;
      from_x = to_x;
      from_y = to_y;
    }
  return turned;
}

static int64_t
least (int64_t x, int64_t y)
{
  return x < y ? x : y;
}

/* How far X Y lies inside the wood D; below zero outside of it.  */
static int64_t
depth_in (const br__drawn *d, int64_t x, int64_t y)
{
  const br__area *a = &d->reach;
  int64_t near = INT64_MAX, turned = 0, away = br__span (x - d->x, y - d->y);
  if (d->pieces)
    {
      for (size_t i = 0; i < d->piece_count; i++)
        turned += follow (&near, &d->pieces[i], x, y);
      return llabs (turned) > 180 * BR__INCH ? near : -near;
    }
  switch (d->shape->kind)
    {
    case BR__CIRCLE:
      return d->a - away;
    case BR__ARC:
      return least (away - d->a, d->b - away);
    case BR__LINE:
      return d->c / 2 - to_segment (x, y, d->x - d->a / 2, d->y - d->b / 2, d->x + d->a / 2, d->y + d->b / 2);
    default:
      return least (least (x - a->x, a->x2 - x), least (y - a->y, a->y2 - y));
    }
}

static int
is_hole (const br__drawn *d)
{
  const br__drawn *first;
  return br__drawn_figures (&first, d) && first->shape->hole;
}

static int
is_wood (const br__drawn *d)
{
  return d->tied && !is_hole (d);
}

/* How deep X Y lies in the wood of V; INT64_MIN where there is none.  */
static int64_t
deepest_in (const br__side_view *v, int64_t x, int64_t y)
{
  int64_t deepest = INT64_MIN;
  for (size_t i = 0; i < v->count; i++)
    {
      const br__drawn *d;
      size_t count = is_wood (&v->shapes[i]) ? br__drawn_figures (&d, &v->shapes[i]) : 0;
      for (size_t k = 0; k < count; k++)
        {
          int64_t depth = depth_in (&d[k], x, y);
          deepest = depth > deepest ? depth : deepest;
        }
    }
  return deepest;
}

/* Along a slot its axis is looked at in so many places and at both ends.  */
#define ALONG 32

/* One hole called NAME, against the shape that it lies in deepest.  */
static br_status
check_hole (br_list *found, const br__side_view *v, const br__drawn *hole, const char *name)
{
  const int slot = hole->shape->kind == BR__LINE;
  const int64_t radius = slot ? hole->c / 2 : hole->a;
  int64_t deepest = INT64_MAX;
  br_text t = BR_TEXT_ZERO;
  for (int i = 0; i <= (slot ? ALONG : 0); i++)
    {
      int64_t across = slot ? hole->a / ALONG * i - hole->a / 2 : 0, up = slot ? hole->b / ALONG * i - hole->b / 2 : 0;
      deepest = least (deepest, deepest_in (v, hole->x + across, hole->y + up));
    }
  if (deepest == INT64_MIN || deepest + ALONG + SAME >= 3 * radius)
    return BR_OK;
  if (deepest + ALONG + SAME < radius)
    br__text_printf (&t, "%s lies off the wood%s", name, deepest > -radius ? " in part" : "");
  else
    br__text_printf (&t, "%s is nearer to an edge than it is wide: the wood may split", name);
  if (!t.failed)
    br__list_from (found, &t);
  br_status status = t.failed ? BR_NO_MEMORY : BR_OK;
  br__text_clear (&t);
  return status;
}

/* The outermost sides of the wood, and the shapes that have them: left, bottom, right, top.  */
static int
find_reach (br__area *reach, const br__drawn *outermost[4], const br__side_view *v)
{
  int any = 0;
  for (size_t i = 0; i < v->count; i++)
    if (is_wood (&v->shapes[i]))
      {
        const br__drawn *d = &v->shapes[i];
        outermost[0] = !any || d->reach.x < reach->x ? d : outermost[0];
        outermost[1] = !any || d->reach.y < reach->y ? d : outermost[1];
        outermost[2] = !any || d->reach.x2 > reach->x2 ? d : outermost[2];
        outermost[3] = !any || d->reach.y2 > reach->y2 ? d : outermost[3];
        if (any++)
          br__area_join (reach, d->reach);
        else
          *reach = d->reach;
      }
  return any;
}

/* SIZE on paper, as it was given, a fraction or not, and as it is written.  */
static br_status
put_size (br_text *t, int64_t *paper, const br__sized *size, const br__run *run)
{
  const br_real mark = { size->mark, NULL };    /* borrowed */
  br_real z = BR_REAL_ZERO;
  br_status status = br_real_sub (&z, &mark, &size->over);
  if (status == BR_OK)
    status = br__to_paper (paper, &z, NULL, run->sheet->settings.bits);
  if (status == BR_OK)
    status = br__put_drawing_number (t, &z, &run->sheet->settings);
  br_real_clear (&z);
  return status;
}

/* How far it is from LOW to HIGH, across or up.  */
static br_status
put_reach (br_text *t, const br__drawn *low, const br__drawn *high, int up, const br__run *run)
{
  const br__value *v[4] = { br__shape_value (run->sheet, high->shape, BR__SHAPE_X + up),
                            br__shape_value (run->sheet, high->shape, up ? BR__SHAPE_TOP : BR__SHAPE_RIGHT),
                            br__shape_value (run->sheet, low->shape, BR__SHAPE_X + up),
                            br__shape_value (run->sheet, low->shape, up ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT) };
  br__pad g = { BR_OK, run->sheet->settings.bits, NULL };
  br_real z = BR_REAL_ZERO;
  if (!v[0] || !v[1] || !v[2] || !v[3])
    return BR_DOMAIN;
  const br_real *end = br__add (&g, &v[0]->real, &v[1]->real), *start = br__add (&g, &v[2]->real, &v[3]->real);
  br_status status = br__pad_end (&z, br__sub (&g, end, start), &g);
  if (status == BR_OK)
    status = br__put_drawing_number (t, &z, &run->sheet->settings);
  br_real_clear (&z);
  return status;
}

static int
differ (int64_t x, int64_t y)
{
  return llabs (x - y) > SAME;
}

/* A part may be drawn along its length or across it.  */
static br_status
check_sizes (br_list *found, br__run *run, const br__side_view *v, const br__piece *piece)
{
  br__area reach;
  const br__drawn *outermost[4] = { NULL, NULL, NULL, NULL };
  int64_t size[2] = { 0, 0 };
  br_text part = BR_TEXT_ZERO, t = BR_TEXT_ZERO;
  int across = piece->wood->round ? BR__THICKNESS : BR__WIDTH;
  if (!find_reach (&reach, outermost, v) || !piece->size[BR__LENGTH_OF].known || !piece->size[across].known)
    return BR_OK;
  int64_t wide = reach.x2 - reach.x, high = reach.y2 - reach.y;
  br_status status = put_size (&part, &size[0], &piece->size[BR__LENGTH_OF], run);
  br__text_puts (&part, " x ");
  if (status == BR_OK)
    status = put_size (&part, &size[1], &piece->size[across], run);
  int along = !differ (wide, size[0]) && !differ (high, size[1]), turned = !differ (wide, size[1]) && !differ (high, size[0]);
  if (status == BR_OK && !along && !turned)
    {
      br__text_puts (&t, "its shapes are ");
      status = put_reach (&t, outermost[0], outermost[2], 0, run);
      br__text_puts (&t, " x ");
      if (status == BR_OK)
        status = put_reach (&t, outermost[1], outermost[3], 1, run);
      br__text_printf (&t, ", the part is %s", br__text_string (&part));
      if (part.failed || t.failed)
        status = BR_NO_MEMORY;
      if (status == BR_OK)
        br__list_from (found, &t);
    }
  br__text_clear (&part);
  br__text_clear (&t);
  return status;
}

br_status
br__template_check (br_list *found, br__run *run, const br__side_view *v, const br__piece *piece)
{
  br_status status = piece ? check_sizes (found, run, v, piece) : BR_OK;
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    {
      const br__drawn *d;
      size_t count = v->shapes[i].tied && is_hole (&v->shapes[i]) ? br__drawn_figures (&d, &v->shapes[i]) : 0;
      for (size_t k = 0; k < count && status == BR_OK; k++)
        status = check_hole (found, v, &d[k], v->shapes[i].shape->name);
    }
  return status;
}
