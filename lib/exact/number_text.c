/* SPDX-License-Identifier: LGPL-3.0-or-later
   number_text.c - rationals from text and to text: n/d, shop notation, decimal.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "exact/status.h"
#include "exact/text.h"

#define SMALL_DIGITS BR__SMALL_DIGITS
/* More significant digits than this are not written, however many are asked for.  */
#define MOST_DIGITS BR_MAX_BITS

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

/* The powers of 5 below 2^64.  No two are of one length in bits, which finds the one that a
   number can be without a division.  */
static const uint64_t fives[28] = {
  UINT64_C (1), UINT64_C (5), UINT64_C (25), UINT64_C (125), UINT64_C (625), UINT64_C (3125),
  UINT64_C (15625), UINT64_C (78125), UINT64_C (390625), UINT64_C (1953125), UINT64_C (9765625),
  UINT64_C (48828125), UINT64_C (244140625), UINT64_C (1220703125), UINT64_C (6103515625),
  UINT64_C (30517578125), UINT64_C (152587890625), UINT64_C (762939453125),
  UINT64_C (3814697265625), UINT64_C (19073486328125), UINT64_C (95367431640625),
  UINT64_C (476837158203125), UINT64_C (2384185791015625), UINT64_C (11920928955078125),
  UINT64_C (59604644775390625), UINT64_C (298023223876953125), UINT64_C (1490116119384765625),
  UINT64_C (7450580596923828125)
};

/* B where N (odd, below 2^63) is 5^B, else -1.  */
static inline int
power_of_five (uint64_t n)
{
  unsigned bits = 63 - (unsigned) __builtin_clzll (n);
  /* log 2 / log 5 is 0.43067; 441/1024 serves up to 63 bits.  */
  unsigned b = (bits * 441 + 1023) >> 10;
  return fives[b] == n ? (int) b : -1;
}

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
  br__number_put_small (z, (int64_t) (left >> two), (int64_t) (fives[five] << (places - two)));
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

/* The two digits of every number below 100.  */
static const char pairs[] =
  "00010203040506070809101112131415161718192021222324252627282930313233343536373839"
  "40414243444546474849505152535455565758596061626364656667686970717273747576777879"
  "8081828384858687888990919293949596979899";

static const uint64_t tens[20] = {
  UINT64_C (1), UINT64_C (10), UINT64_C (100), UINT64_C (1000), UINT64_C (10000),
  UINT64_C (100000), UINT64_C (1000000), UINT64_C (10000000), UINT64_C (100000000),
  UINT64_C (1000000000), UINT64_C (10000000000), UINT64_C (100000000000),
  UINT64_C (1000000000000), UINT64_C (10000000000000), UINT64_C (100000000000000),
  UINT64_C (1000000000000000), UINT64_C (10000000000000000), UINT64_C (100000000000000000),
  UINT64_C (1000000000000000000), UINT64_C (10000000000000000000)
};

/* Decimal digits of N; 1 for 0.  */
static inline unsigned
count_digits (uint64_t n)
{
  /* log 2 / log 10 is 0.30103, of which 1233/4096 is near enough for 64 bits: the guess is right
     or one too small.  */
  unsigned guess = ((64 - (unsigned) __builtin_clzll (n | 1)) * 1233) >> 12;
  return guess + (n >= tens[guess]) + (n == 0);
}

/* Puts the last COUNT digits of N at AT; returns the end.  */
static inline char *
put_count (char *at, uint64_t n, unsigned count)
{
  char *end = at + count;
  for (at = end; count >= 2; count -= 2)
    {
      at -= 2;
      memcpy (at, pairs + 2 * (n % 100), 2);
      n /= 100;
    }
  if (count)
    at[-1] = (char) ('0' + n % 10);
  return end;
}

static inline char *
put_digits (char *at, uint64_t n)
{
  if (n < 10)
    {
      *at = (char) ('0' + n);
      return at + 1;
    }
  return put_count (at, n, count_digits (n));
}

static void
put_integer (br_text *t, const mpz_t z)
{
  char *end = br__text_room (t, mpz_sizeinbase (z, 10) + 1);
  if (end)
    {
      mpz_get_str (end, 10, z);
      br__text_took (t, strlen (end));
    }
}

#define RATIO_ROOM (3 * 20 + 4)

/* Puts NUM / DEN, of which the sign is the caller's, after WHOLE and a mark where there is a
   whole.  All below 2^63.  */
