/* SPDX-License-Identifier: GPL-3.0-or-later
   small_parts.c - the small parts cylinder of 16 CFR 1501.4: cases worked by hand, and a slow
   twin that really turns boxes and puts them in, in whole numbers.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/caution.h"
#include "support.h"

static br_truth
answer_called (const char *name)
{
  return strcmp (name, "fits") == 0 ? BR_YES : strcmp (name, "not") == 0 ? BR_NO : BR_UNKNOWN;
}

static void
by_hand (void **state)
{
  check_data data;
  shop_args args;
  br_truth fits;
  int rows = 0;

  (void) state;
  check_open (&data, "small_parts.txt", ';');
  for (; check_next (&data); rows++)
    {
      assert_int_equal (data.fields, 4);
      if (strcmp (data.field[0], "shape") == 0)
        continue;       /* tests/statement/cautions */
      shop_read (&args, data.field[1]);
      if (strcmp (data.field[0], "box") == 0)
        check_ok (br__small_box_fits (&fits, args.pointer[0], args.pointer[1], args.pointer[2], 0,
                                      NULL));
      else
        check_ok (br__small_disc_fits (&fits, args.pointer[0], args.pointer[1], 0, NULL));
      if (fits != answer_called (data.field[2]))
        fail_msg ("%s %s is not %s", data.field[0], data.field[1], data.field[2]);
      shop_clear (&args);
    }
  assert_int_equal (rows, 52);
}

/* ------------------------------------------------------------------------
   The twin.  Sizes are whole 32nds of an inch.  A turn is a quaternion of small whole numbers,
   whose matrix is whole over the quaternion's square N, so that corners are exact.
   ------------------------------------------------------------------------ */

#define UNITS 32        /* to the inch: radius 20, depth 52 + x */

typedef struct turn
{
  int64_t n, row[3][3];
} turn;

static void
turn_set (turn *t, int64_t a, int64_t b, int64_t c, int64_t d)
{
  const int64_t row[3][3] = {
    { a * a + b * b - c * c - d * d, 2 * (b * c - a * d), 2 * (b * d + a * c) },
    { 2 * (b * c + a * d), a * a - b * b + c * c - d * d, 2 * (c * d - a * b) },
    { 2 * (b * d - a * c), 2 * (c * d + a * b), a * a - b * b - c * c + d * d },
  };

  t->n = a * a + b * b + c * c + d * d;
  memcpy (t->row, row, sizeof row);
}

/* Is the box inside with its middle SHIFT (in halves of a unit over T's n) across, its top at the
   rim?  Everything is doubled and times n.  */
static int
inside_at (const int64_t *side, const turn *t, int64_t shift)
{
  int64_t corner[8][3], top = 0;
  int k, i, j;

  for (k = 0; k < 8; k++)
    for (i = 0; i < 3; i++)
      {
        corner[k][i] = i == 0 ? shift : 0;
        for (j = 0; j < 3; j++)
          corner[k][i] += (k >> j & 1 ? 1 : -1) * side[j] * t->row[i][j];
      }
  for (k = 0; k < 8; k++)
    if (corner[k][2] < top)
      top = corner[k][2];
  for (k = 0; k < 8; k++)
    {
      const int64_t x = corner[k][0], y = corner[k][1], z = corner[k][2] - top;
      const int64_t unit = 2 * t->n;

      if (x * x + y * y > 400 * unit * unit || z > 52 * unit + x)
        return 0;
    }
  return 1;
}

static int
inside (const int64_t *side, const turn *t)
{
  int step;

  for (step = 0; step <= 80; step++)
    if (inside_at (side, t, step * t->n / 2))
      return 1;
  return 0;
}

static br_truth
ask_box (const int64_t *side)
{
  br_real size[3] = { BR_REAL_ZERO, BR_REAL_ZERO, BR_REAL_ZERO };
  br_truth fits = BR_UNKNOWN;
  int i;

  for (i = 0; i < 3; i++)
    shop_ratio (&size[i], side[i], UNITS);
  check_ok (br__small_box_fits (&fits, &size[0], &size[1], &size[2], 0, NULL));
  for (i = 0; i < 3; i++)
    br_real_clear (&size[i]);
  return fits;
}

static int
fits_turned (const int64_t *side, int tries)
{
  turn t;

  while (tries-- > 0)
    {
      turn_set (&t, check_between (-4, 4), check_between (-4, 4), check_between (-4, 4),
                check_between (-4, 4));
      if (t.n > 0 && inside (side, &t))
        return 1;
    }
  return 0;
}

