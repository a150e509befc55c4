/* SPDX-License-Identifier: LGPL-3.0-or-later
   hidden_line.c - which edges of a view lie behind something, and are dashed and thin: hidden lines as ISO 128-3 and ASME Y14.3 have
   them (from memory).  And which are not there, as a hole goes beyond the edge of the wood.

   A shape has one face toward whoever looks, all of it as near in the side view; in the other views each piece of its profile
   is as near as it is high, or as far to the left.  An edge is hidden where another shape covers it and is nearer there.
   Where a stroke changes is layout, in doubles; where the stroke itself lies is not touched.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "view/closed_edge.h"
#include "view/hidden_line.h"
#include "view/wood_left.h"

#define SOFT 24                 /* places of a stroke that are looked at besides those where something crosses it */
#define SHORT 100000.0          /* pieces that no pen draws: where an edge only touches another */
#define NEARER 20000.0          /* of profiles, whose curves are polygons */
#define DEGREE 1e9

typedef br__page_point spot;
typedef br__stroke stroke;

/* ---- What covers a stroke ---- */

struct br__cover
{
  const br__side_view *view;
  const br__drawn *own;
  struct br__before
  {
    const br__drawn *drawn;
    br__closed_edge edge;
    double x, y, x2, y2;        /* around it */
    int always;                 /* the shape itself says so: `behind` */
  } *rows;
  struct br__gap
  {
    size_t of;                  /* of the covers */
    br__closed_edge edge;
  } *gaps;                      /* holes through which what lies behind is seen */
  size_t count, room, gap_count, gap_room;
  br__wood_left wood;           /* around its own edge */
  int64_t left, top;
  const int64_t *bend;          /* of the line across it that is looked at, NULL: its edge */
  int below;                    /* that line lies behind its own shape */
  int uneven;                   /* what is nearer changes along a stroke, too, not where edges cross alone */
  int failed;
};
typedef br__cover cover;

static int
says_behind (const br__side_view *v, const br__drawn *d, const char *name)
{
  const br__shape *s = d->shape;
  for (size_t steps = 0; s && s->behind && steps <= v->count; steps++)
    {
      const br__shape *next = NULL;
      if (strcmp (s->behind, name) == 0)
        return 1;
      for (size_t i = 0; i < v->count && !next; i++)
        if (strcmp (v->shapes[i].shape->name, s->behind) == 0)
          next = v->shapes[i].shape;
      s = next;
    }
  return 0;
}

/* Whether D, not a line without width, could cover a part of C's own shape; NAME is that of the row or mirror it belongs to.  */
static int
may_cover (int *always, const cover *c, const br__drawn *d, const char *name)
{
  const br__drawn *own = c->own;
  int bar = d->shape->kind == BR__LINE && !d->c;
  *always = says_behind (c->view, own, name);
  if (d == own || !d->tied || bar || d->shape->hole || d->hole || d->reach.x >= own->reach.x2 || own->reach.x >= d->reach.x2
      || d->reach.y >= own->reach.y2 || own->reach.y >= d->reach.y2)
    return 0;
  /* What a shape says of itself goes before the depths.  */
  return *always || (d->in_order && own->in_order && !says_behind (c->view, d, own->shape->name) && (d->near > (own->profile && !own->flat ? own->far : own->near)));
}

/* Whether AT lies in a hole of cover I.  */
static int
is_open (const cover *c, size_t i, spot at)
{
  for (const struct br__gap *g = c->gaps; g < c->gaps + c->gap_count; g++)
    if (g->of == i && br__closed_edge_holds (&g->edge, at))
      return 1;
  return 0;
}

static int
is_hidden (const cover *c, spot at)
{
  double u = c->view->upright_profiles ? (double) c->top - at.y : at.x - (double) c->left;
  double own = c->bend ? (double) c->bend[1] : -HUGE_VAL;
  int found = c->bend != NULL;
  for (size_t i = 0; i < c->count; i++)
    {
      const struct br__before *b = &c->rows[i];
      if (at.x <= b->x || at.x >= b->x2 || at.y <= b->y || at.y >= b->y2 || !br__closed_edge_holds (&b->edge, at) || is_open (c, i, at))
        continue;
      if (b->always || !c->own->profile)
        return 1;
      own = found++ ? own : br__near_at (c->own, u);
      /* Nowhere is it nearer than its nearest place.  */
      if ((double) b->drawn->near > own + NEARER && br__near_at (b->drawn, u) > own + NEARER)
        return 1;
    }
  return 0;
}

