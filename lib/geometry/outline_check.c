/* SPDX-License-Identifier: LGPL-3.0-or-later
   outline_check.c - whether an outline can be drawn: corners that lie on each other, sides that turn back, rounds and cuts
   that do not fit their sides, rises past a half circle, sides that cross.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/evaluate.h"
#include "geometry/sketch.h"
#include "measure/measure.h"

typedef struct check
{
  br__work *work;
  br__pad pad;
  const br__value *corners;
  size_t count;
  size_t *index;                /* where an error belongs */
  int box;                      /* its corners have no numbers, as those of an outline do */
} check;

/* Corner I in words.  */
static void
put_corner (br_text *t, const check *c, size_t i)
{
  static const char *const words[] = { "left bottom", "right bottom", "right top", "left top" };
  i %= c->count;
  if (c->box && i < sizeof words / sizeof words[0])
    br__text_printf (t, "corner %s", words[i]);
  else
    br__text_printf (t, "corner %d", (int) i + 1);
}

static const br_real *
number_of (const check *c, size_t i, int which)
{
  return &c->corners[BR__CORNER_NUMBERS * (i % c->count) + (size_t) which].real;
}

static int
is_given (const check *c, size_t i, int which)
{
  const br_number *q = br_real_rational (number_of (c, i, which));
  return !q || br_number_sign (q) != 0;
}

static br__point
point_of (const check *c, size_t i)
{
  return (br__point) { number_of (c, i, BR__CORNER_X), number_of (c, i, BR__CORNER_Y) };
}

/* The side that ends in corner I.  */
static br__point
side_of (check *c, size_t i)
{
  return br__minus (&c->pad, point_of (c, i), point_of (c, i + c->count - 1));
}

/* Writes LENGTH as a fraction or, if it is irrational, as digits rounded down: the user will type it, and more would not fit.  */
static br_status
put_length (br_text *t, const br_real *length, const br__settings *s)
{
  br_style style = br__settings_style (s);
  const br_number *q = br_real_rational (length);
  br_number factor = BR_NUMBER_ZERO, step = BR_NUMBER_ZERO;
  br_real z = BR_REAL_ZERO;
  if (q)
    {
      br__put_measure (t, q, BR_LENGTH, &style);
      return BR_OK;
    }
  br_status status = br_number_set_ratio (&step, 1, 100000);
  if (status == BR_OK)
    status = br__settings_factor (&factor, s, BR_LENGTH);
  if (status == BR_OK)
    status = br_real_set_number (&z, &factor);
  if (status == BR_OK)
    status = br_real_div (&z, length, &z, s->bits);
  if (status == BR_OK)
    status = br_real_round (&factor, NULL, &z, &step, BR_DOWN, BR_TIES_UP, s->bits);
  if (status == BR_OK)
    status = br_real_set_number (&z, &factor);
  br__text_puts (t, "\xE2\x89\x88 ");
  if (status == BR_OK)
    status = br__put_real_decimal (t, NULL, &z, 12, s->bits);
  br__text_printf (t, " %s", s->unit->name);
  br_real_clear (&z);
  br_number_clear (&step);
  br_number_clear (&factor);
  return status;
}

/* Fails with MESSAGE about number WHICH of corner I; LENGTH, which may be NULL, is added at the end of the message.  */
static br_status
fail (check *c, size_t i, int which, const char *message, const br_real *length)
{
  br_text t = BR_TEXT_ZERO;
  if (c->pad.status != BR_OK)
    return c->pad.status;       /* it is not certain */
  *c->index = BR__CORNER_NUMBERS * (i % c->count) + (size_t) which;
  if (!c->work->error)
    return BR_DOMAIN;
  put_corner (&t, c, i);
  br__text_printf (&t, " %s", message);
  br_status status = length ? put_length (&t, length, c->work->settings) : BR_OK;
  if (status == BR_OK && t.failed)
    status = BR_NO_MEMORY;
  status = status == BR_OK ? br__fail (c->work->error, BR_DOMAIN, *c->index, 0, "%s", br__text_string (&t)) : status;
  br__text_clear (&t);
  return status;
}

