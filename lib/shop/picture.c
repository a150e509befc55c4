/* SPDX-License-Identifier: LGPL-3.0-or-later
   picture.c - wheels and fenders from the side, in plain characters.
   A cell is tested at its middle, in whole points: 1,000 to a column and 2,000 to a line, as a
   character is about twice as high as wide.  Points only place characters; numbers are written
   from the exact values.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "shop/about.h"
#include "shop/picture.h"

#define COLUMNS 78
#define LINES 16
#define COLUMN_POINTS 1000
#define LINE_POINTS 2000

typedef struct view
{
  char cell[LINES][COLUMNS];
  br_text below;        /* labels that found no room */
  int thicker;          /* something is drawn thicker than it is */
} view;

/* A disc in points.  */
typedef struct disc
{
  int64_t x, y, radius;
} disc;

static void
view_start (view *v)
{
  memset (v->cell, ' ', sizeof v->cell);
}

static int
covers (const disc *d, int line, int column)
{
  int64_t x = (int64_t) column * COLUMN_POINTS + COLUMN_POINTS / 2 - d->x;
  int64_t y = (int64_t) line * LINE_POINTS + LINE_POINTS / 2 - d->y;

  return x * x + y * y <= d->radius * d->radius;
}

static int
on_outline (const disc *d, int line, int column)
{
  return covers (d, line, column)
         && !(covers (d, line - 1, column) && covers (d, line + 1, column)
              && covers (d, line, column - 1) && covers (d, line, column + 1));
}

static int
line_of (int64_t y)
{
  return (int) (y / LINE_POINTS);
}

static int
column_of (int64_t x)
{
  return (int) (x / COLUMN_POINTS);
}

/* Stands D on the floor at line FLOOR, with its axle in the middle of a cell so that it looks the
   same on all sides; a sliver that would be one lone cell at the top and bottom is left off.  */
static void
stand (disc *d, int64_t floor)
{
  if (d->radius > LINE_POINTS && d->radius % LINE_POINTS < LINE_POINTS / 4)
    d->radius -= d->radius % LINE_POINTS + 1;
  d->x = column_of (d->x) * COLUMN_POINTS + COLUMN_POINTS / 2;
  d->y = (floor - 1 - d->radius / LINE_POINTS) * LINE_POINTS + LINE_POINTS / 2;
}

static void
draw_wheel (view *v, const disc *d)
{
  int line, column;

  for (line = 0; line < LINES; line++)
    for (column = 0; column < COLUMNS; column++)
      if (on_outline (d, line, column))
        v->cell[line][column] = v->cell[line][column] == ' ' ? 'o' : 'x';
  v->cell[line_of (d->y)][column_of (d->x)] = '+';
}

static void
draw_floor (view *v, int line, int from, int to)
{
  memset (&v->cell[line][from], '=', (size_t) (to - from));
}

/* POINTS = X of the TOTAL that takes up ROOM points; at least LEAST where X is over zero.  */
static br_status
to_points (int64_t *points, const br_number *x, const br_number *total, int64_t room, int64_t least,
           int *thicker)
{
  br_number part = BR_NUMBER_ZERO, scale = BR_NUMBER_ZERO;
  int64_t den;
  br_status status = br_number_set_int (&scale, room);

  if (status == BR_OK)
    status = br_number_div (&part, x, total);
  if (status == BR_OK)
    status = br_number_mul (&part, &part, &scale);
  if (status == BR_OK)
    status = br_number_floor (&part, &part);
  if (status == BR_OK && !br_number_get_ratio (points, &den, &part))
    status = BR_TOO_BIG;
  if (status == BR_OK && br_number_sign (x) > 0 && *points < least)
    {
      *points = least;
      *thicker = 1;
    }
  br_number_clear (&part);
  br_number_clear (&scale);
  return status;
}

/* ------------------------------------------------------------------------
   Labels
   ------------------------------------------------------------------------ */

static void
put_below (view *v, const char *label)
{
  br__text_printf (&v->below, "%s\n", label);
}

/* Puts LABEL with its first character at COLUMN of LINE if it has room among blanks, else
   under the picture: a number is never cut.  1 if it is in the picture.  */
static int
put_label (view *v, int line, int column, const char *label)
{
  size_t length = strlen (label);
  int room = column >= 0 && column + (int64_t) length <= COLUMNS, end = column + (int) length, i;

  for (i = column > 0 ? column - 1 : 0; room && i <= end && i < COLUMNS; i++)
    room = v->cell[line][i] == ' ';
  if (room)
    memcpy (&v->cell[line][column], label, length);
  else
    put_below (v, label);
  return room;
}

