/* SPDX-License-Identifier: LGPL-3.0-or-later
   table_piece.c - the table of a figure on the free paper of its sheets, so that none has text alone.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "plot/ink_map.h"
#include "plot/table_piece.h"

#define STEP BR__FREE_STEP
#define AIR BR__FREE_AIR
#define FEWEST 4                /* lines of a piece that is not the last, heads among them */

static int
compare_lines (const void *a, const void *b)
{
  const br__table_line *x = a, *y = b;
  return x->at < y->at ? -1 : x->at > y->at;
}

int
br__table_open (br__table_piece *t, const br__plot *figure)
{
  size_t count = 0;
  int64_t right = INT64_MIN;    /* of the rows */
  *t = (br__table_piece) { .figure = figure };
  t->lines = br__alloc_zero (figure->count, sizeof *t->lines);
  if (!t->lines)
    return 0;
  for (size_t i = figure->table; i < figure->count; i++)
    {
      const br__ink *k = &figure->inks[i];
      br__area a = br__ink_area (k);
      t->left = i == figure->table || a.x < t->left ? a.x : t->left;
      if (k->type == BR__INK_TEXT)
        {
          const size_t length = strlen (k->text);
          const int heads = strcmp (k->text, "dimension") == 0, caption = length && k->text[length - 1] == ':';
          t->lines[count++] = (br__table_line) { k->y, a.y, a.y2, a.x2, heads, 0, heads || caption };
        }
    }
  if (count)
    qsort (t->lines, count, sizeof *t->lines, compare_lines);
  for (size_t i = 0; i < count; i++)
    {
      br__table_line *last = t->count ? &t->lines[t->count - 1] : NULL, it = t->lines[i];
      if (!last || it.at != last->at)
        t->lines[t->count++] = it;
      else
        {
          last->top = it.top < last->top ? it.top : last->top;
          last->bottom = it.bottom > last->bottom ? it.bottom : last->bottom;
          last->right = it.right > last->right ? it.right : last->right;
          last->heads |= it.heads;
          last->row = !last->heads;
          last->leads |= it.leads;
        }
    }
  /* All rows are as wide as the widest, so that they can change places.  */
  for (size_t i = t->count; i-- > 0; )
    {
      right = t->lines[i].right > right ? t->lines[i].right : right;
      t->lines[i].right = t->lines[i].heads ? right : t->lines[i].right;
    }
  return 1;
}

void
br__table_close (br__table_piece *t)
{
  br__free (t->lines);
}

/* The heads that stand over line INDEX, or COUNT where it is no row.  */
static size_t
heads_of (const br__table_piece *t, size_t index)
{
  if (!t->lines[index].row && !t->lines[index].heads)
    return t->count;
  while (index > 0 && !t->lines[index].heads)
    index--;
  return t->lines[index].heads ? index : t->count;
}

/* How high the next COUNT lines are, and *HEADS what their heads above them take, that stand on another piece.  */
static int64_t
height_of (int64_t *heads, const br__table_piece *t, size_t count)
{
  size_t over = heads_of (t, t->next);
  *heads = over < t->next ? t->lines[over + 1].top - t->lines[over].top : 0;
  return *heads + t->lines[t->next + count - 1].bottom - t->lines[t->next].top;
}

/* How wide these are.  */
static int64_t
width_of (const br__table_piece *t, size_t count)
{
  size_t over = heads_of (t, t->next);
  int64_t right = over < t->next ? t->lines[over].right : t->left;
  for (size_t i = t->next; i < t->next + count; i++)
    right = t->lines[i].right > right ? t->lines[i].right : right;
  return right - t->left;
}

/* The inks that belong to line INDEX go to X, and Y for its top.  */
static void
put_line (br__plot *page, const br__table_piece *t, size_t index, int64_t x, int64_t y)
{
  br__plot one = *t->figure;
  int64_t from = t->lines[index].at, to = index + 1 < t->count ? t->lines[index + 1].at : INT64_MAX;
  for (size_t i = t->figure->table; i < t->figure->count && !page->failed; i++)
    {
      one.count = i + 1;
      if (one.inks[i].y >= from && one.inks[i].y < to)
        br__plot_join (page, &one, i, x - t->left, y - t->lines[index].top, NULL);
    }
}

/* The next COUNT lines at X Y.  */
static void
put_piece (br__table_piece *t, br__plot *page, size_t count, int64_t x, int64_t y)
{
  int64_t heads;
  size_t first = t->next;
  const int64_t high = height_of (&heads, t, count);
  if (page->piece_count < BR__MOST_PIECES)
    page->pieces[page->piece_count++] = (br__area) { x, y, x + width_of (t, count), y + high };
  if (heads)
    put_line (page, t, heads_of (t, first), x, y);
  for (; t->next < first + count; t->next++)
    put_line (page, t, t->next, x, y + heads + t->lines[t->next].top - t->lines[first].top);
}

