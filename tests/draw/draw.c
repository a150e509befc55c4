/* SPDX-License-Identifier: GPL-3.0-or-later
   draw.c - the statement draw: what it takes and refuses, the scale that it chooses, what it tells, and what
   stands on the paper around the figure.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>

#include "draw/drawing.h"
#include "svg.h"

static const char *const cart =
  "title Market cart\ndate 25 November 2026\nwheel = 3-1/2\n"
  "circle front = wheel at 0, wheel / 2 layer wheels\n"
  "circle rear = wheel at 14, wheel / 2 layer wheels\n"
  "box deck = 22-3/4 x 3/4 at -4-3/8, 4-3/16 of bed\n";

/* The record of LINE, which must be right, in S.  */
static void
draw_said (br_sheet *sheet, said *s, const char *line)
{
  sheet_say (sheet, s, "%s", line);
  assert_int_equal (s->count, 1);
  said_is (s, 0, "kind", "drawing");
}

static void
test_record (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  br_error error;
  (void) state;
  check_ok (br_sheet_save (sheet, "a.txt", &error));
  draw_said (sheet, &s, "draw side into a.svg scale quarter paper a4");
  said_is (&s, 0, "view", "side");
  said_is (&s, 0, "form", "svg");
  said_is (&s, 0, "scale", "1:4");
  said_is (&s, 0, "scale_words", "quarter size, 1:4");
  said_is (&s, 0, "paper", "A4");
  said_is (&s, 0, "pages", "1");
  said_is (&s, 0, "shapes", "3");
  said_is (&s, 0, "loose", "0");
  said_is (&s, 0, "width", "91/4");             /* the deck */
  said_is (&s, 0, "height", "79/16");           /* from the floor to the deck's top: 4-3/16 + 3/4 */
  said_is (&s, 0, "height_shown", "4-15/16\"");
  said_is (&s, 0, "square", "1 square is 1\"");
  draw_said (sheet, &s, "draw into a.svg   scale 1:4   # for the wall");
  said_is (&s, 0, "scale", "1:4");
  draw_said (sheet, &s, "draw into  \"a.svg\"  ");
  draw_said (sheet, &s, "draw layer wheels into a.svg\t ");
  said_is (&s, 0, "shapes", "2");
  said_is (&s, 0, "width", "35/2");             /* 14 + 3-1/2 */
  draw_said (sheet, &s, "draw of bed into a.svg grid 1/2 scale 1:2");
  said_is (&s, 0, "shapes", "1");
  said_is (&s, 0, "square", "1 square is 1\"");
  draw_said (sheet, &s, "draw into a.svg scale full");
  said_is (&s, 0, "paper", "null");             /* it has a page of its own size */
  draw_said (sheet, &s, "draw into a.svg scale 1000:1");
  said_is (&s, 0, "square", "null");            /* more lines than squares can be told apart */
  assert_false (br_sheet_unsaved (sheet));      /* a drawing is no change of the sheet */
  /* The sheet's scale, where it has one; one that is given with the statement comes first.  */
  sheet_say (sheet, &s, "scale 1:3");
  draw_said (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "scale", "1:3");
  draw_said (sheet, &s, "draw into a.svg scale 1:2");
  said_is (&s, 0, "scale", "1:2");
  sheet_end (sheet, &s);
}

static void
test_exact_extent (void **state)
{
  /* A root has no fraction, and of two that lie in one place of the drawing the larger is taken.  */
  br_sheet *sheet = sheet_with ("circle a = sqrt 2 at 0, 0\nbox b = 1 x 1 at 0, 0\n");
  said s = SAID_ZERO;
  (void) state;
  draw_said (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "width", "null");             /* 1 + sqrt 2 / 2 */
  assert_memory_equal (said_get (&s, 0, "width_shown"), "1.70710678119", 13);
  /* Wider by less than a place of the drawing, in the middle of the sheet.  */
  sheet_say (sheet, &s, "box c = 2 x 1/2 at -1/2, 0\nbox d = 2 + 1/100000000000 x 1/4 at -1/2, 0");
  draw_said (sheet, &s, "draw into a.svg");
  assert_memory_equal (said_get (&s, 0, "width_shown"), "2.2071067812", 12);
  said_is (&s, 0, "width", "null");
  sheet_say (sheet, &s, "box e = 9 x 1/8 at -2, 0\nbox f = 9 + 1/100000000000 x 1/4 at -2, 0");
  draw_said (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "width", "900000000001/100000000000");
  sheet_end (sheet, &s);
}

