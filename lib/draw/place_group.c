/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_group.c - the same places as one, and which are joined (union and find).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>

#include "draw/place_group.h"
#include "exact/memory.h"

/* Two places on paper that are the same but for the last digits of the grid.  */
#define SAME 4

int
br__place_groups_open (br__place_groups *g, size_t most)
{
  g->at = br__alloc_zero (most, sizeof *g->at);
  g->parent = br__alloc_zero (most, sizeof *g->parent);
  return g->at && g->parent;
}

void
br__place_groups_clear (br__place_groups *g)
{
  br__free (g->at);
  br__free (g->parent);
}

static int
compare_places (const void *x, const void *y)
{
  int64_t a = *(const int64_t *) x, b = *(const int64_t *) y;
  return a < b ? -1 : a > b;
}

void
br__place_groups_make (br__place_groups *g, size_t n)
{
  qsort (g->at, n, sizeof *g->at, compare_places);
  for (size_t i = 0; i < n; i++)
    if (!g->count || g->at[i] > g->at[g->count - 1] + SAME)
      g->at[g->count++] = g->at[i];
  for (size_t i = 0; i < g->count; i++)
    g->parent[i] = i;
}

size_t
br__place_group_of (const br__place_groups *g, int64_t at)
{
  size_t low = 0, high = g->count;
  while (low < high)
    {
      size_t middle = (low + high) / 2;
      if (g->at[middle] + SAME < at)
        low = middle + 1;
      else
        high = middle;
    }
  return low < g->count ? low : g->count - 1;
}

size_t
br__place_group_root (br__place_groups *g, size_t group)
{
  while (g->parent[group] != group)
    group = g->parent[group] = g->parent[g->parent[group]];
  return group;
}

void
br__place_groups_unite (br__place_groups *g, size_t group, size_t other)
{
  g->parent[br__place_group_root (g, group)] = br__place_group_root (g, other);
}
