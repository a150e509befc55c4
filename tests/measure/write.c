/* SPDX-License-Identifier: GPL-3.0-or-later
   write.c - how measures are written, and that each reads back to the same value.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure.h"
#include "measure/measure.h"

/* Units in which a value may be asked for, and the powers that can be read back.  */
static const char *const units[] = {
  NULL, "in", "ft", "yd", "mm", "cm", "m", "thou", "boxes", "sq ft", "sq mm", "cu m", "deg"
};
static const br_dimension dimensions[] = {
  BR_PLAIN, BR_LENGTH, BR_AREA, BR_VOLUME, BR_ANGLE
};

static br_style
style_of (const char *unit, int feet)
{
  br_style style = { unit != NULL ? br_unit_find (unit, strlen (unit)) : NULL, feet };

  return style;
}

static void
by_hand (void **state)
{
  static const struct
  {
    const char *value;
    br_dimension dimension;
    const char *unit;
    int feet;
    const char *text;
  } rows[] = {
    { "19/8", BR_PLAIN, NULL, 0, "2-3/8" }, { "-19/8", BR_PLAIN, NULL, 0, "-2-3/8" },
    { "-3/8", BR_PLAIN, NULL, 0, "-3/8" }, { "0", BR_PLAIN, NULL, 0, "0" },
    { "1319/200", BR_PLAIN, NULL, 0, "6.595" }, { "37/3", BR_PLAIN, NULL, 0, "12-1/3" },
    { "1/4096", BR_PLAIN, NULL, 0, "1/4096" }, { "1/8192", BR_PLAIN, NULL, 0, "0.0001220703125" },
    { "111111111111/100000000000000000000000000", BR_PLAIN, NULL, 0, "0.00000000000000111111111111" },
    { "111111111111/1000000000000000000000000000", BR_PLAIN, NULL, 0, "111111111111/1000000000000000000000000000" },
    { "1/100000000000", BR_PLAIN, NULL, 0, "0.00000000001" },
    { "1234567890123/10", BR_PLAIN, NULL, 0, "123456789012-3/10" },
    { "123456789011/10", BR_PLAIN, NULL, 0, "12345678901.1" },
    { "1000000000000000000000", BR_PLAIN, NULL, 0, "1000000000000000000000" },
    { "19/8", BR_LENGTH, NULL, 0, "2-3/8\"" }, { "62", BR_LENGTH, "in", 0, "62\"" },
    { "499/8", BR_LENGTH, NULL, 1, "5' 2-3/8\"" }, { "12", BR_LENGTH, NULL, 1, "1'" },
    { "-14", BR_LENGTH, NULL, 1, "-1' 2\"" }, { "3/4", BR_LENGTH, NULL, 1, "3/4\"" },
    { "-3/4", BR_LENGTH, NULL, 1, "-3/4\"" }, { "0", BR_LENGTH, NULL, 1, "0\"" },
    { "191/16", BR_LENGTH, NULL, 1, "11-15/16\"" }, { "37/3", BR_LENGTH, NULL, 1, "1' 1/3\"" },
    { "253/20", BR_LENGTH, NULL, 1, "1' 0.65\"" },
    { "1200000000000000111111111111/100000000000000000000000000", BR_LENGTH, NULL, 1,
      "1' 0.00000000000000111111111111\"" },
    { "63", BR_LENGTH, "ft", 0, "5' 3\"" }, { "3/4", BR_LENGTH, "ft", 0, "3/4\"" },
    { "54", BR_LENGTH, "yd", 0, "1-1/2 yd" }, { "3/100", BR_LENGTH, "thou", 0, "30 thou" },
    { "125/254", BR_LENGTH, "mm", 0, "12.5 mm" }, { "185/381", BR_LENGTH, "mm", 0, "12-1/3 mm" },
    { "1", BR_LENGTH, "mm", 0, "25.4 mm" }, { "1/64", BR_LENGTH, "mm", 0, "0.396875 mm" },
    { "1", BR_LENGTH, "m", 1, "0.0254 m" }, { "1", BR_LENGTH, "boxes", 0, "1\"" },
    { "7/2", BR_AREA, NULL, 0, "3-1/2 sq in" }, { "72", BR_AREA, "ft", 0, "1/2 sq ft" },
    { "1", BR_AREA, "mm", 0, "645.16 sq mm" }, { "1", BR_VOLUME, "cm", 0, "16.387064 cu cm" },
    { "1/2", BR_VOLUME, "thou", 0, "1/2 cu in" }, { "1", BR_LENGTH, "sq mm", 0, "25.4 mm" },
    { "45", BR_ANGLE, NULL, 0, "45 deg" }, { "45/2", BR_ANGLE, "mm", 0, "22.5 deg" },
    { "70/3", BR_ANGLE, NULL, 1, "23-1/3 deg" },
    { "3", 4, NULL, 0, "3 in^4" }, { "3", -1, "in", 0, "3 in^-1" },
    { "1", 4, "mm", 0, "416231.4256 mm^4" }, { "20736", 4, "ft", 0, "1 ft^4" },
  };
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_number x = BR_NUMBER_ZERO;
      br_style style = style_of (rows[i].unit, rows[i].feet);
      char text[100], small[4] = "???";

      check_set (&x, rows[i].value);
      assert_int_equal (br_measure_write (text, sizeof text, &x, rows[i].dimension, &style),
                        strlen (rows[i].text));
      assert_string_equal (text, rows[i].text);
      /* As snprintf: the length of the whole, and what fits.  */
      assert_int_equal (br_measure_write (small, 2, &x, rows[i].dimension, &style),
                        strlen (text));
      assert_true (small[0] == text[0] && small[1] == '\0' && small[2] == '?');
      br_number_clear (&x);
    }
}