/* ---- The scale ---- */

/* The standard scales by hand: ISO 5455, and customary inch scales.  */
static const int64_t inch_scales[][2] =
{
  { 50, 1 }, { 20, 1 }, { 10, 1 }, { 5, 1 }, { 2, 1 }, { 1, 1 }, { 1, 2 }, { 1, 4 }, { 1, 8 },
  { 1, 12 }, { 1, 16 }, { 1, 24 }, { 1, 32 }, { 1, 48 }, { 1, 64 }, { 1, 96 },
  { 1, 128 }, { 1, 192 }, { 1, 200 }, { 1, 500 }
};

static int
is_letter (const svg_file *f)
{
  int64_t wide = 8500000000, high = 11 * BR__INCH;
  return (f->width == wide && f->height == high) || (f->width == high && f->height == wide);
}

/* It goes on letter paper at the scale that was chosen, and at the next larger one it does not.  */
static void
check_scale (int64_t width, int64_t height)
{
  said s = SAID_ZERO;
  svg_file f;
  char scale[40];
  size_t i = 0;
  br_sheet *sheet = sheet_with ("box plank = 1 x 1 at 0, 0");
  sheet_say (sheet, &s, "box plank = %" PRId64 "/16 x %" PRId64 "/16 at 0, 0", width, height);
  draw_said (sheet, &s, "draw into a.svg");
  for (; i < CHECK_COUNT (inch_scales); i++)
    {
      snprintf (scale, sizeof scale, "%" PRId64 ":%" PRId64, inch_scales[i][0], inch_scales[i][1]);
      if (strcmp (scale, said_get (&s, 0, "scale")) == 0)
        break;
    }
  if (i == CHECK_COUNT (inch_scales))
    fail_msg ("no standard scale: %s", said_get (&s, 0, "scale"));
  svg_read (&f, "a.svg");
  assert_true (is_letter (&f));
  const svg_element *plank = svg_find (&f, "rect", "plank");
  int64_t drawn = svg_number (plank, "width"), exact = width * BR__INCH * inch_scales[i][0] / 16 / inch_scales[i][1];
  assert_true (llabs (drawn - exact) <= 1);
  svg_clear (&f);
  if (i > 0)
    {
      sheet_say (sheet, &s, "draw into a.svg scale %" PRId64 ":%" PRId64, inch_scales[i - 1][0], inch_scales[i - 1][1]);
      svg_read (&f, "a.svg");
      if (is_letter (&f))
        fail_msg ("%" PRId64 "/16 x %" PRId64 "/16 goes on the paper at %s, too", width, height, said_get (&s, 0, "scale"));
      svg_clear (&f);
    }
  sheet_end (sheet, &s);
}

static void
test_scale (void **state)
{
  (void) state;
  check_scale (1, 2);
  check_scale (4, 4);
  check_scale (16 * 6, 16 * 4);
  check_scale (16 * 100, 16);
  check_scale (16, 16 * 100);
  for (long times = check_times (12); times > 0; times--)
    check_scale (1 + (int64_t) check_below (1 << (4 + check_below (12))), 1 + (int64_t) check_below (1 << (4 + check_below (12))));
}

/* ---- What is refused ---- */

