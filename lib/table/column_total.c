/* SPDX-License-Identifier: LGPL-3.0-or-later
   column_total.c - marks for a column that keep its total: all of it is in memory, and looked through
   before the first mark is chosen.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "table/column_pump.h"

void
br__parts_clear (br__parts *t)
{
  for (size_t i = 0; i < t->count; i++)
    {
      br_real_clear (&t->x[i]);
      if (t->marks)
        br_number_clear (&t->marks[i]);
    }
  br__free (t->x);
  br__free (t->marks);
  memset (t, 0, sizeof *t);
}

#define MOST 2000000          /* measures that are held at once: some 200 MB */

/* Collects the values of the rows of B; cells that are not measures are skipped.  */
static br_status
gather (br__parts *t, br__pump *p, br__block *b)
{
  const char *at = b->in + b->start, *end = b->in + b->length;
  br__csv_row row;
  br_error error;
  for (; at < end && br__csv_next (&row, at, end, p->job->column.index, 1, p->job->column.separator); at = row.next)
    {
      br_real x = BR_REAL_ZERO;
      br_dimension dimension = BR_PLAIN;
      if (br__stopped (p->job->run))
        return br__fail_stopped (p->job->run);
      br_status status = row.open || row.end == row.start || !row.cell ? BR_SYNTAX
                         : br__column_value (&x.rational, &dimension, &p->job->column, b, &row, &error);
      if (status == BR_OK && t->count == MOST)
        {
          br_real_clear (&x);
          br__fail (p->job->run->error, BR_TOO_BIG, 0, 0, "more than %d measures are too many to keep a total of", MOST);
          br__hint (p->job->run->error, "without `keep total` a file may have any size");
          return BR_TOO_BIG;
        }
      if (status == BR_OK && !br__grow (&t->x, &t->room, t->count + 1, sizeof *t->x))
        status = BR_NO_MEMORY;
      if (status == BR_OK)
        t->x[t->count++] = x;
      else
        br_real_clear (&x);
      if (status == BR_NO_MEMORY)
        return br__fail_plain (p->job->run->error, BR_NO_MEMORY, 0, 0);
      t->length |= status == BR_OK && dimension == BR_LENGTH;
    }
  return BR_OK;
}

/* Puts the gathered values on marks, whose sum is on its own.  */
static br_status
choose_marks (br__parts *t, br__pump *p)
{
  br__column *c = &p->job->column;
  br_number total = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  t->marks = br__alloc_zero (t->count, sizeof *t->marks);
  if (!t->marks)
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    {
      const volatile sig_atomic_t *before = br__account_watch (p->job->run->sheet->flag);
      status = br_ruler_keep_total (t->marks, &total, t->x, t->count, &c->sizes[t->length],
                                    c->direction, c->settings->ties, c->settings->bits);
      (void) br__account_watch (before);
    }
  br_number_clear (&total);
  if (status != BR_OK)
    return br__fail_plain (p->job->run->error, status, 0, 0);
  c->kept = t->marks;
  return BR_OK;
}

br_status
br__total_prepare (br__parts *t, br__pump *p)
{
  br__block all = { .in = p->held, .length = p->held_length, .last = 1 };
  br_status status = br__block_begin (p, &all);
  if (status == BR_OK)
    status = gather (t, p, &all);
  if (status == BR_OK && t->length && !p->job->column.lengths)
    {
      br__parts_clear (t);
      p->job->column.lengths = 1;
      status = gather (t, p, &all);
    }
  if (status == BR_OK)
    status = choose_marks (t, p);
  br__text_clear (&all.out);
  br__text_clear (&all.cell);
  br__text_clear (&all.shown);
  br__free (p->result->name);
  p->result->name = NULL;
  p->begun = 0;
  return status;
}

