/* SPDX-License-Identifier: LGPL-3.0-or-later
   phrase_loose.c - a line that no phrase takes as it was typed, in plainer words: without articles and the like, each
   measure as one word, so that `a 3 1/2 inch wheel` is read as `3-1/2in wheel`.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"
#include "statement/phrase.h"
#include "statement/phrase_words.h"
#include "statement/statements.h"

const br_number *
br__words_grid (const br__words *l)
{
  static const br_number one = { 1, 0 };
  const br_number *grid = &l->run->sheet->settings.grid;
  return br_number_sign (grid) ? grid : &one;
}

/* The word I is a measure with a unit or without; *UNIT tells.  */
int
br__word_measure (const br__words *l, size_t i, const br_unit **unit)
{
  br_measure m = BR_MEASURE_ZERO;
  int found = br__word_begins_number (l, i) && br_measure_read (&m, l->word[i].s, l->word[i].length, br__words_grid (l), NULL) == BR_OK;
  *unit = found ? m.unit : NULL;
  br_measure_clear (&m);
  return found;
}

/* `in` before a value, a unit or an article is no inch: slope 1 in 12, 3/8 in mm.  */
static int
is_unit (const br__words *l, size_t i)
{
  const br_unit *u;
  if (!br__word_is_unit (l, i) || br__word_known (l, i))
    return 0;
  u = br_unit_find (l->word[i].s, l->word[i].length);
  if (u->dimension != BR_LENGTH)
    return 0;
  return !br__word_at (l, i, "in") || !(br__word_begins_number (l, i + 1) || br__word_is_unit (l, i + 1) || br__word_known (l, i + 1)
                                       || br__words_at (l, i + 1, "a|an|the|my|how|what|half|order|total|all|decimals|decimal|fractions")
                                       || br__words_at (l, i + 1, "fraction|lowest|simplest|metric|words|percent|feet|each|equal"));
}

/* Glues the words of a measure at I: 3 1/2 in, 5 ft 2 in.  A comma behind its end stays there.  */
static void
glue_measure (br__words *l, size_t i)
{
  int64_t n, d, whole, one;
  const br_unit *unit;
  int comma = 0;
  if (br__word_ratio (l, i, &whole, &one) && one == 1)
    {
      const size_t length = i + 1 < l->count ? l->word[i + 1].length : 0;
      comma = length && l->word[i + 1].s[length - 1] == ',';
      if (length)
        l->word[i + 1].length -= (size_t) comma;
      if (length && br__word_ratio (l, i + 1, &n, &d) && d > 1 && n < d && !memchr (l->word[i + 1].s, ',', l->word[i + 1].length))
        br__words_make (l, i, 2, "%lld-%lld/%lld%s", (long long) whole, (long long) n, (long long) d, comma ? "," : "");
      else if (length)
        l->word[i + 1].length += (size_t) comma, comma = 0;
    }
  if (comma || i + 1 >= l->count || !br__word_measure (l, i, &unit) || unit)
    return;
  size_t length = l->word[i + 1].length;
  comma = l->word[i + 1].s[length - 1] == ',';
  l->word[i + 1].length -= (size_t) comma;
  if (is_unit (l, i + 1) || (comma && br__word_at (l, i + 1, "in")))
    {
      const br_unit *u = br_unit_find (l->word[i + 1].s, l->word[i + 1].length);
      br__words_make (l, i, 2, "%.*s%s%s", (int) l->word[i].length, l->word[i].s,
                      u->num ? u->name : "squares", comma ? "," : "");
    }
  else
    l->word[i + 1].length += (size_t) comma;
}

/* Minus 2 gaps, where gap is a size: 2 * gap.  */
static void
count_sizes (br__words *l, size_t i)
{
  int64_t n, d;
  br__words one = { .run = l->run, .word = { l->word[i + 1] }, .count = 1 };
  if (i && br__words_at (l, i - 1, "plus|minus|less|+|-") && br__word_ratio (l, i, &n, &d) && d == 1 && !br__word_known (l, i + 1)
      && one.word[0].length-- > 2 && one.word[0].s[one.word[0].length] == 's' && br__word_known (&one, 0))
    br__words_make (l, i, 2, "%lld * %.*s", (long long) n, (int) one.word[0].length, one.word[0].s);
}

/* 5ft 2in: one word.  */
static void
glue_feet (br__words *l, size_t i)
{
  const br_unit *a, *b;
  size_t length = i + 1 < l->count ? l->word[i + 1].length : 0;
  if (!length || !br__word_measure (l, i, &a) || !a || strcmp (a->name, "ft") != 0)
    return;
  length -= l->word[i + 1].s[length - 1] == ',';
  br__words one = *l;
  one.word[i + 1].length = length;
  if (br__word_measure (&one, i + 1, &b) && b && strcmp (b->name, "in") == 0)
    br__words_make (l, i, 2, "%.*s%.*s", (int) l->word[i].length, l->word[i].s, (int) l->word[i + 1].length, l->word[i + 1].s);
}

/* diagonal 6x8, and a line from 0,0 to 5,5: two measures in one word, where it can be no lumber and no decimal comma.  */
static void
part_pairs (br__words *l)
{
  const int line = br__words_among (l, "line|bar from to");
  if (!(line || br__words_among (l, "diagonal|hypotenuse|area|perimeter|volume|+|-|plus|minus")) || br__words_among (l, "board-|stock|lumber|stud-|plank-"))
    return;
  for (size_t i = 0; i < l->count; i++)
    {
      const char *s = l->word[i].s, *x = memchr (s, line ? ',' : 'x', l->word[i].length);
      const size_t n = x ? (size_t) (x - s) : 0, length = l->word[i].length;
      if (!n || n + 1 == length || l->count + 2 > BR__MOST_WORDS || !br__word_begins_number (l, i) || !br__measure_begins (s, length, n + 1))
        continue;
      const size_t next = i + (line ? 1 : 2);
      br__words_put (l, i, 1, line ? "a b" : "a x b");
      l->word[i].s = s;
      l->word[i].length = n + (size_t) line;
      l->word[next].s = x + 1;
      l->word[next].length = length - n - 1;
    }
}

