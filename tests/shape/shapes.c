/* SPDX-License-Identifier: GPL-3.0-or-later
   shapes.c - shapes that follow their formulas.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../sheet/support.h"

static const char *const cart =
  "wheel = 3-1/2\ngap = 5/16\n"
  "circle front = wheel at 0, wheel / 2\n"
  "circle rear = wheel right of front by 10-1/2\n"
  "arc mudguard = fender(front, gap, 1/4) 200 deg\n"
  "box deck = 22-3/4 x 3/4 above mudguard by 1/8 shift 7\n";

static void
shape_is (br_sheet *sheet, const char *name, const char *path, const char *expected)
{
  said s = SAID_ZERO;
  size_t found = 0;
  sheet_say (sheet, &s, "shapes");
  for (size_t i = 0; i < s.count; i++)
    if (strcmp (said_get (&s, i, "name"), name) == 0)
      {
        found++;
        said_is (&s, i, path, expected);
      }
  assert_int_equal (found, 1);
  said_clear (&s);
}

static void
clear_is (br_sheet *sheet, const char *names, const char *expected)
{
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "clear %s", names);
  said_is (&s, 0, "kind", "clear");
  said_is (&s, 0, "exact", expected);
  said_clear (&s);
}

static void
test_follow (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  (void) state;
  shape_is (sheet, "deck", "y", "73/16");       /* 1-3/4 + 1-3/4 + 5/16 + 1/4 + 1/8 + 3/8 */
  shape_is (sheet, "rear", "x", "14");
  clear_is (sheet, "front, rear", "21/2");
  clear_is (sheet, "mudguard, front", "5/16");
  clear_is (sheet, "deck, mudguard", "1/8");
  sheet_say (sheet, &s, "wheel = 4");
  shape_is (sheet, "mudguard", "inner_radius", "37/16");
  shape_is (sheet, "mudguard", "y", "2");
  shape_is (sheet, "deck", "y", "81/16");
  shape_is (sheet, "rear", "x", "29/2");
  sheet_say (sheet, &s, "undo");
  shape_is (sheet, "deck", "y", "73/16");
  sheet_say (sheet, &s, "top(deck) - bottom(front)");
  said_is (&s, 0, "exact", "79/16");
  sheet_say (sheet, &s, "units mm");
  shape_is (sheet, "front", "diameter", "7/2");  /* plain numbers are in the sheet's unit */
  said_clear (&s);
  br_sheet_free (sheet);
}

