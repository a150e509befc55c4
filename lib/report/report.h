/* SPDX-License-Identifier: LGPL-3.0-or-later
   report.h - a sheet as one page of HTML.  Its sections are made from the records that the sheet's own
   statements answer with, so that nothing is worked out twice.  */
#ifndef BR_REPORT_REPORT_H
#define BR_REPORT_REPORT_H

#include "sheet/sheet.h"

enum
{
  BR__REPORT_DRAWING, BR__REPORT_MISSING, BR__REPORT_DIMENSIONS, BR__REPORT_CHECKS, BR__REPORT_CAUTIONS,
  BR__REPORT_PARTS, BR__REPORT_PLAN, BR__REPORT_SECTIONS
};

typedef struct br__report_section
{
  br_text body;                 /* rows of its table, or all of it */
  br_text remark;               /* the text if it has no rows, or in addition to them */
  size_t rows;
} br__report_section;

typedef struct br__report
{
  br__run *run;
  br__report_section sections[BR__REPORT_SECTIONS];
  int at;                       /* the section whose statement runs */
  size_t checks[4];             /* how many are in each br__check_state */
  size_t sticks;                /* that have been drawn */
  br_text settings;
  br_number scale;              /* of the drawing where the sheet has none, else 0 */
  int64_t room_height;          /* of the drawing, billionths of an inch; 0: as a page of its own has */
  struct br__plot *plot;        /* gets the drawing as well, without its table of places, to be cleared; or NULL */
} br__report;

/* report_rows.c: a cell, its text escaped, measures for eye and ear.  */
void br__report_cell (br_text *t, const char *text);
/* SHOWN, with at most six digits, or as a fraction that can be read; 1 where digits were cut.  */
int br__put_short_text (br_text *t, const char *shown);
/* report_figure.c: the side view, if there is a shape; a failure is reported in the run.  */
br_status br__report_figure (br__report *p);
/* How it stands on a page, and on paper at its scale.  */
#define BR__FIGURE_STYLE \
  ".check span{display:inline-block;box-sizing:border-box;height:.12in;border:solid #111;border-width:0 2px 2px}\n" \
  "@media print{.fit{min-width:0!important}}\n"
/* report_rows.c, report_cut.c: what a record adds.  */
void br__report_row (br__report *p, const br_record *r);
void br__report_parts (br__report *p, const br_record *r);
void br__report_plan (br__report *p, const br_record *r);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__report_statements[];
br_status br__do_report (br__run *run);

#endif
