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
text_add_shown (table *t, const display *d, const br_record *record, const char *key, const char *none)
{
  char *shown = text_shown (record, key);
  char *text = shown ? text_short (d, shown, "") : NULL;
  table_add (t, text && *text ? text : none);
  free (shown);
  free (text);
}

static const char *
plus (const char *number)
{
  return field_sign (number) > 0 ? "+" : "";
}

char *
text_error (const display *d, const char *error, const char *decimal, const char *typed)
{
  char *text = NULL;
  int length, cut = 0;
  const char *about = display_sign (d, "\xe2\x89\x88 ", "about ");
  if (!*error && !*decimal)
    return strdup ("");
  if (*error && field_sign (error) == 0)
    return strdup ("0");
  char *digits = text_digits (&cut, error, decimal, TEXT_DIGITS);
  if (!digits)
    return NULL;
  if (*error && text_is_part (error, typed) && strcmp (error, digits) != 0)
    length = asprintf (&text, "%s%s %s%s%s", plus (error), error, cut ? about : "= ", plus (digits), digits);
  else
    length = asprintf (&text, "%s%s%s", cut ? about : "", plus (digits), digits);
  free (digits);
  return length < 0 ? NULL : text;
}

const char *
text_side (const br_record *record)
{
  const char *error = br_record_text (record, "error");
  const char *known = *error ? error : br_record_text (record, "error_decimal");
  int sign = field_sign (known);
  if (!*known)
    return *br_record_text (record, "mark") ? "error not certain" : "";
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

/* As text_mark_unit, of a MARK beside sizes in the unit SHEET.  */
static const br_unit *
unit_of_mark (const char *mark, const char *sheet)
{
  const br_unit *unit = NULL, *own = br_unit_find (sheet, strlen (sheet));
  br_measure m = BR_MEASURE_ZERO;
  if (own && br_measure_read (&m, mark, strlen (mark), NULL, NULL) == BR_OK && m.unit && m.unit->dimension == own->dimension)
    {
      /* Feet are parted into inches, whose parts are the marks.  */
      unit = strcmp (m.unit->name, "ft") == 0 ? br_unit_find ("in", 2) : m.unit;
      if (strcmp (unit->name, own->name) == 0)
        unit = NULL;
    }
  br_measure_clear (&m);
  return unit;
}

/* The unit that the errors of RECORD count in.  A plain number has none of its own and stands for so many of the sheet's:
   that in which the value and the error come to the mark.  */
static const char *
unit_of_error (const br_record *record)
{
  static const char *const units[] = { "mm", "cm", "ft" };
  const char *unit = br_record_text (record, "unit"), *mark = br_record_text (record, "mark"), *known = br_record_text (record, "decimal");
  br_measure m = BR_MEASURE_ZERO;
  br_number x = BR_NUMBER_ZERO, e = BR_NUMBER_ZERO, there = BR_NUMBER_ZERO;
  if (!*unit && br_measure_read (&m, mark, strlen (mark), NULL, NULL) == BR_OK && m.unit && br_number_sign (&m.value) != 0
      && field_number (&x, *known ? known : br_record_text (record, "piece")) && field_number (&e, br_record_text (record, "error_decimal"))
      && br_number_add (&x, &x, &e) == BR_OK)
    for (size_t i = 0; i < sizeof units / sizeof *units && !*unit; i++)
      {
        const br_unit *u = br_unit_find (units[i], 2);
        /* Within a tenth, as the decimals may be cut.  */
        if (br_number_set_ratio (&there, u->num, u->den) == BR_OK && br_number_mul (&there, &there, &x) == BR_OK
            && br_number_div (&there, &there, &m.value) == BR_OK && br_number_set_ratio (&e, 9, 10) == BR_OK
            && br_number_cmp (&there, &e) > 0 && br_number_set_ratio (&e, 11, 10) == BR_OK
            && br_number_cmp (&there, &e) < 0)
          unit = u->name;
      }
  br_number_clear (&x), br_number_clear (&e), br_number_clear (&there);
  br_measure_clear (&m);
  return unit;
}

const br_unit *
text_mark_unit (const br_record *record)
{
  const char *mark = br_record_text (record, "mark");
  return unit_of_mark (*mark ? mark : br_record_text (record, "total_mark"), unit_of_error (record));
}

/* EXACT, which is in the unit FROM, in the unit TO.  */
static int
convert (br_number *x, const char *exact, const br_unit *from, const br_unit *to)
{
  br_number one = BR_NUMBER_ZERO;
  int good = field_number (x, exact) && br_number_set_ratio (&one, from->num, from->den) == BR_OK
             && br_number_mul (x, x, &one) == BR_OK && br_number_set_ratio (&one, to->num, to->den) == BR_OK
             && br_number_div (x, x, &one) == BR_OK;
  br_number_clear (&one);
  return good;
}

/* EXACT, in the unit SHEET, in UNIT, or as it is.  */
static char *
in_unit (const char *exact, const char *sheet, const br_unit *unit)
{
  char buffer[80];
  const char *text = exact;
  const br_unit *own = br_unit_find (sheet, strlen (sheet));
  br_number x = BR_NUMBER_ZERO;
  if (unit && own && convert (&x, exact, own, unit) && br_number_write (buffer, sizeof buffer, &x) < sizeof buffer)
    text = buffer;
  br_number_clear (&x);
  return strdup (text);
}

/* A length that was asked for in another unit, where it is no short fraction there.  */
static void
put_asked (const display *d, const br_record *record)
{
  const char *exact = br_record_text (record, "exact"), *sheet = br_record_text (record, "unit");
  const char *shown = br_record_text (record, "shown");
  /* Feet, with inches of a fraction behind them.  */
  const int feet = strchr (shown, '\'') && strcmp (sheet, "ft") != 0;
  const br_unit *unit = !*exact ? NULL : feet ? br_unit_find ("ft", 2) : unit_of_mark (shown, sheet);
  char *there = unit ? in_unit (exact, sheet, unit) : NULL;
  int cut = 0;
  char *digits = there ? text_digits (&cut, there, there, TEXT_DIGITS) : NULL;
  if (digits)
    {
      display_put (d, !cut ? " = " : display_sign (d, " \xe2\x89\x88 ", " is about "));
      text_strong (d, digits);
      display_put (d, " ");
      display_put (d, unit->name);
    }
  free (digits);
  free (there);
}

/* SHOWN behind SIGN, or behind ≈ where digits are left out.  */
static void
put_few (const display *d, const char *sign, const char *shown, const char *typed)
{
  const char *about = display_sign (d, "\xe2\x89\x88 ", "about ");
  char *few = text_short (d, shown, typed);
  int cut = few && strncmp (few, about, strlen (about)) == 0;
  display_put (d, cut && *sign ? display_sign (d, " \xe2\x89\x88 ", " is about ") : sign);
  text_strong (d, few ? few + (cut && *sign ? strlen (about) : 0) : "");
  free (few);
}

void
text_value (const display *d, const br_record *record, const char *name)
{
  const char *shown = br_record_text (record, "shown");
  const char *decimal = br_record_text (record, "decimal"), *exact = br_record_text (record, "exact");
  const char *unit = br_record_text (record, "unit"), *typed = br_record_text (record, "expression");
  int cut = 0, is_exact = text_is_exact (record), is_short = is_exact && text_is_short (shown, typed);
  char *digits = text_digits (&cut, exact, decimal, TEXT_DIGITS);
  int new_shown = is_short && *shown && strcmp (shown, name) != 0;
  int new_decimal = !is_short || (!shows_decimal (name, decimal) && !shows_decimal (shown, decimal) && strcmp (decimal, exact) != 0);
  display_put (d, name);
  if (new_shown)
    put_few (d, *name ? " = " : "", shown, typed);
  if (text_is_open (record))
    put_few (d, display_sign (d, " \xe2\x89\x88 ", " is about "), shown, typed);
  else if (new_decimal && *decimal && digits && !(shows_decimal (name, digits) && !cut))
    {
      display_put (d, !cut ? " = " : display_sign (d, " \xe2\x89\x88 ", " is about "));
      if (is_short)
        display_put (d, digits);
      else
        text_strong (d, digits);
      display_put (d, *unit ? " " : "");
      display_put (d, unit);
    }
  if (!new_shown)
    put_asked (d, record);
  free (digits);
}

int
text_is_open (const br_record *record)
{
  const char *shown = br_record_text (record, "shown");
  return !text_is_exact (record) && *shown && !shows_decimal (shown, br_record_text (record, "decimal"));
}

char *
text_in_mark_unit (const br_record *record, const char *exact)
{
  return in_unit (exact, unit_of_error (record), text_mark_unit (record));
}

/* An error beside a mark in another unit, in both: "+0.73 mm (+0.029 in)"; that of a sheet in feet in inches alone.  */
static char *
both_units (const display *d, const char *known, const char *sheet, const br_unit *unit, int signs)
{
  char *there = in_unit (known, sheet, unit), *text = NULL;
  int cut;
  if (strcmp (sheet, "ft") == 0)
    {
      char *digits = there ? text_digits (&cut, there, there, TEXT_DIGITS) : NULL;
      if (digits && asprintf (&text, "%s%s%s %s", cut ? display_sign (d, "\xe2\x89\x88 ", "about ") : "", signs ? plus (known) : "",
                              digits + (!signs && *digits == '-'), unit->name) < 0)
        text = NULL;
      free (digits);
      free (there);
      return text;
    }
  char *a = text_digits (&cut, known, known, 2), *b = there ? text_digits (&cut, there, there, 2) : NULL;
  const char *sign = signs ? plus (known) : "";
  if (a && b && asprintf (&text, "%s%s %s (%s%s %s)", sign, a + (!signs && *a == '-'), sheet, sign,
                          b + (!signs && *b == '-'), unit->name) < 0)
    text = NULL;
  free (a);
  free (b);
  free (there);
  return text;
}

char *
text_error_of (const display *d, const br_record *record, const char *sheet, const char *mark, const char *key)
{
  char longer[40];
  snprintf (longer, sizeof longer, "%s_decimal", key);
  const char *error = br_record_text (record, key), *decimal = br_record_text (record, longer);
  const char *known = *error ? error : decimal;
  const br_unit *unit = unit_of_mark (br_record_text (record, mark), sheet);
  if (unit && field_sign (known) != 0)
    return both_units (d, known, sheet, unit, 1);
  return text_error (d, error, decimal, br_record_text (record, "expression"));
}

char *
text_record_error (const display *d, const br_record *record)
{
  return text_error_of (d, record, unit_of_error (record), "mark", "error");
}

char *
text_error_size (const display *d, const br_record *record)
{
  const char *error = br_record_text (record, "error");
  const char *known = *error ? error : br_record_text (record, "error_decimal");
  const br_unit *unit = text_mark_unit (record);
  char *text = NULL, *size = NULL;
  int cut = 0;
  if (field_sign (known) == 0)
    return strdup ("");
  if (unit)
    size = both_units (d, known, unit_of_error (record), unit, 0);
  else if (*error && text_is_part (error, br_record_text (record, "expression")))
    size = strdup (error + (*error == '-'));
  else if ((size = text_digits (&cut, error, known, TEXT_DIGITS)) != NULL && *size == '-')
    memmove (size, size + 1, strlen (size));
  if (size && asprintf (&text, " by %s%s", cut ? display_sign (d, "\xe2\x89\x88 ", "about ") : "", size) < 0)
    text = NULL;
  free (size);
  return text;
}

/* A step of whole feet, which is in inches, for marks in feet: 2 ft; NULL: none.  */
static char *
feet_name (const br_record *record, const char *step)
{
  char *name = NULL, *end = NULL;
  const long inches = strtol (step, &end, 10);
  if (!strchr (br_record_text (record, "mark"), '\'') || *end || inches < 12 || inches % 12 != 0
      || asprintf (&name, "%ld ft", inches / 12) < 0)
    return NULL;
  return name;
}

char *
text_ruler_name (const br_record *record)
{
  char buffer[80];
  const br_unit *unit = text_mark_unit (record);
  char *step = text_in_mark_unit (record, br_record_text (record, "ruler"));
  char *name = NULL;
  br_number x = BR_NUMBER_ZERO;
  /* Inches are parted in halves, the others in tenths.  */
  if (step && unit && strcmp (unit->name, "in") == 0 && asprintf (&name, "%s in", step) < 0)
    name = NULL;
  else if (step && unit && strcmp (unit->name, "in") != 0 && field_number (&x, step)
           && br_number_write_decimal (buffer, sizeof buffer, NULL, &x, 12) < sizeof buffer
           && asprintf (&name, "%s %s", buffer, unit->name) < 0)
    name = NULL;
  if (step && !name)
    name = feet_name (record, step);
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
  if (!*br_record_text (record, "error_decimal"))
    return;
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
