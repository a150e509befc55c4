/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer.h - an answer as a pupil writes it.  */
#ifndef BR_LESSON_ANSWER_H
#define BR_LESSON_ANSWER_H

#include "benchrule.h"

/* An answer is read up to here.  */
#define BR__ANSWER_BYTES 200

typedef struct br__answer
{
  char text[2 * BR__ANSWER_BYTES];      /* what was read: the answer, or the same in the notation that is read */
  size_t length;
  br_measure measure;
} br__answer;

/* 1 where WRITTEN holds no answer: nothing, signs alone, "idk", "n/a".  */
int br__answer_is_none (const char *written);
/* Reads WRITTEN.  COUNTED: words behind the number say what was counted.  BR_OK, BR_NO_MEMORY, or the error of
   what cannot be read, its offset in WRITTEN.  A is to be cleared.  */
br_status br__answer_read (br__answer *a, const char *written, int counted, br_error *error);
void br__answer_clear (br__answer *a);

/* answer_words.c.  Puts WITH in the place of COUNT bytes at AT; nothing where there is no room.  */
void br__answer_replace (br__answer *a, size_t at, size_t count, const char *with);
/* Numbers, fractions and decimals in words become digits.  */
void br__answer_put_words (br__answer *a);
/* Drops what the pupil took back: struck through, or followed by "no", "oops", "I mean" and another number.  */
void br__answer_drop_old (br__answer *a);

#endif
