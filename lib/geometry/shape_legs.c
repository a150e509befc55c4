/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_legs.c - circles, boxes, arcs and lines as paths, with their inside to the left.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "geometry/sketch.h"

enum { KIND, X, Y, A, B, C, D, NUMBERS };

typedef const br__value *value;

typedef struct maker
{
  br__legs *legs;
  br__sketch *s;
  value one;
} maker;

static value add (const maker *m, value x, value y) { return br__sketch_do (m->s, BR__CODE_ADD, x, y); }
static value sub (const maker *m, value x, value y) { return br__sketch_do (m->s, BR__CODE_SUB, x, y); }
static value mul (const maker *m, value x, value y) { return br__sketch_do (m->s, BR__CODE_MUL, x, y); }

static value
part (const maker *m, value x, int64_t n)
{
  return br__sketch_do (m->s, BR__CODE_DIV, x, br__sketch_int (m->s, n));
}

/* A whole number that is known, else -1.  */
static int64_t
whole_of (value v)
{
  int64_t n = 0, d = 1;
  const br_number *q = v->slot ? NULL : br_real_rational (&v->real);
  return q && br_number_get_ratio (&n, &d, q) && d == 1 ? n : -1;
}

static void
put (const maker *m, const br__leg *leg)
{
  br__legs *legs = m->legs;
  if (m->s->status == BR_OK && !br__grow (&legs->rows, &legs->room, legs->count + 1, sizeof *legs->rows))
    m->s->status = BR_NO_MEMORY;
  if (m->s->status == BR_OK)
    legs->rows[legs->count++] = *leg;
}

static void
put_straight (const maker *m, value x, value y, value x2, value y2)
{
  put (m, &(br__leg) { .x = x, .y = y, .x2 = x2, .y2 = y2 });
}

/* An arc of RADIUS around X, Y from the direction FROM to the direction TO, unit vectors.  */
static void
put_arc (const maker *m, value x, value y, value radius, const value from[2], const value to[2], value slope)
{
  put (m, &(br__leg) { .x = add (m, x, mul (m, radius, from[0])), .y = add (m, y, mul (m, radius, from[1])),
                       .x2 = add (m, x, mul (m, radius, to[0])), .y2 = add (m, y, mul (m, radius, to[1])),
                       .slope = slope, .radius = radius, .centre_x = x, .centre_y = y });
}

/* Quarter turns to the left around X, Y from the direction U on, a unit vector.  */
static void
put_quarters (const maker *m, value x, value y, value radius, value ux, value uy, int count)
{
  for (int i = 0; i < count; i++)
    {
      value across = br__sketch_do (m->s, BR__CODE_NEG, uy, NULL);
      const value from[] = { ux, uy }, to[] = { across, ux };
      put_arc (m, x, y, radius, from, to, m->one);
      uy = ux;
      ux = across;
    }
}

static void
put_box (const maker *m, value n)
{
  value w = part (m, &n[A], 2), h = part (m, &n[B], 2);
  value left = sub (m, &n[X], w), right = add (m, &n[X], w), low = sub (m, &n[Y], h), high = add (m, &n[Y], h);
  put_straight (m, left, low, right, low);
  put_straight (m, right, low, right, high);
  put_straight (m, right, high, left, high);
  put_straight (m, left, high, left, low);
}

static void
put_line (const maker *m, value n)
{
  static const br_number one_half = { 1, 1 };
  value w = part (m, &n[A], 2), h = part (m, &n[B], 2), r = part (m, &n[C], 2);
  value x = sub (m, &n[X], w), y = sub (m, &n[Y], h), x2 = add (m, &n[X], w), y2 = add (m, &n[Y], h);
  if (whole_of (&n[C]) == 0)
    {
      put_straight (m, x, y, x2, y2);
      m->legs->side = br__sketch_int (m->s, 0);
      return;
    }
  value square = add (m, mul (m, &n[A], &n[A]), mul (m, &n[B], &n[B])), length = br__sketch_int (m->s, 0);
  if (m->s->status == BR_OK)
    m->s->status = br__operate_power (m->s->work, (br__value *) length, square, &one_half);
  value ux = br__sketch_do (m->s, BR__CODE_DIV, &n[A], length), uy = br__sketch_do (m->s, BR__CODE_DIV, &n[B], length);
  value rx = mul (m, r, ux), ry = mul (m, r, uy), back_x = br__sketch_do (m->s, BR__CODE_NEG, ux, NULL);
  value back_y = br__sketch_do (m->s, BR__CODE_NEG, uy, NULL);
  put_straight (m, add (m, x, ry), sub (m, y, rx), add (m, x2, ry), sub (m, y2, rx));
  put_quarters (m, x2, y2, r, uy, back_x, 2);
  put_straight (m, sub (m, x2, ry), add (m, y2, rx), sub (m, x, ry), add (m, y, rx));
  put_quarters (m, x, y, r, back_y, ux, 2);
}

