/* SPDX-License-Identifier: LGPL-3.0-or-later
   through.c - finds shapes that are inside a hole: a pin, an axle, each piece of a row of them.  */
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

/* *SHARED is 1 if the first two of FIGURES, the numbers of each, have something in common outside of all the others.  */
static br_status
share (int *shared, const br_sheet *sheet, const br__value *const *figures, size_t count)
{
  br__work w = { &sheet->settings, NULL, NULL, 0 };
  br__sketch s = { &w, BR_OK, NULL };
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  br__path *paths = br__alloc_zero (count, sizeof *paths);
  br_status status = paths ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < count && status == BR_OK; i++)
    {
      br__legs legs = { NULL, 0, 0, NULL };
      status = br__shape_legs (&legs, &s, figures[i]);
      if (status == BR_OK)
        status = br__legs_path (&paths[i], &g, &legs);
      br__legs_clear (&legs);
    }
  *shared = status == BR_OK && br__paths_share (&g, paths, count);
  status = status == BR_OK ? g.status : status;
  for (size_t i = 0; paths && i < count; i++)
    br__free ((void *) paths[i].pieces);
  br__free (paths);
  br__pad_clear (&g);
  br__sketch_clear (&s);
  return status;
}

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

/* *INSIDE is 1 if all of figure I of F lies in figure K of HOLE, a circle or a bar, as seen from the side.  */
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
  const int near = g.status == BR_OK && !*inside && is_boxed (f) && reaches_less (&g, &a, &b);
  br_status status = g.status;
  br__pad_clear (&g);
  if (!near)
    return status;
  /* The box around it goes beyond, where the figure itself may not.  */
  const br__value *const figure = f->places.rows + i * f->places.numbers;
  const br__value *const figures[] = { figure, figure, hole->places.rows + k * hole->places.numbers };
  status = share (inside, sheet, figures, 3);
  *inside = !*inside;
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

int
br__belongs_to (const br_sheet *sheet, const br__shape *s, const char *name)
{
  const char *as = sheet->language->cut_as (sheet, name);
  for (; s; s = s->base ? br__shape_find (sheet, s->base, strlen (s->base)) : NULL)
    if (strcmp (s->name, name) == 0 || (as && strcmp (s->name, as) == 0))
      return 1;
    else if (s->of)
      return strcmp (s->of, name) == 0;
  return 0;
}

static int
is_hole_in (const br_sheet *sheet, const br__shape *h, const br__shape *wood)
{
  const char *of = br__part_of (sheet, h);
  const br__shape *source = br__shape_source (sheet, h);
  return (!of || br__belongs_to (sheet, wood, of)) && (source->kind == BR__CIRCLE || source->kind == BR__LINE);
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

/* *INSIDE is 1 if the figure lies in one place of HOLE.  */
static br_status
is_inside (int *inside, asking *a, const br__shape *hole)
{
  br__figures h;
  br_status status = br__figures_of (&h, a->holes->sheet, hole);
  *inside = 0;
  for (size_t k = 0; k < h.places.count && status == BR_OK && !*inside; k++)
    {
      status = lies_in (inside, a->holes->sheet, a->f, a->i, &h, k);
      a->holes->compared++;
    }
  br__figures_clear (&h);
  return status == BR_DOMAIN ? BR_OK : status;
}

/* 1 if HOLE, one of the wood, is there right in front of REACH; *END becomes where it ends, NULL where that goes all through, as
   one without depth does.  */
static int
is_there (const br_real **end, asking *a, const br__shape *hole, const br_real *reach)
{
  const br_sheet *sheet = a->holes->sheet;
  *end = NULL;
  if (!is_hole_in (sheet, hole, a->wood))
    return 0;
  depths d = depths_of (&a->g, sheet, hole);
  for (int k = 0; k < d.count; k++)
    if (br__order_of (&a->g, d.far[k], reach) <= 0 && br__order_of (&a->g, d.near[k], reach) > 0)
      *end = d.near[k];
  return *end || !br__depth_source (sheet, hole)->depth;
}

/* *COVERED is 1 if all that the figure has in common with the wood lies in HOLES, COUNT of them.  */
static br_status
is_covered (int *covered, asking *a, const br__figures *holes, size_t count)
{
  br__figures wood;
  size_t n = 2;
  br_status status = br__figures_of (&wood, a->holes->sheet, a->wood);
  for (size_t i = 0; i < count; i++)
    n += holes[i].places.count;
  const br__value **figures = br__alloc_zero (n, sizeof *figures);
  if (!figures)
    status = status == BR_OK ? BR_NO_MEMORY : status;
  for (size_t i = 0, next = 2; i < count && figures; i++)
    for (size_t k = 0; k < holes[i].places.count; k++)
      figures[next++] = holes[i].places.rows + k * holes[i].places.numbers;
  *covered = 1;
  for (size_t k = 0; k < wood.places.count && status == BR_OK && *covered; k++)
    {
      int shared = 0;
      figures[0] = a->f->places.rows + a->i * a->f->places.numbers;
      figures[1] = wood.places.rows + k * wood.places.numbers;
      status = share (&shared, a->holes->sheet, figures, n);
      a->holes->compared += 4 * n;
      *covered = !shared;
    }
  br__free (figures);
  br__figures_clear (&wood);
  return status;
}

/* *REACH becomes where the holes end that hold what the figure has in common with the wood there, NULL where they go all
   through.  */
static br_status
go_on_together (const br_real **reach, asking *a)
{
  const br__holes *all = a->holes;
  br__figures *holes = br__alloc_zero (all->count + 1, sizeof *holes);
  const br_real *least = NULL;
  size_t count = 0;
  int covered = 0;
  br_status status = holes ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < all->count && status == BR_OK; i++)
    {
      const br_real *end = NULL;
      int beside = 0;
      if (!is_there (&end, a, all->rows[i], *reach))
        continue;
      status = br__is_beside (&beside, all->sheet, all->rows[i], a->wood);
      if (beside || status != BR_OK)
        continue;
      status = br__figures_of (&holes[count++], all->sheet, all->rows[i]);
      if (status == BR_DOMAIN)
        {
          br__figures_clear (&holes[--count]);
          status = BR_OK;
          continue;
        }
      least = !end ? least : least ? br__least (&a->g, least, end) : end;
    }
  /* Where there is no hole, a figure alone is known to overlap; one of several may lie apart.  */
  if (status == BR_OK && (count || a->f->places.count > 1))
    status = is_covered (&covered, a, holes, count);
  if (covered && status == BR_OK)
    *reach = least;
  for (size_t i = 0; i < count; i++)
    br__figures_clear (&holes[i]);
  br__free (holes);
  return status;
}

