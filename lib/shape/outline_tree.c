/* SPDX-License-Identifier: LGPL-3.0-or-later
   outline_tree.c - the hidden formulas of an outline: its corners, and the measures computed from all of them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "shape/shape.h"

static void
put_own (br__maker *m, const br__shape_draft *d, int part)
{
  br__make_shape_number (m, d->name, d->name_length, part);
}

static void
put_length (br__maker *m, const br__tree *t)
{
  br__make_typed (m, t);
  br__make_call (m, BR__CALL_LENGTH);
}

/* A corner's place, or the step to it, as it is written.  */
static void
put_written (br__maker *m, const br__shape_draft *d, size_t i, int upright)
{
  const br__corner_draft *c = &d->corners[i];
  if (c->form == BR__CORNER_BOX)
    {
      int far = upright ? i >= 2 : i == 1 || i == 2;
      if (far)
        put_own (m, d, upright ? BR__SHAPE_D : BR__SHAPE_B);
      else
        br__make_int (m, 0), br__make_call (m, BR__CALL_LENGTH);
      return;
    }
  put_length (m, upright && c->form != BR__CORNER_ANGLE ? &c->y : &c->x);
  if (c->form == BR__CORNER_ANGLE)
    {
      br__make_typed (m, &c->y);
      br__make_call (m, BR__CALL_ANGLE);
      br__make_function (m, br__function_find (upright ? "sin" : "cos", 3));
      br__make_op (m, BR__OP_MUL);
    }
}

/* X or Y of corner I.  */
static void
put_place (br__maker *m, const br__shape_draft *d, size_t i, int which)
{
  const br__corner_draft *c = &d->corners[i];
  int upright = which == BR__CORNER_Y, from_last = c->form == BR__CORNER_BY || c->form == BR__CORNER_ANGLE;
  if (from_last)
    put_own (m, d, BR__CORNER_PART (i - 1, which));
  put_written (m, d, i, upright);
  if (from_last)
    br__make_op (m, BR__OP_ADD);
}

void
br__put_corner_number (br__maker *m, const br__shape_draft *d, size_t i, int which)
{
  const br__corner_draft *c = &d->corners[i];
  const br__tree *t = which == BR__CORNER_RISE ? &c->rise : which == BR__CORNER_CUT ? &c->cut : &c->after;
  if (which <= BR__CORNER_Y)
    put_place (m, d, i, which);
  else if (which == BR__CORNER_CUT_AFTER && c->cut.count && !c->round && !t->count)
    put_own (m, d, BR__CORNER_PART (i, BR__CORNER_CUT));
  else if (t->count)
    {
      br__make_typed (m, t);
      br__make_call (m, which == BR__CORNER_RISE ? BR__CALL_RISE : c->round ? BR__CALL_RADIUS : BR__CALL_CUT);
    }
  else
    br__make_int (m, 0), br__make_call (m, BR__CALL_LENGTH);
}

/* Gives the node the place in the line where the corner is written, so that errors point there.  */
static void
place_node (br__maker *m, const br__corner_draft *c, int which)
{
  const br__tree *t = which == BR__CORNER_RISE ? &c->rise : which == BR__CORNER_CUT ? &c->cut
                      : which == BR__CORNER_CUT_AFTER ? (c->after.count ? &c->after : &c->cut) : &c->x;
  if (m->status != BR_OK || !t->count)
    return;
  br__node *n = &m->tree.nodes[m->tree.count - 1];
  n->offset = t->base;
  n->length = (which > BR__CORNER_Y ? t->base + t->length : c->y.base + c->y.length) - t->base;
}

static void
put_corners (br__maker *m, const br__shape_draft *d)
{
  for (size_t i = 0; i < d->corner_count; i++)
    for (int which = 0; which < BR__CORNER_NUMBERS; which++)
      {
        put_own (m, d, BR__CORNER_PART (i, which));
        place_node (m, &d->corners[i], which);
      }
}