static void
test_wrong (void **state)
{
  static const struct { const char *line, *part, *message; br_status status; } rows[] =
  {
    { "draw into a.dxf", "a.dxf", "a drawing is a .pdf, .svg or .png file", BR_DOMAIN },
    { "draw into", "", "the name of a file should stand here", BR_SYNTAX },
    { "draw into side", "side", "a drawing is a .pdf, .svg or .png file", BR_DOMAIN },
    { "draw back into a.svg", "back", "should stand here", BR_SYNTAX },
    { "draw front into a.svg", "draw", "no shape has a depth yet", BR_DOMAIN },
    { "draw views into a.svg", "draw", "no shape has a depth yet", BR_DOMAIN },
    { "draw top layer top into a.svg", "draw", "no shape of that layer or part", BR_DOMAIN },
    { "draw into a.svg scale 0:1", "0", "", BR_DOMAIN },
    { "draw into a.svg scale", "", "", BR_SYNTAX },
    { "draw into a.svg scale 1:2 scale 1:4", "scale 1:4", "should stand here", BR_SYNTAX },
    { "draw into a.svg grid 0", "0", "a square has a length over zero, a fraction", BR_DOMAIN },
    { "draw into a.svg grid sqrt 2", "sqrt 2", "a square has a length over zero, a fraction", BR_DOMAIN },
    { "draw into a.svg grid 2 sq in", "2 sq in", "a square has a length over zero, a fraction", BR_DOMAIN },
    { "draw into a.svg grid 1/100", "draw", "squares of less than 1/32 in", BR_DOMAIN },
    { "draw into a.svg paper foolscap", "foolscap", "a paper such as", BR_SYNTAX },
    { "draw into a.svg layer top", "draw", "no shape of that layer or part", BR_DOMAIN },
    { "draw of lid into a.svg", "draw", "no shape of that layer or part", BR_DOMAIN },
    { "draw into no/such/folder/a.svg", "no/such/folder/a.svg", "cannot write", BR_IO },
    { "draw into a.pdf", "a.pdf", "this program cannot draw pages", BR_DOMAIN },
    { "draw into a.png scale 5000:1", "a.png", "too large for dots", BR_TOO_BIG },
    { "draw into a.pdf scale 500:1", "a.pdf", "more than 200 sheets", BR_TOO_BIG },
    { "draw into a.svg scale 1000000000000:1", "draw", "reaches too far to be drawn", BR_TOO_BIG }
  };
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  (void) state;
  unlink ("a.svg");
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_status status = sheet_run (sheet, &s, rows[i].line);
      if (status != rows[i].status || s.fault_count != 1 || !strstr (s.faults[0].error.message, rows[i].message))
        fail_msg ("%s: %s, %s", rows[i].line, br_status_name (status), s.fault_count ? s.faults[0].error.message : "");
      const char *at = strstr (rows[i].line, rows[i].part);
      size_t offset = *rows[i].part ? (size_t) (at - rows[i].line) : strlen (rows[i].line);
      if (s.faults[0].error.offset != offset)
        fail_msg ("%s: told at %zu, not %zu: %s", rows[i].line, s.faults[0].error.offset, offset, s.faults[0].error.message);
      assert_int_not_equal (access ("a.svg", F_OK), 0);
    }
  sheet_end (sheet, &s);
}

static void
test_nothing_to_draw (void **state)
{
  br_sheet *sheet = sheet_with ("wheel = 3");
  said s = SAID_ZERO;
  (void) state;
  assert_int_equal (sheet_run (sheet, &s, "draw into a.svg"), BR_DOMAIN);
  assert_non_null (strstr (s.faults[0].error.message, "no shape to be drawn yet"));
  sheet_say (sheet, &s, "paper letter margin 4 in\ncircle a = 2 at 0, 0");
  assert_int_equal (sheet_run (sheet, &s, "draw into a.svg"), BR_DOMAIN);
  assert_non_null (strstr (s.faults[0].error.message, "margins leave too little"));
  sheet_end (sheet, &s);
}

/* What was there stays when nothing can be drawn.  */
static void
test_old_file (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  (void) state;
  lesson_put ("a.pdf", "old", 3);
  assert_int_equal (sheet_run (sheet, &s, "draw into a.pdf"), BR_DOMAIN);       /* no painter */
  char *bytes = lesson_get ("a.pdf");
  assert_string_equal (bytes, "old");
  free (bytes);
  sheet_end (sheet, &s);
}

/* ---- What stands on the paper ---- */

/* 1 if a text of F is, or begins with, TEXT.  */
static int
has_text (const svg_file *f, const char *text)
{
  for (size_t i = 0; i < f->count; i++)
    if (strcmp (f->elements[i].name, "text") == 0 && strncmp (f->elements[i].text, text, strlen (text)) == 0)
      return 1;
  return 0;
}

