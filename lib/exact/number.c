/* SPDX-License-Identifier: LGPL-3.0-or-later
   number.c - exact rationals: the inline form.  A result that fits 64 bits is computed here
   without GMP; only others are left to number_big.c.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/wide.h"
#include "exact/memory.h"
#include "exact/number.h"

uint64_t
br__gcd (uint64_t u, uint64_t v)
{
  if (v == 1 || u == 0)
    return v;
  int zeros = __builtin_ctzll (u | v);
  if ((v & (v - 1)) == 0)
    return UINT64_C (1) << zeros;
  /* Binary: Knuth, The Art of Computer Programming 2, section 4.5.2, algorithm B.  */
  u >>= __builtin_ctzll (u);
  v >>= __builtin_ctzll (v);
  while (u != v)
    {
      /* The difference has the trailing zeros of either sign, so that nothing waits for which part is the larger.  */
      uint64_t rest = u > v ? u - v : v - u;
      v = u > v ? v : u;
      u = rest >> __builtin_ctzll (rest);
    }
  return u << zeros;
}

void
br_number_clear (br_number *x)
{
  if (!x)
    return;
  if (!br__is_small (x))
    br__free (br__big_of (x));
  *x = (br_number) BR_NUMBER_ZERO;
}

br_status
br_number_set (br_number *z, const br_number *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  if (!br__is_small (x))
    return br__big_copy (z, x, 0);
  br__number_put_small (z, x->num, br__small_den (x));
  return BR_OK;
}

void
br_number_swap (br_number *x, br_number *y)
{
  if (!x || !y)
    return;
  br_number kept = *x;
  *x = *y;
  *y = kept;
}

/* Z = N / D of magnitudes below 2^64, with the sign of NEGATIVE; D is not 0.  */
static br_status
set_magnitudes (br_number *z, int negative, uint64_t n, uint64_t d)
{
  if ((d & (d - 1)) == 0)
    {
      int shift = __builtin_ctzll (n | d);
      n >>= shift;
      d >>= shift;
    }
  else
    {
      uint64_t common = br__gcd (n, d);
      n /= common;
      d /= common;
    }
  if (n <= INT64_MAX && d <= INT64_MAX)
    {
      br__number_put_small (z, negative ? - (int64_t) n : (int64_t) n, (int64_t) d);
      return BR_OK;
    }
  /* Only |INT64_MIN| comes here.  Halves of its parts do fit, so that it is their sum.  */
  br_number half = BR_NUMBER_ZERO;
  int64_t part = (int64_t) (n / 2);
  if (d <= INT64_MAX)
    {
      br__number_put_small (&half, negative ? - part : part, (int64_t) d);
      return br__big_operate (z, BR__ADD, &half, &half);
    }
  br_number two = { 2, 0 };
  br__number_put_small (&half, negative ? - (int64_t) n : (int64_t) n, (int64_t) (d / 2));
  return br__big_operate (z, BR__DIV, &half, &two);
}

br_status
br_number_set_ratio (br_number *z, int64_t n, int64_t d)
{
  if (!z)
    return BR_DOMAIN;
  if (d == 0)
    return BR_DOMAIN;
  return set_magnitudes (z, n != 0 && (n < 0) != (d < 0), br__magnitude (n), br__magnitude (d));
}

br_status
br_number_set_int (br_number *z, int64_t n)
{
  if (!z)
    return BR_DOMAIN;
  if (n == INT64_MIN)
    return set_magnitudes (z, 1, br__magnitude (n), 1);
  br__number_put_small (z, n, 1);
  return BR_OK;
}

int
br_number_get_ratio (int64_t *n, int64_t *d, const br_number *x)
{
  if (!n || !d || !x)
    return 0;
  if (!br__is_small (x))
    return 0;
  int64_t num = x->num, den = br__small_den (x);
  *n = num;
  *d = den;
  return 1;
}

/* A / B + C / D where the quick ways of add_small did not do.  Knuth, section 4.5.1: with
   g = gcd (B, D), a common factor of the sum's parts can only be one of g.  */
