/* SPDX-License-Identifier: GPL-3.0-or-later
   replace.c - which files give way to new ones, what is left beside them, and which may be touched at all.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../sheet/support.h"
#include "file/content.h"
#include "file/output.h"

#define MARK "\xEF\xBB\xBF"     /* of byte order */

static char folder[] = "/tmp/benchrule-replace-XXXXXX";

static void
gives_way (void **state)
{
  static const struct { br__content content; const char *old, *new; int gives_way; } rows[] = {
    { BR__CONTENT_CSV, "", "a,b\n", 1 },
    { BR__CONTENT_CSV, "a,b\n1,2\n", "a,b\r\n3,4\r\n", 1 },
    { BR__CONTENT_CSV, MARK "a,b\n1,2\n", "a,b\n", 1 },
    { BR__CONTENT_CSV, "a,b\n", MARK "a,b", 1 },
    { BR__CONTENT_CSV, "a,c\n", "a,b\n", 0 },
    { BR__CONTENT_CSV, "1,2,3,4\n", "5,6,7,8\n", 1 },
    { BR__CONTENT_CSV, "1,2,3\n", "5,6,7,8\n", 0 },
    { BR__CONTENT_CSV, "1,2,3,4\n", "size,size_mark,size_error,size_error_decimal\n", 1 },
    { BR__CONTENT_CSV, "size,\"a_error_decimal\"\n", "b,b_error_decimal\n", 1 },
    { BR__CONTENT_CSV, "student,version,1,marks,of,note\n", "student,version,1,2,marks,of,note\n", 1 },
    { BR__CONTENT_CSV, "student,version,1\n", "student,version,1,2,marks,of,note\n", 0 },
    { BR__CONTENT_PAPER, "Cart    Version 1, seed 5\n", "Cart    Version 2, seed 6\n", 1 },
    { BR__CONTENT_PAPER, MARK "Cart    Version 1, seed 5\n", "Cart    Version 2, seed 6\n", 1 },
    { BR__CONTENT_PAPER, "Blatt, lang    Fassung 1, Saat 5\r\n", "Cart    Version 2, seed 6\n", 1 },
    { BR__CONTENT_PAPER, "Key: Cart    Version 1 of 2, seed 5\n", "Key: Cart    Version 1 of 1, seed 6\n", 1 },
    { BR__CONTENT_PAPER, "Key: Cart    Version 1 of 2, seed 5\n", "Cart    Version 2, seed 6\n", 0 },
    { BR__CONTENT_PAPER, "Answers: Cart, seed 5\n", "Answers: Blatt, seed 6\n", 1 },
    { BR__CONTENT_PAPER, "Answers: Cart, seed 5\n", "Cart    Version 2, seed 6\n", 0 },
    { BR__CONTENT_PAPER, "Cart    Version 1, seed \n", "Cart    Version 2, seed 6\n", 0 },
    { BR__CONTENT_PAPER, "Cart    Version 1\n, seed 5", "Cart    Version 2, seed 6\n", 0 },
    { BR__CONTENT_PAPER, "Room 12, seat 5\n", "Cart    Version 2, seed 6\n", 0 },
    { BR__CONTENT_PAPER, "Rooms    4 and more, seat 5\n", "Cart    Version 2, seed 6\n", 0 },
    { BR__CONTENT_HTML, MARK " <!-- a --> <!DOCTYPE html>", "<!doctype html>", 1 },
    { BR__CONTENT_HTML, "<html>", "<!doctype html>", 1 },
    { BR__CONTENT_HTML, "<!-- not closed <html>", "<!doctype html>", 0 },
    { BR__CONTENT_SVG, MARK "<?xml version=\"1.0\"?>\n<!-- a --><!DOCTYPE svg PUBLIC>\n<svg>", "<svg/>", 1 },
    { BR__CONTENT_SVG, "<html>", "<svg/>", 0 },
    { BR__CONTENT_SVG, "mine", "what a painter of one's own makes", 1 },
    { BR__CONTENT_SVG, "<svg width=\"1in\"/>", "<svg width=\"2in\" role=\"img\" />", 0 },
    { BR__CONTENT_SVG, "<svg width=\"1in\" role=\"img\" />", "<svg width=\"2in\" role=\"img\" />", 1 },
    { BR__CONTENT_SVG, "<svg width=\"1in\"/>", "<svg width=\"2in\"/>", 1 },        /* a painter of one's own */
    { BR__CONTENT_PDF, "%PDF-1.7", "%PDF-1.5", 1 },
    { BR__CONTENT_PDF, "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n", "%PDF-1.5\n%\xB5\xED\xAE\xFB\n", 0 },
    { BR__CONTENT_PDF, "%PDF-1.7\n%\xB5\xED\xAE\xFB\n", "%PDF-1.5\n%\xB5\xED\xAE\xFB\n", 1 },
    { BR__CONTENT_PDF, "%PD", "%PDF-1.5", 0 },
    { BR__CONTENT_PNG, "\x89PNG\r\n\x1a\n....", "\x89PNG\r\n\x1a\n", 1 },
    { BR__CONTENT_PNG, "\x89PNG", "\x89PNG\r\n\x1a\n", 0 },
    /* A sheet is somebody's work.  */
    { BR__CONTENT_SHEET, "", "wheel = 3 in\n", 1 },
    { BR__CONTENT_SHEET, "wheel = 3 in\n", "wheel = 3 in\n", 0 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    if (br__content_gives_way (rows[i].old, strlen (rows[i].old), rows[i].content, rows[i].new, strlen (rows[i].new))
        != rows[i].gives_way)
      fail_msg ("row %zu: %s", i, rows[i].old);
}

/* Unfinished files of the same name, a day old, are taken away; no others.  */
static void
left_over (void **state)
{
  static const struct { const char *name; int old, stays; } rows[] = {
    { ".cart.sheet.0123456789abcdef.benchrule-part", 1, 0 }, { ".cart.sheet.1123456789abcdef.benchrule-part", 0, 1 },
    { ".cart.sheet.012345678.benchrule-part", 1, 1 }, { ".cart.sheet.0123456789abcdef.benchrule-past", 1, 1 },
    { ".care.sheet.0123456789abcdef.benchrule-part", 1, 1 },
  };
  br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      const struct timespec times[2] = { { time (NULL) - 48 * 3600, 0 }, { time (NULL) - 48 * 3600, 0 } };
      sheet_put_file (rows[i].name, "half");
      assert_int_equal (rows[i].old ? utimensat (AT_FDCWD, rows[i].name, times, 0) : 0, 0);
    }
  assert_int_equal (mkdir (".cart.sheet.2123456789abcdef.benchrule-part", 0700), 0);
  check_ok (br_sheet_save (sheet, "cart.sheet", NULL));
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    assert_int_equal (remove (rows[i].name) == 0, rows[i].stays);
  assert_int_equal (rmdir (".cart.sheet.2123456789abcdef.benchrule-part"), 0);
  br_sheet_free (sheet);
}

/* A file with two names would be parted from the other.  */
static void
linked (void **state)
{
  static const struct { const char *line, *file, *hint; } rows[] = {
    { "save over two.sheet", "two.sheet", "`save in place " },
    { "worksheet sums 2 seed 1 into two.csv", "two.csv", "give it a name of its own" },
  };
  br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      sheet_put_file (rows[i].file, "name,version,problem,topic,\n");
      assert_int_equal (link (rows[i].file, "other"), 0);
      assert_int_equal (sheet_run (sheet, &s, rows[i].line), BR_IO);
      if (!strstr (s.faults[0].error.message, "hard links") || !strstr (s.faults[0].error.hint, rows[i].hint))
        fail_msg ("%s: %s; %s", rows[i].line, s.faults[0].error.message, s.faults[0].error.hint);
      remove ("other");
    }
  sheet_say (sheet, &s, "save in place two.sheet");
  sheet_end (sheet, &s);
}