static void
test_title_block (void **state)
{
  static const char *const inches[] =
  { "Market cart", "side view", "half size, 1:2", "1 square is 1/2\"", "sizes in inches", "Date 25 November 2026",
    "This line is 2 in long. If it is not, print at 100 %.", "0" };
  static const char *const metric[] =
  { "1:5", "1 square is 25 mm", "sizes in mm", "This line is 50 mm long. If it is not, print at 100 %." };
  br_sheet *sheet = sheet_with (cart);
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  draw_said (sheet, &s, "draw into a.svg scale 1:2");
  svg_read (&f, "a.svg");
  for (size_t i = 0; i < CHECK_COUNT (inches); i++)
    if (!has_text (&f, inches[i]))
      fail_msg ("no text: %s", inches[i]);
  svg_clear (&f);
  sheet_say (sheet, &s, "units mm");
  draw_said (sheet, &s, "draw into a.svg scale 1:5");
  said_is (&s, 0, "paper", "A4");
  svg_read (&f, "a.svg");
  for (size_t i = 0; i < CHECK_COUNT (metric); i++)
    if (!has_text (&f, metric[i]))
      fail_msg ("no text: %s", metric[i]);
  svg_clear (&f);
  /* A title that fits at no size ends where a letter ends, with a mark.  */
  char title[6 + 2 * 400 + 1] = "title ";
  for (size_t i = 6; i + 1 < sizeof title; i += 2)
    memcpy (title + i, "\xC3\xA9", 2);
  sheet_say (sheet, &s, "%s", title);
  draw_said (sheet, &s, "draw into a.svg");
  char *bytes = lesson_get ("a.svg");
  assert_non_null (strstr (bytes, "\xC3\xA9\xE2\x80\xA6<"));
  free (bytes);
  sheet_end (sheet, &s);
}

/* Laid over the sketch: outlines alone, at the sheet's scale, 0, 0 on a line of the squares.  */
static void
test_bare (void **state)
{
  br_sheet *sheet = sheet_with ("scale 1:2\ngrid 1/4\nbox deck = 8 x 1 at 1, 2\ncircle hub = 1/2 at 2, 2");
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  draw_said (sheet, &s, "draw bare into a.svg");
  said_is (&s, 0, "scale", "1:2");
  said_is (&s, 0, "left_out", "0");
  said_is (&s, 0, "lies", "on its side");
  svg_read (&f, "a.svg");
  const svg_element *deck = svg_find (&f, "rect", "deck");
  assert_int_equal (svg_number (deck, "width"), 4 * BR__INCH);
  for (size_t i = 0; i < f.count; i++)
    assert_string_not_equal (f.elements[i].name, "text");
  char *bytes = lesson_get ("a.svg");
  assert_non_null (strstr (bytes, "id=\"outlines\""));
  assert_null (strstr (bytes, "id=\"centres\""));
  free (bytes);
  /* The lines of the squares: the deck begins on the second from 0, as 1 in at 1:2 on 1/4 in does.  */
  size_t on = 0;
  for (size_t i = 1; i < f.count; i++)
    {
      const char *d = strcmp (f.elements[i].name, "path") == 0 && !f.elements[i].title ? svg_get (&f.elements[i], "d") : NULL;
      int64_t n[4];
      while (d && svg_next (&n[0], &d) && svg_next (&n[1], &d) && svg_next (&n[2], &d) && svg_next (&n[3], &d))
        on += n[0] == n[2] && n[0] == svg_number (deck, "x");
    }
  assert_true (on > 0);
  svg_clear (&f);
  draw_said (sheet, &s, "draw bare scale 4:1 into a.svg");
  said_is (&s, 0, "lies", "null");
  sheet_end (sheet, &s);
}

/* Nothing that a user typed ends an element, hides or turns the writing round.  */
static void
test_hostile (void **state)
{
  br_sheet *sheet = sheet_with ("circle wheel = 2 at 0, 0");
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  sheet_say (sheet, &s, "title <svg onload='x()'> & \"]]>\" \x01\x1b[2J \xE2\x80\xAE" "evil\ndate </text>");
  draw_said (sheet, &s, "draw into a.svg");
  char *bytes = lesson_get ("a.svg");
  for (const char *c = bytes; *c; c++)
    assert_true ((unsigned char) *c >= 0x20 || *c == '\n');
  assert_null (strstr (bytes, "\xE2\x80\xAE"));
  assert_null (strstr (bytes, "onload='"));
  free (bytes);
  svg_read (&f, "a.svg");
  assert_true (has_text (&f, "Date </text>"));
  svg_clear (&f);
  sheet_end (sheet, &s);
}

