/* SPDX-License-Identifier: GPL-3.0-or-later
   ruler_text.c - a small picture of a ruler.  The mark stands in the middle with two marks on
   either side; ticks are as long as on a steel rule: whole inches longest, then halves,
   quarters and the rest.  Places are worked out exactly and rounded to a column.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "show/ruler_text.h"

#include <stdlib.h>
#include <string.h>

#include "escape.h"
#include "show/fields.h"

#define MARKS 5
#define MARGIN 7          /* columns left of the first mark, for its label */
#define EDGE 3            /* columns of the edge past the marks */
#define STEP_COLUMNS 15   /* between two marks on 80 columns */
#define TALLEST 4
#define LABEL_SIZE 64

typedef struct ruler
{
  int column[MARKS];
  int height[MARKS];
  char label[MARKS][LABEL_SIZE];
  int value;                      /* the column of the arrow */
  int chosen;                     /* the index of the mark */
  int end;                        /* the last column */
} ruler;

/* The length of the tick at X, which is a multiple of STEP.  */
static int
tick_height (const br_number *x, const br_number *step)
{
  int64_t n = 0, d = 1;
  if (!br_number_get_ratio (&n, &d, x))
    return 1;
  if (br_number_is_integer (step))
    return n % 10 == 0 ? TALLEST : n % 5 == 0 ? TALLEST - 1 : TALLEST - 2;
  return d == 1 ? TALLEST : d == 2 ? TALLEST - 1 : d == 4 ? TALLEST - 2 : 1;
}

/* COLUMN gets the place of X where FIRST lies at the margin.  */
static int
place (int *column, const br_number *x, const br_number *first, const br_number *step, int columns)
{
  br_number at = BR_NUMBER_ZERO, wide = BR_NUMBER_ZERO;
  int64_t n = 0, d = 1;
  int good = br_number_set_int (&wide, columns) == BR_OK
             && br_number_sub (&at, x, first) == BR_OK
             && br_number_div (&at, &at, step) == BR_OK
             && br_number_mul (&at, &at, &wide) == BR_OK
             && br_number_round (&at, NULL, &at, BR_NEAREST, BR_TIES_UP) == BR_OK
             && br_number_get_ratio (&n, &d, &at)
             && n >= -columns && n <= MARKS * columns;
  if (good)
    *column = MARGIN + (int) n;
  br_number_clear (&at);
  br_number_clear (&wide);
  return good;
}

/* FIRST = MARK - 2 STEP, or zero where the ruler begins within the picture.  */
static int
find_first (br_number *first, const br_number *mark, const br_number *step)
{
  int good = br_number_sub (first, mark, step) == BR_OK
             && br_number_sub (first, first, step) == BR_OK;
  if (good && br_number_sign (mark) >= 0 && br_number_sign (first) < 0)
    br_number_clear (first);
  return good;
}

/* A mark of a binary ruler is a mixed number, of another a decimal where it has one.  */
static int
write_label (char label[LABEL_SIZE], const br_number *x, const br_number *step)
{
  int64_t n, d;
  int whole = 0;
  int binary = br_number_get_ratio (&n, &d, step) && (d & (d - 1)) == 0;
  if (!binary && br_number_write_decimal (label, LABEL_SIZE, &whole, x, LABEL_SIZE) < LABEL_SIZE && whole)
    return 1;
  return br_number_write_mixed (label, LABEL_SIZE, x) < LABEL_SIZE;
}

static int
lay_out (ruler *r, const br_number *value, const br_number *mark, const br_number *step, int columns)
{
  br_number first = BR_NUMBER_ZERO, at = BR_NUMBER_ZERO;
  int good = find_first (&first, mark, step) && br_number_set (&at, &first) == BR_OK
             && place (&r->value, value, &first, step, columns);
  for (int i = 0; good && i < MARKS; i++)
    {
      r->column[i] = MARGIN + i * columns;
      r->height[i] = tick_height (&at, step);
      if (br_number_equal (&at, mark))
        r->chosen = i;
      good = write_label (r->label[i], &at, step) && br_number_add (&at, &at, step) == BR_OK;
    }
  r->end = MARGIN + (MARKS - 1) * columns;
  br_number_clear (&first);
  br_number_clear (&at);
  return good;
}

/* TEXT with its middle at COLUMN, where USED columns are written; returns how many are then.  */
static int
put_at (const display *d, int used, int column, const char *text, int strong)
{
  int width = escape_width (text, strlen (text));
  int start = column - width / 2;
  if (start + width > d->width)
    start = d->width - width;
  if (start < used)
    start = used;
  display_repeat (d, " ", start - used);
  if (strong)
    display_bold (d, 1);
  display_put (d, text);
  if (strong)
    display_bold (d, 0);
  return start + width;
}

static void
put_edge (const display *d, const ruler *r)
{
  int mark = 0;
  display_repeat (d, " ", MARGIN - EDGE);
  for (int i = MARGIN - EDGE; i <= r->end + EDGE; i++)
    {
      int tick = mark < MARKS && r->column[mark] == i;
      mark += tick;
      display_put (d, tick ? display_sign (d, "\xe2\x94\xac", "+")
                           : display_sign (d, "\xe2\x94\x80", "-"));
    }
  putc ('\n', d->stream);
}

static void
put_ticks (const display *d, const ruler *r)
{
  for (int row = 1; row <= TALLEST; row++)
    {
      int used = 0;
      for (int i = 0; i < MARKS; i++)
        if (r->height[i] >= row)
          used = put_at (d, used, r->column[i], display_sign (d, "\xe2\x94\x82", "|"), 0);
      if (used)
        putc ('\n', d->stream);
    }
}

/* Labels that would run into each other are left out, but for that of the mark.  */
static void
put_labels (const display *d, const ruler *r)
{
  int used = 0, widest = 0;
  for (int i = 0; i < MARKS; i++)
    if ((int) strlen (r->label[i]) > widest)
      widest = (int) strlen (r->label[i]);
  for (int i = 0; i < MARKS; i++)
    {
      if (i != r->chosen && widest >= r->column[1] - r->column[0])
        continue;
      used = put_at (d, used, r->column[i], r->label[i], i == r->chosen);
    }
  putc ('\n', d->stream);
}

static void
put_line_at (const display *d, int column, const char *text)
{
  put_at (d, 0, column, text, 0);
  putc ('\n', d->stream);
}

void
ruler_put (const display *d, const ruler_picture *picture)
{
  ruler r = { .chosen = 0 };
  br_number value = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO;
  int columns = (d->width - 2 * MARGIN - 5) / (MARKS - 1);
  if (columns > STEP_COLUMNS)
    columns = STEP_COLUMNS;
  if (field_number (&value, picture->value) && field_number (&mark, picture->mark)
      && field_number (&step, picture->step) && br_number_sign (&step) > 0
      && lay_out (&r, &value, &mark, &step, columns))
    {
      putc ('\n', d->stream);
      put_line_at (d, r.value, picture->label);
      put_line_at (d, r.value, display_sign (d, "\xe2\x96\xbc", "v"));
      put_edge (d, &r);
      put_ticks (d, &r);
      put_labels (d, &r);
      put_line_at (d, r.column[r.chosen], display_sign (d, "\xe2\x96\xb2", "^"));
      put_line_at (d, r.column[r.chosen], picture->name);
    }
  br_number_clear (&value);
  br_number_clear (&mark);
  br_number_clear (&step);
}
