/* SPDX-License-Identifier: LGPL-3.0-or-later
   ink_map.h - which cells of a page strokes and texts touch: to find room for one more text.  */
#ifndef BR_PLOT_INK_MAP_H
#define BR_PLOT_INK_MAP_H

#include "plot/plot.h"

/* KEPT: dimension lines and leaders, which nothing crosses.  */
enum { BR__CELL_THIN = 1, BR__CELL_OUTLINE = 2, BR__CELL_TEXT = 4, BR__CELL_KEPT = 8, BR__CELLS = 16 };

typedef struct br__ink_map
{
  uint8_t *cells;               /* rows from the top */
  int64_t cell;                 /* side of one */
  br__area within;
  int64_t width, height;        /* in cells */
} br__ink_map;

/* The cells inside WITHIN that the strokes and texts of P touch; squares of paper do not count.  0: out of
   memory.  */
int br__ink_map_make (br__ink_map *m, const br__plot *p, br__area within);
void br__ink_map_clear (br__ink_map *m);
void br__ink_map_fill (br__ink_map *m, br__area a, unsigned what);
void br__ink_map_line (br__ink_map *m, int64_t x, int64_t y, int64_t x2, int64_t y2, unsigned what);
/* The sum of PRICE over the cells that A touches; LIMIT or more is not counted on.  A cell outside costs LIMIT.  */
unsigned br__ink_map_cost (const br__ink_map *m, br__area a, const unsigned price[BR__CELLS], unsigned limit);
/* The same along a segment.  */
unsigned br__ink_map_line_cost (const br__ink_map *m, int64_t x, int64_t y, int64_t x2, int64_t y2,
                                const unsigned price[BR__CELLS], unsigned limit);

/* 1 where nothing is drawn in A.  */
int br__ink_map_is_free (const br__ink_map *m, br__area a);
/* The lowest place on M that is free for what is WIDE and HIGH, with some air, or the highest where FROM_TOP; 0: none.  */
#define BR__FREE_AIR (BR__INCH / 16)
#define BR__FREE_STEP (BR__INCH / 10)   /* between the places that are tried */
int br__ink_map_place (int64_t *x, int64_t *y, const br__ink_map *m, int64_t wide, int64_t high, int from_top);
/* Nothing is to lie where two sheets of P join.  */
void br__ink_map_keep_joins (br__ink_map *m, const br__plot *p);

#endif
