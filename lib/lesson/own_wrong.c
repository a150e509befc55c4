/* SPDX-License-Identifier: LGPL-3.0-or-later
   own_wrong.c - the usual wrong answers of the teacher's own problems: what its formula gives with one
   sign or one function taken for another, and what is a mark or a whole away.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/worksheet.h"
#include "measure/measure.h"

const br_unit *
br__own_unit (const br__own *own)
{
  if (own->dimension == BR_PLAIN)
    return own->percent ? br_unit_find ("%", 1) : NULL;
  return br__unit_of_power (own->style.unit, own->dimension);
}

/* Takes X as a wrong answer unless it is the right one, known, or below zero for no reason.  */
static br_status
add_wrong (br__own *own, const br_number *x, br__mistake mistake)
{
  int serves = !br_number_equal (x, &own->answer) && (br_number_sign (x) > 0 || br_number_sign (&own->answer) < 0);
  for (unsigned i = 0; i < own->wrong_count && serves; i++)
    serves = !br_number_equal (x, &own->wrong[i]);
  if (!serves || own->wrong_count == BR__MOST_WRONG)
    return BR_OK;
  own->mistake[own->wrong_count] = mistake;
  return br_number_set (&own->wrong[own->wrong_count++], x);
}

/* NUM / DEN times what TREE gives as it stands now, put on MARK; nothing where that cannot be.  */
static br_status
add_value (br__own *own, br__run *run, const br__tree *tree, const br__mark *mark, int64_t num, int64_t den,
           br__mistake mistake)
{
  br__settings *s = &run->sheet->settings;
  br__value v = BR__VALUE_ZERO;
  br__rounded rounded = BR__ROUNDED_ZERO;
  br_real factor = BR_REAL_ZERO;
  br_number ratio = BR_NUMBER_ZERO;
  br_error error;
  br__run quiet = *run;
  memset (&error, 0, sizeof error);
  quiet.error = &error;
  br_status status = br__value_of (&v, &quiet, tree);
  if (status == BR_OK)
    status = br_number_set_ratio (&ratio, num, den);
  if (status == BR_OK)
    status = br_real_set_number (&factor, &ratio);
  if (status == BR_OK)
    status = br_real_mul (&v.real, &v.real, &factor);
  if (status == BR_OK && mark)
    status = br__round_value (&rounded, &v, mark, BR_NEAREST, s, &error);
  const br_number *q = mark ? &rounded.value : br_real_rational (&v.real);
  if (status == BR_OK && q && v.dimension == own->dimension)
    status = add_wrong (own, q, mistake);
  br__rounded_clear (&rounded);
  br_real_clear (&factor);
  br_number_clear (&ratio);
  br__value_clear (&v);
  return status == BR_NO_MEMORY ? status : BR_OK;
}

/* The answer with the last sign of its formula taken for its opposite.  */
static br_status
swap_sign (br__own *own, br__run *run, br__tree *tree, const br__mark *mark)
{
  br__node *root = &tree->nodes[tree->count - 1];
  br__op op = root->op;
  if (op < BR__OP_ADD || op > BR__OP_DIV)
    return BR_OK;
  root->op = op == BR__OP_ADD ? BR__OP_SUB : op == BR__OP_SUB ? BR__OP_ADD : op == BR__OP_MUL ? BR__OP_DIV : BR__OP_MUL;
  br_status status = add_value (own, run, tree, mark, 1, 1, BR__MISTAKE_OPERATION);
  root->op = op;
  return status;
}

/* The answer with its function taken for the one that is mixed up with it.  */
static br_status
swap_function (br__own *own, br__run *run, br__tree *tree, const br__mark *mark)
{
  static const struct { br__function_id id; const char *other; int64_t num, den; br__mistake mistake; } rows[] =
  {
    { BR__FUNCTION_FULL, "drawn", 1, 1, BR__MISTAKE_SCALE }, { BR__FUNCTION_DRAWN, "full", 1, 1, BR__MISTAKE_SCALE },
    { BR__FUNCTION_CIRCUMFERENCE, NULL, 2, 1, BR__MISTAKE_DIAMETER },
    { BR__FUNCTION_CIRCUMFERENCE, NULL, 1, 2, BR__MISTAKE_RADIUS },
    { BR__FUNCTION_RADIUS, NULL, 2, 1, BR__MISTAKE_DIAMETER }, { BR__FUNCTION_DIAMETER, NULL, 1, 2, BR__MISTAKE_RADIUS }
  };
  br__node *root = &tree->nodes[tree->count - 1];
  const br__function *function = root->function;
  br_status status = BR_OK;
  for (size_t i = 0; root->op == BR__OP_CALL && i < sizeof rows / sizeof rows[0] && status == BR_OK; i++)
    {
      if (function->id != rows[i].id)
        continue;
      if (rows[i].other)
        root->function = br__function_find (rows[i].other, strlen (rows[i].other));
      status = add_value (own, run, tree, mark, rows[i].num, rows[i].den, rows[i].mistake);
      root->function = function;
    }
  return status;
}

/* SIGN times STEP away from the right answer.  */
static br_status
add_away (br__own *own, const br_number *step, int sign, br__mistake mistake)
{
  br_number x = BR_NUMBER_ZERO;
  br_status status = sign > 0 ? br_number_add (&x, &own->answer, step) : br_number_sub (&x, &own->answer, step);
  if (status == BR_OK)
    status = add_wrong (own, &x, mistake);
  br_number_clear (&x);
  return status;
}

br_status
br__own_wrong (br__own *own, br__run *run, br__tree *tree, const br__mark *mark)
{
  const br_unit *unit = br__own_unit (own);
  int count = own->dimension == BR_PLAIN && br_number_is_integer (&own->answer);
  br_number one = BR_NUMBER_ZERO;
  br_status status = swap_function (own, run, tree, mark);
  if (status == BR_OK)
    status = swap_sign (own, run, tree, mark);
  if (status == BR_OK && br_number_sign (&own->answer) < 0)
    {
      br_number x = BR_NUMBER_ZERO;
      status = br_number_neg (&x, &own->answer);
      if (status == BR_OK)
        status = add_wrong (own, &x, BR__MISTAKE_NO_SIGN);
      br_number_clear (&x);
    }
  if (status == BR_OK)
    status = br_number_set_ratio (&one, unit && unit->num ? unit->num : 1, unit && unit->num ? unit->den : 1);
  for (int i = 0; i < 4 && status == BR_OK; i++)
    if (i % 2 ? !br_number_equal (&one, &own->mark) : !count && br_number_sign (&own->mark) > 0)
      status = add_away (own, i % 2 ? &one : &own->mark, i == 1 || i == 2 ? -1 : 1, i % 2 ? BR__MISTAKE_WHOLE : BR__MISTAKE_MARK);
  if (status == BR_OK && own->wrong_count < BR__WRONG_IN_KEY)
    status = add_away (own, &own->answer, 1, BR__MISTAKE_SIDES);
  if (status == BR_OK && own->wrong_count < BR__WRONG_IN_KEY && !count)
    {
      br_number two = BR_NUMBER_ZERO;
      status = br_number_set_int (&two, 2);
      if (status == BR_OK)
        status = br_number_div (&two, &own->answer, &two);
      if (status == BR_OK)
        status = add_wrong (own, &two, BR__MISTAKE_SIDES);
      br_number_clear (&two);
    }
  br_number_clear (&one);
  return status;
}
