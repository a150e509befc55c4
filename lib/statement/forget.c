/* SPDX-License-Identifier: LGPL-3.0-or-later
   forget.c - the statement `forget`: each room takes its own things out of the sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shape/shape.h"
#include "statement/statements.h"
#include "wood/wood.h"

br_status
br__do_forget (br__run *run)
{
  if (br__lex_is_word (&run->lex, "part") || br__lex_is_word (&run->lex, "stock"))
    return br__wood_forget (run);
  if (br__lex_is_word (&run->lex, "shape"))
    return br__shape_forget (run);
  return br__forget_dimensions (run);
}
