/* SPDX-License-Identifier: LGPL-3.0-or-later
   words.h - the known word that is most similar to a misspelled one.  */
#ifndef BR_FORMULA_WORDS_H
#define BR_FORMULA_WORDS_H

#include "formula/lexer.h"

/* Looks for the word nearest to a given one among those that are offered.  */
typedef struct br__search
{
  const char *word;
  size_t length;
  const char *best;
  size_t distance;      /* of BEST; over the bound while there is none */
} br__search;

/* A sheet of thousands was not typed by hand: of its names so many are offered, as the time of each line must not grow with it.  */
#define BR__MOST_OFFERED 500
void br__search_start (br__search *s, const char *word, size_t length);
void br__search_offer (br__search *s, const char *candidate);

/* NULL where none is near.  */
const char *br__nearest_function (const char *name, size_t length);

/* The number TEXT is written in per cent: its value is a plain one.  */
int br__is_per_cent (const char *text, size_t length);
/* The token at hand is a word that parts the clauses of a statement, so that `round radius to 1/8`
   is not read as the function radius before a dimension called `to`.  */
int br__is_clause_word (const br__lexer *l);

/* The question about shapes for the word before a bracket, as in top(deck); BR__SHAPE_NONE if it is none.  */
int br__shape_word (const char *word, size_t length);

#endif
