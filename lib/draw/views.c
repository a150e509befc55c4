/* SPDX-License-Identifier: LGPL-3.0-or-later
   views.c - the side, the front and the view from above on one sheet, each where the projection has it.

   Third angle, usual on inch sheets (ASME Y14.3, from memory): what is seen from above stands above, what is seen from the left
   at the left.  First angle, usual on metric ones (ISO 128-3 and ISO 5456-2, from memory): below, and at the right.  Each size
   is told once: across and up at the side, depth at the view from above.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/views.h"
#include "exact/status.h"

#define BETWEEN (BR__INCH * 2 / 5)      /* two views */
#define LETTERS (8 * BR__POINT)
#define CAPTION (LETTERS * 2)
#define SYMBOL (BR__INCH / 4)           /* the larger end of the cone */

static int64_t
larger (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

/* ---- The symbol ---- */

/* A cone cut off, seen from the side and from its smaller end, which is at the left: ISO 5456-2, and ASME Y14.1 for the title block
   (both from memory).  Its middle is at X Y.  */
static void
plot_symbol (br__plot *p, int64_t x, int64_t y, int first)
{
  const int64_t big = SYMBOL / 2, small = SYMBOL / 4, apart = SYMBOL * 3 / 4;
  int64_t cone = first ? x - apart : x + apart, rings = first ? x + apart : x - apart;
  p->group = BR__GROUP_FRAME;
  for (int i = 0; i < 2; i++)
    {
      br__ink *ring = br__plot_add (p, BR__INK_CIRCLE, BR__PEN_THIN, rings, y);
      ring->r = i ? small : big;
    }
  br__plot_line (p, BR__PEN_THIN, cone - big, y - small, cone - big, y + small, BR__SOLID);
  br__plot_line (p, BR__PEN_THIN, cone + big, y - big, cone + big, y + big, BR__SOLID);
  br__plot_line (p, BR__PEN_THIN, cone - big, y - small, cone + big, y - big, BR__SOLID);
  br__plot_line (p, BR__PEN_THIN, cone - big, y + small, cone + big, y + big, BR__SOLID);
  br__plot_line (p, BR__PEN_THIN, cone - big - small, y, cone + big + small, y, BR__DASH_DOT);
  br__plot_line (p, BR__PEN_THIN, rings - big - small, y, rings + big + small, y, BR__DASH_DOT);
  br__plot_line (p, BR__PEN_THIN, rings, y - big - small, rings, y + big + small, BR__DASH_DOT);
  br__plot_text (p, x, y + big + LETTERS * 3 / 2, BR_ALIGN_MIDDLE, LETTERS, first ? "first angle" : "third angle");
}

/* ---- The views ---- */

typedef struct figure
{
  br__plot plot;
  br__size_lines level, upright;
  br__view_at at;
  br__run run;                  /* of the sheet that it shows */
  br__draw_result found;
} figure;

static void
figure_clear (figure *f)
{
  br__plot_clear (&f->plot);
  br__size_lines_clear (&f->level);
  br__size_lines_clear (&f->upright);
}

/* What V, of the sheet of RUN, looks like alone; with dimension lines where LEVEL and UPRIGHT have them.  */
static br_status
make_figure (figure *f, const br__run *run, br__side_view *v, int level, int upright)
{
  f->run = *run;
  f->level.elsewhere = !level;
  f->upright.elsewhere = !upright;
  br__datum_reach (v);
  br_status status = level ? br__size_lines_make (&f->level, &f->run, v, 0) : BR_OK;
  if (status == BR_OK && upright)
    status = br__size_lines_make (&f->upright, &f->run, v, 1);
  f->at = (br__view_at) { v, &f->level, &f->upright, 0, 0, 0 };
  if (status == BR_OK)
    status = br__figure_plot (&f->plot, &f->found, &f->run, v, &f->at, 0, 0, 0);
  return f->plot.failed ? BR_NO_MEMORY : status;
}

/* Where the upper left corners of the three figures go, and what all take.  */
typedef struct places
{
  int64_t x[3], y[3], width, height, symbol_x, symbol_y;
} places;

static places
arrange (const figure f[3], int first)
{
  enum { SIDE, TOP, FRONT };
  places z = { .width = 0 };
  /* The views line up where 0, 0 of each goes.  */
  int64_t column = larger (f[SIDE].at.x, f[TOP].at.x), row = larger (f[SIDE].at.y, f[FRONT].at.y);
  int64_t wide = column + larger (f[SIDE].plot.width - f[SIDE].at.x, f[TOP].plot.width - f[TOP].at.x);
  int64_t high = row + larger (f[SIDE].plot.height - f[SIDE].at.y, f[FRONT].plot.height - f[FRONT].at.y);
  int64_t left = first ? 0 : f[FRONT].plot.width + BETWEEN, top = first ? 0 : f[TOP].plot.height + BETWEEN;
  left = br__next_line (left, BR__FINE, 0);
  top = br__next_line (top, BR__FINE, 0);
  z.x[SIDE] = left + column - f[SIDE].at.x;
  z.x[TOP] = left + column - f[TOP].at.x;
  z.x[FRONT] = first ? br__next_line (wide + BETWEEN, BR__FINE, 0) : 0;
  z.y[SIDE] = top + row - f[SIDE].at.y;
  z.y[FRONT] = top + row - f[FRONT].at.y;
  z.y[TOP] = first ? br__next_line (high + BETWEEN, BR__FINE, 0) : 0;
  z.width = larger (left + wide, z.x[FRONT] + f[FRONT].plot.width);
  z.height = larger (top + high, z.y[TOP] + f[TOP].plot.height);
  z.symbol_x = z.x[FRONT] + f[FRONT].plot.width / 2;
  z.symbol_y = z.y[TOP] + f[TOP].plot.height / 2;
  return z;
}

/* What the dimension lines do not say, a table for each view that measures something.  */
static br_status
plot_tables (br__plot *p, br__draw_result *out, figure f[3], int64_t width)
{
  static const char *const captions[] = { NULL, "Seen from above:", "Seen from the front:" };
  const size_t before = p->count;
  const int64_t top = p->height;
  br_status status = BR_OK;
  out->unmeasured = 0;
  for (int i = 0; i < 3 && status == BR_OK; i++)
    {
      size_t rows = 0, start = p->count;
      int64_t table = 0, caption = captions[i] ? CAPTION : 0;
      if (caption)
        br__plot_text (p, 0, p->height + LETTERS, BR_ALIGN_LEFT, LETTERS, captions[i]);
      size_t said = p->count;
      status = br__places_plot (p, &rows, &table, &f[i].run, &f[i].at, (br__area) { 0, p->height + caption, width, 0 });
      if (p->count == said)
        br__plot_cut (p, start);
      else
        p->height += caption + table;
      out->unmeasured += rows;
    }
  p->table = p->count > before ? before : 0;
  p->table_top = top;
  return status;
}

br_status
br__draw_views (br__plot *p, br__draw_result *out, br__view_set *v, int first, int64_t grid, int64_t width)
{
  br__plot made = { .inks = NULL };
  figure f[3];
  memset (f, 0, sizeof f);
  br_status status = BR_OK;
  for (int i = 1; i < 3; i++)
    v->view[i]->beside = v->view[i - 1];
  for (int i = 0; i < 3 && status == BR_OK; i++)
    status = make_figure (&f[i], &v->run[i], v->view[i], i == 0, i <= 1);
  places z = arrange (f, first);
  made.group = BR__GROUP_DIMENSIONS;
  made.width = z.width;
  made.height = z.height;
  if (status == BR_OK && grid)
    br__plot_grid (&made, (br__area) { 0, 0, z.width, z.height }, grid, z.x[0] + f[0].at.x, z.y[0] + f[0].at.y, NULL, 0);
  made.squares = made.count;
  made.square_x = z.x[0] + f[0].at.x;
  made.square_y = z.y[0] + f[0].at.y;
  *out = f[0].found;
  for (int i = 0; i < 3 && status == BR_OK; i++)
    {
      br__plot_join (&made, &f[i].plot, 0, z.x[i], z.y[i], NULL);
      f[i].at.x += z.x[i];
      f[i].at.y += z.y[i];
      out->unlabelled += i ? f[i].found.unlabelled : 0;
    }
  if (status == BR_OK)
    {
      plot_symbol (&made, z.symbol_x, z.symbol_y, first);
      /* Where sheets join, no wider than one without its join: then it finds free paper on any.  */
      status = plot_tables (&made, out, f, larger (z.width > width ? width - BR__JOIN : width, LETTERS));
    }
  for (int i = 0; i < 3; i++)
    figure_clear (&f[i]);
  status = made.failed ? BR_NO_MEMORY : status;
  if (status != BR_OK)
    {
      br__plot_clear (&made);
      return br__fail_plain (v->run[0].error, status, 0, 0);
    }
  br__plot_clear (p);
  *p = made;
  return BR_OK;
}
