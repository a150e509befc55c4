/* SPDX-License-Identifier: LGPL-3.0-or-later
   ruler.c - rounds an exact value to the marks of a ruler and computes the exact error.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/number.h"
#include "exact/real.h"

/* NUM / DEN with a DEN of 2^K, in lowest terms.  */
static inline void
put_halves (br_number *z, int64_t num, int64_t den)
{
  int shift = __builtin_ctzll ((uint64_t) (num | den));

  br__number_put_small (z, num >> shift, den >> shift);
}

/* Small values on the marks 1/2^K: nearly every rounding that a shop asks for, without a common
   divisor being sought.  With X = n/d the mark is the integer m for n 2^K / d, and the error
   (m d - n 2^K) / (d 2^K): an odd prime of d that divides the numerator would divide n as well,
   which X in lowest terms rules out, so that only halves are left to cancel.  0: not done.  */
static int
round_on_halves (br_number *value, br_number *error, int *tie, const br_number *x,
                 const br_number *mark, br_direction direction, br_ties ties)
{
  int64_t marks, den, num, whole, off, parts;
  int half;

  if (!br__is_small (x) || !br__is_small (mark) || mark->num != 1)
    return 0;
  parts = br__small_den (mark);
  den = br__small_den (x);
  if (!br__is_binary (parts) || __builtin_mul_overflow (x->num, parts, &num)
      || num == INT64_MIN || __builtin_mul_overflow (den, parts, &whole))
    return 0;
  marks = br__round_ratio (&off, &half, num, den, direction, ties);
  put_halves (value, marks, parts);
  if (error != NULL && off == 0)
    br__number_put_small (error, 0, 1);
  else if (error != NULL)
    put_halves (error, off, whole);
  if (tie != NULL)
    *tie = half;
  return 1;
}

/* Apart, so that the usual numbers pay nothing for it.  */
static __attribute__ ((noinline)) br_status
round_any (br_number *value, br_number *error, int *tie, const br_number *x,
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
br_ruler_round (br_number *value, br_number *error, int *tie, const br_number *x,
                const br_number *mark, br_direction direction, br_ties ties)
{
  if (!value || !x || !mark || !br__can_round (direction, ties))
    return BR_DOMAIN;
  if (round_on_halves (value, error, tie, x, mark, direction, ties))
    return BR_OK;
  return round_any (value, error, tie, x, mark, direction, ties);
}

br_status
br_ruler_round_real (br_number *value, br_real *error, int *tie, const br_real *x,
                     const br_number *mark, br_direction direction, br_ties ties, unsigned bits)
{
  if (!value || !x || !mark)
    return BR_DOMAIN;
  br_real on = BR_REAL_ZERO, off = BR_REAL_ZERO;
  int half = 0;
  br_status status = br_real_round (&on.rational, &half, x, mark, direction, ties, bits);

  if (status == BR_OK)
    status = br_real_sub (&off, &on, x);
  if (status == BR_OK)
    {
      br_number_swap (value, &on.rational);
      if (error != NULL)
        br__real_move (error, &off);
      if (tie != NULL)
        *tie = half;
    }
  br_real_clear (&on);
  br_real_clear (&off);
  return status;
}

br_status
br_ruler_neighbours (br_number *below, br_number *above, const br_number *x,
                     const br_number *mark)
{
  if (!below || !above || !x || !mark)
    return BR_DOMAIN;
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
