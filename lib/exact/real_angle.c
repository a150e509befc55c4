/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_angle.c - sums of arcs.  atan x is the angle of 1 + i x, asin x that of sqrt (1 - x^2) + i x; the angle
   of a product is the sum of the angles.  So sine and cosine of a sum of whole multiples are made of the
   arguments by + - * / and square roots.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real_field.h"

#include "exact/number.h"

/* ---- The parts of an angle ---- */

int
br__is_arc (const br_real_node *node)
{
  return node->op == BR__REAL_ATAN || node->op == BR__REAL_ASIN;
}

void
br__angle_clear (br__angle *a)
{
  mpq_clear (a->degrees);
  while (a->size > 0)
    mpq_clear (a->part[--a->size].times);
}

/* TIMES * NODE more.  */
static int
put_part (br__angle *a, br_real_node *node, mpq_srcptr times)
{
  size_t i = 0;

  while (i < a->size && !br__same_node (a->part[i].node, node))
    i++;
  if (i == BR__ANGLE_PARTS)
    return 0;
  if (i == a->size)
    {
      mpq_init (a->part[i].times);
      a->part[i].node = node;
      a->size++;
    }
  mpq_add (a->part[i].times, a->part[i].times, times);
  return 1;
}

/* One value that waits to be taken apart.  */
typedef struct piece
{
  const br_real *value;
  mpq_t times;
} piece;

/* What an exact sum adds: TIMES the root and the power of pi of TERM.  */
typedef struct added
{
  const br__term *term;
  mpq_t times;
} added;

typedef struct pieces
{
  piece piece[BR__ANGLE_PARTS];
  size_t size;
  int whole;                    /* exact sums are left as they are, */
  added added[BR__ANGLE_PARTS]; /* else their terms stand here */
  size_t added_size;
} pieces;

/* TIMES the exact sum NODE more; its rational term is of degrees.  */
static int
put_sum (br__angle *a, pieces *waiting, const br_real_node *node, mpq_srcptr times)
{
  const br_number one = { 1, 0 };
  int fits = 1;
  mpq_t q;

  mpq_init (q);
  for (size_t k = 0; k < node->size && fits; k++)
    {
      const br__term *t = &node->term[k];
      size_t i = 0;

      br__number_to_mpq (q, &t->q);
      mpq_mul (q, q, times);
      while (i < waiting->added_size
             && !(waiting->added[i].term->k == t->k && br_number_equal (&waiting->added[i].term->m, &t->m)))
        i++;
      if (t->k == 0 && br_number_equal (&t->m, &one))
        mpq_add (a->degrees, a->degrees, q);
      else if (i == BR__ANGLE_PARTS)
        fits = 0;
      else
        {
          if (i == waiting->added_size)
            {
              mpq_init (waiting->added[i].times);
              waiting->added[i].term = t;
              waiting->added_size++;
            }
          mpq_add (waiting->added[i].times, waiting->added[i].times, q);
        }
    }
  mpq_clear (q);
  return fits;
}

static int
push (pieces *waiting, const br_real *value, mpq_srcptr times)
{
  if (waiting->size == BR__ANGLE_PARTS)
    return 0;
  piece *p = &waiting->piece[waiting->size++];
  p->value = value;
  mpq_init (p->times);
  mpq_set (p->times, times);
  return 1;
}

/* Takes the last of WAITING apart, or puts it into A.  */
static int
take_apart (br__angle *a, pieces *waiting)
{
  piece *last = &waiting->piece[--waiting->size];
  br_real_node *node = last->value->node;
  mpq_t times, factor;
  int fits = 1;

  mpq_init (factor);
  mpq_init (times);
  mpq_swap (times, last->times);
  mpq_clear (last->times);
  if (node == NULL)
    {
      br__number_to_mpq (factor, &last->value->rational);
      mpq_mul (factor, factor, times);
      mpq_add (a->degrees, a->degrees, factor);
    }
  else if (node->op == BR__REAL_ADD || node->op == BR__REAL_SUB)
    {
      fits = push (waiting, &node->left, times);
      if (node->op == BR__REAL_SUB)
        mpq_neg (times, times);
      fits = fits && push (waiting, &node->right, times);
    }
  else if (node->op == BR__REAL_MUL && node->right.node == NULL)
    {
      br__number_to_mpq (factor, &node->right.rational);
      mpq_mul (times, times, factor);
      fits = push (waiting, &node->left, times);
    }
  else if (node->op == BR__REAL_MUL && node->left.node == NULL)
    {
      br__number_to_mpq (factor, &node->left.rational);
      mpq_mul (times, times, factor);
      fits = push (waiting, &node->right, times);
    }
  else if (node->op == BR__REAL_SUM && !waiting->whole)
    fits = put_sum (a, waiting, node, times);
  else
    fits = put_part (a, node, times);
  mpq_clear (times);
  mpq_clear (factor);
  return fits;
}

