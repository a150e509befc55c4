/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_small.c - a provably optimal plan of a small job for sheets, by dynamic programming.

   Every plan with cuts from edge to edge is one piece, or two smaller plans side by side or one above the
   other.  So the smallest rectangles for each collection of pieces are made from those of its two
   parts; a rectangle that is not smaller than another in any direction is dropped.  A collection fits on one
   sheet if one of its rectangles does.  From this the fewest sheets for all pieces are found.  Equal pieces
   are only counted.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "plan/cut_sheet.h"

/* A job with more ways to part its collections is left to the other planners.  */
#define MOST_PARTINGS 600000
#define MOST_RECTANGLES 4000000
#define MOST_ROWS 32

/* LENGTH by WIDTH, each with a kerf, of the rectangle that holds a collection.  PART is one part and ONE
   and OTHER the rectangles of the two; of a single piece PART is 0 and ONE says if it is turned.  */
typedef struct rectangle
{
  int64_t length, width;
  uint32_t part, one, other;
  int above;            /* the parts lie one above the other, else side by side */
} rectangle;

/* By rising length, so by falling width.  */
typedef struct outline
{
  rectangle *rows;
  size_t count;
} outline;

typedef struct small
{
  const br__sheet_job *job;
  size_t rows[MOST_ROWS];       /* rows of the job that want pieces */
  uint32_t step[MOST_ROWS + 1]; /* of a collection's number: the counts are its digits */
  size_t types;
  uint32_t all;                 /* the number of the whole job */
  outline *outlines;            /* of each collection */
  size_t made;                  /* rectangles of all */
  rectangle *room;              /* candidates for one collection */
  size_t room_size;
  uint32_t *sheets, *first;     /* fewest sheets for a collection, and the pieces on the first of them */
  br__cut_control *control;
} small;

static uint32_t
digit (const small *s, uint32_t n, size_t type)
{
  return n / s->step[type] % (s->step[type + 1] / s->step[type]);
}

/* The next part of WHOLE behind PART, with counts as digits; 0 past the last.  */
static uint32_t
next_part (const small *s, uint32_t part, uint32_t whole)
{
  for (size_t t = 0; t < s->types; t++)
    {
      if (digit (s, part, t) < digit (s, whole, t))
        return part + s->step[t];
      part -= digit (s, part, t) * s->step[t];
    }
  return 0;
}

/* Adds R to the COUNT candidates if it goes on a sheet; 0 out of memory.  */
static int
offer (small *s, size_t *count, rectangle r)
{
  if (r.length > s->job->length + s->job->kerf || r.width > s->job->width + s->job->kerf)
    return 1;
  if (!br__grow (&s->room, &s->room_size, *count + 1, sizeof r))
    return 0;
  s->room[(*count)++] = r;
  return 1;
}

/* Adds the smallest rectangles of A and B side by side (ABOVE: one above the other).  */
static int
join (small *s, size_t *count, uint32_t part, const outline *a, const outline *b, int above)
{
  /* Side by side the larger width counts: walk from the widest.  Above, from the longest.  */
  size_t i = above ? a->count : 0, j = above ? b->count : 0;
  while (above ? i > 0 && j > 0 : i < a->count && j < b->count)
    {
      size_t at = above ? i - 1 : i, beside = above ? j - 1 : j;
      const rectangle *x = &a->rows[at], *y = &b->rows[beside];
      int64_t u = above ? x->length : x->width, v = above ? y->length : y->width;
      rectangle r = { above ? (u > v ? u : v) : x->length + y->length,
                      above ? x->width + y->width : (u > v ? u : v), part, (uint32_t) at, (uint32_t) beside, above };
      if (!offer (s, count, r))
        return 0;
      /* Only what makes the larger one smaller can help.  */
      if (u >= v)
        i += above ? (size_t) -1 : 1;
      if (v >= u)
        j += above ? (size_t) -1 : 1;
    }
  return 1;
}

static int
by_length (const void *p, const void *q)
{
  const rectangle *x = p, *y = q;
  if (x->length != y->length)
    return x->length < y->length ? -1 : 1;
  return x->width < y->width ? -1 : x->width > y->width;
}

/* Keeps of COUNT candidates those that no other is within.  */
static br_status
keep_smallest (small *s, outline *o, size_t count)
{
  rectangle *row = s->room;
  size_t kept = 0;
  if (!count)
    return BR_OK;
  qsort (row, count, sizeof *row, by_length);
  for (size_t i = 0; i < count; i++)
    if (!kept || row[i].width < row[kept - 1].width)
      row[kept++] = row[i];
  o->rows = br__alloc_zero (kept, sizeof *row);
  if (!o->rows)
    return BR_NO_MEMORY;
  memcpy (o->rows, row, kept * sizeof *row);
  o->count = kept;
  s->made += kept;
  return BR_OK;
}

