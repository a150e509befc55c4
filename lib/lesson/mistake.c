/* SPDX-License-Identifier: LGPL-3.0-or-later
   mistake.c - the known mistakes.  That learners make them is common practice, no source, except
   where a line says otherwise.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/mistake.h"

static const struct { const char *name, *shows; } mistakes[BR__MISTAKES] =
{
  [BR__MISTAKE_SCALE] = { "scaled the wrong way", "multiplied where the scale divides, or the other way round" },
  [BR__MISTAKE_DIAMETER] = { "diameter for radius", "took the distance across for the distance from the middle" },
  [BR__MISTAKE_DENOMINATORS] = { "denominators added", "worked on tops and bottoms apart, without a common denominator" },
  [BR__MISTAKE_KERF] = { "kerf forgotten", "left out the wood that the saw turns to dust" },
  [BR__MISTAKE_WHOLE] = { "whole number off by one", "lost or gained a whole: in carrying, borrowing or counting, or by starting at the 1 in mark" },
  [BR__MISTAKE_MARK] = { "one mark off", "counted one mark too few or too many" },
  [BR__MISTAKE_RULER] = { "rounded on another ruler", "took the marks for those of a coarser or finer ruler" },
  [BR__MISTAKE_ROUNDING] = { "rounded the wrong way", "took the mark on the far side" },
  [BR__MISTAKE_CUTS] = { "cuts miscounted", "took as many cuts as pieces, or one too few" },
  [BR__MISTAKE_WHOLE_ONLY] = { "fraction left as it was", "worked on the whole number alone and kept the fraction" },
  [BR__MISTAKE_OPERATION] = { "other operation", "added instead of taking away, multiplied instead of dividing, or the other way round" },
  [BR__MISTAKE_SMALLER_FIRST] = { "smaller taken from larger", "took the smaller fraction from the larger one and did not borrow" },
  [BR__MISTAKE_AS_GIVEN] = { "copied as given", "wrote a given size down again, with no reckoning" },
  [BR__MISTAKE_OTHER_SCALE] = { "other scale", "took another scale, such as quarter size for 1/4 in = 1 ft" },
  [BR__MISTAKE_DIFFERENCE] = { "difference for ratio", "added how much larger it is, in place of how many times" },
  [BR__MISTAKE_SIGN] = { "over and under swapped", "took the mark from the size, not the size from the mark" },
  [BR__MISTAKE_GAP] = { "gap forgotten", "left out the room between wheel and fender" },
  [BR__MISTAKE_RADIUS] = { "radius for diameter", "took half of the distance across where all of it counts" },
  [BR__MISTAKE_LEFT_OUT] = { "part left out", "did not count one of the parts" },
  [BR__MISTAKE_SIDES] = { "sides miscounted", "took one side for two, or two for one" },
  [BR__MISTAKE_NOT_WHOLE] = { "no whole piece", "counted a part of a piece that cannot be cut" },
  [BR__MISTAKE_FRACTION_ONLY] = { "whole number left as it was", "worked on the fraction alone and kept the whole number" },
  [BR__MISTAKE_REST] = { "rest for part", "gave what is left over for what is asked for, or the other way round" },
  [BR__MISTAKE_UNIT] = { "wrong unit", "the number is right, its unit is not" },
  [BR__MISTAKE_NO_SIGN] = { "sign missing", "left out the minus sign" },
  [BR__MISTAKE_NO_WHOLE] = { "whole number missing", "wrote the fraction and left out the whole number" },
  [BR__MISTAKE_NO_FRACTION] = { "fraction missing", "worked on the whole numbers alone and left the fractions out" },
};

const char *
br__mistake_name (br__mistake m)
{
  return mistakes[m].name;
}

const char *
br__mistake_shows (br__mistake m)
{
  return mistakes[m].shows;
}

br__mistake
br__mistake_find (const char *name, size_t length)
{
  int m = 0;
  while (m < BR__MISTAKES && !(strlen (mistakes[m].name) == length && memcmp (mistakes[m].name, name, length) == 0))
    m++;
  return (br__mistake) m;
}
