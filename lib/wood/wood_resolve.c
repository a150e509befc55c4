/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood_resolve.c - works stocks and parts out, and finds each part its stock.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "wood/wood.h"
#include "formula/words.h"
#include "plan/cut.h"

static const char *const size_names[] = { "thickness", "width", "length" };

void
br__piece_clear (br__piece *p)
{
  for (int i = 0; i < BR__SIZES; i++)
    {
      br_number_clear (&p->size[i].value);
      br_number_clear (&p->size[i].mark);
      br_real_clear (&p->size[i].over);
    }
  br__text_clear (&p->problem);
  memset (p, 0, sizeof *p);
}

void
br__wood_list_clear (br__wood_list *list)
{
  for (size_t i = 0; i < list->stock_count; i++)
    br__piece_clear (&list->stocks[i]);
  for (size_t i = 0; i < list->part_count; i++)
    br__piece_clear (&list->parts[i]);
  br__free (list->stocks);
  br__free (list->parts);
  memset (list, 0, sizeof *list);
}

br_status
br__put_length (br_text *t, const br_number *inches, const br__settings *s)
{
  br_style style = br__settings_style (s);
  br__put_measure (t, inches, BR_LENGTH, &style);
  return t->failed ? BR_NO_MEMORY : BR_OK;
}

/* ---- One piece ---- */

/* Evaluates TREE; what is wrong goes into the problem of P.  *KNOWN is 0 then.  */
static br_status
work_out (br__value *v, int *known, br__piece *p, br__run *run, const br__tree *tree)
{
  br_error *kept = run->error, mistake;
  memset (&mistake, 0, sizeof mistake);
  run->error = &mistake;
  br_status status = br__value_of (v, run, tree);
  run->error = kept;
  *known = status == BR_OK;
  if (status == BR_NO_MEMORY)
    return br__fail_plain (run->error, status, 0, 0);
  if (status != BR_OK && !p->problem.length)
    {
      br__text_puts (&p->problem, mistake.message);
      p->waits = 1;
    }
  return BR_OK;
}

/* The size V, and the mark that it is cut to.  */
static br_status
settle (br__sized *z, br__value *v, const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br_real on_ruler = BR_REAL_ZERO;
  br_status status = br__settings_mark (&mark, s);
  if (status == BR_OK)
    status = br__round_value (&rounded, v, &mark, BR_NEAREST, s, NULL);
  if (status == BR_OK)
    status = br_number_set (&z->mark, &rounded.value);
  if (status == BR_OK)
    status = br_real_set_number (&on_ruler, &rounded.value);
  if (status == BR_OK)
    status = br_real_sub (&z->over, &on_ruler, &v->real);
  const br_number *q = br_real_rational (&v->real);
  if (status == BR_OK)
    status = br_number_set (&z->value, q ? q : &z->mark);
  br_real_clear (&on_ruler);
  br__rounded_clear (&rounded);
  br_number_clear (&mark.size);
  return status;
}

/* The same for a value that Z has already.  */
static br_status
settle_number (br__sized *z, const br__settings *s)
{
  br__value v = { .dimension = BR_LENGTH };
  br_status status = br_real_set_number (&v.real, &z->value);
  if (status == BR_OK)
    status = settle (z, &v, s);
  br__value_clear (&v);
  return status;
}

/* Z has the size FROM of the stock: there is nothing to cut.  */
static br_status
take_whole (br__sized *z, const br__sized *from)
{
  br_status status = br_number_set (&z->value, &from->value);
  if (status == BR_OK)
    status = br_number_set (&z->mark, &from->value);
  br_real_clear (&z->over);
  z->known = from->known;
  return status;
}

