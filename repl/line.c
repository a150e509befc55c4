/* SPDX-License-Identifier: GPL-3.0-or-later
   line.c - lines that are typed at the prompt.  The line editor runs by its callbacks around
   ppoll, in which alone signals come in, so that none is lost or taken twice.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "line.h"

#include <errno.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Tests build the program both ways.  */
#ifdef WITHOUT_READLINE
# undef HAVE_READLINE
#endif

#ifdef HAVE_READLINE
# include <readline/history.h>
# include <readline/readline.h>
#else
# include "input.h"
#endif

#include "history.h"
#include "interrupt.h"

#define SIGNAL_COUNT 5

/* The signals that are taken over while a prompt is open; the last two only while a line is read.  */
static const int signals[SIGNAL_COUNT] = { SIGINT, SIGTERM, SIGHUP, SIGTSTP, SIGWINCH };
#define ALWAYS_COUNT 3

static struct
{
  const char *prompt;
  line_words *words;
  void *user;
  struct sigaction before[SIGNAL_COUNT];
#ifdef HAVE_READLINE
  char *path;                           /* of the history, or NULL */
  int warned;
  char *text;                           /* the line from readline */
  int done;
#else
  input in;
#endif
} prompt;

static volatile sig_atomic_t interrupted;   /* SIGINT, or a signal to leave */
static struct timespec since;               /* when that was */
static volatile sig_atomic_t leaving;       /* SIGTERM or SIGHUP */
static volatile sig_atomic_t stopping;      /* SIGTSTP */
static volatile sig_atomic_t resized;       /* SIGWINCH */
static volatile sig_atomic_t working;       /* a statement runs */

static void
on_signal (int number)
{
  if (number == SIGTSTP)
    stopping = 1;
  else if (number == SIGWINCH)
    resized = 1;
  else
    {
      /* The second time, work that does not end is ended.  */
      if (working && interrupted && interrupt_overdue (&since))
        {
          signal (number, SIG_DFL);
          raise (number);
        }
      if (number != SIGINT)
        leaving = number;
      if (!interrupted)
        clock_gettime (CLOCK_MONOTONIC, &since);
      interrupted = 1;
    }
}

static void
take_signals (int first, int past)
{
  struct sigaction action = { .sa_handler = on_signal };
  sigemptyset (&action.sa_mask);
  for (int i = first; i < past; i++)
    sigaction (signals[i], &action, &prompt.before[i]);
}

static void
give_signals_back (int first, int past)
{
  for (int i = first; i < past; i++)
    sigaction (signals[i], &prompt.before[i], NULL);
}

/* From here on the signals come in only where a wait lets them; OLD gets what was blocked before.  */
static void
block_signals (sigset_t *old)
{
  sigset_t blocked;
  sigemptyset (&blocked);
  for (int i = 0; i < SIGNAL_COUNT; i++)
    sigaddset (&blocked, signals[i]);
  sigprocmask (SIG_BLOCK, &blocked, old);
}

/* Waits for something to read while the signals of INSIDE may come in.  As ppoll.  */
static int
wait_for_input (const sigset_t *inside)
{
  struct pollfd wait = { .fd = STDIN_FILENO, .events = POLLIN };
  return ppoll (&wait, 1, NULL, inside);
}

const volatile sig_atomic_t *
line_flag (void)
{
  return &interrupted;
}

int
line_rearm (void)
{
  int was = interrupted;
  if (!leaving)
    interrupted = 0;
  return was;
}

void
line_die (void)
{
  if (!leaving)
    return;
  signal (leaving, SIG_DFL);
  raise (leaving);
}

#ifdef HAVE_READLINE

const char *
line_version (void)
{
  static char version[48];
  snprintf (version, sizeof version, "GNU Readline %.24s", rl_library_version);
  return version;
}

static void
warn_history (int good)
{
  if (good || prompt.warned)
    return;
  prompt.warned = 1;
  fprintf (stderr, "benchrule: what you type cannot be kept in %s: %s\n", prompt.path,
           errno == EINVAL ? "it is no file of text" : errno == EWOULDBLOCK ? "another program holds it" : strerror (errno));
}

