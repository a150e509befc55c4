/* SPDX-License-Identifier: GPL-3.0-or-later
   real_zero.c - one value made in two ways is found to be one, and values a hair beside each other are told
   apart; the bounds behind it are held against the values that they bound.

   The random pairs are 1,000 equal and 1,000 unequal ones; the long run is BR_TEST_FACTOR=20 (20,000 of each).  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/interval.h"
#include "exact/real_check.h"
#include "exact/real_field.h"

/* ---- Pairs ---- */

/* Ways to write a value; a, b and c stand for random numbers.  All are identities of a textbook.  The numbers are
   angles in half degrees up to 44, whole numbers from 2 to 60, or fractions under 1.  */
enum { ANGLES, WHOLES, FRACTIONS };

static const struct { int numbers; const char *one, *other; } ways[] =
{
  { ANGLES, "a b + sin", "a sin b cos * a cos b sin * +" },
  { ANGLES, "a b - cos", "a cos b cos * a sin b sin * +" },
  { ANGLES, "a b + tan", "a tan b tan + 1 a tan b tan * - /" },
  { ANGLES, "a sin b cos *", "a b + sin a b - sin + 2 /" },
  { ANGLES, "a 3 * sin", "a sin 3 * a sin 3 ^ 4 * -" },
  { ANGLES, "a tan", "1 a 2 * cos - a 2 * sin /" },
  { ANGLES, "a sin dup * b sin dup * +", "1 a b + cos a b - cos * -" },
  { ANGLES, "c a sin * dup * c a cos * dup * + sqrt", "c" },
  { WHOLES, "a sqrt b sqrt + c sqrt +", "a b + c + a b * sqrt a c * sqrt + b c * sqrt + 2 * + sqrt" },
  { WHOLES, "a b c sqrt * +", "a 3 ^ a b 2 ^ * c * 3 * + a 2 ^ b * 3 * b 3 ^ c * + c sqrt * + 1/3 ^" },
  { WHOLES, "a b c sqrt * -", "a 3 ^ a b 2 ^ * c * 3 * + a 2 ^ b * 3 * b 3 ^ c * + c sqrt * - 1/3 ^" },
  { WHOLES, "a 1/3 ^ b +", "a 4/3 ^ a b * 4 * + a 2/3 ^ b 2 ^ * 6 * + a 1/3 ^ b 3 ^ * 4 * + b 4 ^ + 1/4 ^" },
  { WHOLES, "1 a 1/3 ^ b + /", "a 2/3 ^ a 1/3 ^ b * - b 2 ^ + a b 3 ^ + /" },
  { WHOLES, "1 a sqrt b sqrt + 9973 sqrt + /", "a sqrt b sqrt + 9973 sqrt - a b + 9973 - a b * sqrt 2 * + /" },
  { WHOLES, "a 1/3 ^ b 1/4 ^ *", "a 4 ^ b 3 ^ * 1/12 ^" },
  { WHOLES, "pi 2 ^ a - pi a sqrt - /", "pi a sqrt +" },
  { WHOLES, "pi a * sqrt pi b * sqrt *", "a b * sqrt pi *" },
  { WHOLES, "pi a + b pi * c + /", "1 b / a c b / - b pi * c + / +" },
  { FRACTIONS, "a atan b atan +", "a b + 1 a b * - / atan" },
  { FRACTIONS, "a asin", "a 1 a dup * - sqrt / atan" },
  { FRACTIONS, "a atan 2 * sin", "2 a * 1 a dup * + /" },
  { FRACTIONS, "a atan b atan + cos", "1 a b * - 1 a dup * + 1 b dup * + * sqrt /" },
  { FRACTIONS, "a atan 2 / tan", "1 a dup * + sqrt 1 - a /" }
};

