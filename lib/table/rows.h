/* SPDX-License-Identifier: LGPL-3.0-or-later
   rows.h - reads tables of teachers: names, answers, keys, points.  The separator is the comma, semicolon or
   tab, whichever is most frequent in the first row.  The encoding is UTF-8, UTF-16 with a byte order mark, or else
   Windows-1252 (which older spreadsheets write: common practice, no source).  */
#ifndef BR_TABLE_ROWS_H
#define BR_TABLE_ROWS_H

#include "benchrule.h"
#include "exact/text.h"
#include "file/csv.h"

/* Cells are trimmed and end with NUL; no cell is NULL.  */
typedef struct br__row
{
  char **cells;
  size_t count;
  size_t line;          /* of its first character, from 1 */
  size_t first;         /* index of its first cell among all */
} br__row;

typedef struct br__rows
{
  char *bytes;          /* the buffer that the cells point into */
  char **cells;
  br__row *rows;
  size_t count;
} br__rows;

#define BR__ROWS_ZERO { NULL, NULL, NULL, 0 }

void br__rows_clear (br__rows *r);
/* Rows with nothing in them are left out.  Errors have the line in their message.  */
br_status br__rows_read (br__rows *r, const char *path, br_error *error);
/* From BYTES, which are taken over.  PATH is for messages.  */
br_status br__rows_take (br__rows *r, char *bytes, size_t length, const char *path, br_error *error);
/* The column whose heading is one of WORDS (parted by blanks, any case), or else has one, or SIZE_MAX.  */
size_t br__rows_column (const br__rows *r, const char *words);
/* 1 if LENGTH bytes at CELL are one of WORDS, any case.  */
int br__is_among (const char *cell, size_t length, const char *words);
/* The cell, or "" where the row is short or COLUMN is SIZE_MAX.  */
const char *br__row_cell (const br__row *row, size_t column);

/* mark.c: 1 if A and B are one name: capitals and blanks do not count.  */
int br__same_name (const char *a, const char *b);
/* mark.c: a hash, which is the same where two names are one.  */
uint64_t br__name_like (const char *name);
/* 1 where CELL is a whole number from 1 on and nothing else.  */
int br__cell_is_number (const char *cell);
/* The names in the file: the column called name or student, or else the first.  */
br_status br__names_read (char ***names, size_t *count, const char *path, br_error *error);

#endif
