/* SPDX-License-Identifier: GPL-3.0-or-later
   names.c - what a sheet owes to its names: it can be undone to any depth, a wrong line leaves it as it
   was, checks and what waits are counted.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <unistd.h>

#include "measure/measure.h"
#include "support.h"

/* All that a sheet says of itself, as one text to be freed.  In which order the users of a name are told
   is left open.  */
static char *
picture (br_sheet *sheet)
{
  said s = SAID_ZERO;
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  sheet_say (sheet, &s, "%s", "list\nmissing\ncheck\nunits\nruler\nscale\ngrid\nkerf\nties\nfeet\ntitle");
  for (size_t i = 0; i < s.count; i++)
    for (const char *at = s.records[i].pairs, *value; at < s.records[i].pairs + s.records[i].size;
         at = value + strlen (value) + 1)
      {
        value = at + strlen (at) + 1;
        if (strncmp (at, "needed_by.", 10) != 0 || strcmp (at, "needed_by.count") == 0)
          fprintf (out, "%s=%s\n", at, value);
      }
  fprintf (out, "failing %zu waiting %zu\n", br_sheet_failing (sheet), br_sheet_waiting (sheet));
  fclose (out);
  said_clear (&s);
  return text;
}

/* Asserts that both pictures are one, and shows where they part.  */
static void
same_picture (const char *now, const char *was, const char *what)
{
  size_t i = 0;
  while (now[i] && now[i] == was[i])
    i++;
  if (now[i] || was[i])
    {
      size_t start = i > 150 ? i - 150 : 0;
      fail_msg ("%s: the sheet is\n...%.300s\nwhere it was\n...%.300s", what, now + start, was + start);
    }
}

static const char cart[] =
  "title Market cart\n"
  "ruler 1/16\n"
  "scale 1:4\n"
  "grid 1/4 in\n"
  "wheel = 3-1/2 in +- 1/32 in  # bought\n"
  "wheelbase = 14 in\n"
  "front = wheelbase - wheel  # daylight\n"
  "handle = 2 * reach\n"
  "check front >= 10 in  # the crate sits here\n"
  "check wheel <= 3 in  # fits the arch\n"
  "check reach < 30 in\n";

/* Wrong in every statement, each for a reason of its own.  */
static void
wrong_lines_change_nothing (void **state)
{
  static const char *const wrong[] = {
    "wheel = front", "wheel = wheelbase - front - handle * wheel", "front = 2..5", "wheel = 4 in +- -1",
    "reach = handle / 2", "wheelbase = 1/0", "forget nothing", "forget wheel, nothing", "forget wheel wheelbase",
    "forget front, wheel,", "undo 3", "ruler 0", "ruler 1/8 1/4", "scale 0:2", "scale 1:2 3", "units mm cm",
    "grid 1/4 in 3", "kerf -1", "ties up down", "feet on off", "check 3", "check wheel <= 3 sq in",
    "check wheel < 2 < 3", "new = 3 sq in + wheel", "new = wheel +", "pi = 3", "list = 3", "wheel", "\x01",
    "kerf wheel", "grid 2 * wheel", "blade wheel", "ruler 1 / wheel", "paper a4 margin wheel",
    "tolerance wheel on front", "front = 3 +- wheel", "front = 3 +- 1/8 + 1/8 in", "front = 3 +- 1/2 boxes",
    "wheel = 5 in + 3 sq in", "wheelbase = 3 deg", "round wheel to 0", "front = wheel ^ 100",
  };
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  char *before = picture (sheet), *after;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    {
      br_status status = sheet_run (sheet, &s, wrong[i]);
      if (strcmp (wrong[i], "wheel") != 0 && status == BR_OK)
        fail_msg ("%s was taken", wrong[i]);
      after = picture (sheet);
      same_picture (after, before, wrong[i]);
      free (after);
    }
  free (before);
  sheet_end (sheet, &s);
}

