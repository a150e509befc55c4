/* SPDX-License-Identifier: LGPL-3.0-or-later
   draw.c - the statement draw: what is to be drawn, at which scale, on which paper.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "draw/draw.h"
#include "draw/view.h"
#include "exact/memory.h"
#include "exact/status.h"
#include "exact/wide.h"
#include "lesson/worksheet.h"
#include "shape/annotation.h"
#include "view/hidden_line.h"

#define CROWD 300
#define LEAST_SQUARE (BR__INCH / 32)
#define SMALL_SQUARES "squares of less than 1/32 in cannot be told apart"

static void
drawing_clear (br__drawing *d)
{
  br__free (d->layer);
  br__free (d->of);
  br__free (d->path);
  br_number_clear (&d->ratio);
  br_number_clear (&d->grid);
  br__paperwork_clear (&d->w);
  br__view_clear (&d->view);
  for (int i = 0; i < 2; i++)
    {
      br__view_clear (&d->other[i]);
      br__seen_clear (&d->seen[i]);
    }
  br__plot_clear (&d->figure);
}

/* RUN, of the sheet that is seen from above (WHICH 0) or from the front, which is made when it is first asked for.  */
static br_status
run_of (br__run *seen, br__drawing *d, br__run *run, int which)
{
  br__seen *z = &d->seen[which];
  br_status status = z->sheet ? BR_OK : br__seen_make (z, run, which ? BR__FROM_THE_FRONT : BR__FROM_ABOVE, d->layer, d->of);
  *seen = *run;
  seen->sheet = z->sheet;
  return status;
}

/* The view or the views of D.  What is drawn alone is D's view.  How near shapes are in the others is seen in the side view.  */
static br_status
make_views (br__drawing *d, br__run *run, const br_number *ratio)
{
  const int all = d->from == BR__ALL_VIEWS;
  br__run seen;
  br__side_view alone = BR__VIEW_ZERO, *side = all || d->from == BR__FROM_THE_SIDE ? &d->view : &alone;
  br_status status = br__view_make (side, run, ratio, d->layer, d->of);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    if (all || d->from == (i ? BR__FROM_THE_FRONT : BR__FROM_ABOVE))
      {
        br__side_view *view = all ? &d->other[i] : &d->view;
        status = run_of (&seen, d, run, i);
        if (status == BR_OK)
          status = br__view_make (view, &seen, ratio, NULL, NULL);
        if (status == BR_OK)
          status = br__order_seen (view, &d->seen[i], run->sheet, side);
      }
  br__view_clear (&alone);
  return status;
}

#define MOST_PLACES 2000
#define MOST_NOTES 1000

/* What stands in a view, each place of a row for itself: all of it is held against all the rest.  An outline, which may be turned,
   takes as long as several others.  */
static size_t
places_of (const br__side_view *v, const br__graph *g)
{
  size_t count = 0;
  for (size_t i = 0; i < v->count; i++)
    {
      const char *name = v->shapes[i].shape->name;
      size_t corners = br__shape_corners (g, name, strlen (name));
      count += (v->shapes[i].copies ? v->shapes[i].copy_count : 1) * (corners ? 4 + corners / 16 : 1);
    }
  return count;
}

const char *
br__crowd_of (int *most, const br__side_view *v, const br_sheet *sheet)
{
  size_t notes = 0;
  for (const br__annotation *a = sheet->annotations; a; a = a->next)
    notes += (size_t) (a->active != 0);
  *most = notes > MOST_NOTES ? MOST_NOTES : MOST_PLACES;
  return notes > MOST_NOTES ? "dimensions and notes" : places_of (v, sheet->graph) > MOST_PLACES ? "places of shapes" : NULL;
}

static br_status
check_crowd (br__run *run, const br__drawing *d)
{
  int most;
  const char *what = br__crowd_of (&most, &d->view, run->sheet);
  if (!what)
    return BR_OK;
  br__fail (run->error, BR_TOO_BIG, run->word.offset, run->end - run->word.offset, "more than %d %s are too many for one drawing", most, what);
  br__hint (run->error, "`layer NAME` behind it draws one layer of it, `of NAME` one part");
  return BR_TOO_BIG;
}

