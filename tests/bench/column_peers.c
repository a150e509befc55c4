/* SPDX-License-Identifier: GPL-3.0-or-later
   column_peers.c - rounding a column to sixteenths by hand in 64 bits, by GMP and by FLINT.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "column_peers.h"

#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <gmp.h>
#ifdef HAVE_FLINT
# include <flint/flint.h>
# include <flint/fmpq.h>
#endif

#define DIGITS 12             /* significant digits of the decimal */

/* ---- By hand ---- */

#define BLOCK (1 << 16)

static char *
put_hand (char *at, int64_t n)
{
  char digits[20], *p = digits + sizeof digits;
  do
    *--p = (char) ('0' + n % 10);
  while ((n /= 10) != 0);
  size_t length = (size_t) (digits + sizeof digits - p);
  memcpy (at, p, length);
  return at + length;
}

static int64_t
gcd_hand (int64_t a, int64_t b)
{
  while (b)
    {
      int64_t rest = a % b;
      a = b;
      b = rest;
    }
  return a;
}

/* |N| / D below one, D a product of twos, fives and others, as a decimal of at most 12 digits.  */
static char *
put_hand_decimal (char *at, int64_t n, int64_t d)
{
  char *start, *end;
  int used = 0;
  *at++ = '0';
  if (n == 0)
    return at;
  *at++ = '.';
  start = at;
  while (n && used < DIGITS)
    {
      int64_t digit = n * 10 / d;
      n = n * 10 % d;
      used += used || digit;
      *at++ = (char) ('0' + digit);
    }
  if (2 * n >= d)
    for (end = at; end > start && ++end[-1] > '9'; end--)
      end[-1] = '0';
  while (at[-1] == '0')
    at--;
  return at;
}

/* The row that ends with the line feed at END; returns where the output goes on.  */
static char *
row_hand (char *at, const char *p, const char *end)
{
  int64_t n = 0, d = 1, whole = 0;
  memcpy (at, p, (size_t) (end - p));
  at += end - p;
  for (; *p >= '0' && *p <= '9'; p++)
    n = n * 10 + (*p - '0');
  if (*p == '.')
    for (p++; *p >= '0' && *p <= '9'; p++, d *= 10)
      n = n * 10 + (*p - '0');
  if (*p == '-')
    for (whole = n, n = 0, p++; *p >= '0' && *p <= '9'; p++)
      n = n * 10 + (*p - '0');
  if (*p == '/')
    for (d = 0, p++; *p >= '0' && *p <= '9'; p++)
      d = d * 10 + (*p - '0');
  n += whole * d;
  int64_t marks = (32 * n + d) / (2 * d), num = marks * d - 16 * n, den = 16 * d;
  int64_t common = gcd_hand (num < 0 ? - num : num, den), part = marks % 16, of = 16;
  num /= common;
  den /= common;
  *at++ = ',';
  if (marks >= 16 || part == 0)
    at = put_hand (at, marks / 16);
  if (part)
    {
      for (; part % 2 == 0; part /= 2)
        of /= 2;
      if (marks >= 16)
        *at++ = '-';
      at = put_hand (at, part);
      *at++ = '/';
      at = put_hand (at, of);
    }
  *at++ = ',';
  if (num < 0)
    *at++ = '-';
  at = put_hand (at, num < 0 ? - num : num);
  if (den != 1)
    {
      *at++ = '/';
      at = put_hand (at, den);
    }
  *at++ = ',';
  if (num < 0)
    *at++ = '-';
  at = put_hand_decimal (at, num < 0 ? - num : num, den);
  *at++ = '\n';
  return at;
}

static const char header[] = "length,length_mark,length_error,length_error_decimal\n";

int
peer_hand (const char *in, const char *out)
{
  static char from[2 * BLOCK], to[32 * BLOCK];
  int source = open (in, O_RDONLY), target = open (out, O_WRONLY | O_CREAT | O_TRUNC, 0666), good = 1;
  size_t left = 0;
  ssize_t got;
  char *at = to + sizeof header - 1;
  int first = 1;
  memcpy (to, header, sizeof header - 1);
  if (source < 0 || target < 0)
    return 0;
  while ((got = read (source, from + left, BLOCK)) > 0)
    {
      char *p = from, *end, *stop = from + left + got;
      while ((end = memchr (p, '\n', (size_t) (stop - p))) != NULL)
        {
          if (!first)
            at = row_hand (at, p, end);
          first = 0;
          p = end + 1;
        }
      left = (size_t) (stop - p);
      memmove (from, p, left);
      good &= write (target, to, (size_t) (at - to)) == at - to;
      at = to;
    }
  close (source);
  return close (target) == 0 && good && got == 0;
}

/* ---- What the two libraries share: lines in, lines out ---- */

/* The parts of a number such as 2-3/8 or 6.595: digits before and behind the point, or a whole
   number and a fraction; empty where there is none.  LINE is cut up.  */
