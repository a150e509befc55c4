/* SPDX-License-Identifier: LGPL-3.0-or-later
   file.c - sheets in files.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "file/file.h"

/* Sheets that open sheets, and a size that no sheet reaches.  */
#define MOST_OPEN 16
#define MOST_BYTES (64u << 20)

const char *
br__system_words (int number)
{
  switch (number)
    {
    case ENOENT: return "there is no such file or folder";
    case EACCES: case EPERM: return "it is not allowed";
    case EISDIR: return "it is a folder";
    case ENOTDIR: return "a part of its path is no folder";
    case ENOSPC: case EDQUOT: return "the disk is full";
    case EROFS: return "the disk can only be read";
    case EIO: return "the disk does not answer";
    case ENAMETOOLONG: return "the name is too long";
    case EMFILE: case ENFILE: return "too many files are open";
    case EFBIG: return "the file would be too large";
    case EPIPE: return "the reader has gone";
    case ENOMEM: return "out of memory";
    case ELOOP: return "its links lead in a circle";
    default: return "the system refuses";
    }
}

br_status
br__can_not (br_error *error, const char *what, const char *path, int number)
{
  return br__fail (error, BR_IO, 0, 0, "can not %s `%.*s`: %s", what, BR__CLIP (path, 140),
                   br__system_words (number));
}

static br_status
read_all (char **bytes, size_t *length, int fd, const char *path, br_error *error)
{
  char *text = NULL;
  size_t used = 0, room = 0;
  for (;;)
    {
      if (!br__grow (&text, &room, used + 65536, 1))
        {
          br__free (text);
          return br__fail_plain (error, BR_NO_MEMORY, 0, 0);
        }
      ssize_t got = read (fd, text + used, room - used);
      if (got < 0 && errno == EINTR)
        continue;
      if (got < 0 || used > MOST_BYTES)
        {
          int why = got < 0 ? errno : EFBIG;
          br__free (text);
          return br__can_not (error, "read", path, why);
        }
      if (got == 0)
        break;
      used += (size_t) got;
    }
  *bytes = text;
  *length = used;
  return BR_OK;
}

br_status
br__file_read (char **bytes, size_t *length, const char *path, br_error *error)
{
  int fd;
  do
    fd = open (path, O_RDONLY | O_CLOEXEC);
  while (fd < 0 && errno == EINTR);
  if (fd < 0)
    return br__can_not (error, "read", path, errno);
  br_status status = read_all (bytes, length, fd, path, error);
  close (fd);
  return status;
}

br_status
br__file_name (char **path, br__run *run)
{
  size_t start = run->lex.token.offset, end = run->end;
  while (end > start && br__blank_at (run->text + end - 1, 1))
    end--;
  if (end > start + 1 && run->text[start] == '"' && run->text[end - 1] == '"')
    start++, end--;
  if (start >= end)
    return br__expected (run, "the name of a file");
  return br__file_path (path, run, start, end);
}

br_status
br__file_path (char **path, br__run *run, size_t start, size_t end)
{
  br_text t = BR_TEXT_ZERO;
  const char *slash = run->from_file && run->file ? strrchr (run->file, '/') : NULL;
  if (slash && run->text[start] != '/')
    br__text_put (&t, run->file, (size_t) (slash - run->file) + 1);
  br__text_put (&t, run->text + start, end - start);
  *path = t.failed ? NULL : br__strndup (br__text_string (&t), t.length);
  br__text_clear (&t);
  return *path ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
}

static br_status
run_file (br_sheet *sheet, const char *path, const br_sink *sink, br_error *error, int *told)
{
  char *bytes = NULL;
  size_t length = 0;
  *told = 0;
  if (sheet->open_depth >= MOST_OPEN)
    return br__fail (error, BR_TOO_BIG, 0, 0, "more than %d sheets that open each other", MOST_OPEN);
  br_status status = br__file_read (&bytes, &length, path, error);
  if (status != BR_OK)
    return status;
  sheet->open_depth++;
  status = br__sheet_run (sheet, bytes, length, path, 1, 1, sink);
  sheet->open_depth--;
  *told = status != BR_OK;
  br__free (bytes);
  return status;
}

