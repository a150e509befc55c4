/* SPDX-License-Identifier: GPL-3.0-or-later
   shop.c - the shop's functions said three ways: their rule as a formula that the language works out, their
   call in the language, and the call in C.  At random sizes all three are one value.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "formula/operate.h"
#include "../sheet/support.h"

typedef struct sizes
{
  br_real value[BR__SHOP_MAX_ARGS];
  const br_real *pointer[BR__SHOP_MAX_ARGS];
  char text[BR__SHOP_MAX_ARGS][32];
} sizes;

/* Sizes as F needs them: over zero, from zero, an angle, any.  Now and then a size that it cannot
   bear.  */
static void
random_sizes (sizes *z, const br__function *f)
{
  static const int64_t dens[] = { 1, 2, 4, 8, 16, 32, 64, 10, 7 };
  int64_t most = strcmp (f->name, "drill") == 0 ? 1 : 20;   /* inches */
  memset (z, 0, sizeof *z);
  for (size_t i = 0; i < br__function_least (f); i++)
    {
      int64_t d = dens[check_below (CHECK_COUNT (dens))], n = check_between (1, most * d);
      if (f->needs[i] == 'a')
        n = check_below (2) ? 30 * check_between (1, 12) * d : check_between (1, 360 * d);
      if (check_below (40) == 0)
        n = -n;
      else if (check_below (20) == 0)
        n = 0;
      check_ok (br_number_set_ratio (&z->value[i].rational, n, d));
      br_number_write (z->text[i], sizeof z->text[i], &z->value[i].rational);
      z->pointer[i] = &z->value[i];
    }
}

static void
sizes_clear (sizes *z)
{
  for (size_t i = 0; i < BR__SHOP_MAX_ARGS; i++)
    br_real_clear (&z->value[i]);
}

/* "name((3/8), (2))".  */
static void
put_call (FILE *out, const br__function *f, const sizes *z)
{
  fprintf (out, "%s(", f->name);
  for (size_t i = 0; i < br__function_least (f); i++)
    fprintf (out, "%s(%s)", i ? ", " : "", z->text[i]);
  fputc (')', out);
}

/* The answer at INDEX is X: exactly, or in twelve digits.  */
static void
answer_is (const said *s, size_t index, const br_real *x)
{
  char text[512];
  const br_number *q = br_real_rational (x);
  if (q)
    {
      br_number_write (text, sizeof text, q);
      said_is (s, index, "exact", text);
      return;
    }
  said_is (s, index, "exact", "null");
  assert_true (br_real_write_decimal (text, sizeof text, NULL, x, 12, 0, NULL) < sizeof text);
  said_is (s, index, "decimal", text);
}

/* The formula of F with its parameters as dimensions; names of steps are dimensions, too.  */
static br_status
run_formula (br_sheet *sheet, said *s, const br__function *f, const sizes *z)
{
  char *text = NULL;
  size_t size;
  FILE *out = open_memstream (&text, &size);
  for (size_t i = 0; i < br__function_least (f); i++)
    {
      size_t length;
      const char *name = br__shop_parameter (&length, f, i);
      fprintf (out, "%.*s = %s\n", (int) length, name, z->text[i]);
    }
  br_text formula = BR_TEXT_ZERO;
  br__shop_put_formula (&formula, f);
  for (const char *at = br__text_string (&formula); *at; at++)
    fputc (*at == ';' ? '\n' : *at, out);
  br__text_clear (&formula);
  fputc ('\n', out);
  fclose (out);
  br_status status = sheet_run (sheet, s, text);
  free (text);
  return status;
}

static size_t
last_value (const said *s)
{
  size_t i = s->count;
  while (i > 0 && strcmp (said_get (s, i - 1, "kind"), "value") != 0)
    i--;
  assert_true (i > 0);
  return i - 1;
}

static void
check_function (const br__function *f, size_t *good)
{
  br_sheet *sheet = sheet_with ("");
  said s = SAID_ZERO;
  sizes z;
  br_real x = BR_REAL_ZERO;
  br_error error;
  char *call = NULL;
  size_t size;
  random_sizes (&z, f);
  FILE *out = open_memstream (&call, &size);
  put_call (out, f, &z);
  fclose (out);

  br_status status = br__shop_value (&x, f, z.pointer, 0, &error), said_status = sheet_run (sheet, &s, call);
  if (said_status != status)
    fail_msg ("%s: %s in C, %s in the language", call, br_status_name (status), br_status_name (said_status));
  if (status != BR_OK)
    {
      assert_string_equal (s.faults[0].error.message, error.message);
      /* The place is the argument that C names.  */
      size_t at = s.faults[0].error.offset;
      assert_true (error.offset == SIZE_MAX ? at == 0 : call[at] == '(');
    }
  else
    {
      ++*good;
      answer_is (&s, 0, &x);
      if (f->formula)
        {
          if (run_formula (sheet, &s, f, &z) != BR_OK)
            fail_msg ("%s: %s", call, s.faults[0].error.message);
          answer_is (&s, last_value (&s), &x);
        }
    }
  free (call);
  br_real_clear (&x);
  sizes_clear (&z);
  sheet_end (sheet, &s);
}

static void
three_ways (void **state)
{
  (void) state;
  assert_in_range (br__shop_function_count, 16, 64);
  for (size_t i = 0; i < br__shop_function_count; i++)
    {
      size_t good = 0;
      long times = check_times (60);
      for (long k = 0; k < times; k++)
        check_function (&br__shop_functions[i], &good);
      if (good < (size_t) times / 5)
        fail_msg ("%s: only %zu of %ld sizes were good", br__shop_functions[i].name, good, times);
    }
}

/* Given lengths each function gives a length; the sheet's unit is that of plain numbers beside them.  */
static void
lengths_give_lengths (void **state)
{
  said s = SAID_ZERO;
  br_sheet *sheet = sheet_with ("units mm");
  (void) state;
  sheet_say (sheet, &s, "diameter(1 in)");
  said_is (&s, 0, "exact", "254/5");
  said_is (&s, 0, "unit", "mm");
  sheet_say (sheet, &s, "wheel_gap(8 in, 88.9, 3-1/2 in)");
  said_is (&s, 0, "exact", "1143/10");
  sheet_say (sheet, &s, "clearance_hole(11, 1/2)");
  said_is (&s, 0, "exact", "23/2");
  said_is (&s, 0, "unit", "");
  sheet_say (sheet, &s, "drill(7/16 in)");
  said_is (&s, 0, "exact", "889/80");
  sheet_say (sheet, &s, "drill 11");
  said_is (&s, 0, "exact", "889/80");
  said_is (&s, 0, "unit", "mm");
  assert_int_equal (sheet_run (sheet, &s, "diameter(1 sq in)"), BR_DOMAIN);
  assert_int_equal (s.faults[0].error.offset, 9);
  assert_int_equal (s.faults[0].error.length, 7);
  assert_int_equal (sheet_run (sheet, &s, "chord(1 in, 3 in)"), BR_DOMAIN);
  assert_int_equal (s.faults[0].error.offset, 12);
  sheet_end (sheet, &s);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CHECK_TEST (three_ways),
    CHECK_TEST (lengths_give_lengths),
  };
  return CHECK_RUN (tests);
}
