/* SPDX-License-Identifier: LGPL-3.0-or-later
   path_overlap.c - whether two shapes overlap: each piece of the edge of one is cut where it meets the edge of the other,
   and each part of it is tried at one point.  Of two connected areas that overlap, one has a part of its edge inside
   the other, or they have a part in common with both areas on one side of it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "geometry/path_meet.h"

/* ---- Upright rectangles ---- */

static void
widen (br__bounds *b, br__pad *g, br__point p)
{
  b->left = b->left ? br__least (g, b->left, p.x) : p.x;
  b->right = b->right ? br__most (g, b->right, p.x) : p.x;
  b->low = b->low ? br__least (g, b->low, p.y) : p.y;
  b->high = b->high ? br__most (g, b->high, p.y) : p.y;
}

void
br__bounds_of_piece (br__bounds *b, br__pad *g, const br__path_piece *a)
{
  memset (b, 0, sizeof *b);
  widen (b, g, a->from);
  widen (b, g, a->to);
  if (!a->turn)
    return;
  /* Around its circle, and no farther than the tangents of its ends; these are looked at on the sides where the
     circle reaches past the ends, so that a round corner ends where its sides do.  */
  br__point right = { a->radius, br__pad_int (g, 0) };
  for (int i = 0; i < 4; i++)
    {
      br__point v = i % 2 ? br__left_of (g, right) : right;
      v = i / 2 ? br__opposite (g, v) : v;
      if (br__arc_faces (g, a, v))
        widen (b, g, (br__point) { br__add (g, a->centre.x, v.x), br__add (g, a->centre.y, v.y) });
    }
}

static int
apart (br__pad *g, const br__bounds *a, const br__bounds *b, int touching)
{
  return br__order_of (g, a->left, b->right) > -touching || br__order_of (g, b->left, a->right) > -touching
         || br__order_of (g, a->low, b->high) > -touching || br__order_of (g, b->low, a->high) > -touching;
}

int
br__boxes_touch (br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  br__bounds p, q;
  br__bounds_of_piece (&p, g, a);
  br__bounds_of_piece (&q, g, b);
  return !apart (g, &p, &q, 0);
}

static void
path_bounds (br__bounds *b, br__pad *g, const br__path *path)
{
  memset (b, 0, sizeof *b);
  for (size_t i = 0; i < path->count; i++)
    {
      br__bounds p;
      br__bounds_of_piece (&p, g, &path->pieces[i]);
      widen (b, g, (br__point) { p.left, p.low });
      widen (b, g, (br__point) { p.right, p.high });
    }
}

/* ---- Cuts of one piece ---- */

typedef struct cuts
{
  br__point *at;                /* in the order of the piece, its ends first and last */
  size_t count, room;
} cuts;

/* Below 0: P comes before Q on A; 0: they are one point.  */
static int
order_on (br__pad *g, const br__path_piece *a, br__point p, br__point q)
{
  if (a->turn)
    {
      br__point v = br__minus (g, p, a->centre), w = br__minus (g, q, a->centre);
      return -a->turn * br__sign_of (g, br__cross (g, v, w));
    }
  br__point d = br__minus (g, a->to, a->from);
  return br__order_of (g, br__dot (g, p, d), br__dot (g, q, d));
}

static void
cut (cuts *c, br__pad *g, const br__path_piece *a, br__point p)
{
  size_t i = c->count;
  int order = 1;
  while (i > 0 && (order = order_on (g, a, p, c->at[i - 1])) < 0)
    i--;
  if (i > 0 && order == 0)
    return;
  if (!br__grow (&c->at, &c->room, c->count + 1, sizeof *c->at))
    {
      g->status = g->status == BR_OK ? BR_NO_MEMORY : g->status;
      return;
    }
  memmove (&c->at[i + 1], &c->at[i], (c->count++ - i) * sizeof c->at[0]);
  c->at[i] = p;
}

/* A point of A between P and Q, of rational numbers where the ends of A are.  */
static br__point
point_between (br__pad *g, const br__path_piece *a, br__point p, br__point q)
{
  if (a->turn)
    {
      br__point v = br__minus (g, a->turn > 0 ? p : q, a->centre), w = br__minus (g, a->turn > 0 ? q : p, a->centre);
      int narrow = br__sign_of (g, br__dot (g, v, w)) > 0;
      return br__along (g, a->centre, a->radius, br__direction_between (g, v, w, narrow));
    }
  br__point d = br__minus (g, a->to, a->from);
  const br_real *dd = br__dot (g, d, d);
  const br_real *s = br__div (g, br__dot (g, br__minus (g, p, a->from), d), dd);
  const br_real *t = br__div (g, br__dot (g, br__minus (g, q, a->from), d), dd);
  const br_real *m = br__half (g, br__add (g, s, t));
  for (unsigned bits = 8; g->status == BR_OK && !br_real_rational (m); bits *= 2)
    {
      const br_real *r = br__pad_rounded (g, m, bits);
      if (br__order_of (g, s, r) < 0 && br__order_of (g, r, t) < 0)
        m = r;
    }
  return br__along (g, a->from, m, d);
}

