/* SPDX-License-Identifier: LGPL-3.0-or-later
   round.c - the statements that put values on rulers: round, marks, simplest.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "statement/statements.h"
#include "wood/wood.h"
#include "measure/measure.h"
#include "formula/words.h"
#include "sheet/sheet.h"

static br_status
put_sheet_number (br_record *r, const char *key, const br_number *x, br_dimension dimension,
                  const br__settings *s)
{
  br__value v = { .real = { *x, NULL }, .dimension = dimension };    /* borrowed for the call */
  br_real z = BR_REAL_ZERO;
  br_status status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK)
    br__put_exact (r, key, br_real_rational (&z));
  br_real_clear (&z);
  return status;
}

/* Room for a list and its marks.  */
typedef struct totals
{
  br__value *parts;
  br_real *reals;       /* borrowed from PARTS */
  br_number *values;
  size_t count;
  const br__tree *trees;
  br_number total;      /* of the marks */
} totals;

static void
totals_clear (totals *t)
{
  for (size_t i = 0; i < t->count; i++)
    {
      if (t->parts)
        br__value_clear (&t->parts[i]);
      if (t->values)
        br_number_clear (&t->values[i]);
    }
  br_number_clear (&t->total);
  br__free (t->parts);
  br__free (t->reals);
  br__free (t->values);
}

/* The part that is furthest off its mark, the first of them, and its error.  */
static br_status
put_worst (br_record *r, const totals *t, const br__settings *s)
{
  br_real off = BR_REAL_ZERO, most = BR_REAL_ZERO, mark = BR_REAL_ZERO;
  br_record *error = br__record_new ("rounding");
  br_text text = BR_TEXT_ZERO;
  br_status status = BR_OK;
  size_t worst = 0;
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      int order = 1;
      status = br_real_set_number (&mark, &t->values[i]);
      if (status == BR_OK)
        status = br_real_sub (&off, &mark, &t->reals[i]);
      if (status == BR_OK)
        status = br_real_abs (&off, &off, s->bits);
      if (status == BR_OK && i > 0)
        status = br_real_cmp (&order, &off, &most, s->bits);
      if (status == BR_OK && order > 0)
        {
          worst = i;
          status = br_real_set (&most, &off);
        }
      /* Two that cannot be told apart: the first stays.  */
      if (status == BR_UNDECIDED)
        status = BR_OK;
    }
  if (status == BR_OK)
    status = br__put_error (error, &t->parts[worst], &t->values[worst], s);
  if (status == BR_OK && br__record_failed (error))
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    {
      br__put_tree (&text, &t->trees[worst]);
      br__put_from (r, "worst", &text);
      if (br_record_get (error, "error").type == BR_FIELD_TEXT)
        br__put_text (r, "worst_error", br_record_text (error, "error"));
      br__put_text (r, "worst_error_decimal", br_record_text (error, "error_decimal"));
    }
  br__record_free (error);
  br_real_clear (&off);
  br_real_clear (&most);
  br_real_clear (&mark);
  return status;
}

/* Adds the total of the list to R.  */
static br_status
put_total (br_record *r, const totals *t, const br__mark *mark, const br__settings *s)
{
  br__value sum = BR__VALUE_ZERO;
  br_text text = BR_TEXT_ZERO;
  br_status status = BR_OK;

  sum.dimension = t->parts[0].dimension;
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    status = br_real_add (&sum.real, &sum.real, &t->reals[i]);
  if (status == BR_OK)
    status = br__put_value (r, &sum, s);
  if (status == BR_OK)
    status = put_sheet_number (r, "value", &t->total, sum.dimension, s);
  if (status == BR_OK)
    {
      br__put_mark_text (&text, &t->total, sum.dimension, mark, s);
      br__put_from (r, "mark", &text);
      status = br__put_error (r, &sum, &t->total, s);
    }
  if (status == BR_OK)
    status = put_worst (r, t, s);
  br__value_clear (&sum);
  return status;
}

/* Answers a rounding record: X was rounded to ROUNDED on marks of SIZE.  NEAREST is its nearest mark if `keep total` moved
   it to another one, else NULL; T has the totals if X is the last of a list, else NULL.  */
