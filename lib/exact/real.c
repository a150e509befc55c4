/* SPDX-License-Identifier: LGPL-3.0-or-later
   real.c - real values: creating, sharing and freeing them.  Formulas may be very deep, so no function here
   is recursive.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/real.h"

#include "exact/memory.h"
#include "exact/number.h"

br_real_node *
br__node_new (br__real_op op, size_t terms)
{
  static const br_real zero = BR_REAL_ZERO;
  br_real_node *node = br__alloc (sizeof *node + terms * sizeof node->term[0]);

  if (node == NULL)
    return NULL;
  node->count = 1;
  node->next = NULL;
  node->op = op;
  node->hash = 0;
  node->index = 0;
  node->left = zero;
  node->right = zero;
  node->precision = 0;
  node->spare_precision = 0;
  memset (node->enclosure, 0, sizeof node->enclosure);
  memset (node->spare, 0, sizeof node->spare);
  node->step = 0;
  node->irrational = op == BR__REAL_SUM;
  node->known = op == BR__REAL_SUM ? BR__NOT_LONG : BR__NOT_ASKED;
  node->refused = 0;
  node->proof_bits = 0;
  node->question = zero.rational;
  node->size = 0;
  return node;
}

void
br__term_clear (br__term *t)
{
  br_number_clear (&t->q);
  br_number_clear (&t->m);
  t->k = 0;
}

/* Lets go of X; a node that nobody refers to any more goes to the front of *DEAD.  */
static void
drop (br_real *x, br_real_node **dead)
{
  br_real_node *node = x->node;

  br_number_clear (&x->rational);
  x->node = NULL;
  if (node != NULL && --node->count == 0)
    {
      node->next = *dead;
      *dead = node;
    }
}

void
br_real_clear (br_real *x)
{
  br_real_node *dead = NULL;

  if (x == NULL)
    return;
  if (x->node == NULL)
    {
      br_number_clear (&x->rational);
      return;
    }
  drop (x, &dead);
  while (dead != NULL)
    {
      br_real_node *node = dead;

      dead = node->next;
      br_number_clear (&node->question);
      drop (&node->left, &dead);
      drop (&node->right, &dead);
      for (size_t i = 0; i < node->size; i++)
        br__term_clear (&node->term[i]);
      if (node->precision != 0)
        br__interval_clear (node->enclosure);
      if (node->spare_precision != 0)
        br__interval_clear (node->spare);
      br__free (node);
    }
}

void
br__real_move (br_real *z, br_real *x)
{
  br_real value = *x;

  x->node = NULL;
  x->rational.num = x->rational.den_minus_1 = 0;
  br_real_clear (z);
  *z = value;
}

void
br__real_move_number (br_real *z, br_number *x)
{
  br_real_clear (z);
  br__number_move (&z->rational, x);
}

br_status
br_real_set (br_real *z, const br_real *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  br_real value = BR_REAL_ZERO;
  br_status status = br_number_set (&value.rational, &x->rational);

  if (status != BR_OK)
    return status;
  value.node = x->node;
  if (value.node != NULL)
    value.node->count++;
  br__real_move (z, &value);
  return BR_OK;
}

br_status
br_real_set_number (br_real *z, const br_number *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  br_number value = BR_NUMBER_ZERO;
  br_status status;

  if (z->node == NULL)
    return br_number_set (&z->rational, x);
  status = br_number_set (&value, x);
  if (status == BR_OK)
    br__real_move_number (z, &value);
  return status;
}

br_status
br__real_set_ratio (br_real *z, int64_t n, int64_t d)
{
  br_number value = BR_NUMBER_ZERO;
  br_status status = br_number_set_ratio (&value, n, d);

  if (status == BR_OK)
    br__real_move_number (z, &value);
  return status;
}

const br_real *
br__real_seen (br_real *room, const br_real *x)
{
  if (x->node == NULL || x->node->known != BR__FRACTION)
    return x;
  *room = (br_real) { x->node->question, NULL };
  return room;
}

int
br__real_is_int (const br_real *x, int64_t n)
{
  int64_t num, den;

  return x->node == NULL && br_number_get_ratio (&num, &den, &x->rational) && num == n && den == 1;
}

