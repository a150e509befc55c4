/* SPDX-License-Identifier: LGPL-3.0-or-later
   graph.h - named dimensions and what depends on what.

   An entry is a name: either defined by a formula, or only used by formulas of other entries.  Edges lead
   from an entry to the entries that use it.  A change recomputes only what depends on it, each
   entry once, in topological order; if one of them fails, everything is rolled
   back.  No function recurses, so a chain may be of any length.  */
#ifndef BR_SHEET_GRAPH_H
#define BR_SHEET_GRAPH_H

#include "formula/evaluate.h"

typedef struct br__entry br__entry;

/* The kind of an entry.  Only a dimension has a name that can be typed.  The other kinds are hidden: a number of a shape,
   the distance of two shapes, the margin of a check, a number of an annotation on a drawing.  */
typedef enum br__entry_kind
{
  BR__ENTRY_DIMENSION, BR__ENTRY_SHAPE, BR__ENTRY_DISTANCE, BR__ENTRY_MARGIN, BR__ENTRY_DRAWN
} br__entry_kind;

typedef struct br__edge
{
  br__entry *used, *user;
  struct br__edge *prev, *next;     /* among the users of USED */
  int linked;
} br__edge;

/* The definition of an entry.  */
typedef struct br__definition
{
  br__tree tree;
  br__edge *edges;                  /* one for each entry that the tree names */
  size_t edge_count;
  char *note;                       /* never NULL */
  br__value tolerance;              /* half the band, over zero; a plain 0 if there is none */
  char *tolerance_text;             /* as typed, or NULL */
  int known;                        /* its line says so */
} br__definition;

/* D takes over NOTE.  */
void br__definition_take_note (br__definition *d, char *note);

typedef struct br__graph br__graph;

/* SETTINGS are used to evaluate hidden formulas; they must stay valid as long as the graph.  */
br__graph *br__graph_new (const br__settings *settings);
const br__settings *br__graph_settings (const br__graph *g);
void br__graph_set_settings (br__graph *g, const br__settings *settings);
void br__graph_free (br__graph *g);

const char *br__entry_name (const br__entry *e);
br__entry_kind br__entry_kind_of (const br__entry *e);
int br__is_hidden_entry (const br__entry *e);
const br__definition *br__entry_definition (const br__entry *e);
/* NULL while it waits.  */
const br__value *br__entry_value (const br__entry *e);
/* E has no value.  1 if nothing is missing, but the distance of two shapes is undecided.  */
int br__entry_undecided (br__graph *g, br__entry *e);
/* The users of E, one after another: start with NULL.  */
const br__edge *br__entry_users (const br__entry *e, const br__edge *after);

/* A pointer that the sheet may attach to E: its line.  NULL at first.  */
void **br__entry_tag (br__entry *e);
/* The same for the tolerance from a `tolerance` statement.  */
void **br__entry_tolerance (br__entry *e);
/* Adds MORE, 1 or -1, to the number of tolerances of `tolerance` statements.  */
void br__graph_count_tolerance (br__graph *g, int more);
/* The number of all tolerances, including those in definitions.  */
size_t br__graph_tolerances (const br__graph *g);
/* The check with the margin E, or NULL.  */
void **br__entry_check (br__entry *e);

/* A new unique mark, which identifies a set of entries; _add puts E into the set and returns 0 if it was there already.  */
unsigned long br__graph_mark (br__graph *g);
int br__mark_add (br__entry *e, unsigned long mark);
int br__mark_has (const br__entry *e, unsigned long mark);
/* Adds all entries that depend on the COUNT entries at SEEDS and have a value.  BR_NO_MEMORY.  _of: ROWS gets the entries
   that were added; the caller frees it.  */
br_status br__users_of (br__entry ***rows, size_t *found, br__entry *const *seeds, size_t count, unsigned long mark);
br_status br__mark_users (br__entry *const *seeds, size_t count, unsigned long mark);

/* The cautions about E that were given and still apply; used by the code that gives cautions.  */
unsigned *br__entry_told (br__entry *e);

/* The name of a defined dimension, other than E, that is similar to NAME, or NULL.  */
const char *br__graph_near (const br__graph *g, const br__entry *e, const char *name);
/* A defined name for which E's name is most likely a typing error, or NULL: board for borad or boarrd.  */
const char *br__graph_slip (const br__graph *g, const br__entry *e);
/* The name of a defined dimension that differs from NAME only in capital letters, or NULL.  */
const char *br__graph_same_letters (const br__graph *g, const char *name, size_t length);
/* A hash that ignores the case of letters.  */
uint32_t br__name_hash (const char *name, size_t length);
/* The entry NAME, or NULL.  _get makes it, without a definition, if there is none; NULL: out of memory.  */
br__entry *br__graph_find (const br__graph *g, const char *name, size_t length);
br__entry *br__graph_get (br__graph *g, const char *name, size_t length);
/* The same for a hidden entry; NAME contains a blank, so it cannot be the name of a dimension.  */
br__entry *br__graph_get_hidden (br__graph *g, br__entry_kind kind, const char *name, size_t length);
/* Entries in the order in which they were first named; NULL past the last.  */
br__entry *br__graph_first (const br__graph *g);
/* The number of entries, including those without a line.  */
size_t br__graph_size (const br__graph *g);
br__entry *br__entry_next (const br__entry *e);
/* The number of dimensions that have a definition but no value.  */
size_t br__graph_waiting (const br__graph *g);

/* *D = a definition by TREE, with its names linked to the entries of G.  Takes over TREE, also on an error.  */
br_status br__definition_new (br__definition **d, br__graph *g, br__tree *tree, const char *note,
                              size_t note_length, br_error *error);
void br__definition_free (br__definition *d);

/* One dimension whose value changed.  BEFORE or AFTER is NULL if there was or is no value.  The
   list owns BEFORE; AFTER belongs to the entry.  */
typedef struct br__move
{
  br__entry *entry;
  br__value before;
  int had;
} br__move;

typedef struct br__moves
{
  br__move *rows;
  size_t count, room;
  unsigned long mark;       /* that all their entries have, once others have joined */
} br__moves;

#define BR__MOVES_ZERO { NULL, 0, 0, 0 }

void br__moves_clear (br__moves *m);

/* Gives E the definition *D (NULL: none) and stores the old definition in *D.  MOVES gets the
   entries whose value changed, E first.  Fails if this makes a loop or if a formula would have no
   value any more; then nothing is changed and *D still belongs to the caller.  The offset of an error
   is in the line that *D was parsed from.  */
br_status br__graph_define (br__graph *g, br__entry *e, br__definition **d, const br__settings *s,
                            br__moves *moves, br_error *error);
/* Recomputes everything after a change of settings; on an error nothing is changed.  */
br_status br__graph_renew (br__graph *g, const br__settings *s, br__moves *moves, br_error *error);

/* Looks up values of entries for br__evaluate: USER is the graph.  A name that is unknown or waits for a value is an
   error, with its place.  */
br_status br__graph_lookup (const br__value **value, void *user, const br__tree *tree,
                            const br__node *node, br_error *error);

#endif