static int
add_any (br_number *z, int64_t a, int64_t b, int64_t c, int64_t d)
{
  int64_t g = (int64_t) br__gcd ((uint64_t) b, (uint64_t) d);
  int64_t b_rest = b / g, d_rest = d / g, den;
  br__wide sum = br__wide_add (br__wide_product (a, d_rest), br__wide_product (c, b_rest));
  if (g != 1)
    {
      uint64_t rest = br__magnitude (br__wide_fits (sum) ? br__wide_low (sum) % g
                                                         : br__wide_low (br__wide_rest (sum, br__wide_of (g))));
      int64_t common = (int64_t) br__gcd (rest, (uint64_t) g);
      if (common != 1)
        sum = br__wide_over (sum, br__wide_of (common));
      d_rest = d / common;
    }
  int64_t num = br__wide_low (sum);
  if (!br__wide_fits (sum) || num == INT64_MIN || __builtin_mul_overflow (b_rest, d_rest, &den))
    return 0;
  br__number_put_small (z, num, den);
  return 1;
}

/* Z = A / B + C / D, each in lowest terms.  0 where Z does not fit inline.  */
static inline int
add_small (br_number *z, int64_t a, int64_t b, int64_t c, int64_t d)
{
  int64_t sum;
  if (b == d)
    {
      if (!__builtin_add_overflow (a, c, &sum) && sum != INT64_MIN)
        {
          int64_t common = b == 1 ? 1 : (int64_t) br__gcd (br__magnitude (sum), (uint64_t) b);
          if (br__is_binary (b))
            {
              int shift = __builtin_ctzll ((uint64_t) common);
              br__number_put_small (z, sum >> shift, b >> shift);
            }
          else
            br__number_put_small (z, sum / common, b / common);
          return 1;
        }
    }
  else if (br__is_binary (b) && br__is_binary (d))
    {
      /* The part with the larger denominator is odd and the other becomes even: the sum
         is odd, hence in lowest terms.  */
      if (b > d)
        {
          int64_t kept = a;
          a = c;
          c = kept;
          kept = b;
          b = d;
          d = kept;
        }
      int shift = __builtin_ctzll ((uint64_t) d) - __builtin_ctzll ((uint64_t) b);
      if (!__builtin_mul_overflow (a, INT64_C (1) << shift, &a)
          && !__builtin_add_overflow (a, c, &sum) && sum != INT64_MIN)
        {
          br__number_put_small (z, sum, d);
          return 1;
        }
      return 0;
    }
  return add_any (z, a, b, c, d);
}

br_status
br_number_add (br_number *z, const br_number *x, const br_number *y)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  if (br__is_small (x) && br__is_small (y)
      && add_small (z, x->num, br__small_den (x), y->num, br__small_den (y)))
    return BR_OK;
  return br__big_operate (z, BR__ADD, x, y);
}

br_status
br_number_sub (br_number *z, const br_number *x, const br_number *y)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  if (br__is_small (x) && br__is_small (y)
      && add_small (z, x->num, br__small_den (x), - y->num, br__small_den (y)))
    return BR_OK;
  return br__big_operate (z, BR__SUB, x, y);
}

/* Z = A / B * C / D, each in lowest terms, B and D over 0.  */
static inline int
mul_small (br_number *z, int64_t a, int64_t b, int64_t c, int64_t d)
{
  int64_t left = d == 1 ? 1 : (int64_t) br__gcd (br__magnitude (a), (uint64_t) d);
  int64_t right = b == 1 ? 1 : (int64_t) br__gcd (br__magnitude (c), (uint64_t) b);
  int64_t num, den;
  if (left != 1)
    {
      a /= left;
      d /= left;
    }
  if (right != 1)
    {
      c /= right;
      b /= right;
    }
  if (__builtin_mul_overflow (a, c, &num) || num == INT64_MIN
      || __builtin_mul_overflow (b, d, &den))
    return 0;
  br__number_put_small (z, num, den);
  return 1;
}

br_status
br_number_mul (br_number *z, const br_number *x, const br_number *y)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  if (br__is_small (x) && br__is_small (y)
      && mul_small (z, x->num, br__small_den (x), y->num, br__small_den (y)))
    return BR_OK;
  return br__big_operate (z, BR__MUL, x, y);
}

