/* SPDX-License-Identifier: LGPL-3.0-or-later
   renew.c - recomputes everything that depends on a change, or nothing if something fails.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdio.h>
#include <string.h>

#include "exact/status.h"
#include "sheet/graph_private.h"
#include "sheet/hidden.h"

/* The state of an entry before this change, for a rollback.  */
typedef struct saved
{
  br__entry *entry;
  br__value value;
  int has_value;
  size_t lacking;
} saved;

typedef struct renewal
{
  br__graph *g;
  const br__settings *settings;
  br_error *error;
  br__entry *origin;        /* the one whose line an error is placed in; NULL: none */
  saved *rows;
  size_t count, room;
} renewal;

/* Keeps the state of E, whose value moves into the keeping.  */
static br_status
touch (renewal *r, br__entry *e)
{
  if (e->touched == r->g->stamp)
    return BR_OK;
  if (!br__grow (&r->rows, &r->room, r->count + 1, sizeof (saved)))
    return br__fail_plain (r->error, BR_NO_MEMORY, 0, 0);
  br__account_toil (1);
  saved *row = &r->rows[r->count++];
  row->entry = e;
  row->value = e->value;
  row->has_value = e->has_value;
  row->lacking = e->lacking;
  memset (&e->value, 0, sizeof e->value);
  e->touched = r->g->stamp;
  return BR_OK;
}

static void
put_back (renewal *r)
{
  while (r->count > 0)
    {
      saved *row = &r->rows[--r->count];
      br__value_clear (&row->entry->value);
      row->entry->value = row->value;
      row->entry->has_value = row->has_value;
      row->entry->lacking = row->lacking;
    }
}

/* An error in a formula that was not typed just now is reported with its name.  */
static void
name_error (renewal *r, br__entry *e)
{
  char was[BR_MESSAGE_SIZE];
  if (!r->error || e == r->origin)
    return;
  memcpy (was, r->error->message, sizeof was);
  br_status status = r->error->status;
  if (e->kind == BR__ENTRY_SHAPE || e->kind == BR__ENTRY_DISTANCE || e->kind == BR__ENTRY_DRAWN)
    {
      br_text t = BR_TEXT_ZERO;
      br__put_entry_words (&t, e);
      br__fail (r->error, status, 0, 0, "the %.*s would have no value: %.*s",
                BR__CLIP (br__text_string (&t), 60), BR__CLIP (was, 130));
      br__text_clear (&t);
    }
  else if (e->kind == BR__ENTRY_MARGIN)
    br__fail (r->error, status, 0, 0, "the check `%.*s` would have no value: %.*s",
              BR__CLIP (e->definition->tree.text, 60), BR__CLIP (was, 130));
  else
    br__fail (r->error, status, 0, 0, "`%.*s` would have no value: %.*s", BR__CLIP (e->name, 40),
              BR__CLIP (was, 150));
}

/* The value of a touched entry that lacks nothing.  */
static br_status
work_out (renewal *r, br__entry *e)
{
  br__names names = { r->g, br__graph_lookup };
  br_status status = br__evaluate (&e->value, &e->definition->tree, r->settings, &names, r->error);
  e->has_value = status == BR_OK;
  if (status != BR_OK)
    name_error (r, e);
  return status;
}

/* SAME where X and Y are for certain.  */
static br_status
same_value (int *same, const renewal *r, const br__value *x, const br__value *y)
{
  int order = 0;
  *same = 0;
  if (x->dimension != y->dimension)
    return BR_OK;
  if (!x->real.node && !y->real.node)
    {
      *same = br_number_equal (&x->real.rational, &y->real.rational);
      return BR_OK;
    }
  br_status status = x->real.node == y->real.node ? BR_OK : br_real_cmp (&order, &x->real, &y->real, r->settings->bits);
  *same = status == BR_OK && order == 0;
  return status == BR_NO_MEMORY ? br__fail_plain (r->error, status, 0, 0) : BR_OK;
}

/* Entries with a value that depend on E, each after all that it uses.  */
static br_status
order_users (br__entry_stack *order, renewal *r, br__entry *e)
{
  br__entry_stack walk = { NULL, 0, 0 };
  int enough = br__entry_push (&walk, e);

  e->visited = r->g->stamp;
  e->cursor = e->users;
  while (enough && walk.count > 0)
    {
      br__entry *top = walk.rows[walk.count - 1];
      br__edge *edge = top->cursor;
      if (!edge)
        {
          walk.count--;
          enough = br__entry_push (order, top);
          continue;
        }
      top->cursor = edge->next;
      br__entry *user = edge->user;
      if (user->visited == r->g->stamp || !user->has_value)
        continue;
      user->visited = r->g->stamp;
      user->cursor = user->users;
      enough = br__entry_push (&walk, user);
    }
  br__free (walk.rows);
  for (size_t i = 0; i < order->count / 2; i++)
    {
      br__entry *swap = order->rows[i];
      order->rows[i] = order->rows[order->count - 1 - i];
      order->rows[order->count - 1 - i] = swap;
    }
  return enough ? BR_OK : br__fail_plain (r->error, BR_NO_MEMORY, 0, 0);
}

