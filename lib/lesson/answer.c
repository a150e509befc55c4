/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer.c - an answer as a pupil writes it.  The project's one reader of measures reads it; what that does
   not take as it stands is put into its notation first: "= 11 and 5 / 16 Inches long ?" is 11 5/16 inches.
   Which forms pupils write is common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/answer.h"
#include "measure/measure.h"

void
br__answer_clear (br__answer *a)
{
  br_measure_clear (&a->measure);
}

int
br__is_one_of (const char *text, size_t length, const char *const *words)
{
  while (*words && !br__word_is (text, length, *words))
    words++;
  return *words != NULL;
}

int
br__answer_is_none (const char *written)
{
  static const char *const words[] =
  {
    "idk", "idontknow", "idonotknow", "dontknow", "donotknow", "dunno", "na", "nil", "none", "x", "xx", "xxx", "no", "dash",
    "noanswer", "noidea", "noclue", "notsure", "unsure", "unknown", "blank", "empty", "null", "nothing", "skip", "skipped",
    "pass", "cant", "icant", "cannot", "help", "sorry", "forgot", "iforgot", "notime", "notdone", "absent", "tbd", NULL
  };
  /* What such a sentence has in it, blanks left out.  */
  static const char *const signs[] =
  {
    "dunno", "dont", "didnt", "cant", "forgot", "notsure", "idea", "clue", "outoftime", "notime", "stuck", "confused", "lost", "skip",
    "blank", "answered", "hard", "giveup", "gaveup", "whatever"
  };
  char letters[64];
  size_t count = 0, length = strlen (written);
  for (size_t at = 0; at < length; )
    {
      br__glyph g = br__glyph_at (written, length, at);
      if (g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_VULGAR || g.kind == BR__GLYPH_ONE_OVER
          || g.kind == BR__GLYPH_SUPERSCRIPT || g.kind == BR__GLYPH_SUBSCRIPT)
        return 0;
      /* Letters past ASCII begin at U+00C0; U+2000 to U+2BFF are signs (Unicode, names of its blocks).  */
      if (g.kind == BR__GLYPH_OTHER && g.code >= 0xC0 && !(g.code >= 0x2000 && g.code < 0x2C00))
        return 0;
      if (g.kind == BR__GLYPH_LETTER && count < sizeof letters - 1)
        letters[count++] = (char) (written[at] | 32);
      at += g.length;
    }
  letters[count] = 0;
  for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
    if (strstr (letters, signs[i]))
      return 1;
  return count == 0 || br__is_one_of (letters, count, words);
}

/* ---- The answer as it stands ---- */

/* Bytes of a quotation mark at S, or 0: straight, single, curly, low or angled.  */
static size_t
quote_at (const char *s)
{
  static const char *const quotes[] =
  {
    "\"", "'", "\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E", "\xE2\x80\x98", "\xE2\x80\x99", "\xC2\xAB", "\xC2\xBB"
  };
  for (size_t i = 0; i < sizeof quotes / sizeof quotes[0]; i++)
    if (strncmp (s, quotes[i], strlen (quotes[i])) == 0)
      return strlen (quotes[i]);
  return 0;
}

/* Takes blanks and quotes around WRITTEN off; *SKIPPED bytes in front.  */
static void
take_text (br__answer *a, size_t *skipped, const char *written)
{
  size_t start = br__skip_blanks (written, strlen (written), 0), length, quote;
  quote = quote_at (written + start);
  start = br__skip_blanks (written, strlen (written), start + quote);
  length = strlen (written + start);
  if (length > BR__ANSWER_BYTES)
    length = BR__ANSWER_BYTES;
  memcpy (a->text, written + start, length);
  while (length && strchr (" \t\r\n", a->text[length - 1]))
    length--;
  a->text[length] = 0;
  for (size_t at = 0; quote && at < length; at++)
    if (quote_at (a->text + at) && at + quote_at (a->text + at) == length)
      length = at;
  a->text[length] = 0;
  a->length = length;
  *skipped = start;
}

