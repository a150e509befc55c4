/* SPDX-License-Identifier: LGPL-3.0-or-later
   fixed.c - numbers of shapes that have a value but no formula, for temporary sheets that are only drawn.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "sheet/graph_private.h"
#include "sheet/hidden.h"

br_status
br__shape_fix (br__graph *g, const char *name, int part, const br__value *v)
{
  br__entry *e = br__shape_entry_get (g, name, strlen (name), part);
  br_status status = e ? br__value_set (&e->value, v) : BR_NO_MEMORY;
  if (status == BR_OK)
    e->has_value = 1;
  return status;
}
