/* SPDX-License-Identifier: LGPL-3.0-or-later
   statements.h - the statements of this room, and the table of the statements of all rooms.  */
#ifndef BR_STATEMENT_STATEMENTS_H
#define BR_STATEMENT_STATEMENTS_H

#include "sheet/sheet.h"

/* language.c: all statements in order, NULL past the last; NULL where there is none of that name.  */
const br__statement *br__statement_at (size_t index);
const br__statement *br__statement_find (const char *word, size_t length);

/* statement.c */
br_status br__sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file, size_t first_line,
                         int from_file, const br_sink *sink);
br_status br__run_line (br_sheet *sheet, const char *text, size_t length, const char *file,
                        size_t line_number, int from_file, br__ending ending, const br_sink *sink);
/* Runs the text of RUN, up to its note, in the words of the language alone.  */
br_status br__dispatch (br__run *run);
/* 1 where a line has more than blanks and a note.  */
int br__line_says (const char *text, size_t length);
/* Runs LINE, which was refused before, once more, as `run files` asks for it; OUTER takes over what it changes.  */
br_status br__run_again (br__run *outer, br__line *line);

/* statements.c: ends with a row without a word.  */
extern const br__statement br__statement_statements[];
br_status br__do_round (br__run *run);
br_status br__do_marks (br__run *run);
br_status br__do_simplest (br__run *run);
br_status br__do_missing (br__run *run);
br_status br__do_trace (br__run *run);
br_status br__do_forget (br__run *run);
br_status br__do_picture (br__run *run);
br_status br__do_divide (br__run *run);
br_status br__do_space (br__run *run);
/* units, ruler, scale and the like: the one that run->word names.  */
br_status br__do_setting (br__run *run);
void br__put_setting (br_text *t, const br_sheet *sheet, const br__line *line);
br_status br__do_title (br__run *run);
br_status br__do_date (br__run *run);
br_status br__do_help (br__run *run);
br_status br__do_screen (br__run *run);

/* files.c, the same.  */
extern const br__statement br__file_statements[];
br_status br__do_open (br__run *run);
br_status br__do_use (br__run *run);
br_status br__do_save (br__run *run);
br_status br__do_new (br__run *run);
br_status br__do_run (br__run *run);
br_status br__do_recover (br__run *run);
br_status br__do_rename (br__run *run);

#endif
