/* SPDX-License-Identifier: GPL-3.0-or-later
   functions.c - the shop's functions: worked examples in print, each with its inverse, and
   every bad input with its message.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

/* TIMES places to the right of the point in TEXT.  */
static unsigned
places (const char *text)
{
  const char *point = strchr (text, '.');

  return point == NULL ? 0 : (unsigned) strlen (point + 1);
}

/* X rounded to as many places as TEXT has; EQUAL gets whether that is TEXT.  */
static void
rounds_to (int *equal, const br_real *x, const char *text)
{
  br_number step = BR_NUMBER_ZERO, rounded = BR_NUMBER_ZERO;
  br_measure printed = BR_MEASURE_ZERO;

  check_ok (br_number_set_int (&step, 10));
  check_ok (br_number_pow (&step, &step, -(int64_t) places (text)));
  check_ok (br_real_round (&rounded, NULL, x, &step, BR_NEAREST, BR_TIES_UP, 0));
  check_ok (br_measure_read (&printed, text, strlen (text), NULL, NULL));
  *equal = br_number_equal (&rounded, &printed.value);
  br_number_clear (&step);
  br_number_clear (&rounded);
  br_measure_clear (&printed);
}

static void
printed_examples (void **state)
{
  check_data data;
  br_real z = BR_REAL_ZERO;
  br_error error;
  int equal, rows = 0;

  (void) state;
  check_open (&data, "geometry.txt", ';');
  for (; check_next (&data); rows++)
    {
      assert_int_equal (data.fields, 8);
      check_ok (shop_call_text (&z, data.field[1], data.field[2], 0, &error));
      rounds_to (&equal, &z, data.field[3]);
      if (!equal)
        fail_msg ("%s is not %s", data.field[0], data.field[3]);
      if (strcmp (data.field[4], "-") != 0)
        shop_is (&z, data.field[4]);
      if (strcmp (data.field[5], "-") == 0)
        continue;
      rounds_to (&equal, &z, data.field[5]);
      if (equal != (strcmp (data.field[6], "true") == 0))
        fail_msg ("%s: print %s is not %s", data.field[0], data.field[5], data.field[6]);
    }
  assert_int_equal (rows, 18);
  br_real_clear (&z);
}

/* The Building Trades Pocketbook, Mensuration part 2, chord 16 and rise 6: the rule of thumb
   there gives an arc of 21.333; true is (25/3) * 4 atan (3/4) = 21.45003696.  */
static void
arc_of_chord_and_rise (void **state)
{
  br_real angle = { { 3, 3 }, NULL }, four = { { 4, 0 }, NULL }, r = BR_REAL_ZERO;
  int equal;

  (void) state;
  check_ok (shop_call_text (&r, "radius_from", "16 6", 0, NULL));
  check_ok (br_real_atan (&angle, &angle));
  check_ok (br_real_mul (&angle, &angle, &four));
  shop_call (&r, "arc_length", &r, &angle, NULL);
  rounds_to (&equal, &r, "21.45003696");
  assert_true (equal);
  br_real_clear (&angle);
  br_real_clear (&r);
}

