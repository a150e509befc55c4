/* SPDX-License-Identifier: LGPL-3.0-or-later
   frame.c - what stands around a phrase: words of questions and orders, assignments, signs of other notations.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "measure/measure.h"
#include "phrase/phrase.h"
#include "phrase/words.h"

/* ---- Questions and orders ---- */

/* how many inches is 45 mm, how many mm in 2 3/8, how many mm are there in a foot */
static void
how_many (br__words *l)
{
  size_t size = 3;
  if (br__words_at (l, 0, "how many") && br__word_is_unit (l, 2))
    {
      size += (size_t) br__words_at (l, size, "is|are");
      size += (size_t) br__word_at (l, size, "there");
      size += (size_t) br__word_at (l, size, "in");
    }
  if (size > 3 && l->count > size && l->count + 2 <= BR__MOST_WORDS)
    {
      size_t start = l->count;
      const char *unit = l->word[2].s;
      size_t length = l->word[2].length;
      br__words_put (l, start, 0, "in unit");
      l->word[start + 1].s = unit;
      l->word[start + 1].length = length;
      br__words_put (l, 0, size, "");
    }
}

/* N percent, N per cent, and behind a sign in words N %: N%.  */
static void
percents (br__words *l)
{
  for (size_t i = 0; i + 1 < l->count; i++)
    {
      int spoken = i > 0 && br__word_at (l, i + 1, "%") && br__words_at (l, i - 1, "plus|minus|less|subtract|away");
      size_t words = spoken || br__word_at (l, i + 1, "percent") ? 2 : br__words_at (l, i + 1, "per cent") ? 3 : 0;
      if (words && br__word_begins_number (l, i))
        br__words_make (l, i, words, "%.*s%%", (int) l->word[i].length, l->word[i].s);
    }
}

/* round to the nearest quarter: 2.3 */
static void
colons (br__words *l)
{
  for (size_t i = 1; i + 1 < l->count && br__words_at (l, 0, "round|to|nearest"); i++)
    if (l->word[i].length > 1 && l->word[i].s[l->word[i].length - 1] == ':')
      l->word[i].length--, l->changed = 1;
}

/* ?, ! and = behind a line, ? before one.  */
static void
signs_around (br__words *l)
{
  /* A question mark ends a question, and no assignment.  */
  if (l->count && !memchr (l->run->text, '=', l->run->end)
      && l->word[l->count - 1].s[l->word[l->count - 1].length - 1] == '?')
    {
      if (l->count > 1 && l->word[l->count - 1].length == 1)
        br__words_put (l, l->count - 1, 1, "");
      else if (l->word[l->count - 1].length > 1)
        l->word[l->count - 1].length--, l->changed = 1;
    }
  /* Help!  */
  if (l->count && l->word[l->count - 1].length > 2 && strchr ("!.", l->word[l->count - 1].s[l->word[l->count - 1].length - 1])
      && br__letter_at (l->word[l->count - 1].s, l->word[l->count - 1].length, 0))
    l->word[l->count - 1].length--, l->changed = 1;
  /* =3+4 */
  if (l->count && l->word[0].length > 1 && l->word[0].s[0] == '=' && br__measure_begins (l->word[0].s, l->word[0].length, 1))
    l->word[0].s++, l->word[0].length--, l->changed = 1;
  /* 3/8 in = ?mm */
  const size_t last = l->count ? l->count - 1 : 0;
  if (last && l->word[last].length > 1 && l->word[last].s[0] == '?' && br__letter_at (l->word[last].s + 1, 1, 0))
    {
      l->word[last].s++, l->word[last].length--;
      br__words_put (l, last, 0, "?");
    }
  /* sixty fourths */
  for (size_t i = 0; i + 1 < l->count; i++)
    if (br__words_at (l, i, "sixty fourth|fourths") || br__words_at (l, i, "thirty second|seconds"))
      br__words_make (l, i, 2, "%s%s", br__word_at (l, i, "sixty") ? "sixty-fourth" : "thirty-second", &"s"[l->word[i + 1].s[l->word[i + 1].length - 1] != 's']);
  /* 3+4= */
  if (l->count && l->word[l->count - 1].length > 1 && l->word[l->count - 1].s[l->word[l->count - 1].length - 1] == '='
      && memchr (l->run->text, '=', l->run->end) == l->word[l->count - 1].s + l->word[l->count - 1].length - 1
      && !br__letter_at (l->word[0].s, l->word[0].length, 0))
    l->word[l->count - 1].length--, l->changed = 1;
}

