/* SPDX-License-Identifier: GPL-3.0-or-later
   number_narrow.c - the inline form of numbers, proved by counting: lib/exact/number.c and number_round.c compiled for
   words of 8 bits, where there are 19,831 fractions, and every pair of them held against plain whole numbers.  The
   sources are those of the library, word for word: the names of <stdint.h> stand for narrow types while they are read.

   Not compiled so:
   - number_big.c, number_gmp.c, and round_big of number_round.c: a number past the inline form keeps a pointer in its
     word, which no narrow word holds.  What the inline form hands over to them is compared here, operation and operands;
     their answers are GMP's, and tests/exact/number compares them with mpq.
   - number_text.c, number_decimal.c, digits.h: eighteen digits lie in a word, and their tables go up to 10^19.
   - number_root.c: its mask of the squares is a word of 64 bits.
   - wide.h by two words: its halves have 32 bits; tests/exact/wide_words has that.
   What a narrow build does not show: C widens a narrow word to int inside an expression, so that a step of one that runs
   over and comes back is not seen.  At the full width the sanitizers look for those.

   With a BR_TEST_FACTOR below 1 each thirteenth denominator is taken against all others.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <gmp.h>

/* ---- The sources of the library, for words of 8 bits ---- */

#define int64_t int8_t
#define uint64_t uint8_t
#undef INT64_MAX
#undef INT64_MIN
#undef INT64_C
#undef UINT64_C
#define INT64_MAX INT8_MAX
#define INT64_MIN INT8_MIN
#define INT64_C(n) ((int8_t) (n))
#define UINT64_C(n) ((uint8_t) (n))
/* The word of double width, for wide.h; and any limb holds a narrow word.  */
#undef __SIZEOF_INT128__
#define __SIZEOF_INT128__ 2
#define __int128 short
#undef GMP_NUMB_BITS
#define GMP_NUMB_BITS 64

#include "exact/number.c"
#include "exact/number_round.c"

#undef int64_t
#undef uint64_t

#define WORD INT8_MAX

_Static_assert (sizeof (br_number) == 2, "a number of two narrow words");
_Static_assert (sizeof (br__wide) == 2, "a double word is twice a word");

/* ---- What lies past the inline form: noted, not computed ---- */

/* NUM / DEN, DEN over 0, is what was handed over last.  */
static struct
{
  int calls, num, den;
} handed;

br_status
br__big_operate (br_number *z, br__operation operation, const br_number *x, const br_number *y)
{
  int a = x->num, b = x->den_minus_1 + 1, c = y->num, d = y->den_minus_1 + 1;
  (void) z;
  handed.calls++;
  handed.den = operation == BR__DIV ? b * abs (c) : b * d;
  switch (operation)
    {
    case BR__ADD: handed.num = a * d + c * b; break;
    case BR__SUB: handed.num = a * d - c * b; break;
    case BR__MUL: handed.num = a * c; break;
    case BR__DIV: handed.num = c < 0 ? - a * d : a * d; break;
    }
  return BR_TOO_BIG;
}

br_status
br__big_pow (br_number *z, const br_number *x, int8_t n)
{
  (void) z, (void) x, (void) n;
  handed.calls++;
  return BR_TOO_BIG;
}

/* Nothing here is in heap form, so that these are never reached.  */
static br_status
not_inline (void)
{
  fail_msg ("an inline number was taken for one on the heap");
  return BR_TOO_BIG;
}

br_status
br__big_copy (br_number *z, const br_number *x, int negate)
{
  (void) z, (void) x, (void) negate;
  return not_inline ();
}

int
br__big_cmp (const br_number *x, const br_number *y)
{
  (void) x, (void) y;
  return not_inline ();
}

int
br__big_check (const br_number *x)
{
  (void) x;
  return 0;
}

size_t
br__number_bits (const br_number *x)
{
  (void) x;
  not_inline ();
  return 0;
}

int
br__number_room (size_t bits)
{
  (void) bits;
  return not_inline () == BR_OK;
}

mpq_srcptr
br__number_view (br__view *view, const br_number *x)
{
  (void) x;
  not_inline ();
  return view->q;
}

br_status
br__number_take (br_number *z, mpq_srcptr q)
{
  (void) z, (void) q;
  return not_inline ();
}

void
br__free (void *block)
{
  (void) block;
  not_inline ();
}

/* ---- Plain whole numbers ---- */

#define MOST_SUM (2 * WORD * WORD)

/* divisor[n] is the greatest common divisor of n and the denominator that was filled in last.  */
static uint16_t divisor[MOST_SUM + 1];

static int
plain_gcd (int a, int b)
{
  while (b != 0)
    {
      int rest = a % b;
      a = b;
      b = rest;
    }
  return a;
}

static void
fill_divisors (int den)
{
  for (int n = 0; n <= MOST_SUM; n++)
    divisor[n] = 1;
  for (int k = 2; k <= den; k++)
    if (den % k == 0)
      for (int n = 0; n <= MOST_SUM; n += k)
        divisor[n] = (uint16_t) k;
}

