/* SPDX-License-Identifier: LGPL-3.0-or-later
   through.h - the figures that a shape is made of, and which of them lie in holes.  */
#ifndef BR_SHAPE_THROUGH_H
#define BR_SHAPE_THROUGH_H

#include "geometry/geometry.h"
#include "geometry/sketch.h"
#include "shape/depth.h"

/* The figures that a shape is made of: of a row or a mirror, those in all of its places.  */
typedef struct br__figures
{
  const br__shape *source;      /* what each of them is */
  int mirrored;
  br__work work;
  br__sketch sketch;
  br__numbers numbers;          /* of the shape */
  br__places places;
} br__figures;

void br__figures_clear (br__figures *f);
/* BR_DOMAIN while S waits; F is to be cleared then, too.  */
br_status br__figures_of (br__figures *f, const br_sheet *sheet, const br__shape *s);
/* Z = the distance, as seen from the side, of two shapes with these numbers.  */
br_status br__side_distance (br__value *z, const br_sheet *sheet, const br__value *a, size_t a_count, const br__value *b, size_t b_count);

/* The holes of a sheet; COMPARED counts what is compared with them.  */
typedef struct br__holes
{
  const br_sheet *sheet;
  const br__shape **rows;
  size_t count, room, compared;
} br__holes;

br_status br__holes_add (br__holes *h, const br__shape *s);
/* The part that S belongs to: a row or a mirror that names none belongs where its shape does.  */
const char *br__part_of (const br_sheet *sheet, const br__shape *s);
/* 1 if S is the shape NAME, or a copy of it, or one of the part NAME: what that is cut as belongs to it, too.  */
int br__belongs_to (const br_sheet *sheet, const br__shape *s, const char *name);
/* *THROUGH is 1 if holes of WOOD take up, as deep as both reach, all that each figure of S has in common with it.  BR_UNDECIDED:
   where that cannot be told.  */
br_status br__goes_through (int *through, br__holes *h, const br__shape *s, const br__shape *wood);
/* *PIERCED is 1 if H, a hole without depth, or the figure of it with NUMBERS, goes through S.  */
br_status br__is_pierced (int *pierced, const br_sheet *sheet, const br__shape *s, const br__shape *h, const br__value *numbers);
/* rubs.c: 1 where a reach of A ends before B begins, for certain: most pairs are far apart.  */
br_status br__is_beside (int *beside, const br_sheet *sheet, const br__shape *a, const br__shape *b);
/* rubs.c: *PEG is 1 where S goes through HOLE and sticks out of it sideways: all that it has in common with broader wood lies in
   there.  */
br_status br__is_peg (int *peg, const br_sheet *sheet, const br__shape *s, const br__shape *hole);

#endif
