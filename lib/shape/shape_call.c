/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_call.c - the functions that the hidden formulas of shapes call: each brings its values to
   lengths and angles, or says what is wrong with the shape.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shape/shape.h"

/* V as a length, or the error that WHAT is none.  */
static br_status
want_length (br__value *v, size_t index, const char *what, const br__settings *s, br_error *error)
{
  if (v->dimension == BR_PLAIN)
    return br__to_length (v, s);
  if (v->dimension == BR_LENGTH)
    return BR_OK;
  return br__fail (error, BR_DOMAIN, index, 0, "the %s is %s, not a length", what,
                   br__dimension_words (v->dimension));
}

static br_status
give (br__value *z, const br__value *x, br_dimension dimension)
{
  br_status status = br_real_set (&z->real, &x->real);
  if (status == BR_OK)
    z->dimension = dimension;
  return status;
}

static br_status
call_length (br__value *z, br__value *args, unsigned count, const br__settings *s,
             const br__function *self, br_error *error)
{
  (void) count;
  br_status status = want_length (&args[0], 0, self->name, s, error);
  return status == BR_OK ? give (z, &args[0], BR_LENGTH) : status;
}

static br_status
call_size (br__value *z, br__value *args, unsigned count, const br__settings *s,
           const br__function *self, br_error *error)
{
  int sign = 0;
  (void) count;
  br_status status = want_length (&args[0], 0, self->name, s, error);
  if (status == BR_OK)
    status = br_real_sign (&sign, &args[0].real, s->bits);
  if (status != BR_OK)
    return status;
  /* A curve may be as thin as a pencil line.  */
  if (sign > 0 || (sign == 0 && self == br__shape_function (BR__CALL_THICKNESS)))
    return give (z, &args[0], BR_LENGTH);
  return br__fail (error, BR_DOMAIN, 0, 0, "the %s of a shape must be over zero", self->name);
}

static br_status
call_angle (br__value *z, br__value *args, unsigned count, const br__settings *s,
            const br__function *self, br_error *error)
{
  (void) count;
  (void) s;
  if (args[0].dimension != BR_PLAIN && args[0].dimension != BR_ANGLE)
    return br__fail (error, BR_DOMAIN, 0, 0, "the %s is %s, not degrees", self->name,
                     br__dimension_words (args[0].dimension));
  return give (z, &args[0], BR_ANGLE);
}

static br_status
call_turn (br__value *z, br__value *args, unsigned count, const br__settings *s,
           const br__function *self, br_error *error)
{
  br_number most = BR_NUMBER_ZERO;
  br_real whole = BR_REAL_ZERO;
  int sign = 0, order = 0;
  br_status status = call_angle (z, args, count, s, self, error);
  if (status == BR_OK)
    status = br_real_sign (&sign, &args[0].real, s->bits);
  if (status == BR_OK)
    status = br_number_set_int (&most, 360);
  if (status == BR_OK)
    status = br_real_set_number (&whole, &most);
  if (status == BR_OK)
    status = br_real_cmp (&order, &args[0].real, &whole, s->bits);
  br_real_clear (&whole);
  if (status == BR_OK && (sign <= 0 || order > 0))
    return br__fail (error, BR_DOMAIN, 0, 0, "an arc turns over 0 and up to 360 degrees");
  return status;
}

static int
is_kind (const br__value *v, br__shape_kind kind)
{
  int64_t n, d;
  const br_number *q = br_real_rational (&v->real);
  return q && br_number_get_ratio (&n, &d, q) && d == 1 && n == (int64_t) kind;
}

/* The inner radius of the fender of a wheel: kind and radius of the wheel, gap.  */
static br_status
call_fender (br__value *z, br__value *args, unsigned count, const br__settings *s,
             const br__function *self, br_error *error)
{
  int sign = 0;
  (void) count;
  (void) self;
  if (!is_kind (&args[0], BR__CIRCLE))
    return br__fail (error, BR_DOMAIN, 0, 0, "a fender goes over a circle, and this shape is none");
  br_status status = want_length (&args[2], 2, "gap", s, error);
  if (status == BR_OK)
    status = br_real_add (&args[1].real, &args[1].real, &args[2].real);
  if (status == BR_OK)
    status = br_real_sign (&sign, &args[1].real, s->bits);
  if (status == BR_OK && sign <= 0)
    return br__fail (error, BR_DOMAIN, 2, 0, "with this gap the fender has no radius");
  return status == BR_OK ? give (z, &args[1], BR_LENGTH) : status;
}

