/* SPDX-License-Identifier: GPL-3.0-or-later
   support.h - what the shop's tests share: values from texts and calls by name.  */
#ifndef BR_TESTS_SHOP_SUPPORT_H
#define BR_TESTS_SHOP_SUPPORT_H

#include "../exact/real_check.h"
#include "formula/operate.h"

/* X := TEXT, "n/d" or "n".  */
CHECK_UNUSED static void
shop_set (br_real *x, const char *text, size_t length)
{
  br_number n = BR_NUMBER_ZERO;

  check_ok (br_number_read (&n, text, length, NULL));
  check_ok (br_real_set_number (x, &n));
  br_number_clear (&n);
}

typedef struct shop_args
{
  br_real value[BR__SHOP_MAX_ARGS];
  const br_real *pointer[BR__SHOP_MAX_ARGS];
  size_t count;
} shop_args;

/* ARGS := the values in TEXT, parted by blanks.  */
CHECK_UNUSED static void
shop_read (shop_args *args, const char *text)
{
  size_t length;

  memset (args, 0, sizeof *args);
  for (; *text != 0; text += length + strspn (text + length, " "))
    {
      length = strcspn (text, " ");
      assert_true (args->count < BR__SHOP_MAX_ARGS);
      shop_set (&args->value[args->count], text, length);
      args->pointer[args->count] = &args->value[args->count];
      args->count++;
    }
}

CHECK_UNUSED static void
shop_clear (shop_args *args)
{
  size_t i;

  for (i = 0; i < args->count; i++)
    br_real_clear (&args->value[i]);
}

CHECK_UNUSED static const br__function *
shop_find (const char *name)
{
  const br__function *function = br__function_find (name, strlen (name));

  if (function == NULL)
    fail_msg ("there is no %s", name);
  return function;
}

/* Z := NAME of the values in TEXT.  */
CHECK_UNUSED static br_status
shop_call_text (br_real *z, const char *name, const char *text, unsigned bits, br_error *error)
{
  const br__function *function = shop_find (name);
  shop_args args;
  br_status status;

  shop_read (&args, text);
  assert_int_equal (args.count, br__function_least (function));
  status = br__shop_value (z, function, args.pointer, bits, error);
  shop_clear (&args);
  return status;
}

/* Z := NAME of up to three values, NULL where there are fewer.  */
CHECK_UNUSED static void
shop_call (br_real *z, const char *name, const br_real *a, const br_real *b, const br_real *c)
{
  const br_real *args[] = { a, b, c };
  const br__function *function = shop_find (name);
  br_error error = { .status = BR_OK };

  if (br__shop_value (z, function, args, 0, &error) != BR_OK)
    fail_msg ("%s: %s", name, error.message);
}

CHECK_UNUSED static void
shop_same (const br_real *x, const br_real *y)
{
  int order = 2;

  check_ok (br_real_cmp (&order, x, y, 0));
  assert_int_equal (order, 0);
}

/* X is the rational TEXT.  */
CHECK_UNUSED static void
shop_is (const br_real *x, const char *text)
{
  assert_non_null (br_real_rational (x));
  check_is (br_real_rational (x), text);
}

/* X := a shop size over zero and up to LIMIT inches, on a ruler down to 1/64.  */
CHECK_UNUSED static void
shop_random (br_real *x, int64_t limit)
{
  br_number n = BR_NUMBER_ZERO;

  do
    check_shop_number (&n, limit);
  while (br_number_sign (&n) == 0);
  check_ok (br_number_abs (&n, &n));
  check_ok (br_real_set_number (x, &n));
  br_number_clear (&n);
}

/* X := N / D.  */
CHECK_UNUSED static void
shop_ratio (br_real *x, int64_t n, int64_t d)
{
  br_real_clear (x);
  check_ok (br_number_set_ratio (&x->rational, n, d));
}

/* X := X + N / D.  */
CHECK_UNUSED static void
shop_nudge (br_real *x, int64_t n, int64_t d)
{
  br_real by = BR_REAL_ZERO;

  shop_ratio (&by, n, d);
  check_ok (br_real_add (x, x, &by));
  br_real_clear (&by);
}

/* X := the square root of N / D.  */
CHECK_UNUSED static void
shop_root (br_real *x, int64_t n, int64_t d)
{
  shop_ratio (x, n, d);
  check_ok (br_real_sqrt (x, x, 0));
}

/* X := X + 0, where the 0 is one that neither bits nor a proof can tell from 0.  */
CHECK_UNUSED static void
shop_blur (br_real *x)
{
  br_real zero = real_of (OPEN_ZERO);

  check_ok (br_real_add (x, x, &zero));
  br_real_clear (&zero);
}

#endif