static br_status
work_size (br__piece *p, br__run *run, int which)
{
  const br__settings *s = &run->sheet->settings;
  br__value v = BR__VALUE_ZERO;
  br__sized *z = &p->size[which];
  br_status status = work_out (&v, &z->known, p, run, &p->wood->size[which]);

  z->plain = v.dimension == BR_PLAIN;
  if (status == BR_OK && z->known && z->plain)
    status = br__to_length (&v, s);
  if (status == BR_OK && z->known && v.dimension != BR_LENGTH)
    {
      z->known = 0;
      br__text_printf (&p->problem, "the %s of `%s` is %s, not a length", size_names[which],
                       p->wood->name, br__dimension_words (v.dimension));
    }
  if (status == BR_OK && z->known)
    status = settle (z, &v, s);
  if (status == BR_OK && z->known && br_number_sign (&z->value) <= 0)
    {
      z->known = 0;
      if (!p->problem.length)
        br__text_printf (&p->problem, "the %s of `%s` is not over zero", size_names[which],
                         p->wood->name);
    }
  br__value_clear (&v);
  return status == BR_OK || status == BR_NO_MEMORY ? status
         : br__fail_plain (run->error, status, 0, 0);
}

static br_status
work_quantity (br__piece *p, br__run *run)
{
  const br__tree *tree = &p->wood->quantity;
  br__value v = BR__VALUE_ZERO;
  int known = 0;
  int64_t n, d;
  p->quantity = p->wood->stock ? -1 : 1;
  if (!tree->count)
    return BR_OK;
  br_status status = work_out (&v, &known, p, run, tree);
  if (status == BR_OK && known)
    {
      const br_number *q = br_real_rational (&v.real);
      if (!q || v.dimension != BR_PLAIN || !br_number_is_integer (q) || br_number_sign (q) <= 0)
        br__text_printf (&p->problem, "the quantity of `%s` is no whole number of one or more",
                         p->wood->name);
      else if (!br_number_get_ratio (&n, &d, q) || n > BR__CUT_MAX_PIECES)
        br__text_printf (&p->problem, "more than %d of `%s` are too many to plan", BR__CUT_MAX_PIECES,
                         p->wood->name);
      else
        p->quantity = n;
    }
  br__value_clear (&v);
  return status;
}

/* The actual sizes of what is sold by a nominal one.  */
static br_status
work_nominal (br__piece *p, const br__settings *s)
{
  br_status status;
  const br__wood *w = p->wood;
  br__sized *t = &p->size[BR__THICKNESS];
  if (w->nominal == BR__LUMBER)
    {
      t->known = p->size[BR__WIDTH].known = 1;
      status = br__nominal_lumber (&t->value, &p->size[BR__WIDTH].value, w->lumber[0], w->lumber[1]);
      if (status == BR_OK)
        status = settle_number (t, s);
      return status == BR_OK ? settle_number (&p->size[BR__WIDTH], s) : status;
    }
  if (w->nominal == BR__ACTUAL || !t->known)
    return BR_OK;
  status = br__nominal_thickness (&t->value, w->nominal, &t->value);
  if (status == BR_OK)
    status = settle_number (t, s);
  if (status != BR_DOMAIN)
    return status;
  t->known = 0;
  br__text_printf (&p->problem, "%s is sold as %s", w->nominal == BR__PLYWOOD ? "plywood" : "hardwood",
                   br__nominal_list (w->nominal));
  return BR_OK;
}

br_status
br__wood_work_out (br__piece *p, br__run *run, const br__wood *w)
{
  br_status status = BR_OK;
  p->wood = w;
  p->stock = SIZE_MAX;
  for (int i = BR__SIZES; i-- > 0 && status == BR_OK; )
    if (w->size[i].count)
      status = work_size (p, run, i);
  if (status == BR_OK)
    status = work_quantity (p, run);
  if (status == BR_OK)
    status = work_nominal (p, &run->sheet->settings);
  return status == BR_OK && p->problem.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : status;
}

/* ---- A part and its stock ---- */

/* Adds "`pine` is 1/8" over": how SIZE of a stock misses WANTED.  */
static br_status
put_miss (br_text *t, const br__piece *stock, int which, const br_number *wanted, const br__settings *s)
{
  br_number by = BR_NUMBER_ZERO;
  br_status status = br_number_sub (&by, &stock->size[which].value, wanted);
  int over = br_number_sign (&by) > 0;
  if (status == BR_OK)
    status = br_number_abs (&by, &by);
  if (status == BR_OK)
    {
      br__text_printf (t, "`%s` is ", stock->wood->name);
      status = br__put_length (t, &by, s);
      br__text_puts (t, over ? " over" : " under");
    }
  br_number_clear (&by);
  return status;
}

static int
same (const br__sized *x, const br__sized *y)
{
  return x->known && y->known && br_number_equal (&x->value, &y->value);
}

