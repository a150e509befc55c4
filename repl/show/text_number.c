/* SPDX-License-Identifier: GPL-3.0-or-later
   text_number.c - numbers for people: a fraction on denominators that a ruler has or that were typed, or else a decimal of
   a few digits.  The long exact form is for `exact`, `explain` and JSON.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/text.h"

#include <stdlib.h>
#include <string.h>

#include "show/fields.h"

#define MOST_PARTS 1000       /* of a whole, in a fraction that is shown */

/* What is left of N without its factors 2 and 5.  */
static long
odd_part (long n)
{
  while (n > 0 && n % 2 == 0)
    n /= 2;
  while (n > 0 && n % 5 == 0)
    n /= 5;
  return n;
}

/* A denominator in TYPED holds PARTS.  */
static int
was_typed (const char *typed, long parts)
{
  for (const char *at = typed; (at = strchr (at, '/')) != NULL; )
    {
      long n = strtol (++at, NULL, 10);
      if (n > 0 && n % parts == 0)
        return 1;
    }
  return 0;
}

int
text_is_short (const char *exact, const char *typed)
{
  const char *slash = strrchr (exact, '/');
  long parts = slash ? strtol (slash + 1, NULL, 10) : 1, odd = odd_part (parts);
  return parts > 0 && parts <= MOST_PARTS && (odd <= 12 || was_typed (typed, odd)) && strlen (exact) <= 24;
}

int
text_is_part (const char *exact, const char *typed)
{
  const char *slash = strrchr (exact, '/');
  long parts = slash ? strtol (slash + 1, NULL, 10) : 1;
  return parts > 0 && parts <= MOST_PARTS && strlen (exact) <= 24 && (64 % parts == 0 || was_typed (typed, parts));
}

char *
text_digits (int *cut, const char *exact, const char *decimal, unsigned digits)
{
  char buffer[80];
  br_number x = BR_NUMBER_ZERO;
  int whole = 1, read = field_number (&x, *exact ? exact : decimal);
  size_t n = read ? br_number_write_decimal (buffer, sizeof buffer, &whole, &x, digits) : sizeof buffer;
  br_number_clear (&x);
  *cut = !*exact || !whole;
  return strdup (n < sizeof buffer ? buffer : decimal);
}

/* A decimal of more digits than people read, which was not typed like that.  */
static int
is_long_decimal (const char *shown, const char *typed)
{
  size_t digits = 0, length = strcspn (shown, " \"");
  char number[40];
  if (!memchr (shown, '.', length) || length >= sizeof number)
    return 0;
  for (size_t i = 0; i < length; i++)
    digits += shown[i] >= '0' && shown[i] <= '9' && (digits > 0 || shown[i] != '0');
  memcpy (number, shown, length);
  number[length] = 0;
  return digits > TEXT_DIGITS && !strstr (typed, number);
}

char *
text_short (const display *d, const char *shown, const char *typed)
{
  br_measure m = BR_MEASURE_ZERO;
  char buffer[80], *text = NULL;
  int whole = 1;
  /* A power of a unit that has no name stays in that unit, and what is asked in per cent.  */
  const char *power = strpbrk (shown, "^%") ? strchr (shown, ' ') : NULL;
  br_status read = br_measure_read (&m, shown, power ? (size_t) (power - shown) : strlen (shown), NULL, NULL);
  if ((text_is_short (shown, typed) && !is_long_decimal (shown, typed)) || read != BR_OK)
    {
      br_measure_clear (&m);
      return strdup (shown);
    }
  br_number one = BR_NUMBER_ZERO;
  const br_unit *unit = m.unit;
  int good = !unit || (br_number_set_ratio (&one, unit->num, unit->den) == BR_OK && br_number_div (&m.value, &m.value, &one) == BR_OK);
  good = good && br_number_write_decimal (buffer, sizeof buffer, &whole, &m.value, TEXT_DIGITS) < sizeof buffer;
  if (!good || asprintf (&text, "%s%s%s%s", whole ? "" : display_sign (d, "\xe2\x89\x88 ", "about "), buffer, unit ? " " : "",
                         power ? power : unit ? unit->name : "") < 0)
    text = good ? NULL : strdup (shown);
  br_number_clear (&one);
  br_measure_clear (&m);
  return text;
}

/* How long the number at AT is, "14.142", "3/16" or "131-3/16", or 0.  */
static size_t
number_at (const char *at)
{
  static const char digits[] = "0123456789";
  size_t length = strspn (at, digits), end = length;
  if (length && at[end] == '-')
    end += 1 + strspn (at + end + 1, digits);
  if (length && at[end] == '/' && end > 0 && at[end - 1] != '-')
    return end + 1 + strspn (at + end + 1, digits);
  return length && at[length] == '.' ? length + 1 + strspn (at + length + 1, digits) : length;
}

/* TEXT with its long numbers cut, on OUT.  */
static void
put_cut (FILE *out, const display *d, const char *text)
{
  while (*text)
    {
      size_t number = number_at (text), length = number ? number : strcspn (text, "0123456789");
      char *shown = number ? strndup (text, number) : NULL, *few = shown ? text_short (d, shown, "") : NULL;
      fwrite (few ? few : text, 1, few ? strlen (few) : length, out);
      text += length;
      free (shown);
      free (few);
    }
}

char *
text_cut (const display *d, const char *text)
{
  char *few = NULL;
  size_t size;
  FILE *out = open_memstream (&few, &size);
  if (out)
    put_cut (out, d, text);
  return out && fclose (out) == 0 ? few : strdup (text);
}

void
text_put_cut (const display *d, const char *text)
{
  char *few = text_cut (d, text);
  display_put (d, few ? few : text);
  free (few);
}

void
text_add_cut (table *t, const display *d, const char *text)
{
  char *few = text_cut (d, text);
  table_add (t, few ? few : text);
  free (few);
}

char *
text_signed (const display *d, const char *number)
{
  const int sign = field_sign (number);
  const char *about = display_sign (d, "\xe2\x89\x88 ", "about ");
  char *few = text_short (d, *number == '-' ? number + 1 : number, ""), *text = NULL;
  int cut = few && strncmp (few, about, strlen (about)) == 0;
  if (!few || asprintf (&text, "%s%s%s", cut ? about : "", sign < 0 ? "-" : sign > 0 ? "+" : "", few + (cut ? strlen (about) : 0)) < 0)
    text = NULL;
  free (few);
  return text;
}
