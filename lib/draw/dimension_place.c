/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension_place.c - gives each dimension line its tier, its text a place, and draws them.

   ALONG is the way a size is measured, ACROSS the way its extension lines run: toward smaller numbers, down
   or to the left.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "draw/by_hand.h"
#include "draw/dimension_line.h"

#define TEXT_SIZE BR__SIZE_TEXT
#define GAP (BR__INCH / 16)             /* from the outline to its extension line */
#define PAST (BR__INCH / 8)             /* of the extension line, past the dimension line */
#define ARROW (BR__INCH / 8)
#define TAIL (BR__INCH / 4)             /* of an arrow from outside */
#define AIR (BR__INCH / 24)             /* around a text */
#define FIRST_TIER (BR__INCH * 3 / 8)
#define NEXT_TIER (BR__INCH / 4)
#define MOST_UPRIGHT 4                  /* tiers to the left: each is as wide as a text */
#define MOST_FAR 3                      /* on the other side */
#define MOST_FAILURES 40                /* rows that found no room, after which no other is tried */
/* How far a line may reach beyond the view: at its lower left corner, where level and upright ones meet, with
   the tail of an arrow at the most.  */
#define SLACK BR__INCH

static int64_t
larger (int64_t x, int64_t y)
{
  return x > y ? x : y;
}

/* Half of the room that the text takes along its line, air included.  An upright text above its line runs along it.  */
static int64_t
half_along (const br__size_lines *d, const br__size_line *row)
{
  return (d->upright && !d->above ? TEXT_SIZE * 6 / 5 : br__text_width (row->text, TEXT_SIZE)) / 2 + AIR;
}

/* To either side of its line.  */
static int64_t
half_across (const br__size_lines *d, const br__size_line *row)
{
  /* Above its line a text fills the room to the next one.  */
  if (d->above)
    return TEXT_SIZE * 3 / 5 + AIR;
  return (d->upright ? br__text_width (row->text, TEXT_SIZE) : TEXT_SIZE * 6 / 5) / 2 + AIR;
}

/* ---- Tiers ---- */

/* How the row lies: text and arrows inside; arrows outside; the text outside, too, after or before.  */
enum { INSIDE, ARROWS_OUT, TEXT_AFTER, TEXT_BEFORE, MANNERS };

/* Gives ROW the manner; 0 where its text cannot lie so.  */
static int
lay (br__size_line *row, const br__size_lines *d, int manner)
{
  int64_t half = half_along (d, row), length = row->to - row->from;
  int inside = length >= 2 * half, roomy = length >= 2 * half + 2 * ARROW;
  row->outside = manner >= TEXT_AFTER;
  row->arrows_outside = manner != INSIDE;
  row->low = row->from - (manner == INSIDE ? 0 : TAIL);
  row->high = row->to + (manner == INSIDE ? 0 : TAIL);
  row->text_at = (row->from + row->to) / 2;
  if (manner == TEXT_AFTER)
    {
      row->text_at = row->high + half;
      row->high += 2 * half;
    }
  if (manner == TEXT_BEFORE)
    {
      row->text_at = row->low - half;
      row->low -= 2 * half;
    }
  return manner == INSIDE ? roomy : manner == ARROWS_OUT ? inside && !roomy : !inside;
}

/* Whether ROW, laid, can lie in TIER of the bank FAR; *COST counts the lines that would cross.  */
static int
goes_into (unsigned *cost, const br__size_line *row, const br__size_lines *d, int far, int tier)
{
  *cost = 0;
  for (const br__size_line *r = d->rows; r < d->rows + d->placed; r++)
    {
      if (r->tier < 0 || r->far != far)
        continue;
      if (r->tier == tier && r->low < row->high && row->low < r->high)
        return 0;
      const br__size_line *outer = r->tier > tier ? r : row, *inner = r->tier > tier ? row : r;
      if (r->tier != tier)
        *cost += (outer->from > inner->low && outer->from < inner->high)
                 + (outer->to > inner->low && outer->to < inner->high);
    }
  return 1;
}

