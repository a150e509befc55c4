/* SPDX-License-Identifier: GPL-3.0-or-later
   formula.c - values outside of the exact lanes, cube roots and sines of odd degrees: how fast they go to the nearest 1/16
   and are told apart, against intervals of MPFI at the bits at which we begin, 80; and sines of sines.  Both run in turn,
   with the same data; the medians of the processor's time are compared, which hardly changes on a busy machine.  */
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

#define COUNT 20000
#define ROUNDS 9
#define NESTS 20                /* values of a round */
#define BITS 80
#define DEEP 300

/* The value is cbrt (CUBE) + FACTOR sin (DEGREES).  */
typedef struct value
{
  int cube, factor, degrees;
} value;

static value values[COUNT + 1];

static void
make_values (void)
{
  uint64_t x = UINT64_C (0x9e3779b97f4a7c15);       /* xorshift64, Marsaglia 2003; from memory */

  for (int i = 0; i <= COUNT; i++)
    {
      x ^= x << 13;
      x ^= x >> 7;
      x ^= x << 17;
      /* No cubes and no multiples of three degrees, so that no value is a sum of square roots.  */
      values[i].cube = 28 + (int) (x >> 8 & 31);
      values[i].factor = 1 + (int) (x >> 16 & 63);
      values[i].degrees = 1 + 3 * (int) ((x >> 32) % 29);
    }
}

static void
must (br_status status)
{
  if (status != BR_OK)
    {
      fprintf (stderr, "formula: %s\n", br_status_name (status));
      exit (1);
    }
}

/* ---- Ours ---- */

static void
our_value (br_real *z, const value *v)
{
  br_real part = BR_REAL_ZERO;
  br_number n = BR_NUMBER_ZERO, third = BR_NUMBER_ZERO;

  must (br_number_set_ratio (&third, 1, 3));
  must (br_number_set_ratio (&n, v->cube, 1));
  must (br_real_set_number (z, &n));
  must (br_real_pow (z, z, &third, 0));
  must (br_number_set_ratio (&n, v->degrees, 1));
  must (br_real_set_number (&part, &n));
  must (br_real_sin (&part, &part));
  br_real factor = BR_REAL_ZERO;
  must (br_number_set_ratio (&n, v->factor, 1));
  must (br_real_set_number (&factor, &n));
  must (br_real_mul (&part, &part, &factor));
  must (br_real_add (z, z, &part));
  br_real_clear (&factor);
  br_real_clear (&part);
}

/* The sum of all marks, in sixteenths.  */
static int64_t
our_marks (void)
{
  br_number mark = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO;
  int64_t total = 0, num, den;

  must (br_number_set_ratio (&step, 1, 16));
  for (int i = 0; i < COUNT; i++)
    {
      br_real z = BR_REAL_ZERO;
      our_value (&z, &values[i]);
      must (br_real_round (&mark, NULL, &z, &step, BR_NEAREST, BR_TIES_UP, 0));
      if (br_number_get_ratio (&num, &den, &mark))
        total += num * (16 / den);
      br_real_clear (&z);
    }
  return total;
}

/* How many are larger than the next.  */
static int64_t
our_orders (void)
{
  int64_t larger = 0;

  for (int i = 0; i < COUNT; i++)
    {
      br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
      int order = 0;
      our_value (&x, &values[i]);
      our_value (&y, &values[i + 1]);
      must (br_real_cmp (&order, &x, &y, 0));
      larger += order > 0;
      br_real_clear (&x);
      br_real_clear (&y);
    }
  return larger;
}

/* ---- Intervals ---- */

static void
degrees_to_radians (mpfi_t z)
{
  mpfi_t pi;

  mpfi_init2 (pi, BITS);
  mpfi_const_pi (pi);
  mpfi_mul (z, z, pi);
  mpfi_div_ui (z, z, 180);
  mpfi_clear (pi);
}

static void
their_value (mpfi_t z, mpfi_t part, const value *v)
{
  mpfi_set_si (z, v->cube);
  mpfi_cbrt (z, z);
  mpfi_set_si (part, v->degrees);
  degrees_to_radians (part);
  mpfi_sin (part, part);
  mpfi_mul_si (part, part, v->factor);
  mpfi_add (z, z, part);
}

static int64_t
their_marks (void)
{
  mpfi_t z, part;
  mpfr_t end;
  int64_t total = 0;

  mpfi_init2 (z, BITS);
  mpfi_init2 (part, BITS);
  mpfr_init2 (end, BITS);
  for (int i = 0; i < COUNT; i++)
    {
      their_value (z, part, &values[i]);
      mpfi_mul_ui (z, z, 32);
      mpfi_add_ui (z, z, 1);
      mpfi_div_ui (z, z, 2);
      mpfi_get_left (end, z);
      long low = mpfr_get_si (end, MPFR_RNDD);
      mpfi_get_right (end, z);
      if (low != mpfr_get_si (end, MPFR_RNDD))
        low = INT32_MIN;        /* not settled: the sums differ */
      total += low;
    }
  mpfi_clear (z);
  mpfi_clear (part);
  mpfr_clear (end);
  return total;
}

