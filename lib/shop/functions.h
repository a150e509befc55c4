/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.h - the shop's functions: wheels, fenders, arcs, axles, drills.
   One table drives evaluation, help and the steps of an explanation, so that what is
   computed, what is said and what is shown are one thing.  Read-only data: any thread.  */
#ifndef BR_SHOP_FUNCTIONS_H
#define BR_SHOP_FUNCTIONS_H

#include "benchrule.h"

#define BR__SHOP_MAX_ARGS 5

typedef struct br__shop_function
{
  const char *name;
  const char *parameters;   /* "wheel_dia, gap": names as help shows them */
  /* One letter a parameter, then ':' and the result.  L: a length or a plain number; the caller
     brings all L of a call to one kind and the result L is of that kind (for `drill` a plain
     number counts as inches).  N: a plain number.  A: degrees or a plain number.  */
  const char *kinds;
  /* One letter a parameter.  +: over zero.  0: zero or more.  a: an angle over 0, up to 360.
     *: any, or tested by the call itself.  */
  const char *needs;
  /* The rule in the language over the parameter names; steps end with ';' and the last
     is the result.  NULL where no formula says it.  */
  const char *formula;
  const char *limit;        /* a formula over them that has to be over zero, or "" */
  const char *rule;         /* the same in words for a student */
  const char *summary;      /* one line for help */
  /* Sets Z from the arguments, exactly where it can be.  BITS limits the precision at which
     signs are asked (0: BR_REAL_BITS).  ERROR's offset is the index of the bad argument
     (from 0) and its length 0: the caller turns it into a place.  BR_DOMAIN: no such shape;
     BR_UNDECIDED; BR_TOO_BIG; BR_NO_MEMORY.  */
  br_status (*call) (br_real *z, const br_real *const *args, unsigned bits, br_error *error);
} br__shop_function;

extern const br__shop_function br__shop_functions[];
extern const size_t br__shop_function_count;

/* The function called by LENGTH bytes at NAME, or NULL.  */
const br__shop_function *br__shop_function_find (const char *name, size_t length);
/* How many arguments it takes, and the LENGTH bytes of the name of parameter INDEX.  */
size_t br__shop_function_arity (const br__shop_function *function);
const char *br__shop_parameter (size_t *length, const br__shop_function *function, size_t index);
/* "the wheel's diameter" for "wheel_dia": what a parameter is, in words; never NULL.  */
const char *br__shop_parameter_words (const char *name, size_t length);

#endif
