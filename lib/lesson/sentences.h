/* SPDX-License-Identifier: LGPL-3.0-or-later
   sentences.h - a teacher's own words for the sentences of papers: a table with the program's English in one column and what
   stands instead in another.  */
#ifndef BR_LESSON_SENTENCES_H
#define BR_LESSON_SENTENCES_H

#include "table/rows.h"
#include "sheet/sheet.h"

typedef struct br__sentences
{
  br__rows rows;        /* none: English */
  size_t english, own;  /* the columns */
  int both;             /* English beside it */
  int off;              /* words of the trade are not explained */
} br__sentences;

/* What WORDS (may be NULL) have for ENGLISH, which is a sentence of papers; else that.  */
const char *br__sentences_find (const br__sentences *words, const char *english);
/* The same; in two languages both, a slash between them.  */
void br__sentences_put (br_text *t, const br__sentences *words, const char *english);
/* The language of papers, as "de": what WORDS have beside "en".  */
const char *br__sentences_language (const br__sentences *words);
/* The explanation of the next word of the trade in TEXT, which is English, that is not yet TOLD, a bit for each; NULL for none.  */
const char *br__sentences_explain (unsigned *told, const char *text);

br_status br__do_words (br__run *run);

#endif
