/* SPDX-License-Identifier: LGPL-3.0-or-later
   stock.h - the actual sizes of wood that is sold by a nominal size.  */
#ifndef BR_SHOP_STOCK_H
#define BR_SHOP_STOCK_H

#include "benchrule.h"

typedef enum br__nominal_kind
{
  BR__ACTUAL,           /* the sizes are what they say */
  BR__LUMBER,           /* softwood, surfaced dry: 2x4 */
  BR__PLYWOOD,          /* sanded panels: 3/4 */
  BR__HARDWOOD          /* surfaced two sides: 4/4 */
} br__nominal_kind;

/* Where the sizes of KIND are from, for help and answers.  */
const char *br__nominal_source (br__nominal_kind kind);

/* Inches.  BR_DOMAIN: no such nominal size.  Softwood of nominal THICKNESS by WIDTH, in whole inches, the
   smaller first or not.  */
br_status br__nominal_lumber (br_number *thickness, br_number *width, int64_t nominal_thickness,
                              int64_t nominal_width);
/* The thickness of a panel or of hardwood that is sold as NOMINAL.  */
br_status br__nominal_thickness (br_number *thickness, br__nominal_kind kind, const br_number *nominal);
/* The nominal thicknesses of KIND in words, "1/4, 3/8 ...".  */
const char *br__nominal_list (br__nominal_kind kind);

#endif
