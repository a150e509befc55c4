/* SPDX-License-Identifier: GPL-3.0-or-later
   pairs.c - `clear` of every kind of shape with every other, against fine polygons.  None is refused.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "wire.h"

/* Kinds of wire.h, then what is made here.  A turned one is of the kind that stands as far from TURNED_OUTLINE as that from OUTLINE.  */
enum { OUTLINE, CIRCLE, BOX, ARC, BAR, LINE, ROUNDED, CUT, PLATE, FENDER, ROW, MIRROR, SLOT,
       TURNED_OUTLINE, TURNED_ROUNDED, TURNED_BOX, TURNED_ARC, TURNED_BAR, TURNED_LINE, KINDS };

/* What a shape is made of: edges of one figure, of which the second is a hole in the first; or figures of a row.  */
#define MOST_FIGURES 3

typedef struct figure
{
  wire edge[2];
  int count;
} figure;

typedef struct thing
{
  figure figures[MOST_FIGURES];
  int count;
} thing;

static void
full_circle (wire *w, double x, double y, double r)
{
  w->count = w->open = 0;
  wire_arc (w, x, y, r, 0, wire_pi);
  wire_arc (w, x, y, r, wire_pi, wire_pi);
}

/* A box with all of its corners rounded or cut.  */
static void
put_box (FILE *out, wire *w, const char *name, int rounded)
{
  int x = (int) check_between (-60, 60), y = (int) check_between (-60, 60), a = (int) check_between (8, 40);
  int b = (int) check_between (8, 40), c = (int) check_between (1, 4);
  double r = c / 8.;
  fprintf (out, "box %s = (%d / 8) x (%d / 8) %s (%d / 8) at (%d / 8), (%d / 8)\n", name, a, b, rounded ? "round" : "cut", c, x, y);
  w->count = w->open = 0;
  for (int i = 0; i < 4; i++)
    {
      double at_x = i == 0 || i == 3 ? r : a / 8. - r, at_y = i < 2 ? r : b / 8. - r, from = wire_pi + i * wire_pi / 2;
      if (rounded)
        wire_arc (w, at_x, at_y, r, from, wire_pi / 2);
      else
        {
          wire_put (w, at_x + r * cos (from), at_y + r * sin (from));
          wire_put (w, at_x + r * cos (from + wire_pi / 2), at_y + r * sin (from + wire_pi / 2));
        }
    }
  wire_move (w, x / 8., y / 8.);
}

/* A ring around X, Y.  */
static void
put_plate (FILE *out, figure *f, const char *name)
{
  int x = (int) check_between (-60, 60), y = (int) check_between (-60, 60), a = (int) check_between (8, 60), b = (int) check_between (1, a - 1);
  fprintf (out, "plate %s = (%d / 8) hole (%d / 8) at (%d / 8), (%d / 8)\n", name, a, b, x, y);
  full_circle (&f->edge[0], x / 8., y / 8., a / 16.);
  full_circle (&f->edge[1], x / 8., y / 8., b / 16.);
  f->count = 2;
}

/* Over a wheel of its own, half of the way round.  */
static void
put_fender (FILE *out, wire *w, const char *name)
{
  int x = (int) check_between (-60, 60), y = (int) check_between (-60, 60), a = (int) check_between (8, 40);
  double r = a / 16. + 0.25;
  fprintf (out, "circle wheel_%s = (%d / 8) at (%d / 8), (%d / 8)\narc %s = fender(wheel_%s, 1/4, 1/8) 180 deg\n", name, a, x, y, name, name);
  w->count = w->open = 0;
  wire_arc (w, x / 8., y / 8., r + 0.125, 0, wire_pi / 2);
  wire_arc (w, x / 8., y / 8., r + 0.125, wire_pi / 2, wire_pi / 2);
  wire_arc (w, x / 8., y / 8., r, wire_pi, -wire_pi / 2);
  wire_arc (w, x / 8., y / 8., r, wire_pi / 2, -wire_pi / 2);
}

/* Copies of a shape that is drawn elsewhere.  */
static void
put_copies (FILE *out, thing *t, int kind, const char *name)
{
  int about = (int) check_between (-40, 40), dx = (int) check_between (-40, 40), base = (int) check_below (5);
  char of[20];
  snprintf (of, sizeof of, "base_%s", name);
  wire_shape (out, &t->figures[0].edge[0], base, of);
  if (kind == MIRROR)
    {
      wire *w = &t->figures[0].edge[0];
      fprintf (out, "mirror %s of %s about (%d / 8)\n", name, of, about);
      for (int i = 0; i < w->count; i++)
        w->x[i] = about / 4. - w->x[i];
      return;
    }
  fprintf (out, "row %s of %s qty %d by (%d / 8), 1\n", name, of, MOST_FIGURES, dx);
  t->count = MOST_FIGURES;
  for (int k = 1; k < MOST_FIGURES; k++)
    {
      t->figures[k] = t->figures[0];
      wire_move (&t->figures[k].edge[0], dx * k / 8., k);
    }
}

