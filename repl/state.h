/* SPDX-License-Identifier: GPL-3.0-or-later
   state.h - the folder $XDG_STATE_HOME/benchrule, or ~/.local/state/benchrule.  */
#ifndef REPL_STATE_H
#define REPL_STATE_H

/* The path of NAME in it, or NULL where there is no home.  The caller frees it.  */
char *state_path (const char *name);
/* Makes the folders that PATH lies in, for the user alone; 0 with errno where that failed.  */
int state_make_folders (const char *path);

#endif
