/* SPDX-License-Identifier: LGPL-3.0-or-later
   hidden_line.h - edges of a view that lie behind something.  */
#ifndef BR_DRAW_HIDDEN_LINE_H
#define BR_DRAW_HIDDEN_LINE_H

#include "draw/seen.h"

#define BR__MOST_COVERS 64      /* shapes that may hide parts of one; of more the first count */
#define BR__MOST_PIECE_STEPS 512

/* How near the shapes of the side view V are, from their depths.  */
br_status br__order_side (br__side_view *v, const br_sheet *sheet, const br_number *ratio);
/* How near those of V are, which shows Z, made from the sheet of RUN.  */
br_status br__order_seen (br__side_view *v, const br__seen *z, br__run *run, const br_number *ratio);
/* The ink added last is the edge of D, a shape of V: what is hidden of it becomes thin and dashed.  */
void br__hide_lines (br__plot *p, const br__side_view *v, const br__drawn *d, int64_t left, int64_t top);

#endif
