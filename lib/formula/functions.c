/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.c - the functions of arithmetic and of the ruler, and the list of all with those of
   lib/shop.  Each brings its arguments to one dimension before it works on them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <limits.h>
#include <string.h>

#include "exact/status.h"
#include "formula/evaluate.h"
#include "formula/functions.h"
#include "formula/operate.h"

void
br__value_clear (br__value *v)
{
  br_real_clear (&v->real);
  v->dimension = BR_PLAIN;
  v->slot = 0;
}

br_status
br__value_set (br__value *z, const br__value *x)
{
  br_status status = br_real_set (&z->real, &x->real);
  if (status == BR_OK)
    {
      z->dimension = x->dimension;
      z->slot = x->slot;
    }
  return status;
}

/* Sets the error of argument INDEX.  */
static br_status
bad (br__work *w, size_t index, br_status status, const char *message)
{
  return br__fail (w->error, status, index, 0, "%s", message);
}

static br_status
plain_only (br__work *w, const br__value *args, unsigned index, const br__function *f)
{
  if (args[index].dimension == BR_PLAIN)
    return BR_OK;
  return br__fail (w->error, BR_DOMAIN, index, 0, "`%s` takes a plain number here, not %s", f->name,
                   br__dimension_words (args[index].dimension));
}

static br_status
angle_only (br__work *w, const br__value *args, unsigned index, const br__function *f)
{
  if (args[index].dimension == BR_PLAIN || args[index].dimension == BR_ANGLE)
    return BR_OK;
  return br__fail (w->error, BR_DOMAIN, index, 0, "`%s` takes degrees here, not %s", f->name,
                   br__dimension_words (args[index].dimension));
}

/* Brings arguments FROM..COUNT-1 to one dimension: plain ones take the sheet's unit where
   another is a length.  */
static br_status
unify_all (br__work *w, br__value *args, unsigned count)
{
  unsigned leader = 0;
  for (unsigned i = 1; i < count; i++)
    if (args[leader].dimension == BR_PLAIN && args[i].dimension != BR_PLAIN)
      leader = i;
  for (unsigned i = 0; i < count; i++)
    {
      if (i == leader)
        continue;
      br_status status = br__work_unify (w, &args[leader], &args[i]);
      if (status != BR_OK)
        {
          if (w->error)
            w->error->offset = i, w->error->length = 0;
          return status;
        }
    }
  return BR_OK;
}

static br_status
plain_status (br__work *w, br_status status, size_t index)
{
  return status == BR_OK ? BR_OK : br__fail_plain (w->error, status, index, 0);
}

/* The mark is not known yet: X is put on marks of one of them, and those are counted.  */
static br_status
on_unknown_mark (br__work *w, br__value *z, br__value *args, br_direction direction)
{
  br__value count = BR__VALUE_ZERO, size = BR__VALUE_ZERO;
  br_number one = { 1, 0 };
  br_status status = BR_OK;
  if (args[1].dimension != BR_PLAIN && args[1].dimension != BR_LENGTH)
    return br__fail (w->error, BR_DOMAIN, 1, 0, "a mark is a length or a plain number, not %s",
                     br__dimension_words (args[1].dimension));
  if (args[0].dimension != args[1].dimension)
    status = br__work_to_length (w, &args[args[0].dimension == BR_LENGTH]);
  if (status == BR_OK)
    status = br__operate (w, &size, BR__CODE_RATIONAL, &args[1], NULL);
  if (status == BR_OK)
    status = br__operate (w, &size, BR__CODE_OVER_ZERO, &size, NULL);
  if (status == BR_OK)
    status = br__operate (w, &count, BR__CODE_DIV, &args[0], &size);
  if (status == BR_OK)
    status = br__operate_mark (w, &count, &count, &one, direction);
  if (status == BR_OK)
    status = br__operate (w, z, BR__CODE_MUL, &count, &size);
  z->dimension = args[0].dimension;
  br__value_clear (&count);
  br__value_clear (&size);
  return status;
}