/* Two apostrophes for the inch sign, and one comma between digits for the point.  */
static void
take_signs (br__answer *a)
{
  char *text = a->text, *comma = strchr (text, ',');
  if (a->length > 2 && strcmp (text + a->length - 2, "''") == 0)
    {
      text[--a->length] = 0;
      text[a->length - 1] = '"';
    }
  if (comma && comma > text && br__is_digit (comma[-1]) && br__is_digit (comma[1]) && !strchr (comma + 1, ','))
    *comma = '.';
}

/* ---- The same in the notation that is read ---- */

/* What a character of an answer is in the notation that is read, NULL where it stays.  */
static const char *
plain_sign (const br__glyph *g)
{
  static const char *const digits[] = { "0", "1", "2", "3", "4", "5", "6", "7", "8", "9" };
  if (g->kind == BR__GLYPH_BLANK || g->kind == BR__GLYPH_CONTROL)
    return " ";
  if (g->kind == BR__GLYPH_DASH || g->code == 0x2014 || g->code == 0x2015 || g->code == '_')
    return "-";
  if (g->kind == BR__GLYPH_SLASH || g->kind == BR__GLYPH_FRACTION_SLASH || g->code == '\\' || g->code == '|' || g->code == 0xF7
      || g->code == 0xFF0F)
    return "/";
  if (g->code >= 0xFF10 && g->code <= 0xFF19)
    return digits[g->code - 0xFF10];
  /* About, arrows, and a tick behind it.  */
  if (g->code == 0x2248 || g->code == '~' || g->code == 0x2192 || g->code == 0x21D2)
    return "=";
  if (g->code == 0x2713 || g->code == 0x2714 || g->code == 0x2705)
    return " ";
  if (g->code == 0xB7)
    return ".";
  return g->kind == BR__GLYPH_FOOT ? "'" : g->kind == BR__GLYPH_INCH ? "\"" : NULL;
}

static void
replace_all (br__answer *a, const char *from, const char *to)
{
  for (char *at; (at = strstr (a->text, from)); )
    br__answer_replace (a, (size_t) (at - a->text), strlen (from), to);
}

static void
make_plain (br__answer *a)
{
  /* Inch signs as other programs hand them over.  */
  replace_all (a, "\\\"", "\"");
  replace_all (a, "&quot;", "\"");
  for (size_t at = 0; at < a->length; )
    {
      br__glyph g = br__glyph_at (a->text, a->length, at);
      const char *plain = plain_sign (&g);
      if (plain)
        br__answer_replace (a, at, g.length, plain);
      char last = at ? a->text[at - 1] : ' ', c = a->text[at];
      if (plain && c == last && strchr (" -'", c))
        {
          /* One blank, one dash; two apostrophes are an inch sign.  */
          br__answer_replace (a, at - (c == '\''), 1 + (c == '\''), c == '\'' ? "\"" : "");
          continue;
        }
      at += plain ? 1 : g.length;
    }
  replace_all (a, "->", "=");
  replace_all (a, "=>", "=");
}

size_t
br__letters_end (const br__answer *a, size_t at)
{
  while (br__is_letter (a->text[at]))
    at++;
  return at;
}

/* The end of the fraction at AT, digits on both sides of a slash or one character; AT where there is none.  */
static size_t
fraction_end (const br__answer *a, size_t at)
{
  size_t end = at;
  br__glyph g = br__glyph_at (a->text, a->length, at);
  if (g.kind == BR__GLYPH_VULGAR || g.kind == BR__GLYPH_SUPERSCRIPT)
    return at + g.length;
  while (br__is_digit (a->text[end]))
    end++;
  if (end == at || a->text[end] != '/' || !br__is_digit (a->text[end + 1]))
    return at;
  for (end++; br__is_digit (a->text[end]); end++)
    continue;
  return end;
}

