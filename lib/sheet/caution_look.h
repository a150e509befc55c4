/* SPDX-License-Identifier: LGPL-3.0-or-later
   caution_look.h - a search of a sheet for cautions; shared by the files caution*.c.  */
#ifndef BR_SHEET_CAUTION_LOOK_H
#define BR_SHEET_CAUTION_LOOK_H

#include "sheet/caution_group.h"

/* The rules of cautions, as bits of br__entry_told.  A bit shifted by AS_CUT: the rule applies within the tolerance.  */
enum { RULE_ASTM = 1, RULE_ISO = 2, RULE_RUBS = 4, RULE_CURVE = 8, AS_CUT = 4, RULE_SMALL = 256, RULE_BEND = 512, RULE_NECK = 1024, RULE_SHORT = 2048,
       RULE_SMALL_CUT = RULE_SMALL << AS_CUT };
/* Kept with the kind of a shape.  */
#define RULES_OF_SHAPES ((unsigned) RULE_SMALL | RULE_SMALL_CUT | RULE_BEND | RULE_NECK | RULE_SHORT)

/* The thing that is judged: an entry that moved, or an expression, for which no cautions were given before.  */
typedef struct br__concern
{
  br__run *run;
  br__caution_group *group;
  br__entry *entry;     /* NULL: an expression */
  unsigned before;      /* rules of which a caution was given */
  unsigned now;
  int again;            /* whatever was said before */
} br__concern;

/* 1 if RULE, which holds now, needs a caution.  */
static inline int
br__is_new_caution (br__concern *c, unsigned rule)
{
  int new = !((c->before | c->now) & rule);
  c->now |= rule;
  return new;
}

/* A search for cautions about several entries.  */
typedef struct br__look
{
  br__run *run;
  int again;            /* whatever was said before */
  const br__entry *last;        /* of the shape that was looked at last: its numbers move together */
  br__caution_group group;
} br__look;

/* The start of the message if a rule applies to a size only within its tolerance.  */
#define BR__AS_CUT_WITHIN "as cut, within its tolerance: "

/* A curve of RADIUS inches that the class's blade cannot follow, under RULE.  AS_CUT: so far it may be off.  */
br_status br__judge_curve (br__concern *c, const br_real *radius, unsigned rule, int as_cut);

/* caution_cut.c: a size, and its limits within its tolerances.  */
typedef struct br__span
{
  br_real size, low, high;      /* inches */
  int off;              /* LOW and HIGH are known */
} br__span;

#define BR__SPAN_ZERO { BR_REAL_ZERO, BR_REAL_ZERO, BR_REAL_ZERO, 0 }

void br__span_clear (br__span *z);
/* V, a length or plain, is the size of the entry E, or of a formula with the tree T; either may be NULL.  */
br_status br__span_of (br__span *z, br__run *run, const br__value *v, br__entry *e, const br__tree *t);

/* caution_shape.c: E is a number of a shape.  */
br_status br__judge_shape (br__look *l, const br__entry *e);

#endif
