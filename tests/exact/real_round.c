/* SPDX-License-Identifier: GPL-3.0-or-later
   real_round.c - marks, digits and ends are right: cases a hair beside a boundary, exact ties, and random
   formulas against MPFR at 2,000 bits.

   The random test takes 5,000 formulas; the long run is BR_TEST_FACTOR=20 (100,000 formulas).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real_check.h"

static const char *const marks[] =
{
  "1", "1/2", "1/4", "1/8", "1/16", "1/32", "1/64", "5/127", "1/254", "1/10", "3/7"
};

static void
random_mark (br_number *step)
{
  const char *text = marks[check_below (CHECK_COUNT (marks))];

  check_set (step, text);
}

/* ---- Hard cases, made through the inverse ---- */

/* How a value beside H is made: root of a square and of a cube with 10^-60 more or less, and 10^-60 times pi,
   times a sine (of 7^(1/3) degrees, over zero) or times a tangent more or less.  */
enum { BY_SQUARE, BY_CUBE, BY_PI, BY_SINE, BY_TANGENT, WAYS };

#define HAIR "1/1000000000000000000000000000000000000000000000000000000000000"

/* X = a value that lies within 10^-57 or so of H > 0, over it for SIDE 1 and under it for -1.  */
static void
make_beside (br_real *x, const br_number *h, int side, int way)
{
  static const struct { const char *before, *after; } ways[WAYS] =
  {
    { "2 ^ " HAIR, "1/2 ^" }, { "3 ^ " HAIR, "1/3 ^" }, { "pi " HAIR " *", "" },
    { "7 1/3 ^ sin " HAIR " *", "" }, { "88 tan " HAIR " *", "" }
  };
  char text[200], words[600];

  br_number_write (text, sizeof text, h);
  snprintf (words, sizeof words, "%s %s %c %s", text, ways[way].before, side > 0 ? '+' : '-', ways[way].after);
  *x = real_of (words);
  assert_null (br_real_rational (x));
}

/* X lies a hair beside K / 2 steps, K > 1: every direction, and the same below zero.  */
static void
check_beside (const br_real *x, int64_t k, const br_number *step, int side)
{
  br_real negative = BR_REAL_ZERO;
  br_number right = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO, half = BR_NUMBER_ZERO;
  char text[200];

  check_ok (br_real_neg (&negative, x));
  for (int direction = 0; direction < 3; direction++)
    for (int sign = 1; sign >= -1; sign -= 2)
      {
        /* Where |x| goes, by hand: k / 2 rounded, k odd at a half mark and even at a mark.  */
        int64_t down = k % 2 != 0 ? k / 2 : side > 0 ? k / 2 : k / 2 - 1, steps = down;
        int tie = 9;

        if (direction == BR_NEAREST)
          steps = k % 2 == 0 ? k / 2 : side > 0 ? k / 2 + 1 : k / 2;
        else if ((direction == BR_UP) == (sign > 0))
          steps = down + 1;
        check_ok (br_number_set_int (&right, sign * steps));
        check_ok (br_number_mul (&right, &right, step));
        br_number_write (text, sizeof text, &right);
        check_ok (br_real_round (&mark, &tie, sign > 0 ? x : &negative, step, (br_direction) direction,
                                 (br_ties) check_below (3), 0));
        check_is (&mark, text);
        assert_int_equal (tie, 0);
      }
  br_real_clear (&negative);
  br_number_clear (&right);
  br_number_clear (&mark);
  br_number_clear (&half);
}

static void
test_beside_boundaries (void **state)
{
  (void) state;
  for (long n = check_times (100); n > 0; n--)
    for (int way = 0; way < WAYS; way++)
      {
        int64_t k = check_between (2, n % 2 != 0 ? 200 : 2000000000);
        int side = check_below (2) != 0 ? 1 : -1;
        br_number step = BR_NUMBER_ZERO, h = BR_NUMBER_ZERO;
        br_real x = BR_REAL_ZERO;

        random_mark (&step);
        check_ok (br_number_set_ratio (&h, k, 2));
        check_ok (br_number_mul (&h, &h, &step));
        make_beside (&x, &h, side, way);
        check_beside (&x, k, &step, side);
        br_real_clear (&x);
        br_number_clear (&h);
        br_number_clear (&step);
      }
}