/* The sign that the word from AT to END gives a difference, or NULL: what is short lacks something.  */
static const char *
sign_word (const br__answer *a, size_t at, size_t end)
{
  static const char *const below[] = { "under", "below", "short", "small", "less", NULL };
  static const char *const above[] = { "over", "above", "big", "large", "long", NULL };
  if (br__is_one_of (a->text + at, end - at, below))
    return "-";
  /* How long something is, is no difference; what is too long, is.  */
  if (br__word_is (a->text + at, end - at, "long") && !(at >= 4 && br__word_is (a->text + at - 4, 4, "too ")))
    return strncmp (a->text + end, " by ", 4) == 0 ? "+" : NULL;
  return br__is_one_of (a->text + at, end - at, above) ? "+" : NULL;
}

/* 1 where the digits up to END, perhaps with a # before them, say which problem it is: "3) ", "#3: ", "3: ", and "3. " where
   a mixed number is behind it.  */
static int
is_problem_number (const br__answer *a, size_t end)
{
  const char *behind = a->text + end;
  if (behind[0] == '.' && behind[1] == ' ')
    {
      size_t whole = end + 2;
      while (br__is_digit (a->text[whole]))
        whole++;
      return whole > end + 2 && a->text[whole] == ' ' && fraction_end (a, whole + 1) > whole + 1;
    }
  return (a->text[0] == '#' && (*behind == ':' || *behind == ' ')) || (*behind == ')' && behind[1]) || strncmp (behind, ": ", 2) == 0;
}

/* Drops the sign in front, and where it is a bracket, the one that closes it.  */
static void
drop_sign (br__answer *a)
{
  static const char open[] = "([{<", close[] = ")]}>";
  const char *which = strchr (open, a->text[0]);
  char *end = which ? strchr (a->text, close[which - open]) : NULL;
  if (end)
    br__answer_replace (a, (size_t) (end - a->text), 1, "");
  br__answer_replace (a, 0, 1, "");
}

/* Drops what stands before the value: "x =", "answer:", "about", "I got", "the wheel is", but no word that makes another
   value of it.  */
static void
drop_front (br__answer *a)
{
  static const char *const kept[] =
  {
    "not", "no", "less", "more", "than", "under", "over", "almost", "nearly", "between", "from", "to", "or", "half", "quarter",
    "twice", "double", "ll", "lo", "il", "li", NULL
  };
  char *equals = strrchr (a->text, '=');
  if (equals && strpbrk (equals, "0123456789"))
    br__answer_replace (a, 0, (size_t) (equals + 1 - a->text), "");
  for (;;)
    {
      size_t end = br__letters_end (a, 0), number = a->text[0] == '#';
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
      else if (sign && (strncmp (a->text + end, " by ", 4) == 0 || (a->text[end] && fraction_end (a, end + 1) > end + 1)))
        {
          br__answer_replace (a, 0, a->text[end + 1] == 'b' ? end + 4 : end + 1, sign);
          return;
        }
      else if (a->length && strchr (" .,:;*()=[]{}<>", a->text[0]) && !(a->text[0] == '.' && br__is_digit (a->text[1])))
        drop_sign (a);
      /* "It's": a word, too.  */
      else if (end && a->text[end] == '\'' && br__is_letter (a->text[end + 1]))
        br__answer_replace (a, 0, end + 1, "");
      /* "l1" may be meant for 11.  */
      else if (end && strchr ("lIoO", a->text[end - 1]) && br__is_digit (a->text[end]))
        return;
      else if (end && (!br__is_one_of (a->text, end, kept) || a->text[end] == ':'))
        {
          /* "answer- 3/8": the dash is no minus.  */
          size_t dash = end + (a->text[end] == ' ');
          br__answer_replace (a, 0, a->text[dash] == '-' && (dash == end || a->text[dash + 1] == ' ') ? dash + 1 : end, "");
        }
      else
        return;
    }
}