static int
uses_changed (const renewal *r, const br__entry *e)
{
  for (size_t i = 0; i < e->definition->edge_count; i++)
    if (e->definition->edges[i].used->changed == r->g->stamp)
      return 1;
  return 0;
}

/* E has another value than before.  */
static br_status
spread_change (renewal *r, br__entry *e)
{
  br__entry_stack order = { NULL, 0, 0 };
  br_status status = order_users (&order, r, e);

  e->changed = r->g->stamp;
  for (size_t i = 1; i < order.count && status == BR_OK; i++)
    {
      br__entry *user = order.rows[i];
      if (!uses_changed (r, user))
        continue;
      status = touch (r, user);
      saved *row = status == BR_OK ? &r->rows[r->count - 1] : NULL;
      if (status == BR_OK)
        status = work_out (r, user);
      int same = 1;
      if (status == BR_OK)
        status = same_value (&same, r, &user->value, &row->value);
      if (status == BR_OK && !same)
        user->changed = r->g->stamp;
    }
  br__free (order.rows);
  return status;
}

/* A name that USER uses has a value now: 1 in *TURNED where USER lacked only this and gets its own.  */
static br_status
gain (int *turned, renewal *r, br__entry *user)
{
  *turned = --user->lacking == 0;
  if (!*turned)
    return BR_OK;
  br_status status = work_out (r, user);
  r->g->waiting -= status == BR_OK;
  return status;
}

/* A name that USER uses has none any more: 1 in *TURNED where USER had one and loses it.  */
static br_status
lose (int *turned, renewal *r, br__entry *user)
{
  user->lacking++;
  *turned = user->has_value;
  r->g->waiting += (size_t) *turned;
  user->has_value = 0;
  return BR_OK;
}

/* E has got or lost its value: so do all that depend on it, as TURN tells of each.  */
static br_status
spread_turn (renewal *r, br__entry *e, br_status (*turn) (int *turned, renewal *r, br__entry *user))
{
  br__entry_stack queue = { NULL, 0, 0 };
  br_status status = BR_OK;
  int enough = br__entry_push (&queue, e);

  for (size_t i = 0; i < queue.count && status == BR_OK && enough; i++)
    for (br__edge *edge = queue.rows[i]->users; edge && status == BR_OK && enough; edge = edge->next)
      {
        int turned = 0;
        status = touch (r, edge->user);
        if (status == BR_OK)
          status = turn (&turned, r, edge->user);
        if (turned)
          enough = br__entry_push (&queue, edge->user);
      }
  br__free (queue.rows);
  if (status == BR_OK && !enough)
    status = br__fail_plain (r->error, BR_NO_MEMORY, 0, 0);
  return status;
}

static void
link_edges (br__entry *user, br__definition *d)
{
  for (size_t i = 0; d && i < d->edge_count; i++)
    {
      br__edge *edge = &d->edges[i];
      edge->user = user;
      edge->prev = NULL;
      edge->next = edge->used->users;
      if (edge->next)
        edge->next->prev = edge;
      edge->used->users = edge;
      edge->linked = 1;
    }
}

static void
unlink_edges (br__definition *d)
{
  for (size_t i = 0; d && i < d->edge_count; i++)
    {
      br__edge *edge = &d->edges[i];
      if (edge->next)
        edge->next->prev = edge->prev;
      if (edge->prev)
        edge->prev->next = edge->next;
      else
        edge->used->users = edge->next;
      edge->linked = 0;
    }
}

static size_t
count_lacking (const br__definition *d)
{
  size_t n = 0;
  for (size_t i = 0; d && i < d->edge_count; i++)
    n += !d->edges[i].used->has_value;
  return n;
}