/* What is done to both.  An arc times a root is beyond any proof of ours.  */
static const char *const wraps[] = { "", "3/7 *", "5 sqrt +", "-2 /", "2 1/3 ^ *", "7 sin *", "11 sqrt 1 + /", "dup *" };
#define WRAPS_OF_ARCS 4

/* WORDS = TEMPLATE with N for a, b and c, and WRAP.  */
static void
fill (char *words, const char *template, char n[3][32], const char *wrap)
{
  for (; *template != 0; template++)
    {
      int letter = *template - 'a', alone = letter >= 0 && letter < 3 && (template[1] == ' ' || template[1] == 0);

      if (alone)
        words += sprintf (words, "%s", n[letter]);
      else
        *words++ = *template;
    }
  sprintf (words, " %s", wrap);
}

static void
random_numbers (char n[3][32], int numbers)
{
  for (int i = 0; i < 3; i++)
    if (numbers == FRACTIONS)
      {
        int64_t d = check_between (2, 40);

        snprintf (n[i], sizeof n[i], "%d/%d", (int) check_between (1, d - 1), (int) d);
      }
    else if (numbers == ANGLES)
      snprintf (n[i], sizeof n[i], "%d/2", (int) check_between (1, 88));
    else
      snprintf (n[i], sizeof n[i], "%d", (int) check_between (2, 60));
}

static void
random_pair (char *one, char *other, size_t way)
{
  char n[3][32];
  const char *wrap = wraps[check_below (ways[way].numbers == FRACTIONS ? WRAPS_OF_ARCS : CHECK_COUNT (wraps))];

  random_numbers (n, ways[way].numbers);
  fill (one, ways[way].one, n, wrap);
  fill (other, ways[way].other, n, wrap);
}

static void
check_order (const char *one, const char *other, int right)
{
  br_real x = real_of (one), y = real_of (other);
  int order = 9;
  br_status status = br_real_cmp (&order, &x, &y, 0);

  if (status != BR_OK || order != right)
    fail_msg ("%s against %s: %s %d", one, other, br_status_name (status), order);
  check_ok (br_real_sub (&x, &x, &y));
  const br_number *n = br_real_rational (&x);
  if ((n != NULL && br_number_sign (n) == 0) != (right == 0) || br_real_question (&x, NULL) != NULL)
    fail_msg ("%s less %s: not decided", one, other);
  br_real_clear (&x);
  br_real_clear (&y);
}

#define HAIR " 1/1000000000000000000000000000000000000000000000000000000000000 "

static void
test_pairs (void **state)
{
  (void) state;
  for (long i = check_times (1000); i > 0; i--)
    {
      char one[600], other[600], beside[700];
      int side = check_below (2) != 0 ? 1 : -1;

      random_pair (one, other, (size_t) i % CHECK_COUNT (ways));
      check_order (one, other, 0);
      snprintf (beside, sizeof beside, "%s" HAIR "%c", other, side > 0 ? '-' : '+');
      check_order (one, beside, side);
    }
}

/* A value that is a fraction is one in each question: its mark and that it is a tie, its digits, its order.  */
static void
test_one_value (void **state)
{
  static const char *const words[] =
  {
    "37/32 25 cos * dup * 37/32 25 sin * dup * + sqrt", "37/4 20 cos * 40 cos * 80 cos *", "pi 37/32 * 1 + pi / 1 pi / -",
    "7 50 sqrt + 1/3 ^ 2 sqrt - 5/32 +", "3/4 atan cos 5/4 * 5/32 +"
  };
  br_number step = BR_NUMBER_ZERO, mark = BR_NUMBER_ZERO;

  (void) state;
  check_set (&step, "1/16");
  for (size_t i = 0; i < CHECK_COUNT (words); i++)
    {
      br_real x = real_of (words[i]), y = real_of ("37/32"), root = BR_REAL_ZERO;
      int tie = 9, order = 9, whole = 9;
      char text[40];

      /* Asked for its mark first, and for the fraction then.  */
      check_ok (br_real_round (&mark, &tie, &x, &step, BR_NEAREST, BR_TIES_DOWN, 0));
      if (br_real_rational (&x) == NULL)
        fail_msg ("%s: not known to be rational", words[i]);
      check_is (&mark, "9/8");
      assert_int_equal (tie, 1);
      check_ok (br_real_cmp (&order, &x, &y, 32));
      assert_int_equal (order, 0);
      br_real_write_decimal (text, sizeof text, &whole, &x, 12, 0, NULL);
      assert_string_equal (text, "1.15625");
      assert_int_equal (whole, 1);
      check_ok (br_real_sub (&x, &x, &y));
      check_ok (br_real_sqrt (&root, &x, 0));
      assert_int_equal (br_real_div (&root, &y, &x, 0), BR_DOMAIN);
      br_real_clear (&x);
      br_real_clear (&y);
      br_real_clear (&root);
    }
  br_number_clear (&step);
  br_number_clear (&mark);
}

