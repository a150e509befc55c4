/* SPDX-License-Identifier: GPL-3.0-or-later
   hostile.c - sheets that no one writes: long chains in every order, fans, long loops, formulas in formulas.
   Each runs in bounded time and on a small stack.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#define MANY 10000
#define SECONDS 20.0

/* A text of lines that grows.  */
typedef struct lines
{
  char *text;
  size_t size;
  FILE *file;
} lines;

static void
lines_start (lines *l)
{
  l->text = NULL;
  l->file = open_memstream (&l->text, &l->size);
}

/* A sheet in which FIRST has been run, and a text for it to be filled.  */
static br_sheet *
begin (lines *l, const char *first)
{
  lines_start (l);
  return sheet_with (first);
}

static br_status
lines_run (br_sheet *sheet, said *s, lines *l)
{
  double start = sheet_seconds ();
  fclose (l->file);
  br_status status = sheet_run_small (sheet, s, l->text, l->size);
  double took = sheet_seconds () - start;
  if (took > SECONDS * (check_watched () ? 10 : 1))
    fail_msg ("%.1f seconds for\n%.60s...", took, l->text);
  free (l->text);
  return status;
}

static br_status
line_run (br_sheet *sheet, said *s, const char *line)
{
  lines l;
  lines_start (&l);
  fputs (line, l.file);
  return lines_run (sheet, s, &l);
}

/* The sum of the lengths of all lists of what changed.  */
static size_t
count_changes (const said *s)
{
  size_t total = 0;
  for (size_t i = 0; i < s->count; i++)
    total += strtoul (said_get (s, i, "changed.count"), NULL, 10);
  return total;
}

/* n0 = 1/4, n1 = n0 + 1/4 ... in ORDER.  */
static br_sheet *
chain (const size_t *order)
{
  lines l;
  br_sheet *sheet = begin (&l, "");
  said s = SAID_ZERO;
  for (size_t i = 0; i < MANY; i++)
    if (order[i])
      fprintf (l.file, "n%zu = n%zu + 1/4\n", order[i], order[i] - 1);
    else
      fputs ("n0 = 1/4\n", l.file);
  assert_int_equal (lines_run (sheet, &s, &l), BR_OK);
  assert_int_equal (s.count, MANY);
  assert_int_equal (count_changes (&s), MANY);
  assert_int_equal (br_sheet_waiting (sheet), 0);
  said_clear (&s);
  return sheet;
}

static void
last_is (br_sheet *sheet, const char *expected)
{
  said s = SAID_ZERO;
  char line[16];
  snprintf (line, sizeof line, "n%d", MANY - 1);
  sheet_say (sheet, &s, "%s", line);
  said_is (&s, 0, "exact", expected);
  said_clear (&s);
}

/* All that can befall the first of a chain.  */
static void
change_chain (br_sheet *sheet)
{
  said s = SAID_ZERO;
  last_is (sheet, "2500");
  assert_int_equal (line_run (sheet, &s, "n0 = 1/2"), BR_OK);
  assert_int_equal (count_changes (&s), MANY);
  said_is (&s, 0, "changed.0.name", "n0");
  last_is (sheet, "10001/4");
  assert_int_equal (line_run (sheet, &s, "forget n0"), BR_OK);
  assert_int_equal (count_changes (&s), MANY);
  assert_int_equal (br_sheet_waiting (sheet), MANY - 1);
  assert_int_equal (line_run (sheet, &s, "undo"), BR_OK);
  assert_int_equal (br_sheet_waiting (sheet), 0);
  assert_int_equal (line_run (sheet, &s, "undo"), BR_OK);
  last_is (sheet, "2500");
  assert_int_equal (line_run (sheet, &s, "redo"), BR_OK);
  assert_int_equal (count_changes (&s), MANY);
  last_is (sheet, "10001/4");
  assert_int_equal (line_run (sheet, &s, "units mm\nruler 1/2\nlist"), BR_OK);
  assert_int_equal (s.count, MANY + 2);
  assert_int_equal (line_run (sheet, &s, "n0 = n9999"), BR_DOMAIN);
  assert_non_null (strstr (s.faults[0].error.message, "a loop: n0 <- n9999 <- n9998"));
  assert_non_null (strstr (s.faults[0].error.message, "more"));
  last_is (sheet, "10001/4");
  sheet_end (sheet, &s);
}

static void
chains (void **state)
{
  size_t *order = malloc (MANY * sizeof *order);
  (void) state;
  for (size_t i = 0; i < MANY; i++)
    order[i] = i;
  change_chain (chain (order));
  for (size_t i = 0; i < MANY; i++)
    order[i] = MANY - 1 - i;
  change_chain (chain (order));
  for (size_t i = 0; i < MANY; i++)
    {
      size_t k = check_below (i + 1);
      order[i] = order[k];
      order[k] = i;
    }
  change_chain (chain (order));
  free (order);
}

/* Taking a chain back to nothing, statement by statement, and forth again.  */
static void
undo_chain (void **state)
{
  size_t *order = malloc (MANY * sizeof *order);
  said s = SAID_ZERO;
  lines l;
  (void) state;
  for (size_t i = 0; i < MANY; i++)
    order[i] = i % 2 ? i / 2 : MANY - 1 - i / 2;
  br_sheet *sheet = chain (order);
  for (int back = 1; back >= 0; back--)
    {
      lines_start (&l);
      for (size_t i = 0; i < MANY; i++)
        fputs (back ? "undo\n" : "redo\n", l.file);
      assert_int_equal (lines_run (sheet, &s, &l), BR_OK);
      assert_int_equal (count_changes (&s), MANY);
    }
  last_is (sheet, "2500");
  free (order);
  sheet_end (sheet, &s);
}

