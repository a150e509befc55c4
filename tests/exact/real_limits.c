/* SPDX-License-Identifier: GPL-3.0-or-later
   real_limits.c - real values at their limits: MPFR's state is the caller's, memory runs out, formulas
   are deep or shared, arguments are one object, threads do not see each other.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <pthread.h>
#include <time.h>

#include "exact/real_check.h"

/* ---- MPFR's state ---- */

static void
test_mpfr_state (void **state)
{
  const mpfr_exp_t emin = mpfr_get_emin (), emax = mpfr_get_emax ();
  const mpfr_prec_t precision = mpfr_get_default_prec ();

  (void) state;
  for (int i = 0; i < 2; i++)
    {
      /* A range in which none of our values could be held, and two patterns of flags.  */
      mpfr_flags_t flags = i == 0 ? MPFR_FLAGS_UNDERFLOW | MPFR_FLAGS_ERANGE
                                  : MPFR_FLAGS_INEXACT | MPFR_FLAGS_NAN;
      mpfr_flags_t before;

      mpfr_set_emin (-3);
      mpfr_set_emax (3);
      mpfr_flags_clear (MPFR_FLAGS_ALL);
      mpfr_flags_set (flags);
      before = mpfr_flags_save ();
      check_digits ("1000000 3 1/3 ^ *", 20, "1442249.5703074083823");
      check_digits ("1 1000000 / 1 sin * 89 tan *", 20, "0.00000099984769515639123916");
      check_status (OPEN_ZERO " abs", BR_UNDECIDED);
      check_rational ("7 50 sqrt + 1/3 ^ 2 sqrt -", "1");
      check_status ("pi 1000000 ^ 1000000 ^ abs", BR_TOO_BIG);
      assert_int_equal (mpfr_flags_save (), before);
      assert_int_equal (mpfr_get_emin (), -3);
      assert_int_equal (mpfr_get_emax (), 3);
      mpfr_set_emin (emin);
      mpfr_set_emax (emax);
    }
  assert_int_equal (mpfr_get_default_prec (), precision);
}

/* b = (10^90 + 1)^(1/3) - 10^30 is about 3 * 10^-61: at 80 bits it may be zero, 1 / b is the whole line,
   and so is what is made of it.  At more bits each has its value: the answers are right, and at few bits
   there is none.  */
#define SMALL "1000000000000000000000000000000000000000000000000000000000000000000000000000000000000000001" \
              " 1/3 ^ 1000000000000000000000000000000 -"

static void
test_whole_line (void **state)
{
  br_real x = real_of ("1 " SMALL " / 1 " SMALL " 2 * / -");
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  char text[100];

  (void) state;
  assert_int_equal (br_real_enclose (&low, &high, &x, 64), BR_UNDECIDED);
  /* 1 / b - 1 / 2b = 1 / 2b = 1.5 * 10^60 and a little.  */
  br_real_write_decimal (text, sizeof text, NULL, &x, 12, 0, &status);
  check_ok (status);
  assert_string_equal (text, "1500000000000000000000000000000000000000000000000000000000000");
  /* sqrt (b) / b, at 80 bits an end at zero times the whole line: 1 / sqrt (b) = sqrt (3) * 10^30.  */
  check_digits (SMALL " 1/2 ^ 1 " SMALL " / *", 12, "1732050807570000000000000000000");
  check_digits ("1 " SMALL " 1/2 ^ 1 " SMALL " / * /", 12, "0.00000000000000000000000000000057735026919");
  check_digits ("1 " SMALL " / sin 1 " SMALL " / cos dup * swap dup * + 1 + ", 10, "2");
  br_real_clear (&x);
}

