/* SPDX-License-Identifier: LGPL-3.0-or-later
   worksheet_read.c - what the statement `worksheet` asks for, and clauses that other statements of lessons have, too.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/memory.h"
#include "exact/status.h"
#include "formula/words.h"
#include "table/rows.h"
#include "lesson/answer.h"
#include "lesson/worksheet.h"
#include "shop/paper.h"
#include "sheet/access.h"

static const char option_words[] = "ruler seed versions names size paper duplex school class date instruction into";

const char *const br__field_words[BR__FIELDS] = { "school", "class", "date", "instruction" };

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

/* 1 where the word from AT to STOP is said of a topic and is no part of a text: "points 2", "level 2", "bonus" before `into`, or
   another topic and its count behind a comma.  */
static int
is_of_topic (const br__run *run, size_t at, size_t stop)
{
  const size_t next = stop + (stop < run->end), end = word_end (run, next);
  const br__topic *row;
  if (among ("bonus", run->text + at, stop - at))
    return among ("into", run->text + next, end - next);
  if (among ("level points", run->text + at, stop - at))
    return next < end && br__is_digit (run->text[next]);
  for (size_t i = 0; run->text[at - 2] == ',' && (row = br__topic_at (i)) != NULL; i++)
    {
      size_t behind = at + strlen (row->name) + 1;
      if (behind < run->end && memcmp (run->text + at, row->name, behind - at - 1) == 0 && br__blank_at (run->text + behind - 1, 1)
          && br__is_digit (run->text[behind]))
        return 1;
    }
  return 0;
}

/* What stands at *START, which is no blank, in quotes or up to the next of WORDS or the line's end, is *START to *END then; the lexer goes on
   behind it.  */
static void
clause_span (size_t *start, size_t *end, br__run *run, const char *words)
{
  const char *text = run->text;
  size_t at = *start;
  if (at < run->end && text[at] == '"')
    {
      *start = at + 1;
      const char *quote = memchr (text + at + 1, '"', run->end - at - 1);
      *end = quote ? (size_t) (quote - text) : run->end;
      run->lex.next = *end + (quote != NULL);
      return;
    }
  for (; at < run->end; at++)
    {
      size_t stop;
      if (!br__blank_at (text + at, 1))
        continue;
      stop = word_end (run, at + 1);
      if (stop > at + 1 && (among (words, text + at + 1, stop - at - 1) || (words == option_words && is_of_topic (run, at + 1, stop))))
        break;
    }
  run->lex.next = at;
  /* Blanks before the next clause or a note are none of the name's.  */
  while (at > *start && br__blank_at (text + at - 1, 1))
    at--;
  *end = at;
}

