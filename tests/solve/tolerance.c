/* SPDX-License-Identifier: GPL-3.0-or-later
   tolerance.c - tolerances and what they add up to: textbooks, every corner of linear formulas by
   another library, sizes by the thousand inside the bounds of curved ones, checks at their worst.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "refusal.h"
#include "../sheet/oracle.h"

#define stack_is(sheet, s, what, path, expected) \
  do { sheet_say ((sheet), (s), "stack %s", (what)); said_is ((s), 0, (path), (expected)); } while (0)

static void
by_hand (void **state)
{
  br_sheet *sheet = sheet_with ("a = 3 +- 1/64\nb = 1-1/2\ntolerance 1/32 on b, later\ntwice = 2 * a");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "stack twice - b");
  said_is (&s, 0, "nominal", "9/2");
  said_is (&s, 0, "low", "71/16");
  said_is (&s, 0, "high", "73/16");
  said_is (&s, 0, "contributors.count", "2");
  said_is (&s, 0, "contributors.0.name", "a");
  said_is (&s, 0, "contributors.0.sensitivity", "2");
  said_is (&s, 0, "contributors.0.tolerance", "1/64");
  said_is (&s, 0, "contributors.0.share", "50%");
  said_is (&s, 0, "contributors.1.sensitivity", "-1");
  said_is (&s, 0, "exact_bounds", "true");
  said_is (&s, 0, "linear", "true");
  said_is (&s, 0, "rss", "null");               /* sqrt 2 / 32 */
  said_is (&s, 0, "rss_decimal", "0.0441941738242");
  /* A name counts once, however it comes in.  */
  stack_is (sheet, &s, "twice - a - a", "low", "0");
  said_is (&s, 0, "high", "0");
  stack_is (sheet, &s, "twice - a", "high", "193/64");
  said_is (&s, 0, "rss", "1/64");
  /* What is measured itself is not taken apart.  */
  sheet_say (sheet, &s, "tolerance 1/8 on twice");
  stack_is (sheet, &s, "twice", "low", "47/8");
  said_is (&s, 0, "contributors.0.name", "twice");
  /* A size that is exact stands still, though its parts do not.  */
  sheet_say (sheet, &s, "tolerance 0 on twice");
  stack_is (sheet, &s, "twice + b", "high", "241/32");
  said_is (&s, 0, "contributors.count", "1");
  sheet_say (sheet, &s, "later = 2");
  stack_is (sheet, &s, "later", "high", "65/32");
  /* The one behind the size goes before that of the statement, and ends with it.  */
  sheet_say (sheet, &s, "b = 1-1/2 +- 1/4");
  stack_is (sheet, &s, "b", "high", "7/4");
  sheet_say (sheet, &s, "undo");
  stack_is (sheet, &s, "b", "high", "49/32");
  stack_is (sheet, &s, "7", "contributors.count", "0");
  said_is (&s, 0, "rss", "0");
  sheet_end (sheet, &s);
}

static void
undone_and_units (void **state)
{
  br_sheet *sheet = sheet_with ("units mm\na = 10 mm\nb = 1 in\ntolerance 0.5 on a\ntolerance 1/4 in on b");
  said s = SAID_ZERO;
  (void) state;
  stack_is (sheet, &s, "a + b", "low", "571/20");   /* 35.4 - 0.5 - 6.35 */
  said_is (&s, 0, "unit", "mm");
  said_is (&s, 0, "contributors.1.tolerance", "127/20");
  sheet_say (sheet, &s, "undo");
  stack_is (sheet, &s, "a + b", "low", "349/10");
  sheet_say (sheet, &s, "undo");
  stack_is (sheet, &s, "a + b", "low", "177/5");
  sheet_say (sheet, &s, "redo\nredo\ntolerance");
  assert_int_equal (said_first (&s, "tolerance"), 2);
  said_is (&s, 2, "exact", "1/2");
  said_is (&s, 3, "name", "b");
  said_is (&s, 3, "exact", "127/20");
  /* Plain sizes count in the sheet's unit also where they meet lengths.  */
  sheet_say (sheet, &s, "p = 4 +- 1/8");
  stack_is (sheet, &s, "p + 10 mm", "high", "113/8");
  sheet_say (sheet, &s, "q = 4\ntolerance 1 in on q");
  stack_is (sheet, &s, "q", "high", "147/5");
  sheet_end (sheet, &s);
}

