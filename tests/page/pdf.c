/* SPDX-License-Identifier: GPL-3.0-or-later
   pdf.c - drawings and templates as PDF, measured back: the strokes of the file against those of the same drawing as
   SVG, whose places are tested against the sheet.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../draw/figure.h"
#include "pdf.h"
#include "../draw/svg.h"

#include <dlfcn.h>
#include <math.h>
#include <sys/stat.h>

/* 1/7200 in, in points.  */
#define CLOSE 0.01

static const br_painter *painter;

static const br_painter *
find_painter (void *user, br_error *error)
{
  (void) user;
  (void) error;
  return painter;
}

static int
enter (void **state)
{
  char path[4096];
  const char *folder = getenv ("builddir");
  snprintf (path, sizeof path, "%s/.libs/libbenchrule-draw.so", folder ? folder : ".");
  void *module = dlopen (path, RTLD_NOW | RTLD_LOCAL);
  painter = module ? dlsym (module, "br_draw_painter") : NULL;
  return lesson_enter (state);
}

typedef struct pair
{
  svg_file svg;
  pdf_page pdf;
} pair;

static void
pair_clear (pair *p)
{
  svg_clear (&p->svg);
  free (p->pdf.points);
}

/* STATEMENT of the sheet TEXT as both files.  */
static void
draw_both (pair *p, const char *text, const char *statement)
{
  br_sheet *sheet = sheet_with (text);
  said s = SAID_ZERO;
  struct stat info;
  br_sheet_set_painter (sheet, find_painter, NULL);
  sheet_say (sheet, &s, "%s into a.svg", statement);
  svg_read (&p->svg, "a.svg");
  sheet_say (sheet, &s, "%s into a.pdf", statement);
  said_is (&s, 0, "pages", "1");
  sheet_end (sheet, &s);
  char *bytes = lesson_get ("a.pdf");
  assert_int_equal (stat ("a.pdf", &info), 0);
  pdf_read (&p->pdf, bytes, (size_t) info.st_size);
  free (bytes);
  assert_true (p->pdf.count > 100);
  assert_true (fabs (p->pdf.height - (double) p->svg.height * 72e-9) < CLOSE);
}

static double
points (int64_t billionths)
{
  return (double) billionths * 72e-9;
}

/* A stroke straight from X Y to X2 Y2, either way.  */
static int
has_line (const pdf_page *p, double x, double y, double x2, double y2)
{
  for (size_t i = 1; i < p->count; i++)
    for (int k = 0; k < 2; k++)
      {
        const pdf_point *a = &p->points[k ? i : i - 1], *b = &p->points[k ? i - 1 : i];
        if (!p->points[i].begins && !p->points[i].curved && hypot (a->x - x, a->y - y) < CLOSE
            && hypot (b->x - x2, b->y - y2) < CLOSE)
          return 1;
      }
  return 0;
}

/* How many ends of curves lie on the circle.  */
static size_t
ends_on (const pdf_page *p, double x, double y, double r)
{
  size_t found = 0;
  for (size_t i = 0; i < p->count; i++)
    found += p->points[i].curved && fabs (hypot (p->points[i].x - x, p->points[i].y - y) - r) < CLOSE;
  return found;
}

static void
has_circle (const pair *p, const svg_element *e)
{
  if (ends_on (&p->pdf, points (svg_number (e, "cx")), points (svg_number (e, "cy")), points (svg_number (e, "r"))) < 4)
    fail_msg ("no circle where %s is", e->title);
}

static void
has_box (const pair *p, const svg_element *e)
{
  double x = points (svg_number (e, "x")), y = points (svg_number (e, "y"));
  double x2 = x + points (svg_number (e, "width")), y2 = y + points (svg_number (e, "height"));
  if (!has_line (&p->pdf, x, y, x2, y) || !has_line (&p->pdf, x2, y, x2, y2) || !has_line (&p->pdf, x2, y2, x, y2)
      || !has_line (&p->pdf, x, y2, x, y))
    fail_msg ("no box where %s is", e->title);
}

/* A bar: its two sides.  A fender: ends of curves on both radii around the centre.  */
static void
has_path (const pair *p, const svg_element *e)
{
  const char *d = svg_get (e, "d"), *move = svg_get (e, "transform");
  int64_t n[4], x = 0, y = 0;
  if (!move)
    {
      for (int i = 0; i < 4; i++)
        assert_true (svg_next (&n[i], &d));
      if (!has_line (&p->pdf, points (n[0]), points (n[1]), points (n[2]), points (n[3])))
        fail_msg ("no side of a bar where %s is", e->title);
      return;
    }
  assert_true (svg_next (&x, &move) && svg_next (&y, &move));
  while ((d = strchr (d, 'A')) != NULL)
    {
      d++;
      assert_true (svg_next (&n[0], &d));
      if (ends_on (&p->pdf, points (x), points (y), points (n[0])) < 2)
        fail_msg ("no curve around the centre of %s", e->title);
    }
}

