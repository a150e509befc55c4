/* SPDX-License-Identifier: LGPL-3.0-or-later
   keyfile.h - keys and points for grading, from files.  */
#ifndef BR_LESSON_KEYFILE_H
#define BR_LESSON_KEYFILE_H

#include "lesson/grade.h"

/* A whole number from 1 to MOST, or 0.  */
size_t br__cell_number (const char *cell, size_t most);
/* Keys, versions and problems of C.  */
br_status br__key_read (br__class *c, const char *path, br_error *error);
/* What each verdict is worth in each problem, where nothing else is said; and what a table of points says.  */
br_status br__points_default (br__class *c, br_error *error);
br_status br__points_read (br__class *c, const char *path, br_error *error);

#endif
