/* SPDX-License-Identifier: LGPL-3.0-or-later
   numbers.c - numbers in words as digits: two and a half, three eighths, half an inch.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"
#include "phrase/words.h"

int64_t
br__cardinal (const br__words *l, size_t i)
{
  static const char *const names[] = { "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
                                       "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen",
                                       "eighteen", "nineteen" };
  static const char *const tens[] = { "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety" };
  enum { NAMES = sizeof names / sizeof names[0], TENS = sizeof tens / sizeof tens[0], DIGITS = 9 };
  if (i >= l->count || br__word_known (l, i))
    return 0;
  const char *s = l->word[i].s;
  size_t length = l->word[i].length;
  for (size_t k = 0; k < NAMES; k++)
    if (br__word_is (s, length, names[k]))
      return (int64_t) k + 1;
  for (size_t k = 0; k < TENS; k++)
    {
      size_t n = strlen (tens[k]);
      if (length < n || !br__word_is (s, n, tens[k]))
        continue;
      if (length == n)
        return 10 * (int64_t) (k + 2);
      for (size_t unit = 0; unit < DIGITS && s[n] == '-'; unit++)
        if (br__word_is (s + n + 1, length - n - 1, names[unit]))
          return 10 * (int64_t) (k + 2) + (int64_t) unit + 1;
    }
  return br__word_at (l, i, "a") || br__word_at (l, i, "an") ? 1 : 0;
}

int64_t
br__ordinal (const br__words *l, size_t i, int *plural)
{
  static const struct { const char *word; int d; } names[] = {
    { "whole", 1 }, { "half", 2 }, { "halves", 2 }, { "third", 3 }, { "quarter", 4 }, { "fourth", 4 }, { "fifth", 5 },
    { "sixth", 6 }, { "eighth", 8 }, { "tenth", 10 }, { "twelfth", 12 }, { "sixteenth", 16 }, { "hundredth", 100 } };
  static const struct { const char *typed; int d; } others[] = {
    { "thirty-second", 32 }, { "thirtysecond", 32 }, { "sixty-fourth", 64 }, { "sixtyfourth", 64 } };
  char word[20] = "";
  size_t n, k, at = 0;
  int64_t d = 0;
  int none;
  if (!plural)
    plural = &none;
  *plural = 0;
  if (i >= l->count || l->word[i].length >= sizeof word || br__word_known (l, i))
    return 0;
  for (n = 0; n < l->word[i].length; n++)
    word[n] = (char) (l->word[i].s[n] | 0x20);
  word[n] = 0;
  *plural = n > 3 && word[n - 1] == 's';
  if (*plural && strcmp (word, "halves") != 0)
    word[--n] = 0;
  for (k = 0; k < sizeof names / sizeof names[0]; k++)
    if (strcmp (word, names[k].word) == 0)
      return names[k].d;
  for (k = 0; k < sizeof others / sizeof others[0]; k++)
    if (strcmp (word, others[k].typed) == 0)
      return others[k].d;
  if (l->word[i].s[0] == '1' && l->word[i].length > 2 && l->word[i].s[1] == '/')
    at = 2;
  for (k = at; k < n && word[k] >= '0' && word[k] <= '9' && k < at + 3; k++)
    d = 10 * d + (word[k] - '0');
  /* The digits of 0x30 to 0x39 have the bit already.  */
  /* 2nd and 3rd are powers.  */
  return k > at && (strcmp (word + k, "th") == 0 || (strcmp (word + k, "nd") == 0 && d > 9)) ? d : 0;
}

int
br__word_is_unit (const br__words *l, size_t i)
{
  return i < l->count && br_unit_find (l->word[i].s, l->word[i].length) != NULL;
}

/* A fraction in words at I: half, a half, a quarter, three eighths, 3 eighths, 10 sixteenths; USED words.  */
static int
spoken_fraction (const br__words *l, size_t i, int64_t *n, int64_t *d, size_t *used)
{
  int64_t one = 0;
  int plural = 0;
  int digits = br__word_ratio (l, i, n, &one) && one == 1;
  if (!digits)
    *n = br__cardinal (l, i);
  size_t at = i + (digits || *n > 0);
  *d = br__ordinal (l, at, &plural);
  if (*d < 2 || (at > i ? !plural && *n != 1 && !br__word_is_unit (l, at + 1) : plural) || (br__word_begins_number (l, at) && !(digits && plural)))
    return 0;
  *n = at > i ? *n : 1;
  *used = at + 1 - i;
  return 1;
}

