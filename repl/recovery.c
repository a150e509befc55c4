/* SPDX-License-Identifier: GPL-3.0-or-later
   recovery.c - the file is named after the process; one whose process is gone is left work.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "recovery.h"

#include <dirent.h>
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "state.h"

#define PREFIX "unsaved-"
#define SUFFIX ".sheet"

/* The process that NAME is of, 0 where it is no such file.  */
static long
process_of (const char *name)
{
  char *end;
  if (strncmp (name, PREFIX, sizeof PREFIX - 1) != 0)
    return 0;
  long id = strtol (name + sizeof PREFIX - 1, &end, 10);
  return strcmp (end, SUFFIX) == 0 && id > 0 ? id : 0;
}

static void
tell_left (const display *d, const char *folder)
{
  DIR *dir = opendir (folder);
  const struct dirent *entry;
  int told = 0;
  while (dir && (entry = readdir (dir)) != NULL)
    {
      long id = process_of (entry->d_name);
      if (!id || kill ((pid_t) id, 0) == 0 || errno != ESRCH)
        continue;
      if (!told++)
        fputs ("Unsaved work is left from before; remove the file when you are done with it.\n",
               d->stream);
      display_put (d, "  open ");
      display_put (d, folder);
      display_put (d, "/");
      display_put (d, entry->d_name);
      putc ('\n', d->stream);
    }
  if (dir)
    closedir (dir);
}

void
recovery_open (recovery *r, const display *d)
{
  char name[64];
  snprintf (name, sizeof name, PREFIX "%ld" SUFFIX, (long) getpid ());
  r->path = state_path (name);
  char *folder = state_path ("");
  if (folder)
    {
      folder[strlen (folder) - 1] = '\0';
      tell_left (d, folder);
    }
  free (folder);
}

void
recovery_keep (recovery *r, const br_sheet *sheet, const display *d)
{
  br_error error = { BR_OK, 0, 0, "", "" };
  if (!r->path)
    return;
  if (!br_sheet_unsaved (sheet))
    {
      if (r->kept)
        unlink (r->path);
      r->kept = 0;
      return;
    }
  if (state_make_folders (r->path) && br_sheet_write (sheet, r->path, &error) == BR_OK)
    r->kept = 1;
  else if (!r->warned)
    {
      r->warned = 1;
      display_put (d, "(a copy of what is not saved could not be kept: ");
      display_put (d, error.status != BR_OK ? error.message : strerror (errno));
      fputs (")\n", d->stream);
    }
}

void
recovery_close (recovery *r, int left)
{
  if (left && r->kept)
    unlink (r->path);
  free (r->path);
  r->path = NULL;
  r->kept = 0;
}
