/* SPDX-License-Identifier: GPL-3.0-or-later
   number_round.c - rationals to integers: every rule and direction by hand, at random against
   the definition in whole numbers, and the 64ths of printed handbooks.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

/* X, then nearest with ties up, down, even, then up and down; TIE: 1 at half way.  */
static const struct
{
  const char *x;
  int64_t ties_up, ties_down, ties_even, up, down;
  int tie;
} rules[] = {
  { "0", 0, 0, 0, 0, 0, 0 },
  { "3", 3, 3, 3, 3, 3, 0 },
  { "-3", -3, -3, -3, -3, -3, 0 },
  { "7/16", 0, 0, 0, 1, 0, 0 },
  { "1/2", 1, 0, 0, 1, 0, 1 },
  { "9/16", 1, 1, 1, 1, 0, 0 },
  { "-7/16", 0, 0, 0, 0, -1, 0 },
  { "-1/2", -1, 0, 0, 0, -1, 1 },
  { "-9/16", -1, -1, -1, 0, -1, 0 },
  { "13/9", 1, 1, 1, 2, 1, 0 },
  { "3/2", 2, 1, 2, 2, 1, 1 },
  { "14/9", 2, 2, 2, 2, 1, 0 },
  { "-13/9", -1, -1, -1, -1, -2, 0 },
  { "-3/2", -2, -1, -2, -1, -2, 1 },
  { "-14/9", -2, -2, -2, -1, -2, 0 },
  { "5/2", 3, 2, 2, 3, 2, 1 },
  { "-5/2", -3, -2, -2, -2, -3, 1 },
  { "7/2", 4, 3, 4, 4, 3, 1 },
  { "-7/2", -4, -3, -4, -3, -4, 1 },
  { "9223372036854775807/2", 4611686018427387904, 4611686018427387903, 4611686018427387904,
    4611686018427387904, 4611686018427387903, 1 },
  { "-9223372036854775807/2", -4611686018427387904, -4611686018427387903, -4611686018427387904,
    -4611686018427387903, -4611686018427387904, 1 },
  /* Past 64 bits and back: 2^63 / 3, and 1 / 2^64 either side of a half.  */
  { "9223372036854775808/3", 3074457345618258603, 3074457345618258603, 3074457345618258603,
    3074457345618258603, 3074457345618258602, 0 },
  { "9223372036854775807/18446744073709551616", 0, 0, 0, 1, 0, 0 },
  { "9223372036854775809/18446744073709551616", 1, 1, 1, 1, 0, 0 },
  { "-9223372036854775809/18446744073709551616", -1, -1, -1, 0, -1, 0 },
};

static void
check_rule (const char *text, br_direction direction, br_ties ties, int64_t answer, int tie)
{
  br_number x = BR_NUMBER_ZERO, right = BR_NUMBER_ZERO;
  int found = -1;
  check_set (&x, text);
  check_ok (br_number_round (&x, &found, &x, direction, ties));
  check_ok (br_number_set_int (&right, answer));
  assert_true (br_number_check (&x));
  if (!br_number_equal (&x, &right) || found != tie)
    fail_msg ("%s, direction %d, ties %d: not %" PRId64 " with tie %d", text, (int) direction,
              (int) ties, answer, tie);
  br_number_clear (&x);
}

static void
test_rules_by_hand (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rules); i++)
    {
      check_rule (rules[i].x, BR_NEAREST, BR_TIES_UP, rules[i].ties_up, rules[i].tie);
      check_rule (rules[i].x, BR_NEAREST, BR_TIES_DOWN, rules[i].ties_down, rules[i].tie);
      check_rule (rules[i].x, BR_NEAREST, BR_TIES_EVEN, rules[i].ties_even, rules[i].tie);
      for (int ties = BR_TIES_UP; ties <= BR_TIES_EVEN; ties++)
        {
          check_rule (rules[i].x, BR_UP, (br_ties) ties, rules[i].up, 0);
          check_rule (rules[i].x, BR_DOWN, (br_ties) ties, rules[i].down, 0);
        }
    }
}

/* What the definition says of the integer R for Q, in whole numbers.  */
static void
assert_rounded (mpz_srcptr r, int tie, mpq_srcptr q, br_direction direction, br_ties ties)
{
  mpz_t twice_off, den;
  mpz_init (twice_off);
  mpz_init_set (den, mpq_denref (q));
  /* 2 (R - Q) * den */
  mpz_mul (twice_off, r, den);
  mpz_sub (twice_off, twice_off, mpq_numref (q));
  mpz_mul_2exp (twice_off, twice_off, 1);
  int near = mpz_cmpabs (twice_off, den), sign = mpz_sgn (twice_off);
  if (direction == BR_NEAREST)
    {
      assert_true (near <= 0);
      assert_int_equal (tie, near == 0);
      if (near == 0 && ties == BR_TIES_EVEN)
        assert_true (mpz_even_p (r));
      else if (near == 0)
        assert_int_equal (sign == mpq_sgn (q), ties == BR_TIES_UP);
    }
  else
    {
      mpz_mul_2exp (den, den, 1);
      assert_true (mpz_cmpabs (twice_off, den) < 0);
      assert_true (direction == BR_UP ? sign >= 0 : sign <= 0);
      assert_int_equal (tie, 0);
    }
  mpz_clear (twice_off);
  mpz_clear (den);
}

