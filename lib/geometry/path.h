/* SPDX-License-Identifier: LGPL-3.0-or-later
   path.h - the edge of a shape as straight pieces and arcs: where a point lies, whether two overlap, how far they
   are apart.  */
#ifndef BR_GEOMETRY_PATH_H
#define BR_GEOMETRY_PATH_H

#include "geometry/geometry.h"

/* An arc turns by less than 180 degrees around CENTRE, to the left (anticlockwise) where TURN is 1, to the right where
   it is -1.  TURN 0: straight.  */
typedef struct br__path_piece
{
  br__point from, to, centre;
  const br_real *radius;
  int turn;
} br__path_piece;

/* Pieces of one closed loop or of several; SIDE is 1 where the inside lies to their left, -1 to the right, 0 where a
   line or a curve has none.  */
typedef struct br__path
{
  const br__path_piece *pieces;
  size_t count;
  int side;
} br__path;

/* In a row of values a piece is BR__PIECE_NUMBERS: from, to, centre, radius (below zero where it turns right, 0 where it
   is straight).  */

/* 1: the direction V from its centre meets the arc A, its ends included.  */
int br__arc_faces (br__pad *g, const br__path_piece *a, br__point v);
/* 1: P lies inside, 0: on the edge, *ON gets the piece; -1: outside.  */
int br__path_holds (const br__path_piece **on, br__pad *g, const br__path *path, br__point p);
/* 1 where the insides of two have a point in common, or a curve goes into the inside of the other.  */
int br__paths_overlap (br__pad *g, const br__path *p, const br__path *q);
/* The same for the first two of PATHS, of which only the area outside of the other PATHS counts, which are holes.  */
int br__paths_share (br__pad *g, const br__path *paths, size_t count);
/* As br__figure_distance.  */
const br_real *br__path_distance (br__pad *g, const br__path *p, const br__path *q);
/* 1 where A and B, which are not neighbours, have a point in common.  */
int br__pieces_meet (br__pad *g, const br__path_piece *a, const br__path_piece *b);
/* 1 where A and B, of which one begins where the other ends, have another point in common.  */
int br__neighbours_meet (br__pad *g, const br__path_piece *a, const br__path_piece *b);

#endif
