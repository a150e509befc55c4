/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: sheets in files.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "file/file.h"

const br__statement br__file_statements[] =
{
  { "open", "open FILE", "runs the lines of a sheet", NULL, BR__FOLLOW_FILE, NULL, 0, br__do_open },
  { "save", "save FILE", "writes the sheet to a file; alone, to the one it came from", NULL,
    BR__FOLLOW_FILE, NULL, 0, br__do_save },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, NULL }
};
