/* SPDX-License-Identifier: LGPL-3.0-or-later
   compile.h - compiles a formula of a sheet to a program.  */
#ifndef BR_SHEET_COMPILE_H
#define BR_SHEET_COMPILE_H

#include "formula/program.h"
#include "sheet/sheet.h"

/* What a name is to a program: worked out from its formula, a name to be varied, or as it stands.  */
typedef enum br__role { BR__ROLE_FORMULA, BR__ROLE_INPUT, BR__ROLE_FIXED } br__role;

typedef struct br__program_names
{
  void *user;
  br__role (*role) (void *user, br__entry *e);
  /* The dimension of an input; NULL: that of its value.  */
  br_dimension (*dimension) (void *user, br__entry *e);
} br__program_names;

/* Compiles LEFT, less RIGHT where RIGHT is not NULL, into the empty T.  Dimensions are checked here.  A
   name that has no value and does not come from an input is an error at its place, and T->missing; and
   so is what cannot be followed from an input: a power of a length that changes.  */
br_status br__program_compile (br__program *t, br_sheet *sheet, const br__tree *left, const br__tree *right,
                               const br__program_names *names, br_error *error);

#endif
