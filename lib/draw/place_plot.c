/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_plot.c - the table under the drawing: names that found no room, sizes and places that the figure does not say.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/dimension_line.h"
#include "draw/place_list.h"
#include "draw/place_table.h"
#include "exact/memory.h"

/* Capitals of 1.8 mm, the least height of ISO 3098-1 (from memory).  */
#define SIZE (7 * BR__POINT)
#define LEADING (SIZE * 5 / 4)
/* Digits of fractions are no lower than 2.5 mm, as on the figure.  */
#define FRACTIONS (39 * BR__POINT / 4)
#define HEAD (LEADING * 5 / 4)  /* of the heads and the rule under them */
#define GAP (BR__INCH / 12)     /* between the columns of a row */
#define BETWEEN (BR__INCH / 6)  /* between rows side by side */
/* Beyond so many shapes a table would be a book.  */
#define MANY 300
#define NARROW (BR__INCH * 5)   /* room beside a figure, which takes all or nothing */
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
leading_of (int64_t size)
{
  return size * 5 / 4;
}

/* Of a cell of a table in which some numbers are LARGE: whole ones are nearly so, as large as their rows have room for.  */
static int64_t
size_in_table (const char *text, int64_t large)
{
  int64_t size = size_of (text);
  return size == SIZE && large > SIZE && strpbrk (text, "0123456789") ? SIZE * 8 / 7 : size;
}

/* The height of line LINE, the same in all rows that stand side by side in it.  */
static int64_t
height_of_line (const br__place_table *t, size_t line, size_t lines, int64_t large)
{
  int64_t high = 0;
  for (size_t i = line; i < t->count; i += lines)
    high = larger (high, leading_of (size_in_table (t->rows[i].cell[0], large)));
  return t->airy ? high * 6 / 5 : high;
}

static const char *const heads[BR__PLACE_COLUMNS] = { "dimension", "of", "from" };

/* How wide the columns of rows FIRST to END of T are, on paper of WIDTH; the sum.  */
static int64_t
find_widths (int64_t wide[BR__PLACE_COLUMNS], const br__place_table *t, size_t first, size_t end, int64_t large, int64_t width)
{
  int64_t whole = 2 * GAP;
  for (int k = 0; k < BR__PLACE_COLUMNS; k++)
    {
      wide[k] = br__text_width (heads[k], SIZE);
      for (size_t i = first; i < end && i < t->count; i++)
        wide[k] = larger (wide[k], br__text_width (t->rows[i].cell[k], k ? SIZE : size_in_table (t->rows[i].cell[k], large)));
      whole += wide[k];
    }
  /* A name too long for the paper keeps its beginning.  */
  for (int k = 0; k < BR__PLACE_COLUMNS && whole > width && width > NARROW; k++)
    if (wide[k] > width / 3 - GAP)
      {
        whole -= wide[k] - (width / 3 - GAP);
        wide[k] = width / 3 - GAP;
      }
  return whole;
}

/* In columns of LINES rows; returns the height.  */
static int64_t
put_rows (br__plot *p, const br__place_table *t, int64_t left, int64_t top, size_t lines, int64_t large, int64_t width)
{
  int64_t wide[BR__PLACE_COLUMNS] = { 0, 0, 0 }, whole = 0, y = top, lowest = top;
  for (size_t i = 0; i < t->count; i++)
    {
      left += i && i % lines == 0 ? whole + BETWEEN : 0;
      whole = i % lines ? whole : find_widths (wide, t, i, i + lines, large, width);
      int64_t x = left, high = height_of_line (t, i % lines, lines, large);
      y = i % lines ? y : top + LEADING / 2 + HEAD - LEADING / 2;
      for (int k = 0; k < BR__PLACE_COLUMNS; k++, x += wide[k - 1] + GAP)
        {
          if (i % lines == 0)
            {
              br__plot_text (p, x, top + LEADING / 2, BR_ALIGN_LEFT, SIZE, heads[k]);
              br__plot_line (p, BR__PEN_THIN, x, top + LEADING / 2 + HEAD / 2, x + wide[k], top + LEADING / 2 + HEAD / 2, 0);
            }
          /* In a line with fractions whole numbers are as large, where they have the room.  */
          const int64_t size = k || size_in_table (t->rows[i].cell[k], large) == SIZE ? SIZE : t->airy ? high * 2 / 3 : high * 4 / 5;
          br__plot_fitted (p, x, y + high / 2 + LEADING / 8, BR_ALIGN_LEFT, size, wide[k], t->rows[i].cell[k]);
        }
      y += high;
      lowest = larger (lowest, y);
    }
  p->width = larger (p->width, left + whole);
  return lowest - top;
}

