/* SPDX-License-Identifier: GPL-3.0-or-later
   gmp.c - numbers to and from GMP, reals to MPFR: against GMP and MPFR themselves, in a range of exponents and with
   flags that are the caller's.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

/* As a program has it that learns of GMP late.  */
#include "benchrule.h"
#include <mpfr.h>
#include "check.h"

static void
rationals (void **state)
{
  br_number x = BR_NUMBER_ZERO;
  mpq_t q, back, copy;
  mpz_t z;
  (void) state;
  mpq_inits (q, back, copy, NULL);
  mpz_init (z);
  for (long n = check_times (3000); n > 0; n--)
    {
      check_mpq (q);
      mpz_set (mpq_numref (copy), mpq_numref (q));
      mpz_set (mpq_denref (copy), mpq_denref (q));
      /* Not in lowest terms, and the sign below.  */
      long factor = (long) check_between (1, 12) * (check_below (2) ? 1 : -1);
      mpz_mul_si (mpq_numref (copy), mpq_numref (copy), factor);
      mpz_mul_si (mpq_denref (copy), mpq_denref (copy), factor);
      check_ok (br_number_set_mpq (&x, copy));
      assert_true (br_number_check (&x));
      br_number_get_mpq (back, &x);
      assert_true (mpq_equal (back, q));
      int whole = mpz_cmp_ui (mpq_denref (q), 1) == 0;
      mpz_set_si (z, -77);
      assert_int_equal (br_number_get_mpz (z, &x), whole ? BR_OK : BR_DOMAIN);
      assert_int_equal (whole ? mpz_cmp (z, mpq_numref (q)) : mpz_cmp_si (z, -77), 0);
      check_mpz (z);
      check_ok (br_number_set_mpz (&x, z));
      assert_true (br_number_check (&x));
      check_ok (br_number_get_mpz (mpq_numref (back), &x));
      assert_int_equal (mpz_cmp (mpq_numref (back), z), 0);
      mpz_set_ui (mpq_denref (back), 1);
    }
  check_ok (br_number_set_int (&x, 5));
  mpz_set_ui (mpq_denref (copy), 0);
  assert_int_equal (br_number_set_mpq (&x, copy), BR_DOMAIN);
  mpz_set_ui (mpq_denref (copy), 1);
  mpz_ui_pow_ui (z, 2, BR_MAX_BITS - 1);
  check_ok (br_number_set_mpz (&x, z));
  mpz_mul_2exp (z, z, 1);
  check_ok (br_number_set_int (&x, 5));
  assert_int_equal (br_number_set_mpz (&x, z), BR_TOO_BIG);
  check_is (&x, "5");
  mpq_clears (q, back, copy, NULL);
  mpz_clear (z);
}

static const mpfr_rnd_t modes[] = { MPFR_RNDN, MPFR_RNDZ, MPFR_RNDU, MPFR_RNDD, MPFR_RNDA };

/* Roots and pi in each mode at many precisions, by MPFR itself; fractions too.  */
static void
reals (void **state)
{
  br_real x = BR_REAL_ZERO, pi = BR_REAL_ZERO;
  (void) state;
  check_ok (br_real_pi (&pi));
  for (long n = check_times (400); n > 0; n--)
    {
      mpfr_prec_t p = (mpfr_prec_t) check_between (MPFR_PREC_MIN, 300);
      mpfr_rnd_t mode = modes[check_below (CHECK_COUNT (modes))];
      unsigned long k = (unsigned long) check_between (1, 1000);
      mpfr_t ours, theirs;
      mpfr_inits2 (p, ours, theirs, (mpfr_ptr) NULL);
      switch (check_below (3))
        {
        case 0:
          check_ok (br_number_set_int (&x.rational, (int64_t) k));
          check_ok (br_real_sqrt (&x, &x, 0));
          mpfr_sqrt_ui (theirs, k, mode);
          break;
        case 1:
          check_ok (br_real_set (&x, &pi));
          mpfr_const_pi (theirs, mode);
          break;
        default:
          {
            mpq_t q;
            br_number fraction = BR_NUMBER_ZERO;
            mpq_init (q);
            check_mpq (q);
            check_ok (br_number_set_mpq (&fraction, q));
            check_ok (br_real_set_number (&x, &fraction));
            mpfr_set_q (theirs, q, mode);
            br_number_clear (&fraction);
            mpq_clear (q);
          }
        }
      check_ok (br_real_get_mpfr (ours, &x, mode, 0));
      assert_int_equal (mpfr_get_prec (ours), p);
      assert_true (mpfr_equal_p (ours, theirs));
      mpfr_clears (ours, theirs, (mpfr_ptr) NULL);
      br_real_clear (&x);
    }
  br_real_clear (&pi);
}

