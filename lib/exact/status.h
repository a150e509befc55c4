/* SPDX-License-Identifier: LGPL-3.0-or-later
   status.h - filling in errors.  */
#ifndef BR_EXACT_STATUS_H
#define BR_EXACT_STATUS_H

#include "benchrule.h"

/* Fills ERROR (may be NULL) and returns STATUS.  The hint becomes "".  Text that does not
   fit is cut at a character's border.  */
br_status br__fail (br_error *error, br_status status, size_t offset, size_t length,
                    const char *format, ...) __attribute__ ((format (printf, 5, 6)));
/* Adds what to write instead.  */
void br__hint (br_error *error, const char *format, ...) __attribute__ ((format (printf, 2, 3)));
/* The usual message for a STATUS that came without one ("out of memory", "a result past
   1,000,000 bits", "division by zero" is the caller's).  Returns STATUS.  */
br_status br__fail_plain (br_error *error, br_status status, size_t offset, size_t length);

#endif
