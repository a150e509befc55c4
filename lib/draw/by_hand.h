/* SPDX-License-Identifier: LGPL-3.0-or-later
   by_hand.h - dimensions and notes that a person asked for, on the figure.  */
#ifndef BR_DRAW_BY_HAND_H
#define BR_DRAW_BY_HAND_H

#include "draw/dimension_line.h"
#include "plot/ink_map.h"
#include "shape/annotation.h"

/* The annotation A as a line of one direction: ROW, not yet placed, and its TEXT.  *FOUND is 0 where it is none of V, or of the
   other direction.  */
br_status br__hand_row (int *found, br__size_line *row, br_text *text, br__run *run, const br__side_view *v,
                        const br__annotation *a, int upright);
/* How far notes, and dimensions along two points, reach; in places of V.  */
br_status br__hand_reach (br__area *reach, br__run *run, const br__side_view *v);
/* Puts them on the page inside WITHIN, off the strokes that P holds.  *LEFT_OUT counts dimensions and notes that found no room,
   UNPLACED gets these in words, a line each.  */
br_status br__hand_plot (br__plot *p, size_t *left_out, br_text *unplaced, br__run *run, const br__view_at *f, br__area within);

/* The shape NAME of V, which is tied down, or NULL.  */
const br__drawn *br__drawn_called (const br__side_view *v, const char *name);

/* note_place.c: where the note A begins, on paper; *FOUND is 0 while it waits.  */
br_status br__note_place (int *found, int64_t at[2], br__run *run, const br__side_view *v, const br__annotation *a);
/* The room of its text that begins at X Y.  */
br__area br__note_area (int64_t x, int64_t y, const br__annotation *a);
/* 0: it, or its leader, found no room.  */
int br__note_put (br__plot *p, br__ink_map *m, const br__annotation *a, const br__view_at *f, const int64_t at[2]);

/* dimension_line.c: where extension lines begin at a side of S, for each bank.  */
void br__side_feature (int64_t feature[BR__BANKS], const br__drawn *s, int upright, int far);

/* label.c.  A point of an outline and the way out of it, a unit in billionths; on the page.  The outline is THICK there.  */
#define BR__MOST_ANCHORS 256
typedef struct br__anchor
{
  int64_t x, y, out_x, out_y, thick;
} br__anchor;

typedef struct br__anchors
{
  const br__side_view *view;
  int directions;               /* how many are tried */
  br__anchor rows[BR__MOST_ANCHORS];
  size_t count;
} br__anchors;

/* Of D, one of the view.  */
void br__anchors_find (br__anchors *a, const br__drawn *d, int64_t left, int64_t top);

#endif