static br_status
make_view (br__drawing *d, br__run *run, const br_number *ratio)
{
  br_status status = make_views (d, run, ratio);
  if (status == BR_OK)
    return check_crowd (run, d);
  size_t start = run->word.offset, length = run->end - start;
  const br__seen *flat = d->seen[0].flat_count ? &d->seen[0] : &d->seen[1];
  if (status == BR_DOMAIN && flat->flat_count)
    {
      br__fail (run->error, BR_DOMAIN, start, length, "no shape has a depth yet, so there is the side view alone");
      br__hint (run->error, "write `%s deep 3/4 in`, or give another shape a depth so", flat->flat[0]->text);
    }
  else if (status == BR_DOMAIN)
    {
      br__fail (run->error, BR_DOMAIN, start, length, d->layer || d->of ? "there is no shape of that layer or part"
                                                                        : "there is no shape to be drawn yet");
      br__hint (run->error, d->layer || d->of ? "`shapes` lists them" : "circle wheel = 3-1/2 at 0, 0");
    }
  else if (status == BR_TOO_BIG)
    {
      br__fail (run->error, BR_TOO_BIG, start, length, "a shape reaches too far to be drawn");
      br__hint (run->error, "`shapes` lists sizes and places");
    }
  else if (status != BR_OK)
    br__fail_plain (run->error, status, start, length);
  return status;
}

const char *const br__view_names[] = { "side", "top", "front", "views" };
static const char *const view_words[] = { "side view", "view from above", "front view", "three views" };

/* How far all reaches, side by side where there are several views.  */
static br__area
whole_reach (const br__drawing *d)
{
  br__area a = d->view.reach;
  if (d->from == BR__ALL_VIEWS)
    {
      a.y2 += d->other[0].reach.y2 - d->other[0].reach.y;
      a.x2 += d->other[1].reach.x2 - d->other[1].reach.x;
    }
  return a;
}

static br_status
draw_figure (br__drawing *d, br__run *run, int64_t width, int64_t height)
{
  br__view_set set = { { &d->view, &d->other[0], &d->other[1] }, { *run, *run, *run } };
  br_status status = BR_OK;
  d->view.joined = d->from != BR__ALL_VIEWS && strcmp (br__picture_form (d->path), "pdf") == 0;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    if (d->seen[i].sheet)
      status = run_of (&set.run[i + 1], d, run, i);
  if (d->from == BR__ALL_VIEWS)
    return br__draw_views (&d->figure, &d->found, &set, br__first_angle (&run->sheet->settings), d->w.grid, width);
  return br__draw_side (&d->figure, &d->found, &set.run[d->from], &d->view, d->w.grid, width, height);
}

static br_status
make_paper (br__drawing *d, br__run *run, const br_number *ratio, int landscape)
{
  br_status status = br__paperwork_make (&d->w, run, view_words[d->from], ratio, br_number_sign (&d->grid) ? &d->grid : NULL,
                                         d->paper, landscape);
  d->landscape = landscape;
  return status == BR_OK ? BR_OK : br__fail_plain (run->error, status, run->word.offset, run->end - run->word.offset);
}

/* The figure at RATIO on paper that is upright or lies on its side; *SHEETS it takes.  */
static br_status
try_paper (int64_t *sheets, br__drawing *d, br__run *run, const br_number *ratio, int landscape)
{
  br_status status = make_paper (d, run, ratio, landscape);
  if (status == BR_OK && d->w.grid < LEAST_SQUARE)
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                     SMALL_SQUARES);
  br__area room = br__paper_room (&d->w);
  if (status == BR_OK)
    status = draw_figure (d, run, room.x2 - room.x, room.y2 - room.y);
  if (status == BR_OK)
    *sheets = br__sheets_for (&d->figure, &d->w);
  return status;
}

static int
is_crowd (const br__drawing *d)
{
  return d->view.count + d->other[0].count + d->other[1].count > CROWD;
}

