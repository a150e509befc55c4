/* SPDX-License-Identifier: LGPL-3.0-or-later
   beside.h - the file that is written before it takes another's place.  */
#ifndef BR_FILE_BESIDE_H
#define BR_FILE_BESIDE_H

#include <sys/types.h>

/* Opens a temporary file in FOLDER that will become PATH (resolved), with MODE less the umask.  *NAMELESS is 1 if the file has
   no name and disappears with the process; else *BESIDE gets its name, which the caller frees.  -1 with errno.  */
int br__beside_open (char **beside, int *nameless, const char *folder, const char *path, mode_t mode);
/* Renames it to PATH.  If REPLACES it replaces a file there, else it fails if there is one (EEXIST).
   Frees *BESIDE.  0 with errno.  */
int br__beside_name (char **beside, int nameless, int fd, const char *path, int replaces);
/* Deletes temporary files for PATH in FOLDER that are older than a day, left by processes that were killed.  0 with errno if
   there is no memory.  */
int br__beside_clear (const char *folder, const char *path);

#endif
