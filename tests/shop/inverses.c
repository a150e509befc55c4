/* SPDX-License-Identifier: GPL-3.0-or-later
   inverses.c - each of the shop's functions composed with what undoes it, over random shop
   sizes; and daylight and drills at the very edge of a decision.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#define TIMES 400

static const br_real two = { { 2, 0 }, NULL };

typedef struct values
{
  br_real a, b, c, d, x, y;
} values;

static void
clear (values *v)
{
  br_real_clear (&v->a);
  br_real_clear (&v->b);
  br_real_clear (&v->c);
  br_real_clear (&v->d);
  br_real_clear (&v->x);
  br_real_clear (&v->y);
}

static void
circles (void **state)
{
  values v;
  br_real full = { { 360, 0 }, NULL }, half = { { 180, 0 }, NULL }, sixth = { { 60, 0 }, NULL };
  long n;

  (void) state;
  memset (&v, 0, sizeof v);
  for (n = check_times (TIMES); n > 0; n--)
    {
      shop_random (&v.a, 40);
      shop_call (&v.x, "radius", &v.a, NULL, NULL);
      shop_call (&v.y, "diameter", &v.x, NULL, NULL);
      shop_same (&v.y, &v.a);
      shop_call (&v.b, "circumference", &v.a, NULL, NULL);
      check_ok (br_real_pi (&v.c));
      check_ok (br_real_div (&v.c, &v.b, &v.c, 0));
      shop_same (&v.c, &v.a);
      shop_call (&v.y, "arc_length", &v.x, &full, NULL);
      shop_same (&v.y, &v.b);
      shop_call (&v.y, "chord", &v.x, &half, NULL);
      shop_same (&v.y, &v.a);
      shop_call (&v.y, "chord", &v.x, &sixth, NULL);
      shop_same (&v.y, &v.x);
      shop_call (&v.y, "arc_length", &v.x, &half, NULL);
      check_ok (br_real_add (&v.y, &v.y, &v.y));
      shop_same (&v.y, &v.b);
    }
  clear (&v);
}

/* A radius is found again from its chord and rise; the rise too, while the arc is the smaller.  */
static void
arcs (void **state)
{
  values v;
  int order;
  long n;

  (void) state;
  memset (&v, 0, sizeof v);
  for (n = check_times (TIMES); n > 0; n--)
    {
      shop_random (&v.a, 20);
      shop_random (&v.b, 40);
      shop_call (&v.c, "diameter", &v.a, NULL, NULL);
      check_ok (br_real_cmp (&order, &v.b, &v.c, 0));
      if (order > 0)
        check_ok (br_real_div (&v.b, &v.c, &v.b, 0));
      check_ok (br_real_cmp (&order, &v.b, &v.c, 0));
      if (order <= 0)
        {
          shop_call (&v.x, "rise", &v.a, &v.b, NULL);
          shop_call (&v.y, "radius_from", &v.b, &v.x, NULL);
          shop_same (&v.y, &v.a);
        }
      /* A rise of at most half the chord is that of the smaller arc.  */
      check_ok (br_real_div (&v.x, &v.b, &two, 0));
      check_ok (br_real_cmp (&order, &v.a, &v.x, 0));
      if (order > 0)
        check_ok (br_real_set (&v.a, &v.x));
      shop_call (&v.y, "radius_from", &v.b, &v.a, NULL);
      shop_call (&v.y, "rise", &v.y, &v.b, NULL);
      shop_same (&v.y, &v.a);
    }
  clear (&v);
}

static void
diagonals (void **state)
{
  values v;
  long n;

  (void) state;
  memset (&v, 0, sizeof v);
  for (n = check_times (TIMES); n > 0; n--)
    {
      shop_random (&v.a, 40);
      shop_random (&v.b, 40);
      shop_call (&v.x, "diagonal", &v.a, &v.b, NULL);
      check_ok (br_real_mul (&v.x, &v.x, &v.x));
      check_ok (br_real_mul (&v.y, &v.b, &v.b));
      check_ok (br_real_sub (&v.x, &v.x, &v.y));
      check_ok (br_real_sqrt (&v.x, &v.x, 0));
      shop_same (&v.x, &v.a);
    }
  clear (&v);
}

static void
fenders (void **state)
{
  values v;
  long n;

  (void) state;
  memset (&v, 0, sizeof v);
  for (n = check_times (TIMES); n > 0; n--)
    {
      shop_random (&v.a, 12);
      shop_random (&v.b, 2);
      shop_random (&v.c, 2);
      shop_call (&v.x, "fender_radius", &v.a, &v.b, NULL);
      shop_call (&v.y, "fender_gap", &v.x, &v.a, NULL);
      shop_same (&v.y, &v.b);
      shop_call (&v.y, "fender_outer", &v.a, &v.b, &v.c);
      check_ok (br_real_sub (&v.y, &v.y, &v.c));
      shop_same (&v.y, &v.x);
      shop_call (&v.y, "clearance_hole", &v.a, &v.b, NULL);
      check_ok (br_real_sub (&v.y, &v.y, &v.b));
      shop_same (&v.y, &v.a);
    }
  clear (&v);
}

