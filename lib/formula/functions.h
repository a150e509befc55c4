/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.h - the functions that an expression may call: those of arithmetic and of the
   ruler from functions.c, those of the trade from lib/shop/functions.c.  One table of rows
   serves the evaluator, help, completion and explanation.  */
#ifndef BR_FORMULA_FUNCTIONS_H
#define BR_FORMULA_FUNCTIONS_H

#include "benchrule.h"
#include "shop/functions.h"
#include "formula/settings.h"

typedef struct br__value
{
  br_real real;
  br_dimension dimension;
} br__value;

#define BR__VALUE_ZERO { BR_REAL_ZERO, BR_PLAIN }

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
  /* On an error, ERROR's offset is the index of the bad argument or BR__WHOLE_CALL.  */
  br_status (*call) (br__value *z, br__value *args, unsigned count, const br__settings *s,
                     const struct br__function *self, br_error *error);
  const br__shop_function *shop;      /* the row of lib/shop, or NULL */
} br__function;

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
