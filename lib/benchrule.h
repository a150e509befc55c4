/* SPDX-License-Identifier: LGPL-3.0-or-later

   benchrule.h - exact shop arithmetic: numbers, reals, measures, rulers, scales, and the trade.

   A br_number is an exact fraction.  A br_real is a fraction, a root, a multiple of pi, or a formula of these; it
   stays exact until a function rounds it to ruler marks or to digits.  br_measure_read parses a measure in shop
   notation ("5' 2-3/8\""), br_ruler_round rounds to a ruler's marks and returns the error, br_scale_full converts a
   drawn size to full size, br_fender_radius and the functions next to it compute parts, and br_caution_gap lists the
   published safety rules that a gap touches.  benchrule_sheet.h builds on this header: design sheets, their answers,
   pages.

   All names declared here begin with br_ or BR_.  Rules for every function:
   - The order of parameters is outputs, inputs, options, error.
   - Any argument may be the same object as any other of its type.
   - If a function does not return BR_OK, its outputs are unchanged.
   - The library never prints, exits, reads the environment, sets a locale, installs a signal handler or keeps hidden
     state.  The one exception: a statement of a sheet can send a file to descriptor 1.
   - Different threads may use different objects at the same time.  Two threads must not use one object at once.
   - Initialise a struct with its ..._ZERO and release it with its ..._clear.  After clear the struct is zero again, so
     clearing twice is safe.  Clearing NULL does nothing.
   - Offsets and lengths in text count bytes; texts are UTF-8.
   - An error pointer may be NULL if only the status is of interest.
   - Other pointers may be NULL only where their comment says so; a text of length 0 may always be NULL.  If another
     pointer is NULL, the function changes nothing and returns BR_DOMAIN.  If it returns no status, it returns 0, NULL or
     "", or SIZE_MAX if it writes text.
   - An enum argument (direction, ties, series, kind) with an unknown value gives BR_DOMAIN.
   - Every function that returns a status may return BR_NO_MEMORY.  The comments below list the other statuses.  */

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

/* The version of the loaded library; compare it with BR_VERSION, the version of this header.  */
BR_API const char *br_version (void);

/* ------------------------------------------------------------------------
   Status and error
   ------------------------------------------------------------------------ */

typedef enum br_status
{
  BR_OK = 0,
  BR_SYNTAX,      /* the text cannot be parsed; the error has the place */
  BR_DOMAIN,      /* there is no such value: division by zero, inches plus square inches */
  BR_TOO_BIG,     /* past a limit; the message names the limit */
  BR_UNDECIDED,   /* not certain at the precision limit; the message names the bits */
  BR_NO_MEMORY,
  BR_IO,          /* a file could not be read or written */
  BR_STOPPED      /* the caller stopped the work; nothing has changed */
} br_status;

/* The answer to a question about a real value; BR_UNKNOWN if the precision limit does not decide it.  */
typedef enum br_truth { BR_NO, BR_YES, BR_UNKNOWN } br_truth;

#define BR_MESSAGE_SIZE 240
#define BR_HINT_SIZE 160

typedef struct br_error
{
  br_status status;
  size_t offset;                  /* bytes from the start of the text given */
  size_t length;                  /* bytes of the faulty part, may be 0 */
  char message[BR_MESSAGE_SIZE];  /* one line without a full stop */
  char hint[BR_HINT_SIZE];        /* what to write instead, or "" */
} br_error;

/* A short English word for STATUS, such as "syntax"; never NULL.  */
BR_API const char *br_status_name (br_status status);

/* 1 if CHARACTER, a Unicode code point, controls a terminal, changes the direction of text or breaks lines.  Texts
   may contain what a user typed, so escape these characters before you show a text.  The bidirectional controls are
   listed in Unicode's UAX 9, section 2.  */
BR_API int br_text_is_control (uint32_t character);

