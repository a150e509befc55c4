/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_arithmetic.c - sums, products, quotients, powers and roots of real values: each in the first
   lane that holds the answer.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/number.h"

typedef br_status number_op (br_number *z, const br_number *x, const br_number *y);

/* Z = X^N, N > 0 and X not rational.  */
static br_status power_of (br_real *z, const br_real *x, int64_t n);

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

/* The same, or a formula where the exact lanes can not hold it.  */
static br_status
combine (br_real *z, br__real_op op, const br_real *x, const br_real *y)
{
  br_status status = on_sums (z, op, x, y);

  return status == BR__LEAVE ? br__real_formula (z, op, x, y, 0) : status;
}

br_status
br_real_add (br_real *z, const br_real *x, const br_real *y)
{
  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_add, x, y);
  if (br__real_is_int (x, 0))
    return br_real_set (z, y);
  if (br__real_is_int (y, 0))
    return br_real_set (z, x);
  return combine (z, BR__REAL_ADD, x, y);
}

br_status
br_real_sub (br_real *z, const br_real *x, const br_real *y)
{
  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_sub, x, y);
  if (br__real_is_int (y, 0))
    return br_real_set (z, x);
  if (x->node == y->node)
    return br__real_set_ratio (z, 0, 1);
  return combine (z, BR__REAL_SUB, x, y);
}

br_status
br_real_neg (br_real *z, const br_real *x)
{
  const br_real zero = BR_REAL_ZERO;
  const br_real_node *difference = br__real_formula_of (x, BR__REAL_SUB);

  if (difference != NULL && br__real_is_int (&difference->left, 0))
    return br_real_set (z, &difference->right);
  return br_real_sub (z, &zero, x);
}

br_status
br_real_mul (br_real *z, const br_real *x, const br_real *y)
{
  if (x->node == NULL && y->node == NULL)
    return on_numbers (z, br_number_mul, x, y);
  if (br__real_is_int (x, 1) || br__real_is_int (y, 0))
    return br_real_set (z, y);
  if (br__real_is_int (y, 1) || br__real_is_int (x, 0))
    return br_real_set (z, x);
  if (x->node == y->node && x->node->op != BR__REAL_SUM)
    return power_of (z, x, 2);
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

br_status
br_real_div (br_real *z, const br_real *x, const br_real *y, unsigned bits)
{
  br_real inverse = BR_REAL_ZERO;
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
  if (br__real_is_int (x, 0))
    return br_real_set (z, x);
  if (x->node == y->node)
    return br__real_set_ratio (z, 1, 1);
  status = invert_exact (&inverse, y);
  if (status == BR_OK)
    status = br_real_mul (z, x, &inverse);
  else if (status == BR__LEAVE)
    status = br__real_formula (z, BR__REAL_DIV, x, y, 0);
  br_real_clear (&inverse);
  return status;
}

br_status
br_real_abs (br_real *z, const br_real *x, unsigned bits)
{
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

/* The root of U of index i, to the power N: what i and N share goes out of both.  */
static br_status
power_of_root (br_real *z, const br_real_node *root, int64_t n, int64_t shared)
{
  br_real value = BR_REAL_ZERO;
  br_number rest = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&rest, n / shared);

  if (status == BR_OK)
    status = root->index == shared ? br_real_set (&value, &root->left)
                                   : br__real_root (&value, &root->left,
                                                    (unsigned) (root->index / shared));
  if (status == BR_OK)
    status = br_real_pow (z, &value, &rest, 0);
  br_number_clear (&rest);
  br_real_clear (&value);
  return status;
}

static int64_t
common_divisor (int64_t a, int64_t b)
{
  while (b != 0)
    {
      int64_t rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

static br_status
power_of (br_real *z, const br_real *x, int64_t n)
{
  br__sum s = { .size = 0 };
  br__term room;
  size_t size = 0;
  const br__term *terms = br__terms (&size, x, &room);
  const br_real_node *root = br__real_formula_of (x, BR__REAL_ROOT);
  int64_t shared = root != NULL ? common_divisor (n, root->index) : 1;
  br_status status = BR__LEAVE;

  if (shared > 1)
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
    return power_of (z, x, num);
  status = br__real_set_ratio (&value, 1, 1);
  if (status == BR_OK)
    status = br_real_div (&value, &value, x, bits);
  if (status == BR_OK && num < -1)
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

br_status
br_real_pow (br_real *z, const br_real *x, const br_number *y, unsigned bits)
{
  br_real power = BR_REAL_ZERO;
  br_number num = BR_NUMBER_ZERO, den = BR_NUMBER_ZERO;
  int64_t index = 0, one = 1;
  int sign = 0;
  br_status status;

  if (br_number_is_integer (y))
    return whole_power (z, x, y, bits);
  status = br__number_parts (&num, &den, y);
  if (status != BR_OK)
    goto out;
  status = BR_DOMAIN;
  if (!br_number_get_ratio (&index, &one, &den) || index > BR__ROOT_INDEX)
    goto out;
  status = br_real_sign (&sign, x, bits);
  if (status == BR_OK && (sign < 0 || (sign == 0 && br_number_sign (y) < 0)))
    status = BR_DOMAIN;
  if (status == BR_OK)
    status = whole_power (&power, x, &num, bits);
  if (status == BR_OK)
    status = br__real_root (z, &power, (unsigned) index);
 out:
  br_real_clear (&power);
  br_number_clear (&num);
  br_number_clear (&den);
  return status;
}

br_status
br_real_sqrt (br_real *z, const br_real *x, unsigned bits)
{
  int sign = br_number_sign (&x->rational);
  br_status status = x->node == NULL ? BR_OK : br_real_sign (&sign, x, bits);

  if (status != BR_OK)
    return status;
  return sign < 0 ? BR_DOMAIN : br__real_root (z, x, 2);
}
