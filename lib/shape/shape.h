/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape.h - shapes of a sheet: circles, boxes, arcs, lines and outlines that are sized and placed by
   formulas.  */
#ifndef BR_SHAPE_SHAPE_H
#define BR_SHAPE_SHAPE_H

#include "sheet/hidden.h"
#include "sheet/maker.h"
#include "geometry/sketch.h"
#include "geometry/weak.h"
#include "geometry/shape_call.h"

const char *br__shape_kind_word (br__shape_kind kind);
/* As it was written: a box with rounded corners is a box.  */
const char *br__shape_statement (const br__shape *s);

/* A corner of an outline as written.  A tree without nodes: not given.  */
typedef enum br__corner_form { BR__CORNER_AT, BR__CORNER_BY, BR__CORNER_ANGLE, BR__CORNER_BOX } br__corner_form;

typedef struct br__corner_draft
{
  br__corner_form form;
  br__tree x, y;                /* place; steps from the corner before; or length and angle from there; none of a box */
  br__tree cut, after;          /* radius, or cut along both sides */
  int round;
  br__tree rise;                /* of the side that ends here */
} br__corner_draft;

/* The definition of a shape as parsed: formulas of the current line.  */
typedef struct br__shape_draft
{
  br__shape_kind kind;
  const char *name;
  size_t name_length;
  br__tree size[4];             /* circle: diameter.  box: width, height.  arc: radius (fender: gap),
                                   width, turn, start.  line: width.  row: count.  mirror: its axis */
  br__tree at[4];               /* X, Y; of a line its end, too; of a row its step */
  int placed;                   /* AT has a place */
  char *wheel;                  /* an arc that is the fender of this circle, or NULL */
  int relation;                 /* enum br__relation */
  char *base;                   /* the shape that RELATION names, or that a row or a mirror copies */
  br__tree gap, shift;          /* `by` and `shift`; without nodes: 0 */
  int flush;                    /* a br__side and 1, or 0 */
  br__tree turn;                /* `turned`; without nodes: 0 */
  int plate;                    /* an arc all around, or a circle, that was written as a plate: diameter, hole */
  int boxed;                    /* an outline that was written as a box, with its size */
  br__corner_draft *corners;    /* of an outline */
  size_t corner_count, corner_room;
  int depth;                    /* enum br__depth_place */
  br__tree deep, across;        /* where it lies: `from` or the track */
} br__shape_draft;

enum br__relation { BR__NO_RELATION, BR__ABOVE, BR__BELOW, BR__LEFT_OF, BR__RIGHT_OF, BR__CENTRED };

/* shape_tree.c: gives the entries of the shape their definitions, as changes of the statement; MOVES
   gets what moved.  _undefine takes them away.  */
br_status br__shape_define (br__run *run, const br__shape_draft *d, br__moves *moves);
br_status br__shape_undefine (br__run *run, const char *name, br__moves *moves);

/* 1 where nothing says where it is.  */
int br__is_loose (const br__shape_draft *d);

/* Number PART of S, or NULL while it waits.  */
const br__value *br__shape_value (const br_sheet *sheet, const br__shape *s, int part);

/* outline.c: the corners of an outline, up to its clauses; and what they take, freed.  */
br_status br__outline_read (br__run *run, br__shape_draft *d);
void br__corners_clear (br__shape_draft *d);
/* shape.c: SHEET owns S from here on.  */
void br__shape_append (br_sheet *sheet, br__shape *s);
/* edges.c: `round`, `cut` and `turned` behind a shape; *FOUND is 1 if there was one.  */
br_status br__edges_read (br__run *run, br__shape_draft *d, int *found);
/* How far the shape is turned.  */
void br__put_turn (br__maker *m, const br__shape_draft *d);
/* copy.c: 1 where the figures of S, a row or a mirror, are the other way around than those of the shape it copies.  */
int br__is_mirrored (const br_sheet *sheet, const br__shape *s);
/* copy.c: how many places the row S has, which does not wait.  */
int br__row_places (const br_sheet *sheet, const br__shape *s);
/* copy.c: a row or a mirror behind its name, and its number PART.  */
br_status br__copy_read (br__run *run, br__shape_draft *d, br__shape *s);
/* copy.c: BR_TOO_BIG where too many rows and mirrors copy one another once D counts.  */
br_status br__copies_count (br__run *run, const br__shape_draft *d);
void br__put_copy_number (br__maker *m, const br__shape_draft *d, int part);

