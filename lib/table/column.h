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

/* How to process the cells of a column.  Read-only while threads work on blocks.  */
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
  char separator;             /* between its cells */
  int commas;                 /* its decimals have a comma */
  size_t width;               /* cells in the first row */
  size_t names;               /* the column of what has these sizes, from 1; 0: there is none */
  int begun;                  /* the first row has been looked at */
  const br_unit *head;        /* the unit of plain cells, by the column's heading, or NULL */
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

#define BR__PUSHED_TOLD 20          /* lines that a total took off their nearest mark, reported one by one */

/* A mark that a total took off the nearest one; of a length in inches.  */
typedef struct br__pushed
{
  size_t line;
  int length;
  br_number mark, nearest;
} br__pushed;

/* Numbers of one denominator, added up without a common divisor being sought: a column has few denominators.  */
typedef struct br__pile
{
  int64_t den;                /* 0: there are none */
  int64_t num;                /* NUM / DEN need not be in lowest terms */
} br__pile;

#define BR__PILES 256

/* A sum is TOTAL and all its piles, of which each denominator has one place.  */
typedef struct br__column_sum
{
  br_number total;
  br__pile piles[BR__PILES];
} br__column_sum;

/* The sums of the values and of the marks of rows.  All zero bits: no rows.  */
typedef struct br__column_sums
{
  br__column_sum exact[2], marks[2];  /* of plain numbers, and of lengths in inches */
  int lengths;                    /* there are some of those */
  int too_long;                   /* the sums have more digits than anybody reads, and are not gone on with */
  br_number worst, worst_mark;    /* the largest error, in the sheet's unit, and the mark that has it */
  br_number worst_size;           /* |worst| */
  size_t worst_line;              /* from 1; 0: no row has a mark */
  int worst_length;
  size_t around;                  /* cells with more in them than a measure */
  size_t pushed_count, pushed_told;
  br__pushed pushed[BR__PUSHED_TOLD];
} br__column_sums;

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
  br__column_sums sums;
  br_status status;
} br__block;

/* column_sums.c.  A row at LINE, from 1: EXACT and its MARK, in inches where LENGTH; ERROR in the sheet's unit.  */
br_status br__sums_row (br__column_sums *s, const br_number *exact, const br_number *mark, const br_number *error,
                        int length, size_t line);
/* MARK is not the nearest one; marks are SIZE apart.  */
br_status br__sums_push (br__column_sums *s, const br_number *mark, const br_number *error, const br_number *size,
                         int length, size_t line);
/* FROM, whose lines come after LINES others, which it clears.  */
br_status br__sums_join (br__column_sums *to, br__column_sums *from, size_t lines);
/* The totals of numbers and marks, in inches where S->lengths, of which UNIT are one of a plain number.  */
br_status br__sums_total (br_number *exact, br_number *marks, const br__column_sums *s, const br_number *unit);
void br__sums_clear (br__column_sums *s);

/* column_head.c: what the first row says, which begins at AT.  The column called NAMED, with or without the unit
   that its heading has.  */
br_status br__column_find (size_t *index, const char *named, size_t named_length, const char *at, const char *end,
                           int last, char separator, br_error *error);
/* The unit in the heading of ROW's cell, as in `length (mm)`, or NULL.  */
br_status br__column_unit (const br_unit **unit, const br__csv_row *row);
/* The column, from 1, with the names of what the column INDEX has the sizes of; 0 where there is no other.  */
br_status br__column_of_names (size_t *number, size_t index, const char *at, const char *end, int last, char separator);

/* Adds to R the separator of the cells of C, if it is not a comma, and whether decimals have commas.  */
void br__put_cells_by (br_record *r, const br__column *c);
/* column_cells.c.  The value of the column's cell in ROW, in inches for a length.  ERROR is placed in
   the cell's bytes; X is 0 then.  */
br_status br__column_value (br_number *x, br_dimension *dimension, const br__column *c, br__block *b,
                            const br__csv_row *row, br_error *error);
/* Works on B: its rows go to B->out with their new cells.  */
void br__column_rows (br__block *b, const br__column *c);
void br__bads_clear (br__bads *bads);

/* The result of a column.  */
typedef struct br__column_result
{
  size_t rows, marks;
  br__bads bads;
  char *name;                 /* of the column, or NULL where there is no header */
  br__column_sums sums;
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
/* name_column.c */
br_status br__do_name (br__run *run);

#endif