/* After N undos the sheet is what it was N statements ago, and the same forward.  */
static void
undo_to_any_depth (void **state)
{
  enum { MOST = 64 };
  char *pictures[MOST];
  size_t count = 0;
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  char *lines = strdup (cart), *more = strdup (
    "reach = 12 in\nwheel = 3 in\nunits mm\nruler 1/2\nties even\nfeet on\nkerf 1/8 in\n"
    "forget wheel, wheelbase\nwheel = 60 # worn\nwheelbase = 4 * wheel\ntitle Cart\nreach = wheel / 2\n"
    "forget front\nfront = 3\nforget handle");
  (void) state;
  for (int part = 0; part < 2; part++)
    for (char *line = strtok (part ? more : lines, "\n"); line; line = strtok (NULL, "\n"))
      {
        pictures[count++] = picture (sheet);
        sheet_say (sheet, &s, "%s", line);
      }
  pictures[count] = picture (sheet);
  for (size_t i = 0; i < 3 * count; i++)
    {
      size_t at = i < count ? count - 1 - i : i < 2 * count ? i - count + 1 : 3 * count - 1 - i;
      sheet_say (sheet, &s, i < count || i >= 2 * count ? "undo" : "redo");
      char *now = picture (sheet), step[40];
      snprintf (step, sizeof step, "step %zu to state %zu", i, at);
      same_picture (now, pictures[at], step);
      free (now);
    }
  assert_int_equal (sheet_run (sheet, &s, "undo"), BR_DOMAIN);
  for (size_t i = 0; i <= count; i++)
    free (pictures[i]);
  free (lines);
  free (more);
  sheet_end (sheet, &s);
}

/* A new change ends what could be redone.  */
static void
redo_ends (void **state)
{
  br_sheet *sheet = sheet_with ("a = 1\na = 2\na = 3\nundo\nundo\nb = 7");
  said s = SAID_ZERO;
  (void) state;
  assert_int_equal (sheet_run (sheet, &s, "redo"), BR_DOMAIN);
  sheet_say (sheet, &s, "a");
  said_is (&s, 0, "exact", "1");
  sheet_say (sheet, &s, "undo\nundo\nlist");
  said_is (&s, 2, "kind", "remark");
  sheet_end (sheet, &s);
}

static void
checks_are_counted (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "%s", cart);
  assert_int_equal (br_sheet_failing (sheet), 1);   /* wheel <= 3 in */
  assert_int_equal (br_sheet_waiting (sheet), 1);   /* handle; a check that waits is no dimension */
  sheet_say (sheet, &s, "wheelbase = 12 in");
  assert_int_equal (br_sheet_failing (sheet), 2);
  said_is (&s, 1, "kind", "check");
  said_is (&s, 1, "state", "fail");
  said_is (&s, 1, "margin", "-3/2");
  said_is (&s, 1, "note", "the crate sits here");
  sheet_say (sheet, &s, "wheel = 2 in");
  assert_int_equal (br_sheet_failing (sheet), 0);
  sheet_say (sheet, &s, "reach = 31 in");
  assert_int_equal (br_sheet_failing (sheet), 1);
  assert_int_equal (br_sheet_waiting (sheet), 0);
  sheet_say (sheet, &s, "undo\nundo");
  assert_int_equal (br_sheet_failing (sheet), 2);
  sheet_say (sheet, &s, "undo\nundo\nundo");        /* the last check, and the one before, are gone */
  assert_int_equal (br_sheet_failing (sheet), 0);
  sheet_say (sheet, &s, "check");
  assert_int_equal (s.count, 1);
  sheet_say (sheet, &s, "redo");
  assert_int_equal (br_sheet_failing (sheet), 1);
  sheet_end (sheet, &s);
}

/* A check that was undone needs nothing and is used by nothing.  */
static void
undone_checks_need_nothing (void **state)
{
  br_sheet *sheet = sheet_with ("check gap >= 1/4");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "missing");
  said_is (&s, 0, "kind", "missing");
  sheet_say (sheet, &s, "undo\nmissing");
  said_is (&s, 1, "kind", "remark");
  sheet_say (sheet, &s, "gap = 1/8\ntrace gap");
  said_is (&s, 1, "used_by.count", "0");
  assert_int_equal (br_sheet_failing (sheet), 0);
  sheet_end (sheet, &s);
}

