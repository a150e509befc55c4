/* SPDX-License-Identifier: LGPL-3.0-or-later
   unit.c - the units, their names and marks, and how many inches one of each is.
   1 in is exactly 25.4 mm (Federal Register, 24 FR 5348, 1 July 1959).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure/measure.h"

enum { INCH, FOOT, YARD, MM, CM, METRE, BASES };
enum { THOU = 3 * BASES, BOX, DEGREE, MILE, KM, BOARD_FOOT, PER_CENT, POWERS };

/* The highest power of a length that a measure may have, either way: BR_VOLUME and less have names.  */
#define MOST_POWER 9

/* Lengths, then their squares, then their cubes, each in the order of the enum.  127 is from
   25.4 = 127/5; its square is 16129, its cube 2048383.  */
static const br_unit units[] = {
  { "in", BR_LENGTH, 1, 1 },
  { "ft", BR_LENGTH, 12, 1 },
  { "yd", BR_LENGTH, 36, 1 },
  { "mm", BR_LENGTH, 5, 127 },
  { "cm", BR_LENGTH, 50, 127 },
  { "m", BR_LENGTH, 5000, 127 },
  { "sq in", BR_AREA, 1, 1 },
  { "sq ft", BR_AREA, 144, 1 },
  { "sq yd", BR_AREA, 1296, 1 },
  { "sq mm", BR_AREA, 25, 16129 },
  { "sq cm", BR_AREA, 2500, 16129 },
  { "sq m", BR_AREA, 25000000, 16129 },
  { "cu in", BR_VOLUME, 1, 1 },
  { "cu ft", BR_VOLUME, 1728, 1 },
  { "cu yd", BR_VOLUME, 46656, 1 },
  { "cu mm", BR_VOLUME, 125, 2048383 },
  { "cu cm", BR_VOLUME, 125000, 2048383 },
  { "cu m", BR_VOLUME, INT64_C (125000000000), 2048383 },
  { "thou", BR_LENGTH, 1, 1000 },
  { "boxes", BR_LENGTH, 0, 1 },
  { "deg", BR_ANGLE, 1, 1 },
  { "mi", BR_LENGTH, 63360, 1 },
  { "km", BR_LENGTH, 5000000, 127 },
  /* A board 1 in thick, 12 in wide and 1 ft long (US Product Standard PS 20, American Softwood Lumber Standard).  */
  { "board feet", BR_VOLUME, 144, 1 },
  { "%", BR_PLAIN, 1, 100 },
  { "in^-9", (br_dimension) -9, 1, 1 }, { "in^-8", (br_dimension) -8, 1, 1 }, { "in^-7", (br_dimension) -7, 1, 1 },
  { "in^-6", (br_dimension) -6, 1, 1 }, { "in^-5", (br_dimension) -5, 1, 1 }, { "in^-4", (br_dimension) -4, 1, 1 },
  { "in^-3", (br_dimension) -3, 1, 1 }, { "in^-2", (br_dimension) -2, 1, 1 }, { "in^-1", (br_dimension) -1, 1, 1 },
  { "in^4", (br_dimension) 4, 1, 1 }, { "in^5", (br_dimension) 5, 1, 1 }, { "in^6", (br_dimension) 6, 1, 1 },
  { "in^7", (br_dimension) 7, 1, 1 }, { "in^8", (br_dimension) 8, 1, 1 }, { "in^9", (br_dimension) 9, 1, 1 },
};

