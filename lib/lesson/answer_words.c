/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer_words.c - numbers that are written in words, and answers that were put right on the way: "four and three
   quarters", "sixty point three", "11 3/8, no, 11 5/16".  Which of them pupils write is common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/answer.h"
#include "measure/measure.h"

void
br__answer_replace (br__answer *a, size_t at, size_t count, const char *with)
{
  size_t n = strlen (with);
  if (a->length - count + n >= sizeof a->text)
    return;
  memmove (a->text + at + n, a->text + at + count, a->length - at - count + 1);
  memcpy (a->text + at, with, n);
  a->length += n - count;
}

size_t
br__answer_word_end (const br__answer *a, size_t at, const char *word)
{
  size_t end = at + strlen (word);
  return end <= a->length && br__word_is (a->text + at, end - at, word) && !br__is_letter (a->text[end]) ? end : at;
}

/* ---- Numbers ---- */

static const char *const small[] =
{
  "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
  "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"
};

static const char *const tens[] = { "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety" };

/* N = the number below twenty at AT: its end, or AT.  */
static size_t
small_end (int *n, const br__answer *a, size_t at)
{
  for (int i = 0; i < 20; i++)
    if (br__answer_word_end (a, at, small[i]) > at)
      {
        *n = i;
        return br__answer_word_end (a, at, small[i]);
      }
  return at;
}

/* N = the number below a hundred at AT: "seven", "forty", "twenty-one", "twenty one", "twentyone".  */
static size_t
below_hundred_end (int *n, const br__answer *a, size_t at)
{
  for (int i = 0; i < 8; i++)
    {
      size_t stop = at + strlen (tens[i]), end;
      int one = 0;
      if (stop > a->length || !br__word_is (a->text + at, stop - at, tens[i]))
        continue;
      end = stop + (a->text[stop] == ' ' || a->text[stop] == '-');
      size_t after = small_end (&one, a, end);
      *n = 10 * (i + 2);
      if (after > end && one > 0 && one < 10)
        {
          *n += one;
          return after;
        }
      if (!br__is_letter (a->text[stop]))
        return stop;
    }
  return small_end (n, a, at);
}

/* The same up to 999: "two hundred", "a hundred and twenty".  */
static size_t
number_end (int *n, const br__answer *a, size_t at)
{
  int rest = 0;
  size_t end = at, stop, after;
  if (br__answer_word_end (a, at, "a") > at || br__answer_word_end (a, at, "hundred") > at)
    {
      *n = 1;
      end += a->text[at + 1] == ' ' ? 2 : 0;
    }
  else
    {
      after = below_hundred_end (n, a, at);
      if (after == at)
        return at;
      end = after + (a->text[after] == ' ');
      at = after;
    }
  stop = end < a->length ? br__answer_word_end (a, end, "hundred") : end;
  if (stop == end)
    return at;
  *n *= 100;
  end = stop + (a->text[stop] == ' ');
  after = br__answer_word_end (a, end, "and");
  end = after > end ? after + (a->text[after] == ' ') : end;
  after = below_hundred_end (&rest, a, end);
  *n += after > end ? rest : 0;
  return after > end ? after : stop;
}

/* ---- Fractions ---- */

static const struct { const char *one, *many; int den; } parts[] =
{
  { "half", "halves", 2 }, { "half", "halfs", 2 }, { "third", "thirds", 3 }, { "quarter", "quarters", 4 },
  { "fourth", "fourths", 4 }, { "fifth", "fifths", 5 }, { "sixth", "sixths", 6 }, { "eighth", "eighths", 8 },
  { "eigth", "eigths", 8 }, { "eighth", "eights", 8 }, { "tenth", "tenths", 10 }, { "twelfth", "twelfths", 12 }, { "sixteenth", "sixteenths", 16 },
  { "thirty-second", "thirty-seconds", 32 }, { "thirty second", "thirty seconds", 32 },
  { "sixty-fourth", "sixty-fourths", 64 }, { "sixty fourth", "sixty fourths", 64 }, { "hundredth", "hundredths", 100 },
  { "thousandth", "thousandths", 1000 }, { "ten-thousandth", "ten-thousandths", 10000 }, { "ten thousandth", "ten thousandths", 10000 }
};

