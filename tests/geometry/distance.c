/* SPDX-License-Identifier: GPL-3.0-or-later
   distance.c - the distance of two shapes against points on their edges, many of them: each is asked how far it is
   from the other shape, in floating point.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#include <math.h>

#include "geometry/geometry.h"

typedef struct plain
{
  br__shape_kind kind;
  int64_t n[6];         /* x y a b c d: eighths, of an arc c and d fifths of a degree */
} plain;

typedef struct place
{
  double x, y;
} place;

#define POINTS 1600

static double
eighth (const plain *p, int i)
{
  return (double) p->n[i] / 8;
}

/* Point I of POINTS on the edge.  */
static place
edge_point (const plain *p, int i)
{
  double x = eighth (p, 0), y = eighth (p, 1), a = eighth (p, 2), b = eighth (p, 3);
  double t = (double) i / POINTS, turn = 2 * acos (-1);
  if (p->kind == BR__CIRCLE)
    return (place) { x + a * cos (turn * t), y + a * sin (turn * t) };
  if (p->kind == BR__BOX)
    {
      double s = 4 * t - floor (4 * t);
      switch ((int) (4 * t))
        {
        case 0: return (place) { x + a * (s - .5), y - b / 2 };
        case 1: return (place) { x + a / 2, y + b * (s - .5) };
        case 2: return (place) { x + a * (.5 - s), y + b / 2 };
        default: return (place) { x - a / 2, y + b * (.5 - s) };
        }
    }
  if (p->kind == BR__LINE)
    {
      /* A line of no width, or around a bar: along one side, an end, the other side, an end.  */
      double w = eighth (p, 4) / 2, l = hypot (a, b), ux = a / l, uy = b / l;
      double s = 4 * t - floor (4 * t);
      int q = (int) (4 * t), back = q >= 2;
      double along = q == 0 ? s - .5 : q == 2 ? .5 - s : back ? -.5 : .5, away = acos (-1) * (s - .5);
      double px = x + a * along, py = y + b * along, side = back ? 1 : -1;
      if (q % 2 == 0)
        return (place) { px - side * w * uy, py + side * w * ux };
      return (place) { px - side * w * (ux * cos (away)) + (-uy) * w * sin (away) * -side,
                       py - side * w * (uy * cos (away)) + ux * w * sin (away) * -side };
    }
  double from = (double) p->n[4] / 1800 * turn, sweep = (double) p->n[5] / 1800 * turn;
  double s = 4 * t - floor (4 * t), r, angle;
  switch ((int) (4 * t))
    {
    case 0: r = a; angle = from + s * sweep; break;
    case 1: r = a + s * (b - a); angle = from + sweep; break;
    case 2: r = b; angle = from + sweep - s * sweep; break;
    default: r = b + s * (a - b); angle = from; break;
    }
  return (place) { x + r * cos (angle), y + r * sin (angle) };
}

/* From the point to P, below zero inside, where it is how far its edge is away.  */
static double
apart (const plain *p, place at)
{
  double x = at.x - eighth (p, 0), y = at.y - eighth (p, 1), a = eighth (p, 2), b = eighth (p, 3);
  if (p->kind == BR__CIRCLE)
    return hypot (x, y) - a;
  if (p->kind == BR__BOX)
    {
      double over = fabs (x) - a / 2, up = fabs (y) - b / 2;
      return over > 0 && up > 0 ? hypot (over, up) : fmax (over, up);
    }
  if (p->kind == BR__LINE)
    {
      double t = fmax (-.5, fmin (.5, (x * a + y * b) / (a * a + b * b)));
      return hypot (x - t * a, y - t * b) - eighth (p, 4) / 2;
    }
  double r = hypot (x, y), pi = acos (-1), sweep = (double) p->n[5] / 900 * pi, ends = 1e9;
  double angle = atan2 (y, x) - (double) p->n[4] / 900 * pi;
  angle -= 2 * pi * floor (angle / (2 * pi));
  for (int i = 0; i < 2; i++)
    {
      double off = angle - i * sweep, along = fmax (a, fmin (b, r * cos (off)));
      ends = fmin (ends, hypot (r * cos (off) - along, r * sin (off)));
    }
  double out = fmax (a - r, r - b);
  if (sweep >= 2 * pi)
    return out;
  return angle > sweep ? ends : out > 0 ? out : fmax (out, -ends);
}

static void
random_shape (plain *p, int64_t grid, int64_t degrees)
{
  p->kind = (br__shape_kind) check_between (BR__CIRCLE, BR__LINE);
  p->n[0] = check_between (-24 / grid, 24 / grid) * grid;
  p->n[1] = check_between (-24 / grid, 24 / grid) * grid;
  p->n[2] = check_between (1, 24 / grid) * grid;
  p->n[3] = check_between (1, 24 / grid) * grid;
  p->n[4] = p->n[5] = 0;
  if (p->kind == BR__LINE)
    {
      p->n[check_below (2) + 2] *= check_below (2) ? -1 : 1;
      p->n[4] = check_between (0, 8 / grid) * grid;
    }
  if (p->kind == BR__ARC)
    {
      p->n[3] = p->n[2] + check_between (0, 8 / grid) * grid;
      p->n[4] = check_between (-900 / degrees, 900 / degrees) * degrees;
      p->n[5] = check_between (1, 1800 / degrees) * degrees;
    }
}

