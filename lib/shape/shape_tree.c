/* SPDX-License-Identifier: LGPL-3.0-or-later
   shape_tree.c - the hidden formulas of a shape.  Each is made over a copy of the statement's line, so
   that a mistake in what was typed is told with its place; names that the formula needs besides
   stand behind the line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/shape.h"

static const char *const part_names[BR__PARTS] =
  { "", "kind", "x", "y", "a", "b", "c", "d", "right", "top", "left", "bottom" };

/* ---- Names of entries ---- */

/* Room for "  NAME PART", a number of a shape, and "  (NAME NAME", a distance: no name has a bracket.  */
#define KEY_SIZE (2 * BR__SHAPE_NAME + 16)

static size_t
key_of (char key[KEY_SIZE], const char *name, size_t length, int part)
{
  if (length > BR__SHAPE_NAME)
    length = BR__SHAPE_NAME;
  return (size_t) snprintf (key, KEY_SIZE, "  %.*s %s", (int) length, name, part_names[part]);
}

br__entry *
br__shape_entry (const br__graph *g, const char *name, size_t length, int part)
{
  char key[KEY_SIZE];
  size_t size = key_of (key, name, length, part);
  return br__graph_find (g, key, size);
}

const br__value *
br__shape_value (const br_sheet *sheet, const br__shape *s, int part)
{
  br__entry *e = br__shape_entry (sheet->graph, s->name, strlen (s->name), part);
  return e ? br__entry_value (e) : NULL;
}

int
br__shape_word (const char *word, size_t length)
{
  static const struct { const char *word; int part; } words[] =
  {
    { "clear", BR__PART_CLEAR }, { "left", BR__PART_SIDE_LEFT }, { "right", BR__PART_SIDE_RIGHT },
    { "top", BR__PART_SIDE_TOP }, { "bottom", BR__PART_SIDE_BOTTOM }, { "centre_x", BR__PART_X },
    { "centre_y", BR__PART_Y }, { "center_x", BR__PART_X }, { "center_y", BR__PART_Y }
  };
  for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
    if (br__same_word (word, length, words[i].word))
      return words[i].part;
  return BR__PART_NONE;
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
  if (node->part != BR__PART_CLEAR || order < 0 || (order == 0 && length[0] <= length[1]))
    return;
  const char *swap = name[0];
  int n = length[0];
  name[0] = name[1], length[0] = length[1];
  name[1] = swap, length[1] = n;
}

int
br__is_distance_entry (const br__entry *e)
{
  return strncmp (br__entry_name (e), "  (", 3) == 0;
}

void
br__put_entry_words (br_text *t, const br__entry *e)
{
  const char *name = br__entry_name (e), *last = strrchr (name, ' ');
  if (name[0] != ' ' || name[1] != ' ' || !last)
    br__text_puts (t, name);
  else if (br__is_distance_entry (e))
    br__text_printf (t, "clear(%.*s, %s)", (int) (last - name - 3), name + 3, last + 1);
  else
    br__text_printf (t, "shape %.*s", (int) (last - name - 2), name + 2);
}

/* ---- Making trees ---- */

typedef struct maker
{
  br__graph *graph;
  const br__settings *settings;
  br__tree tree;
  size_t offset, length;        /* where errors of what was not typed are placed */
  br_status status;
} maker;

static void
maker_start (maker *m, br__run *run)
{
  memset (m, 0, sizeof *m);
  m->graph = run->sheet->graph;
  m->settings = &run->sheet->settings;
  m->offset = run->word.offset;
  m->length = run->end - run->word.offset;
  m->tree.text = br__strndup (run->text, run->end);
  m->tree.length = run->end;
  m->status = m->tree.text ? BR_OK : BR_NO_MEMORY;
}

static br__node *
new_node (maker *m, br__op op, unsigned count)
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

/* What was typed as U.  */
static void
put_typed (maker *m, const br__tree *u)
{
  size_t first = m->tree.count;
  if (m->status == BR_OK)
    m->status = br__tree_append (&m->tree, u, u->base);
  for (size_t i = first; i < m->tree.count; i++)
    m->tree.nodes[i].first += first;
}

