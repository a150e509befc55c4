/* SPDX-License-Identifier: GPL-3.0-or-later
   text_value.c - values, marks and dimensions as text: the value as it was typed, exact
   and decimal, the mark that it goes to, and by how much that is over or under.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <stdlib.h>
#include <string.h>

static void
value_block (const display *d, const br_record *record)
{
  text_value (d, record, br_record_text (record, "expression"));
  putc ('\n', d->stream);
  text_mark (d, record);
}

static void
value_row (table *t, const display *d, const br_record *record)
{
  char *error = text_record_error (d, record);
  const char *shown = br_record_text (record, "shown");
  const char *decimal = br_record_text (record, "decimal"), *exact = br_record_text (record, "exact");
  int cut = 0, is_short = text_is_exact (record) && text_is_short (shown, br_record_text (record, "expression"));
  char *digits = text_digits (&cut, exact, decimal, TEXT_DIGITS);
  table_add (t, br_record_text (record, "expression"));
  table_add (t, is_short && strcmp (shown, decimal) != 0 ? shown : "");
  table_addf (t, "%s%s", !cut ? "" : display_sign (d, "\xe2\x89\x88 ", "about "),
              text_is_open (record) ? shown : digits ? digits : decimal);
  table_add (t, br_record_text (record, "mark"));
  table_add (t, error ? error : "");
  table_addf (t, "%s%s", text_side (record), text_tie (record));
  free (error);
  free (digits);
}

/* What moved beside the dimension itself, before and after.  */
static void
put_changed (const display *d, const br_record *record)
{
  static const char *const headings[] = { "moved", "before", "after" };
  const br_list *rows = br_record_list (record, "changed");
  const char *name = br_record_text (record, "name");
  table t = TABLE_ZERO;
  for (size_t i = 0; i < br_list_size (rows); i++)
    {
      const br_record *row = br_list_record (rows, i);
      int itself = row && strcmp (br_record_text (row, "name"), name) == 0;
      if (!row || (itself && br_record_get (row, "before").type == BR_FIELD_NULL
                   && !*br_record_text (row, "before_shown")))
        continue;
      if (table_rows (&t) == 0)
        table_start (&t, 3, headings);
      table_add (&t, br_record_text (row, "name"));
      text_add_shown (&t, d, row, "before", "-");
      text_add_shown (&t, d, row, "after", "-");
    }
  if (table_rows (&t) > 0)
    table_put (&t, d);
  table_clear (&t);
}

static void
set_block (const display *d, const br_record *record)
{
  const char *note = br_record_text (record, "note");
  const char *tolerance = br_record_text (record, "tolerance");
  if (strcmp (br_record_text (record, "state"), "waiting") == 0)
    {
      display_put (d, br_record_text (record, "name"));
      display_put (d, " waits for ");
      text_names (d, br_record_list (record, "waiting"));
    }
  else
    {
      text_value (d, record, br_record_text (record, "name"));
      display_put (d, *tolerance ? " +- " : "");
      display_put (d, tolerance);
    }
  putc ('\n', d->stream);
  if (strcmp (text_side (record), "exact") != 0)
    text_mark (d, record);
  if (*note)
    {
      display_put (d, "  # ");
      display_wrap (d, note, 4, 4);
    }
  if (*br_record_text (record, "message"))
    {
      display_put (d, "  ");
      display_wrap (d, br_record_text (record, "message"), 2, 2);
    }
  put_changed (d, record);
}

/* forget, undo and redo: what they did, in a word, and what moved.  */
static void
moved_block (const display *d, const br_record *record)
{
  display_put (d, br_record_kind (record));
  display_put (d, *br_record_text (record, "name") ? " " : "");
  display_put (d, br_record_text (record, "name"));
  putc ('\n', d->stream);
  put_changed (d, record);
}

static void
renamed_block (const display *d, const br_record *record)
{
  display_put (d, br_record_text (record, "name"));
  display_put (d, " is called ");
  text_strong (d, br_record_text (record, "to"));
  display_put (d, " now, in ");
  text_count (d, br_record_count (record, "lines"), "line", "lines");
  putc ('\n', d->stream);
}

/* The value in full.  */
static void
exact_block (const display *d, const br_record *record)
{
  const char *exact = br_record_text (record, "exact"), *decimal = br_record_text (record, "decimal");
  const char *unit = br_record_text (record, "unit"), *shown = br_record_text (record, "shown");
  const char *typed = br_record_text (record, "expression");
  int same = strcmp (typed, exact) == 0;
  display_put (d, same ? "" : typed);
  if (*exact)
    {
      display_put (d, same ? "" : " = ");
      text_strong (d, exact);
      display_put (d, *unit ? " " : "");
      display_put (d, unit);
      /* 19/8 is 2-3/8 */
      display_put (d, *shown && strchr (shown + 1, '-') ? " = " : "");
      display_put (d, *shown && strchr (shown + 1, '-') ? shown : "");
    }
  if (!*exact || strcmp (decimal, exact) != 0)
    {
      display_put (d, br_record_truth (record, "decimal_exact") ? " = " : display_sign (d, " \xe2\x89\x88 ", " is about "));
      display_put (d, decimal);
      display_put (d, *unit ? " " : "");
      display_put (d, unit);
    }
  putc ('\n', d->stream);
}

static const char *const value_headings[] = { "typed", "exact", "decimal", "mark", "error", "" };

const text_kind text_values[] = {
  { "value", value_block, value_row, 6, value_headings, 0, NULL },
  { "set", set_block, NULL, 0, NULL, 0, NULL },
  { "forgotten", moved_block, NULL, 0, NULL, 0, NULL },
  { "undone", moved_block, NULL, 0, NULL, 0, NULL },
  { "redone", moved_block, NULL, 0, NULL, 0, NULL },
  { "exact", exact_block, NULL, 0, NULL, 0, NULL },
  { "renamed", renamed_block, NULL, 0, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL, 0, NULL }
};
