/* SPDX-License-Identifier: GPL-3.0-or-later
   find.c - the size that makes two values equal: random linear rules by another library, inverses of the
   shop's functions, polynomials with known roots, nothing and much to find, marks that keep checks.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "refusal.h"
#include "../sheet/oracle.h"

/* Random a x + b = c x + d, some by way of a derived dimension.  */
static void
linear (void **state)
{
  (void) state;
  for (long run = check_times (300); run > 0; run--)
    {
      br_sheet *sheet = sheet_with ("");
      said s = SAID_ZERO;
      oracle part[4], x, y;
      char *text[4];
      oracle_init (x), oracle_init (y);
      for (int i = 0; i < 4; i++)
        {
          oracle_init (part[i]);
          oracle_set_ratio (part[i], check_between (-400, 400), check_between (1, 64));
          text[i] = oracle_text (part[i]);
        }
      oracle_sub (x, part[3], part[1]);
      oracle_sub (y, part[0], part[2]);
      sheet_say (sheet, &s, "side = (%s) * x + k\nk = (%s)%s", text[0], text[1], check_below (2) ? "\nx = 5" : "");
      char line[256];
      snprintf (line, sizeof line, "find x for side = (%s) * x + (%s)", text[2], text[3]);
      br_status status = sheet_run (sheet, &s, line);
      if (oracle_is_zero (y))
        assert_int_equal (status, BR_DOMAIN);
      else
        {
          check_ok (status);
          oracle_div (x, x, y);
          char *answer = oracle_text (x);
          said_is (&s, 0, "exact", answer);
          said_is (&s, 0, "solutions", "1");
          said_is (&s, 0, "linear", "true");
          oracle_text_free (answer);
        }
      for (int i = 0; i < 4; i++)
        {
          oracle_text_free (text[i]);
          oracle_clear (part[i]);
        }
      oracle_clear (x), oracle_clear (y);
      sheet_end (sheet, &s);
    }
  oracle_end ();
}

/* (x - p)(x - q)(x - r) = 0, multiplied out, for different fractions.  */
static void
polynomials (void **state)
{
  (void) state;
  for (long run = check_times (40); run > 0; run--)
    {
      br_sheet *sheet = sheet_with ("");
      said s = SAID_ZERO;
      int64_t n[3];
      int d = 1 << check_below (6);
      n[0] = check_between (-1200 * d, 600 * d);
      n[1] = n[0] + check_between (1, 300);
      n[2] = n[1] + check_between (1, 300);
      sheet_say (sheet, &s, "find x for x^3 - (%" PRId64 "/%d) * x^2 + (%" PRId64 "/%d) * x = %" PRId64 " / %d",
                 n[0] + n[1] + n[2], d, n[0] * n[1] + n[1] * n[2] + n[0] * n[2], d * d, n[0] * n[1] * n[2],
                 d * d * d);
      assert_int_equal (s.count, 3);
      /* From zero up, and then from zero down.  */
      size_t under = 0;
      while (under < 3 && n[under] < 0)
        under++;
      for (size_t i = 0; i < 3; i++)
        {
          const int64_t right = i < 3 - under ? n[under + i] : n[2 - i];
          br_number x = BR_NUMBER_ZERO;
          char text[64];
          check_ok (br_number_set_ratio (&x, right, d));
          br_number_write (text, sizeof text, &x);
          said_is (&s, i, "exact", text);
          assert_null (strstr (said_get (&s, i, "message"), "others"));
          br_number_clear (&x);
        }
      sheet_end (sheet, &s);
    }
}

/* FORM with X in the place of each `%s`.  */
static void
put_in (char *text, size_t size, const char *form, const char *x)
{
  size_t length = 0;
  for (; *form && length + 1 < size; form++)
    if (form[0] == '%' && form[1] == 's')
      {
        length += (size_t) snprintf (text + length, size - length, "%s", x);
        form++;
      }
    else
      text[length++] = *form;
  text[length] = 0;
}

