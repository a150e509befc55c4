/* SPDX-License-Identifier: GPL-3.0-or-later
   session.c - runs statements and sheets, and sends answers and mistakes where they go:
   answers to standard output, mistakes to standard error, in order.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "session.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "escape.h"
#include "fault.h"
#include "interrupt.h"
#include "memory.h"
#include "show/json.h"
#include "pages.h"
#include "solver.h"
#include "state.h"

enum { EXIT_WELL = 0, EXIT_CHECK = 1, EXIT_WRONG = 2 };

/* Any sheet of 1 MiB has room, and the program stays under 500 MB.  */
#define SHEET_MEMORY ((size_t) 400 << 20)

const char session_prompt_name[] = "prompt";

static void
flush_answers (session *s)
{
  if (fflush (s->out.stream) == 0)
    return;
  s->failed = 1;
  s->reason = errno;
}

/* Takes the line of progress away, if one stands there.  */
static void
end_progress (session *s)
{
  if (s->progress_width == 0)
    return;
  putc ('\r', s->err.stream);
  display_repeat (&s->err, " ", s->progress_width);
  putc ('\r', s->err.stream);
  fflush (s->err.stream);
  s->progress_width = 0;
}

/* Long work says on a terminal how far it is, in one line that is written over.  */
static void
on_progress (void *user, const char *what, int percent)
{
  session *s = user;
  end_progress (s);
  display_put (&s->err, what);
  fprintf (s->err.stream, " %d%%", percent);
  s->progress_width = escape_width (what, strlen (what)) + 5;
  fflush (s->err.stream);
}

static void
on_record (void *user, const br_record *record)
{
  session *s = user;
  end_progress (s);
  s->saved |= strcmp (br_record_kind (record), "saved") == 0;
  if (strcmp (br_record_kind (record), "setting") == 0 && strcmp (br_record_text (record, "name"), "pictures") == 0)
    s->out.no_pictures = strcmp (br_record_text (record, "value"), "off") == 0;
  if (strcmp (br_record_kind (record), "setting") == 0 && strcmp (br_record_text (record, "name"), "pager") == 0)
    s->pager.off = strcmp (br_record_text (record, "value"), "off") == 0;
  if (!s->json && given_before (&s->given, record))
    return;
  if (!s->json)
    text_put (&s->text, record);
  else if (!json_put_record (s->out.stream, record))
    s->failed = 1;
}

/* How a phrase was understood is shown only with text output; an answer in JSON has it in its fields.  */
static void
on_read_as (void *user, const char *statement, const char *left_out)
{
  session *s = user;
  if (s->json)
    return;
  text_flush (&s->text);
  display_put (&s->out, "read as: ");
  display_put (&s->out, statement);
  if (*left_out)
    {
      display_put (&s->out, "  (left out: ");
      display_put (&s->out, left_out);
      display_put (&s->out, ")");
    }
  putc ('\n', s->out.stream);
}

/* The library is going to write to standard output itself.  */
static void
on_flush (void *user)
{
  session *s = user;
  end_progress (s);
  text_flush (&s->text);
  pager_pass (&s->pager, &s->out);
  flush_answers (s);
}

static void
on_fault (void *user, const br_fault *fault)
{
  session_fault (user, fault);
}

void
session_fault (session *s, const br_fault *fault)
{
  s->faults++;
  end_progress (s);
  /* At the prompt, drop the rows of a statement that was interrupted: they are incomplete, and may be very many.  */
  if (s->interrupted && fault->error->status == BR_STOPPED)
    text_clear (&s->text);
  text_flush (&s->text);
  pager_pass (&s->pager, &s->out);
  if (s->json && !json_put_fault (s->out.stream, fault))
    s->failed = 1;
  /* If answers and errors go to the same place, the answers before an error are written first; with two files the order does
   not matter.  */
  const int later = s->more && s->apart;
  if (!later)
    flush_answers (s);
  if (s->interrupted && *s->interrupted)      /* the terminal has put ^C here */
    putc ('\n', s->err.stream);
  fault_put (&s->err, fault, fault->file != session_prompt_name);
  if (!later)
    fflush (s->err.stream);
}

/* 1 if answers and errors go to different files.  */
static int
goes_apart (void)
{
  struct stat out, err;
  return fstat (STDOUT_FILENO, &out) == 0 && fstat (STDERR_FILENO, &err) == 0 && (out.st_dev != err.st_dev || out.st_ino != err.st_ino);
}

/* If there is no home directory, or its folder cannot be made, nothing is stored.  */
static void
keep_practice (br_sheet *sheet)
{
  char *path = state_path ("practice.csv");
  br_status kept = path && state_make_folders (path) ? br_sheet_keep_practice (sheet, path) : BR_OK;
  (void) kept;
  free (path);
}

static int
allow_all (void *user, const br_file_request *request)
{
  (void) user;
  (void) request;
  return 1;
}

