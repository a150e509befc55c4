/* SPDX-License-Identifier: LGPL-3.0-or-later

   benchrule.h - exact shop arithmetic: numbers, reals, measures, rulers and scales.

   A br_number is an exact fraction.  A br_real is a fraction, a root, a multiple of pi, or a formula of
   these; nothing of it is rounded before a mark or a digit is asked for.  br_measure_read makes a number
   of what is said at the bench ("5' 2-3/8\""), br_ruler_round puts it on a ruler's marks with its error,
   br_scale_full takes a drawn size to the full one.  benchrule_sheet.h goes on from here: design sheets,
   their answers, pages.

   Everything declared here begins with br_ or BR_.  Rules that hold for every function:
   - Parameters stand in the order outputs, inputs, options, and the error last.
   - Any argument may be the same object as any other of its type.
   - When a function does not return BR_OK, its outputs are as they were.
   - The library never prints (a statement of a sheet can send a file to descriptor 1), exits, reads the environment, sets a locale,
     installs a handler or keeps hidden state.  Objects of one thread are never
     seen by another; a single object is not to be used by two threads at once.
   - A struct starts as its ..._ZERO initialiser and ends with its ..._clear;
     clear leaves the zero form, so clearing twice is safe.
   - Offsets and lengths in text count bytes; texts are UTF-8.
   - An error pointer may be NULL when only the status is of interest.  */

#ifndef BENCHRULE_H
#define BENCHRULE_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined (__GNUC__)
# define BR_API __attribute__ ((visibility ("default")))
# define BR_CHECK __attribute__ ((warn_unused_result))
#else
# define BR_API
# define BR_CHECK
#endif

#define BR_VERSION "0.1.0"

/* The version of the library that is loaded, to compare with BR_VERSION.  */
BR_API const char *br_version (void);

/* ------------------------------------------------------------------------
   Status and error
   ------------------------------------------------------------------------ */

typedef enum br_status
{
  BR_OK = 0,
  BR_SYNTAX,      /* the text is not of the language; the error has the place */
  BR_DOMAIN,      /* no such value: division by zero, inches plus square inches */
  BR_TOO_BIG,     /* past a limit, which the message names */
  BR_UNDECIDED,   /* not certain at the precision limit; names the bits */
  BR_NO_MEMORY,
  BR_IO,          /* a file could not be read or written */
  BR_STOPPED      /* the caller ended the work; nothing has changed */
} br_status;

/* A question that an enclosure may not be able to answer.  */
typedef enum br_truth { BR_NO, BR_YES, BR_UNKNOWN } br_truth;

#define BR_MESSAGE_SIZE 240
#define BR_HINT_SIZE 160

typedef struct br_error
{
  br_status status;
  size_t offset;                  /* bytes from the start of the text given */
  size_t length;                  /* bytes of the faulty part, may be 0 */
  char message[BR_MESSAGE_SIZE];  /* one line, no final point */
  char hint[BR_HINT_SIZE];        /* what to write instead, or "" */
} br_error;

/* A short English word for STATUS, such as "syntax"; never NULL.  */
BR_API const char *br_status_name (br_status status);

/* 1 for a character (its number in Unicode) that steers a terminal, turns the order of what is shown or parts
   lines.  Texts may hold what a user typed: spell such a character out where it is shown.  The bidi controls are
   those of Unicode's UAX 9, section 2.  */
BR_API int br_text_is_control (uint32_t character);

/* Limits: no input hangs or eats memory.  */
#define BR_MAX_DIGITS 1000        /* digits in a number that is read */
#define BR_MAX_LINE 65536         /* bytes in a line */
#define BR_MAX_DEPTH 200          /* brackets inside brackets */
#define BR_MAX_BITS 1000000       /* bits of a numerator or denominator */
#define BR_REAL_BITS 4096         /* default precision limit of enclosures */

/* ------------------------------------------------------------------------
   Numbers: exact rationals
   ------------------------------------------------------------------------ */

/* A rational in lowest terms, 16 bytes.  Small ones (numerator and denominator
   below 2^63 in magnitude) lie inline; others in a heap form that a negative
   den_minus_1 marks.  One representation per value.  All zero bits is 0.
   A plain struct copy moves a number; copies go through br_number_set.  */
typedef struct br_number
{
  int64_t num;
  int64_t den_minus_1;
} br_number;

#define BR_NUMBER_ZERO { 0, 0 }

