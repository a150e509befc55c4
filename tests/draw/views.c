/* SPDX-License-Identifier: GPL-3.0-or-later
   views.c - whether the side, the view from above and the front agree with each other and with the sheet: each edge that is
   seen in one is where the other two have it.  The page is read back as SVG.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "svg.h"

#include <math.h>

#include "shape/depth.h"

#define NEAR 8                  /* billionths of an inch: halves that the grid of the drawing loses */

enum { SIDE, TOP, FRONT, VIEWS };

/* How far the strokes of a shape reach on the page in one view.  */
typedef struct edges
{
  int found;
  int64_t x, y, x2, y2;
} edges;

static void
reach_to (edges *e, int64_t x, int64_t y)
{
  if (!e->found)
    *e = (edges) { 1, x, y, x, y };
  e->x = x < e->x ? x : e->x;
  e->y = y < e->y ? y : e->y;
  e->x2 = x > e->x2 ? x : e->x2;
  e->y2 = y > e->y2 ? y : e->y2;
}

/* All that lies in the stroke E: a rectangle, a line, a circle, or a path of straight lines.  */
static void
read_stroke (edges *z, const svg_element *e)
{
  if (strcmp (e->name, "rect") == 0)
    {
      int64_t x = svg_number (e, "x"), y = svg_number (e, "y");
      reach_to (z, x, y);
      reach_to (z, x + svg_number (e, "width"), y + svg_number (e, "height"));
    }
  else if (strcmp (e->name, "line") == 0)
    {
      reach_to (z, svg_number (e, "x1"), svg_number (e, "y1"));
      reach_to (z, svg_number (e, "x2"), svg_number (e, "y2"));
    }
  else if (strcmp (e->name, "circle") == 0)
    {
      int64_t x = svg_number (e, "cx"), y = svg_number (e, "cy"), r = svg_number (e, "r");
      reach_to (z, x - r, y - r);
      reach_to (z, x + r, y + r);
    }
  else if (strcmp (e->name, "path") == 0 && !strchr (svg_get (e, "d"), 'A'))
    {
      const char *s = svg_get (e, "d");
      for (int64_t x = 0, y = 0; svg_next (&x, &s); reach_to (z, x, y))
        assert_true (svg_next (&y, &s));
    }
}

/* The strokes called NAME in VIEW, which begins where the order of the shapes begins anew; the shape `mark` is first in each
   view.  */
static edges
edges_of (const svg_file *f, const char *name, int view)
{
  edges z = { 0, 0, 0, 0, 0 };
  int at = -1, inside = 0;
  for (size_t i = 0; i < f->count; i++)
    {
      const svg_element *e = &f->elements[i];
      const char *id = strcmp (e->name, "g") == 0 ? svg_get (e, "id") : NULL;
      inside = id ? strcmp (id, "outlines") == 0 : inside;
      if (!inside || !e->title)
        continue;
      /* A rectangle in each view, which nothing hides.  */
      at += strcmp (e->title, "mark") == 0;
      if (at == view && strcmp (e->title, name) == 0)
        read_stroke (&z, e);
    }
  return z;
}

/* How much of the straight strokes called NAME in VIEW runs upright at AT across, or level at AT down the page.  */
static int64_t
run_at (const svg_file *f, const char *name, int view, int upright, int64_t at)
{
  int64_t sum = 0;
  int in = -1, inside = 0;
  for (size_t i = 0; i < f->count; i++)
    {
      const svg_element *e = &f->elements[i];
      const char *id = strcmp (e->name, "g") == 0 ? svg_get (e, "id") : NULL;
      inside = id ? strcmp (id, "outlines") == 0 : inside;
      in += inside && e->title && strcmp (e->title, "mark") == 0;
      if (!inside || !e->title || in != view || strcmp (e->title, name) != 0)
        continue;
      edges z = { 0, 0, 0, 0, 0 };
      read_stroke (&z, e);
      if (strcmp (e->name, "rect") == 0)
        sum += llabs ((upright ? z.x : z.y) - at) <= NEAR || llabs ((upright ? z.x2 : z.y2) - at) <= NEAR ? upright ? z.y2 - z.y : z.x2 - z.x : 0;
      else if (strcmp (e->name, "line") == 0)
        sum += llabs ((upright ? z.x : z.y) - at) <= NEAR && llabs ((upright ? z.x2 : z.y2) - at) <= NEAR ? z.x2 - z.x + z.y2 - z.y : 0;
      else if (strcmp (e->name, "path") == 0)
        {
          const char *s = svg_get (e, "d");
          int64_t x, y, x0 = 0, y0 = 0;
          for (int k = 0; svg_next (&x, &s) && svg_next (&y, &s); k++, x0 = x, y0 = y)
            if (k && llabs ((upright ? x : y) - at) <= NEAR && llabs ((upright ? x0 : y0) - at) <= NEAR)
              sum += llabs (x - x0) + llabs (y - y0);
        }
    }
  return sum;
}

