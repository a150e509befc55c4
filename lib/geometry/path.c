/* SPDX-License-Identifier: LGPL-3.0-or-later
   path.c - straight pieces and arcs: which points are on them or inside of them, and where two of them meet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "geometry/path_meet.h"

int
br__arc_faces (br__pad *g, const br__path_piece *a, br__point v)
{
  br__point first = br__minus (g, a->turn > 0 ? a->from : a->to, a->centre);
  br__point last = br__minus (g, a->turn > 0 ? a->to : a->from, a->centre);
  return br__sign_of (g, br__cross (g, first, v)) >= 0 && br__sign_of (g, br__cross (g, v, last)) >= 0;
}

static int
same_point (br__pad *g, br__point p, br__point q)
{
  return br__order_of (g, p.x, q.x) == 0 && br__order_of (g, p.y, q.y) == 0;
}

/* How the point V from its centre lies to the circle of A: below 0 inside, above 0 outside.  */
static int
against_circle (br__pad *g, const br__path_piece *a, br__point v)
{
  return br__order_of (g, br__dot (g, v, v), br__mul (g, a->radius, a->radius));
}

/* ---- Inside or outside ---- */

static int
lies_on (br__pad *g, const br__path_piece *a, br__point p)
{
  if (a->turn)
    {
      br__point v = br__minus (g, p, a->centre);
      return against_circle (g, a, v) == 0 && br__arc_faces (g, a, v);
    }
  br__point d = br__minus (g, a->to, a->from), v = br__minus (g, p, a->from);
  if (br__sign_of (g, br__cross (g, d, v)) != 0)
    return 0;
  const br_real *t = br__dot (g, d, v);
  return br__sign_of (g, t) >= 0 && br__order_of (g, t, br__dot (g, d, d)) <= 0;
}

/* Whether a ray from P, which lies on no piece, to the right crosses what goes from one height to another without
   turning back: a point at its own height counts for above.  */
static int
straddles (br__pad *g, const br_real *y, const br_real *y2, br__point p)
{
  return (br__order_of (g, y, p.y) >= 0) != (br__order_of (g, y2, p.y) >= 0);
}

static int
crosses_straight (br__pad *g, const br__path_piece *a, br__point p)
{
  if (!straddles (g, a->from.y, a->to.y, p))
    return 0;
  int side = br__sign_of (g, br__cross (g, br__minus (g, a->to, a->from), br__minus (g, p, a->from)));
  return br__order_of (g, a->to.y, a->from.y) > 0 ? side > 0 : side < 0;
}

/* A piece of the circle of A between two points of it with neither its top nor its bottom between them.  */
static int
crosses_slope (br__pad *g, const br__path_piece *a, br__point from, br__point to, br__point p)
{
  if (!straddles (g, from.y, to.y, p))
    return 0;
  br__point v = br__minus (g, p, a->centre);
  int outside = against_circle (g, a, v) > 0, x = br__sign_of (g, v.x);
  const br_real *both = br__add (g, from.x, to.x), *twice = br__add (g, a->centre.x, a->centre.x);
  int right = br__order_of (g, both, twice) > 0;
  return right ? x <= 0 || !outside : x < 0 && outside;
}

static int
crosses_arc (br__pad *g, const br__path_piece *a, br__point p)
{
  br__point zero = { br__pad_int (g, 0), a->radius }, from = a->from;
  int count = 0;
  for (int i = 0; i < 2; i++)
    {
      br__point tip = i ? br__opposite (g, zero) : zero;
      br__point at = { br__add (g, a->centre.x, tip.x), br__add (g, a->centre.y, tip.y) };
      if (!br__arc_faces (g, a, tip) || same_point (g, at, a->from) || same_point (g, at, a->to))
        continue;
      count += crosses_slope (g, a, from, at, p);
      from = at;
    }
  return count + crosses_slope (g, a, from, a->to, p);
}

int
br__path_holds (const br__path_piece **on, br__pad *g, const br__path *path, br__point p)
{
  int crossings = 0;
  for (size_t i = 0; i < path->count && g->status == BR_OK; i++)
    {
      const br__path_piece *a = &path->pieces[i];
      if (lies_on (g, a, p))
        {
          *on = a;
          return 0;
        }
      crossings += a->turn ? crosses_arc (g, a, p) : crosses_straight (g, a, p);
    }
  return path->side && crossings % 2 ? 1 : -1;
}

/* ---- Where two meet ---- */

/* P is on the line or the circle of A.  1 if it is on A itself.  */
static int
within (br__pad *g, const br__path_piece *a, br__point p)
{
  if (a->turn)
    return br__arc_faces (g, a, br__minus (g, p, a->centre));
  br__point d = br__minus (g, a->to, a->from), v = br__minus (g, p, a->from);
  const br_real *t = br__dot (g, d, v);
  return br__sign_of (g, t) >= 0 && br__order_of (g, t, br__dot (g, d, d)) <= 0;
}

