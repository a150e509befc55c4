/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.c - the statements of this room: worked steps.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "explain/explain.h"

const br__statement br__explain_statements[] =
{
  { "explain", "explain VALUE [to MARK]", "each step as it is done by hand",
    "Each step is an equation, and both sides can be typed back.  Of a dimension, the whole\n"
    "chain that leads to it.", BR__FOLLOW_VALUE, "to", 0, 0, br__do_explain },
  { NULL, NULL, NULL, NULL, BR__FOLLOW_NOTHING, NULL, 0, 0, NULL }
};
