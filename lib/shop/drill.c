/* SPDX-License-Identifier: LGPL-3.0-or-later
   drill.c - the three series of inch twist drills and the sizes next to a hole.
   Sizes: ASME B94.11M.  They are whole parts of 64, 10,000 and 1,000 to the inch, so
   they are kept as integers and nothing is rounded.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "exact/status.h"
#include "shop/calc.h"
#include "shop/drill.h"

#define FRACTIONS 64   /* 1/64 to 64/64 */

/* #1 to #80 in ten thousandths of an inch.  */
static const short numbers[] = {
  2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935, 1910, 1890, 1850, 1820, 1800,
  1770, 1730, 1695, 1660, 1610, 1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285,
  1200, 1160, 1130, 1110, 1100, 1065, 1040, 1015, 995, 980, 960, 935, 890, 860, 820, 810,
  785, 760, 730, 700, 670, 635, 595, 550, 520, 465, 430, 420, 410, 400, 390, 380, 370,
  360, 350, 330, 320, 310, 292, 280, 260, 250, 240, 225, 210, 200, 180, 160, 145, 135
};

/* A to Z in thousandths of an inch.  */
static const short letters[] = {
  234, 238, 242, 246, 250, 257, 261, 266, 272, 277, 281, 290, 295, 302, 316, 323, 332,
  339, 348, 358, 368, 377, 386, 397, 404, 413
};

#define COUNT(ARRAY) (sizeof (ARRAY) / sizeof (ARRAY)[0])

/* The metric drill behind SIZE, both in hundredths of a millimetre: ... 4.1, 4.2, 4.25, 4.3 ...  */
static int
next_metric (int size)
{
  if (size < 300)
    return size + 5;
  if (size < 1400)
    return size + (size % 50 == 20 || size % 50 == 25 ? 5 : 10);
  return size + (size < 1600 ? 25 : 50);
}

#define FIRST_METRIC 100
#define LAST_METRIC 2000

size_t
br__drill_count (br_drill_series series)
{
  size_t count = 0;
  if (series == BR__DRILL_METRIC)
    {
      for (int size = FIRST_METRIC; size <= LAST_METRIC; size = next_metric (size))
        count++;
      return count;
    }
  if (series == BR_DRILL_FRACTIONAL)
    return FRACTIONS;
  return series == BR_DRILL_NUMBER ? COUNT (numbers) : COUNT (letters);
}

const char *
br__drill_series_name (br_drill_series series)
{
  static const char *const names[] = { "fractional", "number", "letter", "metric" };

  return names[series];
}

const char *
br__drill_source (void)
{
  return "ASME B94.11M, Twist Drills";
}

static int64_t
common_divisor (int64_t a, int64_t b)
{
  int64_t rest;

  while (b != 0)
    {
      rest = a % b;
      a = b;
      b = rest;
    }
  return a;
}

br__drill
br__drill_at (br_drill_series series, size_t index)
{
  br__drill drill = { "", 0, 1 };
  size_t number;
  int64_t divisor;
  int hundredths = FIRST_METRIC;

  if (series == BR__DRILL_METRIC)
    {
      while (index-- > 0)
        hundredths = next_metric (hundredths);
      if (hundredths % 100 == 0)
        snprintf (drill.name, sizeof drill.name, "%d mm", hundredths / 100 % 100);
      else if (hundredths % 10 == 0)
        snprintf (drill.name, sizeof drill.name, "%d.%d mm", hundredths / 100 % 100, hundredths / 10 % 10);
      else
        snprintf (drill.name, sizeof drill.name, "%d.%02d mm", hundredths / 100 % 100, hundredths % 100);
      /* 1 in is 25.4 mm.  */
      drill.num = hundredths;
      drill.den = 2540;
    }
  else switch (series)
    {
    case BR_DRILL_FRACTIONAL:
      drill.num = (int64_t) index + 1;
      drill.den = FRACTIONS;
      break;
    case BR_DRILL_NUMBER:
      number = COUNT (numbers) - index;   /* #80 is the smallest */
      drill.num = numbers[number - 1];
      drill.den = 10000;
      snprintf (drill.name, sizeof drill.name, "#%u", (unsigned) number % 100);
      break;
    case BR_DRILL_LETTER:
      drill.num = letters[index];
      drill.den = 1000;
      drill.name[0] = (char) ('A' + index);
      break;
    }
  divisor = common_divisor (drill.num, drill.den);
  drill.num /= divisor;
  drill.den /= divisor;
  if (series == BR_DRILL_FRACTIONAL && drill.den == 1)
    drill.name[0] = '1';
  else if (series == BR_DRILL_FRACTIONAL)
    snprintf (drill.name, sizeof drill.name, "%u/%u", (unsigned) drill.num % 100,
              (unsigned) drill.den % 100);
  return drill;
}

