/* SPDX-License-Identifier: LGPL-3.0-or-later

   benchrule_sheet.h - design sheets: the language, its answers, and the callbacks that a program registers.

   A br_sheet holds dimensions, checks, shapes and settings.  br_sheet_run runs lines of the sheet language.  It passes
   each answer to the caller's br_sink as a br_record, which has a kind and an ordered list of fields, and each error
   as a br_fault with its line and place.  The library does not draw pages itself: a program registers a br_painter for
   this, and may register a br_solver, which improves the search for cutting plans.

   The rules for all functions are at the top of benchrule.h.  A record belongs to the library and is valid only
   during the callback that receives it.  */

#ifndef BENCHRULE_SHEET_H
#define BENCHRULE_SHEET_H

#include <signal.h>

#include <benchrule.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ------------------------------------------------------------------------
   Records: the answers of statements
   ------------------------------------------------------------------------ */

/* A record is a kind and an ordered list of fields; the manual lists the kinds with
   their fields.  The value of a field is a text, a truth value, a count, null, a record or a list of
   texts and records.  Numbers are texts in exact form ("19/8").  */
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

/* The kind: "value", "rounding" ..., or "" for a record inside another.  The number of fields.  The field at INDEX, from 0;
   if there is none, a field of type BR_FIELD_NULL.  */
BR_API const char *br_record_kind (const br_record *record);
BR_API size_t br_record_size (const br_record *record);
BR_API br_field br_record_at (const br_record *record, size_t index);
/* The field called KEY.  The number of members of LIST.  The member at INDEX, from 0.  If there is no such field or member:
   one of type BR_FIELD_NULL.  */
BR_API br_field br_record_get (const br_record *record, const char *key);
BR_API size_t br_list_size (const br_list *list);
BR_API br_field br_list_at (const br_list *list, size_t index);
/* The value of a field or member of the given type.  If there is none of that type, or RECORD or LIST is NULL: "" for a
   text, 0 for a truth value, -1 for a count, NULL for a list or record.  */
BR_API const char *br_record_text (const br_record *record, const char *key);
BR_API int br_record_truth (const br_record *record, const char *key);
BR_API int64_t br_record_count (const br_record *record, const char *key);
BR_API const br_list *br_record_list (const br_record *record, const char *key);
BR_API const char *br_list_text (const br_list *list, size_t index);
BR_API const br_record *br_list_record (const br_list *list, size_t index);

/* ------------------------------------------------------------------------
   Sheets: the language
   ------------------------------------------------------------------------ */

typedef struct br_sheet br_sheet;

/* An error in a sheet.  TEXT is line LINE (from 1) of FILE, and ERROR's offset counts from its start.  If the line was
   typed as a phrase, TEXT is the statement that it was translated to, else the line as typed.  FILE is the name given to
   br_sheet_run or to `open`, or "".  A fault is valid only during the callback.  */
typedef struct br_fault
{
  const char *file;
  size_t line;
  const char *text;
  size_t text_length;
  const br_error *error;
} br_fault;

/* A covering problem: each use of column J adds COUNTS[J * ROWS + I] to row I, and row I needs DEMAND[I].  Find the
   smallest number of uses, of all columns together, that meets the demand.  */
typedef struct br_cover
{
  size_t rows, columns;
  const uint32_t *counts;
  const int64_t *demand;
} br_cover;

#define BR_COVER_ONE (INT64_C (1) << 40)

/* Helps the search for cutting plans.  The library checks all results, so a solver may compute with rounded numbers.
   Without a solver the library uses simpler methods.  */
typedef struct br_solver
{
  /* Solves the linear relaxation: USES gets the uses of the columns, PRICES the dual values of the rows, at which no
     column is worth more than 1; both multiplied by BR_COVER_ONE.  Returns 0 if it gave up.  */
  int (*relax) (int64_t *uses, int64_t *prices, const br_cover *cover);
  /* Finds whole uses: TARGET in total, or as few as it finds within MILLISECONDS.  It stops early when *FLAG is not 0
     (FLAG may be NULL).  Returns 0 if it found none.  */
  int (*whole) (int64_t *uses, const br_cover *cover, int64_t target, int milliseconds,
                const volatile sig_atomic_t *flag);
} br_solver;

