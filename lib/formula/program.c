/* SPDX-License-Identifier: LGPL-3.0-or-later
   program.c - compiles a formula: which dimensions hang on the names asked for, in an order in
   which each comes after those it uses, and the cells of each.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/graph_private.h"
#include "shape/shape.h"
#include "formula/program.h"

#define FIXED SIZE_MAX          /* the place of an entry that stands as it is */
#define MOST_BOUND 16           /* parameters and steps of a formula of the trade */

/* Values of names inside a formula of the trade.  */
typedef struct bound
{
  const char *name;
  size_t length;
  br__item item;
} bound;

typedef struct builder
{
  br__program *program;
  br__graph *graph;
  const br__program_names *names;
  br__item *items;              /* of the entries that vary, by their place */
  size_t count, room;
  const bound *bounds;
  size_t bound_count;
  br_error *error;
  size_t base, length;          /* of what was asked, in its line */
} builder;

void
br__program_clear (br__program *t)
{
  for (size_t i = 0; i < t->count; i++)
    {
      br_real_clear (&t->code[i].constant);
      br_number_clear (&t->code[i].number);
    }
  br__free (t->code);
  br__free (t->inputs);
  br__free (t->input_slots);
  *t = (br__program) BR__PROGRAM_ZERO;
}

void
br__item_clear (br__item *x)
{
  br__value_clear (&x->value);
  x->varies = 0;
}

static br_status
item_set (br__item *z, const br__item *x)
{
  br_status status = br__value_set (&z->value, &x->value);
  z->varies = x->varies;
  z->cell = x->cell;
  return status;
}

/* The place of E: FIXED, or that of its item.  */
static br_status
add_input (builder *b, br__entry *e)
{
  br__program *t = b->program;
  br__item made = { BR__VALUE_ZERO, 1, t->count };
  if (!br__grow (&t->code, &t->room, t->count + 1, sizeof (br__instruction))
      || !br__grow (&t->inputs, &t->input_room, t->input_count + 1, sizeof (br__entry *))
      || !br__grow (&t->input_slots, &t->slot_room, t->input_count + 1, sizeof (size_t))
      || !br__grow (&b->items, &b->room, b->count + 1, sizeof (br__item)))
    return BR_NO_MEMORY;
  memset (&t->code[t->count], 0, sizeof (br__instruction));
  t->code[t->count].op = BR__CODE_INPUT;
  t->code[t->count].left = t->input_count;
  t->code[t->count].linear = 1;
  t->input_slots[t->input_count] = t->count++;
  t->inputs[t->input_count++] = e;
  made.value.dimension = b->names->dimension ? b->names->dimension (b->names->user, e)
                                             : e->value.dimension;
  e->place = b->count;
  b->items[b->count++] = made;
  return BR_OK;
}

/* A name met on the walk: its place if it is a leaf, else 1 in *OPEN.  */
static br_status
meet (builder *b, br__entry *e, int *open)
{
  br__role part = b->names->role (b->names->user, e);
  *open = 0;
  e->place = FIXED;
  if (part == BR__ROLE_INPUT)
    return add_input (b, e);
  *open = part == BR__ROLE_FORMULA && e->definition && e->definition->edge_count;
  return BR_OK;
}

/* Walks from E to all that it comes from.  ORDER gets those with a formula, each after what it uses.
   The walk has a stack of its own, so a chain may be of any length.  */
static br_status
walk_from (builder *b, br__entry_stack *order, br__entry_stack *walk, br__entry *e, unsigned long stamp)
{
  br_status status = br__entry_push (walk, e) ? BR_OK : BR_NO_MEMORY;
  while (status == BR_OK && walk->count > 0)
    {
      br__entry *top = walk->rows[walk->count - 1];
      int open = 0;
      if (top->visited == stamp)
        {
          /* What it uses has been met; the second time it is left, and it takes its turn.  */
          walk->count--;
          if (top->changed != stamp && !br__entry_push (order, top))
            status = BR_NO_MEMORY;
          top->changed = stamp;
          continue;
        }
      top->visited = stamp;
      status = meet (b, top, &open);
      if (!open)
        {
          top->changed = stamp;
          walk->count--;
          continue;
        }
      for (size_t k = top->definition->edge_count; k-- > 0 && status == BR_OK; )
        if (top->definition->edges[k].used->visited != stamp
            && !br__entry_push (walk, top->definition->edges[k].used))
          status = BR_NO_MEMORY;
    }
  walk->count = 0;
  return status;
}

static br__entry *
entry_of (const builder *b, const br__tree *t, const br__node *n)
{
  return n->entry ? n->entry : br__node_entry (b->graph, t, n, n->part == BR__PART_CLEAR);
}

