/* SPDX-License-Identifier: LGPL-3.0-or-later
   through.c - what lies in a hole: a pin, an axle, each piece of a row of them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/through.h"

#define FIGURE 7        /* numbers of a circle or a bar */

/* ---- The figures of a shape ---- */

void
br__figures_clear (br__figures *f)
{
  br__places_clear (&f->places);
  br__numbers_clear (&f->numbers);
  br__sketch_clear (&f->sketch);
}

br_status
br__figures_of (br__figures *f, const br_sheet *sheet, const br__shape *s)
{
  memset (f, 0, sizeof *f);
  f->source = br__shape_source (sheet, s);
  f->mirrored = br__is_mirrored (sheet, s);
  f->work.settings = &sheet->settings;
  f->sketch.work = &f->work;
  br_status status = br__shape_numbers (&f->numbers, sheet, s);
  return status == BR_OK ? br__shape_places (&f->places, &f->sketch, f->numbers.rows, f->numbers.count) : status;
}

br_status
br__side_distance (br__value *z, const br_sheet *sheet, const br__value *a, size_t a_count, const br__value *b, size_t b_count)
{
  const br__function *clear = br__shape_function (BR__CALL_CLEAR);
  br__work w = { &sheet->settings, NULL, NULL, 0 };
  br__value *args = br__alloc_zero (a_count + b_count, sizeof *args);
  if (!args)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < a_count + b_count; i++)
    args[i] = i < a_count ? a[i] : b[i - a_count];      /* borrowed */
  br_status status = clear->call (&w, z, args, (unsigned) (a_count + b_count), clear);
  br__free (args);
  return status;
}

/* ---- As seen from the side ---- */

/* Whether V is the box around a figure, not the figure itself.  */
static int
is_boxed (const br__figures *f)
{
  return f->source->kind == BR__ARC || f->source->kind == BR__OUTLINE;
}

/* The corners of figure I of F, and by how much it goes beyond them all around; an arc or an outline is the box around it.  */
static void
corners_of (br__hull *h, br__pad *g, const br_sheet *sheet, const br__figures *f, size_t i)
{
  const br__value *v = f->places.rows + i * f->places.numbers;
  br__figure figure = { f->source->kind, &v[1].real, &v[2].real, &v[3].real, &v[4].real, &v[5].real, &v[6].real };
  if (is_boxed (f))
    {
      const br_real *side[4];
      for (int k = 0; k < 4; k++)
        side[k] = &br__shape_value (sheet, f->source, BR__SHAPE_RIGHT + k)->real;
      const br_real *middle = br__half (g, br__add (g, side[BR__LEFT], side[BR__RIGHT]));
      figure.kind = BR__BOX;
      figure.x = f->mirrored ? br__sub (g, figure.x, middle) : br__add (g, figure.x, middle);
      figure.y = br__add (g, figure.y, br__half (g, br__add (g, side[BR__BOTTOM], side[BR__TOP])));
      figure.a = br__sub (g, side[BR__RIGHT], side[BR__LEFT]);
      figure.b = br__sub (g, side[BR__TOP], side[BR__BOTTOM]);
    }
  br__hull_of (h, g, &figure);
}

/* 1 if no corner of A reaches farther to any side than B does.  */
static int
reaches_less (br__pad *g, const br__hull *a, const br__hull *b)
{
  for (int way = 0; way < 4; way++)
    for (size_t n = 0; n < a->count; n++)
      {
        int farther = 1;
        for (size_t k = 0; k < b->count && farther; k++)
          {
            br__point from = way < 2 ? br__minus (g, a->corner[n], b->corner[k]) : br__minus (g, b->corner[k], a->corner[n]);
            farther = br__order_of (g, br__add (g, way % 2 ? from.y : from.x, a->round), b->round) > 0;
          }
        if (farther)
          return 0;
      }
  return 1;
}

/* *INSIDE is 1 if all of figure I of F lies in figure K of HOLE, a circle or a bar, as seen from the side; the box around an
   arc or an outline may go beyond where that does not: then it is -1.  */
