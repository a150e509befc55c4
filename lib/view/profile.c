/* SPDX-License-Identifier: LGPL-3.0-or-later
   profile.c - how near the shapes of a view from above or from the front are: each piece of the edge that the side shows is as near as it is
   high, or as far to the left.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>
#include <stdlib.h>

#include "exact/memory.h"
#include "shape/annotation.h"
#include "shape/depth.h"
#include "view/closed_edge.h"
#include "view/hidden_line.h"
#include "view/wood_left.h"

#define PROFILE_CHORDS 64       /* of a whole circle that is seen from its edge */
#define DEGREE 1e9
#define BLOCK 64                /* places of a profile that are looked at as one */

/* ---- Profiles ---- */

typedef br__page_point spot;

typedef struct polygon
{
  spot *rows;
  size_t count, room;
  int failed;
} polygon;

static void
put_spot (polygon *p, double x, double y)
{
  if (br__grow (&p->rows, &p->room, p->count + 1, sizeof *p->rows))
    p->rows[p->count++] = (spot) { x, y };
  else
    p->failed = 1;
}

/* The edge of INK.  */
static void
polygon_of (polygon *p, const br__ink *ink)
{
  br__path_step room[BR__MOST_STEPS];
  size_t count = 0;
  const br__path_step *steps = br__ink_steps (&count, room, ink);
  const size_t first = p->count;
  for (const br__path_step *s = steps; s < steps + count; s++)
    if (s->type == BR__STEP_ARC)
      {
        double from = (double) s->from / DEGREE, turn = (double) s->to / DEGREE - from;
        int chords = (int) ceil (fabs (turn) / 360 * PROFILE_CHORDS) + (turn == 0);
        for (int i = 0; i <= chords; i++)
          {
            spot at = br__on_arc (s, from + turn * i / chords);
            put_spot (p, at.x, at.y);
          }
      }
    else if (s->type != BR__STEP_CLOSE)
      put_spot (p, (double) s->x, (double) s->y);
    else if (p->count > first)
      put_spot (p, p->rows[first].x, p->rows[first].y);
}

/* ---- How near a shape is ---- */

/* P holds the edge of WOOD, of SIDE: it becomes what holes leave of it, and their walls.  */
static int
cut_edge (br__plot *p, const br__side_view *side, const br__drawn *wood)
{
  br__wood_left z = { NULL, 0, 0, 0 };
  br__wood_left_find (&z, side, wood, 0, 0);
  int cut = z.count && br__cut_away (p, &z, wood);
  for (size_t i = 0; i < z.count && !p->failed && !z.failed; i++)
    {
      size_t before = p->count;
      if (!z.rows[i].hole)
        continue;
      br__drawn_plot (p, z.rows[i].of, 0, 0);
      if (br__cut_away (p, &z, z.rows[i].of))
        cut = 1;
      else
        br__plot_cut (p, before);
    }
  p->failed |= z.failed;
  br__wood_left_clear (&z);
  return cut;
}

/* Whether HOLE, the shape D of SIDE or a place of it, goes beyond the edge of the wood IN, NULL: of any, and all through.  */
static int
is_open (const br__side_view *side, const br__drawn *d, const br__drawn *hole, const br__shape *in)
{
  int open = 0;
  for (size_t i = 0; i < side->opening_count && !open; i++)
    {
      const br__opening *o = &side->openings[i];
      br__wood_left z = { NULL, 0, 0, 0 };
      if (o->hole != d || !o->cuts || !o->wood->open || (in && o->wood->shape != in) || !br__opening_shows (o, NULL))
        continue;
      br__wood_left_in (&z, side, o, hole, 0, 0);
      open = br__wood_left_cuts (&z, hole);
      br__wood_left_clear (&z);
    }
  return open;
}

/* Along the view, then how near: up on the page is down in its numbers.  */
static int
take_profile (br__drawn *d, const polygon *profile, int above)
{
  int any = 0;
  d->profile = br__alloc_zero (2 * profile->count, sizeof *d->profile);
  d->profile_count = d->profile ? profile->count : 0;
  for (size_t k = 0; k < d->profile_count; k++)
    {
      const spot *at = &profile->rows[k];
      int64_t *z = &d->profile[2 * k];
      z[0] = z[1] = BR__NO_PROFILE;
      if (at->x == HUGE_VAL)
        continue;
      z[0] = llround (above ? at->x : -at->y);
      z[1] = llround (above ? -at->y : -at->x);
      d->near = !any || z[1] > d->near ? z[1] : d->near;
      d->far = !any || z[1] < d->far ? z[1] : d->far;
      any = 1;
    }
  return d->profile != NULL;
}

