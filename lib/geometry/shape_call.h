/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_call.h - the functions that the hidden formulas of shapes call.  */
#ifndef BR_GEOMETRY_SHAPE_CALL_H
#define BR_GEOMETRY_SHAPE_CALL_H

#include "formula/functions.h"

typedef enum br__shape_call
{
  BR__CALL_LENGTH, BR__CALL_DIAMETER, BR__CALL_WIDTH, BR__CALL_HEIGHT, BR__CALL_RADIUS, BR__CALL_THICKNESS,
  BR__CALL_ANGLE, BR__CALL_TURN, BR__CALL_FENDER, BR__CALL_REACH, BR__CALL_CLEAR, BR__CALL_CLEAR_ARC,
  BR__CALL_RUN, BR__CALL_CUT, BR__CALL_RISE, BR__CALL_CORNERS, BR__CALL_BOX_CORNERS,
  BR__CALL_OUTLINE_RIGHT, BR__CALL_OUTLINE_TOP, BR__CALL_OUTLINE_LEFT, BR__CALL_OUTLINE_BOTTOM,
  BR__CALL_OUTLINE_MIDDLE_X, BR__CALL_OUTLINE_MIDDLE_Y, BR__CALL_OUTLINE_AREA, BR__CALL_OUTLINE_PERIMETER,
  BR__CALL_AREA, BR__CALL_PERIMETER,
  BR__CALL_DEPTH, BR__CALL_TRACK, BR__CALL_BETWEEN, BR__CALL_APART, BR__CALL_APART_BOTH,
  BR__CALL_COUNT, BR__CALL_STEP, BR__CALL_PLACES, BR__CALL_RIM, BR__CALL_ROW_LOW, BR__CALL_ROW_HIGH
} br__shape_call;

const br__function *br__shape_function (br__shape_call call);

/* shape_measure.c */
br_status br__call_corners (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
br_status br__call_outline (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
br_status br__call_extent (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
/* shape_places.c: what rows and mirrors are made of.  */
br_status br__call_count (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
br_status br__call_places (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
br_status br__call_row_reach (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
/* The least distance of all figures of the one and the other; SELF gives that of two.  */
br_status br__call_clear_places (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);

br_status br__call_clear_paths (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);

/* depth_call.c */
/* Z = how far two are apart in depth, below zero where they overlap: ARGS are the middle and the depth of one and of the
   other.  BOTH: one or both of them are there on both sides, and lie as far on the one as on the other.  */
br_status br__depth_gap (br__work *w, br__value *z, const br__value *args, int both);
br_status br__call_track (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);
br_status br__call_apart (br__work *w, br__value *z, br__value *args, unsigned count, const br__function *self);

#endif
