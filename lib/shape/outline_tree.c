/* SPDX-License-Identifier: LGPL-3.0-or-later
   outline_tree.c - the hidden formulas of an outline: its corners, and what is worked out from all of them.  */
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

/* X or Y of corner I.  */
static void
put_place (br__maker *m, const br__shape_draft *d, size_t i, int which)
{
  const br__corner_draft *c = &d->corners[i];
  int level = which == BR__CORNER_X;
  if (c->form == BR__CORNER_AT)
    {
      put_length (m, level ? &c->x : &c->y);
      return;
    }
  put_own (m, d, BR__CORNER_PART (i - 1, which));
  put_length (m, level || c->form == BR__CORNER_ANGLE ? &c->x : &c->y);
  if (c->form == BR__CORNER_ANGLE)
    {
      br__make_typed (m, &c->y);
      br__make_call (m, BR__CALL_ANGLE);
      br__make_function (m, br__function_find (level ? "cos" : "sin", 3));
      br__make_op (m, BR__OP_MUL);
    }
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

/* Where corner I is written, so that what is wrong with it is told there.  */
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
    br__make_call_of (m, BR__CALL_CORNERS, count);
  else if (calls[part])
    {
      put_own (m, d, BR__SHAPE_A);
      br__make_call_of (m, calls[part], count + 1);
    }
  else
    br__make_int (m, 0), br__make_call (m, BR__CALL_LENGTH);
}

br_status
br__shape_legs_of (br__legs *legs, br__sketch *s, const br_sheet *sheet, const br__shape *shape)
{
  size_t corners = br__shape_corners (sheet->graph, shape->name, strlen (shape->name));
  const size_t numbers_before = BR__SHAPE_D - BR__SHAPE_KIND + 1;
  size_t count = numbers_before + corners * BR__CORNER_NUMBERS;
  br__value *numbers = br__alloc_zero (count, sizeof *numbers);
  br_status status = numbers ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < count && status == BR_OK; i++)
    {
      int part = i < numbers_before ? BR__SHAPE_KIND + (int) i : BR__CORNER_PART (0, i - numbers_before);
      const br__value *v = br__shape_value (sheet, shape, part);
      status = v ? br__value_set (&numbers[i], v) : BR_DOMAIN;
    }
  if (status == BR_OK)
    status = br__shape_legs (legs, s, numbers);
  /* What was taken over as it stands must last.  */
  for (size_t i = 0; i < legs->count && status == BR_OK; i++)
    status = br__leg_keep (&legs->rows[i], s);
  for (size_t i = 0; numbers && i < count; i++)
    br__value_clear (&numbers[i]);
  br__free (numbers);
  return status;
}
