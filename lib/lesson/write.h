/* SPDX-License-Identifier: LGPL-3.0-or-later
   write.h - what the writers of worksheets share.  */
#ifndef BR_LESSON_WRITE_H
#define BR_LESSON_WRITE_H

#include "lesson/worksheet.h"

/* Puts problem INDEX of a paper; all count from 0.  Of a key, PAPER is the version.  A writer may keep what TASK has and leave
   it empty.  */
typedef br_status br__task_writer (void *user, const br__worksheet *w, br__task *task, size_t paper,
                                   size_t version, size_t index);

/* Calls WRITER for all problems of all papers, or of all versions of the key, and tells WHAT goes on.  */
br_status br__each_task (br__run *run, const br__worksheet *w, int key, const char *what,
                         br__task_writer *writer, void *user);
/* What is asked of every answer: the teacher's own line, if there is one.  */
void br__put_instruction (br_text *t, const br__worksheet *w);
/* What to mind where the problems of W speak of saws or of gaps; nothing where they do not.  */
void br__put_caution (br_text *t, const br__worksheet *w);
/* "School:", "Class:" or "Date:", and *TEXT = what stands behind it, "" for a line to fill in; 0 where W has no such FIELD.  */
int br__put_field_label (br_text *t, const char **text, const br__worksheet *w, size_t field);
/* A word of the trade in TASK that its paper has not explained yet, and what it means; NULL where there is none.  *TOLD is 0 at
   the beginning of a paper.  */
const char *br__next_word (const br__worksheet *w, const br__task *task, unsigned *told);
/* A worked step as it is written by hand, with the signs of the trade: a slash is left to fractions.  */
void br__put_step (br_text *t, const char *step);
/* The same for a pupil: nearest(98.288, 1) = 98 as a sentence, full(6", 1/4) = 6" * 4 as what is on the right.  */
void br__put_step_in_words (br_text *t, const char *step);

/* worksheet.c: an error where no file of a lesson can end as PATH does; and T into a file.  */
br_status br__check_ending (const char *path, br__run *run);
br_status br__lesson_write (const char *path, const br_text *t, br__run *run);
/* key_short.c: the answers of W alone, by the ending of PATH.  */
br_status br__key_short (const char *path, const br__worksheet *w, br__run *run);
/* pages.c: a PDF of WIDTH by HEIGHT (units of the page), and its end, which writes it to PATH.  */
br_status br__page_start (const br_painter **painter, br_page **page, br__run *run, int32_t width, int32_t height,
                          const char *title);
br_status br__page_end (const char *path, const br_painter *painter, br_page *page, br__run *run);

#endif
