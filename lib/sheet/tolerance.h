/* SPDX-License-Identifier: LGPL-3.0-or-later
   tolerance.h - how far sizes may be off, and what that adds up to.  */
#ifndef BR_SHEET_TOLERANCE_H
#define BR_SHEET_TOLERANCE_H

#include "sheet/compile.h"

/* The tolerance of a name from a `tolerance` statement.  */
typedef struct br__tolerance
{
  br__value value;              /* half the band: a rational length or plain number, zero or more */
  char *text;                   /* as typed */
} br__tolerance;

void br__tolerance_free (br__tolerance *t);
void br__tolerances_free (br__graph *g);
void br__tolerance_swap (br__graph *g, br__change *change);
/* Reads the tolerance at the token at hand: VALUE and, to be freed, TEXT.  */
br_status br__read_tolerance (br__run *run, br__value *value, char **text);
/* Half the band and its text, borrowed; NULL where E has none.  */
const br__value *br__tolerance_given (const br__entry *e, const char **text);
/* HALF gets it in the unit of E's value (inches where that is a length).  */
br_status br__tolerance_half (br_number *half, br__entry *e, const br__settings *s, br_error *error);
/* 1 if any name of the sheet has one.  */
int br__tolerances_any (const br_sheet *sheet);
/* The names of a program: dimensions with a tolerance vary, and are not taken apart further, as it is they
   that are measured.  */
extern const br__program_names br__tolerance_names;

/* bounds.c: the range of a program if each input is off by at most its tolerance.  */
typedef struct br__bounds
{
  br_real nominal, low, high;
  int exact;                    /* LOW and HIGH are reached, else nothing goes past them */
  br_real met[2];               /* unless EXACT: near each of them a value that is reached */
  int linear;
} br__bounds;

#define BR__BOUNDS_ZERO { BR_REAL_ZERO, BR_REAL_ZERO, BR_REAL_ZERO, 1, { BR_REAL_ZERO, BR_REAL_ZERO }, 1 }

void br__bounds_clear (br__bounds *b);
/* VALUES and HALVES for each input.  BR_DOMAIN, said in ERROR: some sizes have no value.  */
br_status br__bounds_of (br__bounds *b, const br__program *t, const br_real *values, const br_number *halves,
                         br_error *error);
/* 1 in *REST if T has steps and none of them jumps for any sizes within the tolerances.  */
br_status br__steps_rest (int *rest, const br__program *t, const br_real *values, const br_number *halves);
/* The value and the tolerance of each input; free with br__inputs_free.  */
br_status br__inputs_of (br_real **values, br_number **halves, const br__program *t, br_error *error);
void br__inputs_free (br_real *values, br_number *halves, size_t count);

/* stack.c: how an end is put into a record.  */
typedef struct br__end_keys
{
  const char *exact, *decimal, *shown;
} br__end_keys;

/* X (in inches ...), which is an end that is reached where EXACT, else is written rounded outwards: up
   where UPPER.  */
br_status br__put_end (br_record *r, const br__end_keys *keys, const br_real *x, br_dimension dimension,
                       int exact, int upper, const br__settings *s);
/* Puts the worst margin of CHECK into R where tolerances bear on it, and sets what is known of it as cut.  R
   may be NULL.  */
br_status br__put_worst_margin (br_record *r, br_sheet *sheet, br__check *check);
/* After CHANGES, by which MOVES moved: checks that hold as drawn, and as cut may fail or are not known to hold.  */
br_status br__tell_worst_margins (br__run *run, const br__moves *moves, const br__changes *changes);

#endif