/* Makes the list of moves from the saved states; the list takes over the saved values.  */
static br_status
list_moves (renewal *r, br__moves *moves)
{
  if (!moves)
    return BR_OK;
  for (size_t i = 0; i < r->count; i++)
    {
      saved *row = &r->rows[i];
      br__entry *e = row->entry;
      if (!row->has_value && !e->has_value)
        continue;
      int same = 0;
      br_status status = row->has_value && e->has_value ? same_value (&same, r, &row->value, &e->value) : BR_OK;
      if (status != BR_OK)
        return status;
      if (same)
        continue;
      if (!br__grow (&moves->rows, &moves->room, moves->count + 1, sizeof (br__move)))
        return br__fail_plain (r->error, BR_NO_MEMORY, 0, 0);
      br__move *move = &moves->rows[moves->count++];
      move->entry = e;
      move->had = row->has_value;
      memset (&move->before, 0, sizeof move->before);
      if (row->has_value)
        {
          status = br__value_set (&move->before, &row->value);
          if (status != BR_OK)
            return br__fail_plain (r->error, status, 0, 0);
        }
    }
  return BR_OK;
}

static br_status
spread (renewal *r, br__entry *e)
{
  const saved *was = &r->rows[0];
  if (was->has_value && e->has_value)
    {
      int same = 0;
      br_status status = same_value (&same, r, &was->value, &e->value);
      return status != BR_OK || same ? status : spread_change (r, e);
    }
  if (e->has_value)
    return spread_turn (r, e, gain);
  return was->has_value ? spread_turn (r, e, lose) : BR_OK;
}

static void
end_renewal (renewal *r, br_status status)
{
  if (status != BR_OK)
    put_back (r);
  for (size_t i = 0; i < r->count; i++)
    br__value_clear (&r->rows[i].value);
  br__free (r->rows);
}

br_status
br__graph_define (br__graph *g, br__entry *e, br__definition **d, const br__settings *s,
                  br__moves *moves, br_error *error)
{
  renewal r = { g, s, error, e, NULL, 0, 0 };
  br__definition *old = e->definition, *new = *d;
  size_t waiting = g->waiting;
  br__moves made = BR__MOVES_ZERO;

  br_status status = br__graph_check_loop (g, e, new, error);
  if (status != BR_OK)
    return status;
  g->stamp++;
  unlink_edges (old);
  link_edges (e, new);
  e->definition = new;
  status = touch (&r, e);
  if (status == BR_OK)
    {
      g->waiting -= old && !e->has_value;
      e->lacking = count_lacking (new);
      e->has_value = 0;
      if (new && !e->lacking)
        status = work_out (&r, e);
      g->waiting += new && !e->has_value;
    }
  if (status == BR_OK)
    status = spread (&r, e);
  if (status == BR_OK)
    status = list_moves (&r, &made);
  end_renewal (&r, status);
  if (status != BR_OK)
    {
      unlink_edges (new);
      link_edges (e, old);
      e->definition = old;
      g->waiting = waiting;
      br__moves_clear (&made);
      return status;
    }
  *d = old;
  g->tolerances += (size_t) (new && new->tolerance_text) - (size_t) (old && old->tolerance_text);
  if (moves)
    *moves = made;
  else
    br__moves_clear (&made);
  return BR_OK;
}

/* Every entry that lacks nothing, each after what it uses: the entries without edges first,
   then those that they complete.  PENDING is counted in LACKING's stead by cursor walks.  */
static br_status
renew_all (renewal *r)
{
  br__entry_stack queue = { NULL, 0, 0 };
  br_status status = BR_OK;

  for (br__entry *e = r->g->first; e && status == BR_OK; e = e->next)
    if (e->has_value)
      {
        status = touch (r, e);
        e->lacking = e->definition->edge_count;
        if (status == BR_OK && !e->lacking && !br__entry_push (&queue, e))
          status = br__fail_plain (r->error, BR_NO_MEMORY, 0, 0);
      }
  for (size_t i = 0; i < queue.count && status == BR_OK; i++)
    {
      status = work_out (r, queue.rows[i]);
      for (br__edge *edge = queue.rows[i]->users; edge && status == BR_OK; edge = edge->next)
        if (edge->user->touched == r->g->stamp && --edge->user->lacking == 0
            && !br__entry_push (&queue, edge->user))
          status = br__fail_plain (r->error, BR_NO_MEMORY, 0, 0);
    }
  br__free (queue.rows);
  return status;
}

br_status
br__graph_renew (br__graph *g, const br__settings *s, br__moves *moves, br_error *error)
{
  renewal r = { g, s, error, NULL, NULL, 0, 0 };
  br__moves made = BR__MOVES_ZERO;

  g->stamp++;
  br_status status = renew_all (&r);
  if (status == BR_OK)
    status = list_moves (&r, &made);
  end_renewal (&r, status);
  if (status != BR_OK)
    {
      br__moves_clear (&made);
      return status;
    }
  if (moves)
    *moves = made;
  else
    br__moves_clear (&made);
  return BR_OK;
}