/* In a range from 2^-3 to 2^3 pi is there, 4 pi is over the top and pi / 64 under the bottom, as MPFR has it; the
   flags stay.  */
static void
ranges (void **state)
{
  static const int64_t times[][2] = { { 1, 1 }, { 4, 1 }, { 1, 64 }, { -4, 1 } };
  mpfr_exp_t emin = mpfr_get_emin (), emax = mpfr_get_emax ();
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (times); i++)
    for (size_t k = 0; k < CHECK_COUNT (modes); k++)
      {
        br_real x = BR_REAL_ZERO, factor = BR_REAL_ZERO;
        mpfr_t ours, theirs;
        mpfr_inits2 (53, ours, theirs, (mpfr_ptr) NULL);
        check_ok (br_number_set_ratio (&factor.rational, times[i][0], times[i][1]));
        check_ok (br_real_pi (&x));
        check_ok (br_real_mul (&x, &x, &factor));
        mpfr_const_pi (theirs, times[i][0] < 0 ? MPFR_RNDN : modes[k]);
        mpfr_set_emin (-2);
        mpfr_set_emax (3);
        mpfr_clear_flags ();
        mpfr_set_inexflag ();
        check_ok (br_real_get_mpfr (ours, &x, modes[k], 0));
        assert_int_equal (mpfr_flags_save (), MPFR_FLAGS_INEXACT);
        assert_int_equal (mpfr_get_emin (), -2);
        assert_int_equal (mpfr_get_emax (), 3);
        if (times[i][0] > 0)
          {
            mpfr_mul_si (theirs, theirs, (long) times[i][0], modes[k]);
            mpfr_div_si (theirs, theirs, (long) times[i][1], modes[k]);
            assert_true (mpfr_equal_p (ours, theirs));
          }
        else
          assert_true (mpfr_sgn (ours) < 0 && (mpfr_inf_p (ours) || mpfr_get_exp (ours) == 3));
        mpfr_set_emin (emin);
        mpfr_set_emax (emax);
        mpfr_clear_flags ();
        mpfr_clears (ours, theirs, (mpfr_ptr) NULL);
        br_real_clear (&x);
      }
}

/* What is not known to be a fraction may lie just between two values: undecided, and Z as it was.  */
static void
undecided (void **state)
{
  br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
  mpfr_t z;
  (void) state;
  mpfr_init2 (z, 10);
  mpfr_set_ui (z, 7, MPFR_RNDN);
  check_ok (br_number_set_int (&x.rational, 10));
  check_ok (br_real_sin (&x, &x));
  check_ok (br_number_set_int (&y.rational, 80));
  check_ok (br_real_cos (&y, &y));
  check_ok (br_real_sub (&x, &x, &y));
  br_status status = br_real_get_mpfr (z, &x, MPFR_RNDN, 64);
  assert_true (status == BR_UNDECIDED ? mpfr_cmp_ui (z, 7) == 0 : status == BR_OK && mpfr_zero_p (z));
  mpfr_clear (z);
  br_real_clear (&x);
  br_real_clear (&y);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (rationals), CHECK_TEST (reals), cmocka_unit_test (ranges), cmocka_unit_test (undecided),
  };
  CHECK_RUN (tests);
}
