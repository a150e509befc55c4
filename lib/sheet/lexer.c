/* SPDX-License-Identifier: LGPL-3.0-or-later
   lexer.c - cuts a line into measures, names and signs.  Measures are left to the reader
   of lib/measure, so that a number means the same wherever it stands.  */
#ifdef HAVE_CONFIG_H
# include <config.h>
#endif

#include <string.h>

#include "exact/status.h"
#include "sheet/lexer.h"

/* The character at TEXT: its code point, and its bytes in USED.  0xFFFD with USED 1 where the
   bytes are no UTF-8 (overlong forms and surrogates among them).  */
static uint32_t
decode (const char *text, size_t length, size_t *used)
{
  const unsigned char *s = (const unsigned char *) text;
  size_t need;
  uint32_t c, least;

  *used = 1;
  if (s[0] < 0x80)
    return s[0];
  if (s[0] >= 0xC2 && s[0] < 0xE0)
    need = 2, c = s[0] & 0x1F, least = 0x80;
  else if (s[0] >= 0xE0 && s[0] < 0xF0)
    need = 3, c = s[0] & 0x0F, least = 0x800;
  else if (s[0] >= 0xF0 && s[0] < 0xF5)
    need = 4, c = s[0] & 0x07, least = 0x10000;
  else
    return 0xFFFD;
  if (need > length)
    return 0xFFFD;
  for (size_t i = 1; i < need; i++)
    {
      if ((s[i] & 0xC0) != 0x80)
        return 0xFFFD;
      c = c << 6 | (s[i] & 0x3F);
    }
  if (c < least || (c >= 0xD800 && c < 0xE000) || c > 0x10FFFF)
    return 0xFFFD;
  *used = need;
  return c;
}

size_t
br__blank_at (const char *text, size_t length)
{
  if (!length)
    return 0;
  if (text[0] == ' ' || text[0] == '\t' || text[0] == '\r')
    return 1;
  if ((unsigned char) text[0] < 0x80)
    return 0;
  size_t used;
  uint32_t c = decode (text, length, &used);
  if (c == 0xA0 || (c >= 0x2000 && c <= 0x200B) || c == 0x202F || c == 0x205F || c == 0x2060
      || c == 0x3000 || c == 0xFEFF)
    return used;
  return 0;
}

/* Letters beyond ASCII by blocks: those of alphabets and syllabaries, without signs, number
   forms, and the invisible controls that could make one name look like another.  */
static int
is_letter (uint32_t c)
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
  unsigned char c = (unsigned char) text[0];
  if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_')
    return 1;
  if (c >= '0' && c <= '9')
    return digits ? 1 : 0;
  if (c < 0x80)
    return 0;
  size_t used;
  uint32_t u = decode (text, length, &used);
  if (is_letter (u) || (digits && u >= 0x300 && u <= 0x36F))
    return used;
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
  size_t i;
  for (i = 0; i < length && word[i]; i++)
    {
      char c = text[i];
      if (c >= 'A' && c <= 'Z')
        c = (char) (c - 'A' + 'a');
      if (c != word[i])
        return 0;
    }
  return i == length && word[i] == 0;
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
  size_t used;
  unsigned char b = (unsigned char) text[offset];
  uint32_t c = decode (text + offset, end - offset, &used);
  if (c == 0xFFFD && used == 1)
    return br__fail (error, BR_SYNTAX, offset, 1,
                     "byte 0x%02x is not part of any text (the line is not UTF-8)", b);
  if (c < 0x20 || c == 0x7F)
    return br__fail (error, BR_SYNTAX, offset, 1, "a control character (0x%02x) stands here", b);
  if (c == ';')
    {
      br__fail (error, BR_SYNTAX, offset, 1, "`;` has no meaning here");
      br__hint (error, "one statement a line, and a comma between the members of a list");
      return BR_SYNTAX;
    }
  if (c < 0x80)
    return br__fail (error, BR_SYNTAX, offset, 1, "`%c` has no meaning here", (char) c);
  return br__fail (error, BR_SYNTAX, offset, used, "the character U+%04X has no meaning here",
                   (unsigned) c);
}

/* Signs that have more than one spelling.  */
static const struct { uint32_t c; int sign; } glyphs[] =
{
  { 0xD7, '*' }, { 0xB7, '*' }, { 0x22C5, '*' }, { 0x2219, '*' }, { 0xF7, '/' },
  { 0x2044, '/' }, { 0x2215, '/' }, { 0x2212, '-' }, { 0x2010, '-' }, { 0x2011, '-' },
  { 0x2012, '-' }, { 0x2013, '-' }, { 0xB1, BR__PLUS_MINUS }, { 0x2264, BR__AT_MOST },
  { 0x2265, BR__AT_LEAST }, { 0x2260, BR__UNEQUAL }
};

static br_status
lex_sign (br__lexer *l, br_error *error)
{
  const char *s = l->text + l->token.offset;
  size_t left = l->end - l->token.offset, used;
  uint32_t c = decode (s, left, &used);

  l->token.type = BR__SIGN;
  l->token.length = used;
  for (size_t i = 0; i < sizeof glyphs / sizeof glyphs[0]; i++)
    if (glyphs[i].c == c)
      {
        l->token.sign = glyphs[i].sign;
        return BR_OK;
      }
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
  if (c && c < 0x80 && strchr ("+-*/^(),:<>=", (int) c))
    {
      l->token.sign = (int) c;
      return BR_OK;
    }
  return br__stray (l->text, l->end, l->token.offset, error);
}

/* Whether a measure may begin at S: a digit, a point before a digit, or a fraction glyph.  */
static int
begins_number (const char *s, size_t left)
{
  if (s[0] >= '0' && s[0] <= '9')
    return 1;
  if (s[0] == '.')
    return 1;
  if ((unsigned char) s[0] < 0x80)
    return 0;
  size_t used;
  uint32_t c = decode (s, left, &used);
  return (c >= 0xBC && c <= 0xBE) || (c >= 0x2150 && c <= 0x215F) || c == 0x2189
         || c == 0xB2 || c == 0xB3 || c == 0xB9 || (c >= 0x2070 && c <= 0x2079);
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
  if (begins_number (s, left))
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
