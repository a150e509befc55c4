/* SPDX-License-Identifier: GPL-3.0-or-later
   history.h - the typed lines, saved between sessions in
   $XDG_STATE_HOME/benchrule/history, or ~/.local/state/benchrule/history.

   One entry per line; a line break in an entry is written \n, a backslash \\.  Every entry
   is appended under a lock, so that two prompts at once lose no entries.  */
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
