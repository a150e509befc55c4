/* SPDX-License-Identifier: GPL-3.0-or-later
   session.h - what the fuzz targets that run statements share: which lines they may run, what must hold of
   each answer and each mistake, and the state of a sheet as text.  */
#ifndef BR_TESTS_FUZZ_SESSION_H
#define BR_TESTS_FUZZ_SESSION_H

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/time.h>
#include <unistd.h>

#include "fuzz.h"
#include "measure/measure.h"
#include "statement/statements.h"

/* Milliseconds of work after which a sheet is told to stop, as by Ctrl-C.  */
#define SESSION_PATIENCE 400

/* ---- Lines that touch no file ---- */

/* Statements with the names of files in them, here or to come, that the table does not mark.  */
static const char *const session_closed[] =
  { "worksheet", "key", "grade", "draw", "template", "report", "into", "column", "names", "quit" };

/* 1 if LINE may run: none of its words opens a file, or ends the session.  */
FUZZ_UNUSED static int
session_may_run (const char *line, size_t length)
{
  size_t at = 0, end, count = 0;
  int divides = 0;
  for (; at < length; at = end > at ? end : at + 1)
    {
      end = br__word_end (line, length, at);
      if (end == at)
        continue;
      const br__statement *st = br__statement_find (line + at, end - at);
      if (st && st->follow == BR__FOLLOW_FILE)
        return 0;
      divides |= count++ == 0 && br__word_is (line + at, end - at, "divide");
      for (size_t i = 0; i < sizeof session_closed / sizeof *session_closed; i++)
        if (br__word_is (line + at, end - at, session_closed[i])
            && !(divides && br__word_is (line + at, end - at, "into")))
          return 0;
    }
  return 1;
}

/* ---- What is said ---- */

typedef struct session
{
  br_sheet *sheet;
  FILE *out;                /* answers and mistakes as text, or NULL */
  size_t records, faults;
  const char *text;         /* what runs */
  size_t length;
  int clean;                /* that is UTF-8 without control characters */
} session;

static volatile sig_atomic_t session_stop;

/* UTF-8 without control characters but those of lines.  */
static int
session_is_clean (const char *text, size_t length)
{
  br__glyph g;
  for (size_t at = 0; at < length; at += g.length)
    {
      g = br__glyph_at (text, length, at);
      if (g.kind == BR__GLYPH_BROKEN || (g.kind == BR__GLYPH_CONTROL && !strchr ("\t\r\n", text[at])))
        return 0;
    }
  return 1;
}

/* Notes and titles keep the bytes that they were typed with; no others come in.  */
static void
session_check_text (const session *s, const char *text)
{
  fuzz_require (!s->clean || session_is_clean (text, strlen (text)));
}

static void session_take_record (session *s, const char *key, const br_record *record);

/* An exact value is a number in lowest terms.  */
static void
session_check_exact (const char *text)
{
  br_number x = BR_NUMBER_ZERO;
  size_t length = strlen (text);
  fuzz_require (br_number_read (&x, text, length, NULL) == BR_OK);
  fuzz_require (br_number_write (NULL, 0, &x) == length);
  br_number_clear (&x);
}

static void
session_take_field (session *s, br_field field, const char *key)
{
  switch (field.type)
    {
    case BR_FIELD_NULL: fprintf (s->out, "%s null\n", key); return;
    case BR_FIELD_TRUTH: fprintf (s->out, "%s %s\n", key, field.value.truth ? "yes" : "no"); return;
    case BR_FIELD_COUNT: fprintf (s->out, "%s %" PRId64 "\n", key, field.value.count); return;
    case BR_FIELD_RECORD: session_take_record (s, key, field.value.record); return;
    case BR_FIELD_TEXT:
      session_check_text (s, field.value.text);
      if (strcmp (key, "exact") == 0 && strlen (field.value.text) < 900)
        session_check_exact (field.value.text);
      fprintf (s->out, "%s '%s'\n", key, field.value.text);
      return;
    case BR_FIELD_LIST:
      fprintf (s->out, "%s [\n", key);
      for (size_t i = 0; i < br_list_size (field.value.list); i++)
        {
          br_field inner = br_list_at (field.value.list, i);
          fuzz_require (inner.key && !*inner.key);
          session_take_field (s, inner, "");
        }
      fputs ("]\n", s->out);
      return;
    }
  fuzz_require (!"a type that there is");
}

