/* SPDX-License-Identifier: LGPL-3.0-or-later
   plot.h - a drawing as a list of strokes and texts, for paper, for the web and for the terminal.

   Places are whole billionths of an inch of paper (1 in = BR__INCH), x to the right and y down; each is
   the exact value of the sheet put on that grid once, so equal places are equal in every file.
   Only the layout of texts is free.  */
#ifndef BR_DRAW_PLOT_H
#define BR_DRAW_PLOT_H

#include "formula/settings.h"
#include "shop/paper.h"
#include "shape/shape.h"

#define BR__INCH INT64_C (1000000000)
#define BR__POINT (BR__INCH / 72)

typedef enum br__ink_type
{
  BR__INK_LINE,                 /* x y to x2 y2 */
  BR__INK_CIRCLE,               /* centre x y, radius r */
  BR__INK_BOX,                  /* upper left corner x y, lower right x2 y2 */
  BR__INK_STRIP,                /* centre x y, radii r and r2 (equal: a curve), angles from and to */
  BR__INK_BAR,                  /* x y to x2 y2, round ends of radius r */
  BR__INK_PATH,                 /* STEPS */
  BR__INK_ARROW,                /* tip x y, coming from x2 y2; SIZE long, or as usual where that is 0 */
  BR__INK_TEXT                  /* x y: the middle of its height, at left, middle or right */
} br__ink_type;

typedef enum br__pen { BR__PEN_GRID, BR__PEN_THIN, BR__PEN_OUTLINE } br__pen;

/* What a stroke is for: files keep each in a group of its own, but for leaders and extension lines, which stand with the
   dimensions.  */
typedef enum br__group
{
  BR__GROUP_FRAME, BR__GROUP_GRID, BR__GROUP_OUTLINES, BR__GROUP_CENTRES, BR__GROUP_DIMENSIONS, BR__GROUP_EXTENSIONS,
  BR__GROUP_LEADERS, BR__GROUP_TEXT
} br__group;

/* A step of an outline.  An arc turns around X Y with radius R, from angle FROM to TO as of an ink below; a line goes to its
   beginning where the step before ended elsewhere.  CLOSE goes back to the last move.  */
typedef enum br__path_step_type { BR__STEP_MOVE, BR__STEP_LINE, BR__STEP_ARC, BR__STEP_CLOSE } br__path_step_type;
typedef struct br__path_step
{
  br__path_step_type type;
  int64_t x, y, r, from, to;
} br__path_step;
#define BR__MOST_STEPS 6        /* of an ink that is no path */

typedef enum br__dash { BR__SOLID, BR__DASHED, BR__DASH_DOT } br__dash;

typedef struct br__ink
{
  br__ink_type type;
  br__pen pen;
  br__group group;
  br__dash dashed;
  int apart;                    /* beside the figure: of a table or the title block */
  int bold;
  int turned;                   /* a text that runs upward, to be read from the right */
  br_align align;
  int64_t x, y, x2, y2, r, r2;
  int64_t from, to;             /* billionths of a degree, anticlockwise from the right */
  int64_t size;                 /* of letters */
  char *text;                   /* of a text; of a stroke the name of its shape, or NULL */
  br__path_step *steps;              /* of a path; its own */
  size_t step_count;
} br__ink;

/* An upright rectangle: x y the upper left corner.  */
typedef struct br__area
{
  int64_t x, y, x2, y2;
} br__area;

typedef struct br__plot
{
  br__ink *inks;
  size_t count, room;
  int64_t width, height;        /* of the whole; may be more than a sheet of paper */
  br__area *taken;              /* what no other text may cover */
  size_t taken_count, taken_room;
  int failed;                   /* memory ran out */
  br__group group;              /* of the strokes that are added from here on */
  size_t squares;               /* the first so many inks are the squares of a figure, through ... */
  int64_t square_x, square_y;
  size_t table;                 /* inks from this one on are a table that may go on sheets of its own; 0: none */
  int64_t table_top;            /* where it begins */
  br__area window;              /* inks from CUT_FROM to CUT_TO show inside it alone (a page of several) */
  size_t cut_from, cut_to;
} br__plot;

/* How wide a stroke is: outlines twice as wide as thin lines, as ISO 128-2 has it, squares still thinner.  */
int64_t br__pen_width (br__pen pen);

void br__plot_clear (br__plot *p);
/* Takes away the inks from COUNT on.  */
void br__plot_cut (br__plot *p, size_t count);
/* The new ink, all zero but for what is given; never NULL (a spare one once memory has run out).  */
br__ink *br__plot_add (br__plot *p, br__ink_type type, br__pen pen, int64_t x, int64_t y);
/* Gives INK, the one added last, a copy of TEXT (may be NULL).  */
void br__ink_name (br__plot *p, br__ink *ink, const char *text);
/* Gives INK, the one added last, a copy of the STEPS of a path.  */
void br__ink_path (br__plot *p, br__ink *ink, const br__path_step *steps, size_t count);
/* The outline of a circle, a box, a strip, a bar, a line or a path as steps: those of a path are its own, others go to ROOM.
 */