void
br__drill_pair_clear (br__drill_pair *pair)
{
  br_real_clear (&pair->play_below);
  br_real_clear (&pair->play_above);
  memset (pair, 0, sizeof *pair);
}

/* PLAY = DRILL - X.  */
static br_status
play (br_real *z, const br__drill *drill, const br_real *x)
{
  br_real size = BR_REAL_ZERO;
  br_status status = br_number_set_ratio (&size.rational, drill->num, drill->den);

  if (status == BR_OK)
    status = br_real_sub (z, &size, x);
  br_real_clear (&size);
  return status;
}

/* FIRST gets the index of the first drill that is not under X (the count, when all are), EXACT
   whether it is just X.  Halves the range in which that drill must lie.  */
static br_status
first_not_under (size_t *first, int *exact, br_drill_series series, const br_real *x,
                 unsigned bits)
{
  size_t low = 0, high = br__drill_count (series), middle;
  br__drill drill;
  br_status status = BR_OK;
  int order;

  *exact = 0;
  while (low < high && status == BR_OK)
    {
      middle = low + (high - low) / 2;
      drill = br__drill_at (series, middle);
      order = 0;
      status = calc_against (&order, x, drill.num, drill.den, bits);
      if (order == 0)
        *exact = 1;
      if (order > 0)
        low = middle + 1;
      else
        high = middle;
    }
  *first = low;
  return status;
}

br_status
br__drill_neighbours (br__drill_pair *pair, br_drill_series series, const br_real *x,
                      unsigned bits, br_error *error)
{
  br__drill_pair found = BR__DRILL_PAIR_ZERO, old = *pair;
  size_t first = 0;
  int exact = 0;
  br_status status = first_not_under (&first, &exact, series, x, bits);

  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  found.has_above = first < br__drill_count (series);
  found.has_below = exact || first > 0;
  if (found.has_above)
    {
      found.above = br__drill_at (series, first);
      status = play (&found.play_above, &found.above, x);
    }
  if (found.has_below && status == BR_OK)
    {
      found.below = br__drill_at (series, exact ? first : first - 1);
      status = play (&found.play_below, &found.below, x);
    }
  if (status != BR_OK)
    {
      br__drill_pair_clear (&found);
      return br__fail_plain (error, status, 0, 0);
    }
  *pair = found;
  br__drill_pair_clear (&old);
  return BR_OK;
}

br_status
br__drill_next (br_number *size, br_drill_series series, const br_real *x, unsigned bits,
                br_error *error)
{
  br_number found = BR_NUMBER_ZERO;
  size_t first = 0, count = br__drill_count (series);
  int exact = 0;
  br__drill drill;
  br_status status = first_not_under (&first, &exact, series, x, bits);

  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  if (first == count)
    {
      drill = br__drill_at (series, count - 1);
      br__fail (error, BR_DOMAIN, 0, 0, "the largest drill of the %s series is %s%s", br__drill_series_name (series),
                drill.name, series == BR_DRILL_FRACTIONAL ? " in" : "");
      br__hint (error, series == BR_DRILL_FRACTIONAL
                       ? "a larger hole is bored with another tool, such as a hole saw"
                       : "the fractional series goes on to 1 in");
      return BR_DOMAIN;
    }
  drill = br__drill_at (series, first);
  status = br_number_set_ratio (&found, drill.num, drill.den);
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  br_number_swap (size, &found);
  br_number_clear (&found);
  return BR_OK;
}
