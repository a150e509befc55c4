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

#include "draw/dimension_line.h"
#include "exact/memory.h"
#include "measure/measure.h"

void
br__size_lines_clear (br__size_lines *d)
{
  for (size_t i = 0; i < d->count; i++)
    br__free (d->rows[i].text);
  br__free (d->rows);
  memset (d, 0, sizeof *d);
}

/* ---- Numbers on a drawing ---- */

/* Inches that a ruler has, without the sign of the inch.  */
static int
put_plain_inches (br_text *t, const br_number *q, const br__settings *s)
{
  int inches = strcmp (s->unit->name, "in") == 0 && !s->feet;
  if (!inches || !br__is_shop_fraction (q, BR__FINEST_RULE))
    return 0;
  br__put_mixed (t, q);
  return 1;
}

/* Millimetres, or centimetres, with two decimals at the most.  */
static int
put_plain_metric (br_text *t, const br_number *q, const br__settings *s)
{
  br_number x = BR_NUMBER_ZERO;
  int64_t n, d;
  if (!br__unit_is_decimal (s->unit) || br_number_set_ratio (&x, s->unit->num, s->unit->den) != BR_OK)
    return 0;
  int good = br_number_div (&x, q, &x) == BR_OK && br_number_get_ratio (&n, &d, &x) && 100 % d == 0;
  if (good)
    br__put_decimal (t, &x, 20);
  br_number_clear (&x);
  return good;
}

/* The text of a length without " mm" where the whole sheet is in millimetres.  */
static void
drop_unit (br_text *t, size_t start, const br__settings *s)
{
  size_t n = strlen (s->unit->name) + 1;
  if (t->failed || t->length < start + n || strcmp (s->unit->name, "ft") == 0)
    return;
  if (t->bytes[t->length - 1] == '"' && !s->feet)
    n = 1;
  else if (t->bytes[t->length - n] != ' ')
    return;
  t->length -= n;
  t->bytes[t->length] = 0;
}

