/* SPDX-License-Identifier: LGPL-3.0-or-later
   csv.h - rows and cells of CSV (RFC 4180, also with semicolons or tabs instead of commas) and their positions in a text,
   so that other cells can be copied byte for byte.

   A cell that begins with a quote ends at the next quote that is not doubled and may contain line breaks and
   commas; a quote anywhere else is an ordinary character (2-3/8").  A row ends with LF or
   CR LF; the last one may end with the text.  */
#ifndef BR_FILE_CSV_H
#define BR_FILE_CSV_H

#include "benchrule.h"
#include "exact/text.h"

typedef struct br__csv_row
{
  const char *start, *end;        /* without its line end */
  const char *next;               /* behind its line end */
  const char *cell, *cell_end;    /* the cell asked for, with its quotes; NULL where there is none */
  size_t cells;
  size_t breaks;                  /* line feeds inside its cells */
  int open;                       /* a quote is not closed: the row is all that is left */
} br__csv_row;

/* The separator of the cells of TEXT, from its first rows: a comma, a semicolon or a tab.  */
char br__csv_separator (const char *text, size_t length);
/* 1 where cells of the column WANTED are decimals with a comma for certain, 12,5: some have other than three digits behind
   the comma, and none has a point.  */
int br__csv_decimal_commas (const char *text, size_t length, size_t wanted, char separator);
/* The row at AT, which is before END, and cell WANTED of it, from 0.  0 where its end lies behind END;
   with LAST nothing comes behind END.  */
int br__csv_next (br__csv_row *row, const char *at, const char *end, size_t wanted, int last, char separator);
/* The end of the cell at P, a separator, a line feed or END; NULL where it lies behind END.  ROW gets its line feeds and
   whether it is open.  */
const char *br__csv_cell_end (br__csv_row *row, const char *p, const char *end, int last, char separator);
/* The length of the rows that are whole in TEXT, which begins with a row; 0 for none.  */
size_t br__csv_whole (const char *text, size_t length, char separator);

/* Puts what the cell holds, its quotes taken off and doubled ones made single.  */
void br__csv_put_content (br_text *t, const char *cell, const char *cell_end);
/* Puts a cell that holds LENGTH bytes at BYTES, in quotes where it needs them.  */
void br__csv_put_cell (br_text *t, const char *bytes, size_t length, char separator);
/* A number's comma between digits, or NULL: 12,5, but not 1,234,5 and nothing with a point.  */
const char *br__decimal_comma (const char *text, size_t length);
/* Writes a cell so that no spreadsheet takes it for a formula, even if it splits cells at semicolons or tabs.  An apostrophe
   is put before = + - @ (also in full width), a tab or a line end at the start, and before = + - @ after a ; or a tab.
   Numbers are not changed.  Invisible characters, such as bidirectional controls, are escaped.  */
void br__put_cell (br_text *t, const char *text);
/* The bytes of the sign that begins a formula at S, or 0.  */
size_t br__formula_sign (const char *s);

#endif