const br_real_node *
br__real_formula_of (const br_real *x, br__real_op op)
{
  return x->node != NULL && x->node->op == op ? x->node : NULL;
}

static int
same_terms (const br_real_node *x, const br_real_node *y)
{
  for (size_t i = 0; i < x->size; i++)
    if (x->term[i].k != y->term[i].k || !br_number_equal (&x->term[i].q, &y->term[i].q)
        || !br_number_equal (&x->term[i].m, &y->term[i].m))
      return 0;
  return 1;
}

/* Formulas of one make are compared part by part, with a bound on the work: past it they are not
   known to be the same.  */
#define SAME_PARTS 2048

int
br__real_same (const br_real *x, const br_real *y)
{
  const br_real *waiting[SAME_PARTS + 2][2];
  size_t size = 0;
  int parts = 0;

  waiting[size][0] = x;
  waiting[size++][1] = y;
  while (size > 0)
    {
      const br_real *a = waiting[--size][0], *b = waiting[size][1];
      const br_real_node *s = a->node, *t = b->node;

      if (s == NULL && t == NULL ? br_number_equal (&a->rational, &b->rational) : s == t)
        continue;
      if (parts++ == SAME_PARTS || s == NULL || t == NULL || s->hash != t->hash || s->op != t->op
          || s->index != t->index || s->size != t->size || !same_terms (s, t))
        return 0;
      waiting[size][0] = &s->left;
      waiting[size++][1] = &t->left;
      waiting[size][0] = &s->right;
      waiting[size++][1] = &t->right;
    }
  return 1;
}

static uint64_t
mix (uint64_t hash, uint64_t part)
{
  hash = (hash ^ part) * UINT64_C (0x9e3779b97f4a7c15);
  return hash ^ hash >> 29;
}

static uint64_t
hash_of_number (uint64_t hash, const br_number *x)
{
  int64_t num, den;

  return br_number_get_ratio (&num, &den, x) ? mix (mix (hash, (uint64_t) num), (uint64_t) den) : mix (hash, br__number_bits (x));
}

/* The same for formulas of one make.  */
static uint64_t
hash_of (uint64_t hash, const br_real *x)
{
  if (x->node == NULL)
    return hash_of_number (hash, &x->rational);
  hash = mix (hash, x->node->hash);
  for (size_t i = 0; i < x->node->size; i++)
    hash = hash_of_number (hash_of_number (mix (hash, (uint64_t) x->node->term[i].k), &x->node->term[i].q),
                           &x->node->term[i].m);
  return hash;
}

int
br__same_node (br_real_node *x, br_real_node *y)
{
  const br_real a = { BR_NUMBER_ZERO, x }, b = { BR_NUMBER_ZERO, y };

  return br__real_same (&a, &b);
}

/* A root, sine or tangent of a rational is irrational, because rational results were recognised when they were made.  The
   result of + - * / on a rational and an irrational value is irrational (there are no nodes that multiply by 0 or divide 0).  */
int
br__node_is_irrational (const br_real_node *node)
{
  const br_real *x = &node->left, *y = &node->right;

  switch (node->op)
    {
    case BR__REAL_ROOT: case BR__REAL_SIN: case BR__REAL_TAN:
      return x->node == NULL;
    case BR__REAL_ADD: case BR__REAL_SUB: case BR__REAL_MUL: case BR__REAL_DIV:
      return x->node == NULL ? y->node != NULL && y->node->irrational : y->node == NULL && x->node->irrational;
    default:
      return 0;
    }
}

br_status
br__real_formula (br_real *z, br__real_op op, const br_real *left, const br_real *right, int64_t index)
{
  br_real value = BR_REAL_ZERO;
  br_status status = BR_NO_MEMORY;

  value.node = br__node_new (op, 0);
  if (value.node == NULL)
    goto out;
  value.node->index = index;
  status = br_real_set (&value.node->left, left);
  if (status == BR_OK && right != NULL)
    status = br_real_set (&value.node->right, right);
  if (status == BR_OK)
    value.node->hash = hash_of (hash_of (mix ((uint64_t) op, (uint64_t) index), &value.node->left), &value.node->right);
  if (status == BR_OK)
    {
      value.node->irrational = (char) br__node_is_irrational (value.node);
      br__real_move (z, &value);
    }
 out:
  br_real_clear (&value);
  return status;
}
