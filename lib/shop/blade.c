/* SPDX-License-Identifier: LGPL-3.0-or-later
   blade.c - the smallest radius that a band-saw blade of each width can follow.
   Common practice as trade guides print it; guides differ, and a notched or worn blade
   does worse, so a trial cut in waste comes first.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shop/blade.h"
#include "shop/calc.h"

#define GUIDE "common practice: trade guide to band-saw blades"
#define MANUALS GUIDE ", and two band-saw manuals"
#define MAGAZINE GUIDE ", and a trade magazine"
#define NEXT_WIDER GUIDE ", which has the next wider blade"
#define IN_PROPORTION "common practice, no source: past the widest blade of the guides the radius grows with the width"

const br__blade br__blades[] = {
  { 1, 8, 3, 16, GUIDE, "" },
  { 3, 16, 5, 16, MAGAZINE, "another manual prints 3/8" },
  { 1, 4, 5, 8, MANUALS, "" },
  { 3, 8, 3, 2, GUIDE, "manuals print 1-3/8 or 1-1/4" },
  { 1, 2, 5, 2, MANUALS, "" },
  { 3, 4, 11, 2, MAGAZINE, "" },
  { 1, 1, 7, 1, GUIDE, "another manual prints 7-5/8" },
};

const size_t br__blade_count = sizeof br__blades / sizeof br__blades[0];

br_status
br__blades_for (size_t *count, const br_real *radius, unsigned bits, br_error *error)
{
  size_t n = 0;
  int order = 0;
  br_status status = br_real_sign (&order, radius, bits);

  if (status == BR_OK && order <= 0)
    return br__fail (error, BR_DOMAIN, 0, 0, "the radius of a curve must be over zero");
  order = 0;
  while (status == BR_OK && order >= 0 && n < br__blade_count)
    {
      status = calc_against (&order, radius, br__blades[n].radius_num, br__blades[n].radius_den,
                             bits);
      if (order >= 0)
        n++;
    }
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  *count = n;
  return BR_OK;
}

br_status
br__blade_limit (br_number *radius, const char **source, const br_number *width)
{
  const br__blade *widest = &br__blades[br__blade_count - 1];
  br_number row = BR_NUMBER_ZERO;
  br_status status = br_number_sign (width) > 0 ? BR_OK : BR_DOMAIN;

  for (size_t i = 0; i < br__blade_count && status == BR_OK; i++)
    {
      const br__blade *b = &br__blades[i];
      status = br_number_set_ratio (&row, b->width_num, b->width_den);
      if (status != BR_OK || br_number_cmp (&row, width) < 0)
        continue;
      *source = br_number_cmp (&row, width) == 0 ? b->source : NEXT_WIDER;
      return br_number_set_ratio (radius, b->radius_num, b->radius_den);
    }
  if (status == BR_OK)
    status = br_number_set_ratio (&row, widest->radius_num * widest->width_den,
                                  widest->radius_den * widest->width_num);
  if (status == BR_OK)
    status = br_number_mul (radius, &row, width);
  if (status == BR_OK)
    *source = IN_PROPORTION;
  br_number_clear (&row);
  return status;
}
