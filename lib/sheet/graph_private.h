/* SPDX-License-Identifier: LGPL-3.0-or-later
   graph_private.h - entries as graph.c, renew.c and loop.c see them.  */
#ifndef BR_SHEET_GRAPH_PRIVATE_H
#define BR_SHEET_GRAPH_PRIVATE_H

#include <stdint.h>

#include "exact/memory.h"

#include "sheet/graph.h"

struct br__entry
{
  br__entry_kind kind;
  int part;                     /* of a number of a shape: BR__SHAPE_KIND ...  */
  br__entry *next;              /* in order of first naming */
  br__definition *definition;
  br__value value;
  int has_value;
  size_t lacking;               /* edges of the definition whose entry has no value */
  br__edge *users;
  void *tag;
  void *tolerance;              /* what a `tolerance` statement gave it, or NULL */
  void *check;                  /* the check whose margin it is, or NULL */
  unsigned told;                /* cautions that were given of it and still hold */

  /* For one walk over the graph; valid while the stamp is the graph's.  */
  unsigned long visited, changed, touched;
  br__edge *cursor;
  unsigned long marked;         /* for those who ask the graph for a mark */
  size_t place;                 /* program.c: of what varies with an input */
  unsigned long below, above;   /* loop.c: seen from either side */
  br__entry *below_from, *above_from;
  char name[];
};

typedef struct br__name_slot
{
  br__entry *entry;             /* NULL: the slot is free */
  uint32_t hash;                /* of the name without capitals */
} br__name_slot;

struct br__graph
{
  /* Each name in the first free slot from its hash on; a power of two of them, of which a quarter is free.  A look that is
     in vain touches this array alone.  */
  br__name_slot *slots;
  size_t slot_count, slots_used;
  br__entry *first, *last;
  unsigned long stamp;
  size_t waiting;
  size_t distances;             /* entries of distances of shapes */
  size_t tolerances;            /* definitions and entries that have one */
  const br__settings *settings;
};

/* loop.c: BR_OK if E may be given a definition with these edges, else BR_DOMAIN with the loop
   named in order.  */
br_status br__graph_check_loop (br__graph *g, br__entry *e, const br__definition *d,
                                br_error *error);

typedef struct br__entry_stack
{
  br__entry **rows;
  size_t count, room;
} br__entry_stack;

int br__entry_push (br__entry_stack *s, br__entry *e);

#endif
