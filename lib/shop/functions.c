/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.c - the shop's functions: circles and arcs, wheels and fenders, axles, drills.
   Plane geometry of circles and right triangles (Euclid III and I.47); no constant is rounded.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shop/calc.h"
#include "shop/drill.h"
#include "shop/functions.h"

/* Places in the table, by which a call finds what its arguments need.  */
enum place
{
  RADIUS, DIAMETER, CIRCUMFERENCE, DIAGONAL, ARC_LENGTH, CHORD, RISE, RADIUS_FROM, FENDER_RADIUS,
  FENDER_OUTER, FENDER_GAP, WHEEL_GAP, WHEELBASE_FOR, AXLE_LENGTH, CLEARANCE_HOLE, DRILL, PLACES
};

typedef struct words
{
  const char *name;
  const char *words;
  const char *hint;   /* what helps when the argument is out of its range, or "" */
} words;

static const words parameter_words[] = {
  { "d", "the diameter", "" },
  { "r", "the radius", "" },
  { "a", "the first side", "" },
  { "b", "the second side", "" },
  { "degrees", "the angle", "give an angle over 0, at most 360" },
  { "chord", "the chord", "a chord is the straight line from end to end of the arc" },
  { "rise", "the rise", "the rise is the height of the arc over its chord" },
  { "wheel_dia", "the wheel's diameter", "" },
  { "front_dia", "the front wheel's diameter", "" },
  { "rear_dia", "the rear wheel's diameter", "" },
  { "gap", "the gap", "" },
  { "width", "the fender's width", "the width is from the fender's inner edge to its outer" },
  { "fender_radius", "the fender's radius", "" },
  { "wheelbase", "the wheelbase", "the wheelbase is the distance from axle to axle" },
  { "body_width", "the body's width", "" },
  { "wheel_thickness", "the wheel's thickness", "" },
  { "washer", "the washer's thickness", "without washers, give 0" },
  { "side_play", "the side play", "without side play, give 0" },
  { "end_allowance", "the end allowance", "where nothing stands out past the wheel, give 0" },
  { "shaft_dia", "the shaft's diameter", "" },
  { "clearance", "the clearance", "a hole smaller than its shaft leaves no clearance" },
  { "x", "the size", "" },
};

static const br_real two = BR__WHOLE (2);
static const br_real half_turn = BR__WHOLE (180);
static const br_real full_turn = BR__WHOLE (360);

/* ------------------------------------------------------------------------
   What arguments must be
   ------------------------------------------------------------------------ */

static const words *
find_words (const char *name, size_t length)
{
  size_t i;

  for (i = 0; i < sizeof parameter_words / sizeof parameter_words[0]; i++)
    if (strlen (parameter_words[i].name) == length
        && memcmp (parameter_words[i].name, name, length) == 0)
      return &parameter_words[i];
  return NULL;
}

static br_status
refuse (const br__shop_function *function, size_t index, const char *what, br_error *error)
{
  size_t length;
  const char *name = br__shop_parameter (&length, function, index);
  const words *found = find_words (name, length);

  br__fail (error, BR_DOMAIN, index, 0, "%s %s", br__shop_parameter_words (name, length), what);
  if (found != NULL && found->hint[0] != '\0')
    br__hint (error, "%s", found->hint);
  return BR_DOMAIN;
}

static br_status
need_one (const br__shop_function *function, size_t index, const br_real *x, unsigned bits,
          br_error *error)
{
  char need = function->needs[index];
  int s = 0, turn = -1;
  br_status status = BR_OK;

  if (need != '*')
    status = br_real_sign (&s, x, bits);
  if (status == BR_OK && need == 'a')
    status = br_real_cmp (&turn, x, &full_turn, bits);
  if (status != BR_OK)
    return br__fail_plain (error, status, index, 0);
  if (need == '0' && s < 0)
    return refuse (function, index, "must not be below zero", error);
  if ((need == '+' || need == 'a') && s <= 0)
    return refuse (function, index, "must be over zero", error);
  if (turn > 0)
    return refuse (function, index, "is over 360 degrees: the arc would be longer than its circle",
                   error);
  return BR_OK;
}

static br_status
need (enum place place, const br_real *const *args, unsigned bits, br_error *error)
{
  const br__shop_function *function = &br__shop_functions[place];
  size_t i, count = br__shop_function_arity (function);
  br_status status = BR_OK;

  for (i = 0; i < count && status == BR_OK; i++)
    status = need_one (function, i, args[i], bits, error);
  return status;
}

/* Leaves the result in A of C.  BR_DOMAIN with ERROR filled where there is no such shape; what
   goes wrong in a step is in the status of C.  */
