/* SPDX-License-Identifier: LGPL-3.0-or-later
   parts.c - `draw parts`: every part at one scale, as its shape or its blank, with its number and what it is made of; and the
   list that belongs to it, in the order of the statement `parts`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/draw.h"
#include "draw/part_figure.h"
#include "draw/view.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/worksheet.h"

#define LETTERS BR__SIZE_TEXT
#define LEADING (LETTERS * 3 / 2)
#define CAPTION (LEADING * 5 / 2)       /* two lines over a figure */
#define BALLOON (BR__INCH / 9)          /* the radius of a number's circle */
#define BETWEEN (BR__INCH * 2 / 5)      /* two figures */
#define COLUMN_GAP (BR__INCH / 8)
#define CANDIDATES 4                    /* scales of which the one that takes the fewest sheets is drawn */

/* A figure, or a piece of the list, where it goes on its sheet.  */
typedef struct block
{
  br__plot plot;
  int64_t width, height, x, y;
  size_t sheet;
} block;

typedef struct work
{
  br__drawing *d;
  br__run *run;
  br__wood_list wood;
  block *blocks;                /* a figure for each part that is drawn, then the list */
  size_t count;
  size_t sheets;
  size_t number;                /* the last one that was given, to parts or to what is on them */
  int fits;                     /* no block is larger than a sheet */
} work;

static void
blocks_clear (work *w)
{
  for (size_t i = 0; i < w->count; i++)
    br__plot_clear (&w->blocks[i].plot);
  br__free (w->blocks);
  w->blocks = NULL;
  w->count = 0;
}

static int64_t
larger (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

/* A part that is not as long or wide as it may be is listed alone.  */
static int
is_drawn (const br__piece *p)
{
  return p->size[BR__LENGTH_OF].known && p->size[BR__WIDTH].known;
}

/* ---- The list ---- */

enum { NUMBER, PART, QUANTITY, SIZE, WOOD, COLUMNS };
static const char *const heads[COLUMNS] = { "no.", "part", "number", "size", "wood" };

static br_status
put_cell (br_text *t, const work *w, size_t i, int column)
{
  const br__piece *p = &w->wood.parts[i];
  br__text_reset (t);
  switch (column)
    {
    case NUMBER: br__text_printf (t, "%zu", i + 1); break;
    case PART: br__text_puts (t, p->wood->name); break;
    case QUANTITY: br__text_printf (t, "%lld", (long long) p->quantity); break;
    case SIZE: return br__put_wood_size (t, p, 0, &w->run->sheet->settings);
    default: br__text_puts (t, p->stock == SIZE_MAX ? "" : w->wood.stocks[p->stock].wood->name); break;
    }
  return t->failed ? BR_NO_MEMORY : BR_OK;
}

br_status
br__put_part_rows (br_list *rows, br__run *run, const br__wood_list *wood)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < wood->part_count && status == BR_OK; i++)
    {
      const br__piece *p = &wood->parts[i];
      br_record *row = br__list_record (rows);
      br_text t = BR_TEXT_ZERO;
      br__put_count (row, "number", (int64_t) i + 1);
      br__put_text (row, "part", p->wood->name);
      br__put_count (row, "quantity", p->quantity);
      status = br__put_wood_size (&t, p, 0, &run->sheet->settings);
      br__put_from (row, "shown", &t);
      if (p->stock != SIZE_MAX)
        br__put_text (row, "stock", wood->stocks[p->stock].wood->name);
      if (p->wood->as)
        br__put_text (row, "as", p->wood->as);
      br__put_truth (row, "drawn", is_drawn (p));
      br__text_clear (&t);
    }
  return status;
}

