/* SPDX-License-Identifier: LGPL-3.0-or-later
   picture.h - side views in plain characters, at most 78 columns by 16 lines, that go with
   an answer about a fender or two wheels.  To scale as far as characters are; what is too thin
   to see is drawn thicker, and the picture says so.  */
#ifndef BR_SHOP_PICTURE_H
#define BR_SHOP_PICTURE_H

#include "benchrule.h"
#include "exact/text.h"

/* Adds a wheel under its fender, with their numbers, to TEXT.  Lengths in inches, GAP may be
   below zero (overlap).  STYLE is how numbers are written, or NULL.  BR_DOMAIN: a diameter, a width
   or the fender's inner radius is not over zero.  */
br_status br__picture_fender (br_text *text, const br_number *wheel_dia, const br_number *gap,
                              const br_number *width, const br_style *style);

/* Adds two wheels on one floor with the daylight GAP between them, which is only written.
   BR_DOMAIN: a length is not over zero; BITS as for br_real_sign.  */
br_status br__picture_wheels (br_text *text, const br_number *wheelbase, const br_number *front_dia,
                              const br_number *rear_dia, const br_real *gap, const br_style *style,
                              unsigned bits);

#endif
