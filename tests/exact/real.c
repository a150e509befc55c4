/* SPDX-License-Identifier: GPL-3.0-or-later
   real.c - real values: what is exact is known to be exact, and what is not is known not to be; domain
   errors; printed values with their sources.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real_check.h"

/* ---- The exact lanes ---- */

static const struct { const char *words, *right; } rational_results[] =
{
  { "2 sqrt 8 sqrt *", "4" },
  { "2 sqrt 8 sqrt /", "1/2" },
  { "3 pi * pi /", "3" },                       /* circumference (3) / pi */
  { "12 sqrt 18 sqrt * 6 sqrt /", "6" },
  { "45 sin 2 sqrt *", "1" },
  { "2 sqrt 3 sqrt + 2 sqrt - 3 sqrt -", "0" },
  { "2 sqrt 3 sqrt + dup * 5 - 6 sqrt /", "2" },
  { "1 2 sqrt 1 - / 2 sqrt -", "1" },           /* 1 / (sqrt 2 - 1) = sqrt 2 + 1 */
  { "5 24 sqrt + sqrt 2 sqrt - 3 sqrt -", "0" },
  { "5 24 sqrt - sqrt 2 sqrt + 3 sqrt -", "0" },
  { "24 sqrt 5 + sqrt dup *  24 sqrt -", "5" },
  { "25/4 sqrt", "5/2" },
  { "25/258064 sqrt", "5/508" },                /* 0.25 mm in inches */
  { "0 sqrt", "0" },
  { "8/27 1/3 ^", "2/3" },
  { "8/27 -2/3 ^", "9/4" },
  { "64 1/6 ^", "2" },
  { "4 1/4 ^ 2 sqrt /", "1" },                  /* the index 4 shrinks to 2 */
  { "8 sqrt 2/3 ^", "2" },
  { "2 1/3 ^ 3 ^", "2" },
  { "2 sqrt sqrt dup *  2 sqrt -", "0" },
  { "pi 2 ^ sqrt pi -", "0" },
  { "2 sqrt pi * -3 ^ pi 3 ^ * 2 sqrt *", "1/2" },
  { "1 3 sqrt + 4 ^ 16 3 sqrt * -", "28" },
  { "7 sqrt 0 ^", "1" },
  { "2 sqrt neg abs 2 sqrt -", "0" },
  { "2 1/3 ^ neg neg 2 1/3 ^ 0 * +  dup - ", "0" },
  { "2 1/3 ^ dup /", "1" },
  { "170141183460469231731687303715884105729 dup * 3 * sqrt 3 sqrt /",
    "170141183460469231731687303715884105729" },
  /* What was made twice in one way is one value.  */
  { "2 1/3 ^ 2 1/3 ^ -", "0" },
  { "2 1/3 ^ 2 1/3 ^ /", "1" },
  { "5 1/4 ^ 5 1/4 ^ * dup *", "5" },
  { "1 1 sin / 1 sin -1 ^ -", "0" },
  { "1 sin 1 ^ 1 sin -", "0" },
  { "pi 1 ^ pi -", "0" },
  { "0 2 1/3 ^ *", "0" },
  { "0 1/2 ^", "0" },
  { "2 1/64 ^ 64 ^", "2" },
  { "1 2 sqrt + 32 ^ 1 2 sqrt - 32 ^ *", "1" },
  { "9/2 sqrt sin 3 2 sqrt * 2 / sin -", "0" },
  { "3/4 atan 2 / sin 7 pi * + 3/4 atan 2 / sin 7 pi * + -", "0" },
  { "2 1/3 ^ 4 1/3 ^ *", "2" },
  { "2 2/3 ^ 4 1/3 ^ -", "0" },
  { "2 1/3 ^ 1000 ^ 2 1000/3 ^ -", "0" },
  { "40 sin 50 cos -", "0" },
  { "40 sin 140 sin -", "0" },
  { "2 1/3 ^ neg 2 1/3 ^ *  2 2/3 ^ +", "0" },
  { "2 1/3 ^ 1 sin neg * 2 1/3 ^ 1 sin * +", "0" },
  { "2 1/3 ^ 1 sin neg / 2 1/3 ^ neg 1 sin / -", "0" },
  { "2 1/3 ^ neg 1 sin + 1 sin 2 1/3 ^ - -", "0" },
  { "40 sin 320 sin +", "0" },
  { "40 sin 220 sin + 40 cos 140 cos + -", "0" },
  { "40 tan 220 tan / 140 tan 40 tan / +", "0" },
  { "-1/7 sin 1/7 sin / 361/7 cos 2159/7 cos / +", "0" },
  { "3/5 asin cos", "4/5" },
  { "3/5 asin tan", "3/4" },
  { "3/4 atan sin", "3/5" },
  { "3/4 atan cos", "4/5" },
  { "3/4 atan tan", "3/4" },
  { "3/5 asin sin", "3/5" },
  /* What no lane finds, and proof does.  */
  { "7 50 sqrt + 1/3 ^ 2 sqrt -", "1" },
  { "-8 1/3 ^", "-2" }, { "-8 -2/3 ^", "1/4" }, { "-8 5/3 ^", "-32" },
  { "2 5 sqrt + 1/3 ^ 2 5 sqrt - 1/3 ^ +", "1" },
  { "20 cos 40 cos * 80 cos *", "1/8" },
  { "1/2 atan 1/3 atan +", "45" }, { "1/5 atan 4 * 1/239 atan -", "45" }, { "20 tan atan", "20" },
  { "1/2 atan 2 * sin", "4/5" }, { "1/2 atan 3 / 3 * cos dup *", "4/5" }, { "3/5 asin 4/5 asin +", "90" },
  { "2 pi + 4 2 pi * + /", "1/2" }, { "pi dup * 2 pi * + 1 + sqrt pi -", "1" },
  { "1/2 atan 2 sqrt + 1/3 atan 2 sqrt - +", "45" }
};