/* The figure at RATIO on the paper that lies as it does, or the other way where that takes fewer sheets; *FITS is 2 if all
   goes on one, 1 if the figure does, without its table.  */
static br_status
try_scale (int *fits, br__drawing *d, br__run *run, const br_number *ratio)
{
  int64_t sheets = 0, other = 0;
  br_status status = make_view (d, run, ratio);
  const br__area a = whole_reach (d);
  int landscape = (a.x2 - a.x) / 5 > (a.y2 - a.y) / 4;
  if (status == BR_OK)
    status = try_paper (&sheets, d, run, ratio, landscape);
  /* A crowd, which takes its time, stays as it lies.  */
  if (status == BR_OK && sheets > 1 && !is_crowd (d))
    {
      status = try_paper (&other, d, run, ratio, !landscape);
      if (status == BR_OK && other >= sheets)
        status = try_paper (&sheets, d, run, ratio, landscape);
      else
        sheets = other;
    }
  *fits = sheets == 1 ? 2 : br__figure_fits (&d->figure, &d->w);
  return status;
}

/* Whether the shapes alone, a figure is larger, can fit at ROW; FULL is their reach at full size.  */
int
br__may_fit (const br__scale_row *row, br__area full, br__area room)
{
  return br__compare_products (full.x2 - full.x, row->drawn, room.x2 - room.x, row->full) <= 0
         && br__compare_products (full.y2 - full.y, row->drawn, room.y2 - room.y, row->full) <= 0;
}

/* So many smaller usual scales, down to half of its size, are tried for a figure that has room on the paper, but not with its
   table.  */
#define SMALLER 2
/* And so many, or of a crowd, for one whose words have no room at any of them: what they take does not get smaller, and a figure
   of a quarter of its size is not worth the sheet that it saves.  */
#define TRIED 5
#define TRIED_OF_CROWD 3

static br_status
try_row (int *fits, br__drawing *d, br__run *run, const br__scale_row *row)
{
  br_number ratio = BR_NUMBER_ZERO;
  br_status status = br_number_set_ratio (&ratio, row->drawn, row->full);
  if (status == BR_OK)
    status = try_scale (fits, d, run, &ratio);
  br_number_clear (&ratio);
  return status;
}

/* Shapes that D has neither the name nor a number of at the figure: the table speaks of what nobody finds.  */
static size_t
untied_of (const br__drawing *d)
{
  const br__side_view *views[] = { &d->view, &d->other[0], &d->other[1] };
  size_t count = 0;
  for (size_t i = 0; i < sizeof views / sizeof *views && !is_crowd (d); i++)
    for (size_t k = 0; k < views[i]->count; k++)
      count += (size_t) (views[i]->shapes[k].unlabelled && !views[i]->shapes[k].balloon);
  return count;
}

/* D is drawn at the scale CHOSEN.  The one before it is 1:5 or 1:10, which inch sheets do without where they can: it is taken where its
   figure goes on one sheet and fewer of its shapes are untied.  */
static br_status
try_between (br__drawing *d, br__run *run, size_t chosen, int inch)
{
  const br__scale_row *row = chosen ? br__scale_at (chosen - 1, inch) : NULL;
  const size_t untied = untied_of (d);
  int fits = 0;
  if (!untied || !row || br__scale_is_usual (row, inch))
    return BR_OK;
  br_status status = try_row (&fits, d, run, row);
  return status == BR_OK && (!fits || untied_of (d) >= untied) ? try_row (&fits, d, run, br__scale_at (chosen, inch)) : status;
}

/* The largest standard scale at which all goes on one sheet; or the figure alone, if its table would make it much
   smaller, or more of its shapes untied; where there is none, that of the fewest sheets.  */
