/* SPDX-License-Identifier: GPL-3.0-or-later
   recovery.c - the file has a name by chance, and beside it one that is locked as long as its program lives: the
   system takes that lock away with the process, whatever its number was.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "recovery.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include "state.h"

#define PREFIX "unsaved-"
#define SUFFIX ".sheet"

/* ---- One file and its lock ---- */

/* The name of the lock of PATH; the caller frees it.  */
static char *
lock_of (const char *path)
{
  char *lock = NULL;
  return asprintf (&lock, "%.*s.lock", (int) (strlen (path) - strlen (SUFFIX)), path) < 0 ? NULL : lock;
}

/* A descriptor that holds LOCK, -1 while a program that lives has it.  */
static int
take_lock (const char *lock, int flags)
{
  int fd = open (lock, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW | flags, 0600);
  if (fd < 0 || flock (fd, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK)
    return fd;
  close (fd);
  return -1;
}

static void
let_go (recovery *r, int remove)
{
  if (remove && r->path)
    unlink (r->path);
  if (remove && r->lock)
    unlink (r->lock);
  if (r->lock_fd >= 0)
    close (r->lock_fd);
  free (r->path);
  free (r->lock);
  r->path = r->lock = NULL;
  r->lock_fd = -1;
  r->kept = r->recovered = 0;
}

static int
start_own (recovery *r)
{
  for (int i = 0; i < 100; i++)
    {
      unsigned long long chance = 0;
      char name[64];
      if (getrandom (&chance, sizeof chance, 0) != (ssize_t) sizeof chance)
        return 0;
      snprintf (name, sizeof name, PREFIX "%016llx" SUFFIX, chance);
      r->path = state_path (name);
      r->warned |= !r->path;    /* the prompt has said that there is no home */
      r->lock = r->path ? lock_of (r->path) : NULL;
      if (!r->lock || !state_make_folders (r->path))
        break;
      r->lock_fd = take_lock (r->lock, O_EXCL);
      if (r->lock_fd >= 0)
        return 1;
      int again = errno == EEXIST;
      let_go (r, 0);
      if (!again)
        return 0;
    }
  int why = errno;
  let_go (r, 0);
  errno = why;
  return 0;
}

/* ---- What is left ---- */

static int
is_kept_name (const char *name)
{
  size_t n = strlen (name);
  return n > strlen (PREFIX SUFFIX) && strncmp (name, PREFIX, strlen (PREFIX)) == 0
         && strcmp (name + n - strlen (SUFFIX), SUFFIX) == 0;
}

typedef struct leftover
{
  char *path, *lock;
  int fd;               /* holds the lock */
  struct timespec when;
} leftover;

static void
drop_leftover (leftover *l)
{
  if (l->fd >= 0)
    close (l->fd);
  free (l->path);
  free (l->lock);
}

static int
is_later (const struct timespec *x, const struct timespec *y)
{
  return x->tv_sec != y->tv_sec ? x->tv_sec > y->tv_sec : x->tv_nsec > y->tv_nsec;
}

/* Calls EACH for every file that no living program has; what it returns 1 for is its own from then on.  */
static void
each_leftover (int (*each) (void *user, leftover *l), void *user)
{
  char *folder = state_path ("");
  DIR *dir = folder ? opendir (folder) : NULL;
  const struct dirent *entry;
  while (dir && (entry = readdir (dir)) != NULL)
    {
      leftover l = { NULL, NULL, -1, { 0, 0 } };
      struct stat st;
      if (!is_kept_name (entry->d_name))
        continue;
      l.path = state_path (entry->d_name);
      l.lock = l.path ? lock_of (l.path) : NULL;
      l.fd = l.lock ? take_lock (l.lock, 0) : -1;
      if (l.fd >= 0 && lstat (l.path, &st) == 0 && S_ISREG (st.st_mode))
        {
          l.when = st.st_mtim;
          if (each (user, &l))
            continue;
        }
      drop_leftover (&l);
    }
  if (dir)
    closedir (dir);
  free (folder);
}

/* Reports the content of a recovery file: the name of the sheet, and how many lines.  */
static int
tell_one (void *user, leftover *l)
{
  const display *d = user;
  FILE *stream = fopen (l->path, "re");
  char *line = NULL, name[200] = "a sheet without a name";
  size_t room = 0, lines = 0;
  int head = 1;
  while (stream && getline (&line, &room, stream) > 0)
    {
      line[strcspn (line, "\n")] = 0;
      if (!head)
        lines++;
      else if (strncmp (line, "file ", 5) == 0)
        snprintf (name, sizeof name, "%s", strrchr (line, '/') ? strrchr (line, '/') + 1 : line + 5);
      else if (!*line)
        head = 0;
    }
  free (line);
  if (stream)
    fclose (stream);
  fputs ("Unsaved work is left from before: ", d->stream);
  display_put (d, name);
  fprintf (d->stream, ", %zu line%s\n", lines, lines == 1 ? "" : "s");
  return 0;
}

static int
count_one (void *user, leftover *l)
{
  (void) l;
  ++*(size_t *) user;
  return 0;
}

void
recovery_tell (const display *d)
{
  size_t count = 0;
  each_leftover (count_one, &count);
  if (!count)
    return;
  each_leftover (tell_one, (void *) d);
  fprintf (d->stream, "  recover       brings %s back as it was\n"
                      "  recover drop  throws it away\n", count == 1 ? "it" : "the latest");
}

static int
take_latest (void *user, leftover *l)
{
  leftover *best = user;
  if (best->path && !is_later (&l->when, &best->when))
    return 0;
  drop_leftover (best);
  *best = *l;
  return 1;
}

const char *
recovery_keeper (void *user, br_kept what)
{
  recovery *r = user;
  if (what == BR_KEPT_DROP)
    let_go (r, 1);
  else if (what == BR_KEPT_TAKEN)
    r->recovered = r->kept = 1;
  else if (!r->recovered)
    {
      leftover best = { NULL, NULL, -1, { 0, 0 } };
      each_leftover (take_latest, &best);
      if (!best.path)
        return NULL;
      /* This program's own file is made anew after the statement.  */
      let_go (r, 1);
      r->path = best.path;
      r->lock = best.lock;
      r->lock_fd = best.fd;
      r->recovered = r->kept = 1;
    }
  return r->path;
}

/* ---- This program's own ---- */

void
recovery_saved (recovery *r)
{
  if (r->recovered)
    let_go (r, 1);
}

void
recovery_keep (recovery *r, const br_sheet *sheet, int saved, const display *d)
{
  br_error error = { BR_OK, 0, 0, "", "" };
  if (!br_sheet_unsaved (sheet))
    {
      /* If the recovery was undone, the old file is left unchanged.  */
      let_go (r, saved || !r->recovered);
      return;
    }
  if ((r->path || start_own (r)) && br_sheet_keep (sheet, r->path, &error) == BR_OK)
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
  let_go (r, (left && !r->recovered) || !r->kept);
}
