/* SPDX-License-Identifier: LGPL-3.0-or-later
   bounds.c - the least and the most that a formula can come to when each size is off by no more than
   its tolerance.

   Where every slope keeps its sign over all sizes within the tolerances, the extremes lie at two
   corners and are worked out there exactly.  Elsewhere the box is cut into smaller ones and the
   bounds are those of intervals: nothing goes past them, though they need not be reached.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/tolerance.h"

/* Cuts of a box; a long program gets fewer.  */
#define MOST_CUTS 8
#define LONG_PROGRAM 4000

void
br__bounds_clear (br__bounds *b)
{
  br_real_clear (&b->nominal);
  br_real_clear (&b->low);
  br_real_clear (&b->high);
}

static br_status
no_value (br_error *error)
{
  return br__fail (error, BR_DOMAIN, 0, 0, "for some sizes within the tolerances this has no value");
}

/* ---- The sizes of the inputs ---- */

void
br__inputs_free (br_real *values, br_number *halves, size_t count)
{
  for (size_t i = 0; i < count; i++)
    {
      if (values)
        br_real_clear (&values[i]);
      if (halves)
        br_number_clear (&halves[i]);
    }
  br__free (values);
  br__free (halves);
}

br_status
br__inputs_of (br_real **values, br_number **halves, const br__program *t, br_error *error)
{
  br_real *v = br__alloc_zero (t->input_count, sizeof *v);
  br_number *h = br__alloc_zero (t->input_count, sizeof *h);
  br_status status = v && h ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < t->input_count && status == BR_OK; i++)
    {
      status = br_real_set (&v[i], &br__entry_value (t->inputs[i])->real);
      if (status == BR_OK)
        status = br__tolerance_half (&h[i], t->inputs[i], t->settings, error);
    }
  if (status != BR_OK)
    {
      br__inputs_free (v, h, t->input_count);
      return status == BR_DOMAIN ? status : br__fail_plain (error, status, 0, 0);
    }
  *values = v;
  *halves = h;
  return BR_OK;
}

/* ---- Bounds ---- */

/* Z = the value where each input is at the end that SIGNS says (-1: low).  */
static br_status
corner (br_real *z, const br__program *t, const br_real *values, const br_number *halves, const int *signs,
        int upper)
{
  br_real *at = br__alloc_zero (t->input_count, sizeof *at), half = BR_REAL_ZERO;
  br_status status = at ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < t->input_count && status == BR_OK; i++)
    {
      status = br_real_set_number (&half, &halves[i]);
      if (status == BR_OK)
        status = (signs[i] < 0) == (upper != 0) ? br_real_sub (&at[i], &values[i], &half)
                                                : br_real_add (&at[i], &values[i], &half);
    }
  if (status == BR_OK)
    status = br__program_value (z, t, at, 0);
  br_real_clear (&half);
  br__inputs_free (at, NULL, at ? t->input_count : 0);
  return status;
}

