/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_measure.c - the functions that hidden formulas call for areas, edges and outlines, and for the distance of an
   outline and any shape.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "geometry/shape_call.h"
#include "geometry/sketch.h"

typedef const br__value *value;

enum { KIND, X, Y, A, B, C, D };

static int
whole_of (value v)
{
  int64_t n = 0, d = 1;
  const br_number *q = v->slot ? NULL : br_real_rational (&v->real);
  return q && br_number_get_ratio (&n, &d, q) && d == 1 ? (int) n : -1;
}

/* ---- Outlines ---- */

/* Z = 0 where the corners ARGS can be drawn; the count of them stands first.  */
static br_status
corners_fit (br_real *z, const br_real *const *args, unsigned bits)
{
  const br__settings s = { .bits = bits };
  br__work w = { &s, NULL, NULL, 0 };
  br__value v[BR__CORNER_NUMBERS * BR__MOST_CORNERS];
  size_t index;
  int64_t n = 0, d = 1;
  (void) br_number_get_ratio (&n, &d, &args[0]->rational);
  memset (v, 0, sizeof v);
  for (int64_t i = 0; i < n; i++)
    v[i].real = *args[i + 1];   /* borrowed */
  br_status status = br__outline_check (&index, &w, v, (size_t) n / BR__CORNER_NUMBERS, 0);
  return status == BR_OK ? br_number_set_int (&z->rational, 0) : status;
}

/* Values that are not known yet are checked when the program is evaluated.  */
static br_status
ask_fit (br__work *w, const br__value *args, unsigned count)
{
  static const br__function row = { .name = "corners", .parameters = "", .summary = "", .measure = corners_fit };
  br__value *v = br__alloc_zero (count + 1, sizeof *v), fits = BR__VALUE_ZERO;
  br_status status = v ? br_number_set_int (&v->real.rational, (int64_t) count) : BR_NO_MEMORY;
  for (unsigned i = 0; i < count && v; i++)
    v[i + 1] = args[i];         /* borrowed */
  if (status == BR_OK)
    status = br__operate_measure (w, &fits, v, count + 1, &row);
  br__free (v);
  return status;
}

/* The corners, which are looked at: how many.  */
br_status
br__call_corners (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  int varies = 0;
  size_t index = BR__WHOLE_CALL;
  for (unsigned i = 0; i < count; i++)
    varies |= args[i].slot != 0;
  br_status status = varies ? ask_fit (w, args, count)
                     : br__outline_check (&index, w, args, count / BR__CORNER_NUMBERS, self->variant == BR__CALL_BOX_CORNERS);
  return status == BR_OK ? br_number_set_int (&z->real.rational, (int64_t) (count / BR__CORNER_NUMBERS)) : status;
}

br_status
br__call_outline (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__sketch s = { w, BR_OK, NULL };
  br__legs legs = { NULL, 0, 0, NULL };
  /* Behind the corners stands their number, so that they have been looked at, and how far it is turned.  */
  br_status status = br__outline_legs (&legs, &s, args, (count - 2) / BR__CORNER_NUMBERS);
  if (status == BR_OK)
    status = br__legs_measure (z, &s, &legs, &args[count - 1], (br__outline_measure) self->variant);
  z->dimension = self->variant == BR__OUTLINE_AREA ? BR_AREA : BR_LENGTH;
  br__legs_clear (&legs);
  br__sketch_clear (&s);
  return status;
}

/* ---- Areas and edges of other shapes ---- */

static value add (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_ADD, x, y); }
static value mul (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_MUL, x, y); }

/* X * PI * NUM / DEN.  */
static value
times_pi (br__sketch *s, value x, int64_t num, int64_t den)
{
  value pi = br__sketch_int (s, 0);
  if (s->status == BR_OK)
    s->status = br_real_pi (&((br__value *) pi)->real);
  value product = mul (s, mul (s, x, pi), br__sketch_int (s, num));
  return br__sketch_do (s, BR__CODE_DIV, product, br__sketch_int (s, den));
}

static value
length_of_line (br__sketch *s, value n)
{
  static const br_number one_half = { 1, 1 };
  value square = add (s, mul (s, &n[A], &n[A]), mul (s, &n[B], &n[B])), z = br__sketch_int (s, 0);
  if (s->status == BR_OK)
    s->status = br__operate_power (s->work, (br__value *) z, square, &one_half);
  return z;
}

static value
area_of (br__sketch *s, value n)
{
  switch (whole_of (&n[KIND]))
    {
    case BR__CIRCLE: return times_pi (s, mul (s, &n[A], &n[A]), 1, 1);
    case BR__BOX: return mul (s, &n[A], &n[B]);
    case BR__ARC:
      return times_pi (s, mul (s, &n[D], br__sketch_do (s, BR__CODE_SUB, mul (s, &n[B], &n[B]), mul (s, &n[A], &n[A]))), 1, 360);
    default:
      return add (s, mul (s, length_of_line (s, n), &n[C]), times_pi (s, mul (s, &n[C], &n[C]), 1, 4));
    }
}

