/* SPDX-License-Identifier: LGPL-3.0-or-later
   verdict.h - an answer against its key.  */
#ifndef BR_LESSON_VERDICT_H
#define BR_LESSON_VERDICT_H

#include "benchrule.h"
#include "lesson/mistake.h"
#include "lesson/problem.h"

/* What the key says of one problem.  Sizes are in inches (square inches ...) or plain.  */
typedef struct br__key
{
  br_number exact, mark;        /* MARK is 0 where there is no ruler */
  br_number step;               /* one whole of the unit asked for */
  const br_unit *unit;          /* asked for, or NULL */
  br__ask ask;
  br_number wrong[BR__MOST_WRONG];
  br__mistake mistake[BR__MOST_WRONG];
  unsigned wrong_count;
  br_number also, also_step;    /* another answer that is accepted, if HAS_ALSO, in the unit and the form in which it was written */
  const br_unit *also_unit;
  br__ask also_ask;
  int has_also, present;
  int bonus;                    /* counts for the marks, not for what they are out of */
  size_t worth;                 /* points */
  const char *answer, *steps, *topic;   /* as the file has them; never NULL where PRESENT */
} br__key;

typedef enum br__judgement
{
  BR__RIGHT, BR__NOT_LOWEST, BR__OTHER_FORM, BR__NO_UNIT,       /* the right size */
  BR__ROUNDED,                  /* near it */
  BR__WRONG, BR__UNREADABLE, BR__NO_ANSWER,
  BR__JUDGEMENTS                /* and from here on one for each mistake */
} br__judgement;

#define BR__VERDICTS ((size_t) BR__JUDGEMENTS + BR__MISTAKES)

typedef struct br__verdict
{
  size_t index;                 /* a br__judgement, or BR__JUDGEMENTS and a br__mistake */
  unsigned places;              /* of what is rounded */
  int near;                     /* it is, and less than a mark away */
  int unit;                     /* a unit was written */
  br_error error;               /* of what is unreadable; its offset is in the answer as given */
} br__verdict;

/* How a number is written.  */
typedef struct br__written
{
  int decimal, fraction, mixed, sign, percent;
  unsigned places;              /* digits behind the point */
  int64_t num, den;             /* of its fraction, -1 where it is too long to say */
} br__written;

br__written br__written_of (const char *text, size_t length);

/* "right", "kerf forgotten" ...  */
const char *br__verdict_name (size_t index);
/* BR_OK unless memory runs out.  */
br_status br__judge (br__verdict *v, const char *written, const br__key *key);
/* Its name, and of what is unreadable the place and the reason, of what is rounded the places.  */
void br__put_verdict (br_text *t, const br__verdict *v);
void br__key_clear (br__key *key);

#endif
