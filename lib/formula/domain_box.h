/* SPDX-License-Identifier: LGPL-3.0-or-later
   domain_box.h - shared by domain_box.c and domain_slope.c.  ROOM of the enclosure holds temporary values; it also
   records that an operation has no value.  */
#ifndef BR_FORMULA_DOMAIN_BOX_H
#define BR_FORMULA_DOMAIN_BOX_H

#include "formula/program.h"

/* Z = X / Y.  */
void br__box_divide (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y);
/* Z = X to the power N / D.  */
void br__box_power (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, int64_t n, int64_t d);
/* Sine, cosine and tangent of degrees, and the angle of a tangent.  */
void br__box_circle (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, br__opcode op);

#endif
