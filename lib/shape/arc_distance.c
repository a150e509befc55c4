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
  int thin;                     /* a curve, with no area */
  int wide;                     /* turns more than 180 degrees */
  br__point first, last, middle;    /* directions of its ends and of its middle */
} strip;

static void
strip_of (strip *s, br__pad *g, const br__figure *f)
{
  s->centre = (br__point) { f->x, f->y };
  s->inner = f->a;
  s->outer = f->b;
  s->thin = br__order_of (g, f->a, f->b) == 0;
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

/* ---- Overlap: the edges of each area are cut wherever they may go into the other, and each piece is tried
   at a point of it.  Of two connected areas that overlap, one has a piece of edge inside the other, or
   they have a piece in common with the areas on one side of it.  ---- */

typedef struct area
{
  const br__hull *hull;         /* or NULL: */
  const strip *strip;
} area;

static br__point
left_of (br__pad *g, br__point d)
{
  return (br__point) { br__neg (g, d.y), d.x };
}

static br__point
opposite (br__pad *g, br__point d)
{
  return (br__point) { br__neg (g, d.x), br__neg (g, d.y) };
}

/* SIGN is that of the distance of a point from an edge, over zero inside, INWARD points in there.  1 where
   the point, and what lies a little way along N from it, is not outside.  */
static int
keeps_in (br__pad *g, int sign, br__point inward, br__point n)
{
  return sign > 0 || (sign == 0 && br__sign_of (g, br__dot (g, inward, n)) > 0);
}

/* 1: the point P lies inside A, or on its edge with A on the side of N.  */
static int
lies_in (br__pad *g, const area *a, br__point p, br__point n)
{
  if (a->hull)
    {
      int in = a->hull->count == 4;
      for (size_t i = 0; i < 4 && in; i++)
        {
          br__point d = br__minus (g, a->hull->corner[(i + 1) % 4], a->hull->corner[i]);
          int sign = br__sign_of (g, br__cross (g, d, br__minus (g, p, a->hull->corner[i])));
          in = keeps_in (g, sign, left_of (g, d), n);
        }
      return in;
    }
  const strip *s = a->strip;
  br__point v = br__minus (g, p, s->centre);
  const br_real *rr = br__dot (g, v, v);
  int over = br__order_of (g, rr, br__mul (g, s->inner, s->inner));
  int under = br__order_of (g, br__mul (g, s->outer, s->outer), rr);
  if (!keeps_in (g, over, v, n) || !keeps_in (g, under, opposite (g, v), n))
    return 0;
  int facing = faces (g, s, v);
  if (facing != 0)
    return facing > 0;
  int at_first = br__sign_of (g, br__cross (g, s->first, v)) == 0 && br__sign_of (g, br__dot (g, s->first, v)) > 0;
  br__point turn = left_of (g, at_first ? s->first : s->last);
  return keeps_in (g, 0, at_first ? turn : opposite (g, turn), n);
}

#define CUTS 12

typedef struct cuts
{
  const br_real *at[CUTS];      /* of a segment: places on it, 0 to 1, in order */
  br__point v[CUTS];            /* of a circle: from its centre, in the order of their angles */
  size_t count;
} cuts;

static void
cut_segment (cuts *c, br__pad *g, const br_real *t)
{
  if (br__sign_of (g, t) < 0 || br__order_of (g, t, br__pad_int (g, 1)) > 0 || c->count == CUTS)
    return;
  size_t i = c->count++;
  for (; i > 0 && br__order_of (g, c->at[i - 1], t) > 0; i--)
    c->at[i] = c->at[i - 1];
  c->at[i] = t;
}

/* T[]: where the line FROM_CENTRE + T D meets the circle of RADIUS; how many.  */
static size_t
line_circle (const br_real *t[2], br__pad *g, br__point from_centre, br__point d, const br_real *radius)
{
  const br_real *dd = br__dot (g, d, d), *b = br__dot (g, d, from_centre), *away = br__cross (g, d, from_centre);
  const br_real *q = br__sub (g, br__mul (g, dd, br__mul (g, radius, radius)), br__mul (g, away, away));
  int sign = br__sign_of (g, q);
  q = sign > 0 ? br__root (g, q) : br__pad_int (g, 0);
  t[0] = br__div (g, br__sub (g, br__neg (g, b), q), dd);
  t[1] = br__div (g, br__sub (g, q, b), dd);
  return sign < 0 ? 0 : sign > 0 ? 2 : 1;
}

/* Curves have no inside.  1 if A + T D crosses that of S, for T between 0 and 1 or, where Q is given, at a point
   that Q faces.  */
static int
crosses_curve (br__pad *g, const strip *s, br__point a, br__point d, const strip *q)
{
  const br_real *t[2];
  br__point o = br__minus (g, a, s->centre);
  int two = s->thin && line_circle (t, g, o, d, s->outer) == 2, crosses = 0;
  for (int i = 0; i < 2 && two; i++)
    {
      br__point v = br__along (g, o, t[i], d);
      int there = q ? faces (g, q, br__minus (g, br__along (g, a, t[i], d), q->centre)) > 0
                    : br__sign_of (g, t[i]) > 0 && br__order_of (g, t[i], br__pad_int (g, 1)) < 0;
      crosses |= there && faces (g, s, v) > 0;
    }
  return crosses;
}

/* 1 if the segment from A to B, with an area on the side of N of it, goes into S.  */
static int
segment_enters (br__pad *g, const area *s, br__point a, br__point b, br__point n)
{
  br__point d = br__minus (g, b, a), from_centre = br__minus (g, a, s->strip->centre);
  cuts c = { .count = 0 };
  if (s->strip->thin)
    return crosses_curve (g, s->strip, a, d, NULL);
  cut_segment (&c, g, br__pad_int (g, 0));
  cut_segment (&c, g, br__pad_int (g, 1));
  for (int i = 0; i < 2; i++)
    {
      const br_real *t[2];
      size_t count = line_circle (t, g, from_centre, d, i ? s->strip->outer : s->strip->inner);
      for (size_t k = 0; k < count; k++)
        cut_segment (&c, g, t[k]);
      br__point ray = i ? s->strip->last : s->strip->first;
      const br_real *slant = br__cross (g, ray, d);
      if (!s->strip->whole && br__sign_of (g, slant) != 0)
        cut_segment (&c, g, br__div (g, br__cross (g, from_centre, ray), slant));
    }
  for (size_t i = 1; i < c.count && g->status == BR_OK; i++)
    {
      const br_real *t = br__half (g, br__add (g, c.at[i - 1], c.at[i]));
      if (br__order_of (g, c.at[i - 1], c.at[i]) < 0 && lies_in (g, s, br__along (g, a, t, d), n))
        return 1;
    }
  return 0;
}

/* Less than 0: V comes before W on the way around from START.  */
static int
angle_order (br__pad *g, br__point start, br__point v, br__point w)
{
  int half[2];
  for (int i = 0; i < 2; i++)
    {
      br__point u = i ? w : v;
      int turn = br__sign_of (g, br__cross (g, start, u));
      half[i] = turn < 0 || (turn == 0 && br__sign_of (g, br__dot (g, start, u)) < 0);
    }
  return half[0] != half[1] ? half[0] - half[1] : -br__sign_of (g, br__cross (g, v, w));
}

static void
cut_circle (cuts *c, br__pad *g, const strip *s, br__point v)
{
  if (faces (g, s, v) < 0 || c->count == CUTS)
    return;
  size_t i = c->count;
  int order = 1;
  while (i > 0 && (order = angle_order (g, s->first, v, c->v[i - 1])) < 0)
    i--;
  if (i > 0 && order == 0)
    return;
  memmove (&c->v[i + 1], &c->v[i], (c->count++ - i) * sizeof c->v[0]);
  c->v[i] = v;
}

/* Cuts of the circle of RADIUS around S->centre where the line through A along D meets it.  */
static void
cut_by_line (cuts *c, br__pad *g, const strip *s, const br_real *radius, br__point a, br__point d)
{
  const br_real *t[2];
  br__point o = br__minus (g, a, s->centre);
  size_t count = line_circle (t, g, o, d, radius);
  for (size_t i = 0; i < count; i++)
    cut_circle (c, g, s, br__along (g, o, t[i], d));
}

/* Where the radical line of two circles, on which they meet, meets the line of their centres: the circle of
   RADIUS around P, and that of T around P and W, which is not P.  */
static br__point
radical_foot (br__pad *g, br__point p, const br_real *radius, br__point w, const br_real *t)
{
  const br_real *rr = br__mul (g, radius, radius), *dd = br__dot (g, w, w);
  const br_real *x = br__half (g, br__add (g, dd, br__sub (g, rr, br__mul (g, t, t))));
  return br__along (g, p, br__div (g, x, dd), w);
}

/* A direction inside the piece from A to B anticlockwise, which are not the same direction unless the piece is
   a whole turn: a rational point of the unit circle, ((1 - tt) / (1 + tt), 2t / (1 + tt)), so that what is
   asked of it needs no root.  */
static br__point
inside_piece (br__pad *g, br__point a, br__point b)
{
  int narrow = br__sign_of (g, br__cross (g, a, b)) > 0 && br__sign_of (g, br__dot (g, a, b)) > 0;
  br__point until = narrow ? b : left_of (g, a);
  br__point m = { br__add (g, a.x, until.x), br__add (g, a.y, until.y) };
  int left = br__sign_of (g, m.x) < 0;
  if (left)
    m = opposite (g, m);
  const br_real *t = br__div (g, m.y, br__add (g, m.x, br__length_of (g, m)));
  for (unsigned bits = 8; g->status == BR_OK; bits *= 2)
    {
      const br_real *r = br__pad_rounded (g, t, bits), *rr = br__mul (g, r, r), *one = br__pad_int (g, 1);
      const br_real *whole = br__add (g, one, rr);
      br__point u = { br__div (g, br__sub (g, one, rr), whole), br__div (g, br__add (g, r, r), whole) };
      if (left)
        u = opposite (g, u);
      if (br__sign_of (g, br__cross (g, a, u)) > 0 && br__sign_of (g, br__cross (g, u, until)) > 0)
        return u;
    }
  return m;
}

/* 1 if the edge of S on its inner or outer circle goes into Q.  */
static int
circle_enters (br__pad *g, const strip *s, int outer, const area *q)
{
  const br_real *r = outer ? s->outer : s->inner;
  br__point zero = { br__pad_int (g, 0), br__pad_int (g, 0) };
  cuts c = { .count = 0 };
  cut_circle (&c, g, s, br__along (g, zero, r, s->first));
  if (!s->whole)
    cut_circle (&c, g, s, br__along (g, zero, r, s->last));
  for (size_t i = 0; q->hull && i < q->hull->count; i++)
    cut_by_line (&c, g, s, r, q->hull->corner[i],
                 br__minus (g, q->hull->corner[(i + 1) % q->hull->count], q->hull->corner[i]));
  for (int i = 0; q->strip && i < 2; i++)
    {
      br__point w = br__minus (g, q->strip->centre, s->centre);
      br__point foot = radical_foot (g, s->centre, r, w, i ? q->strip->outer : q->strip->inner);
      cut_by_line (&c, g, s, r, foot, left_of (g, w));
      if (!q->strip->whole)
        cut_by_line (&c, g, s, r, q->strip->centre, i ? q->strip->last : q->strip->first);
    }
  for (size_t i = 0; i + !s->whole < c.count && g->status == BR_OK; i++)
    {
      br__point u = inside_piece (g, c.v[i], c.v[(i + 1) % c.count]);
      if (lies_in (g, q, br__along (g, s->centre, r, u), outer ? opposite (g, u) : u))
        return 1;
    }
  return 0;
}

/* 1 if an edge of S goes into Q, which is a box or another strip.  */
static int
strip_enters (br__pad *g, const strip *s, const area *q)
{
  int enters = circle_enters (g, s, 0, q) || circle_enters (g, s, 1, q);
  if (s->thin && q->strip && q->strip->thin)
    {
      br__point w = br__minus (g, q->strip->centre, s->centre);
      return crosses_curve (g, s, radical_foot (g, s->centre, s->outer, w, q->strip->outer), left_of (g, w), q->strip);
    }
  for (int i = 0; q->strip && i < 2 && !s->whole && !s->thin && !enters; i++)
    {
      br__hull end;
      br__point d = i ? s->last : s->first, turn = left_of (g, d);
      end_of (&end, g, s, d);
      enters = segment_enters (g, q, end.corner[0], end.corner[1], i ? opposite (g, turn) : turn);
    }
  return enters;
}



/* ---- Apart ---- */

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

/* ---- The push that frees two which overlap ---- */

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

static const br_real *
other_reach (br__pad *g, const area *o, br__point n)
{
  return o->hull ? hull_reach (g, o->hull, n) : reach (g, o->strip, n);
}

/* Less the push of S along N, or against it, that frees it; BEST or more.  */
static const br_real *
push (br__pad *g, const strip *s, const area *o, br__point n, const br_real *best)
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
push_free (br__pad *g, const strip *s, const area *o, br__point middle)
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
strip_to_hull (br__pad *g, const strip *s, const br__hull *q, br__point middle)
{
  const area bent = { NULL, s }, hull = { q, NULL };
  const br__point nowhere = { br__pad_int (g, 0), br__pad_int (g, 0) };
  if (q->count == 1)
    return br__sub (g, to_strip (g, s, q->corner[0]), q->round);
  int overlap = q->count == 4 && strip_enters (g, s, &hull);
  for (size_t i = 0; i < (q->count == 2 ? 1 : q->count) && !overlap; i++)
    {
      br__point a = q->corner[i], b = q->corner[(i + 1) % q->count];
      overlap = segment_enters (g, &bent, a, b, q->count == 2 ? nowhere : left_of (g, br__minus (g, b, a)));
    }
  return br__sub (g, overlap ? push_free (g, s, &hull, middle) : apart (g, s, q), q->round);
}

/* ---- Two strips ---- */

/* The corners of P to Q, and the ends of P where Q faces them.  */
static const br_real *
ends_to_strip (br__pad *g, const strip *p, const strip *q, const br_real *nearest)
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
    }
  return nearest;
}

