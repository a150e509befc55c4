/* SPDX-License-Identifier: GPL-3.0-or-later
   input.h - lines from a stream that is no terminal.  */
#ifndef REPL_INPUT_H
#define REPL_INPUT_H

#include <stddef.h>

typedef enum input_result { INPUT_LINE, INPUT_END, INPUT_FAILED } input_result;

typedef struct input
{
  int fd;
  char *bytes;          /* the line without its end */
  size_t length;
  size_t room;
  size_t line;          /* its number, from 1 */
  char *block;          /* what was read ahead: from AT to END */
  size_t at, end;
} input;

#define INPUT_ZERO { 0, NULL, 0, 0, 0, NULL, 0, 0 }

/* Reads the next line, of any bytes; the last one need not end with a line feed.  CR LF also ends a line, and a
   byte order mark before the first is skipped.  Of a line longer than BR_MAX_LINE only BR_MAX_LINE + 1 bytes are
   kept: enough to see that it is too long, without using more memory.  */
input_result input_next (input *in);
/* 1 where the next line is there already, whole, so that nobody is waited for.  */
int input_waits (const input *in);
void input_clear (input *in);

#endif
