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

/* The integers are looks at LIMBS, of the block's own, and are only read.  */
typedef struct br__big
{
  mpz_t num, den;
  mp_limb_t limbs[];
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

/* |N| also for the one N that has no int64_t opposite.  */
static inline uint64_t
br__magnitude (int64_t n)
{
  return n < 0 ? - (uint64_t) n : (uint64_t) n;
}

/* Like br_number_clear, but without a function call if X is in inline form.  */
static inline void
br__number_drop (br_number *x)
{
  if (__builtin_expect (!br__is_small (x), 0))
    br_number_clear (x);
  else
    *x = (br_number) BR_NUMBER_ZERO;
}

/* 1 where DEN (over zero) is a power of two, as on nearly every ruler.  */
static inline int
br__is_binary (int64_t den)
{
  return (den & (den - 1)) == 0;
}

/* 1 for a way to round that there is.  */
static inline int
br__can_round (br_direction direction, br_ties ties)
{
  return (unsigned) direction <= BR_DOWN && (unsigned) ties <= BR_TIES_EVEN;
}

/* Z takes over the value of X, which becomes 0.  */
static inline void
br__number_move (br_number *z, br_number *x)
{
  if (z == x)
    return;
  br__number_drop (z);
  *z = *x;
  *x = (br_number) BR_NUMBER_ZERO;
}

/* Z, whatever it held, becomes NUM / DEN, which are in lowest terms and fit inline.  */
static inline void
br__number_put_small (br_number *z, int64_t num, int64_t den)
{
  if (__builtin_expect (!br__is_small (z), 0))
    br_number_clear (z);
  z->num = num;
  z->den_minus_1 = den - 1;
}

/* The square root of N, over 0, rounded down; REST gets N less its square.  */
static inline uint64_t
br__whole_root (uint64_t *rest, uint64_t n)
{
#if GMP_NUMB_BITS == 64
  mp_limb_t root, left, limb = n;
  mpn_sqrtrem (&root, &left, &limb, 1);
  *rest = left;
  return root;
#else
  mp_limb_t root = 0, left[2] = { 0, 0 }, limbs[2] = { (mp_limb_t) n, (mp_limb_t) (n >> 32) };
  mp_size_t size = mpn_sqrtrem (&root, left, limbs, limbs[1] ? 2 : 1);
  *rest = size == 0 ? 0 : size == 1 ? left[0] : (uint64_t) left[1] << 32 | left[0];
  return root;
#endif
}

/* The greatest common divisor; V is not 0.  */
uint64_t br__gcd (uint64_t u, uint64_t v);

/* The road of the operations when the inline form does not do: number_big.c.  */
typedef enum br__operation { BR__ADD, BR__SUB, BR__MUL, BR__DIV } br__operation;
br_status br__big_operate (br_number *z, br__operation operation, const br_number *x,
                           const br_number *y);
br_status br__big_copy (br_number *z, const br_number *x, int negate);
br_status br__big_pow (br_number *z, const br_number *x, int64_t n);
int br__big_cmp (const br_number *x, const br_number *y);
int br__big_check (const br_number *x);
/* A read-only look at X without a copy: valid while X and LIMBS are, never cleared.  */
typedef struct br__view
{
  mpq_t q;
  mp_limb_t limbs[4];
} br__view;
mpq_srcptr br__number_view (br__view *view, const br_number *x);
/* Z becomes Q, which is in lowest terms.  */
br_status br__number_take (br_number *z, mpq_srcptr q);

/* Sets the initialised Q to X, and Z to Q (any mpq in any terms with a denominator that is
   not zero; it is brought to lowest terms).  BR_TOO_BIG past BR_MAX_BITS.  */
void br__number_to_mpq (mpq_t q, const br_number *x);
br_status br__number_from_mpq (br_number *z, mpq_t q);
/* Z = the fraction of the smallest denominator in LOW .. HIGH, or LOW where that takes over 64 steps.  */
br_status br__number_plainest (br_number *z, const br_number *low, const br_number *high);
/* Z = N / D of decimal digits: WHOLE digits then FRACTION digits after the point.  Only
   '0'..'9', counts checked by the caller against BR_MAX_DIGITS.  */
#define BR__SMALL_DIGITS 18     /* any so many decimal digits are below 2^63 */
/* Z = N / 10^PLACES with N of 0 or more and PLACES up to BR__SMALL_DIGITS.  10 has the factors 2
   and 5 alone, so that no common divisor is sought.  */
void br__number_put_decimal (br_number *z, int64_t n, unsigned places);
br_status br__number_from_digits (br_number *z, const char *whole, size_t whole_length,
                                  const char *fraction, size_t fraction_length);
/* Bits of the larger of numerator and denominator.  */
size_t br__number_bits (const br_number *x);
/* 1 where there is memory for what GMP may take for an operation on or up to BITS.  */
int br__number_room (size_t bits);

/* A value lies between the integer BELOW it and the next; HALF is below, at or over 0 as the
   value is below, at or over the middle.  Returns 1 where the next is the answer.  */
static inline int
br__goes_up (int *tie, int half, int negative, int below_is_odd, br_direction direction, br_ties ties)
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

/* The integer for NUM / DEN (in any terms, DEN over 0, NUM not INT64_MIN) by DIRECTION and TIES, in
   the one place that decides them.  OFF gets integer * DEN - NUM.  */
static inline int64_t
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
  int up = br__goes_up (tie, half, num < 0, (int) (below & 1), direction, ties);
  *off = up ? missing : - rest;
  return below + up;
}

#endif
