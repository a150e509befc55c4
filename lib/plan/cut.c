/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut.c - plans for sticks: makes a job from lengths, tries the planning methods, and makes the plan from the result.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "plan/cut.h"

/* Milliseconds.  */
#define TELL_EVERY 200

/* Past these, patterns are too many to find in the time.  */
#define MOST_PATTERN_TYPES 300
#define MOST_FULLEST_TYPES 400
#define MOST_FULLEST_PIECES 4000

static int64_t
now (void)
{
  struct timespec t;
  clock_gettime (CLOCK_MONOTONIC, &t);
  return (int64_t) t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

void
br__cut_begin (br__cut_control *c)
{
  c->began = now ();
  c->told = 0;
}

int64_t
br__cut_elapsed (const br__cut_control *c)
{
  return now () - c->began;
}

int
br__cut_stop (const br__cut_control *c)
{
  return (c->flag && *c->flag) || br__cut_elapsed (c) >= c->milliseconds;
}

void
br__cut_tell (br__cut_control *c, const char *what)
{
  int64_t elapsed = br__cut_elapsed (c);
  if (!c->progress || elapsed < c->told + TELL_EVERY)
    return;
  c->told = elapsed;
  int64_t part = elapsed * 100 / c->milliseconds;
  c->progress (c->user, what, part > 100 ? 100 : (int) part);
}

void
br__cut_plan_clear (br__cut_plan *plan)
{
  br__free (plan->start);
  br__free (plan->type);
  memset (plan, 0, sizeof *plan);
}

/* A length and where it stood in the caller's list.  */
typedef struct row
{
  int64_t size, demand;
  size_t index;
} row;

static int
longer_first (const void *a, const void *b)
{
  const row *x = a, *y = b;
  if (x->size != y->size)
    return x->size > y->size ? -1 : 1;
  return x->index < y->index ? -1 : x->index > y->index;
}

static br_status
check_input (int64_t stick, int64_t kerf, const int64_t *length, const int64_t *demand, size_t count,
             br_error *error)
{
  int64_t pieces = 0;
  if (stick > BR__CUT_MAX_SIZE || kerf > BR__CUT_MAX_SIZE)
    return br__fail (error, BR_TOO_BIG, 0, 0, "sizes too finely divided to plan with");
  if (kerf < 0 || kerf >= stick)
    return br__fail (error, BR_DOMAIN, SIZE_MAX, 0, "the kerf is as wide as the stock is long");
  for (size_t i = 0; i < count; i++)
    {
      if (length[i] < 1 || length[i] > stick)
        return br__fail (error, BR_DOMAIN, i, 0, length[i] < 1 ? "a length of zero or less"
                                                               : "longer than the stock");
      if (demand[i] < 0 || demand[i] > BR__CUT_MAX_PIECES - pieces)
        return br__fail (error, BR_TOO_BIG, i, 0, "a plan for more than %d pieces",
                         BR__CUT_MAX_PIECES);
      pieces += demand[i];
    }
  return BR_OK;
}

/* The job's sizes, equal ones as one; ROWS gets the lengths sorted.  */
static void
make_job (br__cut_job *job, row *rows, int64_t stick, int64_t kerf, const int64_t *length,
          const int64_t *demand, size_t count)
{
  size_t n = 0;
  for (size_t i = 0; i < count; i++)
    if (demand[i] > 0)
      rows[n++] = (row) { length[i] + kerf, demand[i], i };
  qsort (rows, n, sizeof *rows, longer_first);
  job->room = stick + kerf;
  for (size_t i = 0; i < n; i++)
    {
      if (!job->types || job->size[job->types - 1] != rows[i].size)
        {
          job->size[job->types] = rows[i].size;
          job->demand[job->types++] = 0;
        }
      job->demand[job->types - 1] += rows[i].demand;
      job->pieces += (size_t) rows[i].demand;
    }
}

/* Puts the caller's rows in place of the sizes of the job.  */
static br_status
name_pieces (br__cut_plan *plan, const br__cut_job *job, row *rows, size_t count)
{
  size_t *next = br__alloc_zero (job->types + 1, sizeof *next);
  size_t type = 0;
  if (!next)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < count && type < job->types; i++)
    if (rows[i].size != job->size[type])
      next[++type] = i;
  for (size_t i = 0; i < plan->start[plan->sticks]; i++)
    {
      row *r = &rows[next[plan->type[i]]];
      while (r->demand == 0)
        r++, next[plan->type[i]]++;
      r->demand--;
      plan->type[i] = (uint32_t) r->index;
    }
  br__free (next);
  return BR_OK;
}

/* Keeps the better of two plans in BEST.  */
static void
keep_better (br__cut_plan *best, br__cut_plan *other)
{
  if (other->start && (!best->start || other->sticks < best->sticks))
    {
      br__cut_plan swap = *best;
      *best = *other;
      *other = swap;
    }
  br__cut_plan_clear (other);
}

static br_status
search (br__cut_plan *best, const br__cut_job *job, br__cut_control *c)
{
  br__cut_plan other = BR__CUT_PLAN_ZERO;
  int64_t least = br__cut_bound (job);
  br_status status = br__cut_first_fit (best, job);

  if (status == BR_OK && (int64_t) best->sticks > least && !br__cut_stop (c)
      && job->types <= MOST_FULLEST_TYPES && job->pieces <= MOST_FULLEST_PIECES)
    {
      status = br__cut_fullest (&other, job, c);
      keep_better (best, &other);
    }
  if (status == BR_OK && (int64_t) best->sticks > least && !br__cut_stop (c))
    status = br__cut_all_ways (best, job, &least, c);
  if (status == BR_OK && (int64_t) best->sticks > least && !br__cut_stop (c) && c->solver
      && job->types <= MOST_PATTERN_TYPES)
    status = br__cut_by_patterns (best, job, &least, c);
  best->least = least;
  best->stopped = (int64_t) best->sticks > least && br__cut_stop (c);
  return status;
}

br_status
br__cut_sticks (br__cut_plan *plan, int64_t stick, int64_t kerf, const int64_t *length,
                const int64_t *demand, size_t count, br__cut_control *control, br_error *error)
{
  br__cut_plan best = BR__CUT_PLAN_ZERO;
  row *rows = br__alloc_zero (count, sizeof *rows);
  br__cut_job job = { 0, 0, br__alloc_zero (count, sizeof (int64_t)),
                      br__alloc_zero (count, sizeof (int64_t)), 0 };
  br_status status = check_input (stick, kerf, length, demand, count, error);

  if (status != BR_OK)
    goto out;
  status = BR_NO_MEMORY;
  if (!rows || !job.size || !job.demand)
    goto out;
  make_job (&job, rows, stick, kerf, length, demand, count);
  status = search (&best, &job, control);
  if (status == BR_OK)
    status = name_pieces (&best, &job, rows, count);
  if (status == BR_OK)
    {
      br__cut_plan_clear (plan);
      *plan = best;
      memset (&best, 0, sizeof best);
    }
out:
  br__cut_plan_clear (&best);
  br__free (rows);
  br__free (job.size);
  br__free (job.demand);
  return status == BR_NO_MEMORY ? br__fail_plain (error, status, 0, 0) : status;
}
