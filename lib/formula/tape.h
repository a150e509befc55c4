/* SPDX-License-Identifier: LGPL-3.0-or-later
   tape.h - formulas laid out in a row over a few names, so that a whole chain of dimensions can be
   asked at other sizes than those of the sheet, exactly and over intervals, and for its slopes.

   Cells stand after those that they use; none is worked out twice, however often a dimension is named.
   What does not hang on the names asked for is one constant.  The last cell but for what follows a
   clause of its own is not special: ROOT names the one that is the answer.  */
#ifndef BR_FORMULA_TAPE_H
#define BR_FORMULA_TAPE_H

#include "exact/interval.h"
#include "sheet/sheet.h"

typedef enum br__tape_op
{
  BR__TAPE_CONSTANT, BR__TAPE_INPUT,
  BR__TAPE_ADD, BR__TAPE_SUB, BR__TAPE_MUL, BR__TAPE_DIV, BR__TAPE_NEG, BR__TAPE_POWER,
  BR__TAPE_ABS, BR__TAPE_MAX, BR__TAPE_MIN,
  BR__TAPE_SIN, BR__TAPE_COS, BR__TAPE_TAN, BR__TAPE_ATAN,
  BR__TAPE_OVER_ZERO, BR__TAPE_NOT_BELOW,       /* LEFT, which has to be so */
  BR__TAPE_MARK, BR__TAPE_DRILL                 /* steps: on a ruler's mark; the next drill */
} br__tape_op;

typedef struct br__cell
{
  br__tape_op op;
  size_t left, right;           /* earlier cells; of an input LEFT is its index */
  br_real constant;
  br_number number;             /* exponent of a power, size of a mark */
  br_direction direction;       /* of a mark */
  int linear;                   /* no product of names, no curve */
} br__cell;

typedef struct br__tape
{
  br__cell *cells;
  size_t count, room;
  size_t root;
  br_dimension dimension;       /* of the root */
  int varies;                   /* the root hangs on an input */
  int smooth;                   /* neither corners (abs, max, min) nor steps */
  int steps;
  br__entry *missing;           /* a name without a value that kept it from being made, or NULL */
  br__entry **inputs;           /* the names, in the order in which they were met */
  size_t *input_cells;
  size_t input_count, input_room, cell_room;
  const br__settings *settings; /* borrowed */
} br__tape;

#define BR__TAPE_ZERO { NULL, 0, 0, 0, BR_PLAIN, 0, 1, 0, NULL, NULL, NULL, 0, 0, 0, NULL }

/* What a name is to a tape: worked out from its formula, a name to be varied, or as it stands.  */
typedef enum br__part { BR__PART_FORMULA, BR__PART_INPUT, BR__PART_FIXED } br__part;

typedef struct br__tape_names
{
  void *user;
  br__part (*part) (void *user, br__entry *e);
  /* The dimension of an input; NULL: that of its value.  */
  br_dimension (*dimension) (void *user, br__entry *e);
} br__tape_names;

void br__tape_clear (br__tape *t);
/* Lays LEFT, less RIGHT where RIGHT is not NULL, out on the empty T.  A name that has no value and
   does not come from an input is an error at its place, and so is what can not be laid out (an
   exponent that hangs on an input).  */
br_status br__tape_make (br__tape *t, br_sheet *sheet, const br__tree *left, const br__tree *right,
                         const br__tape_names *names, br_error *error);

/* tape_call.c, for tape.c.  A value on its way to the tape.  */
typedef struct br__item
{
  br__value value;              /* only its dimension counts where the item varies */
  int varies;
  size_t cell;                  /* where it varies */
} br__item;

void br__item_clear (br__item *x);
br_status br__tape_add (br__tape *t, br__item *z, br__tape_op op, const br__item *x, const br__item *y,
                        br_error *error);
/* Items become lengths in the sheet's unit, or of one dimension, as br__to_length and br__unify.  */
br_status br__item_to_length (br__tape *t, br__item *x, br_error *error);
br_status br__items_unify (br__tape *t, br__item *x, br__item *y, br_error *error);
br_status br__tape_power (br__tape *t, br__item *z, const br__item *x, const br__item *y, br_error *error);
/* A call other than of a formula of the trade, over ARGS, which it may change.  */
br_status br__tape_call (br__tape *t, br__item *z, const br__node *n, br__item *args, br_error *error);

/* tape_exact.c.  INPUTS holds a value for each input.  BR_DOMAIN: there is no value there;
   BR_UNDECIDED as for br_real_sign.  LAX passes over what a function of the trade needs of its
   arguments.  */
br_status br__tape_value (br_real *z, const br__tape *t, const br_real *inputs, int lax);
/* SLOPES (one for each input, initialised) gets the derivatives.  BR_DOMAIN where there is none, as at
   a corner or through a step.  */
br_status br__tape_slopes (br_real *slopes, const br__tape *t, const br_real *inputs, int lax);

/* tape_enclose.c: the same over intervals.  Between br__mpfr_enter and br__mpfr_leave only.  */
#define BR__TAPE_BITS 256

typedef struct br__enclosure
{
  const br__tape *tape;
  mpfi_t *values, *slopes;      /* of each cell */
  mpfi_t room[4];
  mpfi_t *box;                  /* of each input: set these, then call br__enclose */
  size_t made;
  int empty;                    /* no point of the box has a value */
  int partial;                  /* some may have none */
} br__enclosure;

br_status br__enclosure_new (br__enclosure **e, const br__tape *t);
void br__enclosure_free (br__enclosure *e);
/* The values over the box; that of the root is the answer.  */
br_status br__enclose (br__enclosure *e);
/* After br__enclose: slopes of the root by each cell; those of inputs are derivatives.  */
void br__enclose_slopes (br__enclosure *e);
mpfi_ptr br__enclosed_root (br__enclosure *e);
mpfi_ptr br__enclosed_slope (br__enclosure *e, size_t input);
/* Z = LOW .. HIGH, outwards; LOW <= HIGH of an enclosure, which must be bounded.  */
void br__interval_set (mpfi_ptr z, const br_number *low, const br_number *high);
br_status br__interval_get (br_number *low, br_number *high, mpfi_srcptr x);
int br__interval_bounded (mpfi_srcptr x);
/* -1, 0, 1: all of X is below zero, X is 0, all is above; WEAK counts zero to either side.  2: neither.  */
int br__interval_sign (mpfi_srcptr x, int weak);

#endif