/* The six ways to stand it, as quarter turns.  */
static int
fits_standing (const int64_t *side)
{
  static const int8_t ways[][4] = {
    { 1, 0, 0, 0 }, { 1, 1, 0, 0 }, { 1, 0, 1, 0 }, { 1, 0, 0, 1 }, { 1, 1, 1, 1 }, { 1, -1, 1, 1 },
  };
  turn t;
  size_t i;

  for (i = 0; i < CHECK_COUNT (ways); i++)
    {
      turn_set (&t, ways[i][0], ways[i][1], ways[i][2], ways[i][3]);
      if (inside (side, &t))
        return 1;
    }
  return 0;
}

/* What the twin gets in is never said not to fit; what is said to fit goes in when it is a 32nd
   smaller all around, as the twin moves in steps.  */
static void
twin (void **state)
{
  int64_t side[3], smaller[3];
  size_t seen[3] = { 0, 0, 0 }, turned = 0, i;
  br_truth fits;
  long n;

  (void) state;
  for (n = 100 + check_times (300); n > 0; n--)
    {
      side[0] = check_between (2, 84);
      side[1] = check_between (2, side[0] > 44 ? 20 : 44);
      side[2] = check_between (2, 40);
      fits = ask_box (side);
      seen[fits]++;
      for (i = 0; i < 3; i++)
        smaller[i] = side[i] - 1;
      if (fits == BR_YES)
        assert_true (fits_standing (smaller));
      else if (fits_turned (side, 60))
        {
          assert_int_equal (fits, BR_UNKNOWN);
          turned++;
        }
    }
  for (i = 0; i < 3; i++)
    assert_true (seen[i] > 10);
  assert_true (turned > 0);
}

/* A part that is larger all around never fits better.  */
static void
larger_is_no_better (void **state)
{
  static const int rank[] = { [BR_NO] = 0, [BR_UNKNOWN] = 1, [BR_YES] = 2 };
  int64_t side[3], larger[3];
  long n;
  int i;

  (void) state;
  for (n = check_times (400); n > 0; n--)
    {
      for (i = 0; i < 3; i++)
        {
          side[i] = check_between (1, 50);
          larger[i] = side[i] + check_between (0, 3);
        }
      assert_true (rank[ask_box (larger)] <= rank[ask_box (side)]);
    }
}

/* ------------------------------------------------------------------------
   Faults, and what is shown
   ------------------------------------------------------------------------ */

static void
faults (void **state)
{
  br_real one = { { 1, 0 }, NULL }, other = BR_REAL_ZERO;
  br_truth fits = BR_YES;
  br_error error;

  (void) state;
  assert_int_equal (br__small_box_fits (&fits, &one, &other, &one, 0, &error), BR_DOMAIN);
  assert_string_equal (error.message, "the sizes of a part must be over zero");
  assert_int_equal (error.offset, 1);
  shop_ratio (&other, -1, 2);
  assert_int_equal (br__small_disc_fits (&fits, &one, &other, 0, &error), BR_DOMAIN);
  assert_int_equal (error.offset, 1);
  assert_int_equal (fits, BR_YES);
  /* A disc of just 1-1/4, as far as 200 bits tell: it may fit.  */
  shop_ratio (&other, 5, 4);
  shop_blur (&other);
  shop_ratio (&one, 1, 8);
  check_ok (br__small_disc_fits (&fits, &other, &one, 200, &error));
  assert_int_equal (fits, BR_UNKNOWN);
  br_real_clear (&other);
}

/* 16 CFR 1501.2: toys for children under 3 years.  */
static void
shown (void **state)
{
  static const br__child unset = { BR__CHILD_UNSET, 0 }, none = { BR__CHILD_NONE, 0 };
  static const br__child young = { BR__CHILD_MONTHS, 35 }, old = { BR__CHILD_MONTHS, 36 };
  const br_caution *yes = br__small_part_caution (BR_YES, &unset);
  const br_caution *may = br__small_part_caution (BR_UNKNOWN, &young);
  const char *end = BR__TEACHER_FIRST;

  (void) state;
  assert_non_null (yes);
  assert_non_null (may);
  assert_non_null (strstr (yes->text, "this part fits into"));
  assert_non_null (strstr (may->text, "this part may fit into"));
  assert_string_equal (yes->text + strlen (yes->text) - strlen (end), end);
  assert_string_equal (may->text + strlen (may->text) - strlen (end), end);
  assert_non_null (strstr (yes->source, "16 CFR 1501.4"));
  assert_non_null (strstr (yes->scope, "36 months"));
  assert_null (br__small_part_caution (BR_NO, &unset));
  assert_null (br__small_part_caution (BR_YES, &none));
  assert_null (br__small_part_caution (BR_YES, &old));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (by_hand), CHECK_TEST (twin), CHECK_TEST (larger_is_no_better), CHECK_TEST (faults),
    CHECK_TEST (shown),
  };
  return CHECK_RUN (tests);
}
