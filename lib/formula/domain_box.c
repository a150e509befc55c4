/* SPDX-License-Identifier: LGPL-3.0-or-later
   domain_box.c - a program over a box of sizes: intervals that certainly hold every value that it can
   take there, and every slope.  At a corner (abs, max, min) the slope's interval holds the slopes of
   both sides, which is what the mean value theorem needs there (Clarke 1975; from memory).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/number.h"
#include "formula/program.h"
#include "shop/drill.h"

/* Nothing is known.  */
static void
set_line (mpfi_ptr z)
{
  mpfr_set_inf (&z->left, -1);
  mpfr_set_inf (&z->right, 1);
}

static int
is_zero (mpfi_srcptr x)
{
  return mpfr_zero_p (&x->left) && mpfr_zero_p (&x->right);
}

int
br__interval_sign (mpfi_srcptr x, int weak)
{
  int low = mpfr_sgn (&x->left), high = mpfr_sgn (&x->right);
  if (low == 0 && high == 0)
    return 0;
  if (weak ? low >= 0 : low > 0)
    return 1;
  return (weak ? high <= 0 : high < 0) ? -1 : 2;
}

int
br__interval_bounded (mpfi_srcptr x)
{
  return mpfr_number_p (&x->left) && mpfr_number_p (&x->right);
}

static void
end_set (mpfr_ptr z, const br_number *x, mpfr_rnd_t direction)
{
  mpq_t q;
  mpq_init (q);
  br__number_to_mpq (q, x);
  mpfr_set_q (z, q, direction);
  mpq_clear (q);
}

void
br__interval_set (mpfi_ptr z, const br_number *low, const br_number *high)
{
  end_set (&z->left, low, MPFR_RNDD);
  end_set (&z->right, high, MPFR_RNDU);
}

static br_status
end_get (br_number *z, mpfr_srcptr x)
{
  mpq_t q;
  if (!mpfr_zero_p (x) && (mpfr_get_exp (x) > BR_MAX_BITS || mpfr_get_exp (x) < -BR_MAX_BITS / 2))
    return BR_TOO_BIG;
  mpq_init (q);
  mpfr_get_q (q, x);
  br_status status = br__number_from_mpq (z, q);
  mpq_clear (q);
  return status;
}

br_status
br__interval_get (br_number *low, br_number *high, mpfi_srcptr x)
{
  br_number a = BR_NUMBER_ZERO, b = BR_NUMBER_ZERO;
  br_status status = end_get (&a, &x->left);
  if (status == BR_OK)
    status = end_get (&b, &x->right);
  if (status == BR_OK)
    {
      br_number_swap (low, &a);
      br_number_swap (high, &b);
    }
  br_number_clear (&a);
  br_number_clear (&b);
  return status;
}

/* ---- Operations ---- */

/* Z = X * Y; zero times a line is zero.  */
static void
multiply (mpfi_ptr z, mpfi_srcptr x, mpfi_srcptr y)
{
  if (is_zero (x) || is_zero (y))
    {
      mpfi_set_ui (z, 0);
      return;
    }
  mpfi_mul (z, x, y);
  if (mpfi_nan_p (z))
    set_line (z);
}

/* Z = X / Y.  A Y that only touches zero still bounds the quotient on one side.  */
static void
divide (br__enclosure *e, mpfi_ptr z, mpfi_srcptr x, mpfi_srcptr y)
{
  mpfi_ptr inverse = e->room[0];
  int low = mpfr_sgn (&y->left), high = mpfr_sgn (&y->right);
  if (low > 0 || high < 0)
    {
      mpfi_div (z, x, y);
      if (mpfi_nan_p (z))
        set_line (z);
      return;
    }
  e->partial = 1;
  e->empty |= low == 0 && high == 0;
  set_line (inverse);
  if (low == 0 && high > 0)
    mpfr_ui_div (&inverse->left, 1, &y->right, MPFR_RNDD);
  else if (high == 0 && low < 0)
    mpfr_ui_div (&inverse->right, 1, &y->left, MPFR_RNDU);
  multiply (z, x, inverse);
}

/* Z = the part of X that is not below zero.  */
static void
cut (br__enclosure *e, mpfi_ptr z, mpfi_srcptr x, int strict)
{
  mpfi_set (z, x);
  if (mpfr_sgn (&z->right) < 0 || (strict && mpfr_sgn (&z->right) <= 0))
    {
      e->empty = 1;
      mpfr_set_zero (&z->right, 1);
    }
  e->partial |= mpfr_sgn (&z->left) < 0 || (strict && mpfr_sgn (&z->left) <= 0);
  if (mpfr_sgn (&z->left) < 0)
    mpfr_set_zero (&z->left, 1);
}

