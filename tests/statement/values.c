/* SPDX-License-Identifier: GPL-3.0-or-later
   values.c - a sheet for programs: dimensions read and set as values, what stands on it in order.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "sheet/support.h"

#define CART \
  "wheel = 3-1/2 in  # turned\nbase = 2 * wheel\narea = wheel * 2 in\nturn = 30 deg\ncount = 4\nopen_end = missing_one + 1\n" \
  "side = sqrt(2) * 1 in\n"

static void
is_value (const br_sheet *sheet, const char *name, const char *right, br_dimension dimension)
{
  br_real value = BR_REAL_ZERO;
  br_dimension kind = 99;
  br_error error = { .status = BR_OK };
  if (br_sheet_get (&value, &kind, sheet, name, &error) != BR_OK)
    fail_msg ("%s, which should be %s: %s", name, right, error.message);
  assert_int_equal (kind, dimension);
  if (right)
    check_is (br_real_rational (&value), right);
  br_real_clear (&value);
}

static void
got (void **state)
{
  br_sheet *sheet = sheet_with (CART);
  br_real value = BR_REAL_ZERO;
  br_dimension kind = 99;
  br_error error;
  (void) state;
  is_value (sheet, "wheel", "7/2", BR_LENGTH);
  is_value (sheet, "base", "7", BR_LENGTH);
  is_value (sheet, "area", "7", BR_AREA);
  is_value (sheet, "turn", "30", BR_ANGLE);
  is_value (sheet, "count", "4", BR_PLAIN);
  is_value (sheet, "side", NULL, BR_LENGTH);
  check_ok (br_sheet_get (&value, NULL, sheet, "count", NULL));
  static const struct { const char *name, *message; } wrong[] = {
    { "nothing", "there is no `nothing`" }, { "open_end", "`open_end` waits" }, { "missing_one", "there is no" },
    { NULL, "NULL was given" }, { "", "there is no" },
  };
  for (size_t i = 0; i < CHECK_COUNT (wrong); i++)
    {
      assert_int_equal (br_sheet_get (&value, &kind, sheet, wrong[i].name, &error), BR_DOMAIN);
      assert_non_null (strstr (error.message, wrong[i].message));
      assert_int_equal (br_sheet_get (&value, &kind, sheet, wrong[i].name, NULL), BR_DOMAIN);
    }
  assert_int_equal (kind, 99);
  check_is (br_real_rational (&value), "4");
  br_sheet_free (sheet);
}

/* 3/2 sqrt 2 / pi - 5, which a line of a sheet says exactly.  */
static void
make_sum (br_real *x)
{
  br_real y = BR_REAL_ZERO;
  check_ok (br_number_set_int (&x->rational, 2));
  check_ok (br_real_sqrt (x, x, 0));
  check_ok (br_real_pi (&y));
  check_ok (br_real_div (x, x, &y, 0));
  check_ok (br_number_set_ratio (&y.rational, 3, 2));
  br_real_clear (&y);
  check_ok (br_number_set_ratio (&y.rational, 3, 2));
  check_ok (br_real_mul (x, x, &y));
  check_ok (br_number_set_int (&y.rational, 5));
  check_ok (br_real_sub (x, x, &y));
}

