/* SPDX-License-Identifier: GPL-3.0-or-later
   sheet.c - fuzz target: several lines make a sheet.  Saved and opened it is the same sheet, with the same
   bytes when saved again; undone to the start it is empty, and redone it is as it was.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "session.h"

#define MOST_BYTES 3000
#define MOST_LINES 60

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

/* Back to nothing, and forth again.  */
static void
check_undone (session *s)
{
  static char bytes[SESSION_PIPE];
  br_sheet *empty = NULL;
  size_t steps = 0;
  /* To the end, also when the time is up.  */
  br_sheet_watch (s->sheet, NULL);
  while (session_say (s, "redo") == BR_OK)
    ;
  char *last = session_state (s->sheet);
  br_sheet_watch (s->sheet, NULL);
  while (session_say (s, "undo") == BR_OK)
    steps++;
  fuzz_require (br_sheet_new (&empty) == BR_OK);
  char *nothing = session_state (empty), *undone = session_state (s->sheet);
  session_same (undone, nothing);
  fuzz_require (session_saved (bytes, sizeof bytes, s->sheet) == 0);
  br_sheet_watch (s->sheet, NULL);
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
    session_check_saved (s.sheet, state);
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
