/* SPDX-License-Identifier: LGPL-3.0-or-later
   by_hand.c - dimensions that a person asked for.  Level and upright ones get a place among those that the drawing has by
   itself; one along two points lies beside them, where there is room.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "draw/by_hand.h"
#include "exact/memory.h"
#include "exact/wide.h"

#define TEXT BR__SIZE_TEXT
#define AIR (BR__INCH / 24)
#define GAP (BR__INCH / 16)
#define PAST (BR__INCH / 8)
#define ARROW (BR__INCH / 8)
#define TAIL (BR__INCH / 4)
#define LIMIT 10000

/* A dimension line crosses no other and no text; an outline if need be.  */
#define NO LIMIT
static const unsigned line_price[BR__CELLS] = { 0, 4, 30, 34, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO };
static const unsigned extension_price[BR__CELLS] = { 0, 2, 3, 4, NO, NO, NO, NO, 40, 40, 40, 40, NO, NO, NO, NO };
static const unsigned text_price[BR__CELLS] = { 0, 30, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO, NO };

/* ---- Points of shapes ---- */

const br__drawn *
br__drawn_called (const br__side_view *v, const char *name)
{
  for (size_t i = 0; i < v->count; i++)
    if (v->shapes[i].tied && strcmp (v->shapes[i].shape->name, name) == 0)
      return &v->shapes[i];
  return NULL;
}

/* Where SPOT of D is on paper, one way.  */
static br_status
place_of (int64_t *at, br__run *run, const br__side_view *v, const br__drawn *d, const br__spot *spot, int way)
{
  const br__value *centre = br__shape_value (run->sheet, d->shape, BR__SHAPE_X + way);
  const br__value *more = br__shape_value (run->sheet, d->shape, spot->part[way]);
  br__pad g = { BR_OK, run->sheet->settings.bits, NULL };
  br_real z = BR_REAL_ZERO;
  if (!centre || !more)
    return BR_DOMAIN;
  const br_real *step = spot->half ? br__half (&g, &more->real) : &more->real;
  br_status status = br__pad_end (&z, spot->half < 0 ? br__sub (&g, &centre->real, step) : br__add (&g, &centre->real, step), &g);
  if (status == BR_OK)
    status = br__to_paper (at, &z, &v->ratio, run->sheet->settings.bits);
  br_real_clear (&z);
  return status;
}

/* The text of A, which measures V.  */
static br_status
put_text (br_text *t, br__run *run, const br__annotation *a, const br__value *v)
{
  if (!a->text)
    return br__put_drawing_number (t, &v->real, &run->sheet->settings);
  br__text_puts (t, a->text);
  return t->failed ? BR_NO_MEMORY : BR_OK;
}

/* Two places on paper that are the same but for the last digits of the grid.  */
#define SAME 4

/* One end of ROW, at SPOT of D.  A side has its own point where the line begins.  */
static br_status
put_end (int64_t *at, int64_t feature[BR__BANKS], br__run *run, const br__side_view *v, const br__drawn *d, const br__spot *spot,
         int upright)
{
  int side = spot->none[!upright];
  br_status status = place_of (at, run, v, d, spot, upright);
  if (status == BR_OK && side)
    br__side_feature (feature, d, upright, spot->part[upright] == BR__SHAPE_RIGHT || spot->part[upright] == BR__SHAPE_TOP);
  else if (status == BR_OK)
    status = place_of (&feature[0], run, v, d, spot, !upright);
  if (status == BR_OK && !side)
    feature[1] = feature[0];
  return status;
}

static br_status
off_of (int64_t *off, br__run *run, const br__annotation *a)
{
  const br__value *v = a->off ? br__annotation_value (run->sheet, a, BR__DRAWN_OFF) : NULL;
  *off = 0;
  return v ? br__to_paper (off, &v->real, NULL, run->sheet->settings.bits) : BR_OK;
}