/* 1 if E or what it stands in is dashed.  */
static int
is_dashed (const svg_file *f, const svg_element *e)
{
  size_t i = (size_t) (e - f->elements);
  for (; i > 0; i = f->elements[i].parent)
    if (svg_get (&f->elements[i], "stroke-dasharray"))
      return 1;
  return 0;
}

static void
test_loose (void **state)
{
  br_sheet *sheet = sheet_with ("circle front = 3-1/2 at 0, 1-3/4\ncircle rear = back at 14, 2\n"
                                "box lid = 4 in x 1/4 in\narc hood = bend(big, 1/4) 180 deg at 3, 3\n"
                                "line strut = 0, 0 to far, 3 wide 1/2\nbox crate = 5 x 3 on lid\n");
  static const struct { const char *element, *name, *needs; } loose[] =
  {
    { "circle", "rear", "back" }, { "rect", "lid", "a place" }, { "path", "hood", "big" }, { "path", "strut", "far" },
    { "rect", "crate", "shape lid" }
  };
  said s = SAID_ZERO;
  svg_file f;
  (void) state;
  draw_said (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "loose", "5");
  said_is (&s, 0, "waiting.count", "5");
  svg_read (&f, "a.svg");
  assert_false (is_dashed (&f, svg_find (&f, "circle", "front")));
  for (size_t i = 0; i < CHECK_COUNT (loose); i++)
    {
      char path[40], note[80];
      assert_true (is_dashed (&f, svg_find (&f, loose[i].element, loose[i].name)));
      snprintf (path, sizeof path, "waiting.%zu.name", i);
      said_is (&s, 0, path, loose[i].name);
      snprintf (path, sizeof path, "waiting.%zu.needs.0", i);
      said_is (&s, 0, path, loose[i].needs);
      snprintf (note, sizeof note, "%s needs %s", loose[i].name, loose[i].needs);
      assert_true (has_text (&f, note));
    }
  svg_clear (&f);
  /* Tied down, it is dashed no more.  */
  sheet_say (sheet, &s, "back = 4");
  draw_said (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "loose", "4");
  svg_read (&f, "a.svg");
  assert_false (is_dashed (&f, svg_find (&f, "circle", "rear")));
  svg_clear (&f);
  sheet_end (sheet, &s);
}

/* A width that is 9/32 in, though no number of bits can tell, lies half way between two marks of a ruler in sixteenths:
   it is drawn, with one of them.  */
static void
test_undecided (void **state)
{
  br_sheet *sheet = sheet_with ("box slat = (9/32 in + (2*sin(sqrt 2)*cos(sqrt 2) - sin(sqrt 8)) * 1 in) x 1 in at 0, 0");
  said s = SAID_ZERO;
  (void) state;
  draw_said (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "width", "null");
  svg_file f;
  svg_read (&f, "a.svg");
  assert_true (has_text (&f, "≈1/4") || has_text (&f, "≈5/16"));
  svg_clear (&f);
  sheet_end (sheet, &s);
}

/* All that is loose still gives a drawing.  */
static void
test_all_loose (void **state)
{
  br_sheet *sheet = sheet_with ("circle front = wheel\nbox lid = 4 x deep\nline a = here, 0 to there, 1\n");
  said s = SAID_ZERO;
  (void) state;
  draw_said (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "loose", "3");
  said_is (&s, 0, "width", "null");
  sheet_end (sheet, &s);
}

