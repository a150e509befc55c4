/* SPDX-License-Identifier: LGPL-3.0-or-later
   simplest.c - the fraction with the coarsest binary mark that is near enough.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "benchrule.h"

#define FINEST 64     /* the last ruler tried is that of 1/2^64 */

/* NEAR gets 1 if |X - VALUE| <= WITHIN.  */
static br_status
is_near (int *near, const br_real *x, const br_number *value, const br_number *within,
         unsigned bits)
{
  br_real edge = BR_REAL_ZERO;
  int order = 0;
  br_status status = br_number_sub (&edge.rational, value, within);

  if (status == BR_OK)
    status = br_real_cmp (&order, x, &edge, bits);
  *near = order >= 0;
  if (status == BR_OK && *near)
    {
      status = br_number_add (&edge.rational, value, within);
      if (status == BR_OK)
        status = br_real_cmp (&order, x, &edge, bits);
      *near = order <= 0;
    }
  br_real_clear (&edge);
  return status;
}

br_status
br_ruler_simplest (br_number *value, br_number *mark, const br_real *x, const br_number *within,
                   unsigned bits)
{
  if (!value || !mark || !x || !within)
    return BR_DOMAIN;
  br_number step = BR_NUMBER_ZERO, two = BR_NUMBER_ZERO, on = BR_NUMBER_ZERO;
  int i, near = 0;
  br_status status = br_number_sign (within) >= 0 ? BR_OK : BR_DOMAIN;

  if (status == BR_OK)
    status = br_number_set_int (&step, 1);
  if (status == BR_OK)
    status = br_number_set_int (&two, 2);
  for (i = 0; status == BR_OK && i <= FINEST; i++)
    {
      status = br_real_round (&on, NULL, x, &step, BR_NEAREST, BR_TIES_UP, bits);
      if (status == BR_OK)
        status = is_near (&near, x, &on, within, bits);
      if (status != BR_OK || near)
        break;
      status = br_number_div (&step, &step, &two);
    }
  if (status == BR_OK && !near)
    status = BR_DOMAIN;
  if (status == BR_OK)
    {
      br_number_swap (value, &on);
      br_number_swap (mark, &step);
    }
  br_number_clear (&step);
  br_number_clear (&two);
  br_number_clear (&on);
  return status;
}
