/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_sums.c - what a column and its marks add up to, and where a mark is furthest off.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "table/column.h"

/* Sums of fractions without a common denominator grow with every row; nobody reads such a one.  */
#define MOST_BITS 2048

void
br__sums_clear (br__column_sums *s)
{
  for (int i = 0; i < 2; i++)
    {
      br_number_clear (&s->exact[i]);
      br_number_clear (&s->marks[i]);
    }
  br_number_clear (&s->worst);
  br_number_clear (&s->worst_mark);
  for (size_t i = 0; i < s->pushed_told; i++)
    {
      br_number_clear (&s->pushed[i].mark);
      br_number_clear (&s->pushed[i].nearest);
    }
  memset (s, 0, sizeof *s);
}

static br_status
add (br__column_sums *s, const br_number *exact, const br_number *marks, int length)
{
  if (s->too_long)
    return BR_OK;
  br_status status = br_number_add (&s->exact[length], &s->exact[length], exact);
  if (status == BR_OK)
    status = br_number_add (&s->marks[length], &s->marks[length], marks);
  if (status == BR_OK)
    s->too_long = br__number_bits (&s->exact[length]) > MOST_BITS || br__number_bits (&s->marks[length]) > MOST_BITS;
  return status;
}

/* An error of SIZE at LINE; of two that are as large the first counts.  */
static br_status
take_worst (br__column_sums *s, const br_number *error, const br_number *mark, int length, size_t line)
{
  br_number now = BR_NUMBER_ZERO, before = BR_NUMBER_ZERO;
  br_status status = br_number_abs (&now, error);
  if (status == BR_OK)
    status = br_number_abs (&before, &s->worst);
  if (status == BR_OK && (!s->worst_line || br_number_cmp (&now, &before) > 0))
    {
      status = br_number_set (&s->worst, error);
      if (status == BR_OK)
        status = br_number_set (&s->worst_mark, mark);
      s->worst_line = line;
      s->worst_length = length;
    }
  br__number_drop (&now);
  br__number_drop (&before);
  return status;
}

br_status
br__sums_row (br__column_sums *s, const br_number *exact, const br_number *mark, const br_number *error, int length,
              size_t line)
{
  s->lengths |= length;
  br_status status = add (s, exact, mark, length);
  return status == BR_OK ? take_worst (s, error, mark, length, line) : status;
}

br_status
br__sums_push (br__column_sums *s, const br_number *mark, const br_number *error, const br_number *size, int length,
               size_t line)
{
  br__pushed *p = &s->pushed[s->pushed_told];
  br_status status = BR_OK;
  if (s->pushed_count++ < BR__PUSHED_TOLD)
    {
      p->line = line;
      p->length = length;
      s->pushed_told++;
      status = br_number_set (&p->mark, mark);
      if (status == BR_OK)
        status = br_number_sign (error) > 0 ? br_number_sub (&p->nearest, mark, size) : br_number_add (&p->nearest, mark, size);
    }
  return status;
}

br_status
br__sums_join (br__column_sums *to, br__column_sums *from, size_t lines)
{
  br_status status = BR_OK;
  to->too_long |= from->too_long;
  to->lengths |= from->lengths;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    status = add (to, &from->exact[i], &from->marks[i], i);
  if (status == BR_OK && from->worst_line)
    status = take_worst (to, &from->worst, &from->worst_mark, from->worst_length, from->worst_line + lines);
  for (size_t i = 0; i < from->pushed_told && to->pushed_told < BR__PUSHED_TOLD; i++)
    {
      br__pushed *p = &to->pushed[to->pushed_told++];
      *p = from->pushed[i];
      p->line += lines;
      from->pushed[i] = (br__pushed) { 0, 0, BR_NUMBER_ZERO, BR_NUMBER_ZERO };
    }
  to->pushed_count += from->pushed_count;
  to->around += from->around;
  br__sums_clear (from);
  return status;
}

/* SUM of plain numbers and of lengths; in inches where one is a length, UNIT inches being one of the others.  */
static br_status
whole (br_number *z, const br_number sums[2], int lengths, const br_number *unit)
{
  br_status status = lengths ? br_number_mul (z, &sums[0], unit) : br_number_set (z, &sums[0]);
  return status == BR_OK ? br_number_add (z, z, &sums[1]) : status;
}

br_status
br__sums_total (br_number *exact, br_number *marks, const br__column_sums *s, const br_number *unit)
{
  br_status status = whole (exact, s->exact, s->lengths, unit);
  return status == BR_OK ? whole (marks, s->marks, s->lengths, unit) : status;
}