/* A label at COLUMN with a line to it from FROM, where something begins.  */
static void
point_out (view *v, int line, int from, int column, const char *label)
{
  if (!put_label (v, line, column, label) || from > column - 3)
    return;
  memset (&v->cell[line][from], '-', (size_t) (column - 1 - from));
  v->cell[line][from] = '<';
}

/* LABEL centred on a dimension line between the columns FROM and TO.  */
static void
put_dimension (view *v, int line, int from, int to, const char *label)
{
  int length = (int) strlen (label), start = from + (to - from + 1 - length) / 2, i;

  if (length + 6 > to - from + 1)
    {
      put_below (v, label);
      return;
    }
  for (i = from; i <= to; i++)
    v->cell[line][i] = '-';
  v->cell[line][from] = '<';
  v->cell[line][to] = '>';
  memset (&v->cell[line][start - 1], ' ', (size_t) length + 2);
  put_label (v, line, start, label);
}

static void
hand_out (br_text *text, view *v)
{
  int line, end;

  for (line = 0; line < LINES; line++)
    {
      for (end = COLUMNS; end > 0 && v->cell[line][end - 1] == ' '; end--)
        continue;
      br__text_put (text, v->cell[line], (size_t) end);
      if (end > 0)
        br__text_putc (text, '\n');
    }
  if (v->below.failed)
    text->failed = 1;
  br__text_puts (text, br__text_string (&v->below));
  if (v->thicker)
    br__text_puts (text, "(the thinnest parts are drawn thicker than they are)\n");
}

/* WORDS with the measure X after it.  */
static const char *
labelled (br_text *label, const char *words, const br_number *x, const br_style *style)
{
  br__text_reset (label);
  br__text_puts (label, words);
  br__put_measure (label, x, BR_LENGTH, style);
  return br__text_string (label);
}

/* ------------------------------------------------------------------------
   A wheel and its fender
   ------------------------------------------------------------------------ */

#define FENDER_LINES (LINES - 1)   /* over the floor */

/* Exact sizes and the same in points.  */
typedef struct fender
{
  br_number half, inner, outer, total, depth;
  int64_t wheel_points, inner_points, outer_points;
} fender;

static void
fender_clear (fender *f)
{
  br_number_clear (&f->half);
  br_number_clear (&f->inner);
  br_number_clear (&f->outer);
  br_number_clear (&f->total);
  br_number_clear (&f->depth);
}

static br_status
fender_sizes (fender *f, const br_number *wheel_dia, const br_number *gap, const br_number *width)
{
  br_number one_half = BR_NUMBER_ZERO;
  br_status status = br_number_set_ratio (&one_half, 1, 2);

  if (status == BR_OK)
    status = br_number_mul (&f->half, wheel_dia, &one_half);
  if (status == BR_OK)
    status = br_number_add (&f->inner, &f->half, gap);
  if (status == BR_OK)
    status = br_number_add (&f->outer, &f->inner, width);
  if (status == BR_OK)
    status = br_number_set (&f->total, &f->outer);
  if (status == BR_OK && br_number_cmp (&f->half, &f->outer) > 0)
    status = br_number_set (&f->total, &f->half);
  if (status == BR_OK)
    status = br_number_add (&f->total, &f->total, &f->half);
  if (status == BR_OK)
    status = br_number_abs (&f->depth, gap);
  if (status == BR_OK && (br_number_sign (&f->half) <= 0 || br_number_sign (&f->inner) <= 0
                          || br_number_sign (width) <= 0))
    status = BR_DOMAIN;
  br_number_clear (&one_half);
  return status;
}

static br_status
fender_points (fender *f, const br_number *gap, const br_number *width, int64_t room, int *thicker)
{
  int64_t gap_points = 0, width_points = 0;
  br_status status = to_points (&f->wheel_points, &f->half, &f->total, room, LINE_POINTS, thicker);

  if (status == BR_OK)
    status = to_points (&gap_points, gap, &f->total, room, LINE_POINTS, thicker);
  if (status == BR_OK)
    status = to_points (&width_points, width, &f->total, room, LINE_POINTS, thicker);
  f->inner_points = f->wheel_points + gap_points;
  f->outer_points = f->inner_points + width_points;
  return status;
}

