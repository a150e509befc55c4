/* SPDX-License-Identifier: LGPL-3.0-or-later
   rubs.c - what takes up the same room: the statement rubs, and the direction that `clear` tells.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/depth.h"

/* ---- Two shapes ---- */

/* Z = how far A and B, which have a depth, are apart in depth; *KNOWN is 0 while one of them waits.  */
static br_status
gap_of (br__value *z, int *known, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  br__work w = { &sheet->settings, NULL, NULL };
  const br__value *const from[] = { br__depth_middle (sheet, a), br__depth_of (sheet, a), br__depth_middle (sheet, b), br__depth_of (sheet, b) };
  br__value args[4] = { BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO };
  br_status status = BR_OK;
  *known = 1;
  for (int i = 0; i < 4 && status == BR_OK && *known; i++)
    {
      *known = from[i] != NULL;
      if (*known)
        status = br__value_set (&args[i], from[i]);
    }
  if (status == BR_OK && *known)
    status = br__depth_gap (&w, z, args, br__depth_source (sheet, a)->depth > BR__FROM_DEPTH || br__depth_source (sheet, b)->depth > BR__FROM_DEPTH);
  for (int i = 0; i < 4; i++)
    br__value_clear (&args[i]);
  return status;
}

/* Z = the distance of A and B as seen from the side, without an entry for it.  */
static br_status
side_distance (br__value *z, int *known, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  const br__function *clear = br__shape_function (BR__CALL_CLEAR);
  br__work w = { &sheet->settings, NULL, NULL };
  br__numbers n[2] = { { NULL, 0 }, { NULL, 0 } };
  br_status status = br__shape_numbers (&n[0], sheet, a);
  if (status == BR_OK)
    status = br__shape_numbers (&n[1], sheet, b);
  *known = status != BR_DOMAIN;
  const size_t count = n[0].count + n[1].count;
  br__value *args = status == BR_OK ? br__alloc_zero (count, sizeof *args) : NULL;
  if (status == BR_OK && !args)
    status = BR_NO_MEMORY;
  for (size_t i = 0; i < count && status == BR_OK; i++)
    args[i] = i < n[0].count ? n[0].rows[i] : n[1].rows[i - n[0].count];        /* borrowed */
  if (status == BR_OK)
    status = clear->call (&w, z, args, (unsigned) count, clear);
  br__free (args);
  br__numbers_clear (&n[0]);
  br__numbers_clear (&n[1]);
  return *known ? status : BR_OK;
}

/* ---- What goes through a hole ---- */

/* The corners of S, and by how much it goes beyond them all around; an arc or an outline is the box around it.  */
static br_status
corners_of (br__hull *h, br__pad *g, int *known, const br_sheet *sheet, const br__shape *s)
{
  const br_real *v[BR__SHAPE_BOTTOM + 1];
  for (int i = BR__SHAPE_X; i <= BR__SHAPE_BOTTOM; i++)
    {
      const br__value *number = br__shape_value (sheet, s, i);
      *known &= number != NULL;
      v[i] = number ? &number->real : NULL;
    }
  if (!*known)
    return BR_OK;
  br__figure f = { s->kind, v[BR__SHAPE_X], v[BR__SHAPE_Y], v[BR__SHAPE_A], v[BR__SHAPE_B], v[BR__SHAPE_C], v[BR__SHAPE_D] };
  if (s->kind == BR__ARC || s->kind == BR__OUTLINE)
    {
      f.kind = BR__BOX;
      f.x = br__add (g, f.x, br__half (g, br__add (g, v[BR__SHAPE_LEFT], v[BR__SHAPE_RIGHT])));
      f.y = br__add (g, f.y, br__half (g, br__add (g, v[BR__SHAPE_BOTTOM], v[BR__SHAPE_TOP])));
      f.a = br__sub (g, v[BR__SHAPE_RIGHT], v[BR__SHAPE_LEFT]);
      f.b = br__sub (g, v[BR__SHAPE_TOP], v[BR__SHAPE_BOTTOM]);
    }
  br__hull_of (h, g, &f);
  return g->status;
}

