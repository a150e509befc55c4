/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_sum.c - exact sums of terms q * sqrt (m) * pi^k.  Roots of distinct classes are independent
   over the rationals and pi is transcendental, so a sum is zero only when it is empty.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/real.h"

#include "exact/number.h"

void
br__sum_clear (br__sum *s)
{
  while (s->size > 0)
    br__term_clear (&s->term[--s->size]);
}

const br__term *
br__terms (size_t *size, const br_real *x, br__term *room)
{
  static const br__term one = { BR_NUMBER_ZERO, { 1, 0 }, 0 };

  if (x->node == NULL)
    {
      *room = one;
      room->q = x->rational;
      *size = br_number_sign (&x->rational) != 0;
      return room;
    }
  *size = x->node->size;
  return x->node->op == BR__REAL_SUM ? x->node->term : NULL;
}

static int
is_one (const br_number *x)
{
  return x->num == 1 && x->den_minus_1 == 0;
}

/* Takes a whole root out of M; says by BR__LEAVE where T is past the limits of the lane.  */
static br_status
normalise (br__term *t)
{
  br_number root = BR_NUMBER_ZERO;
  int exact = 0;
  br_status status = BR_OK;

  if (t->k > BR__PI_POWER || t->k < -BR__PI_POWER || br__number_bits (&t->m) > BR__ROOT_BITS)
    return BR__LEAVE;
  if (is_one (&t->m))
    return BR_OK;
  status = br__number_root (&root, &exact, &t->m, 2);
  if (status == BR_OK && exact)
    {
      status = br_number_mul (&t->q, &t->q, &root);
      if (status == BR_OK)
        status = br_number_set_int (&t->m, 1);
    }
  br_number_clear (&root);
  return status;
}

/* SAME gets 1 and RATIO sqrt (b) / sqrt (a) = sqrt (ab) / a where that is rational, else 0.  */
static br_status
same_class (br_number *ratio, int *same, const br__term *a, const br__term *b)
{
  br_number product = BR_NUMBER_ZERO;
  br_status status;

  *same = 0;
  if (a->k != b->k || is_one (&a->m) != is_one (&b->m))
    return BR_OK;
  if (br_number_equal (&a->m, &b->m))
    {
      *same = 1;
      return br_number_set_int (ratio, 1);
    }
  status = br_number_mul (&product, &a->m, &b->m);
  if (status == BR_OK)
    status = br__number_root (&product, same, &product, 2);
  if (status == BR_OK && *same)
    status = br_number_div (ratio, &product, &a->m);
  br_number_clear (&product);
  return status;
}

/* Adds T to the term I of S, to which it bears RATIO; a term that becomes 0 goes.  */
static br_status
merge (br__sum *s, size_t i, const br__term *t, const br_number *ratio)
{
  br_number part = BR_NUMBER_ZERO;
  br_status status = br_number_mul (&part, &t->q, ratio);

  if (status == BR_OK)
    status = br_number_add (&s->term[i].q, &s->term[i].q, &part);
  br_number_clear (&part);
  if (status == BR_OK && br_number_sign (&s->term[i].q) == 0)
    {
      br__term_clear (&s->term[i]);
      s->size--;
      memmove (&s->term[i], &s->term[i + 1], (s->size - i) * sizeof s->term[0]);
    }
  return status;
}

br_status
br__sum_put (br__sum *s, br__term *t)
{
  static const br__term zero = BR__TERM_ZERO;
  br_number ratio = BR_NUMBER_ZERO;
  br_status status = normalise (t);

  if (status != BR_OK || br_number_sign (&t->q) == 0)
    goto out;
  for (size_t i = 0; i < s->size; i++)
    {
      int same = 0;

      status = same_class (&ratio, &same, &s->term[i], t);
      if (status == BR_OK && same)
        status = merge (s, i, t, &ratio);
      if (status != BR_OK || same)
        goto out;
    }
  status = BR__LEAVE;
  if (s->size == BR__TERMS)
    goto out;
  s->term[s->size++] = *t;
  *t = zero;
  status = BR_OK;
 out:
  br_number_clear (&ratio);
  br__term_clear (t);
  return status;
}

br_status
br__sum_add (br__sum *s, const br__term *t, size_t size, int negate)
{
  br_status status = BR_OK;

  for (size_t i = 0; i < size && status == BR_OK; i++)
    {
      br__term term = BR__TERM_ZERO;

      term.k = t[i].k;
      status = negate ? br_number_neg (&term.q, &t[i].q) : br_number_set (&term.q, &t[i].q);
      if (status == BR_OK)
        status = br_number_set (&term.m, &t[i].m);
      if (status == BR_OK)
        status = br__sum_put (s, &term);
      br__term_clear (&term);
    }
  return status;
}

/* Q * sqrt (M) = sqrt (X) * sqrt (Y), the common factor g taken out: x / y in lowest terms has
   x / g over y / g, and g is what x was divided by.  */
