/* SPDX-License-Identifier: LGPL-3.0-or-later
   topics.h - help by topic.  */
#ifndef BR_STATEMENT_TOPICS_H
#define BR_STATEMENT_TOPICS_H

#include <stddef.h>

typedef struct br__topic
{
  const char *word;
  const char *title;
  const char *examples;         /* lines ended by \n */
  const char *words;            /* statements and functions, parted by blanks; NULL: all of that kind */
} br__topic;

extern const char *const br__first_page;
/* Ends with a row without a word.  */
extern const br__topic br__topics[];

#endif
