/* SPDX-License-Identifier: GPL-3.0-or-later
   figure.c - what dimension lines say and where they lie, and that no text covers another or an outline:
   on the market cart by hand, on random shapes against the places of the strokes themselves.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "figure.h"
#include "plot/ink_map.h"

#include <math.h>

static const char *const cart =
  "wheel = 3-1/2\n"
  "circle front = wheel at 0, wheel / 2\n"
  "circle rear = wheel at 4 * wheel, wheel / 2\n"
  "circle front_axle = 15/32 same centre as front hole\n"
  "arc mudguard = fender(front, 5/16, 1/4) 180 deg\n"
  "box deck = 22-3/4 x 3/4 at -4-3/8, 4-3/16\n"
  "box side = 21-3/4 x 4.55 on deck\n";

/* ---- By hand ---- */

static const br__size_line *
row_called (const br__size_lines *d, const char *text)
{
  for (size_t i = 0; i < d->count; i++)
    if (strcmp (d->rows[i].text, text) == 0)
      return &d->rows[i];
  fail_msg ("no size says %s", text);
  return NULL;
}

static void
test_cart (void **state)
{
  figure f;
  (void) state;
  figure_make (&f, sheet_with (cart), 1, 2);
  const br__size_lines *level = &f.lines[0], *up = &f.lines[1];
  /* Wheelbase 4 x 3-1/2; deck; side: 22-3/4 - 2 x 1/2; the front axle, 4-3/8 from the end of the deck, and the side, 1/2 in.  The
     deck is the overall length.  */
  assert_int_equal (level->count, 5);
  const br__size_line *base = row_called (level, "14"), *side = row_called (level, "21-3/4");
  const br__size_line *deck = row_called (level, "22-3/4");
  /* The side stands on the deck: its length is told above.  */
  assert_true (side->far && !base->far && !deck->far);
  assert_int_equal (base->tier, 0);
  assert_int_equal (deck->tier, level->tiers[0] - 1);
  assert_int_equal (base->to - base->from, 7 * BR__INCH);       /* half size */
  assert_int_equal (deck->to - deck->from, 11375000000);
  /* Axles 1-3/4 over the floor, the deck 4-3/16; 3/4; 4.55 is no mark; 4-3/16 + 3/4 + 4.55 = 9-39/80.  */
  assert_int_equal (up->count, 5);
  assert_int_equal (row_called (up, "1-3/4")->to - row_called (up, "1-3/4")->from, 875000000);
  (void) row_called (up, "3/4");
  (void) row_called (up, "≈4-9/16");
  assert_int_equal (row_called (up, "≈9-1/2")->tier, up->tiers[0] - 1);
  assert_true (up->marks);
  assert_false (level->marks);
  assert_int_equal (f.unlabelled, 0);
  figure_clear (&f);
}

/* Boxes of one size are measured once.  */
static void
test_repeats (void **state)
{
  figure f;
  (void) state;
  figure_make (&f, sheet_with ("box a = 2-5/16 x 3/4 at 0, 0\nbox b = 2-5/16 x 3/4 at 3, 0\nbox c = 2-5/16 x 3/4 at 6, 0\n"
                               "box d = 2-5/16 x 1/2 at 9, 0\n"), 1, 1);
  (void) row_called (&f.lines[0], "3x 2-5/16");
  (void) row_called (&f.lines[0], "2-5/16");
  (void) row_called (&f.lines[0], "11-5/16");
  /* And the places of two, from the first: that of the last follows from the whole.  */
  (void) row_called (&f.lines[0], "3");
  (void) row_called (&f.lines[0], "6");
  assert_int_equal (f.lines[0].count, 5);
  (void) row_called (&f.lines[1], "3x 3/4");
  assert_int_equal (f.lines[1].count, 2);
  figure_clear (&f);
}