/* ---- Strokes ---- */

/* What the stroke, which is not SHORT, is at T: hidden where both of its sides are covered.  */
static br__edge_state
state_at (const cover *c, const stroke *k, double t)
{
  spot at = br__stroke_at (k, t), a = br__stroke_at (k, t - 1e-4), b = br__stroke_at (k, t + 1e-4);
  double dx = b.x - a.x, dy = b.y - a.y, length = hypot (dx, dy);
  dx *= BR__BESIDE / length;
  dy *= BR__BESIDE / length;
  const spot sides[] = { { at.x - dy, at.y + dx }, { at.x + dy, at.y - dx } };
  if (c->wood.count && !br__wood_left_at (&c->wood, sides[0]) && !br__wood_left_at (&c->wood, sides[1]))
    return BR__EDGE_GONE;
  return c->count && is_hidden (c, sides[0]) && is_hidden (c, sides[1]) ? BR__EDGE_HIDDEN : BR__EDGE_SEEN;
}

static int
compare (const void *x, const void *y)
{
  double a = *(const double *) x, b = *(const double *) y;
  return (a > b) - (a < b);
}

/* Where the edge E crosses the stroke K, behind the N places of T; the count.  */
static size_t
add_places (double *t, size_t n, size_t room, const br__closed_edge *e, const stroke *k)
{
  for (size_t i = 0; i < e->count && n + 2 < room; i++)
    {
      double at[2];
      int found = br__closed_edge_meets (at, e, i, k);
      for (int m = 0; m < found; m++)
        if (at[m] > 0 && at[m] < 1)
          t[n++] = at[m];
    }
  return n;
}

/* Where edges of what covers, and of holes in that, cross the stroke K, from 0 to 1, and places between; the count.  */
static size_t
places_of (double *t, size_t room, const cover *c, const stroke *k)
{
  size_t n = 0;
  int between = c->uneven ? SOFT : 1;
  for (int i = 0; i <= between; i++)
    t[n++] = (double) i / between;
  for (size_t i = 0; i < c->count; i++)
    n = add_places (t, n, room, &c->rows[i].edge, k);
  for (size_t g = 0; g < c->gap_count; g++)
    n = add_places (t, n, room, &c->gaps[g].edge, k);
  for (size_t i = 0; i < c->wood.count; i++)
    if (br__areas_meet (c->wood.rows[i].of->reach, c->own->reach))
      n = add_places (t, n, room, &c->wood.rows[i].edge, k);
  qsort (t, n, sizeof *t, compare);
  return n;
}

/* The place between LOW, where it is as BEFORE says, and HIGH, where it is not, that it changes at.  */
static double
change_between (const cover *c, const stroke *k, double low, double high, br__edge_state before)
{
  for (int i = 0; i < 40; i++)
    {
      double middle = (low + high) / 2;
      if (state_at (c, k, middle) == before)
        low = middle;
      else
        high = middle;
    }
  return high;
}

/* The strokes that one ink becomes.  */
typedef struct pieces
{
  br__plot *plot;
  const char *name;
  br__path_step steps[BR__MOST_PIECE_STEPS];
  size_t count;
  br__edge_state state;         /* of those that are gathered */
  int64_t x, y;                 /* where they end */
} pieces;

static void
end_piece (pieces *z)
{
  if (z->count > 1 || (z->count == 1 && z->steps[0].type == BR__STEP_ARC))
    {
      br__ink *ink = br__plot_add (z->plot, BR__INK_PATH, z->state ? BR__PEN_THIN : BR__PEN_OUTLINE, z->x, z->y);
      ink->dashed = z->state ? BR__DASHED : BR__SOLID;
      br__ink_path (z->plot, ink, z->steps, z->count);
      br__ink_name (z->plot, ink, z->name);
    }
  z->count = 0;
}

