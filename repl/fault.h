/* SPDX-License-Identifier: GPL-3.0-or-later
   fault.h - an error as text: its place, the message, the line with a caret, and the hint.  */
#ifndef REPL_FAULT_H
#define REPL_FAULT_H

#include "benchrule_sheet.h"
#include "display.h"

/* PLACE 0 leaves FILE:LINE:COLUMN out, as at the prompt.  */
void fault_put (const display *d, const br_fault *fault, int place);

#endif
