/* SPDX-License-Identifier: GPL-3.0-or-later
   text.h - records as text for people.

   A record goes to the printer of its kind.  Kinds that make a table when several come
   one after the other are held back until another kind, a mistake or the end of the
   statement comes: text_flush.  */
#ifndef REPL_TEXT_H
#define REPL_TEXT_H

#include "benchrule.h"
#include "display.h"
#include "table.h"

/* How one kind is written.  ROW and HEADINGS: several of it make a table of which ROW adds
   one row; a single one goes to BLOCK, or is a table too where BLOCK is NULL.  */
typedef struct text_kind
{
  const char *kind;
  void (*block) (const display *d, const br_record *record);
  void (*row) (table *t, const display *d, const br_record *record);
  size_t columns;
  const char *const *headings;
} text_kind;

typedef struct text_printer
{
  const display *display;
  const text_kind *held;    /* the kind of the rows that wait, or NULL */
  table rows;
  char *single;             /* the block of the first of them */
  int failed;               /* memory ran out */
} text_printer;

#define TEXT_PRINTER_ZERO { NULL, NULL, TABLE_ZERO, NULL, 0 }

void text_put (text_printer *printer, const br_record *record);
void text_flush (text_printer *printer);
void text_clear (text_printer *printer);

/* The rows of the kinds; each ends with a kind of NULL.  text_value.c, text_sheet.c: */
extern const text_kind text_values[];
extern const text_kind text_sheets[];
extern const text_kind text_shops[];

/* Pieces that the printers share.  text_value.c: */
/* "= " before an exact value, the sign of "about" before another.  */
const char *text_equals (const display *d, const br_record *record);
/* An error as a fraction and a decimal, signed: "+3/100 = +0.03"; "0" for none.  The caller
   frees it; NULL when memory ran out.  */
char *text_error (const display *d, const char *error, const char *decimal);
/* The exact field KEY as it is to be shown: the field KEY_shown, or else KEY as a mixed number,
   19/8 as 2-3/8; "" where there is none.  As above.  */
char *text_shown (const br_record *record, const char *key);
/* "over", "under", "exact", or "" where that is not known.  */
const char *text_side (const br_record *record);
/* "  key  value" with KEY padded to a column.  */
void text_pair (const display *d, const char *key, const char *value);
/* A list of texts, commas between.  */
void text_names (const display *d, const br_list *names);

#endif
