/* SPDX-License-Identifier: LGPL-3.0-or-later
   wood_show.c - stock and parts as records: what was kept, the list of parts, what a class needs.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "wood/cuts.h"

/* The keys of a size, in the order of BR__THICKNESS, BR__WIDTH, BR__LENGTH_OF.  */
static const struct { const char *exact, *shown, *mark, *error, *from; } keys[] =
{
  { "thickness", "thickness_shown", "thickness_mark", "thickness_error", "thickness_from" },
  { "width", "width_shown", "width_mark", "width_error", "width_from" },
  { "length", "length_shown", "length_mark", "length_error", "length_from" }
};

/* A number borrowed as a length for the time of a call.  */
static br__value
as_length (const br_number *inches)
{
  br__value v = { .real = { *inches, NULL }, .dimension = BR_LENGTH };
  return v;
}

br_status
br__put_sheet_exact (br_record *r, const char *key, const br_number *inches, const br__settings *s)
{
  br__value v = as_length (inches);
  br_real z = BR_REAL_ZERO;
  br_status status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK)
    br__put_exact (r, key, br_real_rational (&z));
  br_real_clear (&z);
  return status;
}

br_status
br__mark_of (br_number *value, br__mark *mark, const br_number *inches, br_direction direction,
             const br__settings *s)
{
  br__rounded rounded = BR__ROUNDED_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_status status = br__settings_mark (mark, s);
  v.dimension = BR_LENGTH;
  if (status == BR_OK)
    status = br_real_set_number (&v.real, inches);
  if (status == BR_OK)
    status = br__round_value (&rounded, &v, mark, direction, s, NULL);
  if (status == BR_OK)
    br_number_swap (value, &rounded.value);
  br__value_clear (&v);
  br__rounded_clear (&rounded);
  return status;
}

br_status
br__put_ruler_mark (br_text *t, const br_number *inches, br_direction direction, const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  br_number value = BR_NUMBER_ZERO;
  br_status status = br__mark_of (&value, &mark, inches, direction, s);
  if (status == BR_OK)
    br__put_mark_text (t, &value, BR_LENGTH, &mark, s);
  br_number_clear (&value);
  br_number_clear (&mark.size);
  return status;
}

br_status
br__put_cut (br_text *t, const br_number *inches, const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  br_number value = BR_NUMBER_ZERO;
  br_status status = br__mark_of (&value, &mark, inches, BR_NEAREST, s);
  if (status == BR_OK && !br_number_equal (&value, inches))
    status = br__put_length (t, inches, s);
  else if (status == BR_OK)
    br__put_mark_text (t, &value, BR_LENGTH, &mark, s);
  br_number_clear (&value);
  br_number_clear (&mark.size);
  return status;
}

