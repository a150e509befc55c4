/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution.h - cautions that go with the results of a statement; never a refusal.  */
#ifndef BR_SHEET_CAUTION_H
#define BR_SHEET_CAUTION_H

#include "sheet/sheet.h"

/* For a gap in inches, or plain in the sheet's unit, between PARTS ("the wheels"): touching and
   overlapping parts rub, wider gaps may pinch.  */
br_status br__caution_gap (br__run *run, const br__value *gap, const char *parts);
/* For the gaps and curves in an expression that was shown.  */
br_status br__caution_tree (br__run *run, const br__tree *t);
/* For the dimensions that moved, or all where MOVES is NULL: what has not been said of them, or holds again.  */
br_status br__tell_cautions (br__run *run, const br__moves *moves);
/* All that there is to say of the sheet's dimensions and shapes, whatever was said before.  */
br_status br__caution_all (br__run *run);
/* For whom it is made, as shop/caution.h has it.  */
struct br__child br__child_of (const br__settings *s);

#endif
