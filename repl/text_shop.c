/* SPDX-License-Identifier: GPL-3.0-or-later
   text_shop.c - shop answers as text: stacks of tolerances, a value that was looked for.  */
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

const text_kind text_shops[] = {
  { "stack", stack_block, NULL, 0, NULL, 0 },
  { "found", found_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
