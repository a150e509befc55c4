/* SPDX-License-Identifier: LGPL-3.0-or-later
   column.h - a column of a CSV file put on a ruler: blocks of whole rows, each worked on by itself, so that
   several can be at once, and written in their order.  */
#ifndef BR_TABLE_COLUMN_H
#define BR_TABLE_COLUMN_H

#include "file/csv.h"
#include "file/output.h"
#include "sheet/sheet.h"

#define BR__SLACK 16                /* bytes that may be copied behind the end of a row */
#define BR__BAD_TOLD 20             /* cells that are not measures, reported one by one */

typedef enum br__column_size { BR__AS_IT_IS, BR__FULL_SIZE, BR__DRAWN_SIZE } br__column_size;

/* What is done with the cells of a column.  While blocks are worked on nobody changes it.  */
typedef struct br__column
{
  const br__settings *settings;
  br__column_size asked;
  br__mark mark;
  br_direction direction;
  br_number sizes[2];         /* of the mark: for plain numbers, for lengths in inches */
  const br_number *grid;      /* the size of a box, or NULL */
  br_number unit;             /* inches in the sheet's unit */
  int lengths;                /* plain numbers are lengths in the sheet's unit */
  size_t index;               /* of the column, from 0 */
  size_t width;               /* cells in the first row */
  const br_number *kept;      /* where a total is kept: the marks, in order; else NULL */
} br__column;

/* A cell, or a row, that got no mark.  */
typedef struct br__bad
{
  size_t line;                /* in its block from 0, in the file from 1 once it is merged */
  char *text;                 /* the line */
  size_t length;
  br_error error;
} br__bad;

typedef struct br__bads
{
  size_t count, told;         /* only TOLD of them are in ROWS */
  br__bad rows[BR__BAD_TOLD];
} br__bads;

typedef struct br__block
{
  char *in;                   /* whole rows, from START on not yet worked on; BR__SLACK bytes behind them */
  size_t start, length, room;
  int last;                   /* nothing comes behind it */
  int done;
  br_text out;
  br_text cell, shown;        /* aside, for cells with quotes */
  size_t first;               /* marks made before it, where a total is kept */
  size_t rows, marks, lines;
  br__bads bads;
  br_status status;
} br__block;

/* column_cells.c.  The value of the column's cell in ROW, in inches for a length.  ERROR is placed in
   the cell's bytes.  */
br_status br__column_value (br_number *x, br_dimension *dimension, const br__column *c, br__block *b,
                            const br__csv_row *row, br_error *error);
/* Works on B: its rows go to B->out with their new cells.  */
void br__column_rows (br__block *b, const br__column *c);
void br__bads_clear (br__bads *bads);

/* What became of a column.  */
typedef struct br__column_result
{
  size_t rows, marks;
  br__bads bads;
  char *name;                 /* of the column, or NULL where there is no header */
  br_number sum, total;       /* where the total is kept: exact, and on its mark */
  int length;                 /* these are inches */
} br__column_result;

/* column_pump.c.  The column NAMED (a text), or NUMBER from 1 where NAMED is NULL, of the file SOURCE, into
   the file TARGET; NULL for the standard streams.  */
typedef struct br__place
{
  size_t start, end;          /* in the line */
} br__place;

typedef struct br__column_job
{
  br__run *run;
  const char *source, *target;
  const char *named;
  size_t named_length, number;
  int keep_total;
  br__place at_column, at_source, at_target;
  br__place blame;            /* the one that an error belongs to */
  br__column column;
} br__column_job;

br_status br__column_pump (br__column_result *result, br__column_job *job);

/* column.c: the statement is `round column`, `full column` or `drawn column`.  */
int br__is_column (const br__run *run);
br_status br__do_column (br__run *run);

#endif
