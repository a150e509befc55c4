/* SPDX-License-Identifier: LGPL-3.0-or-later
   stack.c - the statement `stack`: worst case, root of the sum of squares, and what each name adds;
   and the worst margin of checks.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/real.h"
#include "exact/status.h"
#include "sheet/tolerance.h"
#include "solve/find.h"

#define DIGITS 12
#define SHARE_DIGITS 3
/* Places behind the point of a bound that is rounded outwards.  */
#define PLACES 8

/* ---- Ends ---- */

/* Z = Q on a decimal place at or past it, of which no digit is lost when 12 are written.  */
static br_status
outward (br_number *z, const br_number *q, int upper)
{
  br_number ten = { 10, 0 }, step = BR_NUMBER_ZERO, limit = BR_NUMBER_ZERO, size = BR_NUMBER_ZERO;
  br_status status = BR_OK;
  int fits = 0;
  for (int places = PLACES; status == BR_OK && !fits; places--)
    {
      status = br_number_pow (&step, &ten, -places);
      if (status == BR_OK)
        status = br_number_pow (&limit, &ten, DIGITS - places);
      if (status == BR_OK)
        status = br_number_abs (&size, q);
      fits = status == BR_OK && br_number_cmp (&size, &limit) < 0;
    }
  if (status == BR_OK)
    status = br_ruler_round (z, NULL, NULL, q, &step, upper ? BR_UP : BR_DOWN, BR_TIES_UP);
  br_number_clear (&step);
  br_number_clear (&limit);
  br_number_clear (&size);
  return status;
}

/* The decimal of Z with its unit.  */
static void
put_with_unit (br_text *t, const char *decimal, br_dimension dimension, const br__settings *s)
{
  br__text_puts (t, decimal);
  if (dimension != BR_PLAIN)
    {
      br__text_putc (t, ' ');
      br__put_unit_name (t, s, dimension);
    }
}

br_status
br__put_end (br_record *r, const br__end_keys *keys, const br_real *x, br_dimension dimension, int exact,
             int upper, const br__settings *s)
{
  br__value v = { .real = *x, .dimension = dimension };      /* borrowed */
  br_real z = BR_REAL_ZERO;
  br_text decimal = BR_TEXT_ZERO, shown = BR_TEXT_ZERO;
  br_status status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK && !exact)
    status = outward (&z.rational, &z.rational, upper);
  if (status == BR_OK)
    status = br__put_real_decimal (&decimal, NULL, &z, DIGITS, s->bits);
  if (status == BR_OK && exact)
    status = br__shown (&shown, &v, s);
  else if (status == BR_OK)
    put_with_unit (&shown, br__text_string (&decimal), dimension, s);
  if (status == BR_OK)
    {
      br__put_exact (r, keys->exact, exact ? br_real_rational (&z) : NULL);
      br__put_from (r, keys->decimal, &decimal);
      br__put_from (r, keys->shown, &shown);
    }
  br_real_clear (&z);
  br__text_clear (&decimal);
  br__text_clear (&shown);
  return status;
}

/* ---- Contributors ---- */

typedef struct stack
{
  br__program program;
  br_real *values, *slopes, *parts;     /* PARTS: slope times half the band, without sign */
  br_number *halves;
  br_real rss;
  int has_slopes;
} stack;

static void
stack_clear (stack *k)
{
  size_t n = k->program.input_count;
  br__inputs_free (k->values, k->halves, n);
  br__inputs_free (k->slopes, NULL, k->slopes ? n : 0);
  br__inputs_free (k->parts, NULL, k->parts ? n : 0);
  br_real_clear (&k->rss);
  br__program_clear (&k->program);
}

/* The parts, and the root of the sum of their squares.  */
static br_status
add_parts (stack *k)
{
  br_real square = BR_REAL_ZERO, half = BR_REAL_ZERO;
  unsigned bits = k->program.settings->bits;
  br_status status = BR_OK;
  for (size_t i = 0; i < k->program.input_count && status == BR_OK; i++)
    {
      status = br_real_set_number (&half, &k->halves[i]);
      if (status == BR_OK)
        status = br_real_mul (&k->parts[i], &k->slopes[i], &half);
      if (status == BR_OK)
        status = br_real_abs (&k->parts[i], &k->parts[i], bits);
      if (status == BR_OK)
        status = br_real_mul (&square, &k->parts[i], &k->parts[i]);
      if (status == BR_OK)
        status = br_real_add (&k->rss, &k->rss, &square);
    }
  if (status == BR_OK)
    status = br_real_sqrt (&k->rss, &k->rss, bits);
  br_real_clear (&square);
  br_real_clear (&half);
  return status;
}

