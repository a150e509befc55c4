/* SPDX-License-Identifier: GPL-3.0-or-later
   escape.h - how text is shown on a terminal, and the column of a byte in it.

   Text from a user or a file never reaches a terminal raw: control characters, DEL,
   C1 controls, bidirectional controls and invalid UTF-8 are escaped (\x1b, \u202e).
   Widths are those of the escaped text, so that a caret is in the right column.  */
#ifndef REPL_ESCAPE_H
#define REPL_ESCAPE_H

#include <stddef.h>

#define ESCAPE_SHOWN_SIZE 16

/* One character of a text as it is shown.  */
typedef struct escape_char
{
  size_t bytes;                     /* bytes it takes in the text, 1 or more */
  int width;                        /* columns of SHOWN; 0 for a combining mark */
  int broken;                       /* 1: no UTF-8, one byte */
  char shown[ESCAPE_SHOWN_SIZE];    /* with a final NUL */
} escape_char;

/* The character that TEXT, LENGTH bytes and at least one, begins with.  */
void escape_next (escape_char *c, const char *text, size_t length);
/* Columns that the shown form of TEXT takes.  */
int escape_width (const char *text, size_t length);
/* The column, from 1, of the byte at OFFSET: characters are counted, a combining mark
   belongs to the one before it, a tab is one.  */
size_t escape_column (const char *text, size_t length, size_t offset);
/* The shown form of TEXT.  The caller frees it; NULL when memory ran out.  */
char *escape_text (const char *text, size_t length);
/* The control character that TEXT begins with, one below U+10000, or 0; *BYTES gets what the first character takes.  */
unsigned escape_control (size_t *bytes, const char *text, size_t length);
/* TEXT as UTF-8: only broken bytes are spelled out.  As above.  */
char *escape_broken (const char *text, size_t length);

#endif
