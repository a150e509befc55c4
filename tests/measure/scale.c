/* SPDX-License-Identifier: GPL-3.0-or-later
   scale.c - drawing scales: published ones, our own spellings, wrong ones, and lengths taken
   to scale and back.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure.h"

static void
check_good (const check_data *data)
{
  br_number ratio = BR_NUMBER_ZERO, again = BR_NUMBER_ZERO;
  br_error error;
  char text[200];
  const char *f = data->field[0];
  char *copy = measure_exact_copy (f, strlen (f));

  if (br_scale_read (&ratio, copy, strlen (f), &error) != BR_OK)
    fail_msg ("%s:%ld: at %zu: %s", data->name, data->line, error.offset, error.message);
  check_is (&ratio, data->field[1]);
  br_scale_write (text, sizeof text, &ratio);
  assert_string_equal (text, data->field[2]);
  check_ok (br_scale_read (&again, text, strlen (text), NULL));
  assert_true (br_number_equal (&again, &ratio));
  free (copy);
}

static void
spellings (void **state)
{
  check_data data;
  long good = 0, wrong = 0;

  (void) state;
  check_open (&data, "scales.txt", '|');
  while (check_next (&data))
    if (data.field[0][0] == '!')
      {
        const char *text = data.field[0] + 1 + (data.field[0][1] == ' ');
        br_number ratio = BR_NUMBER_ZERO;
        br_error error;
        br_status status;

        check_ok (br_number_set_int (&ratio, 77));
        memset (&error, 0, sizeof error);
        status = br_scale_read (&ratio, text, strlen (text), &error);
        measure_check_error (&data, 1, status, &error);
        assert_int_equal (br_scale_read (&ratio, text, strlen (text), NULL), status);
        check_is (&ratio, "77");
        wrong++;
      }
    else
      {
        check_good (&data);
        good++;
      }
  assert_true (good > 80 && wrong > 20);
}

/* Blanks before a scale move the places of its mistakes, and nothing else.  */
static void
blanks_before (void **state)
{
  static const struct { const char *text; size_t offset, length; const char *hint; } rows[] = {
    { "  1/4 in", 2, 6, "write 1/4 in = 1 ft for one foot" },
    { "  1/4 scale", 2, 9, "write 1/4 size, or 1/4 in = 1 ft" },
    { "  -1:2", 2, 2, "" }, { "  1/4 in = 0 ft", 11, 4, "" },
    { "  1:2-9/8", 4, 5, "write 2 - 9/8 to subtract or 3-1/8 for the sum" },
    { "  2-9/8:1", 2, 5, "write 2 - 9/8 to subtract or 3-1/8 for the sum" },
    { "  half way", 7, 3, "" }, { "  third", 2, 5, "" },
    { "  1/4 foo", 6, 3, "" }, { "  1:2 3", 6, 1, "" }, { "  3 mm : 4", 9, 1, "" }, { "  3 : 4 mm", 2, 1, "" },
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_number ratio = BR_NUMBER_ZERO;
      br_error error;

      assert_int_not_equal (br_scale_read (&ratio, rows[i].text, strlen (rows[i].text), &error), BR_OK);
      if (error.offset != rows[i].offset || error.length != rows[i].length || strcmp (error.hint, rows[i].hint) != 0)
        fail_msg ("%s: at %zu+%zu: %s; %s", rows[i].text, error.offset, error.length, error.message, error.hint);
    }
}

/* No scale, but what is written of it says what it is.  */
static void
written (void **state)
{
  static const char *const rows[][2] = { { "0", "0:1" }, { "-1/2", "-1/2:1" }, { "1", "1:1" }, { "7/8", "1:1-1/7" } };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_number ratio = BR_NUMBER_ZERO;
      char text[20];

      check_set (&ratio, rows[i][0]);
      assert_int_equal (br_scale_write (text, sizeof text, &ratio), strlen (rows[i][1]));
      assert_string_equal (text, rows[i][1]);
    }
}

static void
no_memory (void **state)
{
  br_number ratio = BR_NUMBER_ZERO;
  br_status status;
  char text[80];

  (void) state;
  check_set (&ratio, "1/123456789012345678901234567890");
  CHECK_EACH_REFUSAL (status,
                      {
                        size_t size = br_scale_write (text, sizeof text, &ratio);
                        status = size == SIZE_MAX ? BR_NO_MEMORY : BR_OK;
                      }, 0);
  br_number_clear (&ratio);
}

