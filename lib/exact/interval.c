/* SPDX-License-Identifier: LGPL-3.0-or-later
   interval.c - intervals by MPFI, and saving and restoring the state of MPFR.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/interval.h"

#include <limits.h>

#include "exact/memory.h"
#include "exact/number.h"

void
br__mpfr_enter (br__mpfr_state *state)
{
  state->flags = mpfr_flags_save ();
  state->emin = mpfr_get_emin ();
  state->emax = mpfr_get_emax ();
  mpfr_set_emin (mpfr_get_emin_min ());
  mpfr_set_emax (mpfr_get_emax_max ());
}

void
br__mpfr_leave (const br__mpfr_state *state)
{
  mpfr_set_emin (state->emin);
  mpfr_set_emax (state->emax);
  mpfr_flags_restore (state->flags, MPFR_FLAGS_ALL);
}

void
br__interval_line (br__interval_ptr z)
{
  mpfr_set_inf (&z->left, -1);
  mpfr_set_inf (&z->right, 1);
}

/* NaN stands for a value that a step could not bound.  */
static void
widen (br__interval_ptr z)
{
  if (mpfi_nan_p (z))
    br__interval_line (z);
}

void br__interval_init (br__interval_ptr z, mpfr_prec_t bits) { mpfi_init2 (z, bits); }
void br__interval_clear (br__interval_ptr z) { mpfi_clear (z); }
void br__interval_copy (br__interval_ptr z, br__interval_srcptr x) { mpfi_set (z, x); }
void br__interval_set_int (br__interval_ptr z, long low, long high) { mpfi_interv_si (z, low, high); }
void br__interval_set_q (br__interval_ptr z, mpq_srcptr x) { mpfi_set_q (z, x); }
void br__interval_put_q (br__interval_ptr z, mpq_srcptr x) { mpfi_put_q (z, x); }
void br__interval_middle (mpfr_ptr z, br__interval_srcptr x) { mpfi_mid (z, x); }
int br__interval_has_zero (br__interval_srcptr x) { return mpfi_has_zero (x); }

int
br__interval_is_zero (br__interval_srcptr x)
{
  return mpfr_zero_p (&x->left) && mpfr_zero_p (&x->right);
}

int
br__interval_sign (br__interval_srcptr x, int weak)
{
  int low = mpfr_sgn (&x->left), high = mpfr_sgn (&x->right);
  if (low == 0 && high == 0)
    return 0;
  if (weak ? low >= 0 : low > 0)
    return 1;
  return (weak ? high <= 0 : high < 0) ? -1 : 2;
}

int
br__interval_bounded (br__interval_srcptr x)
{
  return mpfr_number_p (&x->left) && mpfr_number_p (&x->right);
}

static void
end_set (mpfr_ptr z, const br_number *x, mpfr_rnd_t direction)
{
  mpq_t q;
  mpq_init (q);
  br__number_to_mpq (q, x);
  mpfr_set_q (z, q, direction);
  mpq_clear (q);
}

void
br__interval_set (br__interval_ptr z, const br_number *low, const br_number *high)
{
  end_set (&z->left, low, MPFR_RNDD);
  end_set (&z->right, high, MPFR_RNDU);
}

static br_status
end_get (br_number *z, mpfr_srcptr x)
{
  mpq_t q;
  if (!mpfr_zero_p (x) && (mpfr_get_exp (x) > BR_MAX_BITS || mpfr_get_exp (x) < -BR_MAX_BITS / 2))
    return BR_TOO_BIG;
  mpq_init (q);
  mpfr_get_q (q, x);
  br_status status = br__number_from_mpq (z, q);
  mpq_clear (q);
  return status;
}

br_status
br__interval_get (br_number *low, br_number *high, br__interval_srcptr x)
{
  br_number a = BR_NUMBER_ZERO, b = BR_NUMBER_ZERO;
  br_status status = end_get (&a, &x->left);
  if (status == BR_OK)
    status = end_get (&b, &x->right);
  if (status == BR_OK)
    {
      br_number_swap (low, &a);
      br_number_swap (high, &b);
    }
  br_number_clear (&a);
  br_number_clear (&b);
  return status;
}