static double
inches (const br__value *v)
{
  char text[64];
  assert_non_null (v);
  assert_true (br_real_write_decimal (text, sizeof text, NULL, &v->real, 15, 0, NULL) < sizeof text);
  return strtod (text, NULL);
}

static double
number_of (br_sheet *sheet, const br__shape *s, int part)
{
  return inches (br__shape_value (sheet, s, part));
}

static void
is_at (const char *name, const char *what, int64_t found, double right)
{
  if (fabs ((double) found - right * BR__INCH) > NEAR)
    fail_msg ("%s, %s: %.9f on the page, %.9f in the sheet", name, what, (double) found / BR__INCH, right);
}

/* Whether E of the page is where X to X2 and Y to Y2 of the sheet are: 0, 0 lies at LEFT, TOP, and Y goes up where UP.  */
static void
lies_at (const char *name, edges e, double x, double x2, double y, double y2, const int64_t zero[2], double scale)
{
  assert_true (e.found);
  is_at (name, "left", e.x - zero[0], x * scale);
  is_at (name, "right", e.x2 - zero[0], x2 * scale);
  is_at (name, "top", zero[1] - e.y, y2 * scale);
  is_at (name, "bottom", zero[1] - e.y2, y * scale);
}

/* Each sharp corner of the outline S is a line across it in the other views, where it is in the side view; so is each of the far one.  */
static void
check_corners (const svg_file *f, br_sheet *sheet, const br__shape *s, const char *name, int64_t zero[VIEWS][2], double scale)
{
  const size_t corners = br__shape_corners (sheet->graph, s->name, strlen (s->name));
  const int64_t deep = llround (number_of (sheet, s, BR__SHAPE_DEEP) * scale * BR__INCH);
  for (size_t i = 0; i < corners; i++)
    {
      double x = number_of (sheet, s, BR__SHAPE_X) + number_of (sheet, s, BR__CORNER_PART (i, BR__CORNER_X));
      double y = number_of (sheet, s, BR__SHAPE_Y) + number_of (sheet, s, BR__CORNER_PART (i, BR__CORNER_Y));
      if (number_of (sheet, s, BR__CORNER_PART (i, BR__CORNER_CUT)) > 0)
        continue;
      int64_t above = run_at (f, name, TOP, 1, zero[TOP][0] + llround (x * scale * BR__INCH));
      int64_t front = run_at (f, name, FRONT, 0, zero[FRONT][1] - llround (y * scale * BR__INCH));
      if (llabs (above - deep) > 4 * NEAR || llabs (front - deep) > 4 * NEAR)
        fail_msg ("%s, corner %zu: %.9f from above, %.9f from the front, not %.9f", name, i + 1, (double) above / BR__INCH,
                  (double) front / BR__INCH, (double) deep / BR__INCH);
    }
}

