/* SPDX-License-Identifier: LGPL-3.0-or-later
   missing.c - lists the names that the sheet still needs and what needs them: dimensions, shapes, and names
   in stock and parts; and everything that uses a dimension.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "shape/shape.h"
#include "statement/statements.h"
#include "wood/wood.h"

/* ---- Stock and parts ---- */

/* A name in the formulas of stock and parts: those of one piece are its sizes, then its quantity.  */
typedef struct use
{
  const br__wood *wood;
  int which;
  size_t node;
  int second;                   /* the second shape of a distance */
  int shape;                    /* NAME is a shape's, not a dimension's */
  const char *name;
  size_t length;
} use;

static const br__tree *
tree_of (const use *u)
{
  return u->which < BR__SIZES ? &u->wood->size[u->which] : &u->wood->quantity;
}

/* Puts the name at U into it.  */
static void
take_name (use *u)
{
  const br__tree *tree = tree_of (u);
  const br__node *node = &tree->nodes[u->node];
  const char *names[2];
  int lengths[2];
  u->shape = node->part != BR__SHAPE_NONE;
  u->name = tree->text + node->word;
  u->length = node->word_length;
  if (u->shape)
    {
      br__node_shapes (names, lengths, tree, node);
      u->name = names[u->second];
      u->length = (size_t) lengths[u->second];
    }
}

/* Goes on to the next name, from before the first where U is zero; 0 past the last.  */
static int
next_use (use *u, const br_sheet *sheet)
{
  if (u->wood && !u->second && tree_of (u)->nodes[u->node].part == BR__SHAPE_CLEAR)
    {
      u->second = 1;
      take_name (u);
      return 1;
    }
  u->second = 0;
  if (u->wood)
    u->node++;
  else
    u->wood = sheet->wood;
  while (u->wood)
    {
      const br__tree *tree = tree_of (u);
      while (u->wood->active && u->node < tree->count && tree->nodes[u->node].op != BR__OP_NAME)
        u->node++;
      if (u->wood->active && u->node < tree->count)
        {
          take_name (u);
          return 1;
        }
      u->node = 0;
      if (u->which++ == BR__SIZES)
        {
          u->which = 0;
          u->wood = u->wood->next;
        }
    }
  return 0;
}

static int
is_use_of (const use *u, int shape, const char *name, size_t length)
{
  return u->shape == shape && u->length == length && memcmp (u->name, name, length) == 0;
}

/* The stock and parts of which a formula names the dimension or the shape NAME.  */
static void
list_wood_users (br_list *list, const br_sheet *sheet, int shape, const char *name, size_t length)
{
  for (use u = { .wood = NULL }; next_use (&u, sheet);)
    if (is_use_of (&u, shape, name, length))
      {
        br_text t = BR_TEXT_ZERO;
        br__text_printf (&t, "%s %s", u.wood->stock ? "stock" : "part", u.wood->name);
        br__list_once (list, &t);
      }
}

/* All that name E.  */
static void
list_users (br_list *list, const br__entry *e, const br_sheet *sheet)
{
  for (const br__edge *edge = br__entry_users (e, NULL); edge; edge = br__entry_users (e, edge))
    br__list_entry (list, edge->user);
  list_wood_users (list, sheet, 0, br__entry_name (e), strlen (br__entry_name (e)));
}

/* ---- Shapes that are not there ---- */

/* The first number of the shape NAME that the formula of USER names.  */
static const br__entry *
first_of_shape (const br__entry *user, const char *name, size_t length)
{
  const br__definition *d = br__entry_definition (user);
  for (size_t i = 0; i < d->edge_count; i++)
    if (br__is_of_shape (d->edges[i].used, name, length))
      return d->edges[i].used;
  return NULL;
}

/* 1 if a formula of the graph uses E.  A distance that is no longer used does not count.  */
static int
is_needed (const br__entry *e)
{
  for (const br__edge *edge = br__entry_users (e, NULL); edge; edge = br__entry_users (e, edge))
    if (br__entry_kind_of (edge->user) != BR__ENTRY_DISTANCE || br__entry_users (edge->user, NULL))
      return 1;
  return 0;
}

/* Lists what uses number PART of the shape NAME; users of several numbers are listed once, at the first.  Instead of a
   distance its users are listed.  */
