/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_fit.c - a bound from sums, first fit, and trying all ways of a small job.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "plan/cut.h"

static int64_t
up_division (int64_t n, int64_t d)
{
  return n <= 0 ? 0 : (n - 1) / d + 1;
}

/* Martello and Toth's bound L2 ("Lower bounds and reduction procedures for the bin packing problem",
   1990; from memory).  For a threshold: a piece so long that no piece of at least the threshold fits next
   to it needs its own stick, and so does a piece over half a stick; the others need as many more
   sticks as their sum requires.  One pass from the largest threshold down.  */
int64_t
br__cut_bound (const br__cut_job *job)
{
  int64_t best = 0, total = 0, half_count = 0, half_sum = 0, rest_sum = 0;
  int64_t alone = 0, alone_sum = 0;
  size_t first_rest = 0, next_alone;

  for (size_t i = 0; i < job->types; i++)
    total += job->size[i] * job->demand[i];
  best = up_division (total, job->room);
  for (; first_rest < job->types && 2 * job->size[first_rest] > job->room; first_rest++)
    {
      half_count += job->demand[first_rest];
      half_sum += job->size[first_rest] * job->demand[first_rest];
    }
  if (half_count > best)
    best = half_count;
  /* As the threshold grows, more pieces of over half stand alone and fewer are shorter.  */
  for (size_t i = first_rest; i < job->types; i++)
    rest_sum += job->size[i] * job->demand[i];
  next_alone = 0;
  for (size_t i = job->types; i-- > first_rest; )
    {
      int64_t threshold = job->size[i];
      while (next_alone < first_rest && job->size[next_alone] > job->room - threshold)
        {
          alone += job->demand[next_alone];
          alone_sum += job->size[next_alone] * job->demand[next_alone];
          next_alone++;
        }
      int64_t shared = (half_count - alone) * job->room - (half_sum - alone_sum);
      int64_t bound = half_count + up_division (rest_sum - shared, job->room);
      if (bound > best)
        best = bound;
      rest_sum -= job->size[i] * job->demand[i];
    }
  return best;
}

/* A tree over sticks in which each node has the most room of those below, to find the first stick
   that a piece goes into.  */
typedef struct finder
{
  int64_t *most;
  size_t leaves;
} finder;

static size_t
find_first (const finder *f, int64_t size)
{
  size_t node = 1;
  while (node < f->leaves)
    {
      node *= 2;
      if (f->most[node] < size)
        node++;
    }
  return node - f->leaves;
}

static void
take (finder *f, size_t stick, int64_t amount)
{
  size_t node = stick + f->leaves;
  f->most[node] -= amount;
  for (node /= 2; node > 0; node /= 2)
    f->most[node] = f->most[2 * node] > f->most[2 * node + 1] ? f->most[2 * node] : f->most[2 * node + 1];
}

/* The pieces in the order of their sticks, from WHERE, the stick of each of the pieces (all of the
   first size, then all of the second ...).  */
static br_status
plan_from_sticks (br__cut_plan *plan, const br__cut_job *job, const uint32_t *where, size_t sticks)
{
  br__cut_plan made = { .sticks = sticks };
  size_t piece = 0;
  made.start = br__alloc_zero (sticks + 2, sizeof *made.start);
  made.type = br__alloc_zero (job->pieces, sizeof *made.type);
  if (!made.start || !made.type)
    {
      br__cut_plan_clear (&made);
      return BR_NO_MEMORY;
    }
  /* START is kept one further on while it is being counted up.  */
  for (size_t i = 0; i < job->pieces; i++)
    made.start[where[i] + 2]++;
  for (size_t i = 2; i < sticks + 2; i++)
    made.start[i] += made.start[i - 1];
  for (size_t i = 0; i < job->types; i++)
    for (int64_t n = 0; n < job->demand[i]; n++)
      made.type[made.start[where[piece++] + 1]++] = (uint32_t) i;
  br__cut_plan_clear (plan);
  *plan = made;
  return BR_OK;
}

br_status
br__cut_first_fit (br__cut_plan *plan, const br__cut_job *job)
{
  finder f = { NULL, 1 };
  uint32_t *where = br__alloc_zero (job->pieces, sizeof *where);
  size_t sticks = 0, piece = 0;
  br_status status = BR_NO_MEMORY;

  while (f.leaves < job->pieces)
    f.leaves *= 2;
  f.most = br__alloc_zero (2 * f.leaves, sizeof *f.most);
  if (!where || !f.most)
    goto out;
  for (size_t i = 1; i < 2 * f.leaves; i++)
    f.most[i] = job->room;
  for (size_t i = 0; i < job->types; i++)
    for (int64_t n = 0; n < job->demand[i]; n++)
      {
        size_t stick = find_first (&f, job->size[i]);
        take (&f, stick, job->size[i]);
        where[piece++] = (uint32_t) stick;
        if (stick >= sticks)
          sticks = stick + 1;
      }
  status = plan_from_sticks (plan, job, where, sticks);
out:
  br__free (where);
  br__free (f.most);
  return status;
}

