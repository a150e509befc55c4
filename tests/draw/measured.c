/* SPDX-License-Identifier: GPL-3.0-or-later
   measured.c - drawings and templates as SVG files, measured back: every coordinate against the sizes of the sheet,
   worked out by hand or by plain arithmetic here.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "figure.h"
#include "svg.h"

#include <math.h>

/* What the issue asks for: places exact in 1/7200 in, a fender's centre to 1e-9 of the unit of the file.  */
#define CLOSE (BR__INCH / 7200)

static const char *const cart =
  "title Market cart\n"
  "wheel = 3-1/2\n"
  "circle front = wheel at 0, wheel / 2\n"
  "circle rear = wheel at 4 * wheel, wheel / 2\n"
  "circle front_axle = 15/32 same centre as front hole\n"
  "arc front_mudguard = fender(front, 5/16, 1/4) 180 deg\n"
  "arc rear_mudguard = fender(rear, 5/16, 1/4) 200 deg\n"
  "box deck = 22-3/4 x 3/4 at -4-3/8, 4-3/16\n"
  "line shaft = 0, 3-13/16 to -26, 18-13/16 wide 3/4\n";

static void
is_near (int64_t found, int64_t expected)
{
  if (llabs (found - expected) > CLOSE)
    fail_msg ("%" PRId64 " where %" PRId64 " billionths of an inch were right", found, expected);
}

/* SHEET after STATEMENT as a file read back.  */
static void
draw (svg_file *f, br_sheet *sheet, const char *statement)
{
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "%s into a.svg", statement);
  said_clear (&s);
  svg_read (f, "a.svg");
}

/* The centre and the radius of a circle.  */
typedef struct round
{
  int64_t x, y, r;
} round_;

static round_
circle_of (const svg_file *f, const char *name)
{
  const svg_element *e = svg_find (f, "circle", name);
  return (round_) { svg_number (e, "cx"), svg_number (e, "cy"), svg_number (e, "r") };
}

/* ---- The cart ---- */

static void
test_cart (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  svg_file f;
  (void) state;
  draw (&f, sheet, "draw");
  /* Letter on its side, as 44-3/4 in at 1:8 go into its 10 in.  */
  assert_int_equal (f.width, 11 * BR__INCH);
  assert_int_equal (f.height, 8500000000);
  round_ front = circle_of (&f, "front"), rear = circle_of (&f, "rear"), axle = circle_of (&f, "front_axle");
  is_near (front.r, 218750000);                 /* 1-3/4 / 8 */
  is_near (rear.x - front.x, 1750000000);       /* 14 / 8 */
  is_near (rear.y, front.y);
  is_near (axle.r, 29296875);                   /* 15/64 / 8 */
  assert_int_equal (axle.x, front.x);
  assert_int_equal (axle.y, front.y);
  const svg_element *deck = svg_find (&f, "rect", "deck");
  is_near (svg_number (deck, "width"), 2843750000);             /* 22-3/4 / 8 */
  is_near (svg_number (deck, "height"), 93750000);
  is_near (svg_number (deck, "x") - front.x, -546875000);       /* -4-3/8 / 8 */
  /* Its lower side is 4-3/16 - 1-3/4 over the axle.  */
  is_near (front.y - svg_number (deck, "y") - svg_number (deck, "height"), 304687500);
  svg_clear (&f);
  br_sheet_free (sheet);
}

/* A fender is concentric with its wheel to 1e-9 of the unit of the file, at any scale, and each end of its curves
   lies on them.  */
