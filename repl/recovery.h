/* SPDX-License-Identifier: GPL-3.0-or-later
   recovery.h - work at the prompt that is not saved yet lies in a file of its own, so that it is
   there after the program was killed or the power failed.  */
#ifndef REPL_RECOVERY_H
#define REPL_RECOVERY_H

#include "benchrule_sheet.h"
#include "display.h"

typedef struct recovery
{
  char *path;           /* NULL: nowhere to keep it */
  int kept;             /* the file is there */
  int warned;           /* a failure was told */
} recovery;

#define RECOVERY_ZERO { NULL, 0, 0 }

/* Tells of the files that earlier prompts have left behind.  */
void recovery_open (recovery *r, const display *d);
/* After a statement: the file holds what SHEET has that is not saved, or is gone.  */
void recovery_keep (recovery *r, const br_sheet *sheet, const display *d);
/* LEFT: the work was given up or saved, and the file goes; else it stays, after a signal.  */
void recovery_close (recovery *r, int left);

#endif