/* The words for the line of the buffer that the cursor is in.  OFFSET gets where it begins.  */
static char **
words_at_point (size_t *offset, size_t *start, int *file)
{
  size_t begin = (size_t) rl_point;
  while (begin > 0 && rl_line_buffer[begin - 1] != '\n')
    begin--;
  *offset = begin;
  *start = 0;
  *file = 0;
  return prompt.words (prompt.user, rl_line_buffer + begin, (size_t) rl_point - begin, start, file);
}

static void
free_words (char **words)
{
  for (char **w = words; w && *w; w++)
    free (*w);
  free (words);
}

/* A file name ends at a blank; any other word ends before a character that is not a letter, digit or underscore.  */
static char *
word_breaks (void)
{
  static char of_files[] = " \t\n";
  static char of_words[] = " \t\n!\"#$%&'()*+,-./:;<=>?@[\\]^`{|}~";
  size_t offset, start;
  int file;
  free_words (words_at_point (&offset, &start, &file));
  return file ? of_files : of_words;
}

/* WORDS begin at BEGIN of the buffer; the editor counts its word from START.  */
static char *
next_match (const char *word, size_t begin, size_t start)
{
  char *whole = NULL;
  if (begin >= start)
    return asprintf (&whole, "%.*s%s", (int) (begin - start), rl_line_buffer + start, word) < 0
           ? NULL : whole;
  return strlen (word) >= start - begin ? strdup (word + (start - begin)) : NULL;
}

static struct
{
  char **words;
  size_t begin, start;
} matching;

static char *
generate (const char *text, int state)
{
  static size_t index;
  (void) text;
  if (state == 0)
    index = 0;
  return matching.words && matching.words[index]
         ? next_match (matching.words[index++], matching.begin, matching.start) : NULL;
}

static char **
attempt (const char *text, int start, int end)
{
  size_t offset, word_start;
  int file;
  (void) end;
  char **words = words_at_point (&offset, &word_start, &file);
  char **matches = NULL;
  rl_attempted_completion_over = !file;
  if (!file && words)
    {
      matching.words = words;
      matching.begin = offset + word_start;
      matching.start = (size_t) start;
      matches = rl_completion_matches (text, generate);
      matching.words = NULL;
    }
  /* after the bracket of a function comes its argument, without a blank */
  if (matches && matches[0] && !matches[1] && *matches[0] && matches[0][strlen (matches[0]) - 1] == '(')
    rl_completion_append_character = '\0';
  free_words (words);
  return matches;
}

static void
on_line (char *text)
{
  rl_callback_handler_remove ();
  prompt.text = text;
  prompt.done = 1;
}

static void
remember (const char *text)
{
  add_history (text);
}

void
line_open (const char *text, line_words *words, void *user)
{
  prompt.prompt = text;
  prompt.words = words;
  prompt.user = user;
  prompt.path = history_path ();
  rl_readline_name = "benchrule";
  rl_catch_signals = 0;
  rl_catch_sigwinch = 0;
  rl_change_environment = 0;
  rl_attempted_completion_function = attempt;
  rl_completion_word_break_hook = word_breaks;
  rl_initialize ();
  using_history ();
  stifle_history (HISTORY_MOST);
  take_signals (0, ALWAYS_COUNT);
  if (prompt.path)
    warn_history (history_load (prompt.path, remember));
  else
    fputs ("benchrule: what you type is not kept, and no copy of what is not saved: HOME names no folder\n", stderr);
}

static void
keep (const char *text)
{
  if (text[strspn (text, " \t\n")] == '\0')
    return;
  HIST_ENTRY *last = history_length > 0 ? history_get (history_base + history_length - 1) : NULL;
  if (!last || strcmp (last->line, text) != 0)
    add_history (text);
  if (prompt.path)
    warn_history (history_add (prompt.path, text));
}

