/* SPDX-License-Identifier: GPL-3.0-or-later
   recovery.h - work at the prompt that is not saved yet lies in a file of its own, so that it is
   there after the program was killed or the power failed, and `recover` brings it back.  */
#ifndef REPL_RECOVERY_H
#define REPL_RECOVERY_H

#include "benchrule_sheet.h"
#include "display.h"

typedef struct recovery
{
  char *path, *lock;    /* the file and the one that is locked while this program lives, or NULL */
  int lock_fd;          /* -1: none */
  int kept;             /* the file is there */
  int recovered;        /* it was left by an earlier prompt, and stays until it is saved */
  int warned;           /* a failure was reported */
} recovery;

#define RECOVERY_ZERO { NULL, NULL, -1, 0, 0, 0 }

/* Tells of the files that earlier prompts have left behind.  */
void recovery_tell (const display *d);
/* For br_sheet_set_keeper; USER is a recovery.  */
const char *recovery_keeper (void *user, br_kept what);
/* After a statement: the file holds what SHEET has that is not saved, or is gone.  SAVED: the sheet was saved by it.  */
void recovery_keep (recovery *r, const br_sheet *sheet, int saved, const display *d);
/* The same without a prompt, where only a recovered sheet has a recovery file.  */
void recovery_saved (recovery *r);
/* LEFT: the work was given up or saved, and the file goes; else it stays, after a signal.  What was recovered and is not
   saved stays in any case.  */
void recovery_close (recovery *r, int left);

#endif
