/* SPDX-License-Identifier: GPL-3.0-or-later
   stopped.c - long work that is asked to end does so at once, and the sheet is as it was.  How long that takes is counted in
   requests for memory, which are the same on every machine: the flag goes up at one of them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

/* So many requests at most between the one at which the flag goes up and the end: some of them are the mistake's that is told.  */
#define MOST_LEFT 2000

static volatile sig_atomic_t flag;
static long asked, raise_at, after;

static void *
count (void *old, size_t size)
{
  asked++;
  after += flag;
  if (asked == raise_at)
    flag = 1;
  return realloc (old, size);
}

/* Some shapes beside and in front of each other, sizes with tolerances, roots, rules, and boards to be cut.  */
static char *
busy_sheet (void)
{
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  fputs ("base = 14 in\n", out);
  for (int i = 1; i <= 6; i++)
    fprintf (out, "a%d = sqrt (base^2 + %d sq in) +- 1/64 in\nb%d = base * %d/7 +- 1/32 in\ncheck b%d > 1 in\n"
             "box deck%d = base / 50 x 1 in at base * %d/10, %d in deep 3 in\n", i, i, i, i, i, i, i, i % 3);
  fputs ("far = a1 + a2 + a3 + b1 + b2 + b3\nstock pine = 3/4 x 5-1/2 x 96 qty 9\npart rail = base x 5-1/2 qty 9 from pine\ncircle rim = 3 in at 0, 9 in of rail", out);
  fclose (out);
  return text;
}

static const char *const lines[] = {
  "draw into side.svg", "draw views into side.svg", "draw", "find base for far = 100 in", "stack far", "report into report.html",
  "rubs", "shapes", "explain far", "tidy to 1/4", "list", "check", "cautions", "missing", "trace base", "rename base to basis",
  "units mm", "base = 15 in", "far * 2 + sqrt (far * 1 in)",
  "round column size of sizes.csv to 1/8 keep total into marked.csv",
  "the sum of b1 and b2", "parts", "template rail into part.svg", "must have base from 1 in to 20 in",
};

static void
ends_at_once (void **state)
{
  char *text = busy_sheet ();
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    {
      long whole = 0;
      for (int k = 0; k < 4; k++)
        {
          said s = SAID_ZERO;
          br_sheet *sheet = sheet_with (text);
          flag = 0;
          asked = after = 0;
          raise_at = k ? whole * k / 4 + 1 : -1;
          br_sheet_watch (sheet, &flag);
          br__memory_set (count, free);
          br_status status = sheet_run (sheet, &s, lines[i]);
          check_memory_free ();
          whole = k ? whole : asked;
          if (!k && status != BR_OK)
            fail_msg ("`%s`: %s", lines[i], s.faults[0].error.message);
          else if (flag && after > MOST_LEFT)
            fail_msg ("`%s` asked %ld times for memory after it was to end, of %ld", lines[i], after, whole);
          else if (status != BR_OK && (status != BR_STOPPED || strcmp (s.faults[0].error.message, "stopped") != 0))
            fail_msg ("`%s` ended with %s: %s", lines[i], br_status_name (status), s.faults[0].error.message);
          br_sheet_watch (sheet, NULL);
          if (status != BR_OK)
            {
              char *now = sheet_text (sheet);
              if (strncmp (now, text, strlen (text)) != 0 || strcmp (now + strlen (text), "\n") != 0)
                fail_msg ("`%s`, ended, left\n%s", lines[i], now);
              free (now);
              sheet_say (sheet, &s, "far");
            }
          sheet_end (sheet, &s);
        }
    }
  unlink ("side.svg");
  unlink ("report.html");
  unlink ("part.svg");
  unlink ("marked.csv");
  free (text);
}

/* With the flag up from the start nothing long begins.  */
static void
does_not_begin (void **state)
{
  char *text = busy_sheet ();
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with (text);
      flag = 1;
      br_sheet_watch (sheet, &flag);
      assert_int_equal (sheet_run (sheet, &s, lines[i]), BR_STOPPED);
      assert_int_equal (s.count, 0);
      sheet_end (sheet, &s);
    }
  free (text);
}

static char folder[] = "/tmp/benchrule-stopped-XXXXXX";

static int
start (void **state)
{
  (void) state;
  if (!mkdtemp (folder) || chdir (folder) != 0)
    return -1;
  FILE *out = fopen ("sizes.csv", "w");
  if (!out || fputs ("size\n", out) < 0)
    return -1;
  for (int i = 1; i <= 3000; i++)
    fprintf (out, "%d.%d\n", i, i);
  return fclose (out);
}

static int
end (void **state)
{
  (void) state;
  unlink ("sizes.csv");
  return chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (ends_at_once), CHECK_TEST (does_not_begin) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, start, end));
}
