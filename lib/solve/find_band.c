/* SPDX-License-Identifier: LGPL-3.0-or-later
   find_band.c - whether a formula is zero on a whole interval (a "stretch").  Where abs, max, min and steps take only one
   of their branches, the formula is one of three kinds.  A quotient of polynomials is constant if it has the same value
   at more points than its degree; one of sines and cosines, if at more points of a period than twice its degree (neither
   has more roots than that unless it is zero; from memory).  A formula that also contains roots is an algebraic function:
   it has a value everywhere if it has it at one transcendental number such as pi.  Instructions that are found to be
   constant are treated as constants in later ones, and a product with a factor zero is zero.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/number.h"
#include "exact/real.h"
#include "solve/find_search.h"

#define MOST_PLACES 33
#define NONE SIZE_MAX
#define MOST_ASIDE 3
#define PARTS 68                /* of a stretch: room for them between its ends */
#define LOW MOST_PLACES         /* the rows of both ends */
#define HIGH (MOST_PLACES + 1)
#define AWAY (MOST_PLACES + 2)  /* and of a place within it that is not algebraic */
#define ROWS (MOST_PLACES + 3)
#define PERIOD 720              /* degrees; a sine of half the angle has it */

enum kind { KIND_UNKNOWN, KIND_CONSTANT, KIND_RATIONAL, KIND_ALGEBRAIC, KIND_WAVE };

/* The degrees of a quotient: of x, or of the sine and cosine of half of x.  */
typedef struct shape
{
  enum kind kind;
  int over, under;
  br__band roots;
  int algebraic;                /* all constants in it are */
} shape;

typedef struct band
{
  const br__program *t;
  br__enclosure *e;
  const br__stretch *stretch;
  shape *shapes;                /* of each instruction */
  int within_period;
  int one_formula;              /* neither corners, steps nor roots, which may be corners */
  int aside;                    /* how far places lie from where they were tried first: a pole was there */
  br_number places[ROWS];
  br_real *rows[ROWS];   /* the values of all instructions at each, as far as they were needed */
} band;

static const shape unknown = { KIND_UNKNOWN, 0, 0, BR__BAND_UNKNOWN, 0 };
static const shape algebraic = { KIND_ALGEBRAIC, 0, 0, BR__BAND_UNKNOWN, 1 };

/* ---- Values at places of the stretch ---- */

/* Z = as far into the stretch as N of its PARTS.  */
static br_status
part_way (br_number *z, const br__stretch *s, int n)
{
  br_number part = BR_NUMBER_ZERO;
  br_status status = br_number_set_ratio (&part, n, PARTS);
  if (status == BR_OK)
    status = br_number_sub (z, &s->high, &s->low);
  if (status == BR_OK)
    status = br_number_mul (z, z, &part);
  if (status == BR_OK)
    status = br_number_add (z, z, &s->low);
  br_number_clear (&part);
  return status;
}

/* Z = as far into the stretch as pi goes into 6.  */
static br_status
pi_way (br_real *z, const br__stretch *s)
{
  br_number width = BR_NUMBER_ZERO, sixth = { 1, 5 };
  br_real part = BR_REAL_ZERO, low = BR_REAL_ZERO;
  br_status status = br_real_pi (z);
  if (status == BR_OK)
    status = br_number_sub (&width, &s->high, &s->low);
  if (status == BR_OK)
    status = br_number_mul (&width, &width, &sixth);
  if (status == BR_OK)
    status = br_real_set_number (&part, &width);
  if (status == BR_OK)
    status = br_real_set_number (&low, &s->low);
  if (status == BR_OK)
    status = br_real_mul (z, z, &part);
  if (status == BR_OK)
    status = br_real_add (z, z, &low);
  br_number_clear (&width);
  br_real_clear (&part);
  br_real_clear (&low);
  return status;
}

/* Row J: at an end; or where no corner makes it another formula elsewhere, far from poles and plain as an angle; else at
   the plainest place of a part within the stretch.  */
