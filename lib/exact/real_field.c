/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_field.c - makes the steps of a formula: equal steps are shared, and rational ones are computed.
   Formulas may be very deep, so no function here is recursive.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real_field.h"

#include "exact/memory.h"
#include "exact/number.h"

#define HASHES (sizeof ((br__field *) 0)->first / sizeof ((br__field *) 0)->first[0])

static int
has_number (br__step_op op)
{
  return op == BR__STEP_NUMBER || op == BR__STEP_COSINE;
}

/* ---- Steps ---- */

static uint32_t
fail (br__field *f, br_status status)
{
  if (f->status == BR_OK)
    f->status = status;
  return 0;
}

static size_t
hash (br__step_op op, uint32_t left, uint32_t right, int64_t index, mpq_srcptr number)
{
  uint64_t h = (uint64_t) op * 31 + left * UINT64_C (0x9e3779b1) + right * UINT64_C (0x85ebca77) + (uint64_t) index;

  if (number != NULL)
    h += mpz_get_ui (mpq_numref (number)) * 7 + mpz_get_ui (mpq_denref (number)) * 13;
  return (h ^ h >> 17) % HASHES;
}

/* The step that is so, an earlier one where there is one.  */
static uint32_t
find_or_add (br__field *f, br__step_op op, uint32_t left, uint32_t right, int64_t index, mpq_srcptr number)
{
  size_t h = hash (op, left, right, index, number);

  if (f->status != BR_OK)
    return 0;
  for (uint32_t i = f->size > 0 ? f->first[h] : 0; i != 0; i = f->step[i].next)
    {
      const br__step *s = &f->step[i];

      if (s->op == op && s->left == left && s->right == right && s->index == index
          && (number == NULL || mpq_equal (s->number, number)))
        return i;
    }
  if (f->size == BR__STEPS)
    return fail (f, BR_UNDECIDED);
  if (!br__grow (&f->step, &f->room, f->size + 1, sizeof f->step[0]))
    return fail (f, BR_NO_MEMORY);
  br__step *s = &f->step[f->size];
  *s = (br__step) { .op = op, .left = left, .right = right, .index = index, .next = f->first[h] };
  if (has_number (op))
    {
      mpq_init (s->number);
      mpq_set (s->number, number);
    }
  f->first[h] = (uint32_t) f->size;
  return (uint32_t) f->size++;
}

void
br__field_init (br__field *f)
{
  mpq_t zero;

  *f = (br__field) { .status = BR_OK };
  mpq_init (zero);
  find_or_add (f, BR__STEP_NUMBER, 0, 0, 0, zero);
  mpq_clear (zero);
}

void
br__field_clear (br__field *f)
{
  for (size_t i = 0; i < f->size; i++)
    {
      if (has_number (f->step[i].op))
        mpq_clear (f->step[i].number);
      if (f->step[i].precision != 0)
        br__interval_clear (f->step[i].value);
    }
  for (size_t i = 0; i < f->atoms; i++)
    {
      br__interval_clear (f->atom[i].box);
      mpq_clear (f->atom[i].point);
    }
  for (size_t i = 0; i < f->seen_size; i++)
    f->seen[i]->step = 0;
  br__free (f->seen);
  br__free (f->step);
}

uint32_t
br__field_number (br__field *f, mpq_srcptr number)
{
  return mpq_sgn (number) == 0 ? 0 : find_or_add (f, BR__STEP_NUMBER, 0, 0, 0, number);
}

uint32_t
br__field_int (br__field *f, long number)
{
  mpq_t q;
  uint32_t step;

  mpq_init (q);
  mpq_set_si (q, number, 1);
  step = br__field_number (f, q);
  mpq_clear (q);
  return step;
}

int
br__field_is_number (const br__field *f, uint32_t step, long number)
{
  return f->status == BR_OK && f->step[step].op == BR__STEP_NUMBER && mpq_cmp_si (f->step[step].number, number, 1) == 0;
}

