/* SPDX-License-Identifier: LGPL-3.0-or-later
   part_figure.h - one part by itself, for templates and for the drawing of all parts.  */
#ifndef BR_DRAW_PART_FIGURE_H
#define BR_DRAW_PART_FIGURE_H

#include "draw/dimension_line.h"
#include "wood/wood.h"

typedef struct br__part_figure
{
  br__run *run;
  const char *name;             /* borrowed, as are RATIO and PIECE */
  const br_number *ratio;       /* drawn to full; NULL: full size */
  const br__piece *piece;       /* in the list of parts, or NULL */
  br__side_view view;           /* the shapes of the part; without any, the plain outline */
  br__size_lines level, upright;
  br__plot plot;
  size_t holes, unlabelled, unmeasured;
  br__area room[2];             /* of a sheet of paper upright and on its side; or all 0 */
  int joined;                   /* what is too large for one sheet goes on several */
  int grain;                    /* arrows on it say which way the grain runs */
} br__part_figure;

void br__part_figure_clear (br__part_figure *f);
/* The shapes of the part of F, of which RUN, NAME and RATIO are given.  BR_DOMAIN: there are none.  */
br_status br__part_figure_view (br__part_figure *f);
/* What is to be measured: of the shapes, or else of the length and the width of PIECE, which are known.  */
br_status br__part_figure_measure (br__part_figure *f);
/* Strokes, sizes and names from 0, 0; the width and height of PLOT are what they take.  */
br_status br__part_figure_plot (br__part_figure *f);
/* How the HOLE of a part that was measured is drilled: its label without its name.  */
const char *br__drill_of (const br__drawn *hole);
/* "grain" between two arrows, X Y its middle; its length.  */
void br__grain_plot (br__plot *p, int64_t x, int64_t y, int upright);
#define BR__GRAIN (BR__INCH * 7 / 4)

#endif
