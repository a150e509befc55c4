/* SPDX-License-Identifier: GPL-3.0-or-later
   budget.c - a sheet takes no more memory than it may, and a sheet may be freed by what it calls back.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "support.h"

#define LEAST BR_LEAST_MEMORY

/* What SHEET's file holds, to be freed.  */
static char *
whole_text (const br_sheet *sheet)
{
  char *text = NULL;
  size_t room = 0;
  check_ok (br_sheet_write (sheet, "budget.sheet", NULL));
  FILE *file = fopen ("budget.sheet", "r");
  assert_non_null (file);
  assert_true (getdelim (&text, &room, 0, file) > 0);
  fclose (file);
  remove ("budget.sheet");
  return text;
}

/* Lines that take ever more, until the sheet refuses one; how many it took.  */
static size_t
fill (br_sheet *sheet, said *s, const char *const around[2])
{
  char line[200];
  br_status status = BR_OK;
  size_t lines = 0;
  for (; status == BR_OK && lines < 20000; lines++)
    {
      snprintf (line, sizeof line, "%s%zu%s", around[0], lines, around[1]);
      status = sheet_run (sheet, s, line);
    }
  if (status != BR_NO_MEMORY)
    fail_msg ("`%s`: %s", line, s->fault_count ? s->faults[0].error.message : "was taken");
  assert_string_equal (s->faults[0].error.message, "more than 1 MiB of memory for one sheet");
  return lines - 1;
}

/* Dimensions, numbers of GMP, and checks; the sheet is as it was before the line, can be saved, and gives back what is
   taken back.  */
