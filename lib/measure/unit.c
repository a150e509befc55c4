/* SPDX-License-Identifier: LGPL-3.0-or-later
   unit.c - the units, their names and marks, and how many inches one of each is.
   1 in is exactly 25.4 mm (Federal Register, 24 FR 5348, 1 July 1959).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "measure/measure.h"

enum { INCH, FOOT, YARD, MM, CM, METRE, BASES };
enum { THOU = 3 * BASES, BOX, DEGREE };

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
};

/* POINT: an abbreviation that trade texts end with a point, "2-3/8 in.".  */
static const struct
{
  const char *word;
  unsigned char unit, point;
} words[] = {
  { "in", INCH, 1 }, { "inch", INCH, 0 }, { "inches", INCH, 0 },
  { "ft", FOOT, 1 }, { "foot", FOOT, 0 }, { "feet", FOOT, 0 },
  { "yd", YARD, 1 }, { "yds", YARD, 1 }, { "yard", YARD, 0 }, { "yards", YARD, 0 },
  { "mm", MM, 0 }, { "millimetre", MM, 0 }, { "millimetres", MM, 0 },
  { "millimeter", MM, 0 }, { "millimeters", MM, 0 },
  { "cm", CM, 0 }, { "centimetre", CM, 0 }, { "centimetres", CM, 0 },
  { "centimeter", CM, 0 }, { "centimeters", CM, 0 },
  { "m", METRE, 0 }, { "metre", METRE, 0 }, { "metres", METRE, 0 },
  { "meter", METRE, 0 }, { "meters", METRE, 0 },
  { "thou", THOU, 0 },
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

        /* A capital M stands for too much to be taken for metres.  */
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

/* 2 or 3 for the word of a square or a cube at [AT, *END), else 0.  */
static int
find_power (const char *text, size_t length, size_t at, size_t *end)
{
  size_t stop = br__word_end (text, length, at);
  int power = 0;

  if (br__word_is (text + at, stop - at, "sq") || br__word_is (text + at, stop - at, "square"))
    power = 2;
  else if (br__word_is (text + at, stop - at, "cu") || br__word_is (text + at, stop - at, "cubic"))
    power = 3;
  else
    return 0;
  if (stop == at + 2 && stop < length && text[stop] == '.')
    stop++;
  *end = br__skip_blanks (text, length, stop);
  return *end > stop ? power : 0;
}

/* The mark at AT: a prime, a quote, a degree sign; two apostrophes are a quote.  */
static const br_unit *
scan_mark (size_t *end, const char *text, size_t length, size_t at)
{
  br__glyph g = br__glyph_at (text, length, at), next;

  *end = at + g.length;
  switch (g.kind)
    {
    case BR__GLYPH_INCH:
      return &units[INCH];
    case BR__GLYPH_DEGREE:
      return &units[DEGREE];
    case BR__GLYPH_FOOT:
      next = br__glyph_at (text, length, *end);
      if (next.kind != BR__GLYPH_FOOT)
        return &units[FOOT];
      *end += next.length;
      return &units[INCH];
    default:
      return NULL;
    }
}

static const br_unit *
scan_word (size_t *end, const char *text, size_t length, size_t at)
{
  size_t stop = at, inner;
  int power = find_power (text, length, at, &inner), unit = -1;

  if (power != 0)
    {
      unit = find_word (text, length, inner, &stop);
      unit = unit >= 0 && unit < BASES ? unit + (power - 1) * BASES : -1;
    }
  if (unit < 0)
    unit = find_word (text, length, at, &stop);
  if (unit < 0)
    return NULL;
  /* A name such as in_body or m2 is no unit; 5ft2in is two of them.  */
  if (stop < length && (text[stop] == '_' || (text[stop] >= '0' && text[stop] <= '9'
                                              && unit != FOOT && unit != YARD)))
    return NULL;
  *end = stop;
  return &units[unit];
}

const br_unit *
br__unit_scan (size_t *end, int *mark, const char *text, size_t length, size_t at)
{
  const br_unit *unit;
  size_t stop = at;
  int is_mark = 0;

  at = br__skip_blanks (text, length, at);
  if (br__word_end (text, length, at) > at)
    unit = scan_word (&stop, text, length, at);
  else
    {
      unit = scan_mark (&stop, text, length, at);
      is_mark = 1;
    }
  if (unit != NULL)
    {
      *end = stop;
      if (mark != NULL)
        *mark = is_mark;
    }
  return unit;
}

const br_unit *
br_unit_find (const char *text, size_t length)
{
  size_t end = 0;
  const br_unit *unit = NULL;

  if (length > 0 && br__skip_blanks (text, length, 0) == 0)
    unit = br__unit_scan (&end, NULL, text, length, 0);
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
      return i < 3 * BASES ? &units[i % BASES] : i == THOU ? unit : &units[INCH];
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
  if (base == &units[THOU])
    return dimension == BR_LENGTH ? base : &units[(dimension - 1) * BASES + INCH];
  return base + (dimension - 1) * BASES;
}

int
br__unit_is_decimal (const br_unit *unit)
{
  const br_unit *base = br__unit_base (unit);

  return base >= &units[MM] || unit == &units[DEGREE];
}

int
br__unit_is_box (const br_unit *unit)
{
  return unit == &units[BOX];
}