static void
list_shape_users (br_list *by, const br__entry *part, const char *name, size_t length)
{
  for (const br__edge *edge = br__entry_users (part, NULL); edge; edge = br__entry_users (part, edge))
    if (first_of_shape (edge->user, name, length) != part)
      continue;
    else if (br__entry_kind_of (edge->user) != BR__ENTRY_DISTANCE)
      br__list_entry (by, edge->user);
    else
      for (const br__edge *asks = br__entry_users (edge->user, NULL); asks; asks = br__entry_users (edge->user, asks))
        if (!first_of_shape (asks->user, name, length))
          br__list_entry_once (by, asks->user);
}

/* The first number of the shape NAME that a formula of the graph needs, or NULL.  */
static const br__entry *
first_needed (const br__graph *g, const char *name, size_t length)
{
  for (int i = BR__SHAPE_KIND; i; i = br__shape_next_part (g, name, length, i))
    {
      const br__entry *part = br__shape_entry (g, name, length, i);
      if (part && is_needed (part))
        return part;
    }
  return NULL;
}

/* The shape NAME, which is not there, and all that names any number of it.  */
static br_status
tell_absent (br__run *run, const char *name, size_t length)
{
  br_text t = BR_TEXT_ZERO;
  br_record *r = br__record_new ("missing");
  br__text_printf (&t, "shape %.*s", (int) length, name);
  br__put_from (r, "name", &t);
  br__text_clear (&t);
  br_list *by = br__put_list (r, "needed_by");
  const br__graph *g = run->sheet->graph;
  for (int i = BR__SHAPE_KIND; i; i = br__shape_next_part (g, name, length, i))
    {
      const br__entry *part = br__shape_entry (g, name, length, i);
      if (part)
        list_shape_users (by, part, name, length);
    }
  for (const br__shape *s = run->sheet->shapes; s; s = s->next)
    if (s->active && s->behind && strlen (s->behind) == length && memcmp (s->behind, name, length) == 0)
      {
        br__text_printf (&t, "shape %s", s->name);
        br__list_once (by, &t);
      }
  list_wood_users (by, run->sheet, 1, name, length);
  return br__emit (run, r);
}

static br_status
tell_loose (br__run *run, const char *shape)
{
  br_record *r = br__record_new ("missing");
  br_text t = BR_TEXT_ZERO;
  br__text_printf (&t, "a place for shape %s", shape);
  br__put_from (r, "name", &t);
  br__text_printf (&t, "shape %s", shape);
  br__list_from (br__put_list (r, "needed_by"), &t);
  br__text_clear (&t);
  return br__emit (run, r);
}

/* Once another view than the side has been drawn, what has no depth is missing in it.  A row or a mirror gets that of its shape.  */
static br_status
tell_flat (br__run *run, size_t *count)
{
  static const char *const views[] = { "draw side", "draw top", "draw front", "draw views" };
  br_status status = BR_OK;
  for (const br__shape *s = run->sheet->views_asked > 1 ? run->sheet->shapes : NULL; s && status == BR_OK; s = s->next)
    if (s->active && !s->base && !s->depth && !s->hole)
      {
        br_record *r = br__record_new ("missing");
        br_text t = BR_TEXT_ZERO;
        br__text_printf (&t, "a depth for shape %s", s->name);
        br__put_from (r, "name", &t);
        br_list *by = br__put_list (r, "needed_by");
        for (unsigned i = 1; i < 4; i++)
          if (run->sheet->views_asked >> i & 1)
            br__list_text (by, views[i]);
        br__text_clear (&t);
        status = br__emit (run, r);
        ++*count;
      }
  return status;
}

/* 1 if S is the first shape `behind` a shape that does not exist and that no formula uses.  */
static int
is_behind_nothing (const br__shape *s, const br_sheet *sheet)
{
  size_t length = s->active && s->behind ? strlen (s->behind) : 0;
  if (!length || br__shape_find (sheet, s->behind, length) || first_needed (sheet->graph, s->behind, length))
    return 0;
  for (const br__shape *t = sheet->shapes; t != s; t = t->next)
    if (t->active && t->behind && strcmp (t->behind, s->behind) == 0)
      return 0;
  return 1;
}

