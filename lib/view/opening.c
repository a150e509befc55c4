/* SPDX-License-Identifier: LGPL-3.0-or-later
   opening.c - how near the shapes of the side view are, and what is seen through their holes.

   A hole without depth goes all through, and its edge is as near as the nearest wood that it goes through.  One with a depth shows
   what lies in it, and where it goes all through what lies behind, too.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/depth.h"
#include "shape/through.h"
#include "view/hidden_line.h"
#include "view/wood_left.h"

/* ---- How near ---- */

/* From where to where D goes in depth; *KNOWN is 0 while that waits.  */
static br_status
take_spans (br__drawn *d, int *known, const br_sheet *sheet, const br_number *ratio)
{
  br__value near = BR__VALUE_ZERO, far = BR__VALUE_ZERO;
  br__drawn_span *z = d->spans;
  br_status status = br__depth_ends (&near, &far, known, sheet, d->shape);
  if (status == BR_OK && *known)
    status = br__to_paper (&z->near, &near.real, ratio, sheet->settings.bits);
  if (status == BR_OK && *known)
    status = br__to_paper (&z->far, &far.real, ratio, sheet->settings.bits);
  if (status == BR_OK && *known)
    {
      d->span_count = br__depth_source (sheet, d->shape)->depth > BR__FROM_DEPTH ? 2 : 1;
      z[1] = (br__drawn_span) { -z->far, -z->near };
    }
  br__value_clear (&near);
  br__value_clear (&far);
  return status;
}

/* Whether HOLE goes through WOOD: as it did in BEFORE, the same view in another scale, or NULL.  */
static br_status
find_pierced (int *pierced, const br__side_view *before, const br_sheet *sheet, const br__drawn *wood, const br__drawn *hole)
{
  if (!before)
    return br__is_pierced (pierced, sheet, wood->shape, hole->shape, NULL);
  for (size_t i = 0; i < before->opening_count && !*pierced; i++)
    *pierced = before->openings[i].hole->shape == hole->shape && before->openings[i].wood->shape == wood->shape;
  return BR_OK;
}

/* What HOLE of V goes through.  */
static br_status
find_openings (br__side_view *v, const br__side_view *before, br__drawn *hole, const br_sheet *sheet)
{
  br_status status = BR_OK;
  const int endless = !br__depth_source (sheet, hole->shape)->depth;
  for (br__drawn *d = v->shapes; d < v->shapes + v->count && status == BR_OK; d++)
    {
      int pierced = 0;
      const int waits = !d->span_count && br__depth_source (sheet, d->shape)->depth;
      if (!d->tied || waits || !br__areas_meet (d->reach, hole->reach))
        continue;
      status = find_pierced (&pierced, before, sheet, d, hole);
      if (status != BR_OK || !pierced)
        continue;
      if (!br__grow (&v->openings, &v->opening_room, v->opening_count + 1, sizeof *v->openings))
        return BR_NO_MEMORY;
      hole->in_wood = br__part_of (sheet, hole->shape) != NULL;
      v->openings[v->opening_count++] = (br__opening) { hole, d, hole->in_wood };
      if (endless && d->in_order && (!hole->in_order || d->near > hole->near))
        hole->near = d->near;
      hole->in_order |= endless && d->in_order;
    }
  return status;
}

static void
order_copies (br__drawn *d)
{
  for (size_t i = 0; i < d->copy_count; i++)
    {
      d->copies[i].in_order = d->in_order;
      d->copies[i].near = d->near;
    }
}

/* 1 where no place of HOLE, of V or a place of one, can go beyond the edge of WOOD, which is all of its box.  */
static int
is_inside_box (const br__drawn *hole, const br__drawn *wood)
{
  const br__area *a = &hole->reach, *b = &wood->reach;
  return wood->shape->kind == BR__BOX && !wood->pieces && a->x >= b->x && a->x2 <= b->x2 && a->y >= b->y && a->y2 <= b->y2;
}

/* Whether O goes beyond the edge of its wood; 0: memory ran out.  */
static int
find_open (const br__opening *o)
{
  const br__drawn *hole;
  const size_t count = br__drawn_figures (&hole, o->hole);
  int failed = 0;
  for (size_t i = 0; i < count && o->cuts && !failed && !o->wood->open; i++)
    {
      br__wood_left alone = { NULL, 0, 0, 0 };
      if (is_inside_box (&hole[i], o->wood))
        continue;
      br__wood_left_alone (&alone, o, &hole[i]);
      o->wood->open = br__wood_left_cuts (&alone, &hole[i]);
      failed = alone.failed;
      br__wood_left_clear (&alone);
    }
  return !failed;
}

br_status
br__order_side (br__side_view *v, const br__side_view *before, const br_sheet *sheet, const br_number *ratio)
{
  br_status status = BR_OK;
  for (br__drawn *d = v->shapes; d < v->shapes + v->count && status == BR_OK; d++)
    {
      if (d->tied)
        status = take_spans (d, &d->in_order, sheet, ratio);
      d->near = d->spans->near;
      order_copies (d);
    }
  for (br__drawn *d = v->shapes; d < v->shapes + v->count && status == BR_OK; d++)
    if (d->tied && br__shape_source (sheet, d->shape)->hole)
      {
        status = find_openings (v, before, d, sheet);
        order_copies (d);
      }
  for (size_t i = 0; i < v->count && before; i++)
    v->shapes[i].open = before->shapes[i].open;
  for (size_t i = 0; i < v->opening_count && status == BR_OK && !before; i++)
    status = find_open (&v->openings[i]) ? BR_OK : BR_NO_MEMORY;
  return status;
}

/* ---- What is seen through it ---- */

int
br__opening_shows (const br__opening *o, const br__drawn *own)
{
  const br__drawn *hole = o->hole, *wood = o->wood;
  const int placed = own && own->in_order;
  for (int i = 0; i < wood->span_count && hole->span_count; i++)
    {
      int open = 0;
      if (placed && wood->spans[i].near <= own->near)
        continue;
      for (int k = 0; k < hole->span_count; k++)
        open |= hole->spans[k].near >= wood->spans[i].near
                && (hole->spans[k].far <= wood->spans[i].far || (placed && hole->spans[k].far <= own->near));
      if (!open)
        return 0;
    }
  return 1;
}
