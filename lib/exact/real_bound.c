/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_bound.c - how near to zero a value can lie that is not zero.

   A constructive root bound: C. Burnikel, S. Funke, K. Mehlhorn, S. Schirra, S. Schmitt, A separation bound for
   real algebraic expressions (Algorithmica 55, 2009); C. Li, C. Yap, A new constructive root bound for algebraic
   expressions (SODA 2001).  Each step is a quotient U / L of algebraic integers; u and l bound the magnitudes of
   all conjugates of U and of L.  Where D bounds the degree of the field, a value that is not 0 is at least
   1 / (l u^(D-1)).  docs/certainty.md has the proof.

   Bounds are logarithms to base 2 in 1/1024 of a bit, rounded up, in integers.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real_field.h"

#include "exact/memory.h"
#include "exact/number.h"

#define BIT 1024
#define MOST (INT64_MAX / 4)    /* bounds past it are out of reach */
#define NONE (-MOST)            /* the logarithm of 0 */

static int64_t
clip (int64_t x)
{
  return x > MOST ? MOST : x < NONE ? NONE : x;
}

static int64_t
multiple (int64_t x, int64_t n)
{
  int64_t z;

  return __builtin_mul_overflow (x, n, &z) ? (x < 0 ? NONE : MOST) : clip (z);
}

/* The least common multiple of X and Y over 0.  */
static int64_t
common_multiple (int64_t x, int64_t y)
{
  return multiple (x / (int64_t) br__gcd ((uint64_t) x, (uint64_t) y), y);
}

/* log (2^x + 2^y): log2 (1 + 2^-d) is 1 at d = 0 and at most 1.4427 * 2^-d.  */
static int64_t
log_of_sum (int64_t x, int64_t y)
{
  int64_t large = x > y ? x : y, d = (large - (x > y ? y : x)) / BIT;

  return clip (large + (d == 0 ? BIT : d > 10 ? 1 : (1478 >> d) + 1));
}

static int64_t
log_of (mpz_srcptr n)
{
  mpfr_t log;
  int64_t value;

  if (mpz_sgn (n) == 0)
    return NONE;
  mpfr_init2 (log, 64);
  mpfr_set_z (log, n, MPFR_RNDA);
  mpfr_abs (log, log, MPFR_RNDU);
  mpfr_log2 (log, log, MPFR_RNDU);
  mpfr_mul_ui (log, log, BIT, MPFR_RNDU);
  value = mpfr_get_si (log, MPFR_RNDU);
  mpfr_clear (log);
  return value;
}

/* N / K rounded up, for the root of index K.  */
static int64_t
part_of (int64_t n, int64_t k)
{
  return n / k + (n % k > 0);
}

static void
bound (const br__field *f, br__step *s)
{
  const br__step *x = &f->step[s->left], *y = &f->step[s->right];
  mpq_srcptr q = s->op == BR__STEP_NUMBER ? s->number : s->op == BR__STEP_ATOM ? f->atom[s->index].point : NULL;

  switch (s->op)
    {
    case BR__STEP_NUMBER: case BR__STEP_ATOM:
      s->u = log_of (mpq_numref (q));
      s->l = log_of (mpq_denref (q));
      break;
    case BR__STEP_COSINE:       /* twice a cosine of a rational angle is an algebraic integer, as are its conjugates */
      s->u = s->l = BIT;
      break;
    case BR__STEP_ADD: case BR__STEP_SUB:
      s->u = log_of_sum (clip (x->u + y->l), clip (x->l + y->u));
      s->l = clip (x->l + y->l);
      break;
    case BR__STEP_MUL:
      s->u = clip (x->u + y->u);
      s->l = clip (x->l + y->l);
      break;
    case BR__STEP_DIV:
      s->u = clip (x->u + y->l);
      s->l = clip (x->l + y->u);
      break;
    case BR__STEP_ROOT:
      if (x->u >= x->l)
        {
          s->u = part_of (clip (x->u + multiple (x->l, s->index - 1)), s->index);
          s->l = x->l;
        }
      else
        {
          s->u = x->u;
          s->l = part_of (clip (multiple (x->u, s->index - 1) + x->l), s->index);
        }
      break;
    case BR__STEP_POWER:
      s->u = multiple (x->u, s->index);
      s->l = multiple (x->l, s->index);
      break;
    }
}

