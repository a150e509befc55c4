/* SPDX-License-Identifier: LGPL-3.0-or-later
   paper.h - sheets of paper, and the largest standard scale at which something fits on one.  */
#ifndef BR_SHOP_PAPER_H
#define BR_SHOP_PAPER_H

#include "benchrule.h"

/* Sizes and margins as fractions of an inch, the sheet upright: the long side is the height.  */
typedef struct br__paper
{
  const char *name;
  const char *shown;    /* how it is written for people */
  int64_t width_num, width_den, height_num, height_den;
  const char *source;
} br__paper;

extern const br__paper br__papers[];
extern const size_t br__paper_count;

/* NULL if there is none of that name (small or capital letters).  */
const br__paper *br__paper_find (const char *name, size_t length);

/* A standard scale, drawn to full.  */
typedef struct br__scale_row
{
  int64_t drawn, full;
  const char *words;    /* "3 in = 1 ft", or NULL for an ISO scale */
} br__scale_row;

/* ISO 5455 scales and customary inch scales, the largest first; NULL past the last.  INCH leaves the
   customary ones in.  */
const br__scale_row *br__scale_at (size_t index, int inch);
/* 1 where drawings in inches (INCH) or millimetres are made at ROW: a ruler in inches has no fifths and tenths, so that 1:4, 1:8
   and 1:16 come before 1:5 and 1:10 (ASME Y14.1 lists inch scales so; from memory).  */
int br__scale_is_usual (const br__scale_row *row, int inch);

/* Whether WIDTH by HEIGHT, drawn at ROW, goes into ROOM_WIDTH by ROOM_HEIGHT, line to line.  Inches.  */
br_status br__scale_fits (int *fits, const br__scale_row *row, const br_real *width,
                          const br_real *height, const br_number *room_width,
                          const br_number *room_height, unsigned bits);

#endif
