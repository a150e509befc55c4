/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_fill.c - the pieces for one stick that are worth most at given prices: a knapsack in whole
   numbers, by a table over lengths where that is small, else by branches with a bound.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/wide.h"
#include "exact/memory.h"
#include "exact/number.h"
#include "plan/cut.h"

#define MOST_CELLS (INT64_C (1) << 23)
#define MOST_NODES 20000
#define MOST_WORTH (INT64_C (1) << 61)

/* So many copies of a type taken or left as one.  */
typedef struct bundle
{
  size_t type;
  int64_t copies, size, price;
} bundle;

/* Types that are worth something and go in, as bundles of 1, 2, 4 ... copies: 0 to the limit can be
   made of them.  */
static size_t
make_bundles (bundle *bundles, const br__cut_job *job, const int64_t *prices, const int64_t *limit,
              int64_t room)
{
  size_t n = 0;
  for (size_t i = 0; i < job->types; i++)
    {
      int64_t most = job->size[i] <= room ? room / job->size[i] : 0;
      if (prices[i] <= 0)
        continue;
      if (most > limit[i])
        most = limit[i];
      for (int64_t copies = 1; most > 0; most -= copies, copies *= 2)
        {
          int64_t some = copies < most ? copies : most;
          bundles[n++] = (bundle) { i, some, some * job->size[i], some * prices[i] };
          copies = some;
        }
    }
  return n;
}

/* The table: the best worth for each length in steps of STEP, and whether a bundle was taken.  */
static br_status
by_table (int64_t *value, uint32_t *counts, const bundle *bundles, size_t n, int64_t room, int64_t step)
{
  size_t cells = (size_t) (room / step) + 1;
  int64_t *worth = br__alloc_zero (cells, sizeof *worth);
  unsigned char *taken = br__alloc_zero (cells * n + 1, 1);
  if (!worth || !taken)
    {
      br__free (worth);
      br__free (taken);
      return BR_NO_MEMORY;
    }
  for (size_t b = 0; b < n; b++)
    {
      size_t size = (size_t) (bundles[b].size / step);
      unsigned char *row = taken + b * cells;
      for (size_t c = cells; c-- > size; )
        if (worth[c - size] + bundles[b].price > worth[c])
          {
            worth[c] = worth[c - size] + bundles[b].price;
            row[c] = 1;
          }
    }
  size_t c = cells - 1;
  *value = worth[c];
  for (size_t b = n; b-- > 0; )
    if (taken[b * cells + c])
      {
        counts[bundles[b].type] += (uint32_t) bundles[b].copies;
        c -= (size_t) (bundles[b].size / step);
      }
  br__free (worth);
  br__free (taken);
  return BR_OK;
}

static int
dearer_first (const void *a, const void *b)
{
  const bundle *x = a, *y = b;
  int order = br__compare_products (y->price, x->size, x->price, y->size);
  if (order)
    return order;
  if (x->size != y->size)
    return x->size > y->size ? -1 : 1;
  return x->type < y->type ? -1 : x->type > y->type;
}

/* No more than this can be had in ROOM from bundles that begin with B.  */
static int64_t
worth_at_most (const bundle *b, const bundle *end, int64_t room)
{
  if (b == end)
    return 0;
  br__wide worth = br__wide_over (br__wide_product (b->price, room), br__wide_of (b->size));
  return br__wide_cmp (worth, br__wide_of (MOST_WORTH)) < 0 ? br__wide_low (worth) : MOST_WORTH;
}

/* Goes through the bundles, dearest by length first, each taken or left.  1 if all was seen.  */
static br_status
by_branches (int64_t *value, int64_t *bound, uint32_t *counts, bundle *bundles, size_t n, int64_t room)
{
  unsigned char *in = br__alloc_zero (n + 1, 1), *best = br__alloc_zero (n + 1, 1);
  int64_t left = room, worth = 0, most = 0;
  long nodes = 0;
  size_t i = 0;
  if (!in || !best)
    {
      br__free (in);
      br__free (best);
      return BR_NO_MEMORY;
    }
  qsort (bundles, n, sizeof *bundles, dearer_first);
  while (++nodes <= MOST_NODES)
    {
      /* Forward as long as more than the best may come of it, taking what goes in.  */
      for (; i < n && worth + worth_at_most (bundles + i, bundles + n, left) > most; i++)
        if ((in[i] = bundles[i].size <= left) != 0)
          {
            left -= bundles[i].size;
            worth += bundles[i].price;
          }
      if (worth > most)
        {
          most = worth;
          memset (best, 0, n);
          memcpy (best, in, i);
        }
      /* Back to the last one taken, which is left from now on.  */
      while (i > 0 && !in[i - 1])
        i--;
      if (i == 0)
        break;
      in[i - 1] = 0;
      left += bundles[i - 1].size;
      worth -= bundles[i - 1].price;
    }
  *value = most;
  *bound = nodes <= MOST_NODES ? most : worth_at_most (bundles, bundles + n, room);
  for (size_t b = 0; b < n; b++)
    if (best[b])
      counts[bundles[b].type] += (uint32_t) bundles[b].copies;
  br__free (in);
  br__free (best);
  return BR_OK;
}

br_status
br__cut_fill (int64_t *value, int64_t *bound, uint32_t *counts, const br__cut_job *job,
              const int64_t *prices, const int64_t *limit, int64_t room)
{
  bundle *bundles = br__alloc_zero (job->types * 18 + 1, sizeof *bundles);
  uint64_t step = 0;
  br_status status = bundles ? BR_OK : BR_NO_MEMORY;

  *value = *bound = 0;
  memset (counts, 0, job->types * sizeof *counts);
  size_t n = status == BR_OK ? make_bundles (bundles, job, prices, limit, room) : 0;
  for (size_t i = 0; i < n; i++)
    step = step == 0 ? (uint64_t) bundles[i].size : br__gcd (step, (uint64_t) bundles[i].size);
  if (n > 0 && room / (int64_t) step < MOST_CELLS / (int64_t) n)
    {
      status = by_table (value, counts, bundles, n, room, (int64_t) step);
      *bound = *value;
    }
  else if (n > 0)
    status = by_branches (value, bound, counts, bundles, n, room);
  br__free (bundles);
  return status;
}