static br_status
mul_roots (br_number *q, br_number *m, const br_number *x, const br_number *y)
{
  br_number ratio = BR_NUMBER_ZERO, num = BR_NUMBER_ZERO, den = BR_NUMBER_ZERO;
  br_status status;

  if (is_one (x) || is_one (y))
    {
      status = br_number_set_int (q, 1);
      return status == BR_OK ? br_number_set (m, is_one (x) ? y : x) : status;
    }
  status = br_number_div (&ratio, x, y);
  if (status == BR_OK)
    status = br__number_parts (&num, &den, &ratio);
  if (status == BR_OK)
    status = br_number_mul (m, &num, &den);
  if (status == BR_OK)
    status = br_number_div (q, x, &num);
  br_number_clear (&den);
  br_number_clear (&num);
  br_number_clear (&ratio);
  return status;
}

static br_status
mul_terms (br__term *z, const br__term *x, const br__term *y)
{
  br_status status = mul_roots (&z->q, &z->m, &x->m, &y->m);

  if (status == BR_OK)
    status = br_number_mul (&z->q, &z->q, &x->q);
  if (status == BR_OK)
    status = br_number_mul (&z->q, &z->q, &y->q);
  z->k = x->k + y->k;
  return status;
}

br_status
br__sum_mul (br__sum *s, const br__term *x, size_t x_size, const br__term *y, size_t y_size)
{
  br_status status = BR_OK;

  for (size_t i = 0; i < x_size && status == BR_OK; i++)
    for (size_t j = 0; j < y_size && status == BR_OK; j++)
      {
        br__term t = BR__TERM_ZERO;

        status = mul_terms (&t, &x[i], &y[j]);
        if (status == BR_OK)
          status = br__sum_put (s, &t);
        br__term_clear (&t);
      }
  return status;
}

br_status
br__term_square (br_number *square, const br__term *t)
{
  br_number value = BR_NUMBER_ZERO;
  br_status status = br_number_mul (&value, &t->q, &t->q);

  if (status == BR_OK)
    status = br_number_mul (square, &value, &t->m);
  br_number_clear (&value);
  return status;
}

/* S = 1 / T = 1 / (q m) * sqrt (m) * pi^-k.  */
static br_status
invert_term (br__sum *s, const br__term *t)
{
  br__term z = BR__TERM_ZERO;
  br_number product = BR_NUMBER_ZERO;
  br_status status = br_number_mul (&product, &t->q, &t->m);

  if (status == BR_OK)
    status = br_number_set_int (&z.q, 1);
  if (status == BR_OK)
    status = br_number_div (&z.q, &z.q, &product);
  if (status == BR_OK)
    status = br_number_set (&z.m, &t->m);
  z.k = -t->k;
  if (status == BR_OK)
    status = br__sum_put (s, &z);
  br__term_clear (&z);
  br_number_clear (&product);
  return status;
}

/* 1 / (a + b) = (a - b) / (a^2 - b^2); the divisor is q * pi^2k and not 0, as a and b are of two
   classes.  */
static br_status
invert_pair (br__sum *s, const br__term *x)
{
  br__sum conjugate = { .size = 0 }, inverse = { .size = 0 };
  br__term divisor = BR__TERM_ZERO;
  br_number square = BR_NUMBER_ZERO;
  br_status status = br__term_square (&divisor.q, &x[0]);

  if (status == BR_OK)
    status = br__term_square (&square, &x[1]);
  if (status == BR_OK)
    status = br_number_sub (&divisor.q, &divisor.q, &square);
  if (status == BR_OK)
    status = br_number_set_int (&divisor.m, 1);
  divisor.k = 2 * x->k;
  if (status == BR_OK)
    status = invert_term (&inverse, &divisor);
  if (status == BR_OK)
    status = br__sum_add (&conjugate, &x[0], 1, 0);
  if (status == BR_OK)
    status = br__sum_add (&conjugate, &x[1], 1, 1);
  if (status == BR_OK)
    status = br__sum_mul (s, conjugate.term, conjugate.size, inverse.term, inverse.size);
  br__term_clear (&divisor);
  br_number_clear (&square);
  br__sum_clear (&conjugate);
  br__sum_clear (&inverse);
  return status;
}

br_status
br__sum_invert (br__sum *s, const br__term *x, size_t size)
{
  if (size == 1)
    return invert_term (s, x);
  return size == 2 && x[0].k == x[1].k ? invert_pair (s, x) : BR__LEAVE;
}

br_status
br__sum_to_real (br_real *z, br__sum *s)
{
  br_real value = BR_REAL_ZERO;

  if (s->size == 0 || (s->size == 1 && s->term[0].k == 0 && is_one (&s->term[0].m)))
    {
      if (s->size == 1)
        br__number_move (&value.rational, &s->term[0].q);
      br__sum_clear (s);
    }
  else
    {
      value.node = br__node_new (BR__REAL_SUM, s->size);
      if (value.node == NULL)
        return BR_NO_MEMORY;
      value.node->size = s->size;
      memcpy (value.node->term, s->term, s->size * sizeof s->term[0]);
      s->size = 0;
    }
  br__real_move (z, &value);
  return BR_OK;
}

br_status
br_real_pi (br_real *z)
{
  if (!z)
    return BR_DOMAIN;
  br__sum s = { .size = 0 };
  br__term t = BR__TERM_ZERO;
  br_status status = br_number_set_int (&t.q, 1);

  if (status == BR_OK)
    status = br_number_set_int (&t.m, 1);
  t.k = 1;
  if (status == BR_OK)
    status = br__sum_put (&s, &t);
  if (status == BR_OK)
    status = br__sum_to_real (z, &s);
  br__term_clear (&t);
  br__sum_clear (&s);
  return status;
}
