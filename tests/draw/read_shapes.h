/* SPDX-License-Identifier: GPL-3.0-or-later
   read_shapes.h - shapes as they lie on a page, read from a drawing as SVG.  An outline that is drawn in pieces, as it is hidden
   here and there, is one to whoever looks: pieces of one name of which each begins where the one before ends are joined, and what
   they make is seen from their form.  */
#ifndef BR_TESTS_DRAW_READ_SHAPES_H
#define BR_TESTS_DRAW_READ_SHAPES_H

#include "svg.h"

#include <math.h>

#define MOST_STROKES 400
#define MOST_LOOPS 80
#define NEAR 100                /* billionths of an inch on paper: in line; a flat arc ends so near to its corner */

typedef struct shape
{
  const char *name;
  br__shape_kind kind;
  int64_t at[2][2];             /* across and up on the page: low and high sides, or ends from the left or the lower one, or the centre twice */
  double size[3];               /* ⌀, or R and width, or width: as read; NAN: not told */
  double angle[2];
} shape;

/* A straight stroke, or an arc of radius R around CX CY.  */
typedef struct drawn_stroke
{
  int64_t x, y, x2, y2, r;
  int sweep;
  double cx, cy;
} drawn_stroke;

typedef struct drawn_path
{
  drawn_stroke rows[MOST_STROKES];
  size_t count;
  size_t loops[MOST_LOOPS];     /* where each begins */
  size_t loop_count;
} drawn_path;

static double
chord (const drawn_stroke *s)
{
  return hypot ((double) (s->x2 - s->x), (double) (s->y2 - s->y));
}

static int
are_near (int64_t x, int64_t y, int64_t x2, int64_t y2)
{
  return llabs (x - x2) < NEAR && llabs (y - y2) < NEAR;
}

/* The centre of an arc of half a circle or less, which lies on the other side of the chord.  */
static void
find_centre (drawn_stroke *s)
{
  double r = (double) s->r, c = chord (s), away = r - c / 2 < 1.5 ? 0 : sqrt (r * r - c * c / 4), side = s->sweep ? 1 : -1;
  s->cx = (double) (s->x + s->x2) / 2 - side * away * (double) (s->y2 - s->y) / c;
  s->cy = (double) (s->y + s->y2) / 2 + side * away * (double) (s->x2 - s->x) / c;
}

/* 1 where both run on in one line, or around one centre, as far as what is written of them tells.  */
static int
run_on (const drawn_stroke *a, const drawn_stroke *b)
{
  double least = fmin (chord (a), chord (b)), x = (double) (a->x2 - a->x), y = (double) (a->y2 - a->y);
  if (a->r != b->r || (a->r && a->sweep != b->sweep) || !are_near (a->x2, a->y2, b->x, b->y))
    return 0;
  if (a->r)
    return hypot (a->cx - b->cx, a->cy - b->cy) < 1e5 + 8 * (double) a->r / least;
  return fabs (x * (double) (b->y2 - b->y) - y * (double) (b->x2 - b->x)) < 4 * fmax (chord (a), chord (b));
}

static void
put_stroke (drawn_path *p, drawn_stroke s)
{
  if (are_near (s.x, s.y, s.x2, s.y2))
    return;
  if (s.r)
    find_centre (&s);
  assert_true (p->count < MOST_STROKES);
  p->rows[p->count++] = s;
}

/* Whether what was put last is back where its loop began.  */
static int
is_closed (const drawn_path *p)
{
  const drawn_stroke *first = &p->rows[p->loops[p->loop_count - 1]], *last = &p->rows[p->count - 1];
  return are_near (first->x, first->y, last->x2, last->y2);
}

/* Adds the strokes of D, which carries on what is not closed where it begins there.  */
static void
read_path (drawn_path *p, const char *d)
{
  int64_t n[7], x = 0, y = 0, start[2] = { 0, 0 };
  for (; *(d += strcspn (d, "MLAZ")); )
    {
      const char letter = *d++;
      size_t count = letter == 'Z' ? 0 : letter == 'A' ? 7 : 2;
      for (size_t i = 0; i < count; i++)
        assert_true (svg_next (&n[i], &d));
      const int64_t x2 = letter == 'Z' ? start[0] : n[count - 2], y2 = letter == 'Z' ? start[1] : n[count - 1];
      if (letter == 'M')
        {
          const drawn_stroke *last = p->count ? &p->rows[p->count - 1] : NULL;
          start[0] = x2;
          start[1] = y2;
          if (!last || is_closed (p) || !are_near (last->x2, last->y2, x2, y2))
            {
              assert_true (p->loop_count < MOST_LOOPS);
              p->loops[p->loop_count++] = p->count;
            }
        }
      else
        put_stroke (p, (drawn_stroke) { x, y, x2, y2, letter == 'A' ? n[0] : 0, letter == 'A' && n[4], 0, 0 });
      x = x2;
      y = y2;
    }
}

/* The strokes of loop I, those that run on made one; the count.  */
static size_t
merge_loop (drawn_stroke *to, const drawn_path *p, size_t i)
{
  const size_t end = i + 1 < p->loop_count ? p->loops[i + 1] : p->count, begin = p->loops[i];
  size_t n = 0, first = begin;
  /* From a corner on, where there is one.  */
  for (size_t k = begin; k < end && first == begin; k++)
    if (!run_on (&p->rows[k > begin ? k - 1 : end - 1], &p->rows[k]))
      first = k;
  for (size_t k = 0; k < end - begin; k++)
    {
      const drawn_stroke *s = &p->rows[begin + (first - begin + k) % (end - begin)];
      const drawn_stroke *before = s > &p->rows[begin] ? s - 1 : &p->rows[end - 1];
      if (!n || !run_on (before, s))
        to[n++] = *s;
      else
        {
          to[n - 1].x2 = s->x2;
          to[n - 1].y2 = s->y2;
        }
    }
  return n;
}