/* ---- One corner after the other ---- */

static br_status
check_turn (check *c, size_t i)
{
  br__pad *g = &c->pad;
  br__point in = side_of (c, i), out = side_of (c, i + 1);
  if (br__sign_of (g, in.x) == 0 && br__sign_of (g, in.y) == 0)
    return fail (c, i, BR__CORNER_X, i == 0 ? "lies on the last one: an outline closes by itself" : "lies on the one before it", NULL);
  int bend = br__sign_of (g, br__cross (g, in, out)), on = br__sign_of (g, br__dot (g, in, out));
  int curved = is_given (c, i, BR__CORNER_RISE) || is_given (c, i + 1, BR__CORNER_RISE);
  if (bend == 0 && on < 0 && !curved)
    return fail (c, i, BR__CORNER_X, "turns straight back", NULL);
  if (bend == 0 && is_given (c, i, BR__CORNER_CUT))
    return fail (c, i, BR__CORNER_CUT, "lies on a straight line: there is nothing to round or cut", NULL);
  return BR_OK;
}

/* |tan| of half of the turn at corner I.  */
static const br_real *
slope_of (check *c, size_t i)
{
  br__pad *g = &c->pad;
  br__point in = side_of (c, i), out = side_of (c, i + 1);
  const br_real *straight = br__mul (g, br__length_of (g, in), br__length_of (g, out));
  return br__abs_of (g, br__div (g, br__cross (g, in, out), br__add (g, br__dot (g, in, out), straight)));
}

static int
is_round (const check *c, size_t i)
{
  return is_given (c, i, BR__CORNER_CUT) && !is_given (c, i, BR__CORNER_CUT_AFTER);
}

/* The length that the round or cut of corner I takes from the side before it or, if AFTER, after it; NULL: none.  */
static const br_real *
taken (check *c, size_t i, int after)
{
  if (!is_given (c, i, BR__CORNER_CUT))
    return NULL;
  if (is_round (c, i))
    return br__mul (&c->pad, number_of (c, i, BR__CORNER_CUT), slope_of (c, i));
  return number_of (c, i, after ? BR__CORNER_CUT_AFTER : BR__CORNER_CUT);
}

/* The largest radius or cut of corner I that the side between it and its neighbour leaves room for: a neighbour that is
   rounded or cut alike shrinks with it.  AFTER: of the side behind I.  */
static const br_real *
room_for (check *c, size_t i, int after)
{
  br__pad *g = &c->pad;
  size_t other = after ? i + 1 : i + c->count - 1;
  const br_real *length = br__length_of (g, side_of (c, after ? i + 1 : i)), *beside = taken (c, other, !after);
  const br_real *own = is_round (c, i) ? slope_of (c, i) : br__pad_int (g, 1);
  if (beside && is_round (c, i) == is_round (c, other)
      && br__order_of (g, number_of (c, i, BR__CORNER_CUT), number_of (c, other, BR__CORNER_CUT)) == 0)
    return br__div (g, length, br__add (g, own, is_round (c, i) ? slope_of (c, other) : br__pad_int (g, 1)));
  return br__div (g, beside ? br__sub (g, length, beside) : length, own);
}

static br_status
check_fit (check *c, size_t i)
{
  br__pad *g = &c->pad;
  const br_real *before = taken (c, i, 0), *rest = taken (c, i + c->count - 1, 1);
  if (!before && !rest)
    return BR_OK;
  const br_real *both = before && rest ? br__add (g, before, rest) : before ? before : rest;
  if (br__order_of (g, both, br__length_of (g, side_of (c, i))) <= 0)
    return BR_OK;
  /* The side is too short: for the corner that takes more of it.  */
  int after = !before || (rest && br__order_of (g, rest, before) > 0);
  size_t bad = after ? (i + c->count - 1) % c->count : i;
  const br_real *most = room_for (c, bad, after);
  /* A radius goes along both sides, and so does `cut C`.  */
  if (is_round (c, bad) || br__order_of (g, number_of (c, bad, BR__CORNER_CUT), number_of (c, bad, BR__CORNER_CUT_AFTER)) == 0)
    most = br__least (g, most, room_for (c, bad, !after));
  int which = after && !is_round (c, bad) ? BR__CORNER_CUT_AFTER : BR__CORNER_CUT;
  if (br__sign_of (g, most) <= 0)
    return fail (c, bad, which, "has no room left on a side, as the corner beside it takes all of it", NULL);
  return fail (c, bad, which, is_round (c, bad) ? "is rounded too much for its sides: the largest radius that fits is "
                                                : "is cut too much for its sides: the largest cut that fits is ", most);
}

