/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: the report.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "report/review.h"

const br__statement br__report_statements[] =
{
  { "report", "report into FILE.html", "the whole sheet as a page for a phone, a printer or a screen reader",
    "One file with nothing outside it: the side view, what is missing, dimensions, checks,\n"
    "cautions, parts and the cutting plan.", BR__FOLLOW_WORD, "into", 0, 0, br__do_report },
  { "review", "review FILE ... [with RULES.sheet] [into FILE.csv]", "looks over the designs of a class",
    "Each sheet is opened on its own; none reads or writes another file.  Names may have * in them.\n"
    "RULES.sheet has checks that must hold and `must have NAME`.  A .csv has a row for each\n"
    "design, a .html or .pdf a page for each student.", BR__FOLLOW_FILE, "with into", 0, 0, br__do_review },
  { "must", "must have NAME [from LOW to HIGH]", "what a task asks of a design", "Several may stand in a row: must have deck, wheel from 3 to 4.",
    BR__FOLLOW_WORD, "have from to", 0, 0, br__do_must },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
