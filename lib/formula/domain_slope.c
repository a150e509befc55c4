/* SPDX-License-Identifier: LGPL-3.0-or-later
   domain_slope.c - the slopes of a program over a box of sizes: intervals that certainly contain every slope there.
   At a corner inside the box (abs, max, min) the interval holds the slopes of both sides, which is what the mean value
   theorem needs there (Clarke 1975; from memory).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "formula/domain_box.h"

/* TO += FACTOR * A.  */
static void
pass (br__enclosure *e, size_t to, br__interval_srcptr a, br__interval_srcptr factor)
{
  br__interval_ptr part = e->room[3], slope = e->slopes[to];
  br__interval_mul (part, a, factor);
  br__interval_add (slope, slope, part);
}

static void
pass_ends (br__enclosure *e, size_t to, br__interval_srcptr a, long low, long high)
{
  br__interval_set_int (e->room[1], low, high);
  pass (e, to, a, e->room[1]);
}

/* 1 where X is never below Y, -1 where it is never above, else 0.  Where they only touch, the larger is still
   the one over the whole box.  */
static int
order_of (br__interval_srcptr x, br__interval_srcptr y)
{
  if (mpfr_greaterequal_p (&x->left, &y->right))
    return 1;
  return mpfr_lessequal_p (&x->right, &y->left) ? -1 : 0;
}

/* FACTOR (room 0 .. 2 are used on the way) = the slope of a curve of one operand.  */
static void
curve (br__enclosure *e, br__interval_ptr factor, const br__instruction *c, br__interval_srcptr x, br__interval_srcptr v)
{
  int64_t n = 0, d = 1;
  switch (c->op)
    {
    case BR__CODE_POWER:
      br_number_get_ratio (&n, &d, &c->number);
      /* A machine may have longs of 32 bits.  */
      if (n != (long) n || d != (long) d)
        {
          br__interval_line (factor);
          return;
        }
      br__box_power (e, factor, x, n - d, d);
      br__interval_scale (factor, factor, (long) n, (unsigned long) d);
      return;
    case BR__CODE_SIN:
      br__box_circle (e, factor, x, BR__CODE_COS);
      break;
    case BR__CODE_COS:
      br__box_circle (e, factor, x, BR__CODE_SIN);
      br__interval_neg (factor, factor);
      break;
    default:
      br__interval_sqr (factor, c->op == BR__CODE_TAN ? v : x);
      br__interval_set_int (e->room[1], 1, 1);
      br__interval_add (factor, factor, e->room[1]);
      if (c->op == BR__CODE_ATAN)
        br__interval_div (factor, e->room[1], factor);
    }
  br__interval_half_turn (e->room[1]);
  if (c->op == BR__CODE_ATAN)
    br__interval_div (factor, factor, e->room[1]);
  else
    br__interval_mul (factor, factor, e->room[1]);
}

static void
pass_quotient (br__enclosure *e, const br__instruction *c, size_t i)
{
  br__interval_ptr part = e->slopes[i];
  /* The slope of this instruction is not needed any more.  */
  br__box_divide (e, part, part, e->values[c->right]);
  br__interval_set_int (e->room[1], 1, 1);
  pass (e, c->left, part, e->room[1]);
  br__interval_neg (part, part);
  pass (e, c->right, part, e->values[i]);
}

/* y x^(y - 1) = y v / x to the left, v log x to the right.  */
static void
pass_power_of (br__enclosure *e, const br__instruction *c, size_t i)
{
  br__interval_ptr x = e->values[c->left], y = e->values[c->right], v = e->values[i];
  br__interval factor;
  br__interval_init (factor, BR__BOX_BITS);
  if (mpfr_sgn (&x->left) <= 0)
    br__interval_line (factor);
  else
    {
      br__interval_mul (factor, y, v);
      br__box_divide (e, factor, factor, x);
    }
  pass (e, c->left, e->slopes[i], factor);
  if (mpfr_sgn (&x->left) <= 0)
    br__interval_line (factor);
  else
    {
      br__interval_log (factor, x);
      br__interval_mul (factor, factor, v);
    }
  pass (e, c->right, e->slopes[i], factor);
  br__interval_clear (factor);
}

