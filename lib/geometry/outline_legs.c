/* SPDX-License-Identifier: LGPL-3.0-or-later
   outline_legs.c - makes the path of an outline, and computes measures of a path.

   A corner where the sides turn by T has the tangent k = tan (T / 2) = sin T / (1 + cos T), a fraction of the sides and
   their lengths.  A round of radius r leaves the sides r |k| before and after the corner.  An arc of rise h over a chord c
   has the radius (cc / 4 + hh) / 2h and turns by 4 atan (2h / c).  (Tangent lengths and segments of circles: Machinery's
   Handbook, sections on circular segments and on tangents, from memory; the tests have the formulas with their
   sources.)  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "geometry/sketch.h"

typedef const br__value *value;

typedef struct spot
{
  value x, y;
} spot;

static value add (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_ADD, x, y); }
static value sub (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_SUB, x, y); }
static value mul (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_MUL, x, y); }
static value quo (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_DIV, x, y); }
static value neg (br__sketch *s, value x) { return br__sketch_do (s, BR__CODE_NEG, x, NULL); }
static value size (br__sketch *s, value x) { return br__sketch_do (s, BR__CODE_ABS, x, NULL); }
static value half (br__sketch *s, value x) { return quo (s, x, br__sketch_int (s, 2)); }

static value
dot (br__sketch *s, spot p, spot q)
{
  return add (s, mul (s, p.x, q.x), mul (s, p.y, q.y));
}

static value
cross (br__sketch *s, spot p, spot q)
{
  return sub (s, mul (s, p.x, q.y), mul (s, p.y, q.x));
}

static spot
minus (br__sketch *s, spot p, spot q)
{
  return (spot) { sub (s, p.x, q.x), sub (s, p.y, q.y) };
}

/* P + T D.  */
static spot
along (br__sketch *s, spot p, value t, spot d)
{
  return (spot) { add (s, p.x, mul (s, t, d.x)), add (s, p.y, mul (s, t, d.y)) };
}

static spot
middle (br__sketch *s, spot p, spot q)
{
  return (spot) { half (s, add (s, p.x, q.x)), half (s, add (s, p.y, q.y)) };
}

/* D turned to the right.  */
static spot
right_of (br__sketch *s, spot d)
{
  return (spot) { d.y, neg (s, d.x) };
}

static int
is_zero (value x)
{
  const br_number *q = br_real_rational (&x->real);
  return !x->slot && q && br_number_sign (q) == 0;
}

static value
length (br__sketch *s, spot d)
{
  static const br_number one_half = { 1, 1 };
  if (is_zero (d.x) || is_zero (d.y))
    return size (s, is_zero (d.x) ? d.y : d.x);
  value square = dot (s, d, d), z = br__sketch_int (s, 0);
  if (s->status == BR_OK)
    s->status = br__operate_power (s->work, (br__value *) z, square, &one_half);
  return s->status == BR_OK ? z : br__sketch_int (s, 0);
}

/* 1, -1, or 0 where X is 0.  */
static value
sign (br__sketch *s, value x)
{
  int n = 0;
  if (x->slot)
    return quo (s, x, size (s, x));
  if (s->status == BR_OK)
    s->status = br_real_sign (&n, &x->real, s->work->settings->bits);
  return br__sketch_int (s, n);
}

/* ---- The path ---- */

typedef struct corner
{
  spot at, side;                /* the side that ends here, as a vector */
  value length;                 /* of that side */
  value cut, after, rise;       /* NULL: none */
  value slope;                  /* of a round corner */
  spot before_it, behind_it;    /* where the sides end at it */
  value gone_before, gone_behind;       /* of the sides, where it is round or cut */
} corner;

static value
number_of (const br__value *corners, size_t i, int which)
{
  value v = &corners[BR__CORNER_NUMBERS * i + (size_t) which];
  return which <= BR__CORNER_Y || !is_zero (v) ? v : NULL;
}

/* How far along both sides it is cut away.  */
static void
cut_corner (br__sketch *s, corner *c, const corner *next)
{
  value before = c->cut, after = c->after;
  if (!c->after)
    {
      value straight = mul (s, c->length, next->length);
      c->slope = quo (s, cross (s, c->side, next->side), add (s, dot (s, c->side, next->side), straight));
      before = after = mul (s, c->cut, size (s, c->slope));
    }
  c->gone_before = before;
  c->gone_behind = after;
  c->before_it = along (s, c->at, neg (s, quo (s, before, c->length)), c->side);
  c->behind_it = along (s, c->at, quo (s, after, next->length), next->side);
}

/* If values are not known yet, adds the condition that they must fit: the rounds and cuts at both ends of the side up to C,
   or its rise.  */
