/* SPDX-License-Identifier: GPL-3.0-or-later
   parts.c - each part by itself, read back from the file: sizes to scale, the list that agrees with the statement `parts`,
   and nothing on anything else.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "svg.h"

#define MOST 12

/* The rectangle around the one stroke called TITLE.  */
static br__area
reach_of (const svg_file *f, const char *title)
{
  const svg_element *e = NULL;
  for (size_t i = 1; i < f->count; i++)
    if (f->elements[i].title && strcmp (f->elements[i].title, title) == 0)
      {
        assert_null (e);
        e = &f->elements[i];
      }
  assert_non_null (e);
  if (strcmp (e->name, "rect") == 0)
    {
      int64_t x = svg_number (e, "x"), y = svg_number (e, "y");
      return (br__area) { x, y, x + svg_number (e, "width"), y + svg_number (e, "height") };
    }
  br__area a = { INT64_MAX, INT64_MAX, INT64_MIN, INT64_MIN };
  const char *d = svg_get (e, "d");
  int64_t x = 0, y = 0, skip;
  assert_string_equal (e->name, "path");
  while (*d)
    {
      int arc = d[strspn (d, " ")] == 'A';
      /* Radii, the angle, and two flags stand before the end of an arc; corners are all that these outlines reach to.  */
      for (int i = 0; arc && i < 5; i++)
        assert_true (svg_next (&skip, &d));
      if (!svg_next (&x, &d))
        break;
      assert_true (svg_next (&y, &d));
      a = (br__area) { x < a.x ? x : a.x, y < a.y ? y : a.y, x > a.x2 ? x : a.x2, y > a.y2 ? y : a.y2 };
      d += strspn (d, " ");
      if (*d == 'Z')
        break;
    }
  return a;
}

static void
area_is (br__area a, int64_t width, int64_t height)
{
  assert_int_equal (a.x2 - a.x, width);
  assert_int_equal (a.y2 - a.y, height);
}

/* How many texts are TEXT.  */
static int
texts (const svg_file *f, const char *text)
{
  int count = 0;
  for (size_t i = 1; i < f->count; i++)
    count += strcmp (f->elements[i].name, "text") == 0 && strcmp (f->elements[i].text, text) == 0;
  return count;
}

static void
has_text (const svg_file *f, const char *text)
{
  for (size_t i = 1; i < f->count; i++)
    if (strcmp (f->elements[i].name, "text") == 0 && strstr (f->elements[i].text, text))
      return;
  fail_msg ("no text has: %s", text);
}

static void
draw (svg_file *f, said *s, br_sheet *sheet, const char *line)
{
  sheet_say (sheet, s, "%s into a.svg", line);
  assert_int_equal (s->count, 1);
  said_is (s, 0, "view", "parts");
  svg_read (f, "a.svg");
  unlink ("a.svg");
}

static const char cart[] =
  "stock pine = 3/4 x 9 x 48\nstock rod = round 7/16 x 36\n"
  "outline wing = 0, 0 to 12, 0 to 12, 4 round 1 to 8, 4 to 6, 2 to 0, 2 at 5, 7\n"
  "part wall as wing x 3/4 qty 2\ncircle bore = 1/2 at 7, 8 hole of wall\n"
  "box edge = 20 x 3/4 at 0, 0 of deck\npart deck = 20 x 5 from pine\n"
  "box face = 6 x 3 at 1, 1 of lid\ncircle eye = 1 at 4, 2 hole of lid\ncircle later = size at 5, 2 hole of lid\n"
  "part lid = 6 x 3 from pine\npart axle = 7-1/2 qty 2 from rod\npart bad = 9 x foo from pine\n";

