/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_tree.c - the hidden formulas of a shape.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "shape/depth.h"
#include "sheet/hidden.h"
#include "sheet/maker.h"

/* ---- Defining entries ---- */

/* Gives the entry of PART the definition *D (which may be NULL) as a change.  */
static br_status
define (br__run *run, const char *name, size_t length, int part, br__definition **d, br__moves *moves)
{
  br__moves some = BR__MOVES_ZERO;
  br__entry *e = br__shape_entry_get (run->sheet->graph, name, length, part);
  br_status status = e ? br__change_define (run, e, d, &some)
                       : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    status = br__moves_join (moves, &some, run->sheet->graph, run->error);
  br__moves_clear (&some);
  br__definition_free (*d);
  *d = NULL;
  return status;
}

br_status
br__shape_undefine (br__run *run, const char *name, br__moves *moves)
{
  const br__graph *g = run->sheet->graph;
  size_t length = strlen (name);
  br_status status = BR_OK;
  /* The kind first: from then on, what asks for this shape waits.  */
  for (int i = BR__SHAPE_KIND; i && status == BR_OK; i = br__shape_next_part (g, name, length, i))
    {
      br__definition *none = NULL;
      br__entry *e = br__shape_entry (g, name, length, i);
      if (e && br__entry_definition (e))
        status = define (run, name, length, i, &none, moves);
    }
  return status;
}

/* ---- Sizes ---- */

static void
put_half (br__maker *m)
{
  br__make_int (m, 2);
  br__make_op (m, BR__OP_DIV);
}

static void
put_own (br__maker *m, const br__shape_draft *d, int part)
{
  br__make_shape_number (m, d->name, d->name_length, part);
}

static void
put_size (br__maker *m, const br__tree *t, br__shape_call call)
{
  br__make_typed (m, t);
  br__make_call (m, call);
}

static void
put_place (br__maker *m, const br__tree *t)
{
  put_size (m, t, BR__CALL_LENGTH);
}

/* From the start of a line to its end, along one way: index 0 or 1.  */
static void
put_run (br__maker *m, const br__shape_draft *d, int way)
{
  put_place (m, &d->at[2 + way]);
  put_place (m, &d->at[way]);
  br__make_op (m, BR__OP_SUB);
}

/* Where an arc begins: half of it on either side of the top, unless that is given.  */
static void
put_start (br__maker *m, const br__shape_draft *d)
{
  if (d->size[3].count)
    put_size (m, &d->size[3], BR__CALL_ANGLE);
  else
    {
      br__make_int (m, 90);
      br__make_call (m, BR__CALL_ANGLE);
      put_own (m, d, BR__SHAPE_D);
      put_half (m);
      br__make_op (m, BR__OP_SUB);
    }
  if (d->turn.count)
    {
      br__put_turn (m, d);
      br__make_op (m, BR__OP_ADD);
    }
}

/* A run that is not to be 0 with the rise.  */
static void
put_line_run (br__maker *m, const br__shape_draft *d)
{
  put_run (m, d, 0);
  put_run (m, d, 1);
  br__make_call (m, BR__CALL_RUN);
}

/* The run or the rise of a line that is turned, by its number d.  */
static void
put_turned_line (br__maker *m, const br__shape_draft *d, int upright)
{
  for (int i = 0; i < 2; i++)
    {
      if (i)
        put_run (m, d, 1);
      else
        put_line_run (m, d);
      put_own (m, d, BR__SHAPE_D);
      br__make_function (m, br__function_find (i == upright ? "cos" : "sin", 3));
      br__make_op (m, BR__OP_MUL);
    }
  br__make_op (m, upright ? BR__OP_ADD : BR__OP_SUB);
}

/* A plate with a hole is an arc all around.  */
static void
put_plate_size (br__maker *m, const br__shape_draft *d, int part)
{
  if (part <= BR__SHAPE_B)
    {
      put_size (m, &d->size[part == BR__SHAPE_A], BR__CALL_DIAMETER);
      put_half (m);
    }
  if (part == BR__SHAPE_B)
    {
      put_own (m, d, BR__SHAPE_A);
      br__make_call (m, BR__CALL_RIM);
    }
  if (part == BR__SHAPE_D)
    br__make_int (m, 360), br__make_call (m, BR__CALL_TURN);
  if (part == BR__SHAPE_C)
    br__put_turn (m, d);
}