static void
test_rational_results (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rational_results); i++)
    check_rational (rational_results[i].words, rational_results[i].right);
}

/* Sums that stay exact past 64 bits and past one term, against the same value written otherwise.  */
static void
test_equal_ways (void **state)
{
  static const struct { const char *one, *other; } table[] =
  {
    { "15 sin", "6 sqrt 2 sqrt - 4 /" },
    { "75 tan", "2 3 sqrt +" },
    { "2 3/2 ^", "8 sqrt" },
    { "1/2 sqrt", "2 sqrt 2 /" },
    { "50 sqrt 18 sqrt +", "8 2 sqrt *" },
    { "2 sqrt 3 sqrt * 5 sqrt *", "30 sqrt" },
    { "30 tan", "1 3 sqrt /" },
    { "1 2 sqrt 3 sqrt + /", "3 sqrt 2 sqrt -" },
    { "1 pi pi 2 sqrt * + /", "2 sqrt 1 - pi /" },
    { "2 pi * 3 ^", "8 pi 3 ^ *" },
    { "10000000000000000000000000000 2 * sqrt", "100000000000000 2 sqrt *" }
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      br_real x = real_of (table[i].one), y = real_of (table[i].other);
      int order = 9;

      assert_null (br_real_rational (&x));
      check_ok (br_real_cmp (&order, &x, &y, 0));
      if (order != 0)
        fail_msg ("%s is not %s", table[i].one, table[i].other);
      check_ok (br_real_sub (&x, &x, &y));
      check_is (br_real_rational (&x), "0");
      br_real_clear (&x);
      br_real_clear (&y);
    }
}

/* The order of a rational and what is not, either way round, in each lane.  */
static void
test_order (void **state)
{
  static const char *const rising[] = { "-3/2", "2 sqrt neg", "0", "1/3", "1 sin 30 *", "1", "2 1/3 ^", "2 sqrt", "3/2",
                                        "3", "pi" };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rising); i++)
    for (size_t j = 0; j < CHECK_COUNT (rising); j++)
      {
        br_real x = real_of (rising[i]), y = real_of (rising[j]);
        int order = 9;

        check_ok (br_real_cmp (&order, &x, &y, 0));
        assert_int_equal (order, (i > j) - (i < j));
        br_real_clear (&x);
        br_real_clear (&y);
      }
}

