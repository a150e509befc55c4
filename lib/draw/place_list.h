/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_list.h - several shapes, sides or ends in one cell of a table.  */
#ifndef BR_DRAW_PLACE_LIST_H
#define BR_DRAW_PLACE_LIST_H

#include "exact/text.h"

/* What is in one cell: its text is drawn before the next one is put, so it is bounded.  */
#define BR__PLACE_ITEMS 64

/* Both belong to others.  */
typedef struct br__place_item
{
  const char *name;
  const char *words;            /* "left", "upper end"; NULL for a centre */
} br__place_item;

/* 1 if NAME is BEFORE with its number one higher: peg_3 after peg_2.  */
int br__is_next_name (const char *before, const char *name);
/* "peg_1", "peg_1 and 2", "peg_1 to 6": COUNT names from FIRST on, of which each is the next of the one before.  */
void br__put_names (br_text *t, const char *first, size_t count);
/* 1 if NAMES, "peg_1 to 6", "peg_1 and 2, top; rail", begins with several of which NAME is one.  */
int br__names_hold (const char *names, const char *name);
/* "deck, left; bar, both ends; peg_1 to 6".  */
void br__put_items (br_text *t, const br__place_item *items, size_t count);

#endif