static br_status
need_row (band *b, int j)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_real at = BR_REAL_ZERO;
  if (b->rows[j])
    return BR_OK;
  br_status status;
  if (j == AWAY)
    status = pi_way (&at, b->stretch);
  else if (j >= MOST_PLACES)
    status = br_number_set (&b->places[j], j == LOW ? &b->stretch->low : &b->stretch->high);
  else if (b->one_formula)
    status = br_number_set_int (&b->places[j], 6 + 18 * j + b->aside);
  else
    {
      status = part_way (&low, b->stretch, 2 * j + 1);
      if (status == BR_OK)
        status = part_way (&high, b->stretch, 2 * j + 2);
      if (status == BR_OK)
        status = br__number_plainest (&b->places[j], &low, &high);
    }
  if (status == BR_OK && j != AWAY)
    status = br_real_set_number (&at, &b->places[j]);
  if (status == BR_OK)
    status = br__program_values (&b->rows[j], b->t, &at, 1);
  if (status == BR_DOMAIN && b->one_formula && b->aside++ < MOST_ASIDE)
    status = need_row (b, j);
  br_number_clear (&low);
  br_number_clear (&high);
  br_real_clear (&at);
  return status;
}

/* 1 in *SAME if instruction I has one value at the first place and at those from FROM to before TO.  */
static br_status
is_same (int *same, band *b, size_t i, int from, int to)
{
  int order = 0;
  br_status status = need_row (b, 0);
  for (int j = from; j < to && status == BR_OK && order == 0; j++)
    {
      status = need_row (b, j);
      if (status == BR_OK)
        status = br_real_cmp (&order, &b->rows[j][i], &b->rows[0][i], b->t->settings->bits);
    }
  *same = order == 0;
  return status;
}

/* N = the slope of instruction I, a polynomial of degree one, in halves; 0 where it is no such number.  */
static br_status
half_slope (int *n, band *b, size_t i)
{
  br_number run = BR_NUMBER_ZERO, two = { 2, 0 };
  br_real rise = BR_REAL_ZERO;
  int64_t over = 0, under = 1;
  *n = 0;
  br_status status = need_row (b, 0);
  if (status == BR_OK)
    status = need_row (b, 1);
  if (status == BR_OK)
    status = br_real_sub (&rise, &b->rows[1][i], &b->rows[0][i]);
  if (status == BR_OK && br_real_rational (&rise))
    {
      status = br_number_sub (&run, &b->places[1], &b->places[0]);
      if (status == BR_OK)
        status = br_number_div (&run, br_real_rational (&rise), &run);
      if (status == BR_OK)
        status = br_number_mul (&run, &run, &two);
      if (status == BR_OK && br_number_get_ratio (&over, &under, &run) && under == 1 && over >= -MOST_PLACES
          && over <= MOST_PLACES)
        *n = (int) (over < 0 ? -over : over);
    }
  br_number_clear (&run);
  br_real_clear (&rise);
  return status;
}

/* ---- Degrees ---- */

static int
larger (int x, int y)
{
  return x > y ? x : y;
}

/* Z, of which the degree is past all places.  */
static shape
beyond (shape z)
{
  return z.kind == KIND_RATIONAL && z.algebraic ? algebraic : unknown;
}

/* The shape of a sum, a product or a quotient of X and Y.  */
static shape
join (shape x, shape y, br__opcode op)
{
  shape z = { larger (x.kind, y.kind), 0, 0, BR__BAND_UNKNOWN, x.algebraic && y.algebraic };
  if (x.kind == KIND_UNKNOWN || y.kind == KIND_UNKNOWN
      || (x.kind != y.kind && x.kind != KIND_CONSTANT && y.kind != KIND_CONSTANT && z.kind == KIND_WAVE))
    return unknown;
  if (z.kind == KIND_ALGEBRAIC)
    return z.algebraic ? z : unknown;
  if (op == BR__CODE_MUL || op == BR__CODE_DIV)
    {
      z.over = x.over + (op == BR__CODE_MUL ? y.over : y.under);
      z.under = x.under + (op == BR__CODE_MUL ? y.under : y.over);
    }
  else
    {
      z.over = larger (x.over + y.under, y.over + x.under);
      z.under = x.under + y.under;
    }
  return larger (z.over, z.under) < MOST_PLACES ? z : beyond (z);
}

/* X to the power N.  */
static shape
power_shape (shape x, int64_t n)
{
  int64_t size = n < 0 ? -n : n;
  if (x.kind == KIND_UNKNOWN || x.kind == KIND_ALGEBRAIC)
    return x.kind == KIND_ALGEBRAIC ? algebraic : unknown;
  if (size >= MOST_PLACES || larger (x.over, x.under) * size >= MOST_PLACES)
    return beyond (x);
  shape z = { x.kind, (int) (x.over * size), (int) (x.under * size), BR__BAND_UNKNOWN, x.algebraic };
  return n < 0 ? (shape) { x.kind, z.under, z.over, BR__BAND_UNKNOWN, x.algebraic } : z;
}