static void
textbooks (void **state)
{
  check_data data;
  size_t rows = 0;
  (void) state;
  check_open (&data, "tolerances.txt", '|');
  while (check_next (&data))
    {
      br_sheet *sheet = sheet_with ("");
      said s = SAID_ZERO;
      assert_int_equal (data.fields, 5);
      for (char *c = data.field[0]; *c; c++)
        *c = *c == ';' ? '\n' : *c;
      sheet_say (sheet, &s, "%s", data.field[0]);
      stack_is (sheet, &s, data.field[1], "low", data.field[2]);
      said_is (&s, 0, "high", data.field[3]);
      sheet_end (sheet, &s);
      rows++;
    }
  assert_int_equal (rows, 7);
}

/* ---- Every corner of random linear formulas ---- */

#define MOST 6

static void
put_ratio (FILE *out, oracle x)
{
  char *text = oracle_text (x);
  fprintf (out, "(%s)", text);
  oracle_text_free (text);
}

static void
random_ratio (oracle z, int64_t limit)
{
  oracle_set_ratio (z, check_between (-limit, limit), check_between (1, 64));
}

/* Least and most of the sum over all 2^N corners.  */
static void
all_corners (oracle low, oracle high, int n, oracle *size, oracle *half, oracle *count)
{
  oracle sum, x;
  oracle_init (sum);
  oracle_init (x);
  for (int corner = 0; corner < 1 << n; corner++)
    {
      oracle_set_ratio (sum, 0, 1);
      for (int i = 0; i < n; i++)
        {
          if (corner >> i & 1)
            oracle_add (x, size[i], half[i]);
          else
            oracle_sub (x, size[i], half[i]);
          oracle_mul (x, x, count[i]);
          oracle_add (sum, sum, x);
        }
      if (!corner || oracle_cmp (sum, low) < 0)
        oracle_set (low, sum);
      if (!corner || oracle_cmp (sum, high) > 0)
        oracle_set (high, sum);
    }
  oracle_clear (sum);
  oracle_clear (x);
}

static void
expect (const said *s, const char *path, oracle x)
{
  char *text = oracle_text (x);
  said_is (s, 0, path, text);
  oracle_text_free (text);
}

static void
corners (void **state)
{
  (void) state;
  for (long run = check_times (150); run > 0; run--)
    {
      oracle size[MOST], half[MOST], count[MOST], low, high;
      int n = (int) check_between (1, MOST);
      br_sheet *sheet = sheet_with ("");
      said s = SAID_ZERO;
      char *formula = NULL;
      size_t length = 0;
      FILE *out = open_memstream (&formula, &length);
      oracle_init (low), oracle_init (high);
      for (int i = 0; i < n; i++)
        {
          char *line = NULL;
          size_t line_length = 0;
          FILE *set = open_memstream (&line, &line_length);
          oracle_init (size[i]), oracle_init (half[i]), oracle_init (count[i]);
          random_ratio (size[i], 500);
          random_ratio (half[i], 20);
          oracle_abs (half[i], half[i]);
          random_ratio (count[i], 90);
          fprintf (set, "n%d = ", i);
          put_ratio (set, size[i]);
          fprintf (set, "\ntolerance ");
          put_ratio (set, half[i]);
          fprintf (set, " on n%d\nd%d = n%d - 3\ne%d = 2 * d%d + d%d / 2", i, i, i, i, i, i);
          fclose (set);
          sheet_say (sheet, &s, "%s", line);
          free (line);
          /* count * n, by way of e = 5/2 (n - 3): (count - 5/2) n + e + 15/2.  */
          fprintf (out, "%se%d + 15/2 + n%d * (", i ? " + " : "", i, i);
          put_ratio (out, count[i]);
          fprintf (out, " - 5/2)");
        }
      fclose (out);
      all_corners (low, high, n, size, half, count);
      sheet_say (sheet, &s, "stack %s", formula);
      expect (&s, "low", low);
      expect (&s, "high", high);
      said_is (&s, 0, "linear", "true");
      free (formula);
      for (int i = 0; i < n; i++)
        oracle_clear (size[i]), oracle_clear (half[i]), oracle_clear (count[i]);
      oracle_clear (low), oracle_clear (high);
      sheet_end (sheet, &s);
    }
  oracle_end ();
}

