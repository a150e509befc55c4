/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution.h - what can hurt someone, said as data: gaps that pinch, parts small enough to
   choke on, pieces too short to hold.  Published figures with their sources.  A caution is not legal
   advice, and no caution does not mean safe: the teacher's rules and local codes come first.  */
#ifndef BR_SHOP_CAUTION_H
#define BR_SHOP_CAUTION_H

#include "benchrule.h"
#include "exact/text.h"

#define BR__TEACHER_FIRST "your teacher's rules and local codes come first"

/* For whom it is made.  UNSET counts as the youngest child.  */
typedef enum br__child_state { BR__CHILD_UNSET, BR__CHILD_NONE, BR__CHILD_MONTHS } br__child_state;

typedef struct br__child
{
  br__child_state state;
  unsigned months;      /* age, with BR__CHILD_MONTHS */
} br__child;

/* 1 if CHILD may be under MONTHS months old.  */
int br__child_under (const br__child *child, unsigned months);

/* A gap between moving parts against both standards.  ASTM and ISO say whether the gap admits the
   standard's small rod and not its large one, whoever the child is; CAUTIONS holds those to
   show: ASTM's for a child under 96 months, ISO's for one of 96 months or under.  */
typedef struct br__gap_answer
{
  br_truth astm, iso;
  size_t count;
  const br_caution *cautions[2];
  const br_caution *of_astm;    /* which of them is of ASTM's rule, or NULL */
} br__gap_answer;

/* A gap from LOW to HIGH inches, which are one where it has no tolerance; at or below zero (touch, overlap)
   it admits no rod: see br__overlap_message.  BR_TOO_BIG, BR_NO_MEMORY; what is undecided is BR_UNKNOWN in
   the answer.  */
br_status br__gap_caution (br__gap_answer *answer, const br_real *low, const br_real *high,
                           const br__child *child, unsigned bits);

/* Adds both rules or one, in a line, and what that asks of the gap; PERHAPS: it is not certain that they are touched.  */
void br__gap_brief (br_text *text, int of_astm, int of_iso, int perhaps);

/* Adds "the wheels overlap by 3/8"" or "the wheels touch: they will rub" to TEXT; PARTS is
   "the wheels" or "the wheel and its fender".  Nothing for a gap over zero.  DIMENSION is that
   of GAP: BR_LENGTH (inches) or BR_PLAIN.  STYLE may be NULL.  */
br_status br__overlap_message (br_text *text, const br_real *gap, const char *parts,
                               br_dimension dimension, const br_style *style, unsigned bits);

/* Whether a box (any order of sides) or a disc or rod fits wholly into the small parts
   cylinder of 16 CFR 1501.4 in some position; UNKNOWN: it may.  Inches.  BR_DOMAIN: a size is
   not over zero, ERROR's offset is its index.  */
br_status br__small_box_fits (br_truth *fits, const br_real *length, const br_real *width,
                              const br_real *thickness, unsigned bits, br_error *error);
br_status br__small_disc_fits (br_truth *fits, const br_real *diameter, const br_real *thickness,
                               unsigned bits, br_error *error);
/* The caution for FITS, or NULL; always NULL for a child of 36 months or more.  */
const br_caution *br__small_part_caution (br_truth fits, const br__child *child);

/* Advice on holding a piece at a machine.  */
typedef enum br__advice_side
{
  BR__ANY_SIDE, BR__LENGTH_SIDE, BR__WIDTH_SIDE, BR__THICKNESS_SIDE
} br__advice_side;

typedef struct br__advice
{
  const char *machine;
  const char *message;  /* one line, ends with BR__TEACHER_FIRST */
  const char *source;
  const char *status;   /* "found" in print or from "memory" */
  br__advice_side side; /* whose size counts; BR__ANY_SIDE: goes with any other advice */
  int64_t num, den;     /* the limit in inches */
  int at_limit;         /* 1: a piece of just this size is touched too */
} br__advice;

extern const br__advice br__advices[];
extern const size_t br__advice_count;

/* ROWS (room for br__advice_count) gets what a piece of these inches touches, in the table's
   order, COUNT how many.  An unknown size is NULL.  Rules that are undecided are included.  */
br_status br__workpiece_advice (const br__advice **rows, size_t *count, const br_real *length,
                                const br_real *width, const br_real *thickness, unsigned bits);

#endif
