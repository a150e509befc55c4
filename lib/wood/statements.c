/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: stock, parts, plans and tools.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "wood/wood.h"

const br__statement br__wood_statements[] =
{
  { "stock", "stock NAME = T x W x L [qty N]", "the wood at hand: boards, sheets, dowels",
    "stock pine = 3/4 x 5-1/2 x 48 qty 3     thickness, width, length\n"
    "stock rod = round 7/16 x 36             diameter, length\n"
    "stock stud = 2x4 x 96                   nominal, by US PS 20: really 1-1/2 x 3-1/2\n"
    "stock ply = plywood 3/4 x 48 x 96       really 23/32 by the practice of the trade\n"
    "stock ash = hardwood 4/4 x 6 x 72       really 13/16 surfaced, by the NHLA's rules\n"
    "Without blanks 2x4 is the nominal name; 2 x 4 is two by four inches.  Measure what you\n"
    "have: shops sell other sizes, too.  `stock` alone shows all.",
    BR__FOLLOW_VALUE, "round plywood hardwood qty", 0, 0, br__do_stock },
  { "part", "part NAME = L x W [x T] [qty N] [from STOCK]", "a part to be cut, sizes as formulas",
    "The length lies along the grain; `turn` lets it lie across.  Without `from`, the stock\n"
    "is that whose thickness fits.  Of a dowel, the length is enough.  `forget part NAME`.\n"
    "part NAME as SHAPE [x T] takes its sizes from a shape: the smallest rectangle around it.",
    BR__FOLLOW_VALUE, "qty from turn as", 0, 0, br__do_part },
  { "parts", "parts", "the list of parts: sizes, marks, stock, and where each size comes from", NULL,
    BR__FOLLOW_NOTHING, NULL, 0, 0, br__do_parts },
  { "cuts", "cuts [STOCK] [limit SECONDS]", "the plan for cutting the parts, kerf counted",
    "How many sticks it takes, the least that any plan could take, and whether it is proved\n"
    "best.  Ctrl-C gives the best plan so far.", BR__FOLLOW_WORD, "limit", 0, 0, br__do_cuts },
  { "order", "order [[CLASS] N] [spare PERCENT]", "what a class of N needs of parts and stock, or one alone", NULL,
    BR__FOLLOW_VALUE, "class spare", 0, 0, br__do_order },
  { "drills", "drills SIZE", "the drills next to a size, with the play that each leaves",
    "Fractional, number and letter drills.  The play is drill less size.", BR__FOLLOW_VALUE, NULL, 0, 0,
    br__do_drills },
  { "saws", "saws RADIUS", "the band-saw blades that can follow a curve of that radius", NULL,
    BR__FOLLOW_VALUE, NULL, 0, 0, br__do_saws },
  { "cautions", "cautions", "every caution of the sheet, with its source", NULL, BR__FOLLOW_NOTHING, NULL, 0, 0,
    br__do_cautions },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
