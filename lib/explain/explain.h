/* SPDX-License-Identifier: LGPL-3.0-or-later
   explain.h - a calculation as it is done by hand: steps LEFT = RIGHT of which both sides are
   expressions of the language with the same value.  */
#ifndef BR_EXPLAIN_EXPLAIN_H
#define BR_EXPLAIN_EXPLAIN_H

#include "sheet/sheet.h"

/* The steps as they come.  */
typedef struct br__worked_steps
{
  br_text *rows;
  size_t count, room;
  int failed;           /* memory ran out */
} br__worked_steps;

#define BR__WORKED_STEPS_ZERO { NULL, 0, 0, 0 }

void br__worked_steps_clear (br__worked_steps *l);
/* Adds "LEFT SIGN RIGHT"; nothing where both are the same text.  */
void br__worked_steps_add (br__worked_steps *l, const char *left, const char *sign, const char *right);

/* Adds the steps by which X OP Y becomes END, of DIMENSION, by hand, with fractions brought over one denominator,
   carried and borrowed.  LEFT is how X OP Y is written; all are rational.  */
void br__by_hand (br__worked_steps *l, const char *left, const char *end, br__op op, const br__value *x,
                  const br__value *y, br_dimension dimension, const br__settings *s);
/* 1 if what is measured in DIMENSION has a unit that follows its number: a length, an area, a volume, an angle, or none.  */
int br__explain_has_unit (br_dimension dimension);

/* All steps of TREE, those of the dimensions it depends on first, and the mark at the end.  RULES
   gets the rules of the functions in words.  ANSWER gets the value as it is shown.  */
br_status br__explain (br__worked_steps *steps, br__worked_steps *rules, br_text *answer, br__run *run,
                       const br__tree *tree, const br__mark *mark);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__explain_statements[];
br_status br__do_explain (br__run *run);

#endif
