/* SPDX-License-Identifier: GPL-3.0-or-later
   input.c - tests of what comes in: lines of a stream, the history file, the command line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "check.h"

#include <getopt.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "folder.h"
#include "history.h"
#include "input.h"
#include "options.h"

/* A file without a name of LENGTH BYTES, to be read.  */
static int
file_of (const char *bytes, size_t length)
{
  char path[] = "/tmp/benchrule-lines-XXXXXX";
  int fd = mkstemp (path);
  assert_true (fd >= 0);
  unlink (path);
  assert_int_equal (write (fd, bytes, length), length);
  assert_int_equal (lseek (fd, 0, SEEK_SET), 0);
  return fd;
}

/* Reads LENGTH BYTES; each line goes to LINES, and "|" after it.  */
static void
read_all (char *lines, const char *bytes, size_t length)
{
  input in = INPUT_ZERO;
  size_t end = 0;
  in.fd = file_of (bytes, length);
  while (input_next (&in) == INPUT_LINE)
    {
      memcpy (lines + end, in.bytes, in.length);
      end += in.length;
      lines[end++] = '|';
    }
  lines[end] = '\0';
  close (in.fd);
  input_clear (&in);
}

static void
test_lines (void **state)
{
  static const struct { const char *bytes; size_t length; const char *lines; } cases[] = {
    { "a\nb\n", 4, "a|b|" },
    { "a\nb", 3, "a|b|" },
    { "\n\n", 2, "||" },
    { "a\r\nb\r\n", 6, "a|b|" },
    { "\xef\xbb\xbf" "a\n\xef\xbb\xbf" "b", 9, "a|\xef\xbb\xbf" "b|" },
    { "\xef\xbb\xbf", 3, "|" },
    { "\r", 1, "|" }
  };
  char lines[64];
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (cases); i++)
    {
      read_all (lines, cases[i].bytes, cases[i].length);
      assert_string_equal (lines, cases[i].lines);
    }
}

/* A NUL byte stays in the line, for the sheet to tell of.  */
static void
test_nul (void **state)
{
  input in = INPUT_ZERO;
  (void) state;
  in.fd = file_of ("a\0b\n", 4);
  assert_int_equal (input_next (&in), INPUT_LINE);
  assert_int_equal (in.length, 3);
  assert_memory_equal (in.bytes, "a\0b", 3);
  assert_int_equal (input_next (&in), INPUT_END);
  close (in.fd);
  input_clear (&in);
}

/* Both sides of the limit, and the line after one that is far over it.  */
static void
test_long_line (void **state)
{
  static const size_t lengths[] = { BR_MAX_LINE, BR_MAX_LINE + 1, 20 * BR_MAX_LINE };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lengths); i++)
    {
      input in = INPUT_ZERO;
      char *bytes = malloc (lengths[i] + 4);
      memset (bytes, 'x', lengths[i]);
      memcpy (bytes + lengths[i], "\nyz", 3);
      in.fd = file_of (bytes, lengths[i] + 3);
      assert_int_equal (input_next (&in), INPUT_LINE);
      assert_int_equal (in.length > BR_MAX_LINE, lengths[i] > BR_MAX_LINE);
      assert_true (in.room <= 4 * BR_MAX_LINE);
      assert_int_equal (input_next (&in), INPUT_LINE);
      assert_int_equal (in.length, 2);
      assert_int_equal (in.line, 2);
      close (in.fd);
      input_clear (&in);
      free (bytes);
    }
}

/* Only a whole line is there already; the rest of a pipe is waited for.  */
static void
test_waits (void **state)
{
  input in = INPUT_ZERO;
  int ends[2];
  (void) state;
  assert_int_equal (pipe (ends), 0);
  in.fd = ends[0];
  assert_int_equal (write (ends[1], "a\nb\nc", 5), 5);
  assert_false (input_waits (&in));
  assert_int_equal (input_next (&in), INPUT_LINE);
  assert_true (input_waits (&in));
  assert_int_equal (input_next (&in), INPUT_LINE);
  assert_false (input_waits (&in));
  close (ends[1]);
  assert_int_equal (input_next (&in), INPUT_LINE);
  assert_int_equal (in.bytes[0], 'c');
  assert_int_equal (input_next (&in), INPUT_END);
  close (ends[0]);
  assert_int_equal (input_next (&in), INPUT_FAILED);
  input_clear (&in);
}

static char folder[] = "/tmp/benchrule-input-XXXXXX";
static char loaded[4096];

static void
append (const char *text)
{
  strncat (loaded, text, sizeof loaded - strlen (loaded) - 1);
  strncat (loaded, "|", sizeof loaded - strlen (loaded) - 1);
}

static const char *
load (const char *path)
{
  loaded[0] = '\0';
  assert_true (history_load (path, append));
  return loaded;
}

static int
make_folder (void **state)
{
  (void) state;
  return mkdtemp (folder) ? 0 : -1;
}

static int
remove_folder (void **state)
{
  (void) state;
  return folder_remove (folder);
}

static void
test_history_path (void **state)
{
  static const char *const state_homes[] = { "/x", "x", "" };
  char home[200], expected[300];
  (void) state;
  snprintf (home, sizeof home, "%s", folder);
  for (size_t i = 0; i < CHECK_COUNT (state_homes); i++)
    {
      setenv ("XDG_STATE_HOME", state_homes[i], 1);
      setenv ("HOME", home, 1);
      snprintf (expected, sizeof expected, "%s%s", i ? home : "/x", i ? "/.local/state/benchrule/history" : "/benchrule/history");
      char *path = history_path ();
      assert_string_equal (path, expected);
      free (path);
    }
  unsetenv ("XDG_STATE_HOME");
  /* A home that is no folder, or is not there, has no history.  */
  setenv ("HOME", "/dev/null", 1);
  assert_null (history_path ());
  snprintf (home, sizeof home, "%s/none", folder);
  setenv ("HOME", home, 1);
  assert_null (history_path ());
  unsetenv ("HOME");
  assert_null (history_path ());
}

