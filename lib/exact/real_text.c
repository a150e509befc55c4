/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_text.c - certified decimals: rounds to a power of ten with the same code as to a mark.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>

#include "exact/real.h"

#include "exact/text.h"

/* STEPS = |X| * 10^PLACES to the nearest whole number, and Z = X to the same.  */
static br_status
round_places (br_number *z, br_number *steps, const br_real *x, int64_t places, unsigned bits)
{
  br_number step = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&step, 10);

  if (status == BR_OK)
    status = br_number_pow (&step, &step, -places);
  if (status == BR_OK)
    status = br_real_round (z, NULL, x, &step, BR_NEAREST, BR_TIES_UP, bits);
  if (status == BR_OK)
    status = br_number_div (steps, z, &step);
  if (status == BR_OK)
    status = br_number_abs (steps, steps);
  br_number_clear (&step);
  return status;
}

/* Bits of |Q| before the point, one off at most.  */
static int64_t
bits_of (mpq_srcptr q)
{
  return (int64_t) mpz_sizeinbase (mpq_numref (q), 2) - (int64_t) mpz_sizeinbase (mpq_denref (q), 2);
}

/* 1 and in TENS the exponent of ten at which |X| begins, two off at most, where the ends keep clear of
   zero and are of about one size.  */
static int
accept_magnitude (mpq_t low, mpq_t high, void *tens)
{
  if (mpq_sgn (low) * mpq_sgn (high) <= 0 || imaxabs (bits_of (low) - bits_of (high)) > 2)
    return 0;
  /* 30103 / 100000 is a little over log10 (2).  */
  *(int64_t *) tens = bits_of (low) * 30103 / 100000;
  return 1;
}

/* Z = X to DIGITS significant digits: as many places as give |X| * 10^PLACES a number of steps between
   BOTTOM = 10^(DIGITS - 1) and ten times that.  More steps than BOTTOM settle it, as one place more
   would run over.  BOTTOM itself may have come up from below: then one place more is the answer
   unless that runs over.  */
static br_status
round_digits (br_number *z, const br_real *x, unsigned digits, unsigned bits)
{
  br_number bottom = BR_NUMBER_ZERO, top = BR_NUMBER_ZERO, ten = BR_NUMBER_ZERO;
  br_number mark = BR_NUMBER_ZERO, steps = BR_NUMBER_ZERO;
  int64_t tens = 0, places;
  int known = 0;                /* the place before was decided */
  br_status status = br__real_search (x, bits, accept_magnitude, &tens);

  if (status == BR_OK)
    status = br_number_set_int (&ten, 10);
  if (status == BR_OK)
    status = br_number_pow (&bottom, &ten, (int64_t) digits - 1);
  if (status == BR_OK)
    status = br_number_mul (&top, &bottom, &ten);
  /* Too few places for certain, to begin with.  So few may put X half way between two marks, where no
     number of bits decides: such a place is passed over, and the next one stands on its own.  */
  const int64_t last = (int64_t) digits - tens + 4;
  for (places = (int64_t) digits - tens - 4; status == BR_OK; places++)
    {
      status = round_places (&mark, &steps, x, places, bits);
      int decided = status == BR_OK;
      if (status == BR_UNDECIDED && places < last)
        status = BR_OK;
      if (status == BR_OK && decided && br_number_cmp (&steps, &top) > 0)
        {
          status = known ? BR_OK : BR_UNDECIDED;
          break;
        }
      known = decided;
      if (status != BR_OK || !decided)
        continue;
      br_number_swap (z, &mark);
      if (br_number_cmp (&steps, &bottom) > 0)
        break;
      /* The places that are too few for certain, too: |X| has no more digits than its steps here.  */
      while (status == BR_OK && br_number_sign (&steps) > 0 && (status = br_number_mul (&steps, &steps, &ten)) == BR_OK
             && br_number_cmp (&steps, &bottom) < 0)
        places++;
    }
  br_number_clear (&bottom);
  br_number_clear (&top);
  br_number_clear (&ten);
  br_number_clear (&mark);
  br_number_clear (&steps);
  return status;
}

br_status
br__put_real_decimal (br_text *t, int *whole, const br_real *x, unsigned digits, unsigned bits)
{
  br_number value = BR_NUMBER_ZERO;
  br_real seen;
  int exact;
  br_status status = br__real_ask (x, BR__PROVE, 0);

  if (status != BR_OK)
    return status;
  if (digits == 0)
    digits = 1;
  x = br__real_seen (&seen, x);
  if (x->node == NULL)
    exact = br__put_decimal (t, &x->rational, digits);
  else
    {
      status = round_digits (&value, x, digits, bits);
      exact = 0;
      if (status == BR_OK)
        br__put_decimal (t, &value, digits);
    }
  if (status == BR_OK && t->failed)
    status = BR_NO_MEMORY;
  if (status == BR_OK && whole != NULL)
    *whole = exact;
  br_number_clear (&value);
  return status;
}

size_t
br_real_write_decimal (char *buffer, size_t size, int *whole, const br_real *x, unsigned digits,
                       unsigned bits, br_status *status)
{
  if (!x)
    {
      if (status)
        *status = BR_DOMAIN;
      return SIZE_MAX;
    }
  br_text t = BR_TEXT_ZERO;
  br_status result = br__put_real_decimal (&t, whole, x, digits, bits);

  if (status != NULL)
    *status = result;
  if (result != BR_OK)
    {
      br__text_clear (&t);
      return SIZE_MAX;
    }
  return br__text_hand_out (buffer, size, &t);
}
