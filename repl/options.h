/* SPDX-License-Identifier: GPL-3.0-or-later
   options.h - what the command line asks for.  */
#ifndef REPL_OPTIONS_H
#define REPL_OPTIONS_H

#include <stddef.h>

#include "display.h"

typedef enum options_result { OPTIONS_RUN, OPTIONS_LEAVE, OPTIONS_WRONG } options_result;

typedef struct options
{
  char **sheets;              /* into argv */
  size_t sheet_count;
  const char **statements;    /* of -c, in order */
  size_t statement_count;
  int json;
  int interactive;            /* -i */
  unsigned jobs;              /* threads for a long column */
  int allow_files;            /* also to lines of sheet files */
  display_color color;
} options;

#define OPTIONS_ZERO { NULL, 0, NULL, 0, 0, 0, 1, 0, DISPLAY_AUTO }

/* LEAVE after --help or --version, which it has written to standard output; WRONG after a
   message on standard error.  */
options_result options_read (options *o, int argc, char **argv);
void options_clear (options *o);

#endif