/* ---- Bounds ---- */

/* The bits that the proof of WORDS asks for.  */
static int64_t
bits_for (const char *words)
{
  br_real x = real_of (words);
  br__mpfr_state state;
  br__field f;
  uint32_t root;
  int64_t bits;

  br__mpfr_enter (&state);
  br__field_init (&f);
  root = br__field_put (&f, &x);
  check_ok (f.status);
  br__field_need (&f, root);
  bits = br__field_bits (&f, root);
  br__field_clear (&f);
  br__mpfr_leave (&state);
  br_real_clear (&x);
  return bits;
}

/* Bounds by hand, in bits: log l + (D - 1) log u of the table in real_bound.c, rounded up.  */
static void
test_bounds (void **state)
{
  static const struct { const char *words; int64_t least, most; } rows[] =
  {
    { "1 sin", 48, 48 },                        /* 2 cos (89 degrees) over 2: 1 + 47 * 1, D = phi (360) / 2 = 48 */
    { "2 1/3 ^", 1, 1 },                        /* u = 2^(1/3), D = 3 */
    { "2 1/3 ^ 3 1/5 ^ +", 19, 20 },            /* 14 * log2 (1.260 + 1.246), D = 15 */
    { "2 1/3 ^ 16 1/3 ^ 5 + +", 6, 8 },         /* D is 3, as 16 is 2^4: 2 * log2 (1.26 + 2.52 + 5) */
    { "1/8 2 1/3 ^ *", 4, 5 }                   /* l = 8: 3 + 2 * 1/3 */
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      int64_t bits = bits_for (rows[i].words);

      if (bits < rows[i].least || bits > rows[i].most)
        fail_msg ("%s: %ld bits", rows[i].words, (long) bits);
    }
}

/* Values that are not 0 and small: none is under its bound.  Differences of powers of a + sqrt (b), which are near a
   whole number, and of roots that lie side by side.  */
static void
test_no_value_under_its_bound (void **state)
{
  (void) state;
  for (long i = check_times (300); i > 0; i--)
    {
      char words[300];
      int64_t a = check_between (2, 1000000), k = check_between (3, 12), bits;
      br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;

      if (i % 2 != 0)
        snprintf (words, sizeof words, "%ld 1/%ld ^ %ld 1/%ld ^ - 7 sin *", (long) a + 1, (long) k, (long) a, (long) k);
      else
        snprintf (words, sizeof words, "%ld sqrt %ld sqrt + %ld sqrt - 2 1/3 ^ -", (long) a, (long) a + 1, (long) (4 * a + 1));
      bits = bits_for (words);
      assert_true (bits < BR_MAX_BITS);
      br_real x = real_of (words);
      check_ok (br_real_enclose (&low, &high, &x, (unsigned) bits + 200));
      check_ok (br_real_mul (&x, &x, &x));
      /* |x|^2 is at least 2^-2 bits.  */
      br_real bound = real_of ("2");
      br_number power = BR_NUMBER_ZERO;
      int order = 9;
      check_ok (br_number_set_int (&power, -2 * bits));
      check_ok (br_real_pow (&bound, &bound, &power, 0));
      check_ok (br_real_cmp (&order, &x, &bound, 0));
      assert_true (order >= 0);
      br_real_clear (&x);
      br_real_clear (&bound);
      br_number_clear (&power);
      br_number_clear (&low);
      br_number_clear (&high);
    }
}

