/* SPDX-License-Identifier: LGPL-3.0-or-later
   label_size.c - sizes of a shape in words, as they stand behind its name and in tables.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "view/view.h"

static br_status
put_number (br_text *t, const char *before, const br_real *value, int twice, const br__settings *s)
{
  br_real z = BR_REAL_ZERO;
  br_status status = br_real_set (&z, value);
  if (status == BR_OK && twice)
    status = br_real_add (&z, &z, &z);
  br__text_puts (t, before);
  if (status == BR_OK)
    status = br__put_drawing_number (t, &z, s);
  br_real_clear (&z);
  return status;
}

/* Of a bar the length over all, or between the centres that it is held at, and the width; a line of no width has
   ends.  */
static br_status
put_length_of_line (br_text *t, const br__settings *s, const br_real *run, const br_real *rise, const br_real *width, int held)
{
  br__pad g = { BR_OK, s->bits, NULL };
  br_real z = BR_REAL_ZERO;
  br__point p = { run, rise };
  int bar = br__sign_of (&g, width) > 0;
  held = held && bar;
  const br_real *length = br__length_of (&g, p);
  br_status status = br__pad_end (&z, bar && !held ? br__add (&g, length, width) : length, &g);
  if (status == BR_OK)
    status = put_number (t, ", ", &z, 0, s);
  br__text_puts (t, held ? " between centres" : bar ? " overall" : " from end to end");
  if (status == BR_OK && bar)
    status = put_number (t, ", ", width, 0, s);
  br__text_puts (t, bar ? " wide" : "");
  br_real_clear (&z);
  return status;
}

/* The radius of the inner edge, which the arrow touches, and the width.  ISO 129-1, section on radii (from memory): R before
   the number, one arrow, which ends on the arc.  */
static br_status
put_size_of_arc (br_text *t, const br_real *inner, const br_real *outer, const br__settings *s)
{
  br__pad g = { BR_OK, s->bits, NULL };
  br_real width = BR_REAL_ZERO;
  int sign = 0;
  br_status status = br__pad_end (&width, br__sub (&g, outer, inner), &g);
  if (status == BR_OK)
    status = br_real_sign (&sign, &width, s->bits);
  if (status == BR_OK)
    status = put_number (t, " R ", inner, 0, s);
  if (status == BR_OK && sign > 0)
    status = put_number (t, ", ", &width, 0, s);
  br__text_puts (t, sign > 0 ? " wide" : "");
  br_real_clear (&width);
  return status;
}

br_status
br__put_label_size (br_text *t, const br_sheet *sheet, const br__shape *s, int held)
{
  const br__value *a = br__shape_value (sheet, s, BR__SHAPE_A), *b = br__shape_value (sheet, s, BR__SHAPE_B);
  const br__value *c = br__shape_value (sheet, s, BR__SHAPE_C);
  br_status status = BR_OK;
  if (a && s->kind == BR__CIRCLE)
    status = put_number (t, " ⌀ ", &a->real, 1, &sheet->settings);
  else if (a && b && s->kind == BR__ARC && s->word)
    {
      status = put_number (t, " ⌀ ", &b->real, 1, &sheet->settings);
      if (status == BR_OK)
        status = put_number (t, ", hole ⌀ ", &a->real, 1, &sheet->settings);
    }
  else if (a && b && s->kind == BR__ARC)
    status = put_size_of_arc (t, &a->real, &b->real, &sheet->settings);
  else if (a && b && c && s->kind == BR__LINE)
    status = put_length_of_line (t, &sheet->settings, &a->real, &b->real, &c->real, held);
  else if (a && s->kind == BR__ROW)
    br__text_printf (t, " %d × %s", br__row_places (sheet, s), s->base);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}

br_status
br__corner_number (br_real *z, const br_sheet *sheet, const br__shape *s, size_t i, int which, int reach)
{
  const br__value *v = br__shape_value (sheet, s, BR__CORNER_PART (i, which));
  const br__value *less = reach ? br__shape_value (sheet, s, reach) : NULL;
  if (!v || (reach && !less))
    return BR_DOMAIN;
  return less ? br_real_sub (z, &v->real, &less->real) : br_real_set (z, &v->real);
}

static int
is_given (const br_sheet *sheet, const br__shape *s, size_t i, int which)
{
  const br__value *v = br__shape_value (sheet, s, BR__CORNER_PART (i, which));
  const br_number *q = v ? br_real_rational (&v->real) : NULL;
  return v && (!q || br_number_sign (q) != 0);
}

br_status
br__tell_corner_number (br_text *t, const char *word, const br_sheet *sheet, const br__shape *s, size_t i, int which, int reach)
{
  br_real z = BR_REAL_ZERO;
  br_status status = br__corner_number (&z, sheet, s, i, which, reach);
  br__text_puts (t, word);
  if (status == BR_OK)
    status = br__put_drawing_number (t, &z, &sheet->settings);
  br_real_clear (&z);
  return status;
}

br_status
br__put_corner (br_text *t, const br_sheet *sheet, const br__shape *s, size_t i, br__corner_told what)
{
  br_status status;
  if (what == BR__TOLD_PLACE)
    {
      status = br__tell_corner_number (t, "", sheet, s, i, BR__CORNER_X, BR__SHAPE_LEFT);
      if (status == BR_OK)
        status = br__tell_corner_number (t, " across, ", sheet, s, i, BR__CORNER_Y, BR__SHAPE_BOTTOM);
      br__text_puts (t, " up");
      return status;
    }
  int which = what == BR__TOLD_CORNER ? BR__CORNER_CUT : BR__CORNER_RISE;
  if (!is_given (sheet, s, i, which))
    return BR_OK;
  int cut = what == BR__TOLD_CORNER && is_given (sheet, s, i, BR__CORNER_CUT_AFTER);
  status = br__tell_corner_number (t, cut ? "cut " : what == BR__TOLD_CORNER ? "R " : "rise ", sheet, s, i, which, 0);
  if (status == BR_OK && cut)
    status = br__tell_corner_number (t, " x ", sheet, s, i, BR__CORNER_CUT_AFTER, 0);
  return status;
}
