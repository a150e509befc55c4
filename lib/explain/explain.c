/* SPDX-License-Identifier: LGPL-3.0-or-later
   explain.c - walks a formula from its innermost operation outward and writes a step for each, with
   its numbers.  Irrational values stay as they are written until the end, where one
   step rounds the result.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "explain/explain_private.h"

void
br__explain_clear (item *x)
{
  br__text_clear (&x->text);
  br__value_clear (&x->value);
}

/* How V is written in a step.  A power of a length that has no unit of its own is written by its unit's power:
   120 in^4 is read as the fourth power of 120 in.  */
static br_status
put_written (br_text *t, const br__value *v, explainer *x)
{
  br__settings s = x->run->sheet->settings;     /* borrowed */
  br__value plain = BR__VALUE_ZERO;
  s.feet = 0;
  if (br__explain_has_unit (v->dimension))
    return br__shown_digits (t, v, &s);
  br_status status = br__in_sheet_unit (&plain.real, v, &s);
  if (status == BR_OK)
    status = br__shown_digits (t, &plain, &s);
  br__text_puts (t, v->dimension > 0 ? " * (1 " : " / (1 ");
  br__put_unit_name (t, &s, BR_LENGTH);
  br__text_printf (t, ")^%d", v->dimension > 0 ? (int) v->dimension : -(int) v->dimension);
  br__value_clear (&plain);
  return status;
}

static int
binding_of (const br_text *t)
{
  const char *s = br__text_string (t);
  if (strchr (s, '('))
    return BINDS_PRODUCT;
  if (*s == '-')
    return BINDS_SIGN;
  return strpbrk (s, "-/ \"'") ? BINDS_MIXED : BINDS_ALL;
}

br_status
br__explain_written (item *o, explainer *x)
{
  br_text t = BR_TEXT_ZERO;
  br_status status = put_written (&t, &o->value, x);
  br__explain_whole (x, &t);
  br__text_clear (&o->text);
  o->text = t;
  o->binds = binding_of (&o->text);
  return status;
}

/* The item bound to the name at NODE inside a function's formula, or NULL.  */
static const item *
bound_to (const explainer *x, const br__tree *tree, const br__node *node)
{
  for (size_t i = 0; i < x->binding_count; i++)
    if (x->bindings[i].length == node->word_length
        && memcmp (x->bindings[i].name, tree->text + node->word, node->word_length) == 0)
      return x->bindings[i].item;
  return NULL;
}

static void
put_operand (br_text *t, const item *o, int least)
{
  if (o->binds < least)
    br__text_printf (t, "(%s)", br__text_string (&o->text));
  else
    br__text_puts (t, br__text_string (&o->text));
}

int
br__explain_compose (br_text *t, const br__node *n, const item *o)
{
  switch (n->op)
    {
    case BR__OP_NEG:
      br__text_putc (t, '-');
      put_operand (t, &o[0], BINDS_POWER);
      return BINDS_SIGN;
    case BR__OP_ADD: case BR__OP_SUB:
      put_operand (t, &o[0], BINDS_SUM);
      br__text_puts (t, n->op == BR__OP_ADD ? " + " : " - ");
      put_operand (t, &o[1], BINDS_PRODUCT);
      return BINDS_SUM;
    case BR__OP_MUL: case BR__OP_DIV:
      put_operand (t, &o[0], BINDS_PRODUCT);
      br__text_puts (t, n->op == BR__OP_MUL ? " * " : " / ");
      put_operand (t, &o[1], BINDS_POWER);
      return BINDS_PRODUCT;
    case BR__OP_POW:
      put_operand (t, &o[0], BINDS_ALL);
      br__text_putc (t, '^');
      put_operand (t, &o[1], BINDS_ALL);
      return BINDS_POWER;
    default:
      br__text_puts (t, n->function->name);
      if (br__function_most (n->function) == 0)
        return BINDS_ALL;
      br__text_putc (t, '(');
      for (unsigned k = 0; k < n->count; k++)
        br__text_printf (t, "%s%s", k ? ", " : "", br__text_string (&o[k].text));
      br__text_putc (t, ')');
      return BINDS_ALL;
    }
}

