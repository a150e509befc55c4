/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_sheet.c - plans for boards and sheets: ripped into strips that are cut to length, cut across into
   lengths that are ripped, or cut piece by piece (cut_corner.c); small
   jobs by the best of all plans (cut_small.c).  The best is kept.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/wide.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "plan/cut_sheet.h"

void
br__cut_layout_clear (br__cut_layout *layout)
{
  br__free (layout->places);
  memset (layout, 0, sizeof *layout);
}

/* ---- The least that any plan needs ---- */

/* Pieces with their kerf lie on sheets with one more kerf each way, and cover no spot twice.  */
static int64_t
bound_by_area (const br__sheet_job *job)
{
  br__wide sum = br__wide_of (0), sheet = br__wide_product (job->length + job->kerf, job->width + job->kerf);
  for (size_t i = 0; i < job->count; i++)
    {
      br__wide piece = br__wide_product (job->pieces[i].length + job->kerf, job->pieces[i].width + job->kerf);
      sum = br__wide_add (sum, br__wide_times (piece, job->pieces[i].demand));
    }
  return br__wide_low (br__wide_over_up (sum, sheet));
}

static int
falling (const void *a, const void *b)
{
  const int64_t *x = a, *y = b;
  return *x > *y ? -1 : *x < *y;
}

/* Pieces that are too wide to lie side by side follow each other along the sheet (ACROSS: the other
   way about), as on sticks.  */
static br_status
bound_by_wide (int64_t *bound, const br__sheet_job *job, int across)
{
  int64_t *pairs = br__alloc_zero (2 * job->count + 1, sizeof *pairs);
  int64_t *size = br__alloc_zero (job->count, sizeof *size);
  int64_t *demand = br__alloc_zero (job->count, sizeof *demand);
  br__cut_job line = { (across ? job->width : job->length) + job->kerf, 0, size, demand, 0 };
  int64_t limit = (across ? job->length : job->width) + job->kerf;
  br_status status = pairs && size && demand ? BR_OK : BR_NO_MEMORY;

  for (size_t i = 0; status == BR_OK && i < job->count; i++)
    {
      const br__cut_piece *p = &job->pieces[i];
      int64_t along = across ? p->width : p->length, side = across ? p->length : p->width;
      if (p->turn)
        along = side = p->length < p->width ? p->length : p->width;
      if (2 * (side + job->kerf) > limit && p->demand > 0)
        {
          pairs[2 * line.types] = along + job->kerf;
          pairs[2 * line.types++ + 1] = p->demand;
        }
    }
  if (status == BR_OK)
    {
      qsort (pairs, line.types, 2 * sizeof *pairs, falling);
      for (size_t i = 0; i < line.types; i++)
        size[i] = pairs[2 * i], demand[i] = pairs[2 * i + 1];
      *bound = br__cut_bound (&line);
    }
  br__free (pairs);
  br__free (size);
  br__free (demand);
  return status;
}

static br_status
find_bound (int64_t *least, const br__sheet_job *job)
{
  int64_t area = bound_by_area (job), wide_ones = 0, long_ones = 0;
  br_status status = bound_by_wide (&wide_ones, job, 0);
  if (status == BR_OK)
    status = bound_by_wide (&long_ones, job, 1);
  *least = area > wide_ones ? area : wide_ones;
  if (long_ones > *least)
    *least = long_ones;
  return status;
}

/* ---- Strips ---- */

/* Strips of one width, and the plan of what is cut from them.  */
typedef struct strips
{
  int64_t width;
  size_t *member;               /* rows of the job that are this wide */
  size_t members;
  br__cut_plan plan;
} strips;

static void
strips_free (strips *all, size_t count)
{
  for (size_t i = 0; i < count; i++)
    {
      br__free (all[i].member);
      br__cut_plan_clear (&all[i].plan);
    }
  br__free (all);
}

static br_status
group_by_width (strips **groups, size_t *count, const br__sheet_job *job)
{
  strips *made = br__alloc_zero (job->count, sizeof *made);
  size_t n = 0;
  if (!made)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < job->count; i++)
    {
      size_t g = 0;
      if (job->pieces[i].demand <= 0)
        continue;
      while (g < n && made[g].width != job->pieces[i].width)
        g++;
      if (g == n)
        {
          made[n].width = job->pieces[i].width;
          made[n++].member = br__alloc_zero (job->count, sizeof (size_t));
        }
      if (!made[g].member)
        {
          strips_free (made, n);
          return BR_NO_MEMORY;
        }
      made[g].member[made[g].members++] = i;
    }
  *groups = made;
  *count = n;
  return BR_OK;
}

