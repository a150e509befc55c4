/* SPDX-License-Identifier: LGPL-3.0-or-later

   benchrule.h - exact shop arithmetic: numbers, measures, rulers, design sheets.

   The one public header.  Everything declared here begins with br_ or BR_.

   Rules that hold for every function:
   - Parameters stand in the order outputs, inputs, options, and the error last.
   - Any argument may be the same object as any other of its type.
   - When a function does not return BR_OK, its outputs are as they were.
   - The library never prints (a statement can send a file to descriptor 1), exits, reads the environment, sets a locale,
     installs a handler or keeps hidden state.  Objects of one thread are never
     seen by another; a single object is not to be used by two threads at once.
   - A struct starts as its ..._ZERO initialiser and ends with its ..._clear;
     clear leaves the zero form, so clearing twice is safe.
   - Offsets and lengths in text count bytes; texts are UTF-8.
   - An error pointer may be NULL when only the status is of interest.  */

#ifndef BENCHRULE_H
#define BENCHRULE_H

#include <signal.h>
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
  BR_IO           /* a file could not be read or written */
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

/* ------------------------------------------------------------------------
   Records: what statements answer
   ------------------------------------------------------------------------ */

/* A record is a kind and an ordered row of fields; docs list the kinds with
   their fields.  Values of fields are text, truth, count, null, records or lists of
   text and records.  Numbers are texts in exact form ("19/8").  */
typedef struct br_record br_record;
typedef struct br_list br_list;

typedef enum br_field_type
{
  BR_FIELD_NULL, BR_FIELD_TRUTH, BR_FIELD_COUNT, BR_FIELD_TEXT, BR_FIELD_LIST, BR_FIELD_RECORD
} br_field_type;

typedef struct br_field
{
  const char *key;          /* "" in a list */
  br_field_type type;
  union
  {
    int truth;
    int64_t count;
    const char *text;
    const br_list *list;
    const br_record *record;
  } value;
} br_field;

/* "value", "rounding" ... or "" for a row inside another record.  */
BR_API const char *br_record_kind (const br_record *record);
BR_API size_t br_record_size (const br_record *record);
BR_API br_field br_record_at (const br_record *record, size_t index);
/* The field called KEY, or one of type BR_FIELD_NULL.  */
BR_API br_field br_record_get (const br_record *record, const char *key);
BR_API size_t br_list_size (const br_list *list);
BR_API br_field br_list_at (const br_list *list, size_t index);
/* Short ways, also through RECORD and LIST that are NULL; where there is no such field of that type: "", 0, -1
   and NULL.  */
BR_API const char *br_record_text (const br_record *record, const char *key);
BR_API int br_record_truth (const br_record *record, const char *key);
BR_API int64_t br_record_count (const br_record *record, const char *key);
BR_API const br_list *br_record_list (const br_record *record, const char *key);
BR_API const char *br_list_text (const br_list *list, size_t index);
BR_API const br_record *br_list_record (const br_list *list, size_t index);

/* 1 for a character (its number in Unicode) that steers a terminal, turns the order of what is shown or parts
   lines.  Texts may hold what a user typed: spell such a character out where it is shown.  The bidi controls are
   those of Unicode's UAX 9, section 2.  */
BR_API int br_text_is_control (uint32_t character);

/* ------------------------------------------------------------------------
   Sheets: the language
   ------------------------------------------------------------------------ */

typedef struct br_sheet br_sheet;

/* A mistake in a sheet: ERROR's offset counts from the start of TEXT, which is
   line LINE (from 1) of FILE.  FILE is the name given to br_sheet_run or open.  */
typedef struct br_fault
{
  const char *file;
  size_t line;
  const char *text;
  size_t text_length;
  const br_error *error;
} br_fault;

/* Column J of COLUMNS gives COUNTS[J * ROWS + I] to row I, and row I asks for DEMAND[I]: how few
   columns, each used as often as one likes, are enough?  */
