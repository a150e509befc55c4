/* SPDX-License-Identifier: LGPL-3.0-or-later
   domain_box.c - evaluates a program over a box of sizes: computes intervals that certainly contain every value
   that it takes there.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/number.h"
#include "formula/domain_box.h"
#include "shop/drill.h"

#define OUTSIDE 64              /* 2^-64 degrees: far more than an end is rounded by */

/* ---- Operations ---- */

/* The side of the next pole: 1 for the one over it.  */
static int
next_side (br__enclosure *e)
{
  unsigned pole = e->met++;
  return pole < BR__MOST_POLES ? (int) (e->sides >> pole & 1) : 0;
}

/* Z = X / Y.  A Y that only touches zero still bounds the quotient on one side.  */
void
br__box_divide (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y)
{
  br__interval_ptr inverse = e->room[0];
  int low = mpfr_sgn (&y->left), high = mpfr_sgn (&y->right);
  if (low > 0 || high < 0)
    {
      br__interval_div (z, x, y);
      return;
    }
  if (e->beside_poles && low < 0 && high > 0)
    *(next_side (e) ? &low : &high) = 0;
  e->partial = 1;
  e->empty |= low == 0 && high == 0;
  br__interval_line (inverse);
  if (low == 0 && high > 0)
    mpfr_ui_div (&inverse->left, 1, &y->right, MPFR_RNDD);
  else if (high == 0 && low < 0)
    mpfr_ui_div (&inverse->right, 1, &y->left, MPFR_RNDU);
  br__interval_mul (z, x, inverse);
}

/* Z = the part of X that is not below zero.  */
static void
cut (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, int strict)
{
  br__interval_copy (z, x);
  if (mpfr_sgn (&z->right) < 0 || (strict && mpfr_sgn (&z->right) <= 0))
    {
      e->empty = 1;
      mpfr_set_zero (&z->right, 1);
    }
  e->partial |= mpfr_sgn (&z->left) < 0 || (strict && mpfr_sgn (&z->left) <= 0);
  if (mpfr_sgn (&z->left) < 0)
    mpfr_set_zero (&z->left, 1);
}

/* Z = X to the power N / D.  */
void
br__box_power (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, int64_t n, int64_t d)
{
  br__interval_ptr base = e->room[1], one = e->room[2];
  uint64_t m = (uint64_t) (n < 0 ? -n : n);
  /* A machine may have longs of 32 bits.  */
  if (n != (long) n || d != (long) d)
    {
      br__interval_line (z);
      return;
    }
  br__interval_copy (base, x);
  if (d > 1)
    {
      cut (e, base, base, 0);
      br__interval_root (base, base, (unsigned long) d);
    }
  br__interval_power (base, base, m);
  if (n >= 0)
    br__interval_copy (z, base);
  else
    {
      br__interval_set_int (one, 1, 1);
      br__box_divide (e, z, one, base);
    }
}

/* 1 and in Z the tangents to one side of the one pole that X may have: they go up to it, and begin again far below.  From a
   little outside of X on they do so, too, which is what bounds them where an end of X is the pole.  */
static int
beside_pole (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x)
{
  br__interval_ptr end = e->room[1];
  mpfr_sub (&end->right, &x->right, &x->left, MPFR_RNDU);
  if (!br__interval_bounded (x) || mpfr_cmp_ui (&end->right, 90) > 0)
    return 0;
  int before = next_side (e);
  mpfr_set_si_2exp (&end->right, before ? -1 : 1, -OUTSIDE, MPFR_RNDN);
  mpfr_add (&end->left, before ? &x->left : &x->right, &end->right, MPFR_RNDN);
  mpfr_set (&end->right, &end->left, MPFR_RNDN);
  br__interval_tangent (z, end);
  if (!br__interval_bounded (z))
    return 0;
  mpfr_set_inf (before ? &z->right : &z->left, before ? 1 : -1);
  e->partial = 1;
  return 1;
}

void
br__box_circle (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, br__opcode op)
{
  if (op == BR__CODE_ATAN)
    br__interval_arc_tangent (z, x);
  else if (op == BR__CODE_TAN)
    br__interval_tangent (z, x);
  else
    br__interval_sine (z, x, op == BR__CODE_COS);
  if (!br__interval_bounded (z) && !(op == BR__CODE_TAN && e->beside_poles && beside_pole (e, z, x)))
    {
      br__interval_line (z);
      e->partial = 1;
    }
}

