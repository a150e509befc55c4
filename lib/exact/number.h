/* SPDX-License-Identifier: LGPL-3.0-or-later
   number.h - inside the rational: the two forms, and paths for the other rooms.

   Inline form: den_minus_1 in [0, INT64_MAX - 1], num in [-INT64_MAX, INT64_MAX], lowest terms.
   Heap form:   den_minus_1 == BR__HEAP, num holds a pointer to a br__big.
   A value that fits inline is never in heap form.  */
#ifndef BR_EXACT_NUMBER_H
#define BR_EXACT_NUMBER_H

#include <gmp.h>

#include "benchrule.h"

#define BR__HEAP INT64_MIN

typedef struct br__big
{
  mpz_t num, den;
} br__big;

static inline int
br__is_small (const br_number *x)
{
  return x->den_minus_1 >= 0;
}

static inline br__big *
br__big_of (const br_number *x)
{
  return (br__big *) (intptr_t) x->num;
}

static inline int64_t
br__small_den (const br_number *x)
{
  return x->den_minus_1 + 1;
}

/* Sets the initialised Q to X, and Z to Q (any mpq in any terms with a denominator that is
   not zero; it is brought to lowest terms).  BR_TOO_BIG past BR_MAX_BITS.  */
void br__number_to_mpq (mpq_t q, const br_number *x);
br_status br__number_from_mpq (br_number *z, mpq_t q);
/* Z = N / D of decimal digits: WHOLE digits then FRACTION digits after the point.  Only
   '0'..'9', counts checked by the caller against BR_MAX_DIGITS.  */
br_status br__number_from_digits (br_number *z, const char *whole, size_t whole_length,
                                  const char *fraction, size_t fraction_length);
/* Z takes over the value of X, which becomes 0.  */
void br__number_move (br_number *z, br_number *x);
/* Bits of the larger of numerator and denominator.  */
size_t br__number_bits (const br_number *x);

#endif