/* The formula of a scale function at the sheet's scale: "x * 2", "x / 48" ...  */
static br_status
scale_formula (br_text *t, const br__node *n, explainer *x, const item *o)
{
  int64_t num, den;
  const br_number *ratio = &x->run->sheet->settings.scale;
  if (n->count == 2)
    ratio = br_real_rational (&o[1].value.real);
  br_number factor = BR_NUMBER_ZERO;
  br_dimension dimension = o[0].value.dimension;
  int power = dimension == BR_ANGLE ? 0 : dimension == BR_PLAIN ? 1 : (int) dimension;
  int known = ratio && br_number_pow (&factor, ratio, power) == BR_OK && br_number_get_ratio (&num, &den, &factor);
  br_number_clear (&factor);
  if (!known)
    return BR_DOMAIN;
  int full = n->function->id == BR__FUNCTION_FULL;
  int64_t times = full ? den : num, by = full ? num : den;
  br__text_puts (t, "x");
  if (times != 1)
    br__text_printf (t, " * %lld", (long long) times);
  if (by != 1)
    br__text_printf (t, " / %lld", (long long) by);
  return times == 1 && by == 1 ? BR_DOMAIN : BR_OK;
}

/* The formula that says what N does, or BR_DOMAIN where none does.  */
static br_status
formula_of (br_text *t, const br__node *n, explainer *x, const item *o)
{
  const br__function *f = n->function;
  if (f->formula)
    {
      br__shop_put_formula (t, f);
      return BR_OK;
    }
  if (f->id == BR__FUNCTION_FULL || f->id == BR__FUNCTION_DRAWN)
    return scale_formula (t, n, x, o);
  if (f->id == BR__FUNCTION_IN_BOXES)
    {
      br__text_puts (t, "x / (");
      br__put_measure (t, &x->run->sheet->settings.grid, BR_LENGTH, NULL);
      br__text_putc (t, ')');
      return BR_OK;
    }
  return BR_DOMAIN;
}

/* 1 if operand K of N is a length where another is one.  */
static int
may_be_length (const br__node *n, unsigned k)
{
  return n->op != BR__OP_CALL || n->function->kinds[k] == 'L';
}

br_status
br__explain_length (item *o, int named, explainer *x)
{
  const br__settings *s = &x->run->sheet->settings;
  item one = ITEM_ZERO;
  br_status status = br__to_length (&o->value, s);
  if (status != BR_OK || (!named && br_real_rational (&o->value.real)))
    return status == BR_OK ? br__explain_written (o, x) : status;
  status = br_number_set_int (&one.value.real.rational, 1);
  if (status == BR_OK)
    status = br__to_length (&one.value, s);
  if (status == BR_OK)
    status = br__explain_written (&one, x);
  br_text t = BR_TEXT_ZERO;
  put_operand (&t, o, BINDS_PRODUCT);
  br__text_printf (&t, " * %s", br__text_string (&one.text));
  br__explain_whole (x, &t);
  br__explain_clear (&one);
  br__text_clear (&o->text);
  o->text = t;
  o->binds = BINDS_PRODUCT;
  return status;
}

/* The angle O becomes the number of its degrees, with which the formula of a function counts.  */
static br_status
take_degrees (item *o, explainer *x)
{
  o->value.dimension = BR_PLAIN;
  if (br_real_rational (&o->value.real))
    return br__explain_written (o, x);
  br_text t = BR_TEXT_ZERO;
  put_operand (&t, o, BINDS_PRODUCT);
  br__text_puts (&t, " / 1 deg");
  br__explain_whole (x, &t);
  br__text_clear (&o->text);
  o->text = t;
  o->binds = BINDS_PRODUCT;
  return BR_OK;
}

/* Brings plain operands to lengths where the operation would, and angles of a function to degrees.  */
static br_status
bring_together (item *o, const br__node *n, explainer *x)
{
  int length = 0;
  br_status status = BR_OK;
  for (unsigned k = 0; k < n->count; k++)
    length |= may_be_length (n, k) && o[k].value.dimension == BR_LENGTH;
  for (unsigned k = 0; k < n->count && status == BR_OK; k++)
    if (length && may_be_length (n, k) && o[k].value.dimension == BR_PLAIN)
      status = br__explain_length (&o[k], 0, x);
    else if (n->op == BR__OP_CALL && n->function->kinds[k] == 'A' && o[k].value.dimension == BR_ANGLE)
      status = take_degrees (&o[k], x);
  return status;
}

/* The rule in words, once.  */
static void
add_rule (explainer *x, const br__function *f)
{
  br_text t = BR_TEXT_ZERO;
  if (!f->rule)
    return;
  br__text_printf (&t, "%s: %s", f->name, f->rule);
  for (size_t i = 0; i < x->rules->count; i++)
    if (strcmp (br__text_string (&x->rules->rows[i]), br__text_string (&t)) == 0)
      {
        br__text_clear (&t);
        return;
      }
  if (t.failed || !br__grow (&x->rules->rows, &x->rules->room, x->rules->count + 1, sizeof (br_text)))
    {
      x->rules->failed = 1;
      br__text_clear (&t);
      return;
    }
  x->rules->rows[x->rules->count++] = t;
}