/* 0, as sqrt 7 is 2 (sin a + sin 2a - sin 3a) for a seventh of a turn (C. F. Gauss, Summatio quarumdam serierum
   singularium, 1811; from memory), which does not cancel term by term.  */
#define UNLIKE_7 "7 sqrt 360/7 sin 720/7 sin + 1080/7 sin - 2 * -"

/* Past the limit there is no proof, and the question is kept.  */
static void
test_past_the_limit (void **state)
{
  br_real x = real_of (OPEN_ZERO " 60 +");
  int64_t bits = 9;

  (void) state;
  assert_null (br_real_rational (&x));
  check_is (br_real_question (&x, &bits), "60");
  assert_int_equal (bits, 0);
  br_real_clear (&x);
  x = real_of (UNLIKE_7 " 10000001/1000000 sin * 1 +");
  assert_null (br_real_rational (&x));
  check_is (br_real_question (&x, &bits), "1");
  assert_true (bits > BR_MAX_BITS);
  br_real_clear (&x);
}

/* ---- What cancels ---- */

static void
test_cancels (void **state)
{
  static const struct { const char *words; int cancels; } rows[] =
  {
    { "12345/1000 sin dup * 12345/1000 cos dup * + 1 -", 1 },
    { "12345/1000 sin dup * 12345/1000 cos dup * + 1 - 1/1000000000000000000000000 -", 0 },
    { "1/7 sin 505/7 sin + 1009/7 sin + 1513/7 sin + 2017/7 sin +", 1 },      /* five, 72 degrees apart */
    { "1/7 sin 841/7 sin + 1681/7 sin +", 1 },
    { "360/7 cos 720/7 cos + 1080/7 cos + 1/2 +", 1 },
    { "57345/1000 sin 12345/1000 dup sin swap cos + 2 sqrt / -", 1 },
    { "5 sqrt 1 + 4 / 36 cos -", 1 },
    { "1 5 sqrt - 4 / 72 cos +", 1 },
    { "3 1/3 ^ 2 1/4 ^ + dup * 9 1/3 ^ - 2 sqrt - 2 3 1/3 ^ * 2 1/4 ^ * -", 1 },
    { "202 1/3 ^ 101 1/3 ^ 2 1/3 ^ * - 10007 sqrt dup * + 10007 -", 1 },
    { "2 7 1/3 ^ + 1/3 ^ 3 ^ 7 1/3 ^ - 2 -", 1 },
    { "1 2 1/3 ^ + sqrt dup 3 ^ swap / 1 - 2 1/3 ^ -", 1 },
    { "1 1 2 1/3 ^ + sqrt / 2 ^ 1 2 1/3 ^ + * 1 -", 1 },
    { "25678/1000 cos 1 + 2 / sqrt 12839/1000 cos -", 1 },
    { "1 25678/1000 cos - 2 / sqrt 12839/1000 sin -", 1 },
    { "25678/1000 cos 1 + 3 * sqrt 6 sqrt 12839/1000 cos * -", 1 },
    { "2 2 40004/1000 cos 2 * + sqrt + sqrt 2 10001/1000 cos * -", 1 },
    { "2 2 2 80008/1000 cos 2 * + sqrt + sqrt + sqrt 2 10001/1000 cos * -", 1 },
    { "2 40004/1000 cos 3 * + sqrt 2 40004/1000 cos + sqrt -", 0 },
    { "pi 12345/1000 sin * dup pi + dup * swap dup * - pi dup * - 2 pi dup * * 12345/1000 sin * -", 1 },
    { "7 sqrt 360/7 sin 720/7 sin + 1080/7 sin - 2 * -", 0 },                 /* 0, by Gauss */
    /* Past what is taken: a root of an index, of a circle, powers, roots and factors. */
    { "2 1/61 ^ 3 1/59 ^ + 2 1/61 ^ - 3 1/59 ^ -", 0 },
    { "1/1000003 sin 1/999983 sin + dup 1 + swap 1 - - 2 -", 0 },
    { "2 sqrt 2 1/3 ^ + 65 ^ dup 1 + - 1 +", 0 },
    { "1 sin 2 sin + 3 sin + 5 sin + 2 1/3 ^ + 3 1/5 ^ + 40 ^ dup 1 + swap - 1 -", 0 },
    { "1 sin 3 3000 ^ * dup 1 + swap - 1 -", 0 },
    { "2 1/3 ^ 3 sqrt + 1/5 ^ 2 1/3 ^ 3 sqrt + 1/7 ^ * dup 2 + dup * swap dup * - 4 - 2 1/3 ^ 3 sqrt + 1/5 ^ 2 1/3 ^ 3 sqrt + 1/7 ^ * 4 * -", 1 },
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_real x = real_of (rows[i].words);
      br__mpfr_state outside;
      br__field f;

      br__mpfr_enter (&outside);
      br__field_init (&f);
      uint32_t root = br__field_put (&f, &x);
      check_ok (f.status);
      br__field_need (&f, root);
      if (root != 0 && br__field_cancels (&f, root) != rows[i].cancels)
        fail_msg ("%s: %d", rows[i].words, !rows[i].cancels);
      check_ok (f.status);
      br__field_clear (&f);
      br__mpfr_leave (&outside);
      br_real_clear (&x);
    }
}