/* Receives answers and errors, in order.  Each callback may be NULL, and so may SOLVER.  */
typedef struct br_sink
{
  void *user;
  void (*record) (void *user, const br_record *record);
  void (*fault) (void *user, const br_fault *fault);
  /* Called before the library writes to descriptor 1, because a statement asked for that.  The program should flush its
     own buffered output first.  */
  void (*flush) (void *user);
  /* Progress of long work: WHAT it is doing and the PERCENT of its time that has passed.  */
  void (*progress) (void *user, const char *what, int percent);
  const br_solver *solver;
  /* A line was typed as a phrase and translated to STATEMENT, which is run next.  LEFT_OUT: the part of the line that
     was ignored, or "".  */
  void (*read_as) (void *user, const char *statement, const char *left_out);
  int columns;                  /* the greatest width of a picture in characters; 0: 80 */
  /* The answer to `open` and `use`: 0: the answers of the lines of the file; 1: only a summary, the record `opened`; 2:
     both.  */
  int summary;
  /* 1: the text continues the input of the previous call, as a line of a stream does, so that both share the limits on
     work and on hints.  */
  int goes_on;
  /* 1: the rows of a column that is not written to a file are passed as records, `column_row`; 0: they are written to
     standard output.  */
  int rows;
} br_sink;

#define BR_SINK_ZERO { NULL, NULL, NULL, NULL, NULL, NULL, NULL, 0, 0, 0, 0 }

/* ---- Files ---- */

typedef enum br_file_use
{
  BR_FILE_SHEET,        /* its lines are run */
  BR_FILE_READ,         /* another file is read; "-" is standard input */
  BR_FILE_WRITE
} br_file_use;

/* A file that the library is about to read or write.  */
typedef struct br_file_request
{
  br_file_use use;
  const char *path;
  /* The sheet file with the line that uses the file; NULL: a line passed to br_sheet_run, or a call such as
     br_sheet_save.  */
  const char *sheet;
  size_t line;          /* from 1; 0 for a call */
  int asked;            /* 1 once `run files` was given */
} br_file_request;

/* Called before any file is opened; returns 1 to allow it.  If it refuses a line of a sheet file, the line is skipped
   with a remark; any other refusal is an error (BR_IO).  */
typedef int br_file_policy (void *user, const br_file_request *request);

/* The default policy, which your own policy may call.  It allows every file that is not used by a line of a sheet file.
   A sheet file may only use regular files in its own folder and below (symbolic links are resolved), and no name in
   their path may begin with a dot.  There it may open FILE.sheet as sheets; after `run files` it may also read any
   file and write files that end in .sheet .csv .txt .html .svg .pdf .png.  */
BR_API int br_file_usual (const br_file_request *request);

/* *SHEET = a new empty sheet; free it with br_sheet_free.  BR_NO_MEMORY; BR_DOMAIN for NULL.  */
BR_API BR_CHECK br_status br_sheet_new (br_sheet **sheet);
/* Frees SHEET.  NULL does nothing.  In a callback of a call on SHEET it stops that call: there are no more callbacks, the
   call returns BR_STOPPED or an earlier error, and SHEET is freed when it returns.  */
BR_API void br_sheet_free (br_sheet *sheet);

/* Runs the lines of TEXT.  Faults give FILE (may be NULL) as the file and count lines from FIRST_LINE.  An error in a
   line is passed to SINK (may be NULL), and the next lines are run.  Returns the first status that was not BR_OK, which
   may be any status.  In a callback of a call on SHEET a statement is not finished yet: there this function,
   br_sheet_run_file and br_sheet_set do nothing and return BR_DOMAIN.  */
BR_API br_status br_sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file,
                               size_t first_line, const br_sink *sink);
/* Opens the file PATH if SHEET is empty; otherwise adds it as `use` does.  "-" is not special here.  Returns the first status
   that was not BR_OK; BR_IO if the file cannot be read.  */
BR_API br_status br_sheet_run_file (br_sheet *sheet, const char *path, const br_sink *sink);

/* The number of checks that fail or are undecided now.  The number of dimensions that wait for a value.  1 if there are
   unsaved changes (changed settings alone do not count).  1 after `quit`.  */
