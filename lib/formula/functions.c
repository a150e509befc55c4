/* SPDX-License-Identifier: LGPL-3.0-or-later
   functions.c - the functions of arithmetic and of the ruler, and the bridge to those of
   lib/shop.  Each brings its arguments to one dimension before it works on them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <limits.h>
#include <string.h>

#include "exact/status.h"
#include "formula/evaluate.h"
#include "formula/functions.h"

void
br__value_clear (br__value *v)
{
  br_real_clear (&v->real);
  v->dimension = BR_PLAIN;
}

br_status
br__value_set (br__value *z, const br__value *x)
{
  br_status status = br_real_set (&z->real, &x->real);
  if (status == BR_OK)
    z->dimension = x->dimension;
  return status;
}

/* Sets the error of argument INDEX.  */
static br_status
bad (br_error *error, size_t index, br_status status, const char *message)
{
  return br__fail (error, status, index, 0, "%s", message);
}

static br_status
plain_only (const br__value *args, unsigned index, const br__function *f, br_error *error)
{
  if (args[index].dimension == BR_PLAIN)
    return BR_OK;
  return br__fail (error, BR_DOMAIN, index, 0, "`%s` takes a plain number here, not %s",
                   br__function_name (f),
                   br__dimension_words (args[index].dimension));
}

static br_status
angle_only (const br__value *args, unsigned index, const br__function *f, br_error *error)
{
  if (args[index].dimension == BR_PLAIN || args[index].dimension == BR_ANGLE)
    return BR_OK;
  return br__fail (error, BR_DOMAIN, index, 0, "`%s` takes degrees here, not %s",
                   br__function_name (f),
                   br__dimension_words (args[index].dimension));
}

/* Brings arguments FROM..COUNT-1 to one dimension: plain ones take the sheet's unit where
   another is a length.  */
static br_status
unify_all (br__value *args, unsigned count, const br__settings *s, br_error *error)
{
  unsigned leader = 0;
  for (unsigned i = 1; i < count; i++)
    if (args[leader].dimension == BR_PLAIN && args[i].dimension != BR_PLAIN)
      leader = i;
  for (unsigned i = 0; i < count; i++)
    {
      if (i == leader)
        continue;
      br_status status = br__unify (&args[leader], &args[i], s, error);
      if (status != BR_OK)
        {
          if (error)
            error->offset = i, error->length = 0;
          return status;
        }
    }
  return BR_OK;
}

static br_status
plain_status (br_status status, br_error *error, size_t index)
{
  return status == BR_OK ? BR_OK : br__fail_plain (error, status, index, 0);
}

/* nearest(x, mark), up, down: without a mark the sheet's ruler.  */
static br_status
call_mark (br__value *z, br__value *args, unsigned count, const br__settings *s,
           const br__function *self, br_error *error)
{
  br_direction direction = self->name[0] == 'u' ? BR_UP : self->name[0] == 'd' ? BR_DOWN : BR_NEAREST;
  br__mark mark = BR__MARK_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br_status status;

  if (count == 2)
    status = br__mark_from_value (&mark, s, &args[1], NULL, error);
  else
    status = plain_status (br__settings_mark (&mark, s), error, 0);
  if (status != BR_OK && error)
    error->offset = 1, error->length = 0;
  if (status == BR_OK)
    status = br__round_value (&rounded, &args[0], &mark, direction, s, error);
  if (status == BR_OK)
    {
      z->dimension = rounded.dimension;
      status = plain_status (br_real_set_number (&z->real, &rounded.value), error, 0);
    }
  br__rounded_clear (&rounded);
  br_number_clear (&mark.size);
  return status;
}

static br_status
call_scale (br__value *z, br__value *args, unsigned count, const br__settings *s,
            const br__function *self, br_error *error)
{
  const br_number *ratio = &s->scale;
  if (count == 2)
    {
      br_status status = plain_only (args, 1, self, error);
      if (status != BR_OK)
        return status;
      ratio = br_real_rational (&args[1].real);
      if (!ratio || br_number_sign (ratio) <= 0)
        return bad (error, 1, BR_DOMAIN, "a scale is a fraction over zero, drawn to full");
    }
  if (args[0].dimension != BR_PLAIN && args[0].dimension != BR_LENGTH)
    return br__fail (error, BR_DOMAIN, 0, 0, "`%s` takes a length, not %s", self->name,
                     br__dimension_words (args[0].dimension));
  br_status status = self->name[0] == 'f' ? br_scale_full (&z->real, &args[0].real, ratio)
                                          : br_scale_drawn (&z->real, &args[0].real, ratio);
  z->dimension = args[0].dimension;
  return plain_status (status, error, 0);
}

static br_status
call_boxes (br__value *z, br__value *args, unsigned count, const br__settings *s,
            const br__function *self, br_error *error)
{
  (void) count, (void) self;
  br__value grid = BR__VALUE_ZERO;
  if (br_number_sign (&s->grid) <= 0)
    return br__no_grid (error, BR__WHOLE_CALL, 0);
  br_status status = br_real_set_number (&grid.real, &s->grid);
  grid.dimension = BR_LENGTH;
  status = plain_status (status, error, 0);
  if (status == BR_OK)
    status = br__unify (&grid, &args[0], s, error);
  if (status == BR_OK)
    status = plain_status (br_real_div (&z->real, &args[0].real, &grid.real, s->bits), error, 0);
  z->dimension = BR_PLAIN;
  br__value_clear (&grid);
  return status;
}

