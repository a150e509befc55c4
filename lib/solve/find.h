/* SPDX-License-Identifier: LGPL-3.0-or-later
   find.h - where a formula of one name is zero.  */
#ifndef BR_SOLVE_FIND_H
#define BR_SOLVE_FIND_H

#include "sheet/compile.h"

#define BR__MOST_ROOTS 8        /* that are shown */
#define BR__ROOTS_ROOM 32       /* that a search keeps to choose from */

#define BR__OPEN_ROOM 3

/* An end of a range of roots: a root, the last place before which there are roots, or not known exactly.  */
typedef enum br__end { BR__END_IN, BR__END_OUT, BR__END_ROUGH } br__end;

/* One root: if EXACT, a fraction, equal to LOW and HIGH; else it is between LOW and HIGH, which are less than 2^-100
   inch apart.  */
typedef struct br__solution
{
  int exact;
  br_real value;                /* where EXACT; rational */
  br_number low, high;
  int range;                    /* everything from FROM to TO is a root */
  br_number from, to;
  br__end from_end, to_end;
} br__solution;

/* How far the search went.  During it rows go up; then the one that is wanted first comes first: a size from zero
   up before one under it, unless EITHER, and of these the one nearer to HOME.  */
typedef struct br__roots
{
  br__solution rows[BR__ROOTS_ROOM];
  size_t count;
  int linear;                   /* no other anywhere */
  int always;                   /* it does not depend on the name: */
  int every;                    /* every size makes it zero, else none */
  int more;                     /* past BR__MOST_ROOTS */
  int stopped;                  /* it took too long */
  int open;                     /* so many stretches in which it is not decided; the first are kept */
  br_number open_low[BR__OPEN_ROOM], open_high[BR__OPEN_ROOM];
  br_number low, high;          /* where it was looked for, unless LINEAR */
  br_number home;               /* the present size, or 0 */
  int either;                   /* sizes under zero are as good as those over it */
} br__roots;

void br__roots_clear (br__roots *r);
/* Finds the roots of T, which has one input.  R is empty, with the range of the search in LOW and HIGH.  */
br_status br__roots_find (br__roots *r, const br__program *t, const volatile sig_atomic_t *flag);
/* find_keep.c: the marks of the sheet's ruler next to ROOT at which every check holds, each with the size
   that the name would have.  None if a check cannot be evaluated.  */
typedef struct br__kept
{
  br_number below, above;       /* marks, in inches where DIMENSION is a length */
  br_dimension dimension;
  int has_below, has_above;
  /* A check, or NULL, that fails or is undecided whatever the name is; whose formula cannot be followed
     from the name; that waits for another name.  */
  const br__check *failing, *undecided, *lost, *waiting;
  br__entry *missing;           /* what WAITING waits for, or NULL */
} br__kept;

#define BR__KEPT_ZERO { BR_NUMBER_ZERO, BR_NUMBER_ZERO, BR_PLAIN, 0, 0, NULL, NULL, NULL, NULL, NULL }

void br__kept_clear (br__kept *k);
br_status br__kept_find (br__kept *k, br_sheet *sheet, const br__program_names *names, const br__solution *root,
                         br_dimension dimension);

/* 1 in *VALID if T has a value at X.  */
br_status br__root_valid (int *valid, const br__program *t, const br_real *x);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__solve_statements[];
br_status br__do_tidy (br__run *run);
br_status br__do_stack (br__run *run);
br_status br__do_find (br__run *run);

#endif