const br__path_step *br__ink_steps (size_t *count, br__path_step room[BR__MOST_STEPS], const br__ink *ink);
void br__plot_line (br__plot *p, br__pen pen, int64_t x, int64_t y, int64_t x2, int64_t y2, br__dash dashed);
/* A text that runs upward; X Y is the middle of it.  */
void br__plot_turned (br__plot *p, int64_t x, int64_t y, int64_t size, const char *text);
void br__plot_text (br__plot *p, int64_t x, int64_t y, br_align align, int64_t size, const char *text);
/* Room that a text of SIZE takes at the most.  */
int64_t br__text_width (const char *text, int64_t size);
br__area br__text_area (int64_t x, int64_t y, br_align align, int64_t size, const char *text);
void br__plot_take (br__plot *p, br__area a);
int br__areas_meet (br__area a, br__area b);
/* A becomes what reaches over both.  */
void br__area_join (br__area *a, br__area b);
/* The segment, or a little around it, meets A.  */
int br__segment_meets (int64_t x, int64_t y, int64_t x2, int64_t y2, br__area a);
/* The length of DX DY.  */
int64_t br__span (int64_t dx, int64_t dy);
/* The vector of length R at a right angle to DX DY, to its left where y goes down.  */
void br__across (int64_t *x, int64_t *y, int64_t dx, int64_t dy, int64_t r);
/* The corners of an arrow head: tip, and the two behind it.  */
void br__arrow_corners (int64_t corners[6], const br__ink *arrow);
/* The first place that is FROM and a multiple of STEP, and not below LOW.  */
int64_t br__next_line (int64_t low, int64_t step, int64_t from);
/* The corner of a drawing lies on a multiple of this, so that sizes are easily measured back in a file.  */
#define BR__FINE (BR__INCH / 100)
/* Moves everything from ink FIRST on.  */
void br__plot_shift (br__plot *p, size_t first, int64_t dx, int64_t dy);

/* A piece of the edge of an outline; TURN 0: straight.  */
typedef struct br__drawn_piece
{
  int64_t x, y, x2, y2, centre_x, centre_y, radius;
  int64_t from, turn;           /* billionths of a degree, anticlockwise */
  char size[32];                /* "R 1/2" of an arc; "": straight, or too long to stand on a figure */
} br__drawn_piece;

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
  int64_t *profile;             /* in others: pairs of a place along the view and how near the edge is there; its own */
  size_t profile_count;
  int flat;                     /* all of the profile that shows is as near */
  int hole;                     /* of the shape that a box of another view stands for */
  struct br__drawn *copies;     /* of a row or a mirror: its figures, but for those that the copied shape draws itself; x y a b
                                   are as of a box around all */
  size_t copy_count;
  char *label;                  /* its name, and what it waits for where it is not tied */
  int unlabelled;               /* it found no room */
  int unmeasured;               /* no dimension but what is asked for */
  size_t balloon;               /* a number on the figure in its stead, or 0 */
} br__drawn;

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
  br__area reach;
  int upright_profiles;         /* profiles go along the height, not the width */
  br__datum datum;
  br_number ratio;              /* drawn to full */
  br_text unplaced;             /* dimensions and notes that were asked for and found no room, a line each: stand below the figure */
} br__side_view;

#define BR__VIEW_ZERO { .shapes = NULL }

void br__view_clear (br__side_view *v);
/* The shapes of the sheet (of LAYER or of the part OF alone where they are given) at RATIO drawn to full, NULL: full size.
   BR_DOMAIN: there is none.  */
br_status br__view_make (br__side_view *v, br__run *run, const br_number *ratio, const char *layer, const char *of);
/* Without the shapes that are not tied down.  */
void br__view_drop_loose (br__side_view *v);
/* Whether S is among them, which it is where the part OF is cut as it, too.  */
int br__is_drawn (const br_sheet *sheet, const br__shape *s, const char *layer, const char *of);
/* A value in inches as a place on paper; RATIO NULL: at full size.  BITS 0: as many as a place ever needs.  */
br_status br__to_paper (int64_t *z, const br_real *inches, const br_number *ratio, unsigned bits);
/* The sine and cosine of an angle in billionths of a degree, in billionths, correctly rounded.  */
void br__sine_cosine (int64_t *sine, int64_t *cosine, int64_t angle);
/* The angle of DX to the right, DY up in billionths of a degree.  */
int64_t br__angle (int64_t dx, int64_t dy);
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
/* How many places the row S has, which does not wait.  */
int br__row_places (const br_sheet *sheet, const br__shape *s);
/* outline_view.c: the pieces of LEGS.  */
br_status br__drawn_pieces (br__drawn *d, const br__legs *legs, const br_number *ratio, unsigned bits);
void br__drawn_box (br__drawn *d);
/* The pieces of D, of which the reach is known.  */
br_status br__drawn_outline (br__drawn *d, const br_sheet *sheet, const br_number *ratio);
/* Where D reaches as far as AT, up (UPRIGHT) or across: the other number of that place, the least of several, or the
   greatest where GREATEST.  */
