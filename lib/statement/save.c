/* SPDX-License-Identifier: LGPL-3.0-or-later
   save.c - saves the sheet to a file.  It never replaces another file, nor its own file if somebody else changed that,
   unless the user says so.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/access.h"
#include "sheet/record.h"
#include "sheet/written.h"
#include "statement/statements.h"

typedef struct way
{
  int over;                 /* whatever is there */
  int in_place;
} way;

/* 1 if the sheet's own file PATH has not changed since it was last read or written.  */
static int
is_unchanged (const br_sheet *sheet, const char *path)
{
  br__reading how = { .limit = SIZE_MAX, .plain = 1 };
  char *bytes = NULL;
  size_t length = 0;
  if (br__file_read_as (&bytes, &length, path, &how, NULL) != BR_OK)
    return 0;
  br__stamp now = br__stamp_of (bytes, length);
  br__free (bytes);
  return br__same_stamp (&now, &sheet->stamp);
}

static br_status
check_there (const br_sheet *sheet, const char *path, const way *how, br_error *error)
{
  struct stat st;
  int there = lstat (path, &st) == 0 && (!S_ISLNK (st.st_mode) || stat (path, &st) == 0);
  if (!there || !S_ISREG (st.st_mode) || how->over || how->in_place)
    return BR_OK;
  if (!sheet->path || !br__same_file (sheet->path, path))
    br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` is there already", BR__CLIP (path, 100));
  else if (is_unchanged (sheet, path))
    return BR_OK;
  else
    br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` has changed since it was read or written here", BR__CLIP (path, 100));
  br__hint (error, "`save over %.*s` writes over it; another name leaves it alone", BR__CLIP (path, 100));
  return BR_DOMAIN;
}

/* Writes the sheet to PATH; T = the bytes written, which the caller clears.  */
static br_status
write_to (br_text *t, const br_sheet *sheet, const char *path, const way *how, br_error *error)
{
  br__output_rules rules = { .content = BR__CONTENT_SHEET, .over = 1, .in_place = how->in_place };
  br_status status = check_there (sheet, path, how, error);
  if (status != BR_OK)
    return status;
  br__put_sheet (t, sheet, path);
  return t->failed ? br__fail_plain (error, BR_NO_MEMORY, 0, 0)
         : br__file_write (path, br__text_string (t), t->length, &rules, error);
}

static int
is_plain (const char *path)
{
  struct stat st;
  return stat (path, &st) == 0 && S_ISREG (st.st_mode);
}

static br_status
save_to (br_sheet *sheet, const char *path, const way *how, br_error *error)
{
  br_text t = BR_TEXT_ZERO;
  char *copy = br__strndup (path, strlen (path));
  br_status status = copy ? write_to (&t, sheet, path, how, error) : br__fail_plain (error, BR_NO_MEMORY, 0, 0);
  /* A device or a pipe gets only a copy, because it cannot be opened again as the file of the sheet.  */
  if (status == BR_OK && is_plain (path))
    {
      br__free (sheet->path);
      sheet->path = copy;
      sheet->stamp = br__stamp_of (br__text_string (&t), t.length);
      sheet->saved_at = sheet->done_count;
      copy = NULL;
    }
  br__free (copy);
  br__text_clear (&t);
  return status;
}

br_status
br_sheet_write (const br_sheet *sheet, const char *path, br_error *error)
{
  if (!sheet || !path)
    return br__fail_null (error);
  static const way over = { 1, 0 };
  br_text t = BR_TEXT_ZERO;
  br_status status = br__file_ask_call (sheet, path, BR_FILE_WRITE, error);
  if (status == BR_OK)
    status = write_to (&t, sheet, path, &over, error);
  br__text_clear (&t);
  return status;
}

br_status
br_sheet_save (br_sheet *sheet, const char *path, br_error *error)
{
  if (!sheet || !path)
    return br__fail_null (error);
  static const way over = { 1, 0 };
  br_status status = br__file_ask_call (sheet, path, BR_FILE_WRITE, error);
  return status == BR_OK ? save_to (sheet, path, &over, error) : status;
}

/* The words `over` and `in place`; *START gets where the name begins.  */
static br_status
read_way (way *how, size_t *start, br__run *run)
{
  br_status status = BR_OK;
  how->over = br__lex_is_word (&run->lex, "over");
  how->in_place = 0;
  *start = run->lex.token.offset;
  if (how->over)
    *start = run->lex.next;
  else if (br__lex_is_word (&run->lex, "in"))
    {
      br__lexer behind = run->lex;
      if (br__lex_next (&behind, NULL) == BR_OK && br__lex_is_word (&behind, "place"))
        {
          how->in_place = 1;
          *start = behind.next;
        }
    }
  /* A line of a file, which somebody else may have written, must not overwrite anything.  */
  if (run->from_file && run->asked && (how->over || how->in_place))
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                       "a sheet that comes from a file writes over nothing");
  return status;
}

