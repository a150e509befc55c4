/* SPDX-License-Identifier: GPL-3.0-or-later
   sheet.c - fuzz target: several lines make a sheet.  Saved and opened it is the same sheet, with the same
   bytes when saved again; undone to the start it is empty, and redone it is as it was.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "session.h"

#define MOST_BYTES 3000
#define MOST_LINES 60
#define PIPE_BYTES (1 << 20)

/* The lines that may run.  To be freed.  */
static char *
choose_lines (size_t *length, const char *text, size_t size)
{
  char *chosen = malloc (size + 1);
  size_t count = 0;
  fuzz_require (chosen);
  *length = 0;
  for (size_t at = 0; at < size && count < MOST_LINES; count++)
    {
      const char *end = memchr (text + at, '\n', size - at);
      size_t taken = end ? (size_t) (end - (text + at)) + 1 : size - at;
      if (session_may_run (text + at, taken))
        {
          memcpy (chosen + *length, text + at, taken);
          *length += taken;
        }
      at += taken;
    }
  return chosen;
}

/* A pipe is written in place and takes no time: what is saved goes through one.  */
static void
make_pipe (int *ends, char *write_path, char *read_path, size_t size)
{
  fuzz_require (pipe2 (ends, O_CLOEXEC) == 0);
  fuzz_require (fcntl (ends[1], F_SETPIPE_SZ, PIPE_BYTES) >= 0);
  snprintf (read_path, size, "/proc/self/fd/%d", ends[0]);
  snprintf (write_path, size, "/proc/self/fd/%d", ends[1]);
}

static size_t
saved_bytes (char *bytes, size_t room, const br_sheet *sheet)
{
  int ends[2];
  char write_path[40], read_path[40];
  size_t used = 0;
  ssize_t got;
  make_pipe (ends, write_path, read_path, sizeof write_path);
  fuzz_require (br_sheet_write (sheet, write_path, NULL) == BR_OK);
  close (ends[1]);
  while ((got = read (ends[0], bytes + used, room - used)) > 0)
    used += (size_t) got;
  fuzz_require (got == 0 && used < room);
  close (ends[0]);
  return used;
}

/* The sheet that LENGTH bytes of a file make.  */
static br_sheet *
opened (const char *bytes, size_t length)
{
  int ends[2];
  char write_path[40], read_path[40];
  br_sheet *sheet = NULL;
  make_pipe (ends, write_path, read_path, sizeof write_path);
  fuzz_require (write (ends[1], bytes, length) == (ssize_t) length);
  close (ends[1]);
  fuzz_require (br_sheet_new (&sheet) == BR_OK);
  br_sheet_watch (sheet, &session_stop);
  br_sheet_run_file (sheet, read_path, NULL);
  close (ends[0]);
  return sheet;
}

static void
check_saved (br_sheet *sheet, const char *state)
{
  static char bytes[PIPE_BYTES], again[PIPE_BYTES];
  size_t length = saved_bytes (bytes, sizeof bytes, sheet);
  br_sheet *other = opened (bytes, length);
  fuzz_require (saved_bytes (again, sizeof again, other) == length && memcmp (bytes, again, length) == 0);
  char *other_state = session_state (other);
  session_same (state, other_state);
  free (other_state);
  br_sheet_free (other);
}

/* Back to nothing, and forth again.  */
static void
check_undone (session *s)
{
  static char bytes[PIPE_BYTES];
  br_sheet *empty = NULL;
  size_t steps = 0;
  while (session_say (s, "redo") == BR_OK)
    ;
  char *last = session_state (s->sheet);
  while (session_say (s, "undo") == BR_OK)
    steps++;
  fuzz_require (br_sheet_new (&empty) == BR_OK);
  char *nothing = session_state (empty), *undone = session_state (s->sheet);
  session_same (undone, nothing);
  fuzz_require (saved_bytes (bytes, sizeof bytes, s->sheet) == 0);
  for (; steps > 0; steps--)
    fuzz_require (session_say (s, "redo") == BR_OK);
  fuzz_require (session_say (s, "redo") != BR_OK);
  char *redone = session_state (s->sheet);
  session_same (redone, last);
  free (last);
  free (nothing);
  free (undone);
  free (redone);
  br_sheet_free (empty);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  size_t length, room;
  char *said = NULL;
  session s = { .clean = 1 };
  if (size > MOST_BYTES)
    return 0;
  session_start ();
  char *lines = choose_lines (&length, (const char *) data, size);
  s.out = open_memstream (&said, &room);
  fuzz_require (s.out && br_sheet_new (&s.sheet) == BR_OK);
  br_sheet_watch (s.sheet, &session_stop);
  session_run (&s, lines, length);
  char *state = session_state (s.sheet);
  if (!session_stop)
    check_saved (s.sheet, state);
  if (!session_stop)
    check_undone (&s);
  free (state);
  br_sheet_free (s.sheet);
  fclose (s.out);
  free (said);
  free (lines);
  session_end ();
  return 0;
}