/* What a function gives for a size, looked for again, is that size: exactly, or to twelve digits where
   it cannot be shown that it is that fraction.  */
static void
inverses (void **state)
{
  static const struct { const char *left; int64_t low, high; int den; } rows[] =
  {
    { "wheel_gap(%s, 3-1/2, 5)", 80, 300, 16 }, { "wheelbase_for(%s, 3-1/2, 5)", 1, 90, 16 },
    { "wheelbase_for(1, 3-1/2, %s)", 8, 130, 16 }, { "rise(%s, 6)", 48, 400, 16 },
    { "rise(9, %s)", 1, 280, 16 }, { "radius_from(%s, 1-1/4)", 1, 300, 16 },
    { "chord(%s, 70)", 1, 300, 16 }, { "arc_length(4, %s)", 1, 300, 1 },
    { "circumference(%s)", 1, 300, 16 }, { "axle_length(%s, 3/4, 1/16, 1/32, 1/4)", 1, 300, 16 },
    { "fender_outer(%s, 1/2, 3/4)", 1, 300, 64 }, { "fender_gap(3, %s)", 1, 90, 64 },
    { "diagonal(%s, 3)", 0, 300, 16 }, { "1 / %s", 1, 300, 16 }, { "%s^5 + %s", -300, 300, 16 },
    { "atan(%s)", -300, 300, 16 }, { "sqrt(%s) * pi", 0, 300, 16 }, { "full(%s, 1/4) - 2", -90, 90, 16 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    for (long run = check_times (6); run > 0; run--)
      {
        br_sheet *sheet = sheet_with ("");
        said s = SAID_ZERO;
        char size[64], decimal[64], at[200], free_form[200];
        int64_t n = check_between (rows[i].low, rows[i].high);
        br_number x = BR_NUMBER_ZERO;
        check_ok (br_number_set_ratio (&x, n, rows[i].den));
        br_number_write (size, sizeof size, &x);
        br_number_write_decimal (decimal, sizeof decimal, NULL, &x, 12);
        br_number_clear (&x);
        char in[80];
        snprintf (in, sizeof in, "(%s)", size);
        put_in (at, sizeof at, rows[i].left, in);
        put_in (free_form, sizeof free_form, rows[i].left, "x");
        sheet_say (sheet, &s, "find x for %s = %s", free_form, at);
        size_t found = 0;
        /* A gap on the line may come with a caution.  */
        for (size_t k = 0; k < s.count; k++)
          found += strcmp (said_get (&s, k, "kind"), "caution")
                   && strcmp (said_get (&s, k, strcmp (said_get (&s, k, "exact"), "null") ? "exact" : "decimal"),
                           strcmp (said_get (&s, k, "exact"), "null") ? size : decimal) == 0;
        if (found != 1)
          fail_msg ("%s at %s: %zu records, the first %s %s", free_form, size, s.count,
                    said_get (&s, 0, "decimal"), said_get (&s, 0, "message"));
        sheet_end (sheet, &s);
      }
}

static const struct { const char *line; size_t count; const char *path, *value; } by_hand[] =
{
  { "find x for x^2 = 4", 2, "exact", "2" },
  { "find x for x^2 = -1", 1, "message", "no value of `x` from -1200 to 1200 makes it so" },
  { "find x for x^2 = 2", 2, "decimal", "1.41421356237" },
  { "find x for x^2 = 2", 2, "mark", "1-7/16" },
  { "find x for x^2 = 2", 2, "exact", "null" },
  { "find x for x^3 = 2", 1, "decimal", "1.25992104989" },
  { "find x for abs(x - 1) = 3", 2, "exact", "4" },
  { "find x for max(x, 3) = 4", 1, "exact", "4" },
  { "find x for (x - 1/3)^2 = 0", 1, "exact", "1/3" },
  { "find x for 6 / x = 2", 1, "exact", "3" },
  { "find x for 1 / x = 0", 1, "solutions", "0" },
  { "find x for sqrt(x) = 0", 1, "exact", "0" },
  { "find x for sqrt(x) = -1", 1, "solutions", "0" },
  { "find x for sqrt(x - 1) = 1", 1, "exact", "2" },
  { "find d for pi * d = 10", 1, "decimal", "3.18309886184" },
  { "find x for x + 1/2 in = 3", 1, "exact", "5/2" },
  { "find x for x * (2 in) = 6 sq in", 1, "exact", "3" },
  { "find x for radius(x) = -1", 1, "solutions", "0" },
  { "find g for wheelbase_for(g, 3, 3) = 2", 1, "exact", "-1" },
  { "find r for rise(r, 6) = 1", 1, "exact", "5" },
  { "find r for rise(r, 6) = 7", 1, "solutions", "0" },
  { "find x for sin(x) = 1/2", 8, "exact", "30" },
  { "find x for sin(3 * x) = 1/2", 8, "exact", "10" },
  { "find x for x^x = 4", 1, "exact", "2" },
  { "find w for (w - 5/2 in) * (w - 1 in) = 0 sq in", 2, "exact", "5/2" },
  { "find c for c^2 = 9", 2, "exact", "-3" },
  { "find v for v^2 = 9 sq in", 2, "exact", "3" },
  { "find w for w^2 = 1/4 sq in", 2, "exact", "1/2" },
  { "find w for w + 1 = 4 in", 1, "unit", "in" },
  { "find part_of for front = 3", 1, "exact", "13/2" },
  { "find x for 2^-1 * x^64 = 2^63", 2, "exact", "2" },
  { "find x for x^2 = 1300^2", 1, "solutions", "0" },
  { "find x for x = 1300", 1, "exact", "1300" },
  { "find x for x^2 + 10^-40 = 0", 1, "solutions", "0" },
  { "find x for (abs(x - 1) - 1 + x) * (x - 3) = 0", 2, "to", "1" },
  { "find x for (abs(x - 1/3) - 1/3 + x) * (x - 3) = 0", 2, "to", "1/3" },
  { "find x for sqrt(abs(x - 1) - 1 + x) = 0", 1, "to", "1" },
  { "find x for (abs(x - 1) - 1 + x) / (x + 2) = 0", 2, "to", "1" },
  { "find x for max((abs(x - 1) - 1 + x) * (x - 3), x - 1) = 0", 1, "to", "1" },
  { "find x for (abs(x - 1) - 1 + x) * up(x) = 0", 1, "to", "1" },
  { "find x for (up(x) - 3) * (x - 5) = 0", 2, "from", "47/16" },
  { "find x for sqrt(x^2) = x", 1, "from", "0" },
  { "find x for (abs(x + 2) + x + 2) / (x + 2) = 0", 1, "to", "-2" },
  { "find x for (max(x, 14) - 14)^2 * (x - 72) = 0", 2, "to", "14" },
  { "find x for -(abs(x - 1) - 1 + x) * (x - 3) = 0", 2, "to", "1" },
  { "find x for max(x, sqrt 2) = sqrt 2", 1, "exact", "0" },
  { "find x for (abs(x - sqrt 2) - sqrt 2 + x) * (x - 3) = 0", 2, "exact", "0" },
  { "find x for (x + sqrt 2 - abs(sqrt 2 + x)) * (x + 3) = 0", 2, "exact", "0" },
  { "find x for x + 1 / (x - 24) = (x^2 - 24 * x + 1) / (x - 24)", 2, "to", "24" },
  { "find x for x + 1/x = (x^2 + 1) / x", 2, "to", "0" },
  { "find x for 1 / (x^2 + 1)^-2 = x^4 + 2 * x^2 + 1", 1, "exact", "0" },
  { "find a for sin(a)^2 + cos(a)^2 = 1", 1, "exact", "0" },
  { "find a for cos(a) = 1 - 2 * sin(a / 2)^2", 1, "exact", "0" },
  /* Exponents that are no fraction: log 10 / log 2, log 2 / log 1.05, and one by mpmath 1.3.  */
  { "find x for 2^x = 10", 1, "decimal", "3.32192809489" },
  { "find n for 1.05^n = 2", 1, "decimal", "14.2066990829" },
  { "find x for 2^(x + 5) * (x - 3) = 64 * (x - 1)", 2, "decimal", "3.44856018432" },
  { "find x for (2^(x + 5) - 3^x) * max(x - 2, 0) = 0", 2, "to", "2" },
  { "find x for 2^(x^2) * max(x - 3, 0) = 0", 1, "to", "3" },
  { "find x for x^(1/x) = sqrt 2", 2, "exact", "2" },
  /* One value for all sizes at which there are roots.  */
  { "find x for sqrt(x) * sqrt(x) = x", 1, "from", "0" },
  { "find x for diagonal(x*cos 25, x*sin 25) = x", 1, "from", "0" },
  { "find x for (x + 1)^(1/3) * (x + 1)^(2/3) = x + 1", 1, "exact", "0" },
  { "find x for x^(1/2) * x^33 = x^(67/2)", 1, "from", "0" },
  { "find x for sqrt(x + 2) + sqrt(x + 3) = 1 / (sqrt(x + 3) - sqrt(x + 2))", 1, "exact", "0" },
  { "find x for sqrt(x + pi) * sqrt(x + pi) = x + pi", 8, "exact", "0" },
  { "find x for sqrt(x + 2) - sqrt(x + 3) = sqrt(x + 7) - pi", 2, "decimal", "1.32557244522" },
  { "find x for (sqrt(x) + 1)^2 = x + 2*sqrt(x) + 1", 1, "from", "0" },
  { "find x for x^20 * x^20 = x^40", 1, "exact", "0" },
  { "find a for sin(a)^20 * sin(a)^20 = sin(a)^40", 8, "exact", "0" },
  { "find a for tan(360*10^30 + a) = 1", 8, "exact", "45" },
  { "find a for tan(10^10 * a) = 2", 8, "decimal", "0.00000000634349488229" },
  /* Nothing is left open at poles, wherever they are.  */
  { "find a for tan(a) = 1", 8, "message", "nothing is set yet: write `a = ...` to take one; there are more than 8" },
  { "find a for tan(sqrt 2 * a) = 1", 8, "decimal", "31.8198051534" },
  { "find a for tan(a / 3) = 1", 4, "message", "nothing is set yet: write `a = ...` to take one" },
  { "find a for 1 / tan(a / 3) = 1", 4, "message", "nothing is set yet: write `a = ...` to take one" },
  { "find a for tan(a) - 1 / (a - sqrt 8100) = 1", 8, "decimal", "44.3653060334" },
  { "find x for 1 / (x - sqrt 2) - 1 / (x - sqrt 3) = 1", 1, "message", "no value of `x` from -1200 to 1200 makes it so" }
};

static void
hand (void **state)
{
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (by_hand); i++)
    {
      br_sheet *sheet = sheet_with ("w = 2 in\nfront = part_of - wheel\nwheel = 3.5\nc = -5/2\nv = -2 in");
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "%s", by_hand[i].line);
      if (s.count != by_hand[i].count || strcmp (said_get (&s, 0, by_hand[i].path), by_hand[i].value) != 0)
        fail_msg ("%s: %zu records, %s is %s: %s", by_hand[i].line, s.count, by_hand[i].path,
                  said_get (&s, 0, by_hand[i].path), said_get (&s, 0, "message"));
      said_is (&s, 0, "kind", "found");
      /* It proposes only.  */
      sheet_say (sheet, &s, "w");
      said_is (&s, 0, "exact", "2");
      sheet_end (sheet, &s);
    }
}