/* The nearest mark.  Where VALUE lies half way between two for all that can be told, either is as near.  */
static br_status
to_mark (br__rounded *rounded, const br_real *value, const br__mark *mark, const br__settings *s)
{
  br__value v = BR__VALUE_ZERO;
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = br_real_set (&v.real, value);
  v.dimension = BR_LENGTH;
  if (status == BR_OK)
    status = br__round_value (rounded, &v, mark, BR_NEAREST, s, NULL);
  if (status == BR_UNDECIDED)
    {
      status = br_real_enclose (&low, &high, value, s->bits);
      if (status == BR_OK)
        status = br_real_set_number (&v.real, &low);
      if (status == BR_OK)
        status = br__round_value (rounded, &v, mark, BR_NEAREST, s, NULL);
    }
  br__value_clear (&v);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

br_status
br__put_drawing_number (br_text *t, const br_real *value, const br__settings *s)
{
  const br_number *q = br_real_rational (value);
  br__mark mark = BR__MARK_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  size_t start = t->length;
  int exact = 0;
  if (q && (put_plain_inches (t, q, s) || put_plain_metric (t, q, s)))
    return t->failed ? BR_NO_MEMORY : BR_OK;
  br_status status = br__settings_mark (&mark, s);
  if (status == BR_OK)
    status = to_mark (&rounded, value, &mark, s);
  if (status == BR_OK)
    {
      exact = q && br_number_equal (q, &rounded.value);
      if (!exact)
        br__text_puts (t, "≈");
      br__put_mark_text (t, &rounded.value, BR_LENGTH, &mark, s);
      drop_unit (t, start, s);
    }
  br__rounded_clear (&rounded);
  br_number_clear (&mark.size);
  return status == BR_OK && t->failed ? BR_NO_MEMORY : status;
}

/* ---- What is measured ---- */

/* The row from FROM to TO, or NULL.  */
static br__size_line *
find_row (const br__size_lines *d, int64_t from, int64_t to)
{
  for (size_t i = 0; i < d->count; i++)
    if (d->rows[i].from == from && d->rows[i].to == to)
      return &d->rows[i];
  return NULL;
}

/* A row from FROM to TO that says VALUE inches; the same place is measured once.  */
static br_status
add_row (br__size_lines *d, br__run *run, const br__size_line *given, const br_real *value)
{
  br_text t = BR_TEXT_ZERO;
  if (given->to <= given->from || find_row (d, given->from, given->to))
    return BR_OK;
  br_status status = br__put_drawing_number (&t, value, &run->sheet->settings);
  if (status == BR_OK && !br__grow (&d->rows, &d->room, d->count + 1, sizeof *d->rows))
    status = BR_NO_MEMORY;
  char *text = status == BR_OK ? br__strndup (br__text_string (&t), t.length) : NULL;
  if (status == BR_OK && !text)
    status = BR_NO_MEMORY;
  if (status == BR_OK)
    {
      d->marks |= strncmp (br__text_string (&t), "≈", strlen ("≈")) == 0;
      d->rows[d->count] = *given;
      d->rows[d->count].tier = -1;
      d->rows[d->count++].text = text;
    }
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

/* A place to measure from: a side or a centre, on paper and in the sheet.  */
typedef struct end
{
  const br__drawn *drawn;
  int reach;                    /* number of the shape, or 0: its centre */
  int64_t at, feature;
} end;

static br_status
add_distance (br__size_lines *d, br__run *run, end from, end to)
{
  br_real low = BR_REAL_ZERO, high = BR_REAL_ZERO;
  br__size_line row = { .from = from.at, .to = to.at, .feature_from = from.feature, .feature_to = to.feature };
  row.of = from.drawn->shape->name;
  row.to_of = to.drawn != from.drawn ? to.drawn->shape->name : NULL;
  br_status status = place_of (&low, run, from.drawn->shape, d->upright, from.reach);
  if (status == BR_OK)
    status = place_of (&high, run, to.drawn->shape, d->upright, to.reach);
  if (status == BR_OK)
    status = br_real_sub (&high, &high, &low);
  if (status == BR_OK)
    status = add_row (d, run, &row, &high);
  br_real_clear (&low);
  br_real_clear (&high);
  return status;
}

/* Where an arc reaches farthest, across the way that is measured: at one of its ends, the nearest to the dimension line
   of those that do, or where the curve turns.  AT is how far.  */
static int64_t
turn_of_arc (const br__drawn *s, int upright, int64_t at)
{
  int64_t best = upright ? s->x : s->y;
  int found = 0;
  for (int last = 0; last < 2; last++)
    {
      int64_t sine, cosine;
      br__sine_cosine (&sine, &cosine, last ? s->c + s->d : s->c);
      for (int second = 0; second < 2; second++)
        {
          double radius = (double) (second ? s->b : s->a);
          int64_t x = s->x + (int64_t) (radius * (double) cosine * 1e-9);
          int64_t y = s->y + (int64_t) (radius * (double) sine * 1e-9);
          int64_t along = upright ? y : x, across = upright ? x : y;
          if (llabs (along - at) < BR__INCH / 1000000 && (!found || across < best))
            {
              best = across;
              found = 1;
            }
        }
    }
  return best;
}

/* A side of a shape: the lower or left one, or the other.  */
static end
side_of (const br__drawn *s, int upright, int far)
{
  end e = { s, upright ? far ? BR__SHAPE_TOP : BR__SHAPE_BOTTOM : far ? BR__SHAPE_RIGHT : BR__SHAPE_LEFT, 0, 0 };
  const br__area *a = &s->reach;
  e.at = upright ? far ? a->y2 : a->y : far ? a->x2 : a->x;
  /* The outermost point of the outline; of a box the near corner.  */
  if (s->shape->kind == BR__BOX)
    e.feature = upright ? a->x : a->y;
  else if (s->shape->kind == BR__LINE)
    {
      int64_t along = upright ? s->b : s->a, across = upright ? s->a : s->b;
      e.feature = (upright ? s->x : s->y) + ((along > 0) == far ? across / 2 : -across / 2);
    }
  else
    e.feature = s->shape->kind == BR__ARC ? turn_of_arc (s, upright, e.at) : upright ? s->x : s->y;
  return e;
}

static end
centre_of (const br__drawn *s, int upright)
{
  end e = { s, 0, upright ? s->y : s->x, upright ? s->x : s->y };
  return e;
}

static int
is_centred (const br__drawn *s)
{
  return s->tied && s->shape->kind == BR__CIRCLE;
}

static int
compare_ends (const void *a, const void *b)
{
  const end *x = a, *y = b;
  if (x->at != y->at)
    return x->at < y->at ? -1 : 1;
  return x->feature < y->feature ? -1 : x->feature > y->feature;
}

/* Centres: across from one to the next, the first from EDGE if it is given; upward each from the EDGE.  */
static br_status
add_centres (br__size_lines *d, br__run *run, const br__side_view *v, const end *edge)
{
  br_status status = BR_OK;
  size_t count = 0;
  end *ends = br__alloc_zero (v->count + 1, sizeof *ends);
  if (!ends)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < v->count; i++)
    if (is_centred (&v->shapes[i]))
      ends[count++] = centre_of (&v->shapes[i], d->upright);
  qsort (ends, count, sizeof *ends, compare_ends);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    if (i && ends[i].at == ends[i - 1].at)
      continue;
    else if (edge && (d->upright || !i))
      status = add_distance (d, run, *edge, ends[i]);
    else if (i)
      status = add_distance (d, run, ends[i - 1], ends[i]);
  br__free (ends);
  return status;
}

/* Whether a box like this one has been measured already: same width, same height.  */
static int
is_repeated (const br__side_view *v, size_t index, size_t *first)
{
  const br__drawn *s = &v->shapes[index];
  for (*first = 0; *first < index; ++*first)
    {
      const br__drawn *t = &v->shapes[*first];
      if (t->tied && t->shape->kind == BR__BOX && t->a == s->a && t->b == s->b)
        return 1;
    }
  return 0;
}

/* Of boxes of one size the first is measured, "8x 2-5/16".  */
static br_status
count_boxes (br__size_lines *d, const br__side_view *v, size_t *counts)
{
  for (size_t i = 0; i < v->count; i++)
    {
      const br__drawn *s = &v->shapes[i];
      end from = side_of (s, d->upright, 0), to = side_of (s, d->upright, 1);
      br__size_line *row = counts[i] > 1 ? find_row (d, from.at, to.at) : NULL;
      if (!row || strchr (row->text, 'x'))
        continue;
      br_text t = BR_TEXT_ZERO;
      br__text_printf (&t, "%zux %s", counts[i], row->text);
      char *text = t.failed ? NULL : br__strndup (t.bytes, t.length);
      br__text_clear (&t);
      if (!text)
        return BR_NO_MEMORY;
      br__free (row->text);
      row->text = text;
    }
  return BR_OK;
}

static br_status
add_boxes (br__size_lines *d, br__run *run, const br__side_view *v)
{
  br_status status = BR_OK;
  size_t *counts = br__alloc_zero (v->count + 1, sizeof *counts), first;
  if (!counts)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < v->count && status == BR_OK; i++)
    {
      const br__drawn *s = &v->shapes[i];
      if (!s->tied || s->shape->kind != BR__BOX)
        continue;
      if (is_repeated (v, i, &first))
        counts[first]++;
      else
        {
          counts[i] = 1;
          status = add_distance (d, run, side_of (s, d->upright, 0), side_of (s, d->upright, 1));
        }
    }
  if (status == BR_OK)
    status = count_boxes (d, v, counts);
  br__free (counts);
  return status;
}