/* What another program writes to the file while ours is being made stays.  */
static void
written_meanwhile (void **state)
{
  static const br__output_rules rules = { BR__CONTENT_SHEET, 1, 0, NULL, 0 };
  static const char mine[] = "mine";
  char text[sizeof mine];
  br_error error;
  br__output o;
  (void) state;
  for (int removed = 0; removed < 2; removed++)
    {
      memset (&error, 0, sizeof error);
      sheet_put_file ("two.sheet", "old");
      check_ok (br__output_open (&o, "two.sheet", &rules, &error));
      check_ok (br__output_write (&o, "new\n", 4, &error));
      if (removed)
        assert_int_equal (remove ("two.sheet"), 0);
      sheet_put_file ("two.sheet", mine);
      assert_int_equal (br__output_close (&o, 0, &error), BR_IO);
      assert_non_null (strstr (error.message, "another program has just changed it"));
      FILE *f = fopen ("two.sheet", "r");
      assert_non_null (f);
      assert_int_equal (fread (text, 1, sizeof text, f), sizeof mine - 1);
      fclose (f);
      assert_memory_equal (text, mine, sizeof mine - 1);
    }
}

/* What is written into a file itself, and does not fit, leaves it as it was.  */
static void
in_place_full (void **state)
{
  struct rlimit old, few;
  said s = SAID_ZERO;
  char text[3000], *now = NULL;
  size_t length = 0, room = 0;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  for (int i = 0; i < 99; i++)
    {
      sheet_say (sheet, &s, "rail_%d = %d-%d/128 in", i, i + 1, (2 * i + 1) % 128);
      length += (size_t) snprintf (text + length, sizeof text - length, "post_%d = 1 in\n", i);
    }
  /* Less than what was there, and more.  */
  assert_true (length > 1050 && length < 2000);
  for (size_t most = 100; most <= 2000; most += 950)
    {
      sheet_put_file ("two.sheet", text);
      assert_int_equal (getrlimit (RLIMIT_FSIZE, &old), 0);
      few = old;
      few.rlim_cur = (rlim_t) most;
      void (*before) (int) = signal (SIGXFSZ, SIG_IGN);
      assert_int_equal (setrlimit (RLIMIT_FSIZE, &few), 0);
      br_status status = sheet_run (sheet, &s, "save in place two.sheet");
      assert_int_equal (setrlimit (RLIMIT_FSIZE, &old), 0);
      signal (SIGXFSZ, before);
      assert_int_equal (status, BR_IO);
      assert_non_null (strstr (s.faults[0].error.message, "too large"));
      assert_true (br_sheet_unsaved (sheet));
      FILE *f = fopen ("two.sheet", "r");
      assert_non_null (f);
      assert_true (getdelim (&now, &room, EOF, f) >= 0);
      fclose (f);
      assert_string_equal (now, text);
    }
  free (now);
  sheet_say (sheet, &s, "save in place two.sheet");
  sheet_end (sheet, &s);
}

