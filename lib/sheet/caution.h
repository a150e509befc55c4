/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution.h - cautions that go with the results of a statement; never a refusal.  */
#ifndef BR_SHEET_CAUTION_H
#define BR_SHEET_CAUTION_H

#include "sheet/sheet.h"

/* For a gap in inches, or plain in the sheet's unit, between PARTS ("the wheels"): touching and
   overlapping parts rub, wider gaps may pinch.  */
br_status br__caution_gap (br__run *run, const br__value *gap, const char *parts);
/* For the gaps and curves in an expression that a line asks about.  */
br_status br__caution_tree (br__run *run, const br__tree *t);
/* After CHANGES, by which MOVES moved: what has not been said of all that they bear on, or holds again.  */
br_status br__tell_cautions (br__run *run, const br__moves *moves, const br__changes *changes);
/* Once OLD is called NEW in a sheet that was made anew, of which all had been said.  */
br_status br__caution_renamed (br__run *run, const char *old, const char *new);
/* caution_line.c: what a statement that succeeded has not said itself, of what it changed or of the formulas in its line.  */
br_status br__end_cautions (br__run *run);
/* All that there is to say of the sheet's dimensions and shapes, whatever was said before.  */
br_status br__caution_all (br__run *run);
/* For whom it is made, as shop/caution.h has it.  */
struct br__child br__child_of (const br__settings *s);

#endif
