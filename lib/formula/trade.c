/* SPDX-License-Identifier: LGPL-3.0-or-later
   trade.c - evaluates the functions of the trade: applies the formula of a table row to known values or to slots of a
   program, for the sheet language and for br_radius and the like.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "formula/operate.h"
#include "shop/drill.h"

/* ---- A formula ---- */

/* Z, empty, gets what OP of a row makes of X and Y.  */
static br_status
operate (br__work *w, br__value *z, br__shop_op op, const br__value *x, const br__value *y)
{
  static const br__opcode codes[] = { BR__CODE_ADD, BR__CODE_SUB, BR__CODE_MUL, BR__CODE_DIV };
  static const br_number square = { 2, 0 }, root = { 1, 1 };
  if (op <= BR__SHOP_DIV)
    return br__operate (w, z, codes[op - BR__SHOP_ADD], x, y);
  if (op == BR__SHOP_SINE)
    return br__operate (w, z, BR__CODE_SIN, x, NULL);
  return br__operate_power (w, z, x, op == BR__SHOP_SQUARE ? &square : &root);
}

/* Z, empty, gets the value of the formula FROM of ARGS.  */
static br_status
by_formula (br__work *w, br__value *z, const br__shop_code *from, const br__value *args)
{
  br__value stack[BR__SHOP_DEEPEST], names[BR__SHOP_MOST_STEPS], *top = stack;
  size_t steps = 0;
  br_status status = BR_OK;
  for (const br__shop_code *c = from; c->op != BR__SHOP_END && status == BR_OK; c++)
    {
      br__value made = BR__VALUE_ZERO;
      unsigned count = br__shop_operands (c->op);
      switch (c->op)
        {
        case BR__SHOP_ARGUMENT: status = br__value_set (&made, &args[c->number]); break;
        case BR__SHOP_NAME: status = br__value_set (&made, &names[c->number]); break;
        case BR__SHOP_WHOLE: status = br_number_set_int (&made.real.rational, c->number); break;
        case BR__SHOP_PI: status = br_real_pi (&made.real); break;
        case BR__SHOP_STEP: names[steps++] = *--top; continue;
        default: status = operate (w, &made, c->op, top - count, top - 1);
        }
      while (count-- > 0)
        br__value_clear (--top);
      *top++ = made;
    }
  if (status == BR_OK)
    *z = *--top;
  while (top > stack)
    br__value_clear (--top);
  while (steps > 0)
    br__value_clear (&names[--steps]);
  return status;
}

/* ---- What arguments must be ---- */

/* X, which is not known yet, has to be what argument INDEX of SHOP needs.  */
static br_status
put_need (br__work *w, br__value *x, const br__function *shop, size_t index)
{
  char need = shop->needs[index];
  br__value turn = BR__VALUE_ZERO;
  br_status status = BR_OK;
  if (need == 'a')
    {
      /* Up to a whole turn: this is checked before the value is known to be over 0.  */
      status = br_number_set_int (&turn.real.rational, 360);
      if (status == BR_OK)
        status = br__operate (w, &turn, BR__CODE_SUB, &turn, x);
      if (status == BR_OK)
        status = br__operate (w, &turn, BR__CODE_NOT_BELOW, &turn, NULL);
      br__value_clear (&turn);
    }
  if (status != BR_OK || need == '*')
    return status;
  return br__operate (w, x, need == '0' ? BR__CODE_NOT_BELOW : BR__CODE_OVER_ZERO, x, NULL);
}

static br_status
put_limit (br__work *w, const br__shop_limit *limit, const br__value *args)
{
  br__value x = BR__VALUE_ZERO;
  br_status status = by_formula (w, &x, limit->over, args);
  if (status == BR_OK)
    status = br__operate (w, &x, limit->may_be_zero ? BR__CODE_NOT_BELOW : BR__CODE_OVER_ZERO, &x, NULL);
  int known = !x.slot;
  br__value_clear (&x);
  if (status == BR_DOMAIN && known)
    {
      br__fail (w->error, BR_DOMAIN, limit->index, 0, "%s", limit->message);
      br__hint (w->error, "%s", limit->hint);
    }
  return status;
}

/* Z, empty, gets the value of SHOP for ARGS, which may be changed.  */
static br_status
take (br__work *w, br__value *z, br__value *args, const br__function *shop)
{
  size_t count = br__function_least (shop);
  int varies = 0;
  br_status status = BR_OK;
  for (size_t i = 0; i < count && status == BR_OK; i++)
    {
      varies |= args[i].slot != 0;
      if (args[i].slot)
        status = put_need (w, &args[i], shop, i);
      else if ((status = br__shop_need (shop, i, &args[i].real, w->settings->bits, w->error)) != BR_OK)
        return status;
    }
  if (status == BR_OK && !shop->formula)
    return varies ? br__operate (w, z, BR__CODE_DRILL, &args[0], NULL)
                  : br__drill_up (&z->real.rational, &args[0].real, w->settings->bits, w->error);
  for (size_t i = 0; i < BR__SHOP_LIMITS && shop->limits[i].over && status == BR_OK; i++)
    if ((status = put_limit (w, &shop->limits[i], args)) == BR_DOMAIN)
      return status;
  if (status == BR_OK)
    status = by_formula (w, z, shop->formula, args);
  return status == BR_OK ? BR_OK : br__fail_plain (w->error, status, varies ? BR__WHOLE_CALL : 0, 0);
}

