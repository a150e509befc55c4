/* SPDX-License-Identifier: LGPL-3.0-or-later
   place.c - places on paper: a value put on the grid, lengths and angles between places.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/wide.h"
#include "exact/interval.h"
#include "plot/plot.h"

/* Farther from the corner than this nothing is drawn: sums of two still fit.  */
#define FARTHEST (INT64_C (100000000) * BR__INCH)
/* Bits at which a place is asked for: far past the grid.  */
#define PLACE_BITS 256

br_status
br__to_paper (int64_t *z, const br_real *inches, const br_number *ratio, unsigned bits)
{
  br_real drawn = BR_REAL_ZERO;
  br_number step = BR_NUMBER_ZERO, low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  int64_t n = 0, d = 1;
  br_status status = ratio ? br_real_set_number (&drawn, ratio) : br_real_set (&drawn, inches);
  if (status == BR_OK && ratio)
    status = br_real_mul (&drawn, &drawn, inches);
  if (status == BR_OK)
    status = br_number_set_ratio (&step, 1, BR__INCH);
  if (status == BR_OK)
    status = br_real_round (&low, NULL, &drawn, &step, BR_NEAREST, BR_TIES_UP, bits && bits < PLACE_BITS ? bits : PLACE_BITS);
  if (status == BR_UNDECIDED)
    {
      /* It lies at the middle of two places for all that can be told: either is as good.  */
      status = br_real_enclose (&low, &high, &drawn, PLACE_BITS);
      if (status == BR_OK)
        status = br_ruler_round (&low, NULL, NULL, &low, &step, BR_NEAREST, BR_TIES_UP);
    }
  if (status == BR_OK)
    status = br_number_div (&low, &low, &step);
  if (status == BR_OK && (!br_number_get_ratio (&n, &d, &low) || d != 1 || n > FARTHEST || n < -FARTHEST))
    status = BR_TOO_BIG;
  if (status == BR_OK)
    *z = n;
  br_real_clear (&drawn);
  br_number_clear (&step);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

int64_t
br__next_line (int64_t low, int64_t step, int64_t from)
{
  int64_t rest = (low - from) % step;
  return rest == 0 ? low : rest > 0 ? low + step - rest : low - rest;
}

int64_t
br__span (int64_t dx, int64_t dy)
{
  return (int64_t) br__wide_root (br__wide_add (br__wide_product (dx, dx), br__wide_product (dy, dy)));
}

void
br__across (int64_t *x, int64_t *y, int64_t dx, int64_t dy, int64_t r)
{
  int64_t length = br__span (dx, dy);
  *x = length ? br__scale_by (r, dy, length) : 0;
  *y = length ? br__scale_by (r, -dx, length) : r;
}

void
br__sine_cosine (int64_t *sine, int64_t *cosine, int64_t angle)
{
  /* Sixty-four bits more than the answer has, so that the last billionth is right but for a tie.  */
  br__mpfr_state state;
  mpfr_t x, y;
  br__mpfr_enter (&state);
  mpfr_inits2 (128, x, y, (mpfr_ptr) NULL);
  mpfr_const_pi (x, MPFR_RNDN);
  mpfr_set_sj (y, angle % (360 * BR__INCH), MPFR_RNDN);
  mpfr_mul (x, x, y, MPFR_RNDN);
  mpfr_div_ui (x, x, 180, MPFR_RNDN);
  mpfr_div_si (x, x, (long) BR__INCH, MPFR_RNDN);
  mpfr_sin_cos (x, y, x, MPFR_RNDN);
  mpfr_mul_si (x, x, (long) BR__INCH, MPFR_RNDN);
  mpfr_mul_si (y, y, (long) BR__INCH, MPFR_RNDN);
  *sine = mpfr_get_sj (x, MPFR_RNDN);
  *cosine = mpfr_get_sj (y, MPFR_RNDN);
  mpfr_clears (x, y, (mpfr_ptr) NULL);
  br__mpfr_leave (&state);
}

int64_t
br__angle (int64_t dx, int64_t dy)
{
  br__mpfr_state state;
  mpfr_t x, y;
  br__mpfr_enter (&state);
  mpfr_inits2 (128, x, y, (mpfr_ptr) NULL);
  mpfr_set_sj (x, dx, MPFR_RNDN);
  mpfr_set_sj (y, dy, MPFR_RNDN);
  mpfr_atan2 (y, y, x, MPFR_RNDN);
  mpfr_const_pi (x, MPFR_RNDN);
  mpfr_div (y, y, x, MPFR_RNDN);
  mpfr_set_sj (x, 180 * BR__INCH, MPFR_RNDN);
  mpfr_mul (y, y, x, MPFR_RNDN);
  int64_t angle = mpfr_get_sj (y, MPFR_RNDN);
  mpfr_clears (x, y, (mpfr_ptr) NULL);
  br__mpfr_leave (&state);
  return angle;
}