/* `as` a shape, shapes that are as long and wide as the part, and the blank; at 1:4.  */
static void
test_figures (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  draw (&f, &s, sheet, "draw parts scale 1:4");
  said_is (&s, 0, "shapes", "4");
  said_is (&s, 0, "loose", "1");
  said_is (&s, 0, "scale", "1:4");
  said_is (&s, 0, "width", "null");
  said_is (&s, 0, "square", "null");
  said_is (&s, 0, "parts.count", "5");
  said_is (&s, 0, "parts.0.as", "wing");
  said_is (&s, 0, "parts.4.drawn", "false");
  said_is (&s, 0, "parts.4.part", "bad");
  area_is (reach_of (&f, "wing"), 3 * BR__INCH, BR__INCH);
  area_is (reach_of (&f, "deck"), 5 * BR__INCH, BR__INCH * 5 / 4);
  area_is (reach_of (&f, "face"), BR__INCH * 3 / 2, BR__INCH * 3 / 4);
  area_is (reach_of (&f, "axle"), BR__INCH * 15 / 8, BR__INCH * 7 / 64);
  assert_int_equal (svg_number (svg_find (&f, "circle", "bore"), "r"), BR__INCH / 16);
  assert_int_equal (svg_number (svg_find (&f, "circle", "bore"), "cx") - reach_of (&f, "wing").x, BR__INCH / 2);
  assert_int_equal (svg_number (svg_find (&f, "circle", "eye"), "r"), BR__INCH / 8);
  /* The edge of the deck and the hole that waits are none of it.  */
  for (size_t i = 1; i < f.count; i++)
    assert_false (f.elements[i].title && (strcmp (f.elements[i].title, "edge") == 0 || strcmp (f.elements[i].title, "later") == 0));
  has_text (&f, "wall, make 2");
  has_text (&f, "drill 1/2");
  has_text (&f, "rod, round 7/16");
  /* The sizes of what is a rectangle; of the outline the whole.  */
  assert_true (texts (&f, "20") == 1 && texts (&f, "5") >= 2 && texts (&f, "12") == 1);
  assert_true (texts (&f, "grain") == 4);
  svg_clear (&f);
  sheet_end (sheet, &s);
}

/* What the list says is what `parts` says, row by row, beside the number.  */
static void
list_agrees (const svg_file *f, br_sheet *sheet, const said *drawn)
{
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "parts");
  char key[60], text[40];
  assert_string_equal (said_get (&s, 0, "rows.count"), said_get (drawn, 0, "parts.count"));
  const size_t count = (size_t) strtol (said_get (&s, 0, "rows.count"), NULL, 10);
  for (size_t i = 0; i < count; i++)
    {
      snprintf (key, sizeof key, "rows.%zu.part", i);
      const char *name = said_get (&s, 0, key);
      snprintf (text, sizeof text, "%zu", i + 1);
      assert_true (texts (f, name) >= 1 && texts (f, text) >= 1);
      static const char *const same[] = { "part", "quantity", "shown", "stock" };
      for (size_t k = 0; k < CHECK_COUNT (same); k++)
        {
          char other[60];
          snprintf (key, sizeof key, "rows.%zu.%s", i, same[k]);
          snprintf (other, sizeof other, "parts.%zu.%s", i, same[k]);
          assert_string_equal (said_get (&s, 0, key), said_get (drawn, 0, other));
        }
    }
  said_clear (&s);
}

/* Parts of any size and number: each rectangle is exactly its length by its width at that scale, and none on another.  */
static void
test_random (void **state)
{
  (void) state;
  for (long round = check_times (30); round > 0; round--)
    {
      int64_t length[MOST], width[MOST], count = check_between (1, MOST), scale = check_between (2, 12);
      br__area at[MOST];
      br_sheet *sheet = sheet_with ("stock pine = 3/4 x 24 x 96\n");
      said s = SAID_ZERO;
      svg_file f;
      for (int i = 0; i < count; i++)
        {
          length[i] = check_between (8, 40 * 16);
          width[i] = check_between (4, 12 * 16);
          int64_t quantity = check_between (1, 20);
          sheet_say (sheet, &s, "part p%d = %" PRId64 "/16 x %" PRId64 "/16 qty %" PRId64 " from pine", i, length[i], width[i], quantity);
        }
      char line[60];
      snprintf (line, sizeof line, "draw parts scale 1:%" PRId64 " paper a3", scale);
      draw (&f, &s, sheet, line);
      list_agrees (&f, sheet, &s);
      for (int i = 0; i < count; i++)
        {
          char name[20];
          snprintf (name, sizeof name, "p%d", i);
          at[i] = reach_of (&f, name);
          /* Both sides are put on the grid of a billionth.  */
          assert_true (llabs ((at[i].x2 - at[i].x) * scale * 16 - length[i] * BR__INCH) <= scale * 16);
          assert_true (llabs ((at[i].y2 - at[i].y) * scale * 16 - width[i] * BR__INCH) <= scale * 16);
          assert_true (at[i].x >= 0 && at[i].y >= 0 && at[i].x2 <= f.width && at[i].y2 <= f.height);
          for (int k = 0; k < i; k++)
            assert_false (br__areas_meet (at[i], at[k]));
        }
      svg_clear (&f);
      sheet_end (sheet, &s);
    }
}

