/* SPDX-License-Identifier: LGPL-3.0-or-later
   rubs.c - what takes up the same room: the statement rubs, and the direction that `clear` tells.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/depth.h"

#define MOST_COMPARED 50000

/* ---- Two shapes ---- */

/* Z = how far A and B, which have a depth, are apart in depth; *KNOWN is 0 while one of them waits.  */
static br_status
gap_of (br__value *z, int *known, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  br__work w = { &sheet->settings, NULL, NULL, 0 };
  const br__value *const from[] = { br__depth_middle (sheet, a), br__depth_of (sheet, a), br__depth_middle (sheet, b), br__depth_of (sheet, b) };
  br__value args[4] = { BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO };
  br_status status = BR_OK;
  *known = 1;
  for (int i = 0; i < 4 && status == BR_OK && *known; i++)
    {
      *known = from[i] != NULL;
      if (*known)
        status = br__value_set (&args[i], from[i]);
    }
  if (status == BR_OK && *known)
    status = br__depth_gap (&w, z, args, br__depth_source (sheet, a)->depth > BR__FROM_DEPTH || br__depth_source (sheet, b)->depth > BR__FROM_DEPTH);
  for (int i = 0; i < 4; i++)
    br__value_clear (&args[i]);
  return status;
}

/* Z = the distance, as seen from the side, of two shapes with these numbers.  */
static br_status
distance_of (br__value *z, const br_sheet *sheet, const br__value *a, size_t a_count, const br__value *b, size_t b_count)
{
  const br__function *clear = br__shape_function (BR__CALL_CLEAR);
  br__work w = { &sheet->settings, NULL, NULL, 0 };
  br__value *args = br__alloc_zero (a_count + b_count, sizeof *args);
  if (!args)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < a_count + b_count; i++)
    args[i] = i < a_count ? a[i] : b[i - a_count];      /* borrowed */
  br_status status = clear->call (&w, z, args, (unsigned) (a_count + b_count), clear);
  br__free (args);
  return status;
}

/* The same of A and B, without an entry for it.  */
static br_status
side_distance (br__value *z, int *known, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  br__numbers n[2] = { { NULL, 0 }, { NULL, 0 } };
  br_status status = br__shape_numbers (&n[0], sheet, a);
  if (status == BR_OK)
    status = br__shape_numbers (&n[1], sheet, b);
  *known = status != BR_DOMAIN;
  if (status == BR_OK)
    status = distance_of (z, sheet, n[0].rows, n[0].count, n[1].rows, n[1].count);
  br__numbers_clear (&n[0]);
  br__numbers_clear (&n[1]);
  return *known ? status : BR_OK;
}

/* ---- What is looked at ---- */

/* A shape that takes up room, and between which uprights and levels it lies, in 4096ths of an inch.  */
typedef struct solid
{
  const br__shape *shape;
  size_t place;                 /* among all shapes */
  int64_t left, right, low, high;
} solid;

typedef struct pair
{
  const solid *first, *second;
  int decided;
} pair;

typedef struct looking
{
  const br_sheet *sheet;
  solid *solids;
  const br__shape **holes;
  pair *pairs;                  /* that rub */
  size_t solid_count, solid_room, hole_count, hole_room, pair_count, pair_room;
  size_t compared, passed;
  int over;                     /* there is more to compare than may be */
  size_t left_out;              /* pairs that were not compared then, at most */
} looking;

/* ---- What goes through a hole ---- */

/* The figures that a shape is made of: of a row or a mirror, those in all of its places.  */
typedef struct figures
{
  const br__shape *source;      /* what each of them is */
  int mirrored;
  br__work work;
  br__sketch sketch;
  br__numbers numbers;          /* of the shape */
  br__places places;
} figures;

static void
figures_clear (figures *f)
{
  br__places_clear (&f->places);
  br__numbers_clear (&f->numbers);
  br__sketch_clear (&f->sketch);
}

