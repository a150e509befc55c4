/* SPDX-License-Identifier: LGPL-3.0-or-later
   ruler.c - puts an exact value on the marks of a ruler and tells the error exactly.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/number.h"

br_status
br_ruler_round (br_number *value, br_number *error, int *tie, const br_number *x,
                const br_number *mark, br_direction direction, br_ties ties)
{
  br_number on = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO;
  int half = 0;
  br_status status = br_number_sign (mark) > 0 ? BR_OK : BR_DOMAIN;

  if (status == BR_OK)
    status = br_number_div (&on, x, mark);
  if (status == BR_OK)
    status = br_number_round (&on, &half, &on, direction, ties);
  if (status == BR_OK)
    status = br_number_mul (&on, &on, mark);
  if (status == BR_OK)
    status = br_number_sub (&off, &on, x);
  if (status == BR_OK)
    {
      br_number_swap (value, &on);
      if (error != NULL)
        br_number_swap (error, &off);
      if (tie != NULL)
        *tie = half;
    }
  br_number_clear (&on);
  br_number_clear (&off);
  return status;
}

br_status
br_ruler_neighbours (br_number *below, br_number *above, const br_number *x,
                     const br_number *mark)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = br_ruler_round (&low, NULL, NULL, x, mark, BR_DOWN, BR_TIES_UP);

  if (status == BR_OK)
    status = br_ruler_round (&high, NULL, NULL, x, mark, BR_UP, BR_TIES_UP);
  if (status == BR_OK)
    {
      br_number_swap (below, &low);
      br_number_swap (above, &high);
    }
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}
