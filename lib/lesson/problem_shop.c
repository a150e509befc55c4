/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem_shop.c - wheels and fenders, boards and kerf, stock, and the size that is missing.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/problem.h"

static const br__ratio one = { 1, 1 }, two = { 2, 1 };

static const br__topic_kind fender_kinds[] =
{
  { "{0} / 2 + {1}", 2, BR__ASK_LENGTH, 0, 0 },
  { "{0} - {1} / 2", 2, BR__ASK_LENGTH, 0, 0 },
  { "{0} / 2 + {1} + {2}", 3, BR__ASK_LENGTH, 0, 0 },
  { "{0} - 2 * ({1} / 2)", 3, BR__ASK_LENGTH, 0, 0 },
};

static int
draw_fender (br__problem *p, const br__plan *plan, br__random *r)
{
  /* The radius of a metric wheel lies on a mark, too.  */
  br__ratio wheel = plan->metric ? br__draw_marks (plan, r, 2, 5, 2) : br__draw_length (plan, r, 2, 5, br__plan_den (plan, 0, 2, plan->level / 2));
  br__ratio gap = br__ratio_of (2 * br__random_between (r, 0, 3) + 1, plan->level);
  br__ratio thick = br__ratio_of (2 * br__random_between (r, 1, 3) + 1, plan->level);
  br__ratio half = br__ratio_div (wheel, two), radius = br__ratio_add (half, gap);
  br__ratio base = br__ratio_add (wheel, br__draw_length (plan, r, 0, 3, br__plan_den (plan, 1, 2, plan->level)));
  br__ratio sizes[4][3] = { { wheel, gap, one }, { radius, wheel, one }, { wheel, gap, thick }, { base, wheel, one } };
  br__ratio outer = br__ratio_add (radius, thick);
  br__ratio answers[4] = { radius, gap, outer, br__ratio_sub (base, wheel) };
  for (int i = 0; i < 3; i++)
    p->given[i] = sizes[plan->kind][i];
  p->count = p->all = plan->kind == 2 ? 3 : 2;
  p->answer = answers[plan->kind];
  p->carry = plan->kind == 0 ? br__carries (half, gap) : plan->kind == 1 ? br__borrows (radius, half)
             : plan->kind == 2 ? br__carries (half, gap) + 2 * br__carries (radius, thick) : br__borrows (base, wheel);
  p->between[0] = plan->kind == 2 ? (unsigned) radius.den : 0;
  switch (plan->kind)
    {
    case 0:
      br__problem_wrong (p, br__ratio_add (wheel, gap), BR__MISTAKE_DIAMETER);
      br__problem_wrong (p, half, BR__MISTAKE_GAP);
      br__problem_wrong (p, br__ratio_sub (half, gap), BR__MISTAKE_OPERATION);
      break;
    case 1:
      br__problem_wrong (p, br__ratio_sub (wheel, radius), BR__MISTAKE_DIAMETER);
      br__problem_wrong (p, br__ratio_add (radius, half), BR__MISTAKE_OPERATION);
      break;
    case 2:
      br__problem_wrong (p, br__ratio_add (br__ratio_add (wheel, gap), thick), BR__MISTAKE_DIAMETER);
      br__problem_wrong (p, br__ratio_add (half, thick), BR__MISTAKE_GAP);
      br__problem_wrong (p, radius, BR__MISTAKE_LEFT_OUT);
      break;
    default:
      br__problem_wrong (p, br__ratio_sub (base, half), BR__MISTAKE_RADIUS);
      br__problem_wrong (p, br__ratio_sub (base, br__ratio_mul (wheel, two)), BR__MISTAKE_DIAMETER);
      br__problem_wrong (p, br__ratio_add (base, wheel), BR__MISTAKE_OPERATION);
    }
  return 1;
}

const br__topic br__topic_fender =
{
  "fender", "fenders, wheels and the gaps between them", fender_kinds, 4, 0, 0, BR__DANGER_GAP, draw_fender
};

static const br__topic_kind dividing_kinds[] =
{
  { "({0} - {3n} * {2}) / {1n}", 3, BR__ASK_MARK, 0, 1 },
};