/* More than can be listed is said; and what cannot be told is not told.  */
static void
limits (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  volatile sig_atomic_t flag = 1;
  (void) state;
  sheet_say (sheet, &s, "find x for sin(x) = 1/2");
  assert_non_null (strstr (said_get (&s, 0, "message"), "more than 8"));
  double start = sheet_seconds ();
  /* Both sides are 10^-30 apart everywhere, which no interval of the left side shows.  */
  sheet_say (sheet, &s, "find x for x * (x - 1) - x^2 + x = 10^-30");
  said_is (&s, 0, "solutions", "0");
  assert_non_null (strstr (said_get (&s, 0, "message"), "there may be others"));
  /* Bounded work: tens of times more than it takes here.  */
  assert_true (sheet_seconds () - start < (check_watched () ? 200 : 20));
  br_sheet_watch (sheet, &flag);
  assert_int_equal (sheet_run (sheet, &s, "find x for x^2 = 3"), BR_STOPPED);
  sheet_end (sheet, &s);
}

/* Factors that are zero all over a band of sizes, up to or from a place, between two, or at one place; what they are
   multiplied to, raised to, divided by and nested in has their roots.  Ends are quarters, all different.  */
enum { UP_TO, FROM, BETWEEN, ONE, WITHOUT, KINDS };