/* A check refuses nothing: it only tells.  A change that a formula cannot bear is refused.  */
static void
refused_changes (void **state)
{
  br_sheet *sheet = sheet_with ("a = 2\nb = 1 / a\nc = b + 1\ncheck b > 0");
  said s = SAID_ZERO;
  (void) state;
  assert_int_equal (sheet_run (sheet, &s, "a = 0"), BR_DOMAIN);
  assert_non_null (strstr (s.faults[0].error.message, "`b`"));
  sheet_say (sheet, &s, "a, b, c");
  said_is (&s, 0, "exact", "2");
  said_is (&s, 2, "exact", "3/2");
  sheet_say (sheet, &s, "a = -1");
  assert_int_equal (br_sheet_failing (sheet), 1);
  sheet_say (sheet, &s, "a = 4\nc");
  said_is (&s, s.count - 1, "exact", "5/4");
  sheet_end (sheet, &s);
}

/* Loops of two to a few names are named in their order, each name from the one that it uses.  */
static void
loops_are_named (void **state)
{
  said s = SAID_ZERO;
  (void) state;
  for (int n = 1; n <= 6; n++)
    {
      static const char *const said_so[] = {
        "a loop: a <- a", "a loop: b <- a <- b", "a loop: c <- b <- a <- c", "a loop: d <- c <- b <- a <- d",
        "a loop: e <- d <- c <- b <- a <- e", "a loop: f <- e <- d <- c <- b <- a <- f"
      };
      br_sheet *sheet = sheet_with ("z = 1");
      for (char c = 'b'; c < 'a' + n; c++)      /* a uses the last, b uses a, ... */
        sheet_say (sheet, &s, "%c = %c + z", c - 1, c == 'b' ? 'a' + n - 1 : c - 2);
      char *before = picture (sheet), line[32], *after;
      snprintf (line, sizeof line, "%c = %c * 2", 'a' + n - 1, n == 1 ? 'a' : 'a' + n - 2);
      assert_int_equal (sheet_run (sheet, &s, line), BR_DOMAIN);
      assert_string_equal (s.faults[0].error.message, said_so[n - 1]);
      after = picture (sheet);
      assert_string_equal (before, after);
      free (before);
      free (after);
      br_sheet_free (sheet);
    }
  said_clear (&s);
}

/* Runs TEXT from a file, which is gone afterwards.  */
static br_status
run_file (br_sheet *sheet, said *s, const char *text)
{
  char path[] = "/tmp/benchrule-names-XXXXXX";
  br_sink sink = { .user = s, .record = said_take_record, .fault = said_take_fault };
  int file = mkstemp (path);
  assert_true (file >= 0);
  assert_int_equal (write (file, text, strlen (text)), strlen (text));
  close (file);
  br_status status = br_sheet_run_file (sheet, path, &sink);
  unlink (path);
  for (size_t i = 0; i < s->fault_count; i++)
    assert_string_equal (s->faults[i].file, path);
  return status;
}

/* A sheet in a file may set a name twice, in any order with its users; `forget` takes both.  */
static void
names_twice_in_a_file (void **state)
{
  static const char text[] = "b = a * 2\r\na = 3\r\na = 4\r\n\r\n# a remark\r\nwrong line here\r\nc = b\r\n";
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  assert_int_equal (run_file (sheet, &s, text), BR_SYNTAX);
  assert_int_equal (s.fault_count, 1);
  assert_int_equal (s.faults[0].line, 6);
  sheet_say (sheet, &s, "list\nc");
  assert_int_equal (s.count, 4);
  said_is (&s, 3, "exact", "8");
  sheet_say (sheet, &s, "forget a\nlist");
  assert_int_equal (s.count, 3);
  sheet_say (sheet, &s, "undo\nlist");
  assert_int_equal (s.count, 4);
  sheet_end (sheet, &s);
}

/* Lines of a file that change nothing are no steps to be undone.  */
static void
undo_in_a_file (void **state)
{
  static const char text[] = "# a remark\na = 1\n\na = 2\na = 3\na\nundo\nundo\na\nredo\na\n# the end\n\n";
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  check_ok (run_file (sheet, &s, text));
  assert_int_equal (s.count, 9);
  said_is (&s, 3, "exact", "3");
  said_is (&s, 6, "exact", "1");
  said_is (&s, 8, "exact", "2");
  /* What was opened is taken back whole.  */
  sheet_say (sheet, &s, "undo\nlist");
  said_is (&s, 1, "kind", "remark");
  sheet_say (sheet, &s, "redo\na");
  said_is (&s, 1, "exact", "2");
  sheet_end (sheet, &s);
}

