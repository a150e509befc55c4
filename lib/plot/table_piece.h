/* SPDX-License-Identifier: LGPL-3.0-or-later
   table_piece.h - the table of a figure in pieces, each where a sheet has free paper for it.  */
#ifndef BR_PLOT_TABLE_PIECE_H
#define BR_PLOT_TABLE_PIECE_H

#include "plot/plot.h"

/* A line of the table: what stands at one height, with the rules under it.  */
typedef struct br__table_line
{
  int64_t at, top, bottom, right;
  int heads;                    /* what the columns are called */
  int row;                      /* cells side by side, under heads */
  int leads;                    /* to what is below it, as heads and captions do */
} br__table_line;

typedef struct br__table_piece
{
  const br__plot *figure;       /* borrowed */
  br__table_line *lines;
  size_t count, next;           /* the first so many have their place */
  int64_t left;
} br__table_piece;

/* The table of FIGURE, which has one, as a whole.  0: out of memory, as below; T is to be closed then, too.  */
int br__table_open (br__table_piece *t, const br__plot *figure);
void br__table_close (br__table_piece *t);
/* As much of what is left as finds free paper on PAGE inside ROOM goes there, in one piece or several; OFF_FACE: none on the face of
   the part.  */
int br__table_squeeze (br__table_piece *t, br__plot *page, br__area room, int off_face);
/* The same on a blank PAGE; a line at the least.  */
int br__table_fill (br__table_piece *t, br__plot *page, br__area room);

#endif
