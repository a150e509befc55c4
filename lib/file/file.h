/* SPDX-License-Identifier: LGPL-3.0-or-later
   file.h - reading files, and errors of the system in plain words.  */
#ifndef BR_FILE_FILE_H
#define BR_FILE_FILE_H

#include "sheet/sheet.h"

/* "there is no such file" ... for a value of errno.  */
const char *br__system_words (int number);
/* The whole file; BYTES is to be freed.  */
br_status br__file_read (char **bytes, size_t *length, const char *path, br_error *error);
/* Puts a file in the place of PATH: written beside it, flushed to disk, renamed, so that PATH holds
   the old bytes or the new, whole, whatever happens.  A link is followed, rights are kept.  */
br_status br__file_write (const char *path, const char *bytes, size_t length, br_error *error);
/* BR_IO: "can not WHAT `PATH`: why", with the words for the errno NUMBER.  */
br_status br__can_not (br_error *error, const char *what, const char *path, int number);
/* The file name that is the rest of the statement, quotes taken off, from the folder of the sheet that
   names it.  To be freed.  */
br_status br__file_name (char **path, br__run *run);
/* The same of the name that stands at TEXT[START..END) of the statement.  */
br_status br__file_path (char **path, br__run *run, size_t start, size_t end);

/* sheet.c */
br_status br__sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file,
                         size_t first_line, int from_file, const br_sink *sink);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__file_statements[];
br_status br__do_open (br__run *run);
br_status br__do_save (br__run *run);

#endif
