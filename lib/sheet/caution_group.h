/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution_group.h - the cautions of one change, each with the names of what it concerns.  */
#ifndef BR_SHEET_CAUTION_GROUP_H
#define BR_SHEET_CAUTION_GROUP_H

#include "sheet/sheet.h"

typedef struct br__caution_group
{
  br_record **rows;
  br_list **names;
  size_t count, room, names_room;
  int full;             /* asked for: in all words */
} br__caution_group;

#define BR__CAUTION_GROUP_ZERO { NULL, NULL, 0, 0, 0, 0 }

/* Adds a caution about E (NULL: an expression), and clears the texts.  BRIEF is the message in one line.  */
br_status br__caution_add (br__caution_group *g, const br__entry *e, br_text *message, br_text *source, br_text *scope,
                           br_text *brief);
/* Hands the cautions on, where STATUS is BR_OK, and frees them.  */
br_status br__caution_group_end (br__caution_group *g, br__run *run, br_status status);
/* Adds the names that commas part.  */
void br__list_names (br_list *list, const char *names);

#endif
