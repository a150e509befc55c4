/* SPDX-License-Identifier: LGPL-3.0-or-later
   weak.h - where an outline is hard to saw, or too narrow to hold.  */
#ifndef BR_GEOMETRY_WEAK_H
#define BR_GEOMETRY_WEAK_H

#include "geometry/path.h"

/* The least of each, in the unit of the path.  */
typedef struct br__weak
{
  br_real bend, neck, grain;
  int bends;                    /* it has arcs that go inward; BEND is the smallest of their radii */
  int necks;                    /* NECK of inside is left between two places of its edge, more up than across */
  int grains;                   /* the same, more across than up: GRAIN */
} br__weak;

void br__weak_clear (br__weak *w);
/* Of the closed PATH: necks of less than LEAST.  It is measured from the middle of each straight piece, from each corner that
   goes inward, and from each arc that does, to what lies opposite.  */
br_status br__path_weak (br__weak *out, const br__path *path, const br_real *least, unsigned bits);

#endif
