/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_poly.c - polynomials in roots of unity, roots and atoms.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdlib.h>
#include <string.h>

#include "exact/real_poly.h"

#include "exact/memory.h"

#define WORK_MOST 200000        /* products of two terms in one proof */
#define BITS_OF_TERM 100        /* work that each is like: br__work_on */
#define SIZE_MOST 4000          /* bits of a factor of a br__monomial */
#define PRIME_MOST 1000         /* of which the roots of unity are known to add up to 0 */

/* ---- Polynomials ---- */

void
br__poly_clear (br__poly *p)
{
  for (size_t i = 0; i < p->size; i++)
    mpq_clear (p->term[i].factor);
  br__free (p->term);
  *p = (br__poly) { NULL, 0, 0 };
}

void
br__normal_stop (br__normal *n, br_status status)
{
  if (n->status == BR_OK)
    n->status = status;
}

/* The term that was put last, or NULL.  Half a turn is a minus sign.  */
br__monomial *
br__poly_put (br__normal *n, br__poly *p, uint64_t turn, const uint16_t *power, mpq_srcptr factor)
{
  if (n->status == BR_OK && ++n->work > WORK_MOST)
    br__normal_stop (n, BR_UNDECIDED);
  if (!br__work_on (BITS_OF_TERM))
    br__normal_stop (n, BR_NO_MEMORY);
  if (n->status != BR_OK)
    return NULL;
  if (!br__grow (&p->term, &p->room, p->size + 1, sizeof p->term[0]))
    {
      br__normal_stop (n, BR_NO_MEMORY);
      return NULL;
    }
  br__monomial *t = &p->term[p->size++];
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
  const br__monomial *x = a, *y = b;

  return x->turn != y->turn ? (x->turn < y->turn ? -1 : 1) : memcmp (x->power, y->power, sizeof x->power);
}

/* Terms that differ by their factor alone become one; those that cancel go.  */
void
br__poly_gather (br__normal *n, br__poly *p)
{
  size_t kept = 0;

  if (p->size > 0)
    qsort (p->term, p->size, sizeof p->term[0], compare);
  for (size_t i = 0; i < p->size; i++)
    {
      br__monomial *last = kept > 0 ? &p->term[kept - 1] : NULL;

      if (last != NULL && compare (last, &p->term[i]) == 0)
        {
          mpq_add (last->factor, last->factor, p->term[i].factor);
          mpq_clear (p->term[i].factor);
        }
      else
        p->term[kept++] = p->term[i];
      last = &p->term[kept - 1];
      if (mpz_sizeinbase (mpq_numref (last->factor), 2) + mpz_sizeinbase (mpq_denref (last->factor), 2) > SIZE_MOST)
        br__normal_stop (n, BR_UNDECIDED);
      if (mpq_sgn (last->factor) == 0)
        {
          mpq_clear (last->factor);
          kept--;
        }
    }
  p->size = kept;
}

/* Z += X * Y, or Z -= X * Y.  */
void
br__poly_add_product (br__normal *n, br__poly *z, const br__poly *x, const br__poly *y, int negate)
{
  mpq_t factor;

  mpq_init (factor);
  for (size_t i = 0; i < x->size; i++)
    for (size_t j = 0; j < y->size && n->status == BR_OK; j++)
      {
        mpq_mul (factor, x->term[i].factor, y->term[j].factor);
        if (negate)
          mpq_neg (factor, factor);
        br__monomial *t = br__poly_put (n, z, x->term[i].turn + y->term[j].turn, x->term[i].power, factor);
        for (size_t g = 0; g < BR__GENERATORS && t != NULL; g++)
          t->power[g] = (uint16_t) (t->power[g] + y->term[j].power[g]);
      }
  mpq_clear (factor);
}

