/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer_mend.c - units and numbers that are misspelt or torn apart: "in ches", "5 over 16", "11 (5/16)".  Which of them
   pupils write is common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "formula/words.h"
#include "lesson/answer.h"
#include "measure/measure.h"

void
br__answer_put_digits (br__answer *a)
{
  for (size_t at = 0, end; at < a->length; at = end + 1)
    {
      size_t digits = 0;
      for (end = at; a->text[end] && strchr ("0123456789lIOo", a->text[end]); end++)
        digits += br__is_digit (a->text[end]);
      int part = (at > 1 && a->text[at - 1] == '/' && br__is_digit (a->text[at - 2])) || (a->text[end] == '/' && br__is_digit (a->text[end + 1]));
      /* "l 3/8": the whole number of a fraction.  */
      part |= end == at + 1 && strchr ("lI", a->text[at]) && a->text[end] == ' ' && br__fraction_end (a, end + 1) > end + 1;
      /* "2l in" and "l6in", but not "5long".  */
      int word = br__is_letter (a->text[end]) && !(end > at && br__is_digit (a->text[end - 1]));
      if ((digits || part) && digits < end - at && !(at && br__is_letter (a->text[at - 1])) && !word)
        for (size_t i = at; i < end; i++)
          a->text[i] = strchr ("lI", a->text[i]) ? '1' : strchr ("Oo", a->text[i]) ? '0' : a->text[i];
    }
}

/* "m m", "i n", "m.m." and "in ches": letters and ends of words that stand apart and are a unit together.  */
static void
join_letters (br__answer *a)
{
  for (size_t at = 1; at + 2 < a->length; at++)
    {
      char joined[8];
      size_t count = 0, end = at, stop = 0;
      if (!strchr (" 0123456789", a->text[at - 1]) || !br__is_letter (a->text[at]))
        continue;
      while (count < sizeof joined - 1 && (br__is_letter (a->text[end]) || (strchr (" .", a->text[end]) && a->text[end] && br__is_letter (a->text[end + 1]))))
        {
          if (br__is_letter (a->text[end]))
            joined[count++] = a->text[end];
          end++;
        }
      joined[count] = 0;
      if (end - at > count && !br__is_letter (a->text[end]) && br__unit_scan (&stop, joined, count, 0) && stop == count)
        br__answer_replace (a, at, end - at, joined);
    }
}

/* The unit that the word of LENGTH bytes at WORD is meant for, a slip or two in it; NULL where it is one, or none.  */
static const char *
misspelt_unit (const char *word, size_t length)
{
  static const char *const units[] =
  {
    "inch", "inches", "foot", "feet", "millimetre", "millimetres", "millimeter", "millimeters", "centimetre", "centimetres",
    "centimeter", "centimeters", NULL
  };
  /* Those of other languages, and of texts; a letter past ASCII is a z here.  */
  static const char *const others[][2] =
  {
    { "zoll", "in" }, { "pouce", "in" }, { "pouces", "in" }, { "pulgada", "in" }, { "pulgadas", "in" }, { "pollice", "in" },
    { "pollici", "in" }, { "duim", "in" }, { "polegada", "in" }, { "polegadas", "in" }, { "mtr", "m" }, { "mtrs", "m" }, { "mts", "m" },
    { "metro", "m" }, { "metros", "m" }, { "milimetros", "mm" }, { "milzmetros", "mm" }, { "centzmetros", "cm" }, { "pct", "%" },
    { "prozent", "%" }, { "procent", "%" }, { "percents", "%" }, { "po", "in" }, { "inz", "in" }, { "tum", "in" }, { "tomme", "in" },
    { "tommer", "in" }, { "cal", "in" }, { "cale", "in" }, { "cali", "in" }, { "pulg", "in" }, { "pol", "in" }, { "fuss", "ft" }, { "fuz", "ft" }, { "pied", "ft" }, { "pieds", "ft" },
    { "pie", "ft" }, { "pies", "ft" }, { "piede", "ft" }, { "piedi", "ft" }, { "voet", "ft" }, { "fot", "ft" }, { "fod", "ft" }
  };
  size_t end = 0;
  br__search nearest;
  for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
    if (br__word_is (word, length, others[i][0]))
      return others[i][1];
  if (length < 3 || (br__unit_scan (&end, word, length, 0) && end == length))
    return NULL;
  br__search_start (&nearest, word, length);
  for (size_t i = 0; units[i]; i++)
    br__search_offer (&nearest, units[i]);
  return nearest.best;
}