/* The piece of D's profile that ends at place I as a BLOCK of its own; 0: there is none.  */
static int
piece_at (br__profile_block *b, const br__drawn *d, size_t i)
{
  const int64_t *to = &d->profile[2 * i], *from = &d->profile[2 * (i ? i - 1 : d->profile_count - 1)];
  *b = (br__profile_block) { to[0] < from[0] ? to[0] : from[0], to[0] > from[0] ? to[0] : from[0], to[1] > from[1] ? to[1] : from[1] };
  return to[0] != BR__NO_PROFILE && from[0] != BR__NO_PROFILE;
}

/* So that a long profile is not gone through for each place that is asked about.  */
static int
make_blocks (br__drawn *d)
{
  d->blocks = br__alloc_zero (d->profile_count / BLOCK + 1, sizeof *d->blocks);
  for (size_t i = 0; d->blocks && i < d->profile_count; i++)
    {
      br__profile_block piece, *b = &d->blocks[i / BLOCK];
      if (i % BLOCK == 0)
        *b = (br__profile_block) { INT64_MAX, INT64_MIN, INT64_MIN };
      if (!piece_at (&piece, d, i))
        continue;
      b->low = piece.low < b->low ? piece.low : b->low;
      b->high = piece.high > b->high ? piece.high : b->high;
      b->near = piece.near > b->near ? piece.near : b->near;
    }
  return d->blocks != NULL;
}

/* How near D is, that stands for FROM, a shape of SIDE or a place of SHAPE there; a hole IN wood, or NULL.  */
static br_status
order_one (br__drawn *d, const br__side_view *side, const br__drawn *shape, const br__drawn *from, const br__shape *in, int above)
{
  br__plot p = { .inks = NULL };
  polygon profile = { NULL, 0, 0, 0 };
  int cut = 0;
  d->in_order = 1;
  d->hole = from->shape->hole;
  br__drawn_plot (&p, from, 0, 0);
  if (d->hole)
    d->open = is_open (side, shape, from, in);
  else if (!p.failed)
    cut = cut_edge (&p, side, from);
  d->flat = from->shape->kind == BR__BOX && !cut;
  for (size_t i = 0; i < p.count && !p.failed; i++)
    {
      polygon_of (&profile, &p.inks[i]);
      /* Between two pieces of an edge.  */
      if (cut)
        put_spot (&profile, HUGE_VAL, HUGE_VAL);
    }
  int made = !p.failed && !profile.failed && take_profile (d, &profile, above) && make_blocks (d) && br__bends_find (d, p.inks, p.count, above);
  br__free (profile.rows);
  br__plot_clear (&p);
  return made ? BR_OK : BR_NO_MEMORY;
}

br_status
br__order_seen (br__side_view *v, const br__seen *z, const br_sheet *sheet, const br__side_view *side)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    {
      const br__drawn *shape = side->shapes, *from;
      br__drawn *d = &v->shapes[i];
      while (shape->shape != z->of[i])
        shape++;
      from = shape->copies && z->copy[i] < shape->copy_count ? &shape->copies[z->copy[i]] : shape;
      d->through = !br__depth_source (sheet, z->of[i])->depth;
      d->unmeasured = d->through || br__is_unmeasured (sheet, z->of[i]->name);
      status = order_one (d, side, shape, from, z->in[i], z->from == BR__FROM_ABOVE);
    }
  v->upright_profiles = z->from == BR__FROM_THE_FRONT;
  return status;
}

double
br__near_at (const br__drawn *d, double u)
{
  double best = -HUGE_VAL;
  if (!d->profile || d->flat)
    return (double) d->near;
  for (size_t i = 0; i < d->profile_count; i++)
    {
      const br__profile_block *block = &d->blocks[i / BLOCK];
      if (i % BLOCK == 0 && ((double) block->low > u || (double) block->high < u || (double) block->near <= best))
        {
          i += BLOCK - 1;
          continue;
        }
      br__profile_block piece;
      if (!piece_at (&piece, d, i) || (double) piece.low > u || (double) piece.high < u)
        continue;
      const int64_t *to = &d->profile[2 * i], *from = &d->profile[2 * (i ? i - 1 : d->profile_count - 1)];
      double n = (double) to[1], m = (double) from[1];
      best = fmax (best, to[0] == from[0] ? fmax (n, m) : n + (u - (double) to[0]) / (double) (from[0] - to[0]) * (m - n));
    }
  return best;
}
