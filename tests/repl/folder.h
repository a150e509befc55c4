/* SPDX-License-Identifier: GPL-3.0-or-later
   folder.h - taking away a folder that a test has worked in.  */
#ifndef TESTS_REPL_FOLDER_H
#define TESTS_REPL_FOLDER_H

#include <ftw.h>
#include <stdio.h>

static int
folder_remove_one (const char *path, const struct stat *info, int type, struct FTW *walk)
{
  (void) info;
  (void) type;
  (void) walk;
  return remove (path);
}

/* Removes PATH and all that is in it; 0 where that was done.  */
static int
folder_remove (const char *path)
{
  return nftw (path, folder_remove_one, 8, FTW_DEPTH | FTW_PHYS);
}

#endif