static br_status
call_sqrt (br__value *z, br__value *args, unsigned count, const br__settings *s,
           const br__function *self, br_error *error)
{
  (void) count, (void) self;
  if (args[0].dimension == BR_ANGLE || args[0].dimension % 2)
    return br__fail (error, BR_DOMAIN, 0, 0, "the square root of %s is no measure",
                     br__dimension_words (args[0].dimension));
  br_status status = br_real_sqrt (&z->real, &args[0].real, s->bits);
  z->dimension = args[0].dimension / 2;
  if (status == BR_DOMAIN)
    return bad (error, 0, BR_DOMAIN, "a negative number has no square root");
  return plain_status (status, error, 0);
}

static br_status
call_abs (br__value *z, br__value *args, unsigned count, const br__settings *s,
          const br__function *self, br_error *error)
{
  (void) count, (void) self;
  z->dimension = args[0].dimension;
  return plain_status (br_real_abs (&z->real, &args[0].real, s->bits), error, 0);
}

static br_status
call_extreme (br__value *z, br__value *args, unsigned count, const br__settings *s,
              const br__function *self, br_error *error)
{
  int wanted = self->name[1] == 'i' ? -1 : 1;
  unsigned best = 0;
  br_status status = unify_all (args, count, s, error);
  for (unsigned i = 1; i < count && status == BR_OK; i++)
    {
      int order;
      status = plain_status (br_real_cmp (&order, &args[i].real, &args[best].real, s->bits), error, i);
      if (status == BR_OK && order * wanted > 0)
        best = i;
    }
  return status == BR_OK ? plain_status (br__value_set (z, &args[best]), error, best) : status;
}

static br_status
call_sum (br__value *z, br__value *args, unsigned count, const br__settings *s,
          const br__function *self, br_error *error)
{
  br__value sum = BR__VALUE_ZERO, n = BR__VALUE_ZERO;
  br_status status = unify_all (args, count, s, error);
  for (unsigned i = 0; i < count && status == BR_OK; i++)
    status = plain_status (br_real_add (&sum.real, &sum.real, &args[i].real), error, i);
  if (status == BR_OK && self->name[0] == 'm')
    {
      status = br_number_set_int (&n.real.rational, count);
      if (status == BR_OK)
        status = br_real_div (&sum.real, &sum.real, &n.real, s->bits);
      status = plain_status (status, error, 0);
    }
  sum.dimension = args[0].dimension;
  if (status == BR_OK)
    status = plain_status (br__value_set (z, &sum), error, 0);
  br__value_clear (&sum);
  br__value_clear (&n);
  return status;
}

static br_status
call_circle (br__value *z, br__value *args, unsigned count, const br__settings *s,
             const br__function *self, br_error *error)
{
  (void) count;
  br_status status = angle_only (args, 0, self, error);
  if (status != BR_OK)
    return status;
  if (self->name[0] == 's')
    status = br_real_sin (&z->real, &args[0].real);
  else if (self->name[0] == 'c')
    status = br_real_cos (&z->real, &args[0].real);
  else
    status = br_real_tan (&z->real, &args[0].real, s->bits);
  z->dimension = BR_PLAIN;
  if (status == BR_DOMAIN)
    return bad (error, 0, BR_DOMAIN, "there is no tangent at this angle: the line runs straight up");
  return plain_status (status, error, 0);
}

static br_status
call_atan (br__value *z, br__value *args, unsigned count, const br__settings *s,
           const br__function *self, br_error *error)
{
  (void) count, (void) s;
  br_status status = plain_only (args, 0, self, error);
  if (status == BR_OK)
    status = plain_status (br_real_atan (&z->real, &args[0].real), error, 0);
  z->dimension = BR_ANGLE;
  return status;
}

static br_status
call_pi (br__value *z, br__value *args, unsigned count, const br__settings *s,
         const br__function *self, br_error *error)
{
  (void) args, (void) count, (void) s, (void) self;
  z->dimension = BR_PLAIN;
  return plain_status (br_real_pi (&z->real), error, BR__WHOLE_CALL);
}

/* Brings the arguments of letter L to one kind: lengths where any is one, else plain.  */
static br_status
unify_lengths (br__value *args, unsigned count, const char *kinds, const br__settings *s,
               br_dimension *kind, br_error *error)
{
  *kind = BR_PLAIN;
  for (unsigned i = 0; i < count; i++)
    if (kinds[i] == 'L' && args[i].dimension == BR_LENGTH)
      *kind = BR_LENGTH;
  for (unsigned i = 0; i < count; i++)
    if (kinds[i] == 'L')
      {
        if (args[i].dimension != BR_PLAIN && args[i].dimension != BR_LENGTH)
          return br__fail (error, BR_DOMAIN, i, 0, "a length should stand here, not %s",
                           br__dimension_words (args[i].dimension));
        if (*kind == BR_LENGTH && args[i].dimension == BR_PLAIN)
          {
            br_status status = br__to_length (&args[i], s);
            if (status != BR_OK)
              return br__fail_plain (error, status, i, 0);
          }
      }
  return BR_OK;
}

