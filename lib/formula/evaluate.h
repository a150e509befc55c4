/* SPDX-License-Identifier: LGPL-3.0-or-later
   evaluate.h - evaluating trees, and rounding values to marks.  */
#ifndef BR_FORMULA_EVALUATE_H
#define BR_FORMULA_EVALUATE_H

#include "formula/functions.h"
#include "formula/tree.h"

/* "a length", "an area", "a plain number", "an angle" ...  */
const char *br__dimension_words (br_dimension dimension);

/* A plain number becomes a length in the sheet's unit.  */
br_status br__to_length (br__value *v, const br__settings *s);
/* Converts X and Y to the same dimension for a sum or a comparison: a plain number with a length is in the
   sheet's unit, a plain number with an angle is in degrees.  Otherwise BR_DOMAIN; the message names both.  */
br_status br__unify (br__value *x, br__value *y, const br__settings *s, br_error *error);
br_status br__no_grid (br_error *error, size_t offset, size_t length);

/* The source of the values of names.  LOOKUP sets *VALUE to the value of NODE, which still belongs to the source;
   or it fails, with the place of NODE in the text of the tree.  */
typedef struct br__names
{
  void *user;
  br_status (*lookup) (const br__value **value, void *user, const br__tree *tree,
                       const br__node *node, br_error *error);
} br__names;

/* The value of T.  Errors are placed in the line that T came from.  */
br_status br__evaluate (br__value *z, const br__tree *t, const br__settings *s,
                        const br__names *names, br_error *error);
/* The value of one node from those of its operands ARGS, which it may change.  */
br_status br__apply (br__value *z, const br__node *n, br__value *args, const br__settings *s,
                     br_error *error);

/* A value on a ruler.  VALUE and the bounds are in inches where DIMENSION is a length.  */
typedef struct br__rounded
{
  br_number value;
  br_dimension dimension;
  int tie;
  br_number below, above;   /* the marks at or under and at or over the exact value */
  int sided;                /* are those two certain? */
} br__rounded;

#define BR__ROUNDED_ZERO { BR_NUMBER_ZERO, BR_PLAIN, 0, BR_NUMBER_ZERO, BR_NUMBER_ZERO, 0 }

void br__rounded_clear (br__rounded *r);
/* The marks of SIZE on both sides of X.  If it is undecided whether X is on a mark, they are not certain; this is not an
   error.  */
br_status br__round_sides (br__rounded *r, const br_real *x, const br_number *size, const br__settings *s);
/* X becomes a length where MARK is one.  Areas and the like are BR_DOMAIN.  */
br_status br__round_value (br__rounded *r, br__value *x, const br__mark *mark,
                           br_direction direction, const br__settings *s, br_error *error);
/* A mark given by an expression's value; UNIT is the unit it was written in, or NULL.
   BR_DOMAIN: not a rational length or plain number over zero.  */
br_status br__mark_from_value (br__mark *mark, const br__settings *s, const br__value *v,
                               const br_unit *unit, br_error *error);
/* The size of MARK in the unit of values of DIMENSION (which becomes a length if need be).  */
br_status br__mark_size (br_number *size, const br__mark *mark, br__value *x, const br__settings *s);

#endif
