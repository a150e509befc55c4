/* SPDX-License-Identifier: LGPL-3.0-or-later
   about.h - a value in a message or on a picture.  */
#ifndef BR_SHOP_ABOUT_H
#define BR_SHOP_ABOUT_H

#include "benchrule.h"
#include "exact/text.h"

/* Adds X: as br_measure_write does where it is a fraction, else "about " and six certain figures
   in the unit of STYLE (may be NULL).  DIMENSION: BR_LENGTH (X in inches) or BR_PLAIN.  BITS as for
   br_real_write_decimal.  */
br_status br__put_about (br_text *text, const br_real *x, br_dimension dimension,
                         const br_style *style, unsigned bits);

#endif
