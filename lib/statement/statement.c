/* SPDX-License-Identifier: LGPL-3.0-or-later
   statement.c - the running of a line.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>
#include <sys/stat.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "sheet/caution.h"
#include "sheet/access.h"
#include "formula/words.h"
#include "phrase/phrase.h"
#include "statement/statements.h"
#include "table/column.h"

/* A line that begins with a name and goes on with another value was meant as a statement.  */
static br_status
unknown_statement (br__run *run)
{
  const br__token *word = &run->word;
  br__search search;
  const br__statement *st;

  st = br__statement_find (run->text + word->offset, word->length);
  if (st && br__word_behind (st))
    {
      br__fail (run->error, BR_SYNTAX, word->offset, word->length, "`%s` goes on with `%s`", st->word, br__word_behind (st));
      br__hint (run->error, "help %s", st->word);
      return BR_SYNTAX;
    }
  br__fail (run->error, BR_SYNTAX, word->offset, word->length, "`%.*s` is not a word I know",
            br__clip (run->text + word->offset, word->length, 40), run->text + word->offset);
  br__search_start (&search, run->text + word->offset, word->length);
  for (size_t i = 0; (st = run->sheet->language->at (i)) != NULL; i++)
    br__search_offer (&search, st->word);
  for (size_t i = 0; br__function_at (i); i++)
    br__search_offer (&search, br__function_at (i)->name);
  const size_t rest = word->offset + word->length;
  /* Of three letters, one that was left out is a slip; one that is another may be a word of its own.  */
  if (search.best && (word->length > 3 || strlen (search.best) > word->length) && !br__word_asks (run->text + word->offset, word->length))
    br__hint (run->error, "did you mean `%s%.*s`?", search.best, br__clip (run->text + rest, run->end - rest, 100), run->text + rest);
  else
    br__hint (run->error, "%s", br__only_help);
  return BR_SYNTAX;
}

/* Whether a dimension has the name, or a formula waits for one.  */
static int
is_known (const void *sheet, const char *name, size_t length)
{
  br__entry *e = br__graph_find (((const br_sheet *) sheet)->graph, name, length);
  return e && (br__entry_definition (e) || br__entry_users (e, NULL));
}

/* The word of ST is one of WORDS, which end with NULL.  */
static int
is_among (const br__statement *st, const char *const *words)
{
  while (*words && strcmp (st->word, *words) != 0)
    words++;
  return *words != NULL;
}

/* 1 for statements that may exceed the memory limit, because they free memory or save the work.  */
static int
spares_memory (const br__statement *st)
{
  static const char *const words[] = { "forget", "new", "save", "undo", NULL };
  return is_among (st, words);
}

/* Which ends as soon as that is asked for: the others see to it themselves, as they have something to tell or to keep even
   then, or go on to the end.  */
static int
ends_at_once (const br__statement *st)
{
  static const char *const words[] = { "arc", "box", "cautions", "check", "circle", "clear", "draw", "exact", "explain", "find", "line", "list",
                                       "mirror", "missing", "must", "outline", "parts", "plate", "rename", "report", "row", "rubs",
                                       "shapes", "simplest", "stack", "template", "tidy", "tolerance", "trace", "turn", NULL };
  return is_among (st, words) || st->setting;
}

/* Which answer, and change nothing unless they are asked to.  */
static int
asks (const br__statement *st)
{
  static const char *const words[] = { "cautions", "cuts", "divide", "draw", "drills", "exact", "explain", "find", "help", "list", "marks", "missing",
                                       "order", "parts", "rubs", "saws", "shapes", "show", "simplest", "space", "stack", "tidy", "trace", NULL };
  return is_among (st, words);
}

/* Each question has limits.  All questions of one input also share a budget, and are refused when it is used up; definitions
   are still accepted then.  Statements that write files are not counted: lines of sheet files may not write any.  */
static br_status
answer (br__run *run, const br__statement *st)
{
  if (br__account_spent ())
    return br__fail (run->error, BR_TOO_BIG, run->word.offset, run->word.length,
                     "this input has asked for as much work as one input may: ask this in another");
  const size_t before = br__account_takes ();
  const br_status status = st->run (run);
  /* Many a question looks at all that there is, which takes no memory.  */
  if (!run->touched_count)
    br__account_spend (br__account_takes () - before + br__graph_size (run->sheet->graph) / 8);
  return status;
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
          && (second.token.type == BR__NAME || second.token.type == BR__NUMBER)
          && !(is_known (run->sheet, run->text + run->word.offset, run->word.length)
               && (br__lex_is_word (&second, "in") || br__lex_is_word (&second, "to") || br__lex_is_word (&second, "as"))))
        return unknown_statement (run);
    }
  run->lex = start;
  return br__shares_unit (run) ? BR_SYNTAX : br__do_show (run);
}