/* Of many shapes the first are told, and how many more there are; a name too long for the paper ends in dots.  */
static void
test_told (void **state)
{
  char name[201];
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  memset (name, 'm', 200);
  name[200] = 0;
  sheet_say (sheet, &s, "circle %s = 1", name);
  for (int i = 1; i < 10; i++)
    sheet_say (sheet, &s, "circle w%d = 1", i);
  sheet_say (sheet, &s, "draw into a.svg");
  lesson_contains ("a.svg", ">and 4 more<", 1);
  lesson_contains ("a.svg", "mm\xE2\x80\xA6<", 1);
  sheet_end (sheet, &s);
  sheet = sheet_with ("");
  for (int i = 0; i < 203; i++)
    sheet_say (sheet, &s, "circle w%d = 1 at %d, 0", i, 2 * i);
  sheet_say (sheet, &s, "draw into a.svg");
  lesson_contains ("a.svg", "circle w199: diameter 1", 1);
  lesson_contains ("a.svg", "circle w200: diameter 1", 0);
  lesson_contains ("a.svg", "And 3 more shapes.", 1);
  sheet_end (sheet, &s);
}

/* A whole turn is two circles, each in quarters and closed: at half scale 3 in are 1,500 thousandths.  */
static void
test_ring (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("arc ring = bend(3 in, 1/4 in) 360 deg at 0, 0");
  (void) state;
  sheet_say (sheet, &s, "draw into a.svg scale 1:2");
  lesson_contains ("a.svg", "d=\"M0 1500 A1500 1500 0 0 0 1500 0 A1500 1500 0 0 0 0 -1500 A1500 1500 0 0 0 -1500 0 "
                   "A1500 1500 0 0 0 0 1500 Z M0 1625 A1625 1625 0 0 0 1625 0 A1625 1625 0 0 0 0 -1625 "
                   "A1625 1625 0 0 0 -1625 0 A1625 1625 0 0 0 0 1625 Z\"><title>ring</title>", 1);
  sheet_end (sheet, &s);
}

/* A slot has centre marks at both ends, where a drill goes in: the upright ones are 2 in apart.  */
static void
test_slot (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("line s = 1, 1 to 3, 1 wide 1/2 hole");
  (void) state;
  sheet_say (sheet, &s, "draw into a.svg scale 1:1");
  char *bytes = lesson_get ("a.svg"), *centres = strstr (bytes, "id=\"centres\""), *path = centres ? strstr (centres, "d=\"M") : NULL;
  double x[2] = { 0, 0 };
  if (!path || sscanf (path, "d=\"M%*f %*f L%*f %*f M%lf %*f L%*f %*f M%*f %*f L%*f %*f M%lf", &x[0], &x[1]) != 2
      || fabs (x[1] - x[0] - 2000) > 1e-6)
    fail_msg ("%f and %f: %s", x[0], x[1], path ? path : "no centre marks");
  free (bytes);
  sheet_say (sheet, &s, "line s = 1, 1 to 3, 1 wide 1/2\ndraw into a.svg scale 1:1");
  lesson_contains ("a.svg", "id=\"centres\"", 0);
  sheet_end (sheet, &s);
}

/* Drills of a metric sheet are metric: by 0.1 mm, and 4.25 between 4.2 and 4.3 (ISO 235 and DIN 338, jobber series, from
   memory).  The grain is shown where a part is long enough for the word.  */
static void
test_template_words (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("units mm\ncircle rim = 60 at 0, 0 of body\ncircle hub = 6 at 0, 0 of body hole\n"
                                "circle a = 6.13 at 20, 0 of body hole\ncircle b = 4.25 at 0, 20 of body hole\n"
                                "circle c = 2.05 at -20, 0 of body hole\ncircle d = 15.3 at 0, 70 of body hole\n"
                                "circle e = 25 at 0, 120 of body hole\npart bit = 1 in x 1 in\npart slat = 8 in x 2 in\n"
                                "part side = 120 x 60\nbox edge = 60 x 120 at 0, 0 of side\ncircle middle = 20 at 30, 60 of side hole");
  (void) state;
  sheet_say (sheet, &s, "template body into a.svg");
  said_is (&s, 0, "drills.0", "drill 6 mm");
  said_is (&s, 0, "drills.1", "\xE2\x8C\x80 6.13, nearest drill 6.1 mm");
  said_is (&s, 0, "drills.2", "drill 4.25 mm");
  said_is (&s, 0, "drills.3", "drill 2.05 mm");
  said_is (&s, 0, "drills.4", "\xE2\x8C\x80 15.3, nearest drill 15.25 mm");
  said_is (&s, 0, "drills.5", "\xE2\x8C\x80 25, too large for a drill");
  sheet_say (sheet, &s, "template bit into a.svg");
  lesson_contains ("a.svg", ">grain<", 0);
  lesson_contains ("a.svg", "bit, full size, grain along its length<", 1);
  sheet_say (sheet, &s, "template slat into a.svg");
  lesson_contains ("a.svg", ">grain<", 1);
  lesson_contains ("a.svg", "along its length", 0);
  /* Shapes show the part across its length.  */
  sheet_say (sheet, &s, "template side into a.svg");
  lesson_contains ("a.svg", ">grain<", 1);
  sheet_end (sheet, &s);
}