typedef struct roots_of
{
  int from, to;                 /* quarters */
} roots_of;

#define FAR 4800                /* 1200 in quarters */

/* In the forms A and B stand for ends.  */
static void
put_factor (char *text, size_t size, int kind, int form, int a, int b)
{
  static const char *const forms[KINDS][3] =
  {
    { "(abs(x - A) - A + x)", "(max(x, A) - A)^2", "(sqrt((x - A)^2) + x - A)" },
    { "(x - A - abs(A - x))", "(A - min(x, A)) / (x^2 + 1)", "abs(x - abs(x - A) - A)" },
    { "(abs(x - A) + abs(x - B) - B + A)", "(max(A, min(x, B)) - x)", "max((x - A) * (x - B), 0)" },
    { "(x - A)", "(x - A)^3", "(x^2 - 2 * A * x + A^2)" },
    { "(x^2 + 1)", "(abs(x - A) + B^2 + 1)", "(2 + sin x)" }
  };
  size_t length = 0;
  for (const char *p = forms[kind][form]; *p; p++)
    if (*p == 'A' || *p == 'B')
      length += (size_t) snprintf (text + length, size - length, "(%d/4)", *p == 'A' ? a : b);
    else
      length += (size_t) snprintf (text + length, size - length, "%c", *p);
}

