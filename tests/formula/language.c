/* SPDX-License-Identifier: GPL-3.0-or-later
   language.c - the language by table: what each line says, what each statement answers, and
   where each wrong line is wrong.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <time.h>

#include "../measure/measure.h"
#include "../sheet/support.h"

/* No line of a table may take longer.  */
#define SECONDS 5.0

/* What differs is told row by row, and fails the test at its end.  */
static int differences;

static void
differs (const check_data *data, const char *format, ...) __attribute__ ((format (printf, 2, 3)));

static void
differs (const check_data *data, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  print_error ("%s:%ld: ", data->name, data->line);
  vprint_error (format, args);
  print_error ("\n");
  va_end (args);
  differences++;
}

static void
expect (const check_data *data, const said *s, size_t index, const char *path, const char *expected)
{
  const char *value = said_find (s, index, path);
  if (strcmp (expected, "-") == 0)
    return;
  if (!value || strcmp (value, expected) != 0)
    differs (data, "answer %zu of %zu: %s is %s where %s was right", index + 1, s->count, path,
             value ? value : "not there", expected);
}

static void
must_run (const check_data *data, br_sheet *sheet, said *s, char *script)
{
  sheet_lines (script);
  size_t length = measure_unescape (script);
  if (sheet_run_bytes (sheet, s, script, length) != BR_OK)
    differs (data, "%s", s->fault_count ? s->faults[0].error.message : "refused without a word");
}

/* line; exact; decimal; unit; shown; mark; error.  Each line in SECONDS of the processor's time.  */
static int
expressions_of (const char *name, double seconds)
{
  static const char *const paths[] = { NULL, "exact", "decimal", "unit", "shown", "mark", "error" };
  check_data data;
  said s = SAID_ZERO;
  int rows = 0;

  check_open (&data, name, ';');
  for (; check_next (&data); rows++)
    {
      br_sheet *sheet = sheet_with ("");
      const clock_t begin = clock ();
      assert_in_range (data.fields, 2, 8);
      must_run (&data, sheet, &s, data.field[0]);
      size_t last = s.count;
      while (last > 0 && strcmp (said_get (&s, --last, "kind"), "value") != 0)
        continue;
      expect (&data, &s, last, "kind", "value");
      for (size_t i = 1; i < data.fields && i < CHECK_COUNT (paths); i++)
        expect (&data, &s, last, paths[i], data.field[i]);
      if ((double) (clock () - begin) / CLOCKS_PER_SEC > seconds * (check_watched () ? 30 : 1))
        differs (&data, "more than %g seconds", seconds);
      br_sheet_free (sheet);
    }
  said_clear (&s);
  return rows;
}

static void
expressions (void **state)
{
  (void) state;
  differences = 0;
  assert_true (expressions_of ("expressions.txt", SECONDS) >= 150);
  assert_int_equal (differences, 0);
}

/* Equal values, written in two ways, are found to be equal.  */
static void
identities (void **state)
{
  (void) state;
  differences = 0;
  assert_true (expressions_of ("identities.txt", 0.2) >= 58 + 25);
  assert_int_equal (differences, 0);
}

/* Published examples as a user types them.  */
static void
worked_examples (void **state)
{
  (void) state;
  differences = 0;
  assert_true (expressions_of ("worked.txt", SECONDS) >= 120);
  assert_int_equal (differences, 0);
}

/* script; INDEX:PATH=VALUE; ... where INDEX counts answers from 0, and from the last one back
   below zero; a row without its script goes on in the sheet of the row before.  */
static void
check_claim (const check_data *data, const said *s, char *claim)
{
  char *colon = strchr (claim, ':'), *equals = colon ? strchr (colon, '=') : NULL;
  if (strncmp (claim, "answers=", 8) == 0)
    {
      if (s->count != strtoul (claim + 8, NULL, 10))
        differs (data, "%zu answers", s->count);
      return;
    }
  if (!equals)
    fail_msg ("%s:%ld: no claim: %s", data->name, data->line, claim);
  long index = strtol (claim, NULL, 10);
  *equals = 0;
  expect (data, s, (size_t) (index < 0 ? (long) s->count + index : index), colon + 1, equals + 1);
}