/* A sheet in feet says inches with a drill in fractions of one, and each hole of a row is one to be drilled.  */
static void
test_template_feet (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("units ft\nbox rim = 6 in x 4 in at 0, 0 of body\ncircle a = 3/8 in at 1 in, 1 in hole of body\n"
                                "row slats of a qty 3 by 1 in of body");
  (void) state;
  sheet_say (sheet, &s, "template body into a.svg");
  said_is (&s, 0, "drills.0", "drill 3/8 in");
  said_is (&s, 0, "holes", "3");
  sheet_end (sheet, &s);
}

/* Dimensions and notes that were asked for: on the page with what they say, and only where their shapes are drawn.  */
static void
test_asked (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("circle a = 4 at 0, 2\ncircle b = 6 at 14, 3\nbox d = 20 x 1 at -2, 7 layer wood\n"
                                "dimension centre(a) to centre(b) off 1\n"
                                "dimension corner(d, left top) to centre(a) off -2 as \"aslant\"\n"
                                "dimension centre(a) to corner(a, left top)\ndimension left(d) to right(d) off -2 as to suit\n"
                                "dimension left(waits) to right(d)\ndimension left(a) to left(a)\n"
                                "note \"far left\" at -12, 20\nnote \"to none\" at 3, 3 to nothing\n"
                                "note \"beside\" at 30, -5 to b\nnote \"waits\" at there, 2\nno dimension b\nno dimension b");
  (void) state;
  sheet_say (sheet, &s, "draw into a.svg scale 1:8");
  static const char *const texts[] = { ">aslant<", ">to suit<", ">far left<", ">to none<", ">beside<", ">b<", ">a \xE2\x8C\x80 4<" };
  for (size_t i = 0; i < CHECK_COUNT (texts); i++)
    lesson_contains ("a.svg", texts[i], 1);
  lesson_contains ("a.svg", ">waits<", 0);
  /* 14.0357 in from centre to centre, 2.8284 in to the corner, which is told below where it has no room; on sixteenths.  */
  lesson_contains ("a.svg", ">\xE2\x89\x88" "14-1/16<", 1);
  lesson_contains ("a.svg", "\xE2\x89\x88" "2-13/16<", 1);
  sheet_say (sheet, &s, "draw layer wood into a.svg scale 1:8");
  lesson_contains ("a.svg", ">aslant<", 0);
  lesson_contains ("a.svg", ">to suit<", 1);
  sheet_say (sheet, &s, "no dimension left(d) to right(d)");
  sheet_say (sheet, &s, "draw layer wood into a.svg scale 1:8");
  lesson_contains ("a.svg", ">to suit<", 0);
  lesson_contains ("a.svg", ">20<", 1);
  sheet_end (sheet, &s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (test_record), CHECK_TEST (test_exact_extent), CHECK_TEST (test_scale), CHECK_TEST (test_wrong),
    CHECK_TEST (test_nothing_to_draw), CHECK_TEST (test_old_file), CHECK_TEST (test_title_block), cmocka_unit_test (test_bare),
    CHECK_TEST (test_hostile), CHECK_TEST (test_loose), CHECK_TEST (test_all_loose), CHECK_TEST (test_undecided),
    CHECK_TEST (test_told), CHECK_TEST (test_template_words), CHECK_TEST (test_asked),
    CHECK_TEST (test_ring), CHECK_TEST (test_slot), CHECK_TEST (test_template_feet)
  };
  check_start ();
  int failed = cmocka_run_group_tests (tests, lesson_enter, lesson_leave);
  return check_end (failed);
}
