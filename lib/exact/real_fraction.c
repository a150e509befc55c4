/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_fraction.c - finds formulas that are equal to a rational.  The candidate is zero if the enclosure
   contains it, else the fraction with the smallest denominator inside, by continued fractions, if it is too short
   to be there by chance; real_zero.c proves that it is the value, or that it is not.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real_field.h"

#include "exact/interval.h"
#include "exact/number.h"

#define MOST_BITS 1300          /* at which a candidate is sought */
#define LONG_BITS 640           /* at which a long one is sought */
#define SURE_BITS 60            /* known of a value before one is */
#define ACCIDENT_BITS 16        /* an enclosure contains so short a fraction by accident once in 2^16 */
/* Bits times steps of a proof that is made on the way, and of any.  */
#define SHORT_WORK 2000000
#define LONG_WORK 60000000

/* ---- The plainest fraction ---- */

/* FRACTION of least denominator with LOW <= FRACTION <= HIGH, both over 0 and LOW < HIGH.  0 where numerator and
   denominator together have more than BITS.  LOW and HIGH are used up.  */
static int
plainest (mpq_t fraction, mpq_t low, mpq_t high, size_t bits)
{
  mpz_t whole, p[2], q[2];
  int found = 0, ended = 0;

  mpz_init (whole);
  mpz_init_set_ui (p[0], 0);
  mpz_init_set_ui (p[1], 1);
  mpz_init_set_ui (q[0], 1);
  mpz_init_set_ui (q[1], 0);
  while (!ended)
    {
      mpz_cdiv_q (whole, mpq_numref (low), mpq_denref (low));
      found = mpq_cmp_z (high, whole) >= 0;
      if (!found)
        mpz_sub_ui (whole, whole, 1);
      /* The next convergent.  */
      mpz_addmul (p[0], whole, p[1]);
      mpz_addmul (q[0], whole, q[1]);
      mpz_swap (p[0], p[1]);
      mpz_swap (q[0], q[1]);
      ended = found || mpz_sizeinbase (p[1], 2) + mpz_sizeinbase (q[1], 2) > bits;
      if (ended)
        break;
      /* Both lie strictly between WHOLE and WHOLE + 1: on with 1 / (x - WHOLE), which turns them round.  */
      mpz_submul (mpq_numref (low), whole, mpq_denref (low));
      mpz_submul (mpq_numref (high), whole, mpq_denref (high));
      mpq_inv (low, low);
      mpq_inv (high, high);
      mpq_swap (low, high);
    }
  found = found && mpz_sizeinbase (p[1], 2) + mpz_sizeinbase (q[1], 2) <= bits;
  mpz_swap (mpq_numref (fraction), p[1]);
  mpz_swap (mpq_denref (fraction), q[1]);
  mpz_clear (whole);
  for (int i = 0; i < 2; i++)
    {
      mpz_clear (p[i]);
      mpz_clear (q[i]);
    }
  return found;
}

/* ---- Candidates ---- */

/* How many bits of X are known: those of its size less those of its width.  */
static int64_t
known_bits (br__interval_srcptr x)
{
  mpfr_t width;
  int64_t bits;

  mpfr_init2 (width, 32);
  mpfr_sub (width, &x->right, &x->left, MPFR_RNDU);
  bits = mpfr_zero_p (width) ? INT32_MAX : (int64_t) mpfr_get_exp (&x->left) - (int64_t) mpfr_get_exp (width);
  mpfr_clear (width);
  return bits;
}

/* CANDIDATE for X, which does not contain zero and lies inside the limits.  */
static int
find_candidate (mpq_t candidate, br__interval_srcptr x, int64_t known)
{
  mpq_t low, high;
  int negative = mpfr_sgn (&x->left) < 0, found;

  mpq_inits (low, high, NULL);
  mpfr_get_q (low, negative ? &x->right : &x->left);
  mpfr_get_q (high, negative ? &x->left : &x->right);
  mpq_abs (low, low);
  mpq_abs (high, high);
  found = plainest (candidate, low, high, (size_t) (known - ACCIDENT_BITS));
  if (negative)
    mpq_neg (candidate, candidate);
  mpq_clears (low, high, NULL);
  return found;
}

static int
is_in_reach (mpfr_srcptr x)
{
  return mpfr_number_p (x) && (mpfr_zero_p (x) || (mpfr_get_exp (x) < BR_MAX_BITS && mpfr_get_exp (x) > -BR_MAX_BITS));
}

