/* SPDX-License-Identifier: LGPL-3.0-or-later
   digits.h - decimal digits of 64-bit numbers.  */
#ifndef BR_EXACT_DIGITS_H
#define BR_EXACT_DIGITS_H

#include <gmp.h>
#include <stdint.h>
#include <string.h>

#include "exact/text.h"

/* The two digits of every number below 100, the powers of 10, and those of 5 below 2^64.  No two of these are
   of one length in bits, which finds the one that a number can be without a division.  */
extern const char br__pairs[201];
extern const uint64_t br__tens[20], br__fives[28];

/* number_text.c */
void br__put_integer (br_text *t, const mpz_t z);

/* B where N (odd, below 2^63) is 5^B, else -1.  */
static inline int
br__power_of_five (uint64_t n)
{
  unsigned bits = 63 - (unsigned) __builtin_clzll (n);
  /* log 2 / log 5 is 0.43067; 441/1024 serves up to 63 bits.  */
  unsigned b = (bits * 441 + 1023) >> 10;
  return br__fives[b] == n ? (int) b : -1;
}

/* Decimal digits of N; 1 for 0.  */
static inline unsigned
br__count_digits (uint64_t n)
{
  /* log 2 / log 10 is 0.30103, of which 1233/4096 is near enough for 64 bits: the guess is right
     or one too small.  */
  unsigned guess = ((64 - (unsigned) __builtin_clzll (n | 1)) * 1233) >> 12;
  return guess + (n >= br__tens[guess]) + (n == 0);
}

/* Digits lie in a word in the order of their addresses: the first of them in the low byte, or in the high
   one of a machine that is the other way round.  BR__FIRST_OUT takes COUNT digits away at the front.  */
#if __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__
# define BR__PLACE(position) (8 * (position))
# define BR__FIRST_OUT(word, count) ((word) >> 8 * (count))
#else
# define BR__PLACE(position) (48 - 8 * (position))
# define BR__FIRST_OUT(word, count) ((word) << 8 * (count))
#endif

static inline uint64_t
br__pair (unsigned n)
{
  uint16_t two;
  memcpy (&two, br__pairs + 2 * n, 2);
  return two;
}

/* The eight digits of N below 10^8, zeros before it too.  */
static inline uint64_t
br__eight_digits (uint32_t n)
{
  uint32_t high = n / 10000, low = n % 10000;
  return br__pair (high / 100) << BR__PLACE (0) | br__pair (high % 100) << BR__PLACE (2)
         | br__pair (low / 100) << BR__PLACE (4) | br__pair (low % 100) << BR__PLACE (6);
}

/* Puts the last COUNT digits of N at AT, where there is room for 8 more; returns the end.  */
static inline char *
br__put_count (char *at, uint64_t n, unsigned count)
{
  if (count > 8)
    {
      at = br__put_count (at, n / 100000000, count - 8);
      n %= 100000000;
      count = 8;
    }
  uint64_t word = br__eight_digits ((uint32_t) n);
  word = count ? BR__FIRST_OUT (word, 8 - count) : 0;
  memcpy (at, &word, 8);
  return at + count;
}

/* Puts N at AT, where there is room for 8 bytes more than it has digits; returns the end.  Where that is does not wait
   for the digits, and no branch asks how many there are, as no guess of a machine at that is good.  */
static inline char *
br__put_digits (char *at, uint64_t n)
{
  if (n < 100)
    {
      at[1] = br__pairs[2 * n + 1];
      at[0] = n < 10 ? at[1] : br__pairs[2 * n];
      return at + 1 + (n >= 10);
    }
  return br__put_count (at, n, br__count_digits (n));
}

#endif