static br_status
plan_strips (strips *g, const br__sheet_job *job, br__cut_control *control)
{
  int64_t *length = br__alloc_zero (g->members, sizeof *length);
  int64_t *demand = br__alloc_zero (g->members, sizeof *demand);
  br_status status = BR_NO_MEMORY;
  if (length && demand)
    {
      for (size_t i = 0; i < g->members; i++)
        {
          length[i] = job->pieces[g->member[i]].length;
          demand[i] = job->pieces[g->member[i]].demand;
        }
      status = br__cut_sticks (&g->plan, job->length, job->kerf, length, demand, g->members, control,
                               NULL);
    }
  br__free (length);
  br__free (demand);
  return status;
}

/* Puts the pieces of strip STRIP of G at Y on SHEET.  */
static void
place_strip (br__cut_layout *layout, const br__sheet_job *job, const strips *g, size_t strip,
             size_t sheet, int64_t y)
{
  int64_t x = 0;
  for (size_t i = g->plan.start[strip]; i < g->plan.start[strip + 1]; i++)
    {
      size_t row = g->member[g->plan.type[i]];
      layout->places[layout->count++] = (br__cut_place) { sheet, (uint32_t) row, 0, x, y };
      x += job->pieces[row].length + job->kerf;
    }
}

static br_status
place_strips (br__cut_layout *layout, const br__sheet_job *job, const strips *groups, size_t count,
              br__cut_control *control)
{
  int64_t *width = br__alloc_zero (count, sizeof *width), *demand = br__alloc_zero (count, sizeof *demand);
  size_t *next = br__alloc_zero (count, sizeof *next);
  br__cut_plan rip = BR__CUT_PLAN_ZERO;
  br_status status = BR_NO_MEMORY;
  if (!width || !demand || !next)
    goto out;
  for (size_t g = 0; g < count; g++)
    width[g] = groups[g].width, demand[g] = (int64_t) groups[g].plan.sticks;
  status = br__cut_sticks (&rip, job->width, job->kerf, width, demand, count, control, NULL);
  for (size_t s = 0; status == BR_OK && s < rip.sticks; s++)
    {
      int64_t y = 0;
      for (size_t i = rip.start[s]; i < rip.start[s + 1]; i++)
        {
          size_t g = rip.type[i];
          place_strip (layout, job, &groups[g], next[g]++, s, y);
          y += groups[g].width + job->kerf;
        }
    }
  layout->sheets = rip.sticks;
  /* Pieces of one width can always be slid into strips, so that as many strips are needed.  */
  if (count == 1 && status == BR_OK)
    {
      int64_t beside = (job->width + job->kerf) / (groups[0].width + job->kerf);
      layout->least = (groups[0].plan.least + beside - 1) / beside;
    }
out:
  br__cut_plan_clear (&rip);
  br__free (width);
  br__free (demand);
  br__free (next);
  return status;
}

br_status
br__cut_in_strips (br__cut_layout *layout, const br__sheet_job *job, br__cut_control *control)
{
  br__cut_layout made = BR__CUT_LAYOUT_ZERO;
  strips *groups = NULL;
  size_t count = 0;
  br_status status = group_by_width (&groups, &count, job);

  for (size_t g = 0; g < count && status == BR_OK; g++)
    status = plan_strips (&groups[g], job, control);
  made.places = br__alloc_zero (job->total, sizeof *made.places);
  if (status == BR_OK && !made.places)
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    status = place_strips (&made, job, groups, count, control);
  strips_free (groups, count);
  if (status == BR_OK)
    *layout = made;
  else
    br__cut_layout_clear (&made);
  return status;
}

/* ---- All ways of planning ---- */

static void
keep_better (br__cut_layout *best, br__cut_layout *other)
{
  if (other->places && (!best->places || other->sheets < best->sheets))
    {
      br__cut_layout swap = *best;
      *best = *other;
      *other = swap;
    }
  br__cut_layout_clear (other);
}

/* The same job with length and width changed about.  */
static br_status
change_about (br__sheet_job *other, const br__sheet_job *job)
{
  *other = *job;
  other->length = job->width;
  other->width = job->length;
  other->pieces = br__alloc_zero (job->count, sizeof *other->pieces);
  if (!other->pieces)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < job->count; i++)
    {
      other->pieces[i] = job->pieces[i];
      other->pieces[i].length = job->pieces[i].width;
      other->pieces[i].width = job->pieces[i].length;
    }
  return BR_OK;
}

