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

/* The place of a side (REACH not 0) or the centre of a shape, across (ACROSS 0) or up, in inches.  */
static br_status
place_of (br_real *z, br__run *run, const br__shape *shape, int upright, int reach)
{
  const br__value *at = br__shape_value (run->sheet, shape, upright ? BR__SHAPE_Y : BR__SHAPE_X);
  const br__value *more = reach ? br__shape_value (run->sheet, shape, reach) : NULL;
  if (!at || (reach && !more))
    return BR_DOMAIN;
  return more ? br_real_add (z, &at->real, &more->real) : br_real_set (z, &at->real);
}

/* A place to measure from: a side, a centre or an end, on paper and in the sheet.  */
typedef struct end
{
  const br__drawn *drawn;       /* or NULL: the datum */
  int reach;                    /* number of the shape, or 0: its centre */
  int tip;                      /* -1 or 1: its beginning or its end, in place of REACH */
  int64_t at, feature[BR__BANKS];
} end;

/* The place of E in inches.  */
static br_status
place_of_end (br_real *z, const work *w, const end *e)
{
  if (!e->drawn)
    return br_real_set (z, &w->view->datum.at[w->d->upright]);
  const br__shape *s = e->drawn->shape;
  const br__value *run = e->tip ? br__shape_value (w->run->sheet, s, w->d->upright ? BR__SHAPE_B : BR__SHAPE_A) : NULL;
  br__pad g = { BR_OK, w->run->sheet->settings.bits, NULL };
  br_real half = BR_REAL_ZERO;
  br_status status = place_of (z, w->run, s, w->d->upright, e->reach);
  if (status != BR_OK || !e->tip)
    return status;
  status = run ? br__pad_end (&half, br__half (&g, &run->real), &g) : BR_DOMAIN;
  if (status == BR_OK)
    status = e->tip < 0 ? br_real_sub (z, z, &half) : br_real_add (z, z, &half);
  br_real_clear (&half);
  return status;
}

static br_status
add_distance (work *w, end from, end to, size_t count, int loose)
{
  br_real low = BR_REAL_ZERO, high = BR_REAL_ZERO;
  br__size_line row = { .from = from.at, .to = to.at };
  memcpy (row.feature_from, from.feature, sizeof row.feature_from);
  memcpy (row.feature_to, to.feature, sizeof row.feature_to);
  row.of = from.drawn ? from.drawn->shape->name : "";
  row.to_of = to.drawn != from.drawn ? to.drawn ? to.drawn->shape->name : "" : NULL;
  row.overall = w->overall;
  br_status status = place_of_end (&low, w, &from);
  if (status == BR_OK)
    status = place_of_end (&high, w, &to);
  if (status == BR_OK)
    status = br_real_sub (&high, &high, &low);
  if (status == BR_OK)
    status = add_row (w, &row, &high, count, loose);
  br_real_clear (&low);
  br_real_clear (&high);
  return status;
}

/* Where an arc reaches farthest, across the way that is measured: at one of its ends, the nearest to the dimension line of the
   bank FAR of those that do, or where the curve turns.  AT is how far.  */
static int64_t
turn_of_arc (const br__drawn *s, int upright, int far, int64_t at)
{
  int64_t best = upright ? s->x : s->y;
  int found = 0;
  for (int last = 0; last < 2; last++)
    {
      int64_t sine, cosine;
      br__sine_cosine (&sine, &cosine, last ? s->c + s->d : s->c);
      for (int second = 0; second < 2; second++)
        {
          int64_t radius = second ? s->b : s->a;
          int64_t x = s->x + br__scale_by (radius, cosine, BR__INCH), y = s->y + br__scale_by (radius, sine, BR__INCH);
          int64_t along = upright ? y : x, across = upright ? x : y;
          if (llabs (along - at) < BR__INCH / 1000000 && (!found || (across < best) != far))
            {
              best = across;
              found = 1;
            }
        }
    }
  return best;
}

