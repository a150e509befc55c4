/* SPDX-License-Identifier: GPL-3.0-or-later
   ruler.c - marks, ties and errors: printed roundings, every 64th, and slow twins.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure.h"

static void
set_measure (br_number *z, const char *text)
{
  br_measure m = BR_MEASURE_ZERO;

  check_ok (br_measure_read (&m, text, strlen (text), NULL, NULL));
  br_number_swap (z, &m.value);
  br_measure_clear (&m);
}

#define TRUE_MARK NULL      /* what is printed is right */

static const struct
{
  const char *x, *mark, *printed;
  const char *right;        /* where the print is wrong */
  br_ties ties;
  int tie;
  const char *source;
} printed[] = {
  { "0.133", "1/64", "9/64", TRUE_MARK, BR_TIES_UP, 0,
    "The Building Trades Pocketbook, Decimal Equivalents of 64ths" },
  { "0.8979", "1/64", "57/64", TRUE_MARK, BR_TIES_UP, 0, "the same" },
  { "0.763", "1/64", "49/64", TRUE_MARK, BR_TIES_UP, 0,
    "Aviation Maintenance Technician Handbook - General (FAA), Decimals" },
  { "14.4", "1/8", "14-3/8", TRUE_MARK, BR_TIES_UP, 0, "mathematics question page" },
  { "5.92 ft", "1/16", "5'11\"1/16\"", TRUE_MARK, BR_TIES_UP, 0, "plumbing study page" },
  { "63.88", "1/16", "5'3\"7/8\"", TRUE_MARK, BR_TIES_UP, 0, "plumbing study page" },
  { "12.1173", "1/16", "12-1/16", "12-1/8", BR_TIES_UP, 0,
    "pipe trade test study page 3: one sixteenth low" },
  { "0.40625", "1/16", "7/16", TRUE_MARK, BR_TIES_UP, 1, "common practice, no source" },
  { "0.40625", "1/16", "3/8", TRUE_MARK, BR_TIES_EVEN, 1, "common practice, no source" },
  { "0.40625", "1/16", "3/8", TRUE_MARK, BR_TIES_DOWN, 1, "common practice, no source" },
  { "23/32", "1/16", "3/4", TRUE_MARK, BR_TIES_UP, 1, "common practice, no source" },
  { "23/32", "1/16", "3/4", TRUE_MARK, BR_TIES_EVEN, 1, "common practice, no source" },
  { "11.99 in", "1/16", "1' 0\"", TRUE_MARK, BR_TIES_UP, 0, "common practice, no source" },
  { "11.9999 in", "1/32", "1'", TRUE_MARK, BR_TIES_UP, 0,
    "programming exercise Feet And Inches" },
  { "31-11/12", "1/16", "31-15/16", TRUE_MARK, BR_TIES_UP, 0, "common practice, no source" },
  { "5-3/5", "1/16", "5-5/8", TRUE_MARK, BR_TIES_UP, 0, "common practice, no source" },
  { "17-1/7", "1/16", "17-1/8", TRUE_MARK, BR_TIES_UP, 0, "common practice, no source" },
  { "60.25132", "0.1", "60.3", TRUE_MARK, BR_TIES_EVEN, 0,
    "US Army munitions subcourse MM0440, Rounding Off" },
  { "21.350", "0.1", "21.4", TRUE_MARK, BR_TIES_EVEN, 1, "college handout, rounding off" },
  { "21.4501", "0.1", "21.5", TRUE_MARK, BR_TIES_EVEN, 0, "college handout, rounding off" },
  { "67.129558", "0.001", "67.130", TRUE_MARK, BR_TIES_UP, 0,
    "Fundamentals of Mathematics (Burzynski and Ellis), Rounding Decimals" },
  { "1.999994", "0.1", "2.0", TRUE_MARK, BR_TIES_UP, 0, "the same" },
  { "6.9749505", "0.000001", "6.974950", TRUE_MARK, BR_TIES_EVEN, 1,
    "NIST SP 811 appendix B.7, from memory" },
  { "1.5875", "0.1", "1.6", TRUE_MARK, BR_TIES_UP, 0, "7 CFR 51.322, 1/16 in as mm" },
  { "4.7625", "0.1", "4.8", TRUE_MARK, BR_TIES_UP, 0, "7 CFR 51.322, 3/16 in" },
  { "9.525", "0.1", "9.5", TRUE_MARK, BR_TIES_UP, 0, "7 CFR 51.322, 3/8 in" },
  { "15.875", "0.1", "15.9", TRUE_MARK, BR_TIES_UP, 0, "7 CFR 51.322, 5/8 in" },
  { "22.225", "0.1", "22.2", TRUE_MARK, BR_TIES_UP, 0, "7 CFR 51.322, 7/8 in" },
  { "53.975", "0.1", "54.0", TRUE_MARK, BR_TIES_UP, 0, "7 CFR 51.322, 2-1/8 in" },
  { "60.325", "0.1", "60.3", TRUE_MARK, BR_TIES_UP, 0, "7 CFR 51.322, 2-3/8 in" },
  { "69.85", "0.1", "69.9", TRUE_MARK, BR_TIES_UP, 1, "7 CFR 51.322, 2-3/4 in" },
  { "0.396875", "0.00001", "0.39687", "0.39688", BR_TIES_UP, 1,
    "Aeronautical Engineer Data Book, table 2.11: cut off" },
  { "25.003125", "0.00001", "25.00312", "25.00313", BR_TIES_UP, 1, "the same: cut off" },
  { "31.75", "0.1", "31.7", "31.8", BR_TIES_UP, 1, "16 CFR 1501.4, figure 1: cut off" },
  { "57.15", "0.1", "57.1", "57.2", BR_TIES_UP, 1, "16 CFR 1501.4, figure 1: cut off" },
};