int64_t br__outline_turn (const br__drawn *d, int upright, int greatest, int64_t at);
void br__outline_plot (br__plot *p, const br__drawn *d, const char *name, int64_t left, int64_t top);

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
  int tiers[BR__BANKS];
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
/* label.c: what stands behind the name of a shape that is tied down: " ⌀ 3-1/2" of a circle ...  HELD: an end of the bar is
   the centre of a circle, so that its length is told between centres.  */
br_status br__put_label_size (br_text *t, const br_sheet *sheet, const br__shape *s, int held);
/* Puts the labels of V where there is room inside WITHIN (a place of the page), off the strokes that P holds.
   Returns how many found none.  */
size_t br__labels_plot (br__plot *p, br__side_view *v, br__area within, int64_t left, int64_t top);

/* place_plot.c.  Names that found no room, and a table of sizes and places that the dimension lines of F do not say, in ROOM, which it may
   leave downward.  *COUNT gets the rows, *HEIGHT what it takes, 0 where the figure says all.  */
br_status br__places_plot (br__plot *p, size_t *count, int64_t *height, br__run *run, const br__view_at *f, br__area room);

/* A number as it stands on a drawing: inches without a sign, a mark of the ruler with ≈ where no
   fraction says it.  VALUE in inches.  */
br_status br__put_drawing_number (br_text *t, const br_real *value, const br__settings *s);

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
/* The figure itself, without its table; P's width and height are what it takes.  */
br_status br__figure_plot (br__plot *p, br__draw_result *out, br__run *run, br__side_view *v, br__view_at *f, int64_t grid);
/* The outlines of V alone, on squares of GRID that go through 0, 0 of the sheet.  */
br_status br__draw_bare (br__plot *p, br__run *run, const br__side_view *v, int64_t grid);
/* Squares over AREA; a line goes through X and through Y.  */
void br__plot_grid (br__plot *p, br__area area, int64_t step, int64_t x, int64_t y);

/* Puts FIGURE on paper, on several sheets where it is a PDF and too large for one, and writes PATH, which ends in
   .pdf, .svg or .png.  *PAGES gets their number.  */
br_status br__draw_file (size_t *pages, br__run *run, const br__plot *figure, const br__paperwork *w,
                         const char *description, const char *path);
/* The same for several figures, each of which has a sheet of its own, or more where it is too large for one; PATH ends in .pdf.  */
br_status br__draw_sheets (size_t *pages, br__run *run, const br__plot *figures, size_t count, const br__paperwork *w,
                           const char *description, const char *path);
/* "pdf", "svg", "png", or NULL: what PATH ends in.  */
const char *br__picture_form (const char *path);

/* svg.c: one page as a whole SVG file, or as an element inside a page of HTML (INSIDE).  The unit of the file
   is a thousandth of an inch.  */
void br__put_svg (br_text *t, const br__plot *p, const char *title, const char *description, int inside);
/* paint.c: pages through the painter, FORM "pdf" or "png".  DESCRIPTION is of the figure.  */
br_status br__paint (br__run *run, const br__plot *pages, size_t count, const char *form, const char *title,
                     const char *description, const char *path);
/* tile.c: cuts FIGURE into pages of paper that overlap; *PAGES is to be freed by br__plots_free.  */
br_status br__tile (br__plot **pages, size_t *count, const br__plot *figure, const br__paperwork *w, br__run *run);
/* How many sheets of paper at the most, blank ones too; INT64_MAX where that is no number to think of.  */
int64_t br__sheets_for (const br__plot *figure, const br__paperwork *w);
/* 1 where the figure goes on one sheet, its table on others if need be.  */
int br__figure_fits (const br__plot *figure, const br__paperwork *w);
void br__plots_free (br__plot *pages, size_t count);
/* Appends the inks of FROM from FIRST on, moved; where INSIDE is given, those alone that may reach into it.  */
void br__plot_join (br__plot *p, const br__plot *from, size_t first, int64_t dx, int64_t dy, const br__area *inside);
/* A text no wider than WIDTH: in smaller letters, then cut short.  */
void br__plot_fitted (br__plot *p, int64_t x, int64_t y, br_align align, int64_t size, int64_t width, const char *text);

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
