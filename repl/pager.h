/* SPDX-License-Identifier: GPL-3.0-or-later
   pager.h - answers that are longer than the screen, in the program that PAGER names; on any terminal lines that are broken between
   words.  */
#ifndef REPL_PAGER_H
#define REPL_PAGER_H

#include "display.h"

typedef struct pager
{
  int off;
  int pages;            /* at the prompt; else lines are folded, and that is all */
  FILE *terminal;       /* where the answers go in the end, while they are kept back */
  char *text;
  size_t size;
} pager;

#define PAGER_ZERO { 0, 0, NULL, NULL, 0 }

/* Answers to D, a terminal, are kept back from here on.  */
void pager_begin (pager *p, display *d);
/* Writes the buffered output now; later output goes straight to the terminal.  Called before an error is reported.  */
void pager_pass (pager *p, display *d);
/* Ends the buffering: the output goes through the pager if it does not fit on the screen.  */
void pager_end (pager *p, display *d);

#endif
