/* SPDX-License-Identifier: LGPL-3.0-or-later
   open.c - sheets in files: `open` replaces the sheet, `use` adds to it; and `new`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <errno.h>
#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/access.h"
#include "sheet/replace.h"
#include "sheet/written.h"
#include "statement/opened.h"
#include "statement/statements.h"
#include "statement/told.h"

/* Sheets that use each other, one inside the other and all together.  */
#define MOST_DEEP 16
#define MOST_SHEETS 100
#define MOST_BYTES (64u << 20)
/* So many wrong lines, and none that is right, are a text of another kind.  */
#define MOST_STRANGE 1000

/* ---- Reading ---- */

static int
refuse_all (void *user, const br_file_request *request)
{
  (void) user;
  (void) request;
  return 0;
}

/* 1 if the line is in the sheet language: it is correct, it begins with `NAME =`, or it is a statement with an error
   that is not a syntax error.  */
static int
is_of_language (br_sheet *scratch, const char *text, size_t length, const char *path)
{
  br__lexer lex;
  int word = br__lex_start (&lex, text, length, NULL) == BR_OK && lex.token.type == BR__NAME;
  const br__statement *st = word ? scratch->language->find (text + lex.token.offset, lex.token.length) : NULL;
  const char *second = st ? br__word_behind (st) : NULL;
  int more = word && br__lex_next (&lex, NULL) == BR_OK, known = st && (!second || (more && br__lex_is_word (&lex, second)));
  if (more && br__lex_is_sign (&lex, '='))
    return 1;
  br_status status = br__run_line (scratch, text, length, path, 1, 1, BR__LF, NULL);
  return status == BR_OK || (known && status != BR_SYNTAX);
}

/* *HAS = 1 if a line of TEXT is in the sheet language, tested in a temporary sheet that may not use files.  A text
   that has only remarks counts, too.  */
static br_status
has_line (int *has, const br_sheet *sheet, const char *text, size_t length, const char *path, br_error *error)
{
  br_sheet *scratch = NULL;
  size_t strange = 0;
  br_status status = br__content_new (&scratch, sheet, error);
  if (status != BR_OK)
    return status;
  scratch->policy = refuse_all;
  scratch->flag = sheet->flag;
  *has = 0;
  for (size_t at = br__mark_length (text, length); at < length && !*has && strange < MOST_STRANGE; )
    {
      const char *end = memchr (text + at, '\n', length - at);
      size_t size = end ? (size_t) (end - (text + at)) : length - at;
      if (br__line_says (text + at, size))
        {
          strange++;
          *has = is_of_language (scratch, text + at, size, path);
        }
      at += size + (end != NULL);
    }
  *has |= strange == 0;
  br_sheet_free (scratch);
  return BR_OK;
}

typedef struct sheet_file
{
  const char *path;
  char *bytes;
  size_t length;
  struct stat st;
} sheet_file;