/* The kerf by the plan: one that lies on the ruler.  */
static br__ratio
kerf_of (const br__plan *plan, unsigned word)
{
  static const br__ratio kerfs[] = { { 1, 8 }, { 1, 16 }, { 3, 32 } }, metric[] = { { 3, 10 }, { 1, 5 } };
  if (plan->metric)
    return plan->level < 10 ? (br__ratio) { 1, 2 } : metric[plan->words[word] % 2];
  return kerfs[plan->words[word] % (plan->level >= 32 ? 3 : plan->level >= 16 ? 2 : 1)];
}

static int
quarters_alone (const br__plan *plan)
{
  return plan->level == 4 && !plan->metric;
}

static int
draw_dividing (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio kerf = kerf_of (plan, 0), mark = br__ratio_of (1, plan->level);
  /* On a ruler of quarters, an even number of cuts of 1/8 in.  */
  int64_t n = (int64_t) (3 + (quarters_alone (plan) ? plan->words[1] % 2 * 2 : plan->words[1] % 4));
  br__ratio count = br__ratio_of (n, 1), cuts = br__ratio_of (n - 1, 1);
  br__ratio piece = br__draw_length (plan, r, 3, 11, plan->level);
  br__ratio board = br__ratio_add (br__ratio_mul (piece, count), br__ratio_mul (kerf, cuts));
  br__ratio without = br__ratio_div (board, count);
  p->given[0] = board;
  p->given[1] = count;
  p->given[2] = kerf;
  p->given[3] = cuts;
  p->count = 3;
  p->all = 4;
  p->answer = piece;
  p->carry = br__borrows (board, br__ratio_mul (kerf, cuts));
  p->between[0] = (unsigned) br__ratio_mul (piece, count).den;
  br__problem_wrong (p, without, BR__MISTAKE_KERF);
  br__problem_wrong (p, br__ratio_sub (piece, br__ratio_div (kerf, count)), BR__MISTAKE_CUTS);
  /* The same put on the ruler, where that is not the right piece.  */
  without = br__ratio_nearest (without, mark);
  if (br__ratio_cmp (without, piece) != 0)
    br__problem_wrong (p, without, BR__MISTAKE_KERF);
  /* The kerfs added to the board, which makes the pieces longer than it can give, but none longer than it is.  */
  br__problem_wrong (p, br__ratio_div (br__ratio_add (board, br__ratio_mul (kerf, cuts)), count), BR__MISTAKE_OPERATION);
  return 1;
}

const br__topic br__topic_dividing =
{
  "dividing", "dividing a board with kerf", dividing_kinds, 1, 0, 0, BR__DANGER_SAW, draw_dividing
};

static const br__topic_kind stock_kinds[] =
{
  { "down(({0l} + {2l}) / ({1l} + {2l}), 1)", 4, BR__ASK_COUNT, 0, 0 },
  { "{0} - {3n} * ({1} + {2})", 3, BR__ASK_LENGTH, 0, 1 },
};

