/* SPDX-License-Identifier: LGPL-3.0-or-later
   worksheet.c - the statements `worksheet` and `key`: what is asked for, drawn, and sent to the
   writer that the ending of the file's name calls for.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "lesson/rows.h"
#include "lesson/write.h"
#include "shop/paper.h"
#include "sheet/access.h"
#include "formula/words.h"

#define OPTION_WORDS "ruler seed versions names size paper into"

void
br__worksheet_free (br__worksheet *w)
{
  if (!w)
    return;
  for (size_t i = 0; i < w->name_count; i++)
    br__free (w->names[i]);
  br__free (w->names);
  br__free (w->names_path);
  br__free (w->path);
  br__own_free (w->own, w->own_count * w->own_sets);
  br__free (w->problems);
  br__free (w->title);
  br__free (w);
}

static void
free_of (br_sheet *sheet)
{
  br__worksheet_free (sheet->worksheet);
}

/* ---- Reading the statement ---- */

/* 1 if WORD (LENGTH bytes) is one of WORDS, which blanks part.  */
static int
among (const char *words, const char *word, size_t length)
{
  while (words && *words)
    {
      size_t n = strcspn (words, " ");
      if (n == length && memcmp (words, word, n) == 0)
        return 1;
      words += n + (words[n] == ' ');
    }
  return 0;
}

/* Where the word at START ends.  */
static size_t
word_end (const br__run *run, size_t start)
{
  while (start < run->end && !br__blank_at (run->text + start, 1))
    start++;
  return start;
}

br_status
br__clause_file (char **path, br__run *run, size_t start, const char *words, br_file_use use)
{
  const char *text = run->text;
  size_t end;
  br_status status;
  while (start < run->end && br__blank_at (text + start, 1))
    start++;
  if (among (words, text + start, word_end (run, start) - start))
    return br__fail (run->error, BR_SYNTAX, start, word_end (run, start) - start, "the name of a file should stand here");
  if (start < run->end && text[start] == '"')
    {
      start++;
      const char *quote = memchr (text + start, '"', run->end - start);
      end = quote ? (size_t) (quote - text) : run->end;
      run->lex.next = end + (quote != NULL);
    }
  else
    for (end = start; end < run->end; end++)
      {
        size_t word = end + 1, stop;
        if (!br__blank_at (text + end, 1))
          continue;
        stop = word_end (run, word);
        if (stop > word && among (words, text + word, stop - word))
          break;
      }
  if (start == 0 || text[start - 1] != '"')
    {
      run->lex.next = end;
      /* Blanks before the next clause or a note are none of the name's.  */
      while (end > start && br__blank_at (text + end - 1, 1))
        end--;
    }
  if (start >= end)
    return br__fail (run->error, BR_SYNTAX, start, 0, "the name of a file should stand here");
  status = br__file_path (path, run, start, end, use);
  if (status == BR_OK)
    {
      status = br__lex_next (&run->lex, run->error);
      if (status != BR_OK)
        {
          br__free (*path);
          *path = NULL;
        }
    }
  return status;
}

br_status
br__placed (br__run *run, br_status status, size_t start, size_t end)
{
  if (status != BR_OK && run->error && run->error->length == 0 && run->error->offset == 0)
    {
      while (start < end && br__blank_at (run->text + start, 1))
        start++;
      while (end > start && br__blank_at (run->text + end - 1, 1))
        end--;
      run->error->offset = start;
      run->error->length = end - start;
    }
  return status;
}

br_status
br__not_over (br__run *run, const char *path, const char *other, const char *what, size_t start, size_t end)
{
  if (!other || !br__same_file (path, other))
    return BR_OK;
  br__fail (run->error, BR_DOMAIN, 0, 0, "this would write over %s", what);
  br__hint (run->error, "give it another name");
  return br__placed (run, BR_DOMAIN, start, end);
}

br_status
br__clause_count (int64_t *n, br__run *run, const char *what, int64_t low, int64_t high)
{
  br_measure m = BR_MEASURE_ZERO;
  int64_t num = 0, den = 1;
  br__token at = run->lex.token;
  if (at.type != BR__NUMBER)
    return br__expected (run, what);
  br_status status = br__lex_number (&m, &run->lex, run->error);
  if (status == BR_OK && (m.unit || !br_number_get_ratio (&num, &den, &m.value) || den != 1 || num < low || num > high))
    status = br__fail (run->error, BR_DOMAIN, at.offset, at.length, "%s is a whole number from %lld to %lld",
                       what, (long long) low, (long long) high);
  br_measure_clear (&m);
  if (status == BR_OK)
    {
      *n = num;
      status = br__lex_next (&run->lex, run->error);
    }
  return status;
}

