/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood_left.h - what holes leave of wood.  */
#ifndef BR_VIEW_WOOD_LEFT_H
#define BR_VIEW_WOOD_LEFT_H

#include "view/closed_edge.h"
#include "view/view.h"

/* Adds the edge of D as br__view_plot has it; 0: memory ran out.  */
int br__drawn_edge (br__closed_edge *e, const br__drawn *d, int64_t left, int64_t top);

typedef struct br__left_edge
{
  br__closed_edge edge;
  const br__drawn *of;          /* whose edge this is */
  const br__drawn *wood;        /* that this is, or a hole in it */
  int hole;
  double x, y, x2, y2;          /* around it, on the page */
} br__left_edge;

/* To be zeroed before.  */
typedef struct br__wood_left
{
  br__left_edge *rows;
  size_t count, room;
  int failed;                   /* memory ran out */
} br__wood_left;

/* What the edge of OWN, a shape of V or one place of it, can lie at; no rows: that is neither wood with a hole open at its edge nor
   a hole in such wood.  */
void br__wood_left_find (br__wood_left *z, const br__side_view *v, const br__drawn *own, int64_t left, int64_t top);
/* The wood of O with HOLE, a place of that hole, and what else goes all through where that is.  */
void br__wood_left_in (br__wood_left *z, const br__side_view *v, const br__opening *o, const br__drawn *hole, int64_t left, int64_t top);
/* With nothing but HOLE in it, at 0, 0.  */
void br__wood_left_alone (br__wood_left *z, const br__opening *o, const br__drawn *hole);
/* 1 where AT lies in wood that is left.  */
int br__wood_left_at (const br__wood_left *z, br__page_point at);
/* 1 where wood that is left is so near to AT, or as near as an edge is to its sides; always where Z has no rows.  */
int br__wood_left_near (const br__wood_left *z, br__page_point at, double off);
/* hidden_line.c: the ink added last is the edge of D; becomes pieces where it is partly gone, as no wood is left there.  1 where some of it
   is.  */
int br__cut_away (br__plot *p, const br__wood_left *z, const br__drawn *d);
/* 1 where some of the edge of D, at 0, 0, is gone.  */
int br__wood_left_cuts (br__wood_left *z, const br__drawn *d);
void br__wood_left_clear (br__wood_left *z);

#endif
