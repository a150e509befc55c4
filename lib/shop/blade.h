/* SPDX-License-Identifier: LGPL-3.0-or-later
   blade.h - how tight a curve a band-saw blade can follow.  */
#ifndef BR_SHOP_BLADE_H
#define BR_SHOP_BLADE_H

#include "benchrule.h"

typedef struct br__blade
{
  int64_t width_num, width_den;     /* inches */
  int64_t radius_num, radius_den;   /* the smallest radius it follows, inches */
  const char *source;
  const char *note;                 /* what other guides print, or "" */
} br__blade;

/* From the narrowest; the radius grows with the width.  */
extern const br__blade br__blades[];
extern const size_t br__blade_count;

/* How many leading rows of br__blades can follow an arc of RADIUS inches (0: none can).
   BR_DOMAIN: RADIUS is not over zero; BR_UNDECIDED at BITS bits.  ERROR's offset is 0.  */
br_status br__blades_for (size_t *count, const br_real *radius, unsigned bits, br_error *error);
/* The row of the blade that is WIDTH inches wide, or NULL.  */
const br__blade *br__blade_radius (const br_number *width);

#endif
