/* SPDX-License-Identifier: LGPL-3.0-or-later
   real.h - inside the real value: exact sums of roots, formulas, enclosures.

   A value has the first of three forms ("lanes") that can hold it:
   1. rational: NODE is NULL;
   2. exact sum (BR__REAL_SUM): terms q * sqrt (m) * pi^k, q not 0, m a whole number over 0, no two
      terms of one class.  Two terms are of one class when their k agree and the product of their m
      is a square.  A sum is never rational: that would be lane 1;
   3. formula: an operation on one or two values, evaluated as MPFI intervals.  */
#ifndef BR_EXACT_REAL_H
#define BR_EXACT_REAL_H

#include <gmp.h>
#include <mpfr.h>
#include "exact/interval.h"

#include "benchrule.h"

#define BR__TERMS 16            /* terms of an exact sum; past them it becomes a formula */
#define BR__ROOT_BITS 4096      /* bits of the m of a term */
#define BR__PI_POWER 1000       /* magnitude of the k of a term */
#define BR__POWER 1000000       /* magnitude of a whole exponent over a value not rational */
#define BR__ROOT_INDEX 64       /* greatest index of a root */
#define BR__FIRST_BITS 80       /* the first precision tried; enough to decide most questions about shop sizes */

/* Returned by functions on exact sums if the result is not an exact sum.  */
#define BR__LEAVE BR_UNDECIDED

typedef struct br__term
{
  br_number q, m;
  int64_t k;
} br__term;

#define BR__TERM_ZERO { BR_NUMBER_ZERO, BR_NUMBER_ZERO, 0 }

typedef struct br__sum
{
  size_t size;
  br__term term[BR__TERMS];     /* only the first SIZE are initialised */
} br__sum;

typedef enum br__real_op
{
  BR__REAL_SUM, BR__REAL_ADD, BR__REAL_SUB, BR__REAL_MUL, BR__REAL_DIV, BR__REAL_ROOT,
  BR__REAL_RAISE, BR__REAL_SIN, BR__REAL_COS, BR__REAL_TAN, BR__REAL_ATAN, BR__REAL_ASIN
} br__real_op;

/* Whether a formula is known to be equal to a fraction: not examined yet; not equal to a short fraction; not equal to a
   short or a long one; perhaps equal to QUESTION, but a short proof does not decide that (LATER), or no proof does (OPEN);
   equal to QUESTION.  */
typedef enum br__known
{
  BR__NOT_ASKED, BR__NOT_SHORT, BR__NOT_LONG, BR__LATER, BR__OPEN, BR__FRACTION
} br__known;

struct br_real_node
{
  size_t count;                 /* values that refer to it */
  br_real_node *next;           /* in the list of nodes to be freed */
  br__real_op op;
  uint64_t hash;                /* of the operation and its operands; 0 for an exact sum */
  int64_t index;                /* of a root; exponent of BR__REAL_RAISE */
  br_real left, right;
  mpfr_prec_t precision;        /* of ENCLOSURE, 0 while there is none */
  br__interval enclosure;
  mpfr_prec_t spare_precision;  /* of SPARE, the previous enclosure: for callers that alternate between two precisions */
  br__interval spare;
  uint32_t step;                /* during a proof: 1 + the index of its step; else 0 */
  char irrational;              /* 1 if certainly irrational; 0 if not known */
  br__known known;
  char refused;                 /* memory ran out in a function without a status; the next one with a status reports it */
  br_number question;           /* the fraction, if KNOWN is BR__LATER, BR__OPEN or BR__FRACTION */
  int64_t proof_bits;           /* bits that a proof would need if that is past the limit, else 0 */
  size_t size;                  /* of TERM, BR__REAL_SUM only */
  br__term term[];
};

/* 1 if X is neither a fraction nor an exact sum.  */
static inline int
br__real_is_formula (const br_real *x)
{
  return x->node != NULL && x->node->op != BR__REAL_SUM;
}

