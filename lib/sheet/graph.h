/* SPDX-License-Identifier: LGPL-3.0-or-later
   graph.h - named dimensions and what depends on what.

   An entry is a name: defined by a formula, or only needed by formulas of others.  Edges run
   from the entry that is used to its user.  A change works out again only what depends on it,
   in an order in which nothing is worked out twice; either all of it holds or nothing has
   changed.  No function recurses, so a chain may be of any length.  */
#ifndef BR_SHEET_GRAPH_H
#define BR_SHEET_GRAPH_H

#include "formula/evaluate.h"

typedef struct br__entry br__entry;

/* What an entry is.  Only a dimension has a name that can be typed; the others are hidden: a number of a shape, the
   distance of two shapes, the margin of a check, a number of what is drawn beside the shapes.  */
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

/* What a name was given.  */
typedef struct br__definition
{
  br__tree tree;
  br__edge *edges;                  /* one for each entry that the tree names */
  size_t edge_count;
  char *note;                       /* never NULL */
  br__value tolerance;              /* half the band, over zero; plain 0 where none was given */
  char *tolerance_text;             /* as typed, or NULL */
  int known;                        /* its line says so */
} br__definition;

/* D takes over NOTE.  */
void br__definition_take_note (br__definition *d, char *note);

typedef struct br__graph br__graph;

/* SETTINGS, borrowed, are those with which hidden formulas are worked out.  */
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
/* 1 if E, which has no value, waits only for distances of shapes that are not decided: nothing is missing.  */
int br__entry_undecided (br__graph *g, br__entry *e);
/* The users of E, one after another: start with NULL.  */
const br__edge *br__entry_users (const br__entry *e, const br__edge *after);

/* A place for what the sheet ties to E: its line.  NULL at first.  */
void **br__entry_tag (br__entry *e);
/* The same for what a `tolerance` statement gave it.  */
void **br__entry_tolerance (br__entry *e);
/* One more or (-1) one fewer of them.  */
void br__graph_count_tolerance (br__graph *g, int more);
/* How many there are, those of definitions too.  */
size_t br__graph_tolerances (const br__graph *g);
/* The check whose margin it is, or NULL.  */
void **br__entry_check (br__entry *e);

/* A mark of its own for a set of entries; _add is 0 where E was in it.  */
unsigned long br__graph_mark (br__graph *g);
int br__mark_add (br__entry *e, unsigned long mark);
int br__mark_has (const br__entry *e, unsigned long mark);
/* Adds all that depend on those of the COUNT entries at SEEDS and have a value.  BR_NO_MEMORY.  _of: ROWS, to be freed, gets
   those that were added.  */
br_status br__users_of (br__entry ***rows, size_t *found, br__entry *const *seeds, size_t count, unsigned long mark);
br_status br__mark_users (br__entry *const *seeds, size_t count, unsigned long mark);

/* The cautions that were given of it and still hold, for who gives them.  */
unsigned *br__entry_told (br__entry *e);

/* The name of a dimension that is set and near to NAME, but E's own; NULL where there is none.  */
const char *br__graph_near (const br__graph *g, const br__entry *e, const char *name);
/* A defined name of which that of E is most likely a slip of the fingers, or NULL: borad, boarrd beside board.  */
const char *br__graph_slip (const br__graph *g, const br__entry *e);
/* The name of a dimension that is set and differs from NAME by capital letters alone; NULL where there is none.  */
const char *br__graph_same_letters (const br__graph *g, const char *name, size_t length);
/* The same for letters and their capitals.  */
uint32_t br__name_hash (const char *name, size_t length);
/* NULL where there is none.  _get makes one that is only needed; NULL: out of memory.  */
br__entry *br__graph_find (const br__graph *g, const char *name, size_t length);
br__entry *br__graph_get (br__graph *g, const char *name, size_t length);
/* The same for a hidden entry; NAME, which has a blank, is no name of a dimension.  */
br__entry *br__graph_get_hidden (br__graph *g, br__entry_kind kind, const char *name, size_t length);
/* Entries in the order in which they were first named; NULL past the last.  */
br__entry *br__graph_first (const br__graph *g);
/* How many entries there are, those without a line of their own included.  */
size_t br__graph_size (const br__graph *g);
br__entry *br__entry_next (const br__entry *e);
/* Those that have a definition and no value.  */
size_t br__graph_waiting (const br__graph *g);

/* Ties TREE (taken over, also on an error) to the entries of G.  */
br_status br__definition_new (br__definition **d, br__graph *g, br__tree *tree, const char *note,
                              size_t note_length, br_error *error);
void br__definition_free (br__definition *d);

/* One dimension that moved.  BEFORE and AFTER are NULL where there was or is no value; the
   list owns BEFORE, AFTER is the entry's.  */
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

/* Gives E the definition *D (NULL: forgets it) and puts the one that it had into *D.  MOVES gets
   what moved, E first.  A loop and a formula that has no value any more are refused: then
   everything is as it was and *D is still the caller's.  Errors are placed in the line *D
   was parsed from.  */
br_status br__graph_define (br__graph *g, br__entry *e, br__definition **d, const br__settings *s,
                            br__moves *moves, br_error *error);
/* Works everything out again after a change of settings; refused as a whole like above.  */
br_status br__graph_renew (br__graph *g, const br__settings *s, br__moves *moves, br_error *error);

/* Values of entries for br__evaluate: USER is the graph.  A name that is not known or waits is an
   error at its place.  */
br_status br__graph_lookup (const br__value **value, void *user, const br__tree *tree,
                            const br__node *node, br_error *error);

#endif