/* The edge of radius R in four pieces; back to where it begins for the inner one.  */
static void
put_edge (const maker *m, value n, value r, value at[5][2], int inner)
{
  value slope = br__sketch_do (m->s, BR__CODE_TAN, part (m, &n[D], 8), NULL);
  if (inner)
    slope = br__sketch_do (m->s, BR__CODE_NEG, slope, NULL);
  for (int i = 0; i < 4; i++)
    put_arc (m, &n[X], &n[Y], r, at[inner ? 4 - i : i], at[inner ? 3 - i : i + 1], slope);
}

static void
put_strip (const maker *m, value n)
{
  value at[5][2], angle = &n[C], step = part (m, &n[D], 4);
  int whole = whole_of (&n[D]) == 360, thin = 0;
  if (m->s->status == BR_OK && !n[A].slot && !n[B].slot)
    {
      m->s->status = br_real_cmp (&thin, &n[A].real, &n[B].real, m->s->work->settings->bits);
      thin = thin == 0;
    }
  for (int i = 0; i < 5; i++, angle = add (m, angle, step))
    {
      at[i][0] = br__sketch_do (m->s, BR__CODE_COS, angle, NULL);
      at[i][1] = br__sketch_do (m->s, BR__CODE_SIN, angle, NULL);
    }
  put_edge (m, n, &n[B], at, 0);
  if (thin)
    {
      m->legs->side = br__sketch_int (m->s, 0);
      return;
    }
  for (int end = 1; end >= 0 && m->s->status == BR_OK; end--)
    {
      const br__value *in[2], *out[2];
      in[0] = add (m, &n[X], mul (m, &n[A], at[4 * end][0]));
      in[1] = add (m, &n[Y], mul (m, &n[A], at[4 * end][1]));
      out[0] = add (m, &n[X], mul (m, &n[B], at[4 * end][0]));
      out[1] = add (m, &n[Y], mul (m, &n[B], at[4 * end][1]));
      if (!whole && end)
        put_straight (m, out[0], out[1], in[0], in[1]);
      if (end)
        put_edge (m, n, &n[A], at, 1);
      else if (!whole)
        put_straight (m, in[0], in[1], out[0], out[1]);
    }
}

unsigned
br__shape_number_count (const br__value *numbers, unsigned room)
{
  unsigned more = 0;
  if (room < NUMBERS)
    return 0;
  if (br__is_copy ((int) whole_of (&numbers[KIND])))
    {
      more = br__shape_number_count (numbers + NUMBERS, room - NUMBERS);
      return more ? NUMBERS + more : 0;
    }
  if (whole_of (&numbers[KIND]) == BR__OUTLINE)
    more = (unsigned) whole_of (&numbers[A]) * BR__CORNER_NUMBERS;
  return more <= room - NUMBERS ? NUMBERS + more : 0;
}

br_status
br__leg_keep (br__leg *leg, br__sketch *s)
{
  const br__value **const values[] =
    { &leg->x, &leg->y, &leg->x2, &leg->y2, &leg->slope, &leg->radius, &leg->centre_x, &leg->centre_y };
  const br__value *zero = br__sketch_int (s, 0);
  for (size_t i = 0; i < sizeof values / sizeof values[0]; i++)
    if (*values[i])
      *values[i] = br__sketch_do (s, BR__CODE_ADD, *values[i], zero);
  return s->status;
}

/* The corners of an outline are told from its place on.  */
static void
move_legs (br__legs *legs, br__sketch *s, value x, value y)
{
  const maker m = { legs, s, NULL };
  for (size_t i = 0; i < legs->count; i++)
    {
      br__leg *leg = &legs->rows[i];
      leg->x = add (&m, leg->x, x);
      leg->x2 = add (&m, leg->x2, x);
      leg->y = add (&m, leg->y, y);
      leg->y2 = add (&m, leg->y2, y);
      if (leg->slope)
        {
          leg->centre_x = add (&m, leg->centre_x, x);
          leg->centre_y = add (&m, leg->centre_y, y);
        }
    }
}

br_status
br__shape_legs (br__legs *legs, br__sketch *s, const br__value *numbers)
{
  const maker m = { legs, s, br__sketch_int (s, 1) };
  const value zero = br__sketch_int (s, 0);
  if (whole_of (&numbers[KIND]) == BR__OUTLINE)
    {
      br_status status = br__outline_legs (legs, s, numbers + NUMBERS, (size_t) whole_of (&numbers[A]));
      br__legs_turn (legs, s, &numbers[C]);
      if (status == BR_OK)
        move_legs (legs, s, &numbers[X], &numbers[Y]);
      return s->status;
    }
  memset (legs, 0, sizeof *legs);
  legs->side = m.one;
  switch (whole_of (&numbers[KIND]))
    {
    case BR__CIRCLE: put_quarters (&m, &numbers[X], &numbers[Y], &numbers[A], m.one, zero, 4); break;
    case BR__BOX: put_box (&m, numbers); break;
    case BR__ARC: put_strip (&m, numbers); break;
    default: put_line (&m, numbers); break;
    }
  return s->status;
}
