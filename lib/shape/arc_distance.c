/* SPDX-License-Identifier: LGPL-3.0-or-later
   arc_distance.c - the distance of a bent strip (the area between two circles and two rays, such as
   a fender) and another shape.

   Where the areas do not overlap, the nearest points are a corner of the one and anything of the
   other, a foot of the centre on a side, or lie on the line of the centres.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "shape/geometry.h"

typedef struct strip
{
  br__point centre;
  const br_real *inner, *outer;
  int whole;                    /* a ring */
  int wide;                     /* turns more than 180 degrees */
  br__point first, last, middle;    /* directions of its ends and of its middle */
} strip;

static void
strip_of (strip *s, br__pad *g, const br__figure *f)
{
  s->centre = (br__point) { f->x, f->y };
  s->inner = f->a;
  s->outer = f->b;
  s->whole = br__order_of (g, f->d, br__pad_int (g, 360)) >= 0;
  s->wide = br__order_of (g, f->d, br__pad_int (g, 180)) > 0;
  s->first = br__direction (g, f->c);
  s->last = br__direction (g, br__add (g, f->c, f->d));
  s->middle = br__direction (g, br__add (g, f->c, br__half (g, f->d)));
}

/* 1: the direction V lies between the ends, 0: on an end, -1: outside.  */
static int
faces (br__pad *g, const strip *s, br__point v)
{
  if (s->whole)
    return 1;
  int after = br__sign_of (g, br__cross (g, s->first, v)), before = br__sign_of (g, br__cross (g, v, s->last));
  int at_first = after == 0 && br__sign_of (g, br__dot (g, s->first, v)) > 0;
  int at_last = before == 0 && br__sign_of (g, br__dot (g, s->last, v)) > 0;
  if (at_first || at_last)
    return 0;
  return (s->wide ? after > 0 || before > 0 : after > 0 && before > 0) ? 1 : -1;
}

/* The end of the strip at DIRECTION, as a segment.  */
static void
end_of (br__hull *h, br__pad *g, const strip *s, br__point direction)
{
  h->count = 2;
  h->corner[0] = br__along (g, s->centre, s->inner, direction);
  h->corner[1] = br__along (g, s->centre, s->outer, direction);
  h->round = br__pad_int (g, 0);
}

static const br_real *
to_end (br__pad *g, const strip *s, br__point direction, br__point p)
{
  return br__point_to_segment (g, p, br__along (g, s->centre, s->inner, direction),
                               br__along (g, s->centre, s->outer, direction));
}

/* From the point P to the strip; below zero inside, by how far its edge is away.  */
static const br_real *
to_strip (br__pad *g, const strip *s, br__point p)
{
  br__point v = br__minus (g, p, s->centre);
  const br_real *r = br__length_of (g, v);
  int centre = br__sign_of (g, r) == 0;
  if (!centre && faces (g, s, v) < 0)
    return br__least (g, to_end (g, s, s->first, p), to_end (g, s, s->last, p));
  const br_real *under = br__sub (g, s->inner, r), *over = br__sub (g, r, s->outer);
  const br_real *out = centre ? under : br__most (g, under, over);
  if (s->whole || br__sign_of (g, out) >= 0)
    return out;
  out = br__most (g, out, br__neg (g, to_end (g, s, s->first, p)));
  return br__most (g, out, br__neg (g, to_end (g, s, s->last, p)));
}

/* ---- A segment ---- */

#define CROSSINGS 8

typedef struct crossings
{
  const br_real *at[CROSSINGS];     /* places on the segment, 0 to 1, in order */
  size_t count;
} crossings;

static void
add_crossing (crossings *c, br__pad *g, const br_real *t)
{
  if (br__sign_of (g, t) < 0 || br__order_of (g, t, br__pad_int (g, 1)) > 0 || c->count == CROSSINGS)
    return;
  size_t i = c->count++;
  for (; i > 0 && br__order_of (g, c->at[i - 1], t) > 0; i--)
    c->at[i] = c->at[i - 1];
  c->at[i] = t;
}

/* Where the line A + T D meets the circle of RADIUS.  */
static void
cross_circle (crossings *c, br__pad *g, br__point from_centre, br__point d, const br_real *radius)
{
  const br_real *dd = br__dot (g, d, d), *b = br__dot (g, d, from_centre);
  const br_real *e = br__sub (g, br__dot (g, from_centre, from_centre), br__mul (g, radius, radius));
  const br_real *q = br__sub (g, br__mul (g, b, b), br__mul (g, dd, e));
  if (br__sign_of (g, q) <= 0)
    return;
  q = br__root (g, q);
  add_crossing (c, g, br__div (g, br__sub (g, br__neg (g, b), q), dd));
  add_crossing (c, g, br__div (g, br__sub (g, q, b), dd));
}