static void
draw_fender (view *v, const disc *wheel, const fender *f)
{
  disc inner = *wheel, outer = *wheel;
  int line, column;

  inner.radius = f->inner_points;
  outer.radius = f->outer_points;
  for (line = 0; line <= line_of (wheel->y); line++)
    for (column = 0; column < COLUMNS; column++)
      if (covers (&outer, line, column) && !covers (&inner, line, column))
        v->cell[line][column] = covers (wheel, line, column) ? 'x' : '#';
}

/* One past the last cell of LINE that is not blank.  */
static int
line_end (const view *v, int line)
{
  int end = COLUMNS;

  while (end > 0 && v->cell[line][end - 1] == ' ')
    end--;
  return end;
}

static void
label_fender (view *v, const disc *wheel, const fender *f, const br_number *wheel_dia,
              const br_number *gap, const br_number *width, const br_style *style)
{
  br_text label = BR_TEXT_ZERO;
  int64_t wide = f->outer_points > f->wheel_points ? f->outer_points : f->wheel_points;
  int axle = line_of (wheel->y), column = column_of (wheel->x + wide) + 8;
  int low = axle + 3 < FENDER_LINES ? axle + 3 : FENDER_LINES - 1;

  point_out (v, axle / 2, line_end (v, axle / 2) + 1, column,
             labelled (&label, "fender, width ", width, style));
  put_label (v, axle / 2 + 1, column, labelled (&label, "  outer radius ", &f->outer, style));
  put_label (v, axle / 2 + 2, column, labelled (&label, "  inner radius ", &f->inner, style));
  point_out (v, axle + 1, line_end (v, axle + 1), column,
             labelled (&label, br_number_sign (gap) < 0 ? "overlap " : "gap ", &f->depth, style));
  point_out (v, low, line_end (v, low) + 1, column,
             labelled (&label, "wheel, diameter ", wheel_dia, style));
  if (label.failed)
    v->below.failed = 1;
  br__text_clear (&label);
}

br_status
br__picture_fender (br_text *text, const br_number *wheel_dia, const br_number *gap,
                    const br_number *width, const br_style *style)
{
  view v = { .below = BR_TEXT_ZERO };
  fender f = { .half = BR_NUMBER_ZERO };
  disc wheel = { 0, 0, 0 };
  int64_t wide;
  br_status status = fender_sizes (&f, wheel_dia, gap, width);

  if (status == BR_OK)
    status = fender_points (&f, gap, width, FENDER_LINES * LINE_POINTS, &v.thicker);
  /* Each part that is drawn thicker takes a line of its own, so the rest gets fewer.  */
  if (status == BR_OK && v.thicker)
    status = fender_points (&f, gap, width, (FENDER_LINES - 3) * LINE_POINTS, &v.thicker);
  if (status != BR_OK)
    goto out;
  view_start (&v);
  wide = f.outer_points > f.wheel_points ? f.outer_points : f.wheel_points;
  wheel.radius = f.wheel_points;
  wheel.x = wide + 2 * COLUMN_POINTS;
  stand (&wheel, FENDER_LINES);
  draw_wheel (&v, &wheel);
  draw_fender (&v, &wheel, &f);
  draw_floor (&v, LINES - 1, 0, column_of (wheel.x + wide) + 3);
  label_fender (&v, &wheel, &f, wheel_dia, gap, width, style);
  hand_out (text, &v);
  if (text->failed)
    status = BR_NO_MEMORY;
out:
  fender_clear (&f);
  br__text_clear (&v.below);
  return status;
}

/* ------------------------------------------------------------------------
   Two wheels
   ------------------------------------------------------------------------ */

#define WHEEL_LINES 12    /* floor, wheel labels and wheelbase come under them */
#define WHEEL_COLUMNS 72  /* the rest is for what is drawn thicker */