/* At 100 bits a hair of 10^-60 cannot be seen, where it takes enclosures.  */
static void
test_limit (void **state)
{
  br_number step = BR_NUMBER_ZERO, h = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  br_real x = BR_REAL_ZERO;

  (void) state;
  check_set (&step, "1/16");
  check_set (&h, "37/32");
  for (int way = BY_CUBE; way < WAYS; way++)
    {
      make_beside (&x, &h, 1, way);
      assert_int_equal (br_real_round (&mark, NULL, &x, &step, BR_NEAREST, BR_TIES_UP, 100), BR_UNDECIDED);
      check_ok (br_real_round (&mark, NULL, &x, &step, BR_UP, BR_TIES_UP, 100));
      check_is (&mark, "19/16");
      check_ok (br_number_set_int (&mark, 0));
      check_ok (br_real_round (&mark, NULL, &x, &step, BR_NEAREST, BR_TIES_UP, 300));
      check_is (&mark, "19/16");
      br_real_clear (&x);
    }
  /* A root of a rational is decided by its square, which takes no bits at all.  */
  for (int side = -1; side <= 1; side += 2)
    {
      make_beside (&x, &h, side, BY_SQUARE);
      check_ok (br_real_round (&mark, NULL, &x, &step, BR_NEAREST, BR_TIES_UP, 32));
      check_is (&mark, side > 0 ? "19/16" : "9/8");
      br_real_clear (&x);
    }
  br_number_clear (&step);
  br_number_clear (&h);
  br_number_clear (&mark);
}

/* ---- Exact ties ---- */

static void
test_ties (void **state)
{
  static const struct { br_ties ties; const char *even_below, *odd_below; } rules[] =
  {
    { BR_TIES_UP, "1/254", "1/127" }, { BR_TIES_DOWN, "0", "1/254" }, { BR_TIES_EVEN, "0", "1/127" }
  };
  br_number step = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  int tie = 9;

  (void) state;
  check_set (&step, "1/254");             /* 1/10 mm in inches */
  for (size_t i = 0; i < CHECK_COUNT (rules); i++)
    {
      /* sqrt (1/258064) in is 0.05 mm, and three times that is 0.15 mm.  */
      br_real x = real_of ("1/258064 sqrt"), y = real_of ("2 sqrt 2 258064 / sqrt * 3 * 2 /");

      check_ok (br_real_round (&mark, &tie, &x, &step, BR_NEAREST, rules[i].ties, 0));
      check_is (&mark, rules[i].even_below);
      assert_int_equal (tie, 1);
      check_ok (br_real_round (&mark, &tie, &y, &step, BR_NEAREST, rules[i].ties, 0));
      check_is (&mark, rules[i].odd_below);
      assert_int_equal (tie, 1);
      check_ok (br_real_round (&mark, &tie, &y, &step, BR_UP, rules[i].ties, 0));
      check_is (&mark, "1/127");
      assert_int_equal (tie, 0);
      br_real_clear (&x);
      br_real_clear (&y);
    }
  br_number_clear (&step);
  br_number_clear (&mark);
}

/* Half marks squared and rooted again, cubed and rooted, over pi times pi: ties all.  */
static void
test_made_ties (void **state)
{
  static const char *const ways[] =
  {
    "2 ^ sqrt", "3 ^ 1/3 ^", "pi * pi /", "2 sqrt * 8 sqrt * 4 /", "30 sin * 2 *"
  };

  (void) state;
  for (long n = check_times (300); n > 0; n--)
    {
      int64_t k = 2 * check_between (0, 1000000) + 1;
      br_number step = BR_NUMBER_ZERO, h = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
      char text[100], words[200];
      br_real x = BR_REAL_ZERO;
      int tie = 9;

      random_mark (&step);
      check_ok (br_number_set_ratio (&h, k, 2));
      check_ok (br_number_mul (&h, &h, &step));
      br_number_write (text, sizeof text, &h);
      snprintf (words, sizeof words, "%s %s", text, ways[n % (long) CHECK_COUNT (ways)]);
      x = real_of (words);
      check_ok (br_real_round (&mark, &tie, &x, &step, BR_NEAREST, BR_TIES_DOWN, 0));
      assert_int_equal (tie, 1);
      check_ok (br_number_sub (&h, &h, &mark));
      check_ok (br_number_add (&h, &h, &h));
      assert_true (br_number_equal (&h, &step));
      br_real_clear (&x);
      br_number_clear (&step);
      br_number_clear (&h);
      br_number_clear (&mark);
    }
}

