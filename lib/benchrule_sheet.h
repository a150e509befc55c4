/* SPDX-License-Identifier: LGPL-3.0-or-later

   benchrule_sheet.h - design sheets: the language, what it answers, and what a program registers.

   A br_sheet holds dimensions, rules, shapes and settings.  br_sheet_run runs lines of the language on
   it; each answer is a br_record, a kind and fields in order, handed to the br_sink of the call, and each
   mistake a br_fault with its line and place.  The library draws no pages itself: a program registers a
   br_painter, and may register a br_solver that steers the search for cutting plans.

   What holds for every function stands at the top of benchrule.h.  A record belongs to the library and
   lives as long as the call that hands it out.  */

#ifndef BENCHRULE_SHEET_H
#define BENCHRULE_SHEET_H

#include <signal.h>

#include <benchrule.h>

#ifdef __cplusplus
extern "C" {
#endif

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

/* "value", "rounding" ... or "" for a row inside another record; how many fields it has; the field at INDEX, from 0, or one
   of type BR_FIELD_NULL.  */
BR_API const char *br_record_kind (const br_record *record);
BR_API size_t br_record_size (const br_record *record);
BR_API br_field br_record_at (const br_record *record, size_t index);
/* The field called KEY, or one of type BR_FIELD_NULL; how many members LIST has; the one at INDEX, likewise.  */
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

/* ------------------------------------------------------------------------
   Sheets: the language
   ------------------------------------------------------------------------ */

typedef struct br_sheet br_sheet;

/* A mistake in a sheet: ERROR's offset counts from the start of TEXT, which is
   line LINE (from 1) of FILE: as it was typed or, where it was read as a phrase, in the words of the language.
   FILE is the name given to br_sheet_run or open, or "".  All of it lives as long as the call.  */
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
  /* A line that was typed in other words is read as STATEMENT, which is about to be answered.  LEFT_OUT: what of it was
     left out of account, or "".  */
  void (*read_as) (void *user, const char *statement, const char *left_out);
  int columns;                  /* how wide a picture in characters may be; 0: 80 */
  /* What is said of a sheet that is opened or used: 0: the answers of its lines; 1: instead of these, a summary, the
     record `opened`; 2: both.  */
  int summary;
  /* 1: the text goes on with the input of the call before, as a line of a stream does, and shares its limits of work
     and of hints.  */
  int goes_on;
  /* 1: the rows of a column that goes into no file are records, `column_row`, and not written to standard output.  */
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

/* A file that is going to be touched.  */
typedef struct br_file_request
{
  br_file_use use;
  const char *path;
  /* The sheet file whose line asks for it; NULL: a line that was given to br_sheet_run, or a call such as
     br_sheet_save.  */
  const char *sheet;
  size_t line;          /* from 1; 0 for a call */
  int asked;            /* `run files` was given */
} br_file_request;

/* Asked before any file is touched; 1 allows it.  A line of a sheet file that it refuses is not run, and a remark
   says so; for any other the refusal is a mistake (BR_IO).  */
typedef int br_file_policy (void *user, const br_file_request *request);

/* What holds where no policy was set: all that no sheet file asks for, and, for a sheet file, regular files in its own
   folder and below (links followed) of which no name begins with a dot: FILE.sheet as sheets, and once `run files`
   was given any to be read, and to be written those that end in .sheet .csv .txt .html .svg .pdf .png.  For use in a
   policy of one's own.  */
BR_API int br_file_usual (const br_file_request *request);

/* *SHEET = an empty sheet, to be given back by br_sheet_free.  BR_NO_MEMORY; BR_DOMAIN for NULL; then *SHEET is as it was.  */
BR_API BR_CHECK br_status br_sheet_new (br_sheet **sheet);
/* NULL is nothing.  In a callback of SHEET's own it ends the call that SHEET is in: nothing more is called back, that call
   returns BR_STOPPED or what went wrong before, and SHEET is gone when it does.  */
BR_API void br_sheet_free (br_sheet *sheet);

/* Runs the lines of TEXT; FILE (may be NULL) names them in faults and FIRST_LINE is the number of the
   first.  A wrong line is told to SINK (may be NULL) and the rest goes on.  Returns the first status
   that was not BR_OK: any of them, as each statement has its own.  In a callback of SHEET's own, where a statement is half
   done, this, br_sheet_run_file and br_sheet_set do nothing and return BR_DOMAIN.  */
BR_API br_status br_sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file,
                               size_t first_line, const br_sink *sink);
/* Opens the file PATH where SHEET is empty, else brings it in as `use` does; "-" is not special here.  Returns the first status
   that was not BR_OK; BR_IO where the file cannot be read.  */
BR_API br_status br_sheet_run_file (br_sheet *sheet, const char *path, const br_sink *sink);

/* Checks that fail or are undecided now, dimensions that wait, 1 if something is not saved (settings alone do not
   count), 1 after `quit`.  */
