/* SPDX-License-Identifier: LGPL-3.0-or-later
   files.c - the statements about sheets in files.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "statement/statements.h"

const br__statement br__file_statements[] =
{
  { "open", "open FILE", "opens a sheet instead of the one that is here",
    "What is here must be saved, or given up by `new without saving`.  One `undo` takes it back.",
    BR__FOLLOW_FILE, NULL, 0, 0, br__do_open },
  { "use", "use FILE", "brings in the lines of another sheet", NULL, BR__FOLLOW_FILE, NULL, 0, 0, br__do_use },
  { "save", "save [over] FILE", "writes the sheet to a file; alone, to the one it came from",
    "A file of that name that is not this sheet's own stays, unless you say `save over FILE`.\n"
    "`save in place FILE` writes into the file itself, which keeps its owner and other names.",
    BR__FOLLOW_FILE, NULL, 0, 0, br__do_save },
  { "new", "new [without saving]", "an empty sheet", NULL, BR__FOLLOW_NOTHING, "without saving", 0, 0, br__do_new },
  { "recover", "recover [drop]", "brings back work that was not saved when an earlier prompt ended",
    "It comes back as the sheet that it was, so that `save` goes where it went.  `recover drop` throws it away.",
    BR__FOLLOW_NOTHING, "drop", 0, 0, br__do_recover },
  { "run", "run files", "does what lines of a sheet file would do with other files",
    "A sheet that comes from a file writes nothing, and reads only sheets in its own folder, until you say so.",
    BR__FOLLOW_NOTHING, "files", 0, 0, br__do_run },
  { "rename", "rename OLD to NEW", "another name for a size, a shape, a stock or a part, wherever it is used",
    "Notes and titles stay as they are.  One `undo` takes it back.", BR__FOLLOW_NAME, "to", 0, 0, br__do_rename },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
