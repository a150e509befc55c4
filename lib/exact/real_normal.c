/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_normal.c - proves that a value is 0 by writing it out: as a quotient of polynomials in roots of unity,
   in roots and in atoms.  Twice a cosine is the sum of a root of unity and its inverse; a root to the power of its
   index is its radicand; the roots of unity of a prime order add up to 0.  Where all terms of the numerator cancel,
   the value is 0; where some are left, nothing is concluded.  It takes no bits, and so works for angles of which the
   bound of real_bound.c asks for too many.  docs/certainty.md has the argument.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/real_field.h"

#include "exact/memory.h"
#include "exact/number.h"

#define GENERATORS 10           /* roots and atoms of one value */
#define WORK_MOST 200000        /* products of two terms in one proof */
#define SIZE_MOST 4000          /* bits of a factor of a term */
#define POWER_MOST 64
#define ORDER_MOST UINT32_MAX  /* turns in parts of a circle; a long may have 32 bits */
#define INDEX_MOST 360          /* common to all roots of numbers */
#define BASE_MOST 100           /* primes under it are taken out of a radicand */
#define ORDER_LEAST 120         /* sqrt 2, sqrt 3 and sqrt 5 are sums of roots of unity of this order */

/* FACTOR times the root of unity of TURN / ORDER of a turn, times the generators to their powers.  */
typedef struct term
{
  uint64_t turn;
  uint16_t power[GENERATORS];
  mpq_t factor;
} term;

typedef struct poly
{
  term *term;
  size_t size, room;
} poly;

typedef struct quotient
{
  poly over, under;
} quotient;

typedef struct normal
{
  br__field *f;
  uint64_t order;
  int64_t index;                /* common to all roots of numbers */
  quotient *step;               /* of each step that is needed */
  struct { uint32_t step; int64_t index; poly radicand; } generator[GENERATORS];        /* INDEX 0: an atom */
  size_t generators;
  size_t work;
  br_status status;             /* BR_UNDECIDED: too much */
} normal;

/* ---- Polynomials ---- */

static void
poly_clear (poly *p)
{
  for (size_t i = 0; i < p->size; i++)
    mpq_clear (p->term[i].factor);
  br__free (p->term);
  *p = (poly) { NULL, 0, 0 };
}

static void
stop (normal *n, br_status status)
{
  if (n->status == BR_OK)
    n->status = status;
}

/* The term that was put last, or NULL.  Half a turn is a minus sign.  */
static term *
put (normal *n, poly *p, uint64_t turn, const uint16_t *power, mpq_srcptr factor)
{
  if (n->status == BR_OK && ++n->work > WORK_MOST)
    stop (n, BR_UNDECIDED);
  if (n->status == BR_OK && !br__grow (&p->term, &p->room, p->size + 1, sizeof p->term[0]))
    stop (n, BR_NO_MEMORY);
  if (n->status != BR_OK)
    return NULL;
  term *t = &p->term[p->size++];
  memset (t->power, 0, sizeof t->power);
  if (power != NULL)
    memcpy (t->power, power, sizeof t->power);
  turn %= n->order;
  mpq_init (t->factor);
  mpq_set (t->factor, factor);
  t->turn = turn % (n->order / 2);
  if (turn >= n->order / 2)
    mpq_neg (t->factor, t->factor);
  return t;
}

static int
compare (const void *a, const void *b)
{
  const term *x = a, *y = b;

  return x->turn != y->turn ? (x->turn < y->turn ? -1 : 1) : memcmp (x->power, y->power, sizeof x->power);
}

/* Terms that differ by their factor alone become one; those that cancel go.  */
static void
gather (normal *n, poly *p)
{
  size_t kept = 0;

  if (p->size > 0)
    qsort (p->term, p->size, sizeof p->term[0], compare);
  for (size_t i = 0; i < p->size; i++)
    {
      term *last = kept > 0 ? &p->term[kept - 1] : NULL;

      if (last != NULL && compare (last, &p->term[i]) == 0)
        {
          mpq_add (last->factor, last->factor, p->term[i].factor);
          mpq_clear (p->term[i].factor);
        }
      else
        p->term[kept++] = p->term[i];
      last = &p->term[kept - 1];
      if (mpz_sizeinbase (mpq_numref (last->factor), 2) + mpz_sizeinbase (mpq_denref (last->factor), 2) > SIZE_MOST)
        stop (n, BR_UNDECIDED);
      if (mpq_sgn (last->factor) == 0)
        {
          mpq_clear (last->factor);
          kept--;
        }
    }
  p->size = kept;
}

