/* SPDX-License-Identifier: LGPL-3.0-or-later
   review.h - reviews the designs of a class: checks of each sheet, and the rules of a teacher.  */
#ifndef BR_REPORT_REVIEW_H
#define BR_REPORT_REVIEW_H

#include "draw/drawing.h"
#include "report/report.h"

/* The lists of findings about one design; each finding is one line of text.  */
typedef enum br__finding
{
  BR__FINDING_MISTAKE,          /* a wrong line, with its number */
  BR__FINDING_MISSING,          /* a name that has no value, and who needs it */
  BR__FINDING_WAITING,          /* a dimension or shape that waits */
  BR__FINDING_FAILS,            /* a check of the student's that fails or is not decided */
  BR__FINDING_RULE,             /* one of the teacher's */
  BR__FINDING_OFF_RULER,        /* a size that lies on no mark */
  BR__FINDING_UNPLACED,         /* a part that does not come out of the stock */
  BR__FINDING_CAUTION,
  BR__FINDING_NOT_RUN,          /* a line that touches a file, which is no mistake */
  BR__FINDING_HOLDS,            /* a check or a rule that holds */
  BR__FINDINGS
} br__finding;

typedef struct br__design
{
  char *path;
  br_text title, drawing, figure;       /* "complete" ...; the picture as SVG in HTML */
  br__plot plot;                        /* and for paper */
  br_text *found[BR__FINDINGS];
  size_t count[BR__FINDINGS], room[BR__FINDINGS];
  size_t dimensions, shapes, waiting_shapes;
  int read;                             /* the file could be read */
} br__design;

/* findings.c */
const char *br__finding_key (br__finding f);
/* "lines with a mistake" ...: the heading of a list.  */
const char *br__finding_heading (br__finding f);
/* A line of the list F of D.  */
void br__design_add (br__design *d, br__finding f, const char *format, ...) __attribute__ ((format (printf, 3, 4)));

void br__design_clear (br__design *d);

/* What comes first of what there is to do.  */
#define BR__TO_DO 9
extern const br__finding br__to_do[BR__TO_DO];
/* How much there is to mend; a size between two marks is no mistake.  */
size_t br__to_mend (const br__design *d);
/* How many lines a list of D has on a student's page, so that it goes on one side.  */
size_t br__lines_each (const br__design *d);
/* review_page.c: a PDF with a page for each student.  */
br_status br__review_pdf (const char *path, const br__design *designs, size_t count, br__run *run);
/* review_write.c: the files, by the ending of PATH.  */
br_status br__review_write (const char *path, const br__design *designs, size_t count, br__run *run);
/* statements.c */
br_status br__do_review (br__run *run);
br_status br__do_must (br__run *run);

#endif