static void
test_concentric (void **state)
{
  static const char *const scales[] = { "1:8", "1:3", "1:7", "2:1", "full", "41 mm = 3 in" };
  static const char *const wheels[] = { "3-1/2", "10 / 3", "sqrt(2)", "pi", "88.9 mm" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (scales) * CHECK_COUNT (wheels); i++)
    {
      br_sheet *sheet = sheet_with (cart);
      said s = SAID_ZERO;
      svg_file f;
      char statement[80];
      static const char *const fenders[] = { "front_mudguard", "rear_mudguard" };
      sheet_say (sheet, &s, "wheel = %s", wheels[i % CHECK_COUNT (wheels)]);
      said_clear (&s);
      snprintf (statement, sizeof statement, "draw scale %s", scales[i / CHECK_COUNT (wheels)]);
      draw (&f, sheet, statement);
      for (int k = 0; k < 2; k++)
        {
          round_ wheel = circle_of (&f, k ? "rear" : "front");
          const svg_element *fender = svg_find (&f, "path", fenders[k]);
          const char *move = svg_get (fender, "transform"), *d = svg_get (fender, "d");
          int64_t x = 0, y = 0, n[7] = { 0 };
          assert_true (strncmp (move, "translate(", 10) == 0);
          assert_true (svg_next (&x, &move) && svg_next (&y, &move));
          /* The grid of the file is 1e-6 of its unit, so within 1e-9 is equal.  */
          assert_int_equal (x, wheel.x);
          assert_int_equal (y, wheel.y);
          assert_true (svg_next (&x, &d) && svg_next (&y, &d));
          size_t curves = 0;
          while (*(d += strspn (d, " ")) != 0)
            {
              int arc = *d == 'A';
              for (int j = 0; j < (arc ? 7 : *d == 'Z' ? 0 : 2); j++)
                assert_true (svg_next (&n[j], &d));
              d += *d == 'Z';
              if (!arc)
                continue;
              curves++;
              assert_int_equal (n[0], n[1]);
              /* The end that the arc goes to is on it.  */
              double r = hypot ((double) n[5], (double) n[6]);
              assert_true (fabs (r - (double) n[0]) < 3);
              assert_true (n[0] > wheel.r);
            }
          assert_true (curves >= 4);
        }
      svg_clear (&f);
      sheet_end (sheet, &s);
    }
}

/* Radii of the fender's curves: wheel / 2 + gap, and + width.  */
static void
test_fender (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  svg_file f;
  size_t inner = 0, outer = 0;
  (void) state;
  draw (&f, sheet, "draw scale 1:2");
  const char *d = svg_get (svg_find (&f, "path", "front_mudguard"), "d");
  while ((d = strchr (d, 'A')) != NULL)
    {
      int64_t r = 0;
      d++;
      assert_true (svg_next (&r, &d));
      inner += r == 1031250000;         /* 2-1/16 / 2 */
      outer += r == 1156250000;         /* 2-5/16 / 2 */
    }
  assert_int_equal (inner, 2);          /* two right angles each */
  assert_int_equal (outer, 2);
  svg_clear (&f);
  br_sheet_free (sheet);
}

/* The shaft is as long as Pythagoras has it: sqrt (26^2 + 15^2), and 3/4 wide.  */
static void
test_bar (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  svg_file f;
  int64_t n[8];
  (void) state;
  draw (&f, sheet, "draw scale 1:4");
  const char *d = svg_get (svg_find (&f, "path", "shaft"), "d");
  for (int i = 0; i < 6; i++)
    assert_true (svg_next (&n[i], &d));
  double length = hypot ((double) (n[2] - n[0]), (double) (n[3] - n[1]));
  is_near ((int64_t) length, (int64_t) (sqrt (26.0 * 26 + 15.0 * 15) / 4 * 1e9));
  is_near (n[4], 93750000);             /* the radius of its ends: 3/8 / 4 */
  svg_clear (&f);
  br_sheet_free (sheet);
}

/* ---- The paper ---- */

/* The scale bar and the line to check with are as long as they say.  */
static void
test_check_line (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  for (int metric = 0; metric < 2; metric++)
    {
      int64_t wanted = metric ? 1968503937 : 2 * BR__INCH;      /* 50 / 25.4 in */
      size_t found = 0;
      if (metric)
        sheet_say (sheet, &s, "units mm");
      draw (&f, sheet, "draw");
      for (size_t i = 0; i < f.count; i++)
        {
          const svg_element *e = &f.elements[i];
          const char *d = svg_get (e, "d");
          int64_t n[4];
          if (strcmp (e->name, "line") == 0)
            found += svg_number (e, "y1") == svg_number (e, "y2")
                     && llabs (svg_number (e, "x2") - svg_number (e, "x1") - wanted) <= 1;
          else if (strcmp (e->name, "path") == 0 && !e->title)
            while (svg_next (&n[0], &d) && svg_next (&n[1], &d) && svg_next (&n[2], &d) && svg_next (&n[3], &d))
              found += n[1] == n[3] && llabs (n[2] - n[0] - wanted) <= 1;
        }
      assert_true (found >= 1);
      svg_clear (&f);
    }
  sheet_end (sheet, &s);
}

