/* SPDX-License-Identifier: LGPL-3.0-or-later

   benchrule.h - exact shop arithmetic: numbers, reals, measures, rulers, scales, and the trade.

   A br_number is an exact fraction.  A br_real is a fraction, a root, a multiple of pi, or a formula of
   these; nothing of it is rounded before a mark or a digit is asked for.  br_measure_read makes a number
   of what is said at the bench ("5' 2-3/8\""), br_ruler_round puts it on a ruler's marks with its error,
   br_scale_full takes a drawn size to the full one, br_fender_radius and its like compute what is built, and
   br_caution_gap says which published rule a gap touches.  benchrule_sheet.h goes on from here: design sheets,
   their answers, pages.

   Everything declared here begins with br_ or BR_.  Rules that hold for every function:
   - Parameters stand in the order outputs, inputs, options, and the error last.
   - Any argument may be the same object as any other of its type.
   - When a function does not return BR_OK, its outputs are as they were.
   - The library never prints (a statement of a sheet can send a file to descriptor 1), exits, reads the environment, sets a locale,
     installs a handler or keeps hidden state.  Objects of one thread are never
     seen by another; a single object is not to be used by two threads at once.
   - A struct starts as its ..._ZERO initialiser and ends with its ..._clear;
     clear leaves the zero form, so clearing twice is safe, and clearing NULL is nothing.
   - Offsets and lengths in text count bytes; texts are UTF-8.
   - An error pointer may be NULL when only the status is of interest.
   - What else may be NULL says so, and a text of length 0 may.  Where another pointer is NULL the function changes nothing and gives
     BR_DOMAIN or, where it gives no status, 0, NULL, "" or, for a text that is written, SIZE_MAX.
   - A direction, ties, a series, a kind that is none of its names is BR_DOMAIN, too.
   - BR_NO_MEMORY may come from every function that gives a status; the statuses below come on top of these.  */

#ifndef BENCHRULE_H
#define BENCHRULE_H

#include <limits.h>
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

#define BR_VERSION "0.2.0"

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

/* Gives back what X holds; X is 0 then.  NULL is nothing.  */
BR_API void br_number_clear (br_number *x);
/* Z = X.  BR_NO_MEMORY, which only numbers past 64 bits can meet; BR_DOMAIN for NULL.  */
BR_API BR_CHECK br_status br_number_set (br_number *z, const br_number *x);
/* X and Y change places; needs no memory.  Where one of them is NULL nothing is done.  */
BR_API void br_number_swap (br_number *x, br_number *y);
/* Z = N.  BR_DOMAIN for NULL alone.  */
BR_API BR_CHECK br_status br_number_set_int (br_number *z, int64_t n);
/* Z = N / D in lowest terms.  BR_DOMAIN where D is 0.  */
BR_API BR_CHECK br_status br_number_set_ratio (br_number *z, int64_t n, int64_t d);
/* 1 and the parts of X where it lies inline (always so when they fit), else 0, and N and D stay.  */
BR_API int br_number_get_ratio (int64_t *n, int64_t *d, const br_number *x);

