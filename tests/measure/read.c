/* SPDX-License-Identifier: GPL-3.0-or-later
   read.c - every spelling of a measure, every wrong one with its place, units.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure.h"
#include "measure/measure.h"

/* A box of the sketch paper in these tests, in inches.  */
static const br_number quarter = { 1, 3 };

static const char *
unit_name (const br_unit *unit)
{
  return unit != NULL ? unit->name : "-";
}

static void
check_measure (const check_data *data, const char *call, br_status status, const br_error *error,
               const br_measure *m)
{
  char value[512];

  if (status != BR_OK)
    fail_msg ("%s:%ld: %s: %s at %zu: %s", data->name, data->line, call, br_status_name (status),
              error->offset, error->message);
  br_number_write (value, sizeof value, &m->value);
  if (strcmp (value, data->field[2]) != 0 || strcmp (unit_name (m->unit), data->field[3]) != 0)
    fail_msg ("%s:%ld: %s: %s, unit %s", data->name, data->line, call, value,
              unit_name (m->unit));
  if (!br_number_check (&m->value))
    fail_msg ("%s:%ld: malformed", data->name, data->line);
}

static void
check_line (const check_data *data)
{
  size_t length = measure_unescape (data->field[0]), used = 0, taken;
  char *text = measure_exact_copy (data->field[0], length);
  int whole = strcmp (data->field[1], "=") == 0, read = strcmp (data->field[1], "read") == 0;
  br_measure m = BR_MEASURE_ZERO;
  br_error error;
  br_status status;

  memset (&error, 0, sizeof error);
  if (!read)
    {
      taken = whole ? length : measure_unescape (data->field[1]);
      status = br_measure_scan (&m, &used, text, length, &quarter, &error);
      check_measure (data, "scan", status, &error, &m);
      if (used != taken || (!whole && memcmp (text, data->field[1], used) != 0))
        fail_msg ("%s:%ld: %zu bytes taken", data->name, data->line, used);
      br_measure_clear (&m);
    }
  status = br_measure_read (&m, text, length, &quarter, &error);
  if (whole || read)
    check_measure (data, "read", status, &error, &m);
  else if (status == BR_OK || error.status != status || error.offset > length
           || error.length > length - error.offset || error.message[0] == '\0')
    fail_msg ("%s:%ld: what follows was not refused with its place", data->name, data->line);
  br_measure_clear (&m);
  free (text);
}

static void
spellings (void **state)
{
  check_data data;
  long lines = 0;

  (void) state;
  check_open (&data, "measures.txt", '|');
  for (; check_next (&data); lines++)
    {
      if (data.fields < 4)
        fail_msg ("%s:%ld: four fields are wanted", data.name, data.line);
      check_line (&data);
    }
  assert_true (lines > 350);
}

static void
wrong_spellings (void **state)
{
  check_data data;
  long lines = 0;

  (void) state;
  check_open (&data, "wrong_measures.txt", '|');
  for (; check_next (&data); lines++)
    {
      size_t length = measure_unescape (data.field[1]), used = 77;
      char *text = measure_exact_copy (data.field[1], length);
      int both = strcmp (data.field[0], "both") == 0;
      br_measure m = BR_MEASURE_ZERO;
      br_error error;

      if (data.fields < 6)
        fail_msg ("%s:%ld: six fields are wanted", data.name, data.line);
      check_ok (br_number_set_int (&m.value, 77));
      if (both || strcmp (data.field[0], "scan") == 0)
        {
          br_status status = br_measure_scan (&m, &used, text, length, NULL, &error);

          measure_check_error (&data, 2, status, &error);
          assert_int_equal (br_measure_scan (&m, &used, text, length, NULL, NULL), status);
        }
      if (both || strcmp (data.field[0], "read") == 0)
        {
          br_status status = br_measure_read (&m, text, length, NULL, &error);

          measure_check_error (&data, 2, status, &error);
          assert_int_equal (br_measure_read (&m, text, length, NULL, NULL), status);
        }
      check_is (&m.value, "77");
      assert_null (m.unit);
      assert_int_equal (used, 77);
      free (text);
    }
  assert_true (lines > 80);
}

