/* SPDX-License-Identifier: GPL-3.0-or-later
   pty.c - plays scripts of keys to the program on pseudo-terminals and compares what the
   terminals show with golden transcripts.  Speaks TAP, one test a script.

   Runs tests/repl/NAME.script below $srcdir, all of them or those named as arguments, and
   compares with NAME.golden.  To rewrite the golden files after a change that is meant:
       BR_GOLDEN=write tests/repl/pty
   and read the difference before it is committed.

   A script is a command a line; # begins a remark.  $DIR is a fresh folder, which is the
   program's home and working folder.  Texts may have \r \n \t \e \\ and \xNN.
       file NAME TEXT     writes a file in $DIR
       env NAME TEXT      sets a variable for the programs that start from now on
       terminal N         the commands from here on are for terminal N (1 or 2)
       size ROWS COLUMNS  of the terminal; a resize where the program runs
       start ARGUMENTS    runs $BR
       plain ARGUMENTS    runs tests/repl/plain of $builddir, the program without a line editor
       container ARGUMENTS    runs $BR as process 1 of a space of process numbers, as in a container; where the system
                          allows none, the script is skipped
       expect TEXT        waits for TEXT in what came since the last expect
       send TEXT          types it
       pause MS           takes what comes for so long: only where nothing can be expected
       signal NUMBER      sends it to the program
       close              closes the terminal's window
       end                waits for the program's end; screen and exit status are noted
       show NAME          notes what a file in $DIR holds  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <glob.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "benchrule.h"
#include "folder.h"
#include "screen.h"

#define TERMINALS 2
#define STREAM_SIZE 262144
#define PATIENCE_MS 10000
#define MOST_ARGUMENTS 16

typedef struct terminal
{
  int fd;                       /* -1: nothing runs */
  pid_t child;
  struct winsize size;
  screen screen;
  char stream[STREAM_SIZE];     /* all that came */
  size_t length, seen;
} terminal;

typedef struct player
{
  terminal terminals[TERMINALS];
  terminal *current;
  char dir[256];
  FILE *notes;                  /* the transcript */
  const char *script;
  int line;
  int failed;
  int skipped;                  /* the system does not allow what the script needs */
} player;

static int
fail (player *p, const char *what, const char *detail)
{
  printf ("# %s:%d: %s: %s\n", p->script, p->line, what, detail);
  p->failed = 1;
  return 0;
}

/* Resolves the escapes of TEXT in place and returns the length.  */
static size_t
unescape (char *text)
{
  static const char letters[] = "rnte\\", codes[] = "\r\n\t\033\\";
  char *to = text;
  for (char *from = text; *from; from++)
    {
      const char *letter = *from == '\\' && from[1] ? strchr (letters, from[1]) : NULL;
      unsigned code;
      if (*from == '\\' && sscanf (from, "\\x%2x", &code) == 1)
        {
          *to++ = (char) code;
          from += 3;
        }
      else if (letter)
        {
          *to++ = codes[letter - letters];
          from++;
        }
      else
        *to++ = *from;
    }
  *to = '\0';
  return (size_t) (to - text);
}

/* Takes what came within WAIT_MS.  0 at the end of the stream.  */
static int
take (terminal *t, int wait_ms)
{
  struct pollfd ready = { .fd = t->fd, .events = POLLIN };
  char bytes[4096];
  if (poll (&ready, 1, wait_ms) <= 0)
    return 1;
  ssize_t got = read (t->fd, bytes, sizeof bytes);
  if (got <= 0)
    return 0;
  screen_feed (&t->screen, bytes, (size_t) got);
  for (ssize_t i = 0; i < got && t->length < STREAM_SIZE; i++)
    t->stream[t->length++] = bytes[i];
  return 1;
}