br_status
br__dispatch (br__run *run)
{
  int taken = 0;
  br_status status = run->sheet->takes_line && !run->from_file ? run->sheet->takes_line (&taken, run) : BR_OK;
  if (taken || status != BR_OK)
    return status;
  if (!run->from_file && !run->phrase.length && br__phrase_first (run))
    return BR_SYNTAX;
  status = br__lex_start (&run->lex, run->text, run->end, run->error);
  run->lex.known = is_known;
  run->lex.user = run->sheet;
  if (status != BR_OK || run->lex.token.type == BR__END)
    return status;
  run->word = run->lex.token;
  if (run->word.type != BR__NAME)
    return show (run);
  const br__statement *st = run->sheet->language->find (run->text + run->word.offset, run->word.length);
  br__lexer start = run->lex;
  br_error later;
  if (br__lex_next (&run->lex, &later) != BR_OK)
    {
      /* The word decides whose mistake the next token is: a title, a date and a file name take any text.  */
      if (!st || (st->follow != BR__FOLLOW_TEXT && st->follow != BR__FOLLOW_FILE && st->follow != BR__FOLLOW_QUOTED))
        {
          if (run->error)
            *run->error = later;
          return later.status;
        }
      run->lex.status = BR_OK;
    }
  else if (br__lex_is_sign (&run->lex, '='))
    {
      (void) br__account_watch (run->sheet->flag);
      return br__halves_or_doubles (run) ? BR_SYNTAX : br__assign (run);
    }
  else if (br__is_column (run))
    return br__do_column (run);
  else if (st && st->may_name && (run->lex.token.type == BR__END || run->lex.token.type == BR__SIGN)
           && is_known (run->sheet, run->text + run->word.offset, run->word.length))
    st = NULL;
  br__account_spare (st && spares_memory (st));
  if (!st || ends_at_once (st))
    (void) br__account_watch (run->sheet->flag);
  const char *second = st ? br__word_behind (st) : NULL;
  if (st && (!second || br__lex_is_word (&run->lex, second)))
    return asks (st) ? answer (run, st) : st->run (run);
  run->lex = start;
  return show (run);
}

int
br__line_says (const char *text, size_t length)
{
  size_t end = br__note_start (text, length);
  for (size_t i = 0, n; i < end; i += n)
    if ((n = br__blank_at (text + i, end - i)) == 0)
      return 1;
  return 0;
}

/* The mistake has no hint of its own.  BEHIND a file that was read it is in there, unless the line ends too early.  */
static int
wants_topic (int behind, const br_error *error)
{
  return (!behind || strncmp (error->message, "the line ends", 13) == 0)
         && (!*error->hint || strcmp (error->hint, br__only_help) == 0);
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
  br__find_note (run);
  if (!br__line_says (run->text, run->length))
    {
      run->kept = run->note_length > 0;
      return BR_OK;
    }
  (void) br__account_refused ();
  (void) br__account_overworked ();
  (void) br__account_stopped ();
  const volatile sig_atomic_t *before = br__account_watch (NULL), *waited = br__account_wait (run->sheet->flag);
  const br__lines_told told = run->sheet->lines_told;
  status = br__dispatch (run);
  br__account_spare (0);
  if ((status == BR_SYNTAX || status == BR_DOMAIN) && !run->refused && !run->told)
    status = br__run_phrase (run, status);
  else if (status == BR_IO)
    (void) (br__phrase_refused (run) || br__phrase_about (run, 1));
  (void) br__account_watch (before);
  (void) br__account_wait (waited);
  if (br__account_stopped () && status == BR_NO_MEMORY)
    status = br__fail_stopped (run);
  if (br__account_overworked () && status == BR_NO_MEMORY)
    status = br__fail (run->error, BR_TOO_BIG, run->error->offset, run->error->length,
                       "one input asks for more work on long numbers than 400,000,000 bits");
  if (status == BR_SYNTAX && !run->told && br__seeks_hints (run) && wants_topic (run->touched_count > 0, run->error))
    br__phrase_topic (run);
  if (status == BR_OK)
    status = br__end_cautions (run);
  if (status != BR_OK)
    {
      run->sheet->lines_told = told;
      br__changes_revert (run);
      run->line = run->again;       /* a line that it put is gone */
    }
  return status;
}