/* Z += X * Y, or Z -= X * Y.  */
static void
add_product (normal *n, poly *z, const poly *x, const poly *y, int negate)
{
  mpq_t factor;

  mpq_init (factor);
  for (size_t i = 0; i < x->size; i++)
    for (size_t j = 0; j < y->size && n->status == BR_OK; j++)
      {
        mpq_mul (factor, x->term[i].factor, y->term[j].factor);
        if (negate)
          mpq_neg (factor, factor);
        term *t = put (n, z, x->term[i].turn + y->term[j].turn, x->term[i].power, factor);
        for (size_t g = 0; g < GENERATORS && t != NULL; g++)
          t->power[g] = (uint16_t) (t->power[g] + y->term[j].power[g]);
      }
  mpq_clear (factor);
}

/* 1 where a root was there to its index; it became its radicand.  */
static int
take_radicand (normal *n, poly *p, size_t g)
{
  const int64_t index = n->generator[g].index;
  poly high = { NULL, 0, 0 };
  size_t kept = 0;

  for (size_t i = 0; i < p->size && n->status == BR_OK; i++)
    if (index != 0 && p->term[i].power[g] >= index)
      {
        p->term[i].power[g] = (uint16_t) (p->term[i].power[g] - index);
        put (n, &high, p->term[i].turn, p->term[i].power, p->term[i].factor);
        mpq_clear (p->term[i].factor);
      }
    else
      p->term[kept++] = p->term[i];
  if (n->status == BR_OK)
    p->size = kept;
  int found = high.size > 0 && n->status == BR_OK;
  if (found)
    add_product (n, p, &high, &n->generator[g].radicand, 0);
  poly_clear (&high);
  return found;
}

static void
tidy (normal *n, poly *p)
{
  for (size_t g = n->generators; g-- > 0 && n->status == BR_OK; )
    if (take_radicand (n, p, g))
      g = n->generators;
  gather (n, p);
}

/* P, which may be one of the two, = X * Y.  */
static void
multiply (normal *n, poly *p, const poly *x, const poly *y)
{
  poly z = { NULL, 0, 0 };

  add_product (n, &z, x, y, 0);
  tidy (n, &z);
  poly_clear (p);
  *p = z;
}

static int
same (const poly *x, const poly *y)
{
  if (x->size != y->size)
    return 0;
  for (size_t i = 0; i < x->size; i++)
    if (compare (&x->term[i], &y->term[i]) != 0 || !mpq_equal (x->term[i].factor, y->term[i].factor))
      return 0;
  return 1;
}

static void
put_number (normal *n, poly *p, mpz_srcptr number)
{
  mpq_t q;

  mpq_init (q);
  mpq_set_z (q, number);
  if (mpq_sgn (q) != 0)
    put (n, p, 0, NULL, q);
  mpq_clear (q);
}

/* P = 2 cos (360 degrees TURN / ORDER), times FACTOR.  */
static void
put_cosine (normal *n, poly *p, uint64_t turn, mpq_srcptr factor)
{
  put (n, p, turn, NULL, factor);
  put (n, p, n->order - turn, NULL, factor);
}

/* ---- Steps ---- */

/* A divisor of one term without generators goes into the numerator.  */
static void
shorten (normal *n, quotient *z)
{
  static const uint16_t none[GENERATORS];
  poly inverse = { NULL, 0, 0 };

  if (n->status != BR_OK || z->under.size != 1 || memcmp (z->under.term->power, none, sizeof none) != 0)
    return;
  mpq_inv (z->under.term->factor, z->under.term->factor);
  put (n, &inverse, n->order - z->under.term->turn, NULL, z->under.term->factor);
  multiply (n, &z->over, &z->over, &inverse);
  multiply (n, &z->under, &z->under, &inverse);
  if (n->status == BR_OK)
    mpq_set_ui (z->under.term->factor, 1, 1);
  poly_clear (&inverse);
}

static void
add (normal *n, quotient *z, const quotient *x, const quotient *y, int negate)
{
  const int one = same (&x->under, &y->under);
  poly unit = { NULL, 0, 0 };
  mpz_t number;

  mpz_init_set_ui (number, 1);
  put_number (n, &unit, number);
  add_product (n, &z->over, &x->over, one ? &unit : &y->under, 0);
  add_product (n, &z->over, &y->over, one ? &unit : &x->under, negate);
  tidy (n, &z->over);
  multiply (n, &z->under, &x->under, one ? &unit : &y->under);
  poly_clear (&unit);
  mpz_clear (number);
}