/* Rows FIRST to LAST of the list, no wider than ROOM.  */
static br_status
plot_list (br__plot *p, const work *w, size_t first, size_t last, int64_t room)
{
  int64_t wide[COLUMNS], x = 0;
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;
  p->group = BR__GROUP_FRAME;
  for (int k = 0; k < COLUMNS; k++, x += wide[k - 1] + COLUMN_GAP)
    {
      wide[k] = br__text_width (heads[k], LETTERS);
      for (size_t i = first; i < last && status == BR_OK; i++)
        {
          status = put_cell (&t, w, i, k);
          wide[k] = larger (wide[k], br__text_width (br__text_string (&t), LETTERS));
        }
      wide[k] = wide[k] > room * 3 / 10 ? room * 3 / 10 : wide[k];
      br__plot_text (p, x, LEADING / 2, BR_ALIGN_LEFT, LETTERS, heads[k]);
      for (size_t i = first; i < last && status == BR_OK; i++)
        {
          status = put_cell (&t, w, i, k);
          br__plot_fitted (p, x, LEADING * (int64_t) (i - first + 1) + LEADING * 3 / 4, BR_ALIGN_LEFT, LETTERS, wide[k],
                           br__text_string (&t));
        }
    }
  br__text_clear (&t);
  p->width = x - COLUMN_GAP;
  p->height = LEADING * (int64_t) (last - first + 1) + LEADING / 2;
  br__plot_line (p, BR__PEN_THIN, 0, LEADING * 9 / 8, p->width, LEADING * 9 / 8, BR__SOLID);
  return status;
}

/* ---- A figure ---- */

/* Shapes that are `of` a part show it where they are as long and wide as it; from elsewhere they would show an edge of it.  */
static br_status
keep_face (br__part_figure *f)
{
  const int64_t near = 2;       /* digits of the grid that halves may lose */
  const int64_t wide = f->view.reach.x2 - f->view.reach.x, high = f->view.reach.y2 - f->view.reach.y;
  int64_t length = 0, width = 0;
  br_real size = { f->piece->size[BR__LENGTH_OF].value, NULL }; /* borrowed */
  br_status status = br__to_paper (&length, &size, f->ratio, 0);
  size.rational = f->piece->size[BR__WIDTH].value;
  if (status == BR_OK)
    status = br__to_paper (&width, &size, f->ratio, 0);
  if (status == BR_OK && (wide - length > near || length - wide > near || high - width > near || width - high > near))
    br__view_clear (&f->view);
  return status;
}

/* F of PIECE at RATIO, its shapes found; it is cleared on an error, too.  */
static br_status
open_figure (br__part_figure *f, const work *w, const br__piece *piece, const br_number *ratio)
{
  *f = (br__part_figure) { .run = w->run, .name = piece->wood->name, .ratio = ratio, .piece = piece };
  br_status status = br__part_figure_view (f);
  if (status == BR_OK)
    br__view_drop_loose (&f->view);
  if (status == BR_OK && !piece->wood->as)
    status = keep_face (f);
  return status == BR_DOMAIN ? BR_OK : status;
}

/* "(2) side, make 2", and below "pine, 3/4" thick" and the grain.  */
static br_status
plot_caption (br__plot *p, const work *w, size_t number, int grain)
{
  const br__piece *piece = &w->wood.parts[number - 1];
  int64_t x = 3 * BALLOON, y = BALLOON, end;
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;
  p->group = BR__GROUP_FRAME;
  br__ink *ring = br__plot_add (p, BR__INK_CIRCLE, BR__PEN_THIN, BALLOON, y);
  ring->r = BALLOON;
  br__text_printf (&t, "%zu", number);
  br__plot_fitted (p, BALLOON, y, BR_ALIGN_MIDDLE, LETTERS, BALLOON * 2, br__text_string (&t));
  br__text_reset (&t);
  br__text_printf (&t, "%s, make %lld", piece->wood->name, (long long) piece->quantity);
  br__plot_text (p, x, y, BR_ALIGN_LEFT, LETTERS, br__text_string (&t));
  p->width = larger (p->width, x + br__text_width (br__text_string (&t), LETTERS));
  y += LEADING;
  br__text_reset (&t);
  if (piece->stock != SIZE_MAX)
    br__text_printf (&t, "%s%s", w->wood.stocks[piece->stock].wood->name, piece->size[BR__THICKNESS].known ? ", " : "");
  int turned = piece->stock != SIZE_MAX && w->wood.stocks[piece->stock].wood->round;
  br__text_puts (&t, turned ? "round " : "");
  if (piece->size[BR__THICKNESS].known)
    status = br__put_length (&t, &piece->size[BR__THICKNESS].value, &w->run->sheet->settings);
  if (piece->size[BR__THICKNESS].known && !turned)
    br__text_puts (&t, " thick");
  br__plot_text (p, x, y, BR_ALIGN_LEFT, LETTERS, br__text_string (&t));
  end = x + br__text_width (br__text_string (&t), LETTERS);
  if (grain)
    {
      end += COLUMN_GAP + BR__GRAIN;
      br__grain_plot (p, end - BR__GRAIN / 2, y, 0);
    }
  p->width = larger (p->width, end);
  status = t.failed ? BR_NO_MEMORY : status;
  br__text_clear (&t);
  return status;
}

