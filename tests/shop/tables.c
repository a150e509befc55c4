/* SPDX-License-Identifier: GPL-3.0-or-later
   tables.c - twist drills and band-saw blades against the printed tables, and what lies next
   to a size against a slow look at every row.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/blade.h"
#include "shop/drill.h"
#include "support.h"

static br_drill_series
series_called (const char *name)
{
  return strcmp (name, "fraction") == 0 ? BR_DRILL_FRACTIONAL
         : strcmp (name, "number") == 0 ? BR_DRILL_NUMBER : BR_DRILL_LETTER;
}

/* ASME B94.11M as carried in the data: exact inches, the decimal, and 25.4 of them in mm.  */
static void
drill_table (void **state)
{
  check_data data;
  size_t seen[BR__DRILL_SERIES] = { 0, 0, 0 }, i;
  br_number size = BR_NUMBER_ZERO, inch = BR_NUMBER_ZERO;
  br_drill_series series;
  br__drill drill;
  char decimal[32];
  int whole;

  (void) state;
  check_set (&inch, "127/5");
  check_open (&data, "drills.txt", ';');
  while (check_next (&data))
    {
      assert_int_equal (data.fields, 7);
      series = series_called (data.field[0]);
      i = series == BR_DRILL_NUMBER ? 79 - seen[series] : seen[series];
      seen[series]++;
      drill = br__drill_at (series, i);
      assert_string_equal (drill.name, data.field[1]);
      check_ok (br_number_set_ratio (&size, drill.num, drill.den));
      check_is (&size, data.field[2]);
      br_number_write_decimal (decimal, sizeof decimal, &whole, &size, 12);
      assert_int_equal (whole, 1);
      assert_string_equal (decimal, data.field[3]);
      check_ok (br_number_mul (&size, &size, &inch));
      check_is (&size, data.field[4]);
      assert_true (strcmp (data.field[5], "found") == 0 || strcmp (data.field[5], "memory") == 0);
    }
  assert_int_equal (seen[BR_DRILL_FRACTIONAL], 64);
  assert_int_equal (seen[BR_DRILL_NUMBER], 80);
  assert_int_equal (seen[BR_DRILL_LETTER], 26);
  for (i = 0; i < BR__DRILL_SERIES; i++)
    assert_int_equal (br__drill_count ((br_drill_series) i), seen[i]);
  assert_string_equal (br__drill_series_name (BR_DRILL_LETTER), "letter");
  assert_non_null (strstr (br__drill_source (), "B94.11M"));
  br_number_clear (&size);
  br_number_clear (&inch);
}

/* ORDER of the drill against X, slowly.  */
static int
order_of (br__drill drill, const br_real *x)
{
  br_real size = BR_REAL_ZERO;
  int order = 0;

  shop_ratio (&size, drill.num, drill.den);
  check_ok (br_real_cmp (&order, &size, x, 0));
  br_real_clear (&size);
  return order;
}

/* PLAY is drill less X, of the right sign.  */
static void
play_is (const br_real *play, br__drill drill, const br_real *x)
{
  br_real sum = BR_REAL_ZERO, size = BR_REAL_ZERO;

  check_ok (br_real_add (&sum, play, x));
  shop_ratio (&size, drill.num, drill.den);
  shop_same (&sum, &size);
  br_real_clear (&sum);
  br_real_clear (&size);
}

/* The neighbours of X in SERIES are the last drill not over it and the first not under it.  */
static void
neighbours_are_right (br_drill_series series, const br_real *x)
{
  br__drill_pair pair = BR__DRILL_PAIR_ZERO;
  br__drill below = { "", 0, 1 }, above = { "", 0, 1 }, drill;
  int has_below = 0, has_above = 0, order;
  size_t i;

  check_ok (br__drill_neighbours (&pair, series, x, 0, NULL));
  for (i = 0; i < br__drill_count (series); i++)
    {
      drill = br__drill_at (series, i);
      order = order_of (drill, x);
      if (order <= 0)
        {
          below = drill;
          has_below = 1;
        }
      if (order >= 0 && !has_above)
        {
          above = drill;
          has_above = 1;
        }
    }
  assert_int_equal (pair.has_below, has_below);
  assert_int_equal (pair.has_above, has_above);
  assert_string_equal (pair.below.name, below.name);
  assert_string_equal (pair.above.name, above.name);
  if (has_below)
    play_is (&pair.play_below, below, x);
  if (has_above)
    play_is (&pair.play_above, above, x);
  br__drill_pair_clear (&pair);
}

static void
neighbours (void **state)
{
  br_real x = BR_REAL_ZERO;
  size_t s, i;
  int by;
  long n;

  (void) state;
  for (s = 0; s < BR__DRILL_SERIES; s++)
    {
      for (i = 0; i < br__drill_count ((br_drill_series) s); i++)
        for (by = -1; by <= 1; by++)
          {
            br__drill drill = br__drill_at ((br_drill_series) s, i);

            shop_ratio (&x, drill.num, drill.den);
            shop_nudge (&x, by, 1000000);
            neighbours_are_right ((br_drill_series) s, &x);
          }
      for (n = check_times (30); n > 0; n--)
        {
          shop_root (&x, check_between (1, 5000), 4096);
          neighbours_are_right ((br_drill_series) s, &x);
        }
    }
  br_real_clear (&x);
}

