/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape.h - shapes of a sheet: circles, boxes, arcs and lines that are sized and placed by formulas.

   Each number of a shape is a hidden entry of the graph, called by the shape's name and the
   number's; so it follows every change, waits and is refused as dimensions are.  Shapes have names
   of their own: a shape and a dimension may be called alike.  */
#ifndef BR_SHAPE_SHAPE_H
#define BR_SHAPE_SHAPE_H

#include "sheet/sheet.h"
#include "shape/geometry.h"

/* The numbers of a shape; those of br__figure, then how far it reaches from its centre, signed.  */
enum
{
  BR__PART_NONE,
  BR__PART_KIND, BR__PART_X, BR__PART_Y, BR__PART_A, BR__PART_B, BR__PART_C, BR__PART_D,
  BR__PART_RIGHT, BR__PART_TOP, BR__PART_LEFT, BR__PART_BOTTOM,
  BR__PARTS,
  /* What a formula may ask of one shape, and of two.  */
  BR__PART_SIDE_LEFT, BR__PART_SIDE_RIGHT, BR__PART_SIDE_TOP, BR__PART_SIDE_BOTTOM,
  BR__PART_CLEAR
};

/* A name of more bytes is refused, so that a look at a shape never needs memory.  */
#define BR__SHAPE_NAME 200

typedef struct br__shape
{
  struct br__shape *next;
  int active;                   /* not undone, forgotten or given anew */
  br__shape_kind kind;
  char *name, *note;
  char *layer, *of;             /* or NULL: the part of the cutting list that it shows */
  int hole;                     /* a circle that is drilled */
  int loose;                    /* no place was given */
  br__line *line;
  struct br__shape *older;      /* the one of this name before it */
} br__shape;

void br__shape_free (br__shape *s);
br__shape *br__shape_find (const br_sheet *sheet, const char *name, size_t length);
/* `forget shape NAME`, the token at hand is `shape`.  */
br_status br__shape_forget (br__run *run);
const char *br__shape_kind_word (br__shape_kind kind);

/* What is written of a shape, as formulas of the line that is run.  */
typedef struct br__shape_draft
{
  br__shape_kind kind;
  const char *name;
  size_t name_length;
  br__tree size[4];             /* circle: diameter.  box: width, height.  arc: radius (fender: gap),
                                   width, turn, start.  line: width */
  br__tree at[4];               /* X, Y; of a line its end, too */
  int placed;                   /* AT has a place */
  char *wheel;                  /* an arc that is the fender of this circle, or NULL */
  int relation;                 /* enum br__relation */
  char *base;                   /* the shape that RELATION names */
  br__tree gap, shift;          /* `by` and `shift`; without nodes: 0 */
  int flush;                    /* a br__side and 1, or 0 */
} br__shape_draft;

enum br__relation { BR__NO_RELATION, BR__ABOVE, BR__BELOW, BR__LEFT_OF, BR__RIGHT_OF, BR__CENTRED };

/* shape_tree.c: gives the entries of the shape their definitions, as changes of the statement; MOVES
   gets what moved.  _undefine takes them away.  */
br_status br__shape_define (br__run *run, const br__shape_draft *d, br__moves *moves);
br_status br__shape_undefine (br__run *run, const char *name, br__moves *moves);

/* The entry of number PART of the shape NAME, or NULL; a value, or NULL while it waits.  */
br__entry *br__shape_entry (const br__graph *g, const char *name, size_t length, int part);
const br__value *br__shape_value (const br_sheet *sheet, const br__shape *s, int part);

/* The entry that NODE of TREE names, or NULL: not there yet, or, where MAKE, out of memory.  */
br__entry *br__node_entry (br__graph *g, const br__tree *tree, const br__node *node, int make);
/* The names of shapes in the brackets of NODE: one, or two of `clear`, the smaller first.  */
void br__node_shapes (const char *name[2], int length[2], const br__tree *tree, const br__node *node);
/* The word before a bracket, as in top(deck): BR__PART_NONE if it is none.  */
int br__shape_word (const char *word, size_t length);
/* 1 if E is the distance of two shapes.  */
int br__is_distance_entry (const br__entry *e);
/* A hidden entry as people call it: "shape deck", "clear(deck, front)"; else its name.  */
void br__put_entry_words (br_text *t, const br__entry *e);
br_status br__no_shape (const br__graph *g, const br__tree *tree, const br__node *node, br_error *error);

/* shape_call.c: the rows of the functions that the hidden formulas call.  */
typedef enum br__shape_call
{
  BR__CALL_LENGTH, BR__CALL_DIAMETER, BR__CALL_WIDTH, BR__CALL_HEIGHT, BR__CALL_RADIUS, BR__CALL_THICKNESS,
  BR__CALL_ANGLE, BR__CALL_TURN, BR__CALL_FENDER, BR__CALL_REACH, BR__CALL_CLEAR, BR__CALL_CLEAR_ARC,
  BR__CALL_RUN
} br__shape_call;

const br__function *br__shape_function (br__shape_call call);

/* shape_show.c */
/* "3-1/2" x 3/4"" and "centre at 0", 1""; what waits is written ?.  */
br_status br__shape_size_words (br_text *t, const br_sheet *sheet, const br__shape *s);
br_status br__shape_place_words (br_text *t, const br_sheet *sheet, const br__shape *s);
br_status br__shape_show (br__run *run, const br__shape *s);
/* What S waits for: names of dimensions, and "shape NAME"; WAITING may be NULL.  The count.  */
size_t br__shape_waiting (br_list *waiting, const br_sheet *sheet, const br__shape *s);
/* 1 if E is a number of the shape NAME.  */
int br__is_of_shape (const br__entry *e, const char *name, size_t length);

/* missing.c */
/* E in a list as people call it; a shape, or a check of SHEET, once, though each has several entries.  */
void br__list_entry (br_list *list, const br__entry *e, const br_sheet *sheet);
/* All that name E.  */
void br__list_users (br_list *list, const br__entry *e, const br_sheet *sheet);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__shape_statements[];
br_status br__do_circle (br__run *run);
br_status br__do_box (br__run *run);
br_status br__do_arc (br__run *run);
br_status br__do_line (br__run *run);
br_status br__do_shapes (br__run *run);
br_status br__do_clear (br__run *run);

#endif
