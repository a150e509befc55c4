/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood_caution.c - parts that are too short to hold at a saw, and parts that a small child can
   choke on.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/caution.h"
#include "sheet/caution_group.h"
#include "sheet/caution_look.h"
#include "wood/wood.h"
#include "shop/caution.h"

/* 1 for machines that cut parts to size; machines that shape them later do not matter for a cut list.  */
static int
is_saw (const br__advice *a)
{
  static const char *const machines[] = { "any machine", "table saw", "band saw", "miter saw" };
  for (size_t i = 0; i < sizeof machines / sizeof machines[0]; i++)
    if (strcmp (a->machine, machines[i]) == 0)
      return 1;
  return 0;
}

static br_status
add_name (br_text *names, const char *name)
{
  br__text_puts (names, names->length ? ", " : "");
  br__text_puts (names, name);
  return names->failed ? BR_NO_MEMORY : BR_OK;
}

/* Names of parts that are small, that may be, and that have short grain.  */
enum { SMALL, MAY_BE_SMALL, SHORT_GRAIN, KINDS };

/* The cautions about parts at their given sizes or, AS_CUT, within their tolerances.  */
typedef struct wood_names
{
  br_text *holding, small[KINDS];
} wood_names;

static br_status
emit (br__run *run, const br_text *names, const char *message, const char *source, const char *scope, int all, int as_cut)
{
  br_text t = BR_TEXT_ZERO, brief = BR_TEXT_ZERO;
  const char *tail = strstr (message, "; " BR__TEACHER_FIRST), *prefix = as_cut ? BR__AS_CUT_WITHIN : "";
  br_record *r = br__record_new ("caution");
  br__text_printf (&t, "%s: %s%s", br__text_string (names), prefix, message);
  br__put_from (r, "message", &t);
  br__put_text (r, "source", source);
  if (scope)
    br__put_text (r, "scope", scope);
  br__put_copy (r, "parts", names);
  br__text_puts (&brief, prefix);
  /* One of the small parts has a number, and is long.  */
  if (scope)
    br__text_puts (&brief, "16 CFR 1501.4: small enough for a child under 3 years to choke on");
  else
    br__text_put (&brief, message, tail ? (size_t) (tail - message) : strlen (message));
  if (!all)
    br__put_from (r, "brief", &brief);
  br__text_clear (&brief);
  br__list_names (br__put_list (r, "concerns"), br__text_string (names));
  return br__emit (run, r);
}

/* Adds the name of P to the advice that it touches with SIZES, and not with those that were GIVEN, if any.  */
static br_status
hold (br_text *names, const br__piece *p, const br_real *sizes, const br_real *given, int round, unsigned bits)
{
  const br__advice **rows = br__alloc_zero (2 * br__advice_count, sizeof *rows), **old;
  size_t count = 0, old_count = 0;
  if (!rows)
    return BR_NO_MEMORY;
  old = rows + br__advice_count;
  br_status status = br__workpiece_advice (rows, &count, &sizes[BR__LENGTH_OF], round ? NULL : &sizes[BR__WIDTH], NULL, bits);
  if (status == BR_OK && given)
    status = br__workpiece_advice (old, &old_count, &given[BR__LENGTH_OF], round ? NULL : &given[BR__WIDTH], NULL, bits);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    {
      int new = is_saw (rows[i]);
      for (size_t k = 0; k < old_count; k++)
        new &= old[k] != rows[i];
      if (new)
        status = add_name (&names[rows[i] - br__advices], p->wood->name);
    }
  br__free (rows);
  return status;
}

static br_status
may_choke (br_truth *fits, const br_real *sizes, int round, unsigned bits)
{
  return round ? br__small_disc_fits (fits, &sizes[BR__THICKNESS], &sizes[BR__LENGTH_OF], bits, NULL)
         : br__small_box_fits (fits, &sizes[BR__LENGTH_OF], &sizes[BR__WIDTH], &sizes[BR__THICKNESS], bits, NULL);
}

/* The same for what is small.  */
static br_status
choke (br_text *names, const br__piece *p, const br_real *sizes, const br_real *given, int round, unsigned bits)
{
  br_truth fits = BR_NO, before = BR_NO;
  br_status status = may_choke (&fits, sizes, round, bits);
  if (status == BR_OK && given)
    status = may_choke (&before, given, round, bits);
  if (status == BR_OK && fits != BR_NO && before == BR_NO)
    status = add_name (&names[fits == BR_YES ? SMALL : MAY_BE_SMALL], p->wood->name);
  return status;
}

/* Wood with less than 1/2 in along the grain and more across splits (common practice, no source).  Not plywood, which has its
   grain both ways, and not parts that may be turned.  */
static int
is_short_grained (const br__piece *p, const br__wood *stock)
{
  static const br_number narrow = { 1, 1 };     /* 1/2 */
  return p->size[BR__LENGTH_OF].known && p->size[BR__WIDTH].known && !p->wood->turn
         && !(stock && (stock->round || stock->nominal == BR__PLYWOOD))
         && br_number_cmp (&p->size[BR__LENGTH_OF].value, &narrow) < 0 && br_number_cmp (&p->size[BR__WIDTH].value, &narrow) >= 0;
}

