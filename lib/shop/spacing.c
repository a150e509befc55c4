/* SPDX-License-Identifier: LGPL-3.0-or-later
   spacing.c - equal pieces and equal gaps.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/spacing.h"

/* Z = Z + N * X.  */
static br_status
add_times (br_real *z, int64_t n, const br_real *x)
{
  br_real product = BR_REAL_ZERO;
  br_status status = br_number_set_int (&product.rational, n);
  if (status == BR_OK)
    status = br_real_mul (&product, &product, x);
  if (status == BR_OK)
    status = br_real_add (z, z, &product);
  br_real_clear (&product);
  return status;
}

/* Z = X / COUNT, or BR_DOMAIN where X is not over zero (ZERO: under zero).  */
static br_status
share (br_real *z, const br_real *x, int64_t count, int zero, unsigned bits)
{
  br_real n = BR_REAL_ZERO;
  int sign = 0;
  br_status status = br_real_sign (&sign, x, bits);
  if (status == BR_OK && sign < !zero)
    return BR_DOMAIN;
  if (status == BR_OK)
    status = br_number_set_int (&n.rational, count);
  if (status == BR_OK)
    status = br_real_div (z, x, &n, bits);
  br_real_clear (&n);
  return status;
}

static br_status
not_under_zero (const br_real *x, unsigned bits)
{
  int sign = 0;
  br_status status = br_real_sign (&sign, x, bits);
  return status == BR_OK && sign < 0 ? BR_DOMAIN : status;
}

br_status
br__divide (br_real *piece, const br_real *length, int64_t count, const br_real *kerf, unsigned bits)
{
  br_real left = BR_REAL_ZERO;
  br_status status = count < 1 ? BR_DOMAIN : not_under_zero (kerf, bits);
  if (status == BR_OK)
    status = br_real_set (&left, length);
  if (status == BR_OK)
    status = add_times (&left, 1 - count, kerf);
  if (status == BR_OK)
    status = share (piece, &left, count, 0, bits);
  br_real_clear (&left);
  return status;
}

br_status
br__divide_mark (br_real *mark, const br_real *piece, const br_real *kerf, int64_t index)
{
  br_real made = BR_REAL_ZERO;
  br_status status = add_times (&made, index + 1, piece);
  if (status == BR_OK)
    status = add_times (&made, index, kerf);
  if (status == BR_OK)
    status = br_real_set (mark, &made);
  br_real_clear (&made);
  return status;
}

br_status
br__space (br_real *gap, const br_real *length, int64_t count, const br_real *width, const br_real *ends,
           unsigned bits)
{
  br_real left = BR_REAL_ZERO;
  int sign = 0;
  br_status status = count < 1 ? BR_DOMAIN : not_under_zero (width, bits);
  if (status == BR_OK && ends)
    status = not_under_zero (ends, bits);
  if (status == BR_OK)
    status = br_real_set (&left, length);
  if (status == BR_OK)
    status = add_times (&left, -count, width);
  if (status == BR_OK && ends)
    status = add_times (&left, -2, ends);
  if (status == BR_OK && ends && count == 1)
    {
      status = br_real_sign (&sign, &left, bits);
      if (status == BR_OK && sign != 0)
        status = BR_DOMAIN;
      if (status == BR_OK)
        status = br_real_set (gap, &left);
    }
  else if (status == BR_OK)
    status = share (gap, &left, ends ? count - 1 : count + 1, 1, bits);
  br_real_clear (&left);
  return status;
}

br_status
br__space_mark (br_real *mark, const br_real *gap, const br_real *width, const br_real *ends,
                int64_t index)
{
  br_real made = BR_REAL_ZERO;
  br_status status = br_real_set (&made, ends ? ends : gap);
  if (status == BR_OK)
    status = add_times (&made, index, gap);
  if (status == BR_OK)
    status = add_times (&made, index, width);
  if (status == BR_OK)
    status = br_real_set (mark, &made);
  br_real_clear (&made);
  return status;
}
