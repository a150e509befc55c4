/* SPDX-License-Identifier: GPL-3.0-or-later
   solver.h - GLPK as the solver of cutting plans.  It is the program's and not the library's, for its
   licence is the GPL, and it reckons in doubles, which the library never does.  */
#ifndef REPL_SOLVER_H
#define REPL_SOLVER_H

#include "benchrule_sheet.h"

extern const br_solver solver_glpk;
/* That or, in a program built without it, NULL.  */
#ifdef HAVE_GLPK
# define SOLVER (&solver_glpk)
#else
# define SOLVER NULL
#endif

#endif
