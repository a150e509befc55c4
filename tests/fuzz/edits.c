/* SPDX-License-Identifier: GPL-3.0-or-later
   edits.c - fuzz target: the bytes choose edits of one sheet, most of them lines that are given anew.  After each one the sheet,
   saved and opened afresh, is the same sheet; a line that is refused leaves it as it was; and at times the
   opened one goes on in its place.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "session.h"

#define MOST_EDITS 40

/* Few names, so that most lines give one anew.  In a form N stands for a dimension, S for a shape, P for a part, K for a stock,
   V for a value and W for a value over zero; small letters are the language's.  */
static const char *const dimensions[] = { "a", "b", "gap", "front_wheel", "long_1" };
static const char *const shapes[] = { "deck", "rim", "a" };
static const char *const parts[] = { "side", "rail" };
static const char *const stocks[] = { "pine", "rod" };
static const char *const values[] = {
  "1", "N", "2-3/8", "N + 1/4", "N * 2 - N", "sqrt (N)", "7 mm", "W / 3", "fender_radius(3 in, 1/4 in)", "nearest(N, 1/4)",
  "left(S)", "width(S)", "clear(S, S)", "centre_y(S)", "1/64", "-2", "pi * W", "5' 2\"", "boxes 2", "full(N)",
};
static const char *const sizes[] = { "1/2", "3", "N", "2-3/8", "14", "25.4 mm", "1/64", "N + 1" };
static const char *const forms[] = {
  "N = V", "N = V", "N = V  # so long", "N = V +- 1/32", "N = V +- W", "N = V known", "S = V", "N: V",
  "circle S = W at V, V", "box S = W x W at V, V", "box S = W x W on S", "circle S = W same centre as S hole",
  "arc S = fender(S, W, W) 200 deg", "line S = V, V to V, V wide W", "outline S = V, V to V, V round W to by W, W",
  "circle S = W right of S by W layer N", "box S = W x W above S shift V", "circle S = W",
  "stock K = 3/4 x W x 48 qty 2", "stock K = round W x 36", "part P = W x W from K", "part P = W x W x 3/4 qty 2 turn from K",
  "part P = W x N", "box S = W x W at 0, 0 of P",
  "check N <= V", "check N = V  # as drawn", "check clear(S, S) >= W", "tolerance W on N", "tolerance 0 on N", "known N",
  "problem How far is {N}?", "answer V", "answer V to 1/8 as fraction", "given N from W to 14 by 1/4",
  "title Cart  number 2", "date today", "units mm", "units in", "units ft", "ruler 1/8", "ruler 1 mm", "scale 1:4", "scale half",
  "grid 1/4 in", "grid W", "kerf 1/8", "ties even", "feet on", "child 2 years", "blade 1/4", "paper a4 margin 1/2 in",
  "no dimension S", "datum V, V", "projection first", "mirror S about N", "row S 3 by W", "plate S", "rubs S, S", "note S a note",
};

#define COUNT(array) (sizeof (array) / sizeof *(array))
#define CHOOSE(b, words) ((words)[fuzz_byte (b) % COUNT (words)])

/* Writes FORM, its capitals chosen by the bytes; DEPTH keeps values from growing.  */
static void
put_form (FILE *out, fuzz_bytes *b, const char *form, int depth)
{
  for (; *form; form++)
    switch (*form)
      {
      case 'N': fputs (CHOOSE (b, dimensions), out); break;
      case 'S': fputs (CHOOSE (b, shapes), out); break;
      case 'P': fputs (CHOOSE (b, parts), out); break;
      case 'K': fputs (CHOOSE (b, stocks), out); break;
      case 'V': put_form (out, b, depth > 2 ? "3" : CHOOSE (b, values), depth + 1); break;
      case 'W': put_form (out, b, depth > 2 ? "2" : CHOOSE (b, sizes), depth + 1); break;
      default: putc (*form, out);
      }
}

/* An edit as a line, to be freed.  */
static char *
next_line (fuzz_bytes *b)
{
  static const char *const others[] = {
    "undo", "undo", "redo", "undo", "forget N", "forget S", "forget P", "forget K", "rename N to N", "rename S to S",
    "rename S to wheel_9", "rename N to length_9", "rename P to K", "rename K to N", "tidy apply", "tidy apply N to 1/4", "rename length_9 to N",
    "rename wheel_9 to S",
  };
  char *line = NULL;
  size_t size;
  FILE *out = open_memstream (&line, &size);
  fuzz_require (out);
  unsigned kind = fuzz_byte (b);
  put_form (out, b, kind % 3 == 2 ? others[kind / 3 % COUNT (others)] : CHOOSE (b, forms), 0);
  fclose (out);
  return line;
}

/* The sheet, saved and opened, goes on: what was undone is gone.  */
static void
go_on_afresh (session *s)
{
  static char bytes[SESSION_PIPE];
  size_t length = session_saved (bytes, sizeof bytes, s->sheet);
  br_sheet *other = session_opened (bytes, length);
  br_sheet_free (s->sheet);
  s->sheet = other;
}

/* One edit; 0 when the time is up.  */
static int
edit (session *s, fuzz_bytes *b)
{
  char *line = next_line (b), *before = session_state (s->sheet);
  br_status status = session_say (s, line);
  char *after = session_state (s->sheet);
  if (getenv ("FUZZ_SHOW"))
    fprintf (stderr, "%s%s\n", status == BR_OK ? "" : "refused: ", line);
  if (!session_stop)
    {
      if (status != BR_OK)
        session_same (before, after);
      session_check_saved (s->sheet, after);
    }
  free (line);
  free (before);
  free (after);
  return !session_stop;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  fuzz_bytes b = { data, data + size };
  char *said = NULL;
  size_t room;
  session s = { .clean = 1 };
  session_start ();
  session_set_timer (4 * SESSION_PATIENCE);
  s.out = open_memstream (&said, &room);
  fuzz_require (s.out && br_sheet_new (&s.sheet) == BR_OK);
  br_sheet_watch (s.sheet, &session_stop);
  for (int i = 0; i < MOST_EDITS && b.at < b.end && edit (&s, &b); i++)
    if (fuzz_byte (&b) % 8 == 7)
      go_on_afresh (&s);
  br_sheet_free (s.sheet);
  fclose (s.out);
  free (said);
  session_end ();
  return 0;
}
