/* SPDX-License-Identifier: LGPL-3.0-or-later
   real_poly.h - polynomials in roots of unity, roots and atoms, to which real_normal.c expands a value to see whether
   all terms cancel.  */
#ifndef BR_EXACT_REAL_POLY_H
#define BR_EXACT_REAL_POLY_H

#include "exact/real_field.h"

#define BR__GENERATORS 10       /* roots and atoms of one value */

/* FACTOR times the root of unity of TURN / ORDER of a turn, times the generators to their powers.  */
typedef struct br__monomial
{
  uint64_t turn;
  uint16_t power[BR__GENERATORS];
  mpq_t factor;
} br__monomial;

typedef struct br__poly
{
  br__monomial *term;
  size_t size, room;
} br__poly;

typedef struct br__quotient
{
  br__poly over, under;
} br__quotient;

typedef struct br__normal
{
  br__field *f;
  uint64_t order;
  int64_t index;                /* common to all roots of numbers */
  br__quotient *step;               /* of each step that is needed */
  struct { uint32_t step; int64_t index; br__poly radicand; } generator[BR__GENERATORS];        /* INDEX 0: an atom */
  size_t generators;
  size_t work;
  br_status status;             /* BR_UNDECIDED: too much */
} br__normal;

/* real_poly.c.  After a failure, which N->status keeps, what they give is of no use and can be cleared.  */
void br__normal_stop (br__normal *n, br_status status);
void br__poly_clear (br__poly *p);
/* The term that was put last, or NULL.  POWER may be NULL.  */
br__monomial *br__poly_put (br__normal *n, br__poly *p, uint64_t turn, const uint16_t *power, mpq_srcptr factor);
void br__poly_put_number (br__normal *n, br__poly *p, mpz_srcptr number);
/* P += FACTOR times 2 cos (360 degrees TURN / ORDER).  */
void br__poly_put_cosine (br__normal *n, br__poly *p, uint64_t turn, mpq_srcptr factor);
/* Terms that differ by their factor alone become one; those that cancel go.  */
void br__poly_gather (br__normal *n, br__poly *p);
/* Z += X * Y, or Z -= X * Y, not gathered.  */
void br__poly_add_product (br__normal *n, br__poly *z, const br__poly *x, const br__poly *y, int negate);
/* Roots that are there to their index become their radicands, and all is gathered.  */
void br__poly_tidy (br__normal *n, br__poly *p);
/* P, which may be one of the two, = X * Y.  */
void br__poly_multiply (br__normal *n, br__poly *p, const br__poly *x, const br__poly *y);
int br__poly_same (const br__poly *x, const br__poly *y);
/* 1 where nothing is left of P, which is changed.  */
int br__poly_cancels (br__normal *n, br__poly *p);

#endif
