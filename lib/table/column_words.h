/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_words.h - columns and files in a statement.  */
#ifndef BR_TABLE_COLUMN_WORDS_H
#define BR_TABLE_COLUMN_WORDS_H

#include "table/column.h"

/* Words of the line, by their offsets: the text between quotes, or up to the next blank.  */
typedef struct br__words
{
  size_t start, end;          /* without its quotes */
  size_t next;                /* behind it and the blanks that follow */
} br__words;

size_t br__words_skip_blanks (const br__run *run, size_t at);
/* The end of the bytes at AT that are no blank.  */
size_t br__words_skip (const br__run *run, size_t at);
int br__words_is (const br__run *run, size_t at, const char *word);
br_status br__words_quoted (br__words *p, br__run *run, size_t at);
/* The column's name or number at AT: in quotes, or all up to the word `of`.  */
br_status br__words_column (br__words *p, br__run *run, size_t at);
/* A number from 1, or a name: NAMED is NULL then.  */
br_status br__words_which (const char **named, size_t *named_length, size_t *number, br__run *run, const br__words *p);
/* The file's name at AT; *PATH stays NULL for -.  */
br_status br__words_file (char **path, br__place *place, size_t *next, br__run *run, size_t at, br_file_use use);

#endif