/* Part I as a block; *LEFT_OUT more sizes stand in its table.  */
static br_status
make_block (block *b, size_t *left_out, work *w, size_t i, const br_number *ratio)
{
  const br__piece *piece = &w->wood.parts[i];
  br__part_figure f;
  br_status status = open_figure (&f, w, piece, ratio);
  f.view.numbered = w->number;
  if (status == BR_OK)
    status = br__part_figure_measure (&f);
  if (status == BR_OK)
    status = br__part_figure_plot (&f);
  if (status == BR_OK)
    {
      br__plot_shift (&f.plot, 0, 0, CAPTION);
      f.plot.height += CAPTION;
      status = plot_caption (&f.plot, w, i + 1, !f.grain && !piece->wood->round);
      *left_out += f.unmeasured + f.unlabelled;
      w->number = br__highest_number (&f.view);
    }
  if (status == BR_OK && f.plot.failed)
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    {
      b->plot = f.plot;
      f.plot = (br__plot) { .inks = NULL };
    }
  br__part_figure_clear (&f);
  return status;
}

/* All figures at RATIO, and the list in pieces that go on a sheet WIDE by HIGH.  */
static br_status
make_blocks (work *w, const br_number *ratio, int64_t wide, int64_t high)
{
  const size_t parts = w->wood.part_count, rows = high > 4 * LEADING ? (size_t) (high / LEADING - 2) : 1;
  br_status status = BR_OK;
  blocks_clear (w);
  w->number = parts;
  w->d->found = (br__draw_result) { .shapes = 0 };
  w->blocks = br__alloc_zero (parts + (parts + rows - 1) / rows, sizeof *w->blocks);
  if (!w->blocks)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < parts && status == BR_OK; i++)
    if (is_drawn (&w->wood.parts[i]))
      {
        status = make_block (&w->blocks[w->count++], &w->d->found.unmeasured, w, i, ratio);
        w->d->found.shapes++;
      }
  w->d->found.loose = parts - w->d->found.shapes;
  for (size_t i = 0; i < parts && status == BR_OK; i += rows)
    status = plot_list (&w->blocks[w->count++].plot, w, i, i + rows < parts ? i + rows : parts, wide);
  for (size_t i = 0; i < w->count; i++)
    {
      w->blocks[i].width = br__next_line (w->blocks[i].plot.width, BR__FINE, 0);
      w->blocks[i].height = br__next_line (w->blocks[i].plot.height, BR__FINE, 0);
    }
  return status;
}

/* ---- Sheets ---- */

/* In rows from the left, on sheets WIDE by HIGH.  */
static void
pack (work *w, int64_t wide, int64_t high, int64_t gap)
{
  int64_t x = 0, y = 0, row = 0;
  size_t sheet = 0;
  w->fits = 1;
  for (size_t i = 0; i < w->count; i++)
    {
      block *b = &w->blocks[i];
      w->fits = w->fits && b->width <= wide && b->height <= high;
      if (x && x + b->width > wide)
        {
          y += row + gap;
          x = row = 0;
        }
      if ((x || y) && y + b->height > high)
        {
          sheet++;
          x = y = row = 0;
        }
      b->x = x;
      b->y = y;
      b->sheet = sheet;
      x += b->width + gap;
      row = larger (row, b->height);
    }
  w->sheets = sheet + 1;
}