static inline void
put_small (br_text *t, int negative, uint64_t whole, uint64_t num, uint64_t den)
{
  char *start = br__text_room (t, RATIO_ROOM), *at = start;
  if (!start)
    return;
  if (negative)
    *at++ = '-';
  if (whole != 0 || den == 1)
    at = put_digits (at, whole);
  if (den != 1)
    {
      if (whole != 0)
        *at++ = '-';
      at = put_digits (at, num);
      *at++ = '/';
      at = put_digits (at, den);
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
  put_integer (t, br__big_of (x)->num);
  if (!br_number_is_integer (x))
    {
      br__text_putc (t, '/');
      put_integer (t, br__big_of (x)->den);
    }
}

void
br__put_mixed (br_text *t, const br_number *x)
{
  if (br__is_small (x))
    {
      uint64_t num = br__magnitude (x->num), den = (uint64_t) br__small_den (x), whole;
      if ((den & (den - 1)) == 0)
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
  mpz_init (whole);
  mpz_init (rest);
  mpz_tdiv_qr (whole, rest, br__big_of (x)->num, br__big_of (x)->den);
  mpz_abs (whole, whole);
  mpz_abs (rest, rest);
  if (br_number_sign (x) < 0)
    br__text_putc (t, '-');
  if (mpz_sgn (whole) != 0)
    {
      put_integer (t, whole);
      br__text_putc (t, '-');
    }
  put_integer (t, rest);
  br__text_putc (t, '/');
  put_integer (t, br__big_of (x)->den);
  mpz_clear (whole);
  mpz_clear (rest);
}

/* ---- Decimal ---- */

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

/* Next decimal digit of REST / DEN, and what is left; DEN below 2^59.  */
static inline char
next_digit (uint64_t *rest, uint64_t den, int binary)
{
  uint64_t ten = *rest * 10, digit = binary ? ten >> __builtin_ctzll (den) : ten / den;
  *rest = ten - digit * den;
  return (char) ('0' + digit);
}

#define MOST_SMALL_DIGITS 40
#define DECIMAL_ROOM 96

/* The decimal that ends: DEN has no factor but 2 and 5.  1 when done, 0 where it has others or
   there are more digits than asked for.  REST is below DEN.  */
static int
put_decimal_finite (br_text *t, int negative, uint64_t whole, uint64_t rest, uint64_t den,
                    unsigned digits)
{
  unsigned two = (unsigned) __builtin_ctzll (den), used = whole ? count_digits (whole) : 0, places;
  int five = power_of_five (den >> two);
  if (five < 0)
    return 0;
  places = two > (unsigned) five ? two : (unsigned) five;
  if (places > SMALL_DIGITS)
    return 0;
  /* 10^PLACES / DEN.  In lowest terms no zero is left at the end.  */
  rest *= fives[places - (unsigned) five] << (places - two);
  if (used + (used || !places ? places : count_digits (rest)) > digits)
    return 0;
  char *start = br__text_room (t, DECIMAL_ROOM), *at = start;
  if (!start)
    return 1;
  if (negative)
    *at++ = '-';
  at = put_digits (at, whole);
  if (places)
    {
      *at++ = '.';
      at = put_count (at, rest, places);
    }
  br__text_took (t, (size_t) (at - start));
  return 1;
}

/* The common case, by long division: 1 when done, 0 when it is not one (a denominator past
   2^59, many digits, or more digits before the point than asked for).  */
static int
put_decimal_small (br_text *t, int *whole_value, const br_number *x, unsigned digits)
{
  uint64_t num = br__magnitude (x->num), den = (uint64_t) br__small_den (x);
  int binary = (den & (den - 1)) == 0;
  uint64_t whole = binary ? num >> __builtin_ctzll (den) : num / den;
  uint64_t rest = num - whole * den;
  if (put_decimal_finite (t, x->num < 0, whole, rest, den, digits))
    return 1;
  if (den >> 59)
    return 0;
  /* An integer of few digits needs no more of them: 0 above all, which has no first one.  */
  if (digits > MOST_SMALL_DIGITS && den != 1)
    return 0;
  unsigned used = whole ? count_digits (whole) : 0;
  if (used > digits || (used == digits && rest != 0))
    return 0;
  char *room = br__text_room (t, DECIMAL_ROOM), *point = room + 24, *start, *end = point;
  if (!room)
    return 1;
  start = point - (used ? used : 1);
  put_digits (start, whole);
  if (rest != 0)
    {
      *end++ = '.';
      while (used < digits && rest != 0)
        {
          *end = next_digit (&rest, den, binary);
          used += used > 0 || *end != '0';
          end++;
        }
      *whole_value = rest == 0;
      if (rest >= den - rest)
        start = carry (start, end);
      while (end[-1] == '0')
        end--;
      end -= end[-1] == '.';
    }
  if (x->num < 0)
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
  put_integer (&digits, scaled);
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
  int exact = 1;
  if (digits == 0)
    digits = 1;
  if (digits > MOST_DIGITS)
    digits = MOST_DIGITS;
  if (br__is_small (x) && put_decimal_small (t, &exact, x, digits))
    return exact;
  return put_decimal_big (t, x, digits);
}

/* ---- In the manner of snprintf ---- */

size_t
br_number_write (char *buffer, size_t size, const br_number *x)
{
  br_text t = BR_TEXT_ZERO;
  br__put_number (&t, x);
  return br__text_hand_out (buffer, size, &t);
}

size_t
br_number_write_mixed (char *buffer, size_t size, const br_number *x)
{
  br_text t = BR_TEXT_ZERO;
  br__put_mixed (&t, x);
  return br__text_hand_out (buffer, size, &t);
}

size_t
br_number_write_decimal (char *buffer, size_t size, int *whole, const br_number *x,
                         unsigned digits)
{
  br_text t = BR_TEXT_ZERO;
  int exact = br__put_decimal (&t, x, digits);
  size_t length = br__text_hand_out (buffer, size, &t);
  if (whole && length != SIZE_MAX)
    *whole = exact;
  return length;
}
