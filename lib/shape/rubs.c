/* SPDX-License-Identifier: LGPL-3.0-or-later
   rubs.c - shapes that overlap: the statement rubs, and the direction in the answer of `clear`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "shape/through.h"

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

/* Z = the distance of A and B as seen from the side, without an entry for it.  */
static br_status
side_distance (br__value *z, int *known, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  br__numbers n[2] = { { NULL, 0 }, { NULL, 0 } };
  br_status status = br__shape_numbers (&n[0], sheet, a);
  if (status == BR_OK)
    status = br__shape_numbers (&n[1], sheet, b);
  *known = status != BR_DOMAIN;
  if (status == BR_OK)
    status = br__side_distance (z, sheet, n[0].rows, n[0].count, n[1].rows, n[1].count);
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
  br__holes holes;
  pair *pairs;                  /* that rub */
  size_t solid_count, solid_room, pair_count, pair_room;
  size_t passed;
  int over;                     /* there is more to compare than may be */
  size_t left_out;              /* pairs that were not compared then, at most */
} looking;

/* ---- rubs ---- */

br_status
br__is_beside (int *beside, const br_sheet *sheet, const br__shape *a, const br__shape *b)
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

/* The work of comparing two shapes in all of their places.  Outlines, which may be turned, take about 80 times as long as
   other shapes, and longer if both have many corners.  */
static size_t
work_of (const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  const size_t places = places_of (sheet, a) * places_of (sheet, b);
  a = br__shape_source (sheet, a), b = br__shape_source (sheet, b);
  const size_t corners[] = { br__shape_corners (sheet->graph, a->name, strlen (a->name)),
                             br__shape_corners (sheet->graph, b->name, strlen (b->name)) };
  return places * (1 + (corners[0] ? 40 : 0) + (corners[1] ? 40 : 0) + corners[0] * corners[1] / 32);
}

