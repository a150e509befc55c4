/* SPDX-License-Identifier: LGPL-3.0-or-later
   opening.c - how near the shapes of the side view are, and what is seen through their holes.

   A hole without depth goes all through, and its edge is as near as the nearest wood that it goes through.  One with a depth shows
   what lies in it, and where it goes all through what lies behind, too.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "draw/hidden_line.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "shape/depth.h"
#include "shape/through.h"

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

static int
overlap (const br__area *a, const br__area *b)
{
  return a->x < b->x2 && b->x < a->x2 && a->y < b->y2 && b->y < a->y2;
}

/* What HOLE of V goes through.  */
static br_status
find_openings (br__side_view *v, br__drawn *hole, const br_sheet *sheet)
{
  br_status status = BR_OK;
  const int endless = !br__depth_source (sheet, hole->shape)->depth;
  for (const br__drawn *d = v->shapes; d < v->shapes + v->count && status == BR_OK; d++)
    {
      int pierced = 0;
      if (!d->tied || !d->span_count || !overlap (&d->reach, &hole->reach))
        continue;
      status = br__is_pierced (&pierced, sheet, d->shape, hole->shape, NULL);
      if (status != BR_OK || !pierced)
        continue;
      if (!br__grow (&v->openings, &v->opening_room, v->opening_count + 1, sizeof *v->openings))
        return BR_NO_MEMORY;
      v->openings[v->opening_count++] = (br__opening) { hole, d };
      if (endless && (!hole->in_order || d->near > hole->near))
        hole->near = d->near;
      hole->in_order |= endless;
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

br_status
br__order_side (br__side_view *v, const br_sheet *sheet, const br_number *ratio)
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
        status = find_openings (v, d, sheet);
        order_copies (d);
      }
  return status;
}

/* ---- What is seen through it ---- */

int
br__opening_shows (const br__opening *o, const br__drawn *own)
{
  const br__drawn *hole = o->hole, *wood = o->wood;
  for (int i = 0; i < wood->span_count && hole->span_count; i++)
    {
      int open = 0;
      if (own->in_order && wood->spans[i].near <= own->near)
        continue;
      for (int k = 0; k < hole->span_count; k++)
        open |= hole->spans[k].near >= wood->spans[i].near
                && (hole->spans[k].far <= wood->spans[i].far || (own->in_order && hole->spans[k].far <= own->near));
      if (!open)
        return 0;
    }
  return 1;
}
