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
  sheet_put_file ("cart.sheet", "wheel = 3-1/2 in  # bought\n");
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
  sheet_put_file ("cart.sheet", "wheel = 5 in\n");
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
  refused (sheet, "recover 2", "unexpected", "");
  refused (sheet, "recover drop 2", "unexpected", "");
  refused (sheet, "recover drop \x01", "", "");
  l.path = "nothing";
  refused (sheet, "recover", "no such file", "");
  sheet_put_file ("kept", "wheel = 3 in\n");        /* without a head */
  l.path = "kept";
  sheet_say (sheet, &s, "recover");
  assert_null (br_sheet_path (sheet));
  sheet_say (sheet, &s, "new without saving");
  sheet_put_file ("asks.sheet", "wheel = 3 in\nrecover\n");
  assert_int_equal (sheet_run (sheet, &s, "open asks.sheet"), BR_DOMAIN);
  assert_string_equal (s.faults[0].error.message, "a sheet recovers nothing");
  assert_int_equal (l.taken, 1);
  assert_int_equal (l.dropped, 0);
  sheet_end (sheet, &s);
}

/* ---- Saved ---- */

/* The state that was saved is gone once something else is done in its place.  */
static void
saved (void **state)
{
  static const char *const others[] = { "base = 14 in", "new without saving\nbase = 14 in", "open other.sheet" };
  said s = SAID_ZERO;
  (void) state;
  sheet_put_file ("other.sheet", "base = 14 in\n");
  for (size_t i = 0; i < CHECK_COUNT (others); i++)
    {
      br_sheet *sheet = sheet_with ("axle = 7/16 in\nwheel = 3 in");
      sheet_say (sheet, &s, "save over cart.sheet  # mine");
      assert_string_equal (br_sheet_path (sheet), "cart.sheet");
      assert_false (br_sheet_unsaved (sheet));
      sheet_say (sheet, &s, "undo");
      assert_true (br_sheet_unsaved (sheet));
      sheet_say (sheet, &s, "redo");
      assert_false (br_sheet_unsaved (sheet));
      sheet_say (sheet, &s, "undo");
      if (i == 2)
        {
          refused (sheet, others[i], "is not saved", "`save` keeps it");
          refused (sheet, "save as boat  # mine", "a part of the file's name", "`save boat.sheet`");
        }
      else
        {
          sheet_say (sheet, &s, "%s", others[i]);
          sheet_say (sheet, &s, i ? "undo\nundo" : "undo");
          assert_true (br_sheet_unsaved (sheet));
        }
      sheet_end (sheet, &s);
    }
}

static void
holds (const char *name, const char *right)
{
  char text[400] = "";
  FILE *file = fopen (name, "r");
  assert_non_null (file);
  assert_true (fread (text, 1, sizeof text - 1, file) > 0);
  fclose (file);
  assert_string_equal (text, right);
}

/* A sheet that uses another leads to it from a folder beside it, too; where that would not be read there, or is not
   what was read, it holds the lines.  */
