/* SPDX-License-Identifier: GPL-3.0-or-later
   public.c - the functions of the header that work on measures, rulers, scales and sheets: each with every
   allocation refused in turn, its outputs then as they were; what a sheet calls unsaved; and why a file
   cannot be read, in the words of people.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "exact/status.h"
#include "support.h"

#define LONG "3.5000000000000000000000000000000000001"

static char folder[] = "/tmp/benchrule-public-XXXXXX";

/* ---- Memory ---- */

static br_number result, other;
static br_real value;
static br_measure measure;

static br_status
read_measure (void)
{
  return br_measure_read (&measure, " -" LONG " in ", strlen (" -" LONG " in "), NULL, NULL);
}

static br_status
scan_measure (void)
{
  size_t used;
  return br_measure_scan (&measure, &used, LONG " mm and", strlen (LONG " mm and"), NULL, NULL);
}

static br_status
round_ruler (void)
{
  return br_ruler_round (&result, &other, NULL, &value.rational, &measure.value, BR_NEAREST, BR_TIES_UP);
}

static br_status
neighbours (void)
{
  return br_ruler_neighbours (&result, &other, &value.rational, &measure.value);
}

static br_status
simplest (void)
{
  return br_ruler_simplest (&result, &other, &value, &measure.value, 0);
}

static br_status
keep_total (void)
{
  br_real parts[3] = { value, value, value };
  br_number values[3] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO, BR_NUMBER_ZERO };
  br_status status = br_ruler_keep_total (values, &result, parts, 3, &measure.value, BR_NEAREST, BR_TIES_UP, 0);
  for (size_t i = 0; i < 3; i++)
    br_number_clear (&values[i]);
  return status;
}

static br_status
read_scale (void)
{
  return br_scale_read (&result, LONG " in = 41 mm", strlen (LONG " in = 41 mm"), NULL);
}

static br_status
full_size (void)
{
  br_real z = BR_REAL_ZERO;
  br_status status = br_scale_full (&z, &value, &measure.value);
  br_real_clear (&z);
  return status;
}

static br_status
drawn_size (void)
{
  br_real z = BR_REAL_ZERO;
  br_status status = br_scale_drawn (&z, &value, &measure.value);
  br_real_clear (&z);
  return status;
}

static br_status
write_texts (void)
{
  char text[4];
  size_t measure_size = br_measure_write (text, sizeof text, &measure.value, BR_LENGTH, NULL);
  size_t scale_size = br_scale_write (text, sizeof text, &measure.value);
  return measure_size == SIZE_MAX || scale_size == SIZE_MAX ? BR_NO_MEMORY : BR_OK;
}

static br_status
new_sheet (void)
{
  br_sheet *sheet = NULL;
  br_status status = br_sheet_new (&sheet);
  assert_true ((status == BR_OK) == (sheet != NULL));
  br_sheet_free (sheet);
  return status;
}

static br_status
run_file (void)
{
  br_sheet *sheet = NULL;
  br_status status = br_sheet_new (&sheet);
  if (status == BR_OK)
    status = br_sheet_run_file (sheet, "plain.sheet", NULL);
  br_sheet_free (sheet);
  return status;
}

static br_status
save_sheet (void)
{
  br_sheet *sheet = NULL;
  br_status status = br_sheet_new (&sheet);
  if (status == BR_OK)
    status = br_sheet_run (sheet, "wheel = 3 in\ncheck wheel < 4\n", 29, "test", 1, NULL);
  if (status == BR_OK)
    status = br_sheet_save (sheet, "saved.sheet", NULL);
  if (status == BR_OK)
    status = br_sheet_write (sheet, "saved.sheet", NULL);
  br_sheet_free (sheet);
  return status;
}

/* A root is set, got and met among what stands there.  */
static br_status
values_of_sheet (void)
{
  static const char lines[] = "stock pine = 3/4 x 3 x 48\npart slat = 6 x 2 from pine\nwheel = 1 in\ncheck wheel < 4\n";
  br_sheet *sheet = NULL;
  br_real root = BR_REAL_ZERO, back = BR_REAL_ZERO;
  br_item item = BR_ITEM_ZERO;
  br_status status = br_sheet_new (&sheet);
  if (status == BR_OK)
    status = br_sheet_run (sheet, lines, sizeof lines - 1, "test", 1, NULL);
  if (status == BR_OK)
    status = br_number_set_int (&root.rational, 2);
  if (status == BR_OK)
    status = br_real_sqrt (&root, &root, 0);
  if (status == BR_OK)
    status = br_sheet_set (sheet, "wheel", &root, BR_LENGTH, NULL);
  if (status == BR_OK)
    status = br_sheet_get (&back, NULL, sheet, "wheel", NULL);
  for (int kind = BR_ITEM_DIMENSION; kind <= BR_ITEM_CHECK && status == BR_OK; kind++)
    {
      item = (br_item) BR_ITEM_ZERO;
      do
        status = br_sheet_next (&item, sheet, (br_item_kind) kind, NULL);
      while (status == BR_OK && item.name);
    }
  br_real_clear (&root);
  br_real_clear (&back);
  br_sheet_free (sheet);
  return status;
}

