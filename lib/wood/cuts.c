/* SPDX-License-Identifier: LGPL-3.0-or-later
   cuts.c - the statement cuts: from stocks and parts in inches to jobs in whole numbers, and from
   plans back to parts.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "exact/status.h"
#include "wood/cuts.h"

void
br__plans_clear (br__plans *p)
{
  for (size_t i = 0; i < p->count; i++)
    {
      br_number_clear (&p->rows[i].unit);
      br__free (p->rows[i].pieces);
      br__free (p->rows[i].sticks);
    }
  br__free (p->rows);
  memset (p, 0, sizeof *p);
}

/* ---- To whole numbers ---- */

/* One stock's job.  */
typedef struct job
{
  br__run *run;
  const br__wood_list *list;
  size_t stock;
  size_t *part;                 /* parts that come from it */
  size_t count;
  int64_t units;                /* in an inch */
  int64_t *length, *demand;
  br__cut_piece *pieces;
  br__stock_plan *plan;
} job;

static br_status
too_fine (const job *j)
{
  br__fail (j->run->error, BR_TOO_BIG, j->run->word.offset, j->run->word.length,
            "sizes from `%.*s` are too finely divided to plan with",
            BR__CLIP (j->list->stocks[j->stock].wood->name, 60));
  br__hint (j->run->error, "put them on ruler marks: nearest(SIZE, 1/64)");
  return BR_TOO_BIG;
}

/* Makes J's unit fine enough for X.  */
static br_status
refine (job *j, const br_number *x)
{
  int64_t n, d;
  if (!br_number_get_ratio (&n, &d, x) || d > BR__CUT_MAX_SIZE)
    return too_fine (j);
  int64_t more = d / (int64_t) br__gcd ((uint64_t) j->units, (uint64_t) d);
  if (more > BR__CUT_MAX_SIZE / j->units)
    return too_fine (j);
  j->units *= more;
  return BR_OK;
}

static br_status
in_units (int64_t *z, const job *j, const br_number *x)
{
  int64_t n, d;
  if (!br_number_get_ratio (&n, &d, x) || n > BR__CUT_MAX_SIZE / (j->units / d))
    return too_fine (j);
  *z = n * (j->units / d);
  return BR_OK;
}

static br_status
find_unit (job *j)
{
  const br__piece *stock = &j->list->stocks[j->stock];
  br_status status = refine (j, &j->run->sheet->settings.kerf);
  if (status == BR_OK)
    status = refine (j, &stock->size[BR__LENGTH_OF].value);
  if (status == BR_OK && j->plan->flat)
    status = refine (j, &stock->size[BR__WIDTH].value);
  for (size_t i = 0; i < j->count && status == BR_OK; i++)
    {
      const br__piece *p = &j->list->parts[j->part[i]];
      status = refine (j, &p->size[BR__LENGTH_OF].mark);
      if (status == BR_OK && j->plan->flat)
        status = refine (j, &p->size[BR__WIDTH].mark);
    }
  return status == BR_OK ? br_number_set_ratio (&j->plan->unit, 1, j->units) : status;
}

static br_status
fill_in (job *j)
{
  const br__piece *stock = &j->list->stocks[j->stock];
  br__stock_plan *plan = j->plan;
  br_status status = in_units (&plan->kerf, j, &j->run->sheet->settings.kerf);
  if (status == BR_OK)
    status = in_units (&plan->length, j, &stock->size[BR__LENGTH_OF].value);
  if (status == BR_OK && plan->flat)
    status = in_units (&plan->width, j, &stock->size[BR__WIDTH].value);
  for (size_t i = 0; i < j->count && status == BR_OK; i++)
    {
      const br__piece *p = &j->list->parts[j->part[i]];
      br__cut_piece *c = &j->pieces[i];
      status = in_units (&c->length, j, &p->size[BR__LENGTH_OF].mark);
      if (status == BR_OK && plan->flat)
        status = in_units (&c->width, j, &p->size[BR__WIDTH].mark);
      c->demand = j->demand[i] = p->quantity;
      c->turn = p->wood->turn;
      j->length[i] = c->length;
    }
  return status;
}

