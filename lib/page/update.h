/* SPDX-License-Identifier: LGPL-3.0-or-later
   update.h - bytes of a file, and what is added to a PDF once it is done.  */
#ifndef BR_PAGE_UPDATE_H
#define BR_PAGE_UPDATE_H

#include <stddef.h>

/* A file in memory; all zero: it is empty.  */
typedef struct br__bytes
{
  char *bytes;                  /* with a zero behind them; the caller frees them */
  size_t length, room;
  int failed;                   /* memory ran out: nothing is added from then on */
} br__bytes;

/* Adds LENGTH bytes to TO.  0: out of memory.  */
int br__bytes_put (br__bytes *to, const char *bytes, size_t length);

/* Gives FILE, a PDF as cairo writes it, its LANGUAGE (a tag of BCP 47) and its figures, in order, their DESCRIPTIONS in UTF-8.  A
   file that is none stays as it is.  0: out of memory.  */
int br__pdf_update (br__bytes *file, const char *language, char *const *descriptions, size_t figures);

#endif