static void
printed_roundings (void **state)
{
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (printed); i++)
    {
      br_number x = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, print = BR_NUMBER_ZERO;
      br_number right = BR_NUMBER_ZERO, value = BR_NUMBER_ZERO, error = BR_NUMBER_ZERO;
      int tie = 77;

      set_measure (&x, printed[i].x);
      set_measure (&mark, printed[i].mark);
      set_measure (&print, printed[i].printed);
      set_measure (&right, printed[i].right != NULL ? printed[i].right : printed[i].printed);
      check_ok (br_ruler_round (&value, &error, &tie, &x, &mark, BR_NEAREST, printed[i].ties));
      if (!br_number_equal (&value, &right) || tie != printed[i].tie
          || br_number_equal (&value, &print) != (printed[i].right == NULL))
        fail_msg ("%s to %s (%s)", printed[i].x, printed[i].mark, printed[i].source);
      check_ok (br_number_sub (&error, &value, &error));
      assert_true (br_number_equal (&error, &x));
      /* A mirrored value goes to the mirrored mark: UP is away from zero.  */
      check_ok (br_number_neg (&x, &x));
      check_ok (br_ruler_round (&value, NULL, NULL, &x, &mark, BR_NEAREST, printed[i].ties));
      check_ok (br_number_neg (&value, &value));
      assert_true (br_number_equal (&value, &right));
    }
}

/* Quotient toward minus infinity.  */
static int64_t
floor_div (int64_t n, int64_t d)
{
  return n / d - (n % d != 0 && (n < 0) != (d < 0));
}

/* Where N / 64 goes on the ruler of 1/DEN, in units of that mark, by integers alone.  */
static int64_t
slow_mark (int *tie, int64_t n, int64_t den, br_direction direction, br_ties ties)
{
  int64_t below = floor_div (n * den, 64), rest = n * den - below * 64;

  *tie = direction == BR_NEAREST && rest == 32;
  if (rest == 0 || direction == BR_DOWN)
    return below;
  if (direction == BR_UP || rest > 32)
    return below + 1;
  if (rest < 32)
    return below;
  if (ties == BR_TIES_EVEN)
    return below + (below % 2 != 0);
  return below + ((n > 0) == (ties == BR_TIES_UP));
}