static br_status
lies_in (int *inside, const br_sheet *sheet, const br__figures *f, size_t i, const br__figures *hole, size_t k)
{
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  br__hull a, b;
  corners_of (&a, &g, sheet, f, i);
  corners_of (&b, &g, sheet, hole, k);
  *inside = 1;
  for (size_t n = 0; g.status == BR_OK && *inside && n < a.count; n++)
    {
      const br_real *away = b.count > 1 ? br__point_to_segment (&g, a.corner[n], b.corner[0], b.corner[1])
                                        : br__length_of (&g, br__minus (&g, a.corner[n], b.corner[0]));
      *inside = br__order_of (&g, br__add (&g, away, a.round), b.round) <= 0;
    }
  if (g.status == BR_OK && !*inside && is_boxed (f) && reaches_less (&g, &a, &b))
    *inside = -1;
  br_status status = g.status;
  br__pad_clear (&g);
  return status;
}

/* ---- Holes ---- */

br_status
br__holes_add (br__holes *h, const br__shape *s)
{
  if (!br__grow (&h->rows, &h->room, h->count + 1, sizeof *h->rows))
    return BR_NO_MEMORY;
  h->rows[h->count++] = s;
  return BR_OK;
}

const char *
br__part_of (const br_sheet *sheet, const br__shape *s)
{
  while (s && !s->of && s->base)
    s = br__shape_find (sheet, s->base, strlen (s->base));
  return s ? s->of : NULL;
}

static int
is_hole_in (const br_sheet *sheet, const br__shape *h, const br__shape *wood)
{
  const char *of = br__part_of (sheet, h), *part = br__part_of (sheet, wood);
  const br__shape *source = br__shape_source (sheet, h);
  return (!of || (part && strcmp (of, part) == 0)) && (source->kind == BR__CIRCLE || source->kind == BR__LINE);
}

/* From where to where a shape goes in depth: twice where both sides have it, not at all while it waits.  */
typedef struct depths
{
  const br_real *near[2], *far[2];
  int count;
} depths;

static depths
depths_of (br__pad *g, const br_sheet *sheet, const br__shape *s)
{
  const int depth = br__depth_source (sheet, s)->depth;
  const br__value *middle = depth ? br__depth_middle (sheet, s) : NULL, *deep = br__depth_of (sheet, s);
  depths d = { .count = !middle || !deep ? 0 : depth > BR__FROM_DEPTH ? 2 : 1 };
  if (!d.count)
    return d;
  const br_real *half = br__half (g, &deep->real);
  d.near[0] = br__add (g, &middle->real, half);
  d.far[0] = br__sub (g, &middle->real, half);
  if (d.count > 1)
    {
      d.near[1] = br__neg (g, d.far[0]);
      d.far[1] = br__neg (g, d.near[0]);
    }
  return d;
}

/* Figure I of F and the wood that it is in.  */
typedef struct asking
{
  br__holes *holes;
  const br__figures *f;
  size_t i;
  const br__shape *wood;
  br__pad g;
} asking;

/* *INSIDE is 1 if the figure lies in one place of HOLE, -1 if it may.  */
static br_status
is_inside (int *inside, asking *a, const br__shape *hole)
{
  br__figures h;
  br_status status = br__figures_of (&h, a->holes->sheet, hole);
  *inside = 0;
  for (size_t k = 0; k < h.places.count && status == BR_OK && *inside < 1; k++)
    {
      int one = 0;
      status = lies_in (&one, a->holes->sheet, a->f, a->i, &h, k);
      *inside = one ? one : *inside;
      a->holes->compared++;
    }
  br__figures_clear (&h);
  return status == BR_DOMAIN ? BR_OK : status;
}

/* *REACH becomes where a hole ends that the figure lies in there, NULL where that goes all through, as one without depth does.  */
static br_status
go_on (const br_real **reach, int *maybe, asking *a)
{
  const br_sheet *sheet = a->holes->sheet;
  br_status status = BR_OK;
  for (const br__shape **hole = a->holes->rows; hole < a->holes->rows + a->holes->count && status == BR_OK; hole++)
    {
      const br_real *end = NULL;
      int inside = 0, all = !br__depth_source (sheet, *hole)->depth;
      if (!is_hole_in (sheet, *hole, a->wood))
        continue;
      depths d = depths_of (&a->g, sheet, *hole);
      for (int k = 0; k < d.count; k++)
        if (br__order_of (&a->g, d.far[k], *reach) <= 0 && br__order_of (&a->g, d.near[k], *reach) > 0)
          end = d.near[k];
      status = a->g.status;
      if (status == BR_OK && (all || end))
        status = is_inside (&inside, a, *hole);
      *maybe |= inside < 0;
      if (inside < 1)
        continue;
      *reach = end;
      break;
    }
  return status;
}