/* ENDS of each input, outwards.  */
static br_status
set_box (br__interval *box, const br_real *values, const br_number *halves, size_t count)
{
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  for (size_t i = 0; i < count && status == BR_OK; i++)
    {
      status = br_real_enclose (&low, &high, &values[i], BR__BOX_BITS);
      if (status == BR_OK)
        status = br_number_sub (&low, &low, &halves[i]);
      if (status == BR_OK)
        status = br_number_add (&high, &high, &halves[i]);
      if (status == BR_OK)
        br__interval_set (box[i], &low, &high);
    }
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

/* Over the box of E: SIGNS gets how each slope points (0: both ways).  1 if all point one way.  */
static int
find_signs (int *signs, br__enclosure *e)
{
  int all = 1;
  br__enclose_slopes (e);
  for (size_t i = 0; i < e->program->input_count; i++)
    {
      int sign = br__interval_sign (br__enclosed_slope (e, i), 1);
      signs[i] = sign == 2 ? 0 : sign == 0 ? 1 : sign;
      all &= signs[i] != 0;
    }
  return all;
}

/* The search over smaller boxes.  */
typedef struct search
{
  br__enclosure *e;
  br__interval *boxes;                /* a row of the inputs for each depth */
  int *signs;
  int depths[MOST_CUTS + 2];    /* of the boxes that wait */
  size_t count;
  mpfr_t low, high;
  int any;
} search;

/* Takes one side of the box: inputs whose slope points one way at the end that gives it.  */
static br_status
take_side (search *s, const br__interval *box, int upper)
{
  size_t n = s->e->program->input_count;
  for (size_t i = 0; i < n; i++)
    {
      br__interval_copy (s->e->box[i], box[i]);
      if (s->signs[i] == 0)
        continue;
      if ((s->signs[i] > 0) == (upper != 0))
        mpfr_set (&s->e->box[i]->left, &box[i]->right, MPFR_RNDD);
      else
        mpfr_set (&s->e->box[i]->right, &box[i]->left, MPFR_RNDU);
    }
  br_status status = br__enclose (s->e);
  br__interval_ptr root = br__enclosed_root (s->e);
  if (status != BR_OK)
    return status;
  if (s->e->empty || s->e->partial || !br__interval_bounded (root))
    return BR_DOMAIN;
  if (!upper && (!(s->any & 1) || mpfr_less_p (&root->left, s->low)))
    mpfr_set (s->low, &root->left, MPFR_RNDD);
  if (upper && (!(s->any & 2) || mpfr_greater_p (&root->right, s->high)))
    mpfr_set (s->high, &root->right, MPFR_RNDU);
  s->any |= upper ? 2 : 1;
  return BR_OK;
}

/* The box at INDEX, of DEPTH: taken, or cut in two across the widest input that points both ways.  */
static br_status
take_box (search *s, int most)
{
  size_t n = s->e->program->input_count, widest = n;
  br__interval *box = s->boxes + --s->count * n;
  int depth = s->depths[s->count];
  for (size_t i = 0; i < n; i++)
    br__interval_copy (s->e->box[i], box[i]);
  br_status status = br__enclose (s->e);
  if (status != BR_OK)
    return status;
  if (s->e->empty || s->e->partial)
    return BR_DOMAIN;
  find_signs (s->signs, s->e);
  mpfr_t width, most_width;
  mpfr_inits2 (64, width, most_width, (mpfr_ptr) 0);
  mpfr_set_zero (most_width, 1);
  for (size_t i = 0; i < n; i++)
    {
      mpfr_sub (width, &box[i]->right, &box[i]->left, MPFR_RNDU);
      if (s->signs[i] == 0 && mpfr_greater_p (width, most_width))
        {
          widest = i;
          mpfr_set (most_width, width, MPFR_RNDU);
        }
    }
  mpfr_clears (width, most_width, (mpfr_ptr) 0);
  if (widest == n || depth >= most)
    {
      status = take_side (s, box, 0);
      return status == BR_OK ? take_side (s, box, 1) : status;
    }
  br__interval *other = box + n;
  for (size_t i = 0; i < n; i++)
    br__interval_copy (other[i], box[i]);
  br__interval_middle (&box[widest]->right, box[widest]);
  mpfr_set (&other[widest]->left, &box[widest]->right, MPFR_RNDD);
  s->depths[s->count++] = depth + 1;
  s->depths[s->count++] = depth + 1;
  return BR_OK;
}

static br_status
certified (br__bounds *b, const br__program *t, br__enclosure *e, const br_real *values,
           const br_number *halves, int *signs)
{
  int most = t->count > LONG_PROGRAM ? 1 : MOST_CUTS;
  size_t n = t->input_count, rows = MOST_CUTS + 2;
  search s = { .e = e, .signs = signs };
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  s.boxes = br__alloc (rows * n * sizeof *s.boxes);
  if (!s.boxes)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < rows * n; i++)
    br__interval_init (s.boxes[i], BR__BOX_BITS);
  mpfr_inits2 (BR__BOX_BITS, s.low, s.high, (mpfr_ptr) 0);
  br_status status = set_box (s.boxes, values, halves, n);
  s.depths[s.count++] = 0;
  while (status == BR_OK && s.count > 0)
    status = take_box (&s, most);
  if (status == BR_OK)
    {
      br__interval both;
      br__interval_init (both, BR__BOX_BITS);
      mpfr_set (&both->left, s.low, MPFR_RNDD);
      mpfr_set (&both->right, s.high, MPFR_RNDU);
      status = br__interval_get (&low, &high, both);
      br__interval_clear (both);
    }
  if (status == BR_OK)
    status = br_real_set_number (&b->low, &low);
  if (status == BR_OK)
    status = br_real_set_number (&b->high, &high);
  b->exact = 0;
  mpfr_clears (s.low, s.high, (mpfr_ptr) 0);
  for (size_t i = 0; i < rows * n; i++)
    br__interval_clear (s.boxes[i]);
  br__free (s.boxes);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

/* Linear: the slopes are the same everywhere.  */
static br_status
exact_signs (int *signs, const br__program *t, const br_real *values)
{
  br_real *slopes = br__alloc_zero (t->input_count, sizeof *slopes);
  br_status status = slopes ? br__program_slopes (slopes, t, values, 0, 0) : BR_NO_MEMORY;
  for (size_t i = 0; i < t->input_count && status == BR_OK; i++)
    status = br_real_sign (&signs[i], &slopes[i], t->settings->bits);
  br__inputs_free (slopes, NULL, slopes ? t->input_count : 0);
  return status;
}

static br_status
find_bounds (br__bounds *b, const br__program *t, const br_real *values, const br_number *halves)
{
  br__enclosure *e = NULL;
  int *signs = br__alloc_zero (t->input_count, sizeof *signs);
  br_status status = signs ? br__program_value (&b->nominal, t, values, 0) : BR_NO_MEMORY;
  int corners = 0;
  b->linear = t->code[t->root].linear;
  b->exact = 1;
  if (status == BR_OK)
    status = br__enclosure_new (&e, t);
  if (status == BR_OK)
    status = set_box (e->box, values, halves, t->input_count);
  if (status == BR_OK)
    status = br__enclose (e);
  if (status == BR_OK && (e->empty || e->partial))
    status = BR_DOMAIN;
  if (status == BR_OK && b->linear)
    {
      status = exact_signs (signs, t, values);
      corners = 1;
    }
  else if (status == BR_OK)
    corners = find_signs (signs, e);
  if (status == BR_OK && corners)
    {
      status = corner (&b->low, t, values, halves, signs, 0);
      if (status == BR_OK)
        status = corner (&b->high, t, values, halves, signs, 1);
    }
  else if (status == BR_OK)
    status = certified (b, t, e, values, halves, signs);
  br__enclosure_free (e);
  br__free (signs);
  return status;
}

br_status
br__bounds_of (br__bounds *b, const br__program *t, const br_real *values, const br_number *halves,
               br_error *error)
{
  br__bounds made = BR__BOUNDS_ZERO;
  br__mpfr_state state;
  br__mpfr_enter (&state);
  br_status status = find_bounds (&made, t, values, halves);
  br__mpfr_leave (&state);
  if (status != BR_OK)
    {
      br__bounds_clear (&made);
      return status == BR_DOMAIN ? no_value (error) : br__fail_plain (error, status, 0, 0);
    }
  br__bounds_clear (b);
  *b = made;
  return BR_OK;
}

br_status
br__steps_rest (int *rest, const br__program *t, const br_real *values, const br_number *halves)
{
  br__enclosure *e = NULL;
  br__mpfr_state state;
  *rest = 0;
  if (!t->steps)
    return BR_OK;
  br__mpfr_enter (&state);
  br_status status = br__enclosure_new (&e, t);
  if (status == BR_OK)
    status = set_box (e->box, values, halves, t->input_count);
  if (status == BR_OK)
    status = br__enclose (e);
  if (status == BR_OK)
    *rest = !e->empty && !e->partial && !br__steps_vary (e);
  br__enclosure_free (e);
  br__mpfr_leave (&state);
  return status;
}
