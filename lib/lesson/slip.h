/* SPDX-License-Identifier: LGPL-3.0-or-later
   slip.h - what each pupil gets back: a quarter of a page with what went wrong, and how the right way begins.  */
#ifndef BR_LESSON_SLIP_H
#define BR_LESSON_SLIP_H

#include "lesson/grade.h"

br_status br__slips_html (br_text *out, const br__class *c);
/* Straight to the file PATH.  */
br_status br__slips_pdf (const char *path, const br__class *c, br__run *run);

#endif
