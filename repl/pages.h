/* SPDX-License-Identifier: GPL-3.0-or-later
   pages.h - where pages come from: a module with cairo and pango that is opened when the first page is
   asked for, so that nothing else waits for it.  */
#ifndef REPL_PAGES_H
#define REPL_PAGES_H

#include "benchrule_sheet.h"

/* For br_sheet_set_painter.  */
const br_painter *pages_find (void *user, br_error *error);

#endif
