/* SPDX-License-Identifier: LGPL-3.0-or-later
   datum.c - the point of a view that places are measured from: the one of the sheet, or the lower left corner of all that
   is tied down.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "view/view.h"

#define MARK (BR__INCH / 16)

br_status
br__datum_corner (br__side_view *v, const br_sheet *sheet)
{
  br__datum *d = &v->datum;
  br_status status = BR_OK;
  const br__drawn *first[2] = { NULL, NULL };
  for (size_t i = 0; i < v->count; i++)
    for (int k = 0; k < 2 && v->shapes[i].tied && !v->shapes[i].in_wood; k++)
      {
        const br__drawn *s = &v->shapes[i];
        if (!first[k] || (k ? s->reach.y < first[k]->reach.y : s->reach.x < first[k]->reach.x))
          first[k] = s;
      }
  d->found = first[0] != NULL;
  d->given = 0;
  for (int k = 0; k < 2 && first[k] && status == BR_OK; k++)
    {
      const br__value *at = br__shape_value (sheet, first[k]->shape, k ? BR__SHAPE_Y : BR__SHAPE_X);
      const br__value *more = br__shape_value (sheet, first[k]->shape, k ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT);
      d->place[k] = k ? first[k]->reach.y : first[k]->reach.x;
      status = at && more ? br_real_add (&d->at[k], &at->real, &more->real) : BR_DOMAIN;
    }
  return status;
}

br_status
br__datum_find (br__side_view *v, const br_sheet *sheet, const br_number *ratio)
{
  br__datum *d = &v->datum;
  br_status status = br__datum_corner (v, sheet);
  /* One that waits is none yet.  */
  d->given = d->found && br__datum_value (sheet, 0) && br__datum_value (sheet, 1);
  for (int k = 0; k < 2 && d->given && status == BR_OK; k++)
    {
      const br_real *at = &br__datum_value (sheet, k)->real;
      status = br_real_set (&d->at[k], at);
      if (status == BR_OK)
        status = br__to_paper (&d->place[k], at, ratio, sheet->settings.bits);
    }
  return status;
}

void
br__datum_clear (br__datum *d)
{
  br_real_clear (&d->at[0]);
  br_real_clear (&d->at[1]);
}

void
br__datum_reach (br__side_view *v)
{
  const int64_t x = v->datum.place[0], y = v->datum.place[1];
  if (v->datum.given)
    br__area_join (&v->reach, (br__area) { x, y, x, y });
}

void
br__datum_plot (br__plot *p, const br__view_at *f)
{
  const br__datum *d = &f->view->datum;
  if (!d->found)
    return;
  /* ISO 129-1 marks the origin of dimensions with a small circle (from memory).  */
  br__ink *mark = br__plot_add (p, BR__INK_CIRCLE, BR__PEN_THIN, f->x + d->place[0], f->y - d->place[1]);
  mark->r = MARK;
  br__ink_name (p, mark, "datum");
}
