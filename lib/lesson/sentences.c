/* SPDX-License-Identifier: LGPL-3.0-or-later
   sentences.c - the statement `words`: sentences of papers in other words, and the words of the trade.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/words.h"
#include "lesson/sentences.h"
#include "lesson/write.h"
#include "sheet/access.h"

static void
sentences_free (br__sentences *words)
{
  if (!words)
    return;
  br__rows_clear (&words->rows);
  br__free (words);
}

static void
free_of (br_sheet *sheet)
{
  sentences_free (sheet->words);
}

const char *
br__sentences_find (const br__sentences *words, const char *english)
{
  for (size_t i = 1; words && i < words->rows.count; i++)
    if (strcmp (br__row_cell (&words->rows.rows[i], words->english), english) == 0)
      {
        const char *own = br__row_cell (&words->rows.rows[i], words->own);
        return *own ? own : english;
      }
  return english;
}

void
br__sentences_put (br_text *t, const br__sentences *words, const char *english)
{
  const char *own = br__sentences_find (words, english);
  if (words && words->both && strcmp (own, english) != 0)
    br__text_printf (t, "%s / ", english);
  br__text_puts (t, own);
}

const char *
br__sentences_language (const br__sentences *words)
{
  return words && words->both ? "en" : br__sentences_find (words, "en");
}

/* 1 if TEXT has the first LENGTH bytes of WORD as a word, in the plural, too.  */
static int
has_word (const char *text, const char *word, size_t length)
{
  for (const char *at = text, *blank; at; at = blank ? blank + 1 : NULL)
    {
      size_t n = 0;
      blank = strchr (at, ' ');
      if ((*at | 32) != *word)
        continue;
      while ((at[n] | 32) >= 'a' && (at[n] | 32) <= 'z')
        n++;
      if (n == length + 1 && at[length] == 's')
        n--;
      size_t k = 0;
      while (n == length && k < n && (at[k] | 32) == word[k])
        k++;
      if (k == length)
        return 1;
    }
  return 0;
}

const char *
br__sentences_explain (unsigned *told, const char *text)
{
  unsigned count = br__wording_count ("words", 0);
  size_t first = br__wording_first ("words", 0);
  for (unsigned i = 0; i < count; i++)
    {
      const char *word = br__wording_at (first + i);
      if ((*told & 1u << i) || !has_word (text, word, strcspn (word, ":")))
        continue;
      *told |= 1u << i;
      return word;
    }
  return NULL;
}

/* ---- The table ---- */

/* An error where OWN does not have the fields in braces of ENGLISH, each of them at least once and no other.  */
static br_status
check_fields (const char *english, const char *own, size_t line, const char *path, br_error *error)
{
  for (int back = 0; back < 2; back++)
    for (const char *at = strchr (back ? own : english, '{'); at; at = strchr (at + 1, '{'))
      {
        size_t n = strcspn (at, "}") + 1, k = 0;
        const char *other = back ? english : own;
        while (other[k] && strncmp (other + k, at, n) != 0)
          k++;
        if (!other[k])
          return br__fail (error, BR_SYNTAX, 0, 0, "%.*s:%zu: %.*s %s", BR__CLIP (path, 80), line, (int) (n < 20 ? n : 20), at,
                           back ? "is not in the English sentence" : "is missing");
      }
  return BR_OK;
}

