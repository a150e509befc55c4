/* SPDX-License-Identifier: GPL-3.0-or-later
   real.c - fuzz target: a byte code that makes formulas.  What is certain at a low precision is what is
   certain at a high one, enclosures lie in each other, and an enclosure that MPFI makes straight from the
   formula meets them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <mpfi.h>
#include <mpfi_io.h>

#include "decimal.h"
#include "exact/number.h"

#define CELLS 4
#define LOW_BITS 64
#define HIGH_BITS 4096
#define ORACLE_BITS 300
#define MOST_STEPS 24
#define MOST_SIZE 600       /* bits of a value's whole part; a larger one starts over */

typedef struct cell
{
  br_real x;
  mpfi_t oracle;
  int known;                /* the oracle has ends */
} cell;

static int
has_ends (mpfi_srcptr m)
{
  return mpfr_number_p (&m->left) && mpfr_number_p (&m->right);
}

/* ---- The byte code ---- */

static br_status
load (cell *z, fuzz_bytes *bytes)
{
  br_number q = BR_NUMBER_ZERO;
  int64_t n = (int64_t) fuzz_word (bytes, 2) - 32768, d = 1 + fuzz_byte (bytes);
  br_status status = br_number_set_ratio (&q, n, d);
  if (status == BR_OK)
    status = br_real_set_number (&z->x, &q);
  mpfi_set_si (z->oracle, n);
  mpfi_div_si (z->oracle, z->oracle, d);
  z->known = 1;
  br_number_clear (&q);
  return status;
}

static void
to_radians (mpfi_ptr z, mpfi_srcptr degrees, int back)
{
  mpfi_t factor;
  mpfi_init2 (factor, ORACLE_BITS);
  mpfi_const_pi (factor);
  mpfi_div_ui (factor, factor, 180);
  (back ? mpfi_div : mpfi_mul) (z, degrees, factor);
  mpfi_clear (factor);
}

static void
oracle_power (mpfi_ptr z, mpfi_srcptr x, int n, unsigned root)
{
  mpfi_t power;
  mpfi_init2 (power, ORACLE_BITS);
  mpfi_set_ui (power, 1);
  for (int i = 0; i < abs (n); i++)
    mpfi_mul (power, power, x);
  if (n < 0)
    mpfi_inv (power, power);
  if (root == 2)
    mpfi_sqrt (power, power);
  else if (root == 3)
    mpfi_cbrt (power, power);
  mpfi_set (z, power);
  mpfi_clear (power);
}

static br_status
power (cell *z, const cell *x, fuzz_bytes *bytes)
{
  br_number exponent = BR_NUMBER_ZERO;
  unsigned code = fuzz_byte (bytes), root = 1 + code / 8 % 3;
  int n = (int) (code % 8) - 3;
  br_status status = br_number_set_ratio (&exponent, n, root);
  if (status == BR_OK)
    status = br_real_pow (&z->x, &x->x, &exponent, HIGH_BITS);
  if (status == BR_OK)
    {
      /* In lowest terms: a third power under a third root is a root of nothing.  */
      int common = (n % 2 == 0 && root == 2) || (n % 3 == 0 && root == 3);
      oracle_power (z->oracle, x->oracle, common ? n / (int) root : n, common ? 1 : root);
    }
  br_number_clear (&exponent);
  return status;
}

static br_status
operate (cell *z, const cell *x, const cell *y, unsigned operation)
{
  br_status status;
  switch (operation)
    {
    case 0: status = br_real_add (&z->x, &x->x, &y->x); break;
    case 1: status = br_real_sub (&z->x, &x->x, &y->x); break;
    case 2: status = br_real_mul (&z->x, &x->x, &y->x); break;
    default: status = br_real_div (&z->x, &x->x, &y->x, HIGH_BITS); break;
    }
  if (status != BR_OK)
    return status;
  switch (operation)
    {
    case 0: mpfi_add (z->oracle, x->oracle, y->oracle); break;
    case 1: mpfi_sub (z->oracle, x->oracle, y->oracle); break;
    case 2: mpfi_mul (z->oracle, x->oracle, y->oracle); break;
    default: mpfi_div (z->oracle, x->oracle, y->oracle); break;
    }
  return status;
}

