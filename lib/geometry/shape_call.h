/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_call.h - the functions that the hidden formulas of shapes call.  */
#ifndef BR_GEOMETRY_SHAPE_CALL_H
#define BR_GEOMETRY_SHAPE_CALL_H

#include "formula/functions.h"

typedef enum br__shape_call
{
  BR__CALL_LENGTH, BR__CALL_DIAMETER, BR__CALL_WIDTH, BR__CALL_HEIGHT, BR__CALL_RADIUS, BR__CALL_THICKNESS,
  BR__CALL_ANGLE, BR__CALL_TURN, BR__CALL_FENDER, BR__CALL_REACH, BR__CALL_CLEAR, BR__CALL_CLEAR_ARC,
  BR__CALL_RUN
} br__shape_call;

const br__function *br__shape_function (br__shape_call call);

#endif
