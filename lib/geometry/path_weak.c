/* SPDX-License-Identifier: LGPL-3.0-or-later
   path_weak.c - where an outline is hard to saw, or too narrow to hold.

   A neck is between two points of the edge whose distance is a local minimum.  One is the middle of a side, a corner that
   points inward or an arc that bends inward; the other is the foot of the perpendicular on a side, an arc, or a corner that
   points inward.  Corners that point outward are tips, not necks.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "geometry/weak.h"

typedef struct work
{
  br__pad g;
  const br__path *path;
  const br_real *least;
  const br_real *bend, *neck, *grain;   /* so far, or NULL */
} work;

/* A point of the edge, or an arc around it with RADIUS; of pieces FIRST and LAST, which are one or neighbours.  */
typedef struct place
{
  br__point at;
  const br__path_piece *arc;    /* or NULL */
  size_t first, last;
} place;

void
br__weak_clear (br__weak *w)
{
  br_real_clear (&w->bend);
  br_real_clear (&w->neck);
  br_real_clear (&w->grain);
  memset (w, 0, sizeof *w);
}

static int
is_inward (const work *w, const br__path_piece *a)
{
  return a->turn && a->turn != w->path->side;
}

/* The way of A where it ends (BEHIND) or begins.  */
static br__point
way_of (br__pad *g, const br__path_piece *a, int behind)
{
  if (!a->turn)
    return br__minus (g, a->to, a->from);
  br__point way = br__left_of (g, br__minus (g, behind ? a->to : a->from, a->centre));
  return a->turn > 0 ? way : br__opposite (g, way);
}

/* The corner behind piece I goes inward.  */
static int
goes_inward (work *w, size_t i)
{
  const br__path_piece *a = &w->path->pieces[i], *b = &w->path->pieces[(i + 1) % w->path->count];
  return br__sign_of (&w->g, br__cross (&w->g, way_of (&w->g, a, 1), way_of (&w->g, b, 0))) == -w->path->side;
}

/* 1 where the pieces of P and those from FIRST to LAST are the same or neighbours.  */
static int
are_near (const work *w, const place *p, size_t first, size_t last)
{
  const size_t n = w->path->count;
  for (size_t i = 0; i < 2; i++)
    for (size_t k = 0; k < 2; k++)
      {
        size_t a = i ? p->last : p->first, b = k ? last : first, apart = (a + n - b) % n;
        if (apart <= 1 || apart == n - 1)
          return 1;
      }
  return 0;
}

/* From P to Q, which is an arc where TO is; the inside between them is narrow where no more than LEAST.  */
static void
measure (work *w, const place *p, br__point q, const br__path_piece *to)
{
  br__pad *g = &w->g;
  const br__path_piece *on;
  br__point way = br__minus (g, q, p->at);
  const br_real *zero = br__pad_int (g, 0), *whole = br__length_of (g, way), *before = p->arc ? p->arc->radius : zero;
  if (br__sign_of (g, whole) <= 0)
    return;
  /* The place of an arc that is nearest lies between its centre and P, or beyond P where the arc goes outward.  */
  const int outward = to && !is_inward (w, to);
  const br_real *size = outward ? br__sub (g, to->radius, whole) : to ? br__sub (g, whole, to->radius) : whole;
  if (to && !br__arc_faces (g, to, br__opposite (g, way)))
    return;
  if (outward)
    way = br__opposite (g, way);
  size = br__sub (g, size, before);
  if (br__sign_of (g, size) <= 0 || br__order_of (g, size, w->least) >= 0 || (p->arc && !br__arc_faces (g, p->arc, way)))
    return;
  const br_real *middle = br__div (g, br__add (g, before, br__half (g, size)), whole);
  if (br__path_holds (&on, g, w->path, br__along (g, p->at, middle, way)) <= 0)
    return;
  const int level = br__order_of (g, br__abs_of (g, way.x), br__abs_of (g, way.y)) > 0;
  const br_real **kept = level ? &w->grain : &w->neck;
  *kept = *kept ? br__least (g, *kept, size) : size;
}

/* Measures from P to the opposite edge.  */
static void
look_from (work *w, const place *p)
{
  br__pad *g = &w->g;
  for (size_t i = 0; i < w->path->count && g->status == BR_OK; i++)
    {
      const br__path_piece *a = &w->path->pieces[i];
      if (!are_near (w, p, i, i) && a->turn)
        measure (w, p, a->centre, a);
      else if (!are_near (w, p, i, i))
        {
          br__point along = br__minus (g, a->to, a->from);
          const br_real *whole = br__dot (g, along, along), *t = br__dot (g, along, br__minus (g, p->at, a->from));
          if (br__sign_of (g, t) > 0 && br__order_of (g, t, whole) < 0)
            measure (w, p, br__along (g, a->from, br__div (g, t, whole), along), NULL);
        }
      if (!are_near (w, p, i, (i + 1) % w->path->count) && goes_inward (w, i))
        measure (w, p, a->to, NULL);
    }
}

br_status
br__path_weak (br__weak *out, const br__path *path, const br_real *least, unsigned bits)
{
  work w = { .g = { BR_OK, bits, NULL }, .path = path, .least = least };
  br__weak made = { .bends = 0 };
  for (size_t i = 0; i < path->count && w.g.status == BR_OK; i++)
    {
      const br__path_piece *a = &path->pieces[i];
      place p = { .at = a->centre, .arc = a, .first = i, .last = i };
      if (is_inward (&w, a))
        {
          w.bend = w.bend ? br__least (&w.g, w.bend, a->radius) : a->radius;
          look_from (&w, &p);
        }
      p.arc = NULL;
      p.at = (br__point) { br__half (&w.g, br__add (&w.g, a->from.x, a->to.x)), br__half (&w.g, br__add (&w.g, a->from.y, a->to.y)) };
      if (!a->turn)
        look_from (&w, &p);
      p.at = a->to;
      p.last = (i + 1) % path->count;
      if (goes_inward (&w, i))
        look_from (&w, &p);
    }
  const br_real *const found[] = { w.bend, w.neck, w.grain };
  br_real *const sizes[] = { &made.bend, &made.neck, &made.grain };
  br_status status = w.g.status;
  for (int i = 0; i < 3 && status == BR_OK; i++)
    if (found[i])
      status = br_real_set (sizes[i], found[i]);
  br__pad_clear (&w.g);
  made.bends = w.bend != NULL;
  made.necks = w.neck != NULL;
  made.grains = w.grain != NULL;
  if (status != BR_OK)
    {
      br__weak_clear (&made);
      return status;
    }
  br__weak_clear (out);
  *out = made;
  return BR_OK;
}