void
br__field_need (br__field *f, uint32_t root)
{
  for (size_t i = 0; i < f->size; i++)
    f->step[i].needed = 0;
  f->step[root].needed = 1;
  for (size_t i = root + 1; i-- > 1;)
    if (f->step[i].needed)
      f->step[f->step[i].left].needed = f->step[f->step[i].right].needed = 1;
}

/* ---- The degree ---- */

/* Pairwise coprime whole numbers over 1, of which roots are taken: the roots of all lie in the field of the
   roots of these.  */
#define BASES 64

typedef struct bases
{
  mpz_t base[BASES];
  int64_t index[BASES];         /* of the root of BASE that is needed */
  size_t size;
} bases;

/* Splits what is there until N and each base have no common factor, or are one; 0 where there is no room.  */
static int
refine (bases *b, mpz_t n)
{
  mpz_t common, rest;
  int fits = 1;

  mpz_inits (common, rest, NULL);
  for (size_t i = 0; i < b->size && fits && mpz_cmp_ui (n, 1) > 0; i++)
    {
      mpz_gcd (common, n, b->base[i]);
      if (mpz_cmp_ui (common, 1) == 0)
        continue;
      mpz_divexact (rest, b->base[i], common);
      if (mpz_cmp_ui (rest, 1) > 0)
        {
          /* The base falls into two, which may have factors in common still.  */
          mpz_set (b->base[i], common);
          fits = refine (b, rest);
        }
      while (mpz_divisible_p (n, b->base[i]))
        mpz_divexact (n, n, b->base[i]);
      if (fits && mpz_cmp_ui (n, 1) > 0)
        fits = refine (b, n);
    }
  if (fits && mpz_cmp_ui (n, 1) > 0)
    {
      fits = b->size < BASES;
      if (fits)
        mpz_init_set (b->base[b->size++], n);
      mpz_set_ui (n, 1);
    }
  mpz_clears (common, rest, NULL);
  return fits;
}

/* The bases that N, the radicand of a root of INDEX, is made of take roots of INDEX less what their power
   saves.  0 where N is not a product of them.  */
static int
ask_bases (bases *b, mpz_t n, int64_t index)
{
  for (size_t i = 0; i < b->size; i++)
    {
      int64_t power = 0, ask;

      for (; mpz_divisible_p (n, b->base[i]); power++)
        mpz_divexact (n, n, b->base[i]);
      if (power == 0)
        continue;
      ask = index / (int64_t) br__gcd ((uint64_t) index, (uint64_t) power);
      b->index[i] = common_multiple (b->index[i], ask);
    }
  return mpz_cmp_ui (n, 1) == 0;
}

static int
is_number_root (const br__field *f, const br__step *s)
{
  return s->needed && s->op == BR__STEP_ROOT && f->step[s->left].op == BR__STEP_NUMBER;
}

/* The degree of the field of all roots of rationals by their bases; MOST where those do not do.  */
static int64_t
degree_by_bases (const br__field *f)
{
  bases b = { .size = 0 };
  int64_t degree = 1;
  mpz_t n;

  mpz_init (n);
  for (int round = 0; round < 2; round++)
    for (size_t i = 1; i < f->size && degree < MOST; i++)
      if (is_number_root (f, &f->step[i]))
        {
          mpq_srcptr q = f->step[f->step[i].left].number;

          mpz_mul (n, mpq_numref (q), mpq_denref (q));
          mpz_abs (n, n);
          if (!(round == 0 ? refine (&b, n) : ask_bases (&b, n, f->step[i].index)))
            degree = MOST;
          for (size_t j = 0; round == 0 && j < b.size; j++)
            b.index[j] = 1;
        }
  for (size_t i = 0; i < b.size; i++)
    {
      degree = multiple (degree, b.index[i]);
      mpz_clear (b.base[i]);
    }
  mpz_clear (n);
  return degree;
}