/* BR_DOMAIN while S waits; F is to be cleared then, too.  */
static br_status
figures_of (figures *f, const br_sheet *sheet, const br__shape *s)
{
  memset (f, 0, sizeof *f);
  f->source = br__shape_source (sheet, s);
  f->mirrored = br__is_mirrored (sheet, s);
  f->work.settings = &sheet->settings;
  f->sketch.work = &f->work;
  br_status status = br__shape_numbers (&f->numbers, sheet, s);
  return status == BR_OK ? br__shape_places (&f->places, &f->sketch, f->numbers.rows, f->numbers.count) : status;
}

/* The corners of figure I of F, and by how much it goes beyond them all around; an arc or an outline is the box around it.  */
static br_status
corners_of (br__hull *h, br__pad *g, const br_sheet *sheet, const figures *f, size_t i)
{
  const br__value *v = f->places.rows + i * f->places.numbers;
  br__figure figure = { f->source->kind, &v[1].real, &v[2].real, &v[3].real, &v[4].real, &v[5].real, &v[6].real };
  if (figure.kind == BR__ARC || figure.kind == BR__OUTLINE)
    {
      const br_real *side[4];
      for (int k = 0; k < 4; k++)
        side[k] = &br__shape_value (sheet, f->source, BR__SHAPE_RIGHT + k)->real;
      const br_real *middle = br__half (g, br__add (g, side[BR__LEFT], side[BR__RIGHT]));
      figure.kind = BR__BOX;
      figure.x = f->mirrored ? br__sub (g, figure.x, middle) : br__add (g, figure.x, middle);
      figure.y = br__add (g, figure.y, br__half (g, br__add (g, side[BR__BOTTOM], side[BR__TOP])));
      figure.a = br__sub (g, side[BR__RIGHT], side[BR__LEFT]);
      figure.b = br__sub (g, side[BR__TOP], side[BR__BOTTOM]);
    }
  br__hull_of (h, g, &figure);
  return g->status;
}

/* *INSIDE is 1 if all of figure I of F lies in figure K of HOLE, a circle or a bar, as seen from the side.  */
static br_status
lies_in (int *inside, const br_sheet *sheet, const figures *f, size_t i, const figures *hole, size_t k)
{
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  br__hull a, b;
  br_status status = corners_of (&a, &g, sheet, f, i);
  if (status == BR_OK)
    status = corners_of (&b, &g, sheet, hole, k);
  *inside = 1;
  for (size_t n = 0; status == BR_OK && *inside && n < a.count; n++)
    {
      const br_real *away = b.count > 1 ? br__point_to_segment (&g, a.corner[n], b.corner[0], b.corner[1])
                                        : br__length_of (&g, br__minus (&g, a.corner[n], b.corner[0]));
      *inside = br__order_of (&g, br__add (&g, away, a.round), b.round) <= 0;
      status = g.status;
    }
  br__pad_clear (&g);
  return status;
}

/* The part that S belongs to: a row or a mirror that names none belongs where its shape does.  */
static const char *
part_of (const br_sheet *sheet, const br__shape *s)
{
  while (s && !s->of && s->base)
    s = br__shape_find (sheet, s->base, strlen (s->base));
  return s ? s->of : NULL;
}

/* *GOES is 1 if H is a hole in WOOD: one without depth goes all through; one with a depth counts where WOOD does not go beyond it.  */
static br_status
is_hole_in (int *goes, const br_sheet *sheet, const br__shape *h, const br__shape *wood)
{
  const char *of = part_of (sheet, h), *part = part_of (sheet, wood);
  const br__shape *source = br__shape_source (sheet, h);
  int known = 0, order[2] = { 0, 0 };
  br__value end[4] = { BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO, BR__VALUE_ZERO };
  *goes = 0;
  if (!h->active || !source->hole || (of && (!part || strcmp (of, part) != 0))
      || (source->kind != BR__CIRCLE && source->kind != BR__LINE))
    return BR_OK;
  br_status status = br__depth_ends (&end[0], &end[1], &known, sheet, h);
  if (status == BR_OK && known)
    status = br__depth_ends (&end[2], &end[3], &known, sheet, wood);
  for (int i = 0; i < 2 && status == BR_OK && known; i++)
    status = br_real_cmp (&order[i], &end[i].real, &end[2 + i].real, sheet->settings.bits);
  *goes = status == BR_OK && order[0] >= 0 && order[1] <= 0;
  for (int i = 0; i < 4; i++)
    br__value_clear (&end[i]);
  return status;
}