/* POINT: an abbreviation that trade texts end with a point, "2-3/8 in.".  */
static const struct
{
  const char *word;
  unsigned char unit, point;
} words[] = {
  { "in", INCH, 1 }, { "inch", INCH, 0 }, { "inches", INCH, 0 }, { "ins", INCH, 1 },
  { "ft", FOOT, 1 }, { "foot", FOOT, 0 }, { "feet", FOOT, 0 },
  { "yd", YARD, 1 }, { "yds", YARD, 1 }, { "yard", YARD, 0 }, { "yards", YARD, 0 },
  { "mm", MM, 1 }, { "mms", MM, 1 }, { "millimetre", MM, 0 }, { "millimetres", MM, 0 },
  { "millimeter", MM, 0 }, { "millimeters", MM, 0 },
  { "cm", CM, 1 }, { "cms", CM, 1 }, { "centimetre", CM, 0 }, { "centimetres", CM, 0 },
  { "centimeter", CM, 0 }, { "centimeters", CM, 0 },
  { "m", METRE, 0 }, { "metre", METRE, 0 }, { "metres", METRE, 0 },
  { "meter", METRE, 0 }, { "meters", METRE, 0 },
  { "thou", THOU, 0 },
  { "mi", MILE, 1 }, { "mile", MILE, 0 }, { "miles", MILE, 0 },
  { "km", KM, 1 }, { "kms", KM, 1 }, { "kilometre", KM, 0 }, { "kilometres", KM, 0 },
  { "kilometer", KM, 0 }, { "kilometers", KM, 0 },
  { "percent", PER_CENT, 0 },
  { "box", BOX, 0 }, { "boxes", BOX, 0 }, { "square", BOX, 0 }, { "squares", BOX, 0 },
  { "deg", DEGREE, 1 }, { "degree", DEGREE, 0 }, { "degrees", DEGREE, 0 },
};

/* The unit of the word at [AT, *END), or -1.  A point after an abbreviation is taken unless
   a digit or a point follows.  */
static int
find_word (const char *text, size_t length, size_t at, size_t *end)
{
  size_t i, stop = br__word_end (text, length, at);

  if (stop == at || stop - at > 11)
    return -1;
  for (i = 0; i < sizeof words / sizeof *words; i++)
    if ((text[at] | 0x20) == words[i].word[0]
        && br__word_is (text + at, stop - at, words[i].word))
      {
        br__kind after;

        /* A capital M has too many meanings to be read as metres.  */
        if (words[i].unit == METRE && text[at] == 'M' && stop == at + 1)
          return -1;
        *end = stop;
        if (words[i].point && stop < length && text[stop] == '.')
          {
            after = br__glyph_at (text, length, stop + 1).kind;
            if (after != BR__GLYPH_DIGIT && after != BR__GLYPH_POINT)
              *end = stop + 1;
          }
        return words[i].unit;
      }
  return -1;
}

/* 2 or 3 for the word of a square or a cube at [AT, *END), else 0.  sqft and cuin are written in one, too.  */
static int
find_power (const char *text, size_t length, size_t at, size_t *end)
{
  size_t stop = br__word_end (text, length, at), inner;
  int power = 0;

  if (br__word_is (text + at, stop - at, "sq") || br__word_is (text + at, stop - at, "square"))
    power = 2;
  else if (br__word_is (text + at, stop - at, "cu") || br__word_is (text + at, stop - at, "cubic"))
    power = 3;
  else if (stop > at + 2 && (br__word_is (text + at, 2, "sq") || br__word_is (text + at, 2, "cu"))
           && find_word (text, length, at + 2, &inner) >= 0 && !br__word_is (text + at, stop - at, "squares"))
    {
      *end = at + 2;
      return br__word_is (text + at, 2, "sq") ? 2 : 3;
    }
  else
    return 0;
  if (stop == at + 2 && stop < length && text[stop] == '.')
    stop++;
  *end = br__skip_blanks (text, length, stop);
  return *end > stop ? power : 0;
}

/* The mark at AT: a prime, a quote, a degree sign, a per cent sign; two apostrophes are a quote.  -1: none.  */
static int
scan_mark (size_t *end, const char *text, size_t length, size_t at)
{
  br__glyph g = br__glyph_at (text, length, at), next;

  *end = at + g.length;
  if (g.code == '%')
    return PER_CENT;
  switch (g.kind)
    {
    case BR__GLYPH_INCH:
      return INCH;
    case BR__GLYPH_DEGREE:
      return DEGREE;
    case BR__GLYPH_FOOT:
      next = br__glyph_at (text, length, *end);
      if (next.kind != BR__GLYPH_FOOT)
        return FOOT;
      *end += next.length;
      return INCH;
    default:
      return -1;
    }
}

