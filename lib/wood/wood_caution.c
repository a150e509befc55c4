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
#include "wood/wood.h"
#include "shop/caution.h"

/* The machines that parts are cut at; what they are shaped at later is no matter of a list.  */
static int
is_saw (const br__advice *a)
{
  static const char *const machines[] = { "any machine", "table saw", "band saw", "miter saw" };
  for (size_t i = 0; i < sizeof machines / sizeof machines[0]; i++)
    if (strcmp (a->machine, machines[i]) == 0)
      return 1;
  return 0;
}

/* Names of parts that are small, that may be, and that have short grain.  */
enum { SMALL, MAY_BE_SMALL, SHORT_GRAIN, KINDS };

static br_status
add_name (br_text *names, const char *name)
{
  br__text_puts (names, names->length ? ", " : "");
  br__text_puts (names, name);
  return names->failed ? BR_NO_MEMORY : BR_OK;
}

static br_status
emit (br__run *run, br_text *names, const char *message, const char *source, const char *scope, int all)
{
  br_text t = BR_TEXT_ZERO;
  const char *tail = strstr (message, "; " BR__TEACHER_FIRST), *brief = message;
  /* One of the small parts has a number, and is long.  */
  if (scope)
    {
      brief = "16 CFR 1501.4: small enough for a child under 3 years to choke on";
      tail = NULL;
    }
  br_record *r = br__record_new ("caution");
  br__text_printf (&t, "%s: %s", br__text_string (names), message);
  br__put_from (r, "message", &t);
  br__put_text (r, "source", source);
  if (scope)
    br__put_text (r, "scope", scope);
  br__put_copy (r, "parts", names);
  if (!all)
    br__put_bytes (r, "brief", brief, tail ? (size_t) (tail - message) : strlen (brief));
  br__list_names (br__put_list (r, "concerns"), br__text_string (names));
  return br__emit (run, r);
}

/* Adds the name of P to the advice that it touches.  */
static br_status
hold (br_text *names, const br__piece *p, const br_real *sizes, int round, unsigned bits)
{
  const br__advice **rows = br__alloc_zero (br__advice_count, sizeof *rows);
  size_t count = 0;
  if (!rows)
    return BR_NO_MEMORY;
  br_status status = br__workpiece_advice (rows, &count, &sizes[BR__LENGTH_OF],
                                           round ? NULL : &sizes[BR__WIDTH], NULL, bits);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    if (is_saw (rows[i]))
      status = add_name (&names[rows[i] - br__advices], p->wood->name);
  br__free (rows);
  return status;
}

static br_status
choke (br_text *names, const br__piece *p, const br_real *sizes, int round, unsigned bits)
{
  br_truth fits = BR_NO;
  br_status status = round ? br__small_disc_fits (&fits, &sizes[BR__THICKNESS], &sizes[BR__LENGTH_OF],
                                                  bits, NULL)
                           : br__small_box_fits (&fits, &sizes[BR__LENGTH_OF], &sizes[BR__WIDTH],
                                                 &sizes[BR__THICKNESS], bits, NULL);
  if (status == BR_OK && fits != BR_NO)
    status = add_name (&names[fits == BR_YES ? SMALL : MAY_BE_SMALL], p->wood->name);
  return status;
}

/* Wood with less than 1/2 in along the grain and more across splits (common practice, no source); plywood has its grain both
   ways, and what may lie across can be turned.  */
static int
is_short_grained (const br__piece *p, const br__wood *stock)
{
  static const br_number narrow = { 1, 1 };     /* 1/2 */
  return p->size[BR__LENGTH_OF].known && p->size[BR__WIDTH].known && !p->wood->turn
         && !(stock && (stock->round || stock->nominal == BR__PLYWOOD))
         && br_number_cmp (&p->size[BR__LENGTH_OF].value, &narrow) < 0 && br_number_cmp (&p->size[BR__WIDTH].value, &narrow) >= 0;
}

static br_status
look_at (br_text *holding, br_text *small, const br__wood_list *list, unsigned bits)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < list->part_count && status == BR_OK; i++)
    {
      const br__piece *p = &list->parts[i];
      br_real sizes[BR__SIZES] = { BR_REAL_ZERO, BR_REAL_ZERO, BR_REAL_ZERO };
      int round = p->stock != SIZE_MAX && list->stocks[p->stock].wood->round;
      if (is_short_grained (p, p->stock != SIZE_MAX ? list->stocks[p->stock].wood : NULL))
        status = add_name (&small[SHORT_GRAIN], p->wood->name);
      if (status != BR_OK || !p->size[BR__LENGTH_OF].known || !p->size[BR__WIDTH].known || !p->size[BR__THICKNESS].known)
        continue;
      for (int k = 0; k < BR__SIZES; k++)
        sizes[k].rational = p->size[k].value;   /* borrowed */
      /* What no stock is there for is not cut, but as small.  */
      if (!p->problem.length)
        status = hold (holding, p, sizes, round, bits);
      if (status == BR_OK)
        status = choke (small, p, sizes, round, bits);
    }
  return status;
}

br_status
br__wood_cautions (br__run *run, const br__wood_list *list, br__wood_which which)
{
  const br__settings *s = &run->sheet->settings;
  br__child child = br__child_of (s);
  br_text *holding = br__alloc_zero (br__advice_count, sizeof *holding), small[KINDS] = { BR_TEXT_ZERO, BR_TEXT_ZERO, BR_TEXT_ZERO };
  br_status status = holding ? look_at (holding, small, list, s->bits) : BR_NO_MEMORY;
  for (size_t i = 0; i < br__advice_count && status == BR_OK; i++)
    if (holding[i].length)
      {
        status = emit (run, &holding[i], br__advices[i].message, br__advices[i].source, NULL, which == BR__WOOD_FULL);
        if (which == BR__WOOD_FIRST)
          break;
      }
  if (status == BR_OK && small[SHORT_GRAIN].length)
    status = emit (run, &small[SHORT_GRAIN], "short grain: wood of less than 1/2 in along the grain splits easily; turn it on its board, its length the other way; "
                   BR__TEACHER_FIRST, "common practice, no source", NULL, which == BR__WOOD_FULL);
  for (int i = 0; i <= MAY_BE_SMALL && status == BR_OK; i++)
    {
      const br_caution *c = br__small_part_caution (i == SMALL ? BR_YES : BR_UNKNOWN, &child);
      if (small[i].length && c)
        status = emit (run, &small[i], c->text, c->source, c->scope, which == BR__WOOD_FULL);
    }
  for (size_t i = 0; holding && i < br__advice_count; i++)
    br__text_clear (&holding[i]);
  br__free (holding);
  for (int i = 0; i < KINDS; i++)
    br__text_clear (&small[i]);
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, 0, 0);
}