/* ---- Curved formulas ---- */

/* X as twelve digits say it; those of an inexact value are off by no more than MPFR's nearest digit.  */
static double
decimal_of (const said *s, const char *path)
{
  return strtod (said_get (s, 0, path), NULL);
}

static void
curved (void **state)
{
  /* Sizes a, b with 1/16 and 1/32 about them.  EXACT: the ends are reached at corners.  */
  static const struct { const char *formula; double a, b; int exact; } rows[] =
  {
    { "a * b", 3, 1.5, 1 }, { "a / b", 3, 1.5, 1 }, { "diagonal(a, b)", 3, 4, 1 },
    { "wheel_gap(a + 4, b, 5)", 3, 3.5, 1 }, { "wheelbase_for(a, b, 5)", 0.5, 3.5, 1 },
    { "rise(a, b)", 5, 6, 1 }, { "radius_from(a, b)", 6, 1, 1 }, { "radius_from(a, b)", 2, 1, 0 },
    { "(a - 3)^2 + b^2", 3, 0, 0 }, { "abs(a - 3) + b", 3, 1, 0 }, { "max(a, b)", 3, 3.0625, 1 },
    { "a^2 - a * b", 1, 2, 0 }, { "sin(30 * a) + b", 3, 1, 0 }, { "sin(30 * a) + b", 1, 1, 1 },
    { "tan(10 * a) * cos(20 * b)", 2, 1, 1 }, { "atan(a) / b", 1, 20, 1 }, { "circumference(a) / b^3", 3, 2, 1 },
    { "nearest(a) + b", 3, 1, 1 }, { "nearest(a * b, 1/2)", 3, 1, 1 }, { "drill(a) - b", 0.3, 1, 1 },
    { "2^-3 * a^(2/3) / b^(1/2)", 3, 1, 1 }, { "min(a, b) * max(a, b)", 3, 3, 1 }, { "mean(a, b, a * b)", 2, 2, 1 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (""), *other = sheet_with ("");
      said s = SAID_ZERO;
      double least = 1e300, most = -1e300;
      sheet_say (sheet, &s, "a = %.17g\nb = %.17g\ntolerance 1/16 on a\ntolerance 1/32 on b", rows[i].a, rows[i].b);
      for (int x = -8; x <= 8; x++)
        for (int y = -4; y <= 4; y++)
          {
            sheet_say (other, &s, "a = %.17g + %d/128\nb = %.17g + %d/128", rows[i].a, x, rows[i].b, y);
            sheet_say (other, &s, "%s", rows[i].formula);
            double v = decimal_of (&s, "decimal");
            least = v < least ? v : least;
            most = v > most ? v : most;
          }
      sheet_say (sheet, &s, "stack %s", rows[i].formula);
      double low = decimal_of (&s, "low_decimal"), high = decimal_of (&s, "high_decimal");
      /* Half of the twelfth digit, as both are rounded to it.  */
      double digit = 1e-11 * (1 + (most > -least ? most : -least));
      if (low > least + digit || high < most - digit)
        fail_msg ("%s: %.12g .. %.12g is passed by %.12g .. %.12g", rows[i].formula, low, high, least, most);
      if (strcmp (said_get (&s, 0, "exact_bounds"), rows[i].exact ? "true" : "false") != 0)
        fail_msg ("%s: exact_bounds is %s", rows[i].formula, said_get (&s, 0, "exact_bounds"));
      /* The ends are reached; or they are no wider than a tenth more than what was seen.  */
      double room = rows[i].exact ? digit : 0.1 * (most - least);
      if (low < least - room || high > most + room)
        fail_msg ("%s: %.12g .. %.12g is wider than %.12g .. %.12g", rows[i].formula, low, high, least, most);
      br_sheet_free (other);
      sheet_end (sheet, &s);
    }
}

/* ---- Checks ---- */

static void
checks (void **state)
{
  static const struct { const char *rule, *state, *worst, *words; } rows[] =
  {
    { "a - b >= 1-15/32", "pass", "-1/64", "holds as drawn, may fail as cut" },
    { "a - b > 1-29/64", "pass", "0", "holds as drawn, may fail as cut" },
    { "a - b >= 1-29/64", "pass", "0", "holds as cut" },
    { "b <= a", "pass", "93/64", "holds as cut" },
    { "a - b <= 1", "fail", "-35/64", "" },
    { "a = 2 b", "pass", "-5/64", "holds as drawn, may fail as cut" },
    { "a != 3-1/64", "pass", "0", "holds as drawn, may fail as cut" },
    { "a != 3.5", "pass", "31/64", "holds as cut" },
    { "a * b < 4.51", "pass", "-5513/51200", "holds as drawn, may fail as cut" },
    { "c < 4", "pass", NULL, NULL }
  };
  br_sheet *sheet = sheet_with ("a = 3 +- 1/64\nb = 1-1/2\nc = 3\ntolerance 1/32 on b");
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      char rule[64];
      snprintf (rule, sizeof rule, "%s", rows[i].rule);
      char *two = strstr (rule, "2 b");
      if (two)
        two[1] = '*';
      sheet_say (sheet, &s, "check %s", rule);
      said_is (&s, 0, "state", rows[i].state);
      const char *worst = said_find (&s, 0, "worst_margin");
      if (!rows[i].worst)
        assert_string_equal (worst, "null");
      else
        {
          assert_string_equal (worst, rows[i].worst);
          said_is (&s, 0, "as_cut", rows[i].words);
        }
    }
  assert_int_equal (br_sheet_failing (sheet), 1);
  sheet_end (sheet, &s);
}