static long
now_ms (void)
{
  struct timespec now;
  clock_gettime (CLOCK_MONOTONIC, &now);
  return now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int
do_expect (player *p, char *text)
{
  terminal *t = p->current;
  size_t length = unescape (text);
  long end = now_ms () + PATIENCE_MS;
  int open = 1;
  for (;;)
    {
      char *found = memmem (t->stream + t->seen, t->length - t->seen, text, length);
      if (found)
        {
          t->seen = (size_t) (found - t->stream) + length;
          return 1;
        }
      if (!open || now_ms () > end)
        {
          t->stream[t->length < STREAM_SIZE ? t->length : STREAM_SIZE - 1] = '\0';
          return fail (p, "did not come", text);
        }
      open = take (t, 100);
    }
}

static int
do_pause (player *p, char *text)
{
  long end = now_ms () + atoi (text);
  while (now_ms () < end && take (p->current, 10))
    continue;
  return 1;
}

static int
do_send (player *p, char *text)
{
  size_t length = unescape (text);
  if (p->current->fd < 0 || write (p->current->fd, text, length) != (ssize_t) length)
    return fail (p, "could not type", strerror (errno));
  return 1;
}

static int
start (player *p, const char *program, char *text)
{
  terminal *t = p->current;
  char *arguments[MOST_ARGUMENTS + 2] = { (char *) "benchrule" };
  int count = 1;
  for (char *word = strtok (text, " "); word && count <= MOST_ARGUMENTS; word = strtok (NULL, " "))
    arguments[count++] = word;
  screen_init (&t->screen, t->size.ws_row, t->size.ws_col);
  t->length = t->seen = 0;
  fflush (NULL);
  t->child = forkpty (&t->fd, NULL, NULL, &t->size);
  if (t->child < 0)
    return fail (p, "no terminal", strerror (errno));
  if (t->child == 0)
    {
      if (chdir (p->dir) == 0)
        execvp (program, arguments);
      _exit (127);
    }
  return 1;
}

static int
do_start (player *p, char *text)
{
  return start (p, getenv ("BR"), text);
}

/* The program is process 1 there, and goes when the process that is known here goes.  */
static int
do_container (player *p, char *text)
{
  static const char words[] = "--user --map-root-user --pid --fork --kill-child", needed[] = "--user --map-root-user ";
  const char *options = geteuid () == 0 ? words + strlen (needed) : words;
  char command[200], line[600];
  snprintf (command, sizeof command, "unshare %s true 2>/dev/null", options);
  fflush (NULL);
  if (system (command) != 0)
    {
      p->skipped = 1;
      return 0;
    }
  snprintf (line, sizeof line, "%s -- %s %s", options, getenv ("BR"), text);
  return start (p, "unshare", line);
}

static int
do_plain (player *p, char *text)
{
  char program[600];
  const char *builddir = getenv ("builddir");
  snprintf (program, sizeof program, "%s/tests/repl/plain", builddir ? builddir : ".");
  return start (p, program, text);
}

static void
note_end (player *p, const terminal *t, int status)
{
  fprintf (p->notes, "--- terminal %d\n", (int) (t - p->terminals) + 1);
  screen_put (&t->screen, p->notes);
  if (WIFSIGNALED (status))
    fprintf (p->notes, "--- ended by signal %d\n", WTERMSIG (status));
  else
    fprintf (p->notes, "--- exit status %d\n", WEXITSTATUS (status));
}

static int
do_close (player *p, char *text)
{
  terminal *t = p->current;
  int status = 0;
  (void) text;
  if (t->fd < 0)
    return fail (p, "nothing runs", "");
  close (t->fd);
  t->fd = -1;
  long end = now_ms () + PATIENCE_MS;
  while (waitpid (t->child, &status, WNOHANG) == 0)
    {
      if (now_ms () > end)
        {
          kill (t->child, SIGKILL);
          waitpid (t->child, &status, 0);
          return fail (p, "did not end", "");
        }
      usleep (10000);
    }
  /* Whether the signal or the end of what it reads comes first is the system's choice.  */
  fprintf (p->notes, "--- terminal %d: the window was closed\n", (int) (t - p->terminals) + 1);
  return 1;
}

/* A program that does not end is ended, and that is a failure.  */
static int
do_end (player *p, char *text)
{
  terminal *t = p->current;
  long end = now_ms () + PATIENCE_MS;
  int status = 0, late = 0;
  (void) text;
  if (t->fd < 0)
    return fail (p, "nothing runs", "");
  while (take (t, 100))
    if (now_ms () > end && !late)
      {
        late = 1;
        kill (t->child, SIGKILL);
      }
  waitpid (t->child, &status, 0);
  close (t->fd);
  t->fd = -1;
  note_end (p, t, status);
  return late ? fail (p, "did not end", "") : 1;
}

static int
do_size (player *p, char *text)
{
  struct winsize *size = &p->current->size;
  int rows = 0, columns = 0;
  if (sscanf (text, "%d %d", &rows, &columns) != 2)
    return fail (p, "no size", text);
  size->ws_row = (unsigned short) rows;
  size->ws_col = (unsigned short) columns;
  p->current->screen.columns = columns;
  return p->current->fd < 0 || ioctl (p->current->fd, TIOCSWINSZ, size) == 0
         || fail (p, "no resize", strerror (errno));
}

static int
do_signal (player *p, char *text)
{
  return kill (p->current->child, atoi (text)) == 0 || fail (p, "no signal", text);
}

static int
do_terminal (player *p, char *text)
{
  int number = atoi (text);
  if (number < 1 || number > TERMINALS)
    return fail (p, "no terminal", text);
  p->current = &p->terminals[number - 1];
  return 1;
}

/* Splits NAME from the rest of the line, and gives the path of it in the folder.  */
static char *
split (player *p, char *path, size_t size, char *text)
{
  char *rest = text + strcspn (text, " ");
  if (*rest)
    *rest++ = '\0';
  snprintf (path, size, "%s/%s", p->dir, text);
  return rest;
}

static int
do_file (player *p, char *text)
{
  char path[600];
  char *rest = split (p, path, sizeof path, text);
  char *name = strrchr (path, '/');
  *name = '\0';
  mkdir (path, 0700);           /* of one level, or there already */
  *name = '/';
  FILE *file = fopen (path, "w");
  if (!file)
    return fail (p, path, strerror (errno));
  fwrite (rest, 1, unescape (rest), file);
  return fclose (file) == 0;
}

static int
do_env (player *p, char *text)
{
  char path[600], value[1024];
  char *rest = split (p, path, sizeof path, text);
  const char *dir = strstr (rest, "$DIR");
  if (dir)
    snprintf (value, sizeof value, "%.*s%s%s", (int) (dir - rest), rest, p->dir, dir + 4);
  else
    snprintf (value, sizeof value, "%s", rest);
  return setenv (text, value, 1) == 0;
}

static int
do_show (player *p, char *text)
{
  char path[600], line[4096];
  split (p, path, sizeof path, text);
  FILE *file = fopen (path, "r");
  if (!file)
    return fail (p, path, strerror (errno));
  fprintf (p->notes, "--- %s\n", text);
  while (fgets (line, sizeof line, file))
    fputs (line, p->notes);
  fclose (file);
  return 1;
}

static int
run_command (player *p, char *line)
{
  static const struct { const char *name; int (*run) (player *p, char *text); } commands[] = {
    { "start", do_start }, { "plain", do_plain }, { "container", do_container }, { "close", do_close }, { "expect", do_expect }, { "send", do_send },
    { "end", do_end }, { "size", do_size }, { "signal", do_signal }, { "terminal", do_terminal },
    { "file", do_file }, { "env", do_env }, { "show", do_show }, { "pause", do_pause }
  };
  line[strcspn (line, "\n")] = '\0';
  if (!*line || *line == '#')
    return 1;
  char *text = line + strcspn (line, " ");
  if (*text)
    *text++ = '\0';
  for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++)
    if (strcmp (commands[i].name, line) == 0)
      return commands[i].run (p, text);
  return fail (p, "no such command", line);
}