/* The sheet is now what PATH holds.  */
static br_status
remember (br_sheet *sheet, const char *path, br_status status)
{
  char *copy = br__strndup (path, strlen (path));
  if (!copy)
    return status == BR_OK ? BR_NO_MEMORY : status;
  br__free (sheet->path);
  sheet->path = copy;
  sheet->saved_at = sheet->done_count;
  return status;
}

br_status
br_sheet_run_file (br_sheet *sheet, const char *path, const br_sink *sink)
{
  br_error error;
  int told;
  int pristine = !sheet->first && !br_sheet_unsaved (sheet);
  memset (&error, 0, sizeof error);
  br_status status = run_file (sheet, path, sink, &error, &told);
  if (status != BR_OK && !told && sink && sink->fault)
    {
      br_fault fault = { path, 0, "", 0, &error };
      sink->fault (sink->user, &fault);
    }
  if (pristine && (status == BR_OK || told))
    status = remember (sheet, path, status);
  return status;
}

br_status
br__do_open (br__run *run)
{
  char *path = NULL;
  br_status status = br__file_name (&path, run);
  if (status == BR_OK)
    {
      int pristine = !run->sheet->first && !br_sheet_unsaved (run->sheet);
      status = run_file (run->sheet, path, run->sink, run->error, &run->told);
      if (pristine && (status == BR_OK || run->told))
        status = remember (run->sheet, path, status);
      if (status != BR_OK && !run->told && run->error)
        {
          run->error->offset = run->lex.token.offset;
          run->error->length = run->end - run->lex.token.offset;
        }
    }
  br__free (path);
  return status;
}

/* The sheet's own lines as one text.  */
static void
put_lines (br_text *t, const br_sheet *sheet)
{
  const br__line *last = NULL;
  if (sheet->mark)
    br__text_puts (t, "\xEF\xBB\xBF");
  for (const br__line *l = sheet->first; l; l = l->next)
    {
      if (l->hidden || l->foreign)
        continue;
      if (last && last->ending == BR__NO_ENDING)
        br__text_putc (t, '\n');
      br__text_put (t, l->text, l->length);
      if (l->ending != BR__NO_ENDING)
        br__text_puts (t, l->ending == BR__CRLF ? "\r\n" : "\n");
      last = l;
    }
}

br_status
br_sheet_write (const br_sheet *sheet, const char *path, br_error *error)
{
  br_text t = BR_TEXT_ZERO;
  put_lines (&t, sheet);
  br_status status = t.failed ? br__fail_plain (error, BR_NO_MEMORY, 0, 0)
                              : br__file_write (path, br__text_string (&t), t.length, error);
  br__text_clear (&t);
  return status;
}

br_status
br_sheet_save (br_sheet *sheet, const char *path, br_error *error)
{
  br_status status = br_sheet_write (sheet, path, error);
  return status == BR_OK ? remember (sheet, path, status) : status;
}

br_status
br__do_save (br__run *run)
{
  char *path = NULL;
  br_status status = BR_OK;
  if (run->lex.token.type != BR__END || !run->sheet->path)
    status = br__file_name (&path, run);
  else if (!(path = br__strndup (run->sheet->path, strlen (run->sheet->path))))
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    {
      status = br_sheet_save (run->sheet, path, run->error);
      if (status != BR_OK && run->error)
        {
          run->error->offset = run->lex.token.offset;
          run->error->length = run->end - run->lex.token.offset;
        }
    }
  if (status == BR_OK)
    {
      br_record *r = br__record_new ("saved");
      br__put_text (r, "file", path);
      status = br__emit (run, r);
    }
  br__free (path);
  return status;
}
