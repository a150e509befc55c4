/* SPDX-License-Identifier: LGPL-3.0-or-later
   interval.h - intervals that certainly contain the true value, and saving and restoring the state of MPFR.
   A result without a bound is the whole line.  */
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

/* mpfi_t, written out so that an analyser that does not read MPFI sees an array, which is handed over by its address.  */
typedef __mpfi_struct br__interval[1];
typedef mpfi_ptr br__interval_ptr;
typedef mpfi_srcptr br__interval_srcptr;

void br__interval_init (br__interval_ptr z, mpfr_prec_t bits);
void br__interval_clear (br__interval_ptr z);
void br__interval_copy (br__interval_ptr z, br__interval_srcptr x);
/* Z is the whole line: nothing is known.  */
void br__interval_line (br__interval_ptr z);
void br__interval_set_int (br__interval_ptr z, long low, long high);
void br__interval_set_q (br__interval_ptr z, mpq_srcptr x);
void br__interval_set_number (br__interval_ptr z, const br_number *x);
/* Z grows to contain X.  */
void br__interval_put_q (br__interval_ptr z, mpq_srcptr x);
/* Z = LOW .. HIGH, outwards; LOW <= HIGH of X, which must be bounded.  */
void br__interval_set (br__interval_ptr z, const br_number *low, const br_number *high);
br_status br__interval_get (br_number *low, br_number *high, br__interval_srcptr x);
void br__interval_middle (mpfr_ptr z, br__interval_srcptr x);
/* Z = a number of X, which must be bounded, of few digits: exact arithmetic goes on with it.  */
br_status br__interval_inside (br_number *z, br__interval_srcptr x);

int br__interval_is_zero (br__interval_srcptr x);
int br__interval_has_zero (br__interval_srcptr x);
int br__interval_bounded (br__interval_srcptr x);
/* -1, 0, 1: all of X is below zero, X is 0, all is above; WEAK counts zero to either side.  2: neither.  */
int br__interval_sign (br__interval_srcptr x, int weak);

void br__interval_add (br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y);
void br__interval_sub (br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y);
/* Zero times a line is zero.  */
void br__interval_mul (br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y);
void br__interval_div (br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y);
void br__interval_neg (br__interval_ptr z, br__interval_srcptr x);
void br__interval_abs (br__interval_ptr z, br__interval_srcptr x);
void br__interval_sqr (br__interval_ptr z, br__interval_srcptr x);
void br__interval_log (br__interval_ptr z, br__interval_srcptr x);
void br__interval_exp (br__interval_ptr z, br__interval_srcptr x);
/* Z = X * N / D.  */
void br__interval_scale (br__interval_ptr z, br__interval_srcptr x, long n, unsigned long d);
void br__interval_power (br__interval_ptr z, br__interval_srcptr x, uint64_t n);
/* Of what of X is not below zero.  */
void br__interval_root (br__interval_ptr z, br__interval_srcptr x, unsigned long index);

/* Angles are in degrees.  */
void br__interval_pi (br__interval_ptr z);
void br__interval_half_turn (br__interval_ptr z);       /* pi / 180 */
void br__interval_sine (br__interval_ptr z, br__interval_srcptr x, int cosine);
void br__interval_tangent (br__interval_ptr z, br__interval_srcptr x);
void br__interval_arc_tangent (br__interval_ptr z, br__interval_srcptr x);
/* The arc sine of the part of X that is in -1 .. 1.  */
void br__interval_arc_sine (br__interval_ptr z, br__interval_srcptr x);

#endif
