/* SPDX-License-Identifier: GPL-3.0-or-later
   session.h - one run of the program: a sheet, where its answers go, and how it stands.  */
#ifndef REPL_SESSION_H
#define REPL_SESSION_H

#include "benchrule_sheet.h"
#include "display.h"
#include "options.h"
#include "given.h"
#include "pager.h"
#include "recovery.h"
#include "show/text.h"

typedef struct session
{
  br_sheet *sheet;
  display out, err;
  int json;
  int goes_on;          /* the next input continues the previous one */
  text_printer text;
  pager pager;
  given given;
  int summary;            /* a sheet of the command line is opened with a summary, as the prompt follows */
  size_t faults;          /* mistakes told so far */
  int failed;             /* something could not be read or written, or no memory */
  int reason;             /* why an answer could not be written: errno, 0 where that went well */
  const volatile sig_atomic_t *interrupted;     /* at the prompt: Ctrl-C came during the work */
  recovery kept;          /* unsaved work, and work left by an earlier session */
  int saved;              /* a sheet was saved since this was last looked at */
  int more;               /* the next line is there already: what was answered may wait, and signals stay taken */
  int apart;              /* answers and mistakes go to two files */
  int begun;              /* signals are taken */
  int progress_width;     /* of the line of progress on standard error, 0: none */
} session;

/* The file name of what is typed at the prompt; its mistakes are reported without a file name.  */
extern const char session_prompt_name[];

/* 0, with a message, when memory ran out.  */
int session_start (session *s, const options *o);
void session_run (session *s, const char *text, size_t length, const char *file, size_t line);
void session_run_file (session *s, const char *path);
/* Tells of a mistake that the program found itself.  */
void session_fault (session *s, const br_fault *fault);
/* The exit status: 2 over 1 over 0.  Closes standard output.  */
int session_end (session *s);

#endif