typedef struct br_cover
{
  size_t rows, columns;
  const uint32_t *counts;
  const int64_t *demand;
} br_cover;

#define BR_COVER_ONE (INT64_C (1) << 40)

/* Steers the search for cutting plans.  What it says is checked and never taken for true, so it may
   reckon as roughly as it likes.  Without one, plans are searched for by simpler means.  */
typedef struct br_solver
{
  /* Broken uses of the columns, and the prices of the rows at which no column is worth more than one;
     both times BR_COVER_ONE.  0: it gave up.  */
  int (*relax) (int64_t *uses, int64_t *prices, const br_cover *cover);
  /* Whole uses, TARGET of them in all or as few as it finds in MILLISECONDS or until *FLAG (FLAG may be
     NULL) is not 0.  0: it found none.  */
  int (*whole) (int64_t *uses, const br_cover *cover, int64_t target, int milliseconds,
                const volatile sig_atomic_t *flag);
} br_solver;

/* Where answers and mistakes go, in order.  The calls may be NULL, and so may SOLVER.  */
typedef struct br_sink
{
  void *user;
  void (*record) (void *user, const br_record *record);
  void (*fault) (void *user, const br_fault *fault);
  /* Bytes are about to go to descriptor 1, as a statement asked for that: what waits to go there goes
     first.  */
  void (*flush) (void *user);
  /* Long work tells what it is at and how much of its time is gone, in hundredths.  */
  void (*progress) (void *user, const char *what, int percent);
  const br_solver *solver;
  int columns;                  /* how wide a picture in characters may be; 0: 80 */
} br_sink;

BR_API BR_CHECK br_status br_sheet_new (br_sheet **sheet);
BR_API void br_sheet_free (br_sheet *sheet);

/* Runs the lines of TEXT; FILE names them in faults and FIRST_LINE is the number of the
   first.  A wrong line is told to SINK and the rest goes on.  Returns the first status
   that was not BR_OK.  */
BR_API br_status br_sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file,
                               size_t first_line, const br_sink *sink);
/* The same with a file; "-" is not special here.  */
BR_API br_status br_sheet_run_file (br_sheet *sheet, const char *path, const br_sink *sink);

/* Checks that fail now, dimensions that wait, 1 if something is not saved (settings alone do not
   count), 1 after `quit`.  */
BR_API size_t br_sheet_failing (const br_sheet *sheet);
BR_API size_t br_sheet_waiting (const br_sheet *sheet);
BR_API int br_sheet_unsaved (const br_sheet *sheet);
BR_API int br_sheet_done (const br_sheet *sheet);
/* Takes a `quit` back.  */
BR_API void br_sheet_go_on (br_sheet *sheet);
/* Puts the sheet's lines in the place of the file PATH: the old file or the new is there, whole,
   whatever happens.  _save takes PATH as the sheet's own from now on and br_sheet_unsaved is 0;
   _write only writes, for a copy that outlives a crash.  BR_IO says why in ERROR.  */
BR_API BR_CHECK br_status br_sheet_save (br_sheet *sheet, const char *path, br_error *error);
BR_API BR_CHECK br_status br_sheet_write (const br_sheet *sheet, const char *path, br_error *error);
/* The file that was opened first or saved last, or NULL.  */
BR_API const char *br_sheet_path (const br_sheet *sheet);
/* Polled in long work; work ends early, saying so, when *FLAG is not 0.  */
BR_API void br_sheet_watch (br_sheet *sheet, const volatile sig_atomic_t *flag);
/* The precision limit of this sheet in bits, 64 to 65,536; BR_REAL_BITS at first.  */
BR_API BR_CHECK br_status br_sheet_set_bits (br_sheet *sheet, unsigned bits);

/* How many threads work on a long column, 1 to BR_MAX_JOBS; 1 at first.  */
#define BR_MAX_JOBS 64
BR_API BR_CHECK br_status br_sheet_set_jobs (br_sheet *sheet, unsigned jobs);

