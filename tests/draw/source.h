/* SPDX-License-Identifier: GPL-3.0-or-later
   source.h - for tests that draw sheets of the source tree into a folder of their own.  */
#ifndef BR_TESTS_DRAW_SOURCE_H
#define BR_TESTS_DRAW_SOURCE_H

#include "../lesson/support.h"

#include <limits.h>

static char source[PATH_MAX];   /* of the source tree */

/* For the setup of a group, whose teardown is lesson_leave.  */
CHECK_UNUSED static int
source_enter (void **state)
{
  const char *folder = getenv ("srcdir");
  return realpath (folder ? folder : ".", source) ? lesson_enter (state) : -1;
}

CHECK_UNUSED static br_sheet *
sheet_open (const char *path)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "open %s", path);
  said_clear (&s);
  return sheet;
}

#endif