/* 1 for the code of a language: two or three letters, and parts behind hyphens (RFC 5646, 2.1).  */
static int
is_language (const char *code)
{
  size_t n = strspn (code, "abcdefghijklmnopqrstuvwxyz");
  size_t all = strspn (code, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-");
  return (n == 2 || n == 3) && (code[n] == '-' || !code[n]) && !code[all] && all < 20;
}

static int
is_sentence (const char *english)
{
  const char *known;
  for (size_t i = 0; (known = br__wording_at (i)) != NULL; i++)
    if (strcmp (known, english) == 0)
      return 1;
  return 0;
}

static br_status
read_table (br__sentences *words, const char *path, br__run *run)
{
  br_status status = br__rows_read (&words->rows, path, run->error);
  words->english = br__rows_column (&words->rows, "english");
  if (status == BR_OK && (words->english == SIZE_MAX || words->rows.rows[0].count < 2))
    {
      status = br__fail (run->error, BR_SYNTAX, 0, 0, "%.*s: a column must be called english, and another hold what stands instead",
                         BR__CLIP (path, 120));
      br__hint (run->error, "`words into FILE.csv` writes such a table");
    }
  words->own = words->english == 0;
  for (size_t i = 1; i < words->rows.count && status == BR_OK; i++)
    {
      const br__row *row = &words->rows.rows[i];
      const char *english = br__row_cell (row, words->english);
      if (!is_sentence (english))
        status = br__fail (run->error, BR_SYNTAX, 0, 0, "%.*s:%zu: papers have no such sentence: %.*s", BR__CLIP (path, 80), row->line,
                           BR__CLIP (english, 60));
      else if (strcmp (english, "en") == 0 && *br__row_cell (row, words->own) && !is_language (br__row_cell (row, words->own)))
        status = br__fail (run->error, BR_SYNTAX, 0, 0, "%.*s:%zu: beside `en` stands the code of your language, as `de` or `pt-BR`",
                           BR__CLIP (path, 80), row->line);
      else if (*br__row_cell (row, words->own))
        status = check_fields (english, br__row_cell (row, words->own), row->line, path, run->error);
    }
  return status;
}

/* Refuses a table at PATH in which somebody has put words of his own: one without them, or anything else, is judged where it is
   written.  */
static br_status
check_unfilled (const char *path, br__run *run)
{
  const br__reading plain = { .plain = 1 };
  br__rows old = BR__ROWS_ZERO;
  char *bytes = NULL;
  size_t length = 0, filled = 0;
  br_status status = br__file_read_as (&bytes, &length, path, &plain, NULL);
  if (status == BR_OK)
    status = br__rows_take (&old, bytes, length, path, NULL);
  size_t english = status == BR_OK ? br__rows_column (&old, "english") : SIZE_MAX;
  for (size_t i = 1; english != SIZE_MAX && i < old.count; i++)
    for (size_t k = 0; k < old.rows[i].count; k++)
      filled += k != english && *old.rows[i].cells[k];
  br__rows_clear (&old);
  if (!filled)
    return status == BR_NO_MEMORY ? br__fail_plain (run->error, status, 0, 0) : BR_OK;
  br__fail (run->error, BR_DOMAIN, 0, 0, "`%.*s` has words of your own, so it stays", BR__CLIP (path, 120));
  br__hint (run->error, "give it a name of its own");
  return BR_DOMAIN;
}

/* All sentences, and an empty column for others.  */
static br_status
write_table (const char *path, br__run *run)
{
  br_text t = BR_TEXT_ZERO;
  const char *english;
  br__text_puts (&t, "english,own\n");
  for (size_t i = 0; (english = br__wording_at (i)) != NULL; i++)
    {
      br__put_cell (&t, english);
      br__text_puts (&t, ",\n");
    }
  br_status status = check_unfilled (path, run);
  if (status == BR_OK)
    status = t.failed ? br__fail_plain (run->error, BR_NO_MEMORY, 0, 0)
                      : br__file_put (run, path, BR__CONTENT_CSV, br__text_string (&t), t.length);
  br__text_clear (&t);
  return status;
}

static br_status
emit_words (br__run *run, const char *file, const br__sentences *words)
{
  br_record *r = br__record_new ("words");
  br__put_text (r, "file", file);
  br__put_count (r, "sentences", words && words->rows.count ? (int64_t) words->rows.count - 1 : 0);
  br__put_truth (r, "english", !words || !words->rows.count || words->both);
  br__put_truth (r, "explained", !words || !words->off);
  return br__emit (run, r);
}

/* Behind `words`: FILE.csv [with english].  */
static br_status
read_words (br__sentences *words, char **path, br__run *run)
{
  size_t start = run->word.offset + run->word.length;
  br_status status = br__clause_file (path, run, start, "with", BR_FILE_READ);
  size_t end = run->lex.token.offset;
  if (status == BR_OK && br__take_word (run, "with"))
    {
      br__need_word (run, "english", "`english`");
      words->both = 1;
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  return status == BR_OK ? br__placed (run, read_table (words, *path, run), start, end) : status;
}

br_status
br__do_words (br__run *run)
{
  static const char *const settings[] = { "off", "on", "english" };
  br__sentences *words = br__alloc_zero (1, sizeof *words), *now = run->sheet->words;
  char *path = NULL;
  size_t start = run->lex.next;
  int k = 0, into = br__lex_is_word (&run->lex, "into"), shown = run->lex.token.type == BR__END;
  br_status status = words ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  while (k < 3 && !br__lex_is_word (&run->lex, settings[k]))
    k++;
  if (status == BR_OK && into)
    {
      status = br__clause_file (&path, run, start, "", BR_FILE_WRITE);
      if (status == BR_OK)
        status = br__end_of_line (run);
      if (status == BR_OK)
        status = br__placed (run, write_table (path, run), start, run->end);
    }
  else if (status == BR_OK && k < 3)
    {
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__end_of_line (run);
    }
  else if (status == BR_OK && !shown)
    status = read_words (words, &path, run);
  if (status == BR_OK && k < 2 && now)
    now->off = k == 0;
  else if (status == BR_OK && !into && !shown)
    {
      words->off = k == 0 || (k > 1 && now && now->off);
      run->sheet->words = words;
      br__release_by (run->sheet, free_of);
      words = now;
    }
  if (status == BR_OK)
    status = emit_words (run, path ? path : "", run->sheet->words);
  sentences_free (words);
  br__free (path);
  return status;
}
