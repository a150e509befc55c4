/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_decide.c - signs, order and rounding: by integers and squares if the lane allows that, else by
   enclosures of growing precision until no boundary lies inside.  docs/certainty.md has the proof.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/number.h"

/* ---- Signs ---- */

/* The sign of two terms of the same k: where theirs differ, that of the larger square.  */
static br_status
sign_of_pair (int *sign, const br__term *t)
{
  br_number a = BR_NUMBER_ZERO, b = BR_NUMBER_ZERO;
  int first = br_number_sign (&t[0].q), second = br_number_sign (&t[1].q);
  br_status status = BR_OK;

  if (first == second)
    {
      *sign = first;
      return BR_OK;
    }
  status = br__term_square (&a, &t[0]);
  if (status == BR_OK)
    status = br__term_square (&b, &t[1]);
  if (status == BR_OK)
    *sign = br_number_cmp (&a, &b) > 0 ? first : second;
  br_number_clear (&a);
  br_number_clear (&b);
  return status;
}

static int
accept_sign (mpq_t low, mpq_t high, void *sign)
{
  if (mpq_sgn (low) != mpq_sgn (high) || (mpq_sgn (low) == 0 && !mpq_equal (low, high)))
    return 0;
  *(int *) sign = mpq_sgn (low);
  return 1;
}

br_status
br_real_sign (int *sign, const br_real *x, unsigned bits)
{
  if (!sign || !x)
    return BR_DOMAIN;
  br__term room;
  size_t size = 0;
  const br__term *t = br__terms (&size, x, &room);

  if (t != NULL && size <= 1)
    {
      *sign = size == 0 ? 0 : br_number_sign (&t->q);
      return BR_OK;
    }
  if (t != NULL && size == 2 && t[0].k == t[1].k)
    return sign_of_pair (sign, t);
  return br__real_search (x, bits, accept_sign, sign);
}

br_status
br_real_cmp (int *order, const br_real *x, const br_real *y, unsigned bits)
{
  if (!order || !x || !y)
    return BR_DOMAIN;
  br_real difference = BR_REAL_ZERO, x_room, y_room;
  br_status status;

  x = br__real_seen (&x_room, x);
  y = br__real_seen (&y_room, y);
  if (x->node == NULL && y->node == NULL)
    {
      *order = br_number_cmp (&x->rational, &y->rational);
      return BR_OK;
    }
  /* If the two are well apart, their enclosures decide, which is cheaper than their difference.  */
  if (br__real_is_formula (x) || br__real_is_formula (y))
    {
      int apart = 0;
      status = br__real_apart (&apart, x, y);
      if (status == BR_OK && apart != 0)
        *order = apart;
      if (status == BR_NO_MEMORY || (status == BR_OK && apart != 0))
        return status;
    }
  status = br_real_sub (&difference, x, y);
  if (status == BR_OK)
    status = br_real_sign (order, &difference, bits);
  br_real_clear (&difference);
  return status;
}

/* ---- Rounding ---- */

/* Z = X * STEP for a whole X.  */
static br_status
scale_mark (br_number *z, mpz_srcptr x, const br_number *step)
{
  br_number value = BR_NUMBER_ZERO;
  br_status status;
  mpq_t q;

  mpq_init (q);
  mpq_set_z (q, x);
  status = br__number_from_mpq (&value, q);
  if (status == BR_OK)
    status = br_number_mul (z, &value, step);
  mpq_clear (q);
  br_number_clear (&value);
  return status;
}

static br_status
round_rational (br_number *z, int *tie, const br_number *x, const br_number *step,
                br_direction direction, br_ties ties)
{
  br_number steps = BR_NUMBER_ZERO;
  int half = 0;
  br_status status = br_number_div (&steps, x, step);

  if (status == BR_OK)
    status = br_number_round (&steps, &half, &steps, direction, ties);
  if (status == BR_OK)
    status = br_number_mul (z, &steps, step);
  if (status == BR_OK && tie != NULL)
    *tie = half;
  br_number_clear (&steps);
  return status;
}

/* Values that are not rational lie on no boundary: |v| goes to floor |v| or to the one above.  */
static int
is_above (int sign, br_direction direction)
{
  return direction == BR_UP ? sign > 0 : sign < 0;
}

/* The small path of round_term: Q * sqrt (M) steps where the square fits 64 bits.  1 if it went.  */
static int
round_small (int64_t *steps, const br_number *q, const br_number *m, br_direction direction)
{
  uint64_t square, den, root = 0, rest;
  int sign;

  if (!br__is_small (q) || !br__is_small (m))
    return 0;
  sign = q->num < 0 ? -1 : 1;
  square = br__magnitude (q->num);
  den = (uint64_t) br__small_den (q);
  if (square > INT32_MAX || den > INT32_MAX)
    return 0;
  if (direction == BR_NEAREST)
    square *= 2;
  if (__builtin_mul_overflow (square * square, (uint64_t) m->num, &square))
    return 0;
  square /= den * den;
  if (square != 0)
    root = br__whole_root (&rest, square);
  if (direction == BR_NEAREST)
    root = (root + 1) / 2;
  else
    root += (uint64_t) is_above (sign, direction);
  *steps = sign < 0 ? -(int64_t) root : (int64_t) root;
  return 1;
}