static br__area
text_area (const svg_element *e)
{
  const char *anchor = svg_get (e, "text-anchor");
  br_align align = !anchor ? BR_ALIGN_LEFT : strcmp (anchor, "middle") == 0 ? BR_ALIGN_MIDDLE : BR_ALIGN_RIGHT;
  int64_t size = svg_number (e, "font-size");
  return br__text_area (svg_number (e, "x"), svg_number (e, "y") - size * 35 / 100, align, size, e->text);
}

/* No two texts of the file touch, those of the title block included, and all lie on the paper.  */
static void
texts_are_apart (const svg_file *f)
{
  for (size_t i = 0; i < f->count; i++)
    {
      if (strcmp (f->elements[i].name, "text") != 0)
        continue;
      br__area a = text_area (&f->elements[i]);
      if (a.x < 0 || a.y < 0 || a.x2 > f->width || a.y2 > f->height)
        fail_msg ("`%s` leaves the paper", f->elements[i].text);
      for (size_t k = 0; k < i; k++)
        if (strcmp (f->elements[k].name, "text") == 0 && br__areas_meet (a, text_area (&f->elements[k])))
          fail_msg ("`%s` covers `%s`", f->elements[i].text, f->elements[k].text);
    }
}

/* Every number of a stroke is on the paper.  */
static void
strokes_are_inside (const svg_file *f)
{
  for (size_t i = 1; i < f->count; i++)
    {
      const svg_element *e = &f->elements[i];
      int64_t x, y, most_x = f->width, most_y = f->height;
      if (strcmp (e->name, "circle") == 0)
        {
          int64_t r = svg_number (e, "r");
          x = svg_number (e, "cx");
          y = svg_number (e, "cy");
          assert_true (x - r >= 0 && y - r >= 0 && x + r <= most_x && y + r <= most_y);
        }
      else if (strcmp (e->name, "rect") == 0 && e->title)
        {
          x = svg_number (e, "x");
          y = svg_number (e, "y");
          assert_true (x >= 0 && y >= 0);
          assert_true (x + svg_number (e, "width") <= most_x && y + svg_number (e, "height") <= most_y);
        }
      else if (strcmp (e->name, "path") == 0 && !e->title)
        for (const char *d = svg_get (e, "d"); svg_next (&x, &d) && svg_next (&y, &d); )
          assert_true (x >= 0 && y >= 0 && x <= most_x && y <= most_y);
    }
}

static void
test_paper (void **state)
{
  static const char *const papers[] = { "letter", "a4", "tabloid", "statement" };
  (void) state;
  for (long n = 0; n < check_times (24); n++)
    {
      br_sheet *sheet = random_shapes (1 + (int) check_below (30), 320, 160);
      said s = SAID_ZERO;
      svg_file f;
      sheet_say (sheet, &s, "paper %s\n%s", papers[check_below (4)], check_below (4) ? "" : "box lid = 3 x 1\n");
      draw (&f, sheet, "draw");
      texts_are_apart (&f);
      strokes_are_inside (&f);
      svg_clear (&f);
      sheet_end (sheet, &s);
    }
  br_sheet *sheet = sheet_with (cart);
  svg_file f;
  draw (&f, sheet, "draw");
  texts_are_apart (&f);
  strokes_are_inside (&f);
  svg_clear (&f);
  br_sheet_free (sheet);
}

/* ---- Templates ---- */

