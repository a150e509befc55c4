/* SPDX-License-Identifier: LGPL-3.0-or-later
   ratio.h - the small fractions of problems: both parts of a br_number at hand, and its operations without a
   status, as the sizes of a problem never come near 64 bits.  */
#ifndef BR_LESSON_RATIO_H
#define BR_LESSON_RATIO_H

#include "exact/number.h"

/* In lowest terms, den over 0.  */
typedef struct br__ratio
{
  int64_t num, den;
} br__ratio;

typedef br_status br__ratio_operation (br_number *z, const br_number *x, const br_number *y);

/* X by OPERATION with Y; the den of either may be below zero.  */
static inline br__ratio
br__ratio_work (br__ratio_operation *operation, br__ratio x, br__ratio y)
{
  br_number a = BR_NUMBER_ZERO, b = BR_NUMBER_ZERO;
  br__ratio z = { 0, 1 };
  if (br_number_set_ratio (&a, x.num, x.den) == BR_OK && br_number_set_ratio (&b, y.num, y.den) == BR_OK
      && operation (&a, &a, &b) == BR_OK)
    (void) br_number_get_ratio (&z.num, &z.den, &a);
  br_number_clear (&a);
  br_number_clear (&b);
  return z;
}

static inline br__ratio
br__ratio_of (int64_t num, int64_t den)
{
  return br__ratio_work (br_number_div, (br__ratio) { num, 1 }, (br__ratio) { den, 1 });
}

static inline br__ratio
br__ratio_add (br__ratio x, br__ratio y)
{
  return br__ratio_work (br_number_add, x, y);
}

static inline br__ratio
br__ratio_sub (br__ratio x, br__ratio y)
{
  return br__ratio_work (br_number_sub, x, y);
}

static inline br__ratio
br__ratio_mul (br__ratio x, br__ratio y)
{
  return br__ratio_work (br_number_mul, x, y);
}

static inline br__ratio
br__ratio_div (br__ratio x, br__ratio y)
{
  return br__ratio_work (br_number_div, x, y);
}

/* <0, 0, >0.  */
static inline int
br__ratio_cmp (br__ratio x, br__ratio y)
{
  int64_t n = br__ratio_sub (x, y).num;
  return (n > 0) - (n < 0);
}

static inline int64_t
br__ratio_round (br__ratio x, br_direction direction)
{
  int64_t off;
  int tie;
  return br__round_ratio (&off, &tie, x.num, x.den, direction, BR_TIES_UP);
}

static inline int64_t
br__ratio_floor (br__ratio x)
{
  return br__ratio_round (x, BR_DOWN);
}

/* The multiple of STEP nearest to X; half way goes up, away from zero.  */
static inline br__ratio
br__ratio_nearest (br__ratio x, br__ratio step)
{
  return br__ratio_mul (br__ratio_of (br__ratio_round (br__ratio_div (x, step), BR_NEAREST), 1), step);
}

/* X less its whole part; X is not below zero.  */
static inline br__ratio
br__ratio_part (br__ratio x)
{
  return br__ratio_sub (x, br__ratio_of (br__ratio_floor (x), 1));
}

#endif
