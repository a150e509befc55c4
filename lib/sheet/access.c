/* SPDX-License-Identifier: LGPL-3.0-or-later
   access.c - the files that a statement names.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/access.h"

static int
allowed (const br_sheet *sheet, const br_file_request *request)
{
  return sheet->policy ? sheet->policy (sheet->policy_user, request) : br_file_usual (request);
}

static br_status
refuse (br_error *error, const char *path, br_file_use use, size_t start, size_t end)
{
  return br__fail (error, BR_IO, start, end - start, "this may not %s `%.*s`",
                   use == BR_FILE_WRITE ? "write" : "read", BR__CLIP (path, 140));
}

br_status
br__file_ask (br__run *run, const char *path, br_file_use use, size_t start, size_t end)
{
  br_file_request request = { use, path, run->from_file ? run->file : NULL, run->line_number, run->asked };
  if (allowed (run->sheet, &request))
    return BR_OK;
  run->refused = 1;
  run->refused_use = use;
  br__free (run->refused_path);
  run->refused_path = br__strndup (path, strlen (path));
  return refuse (run->error, path, use, start, end);
}

int
br__file_would_be_allowed (const br__run *run)
{
  br_file_request request = { run->refused_use, run->refused_path, run->file, run->line_number, 1 };
  return run->refused_path && allowed (run->sheet, &request);
}

br_status
br__file_ask_call (const br_sheet *sheet, const char *path, br_file_use use, br_error *error)
{
  br_file_request request = { use, path, NULL, 0, 0 };
  return allowed (sheet, &request) ? BR_OK : refuse (error, path, use, 0, 0);
}

br_status
br__file_path (char **path, br__run *run, size_t start, size_t end, br_file_use use)
{
  br_text t = BR_TEXT_ZERO;
  size_t first = start;
  while (first < end && br__blank_at (run->text + first, end - first))
    first += br__blank_at (run->text + first, end - first);
  if (first == end)
    return br__fail (run->error, BR_SYNTAX, start, end - start, "the name of a file should stand here");
  /* `save cart#2.sheet` would write over `cart`.  */
  if (end == run->end && run->end < run->length && run->text[run->end] == '#' && !br__blank_at (run->text + end - 1, 1))
    {
      br__fail (run->error, BR_SYNTAX, end, 1, "`#` begins a note, so the name of a file cannot hold it");
      br__hint (run->error, "use another name, or put a blank before the note");
      return BR_SYNTAX;
    }
  const char *slash = run->from_file && run->file ? strrchr (run->file, '/') : NULL;
  if (slash && run->text[start] != '/')
    br__text_put (&t, run->file, (size_t) (slash - run->file) + 1);
  br__text_put (&t, run->text + start, end - start);
  char *made = t.failed ? NULL : br__strndup (br__text_string (&t), t.length), *kept = NULL;
  int listed = use == BR_FILE_READ && run->touched_count < sizeof run->touched / sizeof run->touched[0];
  if (made && listed)
    kept = br__strndup (made, t.length);
  br__text_clear (&t);
  br_status status = made && (kept || !listed) ? br__file_ask (run, made, use, start, end)
                     : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    *path = made;
  else
    br__free (made);
  if (status == BR_OK && listed)
    run->touched[run->touched_count++] = kept;
  else
    br__free (kept);
  return status;
}

void
br__file_forget (br__run *run)
{
  for (size_t i = 0; i < run->touched_count; i++)
    br__free (run->touched[i]);
  run->touched_count = 0;
  br__free (run->refused_path);
  run->refused_path = NULL;
}

br_status
br__file_rest (char **path, br__run *run, size_t start, br_file_use use)
{
  size_t end = run->end;
  while (start < end && br__blank_at (run->text + start, 1))
    start++;
  while (end > start && br__blank_at (run->text + end - 1, 1))
    end--;
  if (end > start + 1 && run->text[start] == '"' && run->text[end - 1] == '"')
    start++, end--;
  if (start >= end)
    return br__fail (run->error, BR_SYNTAX, start, 0, "the name of a file should stand here");
  return br__file_path (path, run, start, end, use);
}

void
br__file_spared (br__spared *s, const br__run *run)
{
  const br_sheet *sheet = run->sheet;
  s->count = 0;
  for (size_t i = 0; i < run->touched_count; i++)
    s->paths[s->count++] = run->touched[i];
  if (sheet->path)
    s->paths[s->count++] = sheet->path;
  for (const br__reading_file *f = sheet->reading; f && s->count < BR__MOST_SPARED; f = f->outer)
    s->paths[s->count++] = f->path;
}

br_status
br__file_put (br__run *run, const char *path, br__content content, const char *bytes, size_t length)
{
  br__spared spared;
  br__file_spared (&spared, run);
  br__output_rules rules = { .content = content, .spared = spared.paths, .spared_count = spared.count };
  return br__file_write (path, bytes, length, &rules, run->error);
}