/* Said before a line that puts another right.  */
#define CORRECTS "sorry|sorry,|actually|actually,|wait|wait,|whoops|whoops,|oops|oops,|hmm|hmm,|well,|no,|nope,|ok,|okay,|so,"

static void
questions (br__words *l)
{
  static const struct { const char *phrase, *is; } table[] = {
    { "please", "" }, { CORRECTS, "" }, { "i meant|mean", "" }, { "wat|wot", "what" }, { "wats|wots", "what is" }, { "can|could|would|will you", "" }, { "can|could|may i", "" }, { "i want|need|like to", "" },
    { "i would like to", "" }, { "i'd like to", "" }, { "let us|me", "" }, { "let's|lets", "" }, { "please", "" },
    { "what is missing", "missing" }, { "what's missing", "missing" }, { "whats missing", "missing" },
    { "what is still missing", "missing" }, { "show|list checks", "check" }, { "show|list dimensions", "list" },
    { "show|list missing", "missing" }, { "show|list shapes", "shapes" }, { "show|list parts", "parts" },
    { "show list", "list" }, { "show me", "" }, { "tell|give me", "" }, { "what do|will|would i|you|we get if|when i|we|you", "" },
    { "what is half|full|quarter|1/2|1/4 scale|size", "help scale" },
    { "how long|big|wide|high|tall|thick|deep|far|much|large is|are", "" }, { "what is|are", "" }, { "what's", "" }, { "whats", "" },
    { "work out", "" }, { "calculate|calc|compute|evaluate|eval|convert|express", "" }, { "set|use the", "set" },
    { "make sure|certain that", "check" }, { "make sure|certain", "check" }, { "ensure|guarantee that", "check" }, { "ensure|guarantee", "check" }, { "check that|whether", "check" }, { "=", "" } };
  signs_around (l);
  percents (l);
  colons (l);
  br__phrase_names (l);
  if (l->count > 1 && br__word_at (l, l->count - 1, "please"))
    {
      br__words_put (l, l->count - 1, 1, "");
      /* list, please */
      const size_t last = l->count - 1;
      l->word[last].length -= (size_t) (l->word[last].length > 1 && l->word[last].s[l->word[last].length - 1] == ',');
    }
  if (l->count > 2 && (br__words_at (l, l->count - 2, "to|for me") || br__words_at (l, l->count - 2, "for us")))
    br__words_put (l, l->count - 2, 2, "");
  if (l->count == 1 && (br__word_at (l, 0, "exit") || br__word_at (l, 0, "bye") || br__word_at (l, 0, "q")))
    br__words_put (l, 0, 1, "quit");
  if (l->count == 1 && br__word_at (l, 0, "checks"))
    br__words_put (l, 0, 1, "check");
  if (l->count && l->word[0].s[0] == '?')
    {
      if (l->word[0].length == 1)
        br__words_put (l, 0, 1, "help");
      else
        {
          l->word[0].s++, l->word[0].length--;
          br__words_put (l, 0, 0, "help");
        }
    }
  for (size_t k = 0; k < sizeof table / sizeof table[0]; k++)
    if (br__words_at (l, 0, table[k].phrase) && !br__word_known (l, 0) && (l->count > 1 || strcmp (table[k].phrase, CORRECTS) != 0)
        && (strncmp (table[k].phrase, "show|list", 9) != 0 || l->count == 2))
      br__words_put (l, 0, br__words_of (table[k].phrase), table[k].is);
  /* show 3-1/4 in mm, show wheel in mm */
  if (br__words_at (l, 0, "show|display|list|print") && !br__word_known (l, 0)
      && ((br__word_begins_number (l, 1) && (l->count > 2 || !br__word_at (l, 0, "list"))) || (l->count > 2 && br__word_known (l, 1))))
    br__words_put (l, 0, 1, "");
  how_many (l);
  if ((br__word_at (l, 0, "a") || br__word_at (l, 0, "an")) && br__word_is_unit (l, 1) && !br__word_known (l, 0))
    br__words_put (l, 0, 1, "1");
  while (br__words_at (l, 0, "the|my") && l->count > 1 && !br__word_known (l, 0))
    br__words_put (l, 0, 1, "");
}

