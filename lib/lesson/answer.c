/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer.c - an answer as a pupil writes it.  The project's one reader of measures reads it; what that does
   not take as it stands is put into its notation first: "= 11 and 5 / 16 Inches long ?" is 11 5/16 inches.
   Which forms pupils write is common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
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

/* ---- The answer as it stands ---- */

/* Bytes of a quotation mark at S, or 0: straight, single, curly, low or angled.  */
static size_t
quote_at (const char *s)
{
  static const char *const quotes[] =
  {
    "\"", "'", "`", "_", "\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E", "\xE2\x80\x98", "\xE2\x80\x99", "\xC2\xAB", "\xC2\xBB"
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
  /* ="5/8": a spreadsheet's way to keep a text.  */
  start += strncmp (written + start, "=\"", 2) == 0;
  quote = quote_at (written + start);
  start = br__skip_blanks (written, strlen (written), start + quote);
  length = strlen (written + start);
  if (length > BR__ANSWER_BYTES)
    length = BR__ANSWER_BYTES;
  memcpy (a->text, written + start, length);
  while (length && strchr (" \t\r\n", a->text[length - 1]))
    length--;
  a->text[length] = 0;
  a->quoted = a->carried = 0;
  for (size_t at = 0; quote && at < length; at++)
    if (quote_at (a->text + at) && at + quote_at (a->text + at) == length)
      {
        a->quoted = a->text[at] == '"' || strcmp (a->text + at, "\xE2\x80\x9D") == 0 || strcmp (a->text + at, "\xE2\x80\x9C") == 0;
        length = at;
      }
  a->text[length] = 0;
  a->length = length;
  *skipped = start;
}

/* Two apostrophes for the inch sign, one comma between digits for the point, and a slash in 1:48 and 1 : 48; 00:45 is a time.  */
static void
take_signs (br__answer *a)
{
  char *ratio = strstr (a->text, " : ");
  if (ratio && ratio > a->text && br__is_digit (ratio[-1]) && br__is_digit (ratio[3]))
    br__answer_replace (a, (size_t) (ratio - a->text), 3, ":");
  size_t colon = strspn (a->text, "0123456789");
  if (colon && a->text[0] != '0' && a->text[colon] == ':' && a->text[colon + 1] && a->text[colon + 1] != '0' && strspn (a->text + colon + 1, "0123456789") == a->length - colon - 1)
    a->text[colon] = '/';
  char *text = a->text, *comma = strchr (text, ',');
  if (comma == text && br__is_digit (text[1]))
    text[0] = '.';
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
  if (g->kind == BR__GLYPH_BLANK || g->kind == BR__GLYPH_CONTROL)
    return " ";
  if (g->kind == BR__GLYPH_DASH || g->code == 0x2014 || g->code == 0x2015 || g->code == '_')
    return "-";
  if (g->kind == BR__GLYPH_SLASH || g->kind == BR__GLYPH_FRACTION_SLASH || g->code == '\\' || g->code == '|' || g->code == 0xF7)
    return "/";
  /* Marks that keyboards have for the apostrophe.  */
  if (g->code == '`' || g->code == 0xB4)
    return "'";
  /* "5/8 <- answer", and the sign for a diameter, or what keyboards have for it.  */
  if (g->code == 0x2190 || g->code == 0x2300 || g->code == 0xD8)
    return " ";
  /* About, arrows, and the three dots of "therefore".  */
  if (g->code == 0x2248 || g->code == '~' || g->code == 0x2192 || g->code == 0x21D2 || g->code == 0x2234)
    return "=";
  /* A cross and a thumb down say that it is not so.  */
  if ((g->code >= 0x2715 && g->code <= 0x2718) || (g->code >= 0x274C && g->code <= 0x274E) || g->code == 0x1F44E || g->code == 0x1F6AB)
    return NULL;
  /* A bullet or points before it, a tick, a star or a face behind it (Unicode, names of its blocks).  */
  if (g->code == 0x2022 || g->code == 0x2026 || (g->code >= 0x2B00 && g->code < 0x2C00) || (g->code >= 0x25A0 && g->code < 0x27C0) || (g->code >= 0xFE00 && g->code < 0xFE10) || g->code >= 0x1F000)
    return " ";
  if (g->code == 0xB7)
    return ".";
  if (g->code == '[' || g->code == '{')
    return "(";
  if (g->code == ']' || g->code == '}')
    return ")";
  /* Letters of other alphabets stand in no word that is known.  */
  if (br__is_other_letter (g))
    return "z";
  return g->kind == BR__GLYPH_FOOT ? "'" : g->kind == BR__GLYPH_INCH ? "\"" : NULL;
}

/* The first of each of COUNT rows, in any letters, becomes the second, which does not hold it.  */
static void
replace_all (br__answer *a, const char *const rows[][2], size_t count)
{
  for (size_t i = 0; i < count; i++)
    {
      size_t n = strlen (rows[i][0]);
      for (size_t at = 0; at + n <= a->length; )
        if (br__word_is (a->text + at, n, rows[i][0]))
          br__answer_replace (a, at, n, rows[i][1]);
        else
          at++;
    }
}

/* Signs that nobody sees go, and letters, digits and signs as wide as those of Chinese are ASCII's (Unicode, Halfwidth and
   Fullwidth Forms).  */
static void
put_narrow (br__answer *a)
{
  for (size_t at = 0; at < a->length; )
    {
      br__glyph g = br__glyph_at (a->text, a->length, at);
      int unseen = (g.code >= 0x200B && g.code <= 0x200F) || g.code == 0x2060 || g.code == 0xFEFF || g.code == 0xAD;
      char narrow[2] = { (char) (g.code - 0xFF00 + ' '), 0 };
      if (unseen || (g.code > 0xFF00 && g.code < 0xFF5F))
        br__answer_replace (a, at, g.length, unseen ? "" : narrow);
      at += unseen ? 0 : g.code > 0xFF00 && g.code < 0xFF5F ? 1 : g.length;
    }
}

/* The digits of a fraction that are raised or lowered are ASCII's, however the slash between them is written; those of in² stay.  */
static void
put_level (br__answer *a)
{
  int slash = 0;                /* before the digits at hand */
  for (size_t at = 0; at < a->length; )
    {
      br__glyph g = br__glyph_at (a->text, a->length, at), behind = g;
      const unsigned kind = g.kind;
      size_t end = at;
      while (behind.kind == kind && end < a->length)
        behind = br__glyph_at (a->text, a->length, end += behind.length);
      int raised = kind == BR__GLYPH_SUPERSCRIPT && (behind.kind == BR__GLYPH_SLASH || behind.kind == BR__GLYPH_FRACTION_SLASH);
      if (raised || (kind == BR__GLYPH_SUBSCRIPT && slash))
        {
          br__answer_replace (a, at, 0, raised && at && br__is_digit (a->text[at - 1]) ? " " : "");
          for (at += raised && at && a->text[at] == ' '; br__glyph_at (a->text, a->length, at).kind == kind; at++)
            {
              g = br__glyph_at (a->text, a->length, at);
              br__answer_replace (a, at, g.length, (char[2]) { (char) ('0' + g.num), 0 });
            }
        }
      else
        at = end;
      slash = kind == BR__GLYPH_SLASH || kind == BR__GLYPH_FRACTION_SLASH;
    }
}

/* "Isn't" is a word, however its apostrophe is written.  */
static void
join_words (br__answer *a)
{
  for (size_t at = 1; at < a->length; at++)
    {
      br__glyph g = br__glyph_at (a->text, a->length, at);
      if (g.kind == BR__GLYPH_FOOT && br__is_letter (a->text[at - 1]) && br__is_letter (a->text[at + g.length]))
        br__answer_replace (a, at, g.length, "");
    }
}

#define COUNT(rows) (sizeof (rows) / sizeof (rows)[0])

static void
make_plain (br__answer *a)
{
  /* Inch signs as other programs hand them over, then the units of languages with other letters, longer words first.  */
  static const char *const before[][2] =
  {
    { "\\\"", "\"" }, { "&quot;", "\"" }, { "&#34;", "\"" }, { "&Prime;", "\"" }, { "&#39;", "'" }, { "&frasl;", "/" }, { "&nbsp;", " " }, { ":-)", "" }, { ";-)", "" }, { ":-(", "" }, { " :D", "" }, { " :P", "" }, { "w/o ", "without " }, { "w/ ", "with " }, { "o.c.", "on center" }, { "no more no less", "exactly" }, { "no more, no less", "exactly" },
    { "and not a bit more", "exactly" }, { "neither more nor less", "exactly" }, { "\"\"", "\"" },
    /* Signs that keyboards have beside that of degrees.  */
    { "\u00BA", "\u00B0" }, { "\u02DA", "\u00B0" },
    { "\u0434\u044E\u0439\u043C\u043E\u0432", "in" }, { "\u0434\u044E\u0439\u043C\u0430", "in" }, { "\u0434\u044E\u0439\u043C", "in" },
    { "\u043C\u043C", "mm" }, { "\u0441\u043C", "cm" }, { "\u82F1\u5BF8", "in" }, { "\u82F1\u5C3A", "ft" }, { "\u6BEB\u7C73", "mm" },
    { "\u5398\u7C73", "cm" }, { "\u30A4\u30F3\u30C1", "in" }, { "\uC778\uCE58", "in" }
  };
  static const char *const behind[][2] =
  {
    { "<- ", " " }, { "->", "=" }, { "=>", "=" }, { "more or less", "about" }, { "give or take", "about" }, { "-ish", " ish" }, { " as a decimal", "" },
    { " as a fraction", "" }, { " in all", "" },
    { "\"\u00B2", " in\u00B2" }, { "\" \u00B2", " in\u00B2" }, { "\"^2", " in\u00B2" }, { "'\u00B2", " ft\u00B2" }, { "sq \"", "sq in" }, { "sq. \"", "sq in" },
    { "\" sq", " in sq" }, { "close to ", "about " }, { "or thereabouts", "about" }, { "or something like that", "about" }, { "end to end", "across" }, { "edge to edge", "across" },
    { "tip to tip", "across" }, { "this one", "this" }, { "= final", " " }, { " . in", " in" }, { ".in", " in" }, { ",in", " in" }, { " , ", ", " }, { "points to ", "at " }, { "pointing to ", "at " }, { "cut to ", "at " }, { "equal to ", "is " }, { "comes to ", "is " }, { "came to ", "is " }, { "adds up to ", "is " }, { "works out to ", "is " }
  };
  put_narrow (a);
  put_level (a);
  replace_all (a, before, COUNT (before));
  for (size_t at = 0; at < a->length; )
    {
      br__glyph g = br__glyph_at (a->text, a->length, at);
      const char *plain = plain_sign (&g);
      if (plain)
        br__answer_replace (a, at, g.length, plain);
      char last = at ? a->text[at - 1] : ' ', c = a->text[at];
      if (plain && c == last && strchr (" -'\"", c))
        {
          /* One blank, one dash, one inch sign; two apostrophes are an inch sign.  */
          br__answer_replace (a, at - (c == '\''), 1 + (c == '\''), c == '\'' ? "\"" : "");
          continue;
        }
      at += plain ? 1 : g.length;
    }
  replace_all (a, behind, COUNT (behind));
  /* "3/8 in not enough", but "not enough for 17".  */
  if (a->length > 10 && br__word_is (a->text + a->length - 10, 10, "not enough"))
    br__answer_replace (a, a->length - 10, 10, "too short");
}

size_t
br__letters_end (const br__answer *a, size_t at)
{
  while (br__is_letter (a->text[at]))
    at++;
  return at;
}

size_t
br__fraction_end (const br__answer *a, size_t at)
{
  size_t end = at;
  br__glyph g = br__glyph_at (a->text, a->length, at);
  if (g.kind == BR__GLYPH_VULGAR)
    return at + g.length;
  while (br__is_digit (a->text[end]))
    end++;
  if (end == at || a->text[end] != '/' || !br__is_digit (a->text[end + 1]))
    return at;
  for (end++; br__is_digit (a->text[end]); end++)
    continue;
  return end;
}

/* What joins two parts of one measure, at AT: its length, or 0.  */
static size_t
joint_at (const br__answer *a, size_t at)
{
  static const char *const joints[] = { " and ", " & ", "& ", " &", "&", " n ", " y ", " et ", " und ", " e ", " och ", " og ", " en ", " plus ", " + ", " +", "+ ", "+", ", ", " - ", "- ", " -", "-" };
  for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++)
    if (strncmp (a->text + at, joints[i], strlen (joints[i])) == 0)
      return strlen (joints[i]);
  if (a->text[at] == ',' && br__fraction_end (a, at + 1) > at + 1)
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
      const br_unit *unit = br__answer_unit_before (a, at, &start);
      int part = br__fraction_end (a, at + n) > at + n || (unit && br__is_digit (a->text[at + n]))
                 || (br__is_letter (a->text[at + n]) && br__unit_scan (&start, a->text, a->length, at + n));
      /* "4' - 3"" is feet and inches, "1 m - 24 cm" a difference.  */
      if (unit && br__unit_is_decimal (unit) && memchr (a->text + at, '-', n))
        continue;
      if ((br__is_digit (a->text[at - 1]) || unit) && part)
        br__answer_replace (a, at, n, " ");
    }
}