/* To the inside of the path, at the point P of its piece A.  */
static br__point
inward (br__pad *g, const br__path *path, const br__path_piece *a, br__point p)
{
  br__point d = a->turn ? br__minus (g, a->turn > 0 ? a->centre : p, a->turn > 0 ? p : a->centre)
                        : br__left_of (g, br__minus (g, a->to, a->from));
  return path->side > 0 ? d : path->side < 0 ? br__opposite (g, d) : (br__point) { br__pad_int (g, 0), br__pad_int (g, 0) };
}

/* 1 if the points next to P in the direction INTO are inside of PATH or, if it is a HOLE, outside of it.  */
static int
lies_there (br__pad *g, const br__path *path, int hole, br__point p, br__point into)
{
  const br__path_piece *on = NULL;
  int in = br__path_holds (&on, g, path, p);
  if (in == 0)
    in = br__sign_of (g, br__dot (g, into, inward (g, path, on, p)));
  return hole ? in < 0 : in > 0;
}

/* The paths that are cut: the first two of PATHS are areas, the others holes.  */
typedef struct cutting
{
  const br__path *paths;
  br__bounds *bounds;
  size_t count;
} cutting;

/* A hole that lies apart counts for nothing.  */
static int
counts (br__pad *g, const cutting *all, size_t k)
{
  return k < 2 || (!apart (g, &all->bounds[k], &all->bounds[0], 1) && !apart (g, &all->bounds[k], &all->bounds[1], 1));
}

/* A is a piece of path K.  1 if next to a part of A there are points that are in both areas and in no hole.  */
static int
enters (br__pad *g, const cutting *all, size_t k, const br__path_piece *a)
{
  cuts c = { NULL, 0, 0 };
  int in = 0;
  cut (&c, g, a, a->from);
  cut (&c, g, a, a->to);
  for (size_t n = 0; n < all->count; n++)
    for (size_t i = 0; n != k && counts (g, all, n) && i < all->paths[n].count && g->status == BR_OK; i++)
      {
        br__meeting m;
        br__pieces_meeting (&m, g, a, &all->paths[n].pieces[i]);
        for (size_t at = 0; at < m.count; at++)
          cut (&c, g, a, m.at[at]);
      }
  for (size_t i = 1; i < c.count && !in && g->status == BR_OK; i++)
    {
      br__point at = point_between (g, a, c.at[i - 1], c.at[i]), into = inward (g, &all->paths[k], a, at);
      into = k < 2 ? into : br__opposite (g, into);
      in = 1;
      for (size_t n = 0; n < all->count && in && g->status == BR_OK; n++)
        in = n == k || !counts (g, all, n) || lies_there (g, &all->paths[n], n > 1, at, into);
    }
  br__free (c.at);
  return in;
}

int
br__paths_share (br__pad *g, const br__path *paths, size_t count)
{
  cutting all = { paths, br__alloc_zero (count, sizeof *all.bounds), count };
  int in = 0;
  if (!all.bounds)
    g->status = g->status == BR_OK ? BR_NO_MEMORY : g->status;
  for (size_t k = 0; k < count && g->status == BR_OK; k++)
    path_bounds (&all.bounds[k], g, &paths[k]);
  int beside = g->status == BR_OK && paths[0].side && paths[1].side && apart (g, &all.bounds[0], &all.bounds[1], 1);
  for (size_t k = 0; k < count && !beside && !in && g->status == BR_OK; k++)
    for (size_t i = 0; counts (g, &all, k) && i < paths[k].count && !in && g->status == BR_OK; i++)
      {
        br__bounds piece;
        br__bounds_of_piece (&piece, g, &paths[k].pieces[i]);
        if ((k == 0 || !apart (g, &piece, &all.bounds[0], 0)) && (k == 1 || !apart (g, &piece, &all.bounds[1], 0)))
          in = enters (g, &all, k, &paths[k].pieces[i]);
      }
  br__free (all.bounds);
  return in && g->status == BR_OK;
}

int
br__paths_overlap (br__pad *g, const br__path *p, const br__path *q)
{
  const br__path both[] = { *p, *q };
  return br__paths_share (g, both, 2);
}
