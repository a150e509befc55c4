/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_call.c - the functions that the hidden formulas of shapes call: each brings its values to
   lengths and angles, or says what is wrong with the shape.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "formula/operate.h"
#include "geometry/geometry.h"
#include "geometry/shape_call.h"
#include "geometry/sketch.h"

/* Converts V to a length, or fails and says that WHAT is not a length.  */
static br_status
want_length (br__work *w, br__value *v, size_t index, const char *what)
{
  if (v->dimension == BR_PLAIN)
    return br__work_to_length (w, v);
  if (v->dimension == BR_LENGTH)
    return BR_OK;
  return br__fail (w->error, BR_DOMAIN, index, 0, "the %s is %s, not a length", what,
                   br__dimension_words (v->dimension));
}

static br_status
give (br__value *z, const br__value *x, br_dimension dimension)
{
  br_status status = br__value_set (z, x);
  if (status == BR_OK)
    z->dimension = dimension;
  return status;
}

/* V, which has to be over zero, or zero or more: else the error MESSAGE of argument INDEX.  */
static br_status
want_sign (br__work *w, br__value *v, int zero, size_t index, const char *message)
{
  br_status status = br__operate (w, v, zero ? BR__CODE_NOT_BELOW : BR__CODE_OVER_ZERO, v, NULL);
  return status == BR_DOMAIN ? br__fail (w->error, BR_DOMAIN, index, 0, "%s", message) : status;
}

static br_status
call_length (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) count;
  br_status status = want_length (w, &args[0], 0, self->name);
  return status == BR_OK ? give (z, &args[0], BR_LENGTH) : status;
}

static br_status
call_size (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br_text message = BR_TEXT_ZERO;
  (void) count;
  br_status status = want_length (w, &args[0], 0, self->name);
  if (status != BR_OK)
    return status;
  /* A curve may be as thin as a pencil line.  */
  br__text_printf (&message, "the %s of a shape must be over zero", self->name);
  status = message.failed ? BR_NO_MEMORY
                          : want_sign (w, &args[0], self->variant == BR__CALL_THICKNESS, 0,
                                       br__text_string (&message));
  br__text_clear (&message);
  return status == BR_OK ? give (z, &args[0], BR_LENGTH) : status;
}

static br_status
call_angle (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) count;
  if (args[0].dimension != BR_PLAIN && args[0].dimension != BR_ANGLE)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "the %s is %s, not degrees", self->name,
                     br__dimension_words (args[0].dimension));
  return give (z, &args[0], BR_ANGLE);
}

static br_status
call_turn (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  static const char message[] = "an arc turns over 0 and up to 360 degrees";
  br__value rest = { .dimension = BR_ANGLE };
  br_status status = call_angle (w, z, args, count, self);
  if (status == BR_OK)
    status = br_number_set_int (&rest.real.rational, 360);
  if (status == BR_OK)
    status = br__operate (w, &rest, BR__CODE_SUB, &rest, z);
  if (status == BR_OK)
    status = want_sign (w, &rest, 1, 0, message);
  if (status == BR_OK)
    status = want_sign (w, z, 0, 0, message);
  br__value_clear (&rest);
  return status;
}

/* Over zero outward, below zero inward.  */
static br_status
call_rise (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__value away = BR__VALUE_ZERO;
  br_status status = call_length (w, z, args, count, self);
  if (status == BR_OK)
    status = br__operate (w, &away, BR__CODE_ABS, z, NULL);
  if (status == BR_OK)
    status = want_sign (w, &away, 0, 0, "a side with no rise is straight: leave `rise` out");
  br__value_clear (&away);
  return status;
}

/* A whole number that is known: a kind or a side.  */
static int
whole_of (const br__value *v)
{
  int64_t n = 0, d = 1;
  const br_number *q = br_real_rational (&v->real);
  return q && br_number_get_ratio (&n, &d, q) && d == 1 ? (int) n : 0;
}