static void
cross_ray (crossings *c, br__pad *g, br__point from_centre, br__point d, br__point ray)
{
  const br_real *slant = br__cross (g, ray, d);
  if (br__sign_of (g, slant) != 0)
    add_crossing (c, g, br__div (g, br__cross (g, from_centre, ray), slant));
}

/* Whether the segment from A to B passes through the inside of S: it is cut where it may go in or out,
   and each piece is asked at its middle.  */
static int
passes_through (br__pad *g, const strip *s, br__point a, br__point b)
{
  br__point d = br__minus (g, b, a), from_centre = br__minus (g, a, s->centre);
  crossings c = { .count = 0 };
  add_crossing (&c, g, br__pad_int (g, 0));
  add_crossing (&c, g, br__pad_int (g, 1));
  cross_circle (&c, g, from_centre, d, s->inner);
  cross_circle (&c, g, from_centre, d, s->outer);
  if (!s->whole)
    {
      cross_ray (&c, g, from_centre, d, s->first);
      cross_ray (&c, g, from_centre, d, s->last);
    }
  for (size_t i = 1; i < c.count && g->status == BR_OK; i++)
    {
      const br_real *t = br__half (g, br__add (g, c.at[i - 1], c.at[i]));
      if (br__sign_of (g, to_strip (g, s, br__along (g, a, t, d))) < 0)
        return 1;
    }
  return 0;
}

/* The foot of the centre on the segment from A to B, where the strip faces it: NEAREST or less.  */
static const br_real *
foot_distance (br__pad *g, const strip *s, br__point a, br__point b, const br_real *nearest)
{
  br__point d = br__minus (g, b, a), v = br__minus (g, s->centre, a);
  const br_real *t = br__dot (g, v, d), *dd = br__dot (g, d, d);
  if (br__sign_of (g, t) <= 0 || br__order_of (g, t, dd) >= 0)
    return nearest;
  return br__least (g, nearest, br__abs_of (g, to_strip (g, s, br__along (g, a, br__div (g, t, dd), d))));
}

/* From the corners of the strip S to Q and back, areas apart.  */
static const br_real *
apart (br__pad *g, const strip *s, const br__hull *q)
{
  const br_real *nearest = NULL;
  size_t sides = q->count == 2 ? 1 : q->count;
  for (size_t i = 0; i < q->count; i++)
    {
      const br_real *d = to_strip (g, s, q->corner[i]);
      nearest = nearest ? br__least (g, nearest, d) : d;
    }
  for (size_t i = 0; i < sides && q->count > 1; i++)
    {
      br__point a = q->corner[i], b = q->corner[(i + 1) % q->count];
      nearest = foot_distance (g, s, a, b, nearest);
      for (int k = 0; k < 4 && !s->whole; k++)
        {
          br__point p = br__along (g, s->centre, k & 1 ? s->inner : s->outer, k & 2 ? s->first : s->last);
          nearest = br__least (g, nearest, br__point_to_segment (g, p, a, b));
        }
    }
  return nearest;
}

/* ---- Overlap ---- */

