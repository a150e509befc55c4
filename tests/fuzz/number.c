/* SPDX-License-Identifier: GPL-3.0-or-later
   number.c - fuzz target: a byte code of operations on rationals, run three ways: by the library, by its
   road for numbers past 64 bits whatever their size, and by GMP's rationals.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "decimal.h"
#include "exact/number.h"

#define CELLS 4
#define MOST_BITS 3000      /* a longer number starts over, so that an input takes no time */
#define MOST_STEPS 400

/* One value three times.  */
typedef struct cell
{
  mpq_t gmp;
  br_number plain, big;
} cell;

/* Not inline, as gcc 12 would then take the number for the rational and warn.  */
__attribute__ ((noinline)) static void
set_big (br_number *z, mpq_ptr q)
{
  fuzz_require (br__number_from_mpq (z, q) == BR_OK);
}

static void
is_gmp (const br_number *x, mpq_srcptr q)
{
  br__view view;
  fuzz_require (br_number_check (x));
  fuzz_require (mpq_equal (br__number_view (&view, x), q));
}

static void
cell_agrees (const cell *c)
{
  is_gmp (&c->plain, c->gmp);
  is_gmp (&c->big, c->gmp);
  fuzz_require (br_number_equal (&c->plain, &c->big));
  fuzz_require (br_number_sign (&c->plain) == mpq_sgn (c->gmp));
  fuzz_require (br_number_is_integer (&c->plain) == (mpz_cmp_ui (mpq_denref (c->gmp), 1) == 0));
}

/* A long may have 32 bits.  */
static void
set_64 (mpz_t z, int64_t a)
{
  uint64_t magnitude = br__magnitude (a);
  mpz_import (z, 1, -1, sizeof magnitude, 0, 0, &magnitude);
  if (a < 0)
    mpz_neg (z, z);
}

static void
cell_load (cell *c, int64_t n, int64_t d)
{
  br_status status = br_number_set_ratio (&c->plain, n, d);
  fuzz_require (status == (d ? BR_OK : BR_DOMAIN));
  if (status != BR_OK)
    return;
  set_64 (mpq_numref (c->gmp), n);
  set_64 (mpq_denref (c->gmp), d);
  mpq_canonicalize (c->gmp);
  set_big (&c->big, c->gmp);
}

/* X op Y, into any of the cells, X and Y among them.  */
static void
cell_operate (cell *z, const cell *x, const cell *y, unsigned operation)
{
  static br_status (*const ours[]) (br_number *, const br_number *, const br_number *)
    = { br_number_add, br_number_sub, br_number_mul, br_number_div };
  static const br__operation big[] = { BR__ADD, BR__SUB, BR__MUL, BR__DIV };
  static void (*const gmp[]) (mpq_ptr, mpq_srcptr, mpq_srcptr) = { mpq_add, mpq_sub, mpq_mul, mpq_div };
  br_status expected = operation == 3 && mpq_sgn (y->gmp) == 0 ? BR_DOMAIN : BR_OK;
  fuzz_require (ours[operation] (&z->plain, &x->plain, &y->plain) == expected);
  fuzz_require (br__big_operate (&z->big, big[operation], &x->big, &y->big) == expected);
  if (expected == BR_OK)
    gmp[operation] (z->gmp, x->gmp, y->gmp);
}

static void
cell_power (cell *z, const cell *x, int exponent)
{
  unsigned long n = (unsigned long) abs (exponent);
  br_status expected = exponent < 0 && mpq_sgn (x->gmp) == 0 ? BR_DOMAIN : BR_OK;
  fuzz_require (br_number_pow (&z->plain, &x->plain, exponent) == expected);
  if (expected != BR_OK)
    return;
  mpz_pow_ui (mpq_numref (z->gmp), mpq_numref (x->gmp), n);
  mpz_pow_ui (mpq_denref (z->gmp), mpq_denref (x->gmp), n);
  if (exponent < 0)
    mpq_inv (z->gmp, z->gmp);
  fuzz_require (br_number_set (&z->big, &z->plain) == BR_OK);
}

/* What DIRECTION and TIES say about Q, from its floor and the part over it.  */
static int
rounded (mpz_ptr n, mpq_srcptr q, br_direction direction, br_ties ties)
{
  mpq_t part;
  mpz_fdiv_q (n, mpq_numref (q), mpq_denref (q));
  mpq_init (part);
  mpq_set_z (part, n);
  mpq_sub (part, q, part);
  int half = mpq_cmp_ui (part, 1, 2), some = mpq_sgn (part) != 0, up = half > 0;
  mpq_clear (part);
  if (direction == BR_UP || direction == BR_DOWN)
    up = direction == BR_UP && some;
  else if (half == 0)
    up = ties == BR_TIES_EVEN ? mpz_odd_p (n) : (mpq_sgn (q) > 0) == (ties == BR_TIES_UP);
  if (up)
    mpz_add_ui (n, n, 1);
  return direction == BR_NEAREST && half == 0;
}

static void
cell_round (cell *z, const cell *x, unsigned how)
{
  br_direction direction = (br_direction) (how % 3);
  br_ties ties = (br_ties) (how / 3 % 3);
  br_number huge = BR_NUMBER_ZERO, scaled = BR_NUMBER_ZERO;
  int tie = -1, tie_scaled = -1;
  mpz_t n;
  mpz_init (n);
  int expected = rounded (n, x->gmp, direction, ties);
  /* The same on a ruler, all of it past 64 bits.  */
  fuzz_require (br_number_read (&huge, "36893488147419103235", 20, NULL) == BR_OK);
  fuzz_require (br_number_mul (&scaled, &x->plain, &huge) == BR_OK);
  fuzz_require (br_ruler_round (&scaled, NULL, &tie_scaled, &scaled, &huge, direction, ties) == BR_OK);
  fuzz_require (br_number_div (&scaled, &scaled, &huge) == BR_OK);
  fuzz_require (br_number_round (&z->plain, &tie, &x->plain, direction, ties) == BR_OK);
  fuzz_require (tie == expected && tie_scaled == expected);
  mpq_set_z (z->gmp, n);
  br_number_swap (&z->big, &scaled);
  mpz_clear (n);
  br_number_clear (&huge);
  br_number_clear (&scaled);
}