/* The unit that ends at END, or NULL; *START is where it begins.  */
static const br_unit *
unit_before (const br__answer *a, size_t end, size_t *start)
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
    "long", "wide", "high", "tall", "thick", "deep", "across", "each", "total", "exactly", "approx", "about", "roughly",
    "or", "so", "i", "think", "maybe", "over", "above", "under", "below", "short", "small", "big", "large", "less", "answer", "ans", NULL
  };
  size_t end = a->length, last = end, first = end, start;
  while (last && br__is_letter (a->text[last - 1]))
    last--;
  if (last == end || last == 0)
    return 0;
  if (br__is_one_of (a->text + last, end - last, words))
    {
      /* Who says "under" means a minus.  */
      const char *sign = a->text[0] == '-' || a->text[0] == '+' ? NULL : sign_word (a, last, end);
      br__answer_replace (a, last, end - last, "");
      br__answer_replace (a, 0, 0, sign ? sign : "");
      return 1;
    }
  while (first && (br__is_letter (a->text[first - 1]) || a->text[first - 1] == ' '))
    first--;
  if (first && strchr ("'\"", a->text[first - 1]))
    {
      br__answer_replace (a, first, end - first, "");
      return 1;
    }
  while (a->text[first] == ' ')
    first++;
  first = br__letters_end (a, first);
  if (first == 0 || first == end || !unit_before (a, first, &start))
    return 0;
  br__answer_replace (a, first, end - first, "");
  return 1;
}

/* Drops what stands behind the value: points, question marks, brackets, words.  */
static void
drop_back (br__answer *a)
{
  int more = 1;
  while (more)
    {
      size_t end = a->length;
      char *bracket = strrchr (a->text, '(');
      if (end && (strchr (" .,?!;:*=]}>", a->text[end - 1]) || (a->text[end - 1] == ')' && !bracket)))
        br__answer_replace (a, end - 1, 1, "");
      else if (end && a->text[end - 1] == ')' && bracket > a->text)
        br__answer_replace (a, (size_t) (bracket - a->text), end - (size_t) (bracket - a->text), "");
      else
        more = drop_words (a);
    }
}

/* "m m", "i n" and "in ches": letters and ends of words that stand apart and are a unit together.  */
static void
join_letters (br__answer *a)
{
  for (size_t at = 1; at + 2 < a->length; at++)
    {
      char joined[8];
      size_t count = 0, end = at, stop = 0;
      if (!strchr (" 0123456789", a->text[at - 1]) || !br__is_letter (a->text[at]))
        continue;
      while (count < sizeof joined - 1 && (br__is_letter (a->text[end]) || (a->text[end] == ' ' && br__is_letter (a->text[end + 1]))))
        {
          if (a->text[end] != ' ')
            joined[count++] = a->text[end];
          end++;
        }
      joined[count] = 0;
      if (end - at > count && !br__is_letter (a->text[end]) && br__unit_scan (&stop, joined, count, 0) && stop == count)
        br__answer_replace (a, at, end - at, joined);
    }
}

/* Units that are often misspelt.  */
static void
mend_units (br__answer *a)
{
  static const struct { const char *written, *meant; } rows[] =
  {
    { "ins", "in" }, { "inchs", "in" }, { "inche", "in" }, { "inchess", "in" }, { "inchies", "in" }, { "incs", "in" },
    { "inchez", "in" }, { "inces", "in" }, { "icnhes", "in" }, { "inhces", "in" },
    { "foots", "ft" }, { "feets", "ft" }, { "mms", "mm" }, { "milimeter", "mm" }, { "milimeters", "mm" },
    { "milimetre", "mm" }, { "milimetres", "mm" }, { "cms", "cm" }, { "centimetor", "cm" }, { "centimetors", "cm" }
  };
  join_letters (a);
  for (size_t at = 0; at < a->length; at++)
    {
      size_t end = br__letters_end (a, at);
      if (end > at && a->text[end] == '\'' && a->text[end + 1] == 's')
        br__answer_replace (a, end, 2, "");
      for (size_t i = 0; i < sizeof rows / sizeof rows[0] && end > at; i++)
        if (br__word_is (a->text + at, end - at, rows[i].written))
          {
            br__answer_replace (a, at, end - at, rows[i].meant);
            break;
          }
      at = br__letters_end (a, at);
    }
}

