/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer_tail.c - words behind a size: a remark, or something that makes another value of it.  Names and adjectives are remarks;
   what changes a value does so by words of a small kind, "and a", "off", "was", "would", "without".  Which of them pupils write
   is common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/answer.h"
#include "measure/measure.h"

/* "Not counting the last bit", "not including kerf": what stands there is no part of the answer.  */
static int
leaves_out (const br__answer *a, size_t at)
{
  return strncmp (a->text + at, "not counting", 12) == 0 || strncmp (a->text + at, "not including", 13) == 0;
}

int
br__is_changing (const br__answer *a, size_t at, size_t end)
{
  /* "Not", "no" and "never" of other languages, too; a letter past ASCII is a z here.  */
  static const char *const words[] =
  {
    "not", "cannot", "never", "neither", "nor", "nope", "hardly", "doubt", "anything", "everything", "nothing", "instead", "unlike", "opposite",
    "nowhere", "dont", "havent", "isnt", "wasnt", "arent", "werent", "cant", "couldnt", "wont", "wouldnt", "shouldnt", "mustnt", "doesnt", "didnt", "hasnt", "aint",
    "same", "ditto", "less", "more", "than", "least", "almost", "nearly",
    "or", "half", "third", "quarter", "fifth", "sixth", "eighth", "tenth", "inverse", "reciprocal", "root", "fails", "twice", "double", "triple", "times", "squared", "cubed", "sq", "cu", "plus", "minus", "without", "except",
    "doubled", "halved", "bit", "little", "something", "upwards", "minimum", "min", "if", "unless", "wrong", "incorrect", "false",
    "within", "nobody", "besides", "excluding", "lacking", "scarcely", "rarely", "doubtful", "unlikely", "impossible", "untrue", "fewer",
    "mistake", "misread", "formerly", "previously", "originally", "void", "cancel", "cancelled", "canceled", "ignore", "disregard", "crossed",
    "struck", "deleted", "erased", "scratch", "hair", "tad", "scant", "fat", "excl", "ex", "sans", "extra", "another", "disagrees", "disagree",
    "nein", "nicht", "keinesfalls", "keineswegs", "aucunement", "nullement", "kein", "keine", "keinen",
    "nie", "niemals", "pas", "ne", "jamais", "nunca", "jamzs", "tampoco", "non", "mai", "nao", "nzo",
    "inte", "ej", "niet", "geen", "nooit", "ikke", "aldrig", "aldri", "ei", "nem", "nu", "nije", "degil", "dezil", NULL
  };
  static const char *const doubts[] = { "if i", "if im", "if my", "if that", "unless i", NULL };
  /* "I don't know, 11 5/16" is an answer, and so is "11 5/16, if I did it right".  */
  int quiet = leaves_out (a, at) || strncmp (a->text + at, "dont know", 9) == 0
              || (br__word_is (a->text + at, end - at, "twice") && (strstr (a->text, "check") || strstr (a->text, "measure") || strstr (a->text, "count")))
              || (at >= 3 && strncmp (a->text + at - 3, "no ", 3) == 0) || (br__answer_words_end (a, at, doubts) > at && !strstr (a->text + at, "kerf")
                                                               && !strstr (a->text + at, "saw") && !strstr (a->text + at, "cut"));
  /* "All but 17", "17 too many", "17 and up".  */
  if ((end == a->length && br__word_is (a->text + at, end - at, "no"))
      || ((br__word_is (a->text + at, end - at, "all") || br__word_is (a->text + at, end - at, "any")) && strncmp (a->text + end, " but ", 5) == 0)
      || (br__word_is (a->text + at, end - at, "and") && (strcmp (a->text + end, " up") == 0 || strcmp (a->text + end, " some") == 0 || strcmp (a->text + end, " over") == 0))
      || (br__word_is (a->text + at, end - at, "every") && strncmp (a->text + end, " other", 6) == 0)
      || (br__word_is (a->text + at, end - at, "too") && (strncmp (a->text + end, " many", 5) == 0 || strncmp (a->text + end, " few", 4) == 0)))
    return 1;
  return !quiet && br__is_one_of (a->text + at, end - at, words);
}

/* 1 where the word from AT to END, behind a size, says what is done to it: "tripled", "reduced by the kerf"; not how it was found.  */
static int
is_done_to_it (const br__answer *a, size_t at, size_t end)
{
  static const char *const found[] =
  {
    "needed", "required", "wanted", "used", "asked", "rounded", "reduced", "simplified", "converted", "measured", "estimated", "guessed", "calculated",
    "checked", "counted", "solved", "worked", "scaled", "finished", "combined", "sanded", "planed", "exposed", "marked", "ruled", "shared", "called",
    "based", "supposed", "confused", "remained", "received", "lined", "included", NULL
  };
  static const char *const orders[] = { "take", "subtract", "deduct", "add", NULL };
  /* "I added and borrowed", and "speed".  */
  int done = end > at + 4 && br__word_is (a->text + end - 2, 2, "ed") && a->text[end - 3] != 'e' && !(at >= 3 && br__word_is (a->text + at - 3, 3, " i "))
             && !(at >= 5 && strncmp (a->text + at - 5, " and ", 5) == 0);
  return (done && (!br__is_one_of (a->text + at, end - at, found) || strncmp (a->text + end, " by ", 4) == 0))
         || br__is_one_of (a->text + at, end - at, orders);
}

/* 1 where one of PHRASES begins a word from AT to END.  */
static int
has_phrase (const br__answer *a, size_t at, size_t end, const char *const *phrases)
{
  for (; at < end; at++)
    if (!(at && br__is_letter (a->text[at - 1])) && br__answer_words_end (a, at, phrases) > at)
      return 1;
  return 0;
}

