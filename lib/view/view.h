/* SPDX-License-Identifier: LGPL-3.0-or-later
   view.h - the shapes of a sheet as they are seen from one side, at a scale, before anything is written beside them.  */
#ifndef BR_VIEW_VIEW_H
#define BR_VIEW_VIEW_H

#include "plot/canvas.h"
#include "shape/shape.h"

/* A piece of the edge of an outline; TURN 0: straight.  */
typedef struct br__drawn_piece
{
  int64_t x, y, x2, y2, centre_x, centre_y, radius;
  int64_t from, turn;           /* billionths of a degree, anticlockwise */
  char size[32];                /* "R 1/2" of an arc, "cut 1/2 x 1/4" of a corner that is cut; "": neither, or too long to stand on a figure */
} br__drawn_piece;

/* From where to where a shape goes in depth.  */
typedef struct br__drawn_span
{
  int64_t near, far;
} br__drawn_span;

#define BR__NO_PROFILE INT64_MIN

/* Between which places along the view pieces of a profile lie, and how near they come.  */
typedef struct br__profile_block
{
  int64_t low, high, near;
} br__profile_block;

/* side.c: a shape on paper, y still upward, before it is set on the page.  */
typedef struct br__drawn
{
  const br__shape *shape;
  int tied;                     /* else sizes or place are made up, and it is dashed */
  int64_t x, y, a, b, c, d;     /* as in br__figure; angles in billionths of a degree */
  br__area reach;               /* y upward: y is the lower side */
  br__drawn_piece *pieces;      /* of an outline that is tied; x y a b are as of a box around it */
  size_t piece_count;
  int in_order;                 /* it is known how near it is to whoever looks */
  int64_t near, far;            /* its face, in the side view; in others, of its profile the nearest and the farthest place */
  br__drawn_span spans[2];      /* in the side view: two where both sides have it, none of a hole that goes all through */
  int span_count;
  int64_t *profile;             /* in others: pairs of a place along the view and how near the edge is there, or NO_PROFILE between two
                                   pieces of it; its own */
  size_t profile_count;
  struct br__profile_block *blocks;     /* profile.c: of the profile; its own */
  int64_t *bends;               /* in others: pairs as of the profile, for each line across the view that a corner of it, or a curve where it
                                   turns back, shows as; its own */
  size_t bend_count;
  int flat;                     /* all of the profile that shows is as near */
  int hole;                     /* of the shape that a box of another view stands for */
  int in_wood;                  /* in the side view: a hole that takes wood away, so that the whole reaches no farther */
  int open;                     /* in the side view: of wood, a hole in it goes beyond its edge; in others: of a hole, it does and goes all
                                   through, so that the wood shows its walls */
  struct br__drawn *copies;     /* of a row or a mirror: its figures, but for those that the copied shape draws itself; x y a b
                                   are as of a box around all */
  size_t copy_count;
  char *label;                  /* its name, and what it waits for where it is not tied */
  int named;                    /* of a hole of a part: the label begins with its name, as the table has it */
  int unlabelled;               /* it found no room */
  int unmeasured;               /* no dimension but what is asked for */
  int through;                  /* a hole that goes all through, seen across: it has its name where it is round */
  size_t balloon;               /* a number on the figure in its stead, or 0 */
  int untied;                   /* the first try to label the figure that found room for neither, from 1 on; 0: each had */
} br__drawn;

/* What a hole of the side view goes through.  */
typedef struct br__opening
{
  br__drawn *hole, *wood;       /* of the view's shapes */
  int cuts;                     /* the hole says whose it is: where it goes beyond the edge, that is gone */
} br__opening;

/* The point that places are measured from.  */
typedef struct br__datum
{
  int given;                    /* by the sheet; else it is the lower left corner of all that is tied down */
  int found;                    /* 0: nothing is tied down */
  br_real at[2];                /* in inches */
  int64_t place[2];             /* on paper, as a place of the view */
} br__datum;

typedef struct br__side_view
{
  br__drawn *shapes;
  size_t count;
  size_t loose;                 /* of them are not tied down */
  br__opening *openings;
  size_t opening_count, opening_room;
  br__area reach;
  int upright_profiles;         /* profiles go along the height, not the width */
  br__datum datum;
  br_number ratio;              /* drawn to full */
  int bare;                     /* outlines alone, without their centres */
  int joined;                   /* what is too large for one sheet of paper goes on several */
  int tiers;                    /* of lengths on either side are no more than so many; 0: as many as there are */
  const struct br__side_view *beside;   /* on the same sheet, drawn before: a shape keeps its number, and no number is there twice */
  size_t numbered;              /* other figures on the sheet have the numbers up to this one */
  br_text unplaced;             /* dimensions and notes that were asked for and found no room, a line each: stand below the figure */
} br__side_view;