/* So many of the next lines as are no higher than HIGH; heads and captions do not stand last.  */
static size_t
lines_in (const br__table_piece *t, int64_t high)
{
  int64_t heads;
  size_t count = t->count - t->next;
  while (count && height_of (&heads, t, count) > high)
    count--;
  while (count && t->next + count < t->count && (t->lines[t->next + count].heads || t->lines[t->next + count - 1].leads))
    count--;
  return count;
}

/* The most of the next lines that find a place; 0: none do.  */
static size_t
find_most (int64_t *x, int64_t *y, const br__table_piece *t, const br__ink_map *m)
{
  int64_t heads;
  for (size_t count = lines_in (t, m->within.y2 - m->within.y); count && t->next < t->count; )
    {
      int64_t high = height_of (&heads, t, count);
      /* All of it at the foot of the sheet; pieces in their order.  */
      if (br__ink_map_place (x, y, m, width_of (t, count), high, count < t->count))
        return count;
      count = lines_in (t, high * 7 / 8);
      count = count < FEWEST ? 0 : count;
    }
  return 0;
}

/* A place that was found for a piece.  */
typedef struct slot
{
  int64_t x, y, wide, high;
} slot;

/* Upward and downward as far as the paper is free.  */
static void
grow_slot (slot *s, const br__ink_map *m)
{
  const br__area *in = &m->within;
  const int64_t left = s->x - AIR, right = s->x + s->wide + AIR;
  for (int64_t y = s->y - STEP; y >= in->y + AIR && br__ink_map_is_free (m, (br__area) { left, y - AIR, right, s->y - AIR });
       y -= STEP)
    {
      s->high += STEP;
      s->y = y;
    }
  for (int64_t y = s->y + s->high; y + STEP <= in->y2 - AIR
       && br__ink_map_is_free (m, (br__area) { left, y + AIR, right, y + STEP + AIR }); y += STEP)
    s->high += STEP;
}

/* As is read: from above, of two beside each other the left one first.  */
static int
comes_before (const slot *a, const slot *b)
{
  return a->y < b->y + b->high && b->y < a->y + a->high ? a->x < b->x : a->y < b->y;
}

/* The lines of T that go into the COUNT slots, in their order, on PAGE or, where that is NULL, on none.  */
static void
fill_slots (br__table_piece *t, br__plot *page, const slot *slots, size_t count)
{
  for (size_t i = 0; i < count; i++)
    {
      size_t lines = t->next < t->count ? lines_in (t, slots[i].high) : 0;
      if (lines && page)
        put_piece (t, page, lines, slots[i].x, slots[i].y);
      else if (lines && width_of (t, lines) <= slots[i].wide)
        t->next += lines;
    }
}

/* Places on M for as many of the lines of T as find one; *FOUND gets their number.  */
static void
find_slots (slot slots[BR__MOST_PIECES], size_t *found, br__table_piece *t, br__ink_map *m)
{
  size_t count;
  int64_t heads;
  for (*found = 0; *found < BR__MOST_PIECES && t->next < t->count; (*found)++)
    {
      slot *s = &slots[*found];
      if (!(count = find_most (&s->x, &s->y, t, m)))
        return;
      s->high = height_of (&heads, t, count);
      s->wide = width_of (t, count);
      br__ink_map_fill (m, (br__area) { s->x, s->y, s->x + s->wide, s->y + s->high }, BR__CELL_TEXT);
      t->next += count;
    }
}

int
br__table_squeeze (br__table_piece *t, br__plot *page, br__area room, int off_face)
{
  br__ink_map m;
  slot slots[BR__MOST_PIECES] = { { 0, 0, 0, 0 } }, sorted[BR__MOST_PIECES] = { { 0, 0, 0, 0 } };
  size_t count = 0;
  br__table_piece placed = *t, trial = *t;
  int good = br__ink_map_make (&m, page, room);
  for (size_t i = 0; i < page->count && good; i++)
    if (page->inks[i].type == BR__INK_TEXT)
      br__ink_map_fill (&m, br__ink_area (&page->inks[i]), BR__CELL_TEXT);
  if (good && off_face)
    br__ink_map_fill (&m, page->face, BR__CELL_TEXT);
  if (good)
    find_slots (slots, &count, &placed, &m);
  for (size_t i = 0; i < count; i++)
    {
      size_t at = i;
      slot grown = slots[i];
      grow_slot (&grown, &m);
      br__ink_map_fill (&m, (br__area) { grown.x, grown.y, grown.x + grown.wide, grown.y + grown.high }, BR__CELL_TEXT);
      for (; at > 0 && comes_before (&grown, &sorted[at - 1]); at--)
        sorted[at] = sorted[at - 1];
      sorted[at] = grown;
    }
  br__ink_map_clear (&m);
  /* In the order in which they are read, where that takes no more paper.  */
  fill_slots (&trial, NULL, sorted, count);
  fill_slots (t, page, trial.next == placed.next ? sorted : slots, count);
  return good && !page->failed;
}

int
br__table_fill (br__table_piece *t, br__plot *page, br__area room)
{
  const size_t before = t->next;
  int good = br__table_squeeze (t, page, room, 0);
  if (good && t->next == before)
    put_piece (t, page, 1, room.x + AIR, room.y + AIR);
  return good && !page->failed;
}
