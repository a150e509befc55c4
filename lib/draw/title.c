/* SPDX-License-Identifier: LGPL-3.0-or-later
   title.c - the frame of a page and its title block; a bar that shrinks with a copy, and a line to check the
   printer with.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <inttypes.h>
#include <string.h>

#include "exact/wide.h"
#include "draw/drawing.h"

#define PAD (BR__INCH / 12)
#define ROW (BR__INCH * 19 / 50)        /* the upper row of the block: words */
#define LETTERS (10 * BR__POINT)
#define SMALL (8 * BR__POINT)
#define FRACTIONS (39 * BR__POINT / 4)  /* where there may be one: digits of 2.5 mm */
#define FIELDS (BR__INCH / 5)      /* the row below: what is filled in, by hand where the sheet does not say it */
#define TICK (BR__INCH / 20)
#define NOTE (BR__INCH / 7)      /* a line of notes over the block */

static void
plot_box (br__plot *p, br__area a, br__pen pen)
{
  br__ink *k = br__plot_add (p, BR__INK_BOX, pen, a.x, a.y);
  k->x2 = a.x2;
  k->y2 = a.y2;
}

/* Two lines of text in a cell of the upper row; the first in bold where BOLD.  */
static void
plot_cell (br__plot *p, br__area cell, const char *first, const char *second, int bold)
{
  int64_t width = cell.x2 - cell.x - 2 * PAD, high = cell.y2 - cell.y;
  size_t before = p->count;
  br__plot_fitted (p, cell.x + PAD, cell.y + high * 28 / 100, BR_ALIGN_LEFT, LETTERS, width * (bold ? 9 : 10) / 10, first);
  if (p->count > before)
    p->inks[before].bold = bold;
  br__plot_fitted (p, cell.x + PAD, cell.y + high * 75 / 100, BR_ALIGN_LEFT, strchr (second, '/') ? FRACTIONS : SMALL, width, second);
}

static void
plot_words (br__plot *p, const br__paperwork *w, br__area row)
{
  int64_t width = row.x2 - row.x, first = row.x + width * 42 / 100, second = row.x + width * 71 / 100;
  br_text t = BR_TEXT_ZERO;
  br__plot_line (p, BR__PEN_THIN, first, row.y, first, row.y2, 0);
  br__plot_line (p, BR__PEN_THIN, second, row.y, second, row.y2, 0);
  plot_cell (p, (br__area) { row.x, row.y, first, row.y2 }, w->title, w->what, 1);
  plot_cell (p, (br__area) { first, row.y, second, row.y2 }, w->scale, w->square, 0);
  br__text_printf (&t, "sizes in %s", w->unit);
  plot_cell (p, (br__area) { second, row.y, row.x2, row.y2 }, br__text_string (&t), w->paper, 0);
  p->failed = p->failed || t.failed;
  br__text_clear (&t);
}

/* "Name", "Class" and "Material" are written in by hand; the fields of a title block in the manner of ISO 7200 (from memory).  */
static void
plot_fields (br__plot *p, const br__paperwork *w, br__area row, const char *sheet)
{
  const struct { const char *name, *value; int width; } fields[] =
  {
    { "Name", "", 27 }, { "Class", "", 15 }, { "Material", "", 21 }, { "Date", w->date, 16 }, { "Sheet", sheet ? sheet : "1 of 1", 21 }
  };
  int64_t width = row.x2 - row.x, x = row.x;
  for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
    {
      int64_t next = x + width * fields[i].width / 100;
      br_text t = BR_TEXT_ZERO;
      br__text_printf (&t, "%s%s%s", fields[i].name, *fields[i].value ? " " : "", fields[i].value);
      br__plot_fitted (p, x + PAD, (row.y + row.y2) / 2, BR_ALIGN_LEFT, SMALL, next - x - 2 * PAD, br__text_string (&t));
      if (i)
        br__plot_line (p, BR__PEN_THIN, x, row.y, x, row.y2, 0);
      p->failed = p->failed || t.failed;
      br__text_clear (&t);
      x = next;
    }
}

/* A line with ticks at its ends and at PARTS - 1 places between.  */
static void
plot_measure (br__plot *p, int64_t x, int64_t y, int64_t length, int parts)
{
  br__plot_line (p, BR__PEN_OUTLINE, x, y, x + length, y, 0);
  for (int i = 0; i <= parts; i++)
    {
      int64_t at = x + length * i / parts, tick = i % parts ? TICK * 2 / 3 : TICK;
      br__plot_line (p, BR__PEN_THIN, at, y - tick, at, y + tick, 0);
    }
}

/* UNITS inches or millimetres in billionths of an inch.  */
static int64_t
full_size (const br__paperwork *w, int64_t units)
{
  return w->metric ? units * BR__INCH * 10 / 254 : units * BR__INCH;
}