/* The root of 2 on a mark, and a length at another scale.  */
static br_status
round_real (void)
{
  br_real root = BR_REAL_ZERO, off = BR_REAL_ZERO;
  br_number z = BR_NUMBER_ZERO;
  br_status status = br_real_sqrt (&root, &value, 0);
  if (status == BR_OK)
    status = br_ruler_round_real (&z, &off, NULL, &root, &measure.value, BR_NEAREST, BR_TIES_UP, 0);
  if (status == BR_OK)
    status = br_scale_full_number (&z, &value.rational, &measure.value);
  if (status == BR_OK)
    status = br_scale_drawn_number (&z, &value.rational, &measure.value);
  br_real_clear (&root);
  br_real_clear (&off);
  br_number_clear (&z);
  return status;
}

static int
saved_whole (void)
{
  char bytes[100] = "";
  FILE *file = fopen ("saved.sheet", "r");
  assert_non_null (file);
  assert_true (fread (bytes, 1, sizeof bytes - 1, file) > 0);
  fclose (file);
  return strcmp (bytes, "wheel = 3 in\ncheck wheel < 4\n") == 0;
}

/* What X is, as text.  */
static void
remember (char text[static 200], const br_number *x)
{
  assert_true (br_number_write (text, 200, x) < 200);
}

static void
each_function (void **state)
{
  static br_status (*const all[]) (void) = {
    read_measure, scan_measure, round_ruler, neighbours, simplest, keep_total, read_scale, full_size, drawn_size,
    write_texts, new_sheet, run_file, save_sheet, values_of_sheet, round_real
  };
  char was[200], now[200], other_was[200];
  (void) state;
  check_ok (br_number_read (&value.rational, "100000000000000000000000000/3", 29, NULL));
  check_ok (read_measure ());
  check_ok (br_number_abs (&measure.value, &measure.value));
  check_ok (br_number_read (&result, "200000000000000000000000000/7", 29, NULL));
  check_ok (br_number_read (&other, "300000000000000000000000000/7", 29, NULL));
  for (size_t i = 0; i < CHECK_COUNT (all); i++)
    for (long nth = 0; ; nth++)
      {
        remember (was, &result);
        remember (other_was, &other);
        check_memory_limit (nth);
        br_status status = all[i] ();
        int refused = check_memory_refused;
        check_memory_free ();
        if (!refused)
          {
            check_ok (status);
            break;
          }
        /* A folder that is not flushed for want of memory is no reason to call a whole file none.  */
        if ((status != BR_NO_MEMORY && !(all[i] == save_sheet && status == BR_OK && saved_whole ()))
            || check_memory_blocks != 0)
          fail_msg ("function %zu, allocation %ld: %s, %ld blocks", i, nth, br_status_name (status), check_memory_blocks);
        remember (now, &result);
        assert_string_equal (now, was);
        remember (now, &other);
        assert_string_equal (now, other_was);
        assert_true (br_number_sign (&measure.value) != 0);
      }
  br_number_clear (&result);
  br_number_clear (&other);
  br_real_clear (&value);
  br_measure_clear (&measure);
}

/* ---- Words ---- */

static void
status_words (void **state)
{
  br_error error;
  (void) state;
  for (int status = BR_OK; status <= BR_STOPPED; status++)
    {
      assert_true (*br_status_name ((br_status) status) != 0);
      assert_int_equal (br__fail_plain (&error, (br_status) status, 3, 4), status);
      assert_int_equal (error.offset, 3);
      assert_int_equal (error.length, 4);
      assert_int_equal (*error.message != 0, status != BR_OK);
      for (int before = BR_OK; before < status; before++)
        assert_string_not_equal (br_status_name ((br_status) status), br_status_name ((br_status) before));
    }
  assert_string_equal (br_status_name ((br_status) 99), "unknown");
  assert_int_equal (br__fail_plain (NULL, BR_IO, 0, 0), BR_IO);
}

