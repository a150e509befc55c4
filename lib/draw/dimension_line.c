/* SPDX-License-Identifier: LGPL-3.0-or-later
   dimension_line.c - what of a view is measured, and where dimension lines find room.

   In the manner of ISO 129-1 and ASME Y14.5 (both from memory): extension lines leave a gap at the outline
   and go a little past the dimension line; narrow closed arrows; the text in a gap of its line, readable
   from below; short sizes nearest the outline, so that lines do not cross, and the overall size outermost;
   a size too short for its text has it beside, and arrows from outside.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "draw/by_hand.h"
#include "draw/dimension_end.h"
#include "exact/memory.h"
#include "exact/wide.h"
#include "measure/measure.h"

void
br__size_lines_clear (br__size_lines *d)
{
  for (size_t i = 0; i < d->count; i++)
    br__free (d->rows[i].text);
  br__free (d->rows);
  memset (d, 0, sizeof *d);
}

/* ---- What is measured ---- */

/* What a drawing needs most comes first onto free paper: the whole, the distances of centres, heights from the datum, sizes,
   then the places of the rest.  */
typedef struct work
{
  br__size_lines *d;
  br__run *run;
  const br__side_view *view;    /* or NULL */
  br__area reach;
  int overall;                  /* the next is of the whole */
} work;

/* Two places on paper that are the same but for the last digits of the grid.  */
#define SAME 4

/* The row from FROM to TO, or NULL.  */
static br__size_line *
find_row (const br__size_lines *d, int64_t from, int64_t to)
{
  for (size_t i = 0; i < d->count; i++)
    if (llabs (d->rows[i].from - from) <= SAME && llabs (d->rows[i].to - to) <= SAME)
      return &d->rows[i];
  return NULL;
}

/* Adds GIVEN, with TEXT.  What only says a place (LOOSE) and finds no room is left to the table.  */
static br_status
keep_row (work *w, const br__size_line *given, const char *text, int loose)
{
  br__size_lines *d = w->d;
  char *copy = br__grow (&d->rows, &d->room, d->count + 1, sizeof *d->rows) ? br__strndup (text, strlen (text)) : NULL;
  int placed = 0;
  if (!copy)
    return BR_NO_MEMORY;
  d->rows[d->count] = *given;
  d->rows[d->count].tier = -1;
  d->rows[d->count++].text = copy;
  br__size_lines_place (&placed, d, w->view, w->reach);
  if (!placed && loose)
    {
      d->left_out--;
      d->refused++;
      br__free (d->rows[--d->count].text);
    }
  else
    d->marks |= strstr (text, "≈") != NULL;
  return BR_OK;
}

/* A row that says VALUE inches, of COUNT that are alike; the same place is measured once.  */
static br_status
add_row (work *w, const br__size_line *given, const br_real *value, size_t count, int loose)
{
  br_text t = BR_TEXT_ZERO;
  if (given->to <= given->from || find_row (w->d, given->from, given->to))
    return BR_OK;
  if (count > 1)
    br__text_printf (&t, "%zux ", count);
  br_status status = br__put_drawing_number (&t, value, &w->run->sheet->settings);
  if (status == BR_OK)
    status = t.failed ? BR_NO_MEMORY : keep_row (w, given, br__text_string (&t), loose);
  br__text_clear (&t);
  return status;
}

/* How far TO is from FROM in inches.  */
static br_status
distance_of (br_real *z, const work *w, const br__end *from, const br__end *to)
{
  br_real low = BR_REAL_ZERO;
  br_status status = br__place_of_end (&low, w->run, w->view, w->d->upright, from);
  if (status == BR_OK)
    status = br__place_of_end (z, w->run, w->view, w->d->upright, to);
  if (status == BR_OK)
    status = br_real_sub (z, z, &low);
  br_real_clear (&low);
  return status;
}

static br__size_line
row_between (const work *w, const br__end *from, const br__end *to)
{
  br__size_line row = { .from = from->at, .to = to->at };
  memcpy (row.feature_from, from->feature, sizeof row.feature_from);
  memcpy (row.feature_to, to->feature, sizeof row.feature_to);
  row.of = from->drawn ? from->drawn->shape->name : "";
  row.to_of = to->drawn != from->drawn ? to->drawn ? to->drawn->shape->name : "" : NULL;
  row.overall = w->overall;
  return row;
}