/* 1 if X, as cut, is at most ROOM.  If X uses the whole ROOM it is not cut.  */
static int
within (const br__sized *x, const br__sized *room)
{
  return br_number_cmp (&x->mark, &room->value) <= 0 || same (x, room);
}

/* 1 if P fits into STOCK one way or, if it may be turned, the other.  */
static int
goes_in (const br__piece *p, const br__piece *stock)
{
  const br__sized *l = &p->size[BR__LENGTH_OF], *w = &p->size[BR__WIDTH];
  const br__sized *room = &stock->size[BR__LENGTH_OF], *side = &stock->size[BR__WIDTH];
  if (stock->wood->round || !p->size[BR__WIDTH].known)
    return within (l, room);
  return (within (l, room) && within (w, side)) || (p->wood->turn && within (w, room) && within (l, side));
}

/* The first stock of this thickness that the part goes into; else one of this thickness; else
   SIZE_MAX.  */
static size_t
by_thickness (const br__piece *p, const br__wood_list *list)
{
  size_t found = SIZE_MAX;
  for (size_t i = 0; i < list->stock_count; i++)
    {
      const br__piece *stock = &list->stocks[i];
      if (stock->problem.length || stock->wood->round
          || !same (&stock->size[BR__THICKNESS], &p->size[BR__THICKNESS]))
        continue;
      if (goes_in (p, stock))
        return i;
      if (found == SIZE_MAX)
        found = i;
    }
  return found;
}

static br_status
tell_misses (br__piece *p, const br__wood_list *list, const br__settings *s)
{
  br_status status;
  size_t told = 0;
  br__text_puts (&p->problem, "no stock is ");
  status = br__put_length (&p->problem, &p->size[BR__THICKNESS].value, s);
  br__text_puts (&p->problem, " thick");
  for (size_t i = 0; i < list->stock_count && status == BR_OK; i++)
    if (!list->stocks[i].wood->round && list->stocks[i].size[BR__THICKNESS].known)
      {
        br__text_puts (&p->problem, told++ ? ", " : ": ");
        status = put_miss (&p->problem, &list->stocks[i], BR__THICKNESS,
                           &p->size[BR__THICKNESS].value, s);
      }
  return status;
}

/* A part that names no stock.  */
static br_status
find_stock (br__piece *p, const br__wood_list *list, const br__settings *s)
{
  size_t only = SIZE_MAX, count = 0;
  if (p->wood->size[BR__THICKNESS].count)
    {
      p->stock = by_thickness (p, list);
      return p->stock == SIZE_MAX ? tell_misses (p, list, s) : BR_OK;
    }
  for (size_t i = 0; i < list->stock_count; i++)
    if (!list->stocks[i].problem.length && !(list->stocks[i].wood->round && p->size[BR__WIDTH].known))
      only = i, count++;
  if (count == 1)
    p->stock = only;
  else if (count == 0)
    br__text_puts (&p->problem, "there is no stock for it");
  else
    br__text_puts (&p->problem, "say `from` which stock, or how thick it is");
  return BR_OK;
}

static br_status
named_stock (br__piece *p, const br__wood_list *list)
{
  br__search near;
  for (size_t i = 0; i < list->stock_count; i++)
    if (strcmp (list->stocks[i].wood->name, p->wood->from) == 0)
      {
        p->stock = i;
        return BR_OK;
      }
  br__search_start (&near, p->wood->from, strlen (p->wood->from));
  for (size_t i = 0; i < list->stock_count; i++)
    br__search_offer (&near, list->stocks[i].wood->name);
  br__text_printf (&p->problem, "there is no stock called `%s`", p->wood->from);
  if (near.best)
    br__text_printf (&p->problem, "; did you mean `%s`?", near.best);
  return BR_OK;
}