static void
test_numbers (void **state)
{
  static const struct { const char *settings, *value, *expected; } rows[] =
  {
    { "", "7/2", "3-1/2" }, { "", "63/64", "63/64" }, { "", "1/128", "≈0" }, { "", "4.55", "≈4-9/16" },
    { "", "24", "24" }, { "", "1/3", "≈5/16" }, { "ruler 1/32", "1/3", "≈11/32" }, { "feet on", "403/8", "4' 2-3/8\"" },
    /* 1 in is 25.4 mm exactly (ISO 80000-3, from memory).  */
    { "units mm", "7/2", "88.9" }, { "units mm", "10/127", "2" }, { "units mm", "57/16", "≈90" },
    { "units cm", "7/2", "8.89" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (rows[i].settings);
      br_real x = BR_REAL_ZERO;
      br_text t = BR_TEXT_ZERO;
      mpq_t q;
      mpq_init (q);
      if (strcmp (rows[i].value, "4.55") == 0)
        mpq_set_ui (q, 91, 20);
      else
        mpq_set_str (q, rows[i].value, 10);
      check_ok (br__number_from_mpq (&x.rational, q));
      mpq_clear (q);
      check_ok (br__put_drawing_number (&t, &x, &sheet->settings));
      assert_string_equal (br__text_string (&t), rows[i].expected);
      br__text_clear (&t);
      br_real_clear (&x);
      br_sheet_free (sheet);
    }
}

/* ---- On random shapes ---- */

/* What a dimension line says, against the length that it has.  */
static void
says_its_length (const br__size_line *row)
{
  br_measure m = BR_MEASURE_ZERO;
  const char *s = row->text, *times = strstr (s, "x ");
  br_number unit = BR_NUMBER_ZERO;
  int64_t n, d;
  s = times ? times + 2 : s;
  int about = strncmp (s, "≈", strlen ("≈")) == 0;
  s += about ? strlen ("≈") : 0;
  check_ok (br_measure_read (&m, s, strlen (s), NULL, NULL));
  check_ok (br_number_set_int (&unit, BR__INCH));
  check_ok (br_number_mul (&m.value, &m.value, &unit));
  check_ok (br_number_round (&m.value, NULL, &m.value, BR_NEAREST, BR_TIES_UP));
  assert_true (br_number_get_ratio (&n, &d, &m.value));
  /* Each end is on the grid of billionths; a mark of the ruler is within 1/32.  */
  int64_t off = llabs (n - (row->to - row->from));
  if (off > (about ? BR__INCH / 32 + 2 : 2))
    fail_msg ("%s is off by %" PRId64 " billionths of an inch", row->text, off);
  br_measure_clear (&m);
}

/* Rows of one tier do not touch, and each reaches no farther than it says.  */
static void
tiers_are_apart (const br__size_lines *d)
{
  size_t left_out = 0;
  for (size_t i = 0; i < d->count; i++)
    {
      const br__size_line *r = &d->rows[i];
      left_out += r->tier < 0;
      if (r->tier < 0)
        continue;
      assert_in_range (r->tier, 0, (uintmax_t) d->tiers[r->far] - 1);
      assert_true (r->low <= r->from && r->to <= r->high && r->low < r->text_at && r->text_at < r->high);
      for (size_t k = 0; k < i; k++)
        if (d->rows[k].tier == r->tier && d->rows[k].far == r->far && d->rows[k].low < r->high && r->low < d->rows[k].high)
          fail_msg ("%s and %s lie on one another", r->text, d->rows[k].text);
    }
  assert_int_equal (left_out, d->left_out);
}

/* The whole is always measured, farthest from the view.  The centre of an arc, whose name begins with `a`, may lie outside.  */
static void
whole_is_outermost (const br__size_lines *d)
{
  size_t found = 0;
  for (size_t i = 0; i < d->count; i++)
    {
      if (!d->rows[i].overall)
        continue;
      found++;
      assert_int_equal (d->rows[i].tier, d->tiers[0] - 1);
      for (size_t k = 0; k < d->count; k++)
        assert_true (*d->rows[k].of == 'a' || (d->rows[k].to_of && *d->rows[k].to_of == 'a')
                     || (d->rows[k].from >= d->rows[i].from && d->rows[k].to <= d->rows[i].to));
    }
  assert_true (found == 1 || d->count == 0);
}

static br__area
area_of_text (const br__ink *ink)
{
  return br__text_area (ink->x, ink->y, ink->align, ink->size, ink->text);
}

/* No two texts touch, and all lie on the page.  */
static void
texts_are_apart (const br__plot *p)
{
  for (size_t i = 0; i < p->count; i++)
    {
      if (p->inks[i].type != BR__INK_TEXT)
        continue;
      br__area a = area_of_text (&p->inks[i]);
      if (a.x < 0 || a.y < 0 || a.x2 > p->width || a.y2 > p->height)
        fail_msg ("`%s` leaves the page", p->inks[i].text);
      for (size_t k = 0; k < i; k++)
        if (p->inks[k].type == BR__INK_TEXT && br__areas_meet (a, area_of_text (&p->inks[k])))
          fail_msg ("`%s` covers `%s`", p->inks[i].text, p->inks[k].text);
    }
}

typedef struct point
{
  double x, y;
} point;

/* Points on the outline of a shape of the view, T from 0 to 1; by plain trigonometry, on the page.  */
static point
on_outline (const figure *f, const br__drawn *d, double t)
{
  double x = (double) (f->left + d->x), y = (double) (f->top - d->y), turn = 2 * acos (-1.0);
  double angle = d->shape->kind == BR__ARC ? ((double) d->c + fmod (2 * t, 1) * (double) d->d) / 360e9 * turn : t * turn;
  double radius = d->shape->kind == BR__ARC && t >= 0.5 ? (double) d->b : (double) d->a;
  point p = { x + radius * cos (angle), y - radius * sin (angle) };
  double s = 4 * t - floor (4 * t), half = (double) d->a / 2, up = (double) d->b / 2;
  if (d->shape->kind == BR__BOX)
    {
      const point corners[] = { { x - half, y - up }, { x + half, y - up }, { x + half, y + up }, { x - half, y + up } };
      point a = corners[(int) (4 * t) % 4], b = corners[((int) (4 * t) + 1) % 4];
      p = (point) { a.x + s * (b.x - a.x), a.y + s * (b.y - a.y) };
    }
  if (d->shape->kind == BR__LINE)
    p = (point) { x + (2 * t - 1) * half, y - (2 * t - 1) * up };
  return p;
}

/* No name lies on an outline.  */
static void
outlines_are_free (const figure *f)
{
  for (size_t i = (size_t) f->sizes; i < f->plot.count; i++)
    {
      if (f->plot.inks[i].type != BR__INK_TEXT)
        continue;
      br__area a = area_of_text (&f->plot.inks[i]);
      for (size_t k = 0; k < f->view.count; k++)
        for (int n = 0; n < 1000; n++)
          {
            point p = on_outline (f, &f->view.shapes[k], n / 1000.0);
            if (p.x > (double) a.x && p.x < (double) a.x2 && p.y > (double) a.y && p.y < (double) a.y2)
              fail_msg ("`%s` lies on %s", f->plot.inks[i].text, f->view.shapes[k].shape->name);
          }
    }
}

/* No extension line, dimension line or leader runs through a text.  */
static void
lines_are_open (const figure *f)
{
  const br__plot *p = &f->plot;
  for (size_t i = 0; i < p->count; i++)
    {
      if (p->inks[i].type != BR__INK_TEXT)
        continue;
      br__area a = area_of_text (&p->inks[i]);
      for (size_t k = 0; k < p->count; k++)
        {
          const br__ink *line = &p->inks[k];
          if (line->type == BR__INK_LINE && line->pen == BR__PEN_THIN
              && br__segment_meets (line->x, line->y, line->x2, line->y2, a))
            fail_msg ("a line runs through `%s`", p->inks[i].text);
        }
    }
}

/* Each name stands once, or is counted.  */
static void
names_are_whole (const figure *f)
{
  size_t missing = 0;
  for (size_t k = 0; k < f->view.count; k++)
    {
      size_t found = 0;
      for (size_t i = (size_t) f->sizes; i < f->plot.count; i++)
        found += f->plot.inks[i].type == BR__INK_TEXT && strcmp (f->plot.inks[i].text, f->view.shapes[k].label) == 0;
      assert_int_equal (found, !f->view.shapes[k].unlabelled);
      missing += !found;
    }
  assert_int_equal (missing, f->unlabelled);
}

static void
test_random (void **state)
{
  size_t texts = 0, left_out = 0;
  (void) state;
  for (long n = 0; n < check_times (40); n++)
    {
      figure f;
      figure_make (&f, random_shapes (1 + (int) check_below (24), 160, 96), 1, 1);
      for (int i = 0; i < 2; i++)
        {
          for (size_t k = 0; k < f.lines[i].count; k++)
            says_its_length (&f.lines[i].rows[k]);
          tiers_are_apart (&f.lines[i]);
          whole_is_outermost (&f.lines[i]);
          left_out += f.lines[i].left_out;
        }
      texts_are_apart (&f.plot);
      outlines_are_free (&f);
      lines_are_open (&f);
      names_are_whole (&f);
      texts += f.plot.taken_count;
      left_out += f.unlabelled;
      figure_clear (&f);
    }
  /* Most of it finds room.  */
  assert_true (texts > 6 * left_out);
}

/* Extension lines leave a gap at the outline, and end a little past the dimension line.  */
static void
test_extension_lines (void **state)
{
  figure f;
  size_t found = 0;
  (void) state;
  figure_make (&f, sheet_with ("box a = 4 x 2 at 0, 0\n"), 1, 1);
  for (int64_t i = f.strokes; i < f.sizes; i++)
    {
      const br__ink *k = &f.plot.inks[i];
      if (k->type != BR__INK_LINE || k->x != k->x2 || (k->x != f.left && k->x != f.left + 4 * BR__INCH))
        continue;
      found++;
      assert_true (k->y > f.top && k->y <= f.top + BR__INCH / 8);
      assert_true (k->y2 > f.top + f.lines[0].offset[0][0]);
      assert_true (k->y2 <= f.top + f.lines[0].depth[0]);
      assert_true (f.lines[0].offset[0][0] >= BR__INCH * 3 / 8);   /* ASME Y14.5, from memory: 10 mm or 3/8 in */
    }
  assert_int_equal (found, 2);
  figure_clear (&f);
}

/* What the figure does not say stands in a table, inside its width and no text on another.  */
static void
test_table (void **state)
{
  static const size_t counts[] = { 12, 60, 400 };
  (void) state;
  for (size_t c = 0; c < CHECK_COUNT (counts); c++)
    {
      figure f;
      size_t rows = 0;
      int64_t height = 0;
      figure_make (&f, random_shapes ((int) counts[c], 96, 96), 1, 8);
      size_t first = f.plot.count;
      const br__view_at placed = { &f.view, &f.lines[0], &f.lines[1], f.left, f.top, 0 };
      check_ok (br__places_plot (&f.plot, &rows, &height, &f.run, &placed,
                                 (br__area) { 0, f.plot.height, 7 * BR__INCH, 0 }));
      assert_true (rows > 0 && height > 0);
      for (size_t i = first; i < f.plot.count; i++)
        if (f.plot.inks[i].type == BR__INK_TEXT)
          assert_true (area_of_text (&f.plot.inks[i]).x2 <= (f.plot.width > 7 * BR__INCH ? f.plot.width : 7 * BR__INCH));
      for (size_t i = first + 1; i < f.plot.count; i++)
        for (size_t k = first; k < i; k++)
          if (f.plot.inks[i].type == BR__INK_TEXT && f.plot.inks[k].type == BR__INK_TEXT)
            assert_false (br__areas_meet (area_of_text (&f.plot.inks[i]), area_of_text (&f.plot.inks[k])));
      figure_clear (&f);
    }
}

/* Shapes that are not tied down say what they need and are not measured.  */
static void
test_loose (void **state)
{
  figure f;
  (void) state;
  figure_make (&f, sheet_with ("box lid = 4 x 1/4\ncircle knob = nosuch at 1, 1\nbox deck = 6 x 1 at 0, 0\n"), 1, 1);
  assert_string_equal (f.view.shapes[0].label, "lid needs a place");
  assert_string_equal (f.view.shapes[1].label, "knob needs nosuch");
  assert_string_equal (f.view.shapes[2].label, "deck");
  assert_int_equal (f.unlabelled, 0);
  assert_int_equal (f.lines[0].count, 1);
  assert_int_equal (f.lines[1].count, 1);
  figure_clear (&f);
}

/* ---- Paths ---- */

/* A plank 4 x 1 with a round of 1/2 in at its upper right corner and a ring in it, as steps; y down.  */
static const br__path_step plank[] =
{
  { BR__STEP_MOVE, BR__INCH, 2 * BR__INCH, 0, 0, 0 }, { BR__STEP_LINE, 5 * BR__INCH, 2 * BR__INCH, 0, 0, 0 },
  { BR__STEP_ARC, BR__INCH * 9 / 2, BR__INCH * 3 / 2, BR__INCH / 2, 0, 90 * BR__INCH },
  { BR__STEP_LINE, BR__INCH, BR__INCH, 0, 0, 0 }, { .type = BR__STEP_CLOSE },
  { BR__STEP_ARC, 2 * BR__INCH, BR__INCH * 3 / 2, BR__INCH / 4, 0, 360 * BR__INCH }, { .type = BR__STEP_CLOSE }
};

/* It comes out as one closed path, arcs as arcs, wherever it is moved; what it goes through is known to names.  */
static void
test_path (void **state)
{
  static const unsigned price[BR__CELLS] = { 0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1 };
  br__plot p = { .inks = NULL, .width = 6 * BR__INCH, .height = 3 * BR__INCH }, moved = { .inks = NULL };
  br__area inside = { 0, 0, 6 * BR__INCH, 3 * BR__INCH };
  br_text t = BR_TEXT_ZERO;
  br__ink_map m;
  (void) state;
  p.group = BR__GROUP_OUTLINES;
  br__ink *ink = br__plot_add (&p, BR__INK_PATH, BR__PEN_OUTLINE, 0, 0);
  br__ink_path (&p, ink, plank, CHECK_COUNT (plank));
  br__ink_path (&p, &p.inks[0], NULL, 0);
  assert_int_equal (p.inks[0].step_count, CHECK_COUNT (plank));
  br__put_svg (&t, &p, "plank", "", 0);
  assert_non_null (strstr (br__text_string (&t), "<g id=\"outlines\">"));
  assert_non_null (strstr (br__text_string (&t), "d=\"M1000 2000 L5000 2000 L5000 1500 A500 500 0 0 0 4500 1000 L1000 1000 Z M2250 1500 A250"));
  br__text_clear (&t);
  assert_true (br__ink_map_make (&m, &p, inside));
  /* Left side, upper side, the round, the ring; and nothing in the middle.  */
  assert_true (br__ink_map_line_cost (&m, BR__INCH / 2, BR__INCH * 3 / 2, BR__INCH * 3 / 2, BR__INCH * 3 / 2, price, 9) > 0);
  assert_true (br__ink_map_line_cost (&m, 3 * BR__INCH, BR__INCH / 2, 3 * BR__INCH, BR__INCH * 5 / 4, price, 9) > 0);
  assert_true (br__ink_map_line_cost (&m, BR__INCH * 9 / 2, BR__INCH * 3 / 2, 5 * BR__INCH, BR__INCH, price, 9) > 0);
  assert_true (br__ink_map_line_cost (&m, 2 * BR__INCH, BR__INCH * 3 / 2, 2 * BR__INCH, BR__INCH * 15 / 8, price, 9) > 0);
  assert_int_equal (br__ink_map_line_cost (&m, 3 * BR__INCH, BR__INCH * 5 / 4, 4 * BR__INCH, BR__INCH * 7 / 4, price, 9), 0);
  br__ink_map_clear (&m);
  br__plot_join (&moved, &p, 0, BR__INCH, BR__INCH, NULL);
  assert_int_equal (moved.inks[0].steps[0].x, 2 * BR__INCH);
  assert_int_equal (moved.inks[0].steps[2].y, BR__INCH * 5 / 2);
  inside.x = 8 * BR__INCH;
  inside.x2 = 9 * BR__INCH;
  br__plot_join (&moved, &p, 0, 0, 0, &inside);
  assert_int_equal (moved.count, 1);
  br__plot_clear (&moved);
  br__plot_clear (&p);
}

/* ---- Out of memory ---- */

static void
test_memory (void **state)
{
  br_sheet *sheet = sheet_with (cart);
  br_error error;
  br__run run = { .sheet = sheet, .error = &error };
  br__side_view v = BR__VIEW_ZERO;
  br__size_lines d;
  br_number one = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  long nth;
  (void) state;
  memset (&d, 0, sizeof d);
  check_ok (br_number_set_int (&one, 1));
  check_ok (br__view_make (&v, &run, &one, NULL, NULL));
  for (nth = 0, check_memory_refused = 1; check_memory_refused; nth++)
    {
      check_memory_limit (nth);
      status = br__size_lines_make (&d, &run, &v, 0);
      br__size_lines_clear (&d);
      check_memory_left = -1;
      assert_int_equal (check_memory_blocks, 0);
      assert_int_equal (status, check_memory_refused ? BR_NO_MEMORY : BR_OK);
    }
  assert_true (nth > 6);
  for (nth = 0, check_memory_refused = 1; check_memory_refused; nth++)
    {
      br__plot p = { .inks = NULL };
      check_memory_limit (nth);
      br__labels_plot (&p, &v, (br__area) { 0, 0, 20 * BR__INCH, 20 * BR__INCH }, 5 * BR__INCH, 15 * BR__INCH);
      assert_int_equal (p.failed, check_memory_refused);
      check_memory_left = -1;
      br__plot_clear (&p);
      assert_int_equal (check_memory_blocks, 0);
    }
  assert_true (nth > 5);
  check_memory_free ();
  br__view_clear (&v);
  br_sheet_free (sheet);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    cmocka_unit_test (test_cart), cmocka_unit_test (test_repeats), cmocka_unit_test (test_numbers),
    CHECK_TEST (test_random), cmocka_unit_test (test_extension_lines), CHECK_TEST (test_table),
    cmocka_unit_test (test_loose), cmocka_unit_test (test_path), cmocka_unit_test (test_memory)
  };
  return CHECK_RUN (tests);
}