/* shape.c: copies the name that is the current token; if it is not a name, fails and says that WHAT is expected.  */
br_status br__shape_read_name (char **name, br__run *run, const char *what);
/* shape.c: `X, Y`.  */
br_status br__read_point (br__run *run, br__tree at[2]);
/* shape.c: `x SIZE`, where it is at hand.  */
br_status br__read_second_size (br__run *run, br__tree *t);
/* shape_tree.c: the definition *D of a hidden entry that is the length T.  */
br_status br__make_length (br__definition **d, br__run *run, const br__tree *t);
/* outline_tree.c: number PART of an outline, and of corner I number WHICH.  */
void br__put_outline_number (br__maker *m, const br__shape_draft *d, int part);
void br__put_corner_number (br__maker *m, const br__shape_draft *d, size_t i, int which);
/* The numbers of SHAPE as br__shape_legs and br__shape_places take them.  BR_DOMAIN: it waits.  Cleared on an error, too.  */
typedef struct br__numbers
{
  br__value *rows;
  size_t count;
} br__numbers;

br_status br__shape_numbers (br__numbers *n, const br_sheet *sheet, const br__shape *shape);
void br__numbers_clear (br__numbers *n);
/* The path of S, of which all numbers have values.  */
br_status br__shape_legs_of (br__legs *legs, br__sketch *s, const br_sheet *sheet, const br__shape *shape);

/* weak.c: the outline SHAPE, of which all numbers have values; LEAST in inches.  BR_DOMAIN: it waits.  */
br_status br__shape_weak (br__weak *w, const br_sheet *sheet, const br__shape *shape, const br_real *least);

/* datum.c: whether `datum` gave one; its place across (WAY 0) or up, or NULL while it waits.  */
int br__datum_is_given (const br_sheet *sheet);
const br__value *br__datum_value (const br_sheet *sheet, int way);

/* shape_show.c */
/* "3-1/2" x 3/4"" and "centre at 0", 1""; what waits is written ?.  */
br_status br__shape_size_words (br_text *t, const br_sheet *sheet, const br__shape *s);
br_status br__shape_place_words (br_text *t, const br_sheet *sheet, const br__shape *s);
br_status br__shape_show (br__run *run, const br__shape *s);
/* Lists what S waits for, names of dimensions and "shape NAME", in WAITING (may be NULL).  Returns how many.  */
size_t br__shape_waiting (br_list *waiting, const br_sheet *sheet, const br__shape *s);
/* statements.c: ends with a row without a word.  */
extern const br__statement br__shape_statements[];
br_status br__do_circle (br__run *run);
br_status br__do_box (br__run *run);
br_status br__do_arc (br__run *run);
br_status br__do_line (br__run *run);
br_status br__do_outline (br__run *run);
br_status br__do_plate (br__run *run);
br_status br__do_row (br__run *run);
br_status br__do_mirror (br__run *run);
br_status br__do_turn (br__run *run);
br_status br__do_datum (br__run *run);
/* `datum` behind `no`.  */
br_status br__no_datum (br__run *run);
br_status br__do_dimension (br__run *run);
br_status br__do_note (br__run *run);
br_status br__do_no (br__run *run);
br_status br__do_shapes (br__run *run);
br_status br__do_clear (br__run *run);
/* Forgets the shape whose name is at hand.  */
br_status br__shape_forget (br__run *run);

#endif
