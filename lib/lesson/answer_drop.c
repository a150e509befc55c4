/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer_drop.c - what pupils write before and behind a size: "x = ", "it is", "long", "I think", "on the ruler".  Which of
   that they write is common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/answer.h"
#include "measure/measure.h"

/* The sign that the word from AT to END gives a difference, or NULL: what is short lacks something.  */
static const char *
sign_word (const br__answer *a, size_t at, size_t end)
{
  static const char *const below[] =
  {
    "under", "below", "beneath", "short", "shorter", "small", "smaller", "less", "low", "lower", "little", "undersize", "undersized", "shy", "narrow",
    "narrower", "thin", "thinner", "negative", NULL
  };
  static const char *const above[] =
  {
    "over", "above", "big", "bigger", "large", "larger", "long", "longer", "high", "higher", "much", "oversize", "oversized", "wide",
    "wider", "thick", "thicker", "positive", NULL
  };
  /* How long something is, is no difference; what is too long, is.  */
  static const char *const sizes[] = { "long", "high", "little", "much", "wide", "thick", "narrow", "thin", NULL };
  if (br__is_one_of (a->text + at, end - at, sizes) && !(at >= 4 && br__word_is (a->text + at - 4, 4, "too "))
      && strncmp (a->text + end, " by ", 4) != 0)
    return NULL;
  return br__is_one_of (a->text + at, end - at, below) ? "-" : br__is_one_of (a->text + at, end - at, above) ? "+" : NULL;
}

/* 1 where SIGN is not the one that the answer begins with: "-3/8 in over" is neither.  */
static int
is_other_sign (const br__answer *a, const char *sign)
{
  return sign && a->text[0] && strchr ("-+", a->text[0]) && a->text[0] != *sign;
}

/* Puts SIGN before an answer that has none.  */
static void
put_sign (br__answer *a, const char *sign)
{
  br__answer_replace (a, 0, 0, sign && a->text[0] != '-' && a->text[0] != '+' ? sign : "");
}

/* 1 where the digits up to END, perhaps with a # or "No." before them, say which problem it is: "3) ", "#3: ", "3: ", "(3) " and "3. "
   where a mixed number is behind it.  */
static int
is_problem_number (const br__answer *a, size_t end)
{
  const char *behind = a->text + end;
  if (behind[0] && strchr (".)", behind[0]) && behind[1] == ' ' && (*behind == '.' || a->text[0] == '('))
    {
      size_t whole = end + 2;
      while (br__is_digit (a->text[whole]))
        whole++;
      return whole > end + 2 && a->text[whole] == ' ' && br__fraction_end (a, whole + 1) > whole + 1;
    }
  return (a->text[0] == '#' && (*behind == ':' || *behind == ' ')) || (*behind == ')' && behind[1]) || strncmp (behind, ": ", 2) == 0;
}

/* Drops the sign at AT, and where it is a bracket, the one that closes it.  */
static void
drop_sign (br__answer *a, size_t at)
{
  static const char open[] = "(<", close[] = ")>";
  const char *which = strchr (open, a->text[at]);
  int depth = 0;
  for (size_t end = at; which && end < a->length; end++)
    {
      depth += (a->text[end] == *which) - (a->text[end] == close[which - open]);
      if (depth > 0)
        continue;
      br__answer_replace (a, end, 1, "");
      break;
    }
  br__answer_replace (a, at, 1, "");
}

/* Where the value begins behind the last equals sign, 0 where there is none; "<=" and "!=" are none.  */
static size_t
equals_end (const br__answer *a)
{
  const char *equals = strrchr (a->text, '=');
  return equals && strpbrk (equals, "0123456789") && !(equals > a->text && strchr ("<>!", equals[-1])) ? (size_t) (equals + 1 - a->text) : 0;
}

/* 1 where a number less than one begins at AT.  */
static int
is_part (const br__answer *a, size_t at)
{
  return br__fraction_end (a, at) > at || a->text[at] == '.' || strncmp (a->text + at, "0.", 2) == 0;
}

