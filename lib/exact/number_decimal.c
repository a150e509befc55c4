/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_decimal.c - rationals as decimals, correctly rounded.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/digits.h"
#include "exact/number.h"
#include "exact/text.h"

#define SMALL_DIGITS BR__SMALL_DIGITS
/* More significant digits than this are not written, however many are asked for.  */
#define MOST_DIGITS BR_MAX_BITS

/* Adds one in the last place of the digits START..END, one point among them allowed; there
   is room before START.  Returns the new start.  */
static char *
carry (char *start, char *end)
{
  char *at = end;
  while (at > start)
    {
      at--;
      if (*at == '.')
        continue;
      if (*at != '9')
        {
          ++*at;
          return start;
        }
      *at = '0';
    }
  *--start = '1';
  return start;
}

#define MOST_SMALL_DIGITS 40
#define DECIMAL_ROOM 96

/* The decimal that ends: DEN has no factor but 2 and 5.  1 when done, 0 where it has others or
   there are more digits than asked for.  REST is below DEN.  */
static int
put_decimal_finite (br_text *t, int negative, uint64_t whole, uint64_t rest, uint64_t den,
                    unsigned digits)
{
  unsigned two = (unsigned) __builtin_ctzll (den), used = whole ? br__count_digits (whole) : 0, places;
  int five = br__power_of_five (den >> two);
  if (five < 0)
    return 0;
  places = two > (unsigned) five ? two : (unsigned) five;
  if (places > SMALL_DIGITS)
    return 0;
  /* 10^PLACES / DEN.  In lowest terms no zero is left at the end.  */
  rest *= br__fives[places - (unsigned) five] << (places - two);
  if (used + places > digits && (used || !places || br__count_digits (rest) > digits))
    return 0;
  char *start = br__text_room (t, DECIMAL_ROOM), *at = start;
  if (!start)
    return 1;
  *at = '-';
  at += negative;
  at = br__put_digits (at, whole);
  if (places)
    {
      *at++ = '.';
      at = br__put_count (at, rest, places);
    }
  br__text_took (t, (size_t) (at - start));
  return 1;
}

/* By long division: 1 when done, 0 where a denominator past 2^59, many digits, or more digits before the point than
   asked for do not let it.  REST is below DEN, and not 0.  */
static __attribute__ ((noinline)) int
put_decimal_long (br_text *t, int *exact, int negative, uint64_t whole, uint64_t rest, uint64_t den, unsigned digits)
{
  unsigned used = whole ? br__count_digits (whole) : 0;
  /* So many digits at a time that REST, with as many zeros behind it, stays below 2^64.  */
  const unsigned at_once = den <= UINT64_MAX / 100000000 ? 8 : 1;
  if (den >> 59 || digits > MOST_SMALL_DIGITS || used > digits)
    return 0;
  char *room = br__text_room (t, DECIMAL_ROOM);
  if (!room)
    return 1;
  char *point = room + 24, *start, *end = point;
  start = point - (used ? used : 1);
  br__put_digits (start, whole);
  /* Something is left: a whole number of so many digits ends, and is put as one.  */
  *end++ = '.';
  while (used < digits && rest != 0)
    {
      unsigned count = digits - used < at_once ? digits - used : at_once;
      uint64_t more = rest * br__tens[count], part = more / den;
      rest = more - part * den;
      end = br__put_count (end, part, count);
      used += used ? count : part ? br__count_digits (part) : 0;
    }
  *exact = rest == 0;
  if (rest >= den - rest)
    start = carry (start, end);
  while (end[-1] == '0')
    end--;
  end -= end[-1] == '.';
  if (negative)
    *--start = '-';
  memmove (room, start, (size_t) (end - start));
  br__text_took (t, (size_t) (end - start));
  return 1;
}

