/* SPDX-License-Identifier: GPL-3.0-or-later
   save_faults.c - files are written while the system fails, or kills the process, at each call in turn:
   the old file or the new one is there, whole, and nothing beside it.  The calls are caught by the linker
   (--wrap).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "faults.h"

/* ---- A folder, and files in it ---- */

static char folder[] = "/tmp/benchrule-faults-XXXXXX";

/* NULL where there is no such file.  To be freed.  */
static char *
get_file (const char *name)
{
  char *text = NULL;
  size_t size = 0;
  FILE *file = fopen (name, "r");
  if (!file)
    return NULL;
  assert_true (getdelim (&text, &size, EOF, file) >= 0);
  fclose (file);
  return text;
}

/* How many files there are with the ending of those that wait for their name; they are taken away.  */
static int
count_left (void)
{
  DIR *dir = opendir (".");
  const struct dirent *entry;
  int count = 0;
  assert_non_null (dir);
  while ((entry = readdir (dir)) != NULL)
    if (entry->d_name[0] == '.' && strlen (entry->d_name) > 2)
      {
        count++;
        assert_int_equal (remove (entry->d_name), 0);
      }
  closedir (dir);
  return count;
}

static int
open_files (void)
{
  int count = 0;
  for (int fd = 0; fd < 64; fd++)
    count += fcntl (fd, F_GETFD) >= 0;
  return count;
}

/* ---- What is done ---- */

typedef struct job
{
  const char *name;
  const char *prepare;          /* run once, without faults */
  const char *line;             /* NULL: the sheet is saved as TARGET */
  const char *target;           /* the file that is looked at */
  const char *old;              /* what stands in it; NULL: it is not there */
  mode_t mode;
} job;

static const job jobs[] = {
  { "save over a sheet", "wheel = 3-1/2 in  # bought\nbase = 14 in", NULL, "cart.sheet", "wheel = 3 in\n", 0640 },
  { "save a new sheet", "wheel = 3-1/2 in", NULL, "new.sheet", NULL, 0644 },
  { "save through a link", "wheel = 3-1/2 in", NULL, "link.sheet", "wheel = 3 in\n", 0600 },
  { "the statement save", "wheel = 3-1/2 in", "save over said.sheet", "said.sheet", "wheel = 3 in\n", 0644 },
  { "a column", "ruler 1/8", "round column 1 of in.csv into out.csv", "out.csv", "1,1,0,0\n", 0644 },
  { "a column by two threads", "ruler 1/8", "round column 1 of in.csv into two.csv", "two.csv", "1,1,0,0\n", 0644 },
  { "a worksheet", "ruler 1/8", "worksheet sums 3 seed 1 into sums.csv", "sums.csv", "name,version,problem,topic,\n", 0644 },
  { "its key", "worksheet sums 3 seed 1 into for.csv", "key key.csv", "key.csv", "version,problem,topic,text,answer,\n", 0644 },
};

static void
start_job (const job *j)
{
  remove (j->target);
  if (strcmp (j->target, "link.sheet") == 0)
    {
      remove ("real.sheet");
      assert_int_equal (symlink ("real.sheet", j->target), 0);
    }
  if (j->old)
    {
      sheet_put_file (j->target, j->old);
      assert_int_equal (chmod (j->target, j->mode), 0);
    }
}

static br_status
do_job (br_sheet *sheet, const job *j, br_error *error)
{
  said s = SAID_ZERO;
  br_status status;
  memset (error, 0, sizeof *error);
  if (!j->line)
    return br_sheet_save (sheet, j->target, error);
  status = sheet_run (sheet, &s, j->line);
  if (s.fault_count)
    *error = s.faults[0].error;
  said_clear (&s);
  return status;
}

static br_sheet *
sheet_for (const job *j)
{
  br_sheet *sheet = sheet_with (j->prepare);
  if (strstr (j->name, "two threads"))
    check_ok (br_sheet_set_jobs (sheet, 2));
  return sheet;
}

