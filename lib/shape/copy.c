/* SPDX-License-Identifier: LGPL-3.0-or-later
   copy.c - the statements row and mirror: parsing them, and their hidden formulas.  Both are copies of another shape, and
   follow its changes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "shape/depth.h"

#define MOST_COPIES 16          /* of one another: each has the numbers of all of them in its distances */

/* ---- Reading ---- */

/* `by STEP` to the right, or `by DX, DY`.  */
static br_status
read_step (br__run *run, br__shape_draft *d)
{
  br__parse_size (&d->at[0], &run->lex, run->error);
  if (!br__lex_is_sign (&run->lex, ','))
    return run->lex.status;
  br__go_on (run);
  return br__parse_size (&d->at[1], &run->lex, run->error);
}

/* `layer` and `of`, of which the copied shape has its own.  */
static br_status
read_quality (br__run *run, br__shape_draft *d, br__shape *s, int *found)
{
  *found = 1;
  if (!s->layer && br__take_word (run, "layer"))
    return br__shape_read_name (&s->layer, run, "the name of a layer");
  if (!s->of && br__take_word (run, "of"))
    return br__shape_read_name (&s->of, run, "the name of a part");
  return br__depth_read (run, d, s, found);
}

br_status
br__copy_read (br__run *run, br__shape_draft *d, br__shape *s)
{
  int row = d->kind == BR__ROW;
  br__need_word (run, "of", row ? "`of` and the shape that is repeated" : "`of` and the shape that is mirrored");
  br_status status = br__shape_read_name (&d->base, run, "the name of a shape");
  while (status == BR_OK && run->lex.token.type != BR__END)
    {
      int found;
      if (row && !d->size[0].count && br__take_word (run, "qty"))
        status = br__parse_size (&d->size[0], &run->lex, run->error);
      else if (row && !d->at[0].count && br__take_word (run, "by"))
        status = read_step (run, d);
      else if (!row && !d->size[0].count && br__take_word (run, "about"))
        status = br__parse_size (&d->size[0], &run->lex, run->error);
      else
        {
          status = read_quality (run, d, s, &found);
          if (status == BR_OK && !found)
            break;
        }
    }
  if (status != BR_OK)
    return status;
  int whole = d->size[0].count && (!row || d->at[0].count);
  if (whole && run->lex.token.type == BR__END)
    return BR_OK;
  br__expected (run, whole ? "`deep`, `layer` or `of`" : !row ? "`about` and how far to the right the axis is"
                     : d->size[0].count ? "`by` and the step" : "`qty` and how many places there are");
  br__hint (run->error, row ? "row %s of %.*s qty 4 by 2 in" : "mirror %s of %.*s about 0", s->name, BR__CLIP (d->base, 40));
  return BR_SYNTAX;
}

/* ---- Formulas ---- */

static void
put_own (br__maker *m, const br__shape_draft *d, int part)
{
  br__make_shape_number (m, d->name, d->name_length, part);
}

static void
put_base (br__maker *m, const br__shape_draft *d, int part)
{
  br__make_shape_number (m, d->base, strlen (d->base), part);
}

static void
put_length (br__maker *m, const br__tree *t)
{
  if (t->count)
    br__make_typed (m, t);
  else
    br__make_int (m, 0);
  br__make_call (m, BR__CALL_LENGTH);
}

/* From the first place to the middle of all, along one way.  */
static void
put_half_run (br__maker *m, const br__shape_draft *d, int part)
{
  put_own (m, d, BR__SHAPE_A);
  br__make_int (m, 1);
  br__make_op (m, BR__OP_SUB);
  put_own (m, d, part == BR__SHAPE_MIDDLE_X ? BR__SHAPE_B : BR__SHAPE_C);
  br__make_op (m, BR__OP_MUL);
  br__make_int (m, 2);
  br__make_op (m, BR__OP_DIV);
}

static void
put_row_number (br__maker *m, const br__shape_draft *d, int part)
{
  switch (part)
    {
    case BR__SHAPE_A:
      br__make_typed (m, &d->size[0]);
      br__make_call (m, BR__CALL_COUNT);
      break;
    case BR__SHAPE_B:
      put_length (m, &d->at[0]);
      break;
    case BR__SHAPE_C:
      put_own (m, d, BR__SHAPE_B);
      put_length (m, &d->at[1]);
      br__make_call (m, BR__CALL_STEP);
      break;
    case BR__SHAPE_RIGHT: case BR__SHAPE_TOP: case BR__SHAPE_LEFT: case BR__SHAPE_BOTTOM:
      put_base (m, d, part);
      put_own (m, d, BR__SHAPE_A);
      put_own (m, d, part == BR__SHAPE_RIGHT || part == BR__SHAPE_LEFT ? BR__SHAPE_B : BR__SHAPE_C);
      br__make_call (m, part == BR__SHAPE_RIGHT || part == BR__SHAPE_TOP ? BR__CALL_ROW_HIGH : BR__CALL_ROW_LOW);
      break;
    case BR__SHAPE_MIDDLE_X: case BR__SHAPE_MIDDLE_Y:
      put_base (m, d, part);
      put_half_run (m, d, part);
      br__make_op (m, BR__OP_ADD);
      break;
    case BR__SHAPE_AREA: case BR__SHAPE_PERIMETER:
      put_own (m, d, BR__SHAPE_A);
      put_base (m, d, part);
      br__make_op (m, BR__OP_MUL);
      break;
    default:
      put_base (m, d, part);
      break;
    }
}