/* ORDER = 1 where instruction I is never under J all over the stretch, -1 where it is never over it, else 0.  J may be
   NONE, for zero.  Intervals may be too wide to see it where both meet at an end: there a difference of degree one has
   its exact values.  */
static br_status
order_of (int *order, band *b, size_t i, size_t j)
{
  br__interval_srcptr x = b->e->values[i], y = j == NONE ? NULL : b->e->values[j];
  const shape constant = { KIND_CONSTANT, 0, 0, BR__BAND_UNKNOWN, 1 };
  shape less = join (b->shapes[i], j == NONE ? constant : b->shapes[j], BR__CODE_SUB);
  int low = 0, high = 0;
  br_real zero = BR_REAL_ZERO;
  unsigned bits = b->t->settings->bits;
  br_status status = BR_OK;
  *order = 0;
  if (y ? mpfr_greaterequal_p (&x->left, &y->right) : mpfr_sgn (&x->left) >= 0)
    *order = 1;
  else if (y ? mpfr_lessequal_p (&x->right, &y->left) : mpfr_sgn (&x->right) <= 0)
    *order = -1;
  if (*order || less.kind != KIND_RATIONAL || less.over > 1 || less.under || b->e->hold_steps)
    return BR_OK;
  status = need_row (b, LOW);
  if (status == BR_OK)
    status = need_row (b, HIGH);
  if (status == BR_OK)
    status = br_real_cmp (&low, &b->rows[LOW][i], y ? &b->rows[LOW][j] : &zero, bits);
  if (status == BR_OK)
    status = br_real_cmp (&high, &b->rows[HIGH][i], y ? &b->rows[HIGH][j] : &zero, bits);
  if (status == BR_OK && low * high >= 0)
    *order = low ? low : high;
  return status == BR_DOMAIN || status == BR_UNDECIDED ? BR_OK : status;
}

/* Z = the operand that is the larger on the whole stretch; if WANTED is negative, the smaller.  */
static br_status
chosen (shape *z, band *b, const br__instruction *c, int wanted)
{
  int order = 0;
  br_status status = order_of (&order, b, c->left, c->right);
  *z = order ? b->shapes[order * wanted > 0 ? c->left : c->right] : unknown;
  return status;
}

static br_status
power (shape *z, band *b, const br__instruction *c)
{
  int64_t n = 0, d = 1, m = 0, one = 1;
  const br__instruction *inner = &b->t->code[c->left];
  int order = 0;
  br_status status = BR_OK;
  *z = unknown;
  if (br_number_get_ratio (&n, &d, &c->number) && d == 1)
    *z = power_shape (b->shapes[c->left], n);
  /* A root of a power is a power but for its sign, and that is one over the stretch.  */
  else if (d == 2 && inner->op == BR__CODE_POWER && br_number_get_ratio (&m, &one, &inner->number) && one == 1
           && m % 2 == 0 && m * n / 2 < MOST_PLACES)
    {
      status = order_of (&order, b, inner->left, NONE);
      if (order)
        *z = power_shape (b->shapes[inner->left], m / 2 * n);
    }
  /* A root is not smooth where its operand is zero.  */
  const shape *x = &b->shapes[c->left];
  if (z->kind == KIND_UNKNOWN && x->kind != KIND_WAVE && x->algebraic && x->roots == BR__BAND_ENDS)
    *z = algebraic;
  return status;
}

static int
all_constant (const band *b, const br__instruction *c)
{
  if (c->op == BR__CODE_CONSTANT)
    return 1;
  return c->op != BR__CODE_INPUT && c->op != BR__CODE_SHAPE && b->shapes[c->left].kind == KIND_CONSTANT
         && b->shapes[c->right].kind == KIND_CONSTANT;
}

static br_status
wave (shape *z, band *b, const br__instruction *c)
{
  const shape *x = &b->shapes[c->left];
  int n = 0;
  *z = unknown;
  br_status status = x->kind == KIND_RATIONAL && x->over == 1 && x->under == 0 ? half_slope (&n, b, c->left) : BR_OK;
  if (status == BR_OK && n)
    *z = (shape) { KIND_WAVE, n, c->op == BR__CODE_TAN ? n : 0, BR__BAND_UNKNOWN, 0 };
  return status;
}