static void
test_history (void **state)
{
  char path[200];
  struct stat info;
  (void) state;
  snprintf (path, sizeof path, "%s/a/b/history", folder);
  assert_string_equal (load (path), "");
  assert_true (history_add (path, "1/2"));
  assert_true (history_add (path, "1/2"));
  assert_true (history_add (path, "a\nb\\n\\"));
  assert_true (history_add (path, "1/2"));
  assert_string_equal (load (path), "1/2|a\nb\\n\\|1/2|");
  snprintf (path, sizeof path, "%s/a", folder);
  assert_int_equal (stat (path, &info), 0);
  assert_int_equal (info.st_mode & 0777, 0700);
  snprintf (path, sizeof path, "%s/a/b/history", folder);
  assert_int_equal (stat (path, &info), 0);
  assert_int_equal (info.st_mode & 0777, 0600);
}

/* Two programs that add at once: nothing is lost.  */
static void
test_history_shared (void **state)
{
  enum { EACH = 50 };
  char path[200], text[32];
  (void) state;
  snprintf (path, sizeof path, "%s/shared/history", folder);
  pid_t child = fork ();
  for (int i = 0; i < EACH; i++)
    {
      snprintf (text, sizeof text, "%c%d", child ? 'p' : 'c', i);
      if (!history_add (path, text))
        _exit (1);
    }
  if (child == 0)
    _exit (0);
  int status;
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_int_equal (status, 0);
  load (path);
  for (int i = 0; i < 2 * EACH; i++)
    {
      snprintf (text, sizeof text, "%c%d|", i % 2 ? 'p' : 'c', i / 2);
      assert_non_null (strstr (loaded, text));
    }
}

/* The oldest go when there are more than HISTORY_MOST.  */
static void
test_history_most (void **state)
{
  char path[200];
  (void) state;
  snprintf (path, sizeof path, "%s/most", folder);
  FILE *file = fopen (path, "w");
  for (int i = 0; i < HISTORY_MOST; i++)
    fprintf (file, "%c\n", i == 0 ? 'F' : i == 1 ? 'S' : i % 2 ? 'x' : 'y');
  fclose (file);
  assert_true (history_add (path, "last"));
  load (path);
  assert_null (strchr (loaded, 'F'));
  assert_int_equal (loaded[0], 'S');
  assert_non_null (strstr (loaded, "|last|"));
}

static void
test_history_link (void **state)
{
  char path[200], link[200];
  struct stat info;
  (void) state;
  snprintf (path, sizeof path, "%s/real", folder);
  snprintf (link, sizeof link, "%s/link", folder);
  assert_true (history_add (path, "one"));
  assert_int_equal (symlink (path, link), 0);
  assert_true (history_add (link, "two"));
  assert_int_equal (lstat (link, &info), 0);
  assert_true (S_ISLNK (info.st_mode));
  assert_string_equal (load (path), "one|two|");
}

static void
test_history_fails (void **state)
{
  char path[200];
  (void) state;
  snprintf (path, sizeof path, "%s/file/history", folder);
  snprintf (loaded, sizeof loaded, "%s/file", folder);
  fclose (fopen (loaded, "w"));
  assert_false (history_add (path, "x"));
}

static options_result
read_options (options *o, const char *one, const char *two, const char *three)
{
  char *argv[] = { (char *) "benchrule", (char *) one, (char *) two, (char *) three, NULL };
  int argc = one ? two ? three ? 4 : 3 : 2 : 1;
  optind = 0;
  return options_read (o, argc, argv);
}

static void
test_options (void **state)
{
  options o = OPTIONS_ZERO;
  (void) state;
  assert_int_equal (read_options (&o, "-c", "1/2", "cart.sheet"), OPTIONS_RUN);
  assert_int_equal (o.statement_count, 1);
  assert_string_equal (o.statements[0], "1/2");
  assert_int_equal (o.sheet_count, 1);
  assert_false (o.json || o.interactive);
  options_clear (&o);
  assert_int_equal (read_options (&o, "-o", "json", "-i"), OPTIONS_RUN);
  assert_true (o.json && o.interactive);
  options_clear (&o);
  assert_int_equal (read_options (&o, "--output=text", "--color=never", "--"), OPTIONS_RUN);
  assert_false (o.json);
  assert_int_equal (o.color, DISPLAY_NEVER);
  options_clear (&o);
  assert_int_equal (read_options (&o, "--color", NULL, NULL), OPTIONS_RUN);
  assert_int_equal (o.color, DISPLAY_ALWAYS);
  options_clear (&o);
}

static void
test_wrong_options (void **state)
{
  static const char *const wrong[] = { "-z", "--nothing", "--output=xml", "--color=red", "-c", "-o" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    {
      options o = OPTIONS_ZERO;
      assert_int_equal (read_options (&o, wrong[i], NULL, NULL), OPTIONS_WRONG);
      options_clear (&o);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_lines), CHECK_TEST (test_nul), CHECK_TEST (test_long_line), CHECK_TEST (test_waits),
    CHECK_TEST (test_history_path), CHECK_TEST (test_history), CHECK_TEST (test_history_shared),
    CHECK_TEST (test_history_most), CHECK_TEST (test_history_link), CHECK_TEST (test_history_fails),
    CHECK_TEST (test_options), CHECK_TEST (test_wrong_options)
  };
  return cmocka_run_group_tests (tests, make_folder, remove_folder);
}