/* Formulas without a value, which no public function makes: where MPFR answers NaN, nothing is known.  */
static void
test_no_value (void **state)
{
  static const struct { br__real_op op; int n; } table[] =
  {
    { BR__REAL_ROOT, -1 }, { BR__REAL_ASIN, 2 }, { BR__REAL_ASIN, -2 }
  };
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  int sign = 9;

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      br_real n = BR_REAL_ZERO, x = BR_REAL_ZERO;

      check_ok (br__real_set_ratio (&n, table[i].n, 1));
      check_ok (br__real_formula (&x, table[i].op, &n, NULL, 2));
      assert_int_equal (br_real_enclose (&low, &high, &x, 64), BR_UNDECIDED);
      assert_int_equal (br_real_sign (&sign, &x, 0), BR_UNDECIDED);
      br_real_clear (&x);
    }
}

/* TINY, (7 + 10^-60)^(1/3) - 7^(1/3), is about 10^-61 and at 64 bits may lie under zero.  What is known
   of an operand cuts its ends: of a root they are not under zero, of an arc sine inside -1..1, so that
   both have ends at once.  */
#define TINY "7000000000000000000000000000000000000000000000000000000000001/" \
             "1000000000000000000000000000000000000000000000000000000000000 1/3 ^ 7 1/3 ^ -"

static void
test_cut (void **state)
{
  static const struct { const char *words; int low, high; } table[] =
  {
    { TINY " sqrt", 0, 1 }, { TINY " 1/4 ^", 0, 1 },
    { "1 " TINY " - asin", 89, 90 }, { TINY " 1 - asin", -90, -89 }
  };
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO, bound = BR_NUMBER_ZERO;

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (table); i++)
    {
      br_real x = real_of (table[i].words);

      check_ok (br_real_enclose (&low, &high, &x, 64));
      /* 90 degrees over pi times pi have an end a hair over 90.  */
      check_ok (br_number_set_ratio (&bound, table[i].low * 1000000 - 1, 1000000));
      assert_true (br_number_cmp (&low, &bound) >= 0);
      check_ok (br_number_set_ratio (&bound, table[i].high * 1000000 + 1, 1000000));
      assert_true (br_number_cmp (&high, &bound) <= 0);
      br_real_clear (&x);
    }
  br_number_clear (&low);
  br_number_clear (&high);
}

/* Values at BR_MAX_BITS on both sides of one: 1.26 * 2^999999 has so many bits, and twice that one more; nearer to zero than
   2^-1000000 an end is zero or 2^-999999, so that the value lies between still.  */
static void
test_ends_at_limit (void **state)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO, least = BR_NUMBER_ZERO;
  br_real x = real_of ("2 -999999 ^ 2 1/3 ^ * 1/4 *");

  (void) state;
  check_set (&least, "2");
  check_ok (br_number_pow (&least, &least, 1 - BR_MAX_BITS));
  check_ok (br_real_enclose (&low, &high, &x, 64));
  assert_true (br_number_sign (&low) == 0 && br_number_equal (&high, &least));
  check_ok (br_real_neg (&x, &x));
  check_ok (br_real_enclose (&low, &high, &x, 64));
  check_ok (br_number_neg (&least, &least));
  assert_true (br_number_equal (&low, &least) && br_number_sign (&high) == 0);
  br_real_clear (&x);
  br_number_clear (&low);
  br_number_clear (&high);
  br_number_clear (&least);
  x = real_of ("2 999999 ^ 2 1/3 ^ * abs");
  br_real_clear (&x);
  check_status ("2 999999 ^ 2 1/3 ^ * 2 * abs", BR_TOO_BIG);
  check_status ("2 999999 ^ 2 1/3 ^ * 2 * neg abs", BR_TOO_BIG);
  /* The sign of one term is that of its rational part, however large or small the whole is.  */
  x = real_of ("2 999999 ^ pi * abs 2 -999999 ^ pi 9 ^ / neg abs *");
  br_real_clear (&x);
}

