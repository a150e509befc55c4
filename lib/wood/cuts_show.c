/* SPDX-License-Identifier: LGPL-3.0-or-later
   cuts_show.c - plans as a record: each stick with its pieces, the marks to pencil from one end, what is
   left of it, and a picture.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "wood/cuts.h"
#include "wood/cut_picture.h"

/* Pictures of more kinds of sticks than these are of no use to anyone.  */
#define MOST_PICTURES 24

typedef struct show
{
  br__run *run;
  const br__wood_list *list;
  const br__stock_plan *plan;
  const char *stock;
  size_t pictures;
} show;

/* Z = N units in inches.  */
static br_status
inches (br_number *z, const show *s, int64_t n)
{
  br_number count = BR_NUMBER_ZERO;
  br_status status = br_number_set_int (&count, n);
  if (status == BR_OK)
    status = br_number_mul (z, &count, &s->plan->unit);
  br_number_clear (&count);
  return status;
}

static br_status
put_units (br_record *r, const char *key, const show *s, int64_t n)
{
  br_number x = BR_NUMBER_ZERO;
  br_status status = inches (&x, s, n);
  if (status == BR_OK)
    status = br__put_sheet_exact (r, key, &x, &s->run->sheet->settings);
  br_number_clear (&x);
  return status;
}

static br_status
put_mark (br_record *r, const char *key, const show *s, int64_t n)
{
  br_number x = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = inches (&x, s, n);
  if (status == BR_OK)
    status = br__put_cut (&t, &x, &s->run->sheet->settings);
  br__put_from (r, key, &t);
  br_number_clear (&x);
  return status;
}

static br_status
put_pieces (br_record *r, const show *s, const br__plan_stick *stick)
{
  br_status status = BR_OK;
  br_list *list = br__put_list (r, "pieces");
  for (size_t i = 0; i < stick->count && status == BR_OK; i++)
    {
      const br__plan_piece *p = &s->plan->pieces[stick->first + i];
      br_record *row = br__list_record (list);
      br__put_text (row, "part", s->list->parts[p->part].wood->name);
      status = put_units (row, "length", s, p->turned ? p->width : p->length);
      if (status == BR_OK)
        status = put_mark (row, "mark", s, p->turned ? p->width : p->length);
      if (!s->plan->flat || status != BR_OK)
        continue;
      status = put_units (row, "width", s, p->turned ? p->length : p->width);
      if (status == BR_OK)
        status = put_mark (row, "width_mark", s, p->turned ? p->length : p->width);
      if (status == BR_OK)
        status = put_units (row, "x", s, p->x);
      if (status == BR_OK)
        status = put_units (row, "y", s, p->y);
      br__put_truth (row, "turned", p->turned);
    }
  return status;
}

static int
rising (const void *a, const void *b)
{
  const int64_t *x = a, *y = b;
  return *x < *y ? -1 : *x > *y;
}

/* The length of an offcut is rounded down.  */
static br_status
put_offcut (br_record *r, const show *s, int64_t n)
{
  br_number x = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = inches (&x, s, n);
  if (status == BR_OK)
    status = br__put_ruler_mark (&t, &x, BR_DOWN, &s->run->sheet->settings);
  br__put_from (r, "offcut_mark", &t);
  br_number_clear (&x);
  return status;
}

/* The places of the pencil lines, measured from one end (ACROSS: from one edge); the saw cuts beyond them.  No line if a
   piece ends with the stock.  Returns *COUNT places in units, ascending; the caller frees them.  */
static int64_t *
pencil_places (size_t *count, const show *s, const br__plan_stick *stick, int across)
{
  int64_t *at = br__alloc_zero (stick->count, sizeof *at), limit = across ? s->plan->width : s->plan->length;
  size_t n = 0, kept = 0;
  for (size_t i = 0; at && i < stick->count; i++)
    {
      const br__plan_piece *p = &s->plan->pieces[stick->first + i];
      int64_t end = across ? p->y + p->width : p->x + p->length;
      if (end < limit)
        at[n++] = end;
    }
  if (at)
    qsort (at, n, sizeof *at, rising);
  for (size_t i = 0; i < n; i++)
    if (i == 0 || at[i] != at[i - 1])
      at[kept++] = at[i];
  *count = kept;
  return at;
}

