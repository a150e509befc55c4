/* SPDX-License-Identifier: GPL-3.0-or-later
   schema.h - holds records against docs/benchrule.schema.json.  */
#ifndef BR_TESTS_SCHEMA_H
#define BR_TESTS_SCHEMA_H

#include <jansson.h>

#include "benchrule_sheet.h"

/* NULL, or what is wrong with RECORD, for people; valid until the next call.  Reads the schema from $srcdir/docs.  */
const char *schema_mistake (const json_t *record);
/* Ends the program, saying why, where RECORD is not what the schema says.  */
void schema_hold (const br_record *record);
/* The record that the schema calls NAME, "set" or "set.changed"; NULL: it has none.  */
const json_t *schema_of (const char *name);

#endif
