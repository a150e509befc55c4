/* SPDX-License-Identifier: LGPL-3.0-or-later
   topics.h - help by topic.  */
#ifndef BR_PHRASE_TOPICS_H
#define BR_PHRASE_TOPICS_H

#include <stddef.h>

typedef struct br__topic
{
  const char *word;
  const char *also;             /* words that lead to it, parted by blanks */
  const char *title;
  const char *examples;         /* lines ended by \n */
  const char *words;            /* statements and functions, parted by blanks; NULL: all of that kind */
} br__topic;

extern const char *const br__first_page;
/* Ends with a row without a word.  */
extern const br__topic br__topics[];

/* The topic that the word leads to, its plural too, or NULL.  */
const br__topic *br__topic_find (const char *word, size_t length);

#endif
