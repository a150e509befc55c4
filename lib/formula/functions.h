/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.h - the functions that an expression may call: those of arithmetic and of the
   ruler from functions.c, those of the trade from lib/shop/functions.c.  One table of rows
   serves the evaluator, help, completion and explanation.  */
#ifndef BR_FORMULA_FUNCTIONS_H
#define BR_FORMULA_FUNCTIONS_H

#include "benchrule.h"
#include "shop/functions.h"
#include "formula/settings.h"

/* A value, or, where SLOT is not 0, what instruction SLOT - 1 of the program that is being compiled will
   come to; then only DIMENSION is known of it.  */
typedef struct br__value
{
  br_real real;
  br_dimension dimension;
  size_t slot;
} br__value;

#define BR__VALUE_ZERO { BR_REAL_ZERO, BR_PLAIN, 0 }

/* What an operation needs beside its operands.  Without a PROGRAM every value is known.  */
typedef struct br__work
{
  const br__settings *settings;
  struct br__program *program;
  br_error *error;
} br__work;

void br__value_clear (br__value *v);
br_status br__value_set (br__value *z, const br__value *x);

/* Where an error of a call belongs: the index of the argument, or BR__WHOLE_CALL.  */
#define BR__WHOLE_CALL SIZE_MAX

typedef struct br__function
{
  /* These four are said by the shop's row where SHOP is not NULL: ask the functions below.  */
  const char *name;
  const char *parameters;     /* "x, mark" */
  unsigned least, most;       /* arguments; least over 0 and most 0: any number */
  const char *summary;
  /* On an error, the offset of the error of W is the index of the bad argument or BR__WHOLE_CALL.  Z is empty
     and no argument; ARGS may be changed.  */
  br_status (*call) (br__work *w, br__value *z, br__value *args, unsigned count,
                     const struct br__function *self);
  int variant;                /* for CALL where several rows have one */
  const br__shop_function *shop;      /* the row of lib/shop, or NULL */
  /* What shapes measure, or NULL.  RATES has a letter an argument: how much the result can change with it.
     - : it does not change; 1: no more than it; a: no more than the arc of that many degrees whose radius is
     the number b of the same shape.  The first is j where a result below zero may jump.  */
  br_status (*measure) (br_real *z, const br_real *const *args, unsigned bits);
  const char *rates;
} br__function;

#define BR__MOST_MEASURED 14

/* NULL if there is none of that name.  */
const br__function *br__function_find (const char *name, size_t length);
const char *br__function_name (const br__function *f);
const char *br__function_parameters (const br__function *f);
/* "write mean(x, y, ...)".  */
void br__hint_call (br_error *error, const br__function *f);
const char *br__function_summary (const br__function *f);
unsigned br__function_least (const br__function *f);
unsigned br__function_most (const br__function *f);
/* All rows in order, for help and completion; NULL past the last.  */
const br__function *br__function_at (size_t index);

#endif
