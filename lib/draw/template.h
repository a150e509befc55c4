/* SPDX-License-Identifier: LGPL-3.0-or-later
   template.h - between a template and what is found in it.  */
#ifndef BR_DRAW_TEMPLATE_H
#define BR_DRAW_TEMPLATE_H

#include "draw/drawing.h"
#include "wood/wood.h"

/* template_check.c: FOUND gets a sentence for each hole of V that lies off the wood, or nearer to an edge than it is wide, and
   for sizes of the wood that are not those of PIECE (may be NULL).  */
br_status br__template_check (br_list *found, br__run *run, const br__side_view *v, const br__piece *piece);

#endif