static br_status
add_distance (work *w, br__end from, br__end to, size_t count, int loose)
{
  br_real distance = BR_REAL_ZERO;
  const br__size_line row = row_between (w, &from, &to);
  br_status status = distance_of (&distance, w, &from, &to);
  if (status == BR_OK)
    status = add_row (w, &row, &distance, count, loose);
  br_real_clear (&distance);
  return status;
}

static int
is_centred (const br__drawn *s, int hole)
{
  return s->tied && !s->unmeasured && s->shape->kind == BR__CIRCLE && (s->shape->hole != 0) == hole;
}

static int
compare_ends (const void *a, const void *b)
{
  const br__end *x = a, *y = b;
  if (x->at != y->at)
    return x->at < y->at ? -1 : 1;
  return x->feature[0] < y->feature[0] ? -1 : x->feature[0] > y->feature[0];
}

/* Which of the places of ROW is AT; more than its steps: none.  */
static size_t
mark_at (const br__size_line *row, int64_t at)
{
  size_t k = 0;
  while (k <= br__size_line_steps (row) && llabs (br__size_line_mark (row, k) - at) > SAME)
    k++;
  return k;
}

/* 1 if the placed rows join AT to DATUM.  */
static int
is_known (const br__size_lines *d, int64_t datum, int64_t at)
{
  int64_t known[2 * BR__MOST_TIERS * 32] = { datum };
  size_t count = 1, most = sizeof known / sizeof known[0];
  for (size_t k = 0; k < count; k++)
    {
      if (llabs (known[k] - at) <= SAME)
        return 1;
      for (const br__size_line *row = d->rows; row < d->rows + d->placed; row++)
        {
          const size_t steps = br__size_line_steps (row);
          for (size_t mark = !row->worded && mark_at (row, known[k]) <= steps ? 0 : steps + 1; mark <= steps; mark++)
            {
              int64_t place = br__size_line_mark (row, mark);
              int new = 1;
              for (size_t j = 0; j < count && new; j++)
                new = llabs (known[j] - place) > SAME;
              if (new && count < most)
                known[count++] = place;
            }
        }
    }
  return 0;
}

/* Once so many places have found no room, no other is tried.  */
#define MOST_REFUSED 60

/* From DATUM to E, either way; unless that is known.  */
static br_status
add_place (work *w, const br__end *datum, br__end e, int loose)
{
  if (w->d->refused >= MOST_REFUSED || is_known (w->d, datum->at, e.at))
    return BR_OK;
  return e.at < datum->at ? add_distance (w, e, *datum, 1, loose) : add_distance (w, *datum, e, 1, loose);
}

/* An extension line begins at that of several centres in line which is nearest to its dimension line.  */
static void
share_features (br__end *ends, size_t count)
{
  for (size_t i = 1; i < count; i++)
    if (ends[i].at <= ends[i - 1].at + SAME)
      ends[i].feature[BR__NEAR] = ends[i - 1].feature[BR__NEAR];
  for (size_t i = count; i > 1; i--)
    if (ends[i - 1].at <= ends[i - 2].at + SAME)
      ends[i - 2].feature[BR__FAR] = ends[i - 1].feature[BR__FAR];
}

#define LEAST_STEPS 3

/* From FROM to TO in STEPS of which NEXT ends the first: "6x 4 (= 24)"; none where a step is no whole mark.  */
static br_status
add_pitch (work *w, const br__end *from, const br__end *next, const br__end *to, size_t steps)
{
  br_text t = BR_TEXT_ZERO;
  br_real step = BR_REAL_ZERO, whole = BR_REAL_ZERO;
  const br__settings *settings = &w->run->sheet->settings;
  br__size_line row = row_between (w, from, to);
  row.steps = steps;
  br_status status = distance_of (&step, w, from, next);
  if (status == BR_OK)
    status = distance_of (&whole, w, from, to);
  br__text_printf (&t, "%zux ", steps);
  if (status == BR_OK)
    status = br__put_drawing_number (&t, &step, settings);
  br__text_puts (&t, " (= ");
  if (status == BR_OK)
    status = br__put_drawing_number (&t, &whole, settings);
  br__text_puts (&t, ")");
  if (status == BR_OK && t.failed)
    status = BR_NO_MEMORY;
  if (status == BR_OK && !strstr (br__text_string (&t), "≈"))
    status = keep_row (w, &row, br__text_string (&t), 1);
  br_real_clear (&step);
  br_real_clear (&whole);
  br__text_clear (&t);
  return status;
}

