/* SPDX-License-Identifier: LGPL-3.0-or-later
   wide.h - integers of 128 bits, for products of two of 64: the compiler's type if there is one, else two
   words.  Two's complement; overflow wraps around, so callers must know their sizes.  BR__WIDE_BY_WORDS selects the two
   words, for tests.  */
#ifndef BR_EXACT_WIDE_H
#define BR_EXACT_WIDE_H

#include <stdint.h>

#if defined (__SIZEOF_INT128__) && !defined (BR__WIDE_BY_WORDS)

__extension__ typedef __int128 br__wide;
__extension__ typedef unsigned __int128 br__wide_bits;

static inline br__wide
br__wide_of (int64_t a)
{
  return a;
}

static inline br__wide
br__wide_product (int64_t a, int64_t b)
{
  return (br__wide) a * b;
}

static inline br__wide
br__wide_add (br__wide x, br__wide y)
{
  return (br__wide) ((br__wide_bits) x + (br__wide_bits) y);
}

static inline br__wide
br__wide_times (br__wide x, int64_t a)
{
  return (br__wide) ((br__wide_bits) x * (br__wide_bits) a);
}

/* Towards zero; Y is not 0.  */
static inline br__wide
br__wide_over (br__wide x, br__wide y)
{
  return x / y;
}

/* X less Y * (X / Y): below zero where X is.  */
static inline br__wide
br__wide_rest (br__wide x, br__wide y)
{
  return x % y;
}

/* <0, 0, >0.  */
static inline int
br__wide_cmp (br__wide x, br__wide y)
{
  return (x > y) - (x < y);
}

/* The lower 64 bits, which are X where it fits.  */
static inline int64_t
br__wide_low (br__wide x)
{
  return (int64_t) x;
}

#else

typedef struct br__wide
{
  uint64_t low, high;           /* the sign is the uppermost bit of HIGH */
} br__wide;

static inline br__wide
br__wide_of (int64_t a)
{
  return (br__wide) { (uint64_t) a, a < 0 ? UINT64_MAX : 0 };
}

static inline int64_t
br__wide_low (br__wide x)
{
  return (int64_t) x.low;
}

static inline br__wide
br__wide_add (br__wide x, br__wide y)
{
  uint64_t low = x.low + y.low;
  return (br__wide) { low, x.high + y.high + (low < x.low) };
}

static inline br__wide
br__wide_negated (br__wide x)
{
  return (br__wide) { - x.low, ~ x.high + (x.low == 0) };
}

static inline int
br__wide_is_negative (br__wide x)
{
  return (x.high >> 63) != 0;
}

static inline br__wide
br__wide_magnitude (br__wide x)
{
  return br__wide_is_negative (x) ? br__wide_negated (x) : x;
}

/* By halves of 32 bits.  */
static inline br__wide
br__wide_product_of_words (uint64_t a, uint64_t b)
{
  uint64_t a_low = a & UINT32_MAX, a_high = a >> 32, b_low = b & UINT32_MAX, b_high = b >> 32;
  uint64_t low = a_low * b_low, one = a_high * b_low, other = a_low * b_high;
  uint64_t middle = (low >> 32) + (one & UINT32_MAX) + (other & UINT32_MAX);
  return (br__wide) { middle << 32 | (low & UINT32_MAX),
                      a_high * b_high + (one >> 32) + (other >> 32) + (middle >> 32) };
}

static inline br__wide
br__wide_times (br__wide x, int64_t a)
{
  br__wide z = br__wide_product_of_words (x.low, (uint64_t) a);
  /* A negative word has the value of its bits minus 2^64.  */
  z.high += x.high * (uint64_t) a - (a < 0 ? x.low : 0);
  return z;
}

static inline br__wide
br__wide_product (int64_t a, int64_t b)
{
  return br__wide_times (br__wide_of (a), b);
}

static inline int
br__wide_cmp (br__wide x, br__wide y)
{
  int64_t x_high = (int64_t) x.high, y_high = (int64_t) y.high;
  if (x_high != y_high)
    return x_high > y_high ? 1 : -1;
  return (x.low > y.low) - (x.low < y.low);
}

/* *REST, at first 0, gets what is left of the magnitude X over that of Y, bit by bit; returns the quotient.  */
static inline br__wide
br__wide_long_division (br__wide *rest, br__wide x, br__wide y)
{
  br__wide quotient = { 0, 0 }, r = *rest;
  for (int i = 127; i >= 0; i--)
    {
      r = (br__wide) { r.low << 1 | ((i < 64 ? x.low >> i : x.high >> (i - 64)) & 1), r.high << 1 | r.low >> 63 };
      if (r.high > y.high || (r.high == y.high && r.low >= y.low))
        {
          r = br__wide_add (r, br__wide_negated (y));
          if (i < 64)
            quotient.low |= UINT64_C (1) << i;
          else
            quotient.high |= UINT64_C (1) << (i - 64);
        }
    }
  *rest = r;
  return quotient;
}

static inline br__wide
br__wide_over (br__wide x, br__wide y)
{
  br__wide rest = { 0, 0 };
  br__wide z = br__wide_long_division (&rest, br__wide_magnitude (x), br__wide_magnitude (y));
  return br__wide_is_negative (x) != br__wide_is_negative (y) ? br__wide_negated (z) : z;
}

static inline br__wide
br__wide_rest (br__wide x, br__wide y)
{
  br__wide rest = { 0, 0 };
  br__wide_long_division (&rest, br__wide_magnitude (x), br__wide_magnitude (y));
  return br__wide_is_negative (x) ? br__wide_negated (rest) : rest;
}

#endif

/* A * B / C towards zero, where that fits 64 bits; C is not 0.  */
static inline int64_t
br__scale_by (int64_t a, int64_t b, int64_t c)
{
  return br__wide_low (br__wide_over (br__wide_product (a, b), br__wide_of (c)));
}

/* <0, 0, >0: A * B against C * D.  */
static inline int
br__compare_products (int64_t a, int64_t b, int64_t c, int64_t d)
{
  return br__wide_cmp (br__wide_product (a, b), br__wide_product (c, d));
}

static inline int
br__wide_fits (br__wide x)
{
  return br__wide_cmp (x, br__wide_of (br__wide_low (x))) == 0;
}

/* X over the positive Y, rounded up, for an X of 0 or more.  */
static inline br__wide
br__wide_over_up (br__wide x, br__wide y)
{
  int exact = br__wide_cmp (br__wide_rest (x, y), br__wide_of (0)) == 0;
  return br__wide_add (br__wide_over (x, y), br__wide_of (!exact));
}

/* The square root of an X from 0 to 2^126, rounded down.  */
static inline int64_t
br__wide_root (br__wide x)
{
  int64_t root = 0;
  for (int i = 62; i >= 0; i--)
    {
      int64_t more = root | INT64_C (1) << i;
      if (br__wide_cmp (br__wide_product (more, more), x) <= 0)
        root = more;
    }
  return root;
}

#endif
