/* SPDX-License-Identifier: GPL-3.0-or-later
   text_lesson.c - worksheets, keys and marks as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <inttypes.h>
#include <string.h>

#include "fields.h"

/* Rows of a long list are told in a file; the terminal gets those that want a look.  */
#define MOST_PROBLEMS 6

static int64_t
number_of (const br_record *record, const char *key)
{
  br_field field = br_record_get (record, key);
  return field.type == BR_FIELD_COUNT ? field.value.count : 0;
}

static void
put_count (const display *d, int64_t n, const char *one, const char *more)
{
  fprintf (d->stream, "%" PRId64 " %s", n, n == 1 ? one : more);
}

static void
made_block (const display *d, const br_record *record)
{
  text_strong (d, field_text (record, "file"));
  fputs (": ", d->stream);
  put_count (d, number_of (record, "versions"), "version", "versions");
  fputs (" of ", d->stream);
  put_count (d, number_of (record, "problems"), "problem", "problems");
  if (strcmp (br_record_kind (record), "worksheet") == 0)
    {
      fputs (", ", d->stream);
      put_count (d, number_of (record, "papers"), "paper", "papers");
    }
  fprintf (d->stream, ", seed %" PRId64 "\n", number_of (record, "seed"));
}

static void
own_block (const display *d, const br_record *record)
{
  int answer = strcmp (br_record_kind (record), "answer") == 0;
  fputs (answer ? "answer: " : "problem: ", d->stream);
  display_put (d, field_text (record, answer ? "shown" : "text"));
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
  const br_list *verdicts = field_list (record, "verdicts");
  char wrong[300] = "";
  size_t told = 0;
  (void) d;
  for (size_t i = 0; i < fields_in (verdicts) && told <= MOST_PROBLEMS; i++)
    {
      const char *verdict = field_text_at (verdicts, i);
      size_t used = strlen (wrong);
      if (strcmp (verdict, "right") == 0)
        continue;
      if (told++ < MOST_PROBLEMS)
        snprintf (wrong + used, sizeof wrong - used, "%s%zu: %.*s", used ? "; " : "", i + 1, (int) short_of (verdict), verdict);
      else
        snprintf (wrong + used, sizeof wrong - used, " ...");
    }
  table_add (t, field_text (record, "student"));
  table_add (t, field_text (record, "version"));
  table_add (t, field_text (record, "marks"));
  table_add (t, field_text (record, "of"));
  table_add (t, *field_text (record, "note") ? field_text (record, "note") : wrong);
}

static void
summary_block (const display *d, const br_record *record)
{
  static const char *const problem_headings[] =
  { "problem", "right", "form", "known mistake", "other", "unreadable", "no answer" };
  static const char *const keys[] = { "problem", "right", "form", "known_mistake", "other_wrong", "unreadable", "no_answer" };
  static const char *const mistake_headings[] = { "mistake", "times", "in problems" };
  const br_list *problems = field_list (record, "problems"), *mistakes = field_list (record, "mistakes");
  table t = TABLE_ZERO;
  text_strong (d, field_text (record, "file"));
  fputs (": ", d->stream);
  put_count (d, number_of (record, "papers"), "paper", "papers");
  if (*field_text (record, "mean"))
    fprintf (d->stream, ", %s marks on average", field_text (record, "mean"));
  putc ('\n', d->stream);
  table_start (&t, 7, problem_headings);
  for (size_t i = 0; i < fields_in (problems); i++)
    for (int k = 0; k < 7; k++)
      table_addf (&t, "%" PRId64, number_of (field_record_at (problems, i), keys[k]));
  table_put (&t, d);
  table_clear (&t);
  table_start (&t, 3, mistake_headings);
  for (size_t i = 0; i < fields_in (mistakes); i++)
    {
      const br_record *row = field_record_at (mistakes, i);
      table_add (&t, field_text (row, "mistake"));
      table_addf (&t, "%" PRId64, number_of (row, "count"));
      table_add (&t, field_text (row, "in_problems"));
    }
  if (table_rows (&t) > 0)
    table_put (&t, d);
  table_clear (&t);
}

static const char *const grade_headings[] = { "student", "version", "marks", "of", "to look at" };

const text_kind text_lessons[] =
{
  { "worksheet", made_block, NULL, 0, NULL, 0 },
  { "key", made_block, NULL, 0, NULL, 0 },
  { "problem", own_block, NULL, 0, NULL, 0 },
  { "answer", own_block, NULL, 0, NULL, 0 },
  { "grade", NULL, grade_row, 5, grade_headings, 1 },
  { "grade_summary", summary_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