/* Under a sine a long proof is left for later; asked for itself, the value is proved.  */
static void
test_later (void **state)
{
  br_real x = real_of (UNLIKE_7 " 101/10 sin * 1 +"), y = BR_REAL_ZERO;

  (void) state;
  check_ok (br_real_sin (&y, &x));
  assert_int_equal (x.node->known, BR__LATER);
  check_is (br_real_rational (&x), "1");
  check_ok (br_real_settle (&x));
  assert_true (br__real_is_int (&x, 1));
  br_real_clear (&x);
  br_real_clear (&y);
}

/* A question that cannot say so finds no memory: the next one does, and the one after it is answered.  */
static void
test_refused_question (void **state)
{
  br_real x = real_of ("1 sin dup * 1 cos dup * +");

  (void) state;
  check_memory_limit (0);
  assert_null (br_real_rational (&x));
  check_memory_free ();
  assert_int_equal (br_real_settle (&x), BR_NO_MEMORY);
  check_is (br_real_rational (&x), "1");
  br_real_clear (&x);
}

/* ---- What is in reach ---- */

enum known { OPEN, IS, IS_NOT };

static void
check_known (const char *words, const char *value, enum known right)
{
  br_real x = real_of (words), y = real_of (value);
  const br_number *n = right == IS ? br_real_rational (&x) : br_real_question (&x, NULL);
  int order = 0;

  if (right == IS_NOT ? br_real_cmp (&order, &x, &y, 0) != BR_OK || order == 0 || br_real_rational (&x) != NULL
                      : n == NULL || !br_number_equal (n, br_real_rational (&y)))
    fail_msg ("%s, %s: not as it should be (%d)", words, value, (int) right);
  br_real_clear (&x);
  br_real_clear (&y);
}

#define THIRTY_ZEROS "000000000000000000000000000000"
#define PAST_90 "2 sqrt 1" THIRTY_ZEROS " / 90 + tan"
#define PI_30 "3141592653589793238462643383279/1" THIRTY_ZEROS

