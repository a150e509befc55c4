/* SPDX-License-Identifier: LGPL-3.0-or-later
   file.h - reading files, telling them apart, and errors of the system in plain words.  */
#ifndef BR_FILE_FILE_H
#define BR_FILE_FILE_H

#include <sys/stat.h>

#include "benchrule_sheet.h"

/* "there is no such file" ... for a value of errno.  */
const char *br__system_words (int number);
/* BR_IO: "cannot WHAT `PATH`: why", with the words for the errno NUMBER.  */
br_status br__can_not (br_error *error, const char *what, const char *path, int number);

/* The whole file, of at most LIMIT bytes; BYTES is to be freed.  ST (may be NULL) gets what the system says of
   it.  PLAIN: nothing but a plain file, so that no pipe holds the reading up.  */
typedef struct br__reading
{
  size_t limit;             /* 0: 64 MiB */
  size_t head;              /* 0: all of it; else at most about so much of its start */
  int plain;
  struct stat *st;
} br__reading;
br_status br__file_read (char **bytes, size_t *length, const char *path, br_error *error);
br_status br__file_read_as (char **bytes, size_t *length, const char *path, const br__reading *how, br_error *error);

/* 1 if both are names of the same file; symbolic links are resolved.  */
int br__same_file (const char *path, const char *other);
static inline int
br__same_stat (const struct stat *x, const struct stat *y)
{
  return x->st_dev == y->st_dev && x->st_ino == y->st_ino;
}
/* The path of the file PATH, which need not exist, with symbolic links resolved, also dangling ones.  The caller frees it;
   NULL with errno if its folder does not exist.  */
char *br__file_resolve (const char *path);
/* The part of PATH after its last slash.  */
const char *br__file_base (const char *path);
/* The part of PATH below FOLDER, both resolved; NULL where it lies elsewhere.  */
const char *br__file_below (const char *path, const char *folder);
/* Resolved folder of PATH.  To be freed.  */
char *br__file_folder (const char *path);

/* Tells one state of a file from another.  */
typedef struct br__stamp
{
  int known;
  size_t length;
  uint64_t hash[2];
} br__stamp;
br__stamp br__stamp_of (const char *bytes, size_t length);
static inline int
br__same_stamp (const br__stamp *x, const br__stamp *y)
{
  return x->known == y->known && x->length == y->length && x->hash[0] == y->hash[0] && x->hash[1] == y->hash[1];
}


#endif