static void
test_bad_step (void **state)
{
  br_number step = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  br_real x[3] = { real_of ("2"), real_of ("2 sqrt"), real_of ("2 1/3 ^") };

  (void) state;
  for (int k = 0; k < 3; k++)
    {
      for (int i = 0; i >= -1; i--)
        {
          check_ok (br_number_set_int (&step, i));
          assert_int_equal (br_real_round (&mark, NULL, &x[k], &step, BR_UP, BR_TIES_UP, 0), BR_DOMAIN);
        }
      br_real_clear (&x[k]);
    }
}

/* ---- Random formulas against the twin ---- */

typedef struct machine
{
  real_stack ours;
  twin_stack twin;
  char words[1200];
} machine;

/* Runs WORD on both.  */
static void
both (machine *m, const char *word)
{
  size_t length = strlen (m->words);
  br_status status;

  snprintf (m->words + length, sizeof m->words - length, "%s ", word);
  status = real_word (&m->ours, word);
  if (status != BR_OK)
    fail_msg ("%s: %s", m->words, br_status_name (status));
  twin_word (&m->twin, word);
}

/* 1 where X is clear of zero and not so large that sizes get out of hand.  */
static int
is_moderate (mpfr_srcptr x)
{
  return mpfr_number_p (x) && !mpfr_zero_p (x) && mpfr_get_exp (x) > -60 && mpfr_get_exp (x) < 60;
}

static void
push_random (machine *m)
{
  static const char *const known[] = { "pi", "2 ", "3", "30", "45", "1/2", "127/5", "5/508", "15", "60" };
  br_number n = BR_NUMBER_ZERO;
  char text[64];

  if (check_below (3) == 0)
    {
      snprintf (text, sizeof text, "%s", known[check_below (CHECK_COUNT (known))]);
      both (m, check_trim (text));
      return;
    }
  check_shop_number (&n, 100);
  br_number_write (text, sizeof text, &n);
  both (m, text);
  br_number_clear (&n);
}

/* Something with the top of the stack that has a value there, by the twin's word.  */
static void
random_one (machine *m)
{
  static const char *const exponents[] = { "1/3", "2/3", "-1/2", "3/2", "1/4", "5/3" };
  mpfr_ptr top = m->twin.value[m->twin.size - 1];

  if (!is_moderate (top))
    {
      m->ours.size--;
      m->twin.size--;
      push_random (m);
      return;
    }
  switch (check_below (12))
    {
    case 0: case 1: case 2: case 3:
      both (m, "abs");
      both (m, "sqrt");
      break;
    case 4:
      both (m, "abs");
      both (m, exponents[check_below (CHECK_COUNT (exponents))]);
      both (m, "^");
      break;
    case 5: both (m, "sin"); break;
    case 6: both (m, "cos"); break;
    case 7: both (m, "atan"); break;
    case 8:
      if (mpfr_cmpabs_ui (top, 1) < 0)
        both (m, "asin");
      break;
    case 9:
      both (m, check_below (2) != 0 ? "2" : "-3");
      both (m, "^");
      break;
    case 10: both (m, "dup"); both (m, "*"); break;
    default: both (m, "neg"); break;
    }
}

static void
random_two (machine *m)
{
  static const char *const words[] = { "+", "-", "*", "/", "+", "-" };
  const char *word = words[check_below (CHECK_COUNT (words))];

  if (word[0] == '/' && !is_moderate (m->twin.value[m->twin.size - 1]))
    word = "*";
  both (m, word);
}

/* 1 where the twin's X is so near to Z that it may be it.  */
static int
may_be (mpfr_srcptr x, mpz_srcptr z)
{
  mpfr_t d;
  int near;

  mpfr_init2 (d, ORACLE_BITS);
  mpfr_sub_z (d, x, z, MPFR_RNDN);
  near = mpfr_zero_p (d) || mpfr_get_exp (d) < -(ORACLE_BITS - 300);
  mpfr_clear (d);
  return near;
}

