/* SPDX-License-Identifier: LGPL-3.0-or-later
   cautions.c - for programs: the rules that a size touches.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "exact/status.h"
#include "shop/caution.h"

/* The texts for parts that cannot turn freely, by what the gap is between: touching, overlapping, undecided.  */
#define RUB(PARTS)                                                                            \
  {                                                                                           \
    { "the " PARTS " touch: they will rub; " BR__TEACHER_FIRST, "geometry", "",               \
      "parts that must turn freely" },                                                        \
    { "the " PARTS " overlap: they cannot turn; " BR__TEACHER_FIRST, "geometry", "",          \
      "parts that must turn freely" },                                                        \
    { "it is not certain whether the " PARTS " touch; " BR__TEACHER_FIRST, "geometry", "",    \
      "parts that must turn freely" }                                                         \
  }

static const br_caution rub[][3] = {
  [BR_BETWEEN_WHEELS] = RUB ("wheels"),
  [BR_BETWEEN_WHEEL_AND_FENDER] = RUB ("wheel and its fender"),
  [BR_BETWEEN_MOVING_PARTS] = RUB ("moving parts"),
};

static br__child
child_of (unsigned months)
{
  br__child child = { BR__CHILD_MONTHS, months };
  if (months == BR_AGE_UNKNOWN)
    child.state = BR__CHILD_UNSET;
  else if (months == BR_NO_CHILD)
    child.state = BR__CHILD_NONE;
  return child;
}

/* Refuses NULL for an output or for one of the SIZES.  */
static br_status
not_given (const br_caution *cautions, const size_t *count, const br_real *const *sizes, size_t size_count, br_error *error)
{
  if (!cautions || !count)
    return br__fail_null (error);
  for (size_t i = 0; i < size_count; i++)
    if (!sizes[i])
      return br__fail (error, BR_DOMAIN, i, 0, "a size is not given");
  return BR_OK;
}

br_status
br_caution_gap (br_caution *cautions, size_t *count, const br_real *gap, br_between between,
                unsigned months, unsigned bits, br_error *error)
{
  const br_real *const sizes[] = { gap };
  br__child child = child_of (months);
  br__gap_answer answer = { BR_NO, BR_NO, 0, { NULL, NULL }, NULL };
  int sign = 1;
  br_status status = not_given (cautions, count, sizes, 1, error);
  if (status != BR_OK)
    return status;
  if ((unsigned) between > BR_BETWEEN_FIXED_PARTS)
    return br__fail (error, BR_DOMAIN, 1, 0, "what the gap is between is not known");
  if (between == BR_BETWEEN_FIXED_PARTS)
    {
      *count = 0;
      return BR_OK;
    }
  status = br_real_sign (&sign, gap, bits);
  int undecided = status == BR_UNDECIDED;
  if (status == BR_OK || undecided)
    status = br__gap_caution (&answer, gap, gap, &child, bits);
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  size_t n = 0;
  if (undecided || sign <= 0)
    cautions[n++] = rub[between][undecided ? 2 : sign < 0];
  for (size_t i = 0; i < answer.count; i++)
    cautions[n++] = *answer.cautions[i];
  *count = n;
  return BR_OK;
}

static void
give_small (br_caution *cautions, size_t *count, br_truth fits, unsigned months)
{
  br__child child = child_of (months);
  const br_caution *c = br__small_part_caution (fits, &child);
  *count = c != NULL;
  if (c)
    cautions[0] = *c;
}

br_status
br_caution_small_box (br_caution *cautions, size_t *count, const br_real *length,
                      const br_real *width, const br_real *thickness, unsigned months,
                      unsigned bits, br_error *error)
{
  const br_real *const sizes[] = { length, width, thickness };
  br_truth fits = BR_NO;
  br_status status = not_given (cautions, count, sizes, 3, error);
  if (status == BR_OK)
    status = br__small_box_fits (&fits, length, width, thickness, bits, error);
  if (status == BR_OK)
    give_small (cautions, count, fits, months);
  return status;
}

br_status
br_caution_small_disc (br_caution *cautions, size_t *count, const br_real *diameter,
                       const br_real *thickness, unsigned months, unsigned bits, br_error *error)
{
  const br_real *const sizes[] = { diameter, thickness };
  br_truth fits = BR_NO;
  br_status status = not_given (cautions, count, sizes, 2, error);
  if (status == BR_OK)
    status = br__small_disc_fits (&fits, diameter, thickness, bits, error);
  if (status == BR_OK)
    give_small (cautions, count, fits, months);
  return status;
}

br_status
br_caution_workpiece (br_caution *cautions, size_t *count, const br_real *length,
                      const br_real *width, const br_real *thickness, unsigned bits,
                      br_error *error)
{
  const br_real *sizes[] = { length, width, thickness };
  const br__advice *rows[BR_MOST_CAUTIONS];
  size_t found = 0;
  br_status status = not_given (cautions, count, NULL, 0, error);
  if (status != BR_OK)
    return status;
  for (size_t i = 0; i < 3; i++)
    {
      int sign = 1;
      status = sizes[i] ? br_real_sign (&sign, sizes[i], bits) : BR_OK;
      if (status != BR_OK && status != BR_UNDECIDED)
        return br__fail_plain (error, status, i, 0);
      if (sign <= 0)
        return br__fail (error, BR_DOMAIN, i, 0, "a size of a piece must be over zero");
    }
  status = br__workpiece_advice (rows, &found, length, width, thickness, bits);
  if (status != BR_OK)
    return br__fail_plain (error, status, 0, 0);
  for (size_t i = 0; i < found; i++)
    cautions[i] = (br_caution) { rows[i]->message, rows[i]->source,
                                   strcmp (rows[i]->status, "memory") == 0 ? "from memory" : "", rows[i]->machine };
  *count = found;
  return BR_OK;
}
