/* SPDX-License-Identifier: LGPL-3.0-or-later
   path_distance.c - how far two shapes are apart, as paths; where they overlap, how far one has to be pushed to be
   free.

   Of two edges that do not cross, the nearest points are a corner of the one and anything of the other, a foot of the
   centre of an arc on a straight piece, or lie on the line of the centres of two arcs.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "geometry/path_meet.h"

/* The nearer of two, NULL is none.  */
static const br_real *
nearer (br__pad *g, const br_real *x, const br_real *y)
{
  return !x ? y : !y ? x : br__least (g, x, y);
}

/* P to the nearest point of A, NULL where that is an end of it.  */
static const br_real *
to_inside (br__pad *g, br__point p, const br__path_piece *a)
{
  if (a->turn)
    {
      br__point v = br__minus (g, p, a->centre);
      return br__arc_faces (g, a, v) ? br__abs_of (g, br__sub (g, br__length_of (g, v), a->radius)) : NULL;
    }
  br__point d = br__minus (g, a->to, a->from), v = br__minus (g, p, a->from);
  const br_real *t = br__dot (g, v, d);
  if (br__sign_of (g, t) <= 0 || br__order_of (g, t, br__dot (g, d, d)) >= 0)
    return NULL;
  return br__div (g, br__abs_of (g, br__cross (g, d, v)), br__length_of (g, d));
}

/* From the foot of the centre of ARC on LINE, NULL where that is none of its points.  */
static const br_real *
line_to_arc (br__pad *g, const br__path_piece *line, const br__path_piece *arc)
{
  br__point d = br__minus (g, line->to, line->from), v = br__minus (g, arc->centre, line->from);
  const br_real *t = br__dot (g, v, d), *dd = br__dot (g, d, d);
  if (br__sign_of (g, t) < 0 || br__order_of (g, t, dd) > 0)
    return NULL;
  br__point foot = br__minus (g, br__along (g, line->from, br__div (g, t, dd), d), arc->centre);
  if (!br__arc_faces (g, arc, foot))
    return NULL;
  return br__abs_of (g, br__sub (g, br__length_of (g, foot), arc->radius));
}

/* Both on the line of their centres.  */
static const br_real *
arc_to_arc (br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  br__point w = br__minus (g, b->centre, a->centre), back = br__opposite (g, w);
  const br_real *d = br__length_of (g, w), *nearest = NULL;
  if (br__sign_of (g, d) == 0)
    return NULL;
  for (int i = 0; i < 4; i++)
    if (br__arc_faces (g, a, i & 1 ? back : w) && br__arc_faces (g, b, i & 2 ? back : w))
      {
        const br_real *x = br__add (g, d, i & 2 ? br__neg (g, b->radius) : b->radius);
        x = br__sub (g, x, i & 1 ? br__neg (g, a->radius) : a->radius);
        nearest = nearer (g, nearest, br__abs_of (g, x));
      }
  return nearest;
}

/* If the centres are equal, the distance of arcs in the same direction is the difference of their radii; it is found from
   an end of one of them, so nothing is needed here.  */
static const br_real *
between (br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  if (a->turn && b->turn)
    return arc_to_arc (g, a, b);
  return a->turn ? line_to_arc (g, b, a) : b->turn ? line_to_arc (g, a, b) : NULL;
}

/* The squares of distances of corners are compared, as these are fractions where the corners are.  */
static const br_real *
corners_apart (br__pad *g, const br__path *p, const br__path *q)
{
  const br_real *least = NULL;
  for (size_t i = 0; i < 2 * p->count; i++)
    for (size_t k = 0; k < 2 * q->count; k++)
      {
        /* The end of a piece is the beginning of the next, but for a curve with ends.  */
        if ((i % 2 && p->side) || (k % 2 && q->side))
          continue;
        const br__path_piece *a = &p->pieces[i / 2], *b = &q->pieces[k / 2];
        br__point d = br__minus (g, i % 2 ? a->to : a->from, k % 2 ? b->to : b->from);
        least = nearer (g, least, br__dot (g, d, d));
      }
  return br__root (g, least);
}