static br_status
take_name (builder *b, br__item *z, const br__tree *t, const br__node *n)
{
  const br__value *v = NULL;
  for (size_t i = 0; i < b->bound_count; i++)
    if (b->bounds[i].length == n->word_length
        && memcmp (b->bounds[i].name, t->text + n->word, n->word_length) == 0)
      return item_set (z, &b->bounds[i].item);
  br__entry *e = entry_of (b, t, n);
  if (e && e->place != FIXED && e->visited == b->graph->stamp)
    return item_set (z, &b->items[e->place]);
  br_status status = br__graph_lookup (&v, b->graph, t, n, b->error);
  if (status == BR_DOMAIN)
    b->program->missing = e;
  return status == BR_OK ? br__value_set (&z->value, v) : status;
}

/* All operands stand still: so does the result, by the evaluator's own rules.  */
static br_status
take_constant (builder *b, br__item *z, const br__node *n, br__item *args)
{
  br__value few[4], *values = few;
  memset (few, 0, sizeof few);
  if (n->count > 4 && !(values = br__alloc_zero (n->count, sizeof *values)))
    return BR_NO_MEMORY;
  for (unsigned k = 0; k < n->count; k++)
    {
      values[k] = args[k].value;
      memset (&args[k].value, 0, sizeof args[k].value);
    }
  br_status status = br__apply (&z->value, n, values, b->program->settings, b->error);
  for (unsigned k = 0; k < n->count; k++)
    br__value_clear (&values[k]);
  if (values != few)
    br__free (values);
  return status;
}

/* The dimension of a product or quotient: an angle goes with plain numbers only.  */
static br_status
take_product (builder *b, br__item *z, const br__node *n, br__item *args)
{
  int sign = n->op == BR__OP_MUL ? 1 : -1;
  br_dimension x = args[0].value.dimension, y = args[1].value.dimension;
  br_status status = br__program_add (b->program, z, sign > 0 ? BR__CODE_MUL : BR__CODE_DIV, &args[0], &args[1],
                                   b->error);
  if (x == BR_ANGLE || y == BR_ANGLE)
    {
      if (sign < 0 ? y == BR_ANGLE && x != BR_ANGLE : x != BR_PLAIN && y != BR_PLAIN)
        return br__fail (b->error, BR_DOMAIN, 0, 0, "%s and %s do not go together",
                         br__dimension_words (x), br__dimension_words (y));
      z->value.dimension = x == y ? BR_PLAIN : BR_ANGLE;
    }
  else
    z->value.dimension = x + sign * y;
  return status;
}

static br_status take_tree (builder *b, br__item *z, const br__tree *t);

/* What a function of the trade needs beside what its row says of each parameter.  A test holds this
   against the functions themselves.  */
typedef struct further_need
{
  const char *name;
  br__opcode op;
  const char *formula;
} further_need;

static const further_need *
find_need (const char *name)
{
  static const further_need needs[] =
  {
    { "fender_radius", BR__CODE_OVER_ZERO, "wheel_dia / 2 + gap" },
    { "fender_outer", BR__CODE_OVER_ZERO, "wheel_dia / 2 + gap" },
    { "wheelbase_for", BR__CODE_OVER_ZERO, "gap + front_dia / 2 + rear_dia / 2" },
    { "arc_length", BR__CODE_NOT_BELOW, "360 - degrees" },
    { "chord", BR__CODE_NOT_BELOW, "360 - degrees" }
  };
  for (size_t i = 0; i < sizeof needs / sizeof needs[0]; i++)
    if (strcmp (needs[i].name, name) == 0)
      return &needs[i];
  return NULL;
}

/* One step of a formula of the trade: "front = front_dia / 2" or the last expression.  */
static br_status
take_step (builder *b, bound *z, const char *text, size_t length)
{
  br__tree tree = BR__TREE_ZERO;
  br__lexer l, ahead;
  br_status status = br__lex_start (&l, text, length, b->error);
  ahead = l;
  z->name = "";
  z->length = 0;
  if (status == BR_OK && l.token.type == BR__NAME)
    status = br__lex_next (&ahead, b->error);
  if (status == BR_OK && l.token.type == BR__NAME && br__lex_is_sign (&ahead, '='))
    {
      z->name = text + l.token.offset;
      z->length = l.token.length;
      status = br__lex_next (&ahead, b->error);
      l = ahead;
    }
  if (status == BR_OK)
    status = br__parse (&tree, &l, b->error);
  if (status == BR_OK)
    status = take_tree (b, &z->item, &tree);
  br__tree_clear (&tree);
  return status;
}