/* The same surroundings for every script, whoever runs the tests.  */
static void
set_surroundings (const player *p)
{
  char path[300];
  static const char *const unset[] = { "NO_COLOR", "LANG", "LANGUAGE", "COLUMNS", "LINES" };
  for (size_t i = 0; i < sizeof unset / sizeof unset[0]; i++)
    unsetenv (unset[i]);
  snprintf (path, sizeof path, "%s/state", p->dir);
  setenv ("XDG_STATE_HOME", path, 1);
  setenv ("HOME", p->dir, 1);
  setenv ("INPUTRC", "/dev/null", 1);
  setenv ("TERM", "xterm", 1);
  setenv ("LC_ALL", "C.UTF-8", 1);
}

static void
reset (player *p, const char *script)
{
  p->script = script;
  p->line = 0;
  p->failed = p->skipped = 0;
  p->current = &p->terminals[0];
  for (int i = 0; i < TERMINALS; i++)
    {
      p->terminals[i].fd = -1;
      p->terminals[i].size = (struct winsize) { .ws_row = 24, .ws_col = 80 };
    }
}

/* A transcript holds for every version of the program.  */
static void
hide_version (char *notes)
{
  static const char banner[] = "benchrule " BR_VERSION, hidden[] = "benchrule V";
  for (char *found; (found = strstr (notes, banner)) != NULL; notes = found)
    {
      char *rest = found + strlen (banner);
      memcpy (found, hidden, strlen (hidden));
      memmove (found + strlen (hidden), rest, strlen (rest) + 1);
    }
}