/* Reports which file the line would use, and how to allow it.  The error of RUN is not used: it may quote a translated phrase.  */
static br_status
tell_refused (br__run *run)
{
  if (!run->refused_path)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  const int may = !run->asked && br__file_would_be_allowed (run);
  struct stat st;
  /* Whether the existing file is of the same kind is tested only when it is written.  */
  const int there = may && run->refused_use == BR_FILE_WRITE && lstat (run->refused_path, &st) == 0;
  return br__remark (run, "this sheet would %s `%.*s`%s", run->refused_use == BR_FILE_WRITE ? "write" : "read", BR__CLIP (run->refused_path, 140),
                     there ? ", which is there already: `run files` does it unless what is there must stay"
                     : may ? ": `run files` does it" : ": only `benchrule --allow-files` lets it");
}

/* A line of a sheet file that uses other files is run only when the user asks for it.  */
static br_status
settle_refused (br__run *run, br_status status)
{
  if (!run->refused || !run->from_file)
    return status;
  br__free (run->line->refused_in);
  run->line->refused_in = br__strndup (run->file, strlen (run->file));
  run->line->number = run->line_number;
  if (!run->line->refused_in)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  return tell_refused (run);
}

static void
tell_fault (br__run *run, br_status status)
{
  const br_sink *sink = run->sink;
  br_error *error = run->error;
  /* Who reads the outermost file says once that it was stopped.  */
  if (!sink || !sink->fault || run->told || (status == BR_STOPPED && run->sheet->reading))
    return;
  if (error->status == BR_OK)
    br__fail_plain (error, status, 0, 0);
  if (status == BR_UNDECIDED && br__error_is_plain (error))
    br__fail (error, status, error->offset, error->length, "not certain at %u bits", run->sheet->settings.bits);
  size_t most = status == BR_NO_MEMORY ? br__account_refused () : 0;
  if (most && br__error_is_plain (error))
    br__fail (error, status, error->offset, error->length, "more than %zu MiB of memory for one sheet", most >> 20);
  /* An offset in a translated phrase may be past the end of the typed line.  */
  if (error->offset > run->length)
    error->offset = run->length;
  if (error->length > run->length - error->offset)
    error->length = run->length - error->offset;
  br_fault fault = { run->file, run->line_number, run->text, run->length, error };
  sink->fault (sink->user, &fault);
}

static br_status
end_line (br__run *run, br_status status)
{
  if (run->saved && status == BR_OK)
    run->sheet->saved_at = run->sheet->done_count;
  if (status != BR_OK)
    {
      run->sheet->mistakes++;
      tell_fault (run, status);
    }
  br__file_forget (run);
  br__text_clear (&run->phrase);
  br__text_clear (&run->left_out);
  return status == BR_OK ? run->mistake : status;
}

br_status
br__run_again (br__run *outer, br__line *line)
{
  br_error error;
  memset (&error, 0, sizeof error);
  br__run run = { .sheet = outer->sheet, .sink = outer->sink, .file = line->refused_in, .line_number = line->number,
                  .from_file = 1, .text = line->text, .length = line->length, .error = &error, .line = line,
                  .again = line, .asked = 1, .collect = outer };
  br_status status = run_statement (&run);
  if (run.refused)
    status = tell_refused (&run);
  br__changes_commit (&run);
  br__changes_drop (&run.changes);
  return end_line (&run, status);
}

/* The first ; of TEXT that is in no text in quotation marks, or NULL; one behind a number is inches.  */
static const char *
semicolon_in (const char *text, size_t length)
{
  int quoted = 0, number = 0;
  for (size_t i = 0; i < length; i++)
    {
      if (text[i] == ';' && !quoted)
        return text + i;
      if (text[i] == '"')
        quoted = !quoted && !number;
      if (text[i] != ' ')
        number = (text[i] >= '0' && text[i] <= '9') || (text[i] & 0x80);
    }
  return NULL;
}

/* The end of the first statement of a line that holds several, w = 3; h = 4; LENGTH where it is one.  A title and its like
   take any text, and so does a note.  */
