/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension_end.c - what dimension lines end at: sides, centres and ends of shapes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "draw/by_hand.h"
#include "draw/dimension_end.h"
#include "exact/wide.h"

/* The place of a side (REACH not 0) or the centre of a shape, across (ACROSS 0) or up, in inches.  */
static br_status
place_of (br_real *z, br__run *run, const br__shape *shape, int upright, int reach)
{
  const br__value *at = br__shape_value (run->sheet, shape, upright ? BR__SHAPE_Y : BR__SHAPE_X);
  const br__value *more = reach ? br__shape_value (run->sheet, shape, reach) : NULL;
  if (!at || (reach && !more))
    return BR_DOMAIN;
  return more ? br_real_add (z, &at->real, &more->real) : br_real_set (z, &at->real);
}

br_status
br__place_of_end (br_real *z, br__run *run, const br__side_view *v, int upright, const br__end *e)
{
  if (!e->drawn)
    return br_real_set (z, &v->datum.at[upright]);
  const br__shape *s = e->drawn->shape;
  const br__value *way = e->tip ? br__shape_value (run->sheet, s, upright ? BR__SHAPE_B : BR__SHAPE_A) : NULL;
  br__pad g = { BR_OK, run->sheet->settings.bits, NULL };
  br_real half = BR_REAL_ZERO;
  br_status status = place_of (z, run, s, upright, e->reach);
  if (status != BR_OK || !e->tip)
    return status;
  status = way ? br__pad_end (&half, br__half (&g, &way->real), &g) : BR_DOMAIN;
  if (status == BR_OK)
    status = e->tip < 0 ? br_real_sub (z, z, &half) : br_real_add (z, z, &half);
  br_real_clear (&half);
  return status;
}

/* Where an arc reaches farthest, across the way that is measured: at one of its ends, the nearest to the dimension line of the
   bank FAR of those that do, or where the curve turns.  AT is how far.  */
static int64_t
turn_of_arc (const br__drawn *s, int upright, int far, int64_t at)
{
  int64_t best = upright ? s->x : s->y;
  int found = 0;
  for (int last = 0; last < 2; last++)
    {
      int64_t sine, cosine;
      br__sine_cosine (&sine, &cosine, last ? s->c + s->d : s->c);
      for (int second = 0; second < 2; second++)
        {
          int64_t radius = second ? s->b : s->a;
          int64_t x = s->x + br__scale_by (radius, cosine, BR__INCH), y = s->y + br__scale_by (radius, sine, BR__INCH);
          int64_t along = upright ? y : x, across = upright ? x : y;
          if (llabs (along - at) < BR__INCH / 1000000 && (!found || (across < best) != far))
            {
              best = across;
              found = 1;
            }
        }
    }
  return best;
}

br__end
br__end_of (const br__drawn *s, int reach, int tip, int64_t at, int64_t feature)
{
  return (br__end) { s, reach, tip, at, { feature, feature } };
}

br__end
br__end_at_side (const br__drawn *s, int upright, int far)
{
  const br__area *a = &s->reach;
  int64_t at = upright ? far ? a->y2 : a->y : far ? a->x2 : a->x;
  br__end e = br__end_of (s, upright ? far ? BR__SHAPE_TOP : BR__SHAPE_BOTTOM : far ? BR__SHAPE_RIGHT : BR__SHAPE_LEFT, 0, at,
                  upright ? s->x : s->y);
  for (size_t i = 0; i < s->copy_count; i++)
    {
      br__end own = br__end_at_side (&s->copies[i], upright, far);
      if (own.at == at)
        memcpy (e.feature, own.feature, sizeof e.feature);
    }
  if (s->copies)
    return e;
  /* The outermost point of the outline; of a box the near corner.  */
  if (s->shape->kind == BR__LINE)
    {
      int64_t along = upright ? s->b : s->a, across = upright ? s->a : s->b;
      for (int bank = 0; bank < BR__BANKS; bank++)
        e.feature[bank] += (along > 0) == far ? across / 2 : -across / 2;
    }
  for (int bank = 0; bank < BR__BANKS; bank++)
    if (s->pieces)
      e.feature[bank] = br__outline_turn (s, upright, bank == BR__FAR, at);
    else if (s->shape->kind == BR__BOX || s->shape->kind == BR__OUTLINE)
      e.feature[bank] = bank ? upright ? a->x2 : a->y2 : upright ? a->x : a->y;
    else if (s->shape->kind == BR__ARC)
      e.feature[bank] = turn_of_arc (s, upright, bank, at);
  return e;
}

void
br__side_feature (int64_t feature[BR__BANKS], const br__drawn *s, int upright, int far)
{
  br__end e = br__end_at_side (s, upright, far);
  memcpy (feature, e.feature, sizeof e.feature);
}

br__end
br__end_at_centre (const br__drawn *s, int upright)
{
  return br__end_of (s, 0, 0, upright ? s->y : s->x, upright ? s->x : s->y);
}

br__end
br__end_at_tip (const br__drawn *s, int upright, int tip)
{
  int64_t along = upright ? s->b : s->a, across = upright ? s->a : s->b;
  int64_t at = (upright ? s->y : s->x) - along / 2, feature = (upright ? s->x : s->y) - across / 2;
  return br__end_of (s, 0, tip, at + (tip > 0 ? along : 0), feature + (tip > 0 ? across : 0));
}