/* The blocks of sheet NUMBER.  */
static void
join_blocks (br__plot *p, const work *w, size_t number)
{
  for (size_t i = 0; i < w->count; i++)
    if (w->blocks[i].sheet == number)
      {
        const block *b = &w->blocks[i];
        br__plot_join (p, &b->plot, 0, b->x, b->y, NULL);
        p->width = larger (p->width, b->x + b->width);
        p->height = larger (p->height, b->y + b->height);
      }
}

static br_status
no_room (work *w)
{
  return br__fail (w->run->error, BR_DOMAIN, w->run->word.offset, w->run->end - w->run->word.offset,
                   "the margins leave too little of the paper");
}

static br__area
room_of (work *w, const br_number *ratio, int landscape, br_status *status)
{
  br__drawing *d = w->d;
  if (*status == BR_OK)
    *status = br__paperwork_make (&d->w, w->run, "parts", ratio, NULL, d->paper, landscape);
  br__area room = br__paper_room (&d->w);
  if (*status == BR_OK && (room.x2 - room.x < BR__INCH || room.y2 - room.y < BR__INCH))
    *status = no_room (w);
  return (br__area) { 0, 0, room.x2 - room.x, room.y2 - room.y };
}

/* Everything at RATIO on paper that lies the way that takes fewer sheets.  */
static br_status
try_scale (work *w, const br_number *ratio)
{
  br_status status = BR_OK;
  const br__area upright = room_of (w, ratio, 0, &status), level = room_of (w, ratio, 1, &status);
  if (status == BR_OK)
    status = make_blocks (w, ratio, upright.x2, level.y2);
  if (status != BR_OK)
    return br__fail_untold (w->run->error, status, w->run->word.offset, w->run->end - w->run->word.offset);
  pack (w, level.x2, level.y2, BETWEEN);
  size_t sheets = w->sheets;
  int fits = w->fits;
  pack (w, upright.x2, upright.y2, BETWEEN);
  w->d->landscape = fits > w->fits || (fits == w->fits && sheets < w->sheets);
  if (w->d->landscape)
    pack (w, level.x2, level.y2, BETWEEN);
  room_of (w, ratio, w->d->landscape, &status);
  return status;
}

/* How long and wide the parts are at full size, at the most.  */
static br_status
whole_reach (br__area *reach, const work *w)
{
  br_status status = BR_OK;
  *reach = (br__area) { 0, 0, 0, 0 };
  for (size_t i = 0; i < w->wood.part_count && status == BR_OK; i++)
    for (int k = 0; k < 2 && status == BR_OK && is_drawn (&w->wood.parts[i]); k++)
      {
        const br_real size = { w->wood.parts[i].size[k ? BR__WIDTH : BR__LENGTH_OF].value, NULL };      /* borrowed */
        int64_t at = 0, *most = k ? &reach->y2 : &reach->x2;
        status = br__to_paper (&at, &size, NULL, 0);
        *most = larger (*most, at);
      }
  return status == BR_OK ? BR_OK : br__fail_plain (w->run->error, status, w->run->word.offset, w->run->end - w->run->word.offset);
}

/* Of the largest standard scales at which each part goes on one sheet, the one that takes the fewest.  */
static br_status
find_scale (work *w)
{
  const br__scale_row *row, *best = NULL, *made = NULL;
  br_number ratio = BR_NUMBER_ZERO;
  br__area full, upright, level;
  size_t fewest = SIZE_MAX;
  int tried = 0, inch;
  br_status status = br_number_set_int (&ratio, 1);
  upright = room_of (w, &ratio, 0, &status);
  level = room_of (w, &ratio, 1, &status);
  inch = !w->d->w.metric;
  if (status == BR_OK)
    status = whole_reach (&full, w);
  for (size_t i = 0; status == BR_OK && fewest > 1 && tried < CANDIDATES && (row = br__scale_at (i, inch)) != NULL; i++)
    {
      if (!br__scale_is_usual (row, inch))
        continue;
      best = best && fewest < SIZE_MAX ? best : row;
      if (!br__may_fit (row, full, upright) && !br__may_fit (row, full, level))
        continue;
      status = br_number_set_ratio (&ratio, row->drawn, row->full);
      if (status == BR_OK)
        status = try_scale (w, &ratio);
      made = row;
      tried += status == BR_OK && w->fits;
      if (status == BR_OK && w->fits && w->sheets < fewest)
        {
          fewest = w->sheets;
          best = row;
        }
    }
  if (status == BR_OK && fewest == SIZE_MAX)
    status = no_room (w);
  if (status == BR_OK && best != made)
    {
      status = br_number_set_ratio (&ratio, best->drawn, best->full);
      if (status == BR_OK)
        status = try_scale (w, &ratio);
    }
  br_number_clear (&ratio);
  return status;
}

