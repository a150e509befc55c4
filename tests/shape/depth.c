/* SPDX-License-Identifier: GPL-3.0-or-later
   depth.c - how deep shapes are, what passes at another depth, and what takes up the same room.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../sheet/support.h"

/* Field KEY of the shape NAME.  */
static void
shape_is (br_sheet *sheet, const char *name, const char *key, const char *expected)
{
  said s = SAID_ZERO;
  size_t i = 0;
  sheet_say (sheet, &s, "shapes");
  while (i < s.count && strcmp (said_get (&s, i, "name"), name) != 0)
    i++;
  said_is (&s, i, key, expected);
  said_clear (&s);
}

/* Where each clause puts a shape: 0 is the middle, and depth grows toward whoever looks at the side.  */
static void
test_places (void **state)
{
  static const struct { const char *line, *deep, *from, *to, *both; } rows[] =
  {
    { "box a = 4 x 2 at 0, 0 deep 3", "3", "-3/2", "3/2", "false" },
    { "box a = 4 x 2 at 0, 0 deep 3 centred", "3", "-3/2", "3/2", "false" },
    { "box a = 4 x 2 at 0, 0 deep 3 centered layer wood", "3", "-3/2", "3/2", "false" },
    { "box a = 4 x 2 at 0, 0 deep 3 from 1", "3", "1", "4", "false" },
    { "box a = 4 x 2 deep 3 from -h / 2 at 0, 0", "3", "-1", "2", "false" },
    { "circle a = 4 deep 3/4 in both sides 7 in at 0, 0", "3/4", "11/4", "7/2", "true" },
    { "circle a = 4 at 0, 0 deep 3/4 both sides between 5", "3/4", "5/2", "13/4", "true" },
    { "circle a = 4 at 0, 0 deep 3/4 both sides 5 between of wheel", "3/4", "5/2", "13/4", "true" },
    { "circle a = 4 at 0, 0 deep 3 both sides 6", "3", "0", "3", "true" },
    { "circle a = 4 at 0, 0 deep h both sides between 0", "2", "0", "2", "true" },
    { "arc a = bend(3, 1) 90 deg from 10 deg deep 25.4 mm from 1 at 0, 0", "1", "1", "2", "false" },
    { "arc a = bend(3, 1) 90 deg deep 1 from 2 from 10 deg at 0, 0", "1", "2", "3", "false" },
    { "arc a = bend(3, 1) 90 deg deep 1 centred from 10 deg at 0, 0", "1", "-1/2", "1/2", "false" },
    { "line a = 0, 0 to 3, 4 deep 2 wide 1", "2", "-1", "1", "false" },
    { "outline a = 0, 0 to 3, 0 to 3, 3 deep 2 at 1, 1", "2", "-1", "1", "false" },
    { "circle a = 1 at 0, 0 hole deep 2", "2", "-1", "1", "false" },
    { "box a = 4 x 2 at 0, 0", "null", "null", "null", "null" },
    { "box a = 4 x 2 at 0, 0 deep q", "null", "null", "null", "false" },
    { "box a = 4 x 2 at 0, 0 deep 1 from q", "1", "null", "null", "false" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with ("h = 2\n");
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "%s", rows[i].line);
      shape_is (sheet, "a", "deep", rows[i].deep);
      shape_is (sheet, "a", "depth_from", rows[i].from);
      shape_is (sheet, "a", "depth_to", rows[i].to);
      shape_is (sheet, "a", "both_sides", rows[i].both);
      said_clear (&s);
      br_sheet_free (sheet);
    }
}