/* ---- Files ---- */

static void
check_refused (const char *path, const char *word)
{
  br_sheet *sheet = sheet_with ("wheel = 3 in");
  said s = SAID_ZERO;
  br_error error;
  char line[300];
  snprintf (line, sizeof line, "use %s", path);
  assert_int_equal (sheet_run (sheet, &s, line), BR_IO);
  if (!strstr (s.faults[0].error.message, word))
    fail_msg ("%s: %s, and not %s", path, s.faults[0].error.message, word);
  snprintf (line, sizeof line, "%s/never", path);
  assert_int_equal (br_sheet_save (sheet, line, &error), BR_IO);
  assert_true (*error.message != 0);
  assert_int_equal (br_sheet_save (sheet, "", &error), BR_IO);
  assert_string_equal (error.message, "cannot write ``: there is no such file or folder");
  assert_null (br_sheet_path (sheet));
  assert_int_equal (br_sheet_unsaved (sheet), 1);
  sheet_end (sheet, &s);
}

static void
refused_files (void **state)
{
  char name[300];
  (void) state;
  memset (name, 'x', sizeof name);
  name[280] = 0;
  assert_int_equal (symlink ("round.sheet", "round.sheet"), 0);
  check_refused ("gone.sheet", "no such file");
  check_refused ("plain.sheet/inside", "a part of its path is no folder");
  check_refused ("round.sheet", "its links lead in a circle");
  check_refused (name, "name");
}

/* No descriptor is left.  */
static void
no_descriptors (void **state)
{
  struct rlimit before, none;
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  assert_int_equal (getrlimit (RLIMIT_NOFILE, &before), 0);
  none = before;
  none.rlim_cur = 0;
  assert_int_equal (setrlimit (RLIMIT_NOFILE, &none), 0);
  br_status status = sheet_run (sheet, &s, "open plain.sheet");
  assert_int_equal (setrlimit (RLIMIT_NOFILE, &before), 0);
  assert_int_equal (status, BR_IO);
  assert_non_null (strstr (s.faults[0].error.message, "too many files are open"));
  check_ok (sheet_run (sheet, &s, "open plain.sheet"));
  sheet_end (sheet, &s);
}

static int
allow_all (void *user, const br_file_request *request)
{
  (void) user;
  return request->path != NULL;
}

/* A sheet that uses itself, and one beside another by a path of its own.  */
static void
opened_sheets (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  sheet_put_file ("itself.sheet", "use ./itself.sheet\n");
  assert_int_equal (sheet_run (sheet, &s, "open itself.sheet"), BR_DOMAIN);
  assert_non_null (strstr (s.faults[0].error.message, "a sheet cannot use itself"));
  br_sheet_free (sheet);
  assert_int_equal (mkdir ("inner", 0700), 0);
  sheet_put_file ("inner/outer.sheet", "use next.sheet\nuse ../plain.sheet\n");
  sheet_put_file ("inner/next.sheet", "near = 2 in");
  sheet = sheet_with ("");
  br_sheet_set_policy (sheet, allow_all, NULL);
  check_ok (sheet_run (sheet, &s, "open \"inner/outer.sheet\""));
  sheet_say (sheet, &s, "wheel + near");
  said_is (&s, 0, "exact", "5");
  assert_int_equal (sheet_run (sheet, &s, "open \"\""), BR_SYNTAX);
  sheet_end (sheet, &s);
  remove ("inner/next.sheet");
  remove ("inner/outer.sheet");
  rmdir ("inner");
}

/* What has not been saved, and what would not be missed.  */
static void
unsaved_work (void **state)
{
  static const struct { const char *text; int unsaved; } rows[] = {
    { "", 0 }, { "units mm", 1 }, { "units mm\nruler 1 mm\ngrid 5 mm", 1 }, { "# bought", 1 }, { "1 + 2", 0 }, { "units mm\nundo", 0 }, { "pictures off", 0 },
    { "wheel = 3", 1 }, { "check 3 < 4", 1 }, { "units mm\nwheel = 3\nundo", 1 }, { "later = wheel", 1 },
    { "stock pine = 3/4 x 5 x 48", 1 }, { "circle rim = 3 at 0, 0", 1 }, { "problem How long?", 1 }, { "list", 0 },
  };
  br_error error;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (rows[i].text);
      if (br_sheet_unsaved (sheet) != rows[i].unsaved)
        fail_msg ("`%s` is%s unsaved work", rows[i].text, rows[i].unsaved ? "" : " no");
      check_ok (br_sheet_save (sheet, "mine.sheet", &error));
      assert_string_equal (br_sheet_path (sheet), "mine.sheet");
      assert_int_equal (br_sheet_unsaved (sheet), 0);
      check_ok (br_sheet_run (sheet, "kerf 1/8", 8, "test", 1, NULL));
      assert_int_equal (br_sheet_unsaved (sheet), 1);     /* the file has it not */
      br_sheet_free (sheet);
    }
  remove ("mine.sheet");
}

