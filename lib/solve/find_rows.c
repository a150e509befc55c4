/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_rows.c - the list of roots that a search has found, in order of preference.  Ranges that touch are joined.  If the
   list is full, the roots of the lowest preference are dropped.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/number.h"
#include "solve/find_search.h"

static const br_number *
start_of (const br__solution *row)
{
  return row->range ? &row->from : &row->low;
}

static const br_number *
end_of (const br__solution *row)
{
  return row->range ? &row->to : &row->high;
}

static void
row_clear (br__solution *row)
{
  br_real_clear (&row->value);
  br_number_clear (&row->low);
  br_number_clear (&row->high);
  br_number_clear (&row->from);
  br_number_clear (&row->to);
}

void
br__roots_clear (br__roots *r)
{
  for (size_t i = 0; i < r->count; i++)
    row_clear (&r->rows[i]);
  r->count = 0;
  for (size_t i = 0; i < BR__OPEN_ROOM; i++)
    {
      br_number_clear (&r->open_low[i]);
      br_number_clear (&r->open_high[i]);
    }
  br_number_clear (&r->low);
  br_number_clear (&r->high);
  br_number_clear (&r->home);
}

/* ---- Which is wanted first ---- */

br_status
br__roots_away (br_number *away, const br__roots *r, const br_number *low, const br_number *high)
{
  if (br_number_cmp (&r->home, low) < 0)
    return br_number_sub (away, low, &r->home);
  if (br_number_cmp (&r->home, high) > 0)
    return br_number_sub (away, &r->home, high);
  return br_number_set_int (away, 0);
}

static int
is_under (const br__roots *r, const br__solution *row)
{
  return !r->either && br_number_sign (end_of (row)) < 0;
}

/* Roots at or above zero are preferred to those below; among these the nearer to the start.  */
static int
compare (const br_number *away, int under, const br_number *other_away, int other_under)
{
  return under != other_under ? under - other_under : br_number_cmp (away, other_away);
}

/* ORDER of two rows by what is wanted first.  */
static br_status
compare_rows (int *order, const br__roots *r, const br__solution *x, const br__solution *y)
{
  br_number x_away = BR_NUMBER_ZERO, y_away = BR_NUMBER_ZERO;
  br_status status = br__roots_away (&x_away, r, start_of (x), end_of (x));
  if (status == BR_OK)
    status = br__roots_away (&y_away, r, start_of (y), end_of (y));
  if (status == BR_OK)
    *order = compare (&x_away, is_under (r, x), &y_away, is_under (r, y));
  br_number_clear (&x_away);
  br_number_clear (&y_away);
  return status;
}

br_status
br__roots_enough (int *enough, const br__roots *r, const br_number *away, int under)
{
  br_number row_away = BR_NUMBER_ZERO;
  size_t before = 0;
  br_status status = BR_OK;
  for (size_t i = 0; i < r->count && status == BR_OK && r->count > BR__MOST_ROOTS; i++)
    {
      status = br__roots_away (&row_away, r, start_of (&r->rows[i]), end_of (&r->rows[i]));
      before += status == BR_OK && compare (&row_away, is_under (r, &r->rows[i]), away, under) <= 0;
    }
  *enough = before > BR__MOST_ROOTS;
  br_number_clear (&row_away);
  return status;
}

/* ---- Rows go in ---- */

/* The first row that does not end before X.  */
static size_t
place_of (const br__roots *r, const br_number *x)
{
  size_t i = 0;
  while (i < r->count && br_number_cmp (end_of (&r->rows[i]), x) < 0)
    i++;
  return i;
}

static void
take_out (br__roots *r, size_t i)
{
  row_clear (&r->rows[i]);
  r->count--;
  memmove (&r->rows[i], &r->rows[i + 1], (r->count - i) * sizeof r->rows[0]);
}

/* If the list is full, drops the last row.  */
static br_status
make_room (br__roots *r)
{
  size_t last = 0;
  if (r->count < BR__ROOTS_ROOM)
    return BR_OK;
  for (size_t i = 1; i < r->count; i++)
    {
      int order = 0;
      br_status status = compare_rows (&order, r, &r->rows[i], &r->rows[last]);
      if (status != BR_OK)
        return status;
      if (order > 0)
        last = i;
    }
  take_out (r, last);
  r->more = 1;
  return BR_OK;
}

/* Puts ROW, which it takes over, in its place.  */
static void
put_in (br__roots *r, const br__solution *row)
{
  size_t i = place_of (r, start_of (row));
  /* Ranges that end here without this place go before one that begins here.  */
  while (i < r->count && br_number_cmp (start_of (&r->rows[i]), start_of (row)) < 0)
    i++;
  memmove (&r->rows[i + 1], &r->rows[i], (r->count - i) * sizeof r->rows[0]);
  r->rows[i] = *row;
  r->count++;
}

/* 1 where ROW is the one place X.  */
static int
is_at (const br__solution *row, const br_number *x)
{
  return row->exact && !row->range && br_number_equal (&row->low, x);
}

