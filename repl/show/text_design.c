/* SPDX-License-Identifier: GPL-3.0-or-later
   text_design.c - tolerances as text, what they add up to, and sizes that were looked for.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

static void
put_message (const display *d, const br_record *record, int indent)
{
  const char *message = br_record_text (record, "message");
  if (!*message)
    return;
  display_repeat (d, " ", indent);
  display_wrap (d, message, indent, indent);
}

/* ---- Tolerances ---- */

static void
tolerance_row (table *t, const display *d, const br_record *record)
{
  (void) d;
  table_add (t, br_record_text (record, "name"));
  table_addf (t, "+- %s", br_record_text (record, "shown"));
  table_add (t, br_record_truth (record, "own") ? "given with its size" : "");
  table_add (t, br_record_truth (record, "known") ? "" : "no size yet");
}

static void
tolerance_block (const display *d, const br_record *record)
{
  text_strong (d, br_record_text (record, "name"));
  fputs (" +- ", d->stream);
  display_put (d, br_record_text (record, "shown"));
  if (br_record_truth (record, "own"))
    fputs (", given with its size", d->stream);
  if (!br_record_truth (record, "known"))
    fputs (" (it has no size yet)", d->stream);
  putc ('\n', d->stream);
}

/* ---- Stacks ---- */

static void
contributor_row (table *t, const br_record *row)
{
  const char *share = br_record_text (row, "share");
  table_add (t, br_record_text (row, "name"));
  table_addf (t, "+- %s", br_record_text (row, "tolerance_shown"));
  table_addf (t, "%s%s", *share ? "x " : "", br_record_text (row, "sensitivity_decimal"));
  table_add (t, br_record_text (row, "adds_shown"));
  table_add (t, share);
  table_add (t, br_record_text (row, "share_of_squares"));
}

static void
put_contributors (const display *d, const br_list *rows)
{
  static const char *const headings[] =
    { "name", "tolerance", "counts", "adds", "of the worst case", "of the squares" };
  table t = TABLE_ZERO;
  table_start (&t, sizeof headings / sizeof headings[0], headings);
  for (size_t i = 0; i < br_list_size (rows); i++)
    contributor_row (&t, br_list_record (rows, i));
  table_put (&t, d);
  table_clear (&t);
}

static void
stack_block (const display *d, const br_record *record)
{
  const br_list *rows = br_record_list (record, "contributors");
  const char *rss = br_record_text (record, "rss_shown");
  text_strong (d, br_record_text (record, "expression"));
  fputs (": ", d->stream);
  text_put_cut (d, br_record_text (record, "nominal_shown"));
  fputs (" as drawn\n", d->stream);
  if (br_list_size (rows))
    {
      char *worst = NULL;
      size_t size = 0;
      FILE *stream = open_memstream (&worst, &size);
      if (stream)
        {
          fprintf (stream, "from %s to %s%s", br_record_text (record, "low_shown"),
                   br_record_text (record, "high_shown"),
                   br_record_truth (record, "exact_bounds") ? "" : ", bounds that are certain but need not be reached");
          if (fclose (stream) == 0)
            text_pair (d, "worst case", worst);
          free (worst);
        }
      if (*rss)
        {
          char band[96];
          snprintf (band, sizeof band, "+- %.80s", rss);
          text_pair (d, "root sum square", band);
        }
      put_contributors (d, rows);
    }
  put_message (d, record, 2);
}

/* ---- Sizes looked for ---- */

static void
put_keeping (const display *d, const br_list *rows)
{
  if (!br_list_size (rows))
    return;
  fputs ("  marks that keep every check: ", d->stream);
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      const char *side = br_record_text (row, "side");
      fputs (i ? ", " : "", d->stream);
      display_put (d, br_record_text (row, "mark"));
      if (strcmp (side, "on") != 0)
        {
          putc (' ', d->stream);
          display_put (d, side);
        }
    }
  putc ('\n', d->stream);
}

static void
found_block (const display *d, const br_record *record)
{
  int64_t number = br_record_count (record, "solution"), count = br_record_count (record, "solutions");
  const char *name = br_record_text (record, "name");
  if (count <= 0)
    {
      put_message (d, record, 0);
      return;
    }
  if (count > 1)
    fprintf (d->stream, "%" PRId64 " of %" PRId64 ": ", number, count);
  text_value (d, record, name);
  text_mark (d, record);
  put_keeping (d, br_record_list (record, "keeping"));
  put_message (d, record, 2);
}

static const char *const tolerance_headings[] = { "name", "tolerance", "", "" };

const text_kind text_designs[] = {
  { "tolerance", tolerance_block, tolerance_row, 4, tolerance_headings, 1, NULL },
  { "stack", stack_block, NULL, 0, NULL, 0, NULL },
  { "found", found_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