/* Worked by hand.  */
static void
by_hand (void **state)
{
  static const struct { const char *name, *args, *value; } rows[] = {
    { "radius", "7/2", "7/4" },
    { "radius", "0", "0" },
    { "diameter", "7/4", "7/2" },
    { "diagonal", "3/4 1", "5/4" },
    { "chord", "7/4 60", "7/4" },
    { "chord", "7/4 180", "7/2" },
    { "chord", "7/4 300", "7/4" },
    { "chord", "7/4 360", "0" },
    { "rise", "5 8", "2" },
    { "rise", "5 10", "5" },
    { "rise", "5 0", "0" },
    { "radius_from", "8 2", "5" },
    { "radius_from", "8 8", "5" },
    { "fender_radius", "7/2 5/16", "33/16" },
    { "fender_radius", "7/2 9/16", "37/16" },
    { "fender_radius", "7/2 -1/2", "5/4" },
    { "fender_outer", "7/2 5/16 3/8", "39/16" },
    { "fender_gap", "33/16 7/2", "5/16" },
    { "fender_gap", "3/2 7/2", "-1/4" },
    { "wheel_gap", "8 7/2 7/2", "9/2" },
    { "wheel_gap", "3 7/2 7/2", "-1/2" },
    { "wheel_gap", "4 8 2", "0" },
    { "wheelbase_for", "9/2 7/2 7/2", "8" },
    { "wheelbase_for", "0 8 2", "4" },
    { "wheelbase_for", "-1/2 7/2 7/2", "3" },
    { "axle_length", "7/2 3/4 1/16 1/32 1/4", "91/16" },
    { "axle_length", "7/2 3/4 0 0 0", "5" },
    { "clearance_hole", "7/16 1/32", "15/32" },
    { "clearance_hole", "7/16 0", "7/16" },
    { "drill", "7/16", "7/16" },
    { "drill", "701/1600", "29/64" },
    { "drill", "1/1000", "1/64" },
    { "drill", "63/64", "63/64" },
    { "drill", "127/128", "1" },
    { "drill", "1", "1" },
  };
  br_real z = BR_REAL_ZERO;
  size_t i;

  (void) state;
  for (i = 0; i < CHECK_COUNT (rows); i++)
    {
      check_ok (shop_call_text (&z, rows[i].name, rows[i].args, 0, NULL));
      shop_is (&z, rows[i].value);
    }
  br_real_clear (&z);
}

#define WHEEL "the wheel's diameter must be over zero"

static const struct bad
{
  const char *name, *args;
  size_t index;
  const char *message;
} bad_inputs[] = {
  { "radius", "-1", 0, "the diameter must not be below zero" },
  { "diameter", "-1", 0, "the radius must not be below zero" },
  { "circumference", "-1/64", 0, "the diameter must not be below zero" },
  { "diagonal", "-1 2", 0, "the first side must not be below zero" },
  { "diagonal", "1 -2", 1, "the second side must not be below zero" },
  { "arc_length", "0 90", 0, "the radius must be over zero" },
  { "arc_length", "5 0", 1, "the angle must be over zero" },
  { "arc_length", "5 -90", 1, "the angle must be over zero" },
  { "arc_length", "5 361", 1,
    "the angle is over 360 degrees: the arc would be longer than its circle" },
  { "chord", "-5 90", 0, "the radius must be over zero" },
  { "chord", "5 0", 1, "the angle must be over zero" },
  { "chord", "5 3601/10", 1,
    "the angle is over 360 degrees: the arc would be longer than its circle" },
  { "rise", "0 1", 0, "the radius must be over zero" },
  { "rise", "1 -1", 1, "the chord must not be below zero" },
  { "rise", "1 4", 1, "the chord is longer than the diameter of the circle" },
  { "rise", "1 129/64", 1, "the chord is longer than the diameter of the circle" },
  { "radius_from", "0 1", 0, "the chord must be over zero" },
  { "radius_from", "8 -1", 1, "the rise must not be below zero" },
  { "radius_from", "8 0", 1, "an arc with no rise is a straight line: it has no radius" },
  { "fender_radius", "-7/2 1/4", 0, WHEEL },
  { "fender_radius", "0 1/4", 0, WHEEL },
  { "fender_radius", "7/2 -7/4", 1,
    "the overlap takes up the whole wheel: no fender has this radius" },
  { "fender_outer", "0 1/4 3/8", 0, WHEEL },
  { "fender_outer", "7/2 1/4 0", 2, "the fender's width must be over zero" },
  { "fender_outer", "7/2 -2 3", 1,
    "the overlap takes up the whole wheel: no fender has this radius" },
  { "fender_gap", "0 7/2", 0, "the fender's radius must be over zero" },
  { "fender_gap", "2 -7/2", 1, WHEEL },
  { "wheel_gap", "0 7/2 5/2", 0, "the wheelbase must be over zero" },
  { "wheel_gap", "8 -7/2 5/2", 1, "the front wheel's diameter must be over zero" },
  { "wheel_gap", "8 7/2 0", 2, "the rear wheel's diameter must be over zero" },
  { "wheelbase_for", "1 0 5/2", 1, "the front wheel's diameter must be over zero" },
  { "wheelbase_for", "1 7/2 -5/2", 2, "the rear wheel's diameter must be over zero" },
  { "wheelbase_for", "-7/2 7/2 7/2", 0,
    "no wheelbase leaves this gap: two such wheels cannot overlap so far" },
  { "wheelbase_for", "-5/2 7/2 5/2", 0,
    "no wheelbase leaves this gap: two such wheels cannot overlap so far" },
  { "axle_length", "0 3/4 0 0 0", 0, "the body's width must be over zero" },
  { "axle_length", "3 0 0 0 0", 1, "the wheel's thickness must be over zero" },
  { "axle_length", "3 3/4 -1/16 0 0", 2, "the washer's thickness must not be below zero" },
  { "axle_length", "3 3/4 0 -1/32 0", 3, "the side play must not be below zero" },
  { "axle_length", "3 3/4 0 0 -1/4", 4, "the end allowance must not be below zero" },
  { "clearance_hole", "0 1/32", 0, "the shaft's diameter must be over zero" },
  { "clearance_hole", "7/16 -1/32", 1, "the clearance must not be below zero" },
  { "drill", "0", 0, "the size must be over zero" },
  { "drill", "-1/4", 0, "the size must be over zero" },
  { "drill", "65/64", 0, "the largest drill of the fractional series is 1 in" },
};