/* *THROUGH is 1 if figure I of F goes through a hole in WOOD.  */
static br_status
figure_through (int *through, looking *l, const figures *f, size_t i, const br__shape *wood)
{
  br_status status = BR_OK;
  *through = 0;
  for (size_t at = 0; at < l->hole_count && status == BR_OK && !*through; at++)
    {
      int goes = 0;
      figures hole;
      status = is_hole_in (&goes, l->sheet, l->holes[at], wood);
      if (status != BR_OK || !goes)
        continue;
      status = figures_of (&hole, l->sheet, l->holes[at]);
      for (size_t k = 0; k < hole.places.count && status == BR_OK && !*through; k++)
        {
          status = lies_in (through, l->sheet, f, i, &hole, k);
          l->compared++;
        }
      figures_clear (&hole);
      status = status == BR_DOMAIN ? BR_OK : status;
    }
  return status;
}

/* *THROUGH is 1 if each figure of S goes through a hole in WOOD, or lies beside it.  */
static br_status
goes_through (int *through, looking *l, const br__shape *s, const br__shape *wood)
{
  const br_sheet *sheet = l->sheet;
  figures f;
  br__numbers n = { NULL, 0 };
  br__value apart = BR__VALUE_ZERO;
  br_status status = figures_of (&f, sheet, s);
  if (status == BR_OK)
    status = br__shape_numbers (&n, sheet, wood);
  *through = status == BR_OK;
  for (size_t i = 0; i < f.places.count && status == BR_OK && *through; i++)
    {
      int sign = 0;
      status = figure_through (through, l, &f, i, wood);
      if (status != BR_OK || *through || f.places.count == 1)
        continue;
      status = distance_of (&apart, sheet, f.places.rows + i * f.places.numbers, f.places.numbers, n.rows, n.count);
      if (status == BR_OK)
        status = br_real_sign (&sign, &apart.real, sheet->settings.bits);
      *through = sign >= 0;
    }
  br__value_clear (&apart);
  br__numbers_clear (&n);
  figures_clear (&f);
  return status;
}

/* ---- rubs ---- */

/* 1 where a reach of A ends before B begins, for certain: most pairs are far apart.  */
static br_status
is_beside (int *beside, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  static const int rows[][3] = { { BR__SHAPE_X, BR__SHAPE_RIGHT, BR__SHAPE_LEFT }, { BR__SHAPE_Y, BR__SHAPE_TOP, BR__SHAPE_BOTTOM } };
  br_status status = BR_OK;
  *beside = 0;
  for (int i = 0; i < 4 && status == BR_OK && !*beside; i++)
    {
      const int *row = rows[i / 2];
      const br__shape *low = i % 2 ? a : b, *high = i % 2 ? b : a;
      const br__value *v[] = { br__shape_value (sheet, low, row[0]), br__shape_value (sheet, low, row[1]),
                               br__shape_value (sheet, high, row[0]), br__shape_value (sheet, high, row[2]) };
      br_real end = BR_REAL_ZERO, start = BR_REAL_ZERO;
      int order = 1;
      if (!v[0] || !v[1] || !v[2] || !v[3])
        return BR_OK;
      status = br_real_add (&end, &v[0]->real, &v[1]->real);
      if (status == BR_OK)
        status = br_real_add (&start, &v[2]->real, &v[3]->real);
      if (status == BR_OK)
        status = br_real_cmp (&order, &end, &start, sheet->settings.bits);
      *beside = status == BR_OK && order <= 0;
      status = status == BR_UNDECIDED ? BR_OK : status;
      br_real_clear (&end);
      br_real_clear (&start);
    }
  return status;
}

