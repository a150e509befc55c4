/* SPDX-License-Identifier: GPL-3.0-or-later
   interrupt.h - Ctrl-C, SIGTERM and SIGHUP while statements of a file or of -c run: long work ends early with the
   answer that it has, a file that is half written goes, and then the program ends as one that was ended so.  */
#ifndef REPL_INTERRUPT_H
#define REPL_INTERRUPT_H

#include "benchrule_sheet.h"

/* Around one run of SHEET.  A signal that was ignored stays so; a second one ends the program at once.  */
void interrupt_begin (br_sheet *sheet);
/* Ends the program by the signal, if it came; what was answered has been written by then.  */
void interrupt_end (br_sheet *sheet);

#endif