/* The bytes of the fraction that the word I begins with and goes on behind, as 3/8in and 5/16ths do; 0: none.  */
static size_t
fraction_before (const br__words *l, size_t i, int64_t *n, int64_t *d)
{
  size_t k = 0;
  while (i < l->count && k < l->word[i].length && strchr ("0123456789/", l->word[i].s[k]))
    k++;
  if (!k || k == l->word[i].length)
    return 0;
  br__words one = *l;
  one.word[i].length = k;
  return br__word_ratio (&one, i, n, d) && *d > 1 ? k : 0;
}

/* 3/8" and 3/8in, in one word.  */
static int
fraction_with_unit (const br__words *l, size_t i)
{
  int64_t n, d;
  size_t k = fraction_before (l, i, &n, &d);
  return k && n < d && br_unit_find (l->word[i].s + k, l->word[i].length - k);
}

/* What follows a spoken number, so that it is one: `of`, a unit, an article with a unit, an end behind two words.  */
static int
number_goes_on (const br__words *l, size_t i)
{
  return br__word_at (l, i, "of") || br__word_is_unit (l, i) || ((br__word_at (l, i, "an") || br__word_at (l, i, "a")) && br__word_is_unit (l, i + 1));
}

/* 3 inches and 3/8, a foot and a half: N is the whole number at I, before the unit, `and` and the fraction.  A part of a foot
   is one as it is spoken, a half or a quarter: another could be one of an inch.  */
static void
fraction_of_unit (br__words *l, size_t i, int64_t whole)
{
  int64_t n = 0, d = 1;
  size_t used = 1;
  int spoken = 0, inch = br__words_at (l, i + 1, "in|inch|inches");
  if (!br__word_is_unit (l, i + 1) || !br__words_at (l, i + 2, "and|&")
      || !((br__word_ratio (l, i + 3, &n, &d) && d > 1) || (spoken = spoken_fraction (l, i + 3, &n, &d, &used)))
      || n >= d || number_goes_on (l, i + 3 + used) || !(inch || (spoken && d <= 4)))
    return;
  br__words_make (l, i, 1, "%lld-%lld/%lld", (long long) whole, (long long) n, (long long) d);
  br__words_put (l, i + 2, 1 + used, "");
}

/* A number in digits or a name, or `the` before one.  */
static int
is_value (const br__words *l, size_t i)
{
  i += (size_t) br__word_at (l, i, "the");
  return br__word_begins_number (l, i) || br__word_known (l, i);
}

/* A sign, or a word that becomes one, beside which a number in words is one.  */
static int
is_sign_word (const br__words *l, size_t i)
{
  static const char *const words[] = { "plus", "minus", "times", "over", "into", "by", "divided", "multiplied", "squared", "cubed", "is", "are", "equals" };
  if (i >= l->count || br__word_known (l, i))
    return 0;
  if (l->word[i].length == 1 && strchr ("+-*/=", l->word[i].s[0]))
    return 1;
  for (size_t k = 0; k < sizeof words / sizeof words[0]; k++)
    if (br__word_at (l, i, words[k]))
      return 1;
  return 0;
}

/* 5/16ths: the bytes of its fraction, else 0.  */
static size_t
fraction_of_ordinal (const br__words *l, size_t i)
{
  int64_t n, d;
  size_t k = fraction_before (l, i, &n, &d);
  const char *s = l->word[i].s + k;
  size_t length = l->word[i].length - k;
  length -= length > 2 && s[length - 1] == 's';
  return length == 2 && (br__same_word (s, 2, "th") || br__same_word (s, 2, "nd") || br__same_word (s, 2, "rd")) ? k : 0;
}

