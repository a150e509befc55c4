/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_search.h - what find_root.c and find_step.c share of a search for roots.  */
#ifndef BR_SOLVE_FIND_SEARCH_H
#define BR_SOLVE_FIND_SEARCH_H

#include "solve/find.h"

#define BR__MOST_STRETCHES 96

typedef struct br__stretch
{
  br_number low, high;
} br__stretch;

typedef struct br__finder
{
  const br__program *t;
  br__enclosure *e;
  br__roots *roots;
  br__stretch waiting[BR__MOST_STRETCHES];
  size_t count, boxes;
  const volatile sig_atomic_t *flag;
} br__finder;

/* SIGN of the formula at X; 2 where it has no value there.  */
br_status br__finder_sign (int *sign, br__finder *f, const br_number *x);
/* The root X, if the formula has a value there and it was not added before.  */
br_status br__finder_add (br__finder *f, const br_number *x);
/* Nothing is decided from LOW to HIGH.  */
br_status br__finder_leave (br__finder *f, const br_number *low, const br_number *high);
/* Z = the plainest fraction of LOW .. HIGH.  */
br_status br__plainest (br_number *z, const br_number *low, const br_number *high);

/* find_step.c.  A stretch, enclosed with its slopes, over which the formula is one value.  */
br_status br__finder_flat (br__finder *f, const br__stretch *s);
/* A stretch too narrow to be halved in which a step jumps.  */
br_status br__finder_jump (br__finder *f, const br__stretch *s);
/* A stretch too narrow to be halved in which X is a root, a corner or the one jump: X and its two sides.  */
br_status br__finder_sides (br__finder *f, const br__stretch *s, const br_number *x);
/* When all is done: a size of each range of roots stands for it.  */
br_status br__finder_ranges (br__roots *r);

#endif
