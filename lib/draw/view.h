/* SPDX-License-Identifier: LGPL-3.0-or-later
   view.h - the side view in characters, for the terminal.  */
#ifndef BR_DRAW_VIEW_H
#define BR_DRAW_VIEW_H

#include "draw/plot.h"

/* Answers with V, at RATIO 1 and called NAME, as a record `view` no wider than the sink asks for: lists dots (braille) and plain of
   lines, a bar that tells the scale, and the shapes by their letters.  */
br_status br__view_emit (br__run *run, const br__side_view *v, const char *name);

#endif
