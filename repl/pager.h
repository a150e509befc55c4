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
/* What is kept back is written now, and what comes goes straight to the terminal: a mistake is told between them.  */
void pager_pass (pager *p, display *d);
/* What is kept back goes through the pager if the screen has not room for it.  */
void pager_end (pager *p, display *d);

#endif