static void
widen (shape *s, double x, double y)
{
  const int64_t at[2] = { llround (x), llround (y) };
  for (int u = 0; u < 2; u++)
    {
      /* Low and high sides; down the page numbers grow.  */
      s->at[u][u] = at[u] < s->at[u][u] ? at[u] : s->at[u][u];
      s->at[u][!u] = at[u] > s->at[u][!u] ? at[u] : s->at[u][!u];
    }
}

/* How far the strokes of P reach.  */
static void
find_reach (shape *s, const drawn_path *p)
{
  s->at[0][0] = s->at[1][1] = INT64_MAX;
  s->at[0][1] = s->at[1][0] = INT64_MIN;
  for (const drawn_stroke *k = p->rows; k < p->rows + p->count; k++)
    {
      double dx = (double) (k->x2 - k->x), dy = (double) (k->y2 - k->y), r = (double) k->r, side = k->sweep ? 1 : -1;
      widen (s, (double) k->x, (double) k->y);
      widen (s, (double) k->x2, (double) k->y2);
      for (int i = 0; i < 4 && k->r; i++)
        {
          double tx = k->cx + (i == 0 ? r : i == 1 ? -r : 0), ty = k->cy + (i == 2 ? r : i == 3 ? -r : 0);
          /* On the arc: beyond the chord.  */
          if (((tx - (double) k->x) * dy - (ty - (double) k->y) * dx) * side > 0)
            widen (s, tx, ty);
        }
    }
}

/* The centre of an arc, from the stroke of P's first loop that tells it best.  */
static void
read_centre (shape *s, const drawn_path *p)
{
  double best = -1;
  for (size_t i = 0; i < (p->loop_count > 1 ? p->loops[1] : p->count); i++)
    {
      const drawn_stroke *k = &p->rows[i];
      double tells = k->r ? 1 - fabs (chord (k) / (double) k->r - 1) : -1;
      for (int u = 0; u < 2 && tells > best; u++)
        s->at[u][0] = s->at[u][1] = llround (u ? k->cy : k->cx);
      best = tells > best ? tells : best;
    }
}

/* Its ends, from the left or the lower one.  */
static void
read_ends (shape *s, int64_t x, int64_t y, int64_t x2, int64_t y2)
{
  const int swapped = x2 < x || (x2 == x && y2 > y);
  s->kind = BR__LINE;
  s->at[0][swapped] = x;
  s->at[1][swapped] = y;
  s->at[0][!swapped] = x2;
  s->at[1][!swapped] = y2;
}

/* Two arcs and the lines between them: a bar where both are half circles, a part of a ring where they have one centre.  0: neither.  */
static int
read_two_arcs (shape *s, const drawn_path *p, const drawn_stroke k[4])
{
  const drawn_stroke *a = &k[!k[0].r], *b = a + 2, *between = &k[k[0].r != 0], *back = &k[k[0].r ? 3 : 2];
  if (!a->r || !b->r || between->r || back->r)
    return 0;
  if (a->r == b->r && a->sweep == b->sweep && (double) a->r - chord (a) / 2 < 10 && (double) b->r - chord (b) / 2 < 10)
    {
      read_ends (s, (a->x + a->x2) / 2, (a->y + a->y2) / 2, (b->x + b->x2) / 2, (b->y + b->y2) / 2);
      s->size[0] = NAN;
      return 1;
    }
  if (a->r == b->r || a->sweep == b->sweep || hypot (a->cx - b->cx, a->cy - b->cy) > 1e6)
    return 0;
  s->kind = BR__ARC;
  read_centre (s, p);
  return 1;
}

/* What the strokes of P make: of several figures, as a row has them, the first.  */
static void
read_form (shape *s, drawn_path *p)
{
  static drawn_stroke k[MOST_STROKES];
  const size_t n = merge_loop (k, p, 0);
  const drawn_stroke *last = &p->rows[(p->loop_count > 1 ? p->loops[1] : p->count) - 1];
  /* What does not come back to where it began goes on behind a hole.  */
  const int in_pieces = p->loop_count > 1 && !k[0].r && !are_near (p->rows->x, p->rows->y, last->x2, last->y2);
  int box = n == 4;
  for (size_t i = 0; i < n; i++)
    box &= !k[i].r && (llabs (k[i].x - k[i].x2) < NEAR || llabs (k[i].y - k[i].y2) < NEAR);
  if (n == 1 && !k[0].r && !in_pieces)
    {
      read_ends (s, k[0].x, k[0].y, k[0].x2, k[0].y2);
      s->size[0] = 0;
    }
  else if (n == 1 && !in_pieces)
    {
      s->kind = BR__CIRCLE;
      for (size_t i = 1; i < p->loop_count; i++)
        if (p->rows[p->loops[i]].r != k[0].r && hypot (p->rows[p->loops[i]].cx - k[0].cx, p->rows[p->loops[i]].cy - k[0].cy) < 1e5)
          s->kind = BR__ARC;
      read_centre (s, p);
    }
  else if (n != 4 || box || !read_two_arcs (s, p, k))
    {
      s->kind = box ? BR__BOX : BR__OUTLINE;
      p->count = p->loop_count > 1 && !in_pieces ? p->loops[1] : p->count;
      find_reach (s, p);
    }
}

#endif