/* Every shape of the sheet in all views of the file, drawn at SCALE; FIRST-angle projection or third.  */
static void
check_views (br_sheet *sheet, const char *path, double scale, int first)
{
  svg_file f;
  svg_read (&f, path);
  const br__shape *mark = br__shape_find (sheet, "mark", 4);
  edges m[VIEWS];
  int64_t zero[VIEWS][2];
  double left = number_of (sheet, mark, BR__SHAPE_X) + number_of (sheet, mark, BR__SHAPE_LEFT);
  double top = number_of (sheet, mark, BR__SHAPE_Y) + number_of (sheet, mark, BR__SHAPE_TOP);
  for (int i = 0; i < VIEWS; i++)
    {
      m[i] = edges_of (&f, "mark", i);
      assert_true (m[i].found);
    }
  double deep = number_of (sheet, mark, BR__SHAPE_DEEP), middle = number_of (sheet, mark, BR__SHAPE_Z);
  zero[SIDE][0] = zero[TOP][0] = m[SIDE].x - llround (left * scale * BR__INCH);
  zero[SIDE][1] = zero[FRONT][1] = m[SIDE].y + llround (top * scale * BR__INCH);
  zero[TOP][1] = m[TOP].y2 - llround ((middle + deep / 2) * scale * BR__INCH);
  zero[FRONT][0] = m[FRONT].x - llround ((middle - deep / 2) * scale * BR__INCH);
  /* ISO 5456-2: third angle has the top above and the left side, which is the front, at the left; first angle the other way.  */
  assert_int_equal (m[TOP].y < m[SIDE].y, !first);
  assert_int_equal (m[FRONT].x < m[SIDE].x, !first);
  for (const br__shape *s = sheet->shapes; s; s = s->next)
    {
      char far[220];
      if (!s->active || !s->depth)
        continue;
      double x = number_of (sheet, s, BR__SHAPE_X), y = number_of (sheet, s, BR__SHAPE_Y);
      double x1 = x + number_of (sheet, s, BR__SHAPE_LEFT), x2 = x + number_of (sheet, s, BR__SHAPE_RIGHT);
      double y1 = y + number_of (sheet, s, BR__SHAPE_BOTTOM), y2 = y + number_of (sheet, s, BR__SHAPE_TOP);
      double z = inches (br__depth_middle (sheet, s)), half = number_of (sheet, s, BR__SHAPE_DEEP) / 2;
      snprintf (far, sizeof far, "far %s", s->name);
      for (int i = 0; i < 1 + (s->depth > BR__FROM_DEPTH); i++, z = -z)
        {
          const char *name = i ? far : s->name;
          lies_at (name, edges_of (&f, name, TOP), x1, x2, -z - half, -z + half, zero[TOP], scale);
          lies_at (name, edges_of (&f, name, FRONT), z - half, z + half, y1, y2, zero[FRONT], scale);
          if (s->kind == BR__OUTLINE)
            check_corners (&f, sheet, s, name, zero, scale);
        }
      edges side = edges_of (&f, s->name, SIDE);
      if (s->kind == BR__BOX)
        lies_at (s->name, side, x1, x2, y1, y2, zero[SIDE], scale);
    }
  svg_clear (&f);
}

/* A mark that nothing hides, before all shapes and above them.  */
static const char mark[] = "box mark = 1 x 1 at -40, 60 deep 1 from 90\n";

static const char cart[] =
  "track = 7 in\ncircle front = 3-1/2 at 0, 1-3/4 deep 3/4 both sides track\n"
  "circle rear = 3-1/2 at 14, 1-3/4 deep 3/4 both sides track\ncircle axle = 7/16 same centre as front deep 8\n"
  "box deck = 22 x 3/4 at -4, 4 deep 5-1/2\noutline side = 0, 0 to 12, 0 to 12, 5 round 1 to 0, 3 on deck deep 3/4 both sides 5-1/2\n"
  "arc mudguard = fender(front, 1/4, 1/4) 180 deg deep 1 from 2-1/2\nline handle = 0, 3 to -8, 9 wide 3/4 deep 1\n";

static void
draw (br_sheet *sheet, const char *line)
{
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "%s", line);
  said_is (&s, 0, "kind", "drawing");
  said_is (&s, 0, "view", "views");
  said_clear (&s);
}

