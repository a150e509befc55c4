/* SPDX-License-Identifier: GPL-3.0-or-later
   history.c - what was typed, kept in a file that several prompts may share: a side file
   is locked, the file read again, and the new one put in its place by rename.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "history.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "state.h"

char *
history_path (void)
{
  return state_path ("history");
}

/* PATH with SUFFIX; the caller frees it.  */
static char *
beside (const char *path, const char *suffix)
{
  char *whole = NULL;
  return asprintf (&whole, "%s%s", path, suffix) < 0 ? NULL : whole;
}

/* Turns the written form in LINE into the entry, in place.  */
static void
unescape (char *line)
{
  char *to = line;
  for (const char *from = line; *from; from++)
    {
      int coded = from[0] == '\\' && (from[1] == 'n' || from[1] == '\\');
      from += coded;
      *to++ = coded && *from == 'n' ? '\n' : *from;
    }
  *to = '\0';
}

static void
put_escaped (FILE *stream, const char *text)
{
  for (; *text; text++)
    if (*text == '\n')
      fputs ("\\n", stream);
    else if (*text == '\\')
      fputs ("\\\\", stream);
    else
      putc (*text, stream);
  putc ('\n', stream);
}

typedef struct entries
{
  char *lines[HISTORY_MOST];    /* in written form; a ring that begins at FIRST */
  size_t first, count;
} entries;

static void
entries_push (entries *e, char *line)
{
  if (e->count == HISTORY_MOST)
    {
      free (e->lines[e->first]);
      e->lines[e->first] = line;
      e->first = (e->first + 1) % HISTORY_MOST;
    }
  else
    e->lines[e->count++] = line;
}

static char *
entries_at (const entries *e, size_t index)
{
  return e->lines[(e->first + index) % HISTORY_MOST];
}

static void
entries_clear (entries *e)
{
  for (size_t i = 0; i < e->count; i++)
    free (entries_at (e, i));
  e->count = e->first = 0;
}

#define MOST_BYTES 4194304     /* of a longer file the end is read: it was made by something else */

/* The entries of PATH, none where it does not exist.  */
static int
entries_read (entries *e, const char *path)
{
  FILE *stream = NULL;
  char *line = NULL;
  size_t room = 0;
  struct stat st;
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (fd < 0)
    return errno == ENOENT;
  /* A pipe or a folder in its place is no history, and must not hold the prompt up.  */
  if (fstat (fd, &st) != 0 || !S_ISREG (st.st_mode) || !(stream = fdopen (fd, "r")))
    {
      close (fd);
      errno = EINVAL;
      return 0;
    }
  if (st.st_size > MOST_BYTES && fseeko (stream, -MOST_BYTES, SEEK_END) == 0)
    (void) !getline (&line, &room, stream);
  while (getline (&line, &room, stream) > 0)
    {
      line[strcspn (line, "\n")] = '\0';
      unescape (line);
      if (*line)
        {
          entries_push (e, line);
          line = NULL;
          room = 0;
        }
    }
  free (line);
  int good = !ferror (stream);
  fclose (stream);
  return good;
}

/* Puts the entries in the place of PATH.  A link keeps pointing where it does.  */
static int
entries_write (const entries *e, const char *path)
{
  char *real = realpath (path, NULL);
  const char *target = real ? real : path;
  char *aside = beside (target, ".new");
  int fd = aside ? open (aside, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600) : -1;
  FILE *stream = fd >= 0 ? fdopen (fd, "w") : NULL;
  int good = stream != NULL;
  for (size_t i = 0; good && i < e->count; i++)
    put_escaped (stream, entries_at (e, i));
  if (stream)
    {
      int broken = ferror (stream);
      good = fclose (stream) == 0 && !broken;
    }
  else if (fd >= 0)
    close (fd);
  good = good && rename (aside, target) == 0;
  int reason = errno;
  if (!good && fd >= 0)
    unlink (aside);
  free (aside);
  free (real);
  errno = reason;
  return good;
}

int
history_load (const char *path, void (*entry) (const char *text))
{
  entries *e = calloc (1, sizeof *e);
  int good = e && entries_read (e, path);
  for (size_t i = 0; e && i < e->count; i++)
    entry (entries_at (e, i));
  if (e)
    entries_clear (e);
  free (e);
  return good;
}

/* With the lock held: reads, adds, writes.  */
static int
merge (const char *path, const char *text)
{
  entries *e = calloc (1, sizeof *e);
  char *copy = strdup (text);
  int good = e && copy && entries_read (e, path);
  if (good && (e->count == 0 || strcmp (entries_at (e, e->count - 1), text) != 0))
    {
      entries_push (e, copy);
      copy = NULL;
      good = entries_write (e, path);
    }
  int reason = errno;
  if (e)
    entries_clear (e);
  free (e);
  free (copy);
  errno = reason;
  return good;
}

/* The longest wait for the lock.  */
#define LOCK_WAIT_MS 200

static int
take_lock (int fd)
{
  static const struct timespec pause = { 0, 10 * 1000000 };
  for (int waited = 0; flock (fd, LOCK_EX | LOCK_NB) != 0; waited += 10)
    {
      if ((errno != EWOULDBLOCK && errno != EINTR) || waited >= LOCK_WAIT_MS)
        return 0;
      nanosleep (&pause, NULL);
    }
  return 1;
}

int
history_add (const char *path, const char *text)
{
  char *lock = beside (path, ".lock");
  int good = lock && state_make_folders (path);
  int fd = good ? open (lock, O_RDWR | O_CREAT | O_CLOEXEC | O_NONBLOCK, 0600) : -1;
  good = fd >= 0 && take_lock (fd) && merge (path, text);
  int reason = errno;
  if (fd >= 0)
    close (fd);
  free (lock);
  errno = reason;
  return good;
}
