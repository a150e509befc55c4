/* SPDX-License-Identifier: GPL-3.0-or-later
   wide.c - whole numbers of 128 bits against GMP: each pair of numbers at an edge, and pairs at random.  The other
   program of this source has them in two words whatever the compiler offers.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/wide.h"
#include "check.h"

static mpz_t x_big, y_big, z_big, ring, half;

static void
set_64 (mpz_t z, int64_t a)
{
  uint64_t magnitude = br__magnitude (a);
  mpz_import (z, 1, -1, sizeof magnitude, 0, 0, &magnitude);
  if (a < 0)
    mpz_neg (z, z);
}

/* Z = X, by its two halves.  */
static void
set_wide (mpz_t z, br__wide x)
{
  br__wide word = br__wide_product (INT64_C (1) << 62, 4);
  br__wide high = br__wide_over (x, word), low = br__wide_rest (x, word);
  uint64_t magnitude = (uint64_t) br__wide_low (low);
  int negative = br__wide_cmp (x, br__wide_of (0)) < 0;
  magnitude = negative ? - magnitude : magnitude;
  mpz_import (z, 1, -1, sizeof magnitude, 0, 0, &magnitude);
  if (negative)
    mpz_neg (z, z);
  mpz_t upper;
  mpz_init (upper);
  set_64 (upper, br__wide_low (high));
  mpz_mul_2exp (upper, upper, 64);
  mpz_add (z, z, upper);
  mpz_clear (upper);
}

/* Z in the range of 128 bits, what runs over lost.  */
static void
wrap (mpz_t z)
{
  mpz_add (z, z, half);
  mpz_mod (z, z, ring);
  mpz_sub (z, z, half);
}

static void
is_big (br__wide x)
{
  mpz_t ours;
  mpz_init (ours);
  set_wide (ours, x);
  wrap (z_big);
  if (mpz_cmp (ours, z_big) != 0)
    {
      char *text = mpz_get_str (NULL, 10, ours), *other = mpz_get_str (NULL, 10, z_big);
      fail_msg ("%s, not %s", text, other);
    }
  mpz_clear (ours);
}

static int
sign_of (int n)
{
  return (n > 0) - (n < 0);
}

/* A and B of 64 bits, C and D, too: X is A * B and Y is C * D.  */
static void
look_at (int64_t a, int64_t b, int64_t c, int64_t d)
{
  br__wide x = br__wide_product (a, b), y = br__wide_product (c, d);
  set_64 (x_big, a);
  set_64 (z_big, b);
  mpz_mul (x_big, x_big, z_big);
  mpz_set (z_big, x_big);
  is_big (x);
  set_64 (y_big, c);
  set_64 (z_big, d);
  mpz_mul (y_big, y_big, z_big);
  mpz_add (z_big, x_big, y_big);
  is_big (br__wide_add (x, y));
  assert_int_equal (sign_of (br__wide_cmp (x, y)), sign_of (mpz_cmp (x_big, y_big)));
  assert_int_equal (sign_of (br__compare_products (a, b, c, d)), sign_of (mpz_cmp (x_big, y_big)));
  assert_int_equal (br__wide_fits (x), mpz_sizeinbase (x_big, 2) < 64 || (mpz_sgn (x_big) < 0 && mpz_sizeinbase (x_big, 2) == 64
                                                                          && mpz_scan1 (x_big, 0) == 63));
  set_64 (z_big, c);
  mpz_mul (z_big, z_big, x_big);
  is_big (br__wide_times (x, c));
  if (mpz_sgn (y_big) != 0)
    {
      mpz_tdiv_q (z_big, x_big, y_big);
      is_big (br__wide_over (x, y));
      mpz_tdiv_r (z_big, x_big, y_big);
      is_big (br__wide_rest (x, y));
    }
  if (mpz_sgn (x_big) >= 0 && mpz_sgn (y_big) > 0)
    {
      mpz_cdiv_q (z_big, x_big, y_big);
      is_big (br__wide_over_up (x, y));
    }
  if (c != 0)
    {
      set_64 (z_big, c);
      mpz_tdiv_q (z_big, x_big, z_big);
      if (mpz_sizeinbase (z_big, 2) < 64)
        is_big (br__wide_of (br__scale_by (a, b, c)));
    }
  if (mpz_sgn (x_big) >= 0 && mpz_sizeinbase (x_big, 2) <= 126)
    {
      mpz_sqrt (z_big, x_big);
      is_big (br__wide_of (br__wide_root (x)));
    }
}

static const int64_t edges[] = {
  0, 1, -1, 2, -2, 3, 10, INT64_C (0x7fffffff), INT64_C (0x80000000), -INT64_C (0x80000000), INT64_C (0xffffffff),
  INT64_C (0x100000000), -INT64_C (0x100000000), INT64_C (0x100000001), INT64_MAX / 2, INT64_MAX - 1, INT64_MAX,
  -INT64_MAX, INT64_MIN,
};

/* Every four of them.  */
static void
at_the_edges (void **state)
{
  size_t n = CHECK_COUNT (edges);
  (void) state;
  for (size_t i = 0; i < n * n * n * n; i++)
    look_at (edges[i % n], edges[i / n % n], edges[i / n / n % n], edges[i / n / n / n]);
}

static int64_t
some (void)
{
  int64_t a = (int64_t) (check_random () >> check_below (64));
  return check_below (2) ? a : - (a / 2);
}

static void
at_random (void **state)
{
  (void) state;
  for (long i = check_times (20000); i > 0; i--)
    look_at (some (), some (), some (), some ());
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (at_the_edges), CHECK_TEST (at_random) };
  mpz_inits (x_big, y_big, z_big, ring, half, NULL);
  mpz_ui_pow_ui (ring, 2, 128);
  mpz_ui_pow_ui (half, 2, 127);
  CHECK_RUN (tests);
}