/* What could stand at the end of TEXT[0..POINT): calls FOUND with each word that begins
   with what is typed there.  START gets the offset where that word begins.  Where a file
   name is wanted, *FILE gets 1 and FOUND is not called.  */
BR_API void br_sheet_complete (const br_sheet *sheet, const char *text, size_t point,
                               size_t *start, int *file,
                               void (*found) (void *user, const char *word), void *user);

/* ------------------------------------------------------------------------
   Pages
   ------------------------------------------------------------------------ */

/* Sizes on a page are whole numbers of 72,000ths of an inch; x goes right and y down from the
   upper left corner.  The library draws nothing itself: it calls what the program registers.  */
#define BR_PAGE_INCH 72000

typedef struct br_page br_page;     /* the painter's own: a drawing of one page or more */

typedef enum br_align { BR_ALIGN_LEFT, BR_ALIGN_MIDDLE, BR_ALIGN_RIGHT } br_align;

/* Text in one look.  Fractions in it, 3/8 and 2-3/8, become proper ones.  */
typedef struct br_page_text
{
  const char *text;         /* UTF-8 */
  int32_t x, y;             /* its upper left, middle or right, as ALIGN says */
  int32_t width;            /* its lines are broken at blanks to be no longer; 0: one line */
  int32_t size;             /* of the letters */
  int bold;
  br_align align;           /* of a text that has no WIDTH */
} br_page_text;

/* A ruler with its marks upward from a base line.  */
typedef struct br_page_ruler
{
  int32_t x, y;             /* the left end of the base line */
  int32_t unit;             /* BR_PAGE_INCH for a ruler in inches at true size */
  int32_t units, parts;     /* its length, and the marks in a unit: a power of two, or ten */
  int32_t first;            /* the number at its left end */
  int32_t arrow;            /* an arrow points at so far from the left end; below 0: none */
  int32_t size;             /* of its numbers; 0: 11 points */
} br_page_ruler;

typedef struct br_painter
{
  /* FORM is "pdf", or "svg" or "png" for one page alone.  TITLE goes into the file.  */
  br_status (*open) (br_page **page, const char *form, int32_t width, int32_t height,
                     const char *title, br_error *error);
  void (*next) (br_page *page);         /* what follows goes on another page */
  void (*line) (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1, int32_t width,
                int dashed);
  /* Anticlockwise from FROM to TO, in millionths of a degree, 0 to the right.  */
  void (*arc) (br_page *page, int32_t x, int32_t y, int32_t radius, int32_t from, int32_t to,
               int32_t width, int dashed);
  /* Returns the height that it takes; DRAW 0 only measures.  WIDTH (may be NULL) gets the longest line.  */
  int32_t (*text) (br_page *page, int32_t *width, const br_page_text *text, int draw);
  void (*ruler) (br_page *page, const br_page_ruler *ruler);
  /* The whole file, to be given back by `release`.  PAGE is gone then, also on an error.  */
  br_status (*close) (char **bytes, size_t *length, br_page *page, br_error *error);
  void (*release) (char *bytes);
  void (*drop) (br_page *page);         /* ends it without a file */
  /* For the lines and arcs from here on: GREY thousandths of white, ends round where ROUND.  */
  void (*pen) (br_page *page, int32_t grey, int round);
  /* Black inside COUNT corners, x and y of each.  */
  void (*fill) (br_page *page, const int32_t *corners, size_t count);
  /* From here on only what lies inside shows, to the page's end; all of it where X1 is not over X0.  */
  void (*clip) (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1);
} br_painter;

/* FIND is called when a page is asked for; it returns NULL with ERROR filled in where there is no
   painter.  The painter must live as long as SHEET.  */
typedef const br_painter *br_painter_find (void *user, br_error *error);
BR_API void br_sheet_set_painter (br_sheet *sheet, br_painter_find *find, void *user);

#ifdef __cplusplus
}
#endif

#endif /* BENCHRULE_H */
