/* SPDX-License-Identifier: GPL-3.0-or-later
   real_check.h - real values for the tests, written as a row of words for a stack machine, and a twin of
   the machine on plain MPFR at 2,000 bits, which knows nothing of the lanes of the library.

   Words: a rational such as 3/8 goes on the stack; pi; + - * / take two; ^ takes a value and a rational
   exponent; sqrt sin cos tan atan asin neg abs take one; dup and swap as usual.  */
#ifndef BR_TESTS_EXACT_REAL_CHECK_H
#define BR_TESTS_EXACT_REAL_CHECK_H

#include "check.h"

#include <mpfr.h>

#include "exact/real.h"

/* 2 sin x cos x - sin 2x for the irrational x of sqrt 2 degrees: 0, and no proof of ours finds it.  */
#define OPEN_ZERO "2 sqrt sin 2 sqrt cos * 2 * 8 sqrt sin -"

#define REAL_STACK 16
#define ORACLE_BITS 2000

typedef struct real_stack
{
  br_real value[REAL_STACK];
  size_t size;
  unsigned bits;
} real_stack;

#define REAL_STACK_ZERO { { BR_REAL_ZERO }, 0, 0 }

CHECK_UNUSED static void
real_stack_clear (real_stack *s)
{
  for (size_t i = 0; i < REAL_STACK; i++)
    br_real_clear (&s->value[i]);
  s->size = 0;
}

CHECK_UNUSED static br_status
real_apply_one (real_stack *s, const char *word)
{
  br_real *x = &s->value[s->size - 1];

  if (strcmp (word, "sqrt") == 0)
    return br_real_sqrt (x, x, s->bits);
  if (strcmp (word, "sin") == 0)
    return br_real_sin (x, x);
  if (strcmp (word, "cos") == 0)
    return br_real_cos (x, x);
  if (strcmp (word, "tan") == 0)
    return br_real_tan (x, x, s->bits);
  if (strcmp (word, "atan") == 0)
    return br_real_atan (x, x);
  if (strcmp (word, "asin") == 0)
    return br_real_asin (x, x, s->bits);
  if (strcmp (word, "neg") == 0)
    return br_real_neg (x, x);
  if (strcmp (word, "abs") == 0)
    return br_real_abs (x, x, s->bits);
  fail_msg ("no such word: %s", word);
  return BR_SYNTAX;
}

CHECK_UNUSED static br_status
real_apply_two (real_stack *s, char word)
{
  br_real *y = &s->value[s->size - 1], *x = y - 1;
  br_status status = BR_SYNTAX;

  s->size--;
  switch (word)
    {
    case '+': status = br_real_add (x, x, y); break;
    case '-': status = br_real_sub (x, x, y); break;
    case '*': status = br_real_mul (x, x, y); break;
    case '/': status = br_real_div (x, x, y, s->bits); break;
    case '^':
      assert_non_null (br_real_rational (y));
      status = br_real_pow (x, x, br_real_rational (y), s->bits);
      break;
    default: break;
    }
  return status;
}

/* Runs one word.  */
CHECK_UNUSED static br_status
real_word (real_stack *s, const char *word)
{
  br_number n = BR_NUMBER_ZERO;
  br_status status;

  if (strchr ("+-*/^", word[0]) != NULL && word[1] == 0)
    return real_apply_two (s, word[0]);
  if (strcmp (word, "swap") == 0)
    {
      br_real t = s->value[s->size - 1];
      s->value[s->size - 1] = s->value[s->size - 2];
      s->value[s->size - 2] = t;
      return BR_OK;
    }
  assert_true (s->size < REAL_STACK);
  if (strcmp (word, "dup") == 0)
    return s->size++, br_real_set (&s->value[s->size - 1], &s->value[s->size - 2]);
  if (strcmp (word, "pi") == 0)
    return br_real_pi (&s->value[s->size++]);
  if (strchr ("-0123456789", word[0]) == NULL)
    return real_apply_one (s, word);
  status = br_number_read (&n, word, strlen (word), NULL);
  if (status == BR_OK)
    status = br_real_set_number (&s->value[s->size++], &n);
  br_number_clear (&n);
  return status;
}

/* Z = the value that WORDS leave; the first status that is not BR_OK ends the run.  */
CHECK_UNUSED static br_status
real_run (br_real *z, const char *words, unsigned bits)
{
  real_stack s = REAL_STACK_ZERO;
  char copy[1024], *rest = copy, *word;
  br_status status = BR_OK;

  assert_true (strlen (words) < sizeof copy);
  strcpy (copy, words);
  s.bits = bits;
  while (status == BR_OK && (word = strtok_r (rest, " ", &rest)) != NULL)
    status = real_word (&s, word);
  if (status == BR_OK)
    {
      assert_int_equal (s.size, 1);
      br__real_move (z, &s.value[0]);
    }
  real_stack_clear (&s);
  return status;
}

CHECK_UNUSED static br_real
real_of (const char *words)
{
  br_real z = BR_REAL_ZERO;
  br_status status = real_run (&z, words, 0);

  if (status != BR_OK)
    fail_msg ("%s: %s", words, br_status_name (status));
  return z;
}

