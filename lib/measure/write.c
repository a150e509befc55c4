/* SPDX-License-Identifier: LGPL-3.0-or-later
   write.c - writes measures in shop notation; parsing the text gives the same value.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/number.h"
#include "exact/text.h"
#include "measure/measure.h"

#define DIGITS 12             /* significant digits of a decimal that is worth writing */
#define DECIMAL_BYTES 28      /* and its bytes: past that the fraction is plainer */
#define FINEST 4096           /* the finest binary fraction that is written as one */

static void
cut (br_text *t, size_t length)
{
  if (t->length > length)
    {
      t->length = length;
      t->bytes[length] = '\0';
    }
}

/* 1 if X was put as a decimal that is the whole of it.  */
static int
put_whole_decimal (br_text *t, const br_number *x)
{
  size_t before = t->length;

  if (br__put_decimal (t, x, DIGITS) && t->length - before <= DECIMAL_BYTES)
    return 1;
  cut (t, before);
  return 0;
}

/* X as 2-3/8, 6.595 or 12-1/3, whichever is plainest; DECIMALS where they are usual.  */
static inline void
put_quantity (br_text *t, const br_number *x, int decimals)
{
  if ((decimals || !br__is_shop_fraction (x, FINEST)) && !br_number_is_integer (x) && put_whole_decimal (t, x))
    return;
  br__put_mixed (t, x);
}

/* X inches with the mark.  */
static void
put_inches (br_text *t, const br_number *x)
{
  put_quantity (t, x, 0);
  br__text_putc (t, '"');
}

/* X inches as feet and inches; 3/4" below a foot.  */
static void
put_feet (br_text *t, const br_number *x)
{
  br_number size = BR_NUMBER_ZERO, feet = BR_NUMBER_ZERO, rest = BR_NUMBER_ZERO;

  if (br_number_abs (&rest, x) != BR_OK || br_number_set_int (&size, 12) != BR_OK)
    goto failed;
  if (br_number_cmp (&rest, &size) < 0)
    {
      put_inches (t, x);
      goto out;
    }
  if (br_number_div (&feet, &rest, &size) != BR_OK
      || br_number_floor (&feet, &feet) != BR_OK
      || br_number_mul (&size, &feet, &size) != BR_OK
      || br_number_sub (&rest, &rest, &size) != BR_OK)
    goto failed;
  if (br_number_sign (x) < 0)
    br__text_putc (t, '-');
  br__put_number (t, &feet);
  br__text_putc (t, '\'');
  if (br_number_sign (&rest) != 0)
    {
      br__text_putc (t, ' ');
      put_inches (t, &rest);
    }
  goto out;
failed:
  t->failed = 1;
out:
  br_number_clear (&size);
  br_number_clear (&feet);
  br_number_clear (&rest);
}

/* X, in inches to the power DIMENSION, in UNIT, or in BASE to that power where UNIT is
   NULL.  */
static void
put_in_unit (br_text *t, const br_number *x, br_dimension dimension, const br_unit *unit,
             const br_unit *base)
{
  br_number size = BR_NUMBER_ZERO;
  const br_unit *one = unit != NULL ? unit : base;

  if (br_number_set_ratio (&size, one->num, one->den) != BR_OK
      || (unit == NULL && br_number_pow (&size, &size, dimension) != BR_OK)
      || br_number_div (&size, x, &size) != BR_OK)
    t->failed = 1;
  else
    {
      put_quantity (t, &size, br__unit_is_decimal (one));
      br__text_printf (t, " %s", one->name);
      if (unit == NULL)
        br__text_printf (t, "^%d", dimension);
    }
  br_number_clear (&size);
}

static void
put_with_unit (br_text *t, const br_number *x, br_dimension dimension, const br_style *style)
{
  const br_unit *base = br__unit_base (style != NULL ? style->unit : NULL);
  const br_unit *unit = br__unit_of_power (base, dimension);

  if (dimension == BR_LENGTH && base->den == 1 && base->num == 12)
    put_feet (t, x);
  else if (dimension == BR_LENGTH && base->den == 1 && base->num == 1)
    {
      if (style != NULL && style->feet)
        put_feet (t, x);
      else
        put_inches (t, x);
    }
  else
    put_in_unit (t, x, dimension, unit, base);
}

void
br__put_measure (br_text *t, const br_number *x, br_dimension dimension, const br_style *style)
{
  if (dimension == BR_PLAIN)
    put_quantity (t, x, 0);
  else
    put_with_unit (t, x, dimension, style);
}

size_t
br_measure_write (char *buffer, size_t size, const br_number *x, br_dimension dimension,
                  const br_style *style)
{
  if (!x)
    return SIZE_MAX;
  br_text t = BR_TEXT_ZERO;

  br__put_measure (&t, x, dimension, style);
  return br__text_hand_out (buffer, size, &t);
}