/* 2 and 3/8, two and a half, three eighths, half an inch, two feet: as digits.  */
void
br__phrase_numbers (br__words *l)
{
  for (size_t i = 0; i < l->count; i++)
    {
      size_t ratio = fraction_of_ordinal (l, i);
      if (ratio)
        l->word[i].length = ratio, l->changed = 1;
      int64_t n, d = 1, whole = 0, one = 0;
      size_t used = 0;
      if (br__word_known (l, i))
        continue;
      /* Half a dozen, 2 dozen; inch and a half: of one.  */
      if (br__words_at (l, i, "half a dozen") || br__words_at (l, i, "1/2 a dozen"))
        br__words_put (l, i, 3, "6");
      else if (br__words_at (l, i + 1, "dozen") && ((br__word_ratio (l, i, &n, &one) && one == 1) || (n = br__cardinal (l, i)) > 0))
        br__words_make (l, i, 2, "%lld", (long long) (12 * n));
      else if (br__words_at (l, i, "inch|foot and") && (i == 0 || is_sign_word (l, i - 1)))
        br__words_put (l, i, 0, "1");
      else if (br__word_at (l, i, "zero") || (i && br__words_at (l, i, "a|an") && br__word_is_unit (l, i + 1) && !br__words_at (l, i + 1, "box|square|grid") && !br__words_at (l, i - 1, "of|half|quarter|per|in|to")
                                              && !br__word_begins_number (l, i - 1) && !br__ordinal (l, i - 1, NULL)))
        br__words_put (l, i, 1, br__word_at (l, i, "zero") ? "0" : "1");
      one = 0;
      if (br__cardinal (l, i) >= 20 && br__cardinal (l, i) % 10 == 0 && br__cardinal (l, i + 1) > 0 && br__cardinal (l, i + 1) < 10
          && !br__words_at (l, i + 1, "a|an") && !spoken_fraction (l, i + 1, &n, &d, &used))
        br__words_make (l, i, 2, "%lld", (long long) (br__cardinal (l, i) + br__cardinal (l, i + 1)));
      if ((br__word_ratio (l, i, &whole, &one) && one == 1) || (whole = br__cardinal (l, i)) > 0)
        {
          fraction_of_unit (l, i, whole);
          if (one == 1 && br__word_begins_number (l, i + 1) && spoken_fraction (l, i + 1, &n, &d, &used) && n < d && used > 1)
            br__words_make (l, i, 1 + used, "%lld-%lld/%lld", (long long) whole, (long long) n, (long long) d);
        }
      if (br__word_at (l, i + 1, "and") || br__word_at (l, i + 1, "&"))
        {
          int found = (br__word_ratio (l, i, &whole, &one) && one == 1) || ((whole = br__cardinal (l, i)) > 0 && !br__word_at (l, i, "a"));
          if (found && br__word_ratio (l, i + 2, &n, &d) && d > 1 && n < d)
            br__words_make (l, i, 3, "%lld-%lld/%lld", (long long) whole, (long long) n, (long long) d);
          else if (found && spoken_fraction (l, i + 2, &n, &d, &used))
            br__words_make (l, i, 2 + used, "%lld-%lld/%lld", (long long) whole, (long long) n, (long long) d);
          else if (found && fraction_with_unit (l, i + 2))
            br__words_make (l, i, 3, "%lld-%.*s", (long long) whole, (int) l->word[i + 2].length, l->word[i + 2].s);
        }
      /* Behind a number it would be a part of that, 5.1 tenths.  */
      else if (!(i > 0 && br__word_begins_number (l, i - 1)) && spoken_fraction (l, i, &n, &d, &used)
               && (used > 1 || number_goes_on (l, i + 1) || (br__word_at (l, i, "half") && is_value (l, i + 1))))
        {
          br__words_make (l, i, used, "%lld/%lld", (long long) n, (long long) d);
          if (used == 1 && br__word_at (l, i + 1, "the") && is_value (l, i + 2))
            br__words_put (l, i + 1, 1, "");
          if (used == 1 && is_value (l, i + 1))
            br__words_put (l, i + 1, 0, "*");
        }
      else if ((n = br__cardinal (l, i)) > 0 && !br__word_at (l, i, "a") && !br__word_at (l, i, "an")
               && (br__word_is_unit (l, i + 1) || (i > 0 && is_sign_word (l, i - 1)) || is_sign_word (l, i + 1)))
        br__words_make (l, i, 1, "%lld", (long long) n);
      if (br__word_begins_number (l, i) && (br__word_at (l, i + 1, "an") || br__word_at (l, i + 1, "a")) && br__word_is_unit (l, i + 2))
        br__words_put (l, i + 1, 1, "");
      if (br__word_begins_number (l, i) && br__words_at (l, i + 1, "of a|an") && br__word_is_unit (l, i + 3))
        br__words_put (l, i + 1, 2, "");
    }
}
