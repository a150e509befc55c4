/* SPDX-License-Identifier: LGPL-3.0-or-later
   practice.h - one problem after another at the prompt: those that went wrong come again sooner.  */
#ifndef BR_LESSON_PRACTICE_H
#define BR_LESSON_PRACTICE_H

#include "lesson/verdict.h"
#include "lesson/worksheet.h"

/* S. Leitner, So lernt man lernen (Herder, 1972): all cards begin in the first box; one that was right goes to the next, one that
   was wrong to the first.  */
#define BR__BOXES 5
#define BR__PAST 60     /* problems whose numbers are not asked again */

/* A kind of problem of a topic.  */
typedef struct br__card
{
  const br__topic *topic;
  unsigned kind;
  unsigned box;                 /* 0: never asked; 1 to BR__BOXES */
  int64_t due;                  /* when so many problems have been answered */
  int64_t asked, right;
  uint32_t mistakes[BR__VERDICTS];
} br__card;

typedef struct br__practice
{
  br__card *cards;              /* one for each kind of problem of each topic */
  size_t count;
  int64_t answered;             /* problems so far, in all sessions */
  /* The session.  */
  const br__topic *topic;       /* NULL: all */
  int64_t level;                /* 1 to BR__GRADES, 0: any */
  int64_t number, right;        /* problems of this session; those right at the first go */
  br__worksheet sheet;          /* of one problem */
  br__problem problem, past[BR__PAST];
  br__card *card;
  br__task task;
  br__key key;
  br__helper helper;
  size_t hints;                 /* steps that were shown */
  int failed;                   /* an answer was wrong, or a hint was asked for */
} br__practice;

/* practice_file.c: reads and writes the cards of P at PATH; NULL: nothing is kept.  A file that is not there has none.  */
br_status br__practice_read (br__practice *p, const char *path, br_error *error);
br_status br__practice_write (const br__practice *p, const char *path, br_error *error);

#endif
