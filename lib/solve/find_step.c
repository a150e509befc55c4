/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_step.c - roots of formulas with steps: piece by piece.  Between two jumps a step is a constant.  A
   jump is a place where what is put on a mark lies on a boundary; where that is a plain fraction it is
   found exactly, and the two sides and the place itself are looked at one by one.  A piece that is zero
   throughout is a range of roots.  */
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

enum side { SIDE_NONE, SIDE_ZERO, SIDE_UNKNOWN };

/* What the formula is on the one side of a jump, from LOW to HIGH: its steps are there what they are at END.  */
static br_status
look_at (enum side *side, br__finder *f, const br_number *low, const br_number *high, const br_number *end)
{
  br__enclosure *e = f->e;
  br_status status;
  *side = SIDE_UNKNOWN;
  br__interval_set (e->box[0], end, end);
  status = br__enclose (e);
  if (status != BR_OK || e->empty || e->partial || br__steps_vary (e))
    return status;
  e->hold_steps = 1;
  br__interval_set (e->box[0], low, high);
  status = br__enclose (e);
  if (status == BR_OK && !e->empty && !e->partial)
    {
      if (!br__interval_has_zero (br__enclosed_root (e)))
        *side = SIDE_NONE;
      else
        {
          br__enclose_slopes (e);
          int flat = br__interval_is_zero (br__enclosed_slope (e, 0));
          e->hold_steps = 0;
          int sign = 1;
          if (flat)
            status = br__finder_sign (&sign, f, end);
          if (flat && status == BR_OK)
            *side = sign == 0 ? SIDE_ZERO : SIDE_NONE;
          else if (status == BR_UNDECIDED)
            status = BR_OK;
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

/* Where the jump of S is is not known: there is no root if neither side of it, drawn over all of S, has one.  */
static br_status
take_unplaced (br__finder *f, const br__stretch *s, int single)
{
  enum side left = SIDE_UNKNOWN, right = SIDE_UNKNOWN;
  br_status status = single ? look_at (&left, f, &s->low, &s->high, &s->low) : BR_OK;
  if (status == BR_OK && single)
    status = look_at (&right, f, &s->low, &s->high, &s->high);
  if (status != BR_OK || (left == SIDE_NONE && right == SIDE_NONE))
    return status;
  return br__finder_leave (f, &s->low, &s->high);
}

br_status
br__finder_sides (br__finder *f, const br__stretch *s, const br_number *x)
{
  enum side left = SIDE_NONE, right = SIDE_NONE;
  int sign = 1, has_left = br_number_cmp (&s->low, x) < 0, has_right = br_number_cmp (x, &s->high) < 0;
  br_status status = br__finder_sign (&sign, f, x);
  if (status == BR_OK && has_left)
    status = look_at (&left, f, &s->low, x, &s->low);
  if (status == BR_OK && has_right)
    status = look_at (&right, f, x, &s->high, &s->high);
  int unknown = left == SIDE_UNKNOWN || right == SIDE_UNKNOWN;
  if (status == BR_UNDECIDED || (status == BR_OK && unknown && (sign != 0 || br__steps_vary (f->e))))
    {
      status = sign == 0 ? br__finder_add (f, x) : BR_OK;
      return status == BR_OK ? br__finder_leave (f, &s->low, &s->high) : status;
    }
  br__end end = sign == 0 ? BR__END_IN : BR__END_OUT;
  if (status == BR_OK && left == SIDE_ZERO)
    status = br__roots_add_range (f->roots, &s->low, BR__END_ROUGH, x, end);
  if (status == BR_OK && right == SIDE_ZERO)
    status = br__roots_add_range (f->roots, x, end, &s->high, BR__END_ROUGH);
  if (status != BR_OK || br__roots_set_end (f->roots, x, end))
    return status;
  return sign == 0 ? br__finder_add (f, x) : BR_OK;
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
  br_status status = br__plainest (&x, &s->low, &s->high);
  if (status == BR_OK)
    status = on_boundaries (&on, f, &x, varies);
  if (status == BR_OK)
    status = on ? br__finder_sides (f, s, &x) : take_unplaced (f, s, single);
  br__free (varies);
  br_number_clear (&x);
  return status;
}
