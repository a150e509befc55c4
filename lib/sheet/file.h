/* SPDX-License-Identifier: LGPL-3.0-or-later
   file.h - reading files, and errors of the system in plain words.  */
#ifndef BR_SHEET_FILE_H
#define BR_SHEET_FILE_H

#include "sheet/sheet.h"

/* "there is no such file" ... for a value of errno.  */
const char *br__system_words (int number);
/* The whole file; BYTES is to be freed.  */
br_status br__file_read (char **bytes, size_t *length, const char *path, br_error *error);
/* The file name that is the rest of the statement, quotes taken off, from the folder of the sheet that
   names it.  To be freed.  */
br_status br__file_name (char **path, br__run *run);

/* sheet.c */
br_status br__sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file,
                         size_t first_line, int from_file, const br_sink *sink);

#endif
