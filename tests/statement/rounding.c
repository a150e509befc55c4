/* SPDX-License-Identifier: GPL-3.0-or-later
   rounding.c - round, marks, simplest and keep total through the language, against counting on
   whole numbers of GMP, and against all choices of marks where a total is kept.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../sheet/support.h"

static const int64_t rulers[] = { 1, 2, 4, 8, 16, 32, 64, 10, 3 };

/* The text "n/d" of Q, to be freed.  */
static char *
text_of (mpq_t q)
{
  return mpq_get_str (NULL, 10, q);
}

static void
field_is (const said *s, size_t index, const char *path, mpq_t q)
{
  char *text = text_of (q);
  said_is (s, index, path, text);
  free (text);
}

/* MARK := the multiple of STEP for X.  Counted from the floor of X / STEP in whole numbers: none of the
   library's rounding is used.  WAY: 'n' nearest, 'u' up, 'd' down.  TIES: 'u' away from zero, 'd'
   towards it, 'e' even.  1 where X lies half way.  */
static int
slow_round (mpq_t mark, mpq_t x, mpq_t step, char way, char ties)
{
  mpq_t q;
  mpz_t below, rest;
  mpq_init (q);
  mpz_inits (below, rest, NULL);
  mpq_div (q, x, step);
  mpz_fdiv_qr (below, rest, mpq_numref (q), mpq_denref (q));
  mpz_mul_2exp (rest, rest, 1);
  int half = mpz_cmp (rest, mpq_denref (q)), over;
  if (way == 'd' || mpz_sgn (rest) == 0)
    over = 0;
  else if (way == 'u')
    over = 1;
  else if (half != 0)
    over = half > 0;
  else if (ties == 'e')
    over = mpz_odd_p (below) != 0;
  else
    over = (ties == 'u') == (mpq_sgn (x) > 0);
  if (over)
    mpz_add_ui (below, below, 1);
  mpq_set_z (mark, below);
  mpq_mul (mark, mark, step);
  mpq_clear (q);
  mpz_clears (below, rest, NULL);
  return way == 'n' && half == 0;
}

/* A value that often lies on a mark, half way between two, or just beside.  */
static void
value_near_marks (mpq_t x, mpq_t step)
{
  mpq_t jitter;
  mpq_init (jitter);
  mpq_set_si (x, (long) check_between (-200, 200), 2);
  mpq_canonicalize (x);
  mpq_mul (x, x, step);
  if (check_below (3) == 0)
    {
      mpq_set_si (jitter, (long) check_between (-1, 1), 1000000);
      mpq_add (x, x, jitter);
    }
  else if (check_below (3) == 0)
    {
      mpq_set_si (jitter, (long) check_between (-1000, 1000), 797);
      mpq_add (x, x, jitter);
    }
  mpq_canonicalize (x);
  mpq_clear (jitter);
}

static void
round_one (br_sheet *sheet, said *s, char ties)
{
  static const struct { char way; const char *word; } ways[] = { { 'n', "" }, { 'u', "up" }, { 'd', "down" } };
  size_t way = check_below (3);
  mpq_t x, step, mark, error;
  mpq_inits (x, step, mark, error, NULL);
  mpq_set_si (step, 1, (unsigned long) rulers[check_below (CHECK_COUNT (rulers))]);
  value_near_marks (x, step);
  int tie = slow_round (mark, x, step, ways[way].way, ties);
  mpq_sub (error, mark, x);

  char *x_text = text_of (x), *step_text = text_of (step);
  sheet_say (sheet, s, "round (%s) to (%s) %s", x_text, step_text, ways[way].word);
  said_is (s, 0, "kind", "rounding");
  field_is (s, 0, "exact", x);
  field_is (s, 0, "value", mark);
  field_is (s, 0, "error", error);
  field_is (s, 0, "ruler", step);
  said_is (s, 0, "tie", tie ? "true" : "false");
  if (way == 0)
    {
      sheet_say (sheet, s, "nearest(%s, %s)", x_text, step_text);
      field_is (s, 0, "exact", mark);
    }
  free (x_text);
  free (step_text);
  mpq_clears (x, step, mark, error, NULL);
}