void
br__answer_drop_front (br__answer *a)
{
  static const char *const kept[] = { "no", "under", "over", "below", "above", "between", "from", "to", "past", "beyond", "short", "shy", "ll", "lo", "il", "li", NULL };
  /* What was crossed out stood before it.  */
  static const char *const old[] = { "crossed", "struck", "deleted", "erased", "scratch", NULL };
  /* "After 11 in", but "after the cut 11 in".  */
  static const char *const places[] = { "before", "after", "behind", "within", "add", "subtract", "deduct", "remove", "take", "round", "halve",
    "increase", "decrease", "shorten", "divide", "multiply", NULL };
  br__answer_replace (a, 0, equals_end (a), "");
  if (br__is_former (a, 0, strcspn (a->text, "0123456789")))
    return;
  for (;;)
    {
      size_t end = br__letters_end (a, 0), number = a->text[0] == '#' || (a->text[0] == '(' && br__is_digit (a->text[1])) ? 1 : br__word_is (a->text, 4, "no. ") ? 4 : 0;
      const char *sign = sign_word (a, 0, end);
      while (br__is_digit (a->text[number]))
        number++;
      if (number && is_problem_number (a, number))
        br__answer_replace (a, 0, number + 1, "");
      else if (br__word_is (a->text, end, "minus") || br__word_is (a->text, end, "negative") || br__word_is (a->text, end, "neg"))
        {
          br__answer_replace (a, 0, end + (a->text[end] == ' '), "-");
          return;
        }
      else if (br__word_is (a->text, end, "plus") || br__word_is (a->text, end, "positive"))
        {
          br__answer_replace (a, 0, end + (a->text[end] == ' '), "+");
          return;
        }
      else if (sign && (strncmp (a->text + end, " by ", 4) == 0 || (a->text[end] && is_part (a, end + 1))))
        {
          br__answer_replace (a, 0, a->text[end + 1] == 'b' ? end + 4 : end + 1, sign);
          return;
        }
      else if (a->length && (strchr (" .,:;?!*()=", a->text[0]) || (a->text[0] == '<' && strchr (a->text, '>')))
               && !(a->text[0] == '.' && br__is_digit (a->text[1])) && strncmp (a->text, "!=", 2) != 0)
        drop_sign (a, 0);
      else if (strncmp (a->text, "- (", 3) == 0)
        br__answer_replace (a, 1, 1, "");
      else if (a->text[0] == '-' && a->text[1] == '(')
        drop_sign (a, 1);
      /* "#17": a count.  */
      else if (a->text[0] == '#' && number > 1)
        br__answer_replace (a, 0, 1, "");
      /* A word of another alphabet may say "not".  */
      else if (end && strspn (a->text, "z") == end && a->text[end] != ':')
        return;
      /* "l1" may be meant for 11.  */
      else if (end && strchr ("lIoO", a->text[end - 1]) && br__is_digit (a->text[end]))
        return;
      else if (end && (!br__is_changing (a, 0, end) || br__is_one_of (a->text, end, old)) && !(br__is_one_of (a->text, end, places) && a->text[end] && br__has_number (a->text + end, 2))
               && (!br__is_one_of (a->text, end, kept) || strncmp (a->text, "to be ", 6) == 0 || a->text[end] == ':' || (a->text[end] == ',' && br__word_is (a->text, end, "no"))))
        {
          /* "answer- 3/8": the dash is no minus.  */
          size_t dash = end + (a->text[end] == ' ');
          br__answer_replace (a, 0, a->text[dash] == '-' && (dash == end || a->text[dash + 1] == ' ') ? dash + 1 : end, "");
        }
      else
        return;
    }
}

const br_unit *
br__answer_unit_before (const br__answer *a, size_t end, size_t *start)
{
  while (end && a->text[end - 1] == ' ')
    end--;
  size_t at = end;
  if (end && strchr ("'\"", a->text[end - 1]))
    at--;
  else
    {
      at -= end && a->text[end - 1] == '.' && at > 1 && br__is_letter (a->text[at - 2]);
      while (at && br__is_letter (a->text[at - 1]))
        at--;
    }
  size_t stop = 0;
  const br_unit *unit = at < end ? br__unit_scan (&stop, a->text, end, at) : NULL;
  *start = at;
  return unit && stop >= end ? unit : NULL;
}