static br_status
put_words (br_text *t, const work *w)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < w->wood.part_count && status == BR_OK; i++)
    {
      const br__piece *p = &w->wood.parts[i];
      br__text_printf (t, "%zu %s, %lld of ", i + 1, p->wood->name, (long long) p->quantity);
      status = br__put_wood_size (t, p, 0, &w->run->sheet->settings);
      br__text_printf (t, "%s%s.\n", p->stock == SIZE_MAX ? "" : ", ", p->stock == SIZE_MAX ? "" : w->wood.stocks[p->stock].wood->name);
    }
  return t->failed ? BR_NO_MEMORY : status;
}

static br_status
write_file (work *w)
{
  br__drawing *d = w->d;
  const int one = strcmp (br__picture_form (d->path), "pdf") != 0;
  br_text words = BR_TEXT_ZERO;
  br_status status = put_words (&words, w);
  /* A picture grows instead.  */
  if (one)
    pack (w, br__paper_room (&d->w).x2 - br__paper_room (&d->w).x, INT64_MAX / 2, BETWEEN);
  br__plot *sheets = br__alloc_zero (w->sheets, sizeof *sheets);
  if (!sheets)
    status = BR_NO_MEMORY;
  for (size_t i = 0; i < w->sheets && status == BR_OK; i++)
    {
      join_blocks (&sheets[i], w, i);
      status = sheets[i].failed ? BR_NO_MEMORY : BR_OK;
    }
  if (status != BR_OK)
    br__fail_plain (w->run->error, status, w->run->word.offset, w->run->end - w->run->word.offset);
  else
    {
      d->figure = sheets[0];
      status = w->sheets == 1 ? br__draw_file (&d->pages, w->run, &sheets[0], &d->w, br__text_string (&words), d->path)
                              : br__draw_sheets (&d->pages, w->run, sheets, w->sheets, &d->w, br__text_string (&words), d->path);
      status = br__placed (w->run, status, d->path_start, d->path_end);
      sheets[0] = (br__plot) { .inks = NULL };
    }
  br__plots_free (sheets, sheets ? w->sheets : 0);
  br__text_clear (&words);
  return status;
}

/* ---- In the terminal ---- */

/* The blank of F as a shape.  */
static br_status
show_blank (br__part_figure *f)
{
  static const br__shape box = { .kind = BR__BOX };
  const br_number *sizes[] = { &f->piece->size[BR__LENGTH_OF].value, &f->piece->size[BR__WIDTH].value };
  br__drawn *d = br__alloc_zero (1, sizeof *d);
  if (!d)
    return BR_NO_MEMORY;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      const br_real size = { *sizes[i], NULL };         /* borrowed */
      status = br__to_paper (i ? &d->b : &d->a, &size, NULL, 0);
    }
  d->shape = &box;
  d->tied = 1;
  d->x = d->a / 2;
  d->y = d->b / 2;
  d->reach = f->view.reach = (br__area) { 0, 0, d->a, d->b };
  f->view.shapes = d;
  f->view.count = 1;
  return status;
}

/* The widths of a row that are tried, in parts of the longest.  */
static const int widths[] = { 4, 5, 6, 8, 12, 16, 24 };