/* The inner radius of the fender of a wheel: kind and radius of the wheel, gap.  */
static br_status
call_fender (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  (void) count;
  (void) self;
  if (whole_of (&args[0]) != BR__CIRCLE)
    return br__fail (w->error, BR_DOMAIN, 0, 0, "a fender goes over a circle, and this shape is none");
  br_status status = want_length (w, &args[2], 2, "gap");
  if (status == BR_OK)
    status = br__operate (w, &args[1], BR__CODE_ADD, &args[1], &args[2]);
  if (status == BR_OK)
    status = want_sign (w, &args[1], 0, 2, "with this gap the fender has no radius");
  return status == BR_OK ? give (z, &args[1], BR_LENGTH) : status;
}

/* ---- What shapes measure ---- */

/* Kind, x, y, a, b, c, d of one shape from seven values.  */
static br_status
figure_of (br__figure *f, const br_real *const *v)
{
  int64_t n = 0, d = 1;
  const br_number *q = br_real_rational (v[0]);
  if (!q || !br_number_get_ratio (&n, &d, q))
    return BR_DOMAIN;
  br__figure made = { (br__shape_kind) n, v[1], v[2], v[3], v[4], v[5], v[6] };
  *f = made;
  return BR_OK;
}

/* Kind, side, 0, a, b, c, d: how far a shape reaches.  */
static br_status
measure_reach (br_real *z, const br_real *const *args, unsigned bits)
{
  br__figure f;
  int64_t side = 0, d = 1;
  br_status status = br_number_get_ratio (&side, &d, &args[1]->rational) ? figure_of (&f, args) : BR_DOMAIN;
  return status == BR_OK ? br__figure_reach (z, &f, (br__side) side, bits) : status;
}

static br_status
measure_clear (br_real *z, const br_real *const *args, unsigned bits)
{
  br__figure p, q;
  br_status status = figure_of (&p, args);
  if (status == BR_OK)
    status = figure_of (&q, args + 7);
  return status == BR_OK ? br__figure_distance (z, &p, &q, bits) : status;
}

static br_status
call_measure (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br_status status = br__operate_measure (w, z, args, count, self);
  z->dimension = BR_LENGTH;
  return status;
}

/* Z += X / 2, or -= where SIGN is below zero.  */
static br_status
add_half (br__work *w, br__value *z, const br__value *x, int sign)
{
  br__value half = { .real = { { 2, 0 }, NULL } };
  br_status status = br__operate (w, &half, BR__CODE_DIV, x, &half);
  if (status == BR_OK)
    status = br__operate (w, z, sign < 0 ? BR__CODE_SUB : BR__CODE_ADD, z, &half);
  br__value_clear (&half);
  return status;
}

/* How far apart two boxes or circles are along one way, circles taken for points: number WAY (1 or 2: the
   centre, 3 or 4: the size) of each.  */
static br_status
apart_along (br__work *w, br__value *z, const br__value *args, int way)
{
  br_status status = br__operate (w, z, BR__CODE_SUB, &args[way], &args[7 + way]);
  if (status == BR_OK)
    status = br__operate (w, z, BR__CODE_ABS, z, NULL);
  for (int i = 0; i < 14 && status == BR_OK; i += 7)
    if (whole_of (&args[i]) == BR__BOX)
      status = add_half (w, z, &args[i + 2 + way], -1);
  return status;
}

/* The distance of two shapes that are not known: of circles and boxes by operations, so that its slopes are
   sharp.  */