/* Depths are formulas as all others: they wait, move, are renamed, undone and looked for.  */
static void
test_follow (void **state)
{
  br_sheet *sheet = sheet_with ("track = 7\ncircle w = 4 at 0, 0 deep thick both sides track\nbox d = 9 x 1 at 0, 0 deep 5\n"
                                "line l = 0, 0 to 1, 1 behind lid deep 1 from 2\ncheck clear(w, d) >= 1/4\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "missing");
  assert_int_equal (s.count, 2);
  said_is (&s, 0, "name", "thick");
  said_is (&s, 0, "needed_by.0", "shape w");
  said_is (&s, 1, "name", "shape lid");
  said_is (&s, 1, "needed_by.0", "shape l");
  sheet_say (sheet, &s, "thick = 3/4");
  said_is (&s, said_first (&s, "check"), "state", "pass");
  said_is (&s, said_first (&s, "check"), "left", "1/4");
  sheet_say (sheet, &s, "trace track");
  said_is (&s, 0, "used_by.0", "shape w");
  assert_int_equal (sheet_run (sheet, &s, "track = 6"), BR_OK);
  assert_int_equal (br_sheet_failing (sheet), 1);
  sheet_say (sheet, &s, "undo");
  assert_int_equal (br_sheet_failing (sheet), 0);
  sheet_say (sheet, &s, "rename track to gauge");
  shape_is (sheet, "w", "depth_to", "7/2");
  sheet_say (sheet, &s, "box lid = 1 x 1 at 0, 0");
  sheet_say (sheet, &s, "rename lid to cover");
  shape_is (sheet, "l", "behind", "cover");
  shape_is (sheet, "l", "place", "middle at 1/2\", 1/2\", in depth from 2\", behind cover");
  sheet_say (sheet, &s, "find gauge for clear(w, d) = 1/2");
  said_is (&s, 0, "exact", "15/2");
  sheet_say (sheet, &s, "tolerance 1/8 on gauge");
  sheet_say (sheet, &s, "stack clear(w, d)");
  said_is (&s, 0, "low", "3/16");
  said_is (&s, 0, "contributors.0.sensitivity", "1/2");
  /* A depth that goes takes its part in the distance with it, and comes back with it.  */
  sheet_say (sheet, &s, "box d = 9 x 1 at 0, 0");
  sheet_say (sheet, &s, "clear w, d");
  said_is (&s, 0, "overlap", "true");
  said_is (&s, 0, "along", "null");
  sheet_say (sheet, &s, "undo");
  sheet_say (sheet, &s, "clear w, d");
  said_is (&s, 0, "exact", "1/4");
  sheet_say (sheet, &s, "forget shape d");
  sheet_say (sheet, &s, "undo");
  sheet_say (sheet, &s, "clear w, d");
  said_is (&s, 0, "along", "depth");
  sheet_end (sheet, &s);
}

/* Two that are A and B apart as seen from the side and in depth are the root of the squares apart; one of them alone counts
   where they overlap in the other, and of two overlaps the lesser push.  */
static void
test_apart (void **state)
{
  static const struct { const char *a, *b, *apart, *along; } rows[] =
  {
    { "deep 2 from 0", "at 7, 0 deep 2 from 0", "3", "side" },
    { "deep 2 from 0", "at 7, 0 deep 2 from 6", "5", "both" },
    { "deep 2 from 0", "at 1, 0 deep 2 from 6", "4", "depth" },
    { "deep 2 from 0", "at 1, 0 deep 2 from 2", "0", "depth" },
    { "deep 2 from 0", "at 1, 0 deep 2 from 3/2", "-1/2", "depth" },
    { "deep 2 from 0", "at 1, 3/2 deep 2 from 0", "-1/2", "side" },
    { "deep 2 from 0", "at 1, 0 deep 1 both sides 8", "1", "depth" },
    { "deep 2 from -9", "at 1, 0 deep 1 both sides 8", "3", "depth" },
    { "deep 2 from -5", "at 1, 0 deep 1 both sides 8", "-1", "depth" },
    { "deep 4 both sides 10", "at 1, 0 deep 1 both sides between 12", "1", "depth" },
    { "deep 4 both sides 10", "at 1, 0 deep 1/2", "3/4", "depth" },
    { "deep 2", "at 7, 0", "3", "null" },
    { "deep 2", "at 1, 0", "-2", "null" },
    { "", "at 1, 0 deep 9 from 9", "-2", "null" },
    { "deep sqrt 2 from 0", "at 1, 0 deep 1 from sqrt 2", "0", "depth" },
    { "deep sqrt 2 from 0", "at 7, 0 deep 1 from 5 * sqrt 2", "null", "both" },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    for (int turn = 0; turn < 2; turn++)
      {
        said s = SAID_ZERO;
        br_sheet *sheet = sheet_with ("");
        sheet_say (sheet, &s, "box a = 4 x 2 at 0, 0 %s", rows[i].a);
        sheet_say (sheet, &s, "box b = 4 x 2 %s", rows[i].b);
        sheet_say (sheet, &s, turn ? "clear b, a" : "clear a, b");
        said_is (&s, 0, "exact", rows[i].apart);
        said_is (&s, 0, "along", rows[i].along);
        sheet_say (sheet, &s, "rubs");
        size_t rubs = strcmp (rows[i].along, "null") != 0 && rows[i].apart[0] == '-';
        assert_int_equal (said_first (&s, "rubs") == 0, rubs);
        sheet_end (sheet, &s);
      }
}

/* What rubs, as "a b, c d?", where the second is undecided; remarks apart.  */
static void
rubs_are (br_sheet *sheet, const char *expected)
{
  said s = SAID_ZERO;
  char told[400] = "";
  sheet_say (sheet, &s, "rubs");
  for (size_t i = 0; i < s.count; i++)
    if (strcmp (said_get (&s, i, "kind"), "rubs") == 0)
      {
        size_t n = strlen (told);
        snprintf (told + n, sizeof told - n, "%s%s %s%s", n ? ", " : "", said_get (&s, i, "first"), said_get (&s, i, "second"),
                  strcmp (said_get (&s, i, "state"), "undecided") == 0 ? "?" : "");
      }
  assert_string_equal (told, expected);
  said_clear (&s);
}

#define BLOCK "box w = 6 x 4 at 0, 0 deep 1\n"
/* Shapes of every kind, holes that let through what lies in them, and shapes of one part.  */
static const struct { const char *sheet, *rubs; } rub_rows[] =
{
  { "", "" },
  { "circle w = 4 at 0, 0 deep 1 both sides 8\ncircle axle = 1/2 at 0, 0 deep 9", "w axle" },
  { "circle w = 4 at 0, 0 deep 1 both sides 8\ncircle axle = 1/2 at 0, 0 deep 9\ncircle h = 1/2 at 0, 0 hole", "" },
  { "circle w = 4 at 0, 0 deep 1 both sides 8\ncircle axle = 1/2 at 0, 0 deep 9\ncircle h = 15/32 at 0, 0 hole", "w axle" },
  { "circle w = 4 at 0, 0 deep 1\nbox axle = 3/10 x 4/10 at -3/20, -1/5 deep 9\ncircle h = 1/2 at 0, 0 hole", "" },
  { "circle w = 4 at 0, 0 deep 1\nbox axle = 4/10 x 4/10 at -1/5, -1/5 deep 9\ncircle h = 1/2 at 0, 0 hole", "w axle" },
  { "circle w = 4 at 0, 0 deep 1\ncircle axle = 1/2 at 0, 0 deep 9\ncircle h = q at 0, 0 hole", "w axle" },
  /* Holes and what goes through them in rows, mirrored, and through a plate.  */
  { "plate w = 4 hole 1 at 0, 0 deep 1\ncircle axle = 1/2 at 0, 0 deep 9", "" },
  { "plate w = 4 hole 1 at 0, 0 deep 1\ncircle axle = 5/4 at 0, 0 deep 9", "w axle" },
  { "box w = 9 x 2 at 0, 0 deep 1\ncircle axle = 1/2 at 7, 1 deep 9\ncircle h = 1/2 at 1, 1 hole\nrow hs of h qty 4 by 2", "" },
  { "box w = 9 x 2 at 0, 0 deep 1\ncircle axle = 1/2 at 6, 1 deep 9\ncircle h = 1/2 at 1, 1 hole\nrow hs of h qty 4 by 2", "w axle" },
  { "box w = 9 x 2 at 0, 0 deep 1\ncircle axle = 1/2 at 8, 1 deep 9\ncircle h = 1/2 at 1, 1 hole\nmirror hs of h about 9/2", "" },
  { "box w = 9 x 2 at 0, 0 deep 1\ncircle a = 1/2 at 1, 1 deep 9\nrow as of a qty 4 by 2\ncircle h = 1/2 at 1, 1 hole\nrow hs of h qty 4 by 2", "" },
  { "box w = 9 x 2 at 0, 0 deep 1\ncircle a = 1/2 at 1, 1 deep 9\nrow as of a qty 4 by 2\ncircle h = 1/2 at 1, 1 hole\nrow hs of h qty 3 by 2", "w as" },
  { "box w = 8 x 2 at 0, 0 deep 1\ncircle a = 1/2 at 1, 1 deep 9\nrow as of a qty 9 by 2\ncircle h = 1/2 at 1, 1 hole\nrow hs of h qty 4 by 2", "" },
  { "box w = 2 x 2 at 0, 0 deep 1\nrow ws of w qty 2 by 5\ncircle a = 1/2 at 6, 1 deep 9\ncircle h = 1/2 at 6, 1 hole", "" },
  { "box w = 2 x 2 at 0, 0 deep 1\nrow ws of w qty 2 by 5\ncircle a = 1/2 at 6, 1 deep 9\ncircle h = 1/2 at 1, 1 hole", "ws a" },
  { "outline o = 0, 0 to 1/4, 0 to 0, 1/4 deep 9\nmirror m of o about 1\nbox b = 4 x 2 at -1, -1 deep 1\ncircle h = 1 at 0, 0 hole\n"
    "circle g = 1 at 2, 0 hole", "" },
  { "outline o = 0, 0 to 1/4, 0 to 0, 1/4 deep 9\nmirror m of o about 1\nbox b = 4 x 2 at -1, -1 deep 1\ncircle h = 1 at 0, 0 hole\n"
    "circle g = 1/2 at 9/4, 0 hole", "m b" },
  { "box w = 4 x 4 at 0, 0 deep 1\ncircle axle = 1/2 at 3, 1 deep 9\ncircle h = q at 1, 1 hole\nrow hs of h qty 2 by 2", "w axle" },
  /* A row of a part is of that part.  */
  { "box a = 1 x 4 at 0, 0 deep 1 of p\nrow r of a qty 2 by 3\nbox b = 9 x 1 at 0, 0 deep 1 of p", "" },
  /* A slot, in which an axle may stand at an end, but not beyond it.  */
  { "circle w = 4 at 0, 0 deep 1\ncircle axle = 1/2 at 1, 0 deep 9\nline h = -1, 0 to 1, 0 wide 1/2 hole", "" },
  { "circle w = 4 at 0, 0 deep 1\ncircle axle = 1/2 at 17/16, 0 deep 9\nline h = -1, 0 to 1, 0 wide 1/2 hole", "w axle" },
  { "circle w = 4 at 0, 0 deep 1\ncircle axle = 1/2 at 1, 0 deep 9\nline h = -1, 0 to 1, 0 wide 15/32 hole", "w axle" },
  /* A hole of another part, of this one, and one that does not go all through.  */
  { "circle w = 4 at 0, 0 deep 1 of p\ncircle axle = 1/2 at 0, 0 deep 9\ncircle h = 1/2 at 0, 0 hole of q", "w axle" },
  { "circle w = 4 at 0, 0 deep 1 of p\ncircle axle = 1/2 at 0, 0 deep 9\ncircle h = 1/2 at 0, 0 hole of p", "" },
  { "circle w = 4 at 0, 0 deep 1\ncircle axle = 1/2 at 0, 0 deep 9\ncircle h = 1/2 at 0, 0 hole deep 1/2", "w axle" },
  { "circle w = 4 at 0, 0 deep 1\ncircle axle = 1/2 at 0, 0 deep 9\ncircle h = 1/2 at 0, 0 hole deep 2", "" },
  /* A blind hole as deep as the pin, not as deep, or on the other face; two that meet; on both sides.  */
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/2 from 0\ncircle pin = 1/2 at 3, 2 deep 1/2 from 0", "" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/2 from 0\ncircle pin = 1/2 at 3, 2 deep 9 from 0", "" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/2 from 0\ncircle pin = 1/2 at 3, 2 deep 9 from -1/64", "w pin" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/2 from -1/2\ncircle pin = 1/2 at 3, 2 deep 1/2 from 0", "w pin" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/2 from -1/2\ncircle g = 3/4 at 3, 2 hole deep 1/2 from 0\ncircle pin = 1/2 at 3, 2 deep 9", "" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/2 from -1/2\ncircle g = 3/8 at 3, 2 hole deep 1/2 from 0\ncircle pin = 1/2 at 3, 2 deep 9", "w pin" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 15/32 from -1/2\ncircle g = 3/4 at 3, 2 hole deep 1/2 from 0\ncircle pin = 1/2 at 3, 2 deep 9", "w pin" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/4 both sides 1\ncircle pin = 1/2 at 3, 2 deep 1 both sides between 1/2", "" },
  { BLOCK "circle h = 1 at 3, 2 hole deep 1/4 from 1/4\ncircle pin = 1/2 at 3, 2 deep 1 both sides between 1/2", "w pin" },
  { BLOCK "circle h = 1 at 3, 2 hole deep later from 0\ncircle pin = 1/2 at 3, 2 deep 1/2 from 0", "w pin" },
  /* Of an outline in a hole the box around it may go beyond.  */
  { BLOCK "circle h = 2 at 3, 2 hole\noutline o = 3, 3 to 2, 2 to 3, 1 to 4, 2 deep 9", "" },
  /* A peg that sticks out of the wood beside its hole, just not or deeper than it; two holes that hold it together, and not quite.  */
  { BLOCK "box pin = 3 x 1/2 at 5, 1 deep 9\nline h = 5, 5/4 to 6, 5/4 wide 5/8 hole", "" },
  { BLOCK "box pin = 3 x 1/2 at 19/4, 1 deep 9\nline h = 5, 5/4 to 6, 5/4 wide 1/2 hole", "w pin" },
  { BLOCK "box pin = 3 x 1/2 at 5, 1 deep 9\nline h = 5, 5/4 to 6, 5/4 wide 5/8 hole deep 1/2", "w pin" },
  { BLOCK "box pin = 3 x 1/2 at 5, 1 deep 1/2\nline h = 5, 5/4 to 6, 5/4 wide 5/8 hole deep 1/2\ncircle far = later at 1, 1 hole\n"
    "circle off = 1 at 20, 20 hole", "" },
  { BLOCK "outline pin = 11/2, 2 to 9, 7/4 to 9, 9/4 deep 9\ncircle h = 1 at 6, 2 hole", "" },
  { BLOCK "outline pin = 43/8, 2 to 9, 7/4 to 9, 9/4 deep 9\ncircle h = 1 at 6, 2 hole", "w pin" },
  { BLOCK "box pin = 2 x 1/2 at 2, 1 deep 9\ncircle h = 3/2 at 5/2, 5/4 hole\ncircle g = 3/2 at 7/2, 5/4 hole", "" },
  { BLOCK "box pin = 2 x 1/2 at 2, 1 deep 9\ncircle h = 9/8 at 5/2, 5/4 hole\ncircle g = 9/8 at 7/2, 5/4 hole", "" },
  { BLOCK "box pin = 2 x 1/2 at 2, 1 deep 9\ncircle h = 35/32 at 5/2, 5/4 hole\ncircle g = 35/32 at 7/2, 5/4 hole", "w pin" },
  { BLOCK "line pin = 6, 2 to 9, 2 wide 1/2 deep 9\nmirror pins of pin about 3\ncircle h = 1/2 at 6, 2 hole\nmirror hs of h about 3", "" },
  { BLOCK "line pin = 6, 2 to 9, 2 wide 1/2 deep 9\nmirror pins of pin about 3\ncircle h = 1/2 at 6, 2 hole", "w pins" },
  /* A hole of a shape, of copies of it, of the part that is cut as it, and of what is not there.  */
  { BLOCK "circle pin = 1 at 3, 2 deep 9\ncircle h = 1 at 3, 2 hole of w", "" },
  { BLOCK "circle pin = 1 at 3, 2 deep 9\ncircle h = 1/2 at 3, 2 hole of pin", "w pin" },
  { BLOCK "row r of w qty 2 by 8\ncircle pin = 1 at 11, 2 deep 9\ncircle h = 1 at 11, 2 hole of r", "" },
  { BLOCK "row r of w qty 2 by 8\ncircle pin = 1 at 11, 2 deep 9\ncircle h = 1 at 11, 2 hole of w", "" },
  { BLOCK "part side as w x 1\ncircle pin = 1 at 3, 2 deep 9\ncircle h = 1 at 3, 2 hole of side", "" },
  { BLOCK "part side as w x 1\ncircle pin = 1 at 3, 2 deep 9\ncircle h = 1 at 3, 2 hole of other", "w pin" },
  { BLOCK "part side as w x 1\nbox tab = 1 x 1 at 3, 2 deep 1 of side", "" },
  { BLOCK "circle h = 2 at 3, 2 hole\noutline o = 3, 7/2 to 2, 2 to 3, 1 to 4, 2 deep 9", "w o" },
  { BLOCK "circle h = 2 at 3, 2 hole\ncircle g = 4 at 3, 2 hole\noutline o = 3, 3 to 2, 2 to 3, 1 to 4, 2 deep 9", "" },
  /* Places of one row, its first with any other; mirrored; a row of a row; and such a row without depth.  */
  { "box b = 2 x 2 at 0, 0 deep 2\nrow r of b qty 3 by 19/10", "r r" },
  { "box b = 2 x 2 at 0, 0 deep 2\nrow r of b qty 3 by 2", "" },
  { "box b = 2 x 2 at 0, 0 deep 2\nrow r of b qty 3 by 1, 2", "" },
  { "circle b = 2 at 0, 0 deep 2\nrow r of b qty 3 by 7/5, 7/5", "r r" },
  { "circle b = 2 at 0, 0 deep 2\nrow r of b qty 3 by 3/2, 3/2", "" },
  { "circle b = 2 at 0, 0 deep 2\nrow r of b qty 3 by sqrt 2, sqrt 2", "" },
  { "outline u = 0, 0 to 1, 0 to 1, 2 to 4, 2 to 4, 0 to 5, 0 to 5, 3 to 0, 3 deep 1\nrow r of u qty 2 by 3/2, -1", "r r" },
  { "outline u = 0, 0 to 3, 0 to 3, 1 to 1, 1 to 1, 4 to 3, 4 to 3, 5 to 0, 5 deep 1\nrow r of u qty 2 by 3/2, 3/2", "r r" },
  { "outline u = 0, 0 to 5, 0 to 1, 1 to 1, 5 deep 1\nrow r of u qty 3 by 1, 1", "" },
  { "box b = 2 x 2 at 0, 0 deep 2\nmirror m of b about 19/10", "b m" },
  { "box b = 2 x 2 at 0, 0 deep 2\nrow r of b qty 2 by 19/10\nmirror m of r about 9", "r r, m m" },
  { "box b = 2 x 2 at 0, 0 deep 2\nrow r of b qty 2 by 3\nrow rr of r qty 2 by 4", "rr rr" },
  { "box b = 2 x 2 at 0, 0 deep 2\nrow r of b qty 2 by 2\nrow rr of r qty 2 by 4", "" },
  { "box b = 2 x 2 at 0, 0\nrow r of b qty 2 by 1", "" },
  { "box b = 2 x 2 at 0, 0\nrow r of b qty 2 by 1 deep 1", "r r" },
  { "box a = 4 x 4 at 0, 0 deep 1 of p\nbox b = 4 x 4 at 1, 1 deep 1 of p\nbox c = 4 x 4 at 1, 1 deep 1 of q", "a c, b c" },
  { "arc m = bend(3, 1) 180 deg at 0, 0 deep 1\nbox a = 1 x 1 at 3, 0 deep 1\ncircle b = 2 at 0, 0 deep 1", "m a" },
  { "outline o = 0, 0 to 6, 0 to 0, 6 deep 1\nbox a = 2 x 2 at 4, 3 deep 1\nbox b = 2 x 2 at 2, 2 deep 1", "o b" },
  { "outline o = 0, 0 to 1/4, 0 to 0, 1/4 deep 9\nbox b = 2 x 2 at -1, -1 deep 1\ncircle h = 1 at 0, 0 hole", "" },
  { "line l = 0, 0 to 6, 6 wide 1 deep 1\nbox a = 1 x 1 at 4, 1 deep 1\nbox b = 1 x 1 at 4, 4 deep 1 from q\nbox c = 1 x 1 at 4, 4 deep 1",
    "l c" },
  { "box a = 4 x 4 at 0, 0 deep 1\nbox b = 4 x 4 deep 1\nbox c = q x 4 at 0, 0 deep 1", "" },
  /* At an irrational angle a corner touches the edge, or nearly.  */
  { "a = 50*sqrt 2 * 1 deg\nbox d = 2 x 2 at 2*cos(a), 2*sin(a) deep 1\narc m = bend(2, 1/4) 90 deg from a at 0, 0 deep 1", "d m?" },
};

static void
test_rubs (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rub_rows); i++)
    {
      br_sheet *sheet = sheet_with (rub_rows[i].sheet);
      rubs_are (sheet, rub_rows[i].rubs);
      br_sheet_free (sheet);
    }
  br_sheet *sheet = sheet_with (rub_rows[CHECK_COUNT (rub_rows) - 1].sheet);
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "rubs");
  said_is (&s, 0, "state", "undecided");
  sheet_say (sheet, &s, "box flat = 1 x 1 at 0, 0");
  sheet_say (sheet, &s, "rubs");
  assert_non_null (strstr (said_get (&s, 1, "message"), "1 shape has no depth"));
  sheet_end (sheet, &s);
  sheet = sheet_with (BLOCK "part side = 6 x 4 x 1\ncircle h = 1 at 3, 2 hole of side\ncircle g = 1 at 1, 2 hole of w\n");
  sheet_say (sheet, &s, "rubs");
  assert_string_equal (said_get (&s, 1, "message"), "h is a hole of side, and no shape is called so or belongs to it: it counts for nothing");
  assert_int_equal (s.count, 2);
  sheet_end (sheet, &s);
  /* What lies in a hole is as near as before, and `clear` says why that does no harm.  */
  sheet = sheet_with (BLOCK "circle h = 1 at 3, 2 hole deep 1/2 from 0\ncircle pin = 1/2 at 3, 2 deep 1/2 from 0\n");
  sheet_say (sheet, &s, "clear pin, w");
  said_is (&s, 0, "exact", "-1/2");
  said_is (&s, 0, "along", "hole");
  sheet_say (sheet, &s, "circle pin = 9/8 at 3, 2 deep 1/2 from 0");
  sheet_say (sheet, &s, "clear w, pin");
  said_is (&s, 0, "along", "depth");
  sheet_end (sheet, &s);
}

