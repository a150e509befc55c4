/* SPDX-License-Identifier: LGPL-3.0-or-later
   explain_private.h - what explain.c and explain_chain.c share.  */
#ifndef BR_EXPLAIN_EXPLAIN_PRIVATE_H
#define BR_EXPLAIN_EXPLAIN_PRIVATE_H

#include "explain/explain.h"

/* How strongly a text binds: what may stand beside a sign without brackets.  */
enum { BINDS_SUM, BINDS_PRODUCT, BINDS_SIGN, BINDS_POWER, BINDS_MIXED, BINDS_ALL };

/* A subtree as it stands in the next step.  */
typedef struct item
{
  br_text text;
  int binds;
  br__value value;
} item;

/* Values of names inside a shop formula: its parameters and its earlier steps.  */
typedef struct binding
{
  const char *name;
  size_t length;
  const br__value *value;
} binding;

#define MOST_BINDINGS 10

typedef struct explainer
{
  br__run *run;
  br__steps_list *steps, *rules;
  const binding *bindings;
  size_t binding_count;
  int inside;           /* in the formula of a function */
} explainer;

/* RESULT gets the value of T and what stands for it; the steps go to X.  */
br_status br__explain_tree (explainer *x, const br__tree *t, item *result);
/* The names in TREE replaced by the values that are bound to them.  */
br_status br__explain_substitute (br_text *t, const br__tree *tree, explainer *x);
void br__explain_clear (item *x);

/* A text that ran out of memory is missing from what was made of it: the steps are then not whole.  */
static inline void
br__explain_whole (explainer *x, const br_text *t)
{
  x->steps->failed |= t->failed;
}

#endif
