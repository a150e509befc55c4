/* SPDX-License-Identifier: LGPL-3.0-or-later
   sheet.h - inside a sheet: its lines, its graph, its settings, what can be undone, and the
   statement that is being run.  */
#ifndef BR_SHEET_SHEET_H
#define BR_SHEET_SHEET_H

#include <fenv.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "file/file.h"
#include "sheet/graph.h"
#include "sheet/record.h"

#define BR__WOOD_HASHES 1024
#define BR__NOTE_HASHES 1024

/* How a line ended in the file it came from.  */
typedef enum br__ending { BR__LF, BR__CRLF, BR__NO_ENDING } br__ending;

/* A line of the sheet as a person reads it.  Lines are never taken out, only hidden, so that
   undo can bring them back to where they stood.  */
typedef struct br__line
{
  struct br__line *prev, *next;
  char *text;               /* without its line end */
  size_t length;
  br__ending ending;
  int hidden;
  int foreign;              /* of a sheet that this one uses: listed, not saved */
  struct br__line *owner;   /* the `use` that brought it in, or NULL */
  const char *original;     /* its text when it was put: another one, where it was changed */
  char *uses;               /* of a `use`: the file that it read, links followed; or NULL */
  char *refused_in;         /* the sheet file in which it was not run, as it touches files; or NULL */
  size_t number;            /* its line there */
  br__entry *entry;         /* the dimension it defines, or NULL */
  struct br__line *shadowed;    /* the line that defined it before this one did, or NULL */
  struct br__check *check;  /* the rule it states, or NULL */
  const char *setting;      /* the one that it set, or NULL */
  int typed;                /* not read from a file */
  int answers;              /* of a file: it defines nothing, but something is told there */
  int steps;                /* of a file: what it did is in the lines before it, so it is saved as a comment */
} br__line;

typedef enum br__comparison
{
  BR__COMPARE_LT, BR__COMPARE_LE, BR__COMPARE_EQ, BR__COMPARE_GE, BR__COMPARE_GT, BR__COMPARE_NE
} br__comparison;

/* A rule that must hold.  Its margin is a hidden entry of the graph, so that it is worked out
   again exactly when something in it moves.  */
typedef struct br__check
{
  struct br__check *next;
  br__tree left, right;
  br__comparison comparison;
  br__entry *margin;        /* room that is left: below zero it fails */
  char *formula, *note;
  int active;               /* not undone or forgotten */
  int state;                /* br__check_state */
  size_t number;            /* in the order of the sheet */
  int gap;                  /* what it compares is a gap between moving parts */
  int as_cut;               /* br__as_cut, of one that holds as drawn */
} br__check;

/* Whether it holds for all sizes within the tolerances.  */
enum br__as_cut { BR__AS_CUT_HOLDS, BR__AS_CUT_MAY_FAIL, BR__AS_CUT_UNKNOWN };
enum br__check_state { BR__CHECK_PASS, BR__CHECK_FAIL, BR__CHECK_WAITING, BR__CHECK_UNDECIDED };

typedef enum br__change_kind
{
  BR__CHANGE_DEFINITION, BR__CHANGE_SETTINGS, BR__CHANGE_LINE_TEXT, BR__CHANGE_LINE_SHOWN,
  BR__CHANGE_SWITCH, BR__CHANGE_TOLERANCE, BR__CHANGE_TEXT, BR__CHANGE_CONTENT, BR__CHANGE_ANNOTATION,
  BR__CHANGE_DISTANCES          /* those to the shape of which ENTRY is a number are made anew */
} br__change_kind;

/* One part of what a statement changed.  It holds the other state; undo and redo are the
   same swap.  */
typedef struct br__change
{
  br__change_kind kind;
  br__entry *entry;
  br__definition *definition;
  br__settings *settings;
  br__line *line;
  int *active;              /* 1 while what this belongs to is in the sheet */
  struct br__tolerance *tolerance;
  char **place;             /* where the text that counts now stands */
  char *text;
  size_t length;
  struct br__annotation **holds, *annotation;   /* which one holds now stands in the first; the other */
  br_sheet *content;        /* the other content of the sheet, its session apart */
} br__change;

/* What one statement changed.  */
typedef struct br__changes
{
  br__change *rows;
  size_t count, room;
  size_t done;              /* the first so many are done now, the others taken back */
} br__changes;

