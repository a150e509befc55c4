/* SPDX-License-Identifier: GPL-3.0-or-later
   hidden_line.c - which edges of a view are dashed, as they lie behind something: by length, in tables worked out by hand, and
   at random against many points that are looked at one by one.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "figure.h"

#include <math.h>

#include "view/hidden_line.h"

typedef struct strokes
{
  br__plot plot;
  br__side_view view;
  br__seen seen;
} strokes;

/* The strokes of SHEET, at full size, seen FROM there.  */
static void
draw (strokes *s, br_sheet *sheet, br__seen_from from)
{
  br_error error;
  br__run run = { .sheet = sheet, .error = &error }, seen = run;
  memset (s, 0, sizeof *s);
  if (from != BR__FROM_THE_SIDE)
    {
      check_ok (br__seen_make (&s->seen, &run, from, NULL, NULL));
      seen.sheet = s->seen.sheet;
    }
  check_ok (br__view_make (&s->view, &seen, NULL, NULL, NULL));
  if (from != BR__FROM_THE_SIDE)
    {
      br__side_view side = BR__VIEW_ZERO;
      check_ok (br__view_make (&side, &run, NULL, NULL, NULL));
      check_ok (br__order_seen (&s->view, &s->seen, sheet, &side));
      br__view_clear (&side);
    }
  br__view_plot (&s->plot, &s->view, 0, 0);
  assert_false (s->plot.failed);
}

static void
strokes_clear (strokes *s)
{
  br__plot_clear (&s->plot);
  br__view_clear (&s->view);
  br__seen_clear (&s->seen);
}

static double
length_of (const br__ink *ink)
{
  br__path_step room[BR__MOST_STEPS];
  size_t count = 0;
  const br__path_step *steps = br__ink_steps (&count, room, ink);
  double length = 0, x = 0, y = 0, x0 = 0, y0 = 0;
  for (size_t i = 0; i < count; i++)
    {
      double to_x = (double) steps[i].x, to_y = (double) steps[i].y, turn = (double) steps[i].to / 1e9 * acos (-1.0) / 180;
      double from = (double) steps[i].from / 1e9 * acos (-1.0) / 180, r = (double) steps[i].r;
      int arc = steps[i].type == BR__STEP_ARC;
      double start_x = arc ? to_x + r * cos (from) : to_x, start_y = arc ? to_y - r * sin (from) : to_y;
      if (steps[i].type == BR__STEP_CLOSE)
        start_x = x0, start_y = y0;
      if (!i || steps[i].type == BR__STEP_MOVE)
        x = x0 = start_x, y = y0 = start_y;
      length += hypot (start_x - x, start_y - y) + (arc ? fabs (turn - from) * r : 0);
      x = arc ? to_x + r * cos (turn) : start_x;
      y = arc ? to_y - r * sin (turn) : start_y;
    }
  return length / 1e9;
}

/* How much of the edge of NAME is DASHED, or is not, in inches.  */
static double
length_named (const strokes *s, const char *name, int dashed)
{
  double length = 0;
  for (size_t i = 0; i < s->plot.count; i++)
    {
      const br__ink *ink = &s->plot.inks[i];
      if (ink->group == BR__GROUP_OUTLINES && ink->text && strcmp (ink->text, name) == 0 && (ink->dashed == BR__DASHED) == dashed)
        {
          assert_int_equal (ink->pen, dashed ? BR__PEN_THIN : BR__PEN_OUTLINE);
          length += length_of (ink);
        }
    }
  return length;
}

static void
is_near (const char *what, double found, double right)
{
  if (fabs (found - right) > 2e-3)
    fail_msg ("%s: %.6f, not %.6f", what, found, right);
}