/* Kind, x, y, a, b, c, d of one shape from seven values.  */
static br_status
figure_of (br__figure *f, const br__value *v)
{
  int64_t n = 0, d = 1;
  const br_number *q = br_real_rational (&v[0].real);
  if (!q || !br_number_get_ratio (&n, &d, q))
    return BR_DOMAIN;
  br__figure made = { (br__shape_kind) n, &v[1].real, &v[2].real, &v[3].real, &v[4].real, &v[5].real,
                      &v[6].real };
  *f = made;
  return BR_OK;
}

/* Kind, side, 0, a, b, c, d: how far a shape reaches.  */
static br_status
call_reach (br__value *z, br__value *args, unsigned count, const br__settings *s,
            const br__function *self, br_error *error)
{
  br__figure f;
  int64_t side = 0, d = 1;
  (void) count;
  (void) self;
  (void) error;
  br_status status = br_number_get_ratio (&side, &d, &args[1].real.rational) ? figure_of (&f, args)
                                                                            : BR_DOMAIN;
  if (status == BR_OK)
    status = br__figure_reach (&z->real, &f, (br__side) side, s->bits);
  z->dimension = BR_LENGTH;
  return status;
}

static br_status
call_clear (br__value *z, br__value *args, unsigned count, const br__settings *s,
            const br__function *self, br_error *error)
{
  br__figure p, q;
  (void) count;
  (void) self;
  (void) error;
  br_status status = figure_of (&p, args);
  if (status == BR_OK)
    status = figure_of (&q, args + 7);
  if (status == BR_OK)
    status = br__figure_distance (&z->real, &p, &q, s->bits);
  z->dimension = BR_LENGTH;
  return status;
}

/* The length of a line that is not to be a point: its run and its rise.  */
static br_status
call_run (br__value *z, br__value *args, unsigned count, const br__settings *s,
          const br__function *self, br_error *error)
{
  int x = 0, y = 0;
  (void) count;
  (void) self;
  br_status status = br_real_sign (&x, &args[0].real, s->bits);
  if (status == BR_OK)
    status = br_real_sign (&y, &args[1].real, s->bits);
  if (status == BR_OK && x == 0 && y == 0)
    return br__fail (error, BR_DOMAIN, 0, 0, "a line goes from one point to another");
  return status == BR_OK ? give (z, &args[0], BR_LENGTH) : status;
}

const br__function *
br__shape_function (br__shape_call call)
{
  static const br__function rows[] =
  {
    [BR__CALL_LENGTH] = { "place", "x", 1, 1, "", call_length, NULL },
    [BR__CALL_DIAMETER] = { "diameter", "x", 1, 1, "", call_size, NULL },
    [BR__CALL_WIDTH] = { "width", "x", 1, 1, "", call_size, NULL },
    [BR__CALL_HEIGHT] = { "height", "x", 1, 1, "", call_size, NULL },
    [BR__CALL_RADIUS] = { "radius", "x", 1, 1, "", call_size, NULL },
    [BR__CALL_THICKNESS] = { "thickness", "x", 1, 1, "", call_size, NULL },
    [BR__CALL_ANGLE] = { "angle", "x", 1, 1, "", call_angle, NULL },
    [BR__CALL_TURN] = { "turn", "x", 1, 1, "", call_turn, NULL },
    [BR__CALL_FENDER] = { "fender", "", 3, 3, "", call_fender, NULL },
    [BR__CALL_REACH] = { "reach", "", 7, 7, "", call_reach, NULL },
    [BR__CALL_CLEAR] = { "clear", "", 14, 14, "", call_clear, NULL },
    [BR__CALL_RUN] = { "run", "", 2, 2, "", call_run, NULL },
  };
  return &rows[call];
}
