/* SPDX-License-Identifier: LGPL-3.0-or-later
   page_ruler.c - rulers at true size: the plainer the fraction, the longer its mark.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>

#include "page/page.h"

#define POINT (BR_PAGE_INCH / 72)
#define FINEST (POINT * 7)            /* length of the shortest mark */
#define LONGER (POINT * 5)            /* each plainer kind of fraction adds so much */
#define NUMBERS (POINT * 11)

static int32_t
size_of (const br_page_ruler *r)
{
  return r->size > 0 ? r->size : NUMBERS;
}

/* How long mark I of R is: with its numbers marks grow, too.  */
static int32_t
mark_length (int32_t i, const br_page_ruler *r)
{
  int32_t kinds = 0;
  if (r->parts % 10 == 0)
    {
      int32_t tenth = r->parts / 10;
      kinds = (tenth > 1 && i % tenth == 0) + (i % (5 * tenth) == 0) + (i % r->parts == 0);
    }
  else
    for (int32_t step = 1; step < r->parts && i % (step * 2) == 0; step *= 2)
      kinds++;
  return (int32_t) ((int64_t) (FINEST + kinds * LONGER) * size_of (r) / NUMBERS);
}

/* Its tip touches the base line from below, where no mark stands.  */
static void
draw_arrow (br_page *page, const br_page_ruler *r)
{
  br__page_flush (page);
  double x = BR__POINTS (r->x + r->arrow), y = BR__POINTS (r->y) + 1.5;
  cairo_move_to (page->cairo, x, y);
  cairo_line_to (page->cairo, x - 4, y + 12);
  cairo_line_to (page->cairo, x + 4, y + 12);
  cairo_close_path (page->cairo);
  cairo_fill (page->cairo);
  br__page_line (page, r->x + r->arrow, r->y + 10 * POINT, r->x + r->arrow, r->y + 26 * POINT, POINT * 3 / 2, 0);
}

void
br__page_ruler (br_page *page, const br_page_ruler *r)
{
  int32_t top = mark_length (0, r), size = size_of (r), width = (int32_t) ((int64_t) POINT * size / NUMBERS / 2);
  br__page_line (page, r->x, r->y, r->x + r->units * r->unit, r->y, POINT, 0);
  br__page_begin_line (page, width, 0);
  for (int32_t i = 0; i <= r->units * r->parts; i++)
    {
      double x = BR__POINTS (r->x + (int32_t) ((int64_t) i * r->unit / r->parts));
      cairo_move_to (page->cairo, x, BR__POINTS (r->y));
      cairo_line_to (page->cairo, x, BR__POINTS (r->y - mark_length (i, r)));
    }
  for (int32_t k = 0; k <= r->units; k++)
    {
      char number[16];
      snprintf (number, sizeof number, "%d", (int) (r->first + k));
      br_page_text t = { number, r->x + k * r->unit, r->y - top - size * 3 / 2, 0, size, 0, BR_ALIGN_MIDDLE, 0, 0 };
      br__page_text (page, NULL, &t, 1);
    }
  if (r->arrow >= 0)
    draw_arrow (page, r);
}
