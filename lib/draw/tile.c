/* SPDX-License-Identifier: LGPL-3.0-or-later
   tile.c - a figure larger than the paper on several sheets: each overlaps its neighbours, and the line on which
   they join, with crosses that must meet, stands on both.  The sheets join where no text stands, and no hole if there is
   such a place; a text is on the sheet that has it whole.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>

#include "draw/drawing.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "plot/ink_map.h"
#include "plot/table_piece.h"

#define CROSS (BR__INCH / 8)
#define LETTERS (7 * BR__POINT)
#define MOST_PAGES 200
#define FINE (BR__INCH / 20)    /* a join is moved by as much */
#define TEXT_COST 1000u         /* of a join through a text; through a circle it costs 1 */

typedef struct tiling
{
  const br__plot *figure;
  const br__paperwork *w;
  br__area room;
  int64_t *from[2];             /* where on the figure the columns and the rows of sheets begin */
  int64_t columns, rows;
  char *used;                   /* whether something is drawn on the page at [row * columns + column] */
} tiling;

static int64_t
pages_for (int64_t size, int64_t room)
{
  int64_t step = room - BR__JOIN;
  return size <= room ? 1 : (size - BR__JOIN + step - 1) / step;
}

/* The height of the figure with its table, which is no wider than a sheet without its join, or alone where the two are too
   high for one.  */
static int64_t
height_of (const br__plot *figure, int64_t high)
{
  return figure->table && figure->height > high ? figure->table_top : figure->height;
}

/* Sheets that the table takes.  */
static int64_t
table_sheets (const br__plot *figure, int64_t high)
{
  int64_t own = figure->height - height_of (figure, high);
  return (own + high - 1) / high;
}

int
br__figure_fits (const br__plot *figure, const br__paperwork *w)
{
  br__area room = br__paper_room (w);
  int64_t wide = room.x2 - room.x, high = room.y2 - room.y;
  return figure->width <= wide && height_of (figure, high) <= high;
}

int64_t
br__sheets_for (const br__plot *figure, const br__paperwork *w)
{
  br__area room = br__paper_room (w);
  int64_t wide = room.x2 - room.x, high = room.y2 - room.y;
  if (figure->width <= wide && figure->height <= high)
    return 1;
  if (wide < 3 * BR__JOIN || high < 3 * BR__JOIN)
    return INT64_MAX;
  int64_t columns = pages_for (figure->width, wide), rows = pages_for (height_of (figure, high), high);
  return columns > MOST_PAGES || rows > MOST_PAGES ? INT64_MAX : columns * rows + table_sheets (figure, high);
}

/* ---- Where the sheets join ---- */

/* The inks of the figure itself, without its table, which goes where there is free paper.  */
static size_t
end_of (const br__plot *figure)
{
  return figure->table ? figure->table : figure->count;
}

/* What a join costs, by places FINE apart: COSTS has room for one up to the end of the figure.  */
static void
find_costs (unsigned *costs, const br__plot *figure, int upright, int64_t size)
{
  for (size_t i = figure->squares; i < end_of (figure); i++)
    {
      const br__ink *k = &figure->inks[i];
      br__area a = br__ink_area (k);
      int64_t low = upright ? a.y : a.x, high = upright ? a.y2 : a.x2;
      if (k->type != BR__INK_TEXT && k->type != BR__INK_CIRCLE)
        continue;
      for (int64_t at = low < 0 ? 0 : low / FINE; at <= high / FINE + 1 && at <= size / FINE; at++)
        costs[at] += k->type == BR__INK_TEXT ? TEXT_COST : 1;
    }
}

/* From the first sheet on each join goes to the best place that leaves the rest with sheets enough; the sum of costs.  */
static unsigned
put_joins (int64_t *from, int64_t count, const unsigned *costs, int64_t size, int64_t room)
{
  const int64_t step = room - BR__JOIN;
  int64_t spare = count * step + BR__JOIN - size;
  unsigned sum = 0;
  from[0] = 0;
  for (int64_t i = 1; i < count; i++)
    {
      int64_t most = from[i - 1] + step, best = most;
      unsigned least = costs[(most + BR__JOIN / 2) / FINE];
      for (int64_t at = most - FINE; least && at >= most - spare && at > from[i - 1] + BR__JOIN; at -= FINE)
        if (costs[(at + BR__JOIN / 2) / FINE] < least)
          {
            best = at;
            least = costs[(at + BR__JOIN / 2) / FINE];
          }
      spare -= most - best;
      sum += least;
      from[i] = best;
    }
  return sum;
}

