/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution_cut.c - a size in inches, and its limits if it is cut with its tolerances.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "sheet/caution_look.h"
#include "sheet/tolerance.h"

void
br__span_clear (br__span *z)
{
  br_real_clear (&z->size);
  br_real_clear (&z->low);
  br_real_clear (&z->high);
}

/* Z = X of DIMENSION in inches.  */
static br_status
in_inches (br_real *z, const br_real *x, br_dimension dimension, const br__settings *s)
{
  br__value v = { .dimension = dimension };
  br_status status = br_real_set (&v.real, x);
  if (status == BR_OK && dimension == BR_PLAIN)
    status = br__to_length (&v, s);
  if (status == BR_OK)
    status = br_real_set (z, &v.real);
  br__value_clear (&v);
  return status;
}

/* V less and plus the tolerance that E itself has.  */
static br_status
own_ends (br__bounds *b, const br__value *v, br__entry *e, const br__settings *s)
{
  br_real half = BR_REAL_ZERO;
  br_status status = br__tolerance_half (&half.rational, e, s, NULL);
  if (status == BR_OK)
    status = br_real_sub (&b->low, &v->real, &half);
  if (status == BR_OK)
    status = br_real_add (&b->high, &v->real, &half);
  br_real_clear (&half);
  return status;
}

/* *OFF: T names a size that has a tolerance.  */
static br_status
ends_of_tree (br__bounds *b, int *off, br_sheet *sheet, const br__tree *t)
{
  br__program program = BR__PROGRAM_ZERO;
  br_real *values = NULL;
  br_number *halves = NULL;
  br_status status = br__program_compile (&program, sheet, t, NULL, &br__tolerance_names, NULL);
  size_t inputs = program.input_count;
  *off = status == BR_OK && inputs;
  if (*off)
    status = br__inputs_of (&values, &halves, &program, NULL);
  if (status == BR_OK && *off)
    status = br__bounds_of (b, &program, values, halves, NULL);
  br__inputs_free (values, halves, inputs);
  br__program_clear (&program);
  return status;
}

br_status
br__span_of (br__span *z, br__run *run, const br__value *v, br__entry *e, const br__tree *t)
{
  br_sheet *sheet = run->sheet;
  const br__settings *s = &sheet->settings;
  br__bounds b = BR__BOUNDS_ZERO;
  int off = 0;
  br_status status = in_inches (&z->size, &v->real, v->dimension, s);
  if (status != BR_OK || !br__tolerances_any (sheet))
    return status;
  if (e && br__tolerance_given (e, NULL))
    {
      off = 1;
      status = own_ends (&b, v, e, s);
    }
  else if (t)
    status = ends_of_tree (&b, &off, sheet, t);
  if (status == BR_OK && off)
    status = in_inches (&z->low, &b.low, v->dimension, s);
  if (status == BR_OK && off)
    status = in_inches (&z->high, &b.high, v->dimension, s);
  z->off = status == BR_OK && off;
  br__bounds_clear (&b);
  /* No caution if the size cannot be bounded; the checks that use it report that.  */
  return status == BR_NO_MEMORY || status == BR_STOPPED ? status : BR_OK;
}