static int
statements_of (const char *name)
{
  check_data data;
  said s = SAID_ZERO;
  br_sheet *sheet = NULL;
  int claims = 0;

  check_open (&data, name, ';');
  while (check_next (&data))
    {
      if (strncmp (data.field[0], "+ ", 2) != 0)
        {
          br_sheet_free (sheet);
          sheet = sheet_with ("");
        }
      else
        data.field[0] += 2;
      must_run (&data, sheet, &s, data.field[0]);
      for (size_t i = 1; i < data.fields; i++, claims++)
        check_claim (&data, &s, data.field[i]);
    }
  sheet_end (sheet, &s);
  return claims;
}

static void
statements (void **state)
{
  (void) state;
  differences = 0;
  assert_true (statements_of ("statements.txt") >= 200);
  assert_true (statements_of ("corners.txt") >= 100);
  assert_int_equal (differences, 0);
}

/* script; status; offset; length; part of the message; part of the hint, "none" for no hint.  A field "-"
   is not looked at.  The last line of the script is the wrong one.  */
static void
check_fault (const check_data *data, br_status status, const br_error *e)
{
  char *const *f = data->field + 1;
  int good = strcmp (br_status_name (status), f[0]) == 0 && e->status == status;
  good &= strcmp (f[1], "-") == 0 || e->offset == strtoul (f[1], NULL, 10);
  good &= strcmp (f[2], "-") == 0 || e->length == strtoul (f[2], NULL, 10);
  good &= strcmp (f[3], "-") == 0 || strstr (e->message, f[3]) != NULL;
  if (strcmp (f[4], "none") == 0)
    good &= !*e->hint;
  else
    good &= strcmp (f[4], "-") == 0 || strstr (e->hint, f[4]) != NULL;
  if (!good || !*e->message)
    differs (data, "%s at %zu+%zu: %s; %s", br_status_name (status), e->offset, e->length, e->message,
             e->hint);
}

static void
check_wrong (const check_data *data)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  char *last = data->field[0];
  double start = sheet_seconds ();

  sheet_lines (last);
  char *end = strrchr (last, '\n');
  if (end)
    {
      *end = 0;
      sheet_say (sheet, &s, "%s", last);
      last = end + 1;
    }
  size_t length = measure_unescape (last);
  char *copy = measure_exact_copy (last, length);
  br_status status = sheet_run_bytes (sheet, &s, copy, length);
  if (s.fault_count == 1 && s.faults[0].text_length == length)
    check_fault (data, status, &s.faults[0].error);
  else
    differs (data, "%zu mistakes told", s.fault_count);
  assert_true (sheet_seconds () - start < SECONDS * (check_watched () ? 30 : 1));
  /* The sheet works on.  */
  sheet_say (sheet, &s, "1/4 + 1/8");
  said_is (&s, 0, "exact", "3/8");
  free (copy);
  sheet_end (sheet, &s);
}

static int
wrong_lines_of (const char *name)
{
  check_data data;
  int rows = 0;

  check_open (&data, name, ';');
  for (; check_next (&data); rows++)
    {
      assert_int_equal (data.fields, 6);
      check_wrong (&data);
    }
  return rows;
}

static void
wrong_lines (void **state)
{
  (void) state;
  differences = 0;
  assert_true (wrong_lines_of ("wrong_lines.txt") >= 60);
  assert_true (wrong_lines_of ("wrong_corners.txt") >= 50);
  assert_int_equal (differences, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (expressions),
    CHECK_TEST (identities),
    CHECK_TEST (worked_examples),
    CHECK_TEST (statements),
    CHECK_TEST (wrong_lines),
  };
  return CHECK_RUN (tests);
}