/* RIGHT = the multiple of STEP for the twin's X.  0 where X may lie on a boundary.  */
static int
twin_round (mpz_t right, mpfr_srcptr x, mpq_srcptr step, int direction)
{
  mpfr_t s;
  mpz_t boundary;
  int clear;

  mpfr_init2 (s, ORACLE_BITS);
  mpz_init (boundary);
  mpfr_div_q (s, x, step, MPFR_RNDN);
  if (direction == BR_NEAREST)
    {
      mpfr_mul_2ui (s, s, 1, MPFR_RNDN);
      mpfr_get_z (boundary, s, MPFR_RNDN);
      clear = mpz_even_p (boundary) || !may_be (s, boundary);
      mpfr_get_z (right, s, MPFR_RNDD);         /* floor (2x), then floor ((that + 1) / 2) */
      mpz_add_ui (right, right, 1);
      mpz_fdiv_q_2exp (right, right, 1);
    }
  else
    {
      mpfr_get_z (boundary, s, MPFR_RNDN);
      clear = !may_be (s, boundary);
      mpfr_get_z (right, s, direction == BR_UP ? MPFR_RNDU : MPFR_RNDD);
    }
  mpfr_clear (s);
  mpz_clear (boundary);
  return clear;
}

static void
check_marks (const machine *m, const br_real *x, mpfr_srcptr twin)
{
  br_number step = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;
  mpq_t q, ours;
  mpz_t right;

  mpq_inits (q, ours, NULL);
  mpz_init (right);
  random_mark (&step);
  br__number_to_mpq (q, &step);
  for (int direction = 0; direction < 3; direction++)
    {
      int tie = 9;
      br_status status = br_real_round (&mark, &tie, x, &step, (br_direction) direction, BR_TIES_UP, 0);

      if (!twin_round (right, twin, q, direction))
        {
          /* On a boundary as far as the twin sees: then exactly known, or not decided.  */
          if (status != BR_UNDECIDED && br_real_rational (x) == NULL)
            fail_msg ("%s: a mark for what lies on a boundary", m->words);
          continue;
        }
      br__number_to_mpq (ours, &mark);
      mpq_div (ours, ours, q);
      if (status != BR_OK || tie != 0 || mpq_cmp_z (ours, right) != 0)
        {
          gmp_printf ("%s: %s %Qd where %Zd was right\n", m->words, br_status_name (status), ours, right);
          fail ();
        }
    }
  mpz_clear (right);
  mpq_clears (q, ours, NULL);
  br_number_clear (&step);
  br_number_clear (&mark);
}

/* The twin's value as text, by the digits that mpfr_get_str gives.  */
static void
twin_decimal (char *text, mpfr_srcptr x, unsigned digits)
{
  mpfr_exp_t exponent = 0;
  char *raw = mpfr_get_str (NULL, &exponent, 10, digits, x, MPFR_RNDN), *d = raw;
  size_t length;

  if (*d == '-')
    *text++ = *d++;
  length = strlen (d);
  while (length > 1 && d[length - 1] == '0')
    d[--length] = 0;
  if (exponent <= 0)
    {
      text += sprintf (text, "0.");
      for (; exponent < 0; exponent++)
        *text++ = '0';
      strcpy (text, d);
    }
  else
    for (mpfr_exp_t i = 0; i < exponent || d[i] != 0; i++)
      {
        if (i == exponent)
          *text++ = '.';
        *text++ = i < (mpfr_exp_t) length ? d[i] : '0';
        *text = 0;
        if (i >= (mpfr_exp_t) length - 1 && i + 1 >= exponent)
          break;
      }
  mpfr_free_str (raw);
}

static void
check_decimal (const machine *m, const br_real *x, mpfr_srcptr twin)
{
  unsigned digits = 1 + (unsigned) check_below (20);
  char ours[400], right[400];
  br_status status = BR_OK;
  int whole = 9;

  if (!is_moderate (twin) || br_real_rational (x) != NULL)
    return;
  br_real_write_decimal (ours, sizeof ours, &whole, x, digits, 0, &status);
  if (status == BR_UNDECIDED)
    return;
  twin_decimal (right, twin, digits);
  if (status != BR_OK || whole != 0 || strcmp (ours, right) != 0)
    fail_msg ("%s: %s to %u digits where %s was right", m->words, ours, digits, right);
}