static const char *const plate =
  "part plate = 6 x 3 qty 2\n"
  "box edge = 6 x 3 at 0, 0 of plate\n"
  "circle h1 = 3/8 at 1, 1 hole of plate\n"
  "circle h2 = 0.4 at 5, 1-1/2 hole of plate\n"
  "circle h3 = 1-1/4 at 3, 2 hole of plate\n"
  "circle elsewhere = 2 at 3, 1\n";

static size_t
texts_with (const svg_file *f, const char *part)
{
  size_t found = 0;
  for (size_t i = 0; i < f->count; i++)
    found += strcmp (f->elements[i].name, "text") == 0 && strstr (f->elements[i].text, part) != NULL;
  return found;
}

static void
test_template (void **state)
{
  br_sheet *sheet = sheet_with (plate);
  svg_file f;
  (void) state;
  draw (&f, sheet, "template plate");
  const svg_element *edge = svg_find (&f, "rect", "edge");
  int64_t x = svg_number (edge, "x"), low = svg_number (edge, "y") + svg_number (edge, "height");
  /* Full size, to the last digit.  */
  assert_int_equal (svg_number (edge, "width"), 6 * BR__INCH);
  assert_int_equal (svg_number (edge, "height"), 3 * BR__INCH);
  round_ h1 = circle_of (&f, "h1"), h2 = circle_of (&f, "h2"), h3 = circle_of (&f, "h3");
  assert_int_equal (h1.r, 187500000);
  assert_int_equal (h1.x - x, BR__INCH);
  assert_int_equal (low - h1.y, BR__INCH);
  assert_int_equal (h2.r, 200000000);
  assert_int_equal (h2.x - x, 5 * BR__INCH);
  assert_int_equal (low - h2.y, 1500000000);
  assert_int_equal (h3.r, 625000000);
  /* 3/8 is a drill; 0.4 lies between 25/64 = 0.390625 and 13/32 = 0.40625, nearer to the second; the largest
     fractional drill of ASME B94.11M is 1 in (as in tests/data/drills.txt).  */
  assert_int_equal (texts_with (&f, "drill 3/8"), 1);
  assert_int_equal (texts_with (&f, "⌀ 0.4, nearest drill 13/32"), 1);
  assert_int_equal (texts_with (&f, "⌀ 1.25, too large for a drill"), 1);
  assert_int_equal (texts_with (&f, "full size, make 2"), 1);
  assert_int_equal (texts_with (&f, "waste side of the line"), 1);
  assert_int_equal (texts_with (&f, "your teacher's rules and local codes come first"), 1);
  assert_int_equal (texts_with (&f, "This line is 2 in long"), 1);
  /* From the edge to the first hole, and on.  */
  assert_int_equal (texts_with (&f, "elsewhere"), 0);
  texts_are_apart (&f);
  strokes_are_inside (&f);
  svg_clear (&f);
  br_sheet_free (sheet);
}

/* The middles of centre marks: lines that cross at the centre of a hole, reaching past its edge.  */
static void
test_centre_marks (void **state)
{
  br_sheet *sheet = sheet_with (plate);
  svg_file f;
  size_t level = 0, upright = 0;
  (void) state;
  draw (&f, sheet, "template plate");
  round_ h = circle_of (&f, "h1");
  for (size_t i = 0; i < f.count; i++)
    {
      const svg_element *e = &f.elements[i];
      const char *d = svg_get (e, "d");
      int64_t n[4];
      if (strcmp (e->name, "path") != 0 || e->title)
        continue;
      while (svg_next (&n[0], &d) && svg_next (&n[1], &d) && svg_next (&n[2], &d) && svg_next (&n[3], &d))
        {
          level += n[1] == h.y && n[3] == h.y && n[0] + n[2] == 2 * h.x && n[2] > h.x + h.r;
          upright += n[0] == h.x && n[2] == h.x && n[1] + n[3] == 2 * h.y && n[3] > h.y + h.r;
        }
    }
  assert_int_equal (level, 1);
  assert_int_equal (upright, 1);
  svg_clear (&f);
  br_sheet_free (sheet);
}