/* How far the mark of Z is over: an exact number, or the digits of one that no fraction says.  */
static br_status
put_over (br_record *r, const char *key, const br__sized *z, const br__settings *s)
{
  const br_number *q = br_real_rational (&z->over);
  br__value v = { .real = z->over, .dimension = BR_LENGTH };    /* borrowed */
  br_real in_unit = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  if (q)
    return br__put_sheet_exact (r, key, q, s);
  br_status status = br__in_sheet_unit (&in_unit, &v, s);
  if (status == BR_OK)
    status = br__put_real_decimal (&t, NULL, &in_unit, 4, s->bits);
  if (status == BR_UNDECIDED)
    br__put_null (r, key);
  else
    br__put_from (r, key, &t);
  br__text_clear (&t);
  br_real_clear (&in_unit);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* The fields of one size.  */
static br_status
put_size (br_record *r, int which, const br__piece *p, const br__settings *s)
{
  const br__sized *z = &p->size[which];
  br_text t = BR_TEXT_ZERO;
  br_status status = BR_OK;
  if (!z->known)
    br__put_null (r, keys[which].exact);
  else
    status = br__put_sheet_exact (r, keys[which].exact, &z->value, s);
  if (z->known && status == BR_OK)
    status = br__put_length (&t, &z->value, s);
  if (z->known && status == BR_OK)
    {
      br__put_from (r, keys[which].shown, &t);
      status = br__put_cut (&t, &z->mark, s);
    }
  if (z->known && status == BR_OK)
    {
      br__put_from (r, keys[which].mark, &t);
      status = put_over (r, keys[which].error, z, s);
    }
  if (p->wood->size[which].count)
    br__put_bytes (r, keys[which].from, p->wood->size[which].text, p->wood->size[which].length);
  else
    br__put_null (r, keys[which].from);
  br__text_clear (&t);
  return status;
}

br_status
br__put_wood_size (br_text *t, const br__piece *p, int cut, const br__settings *s)
{
  static const int part_order[] = { BR__LENGTH_OF, BR__WIDTH, BR__THICKNESS };
  br_status status = BR_OK;
  if (p->wood->round)
    br__text_puts (t, "round ");
  for (int i = 0, n = 0; i < BR__SIZES && status == BR_OK; i++)
    {
      int which = p->wood->stock ? i : part_order[i];
      if (!p->size[which].known)
        continue;
      br__text_puts (t, n++ ? " x " : "");
      if (cut && which != BR__THICKNESS)
        status = br__put_cut (t, &p->size[which].mark, s);
      else
        status = br__put_length (t, &p->size[which].value, s);
    }
  return status;
}

static br_status
put_shown (br_record *r, const br__piece *p, int cut, const br__settings *s)
{
  br_text t = BR_TEXT_ZERO;
  br_status status = br__put_wood_size (&t, p, cut, s);
  br__put_from (r, "shown", &t);
  return status;
}

/* What stocks and parts have in common.  */
static br_status
put_piece (br_record *r, const char *name_key, const br__piece *p, const br__settings *s)
{
  br_status status = BR_OK;
  br__put_text (r, name_key, p->wood->name);
  if (p->quantity < 0)
    br__put_null (r, "quantity");
  else
    br__put_count (r, "quantity", p->quantity);
  status = put_shown (r, p, 0, s);
  for (int i = BR__SIZES; i-- > 0 && status == BR_OK; )
    status = put_size (r, i, p, s);
  br__put_copy (r, "problem", &p->problem);
  br__put_text (r, "note", p->wood->note);
  return status;
}

br_status
br__wood_show (br__run *run, const br__piece *p)
{
  br_record *r = br__record_new (p->wood->stock ? "stock" : "part");
  br_status status = put_piece (r, "name", p, &run->sheet->settings);
  if (p->wood->stock)
    {
      br_text t = BR_TEXT_ZERO;
      if (p->wood->nominal == BR__LUMBER)
        br__text_printf (&t, "%dx%d", (int) p->wood->lumber[0], (int) p->wood->lumber[1]);
      else if (p->wood->nominal != BR__ACTUAL)
        br__text_printf (&t, "%s %s", p->wood->nominal == BR__PLYWOOD ? "plywood" : "hardwood",
                         p->wood->size[BR__THICKNESS].text);
      br__put_copy (r, "nominal", &t);
      br__text_clear (&t);
      br__put_text (r, "source", br__nominal_source (p->wood->nominal));
    }
  else if (p->wood->from)
    br__put_text (r, "stock", p->wood->from);
  else
    br__put_null (r, "stock");
  return br__emit_or_fail (run, r, status, 0, run->end);
}

br_status
br__stock_list (br__run *run)
{
  br__wood_list list = { 0 };
  br_status status = br__wood_resolve (&list, run);
  for (size_t i = 0; i < list.stock_count && status == BR_OK; i++)
    status = br__wood_show (run, &list.stocks[i]);
  if (status == BR_OK && !list.stock_count)
    status = br__remark (run, "no stock has been given yet: stock pine = 3/4 x 5-1/2 x 48 qty 3");
  br__wood_list_clear (&list);
  return status;
}

/* ---- parts ---- */

br_status
br__need_parts (br__run *run, const br__wood_list *list)
{
  if (list->part_count)
    return BR_OK;
  br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "no part has been given yet");
  br__hint (run->error, "write: part side = 11-3/16 x 5-1/2 qty 2 from pine");
  return BR_DOMAIN;
}

br_status
br__do_parts (br__run *run)
{
  br__wood_list list = { 0 };
  br_record *r = NULL;
  br_status status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__wood_resolve (&list, run);
  if (status == BR_OK)
    status = br__need_parts (run, &list);
  if (status == BR_OK)
    {
      r = br__record_new ("parts");
      br_list *rows = br__put_list (r, "rows");
      for (size_t i = 0; i < list.part_count && status == BR_OK; i++)
        {
          const br__piece *p = &list.parts[i];
          br_record *row = br__list_record (rows);
          status = put_piece (row, "part", p, &run->sheet->settings);
          if (p->stock == SIZE_MAX)
            br__put_null (row, "stock");
          else
            br__put_text (row, "stock", list.stocks[p->stock].wood->name);
        }
      if (status == BR_OK)
        status = br__emit (run, r);
      else
        {
          br__record_free (r);
          br__fail_plain (run->error, status, 0, run->end);
        }
    }
  if (status == BR_OK)
    status = br__wood_cautions (run, &list, BR__WOOD_EACH);
  if (status == BR_OK)
    status = br__wood_depths (run, &list);
  br__wood_list_clear (&list);
  return status;
}

/* ---- order ---- */

