/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_step.c - roots of formulas with steps (rounding to marks), piece by piece.  Between two jumps a step is constant.  A
   jump is where the argument of a rounding is on the boundary between two marks.  If that is a fraction, it is
   found exactly; then the two sides and the place itself are examined separately.  A piece on which the formula is
   zero is a range of roots.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "solve/find_search.h"

br_status
br__finder_flat (br__finder *f, const br__stretch *s)
{
  int sign = 1;
  br_status status = br__finder_sign (&sign, f, &s->low);
  if (status == BR_UNDECIDED)
    return br__finder_leave (f, &s->low, &s->high);
  return status == BR_OK && sign == 0 ? br__roots_add_range (f->roots, &s->low, BR__END_ROUGH, &s->high, BR__END_ROUGH)
                                      : status;
}

/* ---- Jumps ---- */

/* 1 in *ON if at X the operand of each step of VARIES lies on a boundary between two values.  */
static br_status
on_boundaries (int *on, br__finder *f, const br_number *x, const unsigned char *varies)
{
  br_real at = BR_REAL_ZERO, *v = NULL;
  br_number quotient = BR_NUMBER_ZERO, two = { 2, 0 }, drills = { 64, 0 };
  br_status status = br_real_set_number (&at, x);
  *on = 0;
  if (status == BR_OK)
    status = br__program_values (&v, f->t, &at, 1);
  if (status == BR_DOMAIN || status == BR_UNDECIDED)
    status = BR_OK;
  else if (status == BR_OK)
    *on = 1;
  for (size_t i = 0; i < f->t->count && status == BR_OK && *on; i++)
    {
      const br__instruction *c = &f->t->code[i];
      const br_number *q = varies[i] ? br_real_rational (&v[c->left]) : NULL;
      if (!varies[i])
        continue;
      if (!q)
        *on = 0;
      else if (c->op == BR__CODE_DRILL)
        status = br_number_mul (&quotient, q, &drills);
      else
        status = br_number_div (&quotient, q, &c->number);
      /* A half mark parts nearest marks: twice as much is odd.  */
      if (q && status == BR_OK && c->op == BR__CODE_MARK && c->direction == BR_NEAREST)
        {
          *on = !br_number_is_integer (&quotient);
          status = br_number_mul (&quotient, &quotient, &two);
        }
      if (q && status == BR_OK)
        *on = *on && br_number_is_integer (&quotient);
    }
  br__program_values_free (v, f->t);
  br_real_clear (&at);
  br_number_clear (&quotient);
  return status;
}

/* The roots on one side of a jump: none; everywhere; from one end up to an unknown place; or not known.  */
enum side { SIDE_NONE, SIDE_ZERO, SIDE_UP_TO, SIDE_UNKNOWN };

/* 1 in *MEETS where F, its steps held, may be zero at X but has the sign of END otherwise, or has it there, too.  */
static br_status
goes_on (int *meets, br__finder *f, const br_number *x, const br_number *end)
{
  int signs[2] = { 2, 2 };
  const br_number *const places[2] = { x, end };
  br_status status = BR_OK;
  for (int i = 0; i < 2 && status == BR_OK; i++)
    {
      br__interval_set (f->e->box[0], places[i], places[i]);
      status = br__enclose (f->e);
      signs[i] = f->e->empty || f->e->partial ? 2 : br__interval_sign (br__enclosed_root (f->e), 0);
    }
  *meets = signs[0] != 2 && (signs[1] == 1 || signs[1] == -1) && signs[0] * signs[1] >= 0;
  return status;
}

/* The side S, which lies enclosed with its slopes and may have roots; END is the end at which its steps were held, and
   the other one is a root where AT_PLACE.  */
