/* SPDX-License-Identifier: GPL-3.0-or-later
   text.h - records as text for people.

   A record goes to the printer of its kind.  Kinds that make a table when several come
   one after the other are held back until another kind, a mistake or the end of the
   statement comes: text_flush.  */
#ifndef REPL_TEXT_H
#define REPL_TEXT_H

#include "benchrule_sheet.h"
#include "display.h"
#include "show/table.h"

/* How one kind is written.  ROW and HEADINGS: several of it make a table of which ROW adds
   one row; a single one goes to BLOCK, or is a table too where BLOCK is NULL.  */
typedef struct text_kind
{
  const char *kind;
  void (*block) (const display *d, const br_record *record);
  void (*row) (table *t, const display *d, const br_record *record);
  size_t columns;
  const char *const *headings;
  size_t keep;              /* leading columns that are cut last */
  /* 1 where RECORD ends the table; what it says of the whole, behind that, goes to D, which may be NULL.  */
  int (*end) (const display *d, const br_record *record);
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

/* The rows of the kinds, a file each; each ends with a kind of NULL.  */
extern const text_kind text_lessons[];
extern const text_kind text_values[];
extern const text_kind text_rounds[];
extern const text_kind text_columns[];
extern const text_kind text_sheets[];
extern const text_kind text_cuts[];
extern const text_kind text_designs[];
extern const text_kind text_templates[];
extern const text_kind text_tidies[];
extern const text_kind text_tools[];
extern const text_kind text_shapes[];
extern const text_kind text_views[];
extern const text_kind text_drawings[];

/* Pieces that the printers share: text_piece.c.  A char * that is returned is the caller's to
   free, and NULL when memory ran out.  */
int text_is_exact (const br_record *record);
/* 1 if what is shown says what the value was not told apart from.  */
int text_is_open (const br_record *record);
/* "=" before an exact value, the sign of "about" before another.  */
const char *text_equals (const display *d, const br_record *record);
void text_strong (const display *d, const char *text);
/* "  key  value" with KEY padded to a column.  */
void text_pair (const display *d, const char *key, const char *value);
/* "  from ASME B94.11M", or nothing where the record names no source.  */
void text_source (const display *d, const br_record *record);
/* "1 sheet", "3 sheets".  */
void text_count (const display *d, int64_t n, const char *one, const char *more);
/* A list of texts, commas between.  */
void text_names (const display *d, const br_list *names);
/* NAME and what is known of the value, once each: "7/8 + 1/2 = 1-3/8 = 1.375".  */
void text_value (const display *d, const br_record *record, const char *name);
/* The line of the mark, for a value that is on a ruler at all, and its end alone:
   ", over: error +3/100 = +0.03".  */
void text_mark (const display *d, const br_record *record);
void text_put_side (const display *d, const br_record *record);
/* "1/8", or "0.1 mm": the finest mark in the unit that the mark is written in.  */
char *text_ruler_name (const br_record *record);
#define TEXT_DIGITS 6         /* of a decimal for people */
/* An error as a fraction and a decimal, signed: "+3/100 = +0.03"; "0" for none.  */
char *text_error (const display *d, const char *error, const char *decimal, const char *typed);
char *text_record_error (const display *d, const br_record *record);
/* The same of the error under KEY, beside the mark under MARK.  */
char *text_error_of (const display *d, const br_record *record, const char *sheet, const char *mark, const char *key);
/* " by 3/100", the size of the error without its sign, or "" for none.  */
char *text_error_size (const display *d, const br_record *record);
/* An exact text as a mixed number, 19/8 as 2-3/8, or as it is where it is no number; and the
   exact field KEY as it is to be shown: the field KEY_shown, or else KEY as a mixed number.  */
char *text_mixed (const char *exact);
char *text_shown (const br_record *record, const char *key);
/* The same as a cell; NONE where there is nothing to show.  */
void text_add_shown (table *t, const display *d, const br_record *record, const char *key, const char *none);
/* "over", "under", "exact", or "" where that is not known.  */
const char *text_side (const br_record *record);
/* ", a tie" or "".  */
const char *text_tie (const br_record *record);
/* The unit that the mark is written in where that is not the sheet's, which its record counts in, else NULL; and the
   exact or decimal EXACT of RECORD in that unit, or as it is.  */
const br_unit *text_mark_unit (const br_record *record);
char *text_in_mark_unit (const br_record *record, const char *exact);

/* text_number.c.  1 where EXACT, a fraction or a mixed number, has denominators for people: of a ruler, of decimals, or
   one that was TYPED.  */
int text_is_short (const char *exact, const char *typed);
/* The same for an error: of a ruler of inches, or typed.  */
int text_is_part (const char *exact, const char *typed);
/* EXACT (or "") or else DECIMAL with at most so many DIGITS; *CUT: it is not the whole value.  */
char *text_digits (int *cut, const char *exact, const char *decimal, unsigned digits);
/* SHOWN, a text in shop notation, or a decimal where it is long: "≈ 0.748031 in".  */
char *text_short (const display *d, const char *shown, const char *typed);
/* TEXT, in which numbers of more digits are cut: "≈ 1.73205 mm x 9 mm".  To be freed.  */
char *text_cut (const display *d, const char *text);
void text_put_cut (const display *d, const char *text);
void text_add_cut (table *t, const display *d, const char *text);
/* NUMBER, an error or the like, with its sign, and cut where it is long: "+1/16", "≈ -0.123457".  To be freed.  */
char *text_signed (const display *d, const char *number);

/* text_draw.c: what people call VIEW of a record.  */
const char *text_view_words (const char *view);
/* Those of the PARTS of a drawing that it does not show.  */
void text_undrawn (const display *d, const br_list *parts);

#endif
