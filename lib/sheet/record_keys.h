/* SPDX-License-Identifier: LGPL-3.0-or-later
   record_keys.h - which keys a record of a kind has.  */
#ifndef BR_SHEET_RECORD_KEYS_H
#define BR_SHEET_RECORD_KEYS_H

#include <stddef.h>

typedef struct br__record_keys
{
  const char *kind;             /* "set", or "set.changed" for the rows of a list in it */
  const char *const *keys;      /* in order; NULL ends them */
} br__record_keys;

/* The keys of records of KIND or, if INNER is not NULL, of the records in their list INNER; NULL: not in the table.  */
const br__record_keys *br__record_keys_of (const char *kind, const char *inner);
/* The row at INDEX of the table; NULL after the last.  */
const br__record_keys *br__record_keys_at (size_t index);

#endif
