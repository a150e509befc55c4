/* SPDX-License-Identifier: LGPL-3.0-or-later
   layout.c - a view with its squares, dimension lines and names as one figure, without paper.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/by_hand.h"
#include "exact/status.h"
#include "plot/ink_map.h"
#include "plot/table_piece.h"

#define AROUND (BR__INCH / 4)         /* room for names beside the outermost strokes */
#define LETTERS (8 * BR__POINT)
#define LEADING (LETTERS * 3 / 2)
#define BESIDE (BR__INCH * 3 / 10)      /* between the figure and a table at its side */
#define LEAST_WIDTH (BR__INCH * 5 / 2)
#define MOST_NOTES 6
#define CROWD 300               /* beyond so many shapes it takes its time to look for free paper */

static int64_t
most (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

/* What the dashed shapes need, a line each, from TOP down; returns the height.  */
static int64_t
plot_needs (br__plot *p, const br__side_view *v, int64_t left, int64_t top, int64_t width)
{
  size_t told = 0;
  int64_t y = top + LEADING;
  br_text t = BR_TEXT_ZERO;
  if (!v->loose)
    return 0;
  br__plot_fitted (p, left, y, BR_ALIGN_LEFT, LETTERS, width, "Dashed: not tied down yet, size or place made up.");
  for (size_t i = 0; i < v->count && told < MOST_NOTES; i++)
    if (!v->shapes[i].tied)
      {
        y += LEADING;
        told++;
        br__plot_fitted (p, left, y, BR_ALIGN_LEFT, LETTERS, width, v->shapes[i].label);
      }
  if (told < v->loose)
    {
      y += LEADING;
      br__text_printf (&t, "and %zu more", v->loose - told);
      br__plot_fitted (p, left, y, BR_ALIGN_LEFT, LETTERS, width, br__text_string (&t));
    }
  p->failed = p->failed || t.failed;
  br__text_clear (&t);
  return y + LEADING - top;
}

/* The first COUNT inks, WIDTH wide, go to the middle of what is wider below them.  */
static void
centre_figure (br__plot *p, size_t count, int64_t width)
{
  if (p->width <= width)
    return;
  int64_t dx = br__next_line ((p->width - width) / 2, BR__FINE, 0);
  size_t all = p->count;
  p->count = count;
  br__plot_shift (p, 0, dx, 0);
  p->count = all;
  p->square_x += dx;
}

br_status
br__figure_plot (br__plot *p, br__draw_result *out, br__run *run, br__side_view *v, br__view_at *f, int64_t grid, int64_t width,
                 int64_t height)
{
  const br__size_lines *level = f->level, *upright = f->upright;
  br__area hand = v->reach;     /* with what was asked for beside the shapes */
  br_status status = br__hand_reach (&hand, run, v);
  if (status != BR_OK)
    return status;
  int64_t left = most (most (upright->depth[BR__NEAR], level->before), AROUND + v->reach.x - hand.x);
  int64_t top = most (most (level->depth[BR__FAR], upright->after), AROUND + hand.y2 - v->reach.y2);
  f->x = br__next_line (left - v->reach.x, BR__FINE, 0);
  f->y = br__next_line (top + v->reach.y2, BR__FINE, 0);
  p->width = f->x + v->reach.x2 + most (most (upright->depth[BR__FAR], level->after), AROUND + hand.x2 - v->reach.x2);
  p->height = f->y - v->reach.y + most (most (level->depth[BR__NEAR], upright->before), AROUND + v->reach.y - hand.y);
  p->width = most (p->width, LEAST_WIDTH);
  if (v->joined)
    br__plot_sheets (p, width, height);
  p->group = BR__GROUP_DIMENSIONS;
  if (grid)
    br__plot_grid (p, (br__area) { 0, 0, p->width, p->height }, grid, f->x, f->y, NULL, 0);
  p->squares = p->count;
  p->square_x = f->x;
  p->square_y = f->y;
  br__view_plot (p, v, f->x, f->y);
  br__size_lines_plot (p, level, v, f->x, f->y);
  br__size_lines_plot (p, upright, v, f->x, f->y);
  if (!level->elsewhere || !upright->elsewhere)
    br__datum_plot (p, f);
  br__area within = { 0, 0, p->width, p->height };
  status = br__hand_plot (p, &out->unplaced, &v->unplaced, run, f, within);
  out->unlabelled = br__labels_plot (p, v, within, f->x, f->y);
  out->shapes = v->count;
  out->loose = v->loose;
  return status;
}

/* The table in pieces on what is free of WIDTH by HEIGHT, beside the figure and below it; *DONE 0 and nothing where that is too little.  */
static br_status
squeeze_places (int *done, br__plot *p, size_t *rows, br__run *run, const br__view_at *f, int64_t width, int64_t height)
{
  br__plot table = { .inks = NULL };
  br__table_piece rest = { .lines = NULL };
  const size_t figure = p->count;
  const int64_t wide = p->width, high = p->height;
  /* Texts need no air at the edges of the paper's room.  */
  const br__area room = { -2 * BR__FREE_AIR, -2 * BR__FREE_AIR, width + BR__FREE_AIR, height + BR__FREE_AIR };
  int64_t length = 0;
  br_status status = BR_OK;
  int good = 1;
  /* In narrow rows first, then in rows as wide as what stands over them.  */
  for (int i = 0; i < 2 && status == BR_OK && good && !*done; i++)
    {
      int64_t narrow = i ? table.width : LEAST_WIDTH;
      br__plot_clear (&table);
      status = br__places_plot (&table, rows, &length, run, f, (br__area) { 0, 0, narrow, 0 });
      for (int off_face = p->face.x2 > p->face.x; off_face >= 0 && status == BR_OK && good && !*done; off_face--)
        {
          br__plot_cut (p, figure);
          good = br__table_open (&rest, &table) && br__table_squeeze (&rest, p, room, off_face);
          *done = good && rest.next == rest.count;
          br__table_close (&rest);
        }
    }
  p->width = wide;
  p->height = high;
  if (!*done)
    br__plot_cut (p, figure);
  for (size_t i = 0; i < p->piece_count; i++)
    {
      /* The air around the rules of the table is in the margin.  */
      p->width = most (p->width, p->pieces[i].x2 < width ? p->pieces[i].x2 : width);
      p->height = most (p->height, p->pieces[i].y2);
    }
  br__plot_clear (&table);
  return status == BR_OK && !good ? BR_NO_MEMORY : status;
}

/* The table, of which P has no more than FIGURE inks and WIDE now, anew with air between its rows, where it is no higher than MOST then.  */
static br_status
loosen_rows (br__plot *p, size_t figure, int64_t wide, size_t *rows, int64_t *table, br__run *run, const br__view_at *f, br__area room, int64_t most)
{
  br__view_at airy = *f;
  const size_t taken = p->taken_count;
  br_status status = BR_OK;
  airy.airy = 1;
  for (int i = 0; i < 2 && status == BR_OK && *rows && (i ? *table > most : *table <= most) && f->view->count <= CROWD; i++)
    {
      br__plot_cut (p, figure);
      p->taken_count = taken;
      p->width = wide;
      status = br__places_plot (p, rows, table, run, i ? f : &airy, room);
    }
  return status;
}

br_status
br__places_around (br__plot *p, size_t *rows, br__run *run, const br__view_at *f, int64_t width, int64_t height)
{
  const size_t figure = p->count, taken = p->taken_count;
  const int64_t wide = p->width, high = p->height, beside = wide + BESIDE;
  int64_t table = 0;
  br_status status = BR_OK;
  if (high <= height && beside < width)
    {
      const br__area side = { beside, 0, width, 0 };
      status = br__places_plot (p, rows, &table, run, f, side);
      if (status != BR_OK || (p->width <= width && table <= height && high + table > height))
        {
          if (status == BR_OK)
            status = loosen_rows (p, figure, wide, rows, &table, run, f, side, height);
          p->height = most (high, table);
          p->table = 0;
          p->table_top = p->height;
          p->figure_right = wide;
          return status;
        }
      br__plot_cut (p, figure);
      p->width = wide;
    }
  br__area below = { 0, high, br__table_width (p, width - (wide > width ? BR__JOIN : 0)), 0 };
  status = br__places_plot (p, rows, &table, run, f, below);
  if (status == BR_OK && high <= height && high + table > height && wide <= width && f->view->count <= CROWD)
    {
      int done = 0;
      br__plot_cut (p, figure);
      p->taken_count = taken;
      p->width = wide;
      p->table = 0;
      status = squeeze_places (&done, p, rows, run, f, width, height);
      if (status != BR_OK || done)
        return status;
      status = br__places_plot (p, rows, &table, run, f, below);
    }
  /* Below it, or on sheets of its own.  */
  if (status == BR_OK && height > 0)
    status = loosen_rows (p, figure, wide, rows, &table, run, f, below, high + table <= height ? height - high : (table + height - 1) / height * height);
  centre_figure (p, figure, wide);
  p->width = most (p->width, wide);
  p->height += table;
  return status;
}

br_status
br__draw_side (br__plot *p, br__draw_result *out, br__run *run, br__side_view *v, int64_t grid, int64_t width,
               int64_t height)
{
  br__plot made = { .inks = NULL };
  br__size_lines level = { .rows = NULL }, upright = { .rows = NULL };
  br__view_at f = { v, &level, &upright, 0, 0, 0 };
  br__datum_reach (v);
  br__text_clear (&v->unplaced);
  br_status status = br__size_lines_make (&level, run, v, 0);
  if (status == BR_OK)
    status = br__size_lines_make (&upright, run, v, 1);
  if (status == BR_OK)
    {
      status = br__figure_plot (&made, out, run, v, &f, grid, width, height);
      if (status == BR_OK)
        status = br__places_around (&made, &out->unmeasured, run, &f, width, height);
      made.height += plot_needs (&made, v, 0, made.height, made.width);
      status = made.failed || v->unplaced.failed ? BR_NO_MEMORY : status;
    }
  br__size_lines_clear (&level);
  br__size_lines_clear (&upright);
  if (status != BR_OK)
    {
      br__plot_clear (&made);
      return br__fail_plain (run->error, status, 0, 0);
    }
  br__plot_clear (p);
  *p = made;
  return BR_OK;
}

br_status
br__draw_bare (br__plot *p, br__run *run, const br__side_view *v, int64_t grid)
{
  br__plot made = { .inks = NULL };
  br__side_view bare = *v;      /* owns nothing */
  bare.bare = 1;
  /* Whole squares, so that 0, 0 lies on a line of the paper. */
  int64_t left = br__next_line (v->reach.x - grid, grid, 0), low = br__next_line (v->reach.y - grid, grid, 0);
  int64_t right = br__next_line (v->reach.x2, grid, 0), high = br__next_line (v->reach.y2, grid, 0);
  made.width = right - left;
  made.height = high - low;
  br__plot_grid (&made, (br__area) { 0, 0, made.width, made.height }, grid, -left, high, NULL, 0);
  made.squares = made.count;
  made.square_x = -left;
  made.square_y = high;
  br__view_plot (&made, &bare, -left, high);
  if (made.failed)
    {
      br__plot_clear (&made);
      return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  br__plot_clear (p);
  *p = made;
  return BR_OK;
}
