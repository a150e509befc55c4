/* SPDX-License-Identifier: LGPL-3.0-or-later
   beside.h - the file that is written before it takes another's place.  */
#ifndef BR_FILE_BESIDE_H
#define BR_FILE_BESIDE_H

#include <sys/types.h>

/* Opens a file for what shall be called PATH (resolved, in FOLDER), of MODE less the umask.  *NAMELESS is 1 where it has no name
   and goes with the process; else *BESIDE gets its name, to be freed.  -1 with errno.  */
int br__beside_open (char **beside, int *nameless, const char *folder, const char *path, mode_t mode);
/* Gives it the name PATH: in the place of the file there if REPLACES, else only while there is none (EEXIST).
   *BESIDE is gone then.  0 with errno.  */
int br__beside_name (char **beside, int nameless, int fd, const char *path, int replaces);
/* Takes away what writers of PATH that were killed have left in FOLDER more than a day ago.  0 with errno where there
   is no memory.  */
int br__beside_clear (const char *folder, const char *path);

#endif