static void
put_int (maker *m, int64_t n)
{
  br__node *node = new_node (m, BR__OP_NUMBER, 0);
  if (node)
    m->status = br_number_set_int (&node->number.value, n);
}

static void
put_op (maker *m, br__op op)
{
  new_node (m, op, op == BR__OP_NEG ? 1 : 2);
}

static void
put_half (maker *m)
{
  put_int (m, 2);
  put_op (m, BR__OP_DIV);
}

static void
put_call (maker *m, br__shape_call call)
{
  const br__function *f = br__shape_function (call);
  br__node *n = new_node (m, BR__OP_CALL, f->least);
  if (n)
    n->function = f;
}

/* Number PART of the shape that LENGTH bytes at NAME call.  */
static void
put_part (maker *m, const char *name, size_t length, int part)
{
  br_text t = BR_TEXT_ZERO;
  br__node *n = new_node (m, BR__OP_NAME, 0);
  if (!n)
    return;
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
  n->word = before + 1;
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

/* Takes the tree of M as a definition.  */
static br_status
maker_end (br__definition **d, maker *m, br_error *error)
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

/* ---- Defining entries ---- */

/* Gives the entry of PART the definition *D (which may be NULL) as a change.  */
static br_status
define (br__run *run, const char *name, size_t length, int part, br__definition **d, br__moves *moves)
{
  char key[KEY_SIZE];
  br__moves some = BR__MOVES_ZERO;
  size_t size = key_of (key, name, length, part);
  br__entry *e = br__graph_get (run->sheet->graph, key, size);
  br_status status = e ? br__change_define (run, e, d, &some)
                       : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    status = br__moves_join (moves, &some, run->error);
  br__moves_clear (&some);
  br__definition_free (*d);
  *d = NULL;
  return status;
}

br_status
br__shape_undefine (br__run *run, const char *name, br__moves *moves)
{
  br_status status = BR_OK;
  for (int i = BR__PARTS; i-- > BR__PART_KIND && status == BR_OK; )
    {
      br__definition *none = NULL;
      br__entry *e = br__shape_entry (run->sheet->graph, name, strlen (name), i);
      if (e && br__entry_definition (e))
        status = define (run, name, strlen (name), i, &none, moves);
    }
  return status;
}

/* ---- Sizes ---- */

static void
put_own (maker *m, const br__shape_draft *d, int part)
{
  put_part (m, d->name, d->name_length, part);
}

static void
put_size (maker *m, const br__tree *t, br__shape_call call)
{
  put_typed (m, t);
  put_call (m, call);
}

static void
put_place (maker *m, const br__tree *t)
{
  put_size (m, t, BR__CALL_LENGTH);
}

/* From the start of a line to its end, along one way: index 0 or 1.  */
static void
put_run (maker *m, const br__shape_draft *d, int way)
{
  put_place (m, &d->at[2 + way]);
  put_place (m, &d->at[way]);
  put_op (m, BR__OP_SUB);
}

static void
put_arc_size (maker *m, const br__shape_draft *d, int part)
{
  if (part == BR__PART_A && d->wheel)
    {
      put_part (m, d->wheel, strlen (d->wheel), BR__PART_KIND);
      put_part (m, d->wheel, strlen (d->wheel), BR__PART_A);
      put_typed (m, &d->size[0]);
      put_call (m, BR__CALL_FENDER);
    }
  else if (part == BR__PART_A)
    put_size (m, &d->size[0], BR__CALL_RADIUS);
  else if (part == BR__PART_B)
    {
      put_own (m, d, BR__PART_A);
      if (d->size[1].count)
        {
          put_size (m, &d->size[1], BR__CALL_THICKNESS);
          put_op (m, BR__OP_ADD);
        }
    }
  else if (part == BR__PART_D && d->size[2].count)
    put_size (m, &d->size[2], BR__CALL_TURN);
  else if (part == BR__PART_D)
    put_int (m, 180), put_call (m, BR__CALL_TURN);
  else if (d->size[3].count)
    put_size (m, &d->size[3], BR__CALL_ANGLE);
  else
    {
      /* Half of it on either side of the top.  */
      put_int (m, 90);
      put_call (m, BR__CALL_ANGLE);
      put_own (m, d, BR__PART_D);
      put_half (m);
      put_op (m, BR__OP_SUB);
    }
}

static void
put_number_of (maker *m, const br__shape_draft *d, int part)
{
  if (d->kind == BR__ARC)
    put_arc_size (m, d, part);
  else if (d->kind == BR__CIRCLE && part == BR__PART_A)
    {
      put_size (m, &d->size[0], BR__CALL_DIAMETER);
      put_half (m);
    }
  else if (d->kind == BR__BOX && part <= BR__PART_B)
    put_size (m, &d->size[part - BR__PART_A], part == BR__PART_A ? BR__CALL_WIDTH : BR__CALL_HEIGHT);
  else if (d->kind == BR__LINE && part == BR__PART_A)
    {
      put_run (m, d, 0);
      put_run (m, d, 1);
      put_call (m, BR__CALL_RUN);
    }
  else if (d->kind == BR__LINE && part == BR__PART_B)
    put_run (m, d, 1);
  else if (d->kind == BR__LINE && part == BR__PART_C && d->size[0].count)
    put_size (m, &d->size[0], BR__CALL_THICKNESS);
  else
    put_int (m, 0), put_call (m, BR__CALL_LENGTH);
}

static void
put_reach (maker *m, const br__shape_draft *d, int part)
{
  int level = part == BR__PART_RIGHT || part == BR__PART_LEFT;
  if (d->kind == BR__ARC || d->kind == BR__LINE)
    {
      put_int (m, d->kind);
      put_int (m, part - BR__PART_RIGHT);
      put_int (m, 0);
      for (int i = BR__PART_A; i <= BR__PART_D; i++)
        put_own (m, d, i);
      put_call (m, BR__CALL_REACH);
      return;
    }
  put_own (m, d, d->kind == BR__CIRCLE || level ? BR__PART_A : BR__PART_B);
  if (d->kind == BR__BOX)
    put_half (m);
  if (part == BR__PART_LEFT || part == BR__PART_BOTTOM)
    put_op (m, BR__OP_NEG);
}

/* ---- Places ---- */

static void
put_base (maker *m, const br__shape_draft *d, int part)
{
  put_part (m, d->base, strlen (d->base), part);
}

/* A side of the base less the own reach FACING: there the two meet.  */
static void
put_touching (maker *m, const br__shape_draft *d, int centre, int side, int facing)
{
  put_base (m, d, centre);
  put_base (m, d, side);
  put_op (m, BR__OP_ADD);
  put_own (m, d, facing);
  put_op (m, BR__OP_SUB);
}

/* The middles of both, one over the other: LOW and HIGH are the reaches on that axis.  */
static void
put_middle (maker *m, const br__shape_draft *d, int centre, int low, int high)
{
  put_base (m, d, centre);
  put_base (m, d, low);
  put_base (m, d, high);
  put_op (m, BR__OP_ADD);
  put_half (m);
  put_op (m, BR__OP_ADD);
  put_own (m, d, low);
  put_own (m, d, high);
  put_op (m, BR__OP_ADD);
  put_half (m);
  put_op (m, BR__OP_SUB);
}

static void
put_offset (maker *m, const br__tree *t, br__op op)
{
  if (!t->count)
    return;
  put_place (m, t);
  put_op (m, op);
}

/* The centre along one axis: PART is BR__PART_X or BR__PART_Y.  */
static void
put_relative (maker *m, const br__shape_draft *d, int part)
{
  int level = part == BR__PART_X;
  int low = level ? BR__PART_LEFT : BR__PART_BOTTOM, high = level ? BR__PART_RIGHT : BR__PART_TOP;
  int beside = d->relation == BR__LEFT_OF || d->relation == BR__RIGHT_OF;
  int after = d->relation == BR__ABOVE || d->relation == BR__RIGHT_OF;
  static const int flush_part[] = { BR__PART_RIGHT, BR__PART_TOP, BR__PART_LEFT, BR__PART_BOTTOM };

  if (d->relation == BR__CENTRED)
    {
      put_base (m, d, part);
      if (level)
        put_offset (m, &d->shift, BR__OP_ADD);
    }
  else if (beside == level)
    {
      put_touching (m, d, part, after ? high : low, after ? low : high);
      put_offset (m, &d->gap, after ? BR__OP_ADD : BR__OP_SUB);
    }
  else
    {
      if (d->flush)
        put_touching (m, d, part, flush_part[d->flush - 1], flush_part[d->flush - 1]);
      else
        put_middle (m, d, part, low, high);
      put_offset (m, &d->shift, BR__OP_ADD);
    }
}

static void
put_centre (maker *m, const br__shape_draft *d, int part)
{
  const br__tree *at = &d->at[part - BR__PART_X];
  if (d->kind == BR__LINE)
    {
      put_place (m, at);
      put_own (m, d, part == BR__PART_X ? BR__PART_A : BR__PART_B);
      put_half (m);
      put_op (m, BR__OP_ADD);
    }
  else if (d->wheel && !d->placed && !d->relation)
    put_part (m, d->wheel, strlen (d->wheel), part);
  else if (d->relation)
    put_relative (m, d, part);
  else
    {
      put_place (m, at);
      if (d->kind == BR__BOX)
        {
          put_own (m, d, part == BR__PART_X ? BR__PART_LEFT : BR__PART_BOTTOM);
          put_op (m, BR__OP_SUB);
        }
    }
}

br_status
br__shape_define (br__run *run, const br__shape_draft *d, br__moves *moves)
{
  br_status status = BR_OK;
  int loose = !d->placed && !d->relation && !d->wheel && d->kind != BR__LINE;
  for (int i = BR__PARTS; i-- > BR__PART_KIND && status == BR_OK; )
    {
      /* The kind comes last: until then, what asks for the distance to this shape waits.  */
      int part = i;
      br__definition *made = NULL;
      maker m;
      if (loose && (part == BR__PART_X || part == BR__PART_Y))
        continue;
      maker_start (&m, run);
      if (part == BR__PART_KIND)
        put_int (&m, d->kind);
      else if (part <= BR__PART_Y)
        put_centre (&m, d, part);
      else if (part <= BR__PART_D)
        put_number_of (&m, d, part);
      else
        put_reach (&m, d, part);
      status = maker_end (&made, &m, run->error);
      if (status == BR_OK)
        status = define (run, d->name, d->name_length, part, &made, moves);
    }
  return status;
}

/* ---- Names in formulas ---- */

/* The hidden entry of clear(NAME, NAME), which is defined when it is first asked for.  */
static br__entry *
clear_entry (br__graph *g, const char *name[2], const int length[2], int make)
{
  char key[KEY_SIZE];
  br__definition *d = NULL;
  size_t size = (size_t) snprintf (key, sizeof key, "  (%.*s %.*s", length[0], name[0], length[1], name[1]);
  br__entry *e = make ? br__graph_get (g, key, size) : br__graph_find (g, key, size);
  if (!e || br__entry_definition (e) || !make)
    return e;
  maker m = { .graph = g, .settings = br__graph_settings (g) };
  m.tree.text = br__strndup ("", 0);
  m.status = m.tree.text ? BR_OK : BR_NO_MEMORY;
  for (int i = 0; i < 2; i++)
    for (int part = BR__PART_KIND; part <= BR__PART_D; part++)
      put_part (&m, name[i], (size_t) length[i], part);
  put_call (&m, BR__CALL_CLEAR);
  br_status status = maker_end (&d, &m, NULL);
  if (status == BR_OK)
    status = br__graph_define (g, e, &d, br__graph_settings (g), NULL, NULL);
  br__definition_free (d);
  /* Without a definition it is told to have no value.  */
  return status == BR_NO_MEMORY ? NULL : e;
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
  if (node->part == BR__PART_CLEAR)
    return clear_entry (g, name, length, make);
  char key[KEY_SIZE];
  size_t size = key_of (key, name[0], (size_t) length[0], (int) node->part);
  return make ? br__graph_get (g, key, size) : br__graph_find (g, key, size);
}
