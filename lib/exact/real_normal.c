/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_normal.c - proves that a value is 0 by expanding it to a quotient of polynomials in roots of unity,
   in roots and in atoms.  Twice a cosine is the sum of a root of unity and its inverse; a root to the power of its
   index is its radicand; the roots of unity of a prime order add up to 0.  If all terms of the numerator cancel,
   the value is 0; if some remain, nothing is concluded.  This is symbolic, so it also works for angles for which the
   bound of real_bound.c needs too many bits.  docs/certainty.md has the argument.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/real_poly.h"

#include "exact/memory.h"
#include "exact/number.h"

#define POWER_MOST 64
#define ORDER_MOST UINT32_MAX  /* turns in parts of a circle; a long may have 32 bits */
#define INDEX_MOST 360          /* common to all roots of numbers */
#define BASE_MOST 100           /* primes under it are taken out of a radicand */
#define ORDER_LEAST 120         /* sqrt 2, sqrt 3 and sqrt 5 are sums of roots of unity of this order */

/* ---- Steps ---- */

/* A divisor of one term without generators goes into the numerator.  */
static void
shorten (br__normal *n, br__quotient *z)
{
  static const uint16_t none[BR__GENERATORS];
  br__poly inverse = { NULL, 0, 0 };

  if (n->status != BR_OK || z->under.size != 1 || memcmp (z->under.term->power, none, sizeof none) != 0)
    return;
  mpq_inv (z->under.term->factor, z->under.term->factor);
  br__poly_put (n, &inverse, n->order - z->under.term->turn, NULL, z->under.term->factor);
  br__poly_multiply (n, &z->over, &z->over, &inverse);
  br__poly_multiply (n, &z->under, &z->under, &inverse);
  if (n->status == BR_OK)
    mpq_set_ui (z->under.term->factor, 1, 1);
  br__poly_clear (&inverse);
}

static void
add (br__normal *n, br__quotient *z, const br__quotient *x, const br__quotient *y, int negate)
{
  const int one = br__poly_same (&x->under, &y->under);
  br__poly unit = { NULL, 0, 0 };
  mpz_t number;

  mpz_init_set_ui (number, 1);
  br__poly_put_number (n, &unit, number);
  br__poly_add_product (n, &z->over, &x->over, one ? &unit : &y->under, 0);
  br__poly_add_product (n, &z->over, &y->over, one ? &unit : &x->under, negate);
  br__poly_tidy (n, &z->over);
  br__poly_multiply (n, &z->under, &x->under, one ? &unit : &y->under);
  br__poly_clear (&unit);
  mpz_clear (number);
}

static void
put_one (br__normal *n, br__poly *p)
{
  mpz_t number;

  mpz_init_set_ui (number, 1);
  br__poly_put_number (n, p, number);
  mpz_clear (number);
}

/* P times X to the power of K.  */
static void
multiply_power (br__normal *n, br__poly *p, const br__poly *x, int64_t k)
{
  if (k > POWER_MOST)
    br__normal_stop (n, BR_UNDECIDED);
  for (; k > 0 && n->status == BR_OK; k--)
    br__poly_multiply (n, p, p, x);
}

/* P times the POWERth of the generator that is STEP's, or of the root of INDEX of RADICAND, which it takes over.  */
static void
multiply_generator (br__normal *n, br__poly *p, uint32_t step, int64_t index, br__poly *radicand, int64_t power)
{
  br__poly root = { NULL, 0, 0 };
  size_t g = 0;

  while (g < n->generators && (n->generator[g].index != index
                               || (index == 0 ? n->generator[g].step != step : !br__poly_same (&n->generator[g].radicand, radicand))))
    g++;
  if (g == BR__GENERATORS)
    br__normal_stop (n, BR_UNDECIDED);
  else if (g == n->generators)
    {
      n->generator[g].step = step;
      n->generator[g].index = index;
      n->generator[g].radicand = *radicand;
      *radicand = (br__poly) { NULL, 0, 0 };
      n->generators++;
    }
  br__poly_clear (radicand);
  put_one (n, &root);
  if (n->status == BR_OK)
    root.term->power[g] = (uint16_t) power;
  br__poly_multiply (n, p, p, &root);
  br__poly_clear (&root);
}

/* P times the POWERth of the root of the common index of BASE.  sqrt 2, sqrt 3 and sqrt 5 are 2 cos 45, 2 cos 30 and
   1 + 4 cos 72 degrees.  */
