/* SPDX-License-Identifier: LGPL-3.0-or-later
   drill.h - twist drills by fractions, numbers and letters, in inches, exact.
   Source: ASME B94.11M, Twist Drills: fractional sizes 1/64 to 1 in by 64ths, numbers
   1 to 80, letters A to Z.  Several of the sizes were taken down from memory; the test data
   says which.  Metric drills: ISO 235 and DIN 338, jobber series, from memory: by 0.05 mm up to 3, by 0.1 mm and the quarters
   up to 14, by 0.25 mm up to 16, by 0.5 mm up to 20.  */
#ifndef BR_SHOP_DRILL_H
#define BR_SHOP_DRILL_H

#include "benchrule.h"

#define BR__DRILL_SERIES 3
/* Beside those: metric drills, 1 to 20 mm, of metric sheets.  */
#define BR__DRILL_METRIC ((br_drill_series) BR__DRILL_SERIES)

typedef struct br__drill
{
  char name[16];      /* "3/8", "#7", "F", "4.25 mm" */
  int64_t num, den;   /* diameter in inches, lowest terms */
} br__drill;

/* The drills of a series from the smallest: how many, and the one at INDEX.  */
size_t br__drill_count (br_drill_series series);
br__drill br__drill_at (br_drill_series series, size_t index);
/* "fractional", "number", "letter"; and where the sizes are from.  */
const char *br__drill_series_name (br_drill_series series);
const char *br__drill_source (void);

/* The drills of one series around a size.  HAS_...: there is one; both are the same drill
   where one is just the size.  PLAY is drill less size, in inches: below zero the drill is
   under the size.  */
typedef struct br__drill_pair
{
  int has_below, has_above;
  br__drill below, above;
  br_real play_below, play_above;
} br__drill_pair;

#define BR__DRILL_PAIR_ZERO \
  { 0, 0, { "", 0, 1 }, { "", 0, 1 }, BR_REAL_ZERO, BR_REAL_ZERO }

void br__drill_pair_clear (br__drill_pair *pair);
/* The drills of SERIES around X inches.  BITS as for br_real_sign; BR_UNDECIDED where X can
   not be told from a drill.  */
br_status br__drill_neighbours (br__drill_pair *pair, br_drill_series series, const br_real *x,
                                unsigned bits, br_error *error);
/* SIZE gets the first drill of SERIES that is not smaller than X (over zero) inches.
   BR_DOMAIN past the largest.  ERROR's offset and length are 0.  */
br_status br__drill_next (br_number *size, br_drill_series series, const br_real *x, unsigned bits,
                          br_error *error);
static inline br_status
br__drill_up (br_number *size, const br_real *x, unsigned bits, br_error *error)
{
  return br__drill_next (size, BR_DRILL_FRACTIONAL, x, bits, error);
}

#endif
