/* SPDX-License-Identifier: GPL-3.0-or-later
   text_round.c - marks as text: a value on a ruler with its picture, several in a table,
   the total that they keep, and the nearest mark of every ruler.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <stdlib.h>
#include <string.h>

#include "show/ruler_text.h"

#define LONGEST_LABEL 24
#define LEAST_PICTURE 60      /* columns */

/* What stands over the arrow; the caller frees it.  */
static char *
arrow_label (const display *d, const br_record *record)
{
  const char *typed = br_record_text (record, "expression");
  char *label = NULL;
  if (*typed && strlen (typed) <= LONGEST_LABEL)
    return strdup (typed);
  int cut = 0;
  char *digits = text_digits (&cut, br_record_text (record, "exact"), br_record_text (record, "decimal"), TEXT_DIGITS);
  if (digits && asprintf (&label, "%s%s", cut ? display_sign (d, "\xe2\x89\x88 ", "about ") : "", digits) < 0)
    label = NULL;
  free (digits);
  return label;
}

/* What stands under the mark; the caller frees it.  */
static char *
mark_name (const display *d, const br_record *record)
{
  const char *side = text_side (record);
  char *name = NULL;
  if (strcmp (side, "exact") == 0)
    return strdup ("exactly on this mark");
  char *size = text_error_size (d, record);
  int length = asprintf (&name, "this mark, %s%s", side, size ? size : "");
  free (size);
  return length < 0 ? NULL : name;
}

static void
put_picture (const display *d, const br_record *record)
{
  const char *exact = br_record_text (record, "exact");
  char *value = text_in_mark_unit (record, *exact ? exact : br_record_text (record, "decimal"));
  char *mark = text_in_mark_unit (record, br_record_text (record, "value"));
  char *step = text_in_mark_unit (record, br_record_text (record, "ruler"));
  char *label = arrow_label (d, record);
  char *name = mark_name (d, record);
  if (value && mark && step && label && name)
    {
      ruler_picture picture = { value, label, mark, step, name };
      ruler_put (d, &picture);
    }
  free (value);
  free (mark);
  free (step);
  free (label);
  free (name);
}

static void
rounding_block (const display *d, const br_record *record)
{
  if (!*br_record_text (record, "ruler"))
    {
      text_value (d, record, br_record_text (record, "expression"));
      fprintf (d->stream, "\n  %s: ", br_record_text (record, "note"));
      text_strong (d, br_record_text (record, "mark"));
      text_put_side (d, record);
      putc ('\n', d->stream);
      return;
    }
  text_value (d, record, br_record_text (record, "expression"));
  putc ('\n', d->stream);
  text_mark (d, record);
  if (!d->no_pictures && d->width >= LEAST_PICTURE)
    put_picture (d, record);
}

static void
rounding_row (table *t, const display *d, const br_record *record)
{
  char *error = text_record_error (d, record);
  char *ruler = text_ruler_name (record);
  const char *expression = br_record_text (record, "expression");
  const char *shown = br_record_text (record, "shown");
  char *value = text_short (d, shown, expression);
  table_add (t, *expression ? expression : shown);
  table_add (t, text_is_exact (record) && value && strcmp (shown, expression) != 0 ? value : "");
  table_add (t, br_record_text (record, "mark"));
  table_add (t, error ? error : "");
  const char *nearest = br_record_text (record, "nearest");
  table_addf (t, "%s%s%s%s", text_side (record), text_tie (record), *nearest ? ", nearest is " : "", nearest);
  table_add (t, ruler && *ruler ? ruler : br_record_text (record, "note"));
  free (error);
  free (ruler);
  free (value);
}

static void
total_block (const display *d, const br_record *record)
{
  const char *whole = br_record_text (record, "shown");
  char *shown = text_short (d, *whole ? whole : br_record_text (record, "exact"), "");
  const char *mark = br_record_text (record, "shown_mark");
  display_put (d, "  total ");
  const char *about = display_sign (d, "\xe2\x89\x88 ", "about ");
  display_put (d, text_is_exact (record) || (shown && strncmp (shown, about, strlen (about)) == 0) ? "" : about);
  display_put (d, shown ? shown : whole);
  free (shown);
  display_put (d, ", the marks add up to ");
  text_strong (d, *mark ? mark : br_record_text (record, "mark"));
  text_put_side (d, record);
  putc ('\n', d->stream);
  const char *worst = br_record_text (record, "worst_error");
  if (strcmp (worst, "0") == 0)
    return;
  char *error = text_error_of (d, record, br_record_text (record, "unit"), "mark", "worst_error");
  display_put (d, "  worst error ");
  display_put (d, error ? error : "");
  display_put (d, ": ");
  text_strong (d, br_record_text (record, "worst"));
  putc ('\n', d->stream);
  free (error);
}

/* The last of a list has what that comes to.  */
static int
list_end (const display *d, const br_record *record)
{
  const br_record *totals = br_list_record (br_record_list (record, "totals"), 0);
  if (totals && d)
    total_block (d, totals);
  return totals != NULL;
}

static void
marks_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "ruler", "mark", "error", "" };
  const br_list *rows = br_record_list (record, "rows");
  table t = TABLE_ZERO;
  if (*br_record_text (record, "expression"))
    {
      text_value (d, record, br_record_text (record, "expression"));
      putc ('\n', d->stream);
    }
  table_start (&t, 4, headings);
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      char *error = text_error_of (d, row, br_record_text (record, "unit"), "mark", "error");
      table_add (&t, br_record_text (row, "ruler"));
      table_add (&t, br_record_text (row, "mark"));
      table_add (&t, error ? error : "");
      table_addf (&t, "%s%s", text_side (row), text_tie (row));
      free (error);
    }
  table_put (&t, d);
  table_clear (&t);
}

static const char *const rounding_headings[] = { "typed", "value", "mark", "error", "", "ruler" };

const text_kind text_rounds[] = {
  { "rounding", rounding_block, rounding_row, 6, rounding_headings, 0, list_end },
  { "total", total_block, NULL, 0, NULL, 0, NULL },
  { "marks", marks_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
