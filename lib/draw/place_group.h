/* SPDX-License-Identifier: LGPL-3.0-or-later
   place_group.h - places of one way, of which those that are the same are one, and those that are known from each other joined.  */
#ifndef BR_DRAW_PLACE_GROUP_H
#define BR_DRAW_PLACE_GROUP_H

#include <stddef.h>
#include <stdint.h>

/* To be zeroed before.  */
typedef struct br__place_groups
{
  int64_t *at;                  /* in order */
  size_t *parent;
  size_t count;
} br__place_groups;

/* Room for MOST places; 0: memory ran out.  */
int br__place_groups_open (br__place_groups *g, size_t most);
void br__place_groups_clear (br__place_groups *g);
/* Of the N places that AT holds in any order.  */
void br__place_groups_make (br__place_groups *g, size_t n);
/* That of AT, which is one of them.  */
size_t br__place_group_of (const br__place_groups *g, int64_t at);
/* The same for all that are joined.  */
size_t br__place_group_root (br__place_groups *g, size_t group);
void br__place_groups_unite (br__place_groups *g, size_t group, size_t other);

#endif