/* nearest(x, mark), up, down: without a mark the sheet's ruler.  */
static br_status
call_mark (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br_direction direction = (br_direction) self->variant;
  br__mark mark = BR__MARK_ZERO;
  br_number size = BR_NUMBER_ZERO;
  br__value kind = { .dimension = args[0].dimension };
  br_status status;

  if (args[0].dimension != BR_PLAIN && args[0].dimension != BR_LENGTH)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "%s has no mark on a ruler",
                     br__dimension_words (args[0].dimension));
  if (count == 2 && args[1].slot)
    return on_unknown_mark (w, z, args, direction);
  if (count == 2)
    status = br__mark_from_value (&mark, w->settings, &args[1], NULL, w->error);
  else
    status = plain_status (w, br__settings_mark (&mark, w->settings), 0);
  if (status != BR_OK && w->error)
    w->error->offset = 1, w->error->length = 0;
  if (status == BR_OK)
    status = plain_status (w, br__mark_size (&size, &mark, &kind, w->settings), 0);
  if (status == BR_OK && kind.dimension != args[0].dimension)
    status = plain_status (w, br__work_to_length (w, &args[0]), 0);
  if (status == BR_OK)
    status = plain_status (w, br__operate_mark (w, z, &args[0], &size, direction), 0);
  z->dimension = args[0].dimension;
  br__value_clear (&kind);
  br_number_clear (&size);
  br_number_clear (&mark.size);
  return status;
}

/* full and drawn: VARIANT is the operation with the ratio, drawn to full: once for a length, twice for an area, and
   never for an angle.  */
static br_status
call_scale (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__value ratio = BR__VALUE_ZERO;
  br_status status = BR_OK;
  if (count == 2)
    {
      status = plain_only (w, args, 1, self);
      if (status != BR_OK)
        return status;
      const br_number *q = br_real_rational (&args[1].real);
      if (!args[1].slot && (!q || br_number_sign (q) <= 0))
        return bad (w, 1, BR_DOMAIN, "a scale is a fraction over zero, drawn to full");
    }
  int power = args[0].dimension == BR_ANGLE ? 0 : args[0].dimension == BR_PLAIN ? 1 : (int) args[0].dimension;
  br__opcode code = (br__opcode) self->variant;
  if (power < 0)
    code = code == BR__CODE_MUL ? BR__CODE_DIV : BR__CODE_MUL;
  if (count == 1)
    status = br_real_set_number (&ratio.real, &w->settings->scale);
  else if (!args[1].slot)
    status = br__value_set (&ratio, &args[1]);
  else
    {
      status = br__operate (w, &ratio, BR__CODE_RATIONAL, &args[1], NULL);
      if (status == BR_OK)
        status = br__operate (w, &ratio, BR__CODE_OVER_ZERO, &ratio, NULL);
    }
  if (status == BR_OK)
    status = br__value_set (z, &args[0]);
  for (int i = 0; i < (power < 0 ? -power : power) && status == BR_OK; i++)
    status = br__operate (w, z, code, z, &ratio);
  z->dimension = args[0].dimension;
  br__value_clear (&ratio);
  return plain_status (w, status, 0);
}

static br_status
call_boxes (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) count, (void) self;
  br__value grid = { .dimension = BR_LENGTH };
  if (br_number_sign (&w->settings->grid) <= 0)
    return br__no_grid (w->error, BR__WHOLE_CALL, 0);
  br_status status = plain_status (w, br_real_set_number (&grid.real, &w->settings->grid), 0);
  if (status == BR_OK)
    status = br__work_unify (w, &grid, &args[0]);
  if (status == BR_OK)
    status = plain_status (w, br__operate (w, z, BR__CODE_DIV, &args[0], &grid), 0);
  z->dimension = BR_PLAIN;
  br__value_clear (&grid);
  return status;
}

static br_status
call_sqrt (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  static const br_number half = { 1, 1 };
  (void) count, (void) self;
  if (args[0].dimension == BR_ANGLE || args[0].dimension % 2)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "the square root of %s is no measure",
                     br__dimension_words (args[0].dimension));
  br_status status = br__operate_power (w, z, &args[0], &half);
  z->dimension = args[0].dimension / 2;
  if (status == BR_DOMAIN)
    return bad (w, 0, BR_DOMAIN, "a negative number has no square root");
  return plain_status (w, status, 0);
}

static br_status
call_abs (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) count, (void) self;
  z->dimension = args[0].dimension;
  return plain_status (w, br__operate (w, z, BR__CODE_ABS, &args[0], NULL), 0);
}

/* max, min, sum, mean: one after the other.  VARIANT is the operation; a mean's is a division at the end.  */
static br_status
call_row (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  int mean = self->variant == BR__CODE_DIV;
  br__opcode op = mean ? BR__CODE_ADD : (br__opcode) self->variant;
  br__value n = BR__VALUE_ZERO;
  br_status status = unify_all (w, args, count);
  if (status == BR_OK)
    status = plain_status (w, br__value_set (z, &args[0]), 0);
  for (unsigned i = 1; i < count && status == BR_OK; i++)
    status = plain_status (w, br__operate (w, z, op, z, &args[i]), i);
  if (status == BR_OK && mean)
    {
      status = br_number_set_int (&n.real.rational, count);
      if (status == BR_OK)
        status = br__operate (w, z, BR__CODE_DIV, z, &n);
      status = plain_status (w, status, 0);
    }
  z->dimension = args[0].dimension;
  br__value_clear (&n);
  return status;
}

