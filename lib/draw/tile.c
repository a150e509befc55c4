/* SPDX-License-Identifier: LGPL-3.0-or-later
   tile.c - a figure larger than the paper on several sheets: each overlaps its neighbours, and the line on which
   they join, with crosses that must meet, stands on both.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>

#include "draw/drawing.h"
#include "exact/memory.h"
#include "exact/status.h"

#define OVERLAP (BR__INCH / 2)
#define CROSS (BR__INCH / 8)
#define LETTERS (7 * BR__POINT)
#define MOST_PAGES 200

typedef struct tiling
{
  const br__plot *figure;
  const br__paperwork *w;
  br__area room;
  int64_t step_x, step_y;
  int64_t columns, rows, tables;
  char *used;                   /* whether something is drawn on the page at [row * columns + column] */
} tiling;

static int64_t
pages_for (int64_t size, int64_t room)
{
  int64_t step = room - OVERLAP;
  return size <= room ? 1 : (size - OVERLAP + step - 1) / step;
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
  if (wide < 3 * OVERLAP || high < 3 * OVERLAP)
    return INT64_MAX;
  int64_t columns = pages_for (figure->width, wide), rows = pages_for (height_of (figure, high), high);
  return columns > MOST_PAGES || rows > MOST_PAGES ? INT64_MAX : columns * rows + table_sheets (figure, high);
}

static br_status
plan (tiling *t, br__run *run)
{
  int64_t wide = t->room.x2 - t->room.x, high = t->room.y2 - t->room.y;
  if (wide < 3 * OVERLAP || high < 3 * OVERLAP)
    return br__fail (run->error, BR_DOMAIN, 0, 0, "the margins leave too little of the paper");
  t->step_x = wide - OVERLAP;
  t->step_y = high - OVERLAP;
  t->columns = pages_for (t->figure->width, wide);
  t->tables = table_sheets (t->figure, high);
  t->rows = pages_for (height_of (t->figure, high), high);
  if (br__sheets_for (t->figure, t->w) > MOST_PAGES)
    {
      br__fail (run->error, BR_TOO_BIG, 0, 0, "at this scale the drawing takes more than %d sheets of paper", MOST_PAGES);
      br__hint (run->error, "leave the scale out, or take a smaller one");
      return BR_TOO_BIG;
    }
  t->used = br__alloc_zero ((size_t) (t->columns * t->rows), 1);
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

/* Strokes of the figure on this page, cut off at the edge of the room.  */
static void
take_part (br__plot *page, const tiling *t, int64_t column, int64_t row, size_t first)
{
  br__plot figure = *t->figure;
  if (t->tables)
    figure.count = figure.table;
  page->cut_from = page->count;
  br__plot_join (page, &figure, first, t->room.x - column * t->step_x, t->room.y - row * t->step_y, &t->room);
  page->cut_to = page->count;
  page->window = t->room;
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
plot_join_line (br__plot *page, const tiling *t, int64_t at, int upright)
{
  const br__area *a = &t->room;
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
  const br__area *a = &t->room;
  const int64_t half = OVERLAP / 2, between = t->w->margin + (a->y - t->w->margin) / 2;
  for (int i = 0; i < 4; i++)
    {
      if (!is_used (t, column + sides[i].dx, row + sides[i].dy))
        continue;
      int64_t at = i == 0 ? a->x + half : i == 1 ? a->x2 - half : i == 2 ? a->y + half : a->y2 - half;
      int64_t x = i == 0 ? a->x : i == 1 ? a->x2 : (a->x + a->x2) / 2;
      int64_t y = i == 3 ? a->y2 + (a->y - between) : between;
      br_text text = BR_TEXT_ZERO;
      plot_join_line (page, t, at, i < 2);
      put_name (&text, column + sides[i].dx, row + sides[i].dy);
      br__text_printf (&text, " joins %s, on the dashed line", sides[i].where);
      br__plot_fitted (page, x, y, sides[i].align, LETTERS, (a->x2 - a->x) / 3, br__text_string (&text));
      page->failed = page->failed || text.failed;
      br__text_clear (&text);
    }
}

static void
compose (br__plot *page, const tiling *t, int64_t column, int64_t row, size_t index, size_t count)
{
  const br__paperwork *w = t->w;
  br_text extra = BR_TEXT_ZERO;
  page->width = w->paper_width;
  page->height = w->paper_height;
  take_part (page, t, column, row, 0);
  plot_joins (page, t, column, row);
  put_name (&extra, column, row);
  br__text_printf (&extra, ", %zu of %zu", index + 1, count);
  br__title_block (page, w, (br__area) { w->margin, w->margin, w->paper_width - w->margin, w->paper_height - w->margin },
                   br__text_string (&extra));
  page->failed = page->failed || extra.failed;
  br__text_clear (&extra);
}

/* Sheet INDEX of the table: the lines whose middle lies on it.  */
static void
compose_table (br__plot *page, const tiling *t, int64_t index, size_t number, size_t count)
{
  const br__paperwork *w = t->w;
  int64_t high = t->room.y2 - t->room.y, from = t->figure->table_top + index * high;
  br_text extra = BR_TEXT_ZERO;
  page->width = w->paper_width;
  page->height = w->paper_height;
  for (size_t i = t->figure->table; i < t->figure->count && !page->failed; i++)
    {
      br__plot one = *t->figure;
      one.count = i + 1;
      if (t->figure->inks[i].y >= from && t->figure->inks[i].y < from + high)
        br__plot_join (page, &one, i, t->room.x, t->room.y - from, NULL);
    }
  br__text_printf (&extra, "T%" PRId64 ", %zu of %zu", index + 1, number, count);
  br__title_block (page, w, (br__area) { w->margin, w->margin, w->paper_width - w->margin, w->paper_height - w->margin },
                   br__text_string (&extra));
  page->failed = page->failed || extra.failed;
  br__text_clear (&extra);
}

static br_status
make_pages (br__plot **pages, size_t *count, const tiling *t)
{
  size_t made = 0, wanted = 0;
  for (int64_t i = 0; i < t->columns * t->rows; i++)
    wanted += (size_t) t->used[i];
  wanted += (size_t) t->tables;
  br__plot *all = br__alloc_zero (wanted, sizeof *all);
  int failed = !all;
  for (int64_t row = 0; row < t->rows && !failed; row++)
    for (int64_t column = 0; column < t->columns && !failed; column++)
      if (is_used (t, column, row))
        {
          compose (&all[made], t, column, row, made, wanted);
          failed = all[made++].failed;
        }
  for (int64_t i = 0; i < t->tables && !failed; i++)
    {
      compose_table (&all[made], t, i, made + 1, wanted);
      failed = all[made++].failed;
    }
  if (failed)
    {
      br__plots_free (all, made);
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
  br__free (t.used);
  return status;
}