static end
end_of (const br__drawn *s, int reach, int tip, int64_t at, int64_t feature)
{
  return (end) { s, reach, tip, at, { feature, feature } };
}

/* A side of a shape: the lower or left one, or the other.  */
static end
side_of (const br__drawn *s, int upright, int far)
{
  const br__area *a = &s->reach;
  int64_t at = upright ? far ? a->y2 : a->y : far ? a->x2 : a->x;
  end e = end_of (s, upright ? far ? BR__SHAPE_TOP : BR__SHAPE_BOTTOM : far ? BR__SHAPE_RIGHT : BR__SHAPE_LEFT, 0, at,
                  upright ? s->x : s->y);
  for (size_t i = 0; i < s->copy_count; i++)
    {
      end own = side_of (&s->copies[i], upright, far);
      if (own.at == at)
        memcpy (e.feature, own.feature, sizeof e.feature);
    }
  if (s->copies)
    return e;
  /* The outermost point of the outline; of a box the near corner.  */
  if (s->shape->kind == BR__LINE)
    {
      int64_t along = upright ? s->b : s->a, across = upright ? s->a : s->b;
      for (int bank = 0; bank < BR__BANKS; bank++)
        e.feature[bank] += (along > 0) == far ? across / 2 : -across / 2;
    }
  for (int bank = 0; bank < BR__BANKS; bank++)
    if (s->pieces)
      e.feature[bank] = br__outline_turn (s, upright, bank == BR__FAR, at);
    else if (s->shape->kind == BR__BOX || s->shape->kind == BR__OUTLINE)
      e.feature[bank] = bank ? upright ? a->x2 : a->y2 : upright ? a->x : a->y;
    else if (s->shape->kind == BR__ARC)
      e.feature[bank] = turn_of_arc (s, upright, bank, at);
  return e;
}

void
br__side_feature (int64_t feature[BR__BANKS], const br__drawn *s, int upright, int far)
{
  end e = side_of (s, upright, far);
  memcpy (feature, e.feature, sizeof e.feature);
}

static end
centre_of (const br__drawn *s, int upright)
{
  return end_of (s, 0, 0, upright ? s->y : s->x, upright ? s->x : s->y);
}

/* The beginning (TIP -1) or the end of a line.  */
static end
tip_of (const br__drawn *s, int upright, int tip)
{
  int64_t along = upright ? s->b : s->a, across = upright ? s->a : s->b;
  int64_t at = (upright ? s->y : s->x) - along / 2, feature = (upright ? s->x : s->y) - across / 2;
  return end_of (s, 0, tip, at + (tip > 0 ? along : 0), feature + (tip > 0 ? across : 0));
}

static int
is_centred (const br__drawn *s, int hole)
{
  return s->tied && !s->unmeasured && s->shape->kind == BR__CIRCLE && (s->shape->hole != 0) == hole;
}

static int
compare_ends (const void *a, const void *b)
{
  const end *x = a, *y = b;
  if (x->at != y->at)
    return x->at < y->at ? -1 : 1;
  return x->feature[0] < y->feature[0] ? -1 : x->feature[0] > y->feature[0];
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
      for (size_t i = 0; i < d->placed; i++)
        for (int second = 0; second < 2 && !d->rows[i].worded; second++)
          {
            int64_t near = second ? d->rows[i].to : d->rows[i].from, far = second ? d->rows[i].from : d->rows[i].to;
            int new = llabs (near - known[k]) <= SAME;
            for (size_t j = 0; j < count && new; j++)
              new = llabs (known[j] - far) > SAME;
            if (new && count < most)
              known[count++] = far;
          }
    }
  return 0;
}

/* Once so many places have found no room, no other is tried.  */
#define MOST_REFUSED 60

/* From DATUM to E, either way; unless that is known.  */
static br_status
add_place (work *w, const end *datum, end e, int loose)
{
  if (w->d->refused >= MOST_REFUSED || is_known (w->d, datum->at, e.at))
    return BR_OK;
  return e.at < datum->at ? add_distance (w, e, *datum, 1, loose) : add_distance (w, *datum, e, 1, loose);
}

