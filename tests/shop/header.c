/* SPDX-License-Identifier: GPL-3.0-or-later
   header.c - the trade as the header has it: each row of the table of functions by its public function, what
   it refuses, drills of each series, and the rules that a size touches.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <fenv.h>
#include <mpfr.h>
#include <pthread.h>
#include <stdatomic.h>

#include "shop/caution.h"
#include "support.h"

/* ---- One public function for each row ---- */

#define A(I) args[I]
typedef br_status public_call (br_real *z, const br_real *const *args, unsigned bits, br_error *error);

#define FUNCTION(NAME, CALL, ...)                                                               \
  static br_status call_##NAME (br_real *z, const br_real *const *args, unsigned bits,          \
                                br_error *error)                                                \
  {                                                                                             \
    return CALL (z, __VA_ARGS__, bits, error);                                                  \
  }

FUNCTION (radius, br_radius, A (0))
FUNCTION (diameter, br_diameter, A (0))
FUNCTION (circumference, br_circumference, A (0))
FUNCTION (diagonal, br_diagonal, A (0), A (1))
FUNCTION (arc_length, br_arc_length, A (0), A (1))
FUNCTION (chord, br_chord, A (0), A (1))
FUNCTION (rise, br_rise, A (0), A (1))
FUNCTION (radius_from, br_radius_from, A (0), A (1))
FUNCTION (fender_radius, br_fender_radius, A (0), A (1))
FUNCTION (fender_outer, br_fender_outer, A (0), A (1), A (2))
FUNCTION (fender_gap, br_fender_gap, A (0), A (1))
FUNCTION (wheel_gap, br_wheel_gap, A (0), A (1), A (2))
FUNCTION (wheelbase_for, br_wheelbase_for, A (0), A (1), A (2))
FUNCTION (axle_length, br_axle_length, A (0), A (1), A (2), A (3), A (4))
FUNCTION (clearance_hole, br_clearance_hole, A (0), A (1))
FUNCTION (drill, br_drill_next, A (0), BR_DRILL_FRACTIONAL)

#define ROW(NAME) { #NAME, call_##NAME }
static const struct { const char *name; public_call *call; } all[] = {
  ROW (radius), ROW (diameter), ROW (circumference), ROW (diagonal), ROW (arc_length), ROW (chord), ROW (rise),
  ROW (radius_from), ROW (fender_radius), ROW (fender_outer), ROW (fender_gap), ROW (wheel_gap), ROW (wheelbase_for),
  ROW (axle_length), ROW (clearance_hole), ROW (drill),
};

static public_call *
find (const char *name)
{
  for (size_t i = 0; i < CHECK_COUNT (all); i++)
    if (strcmp (all[i].name, name) == 0)
      return all[i].call;
  fail_msg ("no public function for %s", name);
  return NULL;
}

/* Sizes at random, some of them out of range: the public function says what the row says.  The result may go into
   an argument.  */
static void
each_row (void **state)
{
  (void) state;
  for (size_t i = 0; i < br__shop_function_count; i++)
    {
      const br__function *row = &br__shop_functions[i];
      size_t count = br__function_least (row), good = 0, bad = 0;
      for (long n = 12 + check_times (48); n > 0; n--)
        {
          br_real value[BR__SHOP_MAX_ARGS], z = BR_REAL_ZERO;
          const br_real *args[BR__SHOP_MAX_ARGS];
          br_error error = { .status = BR_OK }, other = { .status = BR_OK };
          memset (value, 0, sizeof value);
          for (size_t k = 0; k < count; k++)
            {
              /* The last are all below zero, which every function refuses or not at all.  */
              int64_t top = n == 1 ? -1 : check_between (-2, 40);
              check_ok (br_number_set_ratio (&value[k].rational, top, check_between (1, 32)));
              args[k] = &value[k];
            }
          br_status status = br__shop_value (&z, row, args, 0, &error);
          size_t into = (size_t) check_below (count);
          assert_int_equal (find (row->name) (&value[into], args, 0, &other), status);
          if (status == BR_OK)
            {
              int order = 1;
              check_ok (br_real_cmp (&order, &z, &value[into], 0));
              assert_int_equal (order, 0);
              good++;
            }
          else
            {
              assert_string_equal (error.message, other.message);
              assert_int_equal (error.offset, other.offset);
              bad++;
            }
          for (size_t k = 0; k < count; k++)
            br_real_clear (&value[k]);
          br_real_clear (&z);
        }
      if (!good || (!bad && strcmp (row->name, "fender_gap") != 0))
        fail_msg ("%s: %zu answered, %zu refused", row->name, good, bad);
    }
  assert_int_equal (br__shop_function_count, CHECK_COUNT (all));
}

