/* SPDX-License-Identifier: LGPL-3.0-or-later
   weak.c - an outline of a sheet as a path, for where it is hard to saw or too narrow to hold.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/shape.h"

br_status
br__shape_weak (br__weak *w, const br_sheet *sheet, const br__shape *shape, const br_real *least)
{
  br__work work = { &sheet->settings, NULL, NULL, 0 };
  br__sketch s = { &work, BR_OK, NULL };
  br__legs legs = { NULL, 0, 0, NULL };
  br__path_piece *pieces = NULL;
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  br_status status = br__shape_legs_of (&legs, &s, sheet, shape);
  if (status == BR_OK && (pieces = br__alloc_zero (legs.count, sizeof *pieces)) == NULL)
    status = BR_NO_MEMORY;
  for (size_t i = 0; i < legs.count && status == BR_OK; i++)
    {
      const br__leg *l = &legs.rows[i];
      pieces[i].from = (br__point) { &l->x->real, &l->y->real };
      pieces[i].to = (br__point) { &l->x2->real, &l->y2->real };
      if (l->slope)
        {
          pieces[i].centre = (br__point) { &l->centre_x->real, &l->centre_y->real };
          pieces[i].radius = &l->radius->real;
          pieces[i].turn = br__sign_of (&g, &l->slope->real);
        }
    }
  if (status == BR_OK)
    {
      br__path path = { pieces, legs.count, br__sign_of (&g, &legs.side->real) };
      status = g.status == BR_OK ? br__path_weak (w, &path, least, sheet->settings.bits) : g.status;
    }
  br__pad_clear (&g);
  br__free (pieces);
  br__legs_clear (&legs);
  br__sketch_clear (&s);
  return status;
}
