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
/* Called after CHANGES, which caused MOVES: gives the cautions about everything affected that are new or apply again.  */
br_status br__tell_cautions (br__run *run, const br__moves *moves, const br__changes *changes);
/* Called after OLD was renamed to NEW: the sheet was rebuilt for this, but its cautions had been given before.  */
br_status br__caution_renamed (br__run *run, const char *old, const char *new);
/* caution_line.c: called after a statement succeeded: gives the cautions about its changes or the formulas in its line that
   the statement has not given itself.  */
br_status br__end_cautions (br__run *run);
/* Gives all cautions about the sheet's dimensions and shapes, including those given before.  */
br_status br__caution_all (br__run *run);
/* For whom it is made, as shop/caution.h has it.  */
struct br__child br__child_of (const br__settings *s);

#endif
