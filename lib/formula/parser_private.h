/* SPDX-License-Identifier: LGPL-3.0-or-later
   parser_private.h - shared by the two files of the parser: operands in parser.c, operators in
   parser_signs.c.  */
#ifndef BR_FORMULA_PARSER_PRIVATE_H
#define BR_FORMULA_PARSER_PRIVATE_H

#include "formula/tree.h"

typedef struct br__parser
{
  br__tree *tree;
  br__lexer *lexer;
  br_error *error;
  unsigned depth;
  size_t stack;         /* values that lie on the stack when the tree has run so far */
  size_t last_end;      /* offset behind the token that was taken last */
  int size;             /* a times sign that is no star ends the expression */
  int inside;           /* a closing bracket ends the expression */
  int exponent;         /* it is read behind a ^ */
  int rewrite;          /* words or raised digits were read: the text is written anew */
  size_t operand;       /* the value that was read last in a product */
  size_t mark;          /* where a mark of inches, feet or degrees behind a bracket begins; 0: none */
} br__parser;

br_status br__parse_advance (br__parser *p);
/* Enters one more level of brackets, powers or functions without brackets; fails at the limit, so recursion is bounded.  */
br_status br__parse_deeper (br__parser *p);
/* Adds a node whose subtree begins with node FIRST and text at OFFSET.  */
br_status br__parse_add (br__parser *p, br__op op, unsigned count, size_t first, size_t offset, const br__token *word);
/* Adds the number M, which it takes over, for the text WORD; MADE: it is not the number that stands there.  */
br_status br__parse_add_number (br__parser *p, br_measure *m, const br__token *word, int made);
/* parser.c: one value, a call or brackets.  */
br_status br__parse_primary (br__parser *p);
/* parser_signs.c.  1 for the bracket of pi(), which no value goes into; that of pi(r + 1) is a factor.  */
int br__closes_next (const br__lexer *l);
/* A whole expression.  */
br_status br__parse_sum (br__parser *p);

#endif