static void
multiply_base (br__normal *n, br__poly *p, mpz_srcptr base, int64_t power)
{
  const int small = n->index % 2 == 0 && mpz_cmp_ui (base, 5) <= 0;
  br__poly radicand = { NULL, 0, 0 };
  mpq_t factor;

  mpq_init (factor);
  if (!small)
    br__poly_put_number (n, &radicand, base);
  else if (mpz_cmp_ui (base, 5) == 0)
    {
      mpq_set_ui (factor, 2, 1);
      put_one (n, &radicand);
      br__poly_put_cosine (n, &radicand, n->order / 5, factor);
    }
  else
    {
      mpq_set_ui (factor, 1, 1);
      br__poly_put_cosine (n, &radicand, n->order / (mpz_cmp_ui (base, 2) == 0 ? 8 : 12), factor);
    }
  br__poly_gather (n, &radicand);
  multiply_generator (n, p, 0, small ? n->index / 2 : n->index, &radicand, power);
  mpq_clear (factor);
}

/* The root of p / q is that of p q^(INDEX - 1), over q: a product of roots of small primes and of what is left.  */
static void
take_number_root (br__normal *n, br__quotient *z, int64_t index, mpq_srcptr number)
{
  br__poly factor = { NULL, 0, 0 };
  mpz_t rest, whole, base;

  mpz_inits (rest, base, NULL);
  mpz_init_set_ui (whole, 1);
  mpz_pow_ui (rest, mpq_denref (number), (unsigned long) index - 1);
  mpz_mul (rest, rest, mpq_numref (number));
  put_one (n, &z->over);
  for (unsigned long prime = 2; prime < BASE_MOST && n->status == BR_OK; prime++)
    {
      int64_t power = 0;

      for (; mpz_divisible_ui_p (rest, prime); power++)
        {
          mpz_divexact_ui (rest, rest, prime);
          if ((power + 1) % index == 0)
            mpz_mul_ui (whole, whole, prime);
        }
      mpz_set_ui (base, prime);
      if (power % index != 0)
        multiply_base (n, &z->over, base, power % index * (n->index / index));
    }
  if (mpz_cmp_ui (rest, 1) > 0)
    multiply_base (n, &z->over, rest, n->index / index);
  br__poly_put_number (n, &factor, whole);
  br__poly_multiply (n, &z->over, &z->over, &factor);
  br__poly_put_number (n, &z->under, mpq_denref (number));
  br__poly_clear (&factor);
  mpz_clears (rest, whole, base, NULL);
}

/* Half an angle: where RADICAND is B (2 + 2 cos a) or B (2 - 2 cos a), B a number over 0, its root is that of B times
   2 cos (a / 2) or 2 sin (a / 2), for a up to half a turn.  Then Z is that, and 1 is given.  */
static int
take_half (br__normal *n, br__quotient *z, const br__poly *radicand)
{
  static const uint16_t none[BR__GENERATORS];
  const br__monomial *t = radicand->term;
  br__poly cosine = { NULL, 0, 0 };
  mpq_t b;
  int fits = n->status == BR_OK && radicand->size == 3 && t[0].turn == 0 && t[1].turn % 2 == 0
             && t[1].turn + t[2].turn == n->order / 2;

  for (size_t i = 0; i < 3 && fits; i++)
    fits = memcmp (t[i].power, none, sizeof none) == 0;
  if (!fits)
    return 0;
  mpq_init (b);
  /* The last one stands for the root of unity of the opposite turn, with a minus.  */
  mpq_neg (b, t[2].factor);
  fits = mpq_equal (b, t[1].factor);
  mpq_mul_2exp (b, b, 1);
  const int minus = mpq_sgn (b) < 0;
  mpq_abs (b, b);
  fits = fits && mpq_equal (b, t[0].factor);
  mpq_div_2exp (b, b, 1);
  if (fits)
    {
      take_number_root (n, z, 2, b);
      mpq_set_ui (b, 1, 1);
      br__poly_put_cosine (n, &cosine, minus ? n->order / 4 - t[1].turn / 2 : t[1].turn / 2, b);
      br__poly_multiply (n, &z->over, &z->over, &cosine);
    }
  br__poly_clear (&cosine);
  mpq_clear (b);
  return fits;
}

/* The root of A / B is the root of A B^(INDEX - 1), over B.  */
static void
take_root (br__normal *n, br__quotient *z, uint32_t step, int64_t index, const br__quotient *x)
{
  br__poly radicand = { NULL, 0, 0 }, one = { NULL, 0, 0 };

  put_one (n, &one);
  br__poly_multiply (n, &radicand, &x->over, &one);
  multiply_power (n, &radicand, &x->under, index - 1);
  if (index != 2 || !take_half (n, z, &radicand))
    {
      put_one (n, &z->over);
      put_one (n, &z->under);
      multiply_generator (n, &z->over, step, index, &radicand, 1);
    }
  br__poly_multiply (n, &z->under, &z->under, &x->under);
  br__poly_clear (&radicand);
  br__poly_clear (&one);
}

