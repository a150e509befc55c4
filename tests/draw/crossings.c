/* SPDX-License-Identifier: GPL-3.0-or-later
   crossings.c - how clean a page is: leaders that cross leaders or dimension lines, texts on lines, leaders that are too long or
   too flat, and how much is left to the table.  Of the examples, and of designs up to 35 shapes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "ask.h"
#include "draw/by_hand.h"
#include "source.h"

#include <math.h>

typedef struct counts
{
  size_t leaders, dimensions, texts, askew, listed;
  size_t untied;                /* shapes that neither a name nor a balloon is at */
  size_t strays;                /* names inside of another shape that lies in their own */
} counts;

/* The side of X Y on which the line of K lies, by sign.  */
static double
side_of (const br__ink *k, int64_t x, int64_t y)
{
  return (double) (k->x2 - k->x) * (double) (y - k->y) - (double) (k->y2 - k->y) * (double) (x - k->x);
}

static int
cross (const br__ink *a, const br__ink *b)
{
  return side_of (a, b->x, b->y) * side_of (a, b->x2, b->y2) < 0 && side_of (b, a->x, a->y) * side_of (b, a->x2, a->y2) < 0;
}

static int
is_line (const br__ink *k, br__group group)
{
  return k->type == BR__INK_LINE && k->group == group;
}

static br__area
area_of_text (const br__ink *k)
{
  br__area a = br__text_area (0, 0, k->align, k->size, k->text);
  if (k->turned)
    return (br__area) { k->x + a.y, k->y + a.x, k->x + a.y2, k->y + a.x2 };
  return (br__area) { k->x + a.x, k->y + a.y, k->x + a.x2, k->y + a.y2 };
}

/* The straight lines of the outline or stroke K that run through A.  */
static size_t
lines_through (const br__ink *k, br__area a)
{
  br__path_step room[BR__MOST_STEPS];
  size_t count, found = 0;
  const br__path_step *s = br__ink_steps (&count, room, k), *start = s;
  for (size_t i = 1; i < count && k->type != BR__INK_STRIP && k->type != BR__INK_BAR; i++)
    {
      const br__path_step *to = s[i].type == BR__STEP_CLOSE ? start : &s[i];
      if (to->type != BR__STEP_ARC && s[i - 1].type != BR__STEP_ARC)
        found += (size_t) br__segment_meets (s[i - 1].x, s[i - 1].y, to->x, to->y, a);
    }
  return found;
}

static void
look_at_leader (counts *c, const br__plot *p, size_t index)
{
  const br__ink *k = &p->inks[index];
  double x = fabs ((double) (k->x2 - k->x)), y = fabs ((double) (k->y2 - k->y)), angle = atan2 (y, x) * 180 / acos (-1);
  c->askew += angle < 29.9 || angle > 60.1 || hypot (x, y) > 1.5e9;
  for (size_t i = 0; i < p->count; i++)
    {
      c->leaders += i > index && is_line (&p->inks[i], BR__GROUP_LEADERS) && cross (k, &p->inks[i]);
      c->dimensions += is_line (&p->inks[i], BR__GROUP_DIMENSIONS) && cross (k, &p->inks[i]);
    }
}

static void
look (counts *c, const br__plot *p)
{
  for (size_t i = 0; i < p->count; i++)
    {
      const br__ink *k = &p->inks[i];
      if (is_line (k, BR__GROUP_LEADERS))
        look_at_leader (c, p, i);
      if (k->type != BR__INK_TEXT || k->apart)
        continue;
      for (size_t n = 0; n < p->count; n++)
        if (p->inks[n].group != BR__GROUP_GRID && !p->inks[n].apart && p->inks[n].type != BR__INK_TEXT)
          c->texts += lines_through (&p->inks[n], area_of_text (k));
    }
}

/* The names of V that stand inside of a box or a circle which lies in the shape that is called so: a reader takes them for its.  */
static size_t
strays_of (const br__plot *p, const br__side_view *v)
{
  size_t count = 0;
  for (size_t i = 0; i + 1 < p->count; i++)
    for (const br__drawn *d = v->shapes; d < v->shapes + v->count && p->inks[i].type == BR__INK_TEXT; d++)
      for (const br__drawn *o = v->shapes; o < v->shapes + v->count && strcmp (p->inks[i].text, d->label) == 0; o++)
        {
          const int64_t x = p->inks[i].x - p->square_x, y = p->square_y - p->inks[i].y;
          const br__area *a = &o->reach, *b = &d->reach;
          count += o != d && p->inks[i].align == BR_ALIGN_MIDDLE && (o->shape->kind == BR__BOX || o->shape->kind == BR__CIRCLE) && x > a->x
                   && x < a->x2 && y > a->y && y < a->y2 && a->x >= b->x && a->x2 <= b->x2 && a->y >= b->y && a->y2 <= b->y2;
        }
  return count;
}

