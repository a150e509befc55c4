/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_table.h - what the figure does not say of sizes and places, as rows of a table.  */
#ifndef BR_DRAW_PLACE_TABLE_H
#define BR_DRAW_PLACE_TABLE_H

#include "draw/drawing.h"

enum { BR__PLACE_DIMENSION, BR__PLACE_OF, BR__PLACE_FROM, BR__PLACE_COLUMNS };

/* Bytes of a cell of several shapes, where columns are to be narrow.  */
#define BR__PLACE_SHORT 27

typedef struct br__place_row
{
  char *cell[BR__PLACE_COLUMNS];
} br__place_row;

typedef struct br__place_table
{
  br__place_row *rows;
  size_t count, room;
  int airy;                     /* its lines stand farther apart */
} br__place_table;

void br__place_table_clear (br__place_table *t);
/* T: what dimension lines on the figure of F that found room do not say of its view, which has a datum.  T is cleared first.  A cell
   of several shapes has LONGEST bytes at most.  POINTS: both places of a point are in one row.  */
br_status br__place_table_make (br__place_table *t, br__run *run, const br__view_at *f, size_t longest, int points);

/* Takes the three texts over.  */
br_status br__place_row_add (br__place_table *t, br_text cells[BR__PLACE_COLUMNS]);
/* place_corner.c: the corners of the outline D.  */
br_status br__place_corners (br__place_table *t, br__run *run, const br__drawn *d);
/* Where the ends of the arc D are.  */
br_status br__place_angles (br__place_table *t, br__run *run, const br__drawn *d);
/* The row or mirror S, from the DATUM across.  */
br_status br__place_copies (br__place_table *t, br__run *run, const br__shape *s, const br_real *datum);

#endif