static size_t
statement_end (const br_sheet *sheet, const char *text, size_t length)
{
  const char *end = semicolon_in (text, br__note_start (text, length));
  br__lexer l;
  const br__statement *st;
  if (!end || br__lex_start (&l, text, (size_t) (end - text), NULL) != BR_OK)
    return length;
  st = l.token.type == BR__NAME ? sheet->language->find (text + l.token.offset, l.token.length) : NULL;
  return st && (st->follow == BR__FOLLOW_TEXT || st->follow == BR__FOLLOW_FILE) ? length : (size_t) (end - text);
}

static br_status run_one (br_sheet *sheet, const char *text, size_t length, const char *file, size_t line_number,
                          int from_file, br__ending ending, const br_sink *sink);

br_status
br__run_line (br_sheet *sheet, const char *text, size_t length, const char *file, size_t line_number,
              int from_file, br__ending ending, const br_sink *sink)
{
  br_status first = BR_OK, status;
  size_t end;
  while ((end = length <= BR_MAX_LINE ? statement_end (sheet, text, length) : length) < length && !sheet->quit)
    {
      size_t blank = 0;
      status = run_one (sheet, text, end, file, line_number, from_file, BR__LF, sink);
      first = first == BR_OK ? status : first;
      for (end++; end < length && (blank = br__blank_at (text + end, length - end)) > 0; )
        end += blank;
      text += end;
      length -= end;
      if (!length)
        return first;
    }
  status = run_one (sheet, text, length, file, line_number, from_file, ending, sink);
  return first == BR_OK ? status : first;
}

static br_status
run_one (br_sheet *sheet, const char *text, size_t length, const char *file, size_t line_number,
         int from_file, br__ending ending, const br_sink *sink)
{
  br_error error;
  memset (&error, 0, sizeof error);
  br__run run = { .sheet = sheet, .sink = sink, .file = file, .line_number = line_number,
                  .from_file = from_file, .text = text, .length = length, .error = &error,
                  .collect = sheet->collect };
  const size_t takes = br__account_takes ();
  br_status status = br__changes_begin (&run), kept = BR_OK;
  if (status == BR_OK)
    status = run_statement (&run);
  if (run.changes.count || run.steps || status != BR_OK)
    br__changed (sheet, br__account_takes () - takes);
  /* A remark, an answer or an `undo` in a file is a line of the sheet, but nothing to be undone.  */
  int text_only = from_file && !run.line && !run.changes.count;

  if (!run.line && (from_file || (status == BR_OK && run.kept)))
    kept = br__line_append (&run, &run.line);
  if (run.line && from_file)
    {
      run.line->ending = ending;
      run.line->answers = text_only && br__line_says (text, length);
      run.line->steps = run.steps;
    }
  if (kept == BR_OK && run.line)
    run.line->setting = status == BR_OK ? run.setting : NULL;
  if (kept == BR_OK && run.line)
    status = settle_refused (&run, status);
  if (kept != BR_OK)
    br__changes_revert (&run);
  else if (!text_only)
    br__changes_commit (&run);
  br__changes_drop (&run.changes);
  if (status == BR_OK)
    status = kept;
  return end_line (&run, status);
}

br_status
br__sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file, size_t first_line,
               int from_file, const br_sink *sink)
{
  br_status first = BR_OK;
  size_t at = 0, line = first_line;
  /* A byte order mark at the start of a file is no part of its first line.  */
  at = br__mark_length (text, length);
  sheet->mark |= at && from_file && !sheet->first;
  while (at < length && !sheet->quit)
    {
      if (from_file && sheet->flag && *sheet->flag)
        return first == BR_OK ? BR_STOPPED : first;
      const char *end = memchr (text + at, '\n', length - at);
      size_t size = end ? (size_t) (end - (text + at)) : length - at;
      br__ending ending = !end ? BR__NO_ENDING : size && text[at + size - 1] == '\r' ? BR__CRLF : BR__LF;
      br_status status = br__run_line (sheet, text + at, size - (ending == BR__CRLF), file, line,
                                       from_file, ending, sink);
      if (first == BR_OK)
        first = status;
      at += size + (end != NULL);
      line++;
    }
  return first;
}

br_status
br_sheet_run (br_sheet *sheet, const char *text, size_t length, const char *file, size_t first_line,
              const br_sink *sink)
{
  if (!sheet || (!text && length) || sheet->running)
    return BR_DOMAIN;
  br__call call;
  br__sheet_enter (&call, sheet, sink);
  return br__sheet_leave (&call, sheet, br__sheet_run (sheet, text, length, file ? file : "", first_line, 0, &call.sink));
}
