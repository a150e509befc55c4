/* SPDX-License-Identifier: LGPL-3.0-or-later
   seen.c - a sheet as it looks from above or from the front: another sheet of which every shape is a box, with the exact
   sizes and places that this view shows.  So views are drawn, measured and shown by what draws the side.

   From above, across is across and away from whoever looks at the side is up.  From the front, which is the left end of the
   side view, the side that is looked at there is at the right.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/through.h"
#include "view/seen.h"

void
br__seen_clear (br__seen *z)
{
  br_sheet_free (z->sheet);
  br__free (z->of);
  br__free (z->copy);
  br__free (z->in);
  br__free (z->flat);
  memset (z, 0, sizeof *z);
}

/* ---- One box ---- */

/* A place of a row or a mirror: the numbers of the figure there, borrowed, or NULL; which one it is, after the FIRST of them, which
   are not its own.  WOOD: what a hole without depth goes through, as deep as that.  WITHIN: how far the wood of a hole reaches.  */
typedef struct place
{
  const br__value *numbers;
  int mirrored;
  size_t index, first;
  const br__shape *wood;
  const struct bounds *within;
} place;

/* The middle and the size of S, or of the figure at AT, along one way of the side view; *KNOWN is 0 while it waits.  */
static br_status
extent_of (br__value *middle, br__value *size, int *known, const br_sheet *sheet, const br__shape *s, const place *at_place, int upright)
{
  const br__value *c = at_place->numbers ? &at_place->numbers[upright ? 2 : 1] : br__shape_value (sheet, s, upright ? BR__SHAPE_Y : BR__SHAPE_X);
  s = at_place->numbers ? br__shape_source (sheet, s) : s;
  const br__value *low = br__shape_value (sheet, s, upright ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT);
  const br__value *high = br__shape_value (sheet, s, upright ? BR__SHAPE_TOP : BR__SHAPE_RIGHT);
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  *known = *known && c && low && high;
  if (!*known)
    return BR_OK;
  const br_real *off = br__half (&g, br__add (&g, &low->real, &high->real));
  const br_real *at = at_place->mirrored && !upright ? br__sub (&g, &c->real, off) : br__add (&g, &c->real, off);
  br_status status = g.status == BR_OK ? br_real_set (&middle->real, at) : g.status;
  middle->dimension = size->dimension = BR_LENGTH;
  if (status == BR_OK)
    return br__pad_end (&size->real, br__sub (&g, &high->real, &low->real), &g);
  br__pad_clear (&g);
  return status;
}

/* How far the wood reaches that a hole is in; BEGUN is 0 before the first.  */
typedef struct bounds
{
  br_real low, high;
  int begun;
} bounds;

static void
bounds_clear (bounds *b)
{
  br_real_clear (&b->low);
  br_real_clear (&b->high);
}

/* B reaches over WOOD, too.  */
static br_status
join_wood (bounds *b, const br_sheet *sheet, const br__shape *wood, int upright)
{
  const place there = { NULL, 0, 0, 0, NULL, NULL };
  br__value at = BR__VALUE_ZERO, wide = BR__VALUE_ZERO;
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  int known = 1;
  br_status status = extent_of (&at, &wide, &known, sheet, wood, &there, upright);
  if (status == BR_OK && known)
    {
      const br_real *half = br__half (&g, &wide.real), *low = br__sub (&g, &at.real, half), *high = br__add (&g, &at.real, half);
      low = b->begun ? br__least (&g, low, &b->low) : low;
      high = b->begun ? br__most (&g, high, &b->high) : high;
      status = g.status == BR_OK ? br_real_set (&b->low, low) : g.status;
      if (status == BR_OK)
        status = br_real_set (&b->high, high);
      b->begun = 1;
    }
  br__pad_clear (&g);
  br__value_clear (&at);
  br__value_clear (&wide);
  return status;
}

/* What goes through wood ends where that does.  */
static br_status
clip_to (br__value *middle, br__value *size, const br_sheet *sheet, const bounds *b)
{
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  const br_real *half = br__half (&g, &size->real);
  const br_real *low = br__most (&g, br__sub (&g, &middle->real, half), &b->low);
  const br_real *high = br__least (&g, br__add (&g, &middle->real, half), &b->high);
  br_status status = g.status == BR_OK ? br_real_set (&middle->real, br__half (&g, br__add (&g, low, high))) : g.status;
  if (status == BR_OK)
    status = br_real_set (&size->real, br__sub (&g, high, low));
  br__pad_clear (&g);
  return status;
}

