/* SPDX-License-Identifier: LGPL-3.0-or-later
   maker.h - builds formulas that were not typed.  Their text is a copy of the current line, so that an error in a typed part
   is reported with its place, followed by the other names that the formula needs.  An error is sticky: check it once, at
   the end.  */
#ifndef BR_SHEET_MAKER_H
#define BR_SHEET_MAKER_H

#include "geometry/shape_call.h"
#include "sheet/graph.h"

typedef struct br__maker
{
  br__graph *graph;
  br__tree tree;
  size_t offset, length;        /* where errors of what was not typed are placed */
  size_t name, name_length;     /* of the shape that was named last, in the text of TREE */
  int share_name;               /* it stands there once for several of its numbers: no formula that is explained */
  br_status status;
} br__maker;

/* Appends the nodes of FROM, SHIFT bytes further; their `first` is left as it was.  */
br_status br__tree_append (br__tree *t, const br__tree *from, size_t shift);

/* Over LENGTH bytes of TEXT, of which errors get those from OFFSET on.  */
void br__maker_start (br__maker *m, br__graph *g, const char *text, size_t length, size_t offset);
/* Appends the typed formula U.  */
void br__make_typed (br__maker *m, const br__tree *u);
void br__make_int (br__maker *m, int64_t n);
/* OP on the two values before it, BR__OP_NEG on one.  */
void br__make_op (br__maker *m, br__op op);
void br__make_call (br__maker *m, br__shape_call call);
/* The same on COUNT values.  */
void br__make_call_of (br__maker *m, br__shape_call call, unsigned count);
/* Appends a call of FUNCTION with one argument.  */
void br__make_function (br__maker *m, const br__function *function);
/* Number PART of the shape that LENGTH bytes at NAME call.  */
void br__make_shape_number (br__maker *m, const char *name, size_t length, int part);
/* Takes the tree of M as the definition *D.  */
br_status br__maker_end (br__definition **d, br__maker *m, br_error *error);

#endif
