/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_zero.c - proves that a value is a given rational, or that it is not.

   Without atoms: enclosures with more and more bits, until zero is outside, or the whole enclosure is nearer to zero
   than any value except zero can be.  With atoms: the value, as a function of the atoms, is 0 everywhere if it is 0 at
   enough points; each point is decided without atoms.  docs/certainty.md has the argument.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/real_field.h"

#include "exact/number.h"

#define FIRST 128               /* bits at which a proof begins */
#define POINTS_MOST 2000        /* points of one proof */
#define COSINE_WORK 20          /* a cosine of many bits takes as long as so many products */

/* ---- Enclosures of steps ---- */

/* 0 where a divisor or a radicand may be zero.  */
static int
enclose_step (br__field *f, br__step *s, int in_box)
{
  br__atom *atom = s->op == BR__STEP_ATOM ? &f->atom[s->index] : NULL;
  br__interval_srcptr x = f->step[s->left].value, y = f->step[s->right].value;
  br__interval_ptr z = s->value;

  switch (s->op)
    {
    case BR__STEP_NUMBER: br__interval_set_q (z, s->number); break;
    case BR__STEP_ATOM:
      if (in_box)
        br__interval_copy (z, atom->box);
      else
        br__interval_set_q (z, atom->point);
      break;
    case BR__STEP_COSINE:
      br__interval_set_q (z, s->number);
      br__interval_scale (z, z, 360, 1);
      br__interval_sine (z, z, 1);
      break;
    case BR__STEP_ADD: br__interval_add (z, x, y); break;
    case BR__STEP_SUB: br__interval_sub (z, x, y); break;
    case BR__STEP_MUL: br__interval_mul (z, x, y); break;
    case BR__STEP_DIV:
      if (br__interval_has_zero (y))
        return 0;
      br__interval_div (z, x, y);
      break;
    case BR__STEP_ROOT:
      if (br__interval_sign (x, 0) != 1)
        return 0;
      br__interval_root (z, x, (unsigned long) s->index);
      break;
    case BR__STEP_POWER: br__interval_power (z, x, (uint64_t) s->index); break;
    }
  return br__interval_bounded (z);
}

/* Encloses ROOT and what it needs at P bits; 0 where that does not do.  */
static int
enclose (br__field *f, uint32_t root, mpfr_prec_t p, int in_box)
{
  for (size_t i = 0; i <= root; i++)
    {
      br__step *s = &f->step[i];

      if (i > 0 && !s->needed)
        continue;
      if (s->precision != 0)
        br__interval_clear (s->value);
      br__interval_init (s->value, p);
      s->precision = p;
      if (!enclose_step (f, s, in_box))
        return 0;
    }
  return 1;
}

/* 1 where all of X lies nearer to zero than 2^-BITS.  */
static int
is_under (br__interval_srcptr x, int64_t bits)
{
  return (mpfr_zero_p (&x->left) || mpfr_get_exp (&x->left) <= -bits)
         && (mpfr_zero_p (&x->right) || mpfr_get_exp (&x->right) <= -bits);
}

/* How many additions of intervals the work of one enclosure of ROOT is like.  */
static int64_t
steps_of (const br__field *f, uint32_t root)
{
  int64_t steps = 1;

  for (size_t i = 0; i <= root; i++)
    if (f->step[i].needed)
      steps += f->step[i].op == BR__STEP_COSINE ? COSINE_WORK : 1;
  return steps;
}

/* Is ROOT zero, with its point for each atom?  */
static br_truth
is_zero_at_point (br__field *f, uint32_t root, br__proof *proof)
{
  const int64_t least = br__field_bits (f, root);
  const int64_t steps = steps_of (f, root);
  const int in_reach = least <= BR_MAX_BITS && least <= proof->work / steps;
  int64_t p = FIRST, last = in_reach ? 4 * least + BR_REAL_BITS : BR_REAL_BITS;

  proof->bits = least > BR_MAX_BITS ? least : 0;
  proof->more |= !in_reach && proof->bits == 0;
  while (p <= last)
    {
      br__account_spend ((size_t) (steps * p >> 16));
      if (enclose (f, root, (mpfr_prec_t) p, 0))
        {
          br__interval_srcptr value = f->step[root].value;

          if (!br__interval_has_zero (value))
            return BR_NO;
          if (in_reach && is_under (value, least))
            return BR_YES;
        }
      /* Twice as many, and all that the bound asks for once that is near.  */
      p = !in_reach || 4 * p < least ? 2 * p : p < least + 64 ? least + 64 : p + p / 2;
    }
  return BR_UNKNOWN;
}