/* A tolerance that comes later tells of the check that it bears on, once.  */
static void
told_later (void **state)
{
  br_sheet *sheet = sheet_with ("a = 3\ncheck a >= 2-63/64  # fits");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "tolerance 1/32 on a");
  size_t at = said_first (&s, "check");
  said_is (&s, at, "worst_margin", "-1/64");
  said_is (&s, at, "as_cut", "holds as drawn, may fail as cut");
  sheet_say (sheet, &s, "z = 4");
  assert_int_equal (said_first (&s, "check"), s.count);
  sheet_say (sheet, &s, "a = 4");
  assert_int_equal (said_first (&s, "check"), s.count);
  sheet_say (sheet, &s, "a = 3");
  said_is (&s, said_first (&s, "check"), "worst_margin", "-1/64");
  assert_int_equal (br_sheet_failing (sheet), 0);
  sheet_end (sheet, &s);
}

/* A size that is given anew keeps how far it may be off, in the sheet and in its text, until another is given.  */
static void
stays (void **state)
{
  static const struct { const char *line, *tolerance, *written; } rows[] =
  {
    { "a = 4", "1/64", "a = 4 +- 1/64  # top\n" },
    { "a = 5 \t# side", "1/64", "a = 5 +- 1/64  # side\n" },
    { "a=6  ", "1/64", "a=6 +- 1/64  # side\n" },
    { "undo", NULL, "a = 5 +- 1/64  # side\n" },
    { "a = 7 +- 1/8", "1/8", "a = 7 +- 1/8  # side\n" },
    { "a = 8 +- 0 # dry", "0", "a = 8 +- 0 # dry\n" },
    { "a = 9", "0", "a = 9 +- 0  # dry\n" },
    { "forget a\na = 2", NULL, "a = 2\n" }
  };
  br_sheet *sheet = sheet_with ("a = 3 +- 1/64  # top");
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      check_ok (sheet_run (sheet, &s, rows[i].line));
      if (rows[i].tolerance)
        said_is (&s, 0, "tolerance", rows[i].tolerance);
      char *text = sheet_text (sheet);
      if (!strstr (text, rows[i].written))
        fail_msg ("`%s` left:\n%s", rows[i].line, text);
      free (text);
    }
  sheet_end (sheet, &s);
  /* In a file, too, where each line stays as it is.  */
  sheet = sheet_with ("a = 3 +- 1/64\na = 4");
  stack_is (sheet, &s, "a", "low", "255/64");
  sheet_end (sheet, &s);
}