/* Rounded to billionths: N of full size, a billionth each, as drawn.  */
static int64_t
drawn_size (const br__paperwork *w, int64_t n)
{
  int64_t num = 1, den = 1;
  if (!br_number_get_ratio (&num, &den, &w->ratio))
    return 0;
  br__wide twice = br__wide_times (br__wide_product (n, num), 2);
  br__wide drawn = br__wide_over (br__wide_add (twice, br__wide_of (den)), br__wide_product (den, 2));
  return br__wide_cmp (drawn, br__wide_of (INT64_MAX / 4)) > 0 ? INT64_MAX / 4 : br__wide_low (drawn);
}

/* The longest whole number of units, 1, 2 or 5 with zeros, that is drawn no longer than MOST; 0: none.  */
static int64_t
bar_units (const br__paperwork *w, int64_t most)
{
  int64_t best = 0;
  for (int64_t ten = 1; ten <= INT64_C (10000000); ten *= 10)
    for (int i = 0; i < 3; i++)
      {
        static const int steps[] = { 1, 2, 5 };
        int64_t drawn = drawn_size (w, full_size (w, ten * steps[i]));
        if (drawn > 0 && drawn <= most)
          best = ten * steps[i];
      }
  return best;
}

static void
plot_scale_bar (br__plot *p, const br__paperwork *w, int64_t x, int64_t y, int64_t width)
{
  int64_t units = bar_units (w, width * 3 / 5);
  br_text t = BR_TEXT_ZERO;
  if (!units)
    return;
  int64_t length = drawn_size (w, full_size (w, units));
  plot_measure (p, x, y, length, units % 2 ? 5 : 4);
  br__text_printf (&t, "%" PRId64 " %s full size", units, w->metric ? "mm" : "in");
  br__plot_fitted (p, x, y + TICK * 3, BR_ALIGN_LEFT, SMALL, width, "0");
  br__plot_fitted (p, x + length, y + TICK * 3, BR_ALIGN_LEFT, SMALL, x + width - (x + length), br__text_string (&t));
  p->failed = p->failed || t.failed;
  br__text_clear (&t);
}

/* Notes stand in two columns.  */
static int64_t
height_of_notes (const br__paperwork *w)
{
  int count = 0;
  while (count < BR__MOST_NOTES && w->notes[count])
    count++;
  return (count + 1) / 2 * NOTE;
}

int64_t
br__block_height (const br__paperwork *w)
{
  return BR__INCH * 24 / 25 + height_of_notes (w);
}

static void
plot_notes (br__plot *p, const br__paperwork *w, br__area row)
{
  int64_t half = (row.x2 - row.x) / 2;
  for (int i = 0; i < BR__MOST_NOTES && w->notes[i]; i++)
    br__plot_fitted (p, row.x + PAD + i % 2 * half, row.y + NOTE / 2 + i / 2 * NOTE, BR_ALIGN_LEFT, SMALL, half - 2 * PAD, w->notes[i]);
  if (row.y2 > row.y)
    br__plot_line (p, BR__PEN_OUTLINE, row.x, row.y, row.x2, row.y, 0);
}

void
br__title_block (br__plot *p, const br__paperwork *w, br__area frame, const char *extra)
{
  br__area block = { frame.x, frame.y2 - br__block_height (w) + height_of_notes (w), frame.x2, frame.y2 };
  int64_t half = (frame.x2 - frame.x) / 2, fields = block.y + ROW, low = fields + FIELDS, base = low + (block.y2 - low) * 3 / 10;
  plot_box (p, frame, BR__PEN_OUTLINE);
  br__plot_line (p, BR__PEN_OUTLINE, block.x, block.y, block.x2, block.y, 0);
  br__plot_line (p, BR__PEN_THIN, block.x, fields, block.x2, fields, 0);
  br__plot_line (p, BR__PEN_THIN, block.x, low, block.x2, low, 0);
  plot_notes (p, w, (br__area) { block.x, block.y - height_of_notes (w), block.x2, block.y });
  plot_words (p, w, (br__area) { block.x, block.y, block.x2, fields });
  plot_fields (p, w, (br__area) { block.x, fields, block.x2, low }, extra);
  plot_scale_bar (p, w, block.x + PAD * 2, base, half - PAD * 4);
  plot_measure (p, block.x + half, base, full_size (w, w->metric ? 50 : 2), 1);
  br__plot_fitted (p, block.x + half, base + TICK * 3, BR_ALIGN_LEFT, SMALL, half - PAD,
                   w->metric ? "This line is 50 mm long. If it is not, print at 100 %."
                             : "This line is 2 in long. If it is not, print at 100 %.");
}
