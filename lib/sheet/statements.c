/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: dimensions, checks, changes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "sheet/sheet.h"

const br__statement br__sheet_statements[] =
{
  { "list", "list", "all dimensions of the sheet", NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, br__do_list },
  { "exact", "exact VALUE", "a value in full, as a fraction and with all digits that are certain", NULL,
    BR__FOLLOW_VALUE, NULL, 0, 0, br__do_exact },
  { "known", "known NAME, ...", "sizes that stay as they are when others are tidied",
    "Or behind the size: axle = 3/8 known.  Stock, dowels and hardware are known by their line, their name or their\n"
    "note.  `known` alone lists them all.", BR__FOLLOW_NAME, NULL, 0, 0, br__do_known },
  { "undo", "undo", "takes the last change back", NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, br__do_undo },
  { "redo", "redo", "does again what was taken back", NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, br__do_redo },
  { "check", "check VALUE <= VALUE  # what it means",
    "a rule that must hold: < <= = >= > !=", "Its note is the message.  It is looked at again at\n"
    "each change.  `check` alone shows all rules.", BR__FOLLOW_VALUE, NULL, 0, 0, br__do_check },
  { "tolerance", "tolerance 1/32 on NAME, ...", "how far a size may be off either way when it is cut",
    "A tolerance behind the size itself, as in `width = 3 +- 1/64`, goes before it, and stays\n"
    "when the size is changed, until `+- 0`.  `tolerance 0 on NAME` takes away what `tolerance` gave.\n"
    "`tolerance` alone shows all.", BR__FOLLOW_VALUE, "on", 0, 0,
    br__do_tolerance },
  { "quit", "quit", "ends", NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, br__do_quit },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