/* Every 64th from -2 to 2 in on every binary ruler, each direction and rule for ties.  */
static void
every_64th (void **state)
{
  int64_t n, den;
  int direction, ties;

  (void) state;
  for (n = -128; n <= 128; n++)
    for (den = 1; den <= 64; den *= 2)
      for (direction = BR_NEAREST; direction <= BR_DOWN; direction++)
        for (ties = BR_TIES_UP; ties <= BR_TIES_EVEN; ties++)
          {
            br_number x = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, want = BR_NUMBER_ZERO;
            br_number value = BR_NUMBER_ZERO, error = BR_NUMBER_ZERO;
            br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
            int tie, want_tie;

            check_ok (br_number_set_ratio (&x, n, 64));
            check_ok (br_number_set_ratio (&mark, 1, den));
            check_ok (br_number_set_ratio (&want, slow_mark (&want_tie, n, den,
                                                             (br_direction) direction,
                                                             (br_ties) ties), den));
            check_ok (br_ruler_neighbours (&low, &high, &x, &mark));
            /* The value may lie where the length was.  */
            check_ok (br_number_set (&value, &x));
            check_ok (br_ruler_round (&value, &error, &tie, &value, &mark,
                                      (br_direction) direction, (br_ties) ties));
            assert_true (br_number_equal (&value, &want));
            assert_int_equal (tie, want_tie);
            assert_true (br_number_equal (&value, &low) || br_number_equal (&value, &high));
            check_ok (br_number_sub (&error, &value, &error));
            assert_true (br_number_equal (&error, &x));
          }
}

/* Q in MARKs is M and OFF by the definition, in rationals of GMP alone.  */
static void
check_definition (const br_number *x, const br_number *mark, br_direction direction, br_ties ties)
{
  br_number value = BR_NUMBER_ZERO, error = BR_NUMBER_ZERO;
  mpq_t q, step, half, on, off;
  int tie = 77, near;

  mpq_inits (q, step, half, on, off, NULL);
  check_ok (br_ruler_round (&value, &error, &tie, x, mark, direction, ties));
  assert_true (br_number_check (&value) && br_number_check (&error));
  br__number_to_mpq (q, x);
  br__number_to_mpq (step, mark);
  br__number_to_mpq (on, &value);
  mpq_sub (off, on, q);
  br__number_to_mpq (half, &error);
  assert_true (mpq_equal (off, half));
  mpq_div (on, on, step);
  assert_int_equal (mpz_cmp_ui (mpq_denref (on), 1), 0);
  mpq_div_2exp (half, step, 1);
  near = mpq_sgn (off) < 0 ? (mpq_neg (on, off), mpq_cmp (on, half)) : mpq_cmp (off, half);
  assert_true (direction == BR_NEAREST ? near <= 0 : direction == BR_UP ? mpq_sgn (off) >= 0 : mpq_sgn (off) <= 0);
  assert_int_equal (tie, direction == BR_NEAREST && near == 0);
  if (tie && ties != BR_TIES_EVEN)
    assert_int_equal (mpq_sgn (off) == mpq_sgn (q), ties == BR_TIES_UP);
  mpq_clears (q, step, half, on, off, NULL);
  br_number_clear (&value);
  br_number_clear (&error);
}

/* Marks of several units, of thirds and tenths and of a hair; lengths up to past 64 bits, as what is on them is sought
   without GMP only as long as it fits.  */
static void
any_mark (void **state)
{
  static const char *const marks[] = {
    "1", "2", "3", "2/5", "3/64", "1/64", "1/3", "1/10", "5/127", "1/4096", "1/4611686018427387904",
    "1/9223372036854775807", "9223372036854775807", "1/9223372036854775808", "9223372036854775808"
  };
  static const char *const lengths[] = {
    "0", "1", "3", "-3", "7/2", "5/64", "-5/64", "9223372036854775807", "-9223372036854775807", "9223372036854775807/2",
    "1/9223372036854775807", "-144115188075855872", "144115188075855871", "1/144115188075855872",
    "144115188075855873/128", "9223372036854775808", "-1/9223372036854775808", "1/6"
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (marks); i++)
    for (size_t j = 0; j < CHECK_COUNT (lengths); j++)
      for (int way = 0; way < 9; way++)
        {
          br_number x = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;

          check_set (&mark, marks[i]);
          check_set (&x, lengths[j]);
          check_definition (&x, &mark, (br_direction) (way / 3), (br_ties) (way % 3));
          br_number_clear (&x);
          br_number_clear (&mark);
        }
}

static void
no_ruler (void **state)
{
  br_number x = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, value = BR_NUMBER_ZERO;
  br_real part = BR_REAL_ZERO;
  int i, tie = 77;

  (void) state;
  check_ok (br_number_set_int (&value, 77));
  for (i = 0; i > -2; i--)
    {
      check_ok (br_number_set_int (&mark, i));
      assert_int_equal (br_ruler_round (&value, &value, &tie, &x, &mark, BR_UP, BR_TIES_UP),
                        BR_DOMAIN);
      assert_int_equal (br_ruler_neighbours (&value, &value, &x, &mark), BR_DOMAIN);
      assert_int_equal (br_ruler_keep_total (&value, &value, &part, 1, &mark, BR_UP, BR_TIES_UP,
                                             0), BR_DOMAIN);
    }
  check_is (&value, "77");
  assert_int_equal (tie, 77);
}