static void
test_cart (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with (mark);
  (void) state;
  sheet_say (sheet, &s, "%s", cart);
  draw (sheet, "draw views scale 1:8 into v.svg");
  check_views (sheet, "v.svg", 1.0 / 8, 0);
  sheet_say (sheet, &s, "projection first");
  said_is (&s, 0, "value", "first");
  draw (sheet, "draw views scale 1:4 into v.svg");
  check_views (sheet, "v.svg", 1.0 / 4, 1);
  sheet_say (sheet, &s, "undo");
  sheet_say (sheet, &s, "track = 9");
  draw (sheet, "draw views scale 1:1 into v.svg");
  check_views (sheet, "v.svg", 1, 0);
  /* Metric sheets have the first angle.  */
  sheet_say (sheet, &s, "units mm");
  sheet_say (sheet, &s, "projection");
  said_is (&s, 0, "value", "first");
  sheet_say (sheet, &s, "projection third");
  draw (sheet, "draw views scale 1:5 into v.svg");
  check_views (sheet, "v.svg", 1.0 / 5, 0);
  unlink ("v.svg");
  sheet_end (sheet, &s);
}

static void
test_random (void **state)
{
  (void) state;
  for (long times = check_times (20); times > 0; times--)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with (mark);
      int count = 2 + (int) check_below (7);
      for (int i = 0; i < count; i++)
        {
          int a = (int) check_between (1, 9), b = (int) check_between (1, 9), x = (int) check_between (-99, 99);
          int y = (int) check_between (-99, 99), deep = (int) check_between (1, 20), at = (int) check_between (0, 20);
          char shape[100], place[60] = "";
          switch (check_below (4))
            {
            case 0: snprintf (shape, sizeof shape, "circle s%d = %d.%d", i, a, b); break;
            case 1: snprintf (shape, sizeof shape, "outline s%d = 0, 0 to %d, 1/2 to %d.%d, %d", i, a, b, b, 1 + a); break;
            case 2: snprintf (shape, sizeof shape, "outline s%d = 0, %d to 0, 0 to %d, 0 to %d, %d/3 to %d/3, %d/3", i, b, a, a, b, a, b); break;
            default: snprintf (shape, sizeof shape, "box s%d = %d x %d", i, a, b); break;
            }
          switch (check_below (3))
            {
            case 0: snprintf (place, sizeof place, "from %d/8", at); break;
            case 1: snprintf (place, sizeof place, "both sides between %d/3", at); break;
            }
          sheet_say (sheet, &s, "%s at %d/8, %d/8 deep %d/4 %s", shape, x, y, deep, place);
        }
      draw (sheet, "draw views scale 1:16 into v.svg");
      check_views (sheet, "v.svg", 1.0 / 16, 0);
      sheet_end (sheet, &s);
    }
  unlink ("v.svg");
}

/* What is in one view alone, and what is told of it.  */
static void
test_told (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with (cart);
  (void) state;
  sheet_say (sheet, &s, "circle hole = 1/4 at 0, 4-1/4 hole\nbox lid = 2 x 1 at 0, 9\nbox late = 2 x 1 at 0, 9 deep later\nmissing");
  assert_int_equal (s.count, said_first (&s, "missing") + 1);
  sheet_say (sheet, &s, "draw top into v.svg");
  said_is (&s, 0, "view", "top");
  said_is (&s, 0, "shapes", "11");
  said_is (&s, 0, "width", "211/8");
  said_is (&s, 0, "height", "8");
  said_is (&s, 0, "projection", "null");
  said_is (&s, 0, "without_depth.0", "lid");
  said_is (&s, 0, "without_depth.1", "late");
  sheet_say (sheet, &s, "missing");
  said_is (&s, 1, "name", "a depth for shape lid");
  said_is (&s, 1, "needed_by.0", "draw top");
  /* A row or a mirror has what its shape has, or gets it with that.  */
  size_t before = s.count - said_first (&s, "missing");
  sheet_say (sheet, &s, "row decks of deck qty 3 by 0, 9\nmirror lids of lid about 9\nrow holes of hole qty 2 by 1\nmissing");
  assert_int_equal (s.count - said_first (&s, "missing"), before);
  sheet_say (sheet, &s, "forget decks\nforget lids\nforget holes");
  sheet_say (sheet, &s, "draw views into v.svg");
  said_is (&s, 0, "projection", "third");
  sheet_say (sheet, &s, "draw front bare scale 1:8 into v.svg");
  said_is (&s, 0, "view", "front");
  said_is (&s, 0, "width", "8");
  sheet_say (sheet, &s, "draw views");
  assert_int_equal (s.count, 4);
  said_is (&s, 0, "view", "side");
  said_is (&s, 1, "view", "top");
  said_is (&s, 1, "shapes.1.name", "far front");
  said_is (&s, 2, "view", "front");
  said_is (&s, 2, "shapes.0.size", "3/4\" x 3-1/2\"");
  said_is (&s, 3, "kind", "remark");
  unlink ("v.svg");
  assert_int_equal (sheet_run (sheet, &s, "draw views bare into v.svg"), BR_DOMAIN);
  assert_int_equal (sheet_run (sheet, &s, "draw views bare"), BR_SYNTAX);
  assert_int_equal (sheet_run (sheet, &s, "projection second"), BR_SYNTAX);
  sheet_end (sheet, &s);
}

