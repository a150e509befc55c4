/* SPDX-License-Identifier: GPL-3.0-or-later
   text_value.c - values, marks and dimensions as text: the value as it was typed, exact
   and decimal, the mark that it goes to, and by how much that is over or under.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "text.h"

#include <stdlib.h>
#include <string.h>

#include "fields.h"
#include "ruler.h"

#define KEY_COLUMNS 9

static int
is_exact (const br_record *record)
{
  return br_record_get (record, "exact").type == BR_FIELD_TEXT;
}

const char *
text_equals (const display *d, const br_record *record)
{
  return is_exact (record) ? "=" : display_sign (d, "\xe2\x89\x88", "is about");
}

void
text_pair (const display *d, const char *key, const char *value)
{
  int pad = KEY_COLUMNS - (int) strlen (key);
  display_put (d, "  ");
  display_put (d, key);
  display_repeat (d, " ", pad > 1 ? pad : 1);
  display_put (d, value);
  putc ('\n', d->stream);
}

void
text_names (const display *d, const br_list *names)
{
  for (size_t i = 0; i < fields_in (names); i++)
    {
      display_put (d, i ? ", " : "");
      display_put (d, field_text_at (names, i));
    }
}

/* 1 if both texts are the same number.  */
static int
same_number (const char *one, const char *other)
{
  br_number x = BR_NUMBER_ZERO, y = BR_NUMBER_ZERO;
  int same = field_number (&x, one) && field_number (&y, other) && br_number_equal (&x, &y);
  br_number_clear (&x);
  br_number_clear (&y);
  return same;
}

char *
text_shown (const br_record *record, const char *key)
{
  char buffer[80];
  br_number x = BR_NUMBER_ZERO;
  const char *exact = field_text (record, key);
  const char *text = exact;
  snprintf (buffer, sizeof buffer, "%s_shown", key);
  if (*field_text (record, buffer))
    return strdup (field_text (record, buffer));
  if (br_number_read (&x, exact, strlen (exact), NULL) == BR_OK
      && br_number_write_mixed (buffer, sizeof buffer, &x) < sizeof buffer)
    text = buffer;
  br_number_clear (&x);
  return strdup (text);
}

static const char *
plus (const char *number)
{
  return field_sign (number) > 0 ? "+" : "";
}

char *
text_error (const display *d, const char *error, const char *decimal)
{
  char *text = NULL;
  int length;
  const char *about = display_sign (d, "\xe2\x89\x88 ", "about ");
  if (!*error && !*decimal)
    return strdup ("");
  if (*error && field_sign (error) == 0)
    return strdup ("0");
  if (!*error)
    length = asprintf (&text, "%s%s%s", about, plus (decimal), decimal);
  else if (!*decimal || strcmp (error, decimal) == 0)
    length = asprintf (&text, "%s%s", plus (error), error);
  else
    length = asprintf (&text, "%s%s %s%s%s", plus (error), error,
                       same_number (error, decimal) ? "= " : about, plus (decimal), decimal);
  return length < 0 ? NULL : text;
}

static char *
record_error (const display *d, const br_record *record)
{
  return text_error (d, field_text (record, "error"), field_text (record, "error_decimal"));
}

const char *
text_side (const br_record *record)
{
  const char *error = field_text (record, "error");
  const char *known = *error ? error : field_text (record, "error_decimal");
  int sign = field_sign (known);
  if (!*known)
    return "";
  if (sign == 0)
    return *error ? "exact" : "";
  return sign > 0 ? "over" : "under";
}

/* "by 3/100", the size of the error without its sign, or "" for none.  The caller frees it.  */
static char *
error_size (const display *d, const br_record *record)
{
  const char *error = field_text (record, "error");
  const char *decimal = field_text (record, "error_decimal");
  const char *known = *error ? error : decimal;
  char *text = NULL;
  if (field_sign (known) == 0)
    return strdup ("");
  int length = asprintf (&text, " by %s%s", *error ? "" : display_sign (d, "\xe2\x89\x88 ", "about "),
                         known + (*known == '-'));
  return length < 0 ? NULL : text;
}

/* Puts TEXT, which it frees; NULL is a text that found no memory.  */
static void
put_free (const display *d, char *text)
{
  display_put (d, text ? text : "(out of memory)");
  free (text);
}

static void
put_strong (const display *d, const char *text)
{
  display_bold (d, 1);
  display_put (d, text);
  display_bold (d, 0);
}

