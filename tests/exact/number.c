/* SPDX-License-Identifier: GPL-3.0-or-later
   number.c - the arithmetic of exact rationals: tables by hand, and random numbers that lean
   to the edges against GMP's mpq and, where it is there, FLINT's fmpq.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#ifdef HAVE_FLINT
# include <flint/flint.h>
# include <flint/fmpq.h>
#endif

#define LAST "9223372036854775807"      /* INT64_MAX */
#define OVER "9223372036854775808"      /* the first that is not inline */

typedef br_status operation (br_number *z, const br_number *x, const br_number *y);

static const struct arithmetic
{
  operation *run;
  const char *x, *y, *result;
} arithmetic_table[] = {
  { br_number_add, "3/8", "3/8", "3/4" },
  { br_number_add, "1/2", "1/3", "5/6" },
  { br_number_add, "1/6", "1/10", "4/15" },
  { br_number_add, "1/6", "5/6", "1" },
  { br_number_add, "-3/8", "3/8", "0" },
  { br_number_add, "7/2", "7/16", "63/16" },
  { br_number_add, LAST, "1", OVER },
  { br_number_add, "-" LAST, "-1", "-" OVER },
  { br_number_add, OVER, "-1", LAST },
  { br_number_add, "-" OVER, "1", "-" LAST },
  { br_number_add, "4611686018427387904", "-1/2", "9223372036854775807/2" },
  { br_number_add, "9223372036854775807/2", "9223372036854775807/2", LAST },
  { br_number_add, "1/" LAST, "1", OVER "/" LAST },
  { br_number_sub, "7/2", "3/4", "11/4" },
  { br_number_sub, "1/64", "1/2", "-31/64" },
  { br_number_sub, "-" LAST, "1", "-" OVER },
  { br_number_sub, OVER, OVER, "0" },
  { br_number_mul, "7/2", "2/7", "1" },
  { br_number_mul, "-3/4", "2/3", "-1/2" },
  { br_number_mul, "0", "-5/7", "0" },
  { br_number_mul, "3037000500", "3037000500", "9223372037000250000" },
  { br_number_mul, "-4611686018427387904", "2", "-" OVER },
  { br_number_mul, OVER, "1/2", "4611686018427387904" },
  { br_number_mul, "1/" OVER, "2", "1/4611686018427387904" },
  { br_number_mul, LAST "/2", "2/" LAST, "1" },
  { br_number_div, "19/8", "2", "19/16" },
  { br_number_div, "-1", "-3", "1/3" },
  { br_number_div, "1", "-127/5", "-5/127" },
  { br_number_div, "1", OVER, "1/" OVER },
  { br_number_div, OVER, "-" OVER, "-1" },
  { br_number_div, "0", OVER, "0" },
};

static void
test_arithmetic_by_hand (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (arithmetic_table); i++)
    {
      const struct arithmetic *row = &arithmetic_table[i];
      br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO, z = BR_NUMBER_ZERO;
      check_set (&x, row->x);
      check_set (&y, row->y);
      check_ok (row->run (&z, &x, &y));
      check_is (&z, row->result);
      br_number_clear (&x);
      br_number_clear (&y);
      br_number_clear (&z);
    }
}

/* X is the rational Q, in the one representation that Q has.  */
static void
assert_equals (const br_number *x, mpq_srcptr q)
{
  mpq_t value;
  assert_true (br_number_check (x));
  mpq_init (value);
  br__number_to_mpq (value, x);
  assert_true (mpq_equal (value, q));
  /* Inline exactly when both parts are below 2^63.  */
  assert_int_equal (br__is_small (x), mpz_sizeinbase (mpq_numref (q), 2) <= 63
                                      && mpz_sizeinbase (mpq_denref (q), 2) <= 63);
  mpq_clear (value);
}

#ifdef HAVE_FLINT
static void
flint_agrees (int which, mpq_srcptr result, mpq_srcptr a, mpq_srcptr b)
{
  fmpq_t x, y, z, right;
  fmpq_init (x);
  fmpq_init (y);
  fmpq_init (z);
  fmpq_init (right);
  fmpq_set_mpq (x, a);
  fmpq_set_mpq (y, b);
  fmpq_set_mpq (right, result);
  switch (which)
    {
    case 0: fmpq_add (z, x, y); break;
    case 1: fmpq_sub (z, x, y); break;
    case 2: fmpq_mul (z, x, y); break;
    default: fmpq_div (z, x, y); break;
    }
  assert_true (fmpq_equal (z, right));
  fmpq_clear (x);
  fmpq_clear (y);
  fmpq_clear (z);
  fmpq_clear (right);
}
#endif

