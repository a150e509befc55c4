/* SPDX-License-Identifier: LGPL-3.0-or-later
   strip.h - a bent strip, the area between two circles and two rays, such as a fender: helpers to compute its distance and
   its overlap.  */
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

/* strip_overlap.c.  T[]: where the line FROM_CENTRE + T D meets the circle of RADIUS; how many.  */
size_t br__line_circle (const br_real *t[2], br__pad *g, br__point from_centre, br__point d, const br_real *radius);
/* Where the radical line of two circles, on which they meet, meets the line of their centres: the circle of
   RADIUS around P, and that of T around P and W, which is not P.  */
br__point br__radical_foot (br__pad *g, br__point p, const br_real *radius, br__point w, const br_real *t);
/* A direction between A and B, anticlockwise; NARROW if that is less than a quarter turn.  It is a rational point of the unit
   circle, ((1 - tt) / (1 + tt), 2t / (1 + tt)), so that computing with it needs no roots.  */
br__point br__direction_between (br__pad *g, br__point a, br__point b, int narrow);
/* 1 if an edge of S goes into Q, which is a box or another strip with another centre.  */
int br__strip_enters (br__pad *g, const br__strip *s, const br__area *q);
/* 1 if the segment from A to B, with an area on the side of N of it, goes into the strip S.  ANGLE is its own, or
   NULL.  */
int br__segment_enters (br__pad *g, const br__strip *s, br__point a, br__point b, br__point n, const br_real *angle);

#endif