/* Stops as other programs do, the terminal as it was, and goes on where it left off.  */
static void
stop (void)
{
  sigset_t one, old;
  stopping = 0;
  rl_deprep_terminal ();
  signal (SIGTSTP, SIG_DFL);
  sigemptyset (&one);
  sigaddset (&one, SIGTSTP);
  raise (SIGTSTP);
  sigprocmask (SIG_UNBLOCK, &one, &old);
  sigprocmask (SIG_SETMASK, &old, NULL);
  struct sigaction action = { .sa_handler = on_signal };
  sigemptyset (&action.sa_mask);
  sigaction (SIGTSTP, &action, NULL);
  rl_prep_terminal (1);
  rl_resize_terminal ();
  rl_forced_update_display ();
}

static line_result
drop (void)
{
  rl_callback_sigcleanup ();
  rl_point = rl_end;
  rl_redisplay ();
  if (!leaving)
    rl_echo_signal_char (SIGINT);
  rl_replace_line ("", 1);
  rl_crlf ();
  rl_callback_handler_remove ();
  return leaving ? LINE_LEAVE : LINE_INTERRUPT;
}

/* Runs the editor until it has a line; INSIDE are the signals that may come while it waits.  */
static line_result
edit (const sigset_t *inside)
{
  while (!prompt.done)
    {
      int ready = interrupted ? 0 : wait_for_input (inside);
      int reason = errno;
      if (interrupted)
        return drop ();
      if (stopping)
        stop ();
      if (resized)
        {
          resized = 0;
          rl_resize_terminal ();
        }
      if (ready > 0)
        rl_callback_read_char ();
      else if (ready < 0 && reason != EINTR)
        {
          rl_callback_handler_remove ();
          return LINE_FAILED;
        }
    }
  return prompt.text ? LINE_TEXT : LINE_END;
}

line_result
line_read (char **text)
{
  sigset_t old;
  block_signals (&old);
  working = 0;
  take_signals (ALWAYS_COUNT, SIGNAL_COUNT);
  prompt.done = 0;
  prompt.text = NULL;
  rl_reset_screen_size ();
  rl_callback_handler_install (prompt.prompt, on_line);
  line_result result = edit (&old);
  give_signals_back (ALWAYS_COUNT, SIGNAL_COUNT);
  if (result == LINE_TEXT)
    {
      *text = prompt.text;
      keep (prompt.text);
    }
  else if (result == LINE_END)
    putchar ('\n');
  line_rearm ();
  working = 1;
  sigprocmask (SIG_SETMASK, &old, NULL);
  return result;
}

void
line_close (void)
{
  give_signals_back (0, ALWAYS_COUNT);
  free (prompt.path);
  prompt.path = NULL;
  clear_history ();
}

#else /* no line editor */

const char *
line_version (void)
{
  return "none";
}

void
line_open (const char *text, line_words *words, void *user)
{
  prompt.prompt = text;
  prompt.words = words;
  prompt.user = user;
  prompt.in.fd = STDIN_FILENO;
  take_signals (0, ALWAYS_COUNT);
}

/* The terminal hands over whole lines, so that nothing is left of one when the next is waited for.  */
line_result
line_read (char **text)
{
  sigset_t old;
  input_result read = INPUT_FAILED;
  fputs (prompt.prompt, stdout);
  fflush (stdout);
  block_signals (&old);
  working = 0;
  int ready = -1;
  while (!interrupted && (ready = wait_for_input (&old)) < 0 && errno == EINTR)
    continue;
  int interrupt = interrupted;
  line_rearm ();
  working = 1;
  sigprocmask (SIG_SETMASK, &old, NULL);
  if (!interrupt && ready > 0)
    read = input_next (&prompt.in);
  else if (interrupt)
    putchar ('\n');
  if (interrupt)
    return leaving ? LINE_LEAVE : LINE_INTERRUPT;
  if (read == INPUT_LINE)
    *text = strndup (prompt.in.bytes, prompt.in.length);
  if (read == INPUT_END)
    putchar ('\n');
  return read == INPUT_LINE && *text ? LINE_TEXT : read == INPUT_END ? LINE_END : LINE_FAILED;
}

void
line_close (void)
{
  give_signals_back (0, ALWAYS_COUNT);
  input_clear (&prompt.in);
}

#endif
