/* SPDX-License-Identifier: LGPL-3.0-or-later
   hidden.c - entries of the graph that are not dimensions: numbers of shapes, and distances between two shapes.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/words.h"
#include "geometry/sketch.h"
#include "sheet/graph_private.h"
#include "sheet/hidden.h"
#include "sheet/maker.h"

void
br__shape_free (br__shape *s)
{
  br__free (s->name);
  br__free (s->note);
  br__free (s->text);
  br__free (s->layer);
  br__free (s->of);
  br__free (s->behind);
  br__free (s->base);
  br__free (s);
}

br__shape *
br__shape_find (const br_sheet *sheet, const char *name, size_t length)
{
  /* The kind's entry is tagged with the shape that was made last under this name.  */
  br__entry *e = br__shape_entry (sheet->graph, name, length, BR__SHAPE_KIND);
  br__shape *s = e && br__entry_definition (e) ? *br__entry_tag (e) : NULL;
  while (s && !s->active)
    s = s->older;
  return s;
}

const br__shape *
br__shape_source (const br_sheet *sheet, const br__shape *s)
{
  const br__shape *base;
  while (s->base && (base = br__shape_find (sheet, s->base, strlen (s->base))) != NULL)
    s = base;
  return s;
}

static const char *const part_names[BR__SHAPE_NUMBERS] =
  { "", "kind", "x", "y", "a", "b", "c", "d", "right", "top", "left", "bottom", "middle_x", "middle_y", "area",
    "perimeter", "z", "z_both", "deep", "base" };

/* Room for "  NAME PART", a number of a shape, and "  (NAME NAME", a distance: no name has a bracket.  */
#define KEY_SIZE (2 * BR__SHAPE_NAME + 16)

/* Looked for many times in each drawing: printf would take most of that.  */
static size_t
key_of (char key[KEY_SIZE], const char *name, size_t length, int part)
{
  size_t n = length > BR__SHAPE_NAME ? BR__SHAPE_NAME : length;
  key[0] = key[1] = ' ';
  memcpy (key + 2, name, n);
  n += 2;
  key[n++] = ' ';
  if (part < BR__SHAPE_NUMBERS)
    {
      length = strlen (part_names[part]);
      memcpy (key + n, part_names[part], length + 1);
      return n + length;
    }
  unsigned number = (unsigned) (part - BR__CORNER_PART (0, 0));
  return n + (size_t) snprintf (key + n, KEY_SIZE - n, "%c%u", "xycdh"[number % BR__CORNER_NUMBERS], number / BR__CORNER_NUMBERS + 1);
}

br__entry *
br__shape_entry_get (br__graph *g, const char *name, size_t length, int part)
{
  char key[KEY_SIZE];
  size_t size = key_of (key, name, length, part);
  br__entry *e = br__graph_get_hidden (g, BR__ENTRY_SHAPE, key, size);
  if (e)
    e->part = part;
  return e;
}

br__entry *
br__shape_entry (const br__graph *g, const char *name, size_t length, int part)
{
  char key[KEY_SIZE];
  size_t size = key_of (key, name, length, part);
  return br__graph_find (g, key, size);
}

size_t
br__shape_corners (const br__graph *g, const char *name, size_t length)
{
  size_t n = 0;
  const br__entry *e;
  while (n < BR__MOST_CORNERS && (e = br__shape_entry (g, name, length, BR__CORNER_PART (n, BR__CORNER_X))) != NULL
         && e->definition)
    n++;
  return n;
}

int
br__shape_next_part (const br__graph *g, const char *name, size_t length, int part)
{
  part = part + 1 == BR__SHAPE_NUMBERS ? BR__CORNER_PART (0, 0) : part + 1;
  if (part < BR__SHAPE_NUMBERS)
    return part;
  return br__shape_entry (g, name, length, part) ? part : BR__SHAPE_NONE;
}