/* A part without shapes is its length and width; what cannot be drawn is refused and no file is there.  */
static void
test_plain_template (void **state)
{
  static const struct { const char *lines, *part, *message, *hint; } wrong[] =
  {
    { "part deck = 6 x 3\n", "dekc", "there is no part called `dekc`, and no shape of it", "did you mean `deck`?" },
    { "", "deck", "there is no part called `deck`, and no shape of it",
      "part NAME = LENGTH x WIDTH makes one; a shape belongs to it by `of NAME`" },
    { "box a = 2 x wide at 0, 0 of deck\n", "deck", "shape `a` of this part is not tied down yet",
      "`missing` tells what it needs" },
    { "part deck = 1000000000000 x 3\n", "deck", "`deck` is too large to be drawn, or too far from 0, 0", "" },
    { "circle a = 1 at 1000000000000, 0 of deck\n", "deck", "`deck` is too large to be drawn, or too far from 0, 0", "" },
    { "part deck = long x 3\n", "deck", "the size of part `deck` is not known: `long` is not known",
      "`missing` tells what is still needed" }
  };
  br_sheet *sheet = sheet_with ("part side = 5-1/2 x 4.55\nstock rod = round 7/16 x 36\npart axle = 5 from rod\n");
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  draw (&f, sheet, "template side");
  assert_int_equal (svg_number (svg_find (&f, "rect", "side"), "width"), 5500000000);
  assert_int_equal (svg_number (svg_find (&f, "rect", "side"), "height"), 4550000000);
  assert_int_equal (texts_with (&f, "≈4-9/16"), 1);
  texts_are_apart (&f);
  svg_clear (&f);
  draw (&f, sheet, "template axle");
  assert_int_equal (svg_number (svg_find (&f, "rect", "axle"), "height"), 437500000);
  svg_clear (&f);
  br_sheet_free (sheet);
  unlink ("a.svg");
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    {
      char line[80];
      sheet = sheet_with (wrong[i].lines);
      snprintf (line, sizeof line, "template %s into a.svg", wrong[i].part);
      assert_int_not_equal (sheet_run (sheet, &s, line), BR_OK);
      assert_int_equal (s.fault_count, 1);
      assert_string_equal (s.faults[0].error.message, wrong[i].message);
      assert_string_equal (s.faults[0].error.hint, wrong[i].hint);
      assert_int_equal (s.faults[0].error.offset, strlen ("template "));
      assert_int_equal (s.faults[0].error.length, strlen (wrong[i].part));
      assert_int_not_equal (access ("a.svg", F_OK), 0);
      sheet_end (sheet, &s);
    }
}

/* With each allocation refused in turn the statement says so, and leaves nothing taken and no half of a file.  */
static void
test_memory (void **state)
{
  br_sheet *sheet = sheet_with (plate);
  const br_sink sink = { .user = NULL };
  const char *line = "template plate into a.svg";
  br_status status = BR_OK;
  long nth;
  (void) state;
  unlink ("a.svg");
  for (nth = 0, check_memory_refused = 1; check_memory_refused; nth++)
    {
      check_memory_limit (nth);
      status = br_sheet_run (sheet, line, strlen (line), "test", 1, &sink);
      check_memory_left = -1;
      assert_int_equal (status, check_memory_refused ? BR_NO_MEMORY : BR_OK);
      if (access ("a.svg", F_OK) == 0)
        {
          svg_file f;
          svg_read (&f, "a.svg");       /* whole */
          svg_clear (&f);
          unlink ("a.svg");
        }
    }
  assert_true (nth > 100);
  check_memory_free ();
  br_sheet_free (sheet);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    cmocka_unit_test (test_cart), cmocka_unit_test (test_concentric), cmocka_unit_test (test_fender),
    cmocka_unit_test (test_bar), cmocka_unit_test (test_check_line), CHECK_TEST (test_paper),
    cmocka_unit_test (test_template), cmocka_unit_test (test_centre_marks), cmocka_unit_test (test_plain_template),
    cmocka_unit_test (test_memory)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, lesson_enter, lesson_leave));
}