static void
cell_whole (cell *z, const cell *x, int up)
{
  fuzz_require ((up ? br_number_ceil : br_number_floor) (&z->plain, &x->plain) == BR_OK);
  (up ? mpz_cdiv_q : mpz_fdiv_q) (mpq_numref (z->gmp), mpq_numref (x->gmp), mpq_denref (x->gmp));
  mpz_set_ui (mpq_denref (z->gmp), 1);
  set_big (&z->big, z->gmp);
}

static void
cell_sign (cell *z, const cell *x, int absolute)
{
  int negate = !absolute || mpq_sgn (x->gmp) < 0;
  fuzz_require ((absolute ? br_number_abs : br_number_neg) (&z->plain, &x->plain) == BR_OK);
  fuzz_require (br__big_copy (&z->big, &x->big, negate) == BR_OK);
  (absolute ? mpq_abs : mpq_neg) (z->gmp, x->gmp);
}

static void
cells_compare (const cell *x, const cell *y)
{
  int order = mpq_cmp (x->gmp, y->gmp), ours = br_number_cmp (&x->plain, &y->plain);
  fuzz_require ((order > 0) - (order < 0) == (ours > 0) - (ours < 0));
  fuzz_require (br__big_cmp (&x->big, &y->big) == (order > 0) - (order < 0));
  fuzz_require (br_number_equal (&x->plain, &y->plain) == (order == 0));
}

/* "n/d" is what GMP writes, and is read back; shop notation is a measure.  */
static void
cell_text (const cell *c)
{
  static char text[2 * MOST_BITS];
  br_number again = BR_NUMBER_ZERO;
  br_measure m = BR_MEASURE_ZERO;
  size_t length = br_number_write (text, sizeof text, &c->plain);
  char *gmp = mpq_get_str (NULL, 10, c->gmp);
  fuzz_require (length < sizeof text && strcmp (text, gmp) == 0);
  fuzz_require (br_number_read (&again, text, length, NULL) == BR_OK);
  fuzz_require (br_number_equal (&again, &c->plain));
  free (gmp);
  length = br_number_write_mixed (text, sizeof text, &c->plain);
  fuzz_require (length < sizeof text);
  fuzz_require (br_measure_read (&m, text, length, NULL, NULL) == BR_OK);
  fuzz_require (br_number_equal (&m.value, &c->plain) && !m.unit);
  br_number_clear (&again);
  br_measure_clear (&m);
}

/* A decimal is off by half a unit of its last digit at most, and says so.  */
static void
cell_decimal (const cell *c, unsigned digits)
{
  static char text[2 * MOST_BITS];
  int whole = -1;
  mpq_t written, half;
  size_t length = br_number_write_decimal (text, sizeof text, &whole, &c->plain, digits);
  fuzz_require (length < sizeof text && strlen (text) == length);
  mpq_inits (written, half, NULL);
  decimal_read (written, text);
  fuzz_require (whole == mpq_equal (written, c->gmp));
  if (!whole)
    {
      decimal_half (half, c->gmp, digits);
      fuzz_require (decimal_near (written, c->gmp, half));
    }
  mpq_clears (written, half, NULL);
}

static void
step (cell *cells, fuzz_bytes *bytes)
{
  unsigned operation = fuzz_byte (bytes), which = fuzz_byte (bytes);
  cell *z = &cells[which % CELLS], *x = &cells[which / CELLS % CELLS], *y = &cells[which / 16 % CELLS];
  int64_t n, d;
  switch (operation % 14)
    {
    case 0: case 1: case 2: case 3: cell_operate (z, x, y, operation % 14); break;
    case 4: cell_power (z, x, (int) fuzz_byte (bytes) % 23 - 11); break;
    case 5: cell_round (z, x, fuzz_byte (bytes)); break;
    case 6: cell_whole (z, x, which >> 7); break;
    case 7: cell_sign (z, x, which >> 7); break;
    case 8: cells_compare (x, y); break;
    case 9: cell_text (x); break;
    case 10: cell_decimal (x, 1 + fuzz_byte (bytes) % 40); break;
    case 11: br_number_swap (&z->plain, &x->plain), br_number_swap (&z->big, &x->big), mpq_swap (z->gmp, x->gmp);
      break;
    default:
      n = fuzz_int (bytes), d = fuzz_int (bytes);
      cell_load (z, n, d);
      break;
    }
  cell_agrees (z);
  if (br__number_bits (&z->plain) > MOST_BITS)
    cell_load (z, 1, 3);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  fuzz_bytes bytes = { data, data + size };
  cell cells[CELLS];
  memset (cells, 0, sizeof cells);
  for (size_t i = 0; i < CELLS; i++)
    mpq_init (cells[i].gmp);
  for (int steps = 0; bytes.at < bytes.end && steps < MOST_STEPS; steps++)
    step (cells, &bytes);
  for (size_t i = 0; i < CELLS; i++)
    {
      br_number_clear (&cells[i].plain);
      br_number_clear (&cells[i].big);
      mpq_clear (cells[i].gmp);
    }
  return 0;
}