br_status
br__cut_fullest (br__cut_plan *plan, const br__cut_job *job, const br__cut_control *c)
{
  int64_t *left = br__alloc_zero (job->types, sizeof *left);
  uint32_t *counts = br__alloc_zero (job->types, sizeof *counts);
  size_t *start = br__alloc_zero (job->pieces + 1, sizeof *start);
  uint32_t *type = br__alloc_zero (job->pieces, sizeof *type);
  size_t sticks = 0, placed = 0, longest = 0;
  int64_t value, bound;
  br_status status = left && counts && start && type ? BR_OK : BR_NO_MEMORY;

  if (status == BR_OK)
    memcpy (left, job->demand, job->types * sizeof *left);
  while (status == BR_OK && placed < job->pieces && !br__cut_stop (c))
    {
      while (left[longest] == 0)
        longest++;
      left[longest]--;
      type[placed++] = (uint32_t) longest;
      status = br__cut_fill (&value, &bound, counts, job, job->size, left, job->room - job->size[longest]);
      for (size_t i = longest; status == BR_OK && i < job->types; i++)
        for (left[i] -= counts[i]; counts[i] > 0; counts[i]--)
          type[placed++] = (uint32_t) i;
      start[++sticks] = placed;
    }
  if (status == BR_OK && placed == job->pieces)
    {
      br__cut_plan_clear (plan);
      *plan = (br__cut_plan) { .sticks = sticks, .start = start, .type = type };
      start = NULL;
      type = NULL;
    }
  br__free (left);
  br__free (counts);
  br__free (start);
  br__free (type);
  return status;
}

/* ---- All ways ---- */

#define MOST_PIECES 64
#define MOST_NODES 300000

typedef struct walk
{
  const br__cut_job *job;
  int64_t size[MOST_PIECES], left[MOST_PIECES], rest[MOST_PIECES + 1];
  uint32_t type[MOST_PIECES], where[MOST_PIECES], best_where[MOST_PIECES];
  size_t count, used, best;
  int64_t least, nodes;
} walk;

/* Puts piece I and those behind it; 1 when the least is reached or nodes ran out.  The depth is that of
   the pieces, 64 at most.  */
static int
place (walk *w, size_t i)
{
  int64_t open = 0;
  if (i == w->count)
    {
      w->best = w->used;
      memcpy (w->best_where, w->where, sizeof w->where);
      return (int64_t) w->best <= w->least;
    }
  if (++w->nodes > MOST_NODES)
    return 1;
  for (size_t s = 0; s < w->used; s++)
    open += w->left[s] >= w->size[w->count - 1] ? w->left[s] : 0;
  if ((int64_t) w->used + up_division (w->rest[i] - open, w->job->room) >= (int64_t) w->best)
    return 0;
  /* A piece like the one before goes no earlier than that; sticks with the same room are one.  */
  size_t first = i > 0 && w->type[i] == w->type[i - 1] ? w->where[i - 1] : 0;
  for (size_t s = first; s <= w->used && s + 1 < w->best + (s < w->used); s++)
    {
      int seen = w->left[s] < w->size[i];
      for (size_t k = first; k < s && !seen; k++)
        seen = w->left[k] == w->left[s];
      if (seen)
        continue;
      int fresh = s == w->used;
      w->where[i] = (uint32_t) s;
      w->left[s] -= w->size[i];
      w->used += (size_t) fresh;
      int done = place (w, i + 1);
      w->used -= (size_t) fresh;
      w->left[s] += w->size[i];
      if (done)
        return 1;
    }
  return 0;
}

br_status
br__cut_all_ways (br__cut_plan *best, const br__cut_job *job, int64_t *least, br__cut_control *c)
{
  if (job->pieces > MOST_PIECES)
    return BR_OK;
  walk *w = br__alloc_zero (1, sizeof *w);
  br_status status = BR_OK;
  if (!w)
    return BR_NO_MEMORY;
  br__cut_tell (c, "all ways");
  w->job = job;
  w->least = *least;
  w->best = best->sticks;
  for (size_t i = 0; i < job->types; i++)
    for (int64_t n = 0; n < job->demand[i]; n++)
      {
        w->size[w->count] = job->size[i];
        w->left[w->count] = job->room;
        w->type[w->count++] = (uint32_t) i;
      }
  for (size_t i = w->count; i-- > 0; )
    w->rest[i] = w->rest[i + 1] + w->size[i];
  place (w, 0);
  if (w->best < best->sticks)
    status = plan_from_sticks (best, job, w->best_where, w->best);
  if (w->nodes <= MOST_NODES)
    *least = (int64_t) w->best;
  br__free (w);
  return status;
}
