/* SPDX-License-Identifier: LGPL-3.0-or-later
   record.h - making records.  If memory runs out, later calls do nothing and the failure is reported at the
   end, by br__record_failed.  Texts are copied, keys must be literals.  */
#ifndef BR_SHEET_RECORD_H
#define BR_SHEET_RECORD_H

#include "benchrule_sheet.h"
#include "exact/text.h"

br_record *br__record_new (const char *kind);        /* NULL when memory ran out; all calls take NULL */
void br__record_free (br_record *r);
int br__record_failed (const br_record *r);

void br__put_null (br_record *r, const char *key);
void br__put_truth (br_record *r, const char *key, int truth);
void br__put_count (br_record *r, const char *key, int64_t count);
void br__put_text (br_record *r, const char *key, const char *text);
void br__put_bytes (br_record *r, const char *key, const char *bytes, size_t length);
/* Puts what T holds and clears it; a failed T makes the record failed.  */
void br__put_from (br_record *r, const char *key, br_text *t);
/* The same with a copy, T stays.  */
void br__put_copy (br_record *r, const char *key, const br_text *t);
void br__put_exact (br_record *r, const char *key, const br_number *x);     /* NULL: null */

/* The list or record inside R, to be filled before the next call on R.  */
br_list *br__put_list (br_record *r, const char *key);
void br__list_text (br_list *l, const char *text);
void br__list_bytes (br_list *l, const char *bytes, size_t length);
void br__list_from (br_list *l, br_text *t);
br_record *br__list_record (br_list *l);

#endif
