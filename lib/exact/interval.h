/* SPDX-License-Identifier: LGPL-3.0-or-later
   interval.h - the way into MPFR and out of it.  */
#ifndef BR_EXACT_INTERVAL_H
#define BR_EXACT_INTERVAL_H

#include <mpfi.h>

/* MPFR's exponent range and flags belong to the caller of the library.  Whatever works with MPFR or MPFI
   does so between these two: the range is all that MPFR has, and then it and the flags are as they were.
   Pairs may be nested.  */
typedef struct br__mpfr_state
{
  mpfr_exp_t emin, emax;
  mpfr_flags_t flags;
} br__mpfr_state;

void br__mpfr_enter (br__mpfr_state *state);
void br__mpfr_leave (const br__mpfr_state *state);

#endif
