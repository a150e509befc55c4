/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.c - the shop's functions: circles and arcs, wheels and fenders, axles, drills.  Each function is defined
   completely by a row of the table at the end; no constant is rounded.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shop/functions.h"

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
refuse (const br__function *function, size_t index, const char *what, br_error *error)
{
  size_t length;
  const char *name = br__shop_parameter (&length, function, index);
  const words *found = find_words (name, length);

  br__fail (error, BR_DOMAIN, index, 0, "%s %s", br__shop_parameter_words (name, length), what);
  if (found != NULL && found->hint[0] != '\0')
    br__hint (error, "%s", found->hint);
  return BR_DOMAIN;
}

br_status
br__shop_need (const br__function *function, size_t index, const br_real *x, unsigned bits,
               br_error *error)
{
  static const br_real full_turn = { { 360, 0 }, NULL };
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

/* ------------------------------------------------------------------------
   The table
   ------------------------------------------------------------------------ */

#define A(INDEX) { BR__SHOP_ARGUMENT, INDEX, NULL }
#define NAME(INDEX) { BR__SHOP_NAME, INDEX, NULL }
#define WHOLE(NUMBER) { BR__SHOP_WHOLE, NUMBER, NULL }
#define PI { BR__SHOP_PI, 0, NULL }
#define ADD(X, Y) X, Y, { BR__SHOP_ADD, 0, NULL }
#define SUB(X, Y) X, Y, { BR__SHOP_SUB, 0, NULL }
#define MUL(X, Y) X, Y, { BR__SHOP_MUL, 0, NULL }
#define DIV(X, Y) X, Y, { BR__SHOP_DIV, 0, NULL }
#define HALF(X) X, WHOLE (2), { BR__SHOP_DIV, 0, NULL }
#define SQUARE(X) X, { BR__SHOP_SQUARE, 0, NULL }
#define ROOT(X) X, { BR__SHOP_ROOT, 0, NULL }
#define SINE(X) X, { BR__SHOP_SINE, 0, NULL }
#define STEP(WORD, X) X, { BR__SHOP_STEP, 0, WORD }
#define FORMULA(...) ((const br__shop_code[]) { __VA_ARGS__, { BR__SHOP_END, 0, NULL } })

/* A gap below zero is an overlap, which a drawing may show, but a fender needs some radius.  */
#define SOME_FENDER                                                                             \
  { { FORMULA (ADD (HALF (A (0)), A (1))), 0, 1,                                                \
      "the overlap takes up the whole wheel: no fender has this radius",                        \
      "a gap below zero is an overlap, and must be less than half the wheel" } }

/* With one axle over the other, two wheels overlap by the whole of the smaller.  */
#define SOME_WHEELBASE(WHEEL)                                                                   \
  { FORMULA (ADD (A (0), A (WHEEL))), 0, 0,                                                     \
    "no wheelbase leaves this gap: two such wheels cannot overlap so far",                      \
    "they overlap less even with one axle over the other; give a larger gap" }

/* Wheels of two sizes on one floor: the axles stand the difference of the radii apart in
   height, so the line from axle to axle, along which the daylight lies, is a hypotenuse.  */
#define RADII STEP ("front", HALF (A (1))), STEP ("rear", HALF (A (2)))
#define FRONT NAME (0)
#define REAR NAME (1)

/* Sources of the geometry: Euclid, Elements; of the sine, a chord of twice the angle: Ptolemy, Almagest I.10.  */
const br__function br__shop_functions[] = {
  { .name = "radius", .parameters = "d", .kinds = "L", .needs = "0", .id = BR__FUNCTION_RADIUS,
    .summary = "the radius of a circle from its diameter",
    .rule = "half the diameter", .source = "Euclid I, definition 17",
    .formula = FORMULA (HALF (A (0))) },
  { .name = "diameter", .parameters = "r", .kinds = "L", .needs = "0", .id = BR__FUNCTION_DIAMETER,
    .summary = "the diameter of a circle from its radius",
    .rule = "twice the radius", .source = "Euclid I, definition 17",
    .formula = FORMULA (MUL (WHOLE (2), A (0))) },
  { .name = "circumference", .parameters = "d", .kinds = "L", .needs = "0", .id = BR__FUNCTION_CIRCUMFERENCE,
    .summary = "the way once around a circle",
    .rule = "pi times the diameter", .source = "Archimedes, Measurement of a Circle, 3",
    .formula = FORMULA (MUL (PI, A (0))) },
  { .name = "diagonal", .parameters = "a, b", .kinds = "LL", .needs = "00",
    .summary = "from corner to corner of a rectangle",
    .rule = "square both sides, add, and take the square root", .source = "Euclid I.47",
    .formula = FORMULA (ROOT (ADD (SQUARE (A (0)), SQUARE (A (1))))) },
  { .name = "arc_length", .parameters = "r, degrees", .kinds = "LA", .needs = "+a",
    .summary = "the length along an arc",
    .rule = "the part of the way around that the angle is of 360 degrees", .source = "Euclid VI.33",
    .formula = FORMULA (DIV (MUL (MUL (MUL (WHOLE (2), PI), A (0)), A (1)), WHOLE (360))) },
  { .name = "chord", .parameters = "r, degrees", .kinds = "LA", .needs = "+a",
    .summary = "straight across from end to end of an arc",
    .rule = "twice the radius, times the sine of half the angle", .source = "Ptolemy, Almagest I.10",
    .formula = FORMULA (MUL (MUL (WHOLE (2), A (0)), SINE (HALF (A (1))))) },
  /* Of the smaller arc: the radius less the part of it that lies between the centre and the chord.  */
  { .name = "rise", .parameters = "r, chord", .kinds = "LL", .needs = "+0",
    .summary = "the height of an arc over its chord",
    .rule = "the radius, less what of it lies between the centre and the chord", .source = "Euclid III.3 and I.47",
    .formula = FORMULA (SUB (A (0), ROOT (SUB (SQUARE (A (0)), SQUARE (HALF (A (1))))))),
    .limits = { { FORMULA (SUB (A (0), HALF (A (1)))), 1, 1, "the chord is longer than the diameter of the circle",
                  "the longest chord is twice the radius; the radius comes first" } } },
  { .name = "radius_from", .parameters = "chord, rise", .kinds = "LL", .needs = "+0",
    .summary = "the radius of an arc from its chord and its rise",
    .rule = "square half the chord and the rise, add, and divide by twice the rise", .source = "Euclid III.35",
    .formula = FORMULA (DIV (ADD (SQUARE (HALF (A (0))), SQUARE (A (1))), MUL (WHOLE (2), A (1)))),
    .limits = { { FORMULA (A (1)), 0, 1, "an arc with no rise is a straight line: it has no radius",
                  "the rise is the height of the arc over its chord" } } },
  { .name = "fender_radius", .parameters = "wheel_dia, gap", .kinds = "LL", .needs = "+*",
    .summary = "the inner radius of a fender around its wheel",
    .rule = "half the wheel, and the gap", .source = "Euclid I, definition 15",
    .formula = FORMULA (ADD (HALF (A (0)), A (1))),
    .limits = SOME_FENDER, .gap = 2, .curve = 1, .parts = "the wheel and its fender" },
  { .name = "fender_outer", .parameters = "wheel_dia, gap, width", .kinds = "LLL", .needs = "+*+",
    .summary = "the outer radius of a fender around its wheel",
    .rule = "half the wheel, the gap, and the fender's width", .source = "Euclid I, definition 15",
    .formula = FORMULA (ADD (ADD (HALF (A (0)), A (1)), A (2))),
    .limits = SOME_FENDER, .gap = 2, .parts = "the wheel and its fender" },
  { .name = "fender_gap", .parameters = "fender_radius, wheel_dia", .kinds = "LL", .needs = "++",
    .summary = "the gap between a fender and its wheel",
    .rule = "the fender's radius, less half the wheel", .source = "Euclid I, definition 15",
    .formula = FORMULA (SUB (A (0), HALF (A (1)))),
    .gap = BR__SHOP_RESULT, .parts = "the wheel and its fender" },
  { .name = "wheel_gap", .parameters = "wheelbase, front_dia, rear_dia", .kinds = "LLL", .needs = "+++",
    .summary = "the daylight between two wheels on one floor",
    .rule = "the slanted line from axle to axle, less both radii", .source = "Euclid I.47",
    .formula = FORMULA (RADII, SUB (SUB (ROOT (ADD (SQUARE (A (0)), SQUARE (SUB (FRONT, REAR)))), FRONT), REAR)),
    .gap = BR__SHOP_RESULT, .parts = "the wheels" },
  { .name = "wheelbase_for", .parameters = "gap, front_dia, rear_dia", .kinds = "LLL", .needs = "*++",
    .summary = "the wheelbase that leaves a daylight between two wheels",
    .rule = "from axle to axle along the slant is the gap and both radii; the level "
            "side of that right triangle is the wheelbase", .source = "Euclid I.47",
    .formula = FORMULA (RADII, ROOT (SUB (SQUARE (ADD (ADD (A (0), FRONT), REAR)), SQUARE (SUB (FRONT, REAR))))),
    .limits = { SOME_WHEELBASE (1), SOME_WHEELBASE (2) }, .gap = 1, .parts = "the wheels" },
  { .name = "axle_length", .parameters = "body_width, wheel_thickness, washer, side_play, end_allowance",
    .kinds = "LLLLL", .needs = "++000",
    .summary = "the length of an axle with a wheel on each end",
    .rule = "the body, and on both sides a wheel, a washer, the play and the end", .source = "common practice, no source",
    .formula = FORMULA (ADD (A (0), MUL (WHOLE (2), ADD (ADD (ADD (A (1), A (2)), A (3)), A (4))))) },
  { .name = "clearance_hole", .parameters = "shaft_dia, clearance", .kinds = "LL", .needs = "+0",
    .summary = "the hole in which a shaft turns",
    .rule = "the shaft, and the clearance", .source = "common practice, no source",
    .formula = FORMULA (ADD (A (0), A (1))) },
  { .name = "drill", .parameters = "x", .kinds = "L", .needs = "+",
    .summary = "the next fractional drill at or over a size, 1/64 to 1 in",
    .rule = "the first fractional drill, by 64ths of an inch, that is not smaller", .source = "ASME B94.11M" },
};

const size_t br__shop_function_count = sizeof br__shop_functions / sizeof br__shop_functions[0];

/* ------------------------------------------------------------------------
   The formula as text
   ------------------------------------------------------------------------ */

/* The precedence of a formula, which decides where brackets are needed.  */
enum { SUM, PRODUCT, POWER, ALL };

typedef struct written
{
  br_text text;
  int binds;
} written;

static void
put (br_text *t, const written *x, int least)
{
  br__text_printf (t, x->binds < least ? "(%s)" : "%s", br__text_string (&x->text));
  t->failed |= x->text.failed;
}

/* Z = what C does with X and Y, or with X alone.  */
static void
put_operation (written *z, br__shop_op op, const written *x, const written *y)
{
  static const char *const signs[] = { " + ", " - ", " * ", " / " };
  int binds = op <= BR__SHOP_SUB ? SUM : op <= BR__SHOP_DIV ? PRODUCT : op == BR__SHOP_SQUARE ? POWER : ALL;

  if (op > BR__SHOP_SQUARE)
    br__text_puts (&z->text, op == BR__SHOP_ROOT ? "sqrt(" : "sin(");
  put (&z->text, x, binds == POWER ? ALL : binds == ALL ? SUM : binds);
  if (op <= BR__SHOP_DIV)
    {
      br__text_puts (&z->text, signs[op - BR__SHOP_ADD]);
      put (&z->text, y, binds + 1);
    }
  else
    br__text_puts (&z->text, op == BR__SHOP_SQUARE ? "^2" : ")");
  z->binds = binds;
}

void
br__shop_put_formula (br_text *t, const br__function *function)
{
  written stack[BR__SHOP_DEEPEST], *top = stack;
  const char *names[BR__SHOP_MOST_STEPS], *name;
  size_t step = 0, length;

  for (const br__shop_code *c = function->formula; c && c->op != BR__SHOP_END; c++)
    {
      written made = { BR_TEXT_ZERO, ALL };
      switch (c->op)
        {
        case BR__SHOP_ARGUMENT:
          name = br__shop_parameter (&length, function, (size_t) c->number);
          br__text_put (&made.text, name, length);
          break;
        case BR__SHOP_NAME: br__text_puts (&made.text, names[c->number]); break;
        case BR__SHOP_WHOLE: br__text_printf (&made.text, "%d", c->number); break;
        case BR__SHOP_PI: br__text_puts (&made.text, "pi"); break;
        case BR__SHOP_STEP:
          names[step++] = c->word;
          br__text_printf (t, "%s = ", c->word);
          put (t, --top, SUM);
          br__text_puts (t, "; ");
          br__text_clear (&top->text);
          continue;
        default:
          top -= br__shop_operands (c->op);
          put_operation (&made, c->op, top, top + 1);
          for (unsigned k = 0; k < br__shop_operands (c->op); k++)
            br__text_clear (&top[k].text);
        }
      *top++ = made;
    }
  if (top > stack)
    {
      put (t, --top, SUM);
      br__text_clear (&top->text);
    }
}

const char *
br__shop_parameter (size_t *length, const br__function *function, size_t index)
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
