/* SPDX-License-Identifier: LGPL-3.0-or-later
   problem_scale.c - drawn to full size and back, and a scale from one known size.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

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
  { 48, 4, 1, 5, "at 1/4 in = 1 ft" },
  /* Metric ones, and those for what is large (ISO 5455); one is taken for another that ends in a nought more.  */
  { 2, 20, 6, 9, "at 1:2" }, { 5, 50, 2, 5, "at 1:5" }, { 10, 100, 2, 3, "at 1:10" }, { 5, 50, 2, 5, "at 1:5" },
  { 10, 100, 2, 6, "at 1:10" }, { 20, 2, 2, 5, "at 1:20" }, { 50, 5, 2, 4, "at 1:50" }, { 20, 2, 2, 5, "at 1:20" }
};

#define SCALES 4        /* in each of the four groups */

static const br__topic_kind scale_kinds[] =
{
  { "full({0}, {1n})", 1, BR__ASK_LENGTH, 0, 0 },
  { "drawn({0}, {1n})", 1, BR__ASK_MARK, 0, 0 },
};

static int
draw_scale (br__problem *p, const br__plan *plan, br__random *r)
{
  int large = strstr (br__wording (plan->topic->name, plan->kind, plan->scene), "{S}") != NULL;
  size_t at = plan->words[0] % SCALES + (large ? SCALES : 0) + (plan->metric ? 2 * SCALES : 0);
  br__ratio times = br__ratio_of (scales[at].times, 1), other = br__ratio_of (scales[at].other, 1);
  br__ratio drawn = br__draw_length (plan, r, scales[at].low, scales[at].high, br__plan_den (plan, 1, plan->level / 2, plan->level));
  br__ratio full = br__ratio_mul (drawn, times);
  int back = plan->kind == 1;
  p->given[0] = back ? full : drawn;
  p->given[1] = br__ratio_of (1, times.num);
  p->count = p->all = 2;
  p->word = scales[at].name;
  p->carry = br__ratio_floor (br__ratio_mul (br__ratio_part (drawn), times)) > 0;
  p->answer = back ? drawn : full;
  br__problem_wrong (p, back ? br__ratio_mul (full, times) : br__ratio_div (drawn, times), BR__MISTAKE_SCALE);
  br__problem_wrong (p, back ? br__ratio_div (full, other) : br__ratio_mul (drawn, other), BR__MISTAKE_OTHER_SCALE);
  br__problem_wrong (p, p->given[0], BR__MISTAKE_AS_GIVEN);
  return 1;
}

const br__topic br__topic_scale =
{
  "scale", "drawn to full size and back", scale_kinds, 2, 0, 0, 0, draw_scale
};

static const br__topic_kind known_kinds[] =
{
  { "{2} * ({0l} / {1l})", 2, BR__ASK_LENGTH, 0, 0 },
  { "{2} / ({0l} / {1l})", 2, BR__ASK_MARK, 0, 0 },
};

#define MOST_KNOWN 9    /* inches */

static int
draw_known (br__problem *p, const br__plan *plan, br__random *r)
{
  br__ratio times = br__ratio_of ((int64_t) (2 + plan->words[0] % 7), 1);
  br__ratio shown = br__draw_length (plan, r, 0, 2, br__plan_den (plan, 1, 4, plan->level));
  br__ratio other = br__draw_length (plan, r, 1, 6, br__plan_den (plan, 2, 4, plan->level));
  br__ratio known = br__ratio_mul (shown, times), real = br__ratio_mul (other, times);
  br__ratio more = br__ratio_sub (known, shown);
  int back = plan->kind == 1;
  /* The wheel, the post, the pot is smaller than what it belongs to, and of a size to be held.  */
  if (br__ratio_cmp (known, br__plan_size (plan, 1)) < 0 || br__ratio_cmp (known, br__plan_size (plan, MOST_KNOWN)) > 0
      || br__ratio_cmp (other, br__ratio_add (shown, shown)) < 0)
    return 0;
  p->given[0] = known;
  p->given[1] = shown;
  p->given[2] = back ? real : other;
  p->count = p->all = 3;
  p->answer = back ? other : real;
  p->carry = br__ratio_floor (br__ratio_mul (br__ratio_part (other), times)) > 0;
  p->between[0] = !plan->metric && shown.num == 1;
  br__problem_wrong (p, back ? br__ratio_mul (real, times) : br__ratio_div (other, times), BR__MISTAKE_SCALE);
  br__problem_wrong (p, back ? br__ratio_sub (real, more) : br__ratio_add (other, more), BR__MISTAKE_DIFFERENCE);
  br__problem_wrong (p, p->given[2], BR__MISTAKE_AS_GIVEN);
  return 1;
}

const br__topic br__topic_known_size =
{
  "known size", "a scale from one known size", known_kinds, 2, 0, 0, 0, draw_known
};
