/* SPDX-License-Identifier: GPL-3.0-or-later
   complete.h - completion of the typed text.  */
#ifndef REPL_COMPLETE_H
#define REPL_COMPLETE_H

#include <stddef.h>

/* A line_words (see line.h) for a session; USER is the session.  */
char **complete_words (void *user, const char *text, size_t point, size_t *start, int *file);

#endif