/* A rollback for which memory did not suffice: it is finished before anything else is done.  */
typedef struct br__rollback
{
  br__changes *changes;             /* of the history, or OWN; NULL: none */
  br__changes own;
  size_t done;                      /* of which so many are to be done */
} br__rollback;

struct br__run;
struct br__shape;
struct br__statement;
struct br__weak;

/* What the room of statements gives a sheet: all statements, and how a text is run.  */
typedef struct br__language
{
  const struct br__statement *(*at) (size_t index);     /* NULL past the last */
  const struct br__statement *(*find) (const char *word, size_t length);
  br_status (*run) (br_sheet *sheet, const char *text, size_t length, const char *file, size_t first_line,
                    int from_file, const br_sink *sink);
  /* Runs the text of RUN, up to its note, in the words of the language alone.  */
  br_status (*dispatch) (struct br__run *run);
  /* LINE, which set what is set now, so that it means the same whatever was set before it.  */
  void (*put_setting) (br_text *t, const br_sheet *sheet, const struct br__line *line);
  /* Where an outline is hard to saw, or narrower than LEAST inches.  BR_DOMAIN: it waits.  */
  br_status (*weak) (struct br__weak *w, const br_sheet *sheet, const struct br__shape *shape, const br_real *least);
  /* T = what NAME is that no size is called, such as a shape; nothing where it is only a name.  */
  void (*put_other) (br_text *t, const br_sheet *sheet, const char *name);
  /* The shape that the part NAME is cut as, or NULL.  */
  const char *(*cut_as) (const br_sheet *sheet, const char *name);
} br__language;

/* A sheet file whose lines are being run.  */
typedef struct br__reading_file
{
  const char *path;
  struct stat id;
  struct br__reading_file *outer;
} br__reading_file;

/* What is the session's and not the content's stands in br__swap_session, too.  */
/* Cautions given of lines that only asked, the last ones: by the hash of the line.  */
typedef struct br__lines_told
{
  struct { uint32_t hash; unsigned told; } rows[16];
} br__lines_told;

struct br_sheet
{
  const br__language *language;
  void (*release[7]) (br_sheet *sheet);     /* free what other rooms keep in the sheet: br__release_by */
  br__graph *graph;
  br__settings settings;
  char *title, *date;               /* or NULL */
  br__line *first, *last;
  br__check *checks, *last_check;
  struct br__wood *wood, *last_wood;    /* stock and parts */
  struct br__wood **wood_of;        /* BR__WOOD_HASHES of them, by the hash of their names, the newest first; NULL before the first */
  struct br__shape *shapes, *last_shape;
  unsigned views_asked;             /* bits: those that a statement has drawn */
  struct br__annotation *annotations, *last_annotation;
  struct br__annotation **annotation_of;    /* BR__NOTE_HASHES of them: the first about each thing, by its hash; NULL before there is one */
  unsigned long annotation_count;   /* gives their entries names */
  unsigned long check_count;        /* gives hidden entries their names */
  int untold;                       /* something has changed while nobody listened to cautions */
  br__lines_told lines_told;

  br__changes *history;     /* done statements, oldest first */
  size_t done_count, history_count, history_room;
  br__rollback pending_rollback;
  size_t saved_at;                  /* done_count when saved; SIZE_MAX if that state is gone */
  char *path;                       /* the file that was opened first or saved last, or NULL */
  br__stamp stamp;                  /* what that file held then */
  int mark;                         /* it begins with a byte order mark */

  br__mark tidy;                    /* the ruler of the last proposal; size 0: none */
  struct br__worksheet *worksheet;  /* the one made last, or NULL */
  char *graded, *graded_marks;      /* the last line of `grade`, and a line "STUDENT: MARKS" for each paper; or NULL */
  struct br__practice *practice;    /* that goes on, or NULL */
  struct br__phrase_index *phrase_index;    /* or NULL */
  struct br__sentences *words;          /* for papers, or NULL */
  char *practice_path;              /* where its cards are kept, or NULL */
  br_status (*takes_line) (int *taken, struct br__run *run);        /* sees each line that is typed first, or NULL; not TAKEN: it is a statement */
  br_painter_find *painter;         /* or NULL */
  void *painter_user;