/* A factor's roots join ROWS, which go up.  */
static size_t
put_roots (roots_of *rows, size_t count, int from, int to)
{
  size_t kept = 0, i;
  for (i = 0; i < count; i++)
    if (rows[i].to < from || rows[i].from > to)
      rows[kept++] = rows[i];
    else
      {
        from = rows[i].from < from ? rows[i].from : from;
        to = rows[i].to > to ? rows[i].to : to;
      }
  for (i = kept; i > 0 && rows[i - 1].from > to; i--)
    rows[i] = rows[i - 1];
  rows[i] = (roots_of) { from, to };
  return kept + 1;
}

static int
is_quarters (const char *text, int quarters)
{
  br_number x = BR_NUMBER_ZERO;
  char want[64];
  check_ok (br_number_set_ratio (&x, quarters, 4));
  br_number_write (want, sizeof want, &x);
  br_number_clear (&x);
  return strcmp (text, want) == 0;
}

static int
has_row (const said *s, const roots_of *row)
{
  for (size_t i = 0; i < s->count; i++)
    if (row->from == row->to ? is_quarters (said_get (s, i, "exact"), row->from)
                               && strcmp (said_get (s, i, "from"), "null") == 0
        : (row->from == -FAR ? strcmp (said_get (s, i, "from"), "null") == 0
           : is_quarters (said_get (s, i, "from"), row->from))
          && (row->to == FAR ? strcmp (said_get (s, i, "to"), "null") == 0
              : is_quarters (said_get (s, i, "to"), row->to)))
      return 1;
  return 0;
}