static br_status
emit_rounding (br__run *run, const br__tree *tree, const br__value *x, const br__rounded *rounded,
               const br__mark *mark, const br_number *size, const br_number *nearest,
               const totals *t)
{
  const br__settings *s = &run->sheet->settings;
  br_record *r = br__record_new ("rounding");
  br_text text = BR_TEXT_ZERO;
  if (tree)
    br__put_expression (r, tree);
  br_status status = br__put_value (r, x, s);
  if (status == BR_OK)
    status = put_sheet_number (r, "value", &rounded->value, x->dimension, s);
  if (status == BR_OK)
    {
      br__put_mark_text (&text, &rounded->value, x->dimension, mark, s);
      br__put_from (r, "mark", &text);
      status = br__put_error (r, x, &rounded->value, s);
    }
  br__put_truth (r, "tie", rounded->tie);
  if (status == BR_OK)
    status = put_sheet_number (r, "ruler", size, x->dimension, s);
  if (status == BR_OK && rounded->sided)
    status = put_sheet_number (r, "below", &rounded->below, x->dimension, s);
  if (status == BR_OK && rounded->sided)
    status = put_sheet_number (r, "above", &rounded->above, x->dimension, s);
  if (run->note_length)
    br__put_bytes (r, "note", run->note, run->note_length);
  if (status == BR_OK && t)
    status = put_total (br__list_record (br__put_list (r, "totals")), t, mark, s);
  if (nearest)
    {
      br__put_mark_text (&text, nearest, x->dimension, mark, s);
      br__put_from (r, "nearest", &text);
    }
  return br__emit_or_fail (run, r, status, tree ? tree->base : 0, tree ? tree->length : 0);
}

static br_status
round_one (br__run *run, const br__tree *tree, const br__clauses *c, const totals *t)
{
  br__value x = BR__VALUE_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br_number size = BR_NUMBER_ZERO;
  const br__settings *s = &run->sheet->settings;
  br_status status = br__value_of (&x, run, tree);

  if (status == BR_OK)
    {
      status = br__round_value (&rounded, &x, &c->mark, c->direction, s, run->error);
      if (status == BR_UNDECIDED)
        br__fail_value (run->error, status, 0, 0, &x, s);
      if (status != BR_OK && run->error)
        run->error->offset = tree->base, run->error->length = tree->length;
    }
  if (status == BR_OK)
    {
      status = br__mark_size (&size, &c->mark, &x, s);
      if (status == BR_OK)
        status = emit_rounding (run, tree, &x, &rounded, &c->mark, &size, NULL, t);
    }
  br_number_clear (&size);
  br__rounded_clear (&rounded);
  br__value_clear (&x);
  return status;
}

/* The parts of the list in one dimension, and that of the marks.  */
static br_status
gather (br__run *run, totals *t, const br__tree *trees, const br__mark *mark)
{
  const br__settings *s = &run->sheet->settings;
  br_status status = BR_OK;
  size_t leader = 0;
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      status = br__value_of (&t->parts[i], run, &trees[i]);
      if (status == BR_OK && mark->length && t->parts[i].dimension == BR_PLAIN)
        status = br__to_length (&t->parts[i], s);
      if (t->parts[leader].dimension == BR_PLAIN)
        leader = i;
    }
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      status = i == leader ? BR_OK : br__unify (&t->parts[leader], &t->parts[i], s, run->error);
      if (status == BR_OK && t->parts[i].dimension != BR_PLAIN && t->parts[i].dimension != BR_LENGTH)
        status = br__fail (run->error, BR_DOMAIN, 0, 0, "%s has no mark on a ruler",
                           br__dimension_words (t->parts[i].dimension));
      if (status != BR_OK && run->error)
        run->error->offset = trees[i].base, run->error->length = trees[i].length;
    }
  for (size_t i = 0; i < t->count; i++)
    t->reals[i] = t->parts[i].real;
  return status;
}

/* Part I of T, which the total may have taken off its nearest mark.  */
static br_status
emit_kept (br__run *run, totals *t, size_t i, const br__mark *mark, const br_number *size)
{
  const br__settings *s = &run->sheet->settings;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br_number nearest = BR_NUMBER_ZERO;
  br_status status = br__round_value (&rounded, &t->parts[i], mark, BR_NEAREST, s, run->error);
  if (status == BR_OK)
    {
      br_number_swap (&rounded.value, &nearest);
      status = br_number_set (&rounded.value, &t->values[i]);
    }
  if (status == BR_OK)
    {
      /* Of a tie both marks are the nearest.  */
      int pushed = !rounded.tie && br_number_cmp (&rounded.value, &nearest) != 0;
      rounded.tie = 0;          /* the total decides, not the tie rule */
      status = emit_rounding (run, &t->trees[i], &t->parts[i], &rounded, mark, size, pushed ? &nearest : NULL, NULL);
    }
  br_number_clear (&nearest);
  br__rounded_clear (&rounded);
  return status;
}