typedef br_status (*steps) (br__calc *c, const br_real *const *args, br_error *error);

static br_status
run (br_real *z, enum place place, steps take, const br_real *const *args, unsigned bits,
     br_error *error)
{
  br__calc c = BR__CALC (bits);
  br_real old = *z;
  br_status status = need (place, args, bits, error);

  if (status != BR_OK)
    return status;
  status = take (&c, args, error);
  if (status == BR_OK && c.status != BR_OK)
    status = br__fail_plain (error, c.status, 0, 0);
  if (status == BR_OK)
    {
      *z = c.a;
      c.a = old;
    }
  calc_clear (&c);
  return status;
}

/* The call of the table for the steps NAME.  */
#define CALL(NAME, PLACE)                                                                       \
  static br_status call_##NAME (br_real *z, const br_real *const *args, unsigned bits,          \
                                br_error *error)                                                \
  {                                                                                             \
    return run (z, PLACE, NAME, args, bits, error);                                             \
  }

/* ------------------------------------------------------------------------
   Circles and arcs
   ------------------------------------------------------------------------ */

#define STEPS(NAME) \
  static br_status NAME (br__calc *c, const br_real *const *args, br_error *error)

STEPS (radius)
{
  (void) error;
  calc_div (c, &c->a, args[0], &two);
  return BR_OK;
}

STEPS (diameter)
{
  (void) error;
  calc_mul (c, &c->a, args[0], &two);
  return BR_OK;
}

STEPS (circumference)
{
  (void) error;
  c->status = br_real_pi (&c->a);
  calc_mul (c, &c->a, &c->a, args[0]);
  return BR_OK;
}

/* Z = X^2 + Y^2, or the difference; B is used on the way.  */
static void
squares (br__calc *c, br_real *z, const br_real *x, const br_real *y, int plus)
{
  calc_mul (c, &c->b, y, y);
  calc_mul (c, z, x, x);
  if (plus)
    calc_add (c, z, z, &c->b);
  else
    calc_sub (c, z, z, &c->b);
}

STEPS (diagonal)
{
  (void) error;
  squares (c, &c->a, args[0], args[1], 1);
  calc_root (c, &c->a, &c->a);
  return BR_OK;
}

STEPS (arc_length)
{
  (void) error;
  c->status = br_real_pi (&c->a);
  calc_mul (c, &c->b, args[0], args[1]);
  calc_div (c, &c->b, &c->b, &half_turn);
  calc_mul (c, &c->a, &c->a, &c->b);
  return BR_OK;
}

STEPS (chord)
{
  (void) error;
  calc_div (c, &c->a, args[1], &two);
  if (c->status == BR_OK)
    c->status = br_real_sin (&c->a, &c->a);
  calc_mul (c, &c->a, &c->a, args[0]);
  calc_mul (c, &c->a, &c->a, &two);
  return BR_OK;
}

/* The height of the smaller arc over its chord: the radius less the part of it that lies
   between the centre and the chord (Pythagoras on half the chord).  */
STEPS (rise)
{
  calc_div (c, &c->a, args[1], &two);
  if (calc_order (c, &c->a, args[0]) > 0)
    {
      br__fail (error, BR_DOMAIN, 1, 0, "the chord is longer than the diameter of the circle");
      br__hint (error, "the longest chord is twice the radius; the radius comes first");
      return BR_DOMAIN;
    }
  squares (c, &c->a, args[0], &c->a, 0);
  calc_root (c, &c->a, &c->a);
  calc_sub (c, &c->a, args[0], &c->a);
  return BR_OK;
}

STEPS (radius_from)
{
  if (calc_sign (c, args[1]) == 0 && c->status == BR_OK)
    {
      br__fail (error, BR_DOMAIN, 1, 0, "an arc with no rise is a straight line: it has no radius");
      br__hint (error, "the rise is the height of the arc over its chord");
      return BR_DOMAIN;
    }
  calc_div (c, &c->a, args[0], &two);
  squares (c, &c->a, &c->a, args[1], 1);
  calc_div (c, &c->a, &c->a, &two);
  calc_div (c, &c->a, &c->a, args[1]);
  return BR_OK;
}

CALL (radius, RADIUS)
CALL (diameter, DIAMETER)
CALL (circumference, CIRCUMFERENCE)
CALL (diagonal, DIAGONAL)
CALL (arc_length, ARC_LENGTH)
CALL (chord, CHORD)
CALL (rise, RISE)
CALL (radius_from, RADIUS_FROM)

/* ------------------------------------------------------------------------
   Wheels and fenders
   ------------------------------------------------------------------------ */

