/* SPDX-License-Identifier: GPL-3.0-or-later
   complete.h - the words that could go on from what is typed.  */
#ifndef REPL_COMPLETE_H
#define REPL_COMPLETE_H

#include <stddef.h>

/* A line_words (see line.h) for a session; USER is the session.  */
char **complete_words (void *user, const char *text, size_t point, size_t *start, int *file);

#endif
