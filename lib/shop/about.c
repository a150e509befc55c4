/* SPDX-License-Identifier: LGPL-3.0-or-later
   about.c - a value in a message: the fraction where there is one, else six figures that say
   that they are rounded.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/about.h"

br_status
br__put_about (br_text *text, const br_real *x, br_dimension dimension, const br_style *style,
               unsigned bits)
{
  br_real scaled = BR_REAL_ZERO, unit = BR_REAL_ZERO;
  const br_unit *shown = style != NULL && dimension == BR_LENGTH ? style->unit : NULL;
  br_status status;

  if (br_real_rational (x) != NULL)
    {
      br__put_measure (text, br_real_rational (x), dimension, style);
      return BR_OK;
    }
  status = br_number_set_ratio (&unit.rational, shown ? shown->num : 1, shown ? shown->den : 1);
  if (status == BR_OK)
    status = br_real_div (&scaled, x, &unit, bits);
  if (status == BR_OK)
    {
      br__text_puts (text, "about ");
      status = br__put_real_decimal (text, NULL, &scaled, 6, bits);
    }
  if (dimension == BR_LENGTH)
    br__text_printf (text, " %s", shown ? shown->name : "in");
  br_real_clear (&scaled);
  br_real_clear (&unit);
  return status;
}