/* One operation on A and B in each pattern of aliasing that they allow.  */
static void
check_aliases (operation *run, mpq_srcptr result, const br_number *x, const br_number *y)
{
  br_number z = BR_NUMBER_ZERO, copy = BR_NUMBER_ZERO;
  /* Z holds something on the heap first: it must be given back.  */
  check_set (&z, OVER);
  check_ok (run (&z, x, y));
  assert_equals (&z, result);
  check_ok (br_number_set (&copy, x));
  check_ok (run (&copy, &copy, y));
  assert_equals (&copy, result);
  check_ok (br_number_set (&copy, y));
  check_ok (run (&copy, x, &copy));
  assert_equals (&copy, result);
  if (br_number_equal (x, y))
    {
      check_ok (run (&copy, x, x));
      assert_equals (&copy, result);
      check_ok (br_number_set (&copy, x));
      check_ok (run (&copy, &copy, &copy));
      assert_equals (&copy, result);
    }
  br_number_clear (&z);
  br_number_clear (&copy);
}

static void
check_pair (mpq_t a, mpq_t b)
{
  static operation *const ours[] = { br_number_add, br_number_sub, br_number_mul, br_number_div };
  static void (*const gmp[]) (mpq_ptr, mpq_srcptr, mpq_srcptr) = { mpq_add, mpq_sub, mpq_mul, mpq_div };
  br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO;
  mpq_t result;
  mpq_init (result);
  check_ok (br__number_from_mpq (&x, a));
  check_ok (br__number_from_mpq (&y, b));
  for (int i = 0; i < 4; i++)
    {
      if (i == 3 && mpq_sgn (b) == 0)
        {
          assert_int_equal (br_number_div (&x, &x, &y), BR_DOMAIN);
          assert_equals (&x, a);
          continue;
        }
      gmp[i] (result, a, b);
      check_aliases (ours[i], result, &x, &y);
#ifdef HAVE_FLINT
      flint_agrees (i, result, a, b);
#endif
    }
  int order = mpq_cmp (a, b), ours_order = br_number_cmp (&x, &y);
  assert_int_equal ((order > 0) - (order < 0), (ours_order > 0) - (ours_order < 0));
  assert_int_equal (br_number_equal (&x, &y), mpq_equal (a, b));
  assert_equals (&x, a);
  assert_equals (&y, b);
  mpq_clear (result);
  br_number_clear (&x);
  br_number_clear (&y);
}

static void
test_arithmetic_at_random (void **state)
{
  (void) state;
  mpq_t a, b;
  mpq_init (a);
  mpq_init (b);
  for (long i = check_times (20000); i > 0; i--)
    {
      check_mpq (a);
      if (check_below (8) == 0)
        mpq_set (b, a);
      else
        check_mpq (b);
      if (check_below (16) == 0)
        mpq_neg (b, b);
      check_pair (a, b);
    }
  mpq_clear (a);
  mpq_clear (b);
}

static void
test_one_argument (void **state)
{
  (void) state;
  mpq_t a, result;
  mpq_init (a);
  mpq_init (result);
  for (long i = check_times (5000); i > 0; i--)
    {
      br_number x = BR_NUMBER_ZERO, z = BR_NUMBER_ZERO;
      check_mpq (a);
      check_ok (br__number_from_mpq (&x, a));
      mpq_neg (result, a);
      check_ok (br_number_neg (&z, &x));
      assert_equals (&z, result);
      mpq_abs (result, a);
      check_ok (br_number_abs (&z, &x));
      assert_equals (&z, result);
      assert_int_equal (br_number_sign (&x), mpq_sgn (a));
      assert_int_equal (br_number_is_integer (&x), mpz_cmp_ui (mpq_denref (a), 1) == 0);
      size_t num = mpz_sizeinbase (mpq_numref (a), 2), den = mpz_sizeinbase (mpq_denref (a), 2);
      assert_int_equal (br__number_bits (&x), num > den ? num : den);
      br_number_swap (&x, &z);
      assert_equals (&z, a);
      check_ok (br_number_neg (&z, &z));
      mpq_neg (result, a);
      assert_equals (&z, result);
      br__number_move (&x, &z);
      assert_equals (&x, result);
      check_is (&z, "0");
      br__number_move (&x, &x);
      assert_equals (&x, result);
      br_number_clear (&x);
      br_number_clear (&x);
      check_is (&x, "0");
    }
  mpq_clear (a);
  mpq_clear (result);
}

