/* SPDX-License-Identifier: LGPL-3.0-or-later
   distance.c - the distance of circles, boxes and lines, each a convex outline that is thickened:
   a circle is a point, a line a segment.  Where two outlines are parted, a straight line along a side
   parts them (the separating axis of convex sets, as textbooks of computational geometry
   have it); where they overlap, the shortest push is across one of their sides.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "geometry/geometry.h"

void
br__hull_of (br__hull *h, br__pad *g, const br__figure *f)
{
  const br_real *w = br__half (g, f->a), *v = f->kind == BR__CIRCLE ? w : br__half (g, f->b);
  br__point c = { f->x, f->y };
  memset (h, 0, sizeof *h);
  h->round = br__pad_int (g, 0);
  if (f->kind == BR__CIRCLE)
    {
      h->count = 1;
      h->corner[0] = c;
      h->round = f->a;
    }
  else if (f->kind == BR__LINE)
    {
      h->count = 2;
      h->corner[0] = (br__point) { br__sub (g, f->x, w), br__sub (g, f->y, v) };
      h->corner[1] = (br__point) { br__add (g, f->x, w), br__add (g, f->y, v) };
      h->round = br__half (g, f->c);
    }
  else
    {
      const br_real *left = br__sub (g, f->x, w), *right = br__add (g, f->x, w);
      const br_real *low = br__sub (g, f->y, v), *high = br__add (g, f->y, v);
      h->count = 4;
      h->corner[0] = (br__point) { left, low };
      h->corner[1] = (br__point) { right, low };
      h->corner[2] = (br__point) { right, high };
      h->corner[3] = (br__point) { left, high };
    }
}

/* How far the corners of Q lie beyond A in the direction of D, the nearest of them, times the length
   of D.  */
static const br_real *
beyond (br__pad *g, br__point a, br__point d, const br__hull *q)
{
  const br_real *nearest = NULL;
  for (size_t i = 0; i < q->count; i++)
    {
      const br_real *t = br__dot (g, br__minus (g, q->corner[i], a), d);
      nearest = nearest ? br__least (g, nearest, t) : t;
    }
  return nearest;
}

/* The largest gap between P and Q across a side of P (and at the ends of a segment); NULL where P is a
   point.  */
static const br_real *
widest_gap (br__pad *g, const br__hull *p, const br__hull *q)
{
  const br_real *widest = NULL;
  for (size_t i = 0; i < p->count && p->count > 1; i++)
    {
      br__point a = p->corner[i], d = br__minus (g, p->corner[(i + 1) % p->count], a);
      br__point across = { d.y, br__neg (g, d.x) }, back = { br__neg (g, d.x), br__neg (g, d.y) };
      const br_real *length = br__length_of (g, d);
      const br_real *gap = br__div (g, beyond (g, a, across, q), length);
      widest = widest ? br__most (g, widest, gap) : gap;
      if (p->count == 2)
        widest = br__most (g, widest, br__div (g, beyond (g, a, back, q), length));
    }
  return widest;
}

/* From the nearest corner of P to a side of Q.  */
static const br_real *
corners_to_sides (br__pad *g, const br__hull *p, const br__hull *q)
{
  const br_real *nearest = NULL;
  for (size_t i = 0; i < p->count; i++)
    for (size_t k = 0; k < (q->count == 2 ? 1 : q->count); k++)
      {
        br__point b = q->corner[(k + 1) % q->count];
        const br_real *d = q->count == 1 ? br__length_of (g, br__minus (g, p->corner[i], q->corner[k]))
                                         : br__point_to_segment (g, p->corner[i], q->corner[k], b);
        nearest = nearest ? br__least (g, nearest, d) : d;
      }
  return nearest;
}

const br_real *
br__hull_distance (br__pad *g, const br__hull *p, const br__hull *q)
{
  const br_real *a = widest_gap (g, p, q), *b = widest_gap (g, q, p);
  const br_real *gap = a && b ? br__most (g, a, b) : a ? a : b;
  if (!gap || br__sign_of (g, gap) > 0)
    gap = br__least (g, corners_to_sides (g, p, q), corners_to_sides (g, q, p));
  return br__sub (g, br__sub (g, gap, p->round), q->round);
}

br_status
br__figure_distance (br_real *z, const br__figure *p, const br__figure *q, unsigned bits)
{
  br__pad g = { BR_OK, bits, NULL };
  const br_real *d;
  if (p->kind == BR__ARC)
    d = br__arc_distance (&g, p, q);
  else if (q->kind == BR__ARC)
    d = br__arc_distance (&g, q, p);
  else
    {
      br__hull h, i;
      br__hull_of (&h, &g, p);
      br__hull_of (&i, &g, q);
      d = br__hull_distance (&g, &h, &i);
    }
  return br__pad_end (z, d, &g);
}