/* Each has its message at its argument, and the output is as it was.  */
static void
bad_input (void **state)
{
  br_real z = BR_REAL_ZERO;
  br_error error;
  size_t i;

  (void) state;
  check_ok (br_number_set_int (&z.rational, 77));
  for (i = 0; i < CHECK_COUNT (bad_inputs); i++)
    {
      const struct bad *bad = &bad_inputs[i];

      assert_int_equal (shop_call_text (&z, bad->name, bad->args, 0, &error), BR_DOMAIN);
      assert_int_equal (error.status, BR_DOMAIN);
      assert_string_equal (error.message, bad->message);
      assert_int_equal (error.offset, bad->index);
      assert_int_equal (error.length, 0);
      shop_is (&z, "77");
      assert_int_equal (shop_call_text (&z, bad->name, bad->args, 0, NULL), BR_DOMAIN);
    }
}

/* Every argument of every function refuses something, so that none is forgotten above.  */
static void
bad_input_is_whole (void **state)
{
  size_t f, i, k, found;

  (void) state;
  for (f = 0; f < br__shop_function_count; f++)
    for (i = 0; i < br__function_least (&br__shop_functions[f]); i++)
      {
        for (k = found = 0; k < CHECK_COUNT (bad_inputs); k++)
          found += strcmp (bad_inputs[k].name, br__shop_functions[f].name) == 0
                   && bad_inputs[k].index == i;
        if (found == 0)
          fail_msg ("%s: no bad input for argument %zu", br__shop_functions[f].name, i);
      }
}

/* The columns of the table say the same thing.  */
static void
table (void **state)
{
  size_t f, i, length, count;

  (void) state;
  assert_int_equal (br__shop_function_count, 16);
  for (f = 0; f < br__shop_function_count; f++)
    {
      const br__function *function = &br__shop_functions[f];
      const char *parameter = function->parameters;

      assert_ptr_equal (br__function_find (function->name, strlen (function->name)), function);
      count = br__function_least (function);
      assert_in_range (count, 1, BR__SHOP_MAX_ARGS);
      assert_int_equal (strlen (function->kinds), count);
      assert_int_equal (strspn (function->kinds, "LA"), count);
      assert_int_equal (strspn (function->needs, "+0a*"), count);
      for (i = 0; i < count; i++)
        {
          parameter = br__shop_parameter (&length, function, i);
          assert_string_not_equal (br__shop_parameter_words (parameter, length), "the value");
          assert_int_equal (function->needs[i] == 'a', function->kinds[i] == 'A');
        }
      assert_int_equal (parameter[length], 0);
      assert_true (strlen (function->rule) > 10 && strlen (function->summary) > 10);
      assert_int_equal (function->formula == NULL, strcmp (function->name, "drill") == 0);
    }
  assert_null (br__function_find ("fender", 6));
  assert_null (br__function_find ("fender_radiusx", 14));
  assert_string_equal (br__shop_parameter_words ("wheel_dia", 9), "the wheel's diameter");
}