/* Line ends, the mark of UTF-8 and a last line without its end are kept.  */
static void
line_ends (void **state)
{
  static const char *const texts[] = {
    "a = 1\nb = 2\n", "a = 1\r\nb = 2\r\n", ("\xef\xbb\xbf" "a = 1\n"), "a = 1\nb = 2", "a = 1\r\n\r\n# note\nb = 2"
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (texts); i++)
    {
      char bytes[100] = "";
      br_sheet *sheet = NULL;
      sheet_put_file ("ends.sheet", texts[i]);
      check_ok (br_sheet_new (&sheet));
      check_ok (br_sheet_run_file (sheet, "ends.sheet", NULL));
      assert_string_equal (br_sheet_path (sheet), "ends.sheet");
      check_ok (br_sheet_save (sheet, "ends.sheet", NULL));
      FILE *file = fopen ("ends.sheet", "r");
      assert_true (fread (bytes, 1, sizeof bytes - 1, file) > 0);
      fclose (file);
      assert_string_equal (bytes, texts[i]);
      br_sheet_free (sheet);
    }
  /* What is added behind such a last line begins a line; `save` alone takes the file that was opened.  */
  char bytes[100] = "";
  br_sheet *sheet = NULL;
  sheet_put_file ("ends.sheet", "a = 1");
  check_ok (br_sheet_new (&sheet));
  check_ok (br_sheet_run_file (sheet, "ends.sheet", NULL));
  check_ok (br_sheet_run (sheet, "b = 2\nsave", 10, "test", 1, NULL));
  FILE *file = fopen ("ends.sheet", "r");
  assert_true (fread (bytes, 1, sizeof bytes - 1, file) > 0);
  fclose (file);
  assert_string_equal (bytes, "a = 1\nb = 2\n");
  br_sheet_free (sheet);
  remove ("ends.sheet");
}

static void
limits_of_settings (void **state)
{
  br_sheet *sheet = sheet_with ("");
  (void) state;
  assert_int_equal (br_sheet_set_bits (sheet, 63), BR_DOMAIN);
  assert_int_equal (br_sheet_set_bits (sheet, 65537), BR_DOMAIN);
  check_ok (br_sheet_set_bits (sheet, 64));
  check_ok (br_sheet_set_bits (sheet, 65536));
  assert_int_equal (br_sheet_set_jobs (sheet, 0), BR_DOMAIN);
  assert_int_equal (br_sheet_set_jobs (sheet, BR_MAX_JOBS + 1), BR_DOMAIN);
  check_ok (br_sheet_set_jobs (sheet, BR_MAX_JOBS));
  assert_int_equal (br_sheet_done (sheet), 0);
  check_ok (br_sheet_run (sheet, "quit\nwheel = = 3", 16, "test", 1, NULL));
  assert_int_equal (br_sheet_done (sheet), 1);
  br_sheet_go_on (sheet);
  assert_int_equal (br_sheet_done (sheet), 0);
  br_sheet_free (sheet);
  br_sheet_free (NULL);
  br_number_clear (NULL);
  br_real_clear (NULL);
  br_measure_clear (NULL);
}

static int
set_up (void **state)
{
  (void) state;
  if (!mkdtemp (folder) || chdir (folder) != 0)
    return -1;
  sheet_put_file ("plain.sheet", "wheel = 3 in\n");
  return 0;
}

static int
tear_down (void **state)
{
  static const char *const made[] = { "plain.sheet", "saved.sheet", "itself.sheet", "round.sheet" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (made); i++)
    remove (made[i]);
  return chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (each_function),
    CHECK_TEST (status_words),
    CHECK_TEST (refused_files),
    CHECK_TEST (no_descriptors),
    CHECK_TEST (opened_sheets),
    CHECK_TEST (unsaved_work),
    CHECK_TEST (line_ends),
    CHECK_TEST (limits_of_settings),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, set_up, tear_down));
}