static br_status
find_scale (br__drawing *d, br__run *run)
{
  const br__scale_row *row, *next;
  br_number ratio = BR_NUMBER_ZERO;
  br__area room[2] = { { 0, 0, 0, 0 }, { 0, 0, 0, 0 } };
  int fits = 0, metric = 0, smaller = 0, tried = 0;
  int64_t least = INT64_MAX;
  size_t alone = SIZE_MAX, best = SIZE_MAX, last = SIZE_MAX, untied = SIZE_MAX;
  const br__scale_row *large = NULL;            /* that of ALONE */
  br_status status = br_number_set_int (&ratio, 1);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      status = make_paper (d, run, &ratio, i);
      room[i] = br__paper_room (&d->w);
      metric = d->w.metric;
    }
  if (status == BR_OK && (room[0].x2 - room[0].x < BR__INCH || room[0].y2 - room[0].y < BR__INCH))
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                       "the margins leave too little of the paper");
  if (status == BR_OK)
    status = make_view (d, run, &ratio);
  br__area full = whole_reach (d);
  for (size_t i = 0; fits < 2 && status == BR_OK && (row = br__scale_at (i, !metric)) != NULL && smaller <= SMALLER
                     && (alone != SIZE_MAX || tried < (is_crowd (d) ? TRIED_OF_CROWD : TRIED)); i++)
    {
      if (!br__scale_is_usual (row, !metric))
        continue;
      if (large && br__compare_products (2 * row->drawn, large->full, row->full, large->drawn) < 0)
        break;
      next = br__scale_at (i + 1, !metric);
      if (!next || br__may_fit (row, full, room[0]) || br__may_fit (row, full, room[1]))
        {
          status = try_row (&fits, d, run, row);
          const int64_t sheets = status == BR_OK ? br__sheets_for (&d->figure, &d->w) : INT64_MAX;
          /* A smaller one is worse; none is tried after it.  */
          if (fits == 2 && untied_of (d) > untied)
            {
              fits = 1;
              smaller = SMALLER;
            }
          best = sheets < least || best == SIZE_MAX ? i : best;
          least = sheets < least ? sheets : least;
          last = i;
          tried++;
        }
      large = fits == 1 && !large ? row : large;
      untied = fits == 1 && alone == SIZE_MAX ? untied_of (d) : untied;
      alone = fits == 1 && alone == SIZE_MAX ? i : alone;
      smaller += alone != SIZE_MAX;
    }
  alone = alone != SIZE_MAX ? alone : best;
  if (status == BR_OK && fits < 2 && alone != last)
    status = try_row (&fits, d, run, br__scale_at (alone, !metric));
  if (status == BR_OK)
    status = try_between (d, run, fits == 2 ? last : alone, !metric);
  br_number_clear (&ratio);
  return status;
}

/* In the terminal what is left out of a view is told beside it.  */
static br_status
remark_flat (const br__drawing *d, br__run *run)
{
  const br__seen *z = d->seen[0].sheet ? &d->seen[0] : &d->seen[1];
  br_text t = BR_TEXT_ZERO;
  for (size_t i = 0; i < z->flat_count; i++)
    br__text_printf (&t, "%s%s", i ? ", " : "", z->flat[i]->name);
  br_status status = t.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
  if (status == BR_OK && t.length)
    status = br__remark (run, "in the side view alone, as the depth is not known: %s", br__text_string (&t));
  br__text_clear (&t);
  return status;
}

/* In the terminal there is no paper.  */
static br_status
show_view (br__drawing *d, br__run *run)
{
  if (d->scaled || d->bare || d->paper || br_number_sign (&d->grid))
    return br__expected (run, "`into FILE.pdf`, `.svg` or `.png`");
  br__run seen = *run;
  br_status status = make_view (d, run, NULL);
  if (status == BR_OK && d->from != BR__FROM_THE_SIDE && d->from != BR__ALL_VIEWS)
    status = run_of (&seen, d, run, d->from == BR__FROM_THE_FRONT);
  if (status == BR_OK)
    status = br__view_emit (&seen, &d->view, br__view_names[d->from == BR__ALL_VIEWS ? 0 : d->from]);
  for (int i = 0; i < 2 && status == BR_OK && d->from == BR__ALL_VIEWS; i++)
    {
      status = run_of (&seen, d, run, i);
      if (status == BR_OK)
        status = br__view_emit (&seen, &d->other[i], br__view_names[i + 1]);
    }
  return status == BR_OK ? remark_flat (d, run) : status;
}