/* 1 where Z, from STATUS, is NUM / DEN as divisor[] of DEN knows it, or was handed over whole.  SKIPPED: a value that fits
   may be handed over.  */
static inline int
agrees (const br_number *z, br_status status, int num, int den, int skipped)
{
  int common = divisor[num < 0 ? - num : num];
  int fits = abs (num) <= WORD * common && den <= WORD * common;
  if (status == BR_OK)
    return fits && handed.calls == 0 && z->num * common == num && (z->den_minus_1 + 1) * common == den;
  int whole = handed.calls == 1 && handed.num * den == num * handed.den;
  handed.calls = 0;
  return status == BR_TOO_BIG && whole && (!fits || skipped) && z->num == 99 && z->den_minus_1 == 99;
}

static inline int
is_binary (int n)
{
  return (n & (n - 1)) == 0;
}

/* The name of an operation that fails on U / P and V / Q, or NULL.  */
static inline const char *
wrong_of_pair (int u, int p, int v, int q)
{
  const br_number x = { (int8_t) u, (int8_t) (p - 1) }, y = { (int8_t) v, (int8_t) (q - 1) }, kept = { 99, 99 };
  /* 1 over Y: divided by it, X is what the product is.  */
  const br_number over = { (int8_t) (v < 0 ? - q : q), (int8_t) (abs (v) - 1) };
  /* A sum over two powers of two is given up where the part with the smaller one runs over, before the other is added.  */
  int binary = is_binary (p) && is_binary (q), order = (u * q > v * p) - (u * q < v * p);
  br_number z = kept;
  if (!agrees (&z, br_number_add (&z, &x, &y), u * q + v * p, p * q, binary))
    return "+";
  z = kept;
  if (!agrees (&z, br_number_sub (&z, &x, &y), u * q - v * p, p * q, binary))
    return "-";
  z = kept;
  if (!agrees (&z, br_number_mul (&z, &x, &y), u * v, p * q, 0))
    return "*";
  z = kept;
  if (v != 0 && !agrees (&z, br_number_div (&z, &x, &over), u * v, p * q, 0))
    return "/ 1 /";
  int answer = br_number_cmp (&x, &y);
  if ((answer > 0) - (answer < 0) != order || br_number_equal (&x, &y) != (order == 0))
    return "against";
  return NULL;
}

/* lowest[p][i]: the numerators of the fractions over P, counts[p] of them.  */
static int8_t lowest[WORD + 1][2 * WORD + 1];
static int counts[WORD + 1];

static void
find_fractions (void)
{
  for (int p = 1; p <= WORD; p++)
    for (int u = - WORD; u <= WORD; u++)
      if (plain_gcd (abs (u), p) == 1)
        lowest[p][counts[p]++] = (int8_t) u;
}

/* Every fraction over P with every one over Q, in both orders.  */
static void
check_denominators (int p, int q)
{
  fill_divisors (p * q);
  for (int i = 0; i < counts[p]; i++)
    for (int k = 0; k < counts[q]; k++)
      {
        int u = lowest[p][i], v = lowest[q][k];
        const char *wrong = wrong_of_pair (u, p, v, q);
        if (wrong)
          fail_msg ("%d/%d %s %d/%d", u, p, wrong, v, q);
        if (p != q && (wrong = wrong_of_pair (v, q, u, p)))
          fail_msg ("%d/%d %s %d/%d", v, q, wrong, u, p);
      }
}

/* Each denominator, or one of 13 where the build runs many times slower, or random tests are shorter, too.  */
static int
step (void)
{
  const char *factor = getenv ("BR_TEST_FACTOR"), *flags = getenv ("SAN_FLAGS");
  return (factor && strchr (factor, '/')) || (flags && *flags) ? 13 : 1;
}

static void
test_every_pair (void **state)
{
  (void) state;
  int total = 0;
  for (int p = 1; p <= WORD; p++)
    total += counts[p];
  assert_int_equal (total, 19831);
  for (int p = 1; p <= WORD; p += step ())
    for (int q = p; q <= WORD; q++)
      check_denominators (p, q);
}

/* ---- One number, or two words ---- */

/* What the definition says of the whole number NEAR for NUM / DEN, TIE at half way.  */
static int
is_rounded (int near, int tie, int num, int den, br_direction direction, br_ties ties)
{
  int twice = 2 * (near * den - num), half = abs (twice) == den;
  if (num % den == 0)
    return twice == 0 && !tie;
  if (direction != BR_NEAREST)
    return !tie && abs (twice) < 2 * den && (direction == BR_UP) == (twice > 0);
  if (abs (twice) > den || tie != half)
    return 0;
  return !half || (ties == BR_TIES_EVEN ? near % 2 == 0 : (ties == BR_TIES_UP) == (abs (near) * den > abs (num)));
}