/* All around; of a line or curve without width, its length.  */
static value
edge_of (br__sketch *s, value n)
{
  value two = br__sketch_int (s, 2), width = br__sketch_do (s, BR__CODE_SUB, &n[B], &n[A]);
  switch (whole_of (&n[KIND]))
    {
    case BR__CIRCLE: return times_pi (s, &n[A], 2, 1);
    case BR__BOX: return mul (s, two, add (s, &n[A], &n[B]));
    case BR__ARC:
      if (whole_of (width) == 0)
        return times_pi (s, mul (s, &n[A], &n[D]), 1, 180);
      value curves = times_pi (s, mul (s, &n[D], add (s, &n[A], &n[B])), 1, 180);
      return whole_of (&n[D]) == 360 ? curves : add (s, curves, mul (s, two, width));
    default:
      if (whole_of (&n[C]) == 0)
        return length_of_line (s, n);
      return add (s, mul (s, two, length_of_line (s, n)), times_pi (s, &n[C], 1, 1));
    }
}

br_status
br__call_extent (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__sketch s = { w, BR_OK, NULL };
  int area = self->variant == BR__OUTLINE_AREA;
  (void) count;
  value v = area ? area_of (&s, args) : edge_of (&s, args);
  br_status status = s.status == BR_OK ? br__value_set (z, v) : s.status;
  z->dimension = area ? BR_AREA : BR_LENGTH;
  br__sketch_clear (&s);
  return status;
}

/* ---- The distance of two paths ---- */

/* Counts of pieces, sides of the insides, then the numbers of each piece.  */
enum { COUNT, COUNT_2, SIDE, SIDE_2, HEAD };

static void
take_piece (br__path_piece *p, const br_real *const *v, br__pad *g)
{
  p->from = (br__point) { v[0], v[1] };
  p->to = (br__point) { v[2], v[3] };
  p->centre = (br__point) { v[4], v[5] };
  p->turn = br__sign_of (g, v[BR__PIECE_NUMBERS - 1]);
  p->radius = br__abs_of (g, v[BR__PIECE_NUMBERS - 1]);
}

static br_status
measure_paths (br_real *z, const br_real *const *args, unsigned bits)
{
  br__pad g = { BR_OK, bits, NULL };
  int64_t n[2] = { 0, 0 }, d;
  for (int i = 0; i < 2; i++)
    if (!br_number_get_ratio (&n[i], &d, &args[COUNT + i]->rational))
      return BR_DOMAIN;
  br__path_piece *pieces = br__alloc_zero ((size_t) (n[0] + n[1]), sizeof *pieces);
  if (!pieces)
    return BR_NO_MEMORY;
  for (int64_t i = 0; i < n[0] + n[1]; i++)
    take_piece (&pieces[i], args + HEAD + BR__PIECE_NUMBERS * i, &g);
  br__path p = { pieces, (size_t) n[0], br__sign_of (&g, args[SIDE]) };
  br__path q = { pieces + n[0], (size_t) n[1], br__sign_of (&g, args[SIDE_2]) };
  const br_real *distance = br__path_distance (&g, &p, &q);
  br_status status = br__pad_end (z, distance, &g);
  br__free (pieces);
  return status;
}

/* The radius of an arc, below zero where it turns to the right.  */
static value
signed_radius (br__sketch *s, const br__leg *leg)
{
  int turn = 0;
  if (leg->slope->slot)
    return mul (s, leg->radius, br__sketch_do (s, BR__CODE_DIV, leg->slope, br__sketch_do (s, BR__CODE_ABS, leg->slope, NULL)));
  if (s->status == BR_OK)
    s->status = br_real_sign (&turn, &leg->slope->real, s->work->settings->bits);
  return turn < 0 ? br__sketch_do (s, BR__CODE_NEG, leg->radius, NULL) : leg->radius;
}

static void
put_legs (br__value *at, br__sketch *s, const br__legs *legs)
{
  value zero = br__sketch_int (s, 0);
  for (size_t i = 0; i < legs->count; i++)
    {
      const br__leg *leg = &legs->rows[i];
      const value numbers[BR__PIECE_NUMBERS] =
        { leg->x, leg->y, leg->x2, leg->y2, leg->slope ? leg->centre_x : zero, leg->slope ? leg->centre_y : zero,
          leg->slope ? signed_radius (s, leg) : zero };
      for (int k = 0; k < BR__PIECE_NUMBERS; k++)
        *at++ = *numbers[k];    /* borrowed */
    }
}

br_status
br__call_clear_paths (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  static const br__function row =
    { .name = "clear", .parameters = "", .summary = "", .measure = measure_paths, .rates = "j---p" };
  br__sketch s = { w, BR_OK, NULL };
  br__legs p = { NULL, 0, 0, NULL }, q = { NULL, 0, 0, NULL };
  (void) self;
  br_status status = br__shape_legs (&p, &s, args);
  if (status == BR_OK)
    status = br__shape_legs (&q, &s, args + br__shape_number_count (args, count));
  size_t numbers = HEAD + BR__PIECE_NUMBERS * (p.count + q.count);
  br__value *v = status == BR_OK ? br__alloc_zero (numbers, sizeof *v) : NULL;
  if (status == BR_OK && !v)
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    {
      v[COUNT] = *br__sketch_int (&s, (int64_t) p.count);
      v[COUNT_2] = *br__sketch_int (&s, (int64_t) q.count);
      v[SIDE] = *p.side;
      v[SIDE_2] = *q.side;
      put_legs (v + HEAD, &s, &p);
      put_legs (v + HEAD + BR__PIECE_NUMBERS * p.count, &s, &q);
      status = s.status;
    }
  if (status == BR_OK)
    status = br__operate_measure (w, z, v, (unsigned) numbers, &row);
  z->dimension = BR_LENGTH;
  br__free (v);
  br__legs_clear (&p);
  br__legs_clear (&q);
  br__sketch_clear (&s);
  return status;
}
