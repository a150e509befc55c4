/* SPDX-License-Identifier: LGPL-3.0-or-later
   known.h - sizes that are known and stay.  */
#ifndef BR_SHEET_KNOWN_H
#define BR_SHEET_KNOWN_H

#include "sheet/sheet.h"

/* 1 where a line of the sheet says that E is known: `E = 3/8 known`, or `known E`.  */
int br__is_marked_known (const br_sheet *sheet, br__entry *e);
/* 1 where E is known, is a size of stock, or is called or noted as hardware: such as it is bought.  */
int br__stays (const br_sheet *sheet, br__entry *e);

#endif