void
br__node_shapes (const char *name[2], int length[2], const br__tree *tree, const br__node *node)
{
  const char *s = tree->text + node->word, *end = s + node->word_length;
  s = memchr (s, '(', node->word_length);
  for (int i = 0; i < 2; i++)
    {
      while (s < end && !br__letter_at (s, (size_t) (end - s), 1))
        s++;
      name[i] = s;
      for (size_t n; s < end && (n = br__letter_at (s, (size_t) (end - s), 1)) > 0; )
        s += n;
      length[i] = s - name[i] < BR__SHAPE_NAME ? (int) (s - name[i]) : BR__SHAPE_NAME;
    }
  size_t shorter = (size_t) (length[0] < length[1] ? length[0] : length[1]);
  int order = memcmp (name[0], name[1], shorter);
  if (node->part != BR__SHAPE_CLEAR || order < 0 || (order == 0 && length[0] <= length[1]))
    return;
  const char *swap = name[0];
  int n = length[0];
  name[0] = name[1], length[0] = length[1];
  name[1] = swap, length[1] = n;
}

size_t
br__entry_shape (const char **name, const br__entry *e)
{
  if (e->kind != BR__ENTRY_SHAPE)
    return 0;
  *name = e->name + 2;
  return (size_t) (strrchr (e->name, ' ') - e->name) - 2;
}

int
br__is_of_shape (const br__entry *e, const char *name, size_t length)
{
  const char *own = e->name;
  return br__entry_shape (&own, e) == length && memcmp (own, name, length) == 0;
}

void
br__put_entry_words (br_text *t, const br__entry *e)
{
  const char *name = NULL, *last = strrchr (e->name, ' ');
  int length = (int) br__entry_shape (&name, e);
  if (e->kind == BR__ENTRY_DISTANCE)
    br__text_printf (t, "clear(%.*s, %s)", (int) (last - e->name - 3), e->name + 3, last + 1);
  else if (e->kind == BR__ENTRY_SHAPE)
    br__text_printf (t, "shape %.*s", length, name);
  else if (e->kind == BR__ENTRY_DRAWN)
    br__text_printf (t, "%.*s", (int) (last - e->name - 1), e->name + 1);
  else
    br__text_puts (t, e->name + (e->kind == BR__ENTRY_MARGIN));         /* behind its blank */
}

size_t
br__shape_base (const char **base, const br__graph *g, const char *name, size_t length)
{
  const br__entry *e = br__shape_entry (g, name, length, BR__SHAPE_BASE);
  return e && e->definition && e->definition->edge_count ? br__entry_shape (base, e->definition->edges[0].used) : 0;
}

/* 1 if the shape NAME is SHAPE, N bytes, or copies it.  */
static int
depends_on_shape (const br__graph *g, const char *name, size_t length, const char *shape, size_t n)
{
  for (; length; length = br__shape_base (&name, g, name, length))
    if (length == n && memcmp (name, shape, n) == 0)
      return 1;
  return 0;
}

/* The numbers of the shape NAME: those of its corners, or of the shape that it copies, stand behind the others.  */
static unsigned
put_numbers (br__maker *m, const char *name, size_t length)
{
  const char *base = NULL;
  size_t base_length = br__shape_base (&base, m->graph, name, length);
  unsigned corners = (unsigned) br__shape_corners (m->graph, name, length);
  for (int part = BR__SHAPE_KIND; part <= BR__SHAPE_D; part++)
    br__make_shape_number (m, name, length, part);
  for (unsigned i = 0; i < corners * BR__CORNER_NUMBERS; i++)
    br__make_shape_number (m, name, length, BR__CORNER_PART (0, 0) + (int) i);
  return BR__SHAPE_D - BR__SHAPE_KIND + 1 + corners * BR__CORNER_NUMBERS
         + (base_length ? put_numbers (m, base, base_length) : 0);
}

static int
has_number (const br__graph *g, const char *name, int length, int part)
{
  const br__entry *e = br__shape_entry (g, name, (size_t) length, part);
  return e && e->definition;
}

