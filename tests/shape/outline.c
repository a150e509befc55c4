/* SPDX-License-Identifier: GPL-3.0-or-later
   outline.c - outlines against published formulas, against fine polygons, and against the shapes that they can
   stand for.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "wire.h"

/* The statement for O, to be freed.  */
static char *
text_of (const wire_outline *o, const char *name, int x, int y)
{
  char *text = NULL;
  size_t length;
  FILE *out = open_memstream (&text, &length);
  wire_statement (out, name, o, x, y);
  fclose (out);
  return text;
}

/* Sides, area, edge and centre of area of the polygon W.  */
static void
against_polygon (br_sheet *sheet, const wire *w, const char *text)
{
  double low = DBL_MAX, high = -DBL_MAX, left = DBL_MAX, right = -DBL_MAX, twice = 0, mx = 0, my = 0, edge = 0;
  for (int i = 0; i < w->count; i++)
    {
      int k = (i + 1) % w->count;
      double c = w->x[i] * w->y[k] - w->x[k] * w->y[i];
      low = fmin (low, w->y[i]), high = fmax (high, w->y[i]), left = fmin (left, w->x[i]), right = fmax (right, w->x[i]);
      twice += c, mx += c * (w->x[i] + w->x[k]), my += c * (w->y[i] + w->y[k]);
      edge += hypot (w->x[k] - w->x[i], w->y[k] - w->y[i]);
    }
  near_to (value_of (sheet, "left(o)"), left, 4e-3, "left", text);
  near_to (value_of (sheet, "right(o)"), right, 4e-3, "right", text);
  near_to (value_of (sheet, "bottom(o)"), low, 4e-3, "bottom", text);
  near_to (value_of (sheet, "top(o)"), high, 4e-3, "top", text);
  near_to (value_of (sheet, "width(o)"), right - left, 8e-3, "width", text);
  near_to (value_of (sheet, "height(o)"), high - low, 8e-3, "height", text);
  near_to (value_of (sheet, "area(o)"), fabs (twice / 2), 2e-2, "area", text);
  near_to (value_of (sheet, "perimeter(o)"), edge, 1e-2, "perimeter", text);
  near_to (value_of (sheet, "centre_x(o)"), mx / 3 / twice, 5e-3, "centre across", text);
  near_to (value_of (sheet, "centre_y(o)"), my / 3 / twice, 5e-3, "centre up", text);
}

/* A refusal is right where the fine polygon crosses itself, or two of its sides nearly touch.  */
static void
check_refusal (const wire *w, const said *s, const char *text)
{
  assert_int_equal (s->fault_count, 1);
  const char *message = s->faults[0].error.message;
  if (!strstr (message, "crosses or touches") || !wire_crosses_itself (w))
    fail_msg ("%s: %s", message, text);
}

static void
test_random (void **state)
{
  static wire w;
  long refused = 0, taken = 0, rounds = 0, rises = 0;
  (void) state;
  for (long i = check_times (1000); i > 0; i--)
    {
      wire_outline o;
      br_sheet *sheet = NULL;
      said s = SAID_ZERO;
      wire_random (&o, WIRE_CORNERS, 1);
      wire_of_outline (&w, &o);
      char *text = text_of (&o, "o", 0, 0);
      check_ok (br_sheet_new (&sheet));
      if (sheet_run (sheet, &s, text) != BR_OK)
        {
          check_refusal (&w, &s, text);
          refused++;
        }
      else
        {
          double area, edge;
          if (wire_crosses_itself (&w))
            fail_msg ("its edge crosses itself: %s", text);
          wire_formulas (&area, &edge, &o);
          near_to (value_of (sheet, "area(o)"), area, 1e-8, "area by formulas", text);
          near_to (value_of (sheet, "perimeter(o)"), edge, 1e-8, "perimeter by formulas", text);
          against_polygon (sheet, &w, text);
          taken++;
        }
      for (int k = 0; k < o.count; k++)
        rounds += o.corner[k].round != 0, rises += o.corner[k].rise != 0;
      free (text);
      sheet_end (sheet, &s);
    }
  if (taken < 8 * refused || rounds < taken / 4 || rises < taken / 20)
    fail_msg ("%ld taken, %ld refused, %ld rounds, %ld rises", taken, refused, rounds, rises);
}

/* ---- Distances ---- */

