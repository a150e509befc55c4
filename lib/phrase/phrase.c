/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase.c - reads what people type: a line that is no statement is cut into words, and phrases that mean one thing are
   put in the words of the language.  Words are taken as they are spoken; a name that the sheet knows is never one of them.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "measure/measure.h"
#include "phrase/phrase.h"
#include "phrase/words.h"

size_t
br__word_bare (const br__words *l, size_t i, const char *marks)
{
  size_t length = l->word[i].length;
  while (length > 1 && strchr (marks, l->word[i].s[length - 1]))
    length--;
  return length;
}

int
br__word_at (const br__words *l, size_t i, const char *word)
{
  return i < l->count && br__word_is (l->word[i].s, l->word[i].length, word);
}

int
br__word_starts (const br__words *l, size_t i, const char *word, size_t length)
{
  for (size_t k = 0; k < length; k++)
    {
      char c = l->word[i].s[k];
      if ((c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c) != word[k])
        return 0;
    }
  return 1;
}

/* 1 where the words from I on are those of PHRASE, which blanks part; a word | word is one of them.  */
int
br__words_at (const br__words *l, size_t i, const char *phrase)
{
  for (; *phrase; i++)
    {
      int found = 0;
      for (;;)
        {
          size_t n = strcspn (phrase, " |");
          found |= i < l->count && l->word[i].length == n && br__word_starts (l, i, phrase, n);
          phrase += n;
          if (*phrase != '|')
            break;
          phrase++;
        }
      if (!found)
        return 0;
      phrase += *phrase == ' ';
    }
  return 1;
}

size_t
br__words_of (const char *phrase)
{
  size_t n = *phrase != 0;
  for (; *phrase; phrase++)
    n += *phrase == ' ';
  return n;
}

/* Puts the words of TEXT, which is kept by the caller, in the place of N words from I on.  */
void
br__words_put (br__words *l, size_t i, size_t n, const char *text)
{
  size_t more = br__words_of (text);
  if (i + n > l->count || l->count - n + more > BR__MOST_WORDS)
    return;
  memmove (&l->word[i + more], &l->word[i + n], (l->count - i - n) * sizeof l->word[0]);
  l->count = l->count - n + more;
  for (; more; more--, i++)
    {
      l->word[i].s = text;
      l->word[i].length = strcspn (text, " ");
      text += l->word[i].length + (text[l->word[i].length] == ' ');
    }
  l->changed = 1;
}

void
br__words_make (br__words *l, size_t i, size_t n, const char *format, ...)
{
  va_list args;
  if (l->made_count == BR__MOST_MADE)
    return;
  va_start (args, format);
  int length = vsnprintf (l->made[l->made_count], sizeof l->made[0], format, args);
  va_end (args);
  if (length > 0 && (size_t) length < sizeof l->made[0])
    br__words_put (l, i, n, l->made[l->made_count++]);
}

int
br__ends_in (const char *s, size_t length, const char *endings, size_t count)
{
  const char *end = endings + count;
  for (const char *bar; endings < end; endings = bar + 1)
    {
      bar = memchr (endings, '|', (size_t) (end - endings));
      bar = bar ? bar : end;
      size_t n = (size_t) (bar - endings);
      char word[8];
      snprintf (word, sizeof word, "%.*s", (int) n, endings);
      if (length > n && br__same_word (s + length - n, n, word))
        return 1;
    }
  return 0;
}

int
br__word_known (const br__words *l, size_t i)
{
  return l->run->lex.known && i < l->count && l->run->lex.known (l->run->lex.user, l->word[i].s, l->word[i].length);
}

/* The word I is a name of the sheet and not what the number beside it is said of, as in 3 in wheel and gap 1/4.  */
int
br__word_meant (const br__words *l, size_t i)
{
  return br__word_known (l, i) && !br__word_begins_number (l, i + 1) && !(i && br__word_begins_number (l, i - 1));
}

int
br__word_is_new (const br__words *l, size_t i)
{
  const char *s = l->word[i].s;
  size_t length = l->word[i].length;
  for (size_t k = 0, n; k < length; k += n)
    if ((n = br__letter_at (s + k, length - k, k > 0)) == 0)
      return 0;
  /* Of several wheels is spoken, where there is a wheel.  */
  return !br__word_called (&length, l, i) && (!br__cardinal (l, i) || br__words_at (l, i, "a|an")) && !br__word_asks (s, length) && !br__statement_of (l->run, s, length) && !br__function_find (s, length) && !br_unit_find (s, length);
}

int
br__word_begins_number (const br__words *l, size_t i)
{
  return i < l->count && br__measure_begins (l->word[i].s, l->word[i].length, 0);
}