static br_status
wheel_points (disc *front, disc *rear, const br_number *wheelbase, const br_number *front_dia,
              const br_number *rear_dia, view *v)
{
  br_number across = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO, limit = BR_NUMBER_ZERO;
  const br_number *larger = br_number_cmp (front_dia, rear_dia) > 0 ? front_dia : rear_dia;
  int64_t apart = 0;
  br_status status;

  /* The width is at most the wheelbase and the larger wheel.  What fills the columns or the lines
     first sets the scale; ACROSS is then the inches in all columns.  */
  status = br_number_add (&across, wheelbase, larger);
  if (status == BR_OK)
    status = br_number_set_ratio (&limit, WHEEL_COLUMNS * COLUMN_POINTS, WHEEL_LINES * LINE_POINTS);
  if (status == BR_OK)
    status = br_number_mul (&high, larger, &limit);
  if (status == BR_OK && br_number_cmp (&high, &across) > 0)
    br_number_swap (&high, &across);
  if (status == BR_OK)
    status = to_points (&front->radius, front_dia, &across, WHEEL_COLUMNS * COLUMN_POINTS / 2,
                        LINE_POINTS, &v->thicker);
  if (status == BR_OK)
    status = to_points (&rear->radius, rear_dia, &across, WHEEL_COLUMNS * COLUMN_POINTS / 2,
                        LINE_POINTS, &v->thicker);
  if (status == BR_OK)
    status = to_points (&apart, wheelbase, &across, WHEEL_COLUMNS * COLUMN_POINTS, 0, &v->thicker);
  front->x = front->radius > rear->radius - apart ? front->radius : rear->radius - apart;
  rear->x = front->x + apart;
  stand (front, WHEEL_LINES);
  stand (rear, WHEEL_LINES);
  br_number_clear (&across);
  br_number_clear (&high);
  br_number_clear (&limit);
  return status;
}

/* One past the column where the floor may end.  */
static int
right_end (const disc *front, const disc *rear)
{
  int64_t a = front->x + front->radius, b = rear->x + rear->radius;
  int end = column_of (a > b ? a : b) + 2;

  return end < COLUMNS ? end : COLUMNS;
}

static void
put_centred (view *v, int line, int column, const char *label)
{
  int start = column - (int) strlen (label) / 2;

  put_label (v, line, start > 0 ? start : 0, label);
}

static br_status
put_daylight (br_text *label, const br_real *gap, const br_style *style, unsigned bits)
{
  br_real depth = BR_REAL_ZERO;
  int sign = 0;
  br_status status = br_real_sign (&sign, gap, bits);

  if (status == BR_OK)
    status = br_real_abs (&depth, gap, bits);
  br__text_puts (label, sign < 0 ? "overlap " : "daylight ");
  if (status == BR_OK)
    status = br__put_about (label, &depth, BR_LENGTH, style, bits);
  br_real_clear (&depth);
  return status;
}

/* The daylight is written between the wheels, at the height at which they come nearest.  */
static br_status
label_wheels (view *v, const disc *front, const disc *rear, const br_number *const *sizes,
              const br_real *gap, const br_style *style, unsigned bits)
{
  br_text label = BR_TEXT_ZERO;
  int line = line_of ((front->y + rear->y) / 2);
  int from = column_of (front->x), to = column_of (rear->x);
  br_status status;

  put_centred (v, WHEEL_LINES + 1, from, labelled (&label, "front ", sizes[1], style));
  put_centred (v, WHEEL_LINES + 1, to, labelled (&label, "rear ", sizes[2], style));
  put_dimension (v, WHEEL_LINES + 2, from, to, labelled (&label, "wheelbase ", sizes[0], style));
  while (from < to && covers (front, line, from))
    from++;
  while (to > from && covers (rear, line, to))
    to--;
  br__text_reset (&label);
  status = put_daylight (&label, gap, style, bits);
  if (status == BR_OK)
    put_dimension (v, line, from, to, br__text_string (&label));
  if (label.failed)
    v->below.failed = 1;
  br__text_clear (&label);
  return status;
}

br_status
br__picture_wheels (br_text *text, const br_number *wheelbase, const br_number *front_dia,
                    const br_number *rear_dia, const br_real *gap, const br_style *style,
                    unsigned bits)
{
  const br_number *sizes[] = { wheelbase, front_dia, rear_dia };
  view v = { .below = BR_TEXT_ZERO };
  disc front = { 0, 0, 0 }, rear = { 0, 0, 0 };
  size_t i;
  br_status status = BR_OK;

  for (i = 0; i < 3; i++)
    if (br_number_sign (sizes[i]) <= 0)
      return BR_DOMAIN;
  status = wheel_points (&front, &rear, wheelbase, front_dia, rear_dia, &v);
  if (status != BR_OK)
    return status;
  view_start (&v);
  draw_wheel (&v, &front);
  draw_wheel (&v, &rear);
  draw_floor (&v, WHEEL_LINES, 0, right_end (&front, &rear));
  status = label_wheels (&v, &front, &rear, sizes, gap, style, bits);
  if (status == BR_OK)
    hand_out (text, &v);
  if (status == BR_OK && text->failed)
    status = BR_NO_MEMORY;
  br__text_clear (&v.below);
  return status;
}