/* Drops the words that end the answer: "long", "I think", and all that follow a unit.  0 where there are none.  */
static int
drop_words (br__answer *a)
{
  static const char *const words[] =
  {
    "radius", "length", "width", "height", "long", "wide", "high", "tall", "thick", "deep", "across", "each", "total", "exactly", "approx", "about", "roughly",
    "or", "so", "i", "ish", "think", "maybe", "answer", "ans", "the", "mark", "marks", "scale", "size", NULL
  };
  /* "5/8 on the ruler": where it is.  */
  static const char *const places[] = { "on", "from", "at", NULL };
  size_t end = a->length, last = end, first = end, start;
  while (last && br__is_letter (a->text[last - 1]))
    last--;
  if (last == end || last == 0 || (last > 3 && strncmp (a->text + last - 4, " or ", 4) == 0 && !br__word_is (a->text + last, end - last, "so")))
    return 0;
  /* Who says "under" means a minus.  */
  const char *sign = sign_word (a, last, end);
  if (is_other_sign (a, sign))
    return 0;
  if (sign || br__is_one_of (a->text + last, end - last, words))
    {
      last -= sign && last > 3 && br__word_is (a->text + last - 4, 4, "too ") ? 4 : 0;
      br__answer_replace (a, last, end - last, "");
      put_sign (a, sign);
      return 1;
    }
  /* "Mr. Lee said so", "yes, I checked": a sign behind a word.  */
  while (first && (br__is_letter (a->text[first - 1]) || a->text[first - 1] == ' '
                   || (first > 1 && strchr (".,", a->text[first - 1]) && a->text[first] == ' ' && br__is_letter (a->text[first - 2]))))
    first--;
  const char *per = strstr (a->text + first, " per ");
  if (br__has_changing (a, first, end) || (per && br__unit_scan (&start, a->text, a->length, (size_t) (per - a->text) + 5)))
    return 0;
  if (first && strchr ("'\"", a->text[first - 1]))
    {
      /* "1/16" under the drawing".  */
      sign = a->text[first] == ' ' ? sign_word (a, first + 1, br__letters_end (a, first + 1)) : NULL;
      if (is_other_sign (a, sign))
        return 0;
      br__answer_replace (a, first, end - first, "");
      put_sign (a, is_part (a, 0) ? sign : NULL);
      return 1;
    }
  while (a->text[first] == ' ')
    first++;
  if (first && br__is_one_of (a->text + first, br__letters_end (a, first) - first, places))
    {
      br__answer_replace (a, first, end - first, "");
      return 1;
    }
  first = br__letters_end (a, first);
  if (first == 0 || first == end || !br__answer_unit_before (a, first, &start))
    return 0;
  /* "0.023 in under the mark".  */
  sign = a->text[first] == ' ' ? sign_word (a, first + 1, br__letters_end (a, first + 1)) : NULL;
  if (is_other_sign (a, sign))
    return 0;
  sign = is_part (a, 0) ? sign : NULL;
  br__answer_replace (a, first, end - first, "");
  put_sign (a, sign);
  return 1;
}

/* The end of the last digit or fraction, 0 where there is none.  */
static size_t
last_number_end (const br__answer *a)
{
  size_t last = 0;
  for (size_t at = 0; at < a->length; )
    {
      br__glyph g = br__glyph_at (a->text, a->length, at);
      at += g.length;
      if (g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_VULGAR || g.kind == BR__GLYPH_SUBSCRIPT)
        last = at;
    }
  return last;
}

/* Drops a sentence behind the value and its unit, or behind a value that a sign ends: "in.. I hope", "?? not sure"; no
   word that makes another value of it.  */
static void
drop_sentence (br__answer *a)
{
  static const char *const taken[] = { "kerf", "kerfs", "saw", "blade", "cut", "cuts", "waste", "gap", "thickness", "allowance", NULL };
  size_t number = last_number_end (a), end = number, stop;
  const br_unit *unit = number ? br__unit_scan (&end, a->text, a->length, number) : NULL;
  if (!unit)
    end = number;
  /* "5/8 in. The end": the point is the unit's, and ends the sentence.  */
  size_t at = br__skip_blanks (a->text, a->length, end - (unit && a->text[end - 1] == '.')), last = a->length;
  while (last > at && strchr (".!? ", a->text[last - 1]))
    last--;
  if (number == 0 || at == a->length || !strchr (unit ? ".,;:?!-" : "?!;", a->text[at]) || !br__is_letter (a->text[last - 1]))
    return;
  int dash = a->text[at] == '-';
  if (br__has_changing (a, at, a->length))
    return;
  for (; at < a->length; at++)
    {
      size_t word = br__letters_end (a, at);
      if (word == at)
        continue;
      /* "- kerf" takes something off.  */
      if (dash && br__is_one_of (a->text + at, word - at, taken))
        return;
      const char *sign = sign_word (a, at, word);
      /* "-1/16", it is too thin" says the same twice.  */
      if ((sign && *sign != a->text[0]) || (br__unit_scan (&stop, a->text, a->length, at) && stop == word))
        return;
      at = word;
    }
  br__answer_replace (a, end, a->length - end, "");
}

void
br__answer_drop_back (br__answer *a)
{
  int more = 1;
  drop_sentence (a);
  while (more)
    {
      size_t end = a->length;
      char *bracket = strrchr (a->text, '(');
      if (end && (strchr (" .,?!;:*=(", a->text[end - 1]) || (a->text[end - 1] == ')' && !bracket)))
        br__answer_replace (a, end - 1, 1, "");
      else if (end && a->text[end - 1] == ')' && bracket > a->text && br__is_remark (a, (size_t) (bracket - a->text)))
        {
          size_t at = (size_t) (bracket - a->text), word = br__letters_end (a, at + 1);
          const char *sign = a->text[word] == ')' ? sign_word (a, at + 1, word) : NULL;
          if (is_other_sign (a, sign))
            return;
          br__answer_replace (a, at, end - at, "");
          put_sign (a, sign);
        }
      else
        more = drop_words (a);
    }
}
