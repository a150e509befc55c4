/* SPDX-License-Identifier: GPL-3.0-or-later
   support.h - what the tests of sheets share beside said.h.  */
#ifndef BR_TESTS_SHEET_SUPPORT_H
#define BR_TESTS_SHEET_SUPPORT_H

#include <pthread.h>
#include <time.h>
#include <unistd.h>

#include "check.h"
#include "said.h"

#include <mpfr.h>

/* Makes the file NAME, which holds TEXT.  */
CHECK_UNUSED static void
sheet_put_file (const char *name, const char *text)
{
  FILE *file = fopen (name, "w");
  assert_non_null (file);
  assert_true (fputs (text, file) >= 0);
  assert_int_equal (fclose (file), 0);
}

/* Runs LENGTH bytes of TEXT; S holds what is said from here on.  */
CHECK_UNUSED static br_status
sheet_run_bytes (br_sheet *sheet, said *s, const char *text, size_t length)
{
  br_sink sink = { .user = s, .record = said_take_record, .fault = said_take_fault };
  said_clear (s);
  return br_sheet_run (sheet, text, length, "test", 1, &sink);
}

CHECK_UNUSED static br_status
sheet_run (br_sheet *sheet, said *s, const char *text)
{
  return sheet_run_bytes (sheet, s, text, strlen (text));
}

/* How much stack a run may need at most, whatever stands in the lines; the address sanitizer makes each
   call's part several times as large.  */
#ifdef __SANITIZE_ADDRESS__
# define SHEET_STACK (1024 * 1024)
#else
# define SHEET_STACK (256 * 1024)
#endif

typedef struct sheet_job
{
  br_sheet *sheet;
  said *s;
  const char *text;
  size_t length;
  br_status status;
} sheet_job;

CHECK_UNUSED static void *
sheet_do_job (void *user)
{
  sheet_job *job = user;
  job->status = sheet_run_bytes (job->sheet, job->s, job->text, job->length);
  mpfr_free_cache ();           /* MPFR keeps constants for each thread */
  return NULL;
}

/* As sheet_run_bytes, with no more stack than SHEET_STACK.  */
CHECK_UNUSED static br_status
sheet_run_small (br_sheet *sheet, said *s, const char *text, size_t length)
{
  sheet_job job = { sheet, s, text, length, BR_OK };
  pthread_attr_t attr;
  pthread_t thread;
  assert_int_equal (pthread_attr_init (&attr), 0);
  assert_int_equal (pthread_attr_setstacksize (&attr, SHEET_STACK), 0);
  assert_int_equal (pthread_create (&thread, &attr, sheet_do_job, &job), 0);
  assert_int_equal (pthread_join (thread, NULL), 0);
  pthread_attr_destroy (&attr);
  return job.status;
}

/* A line made as by printf, which must be right.  */
CHECK_UNUSED static void sheet_say (br_sheet *sheet, said *s, const char *format, ...)
  __attribute__ ((format (printf, 3, 4)));

CHECK_UNUSED static void
sheet_say (br_sheet *sheet, said *s, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  char *line = said_line (format, args);
  va_end (args);
  br_status status = sheet_run (sheet, s, line);
  if (status != BR_OK)
    fail_msg ("%.200s: %s", line, s->fault_count ? s->faults[0].error.message : "no fault told");
  free (line);
}

CHECK_UNUSED static const char *
said_get (const said *s, size_t index, const char *path)
{
  const char *value = said_find (s, index, path);
  if (!value)
    fail_msg ("record %zu of %zu has no %s", index, s->count, path);
  return value;
}

#define said_is(s, index, path, expected) \
  assert_string_equal (said_get ((s), (index), (path)), (expected))

/* The first record of KIND, or COUNT of S.  */
CHECK_UNUSED static size_t
said_first (const said *s, const char *kind)
{
  size_t i = 0;
  while (i < s->count && strcmp (said_get (s, i, "kind"), kind) != 0)
    i++;
  return i;
}

/* A sheet in which TEXT has been run without a mistake.  */
CHECK_UNUSED static br_sheet *
sheet_with (const char *text)
{
  br_sheet *sheet = NULL;
  said s = SAID_ZERO;
  check_ok (br_sheet_new (&sheet));
  sheet_say (sheet, &s, "%s", text);
  said_clear (&s);
  return sheet;
}

/* LINE on the sheet of SCRIPT, with all memory refused from one request on, from each in turn, or from fewer the later where
   SPARSE: it says so, and nothing is lost.  */
CHECK_UNUSED static void
sheet_refuse_from_each (const char *script, const char *line, int sparse)
{
  br_status status = BR_NO_MEMORY;
  for (long n = 0; status != BR_OK; n += 1 + (sparse ? n / 20 : 0))
    {
      said s = SAID_ZERO;
      check_memory_limit (-1);
      br_sheet *sheet = sheet_with (script);
      check_memory_left = n;
      check_memory_refused = 0;
      status = sheet_run (sheet, &s, line);
      int refused = check_memory_refused;
      check_memory_left = -1;
      assert_int_equal (status, refused ? BR_NO_MEMORY : BR_OK);
      said_clear (&s);
      br_sheet_free (sheet);
      assert_int_equal (check_memory_blocks, 0);
      check_memory_free ();
    }
}

CHECK_UNUSED static void
sheet_end (br_sheet *sheet, said *s)
{
  br_sheet_free (sheet);
  said_clear (s);
}

/* What the file of a small sheet would hold, to be freed.  */
CHECK_UNUSED static char *
sheet_text (const br_sheet *sheet)
{
  enum { MOST = 4096 };
  char path[] = "/tmp/benchrule-text-XXXXXX", *text = calloc (1, MOST);
  close (mkstemp (path));
  check_ok (br_sheet_write (sheet, path, NULL));
  FILE *file = fopen (path, "r");
  assert_non_null (file);
  assert_true (fread (text, 1, MOST, file) < MOST);
  fclose (file);
  unlink (path);
  return text;
}

/* Turns " | " into line ends.  */
CHECK_UNUSED static void
sheet_lines (char *text)
{
  for (char *bar; (bar = strstr (text, " | ")) != NULL; )
    memcpy (bar, "\n", 1), memmove (bar + 1, bar + 3, strlen (bar + 3) + 1);
}

/* Seconds of processor time used so far.  */
CHECK_UNUSED static double
sheet_seconds (void)
{
  struct timespec t;
  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double) t.tv_sec + (double) t.tv_nsec / 1e9;
}

#endif
