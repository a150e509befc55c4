/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_big.c - exact rationals past 64 bits, on GMP.  Every result passes through
   br__number_take, which converts it to the inline form if it fits.

   GMP ends the process at a division by zero and when memory runs out, so zero divisors and
   sizes are tested here before it is called.  Operands have at most BR_MAX_BITS each, so
   sums, products and quotients have at most 2 * BR_MAX_BITS + 1 bits and can be tested after
   they are reduced to lowest terms; a power is tested before it is computed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/number.h"

/* Z, read only, becomes a look at VALUE with its limbs in LIMBS (room for 64 bits).  */
static void
view_int (mpz_t z, mp_limb_t *limbs, int64_t value)
{
  uint64_t magnitude = br__magnitude (value);
  mp_size_t size = 0;
  while (magnitude != 0)
    {
      limbs[size++] = (mp_limb_t) (magnitude & GMP_NUMB_MASK);
#if GMP_NUMB_BITS < 64
      magnitude >>= GMP_NUMB_BITS;
#else
      magnitude = 0;
#endif
    }
  mpz_roinit_n (z, limbs, value < 0 ? - size : size);
}

mpq_srcptr
br__number_view (br__view *view, const br_number *x)
{
  if (br__is_small (x))
    {
      view_int (mpq_numref (view->q), view->limbs, x->num);
      view_int (mpq_denref (view->q), view->limbs + 2, br__small_den (x));
    }
  else
    {
      /* A look shares the limbs: the struct is copied, not the integer.  */
      *mpq_numref (view->q) = *br__big_of (x)->num;
      *mpq_denref (view->q) = *br__big_of (x)->den;
    }
  return view->q;
}

/* Z, of fewer than 64 bits, as a machine integer.  */
static int64_t
get_int (const mpz_t z)
{
  uint64_t magnitude = 0;
  for (size_t i = mpz_size (z); i > 0; i--)
#if GMP_NUMB_BITS < 64
    magnitude = (magnitude << GMP_NUMB_BITS) | mpz_getlimbn (z, (mp_size_t) (i - 1));
#else
    magnitude = mpz_getlimbn (z, (mp_size_t) (i - 1));
#endif
  return mpz_sgn (z) < 0 ? - (int64_t) magnitude : (int64_t) magnitude;
}

static size_t
bits_of (mpq_srcptr q)
{
  size_t num = mpz_sizeinbase (mpq_numref (q), 2), den = mpz_sizeinbase (mpq_denref (q), 2);
  return num > den ? num : den;
}

/* Z, read only, becomes X, its limbs copied to LIMBS.  */
static void
keep_int (mpz_t z, mp_limb_t *limbs, const mpz_t x)
{
  mp_size_t size = (mp_size_t) mpz_size (x);
  if (size > 0)
    mpn_copyi (limbs, mpz_limbs_read (x), size);
  mpz_roinit_n (z, limbs, mpz_sgn (x) < 0 ? - size : size);
}

/* Results, and room to work in, of which products by transforms and greatest common divisors take most.  */
int
br__number_room (size_t bits)
{
  return (bits < BR__SHORT_BITS || br__work_on (bits)) && br__room_for (bits / 8 * 16 + 256);
}

br_status
br__number_take (br_number *z, mpq_srcptr q)
{
  size_t bits = bits_of (q);
  if (bits < 64)
    {
      br__number_put_small (z, get_int (mpq_numref (q)), get_int (mpq_denref (q)));
      return BR_OK;
    }
  if (bits > BR_MAX_BITS)
    return BR_TOO_BIG;
  size_t num = mpz_size (mpq_numref (q)), den = mpz_size (mpq_denref (q));
  br__big *big = br__alloc (sizeof *big + (num + den) * sizeof (mp_limb_t));
  if (!big)
    return BR_NO_MEMORY;
  keep_int (big->num, big->limbs, mpq_numref (q));
  keep_int (big->den, big->limbs + num, mpq_denref (q));
  br_number_clear (z);
  z->num = (int64_t) (intptr_t) big;
  z->den_minus_1 = BR__HEAP;
  return BR_OK;
}