/* 1:48 is not 1:50, nor 1:480 the 1:500 that web pages print beside 1 in = 40 ft.  */
static void
false_friends (void **state)
{
  static const char *const pairs[][2] = {
    { "1/4 in = 1 ft", "1:50" }, { "1 in = 40 ft", "1:500" }, { "1 in = 80 ft", "1:1000" },
    { "quarter", "1/4 in = 1 ft" },
  };
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (pairs); i++)
    {
      br_number a = BR_NUMBER_ZERO, b = BR_NUMBER_ZERO;

      check_ok (br_scale_read (&a, pairs[i][0], strlen (pairs[i][0]), NULL));
      check_ok (br_scale_read (&b, pairs[i][1], strlen (pairs[i][1]), NULL));
      assert_false (br_number_equal (&a, &b));
    }
}

/* Lengths printed beside a scale: full size, scale, drawn, source.  */
static void
published_lengths (void **state)
{
  static const char *const rows[][4] = {
    { "100 ft", "1 in = 20 ft", "5 in", "landscape drawing textbook, quoted in an encyclopedia" },
    { "100 ft", "1/16 in = 1 ft", "6-1/4 in", "the same" },
    { "100 ft", "1/4 in = 1 ft", "25 in", "the same" },
    { "100 ft", "1 in = 40 ft", "2-1/2 in", "the same" },
    { "70 ft", "1 in = 40'", "1-3/4 in", "class slides, Scaled Drawings" },
    { "51 ft", "1/8 in = 1'", "6 3/8 in", "Trades Access Common Core D-3, BCcampus" },
    { "45 in", "2/15", "6 in", "Fundamentals of Mathematics (Burzynski and Ellis)" },
    { "10-1/2 in", "quarter size", "2-5/8 in", "common shop exercise, no source" },
    { "12' 9\"", "1/8 in = 1'-0\"", "1-19/32 in", "common shop exercise, no source" },
    { "1' 6\"", "1-1/2 in = 1'-0\"", "2-1/4 in", "common shop exercise, no source" },
  };
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_measure full = BR_MEASURE_ZERO, drawn = BR_MEASURE_ZERO;
      br_real a = BR_REAL_ZERO, b = BR_REAL_ZERO;
      br_number ratio = BR_NUMBER_ZERO;

      check_ok (br_measure_read (&full, rows[i][0], strlen (rows[i][0]), NULL, NULL));
      check_ok (br_measure_read (&drawn, rows[i][2], strlen (rows[i][2]), NULL, NULL));
      check_ok (br_scale_read (&ratio, rows[i][1], strlen (rows[i][1]), NULL));
      check_ok (br_real_set_number (&a, &full.value));
      check_ok (br_real_set_number (&b, &drawn.value));
      check_ok (br_scale_drawn (&a, &a, &ratio));
      check_ok (br_scale_full (&b, &b, &ratio));
      assert_true (br_number_equal (br_real_rational (&a), &drawn.value));
      assert_true (br_number_equal (br_real_rational (&b), &full.value));
    }
}

/* Random ratios and lengths: there and back, and the text of the ratio.  */
static void
there_and_back (void **state)
{
  long i;

  (void) state;
  for (i = 0; i < check_times (2000); i++)
    {
      br_number ratio = BR_NUMBER_ZERO, again = BR_NUMBER_ZERO;
      br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
      char text[1000];

      check_number (&ratio);
      check_ok (br_number_abs (&ratio, &ratio));
      check_number (&x.rational);
      if (br_number_sign (&ratio) == 0)
        {
          assert_int_equal (br_scale_full (&y, &x, &ratio), BR_DOMAIN);
          assert_int_equal (br_scale_drawn (&y, &x, &ratio), BR_DOMAIN);
        }
      else
        {
          check_ok (br_scale_full (&y, &x, &ratio));
          check_ok (br_scale_drawn (&y, &y, &ratio));
          assert_true (br_number_equal (br_real_rational (&y), br_real_rational (&x)));
          br_scale_write (text, sizeof text, &ratio);
          check_ok (br_scale_read (&again, text, strlen (text), NULL));
          assert_true (br_number_equal (&again, &ratio));
        }
      br_number_clear (&ratio);
      br_number_clear (&again);
      br_real_clear (&x);
      br_real_clear (&y);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (spellings),
    CHECK_TEST (blanks_before),
    CHECK_TEST (written),
    CHECK_TEST (no_memory),
    CHECK_TEST (false_friends),
    CHECK_TEST (published_lengths),
    CHECK_TEST (there_and_back),
  };

  return CHECK_RUN (tests);
}
