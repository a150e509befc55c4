/* SPDX-License-Identifier: LGPL-3.0-or-later
   depth_call.c - the functions that the hidden formulas of depths call: the positions of a pair of equal shapes, and the
   distance between two shapes that have a depth.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "formula/operate.h"
#include "geometry/shape_call.h"

/* The distance over the outsides of a pair or, as the variant, between them, and how deep each of the two is: how far the
   middle of each lies from the middle of the whole.  */
br_status
br__call_track (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  int between = self->variant == BR__CALL_BETWEEN;
  br__value room = BR__VALUE_ZERO, two = { .real = { { 2, 0 }, NULL } };
  (void) count;
  br_status status = args[0].dimension == BR_PLAIN ? br__work_to_length (w, &args[0]) : BR_OK;
  if (status == BR_OK && args[0].dimension != BR_LENGTH)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "the distance of both sides is %s, not a length",
                     br__dimension_words (args[0].dimension));
  if (status == BR_OK)
    status = br__operate (w, &room, between ? BR__CODE_ADD : BR__CODE_SUB, &args[0], &args[1]);
  if (status == BR_OK)
    status = br__operate (w, z, BR__CODE_DIV, &room, &two);
  /* What is left between the two, which is what was given or less by a depth each.  */
  if (status == BR_OK)
    status = between ? br__value_set (&room, &args[0]) : br__operate (w, &room, BR__CODE_SUB, &room, &args[1]);
  if (status == BR_OK)
    status = br__operate (w, &room, BR__CODE_NOT_BELOW, &room, NULL);
  if (status == BR_DOMAIN)
    br__fail (w->error, BR_DOMAIN, 0, 0, between ? "what lies between the two sides cannot be below zero"
                                                 : "over the outsides there must be room for both: twice the depth or more");
  z->dimension = BR_LENGTH;
  br__value_clear (&room);
  br__value_clear (&two);
  return status;
}

br_status
br__depth_gap (br__work *w, br__value *z, const br__value *args, int both)
{
  br__value middle[2] = { BR__VALUE_ZERO, BR__VALUE_ZERO }, two = { .real = { { 2, 0 }, NULL } };
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = both ? br__operate (w, &middle[i], BR__CODE_ABS, &args[2 * i], NULL) : br__value_set (&middle[i], &args[2 * i]);
  if (status == BR_OK)
    status = br__operate (w, z, BR__CODE_SUB, &middle[0], &middle[1]);
  if (status == BR_OK)
    status = br__operate (w, z, BR__CODE_ABS, z, NULL);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      status = br__operate (w, &middle[i], BR__CODE_DIV, &args[2 * i + 1], &two);
      if (status == BR_OK)
        status = br__operate (w, z, BR__CODE_SUB, z, &middle[i]);
    }
  z->dimension = BR_LENGTH;
  br__value_clear (&middle[0]);
  br__value_clear (&middle[1]);
  br__value_clear (&two);
  return status;
}

/* How far two shapes are apart that are so far apart seen from the side, with their middles in depth and their depths.  */
br_status
br__call_apart (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__value gap = BR__VALUE_ZERO;
  (void) count;
  br_status status = br__depth_gap (w, &gap, &args[1], self->variant == BR__CALL_APART_BOTH);
  if (status == BR_OK)
    status = br__operate (w, z, BR__CODE_APART, &args[0], &gap);
  z->dimension = BR_LENGTH;
  br__value_clear (&gap);
  return status;
}