int
br__roots_set_end (br__roots *r, const br_number *x, br__end end)
{
  int touched = 0;
  for (size_t i = place_of (r, x); i < r->count && br_number_cmp (start_of (&r->rows[i]), x) <= 0; i++)
    {
      br__solution *row = &r->rows[i];
      if (row->range && br_number_equal (&row->to, x))
        row->to_end = end, touched = 1;
      if (row->range && br_number_equal (&row->from, x))
        row->from_end = end, touched = 1;
    }
  return touched;
}

br_status
br__roots_add (br__roots *r, const br_real *value, const br_number *low, const br_number *high)
{
  br__solution row = { .exact = value != NULL };
  size_t i = place_of (r, low);
  if (value && ((i < r->count && is_at (&r->rows[i], low)) || br__roots_set_end (r, low, BR__END_IN)))
    return BR_OK;
  br_status status = make_room (r);
  if (status == BR_OK)
    status = br_number_set (&row.low, low);
  if (status == BR_OK)
    status = br_number_set (&row.high, high);
  if (status == BR_OK && value)
    status = br_real_set (&row.value, value);
  if (status == BR_OK)
    put_in (r, &row);
  else
    row_clear (&row);
  return status;
}

/* Takes the row at X, or the range that ends or begins there and goes on in ROW, out of R and into ROW.  */
static br_status
join (br__solution *row, br__roots *r, const br_number *x, int at_start)
{
  for (size_t i = place_of (r, x); i < r->count && br_number_cmp (start_of (&r->rows[i]), x) <= 0; i++)
    {
      br__solution *other = &r->rows[i];
      br__end mine = at_start ? row->from_end : row->to_end, its = at_start ? other->to_end : other->from_end;
      br_status status = BR_OK;
      if (is_at (other, x))
        *(at_start ? &row->from_end : &row->to_end) = BR__END_IN;
      else if (other->range && mine != BR__END_OUT && its != BR__END_OUT
               && br_number_equal (at_start ? &other->to : &other->from, x))
        {
          status = at_start ? br_number_set (&row->from, &other->from) : br_number_set (&row->to, &other->to);
          *(at_start ? &row->from_end : &row->to_end) = at_start ? other->from_end : other->to_end;
        }
      else
        continue;
      if (status == BR_OK)
        take_out (r, i);
      return status;
    }
  return BR_OK;
}

br_status
br__roots_add_range (br__roots *r, const br_number *low, br__end low_end, const br_number *high, br__end high_end)
{
  br__solution row = { .exact = 1, .range = 1, .from_end = low_end, .to_end = high_end };
  br_status status = br_number_set (&row.from, low);
  if (status == BR_OK)
    status = br_number_set (&row.to, high);
  if (status == BR_OK)
    status = join (&row, r, low, 1);
  if (status == BR_OK)
    status = join (&row, r, high, 0);
  if (status == BR_OK)
    status = make_room (r);
  if (status == BR_OK)
    put_in (r, &row);
  else
    row_clear (&row);
  return status;
}

/* ---- When all is done ---- */

/* A size that stands for a range.  */
static br_status
choose (br__solution *row, const br_number *home)
{
  br_number half = { 1, 1 };
  br_status status;
  /* If one end of the range is the limit of the search, the other end represents it.  */
  if (row->from_end == BR__END_IN && row->to_end == BR__END_ROUGH)
    status = br_number_set (&row->low, &row->from);
  else if (row->to_end == BR__END_IN && row->from_end == BR__END_ROUGH)
    status = br_number_set (&row->low, &row->to);
  else if (row->from_end == BR__END_ROUGH && row->to_end == BR__END_ROUGH && br_number_cmp (&row->from, home) < 0
           && br_number_cmp (home, &row->to) < 0)
    status = br_number_set (&row->low, home);
  else
    status = br__number_plainest (&row->low, &row->from, &row->to);
  int open = (row->from_end == BR__END_OUT && br_number_equal (&row->low, &row->from))
             || (row->to_end == BR__END_OUT && br_number_equal (&row->low, &row->to));
  if (status == BR_OK && open)
    {
      status = br_number_add (&row->low, &row->from, &row->to);
      if (status == BR_OK)
        status = br_number_mul (&row->low, &row->low, &half);
    }
  if (status == BR_OK)
    status = br_number_set (&row->high, &row->low);
  if (status == BR_OK)
    status = br_real_set_number (&row->value, &row->low);
  return status;
}

br_status
br__roots_finish (br__roots *r)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < r->count && status == BR_OK; i++)
    {
      if (r->rows[i].range)
        status = choose (&r->rows[i], &r->home);
      /* Each goes before those that are wanted later.  */
      int order = -1;
      for (size_t j = i; j > 0 && status == BR_OK; j--)
        {
          status = compare_rows (&order, r, &r->rows[j], &r->rows[j - 1]);
          if (status != BR_OK || order >= 0)
            break;
          br__solution row = r->rows[j];
          r->rows[j] = r->rows[j - 1];
          r->rows[j - 1] = row;
        }
    }
  r->more |= r->count > BR__MOST_ROOTS;
  while (r->count > BR__MOST_ROOTS)
    take_out (r, r->count - 1);
  return status;
}