BR_API size_t br_sheet_failing (const br_sheet *sheet);
BR_API size_t br_sheet_waiting (const br_sheet *sheet);
BR_API int br_sheet_unsaved (const br_sheet *sheet);
BR_API int br_sheet_done (const br_sheet *sheet);
/* Cancels a `quit`; br_sheet_done is 0 then.  */
BR_API void br_sheet_go_on (br_sheet *sheet);
/* Write the lines of the sheet to the file PATH and replace it atomically: after a crash it is either the old file or the
   new one.  They replace any file without asking, unlike the statement `save`.  _save also makes PATH the file of the
   sheet, and br_sheet_unsaved is 0 then; _write changes nothing in the sheet, for a backup copy.  BR_IO, also if the
   policy refuses PATH; ERROR has the reason.  */
BR_API BR_CHECK br_status br_sheet_save (br_sheet *sheet, const char *path, br_error *error);
BR_API BR_CHECK br_status br_sheet_write (const br_sheet *sheet, const char *path, br_error *error);
/* The file of the sheet: the one opened first or saved last, or NULL.  */
BR_API const char *br_sheet_path (const br_sheet *sheet);
/* Writes SHEET to the file PATH so that `recover` can restore it completely: its lines, the name of its file and what that
   file contained.  BR_IO as above.  */
BR_API BR_CHECK br_status br_sheet_keep (const br_sheet *sheet, const char *path, br_error *error);
/* What `recover` asks of the program, which manages such files.  */
typedef enum br_kept
{
  BR_KEPT_ASK,          /* return the file left by an earlier session, or NULL */
  BR_KEPT_TAKEN,        /* that file was restored, and the sheet is not saved yet */
  BR_KEPT_DROP          /* delete that file */
} br_kept;
typedef const char *br_keeper (void *user, br_kept what);
/* KEEPER NULL: there is no such file.  Here and below USER is passed to the callback and may be NULL.  */
BR_API void br_sheet_set_keeper (br_sheet *sheet, br_keeper *keeper, void *user);
/* Sets the file policy.  POLICY NULL: br_file_usual.  */
BR_API void br_sheet_set_policy (br_sheet *sheet, br_file_policy *policy, void *user);
/* Long work polls *FLAG and stops with BR_STOPPED when it is not 0; a signal handler may set it.  FLAG must stay valid as
   long as SHEET exists; NULL: do not poll.  */
BR_API void br_sheet_watch (br_sheet *sheet, const volatile sig_atomic_t *flag);
/* Sets the precision limit of this sheet in bits, 64 to 65,536, else BR_DOMAIN.  The default is BR_REAL_BITS.  */
BR_API BR_CHECK br_status br_sheet_set_bits (br_sheet *sheet, unsigned bits);

/* Sets how many bytes of memory the sheet may use in total, numbers included.  The default is BR_SHEET_MEMORY.  A statement
   that needs more fails with BR_NO_MEMORY and leaves the sheet unchanged.  BR_DOMAIN: BYTES is below BR_LEAST_MEMORY.
   The memory of the painter is not counted.  */
#define BR_SHEET_MEMORY ((size_t) 256 << 20)
#define BR_LEAST_MEMORY ((size_t) 1 << 20)
BR_API BR_CHECK br_status br_sheet_set_memory (br_sheet *sheet, size_t bytes);

/* Sets how many threads compute a long column, 1 to BR_MAX_JOBS, else BR_DOMAIN.  The default is 1.  */
#define BR_MAX_JOBS 64
BR_API BR_CHECK br_status br_sheet_set_jobs (br_sheet *sheet, unsigned jobs);

/* Sets the file in which `practice` stores the user's progress; it is created when first needed.  By default nothing is
   stored.  BR_DOMAIN only for NULL.  */
BR_API BR_CHECK br_status br_sheet_keep_practice (br_sheet *sheet, const char *path);

