/* SPDX-License-Identifier: GPL-3.0-or-later
   memory_lines.c - the lines of the tables of the language, and the market cart in numbers past 64 bits, each run
   again and again while an allocation somewhere in it is refused: the answer is the same, or it is told that
   memory ran out; nothing is lost, and the sheet works on.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../measure/measure.h"
#include "samples.h"

/* Allocations of a line that are refused at most, the first ones and some of the others.  */
#define MOST_REFUSED 24

/* FIRST and then LINE in a sheet of its own, allocation NTH of LINE refused; what is said and held then.  */
static char *
run_once (br_status *status, const char *first, const char *line, size_t length, long nth)
{
  said s = SAID_ZERO;
  char *text = NULL;
  size_t size;
  br_sheet *sheet = sheet_with (first);
  check_memory_asked = 0;
  check_memory_left = nth;
  *status = sheet_run_bytes (sheet, &s, line, length);
  check_memory_left = -1;
  long count = check_memory_asked;
  br_sheet_go_on (sheet);
  FILE *out = open_memstream (&text, &size);
  samples_write (out, &s);
  sheet_say (sheet, &s, "list\nmissing\ncheck\ntolerance\nstock\nshapes");
  samples_write (out, &s);
  fclose (out);
  sheet_say (sheet, &s, "5 - 2");
  said_is (&s, 0, "exact", "3");
  sheet_end (sheet, &s);
  check_memory_asked = count;
  return text;
}

/* MOST of the allocations of LINE, half of them the first ones.  */
static void
refuse_most (const char *where, long row, const char *first, const char *line, size_t length, long most)
{
  br_status expected, status;
  check_memory_blocks = 0;
  char *right = run_once (&expected, first, line, length, -1);
  most = check_times (most);
  long count = check_memory_asked, tries = count < most ? count : most;
  for (long i = 0; i < tries; i++)
    {
      long nth = count <= tries || i < most / 2 ? i % count : (long) check_below ((uint64_t) count);
      char *now = run_once (&status, first, line, length, nth);
      if (status != expected && status != BR_NO_MEMORY)
        fail_msg ("%s:%ld, allocation %ld refused: %s", where, row, nth, br_status_name (status));
      if (status == expected && status == BR_OK && strcmp (now, right) != 0)
        fail_msg ("%s:%ld, allocation %ld refused, and it is called well, but it says\n%s\nand not\n%s", where, row, nth,
                  now, right);
      free (now);
    }
  free (right);
  if (check_memory_blocks != 0)
    fail_msg ("%s:%ld: %ld blocks are lost", where, row, check_memory_blocks);
}

static void
refuse_some (const char *where, long row, const char *first, const char *line, size_t length)
{
  refuse_most (where, row, first, line, length, MOST_REFUSED);
}

/* The scripts in the first column of a table; one that begins with "+ " goes on behind those before it.  */
static void
table (const char *name)
{
  check_data data;
  char *before = strdup ("");
  check_open (&data, name, ';');
  while (check_next (&data))
    {
      int goes_on = strncmp (data.field[0], "+ ", 2) == 0;
      char *line = data.field[0] + (goes_on ? 2 : 0), *more = NULL;
      sheet_lines (line);
      size_t length = measure_unescape (line);
      if (!goes_on)
        before[0] = 0;
      /* Of shorter tests each such row has its turn.  */
      if (data.line % check_divisor == 0)
        refuse_some (name, data.line, before, line, length);
      if (asprintf (&more, "%s%s%.*s", before, *before ? "\n" : "", (int) length, line) < 0)
        abort ();
      free (before);
      before = more;
    }
  free (before);
}

static void
tables (void **state)
{
  static const char *const names[] = { "statements.txt", "corners.txt", "wrong_lines.txt", "wrong_corners.txt" };
  (void) state;
  check_memory_limit (-1);
  check_memory_once = 1;
  for (size_t i = 0; i < CHECK_COUNT (names); i++)
    table (names[i]);
  check_memory_free ();
}

/* The cart once more, its sizes off by less than can be seen: every number asks for memory.  */
static const char long_prelude[] =
  "grid 0.2500000000000000000000000000000000001 in\n"
  "kerf 0.1250000000000000000000000000000000001 in\n"
  "wheel = 3.5000000000000000000000000000000000001 in +- 0.0312500000000000000000000000000000001 in  # bought\n"
  "axle = 0.4375000000000000000000000000000000001 in\n"
  "base = 14.0000000000000000000000000000000000001 in\n"
  "front = base - wheel / 2\n"
  "waits = front + later\n"
  "diag = sqrt (base ^ 2 + wheel ^ 2)\n"
  "check front >= 4.0000000000000000000000000000000000001 in  # room\n"
  "tolerance 0.0312500000000000000000000000000000001 in on base\n"
  "stock pine = 0.7500000000000000000000000000000000001 x 5.5 x 48.0000000000000000000000000000000000001 qty 2\n"
  "part side = base x 5.0000000000000000000000000000000000001 in from pine\n"
  "part slant = diag x axle from pine\n"
  "circle rim = wheel at 0.0000000000000000000000000000000000001 in, 0 in\n"
  "box bed = base x 1 in at diag, 4.0000000000000000000000000000000000001 in\n"
  "worksheet sums 2 seed 1 into prelude.csv\n"
  "problem How long are the sides?\n"
  "answer base\n"
  "problem How wide is the bed?\n"
  "spare = 0.5000000000000000000000000000000000001 in\n"
  "undo";

