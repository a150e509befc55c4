/* SPDX-License-Identifier: LGPL-3.0-or-later
   output.c - puts a file in the place of another so that no fault leaves half of one: a file without a name, or
   beside it where the file system knows none, is written, flushed to disk where that is asked for, and renamed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "file/beside.h"
#include "file/output.h"

static int
write_all (int fd, const char *bytes, size_t length)
{
  while (length > 0)
    {
      ssize_t n = write (fd, bytes, length);
      if (n < 0 && errno == EINTR && !br__wait_ends ())
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

/* The rename is only sure to last once the folder is on disk.  A folder that cannot be opened for this
   is no reason to call a whole new file a failure.  */
static void
flush_folder (const char *folder)
{
  int fd;
  do
    fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  while (fd < 0 && errno == EINTR);
  if (fd >= 0)
    {
      flush_to_disk (fd);
      close (fd);
    }
}

static br_status
can_not_write (const br__output *o, int number, br_error *error)
{
  if (o->path)
    return br__can_not (error, "write", o->path, number);
  return br__fail (error, BR_IO, 0, 0, "cannot write standard output: %s", br__system_words (number));
}

/* ---- What may be replaced ---- */

/* 1 where what the program says goes into the file that OLD is of.  */
static int
is_said_to (const struct stat *old)
{
  struct stat st;
  for (int fd = STDOUT_FILENO; fd <= STDERR_FILENO; fd++)
    if (fstat (fd, &st) == 0 && br__same_stat (&st, old))
      return 1;
  return 0;
}

