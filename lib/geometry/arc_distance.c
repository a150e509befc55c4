/* SPDX-License-Identifier: LGPL-3.0-or-later
   arc_distance.c - the distance of a bent strip (the area between two circles and two rays, such as
   a fender) and another shape.

   Where the areas do not overlap, the nearest points are a corner of the one and anything of the
   other, a foot of the centre on a side, or lie on the line of the centres.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "geometry/strip.h"

static void
strip_of (br__strip *s, br__pad *g, const br__figure *f)
{
  s->centre = (br__point) { f->x, f->y };
  s->inner = f->a;
  s->outer = f->b;
  s->thin = br__order_of (g, f->a, f->b) == 0;
  s->whole = br__order_of (g, f->d, br__pad_int (g, 360)) >= 0;
  int half = br__order_of (g, f->d, br__pad_int (g, 180));
  s->wide = half > 0;
  s->straight = half == 0;
  s->narrow = br__order_of (g, f->d, br__pad_int (g, 90)) < 0;
  s->angle[0] = f->c;
  s->angle[1] = br__add (g, f->c, f->d);
  s->angle[2] = br__add (g, f->c, br__half (g, f->d));
  s->first = br__direction (g, s->angle[0]);
  s->last = br__direction (g, s->angle[1]);
  for (int i = 0; i < 4; i++)
    s->corner[i] = br__along (g, s->centre, i & 1 ? s->outer : s->inner, i & 2 ? s->last : s->first);
}

static int
between_ends (const br__strip *s, int after, int before)
{
  return (s->wide ? after > 0 || before > 0 : after > 0 && before > 0) ? 1 : -1;
}

int
br__strip_faces (br__pad *g, const br__strip *s, br__point v)
{
  if (s->whole)
    return 1;
  int after = br__sign_of (g, br__cross (g, s->first, v)), before = br__sign_of (g, br__cross (g, v, s->last));
  int at_first = after == 0 && br__sign_of (g, br__dot (g, s->first, v)) > 0;
  int at_last = before == 0 && br__sign_of (g, br__dot (g, s->last, v)) > 0;
  return at_first || at_last ? 0 : between_ends (s, after, before);
}

/* The same of an angle, where the difference of two says more than the product of their sines.  */
static int
faces_angle (br__pad *g, const br__strip *s, const br_real *angle)
{
  if (s->whole)
    return 1;
  const br_real *past = br__sub (g, angle, s->angle[0]), *left = br__sub (g, s->angle[1], angle);
  int after = br__sign_of (g, br__sine (g, past)), before = br__sign_of (g, br__sine (g, left));
  int at_first = after == 0 && br__sign_of (g, br__cosine (g, past)) > 0;
  int at_last = before == 0 && br__sign_of (g, br__cosine (g, left)) > 0;
  return at_first || at_last ? 0 : between_ends (s, after, before);
}

static const br_real *
to_end (br__pad *g, const br__strip *s, int last, br__point p)
{
  return br__point_to_segment (g, p, s->corner[2 * last], s->corner[2 * last + 1]);
}

/* From the point P to the strip; below zero inside, by how far its edge is away.  */
static const br_real *
to_strip (br__pad *g, const br__strip *s, br__point p)
{
  br__point v = br__minus (g, p, s->centre);
  const br_real *r = br__length_of (g, v);
  int centre = br__sign_of (g, r) == 0;
  if (!centre && br__strip_faces (g, s, v) < 0)
    return br__least (g, to_end (g, s, 0, p), to_end (g, s, 1, p));
  const br_real *under = br__sub (g, s->inner, r), *over = br__sub (g, r, s->outer);
  const br_real *out = centre ? under : br__most (g, under, over);
  if (s->whole || br__sign_of (g, out) >= 0)
    return out;
  out = br__most (g, out, br__neg (g, to_end (g, s, 0, p)));
  return br__most (g, out, br__neg (g, to_end (g, s, 1, p)));
}

/* ---- Apart.  A distance between two corners is taken once, as what two roads to it give is not seen to be equal
   without a proof.  ---- */

/* The nearer of two, NULL is none.  */
static const br_real *
nearer (br__pad *g, const br_real *x, const br_real *y)
{
  return !x ? y : !y ? x : br__least (g, x, y);
}

/* P and the nearest point of the segment from A to B, NULL where that is A or B.  */
static const br_real *
to_inside (br__pad *g, br__point p, br__point a, br__point b)
{
  br__point d = br__minus (g, b, a), v = br__minus (g, p, a);
  const br_real *t = br__dot (g, v, d);
  if (br__sign_of (g, t) <= 0 || br__order_of (g, t, br__dot (g, d, d)) >= 0)
    return NULL;
  return br__point_to_segment (g, p, a, b);
}

