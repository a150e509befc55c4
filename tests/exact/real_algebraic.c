/* SPDX-License-Identifier: GPL-3.0-or-later
   real_algebraic.c - random algebraic values against FLINT's exact algebraic numbers: which are zero, which are
   fractions, which are equal, and the signs of the others.  Built where FLINT has such numbers.

   2,000 values; the long run is BR_TEST_FACTOR=10.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real_check.h"

#ifdef HAVE_FLINT_QQBAR_H
# include <flint/qqbar.h>
#else
# include <calcium/qqbar.h>
#endif
#include <flint/fmpq.h>

#define STACK 8
#define DEGREE_MOST 60          /* FLINT takes long over larger ones; those values are left out */

typedef struct twin
{
  qqbar_t value[STACK];
  size_t size;
  char words[512];
} twin;

static int
fits (const twin *t)
{
  return qqbar_degree (t->value[t->size - 1]) <= DEGREE_MOST;
}

static void
put_word (twin *t, const char *word)
{
  snprintf (t->words + strlen (t->words), sizeof t->words - strlen (t->words), "%s%s", t->words[0] ? " " : "", word);
}

/* A whole number, a fraction, or a sine, cosine or tangent of a fraction of a turn of which the degree is low.  */
static void
put_value (twin *t)
{
  static const int parts[] = { 5, 8, 9, 10, 12, 15, 16, 18, 20, 24 };
  ulong q = (ulong) parts[check_below (CHECK_COUNT (parts))];
  slong p = check_between (1, (int64_t) q - 1);
  qqbar_struct *z = t->value[t->size++];
  char word[64];

  switch (check_below (5))
    {
    case 0:
      p = check_between (1, 12);
      snprintf (word, sizeof word, "%ld", (long) p);
      qqbar_set_si (z, p);
      break;
    case 1:
      snprintf (word, sizeof word, "%ld/%lu", (long) p, (unsigned long) q);
      qqbar_set_si (z, p);
      qqbar_div_ui (z, z, q);
      break;
    case 2:
      snprintf (word, sizeof word, "%ld/%lu sin", (long) p * 180, (unsigned long) q);
      qqbar_sin_pi (z, p, q);
      break;
    case 3:
      snprintf (word, sizeof word, "%ld/%lu cos", (long) p * 180, (unsigned long) q);
      qqbar_cos_pi (z, p, q);
      break;
    default:
      if (2 * (ulong) p == q)
        p = 1;
      snprintf (word, sizeof word, "%ld/%lu tan", (long) p * 180, (unsigned long) q);
      qqbar_tan_pi (z, p, q);
      break;
    }
  put_word (t, word);
}

static void
apply_two (twin *t)
{
  qqbar_struct *y = t->value[t->size - 1], *x = t->value[t->size - 2];
  int operation = (int) check_below (4);

  if (operation == 3 && qqbar_is_zero (y))
    operation = 0;
  put_word (t, (const char *const[]) { "+", "-", "*", "/" }[operation]);
  switch (operation)
    {
    case 0: qqbar_add (x, x, y); break;
    case 1: qqbar_sub (x, x, y); break;
    case 2: qqbar_mul (x, x, y); break;
    default: qqbar_div (x, x, y); break;
    }
  t->size--;
}

static void
apply_one (twin *t)
{
  qqbar_struct *x = t->value[t->size - 1];

  switch (check_below (4))
    {
    case 0:
      put_word (t, "dup *");
      qqbar_mul (x, x, x);
      break;
    case 1:
      put_word (t, "neg");
      qqbar_neg (x, x);
      break;
    case 2:
      put_word (t, "abs sqrt");
      qqbar_abs (x, x);
      qqbar_sqrt (x, x);
      break;
    default:
      /* The cube root of a value under 0 is real.  */
      put_word (t, "1/3 ^");
      int sign = qqbar_sgn_re (x);
      qqbar_abs (x, x);
      qqbar_root_ui (x, x, 3);
      if (sign < 0)
        qqbar_neg (x, x);
      break;
    }
}

/* One value with its words; 0 where its degree grew too large.  */
static int
make (twin *t)
{
  t->size = 0;
  t->words[0] = 0;
  put_value (t);
  for (int i = (int) check_below (7); i > 0; i--)
    {
      if (t->size > 1 && check_below (2) != 0)
        apply_two (t);
      else if (t->size < 4 && check_below (3) != 0)
        put_value (t);
      else
        apply_one (t);
      if (!fits (t) || (t->size > 1 && qqbar_degree (t->value[t->size - 1]) * qqbar_degree (t->value[t->size - 2]) > DEGREE_MOST))
        return 0;
    }
  while (t->size > 1)
    {
      apply_two (t);
      if (!fits (t) || (t->size > 1 && qqbar_degree (t->value[t->size - 1]) * qqbar_degree (t->value[t->size - 2]) > DEGREE_MOST))
        return 0;
    }
  return 1;
}

static void
check_value (twin *t)
{
  br_real x = real_of (t->words);
  int sign = 9;

  check_ok (br_real_sign (&sign, &x, 0));
  if (sign != qqbar_sgn_re (t->value[0]))
    fail_msg ("%s: sign %d", t->words, sign);
  if (qqbar_is_rational (t->value[0]) != (br_real_rational (&x) != NULL))
    fail_msg ("%s: %s", t->words, br_real_rational (&x) != NULL ? "no fraction" : "a fraction");
  assert_null (br_real_question (&x, NULL));
  if (br_real_rational (&x) != NULL)
    {
      fmpq_t q;
      fmpq_init (q);
      qqbar_get_fmpq (q, t->value[0]);
      char *right = fmpq_get_str (NULL, 10, q);
      check_is (br_real_rational (&x), right);
      flint_free (right);
      fmpq_clear (q);
    }
  br_real_clear (&x);
}

static void
test_values (void **state)
{
  twin t[2];
  long equal = 0, rational = 0, made = 0;

  (void) state;
  for (int i = 0; i < 2; i++)
    for (size_t j = 0; j < STACK; j++)
      qqbar_init (t[i].value[j]);
  for (long n = check_times (2000); n > 0; n--)
    {
      br_real x = BR_REAL_ZERO, y = BR_REAL_ZERO;
      int order = 9;

      if (!make (&t[0]) || !make (&t[1]))
        continue;
      made++;
      check_value (&t[0]);
      rational += qqbar_is_rational (t[0].value[0]);
      x = real_of (t[0].words);
      y = real_of (t[1].words);
      check_ok (br_real_cmp (&order, &x, &y, 0));
      if ((order == 0) != qqbar_equal (t[0].value[0], t[1].value[0]))
        fail_msg ("%s against %s: %d", t[0].words, t[1].words, order);
      equal += order == 0;
      br_real_clear (&x);
      br_real_clear (&y);
    }
  print_message ("%ld values, %ld rational, %ld pairs equal\n", made, rational, equal);
  assert_true (made > 100 && rational > made / 20);
  for (int i = 0; i < 2; i++)
    for (size_t j = 0; j < STACK; j++)
      qqbar_clear (t[i].value[j]);
  flint_cleanup ();
}

int
main (void)
{
  const struct CMUnitTest tests[] = { CHECK_TEST (test_values) };

  return CHECK_RUN (tests);
}
