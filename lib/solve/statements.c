/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: questions over formulas.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "solve/find.h"

const br__statement br__solve_statements[] =
{
  { "tidy", "tidy [apply] [NAME, ... or except NAME, ...] [to MARK]", "given dimensions on their nearest marks",
    "Shows what would move, and which checks would fail; `tidy apply` does it, and one\n"
    "`undo` takes it back.  What is known, stock, dowels and hardware stay, unless they are named.",
    BR__FOLLOW_NAME, "apply except to", 0, 0, br__do_tidy },
  { "stack", "stack VALUE", "what tolerances add up to: worst case, root sum square, shares",
    "Exact where the formula is linear or runs one way over all sizes within the\n"
    "tolerances; else bounds that are certain.", BR__FOLLOW_VALUE, NULL, 0, 0, br__do_stack },
  { "find", "find NAME for VALUE = VALUE", "the size of one dimension that makes it so",
    "Nothing is set: the answer says what to type.  It also gives the nearest marks of the\n"
    "ruler at which every check holds.  Of several sizes those over zero come first, and of\n"
    "these the one nearest to what NAME is now, or to zero.", BR__FOLLOW_NAME, "for", 0, 0, br__do_find },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
