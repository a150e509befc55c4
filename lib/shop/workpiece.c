/* SPDX-License-Identifier: LGPL-3.0-or-later
   workpiece.c - pieces too short, too narrow or too thin to hold at a machine.
   School rule sets and machine manuals differ; each row says whose figure it is and whether it
   was seen in print.  None of them is a permission: a piece over every limit can still be
   unsafe.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include "shop/calc.h"
#include "shop/caution.h"

#define FIRST "; " BR__TEACHER_FIRST
#define SCHOOL "school and makerspace shop rules"
#define JOINTER_MANUALS "two jointer operating manuals"

const br__advice br__advices[] = {
  { "any machine",
    "avoid machining a piece of 12 in or less, and keep hands 3 in from any guard: cut small parts "
    "from a longer blank" FIRST,
    "the 12 in and 3 in rule (woodworking magazine, November 2007, and school rules)", "found",
    BR__LENGTH_SIDE, 12, 1, 1 },
  { "jointer",
    "a piece under 12 in is too short for the jointer (one school says 14 in): use a hand plane"
    FIRST,
    SCHOOL, "found", BR__LENGTH_SIDE, 12, 1, 0 },
  { "jointer",
    "under 300 mm use push blocks, or another way of working such as a sander" FIRST,
    "HSE woodworking web guidance, surface planer", "found", BR__LENGTH_SIDE, 1500, 127, 0 },
  { "jointer",
    "a piece under 8 in is shorter than the jointer allows (another manual: 12 in)" FIRST,
    JOINTER_MANUALS, "found", BR__LENGTH_SIDE, 8, 1, 0 },
  { "jointer",
    "a piece under 3/4 in is narrower than the jointer allows" FIRST,
    JOINTER_MANUALS, "found", BR__WIDTH_SIDE, 3, 4, 0 },
  { "jointer",
    "a piece under 1/4 in is too thin for the jointer (a makerspace: 5/8 in, a manual: 3/8 in)"
    FIRST,
    SCHOOL "; " JOINTER_MANUALS, "found", BR__THICKNESS_SIDE, 1, 4, 0 },
  { "planer",
    "do not plane a piece below 1/4 in thick, nor one shorter than from roller to roller" FIRST,
    SCHOOL, "found", BR__THICKNESS_SIDE, 1, 4, 0 },
  { "table saw",
    "use a push stick for a piece 6 in wide or less (another rule set: 4 in)" FIRST,
    SCHOOL, "found", BR__WIDTH_SIDE, 6, 1, 1 },
  /* The rule is 2 in from the line; 4 in is what 2 in on both sides of a line come to.  */
  { "band saw",
    "fingers stay 2 in from the line of cut (others: 3 in, 4 in): a piece under 4 in leaves no "
    "room for that on both sides" FIRST,
    "ITEEA band saw safety test; school safety cards", "found", BR__LENGTH_SIDE, 4, 1, 0 },
  { "miter saw",
    "do not hold a piece under about 8 in by hand: clamp it" FIRST,
    "common school rule", "memory", BR__LENGTH_SIDE, 8, 1, 0 },
  { "drill press",
    "clamp small work or hold it in a vise; no smallest size is published" FIRST,
    "technology education safety rules", "found", BR__ANY_SIDE, 0, 1, 0 },
};

_Static_assert (sizeof br__advices / sizeof br__advices[0] <= BR_MOST_CAUTIONS, "a call gives them all");

const size_t br__advice_count = sizeof br__advices / sizeof br__advices[0];

static br_status
touches (br_truth *answer, const br__advice *advice, const br_real *size, unsigned bits)
{
  int order = 0;
  br_status status;

  *answer = BR_NO;
  if (size == NULL)
    return BR_OK;
  status = calc_against (&order, size, advice->num, advice->den, bits);
  *answer = calc_truth (&status, order < 0 || (order == 0 && advice->at_limit));
  return status;
}

br_status
br__workpiece_advice (const br__advice **rows, size_t *count, const br_real *length,
                      const br_real *width, const br_real *thickness, unsigned bits)
{
  const br_real *sizes[] = { NULL, length, width, thickness };
  unsigned char touched[sizeof br__advices / sizeof br__advices[0]] = { 0 };
  br_truth answer;
  size_t i, n = 0;
  int any = 0;
  br_status status;

  for (i = 0; i < br__advice_count; i++)
    {
      status = touches (&answer, &br__advices[i], sizes[br__advices[i].side], bits);
      if (status != BR_OK)
        return status;
      touched[i] = answer != BR_NO;
      any |= touched[i];
    }
  for (i = 0; i < br__advice_count; i++)
    if (touched[i] || (any && br__advices[i].side == BR__ANY_SIDE))
      rows[n++] = &br__advices[i];
  *count = n;
  return BR_OK;
}