/* The root of a number over 0, of an index that goes into the common one.  */
static int
is_number_root (const br__field *f, const br__step *s)
{
  return s->op == BR__STEP_ROOT && f->step[s->left].op == BR__STEP_NUMBER && mpq_sgn (f->step[s->left].number) > 0;
}

static void
work_out (br__normal *n, uint32_t i)
{
  const br__step *s = &n->f->step[i];
  const br__quotient *x = &n->step[s->left], *y = &n->step[s->right];
  br__quotient *z = &n->step[i];
  br__poly none = { NULL, 0, 0 };
  mpq_t half;

  switch (s->op)
    {
    case BR__STEP_NUMBER:
      br__poly_put_number (n, &z->over, mpq_numref (s->number));
      br__poly_put_number (n, &z->under, mpq_denref (s->number));
      break;
    case BR__STEP_ATOM:
      put_one (n, &z->over);
      put_one (n, &z->under);
      multiply_generator (n, &z->over, i, 0, &none, 1);
      break;
    case BR__STEP_COSINE:
      mpq_init (half);
      mpq_set_ui (half, 1, 2);
      br__poly_put_cosine (n, &z->over, n->order / mpz_get_ui (mpq_denref (s->number)) * mpz_get_ui (mpq_numref (s->number)), half);
      put_one (n, &z->under);
      mpq_clear (half);
      break;
    case BR__STEP_ADD: add (n, z, x, y, 0); break;
    case BR__STEP_SUB: add (n, z, x, y, 1); break;
    case BR__STEP_MUL:
      br__poly_multiply (n, &z->over, &x->over, &y->over);
      br__poly_multiply (n, &z->under, &x->under, &y->under);
      break;
    case BR__STEP_DIV:
      br__poly_multiply (n, &z->over, &x->over, &y->under);
      br__poly_multiply (n, &z->under, &x->under, &y->over);
      break;
    case BR__STEP_ROOT:
      if (is_number_root (n->f, s))
        take_number_root (n, z, s->index, n->f->step[s->left].number);
      else
        take_root (n, z, i, s->index, x);
      break;
    case BR__STEP_POWER:
      put_one (n, &z->over);
      put_one (n, &z->under);
      multiply_power (n, &z->over, &x->over, s->index);
      multiply_power (n, &z->under, &x->under, s->index);
      break;
    }
  shorten (n, z);
}

/* A number of which a turn is made so that all cosines turn by wholes of it, 0 where it is out of reach.  */
static uint64_t
common_order (const br__field *f)
{
  mpz_t order;
  uint64_t value = 0;

  mpz_init_set_ui (order, ORDER_LEAST);
  for (size_t i = 1; i < f->size; i++)
    if (f->step[i].needed && f->step[i].op == BR__STEP_COSINE)
      mpz_lcm (order, order, mpq_denref (f->step[i].number));
  /* Twice that, for halves of angles.  */
  mpz_mul_2exp (order, order, 1);
  if (mpz_cmp_ui (order, ORDER_MOST) <= 0)
    value = mpz_get_ui (order);
  mpz_clear (order);
  return value;
}

/* The least common multiple of the indices of all roots of numbers, and of square roots of others.  */
static int64_t
common_index (const br__field *f)
{
  int64_t index = 1;

  for (size_t i = 1; i < f->size && index <= INDEX_MOST; i++)
    if (f->step[i].needed && (is_number_root (f, &f->step[i]) || (f->step[i].op == BR__STEP_ROOT && f->step[i].index == 2)))
      index *= f->step[i].index / (int64_t) br__gcd ((uint64_t) index, (uint64_t) f->step[i].index);
  return index;
}

int
br__field_cancels (br__field *f, uint32_t root)
{
  br__normal n = { .f = f, .order = common_order (f), .index = common_index (f), .status = BR_OK };
  int zero = 0;

  if (n.index > INDEX_MOST)
    n.order = 0;

  n.step = n.order != 0 ? br__alloc_zero (root + 1, sizeof n.step[0]) : NULL;
  if (n.step == NULL)
    {
      if (n.order != 0)
        f->status = BR_NO_MEMORY;
      return 0;
    }
  for (uint32_t i = 0; i <= root && n.status == BR_OK; i++)
    if (i == 0 || f->step[i].needed)
      work_out (&n, i);
  if (n.status == BR_OK)
    zero = br__poly_cancels (&n, &n.step[root].over);
  for (uint32_t i = 0; i <= root; i++)
    {
      br__poly_clear (&n.step[i].over);
      br__poly_clear (&n.step[i].under);
    }
  for (size_t g = 0; g < n.generators; g++)
    br__poly_clear (&n.generator[g].radicand);
  br__free (n.step);
  if (n.status == BR_NO_MEMORY)
    f->status = n.status;
  return zero;
}