static br_status
emit_rubs (br__run *run, const pair *p)
{
  br_record *r = br__record_new ("rubs");
  br__put_text (r, "first", p->first->shape->name);
  br__put_text (r, "second", p->second->shape->name);
  br__put_text (r, "state", p->decided ? "overlap" : "undecided");
  return br__emit (run, r);
}

/* How many places S has: 1 but for a row.  */
static size_t
places_of (const br_sheet *sheet, const br__shape *s)
{
  const br__value *v = br__is_copy (s->kind) ? br__shape_value (sheet, s, BR__SHAPE_D) : NULL;
  const br_number *q = v ? br_real_rational (&v->real) : NULL;
  int64_t n = 1, d = 1;
  return q && br_number_get_ratio (&n, &d, q) && n > 0 ? (size_t) n : 1;
}

/* What it takes to compare two shapes, of all places of both; outlines, which may be turned, take some eighty times as long as
   others, and longer where both have many corners.  */
static size_t
work_of (const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  const size_t places = places_of (sheet, a) * places_of (sheet, b);
  a = br__shape_source (sheet, a), b = br__shape_source (sheet, b);
  const size_t corners[] = { br__shape_corners (sheet->graph, a->name, strlen (a->name)),
                             br__shape_corners (sheet->graph, b->name, strlen (b->name)) };
  return places * (1 + (corners[0] ? 40 : 0) + (corners[1] ? 40 : 0) + corners[0] * corners[1] / 32);
}

/* Whether A and B take up the same room: *STATE gets 1, 0, or -1 where it is not decided.  */
static br_status
overlap_of (int *state, looking *l, const br__shape *a, const br__shape *b)
{
  const br_sheet *sheet = l->sheet;
  br__value v = BR__VALUE_ZERO;
  int beside = 0, known = 0, sign = 0, through = 0;
  *state = 0;
  br_status status = gap_of (&v, &known, sheet, a, b);
  if (status == BR_OK && known)
    status = br_real_sign (&sign, &v.real, sheet->settings.bits);
  if (status == BR_OK && known && sign < 0)
    status = is_beside (&beside, sheet, a, b);
  if (status == BR_OK && known && sign < 0 && !beside && (l->compared += work_of (sheet, a, b) + l->hole_count / 8) > MOST_COMPARED)
    status = BR_TOO_BIG;
  if (status == BR_OK && known && sign < 0 && !beside)
    {
      status = side_distance (&v, &known, sheet, a, b);
      if (status == BR_OK && known)
        status = br_real_sign (&sign, &v.real, sheet->settings.bits);
      if (status == BR_OK && known && sign < 0)
        status = goes_through (&through, l, a, b);
      if (status == BR_OK && known && sign < 0 && !through)
        status = goes_through (&through, l, b, a);
      *state = known && sign < 0 && !through;
    }
  br__value_clear (&v);
  if (status == BR_UNDECIDED)
    {
      *state = -1;
      status = BR_OK;
    }
  return status;
}

/* ROW is a row of BASE, or of a row of it.  */
static int
is_row_of (const br_sheet *sheet, const br__shape *row, const br__shape *base)
{
  do
    if (row->kind != BR__ROW)
      return 0;
    else if (strcmp (row->base, base->name) == 0)
      return 1;
  while ((row = br__shape_find (sheet, row->base, strlen (row->base))) != NULL);
  return 0;
}

/* Shapes of one part are one piece, and the first place of a row is the shape itself.  */
static int
may_rub (const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  const char *const parts[] = { part_of (sheet, a), part_of (sheet, b) };
  return !is_row_of (sheet, b, a) && !is_row_of (sheet, a, b) && !(parts[0] && parts[1] && strcmp (parts[0], parts[1]) == 0);
}

/* Number SIDE of S from its place ALONG, its X or Y, on, in 4096ths of an inch, not above it or, where UP, not below.  Where
   that is not known, as far out as can be.  */
