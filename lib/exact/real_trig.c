/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_trig.c - sines, cosines, tangents and their arcs, in degrees.  Multiples of 15 degrees are exact
   sums of roots.  By Niven's theorem (I. Niven, Irrational Numbers, 1956, corollary 3.12) no rational
   number of degrees but multiples of 30 has a rational sine, and none but multiples of 45 a rational
   tangent.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

/* ---- The table ---- */

/* sin (15 i) degrees as a sum of n / d * sqrt (m); n is 0 past its end.  */
static const struct { int8_t n, d, m; } table[7][2] =
{
  { { 0, 1, 1 }, { 0, 1, 1 } },
  { { 1, 4, 6 }, { -1, 4, 2 } },
  { { 1, 2, 1 }, { 0, 1, 1 } },
  { { 1, 2, 2 }, { 0, 1, 1 } },
  { { 1, 2, 3 }, { 0, 1, 1 } },
  { { 1, 4, 6 }, { 1, 4, 2 } },
  { { 1, 1, 1 }, { 0, 1, 1 } }
};

/* Z = sin (15 I), 0 <= I < 24.  */
static br_status
sine_15 (br_real *z, int i)
{
  br__sum s = { .size = 0 };
  int sign = i < 12 ? 1 : -1;
  br_status status = BR_OK;

  i %= 12;
  i = i > 6 ? 12 - i : i;
  for (int j = 0; j < 2 && status == BR_OK; j++)
    {
      br__term t = BR__TERM_ZERO;

      status = br_number_set_ratio (&t.q, sign * table[i][j].n, table[i][j].d);
      if (status == BR_OK)
        status = br_number_set_int (&t.m, table[i][j].m);
      if (status == BR_OK)
        status = br__sum_put (&s, &t);
      br__term_clear (&t);
    }
  if (status == BR_OK)
    status = br__sum_to_real (z, &s);
  br__sum_clear (&s);
  return status;
}

/* Z = tan (15 I), 0 <= I < 24; BR_DOMAIN at 90 and 270 degrees, where the cosine is 0.  */
static br_status
tangent_15 (br_real *z, int i)
{
  br_real sine = BR_REAL_ZERO, cosine = BR_REAL_ZERO;
  br_status status = sine_15 (&sine, i);

  if (status == BR_OK)
    status = sine_15 (&cosine, (i + 6) % 24);
  if (status == BR_OK)
    status = br_real_div (z, &sine, &cosine, 0);
  br_real_clear (&sine);
  br_real_clear (&cosine);
  return status;
}

/* REST = X less its full turns, in [0, 360).  INDEX gets REST / 15 where that is whole, else -1.  */
static br_status
reduce (br_number *rest, int *index, const br_number *x)
{
  br_number turn = BR_NUMBER_ZERO, turns = BR_NUMBER_ZERO, unit = BR_NUMBER_ZERO;
  int64_t num, den;
  br_status status = br_number_set_int (&turn, 360);

  if (status == BR_OK)
    status = br_number_div (&turns, x, &turn);
  if (status == BR_OK)
    status = br_number_floor (&turns, &turns);
  if (status == BR_OK)
    status = br_number_mul (&turns, &turns, &turn);
  if (status == BR_OK)
    status = br_number_sub (rest, x, &turns);
  if (status == BR_OK)
    status = br_number_set_int (&unit, 15);
  if (status == BR_OK)
    status = br_number_div (&unit, rest, &unit);
  *index = -1;
  if (status == BR_OK && br_number_get_ratio (&num, &den, &unit) && den == 1)
    *index = (int) num;
  br_number_clear (&turn);
  br_number_clear (&turns);
  br_number_clear (&unit);
  return status;
}

/* ---- Sine, cosine, tangent ---- */

/* Z = 1 - X^2 or 1 + X^2, under a root.  */
static br_status
other_side (br_real *z, const br_real *x, int minus)
{
  br_real one = BR_REAL_ZERO, square = BR_REAL_ZERO;
  br_status status = br__real_set_ratio (&one, 1, 1);

  if (status == BR_OK)
    status = br_real_mul (&square, x, x);
  if (status == BR_OK)
    status = minus ? br_real_sub (&square, &one, &square) : br_real_add (&square, &one, &square);
  if (status == BR_OK)
    status = br_real_sqrt (z, &square, 0);
  br_real_clear (&one);
  br_real_clear (&square);
  return status;
}

