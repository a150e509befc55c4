/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_places.c - rows and mirrors: the figures that they are made of, each in its place, and what their hidden formulas
   call.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "geometry/shape_call.h"
#include "geometry/sketch.h"

typedef const br__value *value;

enum { KIND, X, Y, A, B, C, D, NUMBERS };

static value add (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_ADD, x, y); }
static value sub (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_SUB, x, y); }
static value mul (br__sketch *s, value x, value y) { return br__sketch_do (s, BR__CODE_MUL, x, y); }

/* A whole number that is known, else -1.  */
static int64_t
whole_of (value v)
{
  int64_t n = 0, d = 1;
  const br_number *q = v->slot ? NULL : br_real_rational (&v->real);
  return q && br_number_get_ratio (&n, &d, q) && d == 1 ? n : -1;
}

/* ---- Figures in their places ---- */

/* The place of a figure: perhaps mirrored about the vertical line through 0, then moved.  */
typedef struct placing
{
  int mirrored;
  value x, y;
} placing;

static value
turned (br__sketch *s, value v, const placing *at)
{
  return at->mirrored ? br__sketch_do (s, BR__CODE_NEG, v, NULL) : v;
}

/* A figure whose numbers are N, COUNT of them, becomes one of P.  */
static br_status
put_figure (br__places *p, br__sketch *s, const br__value *n, size_t count, const placing *at)
{
  int kind = (int) whole_of (&n[KIND]);
  p->numbers = count;
  if (!br__grow (&p->rows, &p->room, (p->count + 1) * count, sizeof *p->rows))
    return s->status = BR_NO_MEMORY;
  br__value *z = p->rows + p->count++ * count;
  for (size_t i = 0; i < count; i++)
    z[i] = n[i];                /* borrowed */
  z[X] = *add (s, turned (s, &n[X], at), at->x);
  z[Y] = *add (s, &n[Y], at->y);
  if (!at->mirrored)
    return s->status;
  if (kind == BR__ARC)
    z[C] = *sub (s, br__sketch_int (s, 180), add (s, &n[C], &n[D]));
  else if (kind == BR__LINE)
    z[A] = *turned (s, &n[A], at);
  else if (kind == BR__OUTLINE)
    z[C] = *turned (s, &n[C], at);
  for (size_t i = NUMBERS + BR__CORNER_X; i < count; i += BR__CORNER_NUMBERS)
    z[i] = *turned (s, &n[i], at);
  return s->status;
}

static br_status
put_places (br__places *p, br__sketch *s, const br__value *n, size_t count, placing at)
{
  int kind = (int) whole_of (&n[KIND]);
  if (!br__is_copy (kind))
    return put_figure (p, s, n, count, &at);
  if (kind == BR__MIRROR)
    {
      /* The mirror image of x is 2 a - x.  */
      at.x = add (s, at.x, turned (s, add (s, &n[A], &n[A]), &at));
      at.mirrored = !at.mirrored;
      return put_places (p, s, n + NUMBERS, count - NUMBERS, at);
    }
  value step = turned (s, &n[B], &at);
  for (int64_t i = whole_of (&n[A]); i > 0 && s->status == BR_OK; i--)
    {
      put_places (p, s, n + NUMBERS, count - NUMBERS, at);
      at.x = add (s, at.x, step);
      at.y = add (s, at.y, &n[C]);
    }
  return s->status;
}

br_status
br__shape_places (br__places *p, br__sketch *s, const br__value *numbers, size_t count)
{
  const placing here = { 0, br__sketch_int (s, 0), br__sketch_int (s, 0) };
  return put_places (p, s, numbers, count, here);
}

void
br__places_clear (br__places *p)
{
  br__free (p->rows);
  *p = (br__places) { NULL, 0, 0, 0 };
}

/* ---- Distances ---- */

/* The least distance of a figure of P and one of Q.  */
static br_status
least_distance (br__work *w, br__value *z, const br__places *p, const br__places *q, const br__function *one)
{
  const size_t count = p->numbers + q->numbers;
  br__value *pair = br__alloc_zero (count, sizeof *pair);
  br__value least = BR__VALUE_ZERO, next = BR__VALUE_ZERO;
  br_status status = pair ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < p->count * q->count && status == BR_OK; i++)
    {
      for (size_t k = 0; k < count; k++)
        pair[k] = k < p->numbers ? p->rows[i / q->count * p->numbers + k] : q->rows[i % q->count * q->numbers + k - p->numbers];
      status = one->call (w, i ? &next : &least, pair, (unsigned) count, one);
      if (status == BR_OK && i)
        status = br__operate (w, &least, BR__CODE_MIN, &least, &next);
    }
  if (status == BR_OK)
    status = br__value_set (z, &least);
  z->dimension = BR_LENGTH;
  br__free (pair);
  br__value_clear (&least);
  br__value_clear (&next);
  return status;
}

br_status
br__call_clear_places (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  unsigned first = br__shape_number_count (args, count);
  br__sketch s = { w, BR_OK, NULL };
  br__places p = { NULL, 0, 0, 0 }, q = { NULL, 0, 0, 0 };
  br_status status = br__shape_places (&p, &s, args, first);
  if (status == BR_OK)
    status = br__shape_places (&q, &s, args + first, count - first);
  if (status == BR_OK)
    status = least_distance (w, z, &p, &q, self);
  br__places_clear (&p);
  br__places_clear (&q);
  br__sketch_clear (&s);
  return status;
}

/* ---- What formulas call ---- */

br_status
br__call_count (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  int64_t n = args[0].dimension == BR_PLAIN ? whole_of (&args[0]) : -1;
  (void) count;
  (void) self;
  if (n < 1 || n > BR__MOST_PLACES)
    return br__fail (w->error, n > BR__MOST_PLACES ? BR_TOO_BIG : BR_DOMAIN, 0, 0, "a row has 1 to %d places: a whole number that is known",
                     BR__MOST_PLACES);
  return br__value_set (z, &args[0]);
}

br_status
br__call_places (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  int64_t n = whole_of (&args[0]) * (br__is_copy ((int) whole_of (&args[1])) ? whole_of (&args[2]) : 1);
  (void) count;
  (void) self;
  if (n > BR__MOST_PLACES)
    return br__fail (w->error, BR_TOO_BIG, 0, 0, "%d places in all: a row of rows has no more than %d", (int) n, BR__MOST_PLACES);
  return br_number_set_int (&z->real.rational, n);
}

/* The first place, and the last one where that reaches farther.  */
br_status
br__call_row_reach (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self)
{
  br__sketch s = { w, BR_OK, NULL };
  (void) count;
  value far = mul (&s, sub (&s, &args[1], br__sketch_int (&s, 1)), &args[2]);
  far = br__sketch_do (&s, self->variant < 0 ? BR__CODE_MIN : BR__CODE_MAX, far, br__sketch_int (&s, 0));
  far = add (&s, &args[0], far);
  br_status status = s.status == BR_OK ? br__value_set (z, far) : s.status;
  z->dimension = BR_LENGTH;
  br__sketch_clear (&s);
  return status;
}
