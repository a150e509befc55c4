/* SPDX-License-Identifier: LGPL-3.0-or-later
   file_write.c - puts a file in the place of another so that no fault leaves half of one: a
   file beside it is written, flushed to disk where that is asked for, and renamed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "file/file.h"
#include "file/output.h"

static int
write_all (int fd, const char *bytes, size_t length)
{
  while (length > 0)
    {
      ssize_t n = write (fd, bytes, length);
      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return 0;
      if (n == 0)
        {
          errno = EIO;
          return 0;
        }
      bytes += n;
      length -= (size_t) n;
    }
  return 1;
}

static int
flush_to_disk (int fd)
{
  int done;
  do
    done = fsync (fd);
  while (done < 0 && errno == EINTR);
  /* Some places (pipes, odd file systems) know no flush; that is no loss of bytes.  */
  return done == 0 || errno == EINVAL || errno == ENOTSUP;
}

/* The rename is only sure to last once the folder is on disk.  A folder that can not be opened for this
   is no reason to call a whole new file a failure.  */
static void
flush_folder (const char *path)
{
  br_text folder = BR_TEXT_ZERO;
  const char *slash = strrchr (path, '/');
  br__text_put (&folder, slash ? path : ".", slash ? (size_t) (slash - path) + 1 : 1);
  int fd = -1;
  if (!folder.failed)
    do
      fd = open (br__text_string (&folder), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    while (fd < 0 && errno == EINTR);
  if (fd >= 0)
    {
      flush_to_disk (fd);
      close (fd);
    }
  br__text_clear (&folder);
}

/* Rights of the old file, or those that the process gives to new ones: the umask can only be
   read by setting it, which another thread would see, so a new file gets what is usual.  */
static mode_t
rights_of (const char *path)
{
  struct stat st;
  return stat (path, &st) == 0 ? st.st_mode & 07777 : 0644;
}

/* Devices and pipes are written to; only a plain file is replaced.  */
static int
is_special (const char *path)
{
  struct stat st;
  return stat (path, &st) == 0 && !S_ISREG (st.st_mode);
}

static br_status
can_not_write (const br__output *o, int number, br_error *error)
{
  if (o->path)
    return br__can_not (error, "write", o->path, number);
  return br__fail (error, BR_IO, 0, 0, "can not write standard output: %s", br__system_words (number));
}

/* Opens a file beside O->path.  */
static br_status
open_beside (br__output *o, br_error *error)
{
  br_text beside = BR_TEXT_ZERO;
  const char *slash = strrchr (o->path, '/');
  size_t folder = slash ? (size_t) (slash - o->path) + 1 : 0;

  do
    {
      br__text_reset (&beside);     /* what it was called is no pattern any more */
      br__text_put (&beside, o->path, folder);
      br__text_printf (&beside, ".%.*s.XXXXXX", BR__CLIP (o->path + folder, 200));
      if (beside.failed)
        {
          br__text_clear (&beside);
          return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
        }
      o->fd = mkostemp (beside.bytes, O_CLOEXEC);
    }
  while (o->fd < 0 && errno == EINTR);
  if (o->fd < 0)
    {
      int why = errno;
      br__text_clear (&beside);
      return can_not_write (o, why, error);
    }
  o->beside = beside.bytes;
  return BR_OK;
}

br_status
br__output_open (br__output *o, const char *path, br_error *error)
{
  char real[PATH_MAX];
  br_status status = BR_OK;
  *o = (br__output) BR__OUTPUT_ZERO;
  if (!path)
    {
      o->fd = STDOUT_FILENO;
      return BR_OK;
    }
  int special = is_special (path);
  /* Through a link the file that it leads to is replaced, not the link.  */
  const char *name = !special && realpath (path, real) ? real : path;
  o->path = br__strndup (name, strlen (name));
  if (!o->path)
    return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  if (!special)
    status = open_beside (o, error);
  else if ((o->fd = open (path, O_WRONLY | O_CLOEXEC)) < 0)
    status = can_not_write (o, errno, error);
  if (status != BR_OK)
    br__output_drop (o);
  return status;
}

br_status
br__output_write (br__output *o, const char *bytes, size_t length, br_error *error)
{
  return write_all (o->fd, bytes, length) ? BR_OK : can_not_write (o, errno, error);
}

static int
keep_rights (const br__output *o)
{
  int done;
  do
    done = fchmod (o->fd, rights_of (o->path));
  while (done < 0 && errno == EINTR);
  return done == 0;
}

static int
give_name (const br__output *o)
{
  int done;
  do
    done = rename (o->beside, o->path);
  while (done < 0 && errno == EINTR);
  return done == 0;
}

br_status
br__output_close (br__output *o, int flush, br_error *error)
{
  int why = 0;
  if (o->beside && (!keep_rights (o) || (flush && !flush_to_disk (o->fd))))
    why = errno;
  /* A close that was interrupted has closed on Linux, and another one might close what is not ours.  */
  if (o->path && close (o->fd) != 0 && errno != EINTR && !why)
    why = errno;
  o->fd = -1;
  if (!why && o->beside)
    {
      if (!give_name (o))
        why = errno;
      else
        {
          br__free (o->beside);
          o->beside = NULL;
          if (flush)
            flush_folder (o->path);
        }
    }
  br_status status = why ? can_not_write (o, why, error) : BR_OK;
  br__output_drop (o);
  return status;
}

void
br__output_drop (br__output *o)
{
  if (o->path && o->fd >= 0)
    close (o->fd);
  if (o->beside)
    unlink (o->beside);
  br__free (o->beside);
  br__free (o->path);
  *o = (br__output) BR__OUTPUT_ZERO;
}

br_status
br__file_write (const char *path, const char *bytes, size_t length, br_error *error)
{
  br__output o;
  br_status status = br__output_open (&o, path, error);
  if (status == BR_OK)
    status = br__output_write (&o, bytes, length, error);
  if (status == BR_OK)
    return br__output_close (&o, 1, error);
  br__output_drop (&o);
  return status;
}