/* A root a hair over a whole number is told from it by squares, which takes no bits.  */
static void
test_order_by_squares (void **state)
{
  br_real x = real_of ("1000000000000000000000000000000000000000000000000000000000001 sqrt"), y = BR_REAL_ZERO;
  br_number whole = BR_NUMBER_ZERO;
  int order = 9;

  (void) state;
  check_set (&whole, "1000000000000000000000000000000");
  check_ok (br_real_set_number (&y, &whole));
  check_ok (br_real_cmp (&order, &x, &y, 32));
  assert_int_equal (order, 1);
  check_ok (br_real_cmp (&order, &y, &x, 32));
  assert_int_equal (order, -1);
  br_real_clear (&x);
  br_real_clear (&y);
  br_number_clear (&whole);
}

/* Formulas that differ in one place only are told apart, and so are deep ones, which are not compared to
   their ends.  */
static void
test_not_the_same (void **state)
{
  static const char *const words[] =
  {
    "2 1/3 ^ 3 1/3 ^ -", "2 1/3 ^ 2 1/4 ^ -", "1 sin 1 tan -", "2 sqrt sin 3 sqrt sin -",
    "2 sqrt sin 2 sqrt neg sin -",
    "1 sin 2 sin - 1 sin 3 sin - -", "1 sin 2 sin - 2 sin 1 sin - -", "pi sin pi 2 ^ sin -",
    "41 sin 50 cos -", "40 sin 219 sin +"
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    {
      br_real x = real_of (words[i]);
      int sign = 0;

      check_ok (br_real_sign (&sign, &x, 0));
      assert_int_not_equal (sign, 0);
      br_real_clear (&x);
    }
  br_real x = real_of ("2 1/3 ^"), y = real_of ("2 1/3 ^"), step = real_of ("1 sin");
  for (int i = 0; i < 3000; i++)
    {
      check_ok (br_real_add (&x, &x, &step));
      check_ok (br_real_add (&y, &y, &step));
    }
  assert_int_equal (br__real_same (&x, &y), 0);
  assert_int_equal (br__real_same (&x, &x), 1);
  br_real_clear (&x);
  br_real_clear (&y);
  br_real_clear (&step);
}

static void
test_not_rational (void **state)
{
  static const char *const words[] =
  {
    "2 sqrt", "pi", "1/2 sqrt", "2 sqrt 3 sqrt +", "pi 2 ^", "2 sqrt pi *", "2 1/3 ^", "1 sin",
    "22 pi 7 * -",
    "170141183460469231731687303715884105728 sqrt"
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    {
      br_real x = real_of (words[i]);

      if (br_real_rational (&x) != NULL)
        fail_msg ("%s is taken for a rational", words[i]);
      br_real_clear (&x);
    }
}

/* ---- Angles ---- */

/* Niven's theorem (I. Niven, Irrational Numbers, 1956, corollary 3.12, from memory): of the sines of
   rational degrees only 0, 1/2 and 1, with either sign, are rational; of the tangents 0 and 1.  */
static void
test_niven (void **state)
{
  /* At 0, 30, 60 ... degrees.  */
  static const char *const sines[] =
  {
    "0", "1/2", NULL, "1", NULL, "1/2", "0", "-1/2", NULL, "-1", NULL, "-1/2"
  };
  char words[64];

  (void) state;
  for (int i = -720; i <= 720; i++)
    {
      int turn = ((i % 360) + 360) % 360, cosine = (turn + 90) % 360;
      const char *right = turn % 30 == 0 ? sines[turn / 30] : NULL;
      const char *across = cosine % 30 == 0 ? sines[cosine / 30] : NULL;
      br_real x = BR_REAL_ZERO;

      snprintf (words, sizeof words, "%d sin", i);
      x = real_of (words);
      assert_int_equal (br_real_rational (&x) != NULL, right != NULL);
      if (right != NULL)
        check_is (br_real_rational (&x), right);
      br_real_clear (&x);
      snprintf (words, sizeof words, "%d cos", i);
      x = real_of (words);
      assert_int_equal (br_real_rational (&x) != NULL, across != NULL);
      if (across != NULL)
        check_is (br_real_rational (&x), across);
      br_real_clear (&x);
      snprintf (words, sizeof words, "%d tan", i);
      if (turn % 180 == 90)
        {
          check_status (words, BR_DOMAIN);
          continue;
        }
      x = real_of (words);
      assert_int_equal (br_real_rational (&x) != NULL, turn % 45 == 0);
      if (turn % 45 == 0)
        check_is (br_real_rational (&x), turn % 180 == 0 ? "0" : turn % 180 == 45 ? "1" : "-1");
      br_real_clear (&x);
    }
}

static void
test_angles (void **state)
{
  (void) state;
  /* Arcs of the table, and back.  */
  for (int i = -90; i <= 90; i += 15)
    {
      char words[64], right[16];

      snprintf (right, sizeof right, "%d", i);
      snprintf (words, sizeof words, "%d sin asin", i);
      check_rational (words, right);
      snprintf (words, sizeof words, "%d tan atan", i);
      if (i > -90 && i < 90)
        check_rational (words, right);
    }
  check_rational ("3 sqrt atan", "60");
  check_rational ("1 3 sqrt / neg atan", "-30");
  check_rational ("3 sqrt 2 / asin", "60");
  /* Whole turns are taken off exactly: 10^40 is 280 more than a multiple of 360.  */
  check_rational ("10000000000000000000000000000000000000110 sin", "1/2");
  check_rational ("-360000000000000000000000000000000000000315 tan", "1");
  check_digits ("360000000000000000000000000000000000000000000001 sin 1 sin + 2 /", 12, "0.0174524064373");
  check_digits ("1 1000000000000000000000000000000000000000000 2 sqrt * sin dup * -"
                " 1000000000000000000000000000000000000000000 2 sqrt * cos dup * -  1 +", 6, "1");
}

/* ---- What is refused ---- */

static void
test_domain (void **state)
{
  static const char *const words[] =
  {
    "-1 sqrt", "0 2 sqrt neg + sqrt", "2 sqrt 3 sqrt - sqrt", "-8 1/4 ^", "-8 -3/2 ^", "0 -1/2 ^", "0 -1 ^", "0 0 /",
    "2 sqrt 0 /", "1 2 sqrt 2 sqrt - /", "2 1/65 ^", "90 tan", "-270 tan", "2 asin", "-1001/1000 asin",
    "2 sqrt asin", "1 pi - sqrt", "2 1/3 ^ 2 - sqrt", "2 1/3 ^ asin",
    "1 5 24 sqrt + sqrt 2 sqrt - 3 sqrt - /", "1 20 sin 10 sin 10 cos * 2 * - /",
    "7 50 sqrt + 1/3 ^ 1 - 2 sqrt - -1 ^", "7 50 sqrt + 1/3 ^ 89 + 2 sqrt - tan"
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    check_status (words[i], BR_DOMAIN);
}

/* Nothing is guessed of what is never told from zero, and the question is kept.  */
static void
test_undecided (void **state)
{
  static const char *const words[] =
  {
    OPEN_ZERO " abs", "1 " OPEN_ZERO " /", OPEN_ZERO " sqrt", OPEN_ZERO " 1/2 ^",
    OPEN_ZERO " -1 ^",
    OPEN_ZERO " 90 + tan", OPEN_ZERO " 1 + asin"
  };
  br_real x = real_of (OPEN_ZERO), y = BR_REAL_ZERO;
  br_number step = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  int sign = 9, tie = 9, whole = 9;
  char text[40] = "as it was";

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    check_status (words[i], BR_UNDECIDED);
  assert_null (br_real_rational (&x));
  check_is (br_real_question (&x, NULL), "0");
  assert_null (br_real_question (&y, NULL));
  check_set (&step, "1/16");
  assert_int_equal (br_real_sign (&sign, &x, 0), BR_UNDECIDED);
  assert_int_equal (br_real_cmp (&sign, &x, &y, 500), BR_UNDECIDED);
  assert_int_equal (br_real_round (&mark, &tie, &x, &step, BR_UP, BR_TIES_UP, 0), BR_UNDECIDED);
  assert_int_equal (br_real_write_decimal (text, sizeof text, &whole, &x, 12, 0, &status), SIZE_MAX);
  assert_int_equal (status, BR_UNDECIDED);
  assert_int_equal (br_real_write_decimal (text, sizeof text, NULL, &x, 12, 0, NULL), SIZE_MAX);
  assert_true (sign == 9 && tie == 9 && whole == 9);
  assert_string_equal (text, "as it was");
  check_is (&mark, "0");
  /* The nearest mark is certain all the same: no half mark is near.  */
  check_ok (br_real_round (&mark, &tie, &x, &step, BR_NEAREST, BR_TIES_UP, 0));
  check_is (&mark, "0");
  assert_int_equal (tie, 0);
  br_real_clear (&x);
  br_number_clear (&step);
  br_number_clear (&mark);
}

static void
test_too_big (void **state)
{
  static const char *const words[] =
  {
    "2 sqrt 1000001 ^ 2 sqrt 1000001 ^ * 1000 ^", "2 1/3 ^ 1000001 ^", "2 1/3 ^ -1000001 ^",
    "2 1/3 ^ 123456789012345678901234567890 ^",
    "2 1000001 ^", "2 2000001/2 ^", "pi 1000000 ^ 1000000 ^ abs", "2 1/3 ^ 1000000 ^ 1000000 ^ abs"
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    check_status (words[i], BR_TOO_BIG);
  check_status ("2 1/3 ^ 1000000 ^ dup dup * sqrt / 1 - 1/2 ^", BR_UNDECIDED);
}

/* ---- Past the limits of the exact lane ---- */

/* More than BR__TERMS roots of distinct primes, added and taken off again: too many for a sum of terms, so
   that the answer is one of enclosures.  */
static void
test_many_terms (void **state)
{
  static const int primes[] = { 2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61 };
  br_real sum = BR_REAL_ZERO, root = BR_REAL_ZERO;
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (primes); i++)
    {
      check_ok (br__real_set_ratio (&root, primes[i], 1));
      check_ok (br_real_sqrt (&root, &root, 0));
      check_ok (br_real_add (&sum, &sum, &root));
      assert_int_equal (sum.node->op == BR__REAL_SUM, i < BR__TERMS);
    }
  for (size_t i = 0; i < CHECK_COUNT (primes); i++)
    {
      check_ok (br__real_set_ratio (&root, primes[i], 1));
      check_ok (br_real_sqrt (&root, &root, 0));
      check_ok (br_real_sub (&sum, &sum, &root));
    }
  check_ok (br_real_enclose (&low, &high, &sum, 200));
  assert_true (br_number_sign (&low) <= 0 && br_number_sign (&high) >= 0);
  br_real_clear (&sum);
  br_real_clear (&root);
  br_number_clear (&low);
  br_number_clear (&high);
}

/* Powers of pi up to the 1,000th are terms, on both sides of one; those past it are formulas.  */
static void
test_powers_of_pi (void **state)
{
  static const struct { const char *words; int is_sum; } table[] =
  {
    { "pi 1000 ^", 1 }, { "pi 1001 ^", 0 }, { "pi -1000 ^", 1 }, { "pi -1001 ^", 0 }
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      br_real x = real_of (table[i].words);

      assert_int_equal (x.node->op == BR__REAL_SUM, table[i].is_sum);
      br_real_clear (&x);
    }
  check_digits ("pi 1001 ^ pi 1000 ^ /", 12, "3.14159265359");
  check_digits ("pi -1001 ^ pi 1000 ^ *", 12, "0.318309886184");
}

/* A root of a number of 4,096 bits is a term; one of more is a formula, and right as well.  */
static void
test_long_roots (void **state)
{
  (void) state;
  for (int bits = BR__ROOT_BITS - 2; bits <= BR__ROOT_BITS + 2; bits++)
    {
      br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
      br_number n = BR_NUMBER_ZERO, one = BR_NUMBER_ZERO;
      int order = 9;

      check_ok (br_number_set_int (&n, 2));
      check_ok (br_number_set_int (&one, 1));
      check_ok (br_number_pow (&n, &n, bits));
      check_ok (br_number_sub (&n, &n, &one));
      check_ok (br_real_set_number (&x, &n));
      check_ok (br_real_set (&y, &x));
      check_ok (br_real_sqrt (&x, &x, 0));
      assert_int_equal (x.node->op == BR__REAL_SUM, bits <= BR__ROOT_BITS);
      check_ok (br_real_cmp (&order, &x, &y, 0));
      assert_int_equal (order, -1);
      check_ok (br_real_mul (&x, &x, &x));
      check_ok (br_real_sub (&x, &x, &y));
      check_is (br_real_rational (&x), "0");
      br_real_clear (&x);
      br_real_clear (&y);
      br_number_clear (&n);
      br_number_clear (&one);
    }
}

/* Cube roots of numbers up to as many bits are multiplied under one root, on both sides of the limit.  */
static void
test_long_cubes (void **state)
{
  (void) state;
  for (int bits = BR__ROOT_BITS - 1; bits <= BR__ROOT_BITS + 1; bits++)
    {
      br_real x = BR_REAL_ZERO;
      br_number n = BR_NUMBER_ZERO, third = BR_NUMBER_ZERO;

      check_set (&third, "1/3");
      check_set (&n, "2");
      check_ok (br_number_pow (&n, &n, bits - 1));
      check_set (&x.rational, "1");
      check_ok (br_number_add (&x.rational, &x.rational, &n));
      check_ok (br_real_pow (&x, &x, &third, 0));
      check_ok (br_real_mul (&x, &x, &x));
      assert_int_equal (x.node->op == BR__REAL_ROOT, bits <= BR__ROOT_BITS);
      br_real_clear (&x);
      br_number_clear (&n);
    }
}

/* What is moved leaves nothing behind, and a value set to itself is the same.  */
static void
test_moved (void **state)
{
  br_real x = real_of ("2 sqrt"), y = real_of ("1 sin");

  (void) state;
  br__real_move (&y, &x);
  assert_true (br__real_is_int (&x, 0));
  check_ok (br_real_set (&y, &y));
  check_ok (br_real_mul (&y, &y, &y));
  check_is (br_real_rational (&y), "2");
  br__real_move (&x, &y);
  check_is (br_real_rational (&x), "2");
  assert_true (br__real_is_int (&y, 0));
}

/* ---- Digits ---- */

/* Squares of two digits and a half and their like, from memory: a value that comes up to a power of ten, one that
   stays under it, one a little over, and no digits at all, which is one.  Two digits are certain where three are not.  */
static void
test_few_digits (void **state)
{
  static const struct { const char *words; unsigned digits; const char *right; } table[] =
  {
    { "2 sqrt", 0, "1" }, { "2 sqrt", 1, "1" }, { "3 sqrt", 1, "2" }, { "547/5 sqrt", 2, "10" }, { "494/5 sqrt", 2, "9.9" },
    { "499/5 sqrt", 2, "10" }, { "99999/1000 sqrt", 3, "10" }, { "100001/1000 sqrt", 6, "10" },
    { "100001/1000 sqrt", 7, "10.00005" }, { "547/5 sqrt neg", 2, "-10" }, { "9/1000001 sqrt", 6, "0.003" }
  };
  br_real x = real_of ("269/200 pi 1/1000000000000000000000000000000000000000000000000000000000000 * +");
  br_status status = BR_OK;
  char text[40];

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    check_digits (table[i].words, table[i].digits, table[i].right);
  br_real_write_decimal (text, sizeof text, NULL, &x, 2, 100, &status);
  check_ok (status);
  assert_string_equal (text, "1.3");
  assert_int_equal (br_real_write_decimal (text, sizeof text, NULL, &x, 3, 100, &status), SIZE_MAX);
  assert_int_equal (status, BR_UNDECIDED);
  br_real_clear (&x);
}

/* ---- Printed values ---- */

static void
test_printed (void **state)
{
  check_data data;

  (void) state;
  check_open (&data, "real_values.txt", ';');
  while (check_next (&data))
    {
      assert_int_equal (data.fields, 4);
      check_digits (data.field[0], (unsigned) strtoul (data.field[1], NULL, 10), data.field[2]);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_rational_results),
    CHECK_TEST (test_equal_ways),
    CHECK_TEST (test_order),
    CHECK_TEST (test_order_by_squares),
    CHECK_TEST (test_not_the_same),
    CHECK_TEST (test_not_rational),
    CHECK_TEST (test_niven),
    CHECK_TEST (test_angles),
    CHECK_TEST (test_domain),
    CHECK_TEST (test_undecided),
    CHECK_TEST (test_too_big),
    CHECK_TEST (test_many_terms),
    CHECK_TEST (test_powers_of_pi),
    CHECK_TEST (test_long_roots),
    CHECK_TEST (test_long_cubes),
    CHECK_TEST (test_moved),
    CHECK_TEST (test_few_digits),
    CHECK_TEST (test_printed)
  };

  return CHECK_RUN (tests);
}