static void
put_one (normal *n, poly *p)
{
  mpz_t number;

  mpz_init_set_ui (number, 1);
  put_number (n, p, number);
  mpz_clear (number);
}

/* P times X to the power of K.  */
static void
multiply_power (normal *n, poly *p, const poly *x, int64_t k)
{
  if (k > POWER_MOST)
    stop (n, BR_UNDECIDED);
  for (; k > 0 && n->status == BR_OK; k--)
    multiply (n, p, p, x);
}

/* P times the POWERth of the generator that is STEP's, or of the root of INDEX of RADICAND, which it takes over.  */
static void
multiply_generator (normal *n, poly *p, uint32_t step, int64_t index, poly *radicand, int64_t power)
{
  poly root = { NULL, 0, 0 };
  size_t g = 0;

  while (g < n->generators && (n->generator[g].index != index
                               || (index == 0 ? n->generator[g].step != step : !same (&n->generator[g].radicand, radicand))))
    g++;
  if (g == GENERATORS)
    stop (n, BR_UNDECIDED);
  else if (g == n->generators)
    {
      n->generator[g].step = step;
      n->generator[g].index = index;
      n->generator[g].radicand = *radicand;
      *radicand = (poly) { NULL, 0, 0 };
      n->generators++;
    }
  poly_clear (radicand);
  put_one (n, &root);
  if (n->status == BR_OK)
    root.term->power[g] = (uint16_t) power;
  multiply (n, p, p, &root);
  poly_clear (&root);
}

/* P times the POWERth of the root of the common index of BASE.  sqrt 2, sqrt 3 and sqrt 5 are 2 cos 45, 2 cos 30 and
   1 + 4 cos 72 degrees.  */
static void
multiply_base (normal *n, poly *p, mpz_srcptr base, int64_t power)
{
  const int small = n->index % 2 == 0 && mpz_cmp_ui (base, 5) <= 0;
  poly radicand = { NULL, 0, 0 };
  mpq_t factor;

  mpq_init (factor);
  if (!small)
    put_number (n, &radicand, base);
  else if (mpz_cmp_ui (base, 5) == 0)
    {
      mpq_set_ui (factor, 2, 1);
      put_one (n, &radicand);
      put_cosine (n, &radicand, n->order / 5, factor);
    }
  else
    {
      mpq_set_ui (factor, 1, 1);
      put_cosine (n, &radicand, n->order / (mpz_cmp_ui (base, 2) == 0 ? 8 : 12), factor);
    }
  gather (n, &radicand);
  multiply_generator (n, p, 0, small ? n->index / 2 : n->index, &radicand, power);
  mpq_clear (factor);
}

/* The root of p / q is that of p q^(INDEX - 1), over q: a product of roots of small primes and of what is left.  */
static void
take_number_root (normal *n, quotient *z, int64_t index, mpq_srcptr number)
{
  poly factor = { NULL, 0, 0 };
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
  put_number (n, &factor, whole);
  multiply (n, &z->over, &z->over, &factor);
  put_number (n, &z->under, mpq_denref (number));
  poly_clear (&factor);
  mpz_clears (rest, whole, base, NULL);
}

/* The root of A / B is the root of A B^(INDEX - 1), over B.  */
static void
take_root (normal *n, quotient *z, uint32_t step, int64_t index, const quotient *x)
{
  poly radicand = { NULL, 0, 0 };

  put_one (n, &z->under);
  multiply (n, &radicand, &x->over, &z->under);
  multiply_power (n, &radicand, &x->under, index - 1);
  multiply (n, &z->under, &z->under, &x->under);
  put_one (n, &z->over);
  multiply_generator (n, &z->over, step, index, &radicand, 1);
}

/* The root of a number over 0, of an index that goes into the common one.  */
static int
is_number_root (const br__field *f, const br__step *s)
{
  return s->op == BR__STEP_ROOT && f->step[s->left].op == BR__STEP_NUMBER && mpq_sgn (f->step[s->left].number) > 0;
}

