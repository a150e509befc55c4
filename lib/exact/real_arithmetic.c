/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_arithmetic.c - sums, products, quotients, powers and roots of real values: each in the first
   lane that can hold the result.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/number.h"

typedef br_status number_op (br_number *z, const br_number *x, const br_number *y);

/* Z = X^N, N > 0 and X not rational.  */
static br_status power_of (br_real *z, const br_real *x, int64_t n);
/* Z = X / Y, Y known not to be 0.  */
static br_status divide (br_real *z, const br_real *x, const br_real *y);

static br_status
on_numbers (br_real *z, number_op *op, const br_real *x, const br_real *y)
{
  br_number value = BR_NUMBER_ZERO;
  br_status status;

  if (z->node == NULL)
    return op (&z->rational, &x->rational, &y->rational);
  status = op (&value, &x->rational, &y->rational);
  if (status == BR_OK)
    br__real_move_number (z, &value);
  return status;
}

/* Z = X + Y, X - Y or X * Y by OP in the exact lanes, or BR__LEAVE.  */
static br_status
on_sums (br_real *z, br__real_op op, const br_real *x, const br_real *y)
{
  br__sum s = { .size = 0 };
  br__term x_room, y_room;
  size_t x_size = 0, y_size = 0;
  const br__term *xt = br__terms (&x_size, x, &x_room), *yt = br__terms (&y_size, y, &y_room);
  br_status status = BR__LEAVE;

  if (xt == NULL || yt == NULL)
    return BR__LEAVE;
  if (op == BR__REAL_MUL)
    status = br__sum_mul (&s, xt, x_size, yt, y_size);
  else
    {
      status = br__sum_add (&s, xt, x_size, 0);
      if (status == BR_OK)
        status = br__sum_add (&s, yt, y_size, op == BR__REAL_SUB);
    }
  if (status == BR_OK)
    status = br__sum_to_real (z, &s);
  br__sum_clear (&s);
  return status;
}

/* The same, or a formula where the exact lanes cannot hold it.  */
static br_status
combine (br_real *z, br__real_op op, const br_real *x, const br_real *y)
{
  br_status status = on_sums (z, op, x, y);

  return status == BR__LEAVE ? br__real_formula (z, op, x, y, 0) : status;
}

/* U where X is the formula 0 - U, else NULL.  Minus signs are carried outwards, so that a value and its
   opposite are known for such.  */
static const br_real *
opposite_of (const br_real *x)
{
  const br_real_node *difference = br__real_formula_of (x, BR__REAL_SUB);

  return difference != NULL && br__real_is_int (&difference->left, 0) ? &difference->right : NULL;
}

br_status
br_real_add (br_real *z, const br_real *x, const br_real *y)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  br_real x_room, y_room;
  x = br__real_seen (&x_room, x);
  y = br__real_seen (&y_room, y);
  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_add, x, y);
  if (br__real_is_int (x, 0))
    return br_real_set (z, y);
  if (br__real_is_int (y, 0))
    return br_real_set (z, x);
  const br_real *x_opposite = opposite_of (x), *y_opposite = opposite_of (y);
  if (y_opposite != NULL)
    return br_real_sub (z, x, y_opposite);
  if (x_opposite != NULL)
    return br_real_sub (z, y, x_opposite);
  return combine (z, BR__REAL_ADD, x, y);
}

br_status
br_real_sub (br_real *z, const br_real *x, const br_real *y)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  br_real x_room, y_room;
  x = br__real_seen (&x_room, x);
  y = br__real_seen (&y_room, y);
  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_sub, x, y);
  if (br__real_is_int (y, 0))
    return br_real_set (z, x);
  if (br__real_same (x, y))
    return br__real_set_ratio (z, 0, 1);
  const br_real *y_opposite = opposite_of (y);
  if (y_opposite != NULL)
    return br_real_add (z, x, y_opposite);
  return combine (z, BR__REAL_SUB, x, y);
}

br_status
br_real_neg (br_real *z, const br_real *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  const br_real zero = BR_REAL_ZERO;

  return br_real_sub (z, &zero, x);
}

