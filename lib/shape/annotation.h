/* SPDX-License-Identifier: LGPL-3.0-or-later
   annotation.h - annotations of drawings: dimensions, notes, and shapes that get no automatic dimensions.  */
#ifndef BR_SHAPE_ANNOTATION_H
#define BR_SHAPE_ANNOTATION_H

#include "shape/shape.h"

/* Bytes of a text on the drawing.  */
#define BR__MOST_NOTE 200

typedef enum br__annotation_kind { BR__DIMENSION_LINE, BR__NOTE, BR__UNMEASURED } br__annotation_kind;
/* By the distance of two points where none is asked for: level where they are at one height, upright where one is over the
   other, else along.  */
typedef enum br__way { BR__ANY_WAY, BR__LEVEL, BR__UPRIGHT, BR__ALONG } br__way;

/* A corner, a centre, a side or an end of a shape.  Across (0) and up (1): its place is the shape's and its number PART, or half
   of its run back (HALF -1) or on (1).  A side has a place one way alone: NONE the other way.  */
typedef struct br__spot
{
  char *shape;
  int part[2], none[2], half;
} br__spot;

typedef struct br__annotation
{
  struct br__annotation *next;
  /* Of the first that was given about something: the first about something else with its hash, and which of those about it holds, by
     its way, or NULL.  A search so passes none that were taken back.  */
  struct br__annotation *alike, *holds[BR__ALONG];
  int active;                   /* not undone, removed or replaced */
  br__annotation_kind kind;
  unsigned long number;         /* names its entries */
  br__line *line;
  br__spot from, to;            /* of a dimension */
  br__way way;
  char *words;                  /* "centre(front) to centre(rear)" */
  char *text;                   /* of a note; of a dimension: the text instead of its number, or NULL */
  char *shape;                  /* that gets none; that a note points to, or NULL */
  int off;                      /* it has a distance from the figure */
} br__annotation;

/* Numbers of an annotation: from one point to the other, or the place of a note; how far off it is.  */
enum { BR__DRAWN_X, BR__DRAWN_Y, BR__DRAWN_OFF, BR__DRAWN_NUMBERS };

/* Number PART of A, or NULL while it waits.  */
const br__value *br__annotation_value (const br_sheet *sheet, const br__annotation *a, int part);
/* The formula of it, or NULL where A has no such number.  */
const br__definition *br__annotation_definition (const br_sheet *sheet, const br__annotation *a, int part);
/* 1 where A, a dimension that goes that WAY without being told to, stands beside one of the same points that is.  */
int br__is_said_by_another (const br_sheet *sheet, const br__annotation *a, br__way way);
/* 1 if SHAPE must not get automatic dimensions.  */
int br__is_unmeasured (const br_sheet *sheet, const char *shape);
void br__annotation_free (br__annotation *a);
void br__annotations_free (br_sheet *sheet);

/* annotation_read.c: parse parts of the current line.  */
br_status br__spot_read (br__spot *spot, br__run *run);
/* FROM to TO.  */
br_status br__spots_read (br__annotation *a, br__run *run);
/* `level`, `upright` or `along`, if one stands there.  */
br_status br__way_read (br__annotation *a, br__run *run);
/* A dimension up to the end of the line; OFF gets its distance.  */
br_status br__dimension_read (br__annotation *a, br__tree *off, br__run *run);
/* The offset behind the text in quotation marks that begins at START, blanks aside; START where there is none.  */
size_t br__quoted_end (const char *text, size_t length, size_t start);
/* "TEXT", where the line is a note; the token at hand is then the one behind it.  */
br_status br__note_text_read (char **text, br__run *run);
/* The `at` behind it.  */
void br__note_at_read (br__run *run);

/* annotation_show.c */
br_status br__annotation_show (br__run *run, const br__annotation *a);
/* The distance that A measures: *V, and the way that it is measured.  BR_UNDECIDED: it waits.  */
br_status br__annotation_distance (br__value *v, br__way *way, const br_sheet *sheet, const br__annotation *a);

#endif
