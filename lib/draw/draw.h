/* SPDX-License-Identifier: LGPL-3.0-or-later
   draw.h - between the statement draw and its answer.  */
#ifndef BR_DRAW_DRAW_H
#define BR_DRAW_DRAW_H

#include "draw/drawing.h"
#include "draw/views.h"
#include "wood/cuts.h"

typedef struct br__drawing
{
  char *layer, *of;             /* or NULL: all */
  char *path;                   /* or NULL: shown in the terminal */
  size_t path_start, path_end;  /* its place in the line */
  int of_sheet;                 /* the scale is the sheet's */
  int scaled;                   /* RATIO was asked for */
  int bare;                     /* outlines alone */
  br_number ratio;
  br_number grid;               /* inches; 0: the sheet's */
  const br__paper *paper;       /* or NULL: the sheet's */
  int landscape;
  br__paperwork w;
  br__seen_from from;           /* BR__ALL_VIEWS: the side, the view from above and the front */
  br__seen seen[2];             /* from above, and from the front */
  br__side_view view, other[2]; /* all views: VIEW is the side */
  int parts;                    /* each part by itself; no view */
  const br__wood_list *wood;    /* of PARTS, once they are drawn; borrowed */
  br__plot figure;
  br__draw_result found;
  size_t pages;
} br__drawing;

/* draw_read.c: what the statement asks for.  D is zeroed before.  */
br_status br__drawing_read (br__drawing *d, br__run *run);

/* draw_record.c: the record `drawing`.  */
br_status br__drawing_emit (const br__drawing *d, br__run *run);
/* What it calls the view.  */
extern const char *const br__view_names[];

/* draw.c: whether FULL, at full size, can fit at ROW into ROOM.  */
int br__may_fit (const br__scale_row *row, br__area full, br__area room);
/* parts.c: each part at one scale, once the statement is read; and rows of a record for what belongs to it.  */
br_status br__draw_parts (br__drawing *d, br__run *run);
br_status br__put_part_rows (br_list *rows, br__run *run, const br__wood_list *wood);
/* statements.c: ends with a row without a word.  */
extern const br__statement br__draw_statements[];
br_status br__do_template (br__run *run);
br_status br__do_draw (br__run *run);
br_status br__do_fit (br__run *run);

#endif
