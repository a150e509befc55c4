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
/* The smallest radius in inches that a blade of WIDTH inches follows, and SOURCE.  A width between two rows is taken
   for the wider; past the widest the radius grows as the width does.  BR_DOMAIN: WIDTH is not over zero; BR_TOO_BIG;
   BR_NO_MEMORY.  */
br_status br__blade_limit (br_number *radius, const char **source, const br_number *width);

#endif
