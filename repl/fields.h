/* SPDX-License-Identifier: GPL-3.0-or-later
   fields.h - short ways to the fields of a record.  */
#ifndef REPL_FIELDS_H
#define REPL_FIELDS_H

#include "benchrule.h"

/* The text of the field called KEY, "" where there is no such text.  */
const char *field_text (const br_record *record, const char *key);
int field_truth (const br_record *record, const char *key);
/* NULL where there is no such list; fields_in says how long, 0 for NULL.  */
const br_list *field_list (const br_record *record, const char *key);
size_t fields_in (const br_list *list);
/* The text or record at INDEX of a list; "" or NULL where it is another thing.  */
const char *field_text_at (const br_list *list, size_t index);
const br_record *field_record_at (const br_list *list, size_t index);
/* -1, 0, 1: the sign of a number's text; 0 also for "".  */
int field_sign (const char *number);
/* Reads an exact or a decimal number; 0 where TEXT is none.  */
int field_number (br_number *z, const char *text);

#endif