static void
ask_fit (br__sketch *s, const corner *before, const corner *c)
{
  value rest = NULL;
  if (c->rise)
    rest = sub (s, half (s, c->length), size (s, c->rise));
  else if (before->cut || c->cut)
    rest = sub (s, before->cut ? sub (s, c->length, before->gone_behind) : c->length, c->cut ? c->gone_before : br__sketch_int (s, 0));
  if (rest && rest->slot)
    (void) br__sketch_do (s, BR__CODE_NOT_BELOW, rest, NULL);
}

static void
add_leg (br__legs *legs, br__sketch *s, spot from, spot to)
{
  if (s->status == BR_OK && !br__grow (&legs->rows, &legs->room, legs->count + 1, sizeof *legs->rows))
    s->status = BR_NO_MEMORY;
  if (s->status == BR_OK)
    legs->rows[legs->count++] = (br__leg) { .x = from.x, .y = from.y, .x2 = to.x, .y2 = to.y };
}

static void
add_arc (br__legs *legs, br__sketch *s, spot from, spot to, spot centre, value radius, value slope)
{
  add_leg (legs, s, from, to);
  if (s->status != BR_OK)
    return;
  br__leg *leg = &legs->rows[legs->count - 1];
  leg->centre_x = centre.x;
  leg->centre_y = centre.y;
  leg->radius = radius;
  leg->slope = slope;
}

/* The arc of a side, in two halves.  */
static void
add_rise (br__legs *legs, br__sketch *s, const corner *from, const corner *to)
{
  value h = to->rise, two = br__sketch_int (s, 2), c = to->length;
  value radius = quo (s, add (s, quo (s, mul (s, c, c), br__sketch_int (s, 4)), mul (s, h, h)), mul (s, two, h));
  spot m = middle (s, from->at, to->at), out = right_of (s, to->side);
  value over = mul (s, legs->side, quo (s, h, c)), down = mul (s, legs->side, quo (s, sub (s, h, radius), c));
  spot apex = along (s, m, over, out), centre = along (s, m, down, out);
  value slope = mul (s, two, over);
  radius = size (s, radius);
  add_arc (legs, s, from->at, apex, centre, radius, slope);
  add_arc (legs, s, apex, to->at, centre, radius, slope);
}

static void
add_round (br__legs *legs, br__sketch *s, const corner *c)
{
  value out = quo (s, mul (s, neg (s, sign (s, c->slope)), c->cut), c->length);
  spot centre = along (s, c->before_it, out, right_of (s, c->side));
  add_arc (legs, s, c->before_it, c->behind_it, centre, c->cut, c->slope);
}

static void
read_corners (corner *c, br__sketch *s, const br__value *corners, size_t count)
{
  for (size_t i = 0; i < count; i++)
    {
      c[i].at = (spot) { number_of (corners, i, BR__CORNER_X), number_of (corners, i, BR__CORNER_Y) };
      c[i].cut = number_of (corners, i, BR__CORNER_CUT);
      c[i].after = number_of (corners, i, BR__CORNER_CUT_AFTER);
      c[i].rise = number_of (corners, i, BR__CORNER_RISE);
      c[i].before_it = c[i].behind_it = c[i].at;
    }
  for (size_t i = 0; i < count; i++)
    {
      const corner *before = &c[(i + count - 1) % count];
      c[i].side = minus (s, c[i].at, before->at);
      if (c[i].cut || before->cut || c[i].rise)
        c[i].length = length (s, c[i].side);
    }
}

/* Twice the area within straight sides, below zero where they go around clockwise.  */
static value
twice_area (br__sketch *s, const corner *c, size_t count)
{
  value sum = br__sketch_int (s, 0);
  for (size_t i = 1; i + 1 < count; i++)
    sum = add (s, sum, cross (s, minus (s, c[i].at, c[0].at), minus (s, c[i + 1].at, c[0].at)));
  return sum;
}

/* The side before C, unless the corners at its ends take all of it.  */
static void
add_side (br__legs *legs, br__sketch *s, const corner *before, const corner *c)
{
  spot run = minus (s, c->before_it, before->behind_it);
  int along = 1, up = 1;
  if ((before->cut || c->cut) && !run.x->slot && !run.y->slot
      && br_real_sign (&along, &run.x->real, s->work->settings->bits) == BR_OK && along == 0
      && br_real_sign (&up, &run.y->real, s->work->settings->bits) == BR_OK && up == 0)
    return;
  add_leg (legs, s, before->behind_it, c->before_it);
}