/* The topic whose name begins at the token at hand; its last word becomes the token at hand.  */
br_status
br__read_topic (const br__topic **topic, int *own, br__run *run)
{
  br__token at = run->lex.token;
  const br__topic *row;
  br__search search;
  *topic = NULL;
  *own = br__lex_is_word (&run->lex, "own");
  if (at.type != BR__NAME)
    {
      br__expected (run, "the name of a topic");
      if (at.type == BR__NUMBER)
        br__hint (run->error, "the count stands behind the topic: `sums 5`");
      return BR_SYNTAX;
    }
  if (*own)
    return BR_OK;
  br__search_start (&search, run->text + at.offset, at.length);
  for (size_t i = 0; (row = br__topic_at (i)) != NULL; i++)
    {
      size_t n = strcspn (row->name, " ");
      br__lexer second = run->lex;
      br__search_offer (&search, row->name);
      if (n != at.length || memcmp (row->name, run->text + at.offset, n) != 0)
        continue;
      if (row->name[n] && (br__lex_next (&second, run->error) != BR_OK || !br__lex_is_word (&second, row->name + n + 1)))
        continue;
      run->lex = second;
      *topic = row;
      return BR_OK;
    }
  br__fail (run->error, BR_SYNTAX, at.offset, at.length, "`%.*s` is no topic of worksheets",
            br__clip (run->text + at.offset, at.length, 40), run->text + at.offset);
  if (search.best)
    br__hint (run->error, "did you mean `%s`?", search.best);
  else
    br__hint (run->error, "topics: reading, decimals, sums, products, scale, known size, fender, dividing, stock, missing, own");
  return BR_SYNTAX;
}

static br_status
read_level (int64_t *level, br__run *run)
{
  br__mark mark = BR__MARK_ZERO;
  int64_t n = 0, d = 1;
  br__token at = run->lex.token;
  br_status status = br__read_mark (run, &mark);
  if (status == BR_OK && (!br_number_get_ratio (&n, &d, &mark.size) || n != 1 || d < 4 || d > 64 || (d & (d - 1))))
    {
      status = br__fail (run->error, BR_DOMAIN, at.offset, at.length, "the rulers of worksheets are 1/4, 1/8, 1/16, 1/32 and 1/64");
      br__hint (run->error, "write `ruler 1/16`");
    }
  *level = d;
  br_number_clear (&mark.size);
  return status;
}

/* `level L` and `ruler R` behind a topic.  A ruler behind the last topic is that of all that have none.  */
static br_status
read_row_options (br__worksheet *w, br__run *run)
{
  br_status status = BR_OK;
  size_t row = w->row_count - 1;
  while (status == BR_OK && w->rows[row].topic && (br__lex_is_word (&run->lex, "level") || br__lex_is_word (&run->lex, "ruler")))
    {
      int ruler = br__lex_is_word (&run->lex, "ruler");
      br__token at = run->lex.token;
      if (ruler ? w->rows[row].ruler != 0 : w->rows[row].grade != 0)
        return br__fail (run->error, BR_SYNTAX, at.offset, at.length, "`%s` stands here twice", ruler ? "ruler" : "level");
      status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = ruler ? read_level (&w->rows[row].ruler, run) : br__clause_count (&w->rows[row].grade, run, "a level", 1, BR__GRADES);
    }
  if (status == BR_OK && w->rows[row].ruler && !br__lex_is_sign (&run->lex, ','))
    {
      w->level = w->rows[row].ruler;
      w->told |= 1u;
    }
  return status;
}

