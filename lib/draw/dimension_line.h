/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension_line.h - between the choice of what is measured and the places of the lines.  */
#ifndef BR_DRAW_DIMENSION_LINE_H
#define BR_DRAW_DIMENSION_LINE_H

#include "draw/drawing.h"

/* Letters of sizes and names: their digits are 2.57 mm high (0.729 of the size in DejaVu Sans, measured), where ISO 3098-1 wants
   2.5 at the least (from memory).  */
#define BR__SIZE_TEXT (10 * BR__POINT)

/* The row added last goes among the placed ones where there is room for all, *PLACED 1; else they stay as they were.
   REACH is of the view V, which may be NULL.  */
void br__size_lines_place (int *placed, br__size_lines *d, const br__side_view *v, br__area reach);
/* Its beginning (K 0) and the places where its steps end.  */
static inline int64_t
br__size_line_mark (const br__size_line *row, size_t k)
{
  return row->steps ? row->from + (row->to - row->from) * (int64_t) k / (int64_t) row->steps : k ? row->to : row->from;
}

static inline size_t
br__size_line_steps (const br__size_line *row)
{
  return row->steps ? row->steps : 1;
}

/* Once all are placed: texts off the lines that run through them, and the places of the tiers.  */
void br__size_lines_settle (br__size_lines *d);

/* The same as br__size_lines_make for a part that is drilled: the first centre is measured from the edge, too.  */
br_status br__size_lines_of_part (br__size_lines *d, br__run *run, const br__side_view *v, int upright);
/* The one size of an outline called NAME that begins at 0: LENGTH on paper, INCHES.  */
br_status br__size_lines_of_outline (br__size_lines *d, br__run *run, const char *name, int64_t length,
                                     const br_real *inches, int upright);

#endif
