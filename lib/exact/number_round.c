/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_round.c - rounds rationals to integers; ties are decided by one function, in number.h.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/number.h"

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
  if (br__goes_up (tie, mpz_cmp (rest, mpq_denref (q)), mpq_sgn (q) < 0, mpz_odd_p (below) != 0,
               direction, ties))
    mpz_add_ui (below, below, 1);
  br_status status = br__number_take (z, result);
  mpz_clear (rest);
  mpq_clear (result);
  return status;
}

br_status
br_number_round (br_number *z, int *tie, const br_number *x, br_direction direction, br_ties ties)
{
  if (!z || !x || !br__can_round (direction, ties))
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
