/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_root.c - roots of numbers, and the two parts of a fraction.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/number.h"

br_status
br__number_parts (br_number *num, br_number *den, const br_number *x)
{
  int64_t n, d;
  br_status status;
  mpq_t q, part;

  if (br_number_get_ratio (&n, &d, x))
    {
      status = br_number_set_int (num, n);
      return status == BR_OK ? br_number_set_int (den, d) : status;
    }
  mpq_inits (q, part, NULL);
  br__number_to_mpq (q, x);
  mpq_set_num (part, mpq_numref (q));
  status = br__number_from_mpq (num, part);
  if (status == BR_OK)
    {
      mpq_set_num (part, mpq_denref (q));
      status = br__number_from_mpq (den, part);
    }
  mpq_clears (q, part, NULL);
  return status;
}

int
br__small_square (int64_t *root, int64_t n)
{
  /* Bit r is set where r is a square mod 64: squares leave only 12 of 64 rests.  */
  const uint64_t rests = UINT64_C (0x0202021202030213);
  uint64_t result, rest;

  if ((rests >> (n & 63) & 1) == 0)
    return 0;
  if ((n & (n - 1)) == 0)
    {
      /* 0, or a power of two, as the denominators of rulers are.  */
      *root = n == 0 ? 0 : INT64_C (1) << __builtin_ctzll ((uint64_t) n) / 2;
      return n == 0 || __builtin_ctzll ((uint64_t) n) % 2 == 0;
    }
  result = br__whole_root (&rest, (uint64_t) n);
  if (rest != 0)
    return 0;
  *root = (int64_t) result;
  return 1;
}

static br_status
big_root (br_number *z, int *exact, const br_number *x, unsigned index)
{
  br_status status = BR_OK;
  mpq_t q;

  if (!br__number_room (br__number_bits (x)))
    return BR_NO_MEMORY;
  mpq_init (q);
  br__number_to_mpq (q, x);
  *exact = (mpz_root (mpq_numref (q), mpq_numref (q), index) != 0
            && mpz_root (mpq_denref (q), mpq_denref (q), index) != 0);
  if (*exact)
    status = br__number_from_mpq (z, q);
  mpq_clear (q);
  return status;
}

br_status
br__number_root (br_number *z, int *exact, const br_number *x, unsigned index)
{
  int64_t n, d;

  if (index == 2 && br_number_get_ratio (&n, &d, x))
    {
      *exact = br__small_square (&n, n) && br__small_square (&d, d);
      return *exact ? br_number_set_ratio (z, n, d) : BR_OK;
    }
  return big_root (z, exact, x, index);
}