/* Work whose folder is gone is kept all the same.  */
static void
folder_gone (void **state)
{
  char path[64];
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
  (void) state;
  snprintf (path, sizeof path, "%s/two.sheet", folder);
  assert_int_equal (mkdir ("gone", 0700), 0);
  assert_int_equal (chdir ("gone"), 0);
  assert_int_equal (rmdir ("../gone"), 0);
  assert_int_equal (sheet_run (sheet, &s, "save lost.sheet"), BR_IO);
  br_status status = br_sheet_keep (sheet, path, NULL);
  assert_int_equal (chdir (folder), 0);
  check_ok (status);
  FILE *f = fopen ("two.sheet", "r");
  char text[100] = "";
  assert_non_null (f);
  assert_true (fread (text, 1, sizeof text - 1, f) > 0);
  fclose (f);
  assert_non_null (strstr (text, "\n\nwheel = 3-1/2 in\n"));
  sheet_end (sheet, &s);
}

/* A pipe that nobody reads from does not hold the work up, and what went into one is a copy.  */
static void
pipes (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
  (void) state;
  assert_int_equal (mkfifo ("pipe.sheet", 0600), 0);
  assert_int_equal (sheet_run (sheet, &s, "save pipe.sheet"), BR_IO);
  assert_non_null (strstr (s.faults[0].error.message, "nobody reads from it"));
  int reader = open ("pipe.sheet", O_RDONLY | O_NONBLOCK);
  assert_true (reader >= 0);
  sheet_say (sheet, &s, "save pipe.sheet");
  char text[40] = "";
  assert_true (read (reader, text, sizeof text - 1) > 0);
  close (reader);
  remove ("pipe.sheet");
  assert_string_equal (text, "wheel = 3-1/2 in\n");
  assert_true (br_sheet_unsaved (sheet));
  sheet_say (sheet, &s, "save /dev/null");
  assert_true (br_sheet_unsaved (sheet));
  sheet_end (sheet, &s);
}