/* How far a line may reach past the ends of the view: corners belong to one bank alone.  */
static int
keeps_within (const br__size_line *row, int far, int64_t low, int64_t high)
{
  return row->low >= low - TAIL && row->high <= high + (far ? TAIL : SLACK);
}

/* Weights: a line that crosses another, an extension line through a shape, the other side of the view.  */
#define CROSSING 8
#define THROUGH 6
#define OTHER_SIDE 2

/* The tier with the fewest crossings, the nearest of these; 0 if none has room.  */
static int
place (br__size_line *row, br__size_lines *d, int64_t low, int64_t high)
{
  unsigned least = UINT_MAX, cost;
  int best = -1, far = 0, manner = 0;
  for (int bank = 0; bank < BR__BANKS - (row->overall && row->off >= 0); bank++)
    {
      if (row->off && (row->off < 0) != bank)
        continue;
      /* The last tier is kept for the whole.  */
      int most = bank ? MOST_FAR : (d->upright ? MOST_UPRIGHT : BR__MOST_TIERS) - !row->overall;
      if (d->most && most > d->most - !row->overall)
        most = d->most - !row->overall;
      for (int tier = 0; tier <= d->tiers[bank] && tier < most; tier++)
        for (int i = INSIDE; i < MANNERS; i++)
          {
            if (!lay (row, d, i) || !keeps_within (row, bank, low, high) || !goes_into (&cost, row, d, bank, tier))
              continue;
            cost = cost * CROSSING + row->in_the_way[bank] * THROUGH + (unsigned) (tier + bank * OTHER_SIDE);
            if (row->overall)
              cost = (unsigned) (d->tiers[0] - tier);
            if (cost >= least)
              continue;
            least = cost;
            best = tier;
            far = bank;
            manner = i;
          }
    }
  if (best < 0)
    return 0;
  lay (row, d, manner);
  row->far = far;
  row->tier = best;
  row->past = row->outside && row->high > high + TAIL;
  d->tiers[far] += best == d->tiers[far];
  d->before = larger (d->before, low - row->low);
  d->after = larger (d->after, row->high - high);
  return 1;
}

/* The placed rows anew, the short ones first; 0 where one finds no room.  */
static int
place_all (br__size_lines *d, int64_t low, int64_t high)
{
  d->tiers[0] = d->tiers[1] = 0;
  d->before = d->after = 0;
  for (size_t i = 0; i < d->placed; i++)
    d->rows[i].tier = -1;
  for (size_t i = 0; i < d->placed; i++)
    if (!place (&d->rows[i], d, low, high))
      return 0;
  return 1;
}

/* Longer rows come later, the whole last.  */
static int
is_longer (const br__size_line *a, const br__size_line *b)
{
  int64_t m = a->to - a->from, n = b->to - b->from;
  if (a->overall != b->overall)
    return a->overall;
  return m != n ? m > n : a->from > b->from;
}

/* The shapes that the extension line at ALONG runs through, from FEATURE to the edge of the view, but for those that ROW
   measures.  */
static unsigned
shapes_between (const br__size_line *row, const br__size_lines *d, const br__side_view *v, int64_t along, int64_t feature, int far)
{
  unsigned count = 0;
  for (size_t i = 0; v && i < v->count; i++)
    {
      const br__drawn *s = &v->shapes[i];
      int64_t low = d->upright ? s->reach.y : s->reach.x, high = d->upright ? s->reach.y2 : s->reach.x2;
      int64_t near = d->upright ? s->reach.x : s->reach.y, end = d->upright ? s->reach.x2 : s->reach.y2;
      int own = s->shape->name == row->of || s->shape->name == row->to_of;
      count += !own && along > low && along < high && (far ? end > feature : near < feature);
    }
  return count;
}

