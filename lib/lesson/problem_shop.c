/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem_shop.c - wheels and fenders, boards and kerf, stock, and the size that is missing.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/problem.h"

static const br__ratio one = { 1, 1 }, two = { 2, 1 };

static const br__topic_kind fender_kinds[] =
{
  { "{0} / 2 + {1}", 2, BR__ASK_LENGTH, 0,
    { "A wheel of the market cart is {0} across. Its fender runs around it with a gap of {1}. What is the fender's inner radius?",
      "A toy tractor has rear wheels {0} across and fenders that keep {1} away. With what radius is the inside of a fender drawn?",
      "A round pot is {0} across. A ring of wood goes around it with {1} of air. What is the ring's inner radius?" } },
  { "{0} - {1} / 2", 2, BR__ASK_LENGTH, 0,
    { "A fender of the market cart has an inner radius of {0}. Its wheel is {1} across. How wide is the gap between them?",
      "A toy tractor has a fender drawn with a radius of {0} around a wheel {1} across. What gap does it leave?",
      "A ring with an inner radius of {0} goes around a post {1} across. How much air is there all around?" } },
  { "{0} / 2 + {1} + {2}", 3, BR__ASK_LENGTH, 0,
    { "A wheel of the market cart is {0} across, the gap is {1}, and its fender is {2} thick. What is the fender's outer radius?",
      "A wheel {0} across turns under a hood {2} thick with a gap of {1}. With what radius is the outside of the hood drawn?",
      "A pot {0} across stands in a ring {2} thick with {1} of air around. What is the ring's outer radius?" } },
  { "{0} - 2 * ({1} / 2)", 3, BR__ASK_LENGTH, 0,
    { "The axles of the market cart are {0} apart and all wheels are {1} across. How wide is the gap between a front and a rear wheel?",
      "Two rollers {1} across turn on shafts that are {0} apart. How wide is the gap between the rollers?",
      "Two round pots, each {1} across, stand with their middles {0} apart. How wide is the space between them?" } },
};

static int
draw_fender (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio wheel = br__draw_length (r, 2, 5, br__plan_den (plan, 0, 2, plan->level / 2));
  br__ratio gap = br__ratio_of (2 * br__random_between (r, 0, 3) + 1, plan->level);
  br__ratio thick = br__ratio_of (2 * br__random_between (r, 1, 3) + 1, plan->level);
  br__ratio half = br__ratio_div (wheel, two), radius = br__ratio_add (half, gap);
  br__ratio base = br__ratio_add (wheel, br__draw_length (r, 0, 3, br__plan_den (plan, 1, 2, plan->level)));
  br__ratio sizes[4][3] = { { wheel, gap, one }, { radius, wheel, one }, { wheel, gap, thick }, { base, wheel, one } };
  br__ratio outer = br__ratio_add (radius, thick);
  br__ratio answers[4] = { radius, gap, outer, br__ratio_sub (base, wheel) };
  for (int i = 0; i < 3; i++)
    p->given[i] = sizes[plan->kind][i];
  p->count = p->all = plan->kind == 2 ? 3 : 2;
  p->answer = answers[plan->kind];
  p->carry = plan->kind == 0 ? br__carries (half, gap) : plan->kind == 1 ? br__borrows (radius, half)
             : plan->kind == 2 ? br__carries (half, gap) + 2 * br__carries (radius, thick) : br__borrows (base, wheel);
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
  "fender", "fenders, wheels and the gaps between them", fender_kinds, 4, 0, 0, 4, BR__DANGER_GAP, draw_fender
};

static const br__topic_kind dividing_kinds[] =
{
  { "({0} - {3n} * {2}) / {1n}", 3, BR__ASK_MARK, 0,
    { "A board of {0} is sawn into {1n} equal slats for the market cart, and nothing is left. The kerf is {2}. How long is each slat?",
      "A dowel of {0} is used up for {1n} equal pegs. The kerf is {2}. How long is each peg?",
      "The plant stand needs {1n} equal rails, and a strip of {0} is used up for them. Each cut takes {2}. How long is each rail?" } },
};

/* The kerf by the plan: one that lies on the ruler.  */
static br__ratio
kerf_of (const br__plan *plan, unsigned word)
{
  static const br__ratio kerfs[] = { { 1, 8 }, { 1, 16 }, { 3, 32 } };
  return kerfs[plan->words[word] % (plan->level >= 32 ? 3 : plan->level >= 16 ? 2 : 1)];
}

static int
draw_dividing (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio kerf = kerf_of (plan, 0), mark = br__ratio_of (1, plan->level);
  int64_t n = (int64_t) (3 + plan->words[1] % 4);
  br__ratio count = br__ratio_of (n, 1), cuts = br__ratio_of (n - 1, 1);
  br__ratio piece = br__draw_length (r, 3, 11, plan->level);
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
  br__problem_wrong (p, without, BR__MISTAKE_KERF);
  br__problem_wrong (p, br__ratio_sub (piece, br__ratio_div (kerf, count)), BR__MISTAKE_CUTS);
  /* The same put on the ruler, where that is not the right piece.  */
  without = br__ratio_nearest (without, mark);
  if (br__ratio_cmp (without, piece) != 0)
    br__problem_wrong (p, without, BR__MISTAKE_KERF);
  br__problem_wrong (p, br__ratio_mul (board, count), BR__MISTAKE_OPERATION);
  return 1;
}

const br__topic br__topic_dividing =
{
  "dividing", "dividing a board with kerf", dividing_kinds, 1, 0, 0, 4, BR__DANGER_SAW, draw_dividing
};