/* *FILLED is 1 if the figure lies in holes, one behind the other, all the way from FAR to NEAR.  */
static br_status
is_filled (int *filled, asking *a, const br_real *near, const br_real *far)
{
  const br_real *reach = far, *before;
  int maybe = 0;
  br_status status;
  do
    {
      before = reach;
      status = go_on (&reach, &maybe, a);
    }
  while (status == BR_OK && reach && reach != before && br__order_of (&a->g, reach, near) < 0);
  *filled = !reach || reach != before;
  return status != BR_OK ? status : a->g.status != BR_OK ? a->g.status : !*filled && maybe ? BR_UNDECIDED : BR_OK;
}

/* *THROUGH is 1 if, wherever S and WOOD reach equally deep, the figure lies in a hole.  */
static br_status
figure_through (int *through, asking *a, const br__shape *s)
{
  br_status status = BR_OK;
  depths of = depths_of (&a->g, a->holes->sheet, s), in = depths_of (&a->g, a->holes->sheet, a->wood);
  *through = 1;
  for (int i = 0; i < of.count * in.count && status == BR_OK && *through; i++)
    {
      int k = i / of.count, n = i % of.count;
      const br_real *near = br__least (&a->g, of.near[n], in.near[k]), *far = br__most (&a->g, of.far[n], in.far[k]);
      int deep = br__order_of (&a->g, near, far) > 0;
      status = a->g.status;
      if (status == BR_OK && deep)
        status = is_filled (through, a, near, far);
    }
  return status;
}

br_status
br__goes_through (int *through, br__holes *h, const br__shape *s, const br__shape *wood)
{
  const br_sheet *sheet = h->sheet;
  br__figures f;
  br__numbers n = { NULL, 0 };
  br__value apart = BR__VALUE_ZERO;
  br_status status = br__figures_of (&f, sheet, s);
  if (status == BR_OK)
    status = br__shape_numbers (&n, sheet, wood);
  *through = status == BR_OK;
  for (size_t i = 0; i < f.places.count && status == BR_OK && *through; i++)
    {
      asking a = { h, &f, i, wood, { BR_OK, sheet->settings.bits, NULL } };
      int sign = 0;
      status = figure_through (through, &a, s);
      br__pad_clear (&a.g);
      if (status != BR_OK || *through || f.places.count == 1)
        continue;
      status = br__side_distance (&apart, sheet, f.places.rows + i * f.places.numbers, f.places.numbers, n.rows, n.count);
      if (status == BR_OK)
        status = br_real_sign (&sign, &apart.real, sheet->settings.bits);
      *through = sign >= 0;
    }
  br__value_clear (&apart);
  br__numbers_clear (&n);
  br__figures_clear (&f);
  return status;
}

br_status
br__is_pierced (int *pierced, const br_sheet *sheet, const br__shape *s, const br__shape *h, const br__value *numbers)
{
  br__holes one = { sheet, &h, 1, 1, 0 };
  br__numbers n[2] = { { NULL, 0 }, { NULL, 0 } };
  br__value apart = BR__VALUE_ZERO;
  int beside = 0, within = 0, sign = 0;
  *pierced = 0;
  if (br__shape_source (sheet, s)->hole || !br__depth_source (sheet, s)->depth || !is_hole_in (sheet, h, s))
    return BR_OK;
  br_status status = br__is_beside (&beside, sheet, s, h);
  if (status == BR_OK && !beside)
    status = br__shape_numbers (&n[0], sheet, s);
  if (status == BR_OK && !beside && !numbers)
    status = br__shape_numbers (&n[1], sheet, h);
  if (status == BR_OK && !beside)
    status = br__side_distance (&apart, sheet, n[0].rows, n[0].count, numbers ? numbers : n[1].rows, numbers ? FIGURE : n[1].count);
  if (status == BR_OK && !beside)
    status = br_real_sign (&sign, &apart.real, sheet->settings.bits);
  if (status == BR_OK && sign < 0)
    status = br__goes_through (&within, &one, s, s);
  *pierced = status == BR_OK && sign < 0 && !within;
  br__value_clear (&apart);
  br__numbers_clear (&n[0]);
  br__numbers_clear (&n[1]);
  return status == BR_DOMAIN || status == BR_UNDECIDED ? BR_OK : status;
}
