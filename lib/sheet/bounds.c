/* SPDX-License-Identifier: LGPL-3.0-or-later
   bounds.c - the smallest and the largest value of a formula when each size is off by no more than
   its tolerance.

   If every slope keeps its sign over all sizes within the tolerances, the extremes are at two
   corners of the box of sizes and are computed there exactly.  Otherwise the box is cut into smaller ones and
   bounded by interval arithmetic: no value is outside of these bounds, but they need not be reached.  The value at a
   point of the most extreme small box is reached; so if a check fails there, it can fail.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/tolerance.h"

/* Cuts for each end; a long program gets one.  */
#define MOST_CUTS 40
#define LONG_PROGRAM 4000

void
br__bounds_clear (br__bounds *b)
{
  br_real_clear (&b->nominal);
  br_real_clear (&b->low);
  br_real_clear (&b->high);
  br_real_clear (&b->met[0]);
  br_real_clear (&b->met[1]);
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

/* How the slope of input I points over the box of E; 0: both ways.  */
static int
slope_sign (br__enclosure *e, size_t i)
{
  int sign = br__interval_sign (br__enclosed_slope (e, i), 1);
  return sign == 2 ? 0 : sign == 0 ? 1 : sign;
}

/* Over the box of E: SIGNS gets how each slope points.  1 if all point one way.  */
static int
find_signs (int *signs, br__enclosure *e)
{
  int all = 1;
  br__enclose_slopes (e);
  for (size_t i = 0; i < e->program->input_count; i++)
    {
      signs[i] = slope_sign (e, i);
      all &= signs[i] != 0;
    }
  return all;
}

/* The search for one end: of the boxes that together hold all sizes the one that reaches furthest is cut in two.  */
typedef struct search
{
  br__enclosure *e;
  int upper;                    /* which end */
  const br_real *nominal;       /* the value as drawn */
  br__interval *rows;           /* of each box its inputs, then the interval of the formula; the last row: the first box */
  size_t widest[MOST_CUTS + 1]; /* the input to cut; the number of inputs: none */
  size_t count, most;           /* boxes */
} search;

/* Computes the interval of the formula over the box ROW and stores it at the end of ROW.  */
static br_status
enclose_row (search *s, br__interval *row)
{
  size_t n = s->e->program->input_count;
  for (size_t i = 0; i < n; i++)
    br__interval_copy (s->e->box[i], row[i]);
  br_status status = br__enclose (s->e);
  if (status == BR_OK && (s->e->empty || s->e->partial))
    status = BR_DOMAIN;
  if (status == BR_OK)
    br__interval_copy (row[n], br__enclosed_root (s->e));
  return status;
}

/* WEIGHT = the width of X times the most that SLOPE can be.  */
static void
weigh (mpfr_ptr weight, br__interval_srcptr x, br__interval_srcptr slope)
{
  br__interval size;
  br__interval_init (size, BR__BOX_BITS);
  br__interval_abs (size, slope);
  mpfr_sub (weight, &x->right, &x->left, MPFR_RNDU);
  if (!mpfr_zero_p (weight))
    mpfr_mul (weight, weight, &size->right, MPFR_RNDU);
  br__interval_clear (size);
}

/* Box B is enclosed.  Inputs whose slope points one way there are put to the end that reaches furthest.  */
static br_status
take_box (search *s, size_t b)
{
  size_t n = s->e->program->input_count;
  br__interval *row = s->rows + b * (n + 1);
  br_status status = enclose_row (s, row);
  if (status != BR_OK)
    return status;
  int smaller = 0;
  mpfr_t weight, most;
  mpfr_inits2 (64, weight, most, (mpfr_ptr) 0);
  mpfr_set_zero (most, 1);
  s->widest[b] = n;
  br__enclose_slopes (s->e);
  for (size_t i = 0; i < n; i++)
    {
      int sign = slope_sign (s->e, i);
      if (sign == 0)
        {
          weigh (weight, row[i], br__enclosed_slope (s->e, i));
          if (!mpfr_lessequal_p (weight, most))
            {
              s->widest[b] = i;
              mpfr_set (most, weight, MPFR_RNDU);
            }
          continue;
        }
      smaller |= !mpfr_equal_p (&row[i]->left, &row[i]->right);
      if ((sign > 0) == (s->upper != 0))
        mpfr_set (&row[i]->left, &row[i]->right, MPFR_RNDD);
      else
        mpfr_set (&row[i]->right, &row[i]->left, MPFR_RNDU);
    }
  mpfr_clears (weight, most, (mpfr_ptr) 0);
  return smaller ? enclose_row (s, row) : BR_OK;
}

/* The box that reaches furthest.  */
static size_t
furthest (const search *s)
{
  size_t n = s->e->program->input_count, best = 0;
  for (size_t b = 1; b < s->count; b++)
    {
      br__interval_srcptr x = s->rows[b * (n + 1) + n], far = s->rows[best * (n + 1) + n];
      if (s->upper ? mpfr_greater_p (&x->right, &far->right) : mpfr_less_p (&x->left, &far->left))
        best = b;
    }
  return best;
}

/* Cuts box B in two.  */
static br_status
cut_box (search *s, size_t b)
{
  size_t n = s->e->program->input_count, across = s->widest[b];
  br__interval *row = s->rows + b * (n + 1), *other = s->rows + s->count * (n + 1);
  for (size_t i = 0; i < n; i++)
    br__interval_copy (other[i], row[i]);
  br__interval_middle (&row[across]->right, row[across]);
  mpfr_set (&other[across]->left, &row[across]->right, MPFR_RNDD);
  br_status status = take_box (s, b);
  return status == BR_OK ? take_box (s, s->count++) : status;
}

/* Z = the value at sizes inside ROW.  BR_DOMAIN or BR_UNDECIDED: there is none to be had.  */
static br_status
value_inside (br_real *z, const search *s, const br__interval *row, const br_real *values, const br_number *halves)
{
  const br__program *t = s->e->program;
  const br__interval *whole = s->rows + s->most * (t->input_count + 1);
  br_real *at = br__alloc_zero (t->input_count, sizeof *at), half = BR_REAL_ZERO;
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = at ? BR_OK : BR_NO_MEMORY;
  for (size_t i = 0; i < t->input_count && status == BR_OK; i++)
    {
      /* An end of the tolerance itself: those of the box may lie outside by a hair.  */
      int least = mpfr_equal_p (&row[i]->left, &whole[i]->left), most = mpfr_equal_p (&row[i]->right, &whole[i]->right);
      status = least == most ? br_real_set (&at[i], &values[i]) : br_real_set_number (&half, &halves[i]);
      if (status == BR_OK && least != most)
        status = least ? br_real_sub (&at[i], &values[i], &half) : br_real_add (&at[i], &values[i], &half);
      if (status == BR_OK && !least && !most)
        status = br__interval_get (&low, &high, row[i]);
      if (status == BR_OK && !least && !most)
        status = br_real_set_number (&at[i], &low);
    }
  if (status == BR_OK)
    status = br__program_value (z, t, at, 0);
  br_real_clear (&half);
  br_number_clear (&low);
  br_number_clear (&high);
  br__inputs_free (at, NULL, at ? t->input_count : 0);
  return status;
}

/* END = a bound, rounded outwards; MET = a value that is reached, in the most extreme box.  */
static br_status
search_end (br_real *end, br_real *met, search *s, const br_real *values, const br_number *halves)
{
  size_t n = s->e->program->input_count, best = 0;
  br_number low = BR_NUMBER_ZERO, high = BR_NUMBER_ZERO;
  br_status status = set_box (s->rows, values, halves, n);
  for (size_t i = 0; i < n; i++)
    br__interval_copy (s->rows[s->most * (n + 1) + i], s->rows[i]);
  s->count = 1;
  if (status == BR_OK)
    status = take_box (s, 0);
  while (status == BR_OK && s->count < s->most && s->widest[best] < n)
    {
      status = cut_box (s, best);
      best = furthest (s);
    }
  br__interval_ptr found = s->rows[best * (n + 1) + n];
  if (status == BR_OK && !br__interval_bounded (found))
    status = BR_DOMAIN;
  if (status == BR_OK)
    status = br__interval_get (&low, &high, found);
  if (status == BR_OK)
    status = br_real_set_number (end, s->upper ? &high : &low);
  if (status == BR_OK)
    status = value_inside (met, s, s->rows + best * (n + 1), values, halves);
  if (status == BR_DOMAIN || status == BR_UNDECIDED)
    status = br_real_set (met, s->nominal);
  br_number_clear (&low);
  br_number_clear (&high);
  return status;
}

static br_status
certified (br__bounds *b, br__enclosure *e, const br_real *values, const br_number *halves)
{
  search s = { .e = e, .nominal = &b->nominal, .most = e->program->count > LONG_PROGRAM ? 2 : MOST_CUTS + 1 };
  size_t count = (s.most + 1) * (e->program->input_count + 1);
  s.rows = br__alloc (count * sizeof *s.rows);
  if (!s.rows)
    return BR_NO_MEMORY;
  for (size_t i = 0; i < count; i++)
    br__interval_init (s.rows[i], BR__BOX_BITS);
  br_status status = search_end (&b->low, &b->met[0], &s, values, halves);
  s.upper = 1;
  if (status == BR_OK)
    status = search_end (&b->high, &b->met[1], &s, values, halves);
  b->exact = 0;
  for (size_t i = 0; i < count; i++)
    br__interval_clear (s.rows[i]);
  br__free (s.rows);
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
    status = certified (b, e, values, halves);
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
