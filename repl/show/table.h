/* SPDX-License-Identifier: GPL-3.0-or-later
   table.h - rows of cells that are written in columns, cut to the display's width.  */
#ifndef REPL_TABLE_H
#define REPL_TABLE_H

#include <stddef.h>

#include "display.h"

#define TABLE_COLUMNS 8

typedef struct table
{
  size_t columns;
  size_t keep;          /* so many leading columns are cut last */
  char **cells;         /* rows * columns, each its own block */
  size_t count, room;
  int failed;           /* memory ran out: what is there is still written */
} table;

#define TABLE_ZERO { 0, 0, NULL, 0, 0, 0 }

/* Begins with a row of headings, COLUMNS of them.  */
void table_start (table *t, size_t columns, const char *const *headings);
/* The next cell, row by row.  */
void table_add (table *t, const char *text);
void table_addf (table *t, const char *format, ...) __attribute__ ((format (printf, 2, 3)));
size_t table_rows (const table *t);         /* without the headings */
/* Columns that are empty in every row are left out; where the rest is too wide, the widest is cut.  */
void table_put (const table *t, const display *d);
void table_clear (table *t);

#endif
