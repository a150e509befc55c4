/* SPDX-License-Identifier: LGPL-3.0-or-later
   interval.c - the way into MPFR and out of it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/interval.h"

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