/* A sheet that reads itself, or more sheets than anybody has.  */
static br_status
check_reading (const br_sheet *sheet, const sheet_file *f, br_error *error)
{
  int depth = 0;
  for (const br__reading_file *r = sheet->reading; r; r = r->outer, depth++)
    if (br__same_stat (&r->id, &f->st))
      {
        br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` is being read already: a sheet cannot use itself", BR__CLIP (f->path, 100));
        br__hint (error, "take this line out");
        return BR_DOMAIN;
      }
  if (depth >= MOST_DEEP)
    return br__fail (error, BR_TOO_BIG, 0, 0, "more than %d sheets that use each other", MOST_DEEP);
  if (sheet->opened > MOST_SHEETS)
    return br__fail (error, BR_TOO_BIG, 0, 0, "more than %d sheets in all", MOST_SHEETS);
  if (sheet->opened_bytes > MOST_BYTES)
    return br__fail (error, BR_TOO_BIG, 0, 0, "more than %u bytes of sheets in all", MOST_BYTES);
  return BR_OK;
}

/* F is to be cleared also where it could not be read.  */
static br_status
read_sheet (sheet_file *f, br__run *run, const char *path)
{
  br_sheet *sheet = run->sheet;
  br__reading how = { .plain = run->from_file, .st = &f->st };
  int has = 0;
  f->path = path;
  if (!sheet->reading)
    sheet->opened = 0, sheet->opened_bytes = 0;
  br_status status = br__file_read_as (&f->bytes, &f->length, path, &how, run->error);
  sheet->opened++;
  sheet->opened_bytes += f->length;
  if (status == BR_OK)
    status = check_reading (sheet, f, run->error);
  if (status == BR_OK && !br__content_is_text (f->bytes, f->length))
    return br__fail (run->error, BR_DOMAIN, 0, 0, "`%.*s` is no text, so it is no sheet", BR__CLIP (path, 100));
  if (status == BR_OK)
    status = has_line (&has, sheet, f->bytes, f->length, path, run->error);
  if (status == BR_OK && !has)
    status = br__fail (run->error, BR_DOMAIN, 0, 0, "no line of `%.*s` is of the language, so it is no sheet",
                       BR__CLIP (path, 100));
  return status;
}

/* Runs the lines of F.  Their mistakes are reported where they are: then RUN->mistake has the first.  */
static br_status
run_lines (br__run *run, const sheet_file *f)
{
  br_sheet *sheet = run->sheet;
  br__told told;
  br__reading_file here = { f->path, f->st, sheet->reading };
  const br_sink *sink = run->sink && !sheet->reading ? br__told_start (&told, run->sink) : run->sink;
  sheet->reading = &here;
  br_status status = br__sheet_run (sheet, f->bytes, f->length, f->path, 1, 1, sink);
  sheet->reading = here.outer;
  if (!here.outer && run->sink)
    br__told_end (&told, f->path);
  if (br__stopped (run))
    return br__fail_stopped (run);
  run->mistake = status;
  return BR_OK;
}

static br_status
at_file (br__run *run, br_status status, size_t start)
{
  if (status != BR_OK && run->error && run->error->length == 0)
    {
      run->error->offset = start;
      run->error->length = run->end - start;
    }
  return status;
}

/* ---- Instead of what is there ---- */

typedef struct history
{
  br__changes *entries;
  size_t done, count, room;
} history;

/* The statements of a file are no changes that could be undone one by one.  */
static br_status
run_apart (br__run *run, const sheet_file *f)
{
  br_sheet *sheet = run->sheet;
  history outer = { sheet->history, sheet->done_count, sheet->history_count, sheet->history_room };
  sheet->history = NULL;
  sheet->done_count = sheet->history_count = sheet->history_room = 0;
  br_status status = run_lines (run, f);
  if (br__changes_settle (sheet) != BR_OK)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  sheet->pending_rollback.changes = NULL;
  br__changes_drop (&sheet->pending_rollback.own);
  for (size_t i = sheet->history_count; i > 0; i--)
    br__changes_drop (&sheet->history[i - 1]);
  br__free (sheet->history);
  sheet->history = outer.entries;
  sheet->done_count = outer.done;
  sheet->history_count = outer.count;
  sheet->history_room = outer.room;
  return status;
}

br_status
br__open_text (br__run *run, const char *text, size_t length, const char *path)
{
  sheet_file f = { .path = path, .bytes = (char *) text, .length = length };
  br_sheet *content = NULL;
  br_status status = br__content_new (&content, run->sheet, run->error);
  if (status == BR_OK)
    status = br__replace_content (run, &content);
  if (status == BR_OK)
    status = run_apart (run, &f);
  if (status == BR_OK)
    status = br__emit_summary (run, path);
  br_sheet_free (content);
  return status;
}

/* Work that is not saved is not given up without a word.  */
br_status
br__check_saved (br__run *run)
{
  br_sheet *sheet = run->sheet;
  if (!br_sheet_unsaved (sheet))
    return BR_OK;
  br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "what is here is not saved");
  if (sheet->path)
    br__hint (run->error, "`save` keeps it, `new without saving` gives it up");
  else
    {
      char name[32];
      br__free_name (name, sizeof name);
      br__hint (run->error, "`save %s` keeps it, `new without saving` gives it up", name);
    }
  return BR_DOMAIN;
}

static br_status
open_path (br__run *run, const char *path)
{
  sheet_file f = { .bytes = NULL };
  br_sheet *content = NULL;
  char *copy = br__strndup (path, strlen (path));
  br_status status = copy ? read_sheet (&f, run, path) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK)
    status = br__check_saved (run);
  if (status == BR_OK)
    status = br__content_new (&content, run->sheet, run->error);
  if (status == BR_OK)
    status = br__replace_content (run, &content);
  if (status == BR_OK)
    {
      run->sheet->path = copy;
      run->sheet->stamp = br__stamp_of (f.bytes, f.length);
      copy = NULL;
      status = run_apart (run, &f);
      if (status == BR_OK)
        status = br__emit_summary (run, path);
    }
  run->saved = status == BR_OK;
  br_sheet_free (content);
  br__free (copy);
  br__free (f.bytes);
  return status;
}

br_status
br__do_open (br__run *run)
{
  char *path = NULL;
  size_t start = run->lex.token.offset;
  if (run->from_file)
    {
      br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                "a sheet cannot open another one in its own place");
      br__hint (run->error, "use %.*s", br__clip (run->text + start, run->end - start, 200), run->text + start);
      return BR_DOMAIN;
    }
  br_status status = br__file_rest (&path, run, start, BR_FILE_SHEET);
  if (status == BR_OK)
    status = at_file (run, open_path (run, path), start);
  br__free (path);
  return status;
}

br_status
br__do_new (br__run *run)
{
  br_sheet *content = NULL;
  int give_up = br__lex_is_word (&run->lex, "without");
  br_status status = BR_OK;
  if (give_up)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK && give_up)
    status = br__lex_is_word (&run->lex, "saving") ? br__lex_next (&run->lex, run->error)
             : br__expected (run, "`saving`");
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK && run->from_file)
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "a sheet cannot empty itself");
  if (status == BR_OK && !give_up)
    status = br__check_saved (run);
  /* An empty sheet is not saved for `undo`.  */
  const int empty = !run->sheet->first && !run->sheet->path && !br__graph_size (run->sheet->graph);
  if (status == BR_OK && !empty)
    status = br__content_new (&content, run->sheet, run->error);
  if (status == BR_OK && !empty)
    status = br__replace_content (run, &content);
  if (status == BR_OK)
    status = br__remark (run, empty ? "an empty sheet" : "an empty sheet; `undo` brings back what was here");
  run->saved = status == BR_OK;
  br_sheet_free (content);
  return status;
}

/* ---- Beside it ---- */

/* The sheet that is open has its own lines: they would stand there twice, and four times after the next `use`.  */
static br_status
check_other (const br_sheet *sheet, const sheet_file *f, const char *path, br_error *error)
{
  struct stat own;
  if (!sheet->path || stat (sheet->path, &own) != 0 || !br__same_stat (&own, &f->st))
    return BR_OK;
  br__fail (error, BR_DOMAIN, 0, 0, "`%.*s` is the sheet that is open: its lines are here", BR__CLIP (path, 100));
  br__hint (error, br_sheet_unsaved (sheet) ? "save" : "open %.*s", BR__CLIP (path, 100));
  return BR_DOMAIN;
}

/* Adds the line before those that it brings in, unless it is there already.  */
static br_status
use_path (br__run *run, const char *path)
{
  sheet_file f = { .bytes = NULL };
  char *real = br__file_resolve (path);
  br_status status = real ? read_sheet (&f, run, path) : br__can_not (run->error, "read", path, errno);
  if (status == BR_OK)
    status = check_other (run->sheet, &f, path, run->error);
  if (status == BR_OK && !run->line)
    status = br__line_append (run, &run->line);
  if (status == BR_OK)
    {
      struct br__run *outer = run->sheet->collect;
      br__free (run->line->uses);
      run->line->uses = real;
      real = NULL;
      run->sheet->collect = run;
      status = run_lines (run, &f);
      run->sheet->collect = outer;
      if (status == BR_OK)
        status = br__emit_summary (run, path);
    }
  br__free (real);
  br__free (f.bytes);
  return status;
}

br_status
br__do_use (br__run *run)
{
  char *path = NULL;
  size_t start = run->lex.token.offset;
  br_status status = br__file_rest (&path, run, start, BR_FILE_SHEET);
  if (status == BR_OK)
    status = at_file (run, use_path (run, path), start);
  br__free (path);
  return status;
}

/* ---- For a program ---- */

static br_status
run_path (br_sheet *sheet, const char *path, const br_sink *sink)
{
  if (sheet->first || br_sheet_unsaved (sheet))
    {
      br_text line = BR_TEXT_ZERO;
      br__text_printf (&line, "use %s", path);
      br_status status = line.failed ? BR_NO_MEMORY
                         : br__run_line (sheet, br__text_string (&line), line.length, path, 0, 0, BR__LF, sink);
      br__text_clear (&line);
      return status;
    }
  br_error error;
  memset (&error, 0, sizeof error);
  br__run run = { .sheet = sheet, .sink = sink, .file = path, .text = "", .error = &error };
  br_status status = br__changes_begin (&run);
  if (status == BR_OK)
    status = br__file_ask_call (sheet, path, BR_FILE_SHEET, &error);
  if (status == BR_OK)
    status = open_path (&run, path);
  if (status != BR_OK)
    br__changes_revert (&run);
  if (status != BR_OK && sink && sink->fault)
    {
      br_fault fault = { path, 0, "", 0, &error };
      sink->fault (sink->user, &fault);
    }
  br__changes_commit (&run);
  br__changes_drop (&run.changes);
  if (status == BR_OK)
    sheet->saved_at = sheet->done_count;
  return status == BR_OK ? run.mistake : status;
}

br_status
br_sheet_run_file (br_sheet *sheet, const char *path, const br_sink *sink)
{
  if (!sheet || !path || sheet->running)
    return BR_DOMAIN;
  br__call call;
  br__sheet_enter (&call, sheet, sink);
  return br__sheet_leave (&call, sheet, run_path (sheet, path, &call.sink));
}
