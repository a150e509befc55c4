/* SPDX-License-Identifier: GPL-3.0-or-later
   real.c - how fast diagonals sqrt (a^2 + b^2) of shop fractions go to the nearest 1/16: the exact lane,
   which compares squares, against certified MPFI intervals of 64 bits.  Both run in turn, with the same
   data, and the medians are compared.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <stdlib.h>

#include <gmp.h>
#include <mpfr.h>
#include <mpfi.h>

#include "clock.h"
#include "benchrule.h"

#define COUNT 1000000
#define ROUNDS 5

typedef struct side
{
  int num, den;
} side;

static side sides[COUNT][2];

/* Sides from 1/64 to 96 in, on rulers from whole inches to 64ths; a fixed seed (xorshift64, Marsaglia 2003;
   from memory).  */
static void
make_sides (void)
{
  uint64_t x = UINT64_C (0x9e3779b97f4a7c15);

  for (int i = 0; i < 2 * COUNT; i++)
    {
      side *s = &sides[i / 2][i % 2];

      x ^= x << 13;
      x ^= x >> 7;
      x ^= x << 17;
      s->den = 1 << (x >> 40) % 7;
      s->num = 1 + (int) ((x >> 8) % (uint64_t) (96 * s->den));
    }
}

static void
must (br_status status)
{
  if (status != BR_OK)
    {
      fprintf (stderr, "real: %s\n", br_status_name (status));
      exit (1);
    }
}

/* Both make the mark, a fraction in lowest terms, and give the sum of all marks in sixteenths, so that the
   two can be compared.  */
static int64_t
ours (void)
{
  br_real a = BR_REAL_ZERO, b = BR_REAL_ZERO;
  br_number n = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO;
  int64_t total = 0, num, den;

  must (br_number_set_ratio (&step, 1, 16));
  for (int i = 0; i < COUNT; i++)
    {
      must (br_number_set_ratio (&n, sides[i][0].num, sides[i][0].den));
      must (br_real_set_number (&a, &n));
      must (br_number_set_ratio (&n, sides[i][1].num, sides[i][1].den));
      must (br_real_set_number (&b, &n));
      must (br_real_mul (&a, &a, &a));
      must (br_real_mul (&b, &b, &b));
      must (br_real_add (&a, &a, &b));
      must (br_real_sqrt (&a, &a, 0));
      must (br_real_round (&mark, NULL, &a, &step, BR_NEAREST, BR_TIES_UP, 0));
      if (br_number_get_ratio (&num, &den, &mark))
        total += num * (16 / den);
    }
  br_real_clear (&a);
  br_real_clear (&b);
  return total;
}

/* The same with intervals: the ends in sixteenths and a half must have one floor, and no end may lie on
   it.  What 64 bits do not settle is counted, and taken to the upper side, which is right for the ties and
   whole diagonals that these are.  */
static int64_t
intervals (long *open)
{
  mpfi_t a, b;
  mpfr_t low, high;
  mpq_t q, mark;
  int64_t total = 0;

  mpfi_init2 (a, 64);
  mpfi_init2 (b, 64);
  mpfr_init2 (low, 64);
  mpfr_init2 (high, 64);
  mpq_inits (q, mark, NULL);
  *open = 0;
  for (int i = 0; i < COUNT; i++)
    {
      long floor, top;

      mpq_set_ui (q, (unsigned long) sides[i][0].num, (unsigned long) sides[i][0].den);
      mpq_canonicalize (q);
      mpfi_set_q (a, q);
      mpq_set_ui (q, (unsigned long) sides[i][1].num, (unsigned long) sides[i][1].den);
      mpq_canonicalize (q);
      mpfi_set_q (b, q);
      mpfi_sqr (a, a);
      mpfi_sqr (b, b);
      mpfi_add (a, a, b);
      mpfi_sqrt (a, a);
      mpfi_mul_ui (a, a, 32);
      mpfi_add_ui (a, a, 1);
      mpfi_div_ui (a, a, 2);
      mpfi_get_left (low, a);
      mpfi_get_right (high, a);
      floor = mpfr_get_si (low, MPFR_RNDD);
      top = mpfr_get_si (high, MPFR_RNDD);
      if (floor != top || mpfr_cmp_si (low, floor) == 0)
        {
          ++*open;
          floor = top;
        }
      mpq_set_si (mark, floor, 16);
      mpq_canonicalize (mark);
      total += mpz_get_si (mpq_numref (mark)) * (16 / mpz_get_si (mpq_denref (mark)));
    }
  mpfi_clear (a);
  mpfi_clear (b);
  mpfr_clear (low);
  mpfr_clear (high);
  mpq_clears (q, mark, NULL);
  return total;
}

int
main (void)
{
  int64_t totals[2] = { 0, 0 };
  double times[2][ROUNDS], start;
  long open = 0;

  make_sides ();
  for (int i = 0; i < ROUNDS; i++)
    {
      start = bench_now ();
      totals[0] = ours ();
      times[0][i] = bench_now () - start;
      start = bench_now ();
      totals[1] = intervals (&open);
      times[1][i] = bench_now () - start;
    }
  for (int i = 0; i < 2; i++)
    bench_sort (times[i], ROUNDS);
  long long tenths = (long long) (times[1][ROUNDS / 2] * 10 / times[0][ROUNDS / 2]);
  printf ("diagonal to the nearest 1/16: exact lane %lld ns, MPFI at 64 bits %lld ns, ratio %lld.%lld; "
          "%ld of %d not settled by the interval; sums %s\n",
          (long long) (times[0][ROUNDS / 2] / COUNT), (long long) (times[1][ROUNDS / 2] / COUNT),
          tenths / 10, tenths % 10, open, COUNT,
          totals[0] == totals[1] ? "agree" : "DIFFER");
  mpfr_free_cache ();
  return totals[0] != totals[1];
}
