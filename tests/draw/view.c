/* SPDX-License-Identifier: GPL-3.0-or-later
   view.c - the side view in characters: what stands in small ones, worked by hand; and of any sheet, that each dot lies
   on an outline and each outline has its dots.  Braille patterns are those of the Unicode standard, block U+2800: dots
   1 2 3 7 down the left, 4 5 6 8 down the right, dot N is bit N - 1.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>

#include "sheet/sheet.h"
#include "../sheet/support.h"

/* Runs TEXT with room for WIDE columns; S has the answer of its last line.  */
static void
look (said *s, const char *text, int wide)
{
  br_sheet *sheet = sheet_with (text);
  br_sink sink = { .user = s, .record = said_take_record, .fault = said_take_fault, .columns = wide };
  said_clear (s);
  check_ok (br_sheet_run (sheet, "draw", 4, "test", 1, &sink));
  assert_int_equal (s->count, 1);
  said_is (s, 0, "kind", "view");
  br_sheet_free (sheet);
}

static const char *
line_of (const said *s, const char *list, size_t i)
{
  char path[40];
  snprintf (path, sizeof path, "%s.%zu", list, i);
  return said_get (s, 0, path);
}

/* LINES, ended by NULL, are those of LIST.  */
static void
check_lines (const said *s, const char *list, const char *const *lines)
{
  size_t n = 0;
  char path[40], count[20];
  for (; lines[n]; n++)
    assert_string_equal (line_of (s, list, n), lines[n]);
  snprintf (path, sizeof path, "%s.count", list);
  snprintf (count, sizeof count, "%zu", n);
  said_is (s, 0, path, count);
}

/* A box of 4 by 2 in 20 columns, of which the last stays free: 38 dots, so 4/37 in from dot to dot, and 2 in are
   18.5 dots: rows 0 to 18 (row 18.49999 is 18, as the step is put up to a whole billionth).  */
static void
box (void **state)
{
  static const char *const dots[] =
  {
    "⡏⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⢹", "⡇                 ⢸", "⡇        A        ⢸", "⡇                 ⢸",
    "⠧⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠼", NULL
  };
  static const char *const plain[] =
  {
    "/\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\\", "|                 |", "|        A        |", "|                 |",
    "\\-----------------/", NULL
  };
  said s = SAID_ZERO;
  (void) state;
  look (&s, "box lid = 4 in x 2 in at 10 in, -1 in", 20);
  check_lines (&s, "dots", dots);
  check_lines (&s, "plain", plain);
  said_is (&s, 0, "columns", "19");
  said_is (&s, 0, "shapes.count", "1");
  said_is (&s, 0, "shapes.0.mark", "A");
  said_is (&s, 0, "shapes.0.name", "lid");
  said_is (&s, 0, "shapes.0.size", "4\" x 2\"");
  said_is (&s, 0, "shapes.0.waiting.count", "0");
  /* A column is 8/37 in: 1 in takes 4.6 of them, 2 in more than the fourth of the 19.  */
  said_is (&s, 0, "bar", "1\"");
  said_is (&s, 0, "bar_columns", "5");
  said_is (&s, 0, "not_to_scale", "null");
  said_clear (&s);
  look (&s, "scale 1:4\nbox lid = 4 in x 2 in at 10 in, -1 in", 20);
  said_is (&s, 0, "not_to_scale", "1:4");
  said_clear (&s);
}

/* An upright and a level line of 1 in: 6 lines are 24 dots, 1/23 in from dot to dot.  The letters stand beyond the upper
   end, and above the middle (dot 11) as the ends of the other lie at the sides.  */
static void
lines (void **state)
{
  static const char *const dots[] = { "⡇A", "⡇", "⡇", "⡇", "⡇    B", "⣇⣀⣀⣀⣀⣀⣀⣀⣀⣀⣀⣀", NULL };
  static const char *const plain[] = { "|A", "|", "|", "|", "|    B", "\\___________", NULL };
  said s = SAID_ZERO;
  (void) state;
  look (&s, "line post = 0, 0 to 0, 1 in\nline foot = 0, 0 to 1 in, 0", 20);
  check_lines (&s, "dots", dots);
  check_lines (&s, "plain", plain);
  said_clear (&s);
}