/* set wheel = 2, define wheel = 2, change wheel to 2-1/2, let wheel be 2, wheel: 2, wheel := 2 */
static void
assignments (br__words *l)
{
  const br__statement *st;
  int word = br__word_at (l, 0, "set") || br__word_at (l, 0, "change") || br__word_at (l, 0, "let") || br__word_at (l, 0, "make")
             || br__word_at (l, 0, "update") || br__word_at (l, 0, "define");
  /* make it 5: of what?  */
  word = word && !br__words_at (l, 2, "and|&") && !br__words_at (l, 1, "it|this|that|them|everything|all") && !br__word_at (l, 2, "by");
  /* make deck 18 in long: a shape is no size.  */
  word = word && (!br__word_thing (l, 1) || (br__word_thing (l, 1) & BR__THING_SIZE));
  if (word && l->count > 2 && !br__word_known (l, 0))
    br__words_put (l, 0, br__word_at (l, 1, "the") ? 2 : 1, "");
  else
    word = 0;
  if (l->count < 2)
    return;
  if (br__statement_of (l->run, l->word[0].s, l->word[0].length) && l->count > 2 && l->word[1].length > 1
      && l->word[1].s[l->word[1].length - 1] == ':')
    {
      l->word[1].length--;
      br__words_put (l, 2, 0, "=");
      return;
    }
  size_t n = l->word[0].length;
  const size_t second = l->word[1].length;
  /* wheel diameter: 3 */
  if (l->count > 2 && second > 2 && l->word[1].s[second - 1] == ':' && br__word_begins_number (l, 2) && br__word_is_new (l, 0)
      && br__letter_at (l->word[1].s, second, 0))
    {
      l->word[1].length--;
      br__words_put (l, 2, 0, "=");
      return;
    }
  if (n > 1 && l->word[0].s[n - 1] == ':' && !br__words_at (l, 0, "rule:") && br__letter_at (l->word[0].s, n, 0))
    {
      /* A statement takes what stands behind its colon, and a name is set to it.  */
      l->word[0].length--, l->changed = 1;
      if (!br__statement_of (l->run, l->word[0].s, l->word[0].length))
        br__words_put (l, 1, 0, "=");
    }
  else if (l->word[1].length == 2 && memcmp (l->word[1].s, ":=", 2) == 0)
    br__words_put (l, 1, 1, "=");
  else if (l->word[1].length == 1 && l->word[1].s[0] == ':' && !(br__word_known (l, 0) && br__word_known (l, 2)) && br__letter_at (l->word[0].s, n, 0))
    br__words_put (l, 1, 1, "=");
  else if (word && br__words_at (l, 1, "as big|large|long|wide|high|tall|thick|deep as"))
    br__words_put (l, 1, 3, "=");
  else if (word && (br__words_at (l, 1, "to|be|as|equal")))
    br__words_put (l, 1, 1, "=");
  else if (word && br__word_begins_number (l, 1))
    br__words_put (l, 1, 0, "=");
  st = br__statement_of (l->run, l->word[0].s, l->word[0].length);
  if (st && st->setting && l->word[1].length == 1 && l->word[1].s[0] == '=')
    br__words_put (l, 1, 1, "");
}

void
br__phrase_frame (br__words *l)
{
  br__words_cut (l);
  if (l->count == BR__MOST_WORDS || l->count == 0)
    return;
  questions (l);
  assignments (l);
}

/* What a size keeps: `hub = 3 +/- 1/16`.  */
static int
has_tolerance (const char *text, size_t length)
{
  static const char *const signs[] = { "+/-", "+-", "\xc2\xb1" };
  for (size_t i = 0; i < length; i++)
    for (size_t k = 0; k < sizeof signs / sizeof signs[0]; k++)
      if (length - i >= strlen (signs[k]) && memcmp (text + i, signs[k], strlen (signs[k])) == 0)
        return 1;
  return 0;
}

int
br__phrase_cell (br_text *t, br_text *left_out, const br__run *run)
{
  size_t start, end, from = 0;
  const char *equals = memchr (run->text, '=', run->end);
  if (equals)
    from = (size_t) (equals - run->text) + 1;
  if (equals && has_tolerance (run->text + from, run->end - from))
    return 0;
  if (!br__measure_within (&start, &end, run->text + from, run->end - from))
    return 0;
  br__text_put (t, run->text, from);
  br__text_puts (t, from ? " " : "");
  br__text_put (t, run->text + from + start, end - start);
  br__put_left_out (left_out, run->text + from, run->end - from, start, end);
  return !t->failed && !left_out->failed;
}