static void
check_round_trip (const br_number *x, br_dimension dimension, const br_style *style)
{
  size_t size = br_measure_write (NULL, 0, x, dimension, style) + 1;
  char *text = malloc (size);
  br_measure m = BR_MEASURE_ZERO;
  br_error error;

  if (text == NULL)
    fail_msg ("no memory");
  br_measure_write (text, size, x, dimension, style);
  if (br_measure_read (&m, text, size - 1, NULL, &error) != BR_OK)
    fail_msg ("%s: %s", text, error.message);
  if (!br_number_equal (&m.value, x) || !br_number_check (&m.value)
      || (m.unit != NULL ? m.unit->dimension : BR_PLAIN) != dimension)
    fail_msg ("%s reads back as another value", text);
  br_measure_clear (&m);
  free (text);
}

static void
round_trips (void **state)
{
  long i;

  (void) state;
  for (i = 0; i < check_times (10000); i++)
    {
      br_number x = BR_NUMBER_ZERO;
      br_style style = style_of (units[check_below (CHECK_COUNT (units))], (int) check_below (2));

      if (check_below (3) == 0)
        check_number (&x);
      else
        check_shop_number (&x, 200);
      check_round_trip (&x, dimensions[check_below (CHECK_COUNT (dimensions))], &style);
      br_number_clear (&x);
    }
}

/* Every mark of every binary ruler up to two feet, in every unit, both signs.  */
static void
every_mark (void **state)
{
  size_t u;
  int64_t den, num;

  (void) state;
  for (u = 0; u < CHECK_COUNT (units); u++)
    for (den = 1; den <= 64; den *= 2)
      for (num = -25 * den; num <= 25 * den; num += den > 8 ? 7 : 1)
        {
          br_number x = BR_NUMBER_ZERO;
          br_style style = style_of (units[u], den > 4);

          check_ok (br_number_set_ratio (&x, num, den));
          check_round_trip (&x, BR_LENGTH, &style);
        }
}

static void
no_memory (void **state)
{
  br_number x = BR_NUMBER_ZERO;
  br_style style = { NULL, 1 };
  br_status status;
  size_t size;
  char text[200];

  (void) state;
  check_set (&x, "123456789012345678901234567890/7");
  CHECK_EACH_REFUSAL (status,
                      {
                        size = br_measure_write (text, sizeof text, &x, BR_LENGTH, &style);
                        status = size == SIZE_MAX ? BR_NO_MEMORY : BR_OK;
                      }, 0);
  CHECK_EACH_REFUSAL (status,
                      {
                        size = br_measure_write (text, sizeof text, &x, BR_AREA, &style);
                        status = size == SIZE_MAX ? BR_NO_MEMORY : BR_OK;
                      }, 0);
  style.unit = br_unit_find ("mm", 2);
  CHECK_EACH_REFUSAL (status,
                      {
                        size = br_measure_write (text, sizeof text, &x, 4, &style);
                        status = size == SIZE_MAX ? BR_NO_MEMORY : BR_OK;
                      }, 0);
  br_number_clear (&x);
}

/* On both sides of the finest: halves are none of a ruler of inches.  */
static void
shop_fractions (void **state)
{
  static const struct { const char *x; int64_t finest; int is; } rows[] = {
    { "3/64", 64, 1 }, { "3/128", 64, 0 }, { "1/2", 2, 1 }, { "1/2", 1, 0 }, { "7", 1, 1 }, { "1/3", 64, 0 },
    { "9223372036854775808", 64, 0 },
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_number x = BR_NUMBER_ZERO;

      check_set (&x, rows[i].x);
      assert_int_equal (br__is_shop_fraction (&x, rows[i].finest), rows[i].is);
      br_number_clear (&x);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (by_hand),
    CHECK_TEST (round_trips),
    CHECK_TEST (every_mark),
    CHECK_TEST (no_memory),
    CHECK_TEST (shop_fractions),
  };

  return CHECK_RUN (tests);
}
