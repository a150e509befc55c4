/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem_scale.c - drawn to full size and back, and a scale from one known size.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "lesson/problem.h"

/* How many times the drawing the thing is, and which other scale is taken for it: quarter size for 1/4 in
   = 1 ft, half size for 1/2 in = 1 ft (by drawing courses: common practice, no source), or a neighbour.
   The drawn sizes, whole inches, keep what is drawn to a size that it can have.  */
static const struct { int64_t times, other, low, high; const char *name; } scales[] =
{
  { 2, 24, 5, 9, "half size" }, { 4, 48, 3, 7, "quarter size" }, { 8, 4, 2, 5, "at eighth size" },
  { 12, 24, 1, 3, "at 1 in = 1 ft" },
  /* And those for what is large.  */
  { 12, 24, 2, 6, "at 1 in = 1 ft" }, { 16, 12, 2, 6, "at 3/4 in = 1 ft" }, { 24, 2, 1, 5, "at 1/2 in = 1 ft" },
  { 48, 4, 1, 5, "at 1/4 in = 1 ft" }
};

#define SCALES (sizeof scales / sizeof scales[0])
#define LARGE_SCENE 1

static const br__topic_kind scale_kinds[] =
{
  { "full({0}, {1n})", 1, BR__ASK_LENGTH, 0,
    { "The side of the market cart is drawn {s}. On the drawing it is {0} long. How long will the real one be, in inches?",
      "A class draws the school garden {s}. One side of its fence is {0} long on paper. How long is the real one, in inches?",
      "The puppet stage is drawn {s}, and its shelf measures {0} there. How long is the real shelf, in inches?" } },
  { "drawn({0}, {1n})", 1, BR__ASK_MARK, 0,
    { "The body of the market cart is {0} long. It is drawn {s}. How long is it on paper?",
      "One side of the garden fence is {0} long. How long is it on a drawing made {s}?",
      "The plant stand is {0} high. You draw it {s}. How high is your drawing?" } },
};

static int
draw_scale (br__problem *p, const br__plan *plan, br__random *r)
{
  size_t at = plan->words[0] % (SCALES / 2) + (plan->scene == LARGE_SCENE ? SCALES / 2 : 0);
  br__ratio times = br__ratio_of (scales[at].times, 1), other = br__ratio_of (scales[at].other, 1);
  br__ratio drawn = br__draw_length (r, scales[at].low, scales[at].high, br__plan_den (plan, 1, plan->level / 2, plan->level));
  br__ratio full = br__ratio_mul (drawn, times);
  int back = plan->kind == 1;
  p->given[0] = back ? full : drawn;
  p->given[1] = br__ratio_of (1, times.num);
  p->count = p->all = 2;
  p->word = scales[at].name;
  p->answer = back ? drawn : full;
  br__problem_wrong (p, back ? br__ratio_mul (full, times) : br__ratio_div (drawn, times), BR__MISTAKE_SCALE);
  br__problem_wrong (p, back ? br__ratio_div (full, other) : br__ratio_mul (drawn, other), BR__MISTAKE_OTHER_SCALE);
  br__problem_wrong (p, p->given[0], BR__MISTAKE_AS_GIVEN);
  return 1;
}

const br__topic br__topic_scale =
{
  "scale", "drawn to full size and back", scale_kinds, 2, 0, 0, 3, 0, draw_scale
};

static const br__topic_kind known_kinds[] =
{
  { "{2} * ({0n} / {1n})", 2, BR__ASK_LENGTH, 0,
    { "On a sketch of the market cart the wheel is {1} across. The real wheel is {0}. The handle measures {2} on the sketch. "
      "How long is the real handle?",
      "On a photo of the garden sign its post is {1} wide. The real post is {0} wide. The board measures {2} on the photo. "
      "How wide is the real board?",
      "A picture shows the coat rack with a peg of {1}. The real peg is {0} long. The rack measures {2} in the picture. "
      "How long is the real rack?" } },
  { "{2} / ({0n} / {1n})", 2, BR__ASK_MARK, 0,
    { "On a sketch of the market cart the wheel is {1} across. The real wheel is {0}. The real body is {2} long. "
      "How long must it be on the sketch?",
      "A picture of the plant stand shows a pot {1} wide. The real pot is {0}. A real shelf is {2} long. "
      "How long is it in the picture?",
      "On a photo of the puppet stage a puppet is {1} high. The real puppet is {0} high. The real stage is {2} high. "
      "How high is it on the photo?" } },
};

#define MOST_KNOWN 9    /* inches */

static int
draw_known (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio times = br__ratio_of ((int64_t) (2 + plan->words[0] % 7), 1);
  br__ratio shown = br__draw_length (r, 0, 2, br__plan_den (plan, 1, 4, plan->level));
  br__ratio other = br__draw_length (r, 1, 6, br__plan_den (plan, 2, 4, plan->level));
  br__ratio known = br__ratio_mul (shown, times), real = br__ratio_mul (other, times);
  br__ratio more = br__ratio_sub (known, shown);
  int back = plan->kind == 1;
  /* The wheel, the post, the pot is smaller than what it belongs to, and of a size to be held.  */
  if (known.num < known.den || known.num > MOST_KNOWN * known.den
      || br__ratio_cmp (other, br__ratio_add (shown, shown)) < 0)
    return 0;
  p->given[0] = known;
  p->given[1] = shown;
  p->given[2] = back ? real : other;
  p->count = p->all = 3;
  p->answer = back ? other : real;
  br__problem_wrong (p, back ? br__ratio_mul (real, times) : br__ratio_div (other, times), BR__MISTAKE_SCALE);
  br__problem_wrong (p, back ? br__ratio_sub (real, more) : br__ratio_add (other, more), BR__MISTAKE_DIFFERENCE);
  br__problem_wrong (p, p->given[2], BR__MISTAKE_AS_GIVEN);
  return 1;
}

const br__topic br__topic_known_size =
{
  "known size", "a scale from one known size", known_kinds, 2, 0, 0, 4, 0, draw_known
};
