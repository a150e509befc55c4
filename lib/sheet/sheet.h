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

/* A line of text of the sheet.  Lines are never removed, only hidden, so that undo can
   restore them at their old position.  */
typedef struct br__line
{
  struct br__line *prev, *next;
  char *text;               /* without its line end */
  size_t length;
  br__ending ending;
  int hidden;
  int foreign;              /* from another sheet that this one uses: listed, not saved */
  struct br__line *owner;   /* the `use` that added it, or NULL */
  const char *original;     /* its text when it was added; differs from TEXT if the line was changed */
  char *uses;               /* of a `use`: the path of the file that it read, symbolic links resolved; or NULL */
  char *refused_in;         /* the sheet file in which the file policy refused to run it, or NULL */
  size_t number;            /* its line there */
  br__entry *entry;         /* the dimension it defines, or NULL */
  struct br__line *shadowed;    /* the line that defined it before this one did, or NULL */
  struct br__check *check;  /* the check it states, or NULL */
  const char *setting;      /* the setting it changed, or NULL */
  int typed;                /* not read from a file */
  int answers;              /* of a file: it defines nothing, but gives an answer */
  int steps;                /* of a file: an `undo` or the like, whose effect is in the lines before it: saved as a comment */
} br__line;

typedef enum br__comparison
{
  BR__COMPARE_LT, BR__COMPARE_LE, BR__COMPARE_EQ, BR__COMPARE_GE, BR__COMPARE_GT, BR__COMPARE_NE
} br__comparison;

/* A check: a condition that must hold.  Its margin is a hidden entry of the graph, so that it is
   recomputed exactly when something that it depends on changes.  */
typedef struct br__check
{
  struct br__check *next;
  br__tree left, right;
  br__comparison comparison;
  br__entry *margin;        /* the check fails if the margin is negative */
  char *formula, *note;
  int active;               /* not undone or forgotten */
  int state;                /* br__check_state */
  size_t number;            /* in the order of the sheet */
  int gap;                  /* it compares a gap between moving parts */
  int as_cut;               /* br__as_cut, if the check holds as drawn */
} br__check;

/* Whether a check holds for all sizes within the tolerances.  */
enum br__as_cut { BR__AS_CUT_HOLDS, BR__AS_CUT_MAY_FAIL, BR__AS_CUT_UNKNOWN };
enum br__check_state { BR__CHECK_PASS, BR__CHECK_FAIL, BR__CHECK_WAITING, BR__CHECK_UNDECIDED };

typedef enum br__change_kind
{
  BR__CHANGE_DEFINITION, BR__CHANGE_SETTINGS, BR__CHANGE_LINE_TEXT, BR__CHANGE_LINE_SHOWN,
  BR__CHANGE_SWITCH, BR__CHANGE_TOLERANCE, BR__CHANGE_TEXT, BR__CHANGE_CONTENT, BR__CHANGE_ANNOTATION,
  BR__CHANGE_DISTANCES          /* ENTRY belongs to a shape: the distances to that shape are made again */
} br__change_kind;

/* One change of a statement.  It stores the other state, the old one or the new one, so that undo and
   redo are the same operation: swap the states.  */
typedef struct br__change
{
  br__change_kind kind;
  br__entry *entry;
  br__definition *definition;
  br__settings *settings;
  br__line *line;
  int *active;              /* the flag that is 1 while the object is in the sheet */
  struct br__tolerance *tolerance;
  char **place;             /* the pointer to the text that is valid now */
  char *text;
  size_t length;
  struct br__annotation **holds, *annotation;   /* the pointer to the annotation that is valid now; the other annotation */
  br_sheet *content;        /* the other content of the sheet, without the session */
} br__change;

/* The changes of one statement.  */
typedef struct br__changes
{
  br__change *rows;
  size_t count, room;
  size_t done;              /* the first DONE changes are in effect, the others are rolled back */
} br__changes;

/* A rollback that ran out of memory; it is finished before the next statement.  */
typedef struct br__rollback
{
  br__changes *changes;             /* of the history, or OWN; NULL: none */
  br__changes own;
  size_t done;                      /* roll back to the state in which DONE changes are in effect */
} br__rollback;