/* A line that is given anew stands where it was, but behind the setting that it needs: the sheet that was
   saved opens as what it was, and undone it is as it was before.  */
static void
line_behind_its_setting (void **state)
{
  static const struct { const char *lines, *saved; } rows[] = {
    { "a = 3  # wide\nb = 4\ngrid 1/4 in\na = 2 boxes", "b = 4\ngrid 1/4 in\na = 2 boxes  # wide\n" },
    { "a = 3\nb = 4\ngrid 1/4 in\na = in_boxes(b) +- 1/8", "b = 4\ngrid 1/4 in\na = in_boxes(b) +- 1/8\n" },
    { "grid 1/4 in\na = 1 box\nb = 4\na = 2 boxes", "grid 1/4 in\na = 2 boxes\nb = 4\n" },
    { "a = 1\ngrid 1/4 in\na = 3", "a = 3\ngrid 1/4 in\n" },
    /* What it keeps reads back behind every word that may end it.  */
    { "a = 2 +- 1/32\na = 3 known", "a = 3 known +- 1/32\n" },
    { "a = 2 +- 1/32  # old\na = 3 mm known", "a = 3 mm known +- 1/32  # old\n" },
    { "a = 2 +- 1/32\na = b / 2 known # new", "a = b / 2 known +- 1/32  # new\n" },
    { "a = 2 +- 1/32\na = 3 known +- 1/8", "a = 3 known +- 1/8\n" },
    { "a = 2 known +- 1/32\ngiven a from 2 to 4 by 1/4", "given a from 2 to 4 by 1/4 +- 1/32\n" },
  };
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      const char *last = strrchr (rows[i].lines, '\n') + 1;
      br_sheet *sheet = sheet_with (""), *other = sheet_with ("");
      sheet_say (sheet, &s, "%.*s", (int) (last - rows[i].lines), rows[i].lines);
      char *before = picture (sheet);
      sheet_say (sheet, &s, "%s", last);
      char *after = picture (sheet);
      char *text = sheet_text (sheet);
      assert_string_equal (text, rows[i].saved);
      check_ok (run_file (other, &s, text));
      char *opened = picture (other);
      same_picture (opened, after, rows[i].lines);
      sheet_say (sheet, &s, "undo");
      char *undone = picture (sheet);
      same_picture (undone, before, rows[i].lines);
      free (text), free (before), free (after), free (opened), free (undone);
      br_sheet_free (other);
      sheet_end (sheet, &s);
    }
}

/* A line that would be too long with the note that it keeps is refused, as it could not be opened again.  */
static void
long_note (void **state)
{
  enum { HALF = BR_MAX_LINE / 2 };
  static char text[BR_MAX_LINE];
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  strcpy (text, "a = 3  # ");
  memset (text + strlen (text), 'x', HALF);
  check_ok (sheet_run (sheet, &s, text));
  memset (text, 0, sizeof text);
  strcpy (text, "a = 4");
  for (size_t at = strlen (text); at < HALF; at += 2)
    memcpy (text + at, "+1", 2);
  char *before = picture (sheet);
  assert_int_equal (sheet_run (sheet, &s, text), BR_TOO_BIG);
  assert_non_null (strstr (s.faults[0].error.message, "with the note that it has"));
  char *after = picture (sheet);
  same_picture (after, before, "a line that is too long");
  sheet_say (sheet, &s, "a = 4");
  strcat (text, "  # short");
  check_ok (sheet_run (sheet, &s, text));
  free (before), free (after);
  sheet_end (sheet, &s);
}

