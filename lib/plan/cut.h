/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut.h - plans for cutting parts out of stock, kerf counted.

   Everything here is in whole numbers: the caller brings the lengths of a job to a common
   denominator.  Each piece is counted with a kerf, and so is the stick.  So n pieces that fill a
   stick exactly need n - 1 kerfs, and n kerfs if an offcut remains.

   A plan comes with a lower bound for the number of sticks of any plan, which is proved in
   integers.  The caller's solver (br_solver) may guide the search with its prices and uses; its
   results are always checked.  */
#ifndef BR_PLAN_CUT_H
#define BR_PLAN_CUT_H

#include "benchrule_sheet.h"

/* With these limits no sum of sizes overflows.  */
#define BR__CUT_MAX_SIZE (INT64_C (1) << 44)
#define BR__CUT_MAX_PIECES 100000

/* How long to look.  Zero but for the time: no solver, no flag, no one to tell.  */
typedef struct br__cut_control
{
  const br_solver *solver;
  const volatile sig_atomic_t *flag;    /* stop early when it is not 0 */
  int64_t milliseconds;                 /* at most; first fit is always tried */
  void *user;
  void (*progress) (void *user, const char *what, int percent);
  int64_t began, told;                  /* set by br__cut_begin */
} br__cut_control;

void br__cut_begin (br__cut_control *c);
int64_t br__cut_elapsed (const br__cut_control *c);
/* 1 once time is up or the flag is raised.  */
int br__cut_stop (const br__cut_control *c);
/* Says now and then what is being tried.  */
void br__cut_tell (br__cut_control *c, const char *what);

/* Which pieces come from which stick: those of stick I are TYPE[START[I]] up to START[I + 1].  */
typedef struct br__cut_plan
{
  size_t sticks;
  size_t *start;
  uint32_t *type;
  int64_t least;        /* no plan needs fewer: proved */
  int stopped;          /* time was up or the flag raised before best and least met */
} br__cut_plan;

#define BR__CUT_PLAN_ZERO { 0, NULL, NULL, 0, 0 }

void br__cut_plan_clear (br__cut_plan *plan);

/* Cuts DEMAND[I] pieces of LENGTH[I], for I under COUNT, from sticks of STICK.  BR_DOMAIN: a length
   is not in 1 .. STICK (ERROR's offset is its index) or the kerf is not in 0 .. STICK - 1; BR_TOO_BIG past
   the limits above.  */
br_status br__cut_sticks (br__cut_plan *plan, int64_t stick, int64_t kerf, const int64_t *length,
                          const int64_t *demand, size_t count, br__cut_control *control,
                          br_error *error);

/* A piece on a board or sheet, from a corner: X along the length, Y across.  */
typedef struct br__cut_place
{
  size_t sheet;
  uint32_t type;
  int turned;           /* its length lies across */
  int64_t x, y;
} br__cut_place;

typedef struct br__cut_piece
{
  int64_t length, width, demand;
  int turn;             /* may lie across the grain */
} br__cut_piece;

typedef struct br__cut_layout
{
  br__cut_place *places;        /* sheet by sheet */
  size_t count, sheets;
  int64_t least;
  int stopped;
} br__cut_layout;

#define BR__CUT_LAYOUT_ZERO { NULL, 0, 0, 0, 0 }

void br__cut_layout_clear (br__cut_layout *layout);

/* Cuts PIECES from sheets of LENGTH by WIDTH with saw cuts that run through from edge to edge of what
   is being cut.  Errors as for br__cut_sticks.  */
br_status br__cut_sheets (br__cut_layout *layout, int64_t length, int64_t width, int64_t kerf,
                          const br__cut_piece *pieces, size_t count, br__cut_control *control,
                          br_error *error);

/* ---- Shared by the files of the planner ---- */

/* One row for each size, in descending order; sizes include the kerf.  */
typedef struct br__cut_job
{
  int64_t room;
  size_t types;
  int64_t *size, *demand;
  size_t pieces;
} br__cut_job;

/* The least number of sticks by sums and by pieces that cannot share one.  */
int64_t br__cut_bound (const br__cut_job *job);
/* First fit, longest first.  */
br_status br__cut_first_fit (br__cut_plan *plan, const br__cut_job *job);
/* Each stick around its longest piece as full as can be.  */
br_status br__cut_fullest (br__cut_plan *plan, const br__cut_job *job, const br__cut_control *c);
/* Tries all ways of up to 64 pieces, to a limit.  BEST gets better or stays; *LEAST may rise to it.  */
br_status br__cut_all_ways (br__cut_plan *best, const br__cut_job *job, int64_t *least,
                            br__cut_control *c);
/* Patterns and prices by the solver.  */
br_status br__cut_by_patterns (br__cut_plan *best, const br__cut_job *job, int64_t *least,
                               br__cut_control *c);

/* The choice of types (at most LIMIT of each) within ROOM that is worth most at PRICES.  VALUE is what
   COUNTS are worth; no choice is worth more than BOUND.  */
br_status br__cut_fill (int64_t *value, int64_t *bound, uint32_t *counts, const br__cut_job *job,
                        const int64_t *prices, const int64_t *limit, int64_t room);

#endif