/* To be laid over the sketch: at its scale, on its squares.  */
static br_status
draw_bare (br__drawing *d, br__run *run)
{
  const br_number *ratio = d->scaled ? &d->ratio : &run->sheet->settings.scale;
  br__run seen = *run;
  if (d->from == BR__ALL_VIEWS)
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                     "one view at a time is drawn bare: side, top or front");
  br_status status = make_view (d, run, ratio);
  if (status == BR_OK && d->from != BR__FROM_THE_SIDE)
    status = run_of (&seen, d, run, d->from == BR__FROM_THE_FRONT);
  if (status == BR_OK)
    status = make_paper (d, run, ratio, d->view.reach.x2 - d->view.reach.x > d->view.reach.y2 - d->view.reach.y);
  if (status == BR_OK && d->w.grid < LEAST_SQUARE)
    return br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset, SMALL_SQUARES);
  d->w.bare = 1;
  d->found.shapes = d->view.count;
  d->found.loose = d->view.loose;
  return status == BR_OK ? br__draw_bare (&d->figure, &seen, &d->view, d->w.grid) : status;
}

/* A scale that is given with the statement comes first, then the sheet's, then the largest that fits.  */
static br_status
draw_to_scale (br__drawing *d, br__run *run)
{
  int fits = 0;
  d->of_sheet = !d->scaled && run->sheet->settings.scale_given;
  if (d->bare)
    return draw_bare (d, run);
  if (!d->scaled && !d->of_sheet)
    return find_scale (d, run);
  return try_scale (&fits, d, run, d->of_sheet ? &run->sheet->settings.scale : &d->ratio);
}

/* The shapes of each view in words.  */
static br_status
put_descriptions (br_text *t, br__drawing *d, br__run *run)
{
  int all = d->from == BR__ALL_VIEWS;
  br_status status = BR_OK;
  if (all || d->from == BR__FROM_THE_SIDE)
    status = br__put_description (t, run->sheet, &d->view);
  for (int i = 0; i < 2 && status == BR_OK; i++)
    if (d->seen[i].sheet)
      {
        br__text_puts (t, all ? i ? "From the front:\n" : "From above:\n" : "");
        status = br__put_description (t, d->seen[i].sheet, all ? &d->other[i] : &d->view);
      }
  return status;
}

br_status
br__do_draw (br__run *run)
{
  br__drawing d;
  br_text words = BR_TEXT_ZERO;
  memset (&d, 0, sizeof d);
  br_status status = br__drawing_read (&d, run);
  if (status == BR_OK && d.parts)
    {
      status = br__draw_parts (&d, run);
      drawing_clear (&d);
      return status;
    }
  int across = d.from != BR__FROM_THE_SIDE;
  if (status == BR_OK)
    run->sheet->views_asked |= 1u << d.from;
  if (status == BR_OK && !d.path)
    {
      status = show_view (&d, run);
      drawing_clear (&d);
      return status == BR_OK && across ? br__tell_across (run) : status;
    }
  if (status == BR_OK)
    status = draw_to_scale (&d, run);
  if (status == BR_OK)
    {
      status = put_descriptions (&words, &d, run);
      if (status != BR_OK)
        br__fail_plain (run->error, status, run->word.offset, run->end - run->word.offset);
    }
  if (status == BR_OK)
    status = br__placed (run, br__draw_file (&d.pages, run, &d.figure, &d.w, br__text_string (&words), d.path),
                         d.path_start, d.path_end);
  if (status == BR_TOO_BIG && d.of_sheet)
    br__hint (run->error, "another scale than the sheet's: draw scale 1:100 into %s", d.path);
  if (status == BR_OK)
    status = br__drawing_emit (&d, run);
  if (status == BR_OK && across)
    status = br__tell_across (run);
  br__text_clear (&words);
  drawing_clear (&d);
  return status;
}