/* ---- Points for atoms ---- */

static br_status
enclose_atom (br__atom *a)
{
  br_status status = a->node != NULL ? br__node_evaluate (a->node, BR__FIRST_BITS) : BR_OK;

  if (a->node == NULL)
    br__interval_pi (a->box);
  else if (status == BR_OK)
    br__interval_copy (a->box, a->node->enclosure);
  return status;
}

/* The point I of COUNT of them in steps of 2^-FINE around CENTER * 2^-FINE.  */
static void
set_point (mpq_t point, mpz_srcptr center, int64_t i, int64_t count, unsigned long fine)
{
  mpz_set (mpq_numref (point), center);
  if (i < count / 2)
    mpz_sub_ui (mpq_numref (point), center, (unsigned long) (count / 2 - i));
  else
    mpz_add_ui (mpq_numref (point), center, (unsigned long) (i - count / 2));
  mpz_set_ui (mpq_denref (point), 1);
  mpq_div_2exp (point, point, fine);
}

typedef struct grid
{
  mpz_t center[BR__ATOMS];
  int64_t count[BR__ATOMS];
  unsigned long fine[BR__ATOMS];
} grid;

/* Lays COUNT points for atom I within 2^-NEAR of it, and a box around them and it.  */
static br_status
lay_points (br__field *f, grid *g, size_t i, unsigned long near)
{
  br__atom *a = &f->atom[i];
  mpfr_t middle;
  br_status status = enclose_atom (a);

  if (status != BR_OK)
    return status;
  if (!br__interval_bounded (a->box))
    return BR_UNDECIDED;
  g->fine[i] = near + 1;
  while ((INT64_C (1) << (g->fine[i] - near)) < g->count[i])
    g->fine[i]++;
  mpfr_init2 (middle, 128);
  br__interval_middle (middle, a->box);
  mpfr_mul_2ui (middle, middle, near, MPFR_RNDN);
  mpfr_get_z (g->center[i], middle, MPFR_RNDN);
  mpz_mul_2exp (g->center[i], g->center[i], g->fine[i] - near);
  mpfr_clear (middle);
  for (int64_t j = 0; j < g->count[i]; j += g->count[i] > 1 ? g->count[i] - 1 : 1)
    {
      set_point (a->point, g->center[i], j, g->count[i], g->fine[i]);
      br__interval_put_q (a->box, a->point);
    }
  return BR_OK;
}

/* Lays the grid so near to the atoms that no divisor and no radicand is zero on the way to a point.  */
static br_status
lay_grid (br__field *f, grid *g, uint32_t root)
{
  for (unsigned long near = 3; near <= 64; near *= 2)
    {
      br_status status = BR_OK;

      for (size_t i = 0; i < f->atoms && status == BR_OK; i++)
        status = lay_points (f, g, i, near);
      if (status != BR_OK)
        return status;
      if (enclose (f, root, FIRST, 1))
        return BR_OK;
    }
  return BR_UNDECIDED;
}

/* Asks at each point of the grid.  */
static br_truth
is_zero_on_grid (br__field *f, const grid *g, uint32_t root, int64_t total, br__proof *proof)
{
  for (int64_t n = 0; n < total; n++)
    {
      int64_t rest = n;
      br_truth zero;

      for (size_t i = 0; i < f->atoms; i++)
        {
          set_point (f->atom[i].point, g->center[i], rest % g->count[i], g->count[i], g->fine[i]);
          rest /= g->count[i];
        }
      zero = is_zero_at_point (f, root, proof);
      if (zero != BR_YES)
        return zero;
    }
  return BR_YES;
}

/* A function of atoms that is not 0 everywhere is not 0 at pi, which is transcendental; of other atoms that is
   not known.  */
