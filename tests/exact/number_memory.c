/* SPDX-License-Identifier: GPL-3.0-or-later
   number_memory.c - the n-th allocation fails, for every n, in each function of numbers: the
   status says so, outputs are as they were, and nothing is lost.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

/* X and Y are past 64 bits and so are the results.  */
#define X "9223372036854775837/2"
#define Y "55340232221128654847/7"

/* What is run: with one argument or with two.  */
typedef struct change
{
  br_status (*one) (br_number *z, const br_number *x);
  br_status (*two) (br_number *z, const br_number *x, const br_number *y);
} change;

static br_status
run (const change *what, br_number *z, const br_number *x, const br_number *y)
{
  return what->two ? what->two (z, x, y) : what->one (z, x);
}

static br_status
run_pow (br_number *z, const br_number *x)
{
  return br_number_pow (z, x, -3);
}

/* The largest power of 2 that is inline becomes 2^63 by one.  */
static br_status
run_set_int (br_number *z, const br_number *x)
{
  (void) x;
  return br_number_set_int (z, INT64_MIN);
}

static br_status
run_set_ratio (br_number *z, const br_number *x)
{
  (void) x;
  return br_number_set_ratio (z, 5, INT64_MIN);
}

static br_status
run_floor (br_number *z, const br_number *x, const br_number *y)
{
  br_status status = br_number_mul (z, x, y);
  return status == BR_OK ? br_number_floor (z, z) : status;
}

static br_status
run_read (br_number *z, const br_number *x)
{
  static const char text[] = "-99999999999999999999/77777777777777777777777";
  br_error error = { .status = BR_OK };
  (void) x;
  br_status status = br_number_read (z, text, strlen (text), &error);
  assert_int_equal (error.status, status);
  return status;
}

static br_status
run_from_digits (br_number *z, const br_number *x)
{
  (void) x;
  return br__number_from_digits (z, "1234567890123", 13, "1234567", 7);
}

static br_status
run_from_mpq (br_number *z, const br_number *x)
{
  mpq_t q;
  mpq_init (q);
  br__number_to_mpq (q, x);
  br_status status = br__number_from_mpq (z, q);
  mpq_clear (q);
  return status;
}

static const change changes[] = {
  { NULL, br_number_add }, { NULL, br_number_sub }, { NULL, br_number_mul }, { NULL, br_number_div },
  { br_number_set, NULL }, { br_number_neg, NULL }, { br_number_abs, NULL }, { run_pow, NULL },
  { run_set_int, NULL }, { run_set_ratio, NULL }, { run_read, NULL }, { run_from_digits, NULL },
  { run_from_mpq, NULL }, { NULL, run_floor },
};

/* Z starts as something small: a refusal leaves it.  */
static void
test_changes (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (changes); i++)
    {
      br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO, z = BR_NUMBER_ZERO;
      br_status status;
      check_set (&x, X);
      check_set (&y, Y);
      /* run_floor is two steps, and may leave the first.  */
      int two_steps = changes[i].two == run_floor;
      long nth = 0;
      do
        {
          br_number_clear (&z);
          check_set (&z, "19/8");
          check_memory_limit (nth++);
          status = run (&changes[i], &z, &x, &y);
          check_memory_left = -1;
          if (check_memory_refused)
            {
              assert_int_equal (status, BR_NO_MEMORY);
              if (!two_steps)
                check_is (&z, "19/8");
              assert_int_equal (check_memory_blocks, !br__is_small (&z));
            }
        }
      while (check_memory_refused);
      assert_true (nth > 1);            /* it did take memory */
      assert_int_equal (status, BR_OK);
      assert_int_equal (check_memory_blocks, 1);
      assert_true (br_number_check (&z) && !br__is_small (&z));
      check_is (&x, X);
      check_is (&y, Y);
      br_number_clear (&z);
      br_number_clear (&x);
      br_number_clear (&y);
      assert_int_equal (check_memory_blocks, -2);       /* X and Y came before the count */
      check_memory_free ();
    }
}

/* The output is the input as well: it keeps its value.  */
static void
test_aliases (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (changes) - 1; i++)
    {
      br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO;
      check_set (&x, X);
      check_set (&y, Y);
      check_memory_limit (0);
      br_status status = run (&changes[i], &x, &x, &y);
      check_memory_left = -1;
      /* To set a number to itself takes nothing.  */
      assert_int_equal (status, check_memory_refused ? BR_NO_MEMORY : BR_OK);
      assert_int_equal (check_memory_refused, changes[i].one != br_number_set && changes[i].one != br_number_abs);
      check_is (&x, X);
      check_memory_free ();
      br_number_clear (&x);
      br_number_clear (&y);
    }
}

