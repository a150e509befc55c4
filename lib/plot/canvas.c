/* SPDX-License-Identifier: LGPL-3.0-or-later
   canvas.c - dots, and the characters that look like them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/wide.h"
#include "plot/canvas.h"
#include "exact/memory.h"

#define DEGREE INT64_C (1000000000)
#define DASH 4                  /* dots of a dash, and of the gap behind it */
#define HIDDEN 6                /* of a short dash and a gap twice as long, where an edge is behind something */

void
br__canvas_clear (br__canvas *c)
{
  br__free (c->cells);
  br__free (c->marks);
  *c = (br__canvas) BR__CANVAS_ZERO;
}

/* N / D, up.  */
static int64_t
over (int64_t n, int64_t d)
{
  return n / d + (n % d > 0);
}

br_status
br__canvas_open (br__canvas *c, br__area reach, size_t columns, size_t lines)
{
  int64_t wide = reach.x2 - reach.x, high = reach.y2 - reach.y;
  int64_t across = over (wide, (int64_t) columns * BR__CELL_WIDE - 1), up = over (high, (int64_t) lines * BR__CELL_HIGH - 1);
  br__canvas_clear (c);
  c->unit = across > up ? across : up;
  c->unit += c->unit == 0;
  c->left = reach.x;
  c->top = reach.y2;
  /* The farthest dots are at the nearest whole step.  */
  c->columns = (size_t) ((wide + c->unit / 2) / c->unit) / BR__CELL_WIDE + 1;
  c->lines = (size_t) ((high + c->unit / 2) / c->unit) / BR__CELL_HIGH + 1;
  c->cells = br__alloc_zero (c->columns, c->lines);
  c->marks = br__alloc_zero (c->columns, c->lines);
  if (c->cells && c->marks)
    return BR_OK;
  br__canvas_clear (c);
  return BR_NO_MEMORY;
}

/* The dot at a place, from the upper left; 0 where that lies outside.  */
static int
dot_at (size_t *column, size_t *row, const br__canvas *c, int64_t x, int64_t y)
{
  int64_t across = x - c->left + c->unit / 2, down = c->top - y + c->unit / 2;
  if (across < 0 || down < 0)
    return 0;
  *column = (size_t) (across / c->unit);
  *row = (size_t) (down / c->unit);
  return *column < c->columns * BR__CELL_WIDE && *row < c->lines * BR__CELL_HIGH;
}

int
br__canvas_cell (size_t *cell, const br__canvas *c, int64_t x, int64_t y)
{
  size_t column, row;
  if (!dot_at (&column, &row, c, x, y))
    return 0;
  *cell = row / BR__CELL_HIGH * c->columns + column / BR__CELL_WIDE;
  return 1;
}

/* The bits of braille: dots 1 2 3 down the left, 4 5 6 down the right, 7 and 8 below them.  */
static const unsigned char bits[BR__CELL_HIGH][BR__CELL_WIDE] = { { 1, 8 }, { 2, 16 }, { 4, 32 }, { 64, 128 } };

static void
put_dot (br__stylus *s, int64_t x, int64_t y)
{
  br__canvas *c = s->canvas;
  size_t column, row;
  if (!dot_at (&column, &row, c, x, y) || (s->walked && column == s->column && row == s->row))
    return;
  s->column = column;
  s->row = row;
  const br__edge_state state = s->state (s->of, x, y, c->unit / 4);
  const int hidden = state == BR__EDGE_HIDDEN;
  if (state == BR__EDGE_GONE)
    return;
  s->hides |= hidden;
  if (hidden ? s->walked % HIDDEN < HIDDEN / 3 : !s->dashed || s->walked / DASH % 2 == 0)
    c->cells[row / BR__CELL_HIGH * c->columns + column / BR__CELL_WIDE] |= bits[row % BR__CELL_HIGH][column % BR__CELL_WIDE];
  s->walked++;
}

static int64_t
size_of (int64_t x)
{
  return x < 0 ? -x : x;
}

void
br__stylus_to (br__stylus *s, int64_t x, int64_t y)
{
  int64_t dx = x - s->x, dy = y - s->y, longer = size_of (dx) > size_of (dy) ? size_of (dx) : size_of (dy);
  int64_t n = longer / s->canvas->unit + 1;
  for (int64_t i = 0; i <= n; i++)
    put_dot (s, s->x + br__scale_by (dx, i, n), s->y + br__scale_by (dy, i, n));
  s->x = x;
  s->y = y;
}

/* By chords of at most two degrees, which a picture of this size cannot tell from the arc.  */
void
br__stylus_arc (br__stylus *s, int64_t x, int64_t y, int64_t r, int64_t from, int64_t turn)
{
  int64_t steps = over (size_of (turn), 2 * DEGREE), sine, cosine;
  if (r / s->canvas->unit < 8)
    steps = steps / 4 + 1;
  for (int64_t i = 0; i <= steps; i++)
    {
      br__sine_cosine (&sine, &cosine, from + (steps ? br__scale_by (turn, i, steps) : 0));
      int64_t to_x = x + br__scale_by (r, cosine, DEGREE), to_y = y + br__scale_by (r, sine, DEGREE);
      if (i == 0)
        {
          s->x = to_x;
          s->y = to_y;
        }
      br__stylus_to (s, to_x, to_y);
    }
}

/* ---- Characters ---- */

/* A plain character for the dots of CELL: a level one by its height, an upright one, a slope.  */
static char
plain_char (unsigned cell)
{
  int top = BR__CELL_HIGH, bottom = -1, sum[2] = { 0, 0 }, count[2] = { 0, 0 };
  for (int row = 0; row < BR__CELL_HIGH; row++)
    for (int side = 0; side < BR__CELL_WIDE; side++)
      if (cell & bits[row][side])
        {
          top = row < top ? row : top;
          bottom = row;
          sum[side] += row;
          count[side]++;
        }
  if (bottom < 0)
    return ' ';
  if (top == bottom)
    return top == 0 ? (count[0] && count[1] ? '"' : '\'') : top < 3 ? '-' : count[0] && count[1] ? '_' : '.';
  if (!count[0] || !count[1])
    return '|';
  /* The mean rows of the two sides, brought to one denominator.  */
  int left = sum[0] * count[1], right = sum[1] * count[0];
  if (count[0] + count[1] > 5)
    return '#';
  return left > right ? '/' : left < right ? '\\' : bottom - top > 1 ? '|' : top < 2 ? '-' : '=';
}

/* U+2800 and on in UTF-8.  */
static void
put_braille (br_text *t, unsigned cell)
{
  br__text_putc (t, (char) 0xE2);
  br__text_putc (t, (char) (0xA0 | cell >> 6));
  br__text_putc (t, (char) (0x80 | (cell & 0x3F)));
}

void
br__canvas_line (br_text *t, const br__canvas *c, size_t i, int dots)
{
  const unsigned char *cells = c->cells + i * c->columns;
  const char *marks = c->marks + i * c->columns;
  size_t last = c->columns;
  while (last && !cells[last - 1] && !marks[last - 1])
    last--;
  for (size_t k = 0; k < last; k++)
    if (marks[k])
      br__text_putc (t, marks[k]);
    else if (dots && cells[k])
      put_braille (t, cells[k]);
    else
      br__text_putc (t, dots ? ' ' : plain_char (cells[k]));
}