/* How many rows of T have room side by side in WIDTH, each column as wide as its own words; for MANY shapes as all are.  */
static size_t
columns_of (const br__place_table *t, size_t shapes, int64_t large, int64_t width)
{
  int64_t wide[BR__PLACE_COLUMNS], whole = find_widths (wide, t, 0, t->count, large, width);
  size_t columns = (size_t) larger ((width + BETWEEN) / (whole + BETWEEN), 1);
  for (; shapes <= MANY && columns < t->count; columns++)
    {
      const size_t lines = (t->count + columns) / (columns + 1);
      int64_t sum = -BETWEEN;
      for (size_t first = 0; first < t->count; first += lines)
        sum += find_widths (wide, t, first, first + lines, large, width) + BETWEEN;
      if (sum > width)
        break;
    }
  return columns;
}

/* The largest letters of T: no row has larger ones than the heading.  */
static int64_t
largest_of (const br__place_table *t)
{
  int64_t size = SIZE;
  for (size_t i = 0; i < t->count; i++)
    size = larger (size, size_of (t->rows[i].cell[0]));
  return size;
}

/* How many lines T takes in WIDTH.  */
static size_t
lines_of (const br__place_table *t, size_t shapes, int64_t width)
{
  size_t columns = columns_of (t, shapes, largest_of (t), width);
  return (t->count + columns - 1) / columns;
}

/* Few long rows, or many short ones side by side; both places of a point in one row, or in two: T is what takes the fewest lines in
   WIDTH, with all of its words.  */
static br_status
make_rows (br__place_table *t, br__run *run, const br__view_at *f, int64_t width)
{
  static const size_t longest[] = { BR__PLACE_SHORT, 34, 40, 64 };
  int64_t wide[BR__PLACE_COLUMNS];
  br_status status = br__place_table_make (t, run, f, BR__PLACE_SHORT, 0);
  for (int i = 1; i < 8 && status == BR_OK && t->count && f->view->count <= MANY; i++)
    {
      br__place_table other = { NULL, 0, 0, 0 };
      status = br__place_table_make (&other, run, f, longest[i % 4], i >= 4);
      if (status == BR_OK && find_widths (wide, &other, 0, other.count, largest_of (&other), INT64_MAX) <= width
          && lines_of (&other, f->view->count, width) < lines_of (t, f->view->count, width))
        {
          br__place_table spare = *t;
          *t = other;
          other = spare;
        }
      br__place_table_clear (&other);
    }
  return status;
}

/* The table in as many rows side by side as WIDTH has room for.  The height.  */
static int64_t
put_table (br__plot *p, br__place_table *t, const br__side_view *v, int64_t left, int64_t top, int64_t width)
{
  size_t all = t->count, lines;
  br_text more = BR_TEXT_ZERO;
  int64_t size = largest_of (t);
  br__text_printf (&more, "From the datum, the small circle%s:", v->datum.given ? "" : " at the lower left corner");
  size_t columns = columns_of (t, v->count, size, width);
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
  p->width = larger (p->width, left + br__text_width (br__text_string (&more), size));
  p->failed |= more.failed;
  br__text_clear (&more);
  return size * 7 / 5 + put_rows (p, t, left, top + size * 7 / 5, lines, size, width) + LEADING / 2;
}