/* Z = -(X * Y), or -(X / Y) where Y is known not to be 0.  */
static br_status
negative_of (br_real *z, br__real_op op, const br_real *x, const br_real *y)
{
  br_real value = BR_REAL_ZERO;
  br_status status = op == BR__REAL_MUL ? br_real_mul (&value, x, y) : divide (&value, x, y);

  if (status == BR_OK)
    status = br_real_neg (z, &value);
  br_real_clear (&value);
  return status;
}

/* The node of X if that is a root of a rational of few bits, which roots of one index share.  */
static const br_real_node *
plain_root (const br_real *x, uint64_t bits)
{
  const br_real_node *root = br__real_formula_of (x, BR__REAL_ROOT);

  return root != NULL && root->left.node == NULL
         && br__number_bits (&root->left.rational) <= bits ? root : NULL;
}

/* Z = the product of two roots of one index, as the root of the product.  */
static br_status
mul_plain_roots (br_real *z, const br_real_node *x, const br_real_node *y)
{
  br_real product = BR_REAL_ZERO;
  br_status status = br_real_mul (&product, &x->left, &y->left);

  if (status == BR_OK)
    status = br__real_root (z, &product, (unsigned) x->index);
  br_real_clear (&product);
  return status;
}

br_status
br_real_mul (br_real *z, const br_real *x, const br_real *y)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  br_real x_room, y_room;
  x = br__real_seen (&x_room, x);
  y = br__real_seen (&y_room, y);
  const br_real_node *x_root = plain_root (x, BR__ROOT_BITS), *y_root = plain_root (y, BR__ROOT_BITS);

  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_mul, x, y);
  if (br__real_is_int (x, 1) || br__real_is_int (y, 0))
    return br_real_set (z, y);
  if (br__real_is_int (y, 1) || br__real_is_int (x, 0))
    return br_real_set (z, x);
  if (x_root != NULL && y_root != NULL && x_root->index == y_root->index)
    return mul_plain_roots (z, x_root, y_root);
  if (x->node != NULL && x->node->op != BR__REAL_SUM && br__real_same (x, y))
    return power_of (z, x, 2);
  const br_real *x_opposite = opposite_of (x), *y_opposite = opposite_of (y);
  if (x_opposite != NULL)
    return negative_of (z, BR__REAL_MUL, x_opposite, y);
  if (y_opposite != NULL)
    return negative_of (z, BR__REAL_MUL, x, y_opposite);
  return combine (z, BR__REAL_MUL, x, y);
}

/* Z = 1 / X in the exact lanes, or BR__LEAVE.  X is not 0.  */
static br_status
invert_exact (br_real *z, const br_real *x)
{
  br__sum s = { .size = 0 };
  br__term room;
  size_t size = 0;
  const br__term *terms = br__terms (&size, x, &room);
  br_status status = terms != NULL ? br__sum_invert (&s, terms, size) : BR__LEAVE;

  if (status == BR_OK)
    status = br__sum_to_real (z, &s);
  br__sum_clear (&s);
  return status;
}

static br_status
divide (br_real *z, const br_real *x, const br_real *y)
{
  br_real inverse = BR_REAL_ZERO;
  br_status status;

  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_div, x, y);
  if (br__real_is_int (x, 0))
    return br_real_set (z, x);
  if (br__real_same (x, y))
    return br__real_set_ratio (z, 1, 1);
  const br_real *x_opposite = opposite_of (x), *y_opposite = opposite_of (y);
  if (x_opposite != NULL)
    return negative_of (z, BR__REAL_DIV, x_opposite, y);
  if (y_opposite != NULL)
    return negative_of (z, BR__REAL_DIV, x, y_opposite);
  status = invert_exact (&inverse, y);
  if (status == BR_OK)
    status = br_real_mul (z, x, &inverse);
  else if (status == BR__LEAVE)
    status = br__real_formula (z, BR__REAL_DIV, x, y, 0);
  br_real_clear (&inverse);
  return status;
}