/* Parts as wide as their stock are only cut to length.  */
static int
is_flat (const job *j)
{
  const br__piece *stock = &j->list->stocks[j->stock];
  for (size_t i = 0; i < j->count && !stock->wood->round; i++)
    if (!br_number_equal (&j->list->parts[j->part[i]].size[BR__WIDTH].mark,
                          &stock->size[BR__WIDTH].value))
      return 1;
  return 0;
}

/* ---- From plans ---- */

/* A stick of a plan, to sort them by what is cut from them.  */
typedef struct stick
{
  const uint32_t *type;
  size_t count;
} stick;

static int
same_beside (const void *a, const void *b)
{
  const stick *x = a, *y = b;
  for (size_t i = 0; i < x->count && i < y->count; i++)
    if (x->type[i] != y->type[i])
      return x->type[i] < y->type[i] ? -1 : 1;
  return x->count > y->count ? -1 : x->count < y->count;
}

static br_status
make_room (br__stock_plan *plan, size_t pieces, size_t sticks)
{
  plan->pieces = br__alloc_zero (pieces, sizeof *plan->pieces);
  plan->sticks = br__alloc_zero (sticks, sizeof *plan->sticks);
  return plan->pieces && plan->sticks ? BR_OK : BR_NO_MEMORY;
}

/* Puts one piece more on the stick at hand, which is the last.  */
static void
put_piece (job *j, br__plan_stick *s, size_t row, int turned, int64_t x, int64_t y)
{
  const br__cut_piece *c = &j->pieces[row];
  int64_t length = turned ? c->width : c->length, width = turned ? c->length : c->width;
  j->plan->pieces[s->first + s->count++] =
    (br__plan_piece) { j->part[row], turned, x, y, length, width };
  if (x + length > s->end)
    s->end = x + length;
}

static br_status
take_sticks (job *j, const br__cut_plan *cut)
{
  br__stock_plan *plan = j->plan;
  stick *order = br__alloc_zero (cut->sticks, sizeof *order);
  br_status status = order ? make_room (plan, cut->start[cut->sticks], cut->sticks) : BR_NO_MEMORY;
  if (status == BR_OK)
    {
      for (size_t i = 0; i < cut->sticks; i++)
        order[i] = (stick) { cut->type + cut->start[i], cut->start[i + 1] - cut->start[i] };
      qsort (order, cut->sticks, sizeof *order, same_beside);
    }
  for (size_t i = 0, first = 0; status == BR_OK && i < cut->sticks; i++)
    {
      int64_t x = 0;
      plan->sticks[i].first = first;
      for (size_t k = 0; k < order[i].count; k++)
        {
          put_piece (j, &plan->sticks[i], order[i].type[k], 0, x, 0);
          x += j->length[order[i].type[k]] + plan->kerf;
        }
      first += order[i].count;
    }
  br__free (order);
  plan->needed = cut->sticks;
  plan->least = cut->least;
  plan->stopped = cut->stopped;
  return status;
}

static br_status
take_layout (job *j, const br__cut_layout *layout)
{
  br__stock_plan *plan = j->plan;
  br_status status = make_room (plan, layout->count, layout->sheets);
  for (size_t i = 0; i < layout->count && status == BR_OK; i++)
    {
      const br__cut_place *p = &layout->places[i];
      br__plan_stick *s = &plan->sticks[p->sheet];
      if (s->count == 0)
        s->first = i;
      put_piece (j, s, p->type, p->turned, p->x, p->y);
    }
  plan->needed = layout->sheets;
  plan->least = layout->least;
  plan->stopped = layout->stopped;
  return status;
}

static br_status
run_job (job *j, int64_t milliseconds)
{
  const br_sink *sink = j->run->sink;
  br__stock_plan *plan = j->plan;
  br__cut_control control = { .flag = j->run->sheet->flag, .milliseconds = milliseconds };
  br__cut_plan cut = BR__CUT_PLAN_ZERO;
  br__cut_layout layout = BR__CUT_LAYOUT_ZERO;
  br_error mistake;
  br_status status;
  if (sink)
    {
      control.solver = sink->solver;
      control.user = sink->user;
      control.progress = sink->progress;
    }
  br__cut_begin (&control);
  if (plan->flat)
    status = br__cut_sheets (&layout, plan->length, plan->width, plan->kerf, j->pieces, j->count, &control,
                             &mistake);
  else
    status = br__cut_sticks (&cut, plan->length, plan->kerf, j->length, j->demand, j->count, &control,
                             &mistake);
  if (status != BR_OK)
    br__fail (j->run->error, status, j->run->word.offset, j->run->word.length, "`%.*s`: %s",
              BR__CLIP (j->list->stocks[j->stock].wood->name, 60), mistake.message);
  else
    status = plan->flat ? take_layout (j, &layout) : take_sticks (j, &cut);
  br__cut_plan_clear (&cut);
  br__cut_layout_clear (&layout);
  return status;
}