static void
test_distance (void **state)
{
  static wire v, w;
  long overlaps = 0, all = 0;
  (void) state;
  for (long i = check_times (60); i > 0; i--)
    for (int kind = 0; kind <= 5; kind++)
      {
        char *text = NULL;
        size_t length;
        br_sheet *sheet = NULL;
        said s = SAID_ZERO;
        double apart, deep;
        FILE *out = open_memstream (&text, &length);
        wire_shape (out, &v, 0, "o");
        wire_shape (out, &w, kind, "p");
        fclose (out);
        check_ok (br_sheet_new (&sheet));
        if (sheet_run (sheet, &s, text) == BR_OK)
          {
            double z = value_of (sheet, "clear(o, p)");
            wire_apart (&apart, &deep, &v, &w);
            int overlap = deep > 0 || apart == 0;
            /* A polygon lies within a thousandth of its curve.  */
            if (z >= 0 ? fabs (z - apart) > 5e-3 || deep > 5e-3 : (!overlap && apart > 5e-3) || -z < deep - 5e-3)
              fail_msg ("%.6f; polygons %.6f apart, %.6f deep: %s", z, apart, deep, text);
            assert_true (z == value_of (sheet, "clear(p, o)"));
            overlaps += z < 0;
            all++;
          }
        free (text);
        sheet_end (sheet, &s);
      }
  if (overlaps < all / 8 || overlaps > all * 7 / 8)
    fail_msg ("%ld of %ld overlap", overlaps, all);
}

/* A box and a bar as outlines are as far from everything, and overlap it as deep, as a box and a bar are: the two are worked
   out by different files.  On a coarse grid, where much touches.  */
static void
test_same (void **state)
{
  (void) state;
  for (long i = check_times (60); i > 0; i--)
    {
      int x = (int) check_between (0, 6), y = (int) check_between (0, 6), a = (int) check_between (1, 5), b = (int) check_between (1, 5);
      const char *const others[] = { "circle p = 3 at 4, 4", "circle p = 2 at 5, 3", "box p = 3 x 2 at 3, 3", "box p = 1 x 5 at 4, 0",
                                     "line p = 2, 2 to 5, 6 wide 1", "line p = 0, 4 to 6, 4 wide 2" };
      for (size_t k = 0; k < CHECK_COUNT (others); k++)
        {
          br_sheet *sheet = sheet_with (others[k]);
          said s = SAID_ZERO, t = SAID_ZERO;
          sheet_say (sheet, &s, "box q = %d x %d at %d, %d", a, b, x, y);
          sheet_say (sheet, &s, "outline o = %d, %d by 0, %d by %d, 0 to %d, %d", x, y, b, a, x + a, y);
          sheet_say (sheet, &s, "clear(p, q)");
          sheet_say (sheet, &t, "clear(p, o)");
          assert_string_equal (said_get (&t, 0, "decimal"), said_get (&s, 0, "decimal"));
          assert_string_equal (said_get (&t, 0, "exact"), said_get (&s, 0, "exact"));
          sheet_say (sheet, &s, "line q = %d, %d to %d, %d wide %d", x, y, x + a, y, b);
          sheet_say (sheet, &s, "outline o = %d, %d - %d/2 to %d, %d - %d/2 to %d, %d + %d/2 rise %d/2 to %d, %d + %d/2 to start rise %d/2",
                     x, y, b, x + a, y, b, x + a, y, b, b, x, y, b, b);
          sheet_say (sheet, &s, "clear(p, q)");
          sheet_say (sheet, &t, "clear(p, o)");
          assert_string_equal (said_get (&t, 0, "decimal"), said_get (&s, 0, "decimal"));
          said_clear (&t);
          sheet_end (sheet, &s);
        }
    }
}

/* ---- The statement ---- */