/* *INSIDE is 1 if all of S lies in HOLE, a circle or a bar, as seen from the side.  */
static br_status
lies_in (int *inside, const br_sheet *sheet, const br__shape *s, const br__shape *hole)
{
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  br__hull a, b;
  int known = 1;
  br_status status = corners_of (&a, &g, &known, sheet, s);
  if (status == BR_OK)
    status = corners_of (&b, &g, &known, sheet, hole);
  *inside = known;
  for (size_t i = 0; status == BR_OK && *inside && i < a.count; i++)
    {
      const br_real *away = b.count > 1 ? br__point_to_segment (&g, a.corner[i], b.corner[0], b.corner[1])
                                        : br__length_of (&g, br__minus (&g, a.corner[i], b.corner[0]));
      *inside = br__order_of (&g, br__add (&g, away, a.round), b.round) <= 0;
      status = g.status;
    }
  br__pad_clear (&g);
  return status;
}

/* *THROUGH is 1 if there is a hole in WOOD that S goes through.  A hole without depth goes all through; one with a depth counts
   where WOOD does not go beyond it.  */
static br_status
goes_through (int *through, const br_sheet *sheet, const br__shape *s, const br__shape *wood)
{
  br_status status = BR_OK;
  *through = 0;
  for (const br__shape *h = sheet->shapes; h && status == BR_OK && !*through; h = h->next)
    {
      int of = !h->of || (wood->of && strcmp (h->of, wood->of) == 0);
      int known = 0, order[2] = { 0, 0 };
      br__value end[4] = { BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO };
      if (!h->active || !h->hole || !of || (h->kind != BR__CIRCLE && h->kind != BR__LINE))
        continue;
      status = br__depth_ends (&end[0], &end[1], &known, sheet, h);
      if (status == BR_OK && known)
        status = br__depth_ends (&end[2], &end[3], &known, sheet, wood);
      for (int i = 0; i < 2 && status == BR_OK && known; i++)
        status = br_real_cmp (&order[i], &end[i].real, &end[2 + i].real, sheet->settings.bits);
      if (status == BR_OK && order[0] >= 0 && order[1] <= 0)
        status = lies_in (through, sheet, s, h);
      for (int i = 0; i < 4; i++)
        br__value_clear (&end[i]);
    }
  return status;
}

/* ---- rubs ---- */

/* 1 where a reach of A ends before B begins, for certain: most pairs are far apart.  */
static br_status
is_beside (int *beside, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  static const int rows[][3] = { { BR__SHAPE_X, BR__SHAPE_RIGHT, BR__SHAPE_LEFT }, { BR__SHAPE_Y, BR__SHAPE_TOP, BR__SHAPE_BOTTOM } };
  br_status status = BR_OK;
  *beside = 0;
  for (int i = 0; i < 4 && status == BR_OK && !*beside; i++)
    {
      const int *row = rows[i / 2];
      const br__shape *low = i % 2 ? a : b, *high = i % 2 ? b : a;
      const br__value *v[] = { br__shape_value (sheet, low, row[0]), br__shape_value (sheet, low, row[1]),
                               br__shape_value (sheet, high, row[0]), br__shape_value (sheet, high, row[2]) };
      br_real end = BR_REAL_ZERO, start = BR_REAL_ZERO;
      int order = 1;
      if (!v[0] || !v[1] || !v[2] || !v[3])
        return BR_OK;
      status = br_real_add (&end, &v[0]->real, &v[1]->real);
      if (status == BR_OK)
        status = br_real_add (&start, &v[2]->real, &v[3]->real);
      if (status == BR_OK)
        status = br_real_cmp (&order, &end, &start, sheet->settings.bits);
      *beside = status == BR_OK && order <= 0;
      status = status == BR_UNDECIDED ? BR_OK : status;
      br_real_clear (&end);
      br_real_clear (&start);
    }
  return status;
}

static br_status
emit_rubs (br__run *run, const br__shape *a, const br__shape *b, int decided)
{
  br_record *r = br__record_new ("rubs");
  br__put_text (r, "first", a->name);
  br__put_text (r, "second", b->name);
  br__put_text (r, "state", decided ? "overlap" : "undecided");
  return br__emit (run, r);
}

