/* SPDX-License-Identifier: LGPL-3.0-or-later
   view.c - the side view in characters: outlines in dots, a letter for each shape, and what the letters mean.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "draw/draw.h"
#include "draw/view.h"
#include "exact/status.h"
#include "exact/wide.h"
#include "view/hidden_line.h"

#define DEGREE INT64_C (1000000000)
#define LETTERS "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
#define LEAST_COLUMNS 20
#define MOST_COLUMNS 240
#define USUAL_COLUMNS 80

/* ---- Outlines ---- */

static void
put_box (br__stylus *s, const br__drawn *d)
{
  int64_t left = d->x - d->a / 2, right = left + d->a, bottom = d->y - d->b / 2, top = bottom + d->b;
  s->x = left;
  s->y = top;
  br__stylus_to (s, right, top);
  br__stylus_to (s, right, bottom);
  br__stylus_to (s, left, bottom);
  br__stylus_to (s, left, top);
}

/* A strip of which both edges would fall on the same dots is one curve.  */
static void
put_strip (br__stylus *s, const br__drawn *d)
{
  br__stylus_arc (s, d->x, d->y, d->b, d->c, d->d);
  if (d->b - d->a < s->canvas->unit)
    return;
  int64_t end_x = s->x, end_y = s->y;
  br__stylus_arc (s, d->x, d->y, d->a, d->c, d->d);
  if (d->d < 360 * DEGREE)
    {
      br__stylus_to (s, end_x, end_y);
      br__stylus_arc (s, d->x, d->y, d->a, d->c, 0);
      int64_t start_x = s->x, start_y = s->y;
      br__stylus_arc (s, d->x, d->y, d->b, d->c, 0);
      br__stylus_to (s, start_x, start_y);
    }
}

static void
put_bar (br__stylus *s, const br__drawn *d)
{
  int64_t x = d->x - d->a / 2, y = d->y - d->b / 2, r = d->c / 2, sine, cosine;
  if (r < s->canvas->unit)
    {
      s->x = x;
      s->y = y;
      br__stylus_to (s, x + d->a, y + d->b);
      return;
    }
  int64_t angle = br__angle (d->a, d->b);
  br__sine_cosine (&sine, &cosine, angle + 90 * DEGREE);
  int64_t dx = br__scale_by (r, cosine, DEGREE), dy = br__scale_by (r, sine, DEGREE);
  br__stylus_arc (s, x, y, r, angle + 90 * DEGREE, 180 * DEGREE);
  br__stylus_to (s, x + d->a - dx, y + d->b - dy);
  br__stylus_arc (s, x + d->a, y + d->b, r, angle - 90 * DEGREE, 180 * DEGREE);
  br__stylus_to (s, x + dx, y + dy);
}

/* The edge of D, a shape of V or a copy of one; *HIDDEN is 1 where a part of it lies behind something.  */
static br_status
put_shape (br__canvas *c, int *hidden, const br__side_view *v, const br__drawn *d)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < d->copy_count && status == BR_OK; i++)
    status = put_shape (c, hidden, v, &d->copies[i]);
  if (d->copies)
    return status;
  br__cover *cover = br__cover_open (v, d, 0, 0);
  br__stylus s = { .canvas = c, .dashed = !d->tied, .state = br__cover_state, .of = cover };
  if (!cover)
    return BR_NO_MEMORY;
  switch (d->shape->kind)
    {
    case BR__CIRCLE: br__stylus_arc (&s, d->x, d->y, d->a, 0, 360 * DEGREE); break;
    case BR__ARC: put_strip (&s, d); break;
    case BR__LINE: put_bar (&s, d); break;
    default:
      if (d->pieces)
        br__outline_walk (&s, d);
      else
        put_box (&s, d);
      break;
    }
  for (size_t i = 0; i < d->bend_count; i++)
    {
      int64_t x, y;
      br__cover_bend (cover, i, &s.x, &s.y, &x, &y);
      br__stylus_to (&s, x, y);
    }
  *hidden |= s.hides;
  br__cover_close (cover);
  return BR_OK;
}

/* ---- Letters ---- */

/* Nothing stands there, and no letter beside it, which would be read as a word.  */
static int
is_free (const br__canvas *c, size_t cell)
{
  size_t column = cell % c->columns;
  return !c->cells[cell] && !c->marks[cell] && !(column && c->marks[cell - 1])
         && !(column + 1 < c->columns && c->marks[cell + 1]);
}

/* MARK is a letter, or digits, which begin there.  */
static int
try_mark (br__canvas *c, const char *mark, int64_t x, int64_t y)
{
  const size_t length = strlen (mark);
  size_t cell;
  if (!br__canvas_cell (&cell, c, x, y) || cell % c->columns + length > c->columns)
    return 0;
  for (size_t i = 0; i < length; i++)
    if (!is_free (c, cell + i))
      return 0;
  memcpy (c->marks + cell, mark, length);
  return 1;
}