static void
test_exact (void **state)
{
  static const struct { const char *outline, *asked, *exact; } rows[] =
  {
    { "0, 0 to 4, 0 to 4, 3 to 0, 3", "area(o)", "12" },
    { "0, 0 to 0, 3 to 4, 3 to 4, 0", "area(o)", "12" },                /* clockwise */
    { "0, 0 to 4, 0 to 4, 3 to 0, 3 to 0, 0", "perimeter(o)", "14" },   /* closed by hand */
    { "0, 0 to 4, 0 to 4, 3 to 0, 3 at 1/2, 1", "right(o)", "9/2" },
    { "0, 0 by 4, 0 by 0, 3 to by -4, 0", "area(o)", "12" },
    { "0, 0 to 4 at 0 deg to 3 at 90 deg to 4 at 180", "area(o)", "12" },
    { "0, 0 to 4, 0 to 4, 3 cut 1 to 0, 3 cut 1/2 x 2", "area(o)", "11" },
    { "0, 0 to 4, 0 to 4, 3 cut 1 x 2 to 0, 3", "clear(o, p)", "6" },
    { "0, 0 to 4, 0 to 4, 3 to 2, 1 to 0, 3", "area(o)", "8" },         /* a corner that goes inward */
    { "0, 0 to 4, 0 to 4, 3 to 0, 3", "centre_y(o)", "3/2" },
    { "0, 0 to 6, 0 to 0, 3", "centre_x(o)", "2" },
    { "0, 0 to 4, 0 to 4, 2 rise 1 to 0, 2", "right(o)", "5" },
    { "0, 0 to 0, 2 to 4, 2 to 4, 0 rise 1", "right(o)", "5" },         /* outward, whichever way around */
    { "0, 0 to 4, 0 to 4, 2 rise -1/2 to 0, 2", "right(o)", "4" },
    { "0, 0 to 4, 0 to 4, 2 to 0, 2 to start rise 1", "left(o)", "-1" },
    { "0, 0 to 4, 0 to 4, 3 round 1 to 0, 3 round 1", "width(o)", "4" },
    { "0, 0 to 4, 0 to 2, 3 on q", "bottom(o)", "7" },
    { "0, 0 to 4, 0 to 2, 3 left of q by 1/4 flush top", "top(o)", "7" },
    { "0, 0 to 4, 0 to 2, 3 same centre as q", "centre_x(o)", "21" },
    { "0, 0 to 3, 4 to 0, 4", "perimeter(o)", "12" },
    { "0, 0 to 4, 0 to 4, 3 to 0, 3 to 0, 0 round 1", "width(o)", "4" },        /* of the first corner */
    { "0, 0 to 4, 0 to 4, 3 to 0, 3", "clear(o, l)", "2" },             /* a line's far end, a thin curve, arcs of one centre */
    { "0, 0 to 4, 0 to 4, 3 to 0, 3", "clear(o, r)", "5" },
    { "0, 0 to 4, 0 to 4, 2 rise 1 to 0, 2", "clear(o, t)", "1" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with ("box p = 1 x 1 at 10, 0\nbox q = 2 x 1 at 20, 6\nline l = 10, 1 to 6, 1\n"
                                    "arc r = bend(2, 0) 180 deg from 180 deg at 2, 10\narc t = bend(2, 1) 180 deg from -90 deg at 4, 1\n");
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "outline o = %s", rows[i].outline);
      said_is (&s, 0, "state", "placed");
      sheet_say (sheet, &s, "%s", rows[i].asked);
      said_is (&s, 0, "exact", rows[i].exact);
      sheet_end (sheet, &s);
    }
}

