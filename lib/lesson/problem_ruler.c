/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem_ruler.c - reading a ruler, and decimals put on one.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/problem.h"

static const br__topic_kind reading_kinds[] =
{
  { "{1} + {2n} * {3}", 1, BR__ASK_MARK, 0, 0 },
  { "{1} + {2n} * {3}", 1, BR__ASK_MARK, 0, 0 },
};

/* Kind 0 stops on the finest marks, kind 1 on longer ones.  */
static int
draw_reading (br__problem *p, const br__plan *plan, br__random *r)
{
  int64_t den = plan->kind == 0 ? plan->level : br__plan_den (plan, 0, 2, plan->level / 2);
  br__ratio x = br__draw_length (plan, r, 1, 4, den), part = br__ratio_part (x), two = { 2, 1 };
  br__ratio whole = br__ratio_sub (x, part), other;
  p->given[0] = p->answer = x;
  p->given[1] = whole;
  p->given[2] = br__ratio_mul (part, br__ratio_of (plan->level, 1));
  p->given[3] = br__ratio_of (1, plan->level);
  p->count = 1;
  p->all = 4;
  /* The same count of marks on the ruler twice as fine, and on the one half as fine.  */
  br__problem_wrong (p, br__ratio_add (whole, br__ratio_div (part, two)), BR__MISTAKE_RULER);
  other = br__ratio_mul (part, two);
  if (br__ratio_floor (other) == 0)
    br__problem_wrong (p, br__ratio_add (whole, other), BR__MISTAKE_RULER);
  return 1;
}

const br__topic br__topic_reading =
{
  "reading", "reading a ruler, with its picture", reading_kinds, 2, 0, 1, 0, draw_reading
};

static const br__topic_kind decimal_kinds[] =
{
  { "{0d}", 1, BR__ASK_MARK, 1, 0 },
  { "{0d};{1d} - {0d}", 2, BR__ASK_DECIMAL, 0, 0 },
};

static int
draw_decimals (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio mark = br__ratio_of (1, plan->level), x, near, far, off, size;
  /* A last digit of 1, 3, 7 or 9 keeps all three places.  */
  int64_t thousandths = br__random_between (r, 1, 999);
  if (thousandths % 2 == 0 || thousandths % 5 == 0)
    return 0;
  x = br__ratio_of (br__random_between (r, 1, br__ratio_floor (br__plan_size (plan, 9))) * 1000 + thousandths, 1000);
  near = br__ratio_nearest (x, mark);
  off = br__ratio_sub (near, x);
  size = br__ratio_mul (br__ratio_of (off.num < 0 ? -off.num : off.num, off.den), br__ratio_of (plan->level, 1));
  /* Not so near a mark, or half way, that a glance or a guess decides.  */
  if (br__ratio_cmp (size, br__ratio_of (1, 10)) < 0 || br__ratio_cmp (size, br__ratio_of (42, 100)) > 0)
    return 0;
  far = off.num < 0 ? br__ratio_add (near, mark) : br__ratio_sub (near, mark);
  p->given[0] = x;
  p->given[1] = near;
  p->count = 1;
  p->all = 2;
  p->carry = off.num < 0;
  p->between[0] = near.den == 1;
  int error = plan->kind == 1;
  p->answer = error ? off : near;
  if (error)
    br__problem_wrong (p, br__ratio_sub (x, near), BR__MISTAKE_SIGN);
  br__problem_wrong (p, error ? br__ratio_sub (far, x) : far, BR__MISTAKE_ROUNDING);
  if (error)
    br__problem_wrong (p, br__ratio_sub (x, far), BR__MISTAKE_ROUNDING);
  for (int k = 0; k < 2; k++)
    {
      br__ratio other = br__ratio_nearest (x, br__ratio_of (1, k ? plan->level / 2 : plan->level * 2));
      if (br__ratio_cmp (other, near) != 0 && br__ratio_cmp (other, far) != 0)
        br__problem_wrong (p, error ? br__ratio_sub (other, x) : other, BR__MISTAKE_RULER);
    }
  return 1;
}

const br__topic br__topic_decimals =
{
  "decimals", "a decimal as the nearest mark, and the error", decimal_kinds, 2, 0, 0, BR__DANGER_SAW, draw_decimals
};