#define BR__VIEW_ZERO { .shapes = NULL }

void br__view_clear (br__side_view *v);
/* The shapes of the sheet (of LAYER or of the part OF alone where they are given) at RATIO drawn to full, NULL: full size.
   V is empty, or of the same sheet, which has not changed since, in another scale.  BR_DOMAIN: there is none.  */
br_status br__view_make (br__side_view *v, br__run *run, const br_number *ratio, const char *layer, const char *of);
/* Without the shapes that are not tied down.  */
void br__view_drop_loose (br__side_view *v);
/* Whether S is among them, which it is where the part OF is cut as it, too.  */
int br__is_drawn (const br_sheet *sheet, const br__shape *s, const char *layer, const char *of);
/* The figures that D is drawn as: those of a row or a mirror, or itself.  */
size_t br__drawn_figures (const br__drawn **first, const br__drawn *d);
/* The stroke of D, the last ink of P then.  */
void br__drawn_plot (br__plot *p, const br__drawn *d, int64_t left, int64_t top);
/* Strokes of the shapes, page y = TOP - y, page x = x + LEFT.  */
void br__view_plot (br__plot *p, const br__side_view *v, int64_t left, int64_t top);

/* A view on a page: its places go to X, Y as for br__view_plot.  */
typedef struct br__view_at
{
  const br__side_view *view;
  const struct br__size_lines *level, *upright;
  int64_t x, y;
  int airy;                     /* its table has more air between the lines */
} br__view_at;

/* datum.c: finds the datum of V, of which all else is known, or its lower left corner; marks that of F by a small circle; and
   makes V reach to one that was given.  */
br_status br__datum_find (br__side_view *v, const br_sheet *sheet, const br_number *ratio);
br_status br__datum_corner (br__side_view *v, const br_sheet *sheet);
void br__datum_clear (br__datum *d);
void br__datum_plot (br__plot *p, const br__view_at *f);
void br__datum_reach (br__side_view *v);

/* copies.c: the figures of D, a row or a mirror of which the reach is known, or all of them where the copied shape is not DRAWN.  */
br_status br__drawn_copies (br__drawn *d, const br_sheet *sheet, const br_number *ratio, int drawn);
/* outline_view.c: the pieces of LEGS.  */
br_status br__drawn_pieces (br__drawn *d, const br__legs *legs, const br_number *ratio, unsigned bits);
void br__drawn_box (br__drawn *d);
/* The pieces of D, of which the reach is known.  */
br_status br__drawn_outline (br__drawn *d, const br_sheet *sheet, const br_number *ratio);
/* Where D reaches as far as AT, up (UPRIGHT) or across: the other number of that place, the least of several, or the
   greatest where GREATEST.  */
int64_t br__outline_turn (const br__drawn *d, int upright, int greatest, int64_t at);
void br__outline_plot (br__plot *p, const br__drawn *d, const char *name, int64_t left, int64_t top);

/* outline_view.c: along the edge of D, an outline.  */
void br__outline_walk (br__stylus *s, const br__drawn *d);

/* label_size.c: what stands behind the name of a shape that is tied down: " ⌀ 3-1/2" of a circle ...  HELD: an end of the bar is
   the centre of a circle, so that its length is told between centres.  */
br_status br__put_label_size (br_text *t, const br_sheet *sheet, const br__shape *s, int held);
/* Number WHICH of corner I, less REACH where that is not 0.  */
br_status br__corner_number (br_real *z, const br_sheet *sheet, const br__shape *s, size_t i, int which, int reach);
/* The same behind WORD.  */
br_status br__tell_corner_number (br_text *t, const char *word, const br_sheet *sheet, const br__shape *s, size_t i, int which, int reach);
/* "3 across, 2 up"; "R 1/2" or "cut 1/2 x 1/4" of the corner; "rise 1/4" of the side up to it.  Nothing where there is
   none.  */
typedef enum br__corner_told { BR__TOLD_PLACE, BR__TOLD_CORNER, BR__TOLD_SIDE } br__corner_told;
br_status br__put_corner (br_text *t, const br_sheet *sheet, const br__shape *s, size_t i, br__corner_told what);

#endif
