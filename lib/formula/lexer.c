/* SPDX-License-Identifier: LGPL-3.0-or-later
   lexer.c - cuts a line into measures, names and signs.  Measures are left to the reader
   of lib/measure, so that a number means the same wherever it stands.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
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
  return l->token.type == BR__NAME
         && br__same_word (l->text + l->token.offset, l->token.length, word);
}

int
br__lex_is_sign (const br__lexer *l, int sign)
{
  return l->token.type == BR__SIGN && l->token.sign == sign;
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
  if (c == ';')
    {
      br__fail (error, BR_SYNTAX, offset, 1, "`;` has no meaning here");
      br__hint (error, "one statement a line, and a comma between the members of a list");
      return BR_SYNTAX;
    }
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

/* Boxes are scanned as if a square were one inch: see br__lexer.  */
static br_status
scan_number (br_measure *m, size_t *used, const br__lexer *l, br_error *error)
{
  static const br_number one = { 1, 0 };
  br_status status = br_measure_scan (m, used, l->text + l->token.offset, l->end - l->token.offset,
                                      &one, error);
  if (status != BR_OK && error)
    error->offset += l->token.offset;
  return status;
}

br_status
br__lex_number (br_measure *m, const br__lexer *l, br_error *error)
{
  size_t used;
  return scan_number (m, &used, l, error);
}

br_status
br__lex_next (br__lexer *l, br_error *error)
{
  size_t before = l->next, n;
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
  if (br__measure_begins (l->text, l->end, l->next))
    {
      br_measure m = BR_MEASURE_ZERO;
      l->token.type = BR__NUMBER;
      status = scan_number (&m, &l->token.length, l, error);
      br_measure_clear (&m);
    }
  else if ((n = br__letter_at (s, left, 0)) > 0)
    {
      l->token.type = BR__NAME;
      do
        l->token.length += n;
      while ((n = br__letter_at (s + l->token.length, left - l->token.length, 1)) > 0);
    }
  else
    status = lex_sign (l, error);
  if (status == BR_OK)
    l->next = l->token.offset + l->token.length;
  return status;
}

br_status
br__lex_start (br__lexer *l, const char *text, size_t end, br_error *error)
{
  memset (l, 0, sizeof *l);
  l->text = text;
  l->end = end;
  return br__lex_next (l, error);
}