/* Both sides are the same value, and the first is written as the second in that unit.  */
static void
conversions (void **state)
{
  check_data data;
  long lines = 0;

  (void) state;
  check_open (&data, "units.txt", '|');
  for (; check_next (&data); lines++)
    {
      br_measure a = BR_MEASURE_ZERO, b = BR_MEASURE_ZERO;
      br_style style = BR_STYLE_INCHES;
      char text[200];

      check_ok (br_measure_read (&a, data.field[0], strlen (data.field[0]), NULL, NULL));
      check_ok (br_measure_read (&b, data.field[1], strlen (data.field[1]), NULL, NULL));
      if (!br_number_equal (&a.value, &b.value))
        fail_msg ("%s:%ld: not equal", data.name, data.line);
      style.unit = b.unit;
      if (strcmp (b.unit->name, "in") != 0)
        {
          br_measure_write (text, sizeof text, &a.value, b.unit->dimension, &style);
          assert_string_equal (text, data.field[1]);
        }
      br_measure_clear (&a);
      br_measure_clear (&b);
    }
  assert_true (lines > 90);
}

static void
unit_names (void **state)
{
  static const char *const good[][2] = {
    { "in", "in" }, { "inches", "in" }, { "\"", "in" }, { "''", "in" }, { "\xe2\x80\xb3", "in" },
    { "'", "ft" }, { "feet", "ft" }, { "yd", "yd" }, { "mm", "mm" }, { "sq ft", "sq ft" },
    { "square metres", "sq m" }, { "cu  cm", "cu cm" }, { "deg", "deg" }, { "\xc2\xb0", "deg" },
    { "thou", "thou" }, { "boxes", "boxes" }, { "IN", "in" }, { "in.", "in" },
  };
  static const char *const bad[] = {
    "", " in", "in ", "inc", "sq", "sq  ", "sq deg", "M", "e", "in ft", "cu deg", "mi4", "'' "
  };
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (good); i++)
    {
      const br_unit *unit = br_unit_find (good[i][0], strlen (good[i][0]));

      assert_non_null (unit);
      assert_string_equal (unit->name, good[i][1]);
      assert_ptr_equal (br_unit_find (unit->name, strlen (unit->name)), unit);
    }
  for (i = 0; i < CHECK_COUNT (bad); i++)
    assert_null (br_unit_find (bad[i], strlen (bad[i])));
}

/* A word that is no unit is repeated, 40 letters of it, and nothing that stands behind it.  */
static void
no_such_unit (void **state)
{
  static const char *const rows[][2] = {
    { "2 foo", "no such unit: foo" }, { "2 foo_1 bar", "no such unit: foo_1" },
    { "2 aaaaaaaaaabbbbbbbbbbccccccccccdddddddddd", "no such unit: aaaaaaaaaabbbbbbbbbbccccccccccdddddddddd" },
    { "2 aaaaaaaaaabbbbbbbbbbccccccccccddddddddddE", "no such unit: aaaaaaaaaabbbbbbbbbbccccccccccdddddddddd" },
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_measure m = BR_MEASURE_ZERO;
      br_error error;

      assert_int_equal (br_measure_read (&m, rows[i][0], strlen (rows[i][0]), NULL, &error), BR_SYNTAX);
      assert_string_equal (error.message, rows[i][1]);
    }
}

/* What is read in short: numbers of up to 18 digits, fractions of up to nine in each part, at the end of the text or
   before a mark or a bracket, however long the text.  */
static void
plain_numbers (void **state)
{
  static const struct { const char *text; size_t end; } rows[] = {
    { "12", 2 }, { "123456789", 9 }, { "1234567890", 0 }, { "12\" and whatever may follow behind the mark of inches", 2 },
    { "6.595\" and whatever may follow behind the mark of inches", 5 }, { "123456789012345.678) and so on", 19 },
    { "1234567890123456.789", 0 }, { "123456789/987654321'", 19 }, { "3/8) + 1", 3 }, { "2-3/8\"", 5 }, { "2 3/8\"", 5 },
    { "2-8/8", 0 }, { "2-9/8", 0 }, { "9/8", 3 }, { "3/0", 0 }, { "2-/8", 0 }, { "2-3", 0 }, { "2-", 0 }, { "2 in", 0 },
    { ".5", 2 }, { ".", 0 }, { "6.", 2 }, { "", 0 }, { "x", 0 }, { "12:", 0 }, { "1/:", 0 },
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      size_t length = strlen (rows[i].text);
      char *text = measure_exact_copy (rows[i].text, length);
      br__reader r = { text, length, NULL, NULL };
      br__numeral n = BR__NUMERAL_ZERO;

      if (br__numeral_plain (&n, &r, 0) != (rows[i].end != 0) || n.end != rows[i].end)
        fail_msg ("%s: %zu", rows[i].text, n.end);
      free (text);
    }
}

