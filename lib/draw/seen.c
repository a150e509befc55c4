/* SPDX-License-Identifier: LGPL-3.0-or-later
   seen.c - a sheet as it looks from above or from the front: another sheet of which every shape is a box, with the exact
   sizes and places that this view shows.  So views are drawn, measured and shown by what draws the side.

   From above, across is across and away from whoever looks at the side is up.  From the front, which is the left end of the
   side view, the side that is looked at there is at the right.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/seen.h"
#include "exact/memory.h"
#include "exact/status.h"

void
br__seen_clear (br__seen *z)
{
  br_sheet_free (z->sheet);
  br__free (z->of);
  br__free (z->flat);
  memset (z, 0, sizeof *z);
}

/* ---- One box ---- */

/* The middle and the size of S along one way of the side view; *KNOWN is 0 while it waits.  */
static br_status
extent_of (br__value *middle, br__value *size, int *known, const br_sheet *sheet, const br__shape *s, int upright)
{
  const br__value *c = br__shape_value (sheet, s, upright ? BR__SHAPE_Y : BR__SHAPE_X);
  const br__value *low = br__shape_value (sheet, s, upright ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT);
  const br__value *high = br__shape_value (sheet, s, upright ? BR__SHAPE_TOP : BR__SHAPE_RIGHT);
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  *known = *known && c && low && high;
  if (!*known)
    return BR_OK;
  const br_real *at = br__add (&g, &c->real, br__half (&g, br__add (&g, &low->real, &high->real)));
  br_status status = g.status == BR_OK ? br_real_set (&middle->real, at) : g.status;
  middle->dimension = size->dimension = BR_LENGTH;
  if (status == BR_OK)
    return br__pad_end (&size->real, br__sub (&g, &high->real, &low->real), &g);
  br__pad_clear (&g);
  return status;
}

/* The same in depth; of a pair, which lies on both sides, the far one where FAR.  */
static br_status
depth_of (br__value *middle, br__value *size, int *known, const br_sheet *sheet, const br__shape *s, int far)
{
  const br__value *c = br__depth_middle (sheet, s), *deep = br__shape_value (sheet, s, BR__SHAPE_DEEP);
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

/* Adds S, or its far one of two, as it is seen; nothing while a number of it waits.  */
static br_status
add_box (br__seen *z, const br_sheet *sheet, const br__shape *s, int far)
{
  br__value middle[2] = { BR__VALUE_ZERO, BR__VALUE_ZERO }, size[2] = { BR__VALUE_ZERO, BR__VALUE_ZERO };
  int known = 1, top = z->from == BR__FROM_ABOVE;
  br_text name = BR_TEXT_ZERO;
  br_status status = extent_of (&middle[!top], &size[!top], &known, sheet, s, !top);
  if (status == BR_OK)
    status = depth_of (&middle[top], &size[top], &known, sheet, s, far);
  /* Up is away from whoever looks at the side.  */
  if (status == BR_OK && known && top)
    status = br_real_neg (&middle[1].real, &middle[1].real);
  br__text_printf (&name, "%s%s", far ? "far " : "", s->name);
  br__shape *box = status == BR_OK && known ? br__alloc_zero (1, sizeof *box) : NULL;
  if (box)
    {
      box->kind = BR__BOX;
      box->active = 1;
      box->name = name.failed ? NULL : br__strndup (name.bytes, name.length);
      box->note = br__strndup ("", 0);
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

/* ---- All of them ---- */

br_status
br__seen_make (br__seen *z, br__run *run, br__seen_from from, const char *layer, const char *of)
{
  br__seen made = { .from = from };
  size_t count = 0;
  for (const br__shape *s = run->sheet->shapes; s; s = s->next)
    count += (size_t) br__is_drawn (s, layer, of);
  made.of = br__alloc_zero (2 * count + 1, sizeof *made.of);
  made.flat = br__alloc_zero (count + 1, sizeof *made.flat);
  br_status status = made.of && made.flat ? br__sheet_new (&made.sheet, run->sheet->language) : BR_NO_MEMORY;
  if (status == BR_OK)
    {
      br__settings_clear (&made.sheet->settings);
      status = br__settings_copy (&made.sheet->settings, &run->sheet->settings);
    }
  for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
    {
      size_t before = made.count;
      if (!br__is_drawn (s, layer, of))
        continue;
      if (s->depth)
        status = add_box (&made, run->sheet, s, 0);
      if (status == BR_OK && s->depth > BR__FROM_DEPTH)
        status = add_box (&made, run->sheet, s, 1);
      /* A hole without depth goes through what it is in, and needs none.  */
      if (made.count == before && !(s->hole && !s->depth))
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