typedef enum br_ties { BR_TIES_UP, BR_TIES_DOWN, BR_TIES_EVEN } br_ties;
/* Exactly half way: UP is away from zero, DOWN towards zero, EVEN to the even
   multiple.  */

typedef enum br_direction { BR_NEAREST, BR_UP, BR_DOWN } br_direction;
/* UP never gives less than the value, DOWN never more, also below zero.  */

BR_API void br_number_clear (br_number *x);
BR_API BR_CHECK br_status br_number_set (br_number *z, const br_number *x);
BR_API void br_number_swap (br_number *x, br_number *y);
BR_API BR_CHECK br_status br_number_set_int (br_number *z, int64_t n);
/* Z = N / D in lowest terms.  BR_DOMAIN where D is 0.  */
BR_API BR_CHECK br_status br_number_set_ratio (br_number *z, int64_t n, int64_t d);
/* 1 and the parts of X where it lies inline (always so when they fit), else 0.  */
BR_API int br_number_get_ratio (int64_t *n, int64_t *d, const br_number *x);

/* BR_TOO_BIG past BR_MAX_BITS; division by zero and 0^-n are BR_DOMAIN.  */
BR_API BR_CHECK br_status br_number_add (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_sub (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_mul (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_div (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_neg (br_number *z, const br_number *x);
BR_API BR_CHECK br_status br_number_abs (br_number *z, const br_number *x);
/* Z = X^N; 0^0 is 1.  */
BR_API BR_CHECK br_status br_number_pow (br_number *z, const br_number *x, int64_t n);

BR_API int br_number_sign (const br_number *x);                          /* -1, 0, 1 */
BR_API int br_number_is_integer (const br_number *x);
/* <0, 0, >0.  Needs memory only for numbers past 64 bits.  */
BR_API int br_number_cmp (const br_number *x, const br_number *y);
BR_API int br_number_equal (const br_number *x, const br_number *y);

/* The greatest integer not above X, the least not below X.  */
BR_API BR_CHECK br_status br_number_floor (br_number *z, const br_number *x);
BR_API BR_CHECK br_status br_number_ceil (br_number *z, const br_number *x);
/* The integer for X by DIRECTION and TIES.  TIE (may be NULL) gets 1 if
   DIRECTION is BR_NEAREST and X lay exactly half way, else 0.
   This is the one place in the project that decides ties.  */
BR_API BR_CHECK br_status br_number_round (br_number *z, int *tie, const br_number *x,
                                           br_direction direction, br_ties ties);

/* 1 if the representation is the one that the value must have.  For tests.  */
BR_API int br_number_check (const br_number *x);

/* Reads "n" or "n/d" in decimal digits, a minus sign allowed, nothing else.  */
BR_API BR_CHECK br_status br_number_read (br_number *z, const char *text, size_t length,
                                          br_error *error);

/* Text goes out as with snprintf: at most SIZE bytes with the final NUL are
   put into BUFFER, and the length that the whole needs, without NUL, is
   returned; SIZE_MAX when memory ran out.  */

/* "n/d" in lowest terms, or "n".  */
BR_API size_t br_number_write (char *buffer, size_t size, const br_number *x);
/* Shop notation: "2-3/8", "-3/8", "5".  */
BR_API size_t br_number_write_mixed (char *buffer, size_t size, const br_number *x);
/* Decimal, correctly rounded to at most DIGITS significant digits, ties by
   BR_TIES_UP, zeros at the end of a fraction left out, no exponent.  WHOLE (may be
   NULL) gets 1 if the text is the exact value.  */
BR_API size_t br_number_write_decimal (char *buffer, size_t size, int *whole,
                                       const br_number *x, unsigned digits);

/* ------------------------------------------------------------------------
   Real values: rationals, roots, multiples of pi, and formulas of these
   ------------------------------------------------------------------------ */

typedef struct br_real_node br_real_node;

/* A rational lies in RATIONAL while NODE is NULL.  Other values share their
   formula by counted reference; a formula is never changed once made.  A copy
   belongs to the thread of its original.  MPFR's exponent range and flags are
   the caller's and come back as they were; its caches are those of the thread
   (mpfr_free_cache).  */
typedef struct br_real
{
  br_number rational;
  br_real_node *node;
} br_real;

#define BR_REAL_ZERO { BR_NUMBER_ZERO, NULL }

BR_API void br_real_clear (br_real *x);
BR_API BR_CHECK br_status br_real_set (br_real *z, const br_real *x);
BR_API BR_CHECK br_status br_real_set_number (br_real *z, const br_number *x);
/* The rational value of X, or NULL where X is not known to be rational.  The
   pointer lives as long as X is not changed.  */
BR_API const br_number *br_real_rational (const br_real *x);

BR_API BR_CHECK br_status br_real_pi (br_real *z);
BR_API BR_CHECK br_status br_real_add (br_real *z, const br_real *x, const br_real *y);
BR_API BR_CHECK br_status br_real_sub (br_real *z, const br_real *x, const br_real *y);
BR_API BR_CHECK br_status br_real_mul (br_real *z, const br_real *x, const br_real *y);
/* BITS limits the precision at which signs are asked (0: BR_REAL_BITS; it is
   taken to be 32 at least and BR_MAX_BITS at most, here and below).
   BR_UNDECIDED where Y can not be told from zero.  */
BR_API BR_CHECK br_status br_real_div (br_real *z, const br_real *x, const br_real *y, unsigned bits);
BR_API BR_CHECK br_status br_real_neg (br_real *z, const br_real *x);
BR_API BR_CHECK br_status br_real_abs (br_real *z, const br_real *x, unsigned bits);
/* X to the power of a rational.  BR_DOMAIN: a root of a negative value, 0 to
   a negative power, an exponent of which the root index is over 64.  */
BR_API BR_CHECK br_status br_real_pow (br_real *z, const br_real *x, const br_number *y, unsigned bits);
BR_API BR_CHECK br_status br_real_sqrt (br_real *z, const br_real *x, unsigned bits);
/* Angles in degrees.  tan 90 is BR_DOMAIN.  */
BR_API BR_CHECK br_status br_real_sin (br_real *z, const br_real *degrees);
BR_API BR_CHECK br_status br_real_cos (br_real *z, const br_real *degrees);
BR_API BR_CHECK br_status br_real_tan (br_real *z, const br_real *degrees, unsigned bits);
BR_API BR_CHECK br_status br_real_atan (br_real *z, const br_real *x);
/* Arc sine in degrees, for -1 <= X <= 1.  (The arc cosine is 90 less the arc sine.)  */
BR_API BR_CHECK br_status br_real_asin (br_real *z, const br_real *x, unsigned bits);

/* Certain answers, or BR_UNDECIDED at BITS bits (0: BR_REAL_BITS).  */
BR_API BR_CHECK br_status br_real_sign (int *sign, const br_real *x, unsigned bits);
BR_API BR_CHECK br_status br_real_cmp (int *order, const br_real *x, const br_real *y, unsigned bits);
/* MULTIPLE gets the multiple of STEP (over zero) that X rounds to; TIE as in
   br_number_round.  */
BR_API BR_CHECK br_status br_real_round (br_number *multiple, int *tie, const br_real *x,
                                         const br_number *step, br_direction direction,
                                         br_ties ties, unsigned bits);
/* LOW <= X <= HIGH from one evaluation at BITS bits; equal for a rational.  */
BR_API BR_CHECK br_status br_real_enclose (br_number *low, br_number *high, const br_real *x,
                                           unsigned bits);
/* As br_number_write_decimal; *STATUS (may be NULL) tells why where the answer is SIZE_MAX.  */
BR_API size_t br_real_write_decimal (char *buffer, size_t size, int *whole, const br_real *x,
                                     unsigned digits, unsigned bits, br_status *status);

/* ------------------------------------------------------------------------
   Measures: shop notation and units
   ------------------------------------------------------------------------ */

/* A dimension is the power of length: 0 plain, 1 length, 2 area, 3 volume;
   angles stand apart.  Values are held in inches, square inches ..., degrees.  */
typedef int br_dimension;
#define BR_PLAIN 0
#define BR_LENGTH 1
#define BR_AREA 2
#define BR_VOLUME 3
#define BR_ANGLE 1000

typedef struct br_unit
{
  const char *name;         /* as written out: "in", "ft", "mm", "sq in", "deg" */
  br_dimension dimension;
  int64_t num, den;         /* one of it is num/den inches (or square inches ...); num is 0
                               for boxes, which are as large as the grid */
} br_unit;

/* The unit called by LENGTH bytes at TEXT ("in", "inches", "\"", "mm", "sq ft"
   ...), or NULL.  The result is static.  */
BR_API const br_unit *br_unit_find (const char *text, size_t length);

/* A measure as it was written.  UNIT is the last unit written (inches after
   feet and inches), NULL for a plain number; VALUE is in inches (square inches ...).  */
typedef struct br_measure
{
  br_number value;
  const br_unit *unit;
} br_measure;

#define BR_MEASURE_ZERO { BR_NUMBER_ZERO, NULL }

BR_API void br_measure_clear (br_measure *m);

/* Reads the unsigned measure that TEXT begins with, no blanks before it:
   2-3/8  2 3/8  2⅜  .75  5' 2-3/8"  12 mm  3-1/2 boxes.  USED gets the number of
   bytes taken, the longest that is one measure.  GRID is the size of a grid
   square in inches, or NULL, with which boxes are an error.  */
BR_API BR_CHECK br_status br_measure_scan (br_measure *m, size_t *used, const char *text,
                                           size_t length, const br_number *grid, br_error *error);
/* The same for a whole text: blanks around and one sign before are allowed.  */
BR_API BR_CHECK br_status br_measure_read (br_measure *m, const char *text, size_t length,
                                           const br_number *grid, br_error *error);

/* How lengths are written.  */
typedef struct br_style
{
  const br_unit *unit;      /* NULL: in */
  int feet;                 /* inches past a foot as feet and inches */
} br_style;

#define BR_STYLE_INCHES { NULL, 0 }

/* X (in inches, square inches ... by DIMENSION) in shop notation: 2-3/8" or 5' 2-3/8",
   12.5 mm, 3-1/2 sq in, 45 deg, and a plain number without unit.  br_measure_read
   reads it back to the same value; other powers of length, in^4, can not be read.  STYLE
   may be NULL; boxes in it count as inches.  */
BR_API size_t br_measure_write (char *buffer, size_t size, const br_number *x,
                                br_dimension dimension, const br_style *style);

/* ------------------------------------------------------------------------
   Rulers
   ------------------------------------------------------------------------ */

/* VALUE gets the multiple of MARK that X goes to, ERROR (may be NULL) VALUE - X exactly,
   positive is over; TIE (may be NULL) as in br_number_round.  BR_DOMAIN: MARK is not
   over zero.  All in one unit.  */
BR_API BR_CHECK br_status br_ruler_round (br_number *value, br_number *error, int *tie,
                                          const br_number *x, const br_number *mark,
                                          br_direction direction, br_ties ties);
/* The marks at or under and at or over X.  Both are X where it lies on one.  */
BR_API BR_CHECK br_status br_ruler_neighbours (br_number *below, br_number *above,
                                               const br_number *x, const br_number *mark);
/* COUNT parts X go to marks so that they add up to TOTAL, the rounded sum, and
   the largest error is the smallest possible; at equal errors the earlier part goes up.
   VALUES has room for COUNT numbers (initialised).  BITS as for br_real_sign.  */
BR_API BR_CHECK br_status br_ruler_keep_total (br_number *values, br_number *total,
                                               const br_real *x, size_t count,
                                               const br_number *mark, br_direction direction,
                                               br_ties ties, unsigned bits);
/* The plainest fraction on a binary ruler (1, 1/2, 1/4 ...) no further from X
   than WITHIN; MARK gets its ruler.  BR_DOMAIN: WITHIN is below zero, or so small
   that no binary ruler down to 1/2^64 has such a fraction.  */
BR_API BR_CHECK br_status br_ruler_simplest (br_number *value, br_number *mark, const br_real *x,
                                             const br_number *within, unsigned bits);

/* ------------------------------------------------------------------------
   Scales
   ------------------------------------------------------------------------ */

/* Reads a drawing scale: 1:2, 2:1, 1/4 in = 1 ft, 41 mm = 3 in, full, half,
   quarter, eighth, full size, half size ...  RATIO gets drawn / full.  */
BR_API BR_CHECK br_status br_scale_read (br_number *ratio, const char *text, size_t length,
                                         br_error *error);
/* "1:2", "1:2-1/2", "2:1": how RATIO is written.  */
BR_API size_t br_scale_write (char *buffer, size_t size, const br_number *ratio);
/* FULL = DRAWN / RATIO and back.  Each may be the other.  */
BR_API BR_CHECK br_status br_scale_full (br_real *full, const br_real *drawn, const br_number *ratio);
BR_API BR_CHECK br_status br_scale_drawn (br_real *drawn, const br_real *full, const br_number *ratio);

#ifdef __cplusplus
}
#endif

#endif /* BENCHRULE_H */