/* Of the COUNT centres ALIKE, each at a place of its own, those that follow one another in equal steps.  */
static br_status
add_equal_steps (work *w, const br__end *alike, size_t count)
{
  br_status status = BR_OK;
  size_t last;
  for (size_t i = 0; i + LEAST_STEPS < count && status == BR_OK; i = last)
    {
      for (last = i + 1; last + 1 < count && llabs (alike[last + 1].at - alike[last].at - (alike[i + 1].at - alike[i].at)) <= SAME; )
        last++;
      if (last - i >= LEAST_STEPS && !is_known (w->d, alike[i].at, alike[last - 1].at))
        status = add_pitch (w, &alike[i], &alike[i + 1], &alike[last], last - i);
    }
  return status;
}

static int
is_in_row (const work *w, const br__drawn *c, const br__drawn *d)
{
  return c->a == d->a && llabs (w->d->upright ? c->x - d->x : c->y - d->y) <= SAME;
}

/* Circles of one size in a row whose centres are the same step apart, four or more, are measured by one line (ISO 129-1, equally
   spaced features, from memory).  ENDS are in order.  */
static br_status
add_pitches (work *w, const br__end *ends, size_t count)
{
  br_status status = BR_OK;
  br__end *alike = br__alloc_zero (count + 1, sizeof *alike);
  if (!alike)
    return BR_NO_MEMORY;
  for (size_t i = 0; i + LEAST_STEPS < count && status == BR_OK; i++)
    {
      size_t n = 0, before = 0;
      while (before < i && !is_in_row (w, ends[before].drawn, ends[i].drawn))
        before++;
      for (size_t k = before; k < count && before == i; k++)
        if (is_in_row (w, ends[k].drawn, ends[i].drawn) && (!n || ends[k].at > alike[n - 1].at + SAME))
          alike[n++] = ends[k];
      status = add_equal_steps (w, alike, n);
    }
  br__free (alike);
  return status;
}

/* 1 where a line that is placed has a step from FROM to TO.  */
static int
is_step (const br__size_lines *d, int64_t from, int64_t to)
{
  for (const br__size_line *row = d->rows; row < d->rows + d->placed; row++)
    if (row->steps && mark_at (row, from) < row->steps && mark_at (row, from) + 1 == mark_at (row, to))
      return 1;
  return 0;
}

/* Of more holes in no order all places stand in the table, as in a chart of holes: some of them here and some there helps nobody.  */
#define MOST_PLACES 20

/* Centres of wheels and the like, or of HOLES: across from one to the next (CHAIN), the first and all others from DATUM.  */
static br_status
add_centres (work *w, const br__end *datum, int holes, int chain)
{
  size_t count = 0;
  br__end *ends = br__alloc_zero (w->view->count + 1, sizeof *ends);
  if (!ends)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < w->view->count; i++)
    if (is_centred (&w->view->shapes[i], holes))
      ends[count++] = br__end_at_centre (&w->view->shapes[i], w->d->upright);
  qsort (ends, count, sizeof *ends, compare_ends);
  share_features (ends, count);
  br_status status = add_pitches (w, ends, count);
  for (size_t i = 1; i < count && status == BR_OK && chain; i++)
    if (ends[i].at > ends[i - 1].at + SAME && !is_step (w->d, ends[i - 1].at, ends[i].at))
      status = add_distance (w, ends[i - 1], ends[i], 1, 0);
  size_t places = count > 0;
  for (size_t i = 1; i < count; i++)
    places += ends[i].at > ends[i - 1].at + SAME;
  for (size_t i = 0; i < count && status == BR_OK && !(holes && places > MOST_PLACES); i++)
    if (!i || ends[i].at > ends[i - 1].at + SAME)
      status = add_place (w, datum, ends[i], holes || chain);
  br__free (ends);
  return status;
}

