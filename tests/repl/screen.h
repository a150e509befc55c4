/* SPDX-License-Identifier: GPL-3.0-or-later
   screen.h - what a terminal would show: just enough of one for the tests of the prompt.
   Rows do not scroll away, so that in the end the screen is the whole transcript.  */
#ifndef TESTS_REPL_SCREEN_H
#define TESTS_REPL_SCREEN_H

#include <stddef.h>
#include <stdio.h>

#define SCREEN_ROWS 400
#define SCREEN_COLUMNS 200

typedef struct screen
{
  char cells[SCREEN_ROWS][SCREEN_COLUMNS][5];   /* UTF-8, "" is blank */
  int row, column;
  int columns;                                  /* of the terminal */
  int rows;                                     /* of the terminal */
  char control[32];                             /* a control sequence that is not whole yet */
  size_t control_length;
  char partial[5];                              /* a character that is not whole yet */
  size_t partial_length;
} screen;

void screen_init (screen *s, int rows, int columns);
void screen_feed (screen *s, const char *bytes, size_t length);
/* The rows, without blanks at their ends and blank rows at the end.  */
void screen_put (const screen *s, FILE *stream);

#endif
