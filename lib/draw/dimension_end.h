/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension_end.h - what dimension lines end at.  */
#ifndef BR_DRAW_DIMENSION_END_H
#define BR_DRAW_DIMENSION_END_H

#include "draw/drawing.h"

/* A place to measure from: a side, a centre or an end, on paper and in the sheet.  */
typedef struct br__end
{
  const br__drawn *drawn;       /* or NULL: the datum */
  int reach;                    /* number of the shape, or 0: its centre */
  int tip;                      /* -1 or 1: its beginning or its end, in place of REACH */
  int64_t at, feature[BR__BANKS];
} br__end;

/* The place of E in inches.  */
br_status br__place_of_end (br_real *z, br__run *run, const br__side_view *v, int upright, const br__end *e);
br__end br__end_of (const br__drawn *s, int reach, int tip, int64_t at, int64_t feature);
/* A side of a shape: the lower or left one, or the other (FAR).  */
br__end br__end_at_side (const br__drawn *s, int upright, int far);
br__end br__end_at_centre (const br__drawn *s, int upright);
/* The beginning (TIP -1) or the end of a line.  */
br__end br__end_at_tip (const br__drawn *s, int upright, int tip);

#endif