/* Where a long name is cut in a message, a letter of several bytes is there whole or not at all.  */
static void
cut_between_letters (void **state)
{
  static const char *const lines[] = {
    "@", "@(3)", "1 + @", "x = @ + 1\nx", "forget @", "@ @", "3 @", "help @", "kerf 1 @", "round @ to 1/8",
    "part p = 3 x 4 from @\nparts", "forget part @", "draw of @", "shape a = circle 3\nplace a on @", "open @",
    "@ = 1\n@ = @", "@ = 1\nw = 1 / @\n@ = 0", "round column @ of none.csv to 1/8", "worksheet @ 3 into a.txt",
    "key @", "grade @ with @ into x.csv", "@ = 2 deg\ntolerance 1 in on @\nstack @", "find @ for 1 = 1", "cuts of @",
  };
  said s = SAID_ZERO;
  size_t cut = 0;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    for (size_t length = 17; length < 70; length++)
      {
        br_sheet *sheet = sheet_with ("");
        char name[4 * 70] = "", text[2000] = "";
        for (size_t k = 0; k < length; k++)
          strcat (name, k % 7 == 2 ? "a" : k % 3 == 0 ? "\xc3\xa9" : "\xe3\x83\x90");
        for (const char *at = lines[i]; *at; at++)
          strncat (text, *at == '@' ? name : at, *at == '@' ? sizeof name : 1);
        sheet_run (sheet, &s, text);
        for (size_t k = 0; k < s.fault_count; k++)
          {
            const char *words[] = { s.faults[k].error.message, s.faults[k].error.hint };
            for (size_t m = 0; m < 2; m++)
              for (size_t at = 0, all = strlen (words[m]); at < all; )
                {
                  br__glyph g = br__glyph_at (words[m], all, at);
                  if (g.kind == BR__GLYPH_BROKEN)
                    fail_msg ("`%s`: broken at %zu: %s", text, at, words[m]);
                  at += g.length;
                }
            cut += strstr (words[0], "\xe3\x83\x90") && !strstr (words[0], name);
          }
        sheet_end (sheet, &s);
      }
  assert_true (cut > 300);
}

/* A stock that is nearly called so is offered.  */
static void
near_stocks (void **state)
{
  br_sheet *sheet = sheet_with ("stock pine = 3/4 x 5 x 48\npart slat = 5 x 3 from pime");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "parts");
  said_is (&s, 0, "rows.0.problem", "there is no stock called `pime`; did you mean `pine`?");
  sheet_end (sheet, &s);
}

/* A new name that is one slip away from another is pointed out; another word, one that is set again, and what a file holds are not.  */
static void
slips (void **state)
{
  static const struct { const char *line, *beside; } rows[] = {
    { "baord = 1", "board" }, { "boarrd = 1", "board" }, { "deck_lenght = 1", "deck_length" }, { "deck_legth = 1", "deck_length" },
    { "deck__length = 1", NULL }, { "boards = 1", NULL }, { "bord = 1", NULL }, { "bored = 1", NULL }, { "board = 1", NULL }, { "aboard = 1", NULL },
    { "deck_length2 = 1", NULL }, { "length = 1", NULL }, { "wd = 1", NULL } };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with ("board = 3/4\ndeck_length = 22\ndw = 3");
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "%s", rows[i].line);
      const char *words = said_get (&s, said_first (&s, "set"), "message");
      if (rows[i].beside ? !words || !strstr (words, rows[i].beside) : words && *words && strcmp (words, "null") != 0)
        fail_msg ("`%s`: %s", rows[i].line, words ? words : "nothing");
      said_clear (&s);
      sheet_say (sheet, &s, "%s", rows[i].line);
      said_is (&s, 0, "message", "null");
      sheet_end (sheet, &s);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (wrong_lines_change_nothing),
    CHECK_TEST (undo_to_any_depth),
    CHECK_TEST (near_stocks), CHECK_TEST (slips), CHECK_TEST (redo_ends),
    CHECK_TEST (checks_are_counted),
    CHECK_TEST (undone_checks_need_nothing),
    CHECK_TEST (refused_changes),
    CHECK_TEST (loops_are_named),
    CHECK_TEST (names_twice_in_a_file),
    CHECK_TEST (undo_in_a_file), CHECK_TEST (line_behind_its_setting), CHECK_TEST (cut_between_letters), CHECK_TEST (long_note),
  };
  return CHECK_RUN (tests);
}