static const char *const long_lines[] = {
  "wheel / 3 + sqrt (2.0000000000000000000000000000000000001 sq in)",
  "full 1.1875000000000000000000000000000000001, drawn wheel, in_boxes base, nearest(wheel, 0.1), up(diag), down(base, axle)",
  "fender_gap(fender_radius(wheel, axle), wheel), wheel_gap(base, wheel, axle + wheel), drill(axle)",
  "radius_from(base, wheel), rise(base, wheel), chord(base, 60.0000000000000000000000000000000000001), arc_length(base, 45)",
  "min(base, wheel, diag), max(base, wheel), sum(base, wheel), mean(base, wheel), abs(0 - wheel), atan(wheel / base)",
  "round front, wheel, diag to 0.1250000000000000000000000000000000001 keep total",
  "explain front + wheel * 2 to 0.1250000000000000000000000000000000001",
  "explain diag to 1/8",
  "find base for front = 20.0000000000000000000000000000000000001 in",
  "find base for in_boxes base + full base + sqrt(base * base) = 40.0000000000000000000000000000000000001",
  "stack base - wheel * 2",
  "divide base into 5 kerf 0.1250000000000000000000000000000000001 in",
  "space 4 across base width axle ends 1.0000000000000000000000000000000000001 in",
  "blade 1/4\nfender_radius(axle, 0.0000000000000000000000000000000000001 in)",
  "scale 41.0000000000000000000000000000000000001 mm = 3 in",
  "paper a3 margin 10.0000000000000000000000000000000000001 mm",
  "arc hood = fender(rim, 0.5000000000000000000000000000000000001 in, 1 in) 200 deg\nclear hood, bed",
  "line handle = 0 in, 0 in to base, 5.0000000000000000000000000000000000001 in wide axle",
  "show fender(wheel, 0.2500000000000000000000000000000000001 in, 0.5 in)",
  "show wheels(base, wheel, wheel)",
};

static void
long_numbers (void **state)
{
  (void) state;
  check_memory_limit (-1);
  check_memory_once = 1;
  for (size_t i = 0; i < CHECK_COUNT (samples); i++)
    refuse_some (samples[i].line, (long) i, long_prelude, samples[i].line, strlen (samples[i].line));
  for (size_t i = 0; i < CHECK_COUNT (long_lines); i++)
    refuse_some (long_lines[i], (long) i, long_prelude, long_lines[i], strlen (long_lines[i]));
  check_memory_free ();
}

/* Lines that ask for memory where plainer ones do not: longer lists and chains, and what grows on the way.  */
static void
longer (void **state)
{
  static const char *const rows[][2] = {
    { "", "explain max(1, 2, 3, 4, 5, 6, 7, 8, 9)" },
    { "box deck = 7 x 3 at 1, 2\ncircle wheel = 2 at 9, 3\ncircle rear = 4 above deck", "explain right(deck) + clear(wheel, rear)" },
    { "side = 2", "explain axle_length(side, sqrt(2), 1 in, 0, wheel_gap(40, side, 3))" },
    { "", "full 1, sqrt(1) + 1 + 1 + 1, sqrt(1) + 1, sqrt(1)" },
    { "", "sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin(sin 7)))))))))))))))))" },
    { "b = 3 in", "find b for b + sum(1, 2, 3, 4, 5) = 20 in" },
    { "b = 3\nc = b + 1\nd = c + b\ne = d + c\nf = e + d\ng = f + e\nh = g + f\ni = h + g\nj = i + h\nk = j + i",
      "find b for k = 20" },
    { "b = 3 +- 1/8\nc = 2 +- 1/8", "stack b * c / (b + c)" },
    { "c = b + 1\nd = c + b\ne = d + c\nf = e + d\ng = f + e\nh = g + f\ni = h + g\nj = i + h\nk = j + i", "b = k" },
    { "tolerance 1/32 on wheel, axle, rim", "tolerance" },
    { "circle rim = 2\nline spoke = a, b to c, d", "missing" },
    { "a = 3.1\nb = 3.2\nc = 3.3\nd = 3.4\ne = 3.6\nf = 3.7\ng = 3.8\nh = 3.9\ni = 4.1", "tidy apply to 1/4" },
    { "box bed = 3 in x 4 in at 0, 0 of body layer side", "draw layer side of body" },
    { "box bed = 3 in x 4 in at 0, 0 deep 4\ncircle bore = 2 at 1, 1 hole\ncircle rod = 1 at 1, 1 deep 1", "draw" },
    { "box bed = 3 in x 4 in at 0, 0", "draw grid 0.2500000000000000000000000000000000001 in" },
    { "stock ply = 1/4 x 24 x 48\npart lid = 10 x 12 qty 5 from ply\npart end = 5 x 7 qty 4 from ply", "cuts ply" },
    { "circle axle = 0.4 at 1, 1 hole of plate\nbox edge = 6 x 3 at 0, 0 of plate", "template plate into side_part.svg" },
  };
  (void) state;
  check_memory_limit (-1);
  check_memory_once = 1;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    refuse_most (rows[i][1], (long) i, rows[i][0], rows[i][1], strlen (rows[i][1]), 400);
  check_memory_free ();
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (tables),
    CHECK_TEST (long_numbers),
    CHECK_TEST (longer),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, samples_start, samples_end));
}
