/* SPDX-License-Identifier: LGPL-3.0-or-later
   canvas.h - a picture in characters: two by four dots a character, so that a dot is about as high as it is wide.  */
#ifndef BR_PLOT_CANVAS_H
#define BR_PLOT_CANVAS_H

#include "plot/plot.h"

#define BR__CELL_WIDE 2
#define BR__CELL_HIGH 4

typedef struct br__canvas
{
  unsigned char *cells;         /* the dots of each character, as a pattern of braille (Unicode, U+2800) */
  char *marks;                  /* a letter that stands there instead, or 0 */
  size_t columns, lines;
  int64_t left, top;            /* the place of the upper left dot; y upward */
  int64_t unit;                 /* from one dot to the next */
} br__canvas;

#define BR__CANVAS_ZERO { NULL, NULL, 0, 0, 0, 0, 0 }

/* Room for REACH in at most COLUMNS and LINES characters, at the same scale both ways.  */
br_status br__canvas_open (br__canvas *c, br__area reach, size_t columns, size_t lines);
void br__canvas_clear (br__canvas *c);
/* The character at a place; 0 where that lies outside.  */
int br__canvas_cell (size_t *cell, const br__canvas *c, int64_t x, int64_t y);

/* GONE: there is nothing that it bounds.  */
typedef enum br__edge_state { BR__EDGE_SEEN, BR__EDGE_HIDDEN, BR__EDGE_GONE } br__edge_state;

/* A pen that walks over it.  */
typedef struct br__stylus
{
  br__canvas *canvas;
  int dashed;
  br__edge_state (*state) (const void *of, int64_t x, int64_t y, int64_t near);         /* of the edge that it walks along, there or so near */
  const void *of;
  int hides;                    /* some of it was hidden */
  unsigned walked;              /* dots so far */
  int64_t x, y;
  size_t column, row;           /* the last dot */
} br__stylus;

void br__stylus_to (br__stylus *s, int64_t x, int64_t y);
/* To the beginning of an arc, from its end on no dot is missing; angles in billionths of a degree.  */
void br__stylus_arc (br__stylus *s, int64_t x, int64_t y, int64_t r, int64_t from, int64_t turn);

/* Line I as text, without blanks at its end: in braille, or in plain characters that look as its dots do.  */
void br__canvas_line (br_text *t, const br__canvas *c, size_t i, int dots);

#endif
