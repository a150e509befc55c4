/* SPDX-License-Identifier: LGPL-3.0-or-later
   told.h - the first mistakes of a file are reported one by one, the others by their number.  */
#ifndef BR_STATEMENT_TOLD_H
#define BR_STATEMENT_TOLD_H

#include "benchrule_sheet.h"

typedef struct br__told
{
  const br_sink *to;
  br_sink sink;
  size_t count;
  int summary;                  /* answers are left out, but for what asks for something to be done */
} br__told;

/* What passes on to SINK, which is borrowed.  */
const br_sink *br__told_start (br__told *t, const br_sink *sink);
void br__told_end (br__told *t, const char *path);

#endif
