/* SPDX-License-Identifier: GPL-3.0-or-later
   text_lesson.c - worksheets, keys and marks as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <string.h>

/* Rows of a long list stand in a file; the terminal gets those that want a look.  */
#define MOST_PROBLEMS 6

static void
made_block (const display *d, const br_record *record)
{
  text_strong (d, br_record_text (record, "file"));
  fputs (": ", d->stream);
  text_count (d, br_record_count (record, "versions"), "version", "versions");
  fputs (" of ", d->stream);
  text_count (d, br_record_count (record, "problems"), "problem", "problems");
  if (strcmp (br_record_kind (record), "worksheet") == 0)
    {
      fputs (", ", d->stream);
      text_count (d, br_record_count (record, "papers"), "paper", "papers");
    }
  fprintf (d->stream, ", seed %" PRId64 "\n", br_record_count (record, "seed"));
}

static void
words_block (const display *d, const br_record *record)
{
  int64_t count = br_record_count (record, "sentences");
  const char *file = br_record_text (record, "file");
  text_strong (d, *file ? file : "words");
  fputs (": ", d->stream);
  if (count)
    text_count (d, count, "sentence", "sentences");
  fprintf (d->stream, "%s%s\n", !br_record_truth (record, "english") ? "" : count ? ", English beside" : "English",
           br_record_truth (record, "explained") ? ", words of the trade explained" : "");
}

static void
own_block (const display *d, const br_record *record)
{
  int answer = strcmp (br_record_kind (record), "answer") == 0;
  fputs (answer ? "answer: " : "problem: ", d->stream);
  if (br_list_size (br_record_list (record, "waiting")))
    {
      display_put (d, "waits for ");
      text_names (d, br_record_list (record, "waiting"));
    }
  display_put (d, br_record_text (record, answer ? "shown" : "text"));
  putc ('\n', d->stream);
}

/* Bytes of a verdict without the place and the reason, which are in the file.  */
static size_t
short_of (const char *verdict)
{
  const char *place = strstr (verdict, " at character ");
  return place ? (size_t) (place - verdict) : strlen (verdict);
}

static void
grade_row (table *t, const display *d, const br_record *record)
{
  const br_list *verdicts = br_record_list (record, "verdicts");
  char wrong[300] = "";
  size_t told = 0;
  (void) d;
  for (size_t i = 0; i < br_list_size (verdicts) && told <= MOST_PROBLEMS; i++)
    {
      const char *verdict = br_list_text (verdicts, i);
      size_t used = strlen (wrong);
      if (strcmp (verdict, "right") == 0)
        continue;
      if (told++ < MOST_PROBLEMS)
        snprintf (wrong + used, sizeof wrong - used, "%s%zu: %.*s", used ? "; " : "", i + 1, (int) short_of (verdict), verdict);
      else
        snprintf (wrong + used, sizeof wrong - used, " ...");
    }
  table_add (t, br_record_text (record, "student"));
  table_add (t, br_record_text (record, "version"));
  table_add (t, br_record_text (record, "marks"));
  table_add (t, br_record_text (record, "of"));
  table_add (t, *br_record_text (record, "note") ? br_record_text (record, "note") : wrong);
}

static void
summary_block (const display *d, const br_record *record)
{
  static const char *const problem_headings[] =
  { "problem", "right", "form", "known mistake", "other", "unreadable", "no answer" };
  static const char *const keys[] = { "problem", "right", "form", "known_mistake", "other_wrong", "unreadable", "no_answer" };
  static const char *const mistake_headings[] = { "mistake", "times", "in problems" };
  const br_list *problems = br_record_list (record, "problems"), *mistakes = br_record_list (record, "mistakes");
  table t = TABLE_ZERO;
  text_strong (d, br_record_text (record, "file"));
  fputs (": ", d->stream);
  text_count (d, br_record_count (record, "papers"), "paper", "papers");
  if (*br_record_text (record, "mean"))
    fprintf (d->stream, ", %s marks on average", br_record_text (record, "mean"));
  putc ('\n', d->stream);
  table_start (&t, 7, problem_headings);
  for (size_t i = 0; i < br_list_size (problems); i++)
    for (int k = 0; k < 7; k++)
      table_addf (&t, "%" PRId64, br_record_count (br_list_record (problems, i), keys[k]));
  table_put (&t, d);
  table_clear (&t);
  table_start (&t, 3, mistake_headings);
  for (size_t i = 0; i < br_list_size (mistakes); i++)
    {
      const br_record *row = br_list_record (mistakes, i);
      table_add (&t, br_record_text (row, "mistake"));
      table_addf (&t, "%" PRId64, br_record_count (row, "count"));
      table_add (&t, br_record_text (row, "in_problems"));
    }
  if (table_rows (&t) > 0)
    table_put (&t, d);
  table_clear (&t);
}

static size_t
length_of (const br_record *record, const char *key)
{
  return br_list_size (br_record_list (record, key));
}