br_status
br__outline_legs (br__legs *legs, br__sketch *s, const br__value *corners, size_t count)
{
  corner *c = br__alloc_zero (count, sizeof *c);
  size_t told = 0;
  memset (legs, 0, sizeof *legs);
  if (!c)
    return s->status = BR_NO_MEMORY;
  read_corners (c, s, corners, count);
  legs->side = sign (s, twice_area (s, c, count));
  for (size_t i = 0; i < count; i++)
    if (c[i].cut)
      cut_corner (s, &c[i], &c[(i + 1) % count]);
  for (size_t i = 0; i < count && s->status == BR_OK; i++)
    ask_fit (s, &c[(i + count - 1) % count], &c[i]);
  for (size_t i = 0; i < count && s->status == BR_OK; i++)
    {
      const corner *before = &c[(i + count - 1) % count];
      const size_t first = legs->count;
      if (c[i].rise)
        add_rise (legs, s, before, &c[i]);
      else
        add_side (legs, s, before, &c[i]);
      if (c[i].slope)
        add_round (legs, s, &c[i]);
      else if (c[i].cut)
        add_leg (legs, s, c[i].before_it, c[i].behind_it);
      for (; told < legs->count; told++)
        legs->rows[told].corner = i;
      if (first < legs->count)
        legs->rows[first].sharp = !before->cut;
    }
  br__free (c);
  return s->status;
}

/* ---- What it measures ---- */

static spot
start_of (const br__leg *leg)
{
  return (spot) { leg->x, leg->y };
}

static spot
run_of (br__sketch *s, const br__leg *leg)
{
  return minus (s, (spot) { leg->x2, leg->y2 }, start_of (leg));
}

/* Half of what an arc turns, in radians.  */
static value
half_turn (br__sketch *s, const br__leg *leg)
{
  value pi = br__sketch_int (s, 0);
  if (s->status == BR_OK)
    s->status = br_real_pi (&((br__value *) pi)->real);
  return quo (s, mul (s, br__sketch_do (s, BR__CODE_ATAN, leg->slope, NULL), pi), br__sketch_int (s, 180));
}

/* Between an arc and its chord, below zero where it turns to the right: rr / 2 (T - sin T).  */
static value
segment (br__sketch *s, const br__leg *leg)
{
  value k = leg->slope, rr = mul (s, leg->radius, leg->radius);
  value sine = quo (s, k, add (s, br__sketch_int (s, 1), mul (s, k, k)));
  return mul (s, rr, sub (s, half_turn (s, leg), sine));
}

/* How far an arc reaches to one side.  It lies inside its circle and inside the tangents at its two ends, which meet in a
   point; so it reaches as far as the nearer of the circle and that point, or as one of its ends.  */
static value
arc_reach (br__sketch *s, const br__leg *leg, int level, int far)
{
  spot d = run_of (s, leg);
  value ends = half (s, level ? add (s, leg->x, leg->x2) : add (s, leg->y, leg->y2));
  value off = half (s, mul (s, level ? d.y : d.x, leg->slope));
  value tip = level ? add (s, ends, off) : sub (s, ends, off);
  value centre = level ? leg->centre_x : leg->centre_y;
  return br__sketch_do (s, far ? BR__CODE_MIN : BR__CODE_MAX, tip,
                        far ? add (s, centre, leg->radius) : sub (s, centre, leg->radius));
}

static value
reach (br__sketch *s, const br__legs *legs, br__outline_measure what)
{
  int level = what == BR__OUTLINE_RIGHT || what == BR__OUTLINE_LEFT;
  int far = what == BR__OUTLINE_RIGHT || what == BR__OUTLINE_TOP;
  br__opcode op = far ? BR__CODE_MAX : BR__CODE_MIN;
  value z = NULL;
  for (size_t i = 0; i < legs->count; i++)
    {
      value at = level ? legs->rows[i].x : legs->rows[i].y;
      z = z ? br__sketch_do (s, op, z, at) : at;
      if (legs->rows[i].slope)
        z = br__sketch_do (s, op, z, arc_reach (s, &legs->rows[i], level, far));
    }
  return z;
}

static value
perimeter (br__sketch *s, const br__legs *legs)
{
  value sum = br__sketch_int (s, 0);
  for (size_t i = 0; i < legs->count; i++)
    {
      const br__leg *leg = &legs->rows[i];
      if (leg->slope)
        sum = add (s, sum, mul (s, mul (s, br__sketch_int (s, 2), leg->radius), size (s, half_turn (s, leg))));
      else
        sum = add (s, sum, length (s, run_of (s, leg)));
    }
  return sum;
}

