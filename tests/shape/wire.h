/* SPDX-License-Identifier: GPL-3.0-or-later
   wire.h - shapes as fine polygons in floating point, a slow twin of what the library does exactly: outlines with rounds, cuts
   and rises that are drawn at random, and the other shapes.  */
#ifndef BR_TESTS_SHAPE_WIRE_H
#define BR_TESTS_SHAPE_WIRE_H

#include <float.h>
#include <math.h>

#include "../sheet/support.h"

#define WIRE_MOST 3000
#define WIRE_ARC 48             /* steps of an arc */
#define WIRE_CORNERS 9

typedef struct wire
{
  double x[WIRE_MOST], y[WIRE_MOST];
  int count, open;
} wire;

typedef struct wire_corner
{
  int x, y;                     /* eighths */
  int round, cut, after, rise;  /* sixteenths, 0: none */
} wire_corner;

typedef struct wire_outline
{
  wire_corner corner[WIRE_CORNERS];
  int count;
} wire_outline;

static const double wire_pi = 3.14159265358979323846;

CHECK_UNUSED static void
wire_put (wire *w, double x, double y)
{
  assert_true (w->count < WIRE_MOST);
  /* An arc begins where something ends.  */
  if (w->count && hypot (x - w->x[w->count - 1], y - w->y[w->count - 1]) < 1e-9)
    return;
  w->x[w->count] = x;
  w->y[w->count++] = y;
}

/* About X Y, anticlockwise.  */
CHECK_UNUSED static void
wire_rotate (wire *w, double x, double y, double degrees)
{
  double c = cos (degrees * wire_pi / 180), s = sin (degrees * wire_pi / 180);
  for (int i = 0; i < w->count; i++)
    {
      double dx = w->x[i] - x, dy = w->y[i] - y;
      w->x[i] = x + dx * c - dy * s;
      w->y[i] = y + dx * s + dy * c;
    }
}

CHECK_UNUSED static void
wire_arc (wire *w, double x, double y, double r, double from, double turn)
{
  for (int i = 0; i <= WIRE_ARC; i++)
    wire_put (w, x + r * cos (from + turn * i / WIRE_ARC), y + r * sin (from + turn * i / WIRE_ARC));
}

/* ---- Outlines ---- */

typedef struct wire_side
{
  double x, y, length;          /* from the corner before */
} wire_side;

CHECK_UNUSED static wire_side
wire_side_of (const wire_outline *o, int i)
{
  const wire_corner *a = &o->corner[(i + o->count - 1) % o->count], *b = &o->corner[i % o->count];
  double x = (b->x - a->x) / 8., y = (b->y - a->y) / 8.;
  return (wire_side) { x, y, hypot (x, y) };
}

/* How far the sides turn at corner I, to the left.  */
CHECK_UNUSED static double
wire_turn (const wire_outline *o, int i)
{
  wire_side in = wire_side_of (o, i), out = wire_side_of (o, i + 1);
  return atan2 (in.x * out.y - in.y * out.x, in.x * out.x + in.y * out.y);
}

/* What is gone of the sides at corner I: T = R tan (D / 2), the tangent length of route surveying (from memory).  */
CHECK_UNUSED static double
wire_taken (const wire_outline *o, int i, int after)
{
  const wire_corner *c = &o->corner[(i + o->count) % o->count];
  if (c->round)
    return c->round / 16. * fabs (tan (wire_turn (o, (i + o->count) % o->count) / 2));
  return (after ? c->after : c->cut) / 16.;
}

/* Twice the area, by the shoelace formula (Braden, The Surveyor's Area Formula, The College Mathematics Journal 17, 1986,
   from memory).  */
CHECK_UNUSED static double
wire_shoelace (const double *x, const double *y, int n)
{
  double sum = 0;
  for (int i = 0; i < n; i++)
    sum += x[i] * y[(i + 1) % n] - x[(i + 1) % n] * y[i];
  return sum;
}

CHECK_UNUSED static int
wire_side_sign (const wire_outline *o)
{
  double x[WIRE_CORNERS], y[WIRE_CORNERS];
  for (int i = 0; i < o->count; i++)
    x[i] = o->corner[i].x / 8., y[i] = o->corner[i].y / 8.;
  return wire_shoelace (x, y, o->count) > 0 ? 1 : -1;
}