/* A sum is written as one would type it, and is the same value for it.  */
static void
written (void **state)
{
  static const struct { const char *typed, *formula; br_dimension kind; } rows[] = {
    { "pi", "pi", BR_PLAIN }, { "pi", "1 in * pi", BR_LENGTH }, { "-pi", "-pi", BR_PLAIN }, { "3/2 * sqrt(2)", "3/2 * sqrt(2)", BR_PLAIN },
    { "sqrt(2) * pi", "1 sq in * sqrt(2) * pi", BR_AREA }, { "-sqrt(2) / 4", "-1/4 deg * sqrt(2)", BR_ANGLE },
    { "pi^2 / 2", "1/2 * pi^(2)", BR_PLAIN }, { "1/pi", "pi^(-1)", BR_PLAIN }, { "sqrt(2)", "1 cu in * sqrt(2)", BR_VOLUME },
    { "7/2", "7/2 in", BR_LENGTH }, { "-2", "-2", BR_PLAIN }, { "1 - pi - sqrt(3)", NULL, BR_LENGTH },
  };
  br_sheet *sheet = sheet_with ("other = 2\n");
  br_real x = BR_REAL_ZERO, back = BR_REAL_ZERO;
  said s = SAID_ZERO;
  (void) state;
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      int order = 9;
      br_item item = BR_ITEM_ZERO;
      sheet_say (sheet, &s, "from = %s", rows[i].typed);
      check_ok (br_sheet_get (&x, NULL, sheet, "from", NULL));
      check_ok (br_sheet_set (sheet, "other", &x, rows[i].kind, NULL));
      check_ok (br_sheet_get (&back, NULL, sheet, "other", NULL));
      check_ok (br_real_cmp (&order, &back, &x, 0));
      assert_int_equal (order, 0);
      check_ok (br_sheet_next (&item, sheet, BR_ITEM_DIMENSION, NULL));
      assert_string_equal (item.name, "other");
      if (rows[i].formula)
        assert_string_equal (item.formula, rows[i].formula);
    }
  br_real_clear (&x);
  br_real_clear (&back);
  sheet_end (sheet, &s);
}

/* Set and got again is the same, in each kind; what depends on it moves; undo takes it back.  */
static void
set (void **state)
{
  static const br_dimension kinds[] = { BR_PLAIN, BR_LENGTH, BR_AREA, BR_VOLUME, BR_ANGLE };
  static const char *const numbers[] = { "0", "5", "-3/8", "19/8", "1/3", "100000000000000000000000000000/7" };
  br_sheet *sheet = sheet_with ("units mm\n");
  br_real sum = BR_REAL_ZERO, back = BR_REAL_ZERO, x = BR_REAL_ZERO;
  said s = SAID_ZERO;
  (void) state;
  make_sum (&sum);
  for (size_t k = 0; k < CHECK_COUNT (kinds); k++)
    {
      br_dimension kind = 99;
      for (size_t i = 0; i < CHECK_COUNT (numbers); i++)
        {
          check_ok (br_number_read (&x.rational, numbers[i], strlen (numbers[i]), NULL));
          check_ok (br_sheet_set (sheet, "size", &x, kinds[k], NULL));
          is_value (sheet, "size", numbers[i], kinds[k]);
        }
      int order = 9;
      check_ok (br_sheet_set (sheet, "size", &sum, kinds[k], NULL));
      check_ok (br_sheet_get (&back, &kind, sheet, "size", NULL));
      check_ok (br_real_cmp (&order, &back, &sum, 0));
      assert_int_equal (order, 0);
      assert_int_equal (kind, kinds[k]);
    }
  br_real_clear (&x);
  check_ok (br_number_set_int (&x.rational, 2));
  check_ok (br_sheet_set (sheet, "wheel", &x, BR_LENGTH, NULL));
  sheet_say (sheet, &s, "base = wheel + 1 in");
  check_ok (br_number_set_int (&x.rational, 4));
  check_ok (br_sheet_set (sheet, "wheel", &x, BR_LENGTH, NULL));
  is_value (sheet, "base", "5", BR_LENGTH);
  sheet_say (sheet, &s, "undo");
  is_value (sheet, "base", "3", BR_LENGTH);
  br_real_clear (&sum);
  br_real_clear (&back);
  sheet_end (sheet, &s);
}

