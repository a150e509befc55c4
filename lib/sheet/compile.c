/* SPDX-License-Identifier: LGPL-3.0-or-later
   compile.c - compiles a formula of a sheet: finds the dimensions that depend on the chosen inputs, sorts them
   topologically, and adds the instructions of each.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/operate.h"
#include "sheet/compile.h"
#include "sheet/graph_private.h"
#include "sheet/hidden.h"

#define FIXED SIZE_MAX          /* the place of an entry that stands as it is */

typedef struct builder
{
  br__work work;
  br__program *program;
  br__graph *graph;
  const br__program_names *names;
  br__value *values;            /* of the entries that vary, by their place */
  size_t count, room;
  br_error *error;
  size_t base, length;          /* of what was asked, in its line */
} builder;

static br_status
add_input (builder *b, br__entry *e)
{
  br_status status = br__program_input (b->program, e);
  if (status == BR_OK && !br__grow (&b->values, &b->room, b->count + 1, sizeof (br__value)))
    status = BR_NO_MEMORY;
  if (status != BR_OK)
    return status;
  br__value made = { .slot = b->program->count };
  made.dimension = b->names->dimension ? b->names->dimension (b->names->user, e) : e->value.dimension;
  e->place = b->count;
  b->values[b->count++] = made;
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

/* Walks from E to all entries that it depends on.  ORDER gets those with a formula, each after the entries that it
   uses.  WALK is an explicit stack, so a chain may be of any length.  */
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
  return n->entry ? n->entry : br__node_entry (b->graph, t, n, n->part == BR__SHAPE_CLEAR);
}

/* Looks up a name while the program is compiled: a value or a slot.  */
static br_status
look_up (const br__value **value, void *user, const br__tree *t, const br__node *n, br_error *error)
{
  builder *b = user;
  br__entry *e = entry_of (b, t, n);
  if (e && e->place != FIXED && e->visited == b->graph->stamp)
    {
      *value = &b->values[e->place];
      return BR_OK;
    }
  br_status status = br__graph_lookup (value, b->graph, t, n, error);
  if (status == BR_DOMAIN)
    b->program->missing = e;
  return status;
}

static br_status
take_tree (builder *b, br__value *z, const br__tree *t)
{
  br__names names = { b, look_up };
  return br__work_tree (&b->work, z, t, &names);
}

/* The values of the dimensions that come from an input, in order.  */
static br_status
take_entries (builder *b, const br__entry_stack *order)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < order->count && status == BR_OK; i++)
    {
      br__entry *e = order->rows[i];
      br__value made = BR__VALUE_ZERO;
      int varies = 0;
      for (size_t k = 0; k < e->definition->edge_count; k++)
        varies |= e->definition->edges[k].used->place != FIXED;
      if (!varies)
        continue;
      status = take_tree (b, &made, &e->definition->tree);
      if (status == BR_OK && !br__grow (&b->values, &b->room, b->count + 1, sizeof (br__value)))
        status = br__fail_plain (b->error, BR_NO_MEMORY, 0, 0);
      if (status != BR_OK)
        {
          /* The offset of the error is in the line of that dimension; mark the whole formula of this line instead.  */
          if (b->error)
            b->error->offset = b->base, b->error->length = b->length;
          br__value_clear (&made);
          break;
        }
      e->place = b->count;
      b->values[b->count++] = made;
    }
  return status;
}

static br_status
take_sides (builder *b, const br__tree *left, const br__tree *right)
{
  br__program *t = b->program;
  br__value x = BR__VALUE_ZERO, y = BR__VALUE_ZERO;
  br_status status = take_tree (b, &x, left);
  if (status == BR_OK && right)
    {
      status = take_tree (b, &y, right);
      if (status == BR_OK)
        {
          status = br__work_unify (&b->work, &x, &y);
          if (status == BR_OK)
            status = br__operate (&b->work, &x, BR__CODE_SUB, &x, &y);
          if (status != BR_OK && b->error)
            b->error->offset = left->base, b->error->length = right->base + right->length - left->base;
        }
    }
  t->varies = x.slot != 0;
  t->dimension = x.dimension;
  /* A constant is an instruction, too, so that whoever asks need not ask twice.  */
  if (status == BR_OK)
    status = br__program_slot (t, &t->root, &x);
  br__value_clear (&x);
  br__value_clear (&y);
  return status;
}

br_status
br__program_compile (br__program *t, br_sheet *sheet, const br__tree *left, const br__tree *right,
               const br__program_names *names, br_error *error)
{
  builder b = { { &sheet->settings, t, error, 0 }, t, sheet->graph, names, NULL, 0, 0, error, left->base, left->length };
  br__entry_stack order = { NULL, 0, 0 }, walk = { NULL, 0, 0 };
  const br__tree *const sides[] = { left, right };
  br_status status = BR_OK;

  t->settings = &sheet->settings;
  /* A distance of shapes may have to be made first, which is a walk of its own.  */
  for (size_t side = 0; side < 2; side++)
    for (size_t i = 0; sides[side] && i < sides[side]->count; i++)
      if (sides[side]->nodes[i].op == BR__OP_NAME
          && !entry_of (&b, sides[side], &sides[side]->nodes[i])
          && sides[side]->nodes[i].part == BR__SHAPE_CLEAR)
        status = BR_NO_MEMORY;
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
    br__value_clear (&b.values[i]);
  br__free (b.values);
  br__free (order.rows);
  br__free (walk.rows);
  return status;
}