/* A gap below zero is an overlap, which a drawing may show, but a fender needs some radius.  */
STEPS (fender_radius)
{
  calc_div (c, &c->a, args[0], &two);
  calc_add (c, &c->a, &c->a, args[1]);
  if (calc_sign (c, &c->a) > 0 || c->status != BR_OK)
    return BR_OK;
  br__fail (error, BR_DOMAIN, 1, 0,
            "the overlap takes up the whole wheel: no fender has this radius");
  br__hint (error, "a gap below zero is an overlap, and must be less than half the wheel");
  return BR_DOMAIN;
}

STEPS (fender_outer)
{
  br_status status = fender_radius (c, args, error);

  if (status == BR_OK)
    calc_add (c, &c->a, &c->a, args[2]);
  return status;
}

STEPS (fender_gap)
{
  (void) error;
  calc_div (c, &c->a, args[1], &two);
  calc_sub (c, &c->a, args[0], &c->a);
  return BR_OK;
}

/* Wheels of two sizes on one floor: the axles stand the difference of the radii apart in
   height, so the line from axle to axle, along which the daylight lies, is a hypotenuse.  */
STEPS (wheel_gap)
{
  (void) error;
  calc_div (c, &c->c, args[1], &two);
  calc_div (c, &c->d, args[2], &two);
  calc_sub (c, &c->a, &c->c, &c->d);
  squares (c, &c->a, args[0], &c->a, 1);
  calc_root (c, &c->a, &c->a);
  calc_add (c, &c->c, &c->c, &c->d);
  calc_sub (c, &c->a, &c->a, &c->c);
  return BR_OK;
}

STEPS (wheelbase_for)
{
  calc_div (c, &c->c, args[1], &two);
  calc_div (c, &c->d, args[2], &two);
  calc_add (c, &c->a, &c->c, &c->d);
  calc_add (c, &c->a, &c->a, args[0]);
  calc_sub (c, &c->c, &c->c, &c->d);
  if (c->status == BR_OK)
    c->status = br_real_abs (&c->c, &c->c, c->bits);
  if (calc_order (c, &c->a, &c->c) <= 0 && c->status == BR_OK)
    {
      br__fail (error, BR_DOMAIN, 0, 0,
                "no wheelbase leaves this gap: two such wheels cannot overlap so far");
      br__hint (error, "they overlap less even with one axle over the other; give a larger gap");
      return BR_DOMAIN;
    }
  squares (c, &c->a, &c->a, &c->c, 0);
  calc_root (c, &c->a, &c->a);
  return BR_OK;
}

CALL (fender_radius, FENDER_RADIUS)
CALL (fender_outer, FENDER_OUTER)
CALL (fender_gap, FENDER_GAP)
CALL (wheel_gap, WHEEL_GAP)
CALL (wheelbase_for, WHEELBASE_FOR)

/* ------------------------------------------------------------------------
   Axles and holes
   ------------------------------------------------------------------------ */

STEPS (axle_length)
{
  size_t i;

  (void) error;
  for (i = 1; i < 5; i++)
    calc_add (c, &c->a, &c->a, args[i]);
  calc_mul (c, &c->a, &c->a, &two);
  calc_add (c, &c->a, &c->a, args[0]);
  return BR_OK;
}

STEPS (clearance_hole)
{
  (void) error;
  calc_add (c, &c->a, args[0], args[1]);
  return BR_OK;
}

STEPS (drill)
{
  return br__drill_up (&c->a.rational, args[0], c->bits, error);
}

CALL (axle_length, AXLE_LENGTH)
CALL (clearance_hole, CLEARANCE_HOLE)
CALL (drill, DRILL)

/* ------------------------------------------------------------------------
   The table
   ------------------------------------------------------------------------ */

