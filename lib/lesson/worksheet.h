/* SPDX-License-Identifier: LGPL-3.0-or-later
   worksheet.h - a worksheet: what was asked for, its problems in all versions, and how they are
   told, solved and written.  */
#ifndef BR_LESSON_WORKSHEET_H
#define BR_LESSON_WORKSHEET_H

#include "lesson/problem.h"
#include "explain/explain.h"

#define BR__MOST_ROWS 40
#define BR__MOST_PROBLEMS 100         /* on a paper */
#define BR__MOST_VERSIONS 10000
#define BR__MOST_IN_ALL 24000
#define BR__MOST_POINTS 1000
#define BR__MOST_FIELD 400

/* What a teacher may have at the head of a paper.  */
enum { BR__FIELD_SCHOOL, BR__FIELD_CLASS, BR__FIELD_DATE, BR__FIELD_INSTRUCTION, BR__FIELDS };

/* One of the teacher's own problems.  */
typedef struct br__own
{
  char *text;
  br_number answer;             /* in inches, square inches ... */
  br_dimension dimension;
  br_number mark;               /* inches or plain; 0 where the answer is on none */
  int percent;                  /* the answer is written so */
  br__ask ask;
  br_style style;
  br_text answer_text;
  br__worked_steps steps;
  br_number wrong[BR__MOST_WRONG];
  br__mistake mistake[BR__MOST_WRONG];
  unsigned wrong_count;
} br__own;

typedef struct br__worksheet
{
  /* No topic: own ones.  GRADE and the ruler's level are 0 where the row says nothing.  */
  struct { const br__topic *topic; int64_t count, grade, points; br__ruler_of ruler; int bonus; } rows[BR__MOST_ROWS];
  size_t row_count;
  size_t problem_count;         /* on a paper */
  int64_t versions, seed;
  br__ruler_of ruler;
  int versions_given, large;
  int duplex;                   /* each paper begins on a front side */
  char *fields[BR__FIELDS];     /* NULL: not asked for; "": a line to fill in */
  unsigned told;                /* bits of the options that were read */
  const struct br__paper *paper;
  char *title;
  char **names;
  size_t name_count;
  char *names_path, *path;      /* of the list, NULL without one; of the papers */
  const struct br__sentences *words;        /* of the sheet, while papers are written; or NULL */
  br__own *own;                 /* OWN_COUNT for each version, where sizes are drawn for each; else once */
  size_t own_count, own_sets;
  br__problem *problems;        /* problem I of version V (both from 0) at V * problem_count + I */
} br__worksheet;

void br__worksheet_free (br__worksheet *w);

/* worksheet_read.c: what the statement at hand asks for; *START gets the place of the file's name.  */
br_status br__worksheet_read (br__worksheet *w, size_t *start, br__run *run);
/* The words of the fields, as in the statement.  */
extern const char *const br__field_words[BR__FIELDS];

/* Draws all problems of W.  */
br_status br__worksheet_draw (br__worksheet *w, br__run *run);

/* own.c: all of the sheet's own problems that have an answer.  */
br_status br__own_collect (br__own **own, size_t *count, br__run *run);
/* A run over LINE of the sheet, so that its errors are not those of the line at hand; 0 where it has no words.  */
int br__open_line (br__run *part, br__run *run, const br__line *line, br_error *error);
/* X as an answer to OWN is written.  */
void br__own_put (br_text *t, const br__own *own, const br_number *x);
/* given.c: the own problems of W, for each version with the sizes that `given` draws for it.  */
br_status br__own_draw (br__worksheet *w, br__run *run);
void br__own_free (br__own *own, size_t count);
/* own_wrong.c: the unit that OWN's answer is written in, NULL for a plain number.  */
const br_unit *br__own_unit (const br__own *own);
/* The usual wrong answers of OWN, whose answer is TREE put on MARK if that is not NULL.  */
br_status br__own_wrong (br__own *own, br__run *run, br__tree *tree, const br__mark *mark);

