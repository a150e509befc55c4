/* SPDX-License-Identifier: LGPL-3.0-or-later
   access.h - the files that a statement names: where they are, whether it may touch them, and writing them.  */
#ifndef BR_SHEET_ACCESS_H
#define BR_SHEET_ACCESS_H

#include "file/output.h"
#include "sheet/sheet.h"

/* The path of the file that TEXT[START..END) of the statement names, from the folder of the sheet that names it, once
   the policy allows the USE of it; to be freed.  A file that is read is one that the statement will not write over.
   Otherwise RUN->refused is set.  */
br_status br__file_path (char **path, br__run *run, size_t start, size_t end, br_file_use use);
/* Frees what RUN keeps of the files that it touched.  */
void br__file_forget (br__run *run);
/* The same of the name that is the rest of the statement from START on, quotes taken off.  */
br_status br__file_rest (char **path, br__run *run, size_t start, br_file_use use);
/* Asks for standard input or another file that has no place in the line's own folder.  */
br_status br__file_ask (br__run *run, const char *path, br_file_use use, size_t start, size_t end);
/* 1 if the file policy would allow after `run files` what it refused to RUN.  */
int br__file_would_be_allowed (const br__run *run);
/* The same for a call of the library.  */
br_status br__file_ask_call (const br_sheet *sheet, const char *path, br_file_use use, br_error *error);

/* Files that a statement leaves alone: those it reads, the sheet's own, and those whose lines are being run.  */
#define BR__MOST_SPARED 32
typedef struct br__spared
{
  const char *paths[BR__MOST_SPARED];
  size_t count;
} br__spared;
void br__file_spared (br__spared *s, const br__run *run);

/* Writes the result of a statement to the file PATH; CONTENT says what kind of data it is.  */
br_status br__file_put (br__run *run, const char *path, br__content content, const char *bytes, size_t length);

#endif
