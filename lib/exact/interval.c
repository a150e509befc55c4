/* SPDX-License-Identifier: LGPL-3.0-or-later
   interval.c - intervals of MPFI, and the way into MPFR and out of it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/interval.h"

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
br__interval_line (mpfi_ptr z)
{
  mpfr_set_inf (&z->left, -1);
  mpfr_set_inf (&z->right, 1);
}

int
br__interval_is_zero (mpfi_srcptr x)
{
  return mpfr_zero_p (&x->left) && mpfr_zero_p (&x->right);
}

int
br__interval_sign (mpfi_srcptr x, int weak)
{
  int low = mpfr_sgn (&x->left), high = mpfr_sgn (&x->right);
  if (low == 0 && high == 0)
    return 0;
  if (weak ? low >= 0 : low > 0)
    return 1;
  return (weak ? high <= 0 : high < 0) ? -1 : 2;
}

int
br__interval_bounded (mpfi_srcptr x)
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
br__interval_set (mpfi_ptr z, const br_number *low, const br_number *high)
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
br__interval_get (br_number *low, br_number *high, mpfi_srcptr x)
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

void
br__interval_mul (mpfi_ptr z, mpfi_srcptr x, mpfi_srcptr y)
{
  if (br__interval_is_zero (x) || br__interval_is_zero (y))
    {
      mpfi_set_ui (z, 0);
      return;
    }
  mpfi_mul (z, x, y);
  if (mpfi_nan_p (z))
    br__interval_line (z);
}
