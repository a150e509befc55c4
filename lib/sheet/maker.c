/* SPDX-License-Identifier: LGPL-3.0-or-later
   maker.c - formulas that are made, not typed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/maker.h"

br_status
br__tree_append (br__tree *t, const br__tree *from, size_t shift)
{
  for (size_t i = 0; i < from->count; i++)
    {
      if (!br__grow (&t->nodes, &t->room, t->count + 1, sizeof (br__node)))
        return BR_NO_MEMORY;
      br__node *n = &t->nodes[t->count];
      *n = from->nodes[i];
      memset (&n->number.value, 0, sizeof n->number.value);
      n->offset += shift;
      n->word += shift;
      t->count++;
      br_status status = br_number_set (&n->number.value, &from->nodes[i].number.value);
      if (status != BR_OK)
        return status;
    }
  return BR_OK;
}

void
br__maker_start (br__maker *m, br__graph *g, const char *text, size_t length, size_t offset)
{
  memset (m, 0, sizeof *m);
  m->graph = g;
  m->offset = offset;
  m->length = length - offset;
  m->tree.text = br__strndup (text, length);
  m->tree.length = length;
  m->status = m->tree.text ? BR_OK : BR_NO_MEMORY;
}

static br__node *
new_node (br__maker *m, br__op op, unsigned count)
{
  br__tree *t = &m->tree;
  if (m->status == BR_OK && !br__grow (&t->nodes, &t->room, t->count + 1, sizeof (br__node)))
    m->status = BR_NO_MEMORY;
  if (m->status != BR_OK)
    return NULL;
  size_t first = t->count;
  for (unsigned i = 0; i < count; i++)
    first = t->nodes[first - 1].first;
  br__node *n = &t->nodes[t->count++];
  memset (n, 0, sizeof *n);
  n->op = op;
  n->count = count;
  n->first = first;
  n->offset = m->offset;
  n->length = m->length;
  return n;
}

void
br__make_typed (br__maker *m, const br__tree *u)
{
  size_t first = m->tree.count;
  if (m->status == BR_OK)
    m->status = br__tree_append (&m->tree, u, u->base);
  for (size_t i = first; i < m->tree.count; i++)
    m->tree.nodes[i].first += first;
}

void
br__make_int (br__maker *m, int64_t n)
{
  br__node *node = new_node (m, BR__OP_NUMBER, 0);
  if (node)
    m->status = br_number_set_int (&node->number.value, n);
}

void
br__make_op (br__maker *m, br__op op)
{
  new_node (m, op, op == BR__OP_NEG ? 1 : 2);
}

void
br__make_call (br__maker *m, br__shape_call call)
{
  br__make_call_of (m, call, br__shape_function (call)->least);
}

void
br__make_call_of (br__maker *m, br__shape_call call, unsigned count)
{
  br__node *n = new_node (m, BR__OP_CALL, count);
  if (n)
    n->function = br__shape_function (call);
}

void
br__make_function (br__maker *m, const br__function *function)
{
  br__node *n = new_node (m, BR__OP_CALL, 1);
  if (n)
    n->function = function;
}

void
br__make_shape_number (br__maker *m, const char *name, size_t length, int part)
{
  br_text t = BR_TEXT_ZERO;
  br__node *n = new_node (m, BR__OP_NAME, 0);
  if (!n)
    return;
  if (!m->share_name || !m->name_length || m->name_length != length || memcmp (m->tree.text + m->name + 1, name, length) != 0)
    {
      size_t before = strlen (m->tree.text);
      br__text_printf (&t, "%s (%.*s)", m->tree.text, (int) length, name);
      char *text = t.failed ? NULL : br__strndup (br__text_string (&t), t.length);
      br__text_clear (&t);
      if (!text)
        {
          m->status = BR_NO_MEMORY;
          return;
        }
      br__free (m->tree.text);
      m->tree.text = text;
      m->name = before + 1;
      m->name_length = length;
    }
  n->word = m->name;
  n->word_length = length + 2;
  n->part = (unsigned) part;
}

static size_t
depth_of (const br__tree *t)
{
  size_t deepest = 0, depth = 0;
  for (size_t i = 0; i < t->count; i++)
    {
      depth += 1;
      depth -= t->nodes[i].count;
      if (depth > deepest)
        deepest = depth;
    }
  return deepest;
}

br_status
br__maker_end (br__definition **d, br__maker *m, br_error *error)
{
  br_status status = m->status;
  m->tree.deepest = depth_of (&m->tree);
  if (status == BR_OK)
    status = br__definition_new (d, m->graph, &m->tree, "", 0, error);
  else
    br__fail_plain (error, status, m->offset, m->length);
  br__tree_clear (&m->tree);
  return status;
}
