/* SPDX-License-Identifier: LGPL-3.0-or-later
   loop.c - would a definition make a loop?  The search alternates between two directions, up
   through the users of the entry and down through what the definition uses, and ends when one
   direction is exhausted, so it is fast for a sheet typed in any order.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/graph_private.h"
#include "sheet/hidden.h"

/* How many names of a long loop are said at its start.  */
#define SAID 6

/* Adds E to the loop in T, once where several numbers of one shape follow each other; BEFORE is what was added last.  */
static void
add_name (br_text *t, br_text *before, const br__entry *e, int most)
{
  br_text name = BR_TEXT_ZERO;
  br__put_entry_words (&name, e);
  if (!before->length || strcmp (br__text_string (&name), br__text_string (before)) != 0)
    br__text_printf (t, "%s%.*s", before->length ? " <- " : "", BR__CLIP (br__text_string (&name), most));
  t->failed |= name.failed;
  br__text_clear (before);
  *before = name;
}

/* From E's new formula down to MEET, then up through users to E again.  */
static br_status
name_loop (br__entry *e, br__entry *meet, const br__definition *d, br_error *error)
{
  br_text t = BR_TEXT_ZERO, before = BR_TEXT_ZERO;
  br__entry_stack path = { NULL, 0, 0 };
  int enough = 1;

  for (br__entry *x = meet; x && enough; x = x->below_from)
    enough = br__entry_push (&path, x);
  for (size_t i = 0; i < path.count / 2; i++)
    {
      br__entry *swap = path.rows[i];
      path.rows[i] = path.rows[path.count - 1 - i];
      path.rows[path.count - 1 - i] = swap;
    }
  for (br__entry *x = meet; x != e && enough; x = x->above_from)
    if (x != meet)
      enough = br__entry_push (&path, x);
  add_name (&t, &before, e, 40);
  for (size_t i = 0; i < path.count; i++)
    if (path.rows[i] != e)
      {
        if (i == SAID)
          br__text_printf (&t, " <- ... %zu more", path.count - SAID);
        if (i < SAID)
          add_name (&t, &before, path.rows[i], 24);
      }
  /* A loop of one is said, too.  */
  if (!strstr (br__text_string (&t), " <- "))
    br__text_reset (&before), br__text_puts (&before, " ");
  add_name (&t, &before, e, 40);
  br__fail (error, BR_DOMAIN, d->tree.base, d->tree.length, "a loop: %s", br__text_string (&t));
  br__hint (error, "one of them needs a value that does not depend on the others");
  br__text_clear (&t);
  br__text_clear (&before);
  br__free (path.rows);
  return BR_DOMAIN;
}

/* One step of the walk down: pops an entry and pushes the entries that it uses.  */
static int
step_down (br__graph *g, br__entry_stack *s, const br__definition *d, br__entry *from, br__entry **meet)
{
  for (size_t i = 0; d && i < d->edge_count; i++)
    {
      br__entry *x = d->edges[i].used;
      if (x->below == g->stamp)
        continue;
      x->below = g->stamp;
      x->below_from = from;
      if (x->above == g->stamp)
        *meet = x;
      if (!br__entry_push (s, x))
        return 0;
    }
  return 1;
}

static int
step_up (br__graph *g, br__entry_stack *s, br__entry *e, br__entry **meet)
{
  for (br__edge *edge = e->users; edge; edge = edge->next)
    {
      br__entry *x = edge->user;
      if (x->above == g->stamp)
        continue;
      x->above = g->stamp;
      x->above_from = e;
      if (x->below == g->stamp)
        *meet = x;
      if (!br__entry_push (s, x))
        return 0;
    }
  return 1;
}

br_status
br__graph_check_loop (br__graph *g, br__entry *e, const br__definition *d, br_error *error)
{
  br__entry_stack down = { NULL, 0, 0 }, up = { NULL, 0, 0 };
  br__entry *meet = NULL;
  size_t down_next = 0, up_next = 0;
  int enough;

  if (!d || !d->edge_count)
    return BR_OK;
  g->stamp++;
  e->above = g->stamp;
  e->above_from = NULL;
  enough = step_down (g, &down, d, NULL, &meet) && br__entry_push (&up, e);
  while (enough && !meet && down_next < down.count && up_next < up.count)
    {
      br__entry *x = down.rows[down_next++];
      enough = step_down (g, &down, x->definition, x, &meet);
      if (enough && !meet)
        enough = step_up (g, &up, up.rows[up_next++], &meet);
    }
  br_status status = BR_OK;
  if (!enough)
    status = br__fail_plain (error, BR_NO_MEMORY, d->tree.base, d->tree.length);
  else if (meet)
    status = name_loop (e, meet, d, error);
  br__free (down.rows);
  br__free (up.rows);
  return status;
}
