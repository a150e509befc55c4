/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_field.h - a formula as a list of steps, with each different subexpression once, for proofs that it is
   zero: docs/certainty.md has the argument.

   A step is a rational, the cosine of a rational angle, an atom, or the result of + - * /, a root or a whole power
   of earlier steps.  An atom is a value of which only the enclosure is used: pi, an arc, or the
   sine of an angle that is neither rational nor a sum of arcs.

   All functions work inside MPFR's full range (br__enter_mpfr).  */
#ifndef BR_EXACT_REAL_FIELD_H
#define BR_EXACT_REAL_FIELD_H

#include "exact/real.h"

#define BR__STEPS 20000         /* of a field */
#define BR__ATOMS 3
#define BR__ANGLE_PARTS 16
#define BR__TURNS 64            /* magnitude of a whole multiple of an arc */

typedef enum br__step_op
{
  BR__STEP_NUMBER, BR__STEP_ATOM, BR__STEP_COSINE, BR__STEP_ADD, BR__STEP_SUB, BR__STEP_MUL,
  BR__STEP_DIV, BR__STEP_ROOT, BR__STEP_POWER
} br__step_op;

typedef struct br__step
{
  br__step_op op;
  uint32_t left, right;         /* places of earlier steps, 0 where there is none */
  int64_t index;                /* of a root, a power or an atom */
  mpq_t number;                 /* the number, or the turns of the cosine in 0..1/2; else not initialised */
  uint32_t next;                /* in the row of steps of one hash */
  char needed, varies;          /* for the value that is asked for; with an atom */
  int64_t u, l;                 /* bounds, see real_bound.c */
  mpfr_prec_t precision;        /* of VALUE, 0 while there is none */
  br__interval value;
} br__step;

typedef struct br__atom
{
  br_real_node *node;           /* the value, not owned; NULL for pi */
  br__interval box;                   /* contains it, and the points that stand for it */
  mpq_t point;                  /* stands for it */
} br__atom;

typedef struct br__field
{
  br__step *step;               /* the first is the number 0 */
  size_t size, room;
  uint32_t first[64];           /* of each hash */
  br__atom atom[BR__ATOMS];
  size_t atoms;
  br_real_node **seen;          /* nodes that carry their step */
  size_t seen_size, seen_room;
  br_status status;             /* BR_UNDECIDED: too much for a proof */
} br__field;

/* A sum of whole or fractional multiples of values in degrees.  */
typedef struct br__angle
{
  size_t size;
  struct { br_real_node *node; mpq_t times; } part[BR__ANGLE_PARTS];
  mpq_t degrees;
} br__angle;

/* real_field.c.  After a failure, which STATUS keeps, every function gives step 0.  */
void br__field_init (br__field *f);
void br__field_clear (br__field *f);
uint32_t br__field_number (br__field *f, mpq_srcptr number);
uint32_t br__field_int (br__field *f, long number);
uint32_t br__field_cosine (br__field *f, mpq_srcptr degrees);
uint32_t br__field_atom (br__field *f, br_real_node *node);
uint32_t br__field_make (br__field *f, br__step_op op, uint32_t left, uint32_t right, int64_t index);
/* The step of X; an operand of a node that was put in is found without a search.  */
uint32_t br__field_put (br__field *f, const br_real *x);
uint32_t br__field_operand (br__field *f, const br_real *x);
int br__field_is_number (const br__field *f, uint32_t step, long number);

/* real_angle.c.  0 where X has too many parts.  */
int br__angle_of (br__angle *a, const br_real *x);
void br__angle_clear (br__angle *a);
int br__is_arc (const br_real_node *node);
/* 1 where each part is an arc.  */
int br__angle_of_arcs (const br__angle *a);
/* A times the common denominator of its multiples, which is given back (0: out of reach).  */
int64_t br__angle_clear_denominators (br__angle *a);
/* (RE + IM i) / LENGTH = cos A + i sin A for whole multiples.  */
void br__field_turn (br__field *f, uint32_t *re, uint32_t *im, uint32_t *length, const br__angle *a);
/* NODE is a sine, cosine or tangent, and the arguments of its arcs were put in.  */
uint32_t br__field_circular (br__field *f, br_real_node *node);

/* real_bound.c.  Marks the steps that ROOT needs.  */
void br__field_need (br__field *f, uint32_t root);
/* A number of bits B: where ROOT is not 0, its magnitude is at least 2^-B with the points for atoms.
   INT64_MAX where it is out of reach.  */
int64_t br__field_bits (br__field *f, uint32_t root);
/* So many points for ATOM that ROOT is 0 for every value of it if it is 0 at each of them.  */
int64_t br__field_points (br__field *f, uint32_t root, size_t atom);

/* real_normal.c.  1 where ROOT is 0 for certain, as all of it cancels; 0 says nothing.  */
int br__field_cancels (br__field *f, uint32_t root);

/* real_zero.c.  ZERO gets BR_YES or BR_NO where X less CANDIDATE certainly is 0, or is not.  BITS gets what the proof
   asks for where that is past BR_MAX_BITS, else 0; MORE 1 where WORK was not enough for it.  */
typedef struct br__proof
{
  int64_t work;                 /* bits times steps, a cosine counting for many, that it may take */
  br_truth zero;
  int64_t bits;
  int more;
} br__proof;
br_status br__zero_test (br__proof *proof, const br_real *x, const br_number *candidate);

#endif
