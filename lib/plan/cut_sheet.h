/* SPDX-License-Identifier: LGPL-3.0-or-later
   cut_sheet.h - what the files that plan sheets share.  */
#ifndef BR_PLAN_CUT_SHEET_H
#define BR_PLAN_CUT_SHEET_H

#include "plan/cut.h"

typedef struct br__sheet_job
{
  int64_t length, width, kerf;
  br__cut_piece *pieces;
  size_t count, total;          /* rows, and pieces of all rows */
  int turns;                    /* a piece may be turned */
} br__sheet_job;

static inline int
br__cut_goes_in (int64_t length, int64_t width, int64_t room, int64_t side)
{
  return length <= room && width <= side;
}

br_status br__cut_in_strips (br__cut_layout *layout, const br__sheet_job *job, br__cut_control *control);
/* Ends early when LEAST is reached.  */
br_status br__cut_from_corners (br__cut_layout *layout, const br__sheet_job *job, int64_t least,
                                br__cut_control *control);
/* The best plan of a job of few pieces, with LEAST its number of sheets.  LAYOUT stays empty where there are too
   many ways to part the pieces, or time is up.  */
br_status br__cut_small (br__cut_layout *layout, const br__sheet_job *job, br__cut_control *control);

#endif
