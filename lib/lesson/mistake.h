/* SPDX-License-Identifier: LGPL-3.0-or-later
   mistake.h - the known mistakes: how they are called, and what they show.  */
#ifndef BR_LESSON_MISTAKE_H
#define BR_LESSON_MISTAKE_H

#include <stddef.h>

typedef enum br__mistake
{
  BR__MISTAKE_SCALE,            /* the eight that every marker knows */
  BR__MISTAKE_DIAMETER,
  BR__MISTAKE_DENOMINATORS,
  BR__MISTAKE_KERF,
  BR__MISTAKE_WHOLE,
  BR__MISTAKE_MARK,
  BR__MISTAKE_RULER,
  BR__MISTAKE_ROUNDING,
  BR__MISTAKE_CUTS,             /* those of single topics */
  BR__MISTAKE_WHOLE_ONLY,
  BR__MISTAKE_OPERATION,
  BR__MISTAKE_SMALLER_FIRST,
  BR__MISTAKE_AS_GIVEN,
  BR__MISTAKE_OTHER_SCALE,
  BR__MISTAKE_DIFFERENCE,
  BR__MISTAKE_SIGN,
  BR__MISTAKE_GAP,
  BR__MISTAKE_RADIUS,
  BR__MISTAKE_LEFT_OUT,
  BR__MISTAKE_SIDES,
  BR__MISTAKE_NOT_WHOLE,
  BR__MISTAKE_FRACTION_ONLY,
  BR__MISTAKE_REST,
  BR__MISTAKE_UNIT,
  BR__MISTAKE_NO_SIGN,
  BR__MISTAKE_NO_WHOLE,
  BR__MISTAKE_NO_FRACTION,
  BR__MISTAKES
} br__mistake;

/* "kerf forgotten": its name in files.  */
const char *br__mistake_name (br__mistake m);
/* What it shows, a sentence without its point.  */
const char *br__mistake_shows (br__mistake m);
/* The mistake called NAME, or BR__MISTAKES.  */
br__mistake br__mistake_find (const char *name, size_t length);

#endif