/* ---- Any sheet ---- */

#define MOST_POINTS 40000
#define MOST_SIDE 400

typedef struct points
{
  double x[MOST_POINTS], y[MOST_POINTS];
  size_t count;
} points;

static points outline;
static double reach[4];         /* left, bottom, right, top */

static void
add_point (double x, double y)
{
  reach[0] = fmin (reach[0], x), reach[1] = fmin (reach[1], y);
  reach[2] = fmax (reach[2], x), reach[3] = fmax (reach[3], y);
  if (outline.count < MOST_POINTS)
    outline.x[outline.count] = x, outline.y[outline.count++] = y;
}

static void
add_line (double x, double y, double to_x, double to_y)
{
  for (int i = 0; i <= 1000; i++)
    add_point (x + (to_x - x) * i / 1000, y + (to_y - y) * i / 1000);
}

static void
add_arc (double x, double y, double r, double from, double turn)
{
  for (int i = 0; i <= 2000; i++)
    {
      double angle = (from + turn * i / 2000) * M_PI / 180;
      add_point (x + r * cos (angle), y + r * sin (angle));
    }
}

/* A random shape as a line of the sheet, and its outline.  */
static void
add_shape (FILE *out, int number)
{
  double n[6];
  for (int i = 0; i < 6; i++)
    n[i] = (double) (1 + check_below (80)) / 8;
  switch (check_below (4))
    {
    case 0:
      fprintf (out, "circle s%d = %g in at %g in, %g in\n", number, n[0] * 2, n[1], n[2]);
      add_arc (n[1], n[2], n[0], 0, 360);
      break;
    case 1:
      fprintf (out, "box s%d = %g in x %g in at %g in, %g in\n", number, n[0], n[1], n[2], n[3]);
      add_line (n[2], n[3], n[2] + n[0], n[3]);
      add_line (n[2], n[3] + n[1], n[2] + n[0], n[3] + n[1]);
      add_line (n[2], n[3], n[2], n[3] + n[1]);
      add_line (n[2] + n[0], n[3], n[2] + n[0], n[3] + n[1]);
      break;
    case 2:
      fprintf (out, "line s%d = %g in, %g in to %g in, %g in\n", number, n[0], n[1], n[2] + 11, n[3]);
      add_line (n[0], n[1], n[2] + 11, n[3]);
      break;
    default:
      fprintf (out, "arc s%d = bend(%g in, %g in) %g deg from %g deg at %g in, %g in\n", number, n[0] + 1, 1 + n[1] / 4,
               90 + n[2] * 20, n[3] * 30, n[4], n[5]);
      for (int i = 0; i < 2; i++)
        add_arc (n[4], n[5], n[0] + 1 + i * (1 + n[1] / 4), n[3] * 30, 90 + n[2] * 20);
      for (int i = 0; i < 2; i++)
        {
          double angle = (n[3] * 30 + i * (90 + n[2] * 20)) * M_PI / 180, r = n[0] + 1, r2 = r + 1 + n[1] / 4;
          add_line (n[4] + r * cos (angle), n[5] + r * sin (angle), n[4] + r2 * cos (angle), n[5] + r2 * sin (angle));
        }
    }
}

/* The dots of the answer; a character that is no braille has none.  */
static size_t
read_dots (double *x, double *y, const said *s, double unit)
{
  static const int column[] = { 0, 0, 0, 1, 1, 1, 0, 1 }, row[] = { 0, 1, 2, 0, 1, 2, 3, 3 };
  size_t count = 0, all = (size_t) atoi (said_get (s, 0, "dots.count"));
  for (size_t i = 0; i < all; i++)
    {
      const unsigned char *c = (const unsigned char *) line_of (s, "dots", i);
      for (size_t k = 0; *c; k++, c += *c == 0xE2 ? 3 : 1)
        for (int bit = 0; *c == 0xE2 && bit < 8; bit++)
          if (((c[1] & 3) << 6 | (c[2] & 63)) >> bit & 1)
            {
              x[count] = reach[0] + ((double) k * 2 + column[bit]) * unit;
              y[count++] = reach[3] - ((double) i * 4 + row[bit]) * unit;
            }
    }
  return count;
}