/* Ends hold the twin's value, and those at twice the precision lie inside.  */
static void
check_ends (const machine *m, const br_real *x, mpfr_srcptr twin)
{
  unsigned bits = 32 + (unsigned) check_below (100);
  br_number low[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO }, high[2] = { BR_NUMBER_ZERO, BR_NUMBER_ZERO };
  mpq_t l, h;
  int good = 1;

  mpq_inits (l, h, NULL);
  for (int i = 0; i < 2; i++)
    {
      br_status status = br_real_enclose (&low[i], &high[i], x, bits << i);

      if (status == BR_UNDECIDED && i == 0)
        goto out;
      check_ok (status);
      br__number_to_mpq (l, &low[i]);
      br__number_to_mpq (h, &high[i]);
      good &= br_real_rational (x) != NULL || (mpfr_cmp_q (twin, l) >= 0 && mpfr_cmp_q (twin, h) <= 0);
    }
  good &= br_number_cmp (&low[0], &low[1]) <= 0 && br_number_cmp (&high[1], &high[0]) <= 0;
  if (!good)
    fail_msg ("%s: ends at %u bits", m->words, bits);
 out:
  mpq_clears (l, h, NULL);
  for (int i = 0; i < 2; i++)
    {
      br_number_clear (&low[i]);
      br_number_clear (&high[i]);
    }
}

static void
check_sign (const machine *m, const br_real *x, mpfr_srcptr twin)
{
  int sign = 9;
  br_status status = br_real_sign (&sign, x, 0);

  if (mpfr_zero_p (twin) || mpfr_get_exp (twin) < -(ORACLE_BITS - 300))
    {
      if (status == BR_OK && sign != 0)
        fail_msg ("%s: a sign for what may be zero", m->words);
    }
  else if (status != BR_OK || sign != (mpfr_sgn (twin) > 0) - (mpfr_sgn (twin) < 0))
    fail_msg ("%s: sign %d, %s", m->words, sign, br_status_name (status));
}

static long lanes[3];

/* A random formula on both stacks; what a step makes too large or too near zero starts anew.  */
static void
run_random (machine *m)
{
  br_real *x = &m->ours.value[0];
  mpfr_ptr twin = m->twin.value[0];

  m->words[0] = 0;
  m->ours.size = m->twin.size = 0;
  push_random (m);
  for (int steps = (int) check_between (1, 9); steps > 0; steps--)
    switch (check_below (3))
      {
      case 0:
        if (m->ours.size < 6)
          push_random (m);
        break;
      case 1: random_one (m); break;
      default:
        if (m->ours.size > 1)
          random_two (m);
        break;
      }
  while (m->ours.size > 1)
    random_two (m);
  if (mpfr_number_p (twin) && (mpfr_zero_p (twin) || mpfr_get_exp (twin) < 200))
    {
      check_sign (m, x, twin);
      check_marks (m, x, twin);
      check_decimal (m, x, twin);
      check_ends (m, x, twin);
      lanes[br_real_rational (x) != NULL ? 0 : x->node->op == BR__REAL_SUM ? 1 : 2]++;
    }
}

static void
test_random (void **state)
{
  machine m = { .ours = REAL_STACK_ZERO };
  long times = check_times (5000);

  (void) state;
  twin_init (&m.twin);
  lanes[0] = lanes[1] = lanes[2] = 0;
  for (long n = times; n > 0; n--)
    run_random (&m);
  real_stack_clear (&m.ours);
  twin_clear (&m.twin);
  /* The test must see every lane often, or it says little.  */
  print_message ("%ld rational, %ld exact sums, %ld formulas\n", lanes[0], lanes[1], lanes[2]);
  for (int i = 0; i < 3; i++)
    assert_true (lanes[i] > times / 10);
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_beside_boundaries),
    CHECK_TEST (test_limit),
    CHECK_TEST (test_ties),
    CHECK_TEST (test_made_ties),
    CHECK_TEST (test_bad_step),
    CHECK_TEST (test_random)
  };

  return CHECK_RUN (tests);
}
