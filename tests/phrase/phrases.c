/* SPDX-License-Identifier: GPL-3.0-or-later
   phrases.c - what people type, tests/data/phrases.txt: each row answers what is expected beside it, or is refused with
   hints that work when they are typed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "phrase/words.h"
#include "../measure/measure.h"
#include "../lesson/support.h"

static int differences;

/* The lines of SCRIPT but the last run in a sheet of their own; LAST gets the last.  */
static br_sheet *
sheet_before (const char **last, char *script, said *s)
{
  br_sheet *sheet = sheet_with ("");
  char *end = strrchr (script, '\n');
  *last = end ? end + 1 : script;
  if (end)
    {
      *end = 0;
      sheet_say (sheet, s, "%s", script);
      *end = '\n';
    }
  return sheet;
}

static void
differs (const check_data *data, const char *what, const char *text)
{
  print_error ("%s:%ld: %s: %s\n", data->name, data->line, what, text);
  differences++;
}

/* The answers of LINE, which must run behind the lines before it.  */
static void
answers (const check_data *data, char *script, const char *line, said *s)
{
  const char *last;
  br_sheet *sheet = sheet_before (&last, script, s);
  if (sheet_run (sheet, s, line ? line : last) != BR_OK)
    differs (data, "is refused", s->fault_count ? s->faults[0].error.message : "without a word");
  br_sheet_free (sheet);
}

static void
check_same (const check_data *data, char *script, const char *line)
{
  static const char *const keys[] = { "kind", "name", "value", "exact", "shown", "mark", "error", "ruler", "state", "lines.0" };
  said typed = SAID_ZERO, right = SAID_ZERO;
  answers (data, script, NULL, &typed);
  answers (data, script, line, &right);
  if (typed.count != right.count)
    differs (data, "not so many answers as", line);
  for (size_t i = 0; i < sizeof keys / sizeof keys[0] && typed.count && right.count; i++)
    {
      const char *a = said_find (&typed, typed.count - 1, keys[i]), *b = said_find (&right, right.count - 1, keys[i]);
      if ((a == NULL) != (b == NULL) || (a && strcmp (a, b) != 0))
        differs (data, keys[i], a ? a : "not there");
    }
  said_clear (&typed);
  said_clear (&right);
}

static void
check_hint (const check_data *data, char *script, const char *hint, int works)
{
  said s = SAID_ZERO;
  const char *last;
  br_sheet *sheet = sheet_before (&last, script, &s);
  if (sheet_run (sheet, &s, last) == BR_OK)
    differs (data, "is not refused", last);
  else if (!strstr (s.faults[0].error.hint, hint))
    differs (data, s.faults[0].error.message, s.faults[0].error.hint);
  br_sheet_free (sheet);
  said_clear (&s);
  if (works)
    answers (data, script, hint, &s);
  said_clear (&s);
}

static void
check_row (const check_data *data)
{
  char *script = data->field[0], *expected = data->field[1], *equals;
  sheet_lines (script);
  script[measure_unescape (script)] = 0;
  if (expected[0] == '=')
    check_same (data, script, expected + 2);
  else if (expected[0] == '!')
    for (char *hint = strtok (expected + (expected[1] == '?' ? 3 : 2), "|"); hint; hint = strtok (NULL, "|"))
      {
        while (*hint == ' ')
          hint++;
        for (size_t n = strlen (hint); n && hint[n - 1] == ' '; n--)
          hint[n - 1] = 0;
        check_hint (data, script, hint, data->field[1][1] != '?');
      }
  else
    {
      said s = SAID_ZERO;
      equals = strchr (expected, '=');
      *equals = 0;
      answers (data, script, NULL, &s);
      const char *value = s.count ? said_find (&s, s.count - 1, expected) : NULL;
      if (!value || strcmp (value, equals + 1) != 0)
        differs (data, expected, value ? value : "not there");
      said_clear (&s);
    }
}

static void
phrases (void **state)
{
  check_data data;
  int rows = 0;
  (void) state;
  check_open (&data, "phrases.txt", '\t');
  /* What a phrase writes is written.  */
  assert_int_equal (lesson_enter (NULL), 0);
  for (; check_next (&data); rows++)
    {
      assert_int_equal (data.fields, 2);
      check_row (&data);
    }
  assert_int_equal (lesson_leave (NULL), 0);
  assert_true (rows >= 90);
  assert_int_equal (differences, 0);
}

/* A line of more words than are looked at gets no hint made of some of them, while a shorter one does.  */
static void
test_many_words (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  assert_int_not_equal (sheet_run (sheet, &s, "what would the circumference come out at then of 3"), BR_OK);
  assert_string_equal (s.faults[0].error.hint, "write `circumference(3)`");
  said_clear (&s);
  assert_int_not_equal (sheet_run (sheet, &s, "what would the circumference come out at then of 3"
    " a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a a"), BR_OK);
  assert_string_equal (s.faults[0].error.hint, "help circumference");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* IS has a place for the slot NUMBER.  */
static int
takes_slot (const char *is, int number)
{
  for (; *is; is++)
    if (strchr ("${@", *is) && is[1] == '0' + number)
      return 1;
  return 0;
}

/* How many rows of R that are read, and not refused with a hint, leave out what stands in a slot for numbers.  */
static int
rows_that_drop (const br__phrase_rule *r)
{
  int drop = 0;
  for (; r->typed; r++)
    {
      int number = 0;
      if (*r->is == '?' || strchr (r->is, '|'))
        continue;
      for (const char *word = r->typed; *word; word += strcspn (word, " "), word += *word == ' ')
        {
          const size_t length = strcspn (word, " ");
          if (*word == '[' || !br__phrase_is_slot (word, length))
            continue;
          number++;
          if (strchr ("*QLVMNPDS", *word) && !takes_slot (r->is, number))
            {
              print_error ("`%s` leaves out its slot %d: `%s`\n", r->typed, number, r->is);
              drop++;
            }
        }
    }
  return drop;
}

/* No number is left out in silence, but in rows that only ask, are we in inches or mm and why is the wheel 4, and of wheel from 3 to 4 what it
   was.  */
static void
test_numbers_stay (void **state)
{
  static const br__phrase_rule bad[] = { { "V of *", "$1" }, { "V of M", "?$1" }, { NULL, NULL } };
  (void) state;
  assert_int_equal (rows_that_drop (bad), 1);
  assert_int_equal (rows_that_drop (br__phrase_rules) + rows_that_drop (br__phrase_orders), 4);
}

int
main (void)
{
  static const struct CMUnitTest tests[] = { CHECK_TEST (phrases), cmocka_unit_test (test_many_words), cmocka_unit_test (test_numbers_stay) };
  return CHECK_RUN (tests);
}