/* What is drawn, seen from above, by name and size: "a 6" x 2", bore in a 1" x 2"".  */
static void
seen_from_above (const char *lines, const char *expected)
{
  said s = SAID_ZERO;
  char told[400] = "", name[40], size[40];
  br_sheet *sheet = sheet_with (lines);
  sheet_say (sheet, &s, "draw top");
  for (int i = 0; i < 9; i++)
    {
      size_t n = strlen (told);
      snprintf (name, sizeof name, "shapes.%d.name", i);
      snprintf (size, sizeof size, "shapes.%d.size", i);
      if (!said_find (&s, 0, name))
        break;
      snprintf (told + n, sizeof told - n, "%s%s ", i ? ", " : "", said_get (&s, 0, name));
      n = strlen (told);
      snprintf (told + n, sizeof told - n, "%s", said_get (&s, 0, size));
    }
  assert_string_equal (told, expected);
  sheet_end (sheet, &s);
}

/* A hole without depth is as deep as what it goes through: not what lies in it, beside it or has none, nor of another part.  */
static void
test_holes (void **state)
{
  (void) state;
#define BORE "\ncircle bore = 1 at 3, 2 hole"
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2" BORE, "a 6\" x 2\", bore in a 1\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2 both sides 9" BORE,
                   "a 6\" x 2\", far a 6\" x 2\", bore in a 1\" x 2\", far bore in a 1\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2\ncircle axle = 1 at 3, 2 deep 9" BORE, "a 6\" x 2\", axle 1\" x 9\", bore in a 1\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2\nbox b = 6 x 4 at 7/2, 0 deep 1" BORE, "a 6\" x 2\", b 6\" x 1\", bore in a 1\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2 of p\nbox b = 6 x 4 at 0, 0 deep 1\nbox c = 6 x 4 at 0, 0" BORE " of p",
                   "a 6\" x 2\", b 6\" x 1\", bore in a 1\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2\nrow as of a qty 2 by 7" BORE "\nrow bs of bore qty 2 by 7",
                   "a 6\" x 2\", as 2 6\" x 2\", bore in a 1\" x 2\", bore in as 1\" x 2\", bs 2 in as 1\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2" BORE "\nmirror m of bore about 7/2", "a 6\" x 2\", bore in a 1\" x 2\", m in a 1\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2\ncircle bore = later at 3, 2 hole", "a 6\" x 2\"");
  /* One that the edge of the wood opens ends there; a peg whose box goes beyond its hole lies in it all the same.  */
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2\ncircle bore = 1 at 6, 2 hole", "a 6\" x 2\", bore in a 1/2\" x 2\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2\noutline peg = 3, 5/2 to 5/2, 2 to 3, 3/2 to 7/2, 2 deep 9" BORE,
                   "a 6\" x 2\", peg 1\" x 9\", bore in a 1\" x 2\"");
  /* What sticks out of it sideways, at the edge of the wood, is in it nevertheless; not what has wood beside it in common, is of the
     same part, as broad or at another depth, or waits.  */
