/* SPDX-License-Identifier: LGPL-3.0-or-later
   fit.h - the paper of a sheet.  */
#ifndef BR_STATEMENT_FIT_H
#define BR_STATEMENT_FIT_H

#include "formula/settings.h"
#include "shop/paper.h"

/* The paper that was given, else letter, and A4 where units are metric.  */
const br__paper *br__settings_paper (const br__settings *s);
/* Its margin in inches, and how that is written: as given, else 1/2 in, and 10 mm on ISO paper.  */
br_status br__settings_margin (br_number *margin, const br_unit **unit, const br__settings *s);

#endif