/* Limits, so that no input takes unbounded time or memory.  */
#define BR_MAX_DIGITS 1000        /* digits in a number that is read */
#define BR_MAX_LINE 65536         /* bytes in a line */
#define BR_MAX_DEPTH 200          /* brackets inside brackets */
#define BR_MAX_BITS 1000000       /* bits of a numerator or denominator */
#define BR_REAL_BITS 4096         /* default precision limit of enclosures */

/* ------------------------------------------------------------------------
   Numbers: exact rationals
   ------------------------------------------------------------------------ */

/* A rational in lowest terms, 16 bytes.  If numerator and denominator are below
   2^63 in magnitude they are stored inline, else on the heap; a negative
   den_minus_1 marks the heap form.  Each value has exactly one representation.
   All zero bits is 0.  Assigning the struct moves a number; use br_number_set to copy it.  */
typedef struct br_number
{
  int64_t num;
  int64_t den_minus_1;
} br_number;

#define BR_NUMBER_ZERO { 0, 0 }

typedef enum br_ties { BR_TIES_UP, BR_TIES_DOWN, BR_TIES_EVEN } br_ties;
/* What to do with a value exactly half way between two results: UP rounds away
   from zero, DOWN towards zero, EVEN to the even multiple.  */

typedef enum br_direction { BR_NEAREST, BR_UP, BR_DOWN } br_direction;
/* UP never gives less than the value and DOWN never more, for negative values too.  */

/* Frees the memory of X and sets X to 0.  NULL does nothing.  */
BR_API void br_number_clear (br_number *x);
/* Z = X.  BR_NO_MEMORY, only possible for numbers past 64 bits; BR_DOMAIN for NULL.  */
BR_API BR_CHECK br_status br_number_set (br_number *z, const br_number *x);
/* Exchanges X and Y without allocating memory.  Does nothing if one of them is NULL.  */
BR_API void br_number_swap (br_number *x, br_number *y);
/* Z = N.  BR_DOMAIN only for NULL.  */
BR_API BR_CHECK br_status br_number_set_int (br_number *z, int64_t n);
/* Z = N / D in lowest terms.  BR_DOMAIN if D is 0.  */
BR_API BR_CHECK br_status br_number_set_ratio (br_number *z, int64_t n, int64_t d);
/* If numerator and denominator of X fit, stores them in N and D and returns 1; else returns 0 and leaves N and D alone.  */
BR_API int br_number_get_ratio (int64_t *n, int64_t *d, const br_number *x);