/* The end of the word SECOND that follows the word FIRST at AT; AT itself where they do not stand there.  */
static size_t
two_words (const char *text, size_t length, size_t at, const char *first, const char *second)
{
  size_t stop = br__word_end (text, length, at), next;

  if (!br__word_is (text + at, stop - at, first))
    return at;
  if (stop < length && (text[stop] == '.' || text[stop] == '-'))
    stop++;
  next = br__skip_blanks (text, length, stop);
  stop = br__word_end (text, length, next);
  return br__word_is (text + next, stop - next, second) ? stop : at;
}

/* Units of two words.  */
static int
find_words (const char *text, size_t length, size_t at, size_t *end)
{
  static const struct
  {
    const char *first, *second;
    unsigned char unit;
  } pairs[] = {
    { "board", "feet", BOARD_FOOT }, { "board", "foot", BOARD_FOOT }, { "board", "ft", BOARD_FOOT },
    { "bd", "ft", BOARD_FOOT }, { "per", "cent", PER_CENT },
  };
  size_t i;

  for (i = 0; i < sizeof pairs / sizeof *pairs; i++)
    if ((*end = two_words (text, length, at, pairs[i].first, pairs[i].second)) > at)
      return pairs[i].unit;
  return -1;
}

/* 1 if what stands at AT ends a word: it could not go on with a name.  */
static int
ends_word (const char *text, size_t length, size_t at)
{
  br__kind kind = (br__kind) br__glyph_at (text, length, at).kind;

  return kind != BR__GLYPH_LETTER && kind != BR__GLYPH_DIGIT && !(at < length && text[at] == '_');
}

/* The power behind a unit that ends at AT: ^2, raised digits, or a 2 or 3 right behind it, as in ft2.  0: none.  */
static int
scan_power (size_t *end, const char *text, size_t length, size_t at, int chain)
{
  size_t next = br__skip_blanks (text, length, at), stop;
  br__glyph g = br__glyph_at (text, length, at), minus;
  int power = 0, negative = 0;

  if (!chain && g.kind == BR__GLYPH_DIGIT && (text[at] == '2' || text[at] == '3')
      && ends_word (text, length, at + 1))
    {
      *end = at + 1;
      return text[at] - '0';
    }
  g = br__glyph_at (text, length, next);
  if (g.code == '^')
    next = br__skip_blanks (text, length, next + 1);
  else if (br__raised_end (text, length, next) == next || next > at)
    return 0;
  minus = br__glyph_at (text, length, next);
  negative = g.code == '^' ? minus.kind == BR__GLYPH_DASH : minus.code == 0x207b;
  stop = negative ? next + minus.length : next;
  for (;;)
    {
      br__glyph digit = br__glyph_at (text, length, stop);

      if (digit.kind != (g.code == '^' ? BR__GLYPH_DIGIT : BR__GLYPH_SUPERSCRIPT))
        break;
      power = power > MOST_POWER ? power : 10 * power + digit.num;
      stop += digit.length;
    }
  /* An exponent that continues, as in 2.5 or a second exponent, is not part of a unit.  */
  if (power == 0 || power > MOST_POWER || (stop < length && text[stop] == '.')
      || br__glyph_at (text, length, br__skip_blanks (text, length, stop)).code == '^')
    return 0;
  *end = stop;
  return negative ? -power : power;
}

/* The unit of the word at AT, or -1.  POWER gets the power that the words say.  */
static int
scan_word (size_t *end, int *power, const char *text, size_t length, size_t at)
{
  size_t inner;
  int unit = -1, area = find_power (text, length, at, &inner);

  *power = 1;
  if (area != 0)
    {
      unit = find_word (text, length, inner, end);
      if (unit >= 0 && units[unit].dimension == BR_LENGTH && unit != BOX)
        *power = area;
      else
        unit = -1;
    }
  if (unit < 0)
    unit = find_words (text, length, at, end);
  if (unit < 0)
    unit = find_word (text, length, at, end);
  return unit;
}