/* One sheet more than needed where that saves a text.  */
static br_status
find_joins (int64_t **from, int64_t *count, const br__plot *figure, int upright, int64_t size, int64_t room)
{
  const int64_t least = pages_for (size, room);
  unsigned *costs = br__alloc_zero ((size_t) ((size + 2 * room) / FINE) + 2, sizeof *costs);
  *from = br__alloc_zero ((size_t) least + 1, sizeof **from);
  br_status status = costs && *from ? BR_OK : BR_NO_MEMORY;
  *count = least;
  if (status == BR_OK)
    {
      find_costs (costs, figure, upright, size);
      unsigned sum = put_joins (*from, least, costs, size, room);
      if (sum >= TEXT_COST && put_joins (*from, least + 1, costs, size, room) < sum)
        (*count)++;
      (void) put_joins (*from, *count, costs, size, room);
    }
  br__free (costs);
  return status;
}

static br_status
plan (tiling *t, br__run *run)
{
  int64_t wide = t->room.x2 - t->room.x, high = t->room.y2 - t->room.y;
  if (wide < 3 * BR__JOIN || high < 3 * BR__JOIN)
    return br__fail (run->error, BR_DOMAIN, 0, 0, "the margins leave too little of the paper");
  if (br__sheets_for (t->figure, t->w) > MOST_PAGES)
    {
      br__fail (run->error, BR_TOO_BIG, 0, 0, "at this scale the drawing takes more than %d sheets of paper", MOST_PAGES);
      br__hint (run->error, "leave the scale out, or take a smaller one");
      return BR_TOO_BIG;
    }
  br_status status = find_joins (&t->from[0], &t->columns, t->figure, 0, t->figure->width, wide);
  if (status == BR_OK)
    status = find_joins (&t->from[1], &t->rows, t->figure, 1, t->figure->table ? t->figure->table_top : t->figure->height, high);
  t->used = status == BR_OK ? br__alloc_zero ((size_t) (t->columns * t->rows), 1) : NULL;
  return t->used ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
}

/* 1 where the page is there and has something on it.  */
static int
is_used (const tiling *t, int64_t column, int64_t row)
{
  return column >= 0 && row >= 0 && column < t->columns && row < t->rows && t->used[row * t->columns + column];
}

/* A, B ... Z, AA for columns, and the row counted from 1.  */
static void
put_name (br_text *t, int64_t column, int64_t row)
{
  if (column >= 26)
    br__text_putc (t, (char) ('A' + column / 26 - 1));
  br__text_putc (t, (char) ('A' + column % 26));
  br__text_printf (t, "%" PRId64, row + 1);
}

/* What of the figure the page at COLUMN and ROW shows: to its end, or as far as it overlaps the next.  */
static br__area
shown_on (const tiling *t, int64_t column, int64_t row)
{
  br__area a = { t->from[0][column], t->from[1][row], t->from[0][column] + t->room.x2 - t->room.x, t->from[1][row] + t->room.y2 - t->room.y };
  if (column + 1 < t->columns)
    a.x2 = t->from[0][column + 1] + BR__JOIN;
  if (row + 1 < t->rows)
    a.y2 = t->from[1][row + 1] + BR__JOIN;
  return a;
}

static int
is_inside (br__area a, br__area b)
{
  return a.x >= b.x && a.y >= b.y && a.x2 <= b.x2 && a.y2 <= b.y2;
}

/* Whether the page at COLUMN and ROW has the text that takes A.  It is on the page that has its middle before the joins; where that
   has not all of it, on the others, too.  */
static int
has_text (const tiling *t, br__area a, int64_t column, int64_t row)
{
  const int64_t x = a.x / 2 + a.x2 / 2 - BR__JOIN / 2, y = a.y / 2 + a.y2 / 2 - BR__JOIN / 2;
  int64_t own_column = t->columns - 1, own_row = t->rows - 1;
  while (own_column > 0 && x < t->from[0][own_column])
    own_column--;
  while (own_row > 0 && y < t->from[1][own_row])
    own_row--;
  return (own_column == column && own_row == row) || !is_inside (a, shown_on (t, own_column, own_row));
}