typedef struct parts { const char *whole, *decimals, *top, *bottom; } parts;

static parts
split (char *line)
{
  parts s = { line, "", "", "" };
  char *p = line + strcspn (line, ".-/");
  char sign = *p;
  if (!sign)
    return s;
  *p++ = 0;
  if (sign == '.')
    s.decimals = p;
  else if (sign == '/')
    {
      s.whole = "";
      s.top = line;
      s.bottom = p;
    }
  else
    {
      s.top = p;
      p = strchr (p, '/');
      *p++ = 0;
      s.bottom = p;
    }
  return s;
}

typedef int work (FILE *in, FILE *out);

static int
with_files (const char *in, const char *out, work *run)
{
  FILE *source = fopen (in, "r"), *target = fopen (out, "w");
  int good = source && target && run (source, target);
  if (source)
    fclose (source);
  return target && fclose (target) == 0 && good;
}

/* A line without its end, or NULL; the header is answered here.  */
static char *
next_line (char line[static 64], FILE *in, FILE *out)
{
  for (;;)
    {
      if (!fgets (line, 64, in))
        return NULL;
      line[strcspn (line, "\n")] = 0;
      if (*line != 'l')
        return line;
      fputs (header, out);
    }
}

/* "-0.0DIGITS" with PLACES digits behind the point, zeros at the end left out; DIGITS is over 0.  */
static void
put_places (FILE *out, int negative, const char *digits, size_t places)
{
  size_t length = strlen (digits);
  while (length > 0 && digits[length - 1] == '0' && places > 0)
    {
      length--;
      places--;
    }
  fprintf (out, "%s0.%.*s%.*s\n", negative ? "-" : "", (int) (places - length), "000000000000000000000000",
           (int) length, digits);
}

/* ---- GMP ---- */

static void
put_mpq_mixed (FILE *out, const mpq_t x)
{
  mpz_t whole, rest;
  mpz_init (whole);
  mpz_init (rest);
  mpz_tdiv_qr (whole, rest, mpq_numref (x), mpq_denref (x));
  if (mpz_sgn (rest) == 0)
    gmp_fprintf (out, "%Zd", whole);
  else if (mpz_sgn (whole) == 0)
    gmp_fprintf (out, "%Zd/%Zd", rest, mpq_denref (x));
  else
    gmp_fprintf (out, "%Zd-%Zd/%Zd", whole, rest, mpq_denref (x));
  mpz_clear (whole);
  mpz_clear (rest);
}

/* X is below one in size.  */
static void
put_mpq_decimal (FILE *out, const mpq_t x)
{
  mpz_t scaled, twice;
  char *digits;
  size_t places = DIGITS;
  if (mpq_sgn (x) == 0)
    {
      fputs ("0\n", out);
      return;
    }
  mpz_init (scaled);
  mpz_init (twice);
  mpz_abs (scaled, mpq_numref (x));
  for (mpz_mul_ui (twice, scaled, 10); mpz_cmp (twice, mpq_denref (x)) < 0; mpz_mul_ui (twice, twice, 10))
    places++;
  mpz_ui_pow_ui (twice, 10, places);
  mpz_mul (scaled, scaled, twice);
  mpz_mul_2exp (scaled, scaled, 1);
  mpz_add (scaled, scaled, mpq_denref (x));
  mpz_mul_2exp (twice, mpq_denref (x), 1);
  mpz_fdiv_q (scaled, scaled, twice);
  digits = mpz_get_str (NULL, 10, scaled);
  put_places (out, mpq_sgn (x) < 0, digits, places);
  free (digits);
  mpz_clear (scaled);
  mpz_clear (twice);
}

static int
run_mpq (FILE *in, FILE *out)
{
  char line[64], copy[64];
  mpq_t x, y, mark, error, half;
  mpq_inits (x, y, mark, error, half, NULL);
  mpq_set_ui (half, 1, 2);
  while (next_line (line, in, out))
    {
      strcpy (copy, line);
      parts s = split (copy);
      mpq_set_ui (x, 0, 1);
      if (*s.whole)
        mpq_set_str (x, s.whole, 10);
      if (*s.decimals)
        {
          mpz_set_str (mpq_numref (y), s.decimals, 10);
          mpz_ui_pow_ui (mpq_denref (y), 10, strlen (s.decimals));
          mpq_canonicalize (y);
          mpq_add (x, x, y);
        }
      if (*s.top)
        {
          mpz_set_str (mpq_numref (y), s.top, 10);
          mpz_set_str (mpq_denref (y), s.bottom, 10);
          mpq_canonicalize (y);
          mpq_add (x, x, y);
        }
      mpq_set_ui (y, 16, 1);
      mpq_mul (mark, x, y);
      mpq_add (mark, mark, half);
      mpz_fdiv_q (mpq_numref (mark), mpq_numref (mark), mpq_denref (mark));
      mpz_set_ui (mpq_denref (mark), 1);
      mpq_div (mark, mark, y);
      mpq_sub (error, mark, x);
      fprintf (out, "%s,", line);
      put_mpq_mixed (out, mark);
      gmp_fprintf (out, ",%Qd,", error);
      put_mpq_decimal (out, error);
    }
  mpq_clears (x, y, mark, error, half, NULL);
  return !ferror (in) && !ferror (out);
}