/* The corners of S to the inside of the segment from A to B, and of the foot of its centre there.  */
static const br_real *
corners_to_segment (br__pad *g, const br__strip *s, br__point a, br__point b)
{
  br__point d = br__minus (g, b, a), v = br__minus (g, s->centre, a);
  const br_real *t = br__dot (g, v, d), *dd = br__dot (g, d, d), *nearest = NULL;
  if (br__sign_of (g, t) > 0 && br__order_of (g, t, dd) < 0)
    {
      br__point foot = br__along (g, a, br__div (g, t, dd), d), from = br__minus (g, foot, s->centre);
      if (br__strip_faces (g, s, from) >= 0)
        nearest = br__abs_of (g, to_strip (g, s, foot));
    }
  for (int k = 0; k < 4 && !s->whole; k++)
    nearest = nearer (g, nearest, to_inside (g, s->corner[k], a, b));
  return nearest;
}

/* From the corners of the strip S to Q and back.  */
static const br_real *
strip_and_hull (br__pad *g, const br__strip *s, const br__hull *q)
{
  const br_real *nearest = NULL;
  for (size_t i = 0; i < q->count; i++)
    nearest = nearer (g, nearest, to_strip (g, s, q->corner[i]));
  for (size_t i = 0; i < (q->count == 2 ? 1 : q->count); i++)
    nearest = nearer (g, nearest, corners_to_segment (g, s, q->corner[i], q->corner[(i + 1) % q->count]));
  return nearest;
}

/* ---- The push that frees two which overlap ---- */

/* How far the filled strip reaches along the unit vector N.  */
static const br_real *
reach (br__pad *g, const br__strip *s, br__point n)
{
  const br_real *c = br__dot (g, s->centre, n), *far = s->outer;
  if (br__strip_faces (g, s, n) < 0)
    {
      const br_real *first = br__dot (g, s->first, n), *last = br__dot (g, s->last, n);
      const br_real *slope = br__most (g, first, last);
      far = br__mul (g, br__sign_of (g, slope) < 0 ? s->inner : s->outer, slope);
    }
  return br__add (g, c, far);
}

static const br_real *
hull_reach (br__pad *g, const br__hull *q, br__point n)
{
  const br_real *far = NULL;
  for (size_t i = 0; i < q->count; i++)
    {
      const br_real *d = br__dot (g, q->corner[i], n);
      far = far ? br__most (g, far, d) : d;
    }
  return far;
}

static const br_real *
other_reach (br__pad *g, const br__area *o, br__point n)
{
  return o->hull ? hull_reach (g, o->hull, n) : reach (g, o->strip, n);
}

/* Less the push of S along N, or against it, that frees it; BEST or more.  */
static const br_real *
push (br__pad *g, const br__strip *s, const br__area *o, br__point n, const br_real *best)
{
  const br_real *length = br__length_of (g, n);
  if (br__sign_of (g, length) == 0)
    return best;
  br__point u = { br__div (g, n.x, length), br__div (g, n.y, length) };
  br__point back = { br__neg (g, u.x), br__neg (g, u.y) };
  const br_real *d = br__neg (g, br__add (g, reach (g, s, back), other_reach (g, o, u)));
  const br_real *e = br__neg (g, br__add (g, reach (g, s, u), other_reach (g, o, back)));
  d = br__most (g, d, e);
  return best ? br__most (g, best, d) : d;
}

static const br_real *
push_free (br__pad *g, const br__strip *s, const br__area *o, br__point middle)
{
  br__point up = { br__pad_int (g, 0), br__pad_int (g, 1) }, right = { up.y, up.x };
  const br_real *best = push (g, s, o, up, NULL);
  best = push (g, s, o, right, best);
  best = push (g, s, o, br__minus (g, middle, s->centre), best);
  for (size_t i = 0; o->hull && o->hull->count == 2 && i < 2; i++)
    {
      br__point d = br__minus (g, o->hull->corner[1], o->hull->corner[0]);
      best = push (g, s, o, (br__point) { d.y, br__neg (g, d.x) }, best);
    }
  return best;
}

static const br_real *
strip_to_hull (br__pad *g, const br__strip *s, const br__hull *q, br__point middle)
{
  const br__area hull = { q, NULL };
  const br__point nowhere = { br__pad_int (g, 0), br__pad_int (g, 0) };
  if (q->count == 1)
    return br__sub (g, to_strip (g, s, q->corner[0]), q->round);
  int overlap = q->count == 4 && br__strip_enters (g, s, &hull);
  for (size_t i = 0; i < (q->count == 2 ? 1 : q->count) && !overlap; i++)
    {
      br__point a = q->corner[i], b = q->corner[(i + 1) % q->count];
      overlap = br__segment_enters (g, s, a, b, q->count == 2 ? nowhere : br__left_of (g, br__minus (g, b, a)), NULL);
    }
  return br__sub (g, overlap ? push_free (g, s, &hull, middle) : strip_and_hull (g, s, q), q->round);
}

/* ---- Two strips ---- */

