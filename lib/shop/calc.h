/* SPDX-License-Identifier: LGPL-3.0-or-later
   calc.h - short calculations on real values: a few values in hand and the first status
   that was not BR_OK, after which nothing more is done, so that a formula reads as one.  */
#ifndef BR_SHOP_CALC_H
#define BR_SHOP_CALC_H

#include "benchrule.h"

typedef struct br__calc
{
  br_real a, b, c;
  unsigned bits;        /* as for br_real_sign */
  br_status status;
} br__calc;

#define BR__CALC(BITS) \
  { BR_REAL_ZERO, BR_REAL_ZERO, BR_REAL_ZERO, (BITS), BR_OK }

/* A constant N that needs no memory and no clearing.  */
#define BR__WHOLE(N) { { (N), 0 }, NULL }

/* Z = X and Y by OPERATION, one of those that never ask for a sign.  */
static inline void
calc_by (br__calc *c, br_status (*operation) (br_real *, const br_real *, const br_real *),
         br_real *z, const br_real *x, const br_real *y)
{
  if (c->status == BR_OK)
    c->status = operation (z, x, y);
}

static inline void
calc_add (br__calc *c, br_real *z, const br_real *x, const br_real *y)
{
  calc_by (c, br_real_add, z, x, y);
}

static inline void
calc_sub (br__calc *c, br_real *z, const br_real *x, const br_real *y)
{
  calc_by (c, br_real_sub, z, x, y);
}

static inline void
calc_mul (br__calc *c, br_real *z, const br_real *x, const br_real *y)
{
  calc_by (c, br_real_mul, z, x, y);
}

/* 0 also after a status that is not BR_OK.  */
static inline int
calc_order (br__calc *c, const br_real *x, const br_real *y)
{
  int order = 0;

  if (c->status == BR_OK)
    c->status = br_real_cmp (&order, x, y, c->bits);
  return order;
}

static inline void
calc_clear (br__calc *c)
{
  br_real_clear (&c->a);
  br_real_clear (&c->b);
  br_real_clear (&c->c);
}

/* ORDER gets -1, 0, 1 for X against NUM / DEN.  */
static inline br_status
calc_against (int *order, const br_real *x, int64_t num, int64_t den, unsigned bits)
{
  br_real ratio = BR_REAL_ZERO;
  br_status status = br_number_set_ratio (&ratio.rational, num, den);

  if (status == BR_OK)
    status = br_real_cmp (order, x, &ratio, bits);
  br_real_clear (&ratio);
  return status;
}

/* The truth of an answer that came with STATUS; UNDECIDED is no fault here and becomes OK.  */
static inline br_truth
calc_truth (br_status *status, int yes)
{
  if (*status == BR_OK)
    return yes ? BR_YES : BR_NO;
  if (*status == BR_UNDECIDED)
    *status = BR_OK;
  return BR_UNKNOWN;
}

static inline br_truth
truth_both (br_truth x, br_truth y)
{
  if (x == BR_NO || y == BR_NO)
    return BR_NO;
  return x == BR_YES && y == BR_YES ? BR_YES : BR_UNKNOWN;
}

static inline br_truth
truth_either (br_truth x, br_truth y)
{
  if (x == BR_YES || y == BR_YES)
    return BR_YES;
  return x == BR_NO && y == BR_NO ? BR_NO : BR_UNKNOWN;
}

#endif
