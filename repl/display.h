/* SPDX-License-Identifier: GPL-3.0-or-later
   display.h - an output stream with its capabilities: width, characters beyond ASCII, colour.
   All text written by display_put is escaped (see escape.h).  */
#ifndef REPL_DISPLAY_H
#define REPL_DISPLAY_H

#include <signal.h>
#include <stdio.h>

typedef enum display_color { DISPLAY_AUTO, DISPLAY_ALWAYS, DISPLAY_NEVER } display_color;

typedef struct display
{
  FILE *stream;
  int utf8;         /* signs beyond ASCII may be used */
  int color;
  int width;        /* columns; 80 where it is no terminal */
  int terminal;     /* it is one; HEIGHT rows, 0 where that is not known */
  int height;
  int no_pictures;  /* of rulers */
  const volatile sig_atomic_t *stop;    /* not 0: whoever reads has seen enough; or NULL */
} display;

/* AUTO colours a terminal, unless NO_COLOR is set and not empty or TERM is unset or dumb.  */
void display_init (display *d, FILE *stream, display_color color);
/* Asks the terminal for its width again.  */
void display_measure (display *d);

void display_put (const display *d, const char *text);
void display_put_bytes (const display *d, const char *text, size_t length);
/* Words from column COLUMN on, where the line is now; they go on in the next lines, INDENT blanks
   before them, and end the last.  */
void display_wrap (const display *d, const char *text, int column, int indent);
/* Bold and back; colour never says anything alone.  */
/* Writes TEXT, which is escaped already, to D: a line that is wider is broken at a blank, and goes on under its own
   indent.  */
void display_fold (const display *d, const char *text, size_t length);
void display_bold (const display *d, int on);
/* 1 if the rest of the output is no longer wanted.  */
int display_is_stopped (const display *d);
/* COUNT times the string.  */
void display_repeat (const display *d, const char *text, int count);
/* BEYOND if the stream can show it, else ASCII.  */
const char *display_sign (const display *d, const char *beyond, const char *ascii);

#endif