/* ---- Signs of other notations ---- */

/* The bytes of the bracket that begins at S, or of the number or name there, of N bytes; 0 where what follows could belong
   to it.  A root goes before the slash of a fraction and the sign of a difference, as a power does.  */
static size_t
operand_at (const char *s, size_t n)
{
  size_t size = 0, open = 0;
  if (n && *s == '(')
    do
      open += (size_t) (s[size] == '(') - (size_t) (s[size] == ')');
    while (++size < n && open);
  else
    while (size < n && (s[size] == '.' || br__letter_at (s + size, 1, 1)))
      size++;
  return open || (size < n && (strchr ("^.(", s[size]) || (signed char) s[size] < 0)) ? 0 : size;
}

/* √2, ∛27, ∜(3 + 13) at S as powers; the bytes that were read, 0 where it is none or could be read in two ways.  */
static size_t
read_root (br_text *t, const char *s, size_t n)
{
  static const char *const signs[] = { "\xe2\x88\x9a", "\xe2\x88\x9b", "\xe2\x88\x9c" };
  const size_t length = strlen (signs[0]);
  const char before = t->length ? t->bytes[t->length - 1] : '\0';
  const int product = before == ')' || (before >= '0' && before <= '9');
  for (int k = 0; k < 3; k++)
    {
      size_t start = length;
      if (n < length || memcmp (s, signs[k], length) != 0)
        continue;
      while (start < n && s[start] == ' ')
        start++;
      size_t size = operand_at (s + start, n - start);
      if (size && k == 0 && !product)
        br__text_printf (t, s[start] == '(' ? "%ssqrt%.*s" : "%ssqrt(%.*s)", t->length ? " " : "", (int) size, s + start);
      else if (size)
        br__text_printf (t, product ? " (%.*s^(1/%d))" : "%.*s^(1/%d)", (int) size, s + start, k + 2);
      return size ? start + size : 0;
    }
  return 0;
}

/* How many bars stand in the line.  */
static int
bars_of (const br__run *run)
{
  int bars = 0;
  for (size_t i = 0; i < run->end; i++)
    bars += run->text[i] == '|';
  return bars;
}

int
br__respell (br_text *t, const br__run *run, int more)
{
  static const struct { const char *typed, *is; int accepted; } signs[] = {
    { "**", "^", 1 }, { "+/-", " +- ", 1 }, { "=?", " = ? ", 1 }, { ":=", " = ", 1 }, { "->", " -> ", 1 }, { "\xe2\x86\x92", " -> ", 1 }, { "[", "(", 1 }, { "{", "(", 1 }, { "]", ")", 1 }, { "}", ")", 1 }, { "\xe2\x88\x9a", " sqrt ", 1 },
    { "\xcf\x80", " pi ", 1 }, { "//", "/", 0 }, { "\\", "/", 0 }, { "$", "", 0 },
    { "\xc3\x98", "", 0 }, { "\xc3\xb8", "", 0 } };
  int found = 0, bars = bars_of (run) == 2;
  for (size_t i = 0; i < run->end; )
    {
      size_t k = 0, n = read_root (t, run->text + i, run->end - i);
      if (n == 0 && bars && run->text[i] == '|')
        {
          br__text_puts (t, bars++ == 1 ? &" abs("[t->length == 0] : ")");
          n = 1;
        }
      if (n)
        {
          i += n;
          found = 1;
          continue;
        }
      for (; k < sizeof signs / sizeof signs[0]; k++)
        if ((n = strlen (signs[k].typed)) <= run->end - i && memcmp (run->text + i, signs[k].typed, n) == 0
            && (more || signs[k].accepted))
          break;
      if (k == sizeof signs / sizeof signs[0])
        br__text_putc (t, run->text[i++]);
      else
        {
          /* At an end, without its blank.  */
          const char *is = signs[k].is + (t->length == 0 && signs[k].is[0] == ' ');
          br__text_puts (t, is);
          i += n;
          found = 1;
        }
    }
  while (t->length && t->bytes[t->length - 1] == ' ')
    t->length--;
  return found && !t->failed;
}

