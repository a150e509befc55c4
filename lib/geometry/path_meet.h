/* SPDX-License-Identifier: LGPL-3.0-or-later
   path_meet.h - where pieces of paths meet: between the files that work on paths.  */
#ifndef BR_GEOMETRY_PATH_MEET_H
#define BR_GEOMETRY_PATH_MEET_H

#include "geometry/path.h"
#include "geometry/strip.h"

typedef struct br__meeting
{
  br__point at[4];
  size_t count;
} br__meeting;

/* Points of both; where they share a stretch, its ends.  */
void br__pieces_meeting (br__meeting *m, br__pad *g, const br__path_piece *a, const br__path_piece *b);

typedef struct br__bounds
{
  const br_real *left, *right, *low, *high;
} br__bounds;

/* Around a piece, of an arc around the tangents of its ends as well.  */
void br__bounds_of_piece (br__bounds *b, br__pad *g, const br__path_piece *a);
/* 1 where upright rectangles around both have a point in common.  */
int br__boxes_touch (br__pad *g, const br__path_piece *a, const br__path_piece *b);

#endif