static br_status
plan_stock (br__stock_plan *plan, br__run *run, const br__wood_list *list, size_t stock,
            int64_t milliseconds)
{
  job j = { .run = run, .list = list, .stock = stock, .plan = plan, .units = 1 };
  int64_t at_hand = list->stocks[stock].quantity;
  br_status status = BR_NO_MEMORY;
  j.part = br__alloc_zero (list->part_count, sizeof *j.part);
  j.length = br__alloc_zero (list->part_count, sizeof *j.length);
  j.demand = br__alloc_zero (list->part_count, sizeof *j.demand);
  j.pieces = br__alloc_zero (list->part_count, sizeof *j.pieces);
  if (j.part && j.length && j.demand && j.pieces)
    status = BR_OK;
  for (size_t i = 0; status == BR_OK && i < list->part_count; i++)
    if (list->parts[i].stock == stock && !list->parts[i].problem.length)
      j.part[j.count++] = i;
  if (j.count && status == BR_OK)
    {
      plan->flat = is_flat (&j);
      status = find_unit (&j);
      if (status == BR_OK)
        status = fill_in (&j);
      if (status == BR_OK)
        status = run_job (&j, milliseconds);
    }
  plan->used = at_hand < 0 || (size_t) at_hand > plan->needed ? plan->needed : (size_t) at_hand;
  br__free (j.part);
  br__free (j.length);
  br__free (j.demand);
  br__free (j.pieces);
  return status == BR_NO_MEMORY ? br__fail_plain (run->error, status, 0, 0) : status;
}

br_status
br__plan_all (br__plans *p, br__run *run, const br__wood_list *list, const br__wood *only,
              int64_t milliseconds)
{
  br_status status = BR_OK;
  p->rows = br__alloc_zero (list->stock_count, sizeof *p->rows);
  if (!p->rows)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  p->count = list->stock_count;
  for (size_t i = 0; i < p->count && status == BR_OK; i++)
    if (!list->stocks[i].problem.length && (!only || list->stocks[i].wood == only))
      status = plan_stock (&p->rows[i], run, list, i, milliseconds / (only ? 1 : (int64_t) p->count));
  return status;
}

/* ---- The statement ---- */

/* cuts [STOCK] [limit SECONDS] */
static br_status
read_clauses (br__run *run, const br__wood **only, int64_t *seconds)
{
  br_status status = BR_OK;
  const br__token t = run->lex.token;
  if (t.type == BR__NAME && !br__lex_is_word (&run->lex, "limit"))
    {
      *only = br__wood_find (run->sheet, 1, run->text + t.offset, t.length);
      if (!*only)
        return br__fail (run->error, BR_DOMAIN, t.offset, t.length, "there is no stock called `%.*s`",
                         br__clip (run->text + t.offset, t.length, 40), run->text + t.offset);
      status = br__lex_next (&run->lex, run->error);
    }
  if (status == BR_OK && br__lex_is_word (&run->lex, "limit"))
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__read_count (run, seconds, 1, 600, "the limit in seconds");
    }
  return status == BR_OK ? br__end_of_line (run) : status;
}

br_status
br__do_cuts (br__run *run)
{
  br__wood_list list = { 0 };
  br__plans plans = { 0 };
  const br__wood *only = NULL;
  int64_t seconds = BR__PLAN_MILLISECONDS / 1000;
  br_status status = read_clauses (run, &only, &seconds);
  if (status == BR_OK)
    status = br__wood_resolve (&list, run);
  if (status == BR_OK)
    status = br__need_parts (run, &list);
  if (status == BR_OK)
    status = br__plan_all (&plans, run, &list, only, seconds * 1000);
  if (status == BR_OK)
    status = br__plans_show (run, &list, &plans, only);
  if (status == BR_OK)
    status = br__wood_cautions (run, &list, BR__WOOD_FIRST);
  br__plans_clear (&plans);
  br__wood_list_clear (&list);
  return status;
}
