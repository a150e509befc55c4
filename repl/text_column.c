/* SPDX-License-Identifier: GPL-3.0-or-later
   text_column.c - what became of a column of a CSV file, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "fields.h"

static void
put_count (const display *d, const br_record *record, const char *key, const char *one, const char *more)
{
  br_field field = br_record_get (record, key);
  int64_t count = field.type == BR_FIELD_COUNT ? field.value.count : 0;
  fprintf (d->stream, "%" PRId64 " %s", count, count == 1 ? one : more);
}

static void
total_line (const display *d, const br_record *record)
{
  char *error = text_record_error (d, record);
  char *exact = text_shown (record, "total_exact");
  display_put (d, "  total ");
  display_put (d, exact ? exact : "");
  display_put (d, ", the marks add up to ");
  text_strong (d, field_text (record, "total_mark"));
  display_put (d, ", error ");
  display_put (d, error ? error : "");
  putc ('\n', d->stream);
  free (error);
  free (exact);
}

static void
column_block (const display *d, const br_record *record)
{
  const char *size = field_text (record, "size");
  char *ruler = text_shown (record, "ruler");
  /* Standard output has the rows themselves.  */
  if (strcmp (field_text (record, "into"), "-") == 0)
    goto out;
  display_put (d, *size ? size : "column");
  display_put (d, *size ? " size of column " : " ");
  display_put (d, field_text (record, "name"));
  display_put (d, ": ");
  put_count (d, record, "rows", "row", "rows");
  display_put (d, ", ");
  put_count (d, record, "marks", "mark", "marks");
  display_put (d, " on a ruler of ");
  display_put (d, ruler ? ruler : "");
  display_put (d, ", into ");
  text_strong (d, field_text (record, "into"));
  putc ('\n', d->stream);
  if (*field_text (record, "total_mark"))
    total_line (d, record);
out:
  free (ruler);
}

const text_kind text_columns[] = {
  { "column", column_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