/* A round that stays past 64 bits.  */
static void
test_round (void **state)
{
  (void) state;
  br_number x = BR_NUMBER_ZERO, z = BR_NUMBER_ZERO;
  int tie = 7;
  check_set (&x, "99999999999999999999999/2");
  check_memory_limit (0);
  assert_int_equal (br_number_round (&x, &tie, &x, BR_NEAREST, BR_TIES_UP), BR_NO_MEMORY);
  assert_int_equal (br_number_floor (&z, &x), BR_NO_MEMORY);
  assert_int_equal (br_number_ceil (&z, &x), BR_NO_MEMORY);
  check_memory_left = -1;
  assert_int_equal (check_memory_blocks, 0);
  assert_int_equal (tie, 7);
  check_is (&z, "0");
  check_is (&x, "99999999999999999999999/2");
  check_memory_free ();
  br_number_clear (&x);
}

static size_t
write_decimal_30 (char *buffer, size_t size, const br_number *x)
{
  return br_number_write_decimal (buffer, size, NULL, x, 30);
}

static void
test_writers (void **state)
{
  static size_t (*const writers[]) (char *, size_t, const br_number *) = {
    br_number_write, br_number_write_mixed, write_decimal_30,
  };
  static const char *const values[] = {
    "19/8", "-123456789012345678901234567890123456789012345678901234567890/7",
    "-1/123456789012345678901234567890123456789012345678901234567891",
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (writers); i++)
    for (size_t k = 0; k < CHECK_COUNT (values); k++)
      {
        br_number x = BR_NUMBER_ZERO;
        char buffer[256];
        size_t length;
        check_set (&x, values[k]);
        long nth = 0;
        do
          {
            strcpy (buffer, "kept");
            check_memory_limit (nth++);
            length = writers[i] (buffer, sizeof buffer, &x);
            check_memory_left = -1;
            assert_int_equal (check_memory_blocks, 0);
            if (check_memory_refused)
              {
                assert_true (length == SIZE_MAX);
                assert_string_equal (buffer, "kept");
              }
          }
        while (check_memory_refused);
        assert_true (nth > 1);
        assert_int_equal (length, strlen (buffer));
        check_memory_free ();
        br_number_clear (&x);
      }
}

/* WHOLE is an output as well.  */
static void
test_whole_is_kept (void **state)
{
  (void) state;
  br_number x = { 2, 2 };
  int whole = 7;
  check_memory_limit (0);
  assert_true (br_number_write_decimal (NULL, 0, &whole, &x, 12) == SIZE_MAX);
  check_memory_free ();
  assert_int_equal (whole, 7);
}

/* The helpers themselves, and sums of sizes that do not fit.  */
static void
test_memory (void **state)
{
  (void) state;
  char *array = NULL;
  size_t room = 0;
  assert_null (br__alloc_zero (SIZE_MAX / 2, 3));
  assert_int_equal (br__grow (&array, &room, SIZE_MAX / 2, 4), 0);
  assert_true (array == NULL && room == 0);
  assert_int_equal (br__grow (&array, &room, 3, 1), 1);
  assert_true (array != NULL && room >= 3);
  size_t before = room;
  check_memory_limit (0);
  assert_int_equal (br__grow (&array, &room, before, 1), 1);
  assert_int_equal (br__grow (&array, &room, before + 1, 1), 0);
  assert_int_equal (room, before);
  assert_null (br__alloc (4));
  assert_null (br__strndup ("abc", 2));
  check_memory_free ();
  assert_null (br__strndup ("abc", SIZE_MAX));          /* and its end would not fit */
  br__free (array);
  char *copy = br__strndup ("abc", 2);
  assert_string_equal (copy, "ab");
  br__free (copy);
  unsigned char *zero = br__alloc_zero (3, 5);
  for (int i = 0; i < 15; i++)
    assert_int_equal (zero[i], 0);
  br__free (zero);
  br__free (NULL);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_changes),
    CHECK_TEST (test_aliases),
    CHECK_TEST (test_round),
    CHECK_TEST (test_writers),
    CHECK_TEST (test_whole_is_kept),
    CHECK_TEST (test_memory),
  };
  return CHECK_RUN (tests);
}