/* Z = X + Y, X - Y, X * Y, X / Y, -X, |X|.  BR_TOO_BIG past BR_MAX_BITS; BR_DOMAIN: division by zero.  */
BR_API BR_CHECK br_status br_number_add (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_sub (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_mul (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_div (br_number *z, const br_number *x, const br_number *y);
BR_API BR_CHECK br_status br_number_neg (br_number *z, const br_number *x);
BR_API BR_CHECK br_status br_number_abs (br_number *z, const br_number *x);
/* Z = X^N; 0^0 is 1.  BR_DOMAIN: 0 to a negative power; BR_TOO_BIG past BR_MAX_BITS.  */
BR_API BR_CHECK br_status br_number_pow (br_number *z, const br_number *x, int64_t n);

/* The sign of X: -1, 0 or 1.  And 1 if X is a whole number, else 0.  */
BR_API int br_number_sign (const br_number *x);
BR_API int br_number_is_integer (const br_number *x);
/* Negative, 0 or positive if X is less than, equal to or greater than Y.  And 1 if they are equal, else 0.  */
BR_API int br_number_cmp (const br_number *x, const br_number *y);
BR_API int br_number_equal (const br_number *x, const br_number *y);

/* The greatest integer not above X, the least not below X.  BR_DOMAIN only for NULL.  */
BR_API BR_CHECK br_status br_number_floor (br_number *z, const br_number *x);
BR_API BR_CHECK br_status br_number_ceil (br_number *z, const br_number *x);
/* Z = X rounded to an integer by DIRECTION and TIES.  TIE (may be NULL) gets 1 if
   DIRECTION is BR_NEAREST and X was exactly half way, else 0.  BR_DOMAIN: unknown DIRECTION or TIES.
   All rounding in the project decides ties here.  */
BR_API BR_CHECK br_status br_number_round (br_number *z, int *tie, const br_number *x,
                                           br_direction direction, br_ties ties);

/* 1 if X is in the one valid representation of its value.  For tests.  */
BR_API int br_number_check (const br_number *x);

/* Parses "n" or "n/d" in decimal digits; a minus sign is allowed, nothing else.  BR_SYNTAX; BR_DOMAIN: d is 0; BR_TOO_BIG:
   more than BR_MAX_DIGITS digits.  */
BR_API BR_CHECK br_status br_number_read (br_number *z, const char *text, size_t length,
                                          br_error *error);

/* Functions that write text work like snprintf: they store at most SIZE bytes, including the final NUL, in BUFFER (may
   be NULL if SIZE is 0) and return the length of the whole text without NUL.  They return SIZE_MAX if memory runs
   out.  */

/* "n/d" in lowest terms, or "n".  */
BR_API size_t br_number_write (char *buffer, size_t size, const br_number *x);
/* Shop notation: "2-3/8", "-3/8", "5".  */
BR_API size_t br_number_write_mixed (char *buffer, size_t size, const br_number *x);
/* Decimal, correctly rounded to at most DIGITS (0 counts as 1) significant digits, ties by
   BR_TIES_UP, without trailing zeros after the point and without exponent.  WHOLE (may be
   NULL) gets 1 if the text is the exact value, else 0.  */
BR_API size_t br_number_write_decimal (char *buffer, size_t size, int *whole,
                                       const br_number *x, unsigned digits);

/* ------------------------------------------------------------------------
   Real values: rationals, roots, multiples of pi, and formulas of these
   ------------------------------------------------------------------------ */

typedef struct br_real_node br_real_node;

/* If NODE is NULL, the value is RATIONAL.  Otherwise NODE is a formula, shared
   by reference counting and never modified.  The counts are not locked, so all copies
   of a value belong to one thread.  The library saves and restores MPFR's exponent range and
   flags; it uses MPFR's caches of the thread (see mpfr_free_cache).  */
typedef struct br_real
{
  br_number rational;
  br_real_node *node;
} br_real;

#define BR_REAL_ZERO { BR_NUMBER_ZERO, NULL }

/* Frees the memory of X and sets X to 0.  NULL does nothing.  */
BR_API void br_real_clear (br_real *x);
/* Z = X, a real value or a fraction.  BR_NO_MEMORY; BR_DOMAIN for NULL.  */
BR_API BR_CHECK br_status br_real_set (br_real *z, const br_real *x);
BR_API BR_CHECK br_status br_real_set_number (br_real *z, const br_number *x);
/* The rational value of X, or NULL if X is not known to be rational.  The first
   call finds this out and X caches the result.  If memory runs out here, the next
   function that takes X and returns a status returns BR_NO_MEMORY.  The pointer is
   valid until X is changed.  */
BR_API const br_number *br_real_rational (const br_real *x);
/* Replaces X by an equal fraction if a proof finds one whose numerator and
   denominator have at most 600 bits together; otherwise X is unchanged.  br_real_rational
   finds only fractions of up to 60 bits.  BR_DOMAIN only for NULL.  */
BR_API BR_CHECK br_status br_real_settle (br_real *x);
/* A rational so near to X that the two may be equal, although this could not be
   proved, or NULL if there is none.  The pointer is valid until X is changed.  BITS
   (may be NULL) gets the number of bits that a proof would need if that is more
   than BR_MAX_BITS, else 0.  */
BR_API const br_number *br_real_question (const br_real *x, int64_t *bits);

/* Z = pi, X + Y, X - Y, X * Y, exactly.  BR_NO_MEMORY; BR_TOO_BIG if a fraction gets too long; BR_DOMAIN for NULL.  */
BR_API BR_CHECK br_status br_real_pi (br_real *z);
BR_API BR_CHECK br_status br_real_add (br_real *z, const br_real *x, const br_real *y);
BR_API BR_CHECK br_status br_real_sub (br_real *z, const br_real *x, const br_real *y);
BR_API BR_CHECK br_status br_real_mul (br_real *z, const br_real *x, const br_real *y);
/* BITS limits the precision used to find signs (0: BR_REAL_BITS; here and below it
   is clamped to 32 ... BR_MAX_BITS).  BR_UNDECIDED if this does not decide
   whether Y is zero; BR_DOMAIN if Y is zero.  */
BR_API BR_CHECK br_status br_real_div (br_real *z, const br_real *x, const br_real *y, unsigned bits);
/* Z = -X, and Z = |X|, which is BR_UNDECIDED if BITS do not decide the sign.  BR_DOMAIN only for NULL.  */
BR_API BR_CHECK br_status br_real_neg (br_real *z, const br_real *x);
BR_API BR_CHECK br_status br_real_abs (br_real *z, const br_real *x, unsigned bits);
/* Z = X^Y for a rational Y, and the square root, X^(1/2).  BR_DOMAIN: a root of a negative value, 0 to
   a negative power, an exponent with a denominator over 64.  BR_UNDECIDED: the sign of X is not certain.
   BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_real_pow (br_real *z, const br_real *x, const br_number *y, unsigned bits);
BR_API BR_CHECK br_status br_real_sqrt (br_real *z, const br_real *x, unsigned bits);
/* Angles are in degrees.  BR_DOMAIN: the tangent of 90 or another odd multiple of it; BR_UNDECIDED: whether the angle is
   one of these is not certain; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_real_sin (br_real *z, const br_real *degrees);
BR_API BR_CHECK br_status br_real_cos (br_real *z, const br_real *degrees);
BR_API BR_CHECK br_status br_real_tan (br_real *z, const br_real *degrees, unsigned bits);
BR_API BR_CHECK br_status br_real_atan (br_real *z, const br_real *x);
/* Arc sine in degrees.  BR_DOMAIN: X is not from -1 to 1; BR_UNDECIDED: whether it is that is not certain.
   (The arc cosine is 90 minus the arc sine.)  */
BR_API BR_CHECK br_status br_real_asin (br_real *z, const br_real *x, unsigned bits);

/* SIGN gets -1, 0 or 1, the sign of X.  ORDER gets -1, 0 or 1 if X is less than, equal to or greater than Y.  BR_UNDECIDED
   if BITS bits (0: BR_REAL_BITS) do not make this certain.  */
BR_API BR_CHECK br_status br_real_sign (int *sign, const br_real *x, unsigned bits);
BR_API BR_CHECK br_status br_real_cmp (int *order, const br_real *x, const br_real *y, unsigned bits);
/* MULTIPLE gets X rounded to a multiple of STEP; TIE as in
   br_number_round.  BR_DOMAIN: STEP is not positive; BR_UNDECIDED; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_real_round (br_number *multiple, int *tie, const br_real *x,
                                         const br_number *step, br_direction direction,
                                         br_ties ties, unsigned bits);
/* Bounds LOW <= X <= HIGH from one evaluation at BITS bits; LOW = HIGH for a rational.  BR_UNDECIDED if the evaluation
   gives no finite bounds; BR_TOO_BIG: a bound past BR_MAX_BITS.  */
BR_API BR_CHECK br_status br_real_enclose (br_number *low, br_number *high, const br_real *x,
                                           unsigned bits);
/* Like br_number_write_decimal.  If it returns SIZE_MAX, *STATUS (may be NULL) gets the reason.  */
BR_API size_t br_real_write_decimal (char *buffer, size_t size, int *whole, const br_real *x,
                                     unsigned digits, unsigned bits, br_status *status);

/* ------------------------------------------------------------------------
   Measures: shop notation and units
   ------------------------------------------------------------------------ */

/* A dimension is a power of length: 0 plain number, 1 length, 2 area, 3 volume;
   or BR_ANGLE.  Values are stored in inches, square inches ..., degrees.  */
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
  int64_t num, den;         /* 1 unit is num/den inches (or square inches ...); num is 0 for
                               boxes, whose size is that of the grid */
} br_unit;

/* The unit with the name TEXT of LENGTH bytes ("in", "inches", "\"", "mm", "sq ft"
   ...), or NULL.  The result is static.  */
BR_API const br_unit *br_unit_find (const char *text, size_t length);

/* A measure that was read.  UNIT is the last unit written (inches for
   feet and inches), NULL for a plain number; VALUE is in inches (square inches ...).  */
typedef struct br_measure
{
  br_number value;
  const br_unit *unit;
} br_measure;

#define BR_MEASURE_ZERO { BR_NUMBER_ZERO, NULL }

/* Frees the memory of M and sets M to a plain 0.  NULL does nothing.  */
BR_API void br_measure_clear (br_measure *m);

/* Parses the longest unsigned measure at the start of TEXT, with no blanks before it:
   2-3/8  2 3/8  2⅜  .75  5' 2-3/8"  12 mm  3-1/2 boxes.  USED gets the number of
   bytes parsed.  GRID is the size of a grid square in inches, positive, or NULL.
   BR_DOMAIN: boxes without a GRID, or a denominator of 0.  BR_SYNTAX; BR_TOO_BIG: past
   BR_MAX_DIGITS.  ERROR has the place.  */
BR_API BR_CHECK br_status br_measure_scan (br_measure *m, size_t *used, const char *text,
                                           size_t length, const br_number *grid, br_error *error);
/* Parses the whole of TEXT, with the same statuses.  Blanks around the measure and one sign before it are allowed.  */
BR_API BR_CHECK br_status br_measure_read (br_measure *m, const char *text, size_t length,
                                           const br_number *grid, br_error *error);

/* Like br_measure_read, without a grid, but Z is a real value: in inches, square inches ... or a plain number.
   BR_SYNTAX, BR_DOMAIN and BR_TOO_BIG as above.  */
BR_API BR_CHECK br_status br_real_read (br_real *z, const char *text, size_t length,
                                        br_error *error);

/* How lengths are written.  */
typedef struct br_style
{
  const br_unit *unit;      /* NULL: in */
  int feet;                 /* 1: from a foot upward write feet and inches */
} br_style;

#define BR_STYLE_INCHES { NULL, 0 }

/* Writes X (in inches, square inches ... by DIMENSION) in shop notation: 2-3/8" or 5' 2-3/8",
   12.5 mm, 3-1/2 sq in, 45 deg, or a plain number without unit.  br_measure_read
   parses the text back to the same value, except for powers above 3 such as in^4.  STYLE
   may be NULL; if its unit is boxes, inches are used.  */
BR_API size_t br_measure_write (char *buffer, size_t size, const br_number *x,
                                br_dimension dimension, const br_style *style);

/* ------------------------------------------------------------------------
   Rulers
   ------------------------------------------------------------------------ */

/* VALUE gets X rounded to a multiple of MARK, ERROR (may be NULL) the exact difference VALUE - X,
   TIE (may be NULL) as in br_number_round.  All are in one unit.  BR_DOMAIN: MARK is not
   positive.  */
BR_API BR_CHECK br_status br_ruler_round (br_number *value, br_number *error, int *tie,
                                          const br_number *x, const br_number *mark,
                                          br_direction direction, br_ties ties);
/* The same for a real X; VALUE is certain and ERROR is exact here, too.  An irrational value is never a tie.
   BR_DOMAIN: MARK is not positive; BR_UNDECIDED if BITS bits (0: BR_REAL_BITS) do not decide on which
   side of a boundary X lies; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_ruler_round_real (br_number *value, br_real *error, int *tie,
                                               const br_real *x, const br_number *mark,
                                               br_direction direction, br_ties ties, unsigned bits);
/* The nearest marks not above and not below X; both are X if X lies on a mark.  BR_DOMAIN: MARK is not positive.  */
BR_API BR_CHECK br_status br_ruler_neighbours (br_number *below, br_number *above,
                                               const br_number *x, const br_number *mark);
/* Rounds the COUNT parts X to marks so that the results add up to TOTAL, the rounded sum, and the largest error is as
   small as possible; of parts with equal errors the earlier one is rounded up.  VALUES is an array of COUNT initialised
   numbers.  BITS as for br_real_sign.  BR_DOMAIN: MARK is not positive; BR_UNDECIDED; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_ruler_keep_total (br_number *values, br_number *total,
                                               const br_real *x, size_t count,
                                               const br_number *mark, br_direction direction,
                                               br_ties ties, unsigned bits);
/* VALUE gets the multiple of the coarsest binary mark (1, 1/2, 1/4 ...) that is no
   further from X than WITHIN; MARK gets that mark.  BR_DOMAIN: WITHIN is negative, or
   no mark down to 1/2^64 is fine enough.  */
BR_API BR_CHECK br_status br_ruler_simplest (br_number *value, br_number *mark, const br_real *x,
                                             const br_number *within, unsigned bits);

/* ------------------------------------------------------------------------
   Scales
   ------------------------------------------------------------------------ */

/* Parses a drawing scale: 1:2, 2:1, 1/4 in = 1 ft, 41 mm = 3 in, full, half,
   quarter, eighth, full size, half size ...  RATIO gets drawn / full.  BR_SYNTAX; BR_DOMAIN: a side is not positive,
   or only one side is a length; BR_TOO_BIG.  */
BR_API BR_CHECK br_status br_scale_read (br_number *ratio, const char *text, size_t length,
                                         br_error *error);
/* Writes RATIO as a scale: "1:2", "1:2-1/2", "2:1".  */
BR_API size_t br_scale_write (char *buffer, size_t size, const br_number *ratio);
/* FULL = DRAWN / RATIO, and DRAWN = FULL * RATIO.  BR_DOMAIN: RATIO is not positive; BR_TOO_BIG.  */
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

/* The functions of the sheet language, with the same names and the same order of parameters.  All lengths of a call
   are in the same unit, which may be any (drills: inches); angles are in degrees.  The result is not rounded: round it
   with br_ruler_round_real.  BITS limits the precision used to find signs (0: BR_REAL_BITS).

   BR_DOMAIN: a parameter is NULL or out of range, or there is no such shape.  ERROR then has a message and a hint for
   the user; its offset is the index of the parameter, from 0, and its length 0.  BR_UNDECIDED: BITS bits do not decide
   whether a parameter is in range.  BR_TOO_BIG, BR_NO_MEMORY.

   The rules are plane geometry of circles and right triangles (Euclid III and I.47); no constant is rounded.  */

/* Half of a DIAMETER of 0 or more, and twice a RADIUS of 0 or more.  */
BR_API BR_CHECK br_status br_radius (br_real *radius, const br_real *diameter, unsigned bits,
                                     br_error *error);
BR_API BR_CHECK br_status br_diameter (br_real *diameter, const br_real *radius, unsigned bits,
                                       br_error *error);
/* Pi times a DIAMETER of 0 or more.  */
BR_API BR_CHECK br_status br_circumference (br_real *circumference, const br_real *diameter,
                                            unsigned bits, br_error *error);
/* The diagonal of a rectangle with sides of 0 or more.  */
BR_API BR_CHECK br_status br_diagonal (br_real *diagonal, const br_real *side,
                                       const br_real *other_side, unsigned bits, br_error *error);
/* The length of an arc: RADIUS over 0, DEGREES over 0 and up to 360.  */
BR_API BR_CHECK br_status br_arc_length (br_real *length, const br_real *radius,
                                         const br_real *degrees, unsigned bits, br_error *error);
/* The straight distance between the ends of such an arc.  */
BR_API BR_CHECK br_status br_chord (br_real *chord, const br_real *radius, const br_real *degrees,
                                    unsigned bits, br_error *error);
/* The height of the smaller arc above its CHORD: RADIUS over 0, CHORD from 0 to 2 * RADIUS.  */
BR_API BR_CHECK br_status br_rise (br_real *rise, const br_real *radius, const br_real *chord,
                                   unsigned bits, br_error *error);
/* The radius of an arc from its CHORD and its RISE, both over 0.  */
BR_API BR_CHECK br_status br_radius_from (br_real *radius, const br_real *chord,
                                          const br_real *rise, unsigned bits, br_error *error);
/* The inner radius of a fender: WHEEL_DIAMETER / 2 + GAP, with WHEEL_DIAMETER over 0.  A negative gap is an overlap;
   the radius must be over 0.  Check the gap with br_caution_gap: some gaps can trap a finger.  */
BR_API BR_CHECK br_status br_fender_radius (br_real *radius, const br_real *wheel_diameter,
                                            const br_real *gap, unsigned bits, br_error *error);
/* The outer radius of a fender: its inner radius + WIDTH, which is over 0.  */
BR_API BR_CHECK br_status br_fender_outer (br_real *radius, const br_real *wheel_diameter,
                                           const br_real *gap, const br_real *width, unsigned bits,
                                           br_error *error);
/* The gap between a fender and its wheel, both sizes over 0; negative if they overlap.  */
BR_API BR_CHECK br_status br_fender_gap (br_real *gap, const br_real *fender_radius,
                                         const br_real *wheel_diameter, unsigned bits,
                                         br_error *error);
/* The gap between two wheels on the same floor: the distance between the axles, along the slanted line, minus both
   radii.  WHEELBASE, the horizontal distance of the axles, and the diameters are over 0.  Negative if they overlap.  */
BR_API BR_CHECK br_status br_wheel_gap (br_real *gap, const br_real *wheelbase,
                                        const br_real *front_diameter, const br_real *rear_diameter,
                                        unsigned bits, br_error *error);
/* The wheelbase for which two such wheels have the gap GAP, which may be negative.  */
BR_API BR_CHECK br_status br_wheelbase_for (br_real *wheelbase, const br_real *gap,
                                            const br_real *front_diameter,
                                            const br_real *rear_diameter, unsigned bits,
                                            br_error *error);
/* BODY_WIDTH + 2 * (WHEEL_THICKNESS + WASHER + SIDE_PLAY + END_ALLOWANCE).  BODY_WIDTH and WHEEL_THICKNESS are over 0,
   the others 0 or more.  */
BR_API BR_CHECK br_status br_axle_length (br_real *length, const br_real *body_width,
                                          const br_real *wheel_thickness, const br_real *washer,
                                          const br_real *side_play, const br_real *end_allowance,
                                          unsigned bits, br_error *error);
/* The diameter of a hole in which a shaft turns: SHAFT_DIAMETER over 0, CLEARANCE 0 or more.  */
BR_API BR_CHECK br_status br_clearance_hole (br_real *hole, const br_real *shaft_diameter,
                                             const br_real *clearance, unsigned bits,
                                             br_error *error);

/* The series of inch twist drills: 1/64 to 1 in by 64ths, numbers 80 to 1, letters A to Z.  Sizes: ASME B94.11M,
   Twist Drills; several are from memory, as the test data of the project says.  */
typedef enum br_drill_series
{
  BR_DRILL_FRACTIONAL, BR_DRILL_NUMBER, BR_DRILL_LETTER
} br_drill_series;

/* The diameter in inches of the smallest drill of SERIES that is not smaller than SIZE, which is over 0.
   BR_DOMAIN also if SIZE is over the largest drill of the series.  */
BR_API BR_CHECK br_status br_drill_next (br_real *drill, const br_real *size,
                                         br_drill_series series, unsigned bits, br_error *error);

/* ------------------------------------------------------------------------
   Cautions
   ------------------------------------------------------------------------ */

/* A published rule that a size touches, or may touch.  The texts are static; each ends by saying that the teacher's
   rules and local codes come first.  If no rule is touched, this does not mean that a thing is safe.  */
typedef struct br_caution
{
  const char *text;         /* one line for the user */
  const char *source;
  const char *edition;      /* of the source, or where the figure is from; "" if not known */
  const char *scope;        /* which users and things the source covers */
} br_caution;

#define BR_MOST_CAUTIONS 16     /* the most that a call returns */

/* Values of MONTHS, the age of the youngest child who will use the thing, besides an age.  */
#define BR_AGE_UNKNOWN UINT_MAX         /* counts as the youngest */
#define BR_NO_CHILD (UINT_MAX - 1)      /* not for children */

/* What a gap is between.  The rules on gaps are about parts that move against each other.  */
typedef enum br_between
{
  BR_BETWEEN_WHEELS, BR_BETWEEN_WHEEL_AND_FENDER, BR_BETWEEN_MOVING_PARTS, BR_BETWEEN_FIXED_PARTS
} br_between;

/* These functions have no side effects and set ERROR only if they fail.  CAUTIONS is an array of BR_MOST_CAUTIONS, COUNT
   gets how many were stored, in order of their sources.  Sizes are in inches.  If BITS bits (0: BR_REAL_BITS) do not
   decide whether a rule is touched, it is returned with a text that says so.  BR_DOMAIN: a parameter is NULL, the size
   of a part is not over 0 (ERROR's offset is its index), or BETWEEN is unknown.  BR_TOO_BIG, BR_NO_MEMORY.  */

/* A GAP that a child's finger fits into but cannot turn in (ASTM F963 4.18.1, ISO 8124-1).  If GAP is 0 or negative
   the parts rub or overlap; this is reported for every age.  */
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
/* A piece of wood too small to hold at a machine; scope names the machine.  An unknown size is NULL.  */
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

/* Declared if gmp.h or mpfr.h is included before this header.  To add them later, include this header a second time.  */
#ifdef __cplusplus
extern "C" {
#endif

#if defined (__GNU_MP_VERSION) && !defined (BR_WITH_GMP)
#define BR_WITH_GMP 1
/* Z = X.  X need not be in lowest terms.  BR_DOMAIN if its denominator is 0; BR_TOO_BIG past BR_MAX_BITS;
   BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_number_set_mpq (br_number *z, const mpq_t x);
BR_API BR_CHECK br_status br_number_set_mpz (br_number *z, const mpz_t x);
/* Z = X in lowest terms.  Z must be initialised.  */
BR_API void br_number_get_mpq (mpq_t z, const br_number *x);
/* Z = X.  Z must be initialised.  If X is not an integer, Z is unchanged: BR_DOMAIN.  */
BR_API br_status br_number_get_mpz (mpz_t z, const br_number *x);
#endif

#if defined (MPFR_VERSION) && !defined (BR_WITH_MPFR)
#define BR_WITH_MPFR 1
/* Z = X, correctly rounded by MODE to the precision of Z, in the caller's exponent range; MPFR's flags are unchanged.
   Z must be initialised.  MPFR_RNDF counts as MPFR_RNDN.  BITS (0: BR_REAL_BITS) limits how many bits past the
   precision of Z are tried: BR_UNDECIDED if these are not enough; BR_TOO_BIG, BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_real_get_mpfr (mpfr_t z, const br_real *x, mpfr_rnd_t mode,
                                            unsigned bits);
#endif

#ifdef __cplusplus
}
#endif
