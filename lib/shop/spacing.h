/* SPDX-License-Identifier: LGPL-3.0-or-later
   spacing.h - equal pieces and equal gaps, each mark measured from one end so that errors do
   not add up.  */
#ifndef BR_SHOP_SPACING_H
#define BR_SHOP_SPACING_H

#include "benchrule.h"

/* PIECE gets the length of each of COUNT equal pieces of LENGTH with a KERF between each two.
   BR_DOMAIN: COUNT under 1, KERF under 0, or nothing left for the pieces.  */
br_status br__divide (br_real *piece, const br_real *length, int64_t count, const br_real *kerf,
                      unsigned bits);
/* The pencil line at the end of piece INDEX (from 0); the kerf is beyond it.  */
br_status br__divide_mark (br_real *mark, const br_real *piece, const br_real *kerf, int64_t index);

/* GAP gets the room between each two of COUNT things of WIDTH along LENGTH.  ENDS is the room that is
   left at each end, or NULL: the same gap there.  BR_DOMAIN: COUNT under 1, WIDTH or ENDS under 0, not
   enough room; with ENDS a single thing must fill what is between them.  */
br_status br__space (br_real *gap, const br_real *length, int64_t count, const br_real *width,
                     const br_real *ends, unsigned bits);
/* Where thing INDEX (from 0) begins.  */
br_status br__space_mark (br_real *mark, const br_real *gap, const br_real *width, const br_real *ends,
                          int64_t index);

#endif
