/* SPDX-License-Identifier: GPL-3.0-or-later
   copies.c - rows and mirrors against each place written out, as fine polygons and as shapes of their own.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "wire.h"

static void
mirror_wire (wire *z, const wire *w, double about)
{
  *z = *w;
  for (int i = 0; i < w->count; i++)
    {
      z->x[i] = 2 * about - w->x[w->count - 1 - i];
      z->y[i] = w->y[w->count - 1 - i];
    }
}

static void
widen (double reach[4], const wire *w)
{
  for (int i = 0; i < w->count; i++)
    {
      reach[0] = fmin (reach[0], w->x[i]), reach[1] = fmax (reach[1], w->x[i]);
      reach[2] = fmin (reach[2], w->y[i]), reach[3] = fmax (reach[3], w->y[i]);
    }
}

/* The places P of which NAME is made, against what the sheet says of it and of its distance to q, Q.  */
static void
check_places (br_sheet *sheet, const char *name, const wire *p, int count, const wire *q, const char *text)
{
  static const char *const sides[] = { "left", "right", "bottom", "top" };
  double reach[] = { DBL_MAX, -DBL_MAX, DBL_MAX, -DBL_MAX }, apart = DBL_MAX, deep = 0;
  char line[64];
  for (int i = 0; i < count; i++)
    {
      double a, d;
      widen (reach, &p[i]);
      wire_apart (&a, &d, &p[i], q);
      apart = fmin (apart, a);
      deep = fmax (deep, d);
    }
  for (int i = 0; i < 4; i++)
    {
      snprintf (line, sizeof line, "%s(%s)", sides[i], name);
      near_to (value_of (sheet, line), reach[i], 4e-3, line, text);
    }
  snprintf (line, sizeof line, "clear(%s, q)", name);
  double z = value_of (sheet, line);
  if (z >= 0 ? fabs (z - apart) > 5e-3 || deep > 5e-3 : (deep == 0 && apart > 5e-3) || -z < deep - 5e-3)
    fail_msg ("%s: %.6f; polygons %.6f apart, %.6f deep: %s", line, z, apart, deep, text);
}

static void
test_random (void **state)
{
  static wire p[6], q, all[6], twice[12];
  (void) state;
  for (long i = check_times (40); i > 0; i--)
    for (int kind = 0; kind <= 5; kind++)
      {
        char *text = NULL;
        size_t length;
        said s = SAID_ZERO;
        br_sheet *sheet = NULL;
        int n = (int) check_between (1, 6), dx = (int) check_between (-40, 40), dy = (int) check_between (-40, 40), about = (int) check_between (-40, 40);
        dx += dx == 0 && dy == 0;
        FILE *out = open_memstream (&text, &length);
        wire_shape (out, &p[0], kind, "p");
        wire_shape (out, &q, (int) check_below (6), "q");
        fprintf (out, "row r of p qty %d by (%d / 8), (%d / 8)\nmirror m of p about (%d / 8)\nmirror n of r about (%d / 8)\nrow g of n qty 2 by 0, 9\n",
                 n, dx, dy, about, about);
        fclose (out);
        check_ok (br_sheet_new (&sheet));
        if (sheet_run (sheet, &s, text) != BR_OK)
          fail_msg ("%s: %s", s.faults[0].error.message, text);
        for (int k = 1; k < n; k++)
          {
            p[k] = p[0];
            wire_move (&p[k], dx * k / 8., dy * k / 8.);
          }
        check_places (sheet, "r", p, n, &q, text);
        for (int k = 0; k < n; k++)
          {
            mirror_wire (&all[k], &p[k], about / 8.);
            twice[k] = twice[n + k] = all[k];
            wire_move (&twice[n + k], 0, 9);
          }
        check_places (sheet, "m", all, 1, &q, text);
        check_places (sheet, "n", all, n, &q, text);
        check_places (sheet, "g", twice, 2 * n, &q, text);
        near_to (value_of (sheet, "area(g)"), 2 * n * value_of (sheet, "area(p)"), 1e-9, "area", text);
        near_to (value_of (sheet, "perimeter(n)"), n * value_of (sheet, "perimeter(p)"), 1e-9, "perimeter", text);
        near_to (value_of (sheet, "centre_x(r)"), value_of (sheet, "centre_x(p)") + (n - 1) * dx / 16., 1e-9, "centre across", text);
        near_to (value_of (sheet, "centre_y(g)"), value_of (sheet, "centre_y(r)") + 4.5, 1e-9, "centre up", text);
        near_to (value_of (sheet, "centre_x(n)"), about / 4. - value_of (sheet, "centre_x(r)"), 1e-9, "centre of the mirror", text);
        free (text);
        sheet_end (sheet, &s);
      }
}

