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
  int summary;                  /* answers are omitted, except those that ask the user to do something */
} br__told;

/* A sink that passes records on to SINK, which must stay valid until br__told_end.  */
const br_sink *br__told_start (br__told *t, const br_sink *sink);
void br__told_end (br__told *t, const char *path);

#endif
