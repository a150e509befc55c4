/* SPDX-License-Identifier: LGPL-3.0-or-later
   strip_overlap.c - whether a bent strip overlaps a box, a line or another strip.

   The edges of each area are cut wherever they may go into the other, and each piece is tried at a
   point of it.  Of two connected areas that overlap, one has a piece of edge inside the other, or they
   have a piece in common with the areas on one side of it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "geometry/strip.h"

/* SIGN is that of the distance of a point from an edge, over zero inside, INWARD points in there.  1 where
   the point, and what lies a little way along N from it, is not outside.  */
static int
keeps_in (br__pad *g, int sign, br__point inward, br__point n)
{
  return sign > 0 || (sign == 0 && br__sign_of (g, br__dot (g, inward, n)) > 0);
}

/* 1: the point P lies inside A, or on its edge with A on the side of N.  */
static int
lies_in (br__pad *g, const br__area *a, br__point p, br__point n)
{
  if (!a->strip)
    {
      int in = a->hull->count == 4;
      for (size_t i = 0; i < 4 && in; i++)
        {
          br__point d = br__minus (g, a->hull->corner[(i + 1) % 4], a->hull->corner[i]);
          int sign = br__sign_of (g, br__cross (g, d, br__minus (g, p, a->hull->corner[i])));
          in = keeps_in (g, sign, br__left_of (g, d), n);
        }
      return in;
    }
  const br__strip *s = a->strip;
  br__point v = br__minus (g, p, s->centre);
  const br_real *rr = br__dot (g, v, v);
  int over = br__order_of (g, rr, br__mul (g, s->inner, s->inner));
  int under = br__order_of (g, br__mul (g, s->outer, s->outer), rr);
  if (!keeps_in (g, over, v, n) || !keeps_in (g, under, br__opposite (g, v), n))
    return 0;
  int facing = br__strip_faces (g, s, v);
  if (facing != 0)
    return facing > 0;
  int at_first = br__sign_of (g, br__cross (g, s->first, v)) == 0 && br__sign_of (g, br__dot (g, s->first, v)) > 0;
  br__point turn = br__left_of (g, at_first ? s->first : s->last);
  return keeps_in (g, 0, at_first ? turn : br__opposite (g, turn), n);
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

size_t
br__line_circle (const br_real *t[2], br__pad *g, br__point from_centre, br__point d, const br_real *radius)
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
crosses_curve (br__pad *g, const br__strip *s, br__point a, br__point d, const br__strip *q)
{
  const br_real *t[2];
  br__point o = br__minus (g, a, s->centre);
  int two = s->thin && br__line_circle (t, g, o, d, s->outer) == 2, crosses = 0;
  for (int i = 0; i < 2 && two; i++)
    {
      br__point v = br__along (g, o, t[i], d);
      int there = q ? br__strip_faces (g, q, br__minus (g, br__along (g, a, t[i], d), q->centre)) > 0
                    : br__sign_of (g, t[i]) > 0 && br__order_of (g, t[i], br__pad_int (g, 1)) < 0;
      crosses |= there && br__strip_faces (g, s, v) > 0;
    }
  return crosses;
}

int
br__segment_enters (br__pad *g, const br__strip *s, br__point a, br__point b, br__point n, const br_real *angle)
{
  br__point d = br__minus (g, b, a), from_centre = br__minus (g, a, s->centre);
  const br__area in = { NULL, s };
  cuts c = { .count = 0 };
  if (s->thin)
    return crosses_curve (g, s, a, d, NULL);
  cut_segment (&c, g, br__pad_int (g, 0));
  cut_segment (&c, g, br__pad_int (g, 1));
  int radial = br__sign_of (g, br__cross (g, from_centre, d)) == 0;     /* It meets the rays in the centre.  */
  for (int i = 0; i < 2; i++)
    {
      const br_real *t[2];
      size_t count = br__line_circle (t, g, from_centre, d, i ? s->outer : s->inner);
      for (size_t k = 0; k < count; k++)
        cut_segment (&c, g, t[k]);
      br__point ray = i ? s->last : s->first;
      const br_real *slant = br__cross (g, ray, d);
      if (s->whole || radial || (i && s->straight))
        continue;
      if (br__sign_of (g, angle ? br__sine (g, br__sub (g, angle, s->angle[i])) : slant) != 0)
        cut_segment (&c, g, br__div (g, br__cross (g, from_centre, ray), slant));
    }
  for (size_t i = 1; i < c.count && g->status == BR_OK; i++)
    {
      const br_real *t = br__half (g, br__add (g, c.at[i - 1], c.at[i]));
      if (br__order_of (g, c.at[i - 1], c.at[i]) < 0 && lies_in (g, &in, br__along (g, a, t, d), n))
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

/* V, which lies strictly between the ends of S.  */
static void
cut_circle (cuts *c, br__pad *g, const br__strip *s, br__point v)
{
  int order = 1;
  size_t i = c->count;
  if (i == CUTS)
    return;
  while (i > 0 && (order = angle_order (g, s->first, v, c->v[i - 1])) < 0)
    i--;
  if (i > 0 && order == 0)
    return;
  memmove (&c->v[i + 1], &c->v[i], (c->count++ - i) * sizeof c->v[0]);
  c->v[i] = v;
}

/* Cuts of the circle of RADIUS around S->centre where the line through A along D meets it.  */
static void
cut_by_line (cuts *c, br__pad *g, const br__strip *s, const br_real *radius, br__point a, br__point d)
{
  const br_real *t[2];
  br__point o = br__minus (g, a, s->centre);
  size_t count = br__line_circle (t, g, o, d, radius);
  for (size_t i = 0; i < count; i++)
    {
      br__point v = br__along (g, o, t[i], d);
      if (br__strip_faces (g, s, v) > 0)
        cut_circle (c, g, s, v);
    }
}

br__point
br__radical_foot (br__pad *g, br__point p, const br_real *radius, br__point w, const br_real *t)
{
  const br_real *rr = br__mul (g, radius, radius), *dd = br__dot (g, w, w);
  const br_real *x = br__half (g, br__add (g, dd, br__sub (g, rr, br__mul (g, t, t))));
  return br__along (g, p, br__div (g, x, dd), w);
}

br__point
br__direction_between (br__pad *g, br__point a, br__point b, int narrow)
{
  br__point until = narrow ? b : br__left_of (g, a);
  br__point m = { br__add (g, a.x, until.x), br__add (g, a.y, until.y) };
  int left = br__sign_of (g, m.x) < 0;
  if (left)
    m = br__opposite (g, m);
  const br_real *t = br__div (g, m.y, br__add (g, m.x, br__length_of (g, m)));
  for (unsigned bits = 8; g->status == BR_OK; bits *= 2)
    {
      const br_real *r = br__pad_rounded (g, t, bits), *rr = br__mul (g, r, r), *one = br__pad_int (g, 1);
      const br_real *whole = br__add (g, one, rr);
      br__point u = { br__div (g, br__sub (g, one, rr), whole), br__div (g, br__add (g, r, r), whole) };
      if (left)
        u = br__opposite (g, u);
      if (br__sign_of (g, br__cross (g, a, u)) > 0 && br__sign_of (g, br__cross (g, u, until)) > 0)
        return u;
    }
  return m;
}

/* 1 if the edge of S on its inner or outer circle goes into Q.  */
static int
circle_enters (br__pad *g, const br__strip *s, int outer, const br__area *q)
{
  const br_real *r = outer ? s->outer : s->inner;
  cuts c = { .count = 0 };
  for (size_t i = 0; !q->strip && i < q->hull->count; i++)
    cut_by_line (&c, g, s, r, q->hull->corner[i],
                 br__minus (g, q->hull->corner[(i + 1) % q->hull->count], q->hull->corner[i]));
  for (int i = 0; q->strip && i < 2; i++)
    {
      br__point w = br__minus (g, q->strip->centre, s->centre);
      br__point foot = br__radical_foot (g, s->centre, r, w, i ? q->strip->outer : q->strip->inner);
      cut_by_line (&c, g, s, r, foot, br__left_of (g, w));
      if (!q->strip->whole && !(i && q->strip->straight))
        cut_by_line (&c, g, s, r, q->strip->centre, i ? q->strip->last : q->strip->first);
    }
  for (size_t i = 0; i <= c.count && g->status == BR_OK; i++)
    {
      br__point a = i > 0 ? c.v[i - 1] : s->first, b = i < c.count ? c.v[i] : s->last;
      int narrow = c.count == 0 ? s->narrow
                                : br__sign_of (g, br__cross (g, a, b)) > 0 && br__sign_of (g, br__dot (g, a, b)) > 0;
      br__point u = br__direction_between (g, a, b, narrow);
      if (lies_in (g, q, br__along (g, s->centre, r, u), outer ? br__opposite (g, u) : u))
        return 1;
    }
  return 0;
}

int
br__strip_enters (br__pad *g, const br__strip *s, const br__area *q)
{
  int enters = circle_enters (g, s, 0, q) || circle_enters (g, s, 1, q);
  if (s->thin && q->strip && q->strip->thin)
    {
      br__point w = br__minus (g, q->strip->centre, s->centre);
      return crosses_curve (g, s, br__radical_foot (g, s->centre, s->outer, w, q->strip->outer), br__left_of (g, w), q->strip);
    }
  for (int i = 0; q->strip && i < 2 && !s->whole && !s->thin && !enters; i++)
    {
      br__point in = i ? br__opposite (g, br__left_of (g, s->last)) : br__left_of (g, s->first);
      enters = br__segment_enters (g, q->strip, s->corner[2 * i], s->corner[2 * i + 1], in, s->angle[i]);
    }
  return enters;
}
