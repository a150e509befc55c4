/* SPDX-License-Identifier: LGPL-3.0-or-later
   graph.c - entries, their names and definitions.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/graph_private.h"
#include "sheet/hidden.h"
#include "formula/words.h"

br__graph *
br__graph_new (const br__settings *settings)
{
  br__graph *g = br__alloc_zero (1, sizeof *g);
  if (g)
    g->settings = settings;
  return g;
}

const br__settings *br__graph_settings (const br__graph *g) { return g->settings; }
void br__graph_set_settings (br__graph *g, const br__settings *settings) { g->settings = settings; }

static char no_note[] = "";

void
br__definition_take_note (br__definition *d, char *note)
{
  if (d->note != no_note)
    br__free (d->note);
  d->note = note;
}

void
br__definition_free (br__definition *d)
{
  if (!d)
    return;
  br__tree_clear (&d->tree);
  br__free (d->edges);
  if (d->note != no_note)
    br__free (d->note);
  br__free (d->tolerance_text);
  br__value_clear (&d->tolerance);
  br__free (d);
}

void
br__graph_free (br__graph *g)
{
  if (!g)
    return;
  br__free (g->slots);
  for (br__entry *e = g->first, *next; e; e = next)
    {
      next = e->next;
      br__definition_free (e->definition);
      br__value_clear (&e->value);
      br__free (e);
    }
  br__free (g);
}

const char *br__entry_name (const br__entry *e) { return e->name; }
const br__definition *br__entry_definition (const br__entry *e) { return e->definition; }

const br__value *
br__entry_value (const br__entry *e)
{
  return e->has_value ? &e->value : NULL;
}

const br__edge *
br__entry_users (const br__entry *e, const br__edge *after)
{
  return after ? after->next : e->users;
}

void **br__entry_tag (br__entry *e) { return &e->tag; }
void **br__entry_tolerance (br__entry *e) { return &e->tolerance; }
void **br__entry_check (br__entry *e) { return &e->check; }
unsigned *br__entry_told (br__entry *e) { return &e->told; }
void br__graph_count_tolerance (br__graph *g, int more) { g->tolerances += (size_t) more; }
size_t br__graph_tolerances (const br__graph *g) { return g->tolerances; }
unsigned long br__graph_mark (br__graph *g) { return ++g->stamp; }
int br__mark_has (const br__entry *e, unsigned long mark) { return e->marked == mark; }
br__entry *br__graph_first (const br__graph *g) { return g->first; }
br__entry *br__entry_next (const br__entry *e) { return e->next; }
size_t br__graph_waiting (const br__graph *g) { return g->waiting; }

static inline char
without_capital (char c)
{
  return c >= 'A' && c <= 'Z' ? (char) (c | 0x20) : c;
}

/* FNV-1a (Fowler, Noll, Vo) of the letters without capitals, so that names that differ by these alone stand together.  */
uint32_t
br__name_hash (const char *name, size_t length)
{
  uint64_t hash = UINT64_C (0xcbf29ce484222325);
  for (size_t i = 0; i < length; i++)
    hash = (hash ^ (unsigned char) without_capital (name[i])) * UINT64_C (0x100000001b3);
  return (uint32_t) (hash ^ hash >> 32);
}

/* The next entry of HASH from the slot *AT on, which goes past it; NULL where there is none.  */
static br__entry *
next_of_hash (size_t *at, const br__graph *g, uint32_t hash)
{
  const br__name_slot *slot;
  while (g->slots && (slot = &g->slots[(*at)++ & (g->slot_count - 1)])->entry)
    if (slot->hash == hash)
      return slot->entry;
  return NULL;
}

br__entry *
br__graph_find (const br__graph *g, const char *name, size_t length)
{
  uint32_t hash = br__name_hash (name, length);
  size_t at = hash;
  br__entry *e;
  while ((e = next_of_hash (&at, g, hash)) && (strncmp (e->name, name, length) != 0 || e->name[length]))
    ;
  return e;
}

static void
put_in_slot (br__name_slot *slots, size_t count, br__entry *e, uint32_t hash)
{
  size_t at = hash;
  while (slots[at & (count - 1)].entry)
    at++;
  slots[at & (count - 1)] = (br__name_slot) { e, hash };
}

/* Room for one name more; 0 out of memory.  */
static int
grow_slots (br__graph *g)
{
  size_t count = g->slot_count ? 2 * g->slot_count : 16;
  if (g->slots_used + 1 <= g->slot_count / 4 * 3)
    return 1;
  br__name_slot *slots = br__alloc_zero (count, sizeof *slots);
  if (!slots)
    return 0;
  for (size_t i = 0; i < g->slot_count; i++)
    if (g->slots[i].entry)
      put_in_slot (slots, count, g->slots[i].entry, g->slots[i].hash);
  br__free (g->slots);
  g->slots = slots;
  g->slot_count = count;
  return 1;
}

size_t br__graph_size (const br__graph *g) { return g->slots_used; }
br__entry_kind br__entry_kind_of (const br__entry *e) { return e->kind; }
int br__is_hidden_entry (const br__entry *e) { return e->kind != BR__ENTRY_DIMENSION; }

