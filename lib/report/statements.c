/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: the report.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "report/report.h"

const br__statement br__report_statements[] =
{
  { "report", "report into FILE.html", "the whole sheet as a page for a phone, a printer or a screen reader",
    "One file with nothing outside it: the side view, what is missing, dimensions, checks,\n"
    "cautions, parts and the cutting plan.", BR__FOLLOW_WORD, "into", 0, br__do_report },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, NULL }
};