/* LOW = the sizes GIVEN, the least that their tolerances let them be; *OFF: one of them is less.  */
static br_status
least_sizes (br__span *low, int *off, br__run *run, const br__piece *p, const br_real *given)
{
  br_status status = BR_OK;
  *off = 0;
  for (int k = 0; k < BR__SIZES && status == BR_OK; k++)
    {
      br__value v = { .real = given[k], .dimension = p->size[k].plain ? BR_PLAIN : BR_LENGTH };         /* borrowed */
      if (p->wood->size[k].count)
        status = br__span_of (&low[k], run, &v, NULL, &p->wood->size[k]);
      *off |= low[k].off;
    }
  return status;
}

static br_status
look_at_part (wood_names names[2], br__run *run, const br__wood_list *list, const br__piece *p)
{
  const unsigned bits = run->sheet->settings.bits;
  br_real sizes[BR__SIZES] = { BR_REAL_ZERO, BR_REAL_ZERO, BR_REAL_ZERO }, least[BR__SIZES];
  br__span low[BR__SIZES] = { BR__SPAN_ZERO, BR__SPAN_ZERO, BR__SPAN_ZERO };
  const br__wood *stock = p->stock != SIZE_MAX ? list->stocks[p->stock].wood : NULL;
  const int round = stock && stock->round;
  int off = 0;
  br_status status = BR_OK;
  if (is_short_grained (p, stock))
    status = add_name (&names->small[SHORT_GRAIN], p->wood->name);
  if (status != BR_OK || !p->size[BR__LENGTH_OF].known || !p->size[BR__WIDTH].known || !p->size[BR__THICKNESS].known)
    return status;
  for (int k = 0; k < BR__SIZES; k++)
    sizes[k].rational = p->size[k].value;   /* borrowed */
  status = least_sizes (low, &off, run, p, sizes);
  for (int k = 0; k < BR__SIZES; k++)
    least[k] = low[k].off ? low[k].low : sizes[k];
  for (int cut = 0; cut <= off && status == BR_OK; cut++)
    {
      const br_real *now = cut ? least : sizes, *given = cut ? sizes : NULL;
      /* A part without a stock is not cut, but it is small all the same.  */
      if (!p->problem.length)
        status = hold (names[cut].holding, p, now, given, round, bits);
      if (status == BR_OK)
        status = choke (names[cut].small, p, now, given, round, bits);
    }
  for (int k = 0; k < BR__SIZES; k++)
    br__span_clear (&low[k]);
  return status;
}

/* *HELD: one of how to hold was told already, where the first is enough.  */
static br_status
tell_names (br__run *run, const wood_names *names, int as_cut, br__wood_which which, int *held)
{
  br__child child = br__child_of (&run->sheet->settings);
  br_status status = BR_OK;
  for (size_t i = 0; i < br__advice_count && status == BR_OK && !(*held && which == BR__WOOD_FIRST); i++)
    if (names->holding[i].length)
      {
        *held = 1;
        status = emit (run, &names->holding[i], br__advices[i].message, br__advices[i].source, NULL, which == BR__WOOD_FULL, as_cut);
      }
  if (status == BR_OK && names->small[SHORT_GRAIN].length)
    status = emit (run, &names->small[SHORT_GRAIN], "short grain: wood of less than 1/2 in along the grain splits easily; turn it on its board, its length the other way; "
                   BR__TEACHER_FIRST, "common practice, no source", NULL, which == BR__WOOD_FULL, as_cut);
  for (int i = 0; i <= MAY_BE_SMALL && status == BR_OK; i++)
    {
      const br_caution *c = br__small_part_caution (i == SMALL ? BR_YES : BR_UNKNOWN, &child);
      if (names->small[i].length && c)
        status = emit (run, &names->small[i], c->text, c->source, c->scope, which == BR__WOOD_FULL, as_cut);
    }
  return status;
}

br_status
br__wood_cautions (br__run *run, const br__wood_list *list, br__wood_which which)
{
  br_text *holding = br__alloc_zero (2 * br__advice_count, sizeof *holding);
  wood_names names[2] = { { .holding = holding }, { .holding = holding } };
  br_status status = holding ? BR_OK : BR_NO_MEMORY;
  int held = 0;
  if (holding)
    names[1].holding = holding + br__advice_count;
  for (size_t i = 0; i < list->part_count && status == BR_OK; i++)
    status = look_at_part (names, run, list, &list->parts[i]);
  for (int cut = 0; cut < 2 && status == BR_OK; cut++)
    status = tell_names (run, &names[cut], cut, which, &held);
  for (size_t i = 0; holding && i < 2 * br__advice_count; i++)
    br__text_clear (&holding[i]);
  br__free (holding);
  for (int i = 0; i < 2 * KINDS; i++)
    br__text_clear (&names[i / KINDS].small[i % KINDS]);
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, 0);
}
