/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood_left.c - what holes leave of wood, where they are open at its edge: an edge of either is there where wood is left on one of its sides.

   A hole that goes all through takes the edge of the wood away inside of it.  The edge of any hole is there only where it lies in wood.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>

#include "exact/memory.h"
#include "view/hidden_line.h"
#include "view/wood_left.h"

int
br__drawn_edge (br__closed_edge *e, const br__drawn *d, int64_t left, int64_t top)
{
  br__plot strokes = { .inks = NULL };
  br__drawn_plot (&strokes, d, left, top);
  if (!strokes.failed)
    br__closed_edge_add (e, &strokes.inks[strokes.count - 1]);
  int failed = strokes.failed || e->failed;
  br__plot_clear (&strokes);
  return !failed;
}

/* Adds the edge of D, which belongs to WOOD: that itself, or a hole in it.  */
static void
add_edge (br__wood_left *z, const br__drawn *d, const br__drawn *wood, int hole, int64_t left, int64_t top)
{
  if (z->failed || (z->failed = !br__grow (&z->rows, &z->room, z->count + 1, sizeof *z->rows)))
    return;
  br__left_edge *e = &z->rows[z->count++];
  *e = (br__left_edge) { { NULL, 0, 0, 0 }, d, wood, hole, (double) (left + d->reach.x), (double) (top - d->reach.y2),
                         (double) (left + d->reach.x2), (double) (top - d->reach.y) };
  z->failed = !br__drawn_edge (&e->edge, d, left, top);
}

/* Adds those places of HOLE, which goes all through WOOD, that may meet OWN.  */
static void
add_hole (br__wood_left *z, const br__drawn *hole, const br__drawn *wood, const br__drawn *own, int64_t left, int64_t top)
{
  const br__drawn *d;
  size_t count = br__drawn_figures (&d, hole);
  for (const br__drawn *end = d + count; d < end; d++)
    if (d != own && br__areas_meet (d->reach, own->reach))
      add_edge (z, d, wood, 1, left, top);
}

/* Adds WOOD, or ONE place of it, and what goes all through where OWN is.  */
static void
add_wood (br__wood_left *z, const br__side_view *v, const br__drawn *wood, const br__drawn *one, const br__drawn *own, int64_t left, int64_t top)
{
  size_t count = one ? 1 : br__drawn_figures (&one, wood);
  for (size_t i = 0; i < count; i++)
    add_edge (z, &one[i], wood, 0, left, top);
  for (size_t i = 0; i < v->opening_count; i++)
    {
      const br__opening *o = &v->openings[i];
      if (o->cuts && o->wood == wood && br__opening_shows (o, NULL))
        add_hole (z, o->hole, wood, own, left, top);
    }
}

static int
is_of (const br__drawn *own, const br__drawn *d)
{
  int is = own == d;
  for (size_t i = 0; i < d->copy_count && !is; i++)
    is = own == &d->copies[i];
  return is;
}

void
br__wood_left_in (br__wood_left *z, const br__side_view *v, const br__opening *o, const br__drawn *hole, int64_t left, int64_t top)
{
  add_wood (z, v, o->wood, NULL, hole, left, top);
  add_edge (z, hole, o->wood, 1, left, top);
}

void
br__wood_left_find (br__wood_left *z, const br__side_view *v, const br__drawn *own, int64_t left, int64_t top)
{
  int found = 0;
  for (size_t i = 0; i < v->opening_count && !z->failed; i++)
    {
      const br__opening *o = &v->openings[i];
      if (!o->cuts || !o->wood->open)
        continue;
      if (is_of (own, o->hole))
        br__wood_left_in (z, v, o, own, left, top);
      else if (is_of (own, o->wood) && !found++)
        add_wood (z, v, o->wood, own, own, left, top);
    }
}

void
br__wood_left_alone (br__wood_left *z, const br__opening *o, const br__drawn *hole)
{
  static const br__side_view bare = BR__VIEW_ZERO;
  br__wood_left_in (z, &bare, o, hole, 0, 0);
}

static int
holds (const br__left_edge *e, br__page_point at)
{
  return at.x > e->x && at.x < e->x2 && at.y > e->y && at.y < e->y2 && br__closed_edge_holds (&e->edge, at);
}

int
br__wood_left_at (const br__wood_left *z, br__page_point at)
{
  for (const br__left_edge *w = z->rows; w < z->rows + z->count; w++)
    {
      int there = !w->hole && holds (w, at);
      for (const br__left_edge *h = z->rows; there && h < z->rows + z->count; h++)
        there = !(h->hole && h->wood == w->wood && holds (h, at));
      if (there)
        return 1;
    }
  return 0;
}

int
br__wood_left_near (const br__wood_left *z, br__page_point at, double off)
{
  int near = !z->count;
  off = fmax (off, BR__BESIDE);
  for (int i = 0; i < 4 && !near; i++)
    near = br__wood_left_at (z, (br__page_point) { at.x + (i % 2 ? off : -off), at.y + (i / 2 ? off : -off) });
  return near;
}

int
br__wood_left_cuts (br__wood_left *z, const br__drawn *d)
{
  br__plot p = { .inks = NULL };
  br__drawn_plot (&p, d, 0, 0);
  int cut = !p.failed && !z->failed && br__cut_away (&p, z, d);
  z->failed |= p.failed;
  br__plot_clear (&p);
  return cut;
}

void
br__wood_left_clear (br__wood_left *z)
{
  for (size_t i = 0; i < z->count; i++)
    br__free (z->rows[i].edge.rows);
  br__free (z->rows);
}