static void
test_rules_at_random (void **state)
{
  (void) state;
  mpq_t q, answer;
  mpq_init (q);
  mpq_init (answer);
  for (long i = check_times (5000); i > 0; i--)
    {
      br_number x = BR_NUMBER_ZERO, z = BR_NUMBER_ZERO;
      check_mpq (q);
      if (check_below (3) == 0)         /* halves, where the ties are */
        {
          mpz_setbit (mpq_numref (q), 0);
          mpz_set_ui (mpq_denref (q), 2);
          mpq_canonicalize (q);
        }
      check_ok (br__number_from_mpq (&x, q));
      for (int direction = BR_NEAREST; direction <= BR_DOWN; direction++)
        for (int ties = BR_TIES_UP; ties <= BR_TIES_EVEN; ties++)
          {
            int tie = -1;
            check_ok (br_number_round (&z, &tie, &x, (br_direction) direction, (br_ties) ties));
            assert_true (br_number_check (&z));
            br__number_to_mpq (answer, &z);
            assert_true (br_number_is_integer (&z));
            assert_rounded (mpq_numref (answer), tie, q, (br_direction) direction, (br_ties) ties);
          }
      check_ok (br_number_floor (&z, &x));
      br__number_to_mpq (answer, &z);
      assert_rounded (mpq_numref (answer), 0, q, BR_DOWN, BR_TIES_UP);
      check_ok (br_number_ceil (&x, &x));
      br__number_to_mpq (answer, &x);
      assert_rounded (mpq_numref (answer), 0, q, BR_UP, BR_TIES_UP);
      br_number_clear (&x);
      br_number_clear (&z);
    }
  mpq_clear (q);
  mpq_clear (answer);
}

/* A decimal such as 0.0156, through the road that measures take.  */
static void
set_decimal (br_number *z, const char *text)
{
  const char *point = strchr (text, '.');
  assert_non_null (point);
  check_ok (br__number_from_digits (z, text, (size_t) (point - text), point + 1, strlen (point + 1)));
}

/* Z = X to four places, ties up, as the printed tables have it.  */
static void
four_places (br_number *z, const br_number *x)
{
  br_number scale = { 10000, 0 };
  check_ok (br_number_mul (z, x, &scale));
  check_ok (br_number_round (z, NULL, z, BR_NEAREST, BR_TIES_UP));
  check_ok (br_number_div (z, z, &scale));
}

/* tests/data/decimal_equivalents.txt names its sources.  */
static void
test_decimal_equivalents (void **state)
{
  (void) state;
  check_data data;
  int rows = 0, off = 0;
  br_number half_step = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO;
  check_set (&half_step, "1/128");
  check_set (&step, "1/10000");
  check_open (&data, "decimal_equivalents.txt", '|');
  while (check_next (&data))
    {
      br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO, printed = BR_NUMBER_ZERO;
      char text[64];
      int whole = -1;
      assert_int_equal (data.fields, 7);
      rows++;
      check_set (&x, data.field[0]);
      check_is (&x, data.field[1]);
      assert_int_equal (strtol (data.field[0], NULL, 10), rows);
      /* The exact decimal, both ways.  */
      set_decimal (&y, data.field[2]);
      assert_true (br_number_equal (&x, &y));
      br_number_write_decimal (text, sizeof text, &whole, &x, 12);
      assert_string_equal (text, data.field[2]);
      assert_int_equal (whole, 1);
      four_places (&y, &x);
      set_decimal (&printed, data.field[3]);
      assert_true (br_number_equal (&y, &printed));
      /* The midpoint: ours is the true one, also where the book's is not.  */
      check_ok (br_number_add (&x, &x, &half_step));
      br_number_write_decimal (text, sizeof text, &whole, &x, 12);
      assert_string_equal (text, data.field[4]);
      assert_int_equal (whole, 1);
      four_places (&y, &x);
      set_decimal (&printed, data.field[5]);
      int book_is_off = strcmp (data.field[6], "off") == 0;
      assert_int_equal (br_number_equal (&y, &printed), !book_is_off);
      if (book_is_off)
        {
          off++;
          check_ok (br_number_add (&y, &y, &step));
          assert_true (br_number_equal (&y, &printed));
        }
    }
  assert_int_equal (rows, 63);
  assert_int_equal (off, 16);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_rules_by_hand),
    CHECK_TEST (test_rules_at_random),
    CHECK_TEST (test_decimal_equivalents),
  };
  return CHECK_RUN (tests);
}
