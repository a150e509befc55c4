/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_enclose.c - rational bounds of a value, and the precisions at which they are computed.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/interval.h"
#include "exact/number.h"

#define LEAST_BITS 32

static mpfr_prec_t
precision_limit (unsigned bits)
{
  if (bits == 0)
    return BR_REAL_BITS;
  if (bits < LEAST_BITS)
    return LEAST_BITS;
  return bits > BR_MAX_BITS ? BR_MAX_BITS : (mpfr_prec_t) bits;
}

/* Q = the finite X; an end nearer to zero than 2^-BR_MAX_BITS moves outwards, to zero or to that power,
   so that no size gets out of hand.  */
static void
get_end (mpq_t q, mpfr_srcptr x, int upper)
{
  int sign = mpfr_sgn (x);

  if (sign == 0 || mpfr_get_exp (x) > -BR_MAX_BITS)
    {
      mpfr_get_q (q, x);
      return;
    }
  mpq_set_ui (q, 0, 1);
  if ((sign > 0) != upper)
    return;
  mpq_set_si (q, sign, 1);
  mpq_div_2exp (q, q, BR_MAX_BITS - 1);
}

static int
past_limit (mpfr_srcptr x)
{
  return mpfr_inf_p (x) || (!mpfr_zero_p (x) && mpfr_get_exp (x) > BR_MAX_BITS);
}

/* Reads the ends of X; a value that lies past the limit on both ends, on one side of zero, is too
   big for certain.  */
static br_status
read_ends (mpq_t low, mpq_t high, int *finite, br__interval_srcptr x)
{
  *finite = 0;
  if (past_limit (&x->left) || past_limit (&x->right))
    {
      int one_side = mpfr_sgn (&x->left) == mpfr_sgn (&x->right);

      return one_side && past_limit (&x->left) && past_limit (&x->right) ? BR_TOO_BIG : BR_OK;
    }
  get_end (low, &x->left, 0);
  get_end (high, &x->right, 1);
  *finite = 1;
  return BR_OK;
}

/* LOW <= X <= HIGH from one evaluation at P bits.  FINITE gets 0 where there are no such ends (yet).
   BR_TOO_BIG where X is certainly past BR_MAX_BITS.  */
static br_status
real_ends (mpq_t low, mpq_t high, int *finite, const br_real *x, mpfr_prec_t p)
{
  br__mpfr_state state;
  br_status status;

  br_real room;
  x = br__real_seen (&room, x);
  if (x->node == NULL)
    {
      br__number_to_mpq (low, &x->rational);
      mpq_set (high, low);
      *finite = 1;
      return BR_OK;
    }
  br__mpfr_enter (&state);
  status = br__node_evaluate (x->node, p);
  if (status == BR_OK)
    status = read_ends (low, high, finite, x->node->enclosure);
  br__mpfr_leave (&state);
  return status;
}

br_status
br__real_search (const br_real *x, unsigned bits, br__accept *accept, void *context)
{
  const mpfr_prec_t limit = precision_limit (bits);
  mpfr_prec_t p = limit < BR__FIRST_BITS ? limit : BR__FIRST_BITS;
  mpq_t low, high;
  br_status status;

  mpq_inits (low, high, NULL);
  for (;;)
    {
      int finite = 0;

      status = real_ends (low, high, &finite, x, p);
      if (status != BR_OK || (finite && accept (low, high, context)))
        break;
      status = BR_UNDECIDED;
      if (x->node != NULL && x->node->known == BR__FRACTION)
        break;
      /* If the first bounds do not decide, X may be equal to a fraction; then its bounds are exact.  */
      status = br__real_ask (x, BR__PROVE, 0);
      if (status != BR_OK)
        break;
      if (x->node != NULL && x->node->known == BR__FRACTION)
        continue;
      status = BR_UNDECIDED;
      if (p == limit)
        break;
      p = p + p / 2 < limit ? p + p / 2 : limit;
    }
  mpq_clears (low, high, NULL);
  return status;
}

br_status
br__real_apart (int *order, const br_real *x, const br_real *y)
{
  mpq_t low[2], high[2];
  int finite[2] = { 0, 0 };
  br_status status;

  mpq_inits (low[0], low[1], high[0], high[1], NULL);
  *order = 0;
  status = real_ends (low[0], high[0], &finite[0], x, BR__FIRST_BITS);
  if (status == BR_OK)
    status = real_ends (low[1], high[1], &finite[1], y, BR__FIRST_BITS);
  if (status == BR_OK && finite[0] && finite[1])
    *order = mpq_cmp (high[0], low[1]) < 0 ? -1 : mpq_cmp (low[0], high[1]) > 0 ? 1 : 0;
  mpq_clears (low[0], low[1], high[0], high[1], NULL);
  return status;
}

br_status
br_real_enclose (br_number *low, br_number *high, const br_real *x, unsigned bits)
{
  if (!low || !high || !x)
    return BR_DOMAIN;
  br_number below = BR_NUMBER_ZERO, above = BR_NUMBER_ZERO;
  mpq_t l, h;
  int finite = 0;
  br_status status = br__real_ask (x, BR__PROVE, 0);

  mpq_inits (l, h, NULL);
  if (status == BR_OK)
    status = real_ends (l, h, &finite, x, precision_limit (bits));
  if (status == BR_OK && !finite)
    status = BR_UNDECIDED;
  if (status == BR_OK)
    status = br__number_from_mpq (&below, l);
  if (status == BR_OK)
    status = br__number_from_mpq (&above, h);
  if (status == BR_OK)
    {
      br__number_move (low, &below);
      br__number_move (high, &above);
    }
  br_number_clear (&below);
  br_number_clear (&above);
  mpq_clears (l, h, NULL);
  return status;
}

typedef struct rounding
{
  mpfr_t low, high;     /* to the precision that is asked for */
  mpfr_rnd_t mode;
  int ternary;
} rounding;

/* 1 if LOW and HIGH round to the same value; then so does every value between them.  */
static int
accept_rounding (mpq_t low, mpq_t high, void *context)
{
  rounding *r = context;
  br__mpfr_state state;
  int same;

  br__mpfr_enter (&state);
  r->ternary = mpfr_set_q (r->low, low, r->mode);
  mpfr_set_q (r->high, high, r->mode);
  same = mpfr_equal_p (r->low, r->high);
  br__mpfr_leave (&state);
  return same;
}

br_status
br_real_get_mpfr (mpfr_t z, const br_real *x, mpfr_rnd_t mode, unsigned bits)
{
  if (!z || !x || mode < MPFR_RNDN || mode > MPFR_RNDF)
    return BR_DOMAIN;
  const mpfr_prec_t p = mpfr_get_prec (z), limit = precision_limit (bits);
  rounding r = { .mode = mode == MPFR_RNDF ? MPFR_RNDN : mode };
  br_status status = br__real_ask (x, BR__PROVE, 0);

  mpfr_inits2 (p, r.low, r.high, (mpfr_ptr) NULL);
  if (status == BR_OK)
    status = br__real_search (x, (unsigned) (p < BR_MAX_BITS - limit ? p + limit : BR_MAX_BITS), accept_rounding, &r);
  if (status == BR_OK)
    {
      mpfr_flags_t flags = mpfr_flags_save ();
      /* Into the caller's range of exponents.  */
      mpfr_set (z, r.low, MPFR_RNDN);
      mpfr_check_range (z, r.ternary, r.mode);
      mpfr_flags_restore (flags, MPFR_FLAGS_ALL);
    }
  mpfr_clears (r.low, r.high, (mpfr_ptr) NULL);
  return status;
}