BR_API size_t br_sheet_failing (const br_sheet *sheet);
BR_API size_t br_sheet_waiting (const br_sheet *sheet);
BR_API int br_sheet_unsaved (const br_sheet *sheet);
BR_API int br_sheet_done (const br_sheet *sheet);
/* Takes a `quit` back; br_sheet_done is 0 then.  */
BR_API void br_sheet_go_on (br_sheet *sheet);
/* Puts the sheet's lines in the place of the file PATH: the old file or the new is there, whole,
   whatever happens, and whatever file that is: `save`, which asks, is for people.  _save takes PATH as the sheet's own from now on and br_sheet_unsaved is 0;
   _write only writes, for a copy that outlives a crash.  BR_IO, also where the policy refuses PATH, says why in ERROR.  */
BR_API BR_CHECK br_status br_sheet_save (br_sheet *sheet, const char *path, br_error *error);
BR_API BR_CHECK br_status br_sheet_write (const br_sheet *sheet, const char *path, br_error *error);
/* The file that was opened first or saved last, or NULL.  */
BR_API const char *br_sheet_path (const br_sheet *sheet);
/* Writes SHEET to the file PATH so that `recover` can bring it back as the sheet that it is: its lines, its own file and
   what that held.  BR_IO as above.  */
BR_API BR_CHECK br_status br_sheet_keep (const br_sheet *sheet, const char *path, br_error *error);
/* What `recover` asks the program, which keeps such files.  */
typedef enum br_kept
{
  BR_KEPT_ASK,          /* which file is left from before?  NULL: none */
  BR_KEPT_TAKEN,        /* that one was brought back and is not saved yet */
  BR_KEPT_DROP          /* that one is to be taken away */
} br_kept;
typedef const char *br_keeper (void *user, br_kept what);
/* KEEPER NULL: nothing is left from before.  USER is handed to it, and may be NULL, here and below.  */
BR_API void br_sheet_set_keeper (br_sheet *sheet, br_keeper *keeper, void *user);
/* POLICY NULL: br_file_usual.  */
BR_API void br_sheet_set_policy (br_sheet *sheet, br_file_policy *policy, void *user);
/* Polled in long work; work ends early, with BR_STOPPED, when *FLAG is not 0; a signal handler may set it.  FLAG must live as long
   as SHEET; NULL: none.  */
BR_API void br_sheet_watch (br_sheet *sheet, const volatile sig_atomic_t *flag);
/* The precision limit of this sheet in bits, 64 to 65,536, else BR_DOMAIN; BR_REAL_BITS at first.  */
BR_API BR_CHECK br_status br_sheet_set_bits (br_sheet *sheet, unsigned bits);

/* How many bytes the sheet may take for all that it holds and works with, its numbers included; BR_SHEET_MEMORY at first.
   A statement that would take more ends with BR_NO_MEMORY, and the sheet is as it was before it.  BR_DOMAIN: fewer than
   BR_LEAST_MEMORY.  Pages are drawn with memory of the painter's own.  */
#define BR_SHEET_MEMORY ((size_t) 256 << 20)
#define BR_LEAST_MEMORY ((size_t) 1 << 20)
BR_API BR_CHECK br_status br_sheet_set_memory (br_sheet *sheet, size_t bytes);

/* How many threads work on a long column, 1 to BR_MAX_JOBS, else BR_DOMAIN; 1 at first.  */
#define BR_MAX_JOBS 64
BR_API BR_CHECK br_status br_sheet_set_jobs (br_sheet *sheet, unsigned jobs);

/* Where `practice` keeps how it goes, a file that is made when it is first needed.  Without it nothing is kept.  BR_DOMAIN for
   NULL alone.  */
BR_API BR_CHECK br_status br_sheet_keep_practice (br_sheet *sheet, const char *path);

/* VALUE gets the dimension NAME as the sheet has it, DIMENSION (may be NULL) its kind: a length in inches, an area in
   square inches ..., an angle in degrees; a plain number counts in the sheet's unit.  BR_DOMAIN: there is none of that
   name (NULL, too), or it waits for a value.  BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_sheet_get (br_real *value, br_dimension *dimension,
                                        const br_sheet *sheet, const char *name, br_error *error);
/* As if "NAME = VALUE" had been typed: NAME is defined or changed, what depends on it moves, and `undo` takes it back.
   VALUE is in inches, square inches ... or degrees as DIMENSION says, which is BR_PLAIN, BR_LENGTH, BR_AREA, BR_VOLUME
   or BR_ANGLE.  BR_SYNTAX: NAME is no name.  BR_DOMAIN: NAME or VALUE is NULL, another DIMENSION, a VALUE that no line
   of a sheet says (fractions and sums of roots and powers of pi can be said), or what depends on NAME has no value any
   more.  BR_TOO_BIG: the line would be longer than BR_MAX_LINE.  The sheet is then as it was.  */
