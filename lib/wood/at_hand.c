/* SPDX-License-Identifier: LGPL-3.0-or-later
   at_hand.c - `round X to stock` and `round X to dowels`: the sizes that are at hand next to one that was judged from a
   picture, the nearest first.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/hidden.h"
#include "wood/wood.h"

#define MOST_TOLD 3           /* the nearest, and its neighbours */

typedef struct size_at_hand
{
  br_number inches;
  br_real off;                  /* its distance from the value */
  const char *name;             /* of the stock, or "dowel" */
} size_at_hand;

typedef struct at_hand
{
  size_at_hand *sizes;
  size_t count, room;
} at_hand;

static br_status
add_size (at_hand *a, const br_number *inches, const char *name)
{
  for (size_t i = 0; i < a->count; i++)
    if (br_number_equal (&a->sizes[i].inches, inches))
      return BR_OK;
  if (!br__grow (&a->sizes, &a->room, a->count + 1, sizeof *a->sizes))
    return BR_NO_MEMORY;
  size_at_hand *s = &a->sizes[a->count++];
  memset (s, 0, sizeof *s);
  s->name = name;
  return br_number_set (&s->inches, inches);
}

/* The dowels that shops have where the sheet names none: common practice, no source.  */
static br_status
add_usual_dowels (at_hand *a)
{
  static const int sixteenths[] = { 2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16 };
  br_number inches = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  for (size_t i = 0; i < sizeof sixteenths / sizeof sixteenths[0] && status == BR_OK; i++)
    {
      status = br_number_set_ratio (&inches, sixteenths[i], 16);
      if (status == BR_OK)
        status = add_size (a, &inches, "dowel");
    }
  br_number_clear (&inches);
  return status;
}

static br_status
gather (at_hand *a, br__run *run, const br__wood_list *list, int dowels)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < list->stock_count && status == BR_OK; i++)
    if (list->stocks[i].wood->round == dowels && list->stocks[i].size[BR__THICKNESS].known)
      status = add_size (a, &list->stocks[i].size[BR__THICKNESS].value, list->stocks[i].wood->name);
  if (status == BR_OK && !a->count && dowels)
    status = add_usual_dowels (a);
  if (status != BR_OK)
    return br__fail_plain (run->error, status, 0, 0);
  if (a->count)
    return BR_OK;
  br__fail (run->error, BR_DOMAIN, run->word.offset, run->end, "the sheet has no stock yet");
  br__hint (run->error, "write `stock board = 3/4 x 6 x 48` first");
  return BR_DOMAIN;
}

/* Sorts by the distance from X; of two that are as near, the thicker comes first.  */
static br_status
sort_by_distance (at_hand *a, const br_real *x, unsigned bits)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < a->count && status == BR_OK; i++)
    {
      int sign = 0;
      br_real at = { a->sizes[i].inches, NULL };
      status = br_real_sub (&a->sizes[i].off, &at, x);
      if (status == BR_OK)
        status = br_real_sign (&sign, &a->sizes[i].off, bits);
      if (status == BR_OK && sign < 0)
        status = br_real_neg (&a->sizes[i].off, &a->sizes[i].off);
    }
  for (size_t i = 1; i < a->count && status == BR_OK; i++)
    for (size_t k = i; k > 0 && status == BR_OK; k--)
      {
        int order = 0;
        status = br_real_cmp (&order, &a->sizes[k - 1].off, &a->sizes[k].off, bits);
        if (status != BR_OK || order < 0
            || (order == 0 && br_number_cmp (&a->sizes[k - 1].inches, &a->sizes[k].inches) > 0))
          break;
        size_at_hand kept = a->sizes[k];
        a->sizes[k] = a->sizes[k - 1];
        a->sizes[k - 1] = kept;
      }
  return status;
}

static br_status
emit_size (br__run *run, const br__tree *tree, const br__value *x, const size_at_hand *s)
{
  const br__settings *set = &run->sheet->settings;
  br_style style = br__settings_style (set);
  br_text t = BR_TEXT_ZERO;
  br__value v = { .real = { s->inches, NULL }, .dimension = BR_LENGTH };      /* borrowed for the call */
  br_real z = BR_REAL_ZERO;
  br_record *r = br__record_new ("rounding");
  br__put_expression (r, tree);
  br_status status = br__put_value (r, x, set);
  if (status == BR_OK)
    status = br__in_sheet_unit (&z, &v, set);
  if (status == BR_OK)
    {
      br__put_exact (r, "value", br_real_rational (&z));
      br__put_measure (&t, &s->inches, BR_LENGTH, &style);
      br__put_from (r, "mark", &t);
      status = br__put_error (r, x, &s->inches, set);
    }
  br__put_truth (r, "tie", 0);
  br__put_text (r, "ruler", "");
  br__put_text (r, "note", s->name);
  br_real_clear (&z);
  return br__emit_or_fail (run, r, status, tree->base, tree->length);
}

static br_status
round_one (br__run *run, const br__tree *tree, at_hand *a)
{
  br__value x = BR__VALUE_ZERO;
  const br__settings *s = &run->sheet->settings;
  br_status status = br__value_of_length (&x, run, tree);
  if (status == BR_OK)
    {
      status = sort_by_distance (a, &x.real, s->bits);
      if (status != BR_OK)
        br__fail_plain (run->error, status, tree->base, tree->length);
    }
  for (size_t i = 0; i < a->count && i < MOST_TOLD && status == BR_OK; i++)
    status = emit_size (run, tree, &x, &a->sizes[i]);
  br__value_clear (&x);
  return status;
}

br_status
br__round_to_stock (br__run *run, const br__tree *trees, size_t count, int dowels)
{
  at_hand a = { NULL, 0, 0 };
  br__wood_list list = { 0 };
  br_status status = br__wood_resolve (&list, run);
  if (status == BR_OK)
    status = gather (&a, run, &list, dowels);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    status = round_one (run, &trees[i], &a);
  for (size_t i = 0; i < a.count; i++)
    {
      br_number_clear (&a.sizes[i].inches);
      br_real_clear (&a.sizes[i].off);
    }
  br__free (a.sizes);
  br__wood_list_clear (&list);
  return status;
}
