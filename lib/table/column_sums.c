/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_sums.c - what a column and its marks add up to, and where a mark is furthest off.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "exact/wide.h"
#include "table/column.h"

/* Sums of fractions without a common denominator grow with every row; nobody reads such a one.  */
#define MOST_BITS 2048

void
br__sums_clear (br__column_sums *s)
{
  for (int i = 0; i < 2; i++)
    {
      br_number_clear (&s->exact[i].total);
      br_number_clear (&s->marks[i].total);
    }
  br_number_clear (&s->worst);
  br_number_clear (&s->worst_size);
  br_number_clear (&s->worst_mark);
  for (size_t i = 0; i < s->pushed_told; i++)
    {
      br_number_clear (&s->pushed[i].mark);
      br_number_clear (&s->pushed[i].nearest);
    }
  memset (s, 0, sizeof *s);
}

static br_status
add (br__column_sums *s, br_number *total, const br_number *x)
{
  if (s->too_long)
    return BR_OK;
  br_status status = br_number_add (total, total, x);
  if (status == BR_OK && !br__is_small (total))
    s->too_long = br__number_bits (total) > MOST_BITS;
  return status;
}

static br_status
clear_pile (br__column_sums *s, br__column_sum *sum, br__pile *pile)
{
  br_number x = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  if (pile->den)
    status = br_number_set_ratio (&x, pile->num, pile->den);
  *pile = (br__pile) { 0, 0 };
  if (status == BR_OK)
    status = add (s, &sum->total, &x);
  br_number_clear (&x);
  return status;
}

static br_status
clear_piles (br__column_sums *s, br__column_sum *sum)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < BR__PILES && status == BR_OK; i++)
    if (sum->piles[i].den)
      status = clear_pile (s, sum, &sum->piles[i]);
  return status;
}

/* The piles give way to another denominator, or to a sum past 64 bits.  */
static __attribute__ ((noinline)) br_status
change_pile (br__column_sums *s, br__column_sum *sum, br__pile *pile, const br_number *x)
{
  if (!br__is_small (x))
    return add (s, &sum->total, x);
  br_status status = clear_pile (s, sum, pile);
  pile->den = br__small_den (x);
  pile->num = x->num;
  return status;
}

static inline br_status
put_on_pile (br__column_sums *s, br__column_sum *sum, const br_number *x)
{
  int64_t den = br__small_den (x), num;
  /* Fibonacci hashing (Knuth, The Art of Computer Programming 3, section 6.4), which serves powers of 2 and 5 too.  */
  br__pile *pile = &sum->piles[(uint64_t) den * UINT64_C (0x9e3779b97f4a7c15) >> 56];
  if (!br__is_small (x) || pile->den != den || __builtin_add_overflow (pile->num, x->num, &num))
    return change_pile (s, sum, pile, x);
  pile->num = num;
  return BR_OK;
}

/* Whether |X| is over |Y|, which is not under 0.  */
static __attribute__ ((noinline)) br_status
is_larger_big (int *larger, const br_number *x, const br_number *y)
{
  br_number size = BR_NUMBER_ZERO;
  br_status status = br_number_abs (&size, x);
  if (status == BR_OK)
    *larger = br_number_cmp (&size, y) > 0;
  br_number_clear (&size);
  return status;
}

static inline br_status
is_larger (int *larger, const br_number *x, const br_number *y)
{
  if (!br__is_small (x) || !br__is_small (y))
    return is_larger_big (larger, x, y);
  *larger = br__compare_products (x->num < 0 ? - x->num : x->num, br__small_den (y), y->num, br__small_den (x)) > 0;
  return BR_OK;
}

/* An error at LINE that is the largest so far.  */
static __attribute__ ((noinline)) br_status
take_worst (br__column_sums *s, const br_number *error, const br_number *mark, int length, size_t line)
{
  br_status status = br_number_set (&s->worst, error);
  if (status == BR_OK)
    status = br_number_abs (&s->worst_size, error);
  if (status == BR_OK)
    status = br_number_set (&s->worst_mark, mark);
  s->worst_line = line;
  s->worst_length = length;
  return status;
}

br_status
br__sums_row (br__column_sums *s, const br_number *exact, const br_number *mark, const br_number *error, int length,
              size_t line)
{
  int larger = 1;
  s->lengths |= length;
  br_status status = put_on_pile (s, &s->exact[length], exact);
  if (status == BR_OK)
    status = put_on_pile (s, &s->marks[length], mark);
  /* Of two that are as large the first counts.  */
  if (status == BR_OK && s->worst_line)
    status = is_larger (&larger, error, &s->worst_size);
  if (status != BR_OK || !larger)
    return status;
  return take_worst (s, error, mark, length, line);
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
  to->lengths |= from->lengths;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      status = clear_piles (from, &from->exact[i]);
      if (status == BR_OK)
        status = clear_piles (from, &from->marks[i]);
      if (status == BR_OK)
        status = add (to, &to->exact[i].total, &from->exact[i].total);
      if (status == BR_OK)
        status = add (to, &to->marks[i].total, &from->marks[i].total);
    }
  to->too_long |= from->too_long;
  int larger = from->worst_line > 0;
  if (status == BR_OK && larger && to->worst_line)
    status = is_larger (&larger, &from->worst, &to->worst_size);
  if (status == BR_OK && larger)
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
whole (br_number *z, const br__column_sum sums[2], int lengths, const br_number *unit)
{
  br_status status = lengths ? br_number_mul (z, &sums[0].total, unit) : br_number_set (z, &sums[0].total);
  return status == BR_OK ? br_number_add (z, z, &sums[1].total) : status;
}

br_status
br__sums_total (br_number *exact, br_number *marks, const br__column_sums *s, const br_number *unit)
{
  br_status status = whole (exact, s->exact, s->lengths, unit);
  return status == BR_OK ? whole (marks, s->marks, s->lengths, unit) : status;
}
