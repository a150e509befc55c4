/* SPDX-License-Identifier: GPL-3.0-or-later
   rebuild.c - whether the shapes can be drawn again from the page alone.  Of a drawing as SVG that is read which a person can
   read: what dimension lines say and what their arrows stand in line with, the names with their sizes, the table.  From the
   datum on all places are worked out from these, and come out as in the sheet, to what the numbers on the page say.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "read_page.h"
#include "ask.h"
#include "source.h"


/* ---- To work it out ---- */

/* The value at an end of F, or NAN: of a feature, of the datum, or of any feature in line with an arrow.  */
static double
value_at (const page *p, const fact *f, int end, double *slack)
{
  int it = end ? f->to : f->from;
  int64_t place = end ? f->place_to : f->place_from;
  *slack = 0;
  if (it >= 0)
    {
      *slack = p->slack[f->upright][it];
      return p->known[f->upright][it];
    }
  if (it == -1 || llabs (place - p->datum[f->upright]) < NEAR)
    return 0;
  for (size_t i = 0; i < p->count * 2; i++)
    if (llabs (p->shapes[i / 2].at[f->upright][i % 2] - place) < NEAR && !isnan (p->known[f->upright][i]))
      {
        *slack = p->slack[f->upright][i];
        return p->known[f->upright][i];
      }
  for (size_t i = 0; i < p->between_count; i++)
    if (p->between[i].upright == f->upright && llabs (p->between[i].place - place) < NEAR)
      {
        *slack = p->between[i].slack;
        return p->between[i].value;
      }
  return NAN;
}

/* Gives VALUE to what F ends at; arrows give it to all that they stand in line with.  1 if that was news.  */
static int
give (page *p, const fact *f, int end, double value, double slack)
{
  int it = end ? f->to : f->from, news = 0;
  int64_t place = end ? f->place_to : f->place_from;
  for (int i = 0; i < (int) p->count * 2; i++)
    if (it >= 0 ? i == it : it == -2 && llabs (p->shapes[i / 2].at[f->upright][i % 2] - place) < NEAR)
      {
        double *known = &p->known[f->upright][i];
        if (!isnan (*known))
          continue;
        *known = value;
        p->slack[f->upright][i] = slack;
        news = 1;
      }
  double ignored;
  if (it == -2 && !news && isnan (value_at (p, f, end, &ignored)))
    {
      assert_true (p->between_count < MOST_FACTS);
      p->between[p->between_count].upright = f->upright;
      p->between[p->between_count].place = place;
      p->between[p->between_count].value = value;
      p->between[p->between_count++].slack = slack;
      news = 1;
    }
  return news;
}

static void
work_out (page *p)
{
  for (int u = 0; u < 2; u++)
    for (size_t i = 0; i < p->count * 2; i++)
      p->known[u][i] = NAN;
  for (int news = 1; news; )
    {
      news = 0;
      for (size_t i = 0; i < p->fact_count; i++)
        for (int end = 0; end < 2; end++)
          {
            double slack, from = value_at (p, &p->facts[i], end, &slack);
            if (!isnan (from))
              news |= give (p, &p->facts[i], !end, end ? from - p->facts[i].value : from + p->facts[i].value,
                            slack + p->facts[i].slack);
          }
      /* The two of a centre are one.  */
      for (int u = 0; u < 2; u++)
        for (size_t i = 0; i < p->count; i++)
          if (p->shapes[i].kind == BR__CIRCLE || p->shapes[i].kind == BR__ARC)
            p->known[u][2 * i + 1] = p->known[u][2 * i];
    }
}

/* ---- Against the sheet ---- */

static double
in_unit_of (const br_sheet *sheet, const br__value *v)
{
  char text[64];
  assert_non_null (v);
  assert_true (br_real_write_decimal (text, sizeof text, NULL, &v->real, 15, 0, NULL) < sizeof text);
  double unit = v->dimension == BR_LENGTH ? (double) sheet->settings.unit->num / (double) sheet->settings.unit->den : 1;
  return strtod (text, NULL) / unit;
}

static double
in_unit (const br_sheet *sheet, const br__shape *s, int part)
{
  return in_unit_of (sheet, br__shape_value (sheet, s, part));
}

static void
is_told (const shape *s, const char *what, double found, double right, double slack)
{
  if (isnan (found))
    fail_msg ("%s of %s stands nowhere on the page", what, s->name);
  if (fabs (found - right) > slack + 1e-5)
    fail_msg ("%s of %s: %.6f on the page, %.6f in the sheet", what, s->name, found, right);
}

