/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: drawings and templates.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "draw/draw.h"
#include "wood/wood.h"

const br__statement br__draw_statements[] =
{
  { "rubs", "rubs", "each two shapes that take up the same room, by their depths",
    "Shapes `of` one part are one piece, and what lies in a `hole` goes through it.  What has no\n"
    "depth is left out: help circle tells how to give it one.", BR__FOLLOW_NOTHING, NULL, 0, 1, br__do_rubs },
  { "template", "template PART into FILE.pdf", "a part at full size, to be glued on the wood",
    "Outline, centre marks and drill sizes of the shapes `of PART`, or the part's length and\n"
    "width.  Several sheets of paper where one is too small.  Also .svg and .png.  Check the line\n"
    "at the foot of the sheet with a ruler before you cut.", BR__FOLLOW_NAME, "into", 0, 0, br__do_template },
  { "draw", "draw [side, top, front, views or parts] [bare] [into FILE.pdf] [scale 1:4] [grid 1/4] [paper letter] [layer NAME] [of PART]",
    "one view, or three, to scale, on squares, with sizes",
    "FILE ends in .pdf, .svg or .png.  Without `scale` it is the sheet's, or else the largest standard\n"
    "one at which all goes on the paper; what is larger comes as several sheets of a PDF, which\n"
    "overlap.  A shape that is not tied down is dashed.  Without a file it is shown in the terminal.\n"
    "`draw bare` has the outlines alone, at the sheet's scale, to be laid over the sketch.\n"
    "`top` is seen from above, `front` from the left end; what has no depth is in the side view alone.\n"
    "`views` has all three, in line: help projection.\n"
    "`parts` has each part by itself, all at one scale, and the list of `parts`.", BR__FOLLOW_WORD,
    "side top front views parts bare into scale grid paper layer of letter a4", 0, 0, br__do_draw },
  { "fit", "fit W x H", "the largest standard scale at which it fits on the paper",
    "By ISO 5455, and in inches also by the customary scales.  Without sizes, those of the\n"
    "sheet: overall_length and overall_height.", BR__FOLLOW_VALUE, NULL, 0, 0, br__do_fit },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
