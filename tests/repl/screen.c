/* SPDX-License-Identifier: GPL-3.0-or-later
   screen.c - what a terminal would show: cursor movement, erasing, inserting and deleting
   as ECMA-48 has them (CSI A B C D G H J K P @); colours and modes are passed over.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "screen.h"

#include <stdlib.h>
#include <string.h>

void
screen_init (screen *s, int rows, int columns)
{
  memset (s, 0, sizeof *s);
  s->rows = rows;
  s->columns = columns;
}

static void
erase (screen *s, int row, int from, int to)
{
  for (int i = from; i < to; i++)
    s->cells[row][i][0] = '\0';
}

static void
erase_below (screen *s)
{
  erase (s, s->row, s->column, SCREEN_COLUMNS);
  for (int row = s->row + 1; row < SCREEN_ROWS; row++)
    erase (s, row, 0, SCREEN_COLUMNS);
}

/* Takes COUNT cells out at the cursor, or puts as many blank ones in.  */
static void
shift (screen *s, int count, int out)
{
  char (*line)[5] = s->cells[s->row];
  int rest = SCREEN_COLUMNS - s->column - count;
  if (rest <= 0)
    return;
  if (out)
    memmove (line[s->column], line[s->column + count], (size_t) rest * sizeof line[0]);
  else
    memmove (line[s->column + count], line[s->column], (size_t) rest * sizeof line[0]);
  if (out)
    erase (s, s->row, SCREEN_COLUMNS - count, SCREEN_COLUMNS);
  else
    erase (s, s->row, s->column, s->column + count);
}

static int
within (int value, int limit)
{
  return value < 0 ? 0 : value >= limit ? limit - 1 : value;
}

static void
run_control (screen *s, char final)
{
  int given = atoi (s->control);
  int count = given > 0 ? given : 1;
  switch (final)
    {
    case 'A': s->row = within (s->row - count, SCREEN_ROWS); break;
    case 'B': s->row = within (s->row + count, SCREEN_ROWS); break;
    case 'C': s->column = within (s->column + count, s->columns); break;
    case 'D': s->column = within (s->column - count, s->columns); break;
    case 'G': s->column = within (count - 1, s->columns); break;
    case 'J':
      if (given == 0)
        erase_below (s);
      break;
    case 'K':
      erase (s, s->row, given == 0 ? s->column : 0, given == 1 ? s->column + 1 : SCREEN_COLUMNS);
      break;
    case 'P': shift (s, count, 1); break;
    case '@': shift (s, count, 0); break;
    default: break;
    }
}

static void
new_line (screen *s)
{
  s->row = within (s->row + 1, SCREEN_ROWS);
}

static void
put_character (screen *s)
{
  if (s->column >= s->columns)
    {
      s->column = 0;
      new_line (s);
    }
  memcpy (s->cells[s->row][s->column], s->partial, s->partial_length);
  s->cells[s->row][s->column][s->partial_length] = '\0';
  s->column++;
  s->partial_length = 0;
}

static size_t
character_bytes (unsigned char first)
{
  return first < 0x80 ? 1 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : 4;
}

/* A byte of a sequence that began with ESC; 0 when C is not part of one.  */
static int
feed_control (screen *s, char c)
{
  if (s->control_length == 0)
    return 0;
  if (s->control_length == 1)           /* after ESC alone */
    s->control_length = c == '[' ? 2 : 0;
  else if (c >= '@' && c <= '~')
    {
      s->control[s->control_length - 2] = '\0';
      s->control_length = 0;
      run_control (s, c);
    }
  else if (s->control_length < sizeof s->control)
    s->control[s->control_length++ - 2] = c;
  return 1;
}

static void
feed_byte (screen *s, char c)
{
  if (feed_control (s, c))
    return;
  switch (c)
    {
    case '\033': s->control_length = 1; return;
    case '\r': s->column = 0; return;
    case '\n': new_line (s); return;
    case '\b': s->column = within (s->column - 1, s->columns); return;
    case '\a': return;
    default: break;
    }
  s->partial[s->partial_length++] = c;
  if (s->partial_length >= character_bytes ((unsigned char) s->partial[0]))
    put_character (s);
}

void
screen_feed (screen *s, const char *bytes, size_t length)
{
  for (size_t i = 0; i < length; i++)
    feed_byte (s, bytes[i]);
}

static int
row_width (const screen *s, int row)
{
  int width = 0;
  for (int i = 0; i < SCREEN_COLUMNS; i++)
    if (s->cells[row][i][0] && s->cells[row][i][0] != ' ')
      width = i + 1;
  return width;
}

void
screen_put (const screen *s, FILE *stream)
{
  int last = -1;
  for (int row = 0; row < SCREEN_ROWS; row++)
    if (row_width (s, row) > 0)
      last = row;
  for (int row = 0; row <= last; row++)
    {
      for (int i = 0; i < row_width (s, row); i++)
        fputs (s->cells[row][i][0] ? s->cells[row][i] : " ", stream);
      putc ('\n', stream);
    }
}
