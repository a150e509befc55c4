/* SPDX-License-Identifier: LGPL-3.0-or-later
   replace.h - replaces the content of a sheet but keeps its session.  */
#ifndef BR_SHEET_REPLACE_H
#define BR_SHEET_REPLACE_H

#include "sheet/sheet.h"

/* An empty content for SHEET, with its precision.  To be freed by br_sheet_free.  */
br_status br__content_new (br_sheet **content, const br_sheet *sheet, br_error *error);
/* SHEET and OTHER change contents.  */
void br__swap_content (br_sheet *sheet, br_sheet *other);
/* Gives the sheet *CONTENT, which is taken over, as a change.  */
br_status br__replace_content (br__run *run, br_sheet **content);

#endif