CHECK_UNUSED static void
check_status (const char *words, br_status right)
{
  br_real z = BR_REAL_ZERO;
  br_status status = real_run (&z, words, 0);

  if (status != right)
    fail_msg ("%s: %s where %s was right", words, br_status_name (status), br_status_name (right));
  assert_true (br__real_is_int (&z, 0));
  br_real_clear (&z);
}

/* WORDS give a rational, in the lane of rationals: RIGHT.  */
CHECK_UNUSED static void
check_rational (const char *words, const char *right)
{
  br_real z = real_of (words);

  if (br_real_rational (&z) == NULL)
    fail_msg ("%s: not known to be rational, where %s was right", words, right);
  check_is (br_real_rational (&z), right);
  br_real_clear (&z);
}

/* WORDS give a value that is not rational, with RIGHT as its first DIGITS digits, rounded.  */
CHECK_UNUSED static void
check_digits (const char *words, unsigned digits, const char *right)
{
  br_real z = real_of (words);
  br_status status = BR_OK;
  char text[600];
  int whole = 9;

  br_real_write_decimal (text, sizeof text, &whole, &z, digits, 0, &status);
  check_ok (status);
  if (br_real_rational (&z) != NULL || whole != 0 || strcmp (text, right) != 0)
    fail_msg ("%s: %s where %s was right", words, text, right);
  br_real_clear (&z);
}

/* ---- The twin ---- */

typedef struct twin_stack
{
  mpfr_t value[REAL_STACK];
  size_t size;
} twin_stack;

CHECK_UNUSED static void
twin_init (twin_stack *s)
{
  for (size_t i = 0; i < REAL_STACK; i++)
    mpfr_init2 (s->value[i], ORACLE_BITS);
  s->size = 0;
}

CHECK_UNUSED static void
twin_clear (twin_stack *s)
{
  for (size_t i = 0; i < REAL_STACK; i++)
    mpfr_clear (s->value[i]);
}

/* X times pi / 180, or back.  */
CHECK_UNUSED static void
twin_angle (mpfr_t x, int back)
{
  mpfr_t pi;

  mpfr_init2 (pi, ORACLE_BITS);
  mpfr_const_pi (pi, MPFR_RNDN);
  if (back)
    {
      mpfr_mul_ui (x, x, 180, MPFR_RNDN);
      mpfr_div (x, x, pi, MPFR_RNDN);
    }
  else
    {
      mpfr_mul (x, x, pi, MPFR_RNDN);
      mpfr_div_ui (x, x, 180, MPFR_RNDN);
    }
  mpfr_clear (pi);
}

CHECK_UNUSED static void
twin_circular (mpfr_t x, const char *word)
{
  int arc = word[0] == 'a';

  if (!arc)
    twin_angle (x, 0);
  if (strcmp (word, "sin") == 0)
    mpfr_sin (x, x, MPFR_RNDN);
  else if (strcmp (word, "cos") == 0)
    mpfr_cos (x, x, MPFR_RNDN);
  else if (strcmp (word, "tan") == 0)
    mpfr_tan (x, x, MPFR_RNDN);
  else if (strcmp (word, "atan") == 0)
    mpfr_atan (x, x, MPFR_RNDN);
  else
    mpfr_asin (x, x, MPFR_RNDN);
  if (arc)
    twin_angle (x, 1);
}

CHECK_UNUSED static void
twin_word (twin_stack *s, const char *word)
{
  mpfr_ptr y = s->size > 0 ? s->value[s->size - 1] : NULL;
  mpfr_ptr x = s->size > 1 ? s->value[s->size - 2] : NULL;
  mpq_t q;

  if (strchr ("+-*/^", word[0]) != NULL && word[1] == 0)
    {
      s->size--;
      switch (word[0])
        {
        case '+': mpfr_add (x, x, y, MPFR_RNDN); break;
        case '-': mpfr_sub (x, x, y, MPFR_RNDN); break;
        case '*': mpfr_mul (x, x, y, MPFR_RNDN); break;
        case '/': mpfr_div (x, x, y, MPFR_RNDN); break;
        default: mpfr_pow (x, x, y, MPFR_RNDN); break;
        }
    }
  else if (strcmp (word, "dup") == 0)
    mpfr_set (s->value[s->size++], y, MPFR_RNDN);
  else if (strcmp (word, "swap") == 0)
    mpfr_swap (x, y);
  else if (strcmp (word, "pi") == 0)
    mpfr_const_pi (s->value[s->size++], MPFR_RNDN);
  else if (strchr ("-0123456789", word[0]) != NULL)
    {
      mpq_init (q);
      mpq_set_str (q, word, 10);
      mpfr_set_q (s->value[s->size++], q, MPFR_RNDN);
      mpq_clear (q);
    }
  else if (strcmp (word, "sqrt") == 0)
    mpfr_sqrt (y, y, MPFR_RNDN);
  else if (strcmp (word, "neg") == 0)
    mpfr_neg (y, y, MPFR_RNDN);
  else if (strcmp (word, "abs") == 0)
    mpfr_abs (y, y, MPFR_RNDN);
  else
    twin_circular (y, word);
}

#endif