/* Moves the row at FROM of D to TO.  */
static void
move_row (br__size_lines *d, size_t from, size_t to)
{
  br__size_line row = d->rows[from];
  if (from > to)
    memmove (d->rows + to + 1, d->rows + to, (from - to) * sizeof row);
  else
    memmove (d->rows + from, d->rows + from + 1, (to - from) * sizeof row);
  d->rows[to] = row;
}

void
br__size_lines_place (int *placed, br__size_lines *d, const br__side_view *v, br__area reach)
{
  int64_t low = d->upright ? reach.y : reach.x, high = d->upright ? reach.y2 : reach.x2;
  br__size_line *row = &d->rows[d->count - 1];
  size_t at = 0;
  *placed = 0;
  if (d->left_out >= MOST_FAILURES && !row->overall)
    {
      d->left_out++;
      return;
    }
  for (int far = 0; far < BR__BANKS; far++)
    row->in_the_way[far] = shapes_between (row, d, v, row->from, row->feature_from[far], far)
                           + shapes_between (row, d, v, row->to, row->feature_to[far], far);
  while (at < d->placed && !is_longer (&d->rows[at], row))
    at++;
  move_row (d, d->count - 1, at);
  d->placed++;
  *placed = place_all (d, low, high);
  if (*placed)
    return;
  d->placed--;
  move_row (d, at, d->count - 1);
  d->rows[d->count - 1].tier = -1;
  d->left_out++;
  (void) place_all (d, low, high);
}

/* 1 if no extension line of a farther tier runs through the text of ROW at AT.  */
static int
text_is_clear (const br__size_line *row, const br__size_lines *d, int64_t at)
{
  int64_t half = half_along (d, row);
  for (const br__size_line *r = d->rows; r < d->rows + d->placed; r++)
    if (r->far == row->far && r->tier > row->tier
        && ((r->from > at - half && r->from < at + half) || (r->to > at - half && r->to < at + half)))
      return 0;
  return 1;
}

/* Moves the text of ROW off lines that run through it, no farther than need be.  */
static void
move_text (br__size_line *row, const br__size_lines *d)
{
  int64_t half = half_along (d, row), spare = row->arrows_outside ? 0 : ARROW;
  int64_t low = row->from + spare + half, high = row->to - spare - half, middle = row->text_at;
  int64_t best = INT64_MAX;
  if (row->outside || text_is_clear (row, d, middle))
    return;
  for (const br__size_line *r = d->rows; r < d->rows + d->placed; r++)
    for (int i = 0; r->far == row->far && r->tier > row->tier && i < 4; i++)
      {
        int64_t at = (i & 1 ? r->from : r->to) + (i & 2 ? half : -half);
        if (at >= low && at <= high && llabs (at - middle) < best && text_is_clear (row, d, at))
          {
            best = llabs (at - middle);
            row->text_at = at;
          }
      }
}

/* How far each tier lies from the view.  */
static void
set_offsets (br__size_lines *d, int far)
{
  int64_t half[BR__MOST_TIERS] = { 0 }, off[BR__MOST_TIERS] = { 0 }, at = 0;
  for (size_t i = 0; i < d->placed; i++)
    if (d->rows[i].far == far)
      {
        const br__size_line *row = &d->rows[i];
        half[row->tier] = larger (half[row->tier], half_across (d, row));
        off[row->tier] = larger (off[row->tier], llabs (row->off));
        /* A line of the other direction may reach past the corner, too: the text is not to look like that line's.  */
        if (row->past)
          off[0] = larger (off[0], half_across (d, row) + TAIL + ARROW);
      }
  d->depth[far] = 0;
  for (int i = 0; i < d->tiers[far]; i++)
    {
      at += i ? larger (NEXT_TIER, half[i - 1] + half[i] + (d->upright && !d->above ? AIR : 0)) : larger (FIRST_TIER, half[0] + GAP);
      at = larger (at, off[i]);
      d->offset[far][i] = at;
      d->depth[far] = at + larger (d->above ? 2 * half[i] : half[i], PAST + AIR);
    }
}