static br_status
judge_side (enum side *side, br__finder *f, const br__stretch *s, const br_number *end, int at_place)
{
  br__interval_srcptr slope = br__enclosed_slope (f->e, 0);
  int way = br__interval_sign (slope, 0), weak = br__interval_sign (slope, 1);
  br__band band = BR__BAND_UNKNOWN;
  int meets = at_place, sign = 0;
  br_status status = BR_OK;
  if (!meets && weak != 2)
    status = goes_on (&meets, f, end == &s->low ? &s->high : &s->low, end);
  if (status == BR_OK && meets && (way == 1 || way == -1))
    {
      *side = SIDE_NONE;
      return BR_OK;
    }
  if (status == BR_OK)
    status = br__finder_band (&band, f, s);
  if (status == BR_OK && band == BR__BAND_ZERO)
    *side = SIDE_ZERO;
  else if (status == BR_OK && band == BR__BAND_ENDS)
    {
      status = br__finder_sign (&sign, f, end);
      if (status == BR_OK && sign)
        *side = SIDE_NONE;
    }
  else if (status == BR_OK && meets && weak != 2)
    *side = band == BR__BAND_POINTS ? SIDE_NONE : at_place ? SIDE_UP_TO : SIDE_UNKNOWN;
  return status;
}

/* The same where it may have no value at the other end.  */
static br_status
judge_pole (enum side *side, br__finder *f, const br__stretch *s, const br_number *end)
{
  br__band band = BR__BAND_UNKNOWN;
  int sign = 0;
  br_status status = br__finder_band (&band, f, s);
  if (status == BR_OK && band == BR__BAND_ENDS)
    status = br__finder_sign (&sign, f, end);
  if (status == BR_OK && (band == BR__BAND_ZERO || (sign && sign != 2)))
    *side = band == BR__BAND_ZERO ? SIDE_ZERO : SIDE_NONE;
  return status;
}

/* Examines one side of a jump or a root, from LOW to HIGH.  Its steps have the values that they have at LOW if AT_LOW, else
   those at HIGH; AT_PLACE: the other end is a root.  */
static br_status
look_at (enum side *side, br__finder *f, const br_number *low, const br_number *high, int at_low, int at_place)
{
  const br__stretch s = { *low, *high };        /* borrowed */
  const br_number *end = at_low ? &s.low : &s.high;
  br__enclosure *e = f->e;
  br_status status;
  *side = SIDE_UNKNOWN;
  br__interval_set (e->box[0], end, end);
  status = br__enclose (e);
  if (status != BR_OK || e->empty || e->partial || br__steps_vary (e))
    return status;
  e->hold_steps = f->t->steps;
  br__interval_set (e->box[0], low, high);
  status = br__enclose (e);
  if (status == BR_OK && e->partial)
    status = judge_pole (side, f, &s, end);
  else if (status == BR_OK && !e->empty)
    {
      if (!br__interval_has_zero (br__enclosed_root (e)))
        *side = SIDE_NONE;
      else
        {
          br__enclose_slopes (e);
          if (!br__interval_is_zero (br__enclosed_slope (e, 0)))
            status = judge_side (side, f, &s, end, at_place);
          else
            {
              int sign = 1;
              e->hold_steps = 0;
              status = br__finder_sign (&sign, f, end);
              if (status == BR_OK)
                *side = sign == 0 ? SIDE_ZERO : SIDE_NONE;
              else if (status == BR_UNDECIDED)
                status = BR_OK;
            }
        }
    }
  e->hold_steps = 0;
  return status;
}

/* 1 if one step alone varies over the box that was enclosed, between two values next to one another.  */
static int
is_single (const br__enclosure *e)
{
  size_t found = 0;
  int next = 0;
  mpfr_t width;
  mpfr_init2 (width, BR__BOX_BITS);
  for (size_t i = 0; i < e->program->count; i++)
    if (e->jumps[i])
      {
        const br__instruction *c = &e->program->code[i];
        mpq_t size;
        mpq_init (size);
        if (c->op == BR__CODE_DRILL)
          mpq_set_ui (size, 1, 64);
        else
          br__number_to_mpq (size, &c->number);
        mpfr_sub (width, &e->values[i]->right, &e->values[i]->left, MPFR_RNDU);
        mpq_mul_2exp (size, size, 1);
        next = mpfr_cmp_q (width, size) < 0;
        mpq_clear (size);
        found++;
      }
  mpfr_clear (width);
  return found == 1 && next;
}

/* The place of the jump in S is not known.  S has no root if neither side of the jump, extended to all of S, has one.  */
static br_status
take_unplaced (br__finder *f, const br__stretch *s, int single)
{
  enum side left = SIDE_UNKNOWN, right = SIDE_UNKNOWN;
  br_status status = single ? look_at (&left, f, &s->low, &s->high, 1, 0) : BR_OK;
  if (status == BR_OK && single)
    status = look_at (&right, f, &s->low, &s->high, 0, 0);
  if (status != BR_OK || (left == SIDE_NONE && right == SIDE_NONE))
    return status;
  return br__finder_leave (f, &s->low, &s->high);
}

