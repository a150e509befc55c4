/* SPDX-License-Identifier: GPL-3.0-or-later
   given.h - cautions about parts, which come with each list of them, are shown once as long as they hold.  */
#ifndef REPL_GIVEN_H
#define REPL_GIVEN_H

#include <stddef.h>

#include "benchrule_sheet.h"

typedef struct given_list
{
  char **rows;
  size_t count;
} given_list;

typedef struct given
{
  given_list before, now;       /* given and not lapsed; of the statement at hand */
  int listed;                   /* that one has listed the parts */
} given;

#define GIVEN_ZERO { { NULL, 0 }, { NULL, 0 }, 0 }

/* 1 where RECORD is a caution that was shown, and has held since.  */
int given_before (given *g, const br_record *record);
/* After a statement: what a list of parts did not come with has lapsed.  */
void given_end (given *g);
void given_clear (given *g);

#endif