static br_status
call_clear (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  int varies = 0, plain = 1;
  unsigned first = br__shape_number_count (args, count);
  /* The shape has just become another kind; br__distances_refresh makes this formula again before it is evaluated.  */
  if (!first || first + br__shape_number_count (args + first, count - first) != count)
    {
      z->dimension = BR_LENGTH;
      return BR_OK;
    }
  if (br__is_copy (whole_of (&args[0])) || br__is_copy (whole_of (&args[first])))
    return br__call_clear_places (w, z, args, count, self);
  for (unsigned i = 0; i < count; i++)
    varies |= args[i].slot != 0;
  for (int i = 0; i < 14; i += 7)
    plain &= whole_of (&args[i]) == BR__BOX || whole_of (&args[i]) == BR__CIRCLE;
  if (count > 14)
    return br__call_clear_paths (w, z, args, count, self);
  if (!varies || !plain)
    {
      int arc = whole_of (&args[0]) == BR__ARC || whole_of (&args[7]) == BR__ARC;
      return call_measure (w, z, args, count, arc ? br__shape_function (BR__CALL_CLEAR_ARC) : self);
    }
  br__value upright = BR__VALUE_ZERO;
  br_status status = apart_along (w, z, args, 1);
  if (status == BR_OK)
    status = apart_along (w, &upright, args, 2);
  if (status == BR_OK)
    status = br__operate (w, z, BR__CODE_APART, z, &upright);
  for (int i = 0; i < 14 && status == BR_OK; i += 7)
    if (whole_of (&args[i]) == BR__CIRCLE)
      status = br__operate (w, z, BR__CODE_SUB, z, &args[i + 3]);
  z->dimension = BR_LENGTH;
  br__value_clear (&upright);
  return status;
}

/* How far a line reaches: half of its run and its width; an arc by its figure.  */
static br_status
call_reach (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  int side = whole_of (&args[1]), level = side == BR__RIGHT || side == BR__LEFT;
  if (whole_of (&args[0]) != BR__LINE)
    return call_measure (w, z, args, count, self);
  br__value run = BR__VALUE_ZERO;
  br_status status = br__operate (w, &run, BR__CODE_ABS, &args[level ? 3 : 4], NULL);
  if (status == BR_OK)
    status = add_half (w, z, &run, 1);
  if (status == BR_OK)
    status = add_half (w, z, &args[5], 1);
  if (status == BR_OK && (side == BR__LEFT || side == BR__BOTTOM))
    status = br__operate (w, z, BR__CODE_NEG, z, NULL);
  z->dimension = BR_LENGTH;
  br__value_clear (&run);
  return status;
}

/* The run of a line that is not to be a point, with its rise.  */
static br_status
call_run (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__value x = BR__VALUE_ZERO, y = BR__VALUE_ZERO;
  const int step = self->variant == BR__CALL_STEP;
  (void) count;
  br_status status = br__operate (w, &x, BR__CODE_ABS, &args[0], NULL);
  if (status == BR_OK)
    status = br__operate (w, &y, BR__CODE_ABS, &args[1], NULL);
  if (status == BR_OK)
    status = br__operate (w, &x, BR__CODE_ADD, &x, &y);
  if (status == BR_OK)
    status = want_sign (w, &x, 0, 0, step ? "a step of 0 puts every place of the row on the first"
                                         : "a line goes from one point to another");
  br__value_clear (&x);
  br__value_clear (&y);
  return status == BR_OK ? give (z, &args[step], step ? args[1].dimension : BR_LENGTH) : status;
}

static br_status
call_rim (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__value rim = BR__VALUE_ZERO;
  (void) count;
  (void) self;
  br_status status = br__operate (w, &rim, BR__CODE_SUB, &args[0], &args[1]);
  if (status == BR_OK)
    status = want_sign (w, &rim, 0, 0, "the hole of a plate is smaller than the plate");
  br__value_clear (&rim);
  return status == BR_OK ? give (z, &args[0], BR_LENGTH) : status;
}