static void
session_take_record (session *s, const char *key, const br_record *record)
{
  fprintf (s->out, "%s %s {\n", key, br_record_kind (record));
  for (size_t i = 0; i < br_record_size (record); i++)
    {
      br_field field = br_record_at (record, i);
      fuzz_require (field.key && *field.key);
      /* One key, one field.  */
      fuzz_require (br_record_get (record, field.key).value.text == field.value.text
                    || field.type == BR_FIELD_TRUTH || field.type == BR_FIELD_NULL);
      session_take_field (s, field, field.key);
    }
  fputs ("}\n", s->out);
}

static void
session_on_record (void *user, const br_record *record)
{
  session *s = user;
  s->records++;
  fuzz_require (br_record_kind (record) && *br_record_kind (record));
  session_take_record (s, "", record);
}

/* A mistake has a place inside its line, at the border of a character, and words.  */
static void
session_on_fault (void *user, const br_fault *fault)
{
  session *s = user;
  const br_error *e = fault->error;
  s->faults++;
  fuzz_require (e->status != BR_OK && e->status != BR_IO && e->status != BR_NO_MEMORY);
  fuzz_require (strcmp (fault->file, "fuzz") == 0 && fault->line > 0);
  /* The line as it was typed, or in the words of the language: its own text then, which holds no NUL.  */
  fuzz_require ((fault->text >= s->text && fault->text + fault->text_length <= s->text + s->length)
                || memchr (fault->text, 0, fault->text_length) == NULL);
  fuzz_require (e->offset <= fault->text_length && e->length <= fault->text_length - e->offset);
  fuzz_require (*e->message && !strchr (e->message, '\n') && !strchr (e->hint, '\n'));
  session_check_text (s, e->message);
  session_check_text (s, e->hint);
  fprintf (s->out, "mistake %s %zu %zu %zu %s / %s\n", br_status_name (e->status), fault->line, e->offset,
           e->length, e->message, e->hint);
}

static br_status
session_run (session *s, const char *text, size_t length)
{
  br_sink sink = { .user = s, .record = session_on_record, .fault = session_on_fault };
  size_t before = s->faults;
  s->text = text;
  s->length = length;
  s->clean = s->clean && session_is_clean (text, length) && !memchr (text, 0, length);
  br_status status = br_sheet_run (s->sheet, text, length, "fuzz", 1, &sink);
  fuzz_require ((status != BR_OK) == (s->faults > before));
  return status;
}

static br_status
session_say (session *s, const char *line)
{
  return session_run (s, line, strlen (line));
}

/* ---- The state of a sheet as text ---- */

/* Every setting, and whatever the sheet holds.  To be freed.  It is looked at to the end, also when the time is up.  */
static char *
session_state (br_sheet *sheet)
{
  static const char *const words[] = { "list", "check", "tolerance", "stock", "shapes" };
  char *text = NULL;
  size_t size;
  const br__statement *st;
  session s = { .sheet = sheet, .out = open_memstream (&text, &size), .clean = 0 };
  fuzz_require (s.out);
  br_sheet_watch (sheet, NULL);
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    if (st->setting)
      session_say (&s, st->word);
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (br__statement_find (words[i], strlen (words[i])))
      session_say (&s, words[i]);
  /* Names that are missing stand in the order in which they were met.  */
  session missing = { .sheet = sheet, .out = fopen ("/dev/null", "w") };
  fuzz_require (missing.out);
  session_say (&missing, "missing");
  fclose (missing.out);
  fprintf (s.out, "missing %zu\n", missing.records);
  fprintf (s.out, "failing %zu waiting %zu\n", br_sheet_failing (sheet), br_sheet_waiting (sheet));
  fclose (s.out);
  br_sheet_watch (sheet, &session_stop);
  return text;
}

/* Two states that must be one; the first line in which they differ is shown.  */
#define session_same(x, y) \
  do { if (!session_equal ((x), (y))) fuzz_require (!"the states are one"); } while (0)

