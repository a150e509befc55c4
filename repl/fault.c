/* SPDX-License-Identifier: GPL-3.0-or-later
   fault.c - a mistake as text.  The caret line is laid out in the columns of the escaped
   line; of a long line only the part around the mistake is shown.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "fault.h"

#include <string.h>

#include "escape.h"

#define SNIPPET_WIDTH 80
#define INDENT 2
#define DOTS "..."
#define DOTS_WIDTH 3

/* All in columns of the shown line.  */
typedef struct window
{
  int start, end;     /* the faulty part; END is past it, always over START */
  int from, to;       /* what is shown of the line */
  int whole;          /* its width */
} window;

static window
find_window (const br_fault *fault, size_t length, int limit)
{
  window w;
  size_t offset = fault->error->offset < length ? fault->error->offset : length;
  size_t span = fault->error->length < length - offset ? fault->error->length : length - offset;
  w.start = escape_width (fault->text, offset);
  w.end = w.start + escape_width (fault->text + offset, span);
  if (w.end <= w.start)
    w.end = w.start + 1;
  w.whole = escape_width (fault->text, length);
  w.from = 0;
  w.to = w.whole > w.end ? w.whole : w.end;
  if (w.to <= limit)
    return w;
  int last = w.to - limit;
  w.from = w.start - limit / 2;
  w.from = w.from < 0 ? 0 : w.from > last ? last : w.from;
  w.to = w.from + limit;
  if (w.end > w.to)
    w.end = w.to;
  return w;
}

static void
put_line (const display *d, const window *w, const char *text, size_t length)
{
  int low = w->from + (w->from > 0 ? DOTS_WIDTH : 0);
  int high = w->to - (w->to < w->whole ? DOTS_WIDTH : 0);
  int column = 0;
  escape_char c;
  display_repeat (d, " ", INDENT);
  fputs (w->from > 0 ? DOTS : "", d->stream);
  for (size_t i = 0; i < length && column < high; i += c.bytes)
    {
      escape_next (&c, text + i, length - i);
      if (column >= low && column + c.width <= high)
        fputs (c.shown, d->stream);
      else if (column < low && column + c.width > low)
        display_repeat (d, " ", column + c.width - low);
      column += c.width;
    }
  fputs (w->to < w->whole ? DOTS : "", d->stream);
  putc ('\n', d->stream);
}

static void
put_caret (const display *d, const window *w)
{
  display_repeat (d, " ", INDENT + w->start - w->from);
  display_bold (d, 1);
  putc ('^', d->stream);
  display_repeat (d, "~", w->end - w->start - 1);
  display_bold (d, 0);
  putc ('\n', d->stream);
}

void
fault_put (const display *d, const br_fault *fault, int place)
{
  size_t length = fault->text_length;
  int limit = (d->width < SNIPPET_WIDTH ? d->width : SNIPPET_WIDTH) - INDENT;
  while (length > 0 && (fault->text[length - 1] == '\n' || fault->text[length - 1] == '\r'))
    length--;
  if (place)
    display_put (d, fault->file);
  if (place && fault->line > 0)
    fprintf (d->stream, ":%zu:%zu", fault->line,
             escape_column (fault->text, length, fault->error->offset));
  fputs (place ? ": " : "", d->stream);
  display_put (d, fault->error->message);
  putc ('\n', d->stream);
  if (length > 0)
    {
      window w = find_window (fault, length, limit);
      put_line (d, &w, fault->text, length);
      put_caret (d, &w);
    }
  if (*fault->error->hint)
    {
      fputs ("hint: ", d->stream);
      display_put (d, fault->error->hint);
      putc ('\n', d->stream);
    }
}