/* What is known of a value, once each: "7/8 + 1/2 = 1-3/8 = 1.375 in".  */
static void
put_value (const display *d, const br_record *record, const char *name)
{
  const char *shown = field_text (record, "shown");
  const char *decimal = field_text (record, "decimal");
  const char *unit = field_text (record, "unit");
  int exact = is_exact (record);
  int new_shown = exact && *shown && strcmp (shown, name) != 0;
  int new_decimal = !exact || (strcmp (decimal, name) != 0 && strcmp (decimal, shown) != 0
                               && strcmp (decimal, field_text (record, "exact")) != 0);
  display_put (d, name);
  if (new_shown)
    {
      display_put (d, *name ? " = " : "");
      put_strong (d, shown);
    }
  if (new_decimal && *decimal)
    {
      display_put (d, field_truth (record, "decimal_exact") ? " = "
                      : display_sign (d, " \xe2\x89\x88 ", " is about "));
      if (exact)
        display_put (d, decimal);
      else
        put_strong (d, decimal);
      display_put (d, *unit ? " " : "");
      display_put (d, unit);
    }
}

/* Where the mark lies: "exactly", or "over by 3/100, error +3/100 = +0.03".  */
static void
put_side (const display *d, const br_record *record)
{
  const char *side = text_side (record);
  int exactly = strcmp (side, "exact") == 0;
  if (exactly || !*side)
    {
      display_put (d, exactly ? ", exactly" : "");
      return;
    }
  display_put (d, ", ");
  display_put (d, side);
  display_put (d, ": error ");
  put_free (d, record_error (d, record));
}

/* The line of the mark, for a value that is on a ruler at all.  */
static void
put_mark (const display *d, const br_record *record)
{
  const char *mark = field_text (record, "mark");
  const char *ruler = field_text (record, "ruler");
  if (!*mark)
    return;
  display_put (d, "  on the ");
  display_put (d, ruler);
  display_put (d, *ruler ? " ruler: " : "ruler: ");
  put_strong (d, mark);
  put_side (d, record);
  putc ('\n', d->stream);
}

static void
value_block (const display *d, const br_record *record)
{
  put_value (d, record, field_text (record, "expression"));
  putc ('\n', d->stream);
  put_mark (d, record);
}

static void
value_row (table *t, const display *d, const br_record *record)
{
  char *error = record_error (d, record);
  const char *shown = field_text (record, "shown");
  const char *decimal = field_text (record, "decimal");
  table_add (t, field_text (record, "expression"));
  table_add (t, is_exact (record) && strcmp (shown, decimal) != 0 ? shown : "");
  table_addf (t, "%s%s", field_truth (record, "decimal_exact") ? ""
              : display_sign (d, "\xe2\x89\x88 ", "about "), decimal);
  table_add (t, field_text (record, "mark"));
  table_add (t, error ? error : "");
  table_add (t, text_side (record));
  free (error);
}

static void
put_picture (const display *d, const br_record *record)
{
  const char *exact = field_text (record, "exact");
  const char *decimal = field_text (record, "decimal");
  const char *typed = field_text (record, "expression");
  const char *label = *typed && strlen (typed) <= 24 ? typed : decimal;
  char *size = error_size (d, record);
  char *name = NULL;
  const char *side = text_side (record);
  if (asprintf (&name, "%s%s%s", strcmp (side, "exact") == 0 ? "exactly on this mark" : "this mark, ",
                strcmp (side, "exact") == 0 ? "" : side, size ? size : "") >= 0)
    {
      ruler_picture picture = { *exact ? exact : decimal, label, field_text (record, "value"),
                                field_text (record, "ruler"), name };
      ruler_put (d, &picture);
      free (name);
    }
  free (size);
}

static void
rounding_block (const display *d, const br_record *record)
{
  value_block (d, record);
  if (field_truth (record, "tie"))
    fputs ("  a tie: just half way between two marks\n", d->stream);
  put_picture (d, record);
}

static void
rounding_row (table *t, const display *d, const br_record *record)
{
  char *error = record_error (d, record);
  const char *expression = field_text (record, "expression");
  const char *shown = field_text (record, "shown");
  table_add (t, *expression ? expression : shown);
  table_add (t, is_exact (record) && strcmp (shown, expression) != 0 ? shown : "");
  table_add (t, field_text (record, "mark"));
  table_add (t, error ? error : "");
  table_addf (t, "%s%s", text_side (record), field_truth (record, "tie") ? ", a tie" : "");
  table_add (t, field_text (record, "ruler"));
  free (error);
}