br__entry *
br__graph_get (br__graph *g, const char *name, size_t length)
{
  return br__graph_get_hidden (g, BR__ENTRY_DIMENSION, name, length);
}

br__entry *
br__graph_get_hidden (br__graph *g, br__entry_kind kind, const char *name, size_t length)
{
  br__entry *e = br__graph_find (g, name, length);
  if (e)
    return e;
  e = grow_slots (g) ? br__alloc_zero (1, sizeof *e + length + 1) : NULL;
  if (!e)
    return NULL;
  e->kind = kind;
  memcpy (e->name, name, length);
  put_in_slot (g->slots, g->slot_count, e, br__name_hash (name, length));
  g->slots_used++;
  if (g->last)
    g->last->next = e;
  else
    g->first = e;
  g->last = e;
  return e;
}

int
br__entry_push (br__entry_stack *s, br__entry *e)
{
  if (!br__grow (&s->rows, &s->room, s->count + 1, sizeof *s->rows))
    return 0;
  s->rows[s->count++] = e;
  return 1;
}

int
br__mark_add (br__entry *e, unsigned long mark)
{
  int new = e->marked != mark;
  e->marked = mark;
  return new;
}

/* The walk stops at entries that wait: all their users wait, too.  */
br_status
br__users_of (br__entry ***rows, size_t *found, br__entry *const *seeds, size_t count, unsigned long mark)
{
  br__entry_stack walk = { NULL, 0, 0 };
  int enough = 1;
  for (size_t i = 0; i < count && enough; i++)
    enough = !br__mark_add (seeds[i], mark) || br__entry_push (&walk, seeds[i]);
  for (size_t i = 0; i < walk.count && enough; i++)
    for (const br__edge *edge = walk.rows[i]->has_value ? walk.rows[i]->users : NULL; edge && enough; edge = edge->next)
      enough = !br__mark_add (edge->user, mark) || br__entry_push (&walk, edge->user);
  *rows = walk.rows;
  *found = walk.count;
  return enough ? BR_OK : BR_NO_MEMORY;
}

br_status
br__mark_users (br__entry *const *seeds, size_t count, unsigned long mark)
{
  br__entry **rows = NULL;
  size_t found = 0;
  br_status status = br__users_of (&rows, &found, seeds, count, mark);
  br__free (rows);
  return status;
}

int
br__entry_undecided (br__graph *g, br__entry *e)
{
  br__entry_stack walk = { NULL, 0, 0 };
  int enough = br__entry_push (&walk, e), missing = 0;
  g->stamp++;
  for (size_t i = 0; enough && i < walk.count && !missing; i++)
    {
      const br__definition *d = walk.rows[i]->definition;
      missing = !d && walk.rows[i]->kind != BR__ENTRY_DISTANCE;
      for (size_t k = 0; enough && d && k < d->edge_count; k++)
        {
          br__entry *used = d->edges[k].used;
          if (used->has_value || used->visited == g->stamp)
            continue;
          used->visited = g->stamp;
          enough = br__entry_push (&walk, used);
        }
    }
  br__free (walk.rows);
  return enough && !missing;
}

void
br__moves_clear (br__moves *m)
{
  for (size_t i = 0; i < m->count; i++)
    br__value_clear (&m->rows[i].before);
  br__free (m->rows);
  memset (m, 0, sizeof *m);
}

/* Ties each name of the tree to its entry, with one edge for each entry however often it is
   named.  */
static br_status
tie_names (br__definition *d, br__graph *g)
{
  size_t room = 0;
  /* First all entries: to make one may be a walk of its own.  */
  for (size_t i = 0; i < d->tree.count; i++)
    if (d->tree.nodes[i].op == BR__OP_NAME)
      d->tree.nodes[i].entry = br__node_entry (g, &d->tree, &d->tree.nodes[i], 1);
  unsigned long stamp = ++g->stamp;
  for (size_t i = 0; i < d->tree.count; i++)
    {
      br__node *n = &d->tree.nodes[i];
      if (n->op != BR__OP_NAME)
        continue;
      if (!n->entry || !br__grow (&d->edges, &room, d->edge_count + 1, sizeof (br__edge)))
        return BR_NO_MEMORY;
      if (n->entry->visited == stamp)
        continue;
      n->entry->visited = stamp;
      memset (&d->edges[d->edge_count], 0, sizeof (br__edge));
      d->edges[d->edge_count++].used = n->entry;
    }
  return br__trim (&d->edges, &room, d->edge_count, sizeof (br__edge)) ? BR_OK : BR_NO_MEMORY;
}

br_status
br__definition_new (br__definition **d, br__graph *g, br__tree *tree, const char *note,
                    size_t note_length, br_error *error)
{
  br__definition *made = br__alloc_zero (1, sizeof *made);
  br_status status = made ? BR_OK : BR_NO_MEMORY;
  size_t base = tree->base;
  if (made)
    {
      made->tree = *tree;
      memset (tree, 0, sizeof *tree);
      made->note = note_length ? br__strndup (note, note_length) : no_note;
      status = made->note && br__trim (&made->tree.nodes, &made->tree.room, made->tree.count, sizeof (br__node))
               ? tie_names (made, g) : BR_NO_MEMORY;
    }
  else
    br__tree_clear (tree);
  if (status != BR_OK)
    {
      br__definition_free (made);
      return br__fail_plain (error, status, base, 0);
    }
  *d = made;
  return BR_OK;
}