/* What TARGET holds when all goes well.  To be freed.  */
static char *
wanted (const job *j)
{
  br_error error;
  br_sheet *sheet = sheet_for (j);
  struct stat st;
  start_job (j);
  check_ok (do_job (sheet, j, &error));
  br_sheet_free (sheet);
  char *text = get_file (j->target);
  assert_non_null (text);
  assert_true (!j->old || strcmp (text, j->old) != 0);
  assert_int_equal (stat (j->target, &st), 0);
  assert_int_equal (st.st_mode & 07777, j->mode);
  return text;
}

/* 1 if TARGET is as it should become, 0 if it is as it was.  */
static int
is_new (const job *j, const char *expected, long nth)
{
  char *text = get_file (j->target);
  int now = text && strcmp (text, expected) == 0;
  if (!now && (text ? !j->old || strcmp (text, j->old) != 0 : j->old != NULL))
    fail_msg ("%s, call %ld: `%.60s` is neither the old file nor the new one", j->name, nth,
              text ? text : "nothing");
  free (text);
  return now;
}

/* ---- The tests ---- */

/* One fault at the NTH call; 0 once there are fewer calls.  */
static int
fail_once (const job *j, const char *expected, fault what, int number, long nth)
{
  br_error error;
  struct stat st;
  br_sheet *sheet = sheet_for (j);
  int files = open_files ();
  start_job (j);
  plan (what, number, nth);
  br_status status = do_job (sheet, j, &error);
  int met = countdown < 0;
  planned = NO_FAULT;
  int now = is_new (j, expected, nth);
  if (status != BR_OK && status != BR_IO)
    fail_msg ("%s, call %ld: %s", j->name, nth, br_status_name (status));
  /* Only what is told to have gone wrong has.  */
  assert_int_equal (now, status == BR_OK);
  if (number == EINTR || what == SHORT || !met)
    assert_int_equal (status, BR_OK);
  if (status == BR_IO)
    {
      const char *why = number == ENOSPC ? "the disk is full" : "the disk does not answer";
      if (!strstr (error.message, why) || !strstr (error.message, "cannot "))
        fail_msg ("%s, call %ld: %s", j->name, nth, error.message);
    }
  int left = count_left ();
  if (left > 0 && !unlink_failed)
    fail_msg ("%s, call %ld: %d files are left", j->name, nth, left);
  if (j->old)
    {
      assert_int_equal (stat (j->target, &st), 0);
      assert_int_equal (st.st_mode & 07777, j->mode);
    }
  assert_int_equal (open_files (), files);
  /* Once the system is well again, it can be done.  */
  check_ok (do_job (sheet, j, &error));
  assert_true (is_new (j, expected, nth));
  br_sheet_free (sheet);
  return met;
}

static void
each_fault (fault what, int number)
{
  for (size_t i = 0; i < CHECK_COUNT (jobs); i++)
    {
      char *expected = wanted (&jobs[i]);
      long nth = 0;
      while (fail_once (&jobs[i], expected, what, number, nth))
        nth++;
      /* At the least a file is opened, written, closed and renamed.  */
      assert_true (nth >= (what == SHORT ? 1 : 4));
      free (expected);
    }
}

static void full_disk (void **state) { (void) state; each_fault (FAIL, ENOSPC); each_fault (FAIL_ON, ENOSPC); }
static void broken_disk (void **state) { (void) state; each_fault (FAIL, EIO); each_fault (FAIL_ON, EIO); }
static void interrupted (void **state) { (void) state; each_fault (FAIL, EINTR); }
static void short_writes (void **state) { (void) state; each_fault (SHORT, 0); }