static void
put_mirror_number (br__maker *m, const br__shape_draft *d, int part)
{
  switch (part)
    {
    case BR__SHAPE_X:
      put_own (m, d, BR__SHAPE_A);
      put_own (m, d, BR__SHAPE_A);
      br__make_op (m, BR__OP_ADD);
      put_base (m, d, part);
      br__make_op (m, BR__OP_SUB);
      break;
    case BR__SHAPE_A:
      put_length (m, &d->size[0]);
      break;
    case BR__SHAPE_B: case BR__SHAPE_C:
      br__make_int (m, 0), br__make_call (m, BR__CALL_LENGTH);
      break;
    case BR__SHAPE_RIGHT: case BR__SHAPE_LEFT: case BR__SHAPE_MIDDLE_X:
      put_base (m, d, part == BR__SHAPE_RIGHT ? BR__SHAPE_LEFT : part == BR__SHAPE_LEFT ? BR__SHAPE_RIGHT : part);
      br__make_op (m, BR__OP_NEG);
      break;
    default:
      put_base (m, d, part);
      break;
    }
}

void
br__put_copy_number (br__maker *m, const br__shape_draft *d, int part)
{
  int row = d->kind == BR__ROW;
  if (part == BR__SHAPE_KIND)
    br__make_int (m, d->kind);
  else if (part == BR__SHAPE_BASE)
    put_base (m, d, BR__SHAPE_KIND);
  else if (part == BR__SHAPE_D)
    {
      if (row)
        put_own (m, d, BR__SHAPE_A);
      else
        br__make_int (m, 1);
      put_base (m, d, BR__SHAPE_KIND);
      put_base (m, d, BR__SHAPE_D);
      br__make_call (m, BR__CALL_PLACES);
    }
  else if (row)
    put_row_number (m, d, part);
  else
    put_mirror_number (m, d, part);
}

/* ---- How many copy one another ---- */

static size_t
copies_below (const br__graph *g, const char *name, size_t length)
{
  size_t n = 0;
  while (n <= MOST_COPIES && (length = br__shape_base (&name, g, name, length)) > 0)
    n++;
  return n;
}

/* The most that copy the shape NAME in turn, where they are no more than LEFT.  */
static size_t
copies_above (const br__graph *g, const char *name, size_t length, size_t left)
{
  const br__entry *kind = br__shape_entry (g, name, length, BR__SHAPE_KIND);
  size_t most = 0;
  for (const br__edge *edge = kind && left ? br__entry_users (kind, NULL) : NULL; edge; edge = br__entry_users (kind, edge))
    {
      const char *copy = NULL;
      size_t n = br__entry_shape (&copy, edge->user);
      if (!n || br__shape_entry (g, copy, n, BR__SHAPE_BASE) != edge->user)
        continue;
      n = 1 + copies_above (g, copy, n, left - 1);
      most = n > most ? n : most;
    }
  return most;
}

br_status
br__copies_count (br__run *run, const br__shape_draft *d)
{
  const br__graph *g = run->sheet->graph;
  size_t below = copies_below (g, d->name, d->name_length);
  if (below <= MOST_COPIES)
    below += copies_above (g, d->name, d->name_length, MOST_COPIES + 1 - below);
  return below <= MOST_COPIES ? BR_OK
         : br__fail (run->error, BR_TOO_BIG, 0, run->end, "more than %d rows and mirrors that copy one another", MOST_COPIES);
}

int
br__is_mirrored (const br_sheet *sheet, const br__shape *s)
{
  int mirrored = 0;
  for (; s && s->base; s = br__shape_find (sheet, s->base, strlen (s->base)))
    mirrored ^= s->kind == BR__MIRROR;
  return mirrored;
}

int
br__row_places (const br_sheet *sheet, const br__shape *s)
{
  const br__value *v = br__shape_value (sheet, s, BR__SHAPE_A);
  int64_t n = 1, d = 1;
  if (v)
    br_number_get_ratio (&n, &d, &v->real.rational);
  return (int) n;
}
