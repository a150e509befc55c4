/* SPDX-License-Identifier: LGPL-3.0-or-later
   explain_chain.c - the whole chain that leads to a value, and the mark at its end.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "explain/explain_private.h"
#include "sheet/hidden.h"
#include "sheet/graph_private.h"

/* Writes a formula as it was typed, then with its numbers, then step by step.  */
static br_status
explain_formula_of (explainer *x, const char *name, const br__tree *t, item *result)
{
  br_text typed = BR_TEXT_ZERO;
  item put = ITEM_ZERO;
  br_status status = BR_OK;
  int names = 0;
  for (size_t i = 0; i < t->count; i++)
    names |= t->nodes[i].op == BR__OP_NAME;
  br__text_put (&typed, t->text, t->length);
  if (name)
    br__worked_steps_add (x->steps, name, "=", br__text_string (&typed));
  if (names)
    status = br__explain_tree (x, t, BR__WALK_VALUES, &put);
  if (status == BR_OK && names)
    br__worked_steps_add (x->steps, br__text_string (&typed), "=", br__text_string (&put.text));
  if (status == BR_OK)
    status = br__explain_tree (x, t, BR__WALK_STEPS, result);
  br__explain_whole (x, &typed);
  br__text_clear (&typed);
  br__explain_clear (&put);
  return status;
}

/* Something that a formula depends on, with its own formula: a dimension, or a question about shapes.  */
typedef struct origin
{
  br_text name;
  br__tree made;                /* of a question about shapes */
  const br__tree *of;           /* of a dimension, else NULL */
  size_t next;                  /* the node that is looked at next */
} origin;

typedef struct origins
{
  origin *rows;
  size_t count, room;
} origins;

static const br__tree *
tree_of (const origin *l)
{
  return l->of ? l->of : &l->made;
}

static void
origins_clear (origins *l)
{
  for (size_t i = 0; i < l->count; i++)
    {
      br__text_clear (&l->rows[i].name);
      br__tree_clear (&l->rows[i].made);
    }
  br__free (l->rows);
}

static br_status
push_origin (origins *l, origin *one)
{
  if (!br__grow (&l->rows, &l->room, l->count + 1, sizeof *l->rows))
    return BR_NO_MEMORY;
  l->rows[l->count++] = *one;
  memset (one, 0, sizeof *one);
  return BR_OK;
}

/* Puts what the name at N of T depends on onto WALK, where it has a formula and was not met before.  */
static br_status
meet (origins *walk, explainer *x, const br__tree *t, const br__node *n, unsigned long stamp)
{
  origin one = { .next = 0 };
  br__entry *e = br__node_entry (x->run->sheet->graph, t, n + br__explain_is_side (t, n), 0);
  br_status status = BR_OK;
  if (!e || e->visited == stamp)
    return BR_OK;
  e->visited = stamp;
  if (n->part)
    status = br__explain_measured (&one.name, &one.made, x, t, n);
  else if (e->definition && e->definition->edge_count)
    {
      br__text_puts (&one.name, e->name);
      one.of = &e->definition->tree;
    }
  br__explain_whole (x, &one.name);
  if (status == BR_OK && tree_of (&one)->count)
    status = push_origin (walk, &one);
  br__text_clear (&one.name);
  br__tree_clear (&one.made);
  return status;
}

/* All that T depends on and that has a formula, each behind what it depends on itself.  */
static br_status
order_chain (origins *order, explainer *x, const br__tree *t)
{
  origins walk = { NULL, 0, 0 };
  origin root = { .of = t };
  unsigned long stamp = ++x->run->sheet->graph->stamp;
  br_status status = push_origin (&walk, &root);
  while (status == BR_OK && walk.count > 0)
    {
      origin *top = &walk.rows[walk.count - 1];
      const br__tree *tree = tree_of (top);
      if (top->next == tree->count)
        {
          if (walk.count > 1)
            status = push_origin (order, top);
          walk.count -= status == BR_OK;
          continue;
        }
      const br__node *n = &tree->nodes[top->next];
      top->next += br__explain_is_side (tree, n) ? 3 : 1;
      /* The node stays where it is though the origin may move: a tree has its nodes elsewhere.  */
      if (n->op == BR__OP_NAME)
        status = meet (&walk, x, top->of ? top->of : &top->made, n, stamp);
    }
  origins_clear (&walk);
  return status;
}