/* Each parameter that is NULL is refused in words, the result as it was; ERROR may be NULL.  */
static void
not_given (void **state)
{
  br_real z = BR_REAL_ZERO, one = BR_REAL_ZERO;
  br_error error;
  (void) state;
  check_ok (br_number_set_int (&one.rational, 1));
  check_ok (br_number_set_int (&z.rational, 7));
  for (size_t i = 0; i < CHECK_COUNT (all); i++)
    {
      size_t count = br__function_least (shop_find (all[i].name));
      for (size_t k = 0; k < count; k++)
        {
          const br_real *args[BR__SHOP_MAX_ARGS] = { &one, &one, &one, &one, &one };
          args[k] = NULL;
          assert_int_equal (all[i].call (&z, args, 0, &error), BR_DOMAIN);
          assert_int_equal (error.offset, k);
          assert_non_null (strstr (error.message, " is not given"));
          assert_int_equal (all[i].call (&z, args, 0, NULL), BR_DOMAIN);
          shop_is (&z, "7");
        }
    }
}

/* A wheel of 2-3/8 with 5/16 of daylight; the wheels of 3-4-5 triangles (Euclid I.47): radii 2 and 5 stand 3 apart
   in height, and 4 apart on the floor the line between the axles is 5.  */
static void
by_hand (void **state)
{
  br_real z = BR_REAL_ZERO, w = BR_REAL_ZERO, f = BR_REAL_ZERO, r = BR_REAL_ZERO, off = BR_REAL_ZERO;
  br_number mark = BR_NUMBER_ZERO, eighth = BR_NUMBER_ZERO;
  int tie = 9;
  (void) state;
  shop_set (&w, "19/8", 4);
  shop_set (&f, "5/16", 4);
  check_ok (br_fender_radius (&z, &w, &f, 0, NULL));
  shop_is (&z, "3/2");
  shop_set (&w, "4", 1);
  shop_set (&f, "4", 1);
  shop_set (&r, "10", 2);
  check_ok (br_wheel_gap (&z, &w, &f, &r, 0, NULL));
  shop_is (&z, "-2");
  check_ok (br_wheelbase_for (&z, &z, &f, &r, 0, NULL));
  shop_is (&z, "4");
  /* The diagonal of 1 by 1 on eighths: sqrt 2 is 1.41421..., 11/8 is 0.03921... less.  */
  shop_set (&w, "1", 1);
  check_ok (br_diagonal (&z, &w, &w, 0, NULL));
  check_ok (br_number_set_ratio (&eighth, 1, 8));
  check_ok (br_ruler_round_real (&mark, &off, &tie, &z, &eighth, BR_NEAREST, BR_TIES_UP, 0));
  check_is (&mark, "11/8");
  assert_int_equal (tie, 0);
  check_ok (br_real_add (&off, &off, &z));
  int order = 1;
  check_ok (br_real_cmp (&order, &off, &(br_real) { { 11, 7 }, NULL }, 0));
  assert_int_equal (order, 0);
  assert_int_equal (br_ruler_round_real (&mark, &off, &tie, &z, &z.rational, BR_UP, BR_TIES_UP, 0), BR_DOMAIN);
  check_is (&mark, "11/8");
  br_real_clear (&z);
  br_real_clear (&off);
}