/* 1 for a whole number in digits, or a proper fraction in digits, in the word I.  */
int
br__word_ratio (const br__words *l, size_t i, int64_t *n, int64_t *d)
{
  br_measure m = BR_MEASURE_ZERO;
  int found = i < l->count && br_measure_read (&m, l->word[i].s, l->word[i].length, NULL, NULL) == BR_OK && !m.unit
              && !memchr (l->word[i].s, '-', l->word[i].length) && !memchr (l->word[i].s, '.', l->word[i].length)
              && br_number_get_ratio (n, d, &m.value);
  br_measure_clear (&m);
  return found;
}

/* ---- Signs in words ---- */

/* 1 where a sum goes on behind I, so that a product in words before it could be meant of the whole.  */
int
br__sum_follows (const br__words *l, size_t i)
{
  for (; i < l->count && !br__word_at (l, i, "to"); i++)
    if (br__word_at (l, i, "plus") || br__word_at (l, i, "minus")
        || (l->word[i].length == 1 && (l->word[i].s[0] == '+' || l->word[i].s[0] == '-')))
      return 1;
  return 0;
}

/* 1 for a fraction or a per cent before `of`.  */
int
br__takes_of (const br__words *l, size_t i)
{
  int64_t n, d;
  return (br__word_ratio (l, i, &n, &d) && d > 1) || l->word[i].s[l->word[i].length - 1] == '%' || br__word_at (l, i, "percent")
         || br__word_at (l, i, "cent");
}

void
br__phrase_signs (br__words *l)
{
  static const struct { const char *phrase, *sign; } table[] = {
    { "plus or minus", "+-" }, { "plus minus", "+-" }, { "+ or -", "+-" }, { "give or take", "+-" }, { "plus", "+" }, { "minus", "-" }, { "times", "*" }, { "multiplied by", "*" }, { "divided by", "/" }, { "over", "/" },
    { "added to", "+" }, { "squared", "^2" }, { "cubed", "^3" } };
  static const struct { const char *phrase, *product; } firsts[] = {
    { "twice", "2 *" }, { "double", "2 *" }, { "thrice", "3 *" }, { "triple", "3 *" } };
  for (size_t i = 0; i < l->count; i++)
    {
      if (br__word_known (l, i))
        continue;
      for (size_t k = 0; k < sizeof firsts / sizeof firsts[0]; k++)
        if (br__word_at (l, i, firsts[k].phrase) && i + 1 < l->count && !br__sum_follows (l, i + 1) && !br__word_at (l, 0, "scale"))
          br__words_put (l, i, br__word_at (l, i + 1, "the") ? 2 : 1, firsts[k].product);
      /* 3/8 squared is a power of the whole of it.  */
      int64_t n, d;
      if (i > 0 && br__words_at (l, i, "squared|cubed") && br__word_ratio (l, i - 1, &n, &d) && d > 1
          && !(i > 1 && br__word_begins_number (l, i - 2)))
        br__words_make (l, i - 1, 1, "(%.*s)", (int) l->word[i - 1].length, l->word[i - 1].s);
      for (size_t k = 0; k < sizeof table / sizeof table[0] && i > 0; k++)
        if (br__words_at (l, i, table[k].phrase) && !(br__word_at (l, i, "over") && i + 1 == l->count))
          br__words_put (l, i, br__words_of (table[k].phrase), table[k].sign);
      if (br__word_at (l, i, "of") && i > 0 && br__takes_of (l, i - 1) && !br__sum_follows (l, i + 1))
        br__words_put (l, i, br__word_at (l, i + 1, "the") ? 2 : 1, "*");
    }
}

/* half scale, 1/2 scale, full size: a line of its own.  A quarter scale may be inches to the foot.  */
static void
scales (br__words *l)
{
  static const char *const sizes[] = { "half", "full", "double" };
  if (l->count != 2 || !(br__word_at (l, 1, "scale") || br__word_at (l, 1, "size")))
    return;
  if (l->word[0].length == 3 && memcmp (l->word[0].s, "1/2", 3) == 0)
    br__words_put (l, 0, 2, "scale half");
  else if (br__word_at (l, 0, "quarter") && br__word_at (l, 1, "size"))
    br__words_put (l, 0, 2, "scale quarter");
  else if (br__word_at (l, 0, "eighth") && br__word_at (l, 1, "size"))
    br__words_put (l, 0, 2, "scale eighth");
  for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
    if (br__word_at (l, 0, sizes[i]))
      {
        static const char *const said[] = { "scale half", "scale full", "scale double" };
        br__words_put (l, 0, 2, said[i]);
      }
}