static void
test_reach (void **state)
{
  static const struct { const char *words, *value; enum known known; } rows[] =
  {
    { UNLIKE_7, "0", IS },
    { UNLIKE_7 " pi * 2 +", "2", IS },
    /* Half an angle, of each sign.  */
    { "-3/4 atan 2 / sin 10 sqrt *", "-1", IS },
    { "3/4 atan 3/2 * 180 + cos dup * 3/4 atan 3/2 * 180 - sin dup * +", "1", IS },
    /* An arc of what has roots, which are put in before it.  */
    { "2 sqrt 5 * atan 3 sqrt atan 2 1/3 ^ atan + + dup sin dup * swap cos dup * +", "1", IS },
    { "2 1/3 ^ atan sin 1 4 1/3 ^ + sqrt * 2 1/3 ^ /", "1", IS },
    /* The multiples of an arc go to 64.  */
    { "1/3 atan 64 * dup sin dup * swap cos dup * +", "1", IS },
    { "1/3 atan 65 * dup sin dup * swap cos dup * +", "1", OPEN },
    /* Half an angle that is not told from 0 at first, and is later.  */
    { "1/2 atan 1/1" THIRTY_ZEROS " atan + 1/3 atan + 45 - 2 / sin", "0", IS_NOT },
    /* Three sines of which nothing is known, and a fourth.  */
    { "2 sqrt sin 3 sqrt sin + 5 sqrt sin + dup 1 + dup * swap dup * - 2 sqrt sin 3 sqrt sin + 5 sqrt sin + 2 * -", "1", IS },
    { "2 sqrt sin 3 sqrt sin + 5 sqrt sin + 6 sqrt sin + dup 1 + dup * swap dup * - 2 sqrt sin 3 sqrt sin + 5 sqrt sin + 6 sqrt sin + 2 * -", "1", OPEN },
    /* A tangent that has no ends at first, so that 0 is asked about.  */
    { PAST_90 " dup 1 + dup * swap dup * - " PAST_90 " 2 * -", "0", OPEN },
    /* Divisors that are not told from 0 on either side of pi.  */
    { "1 pi " PI_30 " - / pi 3 - * 3 pi " PI_30 " - / + pi pi " PI_30 " - / -", "0", IS },
    { "pi " UNLIKE_7 " * pi " PI_30 " - / pi " PI_30 " 1/1" THIRTY_ZEROS " + - /", "0", OPEN },
    /* Cosines of many fractions of a turn.  */
    { "1/1000003 sin 1/999983 sin + dup 1 + dup * swap dup * - 1/1000003 sin 1/999983 sin + 2 * -", "1", OPEN },
    { "1/1000000000039 sin dup 1 + dup * swap dup * - 1/1000000000039 sin 2 * -", "1", OPEN },
  };

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    check_known (rows[i].words, rows[i].value, rows[i].known);
}

/* The squares of sine and cosine of COUNT arcs, added from the left or from the right: there are sixteen at most.  */
static void
test_parts_of_an_angle (void **state)
{
  (void) state;
  for (int right = 0; right < 2; right++)
    for (int count = 14; count < 19; count++)
      {
        char words[1000];
        int at = sprintf (words, "1/2 atan");

        for (int i = 1; i < count; i++)
          at += sprintf (words + at, " %d/%d atan %s+", 100 * i * i - 1, 20 * i, right ? "swap " : "");
        sprintf (words + at, " dup sin dup * swap cos dup * +");
        check_known (words, "1", count <= 16 ? IS : OPEN);
      }
}

