/* SPDX-License-Identifier: GPL-3.0-or-later
   text_piece.c - the pieces that answers in words are put together from: a value, the mark
   it goes to, by how much that is over or under.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "show/fields.h"

#define KEY_COLUMNS 9

const char *
text_tie (const br_record *record)
{
  return br_record_truth (record, "tie") ? ", a tie" : "";
}

int
text_is_exact (const br_record *record)
{
  return br_record_get (record, "exact").type == BR_FIELD_TEXT;
}

const char *
text_equals (const display *d, const br_record *record)
{
  return text_is_exact (record) ? "=" : display_sign (d, "\xe2\x89\x88", "is about");
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
text_source (const display *d, const br_record *record)
{
  static const char origin[] = "  from ";
  const char *source = br_record_text (record, "source");
  if (!*source)
    return;
  display_put (d, origin);
  display_wrap (d, source, (int) strlen (origin), 2);
}

void
text_count (const display *d, int64_t n, const char *one, const char *more)
{
  fprintf (d->stream, "%" PRId64 " %s", n, n == 1 ? one : more);
}

void
text_names (const display *d, const br_list *names)
{
  for (size_t i = 0; i < br_list_size (names); i++)
    {
      display_put (d, i ? ", " : "");
      display_put (d, br_list_text (names, i));
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
text_mixed (const char *exact)
{
  char buffer[80];
  br_number x = BR_NUMBER_ZERO;
  const char *text = exact;
  if (br_number_read (&x, exact, strlen (exact), NULL) == BR_OK
      && br_number_write_mixed (buffer, sizeof buffer, &x) < sizeof buffer)
    text = buffer;
  br_number_clear (&x);
  return strdup (text);
}

char *
text_shown (const br_record *record, const char *key)
{
  char longer[40];
  snprintf (longer, sizeof longer, "%s_shown", key);
  const char *shown = br_record_text (record, longer);
  return *shown ? strdup (shown) : text_mixed (br_record_text (record, key));
}

void
text_add_shown (table *t, const br_record *record, const char *key, const char *none)
{
  char *shown = text_shown (record, key);
  table_add (t, shown && *shown ? shown : none);
  free (shown);
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

const char *
text_side (const br_record *record)
{
  const char *error = br_record_text (record, "error");
  const char *known = *error ? error : br_record_text (record, "error_decimal");
  int sign = field_sign (known);
  if (!*known)
    return "";
  if (sign == 0)
    return *error ? "exact" : "";
  return sign > 0 ? "over" : "under";
}

/* Puts TEXT, which it frees; NULL is a text that found no memory.  */
static void
put_free (const display *d, char *text)
{
  display_put (d, text ? text : "(out of memory)");
  free (text);
}

void
text_strong (const display *d, const char *text)
{
  display_bold (d, 1);
  display_put (d, text);
  display_bold (d, 0);
}

/* 1 if SHOWN is the decimal itself, perhaps with a unit: 2.34".  */
static int
shows_decimal (const char *shown, const char *decimal)
{
  size_t length = strlen (decimal);
  return strncmp (shown, decimal, length) == 0 && !strpbrk (shown + length, "0123456789/");
}

void
text_value (const display *d, const br_record *record, const char *name)
{
  const char *shown = br_record_text (record, "shown");
  const char *decimal = br_record_text (record, "decimal");
  const char *unit = br_record_text (record, "unit");
  int exact = text_is_exact (record);
  int new_shown = exact && *shown && strcmp (shown, name) != 0;
  int new_decimal = !exact || (!shows_decimal (name, decimal) && !shows_decimal (shown, decimal)
                               && strcmp (decimal, br_record_text (record, "exact")) != 0);
  display_put (d, name);
  if (new_shown)
    {
      display_put (d, *name ? " = " : "");
      text_strong (d, shown);
    }
  if (text_is_open (record))
    {
      display_put (d, display_sign (d, " \xe2\x89\x88 ", " is about "));
      text_strong (d, shown);
    }
  else if (new_decimal && *decimal)
    {
      display_put (d, br_record_truth (record, "decimal_exact") ? " = "
                      : display_sign (d, " \xe2\x89\x88 ", " is about "));
      if (exact)
        display_put (d, decimal);
      else
        text_strong (d, decimal);
      display_put (d, *unit ? " " : "");
      display_put (d, unit);
    }
}