struct br__run;
struct br__shape;
struct br__statement;
struct br__weak;

/* The interface of lib/statement to a sheet: the table of all statements, and functions of rooms above lib/sheet.  */
typedef struct br__language
{
  const struct br__statement *(*at) (size_t index);     /* NULL past the last */
  const struct br__statement *(*find) (const char *word, size_t length);
  br_status (*run) (br_sheet *sheet, const char *text, size_t length, const char *file, size_t first_line,
                    int from_file, const br_sink *sink);
  /* Runs the text of RUN, up to its note, as a statement; phrases are not recognised.  */
  br_status (*dispatch) (struct br__run *run);
  /* Writes LINE, which made a setting that is still valid, so that it means the same after any other settings.  */
  void (*put_setting) (br_text *t, const br_sheet *sheet, const struct br__line *line);
  /* Finds where an outline is hard to saw, or narrower than LEAST inches.  BR_DOMAIN: the shape waits for a value.  */
  br_status (*weak) (struct br__weak *w, const br_sheet *sheet, const struct br__shape *shape, const br_real *least);
  /* T = what NAME is if it is not a dimension but, for example, a shape; nothing if it is unknown.  */
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

/* A call of the program on a sheet.  It saves the floating-point environment of the program, which may trap exceptions;
   pictures are laid out in the default one.  */
typedef struct br__call
{
  br_sink sink;             /* the callbacks of the program that are still called */
  br__account *before;
  fenv_t floating;
} br__call;

void br__sheet_enter (br__call *call, br_sheet *sheet, const br_sink *sink);
/* Returns STATUS, or BR_STOPPED if STATUS is BR_OK and the sheet was freed during the call.  */
br_status br__sheet_leave (const br__call *call, br_sheet *sheet, br_status status);

/* *SHEET = a new sheet without a memory account.  */
br_status br__sheet_new (br_sheet **sheet, const br__language *language);
/* RELEASE is called once when the sheet is freed; each room that stores data in the sheet registers one.  */
void br__release_by (br_sheet *sheet, void (*release) (br_sheet *sheet));

/* The statement that is being run.  */
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
  br__lexer lex;            /* after the statement's word */
  br__token word;           /* the statement's word */
  br_error *error;
  br__changes changes;      /* what it has changed so far */
  br__line *line;           /* set by a statement that added the line itself */
  const br_unit *asked_unit;/* the unit that an answer is asked in, or NULL */
  enum br__asked { BR__AS_USUAL, BR__AS_FRACTION, BR__AS_DECIMAL } asked_form;
  int kept;                 /* the statement belongs in a saved sheet */
  const char *setting;      /* what it set, or NULL */
  int steps;                /* it is `undo`, `redo`, or a `forget` of lines of this sheet */
  int forgetting;           /* it removes things together with their lines, from a file too */
  br_status (*behind) (struct br__run *run);    /* reads the text after the formula of an assignment, or NULL */
  br_text phrase;           /* if the line was typed as a phrase: the statement it was translated to */
  br_text left_out;         /* the part of the line that PHRASE ignores */
  int echoes;               /* PHRASE is to be passed to the sink before the first answer */
  int told;                 /* its errors have been reported already, as those of an opened file */
  struct br__run *collect;  /* the `use` that runs this line, or NULL */
  char *touched[8];         /* files that it reads, which it refuses to overwrite */
  size_t touched_count;
  int asked;                /* it was called by `run files` */
  br__line *again;          /* the line that it runs a second time, or NULL */
  br_file_use refused_use;  /* the use of a file that was refused */
  char *refused_path;
  int refused;              /* the file policy refused it: nothing was done */
  int two_ways;             /* it failed because it has two possible meanings */
  int saved;                /* after this statement the sheet has no unsaved changes */
  int cautioned;            /* cautions about its changes have been given */
  br_status mistake;        /* the first error in the lines that it ran; already reported */
} br__run;