/* ---- Drills: ASME B94.11M; 7 is 0.201 in, F 0.257 in, Z 0.413 in ---- */

static void
drills (void **state)
{
  static const struct { br_drill_series series; const char *size, *drill; } rows[] = {
    { BR_DRILL_FRACTIONAL, "1/4", "1/4" }, { BR_DRILL_FRACTIONAL, "251/1000", "17/64" },
    { BR_DRILL_NUMBER, "1/5", "201/1000" }, { BR_DRILL_NUMBER, "201/1000", "201/1000" },
    { BR_DRILL_LETTER, "1/4", "1/4" }, { BR_DRILL_LETTER, "251/1000", "257/1000" },
    { BR_DRILL_FRACTIONAL, "65/64", NULL }, { BR_DRILL_NUMBER, "1/4", NULL }, { BR_DRILL_LETTER, "414/1000", NULL },
    { BR_DRILL_NUMBER, "0", NULL }, { BR_DRILL_LETTER, "-1", NULL }, { BR_DRILL_FRACTIONAL, "0", NULL },
    { (br_drill_series) 3, "1/4", NULL },
  };
  br_real size = BR_REAL_ZERO, drill = BR_REAL_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_error error = { .status = BR_OK };
      shop_set (&size, rows[i].size, strlen (rows[i].size));
      shop_set (&drill, "9", 1);
      br_status status = br_drill_next (&drill, &size, rows[i].series, 0, &error);
      assert_int_equal (status, rows[i].drill ? BR_OK : BR_DOMAIN);
      assert_int_equal (error.status, status);
      shop_is (&drill, rows[i].drill ? rows[i].drill : "9");
    }
  size = real_of (OPEN_ZERO);
  for (int series = BR_DRILL_FRACTIONAL; series <= BR_DRILL_LETTER; series++)
    assert_int_equal (br_drill_next (&drill, &size, (br_drill_series) series, 200, NULL), BR_UNDECIDED);
  br_real_clear (&size);
}

/* ---- Cautions ---- */

static size_t
gap (br_caution *c, const char *text, br_between between, unsigned months)
{
  br_real x = BR_REAL_ZERO;
  size_t count = 99;
  br_error error = { .status = BR_OK };
  shop_set (&x, text, strlen (text));
  check_ok (br_caution_gap (c, &count, &x, between, months, 0, &error));
  assert_in_range (count, 0, BR_MOST_CAUTIONS);
  for (size_t i = 0; i < count; i++)
    {
      assert_true (*c[i].text && *c[i].source && *c[i].scope && c[i].edition);
      assert_non_null (strstr (c[i].text, BR__TEACHER_FIRST));
    }
  br_real_clear (&x);
  return count;
}

/* The rods of ASTM F963 4.18.1 are 3/16 and 1/2 in, those of ISO 8124-1 5 and 12 mm.  */
static void
gaps (void **state)
{
  static const struct { const char *gap; size_t count; } rows[] = {
    { "1/8", 0 }, { "187/1000", 0 }, { "3/16", 1 }, { "24/127", 1 }, { "25/127", 2 }, { "1/4", 2 }, { "59/127", 2 },
    { "60/127", 1 }, { "499/1000", 1 }, { "1/2", 0 }, { "3", 0 },
  };
  br_caution c[BR_MOST_CAUTIONS];
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      assert_int_equal (gap (c, rows[i].gap, BR_BETWEEN_WHEELS, BR_AGE_UNKNOWN), rows[i].count);
      assert_int_equal (gap (c, rows[i].gap, BR_BETWEEN_MOVING_PARTS, 0), rows[i].count);
      assert_int_equal (gap (c, rows[i].gap, BR_BETWEEN_WHEEL_AND_FENDER, 95), rows[i].count);
      assert_int_equal (gap (c, rows[i].gap, BR_BETWEEN_WHEELS, 97), 0);
      assert_int_equal (gap (c, rows[i].gap, BR_BETWEEN_WHEELS, BR_NO_CHILD), 0);
      assert_int_equal (gap (c, rows[i].gap, BR_BETWEEN_FIXED_PARTS, 12), 0);
    }
  gap (c, "1/4", BR_BETWEEN_WHEELS, 36);
  assert_non_null (strstr (c[0].source, "ASTM F963 4.18.1"));
  assert_non_null (strstr (c[1].source, "ISO 8124-1"));
  assert_int_equal (gap (c, "0", BR_BETWEEN_WHEELS, BR_NO_CHILD), 1);
  assert_non_null (strstr (c[0].text, "the wheels touch"));
  assert_int_equal (gap (c, "-1/64", BR_BETWEEN_WHEEL_AND_FENDER, 12), 1);
  assert_non_null (strstr (c[0].text, "the wheel and its fender overlap"));
  assert_int_equal (gap (c, "-1/64", BR_BETWEEN_FIXED_PARTS, 12), 0);
}