static void
bands (void **state)
{
  (void) state;
  for (long run = check_times (40); run > 0; run--)
    {
      br_sheet *sheet = sheet_with ("");
      said s = SAID_ZERO;
      roots_of rows[4];
      char factors[4][200] = { "1", "1", "1", "1" };
      size_t count = 0, factor_count = 2 + check_below (2);
      for (size_t i = 0; i < factor_count; i++)
        {
          int kind = i == 0 ? (int) check_below (ONE) : (int) check_below (KINDS), form = (int) check_below (3);
          int a = (int) check_between (-400, 400), b = a + (int) check_between (1, 200);
          put_factor (factors[i], sizeof factors[i], kind, form, a, b);
          if (kind != WITHOUT)
            count = put_roots (rows, count, kind == UP_TO ? -FAR : a, kind == FROM ? FAR : kind == BETWEEN ? b : a);
        }
      sheet_say (sheet, &s, "find x for %s * %s * %s * %s = 0", factors[0], factors[1], factors[2], factors[3]);
      int right = s.count == count;
      for (size_t i = 0; i < count; i++)
        right = right && has_row (&s, &rows[i]);
      if (!right)
        fail_msg ("%s * %s * %s * %s = 0: %zu rows for %zu, the first %s from %s to %s: %s", factors[0], factors[1], factors[2],
                  factors[3], s.count, count, said_get (&s, 0, "exact"), said_get (&s, 0, "from"), said_get (&s, 0, "to"),
                  said_get (&s, 0, "message"));
      sheet_end (sheet, &s);
    }
}

static void
keeping (void **state)
{
  br_sheet *sheet = sheet_with ("w = 9\ngap = w - 7\ncheck gap >= 2.3\ncheck w < 12 1/4\nscrap = 1\ncheck scrap > 0");
  said s = SAID_ZERO;
  (void) state;
  sheet_say (sheet, &s, "find w for 3 * w = 28");       /* 9-1/3: gap 2.333 */
  said_is (&s, 0, "mark", "9-5/16");
  said_is (&s, 0, "keeping.count", "2");
  said_is (&s, 0, "keeping.0.value", "149/16");
  said_is (&s, 0, "keeping.0.side", "below");
  said_is (&s, 0, "keeping.1.value", "75/8");
  sheet_say (sheet, &s, "find w for 3 * w = 27.6");     /* 9-1/5: gap 2.2 */
  said_is (&s, 0, "keeping.count", "1");
  said_is (&s, 0, "keeping.0.side", "above");
  said_is (&s, 0, "keeping.0.value", "149/16");
  sheet_say (sheet, &s, "find w for w^2 = 150");        /* 12.247: the mark over it is 12-1/4 */
  said_is (&s, 0, "mark", "12-1/4");
  said_is (&s, 0, "keeping.count", "1");
  said_is (&s, 0, "keeping.0.mark", "12-3/16");
  sheet_say (sheet, &s, "find w for w = 100");
  said_is (&s, 0, "keeping.count", "0");
  assert_non_null (strstr (said_get (&s, 0, "message"), "no mark"));
  sheet_say (sheet, &s, "find w for w = 9-3/8");
  said_is (&s, 0, "keeping.count", "1");
  said_is (&s, 0, "keeping.0.side", "on");
  sheet_say (sheet, &s, "scrap = -1");
  sheet_say (sheet, &s, "find w for w = 9-3/8");
  said_is (&s, 0, "keeping.count", "0");
  assert_non_null (strstr (said_get (&s, 0, "message"), "`scrap > 0` fails"));
  /* A metric sheet measures with its own ruler.  */
  sheet_say (sheet, &s, "scrap = 1\nunits mm\nw = 1 in\nfind w for 3 * w = 50 mm + 0 in");
  size_t at = said_first (&s, "found");
  said_is (&s, at, "exact", "50/3");
  said_is (&s, at, "mark", "17 mm");
  sheet_end (sheet, &s);
}