static br_status
call_shop (br__value *z, br__value *args, unsigned count, const br__settings *s,
           const br__function *self, br_error *error)
{
  const br__shop_function *shop = self->shop;
  const br_real *reals[8];
  br_dimension kind;
  br_status status;

  /* Drills are made in inches, so a plain number of a metric sheet becomes a length first.  */
  if (strcmp (shop->name, "drill") == 0 && args[0].dimension == BR_PLAIN
      && strcmp (s->unit->name, "in") != 0)
    {
      status = br__to_length (&args[0], s);
      if (status != BR_OK)
        return br__fail_plain (error, status, 0, 0);
    }
  status = unify_lengths (args, count, shop->kinds, s, &kind, error);
  for (unsigned i = 0; i < count && status == BR_OK; i++)
    {
      if (shop->kinds[i] == 'A')
        status = angle_only (args, i, self, error);
      reals[i] = &args[i].real;
    }
  if (status == BR_OK)
    status = shop->call (&z->real, reals, s->bits, error);
  char result = shop->kinds[strcspn (shop->kinds, ":") + 1];
  z->dimension = result == 'L' ? kind : result == 'A' ? BR_ANGLE : BR_PLAIN;
  return status;
}

static const br__function core[] =
{
  { "nearest", "x, mark", 1, 2, "x on a ruler with that finest mark", call_mark, NULL },
  { "up", "x, mark", 1, 2, "the mark at or over x", call_mark, NULL },
  { "down", "x, mark", 1, 2, "the mark at or under x", call_mark, NULL },
  { "full", "x, ratio", 1, 2, "full size of a drawn measure", call_scale, NULL },
  { "drawn", "x, ratio", 1, 2, "drawn size of a full measure", call_scale, NULL },
  { "boxes", "x", 1, 1, "how many squares of the grid", call_boxes, NULL },
  { "sqrt", "x", 1, 1, "square root", call_sqrt, NULL },
  { "abs", "x", 1, 1, "x without its sign", call_abs, NULL },
  { "max", "x, y, ...", 1, 0, "the greatest", call_extreme, NULL },
  { "min", "x, y, ...", 1, 0, "the least", call_extreme, NULL },
  { "sum", "x, y, ...", 1, 0, "all added up", call_sum, NULL },
  { "mean", "x, y, ...", 1, 0, "the sum over the count", call_sum, NULL },
  { "pi", "", 0, 0, "circumference over diameter", call_pi, NULL },
  { "sin", "degrees", 1, 1, "sine", call_circle, NULL },
  { "cos", "degrees", 1, 1, "cosine", call_circle, NULL },
  { "tan", "degrees", 1, 1, "tangent", call_circle, NULL },
  { "atan", "x", 1, 1, "the angle, in degrees, of that tangent", call_atan, NULL },
};
#define CORE (sizeof core / sizeof core[0])

/* A row for each function of lib/shop; what it is called and takes is said there.  */
#define ROW(i) { NULL, NULL, 0, 0, NULL, call_shop, &br__shop_functions[i] }
static const br__function shop_rows[] =
{
  ROW (0), ROW (1), ROW (2), ROW (3), ROW (4), ROW (5), ROW (6), ROW (7),
  ROW (8), ROW (9), ROW (10), ROW (11), ROW (12), ROW (13), ROW (14), ROW (15)
};
#define SHOP (sizeof shop_rows / sizeof shop_rows[0])

const br__function *
br__function_at (size_t index)
{
  if (index < CORE)
    return &core[index];
  index -= CORE;
  return index < SHOP && index < br__shop_function_count ? &shop_rows[index] : NULL;
}

const br__function *
br__function_find (const char *name, size_t length)
{
  const br__function *f;
  for (size_t i = 0; (f = br__function_at (i)) != NULL; i++)
    {
      const char *called = br__function_name (f);
      if (strncmp (called, name, length) == 0 && called[length] == 0)
        return f;
    }
  return NULL;
}

const char *
br__function_name (const br__function *f)
{
  return f->shop ? f->shop->name : f->name;
}

const char *
br__function_parameters (const br__function *f)
{
  return f->shop ? f->shop->parameters : f->parameters;
}

void
br__hint_call (br_error *error, const br__function *f)
{
  br__hint (error, "write %s(%s)", br__function_name (f), br__function_parameters (f));
}

const char *
br__function_summary (const br__function *f)
{
  return f->shop ? f->shop->summary : f->summary;
}

unsigned
br__function_least (const br__function *f)
{
  return f->shop ? (unsigned) br__shop_function_arity (f->shop) : f->least;
}

unsigned
br__function_most (const br__function *f)
{
  if (f->shop)
    return br__function_least (f);
  return f->most || !f->least ? f->most : UINT_MAX;
}
