/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_corner.c - the corners of an outline as rows of the table below the figure: each from the lower left corner of the
   box around the outline, with its round or cut, and the rise of the side that ends in it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/place_table.h"

/* Number WHICH of corner I, less REACH where that is not 0.  */
static br_status
corner_number (br_real *z, br__run *run, const br__shape *s, size_t i, int which, int reach)
{
  const br__value *v = br__shape_value (run->sheet, s, BR__CORNER_PART (i, which));
  const br__value *less = reach ? br__shape_value (run->sheet, s, reach) : NULL;
  if (!v || (reach && !less))
    return BR_DOMAIN;
  return less ? br_real_sub (z, &v->real, &less->real) : br_real_set (z, &v->real);
}

static int
is_given (br__run *run, const br__shape *s, size_t i, int which)
{
  const br__value *v = br__shape_value (run->sheet, s, BR__CORNER_PART (i, which));
  const br_number *q = v ? br_real_rational (&v->real) : NULL;
  return v && (!q || br_number_sign (q) != 0);
}

/* WORD and number WHICH of corner I, less REACH.  */
static br_status
put_number (br_text *t, const char *word, br__run *run, const br__shape *s, size_t i, int which, int reach)
{
  br_real z = BR_REAL_ZERO;
  br_status status = corner_number (&z, run, s, i, which, reach);
  br__text_puts (t, word);
  if (status == BR_OK)
    status = br__put_drawing_number (t, &z, &run->sheet->settings);
  br_real_clear (&z);
  return status;
}

/* What a row tells of a corner.  */
typedef enum told { PLACE, CORNER, SIDE } told;

/* "3 across, 2 up"; "R 1/2" or "cut 1/2 x 1/4" of the corner; "rise 1/4" of the side up to it.  Nothing where there is
   none.  */
static br_status
put_told (br_text *t, br__run *run, const br__shape *s, size_t i, told what)
{
  br_status status;
  if (what == PLACE)
    {
      status = put_number (t, "", run, s, i, BR__CORNER_X, BR__SHAPE_LEFT);
      if (status == BR_OK)
        status = put_number (t, " across, ", run, s, i, BR__CORNER_Y, BR__SHAPE_BOTTOM);
      br__text_puts (t, " up");
      return status;
    }
  int which = what == CORNER ? BR__CORNER_CUT : BR__CORNER_RISE;
  if (!is_given (run, s, i, which))
    return BR_OK;
  int cut = what == CORNER && is_given (run, s, i, BR__CORNER_CUT_AFTER);
  status = put_number (t, cut ? "cut " : what == CORNER ? "R " : "rise ", run, s, i, which, 0);
  if (status == BR_OK && cut)
    status = put_number (t, " x ", run, s, i, BR__CORNER_CUT_AFTER, 0);
  return status;
}

br_status
br__place_corners (br__place_table *t, br__run *run, const br__drawn *d)
{
  size_t corners = br__shape_corners (run->sheet->graph, d->shape->name, strlen (d->shape->name));
  br_status status = BR_OK;
  for (size_t i = 0; i < 3 * corners && status == BR_OK; i++)
    {
      br_text cells[BR__PLACE_COLUMNS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
      told what = (told) (i % 3);
      status = put_told (&cells[BR__PLACE_DIMENSION], run, d->shape, i / 3, what);
      br__text_printf (&cells[BR__PLACE_OF], "%s, %s %zu", d->shape->name, what == SIDE ? "side to" : "corner", i / 3 + 1);
      br__text_printf (&cells[BR__PLACE_FROM], "%s, %s", d->shape->name,
                       what == PLACE ? "left and bottom" : what == SIDE ? "its chord" : "its sides");
      if (status == BR_OK && cells[BR__PLACE_DIMENSION].length)
        status = br__place_row_add (t, cells);
      for (int k = 0; k < BR__PLACE_COLUMNS; k++)
        br__text_clear (&cells[k]);
    }
  return status;
}