/* Whether A and B take up the same room: *STATE gets 1, 0, or -1 where it is not decided.  */
static br_status
overlap_of (int *state, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  br__value v = BR__VALUE_ZERO;
  int beside = 0, known = 0, sign = 0, through = 0;
  *state = 0;
  br_status status = gap_of (&v, &known, sheet, a, b);
  if (status == BR_OK && known)
    status = br_real_sign (&sign, &v.real, sheet->settings.bits);
  if (status == BR_OK && known && sign < 0)
    status = is_beside (&beside, sheet, a, b);
  if (status == BR_OK && known && sign < 0 && !beside)
    {
      status = side_distance (&v, &known, sheet, a, b);
      if (status == BR_OK && known)
        status = br_real_sign (&sign, &v.real, sheet->settings.bits);
      if (status == BR_OK && known && sign < 0)
        status = goes_through (&through, sheet, a, b);
      if (status == BR_OK && known && sign < 0 && !through)
        status = goes_through (&through, sheet, b, a);
      *state = known && sign < 0 && !through;
    }
  br__value_clear (&v);
  if (status == BR_UNDECIDED)
    {
      *state = -1;
      status = BR_OK;
    }
  return status;
}

static int
is_solid (const br_sheet *sheet, const br__shape *s)
{
  return s->active && br__depth_source (sheet, s)->depth && !br__shape_source (sheet, s)->hole;
}

/* Shapes of one part are one piece, and the first place of a row is the shape itself.  */
static int
may_rub (const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  const char *const parts[] = { br__shape_source (sheet, a)->of, br__shape_source (sheet, b)->of };
  for (const br__shape *row = b; row && row->kind == BR__ROW; row = br__shape_find (sheet, row->base, strlen (row->base)))
    if (strcmp (row->base, a->name) == 0)
      return 0;
  for (const br__shape *row = a; row && row->kind == BR__ROW; row = br__shape_find (sheet, row->base, strlen (row->base)))
    if (strcmp (row->base, b->name) == 0)
      return 0;
  return is_solid (sheet, b) && !(parts[0] && parts[1] && strcmp (parts[0], parts[1]) == 0);
}

br_status
br__do_rubs (br__run *run)
{
  const br_sheet *sheet = run->sheet;
  size_t found = 0, flat = 0;
  br_status status = br__end_of_line (run);
  for (const br__shape *a = sheet->shapes; a && status == BR_OK; a = a->next)
    {
      flat += (size_t) (a->active && !br__depth_source (sheet, a)->depth && !br__shape_source (sheet, a)->hole);
      for (const br__shape *b = a->next; b && status == BR_OK && is_solid (sheet, a); b = b->next)
        {
          int state = 0;
          if (br__stopped (run))
            return br__fail_stopped (run);
          if (!may_rub (sheet, a, b))
            continue;
          status = overlap_of (&state, sheet, a, b);
          if (status != BR_OK)
            br__fail_plain (run->error, status, 0, 0);
          else if (state)
            status = emit_rubs (run, a, b, state > 0);
          found += state != 0;
        }
    }
  if (status == BR_OK && !found)
    status = br__remark (run, "no two shapes that have a depth overlap");
  if (status == BR_OK && flat)
    status = br__remark (run, flat == 1 ? "1 shape has no depth and was left out: `deep` gives it one"
                                        : "%zu shapes have no depth and were left out: `deep` gives them one", flat);
  return status;
}

/* ---- clear ---- */

br_status
br__put_clear_along (br_record *r, const br_sheet *sheet, const br__shape *a, const br__shape *b, const br__value *apart)
{
  br__value gap = BR__VALUE_ZERO;
  int known = 0, order = 0, sign = 0;
  if (!a || !b || !br__depth_source (sheet, a)->depth || !br__depth_source (sheet, b)->depth)
    return BR_OK;
  br_status status = gap_of (&gap, &known, sheet, a, b);
  if (status == BR_OK && known)
    status = br_real_cmp (&order, &apart->real, &gap.real, sheet->settings.bits);
  if (status == BR_OK && known)
    status = br_real_sign (&sign, &gap.real, sheet->settings.bits);
  if (status == BR_OK && known)
    br__put_text (r, "along", order == 0 ? "depth" : sign > 0 ? "both" : "side");
  br__value_clear (&gap);
  return status == BR_UNDECIDED ? BR_OK : status;
}
