/* SPDX-License-Identifier: LGPL-3.0-or-later
   cell.c - finds the measure in a cell or a pasted line that also has other text: a diameter sign, a tolerance, the name of
   the size, quotes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"

/* In front: signs of a diameter or a radius, and of what is not exact.  Longer ones first.  */
static const char *const before[] = {
  "approximately ", "approx. ", "approx ", "about ", "circa ", "ca. ", "ca ", "dia. ", "dia ", "diameter ", "radius ",
  "\xc3\x98", "\xc3\xb8", "\xe2\x8c\x80", "\xe2\x88\x85", "\xcf\x86", "~", "\xe2\x89\x88", "R", "D" };
/* Behind: what is measured.  */
static const char *const behind[] = {
  " approximately", " approx.", " approx", " thickness", " thick", " diameter", " dia.", " dia", " radius", " wide", " width", " long",
  " length", " tall", " high", " height", " deep", " each", " ea.", " ea", " OD", " ID", ",", ";" };
static const char *const tolerances[] = { "\xc2\xb1", "+-", "+/-" };

static int
is_blank (char c)
{
  return c == ' ' || c == '\t' || c == '\r';
}

/* 1 where the letters of WORD stand at TEXT, small or capital; a single letter only as it is.  */
static int
same (const char *text, const char *word, size_t n)
{
  for (size_t i = 0; i < n; i++)
    {
      char c = text[i];
      if (n > 1 && c >= 'A' && c <= 'Z')
        c = (char) (c | 0x20);
      char w = word[i];
      if (n > 1 && w >= 'A' && w <= 'Z')
        w = (char) (w | 0x20);
      if (c != w)
        return 0;
    }
  return 1;
}

/* TEXT is a measure, a tolerance; *UNIT: with a unit of its own.  */
static int
is_tolerance (int *unit, const char *text, size_t length)
{
  br_measure m = BR_MEASURE_ZERO;
  int found = br__measure_begins (text, length, 0) && br_measure_read (&m, text, length, NULL, NULL) == BR_OK;
  *unit |= found && m.unit;
  br_measure_clear (&m);
  return found;
}

/* Takes one piece away at either end; 0 where there is none.  *UNIT: a tolerance with a unit was.  */
static int
strip (size_t *start, size_t *end, int *unit, const char *text)
{
  size_t n;
  while (*start < *end && is_blank (text[*start]))
    ++*start;
  while (*end > *start && is_blank (text[*end - 1]))
    --*end;
  if (*end - *start > 2 && text[*start] == '"' && text[*end - 1] == '"')
    {
      ++*start, --*end;
      return 1;
    }
  /* Curly ones of three bytes, double or single.  */
  n = strlen ("\xe2\x80\x9c");
  if (*end - *start > 2 * n && (memcmp (text + *start, "\xe2\x80\x9c", n) == 0 || memcmp (text + *start, "\xe2\x80\x98", n) == 0)
      && memcmp (text + *start, text + *end - n, n - 1) == 0 && text[*end - 1] == (char) (text[*start + n - 1] + 1))
    {
      *start += n, *end -= n;
      return 1;
    }
  for (size_t i = 0; i < sizeof before / sizeof before[0]; i++)
    if ((n = strlen (before[i])) < *end - *start && same (text + *start, before[i], n))
      {
        /* A letter is one of a measure only right before a digit: R3.2.  */
        if (n == 1 && before[i][0] != '~' && (text[*start + 1] < '0' || text[*start + 1] > '9'))
          continue;
        *start += n;
        return 1;
      }
  for (size_t i = 0; i < sizeof behind / sizeof behind[0]; i++)
    if ((n = strlen (behind[i])) < *end - *start && same (text + *end - n, behind[i], n))
      {
        *end -= n;
        return 1;
      }
  for (size_t i = 0; i < sizeof tolerances / sizeof tolerances[0]; i++)
    for (size_t at = *start + 1; at + strlen (tolerances[i]) < *end; at++)
      {
        size_t next = at + strlen (tolerances[i]);
        if (memcmp (text + at, tolerances[i], next - at) != 0)
          continue;
        /* `+-` with a blank is a sign of the language, which is not for a value alone.  */
        while (strcmp (tolerances[i], "+-") != 0 && next < *end && is_blank (text[next]))
          next++;
        if (is_tolerance (unit, text + next, *end - next))
          {
            *end = at;
            return 1;
          }
      }
  return 0;
}

int
br__measure_within (size_t *start, size_t *end, const char *text, size_t length)
{
  br_measure m = BR_MEASURE_ZERO;
  size_t from = 0, to = length;
  int found = 0, unit = 0;
  if (length > 200)
    return 0;
  while (strip (&from, &to, &unit, text))
    found = 1;
  /* In 17.5 +/- 0.1 mm the unit after the tolerance belongs to both numbers.  */
  found = found && from < to && br_measure_read (&m, text + from, to - from, NULL, NULL) == BR_OK && (m.unit || !unit);
  br_measure_clear (&m);
  if (found)
    *start = from, *end = to;
  return found;
}

static void
put_piece (br_text *t, const char *text, size_t from, size_t to)
{
  /* Curly quotes say nothing.  */
  if (to - from == 3 && memcmp (text + from, "\xe2\x80", 2) == 0)
    return;
  while (from < to && (is_blank (text[from]) || strchr ("\",;", text[from])))
    from++;
  while (to > from && (is_blank (text[to - 1]) || strchr ("\",;", text[to - 1])))
    to--;
  if (from == to)
    return;
  br__text_puts (t, t->length ? ", " : "");
  br__text_put (t, text + from, to - from);
}

void
br__put_left_out (br_text *t, const char *text, size_t length, size_t start, size_t end)
{
  put_piece (t, text, 0, start);
  put_piece (t, text, end, length);
}