static void
test_ratios (void **state)
{
  static const struct { int64_t n, d; const char *result; } table[] = {
    { 6, 8, "3/4" }, { -6, 8, "-3/4" }, { 6, -8, "-3/4" }, { -6, -8, "3/4" }, { 0, -5, "0" },
    { INT64_MAX, INT64_MAX, "1" }, { INT64_MIN, INT64_MIN, "1" }, { INT64_MIN, 1, "-" OVER },
    { INT64_MIN, -1, OVER }, { INT64_MIN, 2, "-4611686018427387904" }, { 0, INT64_MIN, "0" },
    { 1, INT64_MIN, "-1/" OVER }, { -3, INT64_MIN, "3/" OVER }, { 2, INT64_MIN, "-1/4611686018427387904" },
    { INT64_MIN, 3, "-" OVER "/3" }, { INT64_MIN, INT64_MAX, "-" OVER "/" LAST },
    { INT64_MAX, INT64_MIN, "-" LAST "/" OVER }, { INT64_MAX, 1, LAST }, { -INT64_MAX, 2, "-" LAST "/2" },
    { 3, INT64_MAX, "3/" LAST }, { -3, -INT64_MAX, "3/" LAST }, { INT64_MAX, 7, "1317624576693539401" },
  };
  (void) state;
  br_number x = BR_NUMBER_ZERO;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      int64_t n = 99, d = 99;
      check_ok (br_number_set_ratio (&x, table[i].n, table[i].d));
      check_is (&x, table[i].result);
      assert_int_equal (br_number_get_ratio (&n, &d, &x), br__is_small (&x));
      if (br__is_small (&x))
        {
          br_number y = BR_NUMBER_ZERO;
          check_ok (br_number_set_ratio (&y, n, d));
          assert_true (br_number_equal (&x, &y));
        }
      else
        assert_true (n == 99 && d == 99);
    }
  assert_int_equal (br_number_set_ratio (&x, 1, 0), BR_DOMAIN);
  check_is (&x, "1317624576693539401");
  check_ok (br_number_set_int (&x, INT64_MIN));
  check_is (&x, "-" OVER);
  check_ok (br_number_set_int (&x, INT64_MAX));
  check_is (&x, LAST);
}

static void
test_power_by_hand (void **state)
{
  static const struct { const char *x; int64_t n; const char *result; } table[] = {
    { "0", 0, "1" }, { "0", 1, "0" }, { "0", INT64_MAX, "0" },
    { "1", INT64_MIN, "1" }, { "1", INT64_MAX, "1" }, { "-1", INT64_MAX, "-1" },
    { "-1", INT64_MIN, "1" }, { "-1", -3, "-1" }, { "2", -2, "1/4" }, { "-2/3", 3, "-8/27" },
    { "-2/3", -3, "-27/8" }, { "2", 62, "4611686018427387904" }, { "2", 63, OVER },
    { "-2", 63, "-" OVER }, { "1/2", -63, OVER }, { OVER, 0, "1" }, { OVER, -1, "1/" OVER },
    { "-1/" OVER, -1, "-" OVER }, { "10", 18, "1000000000000000000" },
  };
  static const struct { const char *x; int64_t n; br_status status; } refused[] = {
    { "0", -1, BR_DOMAIN }, { "0", INT64_MIN, BR_DOMAIN }, { "10", 99999999, BR_TOO_BIG },
    { "2", 1000000, BR_TOO_BIG }, { "1/2", 1000000, BR_TOO_BIG }, { "2", -1000000, BR_TOO_BIG },
    { "2", INT64_MIN, BR_TOO_BIG }, { "-3/2", INT64_MAX, BR_TOO_BIG }, { OVER, 15874, BR_TOO_BIG },
  };
  (void) state;
  br_number x = BR_NUMBER_ZERO;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      check_set (&x, table[i].x);
      check_ok (br_number_pow (&x, &x, table[i].n));
      check_is (&x, table[i].result);
    }
  for (size_t i = 0; i < CHECK_COUNT (refused); i++)
    {
      check_set (&x, refused[i].x);
      assert_int_equal (br_number_pow (&x, &x, refused[i].n), refused[i].status);
      check_is (&x, refused[i].x);
    }
  br_number_clear (&x);
}

/* Against repeated multiplication.  */
static void
test_power_at_random (void **state)
{
  (void) state;
  for (long i = check_times (500); i > 0; i--)
    {
      br_number x = BR_NUMBER_ZERO, z = BR_NUMBER_ZERO, slow = BR_NUMBER_ZERO;
      int64_t n = check_between (-20, 20);
      check_number (&x);
      if (br_number_sign (&x) == 0)
        check_ok (br_number_set_int (&x, 3));
      check_ok (br_number_set_int (&slow, 1));
      for (int64_t k = n < 0 ? - n : n; k > 0; k--)
        check_ok (n < 0 ? br_number_div (&slow, &slow, &x) : br_number_mul (&slow, &slow, &x));
      check_ok (br_number_pow (&z, &x, n));
      assert_true (br_number_check (&z));
      assert_true (br_number_equal (&z, &slow));
      check_ok (br_number_pow (&x, &x, n));
      assert_true (br_number_equal (&x, &slow));
      br_number_clear (&x);
      br_number_clear (&z);
      br_number_clear (&slow);
    }
}