static void
take_figure (br__figure *f, br_real z[6], const plain *p)
{
  for (int i = 0; i < 6; i++)
    check_ok (br_number_set_ratio (&z[i].rational, p->n[i], p->kind == BR__ARC && i > 3 ? 5 : 8));
  *f = (br__figure) { p->kind, &z[0], &z[1], &z[2], &z[3], &z[4], &z[5] };
}

static double
as_double (const br_real *x)
{
  char text[64];
  assert_true (br_real_write_decimal (text, sizeof text, NULL, x, 17, 0, NULL) < sizeof text);
  return strtod (text, NULL);
}

/* No area: a line or a curve of no width.  */
static int
flat (const plain *p)
{
  return (p->kind == BR__LINE && p->n[4] == 0) || (p->kind == BR__ARC && p->n[2] == p->n[3]);
}

/* How many of a row were not decided, of those that are.  */
typedef struct tally
{
  long undecided, decided;
} tally;

static void
compare (tally *t, const plain *p, const plain *q)
{
  br_real z[2][6], d = BR_REAL_ZERO, e = BR_REAL_ZERO;
  br__figure f, g;
  double nearest = 1e9;
  int order = 1;
  memset (z, 0, sizeof z);
  take_figure (&f, z[0], p);
  take_figure (&g, z[1], q);
  br_status status = br__figure_distance (&d, &f, &g, 0);
  if (status == BR_OK)
    status = br__figure_distance (&e, &g, &f, 0);
  /* A push may take another way where both are bent.  */
  if (status == BR_OK && (p->kind != BR__ARC || q->kind != BR__ARC))
    assert_true (br_real_cmp (&order, &d, &e, 0) != BR_OK || order == 0);
  for (int i = 0; i < POINTS; i++)
    nearest = fmin (nearest, fmin (apart (q, edge_point (p, i)), apart (p, edge_point (q, i))));
  double value = status == BR_OK ? as_double (&d) : 0;
  /* Points on the edges see the nearest ones to STEP at the worst, and may miss an overlap that is no deeper.  */
  const double step = flat (p) && flat (q) ? 0.02 : 0.002;
  int bad = (value > 0 ? nearest < value - 1e-9 || nearest > value + step : nearest > step)
            || (nearest < -1e-9 && value >= 0) || (nearest > (step > 0.01 ? step : 1e-9) && value < -1e-9);
  assert_true (status == BR_OK || status == BR_UNDECIDED);
  t->decided += status == BR_OK;
  t->undecided += status != BR_OK;
  if (status == BR_OK && bad)
    {
      for (int i = 0; i < 6; i++)
        print_error ("%" PRId64 " %" PRId64 "; ", p->n[i], q->n[i]);
      fail_msg ("kinds %d %d: %.6f, edges %.6f", p->kind, q->kind, value, nearest);
    }
  for (int i = 0; i < 6; i++)
    br_real_clear (&z[0][i]), br_real_clear (&z[1][i]);
  br_real_clear (&d);
  br_real_clear (&e);
}

/* On a fine grid little meets by chance; on one of half inches and 15 degrees, much does.  */
static void
test_distance (void **state)
{
  static const struct { int64_t grid, degrees; } rows[] = { { 1, 1 }, { 1, 25 }, { 4, 50 }, { 8, 75 }, { 8, 225 } };
  tally tallies[CHECK_COUNT (rows)] = { { 0, 0 } };
  (void) state;
  for (long i = check_times (200); i > 0; i--)
    for (size_t k = 0; k < CHECK_COUNT (rows); k++)
      {
        plain p, q;
        random_shape (&p, rows[k].grid, rows[k].degrees);
        random_shape (&q, rows[k].grid, rows[k].degrees);
        compare (&tallies[k], &p, &q);
      }
  for (size_t k = 0; k < CHECK_COUNT (rows); k++)
    if (tallies[k].undecided > 0)
      fail_msg ("grid %" PRId64 ": %ld not decided", rows[k].grid, tallies[k].undecided);
}

static void
test_memory (void **state)
{
  static const plain shapes[] =
  {
    { BR__ARC, { 0, 0, 16, 24, 0, 600 } }, { BR__BOX, { 8, 40, 16, 8, 0, 0 } }, { BR__LINE, { 8, 8, 16, 24, 4, 0 } }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (shapes); i++)
    for (size_t k = i; k < CHECK_COUNT (shapes); k++)
      {
        br_real z[2][6], d = BR_REAL_ZERO;
        br__figure f, g;
        br_status status = BR_OK;
        memset (z, 0, sizeof z);
        take_figure (&f, z[0], &shapes[i]);
        take_figure (&g, z[1], &shapes[k]);
        for (long n = 0; ; n++)
          {
            check_memory_limit (n);
            status = br__figure_distance (&d, &f, &g, 0);
            br_real_clear (&d);
            check_memory_left = -1;
            assert_int_equal (check_memory_blocks, 0);
            if (!check_memory_refused)
              break;
            assert_int_equal (status, BR_NO_MEMORY);
          }
        check_ok (status);
        check_memory_free ();
      }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_distance), CHECK_TEST (test_memory) };
  return CHECK_RUN (tests);
}