  size_t mistakes, phrases_read, changed;   /* of the input that is being run */
  int tried_short;                  /* a line that was tried for a hint had no memory */
  int quit;
  int no_pictures, no_pager;        /* how answers are shown: `pictures off`, `pager off` */
  unsigned jobs;                    /* threads for a long column */
  br_file_policy *policy;           /* NULL: br_file_usual */
  void *policy_user;
  br_keeper *keeper;                /* or NULL */
  void *keeper_user;
  br__reading_file *reading;        /* the innermost, or NULL */
  unsigned opened;                  /* files since the outermost one */
  size_t opened_bytes;
  struct br__run *collect;          /* the `use` that takes over the changes of its lines, or NULL */
  const volatile sig_atomic_t *flag;
  br__account *account;             /* what its memory is charged to; NULL: that of the sheet which it is a part of */
  unsigned running;                 /* calls of br_sheet_run and its like, one inside the other */
  br_sink *told;                    /* where the outermost of them tells */
  int ended;                        /* freed by a callback: goes when the outermost call ends */
};

/* What a program has a sheet do.  The floating-point environment is the program's, with whatever it traps; pictures are
   laid out in the usual one.  */
typedef struct br__call
{
  br_sink sink;             /* what of the program's is still listened to */
  br__account *before;
  fenv_t floating;
} br__call;

void br__sheet_enter (br__call *call, br_sheet *sheet, const br_sink *sink);
/* STATUS, or BR_STOPPED where that is BR_OK and the sheet was freed meanwhile.  */
br_status br__sheet_leave (const br__call *call, br_sheet *sheet, br_status status);

/* With no account of its own.  */
br_status br__sheet_new (br_sheet **sheet, const br__language *language);
/* RELEASE is called once when the sheet is freed: each room that keeps something in it names its own.  */
void br__release_by (br_sheet *sheet, void (*release) (br_sheet *sheet));

/* The statement at hand.  */
typedef struct br__run
{
  br_sheet *sheet;
  const br_sink *sink;
  const char *file;
  size_t line_number;
  int from_file;            /* every line is kept, not only those that define something */
  const char *text;         /* the line */
  size_t length;
  size_t end;               /* where its note begins */
  const char *note;         /* without # and blanks around */
  size_t note_length;
  br__lexer lex;            /* behind the statement's word */
  br__token word;           /* the statement's word */
  br_error *error;
  br__changes changes;      /* what it has changed so far */
  br__line *line;           /* set by a statement that put the line itself */
  const br_unit *asked_unit;/* the unit that an answer is asked in, or NULL */
  enum br__asked { BR__AS_USUAL, BR__AS_FRACTION, BR__AS_DECIMAL } asked_form;
  int kept;                 /* the statement belongs in a saved sheet */
  const char *setting;      /* what it set, or NULL */
  int steps;                /* it is `undo`, `redo`, or a `forget` of lines of this sheet */
  int forgetting;           /* what it takes out goes with its line, in a file too */
  br_status (*behind) (struct br__run *run);    /* reads what stands behind the formula of an assignment, or NULL */
  br_text phrase;           /* the line in the words of the language, where TEXT is that */
  br_text left_out;         /* what of the line is not in PHRASE */
  int echoes;               /* PHRASE is to be told before the first answer */
  int told;                 /* its mistakes have been reported already: those of an opened file */
  struct br__run *collect;  /* the `use` whose lines this is one of, or NULL */
  char *touched[8];         /* files that it reads, which it will not write over */
  size_t touched_count;
  int asked;                /* by `run files` */
  br__line *again;          /* the line that it runs once more, or NULL */
  br_file_use refused_use;  /* what was refused */
  char *refused_path;
  int refused;              /* it would touch a file and may not: nothing was done */
  int two_ways;             /* it failed as it can be read in two ways */
  int saved;                /* the sheet is as a file has it, once this is done */
  int cautioned;            /* cautions about its changes have been given */
  br_status mistake;        /* the first of the lines that it ran, which was reported there */
} br__run;

