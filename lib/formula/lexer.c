/* SPDX-License-Identifier: LGPL-3.0-or-later
   lexer.c - splits a line into tokens: measures, names and signs.  Measures are parsed by
   lib/measure, so that a number means the same everywhere.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "exact/text.h"
#include "measure/measure.h"
#include "formula/lexer.h"

size_t
br__blank_at (const char *text, size_t length)
{
  br__glyph g = br__glyph_at (text, length, 0);
  return g.kind == BR__GLYPH_BLANK || (g.kind == BR__GLYPH_CONTROL && g.code == '\r') ? g.length : 0;
}

/* Letters beyond ASCII by blocks: those of alphabets and syllabaries, without signs, number
   forms, and the invisible controls that could make one name look like another.  */
static int
is_letter (unsigned c)
{
  if (c == 0xD7 || c == 0xF7 || c == 0x61C || c == 0x180E)
    return 0;
  return (c >= 0xC0 && c <= 0x2FF) || (c >= 0x370 && c <= 0x1FFF) || (c >= 0x2C00 && c <= 0x2DFF)
         || (c >= 0x3041 && c <= 0xA7FF) || (c >= 0xAC00 && c <= 0xD7A3)
         || (c >= 0xF900 && c <= 0xFAFF) || (c >= 0x20000 && c <= 0x2FA1F);
}

size_t
br__letter_at (const char *text, size_t length, int digits)
{
  if (!length)
    return 0;
  br__glyph g = br__glyph_at (text, length, 0);
  if (g.kind == BR__GLYPH_LETTER || g.code == '_')
    return 1;
  if (g.kind == BR__GLYPH_DIGIT && g.length == 1)
    return digits ? 1 : 0;
  if (g.kind != BR__GLYPH_OTHER)
    return 0;
  if (is_letter (g.code) || (digits && g.code >= 0x300 && g.code <= 0x36F))
    return g.length;
  return 0;
}

size_t
br__note_start (const char *text, size_t length)
{
  const char *hash = memchr (text, '#', length);
  return hash ? (size_t) (hash - text) : length;
}

int
br__same_word (const char *text, size_t length, const char *word)
{
  return br__word_is (text, length, word);
}

int
br__lex_is_word (const br__lexer *l, const char *word)
{
  return l->status == BR_OK && l->token.type == BR__NAME
         && br__same_word (l->text + l->token.offset, l->token.length, word);
}

int
br__lex_is_sign (const br__lexer *l, int sign)
{
  return l->status == BR_OK && l->token.type == BR__SIGN && l->token.sign == sign;
}

br_status
br__stray (const char *text, size_t end, size_t offset, br_error *error)
{
  br__glyph g = br__glyph_at (text, end, offset);
  unsigned c = g.code;
  if (g.kind == BR__GLYPH_BROKEN)
    return br__fail (error, BR_SYNTAX, offset, 1,
                     "byte 0x%02x is not part of any text (the line is not UTF-8)",
                     (unsigned char) text[offset]);
  if (g.kind == BR__GLYPH_CONTROL)
    return br__fail (error, BR_SYNTAX, offset, g.length, "a control character (0x%02x) stands here", c);
  if (c < 0x80)
    return br__fail (error, BR_SYNTAX, offset, 1, "`%c` has no meaning here", (char) c);
  return br__fail (error, BR_SYNTAX, offset, g.length, "the character U+%04X has no meaning here", c);
}

/* Signs that have more than one spelling.  */
static const struct { unsigned code; int sign; } glyphs[] =
{
  { 0xD7, '*' }, { 0xB7, '*' }, { 0x22C5, '*' }, { 0x2219, '*' }, { 0xF7, '/' },
  { 0xB1, BR__PLUS_MINUS }, { 0x2264, BR__AT_MOST }, { 0x2265, BR__AT_LEAST },
  { 0x2260, BR__UNEQUAL }
};

static int
glyph_sign (const br__glyph *g)
{
  if (g->kind == BR__GLYPH_DASH)
    return '-';
  if (g->kind == BR__GLYPH_SLASH || g->kind == BR__GLYPH_FRACTION_SLASH)
    return '/';
  for (size_t i = 0; i < sizeof glyphs / sizeof glyphs[0]; i++)
    if (glyphs[i].code == g->code)
      return glyphs[i].sign;
  return 0;
}