void
br__size_lines_settle (br__size_lines *d)
{
  for (size_t i = 0; i < d->placed; i++)
    move_text (&d->rows[i], d);
  for (int far = 0; far < BR__BANKS; far++)
    set_offsets (d, far);
}

/* ---- Strokes ---- */

typedef struct pencil
{
  br__plot *plot;
  int upright;
  int64_t left, top;
} pencil;

static int64_t
page_x (const pencil *c, int64_t along, int64_t across)
{
  return c->left + (c->upright ? across : along);
}

static int64_t
page_y (const pencil *c, int64_t along, int64_t across)
{
  return c->top - (c->upright ? along : across);
}

static void
put_line (pencil *c, int64_t along, int64_t across, int64_t along2, int64_t across2)
{
  br__plot_line (c->plot, BR__PEN_THIN, page_x (c, along, across), page_y (c, along, across),
                 page_x (c, along2, across2), page_y (c, along2, across2), 0);
}

/* The next text that an extension line at ALONG would run through, going from FROM toward TO: from *BEGINS to *ENDS.  */
static int
next_text (int64_t *begins, int64_t *ends, const pencil *c, int64_t along, int64_t from, int64_t to)
{
  int64_t x = page_x (c, along, 0), y = page_y (c, along, 0), sign = to < from ? -1 : 1;
  int found = 0;
  for (size_t i = 0; i < c->plot->taken_count; i++)
    {
      br__area a = c->plot->taken[i];
      int meets = c->upright ? y > a.y && y < a.y2 : x > a.x && x < a.x2;
      int64_t low = c->upright ? a.x - c->left : c->top - a.y2, high = c->upright ? a.x2 - c->left : c->top - a.y;
      int64_t first = sign < 0 ? high : low, last = sign < 0 ? low : high;
      if (!meets || (last - from) * sign <= 0 || (to - first) * sign <= 0 || (found && (first - *begins) * sign >= 0))
        continue;
      *begins = (first - from) * sign > 0 ? first : from;
      *ends = last;
      found = 1;
    }
  return found;
}

/* An extension line at ALONG, broken where it would run through a text.  */
static void
put_extension (pencil *c, int64_t along, int64_t from, int64_t to)
{
  int64_t begins = from, ends = to, sign = to < from ? -1 : 1;
  c->plot->group = BR__GROUP_EXTENSIONS;
  while ((to - from) * sign > 0)
    {
      int broken = next_text (&begins, &ends, c, along, from, to);
      if (!broken || begins != from)
        put_line (c, along, from, along, broken ? begins : to);
      from = broken ? ends : to;
    }
}

/* Where the line of ROW lies.  */
static int64_t
place_of_line (const br__size_lines *d, const br__size_line *row, const int64_t edge[BR__BANKS])
{
  int64_t offset = d->offset[row->far][row->tier];
  return row->far ? edge[1] + offset : edge[0] - offset;
}

/* The extension line at ALONG for all rows of a bank that have an end there: from the farthest feature to the outermost
   of their dimension lines.  It is put with the first of these rows.  */
static void
put_shared_extension (pencil *c, const br__size_lines *d, const int64_t edge[BR__BANKS], size_t row, int second)
{
  int far = d->rows[row].far, sign = far ? -1 : 1;
  int64_t along = second ? d->rows[row].to : d->rows[row].from, from = INT64_MIN, to = INT64_MAX;
  for (size_t i = 0; i < d->placed; i++)
    for (int k = 0; k < 2; k++)
      {
        const br__size_line *r = &d->rows[i];
        int64_t feature = sign * (k ? r->feature_to[far] : r->feature_from[far]);
        if ((k ? r->to : r->from) != along || r->far != far)
          continue;
        if (i < row || (i == row && k < second))
          return;
        int64_t line = sign * place_of_line (d, r, edge);
        from = feature > from ? feature : from;
        to = line < to ? line : to;
      }
  put_extension (c, along, sign * (from - GAP), sign * (to - PAST));
}

