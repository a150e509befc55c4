/* SPDX-License-Identifier: GPL-3.0-or-later
   line.c - fuzz target: one line, in a sheet that has something of everything.  Its answers and its mistake
   are whole; a mistake leaves the sheet as it was; what it changed is undone and redone.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "session.h"

/* The market cart, in few lines.  */
static const char prelude[] =
  "wheel = 3-1/2 in +- 1/32 in  # bought\n"
  "axle = 7/16 in\n"
  "base = 14 in\n"
  "front = base - wheel / 2\n"
  "waits = front + later\n"
  "diag = sqrt (base ^ 2 + wheel ^ 2)\n"
  "check front >= 4 in  # room\n"
  "grid 1/4 in\n"
  "stock pine = 3/4 x 5-1/2 x 48 qty 2\n"
  "part side = base x 5 in from pine\n"
  "circle rim = wheel at 0 in, 0 in\n";

/* WORD leads to STATE.  */
static void
check_way (session *s, const char *word, const char *state)
{
  br_sheet_watch (s->sheet, NULL);
  fuzz_require (session_say (s, word) == BR_OK);
  char *now = session_state (s->sheet);
  session_same (now, state);
  free (now);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  const char *line = (const char *) data;
  const char *end = size ? memchr (line, '\n', size) : NULL;
  size_t length = end ? (size_t) (end - line) : size, room;
  char *said = NULL;
  session s = { .clean = 1 };
  if (length == 0 || !session_may_run (line, length))
    return 0;
  session_start ();
  s.out = open_memstream (&said, &room);
  fuzz_require (s.out && br_sheet_new (&s.sheet) == BR_OK);
  br_sheet_watch (s.sheet, &session_stop);
  fuzz_require (session_say (&s, prelude) == BR_OK);
  size_t done = s.sheet->done_count;
  char *before = session_state (s.sheet);
  br_status status = session_run (&s, line, length);
  char *after = session_state (s.sheet);
  /* Statements that a semicolon parts are refused, and undone, one by one.  */
  if (memchr (line, ';', length))
    fuzz_require (*after);
  else if (status != BR_OK)
    session_same (before, after);
  else if (strcmp (before, after) != 0 && !session_stop)
    {
      /* `undo` goes back, and is itself taken back by `redo`.  */
      int forward = s.sheet->done_count > done;
      check_way (&s, forward ? "undo" : "redo", before);
      check_way (&s, forward ? "redo" : "undo", after);
    }
  free (before);
  free (after);
  br_sheet_free (s.sheet);
  fclose (s.out);
  free (said);
  session_end ();
  return 0;
}