static void
check_round (int num, int den, br_direction direction, br_ties ties)
{
  int8_t off = 99;
  int tie = 99;
  int near = br__round_ratio (&off, &tie, (int8_t) num, (int8_t) den, direction, ties);
  if (!is_rounded (near, tie, num, den, direction, ties) || off != near * den - num)
    fail_msg ("%d/%d in direction %d, ties %d: %d", num, den, (int) direction, (int) ties, near);
  if (plain_gcd (abs (num), den) != 1)
    return;
  br_number z = { (int8_t) num, (int8_t) (den - 1) };
  int found = 99;
  assert_int_equal (br_number_round (&z, &found, &z, direction, ties), BR_OK);
  if (z.num != near || z.den_minus_1 != 0 || found != tie)
    fail_msg ("the number %d/%d in direction %d, ties %d: %d", num, den, (int) direction, (int) ties, z.num);
}

/* Every numerator over every denominator, in lowest terms or not.  */
static void
test_every_rounding (void **state)
{
  (void) state;
  for (int den = 1; den <= WORD; den++)
    for (int num = - WORD; num <= WORD; num++)
      for (int direction = BR_NEAREST; direction <= BR_DOWN; direction++)
        for (int ties = BR_TIES_UP; ties <= BR_TIES_EVEN; ties++)
          check_round (num, den, (br_direction) direction, (br_ties) ties);
}

/* Every ratio of two words: also the one word that has no opposite, and over zero.  */
static void
test_every_ratio (void **state)
{
  (void) state;
  for (int n = INT8_MIN; n <= INT8_MAX; n++)
    for (int d = INT8_MIN; d <= INT8_MAX; d++)
      {
        br_number z = { 99, 99 };
        br_status status = br_number_set_ratio (&z, (int8_t) n, (int8_t) d);
        if (d == 0)
          {
            assert_int_equal (status, BR_DOMAIN);
            continue;
          }
        fill_divisors (abs (d));
        if (!agrees (&z, status, d < 0 ? - n : n, abs (d), 0))
          fail_msg ("%d/%d", n, d);
      }
}

/* Whether a pair of words is a number in the one form that it must have.  */
static void
test_every_form (void **state)
{
  (void) state;
  for (int n = INT8_MIN; n <= INT8_MAX; n++)
    for (int d = INT8_MIN; d <= INT8_MAX; d++)
      {
        const br_number x = { (int8_t) n, (int8_t) d };
        int good = n >= - WORD && d >= 0 && d < WORD && plain_gcd (abs (n), d + 1) == 1;
        if (br_number_check (&x) != good)
          fail_msg ("%d over %d + 1", n, d);
      }
}

static void
check_alone (int u, int p)
{
  const br_number x = { (int8_t) u, (int8_t) (p - 1) };
  br_number z = { 99, 99 };
  int8_t num, den;
  assert_int_equal (br_number_sign (&x), (u > 0) - (u < 0));
  assert_int_equal (br_number_is_integer (&x), p == 1);
  assert_true (br_number_get_ratio (&num, &den, &x) && num == u && den == p);
  assert_int_equal (br_number_neg (&z, &x), BR_OK);
  assert_true (z.num == - u && z.den_minus_1 == p - 1);
  assert_int_equal (br_number_abs (&z, &x), BR_OK);
  assert_true (z.num == abs (u) && z.den_minus_1 == p - 1);
  const br_number zero = BR_NUMBER_ZERO;
  assert_int_equal (br_number_div (&z, &x, &zero), BR_DOMAIN);
  assert_true (z.num == abs (u) && z.den_minus_1 == p - 1);
}

/* A or B to the N: what is past a word stays past it.  */
static int
plain_power (int a, int n)
{
  int power = 1;
  while (n-- > 0)
    power = abs (power) > WORD && abs (a) > 1 ? power : power * a;
  return power;
}

/* (U / P)^N, for an N of either sign.  */
static void
check_power (int u, int p, int n)
{
  const br_number x = { (int8_t) u, (int8_t) (p - 1) };
  br_number z = { 99, 99 };
  br_status status = br_number_pow (&z, &x, (int8_t) n);
  int num = plain_power (n < 0 ? (u < 0 ? - p : p) : u, abs (n)), den = plain_power (n < 0 ? abs (u) : p, abs (n));
  int handed_over = handed.calls == 1;
  handed.calls = 0;
  if (u == 0 && n < 0)
    assert_int_equal (status, BR_DOMAIN);
  else if (abs (num) > WORD || den > WORD)
    assert_true (status == BR_TOO_BIG && handed_over && z.num == 99);
  else if (status != BR_OK || handed_over || z.num != num || z.den_minus_1 + 1 != den)
    fail_msg ("(%d/%d)^%d: %d/%d", u, p, n, z.num, z.den_minus_1 + 1);
}

static void
test_every_number (void **state)
{
  (void) state;
  for (int p = 1; p <= WORD; p++)
    for (int i = 0; i < counts[p]; i++)
      {
        check_alone (lowest[p][i], p);
        for (int n = INT8_MIN; n <= INT8_MAX; n++)
          check_power (lowest[p][i], p, n);
      }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_pair), cmocka_unit_test (test_every_rounding),
    cmocka_unit_test (test_every_ratio), cmocka_unit_test (test_every_form),
    cmocka_unit_test (test_every_number),
  };
  find_fractions ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
