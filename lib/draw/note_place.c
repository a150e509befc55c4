/* SPDX-License-Identifier: LGPL-3.0-or-later
   note_place.c - notes that a person gave: where they asked for them, or as near as no stroke runs through them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>

#include "draw/by_hand.h"
#include "exact/wide.h"

#define TEXT BR__SIZE_TEXT
#define AIR (BR__INCH / 24)
#define MOST_RINGS 48           /* sixteenths of an inch that a note is moved */
#define NEAR_RINGS 12
#define NO 10000                /* a cost that is no room */
#define COST BR__INCH           /* of leaders and places costs are in billionths */

static const unsigned text_price[BR__CELLS] = { 0, 30, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO };
static const unsigned leader_price[BR__CELLS] = { 0, 6, 12, 18, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO };

br_status
br__note_place (int *found, int64_t at[2], br__run *run, const br__side_view *v, const br__annotation *a)
{
  br_status status = BR_OK;
  *found = a->active && a->kind == BR__NOTE;
  for (int i = 0; i < 2 && *found && status == BR_OK; i++)
    {
      const br__value *value = br__annotation_value (run->sheet, a, i);
      *found = value != NULL;
      if (value)
        status = br__to_paper (&at[i], &value->real, &v->ratio, run->sheet->settings.bits);
    }
  return status;
}

br__area
br__note_area (int64_t x, int64_t y, const br__annotation *a)
{
  int64_t half = TEXT * 3 / 5 + AIR / 2;
  return (br__area) { x - AIR, y - half, x + br__text_width (a->text, TEXT) + AIR, y + half };
}

/* A leader from the text to an outline.  */
typedef struct leader
{
  int64_t from_x, from_y, to_x, to_y;
  int64_t cost;
} leader;

/* From an end of the text AREA to the outline of D, as straight a way as there is; 30 to 60 degrees where it can be.  The cost is
   LIMIT or more where none costs less.  */
static leader
find_leader (const br__ink_map *m, br__area area, const br__anchors *anchors, int64_t limit)
{
  leader best = { .cost = limit };
  int64_t y = (area.y + area.y2) / 2;
  for (size_t i = 0; i < anchors->count; i++)
    for (int end = 0; end < 2; end++)
      {
        const br__anchor *a = &anchors->rows[i];
        int64_t x = end ? area.x2 : area.x;
        int64_t run = x - a->x, rise = y - a->y, length = br__span (run, rise), high = llabs (rise), wide = llabs (run);
        int askew = high * 100 < wide * 58 || wide * 100 < high * 58 || length > BR__INCH / 100 * 149;
        /* The cosine to the way out of the shape is less than 0.3.  */
        br__wide out = br__wide_add (br__wide_product (run, a->out_x), br__wide_product (rise, a->out_y));
        int inward = !length || br__wide_cmp (out, br__wide_product (length, BR__INCH / 10 * 3)) < 0;
        int own = end ? a->x < area.x2 : a->x > area.x;         /* through its own text */
        int64_t cost = length * 20 + COST * (askew * 60 + own * NO + inward * 400);
        if (cost < best.cost)
          cost += COST * br__ink_map_line_cost (m, x, y, a->x, a->y, leader_price, NO);
        if (cost < best.cost)
          best = (leader) { x, y, a->x, a->y, cost };
      }
  return best;
}

/* The place near X Y at which the text, and its leader to one of the ANCHORS (or NULL), cost least; the cost is NO or more where
   there is none.  */
static leader
choose_place (int64_t *x, int64_t *y, const br__annotation *a, const br__ink_map *m, const br__anchors *anchors)
{
  const int64_t x0 = *x, y0 = *y, step = BR__INCH / 16;
  leader best = { .cost = COST * NO };
  /* Close by each place is tried, farther off each third.  */
  for (int ring = 0, stride = 1; ring < MOST_RINGS && COST * ring * 6 < best.cost; ring += stride = ring < NEAR_RINGS ? 1 : 3)
    for (int i = -ring; i <= ring; i += stride)
      for (int k = -ring; k <= ring; k += i == -ring || i == ring || !ring ? stride : 2 * ring)
        {
          br__area area = br__note_area (x0 + i * step, y0 + k * step, a);
          int64_t cost = COST * (ring * 6 + br__ink_map_cost (m, area, text_price, NO));
          leader l = { .cost = 0 };
          if (cost < best.cost && anchors)
            l = find_leader (m, area, anchors, best.cost - cost);
          if (cost + l.cost >= best.cost)
            continue;
          best = l;
          best.cost = cost + l.cost;
          *x = x0 + i * step;
          *y = y0 + k * step;
        }
  return best;
}

static void
put_leader (br__plot *p, br__ink_map *m, const leader *l)
{
  p->group = BR__GROUP_LEADERS;
  br__plot_line (p, BR__PEN_THIN, l->from_x, l->from_y, l->to_x, l->to_y, 0);
  br__ink_map_line (m, l->from_x, l->from_y, l->to_x, l->to_y, BR__CELL_KEPT);
  br__ink *arrow = br__plot_add (p, BR__INK_ARROW, BR__PEN_THIN, l->to_x, l->to_y);
  arrow->x2 = l->from_x;
  arrow->y2 = l->from_y;
}

int
br__note_put (br__plot *p, br__ink_map *m, const br__annotation *a, const br__view_at *f, const int64_t at[2])
{
  int64_t x = f->x + at[0], y = f->y - at[1];
  const br__drawn *d = a->shape ? br__drawn_called (f->view, a->shape) : NULL;
  br__anchors anchors = { .view = f->view, .directions = 12 };
  if (d)
    br__anchors_find (&anchors, d, f->x, f->y);
  leader l = choose_place (&x, &y, a, m, d ? &anchors : NULL);
  /* Rather none than one that lies on a line, or the leader of which crosses one.  */
  if (l.cost >= COST * NO)
    return 0;
  br__area area = br__note_area (x, y, a);
  p->group = BR__GROUP_TEXT;
  br__lines_open (p, area);
  br__plot_text (p, x, y, BR_ALIGN_LEFT, TEXT, a->text);
  br__ink_map_fill (m, area, BR__CELL_TEXT);
  if (d)
    put_leader (p, m, &l);
  return 1;
}