static int
session_equal (const char *x, const char *y)
{
  size_t at = 0, line = 0;
  if (strcmp (x, y) == 0)
    return 1;
  for (; x[at] == y[at]; at++)
    if (x[at] == '\n')
      line = at + 1;
  fprintf (stderr, "%.200s\n---- is not\n%.200s\n----\n", x + line, y + line);
  return 0;
}

/* ---- A session in an empty folder, and in bounded time ---- */

static int session_folder = -1, session_home = -1;

static void
session_alarm (int number)
{
  (void) number;
  session_stop = 1;
}

static void
session_set_timer (long milliseconds)
{
  struct itimerval timer = { .it_value = { milliseconds / 1000, milliseconds % 1000 * 1000 } };
  fuzz_require (setitimer (ITIMER_VIRTUAL, &timer, NULL) == 0);
}

static void
session_start (void)
{
  if (session_folder < 0)
    {
      char name[] = "/tmp/benchrule-fuzz-XXXXXX";
      struct sigaction action = { .sa_handler = session_alarm };
      fuzz_require (mkdtemp (name));
      session_folder = open (name, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
      session_home = open (".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
      fuzz_require (session_folder >= 0 && session_home >= 0);
      /* A folder that is gone and still open: nothing can be put into it, so that who tries is found.  */
      fuzz_require (rmdir (name) == 0);
      fuzz_require (sigaction (SIGVTALRM, &action, NULL) == 0);
    }
  fuzz_require (fchdir (session_folder) == 0);
  session_stop = 0;
  session_set_timer (SESSION_PATIENCE);
}

static void
session_end (void)
{
  session_set_timer (0);
  fuzz_require (fchdir (session_home) == 0);
}

/* ---- Saved and opened again ---- */

#define SESSION_PIPE (1 << 20)

/* A pipe is written in place and takes no time: what is saved goes through one.  */
FUZZ_UNUSED static void
session_pipe (int *ends, char *write_path, char *read_path, size_t size)
{
  fuzz_require (pipe2 (ends, O_CLOEXEC) == 0);
  fuzz_require (fcntl (ends[1], F_SETPIPE_SZ, SESSION_PIPE) >= 0);
  snprintf (read_path, size, "/proc/self/fd/%d", ends[0]);
  snprintf (write_path, size, "/proc/self/fd/%d", ends[1]);
}

FUZZ_UNUSED static size_t
session_saved (char *bytes, size_t room, const br_sheet *sheet)
{
  int ends[2];
  char write_path[40], read_path[40];
  size_t used = 0;
  ssize_t got;
  session_pipe (ends, write_path, read_path, sizeof write_path);
  fuzz_require (br_sheet_write (sheet, write_path, NULL) == BR_OK);
  close (ends[1]);
  while ((got = read (ends[0], bytes + used, room - used)) > 0)
    used += (size_t) got;
  fuzz_require (got == 0 && used < room);
  close (ends[0]);
  return used;
}

/* The sheet that LENGTH bytes of a file make.  */
FUZZ_UNUSED static br_sheet *
session_opened (const char *bytes, size_t length)
{
  int ends[2];
  char write_path[40], read_path[40];
  br_sheet *sheet = NULL;
  session_pipe (ends, write_path, read_path, sizeof write_path);
  fuzz_require (write (ends[1], bytes, length) == (ssize_t) length);
  close (ends[1]);
  fuzz_require (br_sheet_new (&sheet) == BR_OK);
  br_sheet_run_file (sheet, read_path, NULL);
  br_sheet_watch (sheet, &session_stop);
  close (ends[0]);
  return sheet;
}

/* Saved and opened, SHEET is in the same STATE, and is saved as the same bytes.  */
FUZZ_UNUSED static void
session_check_saved (br_sheet *sheet, const char *state)
{
  static char bytes[SESSION_PIPE], again[SESSION_PIPE];
  size_t length = session_saved (bytes, sizeof bytes, sheet);
  br_sheet *other = session_opened (bytes, length);
  size_t other_length = session_saved (again, sizeof again, other);
  bytes[length] = again[other_length] = 0;
  session_same (bytes, again);
  fuzz_require (other_length == length && memcmp (bytes, again, length) == 0);
  char *other_state = session_state (other);
  session_same (state, other_state);
  free (other_state);
  br_sheet_free (other);
}

#endif