static void
keep (br__meeting *m, br__pad *g, const br__path_piece *a, const br__path_piece *b, br__point p)
{
  if (within (g, a, p) && within (g, b, p))
    m->at[m->count++] = p;
}

/* Ends of either that lie on the other, of two on one line or one circle.  */
static void
keep_ends (br__meeting *m, br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  const br__point ends[] = { a->from, a->to, b->from, b->to };
  for (int i = 0; i < 4; i++)
    if (within (g, i < 2 ? b : a, ends[i]))
      m->at[m->count++] = ends[i];
}

static void
meet_straight (br__meeting *m, br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  br__point d = br__minus (g, a->to, a->from), e = br__minus (g, b->to, b->from), v = br__minus (g, b->from, a->from);
  const br_real *slant = br__cross (g, d, e);
  if (br__sign_of (g, slant) != 0)
    keep (m, g, a, b, br__along (g, a->from, br__div (g, br__cross (g, v, e), slant), d));
  else if (br__sign_of (g, br__cross (g, v, d)) == 0)
    keep_ends (m, g, a, b);
}

/* The line from A along D and the circle of C.  */
static void
meet_circle (br__meeting *m, br__pad *g, const br__path_piece *a, const br__path_piece *c, br__point from, br__point d)
{
  const br_real *t[2];
  size_t count = br__line_circle (t, g, br__minus (g, from, c->centre), d, c->radius);
  for (size_t i = 0; i < count; i++)
    keep (m, g, a, c, br__along (g, from, t[i], d));
}

static void
meet_arcs (br__meeting *m, br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  br__point w = br__minus (g, b->centre, a->centre);
  if (br__sign_of (g, w.x) == 0 && br__sign_of (g, w.y) == 0)
    {
      if (br__order_of (g, a->radius, b->radius) == 0)
        keep_ends (m, g, a, b);
      return;
    }
  meet_circle (m, g, a, b, br__radical_foot (g, a->centre, a->radius, w, b->radius), br__left_of (g, w));
}

void
br__pieces_meeting (br__meeting *m, br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  m->count = 0;
  if (!br__boxes_touch (g, a, b))
    return;
  if (a->turn && b->turn)
    meet_arcs (m, g, a, b);
  else if (a->turn || b->turn)
    {
      const br__path_piece *line = a->turn ? b : a;
      meet_circle (m, g, line, a->turn ? a : b, line->from, br__minus (g, line->to, line->from));
    }
  else
    meet_straight (m, g, a, b);
}

int
br__pieces_meet (br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  br__meeting m;
  br__pieces_meeting (&m, g, a, b);
  return m.count > 0;
}

/* Of a line through a point of a circle the other point of it, and of two circles with a common point: no root is needed, and the common
   point is not found again.  Two straight ones meet elsewhere where one goes back along the other.  */
int
br__neighbours_meet (br__pad *g, const br__path_piece *a, const br__path_piece *b)
{
  br__point shared = same_point (g, a->to, b->from) ? a->to : a->from, other;
  if (a->turn && b->turn)
    {
      br__point w = br__minus (g, b->centre, a->centre), v = br__minus (g, shared, a->centre);
      const br_real *ww = br__dot (g, w, w);
      if (br__sign_of (g, ww) == 0)
        return 0;               /* halves of one arc */
      br__point foot = br__along (g, a->centre, br__div (g, br__dot (g, v, w), ww), w);
      other = (br__point) { br__sub (g, br__add (g, foot.x, foot.x), shared.x),
                            br__sub (g, br__add (g, foot.y, foot.y), shared.y) };
    }
  else if (!a->turn && !b->turn)
    {
      br__point d = br__minus (g, a->to, a->from), e = br__minus (g, b->to, b->from);
      return br__sign_of (g, br__cross (g, d, e)) == 0 && br__sign_of (g, br__dot (g, d, e)) < 0;
    }
  else
    {
      const br__path_piece *line = a->turn ? b : a, *arc = a->turn ? a : b;
      br__point d = br__minus (g, line->to, line->from), v = br__minus (g, shared, arc->centre);
      const br_real *t = br__div (g, br__dot (g, v, d), br__dot (g, d, d));
      other = br__along (g, shared, br__neg (g, br__add (g, t, t)), d);
    }
  /* An arc and its chord share both of their ends.  */
  if (same_point (g, a->to, b->from) && same_point (g, a->from, b->to) && same_point (g, other, a->from))
    return 0;
  return !same_point (g, other, shared) && within (g, a, other) && within (g, b, other);
}