/* 1 in across is in the cylinder of 16 CFR 1501.4, 1-1/4 in across and 1 in deep at least; 3 in are not.  */
static void
small (void **state)
{
  br_caution c[BR_MOST_CAUTIONS];
  br_real one = { { 1, 0 }, NULL }, three = { { 3, 0 }, NULL }, zero = BR_REAL_ZERO;
  size_t count = 9;
  br_error error;
  (void) state;
  check_ok (br_caution_small_box (c, &count, &one, &one, &one, 12, 0, NULL));
  assert_int_equal (count, 0);          /* 1 by 1 has a diagonal of 1.41 */
  check_ok (br_caution_small_disc (c, &count, &one, &one, 12, 0, NULL));
  assert_int_equal (count, 1);
  assert_non_null (strstr (c[0].source, "16 CFR 1501.4"));
  check_ok (br_caution_small_disc (c, &count, &one, &one, 36, 0, NULL));
  assert_int_equal (count, 0);
  check_ok (br_caution_small_disc (c, &count, &three, &one, 12, 0, NULL));
  assert_int_equal (count, 0);
  count = 9;
  assert_int_equal (br_caution_small_box (c, &count, &one, &zero, &one, 12, 0, &error), BR_DOMAIN);
  assert_int_equal (error.offset, 1);
  assert_int_equal (br_caution_small_disc (c, &count, &one, NULL, 12, 0, &error), BR_DOMAIN);
  assert_int_equal (br_caution_gap (c, &count, NULL, BR_BETWEEN_WHEELS, 12, 0, &error), BR_DOMAIN);
  assert_int_equal (br_caution_gap (c, &count, &one, (br_between) 4, 12, 0, &error), BR_DOMAIN);
  assert_int_equal (br_caution_workpiece (c, &count, &three, &zero, NULL, 0, &error), BR_DOMAIN);
  assert_int_equal (error.offset, 1);
  assert_int_equal (count, 9);
  check_ok (br_caution_workpiece (c, &count, &three, NULL, NULL, 0, &error));
  assert_in_range (count, 3, BR_MOST_CAUTIONS);
  assert_string_equal (c[0].scope, "any machine");
  check_ok (br_caution_workpiece (c, &count, NULL, NULL, NULL, 0, &error));
  assert_int_equal (count, 0);
}

/* What the cautions say to the square root of X, made anew.  */
static br_status
ask (const br_real *x, int of_piece)
{
  br_caution c[BR_MOST_CAUTIONS];
  br_real size = BR_REAL_ZERO;
  size_t count = 9;
  br_status status = br_real_sqrt (&size, x, 0);
  if (status == BR_OK)
    status = of_piece ? br_caution_workpiece (c, &count, &size, &size, &size, 0, NULL)
                      : br_caution_gap (c, &count, &size, BR_BETWEEN_WHEELS, 12, 0, NULL);
  assert_int_equal (count == 9, status != BR_OK);
  br_real_clear (&size);
  return status;
}

static void
cautions_without_memory (void **state)
{
  const br_real two = { { 2, 0 }, NULL };
  br_status status;
  (void) state;
  for (int of_piece = 0; of_piece < 2; of_piece++)
    CHECK_EACH_REFUSAL (status, status = ask (&two, of_piece), 0);
}