/* What takes more than the fewest bits, inside an arc and at the last exponent there is: there is an answer.  */
static void
test_many_bits (void **state)
{
  static const char *const words[] =
  {
    "1 7 1/3 ^ 1000000000000000000000000000000 / - asin tan", "1 7 1/3 ^ 1000000000000000000000000000000 / - asin cos",
    "1 " SMALL " / atan sin", "1 " SMALL " / atan cos", "2 1/3 ^ 1000000 ^", "2 1/3 ^ -1000000 ^"
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    {
      br_real x = real_of (words[i]);
      int sign = 9;

      check_ok (br_real_sign (&sign, &x, 0));
      assert_int_equal (sign, 1);
      br_real_clear (&x);
    }
}

/* Where the last bit of an angle is a degree, its sine is still told from 1 and -1; where it is two, not.  */
static void
test_coarse_angle (void **state)
{
  (void) state;
  for (int bits = 71; bits <= 73; bits++)
    {
      br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
      br_real x;
      char words[40];
      int64_t n = 0, d = 0;

      snprintf (words, sizeof words, "2 %d ^ 2 1/3 ^ * sin", bits - 1);
      x = real_of (words);
      check_ok (br_real_enclose (&low, &high, &x, 64));
      assert_int_equal (br_number_get_ratio (&n, &d, &low) && n == -1 && d == 1
                        && br_number_get_ratio (&n, &d, &high) && n == 1 && d == 1, bits > 72);
      br_real_clear (&x);
      br_number_clear (&low);
      br_number_clear (&high);
    }
}

/* An angle of 900,000 bits that is not known to a turn: no answer, and none of the seconds that reducing it
   would take.  */
static void
test_huge_angle (void **state)
{
  (void) state;
  check_status ("2 900000 ^ 2 1/3 ^ * sin abs", BR_UNDECIDED);
  check_status ("2 900000 ^ 2 1/3 ^ * tan", BR_UNDECIDED);
}

/* ---- Deep and shared formulas ---- */

#define DEEP 100000

/* 100,000 cube roots of 2, 3, 4 ..., every other one taken off: as deep as it is long.  The right mark is
   from plain MPFR, which loses less than 2^-150 in so many steps at 200 bits.  */
static void
test_deep (void **state)
{
  br_real sum = BR_REAL_ZERO, root = BR_REAL_ZERO, one = BR_REAL_ZERO;
  br_number third = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  mpfr_t twin, part;
  char right[40];

  (void) state;
  mpfr_inits2 (200, twin, part, NULL);
  mpfr_set_zero (twin, 1);
  check_set (&third, "1/3");
  check_set (&step, "1/64");
  for (int i = 0; i < DEEP; i++)
    {
      check_ok (br__real_set_ratio (&root, i + 2, 1));
      check_ok (br_real_pow (&root, &root, &third, 0));
      check_ok (i % 2 == 0 ? br_real_add (&sum, &sum, &root) : br_real_sub (&sum, &sum, &root));
      mpfr_set_ui (part, (unsigned long) i + 2, MPFR_RNDN);
      mpfr_cbrt (part, part, MPFR_RNDN);
      (i % 2 == 0 ? mpfr_add : mpfr_sub) (twin, twin, part, MPFR_RNDN);
    }
  check_ok (br_real_round (&mark, NULL, &sum, &step, BR_NEAREST, BR_TIES_UP, 0));
  /* Longer enclosures inside the chain are let go as soon as they were used.  */
  for (br_real_node *node = sum.node->left.node; node != NULL; node = node->left.node)
    assert_true (node->precision <= BR__FIRST_BITS);
  /* x / (x + 1) + 1 / (x + 1) is one, and too deep for a proof.  */
  check_ok (br__real_set_ratio (&one, 1, 1));
  check_ok (br_real_add (&root, &sum, &one));
  check_ok (br_real_div (&one, &one, &root, 0));
  check_ok (br_real_div (&root, &sum, &root, 0));
  check_ok (br_real_add (&root, &root, &one));
  assert_null (br_real_rational (&root));
  check_is (br_real_question (&root, NULL), "1");
  mpfr_mul_ui (twin, twin, 64, MPFR_RNDN);
  snprintf (right, sizeof right, "%ld/64", mpfr_get_si (twin, MPFR_RNDN));
  check_ok (br_number_read (&step, right, strlen (right), NULL));
  assert_true (br_number_equal (&mark, &step));
  br_real_clear (&sum);
  br_real_clear (&root);
  br_real_clear (&one);
  br_number_clear (&mark);
  mpfr_clears (twin, part, NULL);
}

/* x = x + x, 3,000 times over: 2^3000 ways from the top to the bottom, each node asked once.  */
static void
test_shared (void **state)
{
  br_real x = real_of ("2 1/3 ^"), y = BR_REAL_ZERO;
  br_number two = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  char text[40];

  (void) state;
  for (int i = 0; i < 3000; i++)
    check_ok (br_real_add (&x, &x, &x));
  check_set (&two, "2");
  check_ok (br_number_pow (&two, &two, 3000));
  check_ok (br_real_set_number (&y, &two));
  check_ok (br_real_div (&x, &x, &y, 0));
  br_real_write_decimal (text, sizeof text, NULL, &x, 31, 0, &status);
  check_ok (status);
  assert_string_equal (text, "1.259921049894873164767210607278");
  br_real_clear (&x);
  br_real_clear (&y);
  br_number_clear (&two);
}

/* 300 sines inside each other, made twice: one value, found to be one at once, and digits of it in time.  */
static void
test_nested (void **state)
{
  br_real x[2] = { real_of ("301/10"), real_of ("301/10") }, factor = real_of ("80");
  const clock_t begin = clock ();
  br_status status = BR_OK;
  int order = 9;
  char text[700];

  (void) state;
  for (int i = 0; i < 300; i++)
    for (int j = 0; j < 2; j++)
      {
        check_ok (br_real_sin (&x[j], &x[j]));
        check_ok (br_real_mul (&x[j], &x[j], &factor));
      }
  br_real_write_decimal (text, sizeof text, NULL, &x[0], 500, 0, &status);
  check_ok (status);
  check_ok (br_real_cmp (&order, &x[0], &x[1], 0));
  assert_int_equal (order, 0);
  assert_true ((double) (clock () - begin) / CLOCKS_PER_SEC < (check_watched () ? 150 : 5));
  br_real_clear (&x[0]);
  br_real_clear (&x[1]);
  br_real_clear (&factor);
}

/* What is asked first does not change what is answered later, a value being a formula and not its ends.  */
static void
test_no_memory_of_questions (void **state)
{
  br_real x = real_of ("2 1/3 ^ 1 sin +");
  br_number low[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO }, high[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO };
  int sign;

  (void) state;
  check_ok (br_real_enclose (&low[0], &high[0], &x, 64));
  check_ok (br_real_enclose (&low[1], &high[1], &x, 4096));
  assert_true (br_number_cmp (&low[0], &low[1]) < 0 && br_number_cmp (&high[1], &high[0]) < 0);
  check_ok (br_real_sign (&sign, &x, 0));
  check_ok (br_real_enclose (&low[1], &high[1], &x, 64));
  assert_true (br_number_equal (&low[0], &low[1]) && br_number_equal (&high[1], &high[0]));
  br_real_clear (&x);
  for (int i = 0; i < 2; i++)
    {
      br_number_clear (&low[i]);
      br_number_clear (&high[i]);
    }
}

/* ---- Precision limits ---- */

static void
test_bits (void **state)
{
  static const unsigned bits[] = { 1, 2, 31, 32, 33, 64, 4095, 4096, 65536 };
  br_real x = real_of ("2 1/3 ^");
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO, two = BR_NUMBER_ZERO;

  (void) state;
  check_set (&two, "2");
  for (size_t i = 0; i < CHECK_COUNT (bits); i++)
    {
      check_ok (br_real_enclose (&low, &high, &x, bits[i]));
      assert_true (br_number_cmp (&low, &high) < 0);
      assert_true (br__number_bits (&low) >= bits[i] / 2 && br__number_bits (&low) <= bits[i] + 64);
      check_ok (br_number_pow (&low, &low, 3));
      check_ok (br_number_pow (&high, &high, 3));
      assert_true (br_number_cmp (&low, &two) < 0 && br_number_cmp (&two, &high) < 0);
    }
  br_real_clear (&x);
  br_number_clear (&low);
  br_number_clear (&high);
}

/* ---- One object in several places ---- */

typedef br_status binary (br_real *z, const br_real *x, const br_real *y);

static br_status
divide (br_real *z, const br_real *x, const br_real *y)
{
  return br_real_div (z, x, y, 0);
}

static void
test_alias (void **state)
{
  static binary *const operations[] = { br_real_add, br_real_sub, br_real_mul, divide };
  static const char *const words[] =
  {
    "3/8", "2 sqrt", "pi 2 sqrt +", "2 1/3 ^", "1 sin pi *", "123456789012345678901234567891/7"
  };

  (void) state;
  for (size_t o = 0; o < CHECK_COUNT (operations); o++)
    for (size_t i = 0; i < CHECK_COUNT (words); i++)
      for (size_t j = 0; j < CHECK_COUNT (words); j++)
        for (int pattern = 0; pattern < (i == j ? 3 : 2); pattern++)
          {
            br_real x = real_of (words[i]), y = real_of (words[j]), z = BR_REAL_ZERO;
            br_real *target = pattern == 0 ? &x : &y;
            const br_real *right = &y, *left = pattern == 2 ? &y : &x;
            br_number low[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO };
            br_number high[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO };

            check_ok (operations[o] (&z, left, right));
            check_ok (operations[o] (target, left, right));
            check_ok (br_real_enclose (&low[0], &high[0], &z, 100));
            check_ok (br_real_enclose (&low[1], &high[1], target, 100));
            assert_true (br_number_equal (&low[0], &low[1]) && br_number_equal (&high[0], &high[1]));
            br_real_clear (&x);
            br_real_clear (&y);
            br_real_clear (&z);
            for (int k = 0; k < 2; k++)
              {
                br_number_clear (&low[k]);
                br_number_clear (&high[k]);
              }
          }
}

/* ---- Memory runs out ---- */

static const char *const memory_words[] =
{
  "2 sqrt", "2 sqrt 3 sqrt +", "2 sqrt 3 sqrt + pi *", "1 2 sqrt 3 sqrt + /", "5 24 sqrt + sqrt",
  "2 1/3 ^",
  "2 1/3 ^ 3 ^", "2 1/3 ^ 2 ^", "1 sin", "75 sin", "75 tan", "1 tan", "2 1/3 ^ tan", "1/3 atan",
  "1/3 asin", "75 sin asin", "1/3 asin cos",
  "1/3 atan sin", "2 sqrt 5 ^", "2 sqrt 3 sqrt + 5 ^", "2 1/3 ^ -2 ^", "2 1/3 ^ abs neg",
  "pi 2 1/3 ^ - abs",
  "123456789012345678901234567891/7 sqrt",
  "123456789012345678901234567891/7 1/3 ^ 98765432109876543210987654321 sqrt -",
  "2 1/3 ^ neg 1 sin *", "140 sin 220 tan /", "2 1/3 ^ 5 1/3 ^ *", "pi 4 ^ sqrt",
  "2 sqrt 1/3 ^ 2 sqrt *",
  "7 50 sqrt + 1/3 ^ 2 sqrt -", "1/2 atan 1/3 atan +", "20 cos 40 cos * 80 cos *", "2 pi + 4 2 pi * + /"
};

static void
test_memory_of_making (void **state)
{
  br_status status = BR_OK;

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (memory_words); i++)
    {
      br_real z = BR_REAL_ZERO;

      /* Whatever a refused run has made is given back, and Z is as it was.  */
      CHECK_EACH_REFUSAL (status,
                          {
                            status = real_run (&z, memory_words[i], 0);
                            if (status == BR_OK)
                              br_real_clear (&z);
                            assert_true (br__real_is_int (&z, 0));
                          }, 0);
    }
}