/* 11" 5/16 and 11 in 5/16 in: the unit goes to the end.  1 ft 4: what comes after feet is inches; 1m24: two
   digits after metres are centimetres, three millimetres.  */
static void
move_unit (br__answer *a)
{
  size_t start, last_start;
  const br_unit *last = br__answer_unit_before (a, a->length, &last_start);
  for (size_t at = 1; at <= a->length; at++)
    {
      size_t end = br__fraction_end (a, at);
      const br_unit *unit = br__is_digit (a->text[at]) || end > at ? br__answer_unit_before (a, at, &start) : NULL;
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
      size_t places = strspn (a->text + at, "0123456789");
      if (strcmp (unit->name, "m") == 0 && at + places == a->length && (places == 2 || places == 3))
        {
          br__answer_replace (a, a->length, 0, places == 2 ? " cm" : " mm");
          br__answer_replace (a, at, 0, " ");
          return;
        }
      if (strcmp (unit->name, "ft") == 0 && !last && !strpbrk (a->text + at, "abcdefghijklmnopqrstuvwxyz'\""))
        {
          br__answer_replace (a, a->length, 0, " in");
          return;
        }
    }
}

/* 1 if what is behind the count that ends at END are words, and sizes with their unit behind a word: "7 pieces of 4 in".  */
static int
are_sizes (const br__answer *a, size_t end)
{
  size_t at = end, stop = 0, unit = end + (a->text[end] == ' ');
  int word = 0, length = br__unit_scan (&stop, a->text, a->length, unit) != NULL;
  while (at < a->length)
    {
      size_t behind = at + strspn (a->text + at, "0123456789./ -");
      word |= br__is_letter (a->text[at]) || strchr ("@&", a->text[at]);
      if (br__is_letter (a->text[at]) || strchr (" .", a->text[at]) || (word && strchr ("@&,", a->text[at])))
        at++;
      else if (behind > at && word && !length && br__unit_scan (&stop, a->text, a->length, behind))
        at = stop;
      else
        return 0;
    }
  return end < a->length;
}