/* The exponent e with 10^e <= NUM / DEN < 10^(e + 1), both over 0 (0 has no such exponent).  */
static long
decimal_exponent (const mpz_t num, const mpz_t den)
{
  /* mpz_sizeinbase is right or one too large: e is within one of the guess.  */
  long guess = (long) mpz_sizeinbase (num, 10) - (long) mpz_sizeinbase (den, 10) + 1;
  mpz_t scaled, power;
  mpz_init (scaled);
  mpz_init (power);
  for (;; guess--)
    {
      mpz_ui_pow_ui (power, 10, (unsigned long) (guess < 0 ? - guess : guess));
      mpz_mul (scaled, power, guess < 0 ? num : den);
      if (guess < 0 ? mpz_cmp (scaled, den) >= 0 : mpz_cmp (scaled, num) <= 0)
        break;
    }
  mpz_clear (scaled);
  mpz_clear (power);
  return guess;
}

/* Puts SCALED / 10^PLACES, or SCALED * 10^-PLACES where PLACES is below 0; SCALED over 0.  */
static void
put_scaled (br_text *t, const mpz_t scaled, long places)
{
  br_text digits = BR_TEXT_ZERO;
  br__put_integer (&digits, scaled);
  size_t length = digits.length;
  while (length > 0 && places > 0 && digits.bytes[length - 1] == '0')
    {
      length--;
      places--;
    }
  size_t fraction = places > 0 ? (size_t) places : 0;
  size_t whole = length > fraction ? length - fraction : 0;
  if (digits.failed)
    t->failed = 1;
  else if (whole > 0)
    br__text_put (t, digits.bytes, whole);
  else
    br__text_putc (t, '0');
  for (; places < 0; places++)
    br__text_putc (t, '0');
  if (fraction > 0)
    {
      br__text_putc (t, '.');
      for (size_t i = length - whole; i < fraction; i++)
        br__text_putc (t, '0');
      br__text_put (t, digits.failed ? "" : digits.bytes + whole, digits.failed ? 0 : length - whole);
    }
  br__text_clear (&digits);
}

static int
put_decimal_big (br_text *t, const br_number *x, unsigned digits)
{
  br__view view;
  mpq_srcptr q = br__number_view (&view, x);
  mpz_t num, den, rest;
  if (!br__number_room (2 * br__number_bits (x) + 4 * (size_t) digits))
    {
      t->failed = 1;
      return 1;
    }
  mpz_init (num);
  mpz_init_set (den, mpq_denref (q));
  mpz_init (rest);
  mpz_abs (num, mpq_numref (q));
  long places = (long) digits - 1 - decimal_exponent (num, den);
  mpz_ui_pow_ui (rest, 10, (unsigned long) (places < 0 ? - places : places));
  if (places < 0)
    mpz_mul (den, den, rest);
  else
    mpz_mul (num, num, rest);
  mpz_tdiv_qr (num, rest, num, den);
  int exact = mpz_sgn (rest) == 0;
  mpz_mul_2exp (rest, rest, 1);
  if (mpz_cmp (rest, den) >= 0)
    mpz_add_ui (num, num, 1);
  if (mpq_sgn (q) < 0)
    br__text_putc (t, '-');
  put_scaled (t, num, places);
  mpz_clear (num);
  mpz_clear (den);
  mpz_clear (rest);
  return exact;
}

int
br__put_decimal (br_text *t, const br_number *x, unsigned digits)
{
  if (digits == 0)
    digits = 1;
  if (digits > MOST_DIGITS)
    digits = MOST_DIGITS;
  if (br__is_small (x))
    {
      int exact = 1;
      uint64_t num = br__magnitude (x->num), den = (uint64_t) br__small_den (x);
      /* An error is below one, and needs no division to know it.  */
      uint64_t whole = num < den ? 0 : br__is_binary ((int64_t) den) ? num >> __builtin_ctzll (den) : num / den;
      uint64_t rest = num - whole * den;
      if (put_decimal_finite (t, x->num < 0, whole, rest, den, digits))
        return 1;
      if (put_decimal_long (t, &exact, x->num < 0, whole, rest, den, digits))
        return exact;
    }
  return put_decimal_big (t, x, digits);
}
