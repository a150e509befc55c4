/* SPDX-License-Identifier: LGPL-3.0-or-later
   output.h - writing a file piece by piece: a plain one appears whole under its name or not at
   all, and never in place of one that should stay.  */
#ifndef BR_FILE_OUTPUT_H
#define BR_FILE_OUTPUT_H

#include "file/content.h"
#include "file/file.h"

typedef struct br__output_rules
{
  br__content content;            /* what is written: a file of other content stays */
  int over;                       /* the user allows to replace any file there */
  int in_place;                   /* into the file itself, which keeps its owner and its other names; where that fails, it gets
                                     back what it held */
  const char *const *spared;      /* files that must stay, under whatever name; NULL among them is nothing */
  size_t spared_count;
} br__output_rules;

typedef struct br__output
{
  int fd;
  char *path;         /* links followed; NULL for standard output */
  char *folder;       /* that it is in, or NULL */
  char *beside;       /* what it is called until it is whole, or NULL */
  int nameless;       /* it has no name until it is whole */
  int replaces;       /* OLD is the file that gives way */
  char *before;       /* what is written over in place, until that is done; or NULL */
  size_t before_length;
  off_t length;       /* that is written */
  int begun;
  struct stat old;
  br__output_rules rules;
} br__output;

#define BR__OUTPUT_ZERO { .fd = -1 }

/* PATH may be NULL: standard output, which stays open.  Devices and pipes are written in place.  A link is
   followed, and stays.  A file that is replaced keeps its mode and its group; one that cannot, one that has another
   owner or other names (hard links), and one without write permission are left alone (BR_IO).  RULES are borrowed
   until the file is closed.  */
br_status br__output_open (br__output *o, const char *path, const br__output_rules *rules, br_error *error);
br_status br__output_write (br__output *o, const char *bytes, size_t length, br_error *error);
/* Ends the file and gives it its name.  FLUSH: not before it is on disk, which takes its time.  */
br_status br__output_close (br__output *o, int flush, br_error *error);
/* Takes away what is not closed; after br__output_close there is nothing to do.  */
void br__output_drop (br__output *o);

/* All of it at once, flushed: PATH holds the old bytes or the new, whole, whatever happens.  */
br_status br__file_write (const char *path, const char *bytes, size_t length, const br__output_rules *rules,
                          br_error *error);

#endif
