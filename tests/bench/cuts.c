/* SPDX-License-Identifier: GPL-3.0-or-later
   cuts.c - how good cutting plans are, and how long they take: 200 parts of 20 sizes, proved best
   within 2 s on most random jobs; 10,000 parts within 2 s, at most one stick in a hundred over the
   bound.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <stdlib.h>

#include "plan/cut.h"
#include "solver.h"

#define MILLISECONDS 2000
#define PARTS 10000

static uint64_t seed = UINT64_C (0x62656e6368);

static int64_t
between (int64_t low, int64_t high)
{
  seed ^= seed << 13;
  seed ^= seed >> 7;
  seed ^= seed << 17;
  return low + (int64_t) (seed % (uint64_t) (high - low + 1));
}

typedef struct result
{
  int proved;
  double over;                  /* sticks over the bound, in hundredths of them */
  int64_t milliseconds;
} result;

/* A job of SIZES sizes on the 1/16 ruler, EACH of each, out of 8 ft with a kerf of 1/8 in.  */
static result
one (size_t sizes, int64_t each, int64_t shortest, int64_t longest)
{
  static int64_t length[PARTS], demand[PARTS];
  br__cut_control c = { .solver = &solver_glpk, .milliseconds = MILLISECONDS };
  br__cut_plan plan = BR__CUT_PLAN_ZERO;
  for (size_t i = 0; i < sizes; i++)
    length[i] = between (16 * shortest, 16 * longest), demand[i] = each;
  br__cut_begin (&c);
  if (br__cut_sticks (&plan, 96 * 16, 2, length, demand, sizes, &c, NULL) != BR_OK)
    exit (1);
  result r = { (int64_t) plan.sticks == plan.least,
               100.0 * (double) ((int64_t) plan.sticks - plan.least) / (double) plan.least,
               br__cut_elapsed (&c) };
  br__cut_plan_clear (&plan);
  return r;
}

static int
many (const char *name, int jobs, size_t sizes, int64_t each, int64_t shortest, int64_t longest)
{
  int proved = 0;
  double over = 0;
  int64_t slowest = 0;
  for (int i = 0; i < jobs; i++)
    {
      result r = one (sizes, each, shortest, longest);
      proved += r.proved;
      over = r.over > over ? r.over : over;
      slowest = r.milliseconds > slowest ? r.milliseconds : slowest;
    }
  printf ("%-40s proved best %3d of %3d, at most %.2f %% over the bound, slowest %lld ms\n", name, proved,
          jobs, over, (long long) slowest);
  return sizes == 20 && each == 10 ? 2 * proved > jobs : over <= 1 && slowest <= MILLISECONDS + 200;
}

int
main (void)
{
  int good = many ("200 parts of 20 sizes, 2 to 48 in", 100, 20, 10, 2, 48);
  good &= many ("200 parts of 20 sizes, 10 to 40 in", 100, 20, 10, 10, 40);
  good &= many ("10,000 parts of 10,000 sizes, 2 to 48 in", 10, PARTS, 1, 2, 48);
  good &= many ("10,000 parts of 10,000 sizes, 1 to 96 in", 10, PARTS, 1, 1, 96);
  good &= many ("10,000 parts of 20 sizes, 2 to 48 in", 10, 20, 500, 2, 48);
  puts (good ? "both targets are reached" : "a target is missed");
  return good ? 0 : 1;
}
