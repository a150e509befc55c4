/* SPDX-License-Identifier: GPL-3.0-or-later
   figure.h - a figure with dimension lines and names, as strokes, for tests of where things lie.  */
#ifndef BR_TESTS_DRAW_FIGURE_H
#define BR_TESTS_DRAW_FIGURE_H

#include "sheet/support.h"

#include "draw/dimension_line.h"

typedef struct figure
{
  br_sheet *sheet;
  br_error error;
  br__run run;
  br__side_view view;
  br__size_lines lines[2];      /* level, upright */
  br__plot plot;
  int64_t left, top;            /* where 0, 0 of the sheet lies on the page */
  int64_t strokes;              /* inks of the shapes themselves, then those of sizes and names */
  int64_t sizes;
  size_t unlabelled;
} figure;

#define FIGURE_MARGIN (BR__INCH * 3 / 4)

/* The shapes of SHEET, which the figure takes over, at N : D; no table under it.  */
CHECK_UNUSED static void
figure_make (figure *f, br_sheet *sheet, int64_t n, int64_t d)
{
  br_number ratio = BR_NUMBER_ZERO;
  memset (f, 0, sizeof *f);
  f->sheet = f->run.sheet = sheet;
  f->run.error = &f->error;
  check_ok (br_number_set_ratio (&ratio, n, d));
  check_ok (br__view_make (&f->view, &f->run, &ratio, NULL, NULL));
  for (int i = 0; i < 2; i++)
    check_ok (br__size_lines_make (&f->lines[i], &f->run, &f->view, i));
  const br__area *r = &f->view.reach;
  f->left = FIGURE_MARGIN + f->lines[1].depth[0] - r->x;
  f->top = FIGURE_MARGIN + f->lines[0].depth[1] + r->y2;
  f->plot.width = f->left + r->x2 + f->lines[1].depth[1] + FIGURE_MARGIN;
  f->plot.height = f->top - r->y + f->lines[0].depth[0] + FIGURE_MARGIN;
  br__view_plot (&f->plot, &f->view, f->left, f->top);
  f->strokes = (int64_t) f->plot.count;
  for (int i = 0; i < 2; i++)
    br__size_lines_plot (&f->plot, &f->lines[i], &f->view, f->left, f->top);
  f->sizes = (int64_t) f->plot.count;
  f->unlabelled = br__labels_plot (&f->plot, &f->view, (br__area) { 0, 0, f->plot.width, f->plot.height }, f->left,
                                   f->top);
  assert_false (f->plot.failed);
}

CHECK_UNUSED static void
figure_clear (figure *f)
{
  br__view_clear (&f->view);
  for (int i = 0; i < 2; i++)
    br__size_lines_clear (&f->lines[i]);
  br__plot_clear (&f->plot);
  br_sheet_free (f->sheet);
}

/* A sheet of COUNT shapes of all kinds on a field of WIDTH by HEIGHT sixteenths, drawn from the seed; DEEP: each at a depth, so that
   one hides parts of others.  */
CHECK_UNUSED static br_sheet *
random_deep_shapes (int count, int64_t width, int64_t height, int deep)
{
  char *text = NULL;
  size_t length;
  FILE *out = open_memstream (&text, &length);
  for (int i = 0; i < count; i++)
    {
      int64_t x = check_between (0, width), y = check_between (0, height);
      int64_t a = check_between (1, 64), b = check_between (1, 64), turn, from;
      switch (check_below (4))
        {
        case 0:
          fprintf (out, "circle c%d = %" PRId64 "/16 at %" PRId64 "/16, %" PRId64 "/16%s", i, a, x, y,
                   check_below (2) ? " hole" : "");
          break;
        case 1:
          fprintf (out, "box b%d = %" PRId64 "/16 x %" PRId64 "/16 at %" PRId64 "/16, %" PRId64 "/16", i, a, b, x, y);
          break;
        case 2:
          /* One after the other: which argument of a call is worked out first is the compiler's choice.  */
          from = check_between (0, 359);
          turn = check_between (10, 350);
          fprintf (out, "arc a%d = bend(%" PRId64 "/16, 1/4) %" PRId64 " deg from %" PRId64 " deg at %" PRId64 "/16, %" PRId64
                   "/16", i, a, turn, from, x, y);
          break;
        default:
          fprintf (out, "line l%d = %" PRId64 "/16, %" PRId64 "/16 to %" PRId64 "/16, %" PRId64 "/16%s", i, x, y,
                   x + a - 32, y + b, check_below (2) ? " wide 1/4" : "");
        }
      if (deep)
        fprintf (out, " deep 1/2 from %" PRId64 "/2", check_below (6));
      fputc ('\n', out);
    }
  fclose (out);
  br_sheet *sheet = sheet_with (text);
  free (text);
  return sheet;
}

/* A board with ROWS of COLUMNS pegs of one size, STEP eighths apart; EVEN: in rows and columns, else each a little off.  */
CHECK_UNUSED static br_sheet *
peg_board (int64_t rows, int64_t columns, int64_t step, int even)
{
  char *text = NULL;
  size_t length;
  FILE *out = open_memstream (&text, &length);
  fprintf (out, "box board = %" PRId64 "/8 x %" PRId64 "/8 at 0, 0\n", (columns + 1) * step, (rows + 1) * step);
  for (int64_t i = 0; i < rows * columns; i++)
    {
      int64_t off_x = even ? 0 : check_between (-step / 3, step / 3), off_y = even ? 0 : check_between (-step / 3, step / 3);
      fprintf (out, "circle peg_%" PRId64 " = 1/4 at %" PRId64 "/8, %" PRId64 "/8 hole\n", i + 1, (i % columns + 1) * step + off_x,
               (i / columns + 1) * step + off_y);
    }
  fclose (out);
  br_sheet *sheet = sheet_with (text);
  free (text);
  return sheet;
}

CHECK_UNUSED static br_sheet *
random_shapes (int count, int64_t width, int64_t height)
{
  return random_deep_shapes (count, width, height, 0);
}

#endif