/* The sizes that the part has from its stock, and those that must be the stock's.  */
static br_status
match (br__piece *p, const br__piece *stock, const br__settings *s)
{
  int round = stock->wood->round;
  br_status status = BR_OK;
  /* The second size of a part of a dowel is its diameter.  */
  int which = round && p->size[BR__WIDTH].known ? BR__WIDTH : BR__THICKNESS;
  br__sized *own = &p->size[which];
  if (!own->known)
    status = take_whole (own, &stock->size[BR__THICKNESS]);
  else if (!same (own, &stock->size[BR__THICKNESS]))
    {
      status = put_miss (&p->problem, stock, BR__THICKNESS, &own->value, s);
      br__text_puts (&p->problem, round ? " across" : " in thickness");
    }
  if (status == BR_OK && round && which == BR__WIDTH)
    status = take_whole (&p->size[BR__THICKNESS], own);
  br__sized *width = &p->size[BR__WIDTH], *length = &p->size[BR__LENGTH_OF];
  const br__sized *across = &stock->size[round ? BR__THICKNESS : BR__WIDTH];
  if (status == BR_OK && (!width->known || same (width, across)))
    status = take_whole (width, across);
  if (status == BR_OK && same (length, &stock->size[BR__LENGTH_OF]))
    status = take_whole (length, &stock->size[BR__LENGTH_OF]);
  return status;
}

/* Adds why P does not go into STOCK: "it is 3" longer than `pine`".  */
static br_status
put_too_large (br__piece *p, const br__piece *stock, const br__settings *s)
{
  static const struct { int which; const char *words; } sides[] =
    { { BR__LENGTH_OF, "longer" }, { BR__WIDTH, "wider" } };
  br_number by = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  for (size_t i = 0; i < (stock->wood->round ? 1 : 2) && status == BR_OK; i++)
    {
      status = br_number_sub (&by, &p->size[sides[i].which].mark, &stock->size[sides[i].which].value);
      if (status != BR_OK || br_number_sign (&by) <= 0)
        continue;
      br__text_puts (&p->problem, p->problem.length ? ", and " : "it is ");
      status = br__put_length (&p->problem, &by, s);
      br__text_printf (&p->problem, " %s than `%s`%s", sides[i].words, stock->wood->name,
                       br_number_cmp (&p->size[sides[i].which].value, &stock->size[sides[i].which].value) <= 0
                       ? " at its mark on the ruler" : "");
    }
  br_number_clear (&by);
  return status;
}

static br_status
place_part (br__piece *p, const br__wood_list *list, const br__settings *s)
{
  br_status status;
  if (p->problem.length)
    return BR_OK;
  status = p->wood->from ? named_stock (p, list) : find_stock (p, list, s);
  if (status != BR_OK || p->stock == SIZE_MAX)
    return status;
  const br__piece *stock = &list->stocks[p->stock];
  if (stock->problem.length)
    {
      br__text_printf (&p->problem, "stock `%s`: %s", stock->wood->name,
                       br__text_string (&stock->problem));
      return BR_OK;
    }
  status = match (p, stock, s);
  for (int i = BR__WIDTH; i <= BR__LENGTH_OF && status == BR_OK && !p->problem.length; i++)
    if (p->size[i].known && br_number_sign (&p->size[i].mark) == 0)
      br__text_printf (&p->problem, "its %s is under half a mark of the ruler", size_names[i]);
  if (status == BR_OK && !p->problem.length && !goes_in (p, stock))
    status = put_too_large (p, stock, s);
  return status;
}

br_status
br__wood_resolve (br__wood_list *list, br__run *run)
{
  size_t stocks = 0, parts = 0;
  br_status status = BR_OK;
  for (br__wood *w = run->sheet->wood; w; w = w->next)
    if (w->active)
      stocks += w->stock != 0, parts += w->stock == 0;
  list->stocks = br__alloc_zero (stocks, sizeof *list->stocks);
  list->parts = br__alloc_zero (parts, sizeof *list->parts);
  if (!list->stocks || !list->parts)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  for (br__wood *w = run->sheet->wood; w && status == BR_OK; w = w->next)
    if (w->active)
      status = br__wood_work_out (w->stock ? &list->stocks[list->stock_count++]
                                           : &list->parts[list->part_count++], run, w);
  for (size_t i = 0; i < list->part_count && status == BR_OK; i++)
    {
      status = place_part (&list->parts[i], list, &run->sheet->settings);
      if (status == BR_OK && list->parts[i].problem.failed)
        status = BR_NO_MEMORY;
      if (status != BR_OK)
        br__fail_plain (run->error, status, 0, 0);
    }
  return status;
}