/* By published formulas: shoelace for the corners; a round takes r r (tan (D/2) - D/2) off; a cut a triangle; a segment
   of a circle adds r r / 2 (T - sin T) (Machinery's Handbook, areas of plane figures, from memory).  */
CHECK_UNUSED static void
wire_formulas (double *area, double *edge, const wire_outline *o)
{
  double x[WIRE_CORNERS] = { 0 }, y[WIRE_CORNERS] = { 0 };
  int side = wire_side_sign (o);
  for (int i = 0; i < o->count; i++)
    x[i] = o->corner[i].x / 8., y[i] = o->corner[i].y / 8.;
  *area = wire_shoelace (x, y, o->count) / 2 * side;
  *edge = 0;
  for (int i = 0; i < o->count; i++)
    {
      const wire_corner *c = &o->corner[i];
      double d = wire_turn (o, i), r = c->round / 16., h = c->rise / 16., out = d * side > 0 ? 1 : -1;
      double a = wire_taken (o, i, 0), b = wire_taken (o, i, 1), chord = wire_side_of (o, i).length;
      if (c->round)
        {
          *area -= out * r * r * (fabs (tan (d / 2)) - fabs (d) / 2);
          *edge += r * fabs (d);
        }
      else if (c->cut)
        {
          *area -= out * a * b * fabs (sin (d)) / 2;
          *edge += sqrt (a * a + b * b + 2 * a * b * cos (d));
        }
      if (c->rise)
        {
          double radius = (chord * chord / 4 + h * h) / (2 * fabs (h)), t = 2 * asin (chord / 2 / radius);
          *area += (h > 0 ? 1 : -1) * radius * radius / 2 * (t - sin (t));
          *edge += radius * t;
        }
      else
        *edge += chord - a - wire_taken (o, i - 1, 1);
    }
}

CHECK_UNUSED static void
wire_put_rise (wire *w, const wire_outline *o, int i)
{
  const wire_corner *a = &o->corner[(i + o->count - 1) % o->count];
  wire_side s = wire_side_of (o, i);
  double h = o->corner[i].rise / 16. * wire_side_sign (o), r = (s.length * s.length / 4 + h * h) / (2 * h);
  /* To the right of the way by h; the centre lies back from there by r.  */
  double mx = a->x / 8. + s.x / 2, my = a->y / 8. + s.y / 2, ox = s.y / s.length, oy = -s.x / s.length;
  double cx = mx + ox * (h - r), cy = my + oy * (h - r);
  double from = atan2 (a->y / 8. - cy, a->x / 8. - cx), t = 2 * asin (s.length / 2 / fabs (r));
  wire_arc (w, cx, cy, fabs (r), from, h > 0 ? t : -t);
}

CHECK_UNUSED static void
wire_of_outline (wire *w, const wire_outline *o)
{
  w->count = w->open = 0;
  for (int i = 0; i < o->count; i++)
    {
      const wire_corner *c = &o->corner[i];
      wire_side in = wire_side_of (o, i), out = wire_side_of (o, i + 1);
      double x = c->x / 8., y = c->y / 8., a = wire_taken (o, i, 0), b = wire_taken (o, i, 1), r = c->round / 16.;
      double d = wire_turn (o, i), left = d > 0 ? 1 : -1;
      if (c->rise)
        wire_put_rise (w, o, i);
      double ax = x - in.x / in.length * a, ay = y - in.y / in.length * a;
      wire_put (w, ax, ay);
      if (c->round)
        wire_arc (w, ax - left * r * in.y / in.length, ay + left * r * in.x / in.length, r,
                  atan2 (-left * in.x, left * in.y), d);
      wire_put (w, x + out.x / out.length * b, y + out.y / out.length * b);
    }
  while (hypot (w->x[w->count - 1] - w->x[0], w->y[w->count - 1] - w->y[0]) < 1e-9)
    w->count--;
}

