/* SPDX-License-Identifier: LGPL-3.0-or-later
   closed_edge.c - what lies inside an edge: a ray to the right crosses it an odd number of times.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>

#include "exact/memory.h"
#include "view/closed_edge.h"

#define DEGREE 1e9
#define TOUCH 1000.0            /* billionths of an inch: what is no farther off is met in one place */

br__page_point
br__on_arc (const br__path_step *s, double degrees)
{
  double turn = degrees * acos (-1.0) / 180;
  return (br__page_point) { (double) s->x + (double) s->r * cos (turn), (double) s->y - (double) s->r * sin (turn) };
}

br__page_point
br__stroke_at (const br__stroke *k, double t)
{
  if (k->s->type == BR__STEP_ARC)
    return br__on_arc (k->s, ((double) k->s->from + t * (double) (k->s->to - k->s->from)) / DEGREE);
  return (br__page_point) { (double) k->x + t * (double) (k->x2 - k->x), (double) k->y + t * (double) (k->y2 - k->y) };
}

/* ---- The pieces ---- */

static void
put_piece (br__closed_edge *e, br__page_point from, br__page_point to, br__page_point centre, double r)
{
  if (br__grow (&e->rows, &e->room, e->count + 1, sizeof *e->rows))
    e->rows[e->count++] = (br__edge_piece) { from, to, centre, r };
  else
    e->failed = 1;
}

/* The arc S from one turning point of its height to the next; where it ends.  */
static br__page_point
put_arc (br__closed_edge *e, const br__path_step *s)
{
  double at = (double) s->from / DEGREE, end = (double) s->to / DEGREE, way = end < at ? -1 : 1;
  br__page_point from = br__on_arc (s, at), centre = { (double) s->x, (double) s->y };
  while (at != end)
    {
      double next = way < 0 ? 180 * ceil ((at - 90) / 180 - 1) + 90 : 180 * floor ((at - 90) / 180 + 1) + 90;
      next = (end - next) * way < 0 ? end : next;
      br__page_point to = br__on_arc (s, next);
      put_piece (e, from, to, centre, cos ((at + next) * acos (-1.0) / 360) < 0 ? -(double) s->r : (double) s->r);
      from = to;
      at = next;
    }
  return from;
}

void
br__closed_edge_add (br__closed_edge *e, const br__ink *ink)
{
  static const br__page_point none = { 0, 0 };
  br__path_step room[BR__MOST_STEPS];
  size_t count = 0;
  const br__path_step *steps = br__ink_steps (&count, room, ink);
  br__page_point start = none, at = none;
  for (const br__path_step *s = steps; s < steps + count; s++)
    {
      br__page_point next = { (double) s->x, (double) s->y };
      if (s->type == BR__STEP_ARC)
        next = br__on_arc (s, (double) s->from / DEGREE);
      else if (s->type == BR__STEP_CLOSE)
        next = start;
      int begins = s == steps || s->type == BR__STEP_MOVE || (s[-1].type == BR__STEP_CLOSE);
      if (begins)
        start = next;
      else if (at.x != next.x || at.y != next.y)
        put_piece (e, at, next, none, 0);
      at = s->type == BR__STEP_ARC ? put_arc (e, s) : next;
    }
}

int
br__closed_edge_holds (const br__closed_edge *e, br__page_point at)
{
  int inside = 0;
  for (const br__edge_piece *p = e->rows; p < e->rows + e->count; p++)
    {
      double up = at.y - p->centre.y;
      if ((p->from.y > at.y) == (p->to.y > at.y))
        continue;
      if (p->r != 0)
        inside ^= at.x < p->centre.x + (p->r < 0 ? -1 : 1) * sqrt (fmax (0, p->r * p->r - up * up));
      else
        inside ^= at.x < p->from.x + (at.y - p->from.y) / (p->to.y - p->from.y) * (p->to.x - p->from.x);
    }
  return inside;
}

/* ---- Where strokes meet it ---- */

/* The straight line through A and B.  */
static int
line_meets_line (double t[2], const br__stroke *k, br__page_point a, br__page_point b)
{
  double dx = (double) (k->x2 - k->x), dy = (double) (k->y2 - k->y), ex = b.x - a.x, ey = b.y - a.y, cross = dx * ey - dy * ex;
  if (cross == 0)
    return 0;
  t[0] = ((a.x - (double) k->x) * ey - (a.y - (double) k->y) * ex) / cross;
  return 1;
}

/* How far along from A toward B, whose distance is 1, the circle of radius R around CENTRE is met.  */
static int
line_meets_circle (double t[2], br__page_point a, br__page_point b, br__page_point centre, double r)
{
  double ex = b.x - a.x, ey = b.y - a.y, fx = a.x - centre.x, fy = a.y - centre.y, square = ex * ex + ey * ey;
  double along = (fx * ex + fy * ey) / square, left = along * along - (fx * fx + fy * fy - r * r) / square;
  /* Of no length it is no number.  */
  if (!(left * square >= -2 * fabs (r) * TOUCH))
    return 0;
  left = sqrt (fmax (0, left));
  t[0] = -along - left;
  t[1] = -along + left;
  return 2;
}

/* The place of the direction X, Y from the centre of the arc K, behind its beginning.  */
static double
place_on_arc (const br__stroke *k, double x, double y)
{
  double from = (double) k->s->from / DEGREE, turn = (double) (k->s->to - k->s->from) / DEGREE;
  double angle = atan2 (-y, x) * 180 / acos (-1.0) - from;
  angle -= 360 * floor (angle / 360);
  return (turn < 0 && angle > 0 ? angle - 360 : angle) / turn;
}

static int
arc_meets_line (double t[2], const br__stroke *k, br__page_point a, br__page_point b)
{
  br__page_point centre = { (double) k->s->x, (double) k->s->y };
  int n = line_meets_circle (t, a, b, centre, (double) k->s->r);
  for (int i = 0; i < n; i++)
    t[i] = place_on_arc (k, a.x + t[i] * (b.x - a.x) - centre.x, a.y + t[i] * (b.y - a.y) - centre.y);
  return n;
}

static int
arc_meets_circle (double t[2], const br__stroke *k, br__page_point centre, double r)
{
  double dx = centre.x - (double) k->s->x, dy = centre.y - (double) k->s->y, own = (double) k->s->r, square = dx * dx + dy * dy;
  if (square == 0)
    return 0;
  double along = (square + own * own - r * r) / (2 * square), left = own * own / square - along * along;
  if (left * square < -4 * own * fabs (r) / sqrt (square) * TOUCH)
    return 0;
  left = sqrt (fmax (0, left));
  t[0] = place_on_arc (k, along * dx - left * dy, along * dy + left * dx);
  t[1] = place_on_arc (k, along * dx + left * dy, along * dy - left * dx);
  return 2;
}

int
br__closed_edge_meets (double t[2], const br__closed_edge *e, size_t i, const br__stroke *k)
{
  const br__edge_piece *p = &e->rows[i];
  if (k->s->type == BR__STEP_ARC)
    return p->r != 0 ? arc_meets_circle (t, k, p->centre, p->r) : arc_meets_line (t, k, p->from, p->to);
  if (p->r == 0)
    return line_meets_line (t, k, p->from, p->to);
  br__page_point from = { (double) k->x, (double) k->y }, to = { (double) k->x2, (double) k->y2 };
  return line_meets_circle (t, from, to, p->centre, p->r);
}
