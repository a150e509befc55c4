/* SPDX-License-Identifier: GPL-3.0-or-later
   text_shop.c - shop answers as text: stacks of tolerances, a value that was looked for,
   equal divisions, scales that fit a paper.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <stdlib.h>
#include <string.h>

#include "fields.h"

static void
pair_if (const display *d, const br_record *record, const char *key, const char *label)
{
  char *value = text_shown (record, key);
  if (value && *value)
    text_pair (d, label, value);
  free (value);
}

static void
stack_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "from", "turns into", "tolerance", "share" };
  const br_list *rows = field_list (record, "contributors");
  table t = TABLE_ZERO;
  display_put (d, field_text (record, "expression"));
  fputs (*field_text (record, "expression") ? "\n" : "", d->stream);
  pair_if (d, record, "nominal", "nominal");
  pair_if (d, record, "low", "lowest");
  pair_if (d, record, "high", "highest");
  pair_if (d, record, "rss", "likely");
  table_start (&t, 4, headings);
  for (size_t i = 0; i < fields_in (rows); i++)
    {
      const br_record *row = field_record_at (rows, i);
      table_add (&t, field_text (row, "name"));
      table_add (&t, field_text (row, "sensitivity"));
      text_add_shown (&t, row, "tolerance", "");
      text_add_shown (&t, row, "share", "");
    }
  if (table_rows (&t) > 0)
    table_put (&t, d);
  table_clear (&t);
}

static void
found_block (const display *d, const br_record *record)
{
  const char *shown = field_text (record, "shown");
  char *exact = text_shown (record, "exact");
  char *error = text_error (d, field_text (record, "error"), field_text (record, "error_decimal"));
  display_put (d, field_text (record, "name"));
  display_put (d, " ");
  display_put (d, text_equals (d, record));
  display_put (d, " ");
  text_strong (d, *shown ? shown : exact && *exact ? exact : field_text (record, "decimal"));
  putc ('\n', d->stream);
  pair_if (d, record, "mark", "mark");
  if (error && *error)
    text_pair (d, "error", error);
  free (error);
  free (exact);
}

static void
division_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "mark", "from the end" };
  const br_list *marks = field_list (record, "marks");
  table t = TABLE_ZERO;
  pair_if (d, record, "piece", "piece");
  table_start (&t, 2, headings);
  for (size_t i = 0; i < fields_in (marks); i++)
    {
      table_addf (&t, "%zu", i + 1);
      char *mark = text_mixed (field_text_at (marks, i));
      table_add (&t, mark ? mark : "");
      free (mark);
    }
  if (table_rows (&t) > 0)
    table_put (&t, d);
  table_clear (&t);
}

static void
fit_row (table *t, const display *d, const br_record *record)
{
  (void) d;
  table_add (t, field_text (record, "scale"));
  text_add_shown (t, record, "drawn_width", "");
  text_add_shown (t, record, "drawn_height", "");
  table_add (t, field_truth (record, "fits") ? "fits" : "too large");
}

static const char *const fit_headings[] = { "scale", "width", "height", "paper" };

const text_kind text_shops[] = {
  { "stack", stack_block, NULL, 0, NULL },
  { "found", found_block, NULL, 0, NULL },
  { "division", division_block, NULL, 0, NULL },
  { "fit", NULL, fit_row, 4, fit_headings },
  { NULL, NULL, NULL, 0, NULL }
};
