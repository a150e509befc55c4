/* SPDX-License-Identifier: LGPL-3.0-or-later
   ink_map.c - which cells of a page are touched.  It only steers where texts go, so rough arithmetic will do; in
   whole numbers, so that it is the same on every machine.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "plot/ink_map.h"
#include "exact/memory.h"
#include "exact/wide.h"

#define CELL (BR__INCH / 40)
#define MOST_CELLS (INT64_C (1) << 22)
#define MOST_STEPS 20000        /* around a curve */
#define PART 65536              /* places are in 65,536ths of a cell */
#define ALL (INT64_C (1) << 40) /* how much of a segment: all of it */

void
br__ink_map_clear (br__ink_map *m)
{
  br__free (m->cells);
  memset (m, 0, sizeof *m);
}

/* ---- Segments ---- */

typedef struct walk
{
  int64_t at[2], run[2], steps; /* where it begins, and how far it goes in all its steps */
} walk;

/* N of D, no less than nothing and no more than ALL.  */
static int64_t
share (int64_t n, int64_t d)
{
  if (d < 0)
    {
      n = -n;
      d = -d;
    }
  return n <= 0 ? 0 : n >= d ? ALL : br__scale_by (n, ALL, d);
}

/* The part of a segment that lies inside the map, in steps of half a cell; 0 if none does.  */
static int
walk_start (walk *w, const br__ink_map *m, int64_t x, int64_t y, int64_t x2, int64_t y2)
{
  const int64_t start[] = { br__scale_by (x - m->within.x, PART, m->cell), br__scale_by (y - m->within.y, PART, m->cell) };
  const int64_t end[] = { br__scale_by (x2 - m->within.x, PART, m->cell), br__scale_by (y2 - m->within.y, PART, m->cell) };
  const int64_t most[] = { m->width * PART, m->height * PART };
  int64_t low = 0, high = ALL, longest = 0;
  for (int i = 0; i < 2; i++)
    {
      int64_t run = end[i] - start[i];
      if (run == 0 && (start[i] < 0 || start[i] >= most[i]))
        return 0;
      if (run == 0)
        continue;
      int64_t s = share (-start[i], run), t = share (most[i] - start[i], run);
      low = (s < t ? s : t) > low ? (s < t ? s : t) : low;
      high = (s < t ? t : s) < high ? (s < t ? t : s) : high;
      longest = llabs (run) > longest ? llabs (run) : longest;
    }
  if (low >= high)
    return 0;
  w->steps = br__scale_by (high - low, longest, ALL / 2 * PART) + 1;
  for (int i = 0; i < 2; i++)
    {
      w->at[i] = start[i] + br__scale_by (end[i] - start[i], low, ALL);
      w->run[i] = br__scale_by (end[i] - start[i], high - low, ALL);
    }
  return 1;
}

/* The cell of step I, or NULL where rounding leaves the map.  */
static uint8_t *
walk_cell (const walk *w, const br__ink_map *m, int64_t i)
{
  /* Some millions of cells and of steps at the most: it fits.  */
  int64_t x = w->at[0] + w->run[0] * i / w->steps, y = w->at[1] + w->run[1] * i / w->steps;
  if (x < 0 || y < 0 || x >= m->width * PART || y >= m->height * PART)
    return NULL;
  return &m->cells[y / PART * m->width + x / PART];
}

/* The cells to the left of CELL, above it and below it.  */
static void
put_end (br__ink_map *m, uint8_t *cell)
{
  ptrdiff_t at = cell - m->cells;
  if (at % m->width)
    cell[-1] |= BR__CELL_KEPT;
  if (at >= m->width)
    cell[-m->width] |= BR__CELL_KEPT;
  if (at + m->width < m->width * m->height)
    cell[m->width] |= BR__CELL_KEPT;
}

void
br__ink_map_line (br__ink_map *m, int64_t x, int64_t y, int64_t x2, int64_t y2, unsigned what)
{
  walk w;
  uint8_t *cell;
  if (!walk_start (&w, m, x, y, x2, y2))
    return;
  for (int64_t i = 0; i <= w.steps; i++)
    if ((cell = walk_cell (&w, m, i)) != NULL)
      {
        *cell |= (uint8_t) what;
        /* Two slanting lines may cross between cells; beside these they cannot.  */
        if (what == BR__CELL_KEPT && (cell - m->cells + 1) % m->width)
          cell[1] |= (uint8_t) what;
        /* Nor may one touch the end of another.  */
        if (what == BR__CELL_KEPT && (i == 0 || i == w.steps))
          put_end (m, cell);
      }
}