/* Numbers under so much are taken apart by trial division.  */
#define PARTS_MOST (INT64_C (1) << 40)

/* Euler's phi of N.  */
static int64_t
phi (int64_t n)
{
  int64_t value = n;

  for (int64_t p = 2; p * p <= n; p++)
    if (n % p == 0)
      {
        value -= value / p;
        while (n % p == 0)
          n /= p;
      }
  return n > 1 ? value - value / n : value;
}

/* The degree of the field of all cosines: that of 2 cos (360 / N degrees) is phi (N) / 2 for N over 2 (D. H.
   Lehmer, A note on trigonometric algebraic numbers, Amer. Math. Monthly 40, 1933), and the cosines of its
   multiples are polynomials in it.  */
static int64_t
degree_of_cosines (const br__field *f)
{
  int64_t n = 1;

  for (size_t i = 1; i < f->size; i++)
    if (f->step[i].needed && f->step[i].op == BR__STEP_COSINE)
      {
        mpz_srcptr den = mpq_denref (f->step[i].number);

        /* A long may have 32 bits, which are too few for PARTS_MOST.  */
        uint64_t d = 0;
        if (mpz_sizeinbase (den, 2) > 40)
          return MOST;
        mpz_export (&d, NULL, -1, sizeof d, 0, 0, den);
        n = common_multiple (n, (int64_t) d);
        if (n >= PARTS_MOST)
          return MOST;
      }
  return n > 2 ? phi (n) / 2 : 1;
}

static int64_t
degree (const br__field *f)
{
  int64_t of_numbers = 1, of_others = 1, by_bases = degree_by_bases (f);

  for (size_t i = 1; i < f->size; i++)
    if (is_number_root (f, &f->step[i]))
      of_numbers = multiple (of_numbers, f->step[i].index);
    else if (f->step[i].needed && f->step[i].op == BR__STEP_ROOT)
      of_others = multiple (of_others, f->step[i].index);
  return multiple (multiple (of_others, by_bases < of_numbers ? by_bases : of_numbers), degree_of_cosines (f));
}

int64_t
br__field_bits (br__field *f, uint32_t root)
{
  int64_t d = degree (f), u, sum;

  for (size_t i = 0; i <= root; i++)
    if (i == 0 || f->step[i].needed)
      bound (f, &f->step[i]);
  /* An algebraic integer other than 0 has a conjugate of magnitude 1 at least.  */
  u = f->step[root].u > 0 ? f->step[root].u : 0;
  sum = clip (multiple (u, d - 1) + f->step[root].l);
  return sum >= MOST ? INT64_MAX : part_of (sum, BIT);
}

/* ---- The same for polynomials ---- */

int64_t
br__field_points (br__field *f, uint32_t root, size_t atom)
{
  int64_t roots = 1;

  /* U and L are integral over the polynomials in the atom now, and u, l bound the degrees of all conjugates.  A
     root that no atom is in adds no conjugates.  */
  for (size_t i = 0; i <= root; i++)
    {
      br__step *s = &f->step[i];
      const br__step *x = &f->step[s->left], *y = &f->step[s->right];

      if (i > 0 && !s->needed)
        continue;
      s->varies = s->op == BR__STEP_ATOM || (i > 0 && (x->varies || y->varies));
      if (s->op == BR__STEP_NUMBER || s->op == BR__STEP_COSINE || s->op == BR__STEP_ATOM)
        {
          s->u = s->op == BR__STEP_ATOM && (size_t) s->index == atom;
          s->l = 0;
        }
      else if (s->op == BR__STEP_ADD || s->op == BR__STEP_SUB)
        {
          int64_t a = clip (x->u + y->l), b = clip (x->l + y->u);

          s->u = a > b ? a : b;
          s->l = clip (x->l + y->l);
        }
      else
        bound (f, s);
      if (s->op == BR__STEP_ROOT && s->varies)
        roots = multiple (roots, s->index);
    }
  return clip (multiple (roots, f->step[root].u) + 1);
}