int
br__is_former (const br__answer *a, size_t at, size_t end)
{
  static const char *const phrases[] =
  {
    "used to be", "used to say", "would have", "wouldve", "at first", "first guess", "first answer", "first try", "first attempt", "first had", "first got",
    "first thought", "first wrote", "to begin with", "to start with", "old answer", "old one", "last week", NULL
  };
  return has_phrase (a, at, end, phrases);
}

/* 1 where what stands behind a size, from AT to END, adds to it, moves it or takes it back: "and the kerf", "off", "was a guess",
   "give or take an inch", which is "about an inch" here.  */
static int
is_changing_tail (const br__answer *a, size_t at, size_t end)
{
  static const char *const first[] =
  {
    "off", "away from", "past", "beyond", "into", "up to", "down to", "towards", "until", "till", "before", "shy of", "short of", "add", "allow",
    "halve", "remove", "divide", "multiply", "split", "cut in half", "cut into", "old", NULL
  };
  static const char *const anywhere[] =
  {
    "and a", "and an", "and the", "and change", "and another", "and kerf", "and kerfs", "and then some", "and waste", "and allowance", "about a",
    "about an", "would be", "would need", "then add", "then take", "then halve", "then subtract", "and add", "and take", "and halve", "is off", "seems off",
    "looks off", "taken off", "way off", "off by", "cut off it", "the next foot", "the next inch", "the next size", "needs", "except", NULL
  };
  static const char *const was[] = { "was", "were", NULL };
  static const char *const found[] = { "answer", "result", "left", "measured", "needed", "size", "length", "read", "shown", "got", "get", "found", "calculated", NULL };
  size_t unit = at, start = at;
  /* The unit is no word of it.  */
  if (br__unit_scan (&unit, a->text, a->length, at + (a->text[at] == ' ')))
    start = unit;
  while (start < end && strchr (" .,;:-'\"", a->text[start]))
    start++;
  return br__answer_words_end (a, start, first) > start || has_phrase (a, start, end, anywhere) || br__is_former (a, start, end)
         || (start && a->text[start - 1] != '(' && br__answer_words_end (a, start, was) > start && !has_phrase (a, start, end, found));
}

int
br__has_changing (const br__answer *a, size_t at, size_t end)
{
  if (is_changing_tail (a, at, end))
    return 1;
  for (size_t word = at; word < end; at = word)
    {
      word = br__letters_end (a, at);
      if (br__is_changing (a, at, word) || is_done_to_it (a, at, word))
        return 1;
      word += word == at;
    }
  return 0;
}

int
br__is_condition (const br__answer *a, size_t at)
{
  static const char *const words[] = { "when", "where", "if", "with", "at", "using", "allowing", "given", "assuming", NULL };
  static const char *const saws[] = { "kerf", "kerfs", "saw", "blade", NULL };
  static const char *const counts[] = { "for", "for each of", "for all", "each of", "of all", "for both", "for every one of", "in each of", NULL };
  size_t saw = br__answer_words_end (a, at, words), number = at + strcspn (a->text + at, "0123456789."), stop = number, end = a->length;
  int counted = 0;
  while (stop < end && strchr ("0123456789./", a->text[stop]))
    stop++;
  if (stop == number || br__has_number (a->text + stop, end - stop) || br__has_changing (a, saw > at ? saw : at, end))
    return 0;
  /* A kerf is less than an inch, and said by a word before it; another size would be another answer.  */
  if (saw > at)
    return br__is_letter (a->text[saw + 1]) && has_phrase (a, saw, end, saws)
           && (br__fraction_end (a, number) == stop || strchr ("0.", a->text[number]) || (stop == number + 1 && br__unit_scan (&stop, a->text, end, stop + (a->text[stop] == ' '))));
  for (size_t i = 0; counts[i]; i++)
    counted |= br__answer_word_end (a, at, counts[i]) > at;
  return counted && stop < number + 3 && a->text[stop] == ' ' && br__is_letter (a->text[stop + 1]) && !br__unit_scan (&stop, a->text, end, stop + 1);
}

int
br__is_remark (const br__answer *a, size_t at)
{
  static const char *const words[] =
  { "was", "left", "rest", "remain", "remainder", "remaining", "waste", "scrap", "over", "marks", "lines", "parts", "spaces", "pieces", "nearest", "rounded", NULL };
  /* "(with 1/8 kerf)", but "(18 with kerf)".  */
  int number = 0, sign = 0, kerf = br__is_letter (a->text[at + 1]) && strstr (a->text + at, "kerf");
  /* "(I first wrote 2-1/4)".  */
  if (br__is_former (a, at + 1, a->length) && br__has_number (a->text + at, a->length - at))
    return 1;
  if (strchr ("+-*", a->text[at + 1 + (a->text[at + 1] == ' ')]) || (!leaves_out (a, at + 1) && br__has_changing (a, at + 1, a->length)))
    return 0;
  at++;
  while (at < a->length)
    {
      br__glyph g = br__glyph_at (a->text, a->length, at);
      const size_t end = br__letters_end (a, at);
      if (br__is_one_of (a->text + at, end - at, words) || (sign && br__is_digit (a->text[at])))
        return 1;
      sign |= number && (strchr ("+*", a->text[at]) || br__word_is (a->text + at, end - at, "x") || strncmp (a->text + at - 1, " - ", 3) == 0
                         || strncmp (a->text + at - 1, " / ", 3) == 0);
      number |= g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_VULGAR;
      at = end > at ? end : at + 1;
    }
  return !number || kerf;
}

