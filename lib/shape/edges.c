/* SPDX-License-Identifier: LGPL-3.0-or-later
   edges.c - boxes with rounded or cut corners, and shapes that are turned: both are outlines.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/shape.h"

/* The corners of a box, anticlockwise from the lower left one.  */
enum { LOW_LEFT, LOW_RIGHT, HIGH_RIGHT, HIGH_LEFT, CORNERS };

static const struct { const char *word; unsigned corners; } sides[] =
{
  { "top", 1u << HIGH_RIGHT | 1u << HIGH_LEFT }, { "bottom", 1u << LOW_LEFT | 1u << LOW_RIGHT },
  { "left", 1u << LOW_LEFT | 1u << HIGH_LEFT }, { "right", 1u << LOW_RIGHT | 1u << HIGH_RIGHT }
};

/* ---- Reading ---- */

/* The index of the side at hand, or -1: `left of` is a place.  */
static int
side_at_hand (const br__run *run)
{
  for (int i = 0; i < 4; i++)
    if (br__lex_is_word (&run->lex, sides[i].word))
      {
        br__lexer ahead = run->lex;
        return br__lex_next (&ahead, NULL) == BR_OK && br__lex_is_word (&ahead, "of") ? -1 : i;
      }
  return -1;
}

/* `top`, `right top` ...: all corners of the sides that are named, all four where none is.  */
static void
read_corners (br__run *run, unsigned *corners)
{
  int first = side_at_hand (run);
  *corners = (1u << CORNERS) - 1;
  for (int i = 0; i < 2; i++)
    {
      int side = side_at_hand (run);
      /* A second one is across the first.  */
      if (side < 0 || (i && side / 2 == first / 2))
        return;
      *corners &= sides[side].corners;
      br__go_on (run);
    }
}

static br_status
copy_tree (br__tree *t, const br__tree *from, br__run *run)
{
  if (!from->count)
    return BR_OK;
  *t = (br__tree) { .length = from->length, .base = from->base, .deepest = from->deepest };
  t->text = br__strndup (from->text, from->length);
  if (t->text && br__tree_append (t, from, 0) == BR_OK)
    return BR_OK;
  return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
}

/* CUT by AFTER along the sides before and behind: of a box `cut 1 x 2` is 1 across and 2 up, at every corner.  */
static br_status
treat (br__run *run, br__shape_draft *d, unsigned corners, const br__tree size[2], int round, const br__token *at)
{
  br_status status = BR_OK;
  for (int i = 0; i < CORNERS && status == BR_OK; i++)
    {
      br__corner_draft *c = &d->corners[i];
      if (!(corners >> i & 1))
        continue;
      if (c->cut.count)
        return br__fail (run->error, BR_SYNTAX, at->offset, at->length, "this corner is rounded or cut already");
      int upright = size[1].count && i % 2 == 0;
      c->round = round;
      status = copy_tree (&c->cut, &size[upright], run);
      if (status == BR_OK)
        status = copy_tree (&c->after, size[1].count ? &size[!upright] : &size[1], run);
    }
  return status;
}

/* The box D becomes an outline of four corners.  */
static br_status
make_outline (br__run *run, br__shape_draft *d)
{
  if (d->boxed)
    return BR_OK;
  d->corners = br__alloc_zero (CORNERS, sizeof *d->corners);
  if (!d->corners)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  d->corner_count = d->corner_room = CORNERS;
  for (int i = 0; i < CORNERS; i++)
    d->corners[i].form = BR__CORNER_BOX;
  d->boxed = 1;
  d->kind = BR__OUTLINE;
  return BR_OK;
}

/* `round R` or `cut C [x D]`, and of which corners.  */
static br_status
read_treatment (br__run *run, br__shape_draft *d, int round, const br__token *at)
{
  br__tree size[2] = { BR__TREE_ZERO, BR__TREE_ZERO };
  unsigned corners = 0;
  br_status status = make_outline (run, d);
  br__parse_size (&size[0], &run->lex, run->error);
  if (!round)
    br__read_second_size (run, &size[1]);
  read_corners (run, &corners);
  if (status == BR_OK)
    status = run->lex.status;
  if (status == BR_OK)
    status = treat (run, d, corners, size, round, at);
  br__tree_clear (&size[0]);
  br__tree_clear (&size[1]);
  return status;
}

br_status
br__edges_read (br__run *run, br__shape_draft *d, int *found)
{
  const br__token at = run->lex.token;
  int box = d->kind == BR__BOX || d->boxed, round = box && br__take_word (run, "round");
  *found = 1;
  if (round || (box && br__take_word (run, "cut")))
    return read_treatment (run, d, round, &at);
  if (!d->turn.count && br__take_word (run, "turned"))
    {
      br_status status = br__parse_size (&d->turn, &run->lex, run->error);
      return status == BR_OK && box ? make_outline (run, d) : status;
    }
  *found = run->lex.status != BR_OK;
  return run->lex.status;
}

/* ---- Formulas ---- */

void
br__put_turn (br__maker *m, const br__shape_draft *d)
{
  if (d->turn.count)
    br__make_typed (m, &d->turn);
  else
    br__make_int (m, 0);
  br__make_call (m, BR__CALL_ANGLE);
}