static void
check_shape (page *p, br_sheet *sheet, size_t index, const double datum[2])
{
  const shape *s = &p->shapes[index];
  if (br__is_unmeasured (sheet, s->name))
    return;
  const br__shape *it = br__shape_find (sheet, s->name, strlen (s->name));
  assert_non_null (it);
  double a = in_unit (sheet, it, BR__SHAPE_A), b = it->kind == BR__CIRCLE ? 0 : in_unit (sheet, it, BR__SHAPE_B);
  for (int u = 0; u < 2; u++)
    {
      double centre = in_unit (sheet, it, BR__SHAPE_X + u) - datum[u], half = (u ? b : a) / 2;
      int two = s->kind == BR__BOX || s->kind == BR__LINE;
      for (int k = 0; k < 1 + two; k++)
        is_told (s, u ? "the height" : "the place", p->known[u][2 * index + (size_t) k], centre + (two ? k ? half : -half : 0),
                 p->slack[u][2 * index + (size_t) k]);
    }
  if (s->kind == BR__CIRCLE)
    is_told (s, "the diameter", s->size[0], 2 * a, half_mark);
  if (s->kind == BR__LINE)
    is_told (s, "the width", s->size[0], in_unit (sheet, it, BR__SHAPE_C), half_mark);
  if (s->kind != BR__ARC)
    return;
  double from = in_unit (sheet, it, BR__SHAPE_C), turn = in_unit (sheet, it, BR__SHAPE_D);
  is_told (s, "the radius", s->size[0], a, half_mark);
  is_told (s, "the thickness", s->size[1], b - a, half_mark);
  if (turn < 360)
    {
      is_told (s, "the beginning", s->angle[0], from, 1e-3);
      is_told (s, "the end", s->angle[1], from + turn, 1e-3);
    }
}

/* Draws SHEET, which it takes over, with STATEMENT and builds it again.  */
static void
rebuild (br_sheet *sheet, const char *statement)
{
  static page p;
  said s = SAID_ZERO;
  memset (&p, 0, sizeof p);
  half_mark = strcmp (sheet->settings.unit->name, "mm") == 0 ? 0.51 : 1.0 / 32 + 1e-3;
  sheet_say (sheet, &s, "%s into a.svg", statement);
  read_page (&p, "a.svg");
  work_out (&p);
  size_t tied = 0;
  double datum[2] = { 1e9, 1e9 };
  int given = br__datum_is_given (sheet);
  for (const br__shape *it = sheet->shapes; it; it = it->next)
    if (it->active)
      {
        double left = in_unit (sheet, it, BR__SHAPE_X) + in_unit (sheet, it, BR__SHAPE_LEFT);
        double low = in_unit (sheet, it, BR__SHAPE_Y) + in_unit (sheet, it, BR__SHAPE_BOTTOM);
        datum[0] = left < datum[0] ? left : datum[0];
        datum[1] = low < datum[1] ? low : datum[1];
        tied++;
      }
  for (int k = 0; k < 2 && given; k++)
    datum[k] = in_unit_of (sheet, br__datum_value (sheet, k));
  assert_int_equal (p.count, tied);
  for (size_t i = 0; i < p.count; i++)
    check_shape (&p, sheet, i, datum);
  svg_clear (&p.file);
  sheet_end (sheet, &s);
}

/* ---- Designs ---- */

static void
give_datum (br_sheet *sheet, int64_t x, int64_t y)
{
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "datum %" PRId64 "/16, %" PRId64 "/16", x, y);
  said_clear (&s);
}

static void
test_random (void **state)
{
  static const char *const scales[] = { "draw scale 1:1", "draw scale 1:4", "draw", "draw scale 1:8 paper a3" };
  (void) state;
  for (long i = check_times (100); i > 0; i--)
    {
      br_sheet *sheet = random_shapes ((int) check_between (1, 24), 480, 240);
      /* A datum of its own, that may lie outside of all shapes.  */
      if (check_below (2))
        give_datum (sheet, check_between (-80, 560), check_between (-80, 320));
      if (check_below (2))
        ask (sheet, 0);
      rebuild (sheet, scales[check_below (CHECK_COUNT (scales))]);
    }
}

static void
test_designs (void **state)
{
  static const char *const names[] = { "barrow", "crane" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (names); i++)
    {
      char path[PATH_MAX + 40];
      snprintf (path, sizeof path, "%s/tests/data/%s.sheet", source, names[i]);
      char *text = lesson_get (path);
      rebuild (sheet_with (text), "draw");
      free (text);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_designs), CHECK_TEST (test_random) };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, source_enter, lesson_leave));
}
