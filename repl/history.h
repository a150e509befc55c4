/* SPDX-License-Identifier: GPL-3.0-or-later
   history.h - what was typed, kept from one prompt to the next in
   $XDG_STATE_HOME/benchrule/history, or ~/.local/state/benchrule/history.

   One entry a line; a line break in an entry is written \n, a backslash \\.  Every entry
   is added under a lock to what the file then holds, so that two prompts keep both.  */
#ifndef REPL_HISTORY_H
#define REPL_HISTORY_H

#include <stddef.h>

#define HISTORY_MOST 1000

/* The path, or NULL where there is no home.  The caller frees it.  */
char *history_path (void);
/* Calls ENTRY for each entry, oldest first.  1 also where there is no file yet.  */
int history_load (const char *path, void (*entry) (const char *text));
/* Adds TEXT, unless it is what the file ends with.  0 with errno where that failed.  */
int history_add (const char *path, const char *text);

#endif