static br_status
check_spared (const br__output *o, const char *path, br_error *error)
{
  struct stat st;
  if (is_said_to (&o->old))
    {
      br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` is where the answers go, so it stays", BR__CLIP (path, 120));
      br__hint (error, "give it a name of its own");
      return BR_DOMAIN;
    }
  for (size_t i = 0; i < o->rules.spared_count; i++)
    {
      const char *other = o->rules.spared[i];
      if (!other || stat (other, &st) != 0 || !br__same_stat (&st, &o->old))
        continue;
      br__fail (error, BR_DOMAIN, 0, 0, "this would write over `%.*s`, which is still needed", BR__CLIP (other, 120));
      br__hint (error, "give it a name of its own");
      return BR_DOMAIN;
    }
  /* For root every file can be written: the mode says what is meant.  */
  if ((o->old.st_mode & 0222) == 0 || faccessat (AT_FDCWD, o->path, W_OK, AT_EACCESS) != 0)
    {
      br__fail (error, BR_IO, 0, 0, "cannot write `%.*s`: it is write-protected", BR__CLIP (path, 140));
      br__hint (error, "use another name, or change its permissions");
      return BR_IO;
    }
  return BR_OK;
}

static void
hint_in_place (const br__output *o, br_error *error)
{
  if (o->rules.content == BR__CONTENT_SHEET)
    br__hint (error, "`save in place %.*s` writes into the file itself; another name leaves it alone", BR__CLIP (o->path, 80));
  else
    br__hint (error, "give it a name of its own");
}

/* Gives the new file the mode and owner of the old one.  A file system without modes refuses to change them; there all files
   have the same mode, so this is not an error.  */
static br_status
take_after_old (br__output *o, br_error *error)
{
  struct stat st;
  int done;
  const char *what = o->old.st_nlink > 1 ? "its other names (hard links) would be left with the old content" : NULL;
  if (!what && fstat (o->fd, &st) == 0 && (st.st_uid != o->old.st_uid || st.st_gid != o->old.st_gid))
    {
      (void) !fchown (o->fd, (uid_t) -1, o->old.st_gid);
      (void) !fchown (o->fd, o->old.st_uid, (gid_t) -1);
      if (fstat (o->fd, &st) == 0 && st.st_uid != o->old.st_uid)
        what = "it would have another owner";
      else if (st.st_gid != o->old.st_gid)
        what = "it would have another group";
    }
  if (what)
    {
      br__fail (error, BR_IO, 0, 0, "cannot replace `%.*s`: %s", BR__CLIP (o->path, 100), what);
      hint_in_place (o, error);
      return BR_IO;
    }
  do
    done = fchmod (o->fd, o->old.st_mode & 07777);
  while (done < 0 && errno == EINTR);
  return BR_OK;
}

static br_status
open_plain (br__output *o, const char *path, br_error *error)
{
  br_status status = o->replaces ? check_spared (o, path, error) : BR_OK;
  if (status != BR_OK)
    return status;
  o->folder = br__file_folder (o->path);
  if (!o->folder || !br__beside_clear (o->folder, o->path))
    return can_not_write (o, errno, error);
  if (o->replaces && o->rules.in_place)
    o->fd = open (o->path, O_WRONLY | O_CLOEXEC);
  else
    o->fd = br__beside_open (&o->beside, &o->nameless, o->folder, o->path, o->replaces ? o->old.st_mode & 0777 : 0666);
  if (o->fd < 0 && o->replaces && !o->rules.in_place && (errno == EACCES || errno == EPERM))
    {
      /* The file may be written, as was seen.  */
      status = br__fail (error, BR_IO, 0, 0, "cannot replace `%.*s`: its folder does not allow it", BR__CLIP (o->path, 100));
      hint_in_place (o, error);
      return status;
    }
  if (o->fd < 0)
    return can_not_write (o, errno, error);
  return o->replaces && !o->rules.in_place ? take_after_old (o, error) : BR_OK;
}

/* Of a pipe, a device.  A reader of a pipe has half a second to come, as two programs may begin at once.  */
static int
open_special (const char *path)
{
  static const struct timespec while_it_comes = { 0, 20000000 };
  int fd, flags, tries = 25;
  while ((fd = open (path, O_WRONLY | O_CLOEXEC | O_NONBLOCK)) < 0 && (errno == EINTR || errno == ENXIO) && tries-- > 0
         && !br__wait_ends ())
    nanosleep (&while_it_comes, NULL);
  if (fd >= 0 && (flags = fcntl (fd, F_GETFL)) >= 0)
    (void) fcntl (fd, F_SETFL, flags & ~O_NONBLOCK);
  return fd;
}

/* A table under the name of a page or a sheet could be opened by nothing.  */
static br_status
check_named (const char *path, br__content content, br_error *error)
{
  const br__content named = br__content_named (path);
  if (content != BR__CONTENT_CSV || named == BR__CONTENT_CSV || named == BR__CONTENT_PAPER)
    return BR_OK;
  br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` would hold a table, so its name must end in .csv", BR__CLIP (path, 120));
  br__hint (error, "give it a name that ends in .csv");
  return BR_DOMAIN;
}

br_status
br__output_open (br__output *o, const char *path, const br__output_rules *rules, br_error *error)
{
  br_status status = BR_OK;
  *o = (br__output) BR__OUTPUT_ZERO;
  o->rules = *rules;
  if (!path)
    {
      o->fd = STDOUT_FILENO;
      return BR_OK;
    }
  int there = stat (path, &o->old) == 0;
  int special = there && !S_ISREG (o->old.st_mode);
  if (!special && (status = check_named (path, rules->content, error)) != BR_OK)
    return status;
  o->replaces = there && !special;
  o->path = special ? br__strndup (path, strlen (path)) : br__file_resolve (path);
  if (!o->path)
    return br__can_not (error, "write", path, errno);
  if (!special)
    status = open_plain (o, path, error);
  else if ((o->fd = open_special (path)) < 0)
    status = can_not_write (o, errno, error);
  if (status != BR_OK)
    br__output_drop (o);
  return status;
}

/* ---- The bytes ---- */

/* Called before the first byte is written: an old file may be replaced only if it is of the same kind as the new one.  */
static br_status
begin (br__output *o, const char *bytes, size_t length, br_error *error)
{
  o->begun = 1;
  if (!o->replaces)
    return BR_OK;
  if (!o->rules.over)
    {
      br__reading how = { .limit = SIZE_MAX, .head = BR__CONTENT_BYTES, .plain = 1 };
      char *old = NULL;
      size_t old_length = 0;
      br_status status = br__file_read_as (&old, &old_length, o->path, &how, error);
      if (status != BR_OK)
        return status;
      int gives_way = br__content_gives_way (old, old_length, o->rules.content, bytes, length);
      br__free (old);
      if (!gives_way)
        {
          br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` is there and is not %s, so it stays", BR__CLIP (o->path, 100),
                    br__content_name (o->rules.content));
          br__hint (error, "give it a name of its own");
          return BR_DOMAIN;
        }
    }
  if (!o->rules.in_place)
    return BR_OK;
  br__reading whole = { .limit = SIZE_MAX, .plain = 1 };
  return br__file_read_as (&o->before, &o->before_length, o->path, &whole, error);
}

/* A file that was written into and could not be finished holds again what it held: the room for that was not given up.  */
static void
put_back (br__output *o)
{
  if (lseek (o->fd, 0, SEEK_SET) == 0 && write_all (o->fd, o->before, o->before_length))
    (void) !ftruncate (o->fd, (off_t) o->before_length);
}

br_status
br__output_write (br__output *o, const char *bytes, size_t length, br_error *error)
{
  br_status status = o->begun ? BR_OK : begin (o, bytes, length, error);
  if (status != BR_OK)
    return status;
  if (!write_all (o->fd, bytes, length))
    return can_not_write (o, errno, error);
  o->length += (off_t) length;
  return BR_OK;
}

/* A file system over a network says at a close what it could not write: another descriptor is closed before the
   file has its name.  0 with errno.  */
static int
close_copy (int fd)
{
  int copy;
  do
    copy = fcntl (fd, F_DUPFD_CLOEXEC, 3);
  while (copy < 0 && errno == EINTR);
  if (copy < 0)
    return 1;
  /* A close that was interrupted has closed on Linux, and another one might close what is not ours.  */
  return close (copy) == 0 || errno == EINTR;
}

/* 1 where another program has written the file that would be replaced since it was looked at.  */
static int
was_changed (const br__output *o)
{
  struct stat st;
  return o->replaces && lstat (o->path, &st) == 0
         && (!br__same_stat (&st, &o->old) || st.st_size != o->old.st_size || st.st_mtim.tv_sec != o->old.st_mtim.tv_sec
             || st.st_mtim.tv_nsec != o->old.st_mtim.tv_nsec);
}

br_status
br__output_close (br__output *o, int flush, br_error *error)
{
  br_status status = o->begun ? BR_OK : begin (o, "", 0, error);
  int why = 0, waits = o->beside || o->nameless;
  if (status == BR_OK && o->before && (size_t) o->length < o->before_length && ftruncate (o->fd, o->length) != 0)
    why = errno;
  if (status == BR_OK && !why && o->path && (waits || o->before) && flush && !flush_to_disk (o->fd))
    why = errno;
  if (status == BR_OK && !why && o->path && !close_copy (o->fd))
    why = errno;
  if (status == BR_OK && !why && waits && was_changed (o))
    why = EBUSY;
  if (status == BR_OK && !why && waits)
    {
      if (!br__beside_name (&o->beside, o->nameless, o->fd, o->path, o->replaces))
        why = errno;
      else
        {
          o->nameless = 0;
          if (flush)
            flush_folder (o->folder);
        }
    }
  if (why)
    status = can_not_write (o, why, error);
  if (status == BR_OK)
    {
      br__free (o->before);
      o->before = NULL;
    }
  br__output_drop (o);
  return status;
}

void
br__output_drop (br__output *o)
{
  if (o->before)
    put_back (o);
  if (o->path && o->fd >= 0)
    close (o->fd);
  if (o->beside)
    unlink (o->beside);
  br__free (o->before);
  br__free (o->beside);
  br__free (o->path);
  br__free (o->folder);
  *o = (br__output) BR__OUTPUT_ZERO;
}

br_status
br__file_write (const char *path, const char *bytes, size_t length, const br__output_rules *rules, br_error *error)
{
  br__output o;
  br_status status = br__output_open (&o, path, rules, error);
  if (status == BR_OK)
    status = br__output_write (&o, bytes, length, error);
  if (status == BR_OK)
    return br__output_close (&o, 1, error);
  br__output_drop (&o);
  return status;
}
