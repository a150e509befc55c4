/* SPDX-License-Identifier: LGPL-3.0-or-later
   domain_exact.c - evaluates a program at one point: its value, and all its slopes in one pass from the result
   back to the inputs (reverse-mode differentiation; Griewank and Walther, Evaluating
   Derivatives, 2008; from memory).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/real.h"
#include "formula/program.h"
#include "shop/drill.h"

static br_status
extreme (br_real *z, const br_real *x, const br_real *y, int wanted, unsigned bits)
{
  int order = 0;
  br_status status = br_real_cmp (&order, x, y, bits);
  return status == BR_OK ? br_real_set (z, order * wanted >= 0 ? x : y) : status;
}

/* X, if it is what OP needs.  */
static br_status
needed (br_real *z, const br_real *x, br__opcode op, int skip_range_checks, unsigned bits)
{
  int sign = 1;
  br_status status = BR_OK;
  if (op == BR__CODE_RATIONAL)
    return br_real_rational (x) ? br_real_set (z, x) : BR_DOMAIN;
  if (!skip_range_checks)
    status = br_real_sign (&sign, x, bits);
  if (status != BR_OK)
    return status;
  if (sign < 0 || (sign == 0 && op == BR__CODE_OVER_ZERO))
    return BR_DOMAIN;
  return br_real_set (z, x);
}

static br_status
on_mark (br_real *z, const br_real *x, const br__instruction *c, const br__settings *s)
{
  br_number value = BR_NUMBER_ZERO;
  br_status status;
  if (c->op == BR__CODE_DRILL)
    status = br__drill_up (&value, x, s->bits, NULL);
  else
    status = br_real_round (&value, NULL, x, &c->number, c->direction, s->ties, s->bits);
  if (status == BR_OK)
    status = br_real_set_number (z, &value);
  br_number_clear (&value);
  return status;
}

/* Boxes that overlap neither level nor upright are apart by the corner's slant, else by the larger of the
   two ways, which is below zero where they overlap.  */
static br_status
apart (br_real *z, const br_real *x, const br_real *y, unsigned bits)
{
  br_real a = BR_REAL_ZERO, b = BR_REAL_ZERO;
  int level = 0, upright = 0;
  br_status status = br_real_sign (&level, x, bits);
  if (status == BR_OK)
    status = br_real_sign (&upright, y, bits);
  if (status == BR_OK && (level <= 0 || upright <= 0))
    return extreme (z, x, y, 1, bits);
  if (status == BR_OK)
    status = br_real_mul (&a, x, x);
  if (status == BR_OK)
    status = br_real_mul (&b, y, y);
  if (status == BR_OK)
    status = br_real_add (&a, &a, &b);
  if (status == BR_OK)
    status = br_real_sqrt (z, &a, bits);
  br_real_clear (&a);
  br_real_clear (&b);
  return status;
}

static br_status
power_of (br_real *z, const br_real *x, const br_real *y, unsigned bits)
{
  const br_number *exponent = br_real_rational (y);
  return exponent ? br_real_pow (z, x, exponent, bits) : BR_DOMAIN;
}

br_status
br__exact_operation (br_real *z, const br__instruction *c, const br_real *x, const br_real *y,
                     const br__settings *s, int skip_range_checks)
{
  switch (c->op)
    {
    case BR__CODE_ADD: return br_real_add (z, x, y);
    case BR__CODE_SUB: return br_real_sub (z, x, y);
    case BR__CODE_MUL: return br_real_mul (z, x, y);
    case BR__CODE_DIV: return br_real_div (z, x, y, s->bits);
    case BR__CODE_NEG: return br_real_neg (z, x);
    case BR__CODE_POWER: return br_real_pow (z, x, &c->number, s->bits);
    case BR__CODE_POWER_OF: return power_of (z, x, y, s->bits);
    case BR__CODE_ABS: return br_real_abs (z, x, s->bits);
    case BR__CODE_MAX: return extreme (z, x, y, 1, s->bits);
    case BR__CODE_MIN: return extreme (z, x, y, -1, s->bits);
    case BR__CODE_SIN: return br_real_sin (z, x);
    case BR__CODE_COS: return br_real_cos (z, x);
    case BR__CODE_TAN: return br_real_tan (z, x, s->bits);
    case BR__CODE_ATAN: return br_real_atan (z, x);
    case BR__CODE_APART: return apart (z, x, y, s->bits);
    case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW: case BR__CODE_RATIONAL:
      return needed (z, x, c->op, skip_range_checks, s->bits);
    case BR__CODE_MARK: case BR__CODE_DRILL: return on_mark (z, x, c, s);
    case BR__CODE_CONSTANT: case BR__CODE_INPUT: case BR__CODE_SHAPE: case BR__CODE_FITS: break;
    }
  return BR_DOMAIN;
}