/* An extension line begins at that of several centres in line which is nearest to its dimension line.  */
static void
share_features (end *ends, size_t count)
{
  for (size_t i = 1; i < count; i++)
    if (ends[i].at <= ends[i - 1].at + SAME)
      ends[i].feature[BR__NEAR] = ends[i - 1].feature[BR__NEAR];
  for (size_t i = count; i > 1; i--)
    if (ends[i - 1].at <= ends[i - 2].at + SAME)
      ends[i - 2].feature[BR__FAR] = ends[i - 1].feature[BR__FAR];
}

/* Centres of wheels and the like, or of HOLES: across from one to the next (CHAIN), the first and all others from DATUM.  */
static br_status
add_centres (work *w, const end *datum, int holes, int chain)
{
  br_status status = BR_OK;
  size_t count = 0;
  end *ends = br__alloc_zero (w->view->count + 1, sizeof *ends);
  if (!ends)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < w->view->count; i++)
    if (is_centred (&w->view->shapes[i], holes))
      ends[count++] = centre_of (&w->view->shapes[i], w->d->upright);
  qsort (ends, count, sizeof *ends, compare_ends);
  share_features (ends, count);
  for (size_t i = 1; i < count && status == BR_OK && chain; i++)
    if (ends[i].at > ends[i - 1].at + SAME)
      status = add_distance (w, ends[i - 1], ends[i], 1, 0);
  for (size_t i = 0; i < count && status == BR_OK; i++)
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
add_deck (work *w, const end *datum)
{
  const br__drawn *deck = NULL;
  for (size_t i = 0; i < w->view->count; i++)
    if (is_box (&w->view->shapes[i]) && (!deck || w->view->shapes[i].a > deck->a))
      deck = &w->view->shapes[i];
  return deck ? add_place (w, datum, side_of (deck, 1, 0), 1) : BR_OK;
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
      status = add_distance (w, side_of (&v->shapes[i], w->d->upright, 0), side_of (&v->shapes[i], w->d->upright, 1), counts[i], 0);
  br__free (counts);
  return status;
}

/* Where the rest lies: boxes, arcs, ends of lines.  */
static br_status
add_places (work *w, const end *datum)
{
  br_status status = BR_OK;
  int upright = w->d->upright;
  for (size_t i = 0; i < w->view->count && status == BR_OK; i++)
    {
      const br__drawn *s = &w->view->shapes[i];
      if (!s->tied || s->unmeasured)
        continue;
      if (s->shape->kind == BR__BOX)
        status = add_place (w, datum, side_of (s, upright, 0), 1);
      else if (s->shape->kind == BR__ARC)
        status = add_place (w, datum, centre_of (s, upright), 1);
      for (int tip = -1; tip < 2 && status == BR_OK && s->shape->kind == BR__LINE; tip += 2)
        status = add_place (w, datum, tip_of (s, upright, tip), 1);
    }
  return status;
}

/* The outermost sides of what is tied down; 0 if nothing is.  */
static int
find_outermost (end *low, end *high, const work *w)
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
      *low = side_of (first, upright, 0);
      *high = side_of (last, upright, 1);
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

static end
datum_of (const br__side_view *v, int upright, const end *low)
{
  const int64_t *at = v->datum.place;
  return v->datum.given ? end_of (NULL, 0, 0, at[upright], at[!upright]) : *low;
}

/* PART: no chains.  */
static br_status
make (br__size_lines *d, br__run *run, const br__side_view *v, int upright, int part)
{
  work w = { d, run, v, v->reach, 0 };
  end low, high, datum;
  memset (&low, 0, sizeof low);
  memset (&high, 0, sizeof high);
  br__size_lines_clear (d);
  d->upright = upright;
  d->above = is_metric (run);
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