const char *
br__graph_near (const br__graph *g, const br__entry *e, const char *name)
{
  size_t left = BR__MOST_OFFERED;
  br__search search;
  br__search_start (&search, name, strlen (name));
  for (br__entry *other = g->first; other && left > 0; other = other->next, left--)
    if (other != e && other->definition && !br__is_hidden_entry (other))
      br__search_offer (&search, other->name);
  return search.best;
}

/* S of N bytes is OTHER with two neighbours exchanged, with a letter twice that stands there once, or the other way round.  Of
   longer names one letter within may be missing.  */
static int
is_slip (const char *s, size_t n, const char *other)
{
  const size_t m = strlen (other), least = n < m ? n : m;
  size_t front = 0, back = 0;
  if (n > m + 1 || m > n + 1 || least < 4)
    return 0;
  while (front < least && s[front] == other[front])
    front++;
  while (back < least - front && s[n - 1 - back] == other[m - 1 - back])
    back++;
  if (n == m)
    return front + back + 2 == n && s[front] == other[front + 1] && s[front + 1] == other[front];
  const char *longer = n > m ? s : other;
  return front + back == least && front && longer[front] != '_' && (longer[front] == longer[front - 1] || (back && least >= 5));
}

#define LOOKED_AT 200           /* names: no more is looked at for each new one */

const char *
br__graph_slip (const br__graph *g, const br__entry *e)
{
  size_t left = LOOKED_AT;
  const size_t n = strlen (e->name);
  for (br__entry *other = g->first; other && left > 0; other = other->next, left--)
    if (other != e && other->definition && !br__is_hidden_entry (other) && is_slip (e->name, n, other->name))
      return other->name;
  return NULL;
}

static int
same_letters (const char *name, const char *other, size_t length)
{
  size_t i = 0;
  while (i < length && without_capital (name[i]) == without_capital (other[i]))
    i++;
  return i == length && !name[length];
}

const char *
br__graph_same_letters (const br__graph *g, const char *name, size_t length)
{
  uint32_t hash = br__name_hash (name, length);
  size_t at = hash;
  br__entry *e;
  while ((e = next_of_hash (&at, g, hash))
         && (!e->definition || br__is_hidden_entry (e) || !same_letters (e->name, name, length)
             || memcmp (e->name, name, length) == 0))
    ;
  return e ? e->name : NULL;
}

static br_status
unknown_name (const br__graph *g, const char *name, size_t length, br_error *error)
{
  br__search search;
  if (!error)
    return BR_DOMAIN;
  const br__function *f = br__function_find (name, length);

  br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` is not known", br__clip (name, length, 60), name);
  if (f)
    {
      br__fail (error, BR_DOMAIN, 0, 0, "`%s` is a function and wants a value",
                f->name);
      br__hint_call (error, f);
      return BR_DOMAIN;
    }
  const br__entry *shape = br__shape_entry (g, name, length, BR__SHAPE_KIND);
  if (shape && shape->definition)
    {
      br__hint (error, "it is a shape: write `width(%.*s)`", br__clip (name, length, 60), name);
      return BR_DOMAIN;
    }
  br__search_start (&search, name, length);
  size_t left = BR__MOST_OFFERED;
  for (br__entry *e = g->first; e && left > 0; e = e->next, left--)
    if (e->definition && !br__is_hidden_entry (e))
      br__search_offer (&search, e->name);
  for (size_t i = 0; (f = br__function_at (i)) != NULL; i++)
    br__search_offer (&search, f->name);
  if (search.best)
    br__hint (error, "did you mean `%s`?", search.best);
  else
    br__hint (error, "a new size is set by `=`; `help` lists the words");
  return BR_DOMAIN;
}

br_status
br__graph_lookup (const br__value **value, void *user, const br__tree *tree, const br__node *node,
                  br_error *error)
{
  br__graph *g = user;
  const char *name = tree->text + node->word;
  int make = !node->entry && node->part == BR__SHAPE_CLEAR;
  br__entry *e = node->entry ? node->entry : br__node_entry (g, tree, node, make);

  if (!e && make)
    return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  if (node->part == BR__SHAPE_CLEAR && e && !e->definition)
    return br__fail (error, BR_UNDECIDED, 0, 0, "whether these two shapes touch or overlap is not certain at %u bits",
                     g->settings->bits ? g->settings->bits : BR_REAL_BITS);
  if (node->part && !(e && e->has_value))
    return br__no_shape (g, tree, node, error);
  if (!e || (!e->definition && !e->users))
    return unknown_name (g, name, node->word_length, error);
  if (e->has_value)
    {
      *value = &e->value;
      return BR_OK;
    }
  br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` has no value yet", BR__CLIP (e->name, 60));
  br__hint (error, "`missing` tells what is still needed");
  return BR_DOMAIN;
}