/* Evaluates a measure of shapes, a function of all its operands.  */
static br_status
measure (br_real *z, const br__instruction *c, const br_real *v, const br__settings *s)
{
  const br_real *args[BR__MOST_MEASURED];
  for (unsigned i = 0; i < c->operand_count; i++)
    args[i] = &v[c->operands[i]];
  return c->function->measure (z, args, s->bits);
}

/* The value of C from those before it.  */
static br_status
work_out (br_real *z, const br__instruction *c, const br_real *v, const br_real *inputs, const br__settings *s,
          int skip_range_checks)
{
  switch (c->op)
    {
    case BR__CODE_CONSTANT: return br_real_set (z, &c->constant);
    case BR__CODE_INPUT: return br_real_set (z, &inputs[c->left]);
    case BR__CODE_SHAPE: return measure (z, c, v, s);
    case BR__CODE_FITS: return skip_range_checks ? BR_OK : measure (z, c, v, s);
    default: return br__exact_operation (z, c, &v[c->left], &v[c->right], s, skip_range_checks);
    }
}

void
br__program_values_free (br_real *row, const br__program *t)
{
  for (size_t i = 0; row && i < t->count; i++)
    br_real_clear (&row[i]);
  br__free (row);
}

br_status
br__program_values (br_real **row, const br__program *t, const br_real *inputs, int skip_range_checks)
{
  br_real *v = br__alloc_zero (t->count, sizeof *v);
  br_status status = v ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    status = work_out (&v[i], &t->code[i], v, inputs, t->settings, skip_range_checks);
  if (status == BR_OK)
    *row = v;
  else
    br__program_values_free (v, t);
  return status;
}

br_status
br__program_value (br_real *z, const br__program *t, const br_real *inputs, int skip_range_checks)
{
  br_real *v = NULL;
  br_status status = br__program_values (&v, t, inputs, skip_range_checks);
  if (status == BR_OK)
    {
      br__real_move (z, &v[t->root]);
      br__program_values_free (v, t);
    }
  return status;
}

/* Degrees: 180 / pi, or its inverse.  */
static br_status
turn (br_real *z, int inverse, unsigned bits)
{
  br_real pi = BR_REAL_ZERO, half = BR_REAL_ZERO;
  br_status status = br_real_pi (&pi);
  if (status == BR_OK)
    status = br__real_set_ratio (&half, 180, 1);
  if (status == BR_OK)
    status = inverse ? br_real_div (z, &pi, &half, bits) : br_real_div (z, &half, &pi, bits);
  br_real_clear (&pi);
  br_real_clear (&half);
  return status;
}

/* The slope of an operation of one operand X with the value V.  */
static br_status
slope_of_one (br_real *z, const br__instruction *c, const br_real *x, const br_real *v, unsigned bits)
{
  br_real one = { { 1, 0 }, NULL }, a = BR_REAL_ZERO, b = BR_REAL_ZERO;
  br_number less = BR_NUMBER_ZERO;
  int sign = 0;
  br_status status = BR_OK;
  switch (c->op)
    {
    case BR__CODE_POWER:
      status = br_number_sub (&less, &c->number, &one.rational);
      if (status == BR_OK)
        status = br_real_pow (&a, x, &less, bits);
      if (status == BR_OK)
        status = br_real_set_number (&b, &c->number);
      break;
    case BR__CODE_ABS:
      status = br_real_sign (&sign, x, bits);
      if (status == BR_OK)
        status = sign ? br__real_set_ratio (&a, sign, 1) : BR_DOMAIN;
      if (status == BR_OK)
        status = br_real_set (&b, &one);
      break;
    case BR__CODE_SIN: case BR__CODE_COS:
      status = c->op == BR__CODE_SIN ? br_real_cos (&a, x) : br_real_sin (&a, x);
      if (status == BR_OK && c->op == BR__CODE_COS)
        status = br_real_neg (&a, &a);
      if (status == BR_OK)
        status = turn (&b, 1, bits);
      break;
    case BR__CODE_TAN: case BR__CODE_ATAN:
      status = c->op == BR__CODE_TAN ? br_real_mul (&a, v, v) : br_real_mul (&a, x, x);
      if (status == BR_OK)
        status = br_real_add (&a, &a, &one);
      if (status == BR_OK && c->op == BR__CODE_ATAN)
        status = br_real_div (&a, &one, &a, bits);
      if (status == BR_OK)
        status = turn (&b, c->op == BR__CODE_TAN, bits);
      break;
    default:
      status = BR_DOMAIN;       /* a step has no slope worth the name */
    }
  if (status == BR_OK)
    status = br_real_mul (z, &a, &b);
  br_real_clear (&a);
  br_real_clear (&b);
  br_number_clear (&less);
  return status;
}

/* TO += FACTOR * A, or -= where SIGN is below zero.  FACTOR NULL: one.  */
static br_status
pass (br_real *to, const br_real *a, const br_real *factor, int sign)
{
  br_real part = BR_REAL_ZERO;
  br_status status = factor ? br_real_mul (&part, a, factor) : br_real_set (&part, a);
  if (status == BR_OK)
    status = sign < 0 ? br_real_sub (to, to, &part) : br_real_add (to, to, &part);
  br_real_clear (&part);
  return status;
}

