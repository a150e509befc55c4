/* SPDX-License-Identifier: GPL-3.0-or-later
   answers.c - tests of how single answers are read and judged: each verdict, the forms that pupils write, the form that a
   teacher wants.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#include "table/rows.h"
#include "lesson/verdict.h"
#include "lesson/worksheet.h"

static void
set_key (br__key *key, const char *exact, const char *mark, const char *unit, br__ask ask)
{
  memset (key, 0, sizeof *key);
  check_set (&key->exact, exact);
  check_set (&key->mark, mark);
  key->unit = *unit ? br_unit_find (unit, strlen (unit)) : NULL;
  key->ask = ask;
  check_ok (br_number_set_ratio (&key->step, key->unit ? key->unit->num : 1, key->unit ? key->unit->den : 1));
}

static void
add_wrong (br__key *key, const char *value, br__mistake mistake)
{
  check_set (&key->wrong[key->wrong_count], value);
  key->mistake[key->wrong_count++] = mistake;
}

/* The five problems of tests/data/answers.txt.  */
static void
make_keys (br__key *keys)
{
  set_key (&keys[0], "19/8", "1/16", "in", BR__ASK_LENGTH);
  add_wrong (&keys[0], "19/4", BR__MISTAKE_SCALE);
  add_wrong (&keys[0], "20/13", BR__MISTAKE_DENOMINATORS);
  set_key (&keys[1], "12", "0", "", BR__ASK_COUNT);
  add_wrong (&keys[1], "13", BR__MISTAKE_KERF);
  set_key (&keys[2], "49/2000", "1/16", "in", BR__ASK_DECIMAL);
  add_wrong (&keys[2], "-49/2000", BR__MISTAKE_SIGN);
  set_key (&keys[3], "3", "1/8", "in", BR__ASK_MARK);
  add_wrong (&keys[3], "6", BR__MISTAKE_DIAMETER);
  set_key (&keys[4], "125/127", "5/127", "mm", BR__ASK_DECIMAL);
}

static void
test_verdicts (void **state)
{
  check_data data;
  br__key keys[5];
  int wrong = 0;
  (void) state;
  make_keys (keys);
  check_open (&data, "answers.txt", '|');
  while (check_next (&data))
    {
      br__verdict v;
      check_ok (br__judge (&v, data.field[1], &keys[atoi (data.field[0]) - 1]));
      if (strcmp (br__verdict_name (v.index), data.field[2]) != 0)
        {
          print_error ("%s:%ld: %s is %s\n", data.name, data.line, data.field[1], br__verdict_name (v.index));
          wrong++;
        }
    }
  for (int i = 0; i < 5; i++)
    br__key_clear (&keys[i]);
  assert_int_equal (wrong, 0);
}

/* The rows of NAME, a table of keys, answers and the verdict that a teacher gives: how many of them get another.  */
static int
misjudged (const char *name)
{
  br__rows rows = BR__ROWS_ZERO;
  char path[300];
  int wrong = 0;
  snprintf (path, sizeof path, "%s/tests/data/%s", getenv ("srcdir") ? getenv ("srcdir") : ".", name);
  check_ok (br__rows_read (&rows, path, NULL));
  for (size_t i = 1; i < rows.count; i++)
    {
      const char *wanted = br__row_cell (&rows.rows[i], 2), *right = br__row_cell (&rows.rows[i], 0);
      br_measure m = BR_MEASURE_ZERO;
      br__key key;
      br__verdict v;
      br_text verdict = BR_TEXT_ZERO, exact = BR_TEXT_ZERO;
      check_ok (br_measure_read (&m, right, strlen (right), NULL, NULL));
      br__put_number (&exact, &m.value);
      int count = !m.unit, decimal = strchr (right, '.') != NULL;
      set_key (&key, exact.bytes, count ? "0" : "1/16", count ? "" : m.unit->name,
               count ? BR__ASK_COUNT : decimal ? BR__ASK_DECIMAL : BR__ASK_LENGTH);
      check_ok (br__judge (&v, br__row_cell (&rows.rows[i], 1), &key));
      br__put_verdict (&verdict, &v);
      if (strncmp (verdict.bytes, wanted, strlen (wanted)) != 0)
        {
          print_error ("%s:%zu: `%s` for `%s` is %s, not %s\n", name, rows.rows[i].line, br__row_cell (&rows.rows[i], 1), right,
                       verdict.bytes, wanted);
          wrong++;
        }
      br__text_clear (&verdict);
      br__text_clear (&exact);
      br_measure_clear (&m);
      br__key_clear (&key);
    }
  br__rows_clear (&rows);
  return wrong;
}

/* How pupils write an answer, and what a teacher says of it: common practice, no source.  */
static void
test_forms (void **state)
{
  (void) state;
  assert_int_equal (misjudged ("answer_forms.csv") + misjudged ("answers_written.csv") + misjudged ("answers_meant.csv"), 0);
}

/* Whatever is written down has a verdict.  */
static void
test_noise (void **state)
{
  static const char *const parts[] =
  { "1", "11", "5/16", "/", " ", "-", ".", ",", "\"", "'", "in", " ft ", "and", "under", "long", "(", ")", "=", "\xE2\x81\x84", "\xC2\xBD",
    "\xE2\x81\xB5", "\xFF", "?", "&", "+", "~", "mm", "x", "\n", "inchs" };
  br__key keys[5];
  br__verdict v;
  (void) state;
  make_keys (keys);
  for (long n = check_times (20000); n > 0; n--)
    {
      char text[600] = "";
      for (uint64_t i = check_below (check_below (40) ? 12 : 90); i > 0; i--)
        strcat (text, parts[check_below (CHECK_COUNT (parts))]);
      check_ok (br__judge (&v, text, &keys[check_below (5)]));
    }
  for (int i = 0; i < 5; i++)
    br__key_clear (&keys[i]);
}