static void
work_out (normal *n, uint32_t i)
{
  const br__step *s = &n->f->step[i];
  const quotient *x = &n->step[s->left], *y = &n->step[s->right];
  quotient *z = &n->step[i];
  poly none = { NULL, 0, 0 };
  mpq_t half;

  switch (s->op)
    {
    case BR__STEP_NUMBER:
      put_number (n, &z->over, mpq_numref (s->number));
      put_number (n, &z->under, mpq_denref (s->number));
      break;
    case BR__STEP_ATOM:
      put_one (n, &z->over);
      put_one (n, &z->under);
      multiply_generator (n, &z->over, i, 0, &none, 1);
      break;
    case BR__STEP_COSINE:
      mpq_init (half);
      mpq_set_ui (half, 1, 2);
      put_cosine (n, &z->over, n->order / mpz_get_ui (mpq_denref (s->number)) * mpz_get_ui (mpq_numref (s->number)), half);
      put_one (n, &z->under);
      mpq_clear (half);
      break;
    case BR__STEP_ADD: add (n, z, x, y, 0); break;
    case BR__STEP_SUB: add (n, z, x, y, 1); break;
    case BR__STEP_MUL:
      multiply (n, &z->over, &x->over, &y->over);
      multiply (n, &z->under, &x->under, &y->under);
      break;
    case BR__STEP_DIV:
      multiply (n, &z->over, &x->over, &y->under);
      multiply (n, &z->under, &x->under, &y->over);
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

/* ---- What is left ---- */

/* The roots of unity of PRIME, which divides the order as POWER does and no more, add up to 0: of PRIME turns that lie a
   PRIMEth apart, the one that leads to the last digit is written as the others.  */
static void
reduce (normal *n, poly *p, uint64_t prime, uint64_t power)
{
  const uint64_t apart = n->order / prime;
  poly z = { NULL, 0, 0 };
  mpz_t inverse, modulus;
  mpq_t factor;

  mpq_init (factor);
  mpz_init_set_ui (inverse, (unsigned long) (n->order / power % power));
  mpz_init_set_ui (modulus, (unsigned long) power);
  mpz_invert (inverse, inverse, modulus);
  for (size_t i = 0; i < p->size; i++)
    {
      const term *t = &p->term[i];
      const uint64_t digit = t->turn % power * mpz_get_ui (inverse) % power / (power / prime);

      mpq_set (factor, t->factor);
      if (digit != prime - 1)
        put (n, &z, t->turn, t->power, factor);
      mpq_neg (factor, factor);
      for (uint64_t j = 1; j < prime && digit == prime - 1; j++)
        put (n, &z, t->turn + n->order - j * apart, t->power, factor);
    }
  gather (n, &z);
  poly_clear (p);
  *p = z;
  mpz_clear (inverse);
  mpz_clear (modulus);
  mpq_clear (factor);
}

static int
all_cancels (normal *n, poly *p)
{
  static const uint64_t primes[] = { 3, 5, 7, 11, 13 };

  for (size_t i = 0; i < sizeof primes / sizeof primes[0] && n->status == BR_OK; i++)
    {
      uint64_t power = 1;

      while (n->order / power % primes[i] == 0)
        power *= primes[i];
      if (power > 1 && power <= UINT32_MAX / 2)
        reduce (n, p, primes[i], power);
    }
  return n->status == BR_OK && p->size == 0;
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
  if (mpz_cmp_ui (order, ORDER_MOST) <= 0)
    value = mpz_get_ui (order);
  mpz_clear (order);
  return value;
}

/* The least common multiple of the indices of all roots of numbers.  */
static int64_t
common_index (const br__field *f)
{
  int64_t index = 1;

  for (size_t i = 1; i < f->size && index <= INDEX_MOST; i++)
    if (f->step[i].needed && is_number_root (f, &f->step[i]))
      index *= f->step[i].index / (int64_t) br__gcd ((uint64_t) index, (uint64_t) f->step[i].index);
  return index;
}

int
br__field_cancels (br__field *f, uint32_t root)
{
  normal n = { .f = f, .order = common_order (f), .index = common_index (f), .status = BR_OK };
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
    zero = all_cancels (&n, &n.step[root].over);
  for (uint32_t i = 0; i <= root; i++)
    {
      poly_clear (&n.step[i].over);
      poly_clear (&n.step[i].under);
    }
  for (size_t g = 0; g < n.generators; g++)
    poly_clear (&n.generator[g].radicand);
  br__free (n.step);
  if (n.status == BR_NO_MEMORY)
    f->status = n.status;
  return zero;
}
