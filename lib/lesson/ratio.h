/* SPDX-License-Identifier: LGPL-3.0-or-later
   ratio.h - the small fractions that problems are made of.  Their parts stay far below 2^31, so
   that nothing can overflow and nothing can fail; whatever a person types is a br_number.  */
#ifndef BR_LESSON_RATIO_H
#define BR_LESSON_RATIO_H

#include "benchrule.h"

/* In lowest terms, den over 0.  */
typedef struct br__ratio
{
  int64_t num, den;
} br__ratio;

br__ratio br__ratio_of (int64_t num, int64_t den);
br__ratio br__ratio_add (br__ratio x, br__ratio y);
br__ratio br__ratio_sub (br__ratio x, br__ratio y);
br__ratio br__ratio_mul (br__ratio x, br__ratio y);
br__ratio br__ratio_div (br__ratio x, br__ratio y);
/* <0, 0, >0.  */
int br__ratio_cmp (br__ratio x, br__ratio y);
int64_t br__ratio_floor (br__ratio x);
/* The multiple of STEP nearest to X; half way goes up, away from zero.  */
br__ratio br__ratio_nearest (br__ratio x, br__ratio step);
/* X less its whole part; X is not below zero.  */
br__ratio br__ratio_part (br__ratio x);

#endif
