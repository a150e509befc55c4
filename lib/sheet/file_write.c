/* SPDX-License-Identifier: LGPL-3.0-or-later
   file_write.c - puts a file in the place of another so that no fault leaves half of one: a
   file beside it is written, flushed to disk and renamed, and the folder flushed, too.  */
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
#include "sheet/file.h"

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
  int fd = folder.failed ? -1 : open (br__text_string (&folder), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
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
write_special (const char *path, const char *bytes, size_t length, br_error *error)
{
  int fd = open (path, O_WRONLY | O_CLOEXEC);
  if (fd < 0)
    return br__can_not (error, "write", path, errno);
  int ok = write_all (fd, bytes, length);
  int why = errno;
  if (close (fd) != 0 && ok)
    ok = 0, why = errno;
  return ok ? BR_OK : br__can_not (error, "write", path, why);
}

static br_status
replace (const char *path, const char *bytes, size_t length, br_error *error)
{
  br_text beside = BR_TEXT_ZERO;
  const char *slash = strrchr (path, '/');
  size_t folder = slash ? (size_t) (slash - path) + 1 : 0;

  br__text_put (&beside, path, folder);
  br__text_printf (&beside, ".%.200s.XXXXXX", path + folder);
  if (beside.failed)
    {
      br__text_clear (&beside);
      return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
    }
  int why = 0, fd = mkostemp (beside.bytes, O_CLOEXEC);
  if (fd < 0)
    why = errno;
  else
    {
      if (!write_all (fd, bytes, length) || fchmod (fd, rights_of (path)) != 0 || !flush_to_disk (fd))
        why = errno;
      if (close (fd) != 0 && !why)
        why = errno;
      if (!why && rename (beside.bytes, path) != 0)
        why = errno;
      if (why)
        unlink (beside.bytes);
      else
        flush_folder (path);
    }
  br__text_clear (&beside);
  return why ? br__can_not (error, "write", path, why) : BR_OK;
}

br_status
br__file_write (const char *path, const char *bytes, size_t length, br_error *error)
{
  if (is_special (path))
    return write_special (path, bytes, length, error);
  /* Through a link the file that it leads to is replaced, not the link.  */
  char real[PATH_MAX];
  return replace (realpath (path, real) ? real : path, bytes, length, error);
}