/* How many of each there are; what they are is in the file, and as JSON.  */
static void
review_row (table *t, const display *d, const br_record *record)
{
  (void) d;
  table_add (t, br_record_text (record, "file"));
  table_addf (t, "%zu", length_of (record, "mistakes"));
  /* What waits does so for what is missing: that counts once.  */
  table_addf (t, "%zu", length_of (record, "missing"));
  table_addf (t, "%zu", length_of (record, "checks_failed"));
  table_addf (t, "%zu", length_of (record, "rules_failed"));
  table_addf (t, "%zu", length_of (record, "off_ruler"));
  table_addf (t, "%zu", length_of (record, "unplaced"));
  table_add (t, br_record_text (record, "drawing"));
}

static void
need_row (table *t, const display *d, const br_record *record)
{
  static const char *const keys[] = { "name", "state", "shown", "low", "high" };
  (void) d;
  for (size_t i = 0; i < 5; i++)
    table_add (t, br_record_text (record, keys[i]));
}

static void
practice_problem_block (const display *d, const br_record *record)
{
  fprintf (d->stream, "%" PRId64 ". ", br_record_count (record, "number"));
  display_put (d, br_record_text (record, "text"));
  if (*br_record_text (record, "picture"))
    {
      fputs ("\n   (", d->stream);
      display_put (d, br_record_text (record, "picture"));
      putc (')', d->stream);
    }
  fputs (br_record_count (record, "number") == 1 ? "\n   Type the answer, or hint, skip, done.\n" : "\n", d->stream);
}

static void
practice_answer_block (const display *d, const br_record *record)
{
  const char *shows = br_record_text (record, "shows");
  fputs ("   ", d->stream);
  text_strong (d, br_record_text (record, "verdict"));
  if (*shows)
    {
      fputs (": ", d->stream);
      display_put (d, shows);
    }
  fputs (br_record_truth (record, "right") ? "\n" : ". Try again.\n", d->stream);
}

static void
practice_hint_block (const display *d, const br_record *record)
{
  fputs ("   ", d->stream);
  display_put (d, br_record_text (record, "step"));
  putc ('\n', d->stream);
}

static void
practice_end_block (const display *d, const br_record *record)
{
  text_count (d, br_record_count (record, "problems"), "problem", "problems");
  fprintf (d->stream, ", %" PRId64 " right at the first go\n", br_record_count (record, "right"));
}

static void
practice_row (table *t, const display *d, const br_record *record)
{
  static const char *const keys[] = { "problem", "asked", "right", "box" };
  (void) d;
  table_add (t, br_record_text (record, "topic"));
  for (size_t i = 0; i < 4; i++)
    table_addf (t, "%" PRId64, br_record_count (record, keys[i]));
  table_add (t, br_record_text (record, "mistakes"));
}

static void
history_row (table *t, const display *d, const br_record *record)
{
  const char *student = br_record_text (record, "student");
  (void) d;
  table_add (t, *student ? student : "class");
  table_add (t, br_record_text (record, "topic"));
  table_add (t, br_record_text (record, "file"));
  table_addf (t, "%" PRId64, br_record_count (record, "right"));
  table_addf (t, "%" PRId64, br_record_count (record, "problems"));
  table_add (t, br_record_text (record, "mistakes"));
}

static const char *const history_headings[] = { "student", "topic", "file", "right", "of", "mistakes" };
static const char *const practice_headings[] = { "topic", "problem", "asked", "right", "box", "mistakes" };
static const char *const review_headings[] =
{ "design", "wrong", "missing", "checks", "rules", "ruler", "stock", "drawing" };
static const char *const need_headings[] = { "must have", "state", "is", "from", "to" };
static const char *const grade_headings[] = { "student", "version", "marks", "of", "to look at" };

const text_kind text_lessons[] =
{
  { "worksheet", made_block, NULL, 0, NULL, 0, NULL },
  { "key", made_block, NULL, 0, NULL, 0, NULL },
  { "words", words_block, NULL, 0, NULL, 0, NULL },
  { "problem", own_block, NULL, 0, NULL, 0, NULL },
  { "answer", own_block, NULL, 0, NULL, 0, NULL },
  { "grade", NULL, grade_row, 5, grade_headings, 1, NULL },
  { "grade_summary", summary_block, NULL, 0, NULL, 0, NULL },
  { "review", NULL, review_row, 8, review_headings, 1, NULL },
  { "need", NULL, need_row, 5, need_headings, 1, NULL },
  { "practice_problem", practice_problem_block, NULL, 0, NULL, 0, NULL },
  { "practice_answer", practice_answer_block, NULL, 0, NULL, 0, NULL },
  { "practice_hint", practice_hint_block, NULL, 0, NULL, 0, NULL },
  { "history", NULL, history_row, 6, history_headings, 1, NULL },
  { "practice_end", practice_end_block, NULL, 0, NULL, 0, NULL },
  { "practice_progress", NULL, practice_row, 6, practice_headings, 1, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