/* Beside the curve of radius R around the centre of D, at the angles that are on it.  */
static int
mark_curve (br__canvas *c, const br__drawn *d, const char *mark, int64_t r)
{
  static const int eighths[] = { 2, 6, 3, 1, 0, 4, 5, 7 };
  int64_t start = d->shape->kind == BR__ARC ? d->c : 0, turn = d->shape->kind == BR__ARC ? d->d : 360 * DEGREE;
  for (size_t i = 0; i < sizeof eighths / sizeof eighths[0]; i++)
    {
      int64_t sine, cosine, angle = start + turn / 8 * (d->shape->kind == BR__ARC ? eighths[i] + 1 : eighths[i]);
      if (d->shape->kind == BR__ARC && eighths[i] == 7)
        continue;
      br__sine_cosine (&sine, &cosine, angle);
      if (try_mark (c, mark, d->x + br__scale_by (r, cosine, DEGREE),
                    d->y + br__scale_by (r, sine, DEGREE)))
        return 1;
    }
  return 0;
}

/* The middle, then places along the longer way, then beyond its ends, then above and below it.  */
static int
mark_straight (br__canvas *c, const br__drawn *d, const char *mark)
{
  int line = d->shape->kind == BR__LINE;
  int64_t run = d->a, rise = line ? d->b : 0, out = line ? d->c / 2 : d->b / 2;
  int64_t beyond = 3 * c->unit, half = run / 2, end = half < 0 ? beyond - half : beyond + half;
  for (int beside = 0; beside < 3; beside++)
    {
      if (beside == 1 && (try_mark (c, mark, d->x + end, run < 0 ? d->y - rise / 2 : d->y + rise / 2)
                          || try_mark (c, mark, d->x - end, run < 0 ? d->y + rise / 2 : d->y - rise / 2)))
        return 1;
      for (int i = 4, n = 0; n < 7; n++, i = n % 2 ? i + n : i - n)
        {
          int64_t off = beside ? (out + c->unit * BR__CELL_HIGH) * (beside == 1 ? 1 : -1) : 0;
          if (try_mark (c, mark, d->x - half + run / 8 * i, d->y - rise / 2 + rise / 8 * i + off))
            return 1;
        }
    }
  return 0;
}

static int
put_mark (br__canvas *c, const br__drawn *d, const char *mark)
{
  int64_t step = c->unit * BR__CELL_HIGH;
  switch (d->shape->kind)
    {
    case BR__CIRCLE:
      return try_mark (c, mark, d->x, d->y) || mark_curve (c, d, mark, d->a / 2)
             || mark_curve (c, d, mark, d->a - step) || mark_curve (c, d, mark, d->a + step);
    case BR__ARC:
      return mark_curve (c, d, mark, (d->a + d->b) / 2) || mark_curve (c, d, mark, d->b + step)
             || mark_curve (c, d, mark, d->a - step);
    default:
      return d->copies ? put_mark (c, &d->copies[d->copy_count - 1], mark) : mark_straight (c, d, mark);
    }
}

/* ---- The record ---- */

static void
put_lines (br_record *r, const char *key, const br__canvas *c, int dots)
{
  br_list *list = br__put_list (r, key);
  for (size_t i = 0; i < c->lines; i++)
    {
      br_text t = BR_TEXT_ZERO;
      br__canvas_line (&t, c, i, dots);
      br__list_from (list, &t);
    }
}

/* BR__INCH * NUM * INCH_NUM.  */
static br__wide
in_inches (int64_t num, int64_t inch_num)
{
  return br__wide_times (br__wide_product (BR__INCH, num), inch_num);
}

/* The longest length of halvings or doublings of an inch, or of 1 2 5 10 mm, that a fourth of the picture can
   show; and how many columns it takes.  */
static br_status
put_bar_field (br_record *r, const br__canvas *c, const br__settings *s)
{
  static const int steps[] = { 2, 5, 10 };
  int metric = strcmp (s->unit->name, "mm") == 0 || strcmp (s->unit->name, "cm") == 0;
  int64_t column = c->unit * BR__CELL_WIDE, room = column * (int64_t) (c->columns / 4 + 1);
  int64_t num = 1, den = metric ? 1 : 64, inch_den = metric ? 254 : 1, inch_num = metric ? 10 : 1;
  br_number length = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_style style = br__settings_style (s);
  const br__wide most = br__wide_times (br__wide_product (room, den), inch_den);
  for (int i = 0; br__wide_cmp (in_inches (num, inch_num), most) <= 0 && num < INT64_MAX / 100; i++)
    {
      int64_t next = metric ? num / (i % 3 == 0 ? 1 : steps[i % 3 - 1]) * steps[i % 3] : num * 2;
      if (br__wide_cmp (in_inches (next, inch_num), most) > 0)
        break;
      num = next;
    }
  br_status status = br_number_set_ratio (&length, num * inch_num, den * inch_den);
  if (status == BR_OK)
    br__put_measure (&t, &length, BR_LENGTH, &style);
  br__put_from (r, "bar", &t);
  int64_t drawn = br__wide_low (br__wide_over (in_inches (num, inch_num), br__wide_of (den * inch_den)));
  br__put_count (r, "bar_columns", (drawn + column / 2) / column);
  br_number_clear (&length);
  return status;
}

