/* SPDX-License-Identifier: GPL-3.0-or-later
   decimal.h - what a decimal that the library wrote must be, in GMP's rationals.  */
#ifndef BR_TESTS_FUZZ_DECIMAL_H
#define BR_TESTS_FUZZ_DECIMAL_H

#include <gmp.h>

#include "fuzz.h"

/* Q = TEXT, which may have a point and then has no zeros at its end.  TEXT loses its point.  */
static void
decimal_read (mpq_ptr q, char *text)
{
  char *point = strchr (text, '.');
  unsigned long places = 0;
  if (point)
    {
      places = (unsigned long) strlen (point + 1);
      fuzz_require (places > 0 && point[places] != '0');
      memmove (point, point + 1, places + 1);
    }
  fuzz_require (mpz_set_str (mpq_numref (q), text, 10) == 0);
  mpz_ui_pow_ui (mpq_denref (q), 10, places);
  mpq_canonicalize (q);
}

/* HALF = half the value of the last of DIGITS significant digits of X, which is not 0.  */
static void
decimal_half (mpq_ptr half, mpq_srcptr x, unsigned digits)
{
  mpq_t ten, size;
  mpq_inits (ten, size, NULL);
  mpq_set_ui (ten, 10, 1);
  mpq_abs (size, x);
  mpq_set_ui (half, 1, 1);
  while (mpq_cmp (half, size) > 0)
    mpq_div (half, half, ten);
  while (mpq_cmp (half, size) <= 0)
    mpq_mul (half, half, ten);
  for (; digits > 0; digits--)
    mpq_div (half, half, ten);
  mpq_div_2exp (half, half, 1);
  mpq_clears (ten, size, NULL);
}

/* |X - Y| <= MOST.  */
static int
decimal_near (mpq_srcptr x, mpq_srcptr y, mpq_srcptr most)
{
  mpq_t off;
  mpq_init (off);
  mpq_sub (off, x, y);
  mpq_abs (off, off);
  int near = mpq_cmp (off, most) <= 0;
  mpq_clear (off);
  return near;
}

#endif
