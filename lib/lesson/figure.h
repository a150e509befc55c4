/* SPDX-License-Identifier: LGPL-3.0-or-later
   figure.h - the drawing beside a problem: lines, circles and sizes, true in proportion, the same for every writer.  */
#ifndef BR_LESSON_FIGURE_H
#define BR_LESSON_FIGURE_H

#include "benchrule_sheet.h"
#include "lesson/sentences.h"
#include "lesson/worksheet.h"

#define BR__MOST_STROKES 60
#define BR__MOST_LABELS 8

/* Units of a page, y downward.  */
typedef struct br__figure
{
  struct { int32_t x0, y0, x1, y1; int dashed; } lines[BR__MOST_STROKES];
  struct { int32_t x, y, radius; } circles[4];
  struct { int32_t x, y; br_align align; char text[48]; } labels[BR__MOST_LABELS];      /* Y is the upper edge */
  size_t line_count, circle_count, label_count;
  int32_t width, height;
  int32_t size;                 /* of the labels' letters */
} br__figure;

/* 1 if P has one.  */
int br__has_figure (const br__problem *p);
/* The figure of P with letters of SIZE; PLAIN: those of a fraction are as large as others.  */
void br__figure_make (br__figure *f, const br__problem *p, int32_t size, int plain);
/* What it shows, in words; of a ruler, too.  */
void br__put_picture (br_text *t, const br__problem *p, const br__sentences *words);
/* As a picture in HTML, that in words beside it.  */
void br__figure_svg (br_text *t, const br__problem *p, const br__sentences *words, int32_t size);

#endif