/* Misspelt units, and "inches squared" for square inches.  */
static void
mend_units (br__answer *a)
{
  join_letters (a);
  for (size_t at = 0; at < a->length; at++)
    {
      size_t end = br__letters_end (a, at);
      const char *unit = misspelt_unit (a->text + at, end - at);
      if (unit)
        br__answer_replace (a, at, end - at, unit);
      end = br__letters_end (a, at);
      /* "1 m. 24 cm": the point of an abbreviation.  */
      if (end == at + 1 && a->text[at] == 'm' && strncmp (a->text + end, ". ", 2) == 0 && br__is_digit (a->text[end + 2]))
        br__answer_replace (a, end, 1, "");
      size_t squared = strncmp (a->text + end, " squared", 8) == 0 ? 8 : strncmp (a->text + end, " sq", 3) == 0 && !br__is_letter (a->text[end + 3]) ? 3 : 0;
      if (end > at && (squared || strncmp (a->text + end, " cubed", 6) == 0))
        {
          br__answer_replace (a, end, squared ? squared : 6, "");
          br__answer_replace (a, at, 0, squared ? "sq " : "cu ");
          end += 3;
        }
      at = end;
    }
}

/* What is said between digits, and of what a fraction is: "5 over 16", "5ths", "1/2 an inch".  */
static void
mend_fractions (br__answer *a)
{
  static const struct { const char *written, *meant; } rows[] =
  {
    { " over ", "/" }, { " out of ", "/" }, { "ths", "" }, { "th", "" }, { " ths", "" }, { " th", "" }, { " of an", "" }, { " of a", "" },
    { " an", "" }, { " of", "" }, { "s", "" }
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      size_t n = strlen (rows[i].written);
      for (size_t at = 1; at + n <= a->length; at++)
        {
          int behind = br__is_digit (a->text[at - 1]) || (unsigned char) a->text[at - 1] >= 0x80;
          int ahead = *rows[i].meant == '/' ? br__is_digit (a->text[at + n]) : !br__is_letter (a->text[at + n]);
          if (behind && ahead && br__word_is (a->text + at, n, rows[i].written))
            br__answer_replace (a, at, n, rows[i].meant);
        }
    }
}

/* 5 16ths is 5/16.  */
static void
mend_parts (br__answer *a)
{
  static const char *const ends[] = { "ths", "th", "nds", "nd", "rds", "rd", NULL };
  for (size_t at = 1; at + 1 < a->length; at++)
    {
      size_t end = at + 1 + strspn (a->text + at + 1, "0123456789"), stop = br__letters_end (a, end);
      if (a->text[at] != ' ' || !br__is_digit (a->text[at - 1]) || end == at + 1 || !br__is_one_of (a->text + end, stop - end, ends))
        continue;
      br__answer_replace (a, end, stop - end, "");
      br__answer_replace (a, at, 1, "/");
    }
}

/* A point with blanks around it, unless a fraction follows; a fraction in brackets behind its whole number, or a unit.  */
static void
mend_numbers (br__answer *a)
{
  for (size_t at = 1; at < a->length; at++)
    {
      size_t left = at - (a->text[at - 1] == ' '), right = at + 1 + (a->text[at + 1] == ' ');
      if (a->text[at] == '.' && left && br__is_digit (a->text[left - 1]) && br__is_digit (a->text[right]) && right - left > 1
          && br__fraction_end (a, right) == right)
        br__answer_replace (a, left, right - left, ".");
      size_t end = a->text[at] == '(' ? br__fraction_end (a, at + 1) : 0, unit = 0;
      if (end && br__unit_scan (&unit, a->text, a->length, at + 1) && a->text[unit] == ')')
        {
          br__answer_replace (a, unit, 1, " ");
          br__answer_replace (a, at, 1, " ");
        }
      if (left && br__is_digit (a->text[left - 1]) && end > at + 1 && a->text[end] == ')')
        {
          br__answer_replace (a, end, 1, "");
          br__answer_replace (a, at, 1, " ");
        }
    }
}