/* The shape of instruction I on the stretch, from those of its operands; the enclosure holds the intervals on the stretch.  */
static br_status
shape_of (shape *z, band *b, size_t i)
{
  const br__instruction *c = &b->t->code[i];
  const shape *x = &b->shapes[c->left], *y = &b->shapes[c->right];
  int order = 0;
  br_status status;
  *z = unknown;
  if (all_constant (b, c) || ((c->op == BR__CODE_MARK || c->op == BR__CODE_DRILL) && !b->e->jumps[i]))
    {
      *z = (shape) { KIND_CONSTANT, 0, 0, BR__BAND_UNKNOWN, 0 };
      return BR_OK;
    }
  switch (c->op)
    {
    case BR__CODE_INPUT: *z = (shape) { KIND_RATIONAL, 1, 0, BR__BAND_UNKNOWN, 1 }; break;
    case BR__CODE_MUL:
      *z = x->roots == BR__BAND_ZERO ? *x : y->roots == BR__BAND_ZERO ? *y : join (*x, *y, c->op);
      break;
    case BR__CODE_DIV: *z = x->roots == BR__BAND_ZERO ? *x : join (*x, *y, c->op); break;
    case BR__CODE_ADD: case BR__CODE_SUB: *z = join (*x, *y, c->op); break;
    case BR__CODE_NEG: case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW: *z = *x; break;
    case BR__CODE_POWER: return power (z, b, c);
    case BR__CODE_MAX: case BR__CODE_MIN: return chosen (z, b, c, c->op == BR__CODE_MAX ? 1 : -1);
    case BR__CODE_ABS:
      status = order_of (&order, b, c->left, NONE);
      if (order)
        *z = *x;
      return status;
    case BR__CODE_SIN: case BR__CODE_COS: case BR__CODE_TAN: return wave (z, b, c);
    default: break;
    }
  return BR_OK;
}

/* ---- Constants ---- */

/* The value of instruction I at the first place is that of the whole stretch.  */
static br_status
hold (band *b, size_t i)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  shape *z = &b->shapes[i];
  int sign = 1, is_algebraic = 0;
  br_status status = need_row (b, 0);
  if (status == BR_OK)
    status = br__real_is_algebraic (&is_algebraic, &b->rows[0][i]);
  if (status == BR_OK)
    status = br_real_sign (&sign, &b->rows[0][i], b->t->settings->bits);
  if (status == BR_OK && sign)
    status = br_real_enclose (&low, &high, &b->rows[0][i], BR__BOX_BITS);
  if (status == BR_OK)
    {
      *z = (shape) { KIND_CONSTANT, 0, 0, sign ? BR__BAND_ENDS : BR__BAND_ZERO, is_algebraic };
      br__interval_set (b->e->values[i], &low, &high);
    }
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

/* The roots of instruction I by those of what it uses.  */
static br__band
roots_of (const band *b, size_t i)
{
  const br__instruction *c = &b->t->code[i];
  br__band left = b->shapes[c->left].roots, right = b->shapes[c->right].roots;
  switch (c->op)
    {
    case BR__CODE_ADD: case BR__CODE_SUB:
      if (left == BR__BAND_ZERO || right == BR__BAND_ZERO)
        return left == BR__BAND_ZERO ? right : left;
      /* Of two that are nowhere below zero, both are zero where the sum is.  */
      return c->op == BR__CODE_ADD && br__interval_sign (b->e->values[c->left], 1) == 1
             && br__interval_sign (b->e->values[c->right], 1) == 1 ? (br__band) larger (left, right) : BR__BAND_UNKNOWN;
    case BR__CODE_MUL: return left < right ? left : right;
    case BR__CODE_POWER: return br_number_sign (&c->number) > 0 ? left : BR__BAND_UNKNOWN;
    case BR__CODE_DIV: case BR__CODE_NEG: case BR__CODE_ABS: case BR__CODE_OVER_ZERO: case BR__CODE_NOT_BELOW:
      return left;
    default: return BR__BAND_UNKNOWN;
    }
}

/* The roots of instruction I; KNOWN: it is certain that it is not constant.  */
static br_status
find_roots (band *b, size_t i, int known)
{
  shape *z = &b->shapes[i];
  int order = 0;
  br_status status = BR_OK;
  z->roots = roots_of (b, i);
  if (known && z->roots < BR__BAND_POINTS)
    z->roots = BR__BAND_POINTS;
  /* Of degree one and nowhere of two signs.  */
  if (known)
    status = order_of (&order, b, i, NONE);
  if (!br__interval_has_zero (b->e->values[i]) || (order && z->kind == KIND_RATIONAL && z->over == 1 && !z->under))
    z->roots = BR__BAND_ENDS;
  return status;
}

