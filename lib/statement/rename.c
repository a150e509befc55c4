/* SPDX-License-Identifier: LGPL-3.0-or-later
   rename.c - `rename OLD to NEW`: the lines of the sheet are rewritten with the new name and run as a replacement of
   the whole sheet, so that one undo reverts it.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "formula/functions.h"
#include "formula/words.h"
#include "shape/annotation.h"
#include "sheet/caution.h"
#include "sheet/replace.h"
#include "sheet/written.h"
#include "statement/opened.h"
#include "statement/statements.h"
#include "wood/wood.h"

typedef struct names
{
  const char *old, *new;
  size_t old_length, new_length;
} names;

/* Whether a size, a shape, a stock or a part has the name, or something waits for it.  */
static int
is_used (const br_sheet *sheet, const char *name, size_t length)
{
  const br__entry *e = br__graph_find (sheet->graph, name, length);
  return (e && (br__entry_definition (e) || br__entry_users (e, NULL))) || br__shape_find (sheet, name, length)
         || br__wood_find (sheet, 0, name, length) || br__wood_find (sheet, 1, name, length);
}

/* A word of the statement ST, as `width` in `space 3 across L width W`, which stands behind a value and no sign.  */
static int
is_clause (const br__statement *st, const char *word, size_t length, const br__token *before)
{
  const char *at = st ? st->words : NULL;
  while (at && *at)
    {
      size_t n = strcspn (at, " ");
      if (n == length && memcmp (at, word, n) == 0)
        return before->type != BR__SIGN;
      at += n + (at[n] == ' ');
    }
  return 0;
}

/* Writes the line with NEW instead of OLD, with its note unchanged; returns 1 if OLD was in it.  Free text and file names are
   not changed.  */
static int
put_line (br_text *t, const char *text, size_t length, const names *n)
{
  br__lexer l;
  size_t done = 0, end = br__note_start (text, length);
  int found = 0, files = 0, clause = 0;
  const br__statement *st = NULL;
  br__token before = { .type = BR__SIGN };
  for (br_status status = br__lex_start (&l, text, end, NULL); status == BR_OK && l.token.type != BR__END && !files;
       status = br__lex_next (&l, NULL))
    {
      const br__token word = l.token;
      int is_old = word.type == BR__NAME && word.length == n->old_length && memcmp (text + word.offset, n->old, word.length) == 0;
      if (word.type == BR__NAME && before.type == BR__SIGN && !st && done == 0 && before.length == 0)
        {
          br__lexer ahead = l;
          if (br__lex_next (&ahead, NULL) != BR_OK || !br__lex_is_sign (&ahead, '='))
            st = br__statement_find (text + word.offset, word.length);
          is_old &= !st;
          if (st && st->follow == BR__FOLLOW_QUOTED)
            l.next = br__quoted_end (text, end, word.offset + word.length);
        }
      else
        {
          /* Behind a clause's word stands its value.  */
          clause = !clause && word.type == BR__NAME && is_clause (st, text + word.offset, word.length, &before);
          is_old &= !clause;
        }
      if (is_old && word.offset + word.length < end && text[word.offset + word.length] == '('
          && br__function_find (text + word.offset, word.length))
        is_old = 0;
      files = (st && (st->follow == BR__FOLLOW_TEXT || st->follow == BR__FOLLOW_FILE)) || br__lex_is_word (&l, "into")
              || br__lex_is_word (&l, "column") || (st && br__lex_is_word (&l, "as") && strcmp (st->word, "dimension") == 0);
      before = word;
      if (!is_old)
        continue;
      br__text_put (t, text + done, word.offset - done);
      br__text_put (t, n->new, n->new_length);
      done = word.offset + word.length;
      found = 1;
    }
  br__text_put (t, text + done, length - done);
  return found;
}

static size_t
put_lines (br_text *t, const br_text *whole, const names *n)
{
  size_t count = 0;
  for (size_t at = 0; at < whole->length; )
    {
      const char *line = whole->bytes + at, *end = memchr (line, '\n', whole->length - at);
      size_t length = end ? (size_t) (end - line) : whole->length - at;
      size_t mark = at == 0 ? br__mark_length (line, length) : 0;
      br__text_put (t, line, mark);
      count += (size_t) put_line (t, line + mark, length - mark, n);
      if (end)
        br__text_putc (t, '\n');
      at += length + (end != NULL);
    }
  return count;
}

/* Sheets that this one uses are read again; nothing else is touched.  */
static int
only_sheets (void *user, const br_file_request *request)
{
  (void) user;
  return request->use == BR_FILE_SHEET && br_file_usual (request);
}

typedef struct mistakes
{
  size_t count;
  int memory;                   /* one was that memory ran out */
} mistakes;

static void
count_fault (void *user, const br_fault *fault)
{
  mistakes *m = user;
  m->count++;
  m->memory |= fault->error->status == BR_NO_MEMORY;
}

