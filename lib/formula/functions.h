/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.h - the functions that an expression may call: those of arithmetic and of the
   ruler from functions.c, those of the trade from lib/shop/functions.c.  One table of rows
   serves the evaluator, help, completion and explanation.  */
#ifndef BR_FORMULA_FUNCTIONS_H
#define BR_FORMULA_FUNCTIONS_H

#include "benchrule.h"
#include "shop/functions.h"
#include "formula/settings.h"

/* A value; or, if SLOT is not 0, the result of instruction SLOT - 1 of the program that is being compiled, of which only
   DIMENSION is known.  */
typedef struct br__value
{
  br_real real;
  br_dimension dimension;
  size_t slot;
} br__value;

#define BR__VALUE_ZERO { BR_REAL_ZERO, BR_PLAIN, 0 }

/* The context of an operation.  PROGRAM is the program that is being compiled; if it is NULL, every value is known.  */
typedef struct br__work
{
  const br__settings *settings;
  struct br__program *program;
  br_error *error;
  int settles;                  /* of each value it is asked at once whether it is a fraction */
} br__work;

void br__value_clear (br__value *v);
br_status br__value_set (br__value *z, const br__value *x);

/* The place of an error in a call: the index of the argument, or BR__WHOLE_CALL.  */
#define BR__WHOLE_CALL SIZE_MAX

/* Arguments of what is measured: two paths of 128 pieces.  */
#define BR__MOST_MEASURED 1800
#define BR__PIECE_NUMBERS 7     /* of a piece of a path: lib/geometry/path.h */

/* NULL if there is none of that name.  */
const br__function *br__function_find (const char *name, size_t length);
/* "write mean(x, y, ...)".  */
void br__hint_call (br_error *error, const br__function *f);
/* How many arguments it takes.  */
unsigned br__function_least (const br__function *f);
unsigned br__function_most (const br__function *f);
/* All rows in order, for help and completion; NULL past the last.  */
const br__function *br__function_at (size_t index);

#endif