/* Z = X + Y, X - Y, X * Y, X / Y, -X, X without its sign.  BR_TOO_BIG past BR_MAX_BITS; BR_DOMAIN: division by zero.  */
BR_API BR_CHECK br_status br_number_add (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_sub (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_mul (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_div (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_neg (br_number *z, const br_number *x);
BR_API BR_CHECK br_status br_number_abs (br_number *z, const br_number *x);
/* Z = X^N; 0^0 is 1.  BR_DOMAIN: 0 to a power below 0; BR_TOO_BIG past BR_MAX_BITS.  */
BR_API BR_CHECK br_status br_number_pow (br_number *z, const br_number *x, int64_t n);

/* -1, 0 or 1; and 1 for a whole number, else 0.  */
BR_API int br_number_sign (const br_number *x);
BR_API int br_number_is_integer (const br_number *x);
/* <0, 0, >0 as X is less than Y, equal, more; 1 where they are equal, else 0.  Neither fails.  */
BR_API int br_number_cmp (const br_number *x, const br_number *y);
BR_API int br_number_equal (const br_number *x, const br_number *y);

/* The greatest integer not above X, the least not below X.  BR_DOMAIN for NULL alone.  */
BR_API BR_CHECK br_status br_number_floor (br_number *z, const br_number *x);
BR_API BR_CHECK br_status br_number_ceil (br_number *z, const br_number *x);
/* The integer for X by DIRECTION and TIES.  TIE (may be NULL) gets 1 if
   DIRECTION is BR_NEAREST and X lay exactly half way, else 0.  BR_DOMAIN: no such DIRECTION or TIES.
   This is the one place in the project that decides ties.  */
BR_API BR_CHECK br_status br_number_round (br_number *z, int *tie, const br_number *x,
                                           br_direction direction, br_ties ties);

/* 1 if the representation is the one that the value must have.  For tests.  */
BR_API int br_number_check (const br_number *x);

/* Reads "n" or "n/d" in decimal digits, a minus sign allowed, nothing else.  BR_SYNTAX; BR_DOMAIN: D is 0; BR_TOO_BIG: more
   than BR_MAX_DIGITS digits.  */
BR_API BR_CHECK br_status br_number_read (br_number *z, const char *text, size_t length,
                                          br_error *error);

/* Text goes out as with snprintf: at most SIZE bytes with the final NUL are
   put into BUFFER (may be NULL where SIZE is 0), and the length that the whole needs, without NUL, is
   returned; SIZE_MAX when memory ran out.  */

/* "n/d" in lowest terms, or "n".  */
BR_API size_t br_number_write (char *buffer, size_t size, const br_number *x);
/* Shop notation: "2-3/8", "-3/8", "5".  */
BR_API size_t br_number_write_mixed (char *buffer, size_t size, const br_number *x);
/* Decimal, correctly rounded to at most DIGITS (0 counts as 1) significant digits, ties by
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

/* Gives back what X holds; X is 0 then.  NULL is nothing.  */
BR_API void br_real_clear (br_real *x);
/* Z = X, a value or a fraction.  BR_NO_MEMORY; BR_DOMAIN for NULL.  */
BR_API BR_CHECK br_status br_real_set (br_real *z, const br_real *x);
BR_API BR_CHECK br_status br_real_set_number (br_real *z, const br_number *x);
/* The rational value of X, or NULL where X is not known to be rational; that is
   asked here, and kept.  Where memory runs out meanwhile the next function that
   has a status and takes X says so.  The pointer lives as long as X is not
   changed.  */
BR_API const br_number *br_real_rational (const br_real *x);
/* X becomes the fraction that it is equal to, where numerator and denominator
   have up to 600 bits together and there is a proof, else it stays; br_real_rational finds
   those of up to 60 bits.  BR_DOMAIN for NULL alone.  */
BR_API BR_CHECK br_status br_real_settle (br_real *x);
/* The rational that X lies so near to that it may be it, which no proof could
   decide, or NULL where there is none.  Lives as long as X is not changed.  BITS
   (may be NULL) gets the bits that a proof takes where they are past BR_MAX_BITS,
   else 0.  */
BR_API const br_number *br_real_question (const br_real *x, int64_t *bits);

/* Z = pi, X + Y, X - Y, X * Y, exactly.  BR_NO_MEMORY; BR_TOO_BIG where a fraction gets too long; BR_DOMAIN for NULL.  */
BR_API BR_CHECK br_status br_real_pi (br_real *z);
BR_API BR_CHECK br_status br_real_add (br_real *z, const br_real *x, const br_real *y);
BR_API BR_CHECK br_status br_real_sub (br_real *z, const br_real *x, const br_real *y);
BR_API BR_CHECK br_status br_real_mul (br_real *z, const br_real *x, const br_real *y);
/* BITS limits the precision at which signs are asked (0: BR_REAL_BITS; it is
   taken to be 32 at least and BR_MAX_BITS at most, here and below).
   BR_UNDECIDED where Y cannot be told from zero; BR_DOMAIN where it is zero.  */
BR_API BR_CHECK br_status br_real_div (br_real *z, const br_real *x, const br_real *y, unsigned bits);
/* Z = -X, and X without its sign, which BITS may leave BR_UNDECIDED.  BR_DOMAIN for NULL alone.  */
BR_API BR_CHECK br_status br_real_neg (br_real *z, const br_real *x);
BR_API BR_CHECK br_status br_real_abs (br_real *z, const br_real *x, unsigned bits);
/* X to the power of a rational.  BR_DOMAIN: a root of a negative value, 0 to
   a negative power, an exponent of which the root index is over 64.  BR_UNDECIDED: the sign of X;
   BR_TOO_BIG.  The square root is X to the power 1/2.  */
BR_API BR_CHECK br_status br_real_pow (br_real *z, const br_real *x, const br_number *y, unsigned bits);
BR_API BR_CHECK br_status br_real_sqrt (br_real *z, const br_real *x, unsigned bits);
/* Angles in degrees.  BR_DOMAIN: tan 90; BR_UNDECIDED: whether it is one; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_real_sin (br_real *z, const br_real *degrees);
BR_API BR_CHECK br_status br_real_cos (br_real *z, const br_real *degrees);
BR_API BR_CHECK br_status br_real_tan (br_real *z, const br_real *degrees, unsigned bits);
BR_API BR_CHECK br_status br_real_atan (br_real *z, const br_real *x);
/* Arc sine in degrees, for -1 <= X <= 1, else BR_DOMAIN; BR_UNDECIDED: whether it is that.
   (The arc cosine is 90 less the arc sine.)  */
BR_API BR_CHECK br_status br_real_asin (br_real *z, const br_real *x, unsigned bits);

/* -1, 0, 1 for the sign of X, and for X less than Y, equal, more: certain, or BR_UNDECIDED at BITS bits (0: BR_REAL_BITS).  */
BR_API BR_CHECK br_status br_real_sign (int *sign, const br_real *x, unsigned bits);
BR_API BR_CHECK br_status br_real_cmp (int *order, const br_real *x, const br_real *y, unsigned bits);
/* MULTIPLE gets the multiple of STEP (over zero) that X rounds to; TIE as in
   br_number_round.  BR_DOMAIN: STEP is not over zero; BR_UNDECIDED; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_real_round (br_number *multiple, int *tie, const br_real *x,
                                         const br_number *step, br_direction direction,
                                         br_ties ties, unsigned bits);
/* LOW <= X <= HIGH from one evaluation at BITS bits; equal for a rational.  BR_UNDECIDED where that gives no
   end; BR_TOO_BIG: an end past BR_MAX_BITS.  */
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

/* Gives back what M holds; M is a plain 0 then.  NULL is nothing.  */
BR_API void br_measure_clear (br_measure *m);

/* Reads the unsigned measure that TEXT begins with, no blanks before it:
   2-3/8  2 3/8  2⅜  .75  5' 2-3/8"  12 mm  3-1/2 boxes.  USED gets the number of
   bytes taken, the longest that is one measure.  GRID is the size of a grid
   square in inches, over 0, or NULL, with which boxes are BR_DOMAIN, as is a denominator of 0.
   BR_SYNTAX; BR_TOO_BIG: past BR_MAX_DIGITS.  ERROR has the place.  */
BR_API BR_CHECK br_status br_measure_scan (br_measure *m, size_t *used, const char *text,
                                           size_t length, const br_number *grid, br_error *error);
/* The same for a whole text, with the same statuses: blanks around and one sign before are allowed.  */
BR_API BR_CHECK br_status br_measure_read (br_measure *m, const char *text, size_t length,
                                           const br_number *grid, br_error *error);

/* The same straight into a real value, without a grid: Z is in inches, square inches ... or a plain number.  BR_SYNTAX,
   BR_DOMAIN and BR_TOO_BIG as above.  */
BR_API BR_CHECK br_status br_real_read (br_real *z, const char *text, size_t length,
                                        br_error *error);

/* How lengths are written.  */
typedef struct br_style
{
  const br_unit *unit;      /* NULL: in */
  int feet;                 /* inches past a foot as feet and inches */
} br_style;

#define BR_STYLE_INCHES { NULL, 0 }

/* X (in inches, square inches ... by DIMENSION) in shop notation: 2-3/8" or 5' 2-3/8",
   12.5 mm, 3-1/2 sq in, 45 deg, and a plain number without unit.  br_measure_read
   reads it back to the same value; other powers of length, in^4, cannot be read.  STYLE
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
/* The same for a value that need not be rational: VALUE is the multiple of MARK that X goes to, for
   certain, and ERROR (may be NULL) is VALUE - X, exactly.  A value that is not rational is never a tie.
   BR_DOMAIN: MARK is not over zero; BR_UNDECIDED where BITS bits (0: BR_REAL_BITS) do not tell on which
   side of a boundary X lies; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_ruler_round_real (br_number *value, br_real *error, int *tie,
                                               const br_real *x, const br_number *mark,
                                               br_direction direction, br_ties ties, unsigned bits);
/* The marks at or under and at or over X.  Both are X where it lies on one.  BR_DOMAIN: MARK is not over zero.  */
BR_API BR_CHECK br_status br_ruler_neighbours (br_number *below, br_number *above,
                                               const br_number *x, const br_number *mark);
/* COUNT parts X go to marks so that they add up to TOTAL, the rounded sum, and
   the largest error is the smallest possible; at equal errors the earlier part goes up.
   VALUES has room for COUNT numbers (initialised).  BITS as for br_real_sign.  BR_DOMAIN: MARK is not over
   zero; BR_UNDECIDED; BR_TOO_BIG.  */
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
   quarter, eighth, full size, half size ...  RATIO gets drawn / full.  BR_SYNTAX; BR_DOMAIN: a side is not over zero,
   or no length beside one; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_scale_read (br_number *ratio, const char *text, size_t length,
                                         br_error *error);
/* "1:2", "1:2-1/2", "2:1": how RATIO is written.  */
BR_API size_t br_scale_write (char *buffer, size_t size, const br_number *ratio);
/* FULL = DRAWN / RATIO and back.  BR_DOMAIN: RATIO, drawn / full, is not over zero; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_scale_full (br_real *full, const br_real *drawn, const br_number *ratio);
BR_API BR_CHECK br_status br_scale_drawn (br_real *drawn, const br_real *full, const br_number *ratio);

/* The same for fractions, with the same statuses.  */
BR_API BR_CHECK br_status br_scale_full_number (br_number *full, const br_number *drawn,
                                                const br_number *ratio);
BR_API BR_CHECK br_status br_scale_drawn_number (br_number *drawn, const br_number *full,
                                                 const br_number *ratio);

/* ------------------------------------------------------------------------
   The trade: circles, wheels, fenders, axles, drills
   ------------------------------------------------------------------------ */

/* The functions of the language, under the same names and with the parameters in the same order.  Lengths are in any
   one unit, the same for all of a call (drills: inches), angles in degrees.  The result is exact wherever it can be:
   round it with br_ruler_round_real.  BITS limits the precision at which signs are asked (0: BR_REAL_BITS).

   Each gives BR_DOMAIN where a parameter is NULL or out of its range and where there is no such shape, with a message
   and a hint for people in ERROR; its offset is then the index of that parameter, from 0, and its length 0.
   BR_UNDECIDED: BITS bits do not tell whether a parameter is in its range.  BR_TOO_BIG, BR_NO_MEMORY.

   The rules are plane geometry of circles and right triangles (Euclid III and I.47); no constant is rounded.  */

/* Half of a DIAMETER of 0 or more, and twice a RADIUS of 0 or more.  */
BR_API BR_CHECK br_status br_radius (br_real *radius, const br_real *diameter, unsigned bits,
                                     br_error *error);
BR_API BR_CHECK br_status br_diameter (br_real *diameter, const br_real *radius, unsigned bits,
                                       br_error *error);
/* Pi times a DIAMETER of 0 or more.  */
BR_API BR_CHECK br_status br_circumference (br_real *circumference, const br_real *diameter,
                                            unsigned bits, br_error *error);
/* From corner to corner of a rectangle with sides of 0 or more.  */
BR_API BR_CHECK br_status br_diagonal (br_real *diagonal, const br_real *side,
                                       const br_real *other_side, unsigned bits, br_error *error);
/* Along an arc: RADIUS over 0, DEGREES over 0 and up to 360.  */
BR_API BR_CHECK br_status br_arc_length (br_real *length, const br_real *radius,
                                         const br_real *degrees, unsigned bits, br_error *error);
/* Straight across from end to end of that arc.  */
BR_API BR_CHECK br_status br_chord (br_real *chord, const br_real *radius, const br_real *degrees,
                                    unsigned bits, br_error *error);
/* The height over CHORD of the smaller arc: RADIUS over 0, CHORD from 0 to twice that.  */
BR_API BR_CHECK br_status br_rise (br_real *rise, const br_real *radius, const br_real *chord,
                                   unsigned bits, br_error *error);
/* The radius of an arc by its CHORD and its RISE, both over 0.  */
BR_API BR_CHECK br_status br_radius_from (br_real *radius, const br_real *chord,
                                          const br_real *rise, unsigned bits, br_error *error);
/* The inner radius of a fender: half of a WHEEL_DIAMETER over 0, and GAP.  A gap below 0 is an overlap;
   it must leave a radius over 0.  What a gap may do to a finger, br_caution_gap says.  */
BR_API BR_CHECK br_status br_fender_radius (br_real *radius, const br_real *wheel_diameter,
                                            const br_real *gap, unsigned bits, br_error *error);
/* The outer radius of a fender of WIDTH over 0.  */
BR_API BR_CHECK br_status br_fender_outer (br_real *radius, const br_real *wheel_diameter,
                                           const br_real *gap, const br_real *width, unsigned bits,
                                           br_error *error);
/* The gap between a fender and its wheel, both sizes over 0; below 0 they overlap.  */
BR_API BR_CHECK br_status br_fender_gap (br_real *gap, const br_real *fender_radius,
                                         const br_real *wheel_diameter, unsigned bits,
                                         br_error *error);
/* The daylight between two wheels that stand on one floor, WHEELBASE (level, from axle to axle) and the
   diameters over 0: along the slanted line from axle to axle, less both radii.  Below 0 they overlap.  */
BR_API BR_CHECK br_status br_wheel_gap (br_real *gap, const br_real *wheelbase,
                                        const br_real *front_diameter, const br_real *rear_diameter,
                                        unsigned bits, br_error *error);
/* The wheelbase that leaves GAP, which may be below 0, between two such wheels.  */
BR_API BR_CHECK br_status br_wheelbase_for (br_real *wheelbase, const br_real *gap,
                                            const br_real *front_diameter,
                                            const br_real *rear_diameter, unsigned bits,
                                            br_error *error);
/* The body, and on both sides a wheel, a washer, the play and what stands out.  BODY_WIDTH and
   WHEEL_THICKNESS over 0, the others 0 or more.  */
BR_API BR_CHECK br_status br_axle_length (br_real *length, const br_real *body_width,
                                          const br_real *wheel_thickness, const br_real *washer,
                                          const br_real *side_play, const br_real *end_allowance,
                                          unsigned bits, br_error *error);
/* The hole in which a shaft turns: SHAFT_DIAMETER over 0, CLEARANCE 0 or more.  */
BR_API BR_CHECK br_status br_clearance_hole (br_real *hole, const br_real *shaft_diameter,
                                             const br_real *clearance, unsigned bits,
                                             br_error *error);

/* The series of inch twist drills: 1/64 to 1 in by 64ths, numbers 80 to 1, letters A to Z.  Sizes: ASME B94.11M,
   Twist Drills; several were taken down from memory, as the project's test data says.  */
typedef enum br_drill_series
{
  BR_DRILL_FRACTIONAL, BR_DRILL_NUMBER, BR_DRILL_LETTER
} br_drill_series;

/* The diameter in inches of the first drill of SERIES that is not smaller than SIZE, which is over 0.
   BR_DOMAIN also past the largest of the series.  */
BR_API BR_CHECK br_status br_drill_next (br_real *drill, const br_real *size,
                                         br_drill_series series, unsigned bits, br_error *error);

/* ------------------------------------------------------------------------
   Cautions
   ------------------------------------------------------------------------ */

/* A published rule that a size touches, or may touch.  The texts are static; text ends by giving way to the
   teacher's rules and to local codes, which come first.  That none is touched does not make a thing safe.  */
typedef struct br_caution
{
  const char *text;         /* one line for people */
  const char *source;
  const char *edition;      /* of the source, or where the figure is from; "" where none is known */
  const char *scope;        /* whom and what the source is about */
} br_caution;

#define BR_MOST_CAUTIONS 16     /* no call gives more */

/* For whom a thing is made: MONTHS is the age of the youngest child that will use it.  */
#define BR_AGE_UNKNOWN UINT_MAX         /* counts as the youngest */
#define BR_NO_CHILD (UINT_MAX - 1)      /* for no child */

/* What a gap is between.  Rules on gaps are about parts of which one moves against the other.  */
typedef enum br_between
{
  BR_BETWEEN_WHEELS, BR_BETWEEN_WHEEL_AND_FENDER, BR_BETWEEN_MOVING_PARTS, BR_BETWEEN_FIXED_PARTS
} br_between;

/* All of these have no side effect and leave ERROR alone but where they fail.  CAUTIONS has room for
   BR_MOST_CAUTIONS, COUNT gets how many there are, in order of their sources.  Sizes are in inches.  What BITS bits (0:
   BR_REAL_BITS) do not tell is pointed out as well, in words that say so.  BR_DOMAIN: a parameter is NULL, a size of
   a part is not over 0 (ERROR's offset is its index), or BETWEEN is none of these.  BR_TOO_BIG, BR_NO_MEMORY.  */

/* A GAP that takes in a child's finger and does not let it turn (ASTM F963 4.18.1, ISO 8124-1).  At or below 0 the
   parts rub or overlap, which is pointed out for everyone.  */
BR_API BR_CHECK br_status br_caution_gap (br_caution *cautions, size_t *count, const br_real *gap,
                                          br_between between, unsigned months, unsigned bits,
                                          br_error *error);
/* A box, its sides in any order, or a disc or rod, that may fit into the small parts cylinder (16 CFR 1501.4).  */
BR_API BR_CHECK br_status br_caution_small_box (br_caution *cautions, size_t *count,
                                                const br_real *length, const br_real *width,
                                                const br_real *thickness, unsigned months,
                                                unsigned bits, br_error *error);
BR_API BR_CHECK br_status br_caution_small_disc (br_caution *cautions, size_t *count,
                                                 const br_real *diameter, const br_real *thickness,
                                                 unsigned months, unsigned bits, br_error *error);
/* A piece of wood too small to hold at a machine; scope is the machine.  A size that is not known is NULL.  */
BR_API BR_CHECK br_status br_caution_workpiece (br_caution *cautions, size_t *count,
                                                const br_real *length, const br_real *width,
                                                const br_real *thickness, unsigned bits,
                                                br_error *error);

#ifdef __cplusplus
}
#endif

#endif /* BENCHRULE_H */

/* ------------------------------------------------------------------------
   GMP and MPFR
   ------------------------------------------------------------------------ */

/* Declared where gmp.h or mpfr.h was included before this header.  It may be included once more for that.  */
#ifdef __cplusplus
extern "C" {
#endif

#if defined (__GNU_MP_VERSION) && !defined (BR_WITH_GMP)
#define BR_WITH_GMP 1
/* Z = X, which need not be in lowest terms.  BR_DOMAIN where its denominator is 0; BR_TOO_BIG past BR_MAX_BITS;
   BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_number_set_mpq (br_number *z, const mpq_t x);
BR_API BR_CHECK br_status br_number_set_mpz (br_number *z, const mpz_t x);
/* The initialised Z = X, in lowest terms.  */
BR_API void br_number_get_mpq (mpq_t z, const br_number *x);
/* BR_DOMAIN, and Z as it was, where X is not an integer.  */
BR_API br_status br_number_get_mpz (mpz_t z, const br_number *x);
#endif

#if defined (MPFR_VERSION) && !defined (BR_WITH_MPFR)
#define BR_WITH_MPFR 1
/* The initialised Z = X, correctly rounded by MODE to the precision of Z, in the caller's range of exponents; MPFR's flags
   stay as they were.  MPFR_RNDF counts as MPFR_RNDN.  BITS (0: BR_REAL_BITS) limits how many bits past that
   precision are tried: BR_UNDECIDED where these do not tell; BR_TOO_BIG, BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_real_get_mpfr (mpfr_t z, const br_real *x, mpfr_rnd_t mode,
                                            unsigned bits);
#endif

#ifdef __cplusplus
}
#endif