/* The drill for an end of an interval: past the first and the last there is none.  */
static br_status
drill_for (br__enclosure *e, br_number *x, int upper)
{
  br_real real = BR_REAL_ZERO;
  br_number first = { 1, 63 }, last = { 1, 0 };
  br_status status = BR_OK;
  if (br_number_sign (x) <= 0)
    {
      e->partial = 1;
      e->empty |= upper;
      return br_number_set (x, &first);
    }
  if (br_number_cmp (x, &last) > 0)
    {
      e->partial = 1;
      e->empty |= !upper;
      return br_number_set (x, &last);
    }
  status = br_real_set_number (&real, x);
  if (status == BR_OK)
    status = br__drill_up (x, &real, 0, NULL);
  br_real_clear (&real);
  return status;
}

/* Both kinds of step never fall, so that the ends of X give those of Z.  */
static br_status
step (br__enclosure *e, size_t i, br__interval_srcptr x)
{
  const br__instruction *c = &e->program->code[i];
  br__interval_ptr z = e->values[i];
  const br__settings *s = e->program->settings;
  br_number ends[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO };
  e->jumps[i] = 1;
  if (!br__interval_bounded (x))
    {
      br__interval_line (z);
      e->partial = 1;
      return BR_OK;
    }
  br_status status = br__interval_get (&ends[0], &ends[1], x);
  for (int k = 0; k < 2 && status == BR_OK; k++)
    if (c->op == BR__CODE_DRILL)
      status = drill_for (e, &ends[k], k);
    else
      status = br_ruler_round (&ends[k], NULL, NULL, &ends[k], &c->number, c->direction, s->ties);
  if (status == BR_OK)
    {
      br__interval_set (z, &ends[0], &ends[1]);
      e->jumps[i] = !br_number_equal (&ends[0], &ends[1]);
    }
  br_number_clear (&ends[0]);
  br_number_clear (&ends[1]);
  return status;
}

static void
extreme (br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y, br__opcode op)
{
  if (op == BR__CODE_MAX)
    {
      mpfr_max (&z->left, &x->left, &y->left, MPFR_RNDD);
      mpfr_max (&z->right, &x->right, &y->right, MPFR_RNDU);
      return;
    }
  mpfr_min (&z->left, &x->left, &y->left, MPFR_RNDD);
  mpfr_min (&z->right, &x->right, &y->right, MPFR_RNDU);
}

/* Z = X to the power Y, which changes: exp (Y log X) where X is over zero; nothing is known elsewhere.  */
static void
power_of (br__enclosure *e, br__interval_ptr z, br__interval_srcptr x, br__interval_srcptr y)
{
  if (mpfr_sgn (&x->left) <= 0)
    {
      br__interval_line (z);
      e->partial = 1;
      return;
    }
  br__interval_log (e->room[1], x);
  br__interval_mul (e->room[1], e->room[1], y);
  br__interval_exp (z, e->room[1]);
}

/* How far boxes are apart never falls with either way, so that the ends of X and Y give those of Z.  */
static void
apart_end (mpfr_ptr z, mpfr_srcptr x, mpfr_srcptr y, mpfr_rnd_t direction)
{
  if (mpfr_sgn (x) > 0 && mpfr_sgn (y) > 0)
    mpfr_hypot (z, x, y, direction);
  else
    mpfr_max (z, x, y, direction);
}

/* Z = SPREAD times what C can change by with its operand K.  */
static void
change_by (br__enclosure *e, mpfr_ptr z, const br__instruction *c, unsigned k)
{
  br__interval_srcptr x = e->values[c->operands[k]];
  mpfr_t radius;
  mpfr_init2 (radius, BR__BOX_BITS);
  mpfr_sub (radius, &x->right, &x->left, MPFR_RNDU);
  if (br__rate_of (c, k) == '-' || br__rate_of (c, k) == 'j')
    mpfr_set_zero (radius, 1);
  else if (br__rate_of (c, k) == 'a')
    {
      /* c or d of a shape, of which b is one or two before.  */
      br__interval_srcptr b = e->values[c->operands[k - (br__rate_of (c, k - 1) == 'a' ? 2 : 1)]];
      br__interval_ptr arc = e->room[1], unit = e->room[2];
      br__interval_abs (arc, b);
      br__interval_half_turn (unit);
      br__interval_mul (arc, arc, unit);
      /* Of a line it is a width.  */
      if (mpfr_cmp_ui (&arc->right, 1) < 0)
        mpfr_set_ui (&arc->right, 1, MPFR_RNDU);
      mpfr_mul (radius, radius, &arc->right, MPFR_RNDU);
    }
  mpfr_set (z, radius, MPFR_RNDU);
  mpfr_clear (radius);
}