/* Replaces the sheet by the one that TEXT gives, with the same file.  M = the errors of its lines.  */
static br_status
run_anew (mistakes *m, br__run *run, const br_text *text)
{
  br_sheet *sheet = run->sheet;
  const br_sink *sink = run->sink, counting = { .user = m, .fault = count_fault };
  br_file_policy *policy = sheet->policy;
  char *path = sheet->path ? br__strndup (sheet->path, strlen (sheet->path)) : NULL;
  br__stamp stamp = sheet->stamp;
  if (sheet->path && !path)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  sheet->policy = only_sheets;
  run->sink = &counting;
  br_status status = br__open_text (run, text->bytes, text->length, path ? path : "./work.sheet");
  run->sink = sink;
  sheet->policy = policy;
  if (status != BR_OK)
    {
      br__free (path);
      return status;
    }
  run->mistake = BR_OK;
  br__free (sheet->path);
  sheet->path = path;
  sheet->stamp = stamp;
  return BR_OK;
}

/* M = the mistakes of the lines of TEXT, in a sheet that is thrown away.  */
static br_status
count_mistakes (mistakes *m, const br__run *run, const br_text *text)
{
  br_sheet *scratch = NULL;
  const br_sink counting = { .user = m, .fault = count_fault };
  br_status status = br__content_new (&scratch, run->sheet, run->error);
  if (status != BR_OK)
    return status;
  scratch->policy = only_sheets;
  (void) br__sheet_run (scratch, text->bytes, text->length, run->sheet->path ? run->sheet->path : "./work.sheet", 1, 1, &counting);
  br_sheet_free (scratch);
  return BR_OK;
}

static br_status
rename_all (br__run *run, const names *n, const br__token *old, const br__token *new)
{
  br_text whole = BR_TEXT_ZERO, text = BR_TEXT_ZERO;
  mistakes now = { 0, 0 }, were = { 0, 0 };
  size_t lines = 0;
  br__put_sheet (&whole, run->sheet, run->sheet->path ? run->sheet->path : "./work.sheet");
  lines = put_lines (&text, &whole, n);
  br_status status = whole.failed || text.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
  if (status == BR_OK)
    status = run_anew (&now, run, &text);
  if (status == BR_OK && now.count)
    status = count_mistakes (&were, run, &whole);
  if (status == BR_OK && (now.memory || were.memory))
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK && is_used (run->sheet, n->old, n->old_length))
    status = br__fail (run->error, BR_DOMAIN, old->offset, old->length,
                       "`%.*s` stands where it cannot be renamed: in a sheet that this one uses", BR__CLIP (n->old, 40));
  if (status == BR_OK && (now.count > were.count || !is_used (run->sheet, n->new, n->new_length)))
    status = br__fail (run->error, BR_DOMAIN, new->offset, new->length, "`%.*s` cannot be a name here",
                       BR__CLIP (n->new, 40));
  br__text_clear (&whole);
  br__text_clear (&text);
  if (status != BR_OK)
    return status;
  br_record *r = br__record_new ("renamed");
  br__put_text (r, "name", n->old);
  br__put_text (r, "to", n->new);
  br__put_count (r, "lines", (int64_t) lines);
  status = br__emit (run, r);
  return status == BR_OK ? br__caution_renamed (run, n->old, n->new) : status;
}

static br_status
take_name (br_text *name, br__token *at, br__run *run)
{
  *at = run->lex.token;
  if (at->type != BR__NAME)
    return br__expected (run, "a name");
  br__text_put (name, run->text + at->offset, at->length);
  return br__lex_next (&run->lex, run->error);
}

br_status
br__do_rename (br__run *run)
{
  br_text old = BR_TEXT_ZERO, new = BR_TEXT_ZERO;
  br__token at_old, at_new;
  br_status status = take_name (&old, &at_old, run);
  if (status == BR_OK && !br__lex_is_word (&run->lex, "to"))
    status = br__expected (run, "`to` and the new name");
  if (status == BR_OK)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = take_name (&new, &at_new, run);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__may_change (run);
  /* The sheet is opened anew with the other name, which takes some ten times as long as to look at it.  */
  br__account_toil (10 * br__graph_size (run->sheet->graph));
  if (status == BR_OK && run->from_file)
    status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length,
                       "a sheet cannot rename what is in it: write the new name in its lines");
  names n = { br__text_string (&old), br__text_string (&new), old.length, new.length };
  if (status == BR_OK && (old.failed || new.failed))
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (status == BR_OK && !is_used (run->sheet, n.old, n.old_length))
    {
      br__search search;
      status = br__fail (run->error, BR_DOMAIN, at_old.offset, at_old.length, "nothing here is called `%.*s`", BR__CLIP (n.old, 40));
      br__search_start (&search, n.old, n.old_length);
      for (const br__entry *e = br__graph_first (run->sheet->graph); e; e = br__entry_next (e))
        if (!br__is_hidden_entry (e))
          br__search_offer (&search, br__entry_name (e));
      if (search.best)
        br__hint (run->error, "write `rename %s to %s`", search.best, n.new);
    }
  if (status == BR_OK && is_used (run->sheet, n.new, n.new_length))
    status = br__fail (run->error, BR_DOMAIN, at_new.offset, at_new.length, "something here is called `%.*s` already",
                       BR__CLIP (n.new, 40));
  if (status == BR_OK)
    status = rename_all (run, &n, &at_old, &at_new);
  br__text_clear (&old);
  br__text_clear (&new);
  return status;
}