/* Parses an expression whose value is a whole number from LOW to HIGH.  */
br_status
br__read_count (br__run *run, int64_t *count, int64_t low, int64_t high, const char *what)
{
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  int64_t n = 0, d = 1;
  br_status status = br__parse_size (&tree, &run->lex, run->error);
  if (status == BR_OK)
    status = br__value_of (&v, run, &tree);
  if (status == BR_OK)
    {
      const br_number *q = br_real_rational (&v.real);
      if (!q || v.dimension != BR_PLAIN || !br_number_get_ratio (&n, &d, q) || d != 1 || n < low || n > high)
        status = br__fail (run->error, BR_DOMAIN, tree.base, tree.length,
                           "%s is a whole number from %d to %d", what, (int) low, (int) high);
      else
        *count = n;
    }
  br__tree_clear (&tree);
  br__value_clear (&v);
  return br__lex_fail (&run->lex, status);
}

/* Every part times CLASS and the spare, rounded up to whole ones.  */
static br_status
multiply (br__run *run, br__wood_list *list, int64_t class, int64_t spare)
{
  for (size_t i = 0; i < list->part_count; i++)
    {
      int64_t each = list->parts[i].quantity * class;
      if (each > INT64_MAX / 1000 || (each = (each * (100 + spare) + 99) / 100) > BR__CUT_MAX_PIECES)
        return br__fail (run->error, BR_TOO_BIG, run->word.offset, run->end - run->word.offset,
                         "more than %d of `%.*s` are too many to plan", BR__CUT_MAX_PIECES,
                         BR__CLIP (list->parts[i].wood->name, 60));
      list->parts[i].quantity = each;
    }
  /* Plan with unlimited stock: the result is what to buy.  */
  for (size_t i = 0; i < list->stock_count; i++)
    list->stocks[i].quantity = -1;
  return BR_OK;
}

static br_status
emit_order (br__run *run, const br__wood_list *list, const br__plans *plans, int64_t class, int64_t spare)
{
  const br__settings *s = &run->sheet->settings;
  br_record *r = br__record_new ("order");
  br_status status = BR_OK;
  br__put_count (r, "class", class);
  br__put_count (r, "spare", spare);
  br_list *rows = br__put_list (r, "stocks");
  for (size_t i = 0; i < list->stock_count && status == BR_OK; i++)
    {
      br_record *row = NULL;
      if (!plans->rows[i].needed)
        continue;
      row = br__list_record (rows);
      br__put_text (row, "stock", list->stocks[i].wood->name);
      br__put_count (row, "quantity", plans->rows[i].needed);
      br__put_count (row, "least", plans->rows[i].least);
      status = put_shown (row, &list->stocks[i], 0, s);
    }
  rows = br__put_list (r, "parts");
  for (size_t i = 0; i < list->part_count && status == BR_OK; i++)
    {
      br_record *row = br__list_record (rows);
      br__put_text (row, "part", list->parts[i].wood->name);
      br__put_count (row, "quantity", list->parts[i].quantity);
      status = put_shown (row, &list->parts[i], !list->parts[i].problem.length, s);
      br__put_copy (row, "problem", &list->parts[i].problem);
    }
  return br__emit_or_fail (run, r, status, 0, run->end);
}

/* A class may be named before its size: `order class 24`, `order grade7 24`.  */
static br_status
skip_class_name (br__run *run)
{
  br__lexer ahead = run->lex;
  if (ahead.token.type != BR__NAME || br__lex_is_word (&ahead, "spare") || br__lex_next (&ahead, NULL) != BR_OK
      || (ahead.token.type != BR__NUMBER && ahead.token.type != BR__NAME)
      || br__lex_is_word (&ahead, "spare"))
    return BR_OK;
  return br__lex_next (&run->lex, run->error);
}

br_status
br__do_order (br__run *run)
{
  br__wood_list list = { 0 };
  br__plans plans = { 0 };
  int64_t class = 1, spare = 0;
  br_status status = skip_class_name (run);
  if (status == BR_OK && run->lex.token.type != BR__END && !br__lex_is_word (&run->lex, "spare"))
    status = br__read_count (run, &class, 1, 10000, "the size of a class");
  if (status == BR_OK && br__lex_is_word (&run->lex, "spare"))
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__read_count (run, &spare, 0, 100, "the spare per cent");
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__wood_resolve (&list, run);
  if (status == BR_OK)
    status = br__need_parts (run, &list);
  if (status == BR_OK)
    status = multiply (run, &list, class, spare);
  if (status == BR_OK)
    status = br__plan_all (&plans, run, &list, NULL, BR__PLAN_MILLISECONDS);
  if (status == BR_OK)
    status = emit_order (run, &list, &plans, class, spare);
  br__plans_clear (&plans);
  br__wood_list_clear (&list);
  return status;
}