/* From LAST to CELL, which may only meet at a corner: the line runs through one of the two beside it, and may not where that
   costs LIMIT.  */
static unsigned
corner_cost (const br__ink_map *m, const uint8_t *last, const uint8_t *cell, const unsigned price[BR__CELLS], unsigned limit)
{
  ptrdiff_t from = last - m->cells, to = cell - m->cells;
  ptrdiff_t across = to % m->width - from % m->width;
  if (across == 0 || to / m->width == from / m->width)
    return 0;
  return price[last[across]] >= limit || price[cell[-across]] >= limit ? limit : 0;
}

unsigned
br__ink_map_line_cost (const br__ink_map *m, int64_t x, int64_t y, int64_t x2, int64_t y2,
                       const unsigned price[BR__CELLS], unsigned limit)
{
  walk w;
  unsigned cost = 0;
  const uint8_t *cell, *last = NULL;
  if (!walk_start (&w, m, x, y, x2, y2))
    return 0;
  for (int64_t i = 0; i <= w.steps && cost < limit; i++, last = cell)
    if ((cell = walk_cell (&w, m, i)) != NULL && cell != last)
      cost += price[*cell] + (last ? corner_cost (m, last, cell, price, limit) : 0);
  return cost;
}

/* ---- Rectangles ---- */

typedef struct cells
{
  int64_t x, y, x2, y2;         /* the last are outside */
} cells;

static int64_t
cell_of (int64_t place, int64_t cell, int up)
{
  int64_t n = place / cell;
  if (up)
    return n + (place > n * cell);
  return n - (place < n * cell);
}

static cells
cells_of (const br__ink_map *m, br__area a)
{
  return (cells) { cell_of (a.x - m->within.x, m->cell, 0), cell_of (a.y - m->within.y, m->cell, 0),
                   cell_of (a.x2 - m->within.x, m->cell, 1), cell_of (a.y2 - m->within.y, m->cell, 1) };
}

void
br__ink_map_fill (br__ink_map *m, br__area a, unsigned what)
{
  cells c = cells_of (m, a);
  c.x = c.x < 0 ? 0 : c.x;
  c.y = c.y < 0 ? 0 : c.y;
  c.x2 = c.x2 > m->width ? m->width : c.x2;
  c.y2 = c.y2 > m->height ? m->height : c.y2;
  for (int64_t y = c.y; y < c.y2; y++)
    for (int64_t x = c.x; x < c.x2; x++)
      m->cells[y * m->width + x] |= (uint8_t) what;
}

unsigned
br__ink_map_cost (const br__ink_map *m, br__area a, const unsigned price[BR__CELLS], unsigned limit)
{
  cells c = cells_of (m, a);
  unsigned cost = 0;
  if (c.x < 0 || c.y < 0 || c.x2 > m->width || c.y2 > m->height)
    return limit;
  for (int64_t y = c.y; y < c.y2 && cost < limit; y++)
    for (int64_t x = c.x; x < c.x2; x++)
      cost += price[m->cells[y * m->width + x]];
  return cost;
}

int
br__ink_map_is_free (const br__ink_map *m, br__area a)
{
  static const unsigned price[BR__CELLS] = { 0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1 };
  return br__ink_map_cost (m, a, price, 1) < 1;
}

int
br__ink_map_place (int64_t *x, int64_t *y, const br__ink_map *m, int64_t wide, int64_t high, int from_top)
{
  const int64_t air = BR__FREE_AIR, step = BR__FREE_STEP;
  const br__area *a = &m->within;
  const int64_t highest = a->y + air, lowest = a->y2 - air - high;
  for (int64_t top = from_top ? highest : lowest; top >= highest && top <= lowest; top += from_top ? step : -step)
    for (int64_t left = a->x + air; left <= a->x2 - air - wide; left += step)
      if (br__ink_map_is_free (m, (br__area) { left - air, top - air, left + wide + air, top + high + air }))
        {
          *x = left;
          *y = top;
          return 1;
        }
  return 0;
}

void
br__ink_map_keep_joins (br__ink_map *m, const br__plot *p)
{
  const int64_t air = BR__INCH / 32;
  for (int i = 0; i < 2; i++)
    for (int64_t at = p->sheet[i] + BR__JOIN / 2; p->sheet[i] && at < (i ? p->height : p->width); at += p->sheet[i])
      br__ink_map_fill (m, i ? (br__area) { 0, at - air, p->width, at + air } : (br__area) { at - air, 0, at + air, p->height },
                        BR__CELL_KEPT);
}