/* Adds the place N units from the end, its mark, and how far the mark is over.  */
static br_status
put_line (br_list *const lists[3], const show *s, int64_t n)
{
  const br__settings *settings = &s->run->sheet->settings;
  br__mark mark = BR__MARK_ZERO;
  br_number x = BR_NUMBER_ZERO, on_ruler = BR_NUMBER_ZERO, factor = BR_NUMBER_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = inches (&x, s, n);
  if (status == BR_OK)
    status = br__mark_of (&on_ruler, &mark, &x, BR_NEAREST, settings);
  if (status == BR_OK)
    {
      br__put_mark_text (&t, &on_ruler, BR_LENGTH, &mark, settings);
      br__list_from (lists[1], &t);
      status = br_number_sub (&on_ruler, &on_ruler, &x);
    }
  if (status == BR_OK)
    status = br__settings_factor (&factor, settings, BR_LENGTH);
  br_number *const exact[] = { &x, NULL, &on_ruler };
  for (int i = 0; i < 3 && status == BR_OK; i += 2)
    {
      status = br_number_div (exact[i], exact[i], &factor);
      if (status == BR_OK)
        br__put_number (&t, exact[i]);
      br__list_from (lists[i], &t);
    }
  br_number_clear (&x), br_number_clear (&on_ruler), br_number_clear (&factor);
  br_number_clear (&mark.size);
  return status;
}

static br_status
put_lines (br_record *r, const char *const keys[3], const show *s, const br__plan_stick *stick, int across)
{
  size_t count = 0;
  int64_t *at = pencil_places (&count, s, stick, across);
  br_status status = at ? BR_OK : BR_NO_MEMORY;
  br_list *lists[3];
  for (int i = 0; i < 3; i++)
    lists[i] = br__put_list (r, keys[i]);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    status = put_line (lists, s, at[i]);
  br__free (at);
  return status;
}

static br_status
put_picture (br_record *r, show *s, const br__plan_stick *stick)
{
  br__picture_piece *pieces = br__alloc_zero (stick->count, sizeof *pieces);
  br_text t = BR_TEXT_ZERO;
  if (!pieces)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < stick->count; i++)
    {
      const br__plan_piece *p = &s->plan->pieces[stick->first + i];
      pieces[i] = (br__picture_piece) { s->list->parts[p->part].wood->name, p->x, p->y, p->length,
                                        s->plan->flat ? p->width : 1 };
    }
  br__picture_cuts (&t, s->plan->length, s->plan->flat ? s->plan->width : 0, pieces, stick->count);
  br_list *lines = br__put_list (r, "picture");
  const char *text = br__text_string (&t);
  while (*text)
    {
      size_t n = strcspn (text, "\n");
      br__list_bytes (lines, text, n);
      text += n + (text[n] == '\n');
    }
  br_status status = t.failed ? BR_NO_MEMORY : BR_OK;
  br__text_clear (&t);
  br__free (pieces);
  return status;
}

static int
like_before (const show *s, size_t i)
{
  const br__plan_stick *x = &s->plan->sticks[i], *y = x - 1;
  if (i == 0 || x->count != y->count)
    return 0;
  for (size_t k = 0; k < x->count; k++)
    {
      const br__plan_piece *p = &s->plan->pieces[x->first + k], *q = &s->plan->pieces[y->first + k];
      if (p->part != q->part || p->x != q->x || p->y != q->y || p->turned != q->turned)
        return 0;
    }
  return 1;
}

/* Kerfs of a stick that is only cut to length: one fewer than pieces where they use it up.  */
static int64_t
kerfs (const show *s, const br__plan_stick *stick)
{
  return (int64_t) stick->count - (stick->end == s->plan->length);
}

static br_status
put_stick (br_list *sticks, show *s, size_t i)
{
  static const char *const along[] = { "marks", "pencil", "pencil_error" };
  static const char *const across[] = { "marks_across", "pencil_across", "pencil_across_error" };
  const br__plan_stick *stick = &s->plan->sticks[i];
  int64_t left = s->plan->length - stick->end - s->plan->kerf;
  br_record *r = br__list_record (sticks);
  br__put_text (r, "stock", s->stock);
  br__put_count (r, "number", (int64_t) i + 1);
  br_status status = put_pieces (r, s, stick);
  if (status == BR_OK)
    status = put_units (r, "offcut", s, left > 0 ? left : 0);
  if (status == BR_OK)
    status = put_offcut (r, s, left > 0 ? left : 0);
  if (!s->plan->flat)
    br__put_count (r, "kerfs", kerfs (s, stick));
  if (status == BR_OK)
    status = put_lines (r, along, s, stick, 0);
  if (status == BR_OK && s->plan->flat)
    status = put_lines (r, across, s, stick, 1);
  br__put_truth (r, "same", like_before (s, i));
  if (status == BR_OK && !like_before (s, i) && s->pictures < MOST_PICTURES)
    {
      s->pictures++;
      status = put_picture (r, s, stick);
    }
  return status;
}