/* Each stroke that has a name is in both files; the plain lines of the SVG, too.  */
static size_t
all_are_there (const pair *p)
{
  size_t found = 0;
  for (size_t i = 1; i < p->svg.count; i++)
    {
      const svg_element *e = &p->svg.elements[i];
      int64_t n[4] = { 0 };
      found += e->title != NULL;
      if (e->title && strcmp (e->name, "circle") == 0)
        has_circle (p, e);
      else if (e->title && strcmp (e->name, "rect") == 0)
        has_box (p, e);
      else if (e->title && strcmp (e->name, "path") == 0)
        has_path (p, e);
      else if (!e->title && strcmp (e->name, "path") == 0 && !svg_get (e, "fill"))
        for (const char *d = svg_get (e, "d"); svg_next (&n[0], &d); )
          {
            assert_true (svg_next (&n[1], &d) && svg_next (&n[2], &d) && svg_next (&n[3], &d));
            if (!has_line (&p->pdf, points (n[0]), points (n[1]), points (n[2]), points (n[3])))
              fail_msg ("no line from %" PRId64 " %" PRId64 " to %" PRId64 " %" PRId64, n[0], n[1], n[2], n[3]);
          }
    }
  return found;
}

static void
test_cart (void **state)
{
  pair p;
  (void) state;
  if (!painter)
    skip ();
  draw_both (&p, "wheel = 3-1/2\ncircle front = wheel at 0, wheel / 2\ncircle rear = wheel at 4 * wheel, wheel / 2\n"
             "arc front_mudguard = fender(front, 5/16, 1/4) 180 deg\narc rear_mudguard = fender(rear, 5/16, 1/4) 200 deg\n"
             "box deck = 22-3/4 x 3/4 at -4-3/8, 4-3/16\nline shaft = 0, 3-13/16 to -26, 18-13/16 wide 3/4\n", "draw");
  assert_int_equal (all_are_there (&p), 7);    /* and the mark of the datum */
  pair_clear (&p);
}

static void
test_template (void **state)
{
  pair p;
  (void) state;
  if (!painter)
    skip ();
  draw_both (&p, "part plate = 6 x 3\nbox edge = 6 x 3 at 0, 0 of plate\ncircle h1 = 3/8 at 1, 1 hole of plate\n"
             "circle h2 = 0.4 at 5, 1-1/2 hole of plate\n", "template plate");
  assert_int_equal (all_are_there (&p), 4);
  /* And by hand: 6 in are 432 points, 3 in 216.  */
  size_t wide = 0, high = 0;
  for (size_t i = 1; i < p.pdf.count; i++)
    {
      const pdf_point *a = &p.pdf.points[i - 1], *b = &p.pdf.points[i];
      wide += !b->begins && fabs (fabs (a->x - b->x) - 432) < CLOSE && fabs (a->y - b->y) < CLOSE;
      high += !b->begins && fabs (fabs (a->y - b->y) - 216) < CLOSE && fabs (a->x - b->x) < CLOSE;
    }
  assert_int_equal (wide, 2);
  assert_int_equal (high, 2);
  pair_clear (&p);
}

/* 297 mm are no whole number of points: 297 / 25.4 * 72 = 841.8898 (ISO 216 has the millimetres).  */
static void
test_a4 (void **state)
{
  pair p;
  (void) state;
  if (!painter)
    skip ();
  draw_both (&p, "paper a4\ncircle front = 3-1/2 at 0, 1-3/4\n", "draw");
  assert_int_equal (all_are_there (&p), 2);
  assert_true (fabs (p.pdf.height - 841.8898) < CLOSE);
  pair_clear (&p);
}

/* A line that ends between two words of a text ends with a blank, as it is read aloud without its line breaks
   (ISO 32000-1, 14.8.2.5, from memory).  */
static void
test_words_apart (void **state)
{
  br_page *made = NULL;
  char *bytes = NULL, *text;
  size_t length = 0, found = 0;
  br_page_text line = { .text = "hop hop hop hop hop", .y = BR_PAGE_INCH, .width = BR_PAGE_INCH, .size = BR_PAGE_INCH / 4 };
  (void) state;
  if (!painter)
    skip ();
  check_ok (painter->open (&made, "pdf", 4 * BR_PAGE_INCH, 4 * BR_PAGE_INCH, "", NULL));
  painter->text (made, NULL, &line, 1);
  check_ok (painter->close (&bytes, &length, made, NULL));
  for (const char *at = bytes + 1; (text = pdf_stream (&at, bytes + length)) != NULL; free (text))
    for (const char *word = text; (word = strstr (word, "hop ")) != NULL; word++)
      found++;
  painter->release (bytes);
  assert_int_equal (found, 4);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_cart), cmocka_unit_test (test_template),
                                      cmocka_unit_test (test_a4), cmocka_unit_test (test_words_apart) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, enter, lesson_leave));
}
