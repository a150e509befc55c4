/* SPDX-License-Identifier: GPL-3.0-or-later
   text_column.c - what became of a column of a CSV file, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <stdlib.h>
#include <string.h>

static void
total_line (const display *d, const br_record *record)
{
  char *error = text_record_error (d, record);
  char *whole = text_shown (record, "total_exact");
  char *exact = whole ? text_short (d, whole, "") : NULL;
  display_put (d, "  total ");
  display_put (d, exact ? exact : "");
  display_put (d, ", the marks add up to ");
  text_strong (d, br_record_text (record, "total_mark"));
  display_put (d, ", error ");
  display_put (d, error ? error : "");
  putc ('\n', d->stream);
  free (error);
  free (exact);
  free (whole);
}

static void
column_block (const display *d, const br_record *record)
{
  const char *size = br_record_text (record, "size");
  char *ruler = text_shown (record, "ruler");
  /* Standard output has the rows themselves.  */
  if (strcmp (br_record_text (record, "into"), "-") == 0)
    goto out;
  display_put (d, *size ? size : "column");
  display_put (d, *size ? " size of column " : " ");
  display_put (d, br_record_text (record, "name"));
  display_put (d, ": ");
  text_count (d, br_record_count (record, "rows"), "row", "rows");
  display_put (d, ", ");
  text_count (d, br_record_count (record, "marks"), "mark", "marks");
  display_put (d, " on a ruler of ");
  display_put (d, ruler ? ruler : "");
  display_put (d, ", into ");
  text_strong (d, br_record_text (record, "into"));
  putc ('\n', d->stream);
  if (*br_record_text (record, "total_mark"))
    total_line (d, record);
out:
  free (ruler);
}

const text_kind text_columns[] = {
  { "column", column_block, NULL, 0, NULL, 0 },
  { NULL, NULL, NULL, 0, NULL, 0 }
};