int
peer_mpq (const char *in, const char *out)
{
  return with_files (in, out, run_mpq);
}

/* ---- FLINT ---- */

#ifdef HAVE_FLINT
static void
put_fmpq_mixed (FILE *out, const fmpq_t x)
{
  fmpz_t whole, rest;
  fmpz_init (whole);
  fmpz_init (rest);
  fmpz_fdiv_qr (whole, rest, fmpq_numref (x), fmpq_denref (x));
  if (!fmpz_is_zero (whole) || fmpz_is_zero (rest))
    fmpz_fprint (out, whole);
  if (!fmpz_is_zero (whole) && !fmpz_is_zero (rest))
    putc ('-', out);
  if (!fmpz_is_zero (rest))
    {
      fmpz_fprint (out, rest);
      putc ('/', out);
      fmpz_fprint (out, fmpq_denref (x));
    }
  fmpz_clear (whole);
  fmpz_clear (rest);
}

/* X is below one in size.  */
static void
put_fmpq_decimal (FILE *out, const fmpq_t x)
{
  fmpz_t scaled, twice;
  char *digits;
  size_t places = DIGITS;
  if (fmpq_is_zero (x))
    {
      fputs ("0\n", out);
      return;
    }
  fmpz_init (scaled);
  fmpz_init (twice);
  fmpz_abs (scaled, fmpq_numref (x));
  for (fmpz_mul_ui (twice, scaled, 10); fmpz_cmp (twice, fmpq_denref (x)) < 0; fmpz_mul_ui (twice, twice, 10))
    places++;
  fmpz_set_ui (twice, 10);
  fmpz_pow_ui (twice, twice, places);
  fmpz_mul (scaled, scaled, twice);
  fmpz_mul_2exp (scaled, scaled, 1);
  fmpz_add (scaled, scaled, fmpq_denref (x));
  fmpz_mul_2exp (twice, fmpq_denref (x), 1);
  fmpz_fdiv_q (scaled, scaled, twice);
  digits = fmpz_get_str (NULL, 10, scaled);
  put_places (out, fmpq_sgn (x) < 0, digits, places);
  flint_free (digits);
  fmpz_clear (scaled);
  fmpz_clear (twice);
}

static void
read_fmpq (fmpq_t x, fmpq_t y, char *copy)
{
  parts s = split (copy);
  fmpq_zero (x);
  if (*s.whole)
    fmpz_set_str (fmpq_numref (x), s.whole, 10);
  fmpq_zero (y);
  if (*s.decimals)
    {
      fmpz_set_str (fmpq_numref (y), s.decimals, 10);
      fmpz_set_ui (fmpq_denref (y), 10);
      fmpz_pow_ui (fmpq_denref (y), fmpq_denref (y), strlen (s.decimals));
    }
  else if (*s.top)
    {
      fmpz_set_str (fmpq_numref (y), s.top, 10);
      fmpz_set_str (fmpq_denref (y), s.bottom, 10);
    }
  fmpq_canonicalise (y);
  fmpq_add (x, x, y);
}

static int
run_fmpq (FILE *in, FILE *out)
{
  char line[64], copy[64];
  fmpq_t x, y, mark, error, half, parts16;
  fmpq_init (x), fmpq_init (y), fmpq_init (mark), fmpq_init (error), fmpq_init (half), fmpq_init (parts16);
  fmpq_set_si (half, 1, 2);
  fmpq_set_si (parts16, 16, 1);
  while (next_line (line, in, out))
    {
      strcpy (copy, line);
      read_fmpq (x, y, copy);
      fmpq_mul (mark, x, parts16);
      fmpq_add (mark, mark, half);
      fmpz_fdiv_q (fmpq_numref (mark), fmpq_numref (mark), fmpq_denref (mark));
      fmpz_one (fmpq_denref (mark));
      fmpq_div (mark, mark, parts16);
      fmpq_sub (error, mark, x);
      fprintf (out, "%s,", line);
      put_fmpq_mixed (out, mark);
      putc (',', out);
      fmpq_fprint (out, error);
      putc (',', out);
      put_fmpq_decimal (out, error);
    }
  fmpq_clear (x), fmpq_clear (y), fmpq_clear (mark), fmpq_clear (error), fmpq_clear (half), fmpq_clear (parts16);
  return !ferror (in) && !ferror (out);
}

int
peer_fmpq (const char *in, const char *out)
{
  return with_files (in, out, run_fmpq);
}
#else
int
peer_fmpq (const char *in, const char *out)
{
  (void) in;
  (void) out;
  return 0;
}
#endif
