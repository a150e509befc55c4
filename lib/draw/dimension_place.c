/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension_place.c - gives each dimension line its tier, its text a place, and draws them.

   ALONG is the way a size is measured, ACROSS the way its extension lines run: toward smaller numbers, down
   or to the left.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>

#include "draw/dimension_line.h"

#define TEXT_SIZE BR__SIZE_TEXT
#define GAP (BR__INCH / 16)             /* from the outline to its extension line */
#define PAST (BR__INCH / 8)             /* of the extension line, past the dimension line */
#define ARROW (BR__INCH / 8)
#define TAIL (BR__INCH / 4)             /* of an arrow from outside */
#define AIR (BR__INCH / 24)             /* around a text */
#define FIRST_TIER (BR__INCH * 3 / 8)
#define NEXT_TIER (BR__INCH / 4)
#define MOST_UPRIGHT 4                  /* tiers to the left: each is as wide as a text */
/* How far a line may reach beyond the view: at its lower left corner, where level and upright ones meet, with
   the tail of an arrow at the most.  */
#define SLACK BR__INCH

static int64_t
larger (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

/* Half of the room that the text takes along its line, air included.  */
static int64_t
half_along (const br__size_lines *d, const br__size_line *row)
{
  return (d->upright ? TEXT_SIZE * 6 / 5 : br__text_width (row->text, TEXT_SIZE)) / 2 + AIR;
}

static int64_t
half_across (const br__size_lines *d, const br__size_line *row)
{
  return (d->upright ? br__text_width (row->text, TEXT_SIZE) : TEXT_SIZE * 6 / 5) / 2 + AIR;
}

/* ---- Tiers ---- */

/* How the row lies: text and arrows inside; arrows outside; the text outside, too, after or before.  */
enum { INSIDE, ARROWS_OUT, TEXT_AFTER, TEXT_BEFORE, MANNERS };

/* Gives ROW the manner; 0 where its text cannot lie so.  */
static int
lay (br__size_line *row, const br__size_lines *d, int manner)
{
  int64_t half = half_along (d, row), length = row->to - row->from;
  int inside = length >= 2 * half, roomy = length >= 2 * half + 2 * ARROW;
  row->outside = manner >= TEXT_AFTER;
  row->arrows_outside = manner != INSIDE;
  row->low = row->from - (manner == INSIDE ? 0 : TAIL);
  row->high = row->to + (manner == INSIDE ? 0 : TAIL);
  row->text_at = (row->from + row->to) / 2;
  if (manner == TEXT_AFTER)
    {
      row->text_at = row->high + half;
      row->high += 2 * half;
    }
  if (manner == TEXT_BEFORE)
    {
      row->text_at = row->low - half;
      row->low -= 2 * half;
    }
  return manner == INSIDE ? roomy : manner == ARROWS_OUT ? inside && !roomy : !inside;
}

/* Whether ROW, laid, can lie in TIER; COST counts the lines that would cross.  */
static int
goes_into (size_t *cost, const br__size_line *row, const br__size_lines *d, int tier)
{
  *cost = 0;
  for (const br__size_line *r = d->rows; r < d->rows + d->placed; r++)
    {
      if (r->tier == tier && r->low < row->high && row->low < r->high)
        return 0;
      const br__size_line *outer = r->tier > tier ? r : row, *inner = r->tier > tier ? row : r;
      if (r->tier != tier)
        *cost += (outer->from > inner->low && outer->from < inner->high)
                 + (outer->to > inner->low && outer->to < inner->high);
    }
  return 1;
}

/* The tier with the fewest crossings, the nearest of these.  Rows that found room come to the front.  */
static void
place (br__size_line *row, br__size_lines *d, int64_t low, int64_t high)
{
  size_t least = SIZE_MAX, cost;
  int best = -1, manner = 0, most = d->upright ? MOST_UPRIGHT : BR__MOST_TIERS;
  /* The last tier is kept for the whole.  */
  most -= !row->overall;
  for (int tier = 0; tier <= d->tiers && tier < most && least > 0; tier++)
    for (int i = INSIDE; i < MANNERS; i++)
      if (lay (row, d, i) && row->low >= low - TAIL && row->high <= high + SLACK
          && goes_into (&cost, row, d, tier) && cost < least)
        {
          least = cost;
          best = tier;
          manner = i;
        }
  if (best < 0)
    {
      d->left_out++;
      return;
    }
  lay (row, d, manner);
  row->tier = best;
  if (best == d->tiers)
    d->tiers++;
  d->before = larger (d->before, low - row->low);
  d->after = larger (d->after, row->high - high);
  br__size_line left_out = d->rows[d->placed];
  d->rows[d->placed++] = *row;
  if (row >= d->rows + d->placed)
    *row = left_out;
}

static int
compare_rows (const void *a, const void *b)
{
  const br__size_line *x = a, *y = b;
  int64_t m = x->to - x->from, n = y->to - y->from;
  if (m != n)
    return m < n ? -1 : 1;
  return x->from < y->from ? -1 : x->from > y->from;
}

/* 1 if no extension line of a farther tier runs through the text of ROW at AT.  */
static int
text_is_clear (const br__size_line *row, const br__size_lines *d, int64_t at)
{
  int64_t half = half_along (d, row);
  for (const br__size_line *r = d->rows; r < d->rows + d->placed; r++)
    if (r->tier > row->tier
        && ((r->from > at - half && r->from < at + half) || (r->to > at - half && r->to < at + half)))
      return 0;
  return 1;
}

/* Moves the text of ROW off lines that run through it, no farther than need be.  */
static void
move_text (br__size_line *row, const br__size_lines *d)
{
  int64_t half = half_along (d, row), spare = row->arrows_outside ? 0 : ARROW;
  int64_t low = row->from + spare + half, high = row->to - spare - half, middle = row->text_at;
  int64_t best = INT64_MAX;
  if (row->outside || text_is_clear (row, d, middle))
    return;
  for (const br__size_line *r = d->rows; r < d->rows + d->placed; r++)
    for (int i = 0; r->tier > row->tier && i < 4; i++)
      {
        int64_t at = (i & 1 ? r->from : r->to) + (i & 2 ? half : -half);
        if (at >= low && at <= high && llabs (at - middle) < best && text_is_clear (row, d, at))
          {
            best = llabs (at - middle);
            row->text_at = at;
          }
      }
}

/* How far each tier lies from the view.  */
static void
set_offsets (br__size_lines *d)
{
  int64_t half[BR__MOST_TIERS] = { 0 };
  for (size_t i = 0; i < d->placed; i++)
    half[d->rows[i].tier] = larger (half[d->rows[i].tier], half_across (d, &d->rows[i]));
  for (int i = 0; i < d->tiers; i++)
    {
      int64_t least = i ? larger (NEXT_TIER, half[i - 1] + half[i]) : larger (FIRST_TIER, half[0] + GAP);
      d->offset[i] = (i ? d->offset[i - 1] : 0) + least;
      d->depth = d->offset[i] + larger (half[i], PAST + AIR);
    }
}

void
br__size_lines_place (br__size_lines *d, int64_t low, int64_t high)
{
  if (d->count)
    qsort (d->rows, d->count, sizeof *d->rows, compare_rows);
  for (size_t i = 0; i < d->count; i++)
    place (&d->rows[i], d, low, high);
  for (size_t i = 0; i < d->placed; i++)
    move_text (&d->rows[i], d);
  set_offsets (d);
}

/* ---- Strokes ---- */

typedef struct pencil
{
  br__plot *plot;
  int upright;
  int64_t left, top;
  size_t taken;                 /* the first of the texts of these lines */
} pencil;

static int64_t
page_x (const pencil *c, int64_t along, int64_t across)
{
  return c->left + (c->upright ? across : along);
}

static int64_t
page_y (const pencil *c, int64_t along, int64_t across)
{
  return c->top - (c->upright ? along : across);
}

static void
put_line (pencil *c, int64_t along, int64_t across, int64_t along2, int64_t across2)
{
  br__plot_line (c->plot, BR__PEN_THIN, page_x (c, along, across), page_y (c, along, across),
                 page_x (c, along2, across2), page_y (c, along2, across2), 0);
}

/* An extension line at ALONG down from HIGH to LOW, broken where it would run through a text.  */
static void
put_extension (pencil *c, int64_t along, int64_t high, int64_t low)
{
  c->plot->group = BR__GROUP_EXTENSIONS;
  while (high > low)
    {
      int64_t x = page_x (c, along, 0), y = page_y (c, along, 0), stop = low, next = low;
      for (size_t i = c->taken; i < c->plot->taken_count; i++)
        {
          br__area a = c->plot->taken[i];
          int meets = c->upright ? y > a.y && y < a.y2 : x > a.x && x < a.x2;
          int64_t begins = c->upright ? a.x2 - c->left : c->top - a.y;
          int64_t ends = c->upright ? a.x - c->left : c->top - a.y2;
          if (meets && ends < high && begins > stop)
            {
              stop = begins > high ? high : begins;
              next = ends;
            }
        }
      if (high > stop)
        put_line (c, along, high, along, stop);
      high = stop == low ? low : next;
    }
}

/* The extension line at ALONG for all rows that have an end there: from the farthest feature to the outermost
   of their dimension lines.  It is put with the first of these rows.  */
static void
put_shared_extension (pencil *c, const br__size_lines *d, int64_t edge, size_t row, int second)
{
  int64_t along = second ? d->rows[row].to : d->rows[row].from, high = INT64_MIN, low = INT64_MAX;
  for (size_t i = 0; i < d->placed; i++)
    for (int k = 0; k < 2; k++)
      {
        const br__size_line *r = &d->rows[i];
        int64_t feature = k ? r->feature_to : r->feature_from, line = edge - d->offset[r->tier];
        if ((k ? r->to : r->from) != along)
          continue;
        if (i < row)
          return;
        high = feature > high ? feature : high;
        low = line < low ? line : low;
      }
  put_extension (c, along, high - GAP, low - PAST);
}

static void
put_arrow (pencil *c, int64_t along, int64_t across, int64_t from)
{
  br__ink *ink = br__plot_add (c->plot, BR__INK_ARROW, BR__PEN_THIN, page_x (c, along, across),
                               page_y (c, along, across));
  ink->x2 = page_x (c, from, across);
  ink->y2 = page_y (c, from, across);
}

static void
put_dimension_line (pencil *c, const br__size_lines *d, const br__size_line *row, int64_t across)
{
  int64_t half = half_along (d, row);
  c->plot->group = BR__GROUP_DIMENSIONS;
  int64_t from_tail = row->arrows_outside ? row->from - ARROW : row->from + ARROW;
  int64_t to_tail = row->arrows_outside ? row->to + ARROW : row->to - ARROW;
  put_arrow (c, row->from, across, from_tail);
  put_arrow (c, row->to, across, to_tail);
  if (row->arrows_outside)
    {
      put_line (c, row->from - TAIL, across, row->from, across);
      put_line (c, row->to, across, row->to + TAIL, across);
    }
  if (row->outside)
    put_line (c, row->from, across, row->to, across);
  else
    {
      put_line (c, row->from, across, row->text_at - half, across);
      put_line (c, row->text_at + half, across, row->to, across);
    }
}

void
br__size_lines_plot (br__plot *p, const br__size_lines *d, const br__side_view *v, int64_t left, int64_t top)
{
  pencil c = { p, d->upright, left, top, p->taken_count };
  br__group before = p->group;
  p->group = BR__GROUP_DIMENSIONS;
  int64_t edge = d->upright ? v->reach.x : v->reach.y;
  for (size_t i = 0; i < d->placed; i++)
    {
      const br__size_line *row = &d->rows[i];
      int64_t across = edge - d->offset[row->tier];
      br__plot_text (p, page_x (&c, row->text_at, across), page_y (&c, row->text_at, across), BR_ALIGN_MIDDLE, TEXT_SIZE,
                     row->text);
    }
  for (size_t i = 0; i < d->placed; i++)
    {
      put_shared_extension (&c, d, edge, i, 0);
      put_shared_extension (&c, d, edge, i, 1);
      put_dimension_line (&c, d, &d->rows[i], edge - d->offset[d->rows[i].tier]);
    }
  p->group = before;
}