static br_status
read_rows (br__worksheet *w, br__run *run)
{
  br_status status = BR_OK;
  do
    {
      const br__topic *topic = NULL;
      int64_t count = 0;
      int own = 0;
      br__token at;
      if (w->row_count && br__lex_is_sign (&run->lex, ','))
        status = br__lex_next (&run->lex, run->error);
      at = run->lex.token;
      if (status == BR_OK)
        status = br__read_topic (&topic, &own, run);
      if (status == BR_OK)
        status = br__lex_next (&run->lex, run->error);
      if (status == BR_OK)
        status = br__clause_count (&count, run, "the count of problems", 1, BR__MOST_PROBLEMS);
      if (status == BR_OK && w->row_count == BR__MOST_ROWS)
        status = br__fail (run->error, BR_TOO_BIG, at.offset, at.length, "more than %d topics on a paper", BR__MOST_ROWS);
      if (status == BR_OK && w->problem_count + (size_t) count > BR__MOST_PROBLEMS)
        status = br__fail (run->error, BR_TOO_BIG, at.offset, at.length, "more than %d problems on a paper", BR__MOST_PROBLEMS);
      if (status == BR_OK)
        {
          w->rows[w->row_count].topic = topic;
          w->rows[w->row_count++].count = count;
          w->problem_count += (size_t) count;
          status = read_row_options (w, run);
        }
    }
  while (status == BR_OK && br__lex_is_sign (&run->lex, ','));
  return status;
}

/* One of two words behind the token at hand.  */
static br_status
read_choice (int *second, br__run *run, const char *no, const char *yes, const char *what)
{
  br_status status = br__lex_next (&run->lex, run->error);
  if (status != BR_OK)
    return status;
  *second = br__lex_is_word (&run->lex, yes);
  if (!*second && !br__lex_is_word (&run->lex, no))
    return br__expected (run, what);
  return br__lex_next (&run->lex, run->error);
}

/* An error where the word at hand was there before.  */
static br_status
once (br__worksheet *w, br__run *run)
{
  static const char *const words[] = { "ruler", "seed", "versions", "names", "size", "paper" };
  const br__token *at = &run->lex.token;
  for (unsigned i = 0; i < sizeof words / sizeof words[0]; i++)
    if (br__lex_is_word (&run->lex, words[i]))
      {
        if (w->told & 1u << i)
          return br__fail (run->error, BR_SYNTAX, at->offset, at->length, "`%s` stands here twice", words[i]);
        w->told |= 1u << i;
      }
  return BR_OK;
}

static br_status
read_option (br__worksheet *w, br__run *run)
{
  br_status status = once (w, run);
  if (status != BR_OK)
    return status;
  if (br__lex_is_word (&run->lex, "names"))
    {
      char *path = NULL;
      size_t start = run->lex.next;
      status = br__clause_file (&path, run, start, OPTION_WORDS, BR_FILE_READ);
      if (status == BR_OK)
        status = br__placed (run, br__names_read (&w->names, &w->name_count, path, run->error), start,
                             run->lex.token.offset);
      br__free (w->names_path);
      w->names_path = path;
      return status;
    }
  if (br__lex_is_word (&run->lex, "size"))
    return read_choice (&w->large, run, "usual", "large", "`large` or `usual`");
  if (br__lex_is_word (&run->lex, "paper"))
    {
      int a4 = 0;
      status = read_choice (&a4, run, "letter", "a4", "`letter` or `a4`");
      w->paper = br__paper_find (a4 ? "a4" : "letter", a4 ? 2 : 6);
      return status;
    }
  int ruler = br__lex_is_word (&run->lex, "ruler"), seed = br__lex_is_word (&run->lex, "seed");
  if (!ruler && !seed && !br__lex_is_word (&run->lex, "versions"))
    return br__expected (run, "one of `ruler`, `seed`, `versions`, `names`, `size`, `paper` and `into FILE`");
  status = br__lex_next (&run->lex, run->error);
  if (status != BR_OK)
    return status;
  if (ruler)
    return read_level (&w->level, run);
  if (seed)
    return br__clause_count (&w->seed, run, "a seed", 0, INT64_C (999999999999999999));
  w->versions_given = 1;
  return br__clause_count (&w->versions, run, "the count of versions", 1, BR__MOST_VERSIONS);
}

/* ---- Drawing ---- */

static br_status
draw_problem (br__worksheet *w, size_t version, size_t index, const br__plan *plan)
{
  br__problem *first = &w->problems[version * w->problem_count], *p = first + index;
  if (plan->topic)
    br__problem_make (p, plan, (uint64_t) w->seed, version + 1, index + 1,
                      version ? p - w->problem_count : NULL, first, index);
  return BR_OK;
}