/* How often a leader of P runs through the middle of a circle of V that it does not end at: a reader takes it for that of the circle.  */
static size_t
through_holes (const br__plot *p, const br__side_view *v, int64_t left, int64_t top)
{
  size_t count = 0;
  for (size_t i = 0; i < p->count; i++)
    for (const br__drawn *d = v->shapes; d < v->shapes + v->count && is_line (&p->inks[i], BR__GROUP_LEADERS); d++)
      {
        const br__ink *k = &p->inks[i];
        const double x = (double) (left + d->x - k->x), y = (double) (top - d->y - k->y), run = (double) (k->x2 - k->x),
                     rise = (double) (k->y2 - k->y), length = hypot (run, rise), along = (x * run + y * rise) / length;
        count += d->shape->kind == BR__CIRCLE && d->a < BR__INCH / 8 && along > 0 && along < length - (double) d->a / 2
                 && fabs (x * rise - y * run) / length < (double) d->a / 4;
      }
  return count;
}

/* The figure of SHEET, which it takes over, at the scale that `draw` takes.  */
static counts
count_of (br_sheet *sheet)
{
  counts c = { 0, 0, 0, 0, 0, 0, 0 };
  said s = SAID_ZERO;
  br_error error;
  br__run run = { .sheet = sheet, .error = &error };
  br__side_view view = BR__VIEW_ZERO;
  br__plot plot = { .inks = NULL };
  br__draw_result result;
  br_number ratio = BR_NUMBER_ZERO;
  sheet_say (sheet, &s, "draw into a.svg");
  const char *scale = said_get (&s, 0, "scale");
  check_ok (br_scale_read (&ratio, scale, strlen (scale), NULL));
  check_ok (br__view_make (&view, &run, &ratio, NULL, NULL));
  check_ok (br__draw_side (&plot, &result, &run, &view, BR__INCH / 4, 10 * BR__INCH, 10 * BR__INCH));
  look (&c, &plot);
  c.listed = result.unmeasured + result.unlabelled + result.unplaced;
  for (size_t i = 0; i < view.count; i++)
    c.untied += (size_t) (view.shapes[i].unlabelled && !view.shapes[i].balloon);
  c.strays = strays_of (&plot, &view);
  br__plot_clear (&plot);
  br__view_clear (&view);
  br_number_clear (&ratio);
  sheet_end (sheet, &s);
  return c;
}

