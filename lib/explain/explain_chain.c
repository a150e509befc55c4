/* SPDX-License-Identifier: LGPL-3.0-or-later
   explain_chain.c - the whole chain that leads to a value, and the mark at its end.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "explain/explain_private.h"
#include "sheet/graph_private.h"

/* A formula as it was typed, then with its numbers put in, then worked out.  */
static br_status
explain_formula_of (explainer *x, const char *name, const br__tree *t, item *result)
{
  br_text t1 = BR_TEXT_ZERO, t2 = BR_TEXT_ZERO;
  br_status status = BR_OK;
  int names = 0;
  for (size_t i = 0; i < t->count; i++)
    names |= t->nodes[i].op == BR__OP_NAME;
  br__text_put (&t1, t->text, t->length);
  if (name)
    br__steps_list_add (x->steps, name, "=", br__text_string (&t1));
  if (names)
    {
      status = br__explain_substitute (&t2, t, x);
      if (status == BR_OK)
        br__steps_list_add (x->steps, br__text_string (&t1), "=", br__text_string (&t2));
    }
  if (status == BR_OK)
    status = br__explain_tree (x, t, result);
  br__explain_whole (x, &t1);
  br__explain_whole (x, &t2);
  br__text_clear (&t1);
  br__text_clear (&t2);
  return status;
}

/* The derived dimensions that T hangs on, each after those that it hangs on itself.  */
static br_status
order_chain (br__entry_stack *order, br__graph *g, const br__tree *t)
{
  br__entry_stack walk = { NULL, 0, 0 };
  int enough = 1;
  unsigned long stamp = ++g->stamp;

  for (size_t i = 0; i < t->count && enough; i++)
    {
      br__entry *e = NULL;
      if (t->nodes[i].op == BR__OP_NAME)
        e = br__graph_find (g, t->text + t->nodes[i].word, t->nodes[i].word_length);
      if (e)
        enough = br__entry_push (&walk, e);
      while (enough && walk.count > 0)
        {
          br__entry *top = walk.rows[walk.count - 1];
          br__definition *d = top->definition;
          if (!d || !d->edge_count || top->changed == stamp)
            {
              walk.count--;
              continue;
            }
          if (top->visited == stamp)        /* its own come before: now itself */
            {
              walk.count--;
              top->changed = stamp;
              enough = br__entry_push (order, top);
              continue;
            }
          top->visited = stamp;
          for (size_t k = d->edge_count; k-- > 0 && enough; )
            if (d->edges[k].used->visited != stamp)
              enough = br__entry_push (&walk, d->edges[k].used);
        }
    }
  br__free (walk.rows);
  return enough ? BR_OK : BR_NO_MEMORY;
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
          br__steps_list_add (x->steps, br__text_string (&left), "=", br__text_string (&count));
          br__text_reset (&left);
          br__text_printf (&left, "nearest(%s, 1)", br__text_string (&count));
          br__text_reset (&count);
          br__put_mixed (&count, &n);
          br__steps_list_add (x->steps, br__text_string (&left), "=", br__text_string (&count));
          br__text_reset (&left);
          br__text_printf (&left, "%s * %s", br__text_string (&count), br__text_string (&size));
        }
      else
        br__text_printf (&left, "nearest(%s, %s)", br__text_string (&result->text), br__text_string (&size));
      br__steps_list_add (x->steps, br__text_string (&left), "=", br__text_string (&right));
    }
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

br_status
br__explain (br__steps_list *steps, br__steps_list *rules, br_text *answer, br__run *run,
             const br__tree *tree, const br__mark *mark)
{
  explainer x = { run, steps, rules, NULL, 0, 0 };
  br__entry_stack order = { NULL, 0, 0 };
  item result = { BR_TEXT_ZERO, BINDS_ALL, BR__VALUE_ZERO };
  br_status status = order_chain (&order, run->sheet->graph, tree);

  for (size_t i = 0; i < order.count && status == BR_OK; i++)
    {
      item part = { BR_TEXT_ZERO, BINDS_ALL, BR__VALUE_ZERO };
      status = explain_formula_of (&x, order.rows[i]->name, &order.rows[i]->definition->tree, &part);
      br__explain_clear (&part);
    }
  if (status == BR_OK && !(tree->count == 1 && tree->nodes[0].op == BR__OP_NAME && order.count))
    status = explain_formula_of (&x, NULL, tree, &result);
  else if (status == BR_OK)
    status = br__explain_tree (&x, tree, &result);
  if (status == BR_OK)
    status = br__shown (answer, &result.value, &run->sheet->settings);
  if (status == BR_OK && !br_real_rational (&result.value.real))
    br__steps_list_add (steps, br__text_string (&result.text), "≈", br__text_string (answer));
  if (status == BR_OK
      && (result.value.dimension == BR_PLAIN || result.value.dimension == BR_LENGTH))
    status = explain_mark (&x, &result, mark);
  br__free (order.rows);
  br__explain_clear (&result);
  if (status == BR_OK && (steps->failed || rules->failed))
    status = BR_NO_MEMORY;
  return status;
}

static void
put_rows (br_record *r, const char *key, br__steps_list *l)
{
  br_list *list = br__put_list (r, key);
  for (size_t i = 0; i < l->count; i++)
    br__list_from (list, &l->rows[i]);
}

static br_status
emit_steps (br__run *run, const br__tree *tree, const br__mark *mark)
{
  br__steps_list steps = BR__STEPS_LIST_ZERO, rules = BR__STEPS_LIST_ZERO;
  br_text answer = BR_TEXT_ZERO;
  br_status status = br__explain (&steps, &rules, &answer, run, tree, mark);
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("steps");
      br__put_bytes (r, "expression", tree->text, tree->length);
      put_rows (r, "rules", &rules);
      put_rows (r, "steps", &steps);
      br__put_from (r, "answer", &answer);
      status = br__emit (run, r);
    }
  else
    status = br__fail_untold (run->error, status, tree->base, tree->length);
  br__steps_list_clear (&steps);
  br__steps_list_clear (&rules);
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
