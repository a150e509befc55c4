/* SPDX-License-Identifier: LGPL-3.0-or-later
   check_judge.c - whether the checks of a sheet hold.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/sheet.h"

const br__check *
br__check_of (const br__entry *e)
{
  return *br__entry_check ((br__entry *) e);
}

void
br__check_free (br__check *check)
{
  br__tree_clear (&check->left);
  br__tree_clear (&check->right);
  br__free (check->formula);
  br__free (check->note);
  br__free (check);
}

int
br__comparison_holds (br__comparison comparison, int sign)
{
  switch (comparison)
    {
    case BR__COMPARE_LT: case BR__COMPARE_GT: return sign > 0;
    case BR__COMPARE_LE: case BR__COMPARE_GE: return sign >= 0;
    case BR__COMPARE_EQ: return sign == 0;
    default: return sign != 0;
    }
}

br_status
br__check_judge (br_sheet *sheet, br__check *check, br_error *error)
{
  const br__value *v = br__entry_value (check->margin);
  int sign = 0;
  if (!v)
    {
      check->state = br__entry_undecided (sheet->graph, check->margin) ? BR__CHECK_UNDECIDED : BR__CHECK_WAITING;
      return BR_OK;
    }
  br_status status = br_real_sign (&sign, &v->real, sheet->settings.bits);
  if (status == BR_UNDECIDED)
    {
      check->state = BR__CHECK_UNDECIDED;
      return BR_OK;
    }
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  check->state = br__comparison_holds (check->comparison, sign) ? BR__CHECK_PASS : BR__CHECK_FAIL;
  return BR_OK;
}

void
br__checks_judge_all (br_sheet *sheet)
{
  for (br__check *c = sheet->checks; c; c = c->next)
    if (c->active && br__check_judge (sheet, c, NULL) != BR_OK)
      c->state = BR__CHECK_UNDECIDED;
}

size_t
br_sheet_failing (const br_sheet *sheet)
{
  if (!sheet)
    return 0;
  size_t count = 0;
  for (const br__check *c = sheet->checks; c; c = c->next)
    count += c->active && (c->state == BR__CHECK_FAIL || c->state == BR__CHECK_UNDECIDED);
  return count;
}
