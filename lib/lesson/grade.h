/* SPDX-License-Identifier: LGPL-3.0-or-later
   grade.h - a class's answers, the key, the points, and what comes of them.  */
#ifndef BR_LESSON_GRADE_H
#define BR_LESSON_GRADE_H

#include "lesson/rows.h"
#include "lesson/verdict.h"
#include "sheet/sheet.h"

typedef struct br__class
{
  br__rows answers;
  size_t student, version;      /* their columns */
  size_t *columns;              /* of problem I, from 0; SIZE_MAX where there is none */
  br__key *keys;                /* of problem I of version V at V * problems + I */
  size_t versions, problems;
  br_number points[BR__VERDICTS];
  char **names;                 /* of the class, or NULL */
  size_t name_count;
  /* What came of it.  */
  uint32_t *counts;             /* of verdict K in problem I at K * problems + I */
  size_t papers;                /* that have been marked */
  br_number all;                /* the sum of their marks */
} br__class;

/* summary.c: kind grade_summary.  */
br_status br__grade_summary (br__run *run, const br__class *c, const char *path);

#endif
