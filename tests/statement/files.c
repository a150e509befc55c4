/* SPDX-License-Identifier: GPL-3.0-or-later
   files.c - sheets that come from files: work that was not saved is recovered as the sheet that it was, and what long
   work tells passes through `open`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <sys/stat.h>
#include <unistd.h>

#include "sheet/support.h"

static char folder[] = "/tmp/benchrule-recover-XXXXXX";

static void
put_file (const char *name, const char *text)
{
  FILE *file = fopen (name, "w");
  assert_non_null (file);
  assert_true (fputs (text, file) >= 0);
  assert_int_equal (fclose (file), 0);
}

/* ---- Recovered ---- */

typedef struct left
{
  const char *path;             /* of what is left from before, or NULL */
  int taken, dropped;
} left;

static const char *
keep (void *user, br_kept what)
{
  left *l = user;
  l->taken += what == BR_KEPT_TAKEN;
  l->dropped += what == BR_KEPT_DROP;
  return what == BR_KEPT_ASK ? l->path : NULL;
}

static br_sheet *
sheet_after (left *l)
{
  br_sheet *sheet = sheet_with ("");
  br_sheet_set_keeper (sheet, keep, l);
  return sheet;
}

static void
refused (br_sheet *sheet, const char *line, const char *message, const char *hint)
{
  said s = SAID_ZERO;
  if (sheet_run (sheet, &s, line) == BR_OK)
    fail_msg ("%s is not refused", line);
  if (!strstr (s.faults[0].error.message, message) || !strstr (s.faults[0].error.hint, hint))
    fail_msg ("%s: %s; %s", line, s.faults[0].error.message, s.faults[0].error.hint);
  said_clear (&s);
}

/* Keeps what LINES make of the sheet "cart.sheet", or of one that has no file, in "kept".  */
static void
leave (int with_file, const char *lines)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  put_file ("cart.sheet", "wheel = 3-1/2 in  # bought\n");
  if (with_file)
    sheet_say (sheet, &s, "open cart.sheet");
  sheet_say (sheet, &s, "%s", lines);
  check_ok (br_sheet_keep (sheet, "kept", NULL));
  sheet_end (sheet, &s);
}

/* The file that the sheet was read from is its own again, by its short name, and is known to be unchanged.  */
static void
with_its_file (void **state)
{
  left l = { "kept", 0, 0 };
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_after (&l);
  (void) state;
  leave (1, "axle = 7/16 in");
  sheet_say (sheet, &s, "recover");
  assert_int_equal (l.taken, 1);
  assert_string_equal (br_sheet_path (sheet), "cart.sheet");
  assert_true (br_sheet_unsaved (sheet));
  sheet_say (sheet, &s, "wheel + axle");
  said_is (&s, 0, "exact", "63/16");
  refused (sheet, "recover", "is not saved", "`save` keeps it");
  sheet_say (sheet, &s, "save");
  assert_false (br_sheet_unsaved (sheet));
  sheet_end (sheet, &s);

  leave (1, "axle = 7/16 in");
  put_file ("cart.sheet", "wheel = 5 in\n");
  sheet = sheet_after (&l);
  sheet_say (sheet, &s, "recover");
  refused (sheet, "save", "has changed since", "`save over cart.sheet`");
  sheet_say (sheet, &s, "undo");
  assert_null (br_sheet_path (sheet));
  sheet_end (sheet, &s);
}

static void
without_a_file (void **state)
{
  left l = { "kept", 0, 0 };
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_after (&l);
  (void) state;
  leave (0, "axle = 7/16 in");
  sheet_say (sheet, &s, "recover");
  assert_null (br_sheet_path (sheet));
  sheet_say (sheet, &s, "axle");
  said_is (&s, 0, "exact", "7/16");
  refused (sheet, "recover", "is not saved", "keeps it");
  sheet_say (sheet, &s, "recover drop");
  assert_int_equal (l.dropped, 1);
  l.path = NULL;
  refused (sheet, "recover drop", "no unsaved work is left", "");
  sheet_end (sheet, &s);
}

static void
not_recovered (void **state)
{
  left l = { NULL, 0, 0 };
  br_sheet *sheet = sheet_after (&l);
  said s = SAID_ZERO;
  (void) state;
  refused (sheet, "recover", "no unsaved work is left", "");
  refused (sheet, "recover 2", "too much", "");
  refused (sheet, "recover drop 2", "too much", "");
  refused (sheet, "recover drop \x01", "", "");
  l.path = "nothing";
  refused (sheet, "recover", "no such file", "");
  put_file ("asks.sheet", "wheel = 3 in\nrecover\n");
  assert_int_equal (sheet_run (sheet, &s, "open asks.sheet"), BR_DOMAIN);
  assert_string_equal (s.faults[0].error.message, "a sheet recovers nothing");
  assert_int_equal (l.taken + l.dropped, 0);
  sheet_end (sheet, &s);
}

/* ---- Told ---- */

typedef struct told
{
  int flushed, progress;
} told;

static void flush (void *user) { ((told *) user)->flushed++; }

static void
progress (void *user, const char *what, int percent)
{
  assert_non_null (what);
  assert_in_range (percent, 0, 100);
  ((told *) user)->progress++;
}

static int allow (void *user, const br_file_request *request) { (void) user; (void) request; return 1; }

/* What a line of a sheet file is at reaches those who opened it, and bytes for descriptor 1 wait for theirs.  */
static void
passed_on (void **state)
{
  told t = { 0, 0 };
  const br_sink sink = { .user = &t, .flush = flush, .progress = progress };
  static const char line[] = "open long.sheet";
  br_sheet *sheet = sheet_with ("");
  (void) state;
  put_file ("sizes.csv", "size\n1.23\n");
  put_file ("long.sheet", "x = 1\nround column size of sizes.csv to 1/8\nworksheet sums 2 seed 1 into sums.csv\n");
  br_sheet_set_policy (sheet, allow, NULL);
  check_ok (br_sheet_run (sheet, line, strlen (line), "", 1, &sink));
  assert_int_equal (t.flushed, 1);
  assert_true (t.progress > 0);
  br_sheet_free (sheet);
}

static int
set_up (void **state)
{
  (void) state;
  return !mkdtemp (folder) || chdir (folder) != 0;
}

static int
tear_down (void **state)
{
  static const char *const made[] = { "cart.sheet", "kept", "asks.sheet", "sizes.csv", "long.sheet", "sums.csv", "sums_key.csv" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (made); i++)
    remove (made[i]);
  return chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (with_its_file),
    CHECK_TEST (without_a_file),
    CHECK_TEST (not_recovered),
    CHECK_TEST (passed_on),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, set_up, tear_down));
}
