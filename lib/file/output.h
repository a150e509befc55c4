/* SPDX-License-Identifier: LGPL-3.0-or-later
   output.h - writing a file piece by piece: a plain one appears whole under its name or not at
   all.  */
#ifndef BR_FILE_OUTPUT_H
#define BR_FILE_OUTPUT_H

#include "benchrule.h"

typedef struct br__output
{
  int fd;
  char *path;         /* links followed; NULL for standard output */
  char *beside;       /* what it is called until it is whole; NULL: it is written in place */
} br__output;

#define BR__OUTPUT_ZERO { -1, NULL, NULL }

/* PATH may be NULL: standard output, which stays open.  Devices and pipes are written in place; of a
   file that is replaced the rights are kept and a link is followed.  */
br_status br__output_open (br__output *o, const char *path, br_error *error);
br_status br__output_write (br__output *o, const char *bytes, size_t length, br_error *error);
/* Ends the file and gives it its name.  FLUSH: not before it is on disk, which takes its time.  */
br_status br__output_close (br__output *o, int flush, br_error *error);
/* Takes away what is not closed; after br__output_close there is nothing to do.  */
void br__output_drop (br__output *o);

#endif
