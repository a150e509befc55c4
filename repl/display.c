/* SPDX-License-Identifier: GPL-3.0-or-later
   display.c - the capabilities of an output stream, and escaped writing to it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "display.h"

#include <langinfo.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "escape.h"

#define DEFAULT_WIDTH 80
#define LEAST_WIDTH 40

static int
use_color (int fd, display_color color)
{
  const char *no_color = getenv ("NO_COLOR");
  const char *term = getenv ("TERM");
  if (color != DISPLAY_AUTO)
    return color == DISPLAY_ALWAYS;
  return !(no_color && *no_color) && term && *term && strcmp (term, "dumb") != 0
         && isatty (fd);
}

void
display_measure (display *d)
{
  struct winsize size;
  int fd = fileno (d->stream);
  d->width = DEFAULT_WIDTH;
  d->height = 0;
  d->terminal = isatty (fd);
  if (!d->terminal || ioctl (fd, TIOCGWINSZ, &size) != 0)
    return;
  d->height = size.ws_row;
  if (size.ws_col > 0)
    d->width = size.ws_col < LEAST_WIDTH ? LEAST_WIDTH : size.ws_col;
}

void
display_init (display *d, FILE *stream, display_color color)
{
  d->stream = stream;
  d->no_pictures = 0;
  d->stop = NULL;
  d->utf8 = strcmp (nl_langinfo (CODESET), "UTF-8") == 0;
  d->color = use_color (fileno (stream), color);
  display_measure (d);
}

void
display_put_bytes (const display *d, const char *text, size_t length)
{
  escape_char c;
  for (size_t i = 0; i < length; i += c.bytes)
    {
      /* Printable ASCII needs no escaping.  */
      size_t plain = 0;
      while (i + plain < length && text[i + plain] >= ' ' && text[i + plain] <= '~')
        plain++;
      fwrite (text + i, 1, plain, d->stream);
      if ((i += plain) == length)
        return;
      escape_next (&c, text + i, length - i);
      fputs (c.shown, d->stream);
    }
}

void
display_put (const display *d, const char *text)
{
  display_put_bytes (d, text, strlen (text));
}

/* The blank at AT belongs to the number behind it: an approximate sign stands before it.  */
static int
binds (const char *text, size_t at)
{
  return at >= 3 && memcmp (text + at - 3, "\xe2\x89\x88", 3) == 0;
}

void
display_wrap (const display *d, const char *text, int column, int indent)
{
  int first = 1;
  while (*text)
    {
      size_t length = strcspn (text, " ");
      while (text[length] == ' ' && binds (text, length))
        length += 1 + strcspn (text + length + 1, " ");
      int width = escape_width (text, length);
      if (!first && column + 1 + width > d->width)
        {
          putc ('\n', d->stream);
          display_repeat (d, " ", indent);
          column = indent;
        }
      else if (!first)
        {
          putc (' ', d->stream);
          column++;
        }
      display_put_bytes (d, text, length);
      column += width;
      first = 0;
      text += length + strspn (text + length, " ");
    }
  putc ('\n', d->stream);
}

/* The bytes of a sign that takes no room, such as bold on, at TEXT.  */
static size_t
sequence_at (const char *text, size_t length)
{
  size_t i = 2;
  if (length < 3 || text[0] != '\033' || text[1] != '[')
    return 0;
  while (i < length && (text[i] < '@' || text[i] > '~'))
    i++;
  return i < length ? i + 1 : length;
}

/* The offset at which to break a line of LENGTH bytes with WIDTH columns left: its last blank within them, or else the first
   blank.  LENGTH: do not break.  */
static size_t
break_of (const char *text, size_t length, int width)
{
  size_t blank = length, bytes;
  int column = 0, in_text = 0;
  for (size_t i = 0; i < length; i += bytes)
    {
      escape_char c = { .width = 0 };
      if ((bytes = sequence_at (text + i, length - i)) == 0)
        {
          escape_next (&c, text + i, length - i);
          bytes = c.bytes;
        }
      if (text[i] == ' ' && in_text && !binds (text, i) && (column <= width || blank == length))
        blank = i;
      in_text |= text[i] != ' ';
      column += c.width;
      if (column > width && blank < length)
        return blank;
    }
  return column > width ? blank : length;
}

static void
fold_line (const display *d, const char *text, size_t length)
{
  int indent = (int) strspn (text, " "), at = 0;
  indent = indent + 2 < d->width / 2 ? indent + 2 : 2;
  for (size_t end; (end = break_of (text, length, d->width - at)) < length; at = indent)
    {
      size_t shown = end;
      while (shown > 0 && text[shown - 1] == ' ')
        shown--;
      fwrite (text, 1, shown, d->stream);
      putc ('\n', d->stream);
      display_repeat (d, " ", indent);
      end += strspn (text + end, " ");
      text += end;
      length -= end;
    }
  fwrite (text, 1, length, d->stream);
}

void
display_fold (const display *d, const char *text, size_t length)
{
  while (length > 0 && !display_is_stopped (d))
    {
      const char *end = memchr (text, '\n', length);
      size_t line = end ? (size_t) (end - text) : length;
      fold_line (d, text, line);
      if (end)
        putc ('\n', d->stream);
      text += line + (end != NULL);
      length -= line + (end != NULL);
    }
}

void
display_bold (const display *d, int on)
{
  if (d->color)
    fputs (on ? "\033[1m" : "\033[0m", d->stream);
}

int
display_is_stopped (const display *d)
{
  return d->stop && *d->stop;
}

void
display_repeat (const display *d, const char *text, int count)
{
  while (count-- > 0)
    fputs (text, d->stream);
}

const char *
display_sign (const display *d, const char *beyond, const char *ascii)
{
  return d->utf8 ? beyond : ascii;
}