static void
round_counts (void **state)
{
  static const char *const ties[] = { "up", "down", "even" };
  said s = SAID_ZERO;
  (void) state;
  for (size_t t = 0; t < CHECK_COUNT (ties); t++)
    {
      br_sheet *sheet = sheet_with ("");
      sheet_say (sheet, &s, "ties %s", ties[t]);
      for (long i = check_times (400); i > 0; i--)
        round_one (sheet, &s, ties[t][0]);
      br_sheet_free (sheet);
    }
  said_clear (&s);
}

/* Every ruler of `marks` is the nearest mark there.  */
static void
marks_count (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  mpq_t x, step, mark;
  (void) state;
  mpq_inits (x, step, mark, NULL);
  for (long i = check_times (100); i > 0; i--)
    {
      mpq_set_si (step, 1, 32);
      value_near_marks (x, step);
      char *text = text_of (x);
      sheet_say (sheet, &s, "marks (%s)", text);
      said_is (&s, 0, "rows.count", "7");
      for (unsigned row = 0; row < 7; row++)
        {
          char path[32];
          mpq_set_si (step, 1, 1ul << row);
          int tie = slow_round (mark, x, step, 'n', 'u');
          snprintf (path, sizeof path, "rows.%u.ruler", row);
          field_is (&s, 0, path, step);
          snprintf (path, sizeof path, "rows.%u.value", row);
          field_is (&s, 0, path, mark);
          snprintf (path, sizeof path, "rows.%u.tie", row);
          said_is (&s, 0, path, tie ? "true" : "false");
          mpq_sub (mark, mark, x);
          snprintf (path, sizeof path, "rows.%u.error", row);
          field_is (&s, 0, path, mark);
        }
      free (text);
    }
  mpq_clears (x, step, mark, NULL);
  sheet_end (sheet, &s);
}

/* The plainest is on the coarsest ruler that has a mark within; a coarser one has none.  */
static void
simplest_is_plainest (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  mpq_t x, step, mark, within, error;
  (void) state;
  mpq_inits (x, step, mark, within, error, NULL);
  for (long i = check_times (300); i > 0; i--)
    {
      unsigned row = 0;
      mpq_set_si (step, 1, 8);
      value_near_marks (x, step);
      mpq_set_si (within, (long) check_between (1, 40), (unsigned long) check_between (8, 900));
      mpq_canonicalize (within);
      for (;; row++)
        {
          mpq_set_si (step, 1, 1ul << row);
          slow_round (mark, x, step, 'n', 'u');
          mpq_sub (error, mark, x);
          mpq_abs (error, error);
          if (mpq_cmp (error, within) <= 0)
            break;
        }
      char *text = text_of (x), *bound = text_of (within), *value;
      sheet_say (sheet, &s, "simplest (%s) within (%s)", text, bound);
      field_is (&s, 0, "ruler", step);
      value = strdup (said_get (&s, 0, "value"));
      assert_int_equal (mpq_set_str (mark, value, 10), 0);
      mpq_sub (mark, mark, x);
      field_is (&s, 0, "error", mark);
      mpq_abs (mark, mark);
      assert_true (mpq_equal (mark, error));
      free (text);
      free (bound);
      free (value);
    }
  mpq_clears (x, step, mark, within, error, NULL);
  sheet_end (sheet, &s);
}

#define PARTS 5

/* WORST := the smallest largest error with which COUNT parts X, each on a mark within two steps, add up to
   TOTAL: all choices are tried.  */
