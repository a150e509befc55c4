/* SPDX-License-Identifier: LGPL-3.0-or-later
   settings.h - the settings of a sheet: unit, ruler, scale, grid, ties, feet and others.  */
#ifndef BR_FORMULA_SETTINGS_H
#define BR_FORMULA_SETTINGS_H

#include "benchrule.h"
#include "exact/text.h"

#define BR__CHILD_NOT_SAID (-2)
#define BR__NO_CHILD (-1)

typedef struct br__settings
{
  const br_unit *unit;        /* in, mm, cm or ft */
  br_number ruler;            /* the finest mark, in ruler_unit or plain */
  const br_unit *ruler_unit;  /* NULL: plain */
  int ruler_given;            /* else it follows the unit */
  br_number scale;            /* drawn / full */
  int scale_given;            /* else drawings choose their own */
  br_number grid;             /* inches; 0 until given */
  const br_unit *grid_unit;
  br_number kerf;             /* inches; 0 until given */
  const br_unit *kerf_unit;
  br_ties ties;
  int feet;
  unsigned bits;              /* precision limit */
  int child;                  /* for whom it is made: BR__CHILD_NOT_SAID, BR__NO_CHILD or months */
  br_number blade;            /* width of the band-saw blade in inches; 0 until given */
  const br_unit *blade_unit;
  const struct br__paper *paper;        /* NULL until given */
  br_number margin;           /* inches, all around */
  const br_unit *margin_unit; /* NULL until given */
  int projection;             /* of drawings with several views: 0 until given, 1: first angle, 3: third */
} br__settings;

br_status br__settings_start (br__settings *s);
void br__settings_clear (br__settings *s);
br_status br__settings_copy (br__settings *z, const br__settings *x);

/* Inches in one of the sheet's unit, to the power DIMENSION (1 for plain and angles).  */
br_status br__settings_factor (br_number *factor, const br__settings *s, br_dimension dimension);
/* "" in, sq in, cu in, in^4, deg ... as the JSON output names it.  */
void br__put_unit_name (br_text *t, const br__settings *s, br_dimension dimension);
br_style br__settings_style (const br__settings *s);

/* A mark to round to: SIZE in inches if LENGTH, else plain.  UNIT is how marks on it are
   written, NULL for the sheet's own.  */
typedef struct br__mark
{
  br_number size;
  int length;
  const br_unit *unit;
} br__mark;

#define BR__MARK_ZERO { BR_NUMBER_ZERO, 0, NULL }

/* *MARK = the mark written as the number SIZE with UNIT (NULL: a plain number).  */
br_status br__mark_from (br__mark *mark, const br__settings *s, const br_number *size,
                         const br_unit *unit);
br_status br__mark_copy (br__mark *z, const br__mark *x);
br_status br__settings_mark (br__mark *mark, const br__settings *s);

/* 1 where views are drawn in first-angle projection: as given, else on metric sheets.  */
int br__first_angle (const br__settings *s);
/* 1 where the unit is in or ft.  */
int br__settings_are_inches (const br__settings *s);
/* The paper that was given, else letter, and A4 where units are metric.  */
const struct br__paper *br__settings_paper (const br__settings *s);
/* Its margin in inches, and how that is written: as given, else 1/2 in, and 10 mm on ISO paper.  */
br_status br__settings_margin (br_number *margin, const br_unit **unit, const br__settings *s);

#endif