/* VALUE gets the value of the dimension NAME of the sheet and DIMENSION (may be NULL) its kind.  VALUE is in inches, square
   inches ... or degrees; a plain number is in the sheet's unit.  BR_DOMAIN: there is no such dimension, or it waits for
   a value.  BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_sheet_get (br_real *value, br_dimension *dimension,
                                        const br_sheet *sheet, const char *name, br_error *error);
/* Like the line "NAME = VALUE": defines or changes NAME and updates what depends on it; `undo` reverts it.
   VALUE is in inches, square inches ... or degrees by DIMENSION, which is BR_PLAIN, BR_LENGTH, BR_AREA, BR_VOLUME
   or BR_ANGLE.  BR_SYNTAX: NAME is not a valid name.  BR_DOMAIN: NAME or VALUE is NULL; another DIMENSION; VALUE cannot
   be written in a sheet (fractions and sums of roots and powers of pi can); or something that depends on NAME would
   have no value.  BR_TOO_BIG: the line would be longer than BR_MAX_LINE.  On an error the sheet is unchanged.  */
BR_API BR_CHECK br_status br_sheet_set (br_sheet *sheet, const char *name, const br_real *value,
                                        br_dimension dimension, br_error *error);

/* The kinds of items on a sheet.  */
typedef enum br_item_kind
{
  BR_ITEM_DIMENSION, BR_ITEM_PART, BR_ITEM_SHAPE, BR_ITEM_CHECK
} br_item_kind;

typedef enum br_item_state
{
  BR_ITEM_KNOWN,            /* of a dimension, a part or a shape: nothing is missing */
  BR_ITEM_WAITING,          /* something that it needs is missing */
  BR_ITEM_WRONG,            /* of a part: it cannot be made as written */
  BR_ITEM_PASSES, BR_ITEM_FAILS, BR_ITEM_UNDECIDED      /* of a check that does not wait */
} br_item_state;

/* The texts belong to the sheet and are valid until it is changed.  */
typedef struct br_item
{
  const char *name;         /* "" for a check; NULL after the last item */
  const char *formula;      /* of a dimension or a check, as typed; else "" */
  const char *note;         /* the comment after # on its line, or "" */
  br_item_state state;
  const void *place;        /* internal */
} br_item;

#define BR_ITEM_ZERO { NULL, NULL, NULL, BR_ITEM_KNOWN, NULL }

/* Moves ITEM to the next item of KIND, in the order of the sheet; from BR_ITEM_ZERO to the first.  SHEET must not change
   between two calls.  BR_DOMAIN: unknown KIND; BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_sheet_next (br_item *item, const br_sheet *sheet, br_item_kind kind,
                                         br_error *error);

/* Completes the word at the end of TEXT[0..POINT): calls FOUND with each word that fits there and
   begins with what is typed so far.  START gets the offset of that word.  If a file name is expected
   there, *FILE gets 1, else 0, and FOUND is not called.  USER is passed to FOUND; only USER may be NULL.  */
BR_API void br_sheet_complete (const br_sheet *sheet, const char *text, size_t point,
                               size_t *start, int *file,
                               void (*found) (void *user, const char *word), void *user);

/* ------------------------------------------------------------------------
   Pages
   ------------------------------------------------------------------------ */

/* Coordinates on a page are integers in 1/72,000 inch; x goes right and y down from the
   upper left corner.  The library draws nothing itself: it calls the painter that the program registers.  */
#define BR_PAGE_INCH 72000
#define BR_PAGE_MISSING 64

typedef struct br_page br_page;     /* defined by the painter: a document of one or more pages */

typedef enum br_align { BR_ALIGN_LEFT, BR_ALIGN_MIDDLE, BR_ALIGN_RIGHT } br_align;

/* Text in one size and weight.  Fractions in it, 3/8 and 2-3/8, are typeset as fractions.  */
typedef struct br_page_text
{
  const char *text;         /* UTF-8 */
  int32_t x, y;             /* the upper left, upper middle or upper right, by ALIGN */
  int32_t width;            /* lines are broken at blanks to fit this width; 0: one line */
  int32_t size;             /* font size */
  int bold;
  br_align align;           /* only used if WIDTH is 0 */
  int high;                 /* the digits of fractions are as high as others, as on drawings */
  int turned;               /* the text runs upward: X is its left edge, Y its middle or an end, by ALIGN */
} br_page_text;

/* A step of a path.  ARC: an arc around X Y with radius R from the angle FROM to TO, in millionths of a degree,
   anticlockwise from the right (clockwise if TO is less than FROM).  If the step before ended elsewhere, a straight line
   leads to the start of the arc.  CLOSE: a line back to the start of the outline.  */