/* The first box that is like the one at INDEX: same width, same height.  */
static size_t
first_alike (const br__side_view *v, size_t index)
{
  const br__drawn *s = &v->shapes[index];
  for (size_t i = 0; i < index; i++)
    {
      const br__drawn *t = &v->shapes[i];
      if (t->tied && t->shape->kind == BR__BOX && t->a == s->a && t->b == s->b)
        return i;
    }
  return index;
}

static int
is_box (const br__drawn *s)
{
  return s->tied && !s->unmeasured && s->shape->kind == BR__BOX;
}

/* Boxes of the width and the height of S in rows and mirrors.  */
static size_t
count_copies (const br__side_view *v, const br__drawn *s)
{
  size_t count = 0;
  for (size_t i = 0; i < v->count; i++)
    for (size_t k = 0; k < v->shapes[i].copy_count; k++)
      count += is_box (&v->shapes[i].copies[k]) && v->shapes[i].copies[k].a == s->a && v->shapes[i].copies[k].b == s->b;
  return count;
}

/* How many boxes are like the first one that reaches from LOW to HIGH; 1 where there is none.  */
static size_t
count_spanning (const work *w, int64_t low, int64_t high)
{
  const br__side_view *v = w->view;
  size_t count = 0;
  for (size_t i = 0; i < v->count && !count; i++)
    {
      const br__area *a = &v->shapes[i].reach;
      if (!is_box (&v->shapes[i]) || (w->d->upright ? a->y : a->x) != low || (w->d->upright ? a->y2 : a->x2) != high)
        continue;
      for (size_t k = i; k < v->count; k++)
        count += is_box (&v->shapes[k]) && v->shapes[k].a == v->shapes[i].a && v->shapes[k].b == v->shapes[i].b;
      count += count_copies (v, &v->shapes[i]);
    }
  return count ? count : 1;
}

/* The height of the widest box, such as a deck: what others stand on.  */
static br_status
add_deck (work *w, const br__end *datum)
{
  const br__drawn *deck = NULL;
  for (size_t i = 0; i < w->view->count; i++)
    if (is_box (&w->view->shapes[i]) && (!deck || w->view->shapes[i].a > deck->a))
      deck = &w->view->shapes[i];
  return deck ? add_place (w, datum, br__end_at_side (deck, 1, 0), 1) : BR_OK;
}

/* Of boxes of one size the first is measured, "8x 2-5/16".  */
static br_status
add_boxes (work *w)
{
  const br__side_view *v = w->view;
  br_status status = BR_OK;
  size_t *counts = br__alloc_zero (v->count + 1, sizeof *counts);
  if (!counts)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < v->count; i++)
    if (is_box (&v->shapes[i]))
      counts[first_alike (v, i)]++;
    else if (v->shapes[i].pieces && !v->shapes[i].unmeasured)
      counts[i] = 1;
  for (size_t i = 0; i < v->count; i++)
    counts[i] += counts[i] && is_box (&v->shapes[i]) ? count_copies (v, &v->shapes[i]) : 0;
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    if (counts[i])
      status = add_distance (w, br__end_at_side (&v->shapes[i], w->d->upright, 0), br__end_at_side (&v->shapes[i], w->d->upright, 1), counts[i], 0);
  br__free (counts);
  return status;
}

/* Where the rest lies: boxes, arcs, ends of lines.  */
static br_status
add_places (work *w, const br__end *datum)
{
  br_status status = BR_OK;
  int upright = w->d->upright;
  for (size_t i = 0; i < w->view->count && status == BR_OK; i++)
    {
      const br__drawn *s = &w->view->shapes[i];
      if (!s->tied || s->unmeasured)
        continue;
      if (s->shape->kind == BR__BOX)
        status = add_place (w, datum, br__end_at_side (s, upright, 0), 1);
      else if (s->shape->kind == BR__ARC)
        status = add_place (w, datum, br__end_at_centre (s, upright), 1);
      for (int tip = -1; tip < 2 && status == BR_OK && s->shape->kind == BR__LINE; tip += 2)
        status = add_place (w, datum, br__end_at_tip (s, upright, tip), 1);
    }
  return status;
}