/* With one descriptor more than are in use, a file can be saved.  */
static void
last_descriptor (void **state)
{
  struct rlimit old, few;
  br_sheet *sheet = sheet_with ("wheel = 3-1/2 in");
  int next = open ("/dev/null", O_RDONLY);
  (void) state;
  assert_true (next >= 0 && close (next) == 0);
  assert_int_equal (getrlimit (RLIMIT_NOFILE, &old), 0);
  few = old;
  few.rlim_cur = (rlim_t) next + 1;
  assert_int_equal (setrlimit (RLIMIT_NOFILE, &few), 0);
  br_status status = br_sheet_save (sheet, "last.sheet", NULL);
  assert_int_equal (setrlimit (RLIMIT_NOFILE, &old), 0);
  check_ok (status);
  br_sheet_free (sheet);
}

/* What a sheet file may touch where nothing else is said, also one that lies in the root of all folders.  */
static void
usual (void **state)
{
  static const struct { br_file_request request; int allowed; } rows[] = {
    { { BR_FILE_SHEET, "/etc/passwd", NULL, 0, 0 }, 1 },
    { { BR_FILE_SHEET, "/none.sheet", "/cart.sheet", 1, 0 }, 1 },
    { { BR_FILE_SHEET, "/none/none.sheet", "/cart.sheet", 1, 0 }, 0 },       /* there is no such folder */
    { { BR_FILE_SHEET, "none.sheet", "cart.sheet", 1, 0 }, 1 },
    { { BR_FILE_SHEET, "../none.sheet", "cart.sheet", 1, 0 }, 0 },
    { { BR_FILE_SHEET, ".none.sheet", "cart.sheet", 1, 1 }, 0 },
    { { BR_FILE_READ, "none.csv", "cart.sheet", 1, 0 }, 0 }, { { BR_FILE_READ, "none.csv", "cart.sheet", 1, 1 }, 1 },
    { { BR_FILE_WRITE, "none.csv", "cart.sheet", 1, 0 }, 0 }, { { BR_FILE_WRITE, "none.csv", "cart.sheet", 1, 1 }, 1 },
    { { BR_FILE_WRITE, "none.exe", "cart.sheet", 1, 1 }, 0 }, { { (br_file_use) 9, "none.csv", "cart.sheet", 1, 1 }, 0 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    if (br_file_usual (&rows[i].request) != rows[i].allowed)
      fail_msg ("row %zu: %s", i, rows[i].request.path);
}

static int allow (void *user, const br_file_request *request) { (void) user; (void) request; return 1; }

/* A sheet file whose lines may read anything reads plain files alone: a pipe could be waited for without end.  */
static void
plain_files (void **state)
{
  static const struct { const char *lines, *message; } rows[] = {
    { "x = 1\nuse pipe.sheet\n", "it is no plain file" }, { "x = 1\nuse under.sheet\n", "it is a folder" },
  };
  said s = SAID_ZERO;
  (void) state;
  assert_int_equal (mkfifo ("pipe.sheet", 0600), 0);
  assert_int_equal (mkdir ("under.sheet", 0700), 0);
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with ("");
      sheet_put_file ("uses.sheet", rows[i].lines);
      br_sheet_set_policy (sheet, allow, NULL);
      assert_int_equal (sheet_run (sheet, &s, "open uses.sheet"), BR_IO);
      if (!strstr (s.faults[0].error.message, rows[i].message))
        fail_msg ("%s: %s", rows[i].lines, s.faults[0].error.message);
      sheet_end (sheet, &s);
    }
  rmdir ("under.sheet");
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
  static const char *const made[] = { "cart.sheet", "two.sheet", "two.csv", "two_key.csv", "last.sheet", "uses.sheet", "pipe.sheet" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (made); i++)
    remove (made[i]);
  return chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (gives_way), CHECK_TEST (left_over), CHECK_TEST (linked), CHECK_TEST (written_meanwhile), CHECK_TEST (last_descriptor), CHECK_TEST (usual),
    CHECK_TEST (in_place_full), CHECK_TEST (folder_gone), CHECK_TEST (pipes), CHECK_TEST (plain_files),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, set_up, tear_down));
}