/* The same in depth; of a pair, which lies on both sides, the far one where FAR.  */
static br_status
depth_of (br__value *middle, br__value *size, int *known, const br_sheet *sheet, const br__shape *s, int far)
{
  const br__value *c = br__depth_middle (sheet, s), *deep = br__depth_of (sheet, s);
  *known = *known && c && deep;
  br_status status = *known ? br__value_set (middle, c) : BR_OK;
  if (status == BR_OK && *known && far)
    status = br_real_neg (&middle->real, &middle->real);
  return status == BR_OK && *known ? br__value_set (size, deep) : status;
}

/* The numbers of a box of SIZE around MIDDLE.  */
static br_status
fix_box (br_sheet *sheet, const char *name, const br__value middle[2], const br__value size[2])
{
  static const struct { int part, way, halves; } rows[] =
    { { BR__SHAPE_A, 0, 2 }, { BR__SHAPE_B, 1, 2 }, { BR__SHAPE_C, 0, 0 }, { BR__SHAPE_D, 0, 0 }, { BR__SHAPE_RIGHT, 0, 1 },
      { BR__SHAPE_TOP, 1, 1 }, { BR__SHAPE_LEFT, 0, -1 }, { BR__SHAPE_BOTTOM, 1, -1 } };
  br__value kind = { .real = { { BR__BOX, 0 }, NULL } };
  br_status status = br__shape_fix (sheet->graph, name, BR__SHAPE_KIND, &kind);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = br__shape_fix (sheet->graph, name, BR__SHAPE_X + i, &middle[i]);
  for (size_t i = 0; i < sizeof rows / sizeof rows[0] && status == BR_OK; i++)
    {
      br__value v = { .dimension = BR_LENGTH };
      br_real half = { { 1, 0 }, NULL };
      status = br_number_set_ratio (&half.rational, rows[i].halves, 2);
      if (status == BR_OK)
        status = br_real_mul (&v.real, &size[rows[i].way].real, &half);
      if (status == BR_OK)
        status = br__shape_fix (sheet->graph, name, rows[i].part, &v);
      br_real_clear (&half);
      br__value_clear (&v);
    }
  return status;
}

/* Adds S, or the figure of it at AT, or its far one of two, as it is seen; nothing while a number of it waits.  */
static br_status
add_box (br__seen *z, const br_sheet *sheet, const br__shape *s, const place *at, int far)
{
  br__value middle[2] = { BR__VALUE_ZERO, BR__VALUE_ZERO }, size[2] = { BR__VALUE_ZERO, BR__VALUE_ZERO };
  int known = 1, top = z->from == BR__FROM_ABOVE;
  br_text name = BR_TEXT_ZERO;
  br_status status = extent_of (&middle[!top], &size[!top], &known, sheet, s, at, !top);
  if (status == BR_OK && known && at->within)
    status = clip_to (&middle[!top], &size[!top], sheet, at->within);
  if (status == BR_OK)
    status = depth_of (&middle[top], &size[top], &known, sheet, at->wood ? at->wood : s, far);
  /* Up is away from whoever looks at the side.  */
  if (status == BR_OK && known && top)
    status = br_real_neg (&middle[1].real, &middle[1].real);
  br__text_printf (&name, "%s%s", far ? "far " : "", s->name);
  if (at->index)
    br__text_printf (&name, " %zu", at->index + 1);
  if (at->wood)
    br__text_printf (&name, " in %s", at->wood->name);
  br__shape *box = status == BR_OK && known ? br__alloc_zero (1, sizeof *box) : NULL;
  if (box)
    {
      box->kind = BR__BOX;
      box->active = 1;
      box->name = name.failed ? NULL : br__strndup (name.bytes, name.length);
      box->note = br__strndup ("", 0);
      z->copy[z->count] = at->index - at->first;
      z->in[z->count] = at->wood;
      z->of[z->count++] = s;
      br__shape_append (z->sheet, box);
      status = box->name && box->note ? fix_box (z->sheet, box->name, middle, size) : BR_NO_MEMORY;
    }
  else if (status == BR_OK && known)
    status = BR_NO_MEMORY;
  for (int i = 0; i < 2; i++)
    {
      br__value_clear (&middle[i]);
      br__value_clear (&size[i]);
    }
  br__text_clear (&name);
  return status;
}

static br_status
room_for (br__seen *z, size_t count)
{
  return br__grow (&z->of, &z->room, z->count + 2 * count, sizeof *z->of)
         && br__grow (&z->copy, &z->copy_room, z->count + 2 * count, sizeof *z->copy)
         && br__grow (&z->in, &z->in_room, z->count + 2 * count, sizeof *z->in) ? BR_OK : BR_NO_MEMORY;
}

