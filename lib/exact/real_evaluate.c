/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_evaluate.c - enclosures of formulas.  The interval of every step contains the true value.  The interval of an operand
   is cut to its known range: not negative for a root, -1..1 for an arc sine.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/memory.h"
#include "exact/number.h"

/* The memory of a step at P bits: the ends of its interval and of those of its operands, and as much again for temporaries.  */
#define ROOM(p) ((size_t) (p) / 8 * 16)

/* Bits beyond the precision asked for, so that the steps inside one node cost the caller less.  */
#define GUARD 8

/* Z += q * sqrt (m) * pi^k.  */
static void
add_term (br__interval_ptr z, const br__term *t)
{
  br__interval value, factor;

  br__interval_init (value, mpfr_get_prec (&z->left));
  br__interval_init (factor, mpfr_get_prec (&z->left));
  br__interval_set_number (factor, &t->m);
  br__interval_root (factor, factor, 2);
  br__interval_set_number (value, &t->q);
  br__interval_mul (value, value, factor);
  if (t->k != 0)
    {
      br__interval_pi (factor);
      br__interval_power (factor, factor, (uint64_t) (t->k < 0 ? -t->k : t->k));
      if (t->k < 0)
        br__interval_div (value, value, factor);
      else
        br__interval_mul (value, value, factor);
    }
  br__interval_add (z, z, value);
  br__interval_clear (factor);
  br__interval_clear (value);
}

static void
apply (br_real_node *node, br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y)
{
  switch (node->op)
    {
    case BR__REAL_SUM:
      br__interval_set_int (z, 0, 0);
      for (size_t i = 0; i < node->size; i++)
        add_term (z, &node->term[i]);
      break;
    case BR__REAL_ADD: br__interval_add (z, x, y); break;
    case BR__REAL_SUB: br__interval_sub (z, x, y); break;
    case BR__REAL_MUL: br__interval_mul (z, x, y); break;
    case BR__REAL_DIV: br__interval_div (z, x, y); break;
    case BR__REAL_ROOT: br__interval_root (z, x, (unsigned long) node->index); break;
    case BR__REAL_RAISE: br__interval_power (z, x, (uint64_t) node->index); break;
    case BR__REAL_SIN: br__interval_sine (z, x, 0); break;
    case BR__REAL_COS: br__interval_sine (z, x, 1); break;
    case BR__REAL_TAN: br__interval_tangent (z, x); break;
    case BR__REAL_ATAN: br__interval_arc_tangent (z, x); break;
    case BR__REAL_ASIN: br__interval_arc_sine (z, x); break;
    }
}

static void
forget_spare (br_real_node *node)
{
  if (node->spare_precision != 0)
    br__interval_clear (node->spare);
  node->spare_precision = 0;
}

static void
forget (br_real_node *node)
{
  forget_spare (node);
  if (node->precision != 0)
    br__interval_clear (node->enclosure);
  node->precision = 0;
}

static void
swap_spare (br_real_node *node)
{
  const mpfr_prec_t precision = node->precision;
  const __mpfi_struct enclosure = *node->enclosure;

  node->precision = node->spare_precision;
  *node->enclosure = *node->spare;
  node->spare_precision = precision;
  *node->spare = enclosure;
}

/* 1 where the enclosure of NODE is one of P bits.  */
static int
is_at (br_real_node *node, mpfr_prec_t p)
{
  if (node->precision != p && node->spare_precision == p)
    swap_spare (node);
  return node->precision == p;
}

/* The enclosure of an operand; ROOM, of precision P, serves for a rational.  */
static br__interval_srcptr
operand (const br_real *x, br__interval_ptr room)
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
  br__interval left, right;
  br_real_node *operands[2] = { node->left.node, node->right.node };

  /* Keep the enclosure at the first precision as the spare: it is needed again most often.  */
  if (node->precision == BR__FIRST_BITS || node->spare_precision == 0)
    swap_spare (node);
  if (node->precision != 0)
    br__interval_clear (node->enclosure);
  br__interval_init (node->enclosure, p + GUARD);
  br__interval_init (left, p + GUARD);
  br__interval_init (right, p + GUARD);
  apply (node, node->enclosure, operand (&node->left, left), operand (&node->right, right));
  node->precision = p;
  br__interval_clear (left);
  br__interval_clear (right);
  for (int i = 0; i < 2; i++)
    if (operands[i] != NULL && operands[i]->count == 1)
      forget (operands[i]);
}

/* 1 where NODE may be worked out with P bits.  A root takes longer with its index, up to that from which MPFR has another way, and
   so does a series.  MPFR ends the program where it finds no memory.  */
static int
may_work (const br_real_node *node, mpfr_prec_t p)
{
  int64_t times = 1;
  switch (node->op)
    {
    case BR__REAL_ROOT: times += (node->index < 100 ? node->index : 100) / 8; break;
    case BR__REAL_TAN: times += 6; break;
    case BR__REAL_SIN: case BR__REAL_COS: case BR__REAL_ATAN: case BR__REAL_ASIN: times += 3; break;
    default: break;
    }
  const size_t work = 2 * (size_t) p * (size_t) times;
  return (p <= BR__FIRST_BITS && work <= BR__SHORT_BITS) || (br__work_on (work) && br__room_for (ROOM (p)));
}

br_status
br__node_evaluate (br_real_node *node, mpfr_prec_t p)
{
  br_real_node **stack = NULL;
  size_t room = 0, depth = 0;
  br_status status = BR_NO_MEMORY;

  if (is_at (node, p))
    return BR_OK;
  if (!br__grow (&stack, &room, 1, sizeof *stack))
    goto out;
  stack[depth++] = node;
  while (depth > 0)
    {
      br_real_node *top = stack[depth - 1], *next = NULL;

      if (is_at (top, p))
        {
          depth--;
          continue;
        }
      if (top->left.node != NULL && !is_at (top->left.node, p))
        next = top->left.node;
      else if (top->right.node != NULL && !is_at (top->right.node, p))
        next = top->right.node;
      if (next == NULL && !may_work (top, p))
        goto out;
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