#define SLOT "box a = 6 x 4 at 0, 0 deep 2\nline slot = 5, 2 to 7, 2 wide 1 hole\n"
  seen_from_above (SLOT "box tongue = 4 x 1 at 5, 3/2 deep 1", "a 6\" x 2\", slot in a 1-1/2\" x 2\", tongue 4\" x 1\"");
  seen_from_above (SLOT "box tongue = 9 x 1/2 at 5, 2 deep 9", "a 6\" x 2\", slot in a 1-1/2\" x 2\", tongue 9\" x 9\"");
  seen_from_above (SLOT "outline tongue = 5, 2 to 8, 2 to 8, 0 to 9, 0 to 9, 5/2 to 5, 5/2 deep 1",
                   "a 6\" x 2\", slot in a 1-1/2\" x 2\", tongue 4\" x 1\"");
#define CUT "a 6\" x 2\", slot in a 1-1/2\" x 2\", slot in tongue "
  seen_from_above (SLOT "box tongue = 4 x 2 at 5, 3/2 deep 1", CUT "2-1/2\" x 1\", tongue 4\" x 1\"");
  seen_from_above (SLOT "box tongue = 4 x 1 at 5, 3/2 deep 1 from 5", CUT "2-1/2\" x 1\", tongue 4\" x 1\"");
  seen_from_above ("box a = 6 x 4 at 0, 0 deep 2 of p\nline slot = 5, 2 to 7, 2 wide 1 hole\nbox tongue = 4 x 1 at 5, 3/2 deep 1 of p",
                   CUT "2-1/2\" x 1\", tongue 4\" x 1\"");
  seen_from_above ("box a = 4 x 4 at 0, 0 deep 1\nbox b = 4 x 4 at 7/2, 7/2 deep 1\ncircle bore = 1 at 15/4, 15/4 hole",
                   "a 4\" x 1\", b 4\" x 1\", bore in a 3/4\" x 1\", bore in b 3/4\" x 1\"");
  seen_from_above (SLOT "box c = q x 5 at 0, 0 deep 1\nbox tongue = 4 x 1 at 5, 3/2 deep 1 from 5", CUT "2-1/2\" x 1\", tongue 4\" x 1\"");
}

/* The texts of three views of SHEET, each with a blank before and behind it.  */
static void
numbers_on (char *told, size_t room, br_sheet *sheet)
{
  svg_file file;
  said s = SAID_ZERO;
  sheet_say (sheet, &s, "draw views into v.svg");
  svg_read (&file, "v.svg");
  snprintf (told, room, " ");
  for (size_t i = 0; i < file.count; i++)
    if (strcmp (file.elements[i].name, "text") == 0)
      {
        size_t n = strlen (told);
        snprintf (told + n, room - n, "%s ", file.elements[i].text);
      }
  svg_clear (&file);
  unlink ("v.svg");
  said_clear (&s);
}

/* `no dimension` holds in every view, and so do holes, which are measured where they are round.  */
static void
test_unmeasured (void **state)
{
  char told[4000];
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("box deck = 14 x 17/16 at 0, 4 deep 17/4\ncircle a = 4 at 2, 2 deep 11/8 both sides 7\ncircle h = 15/16 at 13, 9/2 hole\n");
  (void) state;
  numbers_on (told, sizeof told, sheet);
  assert_non_null (strstr (told, " 4-1/4 "));
  sheet_say (sheet, &s, "no dimension deck");
  numbers_on (told, sizeof told, sheet);
  assert_null (strstr (told, " 4-1/4 "));
  sheet_say (sheet, &s, "undo");
  numbers_on (told, sizeof told, sheet);
  assert_non_null (strstr (told, " 4-1/4 "));
  sheet_end (sheet, &s);
}