static int
draw_stock (br__problem *p, const br__plan *plan, br__random *r)
{
  /* What a shop has: 4, 6 and 8 ft, or 1, 2 and 2.4 m (common practice, no source).  */
  static const int64_t boards[2][3] = { { 48, 72, 96 }, { 100, 200, 240 } };
  br__ratio board = br__ratio_of (boards[plan->metric][br__random_below (r, 3)], 1), kerf = kerf_of (plan, 1);
  br__ratio piece = br__draw_length (plan, r, 3, 9, br__plan_den (plan, 2, 4, plan->level));
  br__ratio step = br__ratio_add (piece, kerf);
  br__ratio exact = br__ratio_div (br__ratio_add (board, kerf), step);
  p->carry = br__carries (piece, kerf);
  p->between[0] = (unsigned) step.den;
  int64_t n = br__ratio_floor (exact);
  p->given[0] = board;
  p->given[1] = piece;
  p->given[2] = kerf;
  p->count = 3;
  if (plan->kind == 0)
    {
      /* The saw's cuts decide over a piece, and the count is not even.  */
      int64_t without = br__ratio_floor (br__ratio_div (board, piece));
      p->all = 3;
      p->answer = br__ratio_of (n, 1);
      if (n < 3 || without == n || exact.den == 1)
        return 0;
      br__problem_wrong (p, br__ratio_of (without, 1), BR__MISTAKE_KERF);
      br__problem_wrong (p, exact, BR__MISTAKE_NOT_WHOLE);
      return 1;
    }
  br__ratio cuts = br__ratio_of ((int64_t) (2 + (quarters_alone (plan) ? plan->words[3] % 2 * 2 : plan->words[3] % 3)), 1);
  br__ratio rest = br__ratio_sub (board, br__ratio_mul (cuts, step));
  p->given[3] = cuts;
  p->count = p->all = 4;
  p->answer = rest;
  p->carry += 2 * br__borrows (board, br__ratio_mul (cuts, step));
  p->between[1] = (unsigned) br__ratio_mul (cuts, step).den;
  br__problem_wrong (p, br__ratio_sub (board, br__ratio_mul (cuts, piece)), BR__MISTAKE_KERF);
  br__problem_wrong (p, br__ratio_add (rest, kerf), BR__MISTAKE_CUTS);
  br__problem_wrong (p, br__ratio_add (rest, step), BR__MISTAKE_LEFT_OUT);
  br__problem_wrong (p, br__ratio_sub (board, rest), BR__MISTAKE_REST);
  return 1;
}

const br__topic br__topic_stock =
{
  "stock", "stock that fits, and what is left of it", stock_kinds, 2, 0, 0, BR__DANGER_SAW, draw_stock
};

static const br__topic_kind missing_kinds[] =
{
  { "{0} - ({1} + {2})", 2, BR__ASK_LENGTH, 0, 1 },
  { "({0} - {1}) / 2", 2, BR__ASK_MARK, 0, 1 },
};

static int
draw_missing (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio a = br__draw_length (plan, r, 2, 6, br__plan_den (plan, 0, 2, plan->level));
  br__ratio b = br__draw_length (plan, r, 2, 6, br__plan_den (plan, 1, 4, plan->level));
  br__ratio c = br__draw_length (plan, r, 7, 14, br__plan_den (plan, 2, 2, plan->level));
  if (plan->metric && plan->grade == 1)
    {
      /* Halves of a centimetre alone would carry.  */
      b = br__ratio_of (br__ratio_floor (b), 1);
      c = br__ratio_of (br__ratio_floor (c), 1);
    }
  if (plan->kind == 0)
    {
      br__ratio all = br__ratio_add (br__ratio_add (a, b), c);
      p->given[0] = all;
      p->given[1] = a;
      p->given[2] = b;
      p->count = p->all = 3;
      p->answer = c;
      p->carry = br__carries (a, b) + 2 * br__borrows (all, br__ratio_add (a, b));
      p->between[0] = (unsigned) br__ratio_add (a, b).den;
      br__problem_wrong (p, br__ratio_sub (all, a), BR__MISTAKE_LEFT_OUT);
      br__problem_wrong (p, br__ratio_sub (all, b), BR__MISTAKE_LEFT_OUT);
      br__problem_wrong (p, br__ratio_add (a, b), BR__MISTAKE_REST);
      return 1;
    }
  /* A frame that holds: over 3/4 in, or 18 mm.  */
  br__ratio thick = br__draw_length (plan, r, 0, 1, plan->level);
  if (br__ratio_cmp (thick, plan->metric ? br__ratio_of (18, 10) : br__ratio_of (3, 4)) <= 0)
    return 0;
  br__ratio outside = br__ratio_add (c, br__ratio_mul (thick, two));
  p->given[0] = outside;
  p->given[1] = c;
  p->count = p->all = 2;
  p->answer = thick;
  p->carry = br__borrows (outside, c);
  p->between[0] = (unsigned) br__ratio_mul (thick, two).den;
  br__problem_wrong (p, br__ratio_mul (thick, two), BR__MISTAKE_SIDES);
  br__problem_wrong (p, br__ratio_div (br__ratio_add (outside, c), two), BR__MISTAKE_OPERATION);
  return 1;
}

const br__topic br__topic_missing =
{
  "missing", "spotting the missing size", missing_kinds, 2, 1, 0, 0, draw_missing
};
