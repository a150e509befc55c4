/* SPDX-License-Identifier: LGPL-3.0-or-later
   answer_none.c - what a pupil writes who has no answer: "idk", "-", "we didn't learn this"; and what a spreadsheet has made of
   an answer.  Which of them pupils write is common practice, no source.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "lesson/answer.h"
#include "measure/measure.h"

/* 1 where WRITTEN has a number in words; "one" and "half" are of the sentence: "I don't get this one".  */
static int
has_number_word (const char *written)
{
  br__answer a;
  a.length = strlen (written) < BR__ANSWER_BYTES ? strlen (written) : BR__ANSWER_BYTES;
  memcpy (a.text, written, a.length);
  a.text[a.length] = 0;
  br__answer_put_words (&a);
  for (size_t at = 0; at < a.length; at++)
    {
      size_t digits = strspn (a.text + at, "0123456789");
      if (digits > 1 || (digits && a.text[at] != '1' && !(at > 1 && a.text[at - 1] == '/' && a.text[at - 2] == '1')))
        return 1;
    }
  return 0;
}

/* Letters past ASCII begin at U+00C0, where the signs for times and divided by are, too; U+2000 to U+2BFF and those from U+1F000
   on are signs (Unicode, names of its blocks).  */
int
br__is_other_letter (const br__glyph *g)
{
  return g->kind == BR__GLYPH_OTHER && g->code >= 0xC0 && g->code != 0xD7 && g->code != 0xF7 && !(g->code >= 0x2000 && g->code < 0x2C00)
         && g->code < 0x1F000;
}

int
br__answer_is_none (const char *written)
{
  static const char *const words[] =
  {
    "dk", "na", "nil", "none", "x", "xx", "xxx", "no", "nope", "dash",
    "unsure", "unknown", "empty", "null", "nothing", "pass", "ill", "tbd", "huh", "what", "eh", "hmm", NULL
  };
  /* What such a sentence has in it, blanks left out; a letter past ASCII is a z.  */
  static const char *const signs[] =
  {
    "idk", "dunno", "dont", "donot", "didnt", "didnot", "cant", "cannot", "couldnt", "wont", "wasnt", "nothere", "havent", "absent", "away", "sick", "ranout", "noans", "noneof", "enoughtime",
    "forgot", "forget", "remember", "understand", "learn", "notsure", "idea", "clue", "outoftime", "notime", "notdone", "notyet", "notfinish", "unfinish",
    "incomplete", "stuck", "confus", "lost",
    "skip", "blank", "answer", "help", "sorry", "hard", "difficult", "giveup", "gaveup", "whatever", "bellrang", "firedrill", "ateit", "askme", "whatdoes", "later", "cutoff", "notprint", "smudge", "torn",
    "notknow", "noknow", "nounder", "weiznicht", "weissnicht", "keineahnung", "jenesais", "saispas", "nosz", "naosei", "nzosei", "nonloso", "ikveetniet", "vetinte", "vedikke"
  };
  char letters[64];
  size_t count = 0, length = strlen (written);
  for (size_t at = 0; at < length; )
    {
      br__glyph g = br__glyph_at (written, length, at);
      if (g.kind == BR__GLYPH_DIGIT || g.kind == BR__GLYPH_VULGAR || g.kind == BR__GLYPH_ONE_OVER
          || g.kind == BR__GLYPH_SUPERSCRIPT || g.kind == BR__GLYPH_SUBSCRIPT)
        return 0;
      if (br__is_other_letter (&g) && count < sizeof letters - 1)
        letters[count++] = 'z';
      if (g.kind == BR__GLYPH_LETTER && count < sizeof letters - 1)
        letters[count++] = (char) (written[at] | 32);
      at += g.length;
    }
  letters[count] = 0;
  for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
    if (strstr (letters, signs[i]))
      return !has_number_word (written);
  return count == 0 || br__is_one_of (letters, count, words);
}

/* The end of the digits at AT, of which there are from LEAST to MOST; else AT.  */
static size_t
digits_end (const char *text, size_t at, size_t least, size_t most)
{
  size_t count = strspn (text + at, "0123456789");
  return count >= least && count <= most ? at + count : at;
}

/* The end of the name of a month at AT, whole or its first three letters; else AT.  */
static size_t
month_end (const char *text, size_t at)
{
  static const char *const months[] =
  {
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december", "jan",
    "feb", "mar", "apr", "jun", "jul", "aug", "sep", "sept", "oct", "nov", "dec", NULL
  };
  size_t end = at;
  while (br__is_letter (text[end]))
    end++;
  return br__is_one_of (text + at, end - at, months) ? end : at;
}

/* 5/8 becomes 5-Aug, May 8, 5/8/2026 or 2026-05-08, according to where the spreadsheet thinks that it is.  */
int
br__answer_is_date (const char *text)
{
  size_t first = digits_end (text, 0, 1, 4), second, end, start = first;
  start += first > 0 && text[first] && strchr ("-/ ", text[first]);
  if (month_end (text, start) > start)
    {
      end = month_end (text, start);
      second = text[end] && strchr ("-/ ", text[end]) ? digits_end (text, end + 1, 1, 4) : end + 1;
      return second > end + 1 ? text[second] == 0 : first > 0 && text[end] == 0;
    }
  if (first == 0 || !text[first] || !strchr ("-/", text[first]))
    return 0;
  second = digits_end (text, first + 1, 1, 2);
  if (second == first + 1 || text[second] != text[first])
    return 0;
  end = digits_end (text, second + 1, 1, 4);
  /* 11/5/16 may be a size.  */
  return end > second + 1 && (first == 4 || end == second + 5) && (text[end] == 0 || text[end] == ' ');
}