/* One problem as it goes on paper.  The part behind TEXT is the key's.  */
typedef struct br__task
{
  const br__problem *problem;   /* NULL: an own one */
  const char *topic;
  int room;                     /* lines of 1/4 in, a line for each step that is expected */
  br_text text;
  br_text other;                /* the same in the other language, where two stand side by side */
  const char *english;          /* its wording with what is in braces, or "" */
  br_text answer, exact, mark;  /* as written; n/d in inches; the ruler's mark in inches or "" */
  int64_t points;               /* 0: not said */
  int bonus;
  const char *unit, *ask;       /* "in" ... "" ; "fraction", "decimal", "count" ... */
  br__worked_steps steps;
  br_text wrong[BR__MOST_WRONG];
  br__mistake mistake[BR__MOST_WRONG];
  unsigned wrong_count;
} br__task;

void br__task_clear (br__task *t);

/* Works problems out in a sheet of its own, so that no setting of the teacher's has a say.  */
typedef struct br__helper
{
  br_sheet *sheet;
} br__helper;

br_status br__helper_start (br__helper *h);
void br__helper_end (br__helper *h);
/* Problem INDEX of VERSION (both from 0).  KEY: with its answer, steps and wrong answers.  */
br_status br__task_make (br__task *t, br__helper *h, const br__worksheet *w, size_t version,
                         size_t index, int key);

/* The papers in their order: one for each name, else one for each version.  */
size_t br__papers_of (const br__worksheet *w);
size_t br__paper_version (const br__worksheet *w, size_t paper);
/* What stands at the top; "" where no name is known.  */
const char *br__paper_name (const br__worksheet *w, size_t paper);

/* worksheet_read.c: the topic whose name begins at the token at hand, or OWN 1; its last word becomes the token at hand.  */
br_status br__read_topic (const br__topic **topic, int *own, br__run *run);
/* The ruler that the sheet's `ruler` and `units` ask for, sixteenths where they say nothing that worksheets have.  */
br__ruler_of br__sheet_ruler (const br__run *run);
/* How long work goes on: the sink hears of it, and Ctrl-C ends it with an error.  */
br_status br__lesson_progress (br__run *run, const char *what, size_t done, size_t all);

/* Writers, by the ending of the file's name: OUT gets the whole file.  */
br_status br__worksheet_text (br_text *out, const br__worksheet *w, br__run *run, int key);
br_status br__worksheet_csv (br_text *out, const br__worksheet *w, br__run *run, int key);
br_status br__worksheet_html (br_text *out, const br__worksheet *w, br__run *run, int key);
/* Straight to the file PATH.  */
br_status br__worksheet_pdf (const char *path, const br__worksheet *w, br__run *run, int key);

/* 1 if PATH ends with ENDING, capitals or not, and is more than that.  */
int br__ends_with (const char *path, const char *ending);
/* The file name behind the token at hand, up to the next of WORDS (parted by blanks) or
   the line's end; the lexer goes on behind it.  */
br_status br__clause_file (char **path, br__run *run, size_t start, const char *words, br_file_use use);
/* An error without a place, such as one about a file, gets START..END of the line.  */
br_status br__placed (br__run *run, br_status status, size_t start, size_t end);
/* An error about PATH, which has none of ENDINGS; its hint is the line with one of them: .csv for what a spreadsheet keeps, else PAGE.  */
br_status br__wrong_ending (br__run *run, const char *path, const char *endings, const char *page);
/* An error at START..END where PATH, which is about to be written, is OTHER (may be NULL), which WHAT says.  */
br_status br__not_over (br__run *run, const char *path, const char *other, const char *what, size_t start, size_t end);
/* A whole number from LOW to HIGH that is the token at hand.  */
br_status br__clause_count (int64_t *n, br__run *run, const char *what, int64_t low, int64_t high);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__lesson_statements[];
br_status br__do_problem (br__run *run);
br_status br__do_answer (br__run *run);
br_status br__do_given (br__run *run);
br_status br__do_practice (br__run *run);
br_status br__do_history (br__run *run);
br_status br__do_mark (br__run *run);
br_status br__do_worksheet (br__run *run);
br_status br__do_key (br__run *run);
br_status br__do_grade (br__run *run);

#endif
