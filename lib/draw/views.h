/* SPDX-License-Identifier: LGPL-3.0-or-later
   views.h - the side, the view from above and the front together.  */
#ifndef BR_DRAW_VIEWS_H
#define BR_DRAW_VIEWS_H

#include "draw/drawing.h"
#include "view/seen.h"

/* The side, the view from above and the front, each with the run of the sheet that it shows.  */
typedef struct br__view_set
{
  br__side_view *view[3];
  br__run run[3];
} br__view_set;

/* As br__draw_side, of all three; in first-angle projection where FIRST, else in third.  The tables stand below.  */
br_status br__draw_views (br__plot *p, br__draw_result *out, br__view_set *v, int first, int64_t grid, int64_t width);

#endif