/* The outermost sides of what is tied down; 0 if nothing is.  */
static int
find_outermost (end *low, end *high, const br__size_lines *d, const br__side_view *v)
{
  const br__drawn *first = NULL, *last = NULL;
  for (size_t i = 0; i < v->count; i++)
    {
      const br__drawn *s = &v->shapes[i];
      if (!s->tied)
        continue;
      if (!first || (d->upright ? s->reach.y < first->reach.y : s->reach.x < first->reach.x))
        first = s;
      if (!last || (d->upright ? s->reach.y2 > last->reach.y2 : s->reach.x2 > last->reach.x2))
        last = s;
    }
  if (first)
    {
      *low = side_of (first, d->upright, 0);
      *high = side_of (last, d->upright, 1);
    }
  return first != NULL;
}

/* FROM_EDGE: the first centre is measured from the edge, too.  */
static br_status
make (br__size_lines *d, br__run *run, const br__side_view *v, int upright, int from_edge)
{
  end low, high;
  memset (&low, 0, sizeof low);
  memset (&high, 0, sizeof high);
  br__size_lines_clear (d);
  d->upright = upright;
  if (!find_outermost (&low, &high, d, v))
    return BR_OK;
  br_status status = add_boxes (d, run, v);
  if (status == BR_OK)
    status = add_centres (d, run, v, upright || from_edge ? &low : NULL);
  if (status == BR_OK)
    status = add_distance (d, run, low, high);
  br__size_line *whole = status == BR_OK ? find_row (d, low.at, high.at) : NULL;
  if (whole)
    whole->overall = 1;
  if (status == BR_OK)
    {
      const br__area *a = &v->reach;
      br__size_lines_place (d, upright ? a->y : a->x, upright ? a->y2 : a->x2);
    }
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
  br__size_lines_clear (d);
  d->upright = upright;
  br_status status = add_row (d, run, &row, inches);
  br__size_lines_place (d, 0, length);
  return status;
}
