/* SPDX-License-Identifier: LGPL-3.0-or-later
   hidden.h - entries of the graph that are not dimensions: numbers of shapes, and distances between two shapes.

   Each number of a shape is a hidden entry whose name is made from the name of the shape and that of the number.  So it
   is recomputed, waits and fails like a dimension.  Names of shapes and of dimensions are separate: a shape and a
   dimension may have the same name.  */
#ifndef BR_SHEET_HIDDEN_H
#define BR_SHEET_HIDDEN_H

#include "geometry/geometry.h"
#include "sheet/sheet.h"

/* A name of more bytes is refused, so that a look at a shape never needs memory.  */
#define BR__SHAPE_NAME 200

/* How a shape lies in depth: 0, it has none; around the middle; from a place; or there twice, so far apart over the outsides or
   between the two.  */
enum br__depth_place { BR__NO_DEPTH, BR__CENTRED_DEPTH, BR__FROM_DEPTH, BR__OUTSIDES, BR__BETWEEN };

typedef struct br__shape
{
  struct br__shape *next;
  int active;                   /* not undone, forgotten or given anew */
  br__shape_kind kind;
  char *name, *note;
  char *text;                   /* its statement */
  char *layer, *of;             /* or NULL: the part of the cutting list that it shows */
  char *behind;                 /* the shape that hides it from the side, or NULL */
  int depth;                    /* enum br__depth_place */
  char *base;                   /* the shape that a row or a mirror copies, or NULL */
  int hole;                     /* a circle that is drilled */
  const char *word;             /* its statement, where that is not its kind's */
  int loose;                    /* no place was given */
  br__line *line;
  struct br__shape *older;      /* the one of this name before it */
} br__shape;

void br__shape_free (br__shape *s);
/* The shape that S copies in the end, or that is not there yet; S itself where it copies none.  */
const br__shape *br__shape_source (const br_sheet *sheet, const br__shape *s);
/* The shape that counts under NAME, or NULL.  */
br__shape *br__shape_find (const br_sheet *sheet, const char *name, size_t length);

/* The entry of number PART of the shape NAME, or NULL.  _get makes one; NULL: out of memory.  */
br__entry *br__shape_entry (const br__graph *g, const char *name, size_t length, int part);
br__entry *br__shape_entry_get (br__graph *g, const char *name, size_t length, int part);
/* The entry that NODE of TREE names, or NULL: not there yet, or, where MAKE, out of memory.  */
br__entry *br__node_entry (br__graph *g, const br__tree *tree, const br__node *node, int make);
/* The names of shapes in the brackets of NODE: one, or two of `clear`, the smaller first.  */
void br__node_shapes (const char *name[2], int length[2], const br__tree *tree, const br__node *node);
/* NODE, which names shapes, has no value.  */
br_status br__no_shape (const br__graph *g, const br__tree *tree, const br__node *node, br_error *error);

/* fixed.c: number PART of the shape NAME is V, without a formula.  */
br_status br__shape_fix (br__graph *g, const char *name, int part, const br__value *v);
/* The number behind PART of the shape NAME, BR__SHAPE_NONE after the last.  */
int br__shape_next_part (const br__graph *g, const char *name, size_t length, int part);
/* How many corners the outline NAME has; 0 where it is none.  */
size_t br__shape_corners (const br__graph *g, const char *name, size_t length);
/* The length of the name of the shape that the row or mirror NAME copies, and *BASE; 0 where it is none.  */
size_t br__shape_base (const char **base, const br__graph *g, const char *name, size_t length);
/* Distances to SHAPE, N bytes, are worked out from the numbers that it has now: an outline has more than others.  MOVES may be
   NULL.  */
br_status br__distances_refresh (br__graph *g, const char *shape, size_t n, br__moves *moves, br_error *error);

/* If E is a number of a shape, *NAME and the length of the name of that shape; else 0.  */
size_t br__entry_shape (const char **name, const br__entry *e);
/* 1 if E is a number of the shape NAME.  */
int br__is_of_shape (const br__entry *e, const char *name, size_t length);
/* A hidden entry as people call it: "shape deck", "clear(deck, front)"; else its name.  */
void br__put_entry_words (br_text *t, const br__entry *e);
/* E in a list as people call it; a shape or a check once, though each has several entries.  */
void br__list_entry (br_list *list, const br__entry *e);
/* The same, a dimension once, too.  */
void br__list_entry_once (br_list *list, const br__entry *e);
/* Adds the text of T to LIST unless it is there already.  Takes over T.  */
void br__list_once (br_list *list, br_text *t);

#endif
