/* SPDX-License-Identifier: LGPL-3.0-or-later
   operate.h - the operations of the language.  If the operands are known the result is computed at once; otherwise an
   instruction is added to the program that W compiles.  The caller sets the dimension of Z; Z may
   be an operand.  */
#ifndef BR_FORMULA_OPERATE_H
#define BR_FORMULA_OPERATE_H

#include <string.h>

#include "formula/evaluate.h"

/* What an instruction does with its operands x (LEFT) and y (RIGHT).  */
typedef enum br__opcode
{
  BR__CODE_CONSTANT, BR__CODE_INPUT,
  BR__CODE_ADD, BR__CODE_SUB, BR__CODE_MUL, BR__CODE_DIV, BR__CODE_NEG,
  BR__CODE_POWER,               /* x to the fraction NUMBER */
  BR__CODE_POWER_OF,            /* x to the power y */
  BR__CODE_ABS, BR__CODE_MAX, BR__CODE_MIN,
  BR__CODE_SIN, BR__CODE_COS, BR__CODE_TAN, BR__CODE_ATAN,
  BR__CODE_APART,               /* how far two boxes are apart that are x apart level and y upright */
  BR__CODE_OVER_ZERO, BR__CODE_NOT_BELOW, BR__CODE_RATIONAL,    /* x, which has to be so */
  BR__CODE_MARK, BR__CODE_DRILL,                /* steps: on a ruler's mark; the next drill */
  BR__CODE_SHAPE,               /* what a shape, or two, measure: of all OPERANDS */
  BR__CODE_FITS                 /* a condition on all OPERANDS, which only exact values are held against */
} br__opcode;

typedef struct br__instruction
{
  br__opcode op;
  size_t left, right;           /* earlier instructions; of an input LEFT is its index */
  br_real constant;
  br_number number;             /* exponent of a power, size of a mark */
  br_direction direction;       /* of a mark */
  int linear;                   /* no product of names, no curve */
  const br__function *function; /* BR__CODE_SHAPE */
  size_t *operands;             /* BR__CODE_SHAPE */
  unsigned operand_count;
} br__instruction;

/* Y is NULL for an operation of one operand.  BR_DOMAIN: there is no value.  */
br_status br__operate (br__work *w, br__value *z, br__opcode op, const br__value *x, const br__value *y);
br_status br__operate_power (br__work *w, br__value *z, const br__value *x, const br_number *exponent);
br_status br__operate_mark (br__work *w, br__value *z, const br__value *x, const br_number *size,
                            br_direction direction);

/* Z = the measure SELF of all ARGS.  If SELF has no rates it is a condition: BR_DOMAIN if it does not hold.  */
br_status br__operate_measure (br__work *w, br__value *z, const br__value *args, unsigned count,
                               const br__function *self);

/* The letter of operand K in the rates of the function of C.  */
static inline char
br__rate_of (const br__instruction *c, unsigned k)
{
  size_t known = strlen (c->function->rates);
  return c->function->rates[k < known ? k : known - 1];
}

/* Like br__to_length, br__unify and br__apply, but the values need not be known.  */
br_status br__work_to_length (br__work *w, br__value *v);
br_status br__work_unify (br__work *w, br__value *x, br__value *y);
br_status br__work_apply (br__work *w, br__value *z, const br__node *n, br__value *args);
/* Like br__evaluate, but the values need not be known.  */
br_status br__work_tree (br__work *w, br__value *z, const br__tree *t, const br__names *names);

/* trade.c: the call of a function of the trade.  */
br_status br__call_shop (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
/* Its value, for programs: Z may be one of ARGS.  The offset of ERROR is the index of the argument that is to
   blame.  BR_DOMAIN: no such shape.  BITS as for br_real_sign.  */
br_status br__shop_value (br_real *z, const br__function *shop, const br_real *const *args, unsigned bits,
                          br_error *error);

/* domain_exact.c: Z = what C makes of X and Y.  SKIP_RANGE_CHECKS: BR__CODE_OVER_ZERO and the like let
   everything pass.  */
br_status br__exact_operation (br_real *z, const br__instruction *c, const br_real *x, const br_real *y,
                               const br__settings *s, int skip_range_checks);
/* program.c: appends C, of which the operands are X and, unless NULL, Y; Z gets its slot.  */
br_status br__program_emit (struct br__program *t, br__value *z, const br__instruction *c, const br__value *x,
                            const br__value *y);
/* The slot of X, which a constant gets now.  */
br_status br__program_slot (struct br__program *t, size_t *slot, const br__value *x);

#endif