/* ---- Shares ---- */

/* Shares that are fractions are told, whatever the slope is: a half of what no bound tells from it, and one whose
   last digit is a tie (3.125).  */
static void
shares (void **state)
{
  static const struct { const char *sheet, *stack, *first, *squares; } rows[] =
  {
    { "a = 1 +- 1/32\nb = 2 +- 1/32", "(a + b) * tan 10", "50%", "50%" },
    { "a = 1 +- 1/32\nb = 2 +- 1/32", "(a + b) * sqrt(1 + pi)", "50%", "50%" },
    { "a = 1 +- 1/32\nb = 2 +- 1/32", "(a - b) * sin(sqrt 2)", "50%", "50%" },
    { "a = 1 +- 1/32\nb = 2 +- 31/32", "(a + b) * sqrt(1 + pi)", "3.13%", "0.104%" },
    { "a = 1 +- 1/32\nb = 2 +- 31/32", "a + b", "3.13%", "0.104%" },
    { "a = 1 +- 1/32\nb = 2 +- 19/32", "(a + b) * sin 1", "5%", "0.276%" },
    { "a = 1 +- 1/32\nb = 2 +- 1/32", "a * sqrt(1 + pi) + 19 * b * sqrt(1 + pi)", "5%", "0.276%" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (rows[i].sheet);
      said s = SAID_ZERO;
      stack_is (sheet, &s, rows[i].stack, "contributors.0.share", rows[i].first);
      said_is (&s, 0, "contributors.0.share_of_squares", rows[i].squares);
      sheet_end (sheet, &s);
    }
}

/* ---- Shapes ---- */

/* What circles, boxes and lines measure is followed to the value that the sheet itself has, and ends that are
   said to be reached are what the sheet has there.  */
static void
shapes (void **state)
{
  static const char *const ones[] = { "circle one = a at x, y", "box one = a x b at x, y", "line one = x, y to b, a wide 1/4" };
  static const char *const asked[] = { "clear(one, other)", "right(one)", "top(one)", "left(one)", "bottom(one)", "centre_x(one)" };
  (void) state;
  for (long run = check_times (60); run > 0; run--)
    {
      said s = SAID_ZERO;
      br_sheet *sheet = sheet_with ("");
      int64_t a = check_between (4, 60), x = check_between (-99, 99);
      const char *what = asked[check_below (2) ? 0 : check_below (CHECK_COUNT (asked))];
      char value[64], line[200];
      sheet_say (sheet, &s, "a = %d/8 +- 1/64\nx = %d/8 +- 1/32\nb = %d/8\ny = %d/8", (int) a, (int) x,
                 (int) check_between (4, 60), (int) check_between (-40, 40));
      sheet_say (sheet, &s, "%s", ones[check_below (CHECK_COUNT (ones))]);
      snprintf (line, sizeof line, "%s at %d/8, %d/8", check_below (2) ? "circle other = a" : "box other = a x b",
                (int) check_between (-99, 99), (int) check_between (-40, 40));
      sheet_say (sheet, &s, "%s", line);
      sheet_say (sheet, &s, "%s", what);
      snprintf (value, sizeof value, "%s", said_get (&s, 0, "decimal"));
      stack_is (sheet, &s, what, "nominal_decimal", value);
      if (strcmp (said_get (&s, 0, "exact_bounds"), "true") == 0)
        {
          char low[64], high[64];
          int found = 0;
          snprintf (low, sizeof low, "%s", said_get (&s, 0, "low_decimal"));
          snprintf (high, sizeof high, "%s", said_get (&s, 0, "high_decimal"));
          for (int corner = 0; corner < 4; corner++)
            {
              sheet_say (sheet, &s, "a = %d/64 +- 1/64\nx = %d/32 +- 1/32\n%s", (int) a * 8 + (corner & 1 ? 1 : -1),
                         (int) x * 4 + (corner & 2 ? 1 : -1), what);
              const char *here = said_get (&s, s.count - 1, "decimal");
              found |= strcmp (here, low) == 0 ? 1 : 0;
              found |= strcmp (here, high) == 0 ? 2 : 0;
            }
          if (found != 3)
            fail_msg ("%s: %s .. %s is at no corner", what, low, high);
        }
      sheet_end (sheet, &s);
    }
}

/* How far an arc is from a box whose sizes are thirds, which no binary number is: the check at its worst is known, and what
   the sheet has at both ends of the tolerance lies inside the bounds.  */
static void
thirds (void **state)
{
  static const char design[] = "a = 16/3 in +- 1/16 in\ncircle wheel = a at a, 5\narc hood = fender(wheel, a, 1/2) 180 deg\n"
                               "box shelf = a x a at 57-1/3, 7\nb = clear(shelf, hood)";
  br_sheet *sheet = sheet_with (design);
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "check b <= 50 in");
  said_is (&s, 0, "as_cut", "holds as cut");
  sheet_say (sheet, &s, "stack b");
  const double low = atof (said_get (&s, 0, "low_decimal")), high = atof (said_get (&s, 0, "high_decimal"));
  static const char *const ends[] = { "a = 16/3 - 1/16", "a = 16/3", "a = 16/3 + 1/16" };
  for (size_t i = 0; i < CHECK_COUNT (ends); i++)
    {
      sheet_say (sheet, &s, "%s\nb * 1", ends[i]);
      const double at = atof (said_get (&s, s.count - 1, "decimal"));
      assert_true (low <= at && at <= high);
    }
  sheet_end (sheet, &s);
}