/* Past the limit: what was found is told, and how many pairs were not looked at.  */
static void
test_many (void **state)
{
  enum { COUNT = 320, FAR = 10 };
  unsigned found = 0, most = 0, left = 0;
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  for (int i = 0; i < COUNT + FAR; i++)
    sheet_say (sheet, &s, "box b%d = 1 x 1 at %d, 0 deep 1", i, i < COUNT ? 0 : 100);
  assert_int_equal (sheet_run (sheet, &s, "rubs"), BR_TOO_BIG);
  for (size_t i = 0; i < s.count; i++)
    found += strcmp (said_get (&s, i, "kind"), "rubs") == 0;
  assert_int_equal (sscanf (s.faults[0].error.message, "more than %u comparisons of shapes: up to %u pairs", &most, &left), 2);
  assert_true (found > 0 && left > 0);
  assert_int_equal (found + left, COUNT * (COUNT - 1) / 2 + FAR * (FAR - 1) / 2);
  sheet_end (sheet, &s);
}

/* Boxes on a small grid: the program says of each two what the whole numbers say.  */
static void
test_random (void **state)
{
  char script[2000], expected[4000];
  (void) state;
  for (long round = check_times (200); round > 0; round--)
    {
      enum { COUNT = 6 };
      int low[COUNT][3], size[COUNT][3], pair[COUNT];
      size_t n = 0, m = 0;
      for (int i = 0; i < COUNT; i++)
        {
          for (int k = 0; k < 3; k++)
            {
              low[i][k] = (int) check_below (8) - (k == 2 ? 4 : 0);
              size[i][k] = 1 + (int) check_below (5);
            }
          pair[i] = check_below (3) == 0;
          low[i][2] = pair[i] && low[i][2] < 0 ? -low[i][2] : low[i][2];
          n += (size_t) snprintf (script + n, sizeof script - n, "box s%d = %d x %d at %d, %d deep %d ", i, size[i][0], size[i][1],
                                  low[i][0], low[i][1], size[i][2]);
          n += (size_t) snprintf (script + n, sizeof script - n, pair[i] ? "both sides between %d\n" : "from %d\n",
                                  pair[i] ? 2 * low[i][2] : low[i][2]);
        }
      expected[0] = 0;
      for (int i = 0; i < COUNT; i++)
        for (int k = i + 1; k < COUNT; k++)
          for (int copy = 0; copy < 4; copy++)
            {
              int z1 = copy & 1 && pair[i] ? -low[i][2] - size[i][2] : low[i][2];
              int z2 = copy & 2 && pair[k] ? -low[k][2] - size[k][2] : low[k][2];
              int meet = z1 < z2 + size[k][2] && z2 < z1 + size[i][2];
              for (int way = 0; way < 2; way++)
                meet = meet && low[i][way] < low[k][way] + size[k][way] && low[k][way] < low[i][way] + size[i][way];
              if (meet)
                {
                  m += (size_t) snprintf (expected + m, sizeof expected - m, "%ss%d s%d", m ? ", " : "", i, k);
                  break;
                }
            }
      br_sheet *sheet = sheet_with (script);
      rubs_are (sheet, expected);
      br_sheet_free (sheet);
    }
}