/* (x + 1)^2 - x^2 - 2 x of a sum of roots of more primes than a bound takes apart.  */
static void
test_many_roots (void **state)
{
  br_real sum = BR_REAL_ZERO, x = BR_REAL_ZERO, one = real_of ("1"), square = BR_REAL_ZERO;

  (void) state;
  for (int found = 0, n = 2; found < 65; n++)
    {
      char words[40];
      int p = 2;

      while (n % p != 0)
        p++;
      if (p < n)
        continue;
      snprintf (words, sizeof words, "%d 1/3 ^", n);
      br_real root = real_of (words);
      check_ok (br_real_add (&sum, &sum, &root));
      br_real_clear (&root);
      found++;
    }
  check_ok (br_real_add (&x, &sum, &one));
  check_ok (br_real_mul (&x, &x, &x));
  check_ok (br_real_mul (&square, &sum, &sum));
  check_ok (br_real_sub (&x, &x, &square));
  check_ok (br_real_sub (&x, &x, &sum));
  check_ok (br_real_sub (&x, &x, &sum));
  assert_null (br_real_rational (&x));
  check_is (br_real_question (&x, NULL), "1");
  br_real_clear (&sum);
  br_real_clear (&x);
  br_real_clear (&one);
  br_real_clear (&square);
}

/* ---- Refusals of a field ---- */

/* The step of 2^BITS, or of BITS itself where that is not over 1.  */
static uint32_t
step_of (br__field *f, long bits)
{
  mpq_t q;
  uint32_t step;

  mpq_init (q);
  mpq_set_si (q, bits > 1 ? 1 : bits, 1);
  if (bits > 1)
    mpq_mul_2exp (q, q, (mp_bitcnt_t) bits);
  step = br__field_number (f, q);
  mpq_clear (q);
  return step;
}

static void
check_refused (br__field *f, uint32_t step)
{
  assert_int_equal (f->status, BR_UNDECIDED);
  assert_int_equal (step, 0);
  assert_int_equal (br__field_int (f, 7), 0);
  br__field_clear (f);
}

/* No value that is asked for leads to these steps, but what it is held to be might: they are refused, and after that each
   step is step 0.  */
static void
test_refused_steps (void **state)
{
  static const struct { br__step_op op; long x, y; int64_t index; } rows[] =
  {
    { BR__STEP_DIV, 1, 0, 0 }, { BR__STEP_ROOT, 0, 0, 2 }, { BR__STEP_ROOT, -1, 0, 2 },
    { BR__STEP_MUL, BR_MAX_BITS / 2, BR_MAX_BITS / 2 + 1, 0 }, { BR__STEP_POWER, BR_MAX_BITS / 2, 0, 3 }
  };
  br__field f;

  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br__field_init (&f);
      uint32_t x = step_of (&f, rows[i].x), y = step_of (&f, rows[i].y);
      check_ok (f.status);
      check_refused (&f, br__field_make (&f, rows[i].op, x, y, rows[i].index));
    }
  /* What is no number over zero, and a step more than there is room for.  */
  mpq_t degree;
  mpq_init (degree);
  mpq_set_ui (degree, 1, 1);
  br__field_init (&f);
  check_refused (&f, br__field_make (&f, BR__STEP_DIV, br__field_cosine (&f, degree), 0, 0));
  mpq_clear (degree);
  br__field_init (&f);
  for (long n = 1; n < BR__STEPS; n++)
    assert_int_equal (br__field_int (&f, n), n);
  check_refused (&f, br__field_int (&f, BR__STEPS));
}

int
main (void)
{
  const struct CMUnitTest tests[] =
  {
    CHECK_TEST (test_pairs),
    CHECK_TEST (test_one_value),
    CHECK_TEST (test_bounds),
    CHECK_TEST (test_no_value_under_its_bound),
    CHECK_TEST (test_past_the_limit),
    CHECK_TEST (test_cancels),
    CHECK_TEST (test_later),
    CHECK_TEST (test_refused_question),
    CHECK_TEST (test_reach),
    CHECK_TEST (test_parts_of_an_angle),
    CHECK_TEST (test_many_roots),
    CHECK_TEST (test_refused_steps)
  };

  return CHECK_RUN (tests);
}