static void
put_arrow (pencil *c, int64_t along, int64_t across, int64_t from)
{
  br__ink *ink = br__plot_add (c->plot, BR__INK_ARROW, BR__PEN_THIN, page_x (c, along, across),
                               page_y (c, along, across));
  ink->x2 = page_x (c, from, across);
  ink->y2 = page_y (c, from, across);
}

/* The middle of ROW's text, which goes aside from a join of two sheets where its line has room.  */
static int64_t
text_of (const pencil *c, const br__size_lines *d, const br__size_line *row)
{
  const int64_t step = c->plot->sheet[d->upright], half = half_along (d, row), spare = half + ARROW;
  int64_t at = d->upright ? c->top - row->text_at : c->left + row->text_at;
  int64_t join = step ? (at - BR__JOIN / 2 + step / 2) / step * step + BR__JOIN / 2 : 0;
  if (join < step || row->outside || llabs (at - join) >= half)
    return row->text_at;
  for (int sign = at < join ? -1 : 1, i = 0; i < 2; i++, sign = -sign)
    {
      int64_t beside = join + sign * half, to = d->upright ? c->top - beside : beside - c->left;
      if (to >= row->from + spare && to <= row->to - spare)
        return to;
    }
  return row->text_at;
}

static void
put_dimension_line (pencil *c, const br__size_lines *d, const br__size_line *row, int64_t across)
{
  int64_t half = half_along (d, row), text = text_of (c, d, row);
  c->plot->group = BR__GROUP_DIMENSIONS;
  int64_t from_tail = row->arrows_outside ? row->from - ARROW : row->from + ARROW;
  int64_t to_tail = row->arrows_outside ? row->to + ARROW : row->to - ARROW;
  put_arrow (c, row->from, across, from_tail);
  put_arrow (c, row->to, across, to_tail);
  if (row->arrows_outside)
    {
      put_line (c, row->from - TAIL, across, row->from, across);
      put_line (c, row->to, across, row->to + TAIL, across);
    }
  if (row->outside && d->above)
    put_line (c, text < row->from ? row->low : row->to, across, text < row->from ? row->from : row->high, across);
  if (row->outside || d->above)
    put_line (c, row->from, across, row->to, across);
  else
    {
      put_line (c, row->from, across, text - half, across);
      put_line (c, text + half, across, row->to, across);
    }
}

/* Above its line where that is whole: an upright one is read from the right, so that its upper side is the left.  */
static void
put_number (pencil *c, const br__size_lines *d, const br__size_line *row, int64_t across)
{
  int64_t up = d->above ? TEXT_SIZE * 3 / 5 + AIR / 2 : 0;
  int64_t text = text_of (c, d, row), x = page_x (c, text, across), y = page_y (c, text, across);
  size_t first = c->plot->taken_count;
  if (d->upright && d->above)
    br__plot_turned (c->plot, x - up, y, TEXT_SIZE, row->text);
  else
    br__plot_text (c->plot, x, y - up, BR_ALIGN_MIDDLE, TEXT_SIZE, row->text);
  /* What runs there already is of the other direction.  */
  if (c->plot->taken_count > first)
    br__lines_open (c->plot, c->plot->taken[first]);
}

void
br__size_lines_plot (br__plot *p, const br__size_lines *d, const br__side_view *v, int64_t left, int64_t top)
{
  pencil c = { p, d->upright, left, top };
  br__group before = p->group;
  const int64_t edge[BR__BANKS] = { d->upright ? v->reach.x : v->reach.y, d->upright ? v->reach.x2 : v->reach.y2 };
  for (size_t i = 0; i < d->placed; i++)
    put_number (&c, d, &d->rows[i], place_of_line (d, &d->rows[i], edge));
  for (size_t i = 0; i < d->placed; i++)
    {
      put_shared_extension (&c, d, edge, i, 0);
      put_shared_extension (&c, d, edge, i, 1);
      put_dimension_line (&c, d, &d->rows[i], place_of_line (d, &d->rows[i], edge));
    }
  p->group = before;
}