/* The nearest points of two circles of the strips lie on the line of the centres.  */
static const br_real *
circles (br__pad *g, const strip *p, const br_real *r, const strip *q, const br_real *t, const br_real *nearest)
{
  br__point w = br__minus (g, q->centre, p->centre), back = opposite (g, w);
  const br_real *d = br__length_of (g, w);
  for (int i = 0; i < 4; i++)
    {
      if (faces (g, p, i & 1 ? back : w) < 0 || faces (g, q, i & 2 ? back : w) < 0)
        continue;
      const br_real *x = br__sub (g, br__add (g, d, i & 2 ? br__neg (g, t) : t), i & 1 ? br__neg (g, r) : r);
      x = br__abs_of (g, x);
      nearest = nearest ? br__least (g, nearest, x) : x;
    }
  return nearest;
}

/* 1 where there is a direction inside both.  */
static int
face_alike (br__pad *g, const strip *p, const strip *q)
{
  return faces (g, p, q->first) > 0 || faces (g, q, p->first) > 0 || faces (g, p, q->middle) > 0
         || faces (g, q, p->middle) > 0;
}

static const br_real *
strip_to_strip (br__pad *g, const strip *p, const strip *q)
{
  const area from = { NULL, p }, to = { NULL, q };
  const br_real *nearest = NULL;
  br__point w = br__minus (g, q->centre, p->centre);
  int overlap, one_centre = br__sign_of (g, w.x) == 0 && br__sign_of (g, w.y) == 0;
  if (one_centre && face_alike (g, p, q))
    {
      nearest = br__most (g, br__sub (g, q->inner, p->outer), br__sub (g, p->inner, q->outer));
      overlap = br__sign_of (g, nearest) < 0;
    }
  else
    overlap = !one_centre && (strip_enters (g, p, &to) || strip_enters (g, q, &from));
  if (overlap)
    return push_free (g, p, &to, q->centre);
  nearest = ends_to_strip (g, p, q, nearest);
  nearest = ends_to_strip (g, q, p, nearest);
  for (int i = 0; i < 4 && !one_centre; i++)
    nearest = circles (g, p, i & 1 ? p->inner : p->outer, q, i & 2 ? q->inner : q->outer, nearest);
  return nearest;
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