/* 1 / Y to the left, -V / Y to the right.  */
static br_status
pass_quotient (br_real *slopes, const br__instruction *c, const br_real *a, const br_real *y, const br_real *v,
               unsigned bits)
{
  br_real part = BR_REAL_ZERO;
  br_status status = br_real_div (&part, a, y, bits);
  if (status == BR_OK)
    status = pass (&slopes[c->left], &part, NULL, 1);
  if (status == BR_OK)
    status = pass (&slopes[c->right], &part, v, -1);
  br_real_clear (&part);
  return status;
}

/* As for the larger of the two; but if the distance v is diagonal, the slopes are x / v and y / v.  */
static br_status
pass_apart (br_real *slopes, const br__instruction *c, const br_real *a, const br_real *v, size_t i, unsigned bits)
{
  const br_real *x = &v[c->left], *y = &v[c->right];
  br_real factor = BR_REAL_ZERO;
  int level = 0, upright = 0, order = 0;
  br_status status = br_real_sign (&level, x, bits);
  if (status == BR_OK)
    status = br_real_sign (&upright, y, bits);
  if (status == BR_OK && (level <= 0 || upright <= 0))
    {
      status = br_real_cmp (&order, x, y, bits);
      if (status == BR_OK && order == 0)
        status = BR_DOMAIN;
      return status == BR_OK ? pass (&slopes[order > 0 ? c->left : c->right], a, NULL, 1) : status;
    }
  if (status == BR_OK)
    status = br_real_div (&factor, x, &v[i], bits);
  if (status == BR_OK)
    status = pass (&slopes[c->left], a, &factor, 1);
  if (status == BR_OK)
    status = br_real_div (&factor, y, &v[i], bits);
  if (status == BR_OK)
    status = pass (&slopes[c->right], a, &factor, 1);
  br_real_clear (&factor);
  return status;
}

/* Hands the slope of instruction I on to those that it uses.  */
static br_status
hand_on (br_real *slopes, const br__program *t, size_t i, const br_real *v)
{
  const br__instruction *c = &t->code[i];
  const br_real *a = &slopes[i];
  unsigned bits = t->settings->bits;
  br_real factor = BR_REAL_ZERO;
  br_status status;
  int order = 0;
  switch (c->op)
    {
    case BR__CODE_CONSTANT: case BR__CODE_INPUT:
      return BR_OK;
    case BR__CODE_ADD: case BR__CODE_SUB:
      status = pass (&slopes[c->left], a, NULL, 1);
      return status == BR_OK ? pass (&slopes[c->right], a, NULL, c->op == BR__CODE_ADD ? 1 : -1) : status;
    case BR__CODE_MUL:
      status = pass (&slopes[c->left], a, &v[c->right], 1);
      return status == BR_OK ? pass (&slopes[c->right], a, &v[c->left], 1) : status;
    case BR__CODE_DIV:
      return pass_quotient (slopes, c, a, &v[c->right], &v[i], bits);
    case BR__CODE_NEG:
      return pass (&slopes[c->left], a, NULL, -1);
    case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW: case BR__CODE_RATIONAL:
      return pass (&slopes[c->left], a, NULL, 1);
    case BR__CODE_MAX: case BR__CODE_MIN:
      status = br_real_cmp (&order, &v[c->left], &v[c->right], bits);
      if (status == BR_OK && order == 0)
        status = BR_DOMAIN;     /* a corner */
      if (status != BR_OK)
        return status;
      return pass (&slopes[(order > 0) == (c->op == BR__CODE_MAX) ? c->left : c->right], a, NULL, 1);
    case BR__CODE_APART:
      return pass_apart (slopes, c, a, v, i, bits);
    default:
      status = slope_of_one (&factor, c, &v[c->left], &v[i], bits);
      if (status == BR_OK)
        status = pass (&slopes[c->left], a, &factor, 1);
      br_real_clear (&factor);
      return status;
    }
}

br_status
br__program_slopes (br_real *slopes, const br__program *t, const br_real *inputs, int skip_range_checks,
                    int steps_rest)
{
  br_real *v = NULL, *row = br__alloc_zero (t->count, sizeof *row);
  br_status status = row ? br__program_values (&v, t, inputs, skip_range_checks) : BR_NO_MEMORY;
  if (status == BR_OK)
    status = br__real_set_ratio (&row[t->root], 1, 1);
  for (size_t i = t->root + 1; i-- > 0 && status == BR_OK; )
    if (!br__real_is_int (&row[i], 0) && !(steps_rest && (t->code[i].op == BR__CODE_MARK
                                                          || t->code[i].op == BR__CODE_DRILL)))
      status = hand_on (row, t, i, v);
  for (size_t k = 0; k < t->input_count && status == BR_OK; k++)
    br__real_move (&slopes[k], &row[t->input_slots[k]]);
  br__program_values_free (row, t);
  br__program_values_free (v, t);
  return status;
}