/* The same: one hole for all of the figure where there is one, else those that are there.  */
static br_status
go_on (const br_real **reach, asking *a)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < a->holes->count && status == BR_OK; i++)
    {
      const br_real *end = NULL;
      int inside = 0;
      if (!is_there (&end, a, a->holes->rows[i], *reach))
        continue;
      status = a->g.status != BR_OK ? a->g.status : is_inside (&inside, a, a->holes->rows[i]);
      if (inside && status == BR_OK)
        {
          *reach = end;
          return BR_OK;
        }
    }
  return status == BR_OK ? go_on_together (reach, a) : status;
}

/* *FILLED is 1 if holes, one behind the other, hold what the figure has in common with the wood all the way from FAR to NEAR.  */
static br_status
is_filled (int *filled, asking *a, const br_real *near, const br_real *far)
{
  const br_real *reach = far, *before;
  br_status status;
  do
    {
      before = reach;
      status = go_on (&reach, a);
    }
  while (status == BR_OK && reach && reach != before && br__order_of (&a->g, reach, near) < 0);
  *filled = !reach || reach != before;
  return status != BR_OK ? status : a->g.status;
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
  br_status status = br__figures_of (&f, sheet, s);
  *through = status == BR_OK;
  for (size_t i = 0; i < f.places.count && status == BR_OK && *through; i++)
    {
      asking a = { h, &f, i, wood, { BR_OK, sheet->settings.bits, NULL } };
      status = figure_through (through, &a, s);
      br__pad_clear (&a.g);
    }
  br__figures_clear (&f);
  return status;
}

/* *WITHIN is 1 if each figure of S lies in a place of the one of HOLES.  */
static br_status
lies_within (int *within, br__holes *holes, const br__shape *s)
{
  br__figures f;
  br_status status = br__figures_of (&f, holes->sheet, s);
  *within = status == BR_OK;
  for (size_t i = 0; i < f.places.count && status == BR_OK && *within; i++)
    {
      asking a = { holes, &f, i, s, { BR_OK, holes->sheet->settings.bits, NULL } };
      status = is_inside (within, &a, *holes->rows);
    }
  br__figures_clear (&f);
  return status;
}

/* 1 where S reaches farther than HOLE to all sides, for certain: no peg does.  */
static int
reaches_around (const br_sheet *sheet, const br__shape *s, const br__shape *hole)
{
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  int around = 1;
  for (int i = 0; i < 4 && around; i++)
    {
      const int upright = i % 2;
      const br__shape *of[] = { s, hole };
      const br_real *edge[2];
      for (int k = 0; k < 2; k++)
        edge[k] = br__add (&g, &br__shape_value (sheet, of[k], upright ? BR__SHAPE_Y : BR__SHAPE_X)->real,
                           &br__shape_value (sheet, of[k], BR__SHAPE_RIGHT + i)->real);
      const int order = br__order_of (&g, edge[0], edge[1]);
      around = i < 2 ? order > 0 : order < 0;
    }
  around = around && g.status == BR_OK;
  br__pad_clear (&g);
  return around;
}

br_status
br__is_pierced (int *pierced, const br_sheet *sheet, const br__shape *s, const br__shape *h, const br__value *numbers)
{
  br__holes one = { sheet, &h, 1, 1, 0 };
  br__numbers n[2] = { { NULL, 0 }, { NULL, 0 } };
  br__value apart = BR__VALUE_ZERO;
  int beside = 0, within = 0, sign = 0;
  const int told = br__part_of (sheet, h) != NULL;
  *pierced = 0;
  /* What has no depth may as well be a pin, unless the hole says whose it is.  */
  if (br__shape_source (sheet, s)->hole || !is_hole_in (sheet, h, s) || (!told && !br__depth_source (sheet, s)->depth))
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
    status = lies_within (&within, &one, s);
  if (status == BR_OK && sign < 0 && !within && !told && !reaches_around (sheet, s, h))
    status = br__is_peg (&within, sheet, s, h);
  *pierced = status == BR_OK && sign < 0 && !within;
  br__value_clear (&apart);
  br__numbers_clear (&n[0]);
  br__numbers_clear (&n[1]);
  return status == BR_DOMAIN || status == BR_UNDECIDED ? BR_OK : status;
}