/* A box of S at AT, and the far one where both sides have it.  */
static br_status
add_boxes (br__seen *z, const br_sheet *sheet, const br__shape *s, const place *at)
{
  const int depth = br__depth_source (sheet, at->wood ? at->wood : s)->depth;
  br_status status = depth ? room_for (z, 1) : BR_OK;
  if (status == BR_OK && depth)
    status = add_box (z, sheet, s, at, 0);
  return status == BR_OK && depth > BR__FROM_DEPTH ? add_box (z, sheet, s, at, 1) : status;
}

/* The figure of S at AT; a hole without depth in all that it goes through, one with a depth as far as the wood reaches that it is of.  */
static br_status
add_figure (br__seen *z, const br_sheet *sheet, const br__shape *s, const place *at)
{
  const int hole = br__shape_source (sheet, s)->hole, deep = br__depth_source (sheet, s)->depth != 0;
  const int upright = z->from != BR__FROM_ABOVE;
  bounds all = { BR_REAL_ZERO, BR_REAL_ZERO, 0 };
  br_status status = BR_OK;
  for (const br__shape *wood = sheet->shapes; wood && hole && status == BR_OK; wood = wood->next)
    {
      place in = *at;
      int pierced = 0;
      if (!br__is_drawn (sheet, wood, z->layer, z->part))
        continue;
      status = br__is_pierced (&pierced, sheet, wood, s, at->numbers);
      all.begun &= deep;
      if (status == BR_OK && pierced && (!deep || br__part_of (sheet, s)))
        status = join_wood (&all, sheet, wood, upright);
      in.wood = wood;
      in.within = &all;
      if (status == BR_OK && pierced && !deep)
        status = add_boxes (z, sheet, s, &in);
    }
  place here = *at;
  here.within = all.begun ? &all : NULL;
  if (status == BR_OK && (!hole || deep))
    status = add_boxes (z, sheet, s, &here);
  bounds_clear (&all);
  return status;
}

/* Each figure of S, a row or a mirror.  */
static br_status
add_copies (br__seen *z, const br_sheet *sheet, const br__shape *s)
{
  br__work work = { &sheet->settings, NULL, NULL, 0 };
  br__sketch sketch = { &work, BR_OK, NULL };
  br__places p = { NULL, 0, 0, 0 };
  br__numbers n;
  place at = { NULL, 0, 0, 0, NULL, NULL };
  br_status status = br__shape_numbers (&n, sheet, s);
  if (status == BR_OK)
    status = br__shape_places (&p, &sketch, n.rows, n.count);
  for (const br__shape *c = s; c->base && status == BR_OK; c = br__shape_find (sheet, c->base, strlen (c->base)))
    at.mirrored ^= c->kind == BR__MIRROR;
  /* The first place of a row is its shape, or the first one of a row of that.  */
  at.first = status == BR_OK && s->kind == BR__ROW ? p.count / (size_t) br__row_places (sheet, s) : 0;
  for (at.index = at.first; at.index < p.count && status == BR_OK; at.index++)
    {
      at.numbers = p.rows + at.index * p.numbers;
      status = add_figure (z, sheet, s, &at);
    }
  br__places_clear (&p);
  br__numbers_clear (&n);
  br__sketch_clear (&sketch);
  return status == BR_DOMAIN ? BR_OK : status;
}

/* ---- All of them ---- */

br_status
br__seen_make (br__seen *z, br__run *run, br__seen_from from, const char *layer, const char *of)
{
  br__seen made = { .from = from, .layer = layer, .part = of };
  size_t count = 0;
  for (const br__shape *s = run->sheet->shapes; s; s = s->next)
    count += (size_t) br__is_drawn (run->sheet, s, layer, of);
  made.flat = br__alloc_zero (count + 1, sizeof *made.flat);
  br_status status = made.flat ? br__sheet_new (&made.sheet, run->sheet->language) : BR_NO_MEMORY;
  if (status == BR_OK)
    {
      br__settings_clear (&made.sheet->settings);
      status = br__settings_copy (&made.sheet->settings, &run->sheet->settings);
    }
  for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
    {
      size_t before = made.count;
      if (!br__is_drawn (run->sheet, s, layer, of))
        continue;
      const place here = { NULL, 0, 0, 0, NULL, NULL };
      status = s->base ? add_copies (&made, run->sheet, s) : add_figure (&made, run->sheet, s, &here);
      /* A hole without depth goes through what it is in, and needs none.  */
      int hole = br__shape_source (run->sheet, s)->hole && !br__depth_source (run->sheet, s)->depth;
      int alone = s->kind == BR__ROW && br__shape_value (run->sheet, s, BR__SHAPE_A) && br__row_places (run->sheet, s) == 1;
      if (made.count == before && !hole && !alone)
        made.flat[made.flat_count++] = s;
    }
  if (status != BR_OK)
    {
      br__seen_clear (&made);
      return status;
    }
  br__seen_clear (z);
  *z = made;
  return BR_OK;
}
