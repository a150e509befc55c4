/* SPDX-License-Identifier: GPL-3.0-or-later
   table.c - rows of cells that are written in columns.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/table.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "escape.h"

#define INDENT 2
#define GAP 2
#define LEAST_COLUMN 6

void
table_start (table *t, size_t columns, const char *const *headings)
{
  t->columns = columns;
  for (size_t i = 0; i < columns; i++)
    table_add (t, headings[i]);
}

void
table_add (table *t, const char *text)
{
  if (t->count == t->room)
    {
      size_t room = t->room ? 2 * t->room : 64;
      char **cells = room > SIZE_MAX / sizeof *cells ? NULL
                     : realloc (t->cells, room * sizeof *cells);
      t->failed |= !cells;
      if (!cells)
        return;
      t->cells = cells;
      t->room = room;
    }
  char *cell = escape_text (text, strlen (text));
  t->failed |= !cell;
  if (cell)
    t->cells[t->count++] = cell;
}

void
table_addf (table *t, const char *format, ...)
{
  va_list args;
  char *text = NULL;
  va_start (args, format);
  int length = vasprintf (&text, format, args);
  va_end (args);
  t->failed |= length < 0;
  if (length < 0)
    return;
  table_add (t, text);
  free (text);
}

static size_t
all_rows (const table *t)
{
  return t->columns ? t->count / t->columns : 0;
}

size_t
table_rows (const table *t)
{
  size_t rows = all_rows (t);
  return rows ? rows - 1 : 0;
}

static int
cell_width (const char *cell)
{
  return escape_width (cell, strlen (cell));
}

/* The width of each column, 0 for one that has nothing under its heading.  */
static void
measure (int widths[TABLE_COLUMNS], const table *t)
{
  memset (widths, 0, TABLE_COLUMNS * sizeof widths[0]);
  for (size_t i = t->columns; i < all_rows (t) * t->columns; i++)
    {
      int width = cell_width (t->cells[i]);
      if (width > widths[i % t->columns])
        widths[i % t->columns] = width;
    }
  for (size_t i = 0; i < t->columns && i < t->count; i++)
    {
      int width = cell_width (t->cells[i]);
      if (widths[i] > 0 && width > widths[i])
        widths[i] = width;
    }
}

/* Takes characters from the widest of the columns from FIRST on; 1 once the row fits.  */
static int
fit_from (int widths[TABLE_COLUMNS], const table *t, size_t first, int limit)
{
  for (;;)
    {
      int total = INDENT;
      size_t widest = first;
      for (size_t i = 0; i < t->columns; i++)
        {
          total += widths[i] ? widths[i] + GAP : 0;
          if (i > first && widths[i] > widths[widest])
            widest = i;
        }
      if (total - GAP <= limit)
        return 1;
      if (first >= t->columns || widths[widest] <= LEAST_COLUMN)
        return 0;
      widths[widest]--;
    }
}

/* The columns to be kept whole are cut only where the others at their least leave no room.  */
static void
fit (int widths[TABLE_COLUMNS], const table *t, int limit)
{
  if (!fit_from (widths, t, t->keep, limit) && t->keep > 0)
    (void) fit_from (widths, t, 0, limit);
}

/* CELL in WIDTH columns; its end is cut, and the cut is shown, where it is too wide.  */
static void
put_cell (const display *d, const char *cell, int width, int last)
{
  escape_char c;
  size_t length = strlen (cell);
  int whole = cell_width (cell);
  const char *dots = display_sign (d, "\xe2\x80\xa6", "...");
  int room = whole > width ? width - (d->utf8 ? 1 : 3) : width;
  int used = 0;
  size_t i = 0;
  for (; i < length; i += c.bytes)
    {
      escape_next (&c, cell + i, length - i);
      if (used + c.width > room)
        break;
      fputs (c.shown, d->stream);
      used += c.width;
    }
  if (i < length)
    {
      fputs (dots, d->stream);
      used += d->utf8 ? 1 : 3;
    }
  if (!last)
    display_repeat (d, " ", width - used + GAP);
}

/* The last cell of ROW that has anything in it, so that no line ends in blanks.  */
static size_t
last_cell (const int *widths, const table *t, size_t row)
{
  size_t last = 0;
  for (size_t i = 0; i < t->columns; i++)
    if (widths[i] > 0 && *t->cells[row * t->columns + i])
      last = i;
  return last;
}

void
table_put (const table *t, const display *d)
{
  int widths[TABLE_COLUMNS];
  measure (widths, t);
  fit (widths, t, d->width);
  for (size_t row = 0; row < all_rows (t) && !display_is_stopped (d); row++)
    {
      size_t last = last_cell (widths, t, row);
      display_repeat (d, " ", INDENT);
      if (row == 0)
        display_bold (d, 1);
      for (size_t i = 0; i <= last; i++)
        if (widths[i] > 0)
          put_cell (d, t->cells[row * t->columns + i], widths[i], i == last);
      if (row == 0)
        display_bold (d, 0);
      putc ('\n', d->stream);
    }
}

void
table_clear (table *t)
{
  table zero = TABLE_ZERO;
  for (size_t i = 0; i < t->count; i++)
    free (t->cells[i]);
  free (t->cells);
  *t = zero;
}