static const br__topic_kind stock_kinds[] =
{
  { "down(({0n} + {2n}) / ({1n} + {2n}), 1)", 4, BR__ASK_COUNT, 0,
    { "Slats of {1} for the market cart are cut from a board of {0}. The kerf is {2}. How many whole slats does the board give?",
      "The store has strips of {0}. You need pieces of {1}, and each cut takes {2}. How many whole pieces come from one strip?",
      "How many shelf boards of {1} can be sawn from a plank of {0} with a kerf of {2}?" } },
  { "{0} - {3n} * ({1} + {2})", 3, BR__ASK_LENGTH, 0,
    { "From a board of {0} you saw {3n} slats of {1}, and each of the {3n} cuts takes {2}. How long is the piece that is left?",
      "From a dowel of {0} you saw {3n} pegs of {1}, each with a cut of {2} after it. How much of the dowel is left?",
      "A plank of {0} gives {3n} rails of {1}, and a kerf of {2} follows each rail. How long is the offcut?" } },
};

static int
draw_stock (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio board = br__ratio_of (br__random_between (r, 30, 96), 1), kerf = kerf_of (plan, 1);
  br__ratio piece = br__draw_length (r, 3, 9, br__plan_den (plan, 2, 4, plan->level));
  br__ratio step = br__ratio_add (piece, kerf);
  br__ratio exact = br__ratio_div (br__ratio_add (board, kerf), step);
  p->carry = br__carries (piece, kerf);
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
  br__ratio cuts = br__ratio_of ((int64_t) (2 + plan->words[3] % 3), 1);
  br__ratio rest = br__ratio_sub (board, br__ratio_mul (cuts, step));
  p->given[3] = cuts;
  p->count = p->all = 4;
  p->answer = rest;
  p->carry += 2 * br__borrows (board, br__ratio_mul (cuts, step));
  if (br__ratio_cmp (rest, one) < 0)
    return 0;
  br__problem_wrong (p, br__ratio_sub (board, br__ratio_mul (cuts, piece)), BR__MISTAKE_KERF);
  br__problem_wrong (p, br__ratio_add (rest, kerf), BR__MISTAKE_CUTS);
  br__problem_wrong (p, br__ratio_add (rest, step), BR__MISTAKE_LEFT_OUT);
  br__problem_wrong (p, br__ratio_sub (board, rest), BR__MISTAKE_REST);
  return 1;
}

const br__topic br__topic_stock =
{
  "stock", "stock that fits, and what is left of it", stock_kinds, 2, 0, 0, 4, BR__DANGER_SAW, draw_stock
};

static const br__topic_kind missing_kinds[] =
{
  { "{0} - ({1} + {2})", 2, BR__ASK_LENGTH, 0,
    { "A side view of the market cart gives {0} over all, {1} in front of the front axle and {2} behind the rear axle. "
      "One size is missing. What is it from axle to axle?",
      "A drawing of the coat rack gives {0} over all, {1} from the left end to the first peg and {2} from the last peg to the right end. "
      "One size is missing. What is it from the first peg to the last?",
      "The puppet stage is {0} wide over all. Its left wing is {1} and its right wing is {2} wide. "
      "The width of the opening between them is missing. What is it?" } },
  { "({0} - {1}) / 2", 2, BR__ASK_MARK, 0,
    { "The body of the market cart is {0} wide outside and {1} inside. Both sides are equally thick, but that size is missing. What is it?",
      "A frame for the garden sign is {0} high outside, and its opening is {1} high. The wood above is as wide as the wood below. How wide is each?",
      "A box for tools is {0} long outside and {1} inside. Its two ends are equally thick. How thick is each?" } },
};

static int
draw_missing (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio a = br__draw_length (r, 2, 6, br__plan_den (plan, 0, 2, plan->level));
  br__ratio b = br__draw_length (r, 2, 6, br__plan_den (plan, 1, 4, plan->level));
  br__ratio c = br__draw_length (r, 7, 14, br__plan_den (plan, 2, 2, plan->level));
  if (plan->kind == 0)
    {
      br__ratio all = br__ratio_add (br__ratio_add (a, b), c);
      p->given[0] = all;
      p->given[1] = a;
      p->given[2] = b;
      p->count = p->all = 3;
      p->answer = c;
      p->carry = br__carries (a, b) + 2 * br__borrows (all, br__ratio_add (a, b));
      br__problem_wrong (p, br__ratio_sub (all, a), BR__MISTAKE_LEFT_OUT);
      br__problem_wrong (p, br__ratio_sub (all, b), BR__MISTAKE_LEFT_OUT);
      br__problem_wrong (p, br__ratio_add (a, b), BR__MISTAKE_REST);
      br__problem_wrong (p, br__ratio_add (br__ratio_add (all, a), b), BR__MISTAKE_OPERATION);
      return 1;
    }
  br__ratio thick = br__ratio_of (2 * br__random_between (r, 1, plan->level / 2 - 1) + 1, plan->level);
  br__ratio outside = br__ratio_add (c, br__ratio_mul (thick, two));
  p->given[0] = outside;
  p->given[1] = c;
  p->count = p->all = 2;
  p->answer = thick;
  p->carry = br__borrows (outside, c);
  br__problem_wrong (p, br__ratio_mul (thick, two), BR__MISTAKE_SIDES);
  br__problem_wrong (p, br__ratio_div (br__ratio_add (outside, c), two), BR__MISTAKE_OPERATION);
  return 1;
}

const br__topic br__topic_missing =
{
  "missing", "spotting the missing size", missing_kinds, 2, 1, 0, 4, 0, draw_missing
};