/* Where there is no slope (a corner, a step) nothing can be said of shares.  */
static br_status
find_slopes (stack *k)
{
  size_t n = k->program.input_count;
  k->slopes = br__alloc_zero (n, sizeof *k->slopes);
  k->parts = br__alloc_zero (n, sizeof *k->parts);
  if (!k->slopes || !k->parts)
    return BR_NO_MEMORY;
  int rest = 0;
  br_status status = br__steps_rest (&rest, &k->program, k->values, k->halves);
  if (status == BR_OK)
    status = br__program_slopes (k->slopes, &k->program, k->values, 0, rest);
  if (status == BR_DOMAIN || status == BR_UNDECIDED)
    return BR_OK;
  k->has_slopes = status == BR_OK;
  return status == BR_OK ? add_parts (k) : status;
}

/* Z = part J over part I, which is over zero.  Where both slopes are one value, it is the quotient of the
   tolerances, so that shares of equal parts are fractions whatever the slope is.  */
static br_status
ratio_of (br_real *z, const stack *k, size_t j, size_t i)
{
  unsigned bits = k->program.settings->bits;
  br_real sum = BR_REAL_ZERO;
  int order = 1;
  br_status status = br_real_cmp (&order, &k->slopes[i], &k->slopes[j], bits);
  if (status == BR_OK && order)
    {
      status = br_real_add (&sum, &k->slopes[i], &k->slopes[j]);
      if (status == BR_OK)
        status = br_real_sign (&order, &sum, bits);
    }
  br_real_clear (&sum);
  if (status == BR_OK && order == 0)
    return br_number_div (&z->rational, &k->halves[j], &k->halves[i]);
  if (status != BR_OK && status != BR_UNDECIDED)
    return status;
  return br_real_div (z, &k->parts[j], &k->parts[i], bits);
}

/* Z = the per cent that part I is of all parts, or its square of all squares.  */
static br_status
share_of (br_real *z, const stack *k, size_t i, int squares)
{
  br_real part = BR_REAL_ZERO, sum = BR_REAL_ZERO;
  br_status status = BR_OK;
  if (br__real_is_int (&k->parts[i], 0))
    return br__real_set_ratio (z, 0, 1);
  for (size_t j = 0; j < k->program.input_count && status == BR_OK; j++)
    {
      br_real_clear (&part);
      status = ratio_of (&part, k, j, i);
      if (status == BR_OK && squares)
        status = br_real_mul (&part, &part, &part);
      if (status == BR_OK)
        status = br_real_add (&sum, &sum, &part);
    }
  if (status == BR_OK)
    status = br__real_set_ratio (z, 100, 1);
  if (status == BR_OK)
    status = br_real_div (z, z, &sum, k->program.settings->bits);
  br_real_clear (&part);
  br_real_clear (&sum);
  return status;
}

/* "25%"; with fewer digits where the last of them cannot be decided.  */
static br_status
put_share (br_record *row, const char *key, const stack *k, size_t i, int squares)
{
  br_real z = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = share_of (&z, k, i, squares), told = BR_UNDECIDED;
  for (unsigned digits = SHARE_DIGITS; status == BR_OK && told == BR_UNDECIDED && digits > 0; digits--)
    told = br__put_real_decimal (&t, NULL, &z, digits, k->program.settings->bits);
  if (status == BR_OK && told != BR_OK && told != BR_UNDECIDED)
    status = told;
  br__text_putc (&t, '%');
  if (status == BR_OK && told == BR_OK)
    br__put_from (row, key, &t);
  else if (status == BR_OK)
    br__put_null (row, key);
  br__text_clear (&t);
  br_real_clear (&z);
  return status;
}

/* The slope in the sheet's unit for one of the sheet's unit.  */
static br_status
put_sensitivity (br_record *row, const br_real *slope, br_dimension of, br_dimension in,
                 const br__settings *s)
{
  br__value v = { .real = *slope, .dimension = of };         /* borrowed */
  br_real z = BR_REAL_ZERO, factor = BR_REAL_ZERO;
  br_text t = BR_TEXT_ZERO;
  br_status status = br__in_sheet_unit (&z, &v, s);
  if (status == BR_OK)
    status = br__settings_factor (&factor.rational, s, in);
  if (status == BR_OK)
    status = br_real_mul (&z, &z, &factor);
  if (status == BR_OK)
    status = br__put_real_decimal (&t, NULL, &z, DIGITS, s->bits);
  if (status == BR_OK)
    {
      br__put_exact (row, "sensitivity", br_real_rational (&z));
      br__put_from (row, "sensitivity_decimal", &t);
    }
  br__text_clear (&t);
  br_real_clear (&z);
  br_real_clear (&factor);
  return status;
}