/* From how far two shapes are apart seen from the side, the value before it: with their depths, where both have one.  What
   copies a shape has its depth.  */
static void
put_depths (br__maker *m, const char *const written[2], const int written_length[2])
{
  const char *name[] = { written[0], written[1] };
  int length[] = { written_length[0], written_length[1] }, any = 0;
  for (int i = 0; i < 2; i++)
    {
      const char *base = NULL;
      size_t n;
      while (!has_number (m->graph, name[i], length[i], BR__SHAPE_DEEP)
             && (n = br__shape_base (&base, m->graph, name[i], (size_t) length[i])) > 0)
        name[i] = base, length[i] = (int) n;
      if (!has_number (m->graph, name[i], length[i], BR__SHAPE_DEEP))
        return;
    }
  for (int i = 0; i < 2; i++)
    {
      int pair = has_number (m->graph, name[i], length[i], BR__SHAPE_Z_BOTH);
      br__make_shape_number (m, name[i], (size_t) length[i], pair ? BR__SHAPE_Z_BOTH : BR__SHAPE_Z);
      br__make_shape_number (m, name[i], (size_t) length[i], BR__SHAPE_DEEP);
      any |= pair;
    }
  br__make_call (m, any ? BR__CALL_APART_BOTH : BR__CALL_APART);
}

/* 1 if both have the same nodes.  */
static int
is_same_formula (const br__tree *a, const br__tree *b)
{
  size_t n = a->count == b->count ? a->count : 0;
  for (size_t i = 0; i < n; i++)
    if (a->nodes[i].op != b->nodes[i].op || a->nodes[i].count != b->nodes[i].count || a->nodes[i].part != b->nodes[i].part)
      return 0;
  return n > 0;
}

/* Gives the entry E of clear(NAME, NAME) its formula, where that is not what it has.  */
static br_status
define_clear (br__graph *g, br__entry *e, const char *const name[2], const int length[2], br__moves *moves)
{
  br__definition *d = NULL;
  const br__definition *old = br__entry_definition (e);
  br__maker m;
  br__maker_start (&m, g, "", 0, 0);
  m.share_name = 1;
  unsigned count = 0;
  const char *base;
  int copies = 0;
  for (int i = 0; i < 2; i++)
    {
      count += put_numbers (&m, name[i], (size_t) length[i]);
      copies |= br__shape_base (&base, g, name[i], (size_t) length[i]) != 0;
    }
  br__make_call_of (&m, BR__CALL_CLEAR, count);
  put_depths (&m, name, length);
  /* A copy may now have another original, so its formula is not kept.  */
  if (m.status == BR_OK && old && !copies && is_same_formula (&old->tree, &m.tree))
    {
      br__tree_clear (&m.tree);
      return BR_OK;
    }
  br_status status = br__maker_end (&d, &m, NULL);
  if (status == BR_OK)
    status = br__graph_define (g, e, &d, br__graph_settings (g), moves, NULL);
  br__definition_free (d);
  return status;
}

/* The hidden entry of clear(NAME, NAME), which is defined when it is first asked for.  */
static br__entry *
clear_entry (br__graph *g, const char *name[2], const int length[2], int make)
{
  char key[KEY_SIZE];
  size_t size = (size_t) snprintf (key, sizeof key, "  (%.*s %.*s", length[0], name[0], length[1], name[1]);
  br__entry *e = make ? br__graph_get_hidden (g, BR__ENTRY_DISTANCE, key, size) : br__graph_find (g, key, size);
  if (!e || br__entry_definition (e) || !make)
    return e;
  g->distances++;
  /* Without a definition it is reported to have no value.  */
  return define_clear (g, e, name, length, NULL) == BR_NO_MEMORY ? NULL : e;
}