uint32_t
br__field_atom (br__field *f, br_real_node *node)
{
  size_t i = 0;

  while (i < f->atoms && !br__same_node (f->atom[i].node, node))
    i++;
  if (i == BR__ATOMS)
    return fail (f, BR_UNDECIDED);
  if (i == f->atoms)
    {
      f->atom[i].node = node;
      br__interval_init (f->atom[i].box, 128);
      mpq_init (f->atom[i].point);
      f->atoms++;
    }
  return find_or_add (f, BR__STEP_ATOM, 0, 0, (int64_t) i, NULL);
}

/* Of an angle in 0..1/2 turns, as the cosine is the same on both sides of 0.  The rational ones are made
   such; by Niven's theorem there are no others.  */
uint32_t
br__field_cosine (br__field *f, mpq_srcptr degrees)
{
  static const struct { int twelfths, twice; } rational[] = { { 0, 2 }, { 2, 1 }, { 3, 0 }, { 4, -1 }, { 6, -2 } };
  mpq_t turns, part;
  mpz_t whole;
  uint32_t step = 0;

  mpq_inits (turns, part, NULL);
  mpz_init (whole);
  mpq_set_ui (part, 1, 360);
  mpq_mul (turns, degrees, part);
  mpz_fdiv_q (whole, mpq_numref (turns), mpq_denref (turns));
  mpq_set_z (part, whole);
  mpq_sub (turns, turns, part);
  if (mpq_cmp_ui (turns, 1, 2) > 0)
    {
      mpq_set_ui (part, 1, 1);
      mpq_sub (turns, part, turns);
    }
  size_t i = 0;
  while (i < 5 && mpq_cmp_ui (turns, (unsigned long) rational[i].twelfths, 12) != 0)
    i++;
  if (i < 5)
    {
      mpq_set_si (part, rational[i].twice, 2);
      mpq_canonicalize (part);
      step = br__field_number (f, part);
    }
  else
    step = find_or_add (f, BR__STEP_COSINE, 0, 0, 0, turns);
  mpq_clears (turns, part, NULL);
  mpz_clear (whole);
  return step;
}

/* ---- Operations ---- */

static size_t
bits_of (mpq_srcptr q)
{
  return mpz_sizeinbase (mpq_numref (q), 2) + mpz_sizeinbase (mpq_denref (q), 2);
}

/* Two rationals.  */
static uint32_t
on_numbers (br__field *f, br__step_op op, mpq_srcptr x, mpq_srcptr y)
{
  mpq_t z;
  uint32_t step;

  if (bits_of (x) + bits_of (y) > BR_MAX_BITS || (op == BR__STEP_DIV && mpq_sgn (y) == 0))
    return fail (f, BR_UNDECIDED);
  mpq_init (z);
  switch (op)
    {
    case BR__STEP_ADD: mpq_add (z, x, y); break;
    case BR__STEP_SUB: mpq_sub (z, x, y); break;
    case BR__STEP_MUL: mpq_mul (z, x, y); break;
    default: mpq_div (z, x, y); break;
    }
  step = br__field_number (f, z);
  mpq_clear (z);
  return step;
}

/* A root or power of a rational; one that stays a root is a step.  */
static uint32_t
on_number (br__field *f, br__step_op op, uint32_t left, int64_t index)
{
  mpq_t z;
  unsigned long n = (unsigned long) index;
  uint32_t step = 0;
  int exact = 1;

  if (op == BR__STEP_POWER ? bits_of (f->step[left].number) > BR_MAX_BITS / n : mpq_sgn (f->step[left].number) == 0)
    return fail (f, BR_UNDECIDED);
  if (op == BR__STEP_ROOT && n % 2 == 0 && mpq_sgn (f->step[left].number) < 0)
    return fail (f, BR_UNDECIDED);
  mpq_init (z);
  mpq_set (z, f->step[left].number);
  if (op == BR__STEP_POWER)
    {
      mpz_pow_ui (mpq_numref (z), mpq_numref (z), n);
      mpz_pow_ui (mpq_denref (z), mpq_denref (z), n);
    }
  else
    exact = (mpz_root (mpq_numref (z), mpq_numref (z), n) != 0
             && mpz_root (mpq_denref (z), mpq_denref (z), n) != 0);
  step = exact ? br__field_number (f, z) : find_or_add (f, op, left, 0, index, NULL);
  mpq_clear (z);
  return step;
}