static br_status
lex_sign (br__lexer *l, br_error *error)
{
  const char *s = l->text + l->token.offset;
  size_t left = l->end - l->token.offset;
  br__glyph g = br__glyph_at (l->text, l->end, l->token.offset);
  unsigned c = g.code;

  l->token.type = BR__SIGN;
  l->token.length = g.length;
  if (left > 1 && s[1] == '=' && (c == '<' || c == '>' || c == '!'))
    {
      l->token.sign = c == '<' ? BR__AT_MOST : c == '>' ? BR__AT_LEAST : BR__UNEQUAL;
      l->token.length = 2;
      return BR_OK;
    }
  if (left > 1 && c == '+' && s[1] == '-')
    {
      l->token.sign = BR__PLUS_MINUS;
      l->token.length = 2;
      return BR_OK;
    }
  if ((l->token.sign = glyph_sign (&g)) != 0)
    return BR_OK;
  if (c && c < 0x80 && strchr ("+*^(),:<>=", (int) c))
    {
      l->token.sign = (int) c;
      return BR_OK;
    }
  return br__stray (l->text, l->end, l->token.offset, error);
}

int
br__lex_is_known (const br__lexer *l)
{
  return l->known && l->token.type == BR__NAME
         && l->known (l->user, l->text + l->token.offset, l->token.length);
}

/* The statement of L with S in the place of the LENGTH bytes at OFFSET, in quotes.  */
static void
put_instead (br_text *t, const br__lexer *l, size_t offset, size_t length, const char *s)
{
  size_t end = l->end;
  while (end > offset + length && br__blank_at (l->text + end - 1, 1))
    end--;
  br__text_putc (t, '`');
  br__text_put (t, l->text, offset);
  br__text_puts (t, s);
  br__text_put (t, l->text + offset + length, end - offset - length);
  br__text_putc (t, '`');
}

void
br__hint_instead (br_error *error, const br__lexer *l, size_t offset, size_t length, const char *a, const char *b)
{
  br_text t = BR_TEXT_ZERO;
  br__text_puts (&t, "write ");
  put_instead (&t, l, offset, length, a);
  if (b)
    {
      br__text_puts (&t, " or ");
      put_instead (&t, l, offset, length, b);
    }
  if (!t.failed && t.length < BR_HINT_SIZE)
    br__hint (error, "%s", br__text_string (&t));
  br__text_clear (&t);
}

/* Boxes are scanned as if a square were one inch: see br__lexer.  */
static br_status
scan_number (br_measure *m, size_t *used, const br__lexer *l, size_t end, br_error *error)
{
  static const br_number one = { 1, 0 };
  br_status status = br_measure_scan (m, used, l->text + l->token.offset, end - l->token.offset, &one, error);
  if (status != BR_OK && error)
    error->offset += l->token.offset;
  return status;
}

br_status
br__lex_number (br_measure *m, const br__lexer *l, br_error *error)
{
  size_t used;
  return scan_number (m, &used, l, l->token.offset + l->token.length, error);
}

/* 1 where a power follows at AT, after blanks too.  */
static int
power_follows (const br__lexer *l, size_t at)
{
  br__glyph g;
  at = br__skip_blanks (l->text, l->end, at);
  g = br__glyph_at (l->text, l->end, at);
  return g.code == '^' || br__raised_end (l->text, l->end, at) > at;
}

static br_status
refuse_mixed_base (const br__lexer *l, const br__numeral *n, br_error *error)
{
  const char *s = l->text + n->start;
  br_text whole = BR_TEXT_ZERO, sum = BR_TEXT_ZERO;
  size_t size = n->end - n->start, cut = 0, part;
  while (cut < size && br__glyph_at (s, size, cut).kind == BR__GLYPH_DIGIT)
    cut++;
  int dash = br__glyph_at (s, size, cut).kind == BR__GLYPH_DASH;
  part = br__skip_blanks (s, size, dash ? cut + br__glyph_at (s, size, cut).length : cut);
  br_status status = br__fail (error, BR_SYNTAX, n->start, size,
                               "a mixed number with a power behind it can be read in two ways");
  br__text_printf (&whole, "(%.*s)", br__clip (s, size, 40), s);
  br__text_printf (&sum, "%.*s %c %.*s", (int) cut, s, dash ? '-' : '+', (int) (size - part), s + part);
  br__hint_instead (error, l, n->start, size, br__text_string (&whole), br__text_string (&sum));
  br__text_clear (&whole);
  br__text_clear (&sum);
  return status;
}

/* Before a power a fraction is a division, whose denominator the power binds tighter; and a power of a whole
   measure wants brackets.  USED gets shorter.  */