/* *STATE = 1 if A and B overlap, 0 if they do not, -1 if it is undecided.  */
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
    status = br__is_beside (&beside, sheet, a, b);
  if (status == BR_OK && known && sign < 0 && !beside && (l->holes.compared += work_of (sheet, a, b) + l->holes.count / 8) > MOST_COMPARED)
    status = BR_TOO_BIG;
  if (status == BR_OK && known && sign < 0 && !beside)
    {
      status = side_distance (&v, &known, sheet, a, b);
      if (status == BR_OK && known)
        status = br_real_sign (&sign, &v.real, sheet->settings.bits);
      if (status == BR_OK && known && sign < 0)
        status = br__goes_through (&through, &l->holes, a, b);
      if (status == BR_OK && known && sign < 0 && !through)
        status = br__goes_through (&through, &l->holes, b, a);
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

/* *APART is 1 where figure K of F is as far from figure I as they are wide or high: they all stand the same way round.  */
static br_status
is_apart (int *apart, const br_sheet *sheet, const br__figures *f, size_t i, size_t k)
{
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  *apart = 0;
  for (int way = 0; way < 2 && !*apart; way++)
    {
      const br__value *low = br__shape_value (sheet, f->source, way ? BR__SHAPE_BOTTOM : BR__SHAPE_LEFT);
      const br__value *high = br__shape_value (sheet, f->source, way ? BR__SHAPE_TOP : BR__SHAPE_RIGHT);
      const br__value *at = f->places.rows + 1 + way, *one = at + i * f->places.numbers, *other = at + k * f->places.numbers;
      const br_real *step = br__abs_of (&g, br__sub (&g, &one->real, &other->real));
      *apart = br__order_of (&g, step, br__sub (&g, &high->real, &low->real)) >= 0 && g.status == BR_OK;
    }
  br_status status = g.status;
  br__pad_clear (&g);
  return status == BR_UNDECIDED ? BR_OK : status;
}

/* Whether places of S, a row or a mirror of one, overlap each other: *STATE as below.  */
static br_status
own_overlap (int *state, looking *l, const br__shape *s)
{
  br__figures f;
  br__value v = BR__VALUE_ZERO;
  /* Mirroring does not change overlaps.  Any two places of a row have the same distance as the first and some other one.  */
  while (s->kind == BR__MIRROR)
    s = br__shape_find (l->sheet, s->base, strlen (s->base));
  br_status status = br__figures_of (&f, l->sheet, s);
  size_t firsts = s->kind == BR__ROW ? f.places.count / (size_t) br__row_places (l->sheet, s) : 0;
  *state = 0;
  for (size_t i = 0; i < firsts && status == BR_OK && *state < 1; i++)
    for (size_t k = i + 1; k < f.places.count && status == BR_OK && *state < 1; k++)
      {
        int apart = 0, sign = 0;
        const br__value *one = f.places.rows + i * f.places.numbers, *other = f.places.rows + k * f.places.numbers;
        l->holes.compared += ++l->passed % 8 == 0;
        status = is_apart (&apart, l->sheet, &f, i, k);
        if (status == BR_OK && !apart && (l->holes.compared += work_of (l->sheet, f.source, f.source)) > MOST_COMPARED)
          status = BR_TOO_BIG;
        if (status == BR_OK && !apart)
          status = br__side_distance (&v, l->sheet, one, f.places.numbers, other, f.places.numbers);
        if (status == BR_OK && !apart)
          status = br_real_sign (&sign, &v.real, l->sheet->settings.bits);
        *state = sign < 0 ? 1 : status == BR_UNDECIDED ? -1 : *state;
        status = status == BR_UNDECIDED ? BR_OK : status;
      }
  br__value_clear (&v);
  br__figures_clear (&f);
  return status == BR_DOMAIN ? BR_OK : status;
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
  const char *const parts[] = { br__part_of (sheet, a), br__part_of (sheet, b) };
  return !is_row_of (sheet, b, a) && !is_row_of (sheet, a, b) && !(parts[0] && br__belongs_to (sheet, b, parts[0]))
         && !(parts[1] && br__belongs_to (sheet, a, parts[1]));
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
    return br__holes_add (&l->holes, s);
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
  /* Pairs that are apart in height or depth are quick: count only one of eight.  */
  l->holes.compared += ++l->passed % 8 == 0;
  br_status status = a == b ? own_overlap (&state, l, a->shape) : overlap_of (&state, l, first->shape, second->shape);
  l->over = l->holes.compared > MOST_COMPARED;
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

/* The places of number I with each other, and it with those that begin before it ends, while they may be compared.  */
static br_status
compare_all (br__run *run, looking *l, size_t i)
{
  const solid *a = &l->solids[i];
  br_status status = br__is_copy (a->shape->kind) ? compare (run, l, a, a) : br__stopped (run) ? br__fail_stopped (run) : BR_OK;
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

/* A hole of something that is not there lets nothing through.  */
static br_status
tell_stray (br__run *run, const br__holes *holes)
{
  br_status status = BR_OK;
  for (size_t i = 0; i < holes->count && status == BR_OK; i++)
    {
      const br__shape *hole = holes->rows[i], *s = run->sheet->shapes;
      const char *of = br__part_of (run->sheet, hole);
      while (of && s && (!s->active || br__shape_source (run->sheet, s)->hole || !br__belongs_to (run->sheet, s, of)))
        s = s->next;
      if (of && !s)
        status = br__remark (run, "%s is a hole of %s, and no shape is called so or belongs to it: it counts for nothing", hole->name, of);
    }
  return status;
}

/* ---- Pegs ---- */

/* The narrow side of S, as it reaches seen from the side; NULL while it waits.  */
static const br_real *
narrow_side (br__pad *g, const br_sheet *sheet, const br__shape *s)
{
  const br_real *side[4];
  s = br__shape_source (sheet, s);
  for (int i = 0; i < 4; i++)
    {
      const br__value *v = br__shape_value (sheet, s, BR__SHAPE_RIGHT + i);
      if (!v)
        return NULL;
      side[i] = &v->real;
    }
  return br__least (g, br__sub (g, side[BR__RIGHT], side[BR__LEFT]), br__sub (g, side[BR__TOP], side[BR__BOTTOM]));
}

/* 1 where S is narrower than WOOD, for certain.  */
static int
is_narrower (const br_sheet *sheet, const br__shape *s, const br__shape *wood)
{
  br__pad g = { BR_OK, sheet->settings.bits, NULL };
  const br_real *own = narrow_side (&g, sheet, s), *other = narrow_side (&g, sheet, wood);
  int narrower = own && other && br__order_of (&g, own, other) < 0 && g.status == BR_OK;
  br__pad_clear (&g);
  return narrower;
}

br_status
br__is_peg (int *peg, const br_sheet *sheet, const br__shape *s, const br__shape *hole)
{
  br__holes one = { sheet, &hole, 1, 1, 0 };
  br_status status = BR_OK;
  *peg = 0;
  for (const br__shape *wood = sheet->shapes; wood && status == BR_OK && !*peg; wood = wood->next)
    {
      looking none = { .sheet = sheet, .holes = { .sheet = sheet } };
      int beside = 0, state = 0;
      if (!wood->active || br__shape_source (sheet, wood)->hole || !br__depth_source (sheet, wood)->depth || !may_rub (sheet, s, wood)
          || !is_narrower (sheet, s, wood))
        continue;
      status = br__is_beside (&beside, sheet, s, wood);
      if (status == BR_OK && !beside)
        status = overlap_of (&state, &none, s, wood);
      if (status == BR_OK && state > 0)
        status = br__goes_through (peg, &one, s, wood);
    }
  return status == BR_UNDECIDED ? BR_OK : status;
}

br_status
br__tell_rubs (br__run *run)
{
  looking l = { .sheet = run->sheet, .holes = { .sheet = run->sheet } };
  size_t flat = 0, place = 0;
  br_status status = BR_OK;
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
  if (status == BR_OK)
    status = tell_stray (run, &l.holes);
  if (status == BR_OK && flat)
    status = br__remark (run, flat == 1 ? "1 shape has no depth and was left out: `deep` gives it one"
                                        : "%zu shapes have no depth and were left out: `deep` gives them one", flat);
  br__free (l.solids);
  br__free (l.holes.rows);
  br__free (l.pairs);
  return status;
}

/* ---- clear ---- */

/* *HOLD is 1 if A lies in a hole of B, or B in one of A.  */
static br_status
hole_holds (int *hold, const br_sheet *sheet, const br__shape *a, const br__shape *b)
{
  br__holes holes = { .sheet = sheet };
  br_status status = BR_OK;
  *hold = 0;
  for (const br__shape *s = sheet->shapes; s && status == BR_OK; s = s->next)
    if (s->active && br__shape_source (sheet, s)->hole)
      status = br__holes_add (&holes, s);
  if (status == BR_OK)
    status = br__goes_through (hold, &holes, a, b);
  if (status == BR_OK && !*hold)
    status = br__goes_through (hold, &holes, b, a);
  br__free (holes.rows);
  return status == BR_DOMAIN ? BR_OK : status;
}

br_status
br__put_clear_along (br_record *r, const br_sheet *sheet, const br__shape *a, const br__shape *b, const br__value *apart)
{
  br__value gap = BR__VALUE_ZERO;
  int known = 0, order = 0, sign = 0, whole = 0, hold = 0;
  if (!a || !b || !br__depth_source (sheet, a)->depth || !br__depth_source (sheet, b)->depth)
    return BR_OK;
  br_status status = gap_of (&gap, &known, sheet, a, b);
  if (status == BR_OK && known)
    status = br_real_cmp (&order, &apart->real, &gap.real, sheet->settings.bits);
  if (status == BR_OK && known)
    status = br_real_sign (&sign, &gap.real, sheet->settings.bits);
  if (status == BR_OK && known)
    status = br_real_sign (&whole, &apart->real, sheet->settings.bits);
  if (status == BR_OK && known && whole < 0)
    status = hole_holds (&hold, sheet, a, b);
  if (status == BR_OK && known)
    br__put_text (r, "along", hold ? "hole" : order == 0 ? "depth" : sign > 0 ? "both" : "side");
  br__value_clear (&gap);
  return status == BR_UNDECIDED ? BR_OK : status;
}
