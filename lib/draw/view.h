/* SPDX-License-Identifier: LGPL-3.0-or-later
   view.h - the side view in characters, for the terminal.  */
#ifndef BR_DRAW_VIEW_H
#define BR_DRAW_VIEW_H

#include "draw/drawing.h"
#include "plot/canvas.h"
#include "wood/wood.h"

/* Answers with V, at RATIO 1 and called NAME, as a record `view` no wider than the sink asks for: lists dots (braille) and plain of
   lines, a bar that tells the scale, and the shapes by their letters.  */
br_status br__view_emit (br__run *run, const br__side_view *v, const char *name);

/* A view whose 0, 0 lies at X, Y of a picture of several, and its number there.  */
typedef struct br__view_block
{
  const br__side_view *view;
  int64_t x, y;
  size_t number;
} br__view_block;

/* The same for several in one picture of REACH: what the numbers mean stands in the list of parts.  */
br_status br__view_emit_parts (br__run *run, const br__view_block *blocks, size_t count, br__area reach, const br__wood_list *wood);

#endif