static void
put_arc_size (br__maker *m, const br__shape_draft *d, int part)
{
  if (d->plate)
    put_plate_size (m, d, part);
  else if (part == BR__SHAPE_A && d->wheel)
    {
      br__make_shape_number (m, d->wheel, strlen (d->wheel), BR__SHAPE_KIND);
      br__make_shape_number (m, d->wheel, strlen (d->wheel), BR__SHAPE_A);
      br__make_typed (m, &d->size[0]);
      br__make_call (m, BR__CALL_FENDER);
    }
  else if (part == BR__SHAPE_A)
    put_size (m, &d->size[0], BR__CALL_RADIUS);
  else if (part == BR__SHAPE_B)
    {
      put_own (m, d, BR__SHAPE_A);
      if (d->size[1].count)
        {
          put_size (m, &d->size[1], BR__CALL_THICKNESS);
          br__make_op (m, BR__OP_ADD);
        }
    }
  else if (part == BR__SHAPE_D && d->size[2].count)
    put_size (m, &d->size[2], BR__CALL_TURN);
  else if (part == BR__SHAPE_D)
    br__make_int (m, 180), br__make_call (m, BR__CALL_TURN);
  else
    put_start (m, d);
}

static void
put_number_of (br__maker *m, const br__shape_draft *d, int part)
{
  if (d->kind == BR__OUTLINE)
    br__put_outline_number (m, d, part);
  else if (d->kind == BR__ARC)
    put_arc_size (m, d, part);
  else if (d->kind == BR__CIRCLE && part == BR__SHAPE_A)
    {
      put_size (m, &d->size[0], BR__CALL_DIAMETER);
      put_half (m);
    }
  else if (d->kind == BR__BOX && part <= BR__SHAPE_B)
    put_size (m, &d->size[part - BR__SHAPE_A], part == BR__SHAPE_A ? BR__CALL_WIDTH : BR__CALL_HEIGHT);
  else if (d->kind == BR__LINE && part <= BR__SHAPE_B && d->turn.count)
    put_turned_line (m, d, part == BR__SHAPE_B);
  else if (d->kind == BR__LINE && part == BR__SHAPE_A)
    put_line_run (m, d);
  else if (d->kind == BR__LINE && part == BR__SHAPE_B)
    put_run (m, d, 1);
  else if (d->turn.count && part == (d->kind == BR__LINE ? BR__SHAPE_D : BR__SHAPE_C))
    br__put_turn (m, d);
  else if (d->kind == BR__LINE && part == BR__SHAPE_C && d->size[0].count)
    put_size (m, &d->size[0], BR__CALL_THICKNESS);
  else
    br__make_int (m, 0), br__make_call (m, BR__CALL_LENGTH);
}

static void
put_reach (br__maker *m, const br__shape_draft *d, int part)
{
  int level = part == BR__SHAPE_RIGHT || part == BR__SHAPE_LEFT;
  if (d->kind == BR__OUTLINE)
    {
      br__put_outline_number (m, d, part);
      return;
    }
  if (d->kind == BR__ARC || d->kind == BR__LINE)
    {
      br__make_int (m, d->kind);
      br__make_int (m, part - BR__SHAPE_RIGHT);
      br__make_int (m, 0);
      for (int i = BR__SHAPE_A; i <= BR__SHAPE_D; i++)
        put_own (m, d, i);
      br__make_call (m, BR__CALL_REACH);
      return;
    }
  put_own (m, d, d->kind == BR__CIRCLE || level ? BR__SHAPE_A : BR__SHAPE_B);
  if (d->kind == BR__BOX)
    put_half (m);
  if (part == BR__SHAPE_LEFT || part == BR__SHAPE_BOTTOM)
    br__make_op (m, BR__OP_NEG);
}

