/* SPDX-License-Identifier: LGPL-3.0-or-later
   hidden_line.h - edges of a view that lie behind something.  */
#ifndef BR_VIEW_HIDDEN_LINE_H
#define BR_VIEW_HIDDEN_LINE_H

#include "plot/canvas.h"
#include "view/seen.h"

#define BR__MOST_PIECE_STEPS 2048       /* places of a stroke that are looked at; of more the first count */

/* opening.c: how near the shapes of the side view V are, from their depths, and what its holes go through.  BEFORE, or
   NULL, is the same view in another scale: what it found holds.  */
br_status br__order_side (br__side_view *v, const br__side_view *before, const br_sheet *sheet, const br_number *ratio);
/* 1 where OWN, which the wood of O covers, is seen through the hole; NULL: what lies behind all of the wood.  */
int br__opening_shows (const br__opening *o, const br__drawn *own);
/* profile.c: how near those of V are, which shows Z, made from SHEET, of which SIDE is the side view in the same scale.  */
br_status br__order_seen (br__side_view *v, const br__seen *z, const br_sheet *sheet, const br__side_view *side);
/* How near D is at U along the view; -HUGE_VAL where it is not there.  */
double br__near_at (const br__drawn *d, double u);

/* What may hide parts of the edge of D, a shape of V or a copy of one; NULL: memory ran out.  */
typedef struct br__cover br__cover;
br__cover *br__cover_open (const br__side_view *v, const br__drawn *d, int64_t left, int64_t top);
void br__cover_close (br__cover *c);
/* From now on of line I across D, which goes from X, Y to X2, Y2 of the view.  */
void br__cover_bend (br__cover *c, size_t i, int64_t *x, int64_t *y, int64_t *x2, int64_t *y2);
/* OF a cover: the edge of its D at X Y, a place of the view, which is gone where no wood is nearer than OFF.  */
br__edge_state br__cover_state (const void *of, int64_t x, int64_t y, int64_t off);

/* bend.c: finds the lines across D, of which the reach is known, a box that stands for the shape of COUNT INKS; ABOVE: seen from there.  0:
   memory ran out.  */
int br__bends_find (br__drawn *d, const br__ink *inks, size_t count, int above);

/* The ink added last is the edge of D, a shape of V: what is hidden of it becomes thin and dashed.  Adds the lines across it.  */
void br__hide_lines (br__plot *p, const br__side_view *v, const br__drawn *d, int64_t left, int64_t top);

#endif
