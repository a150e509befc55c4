/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase_words.h - a line as the words that phrases are made of: phrase.c.  */
#ifndef BR_STATEMENT_PHRASE_WORDS_H
#define BR_STATEMENT_PHRASE_WORDS_H

#include "sheet/sheet.h"

#define BR__MOST_WORDS 64
#define BR__MOST_MADE 24

/* A line as words.  MADE holds the texts of those that were not typed.  */
typedef struct br__words
{
  const br__run *run;
  struct { const char *s; size_t length; } word[BR__MOST_WORDS];
  size_t count;
  char made[BR__MOST_MADE][24];
  size_t made_count;
  int changed;
} br__words;

/* Cuts the statement of L->run at its blanks.  */
void br__words_cut (br__words *l);
/* The word I is WORD, in whatever letters.  */
int br__word_at (const br__words *l, size_t i, const char *word);
/* The words from I on are those of PHRASE, which blanks part; a|b is one of the two.  */
int br__words_at (const br__words *l, size_t i, const char *phrase);
/* The sheet knows the word I as a name.  */
int br__word_known (const br__words *l, size_t i);
/* 1 for a whole number or a fraction in digits, *N / *D, in the word I.  */
int br__word_ratio (const br__words *l, size_t i, int64_t *n, int64_t *d);
/* Puts the words of TEXT, which the caller keeps, in the place of N words from I on.  */
void br__words_put (br__words *l, size_t i, size_t n, const char *text);
/* Numbers in words as digits, and signs in words as signs.  */
void br__phrase_numbers (br__words *l);
void br__phrase_signs (br__words *l);
/* 1 where a sum goes on from I on, and where the word I is a part before `of`.  */
int br__sum_follows (const br__words *l, size_t i);
int br__takes_of (const br__words *l, size_t i);

#endif