static br_status
split_base (const br__lexer *l, const br_measure *m, size_t *used, br_error *error)
{
  br__reader r = { l->text, l->end, NULL, error };
  br__numeral n = BR__NUMERAL_ZERO;
  size_t start = l->token.offset;
  br_status status = br__numeral_scan (&n, &r, start);

  if (status == BR_OK && (m->unit || n.end != start + *used))
    {
      br_text whole = BR_TEXT_ZERO;
      status = br__fail (error, BR_SYNTAX, start, *used, "a power of a whole measure wants brackets");
      br__text_printf (&whole, "(%.*s)", br__clip (l->text + start, *used, 40), l->text + start);
      br__hint_instead (error, l, start, *used, br__text_string (&whole), NULL);
      br__text_clear (&whole);
    }
  else if (status == BR_OK && n.form == BR__FORM_MIXED)
    status = refuse_mixed_base (l, &n, error);
  else if (status == BR_OK && n.form == BR__FORM_FRACTION)
    for (size_t at = start; at < n.end; )
      {
        br__glyph g = br__glyph_at (l->text, n.end, at);
        if (g.kind == BR__GLYPH_SLASH || g.kind == BR__GLYPH_FRACTION_SLASH)
          {
            *used = at - start;
            break;
          }
        if (g.kind != BR__GLYPH_DIGIT)
          break;
        at += g.length;
      }
  br_number_clear (&n.value);
  return status;
}

/* An exponent is a whole number or a decimal: the slash and the hyphen behind it are signs.  */
static br_status
lex_exponent (br__lexer *l, br_error *error)
{
  size_t at = l->token.offset;
  br_measure m = BR_MEASURE_ZERO;
  br_status status;
  while (at < l->end && l->text[at] >= '0' && l->text[at] <= '9')
    at++;
  if (at + 1 < l->end && l->text[at] == '.' && l->text[at + 1] >= '0' && l->text[at + 1] <= '9')
    for (at++; at < l->end && l->text[at] >= '0' && l->text[at] <= '9'; at++)
      ;
  if (at == l->token.offset)
    {
      br__glyph g = br__glyph_at (l->text, l->end, at);
      br_text t = BR_TEXT_ZERO;
      status = br__fail (error, BR_SYNTAX, at, g.length, "behind a `^` a fraction stands in brackets");
      br__text_printf (&t, "(%.*s)", (int) g.length, l->text + at);
      br__hint_instead (error, l, at, g.length, br__text_string (&t), NULL);
      br__text_clear (&t);
      return status;
    }
  status = scan_number (&m, &l->token.length, l, at, error);
  br_measure_clear (&m);
  return status;
}

/* The end of digits with points and commas at START, whose commas have a digit on both sides; 0 where no comma is.  */
static size_t
comma_end (const br__lexer *l, size_t start)
{
  size_t at = start;
  int comma = 0;
  for (; at < l->end; at++)
    {
      char c = l->text[at];
      int digit = at + 1 < l->end && l->text[at + 1] >= '0' && l->text[at + 1] <= '9';
      if (c == ',' && digit && at > start)
        comma = 1;
      else if (!((c >= '0' && c <= '9') || (c == '.' && digit)))
        break;
    }
  return comma ? at : 0;
}

/* The digits at S in groups of three behind the first, which GROUPS (, or .) part, and behind them POINT and more or nothing:
   1,234.56 or 1.234,56.  */
static int
are_thousands (const char *s, size_t length, char groups, char point)
{
  size_t group = 0, parted = 0;
  if (*s == '0')
    return 0;
  for (size_t i = 0;; i++)
    {
      if (i < length && s[i] >= '0' && s[i] <= '9')
        {
          group++;
          continue;
        }
      if (parted ? group != 3 : group < 1 || group > 3)
        return 0;
      if (i == length || s[i] == point)
        return parted && (groups == ',' || i < length) && !memchr (s + i, groups, length - i)
               && (i == length || !memchr (s + i + 1, point, length - i - 1));
      if (s[i] != groups)
        return 0;
      parted++;
      group = 0;
    }
}

/* Puts the LENGTH bytes at S, in which a comma is, as the number that they could be into NUMBER, and as a list into LIST.
   *ONE = 0 where they can only be a list.  1 where they have commas or points between their thousands.  */
static int
put_readings (br_text *number, br_text *list, int *one, const char *s, size_t length)
{
  int thousands = are_thousands (s, length, ',', '.'), points = are_thousands (s, length, '.', ','), commas = 0;
  for (size_t i = 0; i < length; i++)
    {
      commas += s[i] == ',';
      if (s[i] == ',' ? !thousands : s[i] != '.' || !points)
        br__text_putc (number, s[i] == ',' ? '.' : s[i]);
      br__text_put (list, s + i, 1);
      if (s[i] == ',')
        br__text_putc (list, ' ');
    }
  *one = thousands || points || (commas == 1 && !memchr (s, '.', length));
  return thousands || points;
}