/* Parts on sticks past those at hand.  */
static br_status
put_short (br_list *unplaced, const show *s, size_t at_hand)
{
  const br__stock_plan *plan = s->plan;
  size_t *count = br__alloc_zero (s->list->part_count, sizeof *count);
  br_status status = count ? BR_OK : BR_NO_MEMORY;
  for (size_t i = plan->used; status == BR_OK && i < plan->needed; i++)
    for (size_t k = 0; k < plan->sticks[i].count; k++)
      count[plan->pieces[plan->sticks[i].first + k].part]++;
  for (size_t i = 0; i < s->list->part_count && status == BR_OK; i++)
    if (count[i])
      {
        br_text t = BR_TEXT_ZERO;
        br_record *row = br__list_record (unplaced);
        br__put_text (row, "part", s->list->parts[i].wood->name);
        br__put_count (row, "quantity", (int64_t) count[i]);
        br__text_printf (&t, "`%s` is used up: there are %zu, and %zu more are needed", s->stock, at_hand,
                         plan->needed - plan->used);
        br__put_from (row, "why", &t);
      }
  br__free (count);
  return status;
}

static br_status
put_unplaced (br_record *r, show *s, const br__plans *p, const br__wood *only)
{
  br_list *unplaced = br__put_list (r, "unplaced");
  br_status status = BR_OK;
  for (size_t i = 0; i < s->list->part_count; i++)
    {
      const br__piece *part = &s->list->parts[i];
      if (!part->problem.length || (only && !(part->wood->from && strcmp (part->wood->from, only->name) == 0)))
        continue;
      br_record *row = br__list_record (unplaced);
      br__put_text (row, "part", part->wood->name);
      br__put_count (row, "quantity", part->quantity);
      br__put_copy (row, "why", &part->problem);
    }
  for (size_t i = 0; i < p->count && status == BR_OK; i++)
    if (p->rows[i].used < p->rows[i].needed)
      {
        s->plan = &p->rows[i];
        s->stock = s->list->stocks[i].wood->name;
        status = put_short (unplaced, s, p->rows[i].used);
      }
  return status;
}

static br_status
put_stocks (br_record *r, show *s, const br__plans *p)
{
  br_list *rows = br__put_list (r, "stocks");
  br_status status = BR_OK;
  for (size_t i = 0; i < p->count && status == BR_OK; i++)
    {
      const br__stock_plan *plan = s->plan = &p->rows[i];
      if (!plan->needed)
        continue;
      br_record *row = br__list_record (rows);
      br__put_text (row, "stock", s->list->stocks[i].wood->name);
      br__put_count (row, "used", (int64_t) plan->used);
      br__put_count (row, "needed", (int64_t) plan->needed);
      br__put_count (row, "least", plan->least);
      br__put_truth (row, "proven", (int64_t) plan->needed == plan->least);
      br__put_truth (row, "stopped", plan->stopped);
      status = put_units (row, "length", s, plan->length);
      if (status == BR_OK && plan->flat)
        status = put_units (row, "width", s, plan->width);
      if (status == BR_OK)
        status = put_units (row, "kerf", s, plan->kerf);
    }
  return status;
}

br_status
br__plans_show (br__run *run, const br__wood_list *list, const br__plans *p, const br__wood *only)
{
  show s = { run, list, NULL, NULL, 0 };
  br_record *r = br__record_new ("cut_plan");
  br_list *sticks = br__put_list (r, "sticks");
  br_status status = BR_OK;
  int64_t least = 0;
  int proven = 1;
  for (size_t i = 0; i < p->count; i++)
    {
      s.plan = &p->rows[i];
      s.stock = list->stocks[i].wood->name;
      least += s.plan->least;
      proven &= (int64_t) s.plan->needed == s.plan->least;
      for (size_t k = 0; k < s.plan->used && status == BR_OK; k++)
        status = put_stick (sticks, &s, k);
    }
  br__put_count (r, "least", least);
  br__put_truth (r, "proven", proven);
  if (status == BR_OK)
    status = put_unplaced (r, &s, p, only);
  if (status == BR_OK)
    status = put_stocks (r, &s, p);
  return br__emit_or_fail (run, r, status, 0, run->end);
}