/* The limit on digits, on both its sides and in each place where digits stand.  */
static void
digit_limit (void **state)
{
  static const struct
  {
    const char *before, *after;
    size_t other;       /* digits of the same number outside the run */
  } forms[] = {
    { "", "", 0 }, { "", " in", 0 }, { "1.", "", 1 }, { ".", "", 0 }, { "1/", "", 0 },
    { "", "/7", 0 }, { "1-1/", "", 0 }, { "5' 3-1/", "\"", 0 },
  };
  static const size_t counts[] = { 999, 1000, 1001, 1500 };
  size_t i, j, used, size;
  char *text = malloc (2000);

  (void) state;
  if (text == NULL)
    fail_msg ("no memory");
  for (i = 0; i < CHECK_COUNT (forms); i++)
    for (j = 0; j < CHECK_COUNT (counts); j++)
      {
        br_measure m = BR_MEASURE_ZERO;
        br_error error;
        size_t start = strlen (forms[i].before);
        int over = counts[j] + forms[i].other > BR_MAX_DIGITS;
        br_status status;

        memcpy (text, forms[i].before, start);
        memset (text + start, '7', counts[j]);
        strcpy (text + start + counts[j], forms[i].after);
        size = strlen (text);
        status = br_measure_scan (&m, &used, text, size, NULL, &error);
        assert_int_equal (status, over ? BR_TOO_BIG : BR_OK);
        if (over)
          {
            assert_non_null (strstr (error.message, "limit is 1000 digits"));
            assert_int_equal (error.offset + error.length, start + counts[j]);
          }
        else
          assert_int_equal (used, size);
        br_measure_clear (&m);
      }
  free (text);
}

/* A megabyte of digits, bare, with a point and as a fraction: refused, and not slowly.  */
static void
megabyte (void **state)
{
  const size_t size = (size_t) 1 << 20;
  char *text = malloc (size);
  size_t used = 0, point;
  br_measure m = BR_MEASURE_ZERO;

  (void) state;
  if (text == NULL)
    fail_msg ("no memory");
  for (point = 0; point < 3; point++)
    {
      memset (text, '9', size);
      if (point > 0)
        text[point] = point == 1 ? '.' : '/';
      assert_int_equal (br_measure_scan (&m, &used, text, size, NULL, NULL), BR_TOO_BIG);
    }
  /* A hyphen and digits without a slash are the next term, however long.  */
  text[1] = '-';
  text[2] = '9';
  check_ok (br_measure_scan (&m, &used, text, size, NULL, NULL));
  assert_int_equal (used, 1);
  free (text);
}

static void
no_memory (void **state)
{
  static const char long_text[] = "5' 2-1/123456789012345678901234567890\"";
  static const char long_feet[] = "-1234567890123456789012345' 2\"";
  br_measure m = BR_MEASURE_ZERO;
  br_error error;
  br_status status;

  (void) state;
  CHECK_EACH_REFUSAL (status, status = br_measure_read (&m, long_text, sizeof long_text - 1,
                                                        NULL, NULL), 1);
  br_measure_clear (&m);
  CHECK_EACH_REFUSAL (status, status = br_measure_read (&m, "5' 2-3/8\"", 9, NULL, NULL), 0);
  CHECK_EACH_REFUSAL (status,
                      {
                        /* Told where it is refused, and what was there before left where it is not.  */
                        error.status = BR_IO;
                        status = br_measure_read (&m, long_feet, sizeof long_feet - 1, NULL, &error);
                        assert_int_equal (error.status, status == BR_OK ? BR_IO : status);
                      }, 1);
  br_measure_clear (&m);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (spellings),
    CHECK_TEST (wrong_spellings),
    CHECK_TEST (conversions),
    CHECK_TEST (unit_names),
    CHECK_TEST (no_such_unit),
    CHECK_TEST (plain_numbers),
    CHECK_TEST (digit_limit),
    CHECK_TEST (megabyte),
    CHECK_TEST (no_memory),
  };

  return CHECK_RUN (tests);
}
