/* SPDX-License-Identifier: GPL-3.0-or-later
   formulas.c - random formulas, printed as text with no more brackets than they need, and read
   again by the language, against the rationals of another library.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "../sheet/oracle.h"
#include "../sheet/support.h"

#define DEPTH 6

/* How tightly a text binds: a sum least, a whole number or brackets most; a power of a fraction wants brackets.  */
typedef enum level { SUM, PRODUCT, SIGNED, POWER, FRACTION, PRIMARY } level;

/* A formula: its text, how it binds, its value unless it has NONE (a division by zero).  */
typedef struct formula
{
  br_text text;
  level binds;
  oracle value;
  int none;
} formula;

static void make (formula *f, int depth);

/* Puts F into OUT, in brackets if it binds less than LEAST, or sometimes anyway.  */
static void
put (br_text *out, const formula *f, level least)
{
  int brackets = f->binds < least || check_below (20) == 0;
  br__text_printf (out, brackets ? "(%s)" : "%s", br__text_string (&f->text));
}

static void
end (formula *f)
{
  br__text_clear (&f->text);
  oracle_clear (f->value);
}

static void
make_number (formula *f)
{
  int64_t whole = check_between (0, check_below (4) ? 12 : 100000), d, n;
  f->binds = PRIMARY;
  switch (check_below (5))
    {
    case 0:
      br__text_printf (&f->text, "%" PRId64, whole);
      oracle_set_ratio (f->value, whole, 1);
      break;
    case 1:     /* a decimal */
      n = check_between (0, 999);
      br__text_printf (&f->text, "%" PRId64 ".%03" PRId64, whole, n);
      oracle_set_ratio (f->value, whole * 1000 + n, 1000);
      break;
    case 2:     /* a fraction, proper or not */
      d = check_between (1, 64);
      f->binds = FRACTION;
      br__text_printf (&f->text, "%" PRId64 "/%" PRId64, whole, d);
      oracle_set_ratio (f->value, whole, d);
      break;
    default:    /* a mixed number, with a hyphen or a blank */
      d = check_between (2, 64);
      f->binds = FRACTION;
      n = check_between (1, d - 1);
      br__text_printf (&f->text, "%" PRId64 "%c%" PRId64 "/%" PRId64, whole,
                       check_below (2) ? '-' : ' ', n, d);
      oracle_set_ratio (f->value, whole * d + n, d);
      break;
    }
}

static void
make_binary (formula *f, int depth)
{
  static const char *const signs[] = { " + ", " - ", " * ", " / ", "\xc3\x97", " \xc3\xb7 ", " \xe2\x88\x92 ", "+ " };
  static const char operations[] = "+-*/*/-+";
  size_t k = check_below (CHECK_COUNT (signs));
  formula x, y;
  make (&x, depth - 1);
  make (&y, depth - 1);
  f->none = x.none || y.none;
  f->binds = strchr ("+-", operations[k]) ? SUM : PRODUCT;
  put (&f->text, &x, f->binds);
  br__text_puts (&f->text, signs[k]);
  put (&f->text, &y, f->binds + 1);
  if (f->none)
    ;
  else if (operations[k] == '+')
    oracle_add (f->value, x.value, y.value);
  else if (operations[k] == '-')
    oracle_sub (f->value, x.value, y.value);
  else if (operations[k] == '*')
    oracle_mul (f->value, x.value, y.value);
  else if (oracle_is_zero (y.value))
    f->none = 1;
  else
    oracle_div (f->value, x.value, y.value);
  end (&x);
  end (&y);
}

static void
make_power (formula *f, int depth)
{
  int64_t n = check_between (-3, 3);
  formula x;
  make (&x, depth - 3);
  f->none = x.none;
  f->binds = POWER;
  put (&f->text, &x, PRIMARY);
  br__text_printf (&f->text, check_below (2) ? "^%" PRId64 : " ^ %" PRId64, n);
  oracle_set_ratio (f->value, 1, 1);
  for (int64_t i = 0; i < (n < 0 ? -n : n) && !f->none; i++)
    oracle_mul (f->value, f->value, x.value);
  if (n < 0 && !f->none)
    {
      f->none = oracle_is_zero (x.value);
      oracle_set_ratio (x.value, 1, 1);
      if (!f->none)
        oracle_div (f->value, x.value, f->value);
    }
  end (&x);
}