/* Adds to SPREAD the contribution of operand K.  Of the pieces of paths only twice the largest counts, once for each of
   two shapes; PIECE is the contribution of the current piece.  */
static void
grow_spread (br__enclosure *e, mpfr_ptr spread, mpfr_ptr piece, const br__instruction *c, unsigned k)
{
  mpfr_t part;
  mpfr_init2 (part, BR__BOX_BITS);
  change_by (e, part, c, k);
  if (br__rate_of (c, k) != 'p')
    mpfr_add (spread, spread, part, MPFR_RNDU);
  else
    {
      if ((k + 1 - strlen (c->function->rates)) % BR__PIECE_NUMBERS == 0)
        mpfr_set_zero (piece, 1);
      mpfr_add (piece, piece, part, MPFR_RNDU);
      mpfr_mul_2ui (part, piece, 1, MPFR_RNDU);
      mpfr_max (spread, spread, part, MPFR_RNDU);
    }
  mpfr_clear (part);
}

/* The measure of shapes at a place inside the box, widened by the sum over the operands of width times rate, which bounds
   how far other values in the box differ.  A distance that may be an overlap of an arc jumps, so it has no lower bound.  */
static br_status
measure (br__enclosure *e, br__interval_ptr z, const br__instruction *c)
{
  br_real inside[BR__MOST_MEASURED], value = BR_REAL_ZERO;
  const br_real *args[BR__MOST_MEASURED];
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  unsigned count = c->operand_count;
  br_status status = BR_OK;
  mpfr_t spread, piece;
  mpfr_inits2 (BR__BOX_BITS, spread, piece, (mpfr_ptr) 0);
  mpfr_set_zero (piece, 1);
  memset (inside, 0, count * sizeof inside[0]);
  mpfr_set_zero (spread, 1);
  for (unsigned k = 0; k < count && status == BR_OK; k++)
    {
      br__interval_srcptr x = e->values[c->operands[k]];
      args[k] = &inside[k];
      if (!br__interval_bounded (x))
        {
          status = BR_UNDECIDED;
          break;
        }
      status = br__interval_inside (&low, x);
      if (status == BR_OK)
        status = br_real_set_number (&inside[k], &low);
      grow_spread (e, spread, piece, c, k);
    }
  if (status == BR_OK)
    status = c->function->measure (&value, args, BR__BOX_BITS);
  if (status == BR_OK)
    status = br_real_enclose (&low, &high, &value, BR__BOX_BITS);
  if (status == BR_OK)
    {
      br__interval_set (z, &low, &high);
      mpfr_sub (&z->left, &z->left, spread, MPFR_RNDD);
      mpfr_add (&z->right, &z->right, spread, MPFR_RNDU);
      if (c->function->rates[0] == 'j' && mpfr_sgn (&z->left) <= 0)
        {
          mpfr_set_inf (&z->left, -1);
          if (mpfr_less_p (&z->right, spread))
            mpfr_set (&z->right, spread, MPFR_RNDU);
        }
    }
  else if (status != BR_NO_MEMORY)
    {
      br__interval_line (z);
      status = BR_OK;
    }
  for (unsigned k = 0; k < count; k++)
    br_real_clear (&inside[k]);
  br_real_clear (&value);
  br_number_clear (&low);
  br_number_clear (&high);
  mpfr_clears (spread, piece, (mpfr_ptr) 0);
  return status;
}

