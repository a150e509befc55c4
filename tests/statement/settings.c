/* SPDX-License-Identifier: GPL-3.0-or-later
   settings.c - a saved sheet has one line for each setting, however often it was given, and opens as the same sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "sheet/samples.h"

/* Three lines for each setting: numbers with units and without, some in squares of the grid.  */
static const char *const lines[][3] = {
  { "units mm", "units ft", "units in" },
  { "ruler 0.5", "ruler 1/8 in", "ruler 1 box" },
  { "scale 41 mm = 3 in", "scale 1 box = 1 ft", "scale 1:8" },
  { "grid 5 mm", "grid 0.3", "grid 7/16 in  # squares" },
  { "kerf 1/8", "kerf 3 mm", "kerf 1/2 box" },
  { "blade 1/4", "blade 6 mm", "blade 1 box" },
  { "child 3 years", "child none", "child 18 months  # younger" },
  { "paper a3 margin 7", "paper letter", "paper a4 margin 1/2 box" },
  { "ties up", "ties even", "ties down" },
  { "feet on", "feet off", "feet on" },
  { "projection first", "projection third", "projection first" },
  { "title Market cart", "title Market cart, second plan  # better", "title Stall" },
  { "date May", "date June", "date July" },
  { "datum 1, 2", "datum a, 3 in", "datum 2 boxes, a" },
};

static const char *const others[] =
  { "a = 3 boxes", "a = 2.3 in + 1", "check a < 9 in", "b = a * 2 +- 1/16", "undo", "part side = 9 x 2", "# a remark" };

/* What SHEET is set to and has, and rounds to.  To be freed.  */
static char *
state_of (br_sheet *sheet)
{
  const br__statement *st;
  char *text = NULL;
  size_t size;
  said s = SAID_ZERO;
  FILE *out = open_memstream (&text, &size);
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    if (st->setting)
      {
        sheet_say (sheet, &s, "%s", st->word);
        samples_write (out, &s);
      }
  sheet_run (sheet, &s, "list\nparts\ncheck\nround 1.37 in, 1.37");
  samples_write (out, &s);
  fclose (out);
  said_clear (&s);
  return text;
}

static size_t
count_lines (const char *text, const char *word)
{
  size_t count = 0, length = strlen (word);
  for (const char *at = text; *at; at = strchr (at, '\n') + 1)
    count += strncmp (at, word, length) == 0 && (at[length] == ' ' || at[length] == '\n');
  return count;
}

static void
same_state (char *before, char *after, const char *text)
{
  size_t at = 0;
  while (before[at] && before[at] == after[at])
    at++;
  if (before[at] || after[at])
    fail_msg ("saved as\n%s\nit was ...%.80s\nand is ...%.80s", text, before + at - (at > 40 ? 40 : at), after + at - (at > 40 ? 40 : at));
  free (before);
  free (after);
}

/* Saved as TEXT, SHEET opens as what it is, and each setting has no more than one line.  */
static void
opens_the_same (br_sheet *sheet, const char *text)
{
  said s = SAID_ZERO;
  br_sheet *again = sheet_with ("");
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    {
      char word[16] = "";
      memcpy (word, lines[i][0], strcspn (lines[i][0], " "));
      if (count_lines (text, word) > 1)
        fail_msg ("`%s` stands more than once in\n%s", word, text);
    }
  sheet_put_file ("settings.sheet", text);
  sheet_say (again, &s, "open settings.sheet");
  char *before = state_of (sheet), *after = state_of (again);
  same_state (before, after, text);
  sheet_end (again, &s);
}

/* Every setting of the table of statements has lines here.  */
static void
table (void **state)
{
  const br__statement *st;
  (void) state;
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    {
      size_t k = 0;
      while (st->setting && k < CHECK_COUNT (lines) && !br__same_word (lines[k][0], strcspn (lines[k][0], " "), st->word))
        k++;
      if (st->setting && k == CHECK_COUNT (lines))
        fail_msg ("no lines for the setting `%s`", st->word);
    }
  for (size_t k = 0; k < CHECK_COUNT (lines); k++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("grid 1/4\na = 2 in");
      for (size_t i = 0; i < 3; i++)
        sheet_say (sheet, &s, "%s", lines[k][i]);
      char *text = sheet_text (sheet);
      opens_the_same (sheet, text);
      free (text);
      sheet_end (sheet, &s);
    }
}

/* In any order, with sizes that need the grid between them.  Lines that are refused where they stand are left out.  */
static void
in_any_order (void **state)
{
  (void) state;
  for (long n = check_times (20); n > 0; n--)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("");
      for (size_t i = 2 + check_below (20); i > 0; i--)
        {
          size_t other = check_below (3), row = check_below (CHECK_COUNT (lines)), which = check_below (3);
          size_t line = check_below (CHECK_COUNT (others));
          sheet_run (sheet, &s, other ? lines[row][which] : others[line]);
        }
      char *text = sheet_text (sheet);
      opens_the_same (sheet, text);
      free (text);
      sheet_end (sheet, &s);
    }
}