/* ---- Strokes ---- */

/* The end of an arc, AT its angle.  */
static void
end_of_arc (int64_t *x, int64_t *y, const br__path_step *arc, int64_t at)
{
  int64_t sine, cosine;
  br__sine_cosine (&sine, &cosine, at);
  *x = arc->x + br__scale_by (arc->r, cosine, BR__INCH);
  *y = arc->y - br__scale_by (arc->r, sine, BR__INCH);
}

/* (A * B + C * D) in billionths.  */
static int64_t
turned (int64_t a, int64_t b, int64_t c, int64_t d)
{
  return br__wide_low (br__wide_over (br__wide_add (br__wide_product (a, b), br__wide_product (c, d)), br__wide_of (BR__INCH)));
}

/* An arc, by turning a pointer in small steps.  */
static void
put_arc (br__ink_map *m, const br__path_step *arc, unsigned what)
{
  int64_t sine, cosine, x, y, steps = arc->r / m->cell * 7 + 8;
  if (steps > MOST_STEPS)
    steps = MOST_STEPS;
  end_of_arc (&x, &y, arc, arc->from);
  x -= arc->x;
  y -= arc->y;
  br__sine_cosine (&sine, &cosine, (arc->to - arc->from) / steps);
  for (int64_t i = 0; i < steps; i++)
    {
      /* Y is down.  */
      int64_t next_x = turned (x, cosine, y, sine), next_y = turned (y, cosine, x, -sine);
      br__ink_map_line (m, arc->x + x, arc->y + y, arc->x + next_x, arc->y + next_y, what);
      x = next_x;
      y = next_y;
    }
}

/* The outline of INK, step by step.  */
static void
put_outline (br__ink_map *m, const br__ink *ink, unsigned what)
{
  br__path_step room[BR__MOST_STEPS];
  size_t count;
  const br__path_step *steps = br__ink_steps (&count, room, ink);
  int64_t start[2] = { 0, 0 }, at[2] = { 0, 0 };
  int begun = 0;
  for (const br__path_step *s = steps; s < steps + count; s++)
    {
      int64_t next[2] = { s->x, s->y };
      if (s->type == BR__STEP_ARC)
        end_of_arc (&next[0], &next[1], s, s->from);
      if (s->type == BR__STEP_CLOSE)
        memcpy (next, start, sizeof next);
      if (begun && s->type != BR__STEP_MOVE)
        br__ink_map_line (m, at[0], at[1], next[0], next[1], what);
      else
        memcpy (start, next, sizeof start);
      begun = s->type != BR__STEP_CLOSE;
      if (s->type == BR__STEP_ARC)
        {
          put_arc (m, s, what);
          end_of_arc (&next[0], &next[1], s, s->to);
        }
      memcpy (at, next, sizeof at);
    }
}

static void
put_ink (br__ink_map *m, const br__ink *ink)
{
  int keep = ink->group == BR__GROUP_DIMENSIONS || ink->group == BR__GROUP_LEADERS;
  /* A hidden line is thin, and an edge all the same.  */
  int edge = ink->pen == BR__PEN_OUTLINE || ink->group == BR__GROUP_OUTLINES;
  unsigned what = keep ? BR__CELL_KEPT : edge ? BR__CELL_OUTLINE : BR__CELL_THIN;
  if (ink->type == BR__INK_ARROW)
    br__ink_map_line (m, ink->x, ink->y, ink->x2, ink->y2, what);
  else if (ink->type != BR__INK_TEXT)
    put_outline (m, ink, what);
}

int
br__ink_map_make (br__ink_map *m, const br__plot *p, br__area within)
{
  memset (m, 0, sizeof *m);
  m->within = within;
  m->cell = CELL;
  do
    {
      m->width = (within.x2 - within.x) / m->cell;
      m->height = (within.y2 - within.y) / m->cell;
      m->cell *= 2;
    }
  while (m->width > 0 && m->height > MOST_CELLS / m->width);
  m->cell /= 2;
  if (m->width < 0 || m->height < 0)
    m->width = m->height = 0;
  m->cells = br__alloc_zero ((size_t) (m->width * m->height) + 1, 1);
  if (!m->cells)
    return 0;
  for (size_t i = 0; i < p->count; i++)
    if (p->inks[i].pen != BR__PEN_GRID)
      put_ink (m, &p->inks[i]);
  for (size_t i = 0; i < p->taken_count; i++)
    br__ink_map_fill (m, p->taken[i], BR__CELL_TEXT);
  return 1;
}