br_status
br__hand_row (int *found, br__size_line *row, br_text *text, br__run *run, const br__side_view *v, const br__annotation *a,
              int upright)
{
  br__value distance = BR__VALUE_ZERO;
  br__way way = BR__ANY_WAY;
  *found = 0;
  if (!a->active || a->kind != BR__DIMENSION_LINE)
    return BR_OK;
  const br__drawn *from = br__drawn_called (v, a->from.shape), *to = br__drawn_called (v, a->to.shape);
  br_status status = from && to ? br__annotation_distance (&distance, &way, run->sheet, a) : BR_UNDECIDED;
  if (status == BR_OK && way == (upright ? BR__UPRIGHT : BR__LEVEL) && !br__is_said_by_another (run->sheet, a, way))
    {
      memset (row, 0, sizeof *row);
      row->of = from->shape->name;
      row->to_of = to != from ? to->shape->name : NULL;
      row->worded = a->text != NULL;
      status = put_end (&row->from, row->feature_from, run, v, from, &a->from, upright);
      if (status == BR_OK)
        status = put_end (&row->to, row->feature_to, run, v, to, &a->to, upright);
      if (status == BR_OK)
        status = off_of (&row->off, run, a);
      if (status == BR_OK)
        status = put_text (text, run, a, &distance);
      if (row->from > row->to)
        {
          br__size_line turned = *row;
          row->from = turned.to, row->to = turned.from;
          memcpy (row->feature_from, turned.feature_to, sizeof row->feature_from);
          memcpy (row->feature_to, turned.feature_from, sizeof row->feature_to);
          row->of = to->shape->name;
          row->to_of = turned.to_of ? turned.of : NULL;
        }
      *found = status == BR_OK && row->to > row->from + SAME;
    }
  br__value_clear (&distance);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* ---- Along two points ---- */

/* On the view, y upward.  */
typedef struct slant
{
  int64_t x, y, x2, y2;
  int64_t run, rise, length;    /* along it */
  int64_t off;                  /* asked for, or 0 */
  br_text text;
} slant;

/* *FOUND is 0 where A is none of V, or of another direction.  The text is to be cleared.  */
static br_status
find_slant (int *found, slant *s, br__run *run, const br__side_view *v, const br__annotation *a)
{
  br__value distance = BR__VALUE_ZERO;
  br__way way = BR__ANY_WAY;
  *found = 0;
  memset (s, 0, sizeof *s);
  if (!a->active || a->kind != BR__DIMENSION_LINE)
    return BR_OK;
  const br__drawn *from = br__drawn_called (v, a->from.shape), *to = br__drawn_called (v, a->to.shape);
  br_status status = from && to ? br__annotation_distance (&distance, &way, run->sheet, a) : BR_UNDECIDED;
  if (status == BR_OK && way == BR__ALONG)
    {
      status = place_of (&s->x, run, v, from, &a->from, 0);
      if (status == BR_OK)
        status = place_of (&s->y, run, v, from, &a->from, 1);
      if (status == BR_OK)
        status = place_of (&s->x2, run, v, to, &a->to, 0);
      if (status == BR_OK)
        status = place_of (&s->y2, run, v, to, &a->to, 1);
      if (status == BR_OK)
        status = off_of (&s->off, run, a);
      if (status == BR_OK)
        status = put_text (&s->text, run, a, &distance);
      s->run = s->x2 - s->x;
      s->rise = s->y2 - s->y;
      s->length = br__span (s->run, s->rise);
      *found = status == BR_OK && s->length > SAME;
    }
  br__value_clear (&distance);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* A slant on the page at a distance OFF from its points: below it or to its left where that is over 0.  */
typedef struct laid
{
  int64_t x, y, x2, y2;         /* of the dimension line */
  int64_t tail_x, tail_y;       /* it reaches so much farther at its end, and at its beginning */
  int64_t from[4], to[4];       /* its extension lines */
  int64_t gap;                  /* half the room for the text on it */
  br__area text;
  int outside;                  /* the text beside the line, arrows from outside */
} laid;

/* How far REACH goes in a direction in which the whole of S goes as far as PART.  */
static int64_t
times (const slant *s, int64_t part, int64_t reach)
{
  return br__scale_by (part, reach, s->length);
}

/* How far along S a box around its middle goes that reaches so far in the direction in which S goes as far as PART; far where
   that is hardly any way.  */
static int64_t
leaves (const slant *s, int64_t part, int64_t reach)
{
  return part > s->length / 1000 ? br__scale_by (reach, s->length, part) : reach * 1000;
}

static laid
lay (const slant *s, int64_t off, int64_t left, int64_t top)
{
  laid l;
  memset (&l, 0, sizeof l);
  /* Across it, down the page, or to the left of what stands upright.  */
  int64_t down_x = s->rise, down_y = s->run;
  if (down_y < 0 || (down_y == 0 && down_x > 0))
    {
      down_x = -down_x;
      down_y = -down_y;
    }
  int64_t sign = off < 0 ? -1 : 1, x = left + s->x, y = top - s->y, x2 = left + s->x2, y2 = top - s->y2;
  int64_t near_x = times (s, down_x, sign * GAP), near_y = times (s, down_y, sign * GAP);
  int64_t far_x = times (s, down_x, off + sign * PAST), far_y = times (s, down_y, off + sign * PAST);
  l.x = x + times (s, down_x, off);
  l.y = y + times (s, down_y, off);
  l.x2 = x2 + times (s, down_x, off);
  l.y2 = y2 + times (s, down_y, off);
  memcpy (l.from, (int64_t[4]) { x + near_x, y + near_y, x + far_x, y + far_y }, sizeof l.from);
  memcpy (l.to, (int64_t[4]) { x2 + near_x, y2 + near_y, x2 + far_x, y2 + far_y }, sizeof l.to);
  int64_t wide = br__text_width (br__text_string (&s->text), TEXT) / 2 + AIR, high = TEXT * 3 / 5 + AIR;
  int64_t across = llabs (s->run), up = llabs (s->rise);
  /* The line leaves the room of its text at the side that it meets first.  */
  int64_t gap_x = leaves (s, across, wide), gap_y = leaves (s, up, high);
  l.gap = gap_x < gap_y ? gap_x : gap_y;
  /* Nor may the text touch the extension lines.  */
  l.outside = s->length < 2 * (l.gap + ARROW) || s->length < 2 * (times (s, across, wide) + times (s, up, high));
  int64_t text_x = (l.x + l.x2) / 2, text_y = (l.y + l.y2) / 2;
  if (l.outside)
    {
      int64_t reach = times (s, up, wide) + times (s, down_y, high) + PAST + AIR;
      text_x += times (s, down_x, sign * reach);
      text_y += times (s, down_y, sign * reach);
    }
  l.text = (br__area) { text_x - wide, text_y - high, text_x + wide, text_y + high };
  l.tail_x = l.outside ? times (s, s->run, TAIL) : 0;
  l.tail_y = l.outside ? -times (s, s->rise, TAIL) : 0;
  return l;
}

static br__area
area_of (const laid *l)
{
  br__area a = l->text;
  for (int i = 0; i < 2; i++)
    {
      int64_t x = i ? l->x2 + l->tail_x : l->x - l->tail_x, y = i ? l->y2 + l->tail_y : l->y - l->tail_y;
      br__area_join (&a, (br__area) { x, y, x, y });
    }
  br__area_join (&a, (br__area) { l->from[2], l->from[3], l->from[2], l->from[3] });
  br__area_join (&a, (br__area) { l->to[2], l->to[3], l->to[2], l->to[3] });
  return a;
}

static unsigned
cost_of (const laid *l, const br__ink_map *m, br__area within)
{
  br__area a = area_of (l);
  unsigned cost = a.x < within.x || a.y < within.y || a.x2 > within.x2 || a.y2 > within.y2 ? NO : 0;
  cost += br__ink_map_cost (m, l->text, text_price, NO);
  cost += br__ink_map_line_cost (m, l->x - l->tail_x, l->y - l->tail_y, l->x2 + l->tail_x, l->y2 + l->tail_y, line_price, NO);
  cost += br__ink_map_line_cost (m, l->from[0], l->from[1], l->from[2], l->from[3], extension_price, NO);
  return cost + br__ink_map_line_cost (m, l->to[0], l->to[1], l->to[2], l->to[3], extension_price, NO);
}

/* Where it lies best; the distance that was asked for, or a little more, where there is one.  0: it finds no room.  */
static int
choose (laid *best, const slant *s, const br__ink_map *m, const br__view_at *f, br__area within)
{
  unsigned least = NO;
  *best = lay (s, s->off, f->x, f->y);
  for (int i = 0; i < 24; i++)
    {
      int64_t off = BR__INCH * (3 + i / 2) / 8 * (i % 2 ? 1 : -1);
      if (s->off)
        off = s->off + (s->off < 0 ? -i : i) * (BR__INCH / 16);
      laid l = lay (s, off, f->x, f->y);
      unsigned cost = cost_of (&l, m, within) + (unsigned) i * 4;
      if (cost < least)
        {
          least = cost;
          *best = l;
        }
    }
  return least < NO;
}

static void
put_arrow (br__plot *p, int64_t x, int64_t y, const slant *s, int64_t length)
{
  br__ink *arrow = br__plot_add (p, BR__INK_ARROW, BR__PEN_THIN, x, y);
  arrow->x2 = x + times (s, s->run, length);
  arrow->y2 = y - times (s, s->rise, length);
}

static void
put_slant (br__plot *p, br__ink_map *m, const slant *s, const laid *l)
{
  int64_t arrow = l->outside ? -ARROW : ARROW, middle_x = (l->x + l->x2) / 2, middle_y = (l->y + l->y2) / 2;
  /* A slanting line is not opened for a text: no text goes onto its extension lines either.  */
  p->group = BR__GROUP_DIMENSIONS;
  br__plot_line (p, BR__PEN_THIN, l->from[0], l->from[1], l->from[2], l->from[3], 0);
  br__plot_line (p, BR__PEN_THIN, l->to[0], l->to[1], l->to[2], l->to[3], 0);
  put_arrow (p, l->x, l->y, s, arrow);
  put_arrow (p, l->x2, l->y2, s, -arrow);
  if (l->outside)
    br__plot_line (p, BR__PEN_THIN, l->x - l->tail_x, l->y - l->tail_y, l->x2 + l->tail_x, l->y2 + l->tail_y, 0);
  else
    {
      int64_t gap_x = times (s, s->run, l->gap), gap_y = times (s, s->rise, l->gap);
      br__plot_line (p, BR__PEN_THIN, l->x, l->y, middle_x - gap_x, middle_y + gap_y, 0);
      br__plot_line (p, BR__PEN_THIN, middle_x + gap_x, middle_y - gap_y, l->x2, l->y2, 0);
    }
  br__lines_open (p, l->text);
  br__plot_text (p, (l->text.x + l->text.x2) / 2, (l->text.y + l->text.y2) / 2, BR_ALIGN_MIDDLE, TEXT, br__text_string (&s->text));
  br__ink_map_fill (m, l->text, BR__CELL_TEXT);
  br__ink_map_line (m, l->x - l->tail_x, l->y - l->tail_y, l->x2 + l->tail_x, l->y2 + l->tail_y, BR__CELL_KEPT);
  br__ink_map_line (m, l->from[0], l->from[1], l->from[2], l->from[3], BR__CELL_KEPT);
  br__ink_map_line (m, l->to[0], l->to[1], l->to[2], l->to[3], BR__CELL_KEPT);
}

/* ---- All of them ---- */

br_status
br__hand_reach (br__area *reach, br__run *run, const br__side_view *v)
{
  br_status status = BR_OK;
  for (const br__annotation *a = run->sheet->annotations; a && status == BR_OK; a = a->next)
    {
      int64_t at[2];
      slant s = { .off = 0 };
      int found;
      status = br__note_place (&found, at, run, v, a);
      if (status == BR_OK && found)
        {
          br__area area = br__note_area (at[0], at[1], a);
          br__area_join (reach, area);
        }
      if (status == BR_OK)
        status = find_slant (&found, &s, run, v, a);
      if (status == BR_OK && found && s.off)
        {
          laid l = lay (&s, s.off, 0, 0);
          br__area area = area_of (&l);
          br__area_join (reach, (br__area) { area.x, -area.y2, area.x2, -area.y });
        }
      br__text_clear (&s.text);
    }
  return status;
}

br_status
br__hand_plot (br__plot *p, size_t *left_out, br_text *unplaced, br__run *run, const br__view_at *f, br__area within)
{
  br__ink_map m;
  br__group before = p->group;
  br_status status = BR_OK;
  *left_out = 0;
  if (!run->sheet->annotations)
    return BR_OK;
  if (!br__ink_map_make (&m, p, within))
    return BR_NO_MEMORY;
  /* No line goes close by a text either.  */
  for (size_t i = 0; i < p->taken_count; i++)
    br__ink_map_fill (&m, (br__area) { p->taken[i].x - AIR, p->taken[i].y - AIR, p->taken[i].x2 + AIR, p->taken[i].y2 + AIR },
                      BR__CELL_TEXT);
  for (const br__annotation *a = run->sheet->annotations; a && status == BR_OK; a = a->next)
    {
      slant s = { .off = 0 };
      laid l;
      int found;
      status = find_slant (&found, &s, run, f->view, a);
      if (status == BR_OK && found && choose (&l, &s, &m, f, within))
        put_slant (p, &m, &s, &l);
      else if (status == BR_OK && found)
        {
          br__text_printf (unplaced, "%s%s: %s", unplaced->length ? "\n" : "", a->words, br__text_string (&s.text));
          (*left_out)++;
        }
      br__text_clear (&s.text);
    }
  for (const br__annotation *a = run->sheet->annotations; a && status == BR_OK; a = a->next)
    {
      int64_t at[2];
      int found;
      status = br__note_place (&found, at, run, f->view, a);
      if (status != BR_OK || !found || br__note_put (p, &m, a, f, at))
        continue;
      br__text_printf (unplaced, "%snote%s%s: %s", unplaced->length ? "\n" : "", a->shape ? " to " : "", a->shape ? a->shape : "",
                       a->text);
      (*left_out)++;
    }
  p->group = before;
  br__ink_map_clear (&m);
  return status;
}
