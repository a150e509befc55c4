/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem_fraction.c - sums and products of mixed numbers.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/problem.h"

static const br__topic_kind sum_kinds[] =
{
  { "{0} + {1}", 1, BR__ASK_LENGTH, 0, 0 },
  { "{0} - {1}", 1, BR__ASK_LENGTH, 0, 1 },
};

/* The tops and bottoms of the fractions of A and B worked on apart.  */
static br__ratio
apart (br__ratio a, br__ratio b, int sign)
{
  br__ratio f = br__ratio_part (a), g = br__ratio_part (b);
  int64_t num = f.num + sign * g.num, den = f.den + sign * g.den;
  br__ratio whole = br__ratio_of (br__ratio_floor (a) + sign * br__ratio_floor (b), 1);
  if (num < 0)
    num = -num;
  return br__ratio_add (whole, br__ratio_of (num, den < 0 ? -den : den));
}

static int
draw_sums (br__problem *p, const br__plan *plan, br__random *r)
{
  int64_t one = br__plan_den (plan, 0, 2, plan->level), two = br__plan_den (plan, 1, 2, plan->level);
  /* Two denominators that differ, one of them the ruler's own; millimetres have but one.  */
  if (plan->words[2] % 2)
    one = plan->level;
  else
    two = plan->level;
  if (one == two && !plan->metric)
    {
      one = plan->level;
      two = plan->level / 2;
    }
  /* First lessons have one denominator.  */
  if (plan->grade == 1)
    one = two = plan->metric ? 2 : plan->words[2] % 2 ? plan->level : two > 4 ? two : plan->level;
  int feet = plan->grade == 4;
  /* Two halves of a centimetre would carry.  */
  if (plan->metric && plan->grade == 1)
    two = 1;
  br__ratio a = br__draw_length (plan, r, feet ? 26 : 2, feet ? 70 : 19, one), b = br__draw_length (plan, r, feet ? 12 : 1, feet ? 22 : 9, two);
  br__ratio f = br__ratio_part (a), g = br__ratio_part (b);
  p->given[0] = a;
  p->given[1] = b;
  p->count = p->all = 2;
  if (plan->kind == 0)
    {
      p->answer = br__ratio_add (a, b);
      p->carry = br__ratio_cmp (br__ratio_add (f, g), br__ratio_of (1, 1)) >= 0;
    }
  else
    {
      if (br__ratio_floor (a) < br__ratio_floor (b) + 2)
        return 0;
      p->answer = br__ratio_sub (a, b);
      p->carry = br__ratio_cmp (f, g) < 0;
    }
  /* Whoever takes like denominators apart is left with none.  */
  if (!plan->metric && (plan->kind == 0 || f.den != g.den))
    br__problem_wrong (p, apart (a, b, plan->kind == 0 ? 1 : -1), BR__MISTAKE_DENOMINATORS);
  if (p->carry)
    br__problem_wrong (p, br__ratio_add (p->answer, br__ratio_of (plan->kind == 0 ? -1 : 1, 1)), BR__MISTAKE_WHOLE);
  if (p->carry && plan->kind == 1)
    br__problem_wrong (p, br__ratio_add (br__ratio_of (br__ratio_floor (a) - br__ratio_floor (b), 1), br__ratio_sub (g, f)),
                       BR__MISTAKE_SMALLER_FIRST);
  if (plan->kind == 0 && br__ratio_cmp (a, b) > 0)
    br__problem_wrong (p, br__ratio_sub (a, b), BR__MISTAKE_OPERATION);
  return 1;
}

const br__topic br__topic_sums =
{
  "sums", "adding and subtracting mixed numbers", sum_kinds, 2, 1, 0, BR__DANGER_SAW, draw_sums
};

static const br__topic_kind product_kinds[] =
{
  { "{1n} * {0}", 1, BR__ASK_LENGTH, 0, 0 },
  { "{0} / {1n}", 1, BR__ASK_MARK, 0, 1 },
  { "{1n} * {0}", 1, BR__ASK_LENGTH, 0, 1 },
  { "{0l} / {1l}", 1, BR__ASK_COUNT, 0, 0 },
};