/* The mark at the end: how many marks, the nearest whole count, and back.  */
static br_status
explain_mark (explainer *x, const item *result, const br__mark *mark)
{
  br__settings s = x->run->sheet->settings;     /* borrowed */
  br__rounded rounded = BR__ROUNDED_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_text left = BR_TEXT_ZERO, right = BR_TEXT_ZERO, size = BR_TEXT_ZERO, count = BR_TEXT_ZERO;
  br_number parts = BR_NUMBER_ZERO, n = BR_NUMBER_ZERO;
  br_status status = br__value_set (&v, &result->value);

  s.feet = 0;
  if (status == BR_OK)
    status = br__round_value (&rounded, &v, mark, BR_NEAREST, &s, x->run->error);
  const br_number *q = br_real_rational (&v.real);
  if (status == BR_OK && !(q && br_number_equal (q, &rounded.value)))
    {
      br__put_mark_text (&right, &rounded.value, v.dimension, mark, &s);
      br__put_mark_text (&size, &mark->size, mark->length ? BR_LENGTH : BR_PLAIN, mark, &s);
      if (q && v.dimension == BR_PLAIN)
        {
          status = br_number_div (&parts, q, &mark->size);
          if (status == BR_OK)
            status = br_number_div (&n, &rounded.value, &mark->size);
          br__put_measure (&count, &parts, BR_PLAIN, NULL);
          br__text_printf (&left, "%s / %s", br__text_string (&result->text), br__text_string (&size));
          br__worked_steps_add (x->steps, br__text_string (&left), "=", br__text_string (&count));
          br__text_reset (&left);
          br__text_printf (&left, "nearest(%s, 1)", br__text_string (&count));
          br__text_reset (&count);
          br__put_mixed (&count, &n);
          br__worked_steps_add (x->steps, br__text_string (&left), "=", br__text_string (&count));
          br__text_reset (&left);
          br__text_printf (&left, "%s * %s", br__text_string (&count), br__text_string (&size));
        }
      else
        br__text_printf (&left, "nearest(%s, %s)", br__text_string (&result->text), br__text_string (&size));
      br__worked_steps_add (x->steps, br__text_string (&left), "=", br__text_string (&right));
    }
  /* It is not certain which mark is nearest: the answer says so, and there is no step to show.  */
  if (status == BR_UNDECIDED)
    status = BR_OK;
  br_text *const texts[] = { &left, &right, &size, &count };
  for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
    {
      br__explain_whole (x, texts[i]);
      br__text_clear (texts[i]);
    }
  br_number_clear (&parts), br_number_clear (&n);
  br__rounded_clear (&rounded);
  br__value_clear (&v);
  return status;
}

/* The step from RESULT, which is not rational, to its digits.  */
static br_status
add_rounding (explainer *x, const item *result)
{
  item digits = ITEM_ZERO;
  br_status status = br__value_set (&digits.value, &result->value);
  if (status == BR_OK)
    status = br__explain_written (&digits, x);
  br__worked_steps_add (x->steps, br__text_string (&result->text), "≈", br__text_string (&digits.text));
  br__explain_clear (&digits);
  return status;
}

br_status
br__explain (br__worked_steps *steps, br__worked_steps *rules, br_text *answer, br__run *run,
             const br__tree *tree, const br__mark *mark)
{
  explainer x = { run, steps, rules, NULL, 0 };
  origins order = { NULL, 0, 0 };
  item result = ITEM_ZERO;
  br_status status = order_chain (&order, &x, tree);
  int alone = tree->nodes[0].op == BR__OP_NAME && tree->count == (br__explain_is_side (tree, &tree->nodes[0]) ? 3u : 1u);

  for (size_t i = 0; i < order.count && status == BR_OK; i++)
    {
      item part = ITEM_ZERO;
      status = explain_formula_of (&x, br__text_string (&order.rows[i].name), tree_of (&order.rows[i]), &part);
      br__explain_clear (&part);
    }
  if (status == BR_OK && !(alone && order.count))
    status = explain_formula_of (&x, NULL, tree, &result);
  else if (status == BR_OK)
    status = br__explain_tree (&x, tree, BR__WALK_STEPS, &result);
  if (status == BR_OK)
    status = br__shown (answer, &result.value, &run->sheet->settings);
  if (status == BR_OK && !br_real_rational (&result.value.real))
    status = add_rounding (&x, &result);
  if (status == BR_OK
      && (result.value.dimension == BR_PLAIN || result.value.dimension == BR_LENGTH))
    status = explain_mark (&x, &result, mark);
  origins_clear (&order);
  br__explain_clear (&result);
  if (status == BR_OK && (steps->failed || rules->failed))
    status = BR_NO_MEMORY;
  return status;
}

static void
put_rows (br_record *r, const char *key, br__worked_steps *l)
{
  br_list *list = br__put_list (r, key);
  for (size_t i = 0; i < l->count; i++)
    br__list_from (list, &l->rows[i]);
}

static br_status
emit_steps (br__run *run, const br__tree *tree, const br__mark *mark)
{
  br__worked_steps steps = BR__WORKED_STEPS_ZERO, rules = BR__WORKED_STEPS_ZERO;
  br_text answer = BR_TEXT_ZERO;
  br_status status = br__explain (&steps, &rules, &answer, run, tree, mark);
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("steps");
      br__put_expression (r, tree);
      put_rows (r, "rules", &rules);
      put_rows (r, "steps", &steps);
      br__put_from (r, "answer", &answer);
      status = br__emit (run, r);
    }
  else
    status = br__fail_untold (run->error, status, tree->base, tree->length);
  br__worked_steps_clear (&steps);
  br__worked_steps_clear (&rules);
  br__text_clear (&answer);
  return status;
}

br_status
br__do_explain (br__run *run)
{
  br__tree *trees = NULL;
  size_t count = 0;
  br__mark mark = BR__MARK_ZERO;
  br_status status = br__parse_list (&trees, &count, &run->lex, run->error);

  if (status == BR_OK && br__lex_is_word (&run->lex, "to"))
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__read_mark (run, &mark);
    }
  else if (status == BR_OK)
    status = br__settings_mark (&mark, &run->sheet->settings);
  if (status == BR_OK)
    status = br__end_of_line (run);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    {
      /* The value first: an error has its place then.  */
      br__value v = BR__VALUE_ZERO;
      status = br__value_of (&v, run, &trees[i]);
      br__value_clear (&v);
      if (status == BR_OK)
        status = emit_steps (run, &trees[i], &mark);
    }
  br_number_clear (&mark.size);
  br__trees_free (trees, count);
  return status;
}
