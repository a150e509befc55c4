/* SPDX-License-Identifier: LGPL-3.0-or-later
   cuts.h - the plans of a sheet's stocks, in whole numbers, and how they are shown.  */
#ifndef BR_WOOD_CUTS_H
#define BR_WOOD_CUTS_H

#include "wood/wood.h"
#include "plan/cut.h"

/* How long a plan is looked for where nothing else is said.  */
#define BR__PLAN_MILLISECONDS 5000

/* A piece in a stick: X along, Y across, in units of the job.  */
typedef struct br__plan_piece
{
  size_t part;                  /* index in the list of parts */
  int turned;
  int64_t x, y, length, width;
} br__plan_piece;

typedef struct br__plan_stick
{
  size_t first, count;          /* among the pieces of its plan */
  int64_t end;                  /* where the last piece along it ends */
} br__plan_stick;

/* The plan of one stock.  A unit is one UNITth of an inch.  */
typedef struct br__stock_plan
{
  br_number unit;               /* inches in a unit of the job */
  int64_t length, width, kerf;
  int flat;                     /* pieces lie side by side, too */
  br__plan_piece *pieces;
  br__plan_stick *sticks;       /* those at hand, then those that would be needed */
  size_t needed, used;
  int64_t least;
  int stopped;
} br__stock_plan;

typedef struct br__plans
{
  br__stock_plan *rows;         /* one for each stock */
  size_t count;
} br__plans;

void br__plans_clear (br__plans *p);
/* Plans every stock (ONLY: that one alone) for the parts that have no problem.  */
br_status br__plan_all (br__plans *p, br__run *run, const br__wood_list *list, const br__wood *only,
                        int64_t milliseconds);

/* cut_show.c: the record.  */
br_status br__plans_show (br__run *run, const br__wood_list *list, const br__plans *p, const br__wood *only);

/* wood_show.c */
br_status br__read_count (br__run *run, int64_t *count, int64_t low, int64_t high, const char *what);
/* An error where LIST has no part.  */
br_status br__need_parts (br__run *run, const br__wood_list *list);
/* VALUE gets the mark on the sheet's ruler MARK that INCHES goes to.  */
br_status br__mark_of (br_number *value, br__mark *mark, const br_number *inches, br_direction direction,
                       const br__settings *s);

#endif