static br_status
tell_shapes (br__run *run, size_t *count)
{
  br_status status = BR_OK;
  for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
    if (s->active && s->loose)
      {
        status = tell_loose (run, s->name);
        ++*count;
      }
  for (br__entry *e = br__graph_first (run->sheet->graph); e && status == BR_OK; e = br__entry_next (e))
    {
      const char *name;
      size_t length = br__entry_shape (&name, e);
      /* The places of a loose shape have been reported; of a shape that is not there, once is enough.  */
      if (!length || br__entry_definition (e) || br__shape_find (run->sheet, name, length)
          || first_needed (run->sheet->graph, name, length) != e)
        continue;
      status = tell_absent (run, name, length);
      ++*count;
    }
  for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
    if (is_behind_nothing (s, run->sheet))
      {
        status = tell_absent (run, s->behind, strlen (s->behind));
        ++*count;
      }
  return status == BR_OK ? tell_flat (run, count) : status;
}

/* ---- missing ---- */

/* The dimension NAME, and all that names it.  */
static br_status
tell_name (br__run *run, const char *name, size_t length)
{
  const br__entry *e = br__graph_find (run->sheet->graph, name, length);
  br_record *r = br__record_new ("missing");
  br__put_bytes (r, "name", name, length);
  br_list *by = br__put_list (r, "needed_by");
  if (e)
    list_users (by, e, run->sheet);
  else
    list_wood_users (by, run->sheet, 0, name, length);
  return br__emit (run, r);
}

static br_status
tell_names (br__run *run, size_t *count)
{
  br_status status = BR_OK;
  for (br__entry *e = br__graph_first (run->sheet->graph); e && status == BR_OK; e = br__entry_next (e))
    {
      if (br__is_hidden_entry (e) || br__entry_definition (e) || !br__entry_users (e, NULL))
        continue;
      status = tell_name (run, br__entry_name (e), strlen (br__entry_name (e)));
      ++*count;
    }
  return status;
}

/* 1 if a missing name is used by stock and parts alone, so that it has not been listed yet.  */
static int
is_for_wood_alone (const use *u, const br_sheet *sheet)
{
  if (u->shape
      && (br__shape_find (sheet, u->name, u->length) || first_needed (sheet->graph, u->name, u->length)))
    return 0;
  const br__entry *e = u->shape ? NULL : br__graph_find (sheet->graph, u->name, u->length);
  if (e && (br__entry_definition (e) || br__entry_users (e, NULL)))
    return 0;
  for (use before = { .wood = NULL }; next_use (&before, sheet) && before.name != u->name;)
    if (is_use_of (&before, u->shape, u->name, u->length))
      return 0;
  return 1;
}

/* Dimensions and shapes of which only stock and parts speak.  */
static br_status
tell_wood (br__run *run, size_t *count)
{
  br_status status = BR_OK;
  for (use u = { .wood = NULL }; status == BR_OK && next_use (&u, run->sheet);)
    {
      if (!is_for_wood_alone (&u, run->sheet))
        continue;
      status = u.shape ? tell_absent (run, u.name, u.length) : tell_name (run, u.name, u.length);
      ++*count;
    }
  return status;
}

br_status
br__do_missing (br__run *run)
{
  br_status status = br__end_of_line (run);
  size_t count = 0;
  if (status == BR_OK)
    status = tell_names (run, &count);
  if (status == BR_OK)
    status = tell_shapes (run, &count);
  if (status == BR_OK)
    status = tell_wood (run, &count);
  if (status == BR_OK && !count)
    status = br__remark (run, "nothing is missing: every dimension has a value");
  return status;
}

/* ---- trace ---- */

br_status
br__do_trace (br__run *run)
{
  br__entry *e = NULL;
  br_status status = br__named_entry (run, &e);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status != BR_OK)
    return status;
  const br__definition *d = br__entry_definition (e);
  const br__value *v = br__entry_value (e);
  br_text t = BR_TEXT_ZERO;
  br_record *r = br__record_new ("trace");
  br__put_text (r, "name", br__entry_name (e));
  if (d)
    br__put_bytes (r, "formula", d->tree.text, d->tree.length);
  else
    br__put_null (r, "formula");
  if (v)
    {
      status = br__shown (&t, v, &run->sheet->settings);
      br__put_from (r, "shown", &t);
    }
  else
    br__put_null (r, "shown");
  br_list *uses = br__put_list (r, "uses");
  for (size_t i = 0; d && i < d->edge_count; i++)
    br__list_entry (uses, d->edges[i].used);
  list_users (br__put_list (r, "used_by"), e, run->sheet);
  return br__emit_or_free (run, r, status);
}