/* Brings the lengths of a call to one kind and puts down what it needs of its arguments.  */
static br_status
bind_arguments (builder *b, bound *bounds, const br__shop_function *shop, br__item *args, unsigned count)
{
  int length = 0;
  br_status status = BR_OK;
  for (unsigned k = 0; k < count; k++)
    length |= shop->kinds[k] == 'L' && args[k].value.dimension == BR_LENGTH;
  for (unsigned k = 0; k < count && status == BR_OK; k++)
    {
      bounds[k].name = br__shop_parameter (&bounds[k].length, shop, k);
      if (shop->kinds[k] == 'L' && length && args[k].value.dimension == BR_PLAIN)
        status = br__item_to_length (b->program, &args[k], b->error);
      br_dimension d = args[k].value.dimension;
      if (d != BR_PLAIN && d != (shop->kinds[k] == 'L' ? BR_LENGTH : BR_ANGLE))
        return br__fail (b->error, BR_DOMAIN, 0, 0, "`%s` does not take %s here", shop->name,
                         br__dimension_words (d));
      if (status == BR_OK && shop->needs[k] != '*' && args[k].varies)
        status = br__program_add (b->program, &bounds[k].item,
                               shop->needs[k] == '0' ? BR__CODE_NOT_BELOW : BR__CODE_OVER_ZERO,
                               &args[k], NULL, b->error);
      else if (status == BR_OK)
        status = item_set (&bounds[k].item, &args[k]);
      bounds[k].item.value.dimension = d;
    }
  return status;
}

/* A call of the trade by its formula, which has no such call in it: this goes no deeper.  */
static br_status
take_formula (builder *b, br__item *z, const br__node *n, br__item *args)
{
  const br__shop_function *shop = n->function->shop;
  const further_need *need = find_need (shop->name);
  const char *at = shop->formula;
  bound bounds[MOST_BOUND];
  builder inner = *b;
  size_t count = n->count;
  memset (bounds, 0, sizeof bounds);
  br_status status = bind_arguments (b, bounds, shop, args, n->count);
  inner.bounds = bounds;
  if (status == BR_OK && need)
    {
      inner.bound_count = count;
      status = take_step (&inner, &bounds[count], need->formula, strlen (need->formula));
      if (status == BR_OK && bounds[count].item.varies)
        status = br__program_add (b->program, &bounds[count].item, need->op, &bounds[count].item, NULL,
                               b->error);
      br__item_clear (&bounds[count].item);
    }
  while (status == BR_OK && *at && count < MOST_BOUND)
    {
      size_t length = strcspn (at, ";");
      inner.bound_count = count;
      status = take_step (&inner, &bounds[count++], at, length);
      at += length + (at[length] == ';');
    }
  if (status == BR_OK)
    status = item_set (z, &bounds[count - 1].item);
  for (size_t i = 0; i < MOST_BOUND; i++)
    br__item_clear (&bounds[i].item);
  return status;
}

static br_status
take_operation (builder *b, br__item *z, const br__node *n, br__item *args)
{
  br_status status;
  switch (n->op)
    {
    case BR__OP_NEG:
      z->value.dimension = args[0].value.dimension;
      return br__program_add (b->program, z, BR__CODE_NEG, &args[0], NULL, b->error);
    case BR__OP_ADD: case BR__OP_SUB:
      status = br__items_unify (b->program, &args[0], &args[1], b->error);
      z->value.dimension = args[0].value.dimension;
      if (status != BR_OK)
        return status;
      return br__program_add (b->program, z, n->op == BR__OP_ADD ? BR__CODE_ADD : BR__CODE_SUB, &args[0],
                           &args[1], b->error);
    case BR__OP_MUL: case BR__OP_DIV:
      return take_product (b, z, n, args);
    case BR__OP_POW:
      return br__program_power (b->program, z, &args[0], &args[1], b->error);
    default:
      if (n->function->shop && n->function->shop->formula)
        return take_formula (b, z, n, args);
      return br__program_call (b->program, z, n, args, b->error);
    }
}

static br_status
take_node (builder *b, br__item *z, const br__tree *t, const br__node *n, br__item *args)
{
  int varies = 0;
  br_status status;
  if (b->error)
    b->error->status = BR_OK, b->error->hint[0] = 0;
  for (unsigned k = 0; k < n->count; k++)
    varies |= args[k].varies;
  if (n->op == BR__OP_NAME)
    status = take_name (b, z, t, n);
  else
    status = varies ? take_operation (b, z, n, args) : take_constant (b, z, n, args);
  if (status != BR_OK && b->error)
    {
      if (b->error->status == BR_OK)
        br__fail_plain (b->error, status, 0, 0);
      b->error->offset = t->base + n->offset;
      b->error->length = n->length;
    }
  return status;
}