/* 1 if what is behind the number of TEXT says what was counted, or a rest, as in "7 r 2"; *END is the number's.  */
static int
is_counted (const br__answer *a, size_t *end)
{
  static const char *const rests[] = { "r", "rem", "remainder", "rest", "with", "left", "over", "bit", "little", NULL };
  static const char *const parts[] =
  { "half", "halves", "third", "thirds", "quarter", "quarters", "dozen", "dozens", "pair", "pairs", "another", "tens", "score", "gross", "hundred",
    "thousand", "k", "million", "m", "billion",
    /* "2l" is 21.  */
    "l", "o", NULL };
  size_t at = 0;
  while (a->text[at] && a->text[at] != ' ' && !br__is_letter (a->text[at]) && strncmp (a->text + at, ", ", 2) != 0)
    at++;
  /* "17 1/2 boards" are more than 17.  */
  if (a->text[at] == ' ' && br__fraction_end (a, at + 1) > at + 1)
    at = br__fraction_end (a, at + 1);
  *end = at;
  /* What is in a bracket is looked at where that is dropped.  */
  if (strchr (a->text + at, '('))
    return 0;
  for (size_t word = at, stop; word < a->length; word = stop + 1)
    if (br__is_one_of (a->text + word, (stop = br__letters_end (a, word)) - word, rests))
      return 1;
    /* "17 times" is a count, "17 or 18 left" is none.  */
    else if ((br__is_changing (a, word, stop) && !(stop == a->length && br__word_is (a->text + word, stop - word, "times")))
             || strncmp (a->text + word, "to ", 3) == 0)
      return 0;
    else if (br__is_one_of (a->text + word, stop - word, parts))
      return 0;
  return are_sizes (a, at);
}