/* A part that is drawn with a depth that is none of its sizes is told of with the parts.  */
static void
test_parts (void **state)
{
  static const struct { const char *sheet; int told; } rows[] =
  {
    { "part rail = 10 x 2 x 3/4\nbox r = 10 x 2 at 0, 0 deep 3/4 of rail", 0 },
    { "part rail = 10 x 2 x 3/4\nbox r = 10 x 3/4 at 0, 0 deep 2 of rail", 0 },
    { "part rail = 10 x 2 x 3/4\nbox r = 10 x 2 at 0, 0 deep 1 of rail", 1 },
    { "part rail = 10 x 2 x 3/4\nbox r = 10 x 2 at 0, 0 deep 1/2 both sides 9 of rail", 1 },
    { "part rail = 10 x 2 x 3/4\nbox r = 10 x 2 at 0, 0 deep sqrt 2 of rail", 1 },
    { "part rail = 10 x 2 x 3/4\nbox r = 10 x 2 at 0, 0 deep later of rail", 0 },
    { "part rail = 10 x 2 x 3/4\nbox r = 10 x 2 at 0, 0 deep 1 of other", 0 },
    { "part rail = 10 x 2 x 3/4\ncircle r = 1 at 0, 0 hole deep 1 of rail", 0 },
    { "stock rod = round 1/2 x 36\npart axle = 8 qty 2 from rod\ncircle a = 1/2 at 0, 0 deep 8 of axle", 0 },
    { "stock rod = round 1/2 x 36\npart axle = 8 qty 2 from rod\ncircle a = 1/2 at 0, 0 deep 8-1/2 of axle", 1 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      said s = SAID_ZERO;
      int told = 0;
      br_sheet *sheet = sheet_with (rows[i].sheet);
      sheet_say (sheet, &s, "parts");
      for (size_t k = 0; k < s.count; k++)
        told += strcmp (said_get (&s, k, "kind"), "caution") == 0 && strstr (said_get (&s, k, "message"), " deep, and ") != NULL;
      if (told != rows[i].told)
        fail_msg ("%s: told %d times", rows[i].sheet, told);
      sheet_end (sheet, &s);
    }
}

/* A wrong line: a part of its message and its place.  */
static void
test_wrong (void **state)
{
  static const struct { const char *line, *message; size_t offset; } rows[] =
  {
    { "box a = 4 x 2 at 0, 0 deep 0", "the depth of a shape must be over zero", 27 },
    { "box a = 4 x 2 at 0, 0 deep 3 sq in", "the depth is an area, not a length", 27 },
    { "box a = 4 x 2 at 0, 0 deep", "a value", 26 },
    { "box a = 4 x 2 at 0, 0 deep 1 from 3 deg", "an angle, not a length", 34 },
    { "box a = 4 x 2 at 0, 0 deep 1 both 3", "`sides`", 34 },
    { "box a = 4 x 2 at 0, 0 deep 1 both sides", "a value", 39 },
    { "box a = 4 x 2 at 0, 0 deep 1 both sides 3 sq in", "both sides is an area", 40 },
    { "box a = 4 x 2 at 0, 0 deep 2 both sides 3", "twice the depth", 40 },
    { "box a = 4 x 2 at 0, 0 deep 2 both sides between -1", "cannot be below zero", 48 },
    { "box a = 4 x 2 at 0, 0 both sides 3", "how deep it is comes first", 22 },
    { "box a = 4 x 2 at 0, 0 deep 1 from 2 both sides 9", "its place in depth already", 36 },
    { "box a = 4 x 2 at 0, 0 centred", "how deep it is comes first", 22 },
    { "box a = 4 x 2 at 0, 0 behind a", "lies behind `a` itself", 29 },
    { "box a = 4 x 2 at 0, 0 behind back", "lies behind `a` itself", 29 },
    { "box a = 4 x 2 at 0, 0 behind 3", "the name of a shape", 29 },
    { "line a = 0, 0 to 1, 1 at 0, 0", "`wide`, `hole`, `turned`, `deep`, `layer` or `of`", 22 },
    { "rubs a", "", 5 },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("box back = 1 x 1 at 0, 0 behind further\nbox further = 1 x 1 at 0, 0 behind a\n");
      assert_int_not_equal (sheet_run (sheet, &s, rows[i].line), BR_OK);
      if (!strstr (s.faults[0].error.message, rows[i].message) || s.faults[0].error.offset != rows[i].offset)
        fail_msg ("%s: %zu: %s", rows[i].line, s.faults[0].error.offset, s.faults[0].error.message);
      sheet_end (sheet, &s);
    }
}

/* LINE, said to SHEET, tells once that something is drawn with the wrong depth, with CAUTION in it; NULL: never.  */
static void
check_told (const char *script, const char *line, const char *caution)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with (script);
  size_t told = 0;
  sheet_say (sheet, &s, "%s", line);
  for (size_t k = 0; k < s.count; k++)
    {
      const char *message = strcmp (said_get (&s, k, "kind"), "caution") == 0 ? said_get (&s, k, "message") : "";
      told += strstr (message, "are drawn ") || strstr (message, "is drawn ");
      if (strstr (message, " drawn ") && (!caution || !strstr (message, caution)))
        fail_msg ("%s; %s: %s", script, line, message);
    }
  if (told != (caution != NULL))
    fail_msg ("%s; %s: %zu cautions", script, line, told);
  sheet_end (sheet, &s);
}