/* reply.c */
/* Hands R on and frees it; BR_NO_MEMORY when it could not be made whole.  */
br_status br__emit (br__run *run, br_record *r);
/* The same where STATUS is BR_OK; R is freed else, and STATUS given back.  */
br_status br__emit_or_free (br__run *run, br_record *r, br_status status);
/* The same, and STATUS is reported at OFFSET.  */
br_status br__emit_or_fail (br__run *run, br_record *r, br_status status, size_t offset, size_t length);
/* 1 once who watches the sheet wants long work to end, and the mistake that is reported then.  */
int br__stopped (const br__run *run);
static inline br_status
br__fail_stopped (br__run *run)
{
  return br__fail_plain (run->error, BR_STOPPED, 0, 0);
}

/* RUN->end = where the note of its text begins, RUN->note = the note without its # and the blanks around.  */
void br__find_note (br__run *run);
void br__fill_expected (br__run *run, const char *what);

/* Fails at the token at hand.  */
static inline br_status
br__expected (br__run *run, const char *what)
{
  if (run->lex.status != BR_OK)
    return run->lex.status;
  br__fill_expected (run, what);
  return br__lex_fail (&run->lex, BR_SYNTAX);
}

/* Goes past the token at hand.  What fails stays with the lexer: whatever reads on gives that, so that only the last of
   several steps need be asked.  */
static inline void
br__go_on (br__run *run)
{
  (void) br__lex_next (&run->lex, run->error);
}

/* Takes WORD or SIGN, or fails, as WHAT should stand there.  */
static inline void
br__need_word (br__run *run, const char *word, const char *what)
{
  if (br__lex_is_word (&run->lex, word))
    br__go_on (run);
  else
    (void) br__expected (run, what);
}

static inline void
br__need_sign (br__run *run, int sign, const char *what)
{
  if (br__lex_is_sign (&run->lex, sign))
    br__go_on (run);
  else
    (void) br__expected (run, what);
}

/* BR_OK if nothing more stands on the line.  */
br_status br__end_of_line (br__run *run);
/* A sentence for people: kind "remark".  */
br_status br__remark (br__run *run, const char *format, ...) __attribute__ ((format (printf, 2, 3)));

/* change.c */
br_status br__change_add (br__run *run, const br__change *change);
/* From here on the next br__change_add needs no memory: to be called before what that change takes back is done.  */
br_status br__changes_room (br__run *run);
/* BR_TOO_BIG where the input of RUN has changed as much of what there is as one may: each change works out again all that
   depends on it, and takes as long.  What is new is not asked about.  */
br_status br__may_change (br__run *run);
/* Counts what a change has taken, TAKES of br__account_takes.  */
void br__changed (br_sheet *sheet, size_t takes);
/* Turns *ACTIVE, as a change.  */
br_status br__change_switch (br__run *run, int *active);
/* Puts NEW, which it takes over also on an error, instead of *TEXT.  */
br_status br__change_text (br__run *run, char **text, char *new);
/* Gives E the definition *D, which it takes over, as a change.  */
br_status br__change_define (br__run *run, br__entry *e, br__definition **d, br__moves *moves);
void br__changes_drop (br__changes *changes);
/* Appends the rows of FROM, entries of G.  A dimension that moved twice keeps what it was
   at first.  */
br_status br__moves_join (br__moves *moves, br__moves *from, br__graph *g, br_error *error);
/* T = what E, which has no value, waits for that is no size, or may have been meant; nothing where all is well.  */
void br__put_waited (br_text *t, const br_sheet *sheet, const br__entry *e);
/* two_ways.c: 1 where the line of RUN is refused, as it can be read in two ways.
   100 x 50 mm: a hundred times 50 mm, or millimetres both?  */
int br__shares_unit (br__run *run);
/* hub = radius 2: the size of what is 2 across, or what is given as 2?  */
int br__halves_or_doubles (br__run *run);
/* RUN fails, as what stands there can be read in two ways: the hint has both, and it is read as no phrase.  */
void br__fail_two_ways (br__run *run, size_t offset, size_t length);

/* Takes back what the statement has done so far; what cannot be for want of memory, before the next one.  */
void br__changes_revert (br__run *run);
/* Before a statement: goes back to where the one before could not, and makes room for one more in the history.  */
br_status br__changes_begin (br__run *run);
/* Ends a statement: its changes become one entry of the history.  */
void br__changes_commit (br__run *run);
/* Goes back to where a statement before could not.  */
br_status br__changes_settle (br_sheet *sheet);
/* Goes to where the first DONE of CHANGES are done, now or, where memory does not suffice, before the next statement.  */
void br__rollback_later (br_sheet *sheet, br__changes *changes, size_t done);
/* Swaps the state of CHANGES; moves of dimensions are added to MOVES.  */
br_status br__changes_swap (br_sheet *sheet, br__changes *changes, int backwards,
                          br__moves *moves, br_error *error);

