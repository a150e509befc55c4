/* SPDX-License-Identifier: GPL-3.0-or-later
   line.h - lines that are typed at the prompt.

   line.c is the only file that knows the line editor; built without it, lines come from
   standard input as they are.  There is one prompt in a process, as there is one terminal:
   that is the only hidden state of the program.  */
#ifndef REPL_LINE_H
#define REPL_LINE_H

#include <signal.h>
#include <stddef.h>

typedef enum line_result
{
  LINE_TEXT,        /* a line, perhaps with line breaks where it was pasted */
  LINE_END,         /* Ctrl-D on an empty line */
  LINE_INTERRUPT,   /* Ctrl-C: the line is dropped */
  LINE_LEAVE,       /* a signal asks to end: see line_die */
  LINE_FAILED
} line_result;

/* The words that could stand at the end of TEXT[0..POINT): a list that ends with NULL, all of it
   to be freed, or NULL.  START gets where the word begins, FILE 1 for a file name.  */
typedef char **line_words (void *user, const char *text, size_t point, size_t *start, int *file);

/* "GNU Readline 8.2" or "none".  */
const char *line_version (void);
/* Takes over the signals, reads the history; TEXT is the prompt.  */
void line_open (const char *text, line_words *words, void *user);
/* TEXT gets a line that the caller frees.  */
line_result line_read (char **text);
/* Set by a signal that came while no line was read; for br_sheet_watch.  */
const volatile sig_atomic_t *line_flag (void);
/* Between a statement and the next: forgets an interrupt.  1 if there was one.  */
int line_rearm (void);
void line_close (void);
/* Ends the process by the signal that asked for it, if one did.  After line_close.  */
void line_die (void);

#endif
