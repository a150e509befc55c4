/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_gmp.c - numbers from GMP's types and back.  */
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