/* One answer written twice is one: 5/8" 5/8".  */
static void
drop_twin (br__answer *a)
{
  size_t half = a->length / 2;
  if (a->length % 2 && a->text[half] == ' ' && memcmp (a->text, a->text + half + 1, half) == 0 && strspn (a->text, "0123456789") < half
      && br__has_number (a->text, half))
    br__answer_replace (a, half, half + 1, "");
}

static br_status
read_text (br__answer *a, int counted, br_error *error)
{
  size_t end;
  br_status status = br_measure_read (&a->measure, a->text, a->length, NULL, error);
  if (status == BR_OK || status == BR_NO_MEMORY || !counted || !is_counted (a, &end))
    return status;
  if (br_measure_read (&a->measure, a->text, end, NULL, NULL) != BR_OK)
    return status;
  /* The size in "9 with 2/4 in left" is not looked at.  */
  a->text[a->length = end] = 0;
  return BR_OK;
}

br_status
br__answer_read (br__answer *a, const char *written, int counted, br_error *error)
{
  static const char *const not_sure[][2] = { { "not sure", "maybe" }, { "no idea", "maybe" }, { "no clue", "maybe" } };
  br_measure zero = BR_MEASURE_ZERO;
  br__answer as_given;
  size_t skipped = 0;
  a->measure = zero;
  take_text (a, &skipped, written);
  if (br__answer_is_date (a->text))
    return br__fail (error, BR_SYNTAX, skipped, a->length, "a spreadsheet has made a date of this");
  as_given = *a;
  take_signs (a);
  br_status status = read_text (a, counted, error);
  if (status == BR_OK || status == BR_NO_MEMORY)
    return status;
  error->offset += skipped;
  *a = as_given;
  join_words (a);
  replace_all (a, not_sure, COUNT (not_sure));
  br__answer_drop_reason (a);
  br__answer_drop_old (a);
  make_plain (a);
  br__answer_put_digits (a);
  drop_twin (a);
  br__answer_put_words (a);
  br__answer_put_equals (a);
  br__answer_mend_order (a);
  br__answer_drop_front (a);
  br__answer_mend (a);
  br__answer_drop_back (a);
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
