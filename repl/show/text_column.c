/* SPDX-License-Identifier: GPL-3.0-or-later
   text_column.c - what became of a column of a CSV file, as text.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

static void
put_free (const display *d, char *text)
{
  display_put (d, text ? text : "(out of memory)");
  free (text);
}

/* The unit of the sheet, which is said where the cells are in another one.  */
static const char *
other_unit (const br_record *record)
{
  const char *unit = br_record_text (record, "unit"), *cells = br_record_text (record, "cells_in");
  return *cells && strcmp (cells, unit) != 0 ? unit : "";
}

/* The error under KEY.  Beside a mark in another unit it has units already.  */
static void
put_error (const display *d, const br_record *record, const char *mark, const char *key)
{
  const char *unit = text_mark_unit (record) ? "" : other_unit (record);
  put_free (d, text_error_of (d, record, br_record_text (record, "unit"), mark, key));
  display_put (d, *unit ? " " : "");
  display_put (d, unit);
}

/* A mixed number, where that is on a ruler of inches, or a decimal.  */
static void
put_total (const display *d, const br_record *record)
{
  const char *sheet = br_record_text (record, "unit"), *exact = br_record_text (record, "total_exact"), *slash = strchr (exact, '/');
  long parts = slash ? strtol (slash + 1, NULL, 10) : 1;
  int inches = !*sheet || strcmp (sheet, "in") == 0, cut = 0;
  int mixed = inches && parts > 0 && parts <= 64 && (parts & (parts - 1)) == 0;
  const char *unit = inches ? other_unit (record) : sheet;
  char *text = mixed ? text_shown (record, "total_exact") : text_digits (&cut, exact, exact, TEXT_DIGITS);
  display_put (d, cut ? display_sign (d, "\xe2\x89\x88 ", "about ") : "");
  put_free (d, text);
  display_put (d, *unit ? " " : "");
  display_put (d, unit);
}

static void
total_line (const display *d, const br_record *record)
{
  display_put (d, "  total ");
  put_total (d, record);
  display_put (d, ", the marks add up to ");
  text_strong (d, br_record_text (record, "total_mark"));
  display_put (d, ", error ");
  put_error (d, record, "total_mark", "error");
  putc ('\n', d->stream);
}

static void
worst_line (const display *d, const br_record *record)
{
  int64_t line = br_record_count (record, "worst_line");
  if (line <= 0)                /* there is none where no cell has a mark */
    return;
  if (strcmp (br_record_text (record, "worst_error"), "0") == 0)
    {
      fputs ("  each size is just on its mark\n", d->stream);
      return;
    }
  display_put (d, "  worst error ");
  put_error (d, record, "worst_mark", "worst_error");
  fprintf (d->stream, ", line %" PRId64 ": ", line);
  text_strong (d, br_record_text (record, "worst_mark"));
  putc ('\n', d->stream);
}

/* The lines that the total took off their nearest mark.  */
static void
pushed_lines (const display *d, const br_record *record)
{
  const br_list *rows = br_record_list (record, "off_nearest_rows");
  int64_t count = br_record_count (record, "off_nearest");
  if (count <= 0)
    return;
  display_put (d, "  off their nearest mark, to keep the total: ");
  text_count (d, count, "line\n", "lines\n");
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      fprintf (d->stream, "    line %" PRId64 ": ", br_record_count (row, "line"));
      text_strong (d, br_record_text (row, "mark"));
      display_put (d, ", nearest is ");
      display_put (d, br_record_text (row, "nearest"));
      putc ('\n', d->stream);
    }
  if ((size_t) count > br_list_size (rows))
    fprintf (d->stream, "    and %" PRId64 " more\n", count - (int64_t) br_list_size (rows));
}

/* What is here of sizes can become dimensions, which checks need.  */
static void
names_hint (const display *d, const br_record *record)
{
  if (!*br_record_text (record, "hint"))
    return;
  display_put (d, "  to check what rounding does to a fit: ");
  display_put (d, br_record_text (record, "hint"));
  putc ('\n', d->stream);
}

/* How the cells were found, where that is not by commas, or could be otherwise.  */
static void
parted_lines (const display *d, const br_record *record)
{
  const char *by = br_record_text (record, "cells_by");
  if (*by)
    {
      display_put (d, "  the cells stand between ");
      display_put (d, by);
      fputs (strcmp (by, "commas") == 0 ? ": 12,5 is two of them\n" : "\n", d->stream);
    }
  if (br_record_truth (record, "decimal_commas"))
    fputs ("  12,5 is read as 12.5\n", d->stream);
}

/* Of dozens the first few say enough.  */
static void
named_block (const display *d, const br_record *record)
{
  const br_list *names = br_record_list (record, "names");
  size_t count = br_list_size (names), most = 6;
  text_count (d, (int64_t) count, "size has a name now: ", "sizes have names now: ");
  for (size_t i = 0; i < count && i < most; i++)
    {
      display_put (d, i ? ", " : "");
      display_put (d, br_list_text (names, i));
    }
  fputs (count > most ? " ...\n" : "\n", d->stream);
  parted_lines (d, record);
  fputs ("  `list` shows them, `tidy` what their marks do to each check\n", d->stream);
}

/* How the cells were read, where that is not as they stand.  */
static void
cells_lines (const display *d, const br_record *record)
{
  parted_lines (d, record);
  const char *unit = br_record_text (record, "cells_in");
  int64_t more = br_record_count (record, "cells_with_more");
  if (*unit)
    {
      display_put (d, "  plain cells are in ");
      display_put (d, unit);
      fputs (", as the heading says\n", d->stream);
    }
  if (more)
    {
      display_put (d, "  only the number counts, not what else is in ");
      text_count (d, more, "cell\n", "cells\n");
    }
}

static void
column_block (const display *to, const br_record *record)
{
  const char *size = br_record_text (record, "size"), *into = br_record_text (record, "into");
  char *ruler = text_mark_unit (record) ? text_ruler_name (record) : text_shown (record, "ruler");
  display aside = *to;
  const display *d = &aside;
  int rows_here = strcmp (into, "-") == 0;
  if (rows_here && br_record_count (record, "marks") == 0)
    {
      free (ruler);
      return;
    }
  /* The rows themselves are on standard output, which may go to another program.  */
  if (rows_here)
    {
      fflush (to->stream);
      if (to->terminal)
        putc ('\n', to->stream);
      else
        aside.stream = stderr;
    }
  display_put (d, *size ? size : "column");
  display_put (d, *size ? " size of column " : " ");
  display_put (d, br_record_text (record, "name"));
  display_put (d, ": ");
  text_count (d, br_record_count (record, "rows"), "row", "rows");
  display_put (d, ", ");
  text_count (d, br_record_count (record, "marks"), "mark", "marks");
  display_put (d, " on a ruler of ");
  display_put (d, ruler ? ruler : "");
  display_put (d, rows_here ? "" : ", into ");
  text_strong (d, rows_here ? "" : into);
  putc ('\n', d->stream);
  cells_lines (d, record);
  worst_line (d, record);
  if (*br_record_text (record, "total_mark"))
    total_line (d, record);
  pushed_lines (d, record);
  names_hint (d, record);
  free (ruler);
}

const text_kind text_columns[] = {
  { "column", column_block, NULL, 0, NULL, 0, NULL },
  { "named", named_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
