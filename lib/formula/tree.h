/* SPDX-License-Identifier: LGPL-3.0-or-later
   tree.h - formulas: the syntax tree of an expression, and the parser that makes it.

   A tree is one array of nodes in postfix order: operands before their operator, the
   root last.  It is evaluated with a loop and a stack of values, not by recursion, so that a
   line of 64 KiB of additions cannot overflow the call stack.  */
#ifndef BR_FORMULA_TREE_H
#define BR_FORMULA_TREE_H

#include "benchrule.h"
#include "exact/text.h"
#include "formula/lexer.h"

typedef enum br__op
{
  BR__OP_NUMBER, BR__OP_NAME, BR__OP_CALL, BR__OP_NEG,
  BR__OP_ADD, BR__OP_SUB, BR__OP_MUL, BR__OP_DIV, BR__OP_POW
} br__op;

/* The numbers of a shape: its kind and those of a figure, then how far it reaches from its centre, signed.  */
enum
{
  BR__SHAPE_NONE,
  BR__SHAPE_KIND, BR__SHAPE_X, BR__SHAPE_Y, BR__SHAPE_A, BR__SHAPE_B, BR__SHAPE_C, BR__SHAPE_D,
  BR__SHAPE_RIGHT, BR__SHAPE_TOP, BR__SHAPE_LEFT, BR__SHAPE_BOTTOM,
  BR__SHAPE_MIDDLE_X, BR__SHAPE_MIDDLE_Y,       /* its centre of area, from x y */
  BR__SHAPE_AREA, BR__SHAPE_PERIMETER,
  /* Of a shape that has a depth: its middle in depth, or how far both of a pair lie from there; and its depth.  */
  BR__SHAPE_Z, BR__SHAPE_Z_BOTH, BR__SHAPE_DEEP,
  BR__SHAPE_BASE,                               /* of a row or a mirror alone: the kind of the shape that it copies */
  BR__SHAPE_NUMBERS,
  /* The questions of formulas about one shape, and about two.  */
  BR__SHAPE_SIDE_LEFT, BR__SHAPE_SIDE_RIGHT, BR__SHAPE_SIDE_TOP, BR__SHAPE_SIDE_BOTTOM,
  BR__SHAPE_CENTRE_X, BR__SHAPE_CENTRE_Y, BR__SHAPE_WIDTH, BR__SHAPE_HEIGHT, BR__SHAPE_CLEAR
};

/* Behind them come those of the corners of an outline: number WHICH of corner I, from 0.  */
#define BR__CORNER_NUMBERS 5
#define BR__CORNER_PART(I, WHICH) (100 + BR__CORNER_NUMBERS * (int) (I) + (int) (WHICH))

typedef struct br__node
{
  br__op op;
  unsigned count;             /* operands */
  /* 32 bits are enough for a line, and a sheet has many nodes.  */
  uint32_t first;             /* index of the first node of this subtree */
  uint32_t offset, length;    /* the subtree's place in the tree's text */
  uint32_t word, word_length; /* the place of the name, function or sign itself */
  unsigned char bare;         /* a function written without brackets */
  unsigned char brackets;     /* brackets stand around it */
  unsigned char made;         /* BR__OP_NUMBER: read from a word or a raised digit, not from WORD as it stands */
  unsigned char unit;         /* BR__OP_MUL: the right operand is a unit behind brackets, (3 + 2) in */
  br_measure number;          /* BR__OP_NUMBER */
  const struct br__function *function;  /* BR__OP_CALL */
  struct br__entry *entry;    /* BR__OP_NAME, once tied to a dimension of a sheet */
  unsigned part;              /* BR__OP_NAME of a number of a shape, BR__SHAPE_KIND ...; the name is in brackets */
} br__node;

typedef struct br__tree
{
  char *text;                 /* a copy of the expression alone */
  size_t length;
  size_t base;                /* where it began in the line it came from */
  br__node *nodes;
  size_t count, room;
  size_t deepest;             /* values on the stack at once */
} br__tree;

#define BR__TREE_ZERO { NULL, 0, 0, NULL, 0, 0, 0 }

void br__tree_clear (br__tree *t);
/* Parses the expression that begins at the token at hand and leaves L behind it.  Errors are
   placed in the line.  */
br_status br__parse (br__tree *t, br__lexer *l, br_error *error);
/* A size in a row such as 3/4 x 5-1/2 x 48: a times sign ends it, a star multiplies.  */
br_status br__parse_size (br__tree *t, br__lexer *l, br_error *error);
/* An expression inside brackets that a statement has opened.  */
br_status br__parse_inside (br__tree *t, br__lexer *l, br_error *error);
/* The subtree of node INDEX as a tree that borrows from T.  */
static inline br__tree
br__subtree (const br__tree *t, size_t index)
{
  br__tree part = *t;
  part.nodes = t->nodes + t->nodes[index].first;
  part.count = index - t->nodes[index].first + 1;
  return part;
}

/* The index of operand K of node INDEX.  */
static inline size_t
br__operand (const br__tree *t, size_t index, unsigned k)
{
  size_t child = index - 1;
  for (unsigned i = t->nodes[index].count - 1; i > k; i--)
    child = t->nodes[child].first - 1;
  return child;
}

/* A list with commas.  Where the first member is a bare function and nothing else, as in
   `full 1-3/16, 2-1/4`, it is meant for every member.  COUNT trees in an array to be freed by
   br__trees_free.  */
br_status br__parse_list (br__tree **trees, size_t *count, br__lexer *l, br_error *error);
void br__trees_free (br__tree *trees, size_t count);
/* How to evaluate a tree: to values, or to values with the steps that led to them.  SIZE is the size of the result of a
   node.  TAKE computes the result of a node, which is all zero bytes before, from the results of its operands ARGS, which it
   may change.  TAKE may advance I over following nodes without operands that it handles together with this one.  */
typedef struct br__domain
{
  size_t size;
  void (*clear) (void *made);
  br_status (*take) (void *user, void *made, void *args, const br__tree *t, size_t *i);
} br__domain;

/* evaluate.c: the one function that walks a tree.  RESULT (need not be initialised) gets the result of the root.  ROOM is a
   buffer for PLACES results, so that a short formula allocates nothing.  */
br_status br__walk_tree (void *result, const br__domain *d, void *user, const br__tree *t, void *room, size_t places);
/* echo.c: how T was read: one blank around signs, and brackets where the reading took a decision that a reader could
   take otherwise.  Reads back as the same tree.  */
void br__put_tree (br_text *t, const br__tree *tree);
/* The number of the node N of TREE, as it was typed where that is a number.  */
void br__put_node_number (br_text *t, const br__tree *tree, const br__node *n);

#endif