/* The scale of the sheet, else the one that is found; and what is not known at all.  */
static void
test_scale (void **state)
{
  br_sheet *sheet = sheet_with ("part lid = 3 x 2\n");
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  draw (&f, &s, sheet, "draw parts");
  /* Twice the size: 6 in by 4 in, with its sizes, go on letter paper; at 5:1 they do not.  */
  said_is (&s, 0, "scale", "2:1");
  said_is (&s, 0, "lies", "upright");
  area_is (reach_of (&f, "lid"), 6 * BR__INCH, 4 * BR__INCH);
  svg_clear (&f);
  sheet_say (sheet, &s, "scale 1:8");
  draw (&f, &s, sheet, "draw parts");
  area_is (reach_of (&f, "lid"), BR__INCH * 3 / 8, BR__INCH / 4);
  svg_clear (&f);
  sheet_end (sheet, &s);
  sheet = sheet_with ("part lid = long x 2\n");
  draw (&f, &s, sheet, "draw parts");
  said_is (&s, 0, "shapes", "0");
  said_is (&s, 0, "parts.0.drawn", "false");
  assert_int_equal (texts (&f, "lid"), 1);
  svg_clear (&f);
  sheet_end (sheet, &s);
  sheet = sheet_with ("part lid = 1000000000000 x 2\n");
  assert_int_equal (sheet_run (sheet, &s, "draw parts into a.svg"), BR_TOO_BIG);
  assert_int_equal (sheet_run (sheet, &s, "draw parts"), BR_TOO_BIG);
  sheet_end (sheet, &s);
}

/* A part that is cut as a shape has that shape on its template, and in `draw of`.  */
static void
test_template (void **state)
{
  br_sheet *sheet = sheet_with ("outline wing = 0, 0 to 6, 0 to 6, 3 to 0, 2\npart side as wing x 3/4\nbox b = 9 x 9 at 0, 0\n");
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  sheet_say (sheet, &s, "template side into a.svg");
  svg_read (&f, "a.svg");
  area_is (reach_of (&f, "wing"), 6 * BR__INCH, 3 * BR__INCH);
  svg_clear (&f);
  unlink ("a.svg");
  sheet_say (sheet, &s, "draw of side");
  said_is (&s, 0, "shapes.count", "1");
  said_is (&s, 0, "shapes.0.name", "wing");
  /* A hole of that shape is the part's, too; and a shape that is no part has its own.  */
  sheet_say (sheet, &s, "circle bore = 1 at 2, 1 hole of wing\ncircle peg = 1/2 at 1, 1 hole of b");
  sheet_say (sheet, &s, "draw of side");
  said_is (&s, 0, "shapes.count", "2");
  said_is (&s, 0, "shapes.1.name", "bore");
  sheet_say (sheet, &s, "draw of b");
  said_is (&s, 0, "shapes.count", "2");
  said_is (&s, 0, "shapes.0.name", "b");
  said_is (&s, 0, "shapes.1.name", "peg");
  sheet_end (sheet, &s);
}

/* In the terminal: the blank of 4 by 2 looks as a box of that size does (tests/draw/view.c), with its number in it.  */
static void
test_terminal (void **state)
{
  br_sheet *sheet = sheet_with ("part lid = 4 in x 2 in\n");
  said s = SAID_ZERO;
  br_sink sink = { .user = &s, .record = said_take_record, .fault = said_take_fault, .columns = 20 };
  (void) state;
  check_ok (br_sheet_run (sheet, "draw parts", 10, "test", 1, &sink));
  said_is (&s, 0, "kind", "view");
  said_is (&s, 0, "view", "parts");
  said_is (&s, 0, "plain.0", "/\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\"\\");
  said_is (&s, 0, "plain.2", "|        1        |");
  said_is (&s, 0, "plain.4", "\\-----------------/");
  said_is (&s, 0, "plain.count", "5");
  said_is (&s, 0, "shapes.count", "0");
  said_is (&s, 0, "parts.0.shown", "4\" x 2\"");
  sheet_end (sheet, &s);
}