static br_status
call_circle (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) count;
  br_status status = angle_only (w, args, 0, self);
  if (status == BR_OK)
    status = br__operate (w, z, (br__opcode) self->variant, &args[0], NULL);
  else
    return status;
  z->dimension = BR_PLAIN;
  if (status == BR_DOMAIN)
    return bad (w, 0, BR_DOMAIN, "there is no tangent at this angle: the line runs straight up");
  return plain_status (w, status, 0);
}

static br_status
call_atan (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) count;
  br_status status = plain_only (w, args, 0, self);
  if (status == BR_OK)
    status = plain_status (w, br__operate (w, z, BR__CODE_ATAN, &args[0], NULL), 0);
  z->dimension = BR_ANGLE;
  return status;
}

static br_status
call_pi (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) args, (void) count, (void) self;
  z->dimension = BR_PLAIN;
  return plain_status (w, br_real_pi (&z->real), BR__WHOLE_CALL);
}

#define ROW(NAME, PARAMETERS, SUMMARY, LEAST, MOST, CALL, VARIANT, ID)                           \
  { .name = (NAME), .parameters = (PARAMETERS), .summary = (SUMMARY), .least = (LEAST),          \
    .most = (MOST), .call = (CALL), .variant = (VARIANT), .id = BR__FUNCTION_##ID }
static const br__function core[] =
{
  ROW ("nearest", "x, mark", "x on a ruler with that finest mark", 1, 2, call_mark, BR_NEAREST, NEAREST),
  ROW ("up", "x, mark", "the mark at or over x", 1, 2, call_mark, BR_UP, OTHER),
  ROW ("down", "x, mark", "the mark at or under x", 1, 2, call_mark, BR_DOWN, OTHER),
  ROW ("full", "x, ratio", "full size of a drawn measure", 1, 2, call_scale, BR__CODE_DIV, FULL),
  ROW ("drawn", "x, ratio", "drawn size of a full measure", 1, 2, call_scale, BR__CODE_MUL, DRAWN),
  ROW ("in_boxes", "x", "how many squares of the grid", 1, 1, call_boxes, 0, IN_BOXES),
  ROW ("sqrt", "x", "square root", 1, 1, call_sqrt, 0, OTHER),
  ROW ("abs", "x", "x without its sign", 1, 1, call_abs, 0, OTHER),
  ROW ("max", "x, y, ...", "the greatest", 1, 0, call_row, BR__CODE_MAX, OTHER),
  ROW ("min", "x, y, ...", "the least", 1, 0, call_row, BR__CODE_MIN, OTHER),
  ROW ("sum", "x, y, ...", "all added up", 1, 0, call_row, BR__CODE_ADD, OTHER),
  ROW ("mean", "x, y, ...", "the sum over the count", 1, 0, call_row, BR__CODE_DIV, OTHER),
  ROW ("pi", "", "circumference over diameter", 0, 0, call_pi, 0, OTHER),
  ROW ("sin", "degrees", "sine", 1, 1, call_circle, BR__CODE_SIN, OTHER),
  ROW ("cos", "degrees", "cosine", 1, 1, call_circle, BR__CODE_COS, OTHER),
  ROW ("tan", "degrees", "tangent", 1, 1, call_circle, BR__CODE_TAN, OTHER),
  ROW ("atan", "x", "the angle, in degrees, of that tangent", 1, 1, call_atan, 0, OTHER),
};
#define CORE (sizeof core / sizeof core[0])

const br__function *
br__function_at (size_t index)
{
  if (index < CORE)
    return &core[index];
  index -= CORE;
  return index < br__shop_function_count ? &br__shop_functions[index] : NULL;
}

const br__function *
br__function_find (const char *name, size_t length)
{
  const br__function *f;
  for (size_t i = 0; (f = br__function_at (i)) != NULL; i++)
    {
      const char *called = f->name;
      if (strncmp (called, name, length) == 0 && called[length] == 0)
        return f;
    }
  return NULL;
}

void
br__hint_call (br_error *error, const br__function *f)
{
  br__hint (error, "write %s(%s)", f->name, f->parameters);
}

unsigned
br__function_least (const br__function *f)
{
  return f->needs ? (unsigned) strlen (f->needs) : f->least;
}

unsigned
br__function_most (const br__function *f)
{
  if (f->needs)
    return br__function_least (f);
  return f->most || !f->least ? f->most : UINT_MAX;
}
