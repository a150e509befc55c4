/* SPDX-License-Identifier: LGPL-3.0-or-later
   balloon.c - which numbers stand for shapes on a sheet, and which shapes are told as one.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/drawing.h"
#include "draw/place_list.h"

size_t
br__number_beside (const br__side_view *v, const br__drawn *d)
{
  size_t number = 0;
  for (v = v->beside; v; v = v->beside)
    for (const br__drawn *other = v->shapes; other < v->shapes + v->count; other++)
      if ((!d || strcmp (d->shape->name, other->shape->name) == 0) && other->balloon > number)
        number = other->balloon;
  return number;
}

size_t
br__highest_number (const br__side_view *v)
{
  size_t number = v->numbered;
  for (const br__drawn *d = v->shapes; d < v->shapes + v->count; d++)
    number = d->balloon > number ? d->balloon : number;
  return number;
}

size_t
br__alike_from (const br__side_view *v, size_t i)
{
  size_t count = 1;
  const br__drawn *first = &v->shapes[i];
  const size_t name = strlen (first->shape->name);
  const char *rest = first->label + name;
  if (!first->unlabelled || strncmp (first->label, first->shape->name, name) != 0 || (*rest && *rest != ' '))
    return 1;
  for (const br__drawn *d = first + 1; d < v->shapes + v->count; d++, count++)
    {
      const size_t length = strlen (d->shape->name);
      if (!d->unlabelled || d->balloon != (first->balloon ? first->balloon + count : 0) || !br__is_next_name (d[-1].shape->name, d->shape->name)
          || strncmp (d->label, d->shape->name, length) != 0 || strcmp (d->label + length, rest) != 0)
        break;
    }
  return count;
}