typedef struct saved
{
  const char *file, *typed;     /* the sheet that is opened, and what is typed then */
  const char *text;             /* what is saved; lines parted by " | " */
} saved;

/* What a file tells between two lines of a setting would be told otherwise without the first; so would the settings of
   another sheet.  The note of a setting stays, as that of a dimension does; what `undo` in a file took back stays away.  */
static void
by_hand (void **state)
{
  static const saved rows[] = {
    { "units mm | grid 5  # squares | units in", "grid", "grid 5 mm  # squares | units in | " },
    { "units mm | round 5 | units in", "kerf 1/8", "units mm | round 5 | units in | kerf 1/8 | " },
    { "units mm | round 5", "units in", "round 5 | units in | " },
    { "kerf 1/8  # thin | kerf 3 mm", "paper a4", "kerf 3 mm  # thin | paper a4 | " },
    { "units mm | ruler 8", "units in\nties up", "units mm | ruler 8 | units in | ties up | " },
    { "ruler 1/8 | units cm", "units mm", "ruler 1/8 | units mm | " },
    { "units mm | units in | undo | a = 3 in", "ties up", "units mm | # undo | a = 3 in | ties up | " },
    { "units cm | use metric.sheet | units in", "ties up", "units cm | use metric.sheet | units in | ties up | " },
    { "use metric.sheet | kerf 1/8 in | kerf 1/4 in", "ties up", "use metric.sheet | kerf 1/4 in | ties up | " },
    { "use metric.sheet | units cm", "units in", "use metric.sheet | units cm | units in | " },
    { "c = 3 | forget c | d = 5", "e = 1", "# forget c | d = 5 | e = 1 | " },
    { "circle c = 3 at 0, 0 | a = 1 | forget c, a", "e = 1", "# forget c, a | e = 1 | " },
    { "a = 3 | undo | undo | redo | redo", "e = 1", "a = 3 | # undo | # undo | # redo | # redo | e = 1 | " },
    { "known b | b = 1", "e = 1", "known b | b = 1 | e = 1 | " },
    { "a = 1 | known a | forget a", "e = 1", "known a | # forget a | e = 1 | " },
    { "use metric.sheet | grid 1/8 in", "grid 1/4 in", "use metric.sheet | grid 1/4 in | " },
  };
  (void) state;
  sheet_put_file ("metric.sheet", "units mm\ngrid 4\n");
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("");
      char file[256], expected[256], kept[512];
      snprintf (file, sizeof file, "%s", rows[i].file);
      snprintf (expected, sizeof expected, "%s", rows[i].text);
      sheet_lines (file);
      sheet_lines (expected);
      strcat (file, "\n");
      sheet_put_file ("given.sheet", file);
      sheet_run (sheet, &s, "open given.sheet");
      sheet_say (sheet, &s, "%s", rows[i].typed);
      char *before = state_of (sheet);
      sheet_say (sheet, &s, "save over kept.sheet");
      FILE *in = fopen ("kept.sheet", "r");
      assert_non_null (in);
      kept[fread (kept, 1, sizeof kept - 1, in)] = 0;
      fclose (in);
      assert_string_equal (kept, expected);
      sheet_say (sheet, &s, "open kept.sheet");
      char *after = state_of (sheet);
      same_state (before, after, kept);
      sheet_end (sheet, &s);
    }
}

static void
without_memory (void **state)
{
  said s = SAID_ZERO;
  br_status status = BR_OK;
  br_sheet *sheet = sheet_with ("units mm\ngrid 5  # squares\nunits in\ngrid 6\npaper a4 margin 3\npaper letter");
  (void) state;
  for (long nth = 0; nth < 1000; nth++)
    {
      check_memory_limit (nth);
      status = br_sheet_write (sheet, "settings.sheet", NULL);
      int refused = check_memory_refused;
      check_memory_free ();
      if (!refused)
        break;
      assert_int_equal (status, BR_NO_MEMORY);
    }
  check_ok (status);
  sheet_end (sheet, &s);
}

static char folder[] = "/tmp/benchrule-settings-XXXXXX";

static int
start (void **state)
{
  (void) state;
  return !mkdtemp (folder) || chdir (folder) != 0;
}

static int
end (void **state)
{
  static const char *const made[] = { "settings.sheet", "metric.sheet", "given.sheet", "kept.sheet" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (made); i++)
    unlink (made[i]);
  return chdir ("/") != 0 || rmdir (folder) != 0;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (table),
    CHECK_TEST (in_any_order),
    CHECK_TEST (by_hand),
    CHECK_TEST (without_memory),
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, start, end));
}