/* The outermost sides of what is tied down; 0 if nothing is.  */
static int
find_outermost (br__end *low, br__end *high, const work *w)
{
  const br__side_view *v = w->view;
  const br__drawn *first = NULL, *last = NULL;
  int upright = w->d->upright;
  for (size_t i = 0; i < v->count; i++)
    {
      const br__drawn *s = &v->shapes[i];
      if (!s->tied || s->in_wood)
        continue;
      if (!first || (upright ? s->reach.y < first->reach.y : s->reach.x < first->reach.x))
        first = s;
      if (!last || (upright ? s->reach.y2 > last->reach.y2 : s->reach.x2 > last->reach.x2))
        last = s;
    }
  if (first)
    {
      *low = br__end_at_side (first, upright, 0);
      *high = br__end_at_side (last, upright, 1);
    }
  return first != NULL;
}

/* What a person asked for comes before all else.  */
static br_status
add_by_hand (work *w)
{
  br_status status = BR_OK;
  for (const br__annotation *a = w->run->sheet->annotations; a && status == BR_OK; a = a->next)
    {
      br__size_line row;
      br_text text = BR_TEXT_ZERO;
      int found;
      status = br__hand_row (&found, &row, &text, w->run, w->view, a, w->d->upright);
      if (status == BR_OK && found && !find_row (w->d, row.from, row.to))
        status = keep_row (w, &row, br__text_string (&text), 0);
      br__text_clear (&text);
    }
  return status;
}

static int
is_metric (const br__run *run)
{
  return br__unit_is_decimal (run->sheet->settings.unit);
}

static br__end
datum_of (const br__side_view *v, int upright, const br__end *low)
{
  const int64_t *at = v->datum.place;
  return v->datum.given ? br__end_of (NULL, 0, 0, at[upright], at[!upright]) : *low;
}

/* PART: no chains.  */
static br_status
make (br__size_lines *d, br__run *run, const br__side_view *v, int upright, int part)
{
  work w = { d, run, v, v->reach, 0 };
  br__end low, high, datum;
  memset (&low, 0, sizeof low);
  memset (&high, 0, sizeof high);
  br__size_lines_clear (d);
  d->upright = upright;
  d->above = is_metric (run);
  d->most = upright ? 0 : v->tiers;
  if (!find_outermost (&low, &high, &w))
    return BR_OK;
  datum = datum_of (v, upright, &low);
  br_status status = add_by_hand (&w);
  w.overall = 1;
  if (status == BR_OK)
    status = add_distance (&w, low, high, count_spanning (&w, low.at, high.at), 0);
  w.overall = 0;
  if (status == BR_OK)
    status = add_centres (&w, &datum, part, !upright && !part);
  if (status == BR_OK && upright)
    status = add_deck (&w, &datum);
  if (status == BR_OK)
    status = add_boxes (&w);
  if (status == BR_OK)
    status = add_centres (&w, &datum, !part, 0);
  if (status == BR_OK)
    status = add_places (&w, &datum);
  if (status == BR_OK)
    br__size_lines_settle (d);
  else
    br__size_lines_clear (d);
  return status;
}

br_status
br__size_lines_make (br__size_lines *d, br__run *run, const br__side_view *v, int upright)
{
  return make (d, run, v, upright, 0);
}

br_status
br__size_lines_of_part (br__size_lines *d, br__run *run, const br__side_view *v, int upright)
{
  return make (d, run, v, upright, 1);
}

br_status
br__size_lines_of_outline (br__size_lines *d, br__run *run, const char *name, int64_t length, const br_real *inches,
                           int upright)
{
  br__size_line row = { .to = length, .of = name, .overall = 1 };
  work w = { d, run, NULL, { 0, 0, upright ? 0 : length, upright ? length : 0 }, 1 };
  br__size_lines_clear (d);
  d->upright = upright;
  d->above = is_metric (run);
  br_status status = add_row (&w, &row, inches, 1, 0);
  br__size_lines_settle (d);
  return status;
}
