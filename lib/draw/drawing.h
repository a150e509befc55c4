/* SPDX-License-Identifier: LGPL-3.0-or-later
   drawing.h - the dimension lines of a view, and the paper that it stands on.  */
#ifndef BR_DRAW_DRAWING_H
#define BR_DRAW_DRAWING_H

#include "shop/paper.h"
#include "view/view.h"

/* dimension_line.c, dimension_place.c: dimension lines on two sides of the view: NEAR below it or to its left, FAR above it or
   to its right.  */
#define BR__MOST_TIERS 5
enum { BR__NEAR, BR__FAR, BR__BANKS };

typedef struct br__size_line
{
  int64_t from, to;             /* along the line, in places of the view, y upward */
  int64_t feature_from[BR__BANKS], feature_to[BR__BANKS];       /* where the extension lines begin, across it */
  unsigned in_the_way[BR__BANKS];       /* shapes that they would run through */
  const char *of, *to_of;       /* the shapes that it measures, borrowed, "": the datum; TO_OF is NULL for one alone */
  char *text;
  int overall;                  /* of the whole view */
  int worded;                   /* TEXT is no number */
  size_t steps;                 /* of so many equal ones, with a centre after each; 0: one */
  int64_t off;                  /* so far from the view at the least; below zero: on the other side; 0: anywhere */
  int far;                      /* its bank */
  int tier;                     /* from the view outward; -1: it found no room */
  int arrows_outside, outside;  /* arrows from outside; the text beside, too */
  int past;                     /* its text stands past the upper or right end of the view */
  int64_t text_at;              /* the middle of the text */
  int64_t low, high;            /* what it takes of its tier */
} br__size_line;

typedef struct br__size_lines
{
  br__size_line *rows;
  size_t count, room;
  size_t placed;                /* the first so many have found room */
  int upright;                  /* they measure heights */
  int above;                    /* texts stand above lines that are whole, not in a gap of them */
  int tiers[BR__BANKS], most;   /* no more than MOST of them, where it is not 0 */
  int64_t offset[BR__BANKS][BR__MOST_TIERS];    /* of the lines of each tier from the view */
  int64_t depth[BR__BANKS];     /* how far they reach from the view */
  int64_t before, after;        /* how far they reach past its ends, along them */
  size_t refused;               /* places that found no room and are left to the table */
  size_t left_out;              /* rows that found no room: those behind the placed ones */
  int elsewhere;                /* another view on the sheet measures this way */
  int marks;                    /* a number is the mark of a ruler, with ≈ */
} br__size_lines;

void br__size_lines_clear (br__size_lines *d);
/* What is to be measured of V, laid out.  D is cleared first.  */
br_status br__size_lines_make (br__size_lines *d, br__run *run, const br__side_view *v, int upright);
/* The view's places go to the page as for br__view_plot.  */
void br__size_lines_plot (br__plot *p, const br__size_lines *d, const br__side_view *v, int64_t left, int64_t top);
/* label.c.  Puts the labels of V where there is room inside WITHIN (a place of the page), off the strokes that P holds.
   Returns how many found none.  */
size_t br__labels_plot (br__plot *p, br__side_view *v, br__area within, int64_t left, int64_t top);

/* balloon.c.  The number of D in a view beside V, or 0; of no D: the highest of all.  */
size_t br__number_beside (const br__side_view *v, const br__drawn *d);
/* The highest number that has been given on its sheet once V has its own.  */
size_t br__highest_number (const br__side_view *v);
/* How many shapes of V from I on are told as one, "peg_1 to 6 ⌀ 1/2": the figure has none of their names, these follow one another
   as do the numbers of their balloons, and nothing else differs.  */
size_t br__alike_from (const br__side_view *v, size_t i);

/* place_plot.c.  Names that found no room, and a table of sizes and places that the dimension lines of F do not say, in ROOM, which it may
   leave downward.  *COUNT gets the rows, *HEIGHT what it takes, 0 where the figure says all.  */
br_status br__places_plot (br__plot *p, size_t *count, int64_t *height, br__run *run, const br__view_at *f, br__area room);

#define BR__MOST_NOTES 6
/* What stands on the paper beside the figure.  Texts are borrowed.  */
typedef struct br__paperwork
{
  const char *title, *date, *unit;      /* DATE may be "" */
  const char *what;             /* "side view", "template of deck" */
  char scale[80];               /* "quarter size, 1:4" */
  char square[80];              /* "1 square is 1 in", or "" */
  const char *paper;            /* its name */
  int metric;                   /* the printer is checked in millimetres */
  int64_t paper_width, paper_height, margin;
  int bare;                     /* no frame, no title block */
  const char *notes[BR__MOST_NOTES];    /* over the title block, on each sheet: up to the first NULL; borrowed */
  br_number ratio;              /* drawn to full */
  int64_t grid;                 /* of a square, on paper; 0: none */
} br__paperwork;