/* One request alone is refused, and those after it are not: that is not forgotten on the way.  */
static void
test_memory_refused_once (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (memory_words); i++)
    for (long nth = 0, refused = 1; refused; nth++)
      {
        br_real z = BR_REAL_ZERO;
        br_status status;

        check_memory_limit (nth);
        check_memory_once = 1;
        status = real_run (&z, memory_words[i], 0);
        refused = check_memory_refused;
        if (status != (refused ? BR_NO_MEMORY : BR_OK))
          fail_msg ("%s, allocation %ld: %s", memory_words[i], nth, br_status_name (status));
        br_real_clear (&z);
        assert_int_equal (check_memory_blocks, 0);
        check_memory_free ();
      }
}

static void
test_memory_of_asking (void **state)
{
  br_status status = BR_OK;
  br_number step = BR_NUMBER_ZERO;
  char text[200];

  (void) state;
  check_set (&step, "1/16");
  for (size_t i = 0; i < CHECK_COUNT (memory_words); i++)
    {
      br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
      br_real x = real_of (memory_words[i]), y = real_of ("3 1/3 ^");
      int sign = 9;

      CHECK_EACH_REFUSAL (status, status = br_real_sign (&sign, &x, 0), 0);
      CHECK_EACH_REFUSAL (status, status = br_real_cmp (&sign, &x, &y, 0), 0);
      CHECK_EACH_REFUSAL (status,
                          {
                            status = br_real_round (&mark, NULL, &x, &step, BR_NEAREST, BR_TIES_UP, 0);
                            br_number_clear (&mark);
                          }, 0);
      CHECK_EACH_REFUSAL (status,
                          {
                            status = br_real_enclose (&low, &high, &x, 100);
                            br_number_clear (&low);
                            br_number_clear (&high);
                          }, 0);
      CHECK_EACH_REFUSAL (status,
                          (void) br_real_write_decimal (text, sizeof text, NULL, &x, 30, 0, &status), 0);
      br_real_clear (&x);
      br_real_clear (&y);
    }
}