/* An unreadable answer has its place in the answer as it was given.  */
static void
test_place (void **state)
{
  br__key keys[5];
  br__verdict v;
  (void) state;
  make_keys (keys);
  check_ok (br__judge (&v, "  2-3/8 blah", &keys[0]));
  assert_int_equal (v.index, BR__UNREADABLE);
  assert_in_range (v.error.offset, 7, 8);
  assert_true (v.error.message[0] != 0);
  for (int i = 0; i < 5; i++)
    br__key_clear (&keys[i]);
}

/* The form in which a teacher wrote the answer is the form that is wanted, and what the key says is always right.  */
static void
test_own_forms (void **state)
{
  static const struct { const char *answer, *key, *written, *verdict; } rows[] =
  {
    { "3/8 mm", "3/8 mm", "0.375 mm", "other form" }, { "2-3/8 mm", "2-3/8 mm", "2 3/8 mm", "right" },
    { "19/8", "19/8", "2-3/8", "other form" }, { "19/8 as mixed", "2-3/8", "19/8", "other form" },
    { "22/7 in", "22/7\"", "3-1/7 in", "other form" }, { "3-1/7 in", "3-1/7\"", "22/7 in", "other form" },
    { "5-1/4 ft", "5' 3\"", "5' 3\"", "right" }, { "4' 3-1/2\"", "4' 3-1/2\"", "4 ft 3 1/2 in", "right" },
    { "4 ft 3-1/2 in", "4' 3-1/2\"", "51 1/2 in", "right" }, { "4 ft 3-1/2 in", "4' 3-1/2\"", "51 1/2", "unit missing" },
    { "4' 3.5\"", "51.5 in", "51.5 in", "right" }, { "2.5 ft", "2.5 ft", "2 1/2 ft", "other form" },
    { "15 %", "15 %", "0.15", "right" }, { "15 percent", "15 %", "15 percent", "right" }, { "15 %", "15 %", "14 %", "whole number off by one" },
    { "15 %", "15 %", "15", "unit missing" }, { "15 %", "15 %", "15 pct", "right" }, { "15 %", "15 %", "16", "wrong" }, { "15 %", "15 %", "20 %", "wrong" },
    { "15 %", "15 %", "15.04 %", "wrong" }, { "15.04 %", "15.04 %", "15 %", "rounded to a whole number" }, { "15 %", "15 %", "15 in", "wrong" },
    { "0.375", "0.375", "37.5%", "other form" }, { "0.375", "0.375", "0.375 as a decimal", "right" }, { "0.375", "0.375", "0.4375", "wrong" }, { "3/8", "3/8", "7/16", "wrong" },
    { "3/8 in", "3/8\"", "7/16 in", "one mark off" }, { "0.375 in", "0.375 in", "0.4375 in", "wrong" }, { "60 mm", "60 mm", "61 mm", "whole number off by one" },
    { "0.38 to 0.01", "0.38", "0.39", "one mark off" }, { "17", "17", "18", "whole number off by one" },
    { "3/20", "3/20", "0.15", "other form" }, { "1/3 + 1/15", "0.4", "2/5", "right" }, { "1/3 + 1/15", "0.4", "0.4", "right" },
    { "3 in / 5", "0.6\"", "3/5 in", "right" }, { "2-3/8 in.", "2-3/8\"", "2.375 in", "other form" },
    { "310 mm", "310 mm", "3.1 dm", "other form" }, { "1/48", "1/48", "1:48", "right" },
    { "-3/8 in", "-3/8\"", "3/8 in over", "over and under swapped" }, { "-3/8 in", "-3/8\"", "3/8 in", "sign missing" },
    { "45 deg", "45 deg", "45 deg", "right" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    for (int of_key = 0; of_key < 2; of_key++)
      {
        br_sheet *sheet = NULL;
        said s = SAID_ZERO;
        br_text t = BR_TEXT_ZERO;
        check_ok (br_sheet_new (&sheet));
        sheet_say (sheet, &s, "problem How much is it?");
        sheet_say (sheet, &s, "answer %s", rows[i].answer);
        said_is (&s, 0, "shown", rows[i].key);
        sheet_say (sheet, &s, "worksheet own 1 into a.txt");
        unlink ("k.csv");
        sheet_say (sheet, &s, "key k.csv");
        br__text_puts (&t, "student,version,1\nAda,1,");
        br__put_cell (&t, of_key ? rows[i].key : rows[i].written);
        br__text_putc (&t, '\n');
        lesson_put ("answers.csv", t.bytes, t.length);
        sheet_say (sheet, &s, "grade answers.csv with k.csv into marks.csv");
        said_is (&s, 0, "verdicts.0", of_key ? "right" : rows[i].verdict);
        br__text_clear (&t);
        said_clear (&s);
        br_sheet_free (sheet);
      }
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_verdicts), CHECK_TEST (test_forms), CHECK_TEST (test_noise), CHECK_TEST (test_place), CHECK_TEST (test_own_forms)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, lesson_enter, lesson_leave));
}
