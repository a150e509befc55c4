/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.h - the shop's functions: wheels, fenders, arcs, axles, drills.
   One table drives values, programs, help and the steps of an explanation, so that these
   always agree.  It is read-only, so any thread may use it.  */
#ifndef BR_SHOP_FUNCTIONS_H
#define BR_SHOP_FUNCTIONS_H

#include "benchrule.h"
#include "exact/text.h"

#define BR__SHOP_MAX_ARGS 5

/* A formula in postfix order, made by macros at compile time: operands come before their operator, which takes the last
   ones.  A name is the value of a step, by its index in the order of the steps.  */
typedef enum br__shop_op
{
  BR__SHOP_END, BR__SHOP_ARGUMENT, BR__SHOP_NAME, BR__SHOP_WHOLE, BR__SHOP_PI, BR__SHOP_ADD, BR__SHOP_SUB, BR__SHOP_MUL,
  BR__SHOP_DIV, BR__SHOP_SQUARE, BR__SHOP_ROOT, BR__SHOP_SINE,
  BR__SHOP_STEP                 /* the value gets the name WORD */
} br__shop_op;

/* How many values OP takes.  */
static inline unsigned
br__shop_operands (br__shop_op op)
{
  return op >= BR__SHOP_ADD && op <= BR__SHOP_DIV ? 2 : op >= BR__SHOP_SQUARE;
}

typedef struct br__shop_code
{
  br__shop_op op;
  int number;                   /* of the argument or the name, or the whole number itself */
  const char *word;
} br__shop_code;

#define BR__SHOP_DEEPEST 8      /* values at hand at once */
#define BR__SHOP_MOST_STEPS 2

/* A condition for the shape to exist: a value over zero, or not below it.  Otherwise the error is about argument INDEX.  */
typedef struct br__shop_limit
{
  const br__shop_code *over;    /* NULL: no limit */
  int may_be_zero;
  size_t index;
  const char *message, *hint;
} br__shop_limit;

#define BR__SHOP_LIMITS 2

/* Functions that are asked for by themselves somewhere.  */
typedef enum br__function_id
{
  BR__FUNCTION_OTHER, BR__FUNCTION_NEAREST, BR__FUNCTION_FULL, BR__FUNCTION_DRAWN, BR__FUNCTION_IN_BOXES,
  BR__FUNCTION_RADIUS, BR__FUNCTION_DIAMETER, BR__FUNCTION_CIRCUMFERENCE
} br__function_id;

struct br__work;
struct br__value;

/* A function that an expression may call.  Rows of the shop's functions and of the other functions use different members of
   this struct.  */
typedef struct br__function
{
  const char *name;
  const char *parameters;   /* "wheel_dia, gap": names as help shows them */
  const char *summary;      /* one line for help */
  br__function_id id;

  /* Of the shop.  One letter a parameter.  L: a length or a plain number; all L of a call are brought to one kind, of
     which the result is (for `drill` a plain number counts as inches).  A: degrees or a plain number.  */
  const char *kinds;
  /* One letter a parameter.  +: over zero.  0: zero or more.  a: an angle over 0, up to 360.
     *: any.  */
  const char *needs;
  const br__shop_code *formula;         /* NULL: the next drill, which no formula says */
  const char *rule;         /* the same in words for a student */
  const char *source;       /* where the formula is from */
  br__shop_limit limits[BR__SHOP_LIMITS];


  /* For cautions.  Which value is a gap between moving parts: the number of a parameter from 1 on, BR__SHOP_RESULT, or
     0 for none.  */
  int gap;
  const char *parts;        /* between which it is */
  int curve;                /* 1 where the result is the radius of a curve to saw */

  /* Of other functions.  */
  unsigned least, most;     /* arguments; least over 0 and most 0: any number */
  /* On an error, the offset of the error of W is the index of the bad argument or BR__WHOLE_CALL.  Z is empty
     and no argument; ARGS may be changed.  */
  br_status (*call) (struct br__work *w, struct br__value *z, struct br__value *args, unsigned count,
                     const struct br__function *self);
  int variant;              /* for CALL where several rows have one */
  /* What shapes measure, or NULL.  RATES has a letter an argument: how much the result can change with it.
     - : it does not change; 1: no more than it; a: no more than the arc of that many degrees whose radius is
     the number b of the same shape.  The first is j where a result below zero may jump.  A p at the end: from here on,
     pieces of two shapes, of BR__PIECE_NUMBERS arguments each; it changes no more than with the piece of each shape that
     moves most.  */
  br_status (*measure) (br_real *z, const br_real *const *args, unsigned bits);
  const char *rates;
} br__function;

#define BR__SHOP_RESULT (-1)

extern const br__function br__shop_functions[];
extern const size_t br__shop_function_count;

/* The LENGTH bytes of the name of parameter INDEX.  */
const char *br__shop_parameter (size_t *length, const br__function *function, size_t index);
/* The formula in the language, over the names of the parameters; steps end with `; ` and the last is the result.
   Nothing where there is none.  */
void br__shop_put_formula (br_text *t, const br__function *function);
/* BR_DOMAIN in words where X is not what parameter INDEX needs.  The offset of ERROR is INDEX.  BITS as for
   br_real_sign.  */
br_status br__shop_need (const br__function *function, size_t index, const br_real *x, unsigned bits,
                         br_error *error);
/* "the wheel's diameter" for "wheel_dia": what a parameter is, in words; never NULL.  */
const char *br__shop_parameter_words (const char *name, size_t length);

#endif