/* Ten thousand that depend on one, and one that depends on ten thousand.  */
static void
fans (void **state)
{
  lines l;
  br_sheet *sheet = begin (&l, "");
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < MANY; i++)
    fprintf (l.file, "n%zu = hub * %zu\n", i, i);
  fputs ("hub = 1/8\n", l.file);
  assert_int_equal (lines_run (sheet, &s, &l), BR_OK);
  assert_int_equal (count_changes (&s), MANY + 1);
  assert_int_equal (line_run (sheet, &s, "hub = 1"), BR_OK);
  assert_int_equal (count_changes (&s), MANY);      /* 0 times the hub does not move */
  assert_int_equal (line_run (sheet, &s, "trace hub"), BR_OK);
  said_is (&s, 0, "used_by.count", "10000");
  lines_start (&l);
  fputs ("all = n0", l.file);
  for (size_t i = 1; i < 6000; i++)
    fprintf (l.file, " + n%zu", i);
  assert_int_equal (lines_run (sheet, &s, &l), BR_OK);
  said_is (&s, 0, "exact", "17997000");
  assert_int_equal (line_run (sheet, &s, "hub = 1/2\nall"), BR_OK);
  said_is (&s, 1, "exact", "8998500");
  assert_int_equal (line_run (sheet, &s, "hub = all"), BR_DOMAIN);
  assert_int_equal (line_run (sheet, &s, "forget hub"), BR_OK);
  assert_int_equal (count_changes (&s), MANY + 2);
  assert_int_equal (line_run (sheet, &s, "missing"), BR_OK);
  said_is (&s, 0, "needed_by.count", "10000");
  assert_int_equal (line_run (sheet, &s, "undo\nundo\nall"), BR_OK);
  said_is (&s, 2, "exact", "17997000");
  sheet_end (sheet, &s);
}

/* A loop of ten thousand is refused by its last line; the rest waits, and holds once it is broken.  */
static void
long_loop (void **state)
{
  lines l;
  br_sheet *sheet = begin (&l, "");
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < MANY; i++)
    fprintf (l.file, "n%zu = n%zu + 1/4\n", i, (i + MANY - 1) % MANY);
  assert_int_equal (lines_run (sheet, &s, &l), BR_DOMAIN);
  assert_int_equal (s.fault_count, 1);
  assert_int_equal (s.faults[0].line, MANY);
  assert_int_equal (br_sheet_waiting (sheet), MANY - 1);
  assert_int_equal (line_run (sheet, &s, "n9999 = 1/4\nn9998"), BR_OK);
  said_is (&s, 1, "exact", "2500");
  sheet_end (sheet, &s);
}

/* Layers in which each uses each of the layer before: few names, very many paths.  */
static void
many_paths (void **state)
{
  lines l;
  br_sheet *sheet = begin (&l, "a0 = 1\nb0 = 1");
  said s = SAID_ZERO;
  (void) state;
  for (int i = 1; i <= 200; i++)
    fprintf (l.file, "a%d = (a%d + b%d) / 2\nb%d = (a%d + b%d) / 2\n", i, i - 1, i - 1, i, i - 1, i - 1);
  assert_int_equal (lines_run (sheet, &s, &l), BR_OK);
  assert_int_equal (line_run (sheet, &s, "a0 = 3\na200"), BR_OK);
  said_is (&s, 0, "changed.count", "401");
  said_is (&s, 1, "exact", "2");
  assert_int_equal (line_run (sheet, &s, "b0 = a200"), BR_DOMAIN);
  sheet_end (sheet, &s);
}

/* RULE for the name N from the one before.  */
static void
put_rule (FILE *out, int rule, int n)
{
  switch (rule)
    {
    case 0: fprintf (out, "n%d = sqrt (n%d + 1)\n", n, n - 1); break;
    case 1: fprintf (out, "n%d = sin n%d * 100\n", n, n - 1); break;
    case 2: fprintf (out, "n%d = n%d + sqrt %d\n", n, n - 1, n); break;
    default: fprintf (out, "n%d = n%d * pi / 3\n", n, n - 1); break;
    }
}

/* Values that are not rational, each inside the next.  The first two rules run into a fixed point, so that
   values before and after a change are hard to tell apart.  */
static void
nested_values (void **state)
{
  (void) state;
  for (int rule = 0; rule < 4; rule++)
    {
      br_sheet *sheet = sheet_with ("n0 = 2");
      said s = SAID_ZERO;
      lines l;
      lines_start (&l);
      for (int i = 1; i <= 100; i++)
        put_rule (l.file, rule, i);
      assert_int_equal (lines_run (sheet, &s, &l), BR_OK);
      assert_int_equal (line_run (sheet, &s, "n0 = 3\nn0 = n100"), BR_DOMAIN);
      said_is (&s, 0, "changed.count", "101");
      sheet_end (sheet, &s);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (chains),
    CHECK_TEST (undo_chain),
    CHECK_TEST (fans),
    CHECK_TEST (long_loop),
    CHECK_TEST (many_paths),
    CHECK_TEST (nested_values),
  };
  return CHECK_RUN (tests);
}