/* Aslant and level between the same two are two dimensions: both are kept and drawn; what is level by itself says the same.  */
static void
test_two_ways (void **state)
{
  char told[4000];
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("circle a = 1 at 0, 0 deep 1\ncircle b = 1 at 3, 4 deep 1\n");
  (void) state;
  sheet_say (sheet, &s, "dimension centre(a) to centre(b) as slant\ndimension centre(b) to centre(a) level as flat\ndimension");
  assert_int_equal (s.count, 4);
  numbers_on (told, sizeof told, sheet);
  assert_non_null (strstr (told, " slant "));
  assert_non_null (strstr (told, " flat "));
  /* Along is what an unsaid way was.  */
  sheet_say (sheet, &s, "dimension centre(a) to centre(b) along as aslant\ndimension");
  assert_int_equal (s.count, 3);
  sheet_say (sheet, &s, "dimension centre(a) to centre(b) as slant\ncircle b = 1 at 3, 0 deep 1");
  numbers_on (told, sizeof told, sheet);
  assert_null (strstr (told, " slant "));
  assert_non_null (strstr (told, " flat "));
  sheet_say (sheet, &s, "no dimension centre(a) to centre(b)\ndimension");
  said_is (&s, 1, "kind", "remark");
  sheet_end (sheet, &s);
}

/* Names that have no room at any scale do not make the figure as small as there is: 60 in is not drawn as 1/3 in.  */
static void
test_crowd (void **state)
{
  static char script[30000];
  said s = SAID_ZERO;
  size_t n = 0;
  (void) state;
  for (int i = 0; i < 300; i++)
    {
      const int x = i % 20 * 3, y = i / 20 * 3;
      char *at = script + n;
      const size_t room = sizeof script - n;
      switch (i % 5)
        {
        case 0: n += (size_t) snprintf (at, room, "circle s%d = 2 at %d, %d deep 3/4 from %d\n", i, x, y, i % 7); break;
        case 1: n += (size_t) snprintf (at, room, "box s%d = 2 x 3/2 at %d, %d deep 1/2 from %d\n", i, x, y, i % 5); break;
        case 2: n += (size_t) snprintf (at, room, "outline s%d = %d, %d by 2, 0 by 0, 2 round 1/2 by -2, -1 deep 3/4 from %d\n", i, x, y, i % 6); break;
        case 3: n += (size_t) snprintf (at, room, "line s%d = %d, %d to %d, %d wide 1/4 deep 1/2 from %d\n", i, x, y, x + 2, y + 1, i % 4); break;
        default: n += (size_t) snprintf (at, room, "box s%d = 1 x 2 at %d, %d deep 1 both sides %d\n", i, x, y, 8 + i % 3); break;
        }
    }
  br_sheet *sheet = sheet_with (script);
  sheet_say (sheet, &s, "draw views into views_crowd.svg");
  const char *scale = said_get (&s, s.count - 1, "scale");
  if (strncmp (scale, "1:", 2) != 0 || atoi (scale + 2) > 48)
    fail_msg ("%s", scale);
  unlink ("views_crowd.svg");
  sheet_end (sheet, &s);
}

/* Out of memory anywhere is reported so.  */
static void
test_refused (void **state)
{
  static const char *const lines[] = { "draw views", "draw views into v.svg scale 1:8", "draw top into v.svg scale 1:8" };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (lines); i++)
    sheet_refuse_from_each ("circle w = 4 at 0, 0 deep 1 both sides 8\nbox d = 9 x 1 at 0, 1 deep sqrt 2\n"
                            "outline o = 0, 0 to 9, 0 to 9, 9 deep 1\nbox lid = 1 x 1 at 0, 0\ncircle h = 1 at 2, 3/2 hole\nrow hs of h qty 2 by 2\n",
                            lines[i], 1);
  unlink ("v.svg");
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_cart), CHECK_TEST (test_random), CHECK_TEST (test_told), CHECK_TEST (test_holes), CHECK_TEST (test_unmeasured), CHECK_TEST (test_two_ways), CHECK_TEST (test_crowd),
    CHECK_TEST (test_refused)
  };
  return CHECK_RUN (tests);
}