br_status
br__worksheet_draw (br__worksheet *w, br__run *run)
{
  br__plan *plans = br__alloc_zero (w->problem_count, sizeof *plans);
  size_t index = 0, own = 0;
  br_status status = BR_OK;
  w->problems = br__alloc_zero ((size_t) w->versions * w->problem_count, sizeof *w->problems);
  if (!plans || !w->problems)
    status = br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  for (size_t i = 0; i < w->row_count && status == BR_OK; i++)
    for (int64_t k = 0; k < w->rows[i].count; k++, index++)
      {
        uint64_t nth = (uint64_t) k;
        for (size_t j = 0; j < i; j++)
          nth += w->rows[j].topic == w->rows[i].topic ? (uint64_t) w->rows[j].count : 0;
        const br__topic *topic = w->rows[i].topic;
        if (topic && !br__plan_make (&plans[index], topic, w->rows[i].ruler ? w->rows[i].ruler : w->level, (int) w->rows[i].grade,
                                     (uint64_t) w->seed, index + 1, nth))
          {
            status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "`%s` has no problems of this level on this ruler",
                               topic->name);
            break;
          }
        if (!topic)
          {
            for (int64_t v = 0; v < w->versions; v++)
              w->problems[(size_t) v * w->problem_count + index].own = own + (w->own_sets > 1 ? (size_t) v * w->own_count : 0);
            own++;
          }
      }
  for (int64_t v = 0; v < w->versions && status == BR_OK; v++)
    {
      status = br__lesson_progress (run, "drawing problems", (size_t) v, (size_t) w->versions);
      for (size_t i = 0; i < w->problem_count && status == BR_OK; i++)
        status = draw_problem (w, (size_t) v, i, &plans[i]);
    }
  br__free (plans);
  return status;
}

/* ---- Writing ---- */

int
br__ends_with (const char *path, const char *ending)
{
  size_t n = strlen (path), k = strlen (ending);
  return n > k && br__same_word (path + n - k, k, ending);
}

typedef br_status writer (br_text *out, const br__worksheet *w, br__run *run, int key);

/* The writer of a file that ends as PATH does; NULL for a PDF.  */
static br_status
find_writer (writer **write, const char *path, br__run *run)
{
  static const struct { const char *ending; writer *write; } forms[] =
  {
    { ".txt", br__worksheet_text }, { ".csv", br__worksheet_csv }, { ".html", br__worksheet_html }, { ".pdf", NULL }
  };
  for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
    if (br__ends_with (path, forms[i].ending))
      {
        *write = forms[i].write;
        return BR_OK;
      }
  br__fail (run->error, BR_DOMAIN, 0, 0, "the name must end in .pdf, .txt, .csv or .html");
  br__hint (run->error, "the file comes last, as in `into FILE.pdf`");
  return BR_DOMAIN;
}

br_status
br__check_ending (const char *path, br__run *run)
{
  writer *write;
  return find_writer (&write, path, run);
}

br_status
br__lesson_write (const char *path, const br_text *t, br__run *run)
{
  if (t->failed)
    return br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  return br__file_put (run, path, br__content_named (path), br__text_string (t), t->length);
}

/* Writes W, or its key, by the ending of PATH.  */
static br_status
put_file (const char *path, const br__worksheet *w, br__run *run, int key)
{
  writer *write = NULL;
  br_text out = BR_TEXT_ZERO;
  br_status status = find_writer (&write, path, run);
  if (status != BR_OK || !write)
    return status == BR_OK ? br__worksheet_pdf (path, w, run, key) : status;
  status = write (&out, w, run, key);
  if (status == BR_OK)
    status = br__lesson_write (path, &out, run);
  br__text_clear (&out);
  return status;
}

static br_status
emit_made (br__run *run, const char *kind, const char *path, const br__worksheet *w)
{
  br_record *r = br__record_new (kind);
  br__put_text (r, "file", path);
  br__put_count (r, "versions", w->versions);
  br__put_count (r, "problems", (int64_t) w->problem_count);
  br__put_count (r, "papers", (int64_t) br__papers_of (w));
  br__put_count (r, "seed", w->seed);
  return br__emit (run, r);
}

