/* SPDX-License-Identifier: LGPL-3.0-or-later
   bend.c - what a shape of the side shows inside its rectangle from above and from the front: a line for each corner, and for each
   place where a curve turns back.  Where a curve goes smoothly on into the next side there is none.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <math.h>
#include <stdlib.h>

#include "exact/memory.h"
#include "view/closed_edge.h"
#include "view/hidden_line.h"

#define SAME 40                 /* billionths of an inch: two lines are one */
#define NOTHING 200.0           /* a piece so short has no direction */
#define SMOOTH 1e-3             /* the sine of a turn that no saw makes */
#define END 1e-6                /* degrees */
#define DEGREE 1e9

typedef br__page_point spot;

/* Where a piece of an edge ends, and the direction in which it would go on.  */
typedef struct loose_end
{
  spot at, out;
} loose_end;

typedef struct bends
{
  br__drawn *own;
  int above;
  size_t room;
  int failed;
  loose_end *ends;
  size_t end_count, end_room;
  spot start, at, first, last;  /* of an edge: places, and the directions it begins and goes on in; 0, 0: none yet */
} bends;

static void
add (bends *b, spot at)
{
  br__drawn *d = b->own;
  int64_t along = llround (b->above ? at.x : -at.y), near = llround (b->above ? -at.y : -at.x);
  int64_t low = b->above ? d->reach.x : d->reach.y, high = b->above ? d->reach.x2 : d->reach.y2;
  if (along <= low + SAME || along >= high - SAME)
    return;
  for (size_t i = 0; i < d->bend_count; i++)
    if (llabs (d->bends[2 * i] - along) <= SAME)
      {
        d->bends[2 * i + 1] = near > d->bends[2 * i + 1] ? near : d->bends[2 * i + 1];
        return;
      }
  if (!br__grow (&d->bends, &b->room, 2 * d->bend_count + 2, sizeof *d->bends))
    {
      b->failed = 1;
      return;
    }
  d->bends[2 * d->bend_count] = along;
  d->bends[2 * d->bend_count++ + 1] = near;
}

/* At AT one direction ends and another begins.  */
static void
join (bends *b, spot at, spot in, spot out)
{
  if (fabs (in.x * out.y - in.y * out.x) > SMOOTH || in.x * out.x + in.y * out.y < 0)
    add (b, at);
}

/* The edge goes on in the direction OUT, and is at TO then, in the direction IN.  */
static void
go_on (bends *b, spot out, spot to, spot in)
{
  if (b->last.x != 0 || b->last.y != 0)
    join (b, b->at, b->last, out);
  else
    b->first = out;
  b->at = to;
  b->last = in;
}

static void
go_straight (bends *b, spot to)
{
  double x = to.x - b->at.x, y = to.y - b->at.y, length = hypot (x, y);
  if (length > NOTHING)
    go_on (b, (spot) { x / length, y / length }, to, (spot) { x / length, y / length });
}

/* Along the arc S; degrees turn to the left on a page whose y goes down.  */
static void
go_around (bends *b, const br__path_step *s)
{
  double from = (double) s->from / DEGREE, to = (double) s->to / DEGREE, way = to < from ? -1 : 1, radian = acos (-1.0) / 180;
  go_straight (b, br__on_arc (s, from));
  go_on (b, (spot) { -way * sin (from * radian), -way * cos (from * radian) }, br__on_arc (s, to),
         (spot) { -way * sin (to * radian), -way * cos (to * radian) });
  double low = way < 0 ? to : from, high = way < 0 ? from : to, turn = b->above ? 0 : 90;
  /* At its ends, too: there it may go on straight, a wall that is seen from its end, or as another arc.  */
  for (int half = (int) ceil ((low - END - turn) / 180); 180 * half + turn <= high + END; half++)
    add (b, br__on_arc (s, 180 * half + turn));
}

static void
put_end (bends *b, spot at, spot out)
{
  if (br__grow (&b->ends, &b->end_room, b->end_count + 1, sizeof *b->ends))
    b->ends[b->end_count++] = (loose_end) { at, out };
  else
    b->failed = 1;
}

/* Where it comes back to its beginning, or a piece of it ends.  */
static void
end (bends *b)
{
  if (b->first.x == 0 && b->first.y == 0)
    return;
  if (hypot (b->at.x - b->start.x, b->at.y - b->start.y) <= NOTHING)
    {
      join (b, b->start, b->last, b->first);
      return;
    }
  put_end (b, b->start, (spot) { -b->first.x, -b->first.y });
  put_end (b, b->at, b->last);
}

/* The pieces go on into one another.  */
static void
join_ends (bends *b)
{
  for (size_t i = 0; i < b->end_count; i++)
    {
      const loose_end *e = &b->ends[i];
      size_t k = i + 1;
      while (k < b->end_count && hypot (e->at.x - b->ends[k].at.x, e->at.y - b->ends[k].at.y) > NOTHING)
        k++;
      if (k == b->end_count)
        continue;
      join (b, e->at, e->out, (spot) { -b->ends[k].out.x, -b->ends[k].out.y });
      b->ends[k] = b->ends[--b->end_count];
    }
}

static void
go_along (bends *b, const br__ink *ink)
{
  static const spot none = { 0, 0 };
  br__path_step room[BR__MOST_STEPS];
  size_t count = 0;
  const br__path_step *steps = br__ink_steps (&count, room, ink);
  int begins = 1;
  b->first = b->last = none;
  for (const br__path_step *s = steps; s < steps + count; s++)
    {
      const spot place = { (double) s->x, (double) s->y };
      if (begins || s->type == BR__STEP_MOVE)
        {
          end (b);
          b->start = b->at = s->type == BR__STEP_ARC ? br__on_arc (s, (double) s->from / DEGREE) : place;
          b->first = b->last = none;
        }
      begins = s->type == BR__STEP_CLOSE;
      if (s->type == BR__STEP_ARC)
        go_around (b, s);
      else
        go_straight (b, begins ? b->start : place);
    }
  end (b);
}

int
br__bends_find (br__drawn *d, const br__ink *inks, size_t count, int above)
{
  bends b = { .own = d, .above = above };
  for (size_t i = 0; i < count && !d->hole; i++)
    go_along (&b, &inks[i]);
  join_ends (&b);
  br__free (b.ends);
  return !b.failed;
}
