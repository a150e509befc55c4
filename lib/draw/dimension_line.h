/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension_line.h - between the choice of what is measured and the places of the lines.  */
#ifndef BR_DRAW_DIMENSION_LINE_H
#define BR_DRAW_DIMENSION_LINE_H

#include "draw/plot.h"

#define BR__SIZE_TEXT (9 * BR__POINT)   /* letters of sizes and names */

/* Gives the rows of D their tiers and texts; the view reaches from LOW to HIGH along them.  */
void br__size_lines_place (br__size_lines *d, int64_t low, int64_t high);

#endif
