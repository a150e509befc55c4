/* SPDX-License-Identifier: LGPL-3.0-or-later
   paint.c - pages of strokes through the program's painter, to PDF and PNG.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/wide.h"
#include "draw/plot.h"
#include "exact/status.h"
#include "sheet/access.h"

#define SQUARES_GREY 750              /* thousandths of white */
#define BILLION INT64_C (1000000000)
#define FULL_TURN INT64_C (360000000) /* in the painter's millionths of a degree */

typedef struct easel
{
  const br_painter *painter;
  br_page *page;
  int32_t width;                /* of the pen at hand */
  int dashed, grey;
} easel;

/* Billionths of an inch in the painter's unit, the nearest.  */
static int32_t
to_page (int64_t n)
{
  const int64_t num = 9, den = 125000;
  int64_t twice = 2 * n * num + den, floor = twice / (2 * den);
  return (int32_t) (floor - (twice < 0 && twice % (2 * den) != 0));
}

static void
line (easel *e, int64_t x, int64_t y, int64_t x2, int64_t y2)
{
  e->painter->line (e->page, to_page (x), to_page (y), to_page (x2), to_page (y2), e->width, e->dashed);
}

/* Billionths of a degree.  */
static void
arc (easel *e, int64_t x, int64_t y, int64_t r, int64_t from, int64_t to)
{
  int64_t start = from / 1000 % FULL_TURN, turn = (to - from) / 1000;
  turn = turn > FULL_TURN ? FULL_TURN : turn < -FULL_TURN ? -FULL_TURN : turn;
  if (turn < 0)
    {
      start += turn;
      turn = -turn;
    }
  e->painter->arc (e->page, to_page (x), to_page (y), to_page (r), (int32_t) start, (int32_t) (start + turn),
                   e->width, e->dashed);
}

static void
paint_box (easel *e, const br__ink *k)
{
  line (e, k->x, k->y, k->x2, k->y);
  line (e, k->x2, k->y, k->x2, k->y2);
  line (e, k->x2, k->y2, k->x, k->y2);
  line (e, k->x, k->y2, k->x, k->y);
}

static int64_t
of_billion (int64_t n, int64_t part)
{
  return br__scale_by (n, part, BILLION);
}

static void
paint_strip (easel *e, const br__ink *k)
{
  int64_t turn = k->to - k->from;
  arc (e, k->x, k->y, k->r, k->from, k->to);
  if (k->r2 == k->r)
    return;
  arc (e, k->x, k->y, k->r2, k->from, k->to);
  for (int i = 0; i < 2 && turn / 1000 < FULL_TURN && turn / 1000 > -FULL_TURN; i++)
    {
      int64_t sine, cosine;
      br__sine_cosine (&sine, &cosine, i ? k->to : k->from);
      line (e, k->x + of_billion (k->r, cosine), k->y - of_billion (k->r, sine), k->x + of_billion (k->r2, cosine),
            k->y - of_billion (k->r2, sine));
    }
}

static void
paint_bar (easel *e, const br__ink *k)
{
  int64_t x, y, angle = br__angle (k->x2 - k->x, k->y - k->y2);
  br__across (&x, &y, k->x2 - k->x, k->y2 - k->y, k->r);
  line (e, k->x + x, k->y + y, k->x2 + x, k->y2 + y);
  line (e, k->x - x, k->y - y, k->x2 - x, k->y2 - y);
  arc (e, k->x, k->y, k->r, angle + 90 * BILLION, angle + 270 * BILLION);
  arc (e, k->x2, k->y2, k->r, angle - 90 * BILLION, angle + 90 * BILLION);
}

static void
paint_arrow (easel *e, const br__ink *k)
{
  int64_t c[6];
  int32_t corners[6];
  br__arrow_corners (c, k);
  for (int i = 0; i < 6; i++)
    corners[i] = to_page (c[i]);
  e->painter->fill (e->page, corners, 3);
}

static void
paint_text (easel *e, const br__ink *k)
{
  br_page_text t = { .text = k->text, .x = to_page (k->x), .size = to_page (k->size), .bold = k->bold,
                     .align = k->align };
  t.y = to_page (k->y) - e->painter->text (e->page, NULL, &t, 0) / 2;
  e->painter->text (e->page, NULL, &t, 1);
}

static void
paint_ink (easel *e, const br__ink *k)
{
  e->width = to_page (br__pen_width (k->pen));
  e->dashed = k->dashed;
  if ((k->pen == BR__PEN_GRID) != e->grey)
    {
      e->grey = k->pen == BR__PEN_GRID;
      e->painter->pen (e->page, e->grey ? SQUARES_GREY : 0, 1);
    }
  switch (k->type)
    {
    case BR__INK_LINE: line (e, k->x, k->y, k->x2, k->y2); break;
    case BR__INK_CIRCLE: arc (e, k->x, k->y, k->r, 0, 360 * BILLION); break;
    case BR__INK_BOX: paint_box (e, k); break;
    case BR__INK_STRIP: paint_strip (e, k); break;
    case BR__INK_BAR: paint_bar (e, k); break;
    case BR__INK_ARROW: paint_arrow (e, k); break;
    case BR__INK_TEXT: paint_text (e, k); break;
    }
}

static void
paint_page (easel *e, const br__plot *p)
{
  e->grey = 0;
  e->painter->pen (e->page, 0, 1);
  for (size_t i = 0; i < p->count; i++)
    {
      const br__area *a = &p->window;
      if (p->cut_to > p->cut_from && i == p->cut_from)
        e->painter->clip (e->page, to_page (a->x), to_page (a->y), to_page (a->x2), to_page (a->y2));
      if (p->cut_to > p->cut_from && i == p->cut_to)
        e->painter->clip (e->page, 0, 0, 0, 0);
      paint_ink (e, &p->inks[i]);
    }
}

br_status
br__paint (br__run *run, const br__plot *pages, size_t count, const char *form, const char *title, const char *path)
{
  easel e = { .painter = NULL };
  char *bytes = NULL;
  size_t length = 0;
  if (!run->sheet->painter)
    {
      br__fail (run->error, BR_DOMAIN, 0, 0, "this program cannot draw pages");
      br__hint (run->error, "write into a .svg file");
      return BR_DOMAIN;
    }
  e.painter = run->sheet->painter (run->sheet->painter_user, run->error);
  if (!e.painter)
    {
      br__hint (run->error, "write into a .svg file");
      return run->error && run->error->status != BR_OK ? run->error->status : BR_IO;
    }
  br_status status = e.painter->open (&e.page, form, to_page (pages[0].width), to_page (pages[0].height), title,
                                      run->error);
  if (status != BR_OK)
    return status;
  for (size_t i = 0; i < count; i++)
    {
      if (i)
        e.painter->next (e.page);
      paint_page (&e, &pages[i]);
    }
  status = e.painter->close (&bytes, &length, e.page, run->error);
  if (status == BR_OK)
    {
      status = br__file_put (run, path, br__content_named (path), bytes, length);
      e.painter->release (bytes);
    }
  return status;
}
