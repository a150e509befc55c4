/* SPDX-License-Identifier: LGPL-3.0-or-later
   statement.c - the running of a line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "exact/status.h"
#include "formula/words.h"
#include "statement/statements.h"
#include "table/column.h"

br_status
br__emit (br__run *run, br_record *r)
{
  br_status status = br__record_failed (r) ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0) : BR_OK;
  if (status == BR_OK && run->sink && run->sink->record)
    run->sink->record (run->sink->user, r);
  br__record_free (r);
  return status;
}

int
br__stopped (const br__run *run)
{
  return run->sheet->flag && *run->sheet->flag;
}

void
br__fill_expected (br__run *run, const char *what)
{
  const br__token *t = &run->lex.token;
  if (t->type == BR__END)
    br__fill (run->error, BR_SYNTAX, t->offset, 0, "the line ends where %s should stand", what);
  else
    br__fill (run->error, BR_SYNTAX, t->offset, t->length, "%s should stand here", what);
}

br_status
br__end_of_line (br__run *run)
{
  const br__token *t = &run->lex.token;
  int shown = br__clip (run->text + t->offset, t->length, 40);
  if (t->type == BR__END)
    return BR_OK;
  br__fail (run->error, BR_SYNTAX, t->offset, t->length, "`%.*s` is too much here", shown,
            run->text + t->offset);
  if (t->type == BR__SIGN && t->sign != BR__PLUS_MINUS && (t->sign > 127 || strchr ("<=>", t->sign)))
    br__hint (run->error, "to compare, write `check` at the start of the line");
  else if (br__lex_is_word (&run->lex, "x"))
    br__hint (run->error, "to multiply, write `*`");
  return BR_SYNTAX;
}

br_status
br__remark (br__run *run, const char *format, ...)
{
  char message[BR_MESSAGE_SIZE];
  va_list args;
  va_start (args, format);
  vsnprintf (message, sizeof message, format, args);
  va_end (args);
  br_record *r = br__record_new ("remark");
  br__put_text (r, "message", message);
  return br__emit (run, r);
}

/* A line that begins with a name and goes on with another value was meant as a statement.  */
static br_status
unknown_statement (br__run *run)
{
  const br__token *word = &run->word;
  br__search search;
  const br__statement *st;

  br__fail (run->error, BR_SYNTAX, word->offset, word->length, "`%.*s` is not a word I know",
            br__clip (run->text + word->offset, word->length, 40), run->text + word->offset);
  br__search_start (&search, run->text + word->offset, word->length);
  for (size_t i = 0; (st = br__statement_at (i)) != NULL; i++)
    br__search_offer (&search, st->word);
  for (size_t i = 0; br__function_at (i); i++)
    br__search_offer (&search, br__function_name (br__function_at (i)));
  if (search.best)
    br__hint (run->error, "did you mean `%s`?", search.best);
  else
    br__hint (run->error, "`help` lists the words");
  return BR_SYNTAX;
}

/* An expression on its own.  */
static br_status
show (br__run *run)
{
  br__lexer start = run->lex;
  if (run->lex.token.type == BR__NAME
      && !br__function_find (run->text + run->word.offset, run->word.length))
    {
      br_error ignored;
      br__lexer second = run->lex;
      if (br__lex_next (&second, &ignored) == BR_OK
          && (second.token.type == BR__NAME || second.token.type == BR__NUMBER))
        return unknown_statement (run);
    }
  run->lex = start;
  return br__do_show (run);
}

/* Whether a dimension has the name, or a formula waits for one.  */
static int
is_known (const void *sheet, const char *name, size_t length)
{
  br__entry *e = br__graph_find (((const br_sheet *) sheet)->graph, name, length);
  return e && (br__entry_definition (e) || br__entry_users (e, NULL));
}