static int64_t
their_orders (void)
{
  mpfi_t x, y, part;
  int64_t larger = 0;

  mpfi_init2 (x, BITS);
  mpfi_init2 (y, BITS);
  mpfi_init2 (part, BITS);
  for (int i = 0; i < COUNT; i++)
    {
      their_value (x, part, &values[i]);
      their_value (y, part, &values[i + 1]);
      mpfi_sub (x, x, y);
      larger += mpfi_is_strictly_pos (x);
    }
  mpfi_clear (x);
  mpfi_clear (y);
  mpfi_clear (part);
  return larger;
}

/* ---- Sines of sines ---- */

/* DEEP sines, each of the one before, in degrees times 60, on the nearest mark of 10^-9.  */
static int64_t
our_nest (void)
{
  br_real z = BR_REAL_ZERO, sixty = BR_REAL_ZERO;
  br_number n = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO;
  int64_t num = 0, den = 1;

  must (br_number_set_ratio (&n, 60, 1));
  must (br_real_set_number (&sixty, &n));
  must (br_number_set_ratio (&n, 1, 1));
  must (br_real_set_number (&z, &n));
  for (int i = 0; i < DEEP; i++)
    {
      must (br_real_mul (&z, &z, &sixty));
      must (br_real_sin (&z, &z));
    }
  must (br_number_set_ratio (&step, 1, INT64_C (1000000000)));
  must (br_real_round (&mark, NULL, &z, &step, BR_NEAREST, BR_TIES_UP, 0));
  if (!br_number_get_ratio (&num, &den, &mark))
    num = 0;
  br_real_clear (&z);
  br_real_clear (&sixty);
  return num * (INT64_C (1000000000) / den);
}

static int64_t
their_nest (void)
{
  mpfi_t z;
  mpfr_t end;
  int64_t low, high;

  mpfi_init2 (z, 2 * BITS);
  mpfr_init2 (end, 2 * BITS);
  mpfi_set_si (z, 1);
  for (int i = 0; i < DEEP; i++)
    {
      mpfi_mul_ui (z, z, 60);
      degrees_to_radians (z);
      mpfi_sin (z, z);
    }
  mpfr_ui_pow_ui (end, 10, 9, MPFR_RNDN);
  mpfi_mul_fr (z, z, end);
  mpfi_get_left (end, z);
  low = mpfr_get_si (end, MPFR_RNDN);
  mpfi_get_right (end, z);
  high = mpfr_get_si (end, MPFR_RNDN);
  mpfi_clear (z);
  mpfr_clear (end);
  return low == high ? low : -1;
}

/* ---- Both in turn ---- */

static double
processor_now (void)
{
  struct timespec t;
  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double) t.tv_sec * 1e9 + (double) t.tv_nsec;
}

static int
compare (const char *name, long repeats, long count, int64_t (*ours) (void), int64_t (*theirs) (void))
{
  double times[2][ROUNDS];
  int64_t results[2] = { 0, 0 };

  for (int i = 0; i < ROUNDS; i++)
    for (int k = 0; k < 2; k++)
      {
        double start = processor_now ();
        for (long n = 0; n < repeats; n++)
          results[k] = k == 0 ? ours () : theirs ();
        times[k][i] = processor_now () - start;
      }
  for (int k = 0; k < 2; k++)
    bench_sort (times[k], ROUNDS);
  long long hundredths = (long long) (times[0][ROUNDS / 2] * 100 / times[1][ROUNDS / 2]);
  printf ("%s: %lld ns, MPFI by hand %lld ns, %lld.%02lld times that; results %s\n", name,
          (long long) (times[0][ROUNDS / 2] / (double) (repeats * count)), (long long) (times[1][ROUNDS / 2] / (double) (repeats * count)),
          hundredths / 100, hundredths % 100, results[0] == results[1] ? "agree" : "DIFFER");
  return results[0] != results[1];
}

int
main (void)
{
  int differ = 0;

  make_values ();
  differ += compare ("to the nearest 1/16", 1, COUNT, our_marks, their_marks);
  differ += compare ("two told apart", 1, COUNT, our_orders, their_orders);
  differ += compare ("300 sines of sines, 9 decimals", NESTS, 1, our_nest, their_nest);
  mpfr_free_cache ();
  return differ;
}
