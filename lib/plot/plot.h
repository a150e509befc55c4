/* SPDX-License-Identifier: LGPL-3.0-or-later
   plot.h - a drawing as a list of strokes and texts, for paper, for the web and for the terminal.

   Places are whole billionths of an inch of paper (1 in = BR__INCH), x to the right and y down; each is
   the exact value of the sheet put on that grid once, so equal places are equal in every file.
   Only the layout of texts is free.  */
#ifndef BR_PLOT_PLOT_H
#define BR_PLOT_PLOT_H

#include "formula/settings.h"
#include "sheet/sheet.h"

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
  int prose;                    /* a sentence: its fractions are small, as on papers */
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

/* On a sheet.  */
#define BR__MOST_PIECES 20

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
  int64_t table_top;            /* where it begins, or the figure ends */
  int64_t figure_right;         /* where the figure ends, beside which a table stands; 0: none does */
  br__area pieces[BR__MOST_PIECES];     /* of a table, on free paper in the figure: squares end there */
  size_t piece_count;
  int64_t sheet[2];             /* of a figure on several sheets: how far from another they join, across and down; 0: they do not */
  br__area face;                /* of a part to be cut: a table goes on it last; all 0: none */
  br__area window;              /* inks from CUT_FROM to CUT_TO show inside it alone (a page of several) */
  size_t cut_from, cut_to;
} br__plot;

/* Two sheets that join share so much, and join in its middle.  */
#define BR__JOIN (BR__INCH / 2)
/* Where P, of which the width and the height are known, needs several sheets with room for WIDE by HIGH.  */
void br__plot_sheets (br__plot *p, int64_t wide, int64_t high);
/* How wide its table is to be, which has WIDTH on one sheet: on several it goes in narrow pieces where there is free paper.  */
int64_t br__table_width (const br__plot *p, int64_t width);

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
/* An upright rectangle around K; with some room where it is a stroke.  */
br__area br__ink_area (const br__ink *k);
void br__plot_take (br__plot *p, br__area a);
int br__areas_meet (br__area a, br__area b);
/* A becomes what reaches over both.  */
void br__area_join (br__area *a, br__area b);
/* The segment, or a little around it, meets A.  */
int br__segment_meets (int64_t x, int64_t y, int64_t x2, int64_t y2, br__area a);
/* The corners of an arrow head: tip, and the two behind it.  */
void br__arrow_corners (int64_t corners[6], const br__ink *arrow);
/* The corner of a drawing lies on a multiple of this, so that sizes are easily measured back in a file.  */
#define BR__FINE (BR__INCH / 100)
/* Moves everything from ink FIRST on.  */
void br__plot_shift (br__plot *p, size_t first, int64_t dx, int64_t dy);
/* Squares over AREA but for the COUNT HOLES in it; a line goes through X and through Y.  */
void br__plot_grid (br__plot *p, br__area area, int64_t step, int64_t x, int64_t y, const br__area *holes, size_t count);
/* Opens the extension lines, level and upright, that run through AREA.  */
void br__lines_open (br__plot *p, br__area area);
/* place.c.  A value in inches as a place on paper; RATIO NULL: at full size.  BITS 0: as many as a place ever needs.  */
br_status br__to_paper (int64_t *z, const br_real *inches, const br_number *ratio, unsigned bits);
/* The first place that is FROM and a multiple of STEP, and not below LOW.  */
int64_t br__next_line (int64_t low, int64_t step, int64_t from);
/* The length of DX DY.  */
int64_t br__span (int64_t dx, int64_t dy);
/* The vector of length R at a right angle to DX DY, to its left where y goes down.  */
void br__across (int64_t *x, int64_t *y, int64_t dx, int64_t dy, int64_t r);
/* The sine and cosine of an angle in billionths of a degree, in billionths, correctly rounded.  */
void br__sine_cosine (int64_t *sine, int64_t *cosine, int64_t angle);
/* The angle of DX to the right, DY up in billionths of a degree.  */
int64_t br__angle (int64_t dx, int64_t dy);
/* svg.c: one page as a whole SVG file, or as an element inside a page of HTML (INSIDE).  The unit of the file
   is a thousandth of an inch.  */
void br__put_svg (br_text *t, const br__plot *p, const char *title, const char *description, int inside);
/* paint.c: pages through the painter, FORM "pdf" or "png".  DESCRIPTION is of the figure.  */
br_status br__paint (br__run *run, const br__plot *pages, size_t count, const char *form, const char *title,
                     const char *description, const char *path);
void br__plots_free (br__plot *pages, size_t count);
/* Appends the inks of FROM from FIRST on, moved; where INSIDE is given, those alone that may reach into it.  */
void br__plot_join (br__plot *p, const br__plot *from, size_t first, int64_t dx, int64_t dy, const br__area *inside);
/* A text no wider than WIDTH: in smaller letters, then cut short.  */
void br__plot_fitted (br__plot *p, int64_t x, int64_t y, br_align align, int64_t size, int64_t width, const char *text);

#endif
