/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_keep.c - the marks next to a size at which every check holds.  Checks are compiled over the
   name and asked at each mark; the sheet itself is never changed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "solve/find.h"

#define MOST_MARKS 64

typedef struct rule
{
  br__program program;
  br__comparison comparison;
} rule;

typedef struct rules
{
  rule *rows;
  size_t count, room;
  br_number factor;             /* a mark over the name's own unit */
} rules;

void
br__kept_clear (br__kept *k)
{
  br_number_clear (&k->below);
  br_number_clear (&k->above);
}

static void
rules_clear (rules *r)
{
  for (size_t i = 0; i < r->count; i++)
    br__program_clear (&r->rows[i].program);
  br__free (r->rows);
  br_number_clear (&r->factor);
}

/* A check that the name has no say in, as it stands.  */
static void
note_fixed (br__kept *k, const br__check *c)
{
  if (c->state == BR__CHECK_FAIL)
    k->failing = c;
  else if (c->state != BR__CHECK_PASS)
    k->undecided = c;
}

/* The checks that the name has a say in; K gets those that cannot be asked.  */
static br_status
collect (rules *r, br__kept *k, br_sheet *sheet, const br__program_names *names)
{
  br_status status = BR_OK;
  for (br__check *c = sheet->checks; c && status == BR_OK; c = c->next)
    {
      br__program t = BR__PROGRAM_ZERO;
      const br__definition *d = br__entry_definition (c->margin);
      if (!c->active || !d)
        continue;
      status = br__program_compile (&t, sheet, &d->tree, NULL, names, NULL);
      if (status == BR_OK && t.varies)
        {
          if (br__grow (&r->rows, &r->room, r->count + 1, sizeof (rule)))
            {
              r->rows[r->count].comparison = c->comparison;
              r->rows[r->count++].program = t;
              continue;
            }
          status = BR_NO_MEMORY;
        }
      else if (status == BR_OK)
        note_fixed (k, c);
      else if (status != BR_NO_MEMORY)
        {
          if (t.missing)
            k->waiting = c, k->missing = t.missing;
          else
            k->lost = c;
          status = BR_OK;
        }
      br__program_clear (&t);
    }
  return status;
}

/* 1 in *KEEPS if every rule holds at MARK for certain.  */
static br_status
judge (int *keeps, const rules *r, const br_number *mark)
{
  br_real at = BR_REAL_ZERO, margin = BR_REAL_ZERO;
  br_status status = br_number_div (&at.rational, mark, &r->factor);
  *keeps = 1;
  for (size_t i = 0; i < r->count && status == BR_OK && *keeps; i++)
    {
      int sign = 0;
      status = br__program_value (&margin, &r->rows[i].program, &at, 0);
      if (status == BR_OK)
        status = br_real_sign (&sign, &margin, r->rows[i].program.settings->bits);
      *keeps = status == BR_OK && br__comparison_holds (r->rows[i].comparison, sign);
      if (status == BR_DOMAIN || status == BR_UNDECIDED)
        status = BR_OK;
    }
  br_real_clear (&at);
  br_real_clear (&margin);
  return status;
}

/* From MARK on by STEP: the first that keeps every rule.  */
static br_status
look (br_number *mark, int *has, const rules *r, const br_number *step)
{
  br_status status = BR_OK;
  *has = 0;
  for (int i = 0; i < MOST_MARKS && status == BR_OK; i++)
    {
      status = judge (has, r, mark);
      if (status != BR_OK || *has)
        break;
      status = br_number_add (mark, mark, step);
    }
  return status;
}

/* The marks at or under and at or over the root.  */
static br_status
start_marks (br__kept *k, br_number *factor, br_number *step, const br__solution *root, br_dimension dimension,
             const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  br__value x = { .dimension = dimension };
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = br__settings_mark (&mark, s);
  if (status == BR_OK)
    status = br_number_set_int (&x.real.rational, 1);
  /* If the mark is a length, a step of 1 is the size of the mark in inches.  */
  if (status == BR_OK)
    status = br__mark_size (step, &mark, &x, s);
  if (status == BR_OK)
    status = br_number_set (factor, &x.real.rational);
  if (status == BR_OK)
    status = br_number_mul (&low, &root->low, factor);
  if (status == BR_OK)
    status = br_number_mul (&high, &root->high, factor);
  /* A mark between the ends cannot be told from the root: both sides begin with it.  */
  if (status == BR_OK)
    status = br_ruler_round (&k->below, NULL, NULL, &high, step, BR_DOWN, s->ties);
  if (status == BR_OK)
    status = br_ruler_round (&k->above, NULL, NULL, &low, step, BR_UP, s->ties);
  k->dimension = x.dimension;
  br_number_clear (&mark.size);
  br__value_clear (&x);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

br_status
br__kept_find (br__kept *k, br_sheet *sheet, const br__program_names *names, const br__solution *root,
               br_dimension dimension)
{
  br__kept made = BR__KEPT_ZERO;
  rules r = { NULL, 0, 0, BR_NUMBER_ZERO };
  br_number step = BR_NUMBER_ZERO, back = BR_NUMBER_ZERO;
  br_status status = collect (&r, &made, sheet, names);
  int ask = !made.failing && !made.undecided && !made.lost;
  if (status == BR_OK)
    status = start_marks (&made, &r.factor, &step, root, dimension, &sheet->settings);
  if (status == BR_OK)
    status = br_number_neg (&back, &step);
  if (status == BR_OK && ask)
    status = look (&made.below, &made.has_below, &r, &back);
  if (status == BR_OK && ask)
    status = look (&made.above, &made.has_above, &r, &step);
  rules_clear (&r);
  br_number_clear (&step);
  br_number_clear (&back);
  if (status != BR_OK)
    {
      br__kept_clear (&made);
      return status;
    }
  br__kept_clear (k);
  *k = made;
  return BR_OK;
}