/* Z may be any of the arguments.  */
static void
aliasing (void **state)
{
  static const char *const args[] = {
    "3", "3", "3", "3 4", "3 60", "3 60", "3 4", "3 4", "3 4", "3 4 5", "3 4", "9 4 5", "3 4 5",
    "3 4 5 6 7", "3 4", "1/3"
  };
  br_real z = BR_REAL_ZERO;
  shop_args own;
  size_t f, i;

  (void) state;
  assert_int_equal (CHECK_COUNT (args), br__shop_function_count);
  for (f = 0; f < br__shop_function_count; f++)
    {
      check_ok (shop_call_text (&z, br__shop_functions[f].name, args[f], 0, NULL));
      for (i = 0; i < br__function_least (&br__shop_functions[f]); i++)
        {
          shop_read (&own, args[f]);
          check_ok (br__shop_value (&own.value[i], &br__shop_functions[f], own.pointer, 0, NULL));
          shop_same (&own.value[i], &z);
          shop_clear (&own);
        }
    }
  br_real_clear (&z);
}

/* Values that are no fractions stay exact where the geometry closes.  */
static void
exact_roots (void **state)
{
  br_real a = BR_REAL_ZERO, b = BR_REAL_ZERO, z = BR_REAL_ZERO, two = { { 2, 0 }, NULL };
  br_real one = { { 1, 0 }, NULL };

  (void) state;
  shop_root (&a, 2, 1);
  shop_call (&z, "diagonal", &a, &a, NULL);
  shop_is (&z, "2");
  shop_call (&z, "rise", &a, &two, NULL);
  check_ok (br_real_add (&z, &z, &one));
  shop_same (&z, &a);
  shop_root (&b, 8, 1);
  shop_call (&z, "wheel_gap", &b, &two, &two);
  check_ok (br_real_add (&z, &z, &two));
  shop_same (&z, &b);
  br_real_clear (&a);
  br_real_clear (&b);
  br_real_clear (&z);
}

static void
undecided (void **state)
{
  br_real zero = BR_REAL_ZERO, one = { { 1, 0 }, NULL }, z = BR_REAL_ZERO;
  const br_real *args[] = { &one, &zero };
  br_error error;

  (void) state;
  shop_blur (&zero);
  assert_int_equal (br__shop_value (&z, shop_find ("radius_from"), args, 200, &error), BR_UNDECIDED);
  assert_int_equal (error.status, BR_UNDECIDED);
  assert_int_equal (error.offset, 1);
  args[0] = &zero;
  assert_int_equal (br__shop_value (&z, shop_find ("fender_radius"), args, 200, &error), BR_UNDECIDED);
  assert_int_equal (error.offset, 0);
  assert_int_equal (br__shop_value (&z, shop_find ("drill"), args, 200, &error), BR_UNDECIDED);
  br_real_clear (&zero);
}

static void
memory (void **state)
{
  br_real zero = BR_REAL_ZERO, z = BR_REAL_ZERO;
  shop_args wheels, arc;
  br_status status;

  (void) state;
  shop_read (&wheels, "8 7/2 5/2");
  shop_read (&arc, "5 41");
  CHECK_EACH_REFUSAL (status,
                      (br_real_clear (&z),
                       status = br__shop_value (&z, shop_find ("wheel_gap"), wheels.pointer, 0, NULL)),
                      1);
  br_real_clear (&z);
  z = zero;
  CHECK_EACH_REFUSAL (status,
                      (br_real_clear (&z),
                       status = br__shop_value (&z, shop_find ("arc_length"), arc.pointer, 0, NULL)),
                      1);
  br_real_clear (&z);
  shop_clear (&wheels);
  shop_clear (&arc);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (printed_examples), CHECK_TEST (arc_of_chord_and_rise), CHECK_TEST (by_hand),
    CHECK_TEST (bad_input), CHECK_TEST (bad_input_is_whole), CHECK_TEST (table),
    CHECK_TEST (aliasing), CHECK_TEST (exact_roots), CHECK_TEST (undecided), CHECK_TEST (memory),
  };
  return CHECK_RUN (tests);
}