static void
drop_what_cancels (br__angle *a)
{
  size_t kept = 0;

  for (size_t i = 0; i < a->size; i++)
    if (mpq_sgn (a->part[i].times) == 0)
      mpq_clear (a->part[i].times);
    else
      a->part[kept++] = a->part[i];
  a->size = kept;
}

/* The parts of X; 0 where there are too many, or where what exact sums add does not cancel and they are not left WHOLE.  */
static int
take_all (br__angle *a, const br_real *x, int whole)
{
  pieces waiting = { .whole = whole };
  mpq_t one;
  int fits = 1;

  a->size = 0;
  mpq_init (a->degrees);
  mpq_init (one);
  mpq_set_ui (one, 1, 1);
  push (&waiting, x, one);
  while (waiting.size > 0 && fits)
    fits = take_apart (a, &waiting);
  while (waiting.size > 0)
    mpq_clear (waiting.piece[--waiting.size].times);
  for (size_t i = 0; i < waiting.added_size; i++)
    {
      fits = fits && mpq_sgn (waiting.added[i].times) == 0;
      mpq_clear (waiting.added[i].times);
    }
  drop_what_cancels (a);
  mpq_clear (one);
  return fits;
}

int
br__angle_of (br__angle *a, const br_real *x)
{
  if (take_all (a, x, 0))
    return 1;
  br__angle_clear (a);
  return take_all (a, x, 1);
}

int
br__angle_of_arcs (const br__angle *a)
{
  for (size_t i = 0; i < a->size; i++)
    if (!br__is_arc (a->part[i].node))
      return 0;
  return 1;
}

int64_t
br__angle_clear_denominators (br__angle *a)
{
  mpz_t common;
  mpq_t factor;
  int64_t value = 0;

  mpz_init_set_ui (common, 1);
  mpq_init (factor);
  for (size_t i = 0; i < a->size; i++)
    mpz_lcm (common, common, mpq_denref (a->part[i].times));
  if (mpz_cmp_ui (common, BR__TURNS) <= 0)
    {
      value = (int64_t) mpz_get_ui (common);
      mpq_set_z (factor, common);
      mpq_mul (a->degrees, a->degrees, factor);
      for (size_t i = 0; i < a->size; i++)
        {
          mpq_mul (a->part[i].times, a->part[i].times, factor);
          if (mpz_cmpabs_ui (mpq_numref (a->part[i].times), BR__TURNS) > 0)
            value = 0;
        }
    }
  mpq_clear (factor);
  mpz_clear (common);
  return value;
}

/* ---- Turns as complex steps ---- */

typedef struct turn
{
  uint32_t re, im, length;
} turn;

static turn
times (br__field *f, turn x, turn y)
{
  uint32_t a = br__field_make (f, BR__STEP_MUL, x.re, y.re, 0), b = br__field_make (f, BR__STEP_MUL, x.im, y.im, 0);
  uint32_t c = br__field_make (f, BR__STEP_MUL, x.re, y.im, 0), d = br__field_make (f, BR__STEP_MUL, x.im, y.re, 0);

  return (turn) { br__field_make (f, BR__STEP_SUB, a, b, 0), br__field_make (f, BR__STEP_ADD, c, d, 0),
                  br__field_make (f, BR__STEP_MUL, x.length, y.length, 0) };
}

/* sqrt (1 + X^2), or sqrt (1 - X^2).  */
static uint32_t
other_side (br__field *f, br__step_op op, uint32_t x)
{
  uint32_t square = br__field_make (f, BR__STEP_MUL, x, x, 0);

  return br__field_make (f, BR__STEP_ROOT, br__field_make (f, op, br__field_int (f, 1), square, 0), 0, 2);
}