/* reply.c */
/* Passes R to the sink and frees it; BR_NO_MEMORY if memory ran out while R was made.  */
br_status br__emit (br__run *run, br_record *r);
/* The same if STATUS is BR_OK; otherwise only frees R and returns STATUS.  */
br_status br__emit_or_free (br__run *run, br_record *r, br_status status);
/* The same, and STATUS is reported at OFFSET.  */
br_status br__emit_or_fail (br__run *run, br_record *r, br_status status, size_t offset, size_t length);
/* 1 if the flag of br_sheet_watch is set, so that long work should stop; and the error that is reported then.  */
int br__stopped (const br__run *run);
static inline br_status
br__fail_stopped (br__run *run)
{
  return br__fail_plain (run->error, BR_STOPPED, 0, 0);
}

/* RUN->end = where the note of its text begins, RUN->note = the note without its # and the blanks around.  */
void br__find_note (br__run *run);
void br__fill_expected (br__run *run, const char *what);

/* Fails at the current token.  */
static inline br_status
br__expected (br__run *run, const char *what)
{
  if (run->lex.status != BR_OK)
    return run->lex.status;
  br__fill_expected (run, what);
  return br__lex_fail (&run->lex, BR_SYNTAX);
}

/* Goes to the next token.  An error is kept in the lexer and every later step returns it, so that of several steps only
   the last needs to be checked.  */
static inline void
br__go_on (br__run *run)
{
  (void) br__lex_next (&run->lex, run->error);
}

/* Accepts WORD or SIGN and goes past it; if the current token is another one, fails and says that WHAT is expected.  */
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

/* BR_OK at the end of the line, else fails.  */
br_status br__end_of_line (br__run *run);
/* Answers with a sentence for the user: a record of the kind "remark".  */
br_status br__remark (br__run *run, const char *format, ...) __attribute__ ((format (printf, 2, 3)));

/* change.c */
br_status br__change_add (br__run *run, const br__change *change);
/* Reserves memory, so that the next br__change_add cannot fail.  Call it before you do what that change can roll back.  */
br_status br__changes_room (br__run *run);
/* BR_TOO_BIG if the input of RUN has reached the limit on changes of existing things.  There is a limit because each
   change recomputes all that depends on it.  New definitions are not limited.  */
br_status br__may_change (br__run *run);
/* Adds the work of a change to that limit; TAKES as by br__account_takes.  */
void br__changed (br_sheet *sheet, size_t takes);
/* Toggles *ACTIVE and records that as a change.  */
br_status br__change_switch (br__run *run, int *active);
/* Replaces *TEXT by NEW and records that as a change.  Takes over NEW, also on an error.  */
br_status br__change_text (br__run *run, char **text, char *new);
/* Gives E the definition *D, which it takes over, and records that as a change.  */
br_status br__change_define (br__run *run, br__entry *e, br__definition **d, br__moves *moves);
void br__changes_drop (br__changes *changes);
/* Appends the moves of FROM, entries of G.  If a dimension moved twice, its first BEFORE is
   kept.  */
br_status br__moves_join (br__moves *moves, br__moves *from, br__graph *g, br_error *error);
/* E has no value.  T = a hint if E waits for a name that is something else than a dimension, or perhaps a typing error;
   otherwise nothing.  */
void br__put_waited (br_text *t, const br_sheet *sheet, const br__entry *e);
/* two_ways.c: 1 if the line of RUN is refused because it has two possible meanings.
   100 x 50 mm: 100 times 50 mm, or both in millimetres?  */
int br__shares_unit (br__run *run);
/* hub = radius 2: the radius of a circle with the diameter 2, or a circle with the radius 2?  */
int br__halves_or_doubles (br__run *run);
/* Fails because the line has two possible meanings: the hint has both, and the line is not tried as a phrase.  */
void br__fail_two_ways (br__run *run, size_t offset, size_t length);

