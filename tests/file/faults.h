/* SPDX-License-Identifier: GPL-3.0-or-later
   faults.h - calls of the system that fail when a test wants it: its build wraps them.  */
#ifndef BR_TESTS_FILE_FAULTS_H
#define BR_TESTS_FILE_FAULTS_H

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../sheet/support.h"

typedef enum call
{
  OPEN, NAMELESS, READ, WRITE, FSYNC, FCHMOD, CLOSE, RENAME, LINKAT, UNLINK, GETRANDOM, CALLS, FTRUNCATE
} call;

typedef enum fault
{
  NO_FAULT, FAIL, FAIL_ON,      /* that call, or that and each one after it but `unlink` */
  SHORT,                        /* half of it is read or written */
  KILL_BEFORE, KILL_AFTER, KILL_HALF_WAY
} fault;

static fault planned;
static int planned_errno;
static long countdown;          /* calls until the fault; below 0 it has been */
static int unlink_failed;
static unsigned reached;        /* calls that have met a fault, a bit each */
static unsigned spared;         /* calls that meet none, a bit each */
static const char *appears;     /* a file that somebody makes as a link fails */
static int stranger, other_group;       /* whose a new file is */

static void
plan (fault what, int number, long nth)
{
  planned = what;
  planned_errno = number;
  countdown = nth;
  unlink_failed = 0;
}

int __real_close (int fd);
int __real_open (const char *name, int flags, ...);

static void
die (void)
{
  raise (SIGKILL);
}

/* Whether it is the turn of this call.  */
static int
turn (call which)
{
  /* A file can be taken away from a full disk.  */
  int away = which == UNLINK && planned_errno == ENOSPC;
  if (planned == NO_FAULT || spared & 1u << which || (countdown < 0 && (planned != FAIL_ON || away)))
    return 0;
  if (countdown >= 0 && countdown-- > 0)
    return 0;
  countdown = -1;
  reached |= 1u << which;
  if (planned == KILL_BEFORE)
    die ();
  return 1;
}

/* 1 with errno set where the call fails.  */
static int
fails (call which, int due)
{
  if (!due || (planned != FAIL && planned != FAIL_ON))
    return 0;
  unlink_failed |= which == UNLINK;
  if (which == LINKAT && appears)
    __real_close (__real_open (appears, O_CREAT | O_WRONLY | O_CLOEXEC, 0600));
  errno = planned_errno;
  return 1;
}

static void
after (int due)
{
  if (due && (planned == KILL_AFTER || planned == KILL_HALF_WAY))
    die ();
}

static size_t
part (int due, size_t length)
{
  return due && (planned == SHORT || planned == KILL_HALF_WAY) ? (length + 1) / 2 : length;
}

#define WRAP(which, type, name, failed, parameters, arguments)  \
  type __real_##name parameters;                                \
  type __wrap_##name parameters;                                \
  type                                                          \
  __wrap_##name parameters                                      \
  {                                                             \
    int due = turn (which);                                     \
    if (fails (which, due))                                     \
      return failed;                                            \
    type result = __real_##name arguments;                      \
    after (due);                                                \
    return result;                                              \
  }

WRAP (READ, ssize_t, read, -1, (int fd, void *bytes, size_t length), (fd, bytes, part (due, length)))
WRAP (WRITE, ssize_t, write, -1, (int fd, const void *bytes, size_t length), (fd, bytes, part (due, length)))
WRAP (FSYNC, int, fsync, -1, (int fd), (fd))
WRAP (FCHMOD, int, fchmod, -1, (int fd, mode_t mode), (fd, mode))
WRAP (RENAME, int, rename, -1, (const char *from, const char *to), (from, to))
WRAP (LINKAT, int, linkat, -1, (int from_folder, const char *from, int to_folder, const char *to, int flags),
      (from_folder, from, to_folder, to, flags))
WRAP (UNLINK, int, unlink, -1, (const char *name), (name))
WRAP (GETRANDOM, ssize_t, getrandom, -1, (void *bytes, size_t length, unsigned flags), (bytes, part (due, length), flags))
WRAP (FTRUNCATE, int, ftruncate, -1, (int fd, off_t length), (fd, length))

int __wrap_close (int fd);
int __wrap_open (const char *name, int flags, ...);

/* Linux has closed the file also where `close` fails.  */
int
__wrap_close (int fd)
{
  int due = turn (CLOSE), result = __real_close (fd);
  if (fails (CLOSE, due))
    return -1;
  after (due);
  return result;
}

int
__wrap_open (const char *name, int flags, ...)
{
  va_list args;
  va_start (args, flags);
  mode_t mode = flags & (O_CREAT | O_TMPFILE) ? va_arg (args, mode_t) : 0;
  va_end (args);
  call which = (flags & O_TMPFILE) == O_TMPFILE ? NAMELESS : OPEN;
  int due = turn (which);
  if (fails (which, due))
    return -1;
  int fd = __real_open (name, flags, mode);
  after (due);
  return fd;
}

int __real_fstat (int fd, struct stat *st);
int __wrap_fstat (int fd, struct stat *st);

int
__wrap_fstat (int fd, struct stat *st)
{
  int result = __real_fstat (fd, st);
  st->st_uid += (uid_t) stranger;
  st->st_gid += (gid_t) other_group;
  return result;
}

#endif
