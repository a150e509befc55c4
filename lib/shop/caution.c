/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution.c - gaps between moving parts: those that a finger fits into but cannot turn
   in, and parts that touch or overlap.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/about.h"
#include "shop/calc.h"
#include "shop/caution.h"

#define FIRST "; " BR__TEACHER_FIRST
#define NOT_CERTAIN "it is not certain whether this gap admits a "

/* A rule of two rods: what admits the small one must admit the large one.  */
typedef struct rods
{
  int64_t small_num, small_den, large_num, large_den;   /* inches */
  br_caution certain, undecided;
} rods;

#define ASTM_SOURCE "ASTM F963 4.18.1, Accessible Clearances for Movable Segments"
/* 16 CFR 1250 makes the edition of 2023 the law for toys that are sold (from memory).  */
#define ASTM_EDITION "2023, which numbers this clause as editions before it did (from memory)"
#define ASTM_SCOPE \
  "toys for children under 96 months; wheel wells and fenders are among the parts it names"
#define ASTM_ADVICE "make it less than 3/16 in or at least 1/2 in" FIRST

#define ISO_SOURCE "ISO 8124-1, clearances for movable segments"
#define ISO_EDITION "clause 4.13.2 (from memory)"
#define ISO_SCOPE "gaps between moving parts of toys for children of 96 months and under"
#define ISO_ADVICE "make it less than 5 mm or at least 12 mm" FIRST

/* In F963 the inch figures are the standard (1.6); an inch is 127/5 mm.  */
static const rods astm = {
  3, 16, 1, 2,
  { "a gap that admits a 3/16 in rod and not a 1/2 in rod can pinch a small finger: " ASTM_ADVICE,
    ASTM_SOURCE, ASTM_EDITION, ASTM_SCOPE },
  { NOT_CERTAIN "3/16 in rod and not a 1/2 in rod, and so can pinch a small finger: " ASTM_ADVICE,
    ASTM_SOURCE, ASTM_EDITION, ASTM_SCOPE },
};

static const rods iso = {
  25, 127, 60, 127,
  { "a gap that admits a 5 mm rod and not a 12 mm rod can pinch a small finger: " ISO_ADVICE,
    ISO_SOURCE, ISO_EDITION, ISO_SCOPE },
  { NOT_CERTAIN "5 mm rod and not a 12 mm rod, and so can pinch a small finger: " ISO_ADVICE,
    ISO_SOURCE, ISO_EDITION, ISO_SCOPE },
};

/* A gap that meets the figures of ASTM also meets those of ISO.  */
void
br__gap_brief (br_text *text, int of_astm, int of_iso, int perhaps)
{
  br__text_printf (text, "%s%s%s: a finger %s be pinched; make it %s", of_astm ? "ASTM F963 4.18.1" : "",
                   of_astm && of_iso ? " and " : "", of_iso ? "ISO 8124-1" : "", perhaps ? "might" : "can",
                   of_astm ? "under 3/16 in or at least 1/2 in" : "under 5 mm or at least 12 mm");
}

int
br__child_under (const br__child *child, unsigned months)
{
  if (child->state == BR__CHILD_MONTHS)
    return child->months < months;
  return child->state == BR__CHILD_UNSET;
}

/* A rod goes into a gap of just its size (line to line).  */
static br_status
admits (br_truth *answer, const br_real *gap, int64_t num, int64_t den, unsigned bits)
{
  int order = 0;
  br_status status = calc_against (&order, gap, num, den, bits);

  *answer = calc_truth (&status, order >= 0);
  return status;
}

static br_status
between_rods (br_truth *touched, const rods *rule, const br_real *low, const br_real *high, unsigned bits)
{
  br_truth small = BR_NO, large = BR_NO;
  br_status status = admits (&small, high, rule->small_num, rule->small_den, bits);

  if (status == BR_OK)
    status = admits (&large, low, rule->large_num, rule->large_den, bits);
  if (large != BR_UNKNOWN)
    large = large == BR_YES ? BR_NO : BR_YES;
  *touched = truth_both (small, large);
  return status;
}

static void
show (br__gap_answer *answer, const rods *rule, br_truth touched)
{
  if (touched != BR_NO)
    answer->cautions[answer->count++] = touched == BR_YES ? &rule->certain : &rule->undecided;
}

br_status
br__gap_caution (br__gap_answer *answer, const br_real *low, const br_real *high, const br__child *child,
                 unsigned bits)
{
  br__gap_answer found = { BR_NO, BR_NO, 0, { NULL, NULL }, NULL };
  br_status status = between_rods (&found.astm, &astm, low, high, bits);

  if (status == BR_OK)
    status = between_rods (&found.iso, &iso, low, high, bits);
  if (status != BR_OK)
    return status;
  if (br__child_under (child, 96))
    {
      show (&found, &astm, found.astm);
      found.of_astm = found.count ? found.cautions[0] : NULL;
    }
  /* ISO says "96 months and under".  */
  if (br__child_under (child, 97))
    show (&found, &iso, found.iso);
  *answer = found;
  return BR_OK;
}

br_status
br__overlap_message (br_text *text, const br_real *gap, const char *parts, br_dimension dimension,
                     const br_style *style, unsigned bits)
{
  br_real depth = BR_REAL_ZERO;
  br_text added = BR_TEXT_ZERO;
  int sign = 0;
  br_status status = br_real_sign (&sign, gap, bits);

  if (status == BR_OK && sign < 0)
    status = br_real_neg (&depth, gap);
  if (status != BR_OK || sign > 0)
    goto out;
  br__text_printf (&added, sign < 0 ? "%s overlap by " : "%s touch: they will rub", parts);
  if (sign < 0)
    status = br__put_about (&added, &depth, dimension, style, bits);
  if (status == BR_OK && !added.failed)
    br__text_put (text, added.bytes, added.length);
  if (status == BR_OK && (added.failed || text->failed))
    status = BR_NO_MEMORY;
out:
  br_real_clear (&depth);
  br__text_clear (&added);
  return status;
}