/* The marks of the parts, each by itself or so that they keep the total, and their sum.  */
static br_status
choose_marks (br__run *run, totals *t, const br__clauses *c, const br_number *size)
{
  const br__settings *s = &run->sheet->settings;
  br_status status = BR_OK;
  if (c->keep_total)
    return br_ruler_keep_total (t->values, &t->total, t->reals, t->count, size, c->direction, s->ties, s->bits);
  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      br__rounded rounded = BR__ROUNDED_ZERO;
      status = br__round_value (&rounded, &t->parts[i], &c->mark, c->direction, s, NULL);
      if (status == BR_OK)
        br_number_swap (&t->values[i], &rounded.value);
      if (status == BR_OK)
        status = br_number_add (&t->total, &t->total, &t->values[i]);
      br__rounded_clear (&rounded);
    }
  return status;
}

static br_status
emit_total (br__run *run, const totals *t, const br__mark *mark)
{
  br_record *r = br__record_new ("total");
  br_status status = put_total (r, t, mark, &run->sheet->settings);
  return br__emit_or_fail (run, r, status, 0, run->end);
}

static br_status
round_list (br__run *run, const br__tree *trees, size_t count, const br__clauses *c)
{
  totals t = { br__alloc_zero (count, sizeof (br__value)), br__alloc_zero (count, sizeof (br_real)),
               br__alloc_zero (count, sizeof (br_number)), count, trees, BR_NUMBER_ZERO };
  br_number size = BR_NUMBER_ZERO;
  br_status status = BR_OK;

  for (size_t i = 0; i + 1 < count && status == BR_OK && !c->keep_total; i++)
    status = round_one (run, &trees[i], c, NULL);
  if (status == BR_OK && (!t.parts || !t.reals || !t.values))
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    status = gather (run, &t, trees, &c->mark);
  if (status == BR_OK)
    {
      status = br__mark_size (&size, &c->mark, &t.parts[0], &run->sheet->settings);
      if (status == BR_OK)
        status = choose_marks (run, &t, c, &size);
      size_t asked = 0;
      while (asked + 1 < count && !br_real_question (&t.reals[asked], NULL))
        asked++;
      if (status != BR_OK)
        br__fail_value (run->error, status, 0, run->end, &t.parts[asked], &run->sheet->settings);
    }
  if (status == BR_OK && !c->keep_total)
    status = round_one (run, &trees[count - 1], c, &t);
  for (size_t i = 0; i < count && status == BR_OK && c->keep_total; i++)
    status = emit_kept (run, &t, i, &c->mark, &size);
  if (status == BR_OK && c->keep_total)
    status = emit_total (run, &t, &c->mark);
  br_number_clear (&size);
  totals_clear (&t);
  return status;
}

/* `round up 3.26` and `round down 3.26`: a direction, not the function, which has brackets here.  */
static br_status
read_direction (br__run *run, br__clauses *c)
{
  int up = br__lex_is_word (&run->lex, "up");
  br__lexer ahead = run->lex;
  if ((!up && !br__lex_is_word (&run->lex, "down")) || br__lex_next (&ahead, NULL) != BR_OK
      || ahead.token.type == BR__END || br__lex_is_sign (&ahead, '(') || br__is_clause_word (&ahead))
    return BR_OK;
  c->direction = up ? BR_UP : BR_DOWN;
  c->directed = 1;
  return br__lex_next (&run->lex, run->error);
}

br_status
br__do_round (br__run *run)
{
  br__tree *trees = NULL;
  size_t count = 0;
  br__clauses c = { BR__MARK_ZERO, BR_NEAREST, 0, 0, 0 };
  br_status status = read_direction (run, &c);

  if (status == BR_OK)
    status = br__parse_list (&trees, &count, &run->lex, run->error);
  if (status == BR_OK)
    status = br__read_clauses (run, &c, NULL);
  if (status == BR_OK && c.at_hand && (c.directed || c.keep_total))
    status = br__fail (run->error, BR_SYNTAX, run->word.offset, run->end, "what is at hand is not rounded up or down, nor to a total");
  else if (status == BR_OK && c.at_hand)
    status = br__round_to_stock (run, trees, count, c.at_hand == 2);
  else if (status == BR_OK && (c.keep_total || count > 1))
    status = round_list (run, trees, count, &c);
  else if (status == BR_OK)
    status = round_one (run, &trees[0], &c, NULL);
  br_number_clear (&c.mark.size);
  br__trees_free (trees, count);
  return status;
}

