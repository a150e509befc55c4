/* SPDX-License-Identifier: LGPL-3.0-or-later
   policy.c - what a sheet file may touch where the program says nothing of its own.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>
#include <sys/stat.h>

#include "exact/memory.h"
#include "file/content.h"
#include "file/file.h"

/* Names that begin with a dot are left alone: a shell, say, reads such files on its own.  */
static int
has_hidden_part (const char *path)
{
  return *path == '.' || strstr (path, "/.") != NULL;
}

/* 1 if R may use the file NAME with the path PATH, which is in the sheet's own folder.  */
static int
may_touch (const br_file_request *r, const char *path, const char *name)
{
  struct stat st;
  int there = stat (path, &st) == 0;
  int known = br__content_named (name) != BR__CONTENT_CSV || br__content_has_ending (name, BR__CONTENT_CSV);
  if (has_hidden_part (name) || (there && !S_ISREG (st.st_mode)))
    return 0;
  switch (r->use)
    {
    case BR_FILE_SHEET: return r->asked || br__content_named (name) == BR__CONTENT_SHEET;
    case BR_FILE_READ: return r->asked;
    case BR_FILE_WRITE: return r->asked && known;
    }
  return 0;
}

int
br_file_usual (const br_file_request *r)
{
  if (!r)
    return 0;
  if (!r->sheet)
    return 1;
  char *folder = br__file_folder (r->sheet), *path = br__file_resolve (r->path);
  const char *name = folder && path ? br__file_below (path, folder) : NULL;
  int may = name && may_touch (r, path, name);
  br__free (folder);
  br__free (path);
  return may;
}