/* full size 5 3/8, 5 3/8 at full size, drawn size of wheel */
static void
sizes (br__words *l)
{
  if (l->count > 2 && (br__word_at (l, 0, "full") || br__word_at (l, 0, "drawn")) && br__word_at (l, 1, "size"))
    br__words_put (l, 1, br__word_at (l, 2, "of") ? 2 : 1, "");
  else if (l->count > 2 && br__word_at (l, l->count - 1, "size") && (br__word_at (l, l->count - 2, "full") || br__word_at (l, l->count - 2, "drawn")))
    {
      const char *word = br__word_at (l, l->count - 2, "full") ? "full" : "drawn";
      br__words_put (l, l->count - 2, 2, "");
      if (br__word_at (l, l->count - 1, "at") || br__word_at (l, l->count - 1, "in"))
        br__words_put (l, l->count - 1, 1, "");
      br__words_put (l, br__word_at (l, 1, "=") ? 2 : 0, 0, word);
    }
}

/* ---- Marks ---- */

/* A mark at I, `the nearest eighth of an inch`: as 1/8 or 1/8 in.  1 where one stands there.  */
static int
mark (br__words *l, size_t i)
{
  while (br__word_at (l, i, "the") || br__word_at (l, i, "nearest") || br__word_at (l, i, "closest"))
    br__words_put (l, i, 1, "");
  if ((br__word_at (l, i, "a") || br__word_at (l, i, "an")) && br__ordinal (l, i + 1, NULL))
    br__words_put (l, i, 1, "");
  int64_t d = br__ordinal (l, i, NULL);
  if (d && (l->word[i].s[0] < '0' || l->word[i].s[0] > '9' || l->word[i].s[l->word[i].length - 1] > '9'))
    {
      int inch = br__words_at (l, i + 1, "of an inch") ? 3 : br__words_at (l, i + 1, "of inch") ? 2 : br__word_at (l, i + 1, "inch") || br__word_at (l, i + 1, "in") ? 1 : 0;
      if (d == 1)
        br__words_put (l, i, 1 + (size_t) inch, inch ? "1 in" : "1");
      else
        {
          br__words_make (l, i, 1 + (size_t) inch, inch ? "1/%lld in" : "1/%lld", (long long) d);
        }
      return 1;
    }
  if (br__word_begins_number (l, i) && br__words_at (l, i + 1, "of an inch"))
    br__words_put (l, i + 1, 3, "in");
  return br__word_begins_number (l, i);
}

/* deck/5, (deck + 1)/2 and 2*deck: a formula begins in the word I.  */
static int
begins_formula (const br__words *l, size_t i)
{
  const char *s = l->word[i].s, *end = s + l->word[i].length;
  size_t n = 0;
  while (s < end && *s == '(')
    s++;
  while (s + n < end && br__letter_at (s + n, 1, 1))
    n++;
  const br__words one = { .run = l->run, .word = { { s, n } }, .count = 1 };
  return br__word_begins_number (&one, 0) || br__word_known (&one, 0);
}

static void
marks (br__words *l)
{
  int rounds = br__word_at (l, 0, "round") || br__word_at (l, 0, "rounded");
  if (br__word_at (l, 0, "rounded"))
    br__words_put (l, 0, 1, "round");
  if (rounds && br__word_at (l, 1, "off"))
    br__words_put (l, 1, 1, "");
  if (br__word_at (l, 0, "ruler") || br__word_at (l, 0, "grid") || br__word_at (l, 0, "kerf"))
    {
      if (br__word_at (l, 1, "to") || br__word_at (l, 1, "of"))
        br__words_put (l, 1, 1, "");
      mark (l, 1);
      return;
    }
  for (size_t i = 1; i + 1 < l->count; i++)
    {
      if (br__word_at (l, i, "rounded") || (br__word_at (l, i, "nearest") && rounds))
        {
          br__words_put (l, i, 1, br__word_at (l, i + 1, "to") ? "" : "to");
          if (i > 1 && br__word_at (l, i - 1, "to") && br__word_at (l, i, "to"))
            br__words_put (l, i, 1, "");
        }
      if (!br__word_at (l, i, "to") || !(br__word_at (l, i + 1, "the") || br__word_at (l, i + 1, "nearest") || br__word_at (l, i + 1, "closest")
                                || br__word_begins_number (l, i + 1) || br__ordinal (l, i + 1, NULL)
                                || ((br__word_at (l, i + 1, "a") || br__word_at (l, i + 1, "an")) && br__ordinal (l, i + 2, NULL))))
        continue;
      if (!mark (l, i + 1))
        continue;
      if (begins_formula (l, 0))
        {
          br__words_put (l, 0, 0, "round");
          i++;
        }
      /* round to 1/8 3.57 */
      if (i == 1 && rounds && i + 2 < l->count && !br__word_is_unit (l, i + 2) && !br__word_at (l, i + 2, "up") && !br__word_at (l, i + 2, "down"))
        {
          const char *size = l->word[2].s;
          size_t length = l->word[2].length;
          size_t end = l->count;
          br__words_put (l, end, 0, "to mark");
          l->word[end + 1].s = size;
          l->word[end + 1].length = length;
          br__words_put (l, 1, 2, "");
          if (br__word_at (l, 1, "of"))
            br__words_put (l, 1, 1, "");
        }
      return;
    }
}