/* DEN = what the parts at AT are: halves, quarters; the end of the word, or AT.  */
static size_t
part_end (int *den, const br__answer *a, size_t at)
{
  for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
    {
      size_t one = br__answer_word_end (a, at, parts[i].one), many = br__answer_word_end (a, at, parts[i].many);
      *den = parts[i].den;
      if (one > at || many > at)
        return one > many ? one : many;
    }
  return at;
}

/* Puts N in the place of the bytes from AT to END, after BEFORE; the end of what was put there.  */
static size_t
put_number (br__answer *a, size_t at, size_t end, const char *before, int n)
{
  br_text t = BR_TEXT_ZERO;
  size_t length = a->length;
  br__text_printf (&t, "%s%d", before, n);
  if (!t.failed)
    br__answer_replace (a, at, end - at, br__text_string (&t));
  br__text_clear (&t);
  return end + a->length - length;
}

/* "point" at AT, digits in words behind it: the end of all that, as a decimal; or AT.  */
static size_t
put_point (br__answer *a, size_t at)
{
  size_t end = br__answer_word_end (a, at, "point");
  int digit = 0;
  if (end == at || a->text[end] != ' ' || !a->text[end + 1])
    return at;
  size_t start = at - (at > 1 && a->text[at - 1] == ' ' && br__is_digit (a->text[at - 2]));
  size_t first = end + 1;
  if (!br__is_digit (a->text[first]) && small_end (&digit, a, first) == first)
    return at;
  br__answer_replace (a, start, first - start, ".");
  for (at = start + 1; ; )
    {
      size_t next = at + (at > start + 1 && a->text[at] == ' '), stop = small_end (&digit, a, next);
      if (stop == next || digit > 9)
        break;
      at = put_number (a, at, stop, "", digit);
    }
  return at;
}

/* The whole number that ends at END is so many hundredths or thousandths, of which the word ends at STOP: 2 and 6 thousandths
   is 2.006.  The end of the decimal that is put there.  */
static size_t
put_places (br__answer *a, size_t end, size_t stop, size_t places)
{
  char zeros[] = ".0000";
  size_t at = end, length = a->length;
  while (at && br__is_digit (a->text[at - 1]))
    at--;
  if (end - at > places || (at && strchr ("./,", a->text[at - 1])))
    return stop;
  zeros[1 + places - (end - at)] = 0;
  br__answer_replace (a, end, stop - end, "");
  size_t joint = at >= 5 && br__answer_word_end (a, at - 4, "and") == at - 1 ? 5 : at >= 1 && a->text[at - 1] == ' ';
  int behind = joint && at > joint && br__is_digit (a->text[at - joint - 1]);
  br__answer_replace (a, behind ? at - joint : at, behind ? joint : 0, behind ? zeros : "0");
  if (!behind)
    br__answer_replace (a, at + 1, 0, zeros);
  return stop + a->length - length;
}

/* Halves and quarters at AT, behind a number or alone: the end of the fraction that is put there, or AT.  */
static size_t
put_part (br__answer *a, size_t at)
{
  int den = 0, article = 0;
  size_t end, start = at;
  if (br__answer_word_end (a, at, "a") > at || br__answer_word_end (a, at, "an") > at)
    article = a->text[at + 1] == ' ' ? 2 : 3;
  end = part_end (&den, a, at + (size_t) article);
  if (end == at + (size_t) article)
    return at;
  if (!article && at > 1 && strchr (" -", a->text[at - 1]) && br__is_digit (a->text[at - 2]))
    return den >= 100 ? put_places (a, at - 1, end, den > 1000 ? 4 : den > 100 ? 3 : 2) : put_number (a, at - 1, end, "/", den);
  if (article && den >= 100)
    return put_number (a, start, start + (size_t) article - 1, "", 1);
  /* "the fourth" is no part, "half an inch" is.  */
  return article || den == 2 || den == 4 ? put_number (a, start, end, "1/", den) : at;
}