static void
refused (void **state)
{
  br_sheet *sheet = sheet_with ("wheel = 2 in\ninverse = 1 / wheel\n");
  br_real zero = BR_REAL_ZERO, curve = BR_REAL_ZERO, long_one = BR_REAL_ZERO;
  br_error error;
  (void) state;
  check_ok (br_number_set_int (&curve.rational, 10));
  check_ok (br_real_sin (&curve, &curve));
  check_ok (br_number_set_int (&long_one.rational, 3));
  check_ok (br_number_pow (&long_one.rational, &long_one.rational, 200000));
  const struct { const char *name; const br_real *value; br_dimension dimension; br_status status; } rows[] = {
    { NULL, &zero, BR_LENGTH, BR_DOMAIN }, { "x", NULL, BR_LENGTH, BR_DOMAIN }, { "x", &zero, 4, BR_DOMAIN },
    { "x", &zero, -1, BR_DOMAIN }, { "", &zero, BR_LENGTH, BR_SYNTAX }, { "x y", &zero, BR_LENGTH, BR_SYNTAX },
    { "x # y", &zero, BR_LENGTH, BR_SYNTAX }, { "x\nquit", &zero, BR_LENGTH, BR_SYNTAX }, { "2x", &zero, BR_LENGTH, BR_SYNTAX },
    { "x = 1 +", &zero, BR_LENGTH, BR_SYNTAX }, { "x", &curve, BR_LENGTH, BR_DOMAIN }, { "x", &long_one, BR_PLAIN, BR_TOO_BIG },
    { "wheel", &zero, BR_LENGTH, BR_DOMAIN },   /* the inverse of it */
  };
  for (size_t i = 0; i < CHECK_COUNT (rows); i++)
    {
      error.status = BR_OK;
      if (br_sheet_set (sheet, rows[i].name, rows[i].value, rows[i].dimension, &error) != rows[i].status)
        fail_msg ("row %zu: %s", i, error.message);
      assert_int_equal (error.status, rows[i].status);
      assert_true (*error.message != 0);
      assert_int_equal (br_sheet_set (sheet, rows[i].name, rows[i].value, rows[i].dimension, NULL), rows[i].status);
    }
  is_value (sheet, "wheel", "2", BR_LENGTH);
  assert_int_equal (br_sheet_get (&zero, NULL, sheet, "x", NULL), BR_DOMAIN);
  br_real_clear (&curve);
  br_real_clear (&long_one);
  br_sheet_free (sheet);
}

/* "NAME formula (note) state" of each item, a line each.  */
static void
items (const br_sheet *sheet, br_item_kind kind, const char *right)
{
  char found[2000] = "";
  br_item item = BR_ITEM_ZERO;
  static const char states[] = "KWXPFU";
  for (;;)
    {
      check_ok (br_sheet_next (&item, sheet, kind, NULL));
      if (!item.name)
        break;
      size_t n = strlen (found);
      snprintf (found + n, sizeof found - n, "%s[%s](%s)%c\n", item.name, item.formula, item.note, states[item.state]);
    }
  assert_string_equal (found, right);
}

static void
in_order (void **state)
{
  br_sheet *sheet = sheet_with ("stock pine = 3/4 x 3-1/2 x 48\nb = 2 in\na = b + 1 in  # sum\nc = d\ncheck a > b  # more\n"
                                "check b > a\ncheck d < 1\npart slat = 6 x 2 from pine  # five\npart rail = d x 2 from pine\n"
                                "part odd = b - 1 in x 2 from pine\ncircle w = 2 at 0, 0  # wheel\nbox deck = 2 x d at 0, 0\nb = 1 in\n"
                                "forget a\na = b + 2 in\ncheck a < b\nundo\ncircle gone = 2 at 0, 0\nundo\n");
  br_item item = BR_ITEM_ZERO;
  (void) state;
  items (sheet, BR_ITEM_PART, "slat[](five)K\nrail[]()W\nodd[]()X\n");
  items (sheet, BR_ITEM_SHAPE, "w[](wheel)K\ndeck[]()W\n");
  items (sheet, BR_ITEM_CHECK, "[a > b](more)P\n[b > a]()F\n[d < 1]()W\n");
  assert_int_equal (br_sheet_next (&item, sheet, (br_item_kind) 9, NULL), BR_DOMAIN);
  assert_null (item.name);
  br_sheet_free (sheet);
  sheet = sheet_with ("b = 2 in\na = b + 1 in  # sum\nc = d\nb = 1 in\n");
  items (sheet, BR_ITEM_DIMENSION, "b[1 in]()K\na[b + 1 in](sum)K\nc[d]()W\n");
  br_sheet_free (sheet);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (got), cmocka_unit_test (set), cmocka_unit_test (written), cmocka_unit_test (refused), cmocka_unit_test (in_order),
  };
  CHECK_RUN (tests);
}