/* Wheels against axles, and a part against the shape that it is cut as: what is said, and by which lines.  */
static void
test_across (void **state)
{
#define LEG "part leg_part = 20 x 2 x 3/4\n"
#define PLANK "part plank = 12 x 5 x 3/4\nbox pl = 12 x 5 at 0, 0 "
#define AXLE "axle = axle_length(6 in, 3/4 in, 1/16 in, 1/16 in, 3/8 in)\n"
  static const struct { const char *sheet, *line, *caution; } rows[] =
  {
    /* 6 + 2 (3/4 + 1/16 + 1/16 + 3/8) is 8-1/2, less both ends 7-3/4.  */
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides 7-3/4", "rubs", NULL },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides 7-1/2", "rubs",
      "the wheels `w` are drawn 7-1/2\" over the outsides, and `axle` less its ends leaves 7-3/4\"" },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides 7-1/2", "draw top", "the wheels `w` are drawn 7-1/2\"" },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides 7-1/2", "draw views into depth_across.svg", "the wheels `w` are drawn 7-1/2\"" },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides 7-1/2", "draw", NULL },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides between 25/4", "rubs", NULL },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides between 6", "rubs", "the wheels `w` are drawn 7-1/2\"" },
    { AXLE "long = 2 * axle_length(8, 3/4, 0, 0, 0)\ncircle w = 4 at 0, 0 deep 3/4 both sides 19/2", "rubs", NULL },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides q", "rubs", NULL },
    { AXLE "box w = 4 x 4 at 0, 0 deep 3/4 both sides 7", "rubs", NULL },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides 7 hole", "rubs", NULL },
    { "axle = axle_length(q, 3/4 in, 0 in, 0 in, 0 in)\ncircle w = 4 at 0, 0 deep 3/4 both sides 7", "rubs", NULL },
    { "outline o = 0, 0 to 9, 0 to 9, 4 deep 1/2\npart p as o x 3/4", "parts", "its shape `o` is drawn 1/2\" deep, and the part is not as thick" },
    { "outline o = 0, 0 to 9, 0 to 9, 4 deep 3/4\npart p as o x 3/4", "parts", NULL },
    { PLANK "deep 1/2 of plank", "rubs", "`pl` is drawn 1/2\" deep, and the part is not as thick" },
    { PLANK "deep 1/2 of plank", "cautions", "`pl` is drawn 1/2\" deep, and the part is not as thick" },
    { PLANK "deep 1/2 of plank", "draw front", "`pl` is drawn 1/2\" deep, and the part is not as thick" },
    { PLANK "deep 1/2 of plank", "draw views into depth_across.svg", "`pl` is drawn 1/2\" deep, and the part is not as thick" },
    { PLANK "deep 1/2 of plank", "draw", NULL },
    { PLANK "deep 3/4 of plank", "rubs", NULL },
    { "stock ply = 1/2 x 48 x 96\npart p = 12 x 5 from ply\nbox b = 12 x 5 at 0, 0 deep 3/4 of p", "rubs", "`b` is drawn 3/4\" deep, and the part is not as thick" },
    { "stock ply = 1/2 x 48 x 96\npart p = 12 x 5 from ply\nbox b = 12 x 5 at 0, 0 deep 1/2 of p", "rubs", NULL },
    { "outline o = 0, 0 to 9, 0 to 9, 4 deep 1/2\npart p as o x 3/4", "cautions", "and the part is not as thick" },
    { PLANK "of plank\nrow r of pl qty 2 by 13 deep 1/2", "cautions", "`r` is drawn 1/2\" deep, and no size" },
    { AXLE "circle w = 4 at 0, 0 deep 3/4 both sides 7-1/2", "cautions", "the wheels `w` are drawn 7-1/2\"" },
    { "outline o = 0, 0 to 9, 0 to 9, 4 deep 9\npart p as o x 3/4", "parts", "and the part is not as thick" },
    /* The size that is left when the other two are those of the shape.  */
    { LEG "box leg = 2 x 20 at 0, 0 deep 2 of leg_part", "rubs", "`leg` is drawn 2\" deep, and the part is not as thick" },
    { LEG "box leg = 2 x 20 at 0, 0 deep 3/4 of leg_part", "rubs", NULL },
    { LEG "box leg = 3/4 x 2 at 0, 0 deep 2 of leg_part", "rubs", "`leg` is drawn 2\" deep, and the part is not as long" },
    { LEG "box leg = 3/4 x 2 at 0, 0 deep 20 of leg_part", "rubs", NULL },
    { LEG "box leg = 20 x 3/4 at 0, 0 deep 3/4 of leg_part", "rubs", "`leg` is drawn 3/4\" deep, and the part is not as wide" },
    { LEG "box leg = 20 x 5 at 0, 0 deep 2 of leg_part", "rubs", NULL },
    { LEG "box leg = q x 20 at 0, 0 deep 2 of leg_part", "rubs", NULL },
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    check_told (rows[i].sheet, rows[i].line, rows[i].caution);
  unlink ("depth_across.svg");
}

/* Out of memory anywhere is reported so.  */
static void
test_refused (void **state)
{
  static const char *const lines[] = { "rubs", "clear w, axle", "parts", "circle w = 4 at 0, 0 deep 1 both sides 9 behind o", "shapes" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    sheet_refuse_from_each ("circle w = 4 at 0, 0 deep 1 both sides 8\ncircle axle = 1/2 at 0, 0 deep 9\nl = axle_length(6, 1, 0, 0, 1)\n"
                            "part p = 9 x 1 x 1\ncircle h = 1/2 at 0, 0 hole\noutline o = 0, 0 to 9, 0 to 9, 9 deep sqrt 2 of p\n",
                            lines[i], 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_places), CHECK_TEST (test_follow), CHECK_TEST (test_apart), CHECK_TEST (test_rubs), CHECK_TEST (test_many), CHECK_TEST (test_across), CHECK_TEST (test_random),
    CHECK_TEST (test_parts), CHECK_TEST (test_wrong), CHECK_TEST (test_refused)
  };
  return CHECK_RUN (tests);
}