/* Nor does it depend on the folder and the process that left work behind.  */
static void
hide_left_work (char *notes)
{
  static const char command[] = "  open /", hidden[] = "  open ...";
  for (char *found; (found = strstr (notes, command)) != NULL; notes = found + 1)
    {
      size_t length = strcspn (found, "\n");
      if (length < strlen (hidden) || !memmem (found, length, "/unsaved-", 9))
        continue;
      memcpy (found, hidden, strlen (hidden));
      memmove (found + strlen (hidden), found + length, strlen (found + length) + 1);
    }
}

/* Runs SCRIPT; NOTES gets the transcript, which the caller frees.  */
static int
play (player *p, const char *script, char **notes)
{
  char line[4096];
  size_t size = 0;
  reset (p, script);
  const char *base = getenv ("TMPDIR");
  snprintf (p->dir, sizeof p->dir, "%s/benchrule-pty-XXXXXX", base && *base ? base : "/tmp");
  FILE *file = fopen (script, "r");
  p->notes = open_memstream (notes, &size);
  if (!file || !p->notes || !mkdtemp (p->dir))
    return fail (p, "cannot begin", strerror (errno));
  set_surroundings (p);
  int good = 1;
  while (good && fgets (line, sizeof line, file))
    {
      p->line++;
      good = run_command (p, line);
    }
  for (int i = 0; i < TERMINALS; i++)
    {
      p->current = &p->terminals[i];
      if (p->current->fd >= 0)
        {
          kill (p->current->child, SIGHUP);
          do_end (p, line);
        }
    }
  fclose (file);
  fclose (p->notes);
  hide_left_work (*notes);
  hide_version (*notes);
  folder_remove (p->dir);
  return good && !p->failed;
}

/* The path of the golden file, NAME.golden beside NAME.script.  */
static void
golden_path (char *path, size_t size, const char *script)
{
  snprintf (path, size, "%.*s.golden", (int) (strlen (script) - strlen (".script")), script);
}

static void
put_remark (const char *title, const char *text)
{
  printf ("# %s\n#   ", title);
  for (; *text; text++)
    {
      putchar (*text);
      if (*text == '\n')
        fputs ("#   ", stdout);
    }
  putchar ('\n');
}

static int
compare (const char *script, const char *notes)
{
  char path[600];
  char wanted[65536];
  golden_path (path, sizeof path, script);
  const char *mode = getenv ("BR_GOLDEN");
  int write_it = mode && strcmp (mode, "write") == 0;
  FILE *file = fopen (path, write_it ? "w" : "r");
  if (!file)
    return printf ("# %s: %s\n", path, strerror (errno)) < 0;
  if (write_it)
    {
      fputs (notes, file);
      return fclose (file) == 0;
    }
  wanted[fread (wanted, 1, sizeof wanted - 1, file)] = '\0';
  fclose (file);
  if (strcmp (wanted, notes) == 0)
    return 1;
  put_remark ("wanted", wanted);
  put_remark ("came", notes);
  return 0;
}

static int
test (player *p, int number, const char *script)
{
  char *notes = NULL;
  const char *name = strrchr (script, '/') ? strrchr (script, '/') + 1 : script;
  int good = play (p, script, &notes);
  if (p->skipped)
    {
      printf ("ok %d - %s # SKIP no spaces of process numbers here\n", number, name);
      fflush (stdout);
      free (notes);
      return 1;
    }
  if (!good)
    put_remark ("so far", notes ? notes : "");
  good = good && compare (script, notes);
  printf ("%s %d - %s\n", good ? "ok" : "not ok", number, name);
  fflush (stdout);
  free (notes);
  return good;
}

int
main (int argc, char **argv)
{
  static player p;
  glob_t found;
  char pattern[600];
  int good = 1;
  const char *srcdir = getenv ("srcdir");
  const char *program = getenv ("BR");
  snprintf (pattern, sizeof pattern, "%s/tests/repl/*.script", srcdir ? srcdir : ".");
  if (!program || *program != '/')
    {
      puts ("Bail out! BR is not the absolute path of the program");
      return 1;
    }
  if (argc == 1 && glob (pattern, 0, NULL, &found) != 0)
    {
      puts ("Bail out! no scripts");
      return 1;
    }
  size_t count = argc > 1 ? (size_t) argc - 1 : found.gl_pathc;
  printf ("1..%zu\n", count);
  for (size_t i = 0; i < count; i++)
    good &= test (&p, (int) i + 1, argc > 1 ? argv[i + 1] : found.gl_pathv[i]);
  if (argc == 1)
    globfree (&found);
  return !good;
}