/* STEPS = what Q * sqrt (M), not rational, goes to.  */
static void
round_large (mpz_t steps, const br_number *q, const br_number *m, br_direction direction)
{
  mpq_t square, radicand;
  int sign = br_number_sign (q);

  mpq_inits (square, radicand, NULL);
  br__number_to_mpq (square, q);
  mpq_mul (square, square, square);
  br__number_to_mpq (radicand, m);
  mpq_mul (square, square, radicand);
  if (direction == BR_NEAREST)
    mpz_mul_2exp (mpq_numref (square), mpq_numref (square), 2);
  mpz_fdiv_q (steps, mpq_numref (square), mpq_denref (square));
  mpz_sqrt (steps, steps);
  if (direction == BR_NEAREST)
    {
      mpz_add_ui (steps, steps, 1);
      mpz_fdiv_q_2exp (steps, steps, 1);
    }
  else if (is_above (sign, direction))
    mpz_add_ui (steps, steps, 1);
  if (sign < 0)
    mpz_neg (steps, steps);
  mpq_clears (square, radicand, NULL);
}

/* One term without pi: the square of X / STEP is rational, and its integer square root decides.  */
static br_status
round_term (br_number *z, const br__term *t, const br_number *step, br_direction direction)
{
  br_number q = BR_NUMBER_ZERO, value = BR_NUMBER_ZERO;
  int64_t small;
  mpz_t large;
  br_status status = br_number_div (&q, &t->q, step);

  if (status != BR_OK)
    goto out;
  if (round_small (&small, &q, &t->m, direction))
    {
      br__number_put_small (&value, small, 1);
      status = br_number_mul (z, &value, step);
      goto out;
    }
  mpz_init (large);
  round_large (large, &q, &t->m, direction);
  status = scale_mark (z, large, step);
  mpz_clear (large);
 out:
  br_number_clear (&value);
  br_number_clear (&q);
  return status;
}

typedef struct cells
{
  mpq_t step;
  br_direction direction;
  mpz_t steps;          /* the answer */
} cells;

/* 1 and the answer if LOW and HIGH are inside the same cell and not on a boundary.  Cells go from
   j - 1/2 to j + 1/2 steps for the nearest, else from j to j + 1.  LOW is assigned to the cell that ends at or
   above it and HIGH to the one that begins at or below it; so if one is on a boundary, the two cells differ.  */
static int
accept_cell (mpq_t low, mpq_t high, void *context)
{
  cells *c = context;
  mpz_t other;
  mpq_t half;
  int same;

  mpz_init (other);
  mpq_init (half);
  mpq_div (low, low, c->step);
  mpq_div (high, high, c->step);
  if (c->direction == BR_NEAREST)
    {
      mpq_set_ui (half, 1, 2);
      mpq_sub (low, low, half);
      mpq_add (high, high, half);
    }
  mpz_cdiv_q (other, mpq_numref (low), mpq_denref (low));
  if (c->direction != BR_NEAREST)
    mpz_sub_ui (other, other, 1);
  mpz_fdiv_q (c->steps, mpq_numref (high), mpq_denref (high));
  same = mpz_cmp (c->steps, other) == 0;
  if (c->direction == BR_UP)
    mpz_add_ui (c->steps, c->steps, 1);
  mpz_clear (other);
  mpq_clear (half);
  return same;
}

static br_status
round_by_enclosure (br_number *z, const br_real *x, const br_number *step, br_direction direction,
                    unsigned bits)
{
  cells c = { .direction = direction };
  br_status status;

  mpq_init (c.step);
  mpz_init (c.steps);
  br__number_to_mpq (c.step, step);
  status = br__real_search (x, bits, accept_cell, &c);
  if (status == BR_OK)
    status = scale_mark (z, c.steps, step);
  mpz_clear (c.steps);
  mpq_clear (c.step);
  return status;
}

br_status
br_real_round (br_number *multiple, int *tie, const br_real *x, const br_number *step,
               br_direction direction, br_ties ties, unsigned bits)
{
  if (!multiple || !x || !step || !br__can_round (direction, ties))
    return BR_DOMAIN;
  br__term room;
  size_t size = 0;
  br_real seen;
  br_status status;

  x = br__real_seen (&seen, x);
  const br__term *t = br__terms (&size, x, &room);
  if (br_number_sign (step) <= 0)
    return BR_DOMAIN;
  if (x->node == NULL)
    return round_rational (multiple, tie, &x->rational, step, direction, ties);
  if (t != NULL && size == 1 && t->k == 0)
    status = round_term (multiple, t, step, direction);
  else
    status = round_by_enclosure (multiple, x, step, direction, bits);
  /* A fraction that lies on a boundary.  */
  if (status == BR_UNDECIDED && x->node->known == BR__FRACTION)
    return round_rational (multiple, tie, &x->node->question, step, direction, ties);
  if (status == BR_OK && tie != NULL)
    *tie = 0;
  return status;
}
