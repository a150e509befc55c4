/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_pattern.c - plans from patterns (a pattern is a set of pieces for one stick), by column
   generation, as in Gilmore and Gomory, "A linear programming approach to the cutting stock
   problem" (1961).

   The solver gives approximate prices of pieces.  Any prices prove a bound: if no stick can hold
   pieces worth more than W, then pieces worth P together need P / W sticks (Farley, "A note
   on bounding a class of linear programming problems", 1990).  P and W are integers, W from an
   exact knapsack.  Fractional uses of patterns are made whole by diving: the whole part is fixed, and the
   rest is solved again.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/wide.h"
#include "exact/memory.h"
#include "plan/cut.h"

/* Prices are wrong by some thousand millionths; a pattern must promise more than that.  */
#define WORTH_ADDING (BR_COVER_ONE + (BR_COVER_ONE >> 24))
#define MOST_COLUMNS 4000

typedef struct pool
{
  const br__cut_job *job;
  br__cut_control *control;
  uint32_t *counts;             /* columns * types */
  size_t columns, room;
  int64_t *uses;                /* a column each */
  size_t uses_room;
  int64_t *prices, *left;       /* a type each */
  uint32_t *fresh;
  uint64_t seed;
} pool;

static br_status
add_column (pool *p, const uint32_t *counts)
{
  size_t types = p->job->types;
  if (!br__grow (&p->counts, &p->room, (p->columns + 1) * types, sizeof *p->counts)
      || !br__grow (&p->uses, &p->uses_room, p->columns + 1, sizeof *p->uses))
    return BR_NO_MEMORY;
  memcpy (p->counts + p->columns * types, counts, types * sizeof *counts);
  p->uses[p->columns++] = 0;
  return BR_OK;
}

/* A pattern for each stick of a plan but those like the one before, and one for each size, so that any
   demand can be met.  */
static br_status
first_columns (pool *p, const br__cut_plan *plan)
{
  size_t types = p->job->types;
  br_status status = BR_OK;
  for (size_t i = 0; i < types && status == BR_OK; i++)
    {
      int64_t most = p->job->room / p->job->size[i];
      memset (p->fresh, 0, types * sizeof *p->fresh);
      p->fresh[i] = (uint32_t) (most < p->job->demand[i] ? most : p->job->demand[i]);
      status = add_column (p, p->fresh);
    }
  for (size_t s = 0; s < plan->sticks && status == BR_OK; s++)
    {
      memset (p->fresh, 0, types * sizeof *p->fresh);
      for (size_t i = plan->start[s]; i < plan->start[s + 1]; i++)
        p->fresh[plan->type[i]]++;
      const uint32_t *last = p->counts + (p->columns - 1) * types;
      if (memcmp (last, p->fresh, types * sizeof *p->fresh) != 0)
        status = add_column (p, p->fresh);
    }
  return status;
}

/* Raises *LEAST to the bound that the prices prove; no stick can hold pieces worth more than WORTH.  */
static void
prove (int64_t *least, const pool *p, int64_t worth)
{
  br__wide total = br__wide_of (0);
  for (size_t i = 0; i < p->job->types; i++)
    total = br__wide_add (total, br__wide_product (p->prices[i], p->job->demand[i]));
  if (worth > 0)
    {
      int64_t bound = br__wide_low (br__wide_over_up (total, br__wide_of (worth)));
      if (bound > *least)
        *least = bound;
    }
}

/* Adds patterns until none is worth it for the demand DEMAND, and leaves uses and prices.  LEAST (may
   be NULL, and is where DEMAND is not the whole job's) rises with what is proved; ENOUGH ends it.  */
static br_status
price_out (pool *p, const int64_t *demand, int64_t *least, int64_t enough)
{
  const br_solver *solver = p->control->solver;
  size_t types = p->job->types;
  br_status status = BR_OK;
  while (status == BR_OK && !br__cut_stop (p->control))
    {
      br_cover cover = { types, p->columns, p->counts, demand };
      int64_t value = 0, bound = 0;
      memset (p->uses, 0, p->columns * sizeof *p->uses);
      if (!solver->relax (p->uses, p->prices, &cover))
        return BR_DOMAIN;
      for (size_t i = 0; i < types; i++)
        if (p->prices[i] < 0 || p->prices[i] > BR_COVER_ONE)
          p->prices[i] = p->prices[i] < 0 ? 0 : BR_COVER_ONE;
      status = br__cut_fill (&value, &bound, p->fresh, p->job, p->prices, demand, p->job->room);
      if (status == BR_OK && least)
        prove (least, p, bound);
      if (status != BR_OK || value <= WORTH_ADDING || (least && *least >= enough)
          || p->columns >= MOST_COLUMNS)
        break;
      status = add_column (p, p->fresh);
      if (least)
        br__cut_tell (p->control, "patterns");
    }
  return status;
}

/* ---- From patterns to a plan ---- */

typedef struct builder
{
  br__cut_plan plan;
  size_t placed;
} builder;

static br_status
builder_start (builder *b, const br__cut_job *job)
{
  memset (b, 0, sizeof *b);
  b->plan.start = br__alloc_zero (job->pieces + 1, sizeof *b->plan.start);
  b->plan.type = br__alloc_zero (job->pieces, sizeof *b->plan.type);
  return b->plan.start && b->plan.type ? BR_OK : BR_NO_MEMORY;
}

/* Cuts a stick by COUNTS, of each size no more than is LEFT; nothing if it came out empty.  */
static void
cut_one (builder *b, size_t types, const uint32_t *counts, int64_t *left)
{
  size_t before = b->placed;
  for (size_t i = 0; i < types; i++)
    for (uint32_t n = 0; n < counts[i] && left[i] > 0; n++, left[i]--)
      b->plan.type[b->placed++] = (uint32_t) i;
  if (b->placed > before)
    b->plan.start[++b->plan.sticks] = b->placed;
}

static int
all_done (const int64_t *left, size_t types)
{
  for (size_t i = 0; i < types; i++)
    if (left[i] > 0)
      return 0;
  return 1;
}

/* Takes the plan of B over into BEST if it is whole and better.  */
static void
builder_finish (builder *b, br__cut_plan *best, const br__cut_job *job)
{
  if (b->placed == job->pieces && b->plan.sticks < best->sticks)
    {
      br__cut_plan swap = *best;
      *best = b->plan;
      b->plan = swap;
    }
  br__cut_plan_clear (&b->plan);
}

static uint64_t
next_random (pool *p)
{
  p->seed ^= p->seed << 13;
  p->seed ^= p->seed >> 7;
  return p->seed ^= p->seed << 17;
}

/* The pattern to use once more when none is used whole: that with the largest part, or by chance one
   near it.  */
static size_t
choose_column (pool *p, int by_chance)
{
  int64_t most = -1;
  size_t best = 0;
  for (size_t j = 0; j < p->columns; j++)
    {
      int64_t u = p->uses[j];
      if (by_chance && u > 0)
        u += (int64_t) (next_random (p) % (uint64_t) (BR_COVER_ONE / 3));
      if (u > most)
        most = u, best = j;
    }
  return best;
}

/* One dive, starting from the fractional uses for the whole job.  */
static br_status
dive (pool *p, br__cut_plan *best, int64_t least, int by_chance)
{
  size_t types = p->job->types;
  builder b;
  br_status status = builder_start (&b, p->job);
  memcpy (p->left, p->job->demand, types * sizeof *p->left);
  while (status == BR_OK && !all_done (p->left, types) && !br__cut_stop (p->control)
         && b.plan.sticks < best->sticks)
    {
      size_t before = b.plan.sticks;
      status = price_out (p, p->left, NULL, least);
      for (size_t j = 0; j < p->columns && status == BR_OK; j++)
        for (int64_t n = p->uses[j] / BR_COVER_ONE; n > 0 && b.plan.sticks < best->sticks; n--)
          cut_one (&b, types, p->counts + j * types, p->left);
      if (b.plan.sticks == before && status == BR_OK)
        cut_one (&b, types, p->counts + choose_column (p, by_chance) * types, p->left);
      if (b.plan.sticks == before)
        break;
    }
  builder_finish (&b, best, p->job);
  return status;
}

/* Asks the solver for whole uses of the patterns found so far.  */
static br_status
whole_uses (pool *p, br__cut_plan *best, int64_t least, int milliseconds)
{
  size_t types = p->job->types;
  br_cover cover = { types, p->columns, p->counts, p->job->demand };
  builder b;
  br_status status = BR_OK;
  memset (p->uses, 0, p->columns * sizeof *p->uses);
  if (!p->control->solver->whole (p->uses, &cover, least, milliseconds, p->control->flag))
    return BR_OK;
  status = builder_start (&b, p->job);
  memcpy (p->left, p->job->demand, types * sizeof *p->left);
  for (size_t j = 0; j < p->columns && status == BR_OK; j++)
    for (int64_t n = p->uses[j]; n > 0 && b.plan.sticks < best->sticks; n--)
      cut_one (&b, types, p->counts + j * types, p->left);
  builder_finish (&b, best, p->job);
  return status;
}

static br_status
run (pool *p, br__cut_plan *best, int64_t *least)
{
  br_status status = price_out (p, p->job->demand, least, (int64_t) best->sticks);
  for (int round = 0; status == BR_OK && (int64_t) best->sticks > *least && !br__cut_stop (p->control);
       round++)
    {
      status = dive (p, best, *least, round > 0);
      br__cut_tell (p->control, "whole patterns");
      if (status == BR_OK && (int64_t) best->sticks > *least && round % 8 == 3
          && !br__cut_stop (p->control))
        status = whole_uses (p, best, *least, 150 * (1 + round / 8));
      if (p->columns >= MOST_COLUMNS || round >= 200)
        break;
    }
  return status;
}

br_status
br__cut_by_patterns (br__cut_plan *best, const br__cut_job *job, int64_t *least,
                     br__cut_control *c)
{
  pool p = { .job = job, .control = c, .seed = UINT64_C (0x9e3779b97f4a7c15) };
  br_status status = BR_NO_MEMORY;
  p.prices = br__alloc_zero (job->types, sizeof *p.prices);
  p.left = br__alloc_zero (job->types, sizeof *p.left);
  p.fresh = br__alloc_zero (job->types, sizeof *p.fresh);
  if (p.prices && p.left && p.fresh)
    status = first_columns (&p, best);
  if (status == BR_OK)
    status = run (&p, best, least);
  br__free (p.counts);
  br__free (p.uses);
  br__free (p.prices);
  br__free (p.left);
  br__free (p.fresh);
  /* A solver that gave up leaves the plan as good as it was.  */
  return status == BR_DOMAIN ? BR_OK : status;
}