/* Strokes of the figure on this page, cut off at its end.  */
static void
take_part (br__plot *page, const tiling *t, int64_t column, int64_t row, size_t first)
{
  const br__area here = shown_on (t, column, row);
  const int64_t dx = t->room.x - here.x, dy = t->room.y - here.y;
  br__plot figure = *t->figure;
  page->window = (br__area) { t->room.x, t->room.y, here.x2 + dx, here.y2 + dy };
  page->face = (br__area) { figure.face.x + dx, figure.face.y + dy, figure.face.x2 + dx, figure.face.y2 + dy };
  page->cut_from = page->count;
  for (size_t i = first; i < end_of (t->figure) && !page->failed; i++)
    if (figure.inks[i].type != BR__INK_TEXT || has_text (t, br__ink_area (&figure.inks[i]), column, row))
      {
        figure.count = i + 1;
        br__plot_join (page, &figure, i, dx, dy, &page->window);
      }
  page->cut_to = page->count;
}

static void
find_used (tiling *t, int *failed)
{
  for (int64_t row = 0; row < t->rows; row++)
    for (int64_t column = 0; column < t->columns; column++)
      {
        br__plot page = { .inks = NULL };
        take_part (&page, t, column, row, t->figure->squares);
        t->used[row * t->columns + column] = page.count > 0;
        *failed = *failed || page.failed;
        br__plot_clear (&page);
      }
}

/* The line at AT, upright or level, on which the page joins its neighbour, and its crosses.  */
static void
plot_join_line (br__plot *page, int64_t at, int upright)
{
  const br__area *a = &page->window;
  if (upright)
    br__plot_line (page, BR__PEN_THIN, at, a->y, at, a->y2, 1);
  else
    br__plot_line (page, BR__PEN_THIN, a->x, at, a->x2, at, 1);
  for (int i = 1; i < 4; i++)
    {
      int64_t x = upright ? at : a->x + (a->x2 - a->x) * i / 4, y = upright ? a->y + (a->y2 - a->y) * i / 4 : at;
      br__plot_line (page, BR__PEN_THIN, x - CROSS, y, x + CROSS, y, 0);
      br__plot_line (page, BR__PEN_THIN, x, y - CROSS, x, y + CROSS, 0);
    }
}

/* The names of the neighbours stand between the frame and the figure.  */
static void
plot_joins (br__plot *page, const tiling *t, int64_t column, int64_t row)
{
  static const struct { int dx, dy; const char *where; br_align align; } sides[] =
  {
    { -1, 0, "on the left", BR_ALIGN_LEFT }, { 1, 0, "on the right", BR_ALIGN_RIGHT },
    { 0, -1, "above", BR_ALIGN_MIDDLE }, { 0, 1, "below", BR_ALIGN_MIDDLE }
  };
  const br__area *a = &page->window;
  const int64_t half = BR__JOIN / 2, between = t->w->margin + (a->y - t->w->margin) / 2;
  for (int i = 0; i < 4; i++)
    {
      if (!is_used (t, column + sides[i].dx, row + sides[i].dy))
        continue;
      int64_t at = i == 0 ? a->x + half : i == 1 ? a->x2 - half : i == 2 ? a->y + half : a->y2 - half;
      int64_t x = i == 0 ? a->x : i == 1 ? a->x2 : (a->x + a->x2) / 2;
      int64_t y = i == 3 ? a->y2 + (a->y - between) : between;
      br_text text = BR_TEXT_ZERO;
      plot_join_line (page, at, i < 2);
      put_name (&text, column + sides[i].dx, row + sides[i].dy);
      br__text_printf (&text, " joins %s, on the dashed line", sides[i].where);
      br__plot_fitted (page, x, y, sides[i].align, LETTERS, (a->x2 - a->x) / 3, br__text_string (&text));
      page->failed = page->failed || text.failed;
      br__text_clear (&text);
    }
}

