/* SPDX-License-Identifier: LGPL-3.0-or-later
   beside.c - the file that is written before it takes another's place.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "exact/memory.h"
#include "exact/text.h"
#include "file/beside.h"
#include "file/file.h"

#define ENDING ".benchrule-part"
#define DAY (24 * 60 * 60)
#define TRIES 100

/* Puts how such names for PATH begin: a dot, its name as far as there is room, a dot.  */
static void
put_start (br_text *t, const char *path)
{
  const char *base = br__file_base (path);
  br__text_printf (t, ".%.*s.", (int) strnlen (base, 200), base);
}

/* A name that nothing has, as far as chance goes.  */
static char *
new_name (const char *path)
{
  br_text t = BR_TEXT_ZERO;
  uint64_t chance = 0;
  if (getrandom (&chance, sizeof chance, GRND_NONBLOCK) != (ssize_t) sizeof chance)
    {
      struct timespec now;
      clock_gettime (CLOCK_REALTIME, &now);
      chance = (uint64_t) now.tv_nsec << 32 ^ (uint64_t) now.tv_sec ^ (uint64_t) (size_t) &t;
    }
  br__text_put (&t, path, (size_t) (br__file_base (path) - path));
  put_start (&t, path);
  br__text_printf (&t, "%016llx" ENDING, (unsigned long long) chance);
  char *name = t.failed ? NULL : br__strndup (br__text_string (&t), t.length);
  br__text_clear (&t);
  if (!name)
    errno = ENOMEM;
  return name;
}

static void
put_descriptor (char *name, size_t size, int fd)
{
  snprintf (name, size, "/proc/self/fd/%d", fd);
}

/* -1 where the file system has no such files, or they could not be named afterwards.  */
static int
open_nameless (const char *folder, mode_t mode)
{
  char name[40];
  struct stat st;
  int fd;
  do
    fd = open (folder, O_TMPFILE | O_WRONLY | O_CLOEXEC, mode);
  while (fd < 0 && errno == EINTR);
  if (fd < 0)
    return -1;
  put_descriptor (name, sizeof name, fd);
  if (lstat (name, &st) == 0 && S_ISLNK (st.st_mode))
    return fd;
  close (fd);
  return -1;
}

int
br__beside_open (char **beside, int *nameless, const char *folder, const char *path, mode_t mode)
{
  int fd = open_nameless (folder, mode);
  *beside = NULL;
  *nameless = fd >= 0;
  for (int i = 0; fd < 0 && i < TRIES; i++)
    {
      char *name = new_name (path);
      if (!name)
        return -1;
      fd = open (name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
      if (fd >= 0)
        {
          *beside = name;
          break;
        }
      int why = errno;
      br__free (name);
      errno = why;
      if (why != EEXIST && why != EINTR)
        break;
    }
  return fd;
}

static int
link_it (const char *from, int nameless, const char *to)
{
  int done;
  do
    done = linkat (AT_FDCWD, from, AT_FDCWD, to, nameless ? AT_SYMLINK_FOLLOW : 0);
  while (done < 0 && errno == EINTR);
  return done == 0;
}

/* 1 where the file has a name beside PATH now.  */
static int
name_beside (char **beside, const char *descriptor, const char *path)
{
  for (int i = 0; i < TRIES; i++)
    {
      char *name = new_name (path);
      if (!name)
        return 0;
      if (link_it (descriptor, 1, name))
        {
          *beside = name;
          return 1;
        }
      int why = errno;
      br__free (name);
      errno = why;
      if (why != EEXIST)
        return 0;
    }
  return 0;
}

int
br__beside_name (char **beside, int nameless, int fd, const char *path, int replaces)
{
  char descriptor[40];
  int done;
  put_descriptor (descriptor, sizeof descriptor, fd);
  if (!replaces)
    {
      if (link_it (nameless ? descriptor : *beside, nameless, path))
        {
          if (*beside)
            unlink (*beside);
          goto named;
        }
      /* Some file systems have no links; a name is given there by renaming alone.  */
      struct stat st;
      if (nameless || (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS))
        return 0;
      if (lstat (path, &st) == 0)
        {
          errno = EEXIST;
          return 0;
        }
    }
  else if (nameless && !name_beside (beside, descriptor, path))
    return 0;
  do
    done = rename (*beside, path);
  while (done < 0 && errno == EINTR);
  if (done < 0)
    return 0;
named:
  br__free (*beside);
  *beside = NULL;
  return 1;
}

int
br__beside_clear (const char *folder, const char *path)
{
  br_text start = BR_TEXT_ZERO;
  put_start (&start, path);
  int failed = start.failed;
  DIR *dir = failed ? NULL : opendir (folder);
  const struct dirent *entry;
  time_t now = time (NULL);
  while (dir && (entry = readdir (dir)) != NULL)
    {
      struct stat st;
      size_t n = strlen (entry->d_name), tail = 16 + strlen (ENDING);
      if (n == start.length + tail && memcmp (entry->d_name, br__text_string (&start), start.length) == 0
          && strcmp (entry->d_name + start.length + 16, ENDING) == 0
          && fstatat (dirfd (dir), entry->d_name, &st, AT_SYMLINK_NOFOLLOW) == 0 && S_ISREG (st.st_mode)
          && st.st_uid == geteuid () && st.st_mtime < now - DAY)
        unlinkat (dirfd (dir), entry->d_name, 0);
    }
  if (dir)
    closedir (dir);
  br__text_clear (&start);
  errno = ENOMEM;
  return !failed;
}