/* 3.1 dm is 31 cm: one place less.  */
static void
mend_decimetres (br__answer *a)
{
  static const char *const words[] = { "dm", "decimetre", "decimetres", "decimeter", "decimeters", NULL };
  size_t whole = a->text[0] == '-' || a->text[0] == '+', digits = strspn (a->text + whole, "0123456789"), at = whole + digits;
  const char *point = digits && (a->text[at] == '.' || a->text[at] == ',') ? a->text + at : NULL;
  if (point)
    at += 1 + strspn (point + 1, "0123456789");
  size_t end = at + (a->text[at] == ' ');
  if (!digits || !br__is_one_of (a->text + end, br__letters_end (a, end) - end, words))
    return;
  br__answer_replace (a, end, br__letters_end (a, end) - end, "cm");
  size_t place = point ? (size_t) (point - a->text) : at;
  char digit[3] = { point && br__is_digit (point[1]) ? point[1] : '0', point && br__is_digit (point[1]) && br__is_digit (point[2]) ? '.' : 0, 0 };
  br__answer_replace (a, place, point ? 1 + (size_t) br__is_digit (point[1]) : 0, digit);
}

/* 1.05E-02, as a spreadsheet writes it, is 0.0105; up to twelve places.  */
static void
mend_exponent (br__answer *a)
{
  static const char zeros[] = "000000000000";
  size_t start = a->text[0] == '-' || a->text[0] == '+', whole = strspn (a->text + start, "0123456789"), end = start + whole;
  size_t places = a->text[end] == '.' ? strspn (a->text + end + 1, "0123456789") : 0, stop;
  char digits[2 * BR__ANSWER_BYTES] = "";
  br_text t = BR_TEXT_ZERO;
  int power = 0;
  memcpy (digits, a->text + start, whole);
  memcpy (digits + whole, a->text + end + 1, places);
  end += places ? 1 + places : 0;
  if (!whole || (a->text[end] | 32) != 'e' || !a->text[end + 1] || !strchr ("+-", a->text[end + 1]) || !br__is_digit (a->text[end + 2]))
    return;
  for (stop = end + 2; br__is_digit (a->text[stop]) && power < 100; stop++)
    power = 10 * power + a->text[stop] - '0';
  if (power > 12)
    return;
  int point = (int) whole + (a->text[end + 1] == '-' ? -power : power), count = (int) (whole + places);
  if (point < 1)
    br__text_printf (&t, "0.%.*s%s", -point, zeros, digits);
  else if (point < count)
    br__text_printf (&t, "%.*s.%s", point, digits, digits + point);
  else
    br__text_printf (&t, "%s%.*s", digits, point - count, zeros);
  if (!t.failed)
    br__answer_replace (a, start, stop - start, br__text_string (&t));
  br__text_clear (&t);
}

void
br__answer_mend_order (br__answer *a)
{
  size_t end = br__letters_end (a, 0), stop = 0, at = end + strspn (a->text + end, ".:= ");
  const br_unit *unit = at > end ? br__unit_scan (&stop, a->text, end, 0) : NULL;
  if (!unit || stop < end || !(br__is_digit (a->text[at]) || br__fraction_end (a, at) > at)
      || !(br__is_digit (a->text[a->length - 1]) || (unsigned char) a->text[a->length - 1] >= 0x80))
    return;
  br__answer_replace (a, a->length, 0, " ");
  br__answer_replace (a, a->length, 0, unit->name);
  br__answer_replace (a, 0, at, "");
}

void
br__answer_mend (br__answer *a)
{
  mend_exponent (a);
  mend_decimetres (a);
  mend_units (a);
  mend_parts (a);
  mend_fractions (a);
  mend_numbers (a);
}