static const struct { const char *a, *b; br__seen_from from; double seen, hidden; } rows[] =
{
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 2 x 2 at 1, 1 deep 1 from 5", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 2 x 2 at 1, 1 deep 1", "box b = 4 x 4 at 0, 0 deep 1 from 5", BR__FROM_THE_SIDE, 0, 8 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 2, 2 deep 1 from 5", BR__FROM_THE_SIDE, 12, 4 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 2, 2 deep 1 from -5", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 2, 2 deep 1", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 2, 2 deep 1 both sides 4", BR__FROM_THE_SIDE, 12, 4 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 2, 2", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0", "box b = 4 x 4 at 2, 2 deep 1", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 2, 2 deep q from 5", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1", "circle b = 4 at 4, 4 hole deep 1 from 5", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1", "circle b = 4 at 4, 4 deep 1 from 5", BR__FROM_THE_SIDE, 12, 4 },
  { "box a = 4 x 4 at 0, 0 deep 1", "line b = 4, 1 to 4, 2 deep 1 from 5", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1", "line b = 4, 1 to 4, 2 wide 1 deep 1 from 5", BR__FROM_THE_SIDE, 14, 2 },
  { "box a = 4 x 4 at 0, 0 deep 1", "outline b = 1, 2 to 9, 2 to 9, 9 to 1, 9 deep 1 from 5", BR__FROM_THE_SIDE, 11, 5 },
  { "box a = 4 x 4 at 0, 0 deep 1", "arc b = bend(3, 2) 90 deg from 0 deg at 0, 0 deep 1 from 5", BR__FROM_THE_SIDE, 10, 6 },
  /* A side that no paper can show, less than a billionth of an inch, is in neither sum.  */
  { "outline a = 0, 0 to 4, 0 to 4, 1/1000000000000 to 4, 4 to 0, 4 deep 1", "box b = 4 x 4 at 2, 2 deep 1 from 5", BR__FROM_THE_SIDE,
    12, 4 },
  { "circle a = 4 at 0, 0 deep 1", "box b = 9 x 9 at 0, -4 deep 1 from 5", BR__FROM_THE_SIDE, 6.283185, 6.283185 },
  /* No line leads from one curve of a ring to the other.  */
  { "plate a = 4 hole 2 at 0, 0 deep 1", "box b = 9 x 9 at 0, -4 deep 1 from 5", BR__FROM_THE_SIDE, 9.424778, 9.424778 },
  { "line a = 0, 0 to 4, 0 deep 1", "box b = 2 x 2 at 1, -1 deep 1 from 5", BR__FROM_THE_SIDE, 2, 2 },
  { "line a = 0, 0 to 4, 0 wide 2 deep 1", "box b = 2 x 4 at 1, -2 deep 1 from 5", BR__FROM_THE_SIDE, 4 + 6.283185, 4 },
  /* What says so itself, and what is behind that.  */
  { "box a = 4 x 4 at 0, 0 behind b", "box b = 4 x 4 at 2, 2", BR__FROM_THE_SIDE, 12, 4 },
  { "box a = 4 x 4 at 0, 0 behind m", "box b = 4 x 4 at 2, 2\nbox m = 1 x 1 at 90, 0 behind b", BR__FROM_THE_SIDE, 12, 4 },
  { "box a = 4 x 4 at 0, 0 behind nothing", "box b = 4 x 4 at 2, 2", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1 from 9 behind b", "box b = 4 x 4 at 2, 2 deep 1", BR__FROM_THE_SIDE, 12, 4 },
  { "box a = 4 x 4 at 2, 2 deep 1", "box b = 4 x 4 at 0, 0 deep 1 from 9 behind a", BR__FROM_THE_SIDE, 16, 0 },
  /* What rows and mirrors draw hides as any shape does.  */
  { "box a = 4 x 4 at 0, 0 deep 1", "box c = 1 x 2 at 9, -1 deep 1 from 5\nmirror r of c about 6", BR__FROM_THE_SIDE, 15, 1 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box c = 1 x 2 at 9, -1 deep 1 from 5\nrow r of c qty 2 by -7, 0", BR__FROM_THE_SIDE, 15, 1 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box c = 1 x 2 at 9, -1 deep 1 from -5\nrow r of c qty 2 by -7, 0", BR__FROM_THE_SIDE, 16, 0 },
  /* And their pieces have their own name.  */
  { "box c = 1 x 2 at 9, -1 deep 1 from -5\nrow a of c qty 2 by -7, 0", "box b = 4 x 4 at 0, 0 deep 1", BR__FROM_THE_SIDE, 3, 3 },
  { "box c = 1 x 2 at -3, -1 deep 1 from -5\nmirror a of c about 0", "box b = 4 x 4 at 0, 0 deep 1", BR__FROM_THE_SIDE, 3, 3 },
  { "box a = 4 x 4 at 0, 0 behind r", "box c = 1 x 2 at 9, -1\nmirror r of c about 6", BR__FROM_THE_SIDE, 15, 1 },
  /* What touches another from inside is hidden all the way round.  */
  { "circle a = 3 at 0, 0 deep 1", "circle b = 5 at 3/5, 4/5 deep 1 from 5", BR__FROM_THE_SIDE, 0, 9.424778 },
  { "circle a = 3 at 0, 0 deep 1", "circle b = 4 at 1/2, 0 deep 1 from 5", BR__FROM_THE_SIDE, 0, 9.424778 },
  { "circle a = 2 at 1, 1 deep 1", "box b = 7 x 9 at 0, 0 deep 1 from 5", BR__FROM_THE_SIDE, 0, 6.283185 },
  { "box a = 6 x 8 at -3, -4 deep 1", "circle b = 10 at 0, 0 deep 1 from 5", BR__FROM_THE_SIDE, 0, 28 },
  { "box a = 4 x 1 at 0, 0 deep 1", "box b = 9 x 5 at 0, 0 round 1 deep 1 from 5", BR__FROM_THE_SIDE, 5, 5 },
  { "arc a = bend(1, 1/2) 180 deg from 0 deg at 0, 0 deep 1", "circle b = 3 at 0, 0 deep 1 from 5", BR__FROM_THE_SIDE, 4.712389, 4.141593 },
  /* Edges that meet are seen.  */
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 0, 0 deep 1 from 5", BR__FROM_THE_SIDE, 16, 0 },
  { "box a = 4 x 4 at 0, 0 deep 1", "box b = 4 x 4 at 4, 0 deep 1 from 5", BR__FROM_THE_SIDE, 16, 0 },
  /* What lies in a hole, or behind one that goes all through, is seen there; behind the end of one that does not, it is not.  */
#define WOOD "box w = 8 x 4 at -1, 0 deep 4\n"
  { "circle a = 2 at 3, 2 deep 2", WOOD "circle b = 3 at 3, 2 hole", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 3, 2 deep 2", WOOD "circle b = 2 at 3, 2 hole", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 3, 2 deep 2", WOOD "circle b = 3 at 3, 2 hole deep 4", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 3, 2 deep 2", WOOD "line b = 1, 2 to 5, 2 wide 3 hole", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 3, 2 deep 2 behind w", WOOD "circle b = 3 at 3, 2 hole", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 3, 2 deep 2", WOOD "circle b = 3 at 3, 2 hole of w", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 3, 2 deep 2", WOOD "circle b = 3 at 3, 2 hole of p", BR__FROM_THE_SIDE, 0, 6.283185 },
  { "circle a = 2 at 3, 2 deep 2", WOOD "circle c = 3 at -9, 2 hole\nrow b of c qty 2 by 12", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 3, 2 deep 2", "box x = 8 x 4 at -9, 0 deep 4\nrow w of x qty 2 by 8\ncircle b = 3 at 3, 2 hole", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "box a = 6 x 1 at 0, 3/2 deep 1 from -9", WOOD "circle b = 2 at 3, 2 hole", BR__FROM_THE_SIDE, 3.464102, 14 - 3.464102 },
  { "box a = 6 x 1 at 0, 3/2 deep 1 from -9", WOOD "circle b = 2 at 3, 2 hole deep 1 from 1", BR__FROM_THE_SIDE, 0, 14 },
  { "circle a = 1 at 3, 2 deep 1/2 from 1", WOOD "circle b = 2 at 3, 2 hole deep 1 from 1", BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle a = 1 at 3, 2 deep 1/2 from -2", WOOD "circle b = 2 at 3, 2 hole deep 1 from -2", BR__FROM_THE_SIDE, 0, 3.141593 },
#define PAIR "box w = 8 x 4 at -1, 0 deep 1 both sides 9\n"
  { "circle a = 1 at 3, 2 deep 1 from -9", PAIR "circle b = 2 at 3, 2 hole", BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle a = 1 at 3, 2 deep 1 from -9", PAIR "circle b = 2 at 3, 2 hole deep 1 both sides 9", BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle a = 1 at 3, 2 deep 1 from -9", PAIR "circle b = 2 at 3, 2 hole deep 1 from 7/2", BR__FROM_THE_SIDE, 0, 3.141593 },
  { "circle a = 1 at 3, 2 deep 1", PAIR "circle b = 2 at 3, 2 hole deep 1 from 7/2", BR__FROM_THE_SIDE, 3.141593, 0 },
  /* A peg closes its hole; and an edge of a hole is hidden by what lies before it.  */
  { "circle a = 1 at 3, 2 deep 1 from -9", WOOD "circle b = 2 at 3, 2 hole\ncircle peg = 2 at 3, 2 deep 6", BR__FROM_THE_SIDE, 0, 3.141593 },
  { "circle a = 1/2 at 13/2, 2 deep 1 from -9", WOOD "line b = 6, 2 to 8, 2 wide 1 hole\nbox peg = 4 x 1 at 6, 3/2 deep 1", BR__FROM_THE_SIDE,
    0, 1.570796 },
  { "circle a = 1 at 3, 2 hole of w", WOOD "circle b = 2 at 3, 2 deep 1 from 2", BR__FROM_THE_SIDE, 0, 3.141593 },
  { "circle a = 1 at 3, 2 hole", WOOD "circle b = 2 at 3, 2 deep 1 from 2", BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle a = 1 at 3, 2 hole of w", WOOD "circle b = 2 at 3, 2 deep 1 from -9", BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle a = 1 at 3, 2 hole", "circle b = 2 at 3, 2 deep 1 from 2\nbox w = 6 x 4 at 0, 0 deep q", BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle c = 1 at -9, 2 hole of w\nrow a of c qty 2 by 12", WOOD "circle b = 2 at 3, 2 deep 1 from 2", BR__FROM_THE_SIDE, 0, 3.141593 },
  /* Of a hole that goes beyond the edge of its wood, what lies in the wood is there; of the wood, what lies outside of such holes.  */
#define SIDE "box w = 12 x 6 at 0, 0\n"
  { "box a = 12 x 6 at 0, 0", "circle h = 2 at 0, 4 hole of a", BR__FROM_THE_SIDE, 34, 0 },
  { "box a = 12 x 6 at 0, 0", "circle h = 2 at 0, 4 hole", BR__FROM_THE_SIDE, 36, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 0, 4 hole of a", BR__FROM_THE_SIDE, 34, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 0, 4 hole", BR__FROM_THE_SIDE, 36, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 0, 4 hole of a deep 1 from 0", BR__FROM_THE_SIDE, 36, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1 both sides 9", "circle h = 2 at 0, 4 hole of a", BR__FROM_THE_SIDE, 34, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1 both sides 9", "circle h = 2 at 0, 4 hole of a deep 1 from 7/2", BR__FROM_THE_SIDE, 36, 0 },
  { "box a = 12 x 6 at 0, 0", "line h = 10, 2 to 14, 2 wide 1 hole of a", BR__FROM_THE_SIDE, 35, 0 },
  { "box a = 12 x 6 at 0, 0", "line h = 10, 11/2 to 14, 11/2 wide 1 hole of a", BR__FROM_THE_SIDE, 36 - 2 - 1, 0 },
  { "box a = 12 x 6 at 0, 0", "circle h = 2 at 0, 3 hole of a\nrow r of h qty 2 by 12", BR__FROM_THE_SIDE, 32, 0 },
  { "box a = 12 x 6 at 0, 0", "circle h = 2 at 0, 3 hole of a\nmirror r of h about 6", BR__FROM_THE_SIDE, 32, 0 },
  { "box a = 12 x 6 at 0, 0", "circle h = 2 at 0, 3 hole of r\nrow r of a qty 2 by 12", BR__FROM_THE_SIDE, 36, 0 },
  { "box c = 12 x 6 at 9, 9\nrow a of c qty 2 by -9", "circle h = 2 at 0, 12 hole of a", BR__FROM_THE_SIDE, 34, 0 },
  { "circle a = 6 at 0, 0", "line h = 0, 0 to 5, 0 wide 1 hole of a", BR__FROM_THE_SIDE, 18.849556 - 6 * 0.167448, 0 },
  { "outline a = 0, 0 to 6, 0 to 0, 6", "circle h = 2 at 3, 3 hole of a", BR__FROM_THE_SIDE, 12 + 8.485281 - 2, 0 },
  { "outline a = 0, 0 to 6, 0 to 0, 6", "circle h = 2 at 3/2, 3/2 hole of a", BR__FROM_THE_SIDE, 12 + 8.485281, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 0, 4 hole of a\nbox b = 9 x 9 at -1, 4 deep 1 from 5", BR__FROM_THE_SIDE, 4 + 6 + 12 + 3, 9 },
  { "circle a = 2 at 0, 4 hole of w", SIDE, BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle a = 2 at 0, 4 hole", SIDE, BR__FROM_THE_SIDE, 6.283185, 0 },
  { "circle a = 2 at 0, 4 hole of w", SIDE "circle k = 2 at 1, 4 hole of w", BR__FROM_THE_SIDE, 3.141593 / 3, 0 },
  { "circle a = 2 at 0, 4 hole of w deep 1 from 0", "box w = 12 x 6 at 0, 0 deep 1", BR__FROM_THE_SIDE, 3.141593, 0 },
  { "circle a = 2 at 0, 4 hole of p", "box w = 4 x 6 at 0, 0 of p\nbox x = 4 x 6 at -4, 0 of p", BR__FROM_THE_SIDE, 6.283185, 0 },
  { "line a = 10, 2 to 14, 2 wide 1 hole of w", SIDE, BR__FROM_THE_SIDE, 4 + 1.570796, 0 },
  { "line a = -1, 3 to 13, 3 wide 1 hole of w", SIDE, BR__FROM_THE_SIDE, 24, 0 },
  { "circle c = 2 at -9, 4 hole of w\nrow a of c qty 2 by 9", SIDE, BR__FROM_THE_SIDE, 3.141593, 0 },
  /* One that misses its wood is drawn as it is.  */
  { "circle a = 2 at -3, 4 hole of w", SIDE, BR__FROM_THE_SIDE, 6.283185, 0 },
  /* Its walls are seen where it is open, and lines of the wood.  */
#define DEEP "box w = 12 x 6 at 0, 0 deep 1\n"
  { "box a = 12 x 6 at 0, 0 deep 1", "line h = 3, 5 to 3, 8 wide 1 hole of a", BR__FROM_ABOVE, 28, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1", "line h = 3, 1 to 3, -8 wide 1 hole of a", BR__FROM_ABOVE, 26, 2 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 9, 11/2 hole of a", BR__FROM_ABOVE, 28, 2 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 9, 13/2 hole of a", BR__FROM_ABOVE, 28, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 0, 3 hole of a", BR__FROM_THE_FRONT, 14 + 2, 0 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 12, 3 hole of a", BR__FROM_THE_FRONT, 14, 2 },
  { "box a = 2 x 9 at 2, -20 deep 1/2", DEEP "line h = 3, 5 to 3, 8 wide 1 hole of w", BR__FROM_ABOVE, 0, 5 },
  { "box a = 2 x 9 at 2, -4 deep 1/2", DEEP "line h = 3, 0 to 3, 8 wide 1 hole of w", BR__FROM_ABOVE, 2, 3 },
  { "box a = 12 x 6 at 0, 0 deep 1", "circle h = 2 at 0, 3 hole of a\ncircle k = 1 at 6, 3 hole of a", BR__FROM_ABOVE, 26, 1 },
  { "circle a = 2 at 9, 11/2 hole of w", DEEP, BR__FROM_ABOVE, 0, 0 },
  { "circle c = 2 at -9, 3 hole of w\nrow a of c qty 2 by 9", DEEP, BR__FROM_THE_FRONT, 0, 0 },
  /* A pocket ends at the edge, too.  */
  { "circle a = 2 at 0, 4 hole of w deep 1/2 from 1/4", DEEP, BR__FROM_ABOVE, 0, 3 },
  { "line a = 0, 0 to 4, 0 deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 10, 0 },
  /* From above: b is higher, lower, or higher at one end alone.  */
  { "box a = 4 x 1 at 0, 0 deep 4", "box b = 4 x 1 at 2, 5 deep 2", BR__FROM_ABOVE, 14, 2 },
  { "box a = 4 x 1 at 0, 0 deep 4", "box b = 4 x 1 at 2, -5 deep 2", BR__FROM_ABOVE, 16, 0 },
  { "box a = 4 x 1 at 0, 0 deep 4", "outline b = -1, 9 to -1, -3 to 5, -3 deep 6", BR__FROM_ABOVE, 6, 10 },
  { "box a = 4 x 1 at 0, 2 deep 4", "outline b = -1, 9 to -1, -3 to 5, -3 deep 6", BR__FROM_ABOVE, 4 + 2 * 2, 4 + 2 * 2 },
  { "box a = 4 x 1 at 0, 0 deep 4", "circle b = 2 at 2, 0 hole deep 9", BR__FROM_ABOVE, 16, 0 },
  { "box a = 4 x 1 at 0, 0 deep 4", "circle b = 2 at 2, 0 hole of a deep 9", BR__FROM_ABOVE, 16, 8 },
  { "circle a = 2 at 2, 0 hole deep 9", "box b = 4 x 1 at 0, 0 deep 4", BR__FROM_ABOVE, 0, 22 },
  { "circle a = 2 at 2, 0 hole of b deep 9", "box b = 4 x 1 at 0, 0 deep 4", BR__FROM_ABOVE, 0, 0 },
  { "circle a = 4 at 2, 2 deep 2", "box b = 4 x 1 at 2, 9 deep 4", BR__FROM_ABOVE, 6, 6 },
  /* From the front, which is the left end.  */
  { "box a = 1 x 4 at 0, 0 deep 4", "box b = 1 x 4 at -5, 2 deep 2", BR__FROM_THE_FRONT, 14, 2 },
  { "box a = 1 x 4 at 0, 0 deep 4", "box b = 1 x 4 at 5, 2 deep 2", BR__FROM_THE_FRONT, 16, 0 },
  /* Corners of a shape are lines across it, and so is where a curve turns back; not where a round goes on as a side.  */
  { "outline a = 0, 0 to 6, 0 to 6, 2 to 4, 2 to 4, 4 to 0, 4 deep 2", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 18, 0 },
  { "outline a = 0, 0 to 6, 0 to 6, 2 to 4, 2 to 4, 4 to 0, 4 deep 2", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_THE_FRONT, 12, 2 },
  { "outline a = 0, 0 to 6, 0 to 6, 2 to 4, 2 to 4, 4 to 0, 4 deep 2", "box b = 3 x 1 at 3, 9 deep 1", BR__FROM_ABOVE, 17, 1 },
  { "outline a = 0, 0 to 6, 0 to 6, 2 to 4, 2 to 4, 4 to 0, 4 deep 2", "box b = 3 x 1 at 3, 3 deep 1", BR__FROM_ABOVE, 18, 0 },
  { "outline a = 6, 0 to 6, 4 to 2, 4 to 2, 2 to 0, 2 to 0, 0 deep 2", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_THE_FRONT, 14, 0 },
  { "box a = 3 x 1 at 0, 0 turned 30 deg deep 2", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 12.196152, 2 },
  { "plate a = 4 hole 2 at 0, 0 deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 10, 2 },
  { "arc a = bend(1, 1/2) 180 deg from 0 deg at 0, 0 deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 8, 2 },
  { "arc a = bend(1, 1/2) 180 deg from 0 deg at 0, 0 deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_THE_FRONT, 5, 1 },
  { "arc a = bend(1, 1/2) 90 deg from 135 deg at 0, 0 deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_THE_FRONT, 2 * (2.121320 + 1), 2 },
  { "outline a = 0, 0 to 6, 0 to 6, 4 to 0, 4 rise -1 deep 2", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_THE_FRONT, 12, 2 },
  { "outline a = 0, 0 to 6, 0 to 6, 4 to 0, 4 rise 1 deep 2", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_THE_FRONT, 16, 0 },
  { "box a = 6 x 4 at 0, 0 round 1 deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 14, 0 },
  { "box a = 6 x 4 at 0, 0 cut 1 top deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 16, 0 },
  { "box a = 6 x 4 at 0, 0 cut 1 bottom deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 14, 2 },
  { "box a = 6 x 4 at 0, 0 cut 1 top deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_THE_FRONT, 11, 0 },
  { "line a = 0, 0 to 4, 0 wide 1 hole deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 0, 12 },
  { "line a = 0, 0 to 4, 3 wide 1 deep 1", "box b = 1 x 1 at 90, 0 deep 1", BR__FROM_ABOVE, 12, 0 },
  { "box a = 1 x 4 at 0, 0 deep 4", "line b = -6, -2 to 6, 6 wide 1 deep 6", BR__FROM_THE_FRONT, 4 + 2 * (2 - 0.600925), 4 + 2 * 2.600925 },
};

static void
test_table (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      char what[200];
      strokes s;
      said t = SAID_ZERO;
      br_sheet *sheet = sheet_with (rows[i].a);
      sheet_say (sheet, &t, "%s", rows[i].b);
      draw (&s, sheet, rows[i].from);
      snprintf (what, sizeof what, "%s; %s", rows[i].a, rows[i].b);
      is_near (what, length_named (&s, "a", 0), rows[i].seen);
      is_near (what, length_named (&s, "a", 1), rows[i].hidden);
      strokes_clear (&s);
      sheet_end (sheet, &t);
    }
}

/* Each of very many hides its part.  */
static void
test_many (void **state)
{
  enum { COUNT = 100 };
  said t = SAID_ZERO;
  strokes s;
  br_sheet *sheet = sheet_with ("box low = 200 x 1 at 0, 0 deep 1 from -9");
  (void) state;
  for (int i = 0; i < COUNT; i++)
    sheet_say (sheet, &t, "box c%d = 1 x 3 at %d, -1 deep 1", i, 2 * i);
  draw (&s, sheet, BR__FROM_THE_SIDE);
  is_near ("low", length_named (&s, "low", 1), 2 * COUNT);
  is_near ("low", length_named (&s, "low", 0), 402 - 2 * COUNT);
  strokes_clear (&s);
  sheet_end (sheet, &t);
}

typedef struct thing
{
  int circle, x, y, a, b, near;         /* corner and sizes, or centre and diameter */
} thing;

/* What lies on the edge of T is not covered, however it is rounded.  */
static int
covers (const thing *t, double x, double y)
{
  return t->circle ? hypot (x - t->x, y - t->y) < t->a / 2.0 - 1e-9 : x > t->x && x < t->x + t->a && y > t->y && y < t->y + t->b;
}

/* The share of the edge of T that is behind another of the COUNT at THINGS.  */
static double
hidden_length (const thing *t, const thing *things, int count)
{
  enum { POINTS = 20000 };
  double edge = t->circle ? acos (-1.0) * t->a : 2 * (t->a + t->b);
  int hidden = 0;
  for (int i = 0; i < POINTS; i++)
    {
      double at = (i + 0.5) / POINTS, x = t->x, y = t->y, along = at * 2 * (t->a + t->b);
      if (t->circle)
        x += t->a / 2.0 * cos (at * 2 * acos (-1.0)), y += t->a / 2.0 * sin (at * 2 * acos (-1.0));
      else if (along < t->a)
        x += along;
      else if (along < t->a + t->b)
        x += t->a, y += along - t->a;
      else if (along < 2 * t->a + t->b)
        x += along - t->a - t->b, y += t->b;
      else
        y += along - 2 * t->a - t->b;
      for (int k = 0; k < count; k++)
        if (things[k].near > t->near && covers (&things[k], x, y))
          {
            hidden++;
            break;
          }
    }
  return edge * hidden / POINTS;
}

static void
test_random (void **state)
{
  (void) state;
  for (long times = check_times (30); times > 0; times--)
    {
      enum { COUNT = 6 };
      thing things[COUNT];
      said t = SAID_ZERO;
      strokes s;
      br_sheet *sheet = sheet_with ("");
      for (int i = 0; i < COUNT; i++)
        {
          thing *k = &things[i];
          *k = (thing) { (int) check_below (2), (int) check_below (9), (int) check_below (9), 1 + (int) check_below (9),
                         1 + (int) check_below (9), (int) check_below (4) };
          if (k->circle)
            sheet_say (sheet, &t, "circle s%d = %d at %d, %d deep 1 from %d", i, k->a, k->x, k->y, k->near);
          else
            sheet_say (sheet, &t, "box s%d = %d x %d at %d, %d deep 1 from %d", i, k->a, k->b, k->x, k->y, k->near);
        }
      draw (&s, sheet, BR__FROM_THE_SIDE);
      for (int i = 0; i < COUNT; i++)
        {
          char name[16];
          snprintf (name, sizeof name, "s%d", i);
          double right = hidden_length (&things[i], things, COUNT), found = length_named (&s, name, 1);
          if (fabs (found - right) > 0.02)
            fail_msg ("%s: %.4f is hidden, not %.4f", name, found, right);
        }
      strokes_clear (&s);
      sheet_end (sheet, &t);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_table), CHECK_TEST (test_many), CHECK_TEST (test_random) };
  return CHECK_RUN (tests);
}