static void
test_places (void **state)
{
  br_sheet *sheet = sheet_with ("box a = 4 x 2 at 1, 1\nbox b = 2 x 1 on a\nbox c = 2 x 1 on a flush left\n"
                                "box d = 2 x 1 below a by 1/2 flush right shift -1/4\nbox e = 1 x 1 left of a by 1\n"
                                "box f = 1 x 1 right of a flush top\ncircle g = 1 same centre as a\n"
                                "line h = 0, 0 to 3, 4 wide 1/2\n");
  static const struct { const char *name, *x, *y; } rows[] =
  {
    { "a", "3", "2" }, { "b", "3", "7/2" }, { "c", "2", "7/2" }, { "d", "15/4", "0" }, { "e", "-1/2", "2" },
    { "f", "11/2", "5/2" }, { "g", "3", "2" }, { "h", "3/2", "2" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      shape_is (sheet, rows[i].name, "x", rows[i].x);
      shape_is (sheet, rows[i].name, "y", rows[i].y);
    }
  br_sheet_free (sheet);
}

static void
test_missing (void **state)
{
  br_sheet *sheet = sheet_with ("circle front = wheel at 0, 0\nbox deck = 10 x 1 above fork\nbox lid = 2 x 1\n"
                                "check clear(front, deck) >= 1/4\n");
  said s = SAID_ZERO;
  (void) state;
  shape_is (sheet, "front", "state", "waiting");
  shape_is (sheet, "front", "waiting.0", "wheel");
  shape_is (sheet, "deck", "waiting.0", "shape fork");
  shape_is (sheet, "lid", "waiting.0", "a place");
  sheet_say (sheet, &s, "missing");
  assert_int_equal (s.count, 3);
  said_is (&s, 0, "name", "wheel");
  said_is (&s, 0, "needed_by.0", "shape front");
  said_is (&s, 1, "name", "a place for shape lid");
  said_is (&s, 2, "name", "shape fork");
  assert_int_equal (br_sheet_waiting (sheet), 0);       /* no dimension waits */
  sheet_say (sheet, &s, "wheel = 3");
  sheet_say (sheet, &s, "circle fork = 2 at 0, 4");
  assert_int_equal (said_first (&s, "check"), 1);       /* it is told as soon as it can be */
  said_is (&s, 1, "state", "pass");
  sheet_say (sheet, &s, "box lid = 2 x 1 at 0, 0");
  sheet_say (sheet, &s, "missing");
  said_is (&s, 0, "kind", "remark");
  said_clear (&s);
  br_sheet_free (sheet);
}

/* A shape that is not there is told once, with everyone who needs it: by one of its numbers, by several, or
   by a distance that is asked for; in whatever order they were typed.  */
static void
test_missing_shape_once (void **state)
{
  static const char *const orders[] =
    { "check clear(rim, gapck) >= 0\nbox deck = 10 x 1 above rim\nh = top(rim) + clear(rim, deck)\ncheck top(rim) > h\n",
      "check top(rim) > h\nh = top(rim) + clear(rim, deck)\nbox deck = 10 x 1 above rim\ncheck clear(rim, gapck) >= 0\n" };
  static const char *const needing[] =
    { "check clear(rim, gapck) >= 0", "shape deck", "h", "check top(rim) > h" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (orders); i++)
    {
      br_sheet *sheet = sheet_with (orders[i]);
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "missing");
      assert_int_equal (s.count, 2);
      int rim = strcmp (said_get (&s, 1, "name"), "shape rim") == 0;
      said_is (&s, (size_t) !rim, "name", "shape gapck");
      said_is (&s, (size_t) !rim, "needed_by.0", needing[0]);
      said_is (&s, (size_t) rim, "name", "shape rim");
      for (size_t n = 0; n < CHECK_COUNT (needing); n++)
        {
          size_t found = 0;
          for (char key[20], k = 0; k < (int) CHECK_COUNT (needing); k++)
            {
              snprintf (key, sizeof key, "needed_by.%d", k);
              found += strcmp (said_get (&s, (size_t) rim, key), needing[n]) == 0;
            }
          assert_int_equal (found, 1);
        }
      sheet_end (sheet, &s);
    }
}

/* What only the cutting list speaks of is missing, too: dimensions and shapes, once each, with all their pieces.  */
static void
test_missing_for_parts (void **state)
{
  static const char *const rows[][3] =
    { { "wide", "depth", "stock ply" }, { "shape k", "h", "part z" }, { "len", "part side", "part lid" },
      { "n", "part side", "" }, { "shape j", "part z", "" }, { "shape rim", "part z", "" } };
  br_sheet *sheet = sheet_with ("stock ply = 3/4 x wide x 96 in\npart side = len x 3 in qty n from ply\n"
                                "part lid = len x depth from ply\ndepth = wide + 1\nh = top(k)\n"
                                "part z = top(k) + clear(rim, j) x 3 in\npart gone = q9 x 2\nforget part gone\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "missing");
  assert_int_equal (s.count, CHECK_COUNT (rows));
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      said_is (&s, i, "name", rows[i][0]);
      said_is (&s, i, "needed_by.0", rows[i][1]);
      if (*rows[i][2])
        said_is (&s, i, "needed_by.1", rows[i][2]);
    }
  sheet_say (sheet, &s, "trace wide");
  said_is (&s, 0, "used_by.1", "stock ply");
  sheet_say (sheet, &s, "len = 9");
  sheet_say (sheet, &s, "circle rim = 4 at 0, 0");
  sheet_say (sheet, &s, "missing");
  assert_int_equal (s.count, CHECK_COUNT (rows) - 2);
  sheet_end (sheet, &s);
}

/* `clear` may name a shape, too: its numbers are not distances.  What people are told are never the
   names of hidden numbers.  */