const br__function *
br__shape_function (br__shape_call call)
{
#define ROW(NAME, COUNT, CALL, ...) \
  { .name = (NAME), .parameters = "x", .least = (COUNT), .most = (COUNT), .summary = "", .call = (CALL), __VA_ARGS__ }
#define OUTLINE(WHAT) \
  [BR__CALL_OUTLINE_##WHAT] = ROW ("outline", 0, br__call_outline, .variant = BR__OUTLINE_##WHAT)
  static const br__function rows[] =
  {
    [BR__CALL_LENGTH] = ROW ("place", 1, call_length,),
    [BR__CALL_DIAMETER] = ROW ("diameter", 1, call_size,),
    [BR__CALL_WIDTH] = ROW ("width", 1, call_size,),
    [BR__CALL_HEIGHT] = ROW ("height", 1, call_size,),
    [BR__CALL_RADIUS] = ROW ("radius", 1, call_size,),
    [BR__CALL_THICKNESS] = ROW ("thickness", 1, call_size, .variant = BR__CALL_THICKNESS),
    [BR__CALL_ANGLE] = ROW ("angle", 1, call_angle,),
    [BR__CALL_TURN] = ROW ("turn", 1, call_turn,),
    /* The kind and the radius of its wheel, then the gap.  */
    [BR__CALL_FENDER] = ROW ("fender", 3, call_fender, .gap = 3, .curve = 1, .parts = "the wheel and its fender"),
    [BR__CALL_REACH] = ROW ("reach", 7, call_reach, .measure = measure_reach, .rates = "---11aa"),
    [BR__CALL_CLEAR] = ROW ("clear", 14, call_clear, .measure = measure_clear, .rates = "-1111aa-1111aa"),
    [BR__CALL_CLEAR_ARC] = ROW ("clear", 14, call_clear, .measure = measure_clear, .rates = "j1111aa-1111aa"),
    /* The radius of a plate, and that of its hole.  */
    [BR__CALL_RIM] = ROW ("rim", 2, call_rim,),
    [BR__CALL_RUN] = ROW ("run", 2, call_run,),
    [BR__CALL_CUT] = ROW ("cut", 1, call_size,),
    [BR__CALL_RISE] = ROW ("rise", 1, call_rise,),
    [BR__CALL_CORNERS] = ROW ("corners", 0, br__call_corners,),
    [BR__CALL_BOX_CORNERS] = ROW ("corners", 0, br__call_corners, .variant = BR__CALL_BOX_CORNERS),
    OUTLINE (RIGHT), OUTLINE (TOP), OUTLINE (LEFT), OUTLINE (BOTTOM), OUTLINE (MIDDLE_X), OUTLINE (MIDDLE_Y),
    OUTLINE (AREA), OUTLINE (PERIMETER),
    [BR__CALL_COUNT] = ROW ("qty", 1, br__call_count,),
    [BR__CALL_STEP] = ROW ("step", 2, call_run, .variant = BR__CALL_STEP),
    /* Of the copy, then the kind of its shape and number d of that.  */
    [BR__CALL_PLACES] = ROW ("places", 3, br__call_places,),
    /* Of the first place, then how many there are and the step.  */
    [BR__CALL_ROW_LOW] = ROW ("row", 3, br__call_row_reach, .variant = -1),
    [BR__CALL_ROW_HIGH] = ROW ("row", 3, br__call_row_reach, .variant = 1),
    [BR__CALL_AREA] = ROW ("area", 7, br__call_extent, .variant = BR__OUTLINE_AREA),
    [BR__CALL_PERIMETER] = ROW ("perimeter", 7, br__call_extent, .variant = BR__OUTLINE_PERIMETER),
    [BR__CALL_DEPTH] = ROW ("depth", 1, call_size,),
    [BR__CALL_TRACK] = ROW ("track", 2, br__call_track, .variant = BR__CALL_TRACK),
    [BR__CALL_BETWEEN] = ROW ("between", 2, br__call_track, .variant = BR__CALL_BETWEEN),
    [BR__CALL_APART] = ROW ("apart", 5, br__call_apart,),
    [BR__CALL_APART_BOTH] = ROW ("apart", 5, br__call_apart, .variant = BR__CALL_APART_BOTH),
  };
#undef OUTLINE
#undef ROW
  return &rows[call];
}
