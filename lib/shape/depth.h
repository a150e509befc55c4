/* SPDX-License-Identifier: LGPL-3.0-or-later
   depth.h - the depth of a shape, its position in depth, and overlaps in all three directions.  */
#ifndef BR_SHAPE_DEPTH_H
#define BR_SHAPE_DEPTH_H

#include "shape/shape.h"

/* depth.c: `deep D ...` or `behind SHAPE` at hand; *FOUND is 1 if there was one.  */
br_status br__depth_read (br__run *run, br__shape_draft *d, br__shape *s, int *found);
/* 1 if the shape has its number PART, which is BR__SHAPE_Z or later; and its formula.  */
int br__depth_has (const br__shape_draft *d, int part);
void br__put_depth_number (br__maker *m, const br__shape_draft *d, int part);

/* The shape whose depth S has: a row or a mirror that has none of its own has that of the shape that it copies.  */
const br__shape *br__depth_source (const br_sheet *sheet, const br__shape *s);
const br__value *br__depth_of (const br_sheet *sheet, const br__shape *s);
/* The middle of a shape that has a depth, in depth; of what is there on both sides, that of the nearer one.  NULL while it
   waits.  */
const br__value *br__depth_middle (const br_sheet *sheet, const br__shape *s);
/* The two ends of its depth, NEAR and FAR from the viewer of the side view; *KNOWN is 0 if it has no depth or waits.  */
br_status br__depth_ends (br__value *near, br__value *far, int *known, const br_sheet *sheet, const br__shape *s);

/* ", 3/4" deep", and ", on both sides, 7" over the outsides".  */
br_status br__put_depth_size (br_text *t, const br_sheet *sheet, const br__shape *s);
br_status br__put_depth_place (br_text *t, const br_sheet *sheet, const br__shape *s);
br_status br__put_depth_fields (br_record *r, const br_sheet *sheet, const br__shape *s);

/* rubs.c: the field `along` of the record `clear`: A and B, which may be NULL, are APART.  */
br_status br__put_clear_along (br_record *r, const br_sheet *sheet, const br__shape *a, const br__shape *b, const br__value *apart);
/* The shapes that take up the same room.  */
br_status br__tell_rubs (br__run *run);
/* axle.c: a caution for wheels on both sides that lie where no axle_length of the sheet has them.  */
br_status br__tell_axles (br__run *run);

#endif
