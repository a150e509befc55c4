/* SPDX-License-Identifier: LGPL-3.0-or-later
   drawing_number.c - a length as written on a drawing: without its unit, and rounded if it is not on a mark.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"
#include "sheet/sheet.h"

/* Inches that a ruler has, without the sign of the inch.  */
static int
put_plain_inches (br_text *t, const br_number *q, const br__settings *s)
{
  int inches = strcmp (s->unit->name, "in") == 0 && !s->feet;
  if (!inches || !br__is_shop_fraction (q, BR__FINEST_RULE))
    return 0;
  br__put_mixed (t, q);
  return 1;
}

/* Millimetres, or centimetres, with two decimals at the most.  */
static int
put_plain_metric (br_text *t, const br_number *q, const br__settings *s)
{
  br_number x = BR_NUMBER_ZERO;
  int64_t n, d;
  if (!br__unit_is_decimal (s->unit) || br_number_set_ratio (&x, s->unit->num, s->unit->den) != BR_OK)
    return 0;
  int good = br_number_div (&x, q, &x) == BR_OK && br_number_get_ratio (&n, &d, &x) && 100 % d == 0;
  if (good)
    br__put_decimal (t, &x, 20);
  br_number_clear (&x);
  return good;
}

/* The text of a length without " mm" where the whole sheet is in millimetres.  */
static void
drop_unit (br_text *t, size_t start, const br__settings *s)
{
  size_t n = strlen (s->unit->name) + 1;
  if (t->failed || t->length < start + n || strcmp (s->unit->name, "ft") == 0)
    return;
  if (t->bytes[t->length - 1] == '"' && !s->feet)
    n = 1;
  else if (t->bytes[t->length - n] != ' ')
    return;
  t->length -= n;
  t->bytes[t->length] = 0;
}

/* The nearest mark.  If VALUE may be exactly half way between two marks, either of them will do.  */
static br_status
to_mark (br__rounded *rounded, const br_real *value, const br__mark *mark, const br__settings *s)
{
  br__value v = BR__VALUE_ZERO;
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = br_real_set (&v.real, value);
  v.dimension = BR_LENGTH;
  if (status == BR_OK)
    status = br__round_value (rounded, &v, mark, BR_NEAREST, s, NULL);
  if (status == BR_UNDECIDED)
    {
      status = br_real_enclose (&low, &high, value, s->bits);
      if (status == BR_OK)
        status = br_real_set_number (&v.real, &low);
      if (status == BR_OK)
        status = br__round_value (rounded, &v, mark, BR_NEAREST, s, NULL);
    }
  br__value_clear (&v);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

br_status
br__put_drawing_number (br_text *t, const br_real *value, const br__settings *s)
{
  const br_number *q = br_real_rational (value);
  br__mark mark = BR__MARK_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  size_t start = t->length;
  int exact = 0;
  if (q && (put_plain_inches (t, q, s) || put_plain_metric (t, q, s)))
    return t->failed ? BR_NO_MEMORY : BR_OK;
  br_status status = br__settings_mark (&mark, s);
  if (status == BR_OK)
    status = to_mark (&rounded, value, &mark, s);
  if (status == BR_OK)
    {
      exact = q && br_number_equal (q, &rounded.value);
      if (!exact)
        br__text_puts (t, "≈");
      br__put_mark_text (t, &rounded.value, BR_LENGTH, &mark, s);
      drop_unit (t, start, s);
    }
  br__rounded_clear (&rounded);
  br_number_clear (&mark.size);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}