br_status
br_number_div (br_number *z, const br_number *x, const br_number *y)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  if (br_number_sign (y) == 0)
    return BR_DOMAIN;
  if (br__is_small (x) && br__is_small (y))
    {
      int64_t num = br__small_den (y), den = y->num;
      if (den < 0)
        {
          num = - num;
          den = - den;
        }
      if (mul_small (z, x->num, br__small_den (x), num, den))
        return BR_OK;
    }
  return br__big_operate (z, BR__DIV, x, y);
}

br_status
br_number_neg (br_number *z, const br_number *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  if (!br__is_small (x))
    return br__big_copy (z, x, 1);
  br__number_put_small (z, - x->num, br__small_den (x));
  return BR_OK;
}

br_status
br_number_abs (br_number *z, const br_number *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  return br_number_sign (x) < 0 ? br_number_neg (z, x) : br_number_set (z, x);
}

/* Z = (A / B)^N with B over 0, as long as it fits inline.  */
static int
pow_small (br_number *z, int64_t a, int64_t b, uint64_t n)
{
  int64_t num = 1, den = 1;
  /* Past 64 a part that is not 0 or 1 does not fit, and those are the caller's.  */
  if (n > 64)
    return 0;
  for (; n > 0; n--)
    if (__builtin_mul_overflow (num, a, &num) || num == INT64_MIN
        || __builtin_mul_overflow (den, b, &den))
      return 0;
  br__number_put_small (z, num, den);
  return 1;
}

br_status
br_number_pow (br_number *z, const br_number *x, int64_t n)
{
  if (!z || !x)
    return BR_DOMAIN;
  if (!br__is_small (x))
    return br__big_pow (z, x, n);
  int64_t a = x->num, b = br__small_den (x);
  if (n == 0 || (a == 1 && b == 1))
    return br_number_set_int (z, 1);
  if (a == 0)
    return n < 0 ? BR_DOMAIN : br_number_set_int (z, 0);
  if (a == -1 && b == 1)
    return br_number_set_int (z, n % 2 ? -1 : 1);
  if (n < 0)
    {
      int64_t kept = a;
      a = kept < 0 ? - b : b;
      b = kept < 0 ? - kept : kept;
    }
  if (pow_small (z, a, b, br__magnitude (n)))
    return BR_OK;
  return br__big_pow (z, x, n);
}

int
br_number_sign (const br_number *x)
{
  if (!x)
    return 0;
  if (br__is_small (x))
    return (x->num > 0) - (x->num < 0);
  return mpz_sgn (br__big_of (x)->num);
}

int
br_number_is_integer (const br_number *x)
{
  if (!x)
    return 0;
  if (br__is_small (x))
    return x->den_minus_1 == 0;
  return mpz_cmp_ui (br__big_of (x)->den, 1) == 0;
}

int
br_number_cmp (const br_number *x, const br_number *y)
{
  if (!x || !y)
    return 0;
  if (!br__is_small (x) || !br__is_small (y))
    return br__big_cmp (x, y);
  if (x->den_minus_1 == y->den_minus_1)
    return (x->num > y->num) - (x->num < y->num);
  return br__compare_products (x->num, br__small_den (y), y->num, br__small_den (x));
}

int
br_number_equal (const br_number *x, const br_number *y)
{
  if (!x || !y)
    return 0;
  if (br__is_small (x) || br__is_small (y))
    return x->num == y->num && x->den_minus_1 == y->den_minus_1;
  return mpz_cmp (br__big_of (x)->num, br__big_of (y)->num) == 0
         && mpz_cmp (br__big_of (x)->den, br__big_of (y)->den) == 0;
}

int
br_number_check (const br_number *x)
{
  if (!x)
    return 0;
  if (!br__is_small (x))
    return br__big_check (x);
  return x->num != INT64_MIN && x->den_minus_1 != INT64_MAX
         && br__gcd (br__magnitude (x->num), (uint64_t) br__small_den (x)) == 1;
}