CHECK_UNUSED static void
wire_random (wire_outline *o, int most, int rises)
{
  double start = (double) check_below (1000) / 1000 * 2 * wire_pi, turn = check_below (2) ? 1 : -1;
  memset (o, 0, sizeof *o);
  o->count = (int) check_between (3, most);
  for (int i = 0; i < o->count; i++)
    {
      double angle = start + turn * 2 * wire_pi * (i + (double) check_below (600) / 1000) / o->count;
      double r = (double) check_between (16, 64);
      o->corner[i].x = (int) lround (r * cos (angle));
      o->corner[i].y = (int) lround (r * sin (angle));
    }
  for (int i = 0; i < o->count; i++)
    {
      wire_corner *c = &o->corner[i];
      double room = fmin (wire_side_of (o, i).length, wire_side_of (o, i + 1).length) * 7;
      double slope = fabs (tan (wire_turn (o, i) / 2));
      int kind = (int) check_below (4);
      if (kind == 0 && slope > 0.01)
        c->round = (int) fmin (200, floor (room / slope));
      if (kind == 1 && slope > 0.01)
        {
          c->cut = (int) check_between (1, 1 + (int64_t) (room / 2));
          c->after = (int) check_between (1, 1 + (int64_t) (room / 2));
        }
    }
  for (int i = 0; i < o->count && rises; i++)
    {
      wire_corner *c = &o->corner[i], *before = &o->corner[(i + o->count - 1) % o->count];
      int most_rise = (int) (wire_side_of (o, i).length * 16 / 6);
      if (!c->round && !c->cut && !before->round && !before->cut && most_rise && check_below (2))
        c->rise = (int) check_between (1, most_rise) * (check_below (3) ? 1 : -1);
    }
}

/* "outline NAME = ..." moved by X, Y eighths.  */
CHECK_UNUSED static void
wire_statement (FILE *out, const char *name, const wire_outline *o, int x, int y)
{
  fprintf (out, "outline %s = ", name);
  for (int i = 0; i < o->count; i++)
    {
      const wire_corner *c = &o->corner[i];
      fprintf (out, "%s(%d / 8), (%d / 8)", i ? " to " : "", c->x, c->y);
      if (c->round)
        fprintf (out, " round (%d / 16)", c->round);
      else if (c->cut)
        fprintf (out, " cut (%d / 16) x (%d / 16)", c->cut, c->after);
      if (i && c->rise)
        fprintf (out, " rise (%d / 16)", c->rise);
    }
  if (o->corner[0].rise)
    fprintf (out, " to start rise (%d / 16)", o->corner[0].rise);
  fprintf (out, " at (%d / 8), (%d / 8)\n", x, y);
}

/* ---- What polygons tell ---- */

CHECK_UNUSED static void
wire_move (wire *w, double x, double y)
{
  for (int i = 0; i < w->count; i++)
    w->x[i] += x, w->y[i] += y;
}

CHECK_UNUSED static double
wire_to_segment (double x, double y, const wire *w, int i)
{
  int k = (i + 1) % w->count;
  double dx = w->x[k] - w->x[i], dy = w->y[k] - w->y[i], dd = dx * dx + dy * dy;
  double t = dd > 0 ? fmax (0, fmin (1, ((x - w->x[i]) * dx + (y - w->y[i]) * dy) / dd)) : 0;
  return hypot (x - w->x[i] - t * dx, y - w->y[i] - t * dy);
}

CHECK_UNUSED static int
wire_holds (const wire *w, double x, double y)
{
  int in = 0;
  for (int i = 0, k = w->count - 1; i < w->count && !w->open; k = i++)
    if ((w->y[i] > y) != (w->y[k] > y) && x < w->x[i] + (y - w->y[i]) / (w->y[k] - w->y[i]) * (w->x[k] - w->x[i]))
      in = !in;
  return in;
}

CHECK_UNUSED static double
wire_cross (const wire *w, int a, int b, double x, double y)
{
  return (w->x[b] - w->x[a]) * (y - w->y[a]) - (w->y[b] - w->y[a]) * (x - w->x[a]);
}

/* 1 where segment I of V and segment K of W cross.  */
CHECK_UNUSED static int
wire_segments_cross (const wire *v, int i, const wire *w, int k)
{
  int j = (i + 1) % v->count, l = (k + 1) % w->count;
  return (wire_cross (v, i, j, w->x[k], w->y[k]) > 0) != (wire_cross (v, i, j, w->x[l], w->y[l]) > 0)
         && (wire_cross (w, k, l, v->x[i], v->y[i]) > 0) != (wire_cross (w, k, l, v->x[j], v->y[j]) > 0);
}