/* The part of K from T to U.  */
static void
put_piece (pieces *z, const stroke *k, double t, double u, br__edge_state state)
{
  if (state != z->state || z->count + 2 > BR__MOST_PIECE_STEPS)
    end_piece (z);
  z->state = state;
  if (state == BR__EDGE_GONE)
    return;
  spot start = br__stroke_at (k, t), end = br__stroke_at (k, u);
  if (k->s->type == BR__STEP_ARC)
    {
      double turn = (double) (k->s->to - k->s->from);
      br__path_step s = *k->s;
      if (z->count && hypot (start.x - (double) z->x, start.y - (double) z->y) > BR__BESIDE)
        end_piece (z);
      s.to = k->s->from + llround (turn * u);
      s.from = k->s->from + llround (turn * t);
      z->steps[z->count++] = s;
      z->x = llround (end.x);
      z->y = llround (end.y);
      return;
    }
  if (!z->count || llround (start.x) != z->x || llround (start.y) != z->y)
    {
      if (z->count && z->steps[z->count - 1].type != BR__STEP_ARC)
        end_piece (z);
      z->steps[z->count] = (br__path_step) { .type = z->count ? BR__STEP_LINE : BR__STEP_MOVE, .x = llround (start.x), .y = llround (start.y) };
      z->count++;
    }
  z->x = llround (end.x);
  z->y = llround (end.y);
  z->steps[z->count++] = (br__path_step) { .type = BR__STEP_LINE, .x = z->x, .y = z->y };
}

static double
length_of (const stroke *k)
{
  if (k->s->type == BR__STEP_ARC)
    return (double) k->s->r * fabs ((double) (k->s->to - k->s->from)) / DEGREE * acos (-1.0) / 180;
  return hypot ((double) (k->x2 - k->x), (double) (k->y2 - k->y));
}

/* Where K changes: T gets the places from 0 to 1, STATE what it is behind each; the count of pieces.  */
static size_t
cut_stroke (double *t, br__edge_state *state, const cover *c, const stroke *k)
{
  double places[BR__MOST_PIECE_STEPS];
  size_t n = places_of (places, BR__MOST_PIECE_STEPS, c, k), count = 0;
  double before = 0, length = length_of (k);
  for (size_t i = 0; i + 1 < n && count + 1 < BR__MOST_PIECE_STEPS; i++)
    {
      double middle = (places[i] + places[i + 1]) / 2;
      if ((places[i + 1] - places[i]) * length < SHORT)
        continue;
      br__edge_state now = state_at (c, k, middle);
      if (!count)
        t[count] = 0;
      else if (now != state[count - 1])
        t[count] = c->uneven ? change_between (c, k, before, middle, state[count - 1]) : places[i];
      if (!count || now != state[count - 1])
        state[count++] = now;
      before = middle;
    }
  t[count] = 1;
  return count;
}

/* Puts the pieces of each stroke of INK; *FOUND gets a bit for each state that there is.  */
static void
walk_ink (pieces *z, int *found, const cover *c, const br__ink *ink)
{
  br__path_step room[BR__MOST_STEPS];
  double t[BR__MOST_PIECE_STEPS + 1];
  br__edge_state state[BR__MOST_PIECE_STEPS];
  size_t count = 0;
  const br__path_step *steps = br__ink_steps (&count, room, ink);
  spot start = { 0, 0 }, at = { 0, 0 };
  for (const br__path_step *s = steps; s < steps + count; s++)
    {
      stroke k = { s, llround (at.x), llround (at.y), s->x, s->y };
      spot next = { (double) s->x, (double) s->y };
      if (s->type == BR__STEP_ARC)
        next = br__stroke_at (&k, 0);
      /* The second curve of a ring begins without a line to it.  */
      if (s == steps || s->type == BR__STEP_MOVE || (s->type == BR__STEP_ARC && s[-1].type == BR__STEP_CLOSE))
        start = at = next;
      if (s->type == BR__STEP_MOVE)
        continue;
      /* A line to the beginning of an arc, or back to that of the whole.  */
      br__path_step line = { .type = BR__STEP_LINE };
      stroke bridge = { &line, llround (at.x), llround (at.y), llround (s->type == BR__STEP_CLOSE ? start.x : next.x),
                        llround (s->type == BR__STEP_CLOSE ? start.y : next.y) };
      int joined = s->type == BR__STEP_LINE || hypot ((double) (bridge.x2 - bridge.x), (double) (bridge.y2 - bridge.y)) < BR__BESIDE;
      for (int part = joined; part < 1 + (s->type != BR__STEP_CLOSE); part++)
        {
          const stroke *it = part ? &k : &bridge;
          size_t n = cut_stroke (t, state, c, it);
          for (size_t i = 0; i < n; i++)
            {
              *found |= 1 << state[i];
              put_piece (z, it, t[i], t[i + 1], state[i]);
            }
        }
      at = s->type == BR__STEP_ARC ? br__stroke_at (&k, 1) : s->type == BR__STEP_CLOSE ? start : next;
    }
}