/* Each part goes on a sheet, however many there are; margins that leave no room are refused.  */
static void
test_room (void **state)
{
  static const char *const margins[] = { "3 in", "3-1/2 in" };
  (void) state;
  for (int count = 1; count <= 16; count++)
    {
      br_sheet *sheet = sheet_with ("");
      said s = SAID_ZERO;
      for (int i = 0; i < count; i++)
        sheet_say (sheet, &s, "part p_%d = %d x %d", i, 6 + (7 * i + 5 * count) % 40, 2 + (3 * i + count) % 9);
      sheet_say (sheet, &s, "draw parts into a.svg");
      assert_int_equal (strtol (said_get (&s, 0, "parts.count"), NULL, 10), count);
      sheet_end (sheet, &s);
    }
  for (size_t i = 0; i < CHECK_COUNT (margins); i++)
    {
      br_sheet *sheet = sheet_with ("part a = 40 x 4");
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "paper letter margin %s", margins[i]);
      assert_int_equal (sheet_run (sheet, &s, "draw parts into a.svg"), BR_DOMAIN);
      assert_string_equal (s.faults[0].error.message, "the margins leave too little of the paper");
      sheet_end (sheet, &s);
    }
  unlink ("a.svg");
}

/* Out of memory anywhere is reported so.  */
static void
test_refused (void **state)
{
  static const char *const lines[] = { "draw parts", "draw parts into a.svg scale 1:8", "draw parts into a.svg" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    sheet_refuse_from_each ("stock rod = round 1/2 x 9\npart axle = 3 from rod\npart deck = 6 x 3\npart lid = 2 x wide\n"
                            "outline wing = 0, 0 to 6, 0 to 6, 3 to 0, 2\npart side as wing\ncircle h = size at 1, 1 hole of side\n",
                            lines[i], 1);
  unlink ("a.svg");
}

/* What is found where a template does not agree with its part.  */
static void
test_template_problems (void **state)
{
  static const struct { const char *shapes; int count; const char *first; } rows[] =
  {
    { "part p = 6 x 2\nbox b = 6 x 2 at 1, 1 of p", 0, NULL },
    { "part p = 6 x 2\nbox b = 2 x 6 at 1, 1 of p", 0, NULL },         /* drawn standing */
    /* A width that is no fraction is cut on its mark, and is no other size.  */
    { "outline b = 8, 9 to 26, 9 to 30, 17 round 3/4 to 4, 17 round 3/4\npart p as b", 0, NULL },
    { "outline b = 8, 9 to 26, 9 to 30, 17 round 3/4 to 4, 17 round 3/4\npart p = width(b) + 1/8 x height(b)\nbox c = 1 x 1 at 9, 10 of p", 1, "its shapes are 1 x 1, the part is" },
    { "part p = 6 x 2\nbox b = 6 x 2-1/16 at 1, 1 of p", 1, "its shapes are 6 x 2-1/16, the part is 6 x 2" },
    { "part p = 6 x 2\nbox b = 5 x 2 at 0, 0 of p\nbox c = 1 x 1 at 5, 0 of p", 0, NULL },
    { "units mm\npart p = 60 x 20\nbox b = 61 x 20 at 0, 0 of p", 1, "its shapes are 61 x 20, the part is 60 x 20" },
    /* A rim just as far from the edge as the hole is wide, and 1/100 in nearer.  */
    { "box b = 6 x 2 at 0, 0 of p\ncircle h = 1/2 at 3/4, 3/4 hole of p", 0, NULL },
    { "box b = 6 x 2 at 0, 0 of p\ncircle h = 1/2 at 3, 0.74 hole of p", 1, "h is nearer to an edge than it is wide: the wood may split" },
    { "box b = 6 x 2 at 0, 0 of p\ncircle h = 1/2 at 6, 1 hole of p", 1, "h lies off the wood in part" },
    { "box b = 6 x 2 at 0, 0 of p\ncircle h = 1/2 at 7, 1 hole of p", 1, "h lies off the wood" },
    { "circle b = 6 at 0, 0 of p\ncircle h = 1/2 at 2.2, 0 hole of p", 0, NULL },
    { "circle b = 6 at 0, 0 of p\ncircle h = 1/2 at 2.3, 0 hole of p", 1, "h is nearer" },
    { "line b = 0, 0 to 4, 3 wide 2 of p\ncircle h = 1/2 at 2, 1.5 hole of p", 0, NULL },
    { "line b = 0, 0 to 4, 3 wide 1 of p\ncircle h = 1/2 at 2, 1.5 hole of p", 1, "h is nearer" },
    { "arc b = bend(5, 2) 180 deg from 0 deg at 0, 0 of p\ncircle h = 1/2 at 0, 6 hole of p", 0, NULL },
    { "arc b = bend(5, 2) 180 deg from 0 deg at 0, 0 of p\ncircle h = 1/2 at 0, 4.9 hole of p", 1, "h lies off the wood in part" },
    { "outline b = 0, 0 to 6, 0 to 3, 4 of p\ncircle h = 1/2 at 3, 1.5 hole of p", 0, NULL },
    { "outline b = 0, 0 to 3, 4 to 6, 0 of p\ncircle h = 1/2 at 3, 3 hole of p", 1, "h is nearer" },
    { "outline b = 0, 0 to 6, 0 to 3, 4 of p\ncircle h = 1/2 at 0.5, 3 hole of p", 1, "h lies off the wood" },
    { "outline b = 0, 0 to 6, 0 rise 1 to 6, 4 to 0, 4 of p\ncircle h = 1/2 at 3, 0 hole of p", 0, NULL },
    { "circle h = 1/2 at 0.5, 3 hole of p", 0, NULL },
    /* A slot is as wide as its drill, however long; each hole of a row and of a mirror is one.  */
    { "outline b = 0, 0 to 7, 0 to 7, 7 to 0, 7 of p\nline h = 2, 2 to 5, 2 wide 3/8 hole of p", 0, NULL },
    { "box b = 7 x 7 at 0, 0 of p\nline h = 2, 2 to 5, 5 wide 3/8 hole of p", 0, NULL },
    { "box b = 7 x 7 at 0, 0 of p\nline h = 2, 2 to 6-1/2, 2 wide 3/8 hole of p", 1, "h is nearer" },
    { "box b = 7 x 7 at 0, 0 of p\nline h = 6-7/8, 2 to 2, 2 wide 3/8 hole of p", 1, "h lies off the wood in part" },
    { "outline b = 0, 0 to 7, 0 to 3-1/2, 2 to 0, 7 of p\nline h = 1, 1 to 5, 3 wide 3/8 hole of p", 1, "h lies off the wood" },
    { "box b = 7 x 7 at 0, 0 of p\ncircle h = 1/4 at 1, 1 hole of p\nrow r of h qty 3 by 5/2, 0", 0, NULL },
    { "box b = 7 x 7 at 0, 0 of p\ncircle h = 1/4 at 1, 1 hole of p\nrow r of h qty 4 by 3, 0", 2, "r lies off the wood in part" },
    { "box b = 7 x 7 at 0, 0 of p\ncircle h = 1/4 at 1, 1 hole of p\nmirror r of h about 10", 1, "r lies off the wood" },
    { "box b = 2 x 2 at 0, 0 of p\nrow r of b qty 3 by 2, 0\ncircle h = 1/4 at 5, 1 hole of p", 0, NULL }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with (rows[i].shapes);
      sheet_say (sheet, &s, "template p into a.svg");
      if (atoi (said_get (&s, 0, "problems.count")) != rows[i].count)
        fail_msg ("%s: %s problems", rows[i].shapes, said_get (&s, 0, "problems.count"));
      if (rows[i].first && !strstr (said_get (&s, 0, "problems.0"), rows[i].first))
        fail_msg ("%s: %s", rows[i].shapes, said_get (&s, 0, "problems.0"));
      sheet_end (sheet, &s);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_template_problems),
    CHECK_TEST (test_figures), CHECK_TEST (test_random), CHECK_TEST (test_scale), CHECK_TEST (test_template),
    CHECK_TEST (test_terminal), CHECK_TEST (test_room), CHECK_TEST (test_refused)
  };
  check_start ();
  int failed = cmocka_run_group_tests (tests, lesson_enter, lesson_leave);
  return check_end (failed);
}
