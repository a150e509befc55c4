/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_root.c - roots: a rational if possible, else a term of an exact sum if possible, else a
   formula.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"

#include "exact/number.h"

/* Z = sqrt (X), X = N / D > 0 inline, in one look at each part: shop fractions come here.  0 in DONE where
   that does not do.  */
static br_status
sqrt_small (br_real *z, int *done, const br_number *x)
{
  br_real value = BR_REAL_ZERO;
  br__term *t;
  int64_t n, d, n_root, d_root, m = 1;
  int n_square, d_square;

  *done = 0;
  if (!br__is_small (x))
    return BR_OK;
  n = x->num;
  d = br__small_den (x);
  n_square = br__small_square (&n_root, n);
  d_square = br__small_square (&d_root, d);
  if (!n_square && !d_square && __builtin_mul_overflow (n, d, &m))
    return BR_OK;
  *done = 1;
  if (n_square && d_square)
    return br__real_set_ratio (z, n_root, d_root);
  value.node = br__node_new (BR__REAL_SUM, 1);
  if (value.node == NULL)
    return BR_NO_MEMORY;
  value.node->size = 1;
  t = value.node->term;
  *t = (br__term) BR__TERM_ZERO;
  /* sqrt (n / d) is r / d * sqrt (d), 1 / r * sqrt (n) or 1 / d * sqrt (nd), all in lowest terms.  */
  br__number_put_small (&t->q, n_square ? n_root : 1, d_square ? d_root : d);
  br__number_put_small (&t->m, n_square ? d : d_square ? n : m, 1);
  br__real_move (z, &value);
  return BR_OK;
}

/* Z = sqrt (X), X > 0 and not a square, as 1 / d * sqrt (nd); BR__LEAVE where nd would be too large.  */
static br_status
sqrt_term (br_real *z, const br_number *x)
{
  br__sum s = { .size = 0 };
  br__term t = BR__TERM_ZERO;
  br_number n = BR_NUMBER_ZERO, d = BR_NUMBER_ZERO;
  br_status status;

  if (br__number_bits (x) > BR__ROOT_BITS)
    return BR__LEAVE;
  status = br__number_parts (&n, &d, x);
  if (status == BR_OK)
    status = br_number_set_int (&t.q, 1);
  if (status == BR_OK)
    status = br_number_div (&t.q, &t.q, &d);
  if (status == BR_OK)
    status = br_number_mul (&t.m, &n, &d);
  if (status == BR_OK)
    status = br__sum_put (&s, &t);
  if (status == BR_OK)
    status = br__sum_to_real (z, &s);
  br__sum_clear (&s);
  br__term_clear (&t);
  br_number_clear (&n);
  br_number_clear (&d);
  return status;
}

/* The root of X > 0: the index shrinks by each prime factor that comes out whole.  */
static br_status
root_of_number (br_real *z, const br_number *x, unsigned index)
{
  br_number base = BR_NUMBER_ZERO;
  br_real real = BR_REAL_ZERO;
  int done = 0;
  br_status status = index == 2 ? sqrt_small (z, &done, x) : BR_OK;

  if (done)
    return status;
  status = br_number_set (&base, x);
  for (unsigned prime = 2, rest = index; status == BR_OK && rest > 1;)
    {
      int exact = 0;

      if (rest % prime != 0)
        {
          prime++;
          continue;
        }
      rest /= prime;
      status = br__number_root (&base, &exact, &base, prime);
      if (exact)
        index /= prime;
    }
  if (status != BR_OK)
    goto out;
  if (index == 1)
    {
      br__real_move_number (z, &base);
      goto out;
    }
  status = index == 2 ? sqrt_term (z, &base) : BR__LEAVE;
  if (status == BR__LEAVE)
    {
      br__real_move_number (&real, &base);
      status = br__real_formula (z, BR__REAL_ROOT, &real, NULL, index);
    }
 out:
  br_real_clear (&real);
  br_number_clear (&base);
  return status;
}

/* The root of one term: that of its rational part (q, or q * q * m at twice the index), times
   pi^(k / INDEX).  BR__LEAVE where INDEX does not divide k.  */