typedef enum br_page_step_type { BR_STEP_MOVE, BR_STEP_LINE, BR_STEP_ARC, BR_STEP_CLOSE } br_page_step_type;
typedef struct br_page_step
{
  br_page_step_type type;
  int32_t x, y, r, from, to;
} br_page_step;

/* A ruler with its marks upward from a base line.  */
typedef struct br_page_ruler
{
  int32_t x, y;             /* the left end of the base line */
  int32_t unit;             /* the drawn length of a unit; BR_PAGE_INCH for inches at true size */
  int32_t units, parts;     /* its length in units, and the marks per unit: a power of two, ten or twenty */
  int32_t first;            /* the number at its left end */
  int32_t arrow;            /* distance of an arrow from the left end; negative: no arrow */
  int32_t size;             /* font size of its numbers; the marks scale with it; 0: 11 points */
} br_page_ruler;

typedef struct br_painter
{
  /* FORM is "pdf", or, for a single page, "svg" or "png".  TITLE is stored in the file.  */
  br_status (*open) (br_page **page, const char *form, int32_t width, int32_t height,
                     const char *title, br_error *error);
  void (*next) (br_page *page);         /* starts a new page */
  void (*line) (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1, int32_t width,
                int dashed);
  /* Anticlockwise from FROM to TO, in millionths of a degree, 0 to the right.  */
  void (*arc) (br_page *page, int32_t x, int32_t y, int32_t radius, int32_t from, int32_t to,
               int32_t width, int dashed);
  /* Returns the height of the text; if DRAW is 0 it only measures.  WIDTH (may be NULL) gets the width of the longest
     line.  */
  int32_t (*text) (br_page *page, int32_t *width, const br_page_text *text, int draw);
  void (*ruler) (br_page *page, const br_page_ruler *ruler);
  /* Ends the document and stores the whole file in BYTES; free it with `release`.  Frees PAGE, also on an error.  */
  br_status (*close) (char **bytes, size_t *length, br_page *page, br_error *error);
  void (*release) (char *bytes);
  void (*drop) (br_page *page);         /* frees PAGE without making a file */
  /* Sets the pen for the following lines and arcs: GREY from 0, black, to 1000, white; ROUND: round line ends.  */
  void (*pen) (br_page *page, int32_t grey, int round);
  /* Fills a polygon of COUNT corners with black; CORNERS has x and y of each.  */
  void (*fill) (br_page *page, const int32_t *corners, size_t count);
  /* Clips all that follows on this page to a rectangle; if X1 is not over X0, ends the clipping.  */
  void (*clip) (br_page *page, int32_t x0, int32_t y0, int32_t x1, int32_t y1);
  /* Adds COUNT steps to the current path.  Strokes the path: DASHES 0 solid, 1 dashed, 2 long dash and dot.  */
  void (*path) (br_page *page, const br_page_step *steps, size_t count);
  void (*stroke) (br_page *page, int32_t width, int dashes);
  /* Opens a structure element of a tagged PDF, for screen readers.  ROLE is a type of ISO 32000-1, 14.8.4, such as "P",
     "H1" or "Figure"; NULL closes the element opened last.  Elements may span pages; all must be closed at the end.
     DESCRIPTION is the alternative text of a figure, or the language, such as "de", of a "Document"; else NULL.  */
  void (*tag) (br_page *page, const char *role, const char *description);
  /* LETTERS gets the first few letters so far that are in no font, or "".  */
  void (*missing) (char letters[BR_PAGE_MISSING], const br_page *page);
} br_painter;

/* The painter of the project is a separate module, so that a program that draws no pages need not load its libraries.
   Open it with dlopen; `pkg-config --variable=painter benchrule` prints where it is installed.  */
#define BR_PAINTER_MODULE "libbenchrule-draw.so"
#define BR_PAINTER_SYMBOL "br_draw_painter"         /* const br_painter */

/* Called when a page is needed.  Returns the painter, or NULL with ERROR filled in.  The painter must stay valid as long
   as the sheet exists.  */
typedef const br_painter *br_painter_find (void *user, br_error *error);
/* FIND NULL: there is no painter, and statements that need a page give BR_DOMAIN.  */
BR_API void br_sheet_set_painter (br_sheet *sheet, br_painter_find *find, void *user);

#ifdef __cplusplus
}
#endif

#endif /* BENCHRULE_SHEET_H */