/* They wait for their shape, follow it when it moves or becomes another kind, and so do distances to them.  */
static void
test_follow (void **state)
{
  br_sheet *sheet = sheet_with ("circle c = 1 at 10, 0\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "row r of slat qty n by step");
  said_is (&s, 0, "shape", "row");
  said_is (&s, 0, "copy_of", "slat");
  said_is (&s, 0, "state", "waiting");
  said_is (&s, 0, "places", "null");
  sheet_say (sheet, &s, "mirror m of r about 0");
  said_is (&s, 0, "waiting.0", "shape r");
  sheet_say (sheet, &s, "room = clear(r, c)\nother = clear(m, r)");
  sheet_say (sheet, &s, "missing");
  assert_true (s.count >= 3);
  sheet_say (sheet, &s, "draw");
  said_is (&s, 0, "loose", "2");
  sheet_say (sheet, &s, "box slat = 1 x 2 at 0, -1\nn = 4\nstep = 2\nroom");
  said_is (&s, s.count - 1, "exact", "5/2");
  sheet_say (sheet, &s, "other");
  said_is (&s, 0, "exact", "0");
  sheet_say (sheet, &s, "outline slat = 0, -1 to 2, 0 to 0, 1\nroom");
  said_is (&s, s.count - 1, "exact", "3/2");
  sheet_say (sheet, &s, "undo\nroom");
  said_is (&s, s.count - 1, "exact", "5/2");
  sheet_say (sheet, &s, "redo\nroom");
  said_is (&s, s.count - 1, "exact", "3/2");
  sheet_say (sheet, &s, "rename step to pitch\nrename slat to lath\npitch = 3/2\nroom");
  said_is (&s, s.count - 1, "exact", "3");
  sheet_say (sheet, &s, "find n for n = 3");
  sheet_say (sheet, &s, "find pitch for clear(r, c) = 1");
  said_is (&s, 0, "exact", "13/6");
  sheet_say (sheet, &s, "forget shape lath");
  sheet_say (sheet, &s, "shapes");
  said_is (&s, 1, "waiting.0", "shape lath");
  sheet_say (sheet, &s, "undo\nforget shape m\nforget r\nshapes");
  sheet_say (sheet, &s, "missing");
  sheet_end (sheet, &s);
}

/* A row of another shape than before, under the same name.  */
static void
test_other_base (void **state)
{
  br_sheet *sheet = sheet_with ("box a = 1 x 1 at 0, 0\nbox b = 1 x 1 at 0, 5\nbox q = 1 x 1 at 0, 9\nrow r of a qty 2 by 1\nroom = clear(r, q)\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "room");
  said_is (&s, 0, "exact", "8");
  sheet_say (sheet, &s, "row r of b qty 2 by 1\nroom");
  said_is (&s, s.count - 1, "exact", "3");
  sheet_say (sheet, &s, "undo\nroom");
  said_is (&s, s.count - 1, "exact", "8");
  sheet_say (sheet, &s, "box r = 1 x 1 at 0, 7\nroom");
  said_is (&s, s.count - 1, "exact", "1");
  sheet_end (sheet, &s);
}

/* What has no depth of its own has that of its shape, and the first place of a row is no overlap with it.  */
static void
test_depth (void **state)
{
  br_sheet *sheet = sheet_with ("box slat = 1 x 2 at 0, 0\nrow r of slat qty 3 by 2\nmirror m of r about 0 deep 3\nbox q = 1 x 1 at 4, 0 deep 1\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "clear(r, q)");
  said_is (&s, 0, "exact", "-1");
  sheet_say (sheet, &s, "box slat = 1 x 2 at 0, 0 deep 1 from 2\nclear(r, q)");
  said_is (&s, s.count - 1, "exact", "3/2");
  sheet_say (sheet, &s, "shapes");
  said_is (&s, 0, "depth_from", "2");
  said_is (&s, 1, "depth_from", "-3/2");
  sheet_say (sheet, &s, "box q = 1 x 1 at 4, 0 deep 5\nrubs");
  said_is (&s, s.count - 1, "first", "r");
  said_is (&s, s.count - 1, "second", "q");
  /* From above each place is seen, as deep as its shape.  */
  sheet_say (sheet, &s, "draw top");
  said_is (&s, 0, "shapes.count", "7");
  sheet_end (sheet, &s);
}

/* On paper and in the terminal each place is drawn once; of a layer or a part they are where their shape is.  */
static void
test_drawn (void **state)
{
  br_sheet *sheet = sheet_with ("part lid = 12 x 4\ncircle h = 1/2 at 1, 1 layer holes hole of lid\nrow holes of h qty 3 by 2\nmirror back of holes about 6\n"
                                "line l = 0, 0 to 1, 3 layer lines\nrow ls of l qty 2 by 0, 4 layer lines\nmirror lm of l about 3 of lid\n");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "draw layer holes");
  said_is (&s, 0, "shapes.count", "3");
  said_is (&s, 0, "shapes.1.size", "3 of h, by 2\"");
  said_is (&s, 0, "shapes.2.size", "of holes, about 6\"");
  sheet_say (sheet, &s, "draw of lid");
  said_is (&s, 0, "shapes.count", "4");
  sheet_end (sheet, &s);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_random), CHECK_TEST (test_follow), CHECK_TEST (test_other_base), CHECK_TEST (test_depth), CHECK_TEST (test_drawn)
  };
  check_start ();
  return check_end (cmocka_run_group_tests (tests, NULL, NULL));
}
