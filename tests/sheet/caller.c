/* SPDX-License-Identifier: GPL-3.0-or-later
   caller.c - what belongs to the program that calls: MPFR's range and flags, the way doubles are rounded, and which
   exceptions of theirs are trapped.  Every statement gives the same answers under all of them, and leaves them alone.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <fenv.h>

#include "samples.h"

/* As a program may have them; FLAGS are those of MPFR.  */
static const struct surroundings
{
  mpfr_exp_t emin, emax;
  mpfr_flags_t flags;
  int rounding, trapped;
} surroundings[] =
{
  { -3, 4, 0, FE_UPWARD, 0 },
  { -1, 1, MPFR_FLAGS_ALL, FE_DOWNWARD, FE_DIVBYZERO | FE_INVALID | FE_OVERFLOW },
  { -1000, 1000, MPFR_FLAGS_INEXACT, FE_TOWARDZERO, FE_ALL_EXCEPT },
  { 2, 3, MPFR_FLAGS_ALL & ~(mpfr_flags_t) MPFR_FLAGS_INEXACT, FE_TONEAREST, FE_ALL_EXCEPT },
};

static void
each_statement (void **state)
{
  (void) state;
  const mpfr_exp_t emin = mpfr_get_emin (), emax = mpfr_get_emax ();
  const mpfr_flags_t flags = mpfr_flags_save ();
  for (size_t i = 0; i < CHECK_COUNT (samples); i++)
    {
      /* After these nothing is left to compare.  */
      if (strcmp (samples[i].word, "new") == 0 || strcmp (samples[i].word, "open") == 0)
        continue;
      char *expected = samples_answer (samples_prelude, &samples[i]);
      const struct surroundings *it = &surroundings[i % CHECK_COUNT (surroundings)];
      mpfr_set_emin (it->emin);
      mpfr_set_emax (it->emax);
      mpfr_flags_restore (it->flags, MPFR_FLAGS_ALL);
      fesetround (it->rounding);
#ifdef __GLIBC__
      feclearexcept (FE_ALL_EXCEPT);            /* A trap for a flag that is set already ends the program.  */
      feenableexcept (it->trapped);
      const int trapped = fegetexcept ();       /* none where a tool does not know them */
#endif
      char *found = samples_answer (samples_prelude, &samples[i]);
      int as_was = mpfr_get_emin () == it->emin && mpfr_get_emax () == it->emax && mpfr_flags_save () == it->flags
                   && fegetround () == it->rounding;
#ifdef __GLIBC__
      as_was &= fegetexcept () == trapped;
      fedisableexcept (FE_ALL_EXCEPT);
#endif
      fesetround (FE_TONEAREST);
      mpfr_set_emin (emin);
      mpfr_set_emax (emax);
      mpfr_flags_restore (flags, MPFR_FLAGS_ALL);
      if (!as_was)
        fail_msg ("`%s` changed what is the caller's", samples[i].line);
      if (strcmp (found, expected) != 0)
        fail_msg ("`%s` said `%.300s`, not `%.300s`", samples[i].line, found, expected);
      free (found);
      free (expected);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (each_statement) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, samples_start, samples_end));
}