/* ---- The caller's MPFR ---- */

/* What is said does not depend on the exponent range and the flags of whoever calls, and they stay as they were.  */
static void
foreign_range (void **state)
{
  static const char text[] =
    "a = 700 +- 1/32\nb = 1/3 +- 1/64\nstack (a + b) * tan 10 / a^2\nstack sqrt(a) * b - nearest(a / 3)\n"
    "check a * b * sin 20 < 90\nfind x for x^3 - 40 * x = 2\nfind x for sin x = x / 100\nexplain a * sqrt 2\n"
    "arc brim = bend(5, 1) 70 deg at 1, 2\ncircle hub = 2 at 40, 40\nclear(brim, hub)\ndraw side";
  said wide = SAID_ZERO, narrow = SAID_ZERO;
  const mpfr_exp_t emin = mpfr_get_emin (), emax = mpfr_get_emax ();
  br_sheet *first = sheet_with (""), *second = sheet_with ("");
  (void) state;
  sheet_run (first, &wide, text);
  mpfr_set_emin (-3);
  mpfr_set_emax (3);
  mpfr_flags_clear (MPFR_FLAGS_ALL);
  mpfr_flags_set (MPFR_FLAGS_ERANGE);
  sheet_run (second, &narrow, text);
  assert_int_equal (mpfr_flags_save (), MPFR_FLAGS_ERANGE);
  assert_int_equal (mpfr_get_emin (), -3);
  assert_int_equal (mpfr_get_emax (), 3);
  mpfr_set_emin (emin);
  mpfr_set_emax (emax);
  assert_int_equal (wide.count, narrow.count);
  assert_int_equal (wide.fault_count, narrow.fault_count);
  for (size_t i = 0; i < wide.count; i++)
    {
      assert_int_equal (wide.records[i].size, narrow.records[i].size);
      assert_memory_equal (wide.records[i].pairs, narrow.records[i].pairs, wide.records[i].size);
    }
  said_clear (&wide);
  sheet_end (first, &narrow);
  br_sheet_free (second);
}

/* ---- What is wrong ---- */