/* The step where an operation has an answer at once, else UINT32_MAX.  */
static uint32_t
at_once (br__field *f, br__step_op op, uint32_t left, uint32_t right)
{
  switch (op)
    {
    case BR__STEP_ADD:
      return left == 0 ? right : right == 0 ? left : UINT32_MAX;
    case BR__STEP_SUB:
      return right == 0 ? left : left == right ? 0 : UINT32_MAX;
    case BR__STEP_MUL:
      if (left == 0 || right == 0)
        return 0;
      return br__field_is_number (f, left, 1) ? right : br__field_is_number (f, right, 1) ? left : UINT32_MAX;
    default:
      if (right == 0)
        return fail (f, BR_UNDECIDED);
      if (left == 0 || br__field_is_number (f, right, 1))
        return left;
      return left == right ? br__field_int (f, 1) : UINT32_MAX;
    }
}

uint32_t
br__field_make (br__field *f, br__step_op op, uint32_t left, uint32_t right, int64_t index)
{
  if (f->status != BR_OK)
    return 0;
  const br__step *x = &f->step[left], *y = &f->step[right];
  if (op == BR__STEP_ROOT || op == BR__STEP_POWER)
    {
      if (index == 1)
        return left;
      if (x->op == BR__STEP_NUMBER)
        return on_number (f, op, left, index);
      if (op == BR__STEP_POWER && x->op == BR__STEP_ROOT && x->index == index)
        return x->left;
      return find_or_add (f, op, left, 0, index, NULL);
    }
  if (x->op == BR__STEP_NUMBER && y->op == BR__STEP_NUMBER)
    return on_numbers (f, op, x->number, y->number);
  uint32_t answer = at_once (f, op, left, right);
  if (answer != UINT32_MAX)
    return answer;
  int turned = (op == BR__STEP_ADD || op == BR__STEP_MUL) && left > right;
  return find_or_add (f, op, turned ? right : left, turned ? left : right, 0, NULL);
}

/* ---- Formulas ---- */

/* An exact sum over its common denominator, which keeps the bounds small.  */
static uint32_t
put_sum (br__field *f, const br_real_node *node)
{
  uint32_t sum = 0;
  mpz_t common;
  mpq_t q;

  mpz_init_set_ui (common, 1);
  mpq_init (q);
  for (size_t i = 0; i < node->size; i++)
    {
      br__number_to_mpq (q, &node->term[i].q);
      mpz_lcm (common, common, mpq_denref (q));
    }
  for (size_t i = 0; i < node->size; i++)
    {
      const br__term *t = &node->term[i];
      int64_t k = t->k < 0 ? -t->k : t->k;
      uint32_t factor, power;

      br__number_to_mpq (q, &t->m);
      factor = br__field_make (f, BR__STEP_ROOT, br__field_number (f, q), 0, 2);
      br__number_to_mpq (q, &t->q);
      mpz_mul (mpq_numref (q), mpq_numref (q), common);
      mpq_canonicalize (q);
      factor = br__field_make (f, BR__STEP_MUL, br__field_number (f, q), factor, 0);
      if (k != 0)
        {
          power = br__field_make (f, BR__STEP_POWER, br__field_atom (f, NULL), 0, k);
          factor = br__field_make (f, t->k < 0 ? BR__STEP_DIV : BR__STEP_MUL, factor, power, 0);
        }
      sum = br__field_make (f, BR__STEP_ADD, sum, factor, 0);
    }
  mpq_set_z (q, common);
  sum = br__field_make (f, BR__STEP_DIV, sum, br__field_number (f, q), 0);
  mpq_clear (q);
  mpz_clear (common);
  return sum;
}