/* An axle dowel of 7/16 with 1/64 on the diameter: 29/64, which no letter drill reaches.  */
static void
neighbours_by_hand (void **state)
{
  br__drill_pair pair = BR__DRILL_PAIR_ZERO;
  br_real x = BR_REAL_ZERO;
  br_error error;

  (void) state;
  shop_ratio (&x, 29, 64);
  check_ok (br__drill_neighbours (&pair, BR_DRILL_FRACTIONAL, &x, 0, &error));
  assert_string_equal (pair.below.name, "29/64");
  assert_string_equal (pair.above.name, "29/64");
  shop_is (&pair.play_above, "0");
  check_ok (br__drill_neighbours (&pair, BR_DRILL_LETTER, &x, 0, &error));
  assert_string_equal (pair.below.name, "Z");
  assert_int_equal (pair.has_above, 0);
  shop_is (&pair.play_below, "-321/8000");
  shop_ratio (&x, 1, 4);
  check_ok (br__drill_neighbours (&pair, BR_DRILL_LETTER, &x, 0, &error));
  assert_string_equal (pair.above.name, "E");
  check_ok (br__drill_neighbours (&pair, BR_DRILL_NUMBER, &x, 0, &error));
  assert_string_equal (pair.below.name, "#1");
  assert_int_equal (pair.has_above, 0);
  shop_blur (&x);
  assert_int_equal (br__drill_neighbours (&pair, BR_DRILL_LETTER, &x, 200, &error), BR_UNDECIDED);
  assert_string_equal (pair.below.name, "#1");
  br__drill_pair_clear (&pair);
  br_real_clear (&x);
}

/* Common practice, no standard: trade guides as the data names them.  */
static void
blades (void **state)
{
  check_data data;
  const char *source = NULL;
  br_number width = BR_NUMBER_ZERO, radius = BR_NUMBER_ZERO, last = BR_NUMBER_ZERO;
  size_t rows = 0;

  (void) state;
  check_open (&data, "blades.txt", ';');
  for (; check_next (&data); rows++)
    {
      assert_int_equal (data.fields, 3);
      check_set (&width, data.field[0]);
      const br__blade *blade = &br__blades[rows];
      check_ok (br__blade_limit (&radius, &source, &width));
      assert_string_equal (source, blade->source);
      check_is (&radius, data.field[1]);
      assert_true (br_number_cmp (&last, &radius) < 0);
      br_number_swap (&last, &radius);
      assert_non_null (strstr (blade->source, "common practice"));
      if (strstr (data.field[2], "print") != NULL)
        assert_non_null (strstr (data.field[2], blade->note));
      else
        assert_string_equal (blade->note, "");
    }
  assert_int_equal (rows, br__blade_count);
  /* Between two rows it is the wider one, past the last in proportion to it.  */
  check_set (&width, "5/16");
  check_ok (br__blade_limit (&radius, &source, &width));
  check_is (&radius, "3/2");
  assert_non_null (strstr (source, "next wider"));
  check_set (&width, "2");
  check_ok (br__blade_limit (&radius, &source, &width));
  check_is (&radius, "14");
  assert_non_null (strstr (source, "common practice, no source"));
  check_set (&width, "0");
  assert_int_equal (br__blade_limit (&radius, &source, &width), BR_DOMAIN);
  br_number_clear (&width);
  br_number_clear (&radius);
  br_number_clear (&last);
}

static void
blades_that_follow (void **state)
{
  static const struct { int64_t num, den; size_t count; } rows[] = {
    { 1, 64, 0 }, { 11, 64, 0 }, { 3, 16, 1 }, { 19, 64, 1 }, { 5, 16, 2 }, { 5, 8, 3 },
    { 33, 16, 4 }, { 5, 2, 5 }, { 11, 2, 6 }, { 447, 64, 6 }, { 7, 1, 7 }, { 100, 1, 7 },
  };
  br_real radius = BR_REAL_ZERO;
  br_error error;
  size_t i, count = 99;

  (void) state;
  for (i = 0; i < CHECK_COUNT (rows); i++)
    {
      shop_ratio (&radius, rows[i].num, rows[i].den);
      check_ok (br__blades_for (&count, &radius, 0, &error));
      assert_int_equal (count, rows[i].count);
    }
  count = 99;
  shop_ratio (&radius, 0, 1);
  assert_int_equal (br__blades_for (&count, &radius, 0, &error), BR_DOMAIN);
  assert_string_equal (error.message, "the radius of a curve must be over zero");
  shop_ratio (&radius, 5, 8);
  shop_blur (&radius);
  assert_int_equal (br__blades_for (&count, &radius, 200, &error), BR_UNDECIDED);
  assert_int_equal (count, 99);
  br_real_clear (&radius);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (drill_table), CHECK_TEST (neighbours), CHECK_TEST (neighbours_by_hand),
    CHECK_TEST (blades), CHECK_TEST (blades_that_follow),
  };
  return CHECK_RUN (tests);
}