/* ---- Threads ---- */

typedef struct task
{
  unsigned bits, wrong, undecided;
} task;

/* Values of its own in each thread, one that 200 bits decide and one that takes 400.  */
static void *
work (void *argument)
{
  task *t = argument;

  for (int i = 0; i < 200; i++)
    {
      br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
      int sign = 9;
      br_status status = real_run (&x, SMALL, t->bits);

      if (status == BR_OK)
        status = br_real_sign (&sign, &x, t->bits);
      t->undecided += status == BR_UNDECIDED;
      t->wrong += status != BR_UNDECIDED && (status != BR_OK || sign != 1);
      status = real_run (&y, OPEN_ZERO, t->bits);
      if (status == BR_OK)
        status = br_real_sign (&sign, &y, t->bits);
      t->wrong += status != BR_UNDECIDED;
      br_real_clear (&x);
      br_real_clear (&y);
    }
  mpfr_free_cache ();
  return NULL;
}

static void
test_threads (void **state)
{
  task tasks[2] = { { 128, 0, 0 }, { 1024, 0, 0 } };
  pthread_t threads[2];

  (void) state;
  for (int i = 0; i < 2; i++)
    assert_int_equal (pthread_create (&threads[i], NULL, work, &tasks[i]), 0);
  for (int i = 0; i < 2; i++)
    assert_int_equal (pthread_join (threads[i], NULL), 0);
  assert_true (tasks[0].wrong == 0 && tasks[0].undecided == 200);
  assert_true (tasks[1].wrong == 0 && tasks[1].undecided == 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_mpfr_state),
    CHECK_TEST (test_whole_line),
    CHECK_TEST (test_no_value),
    CHECK_TEST (test_cut),
    CHECK_TEST (test_ends_at_limit),
    CHECK_TEST (test_many_bits),
    CHECK_TEST (test_coarse_angle),
    CHECK_TEST (test_huge_angle),
    CHECK_TEST (test_deep),
    CHECK_TEST (test_shared),
    CHECK_TEST (test_nested),
    CHECK_TEST (test_no_memory_of_questions),
    CHECK_TEST (test_bits),
    CHECK_TEST (test_alias),
    CHECK_TEST (test_memory_of_making),
    CHECK_TEST (test_memory_refused_once),
    CHECK_TEST (test_memory_of_asking),
    CHECK_TEST (test_threads)
  };

  return CHECK_RUN (tests);
}