/* Other shapes' areas and edges, too.  */
static void
test_extents (void **state)
{
  static const struct { const char *shape, *asked; double value; } rows[] =
  {
    { "circle s = 2 at 0, 0", "area(s)", 3.14159265359 }, { "circle s = 2 at 0, 0", "perimeter(s)", 6.28318530718 },
    { "box s = 3 x 2 at 0, 0", "area(s)", 6 }, { "box s = 3 x 2 at 0, 0", "perimeter(s)", 10 },
    { "box s = 3 x 2 at 1, 1", "width(s)", 3 }, { "box s = 3 x 2 at 1, 1", "height(s)", 2 },
    { "arc s = bend(1, 1) 90 deg at 0, 0", "area(s)", 2.35619449019 },
    { "arc s = bend(1, 1) 90 deg at 0, 0", "perimeter(s)", 6.71238898038 },
    { "arc s = bend(1, 1) 360 deg at 0, 0", "perimeter(s)", 18.8495559215 },
    { "arc s = bend(2, 0) 90 deg at 0, 0", "perimeter(s)", 3.14159265359 },
    { "line s = 0, 0 to 3, 4 wide 2", "area(s)", 13.1415926536 },
    { "line s = 0, 0 to 3, 4 wide 2", "perimeter(s)", 16.2831853072 },
    { "line s = 0, 0 to 3, 4", "perimeter(s)", 5 }, { "line s = 0, 0 to 3, 4", "area(s)", 0 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (rows[i].shape);
      near_to (value_of (sheet, rows[i].asked), rows[i].value, 1e-10, rows[i].asked, rows[i].shape);
      br_sheet_free (sheet);
    }
}

/* It waits, follows, is replaced and undone as any shape; distances to it as well.  */
static void
test_follow (void **state)
{
  br_sheet *sheet = sheet_with ("box p = 1 x 1 at 10, 0\nwatch = clear(o, p)\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "outline o = 0, 0 to long, 0 to long, 3 round r to 0, 3");
  said_is (&s, 0, "state", "waiting");
  said_is (&s, 0, "waiting.count", "2");
  sheet_say (sheet, &s, "missing");
  said_is (&s, 0, "name", "long");
  said_is (&s, 0, "needed_by.0", "shape o");
  sheet_say (sheet, &s, "long = 4\nr = 1\nwatch");
  said_is (&s, s.count - 1, "exact", "6");
  sheet_say (sheet, &s, "draw");
  said_is (&s, 0, "kind", "view");
  sheet_say (sheet, &s, "long = 5\nwatch");
  said_is (&s, s.count - 1, "exact", "5");
  /* A circle in its place, and back: `watch` is asked by other numbers each time.  */
  sheet_say (sheet, &s, "circle o = 2 at 0, 1/2\nwatch");
  said_is (&s, s.count - 1, "exact", "9");
  sheet_say (sheet, &s, "undo\nwatch");
  said_is (&s, s.count - 1, "exact", "5");
  sheet_say (sheet, &s, "redo\nwatch");
  said_is (&s, s.count - 1, "exact", "9");
  sheet_say (sheet, &s, "forget shape o\nundo\nundo\nwatch");
  said_is (&s, s.count - 1, "exact", "5");
  assert_int_not_equal (sheet_run (sheet, &s, "r = 9"), BR_OK);
  assert_non_null (strstr (s.faults[0].error.message, "the largest radius that fits is 3"));
  sheet_say (sheet, &s, "r");
  said_is (&s, 0, "exact", "1");
  sheet_end (sheet, &s);
  /* A box has no numbers at its corners; no rise is no arc.  */
  static const struct { const char *line, *message; } wrong[] =
  {
    { "box b = 3 x 2 at 1, 1 round 4", "corner left bottom is rounded too much" }, { "box b = 3 x 2 at 1, 1 cut 3 left top", "corner left top is cut too much" },
    { "outline t = 0, 0 to 4, 0 cut 1 rise 0 to 4, 4 to 0, 4", "a side with no rise is straight" },
    { "outline t = 0, 0 to 4, 0 cut 1 to 4, 4 rise 0 to 0, 4", "a side with no rise is straight" },
    { "outline t = 0, 0 to 4, 0 cut 1 to 4, 4 rise later to 0, 4", "a side of it is an arc" }
  };
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    {
      sheet = sheet_with ("");
      assert_int_not_equal (sheet_run (sheet, &s, wrong[i].line), BR_OK);
      if (!strstr (s.faults[0].error.message, wrong[i].message))
        fail_msg ("%s: %s", wrong[i].line, s.faults[0].error.message);
      sheet_end (sheet, &s);
    }
  /* A distance that is asked for while the circle stands, then undone.  */
  sheet = sheet_with ("box p = 1 x 1 at 10, 0\noutline o = 0, 0 to 4, 0 to 4, 3\ncircle o = 2 at 0, 1/2\n");
  sheet_say (sheet, &s, "clear(o, p)\nundo\nclear(o, p)");
  said_is (&s, s.count - 1, "exact", "6");
  sheet_end (sheet, &s);
}

/* One answer of LINE is EXACT: an outline may be mirrored by a size below zero.  */
static void
one_is (br_sheet *sheet, const char *line, const char *exact)
{
  said s = SAID_ZERO;
  int found = 0;
  sheet_say (sheet, &s, "%s", line);
  for (size_t i = 0; i < s.count; i++)
    found |= strcmp (said_get (&s, i, "exact"), exact) == 0;
  if (!found)
    fail_msg ("%s: no answer is %s", line, exact);
  said_clear (&s);
}

/* Formulas of outlines in searches and tolerances.  */
static void
test_search (void **state)
{
  br_sheet *sheet = sheet_with ("long = 4 in +- 1/16 in\noutline o = 0, 0 to long, 0 to long, 3 cut 1 to 0, 3\nbox p = 1 x 1 at 10, 0\n");
  said s = SAID_ZERO;
  (void) state;
  one_is (sheet, "find long for area(o) = 14.5 sq in", "5");
  one_is (sheet, "find long for right(o) = 5 in", "5");
  one_is (sheet, "find long for clear(o, p) = 7 in", "3");
  sheet_say (sheet, &s, "stack area(o)");
  said_is (&s, 0, "contributors.0.name", "long");
  sheet_say (sheet, &s, "stack clear(o, p)");
  said_is (&s, 0, "kind", "stack");
  sheet_say (sheet, &s, "check clear(o, p) >= 5");
  said_is (&s, 0, "state", "pass");
  sheet_end (sheet, &s);
}

/* No size is found at which a round, a cut or a rise does not fit, or sides cross: the one that there is can be typed.  */
static void
test_found_fits (void **state)
{
  static const struct { const char *line, *count; } rows[] =
  {
    { "find r for perimeter(a) = 34 in", "1" }, { "find w for perimeter(b) = 15 in", "1" }, { "find c for area(b) = 23 sq in", "1" },
    { "find h for right(d) = 3.5 in", "1" }, { "find v for area(e) = 100 sq in", "1" }, { "find v for perimeter(e) = 50 in", "1" },
    { "find v for right(e) = 51 in", "1" }
  };
  br_sheet *sheet = sheet_with ("r = 1 in\nw = 6 in\nc = 1 in\nh = 1/4 in\noutline a = 0, 0 to 12, 0 round r to 12, 6 to 0, 6 rise -1/2\n"
                                "box b = w x 4 cut c x 3/2 right top at 20, 0\noutline d = 0, 20 to 2, 20 to 2, 24 rise h to 0, 24\n"
                                "v = 5 in\noutline e = 40, 0 to 50, 0 to 40 in + v, 5 to 48, 8 to 40, 8\n");
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      said s = SAID_ZERO;
      char line[200];
      sheet_say (sheet, &s, "%s", rows[i].line);
      said_is (&s, 0, "solutions", rows[i].count);
      snprintf (line, sizeof line, "%s = %s in", said_get (&s, 0, "name"), said_get (&s, 0, "decimal"));
      sheet_say (sheet, &s, "%s\nundo", line);
      said_clear (&s);
    }
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "find h for right(d) = 4.5 in\nfind r for perimeter(a) = 33 in\nfind v for area(e) = 30 sq in\nfind v for left(e) = 36 in");
  for (size_t i = 0; i < s.count; i++)
    said_is (&s, i, "solutions", "0");
  sheet_end (sheet, &s);
}

