/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_corner.c - sheets cut piece by piece: a piece is placed in the corner of a remaining rectangle,
   and two straight cuts, edge to edge, separate it and leave two smaller rectangles.  Several orders of the
   pieces and several ways to choose the rectangle are tried.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>

#include "exact/memory.h"
#include "plan/cut_sheet.h"

#define MOST_PIECES 3000

typedef struct rest
{
  size_t sheet;
  int64_t x, y, length, width;
} rest;

/* One variant of the method.  */
typedef struct way
{
  int order;            /* by area, length, width or the longer side */
  int first;            /* the first cut: across, along, whichever leaves the larger rest, the smaller */
  int tight;            /* choose by the shorter gap that is left, not by area */
} way;

typedef struct board
{
  const br__sheet_job *job;
  way way;
  rest *rests;
  size_t count, room;
  br__cut_layout layout;
  int64_t smallest;     /* no piece has a shorter side */
} board;

typedef struct row
{
  int64_t key, second;
  size_t index;
} row;

static int
larger_first (const void *a, const void *b)
{
  const row *x = a, *y = b;
  if (x->key != y->key)
    return x->key > y->key ? -1 : 1;
  if (x->second != y->second)
    return x->second > y->second ? -1 : 1;
  return x->index < y->index ? -1 : x->index > y->index;
}

/* Areas steer only: sizes past 31 bits are shortened for them.  */
static int64_t
rough_area (const br__sheet_job *job, int64_t a, int64_t b)
{
  int shift = 0;
  while ((job->length + job->width) >> shift > INT32_MAX)
    shift++;
  return (a >> shift) * (b >> shift);
}

static void
sort_rows (row *rows, const br__sheet_job *job, int order)
{
  for (size_t i = 0; i < job->count; i++)
    {
      int64_t l = job->pieces[i].length, w = job->pieces[i].width;
      int64_t area = rough_area (job, l, w);
      rows[i] = (row) { order == 0 ? area : order == 1 ? l : order == 2 ? w : l > w ? l : w,
                        order == 0 ? l : area, i };
    }
  qsort (rows, job->count, sizeof *rows, larger_first);
}

static int
add_rest (board *b, size_t sheet, int64_t x, int64_t y, int64_t length, int64_t width)
{
  if (length < b->smallest || width < b->smallest)
    return 1;
  if (!br__grow (&b->rests, &b->room, b->count + 1, sizeof *b->rests))
    return 0;
  b->rests[b->count++] = (rest) { sheet, x, y, length, width };
  return 1;
}

/* How well L by W goes into R: small is good, -1 not at all.  */
static int64_t
misfit (const board *b, const rest *r, int64_t l, int64_t w)
{
  int64_t dl = r->length - l, dw = r->width - w;
  if (dl < 0 || dw < 0)
    return -1;
  return b->way.tight ? (dl < dw ? dl : dw)
                      : rough_area (b->job, r->length, r->width) - rough_area (b->job, l, w);
}

/* The rest that a piece goes into best; the count where a new sheet must be begun.  */
static size_t
choose (const board *b, const br__cut_piece *p, int *turned)
{
  size_t best = b->count;
  int64_t least = INT64_MAX;
  for (size_t i = 0; i < b->count; i++)
    for (int turn = 0; turn <= p->turn; turn++)
      {
        int64_t m = misfit (b, &b->rests[i], turn ? p->width : p->length, turn ? p->length : p->width);
        if (m >= 0 && m < least)
          least = m, best = i, *turned = turn;
      }
  return best;
}

/* Frees L by W at the corner of rest I by two cuts.  */
static int
split (board *b, size_t i, int64_t l, int64_t w)
{
  rest r = b->rests[i];
  int64_t k = b->job->kerf, right = r.length - l - k, above = r.width - w - k;
  int across = b->way.first == 0;
  if (b->way.first == 2)
    across = right > above;
  else if (b->way.first == 3)
    across = right < above;
  b->rests[i] = b->rests[--b->count];
  if (right > 0 && !add_rest (b, r.sheet, r.x + l + k, r.y, right, across ? r.width : w))
    return 0;
  return above <= 0 || add_rest (b, r.sheet, r.x, r.y + w + k, across ? l : r.length, above);
}

static int
put_piece (board *b, size_t index)
{
  const br__cut_piece *p = &b->job->pieces[index];
  int turned = 0;
  size_t i = choose (b, p, &turned);
  if (i == b->count)
    {
      if (!br__grow (&b->rests, &b->room, b->count + 1, sizeof *b->rests))
        return 0;
      b->rests[b->count++] = (rest) { b->layout.sheets++, 0, 0, b->job->length, b->job->width };
      turned = !br__cut_goes_in (p->length, p->width, b->job->length, b->job->width);
    }
  const rest *r = &b->rests[i];
  b->layout.places[b->layout.count++] = (br__cut_place) { r->sheet, (uint32_t) index, turned, r->x, r->y };
  return split (b, i, turned ? p->width : p->length, turned ? p->length : p->width);
}

static int
by_sheet (const void *a, const void *b)
{
  const br__cut_place *p = a, *q = b;
  if (p->sheet != q->sheet)
    return p->sheet < q->sheet ? -1 : 1;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return p->y < q->y ? -1 : p->y > q->y;
}

static br_status
go (br__cut_layout *layout, const br__sheet_job *job, way w, row *rows)
{
  board b = { .job = job, .way = w, .smallest = INT64_MAX };
  int good = 1;
  b.layout.places = br__alloc_zero (job->total, sizeof *b.layout.places);
  if (!b.layout.places)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < job->count; i++)
    {
      const br__cut_piece *p = &job->pieces[i];
      int64_t side = p->length < p->width ? p->length : p->width;
      if (side < b.smallest)
        b.smallest = side;
    }
  sort_rows (rows, job, w.order);
  for (size_t i = 0; i < job->count && good; i++)
    for (int64_t n = 0; n < job->pieces[rows[i].index].demand && good; n++)
      good = put_piece (&b, rows[i].index);
  br__free (b.rests);
  if (!good)
    {
      br__cut_layout_clear (&b.layout);
      return BR_NO_MEMORY;
    }
  qsort (b.layout.places, b.layout.count, sizeof *b.layout.places, by_sheet);
  if (layout->places && layout->sheets <= b.layout.sheets)
    br__cut_layout_clear (&b.layout);
  else
    {
      br__cut_layout_clear (layout);
      *layout = b.layout;
    }
  return BR_OK;
}

br_status
br__cut_from_corners (br__cut_layout *layout, const br__sheet_job *job, int64_t least,
                      br__cut_control *control)
{
  row *rows = br__alloc_zero (job->count, sizeof *rows);
  br_status status = rows ? BR_OK : BR_NO_MEMORY;
  for (int n = 0; n < 32 && status == BR_OK; n++)
    {
      way w = { n % 4, n / 4 % 4, n / 16 };
      if (layout->places && ((int64_t) layout->sheets <= least || br__cut_stop (control)
                             || job->total > MOST_PIECES))
        break;
      status = go (layout, job, w, rows);
      br__cut_tell (control, "sheets");
    }
  br__free (rows);
  return status;
}