/* lines.c */
br_status br__line_append (br__run *run, br__line **line);
br_status br__line_rewrite (br__run *run, br__line *line);
br_status br__line_hide (br__run *run, br__line *line);
/* Takes what *ACTIVE belongs to out of the sheet, and the LINE (may be NULL) that put it there.  */
br_status br__take_out (br__run *run, int *active, br__line *line);
/* Answers that NAME, which no other size follows, is gone.  */
br_status br__emit_forgotten (br__run *run, const char *name);
/* LINE, which has just been put, is from here on the one that defines E.  */
void br__line_defines (br__line *line, br__entry *e);
/* Shows or hides LINE; the line that counts for its dimension is then another.  */
void br__line_turn (br__line *line);
/* The line that defines ENTRY, or NULL.  */
br__line *br__line_of_entry (br__entry *entry);

/* show.c: fields of values, and what a statement needs to make them.  */
br_status br__value_of (br__value *v, br__run *run, const br__tree *tree);
/* The same, which must be a length; a plain number is one in the sheet's unit.  */
br_status br__value_of_length (br__value *v, br__run *run, const br__tree *tree);
/* Reads into TREE an expression whose value is set for good, and works it out.  Names are refused: one
   could change later, where what was set would not, and the sheet would be another when opened again.  */
br_status br__read_fixed (br__value *v, br__tree *tree, br__run *run);
/* To the mistake at hand the hint to write V in its place.  */
void br__hint_number (br__run *run, const br__value *v);
/* Reads a list up to the end of the line and answers one member after the other, to the first mistake.  */
br_status br__each_of_list (br__run *run, br_status (*answer) (br__run *run, const br__tree *tree));
/* expression: TREE as it was read.  */
void br__put_expression (br_record *r, const br__tree *tree);
/* exact decimal decimal_exact unit shown */
br_status br__put_value (br_record *r, const br__value *v, const br__settings *s);
/* What is shown of V: as usual, in the unit or in the form that is asked.  */
br_status br__put_answer (br_record *r, br__value *v, br__run *run);
/* mark error error_decimal, on the sheet's ruler */
br_status br__put_on_ruler (br_record *r, const br__value *v, const br__settings *s);
/* The text of V in shop notation, or a decimal with its unit where it is not rational.  */
br_status br__shown (br_text *t, const br__value *v, const br__settings *s);
/* The same in a sentence: behind `≈` where no fraction says it.  */
br_status br__shown_about (br_text *t, const br__value *v, const br__settings *s);
/* The same without what an undecided value is not told apart from: a formula can hold it.  */
br_status br__shown_digits (br_text *t, const br__value *v, const br__settings *s);
/* br__fail_plain, that says of an undecided V which digits are certain and what it is not told apart from.  */
br_status br__fail_value (br_error *error, br_status status, size_t offset, size_t length, const br__value *v,
                          const br__settings *s);
/* V (in inches, ...) in the sheet's unit, exactly; *Q is 0 and *RATIONAL 0 for others.  */
br_status br__in_sheet_unit (br_real *z, const br__value *v, const br__settings *s);
/* Shop notation of the mark VALUE.  */
void br__put_mark_text (br_text *t, const br_number *value, br_dimension dimension,
                        const br__mark *mark, const br__settings *s);
/* drawing_number.c: a number as it stands on a drawing: inches without a sign, a mark of the ruler with ≈ where no
   fraction says it.  VALUE in inches.  */
br_status br__put_drawing_number (br_text *t, const br_real *value, const br__settings *s);
/* Error of a rounding, MARK - V, in the sheet's unit: fields error and error_decimal.  */
br_status br__put_error (br_record *r, const br__value *v, const br_number *mark,
                         const br__settings *s);