/* A check that cannot be asked is named, and no mark is promised.  The sheet's other checks hold.  */
static void
keeping_unknown (void **state)
{
  static const struct { const char *sheet, *line, *count, *said; } rows[] =
  {
    { "w = 2\ncheck (3 in)^w <= 9 sq in", "find w for 2 * w = 4", "0", "`(3 in)^w <= 9 sq in` cannot be followed from `w`" },
    { "w = 2\ncheck cos(sqrt 2)^2 + sin(sqrt 2)^2 = 1", "find w for 2 * w = 6", "0", "is undecided whatever `w` is" },
    { "w = 2\ncheck w <= room", "find w for 2 * w = 6", "1", "`w <= room` was not asked: it waits for room" },
    { "w = 2\ncheck w <= 4", "find w for 2 * w = 6", "1", "nothing is set yet" }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with (rows[i].sheet);
      said s = SAID_ZERO;
      sheet_say (sheet, &s, "%s", rows[i].line);
      said_is (&s, 0, "keeping.count", rows[i].count);
      if (!strstr (said_get (&s, 0, "message"), rows[i].said))
        fail_msg ("%s: %s", rows[i].line, said_get (&s, 0, "message"));
      sheet_end (sheet, &s);
    }
}

static void
wrong (void **state)
{
  static const struct { const char *line; br_status status; size_t offset, length; } rows[] =
  {
    { "find", BR_SYNTAX, 4, 0 }, { "find 3 for x = 1", BR_SYNTAX, 5, 1 },
    { "find x", BR_SYNTAX, 6, 0 }, { "find x with x = 1", BR_SYNTAX, 7, 4 },
    { "find x for x", BR_SYNTAX, 12, 0 }, { "find x for x < 3", BR_SYNTAX, 13, 1 },
    { "find x for x = ", BR_SYNTAX, 15, 0 }, { "find x for x = 3 3", BR_SYNTAX, 17, 1 },
    { "find x for y = 3", BR_DOMAIN, 11, 1 }, { "find x for w = 3", BR_DOMAIN, 5, 1 },
    { "find x for x - x = 0", BR_DOMAIN, 5, 1 }, { "find round for round = 3", BR_SYNTAX, 5, 5 },
    { "find sqrt for 3 = 3", BR_SYNTAX, 5, 4 },
    { "find w for w * w = 3 in", BR_DOMAIN, 11, 12 },
    { "find x for x + waits = 3", BR_DOMAIN, 15, 5 }
  };
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      br_sheet *sheet = sheet_with ("w = 2 in\nwaits = missing_one");
      said s = SAID_ZERO;
      br_status status = sheet_run (sheet, &s, rows[i].line);
      if (status != rows[i].status || s.fault_count != 1 || s.count != 0)
        fail_msg ("%s: status %d, %zu records", rows[i].line, status, s.count);
      if (s.faults[0].error.offset != rows[i].offset || s.faults[0].error.length != rows[i].length)
        fail_msg ("%s: %zu+%zu: %s", rows[i].line, s.faults[0].error.offset, s.faults[0].error.length,
                  s.faults[0].error.message);
      sheet_end (sheet, &s);
    }
}

static const char session[] =
  "w = 9\ngap = wheel_gap(w, 3, 5)\ncheck gap >= 2\nfind w for 3 * w = 28\nfind w for gap = 5\nfind x for x^2 = 4\n"
  "find x for x^2 = -1\nfind d for d * pi = 10";

static void
refused_memory (void **state)
{
  (void) state;
  refuse_each (session, "find z for 2 * z = 7", "found", "exact", "7/2");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (linear), CHECK_TEST (polynomials), CHECK_TEST (inverses), CHECK_TEST (hand),
    CHECK_TEST (limits), CHECK_TEST (bands), CHECK_TEST (keeping), CHECK_TEST (keeping_unknown), CHECK_TEST (wrong), CHECK_TEST (refused_memory),
  };
  return CHECK_RUN (tests);
}