/* Brings the lengths of a call to one kind: lengths where any is one, else plain.  */
static br_status
unify_arguments (br__work *w, br__value *args, unsigned count, const br__function *self, br_dimension *kind)
{
  const char *kinds = self->kinds;
  *kind = BR_PLAIN;
  for (unsigned i = 0; i < count; i++)
    if (kinds[i] == 'L' && args[i].dimension == BR_LENGTH)
      *kind = BR_LENGTH;
  for (unsigned i = 0; i < count; i++)
    {
      br_dimension d = args[i].dimension;
      if (kinds[i] == 'L' && d != BR_PLAIN && d != BR_LENGTH)
        return br__fail (w->error, BR_DOMAIN, i, 0, "a length should stand here, not %s", br__dimension_words (d));
      if (kinds[i] == 'A' && d != BR_PLAIN && d != BR_ANGLE)
        return br__fail (w->error, BR_DOMAIN, i, 0, "`%s` takes degrees here, not %s", self->name,
                         br__dimension_words (d));
      if (kinds[i] == 'L' && *kind == BR_LENGTH && d == BR_PLAIN)
        {
          br_status status = br__work_to_length (w, &args[i]);
          if (status != BR_OK)
            return br__fail_plain (w->error, status, i, 0);
        }
    }
  return BR_OK;
}

br_status
br__call_shop (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br_dimension kind = BR_PLAIN;
  br_status status = BR_OK;
  /* Drills are made in inches, so a plain number of a metric sheet becomes a length first.  */
  if (!self->formula && args[0].dimension == BR_PLAIN && strcmp (w->settings->unit->name, "in") != 0)
    {
      status = br__work_to_length (w, &args[0]);
      if (status != BR_OK)
        return br__fail_plain (w->error, status, 0, 0);
    }
  status = unify_arguments (w, args, count, self, &kind);
  if (status == BR_OK)
    status = take (w, z, args, self);
  z->dimension = kind;
  return status;
}

/* ---- For programs ---- */

br_status
br__shop_value (br_real *z, const br__function *shop, const br_real *const *args, unsigned bits, br_error *error)
{
  const br__settings s = { .bits = bits };
  br__work w = { &s, NULL, error, 0 };
  br__value values[BR__SHOP_MAX_ARGS], made = BR__VALUE_ZERO;
  size_t count = br__function_least (shop);
  /* Borrowed: a value that is known is not changed.  */
  for (size_t i = 0; i < count; i++)
    values[i] = (br__value) { *args[i], BR_PLAIN, 0 };
  br_status status = take (&w, &made, values, shop);
  if (status == BR_OK)
    {
      br_real_clear (z);
      *z = made.real;
    }
  return status;
}

/* The row NAME of ARGS.  A value that is not given is refused as one out of its range is.  */
static br_status
call (br_real *z, const char *name, const br_real *const *args, unsigned bits, br_error *error)
{
  const br__function *row = br__function_find (name, strlen (name));
  size_t count = br__function_least (row);
  if (!z)
    return br__fail_null (error);
  for (size_t i = 0; i < count; i++)
    if (!args[i])
      {
        size_t length;
        const char *parameter = br__shop_parameter (&length, row, i);
        return br__fail (error, BR_DOMAIN, i, 0, "%s is not given",
                         br__shop_parameter_words (parameter, length));
      }
  return br__shop_value (z, row, args, bits, error);
}

/* br_NAME of one, two and three values.  */
#define ONE(NAME)                                                                               \
  br_status br_##NAME (br_real *z, const br_real *a, unsigned bits, br_error *error)            \
  {                                                                                             \
    return call (z, #NAME, (const br_real *const[]) { a }, bits, error);                        \
  }
#define TWO(NAME)                                                                               \
  br_status br_##NAME (br_real *z, const br_real *a, const br_real *b, unsigned bits,           \
                       br_error *error)                                                         \
  {                                                                                             \
    return call (z, #NAME, (const br_real *const[]) { a, b }, bits, error);                     \
  }
#define THREE(NAME)                                                                             \
  br_status br_##NAME (br_real *z, const br_real *a, const br_real *b, const br_real *c,        \
                       unsigned bits, br_error *error)                                          \
  {                                                                                             \
    return call (z, #NAME, (const br_real *const[]) { a, b, c }, bits, error);                  \
  }

ONE (radius)
ONE (diameter)
ONE (circumference)
TWO (diagonal)
TWO (arc_length)
TWO (chord)
TWO (rise)
TWO (radius_from)
TWO (fender_radius)
THREE (fender_outer)
TWO (fender_gap)
THREE (wheel_gap)
THREE (wheelbase_for)
TWO (clearance_hole)

br_status
br_axle_length (br_real *length, const br_real *body_width, const br_real *wheel_thickness,
                const br_real *washer, const br_real *side_play, const br_real *end_allowance,
                unsigned bits, br_error *error)
{
  const br_real *const args[] = { body_width, wheel_thickness, washer, side_play, end_allowance };
  return call (length, "axle_length", args, bits, error);
}

/* The row of the table is the fractional series.  */
br_status
br_drill_next (br_real *drill, const br_real *size, br_drill_series series, unsigned bits,
               br_error *error)
{
  br_real found = BR_REAL_ZERO;
  int sign = 0;
  br_status status;
  if (series == BR_DRILL_FRACTIONAL || !size || !drill)
    return call (drill, "drill", (const br_real *const[]) { size }, bits, error);
  if (series != BR_DRILL_NUMBER && series != BR_DRILL_LETTER)
    return br__fail (error, BR_DOMAIN, 1, 0, "no such series of drills");
  status = br_real_sign (&sign, size, bits);
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  if (sign <= 0)
    return br__fail (error, BR_DOMAIN, 0, 0, "the size must be over zero");
  status = br__drill_next (&found.rational, series, size, bits, error);
  if (status == BR_OK)
    {
      br_real_clear (drill);
      *drill = found;
    }
  return status;
}