int
text_is_open (const br_record *record)
{
  const char *shown = br_record_text (record, "shown");
  return !text_is_exact (record) && *shown && !shows_decimal (shown, br_record_text (record, "decimal"));
}

/* The unit that a mark is written in where its record holds it in another, else NULL.  */
const br_unit *
text_mark_unit (const br_record *record)
{
  const char *mark = br_record_text (record, "mark");
  br_measure m = BR_MEASURE_ZERO;
  br_number value = BR_NUMBER_ZERO;
  const br_unit *unit = NULL;
  if (br_measure_read (&m, mark, strlen (mark), NULL, NULL) == BR_OK && m.unit
      && m.unit->dimension == BR_LENGTH && m.unit->num < m.unit->den
      && field_number (&value, br_record_text (record, "value")) && br_number_equal (&value, &m.value))
    unit = m.unit;
  br_measure_clear (&m);
  br_number_clear (&value);
  return unit;
}

char *
text_in_unit (const char *exact, const br_unit *unit)
{
  char buffer[80];
  br_number x = BR_NUMBER_ZERO, one = BR_NUMBER_ZERO;
  const char *text = exact;
  if (unit && field_number (&x, exact) && br_number_set_ratio (&one, unit->num, unit->den) == BR_OK
      && br_number_div (&x, &x, &one) == BR_OK
      && br_number_write (buffer, sizeof buffer, &x) < sizeof buffer)
    text = buffer;
  br_number_clear (&x);
  br_number_clear (&one);
  return strdup (text);
}

/* The unit of an error where its mark is in another, with a blank, else "".  TEXT, to which it
   is added, is freed.  */
static char *
with_unit (char *text, const br_record *record)
{
  char *whole = NULL;
  if (!text || !*text || !text_mark_unit (record))
    return text;
  int length = asprintf (&whole, "%s %s", text, br_record_text (record, "unit"));
  free (text);
  return length < 0 ? NULL : whole;
}

char *
text_record_error (const display *d, const br_record *record)
{
  return with_unit (text_error (d, br_record_text (record, "error"), br_record_text (record, "error_decimal")),
                    record);
}

char *
text_error_size (const display *d, const br_record *record)
{
  const char *error = br_record_text (record, "error");
  const char *known = *error ? error : br_record_text (record, "error_decimal");
  char *text = NULL;
  if (field_sign (known) == 0)
    return strdup ("");
  int length = asprintf (&text, " by %s%s", *error ? "" : display_sign (d, "\xe2\x89\x88 ", "about "),
                         known + (*known == '-'));
  return with_unit (length < 0 ? NULL : text, record);
}

char *
text_ruler_name (const br_record *record)
{
  char buffer[80];
  const br_unit *unit = text_mark_unit (record);
  char *step = text_in_unit (br_record_text (record, "ruler"), unit);
  char *name = NULL;
  br_number x = BR_NUMBER_ZERO;
  if (step && unit && field_number (&x, step)
      && br_number_write_decimal (buffer, sizeof buffer, NULL, &x, 12) < sizeof buffer
      && asprintf (&name, "%s %s", buffer, unit->name) < 0)
    name = NULL;
  br_number_clear (&x);
  if (name)
    free (step);
  return name ? name : step;
}

/* Where the mark lies: "exactly", or "over by 3/100, error +3/100 = +0.03".  */
void
text_put_side (const display *d, const br_record *record)
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
  put_free (d, text_record_error (d, record));
}

/* The line of the mark, for a value that is on a ruler at all.  */
void
text_mark (const display *d, const br_record *record)
{
  const char *mark = br_record_text (record, "mark");
  int named = *br_record_text (record, "ruler") != '\0';
  if (!*mark)
    return;
  display_put (d, "  on the ");
  if (named)
    put_free (d, text_ruler_name (record));
  display_put (d, named ? " ruler: " : "ruler: ");
  text_strong (d, mark);
  text_put_side (d, record);
  putc ('\n', d->stream);
  if (br_record_truth (record, "tie"))
    fputs ("  a tie: just half way between two marks\n", d->stream);
}