/* How far the filled strip reaches along the unit vector N.  */
static const br_real *
reach (br__pad *g, const strip *s, br__point n)
{
  const br_real *c = br__dot (g, s->centre, n), *far = s->outer;
  if (faces (g, s, n) < 0)
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

/* One of the two that S is to be pushed free of.  */
typedef struct other
{
  const br__hull *hull;         /* or NULL: */
  const strip *strip;
} other;

static const br_real *
other_reach (br__pad *g, const other *o, br__point n)
{
  return o->hull ? hull_reach (g, o->hull, n) : reach (g, o->strip, n);
}

/* Less the push of S along N, or against it, that frees it; BEST or more.  */
static const br_real *
push (br__pad *g, const strip *s, const other *o, br__point n, const br_real *best)
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
push_free (br__pad *g, const strip *s, const other *o, br__point middle)
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

/* Whether the middle of S lies inside a box.  */
static int
holds_middle (br__pad *g, const br__hull *box, const strip *s)
{
  br__point p = br__along (g, s->centre, br__half (g, br__add (g, s->inner, s->outer)), s->middle);
  return br__order_of (g, p.x, box->corner[0].x) > 0 && br__order_of (g, p.x, box->corner[2].x) < 0
         && br__order_of (g, p.y, box->corner[0].y) > 0 && br__order_of (g, p.y, box->corner[2].y) < 0;
}

static const br_real *
strip_to_hull (br__pad *g, const strip *s, const br__hull *q, br__point middle)
{
  int overlap = q->count == 4 && holds_middle (g, q, s);
  if (q->count == 1)
    return br__sub (g, to_strip (g, s, q->corner[0]), q->round);
  for (size_t i = 0; i < (q->count == 2 ? 1 : q->count) && !overlap; i++)
    overlap = passes_through (g, s, q->corner[i], q->corner[(i + 1) % q->count]);
  other o = { q, NULL };
  const br_real *d = overlap ? push_free (g, s, &o, middle) : apart (g, s, q);
  return br__sub (g, d, q->round);
}

/* ---- Two strips ---- */

/* The corners of P to Q, and the ends of P where Q faces them; *OVERLAP is set where an end of P goes
   through Q.  */
static const br_real *
ends_to_strip (br__pad *g, const strip *p, const strip *q, int *overlap, const br_real *nearest)
{
  for (int i = 0; i < 2 && !p->whole; i++)
    {
      br__hull end;
      end_of (&end, g, p, i ? p->last : p->first);
      for (int k = 0; k < 2; k++)
        {
          const br_real *d = to_strip (g, q, end.corner[k]);
          nearest = nearest ? br__least (g, nearest, d) : d;
        }
      nearest = foot_distance (g, q, end.corner[0], end.corner[1], nearest);
      *overlap |= passes_through (g, q, end.corner[0], end.corner[1]);
    }
  return nearest;
}

/* Two circles of the strips: the nearest points on the line of the centres, and whether they cross.  */
static const br_real *
circles (br__pad *g, const strip *p, const br_real *r, const strip *q, const br_real *t, int *overlap,
         const br_real *nearest)
{
  br__point w = br__minus (g, q->centre, p->centre), back = { br__neg (g, w.x), br__neg (g, w.y) };
  const br_real *d = br__length_of (g, w);
  for (int i = 0; i < 4; i++)
    {
      if (faces (g, p, i & 1 ? back : w) < 0 || faces (g, q, i & 2 ? back : w) < 0)
        continue;
      const br_real *x = br__sub (g, br__add (g, d, i & 2 ? br__neg (g, t) : t), i & 1 ? br__neg (g, r) : r);
      x = br__abs_of (g, x);
      nearest = nearest ? br__least (g, nearest, x) : x;
    }
  const br_real *rr = br__mul (g, r, r), *dd = br__mul (g, d, d);
  const br_real *x = br__add (g, dd, br__sub (g, rr, br__mul (g, t, t)));
  x = br__div (g, br__half (g, x), dd);         /* along W, in parts of it */
  const br_real *h = br__sub (g, br__div (g, rr, dd), br__mul (g, x, x));
  if (br__sign_of (g, h) <= 0)
    return nearest;
  h = br__root (g, h);
  for (int i = 0; i < 2; i++, h = br__neg (g, h))
    {
      br__point side = { br__neg (g, w.y), w.x }, zero = { br__pad_int (g, 0), br__pad_int (g, 0) };
      br__point from_p = br__along (g, br__along (g, zero, x, w), h, side);
      int a = faces (g, p, from_p), b = faces (g, q, br__minus (g, from_p, w));
      if (a >= 0 && b >= 0 && a + b < 2 && g->status == BR_OK)
        g->status = BR_UNDECIDED;       /* they cross at an end: touching or not is not looked into */
      *overlap |= a > 0 && b > 0;
    }
  return nearest;
}

/* Around one centre.  */
static const br_real *
one_centre (br__pad *g, const strip *p, const strip *q, int *overlap, const br_real *nearest)
{
  const br_real *gap = br__most (g, br__sub (g, q->inner, p->outer), br__sub (g, p->inner, q->outer));
  int meet = faces (g, p, q->first) > 0 || faces (g, q, p->first) > 0 || faces (g, p, q->middle) > 0
             || faces (g, q, p->middle) > 0;
  if (!meet)
    return nearest;
  *overlap |= br__sign_of (g, gap) < 0;
  return nearest ? br__least (g, nearest, gap) : gap;
}

static const br_real *
strip_to_strip (br__pad *g, const strip *p, const strip *q)
{
  const br_real *nearest = NULL;
  int overlap = 0;
  br__point w = br__minus (g, q->centre, p->centre);
  nearest = ends_to_strip (g, p, q, &overlap, nearest);
  nearest = ends_to_strip (g, q, p, &overlap, nearest);
  if (br__sign_of (g, w.x) == 0 && br__sign_of (g, w.y) == 0)
    nearest = one_centre (g, p, q, &overlap, nearest);
  else
    {
      for (int i = 0; i < 4; i++)
        nearest = circles (g, p, i & 1 ? p->inner : p->outer, q, i & 2 ? q->inner : q->outer, &overlap,
                           nearest);
      br__point m = br__along (g, q->centre, br__half (g, br__add (g, q->inner, q->outer)), q->middle);
      br__point n = br__along (g, p->centre, br__half (g, br__add (g, p->inner, p->outer)), p->middle);
      overlap |= br__sign_of (g, to_strip (g, p, m)) < 0 || br__sign_of (g, to_strip (g, q, n)) < 0;
    }
  if (!overlap)
    return nearest;
  other o = { NULL, q };
  return push_free (g, p, &o, q->centre);
}

const br_real *
br__arc_distance (br__pad *g, const br__figure *arc, const br__figure *q)
{
  strip s, t;
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
  strip s;
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
