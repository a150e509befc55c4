/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_round.c - rationals to integers, and the one place that decides ties.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/number.h"

/* A value lies between the integer BELOW it and the next; HALF is below, at or over 0 as the
   value is below, at or over the middle.  Returns 1 where the next is the answer.  */
static inline int
goes_up (int *tie, int half, int negative, int below_is_odd, br_direction direction, br_ties ties)
{
  *tie = 0;
  if (direction != BR_NEAREST)
    return direction == BR_UP;
  if (half != 0)
    return half > 0;
  *tie = 1;
  if (ties == BR_TIES_EVEN)
    return below_is_odd;
  /* Away from zero is the next above zero and the one below under zero.  */
  return (ties == BR_TIES_UP) != negative;
}

static br_status
round_big (br_number *z, int *tie, const br_number *x, br_direction direction, br_ties ties)
{
  br__view view;
  mpq_srcptr q = br__number_view (&view, x);
  mpq_t result;
  mpz_t rest;
  if (!br__number_room (br__number_bits (x)))
    return BR_NO_MEMORY;
  mpq_init (result);
  mpz_init (rest);
  mpz_ptr below = mpq_numref (result);
  mpz_fdiv_qr (below, rest, mpq_numref (q), mpq_denref (q));
  mpz_mul_2exp (rest, rest, 1);
  if (goes_up (tie, mpz_cmp (rest, mpq_denref (q)), mpq_sgn (q) < 0, mpz_odd_p (below) != 0,
               direction, ties))
    mpz_add_ui (below, below, 1);
  br_status status = br__number_take (z, result);
  mpz_clear (rest);
  mpq_clear (result);
  return status;
}

int64_t
br__round_ratio (int64_t *off, int *tie, int64_t num, int64_t den, br_direction direction,
                 br_ties ties)
{
  int64_t below, rest;
  if (br__is_binary (den))
    {
      below = num >> __builtin_ctzll ((uint64_t) den);
      rest = num & (den - 1);
    }
  else
    {
      below = num / den;
      rest = num - below * den;
      if (rest < 0)
        {
          rest += den;
          below--;
        }
    }
  if (rest == 0)
    {
      *off = 0;
      *tie = 0;
      return below;
    }
  int64_t missing = den - rest;
  int half = (rest > missing) - (rest < missing);
  int up = goes_up (tie, half, num < 0, (int) (below & 1), direction, ties);
  *off = up ? missing : - rest;
  return below + up;
}

br_status
br_number_round (br_number *z, int *tie, const br_number *x, br_direction direction, br_ties ties)
{
  if (!z || !x)
    return BR_DOMAIN;
  int found = 0;
  int64_t off;
  br_status status = BR_OK;
  if (br_number_is_integer (x))
    status = br_number_set (z, x);
  else if (!br__is_small (x))
    status = round_big (z, &found, x, direction, ties);
  else
    br__number_put_small (z, br__round_ratio (&off, &found, x->num, br__small_den (x), direction, ties), 1);
  if (status == BR_OK && tie)
    *tie = found;
  return status;
}

br_status
br_number_floor (br_number *z, const br_number *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  return br_number_round (z, NULL, x, BR_DOWN, BR_TIES_UP);
}

br_status
br_number_ceil (br_number *z, const br_number *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  return br_number_round (z, NULL, x, BR_UP, BR_TIES_UP);
}