static void
test_hidden_names (void **state)
{
  br_sheet *sheet = sheet_with ("box y = 1 x 2 above clear\nh = top(y) + q\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "missing");
  said_is (&s, 0, "name", "q");
  said_is (&s, 1, "name", "shape clear");
  said_is (&s, 1, "needed_by.0", "shape y");
  sheet_say (sheet, &s, "list");
  said_is (&s, 0, "waiting.0", "shape y");
  said_is (&s, 0, "waiting.1", "q");
  sheet_say (sheet, &s, "trace h");
  said_is (&s, 0, "uses.0", "shape y");
  said_is (&s, 0, "uses.1", "q");
  sheet_end (sheet, &s);
}

static void
test_undo_and_forget (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "check clear(front, mudguard) >= 1/4");
  sheet_say (sheet, &s, "circle front = 4 at 1, 2");
  shape_is (sheet, "mudguard", "x", "1");
  sheet_say (sheet, &s, "undo");
  shape_is (sheet, "mudguard", "x", "0");
  sheet_say (sheet, &s, "redo");
  shape_is (sheet, "front", "diameter", "4");
  sheet_say (sheet, &s, "undo");
  sheet_say (sheet, &s, "forget shape front");
  shape_is (sheet, "mudguard", "state", "waiting");
  assert_int_equal (br_sheet_failing (sheet), 0);
  sheet_say (sheet, &s, "undo");
  clear_is (sheet, "front, mudguard", "5/16");
  sheet_say (sheet, &s, "gap = 1/8");
  assert_int_equal (br_sheet_failing (sheet), 1);
  said_clear (&s);
  br_sheet_free (sheet);
}

#define A10 "aaaaaaaaaa"
#define A100 A10 A10 A10 A10 A10 A10 A10 A10 A10 A10