static void
slow_total (mpq_t worst, mpq_t *x, size_t count, mpq_t step, mpq_t total)
{
  mpq_t sum, mark, error, most;
  size_t choices = 1;
  int found = 0;
  mpq_inits (sum, mark, error, most, NULL);
  for (size_t i = 0; i < count; i++)
    choices *= 4;
  for (size_t c = 0; c < choices; c++)
    {
      size_t rest = c;
      mpq_set_ui (sum, 0, 1);
      mpq_set_ui (most, 0, 1);
      for (size_t i = 0; i < count; i++, rest /= 4)
        {
          slow_round (mark, x[i], step, 'd', 'u');
          for (size_t k = 0; k < rest % 4; k++)
            mpq_add (mark, mark, step);
          mpq_sub (mark, mark, step);
          mpq_add (sum, sum, mark);
          mpq_sub (error, mark, x[i]);
          mpq_abs (error, error);
          if (mpq_cmp (error, most) > 0)
            mpq_set (most, error);
        }
      if (mpq_equal (sum, total) && (!found || mpq_cmp (most, worst) < 0))
        {
          mpq_set (worst, most);
          found = 1;
        }
    }
  assert_true (found);
  mpq_clears (sum, mark, error, most, NULL);
}

static void
check_total (br_sheet *sheet, said *s, char way)
{
  mpq_t x[PARTS], step, sum, total, worst, most, rounded;
  size_t count = 1 + check_below (PARTS);
  char line[1024] = "round ", *text;
  mpq_inits (step, sum, total, worst, most, rounded, NULL);
  mpq_set_si (step, 1, (unsigned long) rulers[check_below (CHECK_COUNT (rulers))]);
  for (size_t i = 0; i < count; i++)
    {
      mpq_init (x[i]);
      value_near_marks (x[i], step);
      mpq_add (sum, sum, x[i]);
      text = text_of (x[i]);
      snprintf (line + strlen (line), sizeof line - strlen (line), "%s(%s)", i ? ", " : "", text);
      free (text);
    }
  text = text_of (step);
  sheet_say (sheet, s, "%s to (%s) keep total %s", line, text, way == 'u' ? "up" : way == 'd' ? "down" : "");
  free (text);
  slow_round (total, sum, step, way, 'u');
  slow_total (worst, x, count, step, total);
  assert_int_equal (s->count, count + 1);
  said_is (s, count, "kind", "total");
  field_is (s, count, "exact", sum);
  field_is (s, count, "value", total);
  mpq_set_ui (sum, 0, 1);
  for (size_t i = 0; i < count; i++)
    {
      assert_int_equal (mpq_set_str (rounded, said_get (s, i, "value"), 10), 0);
      mpq_add (sum, sum, rounded);
      mpq_sub (rounded, rounded, x[i]);
      field_is (s, i, "error", rounded);
      mpq_abs (rounded, rounded);
      if (mpq_cmp (rounded, most) > 0)
        mpq_set (most, rounded);
      mpq_clear (x[i]);
    }
  assert_true (mpq_equal (sum, total));
  assert_true (mpq_equal (most, worst));
  mpq_clears (step, sum, total, worst, most, rounded, NULL);
}

static void
totals_are_kept (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  for (long i = check_times (90); i > 0; i--)
    check_total (sheet, &s, "nud"[i % 3]);
  sheet_end (sheet, &s);
}

/* At equal errors the earlier part goes up.  */
static void
earlier_goes_up (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("");
  (void) state;
  sheet_say (sheet, &s, "round 1/2, 1/2, 1/2, 1/2 to 1 keep total");
  said_is (&s, 0, "value", "1");
  said_is (&s, 1, "value", "1");
  said_is (&s, 2, "value", "0");
  said_is (&s, 3, "value", "0");
  said_is (&s, 4, "value", "2");
  sheet_end (sheet, &s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (round_counts),
    CHECK_TEST (marks_count),
    CHECK_TEST (simplest_is_plainest),
    CHECK_TEST (totals_are_kept),
    CHECK_TEST (earlier_goes_up),
  };
  return CHECK_RUN (tests);
}
