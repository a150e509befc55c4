/* SPDX-License-Identifier: LGPL-3.0-or-later
   opened.h - shared by `open` and `recover`.  */
#ifndef BR_STATEMENT_OPENED_H
#define BR_STATEMENT_OPENED_H

#include "sheet/sheet.h"

/* Fails with both ways out where something is not saved.  */
br_status br__check_saved (br__run *run);
/* Puts the lines of TEXT, as those of the file PATH, instead of what is there; the sheet has no path then.  */
br_status br__open_text (br__run *run, const char *text, size_t length, const char *path);
/* The record `opened` of the sheet, which came from PATH, where the sink asks for one.  */
br_status br__emit_summary (br__run *run, const char *path);

#endif