const br__shop_function br__shop_functions[] = {
  [RADIUS] = { "radius", "d", "L:L", "0", "d / 2",
               "", "half the diameter",
               "the radius of a circle from its diameter", call_radius },
  [DIAMETER] = { "diameter", "r", "L:L", "0", "2 * r",
                 "", "twice the radius",
                 "the diameter of a circle from its radius", call_diameter },
  [CIRCUMFERENCE] = { "circumference", "d", "L:L", "0", "pi * d",
                      "", "pi times the diameter",
                      "the way once around a circle", call_circumference },
  [DIAGONAL] = { "diagonal", "a, b", "LL:L", "00", "sqrt(a^2 + b^2)",
                 "",
                 "square both sides, add, and take the square root",
                 "from corner to corner of a rectangle", call_diagonal },
  [ARC_LENGTH] = { "arc_length", "r, degrees", "LA:L", "+a", "2 * pi * r * degrees / 360",
                   "",
                   "the part of the way around that the angle is of 360 degrees",
                   "the length along an arc", call_arc_length },
  [CHORD] = { "chord", "r, degrees", "LA:L", "+a", "2 * r * sin(degrees / 2)",
              "",
              "twice the radius, times the sine of half the angle",
              "straight across from end to end of an arc", call_chord },
  [RISE] = { "rise", "r, chord", "LL:L", "+0", "r - sqrt(r^2 - (chord / 2)^2)",
             "",
             "the radius, less what of it lies between the centre and the chord",
             "the height of an arc over its chord", call_rise },
  [RADIUS_FROM] = { "radius_from", "chord, rise", "LL:L", "+0",
                    "((chord / 2)^2 + rise^2) / (2 * rise)",
                    "",
                    "square half the chord and the rise, add, and divide by twice the rise",
                    "the radius of an arc from its chord and its rise", call_radius_from },
  [FENDER_RADIUS] = { "fender_radius", "wheel_dia, gap", "LL:L", "+*", "wheel_dia / 2 + gap",
                      "wheel_dia / 2 + gap",
                      "half the wheel, and the gap",
                      "the inner radius of a fender around its wheel", call_fender_radius },
  [FENDER_OUTER] = { "fender_outer", "wheel_dia, gap, width", "LLL:L", "+*+",
                     "wheel_dia / 2 + gap + width",
                     "wheel_dia / 2 + gap",
                     "half the wheel, the gap, and the fender's width",
                     "the outer radius of a fender around its wheel", call_fender_outer },
  [FENDER_GAP] = { "fender_gap", "fender_radius, wheel_dia", "LL:L", "++",
                   "fender_radius - wheel_dia / 2",
                   "", "the fender's radius, less half the wheel",
                   "the gap between a fender and its wheel", call_fender_gap },
  [WHEEL_GAP] = { "wheel_gap", "wheelbase, front_dia, rear_dia", "LLL:L", "+++",
                  "front = front_dia / 2; rear = rear_dia / 2; "
                  "sqrt(wheelbase^2 + (front - rear)^2) - front - rear",
                  "",
                  "the slanted line from axle to axle, less both radii",
                  "the daylight between two wheels on one floor", call_wheel_gap },
  [WHEELBASE_FOR] = { "wheelbase_for", "gap, front_dia, rear_dia", "LLL:L", "*++",
                      "front = front_dia / 2; rear = rear_dia / 2; "
                      "sqrt((gap + front + rear)^2 - (front - rear)^2)",
                      "gap + front_dia / 2 + rear_dia / 2",
                      "from axle to axle along the slant is the gap and both radii; the level "
                      "side of that right triangle is the wheelbase",
                      "the wheelbase that leaves a daylight between two wheels",
                      call_wheelbase_for },
  [AXLE_LENGTH] = { "axle_length", "body_width, wheel_thickness, washer, side_play, end_allowance",
                    "LLLLL:L", "++000",
                    "body_width + 2 * (wheel_thickness + washer + side_play + end_allowance)",
                    "",
                    "the body, and on both sides a wheel, a washer, the play and the end",
                    "the length of an axle with a wheel on each end", call_axle_length },
  [CLEARANCE_HOLE] = { "clearance_hole", "shaft_dia, clearance", "LL:L", "+0",
                       "shaft_dia + clearance",
                       "", "the shaft, and the clearance",
                       "the hole in which a shaft turns", call_clearance_hole },
  [DRILL] = { "drill", "x", "L:L", "+", NULL,
              "",
              "the first fractional drill, by 64ths of an inch, that is not smaller",
              "the next fractional drill at or over a size, 1/64 to 1 in", call_drill },
};

const size_t br__shop_function_count = PLACES;

const br__shop_function *
br__shop_function_find (const char *name, size_t length)
{
  size_t i;

  for (i = 0; i < PLACES; i++)
    if (strlen (br__shop_functions[i].name) == length
        && memcmp (br__shop_functions[i].name, name, length) == 0)
      return &br__shop_functions[i];
  return NULL;
}

size_t
br__shop_function_arity (const br__shop_function *function)
{
  return strlen (function->needs);
}

const char *
br__shop_parameter (size_t *length, const br__shop_function *function, size_t index)
{
  const char *name = function->parameters;

  for (; index > 0; index--)
    name = strchr (name, ',') + 2;
  *length = strcspn (name, ",");
  return name;
}

const char *
br__shop_parameter_words (const char *name, size_t length)
{
  const words *found = find_words (name, length);

  return found != NULL ? found->words : "the value";
}