/* FOUND and CANDIDATE for NODE, by ends of FIRST bits or more.  */
static br_status
look (br_number *candidate, int *found, br_real_node *node, mpfr_prec_t first)
{
  mpq_t q;
  br_status status = BR_OK;

  *found = 0;
  mpq_init (q);
  for (mpfr_prec_t p = first; p <= MOST_BITS && !*found; p *= 2)
    {
      status = br__node_evaluate (node, p);
      if (status != BR_OK)
        break;
      br__interval_srcptr x = node->enclosure;
      if (!is_in_reach (&x->left) || !is_in_reach (&x->right))
        continue;
      if (br__interval_has_zero (x))
        {
          *found = 1;
          break;
        }
      int64_t known = known_bits (x);
      if (known < SURE_BITS)
        continue;
      *found = find_candidate (q, x, known);
      break;
    }
  if (*found && status == BR_OK)
    status = br__number_from_mpq (candidate, q);
  mpq_clear (q);
  return status;
}

/* Asks whether NODE is CANDIDATE, and keeps the answer.  */
static br_status
prove (br_real_node *node, const br_real *x, br_number *candidate, br__effort effort, int is_long)
{
  br__proof proof = { .work = effort == BR__GLANCE ? SHORT_WORK : LONG_WORK };
  br_status status = br__zero_test (&proof, x, candidate);

  if (status != BR_OK)
    return status;
  if (proof.zero == BR_NO)
    node->known = is_long ? BR__NOT_LONG : BR__NOT_SHORT;
  else
    {
      node->known = proof.zero == BR_YES ? BR__FRACTION : proof.more && effort == BR__GLANCE ? BR__LATER : BR__OPEN;
      node->proof_bits = proof.bits;
      br_number_swap (&node->question, candidate);
    }
  return BR_OK;
}

br_status
br__real_ask (const br_real *x, br__effort effort, int is_long)
{
  br_real_node *node = x->node;
  br_number candidate = BR_NUMBER_ZERO;
  br__mpfr_state state;
  int found = 1;
  br_status status;

  if (node != NULL && node->refused)
    {
      node->refused = 0;
      return BR_NO_MEMORY;
    }
  if (node == NULL || node->irrational || node->known > BR__LATER || node->known == BR__NOT_LONG
      || (node->known == BR__NOT_SHORT && !is_long) || (node->known == BR__LATER && effort == BR__GLANCE))
    return BR_OK;
  br__mpfr_enter (&state);
  if (node->known == BR__LATER)
    status = br_number_set (&candidate, &node->question);
  else
    status = look (&candidate, &found, node, is_long ? LONG_BITS : BR__FIRST_BITS);
  if (status == BR_OK && found)
    status = prove (node, x, &candidate, effort, is_long);
  else if (status == BR_OK)
    node->known = is_long ? BR__NOT_LONG : BR__NOT_SHORT;
  br__mpfr_leave (&state);
  br_number_clear (&candidate);
  return status;
}

br_status
br_real_settle (br_real *x)
{
  if (!x)
    return BR_DOMAIN;
  br_number value = BR_NUMBER_ZERO;
  br_status status = br__real_ask (x, BR__PROVE, 1);

  if (status == BR_OK && x->node != NULL && x->node->known == BR__FRACTION)
    {
      status = br_number_set (&value, &x->node->question);
      if (status == BR_OK)
        br__real_move_number (x, &value);
      br_number_clear (&value);
    }
  return status;
}

/* X has a node.  Examines it and returns 1 if the result is KNOWN.  */
static int
is_known (const br_real *x, br__known known)
{
  if (br__real_ask (x, BR__PROVE, 0) != BR_OK)
    x->node->refused = 1;
  return x->node->known == known;
}

const br_number *
br_real_rational (const br_real *x)
{
  if (!x)
    return NULL;
  if (x->node == NULL)
    return &x->rational;
  return is_known (x, BR__FRACTION) ? &x->node->question : NULL;
}

const br_number *
br_real_question (const br_real *x, int64_t *bits)
{
  if (!x)
    return NULL;
  int open = x->node != NULL && is_known (x, BR__OPEN);

  if (bits != NULL)
    *bits = open ? x->node->proof_bits : 0;
  return open ? &x->node->question : NULL;
}