/* One row of `marks`: the nearest mark on the ruler 1 / PARTS.  */
static br_status
put_row (br_list *rows, const br__value *x, int64_t parts, const br__settings *s)
{
  br__mark mark = BR__MARK_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_record *row = br__list_record (rows);
  br_status status = br_number_set_ratio (&mark.size, 1, parts);

  mark.length = x->dimension == BR_LENGTH;
  mark.unit = mark.length ? br_unit_find ("in", 2) : NULL;
  if (status == BR_OK)
    status = br__value_set (&v, x);
  if (status == BR_OK)
    status = br__round_value (&rounded, &v, &mark, BR_NEAREST, s, NULL);
  if (status == BR_OK)
    {
      br__put_exact (row, "ruler", &mark.size);
      status = put_sheet_number (row, "value", &rounded.value, v.dimension, s);
      br__put_mark_text (&t, &rounded.value, v.dimension, &mark, s);
      br__put_from (row, "mark", &t);
    }
  if (status == BR_OK)
    status = br__put_error (row, &v, &rounded.value, s);
  br__put_truth (row, "tie", rounded.tie);
  br_number_clear (&mark.size);
  br__rounded_clear (&rounded);
  br__value_clear (&v);
  return status;
}

static br_status
emit_marks (br__run *run, const br__tree *tree)
{
  const br__settings *s = &run->sheet->settings;
  br__value x = BR__VALUE_ZERO;
  br_record *r = NULL;
  br_status status = br__value_of (&x, run, tree);

  if (status == BR_OK && x.dimension != BR_PLAIN && x.dimension != BR_LENGTH)
    status = br__fail (run->error, BR_DOMAIN, tree->base, tree->length, "%s has no mark on a ruler",
                       br__dimension_words (x.dimension));
  /* These are inch rulers, so a plain number of another sheet is a length first.  */
  if (status == BR_OK && x.dimension == BR_PLAIN && strcmp (s->unit->name, "in") != 0)
    status = br__to_length (&x, s);
  if (status == BR_OK)
    {
      r = br__record_new ("marks");
      br__put_expression (r, tree);
      status = br__put_value (r, &x, s);
      br_list *rows = br__put_list (r, "rows");
      for (int64_t parts = 1; parts <= 64 && status == BR_OK; parts *= 2)
        status = put_row (rows, &x, parts, s);
      if (status != BR_OK)
        br__fail_value (run->error, status, tree->base, tree->length, &x, s);
    }
  br__value_clear (&x);
  return br__emit_or_free (run, r, status);
}

br_status
br__do_marks (br__run *run)
{
  return br__each_of_list (run, emit_marks);
}

static br_status
emit_simplest (br__run *run, const br__tree *tree, const br__tree *within_tree)
{
  const br__settings *s = &run->sheet->settings;
  br__value x = BR__VALUE_ZERO, within = BR__VALUE_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br__mark mark = BR__MARK_ZERO;
  const br_number *bound = NULL;
  br_status status = br__value_of (&x, run, tree);

  if (status == BR_OK)
    status = br__value_of (&within, run, within_tree);
  if (status == BR_OK)
    {
      status = br__unify (&x, &within, s, run->error);
      bound = br_real_rational (&within.real);
      if (status == BR_OK && (!bound || br_number_sign (bound) < 0))
        status = br__fail (run->error, BR_DOMAIN, 0, 0, "how far away must be a fraction of zero or more");
      if (status != BR_OK && run->error)
        run->error->offset = within_tree->base, run->error->length = within_tree->length;
    }
  if (status == BR_OK)
    {
      status = br_ruler_simplest (&rounded.value, &mark.size, &x.real, bound, s->bits);
      if (status == BR_DOMAIN)
        br__fail (run->error, status, within_tree->base, within_tree->length,
                  "no fraction of a binary ruler is that near");
      else if (status != BR_OK)
        br__fail_value (run->error, status, tree->base, tree->length, &x, s);
    }
  if (status == BR_OK)
    status = br__round_sides (&rounded, &x.real, &mark.size, s);
  mark.length = x.dimension == BR_LENGTH;
  mark.unit = mark.length ? br_unit_find ("in", 2) : NULL;
  if (status == BR_OK)
    status = emit_rounding (run, tree, &x, &rounded, &mark, &mark.size, NULL, NULL);
  br__rounded_clear (&rounded);
  br_number_clear (&mark.size);
  br__value_clear (&x);
  br__value_clear (&within);
  return status;
}

br_status
br__do_simplest (br__run *run)
{
  br__tree *trees = NULL, within = BR__TREE_ZERO;
  size_t count = 0;
  br__parse_list (&trees, &count, &run->lex, run->error);
  br__need_word (run, "within", "`within` and how far away the fraction may be");
  br__parse (&within, &run->lex, run->error);
  br_status status = br__end_of_line (run);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    status = emit_simplest (run, &trees[i], &within);
  br__tree_clear (&within);
  br__trees_free (trees, count);
  return status;
}