void
br__number_to_mpq (mpq_t q, const br_number *x)
{
  br__view view;
  mpq_set (q, br__number_view (&view, x));
}

br_status
br__number_from_mpq (br_number *z, mpq_t q)
{
  if (!br__number_room (bits_of (q)))
    return BR_NO_MEMORY;
  mpq_canonicalize (q);
  return br__number_take (z, q);
}

size_t
br__number_bits (const br_number *x)
{
  br__view view;
  return bits_of (br__number_view (&view, x));
}

br_status
br__big_copy (br_number *z, const br_number *x, int negate)
{
  mpq_t copy;
  if (z == x && !negate)
    return BR_OK;
  if (!br__number_room (br__number_bits (x)))
    return BR_NO_MEMORY;
  mpq_init (copy);
  br__number_to_mpq (copy, x);
  if (negate)
    mpq_neg (copy, copy);
  br_status status = br__number_take (z, copy);
  mpq_clear (copy);
  return status;
}

br_status
br__big_operate (br_number *z, br__operation operation, const br_number *x, const br_number *y)
{
  br__view left, right;
  mpq_srcptr a = br__number_view (&left, x), b = br__number_view (&right, y);
  mpq_t result;
  if (operation == BR__DIV && mpq_sgn (b) == 0)
    return BR_DOMAIN;
  if (!br__number_room (bits_of (a) + bits_of (b)))
    return BR_NO_MEMORY;
  mpq_init (result);
  switch (operation)
    {
    case BR__ADD: mpq_add (result, a, b); break;
    case BR__SUB: mpq_sub (result, a, b); break;
    case BR__MUL: mpq_mul (result, a, b); break;
    case BR__DIV: mpq_div (result, a, b); break;
    }
  br_status status = br__number_take (z, result);
  mpq_clear (result);
  return status;
}

br_status
br__big_pow (br_number *z, const br_number *x, int64_t n)
{
  br__view view;
  mpq_srcptr base = br__number_view (&view, x);
  uint64_t exponent = br__magnitude (n), bits = bits_of (base);
  mpq_t result;
  /* 0 and -1 and 1 are the inline form's, so that one part has two bits or more and
     the power at least (bits - 1) * exponent + 1.  */
  if (exponent != 0 && (bits < 2 || exponent > (BR_MAX_BITS - 1) / (bits - 1)))
    return BR_TOO_BIG;
  if (!br__number_room ((size_t) (bits * exponent)))
    return BR_NO_MEMORY;
  mpq_init (result);
  mpz_pow_ui (mpq_numref (result), mpq_numref (base), (unsigned long) exponent);
  mpz_pow_ui (mpq_denref (result), mpq_denref (base), (unsigned long) exponent);
  if (n < 0)
    mpq_inv (result, result);
  br_status status = br__number_take (z, result);
  mpq_clear (result);
  return status;
}

int
br__big_cmp (const br_number *x, const br_number *y)
{
  br__view left, right;
  int order = mpq_cmp (br__number_view (&left, x), br__number_view (&right, y));
  return (order > 0) - (order < 0);
}

int
br__big_check (const br_number *x)
{
  if (x->den_minus_1 != BR__HEAP || x->num == 0)
    return 0;
  br__view view;
  mpq_srcptr q = br__number_view (&view, x);
  size_t bits = bits_of (q);
  if (mpz_sgn (mpq_denref (q)) <= 0 || bits < 64 || bits > BR_MAX_BITS)
    return 0;
  mpz_t common;
  mpz_init (common);
  mpz_gcd (common, mpq_numref (q), mpq_denref (q));
  int lowest = mpz_cmp_ui (common, 1) == 0;
  mpz_clear (common);
  return lowest;
}