static br_status
take_tree (builder *b, br__item *z, const br__tree *t)
{
  br__item *stack = br__alloc_zero (t->deepest + 1, sizeof *stack);
  size_t depth = 0;
  br_status status = stack ? BR_OK : br__fail_plain (b->error, BR_NO_MEMORY, t->base, 0);

  for (size_t i = 0; i < t->count && status == BR_OK; i++)
    {
      const br__node *n = &t->nodes[i];
      br__item made = { BR__VALUE_ZERO, 0, 0 };
      status = take_node (b, &made, t, n, stack + depth - n->count);
      if (status != BR_OK)
        {
          br__item_clear (&made);
          break;
        }
      for (unsigned k = 0; k < n->count; k++)
        br__item_clear (&stack[--depth]);
      stack[depth++] = made;
    }
  if (status == BR_OK)
    {
      br__item_clear (z);
      *z = stack[--depth];
    }
  while (depth > 0)
    br__item_clear (&stack[--depth]);
  br__free (stack);
  return status;
}

/* The items of the dimensions that come from an input, in order.  */
static br_status
take_entries (builder *b, const br__entry_stack *order)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < order->count && status == BR_OK; i++)
    {
      br__entry *e = order->rows[i];
      br__item made = { BR__VALUE_ZERO, 0, 0 };
      int varies = 0;
      for (size_t k = 0; k < e->definition->edge_count; k++)
        varies |= e->definition->edges[k].used->place != FIXED;
      if (!varies)
        continue;
      status = take_tree (b, &made, &e->definition->tree);
      if (status == BR_OK && !br__grow (&b->items, &b->room, b->count + 1, sizeof (br__item)))
        status = br__fail_plain (b->error, BR_NO_MEMORY, 0, 0);
      if (status != BR_OK)
        {
          /* The place is one in the line of that dimension; here all of what was asked is meant.  */
          if (b->error)
            b->error->offset = b->base, b->error->length = b->length;
          br__item_clear (&made);
          break;
        }
      e->place = b->count;
      b->items[b->count++] = made;
    }
  return status;
}

static br_status
take_sides (builder *b, const br__tree *left, const br__tree *right)
{
  br__item x = { BR__VALUE_ZERO, 0, 0 }, y = { BR__VALUE_ZERO, 0, 0 };
  br_status status = take_tree (b, &x, left);
  if (status == BR_OK && right)
    {
      status = take_tree (b, &y, right);
      if (status == BR_OK)
        {
          status = br__items_unify (b->program, &x, &y, b->error);
          if (status != BR_OK && b->error)
            b->error->offset = left->base, b->error->length = right->base + right->length - left->base;
        }
      if (status == BR_OK)
        status = br__program_add (b->program, &x, BR__CODE_SUB, &x, &y, b->error);
    }
  b->program->varies = x.varies;
  b->program->dimension = x.value.dimension;
  /* A constant lies on the program, too, so that whoever asks need not ask twice.  */
  if (status == BR_OK && !x.varies)
    status = br__program_add (b->program, &x, BR__CODE_CONSTANT, &x, NULL, b->error);
  b->program->root = x.cell;
  br__item_clear (&x);
  br__item_clear (&y);
  return status;
}

br_status
br__program_compile (br__program *t, br_sheet *sheet, const br__tree *left, const br__tree *right,
               const br__program_names *names, br_error *error)
{
  builder b = { t, sheet->graph, names, NULL, 0, 0, NULL, 0, error, left->base, left->length };
  br__entry_stack order = { NULL, 0, 0 }, walk = { NULL, 0, 0 };
  const br__tree *const sides[] = { left, right };
  br_status status = BR_OK;

  t->settings = &sheet->settings;
  /* A distance of shapes may have to be made first, which is a walk of its own.  */
  for (size_t side = 0; side < 2; side++)
    for (size_t i = 0; sides[side] && i < sides[side]->count; i++)
      if (sides[side]->nodes[i].op == BR__OP_NAME)
        entry_of (&b, sides[side], &sides[side]->nodes[i]);
  unsigned long stamp = ++sheet->graph->stamp;
  for (size_t side = 0; side < 2; side++)
    for (size_t i = 0; sides[side] && i < sides[side]->count && status == BR_OK; i++)
      {
        const br__node *n = &sides[side]->nodes[i];
        br__entry *e = n->op == BR__OP_NAME ? entry_of (&b, sides[side], n) : NULL;
        if (e)
          status = walk_from (&b, &order, &walk, e, stamp);
      }
  if (status == BR_OK)
    status = take_entries (&b, &order);
  if (status == BR_OK)
    status = take_sides (&b, left, right);
  if (status != BR_OK)
    {
      br__entry *missing = t->missing;
      br__program_clear (t);
      t->missing = missing;
      if (error && error->status == BR_OK)
        br__fail_plain (error, status, left->base, left->length);
    }
  for (size_t i = 0; i < b.count; i++)
    br__item_clear (&b.items[i]);
  br__free (b.items);
  br__free (order.rows);
  br__free (walk.rows);
  return status;
}