static br_status
angle (cell *z, const cell *x, unsigned operation)
{
  br_status status;
  switch (operation)
    {
    case 0: status = br_real_sin (&z->x, &x->x); break;
    case 1: status = br_real_cos (&z->x, &x->x); break;
    case 2: status = br_real_tan (&z->x, &x->x, HIGH_BITS); break;
    case 3: status = br_real_atan (&z->x, &x->x); break;
    default: status = br_real_asin (&z->x, &x->x, HIGH_BITS); break;
    }
  if (status != BR_OK)
    return status;
  if (operation < 3)
    to_radians (z->oracle, x->oracle, 0);
  else
    mpfi_set (z->oracle, x->oracle);
  switch (operation)
    {
    case 0: mpfi_sin (z->oracle, z->oracle); break;
    case 1: mpfi_cos (z->oracle, z->oracle); break;
    case 2: mpfi_tan (z->oracle, z->oracle); break;
    case 3: mpfi_atan (z->oracle, z->oracle); break;
    default: mpfi_asin (z->oracle, z->oracle); break;
    }
  if (operation >= 3)
    to_radians (z->oracle, z->oracle, 1);
  return status;
}

static br_status
other (cell *z, const cell *x, unsigned operation)
{
  br_status status;
  switch (operation)
    {
    case 0: status = br_real_neg (&z->x, &x->x); break;
    case 1: status = br_real_abs (&z->x, &x->x, HIGH_BITS); break;
    case 2: status = br_real_sqrt (&z->x, &x->x, HIGH_BITS); break;
    default: status = br_real_pi (&z->x); break;
    }
  if (status != BR_OK)
    return status;
  switch (operation)
    {
    case 0: mpfi_neg (z->oracle, x->oracle); break;
    case 1: mpfi_abs (z->oracle, x->oracle); break;
    case 2: mpfi_sqrt (z->oracle, x->oracle); break;
    default: mpfi_const_pi (z->oracle); break;
    }
  return status;
}

/* A value whose size does not get out of hand.  */
static int
is_modest (const br_real *x)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  const br_number *q = br_real_rational (x);
  int modest = q ? br__number_bits (q) < MOST_SIZE : br_real_enclose (&low, &high, x, LOW_BITS) == BR_OK;
  if (!q && modest)
    modest = br__number_bits (&low) < MOST_SIZE && br__number_bits (&high) < MOST_SIZE;
  br_number_clear (&low);
  br_number_clear (&high);
  return modest;
}

static void
step (cell *cells, fuzz_bytes *bytes)
{
  unsigned operation = fuzz_byte (bytes) % 18, which = fuzz_byte (bytes);
  cell *z = &cells[which % CELLS], *x = &cells[which / CELLS % CELLS], *y = &cells[which / 16 % CELLS];
  int known = x->known && (operation >= 4 || y->known);
  br_status status;
  if (operation < 4)
    status = operate (z, x, y, operation);
  else if (operation < 9)
    status = angle (z, x, operation - 4);
  else if (operation < 13)
    status = other (z, x, operation - 9);
  else if (operation == 13)
    status = power (z, x, bytes);
  else
    status = load (z, bytes);
  fuzz_require (status == BR_OK || status == BR_DOMAIN || status == BR_TOO_BIG || status == BR_UNDECIDED);
  if (status == BR_OK && operation < 14)
    z->known = (known || operation == 12) && has_ends (z->oracle);
  if (!is_modest (&z->x))
    {
      fuzz_bytes none = { NULL, NULL };
      fuzz_require (load (z, &none) == BR_OK);
    }
}

/* ---- What must hold of a value ---- */

typedef struct ends
{
  br_status status;
  br_number low, high;
} ends;

