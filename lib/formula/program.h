/* SPDX-License-Identifier: LGPL-3.0-or-later
   program.h - a compiled formula: a list of instructions with a few inputs, so that a whole chain of
   dimensions can be evaluated at other sizes than those of the sheet, exactly or over intervals, together
   with its slopes.

   An instruction comes after those that it uses, and a dimension is computed only once even if it is used
   often.  Everything that does not depend on the inputs is folded into constants.  ROOT is the index of the
   result.  */
#ifndef BR_FORMULA_PROGRAM_H
#define BR_FORMULA_PROGRAM_H

#include "exact/interval.h"
#include "formula/operate.h"
#include "formula/settings.h"

typedef struct br__program
{
  br__instruction *code;
  size_t count, room;
  size_t root;
  br_dimension dimension;       /* of the root */
  int varies;                   /* the root depends on an input */
  int smooth;                   /* neither corners (abs, max, min) nor steps */
  int steps;
  int fits;                     /* it has conditions that enclosures do not look at */
  struct br__entry *missing;           /* a name without a value that kept it from being made, or NULL */
  struct br__entry **inputs;           /* the names, in the order in which they were met */
  size_t *input_slots;
  size_t input_count, input_room, slot_room;
  const br__settings *settings; /* borrowed */
} br__program;

#define BR__PROGRAM_ZERO { NULL, 0, 0, 0, BR_PLAIN, 0, 1, 0, 0, NULL, NULL, NULL, 0, 0, 0, NULL }

void br__program_clear (br__program *t);
/* Adds an input for the entry E.  */
br_status br__program_input (br__program *t, struct br__entry *e);

/* domain_exact.c.  INPUTS has a value for each input.  BR_DOMAIN: the program has no value there;
   BR_UNDECIDED as for br_real_sign.  SKIP_RANGE_CHECKS: do not check the arguments of functions of the trade for
   their ranges.  */
br_status br__program_value (br_real *z, const br__program *t, const br_real *inputs, int skip_range_checks);
/* A row of the values of all instructions.  */
br_status br__program_values (br_real **row, const br__program *t, const br_real *inputs, int skip_range_checks);
void br__program_values_free (br_real *row, const br__program *t);
/* SLOPES (one for each input, initialised) gets the derivatives.  BR_DOMAIN where there is none, as at
   a corner, or at a step unless STEPS_REST says that none jumps near here.  */
br_status br__program_slopes (br_real *slopes, const br__program *t, const br_real *inputs, int skip_range_checks,
                              int steps_rest);

/* domain_box.c: the same over intervals.  Between br__mpfr_enter and br__mpfr_leave only.  */
#define BR__BOX_BITS 256

#define BR__MOST_POLES 3        /* of which both sides are looked at */

typedef struct br__enclosure
{
  const br__program *program;
  br__interval *values, *slopes;        /* of each instruction */
  unsigned char *jumps;         /* of each instruction: 1 for a step with several values over the box */
  br__interval room[4];
  br__interval *box;                  /* of each input: set these, then call br__enclose */
  size_t made;
  int empty;                    /* no point of the box has a value */
  int partial;                  /* some may have none */
  int hold_steps;               /* steps stay what they were when it was last enclosed */
  int beside_poles;             /* of a pole inside the box one side alone is enclosed: the I-th met by bit I of SIDES */
  unsigned sides, met;
} br__enclosure;

br_status br__enclosure_new (br__enclosure **e, const br__program *t);
void br__enclosure_free (br__enclosure *e);
/* The values over the box; that of the root is the answer.  */
br_status br__enclose (br__enclosure *e);
/* Instruction I alone, from the values of those before it; EMPTY and PARTIAL are not reset.  */
br_status br__enclose_one (br__enclosure *e, size_t i);
/* After br__enclose: slopes of the root by each instruction; those of inputs are derivatives.  */
void br__enclose_slopes (br__enclosure *e);
/* After br__enclose: 1 if a step (nearest, up, down, drill) has several values over the box.  */
int br__steps_vary (const br__enclosure *e);
br__interval_ptr br__enclosed_root (br__enclosure *e);
br__interval_ptr br__enclosed_slope (br__enclosure *e, size_t input);

#endif