/* The gap back from the wheelbase, the wheelbase back from the gap, also from an overlap; and the
   same daylight with the wheels the other way around.  */
static void
daylight (void **state)
{
  values v;
  long n;

  (void) state;
  memset (&v, 0, sizeof v);
  for (n = check_times (TIMES); n > 0; n--)
    {
      shop_random (&v.a, 24);
      shop_random (&v.b, 12);
      shop_random (&v.c, 12);
      shop_call (&v.x, "wheel_gap", &v.a, &v.b, &v.c);
      shop_call (&v.y, "wheelbase_for", &v.x, &v.b, &v.c);
      shop_same (&v.y, &v.a);
      shop_call (&v.y, "wheel_gap", &v.a, &v.c, &v.b);
      shop_same (&v.y, &v.x);
      shop_call (&v.x, "wheelbase_for", &v.a, &v.b, &v.c);
      shop_call (&v.y, "wheel_gap", &v.x, &v.b, &v.c);
      shop_same (&v.y, &v.a);
    }
  clear (&v);
}

/* Both sides counted: a wheel, a washer, the play and the end left and right of the body.  */
static void
axles (void **state)
{
  const br__function *axle = shop_find ("axle_length");
  shop_args args;
  br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
  size_t i;
  long n;

  (void) state;
  for (n = check_times (TIMES); n > 0; n--)
    {
      shop_read (&args, "1 1 1 1 1");
      for (i = 0; i < args.count; i++)
        shop_random (&args.value[i], 6);
      check_ok (br__shop_value (&x, axle, args.pointer, 0, NULL));
      check_ok (br_real_set (&y, &args.value[0]));
      for (i = 2; i < 2 * args.count; i++)
        check_ok (br_real_add (&y, &y, &args.value[i / 2]));
      shop_same (&x, &y);
      shop_clear (&args);
    }
  br_real_clear (&x);
  br_real_clear (&y);
}

/* A wheel pair that just touches, told from one that does not by 2^-60 of an inch.  The wheelbase
   at which wheels of diameter R and S touch is sqrt (R S): (R + S)^2 = (R - S)^2 + 4 R S.  */
static void
touching_wheels (void **state)
{
  values v;
  int64_t r, s, n;
  int sign, by;

  (void) state;
  memset (&v, 0, sizeof v);
  for (n = check_times (100); n > 0; n--)
    {
      r = check_between (1, 200);
      s = check_between (1, 200);
      shop_ratio (&v.b, r, 16);
      shop_ratio (&v.c, s, 16);
      for (by = -1; by <= 1; by++)
        {
          shop_root (&v.a, r * s, 16 * 16);
          shop_nudge (&v.a, by, INT64_C (1) << 60);
          shop_call (&v.x, "wheel_gap", &v.a, &v.b, &v.c);
          check_ok (br_real_sign (&sign, &v.x, 0));
          assert_int_equal (sign, by);
          if (by == 0)
            shop_is (&v.x, "0");
        }
    }
  clear (&v);
}

/* A size that is just a drill, and one a hair to either side, of roots as of fractions.  */
static void
drills_at_the_edge (void **state)
{
  values v;
  int64_t n;
  int by, root;

  (void) state;
  memset (&v, 0, sizeof v);
  for (n = 1; n < 64; n++)
    for (by = -1; by <= 1; by++)
      for (root = 0; root < 2; root++)
        {
          shop_ratio (&v.a, root ? n * n : n, root ? 64 * 64 : 64);
          shop_nudge (&v.a, by, INT64_C (1) << 60);
          if (root)
            check_ok (br_real_sqrt (&v.a, &v.a, 0));
          shop_ratio (&v.y, by > 0 ? n + 1 : n, 64);
          shop_call (&v.x, "drill", &v.a, NULL, NULL);
          shop_same (&v.x, &v.y);
          shop_call (&v.x, "drill", &v.x, NULL, NULL);
          shop_same (&v.x, &v.y);
        }
  clear (&v);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (circles), CHECK_TEST (arcs), CHECK_TEST (diagonals), CHECK_TEST (fenders),
    CHECK_TEST (daylight), CHECK_TEST (axles), CHECK_TEST (touching_wheels),
    CHECK_TEST (drills_at_the_edge),
  };
  return CHECK_RUN (tests);
}