/* ---- Nothing global ---- */

static atomic_long gmp_blocks;

static void *
gmp_take (size_t size)
{
  atomic_fetch_add (&gmp_blocks, 1);
  return malloc (size);
}

static void *
gmp_change (void *old, size_t was, size_t size)
{
  (void) was;
  return realloc (old, size);
}

static void
gmp_give (void *block, size_t size)
{
  (void) size;
  atomic_fetch_sub (&gmp_blocks, 1);
  free (block);
}

/* The gap of wheels of many sizes, on sixteenths, as one text; ROUNDING is how this thread rounds doubles.  */
static void *
many_gaps (void *rounding)
{
  char *texts = calloc (1, 8000);
  br_number sixteenth = { 1, 15 }, mark = BR_NUMBER_ZERO;
  br_real z = BR_REAL_ZERO, off = BR_REAL_ZERO;
  fesetround (*(const int *) rounding);
#ifdef __GLIBC__
  /* A thread begins with the flags of the one that made it; one that is trapped while it stands ends the program.  */
  feclearexcept (FE_ALL_EXCEPT);
  feenableexcept (FE_ALL_EXCEPT);
#endif
  mpfr_set_emin (-3);
  mpfr_set_emax (4);
  for (int i = 1; i <= 100; i++)
    {
      br_real base = { { 20 + i, 6 }, NULL }, front = { { i, 7 }, NULL }, rear = { { 3, 0 }, NULL };
      if (br_wheel_gap (&z, &base, &front, &rear, 0, NULL) != BR_OK
          || br_ruler_round_real (&mark, &off, NULL, &z, &sixteenth, BR_NEAREST, BR_TIES_UP, 0) != BR_OK)
        break;
      size_t n = strlen (texts);
      n += br_number_write (texts + n, 8000 - n, &mark);
      texts[n++] = ' ';
      n += br_real_write_decimal (texts + n, 8000 - n, NULL, &off, 12, 0, NULL);
      texts[n] = ';';
    }
  if (mpfr_get_emin () != -3 || mpfr_get_emax () != 4 || fegetround () != *(const int *) rounding)
    texts[0] = 0;
  br_real_clear (&z);
  br_real_clear (&off);
  br_number_clear (&mark);
  mpfr_free_cache ();
  return texts;
}

/* Eight threads, each with its own way to round doubles and a narrow range of MPFR's exponents, GMP's memory the
   caller's: the same texts, and all of that memory given back.  */
static void
surroundings (void **state)
{
  static int ways[] = { FE_TONEAREST, FE_UPWARD, FE_DOWNWARD, FE_TOWARDZERO };
  pthread_t threads[8];
  char *right, *found;
  (void) state;
  void *(*take) (size_t);
  void *(*change) (void *, size_t, size_t);
  void (*give) (void *, size_t);
  mpfr_free_cache ();
  mp_get_memory_functions (&take, &change, &give);
  mp_set_memory_functions (gmp_take, gmp_change, gmp_give);
  pthread_create (&threads[0], NULL, many_gaps, &ways[0]);
  pthread_join (threads[0], (void **) &right);
  assert_true (strlen (right) > 1500);
  for (int i = 0; i < 8; i++)
    assert_int_equal (pthread_create (&threads[i], NULL, many_gaps, &ways[i % 4]), 0);
  for (int i = 0; i < 8; i++)
    {
      pthread_join (threads[i], (void **) &found);
      assert_string_equal (found, right);
      free (found);
    }
  free (right);
  assert_int_equal (gmp_blocks, 0);
  mp_set_memory_functions (take, change, give);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (each_row), cmocka_unit_test (not_given), cmocka_unit_test (by_hand), cmocka_unit_test (drills),
    cmocka_unit_test (gaps), cmocka_unit_test (small), cmocka_unit_test (cautions_without_memory),
    cmocka_unit_test (surroundings),
  };
  CHECK_RUN (tests);
}
