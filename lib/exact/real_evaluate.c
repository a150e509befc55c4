/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_evaluate.c - MPFI enclosures of formulas.  Every step contains the true value: an end that
   became NaN widens to the whole line, and what is known of an operand (a root's is not negative, an
   arc sine's lies in -1..1) cuts its enclosure.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/memory.h"
#include "exact/number.h"

/* Bits beyond the precision asked for, so that the steps inside one node cost the caller less.  */
#define GUARD 8

static mpfr_ptr
low_of (mpfi_ptr x)
{
  return &x->left;
}

static mpfr_ptr
high_of (mpfi_ptr x)
{
  return &x->right;
}

/* Nothing is known: NaN stands for a value that the step could not bound.  */
static void
widen_nan (mpfi_ptr x)
{
  if (mpfr_nan_p (low_of (x)) || mpfr_nan_p (high_of (x)))
    {
      mpfr_set_inf (low_of (x), -1);
      mpfr_set_inf (high_of (x), 1);
    }
}

/* Z = X to the power of N > 0.  Squares of an interval stay tight around zero.  */
void
br__interval_power (mpfi_ptr z, mpfi_srcptr x, uint64_t n)
{
  mpfi_t base;

  mpfi_init2 (base, mpfi_get_prec (z));
  mpfi_set (base, x);
  mpfi_set_ui (z, 1);
  for (; n > 0; n /= 2)
    {
      if (n % 2 != 0)
        mpfi_mul (z, z, base);
      widen_nan (z);
      if (n > 1)
        mpfi_sqr (base, base);
      widen_nan (base);
    }
  mpfi_clear (base);
}

void
br__interval_set_number (mpfi_ptr z, const br_number *x)
{
  mpq_t q;

  mpq_init (q);
  br__number_to_mpq (q, x);
  mpfi_set_q (z, q);
  mpq_clear (q);
}

/* Z += q * sqrt (m) * pi^k.  */
static void
add_term (mpfi_ptr z, const br__term *t)
{
  mpfi_t value, factor;

  mpfi_init2 (value, mpfi_get_prec (z));
  mpfi_init2 (factor, mpfi_get_prec (z));
  br__interval_set_number (factor, &t->m);
  mpfi_sqrt (factor, factor);
  br__interval_set_number (value, &t->q);
  mpfi_mul (value, value, factor);
  if (t->k != 0)
    {
      mpfi_const_pi (factor);
      br__interval_power (factor, factor, (uint64_t) (t->k < 0 ? -t->k : t->k));
      if (t->k < 0)
        mpfi_div (value, value, factor);
      else
        mpfi_mul (value, value, factor);
    }
  mpfi_add (z, z, value);
  mpfi_clear (factor);
  mpfi_clear (value);
}

void
br__interval_root (mpfi_ptr z, mpfi_srcptr x, unsigned long index)
{
  mpfi_set (z, x);
  if (mpfr_sgn (low_of (z)) < 0)
    mpfr_set_zero (low_of (z), 1);
  mpfr_rootn_ui (low_of (z), low_of (z), index, MPFR_RNDD);
  mpfr_rootn_ui (high_of (z), high_of (z), index, MPFR_RNDU);
}

/* 1 where X is so large that its own last bit is more than a degree.  */
static int
is_coarse (mpfr_srcptr x)
{
  return mpfr_inf_p (x) || (!mpfr_zero_p (x) && mpfr_get_exp (x) > (mpfr_exp_t) mpfr_get_prec (x));
}

/* Sine or cosine of X in degrees.  An angle that is not known to a turn gives -1 .. 1 at once, before
   MPFR would reduce it with as many digits of pi as it is long.  */
void
br__interval_sine (mpfi_ptr z, mpfi_srcptr x, int cosine)
{
  mpfi_t radians;

  if (is_coarse (&x->left) || is_coarse (&x->right))
    {
      mpfr_set_si (low_of (z), -1, MPFR_RNDD);
      mpfr_set_si (high_of (z), 1, MPFR_RNDU);
      return;
    }
  mpfi_init2 (radians, mpfi_get_prec (z));
  mpfi_const_pi (radians);
  mpfi_mul (radians, radians, x);
  mpfi_div_ui (radians, radians, 180);
  if (cosine)
    mpfi_cos (z, radians);
  else
    mpfi_sin (z, radians);
  mpfi_clear (radians);
}

/* The tangent as sine over cosine: a pole inside X gives the whole line by the division.  */
static void
tangent (mpfi_ptr z, mpfi_srcptr x)
{
  mpfi_t below;

  mpfi_init2 (below, mpfi_get_prec (z));
  br__interval_sine (below, x, 1);
  br__interval_sine (z, x, 0);
  mpfi_div (z, z, below);
  mpfi_clear (below);
}

/* Arc sine or arc tangent in degrees.  */
static void
arc (mpfi_ptr z, mpfi_srcptr x, br__real_op op)
{
  mpfi_t pi;

  mpfi_set (z, x);
  if (op == BR__REAL_ASIN)
    {
      if (mpfr_cmp_si (low_of (z), -1) < 0)
        mpfr_set_si (low_of (z), -1, MPFR_RNDD);
      if (mpfr_cmp_si (high_of (z), 1) > 0)
        mpfr_set_si (high_of (z), 1, MPFR_RNDU);
      mpfi_asin (z, z);
    }
  else
    mpfi_atan (z, z);
  mpfi_init2 (pi, mpfi_get_prec (z));
  mpfi_const_pi (pi);
  mpfi_mul_ui (z, z, 180);
  mpfi_div (z, z, pi);
  mpfi_clear (pi);
}

static void
apply (br_real_node *node, mpfi_ptr z, mpfi_srcptr x, mpfi_srcptr y)
{
  switch (node->op)
    {
    case BR__REAL_SUM:
      mpfi_set_ui (z, 0);
      for (size_t i = 0; i < node->size; i++)
        add_term (z, &node->term[i]);
      break;
    case BR__REAL_ADD: mpfi_add (z, x, y); break;
    case BR__REAL_SUB: mpfi_sub (z, x, y); break;
    case BR__REAL_MUL: mpfi_mul (z, x, y); break;
    case BR__REAL_DIV: mpfi_div (z, x, y); break;
    case BR__REAL_ROOT: br__interval_root (z, x, (unsigned long) node->index); break;
    case BR__REAL_RAISE: br__interval_power (z, x, (uint64_t) node->index); break;
    case BR__REAL_SIN: br__interval_sine (z, x, 0); break;
    case BR__REAL_COS: br__interval_sine (z, x, 1); break;
    case BR__REAL_TAN: tangent (z, x); break;
    case BR__REAL_ATAN:
    case BR__REAL_ASIN: arc (z, x, node->op); break;
    }
  widen_nan (z);
}

static void
forget (br_real_node *node)
{
  if (node->precision != 0)
    mpfi_clear (node->enclosure);
  node->precision = 0;
}

/* The enclosure of an operand; ROOM, of precision P, serves for a rational.  */
static mpfi_srcptr
operand (const br_real *x, mpfi_ptr room)
{
  if (x->node != NULL)
    return x->node->enclosure;
  br__interval_set_number (room, &x->rational);
  return room;
}

/* The operands of NODE stand ready.  One that only NODE refers to lets its enclosure go, so that a
   long formula keeps few of them.  */
static void
evaluate (br_real_node *node, mpfr_prec_t p)
{
  mpfi_t left, right;
  br_real_node *operands[2] = { node->left.node, node->right.node };

  forget (node);
  mpfi_init2 (node->enclosure, p + GUARD);
  mpfi_init2 (left, p + GUARD);
  mpfi_init2 (right, p + GUARD);
  apply (node, node->enclosure, operand (&node->left, left), operand (&node->right, right));
  node->precision = p;
  mpfi_clear (left);
  mpfi_clear (right);
  for (int i = 0; i < 2; i++)
    if (operands[i] != NULL && operands[i]->count == 1)
      forget (operands[i]);
}

br_status
br__node_evaluate (br_real_node *node, mpfr_prec_t p)
{
  br_real_node **stack = NULL;
  size_t room = 0, depth = 0;
  br_status status = BR_NO_MEMORY;

  if (node->precision == p)
    return BR_OK;
  if (!br__grow (&stack, &room, 1, sizeof *stack))
    goto out;
  stack[depth++] = node;
  while (depth > 0)
    {
      br_real_node *top = stack[depth - 1], *next = NULL;

      if (top->precision == p)
        {
          depth--;
          continue;
        }
      if (top->left.node != NULL && top->left.node->precision != p)
        next = top->left.node;
      else if (top->right.node != NULL && top->right.node->precision != p)
        next = top->right.node;
      if (next == NULL)
        {
          evaluate (top, p);
          continue;
        }
      if (!br__grow (&stack, &room, depth + 1, sizeof *stack))
        goto out;
      stack[depth++] = next;
    }
  status = BR_OK;
 out:
  br__free (stack);
  return status;
}