br_status
br_real_div (br_real *z, const br_real *x, const br_real *y, unsigned bits)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  br_real x_room, y_room;
  int sign = 0;
  br_status status;

  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_div, x, y);
  /* An exact sum is not 0, whatever its sign.  */
  if (br__real_formula_of (y, BR__REAL_SUM) == NULL)
    {
      status = br_real_sign (&sign, y, bits);
      if (status != BR_OK)
        return status;
      if (sign == 0)
        return BR_DOMAIN;
    }
  return divide (z, br__real_seen (&x_room, x), br__real_seen (&y_room, y));
}

br_status
br_real_abs (br_real *z, const br_real *x, unsigned bits)
{
  if (!z || !x)
    return BR_DOMAIN;
  int sign = 0;
  br_status status = br_real_sign (&sign, x, bits);

  if (status != BR_OK)
    return status;
  return sign < 0 ? br_real_neg (z, x) : br_real_set (z, x);
}

/* S = T^N, N > 0: sqrt (m)^N is m^(N / 2), times sqrt (m) where N is odd.  */
static br_status
raise_term (br__sum *s, const br__term *t, int64_t n)
{
  br__term z = BR__TERM_ZERO;
  br_number power = BR_NUMBER_ZERO;
  br_status status = br_number_pow (&z.q, &t->q, n);

  if (status == BR_OK)
    status = br_number_pow (&power, &t->m, n / 2);
  if (status == BR_OK)
    status = br_number_mul (&z.q, &z.q, &power);
  if (status == BR_OK)
    status = n % 2 != 0 ? br_number_set (&z.m, &t->m) : br_number_set_int (&z.m, 1);
  z.k = t->k * n;
  if (status == BR_OK)
    status = br__sum_put (s, &z);
  br_number_clear (&power);
  br__term_clear (&z);
  return status;
}

/* Z = X^N by squaring, N > 0, as long as X stays exact; else BR__LEAVE.  */
static br_status
raise_sum (br_real *z, const br_real *x, int64_t n)
{
  br_real base = BR_REAL_ZERO, value = BR_REAL_ZERO;
  br_status status = br__real_set_ratio (&value, 1, 1);

  if (status == BR_OK)
    status = br_real_set (&base, x);
  for (; status == BR_OK; n /= 2)
    {
      if (n % 2 != 0)
        status = on_sums (&value, BR__REAL_MUL, &value, &base);
      if (n < 2)
        break;
      if (status == BR_OK)
        status = on_sums (&base, BR__REAL_MUL, &base, &base);
    }
  if (status == BR_OK)
    br__real_move (z, &value);
  br_real_clear (&base);
  br_real_clear (&value);
  return status;
}

/* The root of U of index i, to the power N: the root of index i / SHARED of U to the power N / SHARED.  */
static br_status
power_of_root (br_real *z, const br_real_node *root, int64_t n, int64_t shared)
{
  br_real value = BR_REAL_ZERO;
  br_number rest = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&rest, n / shared);

  if (status == BR_OK)
    status = br_real_pow (&value, &root->left, &rest, 0);
  if (status == BR_OK)
    status = root->index == shared ? br_real_set (z, &value)
                                   : br__real_root (z, &value, (unsigned) (root->index / shared));
  br_number_clear (&rest);
  br_real_clear (&value);
  return status;
}

static br_status
power_of (br_real *z, const br_real *x, int64_t n)
{
  br__sum s = { .size = 0 };
  br__term room;
  size_t size = 0;
  const br__term *terms = br__terms (&size, x, &room);
  const br_real_node *root = br__real_formula_of (x, BR__REAL_ROOT);
  int64_t shared = root != NULL ? (int64_t) br__gcd (br__magnitude (n), (uint64_t) root->index) : 1;
  br_status status = BR__LEAVE;

  if (root != NULL && (shared > 1 || plain_root (x, (uint64_t) (BR__ROOT_BITS / n)) != NULL))
    return power_of_root (z, root, n, shared);
  if (terms != NULL && size == 1)
    {
      status = raise_term (&s, terms, n);
      if (status == BR_OK)
        status = br__sum_to_real (z, &s);
      br__sum_clear (&s);
    }
  else if (terms != NULL && n <= 2 * BR__TERMS)
    status = raise_sum (z, x, n);
  return status == BR__LEAVE ? br__real_formula (z, BR__REAL_RAISE, x, NULL, n) : status;
}

