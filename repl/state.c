/* SPDX-License-Identifier: GPL-3.0-or-later
   state.c - where the program keeps what outlives a run.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "state.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

char *
state_path (const char *name)
{
  const char *state = getenv ("XDG_STATE_HOME");
  const char *home = getenv ("HOME");
  struct stat found;
  char *path = NULL;
  int length = -1;
  if (state && *state == '/')
    length = asprintf (&path, "%s/benchrule/%s", state, name);
  else if (home && *home == '/' && stat (home, &found) == 0 && S_ISDIR (found.st_mode))    /* no home is made */
    length = asprintf (&path, "%s/.local/state/benchrule/%s", home, name);
  return length < 0 ? NULL : path;
}

int
state_make_folders (const char *path)
{
  char *copy = strdup (path);
  int good = copy != NULL;
  for (char *slash = good ? strchr (copy + 1, '/') : NULL; good && slash; slash = strchr (slash + 1, '/'))
    {
      *slash = '\0';
      good = mkdir (copy, 0700) == 0 || errno == EEXIST || errno == EISDIR;
      *slash = '/';
    }
  free (copy);
  return good;
}
