/* SPDX-License-Identifier: GPL-3.0-or-later
   interrupt.h - Ctrl-C, SIGTERM and SIGHUP while statements of a file or of -c run: long work ends early with the
   answer that it has, a file that is half written goes, and then the program ends as one that was ended so.  */
#ifndef REPL_INTERRUPT_H
#define REPL_INTERRUPT_H

#include <time.h>

#include "benchrule_sheet.h"

/* 1 if work that was asked to stop at the time FIRST of CLOCK_MONOTONIC still runs a second later.  Until then another
   interrupt is ignored: the work stops by itself and deletes unfinished files.  May be called in signal handlers.  */
static inline int
interrupt_overdue (const struct timespec *first)
{
  struct timespec now;
  clock_gettime (CLOCK_MONOTONIC, &now);
  return now.tv_sec - first->tv_sec - (now.tv_nsec < first->tv_nsec) >= 1;
}

/* Around one run of SHEET.  A signal that was ignored stays so; a second one ends the program at once, from one second on.  */
void interrupt_begin (br_sheet *sheet);
/* 1 where a signal asked for the end.  */
int interrupt_came (void);
/* Ends the program by the signal, if it came; what was answered has been written by then.  */
void interrupt_end (br_sheet *sheet);

#endif