static br_status
root_of_term (br_real *z, const br__term *t, unsigned index)
{
  br_real root = BR_REAL_ZERO, power = BR_REAL_ZERO;
  br_number square = BR_NUMBER_ZERO, exponent = BR_NUMBER_ZERO;
  int64_t m, d;
  br_status status;

  if (t->k % (int64_t) index != 0)
    return BR__LEAVE;
  if (br_number_get_ratio (&m, &d, &t->m) && m == 1)
    status = root_of_number (&root, &t->q, index);
  else
    {
      status = br__term_square (&square, t);
      if (status == BR_OK)
        status = root_of_number (&root, &square, 2 * index);
    }
  if (status == BR_OK && t->k != 0)
    {
      status = br_number_set_int (&exponent, t->k / (int64_t) index);
      if (status == BR_OK)
        status = br_real_pi (&power);
      if (status == BR_OK)
        status = br_real_pow (&power, &power, &exponent, 0);
      if (status == BR_OK)
        status = br_real_mul (&root, &root, &power);
    }
  if (status == BR_OK)
    br__real_move (z, &root);
  br_number_clear (&exponent);
  br_number_clear (&square);
  br_real_clear (&power);
  br_real_clear (&root);
  return status;
}

/* sqrt (a + b) for a rational a > |b| of which a^2 - b^2 is the square of a rational s: it is
   sqrt ((a + s) / 2) plus or minus, by the sign of b, sqrt ((a - s) / 2), as squaring shows.  BR__LEAVE
   for any other pair.  */
static br_status
sqrt_of_pair (br_real *z, const br__term *a, const br__term *b)
{
  br_real first = BR_REAL_ZERO, second = BR_REAL_ZERO;
  br_number s = BR_NUMBER_ZERO, part = BR_NUMBER_ZERO, two = BR_NUMBER_ZERO;
  int exact = 0;
  br_status status = br__term_square (&s, a);

  if (status == BR_OK)
    status = br__term_square (&part, b);
  if (status == BR_OK)
    status = br_number_sub (&s, &s, &part);
  /* Over zero as it is, and |a| > |b|: then a is over zero as well.  */
  if (status == BR_OK && br_number_sign (&s) > 0)
    status = br__number_root (&s, &exact, &s, 2);
  if (status == BR_OK && !exact)
    status = BR__LEAVE;
  if (status == BR_OK)
    status = br_number_set_int (&two, 2);
  if (status == BR_OK)
    status = br_number_add (&part, &a->q, &s);
  if (status == BR_OK)
    status = br_number_div (&part, &part, &two);
  if (status == BR_OK)
    status = root_of_number (&first, &part, 2);
  if (status == BR_OK)
    status = br_number_sub (&part, &part, &s);
  if (status == BR_OK)
    status = root_of_number (&second, &part, 2);
  if (status == BR_OK)
    status = br_number_sign (&b->q) > 0 ? br_real_add (z, &first, &second)
                                        : br_real_sub (z, &first, &second);
  br_number_clear (&two);
  br_number_clear (&part);
  br_number_clear (&s);
  br_real_clear (&second);
  br_real_clear (&first);
  return status;
}

static int
is_rational (const br__term *t)
{
  int64_t m, d;

  return t->k == 0 && br_number_get_ratio (&m, &d, &t->m) && m == 1;
}

br_status
br__real_root (br_real *z, const br_real *x, unsigned index)
{
  br__term room;
  br_real seen;
  size_t size = 0;
  br_status status = br__real_ask (x, BR__GLANCE, 0);

  if (status != BR_OK)
    return status;
  x = br__real_seen (&seen, x);
  const br__term *t = br__terms (&size, x, &room);
  status = BR__LEAVE;
  if (size == 0 && t != NULL)
    return br_real_set (z, x);
  if (x->node == NULL)
    return root_of_number (z, &x->rational, index);
  if (t != NULL && size == 1)
    status = root_of_term (z, t, index);
  else if (t != NULL && size == 2 && index == 2 && t[0].k == t[1].k)
    {
      if (is_rational (&t[0]))
        status = sqrt_of_pair (z, &t[0], &t[1]);
      else if (is_rational (&t[1]))
        status = sqrt_of_pair (z, &t[1], &t[0]);
    }
  if (status == BR__LEAVE)
    status = br__real_formula (z, BR__REAL_ROOT, x, NULL, index);
  return status;
}