/* "An inch and a half", "a foot": one.  */
static void
put_one (br__answer *a)
{
  size_t article = br__answer_word_end (a, 0, "an") + br__answer_word_end (a, 0, "a"), at = article + (article && a->text[article] == ' ');
  size_t end = br__answer_word_end (a, at, "inch") > at ? br__answer_word_end (a, at, "inch") : br__answer_word_end (a, at, "foot");
  if (end > at && (br__answer_word_end (a, end, " and") > end || (article && strspn (a->text + end, " .!") == a->length - end)))
    br__answer_replace (a, 0, at, "1 ");
}

void
br__answer_put_words (br__answer *a)
{
  put_one (a);
  for (size_t at = 0; at < a->length; )
    {
      int n = 0, den = 0;
      size_t end = put_point (a, at);
      if (end == at)
        end = put_part (a, at);
      /* "thirty-seconds" is no number, "ten thousandths" begins with one.  */
      if (end == at && (part_end (&den, a, at) == at || den > 1000))
        {
          size_t stop = number_end (&n, a, at);
          end = stop > at ? put_number (a, at, stop, "", n) : at;
        }
      if (end > at)
        {
          at = end;
          continue;
        }
      if (!br__is_letter (a->text[at]))
        at++;
      else
        while (br__is_letter (a->text[at]))
          at++;
    }
}

static int
begins_word (const br__answer *a, size_t at)
{
  return !br__is_letter (a->text[at - 1]) && br__is_letter (a->text[at]);
}

size_t
br__answer_words_end (const br__answer *a, size_t at, const char *const *words)
{
  size_t end = at;
  for (; *words && end == at; words++)
    end = br__answer_word_end (a, at, *words);
  return end;
}

/* ---- Working ---- */
int
br__has_number (const char *text, size_t length)
{
  for (size_t at = 0; at < length; )
    {
      br__glyph g = br__glyph_at (text, length, at);
      if (g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_VULGAR)
        return 1;
      at += g.length;
    }
  return 0;
}

void
br__answer_put_equals (br__answer *a)
{
  static const char *const words[] =
  { "so", "is", "are", "equals", "equal", "makes", "gives", "therefore", "hence", "simplifies to", "reduces to", "rounds to", "rounded to",
    "rounds down to", "rounded down to", "rounded down", "reduced to", "simplified to", "converted to", "becomes", "aka", "also known as", "calc says", "calculator says", "i got", "we got", "and got",
    "to get", "i get", "you get", "we get", NULL };
  for (size_t at = 1; at < a->length; at++)
    {
      size_t end = begins_word (a, at) ? br__answer_words_end (a, at, words) : at;
      /* "7, so 2 in are left": the first number is meant.  */
      /* "5/8 (small marks are 1/16)": what is in a bracket came out of nothing before it.  */
      const char *open = strchr (a->text, '(');
      int inside = open && open < a->text + at && !memchr (open, ')', (size_t) (a->text + at - open));
      if (end > at && !inside && br__has_number (a->text, at) && br__has_number (a->text + end, a->length - end) && !strstr (a->text + end, "left")
          && !strstr (a->text + end, "over") && !strstr (a->text + end, "rest"))
        br__answer_replace (a, at, end - at, "=");
    }
  /* "9 + 5 = 14, 1/2 + 1/4 = 3/4, 14 3/4": what comes behind two steps came out of them.  */
  char *step = strchr (a->text, '='), *last = strrchr (a->text, '='), *comma = last ? strpbrk (last, ",;") : NULL;
  if (step && comma && step < last && comma[1] == ' ' && memchr (step, *comma, (size_t) (last - step)) && br__has_number (comma, strlen (comma)))
    *comma = '=';
}

/* N = the whole number of at most six digits that begins at AT; its end, or AT.  */
static size_t
whole_end (long *n, const br__answer *a, size_t at)
{
  size_t end = at;
  *n = 0;
  while (br__is_digit (a->text[end]) && end - at < 6)
    *n = 10 * *n + a->text[end++] - '0';
  return br__is_digit (a->text[end]) ? at : end;
}