void
br__words_loosen (br__words *l)
{
  static const char *const fillers[] = { "a", "an", "the", "my", "our", "your", "his", "her", "please", "just", "exactly", "altogether", "so",
                                         "then", "ok", "okay", "really", "actually", "there", "also", "pls", "plz", "thx", "thanks", "hey", "hi" };
  size_t last = l->count ? l->count - 1 : 0;
  if (l->count)
    l->word[last].length = br__word_bare (l, last, "?!.");
  part_pairs (l);
  br__phrase_numbers (l);
  for (size_t i = 0; i < l->count; i++)
    glue_measure (l, i);
  for (size_t i = 0; i + 1 < l->count; i++)
    {
      glue_feet (l, i);
      if (i + 1 < l->count)
        count_sizes (l, i);
    }
  /* What a note says is its text, not manners.  */
  for (size_t i = br__word_at (l, 0, "note") ? l->count : 0; i < l->count; )
    {
      int drops = 0;
      for (size_t k = 0; k < sizeof fillers / sizeof fillers[0] && l->count > 1 && !br__word_known (l, i); k++)
        drops |= br__word_at (l, i, fillers[k]);
      /* a = 3: a name.  */
      if (drops && !(i + 1 == l->count && br__words_at (l, i, "ok|okay")) && !(i + 1 < l->count && br__words_at (l, i + 1, "=|<|>|<=|>=|+|-|*|/")))
        br__words_put (l, i, 1, "");
      else
        i++;
    }
}

int
br__phrase_loose (br_text *t, const br__run *run)
{
  br__words l = { .run = run };
  br__words_cut (&l);
  if (l.count == 0 || l.count == BR__MOST_WORDS)
    return 0;
  br__words_loosen (&l);
  for (size_t i = 0; i < l.count; i++)
    {
      br__text_puts (t, i ? " " : "");
      br__text_put (t, l.word[i].s, l.word[i].length);
    }
  return l.count > 0 && !t->failed;
}

/* ---- Lines that are right in the language, and that people mean otherwise ---- */

/* x = five, which would wait for `five`.  */
static int
waits_for_number (const br__words *l)
{
  int found = l->count > 2 && br__word_at (l, 1, "=");
  for (size_t i = 2; i < l->count && found; i++)
    if (br__cardinal (l, i) && !br__words_at (l, i, "a|an"))
      return 1;
  return 0;
}

/* 2ft,3in: one length, or two.  */
int
br__phrase_feet_hint (br__run *run, const br__words *l)
{
  const char *s = l->word[0].s, *comma = memchr (s, ',', l->word[0].length);
  const size_t feet = comma ? (size_t) (comma - s) : 0, inches = comma ? l->word[0].length - feet - 1 : 0;
  br_measure a = BR_MEASURE_ZERO, b = BR_MEASURE_ZERO;
  int found = l->count == 1 && comma && inches && l->word[0].length < 60
              && br_measure_read (&a, s, feet, NULL, NULL) == BR_OK && br_measure_read (&b, comma + 1, inches, NULL, NULL) == BR_OK
              && a.unit && b.unit && strcmp (a.unit->name, "ft") == 0 && strcmp (b.unit->name, "in") == 0;
  if (found)
    {
      br__fail_two_ways (run, 0, run->end);
      br__hint (run->error, "write `%.*s %.*s` or `%.*s, %.*s`", (int) feet, s, (int) inches, comma + 1, (int) feet, s, (int) inches, comma + 1);
    }
  br_measure_clear (&a);
  br_measure_clear (&b);
  return found;
}

int
br__phrase_first (br__run *run)
{
  br__words l = { .run = run };
  br__words_cut (&l);
  if (l.count == 0 || l.count == BR__MOST_WORDS)
    return 0;
  if (br__phrase_feet_hint (run, &l))
    return 1;
  const size_t last = l.count - 1;
  if (last && br__words_at (&l, 0, "tolerance|known") && br__words_at (&l, last, "everything|all|them|these|it|this|that") && !br__word_known (&l, last))
    {
      br__fail (run->error, BR_SYNTAX, (size_t) (l.word[last].s - run->text), l.word[last].length, "the sizes stand here by their names");
      br__hint (run->error, "write `list`, which has them all");
      return 1;
    }
  /* part leg = 200 x 40 x2: two of them, or 2 thick.  */
  if (last > 4 && br__word_at (&l, 0, "part") && br__word_at (&l, last - 2, "x") && l.word[last].length > 1 && l.word[last].s[0] == 'x'
      && strspn (l.word[last].s + 1, "0123456789") >= l.word[last].length - 1)
    {
      const int before = (int) (l.word[last].s - run->text), n = (int) l.word[last].length - 1;
      br__fail_two_ways (run, 0, run->end);
      if (run->end < 60)
        br__hint (run->error, "write `%.*sqty %.*s` or `%.*sx %.*s`", before, run->text, n, l.word[last].s + 1, before, run->text, n, l.word[last].s + 1);
      return 1;
    }
  if (!waits_for_number (&l))
    return 0;
  br__fail (run->error, BR_SYNTAX, 0, run->end, "a number in words");
  return 1;
}
