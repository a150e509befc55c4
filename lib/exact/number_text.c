/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_text.c - parses and writes rationals: n/d and shop notation.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/digits.h"
#include "exact/memory.h"
#include "exact/number.h"
#include "exact/status.h"
#include "exact/text.h"

#define SMALL_DIGITS BR__SMALL_DIGITS

static inline int
is_digit (char c)
{
  return c >= '0' && c <= '9';
}

/* ---- Reading ---- */

/* The value of at most SMALL_DIGITS digits.  */
static int64_t
read_digits (int64_t before, const char *digits, size_t length)
{
  for (size_t i = 0; i < length; i++)
    before = before * 10 + (digits[i] - '0');
  return before;
}

/* Z gets the integer that two rows of digits make, one after the other; not both are empty.  */
static br_status
read_big (mpz_t z, const char *first, size_t first_length, const char *second, size_t second_length)
{
  char *digits = br__alloc (first_length + second_length + 1);
  if (!digits)
    return BR_NO_MEMORY;
  memcpy (digits, first, first_length);
  if (second_length)
    memcpy (digits + first_length, second, second_length);
  digits[first_length + second_length] = 0;
  mpz_set_str (z, digits, 10);
  br__free (digits);
  return BR_OK;
}

const uint64_t br__fives[28] = {
  UINT64_C (1), UINT64_C (5), UINT64_C (25), UINT64_C (125), UINT64_C (625), UINT64_C (3125),
  UINT64_C (15625), UINT64_C (78125), UINT64_C (390625), UINT64_C (1953125), UINT64_C (9765625),
  UINT64_C (48828125), UINT64_C (244140625), UINT64_C (1220703125), UINT64_C (6103515625),
  UINT64_C (30517578125), UINT64_C (152587890625), UINT64_C (762939453125),
  UINT64_C (3814697265625), UINT64_C (19073486328125), UINT64_C (95367431640625),
  UINT64_C (476837158203125), UINT64_C (2384185791015625), UINT64_C (11920928955078125),
  UINT64_C (59604644775390625), UINT64_C (298023223876953125), UINT64_C (1490116119384765625),
  UINT64_C (7450580596923828125)
};

void
br__number_put_decimal (br_number *z, int64_t n, unsigned places)
{
  /* 1/5 modulo 2^64: the product is a fifth of N where that is whole, else past every fifth.  */
  const uint64_t fifth = UINT64_C (0xcccccccccccccccd);
  uint64_t left = (uint64_t) n;
  unsigned five = places, two = left ? (unsigned) __builtin_ctzll (left) : 64;
  if (two > places)
    two = places;
  if (left == 0)
    five = 0;
  for (; five > 0 && left * fifth <= UINT64_MAX / 5; five--)
    left *= fifth;
  br__number_put_small (z, (int64_t) (left >> two), (int64_t) (br__fives[five] << (places - two)));
}

br_status
br__number_from_digits (br_number *z, const char *whole, size_t whole_length,
                        const char *fraction, size_t fraction_length)
{
  while (fraction_length > 0 && fraction[fraction_length - 1] == '0')
    fraction_length--;
  while (whole_length > 0 && *whole == '0')
    {
      whole++;
      whole_length--;
    }
  if (whole_length + fraction_length <= SMALL_DIGITS)
    {
      int64_t n = read_digits (read_digits (0, whole, whole_length), fraction, fraction_length);
      br__number_put_decimal (z, n, (unsigned) fraction_length);
      return BR_OK;
    }
  mpq_t q;
  mpq_init (q);
  br_status status = read_big (mpq_numref (q), whole, whole_length, fraction, fraction_length);
  if (status == BR_OK)
    {
      mpz_ui_pow_ui (mpq_denref (q), 10, (unsigned long) fraction_length);
      mpq_canonicalize (q);
      status = br__number_take (z, q);
    }
  mpq_clear (q);
  return status;
}

/* The digits at *AT give *PART, and *AT goes past them.  */
static br_status
read_part (br_number *part, size_t *at, const char *text, size_t length, br_error *error)
{
  size_t start = *at, end = start;
  while (end < length && is_digit (text[end]))
    end++;
  if (end == start)
    return br__fail (error, BR_SYNTAX, start, start < length ? 1 : 0,
                     start < length ? "a digit belongs here" : "a digit is missing at the end");
  if (end - start > BR_MAX_DIGITS)
    return br__fail (error, BR_TOO_BIG, start, end - start, "a number of more than 1,000 digits");
  *at = end;
  br_status status = br__number_from_digits (part, text + start, end - start, NULL, 0);
  return status == BR_OK ? BR_OK : br__fail_plain (error, status, start, end - start);
}

br_status
br_number_read (br_number *z, const char *text, size_t length, br_error *error)
{
  if (!z || (!text && length))
    return br__fail_null (error);
  br_number num = BR_NUMBER_ZERO, den = { 1, 0 };
  size_t at = length > 0 && text[0] == '-', bar = 0;
  int negative = at == 1;
  br_status status = read_part (&num, &at, text, length, error);
  if (status != BR_OK)
    goto out;
  if (at < length && text[at] == '/')
    {
      bar = ++at;
      status = read_part (&den, &at, text, length, error);
      if (status != BR_OK)
        goto out;
    }
  if (at < length)
    {
      status = br__fail (error, BR_SYNTAX, at, 1, "only digits and one / make an exact number");
      br__hint (error, "write it as n/d, such as 19/8");
      goto out;
    }
  if (br_number_sign (&den) == 0)
    {
      status = br__fail (error, BR_DOMAIN, bar, at - bar, "the denominator is zero");
      goto out;
    }
  status = br_number_div (&num, &num, &den);
  if (status == BR_OK && negative)
    status = br_number_neg (&num, &num);
  if (status == BR_OK)
    br__number_move (z, &num);
  else
    br__fail_plain (error, status, 0, length);
out:
  br_number_clear (&num);
  br_number_clear (&den);
  return status;
}