static void
test_designs (void **state)
{
  /* What is left to lists is a figure to be held or bettered; corners of outlines, two rows of the cart, stand there always.  */
  static const struct { const char *name; size_t listed; } rows[] =
  {
    { "docs/examples/market_cart_side.sheet", 12 }, { "tests/data/barrow.sheet", 22 }, { "tests/data/duck.sheet", 28 },
    { "tests/data/crane.sheet", 38 }, { "tests/data/loader.sheet", 47 }, { "tests/data/board.sheet", 51 }, { "tests/data/boat.sheet", 24 },
    { "tests/data/shelf.sheet", 30 }, { "tests/data/birdhouse.sheet", 30 }, { "tests/data/train.sheet", 57 },
    { "tests/data/seesaw.sheet", 33 }, { "tests/data/houses.sheet", 91 }, { "tests/data/tool_board.sheet", 76 },
    { "tests/data/beetle.sheet", 19 }, { "tests/data/marble_run.sheet", 34 }, { "tests/data/stool.sheet", 14 }, { "tests/data/bench.sheet", 21 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      char path[PATH_MAX + 80];
      snprintf (path, sizeof path, "%s/%s", source, rows[i].name);
      counts c = count_of (sheet_open (path));
      print_message ("# %s: leaders on leaders %zu, on dimension lines %zu, texts on lines %zu, askew %zu, in lists %zu, untied %zu\n",
                     rows[i].name, c.leaders, c.dimensions, c.texts, c.askew, c.listed, c.untied);
      assert_int_equal (c.leaders, 0);
      assert_int_equal (c.dimensions, 0);
      assert_int_equal (c.texts, 0);
      assert_int_equal (c.askew, 0);
      /* Whoever reads the list finds each of its names, or its number, on the figure.  */
      assert_int_equal (c.untied, 0);
      assert_int_equal (c.strays, 0);
      assert_in_range (c.listed, 0, rows[i].listed);
    }
}

/* How often TEXT stands among the inks of P from FIRST on, alone or in a list.  */
static int
stands (const br__plot *p, size_t first, const char *text)
{
  int found = 0;
  for (size_t i = first; i < p->count; i++)
    found += p->inks[i].type == BR__INK_TEXT && strstr (p->inks[i].text, text) != NULL;
  return found;
}

/* The shape of F, a circle, that the balloon with the text at INDEX belongs to: its leader ends there, or it is the nearest.  */
static const br__drawn *
circle_of_balloon (const figure *f, size_t index)
{
  const br__ink *text = &f->plot.inks[index], *leader = text + 1;
  const int pointed = is_line (leader, BR__GROUP_LEADERS);
  const br__drawn *found = NULL;
  double best = 0;
  for (const br__drawn *d = f->view.shapes; d < f->view.shapes + f->view.count; d++)
    {
      const double x = (double) ((pointed ? leader->x2 : text->x) - f->left - d->x), y = (double) (f->top - (pointed ? leader->y2 : text->y) - d->y);
      const double off = fabs (hypot (x, y) - (double) d->a);
      if (d->shape->kind == BR__CIRCLE && (!found || off < best))
        {
          found = d;
          best = off;
        }
    }
  assert_true (best < (pointed ? 100 : 0.2e9));
  return found;
}

/* Pegs of one size are told as a chart of holes is: a number beside each, one size and one row for all of them.  */
static void
test_series (void **state)
{
  (void) state;
  for (long n = check_times (20); n > 0; n--)
    {
      figure f;
      size_t balloons = 0, sizes = 0;
      char size[40], row[80];
      const int64_t rows = check_between (2, 5), columns = check_between (3, 7), count = rows * columns, even = check_below (2);
      figure_make (&f, peg_board (rows, columns, check_between (12, 24), (int) even), 1, 2);
      snprintf (size, sizeof size, "%" PRId64 "x \xE2\x8C\x80 1/4", count);
      snprintf (row, sizeof row, "(1 to %" PRId64 ") peg_1 to %" PRId64 " \xE2\x8C\x80 1/4", count, count);
      for (size_t i = 0; i < f.plot.count; i++)
        {
          const br__ink *k = &f.plot.inks[i];
          if (k->type != BR__INK_TEXT || k->apart)
            continue;
          sizes += strcmp (k->text, size) == 0;
          if (i + 3 >= f.plot.count)
            continue;
          const br__ink *round = k + (is_line (k + 1, BR__GROUP_LEADERS) ? 3 : 1);
          if (round->type == BR__INK_CIRCLE && round->x == k->x && round->y == k->y)
            {
              const br__drawn *d = circle_of_balloon (&f, i);
              assert_int_equal (d->balloon, strtoul (k->text, NULL, 10));
              balloons++;
            }
        }
      assert_int_equal (balloons, count);
      assert_int_equal (sizes, 1);
      br__view_at at = { &f.view, &f.lines[0], &f.lines[1], f.left, f.top, 0 };
      const size_t before = f.plot.count;
      size_t table = 0;
      int64_t height = 0;
      check_ok (br__places_plot (&f.plot, &table, &height, &f.run, &at, (br__area) { 0, f.plot.height, 8 * BR__INCH, 0 }));
      assert_int_equal (stands (&f.plot, before, row), 1);
      /* Four columns or more in equal steps are measured by one line.  */
      size_t pitches = 0;
      for (int u = 0; u < 2; u++)
        for (size_t i = 0; i < f.lines[u].placed; i++)
          if (f.lines[u].rows[i].steps)
            {
              pitches++;
              assert_int_equal (f.lines[u].rows[i].steps, (u ? rows : columns) - 1);
            }
      if (even)
        assert_int_equal (pitches, (columns >= 4) + (rows >= 4));
      figure_clear (&f);
    }
}

/* A figure that has room on the paper does not shrink to a quarter for its table's sake: at 1:20 both would go on one sheet.  */
static void
test_long_table (void **state)
{
  char path[PATH_MAX + 80];
  said s = SAID_ZERO;
  (void) state;
  snprintf (path, sizeof path, "%s/tests/data/houses.sheet", source);
  br_sheet *sheet = sheet_open (path);
  sheet_say (sheet, &s, "draw into a.svg");
  said_is (&s, 0, "scale", "1:5");
  sheet_end (sheet, &s);
}

/* The same of designs that nobody chose.  */
static void
test_random (void **state)
{
  (void) state;
  for (long n = check_times (40); n > 0; n--)
    {
      figure f;
      counts c = { 0, 0, 0, 0, 0, 0, 0 };
      /* With depths some edges are hidden: thin and dashed, and no text stands on them either.  */
      int count = 1 + (int) check_below (35);
      figure_make (&f, random_deep_shapes (count, 160, 96, (int) (n % 2)), 1, 2);
      look (&c, &f.plot);
      assert_int_equal (c.leaders, 0);
      assert_int_equal (c.dimensions, 0);
      assert_int_equal (c.texts, 0);
      assert_int_equal (c.askew, 0);
      figure_clear (&f);
    }
}

/* Pegs anywhere on a board: no leader runs through the hole of another.  */
static void
test_pegs (void **state)
{
  (void) state;
  for (long n = check_times (20); n > 0; n--)
    {
      char text[4000];
      int length = snprintf (text, sizeof text, "box board = 36 x 12 at 0, 0\n");
      for (int i = 1; i <= 35; i++)
        length += snprintf (text + length, sizeof text - (size_t) length, "circle peg_%d = 3/4 at %d/4, %d/4 hole\n", i, 4 * i + (int) check_below (4),
                            2 + (int) check_below (44));
      figure f;
      figure_make (&f, sheet_with (text), 1, 8);
      assert_int_equal (through_holes (&f.plot, &f.view, f.left, f.top), 0);
      /* Across there are 35 places, which a chart tells; the lines are of the board, and of steps that happen to be equal.  */
      assert_in_range (f.lines[0].placed, 1, 2);
      figure_clear (&f);
    }
}

/* With dimensions and notes that were asked for; leaders of notes go as far as the person has them go.  */
static void
test_asked (void **state)
{
  (void) state;
  for (long n = check_times (40); n > 0; n--)
    {
      br_sheet *sheet = random_shapes (1 + (int) check_below (20), 320, 160);
      ask (sheet, 1);
      counts c = count_of (sheet);
      assert_int_equal (c.leaders, 0);
      assert_int_equal (c.dimensions, 0);
      assert_int_equal (c.texts, 0);
    }
}

/* What was asked for and finds no room is not put on other lines: it stands below, each piece whole.  */
static void
test_no_room (void **state)
{
  static const char *const pieces[] = { "centre(a) to centre(b): 5", "note to a: sand well", "note: all of it oak" };
  figure f;
  br_text unplaced = BR_TEXT_ZERO;
  size_t left_out = 0, rows = 0;
  int64_t height = 0;
  (void) state;
  br_sheet *sheet = sheet_with ("circle a = 1 at 0, 0\ncircle b = 1 at 3, 4\ndimension centre(a) to centre(b)\n"
                                "note \"sand well\" at 2, 0 to a\nnote \"all of it oak\" at 4, 0\n");
  figure_make (&f, sheet, 1, 1);
  br__view_at at = { &f.view, &f.lines[0], &f.lines[1], f.left, f.top, 0 };
  size_t before = f.plot.count;
  check_ok (br__hand_plot (&f.plot, &left_out, &unplaced, &f.run, &at, (br__area) { 0, 0, 0, 0 }));
  assert_int_equal (left_out, 3);
  assert_int_equal (f.plot.count, before);
  assert_string_equal (br__text_string (&unplaced), "centre(a) to centre(b): 5\nnote to a: sand well\nnote: all of it oak");
  br__text_clear (&f.view.unplaced);
  f.view.unplaced = unplaced;
  check_ok (br__places_plot (&f.plot, &rows, &height, &f.run, &at, (br__area) { 0, f.plot.height, 5 * BR__INCH / 2, 0 }));
  for (size_t i = 0; i < CHECK_COUNT (pieces); i++)
    assert_int_equal (stands (&f.plot, before, pieces[i]), 1);
  figure_clear (&f);
  figure_make (&f, sheet_with ("circle a = 1 at 0, 0\ncircle b = 1 at 3, 4\ndimension centre(a) to centre(b) off 1\n"
                               "note \"sand well\" at 2, 0 to a\nnote \"all of it oak\" at 4, 0\n"), 1, 1);
  at = (br__view_at) { &f.view, &f.lines[0], &f.lines[1], f.left, f.top, 0 };
  before = f.plot.count;
  check_ok (br__hand_plot (&f.plot, &left_out, &f.view.unplaced, &f.run, &at, (br__area) { 0, 0, f.plot.width, f.plot.height }));
  assert_int_equal (left_out, 0);
  assert_int_equal (stands (&f.plot, before, "sand well") + stands (&f.plot, before, "all of it oak"), 2);
  figure_clear (&f);
}

/* How far X Y is from the piece K of an outline, an arc or a side.  */
static double
off_piece (const br__drawn_piece *k, double x, double y)
{
  double run = (double) (k->x2 - k->x), rise = (double) (k->y2 - k->y);
  if (k->turn)
    return fabs (hypot (x - (double) k->centre_x, y - (double) k->centre_y) - (double) k->radius);
  return fabs ((x - (double) k->x) * rise - (y - (double) k->y) * run) / hypot (run, rise);
}

/* The size of a round or a cut stands on the figure once for all of its size, and its arrow ends on one of these (ASME Y14.5 and
   ISO 129-1, sections on radii and chamfers, from memory).  */
static void
test_corners (void **state)
{
  size_t found[2] = { 0, 0 };
  (void) state;
  for (long n = check_times (40); n > 0; n--)
    {
      char words[400], form[4][40];
      int64_t wide = check_between (3, 12), high = check_between (3, 12);
      for (int i = 0; i < 4; i++)
        {
          int64_t size = check_between (1, 4), other = check_between (1, 4);
          if (check_below (2))
            snprintf (form[i], sizeof form[i], "round %" PRId64 "/4", size);
          else
            snprintf (form[i], sizeof form[i], "cut %" PRId64 "/4 x %" PRId64 "/4", size, other);
        }
      snprintf (words, sizeof words, "outline o = 0, 0 %s to %" PRId64 ", 0 %s to %" PRId64 ", %" PRId64 " %s to 0, %" PRId64
                " %s\ncircle hole = 1 at %" PRId64 "/2, %" PRId64 "/2 hole\n", form[0], wide, form[1], wide, high, form[2], high, form[3], wide,
                high);
      figure f;
      counts c = { 0, 0, 0, 0, 0, 0, 0 };
      figure_make (&f, sheet_with (words), 1, 2);
      look (&c, &f.plot);
      assert_int_equal (c.leaders + c.dimensions + c.texts + c.askew, 0);
      const br__drawn *d = &f.view.shapes[0];
      for (size_t i = 0; i + 2 < f.plot.count; i++)
        {
          const br__ink *text = &f.plot.inks[i], *arrow = text + 2;
          const char *cut = text->type == BR__INK_TEXT ? strstr (text->text, "cut ") : NULL;
          const char *size = text->type != BR__INK_TEXT ? NULL : cut ? cut : strstr (text->text, "R ");
          size_t alike = 0, touched = 0;
          if (!size || arrow->type != BR__INK_ARROW)
            continue;
          for (size_t k = 0; k < d->piece_count; k++)
            if (strcmp (d->pieces[k].size, size) == 0)
              {
                alike++;
                touched += off_piece (&d->pieces[k], (double) (arrow->x - f.left), (double) (f.top - arrow->y)) < 10;
              }
          assert_int_equal (alike, size != text->text ? strtoul (text->text, NULL, 10) : 1);
          assert_true (touched > 0);
          found[cut != NULL]++;
        }
      figure_clear (&f);
    }
  assert_true (found[0] > 0 && found[1] > 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_designs), CHECK_TEST (test_series), CHECK_TEST (test_long_table), CHECK_TEST (test_random), CHECK_TEST (test_pegs), CHECK_TEST (test_asked),
                                      cmocka_unit_test (test_no_room), CHECK_TEST (test_corners) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, source_enter, lesson_leave));
}
