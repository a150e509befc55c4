/* SPDX-License-Identifier: GPL-3.0-or-later
   threads.c - eight threads, each with sheets of its own, run every statement there is, each thread from
   another one on: all say what one thread alone says.  Made for the thread sanitizer, too.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "samples.h"

#define THREADS 8

/* Files are one another's, and so are not for threads that run side by side: those lines are left out.  */
static int
is_shared (const sheet_sample *sample)
{
  const br__statement *st = br__statement_find (sample->word, strlen (sample->word));
  return strstr (sample->line, " into ") && strcmp (sample->word, "divide") != 0 ? 1
         : st && ((st->follow == BR__FOLLOW_FILE && strcmp (sample->word, "use") != 0) || strcmp (sample->word, "new") == 0);
}

/* The prelude without its worksheet and its marks.  */
static char *
prelude_without_files (void)
{
  static const char *const words[] = { "worksheet ", "grade " };
  char *text = strdup (samples_prelude);
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    {
      char *line = strstr (text, words[i]), *end = strchr (line, '\n');
      memmove (line, end + 1, strlen (end));
    }
  return text;
}

typedef struct worker
{
  pthread_t thread;
  size_t first;
  long times;
  const char *prelude;
  char *const *expected;
  size_t differed;          /* one more than the sample that did */
} worker;

static void *
work (void *user)
{
  worker *w = user;
  size_t count = CHECK_COUNT (samples) * (size_t) w->times;
  for (size_t i = 0; i < count; i++)
    {
      size_t at = (w->first + i) % CHECK_COUNT (samples);
      if (!w->expected[at])
        continue;
      char *text = samples_answer (w->prelude, &samples[at]);
      if (strcmp (text, w->expected[at]) != 0)
        w->differed = at + 1;
      free (text);
    }
  mpfr_free_cache ();
  return NULL;
}

static void
eight_threads (void **state)
{
  worker workers[THREADS];
  char *expected[CHECK_COUNT (samples)], *prelude = prelude_without_files ();
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (samples); i++)
    expected[i] = is_shared (&samples[i]) ? NULL : samples_answer (prelude, &samples[i]);
  for (size_t i = 0; i < THREADS; i++)
    {
      workers[i] = (worker) { .first = i * CHECK_COUNT (samples) / THREADS, .times = check_times (2),
                              .prelude = prelude, .expected = expected };
      assert_int_equal (pthread_create (&workers[i].thread, NULL, work, &workers[i]), 0);
    }
  for (size_t i = 0; i < THREADS; i++)
    assert_int_equal (pthread_join (workers[i].thread, NULL), 0);
  for (size_t i = 0; i < THREADS; i++)
    if (workers[i].differed)
      fail_msg ("thread %zu has another answer to `%s`", i, samples[workers[i].differed - 1].line);
  for (size_t i = 0; i < CHECK_COUNT (samples); i++)
    free (expected[i]);
  free (prelude);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (eight_threads),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, samples_start, samples_end));
}