static void
product_of_whole (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio n = br__ratio_of ((int64_t) (3 + plan->words[0] % 6), 1), one = { 1, 1 };
  br__ratio a = br__draw_length (plan, r, 1, 9, br__plan_den (plan, 1, 4, plan->level));
  br__ratio f = br__ratio_part (a), w = br__ratio_sub (a, f);
  p->given[0] = plan->kind == 0 ? a : br__ratio_mul (a, n);
  p->given[1] = n;
  p->answer = plan->kind == 0 ? br__ratio_mul (a, n) : a;
  p->carry = br__ratio_floor (br__ratio_mul (f, n)) > 0;
  if (plan->kind == 0)
    {
      if (!plan->metric)
        {
          br__problem_wrong (p, br__ratio_add (br__ratio_mul (w, n), f), BR__MISTAKE_WHOLE_ONLY);
          br__problem_wrong (p, br__ratio_add (w, br__ratio_mul (f, n)), BR__MISTAKE_FRACTION_ONLY);
        }
      br__problem_wrong (p, br__ratio_add (n, a), BR__MISTAKE_OPERATION);
    }
  else
    {
      br__ratio g = br__ratio_part (p->given[0]);
      if (g.num && !plan->metric)
        br__problem_wrong (p, br__ratio_add (br__ratio_div (br__ratio_sub (p->given[0], g), n), g), BR__MISTAKE_WHOLE_ONLY);
      /* One line too few, or too many.  */
      br__problem_wrong (p, br__ratio_div (p->given[0], br__ratio_sub (n, one)), BR__MISTAKE_CUTS);
      br__problem_wrong (p, br__ratio_div (p->given[0], br__ratio_add (n, one)), BR__MISTAKE_CUTS);
      br__problem_wrong (p, br__ratio_sub (p->given[0], n), BR__MISTAKE_OPERATION);
    }
}

static int
draw_products (br__problem *p, const br__plan *plan, br__random *r)
{
  p->count = p->all = 2;
  if (plan->kind < 2)
    product_of_whole (p, plan, r);
  else if (plan->kind == 2)
    {
      /* A quarter of it lies on a mark, too.  */
      int64_t most = plan->level / 4;
      br__ratio q = plan->words[0] % 2 ? br__ratio_of (3, 4) : br__ratio_of (1, 4);
      br__ratio a = plan->metric ? br__draw_marks (plan, r, 3, 19, 4) : br__draw_length (plan, r, 3, 19, most < 2 ? 1 : br__plan_den (plan, 1, 2, most));
      br__ratio f = br__ratio_part (a);
      p->given[0] = a;
      p->given[1] = q;
      p->answer = br__ratio_mul (a, q);
      p->carry = !plan->metric && br__carries (br__ratio_mul (br__ratio_sub (a, f), q), br__ratio_mul (f, q));
      if (!plan->metric && f.num)
        br__problem_wrong (p, br__ratio_add (br__ratio_mul (br__ratio_sub (a, f), q), f), BR__MISTAKE_WHOLE_ONLY);
      br__problem_wrong (p, br__ratio_sub (a, p->answer), BR__MISTAKE_REST);
    }
  else
    {
      br__ratio piece = br__draw_length (plan, r, 1, 3, br__plan_den (plan, 1, 4, plan->level));
      br__ratio n = br__ratio_of (br__random_between (r, 4, 16), 1);
      p->given[0] = br__ratio_mul (piece, n);
      p->given[1] = piece;
      p->answer = n;
      p->carry = br__ratio_part (piece).num > 0;
      if (plan->metric)
        br__problem_wrong (p, br__ratio_mul (br__ratio_sub (p->given[0], piece), br__ratio_of (10, 1)), BR__MISTAKE_OPERATION);
      else
        br__problem_wrong (p, br__ratio_of (br__ratio_floor (br__ratio_div (p->given[0], br__ratio_of (br__ratio_floor (piece), 1))), 1),
                           BR__MISTAKE_NO_FRACTION);
    }
  return 1;
}

const br__topic br__topic_products =
{
  "products", "multiplying and dividing mixed numbers", product_kinds, 4, 0, 0, BR__DANGER_SAW, draw_products
};