static br_status
put_shapes (br_record *r, br__canvas *c, const br_sheet *sheet, const br__side_view *v)
{
  br_list *list = br__put_list (r, "shapes");
  br_status status = BR_OK;
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    {
      const br__drawn *d = &v->shapes[i];
      char letter[2] = { i < sizeof LETTERS - 1 ? LETTERS[i] : 0, 0 };
      br_text size = BR_TEXT_ZERO;
      br_record *row = br__list_record (list);
      if (letter[0] && !put_mark (c, d, letter))
        letter[0] = 0;
      status = br__shape_size_words (&size, sheet, d->shape);
      br__put_text (row, "mark", letter);
      br__put_text (row, "name", d->shape->name);
      br__put_text (row, "shape", br__shape_statement (d->shape));
      br__put_from (row, "size", &size);
      br__shape_waiting (br__put_list (row, "waiting"), sheet, d->shape);
      br__text_clear (&size);
    }
  return status;
}

/* Columns have no size in inches: the scale that the sheet is set to is not that of the view, and is told.  */
static void
put_scale_field (br_record *r, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  if (s->scale_given)
    {
      br__put_scale (&t, &s->scale);
      br__put_from (r, "not_to_scale", &t);
    }
  br__text_clear (&t);
}

/* The picture with its bar; R is emitted, or freed.  */
static br_status
emit_picture (br__run *run, br_record *r, const br__canvas *c, br_status status)
{
  if (status == BR_OK)
    {
      put_lines (r, "dots", c, 1);
      put_lines (r, "plain", c, 0);
      br__put_count (r, "columns", (int64_t) c->columns);
      status = put_bar_field (r, c, &run->sheet->settings);
      put_scale_field (r, &run->sheet->settings);
    }
  return br__emit_or_fail (run, r, status, 0, 0);
}

static br_status
open_canvas (br__canvas *c, const br__run *run, br__area reach)
{
  size_t columns = run->sink && run->sink->columns > 0 ? (size_t) run->sink->columns : USUAL_COLUMNS;
  columns = columns < LEAST_COLUMNS ? LEAST_COLUMNS : columns > MOST_COLUMNS ? MOST_COLUMNS : columns;
  /* A last column that is written makes some terminals begin another line.  */
  return br__canvas_open (c, reach, columns - 1, columns * 3 / 10);
}

br_status
br__view_emit (br__run *run, const br__side_view *v, const char *name)
{
  br__canvas c = BR__CANVAS_ZERO;
  int hidden = 0;
  br_status status = open_canvas (&c, run, v->reach);
  br_record *r = status == BR_OK ? br__record_new ("view") : NULL;
  if (status == BR_OK)
    {
      br__put_text (r, "view", name);
      br__put_count (r, "loose", (int64_t) v->loose);
      (void) br__put_list (r, "parts");
      for (size_t i = 0; i < v->count && status == BR_OK; i++)
        status = put_shape (&c, &hidden, v, &v->shapes[i]);
      br__put_truth (r, "hidden", hidden);
      if (status == BR_OK)
        status = put_shapes (r, &c, run->sheet, v);
    }
  status = emit_picture (run, r, &c, status);
  br__canvas_clear (&c);
  return status;
}

/* The first shape of V that is no hole, or the first.  */
static const br__drawn *
main_shape (const br__side_view *v)
{
  for (size_t i = 0; i < v->count; i++)
    if (!v->shapes[i].shape->hole)
      return &v->shapes[i];
  return v->shapes;
}

br_status
br__view_emit_parts (br__run *run, const br__view_block *blocks, size_t count, br__area reach, const br__wood_list *wood)
{
  br__canvas c = BR__CANVAS_ZERO;
  int hidden = 0;
  br_status status = open_canvas (&c, run, reach);
  br_record *r = status == BR_OK ? br__record_new ("view") : NULL;
  const int64_t left = c.left, top = c.top;
  if (status == BR_OK)
    {
      br__put_text (r, "view", "parts");
      br__put_count (r, "loose", 0);
      (void) br__put_list (r, "shapes");
      status = br__put_part_rows (br__put_list (r, "parts"), run, wood);
    }
  /* All outlines come before the first number.  */
  for (size_t i = 0; i < 2 * count && status == BR_OK; i++)
    {
      const br__view_block *b = &blocks[i % count];
      char number[24];
      c.left = left - b->x;
      c.top = top - b->y;
      for (size_t k = 0; k < b->view->count && i < count && status == BR_OK; k++)
        status = put_shape (&c, &hidden, b->view, &b->view->shapes[k]);
      snprintf (number, sizeof number, "%zu", b->number);
      if (i >= count && b->view->count)
        (void) put_mark (&c, main_shape (b->view), number);
    }
  if (status == BR_OK)
    br__put_truth (r, "hidden", hidden);
  status = emit_picture (run, r, &c, status);
  br__canvas_clear (&c);
  return status;
}