/* A box and an outline turn about the middle of what they take, an arc about its centre, a line about its middle.  */
static void
put_turned (FILE *out, wire *w, int kind, const char *name)
{
  int degrees = (int) check_between (1, 71) * 5;
  double reach[] = { DBL_MAX, -DBL_MAX, DBL_MAX, -DBL_MAX };
  if (kind == TURNED_ROUNDED)
    put_box (out, w, name, 1);
  else if (kind == TURNED_OUTLINE)
    {
      wire_outline o;
      do
        {
          wire_random (&o, 5, 1);
          wire_of_outline (w, &o);
        }
      while (wire_crosses_itself (w));
      int x = (int) check_between (-60, 60);
      wire_statement (out, name, &o, x, 9);
      wire_move (w, x / 8., 9 / 8.);
    }
  else
    wire_shape (out, w, kind - TURNED_OUTLINE, name);
  for (int i = 0; i < w->count; i++)
    {
      reach[0] = fmin (reach[0], w->x[i]), reach[1] = fmax (reach[1], w->x[i]);
      reach[2] = fmin (reach[2], w->y[i]), reach[3] = fmax (reach[3], w->y[i]);
    }
  double x = (reach[0] + reach[1]) / 2, y = (reach[2] + reach[3]) / 2;
  if (kind == TURNED_ARC)
    {
      /* The centre of its first quarter: by the first point, which lies level with it, and one as far from it.  */
      const double ax = w->x[0], bx = w->x[WIRE_ARC], by = w->y[WIRE_ARC];
      y = w->y[0];
      x = (bx * bx - ax * ax + (by - y) * (by - y)) / (2 * (bx - ax));
    }
  wire_rotate (w, x, y, degrees);
  fprintf (out, "turn %s by %d deg\n", name, degrees);
}

static void
put_thing (FILE *out, thing *t, int kind, const char *name)
{
  wire *w = &t->figures[0].edge[0];
  t->count = t->figures[0].count = 1;
  switch (kind)
    {
    case ROUNDED: case CUT: put_box (out, w, name, kind == ROUNDED); break;
    case PLATE: put_plate (out, &t->figures[0], name); break;
    case FENDER: put_fender (out, w, name); break;
    case ROW: case MIRROR: put_copies (out, t, kind, name); break;
    case TURNED_OUTLINE: case TURNED_ROUNDED: case TURNED_BOX: case TURNED_ARC: case TURNED_BAR: case TURNED_LINE:
      put_turned (out, w, kind, name);
      break;
    case SLOT:
      wire_shape (out, w, BAR, name);
      fseek (out, -1, SEEK_CUR);
      fputs (" hole\n", out);
      break;
    default: wire_shape (out, w, kind, name); break;
    }
}

/* How far the edges of V and W are apart, and how deep a point of one lies in the other.  */
static void
figures_apart (double *apart, double *deep, const figure *v, const figure *w)
{
  for (int a = 0; a < v->count; a++)
    for (int b = 0; b < w->count; b++)
      {
        double near, ignored;
        wire_apart (&near, &ignored, &v->edge[a], &w->edge[b]);
        *apart = fmin (*apart, near);
      }
  for (int turn = 0; turn < 2; turn++)
    {
      const figure *p = turn ? w : v, *q = turn ? v : w;
      for (int a = 0; a < p->count; a++)
        for (int i = 0; i < p->edge[a].count; i++)
          {
            double near = DBL_MAX, x = p->edge[a].x[i], y = p->edge[a].y[i];
            int inside = 0;
            for (int b = 0; b < q->count; b++)
              inside ^= wire_holds (&q->edge[b], x, y);
            for (int b = 0; b < q->count && inside; b++)
              for (int k = 0; k < q->edge[b].count; k++)
                near = fmin (near, wire_to_segment (x, y, &q->edge[b], k));
            *deep = inside ? fmax (*deep, near) : *deep;
          }
    }
}

static void
check_pair (int kind, int other)
{
  static thing p, q;
  char *text = NULL;
  size_t length;
  said s = SAID_ZERO;
  br_sheet *sheet = NULL;
  double apart = DBL_MAX, deep = 0;
  FILE *out = open_memstream (&text, &length);
  put_thing (out, &p, kind, "p");
  put_thing (out, &q, other, "q");
  fclose (out);
  check_ok (br_sheet_new (&sheet));
  if (sheet_run (sheet, &s, text) != BR_OK)
    fail_msg ("%s: %s", s.faults[0].error.message, text);
  for (int i = 0; i < p.count; i++)
    for (int k = 0; k < q.count; k++)
      figures_apart (&apart, &deep, &p.figures[i], &q.figures[k]);
  double z = value_of (sheet, "clear(p, q)");
  if (z != value_of (sheet, "clear(q, p)"))
    fail_msg ("%.9f one way, %.9f the other: %s", z, value_of (sheet, "clear(q, p)"), text);
  /* A polygon lies within a thousandth of its curve.  */
  if (z >= 0 ? fabs (z - apart) > 5e-3 || deep > 5e-3 : (deep == 0 && apart > 5e-3) || -z < deep - 5e-3)
    fail_msg ("%.6f; polygons %.6f apart, %.6f deep: %s", z, apart, deep, text);
  free (text);
  sheet_end (sheet, &s);
}

/* Each pair once, in an order that has all kinds early where the test is shorter: 40 and the count of pairs have no factor in
   common.  */
static void
test_pairs (void **state)
{
  const long pairs = KINDS * KINDS;
  (void) state;
  for (long i = 0, n = check_times (pairs); i < n; i++)
    {
      int kind = (int) (i * 40 % pairs / KINDS), other = (int) (i * 40 % pairs % KINDS);
      if (kind <= other)
        check_pair (kind, other);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_pairs) };
  return CHECK_RUN (tests);
}
