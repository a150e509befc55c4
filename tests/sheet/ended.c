/* SPDX-License-Identifier: GPL-3.0-or-later
   ended.c - work that is watched: it ends when it is asked to and leaves nothing half done, it tells how far it
   has come, and a sheet to which no one listens works the same; rows of a column that are too long to be true.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "support.h"

static char folder[] = "/tmp/benchrule-ended-XXXXXX";

static void
put_file (const char *name, const char *first, size_t times, const char *again)
{
  FILE *file = fopen (name, "w");
  assert_non_null (file);
  fputs (first, file);
  while (times-- > 0)
    fputs (again, file);
  assert_int_equal (fclose (file), 0);
}

/* What was asked for while the flag is up is not done, and says so; afterwards the same line works.  */
static void
stopped (void **state)
{
  static const char *const lines[] = {
    "divide 10 in into 5 kerf 1/8 in",
    "space 4 across 24 in width 1 in", "round column size of sizes.csv to 1/8 into marks.csv",
    "round column size of sizes.csv to 1/8 keep total into marks.csv",
  };
  volatile sig_atomic_t flag = 0;
  (void) state;
  put_file ("sizes.csv", "size\n", 3, "2.14\n");
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    {
      br_sheet *sheet = sheet_with ("");
      said s = SAID_ZERO;
      br_sheet_watch (sheet, &flag);
      flag = 1;
      if (sheet_run (sheet, &s, lines[i]) != BR_STOPPED || s.count != 0)
        fail_msg ("`%s` was not stopped", lines[i]);
      assert_string_equal (s.faults[0].error.message, "stopped");
      assert_int_equal (access ("marks.csv", F_OK), -1);
      flag = 0;
      sheet_say (sheet, &s, "%s", lines[i]);
      assert_int_equal (s.count, 1);
      sheet_end (sheet, &s);
      remove ("marks.csv");
    }
}

/* Mistakes in a column without anyone to hear of them, and with.  */
static void
unheard (void **state)
{
  static const char line[] = "round column size of sizes.csv to 1/8 into marks.csv";
  br_sink quiet = { .user = NULL };
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  put_file ("sizes.csv", " size \t\n2.14\nbad\n", 0, "");
  assert_int_equal (br_sheet_run (sheet, line, strlen (line), "test", 1, NULL), BR_SYNTAX);
  assert_int_equal (br_sheet_run (sheet, line, strlen (line), "test", 1, &quiet), BR_SYNTAX);
  assert_int_equal (sheet_run (sheet, &s, line), BR_SYNTAX);
  assert_int_equal (s.fault_count, 1);
  assert_int_equal (s.faults[0].line, 3);
  said_is (&s, 0, "marks", "1");
  said_is (&s, 0, "bad", "1");
  sheet_end (sheet, &s);
  remove ("marks.csv");
}

/* A quote that is not closed makes one row of all that follows: past 1 MiB that is taken for the mistake it is.  */
static void
endless_row (void **state)
{
  static const char line[] = "round column size of sizes.csv to 1/8 into marks.csv";
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  put_file ("sizes.csv", "size,name\n2.14,\"side\n", 300000, "1.5,x\n");
  assert_int_equal (sheet_run (sheet, &s, line), BR_TOO_BIG);
  assert_int_equal (s.fault_count, 1);
  assert_non_null (strstr (s.faults[0].error.message, "the row from line 2 of `sizes.csv` on is longer than 1 MiB"));
  assert_string_equal (s.faults[0].error.hint, "a quote that is not closed?");
  assert_int_equal (s.faults[0].error.offset, 21);      /* the file's name */
  assert_int_equal (s.faults[0].error.length, 9);
  assert_int_equal (access ("marks.csv", F_OK), -1);
  sheet_end (sheet, &s);
}

/* A mistake in a long line is told with what is near it.  */
static void
long_line (void **state)
{
  static const char line[] = "round column size of sizes.csv to 1/8 into marks.csv";
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  put_file ("sizes.csv", "note,size,name\n", 1000, "longer ");
  FILE *file = fopen ("sizes.csv", "a");
  assert_non_null (file);
  fputs (",2-9/8,", file);
  for (int i = 0; i < 1000; i++)
    fputs ("longer ", file);
  fputs ("\na,\"\n\n2\n\",b\n", file);
  assert_int_equal (fclose (file), 0);
  assert_int_equal (sheet_run (sheet, &s, line), BR_SYNTAX);
  assert_int_equal (s.fault_count, 2);
  assert_int_equal (s.faults[0].line, 2);
  assert_int_equal (s.faults[0].text_length, 4096);
  assert_int_equal (s.faults[0].error.offset, 2048);
  assert_int_equal (s.faults[0].error.length, 5);
  assert_int_equal (s.faults[1].line, 3);
  assert_true (s.faults[1].error.offset + s.faults[1].error.length <= s.faults[1].text_length);
  sheet_end (sheet, &s);
  remove ("marks.csv");
}

/* ---- Progress ---- */

typedef struct heard
{
  int calls, last;
  char what[40];
} heard;

static void
hear (void *user, const char *what, int percent)
{
  heard *h = user;
  assert_true (percent >= 0 && percent <= 100 && percent >= h->last);
  h->calls++;
  h->last = percent;
  snprintf (h->what, sizeof h->what, "%s", what);
}

/* A writer who takes two seconds for four rows.  */
static void *
write_slowly (void *name)
{
  int pipe = open (name, O_WRONLY | O_CLOEXEC);
  for (int i = 0; i < 4 && pipe >= 0; i++)
    {
      struct timespec half = { 0, 500000000 };
      char rows[70000];
      for (size_t k = 0; k < sizeof rows; k += 5)
        memcpy (rows + k, "2.14\n", 5);
      for (size_t done = 0; done < sizeof rows; )
        {
          ssize_t n = write (pipe, rows + done, sizeof rows - done);
          if (n < 0)
            break;
          done += (size_t) n;
        }
      nanosleep (&half, NULL);
    }
  close (pipe);
  return NULL;
}

/* Of what comes through a pipe no one knows how much there will be: it is told that work goes on.  */
static void
progress (void **state)
{
  static const char line[] = "round column 1 of slow.csv to 1/8 into marks.csv";
  heard h = { 0, 0, "" };
  br_sink sink = { .user = &h, .progress = hear };
  br_sheet *sheet = sheet_with ("");
  pthread_t writer;
  (void) state;
  assert_int_equal (mkfifo ("slow.csv", 0600), 0);
  assert_int_equal (pthread_create (&writer, NULL, write_slowly, "slow.csv"), 0);
  assert_int_equal (br_sheet_run (sheet, line, strlen (line), "test", 1, &sink), BR_OK);
  pthread_join (writer, NULL);
  assert_true (h.calls > 0);
  assert_string_equal (h.what, "slow.csv");
  br_sheet_free (sheet);
  remove ("slow.csv");
  remove ("marks.csv");
}

static int
set_up (void **state)
{
  (void) state;
  return !mkdtemp (folder) || chdir (folder) != 0;
}

static int
tear_down (void **state)
{
  (void) state;
  remove ("sizes.csv");
  return chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (stopped), CHECK_TEST (unheard), CHECK_TEST (endless_row), CHECK_TEST (long_line), CHECK_TEST (progress),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, set_up, tear_down));
}