static br_status
put_contributor (br_record *row, const stack *k, size_t i)
{
  static const br__end_keys tolerance = { "tolerance", "tolerance_decimal", "tolerance_shown" };
  static const br__end_keys adds = { "adds", "adds_decimal", "adds_shown" };
  const br__settings *s = k->program.settings;
  br_dimension in = br__entry_value (k->program.inputs[i])->dimension;
  br_real half = BR_REAL_ZERO;
  br_status status = br_real_set_number (&half, &k->halves[i]);
  br__put_text (row, "name", br__entry_name (k->program.inputs[i]));
  if (status == BR_OK && k->has_slopes)
    status = put_sensitivity (row, &k->slopes[i], k->program.dimension, in, s);
  else
    br__put_null (row, "sensitivity");
  if (status == BR_OK)
    status = br__put_end (row, &tolerance, &half, in, 1, 0, s);
  if (status == BR_OK && k->has_slopes)
    {
      status = br__put_end (row, &adds, &k->parts[i], k->program.dimension, 1, 0, s);
      if (status == BR_OK)
        status = put_share (row, "share", k, i, 0);
      if (status == BR_OK)
        status = put_share (row, "share_of_squares", k, i, 1);
    }
  else
    br__put_null (row, "share");
  br_real_clear (&half);
  return status;
}

/* ---- The statement ---- */

static br_status
put_stack (br_record *r, const stack *k, const br__bounds *b)
{
  static const br__end_keys keys[] =
  {
    { "nominal", "nominal_decimal", "nominal_shown" }, { "low", "low_decimal", "low_shown" },
    { "high", "high_decimal", "high_shown" }, { "rss", "rss_decimal", "rss_shown" }
  };
  const br__settings *s = k->program.settings;
  br_dimension d = k->program.dimension;
  br_text t = BR_TEXT_ZERO;
  br__put_unit_name (&t, s, d);
  br__put_from (r, "unit", &t);
  br_status status = br__put_end (r, &keys[0], &b->nominal, d, 1, 0, s);
  if (status == BR_OK)
    status = br__put_end (r, &keys[1], &b->low, d, b->exact, 0, s);
  if (status == BR_OK)
    status = br__put_end (r, &keys[2], &b->high, d, b->exact, 1, s);
  if (status == BR_OK && k->has_slopes)
    status = br__put_end (r, &keys[3], &k->rss, d, 1, 0, s);
  else
    br__put_null (r, "rss");
  br__put_truth (r, "linear", b->linear);
  br__put_truth (r, "exact_bounds", b->exact);
  br_list *list = br__put_list (r, "contributors");
  for (size_t i = 0; i < k->program.input_count && status == BR_OK; i++)
    status = put_contributor (br__list_record (list), k, i);
  if (!k->program.input_count)
    br__put_text (r, "message", "nothing in it has a tolerance: write `tolerance 1/32 on NAME`");
  else if (!k->has_slopes)
    br__put_text (r, "message", k->program.smooth ? "its slope here is no exact value, so shares cannot be given"
                                                   : "it jumps or bends here, so shares cannot be given");
  else
    br__put_text (r, "message", "");
  return status;
}

static br_status
do_stack (br__run *run, const br__tree *tree)
{
  stack k = { .program = BR__PROGRAM_ZERO };
  br__bounds b = BR__BOUNDS_ZERO;
  br_record *r = NULL;
  br_error said = { .status = BR_OK };
  br_status status = br__program_compile (&k.program, run->sheet, tree, NULL, &br__tolerance_names, run->error);
  if (status == BR_OK)
    {
      status = br__inputs_of (&k.values, &k.halves, &k.program, &said);
      if (status == BR_OK)
        status = br__bounds_of (&b, &k.program, k.values, k.halves, &said);
      if (status == BR_OK)
        status = find_slopes (&k);
      if (status == BR_OK)
        {
          r = br__record_new ("stack");
          br__put_expression (r, tree);
          status = put_stack (r, &k, &b);
        }
      if (status != BR_OK)
        br__fail (run->error, status, tree->base, tree->length, "%s", said.message);
      if (status != BR_OK && said.status == BR_OK)
        br__fail_plain (run->error, status, tree->base, tree->length);
    }
  if (status == BR_OK)
    status = br__emit (run, r);
  else
    br__record_free (r);
  br__bounds_clear (&b);
  stack_clear (&k);
  return status;
}

