/* SPDX-License-Identifier: GPL-3.0-or-later
   memory.c - each statement there is, with each of its allocations refused in turn: it says so, the sheet is
   as it was, nothing is lost, and with memory again it does its work.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "samples.h"

static br_status
run_refused (br_sheet *sheet, said *s, const char *line, long nth, int rest)
{
  check_memory_left = nth;
  check_memory_once = !rest;
  check_memory_refused = 0;
  br_status status = sheet_run (sheet, s, line);
  check_memory_left = -1;
  br_sheet_go_on (sheet);
  return status;
}

/* The first line in which NOW is not WAS is shown.  */
static void
check_equal (const char *now, const char *was, const char *line, long nth)
{
  size_t at = 0, start = 0;
  if (strcmp (now, was) == 0)
    return;
  for (; now[at] == was[at]; at++)
    if (now[at] == '\n')
      start = at + 1;
  fail_msg ("`%s`, allocation %ld refused: `%.120s` was `%.120s`", line, nth, now + start, was + start);
}

static void
check_same (br_sheet *sheet, const char *before, const char *line, long nth)
{
  char *now = samples_state (sheet);
  check_equal (now, before, line, nth);
  free (now);
}

static void
check_said (const said *s, const char *expected, const char *line, long nth)
{
  char *now = samples_said (s);
  check_equal (now, expected, line, nth);
  free (now);
}

/* REST: no allocation after it is granted either.  */
static void
refuse_each (const sheet_sample *it, int rest)
{
  br_sheet *sheet = sheet_with (samples_prelude);
  said s = SAID_ZERO;
  check_ok (run_refused (sheet, &s, it->line, -1, 0));
  char *expected = samples_said (&s);
  br_sheet_free (sheet);
  sheet = sheet_with (samples_prelude);
  char *before = samples_state (sheet);
  long nth = 0, step = 1;
  for (;; nth += step)
    {
      br_status status = run_refused (sheet, &s, it->line, nth, rest);
      if (status != BR_OK && status != BR_NO_MEMORY)
        fail_msg ("`%s`, allocation %ld refused: %s, %s", it->line, nth, br_status_name (status),
                  s.fault_count ? s.faults[0].error.message : "");
      if (status == BR_OK)
        check_said (&s, expected, it->line, nth);
      if (status == BR_OK && !check_memory_refused)
        break;
      if (status == BR_OK || it->many)
        {
          /* It could do without, or has run some of its lines.  */
          br_sheet_free (sheet);
          sheet = sheet_with (samples_prelude);
        }
      else
        check_same (sheet, before, it->line, nth);
      /* Each one at first, then some: a statement may take thousands.  */
      step = nth < check_times (300) ? 1 : 1 + (long) check_below ((uint64_t) (nth / check_times (20)));
    }
  free (before);
  free (expected);
  sheet_end (sheet, &s);
}

static void
each_statement (int rest)
{
  check_memory_limit (-1);
  for (size_t i = 0; i < CHECK_COUNT (samples); i++)
    {
      if (strcmp (samples[i].word, "recover") == 0)
        continue;       /* nothing is left here to be recovered: unsaved.script has that */
      check_memory_blocks = 0;
      refuse_each (&samples[i], rest);
      if (check_memory_blocks != 0)
        fail_msg ("`%s`: %ld blocks are lost", samples[i].line, check_memory_blocks);
    }
  check_memory_free ();
}

static void one_refused (void **state) { (void) state; each_statement (0); }
static void all_refused (void **state) { (void) state; each_statement (1); }

/* The table of statements and that of samples have the same words.  */
static void
every_word (void **state)
{
  const br__statement *st;
  (void) state;
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    {
      size_t k = 0;
      while (k < CHECK_COUNT (samples) && strcmp (samples[k].word, st->word) != 0)
        k++;
      if (k == CHECK_COUNT (samples))
        fail_msg ("the statement `%s` has no line in tests/sheet/samples.h", st->word);
    }
  for (size_t k = 0; k < CHECK_COUNT (samples); k++)
    if (*samples[k].word && !br__statement_find (samples[k].word, strlen (samples[k].word)))
      fail_msg ("there is no statement `%s`", samples[k].word);
}

/* All of them in one sheet, while memory runs out somewhere and comes back with the next line.  */
static void
session (void **state)
{
  (void) state;
  check_memory_limit (-1);
  for (long times = check_times (6); times > 0; times--)
    {
      said s = SAID_ZERO;
      check_memory_blocks = 0;
      br_sheet *sheet = sheet_with (samples_prelude);
      for (size_t i = 0; i < 4 * CHECK_COUNT (samples); i++)
        {
          const sheet_sample *it = &samples[check_below (CHECK_COUNT (samples))];
          /* Another content has not what the lines name.  */
          if (strcmp (it->word, "open") != 0 && strcmp (it->word, "new") != 0)
            run_refused (sheet, &s, it->line, (long) check_below (400), i & 1);
        }
      free (samples_state (sheet));
      while (sheet_run (sheet, &s, "undo") == BR_OK)
        ;
      while (sheet_run (sheet, &s, "redo") == BR_OK)
        ;
      free (samples_state (sheet));
      sheet_end (sheet, &s);
      assert_int_equal (check_memory_blocks, 0);
    }
  check_memory_free ();
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (every_word),
    CHECK_TEST (one_refused),
    CHECK_TEST (all_refused),
    CHECK_TEST (session),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, samples_start, samples_end));
}