static br_truth
is_zero_with_atoms (br__field *f, uint32_t root, br__proof *proof)
{
  const int only_pi = f->atoms == 1 && f->atom[0].node == NULL;
  grid g;
  int64_t total = 1;
  br_truth zero = BR_UNKNOWN;

  for (size_t i = 0; i < f->atoms; i++)
    {
      g.count[i] = br__field_points (f, root, i);
      if (__builtin_mul_overflow (total, g.count[i], &total) || total > POINTS_MOST)
        return BR_UNKNOWN;
    }
  for (size_t i = 0; i < f->atoms; i++)
    mpz_init (g.center[i]);
  br_status status = lay_grid (f, &g, root);
  proof->work /= total;
  if (status == BR_OK)
    zero = is_zero_on_grid (f, &g, root, total, proof);
  else if (status == BR_NO_MEMORY)
    f->status = status;
  for (size_t i = 0; i < f->atoms; i++)
    mpz_clear (g.center[i]);
  return zero == BR_NO && !only_pi ? BR_UNKNOWN : zero;
}

/* ---- The question ---- */

/* 1 where N times the enclosure of NODE less CANDIDATE lies between -180 and 180.  */
static int
is_within_half_turn (br_real_node *node, mpq_srcptr candidate, int64_t n)
{
  br__interval distance;
  int within;

  br__interval_init (distance, 128);
  br__interval_set_q (distance, candidate);
  br__interval_sub (distance, node->enclosure, distance);
  br__interval_scale (distance, distance, (long) n, 1);
  within = mpfr_cmp_si (&distance->left, -180) > 0 && mpfr_cmp_si (&distance->right, 180) < 0;
  br__interval_clear (distance);
  return within;
}

/* A step that is zero where X, a sum of arcs, is CANDIDATE: the sine of their difference, times the common
   denominator of the multiples.  0 in FOUND where X is no such sum.  */
static uint32_t
sine_of_difference (br__field *f, int *found, const br_real *x, mpq_srcptr candidate)
{
  br__angle a;
  uint32_t re, im = 0, length;
  int64_t common = 0;

  if (br__angle_of (&a, x) && a.size > 0 && br__angle_of_arcs (&a))
    {
      mpq_sub (a.degrees, a.degrees, candidate);
      common = br__angle_clear_denominators (&a);
    }
  *found = common != 0 && is_within_half_turn (x->node, candidate, common);
  if (*found)
    {
      for (size_t i = 0; i < a.size; i++)
        br__field_put (f, &a.part[i].node->left);
      br__field_turn (f, &re, &im, &length, &a);
    }
  br__angle_clear (&a);
  return im;
}

br_status
br__zero_test (br__proof *proof, const br_real *x, const br_number *candidate)
{
  br__field f;
  mpq_t c;
  int found = 0;
  uint32_t root;
  br_status status = br__node_evaluate (x->node, BR__FIRST_BITS);

  proof->zero = BR_UNKNOWN;
  proof->bits = proof->more = 0;
  if (status != BR_OK)
    return status;
  br__field_init (&f);
  mpq_init (c);
  br__number_to_mpq (c, candidate);
  root = sine_of_difference (&f, &found, x, c);
  if (!found)
    root = br__field_make (&f, BR__STEP_SUB, br__field_put (&f, x), br__field_number (&f, c), 0);
  if (f.status == BR_OK)
    br__field_need (&f, root);
  if (f.status == BR_OK && (root == 0 || br__field_cancels (&f, root)))
    proof->zero = BR_YES;
  else if (f.status == BR_OK)
    proof->zero = f.atoms == 0 ? is_zero_at_point (&f, root, proof) : is_zero_with_atoms (&f, root, proof);
  if (f.status == BR_NO_MEMORY)
    status = f.status;
  br__field_clear (&f);
  mpq_clear (c);
  return status;
}

br_status
br__real_is_algebraic (int *is, const br_real *x)
{
  br__field f;

  br__field_init (&f);
  br__field_put (&f, x);
  *is = f.status == BR_OK && f.atoms == 0;
  const br_status status = f.status == BR_NO_MEMORY ? BR_NO_MEMORY : BR_OK;
  br__field_clear (&f);
  return status;
}