/* 1 where a root was there to its index; it became its radicand.  */
static int
take_radicand (br__normal *n, br__poly *p, size_t g)
{
  const int64_t index = n->generator[g].index;
  br__poly high = { NULL, 0, 0 };
  size_t kept = 0;

  for (size_t i = 0; i < p->size; i++)
    if (index != 0 && p->term[i].power[g] >= index)
      {
        p->term[i].power[g] = (uint16_t) (p->term[i].power[g] - index);
        br__poly_put (n, &high, p->term[i].turn, p->term[i].power, p->term[i].factor);
        mpq_clear (p->term[i].factor);
      }
    else
      p->term[kept++] = p->term[i];
  p->size = kept;
  int found = high.size > 0 && n->status == BR_OK;
  if (found)
    br__poly_add_product (n, p, &high, &n->generator[g].radicand, 0);
  br__poly_clear (&high);
  return found;
}

void
br__poly_tidy (br__normal *n, br__poly *p)
{
  for (size_t g = n->generators; g-- > 0 && n->status == BR_OK; )
    if (take_radicand (n, p, g))
      g = n->generators;
  br__poly_gather (n, p);
}

/* P, which may be one of the two, = X * Y.  */
void
br__poly_multiply (br__normal *n, br__poly *p, const br__poly *x, const br__poly *y)
{
  br__poly z = { NULL, 0, 0 };

  br__poly_add_product (n, &z, x, y, 0);
  br__poly_tidy (n, &z);
  br__poly_clear (p);
  *p = z;
}

int
br__poly_same (const br__poly *x, const br__poly *y)
{
  if (x->size != y->size)
    return 0;
  for (size_t i = 0; i < x->size; i++)
    if (compare (&x->term[i], &y->term[i]) != 0 || !mpq_equal (x->term[i].factor, y->term[i].factor))
      return 0;
  return 1;
}

void
br__poly_put_number (br__normal *n, br__poly *p, mpz_srcptr number)
{
  mpq_t q;

  mpq_init (q);
  mpq_set_z (q, number);
  if (mpq_sgn (q) != 0)
    br__poly_put (n, p, 0, NULL, q);
  mpq_clear (q);
}

/* P = 2 cos (360 degrees TURN / ORDER), times FACTOR.  */
void
br__poly_put_cosine (br__normal *n, br__poly *p, uint64_t turn, mpq_srcptr factor)
{
  br__poly_put (n, p, turn, NULL, factor);
  br__poly_put (n, p, n->order - turn, NULL, factor);
}

/* ---- What is left ---- */

/* The roots of unity of PRIME, which divides the order as POWER does and no more, add up to 0: of PRIME turns that lie a
   PRIMEth apart, the one that leads to the last digit is written as the others.  */
static void
reduce (br__normal *n, br__poly *p, uint64_t prime, uint64_t power)
{
  const uint64_t apart = n->order / prime;
  br__poly z = { NULL, 0, 0 };
  mpz_t inverse, modulus;
  mpq_t factor;

  mpq_init (factor);
  mpz_init_set_ui (inverse, (unsigned long) (n->order / power % power));
  mpz_init_set_ui (modulus, (unsigned long) power);
  mpz_invert (inverse, inverse, modulus);
  for (size_t i = 0; i < p->size; i++)
    {
      const br__monomial *t = &p->term[i];
      const uint64_t digit = t->turn % power * mpz_get_ui (inverse) % power / (power / prime);

      mpq_set (factor, t->factor);
      if (digit != prime - 1)
        br__poly_put (n, &z, t->turn, t->power, factor);
      mpq_neg (factor, factor);
      for (uint64_t j = 1; j < prime && digit == prime - 1; j++)
        br__poly_put (n, &z, t->turn + n->order - j * apart, t->power, factor);
    }
  br__poly_gather (n, &z);
  br__poly_clear (p);
  *p = z;
  mpz_clear (inverse);
  mpz_clear (modulus);
  mpq_clear (factor);
}

int
br__poly_cancels (br__normal *n, br__poly *p)
{
  uint64_t rest = n->order;

  while (rest % 2 == 0)
    rest /= 2;
  for (uint64_t prime = 3; prime <= PRIME_MOST && n->status == BR_OK; prime += 2)
    {
      uint64_t power = 1;

      for (; rest % prime == 0; rest /= prime)
        power *= prime;
      if (power > 1)
        reduce (n, p, prime, power);
    }
  return n->status == BR_OK && p->size == 0;
}
