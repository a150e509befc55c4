/* SPDX-License-Identifier: LGPL-3.0-or-later
   known.h - sizes that are known and stay.  */
#ifndef BR_SHEET_KNOWN_H
#define BR_SHEET_KNOWN_H

#include "sheet/sheet.h"

/* The dimensions of which lines of a sheet speak behind `known` and `stock`, found once for many questions.  */
typedef struct br__held
{
  struct br__holding *rows;
  size_t count, room;
} br__held;

#define BR__HELD_ZERO { NULL, 0, 0 }

br_status br__held_find (br__held *h, const br_sheet *sheet);
void br__held_clear (br__held *h);
/* 1 where a line of the sheet says that E is known: `E = 3/8 known`, or `known E`.  */
int br__is_marked_known (const br__held *h, br__entry *e);
/* 1 where E is known, is a size of stock, or is called or noted as hardware: such as it is bought.  */
int br__stays (const br__held *h, br__entry *e);

#endif