/* Records that nothing is decided from LOW to HIGH, if the functions have a value at both.  */
static br_status
leave_side (br__finder *f, const br_number *low, const br_number *high)
{
  const br_number *const ends[2] = { low, high };
  br_real at = BR_REAL_ZERO;
  int valid = 1;
  br_status status = BR_OK;
  for (int i = 0; i < 2 && valid && status == BR_OK; i++)
    {
      status = br_real_set_number (&at, ends[i]);
      if (status == BR_OK)
        status = br__root_valid (&valid, f->t, &at);
    }
  br_real_clear (&at);
  return status == BR_OK && valid ? br__finder_leave (f, low, high) : status;
}

/* X is a root, and one of its sides at least has roots up to it: ranges that end there.  */
static br_status
add_sides (br__finder *f, const br__stretch *s, const br_number *x, enum side left, enum side right, int root)
{
  br__end end = root ? BR__END_IN : BR__END_OUT;
  br_status status = BR_OK;
  /* The other side goes on with it, but not all the way.  */
  if (root && ((left == SIDE_ZERO && right >= SIDE_UP_TO) || (right == SIDE_ZERO && left >= SIDE_UP_TO)))
    end = BR__END_ROUGH;
  if (left == SIDE_ZERO)
    status = br__roots_add_range (f->roots, &s->low, BR__END_ROUGH, x, end);
  if (status == BR_OK && right == SIDE_ZERO)
    status = br__roots_add_range (f->roots, x, end, &s->high, BR__END_ROUGH);
  if (status == BR_OK && (root || left == SIDE_ZERO) && right == SIDE_UNKNOWN)
    status = left == SIDE_ZERO ? br__finder_leave (f, x, &s->high) : leave_side (f, x, &s->high);
  if (status == BR_OK && (root || right == SIDE_ZERO) && left == SIDE_UNKNOWN)
    status = right == SIDE_ZERO ? br__finder_leave (f, &s->low, x) : leave_side (f, &s->low, x);
  if (status != BR_OK || br__roots_set_end (f->roots, x, end))
    return status;
  return root ? br__finder_add (f, x) : BR_OK;
}

br_status
br__finder_sides (br__finder *f, const br__stretch *s, const br_number *x)
{
  enum side left = SIDE_NONE, right = SIDE_NONE;
  int sign = 1, has_left = br_number_cmp (&s->low, x) < 0, has_right = br_number_cmp (x, &s->high) < 0;
  br_status status = br__finder_sign (&sign, f, x);
  int at_place = status == BR_OK && sign == 0 && !f->t->steps;
  if (status == BR_OK && has_left)
    status = look_at (&left, f, &s->low, x, 1, at_place);
  if (status == BR_OK && has_right)
    status = look_at (&right, f, x, &s->high, 0, at_place);
  int unknown = left == SIDE_UNKNOWN || right == SIDE_UNKNOWN;
  if (status == BR_UNDECIDED || (status == BR_OK && unknown && (sign != 0 || br__steps_vary (f->e)))
      || (status == BR_OK && left == SIDE_UP_TO && right == SIDE_UP_TO))
    {
      status = sign == 0 ? br__finder_add (f, x) : BR_OK;
      return status == BR_OK ? br__finder_leave (f, &s->low, &s->high) : status;
    }
  return status == BR_OK ? add_sides (f, s, x, left, right, sign == 0) : status;
}

br_status
br__finder_jump (br__finder *f, const br__stretch *s)
{
  unsigned char *varies = br__alloc_zero (f->t->count, 1);
  br_number x = BR_NUMBER_ZERO;
  int on = 0;
  if (!varies)
    return BR_NO_MEMORY;
  memcpy (varies, f->e->jumps, f->t->count);
  int single = is_single (f->e);
  br_status status = br__number_plainest (&x, &s->low, &s->high);
  if (status == BR_OK)
    status = on_boundaries (&on, f, &x, varies);
  if (status == BR_OK)
    status = on ? br__finder_sides (f, s, &x) : take_unplaced (f, s, single);
  br__free (varies);
  br_number_clear (&x);
  return status;
}