/* What the sheet adds: its title and its own problems.  */
static br_status
take_from_sheet (br__worksheet *w, br__run *run)
{
  size_t wanted = 0;
  br_status status = br__own_draw (w, run);
  for (size_t i = 0; i < w->row_count; i++)
    wanted += w->rows[i].topic ? 0 : (size_t) w->rows[i].count;
  if (status == BR_OK && wanted > w->own_count)
    {
      status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->end - run->word.offset,
                         "own problems asked for: %zu; with an answer in the sheet: %zu", wanted, w->own_count);
      br__hint (run->error, "write `problem TEXT`, then `answer VALUE` with names that have one");
    }
  if (status == BR_OK && run->sheet->title)
    {
      w->title = br__strndup (run->sheet->title, strlen (run->sheet->title));
      status = w->title ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
    }
  return status;
}

/* The sheet's ruler, if worksheets have such a one; else sixteenths.  */
static int64_t
sheet_ruler (const br__run *run)
{
  br__mark mark = BR__MARK_ZERO;
  int64_t n = 0, d = 1;
  br_status status = br__settings_mark (&mark, &run->sheet->settings);
  int serves = status == BR_OK && br_number_get_ratio (&n, &d, &mark.size) && n == 1 && d >= 4 && d <= 64 && !(d & (d - 1));
  br_number_clear (&mark.size);
  return serves ? d : 16;
}

br_status
br__do_worksheet (br__run *run)
{
  br__worksheet *w = br__alloc_zero (1, sizeof *w);
  size_t start = 0;
  br_status status = w ? BR_OK : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
  if (!w)
    return status;
  w->level = sheet_ruler (run);
  w->paper = run->sheet->settings.paper;
  w->seed = w->versions = 1;
  status = read_rows (w, run);
  while (status == BR_OK && !br__lex_is_word (&run->lex, "into"))
    status = read_option (w, run);
  if (status == BR_OK)
    {
      start = run->lex.next;
      status = br__clause_file (&w->path, run, start, "", BR_FILE_WRITE);
    }
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__not_over (run, w->path, w->names_path, "the list of names", start, run->end);
  if (status == BR_OK && !w->versions_given && w->name_count)
    w->versions = (int64_t) w->name_count < BR__MOST_VERSIONS ? (int64_t) w->name_count : BR__MOST_VERSIONS;
  if (status == BR_OK && (size_t) w->versions * w->problem_count > BR__MOST_IN_ALL)
    status = br__fail (run->error, BR_TOO_BIG, run->word.offset, run->end - run->word.offset,
                       "more than %d problems in all versions together", BR__MOST_IN_ALL);
  if (status == BR_OK)
    status = take_from_sheet (w, run);
  if (status == BR_OK)
    status = br__worksheet_draw (w, run);
  if (status == BR_OK)
    status = br__placed (run, put_file (w->path, w, run, 0), start, run->end);
  if (status == BR_OK)
    status = emit_made (run, "worksheet", w->path, w);
  if (status == BR_OK)
    {
      br__worksheet *old = run->sheet->worksheet;
      run->sheet->worksheet = w;
      br__release_by (run->sheet, free_of);
      w = old;
    }
  br__worksheet_free (w);
  return status;
}

br_status
br__do_key (br__run *run)
{
  char *path = NULL;
  size_t start = run->word.offset + run->word.length;
  br__worksheet *w = run->sheet->worksheet;
  /* `key into FILE` is what `worksheet ... into FILE` makes one write.  */
  if (br__lex_is_word (&run->lex, "into"))
    start = run->lex.next;
  br_status status = br__clause_file (&path, run, start, "short", BR_FILE_WRITE);
  if (status == BR_OK && !w)
    {
      status = br__fail (run->error, BR_DOMAIN, run->word.offset, run->word.length, "there is no worksheet yet");
      br__hint (run->error, "write `worksheet sums 5 into FILE.pdf` first");
    }
  size_t end = run->lex.token.offset;
  int alone = status == BR_OK && br__lex_is_word (&run->lex, "short");
  if (alone)
    status = br__lex_next (&run->lex, run->error);
  if (status == BR_OK)
    status = br__end_of_line (run);
  if (status == BR_OK)
    status = br__not_over (run, path, w->path, "the worksheet", start, end);
  if (status == BR_OK)
    status = br__placed (run, br__check_ending (path, run), start, end);
  if (status == BR_OK)
    status = br__placed (run, alone ? br__key_short (path, w, run) : put_file (path, w, run, 1), start, end);
  if (status == BR_OK)
    status = emit_made (run, "key", path, w);
  br__free (path);
  return status;
}