/* So that the picture, which is about five dots wide for each three that it is high, shows all as large as it can.  */
static br__area
pack_view (work *w)
{
  int64_t longest = 1, least = INT64_MAX, wide = 0;
  br__area all = { 0, 0, 0, 0 };
  for (size_t i = 0; i < w->count; i++)
    longest = larger (longest, w->blocks[i].width);
  for (size_t k = 0; k <= sizeof widths / sizeof widths[0]; k++)
    {
      int64_t width = k < sizeof widths / sizeof widths[0] ? longest / 4 * widths[k] + 4 : wide;
      pack (w, width, INT64_MAX / 2, longest / 16);
      all = (br__area) { 0, 0, 0, 0 };
      for (size_t i = 0; i < w->count; i++)
        {
          all.x2 = larger (all.x2, w->blocks[i].x + w->blocks[i].width);
          all.y2 = larger (all.y2, w->blocks[i].y + w->blocks[i].height);
        }
      if (larger (all.x2, all.y2 / 3 * 5) < least)
        {
          least = larger (all.x2, all.y2 / 3 * 5);
          wide = width;
        }
    }
  return all;
}

static br_status
show_parts (work *w)
{
  const size_t parts = w->wood.part_count;
  br__part_figure *figures = br__alloc_zero (parts, sizeof *figures);
  br__view_block *shown = br__alloc_zero (parts, sizeof *shown);
  br_status status = BR_OK;
  w->blocks = br__alloc_zero (parts, sizeof *w->blocks);
  if (!figures || !shown || !w->blocks)
    status = BR_NO_MEMORY;
  for (size_t i = 0; i < parts && status == BR_OK; i++)
    if (is_drawn (&w->wood.parts[i]))
      {
        br__part_figure *f = &figures[w->count];
        status = open_figure (f, w, &w->wood.parts[i], NULL);
        if (status == BR_OK && !f->view.count)
          status = show_blank (f);
        shown[w->count] = (br__view_block) { .view = &f->view, .number = i + 1 };
        w->blocks[w->count].width = f->view.reach.x2 - f->view.reach.x;
        w->blocks[w->count++].height = f->view.reach.y2 - f->view.reach.y;
      }
  if (status == BR_OK)
    {
      br__area all = pack_view (w);
      for (size_t i = 0; i < w->count; i++)
        {
          /* Rows go down, and Y of a view up.  */
          shown[i].x = w->blocks[i].x - shown[i].view->reach.x;
          shown[i].y = all.y2 - w->blocks[i].y - shown[i].view->reach.y2;
        }
      status = br__view_emit_parts (w->run, shown, w->count, all, &w->wood);
    }
  if (status != BR_OK)
    br__fail_untold (w->run->error, status, w->run->word.offset, w->run->end - w->run->word.offset);
  for (size_t i = 0; figures && i < parts; i++)
    br__part_figure_clear (&figures[i]);
  br__free (figures);
  br__free (shown);
  return status;
}

/* ---- The statement ---- */

#define MOST_PARTS 1000

br_status
br__draw_parts (br__drawing *d, br__run *run)
{
  work w = { .d = d, .run = run };
  br_status status = br__wood_resolve (&w.wood, run);
  const br_number *scale = d->scaled ? &d->ratio : run->sheet->settings.scale_given ? &run->sheet->settings.scale : NULL;
  if (status == BR_OK)
    status = br__need_parts (run, &w.wood);
  if (status == BR_OK && w.wood.part_count > MOST_PARTS)
    status = br__fail (run->error, BR_TOO_BIG, run->word.offset, run->end - run->word.offset, "more than %d parts are too many for one drawing",
                       MOST_PARTS);
  if (status == BR_OK && !d->path)
    status = d->scaled || d->paper ? br__expected (run, "`into FILE.pdf`, `.svg` or `.png`") : show_parts (&w);
  else if (status == BR_OK)
    {
      status = scale ? try_scale (&w, scale) : find_scale (&w);
      if (status == BR_OK)
        status = write_file (&w);
      d->wood = &w.wood;
      if (status == BR_OK)
        status = br__drawing_emit (d, run);
      d->wood = NULL;
    }
  blocks_clear (&w);
  br__wood_list_clear (&w.wood);
  return status;
}