#define ENDS_ZERO { BR_OK, BR_NUMBER_ZERO, BR_NUMBER_ZERO }

static void
ends_find (ends *e, const br_real *x, unsigned bits)
{
  e->status = br_real_enclose (&e->low, &e->high, x, bits);
  fuzz_require (e->status == BR_OK || e->status == BR_UNDECIDED);
  if (e->status == BR_OK)
    fuzz_require (br_number_cmp (&e->low, &e->high) <= 0);
}

static void
ends_clear (ends *e)
{
  br_number_clear (&e->low);
  br_number_clear (&e->high);
}

static void
check_nested (const ends *outer, const ends *inner)
{
  if (outer->status != BR_OK)
    return;
  fuzz_require (inner->status == BR_OK);
  fuzz_require (br_number_cmp (&outer->low, &inner->low) <= 0);
  fuzz_require (br_number_cmp (&inner->high, &outer->high) <= 0);
}

static void
check_oracle (const cell *c, const ends *e)
{
  mpq_t low, high;
  if (!c->known || e->status != BR_OK)
    return;
  mpq_inits (low, high, NULL);
  br__number_to_mpq (low, &e->low);
  br__number_to_mpq (high, &e->high);
  fuzz_require (mpfr_cmp_q (&c->oracle->left, high) <= 0 && mpfr_cmp_q (&c->oracle->right, low) >= 0);
  mpq_clears (low, high, NULL);
}

static void
check_sign (const br_real *x, const ends *e)
{
  int low = 2, high = 2;
  br_status at_low = br_real_sign (&low, x, LOW_BITS), at_high = br_real_sign (&high, x, HIGH_BITS);
  if (at_low == BR_OK)
    fuzz_require (at_high == BR_OK && low == high);
  if (at_high == BR_OK && e->status == BR_OK)
    fuzz_require (high >= 0 ? br_number_sign (&e->high) >= high : br_number_sign (&e->low) < 0);
}

/* The decimal lies within half a unit of its last digit of the ends, and is the same at both limits.  */
static void
check_decimal (const br_real *x, const ends *e, unsigned digits)
{
  static char low[8192], high[8192];
  int whole_low = -1, whole_high = -1;
  br_status at_low = BR_OK, at_high = BR_OK;
  size_t length_low = br_real_write_decimal (low, sizeof low, &whole_low, x, digits, LOW_BITS, &at_low);
  size_t length_high = br_real_write_decimal (high, sizeof high, &whole_high, x, digits, HIGH_BITS, &at_high);
  fuzz_require ((length_low == SIZE_MAX) == (at_low != BR_OK));
  fuzz_require ((length_high == SIZE_MAX) == (at_high != BR_OK));
  if (at_low == BR_OK)
    fuzz_require (at_high == BR_OK && whole_low == whole_high && strcmp (low, high) == 0);
  /* What is nearer to zero than 8,000 places is not read back.  */
  if (at_high != BR_OK || e->status != BR_OK || length_high >= sizeof high || br_number_sign (&e->low) != br_number_sign (&e->high)
      || br_number_sign (&e->low) == 0)
    return;
  mpq_t written, half, end, width;
  mpq_inits (written, half, end, width, NULL);
  decimal_read (written, high);
  br__number_to_mpq (width, &e->high);
  br__number_to_mpq (end, &e->low);
  decimal_half (half, br_number_sign (&e->low) > 0 ? width : end, digits);
  mpq_sub (width, width, end);
  mpq_add (half, half, width);
  fuzz_require (decimal_near (written, end, half));
  if (whole_high)
    fuzz_require (br_real_rational (x));
  mpq_clears (written, half, end, width, NULL);
}