/* The turn by NODE, an arc.  */
static turn
turn_by (br__field *f, const br_real_node *node)
{
  uint32_t x = br__field_operand (f, &node->left), one = br__field_int (f, 1);

  return node->op == BR__REAL_ATAN ? (turn) { one, x, other_side (f, BR__STEP_ADD, x) }
                                   : (turn) { other_side (f, BR__STEP_SUB, x), x, one };
}

/* T times BASE to the power of N, not 0; the length to an even power is that of its square.  */
static turn
raise (br__field *f, turn t, turn base, int64_t n)
{
  if (n < 0)
    base.im = br__field_make (f, BR__STEP_SUB, 0, base.im, 0);
  n = n < 0 ? -n : n;
  t.length = br__field_make (f, BR__STEP_MUL, t.length, br__field_make (f, BR__STEP_POWER, base.length, 0, n), 0);
  base.length = br__field_int (f, 1);
  for (; n > 0 && f->status == BR_OK; n /= 2)
    {
      if (n % 2 != 0)
        t = times (f, t, base);
      if (n > 1)
        base = times (f, base, base);
    }
  return t;
}

void
br__field_turn (br__field *f, uint32_t *re, uint32_t *im, uint32_t *length, const br__angle *a)
{
  mpq_t across;
  turn t = { .length = br__field_int (f, 1) };

  mpq_init (across);
  mpq_set_ui (across, 90, 1);
  mpq_sub (across, across, a->degrees);
  t.re = br__field_cosine (f, a->degrees);
  t.im = br__field_cosine (f, across);
  mpq_clear (across);
  for (size_t i = 0; i < a->size && f->status == BR_OK; i++)
    t = raise (f, t, turn_by (f, a->part[i].node), mpz_get_si (mpq_numref (a->part[i].times)));
  *re = t.re;
  *im = t.im;
  *length = t.length;
}

/* ---- Sine, cosine, tangent ---- */

/* The sign of sine or cosine of NODE degrees, by its enclosure; 0 is unknown.  */
static int
sign_of (br__field *f, br_real_node *node, int cosine)
{
  br__interval angle;
  int sign = 0;

  br__interval_init (angle, 128);
  if (br__node_evaluate (node, BR__FIRST_BITS) == BR_OK)
    br__interval_sine (angle, node->enclosure, cosine);
  else
    f->status = BR_NO_MEMORY;
  sign = br__interval_sign (angle, 0) % 2;
  br__interval_clear (angle);
  if (sign == 0 && f->status == BR_OK)
    f->status = BR_UNDECIDED;
  return sign;
}

/* T, a turn by twice X, becomes the turn by X, which has arcs: cos x is plus or minus sqrt ((1 + cos 2x) / 2).  */
static turn
halve (br__field *f, turn t, const br_real *x)
{
  uint32_t one = br__field_int (f, 1), two = br__field_int (f, 2);
  uint32_t cosine = br__field_make (f, BR__STEP_DIV, t.re, t.length, 0), part[2];

  for (int i = 0; i < 2; i++)
    {
      int sign = sign_of (f, x->node, i == 0);

      part[i] = br__field_make (f, i == 0 ? BR__STEP_ADD : BR__STEP_SUB, one, cosine, 0);
      part[i] = br__field_make (f, BR__STEP_ROOT, br__field_make (f, BR__STEP_DIV, part[i], two, 0), 0, 2);
      if (sign < 0)
        part[i] = br__field_make (f, BR__STEP_SUB, 0, part[i], 0);
    }
  return (turn) { part[0], part[1], one };
}

uint32_t
br__field_circular (br__field *f, br_real_node *node)
{
  br__angle a;
  turn t;
  uint32_t step;
  int64_t common = br__angle_of (&a, &node->left) && br__angle_of_arcs (&a) ? br__angle_clear_denominators (&a) : 0;

  if (common != 1 && common != 2)
    step = br__field_atom (f, node);
  else
    {
      br__field_turn (f, &t.re, &t.im, &t.length, &a);
      if (common == 2)
        t = halve (f, t, &node->left);
      step = node->op == BR__REAL_TAN ? br__field_make (f, BR__STEP_DIV, t.im, t.re, 0)
             : br__field_make (f, BR__STEP_DIV, node->op == BR__REAL_SIN ? t.im : t.re, t.length, 0);
    }
  br__angle_clear (&a);
  return step;
}