/* Z = X to the power N / D.  */
static void
power (br__enclosure *e, mpfi_ptr z, mpfi_srcptr x, int64_t n, int64_t d)
{
  mpfi_ptr base = e->room[1], one = e->room[2];
  unsigned long m = (unsigned long) (n < 0 ? -n : n);
  mpfi_set (base, x);
  if (d > 1)
    {
      cut (e, base, base, 0);
      mpfr_rootn_ui (&base->left, &base->left, (unsigned long) d, MPFR_RNDD);
      mpfr_rootn_ui (&base->right, &base->right, (unsigned long) d, MPFR_RNDU);
    }
  if (m % 2 == 0)
    mpfi_abs (base, base);
  mpfr_pow_ui (&base->left, &base->left, m, MPFR_RNDD);
  mpfr_pow_ui (&base->right, &base->right, m, MPFR_RNDU);
  if (mpfi_nan_p (base))
    set_line (base);
  if (n >= 0)
    mpfi_set (z, base);
  else
    {
      mpfi_set_ui (one, 1);
      divide (e, z, one, base);
    }
}

/* Z = half a turn in radians.  */
static void
half_turn (mpfi_ptr z)
{
  mpfi_const_pi (z);
  mpfi_div_ui (z, z, 180);
}

static void
circle (br__enclosure *e, mpfi_ptr z, mpfi_srcptr x, br__opcode op)
{
  mpfi_ptr unit = e->room[1], angle = e->room[2];
  half_turn (unit);
  if (op == BR__CODE_ATAN)
    {
      mpfi_atan (z, x);
      mpfi_div (z, z, unit);
      return;
    }
  mpfi_mul (angle, x, unit);
  if (mpfr_cmp_si (&angle->left, -1000000000) < 0 || mpfr_cmp_si (&angle->right, 1000000000) > 0)
    {
      set_line (z);
      return;
    }
  if (op == BR__CODE_SIN)
    mpfi_sin (z, angle);
  else if (op == BR__CODE_COS)
    mpfi_cos (z, angle);
  else
    mpfi_tan (z, angle);
  if (mpfi_nan_p (z) || !br__interval_bounded (z))
    {
      set_line (z);
      e->partial = 1;
    }
}

/* The drill for an end of an interval: past the first and the last there is none.  */
static br_status
drill_for (br__enclosure *e, br_number *x, int upper)
{
  br_real real = BR_REAL_ZERO;
  br_number first = { 1, 63 }, last = { 1, 0 };
  br_status status = BR_OK;
  if (br_number_sign (x) <= 0)
    {
      e->partial = 1;
      e->empty |= upper;
      return br_number_set (x, &first);
    }
  if (br_number_cmp (x, &last) > 0)
    {
      e->partial = 1;
      e->empty |= !upper;
      return br_number_set (x, &last);
    }
  status = br_real_set_number (&real, x);
  if (status == BR_OK)
    status = br__drill_up (x, &real, 0, NULL);
  br_real_clear (&real);
  return status;
}

/* Both kinds of step never fall, so that the ends of X give those of Z.  */
static br_status
step (br__enclosure *e, mpfi_ptr z, mpfi_srcptr x, const br__instruction *c)
{
  const br__settings *s = e->program->settings;
  br_number ends[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO };
  if (!br__interval_bounded (x))
    {
      set_line (z);
      e->partial = 1;
      return BR_OK;
    }
  br_status status = br__interval_get (&ends[0], &ends[1], x);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    if (c->op == BR__CODE_DRILL)
      status = drill_for (e, &ends[i], i);
    else
      status = br_ruler_round (&ends[i], NULL, NULL, &ends[i], &c->number, c->direction, s->ties);
  if (status == BR_OK)
    br__interval_set (z, &ends[0], &ends[1]);
  br_number_clear (&ends[0]);
  br_number_clear (&ends[1]);
  return status;
}

static void
extreme (mpfi_ptr z, mpfi_srcptr x, mpfi_srcptr y, br__opcode op)
{
  if (op == BR__CODE_MAX)
    {
      mpfr_max (&z->left, &x->left, &y->left, MPFR_RNDD);
      mpfr_max (&z->right, &x->right, &y->right, MPFR_RNDU);
      return;
    }
  mpfr_min (&z->left, &x->left, &y->left, MPFR_RNDD);
  mpfr_min (&z->right, &x->right, &y->right, MPFR_RNDU);
}