static void
wrong (void **state)
{
  static const struct { const char *line; br_status status; size_t offset, length; } rows[] =
  {
    { "tolerance -1/32 on a", BR_DOMAIN, 10, 5 },
    { "tolerance sqrt 2 on a", BR_DOMAIN, 10, 6 },
    { "tolerance 1 sq in on a", BR_DOMAIN, 10, 7 },
    { "tolerance 1/32 at a", BR_SYNTAX, 15, 2 },
    { "tolerance 1/32 on", BR_SYNTAX, 17, 0 },
    { "tolerance 1/32 on a, 3", BR_SYNTAX, 21, 1 },
    { "tolerance 1/32 on a b", BR_SYNTAX, 20, 1 },
    { "tolerance nothing on a", BR_DOMAIN, 10, 7 },
    { "a = 3 +- -1", BR_DOMAIN, 9, 2 },
    { "stack", BR_SYNTAX, 5, 0 },
    { "stack unknown", BR_DOMAIN, 6, 7 },
    { "stack a + 1 in^2", BR_DOMAIN, 6, 10 },
    { "stack 1 + waits", BR_DOMAIN, 10, 5 },
    { "stack a a", BR_SYNTAX, 8, 1 },
    { "stack 1 / (a - 3)", BR_DOMAIN, 6, 11 },
    { "stack sqrt(a - 3)", BR_DOMAIN, 6, 11 },
    { "stack 1 / (a - 2)", BR_DOMAIN, 6, 11 },
    { "stack (2 in)^a", BR_DOMAIN, 6, 8 },
    { "stack area", BR_DOMAIN, 6, 4 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with ("a = 3 in +- 1\nwaits = missing_one\narea = 2 sq in +- 1 in");
      said s = SAID_ZERO;
      if (i >= 14 && i <= 17)
        sheet_say (sheet, &s, "a = 3 +- 1");
      br_status status = sheet_run (sheet, &s, rows[i].line);
      if (status != rows[i].status || s.fault_count != 1)
        fail_msg ("%s: status %d", rows[i].line, status);
      if (s.faults[0].error.offset != rows[i].offset || s.faults[0].error.length != rows[i].length)
        fail_msg ("%s: %zu+%zu: %s", rows[i].line, s.faults[0].error.offset, s.faults[0].error.length,
                  s.faults[0].error.message);
      /* Nothing was given.  */
      sheet_say (sheet, &s, "tolerance");
      assert_int_equal (s.count, 2);
      sheet_end (sheet, &s);
    }
}

/* ---- Long chains, and no memory ---- */

static void
long_chain (void **state)
{
  br_sheet *sheet = sheet_with ("x0 = 1 +- 1/64");
  said s = SAID_ZERO;
  char *text = NULL;
  size_t length = 0;
  FILE *out = open_memstream (&text, &length);
  (void) state;
  for (int i = 1; i <= 5000; i++)
    fprintf (out, "x%d = x%d + 1/2\n", i, i - 1);
  fclose (out);
  check_ok (sheet_run (sheet, &s, text));
  check_ok (sheet_run_small (sheet, &s, "stack x5000 - x4999", strlen ("stack x5000 - x4999")));
  said_is (&s, 0, "low", "1/2");
  said_is (&s, 0, "high", "1/2");
  stack_is (sheet, &s, "x5000", "high", "160065/64");
  free (text);
  sheet_end (sheet, &s);
}

static const char session[] =
  "a = 3 +- 1/64\nb = 1-1/2\ntolerance 1/32 on b, c\nc = a * b\nstack a - b\nstack diagonal(a, b) + nearest(a)\n"
  "stack a^2 - a * b\ncheck a - b >= 1-15/32\ntolerance 1/8 on c, d\nundo\ntolerance\na = 4";

static void
refused_memory (void **state)
{
  (void) state;
  refuse_each (session, "a = 3 +- 1/64\nstack 2 * a", "stack", "high", "193/32");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (by_hand), CHECK_TEST (undone_and_units), CHECK_TEST (textbooks), CHECK_TEST (corners),
    CHECK_TEST (curved), CHECK_TEST (checks), CHECK_TEST (told_later), CHECK_TEST (stays), CHECK_TEST (shares), CHECK_TEST (shapes), CHECK_TEST (thirds),
    CHECK_TEST (foreign_range), CHECK_TEST (wrong),
    CHECK_TEST (long_chain), CHECK_TEST (refused_memory),
  };
  return CHECK_RUN (tests);
}