static void
total_block (const display *d, const br_record *record)
{
  const char *shown = field_text (record, "shown");
  const char *mark = field_text (record, "shown_mark");
  display_put (d, "  total ");
  display_put (d, is_exact (record) ? "" : display_sign (d, "\xe2\x89\x88 ", "about "));
  display_put (d, *shown ? shown : field_text (record, "exact"));
  display_put (d, ", the marks add up to ");
  put_strong (d, *mark ? mark : field_text (record, "mark"));
  put_side (d, record);
  putc ('\n', d->stream);
}

static void
marks_block (const display *d, const br_record *record)
{
  static const char *const headings[] = { "ruler", "mark", "error", "" };
  const br_list *rows = field_list (record, "rows");
  table t = TABLE_ZERO;
  if (*field_text (record, "expression"))
    {
      put_value (d, record, field_text (record, "expression"));
      putc ('\n', d->stream);
    }
  table_start (&t, 4, headings);
  for (size_t i = 0; i < fields_in (rows); i++)
    {
      const br_record *row = field_record_at (rows, i);
      char *error = record_error (d, row);
      table_add (&t, field_text (row, "ruler"));
      table_add (&t, field_text (row, "mark"));
      table_add (&t, error ? error : "");
      table_add (&t, text_side (row));
      free (error);
    }
  table_put (&t, d);
  table_clear (&t);
}

/* A cell for the exact field KEY, or NONE.  */
static void
add_shown (table *t, const br_record *record, const char *key, const char *none)
{
  char *shown = text_shown (record, key);
  table_add (t, shown && *shown ? shown : none);
  free (shown);
}

/* What moved beside the dimension itself, before and after.  */
static void
put_changed (const display *d, const br_record *record)
{
  static const char *const headings[] = { "moved", "before", "after" };
  const br_list *rows = field_list (record, "changed");
  const char *name = field_text (record, "name");
  table t = TABLE_ZERO;
  table_start (&t, 3, headings);
  for (size_t i = 0; i < fields_in (rows); i++)
    {
      const br_record *row = field_record_at (rows, i);
      int itself = row && strcmp (field_text (row, "name"), name) == 0;
      if (!row || (itself && br_record_get (row, "before").type == BR_FIELD_NULL
                   && !*field_text (row, "before_shown")))
        continue;
      table_add (&t, field_text (row, "name"));
      add_shown (&t, row, "before", "-");
      add_shown (&t, row, "after", "-");
    }
  if (table_rows (&t) > 0)
    table_put (&t, d);
  table_clear (&t);
}

static void
set_block (const display *d, const br_record *record)
{
  const char *note = field_text (record, "note");
  const char *tolerance = field_text (record, "tolerance");
  if (strcmp (field_text (record, "state"), "waiting") == 0)
    {
      display_put (d, field_text (record, "name"));
      display_put (d, " waits for ");
      text_names (d, field_list (record, "waiting"));
    }
  else
    {
      put_value (d, record, field_text (record, "name"));
      display_put (d, *tolerance ? " +- " : "");
      display_put (d, tolerance);
    }
  if (*note)
    {
      display_put (d, "  # ");
      display_put (d, note);
    }
  putc ('\n', d->stream);
  if (strcmp (text_side (record), "exact") != 0)
    put_mark (d, record);
  put_changed (d, record);
}

/* forget, undo and redo: what they did, in a word, and what moved.  */
static void
moved_block (const display *d, const br_record *record)
{
  display_put (d, br_record_kind (record));
  display_put (d, *field_text (record, "name") ? " " : "");
  display_put (d, field_text (record, "name"));
  putc ('\n', d->stream);
  put_changed (d, record);
}

static const char *const value_headings[] = { "typed", "exact", "decimal", "mark", "error", "" };
static const char *const rounding_headings[] = { "typed", "value", "mark", "error", "", "ruler" };

const text_kind text_values[] = {
  { "value", value_block, value_row, 6, value_headings },
  { "rounding", rounding_block, rounding_row, 6, rounding_headings },
  { "total", total_block, NULL, 0, NULL },
  { "marks", marks_block, NULL, 0, NULL },
  { "set", set_block, NULL, 0, NULL },
  { "forgotten", moved_block, NULL, 0, NULL },
  { "undone", moved_block, NULL, 0, NULL },
  { "redone", moved_block, NULL, 0, NULL },
  { NULL, NULL, NULL, 0, NULL }
};