static br_status
try_strips (br__cut_layout *best, int64_t *least, const br__sheet_job *job, int across,
            br__cut_control *control)
{
  br__cut_layout other = BR__CUT_LAYOUT_ZERO;
  br__sheet_job turned = { 0 };
  br_status status = across ? change_about (&turned, job) : BR_OK;
  if (status == BR_OK)
    status = br__cut_in_strips (&other, across ? &turned : job, control);
  if (status == BR_OK && !job->turns && other.least > *least)
    *least = other.least;
  for (size_t i = 0; across && i < other.count; i++)
    {
      int64_t x = other.places[i].x;
      other.places[i].x = other.places[i].y;
      other.places[i].y = x;
    }
  br__free (turned.pieces);
  keep_better (best, &other);
  return status;
}

static br_status
check_input (const br__sheet_job *job, br_error *error)
{
  int64_t total = 0;
  if (job->length > BR__CUT_MAX_SIZE || job->width > BR__CUT_MAX_SIZE || job->kerf > BR__CUT_MAX_SIZE)
    return br__fail (error, BR_TOO_BIG, 0, 0, "sizes too finely divided to plan with");
  if (job->kerf < 0 || job->kerf >= job->width || job->kerf >= job->length)
    return br__fail (error, BR_DOMAIN, SIZE_MAX, 0, "the kerf is as wide as the stock");
  for (size_t i = 0; i < job->count; i++)
    {
      const br__cut_piece *p = &job->pieces[i];
      if (p->length < 1 || p->width < 1)
        return br__fail (error, BR_DOMAIN, i, 0, "a size of zero or less");
      if (!br__cut_goes_in (p->length, p->width, job->length, job->width)
          && !(p->turn && br__cut_goes_in (p->width, p->length, job->length, job->width)))
        return br__fail (error, BR_DOMAIN, i, 0, "larger than the stock");
      if (p->demand < 0 || p->demand > BR__CUT_MAX_PIECES - total)
        return br__fail (error, BR_TOO_BIG, i, 0, "a plan for more than %d pieces", BR__CUT_MAX_PIECES);
      total += p->demand;
    }
  return BR_OK;
}

static br_status
search (br__cut_layout *best, const br__sheet_job *job, br__cut_control *control)
{
  int64_t least = 0;
  br__cut_layout other = BR__CUT_LAYOUT_ZERO;
  br_status status = find_bound (&least, job);
  int upright = 1;

  /* Strips take the pieces as they lie.  */
  for (size_t i = 0; i < job->count; i++)
    upright &= br__cut_goes_in (job->pieces[i].length, job->pieces[i].width, job->length, job->width);
  if (status == BR_OK && upright)
    status = try_strips (best, &least, job, 0, control);
  if (status == BR_OK && upright && (int64_t) best->sheets > least)
    status = try_strips (best, &least, job, 1, control);
  if (status == BR_OK && (!best->places || (int64_t) best->sheets > least))
    {
      status = br__cut_from_corners (&other, job, least, control);
      keep_better (best, &other);
    }
  if (status == BR_OK && (int64_t) best->sheets > least)
    {
      status = br__cut_small (&other, job, control);
      if (other.least > least)
        least = other.least;
      keep_better (best, &other);
    }
  best->least = least;
  best->stopped = (int64_t) best->sheets > least && br__cut_stop (control);
  return status;
}

br_status
br__cut_sheets (br__cut_layout *layout, int64_t length, int64_t width, int64_t kerf,
                const br__cut_piece *pieces, size_t count, br__cut_control *control, br_error *error)
{
  br__sheet_job job = { length, width, kerf, (br__cut_piece *) pieces, count, 0, 0 };
  br__cut_layout best = BR__CUT_LAYOUT_ZERO;
  br_status status = check_input (&job, error);

  if (status != BR_OK)
    return status;
  for (size_t i = 0; i < count; i++)
    {
      job.total += (size_t) pieces[i].demand;
      job.turns |= pieces[i].turn;
    }
  status = search (&best, &job, control);
  if (status != BR_OK)
    {
      br__cut_layout_clear (&best);
      return br__fail_plain (error, status, 0, 0);
    }
  br__cut_layout_clear (layout);
  *layout = best;
  return BR_OK;
}