/* 25,4 and 1,234.56: a number with a comma in it, or a list.  The hint has all of them, up to a bracket.  */
static br_status
refuse_comma (const br__lexer *l, size_t end, br_error *error)
{
  size_t start = l->token.offset, at = end, behind;
  br_text number = BR_TEXT_ZERO, list = BR_TEXT_ZERO;
  int one, other, thousands = put_readings (&number, &list, &one, l->text + start, end - start);
  /* A place has two numbers: circle c = 6 at 4,4.  Behind another comma it goes on with a list.  */
  one = one && !(start > 0 && l->text[start - 1] == ',') && !(start > 3 && br__same_word (l->text + start - 3, 2, "at") && br__blank_at (l->text + start - 4, 1) && br__blank_at (l->text + start - 1, 1));
  br_status status = br__fail (error, BR_SYNTAX, start, end - start,
                               thousands ? "a number is written without commas between its thousands"
                               : one ? "a decimal is written with a point, and a list with a blank behind each comma"
                                     : "a list has a blank behind each comma");
  while (at < l->end && l->text[at] != '(')
    {
      int digits = l->text[at] >= '0' && l->text[at] <= '9' && br__blank_at (l->text + at - 1, 1);
      if (digits && (behind = comma_end (l, at)) > 0)
        {
          (void) put_readings (&number, &list, &other, l->text + at, behind - at);
          at = behind;
        }
      else
        {
          br__text_put (&number, l->text + at, 1);
          br__text_put (&list, l->text + at++, 1);
        }
    }
  br__hint_instead (error, l, start, at - start, br__text_string (one ? &number : &list), one ? br__text_string (&list) : NULL);
  br__text_clear (&number);
  br__text_clear (&list);
  return status;
}

static br_status
lex_number (br__lexer *l, br_error *error)
{
  br_measure m = BR_MEASURE_ZERO;
  size_t end = l->end, comma = comma_end (l, l->token.offset);
  l->token.type = BR__NUMBER;
  if (comma && !l->commas)
    return refuse_comma (l, comma, error);
  if (l->power)
    return lex_exponent (l, error);
  if (comma)
    end = l->token.offset + (size_t) ((const char *) memchr (l->text + l->token.offset, ',', comma - l->token.offset)
                                      - (l->text + l->token.offset));
  br_status status = scan_number (&m, &l->token.length, l, end, error);
  if (status == BR_OK && power_follows (l, l->token.offset + l->token.length))
    status = split_base (l, &m, &l->token.length, error);
  br_measure_clear (&m);
  return status;
}

/* Before a number a sign of a diameter, Ø6, and no name.  */
static int
is_diameter_sign (const br__lexer *l, size_t n)
{
  const char *s = l->text + l->next;
  return n == 2 && s[0] == '\xc3' && (s[1] == '\x98' || s[1] == '\xb8') && br__measure_begins (l->text, l->end, l->next + n);
}

br_status
br__lex_next (br__lexer *l, br_error *error)
{
  size_t before = l->next, n;
  if (l->status != BR_OK)
    return l->status;
  while ((n = br__blank_at (l->text + l->next, l->end - l->next)) > 0)
    l->next += n;
  l->token.blank_before = l->next > before;
  l->token.offset = l->next;
  l->token.length = 0;
  l->token.sign = 0;
  if (l->next >= l->end)
    {
      l->token.type = BR__END;
      return BR_OK;
    }
  const char *s = l->text + l->next;
  size_t left = l->end - l->next;
  br_status status = BR_OK;
  if ((n = br__raised_end (l->text, l->end, l->next)) > l->next)
    {
      l->token.type = BR__RAISED;
      l->token.length = n - l->next;
    }
  else if (br__measure_begins (l->text, l->end, l->next))
    status = lex_number (l, error);
  else if ((n = br__letter_at (s, left, 0)) > 0 && !is_diameter_sign (l, n))
    {
      l->token.type = BR__NAME;
      do
        l->token.length += n;
      while ((n = br__letter_at (s + l->token.length, left - l->token.length, 1)) > 0);
    }
  else
    status = lex_sign (l, error);
  if (status == BR_OK)
    {
      l->next = l->token.offset + l->token.length;
      l->power = br__lex_is_sign (l, '^')
                 || (l->power && (br__lex_is_sign (l, '-') || br__lex_is_sign (l, '+')));
    }
  return br__lex_fail (l, status);
}

br_status
br__lex_from (br__lexer *l, size_t next, br_error *error)
{
  l->status = BR_OK;
  l->next = next;
  return br__lex_next (l, error);
}

br_status
br__lex_start (br__lexer *l, const char *text, size_t end, br_error *error)
{
  memset (l, 0, sizeof *l);
  l->text = text;
  l->end = end;
  return br__lex_next (l, error);
}
