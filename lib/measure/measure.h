/* SPDX-License-Identifier: LGPL-3.0-or-later
   measure.h - inside the room: characters that pasted measures are made of, and units.
   Nothing here allocates.  Texts are UTF-8 and need no NUL at the end.  */
#ifndef BR_MEASURE_MEASURE_H
#define BR_MEASURE_MEASURE_H

#include "benchrule.h"
#include "exact/number.h"
#include "exact/text.h"

/* The role of a character in a measure; variants of a character have the same role.  */
typedef enum br__kind
{
  BR__GLYPH_END,              /* no text is left; length 0 */
  BR__GLYPH_OTHER,
  BR__GLYPH_BROKEN,           /* a byte that is no UTF-8 */
  BR__GLYPH_CONTROL,
  BR__GLYPH_BLANK,            /* space, tab, no-break, thin and narrow blanks */
  BR__GLYPH_DASH,             /* hyphens, figure dash, en dash, minus sign */
  BR__GLYPH_SLASH,
  BR__GLYPH_FRACTION_SLASH,   /* U+2044, U+2215, U+29F8 */
  BR__GLYPH_POINT,
  BR__GLYPH_COMMA,
  BR__GLYPH_DIGIT,
  BR__GLYPH_SUPERSCRIPT,      /* a raised digit */
  BR__GLYPH_SUBSCRIPT,        /* a lowered digit */
  BR__GLYPH_VULGAR,           /* a whole fraction in one character */
  BR__GLYPH_ONE_OVER,         /* U+215F, "1/" in one character */
  BR__GLYPH_FOOT,             /* straight or curly apostrophe, prime */
  BR__GLYPH_INCH,             /* straight or curly quote, double prime */
  BR__GLYPH_DEGREE,
  BR__GLYPH_LETTER            /* A-Z, a-z */
} br__kind;

typedef struct br__glyph
{
  unsigned code;
  unsigned char length;     /* bytes */
  unsigned char kind;       /* br__kind */
  unsigned char num, den;   /* of BR__GLYPH_VULGAR; of the three digit kinds num is the digit */
} br__glyph;

/* The character at AT.  A broken byte has length 1.  */
br__glyph br__glyph_at (const char *text, size_t length, size_t at);
/* The first place from AT on that is no blank.  */
size_t br__skip_blanks (const char *text, size_t length, size_t at);
/* 1 where an unsigned measure can begin at AT: a digit (raised too), a point before a
   digit or a point, a vulgar fraction.  The lexer calls br_measure_scan there.  */
int br__measure_begins (const char *text, size_t length, size_t at);

/* cell.c.  1 where TEXT is a measure with more around it than blanks, as in Ø6.35 or 19 mm thick: the measure lies from
   *START to *END.  */
int br__measure_within (size_t *start, size_t *end, const char *text, size_t length);
/* Writes the parts of TEXT before START and after END, without quotes and commas.  */
void br__put_left_out (br_text *t, const char *text, size_t length, size_t start, size_t end);
/* The end of the ASCII word at AT, AT itself where there is none.  */
size_t br__word_end (const char *text, size_t length, size_t at);
/* 1 if the LENGTH bytes at TEXT are WORD (in small letters), capitals or not.  */
int br__word_is (const char *text, size_t length, const char *word);

/* The unit for DIMENSION that goes with UNIT (NULL: in): mm and area give sq mm.  NULL where
   there is none, as for in^4.  */
const br_unit *br__unit_of_power (const br_unit *unit, br_dimension dimension);
/* The length unit of the same family: of sq mm it is mm; in for angles and boxes.  */
const br_unit *br__unit_base (const br_unit *unit);
/* 1 for the units that are written in decimals rather than shop fractions.  */
int br__unit_is_decimal (const br_unit *unit);
/* 1 for grid boxes, whose size the sheet gives; num is then 0.  */
int br__unit_is_box (const br_unit *unit);
/* A unit as it stands: BASE to the power POWER, which is written UNIT.  */
typedef struct br__unit_found
{
  const br_unit *base, *unit;
  int power;
  int mark;                 /* ' or ", not a word */
  size_t end;
} br__unit_found;

/* 1 where a unit stands at AT, after blanks too, with its power: in, sq ft, mm^3, "; else 0.  */
int br__unit_scan_power (br__unit_found *found, const char *text, size_t length, size_t at);
/* Behind feet or yards: the power that a 2 or 3 at AT is, as in 5 ft2, else 0.  */
int br__unit_glued_power (const char *text, size_t length, size_t at);
/* M = one of the unit at AT, where one stands there, and USED bytes are it.  */
br_status br__unit_measure (br_measure *m, size_t *used, const char *text, size_t length, br_error *error);
/* The unit at AT, perhaps after blanks, and the offset of its end; NULL if there is none.  */
const br_unit *br__unit_scan (size_t *end, const char *text, size_t length, size_t at);

/* br_scale_read with squares of the size GRID (NULL: not known), as in 2 boxes = 1 in.  */
br_status br__scale_read (br_number *ratio, const char *text, size_t length, const br_number *grid, br_error *error);

/* 1 where X is whole or so many halves, quarters ... down to 1/FINEST, a power of two; and the finest
   of a rule that people have.  */
#define BR__FINEST_RULE 64
static inline int
br__is_shop_fraction (const br_number *x, int64_t finest)
{
  return br__is_small (x) && x->den_minus_1 < finest && br__is_binary (br__small_den (x));
}

/* A text being read, and what goes with it.  */
typedef struct br__reader
{
  const char *text;
  size_t length;
  const br_number *grid;    /* the size of a box, or NULL */
  br_error *error;
} br__reader;

typedef enum br__form
{
  BR__FORM_WHOLE,           /* 12 */
  BR__FORM_DECIMAL,         /* 2.5 */
  BR__FORM_FRACTION,        /* 3/8 */
  BR__FORM_MIXED            /* 2-3/8 */
} br__form;

/* A number without its unit, TEXT[start..end).  */
typedef struct br__numeral
{
  br_number value;
  size_t start, end;
  br__form form;
} br__numeral;

#define BR__NUMERAL_ZERO { BR_NUMBER_ZERO, 0, 0, BR__FORM_WHOLE }

/* A fast path for the ASCII numbers that are in nearly every text: 1 if there is such an unsigned number at AT and
   nothing after it could change its meaning; else 0: call br__numeral_scan.  */
int br__numeral_plain (br__numeral *n, const br__reader *r, size_t at);
/* Z = such a number that is all of TEXT; else 0, and Z is untouched.  */
int br__plain_read (br_number *z, const char *text, size_t length);
/* The end of the raised whole number at AT, with a raised minus before it; AT where there is none, or where it is
   the top of a fraction.  */
size_t br__raised_end (const char *text, size_t length, size_t at);
/* The raised digits at AT as a whole number.  */
br_status br__raised_scan (br__numeral *n, const br__reader *r, size_t at);
/* Reads the unsigned number at AT, the longest that is one number.  */
br_status br__numeral_scan (br__numeral *n, const br__reader *r, size_t at);

#endif