static br_status
work_out (br__enclosure *e, size_t i)
{
  const br__instruction *c = &e->program->code[i];
  mpfi_ptr z = e->values[i], x = e->values[c->left], y = e->values[c->right];
  int64_t n = 0, d = 1;
  br_status status = BR_OK;
  switch (c->op)
    {
    case BR__CODE_CONSTANT: break;      /* set once */
    case BR__CODE_INPUT: mpfi_set (z, e->box[c->left]); break;
    case BR__CODE_ADD: mpfi_add (z, x, y); break;
    case BR__CODE_SUB: mpfi_sub (z, x, y); break;
    case BR__CODE_MUL: multiply (z, x, y); break;
    case BR__CODE_DIV: divide (e, z, x, y); break;
    case BR__CODE_NEG: mpfi_neg (z, x); break;
    case BR__CODE_POWER:
      br_number_get_ratio (&n, &d, &c->number);
      power (e, z, x, n, d);
      break;
    case BR__CODE_ABS: mpfi_abs (z, x); break;
    case BR__CODE_MAX: case BR__CODE_MIN: extreme (z, x, y, c->op); break;
    case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW:
      cut (e, z, x, c->op == BR__CODE_OVER_ZERO);
      break;
    case BR__CODE_MARK: case BR__CODE_DRILL: status = step (e, z, x, c); break;
    default: circle (e, z, x, c->op); break;
    }
  if (mpfi_nan_p (z))
    set_line (z);
  return status;
}

/* ---- Slopes ---- */

/* TO += FACTOR * A.  */
static void
pass (br__enclosure *e, size_t to, mpfi_srcptr a, mpfi_srcptr factor)
{
  mpfi_ptr part = e->room[3], slope = e->slopes[to];
  multiply (part, a, factor);
  mpfi_add (slope, slope, part);
  if (mpfi_nan_p (slope))
    set_line (slope);
}

static void
pass_ends (br__enclosure *e, size_t to, mpfi_srcptr a, long low, long high)
{
  mpfi_interv_si (e->room[1], low, high);
  pass (e, to, a, e->room[1]);
}

/* 1 where X is above Y for certain, -1 where it is below, else 0.  */
static int
order_of (mpfi_srcptr x, mpfi_srcptr y)
{
  if (mpfr_greater_p (&x->left, &y->right))
    return 1;
  return mpfr_less_p (&x->right, &y->left) ? -1 : 0;
}

/* FACTOR (room 0 .. 2 are used on the way) = the slope of a curve of one operand.  */
static void
curve (br__enclosure *e, mpfi_ptr factor, const br__instruction *c, mpfi_srcptr x, mpfi_srcptr v)
{
  int64_t n = 0, d = 1;
  switch (c->op)
    {
    case BR__CODE_POWER:
      br_number_get_ratio (&n, &d, &c->number);
      power (e, factor, x, n - d, d);
      mpfi_mul_si (factor, factor, (long) n);
      mpfi_div_ui (factor, factor, (unsigned long) d);
      return;
    case BR__CODE_SIN:
      circle (e, factor, x, BR__CODE_COS);
      break;
    case BR__CODE_COS:
      circle (e, factor, x, BR__CODE_SIN);
      mpfi_neg (factor, factor);
      break;
    default:
      mpfi_sqr (factor, c->op == BR__CODE_TAN ? v : x);
      mpfi_add_ui (factor, factor, 1);
      if (c->op == BR__CODE_ATAN)
        mpfi_inv (factor, factor);
    }
  half_turn (e->room[1]);
  if (c->op == BR__CODE_ATAN)
    mpfi_div (factor, factor, e->room[1]);
  else
    multiply (factor, factor, e->room[1]);
}

static void
pass_quotient (br__enclosure *e, const br__instruction *c, size_t i)
{
  mpfi_ptr part = e->slopes[i];
  /* The slope of this cell is not needed any more.  */
  divide (e, part, part, e->values[c->right]);
  mpfi_set_ui (e->room[1], 1);
  pass (e, c->left, part, e->room[1]);
  mpfi_neg (part, part);
  pass (e, c->right, part, e->values[i]);
}