/* The centre of area, from x y; the area; the length of the edge.  */
static void
put_extent (br__maker *m, const br__shape_draft *d, int part)
{
  if (d->kind == BR__OUTLINE)
    {
      br__put_outline_number (m, d, part);
      return;
    }
  if (part < BR__SHAPE_AREA)
    {
      br__make_int (m, 0);
      br__make_call (m, BR__CALL_LENGTH);
      return;
    }
  for (int i = BR__SHAPE_KIND; i <= BR__SHAPE_D; i++)
    if (i == BR__SHAPE_KIND)
      br__make_int (m, d->kind);
    else if (i == BR__SHAPE_X || i == BR__SHAPE_Y)
      br__make_int (m, 0);
    else
      put_own (m, d, i);
  br__make_call (m, part == BR__SHAPE_AREA ? BR__CALL_AREA : BR__CALL_PERIMETER);
}

/* ---- Places ---- */

int
br__is_loose (const br__shape_draft *d)
{
  return !d->placed && !d->relation && !d->wheel && d->kind != BR__LINE && (d->kind != BR__OUTLINE || d->boxed)
         && !br__is_copy (d->kind);
}

static void
put_base (br__maker *m, const br__shape_draft *d, int part)
{
  br__make_shape_number (m, d->base, strlen (d->base), part);
}

/* A side of the base less the own reach FACING: there the two meet.  */
static void
put_touching (br__maker *m, const br__shape_draft *d, int centre, int side, int facing)
{
  put_base (m, d, centre);
  put_base (m, d, side);
  br__make_op (m, BR__OP_ADD);
  put_own (m, d, facing);
  br__make_op (m, BR__OP_SUB);
}

/* The middles of both, one over the other: LOW and HIGH are the reaches on that axis.  */
static void
put_middle (br__maker *m, const br__shape_draft *d, int centre, int low, int high)
{
  put_base (m, d, centre);
  put_base (m, d, low);
  put_base (m, d, high);
  br__make_op (m, BR__OP_ADD);
  put_half (m);
  br__make_op (m, BR__OP_ADD);
  put_own (m, d, low);
  put_own (m, d, high);
  br__make_op (m, BR__OP_ADD);
  put_half (m);
  br__make_op (m, BR__OP_SUB);
}

static void
put_offset (br__maker *m, const br__tree *t, br__op op)
{
  if (!t->count)
    return;
  put_place (m, t);
  br__make_op (m, op);
}

/* The centre along one axis: PART is BR__SHAPE_X or BR__SHAPE_Y.  */
static void
put_relative (br__maker *m, const br__shape_draft *d, int part)
{
  int level = part == BR__SHAPE_X;
  int low = level ? BR__SHAPE_LEFT : BR__SHAPE_BOTTOM, high = level ? BR__SHAPE_RIGHT : BR__SHAPE_TOP;
  int beside = d->relation == BR__LEFT_OF || d->relation == BR__RIGHT_OF;
  int after = d->relation == BR__ABOVE || d->relation == BR__RIGHT_OF;
  static const int flush_part[] = { BR__SHAPE_RIGHT, BR__SHAPE_TOP, BR__SHAPE_LEFT, BR__SHAPE_BOTTOM };

  if (d->relation == BR__CENTRED)
    {
      int middle = level ? BR__SHAPE_MIDDLE_X : BR__SHAPE_MIDDLE_Y;
      put_base (m, d, part);
      put_base (m, d, middle);
      br__make_op (m, BR__OP_ADD);
      if (d->kind == BR__OUTLINE)
        {
          put_own (m, d, middle);
          br__make_op (m, BR__OP_SUB);
        }
      if (level)
        put_offset (m, &d->shift, BR__OP_ADD);
    }
  else if (beside == level)
    {
      put_touching (m, d, part, after ? high : low, after ? low : high);
      put_offset (m, &d->gap, after ? BR__OP_ADD : BR__OP_SUB);
    }
  else
    {
      if (d->flush)
        put_touching (m, d, part, flush_part[d->flush - 1], flush_part[d->flush - 1]);
      else
        put_middle (m, d, part, low, high);
      put_offset (m, &d->shift, BR__OP_ADD);
    }
}