/* Z = X^N for a whole N.  */
static br_status
whole_power (br_real *z, const br_real *x, const br_number *n, unsigned bits)
{
  br_real value = BR_REAL_ZERO;
  br_number power = BR_NUMBER_ZERO;
  int64_t num = 0, den = 1;
  br_status status;

  if (!br_number_get_ratio (&num, &den, n))
    return BR_TOO_BIG;
  if (num == 0)
    return br__real_set_ratio (z, 1, 1);
  if (x->node == NULL)
    {
      status = br_number_pow (&power, &x->rational, num);
      if (status == BR_OK)
        br__real_move_number (z, &power);
      return status;
    }
  if (num > BR__POWER || num < -BR__POWER)
    return BR_TOO_BIG;
  if (num > 0)
    return num == 1 ? br_real_set (z, x) : power_of (z, x, num);
  status = br__real_set_ratio (&value, 1, 1);
  if (status == BR_OK)
    status = br_real_div (&value, &value, x, bits);
  if (status == BR_OK)
    {
      status = br_number_set_int (&power, -num);
      if (status == BR_OK)
        status = whole_power (&value, &value, &power, bits);
    }
  if (status == BR_OK)
    br__real_move (z, &value);
  br_number_clear (&power);
  br_real_clear (&value);
  return status;
}

/* Z = X^(NUM / INDEX) for X over 0, or for the magnitude of X under 0 and an odd INDEX: its root is real and
   under 0.  */
static br_status
fraction_power (br_real *z, const br_real *x, int sign, const br_number *num, unsigned index, unsigned bits)
{
  br_real power = BR_REAL_ZERO;
  br_number half = BR_NUMBER_ZERO, two = BR_NUMBER_ZERO;
  br_status status = sign < 0 ? br_real_neg (&power, x) : br_real_set (&power, x);

  if (status == BR_OK)
    status = whole_power (&power, &power, num, bits);
  if (status == BR_OK)
    status = br__real_root (&power, &power, index);
  if (status == BR_OK && sign < 0)
    {
      status = br_number_set_int (&two, 2);
      if (status == BR_OK)
        status = br_number_div (&half, num, &two);
      if (status == BR_OK && !br_number_is_integer (&half))
        status = br_real_neg (&power, &power);
    }
  if (status == BR_OK)
    br__real_move (z, &power);
  br_number_clear (&half);
  br_number_clear (&two);
  br_real_clear (&power);
  return status;
}

br_status
br_real_pow (br_real *z, const br_real *x, const br_number *y, unsigned bits)
{
  if (!z || !x || !y)
    return BR_DOMAIN;
  br_number num = BR_NUMBER_ZERO, den = BR_NUMBER_ZERO;
  int64_t index = 0, one = 1;
  int sign = 0;
  br_status status;

  if (br_number_is_integer (y))
    return whole_power (z, x, y, bits);
  status = br__number_parts (&num, &den, y);
  if (status == BR_OK && (!br_number_get_ratio (&index, &one, &den) || index > BR__ROOT_INDEX))
    status = BR_DOMAIN;
  if (status == BR_OK)
    status = br_real_sign (&sign, x, bits);
  if (status == BR_OK && ((sign < 0 && index % 2 == 0) || (sign == 0 && br_number_sign (y) < 0)))
    status = BR_DOMAIN;
  if (status == BR_OK)
    status = fraction_power (z, x, sign, &num, (unsigned) index, bits);
  br_number_clear (&num);
  br_number_clear (&den);
  return status;
}

br_status
br_real_sqrt (br_real *z, const br_real *x, unsigned bits)
{
  if (!z || !x)
    return BR_DOMAIN;
  int sign = br_number_sign (&x->rational);
  br_status status = x->node == NULL ? BR_OK : br_real_sign (&sign, x, bits);

  if (status != BR_OK)
    return status;
  return sign < 0 ? BR_DOMAIN : br__real_root (z, x, 2);
}