int
session_start (session *s, const options *o)
{
  static const text_printer printer = TEXT_PRINTER_ZERO;
  s->json = o->json;
  s->goes_on = 0;
  s->faults = 0;
  s->failed = 0;
  s->reason = 0;
  s->interrupted = NULL;
  s->summary = 0;
  s->kept = (recovery) RECOVERY_ZERO;
  s->saved = 0;
  s->more = 0;
  s->begun = 0;
  s->apart = goes_apart ();
  s->progress_width = 0;
  s->pager = (pager) PAGER_ZERO;
  s->given = (given) GIVEN_ZERO;
  s->text = printer;
  setvbuf (stderr, NULL, isatty (STDERR_FILENO) ? _IOLBF : _IOFBF, BUFSIZ);   /* a message in one piece */
  display_init (&s->out, stdout, o->color);
  display_init (&s->err, stderr, o->color);
  s->text.display = &s->out;
  if (br_sheet_new (&s->sheet) == BR_OK && br_sheet_set_jobs (s->sheet, o->jobs) == BR_OK
      && br_sheet_set_memory (s->sheet, SHEET_MEMORY) == BR_OK)
    {
      br_sheet_set_painter (s->sheet, pages_find, NULL);
      br_sheet_set_keeper (s->sheet, recovery_keeper, &s->kept);
      keep_practice (s->sheet);
      if (o->allow_files)
        br_sheet_set_policy (s->sheet, allow_all, NULL);
      return 1;
    }
  fputs ("benchrule: out of memory\n", stderr);
  return 0;
}

/* Statements that are typed open sheets with a summary; records have both.  */
static br_sink
sink_of (session *s, int summary)
{
  br_sink sink = { .user = s, .record = on_record, .read_as = on_read_as, .fault = on_fault, .flush = on_flush, .solver = SOLVER,
                   .columns = s->out.width, .summary = summary, .goes_on = s->goes_on, .rows = s->json };
  if (s->err.terminal)
    sink.progress = on_progress;
  return sink;
}

/* The prompt sees to its signals itself.  Where lines come one after the other, signals are taken once for all.  */
static void
begin_run (session *s)
{
  memory_refill ();
  if (!s->json)
    pager_begin (&s->pager, &s->out);
  if (!s->interrupted && !s->begun)
    interrupt_begin (s->sheet);
  s->begun = !s->interrupted;
}

/* A run that went wrong without a word, such as one that found no memory, gets its word here.  */
static void
tell_of_run (session *s, br_status status, const char *file)
{
  br_error error = { status, 0, 0, "", "" };
  if (status == BR_IO)
    snprintf (error.message, sizeof error.message, "%s", strerror (errno));
  else
    snprintf (error.message, sizeof error.message, "it did not work: %s", br_status_name (status));
  br_fault fault = { file, 0, "", 0, &error };
  session_fault (s, &fault);
}

static void
finish_run (session *s, br_status status, size_t faults_before, const char *file)
{
  end_progress (s);
  /* Ctrl-C ends a long answer while it is written; one that came before, in the work, has its answer, such as a plan.  */
  if (s->interrupted && !*s->interrupted)
    s->out.stop = s->interrupted;
  text_flush (&s->text);
  given_end (&s->given);
  pager_end (&s->pager, &s->out);
  s->out.stop = NULL;
  if (status != BR_OK && s->faults == faults_before)
    tell_of_run (s, status, file);
  if (!s->interrupted && s->saved && !br_sheet_unsaved (s->sheet))
    recovery_saved (&s->kept);
  if (s->begun && s->more && !interrupt_came () && !br_sheet_done (s->sheet))
    return;
  flush_answers (s);
  fflush (s->err.stream);
  if (s->begun)
    interrupt_end (s->sheet);
  s->begun = 0;
}

void
session_run (session *s, const char *text, size_t length, const char *file, size_t line)
{
  size_t before = s->faults;
  br_sink sink = sink_of (s, s->json ? 2 : 1);
  begin_run (s);
  br_status status = br_sheet_run (s->sheet, text, length, file, line, &sink);
  finish_run (s, status, before, file);
}

void
session_run_file (session *s, const char *path)
{
  size_t before = s->faults;
  br_sink sink = sink_of (s, !s->json && s->summary);
  begin_run (s);
  errno = 0;
  br_status status = br_sheet_run_file (s->sheet, path, &sink);
  finish_run (s, status, before, path);
}

int
session_end (session *s)
{
  int status = br_sheet_failing (s->sheet) > 0 ? EXIT_CHECK : EXIT_WELL;
  text_flush (&s->text);
  text_clear (&s->text);
  given_clear (&s->given);
  br_sheet_free (s->sheet);
  recovery_close (&s->kept, 0);
  s->sheet = NULL;
  flush_answers (s);
  int unwritten = ferror (s->out.stream);
  if (fclose (s->out.stream) != 0 || unwritten)
    {
      fprintf (stderr, "benchrule: standard output could not be written%s%s\n", s->reason ? ": " : "",
               s->reason ? strerror (s->reason) : "");
      s->failed = 1;
    }
  return s->failed || s->text.failed || s->faults > 0 ? EXIT_WRONG : status;
}