static br_status
dispatch (br__run *run)
{
  if (run->sheet->takes_line && !run->from_file)
    return run->sheet->takes_line (run);
  br_status status = br__lex_start (&run->lex, run->text, run->end, run->error);
  run->lex.known = is_known;
  run->lex.user = run->sheet;
  if (status != BR_OK || run->lex.token.type == BR__END)
    return status;
  run->word = run->lex.token;
  if (run->word.type != BR__NAME)
    return show (run);
  const br__statement *st = br__statement_find (run->text + run->word.offset, run->word.length);
  br__lexer start = run->lex;
  br_error later;
  if (br__lex_next (&run->lex, &later) != BR_OK)
    {
      /* The word decides whose mistake the next token is: a title, a date and a file name take any text.  */
      if (!st || (st->follow != BR__FOLLOW_TEXT && st->follow != BR__FOLLOW_FILE))
        {
          if (run->error)
            *run->error = later;
          return later.status;
        }
    }
  else if (br__lex_is_sign (&run->lex, '='))
    return br__assign (run);
  else if (br__is_column (run))
    return br__do_column (run);
  if (st)
    return st->run (run);
  run->lex = start;
  return show (run);
}

/* The note without its # and the blanks around.  */
static void
find_note (br__run *run)
{
  size_t start, end = run->length;
  run->end = br__note_start (run->text, run->length);
  start = run->end + (run->end < run->length);
  while (start < end && (run->text[start] == ' ' || run->text[start] == '\t'))
    start++;
  while (end > start && (run->text[end - 1] == ' ' || run->text[end - 1] == '\t'
                         || run->text[end - 1] == '\r'))
    end--;
  run->note = run->text + start;
  run->note_length = end - start;
}

static int
is_blank_line (const br__run *run)
{
  for (size_t i = 0, n; i < run->end; i += n)
    if ((n = br__blank_at (run->text + i, run->end - i)) == 0)
      return 0;
  return 1;
}

static br_status
run_statement (br__run *run)
{
  br_status status;
  if (run->length > BR_MAX_LINE)
    return br__fail (run->error, BR_TOO_BIG, 0, 0, "a line of more than %d bytes", BR_MAX_LINE);
  const char *nul = memchr (run->text, 0, run->length);
  if (nul)
    return br__stray (run->text, run->length, (size_t) (nul - run->text), run->error);
  find_note (run);
  if (is_blank_line (run))
    {
      run->kept = run->note_length > 0;
      return BR_OK;
    }
  status = dispatch (run);
  if (status != BR_OK)
    br__steps_revert (run);
  return status;
}

br_status
br__run_line (br_sheet *sheet, const char *text, size_t length, const char *file, size_t line_number,
              int from_file, br__ending ending, const br_sink *sink)
{
  br_error error;
  memset (&error, 0, sizeof error);
  br__run run = { .sheet = sheet, .sink = sink, .file = file, .line_number = line_number,
                  .from_file = from_file, .text = text, .length = length, .error = &error };
  br_status status = br__steps_begin (&run), kept = BR_OK;
  if (status == BR_OK)
    status = run_statement (&run);
  /* A remark, an answer or an `undo` in a file is a line of the sheet, but nothing to be undone.  */
  int text_only = from_file && !run.line && !run.steps.count;

  if (!run.line && (from_file || (status == BR_OK && run.kept)))
    kept = br__line_append (&run, &run.line);
  if (run.line && from_file)
    {
      run.line->ending = ending;
      run.line->foreign = sheet->open_depth > 1;
    }
  if (kept != BR_OK)
    br__steps_revert (&run);
  else if (!text_only)
    br__steps_commit (&run);
  br__steps_drop (&run.steps);
  if (status == BR_OK)
    status = kept;
  if (status != BR_OK && sink && sink->fault && !run.told)
    {
      if (error.status == BR_OK)
        br__fail_plain (&error, status, 0, 0);
      if (status == BR_UNDECIDED)
        br__fail (&error, status, error.offset, error.length, "not certain at %u bits",
                  sheet->settings.bits);
      br_fault fault = { file, line_number, text, length, &error };
      sink->fault (sink->user, &fault);
    }
  return status;
}
