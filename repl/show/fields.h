/* SPDX-License-Identifier: GPL-3.0-or-later
   fields.h - numbers that stand in a record as texts.  */
#ifndef REPL_FIELDS_H
#define REPL_FIELDS_H

#include "benchrule.h"

/* -1, 0, 1: the sign of a number's text; 0 also for "".  */
int field_sign (const char *number);
/* Reads an exact or a decimal number; 0 where TEXT is none.  */
int field_number (br_number *z, const char *text);

#endif