/* The frame with the title block; NAME is of the sheet.  */
static void
put_block (br__plot *page, const tiling *t, const br_text *name, size_t index, size_t count)
{
  const br__paperwork *w = t->w;
  br_text extra = BR_TEXT_ZERO;
  br__text_printf (&extra, "%s, %zu of %zu", br__text_string (name), index + 1, count);
  br__title_block (page, w, (br__area) { w->margin, w->margin, w->paper_width - w->margin, w->paper_height - w->margin },
                   br__text_string (&extra));
  page->failed = page->failed || extra.failed || name->failed;
  br__text_clear (&extra);
}

/* The sheets of the figure, without their title blocks.  */
static int
plot_figure (br__plot *pages, const tiling *t)
{
  size_t made = 0;
  for (int64_t row = 0; row < t->rows; row++)
    for (int64_t column = 0; column < t->columns; column++)
      if (is_used (t, column, row))
        {
          pages[made].width = t->w->paper_width;
          pages[made].height = t->w->paper_height;
          take_part (&pages[made], t, column, row, 0);
          plot_joins (&pages[made], t, column, row);
          if (pages[made++].failed)
            return 0;
        }
  return 1;
}

/* The table on free paper of the USED sheets, what is left on sheets of its own from there to MOST; *COUNT gets their number.  */
static int
plot_table (size_t *count, br__plot *pages, size_t used, size_t most, const tiling *t)
{
  br__table_piece rest;
  /* A table as wide as the paper needs no air at the edges of the room, and at the left none around its rules: there is some
     between it and the frame.  */
  const int64_t air = BR__FREE_AIR;
  const br__area room = { t->room.x - 2 * air, t->room.y - 2 * air, t->room.x2 + air, t->room.y2 + air };
  int good = br__table_open (&rest, t->figure);
  *count = used;
  for (int off_face = t->figure->face.x2 > t->figure->face.x; off_face >= 0; off_face--)
    for (size_t i = 0; i < used && good && rest.next < rest.count; i++)
      good = br__table_squeeze (&rest, &pages[i], room, off_face);
  while (good && rest.next < rest.count && *count < most)
    {
      br__plot *page = &pages[(*count)++];
      page->width = t->w->paper_width;
      page->height = t->w->paper_height;
      good = br__table_fill (&rest, page, room);
    }
  br__table_close (&rest);
  return good;
}

static int
put_blocks (br__plot *pages, size_t count, const tiling *t)
{
  size_t made = 0;
  int good = 1;
  br_text name = BR_TEXT_ZERO;
  for (int64_t i = 0; i < t->rows * t->columns; i++)
    if (t->used[i])
      {
        br__text_reset (&name);
        put_name (&name, i % t->columns, i / t->columns);
        put_block (&pages[made], t, &name, made, count);
        made++;
      }
  for (size_t i = made; i < count; i++)
    {
      br__text_reset (&name);
      br__text_printf (&name, "T%zu", i - made + 1);
      put_block (&pages[i], t, &name, i, count);
    }
  for (size_t i = 0; i < count; i++)
    good = good && !pages[i].failed;
  br__text_clear (&name);
  return good;
}

static br_status
make_pages (br__plot **pages, size_t *count, const tiling *t)
{
  size_t used = 0, made = 0, most;
  for (int64_t i = 0; i < t->columns * t->rows; i++)
    used += (size_t) t->used[i];
  /* Each sheet takes a row of the table at the least.  */
  most = used + (t->figure->table ? t->figure->count - t->figure->table : 0);
  br__plot *all = br__alloc_zero (most, sizeof *all);
  int good = all && plot_figure (all, t);
  made = used;
  if (good && most > used)
    good = plot_table (&made, all, used, most, t);
  if (!good || !put_blocks (all, made, t))
    {
      br__plots_free (all, all ? most : 0);
      return BR_NO_MEMORY;
    }
  *pages = all;
  *count = made;
  return BR_OK;
}

br_status
br__tile (br__plot **pages, size_t *count, const br__plot *figure, const br__paperwork *w, br__run *run)
{
  tiling t = { .figure = figure, .w = w, .room = br__paper_room (w) };
  int failed = 0;
  br_status status = plan (&t, run);
  if (status == BR_OK)
    {
      find_used (&t, &failed);
      status = failed ? BR_NO_MEMORY : make_pages (pages, count, &t);
      if (status != BR_OK)
        br__fail_plain (run->error, status, 0, 0);
    }
  for (int i = 0; i < 2; i++)
    br__free (t.from[i]);
  br__free (t.used);
  return status;
}
