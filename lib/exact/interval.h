/* SPDX-License-Identifier: LGPL-3.0-or-later
   interval.h - intervals of MPFI, and the way into MPFR and out of it.  */
#ifndef BR_EXACT_INTERVAL_H
#define BR_EXACT_INTERVAL_H

#include <mpfi.h>

#include "benchrule.h"

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

/* Z is the whole line: nothing is known.  */
void br__interval_line (mpfi_ptr z);
int br__interval_is_zero (mpfi_srcptr x);
int br__interval_bounded (mpfi_srcptr x);
/* -1, 0, 1: all of X is below zero, X is 0, all is above; WEAK counts zero to either side.  2: neither.  */
int br__interval_sign (mpfi_srcptr x, int weak);
/* Z = X * Y; zero times a line is zero.  */
void br__interval_mul (mpfi_ptr z, mpfi_srcptr x, mpfi_srcptr y);
/* Z = LOW .. HIGH, outwards; LOW <= HIGH of X, which must be bounded.  */
void br__interval_set (mpfi_ptr z, const br_number *low, const br_number *high);
br_status br__interval_get (br_number *low, br_number *high, mpfi_srcptr x);

#endif
