/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_gmp.c - numbers from GMP's types and back, and the plainest fraction between two.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/number.h"

br_status
br_number_set_mpq (br_number *z, const mpq_t x)
{
  if (!z || !x)
    return BR_DOMAIN;
  mpq_t q;
  if (mpz_sgn (mpq_denref (x)) == 0)
    return BR_DOMAIN;
  if (!br__number_room (mpz_sizeinbase (mpq_numref (x), 2) + mpz_sizeinbase (mpq_denref (x), 2)))
    return BR_NO_MEMORY;
  mpq_init (q);
  /* mpq_set takes a denominator below zero for one of a huge size.  */
  mpz_set (mpq_numref (q), mpq_numref (x));
  mpz_set (mpq_denref (q), mpq_denref (x));
  mpq_canonicalize (q);
  br_status status = br__number_take (z, q);
  mpq_clear (q);
  return status;
}

br_status
br_number_set_mpz (br_number *z, const mpz_t x)
{
  if (!z || !x)
    return BR_DOMAIN;
  mpq_t q;
  if (!br__number_room (mpz_sizeinbase (x, 2)))
    return BR_NO_MEMORY;
  mpq_init (q);
  mpq_set_z (q, x);
  br_status status = br__number_take (z, q);
  mpq_clear (q);
  return status;
}

void
br_number_get_mpq (mpq_t z, const br_number *x)
{
  if (!z || !x)
    return;
  br__number_to_mpq (z, x);
}

br_status
br_number_get_mpz (mpz_t z, const br_number *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  br__view view;
  if (!br_number_is_integer (x))
    return BR_DOMAIN;
  mpz_set (z, mpq_numref (br__number_view (&view, x)));
  return BR_OK;
}

/* Z = the fraction of the smallest denominator in LOW .. HIGH: by continued fractions, the first whole number in reach on
   the way (Knuth, The Art of Computer Programming 2, 4.5.3; from memory).  0: it was not reached in 64 steps.  */
static int
plainest_ratio (mpq_t z, const br_number *low, const br_number *high)
{
  mpz_t parts[64], whole;
  mpq_t a, b;
  int count = 0, found = 0;
  mpq_inits (a, b, NULL);
  mpz_init (whole);
  br__number_to_mpq (a, low);
  br__number_to_mpq (b, high);
  for (; !found && count < 64; count++)
    {
      mpz_init (parts[count]);
      mpz_fdiv_q (parts[count], mpq_numref (a), mpq_denref (a));
      mpz_cdiv_q (whole, mpq_numref (a), mpq_denref (a));
      mpq_set_z (z, whole);
      found = mpq_cmp (z, b) <= 0;
      if (found)
        mpz_set (parts[count], whole);
      else
        {
          mpq_set_z (z, parts[count]);
          mpq_sub (a, a, z);
          mpq_sub (b, b, z);
          mpq_inv (a, a);
          mpq_inv (b, b);
          mpq_swap (a, b);
        }
    }
  mpq_set_z (z, parts[count - 1]);
  for (int i = count - 1; i-- > 0; )
    {
      mpq_inv (z, z);
      mpq_set_z (a, parts[i]);
      mpq_add (z, z, a);
    }
  for (int i = 0; i < count; i++)
    mpz_clear (parts[i]);
  mpz_clear (whole);
  mpq_clears (a, b, NULL);
  return found;
}

br_status
br__number_plainest (br_number *z, const br_number *low, const br_number *high)
{
  mpq_t q;
  mpq_init (q);
  br_status status = plainest_ratio (q, low, high) ? br__number_from_mpq (z, q) : br_number_set (z, low);
  mpq_clear (q);
  return status;
}
