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

/* Adds to FILE, a PDF written by cairo, its LANGUAGE (a tag of BCP 47) and the DESCRIPTIONS of its figures, in order, in UTF-8.
   Another file is left unchanged.  0: out of memory.  */
int br__pdf_update (br__bytes *file, const char *language, char *const *descriptions, size_t figures);

#endif
