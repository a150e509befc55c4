/* SPDX-License-Identifier: LGPL-3.0-or-later
   file.c - reading files whole, and telling them apart.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "exact/text.h"
#include "file/file.h"

/* A size that no sheet reaches.  */
#define MOST_BYTES (64u << 20)
#define MOST_LINKS 40

const char *
br__system_words (int number)
{
  switch (number)
    {
    case ENOENT: return "there is no such file or folder";
    case EACCES: case EPERM: return "it is not allowed";
    case EISDIR: return "it is a folder";
    case ENOTDIR: return "a part of its path is no folder";
    case ENOSPC: case EDQUOT: return "the disk is full";
    case EROFS: return "the disk can only be read";
    case EIO: return "the disk does not answer";
    case ENAMETOOLONG: return "the name is too long";
    case EMFILE: case ENFILE: return "too many files are open";
    case EFBIG: return "the file would be too large";
    case EPIPE: return "the reader has gone";
    case ENXIO: return "nobody reads from it";
    case ENOMEM: return "out of memory";
    case ELOOP: return "its links lead in a circle";
    case EBUSY: return "another program has just changed it";
    case EEXIST: return "something else has just made a file of that name";
    case ENOEXEC: return "it is no plain file";
    default: return "the system refuses";
    }
}

br_status
br__can_not (br_error *error, const char *what, const char *path, int number)
{
  if (number == ENOMEM || (number == EINTR && br__wait_ends ()))
    return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  return br__fail (error, BR_IO, 0, 0, "cannot %s `%.*s`: %s", what, BR__CLIP (path, 140),
                   br__system_words (number));
}

static br_status
read_all (char **bytes, size_t *length, int fd, const char *path, const br__reading *how, br_error *error)
{
  char *text = NULL;
  size_t used = 0, room = 0, limit = how->limit ? how->limit : MOST_BYTES;
  while (!how->head || used < how->head)
    {
      if (!br__grow (&text, &room, used + 65536, 1))
        {
          br__free (text);
          return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
        }
      ssize_t got = read (fd, text + used, room - used);
      if (got < 0 && errno == EINTR && !br__wait_ends ())
        continue;
      if (got < 0 || used > limit)
        {
          int why = got < 0 ? errno : EFBIG;
          br__free (text);
          return br__can_not (error, "read", path, why);
        }
      if (got == 0)
        break;
      used += (size_t) got;
    }
  *bytes = text;
  *length = used;
  return BR_OK;
}

br_status
br__file_read_as (char **bytes, size_t *length, const char *path, const br__reading *how, br_error *error)
{
  struct stat st;
  int fd;
  /* A pipe that nobody writes to would hold up the opening itself.  */
  do
    fd = open (path, O_RDONLY | O_CLOEXEC | (how->plain ? O_NONBLOCK | O_NOCTTY : 0));
  while (fd < 0 && errno == EINTR && !br__wait_ends ());
  if (fd < 0)
    return br__can_not (error, "read", path, errno);
  memset (&st, 0, sizeof st);
  int why = fstat (fd, &st) < 0 ? errno : how->plain && !S_ISREG (st.st_mode) ? S_ISDIR (st.st_mode) ? EISDIR : ENOEXEC : 0;
  br_status status = why ? br__can_not (error, "read", path, why)
                     : read_all (bytes, length, fd, path, how, error);
  close (fd);
  if (status == BR_OK && how->st)
    *how->st = st;
  return status;
}

br_status
br__file_read (char **bytes, size_t *length, const char *path, br_error *error)
{
  static const br__reading whole = { 0, 0, 0, NULL };
  return br__file_read_as (bytes, length, path, &whole, error);
}

/* ---- Which file it is ---- */

int
br__same_file (const char *path, const char *other)
{
  struct stat a, b;
  if (strcmp (path, other) == 0)
    return 1;
  return stat (path, &a) == 0 && stat (other, &b) == 0 && br__same_stat (&a, &b);
}

const char *
br__file_base (const char *path)
{
  const char *slash = strrchr (path, '/');
  return slash ? slash + 1 : path;
}

/* NAME in the folder that PATH is in, if NAME is no path from the root.  */
static int
put_beside (br_text *t, const char *path, const char *name)
{
  br__text_reset (t);
  if (*name != '/')
    br__text_put (t, path, (size_t) (br__file_base (path) - path));
  br__text_puts (t, name);
  return !t->failed;
}

/* Puts into T what PATH leads to by its last part, link after link.  */
static int
follow (br_text *t, const char *path)
{
  char target[PATH_MAX];
  br_text next = BR_TEXT_ZERO;
  br__text_puts (t, path);
  for (int links = 0; !t->failed; links++)
    {
      ssize_t n = readlink (br__text_string (t), target, sizeof target - 1);
      if (n < 0)
        break;
      target[n] = 0;
      errno = ELOOP;
      if (links == MOST_LINKS || !put_beside (&next, br__text_string (t), target))
        {
          br__text_clear (&next);
          return 0;
        }
      br_text old = *t;
      *t = next;
      next = old;
    }
  br__text_clear (&next);
  errno = ENOMEM;
  return !t->failed;
}

static char *
copy_of (const char *path)
{
  char *copy = br__strndup (path, strlen (path));
  if (!copy)
    errno = ENOMEM;
  return copy;
}

char *
br__file_folder (const char *path)
{
  char real[PATH_MAX];
  br_text t = BR_TEXT_ZERO;
  br__text_put (&t, path, (size_t) (br__file_base (path) - path));
  if (!t.length)
    br__text_putc (&t, '.');
  errno = ENOMEM;
  const char *found = t.failed ? NULL : realpath (br__text_string (&t), real);
  br__text_clear (&t);
  return found ? copy_of (real) : NULL;
}

char *
br__file_resolve (const char *path)
{
  char real[PATH_MAX];
  if (realpath (path, real))
    return copy_of (real);
  if (!*path)
    return NULL;                /* no name is none in this folder */
  br_text t = BR_TEXT_ZERO, whole = BR_TEXT_ZERO;
  char *folder = follow (&t, path) ? br__file_folder (br__text_string (&t)) : NULL, *made = NULL;
  if (folder)
    {
      errno = ENOMEM;
      br__text_printf (&whole, "%s/%s", strcmp (folder, "/") == 0 ? "" : folder, br__file_base (br__text_string (&t)));
      made = whole.failed ? NULL : br__strndup (br__text_string (&whole), whole.length);
    }
  int why = errno;
  br__free (folder);
  br__text_clear (&t);
  br__text_clear (&whole);
  errno = why;
  return made;
}

const char *
br__file_below (const char *path, const char *folder)
{
  size_t n = strlen (folder);
  if (n == 1 && *folder == '/')
    n = 0;
  return strncmp (path, folder, n) == 0 && path[n] == '/' ? path + n + 1 : NULL;
}

/* Two sums of FNV-1a, the second from the bytes turned around in their bits: a slip is seen, and nobody gains by
   making two files that are taken for one.  The constants are those of draft-eastlake-fnv.  */
br__stamp
br__stamp_of (const char *bytes, size_t length)
{
  br__stamp s = { 1, length, { UINT64_C (0xcbf29ce484222325), UINT64_C (0xcbf29ce484222325) } };
  for (size_t i = 0; i < length; i++)
    {
      unsigned char byte = (unsigned char) bytes[i];
      s.hash[0] = (s.hash[0] ^ byte) * UINT64_C (0x100000001b3);
      s.hash[1] = (s.hash[1] ^ (unsigned char) ~byte ^ (i & 0xff)) * UINT64_C (0x100000001b3);
    }
  return s;
}