/* Rolls back the changes of the statement.  If memory runs out, the rest is rolled back before the next statement.  */
void br__changes_revert (br__run *run);
/* Called before a statement: finishes a pending rollback and reserves an entry in the history.  */
br_status br__changes_begin (br__run *run);
/* Ends a statement: its changes become one entry of the history.  */
void br__changes_commit (br__run *run);
/* Finishes a pending rollback.  */
br_status br__changes_settle (br_sheet *sheet);
/* Goes to the state in which the first DONE of CHANGES are in effect: now or, if memory runs out, before the next
   statement.  */
void br__rollback_later (br_sheet *sheet, br__changes *changes, size_t done);
/* Swaps the state of CHANGES; moves of dimensions are added to MOVES.  */
br_status br__changes_swap (br_sheet *sheet, br__changes *changes, int backwards,
                          br__moves *moves, br_error *error);

/* lines.c */
br_status br__line_append (br__run *run, br__line **line);
br_status br__line_rewrite (br__run *run, br__line *line);
br_status br__line_hide (br__run *run, br__line *line);
/* Removes the object with the flag *ACTIVE from the sheet, and the LINE (may be NULL) that defined it.  */
br_status br__take_out (br__run *run, int *active, br__line *line);
/* Answers that NAME is forgotten; no other dimension depends on it.  */
br_status br__emit_forgotten (br__run *run, const char *name);
/* Makes LINE, which has just been added, the line that defines E.  */
void br__line_defines (br__line *line, br__entry *e);
/* Shows or hides LINE, and updates which line defines its dimension.  */
void br__line_turn (br__line *line);
/* The line that defines ENTRY, or NULL.  */
br__line *br__line_of_entry (br__entry *entry);

/* show.c: fields of values, and what a statement needs to make them.  */
br_status br__value_of (br__value *v, br__run *run, const br__tree *tree);
/* The same for a length; a plain number is taken as a length in the sheet's unit.  */
br_status br__value_of_length (br__value *v, br__run *run, const br__tree *tree);
/* Parses into TREE an expression for a setting and evaluates it.  Names are refused: if one changed later, the setting
   would keep its value, but after the sheet is saved and opened again it would have another.  */
br_status br__read_fixed (br__value *v, br__tree *tree, br__run *run);
/* Adds to the current error the hint to write V there.  */
void br__hint_number (br__run *run, const br__value *v);
/* Parses a list up to the end of the line and answers one member after the other, until the first error.  */
br_status br__each_of_list (br__run *run, br_status (*answer) (br__run *run, const br__tree *tree));
/* expression: TREE as it was read.  */
void br__put_expression (br_record *r, const br__tree *tree);
/* exact decimal decimal_exact unit shown */
br_status br__put_value (br_record *r, const br__value *v, const br__settings *s);
/* The fields that show V: as usual, or in the unit or form that was asked for.  */
br_status br__put_answer (br_record *r, br__value *v, br__run *run);
/* mark error error_decimal, on the sheet's ruler */
br_status br__put_on_ruler (br_record *r, const br__value *v, const br__settings *s);
/* The text of V in shop notation, or a decimal with its unit if it is not rational.  */
br_status br__shown (br_text *t, const br__value *v, const br__settings *s);
/* The same for use in a sentence: with `≈` before it if it is not exact.  */
br_status br__shown_about (br_text *t, const br__value *v, const br__settings *s);
/* The same without the remark that an undecided value may be equal to a fraction, so that a formula can contain it.  */
br_status br__shown_digits (br_text *t, const br__value *v, const br__settings *s);
/* Like br__fail_plain; if V is undecided, the message says which digits are certain and which fraction V may be.  */
br_status br__fail_value (br_error *error, br_status status, size_t offset, size_t length, const br__value *v,
                          const br__settings *s);
/* V (in inches, ...) in the sheet's unit, exactly; *Q is 0 and *RATIONAL 0 for others.  */
br_status br__in_sheet_unit (br_real *z, const br__value *v, const br__settings *s);
/* Shop notation of the mark VALUE.  */
void br__put_mark_text (br_text *t, const br_number *value, br_dimension dimension,
                        const br__mark *mark, const br__settings *s);
/* drawing_number.c: a number for a drawing: inches without the inch sign; if it is not on a mark, the nearest mark with ≈
   before it.  VALUE in inches.  */