static br_status
follow (band *b, size_t i)
{
  shape *z = &b->shapes[i];
  int same = 0, known = 0, partial = b->e->partial;
  br_status status = br__enclose_one (b->e, i);
  /* A divisor that is zero at an end of the stretch is not so within it.  */
  if (b->t->code[i].op == BR__CODE_DIV && b->shapes[b->t->code[i].right].roots == BR__BAND_ENDS)
    b->e->partial = partial;
  if (status == BR_OK)
    status = shape_of (z, b, i);
  int wave = z->kind == KIND_WAVE, count = larger (z->over, z->under) * (wave ? 2 : 1) + 1;
  if (status == BR_OK && z->kind == KIND_CONSTANT)
    return hold (b, i);
  if (status == BR_OK && z->kind != KIND_UNKNOWN && count <= MOST_PLACES && (!wave || b->within_period))
    {
      int far = z->kind == KIND_ALGEBRAIC;
      known = 1;
      status = is_same (&same, b, i, far ? AWAY : 1, far ? ROWS : count);
    }
  if (status != BR_OK)
    return status;
  return same ? hold (b, i) : find_roots (b, i, known);
}

static int
is_one_formula (const br__program *t)
{
  for (size_t i = 0; i < t->count; i++)
    if (t->code[i].op == BR__CODE_POWER && !br_number_is_integer (&t->code[i].number))
      return 0;
  return t->smooth;
}

/* 1 in *WITHIN if S is less than a period wide.  */
static br_status
within_period (int *within, const br__stretch *s)
{
  br_number width = BR_NUMBER_ZERO, period = { PERIOD, 0 };
  br_status status = br_number_sub (&width, &s->high, &s->low);
  *within = status == BR_OK && br_number_cmp (&width, &period) < 0;
  br_number_clear (&width);
  return status;
}

br_status
br__finder_band (br__band *found, br__finder *f, const br__stretch *s)
{
  band b = { .t = f->t, .e = f->e, .stretch = s, .one_formula = is_one_formula (f->t) };
  *found = BR__BAND_UNKNOWN;
  b.shapes = br__alloc_zero (f->t->count, sizeof *b.shapes);
  br_status status = b.shapes ? within_period (&b.within_period, s) : BR_NO_MEMORY;
  br__interval_set (f->e->box[0], &s->low, &s->high);
  f->e->empty = f->e->partial = 0;
  for (size_t i = 0; i <= f->t->root && status == BR_OK; i++)
    status = follow (&b, i);
  if (status == BR_OK && !f->e->empty && !f->e->partial)
    *found = b.shapes[f->t->root].roots;
  for (int j = 0; j < ROWS; j++)
    {
      br_number_clear (&b.places[j]);
      br__program_values_free (b.rows[j], f->t);
    }
  br__free (b.shapes);
  return status == BR_UNDECIDED || status == BR_DOMAIN || status == BR_TOO_BIG ? BR_OK : status;
}

/* All of S is zero, but for an end that has no value.  */
static br_status
add_band (br__finder *f, const br__stretch *s)
{
  const br_number *const places[2] = { &s->low, &s->high };
  br__end ends[2] = { BR__END_ROUGH, BR__END_ROUGH };
  for (int i = 0; i < 2; i++)
    {
      int sign = 0;
      br__interval_set (f->e->box[0], places[i], places[i]);
      br_status status = br__enclose (f->e);
      if (status == BR_OK && f->e->partial)
        status = br__finder_sign (&sign, f, places[i]);
      if (status != BR_OK && status != BR_UNDECIDED)
        return status;
      if (status == BR_OK && sign == 2)
        ends[i] = BR__END_OUT;
    }
  return br__roots_add_range (f->roots, places[0], ends[0], places[1], ends[1]);
}

br_status
br__finder_take_band (int *done, br__finder *f, const br__stretch *s, const br_number *mid)
{
  br__band roots = BR__BAND_UNKNOWN;
  br__interval_set (f->e->box[0], mid, mid);
  br_status status = br__enclose (f->e);
  if (status == BR_OK && !f->e->empty && br__interval_has_zero (br__enclosed_root (f->e)))
    status = br__finder_band (&roots, f, s);
  *done = roots == BR__BAND_ZERO;
  return *done ? add_band (f, s) : status;
}
