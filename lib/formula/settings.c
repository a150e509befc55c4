/* SPDX-License-Identifier: LGPL-3.0-or-later
   settings.c - computes from the settings: factors of units, marks of rulers.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "formula/settings.h"
#include "shop/paper.h"

void
br__settings_clear (br__settings *s)
{
  br_number_clear (&s->ruler);
  br_number_clear (&s->scale);
  br_number_clear (&s->grid);
  br_number_clear (&s->kerf);
  br_number_clear (&s->blade);
  br_number_clear (&s->margin);
}

br_status
br__settings_start (br__settings *s)
{
  memset (s, 0, sizeof *s);
  s->unit = br_unit_find ("in", 2);
  s->bits = BR_REAL_BITS;
  s->child = BR__CHILD_NOT_SAID;
  return br_number_set_int (&s->scale, 1);
}

br_status
br__settings_copy (br__settings *z, const br__settings *x)
{
  br__settings made = *x;
  memset (&made.ruler, 0, sizeof made.ruler);
  memset (&made.scale, 0, sizeof made.scale);
  memset (&made.grid, 0, sizeof made.grid);
  memset (&made.kerf, 0, sizeof made.kerf);
  memset (&made.blade, 0, sizeof made.blade);
  memset (&made.margin, 0, sizeof made.margin);
  br_status status = br_number_set (&made.ruler, &x->ruler);
  if (status == BR_OK)
    status = br_number_set (&made.scale, &x->scale);
  if (status == BR_OK)
    status = br_number_set (&made.grid, &x->grid);
  if (status == BR_OK)
    status = br_number_set (&made.kerf, &x->kerf);
  if (status == BR_OK)
    status = br_number_set (&made.blade, &x->blade);
  if (status == BR_OK)
    status = br_number_set (&made.margin, &x->margin);
  if (status != BR_OK)
    {
      br__settings_clear (&made);
      return status;
    }
  br__settings_clear (z);
  *z = made;
  return BR_OK;
}

br_status
br__settings_factor (br_number *factor, const br__settings *s, br_dimension dimension)
{
  if (dimension == BR_ANGLE || dimension == BR_PLAIN)
    return br_number_set_int (factor, 1);
  br_number unit = BR_NUMBER_ZERO;
  br_status status = br_number_set_ratio (&unit, s->unit->num, s->unit->den);
  if (status == BR_OK)
    status = br_number_pow (factor, &unit, dimension);
  br_number_clear (&unit);
  return status;
}

void
br__put_unit_name (br_text *t, const br__settings *s, br_dimension dimension)
{
  if (dimension == BR_PLAIN)
    return;
  if (dimension == BR_ANGLE)
    br__text_puts (t, "deg");
  else if (dimension == BR_LENGTH)
    br__text_puts (t, s->unit->name);
  else if (dimension == BR_AREA || dimension == BR_VOLUME)
    br__text_printf (t, "%s %s", dimension == BR_AREA ? "sq" : "cu", s->unit->name);
  else
    br__text_printf (t, "%s^%d", s->unit->name, dimension);
}

br_style
br__settings_style (const br__settings *s)
{
  br_style style = { s->unit, s->feet };
  return style;
}

br_status
br__mark_from (br__mark *mark, const br__settings *s, const br_number *size, const br_unit *unit)
{
  br_number copy = BR_NUMBER_ZERO;
  br_status status = br_number_set (&copy, size);
  if (status != BR_OK)
    return status;
  br_number_clear (&mark->size);
  mark->size = copy;
  mark->unit = unit;
  mark->length = unit != NULL;
  /* A sheet in feet is still measured with an inch ruler.  */
  if (!unit && strcmp (s->unit->name, "ft") == 0)
    mark->length = 1;
  return BR_OK;
}

br_status
br__mark_copy (br__mark *z, const br__mark *x)
{
  br_status status = br_number_set (&z->size, &x->size);
  if (status == BR_OK)
    {
      z->length = x->length;
      z->unit = x->unit;
    }
  return status;
}

br_status
br__settings_mark (br__mark *mark, const br__settings *s)
{
  if (s->ruler_given)
    return br__mark_from (mark, s, &s->ruler, s->ruler_unit);
  br_number size = BR_NUMBER_ZERO;
  int64_t d = 16;       /* the ruler of an inch sheet ends at sixteenths */
  if (strcmp (s->unit->name, "mm") == 0)
    d = 1;
  else if (strcmp (s->unit->name, "cm") == 0)
    d = 10;
  br_status status = br_number_set_ratio (&size, 1, d);
  if (status == BR_OK)
    status = br__mark_from (mark, s, &size, NULL);
  br_number_clear (&size);
  return status;
}

int
br__first_angle (const br__settings *s)
{
  return s->projection ? s->projection == 1 : !br__settings_are_inches (s);
}

int
br__settings_are_inches (const br__settings *s)
{
  return strcmp (s->unit->name, "in") == 0 || strcmp (s->unit->name, "ft") == 0;
}

const br__paper *
br__settings_paper (const br__settings *s)
{
  const char *name = br__settings_are_inches (s) ? "letter" : "a4";
  return s->paper ? s->paper : br__paper_find (name, strlen (name));
}

br_status
br__settings_margin (br_number *margin, const br_unit **unit, const br__settings *s)
{
  const br__paper *p = br__settings_paper (s);
  int metric = p->width_den == 127;
  *unit = s->margin_unit ? s->margin_unit : br_unit_find (metric ? "mm" : "in", 2);
  if (s->margin_unit)
    return br_number_set (margin, &s->margin);
  return metric ? br_number_set_ratio (margin, 50, 127) : br_number_set_ratio (margin, 1, 2);
}
