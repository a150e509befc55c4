/* SPDX-License-Identifier: LGPL-3.0-or-later
   total.c - rounds a list so that the rounded parts add up to the rounded whole.

   Every part is rounded down; then as many parts as marks are missing from the whole are
   rounded up instead, those with the largest remainders, so that no other choice has a smaller largest
   error: trading a part that is up for one that is down, with remainders r >= s, trades errors
   1 - r and s for r and 1 - s, and max (r, 1 - s) >= max (1 - r, s).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "benchrule.h"
#include "exact/memory.h"

typedef struct part
{
  br_real x;
  br_number floor;        /* the mark under it */
  br_real rest;           /* what it lies over that mark */
  size_t index;
} part;

static void
parts_free (part *parts, size_t count)
{
  size_t i;

  if (parts == NULL)
    return;
  for (i = 0; i < count; i++)
    {
      br_real_clear (&parts[i].x);
      br_number_clear (&parts[i].floor);
      br_real_clear (&parts[i].rest);
    }
  br__free (parts);
}

/* ORDER of the remainders of A and B.  What is not rational is compared without its marks
   first, as like roots cancel and leave a rational.  */
static br_status
compare (int *order, const part *a, const part *b, unsigned bits)
{
  const br_number *left = br_real_rational (&a->rest), *right = br_real_rational (&b->rest);
  br_real apart = BR_REAL_ZERO, marks = BR_REAL_ZERO;
  br_status status;

  if (left != NULL && right != NULL)
    {
      *order = br_number_cmp (left, right);
      return BR_OK;
    }
  status = br_real_sub (&apart, &a->x, &b->x);
  if (status == BR_OK)
    status = br_number_sub (&marks.rational, &a->floor, &b->floor);
  if (status == BR_OK)
    status = br_real_cmp (order, &apart, &marks, bits);
  br_real_clear (&apart);
  br_real_clear (&marks);
  return status;
}

/* Merges FROM[0..middle) and FROM[middle..count), larger remainders and then earlier
   parts first, into TO.  */
static br_status
merge (part **to, part **from, size_t middle, size_t count, unsigned bits)
{
  size_t i = 0, j = middle, k;

  for (k = 0; k < count; k++)
    {
      int order = 0;

      if (k % 1024 == 0 && br__account_ends ())
        return BR_NO_MEMORY;
      if (i < middle && j < count)
        {
          br_status status = compare (&order, from[i], from[j], bits);

          if (status != BR_OK)
            return status;
        }
      if (j == count || (i < middle && order >= 0))
        to[k] = from[i++];
      else
        to[k] = from[j++];
    }
  return BR_OK;
}

/* Sorts ORDER, with ROOM for as many; stable.  */
static br_status
sort (part **order, part **room, size_t count, unsigned bits)
{
  size_t width, at;

  for (width = 1; width < count; width *= 2)
    {
      for (at = 0; at < count; at += 2 * width)
        {
          size_t left = count - at, size = left < 2 * width ? left : 2 * width;
          br_status status = merge (room + at, order + at, size < width ? size : width, size, bits);

          if (status != BR_OK)
            return status;
        }
      memcpy (order, room, count * sizeof *order);
    }
  return BR_OK;
}

/* Fills PARTS; SUM gets the sum of X, FLOORS that of the marks under each, and OFF the number
   of parts that lie on no mark, which come first in ORDER.  */
static br_status
take_parts (part *parts, part **order, br_real *sum, br_number *floors, size_t *off,
            const br_real *x, size_t count, const br_number *mark, unsigned bits)
{
  br_real minus = BR_REAL_ZERO;
  br_status status = BR_OK;
  size_t i;

  *off = 0;
  for (i = 0; i < count && status == BR_OK; i++)
    {
      part *p = &parts[i];
      const br_number *rest;

      p->index = i;
      status = br__account_ends () ? BR_NO_MEMORY : br_real_set (&p->x, &x[i]);
      if (status == BR_OK)
        status = br_real_add (sum, sum, &x[i]);
      if (status == BR_OK)
        status = br_real_round (&p->floor, NULL, &x[i], mark, BR_DOWN, BR_TIES_UP, bits);
      if (status == BR_OK)
        status = br_number_add (floors, floors, &p->floor);
      if (status == BR_OK)
        status = br_real_set_number (&minus, &p->floor);
      if (status == BR_OK)
        status = br_real_sub (&p->rest, &p->x, &minus);
      if (status != BR_OK)
        break;
      rest = br_real_rational (&p->rest);
      if (rest == NULL || br_number_sign (rest) != 0)
        order[(*off)++] = p;
    }
  br_real_clear (&minus);
  return status;
}

/* The number of parts, at most OFF, that go up so that FLOORS becomes TOTAL.  */
static br_status
count_up (size_t *up, const br_number *total, const br_number *floors, const br_number *mark,
          size_t off)
{
  br_number missing = BR_NUMBER_ZERO;
  int64_t num = 0, den = 0;
  br_status status = br_number_sub (&missing, total, floors);

  if (status == BR_OK)
    status = br_number_div (&missing, &missing, mark);
  if (status == BR_OK)
    {
      /* The sum lies less than OFF marks over FLOORS.  */
      if (br_number_get_ratio (&num, &den, &missing) && den == 1 && num >= 0
          && (uint64_t) num <= off)
        *up = (size_t) num;
      else
        status = BR_UNDECIDED;
    }
  br_number_clear (&missing);
  return status;
}

br_status
br_ruler_keep_total (br_number *values, br_number *total, const br_real *x, size_t count,
                     const br_number *mark, br_direction direction, br_ties ties, unsigned bits)
{
  if (!values || !total || !x || !mark)
    return BR_DOMAIN;
  br_real sum = BR_REAL_ZERO;
  br_number floors = BR_NUMBER_ZERO, rounded = BR_NUMBER_ZERO;
  part *parts = NULL, **order = NULL;
  size_t i, off = 0, up = 0;
  br_status status = BR_NO_MEMORY;

  parts = br__alloc_zero (count, sizeof *parts);
  order = br__alloc_zero (count, 2 * sizeof *order);
  if (parts == NULL || order == NULL)
    goto out;
  status = take_parts (parts, order, &sum, &floors, &off, x, count, mark, bits);
  if (status == BR_OK)
    status = br_real_round (&rounded, NULL, &sum, mark, direction, ties, bits);
  if (status == BR_OK)
    status = count_up (&up, &rounded, &floors, mark, off);
  if (status == BR_OK && up > 0 && up < off)
    status = sort (order, order + count, off, bits);
  for (i = 0; i < up && status == BR_OK; i++)
    status = br_number_add (&order[i]->floor, &order[i]->floor, mark);
  if (status != BR_OK)
    goto out;
  br_number_swap (total, &rounded);
  for (i = 0; i < count; i++)
    br_number_swap (&values[i], &parts[i].floor);
out:
  br_real_clear (&sum);
  br_number_clear (&floors);
  br_number_clear (&rounded);
  parts_free (parts, count);
  br__free (order);
  return status;
}