/* The sign at AT parts a name, from START on, from its value: wheel=3, wheel:3.  */
static int
parts_name (const br__run *run, size_t start, size_t at)
{
  const char next = at + 1 < run->end ? run->text[at + 1] : ' ';
  if (at == start || !(run->text[at] == '=' ? next != '=' : run->text[at] == ':' && (next == '.' || (next >= '0' && next <= '9'))
                                                            && br__letter_at (run->text + start, 1, 0)))
    return 0;
  while (start < at && br__letter_at (run->text + start, 1, 1))
    start++;
  return start == at;
}

void
br__words_cut (br__words *l)
{
  const br__run *run = l->run;
  for (size_t at = 0, n; at < run->end && l->count < BR__MOST_WORDS; )
    {
      if ((n = br__blank_at (run->text + at, run->end - at)) > 0)
        {
          at += n;
          continue;
        }
      const size_t start = at, sign = strchr ("=:", run->text[at]) && l->count && l->word[l->count - 1].s + l->word[l->count - 1].length == run->text + at;
      at += sign;
      while (!sign && at < run->end && !br__blank_at (run->text + at, run->end - at) && !parts_name (run, start, at))
        at++;
      l->word[l->count].s = run->text + start;
      l->word[l->count++].length = at - start;
    }
}

/* wheel / 2 in mm, sqrt 2 in mm: the product in that unit.  In a sheet of millimetres, 2 in could be two inches.  */
static void
convert_product (br__words *l)
{
  size_t last = l->count - 1;
  int product = br__function_find (l->word[0].s, l->word[0].length) != NULL || (begins_formula (l, 0) && !br__word_known (l, 0) && !br__word_begins_number (l, 0));
  if (l->count < 3 || !br__word_is_unit (l, last) || !br__words_at (l, last - 1, "in|into|to|as")
      || (strcmp (l->run->sheet->settings.unit->name, "in") != 0 && br__word_begins_number (l, last - 2)))
    return;
  for (size_t i = 1; i < last - 1; i++)
    {
      if (br__word_is_unit (l, i) || br__words_at (l, i, "=|in|into|to|as"))
        return;
      product |= br__words_at (l, i, "*|/") || l->word[i].s[0] == '^';
    }
  if (product)
    {
      br__words_put (l, last - 1, 0, ")");
      br__words_put (l, 0, 0, "(");
    }
}

static int
put_phrase (br_text *t, br__words *l)
{
  const br__run *run = l->run;
  if (l->count == BR__MOST_WORDS || l->count == 0)
    return 0;
  if (br__phrase_thing (&l->row, l) || (br__text_reset (&l->row), br__phrase_row (&l->row, l)))
    {
      br__run made = *run;
      made.text = br__text_string (&l->row);
      made.end = l->row.length;
      l->count = 0;
      l->changed = 1;
      l->run = &made;
      br__words_cut (l);
      l->run = run;
    }
  scales (l);
  sizes (l);
  marks (l);
  /* What stands behind `save over` is the name of a file, and no sum.  */
  const br__statement *st = br__statement_of (l->run, l->word[0].s, l->word[0].length);
  if (!st || st->follow != BR__FOLLOW_FILE)
    {
      br__phrase_list (l);
      br__phrase_numbers (l);
      br__phrase_signs (l);
      convert_product (l);
    }
  for (size_t i = 0; i < l->count && l->changed; i++)
    {
      if (i > 0 && !(l->word[i].s[0] == '^' && l->word[i].length == 2) && !br__word_at (l, i, ","))
        br__text_putc (t, ' ');
      br__text_put (t, l->word[i].s, l->word[i].length);
    }
  int same = t->length == l->run->end && memcmp (br__text_string (t), l->run->text, t->length) == 0;
  return l->changed && !same && l->count > 0 && !t->failed;
}

int
br__phrase (br_text *t, br_text *left_out, const br__run *run)
{
  br__words l = { .run = run };
  if (br__phrase_cell (t, left_out, run))
    return 1;
  br__text_reset (t);
  br_text spelled = BR_TEXT_ZERO;
  br__run made = *run;
  int respelled = br__respell (&spelled, run, 0);
  if (respelled)
    {
      made.text = br__text_string (&spelled);
      made.end = made.length = spelled.length;
      l.run = &made;
    }
  br__phrase_frame (&l);
  int changed = put_phrase (t, &l);
  t->failed |= l.row.failed || spelled.failed;
  if (respelled && !changed)
    {
      br__text_reset (t);
      br__text_put (t, made.text, made.end);
    }
  br__text_clear (&l.row);
  br__text_clear (&spelled);
  return (respelled || changed) && !t->failed;
}