/* paperwork.c.  Fills W, zeroed before, for the sheet of RUN; GRID (inches) and PAPER may be NULL: those of the sheet,
   else squares of 1/4 in or 5 mm.  The paper lies on its side where LANDSCAPE.  WHAT is borrowed.  */
#define BR__PAPERWORK_ZERO { .title = NULL }
br_status br__paperwork_make (br__paperwork *w, br__run *run, const char *what, const br_number *ratio,
                              const br_number *grid, const br__paper *paper, int landscape);
void br__paperwork_clear (br__paperwork *w);
/* The room for a figure on one sheet of paper: inside the frame and over the title block.  */
br__area br__paper_room (const br__paperwork *w);

/* What did not find room, and the shapes that are not tied down.  */
typedef struct br__draw_result
{
  size_t shapes, unlabelled, unmeasured, loose;
  size_t unplaced;              /* dimensions that were asked for */
} br__draw_result;

/* draw.c.  What V or SHEET has too much of for one drawing, over *MOST: "places of shapes"; else NULL.  */
const char *br__crowd_of (int *most, const br__side_view *v, const br_sheet *sheet);
/* layout.c.  The view V alone, on squares of GRID (0: none), with dimension lines and names, upper left corner at 0 0: P's
   width and height are what it takes.  The table goes below it, or beside it where it finds room there alone, inside WIDTH by
   HEIGHT.  */
br_status br__draw_side (br__plot *p, br__draw_result *out, br__run *run, br__side_view *v, int64_t grid, int64_t width,
                         int64_t height);
/* The figure itself, without its table, on sheets with room for WIDTH by HEIGHT; P's width and height are what it takes.  */
br_status br__figure_plot (br__plot *p, br__draw_result *out, br__run *run, br__side_view *v, br__view_at *f, int64_t grid, int64_t width,
                           int64_t height);
/* The outlines of V alone, on squares of GRID that go through 0, 0 of the sheet.  */
br_status br__draw_bare (br__plot *p, br__run *run, const br__side_view *v, int64_t grid);
/* The table of what F, which P has without it, does not say: below the figure; or beside it, or beside it and below, where all goes into
   WIDTH by HEIGHT that way alone.  *ROWS gets their number.  */
br_status br__places_around (br__plot *p, size_t *rows, br__run *run, const br__view_at *f, int64_t width, int64_t height);

/* Puts FIGURE on paper, on several sheets where it is a PDF and too large for one, and writes PATH, which ends in
   .pdf, .svg or .png.  *PAGES gets their number.  */
br_status br__draw_file (size_t *pages, br__run *run, const br__plot *figure, const br__paperwork *w,
                         const char *description, const char *path);
/* The same for several figures, each of which has a sheet of its own, or more where it is too large for one; PATH ends in .pdf.  */
br_status br__draw_sheets (size_t *pages, br__run *run, const br__plot *figures, size_t count, const br__paperwork *w,
                           const char *description, const char *path);
/* "pdf", "svg", "png", or NULL: what PATH ends in.  */
const char *br__picture_form (const char *path);

/* tile.c: cuts FIGURE into pages of paper that overlap; *PAGES is to be freed by br__plots_free.  */
br_status br__tile (br__plot **pages, size_t *count, const br__plot *figure, const br__paperwork *w, br__run *run);
/* How many sheets of paper at the most, blank ones too; INT64_MAX where that is no number to think of.  */
int64_t br__sheets_for (const br__plot *figure, const br__paperwork *w);
/* 1 where the figure goes on one sheet, its table on others if need be.  */
int br__figure_fits (const br__plot *figure, const br__paperwork *w);

/* title.c: a frame with the title block at its foot: title, scale, units, name, class, material, date, EXTRA ("A1, 1 of 2"; NULL:
   the only sheet), a scale bar, and the line that tells whether the printer kept the size.  */
int64_t br__block_height (const br__paperwork *w);
void br__title_block (br__plot *p, const br__paperwork *w, br__area frame, const char *extra);

/* view.c: the view in characters, to COLUMNS columns and LINES lines: two lists of lines, in dots (braille)
   and plain.  */
br_status br__put_view_lines (br_record *r, const br__side_view *v, size_t columns, size_t lines);

/* draw.c: the shapes in words, a line each.  */
br_status br__put_description (br_text *t, const br_sheet *sheet, const br__side_view *v);

#endif
