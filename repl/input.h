/* SPDX-License-Identifier: GPL-3.0-or-later
   input.h - lines from a stream that is no terminal.  */
#ifndef REPL_INPUT_H
#define REPL_INPUT_H

#include <stddef.h>
#include <stdio.h>

typedef enum input_result { INPUT_LINE, INPUT_END, INPUT_FAILED } input_result;

typedef struct input
{
  FILE *stream;
  char *bytes;          /* the line without its end */
  size_t length;
  size_t room;
  size_t line;          /* its number, from 1 */
} input;

#define INPUT_ZERO { NULL, NULL, 0, 0, 0 }

/* The next line, of any bytes; the last one need not be ended.  CR LF ends a line too, and a
   byte order mark before the first is left out.  Of a line longer than BR_MAX_LINE one byte
   more than that is kept, so that it shows as too long and takes no memory.  */
input_result input_next (input *in);
void input_clear (input *in);

#endif
