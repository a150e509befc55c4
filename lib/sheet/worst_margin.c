/* SPDX-License-Identifier: LGPL-3.0-or-later
   worst_margin.c - the limits of a size within the tolerances, and the worst margin of checks.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/real.h"
#include "exact/status.h"
#include "sheet/tolerance.h"

#define DIGITS 12
/* Places behind the point of a bound that is rounded outwards.  */
#define PLACES 8

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

/* Words for br__as_cut.  */
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

/* Judges CHECK from its WORST margin and the bounds B: the bounds can prove that it holds; as they need not be reached, only a
   value that is reached proves that it may fail.  */
static br_status
judge_as_cut (br__check *check, const br_real *worst, const br__bounds *b, unsigned bits)
{
  const br_real *values[] = { worst, &b->met[0], &b->met[1] };
  br_status status = BR_OK;
  check->as_cut = BR__AS_CUT_HOLDS;
  for (int i = 0; i < (b->exact ? 1 : 3) && status == BR_OK; i++)
    {
      int sign = 0;
      status = br_real_sign (&sign, values[i], bits);
      int compared = check->comparison == BR__COMPARE_NE && i == 0;
      int holds = compared ? sign > 0 : br__comparison_holds (check->comparison, sign);
      if (i == 0 && status == BR_OK && holds)
        return BR_OK;
      if (status == BR_OK && !holds && check->as_cut != BR__AS_CUT_MAY_FAIL)
        check->as_cut = i || b->exact ? BR__AS_CUT_MAY_FAIL : BR__AS_CUT_UNKNOWN;
    }
  return status;
}

static br_status
put_worst (br_record *r, br__check *check, const br__program *t, const br__bounds *b)
{
  static const br__end_keys keys = { "worst_margin", "worst_decimal", "worst_margin_shown" };
  const br__settings *s = t->settings;
  br_real worst = BR_REAL_ZERO;
  br_status status = worst_of (&worst, b, check->comparison, s->bits);
  if (status == BR_OK)
    status = judge_as_cut (check, &worst, b, s->bits);
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
