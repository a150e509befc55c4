/* SPDX-License-Identifier: LGPL-3.0-or-later
   explain_private.h - shared by the files of this folder.  */
#ifndef BR_EXPLAIN_PRIVATE_H
#define BR_EXPLAIN_PRIVATE_H

#include "explain/explain.h"

/* The precedence of a text, which decides where brackets are needed.  */
enum { BINDS_SUM, BINDS_PRODUCT, BINDS_SIGN, BINDS_POWER, BINDS_MIXED, BINDS_ALL };

/* A subtree as it stands in the next step.  */
typedef struct item
{
  br_text text;
  int binds;
  br__value value;
} item;

#define ITEM_ZERO { BR_TEXT_ZERO, BINDS_ALL, BR__VALUE_ZERO }

/* The binding of a name inside a function's formula: a parameter, or an earlier part of the formula.  */
typedef struct binding
{
  const char *name;
  size_t length;
  const item *item;
} binding;

#define MOST_BINDINGS 10

typedef struct explainer
{
  br__run *run;
  br__worked_steps *steps, *rules;
  const binding *bindings;
  size_t binding_count;
} explainer;

/* What a walk over a formula writes: the names, their values, or a step for each operation with its
   result.  */
typedef enum br__walk { BR__WALK_NAMES, BR__WALK_VALUES, BR__WALK_STEPS } br__walk;

/* RESULT gets the value of T and its text; steps are added to X.  */
br_status br__explain_tree (explainer *x, const br__tree *t, br__walk how, item *result);
/* The text of node N over its operands O; the result is how it binds.  */
int br__explain_compose (br_text *t, const br__node *n, const item *o);
/* Converts the plain number O to a length: if it is rational (and not NAMED) its text is written again, else `* 1"` is
   added to it.  */
br_status br__explain_length (item *o, int named, explainer *x);
/* Replaces the text of O by its value.  */
br_status br__explain_written (item *o, explainer *x);
/* The value of the name at N of T; of a side of a shape, which is three nodes, the sum of the first two.  */
br_status br__explain_value (br__value *z, explainer *x, const br__tree *t, const br__node *n);
/* The value of N over its operands O.  */
br_status br__explain_work_out (br__value *z, explainer *x, const br__node *n, const item *o);
void br__explain_clear (item *x);

/* explain_shape.c */
/* 1 if N is the first of the three nodes of a side, as in right(deck): centre, reach and their sum.  */
int br__explain_is_side (const br__tree *t, const br__node *n);
/* 1 if N is a number of a shape that was put in, not typed.  */
int br__explain_is_part (const br__tree *t, const br__node *n);
br_status br__explain_part (explainer *x, const br__tree *t, const br__node *n, item *made);
/* An operation that was put in, not typed, as one would write it.  */
br_status br__explain_hidden (explainer *x, const br__node *n, const item *o, item *made);
/* The formula of what N of T asks of shapes, as one would type it: LABEL gets "right(deck)", FORMULA
   "centre_x(deck) + w / 2".  Nothing where it is only measured, as with an arc.  */
br_status br__explain_measured (br_text *label, br__tree *formula, explainer *x, const br__tree *t,
                                const br__node *n);

/* A text that ran out of memory is missing from what was made of it: the steps are then not whole.  */
static inline void
br__explain_whole (explainer *x, const br_text *t)
{
  x->steps->failed |= t->failed;
}

#endif