/* What is said between digits, and of what a fraction is: "5 over 16", "5ths", "1/2 an inch".  */
static void
mend_fractions (br__answer *a)
{
  static const struct { const char *written, *meant; } rows[] =
  {
    { " over ", "/" }, { " out of ", "/" }, { "ths", "" }, { "th", "" }, { " ths", "" }, { " th", "" }, { " of an", "" }, { " of a", "" },
    { " an", "" }, { " of", "" }, { "s", "" }
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      size_t n = strlen (rows[i].written);
      for (size_t at = 1; at + n <= a->length; at++)
        {
          int behind = br__is_digit (a->text[at - 1]) || (unsigned char) a->text[at - 1] >= 0x80;
          int ahead = *rows[i].meant == '/' ? br__is_digit (a->text[at + n]) : !br__is_letter (a->text[at + n]);
          if (behind && ahead && br__word_is (a->text + at, n, rows[i].written))
            br__answer_replace (a, at, n, rows[i].meant);
        }
    }
}

/* A point with blanks around it, unless a fraction follows; a fraction in brackets behind its whole number, or a unit.  */
static void
mend_numbers (br__answer *a)
{
  for (size_t at = 1; at < a->length; at++)
    {
      size_t left = at - (a->text[at - 1] == ' '), right = at + 1 + (a->text[at + 1] == ' ');
      if (a->text[at] == '.' && left && br__is_digit (a->text[left - 1]) && br__is_digit (a->text[right]) && right - left > 1
          && fraction_end (a, right) == right)
        br__answer_replace (a, left, right - left, ".");
      size_t end = strchr ("({[", a->text[at]) ? fraction_end (a, at + 1) : 0, unit = 0;
      if (end && br__unit_scan (&unit, a->text, a->length, at + 1) && strchr (")}]", a->text[unit]) && a->text[unit])
        {
          br__answer_replace (a, unit, 1, " ");
          br__answer_replace (a, at, 1, " ");
        }
      if (left && br__is_digit (a->text[left - 1]) && end > at + 1 && strchr (")}]", a->text[end]) && a->text[end])
        {
          br__answer_replace (a, end, 1, "");
          br__answer_replace (a, at, 1, " ");
        }
    }
}

/* What joins two parts of one measure, at AT: its length, or 0.  */
static size_t
joint_at (const br__answer *a, size_t at)
{
  static const char *const joints[] = { " and ", " & ", "& ", "&", " plus ", " + ", "+", ", ", " - ", "- ", " -", "-" };
  for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++)
    if (strncmp (a->text + at, joints[i], strlen (joints[i])) == 0)
      return strlen (joints[i]);
  if (a->text[at] == ',' && fraction_end (a, at + 1) > at + 1)
    return 1;
  return 0;
}

/* Blanks round a slash go, and what joins whole, fraction, feet and inches becomes a blank.  */
static void
mend_joints (br__answer *a)
{
  for (size_t at = 1; at < a->length; at++)
    {
      size_t n = a->text[at] == ' ' && a->text[at + 1] == '/';
      if (n)
        br__answer_replace (a, at, 1, "");
      if (a->text[at] == '/' && a->text[at + 1] == ' ')
        br__answer_replace (a, at + 1, 1, "");
    }
  for (size_t at = 1; at < a->length; at++)
    {
      size_t n = joint_at (a, at), start;
      if (!n)
        continue;
      const br_unit *unit = unit_before (a, at, &start);
      int part = fraction_end (a, at + n) > at + n || (unit && br__is_digit (a->text[at + n])) || br__is_letter (a->text[at + n]);
      if ((br__is_digit (a->text[at - 1]) || unit) && part)
        br__answer_replace (a, at, n, " ");
    }
}