/* ---- Writing ---- */

const char br__pairs[201] =
  "00010203040506070809101112131415161718192021222324252627282930313233343536373839"
  "40414243444546474849505152535455565758596061626364656667686970717273747576777879"
  "8081828384858687888990919293949596979899";

const uint64_t br__tens[20] = {
  UINT64_C (1), UINT64_C (10), UINT64_C (100), UINT64_C (1000), UINT64_C (10000),
  UINT64_C (100000), UINT64_C (1000000), UINT64_C (10000000), UINT64_C (100000000),
  UINT64_C (1000000000), UINT64_C (10000000000), UINT64_C (100000000000),
  UINT64_C (1000000000000), UINT64_C (10000000000000), UINT64_C (100000000000000),
  UINT64_C (1000000000000000), UINT64_C (10000000000000000), UINT64_C (100000000000000000),
  UINT64_C (1000000000000000000), UINT64_C (10000000000000000000)
};

void
br__put_integer (br_text *t, const mpz_t z)
{
  char *end = br__text_room (t, mpz_sizeinbase (z, 10) + 1);
  if (end)
    {
      mpz_get_str (end, 10, z);
      br__text_took (t, strlen (end));
    }
}

#define RATIO_ROOM (3 * 20 + 12)

/* Puts NUM / DEN, of which the sign is the caller's, after WHOLE and a mark where there is a
   whole.  All below 2^63.  */
static inline void
put_small (br_text *t, int negative, uint64_t whole, uint64_t num, uint64_t den)
{
  char *start = br__text_room (t, RATIO_ROOM), *at = start;
  if (!start)
    return;
  /* No branch: half of the errors are below zero, and no guess at which is good.  */
  *at = '-';
  at += negative;
  if (whole != 0 || den == 1)
    at = br__put_digits (at, whole);
  if (den != 1)
    {
      if (whole != 0)
        *at++ = '-';
      at = br__put_digits (at, num);
      *at++ = '/';
      at = br__put_digits (at, den);
    }
  br__text_took (t, (size_t) (at - start));
}

void
br__put_number (br_text *t, const br_number *x)
{
  if (br__is_small (x))
    {
      int whole = x->den_minus_1 == 0;
      uint64_t num = br__magnitude (x->num);
      put_small (t, x->num < 0, whole ? num : 0, num, (uint64_t) br__small_den (x));
      return;
    }
  br__put_integer (t, br__big_of (x)->num);
  if (!br_number_is_integer (x))
    {
      br__text_putc (t, '/');
      br__put_integer (t, br__big_of (x)->den);
    }
}

void
br__put_mixed (br_text *t, const br_number *x)
{
  if (br__is_small (x))
    {
      uint64_t num = br__magnitude (x->num), den = (uint64_t) br__small_den (x), whole;
      if (br__is_binary ((int64_t) den))
        whole = num >> __builtin_ctzll (den);
      else
        whole = num / den;
      put_small (t, x->num < 0, whole, num - whole * den, den);
      return;
    }
  if (br_number_is_integer (x))
    {
      br__put_number (t, x);
      return;
    }
  mpz_t whole, rest;
  if (!br__number_room (br__number_bits (x)))
    {
      t->failed = 1;
      return;
    }
  mpz_init (whole);
  mpz_init (rest);
  mpz_tdiv_qr (whole, rest, br__big_of (x)->num, br__big_of (x)->den);
  mpz_abs (whole, whole);
  mpz_abs (rest, rest);
  if (br_number_sign (x) < 0)
    br__text_putc (t, '-');
  if (mpz_sgn (whole) != 0)
    {
      br__put_integer (t, whole);
      br__text_putc (t, '-');
    }
  br__put_integer (t, rest);
  br__text_putc (t, '/');
  br__put_integer (t, br__big_of (x)->den);
  mpz_clear (whole);
  mpz_clear (rest);
}

/* ---- In the manner of snprintf ---- */

size_t
br_number_write (char *buffer, size_t size, const br_number *x)
{
  if (!x)
    return SIZE_MAX;
  br_text t = BR_TEXT_ZERO;
  br__put_number (&t, x);
  return br__text_hand_out (buffer, size, &t);
}

size_t
br_number_write_mixed (char *buffer, size_t size, const br_number *x)
{
  if (!x)
    return SIZE_MAX;
  br_text t = BR_TEXT_ZERO;
  br__put_mixed (&t, x);
  return br__text_hand_out (buffer, size, &t);
}

size_t
br_number_write_decimal (char *buffer, size_t size, int *whole, const br_number *x,
                         unsigned digits)
{
  if (!x)
    return SIZE_MAX;
  br_text t = BR_TEXT_ZERO;
  int exact = br__put_decimal (&t, x, digits);
  size_t length = br__text_hand_out (buffer, size, &t);
  if (whole && length != SIZE_MAX)
    *whole = exact;
  return length;
}