/* How far X, Y is from the nearest of the points.  */
static double
farness (double x, double y, const double *xs, const double *ys, size_t count)
{
  double least = HUGE_VAL;
  for (size_t i = 0; i < count; i++)
    least = fmin (least, hypot (xs[i] - x, ys[i] - y));
  return least;
}

static void
random_shapes (void **state)
{
  static double x[MOST_POINTS], y[MOST_POINTS];
  (void) state;
  for (long times = check_times (12); times > 0; times--)
    {
      said s = SAID_ZERO;
      char *text = NULL;
      size_t size;
      int wide = 20 + (int) check_below (100);
      outline.count = 0;
      reach[0] = reach[1] = HUGE_VAL, reach[2] = reach[3] = -HUGE_VAL;
      FILE *out = open_memstream (&text, &size);
      for (int n = 1 + (int) check_below (4); n > 0; n--)
        add_shape (out, n);
      fclose (out);
      look (&s, text, wide);
      double unit = fmax ((reach[2] - reach[0]) / (2 * wide - 3), (reach[3] - reach[1]) / (4 * (wide * 3 / 10) - 1));
      size_t count = read_dots (x, y, &s, unit);
      assert_true (count > 3);
      for (size_t i = 0; i < count; i++)
        if (farness (x[i], y[i], outline.x, outline.y, outline.count) > 0.8 * unit)
          fail_msg ("a dot at %g %g lies on no outline of\n%s", x[i], y[i], text);
      for (size_t i = 0; i < outline.count; i += 7)
        if (farness (outline.x[i], outline.y[i], x, y, count) > 1.1 * unit)
          fail_msg ("no dot at %g %g, an outline of\n%s", outline.x[i], outline.y[i], text);
      for (size_t i = 0; i < (size_t) atoi (said_get (&s, 0, "plain.count")); i++)
        assert_true (strlen (line_of (&s, "plain", i)) < (size_t) wide);
      said_clear (&s);
      free (text);
    }
}

/* The same circle with and without a place: half of its dots are left out, as dashes are as long as gaps.  */
static void
dashed (void **state)
{
  static double x[MOST_POINTS], y[MOST_POINTS];
  said s = SAID_ZERO;
  size_t whole;
  (void) state;
  look (&s, "circle rim = 3 in at 0, 0", 60);
  whole = read_dots (x, y, &s, 1);
  said_is (&s, 0, "loose", "0");
  look (&s, "circle rim = 3 in", 60);
  said_is (&s, 0, "loose", "1");
  said_is (&s, 0, "shapes.0.waiting.0", "a place");
  size_t half = read_dots (x, y, &s, 1);
  assert_in_range (half * 100, whole * 40, whole * 60);
  said_clear (&s);
}

/* 60 shapes: the letters of the first 52, each at most once, and in the picture where it is told.  */
static void
letters (void **state)
{
  said s = SAID_ZERO;
  char *text = NULL, path[40];
  size_t size, told = 0, seen[128] = { 0 };
  (void) state;
  FILE *out = open_memstream (&text, &size);
  for (int i = 0; i < 60; i++)
    fprintf (out, "circle c%d = 3 in at %d in, %d in\n", i, i % 10 * 4, i / 10 * 4);
  fclose (out);
  look (&s, text, 120);
  said_is (&s, 0, "shapes.count", "60");
  for (size_t i = 0; i < (size_t) atoi (said_get (&s, 0, "dots.count")); i++)
    for (const char *c = line_of (&s, "dots", i); *c; c++)
      if (*c > ' ' && *c < 127)
        seen[(int) *c]++;
  for (size_t i = 0; i < 60; i++)
    {
      snprintf (path, sizeof path, "shapes.%zu.mark", i);
      const char *mark = said_get (&s, 0, path);
      if (i >= 52)
        assert_string_equal (mark, "");
      else if (*mark)
        assert_int_equal (seen[(int) *mark], 1);
      told += *mark != 0;
    }
  assert_true (told == 52);
  said_clear (&s);
  free (text);
}

