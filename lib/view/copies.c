/* SPDX-License-Identifier: LGPL-3.0-or-later
   copies.c - rows and mirrors on paper: each figure that they are made of.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "view/view.h"

/* Where a figure around its x and y reaches, as its shape does.  */
static br_status
take_reach (br__drawn *d, const br__value *n, const br_sheet *sheet, const br_number *ratio, int mirrored)
{
  int64_t *const sides[] = { &d->reach.x2, &d->reach.y2, &d->reach.x, &d->reach.y };
  br_real at = BR_REAL_ZERO;
  br_status status = BR_OK;
  for (int i = 0; i < 4 && status == BR_OK; i++)
    {
      int level = i % 2 == 0, swapped = mirrored && level;
      const br__value *reach = br__shape_value (sheet, d->shape, BR__SHAPE_RIGHT + (swapped ? (i + 2) % 4 : i));
      status = !reach ? BR_DOMAIN : swapped ? br_real_sub (&at, &n[level ? 1 : 2].real, &reach->real)
                                            : br_real_add (&at, &n[level ? 1 : 2].real, &reach->real);
      if (status == BR_OK)
        status = br__to_paper (sides[i], &at, ratio, sheet->settings.bits);
    }
  br_real_clear (&at);
  return status;
}

/* The figure whose numbers are N.  */
static br_status
take_copy (br__drawn *d, br__sketch *s, const br__value *n, const br_sheet *sheet, const br_number *ratio, int mirrored)
{
  int64_t *const numbers[] = { &d->x, &d->y, &d->a, &d->b, &d->c, &d->d };
  br__legs legs = { NULL, 0, 0, NULL };
  br_status status = take_reach (d, n, sheet, ratio, mirrored);
  d->tied = 1;
  for (int i = 0; i < 6 && status == BR_OK; i++)
    status = br__to_paper (numbers[i], &n[1 + i].real, n[1 + i].dimension == BR_ANGLE ? NULL : ratio, sheet->settings.bits);
  if (status != BR_OK || d->shape->kind != BR__OUTLINE)
    return status;
  status = br__shape_legs (&legs, s, n);
  if (status == BR_OK)
    status = br__drawn_pieces (d, &legs, ratio, sheet->settings.bits);
  br__legs_clear (&legs);
  return status;
}

size_t
br__drawn_figures (const br__drawn **first, const br__drawn *d)
{
  *first = d->copies ? d->copies : d;
  return d->copies ? d->copy_count : 1;
}

br_status
br__drawn_copies (br__drawn *d, const br_sheet *sheet, const br_number *ratio, int drawn)
{
  br__work work = { &sheet->settings, NULL, NULL, 0 };
  br__sketch s = { &work, BR_OK, NULL };
  br__places p = { NULL, 0, 0, 0 };
  br__numbers n;
  br_status status = br__shape_numbers (&n, sheet, d->shape);
  const br__shape *source = br__shape_source (sheet, d->shape);
  if (status == BR_OK)
    status = br__shape_places (&p, &s, n.rows, n.count);
  /* The first place of a row is the shape itself.  */
  size_t own = 0;
  if (status == BR_OK && d->shape->kind == BR__ROW && drawn)
    own = p.count / (size_t) br__row_places (sheet, d->shape);
  if (status == BR_OK && p.count > own)
    {
      d->copies = br__alloc_zero (p.count - own, sizeof *d->copies);
      d->copy_count = d->copies ? p.count - own : 0;
      status = d->copies ? BR_OK : BR_NO_MEMORY;
    }
  for (size_t i = 0; i < d->copy_count && status == BR_OK; i++)
    {
      d->copies[i].shape = source;
      status = take_copy (&d->copies[i], &s, p.rows + (own + i) * p.numbers, sheet, ratio, br__is_mirrored (sheet, d->shape));
    }
  br__drawn_box (d);
  br__places_clear (&p);
  br__numbers_clear (&n);
  br__sketch_clear (&s);
  return status;
}