/* One part of a formula with several steps: "front = front_dia / 2" or the last expression.  NAME
   gets the name or is empty.  */
static br_status
parse_part (br__tree *t, const char *text, size_t length, const char **name, size_t *name_length,
            br_error *error)
{
  br__lexer l;
  br_status status = br__lex_start (&l, text, length, error);
  *name_length = 0;
  if (status != BR_OK)
    return status;
  br__lexer ahead = l;
  if (l.token.type == BR__NAME && br__lex_next (&ahead, error) == BR_OK && br__lex_is_sign (&ahead, '='))
    {
      *name = text + l.token.offset;
      *name_length = l.token.length;
      l = ahead;
      status = br__lex_next (&l, error);
    }
  return status == BR_OK ? br__parse (t, &l, error) : status;
}

/* Evaluates FORMULA step by step with the parameters of N bound to the operands O.  WHOLE is the text
   of the call.  RESULT gets the value and its text.  */
static br_status
explain_formula (explainer *x, const br__node *n, const item *o, const char *formula, const char *whole,
                 item *result)
{
  binding bound[MOST_BINDINGS];
  item parts[MOST_BINDINGS];
  size_t count = 0, part_count = 0;
  explainer inner = *x;
  br_status status = BR_OK;

  memset (parts, 0, sizeof parts);
  for (unsigned k = 0; k < n->count && k < BR__SHOP_MAX_ARGS; k++, count++)
    {
      bound[count] = (binding) { "x", 1, &o[k] };
      if (n->function->formula)
        bound[count].name = br__shop_parameter (&bound[count].length, n->function, k);
    }
  inner.bindings = bound;
  while (status == BR_OK && *formula)
    {
      size_t length = strcspn (formula, ";"), name_length;
      const char *name = NULL;
      br__tree tree = BR__TREE_ZERO;
      item *part = &parts[part_count++];
      inner.binding_count = count;
      status = parse_part (&tree, formula, length, &name, &name_length, x->run->error);
      formula += length + (formula[length] == ';');
      if (status == BR_OK && !*formula)
        {
          item put = ITEM_ZERO;
          status = br__explain_tree (&inner, &tree, BR__WALK_VALUES, &put);
          br__worked_steps_add (x->steps, whole, "=", br__text_string (&put.text));
          br__explain_clear (&put);
        }
      if (status == BR_OK)
        status = br__explain_tree (&inner, &tree, BR__WALK_STEPS, part);
      br__tree_clear (&tree);
      if (status == BR_OK && name_length && count < MOST_BINDINGS)
        bound[count++] = (binding) { name, name_length, part };
    }
  if (status == BR_OK)
    {
      *result = parts[part_count - 1];
      memset (&parts[part_count - 1], 0, sizeof parts[0]);
    }
  for (size_t i = 0; i < part_count; i++)
    br__explain_clear (&parts[i]);
  return status;
}

br_status
br__explain_value (br__value *z, explainer *x, const br__tree *t, const br__node *n)
{
  const br__value *v = NULL, *reach = NULL;
  br__graph *g = x->run->sheet->graph;
  br_status status = br__graph_lookup (&v, g, t, n, x->run->error);
  if (status == BR_OK && br__explain_is_side (t, n))
    {
      status = br__graph_lookup (&reach, g, t, n + 1, x->run->error);
      if (status == BR_OK)
        status = n[2].op == BR__OP_SUB ? br_real_sub (&z->real, &v->real, &reach->real)
                                       : br_real_add (&z->real, &v->real, &reach->real);
      z->dimension = v->dimension;
      return status;
    }
  return status == BR_OK ? br__value_set (z, v) : status;
}

/* A name or a number: no step, only what is written for it.  */
static br_status
take_leaf (explainer *x, const br__tree *t, const br__node *n, br__walk how, item *made)
{
  const item *bound = n->op == BR__OP_NAME ? bound_to (x, t, n) : NULL;
  br_status status;
  if (br__explain_is_part (t, n))
    return br__explain_part (x, t, n, made);
  if (bound)
    {
      br__text_puts (&made->text, br__text_string (&bound->text));
      made->binds = bound->binds;
      br__explain_whole (x, &made->text);
      return br__value_set (&made->value, &bound->value);
    }
  if (n->op == BR__OP_NUMBER)
    status = br__apply (&made->value, n, NULL, &x->run->sheet->settings, x->run->error);
  else
    status = br__explain_value (&made->value, x, t, n);
  if (status != BR_OK)
    return status;
  int as_typed = n->op == BR__OP_NUMBER ? how != BR__WALK_STEPS && n->word_length
                 : how == BR__WALK_NAMES || !br_real_rational (&made->value.real);
  if (as_typed && n->op == BR__OP_NUMBER)
    br__put_node_number (&made->text, t, n);
  else if (as_typed)
    br__text_put (&made->text, t->text + n->word, n->word_length);
  else
    status = put_written (&made->text, &made->value, x);
  br__explain_whole (x, &made->text);
  made->binds = n->op == BR__OP_NAME && as_typed ? BINDS_ALL : binding_of (&made->text);
  return status;
}

