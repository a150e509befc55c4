/* SPDX-License-Identifier: LGPL-3.0-or-later
   strip.h - a bent strip, the area between two circles and two rays, such as a fender: what its distance and
   its overlap are worked out from.  */
#ifndef BR_GEOMETRY_STRIP_H
#define BR_GEOMETRY_STRIP_H

#include "geometry/geometry.h"

typedef struct br__strip
{
  br__point centre;
  const br_real *inner, *outer;
  int whole;                    /* a ring */
  int thin;                     /* a curve, with no area */
  int wide, narrow, straight;   /* turns more than 180 degrees; less than 90; 180 */
  const br_real *angle[3];      /* where it begins and ends, and its middle */
  br__point first, last;        /* the directions of its ends */
  br__point corner[4];          /* inner and outer where it begins, where it ends */
} br__strip;

/* 1: the direction V lies between the ends, 0: on an end, -1: outside.  */
int br__strip_faces (br__pad *g, const br__strip *s, br__point v);

typedef struct br__area
{
  const br__hull *hull;         /* where STRIP is NULL */
  const br__strip *strip;
} br__area;

/* strip_overlap.c: 1 if an edge of S goes into Q, which is a box or another strip with another centre.  */
int br__strip_enters (br__pad *g, const br__strip *s, const br__area *q);
/* 1 if the segment from A to B, with an area on the side of N of it, goes into the strip S.  ANGLE is its own, or
   NULL.  */
int br__segment_enters (br__pad *g, const br__strip *s, br__point a, br__point b, br__point n, const br_real *angle);

#endif