void
br__put_outline_number (br__maker *m, const br__shape_draft *d, int part)
{
  static const br__shape_call calls[BR__SHAPE_NUMBERS] =
  {
    [BR__SHAPE_RIGHT] = BR__CALL_OUTLINE_RIGHT, [BR__SHAPE_TOP] = BR__CALL_OUTLINE_TOP,
    [BR__SHAPE_LEFT] = BR__CALL_OUTLINE_LEFT, [BR__SHAPE_BOTTOM] = BR__CALL_OUTLINE_BOTTOM,
    [BR__SHAPE_MIDDLE_X] = BR__CALL_OUTLINE_MIDDLE_X, [BR__SHAPE_MIDDLE_Y] = BR__CALL_OUTLINE_MIDDLE_Y,
    [BR__SHAPE_AREA] = BR__CALL_OUTLINE_AREA, [BR__SHAPE_PERIMETER] = BR__CALL_OUTLINE_PERIMETER
  };
  unsigned count = (unsigned) d->corner_count * BR__CORNER_NUMBERS;
  m->share_name = 1;
  if (part == BR__SHAPE_A || calls[part])
    put_corners (m, d);
  if (part == BR__SHAPE_A)
    br__make_call_of (m, d->boxed ? BR__CALL_BOX_CORNERS : BR__CALL_CORNERS, count);
  else if (calls[part])
    {
      put_own (m, d, BR__SHAPE_A);
      put_own (m, d, BR__SHAPE_C);
      br__make_call_of (m, calls[part], count + 2);
    }
  else if (part == BR__SHAPE_C)
    br__put_turn (m, d);
  else if (d->boxed)
    {
      br__make_typed (m, &d->size[part == BR__SHAPE_D]);
      br__make_call (m, part == BR__SHAPE_D ? BR__CALL_HEIGHT : BR__CALL_WIDTH);
    }
  else
    br__make_int (m, 0), br__make_call (m, BR__CALL_LENGTH);
}

/* The count of numbers of the shape NAME of LENGTH bytes, including those of a shape that it copies.  */
static size_t
count_numbers (const br_sheet *sheet, const char *name, size_t length)
{
  const char *base = NULL;
  size_t n = br__shape_base (&base, sheet->graph, name, length);
  return BR__SHAPE_D - BR__SHAPE_KIND + 1 + br__shape_corners (sheet->graph, name, length) * BR__CORNER_NUMBERS
         + (n ? count_numbers (sheet, base, n) : 0);
}

static br_status
take_numbers (br__value *z, const br_sheet *sheet, const char *name, size_t length)
{
  const char *base = NULL;
  size_t n = br__shape_base (&base, sheet->graph, name, length), count = 0;
  size_t corners = br__shape_corners (sheet->graph, name, length) * BR__CORNER_NUMBERS;
  const size_t before = BR__SHAPE_D - BR__SHAPE_KIND + 1;
  br_status status = BR_OK;
  for (; count < before + corners && status == BR_OK; count++)
    {
      int part = count < before ? BR__SHAPE_KIND + (int) count : BR__CORNER_PART (0, count - before);
      const br__entry *e = br__shape_entry (sheet->graph, name, length, part);
      const br__value *v = e ? br__entry_value (e) : NULL;
      status = v ? br__value_set (&z[count], v) : BR_DOMAIN;
    }
  return status == BR_OK && n ? take_numbers (z + count, sheet, base, n) : status;
}

void
br__numbers_clear (br__numbers *n)
{
  for (size_t i = 0; n->rows && i < n->count; i++)
    br__value_clear (&n->rows[i]);
  br__free (n->rows);
  *n = (br__numbers) { NULL, 0 };
}

br_status
br__shape_numbers (br__numbers *n, const br_sheet *sheet, const br__shape *shape)
{
  size_t length = strlen (shape->name);
  *n = (br__numbers) { NULL, count_numbers (sheet, shape->name, length) };
  n->rows = br__alloc_zero (n->count, sizeof *n->rows);
  return n->rows ? take_numbers (n->rows, sheet, shape->name, length) : BR_NO_MEMORY;
}

br_status
br__shape_legs_of (br__legs *legs, br__sketch *s, const br_sheet *sheet, const br__shape *shape)
{
  br__numbers n;
  br_status status = br__shape_numbers (&n, sheet, shape);
  if (status == BR_OK)
    status = br__shape_legs (legs, s, n.rows);
  /* What was taken over as it stands must last.  */
  for (size_t i = 0; i < legs->count && status == BR_OK; i++)
    status = br__leg_keep (&legs->rows[i], s);
  br__numbers_clear (&n);
  return status;
}