/* Both sides of BR_MAX_BITS, for each operation that can cross it.  */
static void
test_limit (void **state)
{
  (void) state;
  br_number two = { 2, 0 }, one = { 1, 0 };
  br_number top = BR_NUMBER_ZERO, most = BR_NUMBER_ZERO, z = BR_NUMBER_ZERO;
  /* TOP = 2^(BR_MAX_BITS - 1) has BR_MAX_BITS bits; MOST = 2 TOP - 1 too, and is the last.  */
  check_ok (br_number_pow (&top, &two, BR_MAX_BITS - 1));
  assert_int_equal (br__number_bits (&top), BR_MAX_BITS);
  check_ok (br_number_sub (&most, &top, &one));
  check_ok (br_number_add (&most, &most, &top));
  assert_int_equal (br__number_bits (&most), BR_MAX_BITS);
  assert_true (br_number_check (&most));
  assert_int_equal (br_number_add (&z, &most, &one), BR_TOO_BIG);
  assert_int_equal (br_number_add (&z, &top, &top), BR_TOO_BIG);
  assert_int_equal (br_number_mul (&z, &top, &two), BR_TOO_BIG);
  assert_int_equal (br_number_mul (&z, &most, &most), BR_TOO_BIG);
  assert_int_equal (br_number_pow (&z, &most, 2), BR_TOO_BIG);
  assert_int_equal (br_number_pow (&z, &most, -2), BR_TOO_BIG);
  check_is (&z, "0");
  check_ok (br_number_neg (&z, &most));
  assert_int_equal (br_number_sub (&z, &z, &one), BR_TOO_BIG);
  assert_int_equal (br__number_bits (&z), BR_MAX_BITS);
  check_ok (br_number_div (&z, &one, &top));
  assert_int_equal (br_number_div (&z, &z, &two), BR_TOO_BIG);
  assert_int_equal (br__number_bits (&z), BR_MAX_BITS);
  /* The limit is one of values: what comes back under it is right, however long the way.  */
  check_ok (br_number_mul (&z, &z, &top));
  check_is (&z, "1");
  check_ok (br_number_div (&z, &most, &most));
  check_is (&z, "1");
  /* (2^63)^15873 = 2^999999 is the last power of 2^63 within; 15874 is refused above.  */
  check_set (&z, OVER);
  check_ok (br_number_pow (&z, &z, 15873));
  assert_true (br_number_equal (&z, &top));
  check_ok (br_number_sub (&top, &top, &top));
  check_is (&top, "0");
  /* 3^630929 is the last power of 3 within: log 2 / log 3 is 0.63092975.  */
  check_ok (br_number_set_int (&z, 3));
  check_ok (br_number_pow (&top, &z, 630929));
  assert_int_equal (br__number_bits (&top), BR_MAX_BITS - 1);
  check_ok (br_number_pow (&z, &z, -630929));
  check_ok (br_number_mul (&z, &z, &top));
  check_is (&z, "1");
  check_ok (br_number_set_int (&z, 3));
  assert_int_equal (br_number_pow (&z, &z, 630930), BR_TOO_BIG);
  br_number_clear (&top);
  br_number_clear (&most);
  br_number_clear (&z);
}

static void
test_malformed_is_seen (void **state)
{
  static const br_number wrong[] = {
    { 2, 3 }, { 0, 1 }, { INT64_MIN, 0 }, { 1, INT64_MAX }, { 1, -1 }, { 0, BR__HEAP }, { 6, 8 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    assert_false (br_number_check (&wrong[i]));
  /* On the heap, but it would fit inline; and not in lowest terms.  */
  br_number x = BR_NUMBER_ZERO;
  check_set (&x, OVER);
  assert_true (br_number_check (&x));
  mpz_set_ui (br__big_of (&x)->num, 5);
  assert_false (br_number_check (&x));
  mpz_ui_pow_ui (br__big_of (&x)->num, 2, 80);
  mpz_set_ui (br__big_of (&x)->den, 6);
  assert_false (br_number_check (&x));
  /* What GMP took for these is not the number's own.  */
  mpz_clear (br__big_of (&x)->num);
  mpz_clear (br__big_of (&x)->den);
  br_number_clear (&x);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_arithmetic_by_hand),
    CHECK_TEST (test_arithmetic_at_random),
    CHECK_TEST (test_one_argument),
    CHECK_TEST (test_ratios),
    CHECK_TEST (test_power_by_hand),
    CHECK_TEST (test_power_at_random),
    CHECK_TEST (test_limit),
    CHECK_TEST (test_malformed_is_seen),
  };
  return CHECK_RUN (tests);
}
