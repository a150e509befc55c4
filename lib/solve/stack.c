/* SPDX-License-Identifier: LGPL-3.0-or-later
   stack.c - the statement `stack`: worst case, root of the sum of squares, and what each name adds.  */
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

/* If there is no slope (a corner, a step), shares cannot be given.  */
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
  status = br__emit_or_free (run, r, status);
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
