/* SPDX-License-Identifier: LGPL-3.0-or-later
   ink_map.c - which cells of a page are touched.  It only steers where texts go, so rough arithmetic will
   do.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/ink_map.h"
#include "exact/memory.h"

#define CELL (BR__INCH / 40)
#define MOST_CELLS (INT64_C (1) << 22)
#define MOST_STEPS 20000        /* around a curve */

void
br__ink_map_clear (br__ink_map *m)
{
  br__free (m->cells);
  memset (m, 0, sizeof *m);
}

/* ---- Segments ---- */

typedef struct walk
{
  double x, y, step_x, step_y;  /* in cells */
  int64_t steps;
} walk;

/* The part of a segment that lies inside the map, in steps of half a cell; 0 if none does.  */
static int
walk_start (walk *w, const br__ink_map *m, int64_t x, int64_t y, int64_t x2, int64_t y2)
{
  double start[] = { (double) (x - m->within.x) / (double) m->cell, (double) (y - m->within.y) / (double) m->cell };
  double end[] = { (double) (x2 - m->within.x) / (double) m->cell, (double) (y2 - m->within.y) / (double) m->cell };
  double most[] = { (double) m->width, (double) m->height }, low = 0, high = 1, longest = 0;
  for (int i = 0; i < 2; i++)
    {
      double run = end[i] - start[i], s, t;
      if (run == 0)
        {
          if (start[i] < 0 || start[i] >= most[i])
            return 0;
          continue;
        }
      s = -start[i] / run;
      t = (most[i] - start[i]) / run;
      low = (s < t ? s : t) > low ? (s < t ? s : t) : low;
      high = (s < t ? t : s) < high ? (s < t ? t : s) : high;
      longest = (run < 0 ? -run : run) > longest ? (run < 0 ? -run : run) : longest;
    }
  if (low >= high)
    return 0;
  w->steps = (int64_t) ((high - low) * longest * 2) + 1;
  w->x = start[0] + low * (end[0] - start[0]);
  w->y = start[1] + low * (end[1] - start[1]);
  w->step_x = (high - low) * (end[0] - start[0]) / (double) w->steps;
  w->step_y = (high - low) * (end[1] - start[1]) / (double) w->steps;
  return 1;
}

/* The cell of step I, or NULL where rounding leaves the map.  */
static uint8_t *
walk_cell (const walk *w, const br__ink_map *m, int64_t i)
{
  double x = w->x + (double) i * w->step_x, y = w->y + (double) i * w->step_y;
  if (x < 0 || y < 0 || x >= (double) m->width || y >= (double) m->height)
    return NULL;
  return &m->cells[(int64_t) y * m->width + (int64_t) x];
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
      }
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
      cost += price[*cell];
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

/* ---- Strokes ---- */

/* The end of an arc, AT its angle.  */
static void
end_of_arc (int64_t *x, int64_t *y, const br__path_step *arc, int64_t at)
{
  int64_t sine, cosine;
  br__sine_cosine (&sine, &cosine, at);
  *x = arc->x + (int64_t) ((double) arc->r * 1e-9 * (double) cosine);
  *y = arc->y - (int64_t) ((double) arc->r * 1e-9 * (double) sine);
}

/* An arc, by turning a pointer in small steps.  */
static void
put_arc (br__ink_map *m, const br__path_step *arc, unsigned what)
{
  int64_t sine, cosine, steps = arc->r / m->cell * 7 + 8;
  if (steps > MOST_STEPS)
    steps = MOST_STEPS;
  br__sine_cosine (&sine, &cosine, arc->from);
  double x = (double) arc->r * 1e-9 * (double) cosine, y = (double) arc->r * 1e-9 * (double) sine;
  br__sine_cosine (&sine, &cosine, (arc->to - arc->from) / steps);
  double s = (double) sine * 1e-9, c = (double) cosine * 1e-9;
  for (int64_t i = 0; i < steps; i++)
    {
      double next_x = x * c - y * s, next_y = x * s + y * c;
      br__ink_map_line (m, arc->x + (int64_t) x, arc->y - (int64_t) y, arc->x + (int64_t) next_x,
                        arc->y - (int64_t) next_y, what);
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

/* All of a bar, so that no text goes into it.  */
static void
put_bar (br__ink_map *m, const br__ink *ink, unsigned what)
{
  double run = (double) (ink->x2 - ink->x), rise = (double) (ink->y2 - ink->y);
  double longest = (run < 0 ? -run : run) > (rise < 0 ? -rise : rise) ? run : rise;
  int64_t half = ink->r > m->cell ? ink->r : m->cell;
  int64_t steps = (int64_t) ((longest < 0 ? -longest : longest) / (double) half * 2) + 1;
  steps = steps > MOST_STEPS ? MOST_STEPS : steps;
  for (int64_t i = 0; i <= steps; i++)
    {
      int64_t x = ink->x + (int64_t) (run * (double) i / (double) steps);
      int64_t y = ink->y + (int64_t) (rise * (double) i / (double) steps);
      br__ink_map_fill (m, (br__area) { x - half, y - half, x + half, y + half }, what);
    }
}

static void
put_ink (br__ink_map *m, const br__ink *ink)
{
  int keep = ink->group == BR__GROUP_DIMENSIONS || ink->group == BR__GROUP_LEADERS;
  unsigned what = keep ? BR__CELL_KEPT : ink->pen == BR__PEN_OUTLINE ? BR__CELL_OUTLINE : BR__CELL_THIN;
  if (ink->type == BR__INK_BAR)
    put_bar (m, ink, what);
  else if (ink->type == BR__INK_ARROW)
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