/* Words that fill lines of WIDTH from TOP on, all of a piece in one line.  */
typedef struct lines
{
  br__plot *plot;
  int64_t left, top, width;
  size_t count;                 /* that stand */
  br_text line;
} lines;

static void
end_line (lines *l)
{
  const char *text = br__text_string (&l->line);
  int64_t width = l->width;
  if (!l->line.length)
    return;
  /* In a narrow room a long name takes more, not smaller letters.  */
  if (width <= NARROW)
    width = larger (width, br__text_width (text, size_of (text)));
  br__plot_fitted (l->plot, l->left, l->top + leading_of (size_of (text)) / 2, BR_ALIGN_LEFT, size_of (text), width, text);
  l->plot->width = larger (l->plot->width, l->left + width);
  l->top += leading_of (size_of (text));
  l->count++;
  br__text_reset (&l->line);
}

static void
put_piece (lines *l, const char *piece)
{
  size_t length = l->line.length;
  br__text_printf (&l->line, "%s%s", length ? "; " : "", piece);
  const char *text = br__text_string (&l->line);
  if (!length || br__text_width (text, size_of (text)) <= l->width)
    return;
  l->line.length = length;
  l->line.bytes[length] = 0;
  end_line (l);
  br__text_puts (&l->line, piece);
}

/* The names that found no room, with the numbers of their balloons; then what was asked for and found none.  */
static void
put_names (lines *l, const br__side_view *v)
{
  br_text name = BR_TEXT_ZERO;
  size_t i = 0, alike;
  for (; i < v->count && (v->count <= MANY || l->count < MOST_LINES); i += alike)
    {
      const br__drawn *d = &v->shapes[i];
      alike = br__alike_from (v, i);
      if (!d->unlabelled)
        continue;
      br__text_reset (&name);
      if (d->balloon)
        br__text_printf (&name, alike > 1 ? "(%zu %s %zu) " : "(%zu) ", d->balloon, alike > 2 ? "to" : "and", d->balloon + alike - 1);
      if (alike > 1)
        br__put_names (&name, d->shape->name, alike);
      br__text_puts (&name, d->label + (alike > 1 ? strlen (d->shape->name) : 0));
      put_piece (l, br__text_string (&name));
    }
  if (i < v->count)
    put_piece (l, "and others; `shapes` lists all");
  end_line (l);
  for (const char *s = br__text_string (&v->unplaced), *end; *s; s = *end ? end + 1 : end)
    {
      for (end = s; *end && *end != '\n'; )
        end++;
      br__text_reset (&name);
      br__text_put (&name, s, (size_t) (end - s));
      put_piece (l, br__text_string (&name));
    }
  end_line (l);
  l->top += l->count ? LEADING / 2 : 0;
  l->plot->failed |= l->line.failed || name.failed;
  br__text_clear (&l->line);
  br__text_clear (&name);
}

br_status
br__places_plot (br__plot *p, size_t *count, int64_t *height, br__run *run, const br__view_at *f, br__area room)
{
  br__place_table t = { NULL, 0, 0, 0 };
  int64_t width = room.x2 - room.x;
  lines names = { p, room.x, room.y, width, 0, BR_TEXT_ZERO };
  br__group before = p->group;
  br_status status = BR_OK;
  if (f->view->datum.found)
    status = make_rows (&t, run, f, width);
  t.airy = f->airy;
  *count = t.count;
  p->table = p->count;
  p->table_top = room.y;
  p->group = BR__GROUP_FRAME;
  put_names (&names, f->view);
  if (t.count)
    names.top += put_table (p, &t, f->view, room.x, names.top, width);
  *height = names.top - room.y;
  p->table = p->table < p->count ? p->table : 0;
  p->group = before;
  br__place_table_clear (&t);
  return status;
}