static br_status
edge_at (int64_t *at, const br_sheet *sheet, const br__shape *s, int along, int side, int up)
{
  const br__value *x = br__shape_value (sheet, s, along), *off = br__shape_value (sheet, s, side);
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_real v = BR_REAL_ZERO, parts = BR_REAL_ZERO;
  int64_t one = 0;
  *at = up ? INT64_MAX : INT64_MIN;
  if (!x || !off)
    return BR_OK;
  br_status status = br_real_add (&v, &x->real, &off->real);
  if (status == BR_OK)
    status = br_number_set_int (&parts.rational, 4096);
  if (status == BR_OK)
    status = br_real_mul (&v, &v, &parts);
  if (status == BR_OK)
    status = br_real_enclose (&low, &high, &v, 64);
  if (status == BR_OK)
    status = br_number_floor (&low, up ? &high : &low);
  if (status == BR_OK && br_number_get_ratio (at, &one, &low) && up)
    ++*at;
  br_number_clear (&low);
  br_number_clear (&high);
  br_real_clear (&v);
  br_real_clear (&parts);
  return status == BR_UNDECIDED || status == BR_TOO_BIG ? BR_OK : status;
}

static br_status
add_shape (looking *l, const br__shape *s, size_t place)
{
  const br__shape *source = br__shape_source (l->sheet, s);
  if (source->hole)
    {
      if (!br__grow (&l->holes, &l->hole_room, l->hole_count + 1, sizeof *l->holes))
        return BR_NO_MEMORY;
      l->holes[l->hole_count++] = s;
      return BR_OK;
    }
  if (!br__depth_source (l->sheet, s)->depth)
    return BR_OK;
  if (!br__grow (&l->solids, &l->solid_room, l->solid_count + 1, sizeof *l->solids))
    return BR_NO_MEMORY;
  solid *made = &l->solids[l->solid_count++];
  *made = (solid) { s, place, 0, 0, 0, 0 };
  br_status status = edge_at (&made->left, l->sheet, s, BR__SHAPE_X, BR__SHAPE_LEFT, 0);
  if (status == BR_OK)
    status = edge_at (&made->right, l->sheet, s, BR__SHAPE_X, BR__SHAPE_RIGHT, 1);
  if (status == BR_OK)
    status = edge_at (&made->low, l->sheet, s, BR__SHAPE_Y, BR__SHAPE_BOTTOM, 0);
  return status == BR_OK ? edge_at (&made->high, l->sheet, s, BR__SHAPE_Y, BR__SHAPE_TOP, 1) : status;
}

static int
by_left (const void *a, const void *b)
{
  const solid *p = a, *q = b;
  return p->left != q->left ? (p->left > q->left) - (p->left < q->left) : (p->place > q->place) - (p->place < q->place);
}

static int
by_place (const void *a, const void *b)
{
  const pair *p = a, *q = b;
  const solid *one = p->first == q->first ? p->second : p->first, *other = p->first == q->first ? q->second : q->first;
  return (one->place > other->place) - (one->place < other->place);
}

static br_status
compare (br__run *run, looking *l, const solid *a, const solid *b)
{
  const solid *first = a->place < b->place ? a : b, *second = first == a ? b : a;
  int state = 0;
  if (br__stopped (run))
    return br__fail_stopped (run);
  if (!may_rub (l->sheet, first->shape, second->shape))
    return BR_OK;
  /* Those that lie apart in height or depth are told soon.  */
  l->compared += ++l->passed % 8 == 0;
  br_status status = overlap_of (&state, l, first->shape, second->shape);
  l->over = l->compared > MOST_COMPARED;
  if (l->over)
    return BR_OK;
  if (status == BR_OK && state && !br__grow (&l->pairs, &l->pair_room, l->pair_count + 1, sizeof *l->pairs))
    status = BR_NO_MEMORY;
  if (status != BR_OK)
    return br__fail_plain (run->error, status, 0, 0);
  if (state)
    l->pairs[l->pair_count++] = (pair) { first, second, state > 0 };
  return BR_OK;
}

