/* SPDX-License-Identifier: GPL-3.0-or-later
   json.h - records and mistakes as JSON, one object a line.  */
#ifndef REPL_JSON_H
#define REPL_JSON_H

#include <stdio.h>

#include <jansson.h>

#include "benchrule_sheet.h"

/* NULL when memory ran out.  */
json_t *json_of_record (const br_record *record);
/* Both return 0 when memory ran out; what was not written shows at the end in STREAM.  */
int json_put_record (FILE *stream, const br_record *record);
int json_put_fault (FILE *stream, const br_fault *fault);

#endif