static void
used (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  if (mkdir ("plans", 0700) != 0)
    fail_msg ("no folder can be made");
  sheet_put_file ("plans/hub.sheet", "hub = 1 in\n");
  sheet_put_file ("plans/undoes.sheet", "axle = 1 in\nundo\n");
  sheet_say (sheet, &s, "use \"plans/hub.sheet\"  # turned\nwheel = hub * 3");
  sheet_say (sheet, &s, "save plans/cart.sheet");
  holds ("plans/cart.sheet", "use \"hub.sheet\"  # turned\nwheel = hub * 3\n");
  sheet_say (sheet, &s, "hub = 2 in\nsave plans/cart2.sheet");
  holds ("plans/cart2.sheet", "use \"hub.sheet\"  # turned\nwheel = hub * 3\nhub = 2 in\n");
  sheet_put_file ("plans/.own.sheet", "axle = 1 in\n");
  sheet_say (sheet, &s, "new without saving\nuse plans/.own.sheet\nsave plans/cart3.sheet");
  holds ("plans/cart3.sheet", "# from .own.sheet\naxle = 1 in\n");
  sheet_put_file ("plans/inner.sheet", "rim = 1.3 in\n");
  sheet_say (sheet, &s, "new without saving\nuse plans/inner.sheet\ntidy apply to 1/4\nsave plans/cart4.sheet");
  holds ("plans/cart4.sheet", "use \"inner.sheet\"\nrim = 1-1/4\"\n");
  assert_int_equal (sheet_run (sheet, &s, "use plans/undoes.sheet"), BR_DOMAIN);
  assert_string_equal (s.faults[0].error.message, "a sheet that is used takes nothing back");
  refused (sheet, "save it", "a part of the file's name", "`save`");
  /* The sheet that is open, by another spelling too, has its lines already.  */
  assert_int_equal (sheet_run (sheet, &s, "new without saving\nopen plans/hub.sheet\nuse plans/hub.sheet"), BR_DOMAIN);
  assert_int_equal (sheet_run (sheet, &s, "rim = 1\nuse plans/../plans/hub.sheet"), BR_DOMAIN);
  sheet_say (sheet, &s, "new without saving\nuse plans/hub.sheet\nwheel = hub * 3");
  refused (sheet, "rename hub to disc", "in a sheet that this one uses", "");
  /* A wrong line of a sheet stays as it is.  */
  sheet_put_file ("plans/wrong.sheet", "rim = 2 in\nnote \"rim\nbox lid = rim x 2 in at 0, 0\n");
  assert_int_equal (sheet_run (sheet, &s, "new without saving\nopen plans/wrong.sheet"), BR_SYNTAX);
  sheet_say (sheet, &s, "rename rim to edge\nsave plans/wrong2.sheet");
  holds ("plans/wrong2.sheet", "edge = 2 in\nnote \"rim\nbox lid = edge x 2 in at 0, 0\n");
  sheet_put_file ("plans/renames.sheet", "axle = 1 in\nrename axle to rod\n");
  assert_int_equal (sheet_run (sheet, &s, "new without saving\nopen plans/renames.sheet"), BR_DOMAIN);
  assert_string_equal (s.faults[0].error.message, "a sheet cannot rename what is in it: write the new name in its lines");
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
  sheet_put_file ("sizes.csv", "size\n1.23\n");
  sheet_put_file ("long.sheet", "x = 1\nround column size of sizes.csv to 1/8\nworksheet sums 2 seed 1 into sums.csv\n");
  br_sheet_set_policy (sheet, allow, NULL);
  check_ok (br_sheet_run (sheet, line, strlen (line), "", 1, &sink));
  assert_int_equal (t.flushed, 1);
  assert_true (t.progress > 0);
  br_sheet_free (sheet);
}

/* Whoever has had enough stops a sheet while it is read, and the lines that waited to touch files.  */
static void
stopped (void **state)
{
  volatile sig_atomic_t flag = 0;
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  sheet_put_file ("sizes.csv", "size\n1.23\n");
  sheet_put_file ("waits.sheet", "x = 1\nround column size of sizes.csv to 1/8 into marks.csv\n");
  sheet_say (sheet, &s, "open waits.sheet");
  flag = 1;
  br_sheet_watch (sheet, &flag);
  assert_int_equal (sheet_run (sheet, &s, "run files"), BR_STOPPED);
  assert_int_equal (access ("marks.csv", F_OK), -1);
  assert_int_equal (sheet_run (sheet, &s, "new without saving\nopen waits.sheet"), BR_STOPPED);
  sheet_end (sheet, &s);
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
  static const char *const made[] = { "cart.sheet", "kept", "asks.sheet", "sizes.csv", "long.sheet", "sums.csv", "sums_key.csv",
    "other.sheet", "waits.sheet", "plans/hub.sheet", "plans/undoes.sheet", "plans/cart.sheet", "plans/cart2.sheet", "plans/cart3.sheet",
    "plans/cart4.sheet", "plans/.own.sheet", "plans/inner.sheet",
    "plans/renames.sheet", "plans/wrong.sheet", "plans/wrong2.sheet" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (made); i++)
    remove (made[i]);
  return rmdir ("plans") != 0 || chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (with_its_file),
    CHECK_TEST (without_a_file),
    CHECK_TEST (not_recovered),
    CHECK_TEST (saved),
    CHECK_TEST (used),
    CHECK_TEST (passed_on),
    CHECK_TEST (stopped),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, set_up, tear_down));
}