/* How many of the solids from FROM on begin before A ends.  */
static size_t
count_begun (const looking *l, const solid *a, size_t from)
{
  size_t low = from, high = l->solid_count;
  while (low < high)
    {
      size_t middle = low + (high - low) / 2;
      if (l->solids[middle].left <= a->right)
        low = middle + 1;
      else
        high = middle;
    }
  return low - from;
}

/* Number I with those that begin before it ends, while they may be compared.  */
static br_status
compare_all (br__run *run, looking *l, size_t i)
{
  const solid *a = &l->solids[i];
  br_status status = br__stopped (run) ? br__fail_stopped (run) : BR_OK;
  size_t k = i + 1;
  for (; k < l->solid_count && l->solids[k].left <= a->right && status == BR_OK && !l->over; k++)
    if (l->solids[k].low <= a->high && a->low <= l->solids[k].high)
      status = compare (run, l, a, &l->solids[k]);
  if (l->over)
    {
      /* The last one was not decided any more.  */
      size_t from = k > i + 1 ? k - 1 : k;
      l->left_out += count_begun (l, a, from);
    }
  return status;
}

/* From left to right: each with those that begin before it ends.  */
static br_status
find_rubs (br__run *run, looking *l)
{
  br_status status = BR_OK;
  if (l->solid_count)
    qsort (l->solids, l->solid_count, sizeof *l->solids, by_left);
  for (size_t i = 0; i < l->solid_count && status == BR_OK; i++)
    status = compare_all (run, l, i);
  if (status == BR_OK && l->pair_count)
    qsort (l->pairs, l->pair_count, sizeof *l->pairs, by_place);
  for (size_t i = 0; i < l->pair_count && status == BR_OK; i++)
    status = emit_rubs (run, &l->pairs[i]);
  if (status == BR_OK && l->over)
    status = br__fail (run->error, BR_TOO_BIG, 0, run->end,
                       "more than %d comparisons of shapes: up to %zu pairs were not compared", MOST_COMPARED, l->left_out);
  return status;
}

br_status
br__do_rubs (br__run *run)
{
  looking l = { .sheet = run->sheet };
  size_t flat = 0, place = 0;
  br_status status = br__end_of_line (run);
  for (const br__shape *s = run->sheet->shapes; s && status == BR_OK; s = s->next)
    if (s->active)
      {
        flat += (size_t) (!br__depth_source (l.sheet, s)->depth && !br__shape_source (l.sheet, s)->hole);
        status = br__fail_untold (run->error, add_shape (&l, s, place++), 0, run->end);
      }
  if (status == BR_OK)
    status = find_rubs (run, &l);
  if (status == BR_OK && !l.pair_count)
    status = br__remark (run, "no two shapes that have a depth overlap");
  if (status == BR_OK && flat)
    status = br__remark (run, flat == 1 ? "1 shape has no depth and was left out: `deep` gives it one"
                                        : "%zu shapes have no depth and were left out: `deep` gives them one", flat);
  br__free (l.solids);
  br__free (l.holes);
  br__free (l.pairs);
  return status == BR_OK ? br__tell_axles (run) : status;
}

/* ---- clear ---- */

br_status
br__put_clear_along (br_record *r, const br_sheet *sheet, const br__shape *a, const br__shape *b, const br__value *apart)
{
  br__value gap = BR__VALUE_ZERO;
  int known = 0, order = 0, sign = 0;
  if (!a || !b || !br__depth_source (sheet, a)->depth || !br__depth_source (sheet, b)->depth)
    return BR_OK;
  br_status status = gap_of (&gap, &known, sheet, a, b);
  if (status == BR_OK && known)
    status = br_real_cmp (&order, &apart->real, &gap.real, sheet->settings.bits);
  if (status == BR_OK && known)
    status = br_real_sign (&sign, &gap.real, sheet->settings.bits);
  if (status == BR_OK && known)
    br__put_text (r, "along", order == 0 ? "depth" : sign > 0 ? "both" : "side");
  br__value_clear (&gap);
  return status == BR_UNDECIDED ? BR_OK : status;
}