/* The sine, cosine or tangent of an arc, from the right triangle with this angle.  BR__LEAVE if X is not an arc, or
   if it is undecided whether a side is zero.  */
static br_status
of_arc (br_real *z, br__real_op op, const br_real *x)
{
  const br_real_node *sine = br__real_formula_of (x, BR__REAL_ASIN);
  const br_real_node *tangent = br__real_formula_of (x, BR__REAL_ATAN);
  br_real side = BR_REAL_ZERO, one = BR_REAL_ZERO;
  br_status status = BR__LEAVE;

  if ((sine != NULL && op == BR__REAL_SIN) || (tangent != NULL && op == BR__REAL_TAN))
    return br_real_set (z, &(sine != NULL ? sine : tangent)->left);
  if (sine != NULL)
    {
      status = other_side (&side, &sine->left, 1);
      if (status == BR_OK)
        status = op == BR__REAL_COS ? br_real_set (z, &side) : br_real_div (z, &sine->left, &side, 0);
    }
  else if (tangent != NULL)
    {
      status = other_side (&side, &tangent->left, 0);
      if (status == BR_OK)
        status = br__real_set_ratio (&one, 1, 1);
      if (status == BR_OK)
        status = br_real_div (z, op == BR__REAL_COS ? &one : &tangent->left, &side, 0);
    }
  br_real_clear (&side);
  br_real_clear (&one);
  return status;
}

/* BR__DOMAIN where the tangent of X, not a rational, has a pole.  Only a formula can have one: what an
   exact sum holds is not rational, and the poles are.  */
static br_status
check_pole (const br_real *x, unsigned bits)
{
  br_real cosine = BR_REAL_ZERO;
  int sign = 0;
  br_status status;

  if (br__real_formula_of (x, BR__REAL_SUM) != NULL)
    return BR_OK;
  status = br__real_formula (&cosine, BR__REAL_COS, x, NULL, 0);
  if (status == BR_OK)
    status = br_real_sign (&sign, &cosine, bits);
  if (status == BR_OK && sign == 0)
    status = BR_DOMAIN;
  br_real_clear (&cosine);
  return status;
}

/* Z = TURN - X.  */
static br_status
turn_less (br_number *z, int64_t turn, const br_number *x)
{
  br_number whole = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&whole, turn);

  return status == BR_OK ? br_number_sub (z, &whole, x) : status;
}

static int
is_over (const br_number *x, int64_t n)
{
  const br_number whole = { n, 0 };

  return br_number_cmp (x, &whole) > 0;
}

/* Sine or tangent of REST, which is in (0, 360) and no multiple of 90, by that of an angle in (0, 90), so
   that angles with one sine have one formula.  */
static br_status
fold (br_real *z, br__real_op op, br_real *rest)
{
  br_real value = BR_REAL_ZERO;
  br_number *x = &rest->rational;
  int negative = 0;
  br_status status = BR_OK;

  if (is_over (x, 180))
    {
      /* sin (360 - x) = - sin x, and the same for the tangent.  */
      negative = 1;
      status = turn_less (x, 360, x);
    }
  if (status == BR_OK && is_over (x, 90))
    {
      negative ^= op == BR__REAL_TAN;
      status = turn_less (x, 180, x);
    }
  if (status == BR_OK)
    status = br__real_formula (&value, op, rest, NULL, 0);
  if (status == BR_OK)
    status = negative ? br_real_neg (z, &value) : br_real_set (z, &value);
  br_real_clear (&value);
  return status;
}

/* The same for any rational X; OP is not cosine.  */
static br_status
circular_rational (br_real *z, br__real_op op, const br_number *x)
{
  br_real rest = BR_REAL_ZERO;
  int i = -1;
  br_status status = reduce (&rest.rational, &i, x);

  if (status == BR_OK && i < 0)
    status = fold (z, op, &rest);
  else if (status == BR_OK)
    status = op == BR__REAL_TAN ? tangent_15 (z, i) : sine_15 (z, i);
  br_real_clear (&rest);
  return status;
}