/* The plainest fraction by trying every multiple on every ruler: X = N / D, WITHIN = W / D.
   Returns its numerator over *RULER.  */
static int64_t
slow_simplest (int64_t *ruler, int64_t n, int64_t d, int64_t w)
{
  for (*ruler = 1;; *ruler *= 2)
    {
      int64_t k, best = 0, best_gap = -1;

      for (k = -5 * *ruler; k <= 5 * *ruler; k++)
        {
          int64_t gap = llabs (k * d - n * *ruler);

          if (gap <= w * *ruler
              && (best_gap < 0 || gap < best_gap || (gap == best_gap && llabs (k) > llabs (best))))
            best = k, best_gap = gap;
        }
      if (best_gap >= 0)
        return best;
    }
}

static void
simplest (void **state)
{
  long i;

  (void) state;
  for (i = 0; i < check_times (1500); i++)
    {
      static const int64_t dens[] = { 64, 10, 127, 1000, 3 };
      int64_t d = dens[check_below (CHECK_COUNT (dens))], n = check_between (-4 * d, 4 * d);
      int64_t w = check_between (d == 64 ? 0 : d < 11 ? 1 : d / 100 + 1, d / 2 + 1), ruler, k;
      br_real x = BR_REAL_ZERO;
      br_number within = BR_NUMBER_ZERO, want = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
      br_number value = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO;

      check_ok (br_number_set_ratio (&x.rational, n, d));
      check_ok (br_number_set_ratio (&within, w, d));
      k = slow_simplest (&ruler, n, d, w);
      check_ok (br_number_set_ratio (&want, k, ruler));
      check_ok (br_number_set_ratio (&step, 1, ruler));
      check_ok (br_ruler_simplest (&value, &mark, &x, &within, 0));
      if (!br_number_equal (&value, &want) || !br_number_equal (&mark, &step))
        fail_msg ("%" PRId64 "/%" PRId64 " within %" PRId64 "/%" PRId64, n, d, w, d);
    }
}

static void
simplest_edges (void **state)
{
  br_real x = BR_REAL_ZERO;
  br_number within = BR_NUMBER_ZERO, value = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;

  (void) state;
  check_ok (br_number_set_int (&value, 77));
  /* 1/3 is on no binary ruler; 1/2^64 is on the last one, 1/2^65 on none.  */
  check_set (&x.rational, "1/3");
  assert_int_equal (br_ruler_simplest (&value, &mark, &x, &within, 0), BR_DOMAIN);
  check_set (&x.rational, "1/36893488147419103232");
  assert_int_equal (br_ruler_simplest (&value, &mark, &x, &within, 0), BR_DOMAIN);
  check_set (&within, "-1/64");
  assert_int_equal (br_ruler_simplest (&value, &mark, &x, &within, 0), BR_DOMAIN);
  check_is (&value, "77");
  check_set (&within, "0");
  check_set (&x.rational, "1/18446744073709551616");
  check_ok (br_ruler_simplest (&value, &mark, &x, &within, 0));
  check_is (&value, "1/18446744073709551616");
  check_is (&mark, "1/18446744073709551616");
  /* pi: 3 is 0.1416 off; 3-1/8 is 0.0166 off, 3-9/64 0.00097 (pi to five places from memory). */
  check_ok (br_real_pi (&x));
  check_set (&within, "1/7");
  check_ok (br_ruler_simplest (&value, &mark, &x, &within, 0));
  check_is (&value, "3");
  check_set (&within, "1/60");
  check_ok (br_ruler_simplest (&value, &mark, &x, &within, 0));
  check_is (&value, "25/8");
  check_set (&within, "1/1000");
  check_ok (br_ruler_simplest (&value, &mark, &x, &within, 0));
  check_is (&value, "201/64");
  check_is (&mark, "1/64");
  br_real_clear (&x);
  br_number_clear (&value);
  br_number_clear (&mark);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (printed_roundings),
    CHECK_TEST (every_64th),
    CHECK_TEST (any_mark),
    CHECK_TEST (no_ruler),
    CHECK_TEST (simplest),
    CHECK_TEST (simplest_edges),
  };

  return CHECK_RUN (tests);
}