br_status
br__do_stack (br__run *run)
{
  br__tree tree = BR__TREE_ZERO;
  br__value v = BR__VALUE_ZERO;
  br_status status = br__parse (&tree, &run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  /* The value first: an error has its place then.  */
  if (status == BR_OK)
    status = br__value_of (&v, run, &tree);
  if (status == BR_OK)
    status = do_stack (run, &tree);
  br__value_clear (&v);
  br__tree_clear (&tree);
  return status;
}

/* ---- Checks ---- */

/* WORST gets the margin at the worst: below zero by as much as equal sides may differ, and how near
   unequal ones may come.  */
static br_status
worst_of (br_real *worst, const br__bounds *b, br__comparison comparison, unsigned bits)
{
  br_real low = BR_REAL_ZERO;
  int order = 0;
  br_status status = br_real_neg (&low, &b->low);
  if (status == BR_OK && (comparison == BR__COMPARE_EQ || comparison == BR__COMPARE_NE))
    {
      status = br_real_cmp (&order, &low, &b->high, bits);
      /* -max (|low|, |high|), or the nearer end's distance: below zero where zero lies between.  */
      if (status == BR_OK && comparison == BR__COMPARE_EQ)
        status = order > 0 ? br_real_set (worst, &b->low) : br_real_neg (worst, &b->high);
      else if (status == BR_OK)
        {
          br_real sum = BR_REAL_ZERO;
          status = br_real_add (&sum, &b->low, &b->high);
          if (status == BR_OK)
            status = br_real_sign (&order, &sum, bits);
          if (status == BR_OK)
            status = order >= 0 ? br_real_set (worst, &b->low) : br_real_neg (worst, &b->high);
          br_real_clear (&sum);
        }
    }
  else if (status == BR_OK)
    status = br_real_set (worst, &b->low);
  br_real_clear (&low);
  return status;
}

/* What is said of a check that holds as drawn.  */
static const char *const as_cut_words[] =
{
  [BR__AS_CUT_HOLDS] = "holds as cut", [BR__AS_CUT_MAY_FAIL] = "holds as drawn, may fail as cut",
  [BR__AS_CUT_UNKNOWN] = "holds as drawn, not known as cut"
};

static void
put_as_cut (br_record *r, const br__check *check)
{
  br__put_text (r, "as_cut", check->state == BR__CHECK_PASS ? as_cut_words[check->as_cut] : "");
}

static br_status
put_worst (br_record *r, br__check *check, const br__program *t, const br__bounds *b)
{
  static const br__end_keys keys = { "worst_margin", "worst_decimal", "worst_margin_shown" };
  const br__settings *s = t->settings;
  br_real worst = BR_REAL_ZERO;
  int sign = 0;
  br_status status = worst_of (&worst, b, check->comparison, s->bits);
  if (status == BR_OK)
    status = br_real_sign (&sign, &worst, s->bits);
  if (status == BR_OK)
    {
      int strict = check->comparison == BR__COMPARE_LT || check->comparison == BR__COMPARE_GT
                   || check->comparison == BR__COMPARE_NE;
      int breaks = sign < 0 || (strict && sign == 0);
      /* Bounds that need not be reached show that a check holds, not that it may fail.  */
      check->as_cut = !breaks ? BR__AS_CUT_HOLDS : b->exact ? BR__AS_CUT_MAY_FAIL : BR__AS_CUT_UNKNOWN;
    }
  if (status == BR_OK && r)
    status = br__put_end (r, &keys, &worst, t->dimension, b->exact, 0, s);
  if (status == BR_OK)
    put_as_cut (r, check);
  br_real_clear (&worst);
  return status;
}

br_status
br__put_worst_margin (br_record *r, br_sheet *sheet, br__check *check)
{
  const br__definition *d = br__entry_definition (check->margin);
  br__program t = BR__PROGRAM_ZERO;
  br__bounds b = BR__BOUNDS_ZERO;
  br_real *values = NULL;
  br_number *halves = NULL;
  check->as_cut = BR__AS_CUT_HOLDS;
  if (!d || !br__entry_value (check->margin) || !br__tolerances_any (sheet))
    return BR_OK;
  br_status status = br__program_compile (&t, sheet, &d->tree, NULL, &br__tolerance_names, NULL);
  if (status == BR_OK && t.input_count)
    {
      status = br__inputs_of (&values, &halves, &t, NULL);
      if (status == BR_OK)
        status = br__bounds_of (&b, &t, values, halves, NULL);
      if (status == BR_OK)
        status = put_worst (r, check, &t, &b);
    }
  if (status == BR_DOMAIN || status == BR_UNDECIDED || status == BR_TOO_BIG)
    {
      check->as_cut = BR__AS_CUT_UNKNOWN;
      br__put_null (r, "worst_margin");
      put_as_cut (r, check);
      status = BR_OK;
    }
  br__inputs_free (values, halves, t.input_count);
  br__bounds_clear (&b);
  br__program_clear (&t);
  return status;
}