uint32_t
br__field_operand (br__field *f, const br_real *x)
{
  mpq_t q;
  uint32_t step;

  if (x->node != NULL)
    return x->node->step - 1;
  mpq_init (q);
  br__number_to_mpq (q, &x->rational);
  step = br__field_number (f, q);
  mpq_clear (q);
  return step;
}

/* The step of NODE, the operands of which were put in.  */
static uint32_t
put_node (br__field *f, br_real_node *node)
{
  static const br__step_op plain[] =
  {
    [BR__REAL_ADD] = BR__STEP_ADD, [BR__REAL_SUB] = BR__STEP_SUB, [BR__REAL_MUL] = BR__STEP_MUL,
    [BR__REAL_DIV] = BR__STEP_DIV, [BR__REAL_ROOT] = BR__STEP_ROOT, [BR__REAL_RAISE] = BR__STEP_POWER
  };

  switch (node->op)
    {
    case BR__REAL_SUM:
      return put_sum (f, node);
    case BR__REAL_SIN: case BR__REAL_COS: case BR__REAL_TAN:
      return br__field_circular (f, node);
    case BR__REAL_ATAN: case BR__REAL_ASIN:
      return br__field_atom (f, node);
    default:
      return br__field_make (f, plain[node->op], br__field_operand (f, &node->left),
                             br__field_operand (f, &node->right), node->index);
    }
}

/* The next node that NODE needs and that was not put in, or NULL.  Of an angle those are the arguments of its
   arcs.  */
static br_real_node *
next_needed (const br_real_node *node)
{
  br_real_node *needed = NULL;

  if (node->op == BR__REAL_ATAN || node->op == BR__REAL_ASIN)
    return NULL;
  if (node->op == BR__REAL_SIN || node->op == BR__REAL_COS || node->op == BR__REAL_TAN)
    {
      br__angle a;

      if (br__angle_of (&a, &node->left))
        for (size_t i = 0; i < a.size && needed == NULL; i++)
          if (br__is_arc (a.part[i].node) && a.part[i].node->left.node != NULL
              && a.part[i].node->left.node->step == 0)
            needed = a.part[i].node->left.node;
      br__angle_clear (&a);
      return needed;
    }
  if (node->left.node != NULL && node->left.node->step == 0)
    return node->left.node;
  return node->right.node != NULL && node->right.node->step == 0 ? node->right.node : NULL;
}

uint32_t
br__field_put (br__field *f, const br_real *x)
{
  br_real_node **stack = NULL;
  size_t room = 0, depth = 0;

  for (br_real_node *next = x->node; f->status == BR_OK; )
    {
      if (next != NULL && !br__grow (&stack, &room, depth + 1, sizeof *stack))
        fail (f, BR_NO_MEMORY);
      else if (next != NULL)
        stack[depth++] = next;
      if (depth == 0 || f->status != BR_OK)
        break;
      if (depth > BR__STEPS)
        fail (f, BR_UNDECIDED);
      next = next_needed (stack[depth - 1]);
      if (next != NULL)
        continue;
      br_real_node *top = stack[--depth];
      if (!br__grow (&f->seen, &f->seen_room, f->seen_size + 1, sizeof *f->seen))
        fail (f, BR_NO_MEMORY);
      else if (top->step == 0)
        {
          f->seen[f->seen_size++] = top;
          top->step = put_node (f, top) + 1;
        }
    }
  br__free (stack);
  return f->status == BR_OK ? br__field_operand (f, x) : 0;
}