/* real.c: Z takes over X, which becomes 0.  */
void br__real_move (br_real *z, br_real *x);
void br__real_move_number (br_real *z, br_number *x);
br_status br__real_set_ratio (br_real *z, int64_t n, int64_t d);
int br__real_is_int (const br_real *x, int64_t n);
/* 1 if X and Y are certainly equal because they have the same form.  0: not known.  */
int br__real_same (const br_real *x, const br_real *y);
/* The same for nodes, either of which may be NULL.  */
int br__same_node (br_real_node *x, br_real_node *y);
/* The node of X if it is a formula of OP, else NULL.  */
const br_real_node *br__real_formula_of (const br_real *x, br__real_op op);
/* Z = a new formula.  RIGHT may be NULL.  */
br_status br__real_formula (br_real *z, br__real_op op, const br_real *left, const br_real *right,
                            int64_t index);
br_real_node *br__node_new (br__real_op op, size_t terms);

/* real_sum.c.  The terms of X as an exact sum, or NULL for a formula.  ROOM serves for a rational;
   the result owns nothing.  */
const br__term *br__terms (size_t *size, const br_real *x, br__term *room);
void br__term_clear (br__term *t);
void br__sum_clear (br__sum *s);
/* Adds T to S.  Takes over T, also on an error.  */
br_status br__sum_put (br__sum *s, br__term *t);
br_status br__sum_add (br__sum *s, const br__term *t, size_t size, int negate);
br_status br__sum_mul (br__sum *s, const br__term *x, size_t x_size, const br__term *y,
                       size_t y_size);
/* S = 1 / X for one term, or for two of the same k.  */
br_status br__sum_invert (br__sum *s, const br__term *x, size_t size);
/* Z takes over S, which becomes empty.  */
br_status br__sum_to_real (br_real *z, br__sum *s);
/* SQUARE = Q * Q * M of T.  */
br_status br__term_square (br_number *square, const br__term *t);

/* 1 and the square root of N >= 0 where it is whole.  */
int br__small_square (int64_t *root, int64_t n);
/* real_root.c.  EXACT gets 1 and Z the root of INDEX of X >= 0 if that is rational, else 0.  */
br_status br__number_root (br_number *z, int *exact, const br_number *x, unsigned index);
/* Numerator and denominator.  */
br_status br__number_parts (br_number *num, br_number *den, const br_number *x);
/* Z = the root of X, which is known not to be negative.  */
br_status br__real_root (br_real *z, const br_real *x, unsigned index);

/* ORDER of X and Y as their first enclosures tell: 0 where these touch.  */
br_status br__real_apart (int *order, const br_real *x, const br_real *y);
/* real_enclose.c.  Asks X for ends at growing precision, to BITS as a caller gave it, until ACCEPT says 1
   of some: BR_OK then, else BR_UNDECIDED.  ACCEPT may change LOW and HIGH.  */
typedef int br__accept (mpq_t low, mpq_t high, void *context);
br_status br__real_search (const br_real *x, unsigned bits, br__accept *accept, void *context);
/* real_evaluate.c, inside MPFR's full range: brings the enclosure of NODE to precision P.  */
br_status br__node_evaluate (br_real_node *node, mpfr_prec_t p);
/* Z contains what X gives: power of N > 0; root of a value that is not negative; sine or cosine of degrees.  */

/* real_fraction.c.  Finds out whether X is a fraction of few bits, or of more where LONG, and keeps what is found.  A
   proof that takes over BR__SHORT_WORK is left for later where EFFORT is BR__GLANCE.  */
typedef enum br__effort { BR__GLANCE, BR__PROVE } br__effort;
br_status br__real_ask (const br_real *x, br__effort effort, int is_long);
/* 1 where the last of a node alone says that it is none.  */
int br__node_is_irrational (const br_real_node *node);
/* X, or ROOM as the fraction that X is known to be: it is borrowed and lives as long as X is not changed.  */
const br_real *br__real_seen (br_real *room, const br_real *x);
/* IS gets 1 where X is made of rationals, roots, and sines of rational angles, so that it is algebraic; 0 where that is not
   known.  Inside MPFR's full range.  */
br_status br__real_is_algebraic (int *is, const br_real *x);

#endif
