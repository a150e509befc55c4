/* SPDX-License-Identifier: LGPL-3.0-or-later
   grade.h - a class's answers, the key, the points, and what comes of them.  */
#ifndef BR_LESSON_GRADE_H
#define BR_LESSON_GRADE_H

#include "table/rows.h"
#include "lesson/verdict.h"
#include "sheet/sheet.h"

/* What came of one answer.  */
typedef struct br__mark_cell
{
  size_t verdict;               /* as in br__verdict, or one of those below */
  br_text text;                 /* the same in words, with the place and the reason */
} br__mark_cell;

#define BR__VERSION_UNKNOWN (BR__VERDICTS + 1)
#define BR__VERSION_MISSING (BR__VERDICTS + 2)
#define BR__VERSION_OTHER (BR__VERDICTS + 3)    /* the paper answers another version than the one on it */
#define BR__NOT_ASKED (BR__VERDICTS + 4)        /* its version has no such problem */

/* Begins the note of a second paper of one student.  */
#define BR__NOTE_SECOND "another paper of this name, not counted"

/* One paper, marked.  */
typedef struct br__marked
{
  const br__row *row;           /* of the answers; NULL: no paper was handed in */
  const char *student;
  size_t version;               /* from 1; 0 where the key has none such, or OTHER is set */
  size_t other;                 /* the version that it answers, where that is not the one on it */
  br__mark_cell *cells;         /* one for each problem; NULL without a paper */
  br_number marks, of;
  br_text note;
  int counted;                  /* in the average and in what the class did */
} br__marked;

typedef struct br__class
{
  br__rows answers, key_rows;
  size_t student, version;      /* their columns */
  size_t *columns;              /* of problem I, from 0; SIZE_MAX where there is none */
  br__key *keys;                /* of problem I of version V at V * problems + I */
  size_t versions, problems;
  br_number *points;            /* of verdict K in problem I at I * BR__VERDICTS + K */
  char **names;                 /* of the class, or NULL */
  size_t name_count;
  /* What came of it.  */
  br__marked *marked;
  size_t marked_count;
  uint32_t *counts;             /* of verdict K in problem I at K * problems + I */
  size_t papers;                /* that count */
  size_t compared;              /* what the search for other versions has taken */
  br_number lowest, highest;
  br_real mean, spread;         /* standard deviation of the papers, of which there are so many and no more */
} br__class;

/* What PAPER answers to problem I, "" where there is nothing.  */
const char *br__marked_answer (const br__class *c, const br__marked *paper, size_t i);
/* The key of problem I of PAPER, or NULL.  */
const br__key *br__marked_key (const br__class *c, const br__marked *paper, size_t i);

/* mark.c: the papers, one after another, and the class.  */
br_status br__mark_all (br__class *c, br__run *run);
/* marks_write.c: the table, and slips to hand back, by the ending of PATH.  */
br_status br__marks_write (const char *path, const br__class *c, br__run *run);
/* A number of marks, as a decimal that ends or to two places.  */
void br__put_marks (br_text *t, const br_number *x);

/* summary.c: kind grade_summary.  */
br_status br__grade_summary (br__run *run, const br__class *c, const char *path);

#endif