static void
check_round (const br_real *x, const ends *e, unsigned how)
{
  br_number mark = BR_NUMBER_ZERO, low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO, off = BR_NUMBER_ZERO;
  int tie_low = -1, tie_high = -1;
  br_direction direction = (br_direction) (how % 3);
  br_ties ties = (br_ties) (how / 3 % 3);
  fuzz_require (br_number_set_ratio (&mark, 1, INT64_C (1) << how / 9 % 7) == BR_OK);
  br_status at_low = br_real_round (&low, &tie_low, x, &mark, direction, ties, LOW_BITS);
  br_status at_high = br_real_round (&high, &tie_high, x, &mark, direction, ties, HIGH_BITS);
  if (at_low == BR_OK)
    fuzz_require (at_high == BR_OK && tie_low == tie_high && br_number_equal (&low, &high));
  if (at_high == BR_OK && e->status == BR_OK)
    {
      /* The mark is no further from either end than a mark and the width between the ends.  */
      fuzz_require (br_number_sub (&off, &high, &e->low) == BR_OK);
      fuzz_require (br_number_sub (&low, &e->high, &high) == BR_OK);
      fuzz_require (direction == BR_DOWN || br_number_cmp (&off, &mark) < 0
                    || br_number_cmp (&e->low, &e->high) < 0);
      fuzz_require (direction != BR_UP || br_number_sign (&off) >= 0);
      fuzz_require (direction != BR_DOWN || br_number_sign (&low) >= 0);
      fuzz_require (br_number_cmp (&low, &mark) <= 0 || br_number_cmp (&e->low, &e->high) < 0);
    }
  br_number_clear (&mark);
  br_number_clear (&low);
  br_number_clear (&high);
  br_number_clear (&off);
}

/* (X + Y) - Y is X, X * Y / Y too, and a comparison is the same both ways and at both limits.  */
static void
check_pair (const br_real *x, const br_real *y)
{
  br_real z = BR_REAL_ZERO;
  int order = 2, back = 2;
  br_status at_low = br_real_cmp (&order, x, y, LOW_BITS);
  if (at_low == BR_OK)
    fuzz_require (br_real_cmp (&back, y, x, HIGH_BITS) == BR_OK && order == - back);
  if (br_real_add (&z, x, y) == BR_OK && br_real_sub (&z, &z, y) == BR_OK
      && br_real_cmp (&order, &z, x, 512) == BR_OK)
    fuzz_require (order == 0);
  if (br_real_mul (&z, x, y) == BR_OK && br_real_div (&z, &z, y, 512) == BR_OK
      && br_real_cmp (&order, &z, x, 512) == BR_OK)
    fuzz_require (order == 0);
  br_real_clear (&z);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  fuzz_bytes bytes = { data, data + size };
  cell cells[CELLS];
  unsigned how = fuzz_byte (&bytes), digits = 1 + fuzz_byte (&bytes) % 30;
  for (size_t i = 0; i < CELLS; i++)
    {
      cells[i] = (cell) { .x = BR_REAL_ZERO, .known = 1 };
      mpfi_init2 (cells[i].oracle, ORACLE_BITS);
      mpfi_set_ui (cells[i].oracle, 0);
    }
  for (int steps = 0; bytes.at < bytes.end && steps < MOST_STEPS; steps++)
    step (cells, &bytes);
  for (size_t i = 0; i < CELLS; i++)
    {
      ends low = ENDS_ZERO, high = ENDS_ZERO;
      ends_find (&low, &cells[i].x, LOW_BITS);
      ends_find (&high, &cells[i].x, HIGH_BITS);
      check_nested (&low, &high);
      check_oracle (&cells[i], &low);
      check_oracle (&cells[i], &high);
      check_sign (&cells[i].x, &low);
      check_decimal (&cells[i].x, &high, digits);
      check_round (&cells[i].x, &high, how);
      check_pair (&cells[i].x, &cells[(i + 1) % CELLS].x);
      ends_clear (&low);
      ends_clear (&high);
    }
  for (size_t i = 0; i < CELLS; i++)
    {
      br_real_clear (&cells[i].x);
      mpfi_clear (cells[i].oracle);
    }
  return 0;
}