static br_status
check_rise (check *c, size_t i)
{
  br__pad *g = &c->pad;
  if (!is_given (c, i, BR__CORNER_RISE))
    return BR_OK;
  const br_real *most = br__half (g, br__length_of (g, side_of (c, i)));
  if (br__order_of (g, br__abs_of (g, number_of (c, i, BR__CORNER_RISE)), most) <= 0)
    return BR_OK;
  return fail (c, i, BR__CORNER_RISE, "has a side of more than half a circle: the largest rise is ", most);
}

/* ---- Sides that cross ---- */

static br__path_piece
piece_of (const br__leg *leg, br__pad *g)
{
  br__path_piece p = { { &leg->x->real, &leg->y->real }, { &leg->x2->real, &leg->y2->real }, { NULL, NULL }, NULL, 0 };
  if (leg->slope)
    {
      p.centre = (br__point) { &leg->centre_x->real, &leg->centre_y->real };
      p.radius = &leg->radius->real;
      p.turn = br__sign_of (g, &leg->slope->real);
    }
  return p;
}

static br_status
check_crossings (check *c, const br__legs *legs)
{
  br__pad *g = &c->pad;
  size_t n = legs->count;
  br__path_piece *p = br__alloc_zero (n, sizeof *p);
  br_status status = p ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < n && status == BR_OK; i++)
    p[i] = piece_of (&legs->rows[i], g);
  for (size_t i = 0; i < n && status == BR_OK; i++)
    for (size_t k = i + 1; k < n && status == BR_OK && g->status == BR_OK; k++)
      {
        size_t a = legs->rows[i].corner, b = legs->rows[k].corner;
        /* A round or a cut touches its own sides and goes no farther; it may take all of one, and end where the next begins.  */
        int behind = k == i + 1, around = i == 0 && k == n - 1;
        int sharp = (behind && legs->rows[k].sharp) || (around && legs->rows[0].sharp);
        if (behind || around ? sharp && br__neighbours_meet (g, &p[i], &p[k]) : br__pieces_meet (g, &p[i], &p[k]))
          {
            br_text t = BR_TEXT_ZERO;
            br__text_puts (&t, "has a side that crosses or touches the one to ");
            put_corner (&t, c, a);
            status = t.failed ? BR_NO_MEMORY : fail (c, b, BR__CORNER_X, br__text_string (&t), NULL);
            br__text_clear (&t);
          }
      }
  br__free (p);
  return status;
}

br_status
br__outline_check (size_t *index, br__work *w, const br__value *corners, size_t count, int box)
{
  check c = { w, { BR_OK, w->settings->bits, NULL }, corners, count, index, box };
  br__sketch s = { w, BR_OK, NULL };
  br__legs legs = { NULL, 0, 0, NULL };
  br_status status = BR_OK;
  *index = BR__WHOLE_CALL;
  for (size_t i = 0; i < count && status == BR_OK; i++)
    status = check_turn (&c, i);
  for (size_t i = 0; i < count && status == BR_OK; i++)
    {
      status = check_fit (&c, i);
      if (status == BR_OK)
        status = check_rise (&c, i);
    }
  if (status == BR_OK)
    status = c.pad.status;
  if (status == BR_OK)
    status = br__outline_legs (&legs, &s, corners, count);
  if (status == BR_OK)
    status = check_crossings (&c, &legs);
  if (status == BR_OK)
    status = c.pad.status;
  br__legs_clear (&legs);
  br__sketch_clear (&s);
  br__pad_clear (&c.pad);
  return status;
}