br_status
br__explain_work_out (br__value *z, explainer *x, const br__node *n, const item *o)
{
  br__value args[8], *all = args;
  br_status status = BR_OK;
  memset (args, 0, sizeof args);
  if (n->count > 8 && !(all = br__alloc_zero (n->count, sizeof *all)))
    return BR_NO_MEMORY;
  for (unsigned k = 0; k < n->count && status == BR_OK; k++)
    status = br__value_set (&all[k], &o[k].value);
  if (status == BR_OK)
    status = br__apply (z, n, all, &x->run->sheet->settings, x->run->error);
  for (unsigned k = 0; k < n->count; k++)
    br__value_clear (&all[k]);
  if (all != args)
    br__free (all);
  return status;
}

/* The step from MADE, the operation N over O, to its value, which is rational.  */
static br_status
add_step (explainer *x, const br__node *n, const item *o, item *made)
{
  item before = *made;
  made->text = (br_text) BR_TEXT_ZERO;
  br_status status = br__explain_written (made, x);
  const char *left = br__text_string (&before.text);
  if (n->count == 2 && n->op != BR__OP_CALL && n->op != BR__OP_POW)
    br__by_hand (x->steps, left, br__text_string (&made->text), n->op, &o[0].value, &o[1].value, made->value.dimension,
                 &x->run->sheet->settings);
  else
    br__worked_steps_add (x->steps, left, "=", br__text_string (&made->text));
  br__text_clear (&before.text);
  return status;
}

/* An operation over its operands O, which it may change.  */
static br_status
take_operation (explainer *x, const br__node *n, item *o, br__walk how, item *made)
{
  br_text formula = BR_TEXT_ZERO;
  br_status status = BR_OK;

  if (how == BR__WALK_STEPS
      && (n->op == BR__OP_ADD || n->op == BR__OP_SUB || (n->op == BR__OP_CALL && n->function->kinds)))
    status = bring_together (o, n, x);
  if (status == BR_OK)
    status = br__explain_work_out (&made->value, x, n, o);
  if (status != BR_OK)
    return status;
  made->binds = br__explain_compose (&made->text, n, o);
  br__explain_whole (x, &made->text);
  if (how != BR__WALK_STEPS)
    return BR_OK;
  if (n->op == BR__OP_CALL)
    add_rule (x, n->function);
  if (n->op == BR__OP_CALL && formula_of (&formula, n, x, o) == BR_OK)
    {
      item whole = *made;
      memset (made, 0, sizeof *made);
      status = formula.failed ? BR_NO_MEMORY
               : explain_formula (x, n, o, br__text_string (&formula), br__text_string (&whole.text), made);
      br__explain_clear (&whole);
    }
  else if (br_real_rational (&made->value.real))
    status = add_step (x, n, o, made);
  br__explain_whole (x, &formula);
  br__text_clear (&formula);
  return status;
}

/* An explainer and what it is to write.  */
typedef struct worker
{
  explainer *x;
  br__walk how;
} worker;

static void
clear_item (void *made)
{
  br__explain_clear (made);
}

static br_status
take_item (void *user, void *made, void *args, const br__tree *t, size_t *i)
{
  const worker *u = user;
  const br__node *n = &t->nodes[*i];
  if (br__explain_is_side (t, n))
    *i += 2;
  if (n->op == BR__OP_NUMBER || n->op == BR__OP_NAME)
    return take_leaf (u->x, t, n, u->how, made);
  if (u->how == BR__WALK_NAMES && n->word_length == 0)
    return br__explain_hidden (u->x, n, args, made);
  return take_operation (u->x, n, args, u->how, made);
}

br_status
br__explain_tree (explainer *x, const br__tree *t, br__walk how, item *result)
{
  static const br__domain worked = { sizeof (item), clear_item, take_item };
  worker user = { x, how };
  return br__walk_tree (result, &worked, &user, t, NULL, 0);
}