static void
hand_on (br__enclosure *e, size_t i)
{
  const br__instruction *c = &e->program->code[i];
  mpfi_ptr a = e->slopes[i], x = e->values[c->left], y = e->values[c->right];
  int order;
  switch (c->op)
    {
    case BR__CODE_CONSTANT: case BR__CODE_INPUT: return;
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
    case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW: pass_ends (e, c->left, a, 1, 1); return;
    case BR__CODE_ABS:
      order = br__interval_sign (x, 0);
      pass_ends (e, c->left, a, order == 1 ? 1 : -1, order == -1 ? -1 : 1);
      return;
    case BR__CODE_MAX: case BR__CODE_MIN:
      order = order_of (x, y) * (c->op == BR__CODE_MAX ? 1 : -1);
      pass_ends (e, c->left, a, order > 0, order >= 0);
      pass_ends (e, c->right, a, order < 0, order <= 0);
      return;
    case BR__CODE_MARK: case BR__CODE_DRILL:
      mpfi_set_ui (e->room[1], 0);
      mpfr_set_inf (&e->room[1]->right, 1);
      pass (e, c->left, a, e->room[1]);
      return;
    default:
      {
        mpfi_t factor;
        mpfi_init2 (factor, BR__BOX_BITS);
        curve (e, factor, c, x, e->values[i]);
        if (mpfi_nan_p (factor))
          set_line (factor);
        pass (e, c->left, a, factor);
        mpfi_clear (factor);
      }
    }
}

/* ---- The whole ---- */

br_status
br__enclose (br__enclosure *e)
{
  br_status status = BR_OK;
  e->empty = e->partial = 0;
  for (size_t i = 0; i < e->program->count && status == BR_OK && !e->empty; i++)
    status = work_out (e, i);
  return status;
}

void
br__enclose_slopes (br__enclosure *e)
{
  int partial = e->partial, empty = e->empty;
  for (size_t i = 0; i < e->program->count; i++)
    mpfi_set_ui (e->slopes[i], i == e->program->root);
  for (size_t i = e->program->root + 1; i-- > 0; )
    if (!is_zero (e->slopes[i]))
      hand_on (e, i);
  e->partial = partial;
  e->empty = empty;
}

mpfi_ptr
br__enclosed_root (br__enclosure *e)
{
  return e->values[e->program->root];
}

mpfi_ptr
br__enclosed_slope (br__enclosure *e, size_t input)
{
  return e->slopes[e->program->input_slots[input]];
}

static br_status
set_constants (br__enclosure *e)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  for (size_t i = 0; i < e->program->count && status == BR_OK; i++)
    if (e->program->code[i].op == BR__CODE_CONSTANT)
      {
        status = br_real_enclose (&low, &high, &e->program->code[i].constant, BR__BOX_BITS);
        if (status == BR_OK)
          br__interval_set (e->values[i], &low, &high);
      }
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

br_status
br__enclosure_new (br__enclosure **e, const br__program *t)
{
  br__enclosure *made = br__alloc_zero (1, sizeof *made);
  if (!made)
    return BR_NO_MEMORY;
  made->program = t;
  made->values = br__alloc (t->count * sizeof (mpfi_t));
  made->slopes = br__alloc (t->count * sizeof (mpfi_t));
  made->box = br__alloc (t->input_count * sizeof (mpfi_t));
  br_status status = made->values && made->slopes && made->box ? BR_OK : BR_NO_MEMORY;
  if (status == BR_OK)
    {
      for (size_t i = 0; i < t->count; i++)
        mpfi_init2 (made->values[i], BR__BOX_BITS), mpfi_init2 (made->slopes[i], BR__BOX_BITS);
      for (size_t i = 0; i < t->input_count; i++)
        mpfi_init2 (made->box[i], BR__BOX_BITS);
      for (size_t i = 0; i < 4; i++)
        mpfi_init2 (made->room[i], BR__BOX_BITS);
      made->made = 1;
      status = set_constants (made);
    }
  if (status == BR_OK)
    *e = made;
  else
    br__enclosure_free (made);
  return status;
}

void
br__enclosure_free (br__enclosure *e)
{
  if (!e)
    return;
  for (size_t i = 0; e->made && i < e->program->count; i++)
    mpfi_clear (e->values[i]), mpfi_clear (e->slopes[i]);
  for (size_t i = 0; e->made && i < e->program->input_count; i++)
    mpfi_clear (e->box[i]);
  for (size_t i = 0; e->made && i < 4; i++)
    mpfi_clear (e->room[i]);
  br__free (e->values);
  br__free (e->slopes);
  br__free (e->box);
  br__free (e);
}