/* Shapes of one layer, or of one part, and no others.  */
static void
some (void **state)
{
  static const char text[] = "stock pine = 3/4 x 5-1/2 x 48\npart side = 10 in x 5 in from pine\n"
                             "box a = 4 in x 2 in at 0, 0 layer top\nbox b = 3 in x 1 in at 0, 0 of side\ncircle c = 1 in at 0, 0";
  static const char *const rows[][2] = { { "draw layer top", "a" }, { "draw of side", "b" }, { "draw side of side", "b" } };
  br_sheet *sheet = sheet_with (text);
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      sheet_say (sheet, &s, "%s", rows[i][0]);
      said_is (&s, 0, "shapes.count", "1");
      said_is (&s, 0, "shapes.0.name", rows[i][1]);
      said_is (&s, 0, "columns", "79");
    }
  sheet_say (sheet, &s, "draw side");
  said_is (&s, 0, "shapes.count", "3");
  sheet_end (sheet, &s);
}

static void
extremes (void **state)
{
  said s = SAID_ZERO;
  (void) state;
  /* Far smaller and far larger than any bar, and wider than any terminal asks for.  */
  look (&s, "circle dot = 1/1000000 in at 0, 0", 20);
  look (&s, "circle world = 60000000 in at 0, 0", 5000);
  look (&s, "units mm\nline b = 0, 0 to 1, 0", 1);
  look (&s, "units mm\nbox a = 200 x 100 at 0, 0", 80);
  said_is (&s, 0, "bar", "50 mm");
  /* 79 columns for 200 mm: 50 mm are 19.75 of them.  */
  said_is (&s, 0, "bar_columns", "20");
  said_clear (&s);
}

static void
mistakes (void **state)
{
  static const struct { const char *text, *line, *message; size_t offset; } rows[] =
  {
    { "", "draw", "there is no shape to be drawn yet", 0 },
    { "circle rim = 3 in at 0, 0", "draw layer top", "there is no shape of that layer or part", 0 },
    { "circle rim = 3 in at 0, 0", "draw scale 1:2", "the line ends where `into FILE.pdf`, `.svg` or `.png` should stand", 14 },
    { "circle rim = 3 in at 1000000000000 in, 0", "draw", "a shape reaches too far to be drawn", 0 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with (rows[i].text);
      assert_int_not_equal (sheet_run (sheet, &s, rows[i].line), BR_OK);
      assert_string_equal (s.faults[0].error.message, rows[i].message);
      assert_int_equal (s.faults[0].error.offset, rows[i].offset);
      sheet_end (sheet, &s);
    }
}

/* A lid 4 wide in front of a board 8 wide, which begins 2 further left: 157 steps for 8 in, so that the lid is from step 39.25 to
   117.75, a character for two of them.  Of what is hidden two dots in six are there: a character in three.  */
static void
hidden (void **state)
{
  static const char *const ways[] = { "deep 1 from 2", "deep 1 from -2", "" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (ways); i++)
    {
      char text[200];
      said s = SAID_ZERO;
      snprintf (text, sizeof text, "box board = 8 x 2 at 0, 1 deep 1 from 0\nbox lid = 4 x 4 at 2, 0 %s", ways[i]);
      look (&s, text, 80);
      said_is (&s, 0, "hidden", i < 2 ? "true" : "false");
      if (i == 0)
        {
          assert_string_equal (line_of (&s, "plain", 5), "/\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\\ \"  \"  \"  \"  \"  \"  \"  \"  \"  \"  "
                               "\"  \"  \" /\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\\");
          assert_string_equal (line_of (&s, "plain", 0), "                   |\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"|");
        }
      said_clear (&s);
    }
  /* A hole is behind the wood around it from above.  */
  br_sheet *sheet = sheet_with ("box a = 8 x 4 at 0, 0 deep 3/4\ncircle h = 1 at 3, 2 hole deep 3/4");
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "draw top");
  said_is (&s, 0, "hidden", "true");
  sheet_end (sheet, &s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (box), CHECK_TEST (lines), CHECK_TEST (random_shapes),
                                      CHECK_TEST (dashed), CHECK_TEST (letters), CHECK_TEST (some), CHECK_TEST (extremes),
                                      CHECK_TEST (mistakes), CHECK_TEST (hidden) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, NULL, NULL));
}