/* ---- All of a view ---- */

/* Adds the holes of D, the last cover, which belongs to WOOD.  */
static void
add_gaps (cover *c, const br__drawn *wood)
{
  const br__side_view *v = c->view;
  for (size_t n = 0; n < v->opening_count; n++)
    {
      const br__opening *o = &v->openings[n];
      if (o->wood != wood || !br__opening_shows (o, c->own))
        continue;
      const br__drawn *hole;
      size_t count = br__drawn_figures (&hole, o->hole);
      for (size_t i = 0; i < count && !c->failed; i++)
        {
          if ((c->failed = !br__grow (&c->gaps, &c->gap_room, c->gap_count + 1, sizeof *c->gaps)))
            return;
          c->gaps[c->gap_count] = (struct br__gap) { c->count - 1, { NULL, 0, 0, 0 } };
          c->failed |= !br__drawn_edge (&c->gaps[c->gap_count++].edge, &hole[i], c->left, c->top);
        }
    }
}

/* Adds D, which belongs to the shape OF, where it may cover a part.  */
static void
add_cover (cover *c, const br__drawn *d, const br__drawn *of)
{
  const br__drawn *own = c->own;
  const br__area *a = &d->reach;
  int always;
  if (c->failed || !may_cover (&always, c, d, of->shape->name))
    return;
  if ((c->failed = !br__grow (&c->rows, &c->room, c->count + 1, sizeof *c->rows)))
    return;
  struct br__before *b = &c->rows[c->count++];
  *b = (struct br__before) { d, { NULL, 0, 0, 0 }, (double) (c->left + a->x), (double) (c->top - a->y2), (double) (c->left + a->x2),
                             (double) (c->top - a->y), always };
  c->failed = !br__drawn_edge (&b->edge, d, c->left, c->top);
  c->uneven |= own->profile && !(own->flat && d->flat);
  add_gaps (c, of);
}

br__cover *
br__cover_open (const br__side_view *v, const br__drawn *d, int64_t left, int64_t top)
{
  cover *c = br__alloc_zero (1, sizeof *c);
  if (!c)
    return NULL;
  c->view = v;
  c->own = d;
  c->left = left;
  c->top = top;
  /* Without depth, and behind nothing, it is seen whole.  */
  for (size_t i = 0; d->tied && (d->in_order || d->shape->behind) && i < v->count; i++)
    {
      const br__drawn *other = &v->shapes[i];
      for (size_t k = 0; k < other->copy_count; k++)
        add_cover (c, &other->copies[k], other);
      if (!other->copies)
        add_cover (c, other, other);
    }
  br__wood_left_find (&c->wood, v, d, left, top);
  if (!c->failed && !c->wood.failed)
    return c;
  br__cover_close (c);
  return NULL;
}

void
br__cover_close (br__cover *c)
{
  if (!c)
    return;
  for (size_t i = 0; i < c->count; i++)
    br__free (c->rows[i].edge.rows);
  for (size_t i = 0; i < c->gap_count; i++)
    br__free (c->gaps[i].edge.rows);
  br__free (c->rows);
  br__free (c->gaps);
  br__wood_left_clear (&c->wood);
  br__free (c);
}