static br_status
find_outline (small *s, uint32_t whole)
{
  size_t count = 0;
  for (size_t t = 0; t < s->types; t++)
    if (whole == s->step[t])
      {
        const br__cut_piece *p = &s->job->pieces[s->rows[t]];
        int64_t l = p->length + s->job->kerf, w = p->width + s->job->kerf;
        if (!offer (s, &count, (rectangle) { l, w, 0, 0, 0, 0 })
            || (p->turn && !offer (s, &count, (rectangle) { w, l, 0, 1, 0, 0 })))
          return BR_NO_MEMORY;
      }
  for (uint32_t part = next_part (s, 0, whole); part && part <= whole - part; part = next_part (s, part, whole))
    {
      const outline *a = &s->outlines[part], *b = &s->outlines[whole - part];
      if (a->count && b->count && (!join (s, &count, part, a, b, 0) || !join (s, &count, part, a, b, 1)))
        return BR_NO_MEMORY;
    }
  return keep_smallest (s, &s->outlines[whole], count);
}

/* The fewest sheets for WHOLE, of which the first holds a piece of the first type that is wanted.  */
static void
count_sheets (small *s, uint32_t whole)
{
  size_t type = 0;
  while (!digit (s, whole, type))
    type++;
  s->sheets[whole] = UINT32_MAX;
  for (uint32_t part = next_part (s, 0, whole); part; part = next_part (s, part, whole))
    if (s->outlines[part].count && digit (s, part, type) && s->sheets[whole - part] + 1 < s->sheets[whole])
      {
        s->sheets[whole] = s->sheets[whole - part] + 1;
        s->first[whole] = part;
      }
}

static void
place (const small *s, br__cut_layout *layout, uint32_t whole, size_t which, int64_t x, int64_t y)
{
  const rectangle *r = &s->outlines[whole].rows[which];
  if (r->part)
    {
      const rectangle *one = &s->outlines[r->part].rows[r->one];
      place (s, layout, r->part, r->one, x, y);
      place (s, layout, whole - r->part, r->other, r->above ? x : x + one->length,
             r->above ? y + one->width : y);
      return;
    }
  size_t type = 0;
  while (s->step[type] != whole)
    type++;
  layout->places[layout->count++] = (br__cut_place) { layout->sheets, (uint32_t) s->rows[type], (int) r->one, x, y };
}

/* The types of the job, and whether there are few enough ways to part it.  */
static int
begin (small *s)
{
  const br__sheet_job *job = s->job;
  int64_t partings = 1;
  uint32_t step = 1;
  for (size_t i = 0; i < job->count; i++)
    {
      int64_t n = job->pieces[i].demand;
      if (n <= 0)
        continue;
      if (s->types == MOST_ROWS || n > MOST_PARTINGS || (partings *= (n + 1) * (n + 2) / 2) > MOST_PARTINGS)
        return 0;
      s->rows[s->types] = i;
      s->step[s->types++] = step;
      step *= (uint32_t) n + 1;
    }
  s->step[s->types] = step;
  s->all = step - 1;
  return s->types > 0;
}

static br_status
find (small *s)
{
  s->outlines = br__alloc_zero ((size_t) s->all + 1, sizeof *s->outlines);
  s->sheets = br__alloc_zero ((size_t) s->all + 1, sizeof *s->sheets);
  s->first = br__alloc_zero ((size_t) s->all + 1, sizeof *s->first);
  if (!s->outlines || !s->sheets || !s->first)
    return BR_NO_MEMORY;
  for (uint32_t whole = 1; whole <= s->all; whole++)
    {
      br_status status = find_outline (s, whole);
      if (status != BR_OK)
        return status;
      count_sheets (s, whole);
      if (s->made > MOST_RECTANGLES || br__cut_stop (s->control))
        return BR_STOPPED;
      br__cut_tell (s->control, "sheets");
    }
  return BR_OK;
}

static br_status
write_layout (br__cut_layout *layout, const small *s)
{
  layout->places = br__alloc_zero (s->job->total, sizeof *layout->places);
  if (!layout->places)
    return BR_NO_MEMORY;
  for (uint32_t left = s->all; left; left -= s->first[left])
    {
      place (s, layout, s->first[left], 0, 0, 0);
      layout->sheets++;
    }
  layout->least = (int64_t) layout->sheets;
  return BR_OK;
}

br_status
br__cut_small (br__cut_layout *layout, const br__sheet_job *job, br__cut_control *control)
{
  small s = { .job = job, .control = control };
  if (!begin (&s))
    return BR_OK;
  br_status status = find (&s);
  if (status == BR_OK)
    status = write_layout (layout, &s);
  for (uint32_t i = 0; s.outlines && i <= s.all; i++)
    br__free (s.outlines[i].rows);
  br__free (s.outlines);
  br__free (s.sheets);
  br__free (s.first);
  br__free (s.room);
  return status == BR_STOPPED ? BR_OK : status;
}