br_status
br__clause_file (char **path, br__run *run, size_t start, const char *words, br_file_use use)
{
  size_t end;
  br_status status;
  while (start < run->end && br__blank_at (run->text + start, 1))
    start++;
  if (among (words, run->text + start, word_end (run, start) - start))
    return br__fail (run->error, BR_SYNTAX, start, word_end (run, start) - start, "the name of a file should stand here");
  clause_span (&start, &end, run, words);
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
br__wrong_ending (br__run *run, const char *path, const char *endings, const char *page)
{
  static const char *const tables[] = { ".xlsx", ".xls", ".ods", ".tsv", ".numbers", NULL };
  const char *slash = strrchr (path, '/'), *name = slash ? slash + 1 : path, *dot = strrchr (name, '.');
  size_t length = strlen (name), stem = dot ? (size_t) (dot - name) : length, at = run->end;
  br__fail (run->error, BR_DOMAIN, 0, 0, "the name must end in %s", endings);
  for (size_t i = 0; i + length <= run->end; i++)
    at = strncmp (run->text + i, name, length) == 0 ? i : at;
  br__search nearest;
  const char *word = strrchr (name, ' ');
  br__search_start (&nearest, word ? word + 1 : "", word ? strlen (word + 1) : 0);
  br__search_offer (&nearest, "short");
  /* "key k.txt shrot".  */
  if (nearest.best && at + length == run->end && run->end > 4 && br__word_is (run->text, 4, "key "))
    br__hint (run->error, "write `%.*s %s`", (int) (at + (size_t) (word - name)), run->text, nearest.best);
  else if (at == run->end || stem == 0 || strchr (name + stem, ' '))
    br__hint (run->error, "the file comes last, as in `into FILE%s`", page);
  else
    br__hint (run->error, "write `%.*s%s%.*s`", (int) (at + stem), run->text,
              strstr (endings, ".csv") && br__is_one_of (name + stem, length - stem, tables) ? ".csv" : page, (int) (run->end - at - length), run->text + at + length);
  return BR_DOMAIN;
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
    return br__expected (run, "the name of a topic");
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
  br__fail (run->error, BR_SYNTAX, at.offset, at.length, "`%.*s` is no topic of worksheets: reading, decimals, sums, products, scale, known size, fender, "
            "dividing, stock, missing, own", br__clip (run->text + at.offset, at.length, 40), run->text + at.offset);
  if (search.best)
    br__hint (run->error, "did you mean `%s`?", search.best);
  return BR_SYNTAX;
}

/* *RULER = what MARK is to worksheets: 1/4 to 1/64 in, 1 mm or 0.5 mm; 0 where it is none of these.  A plain mark is
   millimetres where PLAIN_MM.  */
static int
ruler_of_mark (br__ruler_of *ruler, const br__mark *mark, int plain_mm)
{
  br_number mm = BR_NUMBER_ZERO;
  int64_t n = 0, d = 1;
  int known = 0, metric = plain_mm && !mark->length;
  if (br_number_get_ratio (&n, &d, &mark->size) && n == 1 && d >= 4 && d <= 64 && (d & (d - 1)) == 0)
    {
      *ruler = (br__ruler_of) { d, 0, ruler->feet };
      return 1;
    }
  /* 1 in is 127/5 mm.  */
  if (br_number_set_ratio (&mm, metric ? 1 : 127, metric ? 1 : 5) == BR_OK && br_number_mul (&mm, &mm, &mark->size) == BR_OK
      && (mark->length || metric) && br_number_get_ratio (&n, &d, &mm) && n == 1 && d <= 2)
    {
      *ruler = (br__ruler_of) { 10 * d, 1, ruler->feet };
      known = 1;
    }
  br_number_clear (&mm);
  return known;
}

static br_status
read_ruler (br__ruler_of *ruler, br__run *run)
{
  br__mark mark = BR__MARK_ZERO;
  br__token at = run->lex.token;
  br_status status = br__read_mark (run, &mark);
  if (status == BR_OK && !ruler_of_mark (ruler, &mark, !br__settings_are_inches (&run->sheet->settings)))
    {
      status = br__fail (run->error, BR_DOMAIN, at.offset, at.length,
                         "the rulers of worksheets are 1/4, 1/8, 1/16, 1/32 and 1/64 in, 1 mm and 0.5 mm");
      br__hint (run->error, "write `ruler 1/16` or `ruler 1 mm`");
    }
  br_number_clear (&mark.size);
  return status;
}

/* `level L`, `ruler R`, `points P` and `bonus` behind a topic.  A ruler behind the last topic is that of all that have
   none.  */
static br_status
read_row_options (br__worksheet *w, br__run *run)
{
  static const char *const words[] = { "points", "bonus", "level", "ruler" };
  br_status status = BR_OK;
  size_t row = w->row_count - 1;
  unsigned told = 0, k = 0;
  while (status == BR_OK)
    {
      br__token at = run->lex.token;
      /* Own problems have neither levels nor rulers.  */
      for (k = 0; k < (w->rows[row].topic ? 4 : 2) && !br__lex_is_word (&run->lex, words[k]); k++)
        continue;
      if (k == (w->rows[row].topic ? 4 : 2))
        break;
      if (told & 1u << k)
        return br__fail (run->error, BR_SYNTAX, at.offset, at.length, "`%s` stands here twice", words[k]);
      told |= 1u << k;
      status = br__lex_next (&run->lex, run->error);
      if (k == 1)
        w->rows[row].bonus = 1;
      else if (status == BR_OK)
        status = k == 3 ? read_ruler (&w->rows[row].ruler, run)
                 : k == 2 ? br__clause_count (&w->rows[row].grade, run, "a level", 1, BR__GRADES)
                          : br__clause_count (&w->rows[row].points, run, "the points of a problem", 1, BR__MOST_POINTS);
    }
  if (status == BR_OK && w->rows[row].ruler.level && !br__lex_is_sign (&run->lex, ','))
    {
      w->ruler = w->rows[row].ruler;
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
      /* sums large: what the other words say is not left out of a hint.  */
      if (status == BR_SYNTAX && (topic || own) && (run->error->offset >= run->end
          || br__same_word (run->text + run->error->offset, run->error->length, "into")))
        br__hint (run->error, "write `worksheet %s %d into FILE.pdf`", own ? "own" : topic->name, own ? 1 : 5);
      if (status == BR_OK && w->row_count == BR__MOST_ROWS)
        status = br__fail (run->error, BR_TOO_BIG, at.offset, at.length, "more than %d topics on a paper", BR__MOST_ROWS);
      if (status == BR_OK && w->problem_count + (size_t) count > BR__MOST_PROBLEMS)
        status = br__fail (run->error, BR_TOO_BIG, at.offset, at.length, "more than %d problems on a paper", BR__MOST_PROBLEMS);
      if (status == BR_OK)
        {
          w->rows[w->row_count].topic = topic;
          w->rows[w->row_count].ruler.feet = w->ruler.feet;
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
  static const char *const words[] = { "ruler", "seed", "versions", "names", "size", "paper", "duplex" };
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

/* `school TEXT` and its like: nothing behind it leaves a line to fill in.  */
static br_status
read_field (br__worksheet *w, size_t field, br__run *run)
{
  br__token at = run->lex.token;
  size_t start = run->lex.next, end;
  while (start < run->end && br__blank_at (run->text + start, 1))
    start++;
  end = start;
  if (w->fields[field])
    return br__fail (run->error, BR_SYNTAX, at.offset, at.length, "`%s` stands here twice", br__field_words[field]);
  size_t word = word_end (run, start);
  if (!among (option_words, run->text + start, word - start) && !is_of_topic (run, start, word))
    clause_span (&start, &end, run, option_words);
  end -= end > start && run->text[end - 1] == ',';
  if (end - start > BR__MOST_FIELD)
    return br__fail (run->error, BR_TOO_BIG, start, end - start, "a text of more than %d bytes", BR__MOST_FIELD);
  w->fields[field] = br__strndup (run->text + start, end - start);
  return w->fields[field] ? br__lex_next (&run->lex, run->error) : br__fail_plain (run->error, BR_NO_MEMORY, 0, 0);
}

/* An error where the word at hand is said of a topic: "sums 2 size large points 2".  */
static br_status
not_of_topic (const br__worksheet *w, br__run *run)
{
  static const char *const words[][2] = { { "level", " 2" }, { "points", " 2" }, { "bonus", "" } };
  const br__token *at = &run->lex.token;
  for (unsigned i = 0; i < sizeof words / sizeof words[0]; i++)
    if (br__lex_is_word (&run->lex, words[i][0]))
      {
        br__fail (run->error, BR_SYNTAX, at->offset, at->length, "`%s` is said of a topic, and stands behind its count", words[i][0]);
        br__hint (run->error, "write `worksheet %s %lld %s%s into FILE.pdf`", w->rows[0].topic ? w->rows[0].topic->name : "own",
                  (long long) w->rows[0].count, words[i][0], words[i][1]);
        return BR_SYNTAX;
      }
  return BR_OK;
}

static br_status
read_option (br__worksheet *w, br__run *run)
{
  br_status status = once (w, run);
  if (status == BR_OK)
    status = not_of_topic (w, run);
  if (status != BR_OK)
    return status;
  for (size_t i = 0; i < BR__FIELDS; i++)
    if (br__lex_is_word (&run->lex, br__field_words[i]))
      return read_field (w, i, run);
  if (br__lex_is_word (&run->lex, "duplex"))
    {
      w->duplex = 1;
      return br__lex_next (&run->lex, run->error);
    }
  if (br__lex_is_word (&run->lex, "names"))
    {
      char *path = NULL;
      size_t start = run->lex.next;
      status = br__clause_file (&path, run, start, option_words, BR_FILE_READ);
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
  if (run->lex.token.type == BR__END)
    {
      br__expected (run, "`into FILE.pdf`");
      if (run->end < 90)
        br__hint (run->error, "write `%.*s into papers.pdf`", (int) run->end, run->text);
      return BR_SYNTAX;
    }
  if (!ruler && !seed && !br__lex_is_word (&run->lex, "versions"))
    return br__expected (run, "one of `ruler`, `seed`, `versions`, `names`, `size`, `paper`, `duplex`, `school`, `class`, `date`, `instruction` and `into FILE`");
  status = br__lex_next (&run->lex, run->error);
  if (status != BR_OK)
    return status;
  if (ruler)
    return read_ruler (&w->ruler, run);
  if (seed)
    return br__clause_count (&w->seed, run, "a seed", 0, INT64_C (999999999999999999));
  w->versions_given = 1;
  return br__clause_count (&w->versions, run, "the count of versions", 1, BR__MOST_VERSIONS);
}

br__ruler_of
br__sheet_ruler (const br__run *run)
{
  const br__settings *s = &run->sheet->settings;
  int metric = !br__settings_are_inches (s);
  br__ruler_of ruler = { metric ? 10 : 16, metric, strcmp (s->unit->name, "ft") == 0 };
  br__mark mark = BR__MARK_ZERO;
  if (br__settings_mark (&mark, s) == BR_OK)
    (void) ruler_of_mark (&ruler, &mark, metric);
  br_number_clear (&mark.size);
  return ruler;
}

/* 1 where the text of a field stands behind the word AT, in no quotes.  */
static int
starts_text (const br__run *run, const br__token *at)
{
  size_t start = br__skip_blanks (run->text, run->end, at->offset + at->length);
  return start < run->lex.token.offset && run->text[start] != '"' && among ("school class date instruction", run->text + at->offset, at->length);
}

/* AT, which is wrong as a clause, may be meant for a word of the text behind the word FIELD.  */
static void
hint_quotes (br__run *run, const br__token *field, const br__token *at)
{
  size_t start = br__skip_blanks (run->text, run->end, field->offset + field->length), end = start;
  if (among ("level points bonus", run->text + at->offset, at->length))
    return;
  clause_span (&start, &end, run, "into");
  br__hint (run->error, "if `%.*s` is a word of the text, put that in quotes: `%.*s \"%.*s\"`", br__clip (run->text + at->offset, at->length, 40),
            run->text + at->offset, (int) field->length, run->text + field->offset, br__clip (run->text + start, end - start, 100), run->text + start);
}

br_status
br__worksheet_read (br__worksheet *w, size_t *start, br__run *run)
{
  br__token text = { .length = 0 };     /* the word whose text ends at the token at hand */
  br_status status = read_rows (w, run);
  while (status == BR_OK && !br__lex_is_word (&run->lex, "into"))
    {
      br__token at = run->lex.token;
      status = read_option (w, run);
      if (status != BR_OK && text.length)
        hint_quotes (run, &text, &at);
      text = at;
      text.length = starts_text (run, &at) ? at.length : 0;
    }
  if (status != BR_OK)
    return status;
  *start = run->lex.next;
  return br__clause_file (&w->path, run, *start, "", BR_FILE_WRITE);
}
