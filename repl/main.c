/* SPDX-License-Identifier: GPL-3.0-or-later
   main.c - the program: sheets, then statements of the command line, then the prompt or
   standard input.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <fcntl.h>
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "benchrule_sheet.h"
#include "complete.h"
#include "input.h"
#include "line.h"
#include "memory.h"
#include "options.h"
#include "recovery.h"
#include "session.h"

#define EXIT_USAGE 2

/* A closed standard stream would be given to the next file that is opened.  In its place
   comes one on which the same use fails: nothing to read, and no writing.  */
static void
fill_standard_streams (void)
{
  for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
    if (fcntl (fd, F_GETFD) < 0 && errno == EBADF)
      (void) !open ("/dev/null", fd == STDIN_FILENO ? O_WRONLY : O_RDONLY);
}

static int
has_terminal (void)
{
  return isatty (STDIN_FILENO) && isatty (STDOUT_FILENO);
}

/* Every line is a run of its own, so that its answer is there before another line is waited for.  */
static void
run_input (session *s)
{
  input in = INPUT_ZERO;
  input_result result;
  in.fd = STDIN_FILENO;
  while ((result = input_next (&in)) == INPUT_LINE)
    {
      s->more = input_waits (&in);
      session_run (s, in.bytes, in.length, "-", in.line);
      s->goes_on = 1;
      if (br_sheet_done (s->sheet))
        break;
    }
  s->goes_on = 0;
  if (result == INPUT_FAILED)
    {
      br_error error = { BR_IO, 0, 0, "", "" };
      snprintf (error.message, sizeof error.message, "standard input could not be read: %s",
                strerror (errno));
      br_fault fault = { "-", 0, "", 0, &error };
      session_fault (s, &fault);
    }
  input_clear (&in);
}

static void
run_sheet (session *s, const char *path)
{
  if (strcmp (path, "-") == 0)
    run_input (s);
  else
    session_run_file (s, path);
}

/* The statements of -c are numbered as lines, one or more each.  */
static void
run_statements (session *s, const options *o)
{
  size_t line = 1;
  for (size_t i = 0; i < o->statement_count && !br_sheet_done (s->sheet); i++)
    {
      const char *text = o->statements[i];
      session_run (s, text, strlen (text), "-c", line);
      for (line++; *text; text++)
        line += *text == '\n';
    }
}

/* A pasted text is run line by line, as if each had been typed.  */
static void
run_typed (session *s, const char *text)
{
  const char *end;
  do
    {
      end = text + strcspn (text, "\n");
      display_measure (&s->out);
      session_run (s, text, (size_t) (end - text), session_prompt_name, 1);
      recovery_keep (&s->kept, s->sheet, s->saved, &s->err);
      s->saved = 0;
      if (line_rearm ())
        return;
      text = end + 1;
    }
  while (*end && !br_sheet_done (s->sheet));
}

/* Work that is not saved is asked about once; leaving again right after that is the answer.
   1 if the prompt may end.  */
static int
may_leave (session *s, int *asked)
{
  if (!br_sheet_unsaved (s->sheet) || *asked)
    return 1;
  *asked = 1;
  br_sheet_go_on (s->sheet);
  puts ("Not saved yet: `save FILE` keeps it, and `quit` once more leaves without.");
  return 0;
}

/* Lines until the prompt is left; the last result.  */
static line_result
read_lines (session *s)
{
  line_result result;
  int told = 0, asked = 0;
  for (;;)
    {
      char *text = NULL;
      fflush (stdout);
      result = line_read (&text);
      if (result == LINE_TEXT)
        {
          run_typed (s, text);
          free (text);
          if (!br_sheet_done (s->sheet))
            asked = 0;
          else if (may_leave (s, &asked))
            return result;
        }
      else if (result == LINE_INTERRUPT && !told)
        told = puts ("(quit, or Ctrl-D on an empty line, leaves)") >= 0;
      else if (result == LINE_END && !may_leave (s, &asked))
        continue;
      else if (result != LINE_INTERRUPT)
        return result;
    }
}

static void
run_prompt (session *s)
{
  printf ("benchrule %s, exact shop arithmetic\n", BR_VERSION);
  puts ("Type a sum such as 2-3/8 + 1/2.  help tells more, quit leaves.");
  recovery_tell (&s->out);
  line_open ("benchrule> ", complete_words, s);
  s->interrupted = line_flag ();
  s->pager.pages = 1;
  br_sheet_watch (s->sheet, s->interrupted);
  line_result result = read_lines (s);
  br_sheet_watch (s->sheet, NULL);
  s->interrupted = NULL;
  line_close ();
  recovery_close (&s->kept, result == LINE_TEXT || result == LINE_END);
  if (result == LINE_FAILED)
    s->failed = 1;
}

/* A SHEET is standard input.  */
static int
reads_input (const options *o)
{
  for (size_t i = 0; i < o->sheet_count; i++)
    if (strcmp (o->sheets[i], "-") == 0)
      return 1;
  return 0;
}

static void
run_all (session *s, const options *o)
{
  int named = o->sheet_count > 0 || o->statement_count > 0;
  int on = o->interactive || (o->statement_count == 0 && has_terminal () && !reads_input (o));
  s->summary = named && on && has_terminal ();
  for (size_t i = 0; i < o->sheet_count && !br_sheet_done (s->sheet); i++)
    run_sheet (s, o->sheets[i]);
  run_statements (s, o);
  if ((named && !on) || br_sheet_done (s->sheet))
    return;
  if (has_terminal ())
    run_prompt (s);
  else
    run_input (s);
}

int
main (int argc, char **argv)
{
  options o = OPTIONS_ZERO;
  session s;
  int status = EXIT_USAGE;
  memory_start ();
  signal (SIGXFSZ, SIG_IGN);            /* a file that grows too large is an error to be told */
  fill_standard_streams ();
  setlocale (LC_CTYPE, "");
  if (argc > 0)
    argv[0] = (char *) "benchrule";     /* how getopt names the program in its messages */
  if (strcmp (br_version (), BR_VERSION) != 0)
    fprintf (stderr, "benchrule: built for library %s, found %s\n", BR_VERSION, br_version ());
  else
    switch (options_read (&o, argc, argv))
      {
      case OPTIONS_RUN:
        if (session_start (&s, &o))
          {
            run_all (&s, &o);
            status = session_end (&s);
          }
        break;
      case OPTIONS_LEAVE:
        status = fclose (stdout) == 0 ? 0 : EXIT_USAGE;
        if (status)
          fprintf (stderr, "benchrule: standard output could not be written: %s\n", strerror (errno));
        break;
      case OPTIONS_WRONG: break;
      }
  options_clear (&o);
  line_die ();
  return status;
}