/* The unit that BASE to the power POWER is written in.  */
static const br_unit *
unit_of (int base, int power)
{
  const br_unit *named = power > 0 ? br__unit_of_power (&units[base], (br_dimension) power) : NULL;

  if (power == 1)
    return &units[base];
  return named != NULL ? named : &units[POWERS + (power < 0 ? power + MOST_POWER : power + MOST_POWER - 4)];
}

/* 1 for a unit that may have a power.  */
static int
takes_power (int unit)
{
  return units[unit].dimension == BR_LENGTH && unit != BOX;
}

int
br__unit_scan_power (br__unit_found *found, const char *text, size_t length, size_t at)
{
  size_t stop = at, behind;
  int base, power = 1, more;

  at = br__skip_blanks (text, length, at);
  found->mark = br__word_end (text, length, at) == at;
  base = found->mark ? scan_mark (&stop, text, length, at) : scan_word (&stop, &power, text, length, at);
  if (base < 0)
    return 0;
  if (!found->mark && power == 1 && takes_power (base)
      && (more = scan_power (&behind, text, length, stop, base == FOOT || base == YARD)) != 0)
    {
      power = more;
      stop = behind;
    }
  /* A name such as in_body or m4 is no unit; 5ft2in is two of them.  */
  if (!found->mark && stop < length
      && (text[stop] == '_' || (text[stop] >= '0' && text[stop] <= '9' && base != FOOT && base != YARD)))
    return 0;
  found->base = &units[base];
  found->power = power;
  found->unit = unit_of (base, power);
  found->end = stop;
  return 1;
}

/* After feet or yards that no inches follow: the power of 5 ft2, else 0.  */
int
br__unit_glued_power (const char *text, size_t length, size_t at)
{
  size_t end;

  return br__glyph_at (text, length, at).kind == BR__GLYPH_DIGIT ? scan_power (&end, text, length, at, 0) : 0;
}

const br_unit *
br__unit_scan (size_t *end, const char *text, size_t length, size_t at)
{
  br__unit_found found;

  if (!br__unit_scan_power (&found, text, length, at))
    return NULL;
  *end = found.end;
  return found.unit;
}

const br_unit *
br_unit_find (const char *text, size_t length)
{
  if ((!text && length))
    return NULL;
  size_t end = 0;
  const br_unit *unit = NULL;

  if (length > 0 && br__skip_blanks (text, length, 0) == 0)
    unit = br__unit_scan (&end, text, length, 0);
  return end == length ? unit : NULL;
}

const br_unit *
br__unit_base (const br_unit *unit)
{
  ptrdiff_t i;

  if (unit == NULL)
    return &units[INCH];
  for (i = 0; i < (ptrdiff_t) (sizeof units / sizeof *units); i++)
    if (unit == &units[i])
      return i < 3 * BASES ? &units[i % BASES] : i == THOU || i == MILE || i == KM ? unit : &units[INCH];
  return &units[INCH];
}

const br_unit *
br__unit_of_power (const br_unit *unit, br_dimension dimension)
{
  const br_unit *base = br__unit_base (unit);

  if (dimension == BR_ANGLE)
    return &units[DEGREE];
  if (dimension < BR_LENGTH || dimension > BR_VOLUME)
    return NULL;
  if (base >= &units[THOU])
    return dimension == BR_LENGTH ? base : &units[(dimension - 1) * BASES + INCH];
  return base + (dimension - 1) * BASES;
}

int
br__unit_is_decimal (const br_unit *unit)
{
  const br_unit *base = br__unit_base (unit);

  return (base >= &units[MM] && base != &units[MILE]) || unit == &units[DEGREE];
}

int
br__unit_is_box (const br_unit *unit)
{
  return unit == &units[BOX];
}