/* The corners of Q to the inside of the edges of S.  */
static const br_real *
corners_to_edges (br__pad *g, const br__strip *s, const br__strip *q)
{
  const br_real *nearest = NULL;
  for (int i = 0; i < 4 && !q->whole; i++)
    {
      br__point v = br__minus (g, q->corner[i], s->centre);
      if (br__strip_faces (g, s, v) > 0)
        nearest = nearer (g, nearest, to_strip (g, s, q->corner[i]));
      for (int k = 0; k < 4 && !s->whole; k += 2)
        nearest = nearer (g, nearest, to_inside (g, q->corner[i], s->corner[k], s->corner[k + 1]));
    }
  return nearest;
}

/* The nearest points of two circles of the strips lie on the line of the centres.  */
static const br_real *
circles (br__pad *g, const br__strip *p, const br_real *r, const br__strip *q, const br_real *t, const br_real *nearest)
{
  br__point w = br__minus (g, q->centre, p->centre), back = br__opposite (g, w);
  const br_real *d = br__length_of (g, w);
  for (int i = 0; i < 4; i++)
    {
      if (br__strip_faces (g, p, i & 1 ? back : w) < 0 || br__strip_faces (g, q, i & 2 ? back : w) < 0)
        continue;
      const br_real *x = br__sub (g, br__add (g, d, i & 2 ? br__neg (g, t) : t), i & 1 ? br__neg (g, r) : r);
      x = br__abs_of (g, x);
      nearest = nearer (g, nearest, x);
    }
  return nearest;
}

/* 1 where there is a direction inside both.  */
static int
face_alike (br__pad *g, const br__strip *p, const br__strip *q)
{
  return faces_angle (g, p, q->angle[0]) > 0 || faces_angle (g, q, p->angle[0]) > 0
         || faces_angle (g, p, q->angle[2]) > 0 || faces_angle (g, q, p->angle[2]) > 0;
}

static const br_real *
strip_to_strip (br__pad *g, const br__strip *p, const br__strip *q)
{
  const br__area from = { NULL, p }, to = { NULL, q };
  const br_real *nearest = NULL;
  br__point w = br__minus (g, q->centre, p->centre);
  int overlap, one_centre = br__sign_of (g, w.x) == 0 && br__sign_of (g, w.y) == 0;
  if (one_centre && face_alike (g, p, q))
    {
      nearest = br__most (g, br__sub (g, q->inner, p->outer), br__sub (g, p->inner, q->outer));
      overlap = br__sign_of (g, nearest) < 0;
    }
  else
    overlap = !one_centre && (br__strip_enters (g, p, &to) || br__strip_enters (g, q, &from));
  if (overlap)
    return push_free (g, p, &to, q->centre);
  for (int i = 0; i < 4 && !p->whole; i++)
    nearest = nearer (g, nearest, to_strip (g, q, p->corner[i]));
  for (int i = 0; i < 4 && !p->whole; i += 2)
    nearest = nearer (g, nearest, corners_to_segment (g, q, p->corner[i], p->corner[i + 1]));
  for (int i = 0; i < 4 && !q->whole; i += 2)
    nearest = nearer (g, nearest, corners_to_segment (g, p, q->corner[i], q->corner[i + 1]));
  nearest = nearer (g, nearest, corners_to_edges (g, p, q));
  for (int i = 0; i < 4 && !one_centre; i++)
    nearest = circles (g, p, i & 1 ? p->inner : p->outer, q, i & 2 ? q->inner : q->outer, nearest);
  return nearest;
}

const br_real *
br__arc_distance (br__pad *g, const br__figure *arc, const br__figure *q)
{
  br__strip s, t;
  br__hull h;
  strip_of (&s, g, arc);
  if (q->kind == BR__ARC)
    {
      strip_of (&t, g, q);
      return strip_to_strip (g, &s, &t);
    }
  br__hull_of (&h, g, q);
  return strip_to_hull (g, &s, &h, (br__point) { q->x, q->y });
}

/* ---- Sides ---- */

static const br_real *
arc_reach (br__pad *g, const br__figure *f, br__side side)
{
  br__strip s;
  br__point zero = { br__pad_int (g, 0), br__pad_int (g, 0) };
  br__point n = br__direction (g, br__pad_int (g, 90 * (int) side));
  strip_of (&s, g, f);
  s.centre = zero;
  return reach (g, &s, n);
}

br_status
br__figure_reach (br_real *z, const br__figure *f, br__side side, unsigned bits)
{
  br__pad g = { BR_OK, bits, NULL };
  const br_real *d;
  int level = side == BR__RIGHT || side == BR__LEFT;
  if (f->kind == BR__ARC)
    d = arc_reach (&g, f, side);
  else
    d = br__half (&g, br__add (&g, br__abs_of (&g, level ? f->a : f->b), f->c));
  if (side == BR__LEFT || side == BR__BOTTOM)
    d = br__neg (&g, d);
  return br__pad_end (z, d, &g);
}