/* Of a wide interval it is near the middle, in general position: a plain fraction is more likely one where shapes just touch.  */
br_status
br__interval_inside (br_number *z, br__interval_srcptr x)
{
  enum { FEW_BITS = 40 };
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  mpfr_t middle;
  mpfr_init2 (middle, FEW_BITS);
  br__interval_middle (middle, x);
  const int inside = mpfr_lessequal_p (&x->left, middle) && mpfr_lessequal_p (middle, &x->right);
  br_status status = inside ? end_get (z, middle) : br__interval_get (&low, &high, x);
  if (!inside && status == BR_OK)
    status = br__number_plainest (z, &low, &high);
  mpfr_clear (middle);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

void
br__interval_set_number (br__interval_ptr z, const br_number *x)
{
  mpq_t q;
  mpq_init (q);
  br__number_to_mpq (q, x);
  mpfi_set_q (z, q);
  mpq_clear (q);
}

/* ---- Operations ---- */

#define ONE(NAME)                                                       \
  void br__interval_##NAME (br__interval_ptr z, br__interval_srcptr x)  \
  {                                                                     \
    mpfi_##NAME (z, x);                                                 \
    widen (z);                                                          \
  }
#define TWO(NAME)                                                                               \
  void br__interval_##NAME (br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y)   \
  {                                                                                             \
    mpfi_##NAME (z, x, y);                                                                      \
    widen (z);                                                                                  \
  }
TWO (add)
TWO (sub)
TWO (div)
ONE (neg)
ONE (abs)
ONE (sqr)
ONE (log)
ONE (exp)

void
br__interval_mul (br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y)
{
  if (br__interval_is_zero (x) || br__interval_is_zero (y))
    {
      mpfi_set_ui (z, 0);
      return;
    }
  mpfi_mul (z, x, y);
  widen (z);
}

void
br__interval_scale (br__interval_ptr z, br__interval_srcptr x, long n, unsigned long d)
{
  mpfi_mul_si (z, x, n);
  mpfi_div_ui (z, z, d);
  widen (z);
}

/* A power of what is not below zero grows with it, and so does an odd one of all.  */
void
br__interval_power (br__interval_ptr z, br__interval_srcptr x, uint64_t n)
{
#if ULONG_MAX < UINT64_MAX
  if (n > ULONG_MAX)
    {
      br__interval base;
      mpfi_init2 (base, mpfi_get_prec (z));
      mpfi_set (base, x);
      br__interval_power (z, base, n / 2);
      br__interval_sqr (z, z);
      if (n % 2)
        br__interval_mul (z, z, base);
      mpfi_clear (base);
      return;
    }
#endif
  if (n % 2 == 0)
    mpfi_abs (z, x);
  else
    mpfi_set (z, x);
  mpfr_pow_ui (&z->left, &z->left, (unsigned long) n, MPFR_RNDD);
  mpfr_pow_ui (&z->right, &z->right, (unsigned long) n, MPFR_RNDU);
  widen (z);
}

/* Of square roots MPFR knows a faster way.  */
static int
root_towards (mpfr_ptr x, unsigned long index, mpfr_rnd_t towards)
{
  return index == 2 ? mpfr_sqrt (x, x, towards) : mpfr_rootn_ui (x, x, index, towards);
}

void
br__interval_root (br__interval_ptr z, br__interval_srcptr x, unsigned long index)
{
  mpfi_set (z, x);
  if (mpfr_sgn (&z->left) < 0)
    mpfr_set_zero (&z->left, 1);
  const int point = mpfr_equal_p (&z->left, &z->right);
  const int rounded = root_towards (&z->left, index, MPFR_RNDD);
  if (!point)
    root_towards (&z->right, index, MPFR_RNDU);
  else
    {
      mpfr_set (&z->right, &z->left, MPFR_RNDU);
      if (rounded)
        mpfr_nextabove (&z->right);
    }
  widen (z);
}

/* ---- Angles ---- */

void
br__interval_pi (br__interval_ptr z)
{
  mpfi_const_pi (z);
}

void
br__interval_half_turn (br__interval_ptr z)
{
  mpfi_const_pi (z);
  mpfi_div_ui (z, z, 180);
}

/* A series at 80 bits takes about as long as memory does.  */
static void
count_series (br__interval_srcptr z)
{
  br__account_toil ((size_t) mpfi_get_prec (z) / 64);
}

/* 1 where X is so large that its own last bit is more than a degree.  */
static int
is_coarse (mpfr_srcptr x)
{
  return mpfr_inf_p (x) || (!mpfr_zero_p (x) && mpfr_get_exp (x) > (mpfr_exp_t) mpfr_get_prec (x));
}

/* An angle that is not known to a turn gives -1 .. 1 at once, before MPFR would reduce it with as many digits of pi as
   it is long.  */
void
br__interval_sine (br__interval_ptr z, br__interval_srcptr x, int cosine)
{
  br__interval radians;
  if (is_coarse (&x->left) || is_coarse (&x->right))
    {
      mpfi_interv_si (z, -1, 1);
      return;
    }
  count_series (z);
  mpfi_init2 (radians, mpfi_get_prec (z));
  mpfi_const_pi (radians);
  mpfi_mul (radians, radians, x);
  mpfi_div_ui (radians, radians, 180);
  if (cosine)
    mpfi_cos (z, radians);
  else
    mpfi_sin (z, radians);
  mpfi_clear (radians);
  widen (z);
}

/* Computed as sine / cosine: if there is a pole in X, the division gives the whole line.  */
void
br__interval_tangent (br__interval_ptr z, br__interval_srcptr x)
{
  br__interval below;
  mpfi_init2 (below, mpfi_get_prec (z));
  br__interval_sine (below, x, 1);
  br__interval_sine (z, x, 0);
  br__interval_div (z, z, below);
  mpfi_clear (below);
}

/* Z, in radians, becomes degrees.  */
static void
to_degrees (br__interval_ptr z)
{
  br__interval pi;
  count_series (z);
  mpfi_init2 (pi, mpfi_get_prec (z));
  mpfi_const_pi (pi);
  mpfi_mul_ui (z, z, 180);
  br__interval_div (z, z, pi);
  mpfi_clear (pi);
}

void
br__interval_arc_tangent (br__interval_ptr z, br__interval_srcptr x)
{
  mpfi_atan (z, x);
  to_degrees (z);
}

void
br__interval_arc_sine (br__interval_ptr z, br__interval_srcptr x)
{
  mpfi_set (z, x);
  if (mpfr_cmp_si (&z->left, -1) < 0)
    mpfr_set_si (&z->left, -1, MPFR_RNDD);
  if (mpfr_cmp_si (&z->right, 1) > 0)
    mpfr_set_si (&z->right, 1, MPFR_RNDU);
  mpfi_asin (z, z);
  to_degrees (z);
}
