/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_search.h - what find_root.c and find_step.c share of a search for roots.  */
#ifndef BR_SOLVE_FIND_SEARCH_H
#define BR_SOLVE_FIND_SEARCH_H

#include "solve/find.h"

#define BR__MOST_STRETCHES 200

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
  br_number away[BR__MOST_STRETCHES];   /* how far each lies from where the search begins */
  size_t count, boxes;
  size_t doubts;                /* signs that were not decided */
  const volatile sig_atomic_t *flag;
} br__finder;

/* SIGN of the formula at X; 2 where it has no value there.  */
br_status br__finder_sign (int *sign, br__finder *f, const br_number *x);
/* The root X, if the formula has a value there and it was not added before.  */
br_status br__finder_add (br__finder *f, const br_number *x);
/* Records that nothing is decided from LOW to HIGH.  */
br_status br__finder_leave (br__finder *f, const br_number *low, const br_number *high);

/* find_band.c.  The roots of S: not known; single ones at most; at its ends at most; S throughout.  */
typedef enum br__band { BR__BAND_UNKNOWN, BR__BAND_POINTS, BR__BAND_ENDS, BR__BAND_ZERO } br__band;
br_status br__finder_band (br__band *found, br__finder *f, const br__stretch *s);
/* If the formula may be zero at MID, tests whether it is zero on all of S.  If so, adds S as a range of roots and sets *DONE
   to 1.  */
br_status br__finder_take_band (int *done, br__finder *f, const br__stretch *s, const br_number *mid);

/* find_rows.c, the rows of a search.  A root, exactly VALUE or, where that is NULL, between LOW and HIGH.  */
br_status br__roots_add (br__roots *r, const br_real *value, const br_number *low, const br_number *high);
/* From LOW to HIGH all is zero.  */
br_status br__roots_add_range (br__roots *r, const br_number *low, br__end low_end, const br_number *high, br__end high_end);
/* Ranges that end or begin at X do it with END; 1 where there are such.  */
int br__roots_set_end (br__roots *r, const br_number *x, br__end end);
/* AWAY = how far LOW .. HIGH lies from R's home.  */
br_status br__roots_away (br_number *away, const br__roots *r, const br_number *low, const br_number *high);
/* *ENOUGH = 1 if the list has more roots than are shown that are preferred to one at the distance AWAY, UNDER zero or not.  */
br_status br__roots_enough (int *enough, const br__roots *r, const br_number *away, int under);
/* When all is done: a size of each range stands for it, and the roots that are wanted first come first.  */
br_status br__roots_finish (br__roots *r);

/* find_step.c.  A stretch, enclosed with its slopes, over which the formula is one value.  */
br_status br__finder_flat (br__finder *f, const br__stretch *s);
/* A stretch too narrow to be halved in which a step jumps.  */
br_status br__finder_jump (br__finder *f, const br__stretch *s);
/* A stretch too narrow to be halved in which X is a root, a corner or the one jump: X and its two sides.  */
br_status br__finder_sides (br__finder *f, const br__stretch *s, const br_number *x);
#endif
