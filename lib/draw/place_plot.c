/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_plot.c - the table under the drawing: names that found no room, sizes and places that the figure does not say.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/dimension_line.h"
#include "draw/place_table.h"
#include "exact/memory.h"

/* Capitals of 1.8 mm, the least height of ISO 3098-1 (from memory).  */
#define SIZE (7 * BR__POINT)
#define LEADING (SIZE * 7 / 5)
/* Digits of fractions are no lower than 2.5 mm, as on the figure.  */
#define FRACTIONS (39 * BR__POINT / 4)
#define HIGH_LEADING (FRACTIONS * 5 / 4)
#define HEAD (LEADING * 5 / 4)  /* of the heads and the rule under them */
#define GAP (BR__INCH / 10)     /* between the columns of a row */
#define BETWEEN (BR__INCH / 6)  /* between rows side by side */
/* Beyond so many shapes a table would be a book.  */
#define MANY 300
#define NARROW (BR__INCH * 5)   /* room beside a figure, which takes all or nothing */
#define HEADING "From the datum, the small circle"
#define MOST_LINES 12

static int64_t
size_of (const char *text)
{
  return strchr (text, '/') ? FRACTIONS : SIZE;
}

static int64_t
larger (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

static int64_t
leading_of (const char *text)
{
  return size_of (text) > SIZE ? HIGH_LEADING : LEADING;
}

/* In columns of LINES rows; returns the height.  */
static int64_t
put_rows (br__plot *p, const br__place_table *t, int64_t left, int64_t top, const int64_t wide[BR__PLACE_COLUMNS], size_t lines)
{
  static const char *const heads[] = { "dimension", "of", "from" };
  int64_t step = wide[0] + wide[1] + wide[2] + 2 * GAP + BETWEEN, y = top, lowest = top;
  for (size_t i = 0; i < t->count; i++)
    {
      int64_t x = left + (int64_t) (i / lines) * step, high = leading_of (t->rows[i].cell[0]);
      y = i % lines ? y : top + LEADING / 2 + HEAD - LEADING / 2;
      for (int k = 0; k < BR__PLACE_COLUMNS; k++, x += wide[k - 1] + GAP)
        {
          if (i % lines == 0)
            {
              br__plot_text (p, x, top + LEADING / 2, BR_ALIGN_LEFT, SIZE, heads[k]);
              br__plot_line (p, BR__PEN_THIN, x, top + LEADING / 2 + HEAD / 2, x + wide[k], top + LEADING / 2 + HEAD / 2, 0);
            }
          br__plot_fitted (p, x, y + high / 2 + LEADING / 8, BR_ALIGN_LEFT, size_of (t->rows[i].cell[k]), wide[k],
                           t->rows[i].cell[k]);
        }
      y += high;
      lowest = larger (lowest, y);
    }
  return lowest - top;
}

/* The table in as many rows side by side as WIDTH has room for.  The height.  */
static int64_t
put_table (br__plot *p, br__place_table *t, const br__side_view *v, int64_t left, int64_t top, int64_t width)
{
  int64_t wide[BR__PLACE_COLUMNS] = { 0, 0, 0 }, whole = 2 * GAP;
  size_t all = t->count, lines;
  br_text more = BR_TEXT_ZERO;
  int64_t size = SIZE;
  br__text_printf (&more, HEADING "%s:", v->datum.given ? "" : " at the lower left corner");
  /* No row has larger letters than its heading.  */
  for (size_t i = 0; i < t->count; i++)
    size = larger (size, size_of (t->rows[i].cell[0]));
  for (int k = 0; k < BR__PLACE_COLUMNS; k++)
    {
      wide[k] = br__text_width ("dimension", SIZE);
      for (size_t i = 0; i < t->count; i++)
        wide[k] = larger (wide[k], br__text_width (t->rows[i].cell[k], size_of (t->rows[i].cell[k])));
      /* A name too long for the paper keeps its beginning.  */
      if (wide[k] > width / 3 - GAP && width > NARROW)
        wide[k] = width / 3 - GAP;
      whole += wide[k];
    }
  size_t columns = (size_t) larger ((width + BETWEEN) / (whole + BETWEEN), 1);
  lines = (all + columns - 1) / columns;
  if (v->count > MANY && lines > MOST_LINES)
    {
      lines = MOST_LINES;
      br__text_printf (&more, " (and %zu more; `shapes` lists all)", all - columns * lines);
      for (size_t i = columns * lines; i < all; i++)
        for (int k = 0; k < BR__PLACE_COLUMNS; k++)
          br__free (t->rows[i].cell[k]);
      t->count = columns * lines;
    }
  br__plot_text (p, left, top + size * 7 / 10, BR_ALIGN_LEFT, size, br__text_string (&more));
  p->failed |= more.failed;
  br__text_clear (&more);
  int64_t high = size * 7 / 5 + put_rows (p, t, left, top + size * 7 / 5, wide, lines);
  columns = t->count ? (t->count + lines - 1) / lines : 0;
  p->width = larger (p->width, left + (int64_t) columns * (whole + BETWEEN) - BETWEEN);
  p->width = larger (p->width, left + br__text_width (HEADING, size));
  return high + LEADING / 2;
}

static void
put_names_line (br__plot *p, const br_text *t, int64_t left, int64_t *top, int64_t width)
{
  int64_t size = size_of (br__text_string (t)), leading = leading_of (br__text_string (t));
  br__plot_fitted (p, left, *top + leading / 2, BR_ALIGN_LEFT, size, width, br__text_string (t));
  p->width = larger (p->width, left + width);
  *top += leading;
}

/* The names that found no room, with the numbers of their balloons.  */
static void
put_names (br__plot *p, const br__side_view *v, int64_t left, int64_t *top, int64_t width)
{
  br_text t = BR_TEXT_ZERO, name = BR_TEXT_ZERO;
  size_t lines = 0;
  for (size_t i = 0; i < v->count && !(v->count > MANY && lines > MOST_LINES); i++)
    if (v->shapes[i].unlabelled)
      {
        br__text_reset (&name);
        if (v->shapes[i].balloon)
          br__text_printf (&name, "(%zu) %s", v->shapes[i].balloon, v->shapes[i].label);
        else
          br__text_puts (&name, v->shapes[i].label);
        size_t length = t.length;
        br__text_printf (&t, "%s%s", t.length ? "; " : "", br__text_string (&name));
        if (length && br__text_width (br__text_string (&t), size_of (br__text_string (&t))) > width)
          {
            t.length = length;
            t.bytes[length] = 0;
            put_names_line (p, &t, left, top, width);
            br__text_reset (&t);
            br__text_puts (&t, lines++ == MOST_LINES && v->count > MANY ? "and others; `shapes` lists all"
                                                                        : br__text_string (&name));
          }
      }
  if (t.length)
    {
      put_names_line (p, &t, left, top, width);
      *top += LEADING / 2;
    }
  p->failed |= t.failed || name.failed;
  br__text_clear (&t);
  br__text_clear (&name);
}

br_status
br__places_plot (br__plot *p, size_t *count, int64_t *height, br__run *run, const br__view_at *f, br__area room)
{
  br__place_table t = { NULL, 0, 0 };
  int64_t at = room.y, width = room.x2 - room.x;
  br__group before = p->group;
  br_status status = BR_OK;
  if (f->view->datum.found)
    status = br__place_table_make (&t, run, f->view, f->level, f->upright);
  *count = t.count;
  p->table = p->count;
  p->table_top = room.y;
  p->group = BR__GROUP_FRAME;
  put_names (p, f->view, room.x, &at, width);
  if (f->view->unplaced.length)
    put_names_line (p, &f->view->unplaced, room.x, &at, width);
  if (t.count)
    at += put_table (p, &t, f->view, room.x, at, width);
  *height = at - room.y;
  p->table = p->table < p->count ? p->table : 0;
  p->group = before;
  br__place_table_clear (&t);
  return status;
}