BR_API BR_CHECK br_status br_sheet_set (br_sheet *sheet, const char *name, const br_real *value,
                                        br_dimension dimension, br_error *error);

/* What stands on a sheet.  */
typedef enum br_item_kind
{
  BR_ITEM_DIMENSION, BR_ITEM_PART, BR_ITEM_SHAPE, BR_ITEM_CHECK
} br_item_kind;

typedef enum br_item_state
{
  BR_ITEM_KNOWN,            /* a dimension, a part or a shape has all it needs */
  BR_ITEM_WAITING,          /* something that it needs is missing */
  BR_ITEM_WRONG,            /* a part cannot be made as it is written */
  BR_ITEM_PASSES, BR_ITEM_FAILS, BR_ITEM_UNDECIDED      /* checks that do not wait */
} br_item_state;

/* The texts are the sheet's and live until it is next changed.  */
typedef struct br_item
{
  const char *name;         /* "" of a check; NULL past the last */
  const char *formula;      /* of a dimension or a check, as it was typed; else "" */
  const char *note;         /* what stands behind the # of its line, or "" */
  br_item_state state;
  const void *place;        /* the library's */
} br_item;

#define BR_ITEM_ZERO { NULL, NULL, NULL, BR_ITEM_KNOWN, NULL }

/* The item of KIND after ITEM, in the order of the sheet; the first after BR_ITEM_ZERO.  SHEET must not have changed
   since ITEM was got.  BR_DOMAIN: no such KIND; BR_NO_MEMORY.  */
BR_API BR_CHECK br_status br_sheet_next (br_item *item, const br_sheet *sheet, br_item_kind kind,
                                         br_error *error);

/* What could stand at the end of TEXT[0..POINT): calls FOUND with each word that begins
   with what is typed there.  START gets the offset where that word begins.  Where a file
   name is wanted, *FILE gets 1, else 0, and FOUND is not called.  USER is handed to FOUND; nothing else may be NULL.  */
BR_API void br_sheet_complete (const br_sheet *sheet, const char *text, size_t point,
                               size_t *start, int *file,
                               void (*found) (void *user, const char *word), void *user);

/* ------------------------------------------------------------------------
   Pages
   ------------------------------------------------------------------------ */

/* Sizes on a page are whole numbers of 72,000ths of an inch; x goes right and y down from the
   upper left corner.  The library draws nothing itself: it calls what the program registers.  */
#define BR_PAGE_INCH 72000
#define BR_PAGE_MISSING 64

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
  int high;                 /* digits of fractions are as high as others, as on drawings */
  int turned;               /* it runs upward: X is its left edge, Y the middle or an end of it, as ALIGN says */
} br_page_text;

/* A step of a path.  An arc turns around X Y with radius R from one angle to the other, in millionths of a degree,
   anticlockwise from the right (clockwise where TO is less than FROM); a line goes to its beginning where the step before
   ended elsewhere.  CLOSE goes back to where the outline began.  */
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
  int32_t unit;             /* BR_PAGE_INCH for a ruler in inches at true size */
  int32_t units, parts;     /* its length, and the marks in a unit: a power of two, ten or twenty */
  int32_t first;            /* the number at its left end */
  int32_t arrow;            /* an arrow points at so far from the left end; below 0: none */
  int32_t size;             /* of its numbers, with which its marks grow; 0: 11 points */
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
  /* COUNT more steps of the path at hand, and its stroke: DASHES 0 solid, 1 dashed, 2 long dash and dot.  */
  void (*path) (br_page *page, const br_page_step *steps, size_t count);
  void (*stroke) (br_page *page, int32_t width, int dashes);
  /* What follows is a ROLE of ISO 32000-1, 14.8.4, such as "P", "H1" or "Figure", for who hears a PDF read; NULL ends the one
     begun last.  It stays open over pages; none may be open at the end.  DESCRIPTION, of a figure, is read in its place;
     of a "Document", it is the language, such as "de"; else NULL.  */
  void (*tag) (br_page *page, const char *role, const char *description);
  /* The first few letters so far that no font has, "" if there are none.  */
  void (*missing) (char letters[BR_PAGE_MISSING], const br_page *page);
} br_painter;

/* The painter of the project is a module of its own, so that a program that draws no pages does not load what they need.
   Open it by dlopen; `pkg-config --variable=painter benchrule` says where it is installed.  */
#define BR_PAINTER_MODULE "libbenchrule-draw.so"
#define BR_PAINTER_SYMBOL "br_draw_painter"         /* const br_painter */

/* Is called when a page is asked for; it returns NULL with ERROR filled in where there is no painter.  The painter must live as
   long as the sheet.  */
typedef const br_painter *br_painter_find (void *user, br_error *error);
/* FIND NULL: there is none, and statements that want a page are BR_DOMAIN.  */
BR_API void br_sheet_set_painter (br_sheet *sheet, br_painter_find *find, void *user);

#ifdef __cplusplus
}
#endif

#endif /* BENCHRULE_SHEET_H */