/* A wrong line: a part of its message, the place, and the sheet stays as it was.  */
static void
test_wrong (void **state)
{
  static const struct { const char *line, *message; size_t offset; } rows[] =
  {
    { "circle a = 0 at 0, 0", "must be over zero", 11 },
    { "circle a = 3 sq in at 0, 0", "is an area, not a length", 11 },
    { "circle a = 3 at 0", "a comma", 17 },
    { "box a = 3 at 0, 0", "`x` and the next size", 10 },
    { "box a = 3 x 2 on a", "a loop", 0 },
    { "box a = 3 x 2 at 0, 0 on front", "has its place already", 22 },
    { "box a = 3 x 2 on front flush top", "`left` or `right`", 29 },
    { "arc a = fender(deck, 1/4, 1/4)", "is none", 0 },
    { "arc a = fender(front, -2, 1/4)", "has no radius", 22 },
    { "arc a = bend(3, 1/4) 400 deg at 0, 0", "up to 360", 21 },
    { "line a = 0, 0 to 0, 0", "from one point to another", 0 },
    { "clear front, frint", "there is no shape called `frint`", 6 },
    { "clear front", "a comma and another shape", 11 },
    { "clear(front)", "two shapes", 5 },
    { "clear front, " A100 A100 "a", "there is no shape", 6 },
    { "box " A100 A100 "a = 1 x 1 at 0, 0", "more than 200 bytes", 4 },
    { "wheel = -1", "shape front", 0 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (cart);
      said s = SAID_ZERO;
      assert_int_not_equal (sheet_run (sheet, &s, rows[i].line), BR_OK);
      assert_int_equal (s.fault_count, 1);
      if (!strstr (s.faults[0].error.message, rows[i].message)
          || (rows[i].offset && s.faults[0].error.offset != rows[i].offset))
        fail_msg ("%s: %zu: %s", rows[i].line, s.faults[0].error.offset, s.faults[0].error.message);
      shape_is (sheet, "deck", "y", "73/16");
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

/* A corner that lies on the edge at an irrational angle: touching is not told from overlapping, and nothing is
   missing.  */
static void
test_undecided (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("a = 50*sqrt 2 * 1 deg\nbox d = 2 x 2 at 2*cos(a), 2*sin(a)\n"
                                "arc m = bend(2, 1/4) 90 deg from a at 0, 0\ngap = clear(m, d) + gone - gone\n");
  (void) state;
  sheet_say (sheet, &s, "check clear(m, d) >= 1/8");
  said_is (&s, 0, "state", "undecided");
  assert_int_equal (br_sheet_failing (sheet), 1);
  sheet_say (sheet, &s, "check gap >= 0");
  said_is (&s, 0, "state", "waiting");
  sheet_say (sheet, &s, "gone = 1");
  sheet_say (sheet, &s, "check");
  said_is (&s, 1, "state", "undecided");
  assert_int_equal (br_sheet_failing (sheet), 2);
  assert_int_equal (sheet_run (sheet, &s, "clear m, d"), BR_UNDECIDED);
  said_clear (&s);
  br_sheet_free (sheet);
}

/* Each overlap is as deep as the push that frees the two: afterwards they touch.  */
static void
test_overlap (void **state)
{
  static const struct { const char *a, *b, *value; } rows[] =
  {
    { "box a = 4 x 2 at 0, 0", "box b = 4 x 2 at 3, 1/2", "-1" },
    { "box a = 4 x 2 at 0, 0", "circle b = 2 at 2, 5/2", "-1/2" },
    { "box a = 4 x 2 at 0, 0", "circle b = 1 at 2, 3/2", "-1" },
    { "circle a = 2 at 0, 0", "circle b = 2 at 3/2, 2", "1/2" },
    { "circle a = 2 at 0, 0", "circle b = 2 at 0, 0", "-2" },
    { "line a = 0, 0 to 4, 0", "line b = 2, -1 to 2, 3", "-1" },
    { "line a = 0, 0 to 4, 0", "line b = 6, 0 to 8, 0", "2" },
    { "line a = 0, 0 to 3, 4 wide 1", "circle b = 2 at 3, 0", "9/10" },
    { "arc a = bend(2, 1) 180 deg at 0, 0", "box b = 1 x 1 at -1/2, 23/8", "-1/8" },
    { "arc a = bend(2, 1) 180 deg at 0, 0", "box b = 1 x 1 at -1/2, 0", NULL },
    { "arc a = bend(2, 1) 180 deg at 0, 0", "arc b = bend(4, 1) 90 deg at 0, 0", "1" },
    { "arc a = bend(2, 1) 180 deg at 0, 0", "circle b = 1 at 0, -4", NULL },
    /* Curves of no width; ends that lie on a common line; edges that run together for a while.  */
    { "arc a = bend(2, 0) 180 deg at 0, 0", "line b = 0, 0 to 0, 2", "0" },
    { "arc a = bend(2, 0) 180 deg at 0, 0", "line b = 0, 0 to 0, 1", "1" },
    { "arc a = bend(2, 0) 180 deg from 0 deg at 0, 0", "arc b = bend(2, 0) 180 deg from 180 deg at 4, 0", "0" },
    { "arc a = bend(2, 1) 200 deg from 0 deg at 0, 0", "arc b = bend(2, 1) 200 deg from 160 deg at 6, 0", "0" },
    { "arc a = bend(4, 1) 10 deg from 0 deg at 0, 0", "arc b = bend(4, 1) 10 deg from 0 deg at 1/2, 0", "overlap" },
    { "arc a = bend(4, 1) 10 deg from 0 deg at 0, 0", "arc b = bend(4, 1) 10 deg from -10 deg at 1/2, 0", "0" },
    { "arc a = bend(2, 1) 170 deg from 10 deg at 0, 0", "box b = 2 x 1 at 3, 0", NULL },
    { "arc a = bend(4, 1) 90 deg from 0 deg at 0, 0", "box b = 1 x 4 at 4, -4", "0" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (rows[i].a);
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "%s", rows[i].b);
      sheet_say (sheet, &s, "clear a, b");
      int overlap = rows[i].value && strcmp (rows[i].value, "overlap") == 0;
      if (rows[i].value && !overlap)
        said_is (&s, 0, "exact", rows[i].value);
      else
        said_is (&s, 0, "overlap", overlap ? "true" : "false");
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

/* Short of memory at any point of a line, it is told so, and nothing is lost of what was taken.  */
static void
test_refused (void **state)
{
  br_status status = BR_NO_MEMORY;
  (void) state;
  for (long n = 0; status != BR_OK; n++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = NULL;
      check_memory_limit (-1);
      check_ok (br_sheet_new (&sheet));
      sheet_say (sheet, &s, "%s", cart);
      sheet_say (sheet, &s, "check clear(front, mudguard) >= 1/4");
      check_memory_left = n;
      check_memory_refused = 0;
      status = sheet_run (sheet, &s, "circle front = 4 at 1, 2");
      int refused = check_memory_refused;
      check_memory_left = -1;
      assert_int_equal (status, refused ? BR_NO_MEMORY : BR_OK);
      sheet_say (sheet, &s, "wheel = 5");
      said_clear (&s);
      br_sheet_free (sheet);
      assert_int_equal (check_memory_blocks, 0);
      check_memory_free ();
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_follow), CHECK_TEST (test_places), CHECK_TEST (test_missing),
    CHECK_TEST (test_missing_shape_once), CHECK_TEST (test_missing_for_parts), CHECK_TEST (test_hidden_names),
    CHECK_TEST (test_undo_and_forget), CHECK_TEST (test_wrong), CHECK_TEST (test_undecided), CHECK_TEST (test_overlap), CHECK_TEST (test_refused)
  };
  return CHECK_RUN (tests);
}