/* Why it cannot be done, in the words of people.  */
static void
reasons (void **state)
{
  static const struct { int number; const char *words; } rows[] = {
    { EACCES, "it is not allowed" }, { EPERM, "it is not allowed" }, { EROFS, "the disk can only be read" },
    { EFBIG, "the file would be too large" }, { EPIPE, "the reader has gone" }, { ENOMEM, "out of memory" },
    { EDQUOT, "the disk is full" }, { ENFILE, "too many files are open" }, { EXDEV, "the system refuses" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_error error;
      br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
      plan (FAIL_ON, rows[i].number, 0);
      assert_int_equal (br_sheet_save (sheet, "none.sheet", &error), rows[i].number == ENOMEM ? BR_NO_MEMORY : BR_IO);
      planned = NO_FAULT;
      if (!strstr (error.message, rows[i].words))
        fail_msg ("%d: %s", rows[i].number, error.message);
      assert_int_equal (access ("none.sheet", F_OK), -1);
      br_sheet_free (sheet);
    }
}

#define BIT(which) (1u << (which))

/* Systems that lack something, folders in which somebody else is at work, files of other people.  */
static void
odd_places (void **state)
{
  static const struct odd
  {
    const char *line, *old;     /* OLD: what stands in odd.sheet, or NULL */
    unsigned calls;             /* that fail, a bit each, */
    int number;                 /* with this */
    const char *why;            /* it cannot be done, or NULL */
    int appears, stranger, other_group;
  } rows[] = {
    { "save odd.sheet", NULL, BIT (NAMELESS) | BIT (LINKAT), EPERM, NULL, 0, 0, 0 },
    { "save odd.sheet", NULL, BIT (NAMELESS) | BIT (LINKAT), ENOSYS, "something else has just made", 1, 0, 0 },
    { "save odd.sheet", NULL, BIT (NAMELESS) | BIT (LINKAT), EMLINK, "the system refuses", 0, 0, 0 },
    { "save odd.sheet", NULL, BIT (NAMELESS) | BIT (OPEN), EEXIST, "something else has just made", 0, 0, 0 },
    { "save odd.sheet", NULL, BIT (NAMELESS) | BIT (GETRANDOM), EAGAIN, NULL, 0, 0, 0 },
    { "save odd.sheet", NULL, BIT (LINKAT), EEXIST, "something else has just made", 0, 0, 0 },
    { "save over odd.sheet", "x = 1\n", BIT (LINKAT), EEXIST, "something else has just made", 0, 0, 0 },
    { "save over odd.sheet", "x = 1\n", BIT (NAMELESS) | BIT (LINKAT), EOPNOTSUPP, NULL, 0, 0, 0 },
    { "save over odd.sheet", "x = 1\n", BIT (NAMELESS) | BIT (OPEN), EACCES, "its folder does not allow it", 0, 0, 0 },
    { "save over odd.sheet", "x = 1\n", BIT (NAMELESS) | BIT (OPEN), EIO, "the disk does not answer", 0, 0, 0 },
    { "save over odd.sheet", "x = 1\n", 0, 0, "it would have another owner", 0, 1, 0 },
    { "save over odd.sheet", "x = 1\n", 0, 0, "it would have another group", 0, 0, 1 },
    { "save in place odd.sheet", "x = 1  # longer than what comes\n", BIT (FTRUNCATE), EIO, "the disk does not answer", 0, 0, 0 },
    { "save in place odd.sheet", "x = 1\n", BIT (WRITE), ENOSPC, "the disk is full", 0, 0, 0 },
    { "save in place odd.sheet", "x = 1\n", BIT (READ), EIO, "the disk does not answer", 0, 0, 0 },
    { "save in place odd.sheet", "x = 1\n", BIT (FSYNC), EINVAL, NULL, 0, 1, 1 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      const struct odd *o = &rows[i];
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
      int files = open_files ();
      remove ("odd.sheet");
      if (o->old)
        sheet_put_file ("odd.sheet", o->old);
      plan (FAIL_ON, o->number, 0);
      spared = ~o->calls;
      appears = o->appears ? "odd.sheet" : NULL;
      stranger = o->stranger;
      other_group = o->other_group;
      br_status status = sheet_run (sheet, &s, o->line);
      planned = NO_FAULT;
      appears = NULL;
      spared = 0;
      stranger = other_group = 0;
      if (status != (o->why ? BR_IO : BR_OK) || (o->why && !strstr (s.faults[0].error.message, o->why)))
        fail_msg ("row %zu: %s", i, s.fault_count ? s.faults[0].error.message : "saved");
      char *text = o->appears ? NULL : get_file ("odd.sheet");
      const char *right = o->why ? o->old : "wheel = 3-1/2 in\n";
      assert_true (text && right ? strcmp (text, right) == 0 : !text && !right);
      free (text);
      assert_int_equal (count_left (), 0);
      assert_int_equal (open_files (), files);
      sheet_end (sheet, &s);
    }
  remove ("odd.sheet");
}

/* A call that is interrupted is made again, and no more once the work is to end.  */
static void
ended (void **state)
{
  static const char line[] = "round column 1 of in.csv to 1/8 into ended.csv";
  volatile sig_atomic_t flag = 1;
  (void) state;
  sheet_put_file ("read.sheet", "wheel = 3-1/2 in\n");
  for (long nth = 0; nth < 3; nth++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("");
      plan (FAIL, EINTR, nth);
      check_ok (sheet_run (sheet, &s, "open read.sheet"));
      planned = NO_FAULT;
      sheet_say (sheet, &s, "wheel");
      said_is (&s, 0, "exact", "7/2");
      br_sheet_watch (sheet, &flag);
      plan (FAIL, EINTR, nth);
      assert_int_equal (sheet_run (sheet, &s, line), BR_STOPPED);
      planned = NO_FAULT;
      assert_string_equal (s.faults[0].error.message, "stopped");
      assert_int_equal (access ("ended.csv", F_OK), -1);
      if (nth < 2)
        {
          plan (FAIL, EINTR, nth);
          assert_int_equal (sheet_run (sheet, &s, "use read.sheet"), BR_STOPPED);
          assert_true (countdown < 0);
          planned = NO_FAULT;
          assert_string_equal (s.faults[0].error.message, "stopped");
        }
      sheet_end (sheet, &s);
    }
  remove ("read.sheet");
}

/* The tests above have met all calls there are.  */
static void
all_calls (void **state)
{
  (void) state;
  for (call which = 0; which < CALLS; which++)
    if (!(reached & 1u << which))
      fail_msg ("call %d has never failed", (int) which);
}

/* A child dies at its NTH call; 0 once it has lived to the end.  NEW counts new files.  */
static int
kill_once (const job *j, char *expected, fault what, long nth, long *new)
{
  int end;
  br_error error;
  start_job (j);
  fflush (NULL);
  pid_t child = fork ();
  assert_true (child >= 0);
  if (child == 0)
    {
      br_sheet *sheet = sheet_for (j);
      plan (what, 0, nth);
      br_status status = do_job (sheet, j, &error);
      planned = NO_FAULT;
      /* Nothing is left for those who look for leaks.  */
      br_sheet_free (sheet);
      free (expected);
      _exit (status != BR_OK);
    }
  assert_int_equal (waitpid (child, &end, 0), child);
  int killed = WIFSIGNALED (end) && WTERMSIG (end) == SIGKILL;
  int now = is_new (j, expected, nth);
  if (!killed)
    assert_true (WIFEXITED (end) && WEXITSTATUS (end) == 0 && now);
  assert_true (count_left () <= killed);
  *new += now;
  return killed;
}

static void
killed (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (jobs); i++)
    {
      char *expected = wanted (&jobs[i]);
      for (fault what = KILL_BEFORE; what <= KILL_HALF_WAY; what++)
        {
          long nth = 0, new = 0;
          while (kill_once (&jobs[i], expected, what, nth, &new))
            nth++;
          assert_true (nth >= 4 && new >= 1 && new < nth);
        }
      free (expected);
    }
}

static int
set_up (void **state)
{
  (void) state;
  if (!mkdtemp (folder) || chdir (folder) != 0)
    return -1;
  FILE *file = fopen ("in.csv", "w");
  if (!file)
    return -1;
  fputs ("size,name\n", file);
  /* Some blocks of it.  */
  for (int i = 0; i < 20000; i++)
    fprintf (file, "%d.%03d,part %d\n", i % 40, i % 1000, i);
  return fclose (file);
}

static int
tear_down (void **state)
{
  static const char *const others[] = { "in.csv", "real.sheet", "for.csv" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (others); i++)
    remove (others[i]);
  for (size_t i = 0; i < CHECK_COUNT (jobs); i++)
    remove (jobs[i].target);
  return chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (full_disk),
    CHECK_TEST (broken_disk),
    CHECK_TEST (interrupted),
    CHECK_TEST (short_writes),
    CHECK_TEST (reasons),
    CHECK_TEST (odd_places),
    CHECK_TEST (ended),
    CHECK_TEST (all_calls),
    CHECK_TEST (killed),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, set_up, tear_down));
}