static void
put_centre (br__maker *m, const br__shape_draft *d, int part)
{
  const br__tree *at = &d->at[part - BR__SHAPE_X];
  if (d->kind == BR__LINE)
    {
      put_place (m, at);
      if (d->turn.count)
        put_run (m, d, part == BR__SHAPE_Y);
      else
        put_own (m, d, part == BR__SHAPE_X ? BR__SHAPE_A : BR__SHAPE_B);
      put_half (m);
      br__make_op (m, BR__OP_ADD);
    }
  else if (d->wheel && !d->placed && !d->relation)
    br__make_shape_number (m, d->wheel, strlen (d->wheel), part);
  else if (d->relation)
    put_relative (m, d, part);
  else if (!d->placed)          /* an outline: its corners say where it is */
    br__make_int (m, 0), br__make_call (m, BR__CALL_LENGTH);
  else
    {
      put_place (m, at);
      if (d->kind == BR__BOX)
        {
          put_own (m, d, part == BR__SHAPE_X ? BR__SHAPE_LEFT : BR__SHAPE_BOTTOM);
          br__make_op (m, BR__OP_SUB);
        }
    }
}

/* The formula of number PART.  */
static void
put_number (br__maker *m, const br__shape_draft *d, int part)
{
  int corner = part - BR__CORNER_PART (0, 0);
  if (br__is_copy (d->kind) && !br__depth_has (d, part))
    br__put_copy_number (m, d, part);
  else if (corner >= 0)
    br__put_corner_number (m, d, (size_t) corner / BR__CORNER_NUMBERS, corner % BR__CORNER_NUMBERS);
  else if (part == BR__SHAPE_KIND)
    br__make_int (m, d->kind);
  else if (part <= BR__SHAPE_Y)
    put_centre (m, d, part);
  else if (part <= BR__SHAPE_D)
    put_number_of (m, d, part);
  else if (part <= BR__SHAPE_BOTTOM)
    put_reach (m, d, part);
  else if (part >= BR__SHAPE_Z)
    br__put_depth_number (m, d, part);
  else
    put_extent (m, d, part);
}

static br_status
define_number (br__run *run, const br__shape_draft *d, int part, br__moves *moves)
{
  br__definition *made = NULL;
  br__maker m;
  br__maker_start (&m, run->sheet->graph, run->text, run->end, run->word.offset);
  put_number (&m, d, part);
  br_status status = br__maker_end (&made, &m, run->error);
  return status == BR_OK ? define (run, d->name, d->name_length, part, &made, moves) : status;
}

br_status
br__shape_define (br__run *run, const br__shape_draft *d, br__moves *moves)
{
  br_status status = BR_OK;
  int loose = br__is_loose (d);
  for (size_t i = 0; i < d->corner_count * BR__CORNER_NUMBERS && status == BR_OK; i++)
    status = define_number (run, d, BR__CORNER_PART (0, i), moves);
  for (int part = BR__SHAPE_NUMBERS; part-- > BR__SHAPE_KIND && status == BR_OK; )
    {
      if ((loose && (part == BR__SHAPE_X || part == BR__SHAPE_Y)) || (part == BR__SHAPE_BASE && !br__is_copy (d->kind))
          || (part >= BR__SHAPE_Z && part <= BR__SHAPE_DEEP && !br__depth_has (d, part)))
        continue;
      /* The kind comes last: until then, what asks for the distance to this shape waits.  */
      if (part == BR__SHAPE_KIND)
        status = br__distances_refresh (run->sheet->graph, d->name, d->name_length, moves, run->error);
      if (status == BR_OK)
        status = define_number (run, d, part, moves);
    }
  return status;
}

br_status
br__make_length (br__definition **d, br__run *run, const br__tree *t)
{
  br__maker m;
  br__maker_start (&m, run->sheet->graph, run->text, run->end, run->word.offset);
  put_place (&m, t);
  return br__maker_end (d, &m, run->error);
}