static br_status
circular (br_real *z, br__real_op op, const br_real *x, unsigned bits)
{
  br_number across = BR_NUMBER_ZERO;
  br_real seen;
  br_status status = br__real_ask (x, BR__GLANCE, 0);

  if (status != BR_OK)
    return status;
  x = br__real_seen (&seen, x);
  if (x->node == NULL && op != BR__REAL_COS)
    return circular_rational (z, op, &x->rational);
  if (x->node == NULL)
    {
      status = turn_less (&across, 90, &x->rational);
      if (status == BR_OK)
        status = circular_rational (z, BR__REAL_SIN, &across);
      br_number_clear (&across);
      return status;
    }
  status = of_arc (z, op, x);
  if (status != BR__LEAVE)
    return status;
  status = op == BR__REAL_TAN ? check_pole (x, bits) : BR_OK;
  return status == BR_OK ? br__real_formula (z, op, x, NULL, 0) : status;
}

br_status
br_real_sin (br_real *z, const br_real *degrees)
{
  if (!z || !degrees)
    return BR_DOMAIN;
  return circular (z, BR__REAL_SIN, degrees, 0);
}

br_status
br_real_cos (br_real *z, const br_real *degrees)
{
  if (!z || !degrees)
    return BR_DOMAIN;
  return circular (z, BR__REAL_COS, degrees, 0);
}

br_status
br_real_tan (br_real *z, const br_real *degrees, unsigned bits)
{
  if (!z || !degrees)
    return BR_DOMAIN;
  return circular (z, BR__REAL_TAN, degrees, bits);
}

/* ---- Arcs ---- */

/* Z = 15 times the I in -6..6 whose sine or tangent X is; BR__LEAVE where there is none.  Only exact
   values of two terms at most are compared, and those are decided without bits.  */
static br_status
find_arc (br_real *z, br__real_op op, const br_real *x)
{
  br_real value = BR_REAL_ZERO;
  br__term room;
  size_t size = 0;
  br_status status = BR_OK;

  if (br__terms (&size, x, &room) == NULL || size > 2)
    return BR__LEAVE;
  for (int i = op == BR__REAL_ASIN ? -6 : -5; i <= (op == BR__REAL_ASIN ? 6 : 5) && status == BR_OK; i++)
    {
      status = op == BR__REAL_ASIN ? sine_15 (&value, (i + 24) % 24) : tangent_15 (&value, (i + 24) % 24);
      if (status == BR_OK)
        status = br_real_sub (&value, &value, x);
      if (status == BR_OK && br__real_is_int (&value, 0))
        {
          status = br__real_set_ratio (z, 15 * i, 1);
          goto out;
        }
    }
  if (status == BR_OK)
    status = BR__LEAVE;
 out:
  br_real_clear (&value);
  return status;
}

static br_status
arc (br_real *z, br__real_op op, const br_real *x)
{
  br_real seen;
  br_status status = br__real_ask (x, BR__GLANCE, 0);

  if (status != BR_OK)
    return status;
  x = br__real_seen (&seen, x);
  status = find_arc (z, op, x);
  return status == BR__LEAVE ? br__real_formula (z, op, x, NULL, 0) : status;
}

br_status
br_real_atan (br_real *z, const br_real *x)
{
  if (!z || !x)
    return BR_DOMAIN;
  return arc (z, BR__REAL_ATAN, x);
}

br_status
br_real_asin (br_real *z, const br_real *x, unsigned bits)
{
  if (!z || !x)
    return BR_DOMAIN;
  br_real limit = BR_REAL_ZERO;
  int low = 0, high = 0;
  br_status status = br__real_set_ratio (&limit, -1, 1);

  if (status == BR_OK)
    status = br_real_cmp (&low, x, &limit, bits);
  if (status == BR_OK)
    status = br__real_set_ratio (&limit, 1, 1);
  if (status == BR_OK)
    status = br_real_cmp (&high, x, &limit, bits);
  if (status == BR_OK)
    status = low < 0 || high > 0 ? BR_DOMAIN : arc (z, BR__REAL_ASIN, x);
  br_real_clear (&limit);
  return status;
}