br__edge_state
br__cover_state (const void *of, int64_t x, int64_t y, int64_t off)
{
  const br__cover *c = of;
  double across = (double) (c->left + x), down = (double) (c->top - y);
  int hidden = (c->own->hole && c->own->profile) || c->below;
  if ((c->own->hole && c->own->open) || !br__wood_left_near (&c->wood, (spot) { across, down }, (double) off))
    return BR__EDGE_GONE;
  for (int i = 0; i < 4 && c->count && !hidden; i++)
    if (!is_hidden (c, (spot) { across + (i % 2 ? BR__BESIDE : -BR__BESIDE), down + (i / 2 ? BR__BESIDE : -BR__BESIDE) }))
      return BR__EDGE_SEEN;
  return hidden || c->count ? BR__EDGE_HIDDEN : BR__EDGE_SEEN;
}

/* The ink added last becomes strokes that are seen and such that are hidden, where it is not all of one state; what that is,
   a bit for each.  A hole that misses its wood is shown as it is.  */
static int
split_last (br__plot *p, const cover *c)
{
  int found = 0;
  pieces *z = br__alloc (sizeof *z);
  br__ink whole = p->inks[p->count - 1];
  p->failed |= !z;
  if (!z)
    return 0;
  z->plot = p;
  z->name = whole.text ? whole.text : c->own->shape->name;
  z->count = 0;
  z->state = BR__EDGE_SEEN;
  z->x = z->y = 0;
  const size_t start = --p->count;
  walk_ink (z, &found, c, &whole);
  end_piece (z);
  br__free (z);
  if (found & (found - 1))
    {
      br__free (whole.text);
      br__free (whole.steps);
      return found;
    }
  br__plot_cut (p, start);
  p->inks[p->count++] = whole;
  return found;
}

int
br__cut_away (br__plot *p, const br__wood_left *z, const br__drawn *d)
{
  const cover c = { .own = d, .wood = *z };
  return (split_last (p, &c) & 1 << BR__EDGE_GONE) != 0;
}

/* What is hidden of the ink added last.  */
static void
hide_last (br__plot *p, const cover *c)
{
  int hidden = c->below || (c->own->hole && c->own->profile);
  if (!hidden && (c->count || c->wood.count) && !p->failed)
    hidden = split_last (p, c) == 1 << BR__EDGE_HIDDEN;
  if (hidden && p->count)
    {
      p->inks[p->count - 1].dashed = BR__DASHED;
      p->inks[p->count - 1].pen = BR__PEN_THIN;
    }
}

void
br__cover_bend (br__cover *c, size_t i, int64_t *x, int64_t *y, int64_t *x2, int64_t *y2)
{
  const br__area *a = &c->own->reach;
  c->bend = &c->own->bends[2 * i];
  c->below = br__near_at (c->own, (double) c->bend[0]) > (double) c->bend[1] + NEARER;
  *x = c->view->upright_profiles ? a->x : c->bend[0];
  *x2 = c->view->upright_profiles ? a->x2 : c->bend[0];
  *y = c->view->upright_profiles ? c->bend[0] : a->y;
  *y2 = c->view->upright_profiles ? c->bend[0] : a->y2;
}

void
br__hide_lines (br__plot *p, const br__side_view *v, const br__drawn *d, int64_t left, int64_t top)
{
  cover *c = br__cover_open (v, d, left, top);
  p->failed |= !c;
  if (c && d->hole && d->open)
    br__plot_cut (p, p->count - 1);
  else if (c)
    hide_last (p, c);
  for (size_t i = 0; c && i < d->bend_count; i++)
    {
      int64_t x, y, x2, y2;
      br__cover_bend (c, i, &x, &y, &x2, &y2);
      br__ink *ink = br__plot_add (p, BR__INK_LINE, BR__PEN_OUTLINE, left + x, top - y);
      ink->x2 = left + x2;
      ink->y2 = top - y2;
      br__ink_name (p, ink, d->shape->name);
      hide_last (p, c);
    }
  br__cover_close (c);
}