br_status br__put_drawing_number (br_text *t, const br_real *value, const br__settings *s);
/* Error of a rounding, MARK - V, in the sheet's unit: fields error and error_decimal.  */
br_status br__put_error (br_record *r, const br__value *v, const br_number *mark,
                         const br__settings *s);

/* clauses.c: the MARK behind `to`: an expression, or a word such as eighths.  */
br_status br__read_mark (br__run *run, br__mark *mark);
/* Fails if the mark in TREE has two possible meanings: 8 on an inch ruler, 1/16 in a millimetre sheet.  */
br_status br__refuse_mark (br__run *run, const br__tree *tree);
/* Fails if TREE, which should be a diameter, is `radius 1` or `diameter 2`.  */
br_status br__refuse_label (br__run *run, const br__tree *tree);
/* The clauses after the values of a `round` statement.  */
typedef struct br__clauses
{
  br__mark mark;
  br_direction direction;
  int directed;             /* a direction was given */
  int keep_total;
  int at_hand;              /* 1: to the stock, 2: to the dowels */
} br__clauses;
/* Reads them to the end of the line, or to the word LAST (may be NULL).  */
br_status br__read_clauses (br__run *run, br__clauses *c, const char *last);
/* If the current token is WORD, goes past it and returns 1.  */
int br__take_word (br__run *run, const char *word);
/* The x between two sizes: a word of its own, the beginning of a word such as x48, or a times sign.  */
int br__at_separator (const br__lexer *l);
br_status br__skip_separator (br__run *run);

/* dimension.c */
/* Fails if WORD of the line cannot name a dimension because it is a word of the language.  */
br_status br__name_taken (br__run *run, const br__token *word);
br_status br__assign (br__run *run);
br_status br__put_moves (br_record *r, const br__moves *moves, br_sheet *sheet);
/* Answers after CHANGES, with the MOVES that they caused: new cautions, then checks whose margin moved and all failing
   checks.  */
br_status br__tell_change (br__run *run, const br__moves *moves, const br__changes *changes);
/* The dimension named by the current token.  */
br_status br__named_entry (br__run *run, br__entry **e);
/* Forgets the value of the dimension named by the current token.  */
br_status br__forget_dimension (br__run *run);
/* check.c */
/* 1 if COMPARISON holds for a margin of SIGN.  */
int br__comparison_holds (br__comparison comparison, int sign);
br_status br__check_judge (br_sheet *sheet, br__check *check, br_error *error);
/* Judges all checks; called after a rollback.  */
void br__checks_judge_all (br_sheet *sheet);
void br__check_free (br__check *check);
/* The check whose margin E is, or NULL.  */
const br__check *br__check_of (const br__entry *e);

/* Each statement has one row in a table, which drives dispatch, help and completion.  Each room has a table;
   statement/language.c joins them.  br__follow says what comes after the statement's word; TEXT is any text up to the end
   of the line, QUOTED a text in quotation marks.  */
typedef enum br__follow { BR__FOLLOW_NOTHING, BR__FOLLOW_VALUE, BR__FOLLOW_NAME, BR__FOLLOW_FILE,
                          BR__FOLLOW_WORD, BR__FOLLOW_TEXT, BR__FOLLOW_QUOTED } br__follow;

typedef struct br__statement
{
  const char *word;
  const char *form;         /* how it is written */
  const char *summary;      /* one line */
  const char *help;         /* more, or NULL; lines separated by \n */
  br__follow follow;        /* what completion offers next */
  const char *words;        /* words that may appear in it, separated by blanks, or NULL */
  int setting;
  /* A dimension may have this word as its name, because version 0.1.0 did not have this statement.  If there is such a
     dimension, the word alone or before a sign is the dimension.  */
  int may_name;
  br_status (*run) (br__run *run);
} br__statement;

/* The second word that makes ST a statement if its own word may also be a dimension, such as the run of stairs: `run files`,
   `name column`; else NULL.  */
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
/* Runs a line that is only an expression: answers its value.  */
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