/* 11" 5/16 and 11 in 5/16 in: the unit goes to the end.  1 ft 4: what comes after feet is inches.  */
static void
move_unit (br__answer *a)
{
  size_t start, last_start;
  const br_unit *last = unit_before (a, a->length, &last_start);
  for (size_t at = 1; at <= a->length; at++)
    {
      const br_unit *unit = br__is_digit (a->text[at]) || (unsigned char) a->text[at] >= 0x80 ? unit_before (a, at, &start) : NULL;
      size_t end = unit ? fraction_end (a, at) : at;
      if (!unit || start == 0 || at == start)
        continue;
      size_t stop = end;
      while (a->text[stop] == ' ')
        stop++;
      int alone = stop == a->length || (last && stop == last_start);
      if (strcmp (unit->name, "in") == 0 && end > at && alone && (!last || last == unit))
        {
          br__answer_replace (a, end, a->length - end, " in");
          br__answer_replace (a, start, at - start, " ");
          return;
        }
      if (strcmp (unit->name, "ft") == 0 && !last && !strpbrk (a->text + at, "abcdefghijklmnopqrstuvwxyz'\""))
        {
          br__answer_replace (a, a->length, 0, " in");
          return;
        }
    }
}

/* 1 if the letters, points and blanks behind the number of TEXT are all that follows it, or a rest, as in "7 r 2"; *END is
   the number's.  */
static int
is_counted (const br__answer *a, size_t *end)
{
  static const char *const rests[] = { "r", "rem", "remainder", "rest", "with", "left", "over", NULL };
  static const char *const parts[] = { "half", "halves", "third", "thirds", "quarter", "quarters", "dozen", "dozens", "hundred", NULL };
  size_t at = 0;
  while (a->text[at] && a->text[at] != ' ' && !br__is_letter (a->text[at]) && strncmp (a->text + at, ", ", 2) != 0)
    at++;
  *end = at;
  for (size_t word = at; word < a->length; word = br__letters_end (a, word) + 1)
    if (br__is_one_of (a->text + word, br__letters_end (a, word) - word, rests))
      return 1;
    else if (br__is_one_of (a->text + word, br__letters_end (a, word) - word, parts))
      return 0;
  for (; at < a->length; at++)
    if (!br__is_letter (a->text[at]) && a->text[at] != ' ' && a->text[at] != '.')
      return 0;
  return *end < a->length;
}

static br_status
read_text (br__answer *a, int counted, br_error *error)
{
  size_t end;
  br_status status = br_measure_read (&a->measure, a->text, a->length, NULL, error);
  if (status == BR_OK || status == BR_NO_MEMORY || !counted || !is_counted (a, &end))
    return status;
  return br_measure_read (&a->measure, a->text, end, NULL, NULL) == BR_OK ? BR_OK : status;
}

br_status
br__answer_read (br__answer *a, const char *written, int counted, br_error *error)
{
  br_measure zero = BR_MEASURE_ZERO;
  br__answer as_given;
  size_t skipped = 0;
  a->measure = zero;
  take_text (a, &skipped, written);
  as_given = *a;
  take_signs (a);
  br_status status = read_text (a, counted, error);
  if (status == BR_OK || status == BR_NO_MEMORY)
    return status;
  error->offset += skipped;
  *a = as_given;
  br__answer_drop_old (a);
  make_plain (a);
  br__answer_put_words (a);
  br__answer_put_equals (a);
  drop_front (a);
  mend_units (a);
  mend_fractions (a);
  mend_numbers (a);
  drop_back (a);
  mend_joints (a);
  move_unit (a);
  br__answer_carry (a);
  take_signs (a);
  br_status again = a->length ? read_text (a, counted, NULL) : BR_SYNTAX;
  if (again == BR_OK || again == BR_NO_MEMORY)
    return again;
  *a = as_given;
  return status;
}