static void
filled (void **state)
{
  static const char *const around[][2] = {
    { "size_", " = 3-1/2 in  # a size with a note that takes some room as well" }, { "size_", " = (7^9000 + 1/3) * 1 in" },
    { "check 1/3 < 1", "" }, { "title A cart that has been given a title ", " times by now, each of which can be taken back" },
    { "hole_", " = sqrt(2) * sqrt(3) + sin(20) + sqrt(5)" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (around); i++)
    {
      br_sheet *sheet = sheet_with ("wheel = 3 in");
      said s = SAID_ZERO;
      check_ok (br_sheet_set_memory (sheet, LEAST));
      size_t lines = fill (sheet, &s, around[i]);
      assert_true (lines > 20);
      char *before = whole_text (sheet);
      assert_int_equal (sheet_run (sheet, &s, "length = 7^300000"), BR_NO_MEMORY);
      char *after = whole_text (sheet);
      assert_string_equal (before, after);
      check_ok (br_sheet_save (sheet, "budget.sheet", NULL));
      sheet_say (sheet, &s, "save over budget2.sheet");
      sheet_say (sheet, &s, "new");
      sheet_say (sheet, &s, "undo");
      check_ok (br_sheet_set_memory (sheet, SIZE_MAX));
      sheet_say (sheet, &s, "wheel * 2");
      sheet_say (sheet, &s, "save over budget2.sheet");
      sheet_say (sheet, &s, "7^30000");
      free (before);
      free (after);
      remove ("budget.sheet");
      remove ("budget2.sheet");
      sheet_end (sheet, &s);
    }
}

/* A sheet that has taken all that it may is saved, emptied and brought back, however many lines it has: also where its
   list of changes has to grow for the next.  */
static void
over (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  for (int i = 0; i < 150; i++)
    {
      check_ok (br_sheet_set_memory (sheet, SIZE_MAX));
      sheet_say (sheet, &s, i < 12 ? "big_%d = 7^300000" : "size_%d = 3 in", i);
      check_ok (br_sheet_set_memory (sheet, LEAST));
      if (i < 12)
        continue;
      sheet_say (sheet, &s, "save over budget.sheet");
      sheet_say (sheet, &s, "new");
      sheet_say (sheet, &s, "undo");
    }
  assert_int_equal (sheet_run (sheet, &s, "size = 3 in"), BR_NO_MEMORY);
  remove ("budget.sheet");
  sheet_end (sheet, &s);
}

/* One number that is too large for the sheet is refused before it is made; another sheet has room for it.  */
static void
apart (void **state)
{
  br_sheet *small = sheet_with (""), *large = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  check_ok (br_sheet_set_memory (small, LEAST));
  assert_int_equal (br_sheet_set_memory (large, LEAST - 1), BR_DOMAIN);
  assert_int_equal (br_sheet_set_memory (large, 0), BR_DOMAIN);
  assert_int_equal (sheet_run (small, &s, "7^300000"), BR_NO_MEMORY);
  assert_string_equal (s.faults[0].error.message, "more than 1 MiB of memory for one sheet");
  sheet_say (large, &s, "big = 7^300000");
  sheet_say (small, &s, "big = 7^300");
  br_sheet_free (small);
  sheet_say (large, &s, "big / 7^299999");
  said_is (&s, 0, "exact", "7");
  sheet_end (large, &s);
}

/* What a callback makes and keeps outlives the sheet that called it.  */
typedef struct keeper
{
  br_sheet *sheet;
  br_number kept;
  size_t records, faults, free_at;
} keeper;

static void
keep_record (void *user, const br_record *record)
{
  keeper *k = user;
  (void) record;
  check_ok (br_number_read (&k->kept, "123456789012345678901234567890/7", 32, NULL));
  if (k->records++ == k->free_at)
    br_sheet_free (k->sheet);
}

static void
keep_fault (void *user, const br_fault *fault)
{
  keeper *k = user;
  (void) fault;
  k->faults++;
  if (k->free_at == SIZE_MAX)
    br_sheet_free (k->sheet);
}

static void
freed_inside (void **state)
{
  static const struct { const char *lines; size_t free_at, records, faults; br_status status; } runs[] =
  {
    { "1 + 1\n2 + 2\n3 + 3", 0, 1, 0, BR_STOPPED },
    { "1 + 1\n2 + 2\n3 + 3", 1, 2, 0, BR_STOPPED },
    { "wheel = 3 in; wheel = 4 in; undo\nwheel = = 3\nredo", 2, 3, 0, BR_STOPPED },
    { "1 + 1\n2 +\n3 +\n4", SIZE_MAX, 1, 1, BR_SYNTAX },
    { "use inner.sheet\n2 + 2", 0, 1, 0, BR_STOPPED },
    { "open inner.sheet\n2 + 2", 0, 1, 0, BR_STOPPED },
    { "stock pine = 3/4 x 5-1/2 x 48 qty 2; part side = 5 in x 1 in from pine; cuts", 2, 3, 0, BR_STOPPED },
  };
  (void) state;
  sheet_put_file ("inner.sheet", "a = 1 in\nb = 2 in\n1 +\n");
  for (size_t i = 0; i < 2 * CHECK_COUNT (runs); i++)
    {
      keeper k = { .free_at = runs[i / 2].free_at };
      br_sink sink = { .user = &k, .record = keep_record, .fault = keep_fault };
      br_status status;
      check_ok (br_sheet_new (&k.sheet));
      if (i % 2)
        {
          sheet_put_file ("outer.sheet", runs[i / 2].lines);
          if (strncmp (runs[i / 2].lines, "open", 4) == 0)
            {
              br_sheet_free (k.sheet);
              continue;
            }
          status = br_sheet_run_file (k.sheet, "outer.sheet", &sink);
        }
      else
        status = br_sheet_run (k.sheet, runs[i / 2].lines, strlen (runs[i / 2].lines), "test", 1, &sink);
      int right = status == runs[i / 2].status || (i % 2 && status == BR_STOPPED);
      if (!right || k.records > runs[i / 2].records || k.faults != runs[i / 2].faults)
        fail_msg ("`%s`: %s, %zu records, %zu faults", runs[i / 2].lines, br_status_name (status), k.records, k.faults);
      br_number_clear (&k.kept);
    }
  remove ("inner.sheet");
  remove ("outer.sheet");
}

/* A statement that is half done, of which `use` has many, is not the place for another one.  */
static void
ask_record (void *user, const br_record *record)
{
  keeper *k = user;
  br_real three = BR_REAL_ZERO;
  br_error error = { .status = BR_OK };
  (void) record;
  k->records++;
  check_ok (br_real_read (&three, "3", 1, NULL));
  assert_int_equal (br_sheet_run (k->sheet, "z = 1", 5, "test", 1, NULL), BR_DOMAIN);
  assert_int_equal (br_sheet_run_file (k->sheet, "inner.sheet", NULL), BR_DOMAIN);
  assert_int_equal (br_sheet_set (k->sheet, "z", &three, BR_LENGTH, &error), BR_DOMAIN);
  assert_string_equal (error.message, "a sheet takes no lines from its own callbacks");
  br_real_clear (&three);
}

static void
asked_inside (void **state)
{
  keeper k = { .free_at = SIZE_MAX - 1 };
  br_sink sink = { .user = &k, .record = ask_record };
  static const char lines[] = "use inner.sheet\nundo\nredo\nd = 4 in";
  (void) state;
  sheet_put_file ("inner.sheet", "a = 1 in\nb = 2 in\nc = a + b\n");
  check_ok (br_sheet_new (&k.sheet));
  check_ok (br_sheet_run (k.sheet, lines, strlen (lines), "test", 1, &sink));
  assert_true (k.records >= 6);
  assert_int_equal (br_sheet_get (&(br_real) BR_REAL_ZERO, NULL, k.sheet, "z", NULL), BR_DOMAIN);
  check_ok (br_sheet_run (k.sheet, "z = 1", 5, "test", 1, NULL));
  br_sheet_free (k.sheet);
  remove ("inner.sheet");
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (filled), CHECK_TEST (over), CHECK_TEST (apart), CHECK_TEST (freed_inside), CHECK_TEST (asked_inside) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, NULL, NULL));
}
