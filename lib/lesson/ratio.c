/* SPDX-License-Identifier: LGPL-3.0-or-later
   ratio.c - small fractions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/ratio.h"

br__ratio
br__ratio_of (int64_t num, int64_t den)
{
  int64_t a = num < 0 ? -num : num, b = den;
  while (b)
    {
      int64_t rest = a % b;
      a = b;
      b = rest;
    }
  br__ratio made = { num / a, den / a };
  return made;
}

br__ratio
br__ratio_add (br__ratio x, br__ratio y)
{
  return br__ratio_of (x.num * y.den + y.num * x.den, x.den * y.den);
}

br__ratio
br__ratio_sub (br__ratio x, br__ratio y)
{
  return br__ratio_of (x.num * y.den - y.num * x.den, x.den * y.den);
}

br__ratio
br__ratio_mul (br__ratio x, br__ratio y)
{
  return br__ratio_of (x.num * y.num, x.den * y.den);
}

br__ratio
br__ratio_div (br__ratio x, br__ratio y)
{
  int64_t sign = y.num < 0 ? -1 : 1;
  return br__ratio_of (sign * x.num * y.den, sign * x.den * y.num);
}

int
br__ratio_cmp (br__ratio x, br__ratio y)
{
  int64_t left = x.num * y.den, right = y.num * x.den;
  return (left > right) - (left < right);
}

int64_t
br__ratio_floor (br__ratio x)
{
  int64_t q = x.num / x.den;
  return q - (x.num % x.den < 0);
}

br__ratio
br__ratio_nearest (br__ratio x, br__ratio step)
{
  br__ratio count = br__ratio_div (x, step), half = { 1, 2 };
  int64_t n;
  if (count.num < 0)
    n = -br__ratio_floor (br__ratio_sub (half, count));
  else
    n = br__ratio_floor (br__ratio_add (count, half));
  return br__ratio_mul (br__ratio_of (n, 1), step);
}

br__ratio
br__ratio_part (br__ratio x)
{
  return br__ratio_sub (x, br__ratio_of (br__ratio_floor (x), 1));
}