/* `save in`: half of `save in place`, or a file's name?  */
static br_status
refuse_in (br__run *run)
{
  br__lexer at = run->lex;
  br_status skipped = br__lex_is_word (&at, "over") ? br__lex_next (&at, NULL) : BR_OK;
  br__lexer ahead = at;
  if (skipped != BR_OK || !br__lex_is_word (&at, "in") || br__lex_next (&ahead, NULL) != BR_OK || ahead.token.type != BR__END)
    return BR_OK;
  br__fail (run->error, BR_SYNTAX, at.token.offset, 2, "`in` can be a word, or the file's name");
  br__hint (run->error, "write `save in place` or `save in.sheet`");
  return BR_SYNTAX;
}

/* The next word is none of the name of a file, work.sheet, and one of WORDS.  */
static int
is_spoken (const br__run *run, const br__lexer *at, const char *const *words)
{
  size_t end = at->token.offset + at->token.length;
  for (; *words; words++)
    if (br__lex_is_word (at, *words))
      return end == run->end || br__blank_at (run->text + end, run->end - end) > 0;
  return 0;
}

/* Words that users may use for the sheet.  */
static const char *const things[] = { "it", "this", "my", "the", "a", "sheet", "work", "design", "file", "drawing", "picture", "project", "everything", "all", NULL };

/* `save as FILE`, `save my sheet to FILE`, `save it`, `save to a file`: the words could be a part of the file's name.  */
static br_status
refuse_word (br__run *run)
{
  static const char *const before[] = { "as", "to", "in", "into", "under", "called", "named", NULL };
  br__lexer at = run->lex, last = at;
  size_t found = 0, named = 0, end = run->end;
  for (int thing; (thing = is_spoken (run, &at, things)) || is_spoken (run, &at, before); found++)
    {
      named += (size_t) thing;
      last = at;
      if (br__lex_next (&at, NULL) != BR_OK)
        at.token.type = BR__SIGN;       /* of no statement: a part of the name */
    }
  int alone = at.token.type == BR__END;
  if (!found || br__lex_is_word (&at, "place") || (alone && !named && br__lex_is_word (&last, "in")))
    return BR_OK;
  while (end > at.token.offset && br__blank_at (run->text + end - 1, 1))
    end--;
  size_t length = last.token.offset + last.token.length - run->lex.token.offset;
  br__fail (run->error, BR_SYNTAX, run->lex.token.offset, length, "`%.*s` can be words, or a part of the file's name", (int) length,
            run->text + run->lex.token.offset);
  if (alone && run->sheet->path)
    br__hint (run->error, "write `save`");
  else if (alone)
    {
      char name[32];
      br__free_name (name, sizeof name);
      br__hint (run->error, "write `save %s`", name);
    }
  else
    br__hint (run->error, "write `save %.*s%s`", br__clip (run->text + at.token.offset, end - at.token.offset, 80),
              run->text + at.token.offset,
              memchr (run->text + at.token.offset, '.', end - at.token.offset) || run->text[end - 1] == '"' ? "" : ".sheet");
  return BR_SYNTAX;
}

/* `save drawing as cart`: words, or a part of the file's name.  */
static br_status
refuse_between (br__run *run)
{
  static const char *const between[] = { "as", "to", "into", "under", "called", "named" };
  const size_t start = run->lex.token.offset;
  size_t name = start, end = run->end;
  int spoken = 0;               /* refuse_word has what begins so */
  while (end > start && br__blank_at (run->text + end - 1, 1))
    end--;
  if (run->lex.token.type == BR__END || memchr (run->text + start, '"', end - start))
    return BR_OK;
  for (size_t i = start, n; i < end; i += n + 1)
    {
      /* The typed text need not end with NUL.  */
      for (n = 0; i + n < end && run->text[i + n] != ' '; n++)
        ;
      for (size_t k = 0; k < sizeof between / sizeof between[0] && i > start && !spoken && i + n + 1 < end; k++)
        if (br__same_word (run->text + i, n, between[k]))
          name = i + n + 1;
      spoken = 0;
      for (size_t k = 0; things[k] && !spoken; k++)
        spoken = br__same_word (run->text + i, n, things[k]);
    }
  if (name == start)
    return BR_OK;
  const char *ending = memchr (run->text + name, '.', end - name) ? "" : ".sheet";
  br__fail (run->error, BR_SYNTAX, start, name - start, "this can be words, or a part of the file's name");
  br__hint (run->error, "write `save %.*s%s` or `save \"%.*s%s\"`", br__clip (run->text + name, end - name, 60), run->text + name, ending,
            br__clip (run->text + start, end - start, 60), run->text + start, ending);
  return BR_SYNTAX;
}

