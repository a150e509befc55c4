/* SPDX-License-Identifier: LGPL-3.0-or-later
   closed_edge.h - the edge of a shape as it lies on a page: what lies inside, and where another stroke meets it.  Arcs stay
   arcs, so that a shape that touches another from inside is inside all the way round.  It only says where a stroke changes
   its look; doubles of billionths of an inch will do.  */
#ifndef BR_VIEW_CLOSED_EDGE_H
#define BR_VIEW_CLOSED_EDGE_H

#include "plot/plot.h"

/* To either side of a stroke, in billionths of an inch: more than what rounding to billionths comes to, and so little that what
   touches another from inside is not seen around the place where it does.  */
#define BR__BESIDE 200.0

typedef struct br__page_point
{
  double x, y;
} br__page_point;

/* A straight stroke, where S is the step to its end, or an arc.  */
typedef struct br__stroke
{
  const br__path_step *s;
  int64_t x, y, x2, y2;         /* of a straight one */
} br__stroke;

/* The place of K at T, 0 to 1.  */
br__page_point br__stroke_at (const br__stroke *k, double t);
/* The place of the arc S at that angle.  */
br__page_point br__on_arc (const br__path_step *s, double degrees);

/* A piece of an edge that only rises or only falls.  */
typedef struct br__edge_piece
{
  br__page_point from, to, centre;    /* the last of an arc */
  double r;                     /* 0: straight; under 0: the left half of its circle */
} br__edge_piece;

typedef struct br__closed_edge
{
  br__edge_piece *rows;
  size_t count, room;
  int failed;                   /* memory ran out */
} br__closed_edge;

/* Adds the steps of INK, a closed outline.  */
void br__closed_edge_add (br__closed_edge *e, const br__ink *ink);
int br__closed_edge_holds (const br__closed_edge *e, br__page_point at);
/* Where K, carried on at both ends, meets piece I of E, carried on too: T gets the places, of an arc from 0 to 360 degrees
   behind its beginning; the count.  */
int br__closed_edge_meets (double t[2], const br__closed_edge *e, size_t i, const br__stroke *k);

#endif