/* clauses.c: the MARK behind `to`: an expression, or a word such as eighths.  */
br_status br__read_mark (br__run *run, br__mark *mark);
/* Fails where the mark in TREE has two readings: 8 on an inch ruler, 1/16 in a millimetre sheet.  */
br_status br__refuse_mark (br__run *run, const br__tree *tree);
/* Refuses TREE, which stands for a diameter, where it is `radius 1` or `diameter 2`.  */
br_status br__refuse_label (br__run *run, const br__tree *tree);
/* What stands behind the values of a round statement.  */
typedef struct br__clauses
{
  br__mark mark;
  br_direction direction;
  int directed;             /* it was said */
  int keep_total;
  int at_hand;              /* 1: to the stock, 2: to the dowels */
} br__clauses;
/* Reads them to the end of the line, or to the word LAST (may be NULL).  */
br_status br__read_clauses (br__run *run, br__clauses *c, const char *last);
/* Takes WORD if it is at hand.  */
int br__take_word (br__run *run, const char *word);
/* The x between two sizes: a word of its own, the beginning of a word such as x48, or a times sign.  */
int br__at_separator (const br__lexer *l);
br_status br__skip_separator (br__run *run);

/* dimension.c */
/* Fails where WORD of the line cannot name a dimension: a word of the language.  */
br_status br__name_taken (br__run *run, const br__token *word);
br_status br__assign (br__run *run);
br_status br__put_moves (br_record *r, const br__moves *moves, br_sheet *sheet);
/* After CHANGES, by which MOVES moved: cautions that are new, then checks whose margin moved, failing ones always.  */
br_status br__tell_change (br__run *run, const br__moves *moves, const br__changes *changes);
/* The dimension that the token at hand names.  */
br_status br__named_entry (br__run *run, br__entry **e);
/* Takes the value of the dimension at hand away.  */
br_status br__forget_dimension (br__run *run);
/* check.c */
/* Whether a margin of SIGN meets COMPARISON.  */
int br__comparison_holds (br__comparison comparison, int sign);
br_status br__check_judge (br_sheet *sheet, br__check *check, br_error *error);
/* After a statement was taken back.  */
void br__checks_judge_all (br_sheet *sheet);
void br__check_free (br__check *check);
/* The check whose margin E is, or NULL.  */
const br__check *br__check_of (const br__entry *e);

/* One row a statement drives dispatch, help and completion.  Each room has an array of its own, which
   statement/language.c joins.  What follows the statement's word; TEXT is any text to the end of the line, QUOTED a text
   in quotation marks.  */
typedef enum br__follow { BR__FOLLOW_NOTHING, BR__FOLLOW_VALUE, BR__FOLLOW_NAME, BR__FOLLOW_FILE,
                          BR__FOLLOW_WORD, BR__FOLLOW_TEXT, BR__FOLLOW_QUOTED } br__follow;

typedef struct br__statement
{
  const char *word;
  const char *form;         /* how it is written */
  const char *summary;      /* one line */
  const char *help;         /* more, or NULL; lines parted by \n */
  br__follow follow;        /* what completion offers next */
  const char *words;        /* words that may stand in it, parted by blanks, or NULL */
  int setting;
  /* A dimension may be called by the word, as it may be in sheets of 0.1.0, which had not this statement: then the word
     alone or in front of a sign is the dimension.  */
  int may_name;
  br_status (*run) (br__run *run);
} br__statement;

/* The word without which the statement's own may be a dimension: the rise and the run of stairs; else NULL.  */
static inline const char *
br__word_behind (const br__statement *st)
{
  return strcmp (st->word, "run") == 0 ? "files" : strcmp (st->word, "name") == 0 ? "column" : NULL;
}

/* Bytes of the byte order mark that TEXT begins with, or 0.  */
static inline size_t
br__mark_length (const char *text, size_t length)
{
  return length >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
}

/* statements.c: ends with a row without a word.  */
extern const br__statement br__sheet_statements[];
/* An expression on its own is shown.  */
br_status br__do_show (br__run *run);
br_status br__do_exact (br__run *run);
br_status br__do_known (br__run *run);
br_status br__do_list (br__run *run);
br_status br__do_undo (br__run *run);
br_status br__do_redo (br__run *run);
br_status br__do_check (br__run *run);
br_status br__check_forget (br__run *run);
br_status br__do_tolerance (br__run *run);
br_status br__do_quit (br__run *run);

#endif