/* Puts N, and WITH behind it, in the place of the bytes from AT to END.  */
static void
put_whole (br__answer *a, size_t at, size_t end, long n, const char *with)
{
  br_text t = BR_TEXT_ZERO;
  br__text_printf (&t, "%ld%s", n, with);
  if (!t.failed)
    br__answer_replace (a, at, end - at, br__text_string (&t));
  br__text_clear (&t);
}

/* The fraction of a mixed number at AT: 1 where it is one or more, which is put as one fraction.  */
static int
put_improper (br__answer *a, size_t at)
{
  long whole, num, den;
  size_t end = whole_end (&whole, a, at), slash;
  if (end == at || !strchr (" -", a->text[end]) || !a->text[end])
    return 0;
  slash = whole_end (&num, a, end + 1);
  size_t stop = slash > end + 1 && a->text[slash] == '/' ? whole_end (&den, a, slash + 1) : 0;
  if (stop <= slash + 1 || den == 0 || num < den || whole > 10000 || den > 10000)
    return 0;
  put_whole (a, at, slash, whole * den + num, "");
  return 1;
}

/* 4' 15: the feet at AT go into the inches where those are a foot or more.  */
static int
put_inches (br__answer *a, size_t at)
{
  long feet, inches;
  size_t end = whole_end (&feet, a, at), used = 0, stop;
  if (end == at || at > 1)
    return 0;
  end += a->text[end] == ' ';
  const br_unit *unit = br__unit_scan (&used, a->text, a->length, end);
  if (!unit || strcmp (unit->name, "ft") != 0)
    return 0;
  used += a->text[used] == ' ' || a->text[used] == '-';
  stop = whole_end (&inches, a, used);
  if (stop == used || inches < 12 || a->text[stop] == '/' || inches > 10000)
    return 0;
  put_whole (a, at, stop, 12 * feet + inches, "");
  a->carried = 1;
  return 1;
}

void
br__answer_carry (br__answer *a)
{
  for (size_t at = 0; at < a->length; at++)
    if (br__is_digit (a->text[at]) && (at == 0 || !(br__is_digit (a->text[at - 1]) || strchr ("./", a->text[at - 1]))))
      if (put_inches (a, at) || put_improper (a, at))
        return;
}

/* ---- What was put right ---- */

/* What stands between OPEN and CLOSE goes, where a number stays.  */
static void
drop_between (br__answer *a, const char *open, const char *close)
{
  char *first, *last;
  while ((first = strstr (a->text, open)) && (last = strstr (first + strlen (open), close)))
    {
      size_t at = (size_t) (first - a->text), end = (size_t) (last - a->text) + strlen (close);
      if (!br__has_number (first, end - at) || !(br__has_number (a->text, at) || br__has_number (a->text + end, a->length - end)))
        return;
      br__answer_replace (a, at, end - at, "");
    }
}

/* Signs that are struck through go: those before a stroke that lies over them (U+0335 to U+0338), with what is left between
   them, and what stands between two marks of a stroke.  */
static void
drop_struck (br__answer *a)
{
  static const char *const marks[][2] = { { "~~", "~~" }, { "--", "--" }, { "<s>", "</s>" }, { "<del>", "</del>" } };
  size_t last = 0;
  for (size_t at = 0, before = 0; at < a->length; )
    {
      br__glyph g = br__glyph_at (a->text, a->length, at);
      if (g.code >= 0x335 && g.code <= 0x338)
        {
          br__answer_replace (a, before, at + g.length - before, "");
          last = at = before;
        }
      else
        {
          before = at;
          at += g.length;
        }
    }
  if (last && !br__has_number (a->text, last))
    br__answer_replace (a, 0, last, "");
  for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++)
    drop_between (a, marks[i][0], marks[i][1]);
}

