/* SPDX-License-Identifier: LGPL-3.0-or-later
   weak.c - makes the path of an outline of a sheet and finds where it is hard to saw or too narrow to hold.  */
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
  br__path path = { NULL, 0, 0 };
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  br_status status = br__shape_legs_of (&legs, &s, sheet, shape);
  if (status == BR_OK)
    status = br__legs_path (&path, &g, &legs);
  if (status == BR_OK)
    status = br__path_weak (w, &path, least, sheet->settings.bits);
  br__pad_clear (&g);
  br__free ((void *) path.pieces);
  br__legs_clear (&legs);
  br__sketch_clear (&s);
  return status;
}