static void
make_minus (formula *f, int depth)
{
  formula x;
  make (&x, depth - 1);
  f->none = x.none;
  f->binds = SIGNED;
  br__text_puts (&f->text, check_below (4) ? "-" : "\xe2\x88\x92");
  put (&f->text, &x, SIGNED);
  oracle_neg (f->value, x.value);
  end (&x);
}

/* abs, bare or not; min, max, sum and mean of up to four.  */
static void
make_call (formula *f, int depth)
{
  static const char *const names[] = { "abs", "min", "max", "sum", "mean" };
  size_t which = check_below (CHECK_COUNT (names));
  int64_t count = which ? check_between (1, 4) : 1;
  oracle n;
  f->binds = PRIMARY;
  br__text_printf (&f->text, "%s(", names[which]);
  for (int64_t i = 0; i < count; i++)
    {
      formula x;
      make (&x, depth - 2);
      f->none |= x.none;
      br__text_puts (&f->text, i ? ", " : "");
      put (&f->text, &x, SUM);
      if (i == 0)
        oracle_set (f->value, x.value);
      else if (which >= 3)
        oracle_add (f->value, f->value, x.value);
      else if ((which == 1) == (oracle_cmp (x.value, f->value) < 0))
        oracle_set (f->value, x.value);
      end (&x);
    }
  br__text_putc (&f->text, ')');
  oracle_init (n);
  oracle_set_ratio (n, count, 1);
  if (which == 4)
    oracle_div (f->value, f->value, n);
  else if (which == 0)
    oracle_abs (f->value, f->value);
  oracle_clear (n);
}

static void
make (formula *f, int depth)
{
  memset (f, 0, sizeof *f);
  oracle_init (f->value);
  uint64_t choice = check_below (12);
  if (depth <= 0 || choice == 0)
    make_number (f);
  else if (choice == 1)
    make_minus (f, depth);
  else if (choice == 2)
    make_power (f, depth);
  else if (choice == 3)
    make_call (f, depth);
  else
    make_binary (f, depth);
}

static void
check_formula (br_sheet *sheet, said *s, int depth)
{
  formula f;
  make (&f, depth);
  const char *text = br__text_string (&f.text);
  br_status status = sheet_run (sheet, s, text);
  if (f.none)
    {
      if (status != BR_DOMAIN || strstr (s->faults[0].error.message, "division by zero") == NULL)
        fail_msg ("%s: divides by zero, but was %s", text, br_status_name (status));
    }
  else
    {
      char *expected = oracle_text (f.value);
      if (status != BR_OK)
        fail_msg ("%s: %s", text, s->faults[0].error.message);
      if (strcmp (said_get (s, 0, "exact"), expected) != 0)
        fail_msg ("%s is %s where %s has %s", text, said_get (s, 0, "exact"), ORACLE, expected);
      /* What it was read as reads back as the same.  */
      char *echo = strdup (said_get (s, 0, "expression"));
      if (sheet_run (sheet, s, echo) != BR_OK || strcmp (said_get (s, 0, "exact"), expected) != 0
          || strcmp (said_get (s, 0, "expression"), echo) != 0)
        fail_msg ("%s was read as %s, which is not the same", text, echo);
      free (echo);
      oracle_text_free (expected);
    }
  end (&f);
}

static void
random_formulas (void **state)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  (void) state;
  for (long i = check_times (10000); i > 0; i--)
    check_formula (sheet, &s, (int) check_between (1, DEPTH));
  sheet_end (sheet, &s);
  oracle_end ();
}

/* A formula of names is worth what the same formula of their values is, in brackets.  */
static void
names_stand_for_values (void **state)
{
  said s = SAID_ZERO;
  (void) state;
  for (long i = check_times (300); i > 0; i--)
    {
      br_sheet *sheet = sheet_with ("");
      formula x, y;
      make (&x, 3);
      make (&y, 3);
      if (!x.none && !y.none)
        {
          const char *a = br__text_string (&x.text), *b = br__text_string (&y.text);
          sheet_say (sheet, &s, "z = a - b * a\nb = %s\na = %s\nz - ((%s) - (%s) * (%s))", b, a, a, b, a);
          said_is (&s, 3, "exact", "0");
        }
      end (&x);
      end (&y);
      br_sheet_free (sheet);
    }
  said_clear (&s);
  oracle_end ();
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (random_formulas),
    CHECK_TEST (names_stand_for_values),
  };
  return CHECK_RUN (tests);
}