void
br__answer_drop_reason (br__answer *a)
{
  static const char *const words[] = { "because", "cause", "cuz", "cos", "coz", "bc", "since", "check", "proof", NULL };
  /* "9 11/16, just over 9 5/8": where it lies.  */
  static const char *const places[] =
  {
    "just over", "just under", "just above", "just below", "a little more than", "a little less than", "a little over", "a little under", "a bit more than",
    "a bit less than", "a bit over", "a bit under", "slightly more than", "slightly less than", "slightly over", "slightly under", NULL
  };
  static const char *const rulers[] = { "rounded to 1/", "rounded to nearest", "rounded to the nearest", "to nearest", "to the nearest", NULL };
  for (size_t at = 1; at < a->length; at++)
    if (begins_word (a, at) && br__has_number (a->text, at)
        && (br__is_condition (a, at) || (strchr (",;(", a->text[at - 1 - (at > 1 && a->text[at - 1] == ' ')]) && br__answer_words_end (a, at, places) > at
                                         && br__has_number (a->text + at, a->length - at))
            || br__answer_words_end (a, at, words) > at || (br__answer_words_end (a, at, rulers) > at && !strchr (a->text + at, '='))))
      br__answer_replace (a, at, a->length - at, "");
}

/* "Not 11 3/8, 11 5/16": what is denied goes, with the sign behind it.  */
static void
drop_denied (br__answer *a)
{
  static const char *const words[] = { "not", "its not", "it is not", "it isnt", NULL };
  size_t at = br__answer_words_end (a, 0, words), number = at ? strcspn (a->text + at, "0123456789") + at : a->length;
  while (at && number < a->length && !(strchr (",;", a->text[number]) && a->text[number + 1] == ' '))
    number++;
  if (number < a->length && br__has_number (a->text + number, a->length - number))
    br__answer_replace (a, 0, number + 1, "");
}

/* Drops what is from AT on; its unit stays where there is no other: "11 5/16, not 11 3/8 in".  */
static void
keep_unit (br__answer *a, size_t at)
{
  size_t start;
  const br_unit *unit = br__answer_unit_before (a, a->length, &start);
  while (at && strchr (" ,;-", a->text[at - 1]))
    at--;
  br__answer_replace (a, at, a->length - at, "");
  if (unit && at && br__is_digit (a->text[at - 1]))
    br__answer_replace (a, at, 0, unit->name);
}

void
br__answer_drop_old (br__answer *a)
{
  static const char *const words[] =
  {
    "no", "nope", "oops", "sorry", "wait", "actually", "rather", "mean", "meant", "correction", "corrected", "but", "now", "crossed",
    "scratch", "scratched", "struck", "erase", "erased", "deleted", "changed", "wrong", NULL
  };
  static const char *const changes[] = { "changed", "i changed", "changed from", "changed it from", "corrected from", NULL };
  drop_struck (a);
  drop_denied (a);
  const char *to = br__answer_words_end (a, 0, changes) ? strstr (a->text, " to ") : NULL;
  if (to && br__has_number (a->text, (size_t) (to - a->text)) && br__has_number (to, strlen (to)))
    br__answer_replace (a, 0, (size_t) (to + 4 - a->text), "");
  for (size_t at = 1; at < a->length; at++)
    {
      if (!begins_word (a, at))
        continue;
      size_t end = br__answer_word_end (a, at, "rather than") > at ? at : br__answer_words_end (a, at, words);
      /* "not 11 3/8 but 11 5/16", "11 3/8 no 11 5/16", and "11 5/16 not 11 3/8".  */
      if (end > at && br__has_number (a->text, at) && br__has_number (a->text + end, a->length - end))
        {
          end = a->text[end] == ' ' ? end + 1 : end;
          br__answer_replace (a, 0, br__answer_word_end (a, end, "to"), "");
          at = 0;
        }
      else if ((br__answer_word_end (a, at, "not") > at || br__answer_word_end (a, at, "instead of") > at || br__answer_word_end (a, at, "rather than") > at) && br__has_number (a->text, at)
               && br__has_number (a->text + at, a->length - at))
        keep_unit (a, at);
    }
}