/* `save cart.pdf`: a sheet is text, and what else is called so is made by other statements.  */
static br_status
refuse_ending (br__run *run)
{
  static const struct { const char *ending, *word; } endings[] = {
    { ".pdf", "draw" }, { ".svg", "draw" }, { ".png", "draw" }, { ".html", "report" }, { ".csv", NULL } };
  size_t start = run->lex.token.offset, end = run->end;
  while (end > start && strchr (" \t\"", run->text[end - 1]))
    end--;
  for (size_t k = 0; k < sizeof endings / sizeof endings[0]; k++)
    {
      /* save picture as png */
      const size_t word = strlen (endings[k].ending) - 1;
      if (end - start > word + 3 && run->text[end - word - 1] == ' ' && br__same_word (run->text + end - word, word, endings[k].ending + 1) && run->sheet->shapes
          && endings[k].word && *endings[k].word == 'd')
        {
          br__fail (run->error, BR_SYNTAX, start, end - start, "a sheet is saved as text, in a file such as `work.sheet`");
          br__hint (run->error, "write `draw into drawing%s`", endings[k].ending);
          return BR_SYNTAX;
        }
      const size_t n = strlen (endings[k].ending), bare = end - start > n ? end - n : start;
      size_t name = bare;
      if (bare == start || !br__same_word (run->text + bare, n, endings[k].ending))
        continue;
      while (name > start && !strchr (" \t\"", run->text[name - 1]))
        name--;
      br__fail (run->error, BR_SYNTAX, name, end - name, "a sheet is saved as text, in a file such as `work.sheet`");
      if (endings[k].word && (run->sheet->shapes || *endings[k].word == 'r'))
        br__hint (run->error, "write `%s into %.*s`", endings[k].word, br__clip (run->text + name, end - name, 60), run->text + name);
      else
        br__hint (run->error, "write `save %.*s.sheet`", br__clip (run->text + name, bare - name, 60), run->text + name);
      return BR_SYNTAX;
    }
  return BR_OK;
}

/* `save cart.sheet as well`: the text after the file name could be other words, or a part of the name.  */
static br_status
refuse_behind (br__run *run)
{
  static const char ending[] = ".sheet";
  const size_t start = run->lex.token.offset, size = sizeof ending - 1;
  if (run->lex.token.type == BR__END || memchr (run->text + start, '"', run->end - start))
    return BR_OK;
  for (size_t i = start; i + size < run->end; i++)
    {
      size_t rest = i + size;
      while (memcmp (run->text + i, ending, size) == 0 && rest < run->end && br__blank_at (run->text + rest, 1))
        rest++;
      if (rest > i + size && rest < run->end)
        {
          br__fail (run->error, BR_SYNTAX, rest, run->end - rest, "this can be words, or a part of the file's name");
          br__hint (run->error, "write `save %.*s` or `save \"%.*s\"`", br__clip (run->text + start, i + size - start, 60), run->text + start,
                    br__clip (run->text + start, run->end - start, 60), run->text + start);
          return BR_SYNTAX;
        }
    }
  return BR_OK;
}

br_status
br__do_save (br__run *run)
{
  br_sheet *sheet = run->sheet;
  char *path = NULL;
  way how;
  size_t start = 0, end = run->end;
  static br_status (*const refuse[]) (br__run *) = { refuse_ending, refuse_behind, refuse_between, refuse_word, refuse_in };
  br_status status = BR_OK;
  for (size_t i = 0; i < sizeof refuse / sizeof refuse[0] && status == BR_OK; i++)
    status = refuse[i] (run);
  if (status == BR_OK)
    status = read_way (&how, &start, run);
  while (end > start && br__blank_at (run->text + end - 1, 1))
    end--;
  if (status == BR_OK && start >= end && !sheet->path && !how.over && !how.in_place)
    {
      char name[32];
      br__free_name (name, sizeof name);
      status = br__expected (run, "the name of a file");
      br__hint (run->error, "write `save %s`", name);
    }
  else if (status == BR_OK && (start < end || !sheet->path))
    status = br__file_rest (&path, run, start, BR_FILE_WRITE);
  else if (status == BR_OK && !(path = br__strndup (sheet->path, strlen (sheet->path))))
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  else if (status == BR_OK)
    status = br__file_ask (run, path, BR_FILE_WRITE, run->word.offset, run->end);
  if (status == BR_OK)
    {
      status = save_to (sheet, path, &how, run->error);
      if (status != BR_OK && run->error && run->error->length == 0)
        {
          run->error->offset = start < end ? start : run->word.offset;
          run->error->length = run->end - run->error->offset;
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