/* Below zero where the path goes around clockwise.  (The shoelace formula, and the segments of its arcs.)  */
static value
area (br__sketch *s, const br__legs *legs)
{
  const spot first = start_of (&legs->rows[0]);
  value sum = br__sketch_int (s, 0);
  for (size_t i = 0; i < legs->count; i++)
    {
      const br__leg *leg = &legs->rows[i];
      sum = add (s, sum, half (s, cross (s, minus (s, start_of (leg), first), run_of (s, leg))));
      if (leg->slope)
        sum = add (s, sum, segment (s, leg));
    }
  return sum;
}

/* Triangles from the first point, each with its centre of area at the mean of its corners; a segment's moment about the
   centre of its circle is a twelfth of the cube of its chord.  */
static value
centre_of_area (br__sketch *s, const br__legs *legs, int level)
{
  const spot first = start_of (&legs->rows[0]);
  value sum = br__sketch_int (s, 0), one_in = level ? first.x : first.y;
  for (size_t i = 0; i < legs->count; i++)
    {
      const br__leg *leg = &legs->rows[i];
      spot d = run_of (s, leg);
      value at = add (s, level ? leg->x : leg->y, level ? leg->x2 : leg->y2);
      value mean = quo (s, add (s, at, one_in), br__sketch_int (s, 3));
      value triangle = half (s, cross (s, minus (s, start_of (leg), first), d));
      sum = add (s, sum, mul (s, triangle, mean));
      if (!leg->slope)
        continue;
      value chord = quo (s, mul (s, dot (s, d, d), level ? d.y : neg (s, d.x)), br__sketch_int (s, 12));
      sum = add (s, sum, mul (s, segment (s, leg), level ? leg->centre_x : leg->centre_y));
      sum = add (s, sum, chord);
    }
  return quo (s, sum, area (s, legs));
}

/* ---- Turned ---- */

/* The centre of rotation: the middle of its width and height.  The centroid would do as well, but equality of its
   coordinates can seldom be decided.  */
static spot
pivot_of (br__sketch *s, const br__legs *legs)
{
  return middle (s, (spot) { reach (s, legs, BR__OUTLINE_LEFT), reach (s, legs, BR__OUTLINE_BOTTOM) },
                 (spot) { reach (s, legs, BR__OUTLINE_RIGHT), reach (s, legs, BR__OUTLINE_TOP) });
}

static spot
turned (br__sketch *s, spot p, spot pivot, spot unit)
{
  spot d = minus (s, p, pivot);
  return (spot) { add (s, pivot.x, sub (s, mul (s, d.x, unit.x), mul (s, d.y, unit.y))),
                  add (s, pivot.y, add (s, mul (s, d.x, unit.y), mul (s, d.y, unit.x))) };
}

static spot
unit_of (br__sketch *s, value angle)
{
  return (spot) { br__sketch_do (s, BR__CODE_COS, angle, NULL), br__sketch_do (s, BR__CODE_SIN, angle, NULL) };
}

void
br__legs_turn (br__legs *legs, br__sketch *s, const br__value *angle)
{
  if (is_zero (angle))
    return;
  const spot pivot = pivot_of (s, legs), unit = unit_of (s, angle);
  for (size_t i = 0; i < legs->count; i++)
    {
      br__leg *leg = &legs->rows[i];
      const spot from = turned (s, start_of (leg), pivot, unit), to = turned (s, (spot) { leg->x2, leg->y2 }, pivot, unit);
      leg->x = from.x, leg->y = from.y, leg->x2 = to.x, leg->y2 = to.y;
      if (!leg->slope)
        continue;
      const spot centre = turned (s, (spot) { leg->centre_x, leg->centre_y }, pivot, unit);
      leg->centre_x = centre.x, leg->centre_y = centre.y;
    }
}

static value
middle_of (br__sketch *s, const br__legs *legs, const br__value *angle, int level)
{
  if (is_zero (angle))
    return centre_of_area (s, legs, level);
  const spot at = { centre_of_area (s, legs, 1), centre_of_area (s, legs, 0) };
  const spot z = turned (s, at, pivot_of (s, legs), unit_of (s, angle));
  return level ? z.x : z.y;
}

br_status
br__legs_measure (br__value *z, br__sketch *s, br__legs *legs, const br__value *angle, br__outline_measure what)
{
  value v;
  switch (what)
    {
    case BR__OUTLINE_AREA: v = mul (s, legs->side, area (s, legs)); break;
    case BR__OUTLINE_PERIMETER: v = perimeter (s, legs); break;
    case BR__OUTLINE_MIDDLE_X: case BR__OUTLINE_MIDDLE_Y:
      v = middle_of (s, legs, angle, what == BR__OUTLINE_MIDDLE_X);
      break;
    default:
      br__legs_turn (legs, s, angle);
      v = reach (s, legs, what);
      break;
    }
  return s->status == BR_OK ? br__value_set (z, v) : s->status;
}