br_status
br__enclose_one (br__enclosure *e, size_t i)
{
  const br__instruction *c = &e->program->code[i];
  br__interval_ptr z = e->values[i], x = e->values[c->left], y = e->values[c->right];
  int64_t n = 0, d = 1;
  br_status status = BR_OK;
  switch (c->op)
    {
    case BR__CODE_CONSTANT: break;      /* set once */
    case BR__CODE_INPUT: br__interval_copy (z, e->box[c->left]); break;
    case BR__CODE_ADD: br__interval_add (z, x, y); break;
    case BR__CODE_SUB: br__interval_sub (z, x, y); break;
    case BR__CODE_MUL: br__interval_mul (z, x, y); break;
    case BR__CODE_DIV: br__box_divide (e, z, x, y); break;
    case BR__CODE_NEG: br__interval_neg (z, x); break;
    case BR__CODE_POWER:
      br_number_get_ratio (&n, &d, &c->number);
      br__box_power (e, z, x, n, d);
      break;
    case BR__CODE_POWER_OF: power_of (e, z, x, y); break;
    case BR__CODE_ABS: br__interval_abs (z, x); break;
    case BR__CODE_APART:
      apart_end (&z->left, &x->left, &y->left, MPFR_RNDD);
      apart_end (&z->right, &x->right, &y->right, MPFR_RNDU);
      break;
    case BR__CODE_SHAPE: status = measure (e, z, c); break;
    case BR__CODE_FITS: br__interval_set_int (z, 0, 0); break;
    /* Whether it is a fraction is tested by domain_exact.c.  */
    case BR__CODE_RATIONAL: br__interval_copy (z, x); break;
    case BR__CODE_MAX: case BR__CODE_MIN: extreme (z, x, y, c->op); break;
    case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW:
      cut (e, z, x, c->op == BR__CODE_OVER_ZERO);
      break;
    case BR__CODE_MARK: case BR__CODE_DRILL:
      if (!e->hold_steps)
        status = step (e, i, x);
      break;
    default: br__box_circle (e, z, x, c->op); break;
    }
  return status;
}

/* ---- The whole ---- */

br_status
br__enclose (br__enclosure *e)
{
  br_status status = BR_OK;
  e->empty = e->partial = 0;
  e->met = 0;
  for (size_t i = 0; i < e->program->count && status == BR_OK && !e->empty; i++)
    status = br__enclose_one (e, i);
  return status;
}

br__interval_ptr
br__enclosed_root (br__enclosure *e)
{
  return e->values[e->program->root];
}

br__interval_ptr
br__enclosed_slope (br__enclosure *e, size_t input)
{
  return e->slopes[e->program->input_slots[input]];
}

static br_status
set_constants (br__enclosure *e)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  for (size_t i = 0; i < e->program->count && status == BR_OK; i++)
    if (e->program->code[i].op == BR__CODE_CONSTANT)
      {
        status = br_real_enclose (&low, &high, &e->program->code[i].constant, BR__BOX_BITS);
        if (status == BR_OK)
          br__interval_set (e->values[i], &low, &high);
      }
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

br_status
br__enclosure_new (br__enclosure **e, const br__program *t)
{
  br__enclosure *made = br__alloc_zero (1, sizeof *made);
  if (!made)
    return BR_NO_MEMORY;
  made->program = t;
  made->values = br__alloc (t->count * sizeof (br__interval));
  made->slopes = br__alloc (t->count * sizeof (br__interval));
  made->jumps = br__alloc_zero (t->count, 1);
  made->box = br__alloc (t->input_count * sizeof (br__interval));
  br_status status = made->values && made->slopes && made->jumps && made->box ? BR_OK : BR_NO_MEMORY;
  if (status == BR_OK)
    {
      for (size_t i = 0; i < t->count; i++)
        br__interval_init (made->values[i], BR__BOX_BITS), br__interval_init (made->slopes[i], BR__BOX_BITS);
      for (size_t i = 0; i < t->input_count; i++)
        br__interval_init (made->box[i], BR__BOX_BITS);
      for (size_t i = 0; i < 4; i++)
        br__interval_init (made->room[i], BR__BOX_BITS);
      made->made = 1;
      status = set_constants (made);
    }
  if (status == BR_OK)
    *e = made;
  else
    br__enclosure_free (made);
  return status;
}

void
br__enclosure_free (br__enclosure *e)
{
  if (!e)
    return;
  for (size_t i = 0; e->made && i < e->program->count; i++)
    br__interval_clear (e->values[i]), br__interval_clear (e->slopes[i]);
  for (size_t i = 0; e->made && i < e->program->input_count; i++)
    br__interval_clear (e->box[i]);
  for (size_t i = 0; e->made && i < 4; i++)
    br__interval_clear (e->room[i]);
  br__free (e->values);
  br__free (e->slopes);
  br__free (e->jumps);
  br__free (e->box);
  br__free (e);
}

int
br__steps_vary (const br__enclosure *e)
{
  for (size_t i = 0; i < e->program->count; i++)
    if (e->jumps[i])
      return 1;
  return 0;
}