/* How far the edges are apart, and how deep a point of one lies in the other.  */
CHECK_UNUSED static void
wire_apart (double *apart, double *deep, const wire *v, const wire *w)
{
  *apart = DBL_MAX;
  *deep = 0;
  for (int turn = 0; turn < 2; turn++)
    {
      const wire *p = turn ? w : v, *q = turn ? v : w;
      for (int i = 0; i < p->count; i++)
        {
          double near = DBL_MAX;
          for (int k = 0; k < q->count - q->open; k++)
            {
              near = fmin (near, wire_to_segment (p->x[i], p->y[i], q, k));
              if (!turn && i < p->count - p->open && wire_segments_cross (p, i, q, k))
                *apart = 0;
            }
          *apart = fmin (*apart, near);
          if (near > *deep && wire_holds (q, p->x[i], p->y[i]))
            *deep = near;
        }
    }
}

/* 1 where the edge of W crosses itself.  */
CHECK_UNUSED static int
wire_crosses_itself (const wire *w)
{
  for (int i = 0; i < w->count; i++)
    for (int k = i + 2; k < w->count - (i == 0); k++)
      if (wire_segments_cross (w, i, w, k) && hypot (w->x[i] - w->x[k], w->y[i] - w->y[k]) > 1e-9)
        return 1;
  return 0;
}

/* A shape of KIND (0: an outline) called NAME at random, as a statement and as a polygon.  */
CHECK_UNUSED static void
wire_shape (FILE *out, wire *w, int kind, const char *name)
{
  int x = (int) check_between (-60, 60), y = (int) check_between (-60, 60), a = (int) check_between (4, 40);
  int b = (int) check_between (4, 40), c = (int) check_between (1, 8), degrees = (int) check_between (1, 71) * 5;
  wire_outline o;
  w->count = w->open = 0;
  switch (kind)
    {
    case 0:
      do
        {
          wire_random (&o, 7, check_below (3) == 0);
          wire_of_outline (w, &o);
        }
      while (wire_crosses_itself (w));
      wire_statement (out, name, &o, x, y);
      break;
    case 1:
      fprintf (out, "circle %s = (%d / 4) at (%d / 8), (%d / 8)\n", name, a, x, y);
      wire_arc (w, 0, 0, a / 8., 0, wire_pi);
      wire_arc (w, 0, 0, a / 8., wire_pi, wire_pi);
      break;
    case 2:
      fprintf (out, "box %s = (%d / 8) x (%d / 8) at (%d / 8), (%d / 8)\n", name, a, b, x, y);
      wire_put (w, 0, 0), wire_put (w, a / 8., 0), wire_put (w, a / 8., b / 8.), wire_put (w, 0, b / 8.);
      break;
    case 3:
      fprintf (out, "arc %s = bend((%d / 8), (%d / 8)) %d deg from 0 deg at (%d / 8), (%d / 8)\n", name, a, c, degrees, x, y);
      for (int i = 0; i < 4; i++)
        wire_arc (w, 0, 0, (a + c) / 8., degrees * wire_pi / 180 * i / 4, degrees * wire_pi / 180 / 4);
      for (int i = 4; i > 0; i--)
        wire_arc (w, 0, 0, a / 8., degrees * wire_pi / 180 * i / 4, -degrees * wire_pi / 180 / 4);
      break;
    default:
      fprintf (out, "line %s = (%d / 8), (%d / 8) to (%d / 8), (%d / 8)", name, x, y, x + a, y + b);
      if (kind == 4)
        fprintf (out, " wide (%d / 8)", c);
      fprintf (out, "\n");
      double angle = atan2 (b, a);
      w->open = kind == 5;
      if (kind == 5)
        wire_put (w, 0, 0), wire_put (w, a / 8., b / 8.);
      else
        {
          wire_arc (w, 0, 0, c / 16., angle + wire_pi / 2, wire_pi);
          wire_arc (w, a / 8., b / 8., c / 16., angle - wire_pi / 2, wire_pi);
        }
      break;
    }
  wire_move (w, x / 8., y / 8.);
}

/* The first value of LINE.  */
CHECK_UNUSED static double
value_of (br_sheet *sheet, const char *line)
{
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "%s", line);
  double z = strtod (said_get (&s, 0, "decimal"), NULL);
  said_clear (&s);
  return z;
}

CHECK_UNUSED static void
near_to (double value, double expected, double far, const char *what, const char *text)
{
  if (!(fabs (value - expected) <= far))
    fail_msg ("%s: %.12f, expected %.12f: %s", what, value, expected, text);
}

#endif
