/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_picture.c - a stick or a board with its cuts in plain characters.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "wood/cut_picture.h"

#define COLUMNS 65      /* the last for the right edge */
#define MOST_ROWS 13

typedef struct grid
{
  char cell[MOST_ROWS][COLUMNS + 1];
  int rows;             /* 2 for a stick: its line and an edge that is not shown */
} grid;

static int
at (int64_t x, int64_t length, int cells)
{
  int64_t c = x * cells / length;
  return c > cells ? cells : (int) c;
}

/* A name goes between two edges as far as there is room; bytes beyond ASCII become '?' so that a column is
   a byte.  */
static void
put_name (char *row, int first, int last, const char *name)
{
  for (; first <= last && *name; name++)
    if (((unsigned char) *name & 0xC0) != 0x80)
      row[first++] = (unsigned char) *name < 0x80 ? *name : '?';
}

static void
outline (grid *g, const br__picture_piece *p, int64_t length, int64_t width)
{
  int left = at (p->x, length, COLUMNS - 1), right = at (p->x + p->length, length, COLUMNS - 1);
  int top = at (p->y, width, g->rows - 1), bottom = at (p->y + p->width, width, g->rows - 1);
  for (int r = top; r <= bottom; r++)
    for (int c = left; c <= right; c++)
      {
        int upright = c == left || c == right, level = r == top || r == bottom;
        g->cell[r][c] = upright && level ? '+' : upright ? '|' : level ? '-' : ' ';
      }
  int middle = bottom - top > 1 ? (top + bottom) / 2 : top;
  put_name (g->cell[middle], left + 1, right - 1, p->name);
}

static void
line (grid *g, const br__picture_piece *p, int64_t length)
{
  int left = at (p->x, length, COLUMNS - 1), right = at (p->x + p->length, length, COLUMNS - 1);
  for (int c = left; c <= right; c++)
    g->cell[0][c] = c == left || c == right ? '|' : '-';
  put_name (g->cell[0], left + 1, right - 1, p->name);
}

/* The edges of the board, where no piece has its own.  */
static void
edges (grid *g)
{
  for (int r = 0; r < g->rows; r++)
    for (int c = 0; c < COLUMNS; c++)
      {
        int upright = c == 0 || c == COLUMNS - 1, level = r == 0 || r == g->rows - 1;
        if (g->cell[r][c] == ' ' && (upright || level))
          g->cell[r][c] = upright && level ? '+' : upright ? '|' : '-';
      }
}

void
br__picture_cuts (br_text *text, int64_t length, int64_t width, const br__picture_piece *pieces,
                  size_t count)
{
  grid g;
  int shown = 1;
  memset (&g, ' ', sizeof g);
  g.rows = 2;
  if (width > 0)
    {
      /* A character is about twice as high as wide.  */
      int64_t rows = width * (COLUMNS - 1) / length / 2 + 1;
      g.rows = shown = rows < 4 ? 4 : rows > MOST_ROWS ? MOST_ROWS : (int) rows;
    }
  for (size_t i = 0; i < count; i++)
    if (width > 0)
      outline (&g, &pieces[i], length, width);
    else
      line (&g, &pieces[i], length);
  if (width > 0)
    edges (&g);
  for (int r = 0; r < shown; r++)
    {
      if (g.cell[r][COLUMNS - 1] == ' ')
        g.cell[r][COLUMNS - 1] = '|';
      br__text_put (text, g.cell[r], COLUMNS);
      br__text_putc (text, '\n');
    }
}