br_status
br__distances_refresh (br__graph *g, const char *shape, size_t n, br__moves *moves, br_error *error)
{
  br_status status = BR_OK;
  /* The distance to a shape or to a copy of it uses the entry of its kind; without users of that, there are no distances.  */
  const br__entry *shape_kind = br__shape_entry (g, shape, n, BR__SHAPE_KIND);
  for (br__entry *e = shape_kind && shape_kind->users && g->distances ? g->first : NULL; e && status == BR_OK; e = e->next)
    {
      if (e->kind != BR__ENTRY_DISTANCE || !e->definition)
        continue;
      const char *first = e->name + 3, *last = strrchr (first, ' ');
      const char *const name[] = { first, last + 1 };
      const int length[] = { (int) (last - first), (int) strlen (last + 1) };
      br__moves some = BR__MOVES_ZERO;
      if (!depends_on_shape (g, first, (size_t) length[0], shape, n)
          && !depends_on_shape (g, last + 1, (size_t) length[1], shape, n))
        continue;
      status = define_clear (g, e, name, length, &some);
      if (status == BR_OK && moves)
        status = br__moves_join (moves, &some, g, error);
      br__moves_clear (&some);
    }
  return status == BR_NO_MEMORY ? br__fail_plain (error, status, 0, 0) : BR_OK;
}

br__entry *
br__node_entry (br__graph *g, const br__tree *tree, const br__node *node, int make)
{
  const char *name[2];
  int length[2];
  if (!node->part)
    return make ? br__graph_get (g, tree->text + node->word, node->word_length)
                : br__graph_find (g, tree->text + node->word, node->word_length);
  br__node_shapes (name, length, tree, node);
  if (node->part == BR__SHAPE_CLEAR)
    return clear_entry (g, name, length, make);
  return make ? br__shape_entry_get (g, name[0], (size_t) length[0], (int) node->part)
              : br__shape_entry (g, name[0], (size_t) length[0], (int) node->part);
}

/* The number of the shape whose name is nearest to LENGTH bytes at NAME, or NULL.  */
static const br__entry *
nearest_shape (const br__graph *g, const char *name, size_t length)
{
  br__search search;
  const br__entry *best = NULL;
  br__search_start (&search, name, length);
  /* Some ten entries are of one shape.  */
  size_t left = 4 * BR__MOST_OFFERED;
  for (const br__entry *e = g->first; e && left > 0; e = e->next, left--)
    {
      char own[BR__SHAPE_NAME + 1];
      const char *start = NULL, *was = search.best;
      size_t size = br__entry_shape (&start, e);
      if (!start || e->part != BR__SHAPE_KIND || !e->definition)
        continue;
      memcpy (own, start, size);
      own[size] = 0;
      br__search_offer (&search, own);
      if (search.best != was)
        {
          best = e;
          search.best = "";     /* OWN is gone soon */
        }
    }
  return best;
}

br_status
br__no_shape (const br__graph *g, const br__tree *tree, const br__node *node, br_error *error)
{
  const char *name[2];
  int length[2];
  if (!error)
    return BR_DOMAIN;
  br__node_shapes (name, length, tree, node);
  int second = name[1] < name[0];       /* which of them was written first */
  for (int i = 0; i < 2; i++)
    {
      const char *s = name[i ^ second];
      size_t n = (size_t) length[i ^ second];
      br__entry *kind = n ? br__shape_entry (g, s, n, BR__SHAPE_KIND) : NULL;
      if (!n || (kind && kind->definition))
        continue;
      br__fail (error, BR_DOMAIN, 0, 0, "there is no shape called `%.*s`", br__clip (s, n, 60), s);
      const br__entry *near = nearest_shape (g, s, n);
      size_t size = near ? br__entry_shape (&s, near) : 0;
      if (near)
        br__hint (error, "did you mean `%.*s`?", (int) size, s);
      else
        br__hint (error, "a shape is made by circle, box, arc, line, outline, row or mirror");
      return BR_DOMAIN;
    }
  br__fail (error, BR_DOMAIN, 0, 0, "a shape that it names has no value yet");
  br__hint (error, "`missing` tells what is still needed");
  return BR_DOMAIN;
}