static const br_real *
edges_apart (br__pad *g, const br__path *p, const br__path *q)
{
  const br_real *nearest = corners_apart (g, p, q);
  for (size_t i = 0; i < p->count; i++)
    for (size_t k = 0; k < q->count && g->status == BR_OK; k++)
      {
        const br__path_piece *a = &p->pieces[i], *b = &q->pieces[k];
        nearest = nearer (g, nearest, between (g, a, b));
        nearest = nearer (g, nearest, to_inside (g, a->from, b));
        nearest = nearer (g, nearest, to_inside (g, b->from, a));
        if (!p->side)
          nearest = nearer (g, nearest, to_inside (g, a->to, b));
        if (!q->side)
          nearest = nearer (g, nearest, to_inside (g, b->to, a));
      }
  return nearest;
}

/* ---- The push that frees two which overlap ---- */

/* How far P reaches along N, times the length of N.  */
static const br_real *
reach (br__pad *g, const br__path *p, br__point n, const br_real *length)
{
  const br_real *far = NULL;
  for (size_t i = 0; i < p->count; i++)
    {
      const br__path_piece *a = &p->pieces[i];
      const br_real *d = br__dot (g, a->from, n);
      far = far ? br__most (g, far, d) : d;
      if (!p->side)
        far = br__most (g, far, br__dot (g, a->to, n));
      if (a->turn && br__arc_faces (g, a, n))
        far = br__most (g, far, br__add (g, br__dot (g, a->centre, n), br__mul (g, a->radius, length)));
    }
  return far;
}

/* Less the push along N, or against it, that frees them; BEST or more.  */
static const br_real *
push (br__pad *g, const br__path *p, const br__path *q, br__point n, const br_real *best)
{
  const br_real *length = br__length_of (g, n);
  if (g->status != BR_OK || br__sign_of (g, length) == 0)
    return best;
  br__point back = br__opposite (g, n);
  const br_real *d = br__add (g, reach (g, p, n, length), reach (g, q, back, length));
  const br_real *e = br__add (g, reach (g, p, back, length), reach (g, q, n, length));
  d = br__neg (g, br__div (g, br__least (g, d, e), length));
  return best ? br__most (g, best, d) : d;
}

/* The mean of the corners.  */
static br__point
middle_of (br__pad *g, const br__path *p)
{
  br__point sum = { br__pad_int (g, 0), br__pad_int (g, 0) };
  const br_real *count = br__pad_int (g, (int64_t) p->count);
  for (size_t i = 0; i < p->count; i++)
    sum = (br__point) { br__add (g, sum.x, p->pieces[i].from.x), br__add (g, sum.y, p->pieces[i].from.y) };
  return (br__point) { br__div (g, sum.x, count), br__div (g, sum.y, count) };
}

static int
bulges (const br__path *p, const br__path_piece *a)
{
  return a->turn * p->side > 0;
}

/* Along the lines from the corners and centres of P to the centre of each arc of Q that bulges that way: as a disc leaves
   a corner, or another disc.  */
static const br_real *
push_corners (br__pad *g, const br__path *p, const br__path *q, const br_real *best)
{
  for (size_t k = 0; k < q->count; k++)
    for (size_t i = 0; i < p->count && bulges (q, &q->pieces[k]) && g->status == BR_OK; i++)
      {
        const br__path_piece *a = &q->pieces[k], *b = &p->pieces[i];
        const br__point ends[] = { b->from, b->to, b->centre };
        for (int end = 0; end < 3; end++)
          {
            if (end == 1 ? p->side != 0 : end == 2 && !bulges (p, b))
              continue;
            br__point n = br__minus (g, ends[end], a->centre);
            if (br__arc_faces (g, a, n) && (end < 2 || br__arc_faces (g, b, br__opposite (g, n))))
              best = push (g, p, q, n, best);
          }
      }
  return best;
}

static const br_real *
push_free (br__pad *g, const br__path *p, const br__path *q)
{
  br__point up = { br__pad_int (g, 0), br__pad_int (g, 1) }, right = { up.y, up.x };
  const br_real *best = push (g, p, q, up, NULL);
  best = push (g, p, q, right, best);
  best = push (g, p, q, br__minus (g, middle_of (g, q), middle_of (g, p)), best);
  for (int i = 0; i < 2; i++)
    for (size_t k = 0; k < (i ? q : p)->count; k++)
      {
        const br__path_piece *a = &(i ? q : p)->pieces[k];
        if (!a->turn)
          best = push (g, p, q, br__left_of (g, br__minus (g, a->to, a->from)), best);
      }
  best = push_corners (g, p, q, best);
  return push_corners (g, q, p, best);
}

const br_real *
br__path_distance (br__pad *g, const br__path *p, const br__path *q)
{
  return br__paths_overlap (g, p, q) ? push_free (g, p, q) : edges_apart (g, p, q);
}