/* Memory that runs out is told, and leaves no trace.  */
static void
test_memory (void **state)
{
  static const char line[] =
    "outline o = 0, 0 to 4, 0 round 1/2 to 4, 3 cut 1/2 x 1 to 2, 5 to 0, 3 rise -1/4\nclear(o, p)\nclear(o, c)\n";
  (void) state;
  for (long n = 0; ; n += 7 * check_stride ())
    {
      br_sheet *sheet = sheet_with ("box p = 1 x 1 at 10, 0\narc c = bend(1, 1/2) 90 deg at 2, 2\n");
      said s = SAID_ZERO;
      check_memory_limit (n);
      br_status status = sheet_run (sheet, &s, line);
      int refused = check_memory_refused != 0;
      check_memory_left = -1;
      said_clear (&s);
      if (!refused)
        check_ok (status);
      br_sheet_free (sheet);
      if (!refused)
        break;
    }
}

/* The same of a distance alone, at each request.  */
static void
test_memory_clear (void **state)
{
  br_sheet *sheet = sheet_with ("outline o = 0, 0 to 4, 0 to 4, 3 round 1 to 0, 3\narc c = bend(1, 1/2) 90 deg at 8, 2\n");
  (void) state;
  for (long n = 0; ; n += check_stride ())
    {
      said s = SAID_ZERO;
      check_memory_limit (n);
      br_status status = sheet_run (sheet, &s, "clear(c, o)");
      int refused = check_memory_refused != 0;
      check_memory_left = -1;
      said_clear (&s);
      if (!refused)
        {
          check_ok (status);
          break;
        }
      br_sheet_free (sheet);
      sheet = sheet_with ("outline o = 0, 0 to 4, 0 to 4, 3 round 1 to 0, 3\narc c = bend(1, 1/2) 90 deg at 8, 2\n");
    }
  br_sheet_free (sheet);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_random), CHECK_TEST (test_distance), CHECK_TEST (test_same), CHECK_TEST (test_exact),
    CHECK_TEST (test_extents), CHECK_TEST (test_follow), CHECK_TEST (test_search), CHECK_TEST (test_found_fits), CHECK_TEST (test_memory),
    CHECK_TEST (test_memory_clear)
  };
  return CHECK_RUN (tests);
}