/* On a slant x / v and y / v; elsewhere the larger way counts alone.  */
static void
pass_apart (br__enclosure *e, const br__instruction *c, size_t i)
{
  br__interval_ptr x = e->values[c->left], y = e->values[c->right], a = e->slopes[i];
  br__interval factor;
  if (mpfr_sgn (&x->left) > 0 && mpfr_sgn (&y->left) > 0)
    {
      br__interval_init (factor, BR__BOX_BITS);
      br__box_divide (e, factor, x, e->values[i]);
      pass (e, c->left, a, factor);
      br__box_divide (e, factor, y, e->values[i]);
      pass (e, c->right, a, factor);
      br__interval_clear (factor);
      return;
    }
  int level = mpfr_sgn (&y->right) <= 0 && order_of (x, y) > 0;
  int upright = mpfr_sgn (&x->right) <= 0 && order_of (x, y) < 0;
  pass_ends (e, c->left, a, level, !upright);
  pass_ends (e, c->right, a, upright, !level);
}

/* If it is certainly a distance (or a reach), not an overlap, each slope is at most the rate of its operand.  */
static void
pass_measure (br__enclosure *e, const br__instruction *c, size_t i)
{
  int known = br__interval_bounded (e->values[i]);
  for (unsigned k = 0; k < c->operand_count; k++)
    {
      br__interval_ptr factor = e->room[1];
      if (br__rate_of (c, k) == '-' || br__rate_of (c, k) == 'j')
        continue;
      br__interval_set_int (factor, -1, 1);
      if (!known || br__rate_of (c, k) == 'a')
        br__interval_line (factor);
      pass (e, c->operands[k], e->slopes[i], factor);
    }
}

static void
hand_on (br__enclosure *e, size_t i)
{
  const br__instruction *c = &e->program->code[i];
  br__interval_ptr a = e->slopes[i], x = e->values[c->left], y = e->values[c->right];
  int order;
  switch (c->op)
    {
    case BR__CODE_CONSTANT: case BR__CODE_INPUT: case BR__CODE_FITS: return;
    case BR__CODE_ADD: case BR__CODE_SUB:
      pass_ends (e, c->left, a, 1, 1);
      order = c->op == BR__CODE_ADD ? 1 : -1;
      pass_ends (e, c->right, a, order, order);
      return;
    case BR__CODE_MUL:
      pass (e, c->left, a, y);
      pass (e, c->right, a, x);
      return;
    case BR__CODE_DIV: pass_quotient (e, c, i); return;
    case BR__CODE_NEG: pass_ends (e, c->left, a, -1, -1); return;
    case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW: case BR__CODE_RATIONAL:
      pass_ends (e, c->left, a, 1, 1);
      return;
    case BR__CODE_POWER_OF: pass_power_of (e, c, i); return;
    case BR__CODE_APART: pass_apart (e, c, i); return;
    case BR__CODE_SHAPE: pass_measure (e, c, i); return;
    case BR__CODE_ABS:
      order = br__interval_sign (x, 1);
      pass_ends (e, c->left, a, order == 1 ? 1 : -1, order == -1 ? -1 : 1);
      return;
    case BR__CODE_MAX: case BR__CODE_MIN:
      order = order_of (x, y) * (c->op == BR__CODE_MAX ? 1 : -1);
      pass_ends (e, c->left, a, order > 0, order >= 0);
      pass_ends (e, c->right, a, order < 0, order <= 0);
      return;
    case BR__CODE_MARK: case BR__CODE_DRILL:
      if (!e->jumps[i])
        return;                 /* no jump here */
      br__interval_set_int (e->room[1], 0, 0);
      mpfr_set_inf (&e->room[1]->right, 1);
      pass (e, c->left, a, e->room[1]);
      return;
    default:
      {
        br__interval factor;
        br__interval_init (factor, BR__BOX_BITS);
        curve (e, factor, c, x, e->values[i]);
        pass (e, c->left, a, factor);
        br__interval_clear (factor);
      }
    }
}

void
br__enclose_slopes (br__enclosure *e)
{
  int partial = e->partial, empty = e->empty;
  for (size_t i = 0; i < e->program->count; i++)
    br__interval_set_int (e->slopes[i], i == e->program->root, i == e->program->root);
  for (size_t i = e->program->root + 1; i-- > 0; )
    if (!br__interval_is_zero (e->slopes[i]))
      hand_on (e, i);
  e->partial = partial;
  e->empty = empty;
}
