/* SPDX-License-Identifier: LGPL-3.0-or-later
   guard.h - limits of time and memory for work on files from others; at a limit the work is stopped.  */
#ifndef BR_REPORT_GUARD_H
#define BR_REPORT_GUARD_H

#include <signal.h>

#include "benchrule.h"

/* For each piece of work.  */
#define BR__GUARD_SECONDS 10
#define BR__GUARD_MEBIBYTES 256

typedef struct br__guard br__guard;

/* OUTER, which may be NULL, ends all work, as Ctrl-C does.  */
br_status br__guard_new (br__guard **guard, const volatile sig_atomic_t *outer);
void br__guard_free (br__guard *guard);
/* Begins a piece of work; the flag is set when it must end.  */
const volatile sig_atomic_t *br__guard_begin (br__guard *guard);
void br__guard_end (br__guard *guard);
/* 1 once the piece of work must end, and why: "stopped after 10 s".  */
int br__guard_is_over (br__guard *guard);
const char *br__guard_reason (const br__guard *guard);

#endif
